/* SPDX-License-Identifier: MIT */
/*
 * The string over the top of a low partition, or through the gap under a raised one, for rules that have it so.
 *
 * The zone is upright, so the string may start at the height of the edge: level to the far edge of the partition's top,
 * then down to the place. Unfolded about that edge the last piece lies level too: a place b beyond the edge and d below
 * it becomes one that is the root of b b + d d beyond. Check: 0.01 m of glass, then 0.19 m out and 0.20 m down make
 * 0.01 + 0.276 = 0.286 m.
 */
#ifndef DS_ZONE_OVER_H
#define DS_ZONE_OVER_H

#include "core/zone/map.h"

/* The best way over or under. */
typedef struct ds_over {
    double value; /* as of a field; INFINITY: there is none */
    double length_m;
    const ds_field *field; /* that the source belongs to */
    uint32_t source;
    ds_vec from,
        edge; /* seen from above: where the string leaves the source or bends last, and where it passes the edge */
} ds_over;

/*
 * To a place that reaches from z0 to z1, of value below `bound`. Where the unfolded line is blocked, a shorter one than
 * can be strung counts: never a longer one.
 */
ds_over ds_over_top(const ds_zone_map *map, size_t zone, ds_vec p, double z0, double z1, double bound);

#endif
