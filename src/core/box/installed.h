/* SPDX-License-Identifier: MIT */
/*
 * Installed protection: what is left of a box's mark after its entries and openings, test by test.
 *
 * Every entry and every measured opening is a part with a mark of its own; the whole is the weakest of the box's mark and
 * all parts: proven what all prove, denied what any denies. Order does not matter, and one more part never adds a proven
 * test. What the parts say does not depend on the box's mark, so they are judged once and set against the mark of each
 * state.
 *
 * A measured opening settles for itself access and objects up to 4, never dust or water (those stay open, unless it is
 * the maker's own and was tested with the box). On a face that is covered, as by a wall, and cannot be reached nobody
 * touches anything through it (common practice). Where all openings of all six faces are measured, they also prove what
 * they keep out for a box whose mark says nothing of it.
 *
 *     ds_installed installed;
 *     ds_installed_of(&installed, point->box, &sizes, &arena)
 *     const ds_mark mark = ds_installed_mark(&installed, marked);
 *     const ds_part *part = ds_installed_decides(&installed, marked, need);     NULL: the box's own mark does
 */
#ifndef DS_BOX_INSTALLED_H
#define DS_BOX_INSTALLED_H

#include "core/box/entry.h"

/* An entry, or an opening of a face. What it leaves is kept; why is judged again where it is said (entry_say.h). */
typedef struct ds_part {
    const ds_entry *entry; /* NULL: an opening */
    const ds_face *face;   /* of the opening; of the entry NULL where the box says nothing of its face */
    const ds_opening *opening;
    uint32_t number; /* of the entry in the box, of the opening in its face; from 1 */
    ds_mark mark;
} ds_part;

typedef struct ds_installed {
    const ds_sizes *sizes;
    const ds_part *parts; /* entries, then openings, in the order of the document */
    size_t parts_len;
    size_t entries_len;
    bool entries_stated; /* the box lists its entries; without, nothing is known of them */
    ds_mark parts_mark;  /* the weakest of the parts; DS_MARK_WHOLE without any */
    ds_mark measured;    /* what the shell proves round its openings; silent unless all faces are measured */
} ds_installed;

/* The parts live in the arena and borrow from box and sizes. */
ds_status ds_installed_of(ds_installed *out, const ds_box *box, const ds_sizes *sizes, ds_arena *arena);

/*
 * The box without its entries and openings: its own mark in one state, and what its shell proves by measure. Without a box
 * (NULL) the mark alone.
 */
ds_mark ds_installed_body(const ds_installed *installed, ds_mark marked);

/* Set against the box's own mark in one state. */
ds_mark ds_installed_mark(const ds_installed *installed, ds_mark marked);

/*
 * The part that decides against a need: of those that make the verdict worst, the one that loses most tests, then the
 * first. NULL when no part alone is worse than the box. For one digit alone, give that track of the need:
 * (need & DS_WATER_ALL) | DS_NEED_NOTHING.
 */
const ds_part *ds_installed_decides(const ds_installed *installed, ds_mark marked, ds_need need);

/* The need for everything that a mark proves: against it a part that takes anything away is found. */
ds_need ds_installed_claim(ds_mark marked);

/*
 * Whether the entries meet a condition word of a mark: "spare-entries-plugged" (every entry holds something, and nothing
 * makeshift), "glands-fitted" (every gland and insert fits, and no entry is empty), "drain-lowest" (every drain is in
 * the bottom). DS_TRI_MISSING for other words and where the entries don't tell.
 */
ds_tri ds_installed_condition(const ds_installed *installed, ds_str word);

#endif
