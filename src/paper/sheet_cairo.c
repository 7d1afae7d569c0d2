/* SPDX-License-Identifier: MIT */
#include "paper/sheet_cairo.h"

#include "core/draw/rungs_sheet.h"

#include <math.h>

static const double RIGHT_ANGLE = 1.5707963267948966;

/* --- paths -------------------------------------------------------------------------------------------------------- */

static void put_arc(cairo_t *const cr, const ds_step *const step)
{
    double x = 0;
    double y = 0;
    cairo_get_current_point(cr, &x, &y);
    const double radius = hypot(step->x - step->centre_x, step->y - step->centre_y);
    const double from = atan2(y - step->centre_y, x - step->centre_x);
    const double to = atan2(step->y - step->centre_y, step->x - step->centre_x);
    if (step->clockwise) {
        cairo_arc(cr, step->centre_x, step->centre_y, radius, from, to);
    } else {
        cairo_arc_negative(cr, step->centre_x, step->centre_y, radius, from, to);
    }
}

static void put_steps(cairo_t *const cr, const ds_sheet *const sheet, const ds_item *const item)
{
    cairo_new_path(cr);
    for (size_t i = 0; i < item->step_len; i++) {
        const ds_step *const step = &sheet->steps[item->first_step + i];
        switch (step->kind) {
        case DS_STEP_MOVE:
            cairo_move_to(cr, step->x, step->y);
            break;
        case DS_STEP_LINE:
            cairo_line_to(cr, step->x, step->y);
            break;
        case DS_STEP_ARC:
            put_arc(cr, step);
            break;
        case DS_STEP_CLOSE:
            cairo_close_path(cr);
            break;
        }
    }
}

/* --- hatches ------------------------------------------------------------------------------------------------------ */

typedef struct extent {
    double low, high;
} extent;

/* Of the clipped area along a direction. */
static extent along(const double clip[4], const double dx, const double dy)
{
    extent e = {INFINITY, -INFINITY};
    for (int i = 0; i < 4; i++) {
        const double t = clip[i & 1 ? 2 : 0] * dx + clip[i & 2 ? 3 : 1] * dy;
        e.low = fmin(e.low, t);
        e.high = fmax(e.high, t);
    }
    return e;
}

/* One family: lines at whole multiples of the spacing from 0,0, dashes from there too. */
static void put_family(cairo_t *const cr, const ds_fill_form *const form, const double angle)
{
    double clip[4];
    cairo_clip_extents(cr, &clip[0], &clip[1], &clip[2], &clip[3]);
    const double dx = cos(angle);
    const double dy = sin(angle);
    const extent run = along(clip, dx, dy);
    const extent off = along(clip, -dy, dx);
    const double period = form->dash_mm + form->gap_mm;
    const double start = period > 0 ? floor(run.low / period) * period : run.low;
    for (double k = ceil(off.low / form->spacing_mm); k * form->spacing_mm <= off.high; k++) {
        const double o = k * form->spacing_mm;
        cairo_move_to(cr, start * dx - o * dy, start * dy + o * dx);
        cairo_line_to(cr, run.high * dx - o * dy, run.high * dy + o * dx);
    }
}

static void put_hatch(cairo_t *const cr, const ds_fill_form *const form)
{
    const double dashes[] = {form->dash_mm, form->gap_mm};
    const double angle = form->angle_deg / 90 * RIGHT_ANGLE;
    cairo_clip(cr);
    put_family(cr, form, angle);
    if (form->crossed) {
        put_family(cr, form, angle + RIGHT_ANGLE);
    }
    cairo_set_line_width(cr, form->width_mm);
    cairo_set_dash(cr, dashes, form->dash_mm > 0 ? 2 : 0, 0);
    cairo_set_line_cap(cr, CAIRO_LINE_CAP_BUTT);
    cairo_stroke(cr);
}

/* --- items -------------------------------------------------------------------------------------------------------- */

