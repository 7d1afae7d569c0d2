/* SPDX-License-Identifier: MIT */
#include "core/zone/map.h"

#include "core/zone/map_maker.h"

#include <math.h>

void ds_map_fail(ds_map_maker *const m, const ds_problem_code code, const ds_json *const at, const ds_str a)
{
    if (m->status == DS_OK) {
        m->status = DS_BAD_INPUT;
        *m->fault = (ds_zone_fault){.code = code, .at = at, .a = a, .b = DS_STR("")};
    }
}

/* --- bands -------------------------------------------------------------------------------------------------------- */

static void put_level(ds_map_maker *const m, const double z)
{
    size_t i = m->levels_len;
    for (size_t k = 0; k < m->levels_len; k++) {
        if (fabs(m->levels[k] - z) <= DS_TOUCH_M || m->levels[k] == z) {
            return;
        }
    }
    if (m->levels_len > DS_ZONE_BANDS) {
        ds_map_fail(m, DS_P_PLAN_TOO_FINE, m->scene->plan->at, DS_STR(""));
        return;
    }
    for (; i > 0 && m->levels[i - 1] > z; i--) {
        m->levels[i] = m->levels[i - 1];
    }
    m->levels[i] = z;
    m->levels_len++;
}

static bool is_recess(const ds_feature_kind kind)
{
    return kind == DS_WINDOW || kind == DS_NICHE;
}

static double recess_low(const ds_feature *const f)
{
    const double low = f->kind == DS_WINDOW ? f->sill_m : f->bottom_m;
    return isnan(low) ? 0 : low;
}

static double recess_high(const ds_feature *const f)
{
    const double high = f->kind == DS_WINDOW ? f->head_m : f->top_m;
    return isnan(high) ? INFINITY : high;
}

static void put_levels(ds_map_maker *const m)
{
    double low = INFINITY;
    for (size_t i = 0; i < m->map->origins_len; i++) {
        put_level(m, m->map->origins[i].from_m);
        put_level(m, m->map->origins[i].to_m);
        low = fmin(low, m->map->origins[i].from_m);
    }
    for (size_t i = 0; i < m->scene->plan->features_len; i++) {
        const ds_feature *const f = ds_map_feature(m, i);
        const bool over = m->map->law->partition.over_top && m->counts[i];
        const double at[] = {over ? f->height_m : NAN, over ? f->gap_m : NAN,
                             is_recess(f->kind) ? recess_low(f) : NAN,
                             is_recess(f->kind) ? recess_high(f) : NAN};
        for (size_t k = 0; k < 4; k++) {
            if (at[k] > low && at[k] < m->map->top_m) {
                put_level(m, at[k]);
            }
        }
    }
}

/* Does a feature shape the space between two heights: +1 it is solid, -1 it is room, 0 neither. */
static int shapes_space(const ds_map_maker *const m, const size_t i, const double from, const double to)
{
    const ds_feature *const f = ds_map_feature(m, i);
    if (ds_map_is_solid(f->kind)) {
        const bool over = m->map->law->partition.over_top;
        const bool beside = over && ((!isnan(f->height_m) && from >= f->height_m - DS_TOUCH_M) ||
                                     (!isnan(f->gap_m) && to <= f->gap_m + DS_TOUCH_M));
        return m->counts[i] && !beside ? 1 : 0;
    }
    if (is_recess(f->kind)) {
        return from >= recess_low(f) - DS_TOUCH_M && to <= recess_high(f) + DS_TOUCH_M ? -1 : 0;
    }
    return f->kind == DS_OPENING || (f->kind == DS_DOOR && ds_map_reads(m, DS_PLAN_DOORS)) ? -1 : 0;
}

static bool same_space(const ds_map_maker *const m, const ds_zone_band *const a, const ds_zone_band *const b)
{
    for (size_t i = 0; i < m->scene->plan->features_len; i++) {
        if (shapes_space(m, i, a->from_m, a->to_m) != shapes_space(m, i, b->from_m, b->to_m)) {
            return false;
        }
    }
    return true;
}

