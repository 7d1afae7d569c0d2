/* SPDX-License-Identifier: MIT */
#include "core/zone/scene_check.h"

#include <math.h>

/* Sides are looked at in steps that jump over nothing that lies further out than half of this. */
#define STEP_M 0.01

/* The middle of a window may lie so far within a curved wall. */
#define SAGITTA_M 0.3

static double outside_room(const ds_outline *const room, const ds_vec p, ds_vec *const way)
{
    double least = INFINITY;
    for (size_t i = 0; i < room->len; i++) {
        const double off = ds_curve_distance(&room->at[i], p);
        if (off < least) {
            const ds_vec d = ds_curve_direction(&room->at[i], 0);
            *way = (ds_vec){d.y, -d.x};
            least = off;
        }
    }
    return ds_outline_encloses(room->at, room->len, p) ? -least : least;
}

double ds_scene_outside(const ds_scene *const scene, const ds_vec p, ds_vec *const way)
{
    double least = INFINITY;
    for (size_t i = 0; i < scene->rooms_len; i++) {
        ds_vec here = {0, 0};
        const double off = outside_room(&scene->rooms[i], p, &here);
        if (off < least) {
            least = off;
            *way = here;
        }
    }
    return least;
}

static double outside(const ds_scene *const scene, const ds_vec p)
{
    ds_vec way;
    return ds_scene_outside(scene, p, &way);
}

/* --- along a side ------------------------------------------------------------------------------------------------- */

static ds_vec place_at(const ds_curve *const curve, const double along, const double len)
{
    return ds_curve_point(curve, len > 0 ? along / len : 0);
}

/* Nowhere further than slack_m outside the rooms. What lies around a place, as far as that is from going out, does not either. */
static bool stays(const ds_scene *const scene, const ds_curve *const curve, const double slack_m)
{
    const double len = ds_curve_len(curve);
    double along = 0;
    for (;;) {
        const double off = outside(scene, place_at(curve, along, len));
        if (off > slack_m + DS_TOUCH_M) {
            return false;
        }
        if (along >= len) {
            return true;
        }
        along = fmin(along + fmax(slack_m - off, STEP_M), len);
    }
}

/* Some of it, and not only a single place, lies in a room or along its wall. */
static bool reaches_in(const ds_scene *const scene, const ds_curve *const curve)
{
    const double len = ds_curve_len(curve);
    double along = fmin(STEP_M, len) / 2;
    while (along < len) {
        const double off = outside(scene, place_at(curve, along, len));
        if (off <= DS_TOUCH_M) {
            return true;
        }
        along += fmax(off, STEP_M);
    }
    return false;
}

static bool all_stay(const ds_scene *const scene, const ds_outline *const outline)
{
    for (size_t i = 0; i < outline->len; i++) {
        if (!stays(scene, &outline->at[i], DS_SCENE_OVERLAP_M)) {
            return false;
        }
    }
    return true;
}

static bool any_reaches_in(const ds_scene *const scene, const ds_outline *const outline)
{
    for (size_t i = 0; i < outline->len; i++) {
        if (reaches_in(scene, &outline->at[i])) {
            return true;
        }
    }
    return false;
}

/* --- by kind ------------------------------------------------------------------------------------------------------ */

static ds_curve line_of(const ds_feature *const f)
{
    return ds_segment((ds_vec){f->from_m[0], f->from_m[1]}, (ds_vec){f->to_m[0], f->to_m[1]});
}

/* A recess is laid from the wall outwards, so that its window has to stand in the wall; one without may stand near it. */
static bool window_stands(const ds_scene *const scene, const ds_feature *const f)
{
    const ds_curve line = line_of(f);
    if (!(f->recess_m > 0)) {
        return stays(scene, &line, DS_SCENE_THICKEST_M / 2);
    }
    const bool from = fabs(outside(scene, line.a)) <= DS_SCENE_OVERLAP_M + DS_TOUCH_M;
    const bool to = fabs(outside(scene, line.b)) <= DS_SCENE_OVERLAP_M + DS_TOUCH_M;
    return from && to && fabs(outside(scene, ds_curve_point(&line, 0.5))) <= SAGITTA_M;
}

bool ds_scene_stands(const ds_scene *const scene, const ds_feature *const f, const ds_outline *const shape)
{
    ds_curve line;
    switch (f->kind) {
    case DS_SHOWER_OUTLET:
        return ds_scene_in_rooms(scene, (ds_vec){f->at_m[0], f->at_m[1]}, DS_SCENE_OVERLAP_M);
    case DS_PARTITION:
        line = line_of(f);
        return stays(scene, &line, DS_SCENE_OVERLAP_M);
    case DS_OPENING:
    case DS_DOOR:
        line = line_of(f);
        return stays(scene, &line, DS_SCENE_THICKEST_M / 2);
    case DS_WINDOW:
        return window_stands(scene, f);
    case DS_NICHE:
        return any_reaches_in(scene, shape);
    case DS_BATH:
    case DS_SHOWER_BASIN:
    case DS_POOL:
    case DS_FOUNTAIN:
    case DS_WASHBASIN:
    case DS_SAUNA_HEATER:
    case DS_BOARD:
    case DS_CHUTE:
    case DS_STARTING_BLOCK:
    case DS_PLATFORM:
        return all_stay(scene, shape);
    default:
        return true;
    }
}

size_t ds_scene_touching(const ds_scene *const scene)
{
    for (size_t i = 1; i < scene->rooms_len; i++) {
        for (size_t k = 0; k < i; k++) {
            if (ds_outline_between(&scene->rooms[k], &scene->rooms[i]) < DS_SCENE_THIN_M - DS_TOUCH_M) {
                return i;
            }
        }
    }
    return scene->rooms_len;
}
