/* SPDX-License-Identifier: MIT */
#include "core/zone/locate.h"

#include "core/zone/possible.h"

#include <math.h>

static size_t strictest(const uint8_t bits)
{
    size_t i = 0;
    while (!(bits >> i & 1)) {
        i++;
    }
    return i;
}

static bool is_one(const uint8_t bits)
{
    return (bits & (bits - 1)) == 0;
}

/* --- what else to say --------------------------------------------------------------------------------------------- */

/* The rule behind a way: of those at its source with its reach the one of the zone, rather at the thing's own height. */
static const ds_zone_origin *origin_of(const ds_asker *const a, const size_t zone, const ds_nearest *const n)
{
    const ds_zone_source *const source = &n->field->sources[n->way.source];
    const ds_zone_origin *best = NULL;
    int best_rank = -1;
    for (size_t i = 0; i < a->map->origins_len; i++) {
        const ds_zone_origin *const o = &a->map->origins[i];
        const bool level = o->from_m <= a->z1 + DS_TOUCH_M && o->to_m >= a->z0 - DS_TOUCH_M;
        const int rank = 2 * (o->zone == zone) + level;
        if (o->source.feature == source->feature && o->source.reach_m == source->reach_m &&
            rank > best_rank) {
            best = o;
            best_rank = rank;
        }
    }
    return best;
}

static void tell_path(const ds_nearest *const n, ds_zone_answer *const out)
{
    if (n->over) {
        const ds_vec path[] = {n->way.from, n->edge, n->at};
        memcpy(out->path, path, sizeof path);
        out->path_len = 3;
        out->over = true;
        return;
    }
    const size_t len = ds_field_string(n->field, &n->way, n->at, out->path, DS_ZONE_PATH);
    out->path_len = len < DS_ZONE_PATH ? len : DS_ZONE_PATH;
}

/* Where the zones below a thing end: of several, one above the other, the highest decides. NaN: none is below it. */
static double top_below(const ds_asker *const a, const size_t zone, const ds_vec at)
{
    double top_m = NAN;
    for (size_t i = 0; i < a->map->bands_len; i++) {
        const ds_zone_band *const band = &a->map->bands[i];
        if (band->to_m <= a->z0 + DS_TOUCH_M && band->fields[zone] &&
            ds_field_reaches(band->fields[zone], at)) {
            top_m = fmax(top_m, band->to_m);
        }
    }
    return top_m;
}

/* The way to the zone it is in; outside, to the zone whose limit is the nearest to it. */
static void tell_way(const ds_asker *const a, ds_zone_answer *const out, const size_t zone)
{
    const size_t asked = zone < a->map->zones_len ? zone : a->map->zones_len - 1;
    ds_nearest n = ds_nearest_way(a, asked, a->z0, a->z1);
    out->above = false;
    if (n.way.source == UINT32_MAX) {
        n = ds_nearest_way(a, asked, -INFINITY, INFINITY);
        out->above = zone == a->map->zones_len && n.way.source != UINT32_MAX && n.way.value <= 0;
    }
    out->distance_m = INFINITY;
    out->limit_m = NAN;
    out->feature = UINT32_MAX;
    if (n.way.source == UINT32_MAX) {
        return;
    }
    const ds_zone_origin *const origin = origin_of(a, asked, &n);
    const ds_zone_source *const source = &n.field->sources[n.way.source];
    out->rule = origin ? origin->rule : NULL;
    const double below_m = out->above ? top_below(a, asked, n.at) : NAN;
    out->top_m = isnan(below_m) && origin ? origin->to_m : below_m;
    out->feature = source->feature;
    out->distance_m = n.way.length_m;
    out->limit_m = source->reach_m;
    if (isfinite(source->reach_m) && n.way.length_m > DS_TOUCH_M) {
        tell_path(&n, out);
    }
    if (fabs(n.way.value) <= DS_ON_LIMIT_M && source->reach_m > 0) {
        out->cautions |= 1U << DS_ZONE_ON_LIMIT;
    }
}