static const ds_space *make_space(ds_map_maker *const m, const ds_zone_band *const band)
{
    const size_t features = m->scene->plan->features_len;
    ds_space *const space = ds_arena_take(m->arena, sizeof *space);
    ds_outline *const rooms = ds_arena_take_many(m->arena, m->scene->rooms_len + features, sizeof *rooms);
    ds_outline *const solids = ds_arena_take_many(m->arena, features, sizeof *solids);
    if (!space || !rooms || !solids) {
        m->status = DS_NO_MEMORY;
        return NULL;
    }
    size_t rooms_len = 0;
    size_t solids_len = 0;
    for (size_t i = 0; i < m->scene->rooms_len; i++) {
        rooms[rooms_len++] = m->scene->rooms[i];
    }
    for (size_t i = 0; i < features; i++) {
        const int shape = m->scene->blocks[i].len ? shapes_space(m, i, band->from_m, band->to_m) : 0;
        if (shape < 0) {
            rooms[rooms_len++] = m->scene->blocks[i];
        } else if (shape > 0) {
            solids[solids_len++] = m->scene->blocks[i];
        }
    }
    const ds_status status = ds_space_make(space, rooms, rooms_len, solids, solids_len, m->arena);
    if (status == DS_BAD_INPUT) {
        ds_map_fail(m, DS_P_PLAN_TOO_FINE, m->scene->plan->at, DS_STR(""));
    } else if (status != DS_OK) {
        m->status = status;
    }
    return space;
}

/* --- fields ------------------------------------------------------------------------------------------------------- */

/* A string starts in the room: an outlet let into a wall is taken where it comes out. */
static ds_vec in_space(const ds_space *const space, const ds_vec p)
{
    if (ds_space_holds(space, p)) {
        return p;
    }
    ds_vec nearest = p;
    double least = INFINITY;
    for (size_t i = 0; i < space->walls_len; i++) {
        const ds_curve wall = ds_segment(space->walls[i].a, space->walls[i].b);
        const ds_vec at = ds_curve_point(&wall, ds_curve_nearest(&wall, p));
        if (ds_vec_between(at, p) < least) {
            least = ds_vec_between(at, p);
            nearest = at;
        }
    }
    return nearest;
}

/* The sources of a zone and all stricter ones in a band; of two rules at one feature the wider reach counts. */
static size_t collect(const ds_map_maker *const m, const ds_zone_band *const band, const uint32_t zone,
                      ds_zone_source *const out)
{
    size_t len = 0;
    for (size_t i = 0; i < m->map->origins_len; i++) {
        const ds_zone_origin *const o = &m->map->origins[i];
        if (o->zone > zone || o->from_m > band->from_m + DS_TOUCH_M || o->to_m < band->to_m - DS_TOUCH_M) {
            continue;
        }
        size_t k = 0;
        while (k < len && (out[k].feature != o->source.feature || out[k].freed != o->source.freed)) {
            k++;
        }
        if (k == len) {
            out[len++] = o->source;
        } else {
            out[k].reach_m = fmax(out[k].reach_m, o->source.reach_m);
        }
    }
    return len;
}

static bool same_sources(const ds_field *const field, const ds_zone_source *const sources, const size_t len)
{
    if (!field || field->sources_len != len) {
        return false;
    }
    for (size_t i = 0; i < len; i++) {
        bool found = false;
        for (size_t k = 0; k < len && !found; k++) {
            found = field->sources[k].feature == sources[i].feature &&
                    field->sources[k].reach_m == sources[i].reach_m &&
                    field->sources[k].freed == sources[i].freed;
        }
        if (!found) {
            return false;
        }
    }
    return true;
}

static const ds_field *known_field(const ds_zone_map *const map, const ds_space *const space,
                                   const ds_zone_source *const sources, const size_t len)
{
    for (size_t b = 0; b < map->bands_len; b++) {
        for (size_t z = 0; z < map->zones_len; z++) {
            const ds_field *const field = map->bands[b].fields[z];
            if (field && field->space == space && same_sources(field, sources, len)) {
                return field;
            }
        }
    }
    return NULL;
}

