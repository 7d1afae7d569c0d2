/* SPDX-License-Identifier: MIT */
/* What a rule needs, from JSON. */
#include "core/rules/reader.h"

#include <math.h>

static void read_mark(ds_pack_reader *const r, const ds_json *const value, ds_needs *const out)
{
    ds_need need = DS_NEED_NOTHING;
    ds_reading reading;
    if (value->kind != DS_JSON_STRING || !ds_need_read(ds_json_text(value), &need, &reading)) {
        ds_pack_refuse(r, value, "a need that cannot be read");
        return;
    }
    out->mark = ds_need_join(out->mark, need);
}

static void read_joules(ds_pack_reader *const r, const ds_json *const value, ds_needs *const out)
{
    double joules = 0;
    if (!ds_json_number(value, &joules) || joules < 0) {
        ds_pack_refuse(r, value, "impact_j takes joules");
        return;
    }
    const ds_claim claim = {.objects = -1, .impact = (int8_t)ds_impact_grade(joules)};
    out->mark = ds_need_join(out->mark, ds_need_from(&claim));
}

/* A number, or "temp_c": what stands beside the seen word. */
static void read_degrees(ds_pack_reader *const r, const ds_json *const value, double *const out,
                         bool *const as_seen)
{
    *as_seen = value->kind == DS_JSON_STRING && ds_str_is(ds_json_text(value), "temp_c");
    if (!*as_seen && !ds_json_number(value, out)) {
        ds_pack_refuse(r, value, "degrees are a number, or \"temp_c\" for what was seen");
    }
}

static bool read_true(ds_pack_reader *const r, const ds_json *const value)
{
    if (value->kind != DS_JSON_TRUE) {
        ds_pack_refuse(r, value, "this need is written as true");
    }
    return value->kind == DS_JSON_TRUE;
}

static void read_need(ds_pack_reader *const r, const ds_json *const item, ds_needs *const out)
{
    const ds_str key = ds_json_key(item);
    if (ds_str_is(key, "ip") || ds_str_is(key, "ik")) {
        read_mark(r, item, out);
    } else if (ds_str_is(key, "impact_j")) {
        read_joules(r, item, out);
    } else if (ds_str_is(key, "immersion")) {
        out->immersion = read_true(r, item);
    } else if (ds_str_is(key, "surface_d")) {
        out->surface_d = read_true(r, item);
    } else if (ds_str_is(key, "rated_c")) {
        read_degrees(r, item, &out->rated_c, &out->rated_as_seen);
    } else if (ds_str_is(key, "cold_c")) {
        read_degrees(r, item, &out->cold_c, &out->cold_as_seen);
    } else if (ds_str_is(key, "quality")) {
        out->qualities = ds_pack_word_ids(r, DS_FAMILY_QUALITY, item, &out->qualities_len);
    } else if (ds_str_is(key, "measure")) {
        out->measures = ds_pack_word_ids(r, DS_FAMILY_MEASURE, item, &out->measures_len);
    } else {
        ds_pack_refuse(r, item, "a need that is not known");
    }
}

bool ds_needs_read(ds_pack_reader *const r, const ds_json *const value, ds_needs *const out)
{
    *out = (ds_needs){.mark = DS_NEED_NOTHING, .rated_c = NAN, .cold_c = NAN};
    if (value->kind != DS_JSON_OBJECT || value->count == 0) {
        ds_pack_refuse(r, value, "needs is an object that names at least one need");
        return false;
    }
    for (const ds_json *item = value->first; item && r->status == DS_OK; item = item->next) {
        read_need(r, item, out);
    }
    return r->status == DS_OK;
}
