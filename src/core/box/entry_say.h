/* SPDX-License-Identifier: MIT */
/*
 * Entries and openings in words: the same sentences for every output. They name the thing itself: the entry, its size,
 * the figure measured.
 *
 *     "Entry E2 (M20, bottom): the cable of 14 mm is thicker than the gland's 12 mm: nothing keeps water out there."
 *     "Fit a gland for 14 mm; one for 10 to 14 mm is usual."
 *
 * Each appends whole sentences, without a line end. `need` is what is needed, or, where only the box's own mark is to be
 * kept, ds_installed_claim of it. Never a word of drilling.
 */
#ifndef DS_BOX_ENTRY_SAY_H
#define DS_BOX_ENTRY_SAY_H

#include "core/box/installed.h"

/* "Entry E2 (M20, bottom)", "Entry 3 (left)", "Opening 1 in the top (round, 7 mm)" */
void ds_say_part_name(ds_text *out, const ds_part *part);

/* What of the part stands most against the need. Nothing when it loses nothing of it. */
void ds_say_part(ds_text *out, const ds_installed *installed, const ds_part *part, ds_need need);

/* What would restore it. Nothing when there is nothing to mend. */
void ds_say_part_mend(ds_text *out, const ds_installed *installed, const ds_part *part, ds_need need);

/* The key of the entry whose statement would settle it: "wall_seal"; NULL where nothing is to be stated, or no part. */
const char *ds_part_key(const ds_installed *installed, const ds_part *part, ds_need need);

/*
 * What else is worth saying of an entry: that water stands on an entry from above, that its hole is usual for another
 * thread, and where a diameter that counts comes from.
 */
void ds_say_part_notes(ds_text *out, const ds_installed *installed, const ds_part *part);

#endif
