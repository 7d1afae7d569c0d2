/* SPDX-License-Identifier: MIT */
/* Where labels stand on their sheet: private to paper/. */
#ifndef DS_PAPER_LABEL_SHEET_H
#define DS_PAPER_LABEL_SHEET_H

#include "paper/paper.h"

/* The first label's corner, and from one label to the next, in mm. */
typedef struct ds_label_grid {
    double left, top, step_x, step_y;
} ds_label_grid;

ds_label_grid ds_label_grid_of(const ds_label_sheet *sheet);

#endif
