/* SPDX-License-Identifier: MIT */
/*
 * Pages, furniture and the file. One millimetre is one unit of cairo, so nothing is converted but the size of the page.
 */
#include "paper/pdf.h"

#include "paper/catalog.h"

#include <cairo-pdf.h>
#include <stdio.h>

#define POINTS_PER_MM (72 / 25.4)

/* --- opening ------------------------------------------------------------------------------------------------------ */

/* The text remembers that memory ran out. cairo 1.16 must not hear of it: it would go on with half an object, and crash. */
static cairo_status_t take(void *const closure, const unsigned char *const bytes, const unsigned len)
{
    ds_text *const out = closure;
    ds_text_bytes(out, (const char *)bytes, len);
    return CAIRO_STATUS_SUCCESS;
}

/* Without a date of its own a paper would carry the time at which it was made. */
static void set_metadata(ds_pdf *const pdf)
{
    const ds_pdf_subject *const subject = pdf->subject;
    char date[32];
    const bool dated = ds_date_is_valid(subject->date);
    snprintf(date, sizeof date, "%.10sT00:00:00Z", dated ? subject->date.at : "2000-01-01");
    ds_text text;
    ds_text_init(&text, pdf->out->alloc);
    ds_text_adds(&text, subject->title.len ? subject->title : DS_STR("Untitled job"));
    ds_text_add(&text, ": ");
    ds_text_adds(&text, subject->kind);
    ds_text_bytes(&text, "", 1);
    if (ds_text_ok(&text)) {
        cairo_pdf_surface_set_metadata(pdf->surface, CAIRO_PDF_METADATA_TITLE, text.at);
    }
    ds_text_free(&text);
    cairo_pdf_surface_set_metadata(pdf->surface, CAIRO_PDF_METADATA_CREATOR, "dripstone " DS_PROGRAM_VERSION);
    cairo_pdf_surface_set_metadata(pdf->surface, CAIRO_PDF_METADATA_CREATE_DATE, date);
}

static void begin_page(ds_pdf *pdf, double width_mm, double height_mm);

static void open_pictures(ds_pdf *const pdf)
{
    const ds_alloc *const alloc = pdf->out->alloc;
    pdf->pictures = alloc->resize(alloc->ctx, NULL, 0, DS_PDF_PICTURES * sizeof *pdf->pictures);
    pdf->failed = !pdf->pictures;
    for (size_t i = 0; pdf->pictures && i < DS_PDF_PICTURES; i++) {
        pdf->pictures[i] = (ds_pdf_picture){0};
    }
}

void ds_pdf_drop_picture(ds_pdf_picture *const picture)
{
    for (int i = 0; i < DS_PDF_COPIES; i++) {
        cairo_surface_destroy(picture->copies[i]);
    }
    *picture = (ds_pdf_picture){0};
}

static void close_pictures(ds_pdf *const pdf)
{
    const ds_alloc *const alloc = pdf->out->alloc;
    for (size_t i = 0; pdf->pictures && i < DS_PDF_PICTURES; i++) {
        ds_pdf_drop_picture(&pdf->pictures[i]);
    }
    if (pdf->pictures) {
        alloc->resize(alloc->ctx, pdf->pictures, DS_PDF_PICTURES * sizeof *pdf->pictures, 0);
    }
}

void ds_pdf_open(ds_pdf *const pdf, ds_type *const type, ds_text *const out,
                 const ds_pdf_subject *const subject, const bool dry)
{
    *pdf = (ds_pdf){.out = out, .subject = subject, .type = type};
    if (!dry) {
        open_pictures(pdf);
        pdf->surface = cairo_pdf_surface_create_for_stream(take, out, 595, 842);
        set_metadata(pdf);
        pdf->cr = cairo_create(pdf->surface);
    }
    begin_page(pdf, 0, 0);
}

bool ds_pdf_close(ds_pdf *const pdf)
{
    bool good = !pdf->failed;
    if (pdf->cr) {
        cairo_show_page(pdf->cr);
        good = good && cairo_status(pdf->cr) == CAIRO_STATUS_SUCCESS;
        cairo_destroy(pdf->cr);
        cairo_surface_finish(pdf->surface);
        good = good && cairo_surface_status(pdf->surface) == CAIRO_STATUS_SUCCESS;
        cairo_surface_destroy(pdf->surface);
        close_pictures(pdf);
        good = good && ds_text_ok(pdf->out) && ds_catalog_complete(pdf->out, "en-GB");
    }
    return good;
}

/* --- pages -------------------------------------------------------------------------------------------------------- */

static void put_foot(ds_pdf *const pdf, const double y_mm)
{
    const ds_pdf_subject *const s = pdf->subject;
    const double width = ds_pdf_text_width_mm(pdf);
    char pages[48];
    snprintf(pages, sizeof pages, "page %d of %d", pdf->page, s->pages);
    ds_text line;
    ds_text_init(&line, pdf->out->alloc);
    ds_text_add(&line, "dripstone " DS_PROGRAM_VERSION);
    ds_text_add(&line, s->editions.len ? "   " : "");
    ds_text_adds(&line, s->editions);
    ds_text_add(&line, "   ");
    ds_text_adds(&line, s->date.len ? s->date : DS_STR("undated"));
    ds_pdf_line(pdf, DS_TYPEFACE_SMALL, DS_ANCHOR_START, DS_PAPER_MARGIN_MM, y_mm, width * 0.8,
                ds_text_str(&line));
    pdf->failed = pdf->failed || !ds_text_ok(&line);
    ds_text_free(&line);
    ds_pdf_line(pdf, DS_TYPEFACE_SMALL, DS_ANCHOR_END, pdf->width_mm - DS_PAPER_MARGIN_MM, y_mm, width * 0.18,
                ds_str_of(pages));
}

