/* SPDX-License-Identifier: MIT */
/* The columns of each reader's sheet: private to paper/. */
#ifndef DS_PAPER_SHEET_COLUMNS_H
#define DS_PAPER_SHEET_COLUMNS_H

#include "paper/paper.h"

/* What one column says of a point: text, or a number (NAN: an empty cell), or neither: room to write in. */
typedef struct ds_sheet_column {
    const char *head;
    double width; /* characters */
    void (*say)(ds_text *out, const ds_findings *findings, const ds_finding *finding);
    double (*number)(const ds_finding *finding);
    bool figures; /* a number of a group */
} ds_sheet_column;

typedef struct ds_sheet_form {
    const char *name;
    const ds_sheet_column *const *columns;
    size_t columns_len;
    size_t held; /* columns that stay in sight at the left */
} ds_sheet_form;

/*
 * DS_READER_ALL: everything there is of a point. A row of the buyer's sheet is what is alike; its last DS_SHEET_OF_GROUP
 * columns (pieces, those that fit, points) are of the group, the others of its first point.
 */
enum { DS_SHEET_OF_GROUP = 3 };
const ds_sheet_form *ds_sheet_form_of(ds_reader_kind reader);

#endif
