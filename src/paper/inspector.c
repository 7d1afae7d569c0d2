/* SPDX-License-Identifier: MIT */
/* For the inspector: need, evidence and what was found, with room for what is found now. Nothing is ticked beforehand. */
#include "paper/parts.h"

enum { POINT, NAME, NEEDED, EVIDENCE, FOUND, NOW, INITIALS, COLUMNS_LEN };

static const ds_column COLUMNS[COLUMNS_LEN] = {[POINT] = {"point", 0.09, DS_TYPEFACE_STRONG, false},
                                               [NAME] = {"name", 0.22, DS_TYPEFACE_BODY, false},
                                               [NEEDED] = {"needed", 0.13, DS_TYPEFACE_STRONG, false},
                                               [EVIDENCE] = {"evidence", 0.18, DS_TYPEFACE_BODY, false},
                                               [FOUND] = {"found before", 0.16, DS_TYPEFACE_BODY, false},
                                               [NOW] = {"found now", 0.13, DS_TYPEFACE_BODY, true},
                                               [INITIALS] = {"initials", 0.09, DS_TYPEFACE_BODY, true}};

static void say_separated(ds_text *const out, const char *const before, const ds_str text)
{
    if (text.len) {
        ds_text_add(out, out->len ? ", " : "");
        ds_text_add(out, before);
        ds_text_adds(out, text);
    }
}

static void say_evidence(ds_text *const out, const ds_point *const point)
{
    if (point->marked_len) {
        ds_text_add(out, "marked ");
        ds_say_marked(out, point);
    }
    if (point->found.evidence && point->found.evidence->first) {
        ds_text_add(out, out->len ? ", " : "");
        ds_say_list(out, point->found.evidence, ", ");
    }
    say_separated(out, "photo ", point->found.photo);
    ds_text_add(out, out->len ? "" : "none");
}

static void say_found(ds_text *const out, const ds_point *const point)
{
    ds_say_list(out, point->found.words, ", ");
    say_separated(out, "", point->found.date);
    say_separated(out, "by ", point->found.by);
    ds_text_add(out, out->len ? "" : "nothing noted");
}

static void say_asked(ds_text *const out, const ds_finding *const finding)
{
    const ds_str by = finding->point->survey.asked.by;
    const ds_str by_place = finding->place ? finding->place->survey.asked.by : DS_STR("");
    if (by.len || by_place.len) {
        ds_text_add(out, " Asked for by: ");
        ds_text_adds(out, by.len ? by : by_place);
        ds_text_char(out, '.');
    }
}

static void put_point(ds_parts *const p, ds_table *const table, const ds_finding *const finding)
{
    ds_table_cell(table, POINT, finding->point->id);
    ds_table_cell(table, NAME, finding->point->name);
    ds_say_needed(&p->say, finding);
    ds_table_cell(table, NEEDED, ds_parts_take(p));
    say_evidence(&p->say, finding->point);
    ds_table_cell(table, EVIDENCE, ds_parts_take(p));
    say_found(&p->say, finding->point);
    ds_table_cell(table, FOUND, ds_parts_take(p));
    ds_parts_say_verdict(&p->say, finding->verdict);
    ds_text_add(&p->say, " on paper. ");
    ds_say_deciding(&p->say, p->findings, finding);
    say_asked(&p->say, finding);
    ds_table_note(table, ds_parts_take(p));
    ds_table_row(table);
}

static void put_signature(ds_parts *const p)
{
    static const char *const LINES[] = {"inspected by", "initials used", "date", "instruments"};
    ds_pdf *const pdf = &p->pdf;
    const double half = ds_pdf_text_width_mm(pdf) / 2;
    for (int i = 0; i < 4; i++) {
        const double left = DS_PAPER_MARGIN_MM + (i & 1 ? half : 0);
        ds_pdf_tag(pdf, "P");
        ds_pdf_line(pdf, DS_TYPEFACE_SMALL, DS_ANCHOR_START, left, pdf->y_mm + 3.2, 24, ds_str_of(LINES[i]));
        ds_pdf_untag(pdf, "P");
        ds_pdf_rule(pdf, DS_PEN_DIMENSION, left + 24, pdf->y_mm + 6.4, left + half - 6, pdf->y_mm + 6.4);
        pdf->y_mm += i & 1 ? 9 : 0;
    }
    pdf->bare = false;
}

void ds_part_inspector(ds_parts *const p)
{
    ds_parts_begin(p, "For the inspector");
    ds_pdf_paragraph(
        &p->pdf, DS_TYPEFACE_BODY, 0,
        DS_STR("What is needed, what shows it, and what was found before. The verdict is that of the papers; "
               "what is found now decides, and is for you to write."));
    put_signature(p);
    ds_table table;
    ds_table_open(&table, &p->pdf, COLUMNS, COLUMNS_LEN, ds_parts_tag_cells(p));
    table.least_mm = 9;
    for (size_t i = 0; i < p->findings->points_len; i++) {
        if (ds_parts_place_begins(p, i)) {
            ds_parts_say_place(&p->say, p->points[i]);
            ds_table_group(&table, ds_parts_take(p));
        }
        put_point(p, &table, p->points[i]);
    }
    ds_table_close(&table);
}
