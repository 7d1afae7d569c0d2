/* SPDX-License-Identifier: MIT */
/* The zones of one place as JSON (docs/plan.md). */
#include "core/assess/render.h"
#include "core/zone/json.h"

static void put_str(ds_json_writer *const w, const char *const key, const ds_str value)
{
    ds_json_put_key(w, key);
    if (value.at) {
        ds_json_put_str(w, value);
    } else {
        ds_json_put_null(w);
    }
}

static void put_points(ds_json_writer *const w, const ds_findings *const findings, const size_t place,
                       const ds_zone_map *const map)
{
    ds_json_put_key(w, "points");
    ds_json_begin_array(w);
    for (size_t i = 0; i < findings->points_len; i++) {
        const ds_finding *const finding = &findings->points[i];
        if (finding->point->place == (int32_t)place && finding->where) {
            ds_json_begin_object(w);
            put_str(w, "id", finding->point->id);
            ds_zone_answer_json(w, finding->where, map);
            ds_json_end_object(w);
        }
    }
    ds_json_end_array(w);
}

static void put_spots(ds_json_writer *const w, const ds_zone_map *const map, const ds_zone_spot *const spots,
                      const size_t len)
{
    ds_json_put_key(w, "at");
    ds_json_begin_array(w);
    for (size_t i = 0; i < len; i++) {
        const ds_zone_item item = {.at_m = {spots[i].at_m[0], spots[i].at_m[1], spots[i].at_m[2]}};
        ds_zone_answer answer;
        ds_json_begin_object(w);
        ds_json_put_key(w, "at_m");
        ds_json_begin_array(w);
        for (size_t k = 0; k < 3; k++) {
            ds_json_put_number(w, spots[i].at_m[k]);
        }
        ds_json_end_array(w);
        if (ds_zone_ask(&answer, map, &item) == DS_OK) {
            ds_zone_answer_json(w, &answer, map);
        } else {
            put_str(w, "zone", DS_STR("unknown"));
            put_str(w, "problem", DS_STR("the position does not lie in the room of the plan"));
        }
        ds_json_end_object(w);
    }
    ds_json_end_array(w);
}

void ds_zones_json(ds_text *const out, const ds_findings *const findings, const size_t place,
                   const ds_zone_spot *const spots, const size_t spots_len)
{
    const ds_wet *const wet = &findings->wet[place];
    ds_json_writer w = ds_json_writer_on(out);
    ds_json_begin_object(&w);
    put_str(&w, "place", findings->job->places[place].id);
    if (wet->len) {
        put_str(&w, "pack", wet->packs[0]->id);
        put_str(&w, "edition", wet->packs[0]->edition);
        put_str(&w, "section", wet->maps[0]->law->section);
        ds_zone_shapes_json(&w, wet->maps[0]);
        put_points(&w, findings, place, wet->maps[0]);
        put_spots(&w, wet->maps[0], spots, spots_len);
    } else {
        ds_json_put_key(&w, "zones");
        ds_json_put_null(&w);
    }
    ds_json_end_object(&w);
    ds_text_char(out, '\n');
}
