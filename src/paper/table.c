/* SPDX-License-Identifier: MIT */
#include "paper/table.h"

#define PAD 0.9      /* paper above and below the text of a row, mm */
#define GUTTER 2.0   /* between columns */
#define NOTE_GAP 0.4 /* above a note */

/* --- columns ------------------------------------------------------------------------------------------------------ */

static double left_of(const ds_table *const t, const int column)
{
    double left = DS_PAPER_MARGIN_MM;
    for (int i = 0; i < column; i++) {
        left += t->columns[i].share * ds_pdf_text_width_mm(t->pdf);
    }
    return left;
}

static double width_of(const ds_table *const t, const int column)
{
    const double whole = t->columns[column].share * ds_pdf_text_width_mm(t->pdf);
    return column + 1 < t->columns_len ? whole - GUTTER : whole;
}

void ds_table_open(ds_table *const t, ds_pdf *const pdf, const ds_column *const columns,
                   const int columns_len, const bool cells_tagged)
{
    *t = (ds_table){.pdf = pdf,
                    .columns = columns,
                    .columns_len = columns_len,
                    .cells_tagged = cells_tagged,
                    .note_column = 1};
    ds_text_init(&t->group, pdf->out->alloc);
}

static void close_head(ds_table *const t)
{
    if (t->open) {
        ds_pdf_untag(t->pdf, "Table");
        t->open = false;
    }
}

void ds_table_close(ds_table *const t)
{
    close_head(t);
    t->pdf->failed = t->pdf->failed || !ds_text_ok(&t->group);
    ds_text_free(&t->group);
    ds_pdf_gap(t->pdf, 3);
}

/* --- head and groups ---------------------------------------------------------------------------------------------- */

#define HEAD_ROW_MM 5.0
#define GROUP_ABOVE_MM 2.2 /* paper above a group's heading that does not stand at the head of the table */
#define GROUP_BELOW_MM 0.5

enum { GROUP_LINES = 4 };

static double height_of_group(const ds_table *const t)
{
    const double heading = ds_type_height_mm(t->pdf->type, DS_TYPEFACE_SUBHEAD, ds_text_str(&t->group),
                                             ds_pdf_text_width_mm(t->pdf), GROUP_LINES);
    return GROUP_ABOVE_MM + heading + GROUP_BELOW_MM;
}

static void open_head(ds_table *const t)
{
    ds_pdf *const pdf = t->pdf;
    if (t->open) {
        return;
    }
    ds_pdf_tag(pdf, "Table");
    ds_pdf_tag(pdf, "TR");
    for (int i = 0; i < t->columns_len; i++) {
        if (*t->columns[i].head) {
            ds_pdf_tag(pdf, "TH");
            ds_pdf_line(pdf, DS_TYPEFACE_SMALL, DS_ANCHOR_START, left_of(t, i), pdf->y_mm, width_of(t, i),
                        ds_str_of(t->columns[i].head));
            ds_pdf_untag(pdf, "TH");
        }
    }
    ds_pdf_untag(pdf, "TR");
    pdf->y_mm += HEAD_ROW_MM - 1;
    ds_pdf_rule(pdf, DS_PEN_FEATURE, DS_PAPER_MARGIN_MM, pdf->y_mm, pdf->width_mm - DS_PAPER_MARGIN_MM,
                pdf->y_mm);
    pdf->y_mm += 1;
    pdf->bare = false;
    t->open = true;
    t->ruled = true;
}

static void put_group(ds_table *const t)
{
    ds_pdf *const pdf = t->pdf;
    const size_t before = t->group.len;
    ds_text_add(&t->group, t->again ? " (continued)" : "");
    PangoLayout *const layout = ds_type_set(pdf->type, DS_TYPEFACE_SUBHEAD, ds_text_str(&t->group),
                                            ds_pdf_text_width_mm(pdf), GROUP_LINES);
    pdf->y_mm += t->ruled ? 0.4 : GROUP_ABOVE_MM;
    ds_pdf_tag(pdf, "TR");
    ds_pdf_tag(pdf, "TH");
    ds_pdf_show(pdf, layout, DS_PAPER_MARGIN_MM, pdf->y_mm);
    ds_pdf_untag(pdf, "TH");
    ds_pdf_untag(pdf, "TR");
    pdf->y_mm += ds_layout_height_mm(layout) + GROUP_BELOW_MM;
    g_object_unref(layout);
    t->group.len = before < t->group.len ? before : t->group.len;
    t->group_waits = false;
    t->again = false;
    t->ruled = true;
}

void ds_table_group(ds_table *const t, const ds_str heading)
{
    t->group.len = 0;
    ds_text_adds(&t->group, heading);
    t->group_waits = true;
    t->again = false;
}

/* --- rows --------------------------------------------------------------------------------------------------------- */

