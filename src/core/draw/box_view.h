/* SPDX-License-Identifier: MIT */
/* What the parts of a box sheet share: private to draw/. */
#ifndef DS_DRAW_BOX_VIEW_H
#define DS_DRAW_BOX_VIEW_H

#include "core/draw/box.h"

#define DS_VIEW_PAGE_WIDTH_MM 210.0
#define DS_VIEW_PAGE_HEIGHT_MM 297.0
#define DS_VIEW_MARGIN_MM 12.0
#define DS_VIEW_WIDTH_MM 186.0

/* A number as text in the arena. */
ds_str ds_view_number(ds_arena *arena, size_t number);

/* Writes the text within a width, line under line, and empties it; returns y of the line after. */
double ds_view_paragraph(ds_sheet *sheet, ds_arena *arena, double x, double y, double width_mm, ds_text *text,
                         ds_lettering how);

/* The day inside: air, coldest wall, dew point and the limit over the hours. */
void ds_view_day(const ds_box_picture *p, ds_sheet *sheet, double top_mm, double height_mm);

#endif
