/* SPDX-License-Identifier: MIT */
/*
 * The rung picture on a sheet: the mark of the house, at any size.
 *
 * Four ladders on one ground line: solids left, the letters of access as a narrow ladder at their side, water right, blows
 * as a third scale. A solid bar is a proven rung, dots are an open one, nothing between the rails a denied one; what is
 * needed stands inside an outline. So a hole inside an outline is what the goods lack, at 24 pixels and on a wall.
 *
 * It is drawn in whichever of three forms still has readable type in its frame, the same ladders in each:
 *
 *     DS_RUNGS_MARK      no type; for a table cell, best 24 pixels high or a multiple
 *     DS_RUNGS_FIGURES   numerals, letters, joules and names; what is lost bears the shape of its verdict
 *     DS_RUNGS_WORDS     what each test is about too, and how to read the picture
 *
 *     ds_rungs_paint(&sheet, &rungs, (ds_rungs_frame){.x_mm = 10, .y_mm = 10, .width_mm = 60, .height_mm = 40});
 */
#ifndef DS_DRAW_RUNGS_SHEET_H
#define DS_DRAW_RUNGS_SHEET_H

#include "core/draw/rungs.h"
#include "core/draw/sheet.h"

typedef enum ds_rungs_form {
    DS_RUNGS_MARK,
    DS_RUNGS_FIGURES,
    DS_RUNGS_WORDS,
    DS_RUNGS_FORMS_LEN
} ds_rungs_form;

typedef struct ds_rungs_frame {
    double x_mm, y_mm; /* upper left corner */
    double width_mm, height_mm;
} ds_rungs_frame;

/* The richest form whose type is at least 2.1 mm high in a frame of this size. */
ds_rungs_form ds_rungs_form_in(double width_mm, double height_mm);

/* Width of a form by its height, so that a caller can make a frame without spare paper. */
double ds_rungs_aspect(ds_rungs_form form);

/*
 * Adds the picture as one group whose title says it in words; as large as the frame allows, in its middle.
 * A frame without width or height gets nothing.
 */
void ds_rungs_paint(ds_sheet *sheet, const ds_rungs *rungs, ds_rungs_frame frame);

#endif
