/* SPDX-License-Identifier: MIT */
#include "core/assess/wet.h"

#include <math.h>

/* A position called rough is taken this far off (convention; docs/plan.md). */
#define ABOUT_M 0.10

static bool add_map(ds_assessor *const a, ds_place *const place, const ds_pack *const pack,
                    const ds_zone_law *const law, ds_wet *const out)
{
    ds_zone_map *const map = ds_arena_take(a->arena, sizeof *map);
    if (!map) {
        return false;
    }
    ds_zone_fault fault = {.at = NULL};
    const ds_status status = ds_zone_map_make(map, place->plan, law, a->arena, &fault);
    if (status == DS_BAD_INPUT) {
        ds_assessor_complain(a, fault.at, &place->problem, fault.code, fault.a, fault.b);
        out->broken = true;
        return true;
    }
    out->maps[out->len] = map;
    out->packs[out->len++] = pack;
    return status == DS_OK;
}

/* A bath in a bedroom makes it a room with a bath: that its kind has no zones must not pass for "outside". */
static void check_kind(ds_assessor *const a, ds_place *const place, ds_wet *const out)
{
    for (size_t i = 0; i < place->plan->features_len && !out->broken; i++) {
        const ds_feature *const f = &place->plan->features[i];
        if (f->kind != DS_FEATURE_KINDS && ds_feature_is_wet(f->kind)) {
            ds_assessor_complain(a, f->at, &place->problem, DS_P_PLAN_KIND, f->word, DS_STR(""));
            out->broken = true;
        }
    }
}

bool ds_wet_of_place(ds_assessor *const a, const ds_findings *const findings, ds_place *const place,
                     const int place_word, ds_wet *const out)
{
    *out = (ds_wet){.len = 0};
    const bool has_zones = place_word >= 0 && a->vocabulary.words->at[place_word]->zones;
    const ds_pack *packs[DS_WET_MAPS] = {NULL};
    for (size_t i = 0; has_zones && i < findings->packs_len && out->laws_len < DS_WET_MAPS; i++) {
        const ds_zone_law *const law = ds_pack_zone_law(findings->packs[i], a->vocabulary.words, place_word);
        if (law) {
            packs[out->laws_len] = findings->packs[i];
            out->laws[out->laws_len++] = law;
        }
    }
    if (place->plan && place_word >= 0 && !has_zones) {
        check_kind(a, place, out);
    }
    if (!place->plan || !has_zones || place->plan->broken) {
        return true;
    }
    for (size_t i = 0; i < out->laws_len && !out->broken; i++) {
        if (!add_map(a, place, packs[i], out->laws[i], out)) {
            return false;
        }
    }
    if (!out->laws_len && findings->packs_len) {
        ds_assessor_complain(a, place->plan->at, NULL, DS_P_PLAN_NO_LAW, DS_STR(""), DS_STR(""));
    }
    return true;
}

static double or_zero(const double value)
{
    return isnan(value) ? 0 : value;
}

static ds_zone_item item_of(const ds_point *const point)
{
    const double rough = point->about == DS_TRI_YES ? ABOUT_M : 0;
    return (ds_zone_item){
        .at_m = {point->at_m[0], point->at_m[1], point->at_m[2]},
        .size_m = {or_zero(point->size_m[0]), or_zero(point->size_m[1]), or_zero(point->size_m[2])},
        .tolerance_m = isnan(point->tolerance_m) ? rough : point->tolerance_m};
}

static void open_word(ds_facts *const facts, const int id)
{
    if (id >= 0 && !ds_facts_has(facts, id)) {
        facts->open[id / 64] |= UINT64_C(1) << id % 64;
    }
}

/* The zones that it may be in: one holds, several are open. */
static void set_zones(const ds_assessor *const a, const ds_zone_map *const map,
                      const ds_zone_answer *const answer, ds_facts *const facts)
{
    const ds_words *const words = a->vocabulary.words;
    for (size_t i = 0; i <= map->zones_len; i++) {
        const ds_str word = i < map->zones_len ? map->zones[i].word : DS_STR("outside");
        const int id = ds_words_find(words, DS_FAMILY_ZONE, word);
        if (answer->zone == i) {
            ds_facts_set(facts, id);
        } else if (answer->zone == SIZE_MAX && answer->could_be >> i & 1) {
            open_word(facts, id);
        }
    }
}

/* The nearer of all packs' zones, and of what is stated, each as rough as the position. */
static void set_distance(ds_facts *const facts, const ds_number which, const double distance_m,
                         const double tolerance_m)
{
    ds_span *const span = &facts->number[which];
    const double low = fmax(distance_m - tolerance_m, 0);
    const double high = distance_m + tolerance_m;
    const bool first = isinf(span->low) && span->low < 0;
    *span = first ? (ds_span){low, high} : (ds_span){fmin(span->low, low), fmin(span->high, high)};
}

static void check_stated(ds_assessor *const a, ds_point *const point, const ds_str zone)
{
    const ds_str stated = point->zone_stated;
    if (stated.at && !ds_str_eq(stated, zone) && !ds_str_is(zone, "unknown")) {
        const ds_json *const at = ds_json_get(point->at, DS_STR("zone_stated"));
        ds_assessor_complain(a, at, &point->problem, DS_P_ZONE_DIFFERS, stated, zone);
    }
}

const ds_zone_answer *ds_wet_locate(ds_assessor *const a, const ds_wet *const wet, ds_point *const point,
                                    ds_facts *const facts, ds_str *const zone)
{
    if (!wet || !wet->len || isnan(point->at_m[0]) || isnan(point->at_m[1]) || isnan(point->at_m[2])) {
        return NULL;
    }
    const ds_zone_item item = item_of(point);
    ds_zone_answer *const answers = ds_arena_take_many(a->arena, wet->len, sizeof *answers);
    if (!answers) {
        a->failed = true;
        return NULL;
    }
    for (size_t i = 0; i < wet->len; i++) {
        if (ds_zone_ask(&answers[i], wet->maps[i], &item) != DS_OK) {
            const ds_json *const at = ds_json_get(point->at, DS_STR("at_m"));
            ds_assessor_complain(a, at, &point->problem, DS_P_IN_A_WALL, DS_STR(""), DS_STR(""));
            return NULL;
        }
        set_zones(a, wet->maps[i], &answers[i], facts);
        set_distance(facts, DS_NUMBER_ZONE1_DISTANCE, answers[i].zone1_m, item.tolerance_m);
        set_distance(facts, DS_NUMBER_ZONE0_DISTANCE, answers[i].zone0_m, item.tolerance_m);
    }
    *zone = ds_zone_answer_word(&answers[0], wet->maps[0]);
    check_stated(a, point, *zone);
    return answers;
}
