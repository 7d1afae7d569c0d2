/* SPDX-License-Identifier: MIT */
/* Text of a paper: lines, paragraphs that go on overleaf, headings with their bookmarks. */
#include "paper/pdf.h"

#include <cairo-pdf.h>
#include <stdio.h>

#define LINE_GAP 1.2 /* below a paragraph, mm */

/* --- lines -------------------------------------------------------------------------------------------------------- */

void ds_pdf_show(ds_pdf *const pdf, PangoLayout *const layout, const double x_mm, const double y_mm)
{
    if (pdf->cr) {
        cairo_move_to(pdf->cr, x_mm, y_mm);
        pango_cairo_show_layout(pdf->cr, layout);
    }
}

void ds_pdf_line(ds_pdf *const pdf, const ds_typeface face, const ds_anchor anchor, const double x_mm,
                 const double y_mm, const double width_mm, const ds_str text)
{
    if (!pdf->cr) {
        return;
    }
    static const double SHARE[] = {[DS_ANCHOR_START] = 0, [DS_ANCHOR_MIDDLE] = 0.5, [DS_ANCHOR_END] = 1};
    PangoLayout *const layout = ds_type_set(pdf->type, face, text, width_mm, 1);
    const double spare = width_mm - ds_layout_width_mm(layout);
    const bool turned = pango_layout_get_direction(layout, 0) == PANGO_DIRECTION_RTL;
    const double grey = ds_typeface_grey(face);
    cairo_set_source_rgb(pdf->cr, grey, grey, grey);
    ds_pdf_show(pdf, layout, x_mm - SHARE[anchor] * (width_mm - (turned ? 0 : spare)), y_mm);
    cairo_set_source_rgb(pdf->cr, 0, 0, 0);
    g_object_unref(layout);
}

/* --- paragraphs --------------------------------------------------------------------------------------------------- */

typedef struct flow {
    ds_pdf *pdf;
    const char *tag;
    double x_mm, grey;
    bool open;
} flow;

static void put_row(flow *const f, PangoLayoutIter *const iter)
{
    ds_pdf *const pdf = f->pdf;
    PangoRectangle row;
    pango_layout_iter_get_line_extents(iter, NULL, &row);
    const double height = (double)row.height / PANGO_SCALE;
    if (ds_pdf_room_mm(pdf) < height) {
        if (f->open) {
            ds_pdf_untag(pdf, f->tag);
            f->open = false;
        }
        ds_pdf_new_page(pdf);
    }
    if (!f->open) {
        ds_pdf_tag(pdf, f->tag);
        f->open = true;
    }
    if (pdf->cr) {
        const int base = pango_layout_iter_get_baseline(iter) - row.y;
        cairo_set_source_rgb(pdf->cr, f->grey, f->grey, f->grey);
        cairo_move_to(pdf->cr, f->x_mm + (double)row.x / PANGO_SCALE, pdf->y_mm + (double)base / PANGO_SCALE);
        pango_cairo_show_layout_line(pdf->cr, pango_layout_iter_get_line_readonly(iter));
    }
    pdf->y_mm += height;
    pdf->bare = false;
}

/* A short paragraph is not split, and of a long one no single line stays behind. */
static void keep_together(ds_pdf *const pdf, PangoLayout *const layout)
{
    const int lines = pango_layout_get_line_count(layout);
    const double height = ds_layout_height_mm(layout);
    if (ds_pdf_room_mm(pdf) < (lines <= 3 ? height : height / lines * 2)) {
        ds_pdf_new_page(pdf);
    }
}

static void put_flow(ds_pdf *const pdf, const char *const tag, const ds_typeface face, const double indent_mm,
                     const ds_str text)
{
    flow f = {.pdf = pdf, .tag = tag, .x_mm = DS_PAPER_MARGIN_MM + indent_mm, .grey = ds_typeface_grey(face)};
    PangoLayout *const layout = ds_type_set(pdf->type, face, text, ds_pdf_text_width_mm(pdf) - indent_mm, 0);
    keep_together(pdf, layout);
    PangoLayoutIter *const iter = pango_layout_get_iter(layout);
    do {
        put_row(&f, iter);
    } while (pango_layout_iter_next_line(iter));
    pango_layout_iter_free(iter);
    g_object_unref(layout);
    ds_pdf_untag(pdf, tag);
    if (pdf->cr) {
        cairo_set_source_rgb(pdf->cr, 0, 0, 0);
    }
}

void ds_pdf_paragraph(ds_pdf *const pdf, const ds_typeface face, const double indent_mm, const ds_str text)
{
    put_flow(pdf, "P", face, indent_mm, text);
    pdf->y_mm += LINE_GAP;
}

void ds_pdf_labelled(ds_pdf *const pdf, const char *const label, const double label_width_mm,
                     const ds_typeface face, const ds_str text)
{
    ds_pdf_need(pdf, DS_TYPE_MM * 1.5);
    ds_pdf_tag(pdf, "P");
    ds_pdf_line(pdf, DS_TYPEFACE_QUIET, DS_ANCHOR_START, DS_PAPER_MARGIN_MM, pdf->y_mm, label_width_mm,
                ds_str_of(label));
    ds_pdf_untag(pdf, "P");
    ds_pdf_paragraph(pdf, face, label_width_mm, text);
}

/* --- headings ----------------------------------------------------------------------------------------------------- */

void ds_pdf_part_here(ds_pdf *const pdf, const char *const name)
{
    if (pdf->parts_len < DS_PDF_PARTS) {
        pdf->parts[pdf->parts_len++] = (ds_pdf_part){name, pdf->page};
    }
    ds_pdf_bookmark(pdf, 1, ds_str_of(name));
}

void ds_pdf_bookmark(ds_pdf *const pdf, const int level, const ds_str text)
{
    if (!pdf->cr) {
        return;
    }
    char where[64];
    ds_text name;
    ds_text_init(&name, pdf->out->alloc);
    ds_text_adds(&name, text);
    ds_text_bytes(&name, "", 1);
    snprintf(where, sizeof where, "page=%d pos=[%d %d]", pdf->page, 0, (int)(pdf->y_mm * 72 / 25.4));
    if (ds_text_ok(&name)) {
        const int parent = level == 1 ? CAIRO_PDF_OUTLINE_ROOT : pdf->outline;
        const int id =
            cairo_pdf_surface_add_outline(pdf->surface, parent, name.at, where, CAIRO_PDF_OUTLINE_FLAG_OPEN);
        pdf->outline = level == 1 ? id : pdf->outline;
    }
    pdf->failed = pdf->failed || !ds_text_ok(&name);
    ds_text_free(&name);
}

void ds_pdf_heading(ds_pdf *const pdf, const int level, const ds_str text)
{
    static const char *const TAGS[] = {"H1", "H2", "H3"};
    static const double KEEP_MM[] = {54, 46,
                                     34}; /* with the heading below it, the head of a table and a row */
    static const ds_typeface FACES[] = {DS_TYPEFACE_HEAD, DS_TYPEFACE_SUBHEAD, DS_TYPEFACE_STRONG};
    ds_pdf_gap(pdf, level == 1 ? 6 : level == 2 ? 4 : 2);
    ds_pdf_need(pdf, KEEP_MM[level - 1]);
    if (level < 3) {
        ds_pdf_bookmark(pdf, level, text);
    }
    put_flow(pdf, TAGS[level - 1], FACES[level - 1], 0, text);
    pdf->y_mm += level == 1 ? 2.5 : 1.2;
}
