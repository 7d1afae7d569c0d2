/* SPDX-License-Identifier: MIT */
/*
 * What cairo 1.16 has no call for, added to a PDF that it has written: the language, that a reader shows the title, that
 * the file is tagged, and one Document above all tags (cairo cannot keep a tag open over the end of a page).
 *
 * It is done as the format provides for changes: the changed objects and a second table of offsets are appended, and what
 * was there stays byte for byte. Nothing is compressed in the parts that are read, cairo writes them plainly.
 */
#ifndef DS_PAPER_CATALOG_H
#define DS_PAPER_CATALOG_H

#include "core/base/text.h"

/* False when the file does not have the shape that cairo gives it (it is then left as it was) or memory is short. */
bool ds_catalog_complete(ds_text *pdf, const char *language);

#endif
