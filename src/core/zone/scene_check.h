/* SPDX-License-Identifier: MIT */
/*
 * Whether what a plan shows stands where its kind must: private to zone/.
 *
 * Whole sides are looked at, not only corners: a bath whose corners lie in the two arms of a room may cross its corner.
 */
#ifndef DS_ZONE_SCENE_CHECK_H
#define DS_ZONE_SCENE_CHECK_H

#include "core/zone/scene.h"

/* Thickest wall that an opening or a door goes through. */
#define DS_SCENE_THICKEST_M 1.0

/* How far p lies outside all rooms, below 0 within one; *way is the way out at the nearest wall. */
double ds_scene_outside(const ds_scene *scene, ds_vec p, ds_vec *way);

/* Vessels and screens stand in the rooms, openings in their walls, recesses open into a room. */
bool ds_scene_stands(const ds_scene *scene, const ds_feature *f, const ds_outline *shape);

/* Index of a room with less than a wall between it and an earlier one; rooms_len when there is none. */
size_t ds_scene_touching(const ds_scene *scene);

#endif
