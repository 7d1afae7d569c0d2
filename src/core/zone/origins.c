/* SPDX-License-Identifier: MIT */
/* From features and zone rules to origins, from which height to which; and which partitions limit. */
#include "core/zone/map_maker.h"

#include <math.h>

/* Heights that are not stated: the largest that they may be, where the stricter reading needs one. */
#define RIM_AT_MOST_M 1.0
#define STANDING_AT_MOST_M 10.0
#define DEEPEST_M (-50.0)

/* An outlet this near to a vessel stands over it: on the wall behind; further when it is said to, by its arm (convention). */
#define OVER_M 0.05
#define STATED_OVER_M 0.2

/* A height, or where it is not stated the one that this reading takes. */
static double stated_or(ds_map_maker *const m, const double value, const double most, const double least)
{
    if (!isnan(value)) {
        return value;
    }
    m->map->open[DS_PLAN_LOW] = m->map->open[DS_PLAN_LOW] || most != least;
    return ds_map_reads(m, DS_PLAN_LOW) ? least : most;
}

/* --- heights ------------------------------------------------------------------------------------------------------ */

/* The floor that people stand on by a source: the highest step within its zones. */
static double floor_by(const ds_map_maker *const m, const size_t feature, const double reach_m)
{
    double floor = 0;
    if (ds_map_reads(m, DS_PLAN_LEVEL)) {
        return floor;
    }
    const ds_outline *const shape = &m->scene->shapes[feature];
    const ds_feature *const f = ds_map_feature(m, feature);
    for (size_t i = 0; i < m->scene->plan->features_len; i++) {
        const ds_feature *const step = ds_map_feature(m, i);
        const ds_outline *const on = &m->scene->shapes[i];
        if (step->kind != DS_RAISED_FLOOR || isnan(step->height_m)) {
            continue;
        }
        const ds_vec at = {f->at_m[0], f->at_m[1]};
        const double gap = shape->len                              ? ds_outline_between(shape, on)
                           : ds_outline_holds(on->at, on->len, at) ? 0
                                                                   : ds_outline_distance(on->at, on->len, at);
        floor = gap <= reach_m ? fmax(floor, step->height_m) : floor;
    }
    return floor;
}

static double ceiling(const ds_map_maker *const m)
{
    const double height = m->scene->plan->height_m;
    return isnan(height) ? INFINITY : height;
}

static double highest_outlet(ds_map_maker *const m)
{
    double highest = 0;
    for (size_t i = 0; i < m->scene->plan->features_len; i++) {
        const ds_feature *const f = ds_map_feature(m, i);
        if (f->kind == DS_SHOWER_OUTLET) {
            highest = fmax(highest, stated_or(m, f->height_m, ceiling(m), 0));
        }
    }
    return highest;
}

static bool is_basin(const ds_feature *const f)
{
    return f->kind == DS_POOL || f->kind == DS_FOUNTAIN;
}

static double level_m(ds_map_maker *const m, const ds_zone_rule *const rule, const size_t feature,
                      const ds_level level, const bool upper)
{
    const ds_feature *const f = ds_map_feature(m, feature);
    const double rim = is_basin(f) && isnan(f->rim_m) ? 0 : f->rim_m;
    switch (level) {
    case DS_LEVEL_FLOOR:
        return upper ? floor_by(m, feature, fmax(rule->reach_m, 0.6)) : 0;
    case DS_LEVEL_RIM:
        return stated_or(m, rim, RIM_AT_MOST_M, 0);
    case DS_LEVEL_BOTTOM:
        if (f->kind == DS_SHOWER_OUTLET) {
            return 0;
        }
        if (upper) {
            return stated_or(m, f->bottom_m, isnan(rim) ? RIM_AT_MOST_M : rim, 0);
        }
        return isnan(f->bottom_m) ? (is_basin(f) ? DEEPEST_M : 0) : f->bottom_m;
    case DS_LEVEL_STANDING:
        return stated_or(m, f->top_m, STANDING_AT_MOST_M, 0);
    default:
        return ceiling(m);
    }
}

