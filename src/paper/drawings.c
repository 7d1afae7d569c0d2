/* SPDX-License-Identifier: MIT */
/* Plans and sections on their own sheets, at their scale; boxes with what was worked out for them. */
#include "paper/parts.h"

#include "core/box/entry_say.h"
#include "core/draw/plan.h"
#include "paper/sheet_cairo.h"

/* --- plans -------------------------------------------------------------------------------------------------------- */

/* A sheet fills its page, A4 in a Letter paper too: anything else would make its scale untrue. */
static void put_sheet(ds_parts *const p, const ds_sheet *const sheet, const char *const name, bool *const begun)
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

static bool has_box(const ds_finding *const finding)
{
    const bool parts = finding->installed && finding->installed->parts_len;
    return parts || (finding->climate && finding->climate->trail.len);
}

/* The drawing of the box comes here once there is one; until then the table of its entries stands for it. */
static void put_box(ds_parts *const p, const ds_finding *const finding)
{
    ds_text_adds(&p->say, finding->point->id);
    ds_text_add(&p->say, "  ");
    ds_text_adds(&p->say, finding->point->name);
    ds_pdf_heading(&p->pdf, 2, ds_parts_take(p));
    ds_parts_say_verdict(&p->say, finding->verdict);
    ds_text_add(&p->say, ". ");
    ds_say_deciding(&p->say, p->findings, finding);
    ds_parts_put(p, DS_TYPEFACE_BODY, 0);
    for (size_t i = 0; finding->installed && i < finding->installed->parts_len; i++) {
        const ds_part *const part = &finding->installed->parts[i];
        ds_say_part(&p->say, finding->installed, part, finding->needed);
        if (!p->say.len) {
            ds_say_part_name(&p->say, part);
            ds_text_add(&p->say, ": takes nothing away.");
        }
        ds_text_char(&p->say, ' ');
        ds_say_part_notes(&p->say, finding->installed, part);
        ds_parts_put(p, DS_TYPEFACE_BODY, 6);
    }
    const size_t steps = finding->climate ? finding->climate->trail.len : 0;
    if (steps) {
        ds_pdf_heading(&p->pdf, 3, DS_STR("Calculation"));
    }
    for (size_t i = 0; i < steps; i++) {
        ds_trail_say(&p->say, &finding->climate->trail.at[i]);
        ds_parts_put(p, DS_TYPEFACE_BODY, 6);
    }
}

void ds_part_boxes(ds_parts *const p)
{
    bool begun = false;
    for (size_t i = 0; i < p->findings->points_len; i++) {
        if (!has_box(p->points[i])) {
            continue;
        }
        if (!begun) {
            ds_parts_begin(p, "Boxes");
        }
        begun = true;
        put_box(p, p->points[i]);
    }
}
