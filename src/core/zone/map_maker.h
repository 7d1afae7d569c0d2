/* SPDX-License-Identifier: MIT */
/* What the makers of zone maps share: private to zone/. */
#ifndef DS_ZONE_MAP_MAKER_H
#define DS_ZONE_MAP_MAKER_H

#include "core/zone/map.h"

typedef struct ds_map_maker {
    ds_zone_map *map;
    const ds_scene *scene;
    ds_arena *arena;
    ds_zone_fault *fault;
    unsigned readings; /* bit a ds_plan_reading */
    ds_status status;
    double levels[DS_ZONE_BANDS + 1];
    size_t levels_len;
    bool counts[DS_PLAN_FEATURES]; /* partitions and walls that limit */
} ds_map_maker;

static inline bool ds_map_reads(const ds_map_maker *const m, const ds_plan_reading reading)
{
    return m->readings >> reading & 1;
}

static inline const ds_feature *ds_map_feature(const ds_map_maker *const m, const size_t i)
{
    return &m->scene->plan->features[i];
}

/* Keeps the first fault. */
void ds_map_fail(ds_map_maker *m, ds_problem_code code, const ds_json *at, ds_str a);

/* Fills map->origins, which has room for DS_ZONE_ORIGINS, and map->zones' words. */
void ds_map_find_origins(ds_map_maker *m);

/* Fills m->counts, once map->top_m is known. */
void ds_map_find_limits(ds_map_maker *m);

/* True for what stands in the way: partitions, walls, columns. */
static inline bool ds_map_is_solid(const ds_feature_kind kind)
{
    return kind == DS_PARTITION || kind == DS_SOLID_WALL || kind == DS_COLUMN;
}

/* True for baths and shower basins. */
static inline bool ds_map_is_vessel(const ds_feature_kind kind)
{
    return kind == DS_BATH || kind == DS_SHOWER_BASIN;
}

#endif
