/* SPDX-License-Identifier: MIT */
#include "core/zone/over.h"

#include <math.h>

/* A place seen across one face of a partition. */
typedef struct crossing {
    const ds_field *field; /* as if the partition were not there */
    ds_vec p, unfolded;
    ds_curve face;
    ds_vec normal; /* out of the face, to p's side */
} crossing;

/* The way by q, when the unfolded line crosses the face and nothing else is in its way. */
static void by_way_of(const crossing *const c, const ds_vec q, const double value, const uint32_t source,
                      ds_over *const best)
{
    const double side = ds_vec_dot(ds_vec_minus(q, c->face.a), c->normal);
    const ds_curve line = ds_segment(q, c->unfolded);
    const double whole = value + ds_vec_between(q, c->unfolded);
    double at[2];
    if (side > DS_TOUCH_M || whole >= best->value || !ds_curve_meet(&line, &c->face, at)) {
        return;
    }
    const ds_vec edge = ds_curve_point(&line, at[0]);
    if (ds_space_sees(c->field->space, q, edge) && ds_space_sees(c->field->space, edge, c->p)) {
        *best = (ds_over){.value = whole, .field = c->field, .source = source, .from = q, .edge = edge};
    }
}

static void across(const crossing *const c, ds_over *const best)
{
    for (size_t i = 0; i < c->field->shores_len; i++) {
        const ds_shore *const shore = &c->field->shores[i];
        const ds_vec q = ds_curve_point(&shore->curve, ds_curve_nearest(&shore->curve, c->unfolded));
        by_way_of(c, q, shore->value, shore->source, best);
    }
    for (size_t i = 0; i < c->field->space->bends_len; i++) {
        const ds_bend *const bend = &c->field->bends[i];
        by_way_of(c, c->field->space->corners[c->field->space->bends[i]].at, bend->value, bend->source, best);
    }
}

static void past(const ds_field *const field, const ds_outline *const block, const ds_vec p,
                 const double drop, ds_over *const best)
{
    ds_over here = {.value = INFINITY};
    for (size_t i = 0; i < block->len; i++) {
        const ds_vec d = ds_curve_direction(&block->at[i], 0);
        crossing c = {.field = field, .p = p, .face = block->at[i], .normal = {d.y, -d.x}};
        const double beyond = ds_vec_dot(ds_vec_minus(p, c.face.a), c.normal);
        if (beyond >= -DS_TOUCH_M) {
            c.unfolded = ds_vec_along(p, sqrt(beyond * beyond + drop * drop) - beyond, c.normal);
            across(&c, &here);
        }
    }
    const ds_way way = isinf(here.value) ? ds_field_way(field, p, INFINITY) : (ds_way){.source = UINT32_MAX};
    if (way.source != UINT32_MAX) {
        here = (ds_over){.value = sqrt(way.length_m * way.length_m + drop * drop) -
                                  field->sources[way.source].reach_m,
                         .field = field,
                         .source = way.source,
                         .from = way.from,
                         .edge = way.from};
    }
    if (here.value < best->value) {
        *best = here;
        best->length_m = fmax(here.value + field->sources[here.source].reach_m, 0);
    }
}

static const ds_field *field_at(const ds_zone_map *const map, const size_t zone, const double z)
{
    for (size_t i = 0; i < map->bands_len; i++) {
        if (map->bands[i].from_m < z && map->bands[i].to_m > z) {
            return map->bands[i].fields[zone];
        }
    }
    return NULL;
}

ds_over ds_over_top(const ds_zone_map *const map, const size_t zone, const ds_vec p, const double z0,
                    const double z1, const double bound)
{
    const double step = 1e-6;
    ds_over best = {.value = bound, .source = UINT32_MAX};
    for (size_t i = 0; i < map->scene.plan->features_len; i++) {
        const ds_feature *const f = &map->scene.plan->features[i];
        const ds_outline *const block = &map->scene.blocks[i];
        const bool partition = f->kind == DS_PARTITION || f->kind == DS_SOLID_WALL;
        const ds_field *const over =
            partition && block->len && f->height_m > z1 ? field_at(map, zone, f->height_m + step) : NULL;
        const ds_field *const under = partition && block->len && f->gap_m > 0 && f->gap_m < z0
                                          ? field_at(map, zone, f->gap_m - step)
                                          : NULL;
        if (over) {
            past(over, block, p, f->height_m - z1, &best);
        }
        if (under) {
            past(under, block, p, z0 - f->gap_m, &best);
        }
    }
    best.value = best.source == UINT32_MAX ? INFINITY : best.value;
    return best;
}
