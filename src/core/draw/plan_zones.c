/* SPDX-License-Identifier: MIT */
/* Zones in the plan: hatches, numbers, the measures that make them. */
#include "core/draw/measure.h"
#include "core/draw/plan.h"
#include "core/draw/plan_view.h"

#include <math.h>

ds_fill ds_view_hatch(const ds_str zone)
{
    static const ds_fill HATCHES[] = {DS_FILL_ZONE_0, DS_FILL_ZONE_1, DS_FILL_ZONE_2, DS_FILL_ZONE_3};
    const bool digit = zone.len == 1 && zone.at[0] >= '0' && zone.at[0] <= '3';
    return digit ? HATCHES[zone.at[0] - '0'] : DS_FILL_LIGHT;
}

void ds_view_write(ds_plan_view *const v, const double x_mm, const double y_mm, const ds_str text,
                   const ds_lettering how)
{
    ds_sheet_write(v->sheet, x_mm, y_mm, text, how);
    if (v->taken_len < DS_VIEW_LABELS) {
        v->taken[v->taken_len++] = ds_patch_of_text(x_mm, y_mm, text, &how);
    }
}

ds_str ds_view_metres(ds_plan_view *const v, const double metres)
{
    ds_text text;
    ds_text_init(&text, v->arena->alloc);
    ds_text_number(&text, metres, 3);
    const char *const point = text.len ? memchr(text.at, '.', text.len) : NULL;
    const size_t decimals = point ? text.len - (size_t)(point - text.at) - 1 : 0;
    ds_text_add(&text, decimals == 0 ? ".00 m" : decimals == 1 ? "0 m" : " m");
    ds_sheet_heed(v->sheet, &text);
    char *const copy = ds_arena_take(v->arena, text.len);
    const ds_str out = {copy, copy ? text.len : 0};
    if (copy && text.len) {
        memcpy(copy, text.at, text.len);
    }
    ds_text_free(&text);
    return out;
}

const ds_zone_part *ds_view_part(const ds_zone_map *const map, const size_t zone)
{
    const ds_zone_part *largest = NULL;
    for (size_t i = 0; i < map->zones[zone].parts_len; i++) {
        const ds_zone_part *const part = &map->zones[zone].parts[i];
        largest = !largest || part->region.area_m2 > largest->region.area_m2 ? part : largest;
    }
    return largest;
}

bool ds_view_same_footprint(const ds_zone_map *const map, const size_t zone)
{
    const ds_zone_part *const own = ds_view_part(map, zone);
    const ds_zone_part *const before = zone > 0 ? ds_view_part(map, zone - 1) : NULL;
    if (!own || !before || fabs(own->region.area_m2 - before->region.area_m2) > 1e-6) {
        return false;
    }
    ds_vec nearest;
    const ds_vec corner = before->region.rings[0].at[0].a;
    return ds_region_distance(&own->region, corner, &nearest) < 1e-6;
}

/* --- hatches ------------------------------------------------------------------------------------------------------ */

static void put_region(ds_plan_view *const v, const ds_region *const region, const ds_pen pen,
                       const ds_fill fill)
{
    for (size_t i = 0; i < region->rings_len; i++) {
        ds_view_outline(v, region->rings[i].at, region->rings[i].len);
    }
    ds_sheet_draw(v->sheet, pen, fill);
}

/* A stricter zone is drawn over this place. */
static bool is_covered(const ds_zone_map *const map, const size_t zone, const ds_vec p)
{
    for (size_t i = 0; i < zone; i++) {
        const ds_zone_part *const part = ds_view_part(map, i);
        if (part && ds_region_encloses(&part->region, p) &&
            !(i + 1 == zone && ds_view_same_footprint(map, zone))) {
            return true;
        }
    }
    return false;
}

/* How far a place is from what a number there would cover: edges, stricter zones, points. */
static double room_at(const ds_plan_view *const v, const size_t zone, const ds_vec p)
{
    ds_vec nearest;
    double room = ds_region_distance(&ds_view_part(v->map, zone)->region, p, &nearest);
    for (size_t i = 0; i < zone; i++) {
        const ds_zone_part *const part = ds_view_part(v->map, i);
        if (part && !(i + 1 == zone && ds_view_same_footprint(v->map, zone))) {
            room = fmin(room, ds_region_distance(&part->region, p, &nearest));
        }
    }
    for (size_t i = 0; i < v->points_len; i++) {
        const double *const at = v->points[i]->point->at_m;
        room = fmin(room, ds_vec_between(p, (ds_vec){at[0], at[1]}));
    }
    return room;
}