static void tell_limits(const ds_asker *const a, ds_zone_answer *const out)
{
    const double at[] = {a->z0, a->z1};
    for (size_t i = 0; i < a->map->bands_len; i++) {
        const ds_zone_band *const band = &a->map->bands[i];
        const double ends[] = {band->from_m, band->to_m};
        for (size_t k = 0; k < 4; k++) {
            const bool floor = ends[k / 2] <= 0 && k / 2 == 0;
            if (!floor && fabs(at[k % 2] - ends[k / 2]) <= DS_ON_LIMIT_M && out->zone < a->map->zones_len) {
                out->cautions |= 1U << DS_ZONE_ON_LIMIT;
            }
        }
    }
}

/* Outside a round corner, but inside the square one that some drawings show. */
static void tell_corner(const ds_asker *const a, ds_zone_answer *const out)
{
    const ds_nearest n = ds_nearest_way(a, a->map->zones_len - 1, a->z0, a->z1);
    if (out->zone != a->map->zones_len || n.way.source == UINT32_MAX || n.over || n.way.after != UINT32_MAX) {
        return;
    }
    const ds_zone_source *const source = &n.field->sources[n.way.source];
    const ds_vec d = ds_vec_minus(n.at, n.way.from);
    for (size_t i = 0; i < source->outline.len; i++) {
        const ds_curve *const edge = &source->outline.at[i];
        const ds_curve *const before =
            &source->outline.at[(i + source->outline.len - 1) % source->outline.len];
        const ds_vec u = ds_curve_direction(before, 1);
        const ds_vec v = ds_curve_direction(edge, 0);
        const bool here = ds_vec_between(edge->a, n.way.from) <= DS_TOUCH_M;
        if (here && ds_vec_cross(u, v) > DS_TOUCH_M && -ds_vec_cross(u, d) <= source->reach_m &&
            -ds_vec_cross(v, d) <= source->reach_m) {
            out->cautions |= 1U << DS_ZONE_CORNER;
        }
    }
}

static double straight_to(const ds_asker *const a, const ds_zone_shape *const shape, ds_vec path[2])
{
    double least = INFINITY;
    for (size_t i = 0; i < shape->parts_len; i++) {
        const ds_region *const region = &shape->parts[i].region;
        if (ds_region_encloses(region, ds_asker_middle(a))) {
            return 0;
        }
        for (size_t r = 0; r < region->rings_len; r++) {
            for (size_t k = 0; k < region->rings[r].len; k++) {
                const ds_curve *const curve = &region->rings[r].at[k];
                const ds_vec tries[] = {ds_asker_clamped(a, curve->a),
                                        ds_asker_clamped(a, curve->b),
                                        ds_asker_clamped(a, curve->radius > 0 ? curve->centre : curve->a),
                                        a->low,
                                        a->high,
                                        {a->low.x, a->high.y},
                                        {a->high.x, a->low.y}};
                for (size_t t = 0; t < sizeof tries / sizeof *tries; t++) {
                    const ds_vec edge = ds_curve_point(curve, ds_curve_nearest(curve, tries[t]));
                    if (ds_vec_between(edge, tries[t]) < least) {
                        least = ds_vec_between(edge, tries[t]);
                        path[0] = edge;
                        path[1] = tries[t];
                    }
                }
            }
        }
    }
    return least;
}

/* The straight distance from a zone as rules ask for it, with its path; what no string reaches is outside the location. */
static double to_zone(const ds_asker *const a, const ds_str word, double *const string_m, ds_vec path[2])
{
    const size_t zone = ds_zone_index(a->map, word);
    *string_m = INFINITY;
    if (zone == a->map->zones_len) {
        return INFINITY;
    }
    const ds_nearest n = ds_nearest_way(a, zone, -INFINITY, INFINITY);
    if (n.way.source == UINT32_MAX) {
        return INFINITY;
    }
    *string_m = fmax(n.way.value, 0);
    return fmin(straight_to(a, &a->map->zones[zone], path), *string_m);
}

static void tell_distances(const ds_asker *const a, ds_zone_answer *const out)
{
    double ignored = 0;
    ds_vec path[2];
    out->zone0_m = to_zone(a, DS_STR("0"), &ignored, path);
    out->zone1_m = to_zone(a, DS_STR("1"), &out->zone1_string_m, out->zone1_path);
    if (out->zone1_string_m > out->zone1_m + DS_ON_LIMIT_M) {
        out->cautions |= 1U << DS_ZONE_NEAR_DISTANCE;
    }
}

