/* SPDX-License-Identifier: MIT */
/*
 * The shape of a zone: what lies within reach of one field and not of another, as closed rings of segments and arcs.
 *
 * The edge of such a shape can only be made of walls, of parallels to the outlines measured from, and of arcs round
 * their corners and round the bends of the string. All of these are cut where they meet, and a piece is kept when the
 * shape is on one side of its middle and not on the other. So the rings are exact, and so is the area (Green's theorem,
 * piece by piece).
 */
#ifndef DS_ZONE_REGION_H
#define DS_ZONE_REGION_H

#include "core/zone/field.h"

/* Closed, the shape on its left: outer rings run anticlockwise, holes clockwise. */
typedef struct ds_ring {
    const ds_curve *at;
    size_t len;
} ds_ring;

typedef struct ds_region {
    const ds_ring *rings;
    size_t rings_len;
    double area_m2;
} ds_region;

/* inner == NULL: nothing is taken away. Both fields stand in one space. Everything lies in the arena. */
ds_status ds_region_make(ds_region *out, const ds_field *outer, const ds_field *inner, ds_arena *arena);

/* Inside a ring; on an edge, either. */
bool ds_region_encloses(const ds_region *region, ds_vec p);

/* Straight distance from a place outside to the nearest edge, which goes to *nearest; INFINITY without rings. */
double ds_region_distance(const ds_region *region, ds_vec p, ds_vec *nearest);

#endif
