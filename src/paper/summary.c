/* SPDX-License-Identifier: MIT */
/* The job at a glance: what does not fit and what to do, then the distinct needs with their rung pictures. */
#include "paper/parts.h"

#include <stdio.h>

static void put_counts(ds_parts *const p)
{
    static const ds_column COLUMNS[] = {{"verdict", 0.2, DS_TYPEFACE_STRONG, false},
                                        {"points", 0.12, DS_TYPEFACE_BODY, false},
                                        {"which", 0.68, DS_TYPEFACE_BODY, false}};
    const ds_findings *const f = p->findings;
    const ds_finding **const alike = ds_arena_take_many(p->arena, f->points_len, sizeof *alike);
    ds_table table;
    ds_table_open(&table, &p->pdf, COLUMNS, 3, true);
    for (int verdict = DS_BARRED; alike && verdict >= DS_FITS; verdict--) {
        size_t len = 0;
        for (size_t i = 0; i < f->points_len; i++) {
            if (p->points[i]->verdict == (ds_verdict)verdict) {
                alike[len++] = p->points[i];
            }
        }
        ds_parts_say_verdict(&p->say, (ds_verdict)verdict);
        ds_table_cell(&table, 0, ds_parts_take(p));
        ds_text_int(&p->say, (int64_t)len);
        ds_table_cell(&table, 1, ds_parts_take(p));
        ds_parts_say_ids(&p->say, alike, len);
        ds_table_cell(&table, 2, ds_parts_take(p));
        ds_table_row(&table);
    }
    p->pdf.failed = p->pdf.failed || !alike;
    ds_table_close(&table);
}

static void put_needs(ds_parts *const p)
{
    static const ds_column COLUMNS[] = {{"needed", 0.2, DS_TYPEFACE_STRONG, false},
                                        {"in rungs", 0.12, DS_TYPEFACE_BODY, false},
                                        {"pieces", 0.1, DS_TYPEFACE_BODY, false},
                                        {"points", 0.58, DS_TYPEFACE_BODY, false}};
    ds_alikes groups;
    if (!ds_alikes_make(&groups, p, ds_alike_by_need, false)) {
        return;
    }
    ds_pdf_heading(&p->pdf, 2, DS_STR("What is needed, each once"));
    ds_table table;
    ds_table_open(&table, &p->pdf, COLUMNS, 4, true);
    for (size_t i = 0; i < groups.len; i++) {
        const ds_alike *const group = &groups.at[i];
        const ds_finding *const *const points = groups.points + group->first;
        ds_rungs rungs;
        ds_say_needed(&p->say, points[0]);
        ds_table_cell(&table, 0, ds_parts_take(p));
        ds_rungs_of(&rungs, ds_finding_code(points[0]), DS_MARK_SILENT);
        ds_table_picture(&table, 1, &rungs);
        ds_text_number(&p->say, group->pieces, 0);
        ds_table_cell(&table, 2, ds_parts_take(p));
        ds_parts_say_ids(&p->say, points, group->len);
        ds_table_cell(&table, 3, ds_parts_take(p));
        ds_table_row(&table);
    }
    ds_table_close(&table);
}

void ds_part_summary(ds_parts *const p)
{
    ds_parts_begin(p, "Summary");
    ds_say_headline(&p->say, p->findings);
    ds_parts_put(p, DS_TYPEFACE_STRONG, 0);
    ds_pdf_gap(&p->pdf, 1);
    if (p->findings->points_len) {
        put_counts(p);
        put_needs(p);
    }
}
