/* SPDX-License-Identifier: MIT */
#include "core/zone/json.h"

#include <math.h>

/* Metres to the micrometre: what is beyond differs between machines. */
static void put_metres(ds_json_writer *const w, const double metres)
{
    if (isfinite(metres)) {
        const double rounded = floor(metres * 1e6 + 0.5) / 1e6;
        ds_json_put_number(w, rounded == 0 ? 0 : rounded);
    } else {
        ds_json_put_null(w);
    }
}

static void put_length(ds_json_writer *const w, const char *const key, const double metres)
{
    ds_json_put_key(w, key);
    put_metres(w, metres);
}

static void put_place(ds_json_writer *const w, const ds_vec p)
{
    ds_json_begin_array(w);
    put_metres(w, p.x);
    put_metres(w, p.y);
    ds_json_end_array(w);
}

static void put_path(ds_json_writer *const w, const char *const key, const ds_vec *const path,
                     const size_t len)
{
    ds_json_put_key(w, key);
    ds_json_begin_array(w);
    for (size_t i = 0; i < len; i++) {
        put_place(w, path[i]);
    }
    ds_json_end_array(w);
}

static void put_str(ds_json_writer *const w, const char *const key, const ds_str value)
{
    ds_json_put_key(w, key);
    if (value.at) {
        ds_json_put_str(w, value);
    } else {
        ds_json_put_null(w);
    }
}

/* --- an answer ---------------------------------------------------------------------------------------------------- */

static void put_from(ds_json_writer *const w, const ds_zone_answer *const answer,
                     const ds_zone_map *const map)
{
    if (answer->feature == UINT32_MAX) {
        put_str(w, "from", (ds_str){0});
        return;
    }
    const ds_feature *const f = &map->scene.plan->features[answer->feature];
    put_str(w, "from", f->id.at ? f->id : f->word);
}

static void put_could_be(ds_json_writer *const w, const ds_zone_answer *const answer,
                         const ds_zone_map *const map)
{
    ds_json_put_key(w, "could_be");
    ds_json_begin_array(w);
    for (size_t i = 0; i <= map->zones_len && answer->zone == SIZE_MAX; i++) {
        if (answer->could_be >> i & 1) {
            ds_json_put_str(w, i < map->zones_len ? map->zones[i].word : DS_STR("outside"));
        }
    }
    ds_json_end_array(w);
}

static void put_line(ds_json_writer *const w, ds_text *const line)
{
    if (line->len) {
        ds_json_put_str(w, ds_text_str(line));
    } else {
        ds_json_put_null(w);
    }
    w->text->failed = w->text->failed || !ds_text_ok(line);
    line->len = 0;
}

void ds_zone_answer_json(ds_json_writer *const w, const ds_zone_answer *const answer,
                         const ds_zone_map *const map)
{
    ds_text line;
    ds_text_init(&line, w->text->alloc);
    put_str(w, "zone", ds_zone_answer_word(answer, map));
    put_could_be(w, answer, map);
    put_str(w, "rule", answer->rule ? answer->rule->id : (ds_str){0});
    put_from(w, answer, map);
    put_length(w, "distance_m", answer->distance_m);
    put_length(w, "limit_m", answer->limit_m);
    put_path(w, "path_m", answer->path, answer->path_len);
    ds_json_put_key(w, "way");
    ds_zone_say_way(&line, answer, map);
    put_line(w, &line);
    put_length(w, "zone1_distance_m", answer->zone1_m);
    put_length(w, "zone1_string_m", answer->zone1_string_m);
    put_length(w, "zone0_distance_m", answer->zone0_m);
    put_path(w, "zone1_path_m", answer->zone1_path, isfinite(answer->zone1_m) && answer->zone1_m > 0 ? 2 : 0);
    ds_json_put_key(w, "cautions");
    ds_json_begin_array(w);
    for (int i = 0; i < DS_ZONE_CAUTIONS; i++) {
        if (answer->cautions >> i & 1) {
            ds_zone_say_caution(&line, answer, (ds_zone_caution)i);
            put_line(w, &line);
        }
    }
    ds_json_end_array(w);
    ds_json_put_key(w, "measure");
    ds_zone_say_measure(&line, answer, map);
    put_line(w, &line);
    ds_text_free(&line);
}

/* --- shapes ------------------------------------------------------------------------------------------------------- */

static void put_curve(ds_json_writer *const w, const ds_curve *const curve)
{
    ds_json_begin_object(w);
    ds_json_put_key(w, "from_m");
    put_place(w, curve->a);
    ds_json_put_key(w, "to_m");
    put_place(w, curve->b);
    if (curve->radius > 0) {
        ds_json_put_key(w, "centre_m");
        put_place(w, curve->centre);
        put_length(w, "radius_m", curve->radius);
        ds_json_put_key(w, "turn");
        ds_json_put_text(w, curve->left ? "left" : "right");
    }
    ds_json_end_object(w);
}

static void put_part(ds_json_writer *const w, const ds_zone_part *const part)
{
    ds_json_begin_object(w);
    put_length(w, "from_m", part->from_m);
    put_length(w, "to_m", part->to_m);
    put_length(w, "area_m2", part->region.area_m2);
    ds_json_put_key(w, "rings");
    ds_json_begin_array(w);
    for (size_t r = 0; r < part->region.rings_len; r++) {
        ds_json_begin_array(w);
        for (size_t i = 0; i < part->region.rings[r].len; i++) {
            put_curve(w, &part->region.rings[r].at[i]);
        }
        ds_json_end_array(w);
    }
    ds_json_end_array(w);
    ds_json_end_object(w);
}

static void put_rules(ds_json_writer *const w, const ds_zone_map *const map, const size_t zone)
{
    ds_json_put_key(w, "rules");
    ds_json_begin_array(w);
    for (size_t i = 0; i < map->law->rules_len; i++) {
        const ds_zone_rule *const rule = &map->law->rules[i];
        bool used = false;
        for (size_t o = 0; o < map->origins_len; o++) {
            used = used || (map->origins[o].rule == rule && map->origins[o].zone == zone);
        }
        if (!used) {
            continue;
        }
        ds_json_begin_object(w);
        put_str(w, "id", rule->id);
        put_str(w, "clause", rule->clause);
        put_str(w, "because", rule->because);
        put_str(w, "doubt", rule->doubt);
        ds_json_put_key(w, "source");
        ds_json_begin_object(w);
        ds_json_put_key(w, "kind");
        ds_json_put_text(w, ds_source_kind_word(rule->source.kind));
        put_str(w, "ref", rule->source.ref);
        ds_json_end_object(w);
        ds_json_end_object(w);
    }
    ds_json_end_array(w);
}

void ds_zone_shapes_json(ds_json_writer *const w, const ds_zone_map *const map)
{
    ds_json_put_key(w, "zones");
    ds_json_begin_array(w);
    for (size_t i = 0; i < map->zones_len; i++) {
        ds_json_begin_object(w);
        put_str(w, "zone", map->zones[i].word);
        ds_json_put_key(w, "parts");
        ds_json_begin_array(w);
        for (size_t k = 0; k < map->zones[i].parts_len; k++) {
            put_part(w, &map->zones[i].parts[k]);
        }
        ds_json_end_array(w);
        put_rules(w, map, i);
        ds_json_end_object(w);
    }
    ds_json_end_array(w);
}