static const ds_field *field_for(ds_map_maker *const m, const ds_zone_band *const band, const uint32_t zone,
                                 ds_zone_source *const scratch)
{
    const size_t len = collect(m, band, zone, scratch);
    const ds_field *const known = known_field(m->map, band->space, scratch, len);
    if (!len || known) {
        return known;
    }
    ds_field *const field = ds_arena_take(m->arena, sizeof *field);
    ds_zone_source *const sources = ds_arena_take_many(m->arena, len, sizeof *sources);
    if (!field || !sources) {
        m->status = DS_NO_MEMORY;
        return NULL;
    }
    for (size_t i = 0; i < len; i++) {
        sources[i] = scratch[i];
        if (!sources[i].outline.at && isfinite(sources[i].reach_m)) {
            sources[i].at = in_space(band->space, sources[i].at);
        }
    }
    const ds_status status = ds_field_make(field, band->space, sources, len, m->arena);
    if (status == DS_BAD_INPUT) {
        ds_map_fail(m, DS_P_PLAN_TOO_FINE, m->scene->plan->at, DS_STR(""));
    } else if (status != DS_OK) {
        m->status = status;
    }
    return field;
}

static void make_bands(ds_map_maker *const m)
{
    ds_zone_map *const map = m->map;
    map->bands = ds_arena_take_many(m->arena, m->levels_len, sizeof *map->bands);
    ds_zone_source *const scratch = ds_arena_take_many(m->arena, map->origins_len, sizeof *scratch);
    if (!map->bands || !scratch) {
        m->status = DS_NO_MEMORY;
    }
    for (size_t i = 0; i + 1 < m->levels_len && m->status == DS_OK; i++) {
        ds_zone_band *const band = &map->bands[i];
        band->from_m = m->levels[i];
        band->to_m = m->levels[i + 1];
        for (size_t k = 0; k < i && !band->space; k++) {
            band->space = same_space(m, band, &map->bands[k]) ? map->bands[k].space : NULL;
        }
        band->space = band->space ? band->space : make_space(m, band);
        for (size_t o = 0; o < map->origins_len; o++) {
            const ds_zone_origin *const origin = &map->origins[o];
            const bool here =
                origin->from_m <= band->from_m + DS_TOUCH_M && origin->to_m >= band->to_m - DS_TOUCH_M;
            band->own[origin->zone] = band->own[origin->zone] || (here && !origin->source.freed);
            band->freed = band->freed || (here && origin->source.freed);
        }
        map->bands_len = i + 1;
        for (uint32_t z = 0; z < map->zones_len && m->status == DS_OK; z++) {
            band->fields[z] = field_for(m, band, z, scratch);
        }
    }
}

/* --- parts -------------------------------------------------------------------------------------------------------- */

static const ds_field *stricter(const ds_zone_band *const band, const size_t zone)
{
    return zone > 0 ? band->fields[zone - 1] : NULL;
}

static bool same_region(const ds_region *const a, const ds_region *const b)
{
    if (a->rings_len != b->rings_len || fabs(a->area_m2 - b->area_m2) > DS_TOUCH_M) {
        return false;
    }
    for (size_t i = 0; i < a->rings_len; i++) {
        if (a->rings[i].len != b->rings[i].len) {
            return false;
        }
        for (size_t k = 0; k < a->rings[i].len; k++) {
            if (ds_vec_between(a->rings[i].at[k].a, b->rings[i].at[k].a) > DS_ASIDE_M) {
                return false;
            }
        }
    }
    return true;
}

/* Adds a part, or raises the one below it when that has the same shape. */
static void add_part(ds_zone_shape *const shape, const ds_zone_part *const part)
{
    ds_zone_part *const below = shape->parts_len ? &shape->parts[shape->parts_len - 1] : NULL;
    if (below && fabs(below->to_m - part->from_m) <= DS_TOUCH_M &&
        same_region(&below->region, &part->region)) {
        below->to_m = part->to_m;
    } else if (part->region.rings_len) {
        shape->parts[shape->parts_len++] = *part;
    }
}

