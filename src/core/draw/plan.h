/* SPDX-License-Identifier: MIT */
/*
 * A wet place on one A4 sheet: the plan with its zones, a section below it on the same scale, points with their numbers,
 * the string to what is barred, and a table that says which zone each point is in and why.
 *
 *     ds_sheet sheet;
 *     if (ds_plan_sheet(&sheet, &findings, place, &arena) == DS_OK) {
 *         ds_sheet_svg(&text, &sheet);
 *     }
 */
#ifndef DS_DRAW_PLAN_H
#define DS_DRAW_PLAN_H

#include "core/assess/assess.h"
#include "core/draw/sheet.h"

#define DS_A4_WIDTH_MM 210.0
#define DS_A4_HEIGHT_MM 297.0

/* DS_BAD_INPUT: the place has no usable plan, or none of its packs has zones for it. The sheet lies in the arena. */
ds_status ds_plan_sheet(ds_sheet *out, const ds_findings *findings, size_t place, ds_arena *arena);

#endif
