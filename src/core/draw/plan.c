/* SPDX-License-Identifier: MIT */
/* The layout of the sheet: head, plan, section, table, foot. */
#include "core/draw/plan.h"

#include "core/assess/say.h"
#include "core/draw/callout.h"
#include "core/draw/measure.h"
#include "core/draw/plan_view.h"

#include <math.h>

#define MARGIN_MM 12.0
#define HEAD_MM 20.0
#define ROW_MM 5.0
#define GAP_MM 18.0 /* round and between plan and section: dimensions stand there */
#define FOOT_MM 14.0

enum { ROWS = 14, NOTES = 5 };

/* --- what the place holds ----------------------------------------------------------------------------------------- */

static void find_box(ds_plan_view *const v)
{
    const ds_scene *const scene = &v->map->scene;
    v->low = (ds_vec){INFINITY, INFINITY};
    v->high = (ds_vec){-INFINITY, -INFINITY};
    for (size_t i = 0; i < scene->rooms_len; i++) {
        for (size_t k = 0; k < scene->rooms[i].len; k++) {
            const ds_vec p = scene->rooms[i].at[k].a;
            v->low = (ds_vec){fmin(v->low.x, p.x), fmin(v->low.y, p.y)};
            v->high = (ds_vec){fmax(v->high.x, p.x), fmax(v->high.y, p.y)};
        }
    }
}

static bool find_points(ds_plan_view *const v, const size_t place)
{
    v->points = ds_arena_take_many(v->arena, v->findings->points_len, sizeof *v->points);
    for (size_t i = 0; v->points && i < v->findings->points_len; i++) {
        const ds_finding *const finding = &v->findings->points[i];
        if (finding->where && finding->place == &v->findings->job->places[place]) {
            v->points[v->points_len++] = finding;
        }
    }
    return v->points != NULL;
}

/* A ceiling that slopes more along y than along x is shown by a cut along y. */
static bool slopes_along_y(const ds_scene *const scene)
{
    for (size_t i = 0; i < scene->plan->features_len; i++) {
        if (scene->plan->features[i].kind == DS_SLOPE) {
            const ds_vec up = ds_slope_rise(&scene->plan->features[i]);
            return fabs(up.y) > fabs(up.x);
        }
    }
    return false;
}

/* Through the middle of the first thing that zones are measured from. */
static void find_cut(ds_plan_view *const v)
{
    v->cut_upright = slopes_along_y(&v->map->scene);
    const double low = v->cut_upright ? v->low.x : v->low.y;
    const double high = v->cut_upright ? v->high.x : v->high.y;
    v->cut_m = (low + high) / 2;
    for (size_t i = 0; i < v->map->origins_len; i++) {
        const ds_zone_source *const source = &v->map->origins[i].source;
        double least = INFINITY;
        double most = -INFINITY;
        for (size_t k = 0; k < source->outline.len; k++) {
            const double across = v->cut_upright ? source->outline.at[k].a.x : source->outline.at[k].a.y;
            least = fmin(least, across);
            most = fmax(most, across);
        }
        if (source->outline.len) {
            v->cut_m = (least + most) / 2;
            return;
        }
        if (source->feature != UINT32_MAX) {
            /* Off the wall that the outlet may stand on. */
            const double across = v->cut_upright ? source->at.x : source->at.y;
            v->cut_m = across + (v->cut_m > across ? 0.05 : -0.05);
            return;
        }
    }
}

static void find_heights(ds_plan_view *const v)
{
    const double height = v->map->scene.plan->height_m;
    v->tall_m = isnan(height) ? 2.6 : height;
    for (size_t i = 0; i < v->map->bands_len; i++) {
        const ds_zone_band *const band = &v->map->bands[i];
        v->tall_m = isfinite(band->to_m) ? fmax(v->tall_m, band->to_m + 0.2) : v->tall_m;
        v->deep_m = band->from_m > -10 ? fmax(v->deep_m, -band->from_m) : fmax(v->deep_m, 1);
    }
    for (size_t i = 0; i < v->points_len; i++) {
        v->tall_m = fmax(v->tall_m, v->points[i]->point->at_m[2] + 0.2);
    }
    v->tall_m = isnan(height) ? v->tall_m : height;
    v->deep_m += 0.1;
}