/* A drawing has the whole sheet, so what stands around it keeps to the edge and is not ruled off. */
static void put_furniture(ds_pdf *const pdf, const bool drawing)
{
    const ds_pdf_subject *const s = pdf->subject;
    const double left = DS_PAPER_MARGIN_MM;
    const double right = pdf->width_mm - DS_PAPER_MARGIN_MM;
    const double head = drawing ? 6 : 8;
    const double foot = pdf->height_mm - (drawing ? 9 : 11.5);
    ds_pdf_line(pdf, DS_TYPEFACE_SMALL_STRONG, DS_ANCHOR_START, left, head, (right - left) * 0.6,
                s->title.len ? s->title : DS_STR("Untitled job"));
    ds_pdf_line(pdf, DS_TYPEFACE_SMALL, DS_ANCHOR_END, right, head, (right - left) * 0.35, s->kind);
    put_foot(pdf, foot);
    if (!drawing) {
        ds_pdf_rule(pdf, DS_PEN_HAIR, left, head + 4, right, head + 4);
        ds_pdf_rule(pdf, DS_PEN_HAIR, left, foot - 1, right, foot - 1);
    }
}

/* 0, 0: of the paper's own size. */
static void begin_page(ds_pdf *const pdf, const double width_mm, const double height_mm)
{
    const bool letter = pdf->subject->size == DS_PAPER_LETTER;
    pdf->width_mm = width_mm > 0 ? width_mm : letter ? 215.9 : 210;
    pdf->height_mm = height_mm > 0 ? height_mm : letter ? 279.4 : 297;
    pdf->page++;
    pdf->y_mm = DS_PAPER_TOP_MM;
    pdf->bare = true;
    if (pdf->cr) {
        cairo_pdf_surface_set_size(pdf->surface, pdf->width_mm * POINTS_PER_MM,
                                   pdf->height_mm * POINTS_PER_MM);
        cairo_identity_matrix(pdf->cr);
        cairo_scale(pdf->cr, POINTS_PER_MM, POINTS_PER_MM);
        if (!pdf->subject->unfurnished) {
            put_furniture(pdf, width_mm > 0);
        }
    }
}

static void end_page(ds_pdf *const pdf)
{
    if (pdf->cr) {
        cairo_show_page(pdf->cr);
    }
}

void ds_pdf_new_page(ds_pdf *const pdf)
{
    if (!pdf->bare) {
        end_page(pdf);
        begin_page(pdf, 0, 0);
    }
}

/* A bare page of the paper's own size would stay behind empty, so the caller's page takes its place only when sizes agree. */
void ds_pdf_new_page_sized(ds_pdf *const pdf, const double width_mm, const double height_mm)
{
    if (!pdf->bare || pdf->width_mm != width_mm || pdf->height_mm != height_mm) {
        end_page(pdf);
        begin_page(pdf, width_mm, height_mm);
    }
}

void ds_pdf_fill_page(ds_pdf *const pdf)
{
    pdf->y_mm = pdf->height_mm;
    pdf->bare = false;
}

double ds_pdf_room_mm(const ds_pdf *const pdf)
{
    return pdf->height_mm - DS_PAPER_BOTTOM_MM - pdf->y_mm;
}

double ds_pdf_text_width_mm(const ds_pdf *const pdf)
{
    return pdf->width_mm - 2 * DS_PAPER_MARGIN_MM;
}

void ds_pdf_need(ds_pdf *const pdf, const double height_mm)
{
    if (ds_pdf_room_mm(pdf) < height_mm) {
        ds_pdf_new_page(pdf);
    }
}

void ds_pdf_gap(ds_pdf *const pdf, const double height_mm)
{
    pdf->y_mm += pdf->bare ? 0 : height_mm;
}

/* --- marks -------------------------------------------------------------------------------------------------------- */

void ds_pdf_tag(ds_pdf *const pdf, const char *const tag)
{
    if (pdf->cr) {
        cairo_tag_begin(pdf->cr, tag, NULL);
    }
}

void ds_pdf_untag(ds_pdf *const pdf, const char *const tag)
{
    if (pdf->cr) {
        cairo_tag_end(pdf->cr, tag);
    }
}

void ds_pdf_rule(ds_pdf *const pdf, const ds_pen pen, const double x1_mm, const double y1_mm,
                 const double x2_mm, const double y2_mm)
{
    if (pdf->cr) {
        cairo_set_line_width(pdf->cr, ds_pen_form_of(pen)->width_mm);
        cairo_move_to(pdf->cr, x1_mm, y1_mm);
        cairo_line_to(pdf->cr, x2_mm, y2_mm);
        cairo_stroke(pdf->cr);
    }
}

void ds_pdf_frame(ds_pdf *const pdf, const ds_pen pen, const double x_mm, const double y_mm,
                  const double width_mm, const double height_mm)
{
    if (pdf->cr) {
        cairo_set_line_width(pdf->cr, ds_pen_form_of(pen)->width_mm);
        cairo_rectangle(pdf->cr, x_mm, y_mm, width_mm, height_mm);
        cairo_stroke(pdf->cr);
    }
}
