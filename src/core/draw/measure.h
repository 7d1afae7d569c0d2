/* SPDX-License-Identifier: MIT */
/*
 * What makes a drawing measurable: dimension lines, the taut string, scale bar, north arrow. Millimetres on the sheet.
 *
 *     const unsigned scale = ds_scale_for(4.2, 3.1, 160, 110);                                   25: drawn 1:25
 *     ds_measure_dimension(&sheet, (ds_stretch){20, 30, 80, 30}, 6, DS_STR("2.40 m"));
 *     ds_measure_scale_bar(&sheet, 20, 140, scale);
 *     ds_measure_north(&sheet, 170, 20, 30);
 */
#ifndef DS_DRAW_MEASURE_H
#define DS_DRAW_MEASURE_H

#include "core/draw/sheet.h"

/* From one place on the sheet to another. */
typedef struct ds_stretch {
    double x1, y1, x2, y2;
} ds_stretch;

/*
 * The largest usual scale (1:10, 20, 25, 50, 100, 200, 250, 500, 1000) at which what is width_m by height_m stays within
 * the given paper, as the number behind the colon; beyond 1:1000 the least multiple of 1000. 0 of what is no size.
 */
unsigned ds_scale_for(double width_m, double height_m, double paper_width_mm, double paper_height_mm);

/*
 * A dimension line off_mm beside the span, to its left as one walks from 1 to 2 (negative: to its right), with extension
 * lines, oblique ticks and its text above the line, to be read from below or from the right. A text longer than the line
 * stands behind its second end. A span of no length draws nothing.
 */
void ds_measure_dimension(ds_sheet *sheet, ds_stretch span, double off_mm, ds_str text);

/*
 * A string pulled taut through places (x, y of each), with a knot at either end and its text at the middle of the
 * longest leg. Fewer than two places draw nothing.
 */
void ds_measure_string(ds_sheet *sheet, const double (*places)[2], size_t len, ds_str text);

/* A bar of 20 to 60 mm with its scale behind it; x, y is its upper left corner. Scale 0 draws nothing. */
#define DS_SCALE_BAR_WIDTH_MM 80.0 /* at most */
#define DS_SCALE_BAR_HEIGHT_MM 5.5
void ds_measure_scale_bar(ds_sheet *sheet, double x, double y, unsigned scale);

/* An arrow of 12 mm around x, y, with its N; turn_deg clockwise as seen from the top of the sheet. */
void ds_measure_north(ds_sheet *sheet, double x, double y, double turn_deg);

#endif
