/* SPDX-License-Identifier: MIT */
/* For the fitter: what to put right first, then every point by place with its box, entry by entry. */
#include "paper/parts.h"

#include "core/box/entry_say.h"

enum { POINT, PICTURE, NAME, NEEDED, MARKED, VERDICT, COLUMNS_LEN };

static const ds_column COLUMNS[COLUMNS_LEN] = {[POINT] = {"point", 0.09, DS_TYPEFACE_STRONG, false},
                                               [NAME] = {"name", 0.34, DS_TYPEFACE_BODY, false},
                                               [PICTURE] = {"", 0.08, DS_TYPEFACE_BODY, false},
                                               [NEEDED] = {"fit at least", 0.17, DS_TYPEFACE_STRONG, false},
                                               [MARKED] = {"there is", 0.19, DS_TYPEFACE_BODY, false},
                                               [VERDICT] = {"verdict", 0.13, DS_TYPEFACE_STRONG, false}};

/* --- boxes -------------------------------------------------------------------------------------------------------- */

enum { ENTRY, SIZE, HOLDS, CABLE, DO, ENTRY_COLUMNS };

static const ds_column ENTRY_LIST[ENTRY_COLUMNS] = {
    [ENTRY] = {"face and entry", 0.16, DS_TYPEFACE_STRONG, false},
    [SIZE] = {"size", 0.09, DS_TYPEFACE_BODY, false},
    [HOLDS] = {"holds", 0.26, DS_TYPEFACE_BODY, false},
    [CABLE] = {"cable", 0.17, DS_TYPEFACE_BODY, false},
    [DO] = {"to do", 0.32, DS_TYPEFACE_BODY, false}};

static void say_range(ds_text *const out, const double range_mm[2])
{
    if (range_mm[0] == range_mm[0]) {
        ds_text_add(out, out->len ? ", " : "");
        ds_text_number(out, range_mm[0], 2);
        if (range_mm[1] > range_mm[0]) {
            ds_text_add(out, " to ");
            ds_text_number(out, range_mm[1], 2);
        }
        ds_text_add(out, " mm");
    }
}

static void say_cable(ds_text *const out, const ds_cable *const cable)
{
    if (!cable->at) {
        return;
    }
    if (cable->count > 1) {
        ds_text_number(out, cable->count, 0);
        ds_text_add(out, " × ");
    }
    ds_text_adds(out, cable->type);
    ds_text_add(out, cable->type.len && cable->size.len ? " " : "");
    ds_text_adds(out, cable->size);
    say_range(out, cable->od_mm);
}

static void say_holds(ds_text *const out, const ds_entry *const entry)
{
    ds_parts_say_kind(out, ds_str_of(ds_holds_word(entry->holds)));
    ds_text_add(out, entry->ip.len ? " " : "");
    ds_text_adds(out, entry->ip);
    say_range(out, entry->range_mm);
}

/* What it loses and what restores it; "keep as it is" where it loses nothing. */
static void say_to_do(ds_text *const out, const ds_finding *const finding, const ds_part *const part)
{
    ds_say_part_mend(out, finding->installed, part, finding->needed);
    if (!out->len) {
        ds_say_part(out, finding->installed, part, finding->needed);
    }
    ds_text_add(out, out->len ? "" : "keep as it is");
}

static void put_part(ds_parts *const p, ds_table *const table, const ds_finding *const finding,
                     const ds_part *const part)
{
    const ds_entry *const entry = part->entry;
    if (entry) {
        ds_text_add(&p->say, ds_side_word(entry->face));
        ds_text_add(&p->say, entry->face ? ", " : "");
        ds_text_adds(&p->say, entry->id);
        if (!entry->id.len) {
            ds_text_add(&p->say, "entry ");
            ds_text_int(&p->say, part->number);
        }
    } else {
        ds_say_part_name(&p->say, part);
    }
    ds_table_cell(table, ENTRY, ds_parts_take(p));
    if (entry) {
        ds_table_cell(table, SIZE, entry->size);
        say_holds(&p->say, entry);
        ds_table_cell(table, HOLDS, ds_parts_take(p));
        say_cable(&p->say, &entry->cable);
        ds_table_cell(table, CABLE, ds_parts_take(p));
    }
    say_to_do(&p->say, finding, part);
    ds_table_cell(table, DO, ds_parts_take(p));
    ds_table_row(table);
}

void ds_part_box_entries(ds_parts *const p, const ds_finding *const finding)
{
    const ds_installed *const installed = finding->installed;
    if (!installed || !installed->parts_len) {
        return;
    }
    ds_table table;
    ds_table_open(&table, &p->pdf, ENTRY_LIST, ENTRY_COLUMNS, ds_parts_tag_cells(p));
    for (size_t i = 0; i < installed->parts_len; i++) {
        put_part(p, &table, finding, &installed->parts[i]);
    }
    ds_table_close(&table);
}

static void put_boxes(ds_parts *const p)
{
    bool begun = false;
    for (size_t i = 0; i < p->findings->points_len; i++) {
        const ds_finding *const finding = p->points[i];
        if (!finding->installed || !finding->installed->parts_len) {
            continue;
        }
        if (!begun) {
            ds_pdf_heading(&p->pdf, 2, DS_STR("Boxes, entry by entry"));
        }
        begun = true;
        ds_text_adds(&p->say, finding->point->id);
        ds_text_add(&p->say, "  ");
        ds_text_adds(&p->say, finding->point->name);
        ds_pdf_heading(&p->pdf, 3, ds_parts_take(p));
        ds_part_box_entries(p, finding);
    }
}

/* --- points ------------------------------------------------------------------------------------------------------- */

static void put_point(ds_parts *const p, ds_table *const table, const ds_finding *const finding)
{
    ds_table_cell(table, POINT, finding->point->id);
    ds_parts_say_name(&p->say, finding);
    ds_table_cell(table, NAME, ds_parts_take(p));
    ds_parts_put_codes(p, table, finding, PICTURE, NEEDED, MARKED);
    ds_parts_say_verdict(&p->say, finding->verdict);
    ds_table_cell(table, VERDICT, ds_parts_take(p));
    ds_say_remedy(&p->say, p->findings, finding);
    ds_table_note(table, ds_parts_take(p));
    ds_table_row(table);
}

static void put_first(ds_parts *const p)
{
    ds_pdf_heading(&p->pdf, 2, DS_STR("Put right first"));
    ds_table table;
    ds_table_open(&table, &p->pdf, COLUMNS, COLUMNS_LEN, ds_parts_tag_cells(p));
    table.note_column = NAME;
    for (int verdict = DS_BARRED; verdict >= DS_SHORT; verdict--) {
        for (size_t i = 0; i < p->findings->points_len; i++) {
            if (p->points[i]->verdict == (ds_verdict)verdict) {
                put_point(p, &table, p->points[i]);
            }
        }
    }
    ds_table_close(&table);
}

void ds_part_fitter(ds_parts *const p)
{
    ds_parts_begin(p, "For the fitter");
    if (p->findings->counted[DS_BARRED] + p->findings->counted[DS_SHORT]) {
        put_first(p);
    }
    ds_pdf_heading(&p->pdf, 2, DS_STR("Every point, by place"));
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
    put_boxes(p);
}