static void set_grey(cairo_t *const cr, const uint8_t grey)
{
    const double level = grey / 255.0;
    cairo_set_source_rgb(cr, level, level, level);
}

static void put_fill(cairo_t *const cr, const ds_sheet *const sheet, const ds_item *const item)
{
    const ds_fill_form *const form = ds_fill_form_of(item->fill);
    if (item->fill == DS_FILL_NONE) {
        return;
    }
    put_steps(cr, sheet, item);
    cairo_save(cr);
    set_grey(cr, form->hatched ? 0 : form->grey);
    if (form->hatched) {
        put_hatch(cr, form);
    } else {
        cairo_fill(cr);
    }
    cairo_restore(cr);
}

static void put_clear(cairo_t *const cr, const ds_sheet *const sheet, const ds_item *const item)
{
    const ds_pen_form *const form = ds_pen_form_of(item->pen);
    if (form->clear_mm > 0) {
        put_steps(cr, sheet, item);
        set_grey(cr, 255);
        cairo_set_line_width(cr, form->width_mm + 2 * form->clear_mm);
        cairo_stroke(cr);
    }
}

static void put_line(cairo_t *const cr, const ds_sheet *const sheet, const ds_item *const item)
{
    const ds_pen_form *const form = ds_pen_form_of(item->pen);
    const double dashes[] = {form->dash_mm, form->gap_mm};
    if (item->pen == DS_PEN_NONE) {
        return;
    }
    put_steps(cr, sheet, item);
    set_grey(cr, 0);
    cairo_set_line_width(cr, form->width_mm);
    cairo_set_line_cap(cr, form->dash_mm > 0 ? CAIRO_LINE_CAP_BUTT : CAIRO_LINE_CAP_ROUND);
    cairo_set_dash(cr, dashes, form->dash_mm > 0 ? 2 : 0, 0);
    cairo_stroke(cr);
    cairo_set_dash(cr, NULL, 0, 0);
    cairo_set_line_cap(cr, CAIRO_LINE_CAP_ROUND);
}

/* In the order of the SVG: paper of its own, fill, line. */
static void put_path(cairo_t *const cr, const ds_sheet *const sheet, const ds_item *const item)
{
    put_clear(cr, sheet, item);
    put_fill(cr, sheet, item);
    put_line(cr, sheet, item);
}

static void put_text(ds_pdf *const pdf, const ds_item *const item)
{
    static const double SHARE[] = {[DS_ANCHOR_START] = 0, [DS_ANCHOR_MIDDLE] = 0.5, [DS_ANCHOR_END] = 1};
    cairo_t *const cr = pdf->cr;
    const ds_lettering *const how = &item->how;
    PangoLayout *const layout = ds_type_sized(pdf->type, how->bold, how->size_mm, item->text);
    PangoLayoutLine *const line = pango_layout_get_line_readonly(layout, 0);
    cairo_save(cr);
    cairo_translate(cr, item->x, item->y);
    cairo_rotate(cr, how->turn_deg / 90 * RIGHT_ANGLE);
    cairo_move_to(cr, -SHARE[how->anchor] * ds_layout_width_mm(layout), ds_lettering_drop_mm(how));
    if (how->halo) {
        pango_cairo_layout_line_path(cr, line);
        set_grey(cr, how->reversed ? 0 : 255);
        cairo_set_line_width(cr, 2 * ds_lettering_halo_mm(how));
        cairo_stroke(cr);
        cairo_move_to(cr, -SHARE[how->anchor] * ds_layout_width_mm(layout), ds_lettering_drop_mm(how));
    }
    set_grey(cr, how->reversed ? 255 : 0);
    pango_cairo_show_layout_line(cr, line);
    cairo_restore(cr);
    g_object_unref(layout);
}