/* The place inside that has most room: where a number reads best. */
static bool roomiest(const ds_plan_view *const v, const size_t zone, ds_vec *const out)
{
    enum { STEPS = 40 };
    const ds_region *const region = &ds_view_part(v->map, zone)->region;
    double best = 0;
    for (int i = 0; i < STEPS * STEPS; i++) {
        const int column = i / STEPS;
        const int row = i % STEPS;
        const ds_vec p = {v->low.x + (column + 0.5) / STEPS * (v->high.x - v->low.x),
                          v->low.y + (row + 0.5) / STEPS * (v->high.y - v->low.y)};
        const bool inside = ds_region_encloses(region, p) && !is_covered(v->map, zone, p);
        const double room = inside ? room_at(v, zone, p) : 0;
        /* By more than rounding: which of two equal places it is must not differ between machines. */
        if (room > best + 1e-6) {
            best = room;
            *out = p;
        }
    }
    return best > 0;
}

/* "1", or "0 1" where the stricter zone lies below on the same ground. */
static void put_number(ds_plan_view *const v, const size_t zone)
{
    ds_vec at;
    if (!roomiest(v, zone, &at)) {
        return;
    }
    ds_text say;
    ds_text_init(&say, v->arena->alloc);
    if (ds_view_same_footprint(v->map, zone)) {
        ds_text_adds(&say, v->map->zones[zone - 1].word);
        ds_text_add(&say, " · ");
    }
    ds_text_adds(&say, v->map->zones[zone].word);
    ds_sheet_heed(v->sheet, &say);
    ds_view_write(v, ds_view_x(v, at.x), ds_view_y(v, at.y), ds_text_str(&say),
                  (ds_lettering){.size_mm = DS_TYPE_HEAD_MM,
                                 .bold = true,
                                 .halo = true,
                                 .centred = true,
                                 .anchor = DS_ANCHOR_MIDDLE});
    ds_text_free(&say);
}

static bool is_shown(const ds_zone_map *const map, const size_t zone)
{
    return ds_view_part(map, zone) && !(zone + 1 < map->zones_len && ds_view_same_footprint(map, zone + 1));
}

/* Laxest first, so that a zone that reaches over another lies on top of it. */
static void put_zones(ds_plan_view *const v)
{
    for (size_t zone = v->map->zones_len; zone-- > 0;) {
        if (!is_shown(v->map, zone)) {
            continue;
        }
        const ds_zone_part *const part = ds_view_part(v->map, zone);
        const ds_str word = v->map->zones[zone].word;
        ds_sheet_begin(v->sheet, DS_ROLE_ZONE, word, word);
        put_region(v, &part->region, DS_PEN_NONE, DS_FILL_PAPER);
        put_region(v, &part->region, DS_PEN_ZONE, ds_view_hatch(word));
        for (size_t i = 0; i < v->map->zones[zone].parts_len; i++) {
            const ds_zone_part *const other = &v->map->zones[zone].parts[i];
            const bool higher = other->from_m >= part->to_m - 1e-6;
            if (other != part && higher && fabs(other->region.area_m2 - part->region.area_m2) > 1e-6) {
                put_region(v, &other->region, DS_PEN_HIDDEN, DS_FILL_NONE);
            }
        }
        ds_sheet_end(v->sheet);
    }
}

/* Off the room: between it and these stand the marks of the cut. */
#define DIMENSION_MM 12.0

/* --- measures ----------------------------------------------------------------------------------------------------- */

static ds_stretch on_sheet(const ds_plan_view *const v, const ds_vec a, const ds_vec b)
{
    return (ds_stretch){ds_view_x(v, a.x), ds_view_y(v, a.y), ds_view_x(v, b.x), ds_view_y(v, b.y)};
}

static bool is_clear(const ds_plan_view *const v, const ds_vec a, const ds_vec b)
{
    const ds_space *const space = v->map->bands[0].space;
    return ds_space_holds(space, a) && ds_space_holds(space, b) && ds_space_sees(space, a, b);
}

/* Out of the longest free edge of an outline, off its middle, where numbers stand. */
static bool reach_of_outline(const ds_plan_view *const v, const ds_zone_source *const source,
                             const double share, ds_vec *const a, ds_vec *const b)
{
    double longest = 0;
    for (size_t i = 0; i < source->outline.len; i++) {
        const ds_curve *const edge = &source->outline.at[i];
        const ds_vec d = ds_curve_direction(edge, share);
        const ds_vec from = ds_curve_point(edge, share);
        const ds_vec to = ds_vec_along(from, source->reach_m, (ds_vec){d.y, -d.x});
        if (ds_curve_len(edge) > longest && is_clear(v, ds_vec_along(from, 0.001, (ds_vec){d.y, -d.x}), to)) {
            longest = ds_curve_len(edge);
            *a = from;
            *b = to;
        }
    }
    return longest > 0;
}

