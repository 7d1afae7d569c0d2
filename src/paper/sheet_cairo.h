/* SPDX-License-Identifier: MIT */
/*
 * A sheet painted by cairo: the same pens, fills and lettering as its SVG, so a wall is as thick on paper as on the page.
 *
 *     ds_sheet_paint(&pdf, &sheet, 12, 40);           … at its own size, its upper left corner at 12, 40
 *
 * Hatches are drawn as lines, not as patterns: printers keep them sharp. Text stays text. Groups are not tagged; the
 * caller tags the whole as a figure.
 */
#ifndef DS_PAPER_SHEET_CAIRO_H
#define DS_PAPER_SHEET_CAIRO_H

#include "paper/pdf.h"

/* Of a sheet that failed: what came before the failure. Nothing in a dry run. */
void ds_sheet_paint(ds_pdf *pdf, const ds_sheet *sheet, double x_mm, double y_mm);

#endif