/* In a dry run only the height counts. */
static ds_table_set set_text(ds_table *const t, const ds_typeface face, const ds_str text,
                             const double width_mm)
{
    ds_type *const type = t->pdf->type;
    if (!text.len) {
        return (ds_table_set){0};
    }
    if (ds_pdf_is_dry(t->pdf)) {
        return (ds_table_set){.height_mm = ds_type_height_mm(type, face, text, width_mm, DS_TABLE_LINES)};
    }
    PangoLayout *const layout = ds_type_set(type, face, text, width_mm, DS_TABLE_LINES);
    return (ds_table_set){.layout = layout, .height_mm = ds_layout_height_mm(layout)};
}

static void unset(ds_table_set *const set)
{
    if (set->layout) {
        g_object_unref(set->layout);
    }
    *set = (ds_table_set){0};
}

void ds_table_cell(ds_table *const t, const int column, const ds_str text)
{
    unset(&t->cells[column]);
    t->cells[column] = set_text(t, t->columns[column].face, text, width_of(t, column));
}

void ds_table_picture(ds_table *const t, const int column, const ds_rungs *const rungs)
{
    t->pictured = true;
    t->rungs = *rungs;
    t->rungs_column = column;
}

void ds_table_note(ds_table *const t, const ds_str text)
{
    int end = 0;
    while (end < t->columns_len && !t->columns[end].blank) {
        end++;
    }
    const double gutter = end < t->columns_len ? GUTTER : 0;
    const double width = left_of(t, end) - left_of(t, t->note_column) - gutter;
    unset(&t->note);
    t->note = set_text(t, DS_TYPEFACE_BODY, text, width);
}

static double height_of_cells(const ds_table *const t)
{
    double height = 0;
    for (int i = 0; i < t->columns_len; i++) {
        const double cell = t->cells[i].height_mm;
        height = cell > height ? cell : height;
    }
    return height;
}

static void put_cell(ds_table *const t, const int column, const double y_mm, const double height_mm)
{
    ds_pdf *const pdf = t->pdf;
    if (t->columns[column].blank) {
        ds_pdf_frame(pdf, DS_PEN_HAIR, left_of(t, column), y_mm, width_of(t, column), height_mm);
        return;
    }
    if (t->cells_tagged) {
        ds_pdf_tag(pdf, "TD");
    }
    if (t->pictured && t->rungs_column == column) {
        ds_pdf_rungs(pdf, &t->rungs, left_of(t, column), y_mm);
    } else if (t->cells[column].layout) {
        ds_pdf_show(pdf, t->cells[column].layout, left_of(t, column), y_mm);
    }
    if (t->cells_tagged) {
        ds_pdf_untag(pdf, "TD");
    }
}

static void put_cells(ds_table *const t, const double y_mm, const double whole_mm, const double note_mm)
{
    ds_pdf *const pdf = t->pdf;
    ds_pdf_tag(pdf, "TR");
    if (!t->cells_tagged) {
        ds_pdf_tag(pdf, "TD");
    }
    for (int i = 0; i < t->columns_len; i++) {
        put_cell(t, i, y_mm, whole_mm);
    }
    if (t->note.layout) {
        if (t->cells_tagged) {
            ds_pdf_tag(pdf, "TD");
        }
        ds_pdf_show(pdf, t->note.layout, left_of(t, t->note_column), note_mm);
        if (t->cells_tagged) {
            ds_pdf_untag(pdf, "TD");
        }
    }
    if (!t->cells_tagged) {
        ds_pdf_untag(pdf, "TD");
    }
    ds_pdf_untag(pdf, "TR");
}

/* Breaks the page for a row of this height, with the heading that waits, and puts what stands above the row. */
static void make_room(ds_table *const t, const double height_mm)
{
    ds_pdf *const pdf = t->pdf;
    const double above = (t->open ? 0 : HEAD_ROW_MM) + (t->group_waits ? height_of_group(t) : 0);
    if (ds_pdf_room_mm(pdf) < above + height_mm && !pdf->bare) {
        close_head(t);
        ds_pdf_new_page(pdf);
        t->again = t->group.len > 0 && !t->group_waits;
        t->group_waits = t->group.len > 0;
    }
    open_head(t);
    if (t->group_waits) {
        put_group(t);
    }
}

void ds_table_row(ds_table *const t)
{
    ds_pdf *const pdf = t->pdf;
    const double cells = height_of_cells(t);
    const double note = t->note.height_mm > 0 ? NOTE_GAP + t->note.height_mm : 0;
    const double least = t->pictured ? DS_PDF_RUNGS_MM : t->least_mm;
    const double whole = cells + note > least ? cells + note : least;
    const double height = whole + 2 * PAD;
    make_room(t, height);
    if (!t->ruled) {
        ds_pdf_rule(pdf, DS_PEN_HAIR, DS_PAPER_MARGIN_MM, pdf->y_mm, pdf->width_mm - DS_PAPER_MARGIN_MM,
                    pdf->y_mm);
    }
    put_cells(t, pdf->y_mm + PAD, whole, pdf->y_mm + PAD + cells + NOTE_GAP);
    pdf->y_mm += height;
    pdf->bare = false;
    t->ruled = false;
    t->pictured = false;
    unset(&t->note);
    for (int i = 0; i < t->columns_len; i++) {
        unset(&t->cells[i]);
    }
}
