/* SPDX-License-Identifier: MIT */
/* The schedule by place: for each point what is needed, marked and installed, the verdict and what decided it. */
#include "paper/parts.h"

enum { POINT, PICTURE, NAME, NEEDED, MARKED, INSTALLED, VERDICT, COLUMNS_LEN };

static const ds_column COLUMNS[COLUMNS_LEN] = {[POINT] = {"point", 0.09, DS_TYPEFACE_STRONG, false},
                                               [PICTURE] = {"", 0.07, DS_TYPEFACE_BODY, false},
                                               [NAME] = {"name", 0.3, DS_TYPEFACE_BODY, false},
                                               [NEEDED] = {"needed", 0.14, DS_TYPEFACE_BODY, false},
                                               [MARKED] = {"marked", 0.17, DS_TYPEFACE_BODY, false},
                                               [INSTALLED] = {"installed", 0.1, DS_TYPEFACE_BODY, false},
                                               [VERDICT] = {"verdict", 0.13, DS_TYPEFACE_STRONG, false}};

static void say_name(ds_text *const out, const ds_finding *const finding)
{
    const ds_str zone = finding->zone;
    ds_parts_say_name(out, finding);
    if (zone.len && !ds_str_is(zone, "not-applicable")) {
        const bool plain = ds_str_is(zone, "outside") || ds_str_is(zone, "unknown");
        ds_text_add(out, plain ? ds_str_is(zone, "outside") ? ", outside the zones" : ", zone unknown"
                               : ", zone ");
        ds_text_adds(out, plain ? DS_STR("") : zone);
    }
}

/* The deciding sentence ends with its clause; the state that decided is told where it matters. */
static void put_note(ds_parts *const p, ds_table *const table, const ds_finding *const finding)
{
    ds_parts_say_answer(p, finding);
    const size_t before = p->say.len;
    ds_text_add(&p->say, " State: ");
    if (finding->verdict != DS_FITS && ds_say_state(&p->say, finding)) {
        ds_text_char(&p->say, '.');
    } else {
        p->say.len = before;
    }
    ds_table_note(table, ds_parts_take(p));
}

static void put_point(ds_parts *const p, ds_table *const table, const ds_finding *const finding)
{
    ds_table_cell(table, POINT, finding->point->id);
    say_name(&p->say, finding);
    ds_table_cell(table, NAME, ds_parts_take(p));
    ds_parts_put_codes(p, table, finding, PICTURE, NEEDED, MARKED);
    ds_parts_say_installed(&p->say, finding);
    ds_table_cell(table, INSTALLED, ds_parts_take(p));
    ds_parts_say_verdict(&p->say, finding->verdict);
    ds_table_cell(table, VERDICT, ds_parts_take(p));
    put_note(p, table, finding);
    ds_table_row(table);
}

void ds_part_schedule(ds_parts *const p)
{
    ds_parts_begin(p, "Schedule");
    ds_pdf_paragraph(
        &p->pdf, DS_TYPEFACE_QUIET, 0,
        DS_STR("Where nothing stands under installed, the entries of the box are not listed, and the mark "
               "alone was judged."));
    ds_table table;
    ds_table_open(&table, &p->pdf, COLUMNS, COLUMNS_LEN, ds_parts_tag_cells(p));
    table.note_column = NAME;
    for (size_t i = 0; i < p->findings->points_len; i++) {
        if (ds_parts_place_begins(p, i)) {
            ds_parts_say_place(&p->say, p->points[i]);
            ds_table_group(&table, ds_parts_take(p));
        }
        put_point(p, &table, p->points[i]);
    }
    ds_table_close(&table);
}
