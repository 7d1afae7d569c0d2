/* SPDX-License-Identifier: MIT */
/*
 * A plan as geometry: every outline as curves that run anticlockwise, checked, and the solids as polygons.
 *
 * What cannot be right (an outline that crosses itself, a bath outside the room, a screen of no length) is a fault with
 * its place in the document; nothing is repaired but an overlap with a wall of up to DS_SCENE_OVERLAP_M.
 */
#ifndef DS_ZONE_SCENE_H
#define DS_ZONE_SCENE_H

#include "core/job/plan.h"
#include "core/zone/space.h"

/* A vessel may stand this far in a wall, an outlet or a fitting may be let into one so far: plaster, tiles, chases. */
#define DS_SCENE_OVERLAP_M 0.1

/* A screen of unstated thickness is this thick, and none is thinner: less than any that stands, so no way comes out longer. */
#define DS_SCENE_THIN_M 1e-3

/* A partition that ends this near to a wall or another partition stands on it: plans are written in millimetres. */
#define DS_SCENE_CLOSED_M 5e-3

typedef struct ds_zone_fault {
    ds_problem_code code;
    const ds_json *at;
    ds_str a, b;
} ds_zone_fault;

typedef struct ds_scene {
    const ds_plan *plan;
    const ds_outline *rooms; /* straight-edged */
    size_t rooms_len;
    const ds_outline
        *shapes; /* of each feature, exact; len 0 when it has none (openings that lead nowhere too) */
    const ds_outline *
        blocks; /* of each partition, wall and column, and of each opening, door, window and niche: polygons */
} ds_scene;

/* DS_BAD_INPUT: *fault says what and where. Everything lies in the arena. */
ds_status ds_scene_make(ds_scene *out, const ds_plan *plan, ds_arena *arena, ds_zone_fault *fault);

/* Inside a room, or not further than `slack_m` from one. */
bool ds_scene_in_rooms(const ds_scene *scene, ds_vec p, double slack_m);

/* Straight distance between two outlines; 0 when they meet or one holds the other. */
double ds_outline_between(const ds_outline *p, const ds_outline *q);

/* How much a sloping ceiling rises a metre along x and along y. */
ds_vec ds_slope_rise(const ds_feature *slope);

/* Height of the sloping ceilings and the flat one above p; INFINITY where none is stated. */
double ds_scene_ceiling(const ds_scene *scene, ds_vec p);

#endif