/* How exactly the distance, or else the height, must be known to tell the possible zones apart. */
static void tell_measure(const ds_asker *const a, ds_zone_answer *const out)
{
    double within = INFINITY;
    for (size_t zone = 0; zone < a->map->zones_len; zone++) {
        const ds_nearest n = ds_nearest_way(a, zone, a->z0, a->z1);
        const double value = ds_nearest_margin(&n);
        if (out->could_be >> zone & 1 && fabs(value) <= a->tolerance_m && fabs(value) < within) {
            within = fabs(value);
            out->measure = DS_ZONE_MEASURE_DISTANCE;
        }
    }
    for (size_t i = 0; i < a->map->bands_len; i++) {
        const double ends[] = {a->map->bands[i].from_m - a->z1, a->z0 - a->map->bands[i].to_m,
                               a->z1 - a->map->bands[i].from_m, a->map->bands[i].to_m - a->z0};
        for (size_t k = 0; k < 4 && out->measure == DS_ZONE_MEASURE_NOTHING; k++) {
            within = ends[k] >= 0 ? fmin(within, ends[k]) : within;
        }
    }
    out->measure = out->measure == DS_ZONE_MEASURE_NOTHING ? DS_ZONE_MEASURE_HEIGHT : out->measure;
    out->within_m = within;
}

static void tell_variants(const ds_asker *const a, ds_zone_answer *const out)
{
    static const ds_zone_caution CAUTION[] = {[DS_PLAN_LOW] = DS_ZONE_HEIGHT_OPEN,
                                              [DS_PLAN_SCREENED] = DS_ZONE_LOW_SCREEN,
                                              [DS_PLAN_DOORS] = DS_ZONE_DOOR,
                                              [DS_PLAN_LEVEL] = DS_ZONE_STEP};
    for (int i = 0; i < DS_PLAN_READINGS; i++) {
        ds_asker other = *a;
        other.map = a->map->variants[i];
        if (!other.map || !other.map->bands_len) {
            continue;
        }
        const uint8_t bits = ds_zones_possible(&other);
        if (bits == out->could_be) {
            continue;
        }
        out->cautions |= 1U << CAUTION[i];
        if (i == DS_PLAN_LOW) {
            out->could_be |= bits;
            out->measure = DS_ZONE_MEASURE_RIM;
        }
    }
}

/* --- the answer --------------------------------------------------------------------------------------------------- */

static bool in_room(const ds_zone_map *const map, const ds_vec p, const double z)
{
    const ds_zone_band *chosen = NULL;
    for (size_t i = 0; i < map->bands_len; i++) {
        const ds_zone_band *const band = &map->bands[i];
        if (!chosen || (z >= band->from_m - DS_TOUCH_M && z <= band->to_m + DS_TOUCH_M)) {
            chosen = band;
        }
    }
    return chosen && ds_space_holds(chosen->space, p);
}

/* A face of a wall near a thing that is let into it. */
typedef struct face {
    ds_vec at;
    double gap_m;
    size_t zone;
} face;

/* Of two faces equally near, as in the middle of a screen, the one in the stricter zone. */
static bool is_better(const face *const a, const face *const b)
{
    const double same = 1e-3;
    return a->gap_m < b->gap_m - same || (a->gap_m < b->gap_m + same && a->zone < b->zone);
}

/* Into the room by the shortest way, when it is let into a wall. */
static bool settle(const ds_zone_map *const map, ds_vec *const p, const double z, bool *const moved)
{
    *moved = false;
    if (in_room(map, *p, z)) {
        return true;
    }
    face best = {.gap_m = INFINITY, .zone = SIZE_MAX};
    for (size_t b = 0; b < map->bands_len; b++) {
        const ds_space *const space = map->bands[b].space;
        for (size_t i = 0; i < space->walls_len; i++) {
            const ds_curve wall = ds_segment(space->walls[i].a, space->walls[i].b);
            face f = {.at = ds_curve_point(&wall, ds_curve_nearest(&wall, *p))};
            f.gap_m = ds_vec_between(f.at, *p);
            if (f.gap_m > DS_SCENE_OVERLAP_M + DS_TOUCH_M || !in_room(map, f.at, z)) {
                continue;
            }
            f.zone = ds_zone_at(map, f.at, z);
            best = is_better(&f, &best) ? f : best;
        }
    }
    *moved = isfinite(best.gap_m);
    *p = *moved ? best.at : *p;
    return *moved;
}