static void make_parts(ds_map_maker *const m, const size_t zone)
{
    ds_zone_map *const map = m->map;
    ds_zone_shape *const shape = &map->zones[zone];
    shape->parts = ds_arena_take_many(m->arena, map->bands_len, sizeof *shape->parts);
    if (!shape->parts) {
        m->status = DS_NO_MEMORY;
        return;
    }
    for (size_t i = 0; i < map->bands_len && m->status == DS_OK; i++) {
        const ds_zone_band *const band = &map->bands[i];
        const ds_zone_band *const before = i ? &map->bands[i - 1] : NULL;
        const bool same = before && before->own[zone] && before->fields[zone] == band->fields[zone] &&
                          stricter(before, zone) == stricter(band, zone);
        if (!band->own[zone] || band->fields[zone] == stricter(band, zone)) {
            continue;
        }
        if (same && shape->parts_len &&
            fabs(shape->parts[shape->parts_len - 1].to_m - band->from_m) <= DS_TOUCH_M) {
            shape->parts[shape->parts_len - 1].to_m = band->to_m;
            continue;
        }
        ds_zone_part part = {.from_m = band->from_m, .to_m = band->to_m};
        m->status = ds_region_make(&part.region, band->fields[zone], stricter(band, zone), m->arena);
        add_part(shape, &part);
    }
}

/* --- the whole ---------------------------------------------------------------------------------------------------- */

size_t ds_zone_index(const ds_zone_map *const map, const ds_str word)
{
    size_t i = 0;
    while (i < map->zones_len && !ds_str_eq(map->zones[i].word, word)) {
        i++;
    }
    return i;
}

static double zones_top(const ds_map_maker *const m)
{
    double top = 0;
    for (size_t i = 0; i < m->map->origins_len; i++) {
        top = fmax(top, m->map->origins[i].to_m);
    }
    return top;
}

static void check_names(ds_map_maker *const m)
{
    for (size_t i = 0; i < m->scene->plan->features_len; i++) {
        const ds_feature *const under = ds_map_feature(m, i);
        bool found = under->kind != DS_UNDER_BATH || !under->of.at;
        for (size_t k = 0; k < m->scene->plan->features_len && !found; k++) {
            found = ds_map_is_vessel(ds_map_feature(m, k)->kind) &&
                    ds_str_eq(ds_map_feature(m, k)->id, under->of);
        }
        if (!found) {
            ds_map_fail(m, DS_P_PLAN_NO_SUCH, under->at, under->of);
        }
    }
}

static ds_status make_reading(ds_zone_map *const map, const ds_scene *const scene, const unsigned readings,
                              ds_arena *const arena, ds_zone_fault *const fault)
{
    ds_map_maker m = {
        .map = map, .scene = scene, .arena = arena, .fault = fault, .readings = readings, .status = DS_OK};
    map->origins = ds_arena_take_many(arena, DS_ZONE_ORIGINS, sizeof *map->origins);
    if (!map->origins) {
        return DS_NO_MEMORY;
    }
    check_names(&m);
    ds_map_find_origins(&m);
    map->top_m = zones_top(&m);
    ds_map_find_limits(&m);
    if (m.status == DS_OK) {
        put_levels(&m);
    }
    if (m.status == DS_OK) {
        make_bands(&m);
    }
    for (size_t zone = 0; zone < map->zones_len && m.status == DS_OK; zone++) {
        make_parts(&m, zone);
    }
    return m.status;
}

ds_status ds_zone_map_make(ds_zone_map *const out, const ds_plan *const plan, const ds_zone_law *const law,
                           ds_arena *const arena, ds_zone_fault *const fault)
{
    *out = (ds_zone_map){.law = law};
    ds_status status = ds_scene_make(&out->scene, plan, arena, fault);
    if (status == DS_OK) {
        status = make_reading(out, &out->scene, 0, arena, fault);
    }
    for (int i = 0; i < DS_PLAN_READINGS && status == DS_OK; i++) {
        if (out->open[i]) {
            ds_zone_map *const variant = ds_arena_take(arena, sizeof *variant);
            if (!variant) {
                return DS_NO_MEMORY;
            }
            *variant = (ds_zone_map){.law = law, .scene = out->scene};
            status = make_reading(variant, &out->scene, 1U << i, arena, fault);
            out->variants[i] = variant;
        }
    }
    return status;
}
