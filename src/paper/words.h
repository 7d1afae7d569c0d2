/* SPDX-License-Identifier: MIT */
/*
 * Papers as they are written on the command line and in addresses: words to values.
 *
 *     ds_label_sheet sheet;
 *     const ds_label_words words = {.grid = DS_STR("2x7"), .label = DS_STR("99.1x38.1"), .skip = DS_STR("3")};
 *     const char *odd = ds_label_sheet_read(&sheet, &words);
 *     if (odd) … what is written for `odd` cannot be read …
 *     else if (ds_label_sheet_fault(&sheet)) … it can be read, and no sheet is like that …
 */
#ifndef DS_PAPER_WORDS_H
#define DS_PAPER_WORDS_H

#include "paper/paper.h"

/* "client" …; an absent word is all. False: there is no such reader. */
bool ds_reader_read(ds_reader_kind *out, ds_str word);

/* "a4" or "letter"; an absent word is A4. False: it is neither. */
bool ds_paper_size_read(ds_paper_size *out, ds_str word);

/* Two numbers each, "70x37", in mm but for the grid's; one for skip. Absent: 3x8 labels of 70x37 mm, in the middle. */
typedef struct ds_label_words {
    ds_str grid, label, corner, gap, skip;
} ds_label_words;

/* Reads all but the size. NULL, or the name of the first that cannot be read: "grid", "label" … */
const char *ds_label_sheet_read(ds_label_sheet *out, const ds_label_words *words);

#endif