static ds_asker asker_of(const ds_zone_map *const map, const ds_zone_item *const item, const ds_vec middle)
{
    const double x = item->size_m[0] / 2;
    const double y = item->size_m[1] / 2;
    const double z = item->size_m[2] / 2;
    return (ds_asker){.map = map,
                      .low = {middle.x - x, middle.y - y},
                      .high = {middle.x + x, middle.y + y},
                      .z0 = item->at_m[2] - z,
                      .z1 = item->at_m[2] + z,
                      .tolerance_m = item->tolerance_m};
}

static size_t zone_of_middle(const ds_zone_map *const map, const ds_zone_item *const item,
                             const ds_vec middle)
{
    const ds_zone_item point = {.at_m = {item->at_m[0], item->at_m[1], item->at_m[2]}};
    const ds_asker a = asker_of(map, &point, middle);
    return strictest(ds_zones_possible(&a));
}

static bool has_size(const ds_zone_item *const item)
{
    return item->size_m[0] > 0 || item->size_m[1] > 0 || item->size_m[2] > 0;
}

static void tell_notes(const ds_zone_map *const map, ds_zone_answer *const out)
{
    if (map->outlet_taken_as_trayless && out->rule && out->feature != UINT32_MAX &&
        map->scene.plan->features[out->feature].kind == DS_SHOWER_OUTLET) {
        out->cautions |= 1U << DS_ZONE_TRAYLESS;
    }
    if (out->zone < map->zones_len && out->rule && out->rule->doubt.len) {
        out->cautions |= 1U << DS_ZONE_DOUBT;
    }
}

ds_status ds_zone_ask(ds_zone_answer *const out, const ds_zone_map *const map, const ds_zone_item *const item)
{
    *out = (ds_zone_answer){.feature = UINT32_MAX, .within_m = NAN, .top_m = NAN};
    ds_vec middle = {item->at_m[0], item->at_m[1]};
    bool moved = false;
    if (!settle(map, &middle, item->at_m[2], &moved)) {
        return DS_BAD_INPUT;
    }
    ds_asker a = asker_of(map, item, middle);
    const double ceiling = ds_scene_ceiling(&map->scene, middle);
    const bool above_ceiling = a.z0 >= ceiling - DS_TOUCH_M && item->at_m[2] > ceiling + DS_TOUCH_M;
    out->could_be = (uint8_t)(above_ceiling ? 1U << map->zones_len : ds_zones_possible(&a));
    out->cautions |= moved ? 1U << DS_ZONE_LET_IN : 0;
    out->cautions |= above_ceiling ? 1U << DS_ZONE_CEILING : 0;
    if (!above_ceiling) {
        tell_variants(&a, out);
    }
    out->zone = is_one(out->could_be) ? strictest(out->could_be) : SIZE_MAX;
    tell_way(&a, out, strictest(out->could_be));
    tell_distances(&a, out);
    if (out->zone == SIZE_MAX && out->measure != DS_ZONE_MEASURE_RIM) {
        tell_measure(&a, out);
    }
    tell_limits(&a, out);
    if (!above_ceiling) {
        tell_corner(&a, out);
    }
    if (out->zone != SIZE_MAX && has_size(item) && zone_of_middle(map, item, middle) != out->zone) {
        out->cautions |= 1U << DS_ZONE_STRADDLES;
    }
    tell_notes(map, out);
    return DS_OK;
}

size_t ds_zone_at(const ds_zone_map *const map, const ds_vec p, const double z_m)
{
    for (size_t zone = 0; zone < map->zones_len; zone++) {
        const ds_field *asked = NULL;
        for (size_t i = 0; i < map->bands_len; i++) {
            const ds_zone_band *const band = &map->bands[i];
            const bool here = z_m >= band->from_m - DS_TOUCH_M && z_m <= band->to_m + DS_TOUCH_M;
            if (here && band->fields[zone] && band->fields[zone] != asked) {
                asked = band->fields[zone];
                if (ds_field_reaches(asked, p)) {
                    return band->freed && ds_field_in_freed(asked, p) ? map->zones_len : zone;
                }
            }
        }
    }
    return map->zones_len;
}

ds_str ds_zone_answer_word(const ds_zone_answer *const answer, const ds_zone_map *const map)
{
    if (answer->zone == SIZE_MAX) {
        return DS_STR("unknown");
    }
    return answer->zone < map->zones_len ? map->zones[answer->zone].word : DS_STR("outside");
}
