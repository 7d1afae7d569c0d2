/* SPDX-License-Identifier: MIT */
/* Outlines of plans: corners, arcs and circles as they are written, and whether they are in metres at all. */
#include "core/job/plan_reader.h"

#include <math.h>

bool ds_plan_place_read(ds_reader *const reader, const ds_json *const value, const char *const form,
                        double *const out, const uint32_t count)
{
    uint32_t i = 0;
    const ds_json *item =
        value && value->kind == DS_JSON_ARRAY && value->count == count ? value->first : NULL;
    for (; item; item = item->next) {
        if (!ds_json_number(item, &out[i++])) {
            break;
        }
        if (fabs(out[i - 1]) > 1000) {
            ds_reader_complain(reader, item, DS_P_OUT_OF_RANGE, ds_json_text(item), DS_STR("-1000 to 1000"));
            return false;
        }
        if (i == count) {
            return true;
        }
    }
    ds_reader_complain(reader, value, DS_P_WRONG_TYPE, DS_STR("a corner"), ds_str_of(form));
    return false;
}

/* --- corners ------------------------------------------------------------------------------------------------------ */

/* A key that an arc does not have changes what the outline means: its writer is told. */
static void check_arc_keys(ds_reader *const reader, const ds_json *const arc)
{
    const ds_str keys[] = {DS_STR("to_m"), DS_STR("through_m")};
    for (const ds_json *value = arc->first; value; value = value->next) {
        const ds_str key = ds_json_key(value);
        if (!ds_str_eq(key, keys[0]) && !ds_str_eq(key, keys[1])) {
            ds_reader_complain(reader, value, DS_P_UNKNOWN_KEY, key, ds_suggest(reader->arena, key, keys, 2));
        }
    }
}

/* [x, y], or {"to_m": [x, y], "through_m": [x, y]}. */
static bool read_corner(ds_reader *const reader, const ds_json *const value, ds_plan_corner *const out)
{
    *out = (ds_plan_corner){.through_x = NAN, .through_y = NAN};
    double to[2] = {0};
    double through[2] = {NAN, NAN};
    const bool is_arc = value->kind == DS_JSON_OBJECT;
    const ds_json *const end = is_arc ? ds_json_get(value, DS_STR("to_m")) : value;
    if (!ds_plan_place_read(reader, end ? end : value,
                            "two numbers [x, y], or an arc with to_m and through_m", to, 2)) {
        return false;
    }
    const ds_json *const middle = is_arc ? ds_json_get(value, DS_STR("through_m")) : NULL;
    if (is_arc && !ds_plan_place_read(reader, middle ? middle : value, "through_m with two numbers [x, y]",
                                      through, 2)) {
        return false;
    }
    if (is_arc) {
        check_arc_keys(reader, value);
    }
    *out = (ds_plan_corner){to[0], to[1], through[0], through[1]};
    return true;
}

static void read_corners(ds_reader *const reader, ds_plan_outline *const out)
{
    const ds_json *const list = out->at;
    if (list->kind != DS_JSON_ARRAY || list->count > DS_PLAN_CORNERS) {
        ds_reader_complain(reader, list, DS_P_WRONG_TYPE, DS_STR("outline_m"),
                           DS_STR("a list of at most 500 corners"));
        return;
    }
    ds_plan_corner *const corners = ds_arena_take_many(reader->arena, list->count, sizeof *corners);
    if (!corners) {
        reader->failed = true;
        return;
    }
    for (const ds_json *item = list->first; item; item = item->next) {
        if (!read_corner(reader, item, &corners[out->len])) {
            return;
        }
        out->len++;
    }
    out->corners = corners;
}

/* --- sizes -------------------------------------------------------------------------------------------------------- */

typedef struct box {
    double low[2], high[2];
} box;

static void take_in(box *const b, const double x, const double y)
{
    const double at[2] = {x, y};
    for (int i = 0; i < 2; i++) {
        b->low[i] = fmin(b->low[i], at[i]);
        b->high[i] = fmax(b->high[i], at[i]);
    }
}

/* The longer side of its box, of which arcs give the place that they go through; -INFINITY of none. */
static double extent_of(const ds_plan_outline *const outline)
{
    box b = {{INFINITY, INFINITY}, {-INFINITY, -INFINITY}};
    for (size_t i = 0; i < outline->len && outline->corners; i++) {
        const ds_plan_corner *const c = &outline->corners[i];
        take_in(&b, c->x, c->y);
        take_in(&b, isnan(c->through_x) ? c->x : c->through_x, isnan(c->through_x) ? c->y : c->through_y);
    }
    const double sides = fmax(b.high[0] - b.low[0], b.high[1] - b.low[1]);
    return isnan(outline->radius_m) ? sides : 2 * outline->radius_m;
}

/* "170" and "0 to 4 m; are these centimetres?" in the arena; empty when memory is short. */
static ds_str say_length(ds_reader *const reader, const char *const before, const double metres,
                         const char *const after)
{
    ds_text text;
    ds_text_init(&text, reader->arena->alloc);
    ds_text_add(&text, before);
    ds_text_number(&text, metres, 3);
    ds_text_add(&text, after);
    char *const copy = ds_text_ok(&text) ? ds_arena_take(reader->arena, text.len) : NULL;
    const size_t len = copy ? text.len : 0;
    if (copy) {
        memcpy(copy, text.at, len);
    } else {
        reader->failed = true;
    }
    ds_text_free(&text);
    return (ds_str){copy, len};
}

void ds_plan_length_check(ds_reader *const reader, const ds_json *const at, const double metres,
                          const double most_m)
{
    if (metres > most_m) {
        ds_reader_complain(reader, at, DS_P_OUT_OF_RANGE, say_length(reader, "", metres, " m"),
                           say_length(reader, "0 to ", most_m, " m; are these centimetres?"));
    }
}

/* --- the whole ---------------------------------------------------------------------------------------------------- */

void ds_plan_outline_read(ds_reader *const reader, const ds_json *const owner, const double most_m,
                          ds_plan_outline *const out)
{
    const bool centre = !isnan(out->centre_m[0]);
    const bool radius = !isnan(out->radius_m);
    if (out->at ? centre || radius : !(centre && radius)) {
        ds_reader_complain(reader, owner, DS_P_MISSING_KEY, DS_STR("outline_m"), DS_STR(""));
        return;
    }
    if (out->at) {
        read_corners(reader, out);
    } else {
        out->at = owner;
    }
    ds_plan_length_check(reader, owner, extent_of(out), most_m);
}
