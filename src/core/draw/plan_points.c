/* SPDX-License-Identifier: MIT */
/* Points in plan and section: a mark, a number in a ring, and the string to what is barred. */
#include "core/draw/measure.h"
#include "core/draw/plan.h"
#include "core/draw/plan_view.h"

#include <math.h>

/* The verdict's shape on paper of its own. */
static void put_mark(ds_sheet *const sheet, const double x, const double y, const ds_verdict verdict)
{
    const double half = 1.5;
    ds_sheet_rect(sheet, x - half, y - half, 2 * half, 2 * half);
    ds_sheet_draw(sheet, DS_PEN_NONE, DS_FILL_PAPER);
    ds_callout_verdict(sheet, x, y, verdict);
}

/* What a bar was measured by: the straight line to zone 1 where the rule asks that, the string otherwise. */
static void put_string(ds_plan_view *const v, const ds_finding *const finding)
{
    const ds_zone_answer *const where = finding->where;
    if (finding->verdict != DS_BARRED || !finding->deciding) {
        return;
    }
    double places[DS_ZONE_PATH][2];
    size_t len = 0;
    double length = where->distance_m;
    if (ds_rule_asks_number(finding->deciding, DS_NUMBER_ZONE1_DISTANCE)) {
        length = where->zone1_m;
        for (; isfinite(length) && length > 0 && len < 2; len++) {
            places[len][0] = ds_view_x(v, where->zone1_path[len].x);
            places[len][1] = ds_view_y(v, where->zone1_path[len].y);
        }
    } else {
        for (; len < where->path_len; len++) {
            places[len][0] = ds_view_x(v, where->path[len].x);
            places[len][1] = ds_view_y(v, where->path[len].y);
        }
    }
    if (len > 1) {
        ds_measure_string(v->sheet, (const double(*)[2])places, len, ds_view_metres(v, length));
    }
}

static ds_callout *rings(ds_plan_view *const v)
{
    ds_callout *const out = ds_arena_take_many(v->arena, v->points_len, sizeof *out);
    for (size_t i = 0; out && i < v->points_len; i++) {
        char digits[8];
        size_t len = 0;
        for (size_t n = i + 1; n && len < sizeof digits; n /= 10) {
            digits[len++] = (char)('0' + n % 10);
        }
        char *const text = ds_arena_take(v->arena, len);
        for (size_t k = 0; text && k < len; k++) {
            text[k] = digits[len - 1 - k];
        }
        out[i] = (ds_callout){.text = {text, text ? len : 0}};
    }
    return out;
}

static void put_all(ds_plan_view *const v, ds_callout *const callouts, const ds_patch bounds)
{
    ds_callouts_place(callouts, v->points_len, bounds, v->taken, v->taken_len);
    for (size_t i = 0; i < v->points_len; i++) {
        const ds_finding *const finding = v->points[i];
        ds_sheet_begin(v->sheet, DS_ROLE_POINT, finding->point->id, finding->point->name);
        ds_callout_draw(v->sheet, &callouts[i]);
        put_mark(v->sheet, callouts[i].x, callouts[i].y, finding->verdict); /* over the end of its leader */
        ds_sheet_end(v->sheet);
    }
}

void ds_view_points(ds_plan_view *const v)
{
    ds_callout *const callouts = rings(v);
    for (size_t i = 0; i < v->points_len; i++) {
        put_string(v, v->points[i]);
    }
    for (size_t i = 0; callouts && i < v->points_len; i++) {
        callouts[i].x = ds_view_x(v, v->points[i]->point->at_m[0]);
        callouts[i].y = ds_view_y(v, v->points[i]->point->at_m[1]);
    }
    if (callouts) {
        put_all(v, callouts,
                (ds_patch){v->left_mm - 8, v->top_mm - 8, ds_view_x(v, v->high.x) + 8,
                           ds_view_y(v, v->low.y) + 8});
    }
}

void ds_view_section_points(ds_plan_view *const v)
{
    ds_callout *const callouts = rings(v);
    for (size_t i = 0; callouts && i < v->points_len; i++) {
        const double *const at = v->points[i]->point->at_m;
        callouts[i].x = ds_view_u(v, ds_view_along(v, (ds_vec){at[0], at[1]}));
        callouts[i].y = ds_view_z(v, at[2]);
    }
    if (callouts) {
        put_all(v, callouts,
                (ds_patch){v->section_left_mm - 8, ds_view_z(v, v->tall_m) - 4,
                           ds_view_u(v, ds_view_along(v, v->high)) + 8, ds_view_z(v, -v->deep_m) + 4});
    }
}
