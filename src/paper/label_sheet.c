/* SPDX-License-Identifier: MIT */
/* What can be said of papers without setting one: it is also in the program itself. */
#include "paper/label_sheet.h"

#include <math.h>

#define LEAST_WIDTH_MM 45.0
#define LEAST_HEIGHT_MM 21.0
#define GAP_MOST_MM 3.0

static void paper_of(const ds_label_sheet *const sheet, double *const width, double *const height)
{
    *width = sheet->size == DS_PAPER_LETTER ? 215.9 : 210;
    *height = sheet->size == DS_PAPER_LETTER ? 279.4 : 297;
}

/* Space between labels along one side: as stated, or what is left when the margins are as wide as the gaps. */
static double gap_of(const double stated, const double paper, const unsigned count, const double label)
{
    if (!isnan(stated)) {
        return stated;
    }
    const double gap = (paper - count * label) / (count + 1);
    return gap < 0 ? 0 : gap < GAP_MOST_MM ? gap : GAP_MOST_MM;
}

ds_label_grid ds_label_grid_of(const ds_label_sheet *const sheet)
{
    double width = 0;
    double height = 0;
    paper_of(sheet, &width, &height);
    const double gap_x = gap_of(sheet->gap_x_mm, width, sheet->columns, sheet->width_mm);
    const double gap_y = gap_of(sheet->gap_y_mm, height, sheet->rows, sheet->height_mm);
    ds_label_grid g = {.step_x = sheet->width_mm + gap_x, .step_y = sheet->height_mm + gap_y};
    g.left = isnan(sheet->left_mm) ? (width - sheet->columns * g.step_x + gap_x) / 2 : sheet->left_mm;
    g.top = isnan(sheet->top_mm) ? (height - sheet->rows * g.step_y + gap_y) / 2 : sheet->top_mm;
    return g;
}

const char *ds_label_sheet_fault(const ds_label_sheet *const sheet)
{
    const double slack = 0.05; /* sizes printed on packets are rounded */
    double width = 0;
    double height = 0;
    if (!sheet->columns || !sheet->rows || sheet->columns > 50 || sheet->rows > 100) {
        return "a sheet has 1 to 50 columns and 1 to 100 rows of labels";
    }
    if (!(sheet->width_mm >= LEAST_WIDTH_MM) || !(sheet->height_mm >= LEAST_HEIGHT_MM)) {
        return "a label must be at least 45 mm wide and 21 mm high to be read";
    }
    if (sheet->skip >= sheet->columns * sheet->rows) {
        return "skipping so many labels leaves none on the sheet";
    }
    paper_of(sheet, &width, &height);
    const ds_label_grid g = ds_label_grid_of(sheet);
    const double right = g.left + (sheet->columns - 1) * g.step_x + sheet->width_mm;
    const double bottom = g.top + (sheet->rows - 1) * g.step_y + sheet->height_mm;
    const bool inside =
        g.left >= -slack && g.top >= -slack && right <= width + slack && bottom <= height + slack;
    return inside ? NULL : "so many labels of this size do not fit on the sheet";
}
