/* SPDX-License-Identifier: MIT */
/* What a box sheet shows of a finding. */
#include "core/draw/box.h"

#include <math.h>

static void say_facts(ds_text *const out, const ds_finding *const finding)
{
    ds_text_add(out, "Marked ");
    const size_t before = out->len;
    ds_mark_print(out, finding->own_mark);
    ds_text_add(out, out->len == before ? "with nothing" : "");
    if (finding->installed && finding->installed->entries_stated) {
        ds_text_add(out, "; installed ");
        const size_t left = out->len;
        ds_finding_shown(out, finding);
        ds_text_add(out, out->len == left ? "no code is shown" : "");
    }
    ds_text_add(out, "; ");
    ds_text_add(out, ds_verdict_word(finding->verdict));
    const ds_climate *const climate = finding->climate;
    ds_text_char(out, '.');
    if (climate && climate->heat_told) {
        ds_text_char(out, ' ');
        ds_climate_say_heat(out, climate);
    }
    if (climate && (climate->day.told || climate->day.dry_asked)) {
        ds_text_char(out, ' ');
        ds_through_say_sweat(out, &climate->day);
    }
}

/* What tells the sheet from that of another job or day: " Job; place; edition; date." */
static void say_origin(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    const ds_place *const place = finding->place;
    const ds_str parts[] = {findings->job->title,
                            !place            ? DS_STR("")
                            : place->name.len ? place->name
                                              : place->id,
                            findings->packs_len ? findings->packs[0]->edition : DS_STR(""),
                            findings->job->date};
    const char *before = " ";
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        if (parts[i].len) {
            ds_text_add(out, before);
            ds_text_adds(out, parts[i]);
            before = "; ";
        }
    }
    ds_text_char(out, '.');
}

ds_status ds_box_sheet_of(ds_sheet *const out, const ds_findings *const findings, const size_t point,
                          ds_arena *const arena)
{
    const ds_finding *const finding = &findings->points[point];
    if (!finding->point->box) {
        return DS_BAD_INPUT;
    }
    ds_text facts;
    ds_text_init(&facts, arena->alloc);
    say_facts(&facts, finding);
    say_origin(&facts, findings, finding);
    const ds_through *const day =
        finding->climate && finding->climate->day.solved ? &finding->climate->day : NULL;
    const ds_box_picture picture = {
        .id = finding->point->id,
        .name = finding->point->name,
        .facts = ds_text_str(&facts),
        .box = finding->point->box,
        .installed = finding->installed,
        .need = finding->needed,
        .curve = day ? (day->dry_asked ? day->cold_curve : day->warm_curve) : NULL,
        .curve_is = day && day->dry_asked ? "with the surface that cools most; what it decides is sweating"
                                          : "with the surface that warms most, before 15 % more and less",
        .hours = day ? DS_DAY_DESIGN_HOURS : 0,
        .limit_c = finding->climate ? finding->climate->limit_c : NAN,
    };
    const ds_status status = ds_text_ok(&facts) ? ds_box_sheet(out, &picture, arena) : DS_NO_MEMORY;
    ds_text_free(&facts);
    return status;
}