/* --- origins ------------------------------------------------------------------------------------------------------ */

/* A fountain that people can enter counts as a pool. */
static ds_feature_kind counts_as(const ds_feature *const f)
{
    return f->kind == DS_FOUNTAIN && f->entered == DS_TRI_YES ? DS_POOL : f->kind;
}

/* In plan, from the nearest bath or shower basin; 0 within it. */
static double from_vessel(const ds_map_maker *const m, const ds_vec p)
{
    double least = INFINITY;
    for (size_t i = 0; i < m->scene->plan->features_len; i++) {
        const ds_outline *const shape = &m->scene->shapes[i];
        if (ds_map_is_vessel(ds_map_feature(m, i)->kind)) {
            const bool inside = ds_outline_encloses(shape->at, shape->len, p);
            least = inside ? 0 : fmin(least, ds_outline_distance(shape->at, shape->len, p));
        }
    }
    return least;
}

/*
 * An outlet over a vessel has no zones of its own, so that its word for it must be borne out: `basin` where the plan
 * shows none would leave its surroundings outside.
 */
static bool over_vessel(ds_map_maker *const m, const ds_feature *const outlet)
{
    if (outlet->basin == DS_TRI_NO) {
        return false;
    }
    const double off = from_vessel(m, (ds_vec){outlet->at_m[0], outlet->at_m[1]});
    if (outlet->basin == DS_TRI_YES) {
        if (off > STATED_OVER_M) {
            ds_map_fail(m, DS_P_PLAN_NO_BASIN, outlet->at, DS_STR(""));
        }
        return true;
    }
    m->map->outlet_taken_as_trayless = m->map->outlet_taken_as_trayless || off > OVER_M;
    return off <= OVER_M;
}

/* The space under a vessel that only a tool opens. */
static bool closed_by_tool(const ds_map_maker *const m, const size_t vessel)
{
    for (size_t i = 0; i < m->scene->plan->features_len; i++) {
        const ds_feature *const f = ds_map_feature(m, i);
        if (f->kind == DS_UNDER_BATH && f->tool == DS_TRI_YES &&
            (!f->of.at || ds_str_eq(f->of, ds_map_feature(m, vessel)->id))) {
            return true;
        }
    }
    return false;
}

static uint32_t zone_of(ds_zone_map *const map, const ds_str word)
{
    const size_t found = ds_zone_index(map, word);
    if (found == map->zones_len && map->zones_len < DS_ZONES_MAX) {
        map->zones[map->zones_len++].word = word;
    }
    return (uint32_t)found;
}

static void add_origin(ds_map_maker *const m, const ds_zone_origin *const origin)
{
    ds_zone_map *const map = m->map;
    if (map->origins_len == DS_ZONE_ORIGINS) {
        ds_map_fail(m, DS_P_PLAN_TOO_FINE, m->scene->plan->at, DS_STR(""));
    } else if (origin->from_m < origin->to_m) {
        map->origins[map->origins_len++] = *origin;
    }
}

static void put_origin(ds_map_maker *const m, const ds_zone_rule *const rule, const uint32_t feature)
{
    ds_zone_map *const map = m->map;
    ds_zone_origin origin = {.source = {.reach_m = 0}};
    origin.rule = rule;
    origin.zone = zone_of(map, rule->zone);
    origin.source.reach_m = rule->reach_m;
    origin.source.feature = feature;
    if (origin.zone == DS_ZONES_MAX) {
        ds_map_fail(m, DS_P_PLAN_TOO_FINE, m->scene->plan->at, DS_STR(""));
        return;
    }
    if (feature == UINT32_MAX) {
        origin.from_m = rule->from_m;
        origin.to_m = rule->to == DS_LEVEL_CEILING ? ceiling(m) : rule->to_m;
    } else {
        const ds_feature *const f = ds_map_feature(m, feature);
        origin.source.outline = m->scene->shapes[feature];
        origin.source.at = (ds_vec){f->at_m[0], f->at_m[1]};
        origin.source.outline.at = origin.source.outline.len ? origin.source.outline.at : NULL;
        origin.from_m = rule->from_m + level_m(m, rule, feature, rule->from, false);
        origin.to_m = rule->to_m + level_m(m, rule, feature, rule->to, true);
    }
    origin.to_m = rule->or_outlet ? fmax(origin.to_m, highest_outlet(m)) : origin.to_m;
    origin.to_m = fmin(origin.to_m, ceiling(m));
    const double bottom = feature == UINT32_MAX ? NAN : ds_map_feature(m, feature)->bottom_m;
    if (rule->tool_frees_below && bottom > origin.from_m && closed_by_tool(m, feature)) {
        ds_zone_origin below = origin;
        below.to_m = bottom;
        below.source.freed = true;
        origin.from_m = bottom;
        add_origin(m, &below);
    }
    add_origin(m, &origin);
}