/* --- head, table, foot -------------------------------------------------------------------------------------------- */

static ds_str in_arena(ds_plan_view *const v, ds_text *const text)
{
    ds_sheet_heed(v->sheet, text);
    char *const copy = ds_arena_take(v->arena, text->len);
    if (copy && text->len) {
        memcpy(copy, text->at, text->len);
    }
    const ds_str out = {copy, copy ? text->len : 0};
    text->len = 0;
    return out;
}

static void put_head(ds_plan_view *const v, const ds_place *const place, const ds_wet *const wet,
                     ds_text *const say)
{
    const ds_str name = place->name.at ? place->name : place->id;
    ds_sheet_write_within(v->sheet, MARGIN_MM, MARGIN_MM + 6, DS_A4_WIDTH_MM - 2 * MARGIN_MM, name,
                          (ds_lettering){.size_mm = DS_TYPE_HEAD_MM, .bold = true});
    ds_text_add(say, "Zones by section ");
    ds_text_adds(say, wet->maps[0]->law->section);
    ds_text_add(say, " of ");
    ds_text_adds(say, wet->packs[0]->edition);
    ds_text_add(say, " · scale 1:");
    ds_text_int(say, v->scale);
    if (v->findings->job->title.len) {
        ds_text_add(say, " · ");
        ds_text_adds(say, v->findings->job->title);
    }
    if (v->findings->job->date.len) {
        ds_text_add(say, " · ");
        ds_text_adds(say, v->findings->job->date);
    }
    ds_sheet_write_within(v->sheet, MARGIN_MM, MARGIN_MM + 12, DS_A4_WIDTH_MM - 2 * MARGIN_MM,
                          in_arena(v, say), (ds_lettering){.size_mm = DS_TYPE_MM});
    ds_sheet_stroke(v->sheet, DS_PEN_DIMENSION, MARGIN_MM, MARGIN_MM + 15, DS_A4_WIDTH_MM - MARGIN_MM,
                    MARGIN_MM + 15);
}

/* A text cut to the width that it may take. */
static ds_str fitted(ds_plan_view *const v, ds_text *const say, const double width_mm, const ds_lettering how)
{
    bool cut = false;
    while (say->len && ds_lettering_width_mm(ds_text_str(say), &how) > width_mm) {
        say->len--;
        while (say->len && ((unsigned char)say->at[say->len] & 0xC0) == 0x80) {
            say->len--;
        }
        cut = true;
    }
    if (cut) {
        ds_text_add(say, "…");
    }
    return in_arena(v, say);
}

static void put_row(ds_plan_view *const v, const size_t index, const double y, ds_text *const say)
{
    const ds_finding *const finding = v->points[index];
    const ds_lettering how = {.size_mm = DS_TYPE_SMALL_MM};
    const ds_lettering bold = {.size_mm = DS_TYPE_SMALL_MM, .bold = true};
    ds_text_int(say, (int64_t)index + 1);
    ds_sheet_write(v->sheet, MARGIN_MM + 4, y, in_arena(v, say),
                   (ds_lettering){.size_mm = DS_TYPE_SMALL_MM, .bold = true, .anchor = DS_ANCHOR_END});
    ds_text_adds(say, finding->point->id);
    ds_text_add(say, finding->point->name.len ? "  " : "");
    ds_text_adds(say, finding->point->name);
    ds_sheet_write(v->sheet, MARGIN_MM + 7, y, fitted(v, say, 48, how), how);
    ds_text_adds(say, finding->zone);
    ds_sheet_write(v->sheet, MARGIN_MM + 57, y, in_arena(v, say), bold);
    ds_callout_verdict(v->sheet, MARGIN_MM + 74, y - 0.9, finding->verdict);
    ds_sheet_write(v->sheet, MARGIN_MM + 77, y, ds_str_of(ds_verdict_word(finding->verdict)), how);
    ds_zone_say_way(say, finding->where, v->map);
    ds_sheet_write(v->sheet, MARGIN_MM + 92, y, fitted(v, say, DS_A4_WIDTH_MM - 2 * MARGIN_MM - 92, how),
                   how);
}

