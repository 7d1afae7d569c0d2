/* SPDX-License-Identifier: MIT */
/*
 * Point numbers beside a drawing: a number in a ring, a leader to what it names. They keep clear of each other, of what
 * the others name and of what else must stay readable.
 *
 *     ds_callout callouts[] = {{.x = 40, .y = 30, .text = DS_STR("3")}, …};
 *     const size_t crowded = ds_callouts_place(callouts, len, bounds, labels, label_len);
 *     for (size_t i = 0; i < len; i++) {
 *         ds_callout_draw(&sheet, &callouts[i]);
 *     }
 *
 * The same input gives the same places. Time grows with the square of their number: 100 take a few milliseconds.
 */
#ifndef DS_DRAW_CALLOUT_H
#define DS_DRAW_CALLOUT_H

#include "core/draw/sheet.h"
#include "core/mark/mark.h"

/* A rectangle on the sheet, right > left, bottom > top. */
typedef struct ds_patch {
    double left, top, right, bottom;
} ds_patch;

typedef struct ds_callout {
    double x, y;             /* what it names */
    ds_str text;             /* a number or a short id; borrowed */
    double label_x, label_y; /* middle of the ring, set by ds_callouts_place */
} ds_callout;

/* The paper that a text takes when written so; a turned one counts as a square around it. */
ds_patch ds_patch_of_text(double x, double y, ds_str text, const ds_lettering *how);

/* More labels than this are not sought a place for: no sheet holds them, and they would take seconds. */
enum { DS_CALLOUTS_SOUGHT = 300 };

/*
 * Finds a place for every label: the nearest of a fixed set that is free, in the given order. Labels stay inside bounds
 * where they can. Returns how many found no wholly free place; they stand where they hurt
 * least, those beyond DS_CALLOUTS_SOUGHT at their upper right.
 */
size_t ds_callouts_place(ds_callout *callouts, size_t len, ds_patch bounds, const ds_patch *taken,
                         size_t taken_len);

/* As one group, whose id is the text. */
void ds_callout_draw(ds_sheet *sheet, const ds_callout *callout);

/*
 * The shape of a verdict, as everywhere: fits is a full square, unknown a question mark, short a triangle, barred a cross.
 * About 2.2 mm wide. Drawn after the callout, on paper of its own, where the leader would cover it.
 */
void ds_callout_verdict(ds_sheet *sheet, double x, double y, ds_verdict verdict);

#endif
