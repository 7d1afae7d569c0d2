/* SPDX-License-Identifier: MIT */
/*
 * The SVG of a sheet: one element, for a file as it is or for a page between other elements.
 *
 * Millimetres to three places, real text, hatches as patterns; white paper under all, so that it also reads on a dark
 * page. No reference to anything outside, no script, no style sheet. <title> and <desc> speak for the drawing, each group
 * has its role as class, its id as data-id and its title as <title>. The same sheet gives the same bytes.
 *
 *     ds_text text;
 *     ds_text_init(&text, alloc);
 *     ds_sheet_svg(&text, &sheet);
 *     if (!ds_text_ok(&text)) … out of memory …
 */
#ifndef DS_DRAW_SHEET_SVG_H
#define DS_DRAW_SHEET_SVG_H

#include "core/draw/sheet.h"

/* Appends it, ended by a line end. Of a sheet that failed: what came before the failure, groups closed. */
void ds_sheet_svg(ds_text *out, const ds_sheet *sheet);

#endif