static size_t rows_of(const ds_plan_view *const v)
{
    return v->points_len < ROWS ? v->points_len : ROWS;
}

static void put_table(ds_plan_view *const v, double y, ds_text *const say)
{
    static const struct {
        double x;
        const char *head;
    } HEADS[] = {{7, "point"}, {57, "zone"}, {73, "verdict"}, {92, "way"}};
    const ds_lettering quiet = {.size_mm = DS_TYPE_SMALL_MM};
    for (size_t i = 0; v->points_len && i < sizeof HEADS / sizeof *HEADS; i++) {
        ds_sheet_write(v->sheet, MARGIN_MM + HEADS[i].x, y, ds_str_of(HEADS[i].head), quiet);
    }
    ds_sheet_stroke(v->sheet, DS_PEN_HAIR, MARGIN_MM, y + 1.2, DS_A4_WIDTH_MM - MARGIN_MM, y + 1.2);
    for (size_t i = 0; i < rows_of(v); i++) {
        y += ROW_MM;
        put_row(v, i, y, say);
    }
    if (v->points_len > ROWS) {
        ds_text_add(say, "and ");
        ds_text_int(say, (int64_t)(v->points_len - ROWS));
        ds_text_add(say, " more points: see the schedule");
        ds_sheet_write(v->sheet, MARGIN_MM + 7, y + ROW_MM, in_arena(v, say), quiet);
    }
}

/* Every caution that some point rests on, once; returns how many lines. */
static size_t put_notes(ds_plan_view *const v, const double y, ds_text *const say, const bool measure_only)
{
    uint32_t all = 0;
    size_t lines = 0;
    const ds_lettering how = {.size_mm = DS_TYPE_SMALL_MM};
    for (size_t i = 0; i < v->points_len; i++) {
        const uint32_t fresh = v->points[i]->where->cautions & ~all;
        all |= fresh;
        for (int c = 0; c < DS_ZONE_CAUTIONS && lines < NOTES; c++) {
            if (!(fresh >> c & 1)) {
                continue;
            }
            if (!measure_only) {
                ds_zone_say_caution(say, v->points[i]->where, (ds_zone_caution)c);
                ds_text_add(say, ".");
                ds_sheet_write(v->sheet, MARGIN_MM, y + (double)lines * 4,
                               fitted(v, say, DS_A4_WIDTH_MM - 2 * MARGIN_MM, how), how);
            }
            lines++;
        }
    }
    return lines;
}

static void put_foot(ds_plan_view *const v)
{
    const double y = DS_A4_HEIGHT_MM - MARGIN_MM;
    ds_measure_scale_bar(v->sheet, MARGIN_MM, y - DS_SCALE_BAR_HEIGHT_MM, v->scale);
    ds_sheet_write(v->sheet, DS_A4_WIDTH_MM - MARGIN_MM, y,
                   DS_STR("Working aid, no certificate: measure on site, follow the edition in force."),
                   (ds_lettering){.size_mm = DS_TYPE_SMALL_MM, .anchor = DS_ANCHOR_END});
}

/* --- the whole ---------------------------------------------------------------------------------------------------- */

