/* SPDX-License-Identifier: MIT */
/* Texts as cells of a book: what XML and the format cannot hold is changed, and the height of a row. Private to paper/. */
#ifndef DS_PAPER_SHEET_TEXT_H
#define DS_PAPER_SHEET_TEXT_H

#include "core/base/text.h"

/*
 * Makes a text fit a cell and ends it with a zero byte: what looks like an escape ("_x0041_") is escaped, what is longer
 * than a cell ends with an ellipsis, and U+FFFE and U+FFFF become U+FFFD.
 */
void ds_cell_fit(ds_text *text);

/* The same for the title of a book, which is shorter and holds no controls, not even escaped. */
void ds_title_fit(ds_text *text);

/* Lines that a text takes in a column of that many characters, rather too many: not every reader fits the height. */
double ds_cell_lines(ds_str text, double width);

#endif