void ds_map_find_origins(ds_map_maker *const m)
{
    bool any = false;
    bool rounded[DS_PLAN_FEATURES] = {false};
    const ds_zone_law *const law = m->map->law;
    for (size_t r = 0; r < law->rules_len; r++) {
        const ds_zone_rule *const rule = &law->rules[r];
        for (uint32_t i = 0; i < m->scene->plan->features_len && m->status == DS_OK; i++) {
            const ds_feature_kind kind = counts_as(ds_map_feature(m, i));
            if (!(rule->round >> kind & 1)) {
                continue;
            }
            rounded[i] = true;
            any = true;
            if (kind != DS_SHOWER_OUTLET || !over_vessel(m, ds_map_feature(m, i))) {
                put_origin(m, rule, i);
            }
        }
        if (rule->room) {
            put_origin(m, rule, UINT32_MAX);
        }
    }
    for (size_t i = 0; i < m->scene->plan->features_len; i++) {
        const ds_feature *const f = ds_map_feature(m, i);
        if (ds_feature_is_wet(f->kind) && !rounded[i]) {
            ds_map_fail(m, DS_P_PLAN_NOT_HERE, f->at, f->word);
        }
        m->map->open[DS_PLAN_LEVEL] = m->map->open[DS_PLAN_LEVEL] || f->kind == DS_RAISED_FLOOR;
    }
    if (!any) {
        ds_map_fail(m, DS_P_PLAN_NOTHING_WET, m->scene->plan->at, DS_STR(""));
    }
}

/* --- what limits -------------------------------------------------------------------------------------------------- */

/* Walls without a stated height go to the ceiling; screens without one cannot be counted on. */
static bool limits(ds_map_maker *const m, const ds_feature *const f)
{
    const ds_partition_rule *const law = &m->map->law->partition;
    const bool full = f->kind == DS_COLUMN || (f->kind == DS_SOLID_WALL && isnan(f->height_m));
    if (full) {
        return true;
    }
    const double least = law->to_zone_top ? fmin(m->map->top_m, ceiling(m)) : law->least_height_m;
    const bool high = f->height_m >= least - DS_TOUCH_M;
    const bool joined = law->over_top || isnan(f->gap_m) || f->gap_m <= law->floor_gap_m + DS_TOUCH_M;
    const bool steady = law->swinging || f->fixed != DS_TRI_NO;
    if (high && joined && steady) {
        return true;
    }
    m->map->open[DS_PLAN_SCREENED] = true;
    return ds_map_reads(m, DS_PLAN_SCREENED);
}

void ds_map_find_limits(ds_map_maker *const m)
{
    for (size_t i = 0; i < m->scene->plan->features_len; i++) {
        m->counts[i] = ds_map_is_solid(ds_map_feature(m, i)->kind) && limits(m, ds_map_feature(m, i));
        m->map->open[DS_PLAN_DOORS] = m->map->open[DS_PLAN_DOORS] ||
                                      (ds_map_feature(m, i)->kind == DS_DOOR && m->scene->blocks[i].len > 0);
    }
}