/* The largest scale at which plan and section stand above each other, with room for the rest. */
static void lay_out(ds_plan_view *const v, const double below_mm)
{
    const double width = DS_A4_WIDTH_MM - 2 * MARGIN_MM - 2 * GAP_MM;
    const double height = DS_A4_HEIGHT_MM - 2 * MARGIN_MM - HEAD_MM - below_mm - FOOT_MM - 2.6 * GAP_MM;
    const double wide_m = v->high.x - v->low.x;
    const double plan_m = v->high.y - v->low.y;
    const double cut_m = v->cut_upright ? plan_m : wide_m;
    v->scale = ds_scale_for(fmax(wide_m, cut_m), plan_m + v->tall_m + v->deep_m, width, height);
    v->scale = v->scale ? v->scale : 1;
    v->mm_per_m = 1000.0 / v->scale;
    v->left_mm = MARGIN_MM + GAP_MM + (width - wide_m * v->mm_per_m) / 2;
    v->section_left_mm = MARGIN_MM + GAP_MM + (width - cut_m * v->mm_per_m) / 2;
    v->top_mm = MARGIN_MM + HEAD_MM + GAP_MM;
    v->floor_mm = v->top_mm + (plan_m + v->tall_m) * v->mm_per_m + 1.25 * GAP_MM;
}

static void describe(ds_plan_view *const v, const ds_place *const place, ds_text *const say)
{
    ds_text_adds(say, place->name.at ? place->name : place->id);
    ds_text_add(say, ": plan and section with zones, 1:");
    ds_text_int(say, v->scale);
    const ds_str title = in_arena(v, say);
    for (size_t i = 0; i < v->map->zones_len; i++) {
        for (size_t k = 0; k < v->map->zones[i].parts_len; k++) {
            const ds_zone_part *const part = &v->map->zones[i].parts[k];
            ds_text_add(say, "Zone ");
            ds_text_adds(say, v->map->zones[i].word);
            ds_text_add(say, ": ");
            ds_text_number(say, part->region.area_m2, 2);
            ds_text_add(say, " square metres, from ");
            ds_text_number(say, part->from_m, 2);
            ds_text_add(say, isfinite(part->to_m) ? " to " : " m up");
            if (isfinite(part->to_m)) {
                ds_text_number(say, part->to_m, 2);
                ds_text_add(say, " m high");
            }
            ds_text_add(say, ". ");
        }
    }
    ds_sheet_name(v->sheet, place->id, title, in_arena(v, say));
}

ds_status ds_plan_sheet(ds_sheet *const out, const ds_findings *const findings, const size_t place,
                        ds_arena *const arena)
{
    const ds_wet *const wet = &findings->wet[place];
    ds_sheet_init(out, arena, DS_A4_WIDTH_MM, DS_A4_HEIGHT_MM);
    if (!wet->len) {
        return DS_BAD_INPUT;
    }
    ds_plan_view view = {.sheet = out, .findings = findings, .map = wet->maps[0], .arena = arena};
    ds_text say;
    ds_text_init(&say, arena->alloc);
    find_box(&view);
    if (!find_points(&view, place)) {
        return DS_NO_MEMORY;
    }
    find_cut(&view);
    find_heights(&view);
    const double notes_mm = 4.0 * (double)put_notes(&view, 0, &say, true);
    const double more = view.points_len > ROWS ? 1 : 0;
    const double table_mm = view.points_len ? 3 + ((double)rows_of(&view) + more) * ROW_MM : 0;
    lay_out(&view, notes_mm + table_mm + 4);
    describe(&view, &findings->job->places[place], &say);
    put_head(&view, &findings->job->places[place], wet, &say);
    ds_view_plan(&view);
    ds_view_section(&view);
    const double table_y = DS_A4_HEIGHT_MM - MARGIN_MM - FOOT_MM - notes_mm - table_mm + 2;
    put_table(&view, table_y, &say);
    put_notes(&view, DS_A4_HEIGHT_MM - MARGIN_MM - FOOT_MM - notes_mm + 4, &say, false);
    put_foot(&view);
    ds_sheet_heed(out, &say);
    ds_text_free(&say);
    return ds_sheet_status(out);
}
