/* SPDX-License-Identifier: MIT */
/* Findings as CSV (RFC 4180), safe against formulas: job/csv.h. */
#include "core/assess/render.h"
#include "core/assess/say.h"
#include "core/job/csv.h"

#include <math.h>

static void put_cell(ds_text *const out, const ds_str cell, const bool last)
{
    ds_text_char(out, '"');
    if (ds_csv_needs_apostrophe(cell)) {
        ds_text_char(out, '\'');
    }
    for (size_t i = 0; i < cell.len; i++) {
        if (cell.at[i] == '"') {
            ds_text_char(out, '"');
        }
        ds_text_char(out, cell.at[i]);
    }
    ds_text_add(out, last ? "\"\r\n" : "\",");
}

static void put_sentence(ds_text *const out, ds_text *const line, const bool last)
{
    put_cell(out, ds_text_str(line), last);
    out->failed = out->failed || !ds_text_ok(line);
    line->len = 0;
}

static void put_row(ds_text *const out, ds_text *const line, const ds_findings *const findings,
                    const ds_finding *const finding)
{
    const ds_point *const point = finding->point;
    put_cell(out, point->id, false);
    put_cell(out, point->name, false);
    put_cell(out, point->place_id, false);
    put_cell(out, point->kind, false);
    ds_text_number(line, point->count, 0);
    put_sentence(out, line, false);
    put_cell(out, finding->zone, false);
    ds_say_needed(line, finding);
    put_sentence(out, line, false);
    ds_say_marked(line, point);
    put_sentence(out, line, false);
    put_cell(out, ds_str_of(ds_verdict_word(finding->verdict)), false);
    ds_say_deciding(line, findings, finding);
    put_sentence(out, line, false);
    ds_say_remedy(line, findings, finding);
    put_sentence(out, line, false);
    const ds_rule *const rule = finding->deciding;
    put_cell(out, rule ? rule->clause : (ds_str){0}, false);
    put_cell(out, rule ? rule->edition : (ds_str){0}, true);
}

void ds_findings_csv(ds_text *const out, const ds_findings *const findings, const ds_drain *const drain)
{
    static const char *const NAMES[] = {"point",  "name",   "place",  "kind",    "count",
                                        "zone",   "needed", "marked", "verdict", "deciding",
                                        "remedy", "clause", "edition"};
    const size_t len = sizeof NAMES / sizeof *NAMES;
    for (size_t i = 0; i < len; i++) {
        put_cell(out, ds_str_of(NAMES[i]), i + 1 == len);
    }
    ds_text line;
    ds_text_init(&line, out->alloc);
    for (size_t i = 0; i < findings->points_len; i++) {
        put_row(out, &line, findings, &findings->points[i]);
        if (drain && !drain->take(drain->ctx, out)) {
            break;
        }
    }
    ds_text_free(&line);
}
