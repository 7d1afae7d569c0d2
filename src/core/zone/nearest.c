/* SPDX-License-Identifier: MIT */
#include "core/zone/nearest.h"

#include "core/zone/over.h"

#include <math.h>

ds_vec ds_asker_clamped(const ds_asker *const a, const ds_vec p)
{
    return (ds_vec){fmin(fmax(p.x, a->low.x), a->high.x), fmin(fmax(p.y, a->low.y), a->high.y)};
}

static bool is_point(const ds_asker *const a)
{
    return a->low.x == a->high.x && a->low.y == a->high.y;
}

static void try_at(ds_nearest *const best, const ds_field *const field, const ds_vec p)
{
    if (!ds_space_holds(field->space, p) || ds_field_in_freed(field, p)) {
        return;
    }
    const ds_way way = ds_field_way(field, p, best->way.value);
    if (way.source != UINT32_MAX) {
        best->way = way;
        best->at = p;
        best->field = field;
    }
}

/* Where the footprint's sides cross a curve: what of it reaches over a shore, or stands free beside a wall, begins there. */
static void try_crossings(const ds_asker *const a, ds_nearest *const best, const ds_field *const field,
                          const ds_curve *const curve)
{
    const ds_vec corners[] = {a->low, {a->high.x, a->low.y}, a->high, {a->low.x, a->high.y}};
    for (size_t i = 0; i < 4; i++) {
        const ds_curve side = ds_segment(corners[i], corners[(i + 1) % 4]);
        double at[2];
        const size_t len = ds_curve_meet(&side, curve, at);
        for (size_t k = 0; k < len; k++) {
            try_at(best, field, ds_curve_point(&side, at[k]));
        }
    }
}

static void try_footprint(const ds_asker *const a, ds_nearest *const best, const ds_field *const field)
{
    const ds_vec corners[] = {a->low, {a->high.x, a->low.y}, a->high, {a->low.x, a->high.y}};
    try_at(best, field, ds_asker_middle(a));
    if (is_point(a)) {
        return;
    }
    for (size_t i = 0; i < 4; i++) {
        try_at(best, field, corners[i]);
    }
    for (size_t i = 0; i < field->shores_len; i++) {
        const ds_curve *const curve = &field->shores[i].curve;
        try_at(best, field, ds_asker_clamped(a, curve->a));
        try_at(best, field, ds_asker_clamped(a, curve->b));
        if (curve->radius > 0) {
            try_at(best, field, ds_asker_clamped(a, curve->centre));
        }
        try_crossings(a, best, field, curve);
    }
    for (size_t i = 0; i < field->space->walls_len; i++) {
        const ds_curve wall = ds_segment(field->space->walls[i].a, field->space->walls[i].b);
        try_crossings(a, best, field, &wall);
    }
    for (size_t i = 0; i < field->space->bends_len; i++) {
        if (field->bends[i].value < best->way.value) {
            try_at(best, field, ds_asker_clamped(a, field->space->corners[field->space->bends[i]].at));
        }
    }
}

static void try_over(const ds_asker *const a, const size_t zone, const double z0, const double z1,
                     ds_nearest *const best)
{
    const ds_vec places[] = {ds_asker_middle(a),    best->at, a->low,
                             {a->high.x, a->low.y}, a->high,  {a->low.x, a->high.y}};
    for (size_t i = 0; i < sizeof places / sizeof *places; i++) {
        const ds_over over = ds_over_top(a->map, zone, places[i], z0, z1, best->way.value);
        if (over.source != UINT32_MAX) {
            *best = (ds_nearest){.way = {.value = over.value,
                                         .length_m = over.length_m,
                                         .source = over.source,
                                         .from = over.from,
                                         .after = UINT32_MAX},
                                 .at = places[i],
                                 .field = over.field,
                                 .over = true,
                                 .edge = over.edge};
        }
    }
}

ds_nearest ds_nearest_way(const ds_asker *const a, const size_t zone, const double z0, const double z1)
{
    ds_nearest best = {
        .way = {.value = INFINITY, .length_m = INFINITY, .source = UINT32_MAX, .after = UINT32_MAX},
        .at = ds_asker_middle(a)};
    for (size_t i = 0; i < a->map->bands_len; i++) {
        const ds_zone_band *const band = &a->map->bands[i];
        if (band->fields[zone] && band->from_m <= z1 + DS_TOUCH_M && band->to_m >= z0 - DS_TOUCH_M) {
            try_footprint(a, &best, band->fields[zone]);
        }
    }
    if (a->map->law->partition.over_top && isfinite(z0) && isfinite(z1)) {
        try_over(a, zone, z0, z1, &best);
    }
    return best;
}
