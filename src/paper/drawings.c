/* SPDX-License-Identifier: MIT */
/* Plans, sections and boxes on their own sheets, at their scale; and what was worked out for boxes, step by step. */
#include "paper/parts.h"

#include "core/draw/box.h"
#include "core/draw/plan.h"
#include "paper/sheet_cairo.h"

/* --- plans -------------------------------------------------------------------------------------------------------- */

/* A sheet fills its page, A4 in a Letter paper too: anything else would make its scale untrue. */
static void put_sheet(ds_parts *const p, const ds_sheet *const sheet, const char *const name,
                      bool *const begun)
{
    ds_pdf *const pdf = &p->pdf;
    ds_pdf_new_page_sized(pdf, sheet->width_mm, sheet->height_mm);
    if (!*begun) {
        ds_pdf_part_here(pdf, name);
    }
    *begun = true;
    ds_pdf_bookmark(pdf, 2, sheet->title);
    ds_pdf_tag(pdf, "Figure");
    ds_sheet_paint(pdf, sheet, 0, 0);
    ds_pdf_untag(pdf, "Figure");
    ds_pdf_fill_page(pdf);
}

void ds_part_plans(ds_parts *const p)
{
    bool begun = false;
    for (size_t i = 0; i < p->findings->job->places_len; i++) {
        ds_sheet sheet;
        if (!p->findings->wet[i].len) {
            continue;
        }
        const ds_status status = ds_plan_sheet(&sheet, p->findings, i, p->arena);
        p->pdf.failed = p->pdf.failed || status == DS_NO_MEMORY;
        if (status == DS_OK) {
            put_sheet(p, &sheet, "Plans and sections", &begun);
        }
    }
}

/* --- boxes -------------------------------------------------------------------------------------------------------- */

/* Faces alone, with nothing in them and no day inside, are told in the schedule and need no sheet. */
static bool is_worth_a_sheet(const ds_finding *const finding)
{
    const ds_box *const box = finding->point->box;
    bool worth = box && (box->entries_len || finding->climate);
    for (size_t i = 0; box && i < box->faces_len; i++) {
        worth = worth || box->faces[i].openings_len;
    }
    return worth;
}

void ds_part_boxes(ds_parts *const p)
{
    bool begun = false;
    for (size_t i = 0; i < p->findings->points_len; i++) {
        ds_sheet sheet;
        if (!is_worth_a_sheet(p->points[i])) {
            continue;
        }
        const size_t index = (size_t)(p->points[i] - p->findings->points);
        const ds_status status = ds_box_sheet_of(&sheet, p->findings, index, p->arena);
        p->pdf.failed = p->pdf.failed || status == DS_NO_MEMORY;
        if (status == DS_OK) {
            put_sheet(p, &sheet, "Boxes", &begun);
        }
    }
}

enum { STEP, RESULT, WAY };

static const ds_column STEPS[] = {
    [STEP] = {"step", 0.28, DS_TYPEFACE_BODY, false},
    [RESULT] = {"result", 0.16, DS_TYPEFACE_STRONG, false},
    [WAY] = {"formula, figures, source", 0.56, DS_TYPEFACE_BODY, false},
};

static void put_calculation(ds_parts *const p, const ds_finding *const finding)
{
    const ds_trail *const trail = &finding->climate->trail;
    ds_text_adds(&p->say, finding->point->id);
    ds_text_add(&p->say, "  ");
    ds_text_adds(&p->say, finding->point->name);
    ds_pdf_heading(&p->pdf, 2, ds_parts_take(p));
    ds_table table;
    ds_table_open(&table, &p->pdf, STEPS, sizeof STEPS / sizeof *STEPS, ds_parts_tag_cells(p));
    for (size_t i = 0; i < trail->len; i++) {
        ds_table_cell(&table, STEP, trail->at[i].what);
        ds_trail_say_result(&p->say, &trail->at[i]);
        ds_table_cell(&table, RESULT, ds_parts_take(p));
        ds_trail_say_way(&p->say, &trail->at[i]);
        ds_table_cell(&table, WAY, ds_parts_take(p));
        ds_table_row(&table);
    }
    ds_table_close(&table);
}

void ds_part_calculations(ds_parts *const p)
{
    bool begun = false;
    for (size_t i = 0; i < p->findings->points_len; i++) {
        if (!p->points[i]->climate || !p->points[i]->climate->trail.len) {
            continue;
        }
        if (!begun) {
            ds_parts_begin(p, "Calculations");
        }
        begun = true;
        put_calculation(p, p->points[i]);
    }
}