/* From an outlet in the first clear direction of sixteen, the slanting ones first. */
static bool reach_of_outlet(const ds_plan_view *const v, const ds_zone_source *const source, ds_vec *const a,
                            ds_vec *const b)
{
    for (int i = 0; i < 16; i++) {
        const double angle = (double)(i * 5 + 2) * 0.39269908169872414;
        const ds_vec way = {cos(angle), sin(angle)};
        *a = source->at;
        *b = ds_vec_along(source->at, source->reach_m, way);
        if (is_clear(v, *a, *b)) {
            return true;
        }
    }
    return false;
}

/* Each reach from each kind of thing once. */
static bool told_before(const ds_zone_map *const map, const size_t origin)
{
    const ds_zone_origin *const own = &map->origins[origin];
    for (size_t i = 0; i < origin; i++) {
        const ds_zone_origin *const other = &map->origins[i];
        const bool same_feature = other->source.feature == own->source.feature;
        if (other->source.reach_m == own->source.reach_m && (same_feature || other->rule == own->rule)) {
            return true;
        }
    }
    return false;
}

static void put_reaches(ds_plan_view *const v)
{
    size_t told = 0;
    for (size_t i = 0; i < v->map->origins_len; i++) {
        const ds_zone_source *const source = &v->map->origins[i].source;
        if (!(source->reach_m > 0) || isinf(source->reach_m) || told_before(v->map, i)) {
            continue;
        }
        ds_vec a = {0};
        ds_vec b = {0};
        const double share = 0.22 + 0.17 * (double)(told++ % 4);
        const bool found = source->outline.at ? reach_of_outline(v, source, share, &a, &b)
                                              : reach_of_outlet(v, source, &a, &b);
        if (!found || source->reach_m * v->mm_per_m < 5) {
            continue;
        }
        ds_measure_dimension(v->sheet, on_sheet(v, a, b), 0, ds_view_metres(v, source->reach_m));
        const double x = (ds_view_x(v, a.x) + ds_view_x(v, b.x)) / 2;
        const double y = (ds_view_y(v, a.y) + ds_view_y(v, b.y)) / 2;
        if (v->taken_len < DS_VIEW_LABELS) {
            v->taken[v->taken_len++] = (ds_patch){x - 6, y - 6, x + 6, y + 6};
        }
    }
}

static void put_size(ds_plan_view *const v)
{
    const ds_vec low_left = v->low;
    const ds_vec high_right = v->high;
    const ds_vec high_left = {v->low.x, v->high.y};
    ds_measure_dimension(v->sheet, on_sheet(v, high_left, high_right), DIMENSION_MM,
                         ds_view_metres(v, v->high.x - v->low.x));
    ds_measure_dimension(v->sheet, on_sheet(v, low_left, high_left), DIMENSION_MM,
                         ds_view_metres(v, v->high.y - v->low.y));
}

/* Where the section is cut: a mark at either side, with its letter. */
static void put_cut(ds_plan_view *const v)
{
    const double off = 6.5;
    const double at = v->cut_upright ? ds_view_x(v, v->cut_m) : ds_view_y(v, v->cut_m);
    const double ends[] = {v->cut_upright ? v->top_mm - off : v->left_mm - off,
                           v->cut_upright ? ds_view_y(v, v->low.y) + off : ds_view_x(v, v->high.x) + off};
    for (int i = 0; i < 2; i++) {
        const double in = ends[i] + (i == 0 ? 4 : -4);
        const double out = ends[i] + (i == 0 ? -2 : 2);
        ds_sheet_stroke(v->sheet, DS_PEN_ZONE, v->cut_upright ? at : ends[i], v->cut_upright ? ends[i] : at,
                        v->cut_upright ? at : in, v->cut_upright ? in : at);
        ds_sheet_write(
            v->sheet, v->cut_upright ? at : out, v->cut_upright ? out : at, DS_STR("A"),
            (ds_lettering){.size_mm = DS_TYPE_MM, .bold = true, .centred = true, .anchor = DS_ANCHOR_MIDDLE});
    }
}

void ds_view_plan(ds_plan_view *const v)
{
    ds_sheet_begin(v->sheet, DS_ROLE_PLAN, DS_STR(""), DS_STR("Plan"));
    ds_view_rooms(v);
    put_zones(v);
    ds_view_features(v);
    for (size_t zone = 0; zone < v->map->zones_len; zone++) {
        if (is_shown(v->map, zone)) {
            put_number(v, zone);
        }
    }
    put_reaches(v);
    put_size(v);
    put_cut(v);
    if (!isnan(v->map->scene.plan->north_deg)) {
        ds_measure_north(v->sheet, DS_A4_WIDTH_MM - 18, v->top_mm - 6, v->map->scene.plan->north_deg);
    }
    ds_view_points(v);
    ds_sheet_end(v->sheet);
}
