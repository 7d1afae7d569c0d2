/* SPDX-License-Identifier: MIT */
/*
 * The least value of a zone's field over a thing: private to zone/.
 *
 * Over a box it is taken at one of few places: its corners, or where it is nearest to an end of a shore or to a bend, or
 * where it meets a shore. All of them are asked.
 */
#ifndef DS_ZONE_NEAREST_H
#define DS_ZONE_NEAREST_H

#include "core/zone/map.h"

/* A thing among the zones: its footprint, its heights, how far it may be off. */
typedef struct ds_asker {
    const ds_zone_map *map;
    ds_vec low, high;
    double z0, z1;
    double tolerance_m;
} ds_asker;

/* The best way to any part of it. */
typedef struct ds_nearest {
    ds_way way; /* source UINT32_MAX: none */
    ds_vec at;
    const ds_field *field;
    bool over;   /* over the top of a partition, or under it */
    ds_vec edge; /* where it passes that */
} ds_nearest;

static inline ds_vec ds_asker_middle(const ds_asker *const a)
{
    return (ds_vec){(a->low.x + a->high.x) / 2, (a->low.y + a->high.y) / 2};
}

/* The place of the footprint that is nearest to p. */
ds_vec ds_asker_clamped(const ds_asker *a, ds_vec p);

/*
 * The way to a zone (and all stricter ones), in the bands between two heights; over the top of partitions too, where the
 * rule has it so and the heights are finite.
 */
ds_nearest ds_nearest_way(const ds_asker *a, size_t zone, double z0, double z1);

#endif