void ds_sheet_paint(ds_pdf *const pdf, const ds_sheet *const sheet, const double x_mm, const double y_mm)
{
    cairo_t *const cr = pdf->cr;
    if (!cr) {
        return;
    }
    cairo_save(cr);
    cairo_translate(cr, x_mm, y_mm);
    cairo_set_fill_rule(cr, CAIRO_FILL_RULE_EVEN_ODD);
    cairo_set_line_join(cr, CAIRO_LINE_JOIN_ROUND);
    cairo_set_line_cap(cr, CAIRO_LINE_CAP_ROUND);
    for (size_t i = 0; i < sheet->item_len; i++) {
        const ds_item *const item = &sheet->items[i];
        if (item->kind == DS_ITEM_PATH) {
            put_path(cr, sheet, item);
        } else if (item->kind == DS_ITEM_TEXT) {
            put_text(pdf, item);
        }
    }
    cairo_restore(cr);
    cairo_new_path(cr);
}

/* --- rung pictures ------------------------------------------------------------------------------------------------ */

static size_t slot_of(const ds_rungs *const rungs)
{
    uint32_t hash = 2166136261U; /* FNV-1a */
    const uint8_t *const bytes = (const uint8_t *)rungs;
    for (size_t i = 0; i < sizeof *rungs; i++) {
        hash = (hash ^ bytes[i]) * 16777619U;
    }
    return hash % DS_PDF_PICTURES;
}

/* Drawn onto a surface of its own, which the file then holds as one form. */
static cairo_surface_t *draw_picture(ds_pdf *const pdf, const ds_rungs *const rungs)
{
    const double width_mm = DS_PDF_RUNGS_MM * ds_rungs_aspect(DS_RUNGS_MARK);
    const cairo_rectangle_t extents = {-1, -1, width_mm + 2, DS_PDF_RUNGS_MM + 2};
    ds_arena arena;
    ds_sheet sheet;
    ds_arena_init(&arena, pdf->out->alloc);
    ds_sheet_init(&sheet, &arena, width_mm, DS_PDF_RUNGS_MM);
    ds_rungs_paint(&sheet, rungs, (ds_rungs_frame){.width_mm = width_mm, .height_mm = DS_PDF_RUNGS_MM});
    pdf->failed = pdf->failed || ds_sheet_status(&sheet) != DS_OK;
    cairo_surface_t *const surface = cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, &extents);
    ds_pdf easel = *pdf;
    easel.cr = cairo_create(surface);
    ds_sheet_paint(&easel, &sheet, 0, 0);
    cairo_destroy(easel.cr);
    ds_arena_free(&arena);
    return surface;
}

static ds_pdf_picture *picture_of(ds_pdf *const pdf, const ds_rungs *const rungs)
{
    ds_pdf_picture *const picture = &pdf->pictures[slot_of(rungs)];
    if (memcmp(&picture->rungs, rungs, sizeof *rungs) != 0) {
        ds_pdf_drop_picture(picture);
        picture->rungs = *rungs;
    }
    if (picture->page != pdf->page) {
        picture->page = pdf->page;
        picture->used = 0;
    }
    return picture;
}

void ds_pdf_rungs(ds_pdf *const pdf, const ds_rungs *const rungs, const double x_mm, const double y_mm)
{
    ds_pdf_picture *const picture = pdf->cr && pdf->pictures ? picture_of(pdf, rungs) : NULL;
    if (!picture) {
        return;
    }
    if (picture->used == DS_PDF_COPIES) { /* no page has room for as many rows */
        ds_pdf_drop_picture(picture);
        picture->rungs = *rungs;
        picture->page = pdf->page;
    }
    cairo_surface_t **const surface = &picture->copies[picture->used++];
    if (!*surface) {
        *surface = draw_picture(pdf, rungs);
    }
    cairo_set_source_surface(pdf->cr, *surface, x_mm, y_mm);
    cairo_paint(pdf->cr);
    cairo_set_source_rgb(pdf->cr, 0, 0, 0);
}
