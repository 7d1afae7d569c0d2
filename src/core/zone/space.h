/* SPDX-License-Identifier: MIT */
/*
 * Free space: rooms less all that stands in them, and who sees whom in it.
 *
 * Rooms and solids may touch and overlap as they like (a screen that starts on a wall, two screens that meet, an
 * opening that joins two rooms): what is kept is the edge between free and not free, cut at every meeting. A line may
 * slide along a wall and pass a corner; it may not slip through where two solids touch.
 *
 * Rooms and solids are straight-edged here; round ones are made into polygons before.
 */
#ifndef DS_ZONE_SPACE_H
#define DS_ZONE_SPACE_H

#include "core/base/problem.h"
#include "core/zone/curve.h"

#include <stdint.h>

/* A closed list of curves, anticlockwise; borrowed. */
typedef struct ds_outline {
    const ds_curve *at;
    size_t len;
} ds_outline;

/*
 * A corner of the free space as seen from one free side of it: free is what lies from `out` anticlockwise to `in`, both
 * unit vectors along walls. Where two solids touch in a corner it stands here twice.
 */
typedef struct ds_corner {
    ds_vec at, out, in;
    bool reflex;    /* more than half a turn is free: a string can bend here */
    uint8_t beside; /* further corners at this place, which follow */
} ds_corner;

/* A straight piece of the edge, free space on its left. */
typedef struct ds_wall {
    ds_vec a, b;
    uint32_t corner_a, corner_b; /* the first of the corners at that end */
} ds_wall;

typedef struct ds_space {
    ds_wall *walls;
    size_t walls_len;
    ds_corner *corners;
    size_t corners_len;
    uint32_t *bends; /* the reflex corners */
    size_t bends_len;
    bool *sees; /* private: bends_len squared */
} ds_space;

/* More walls than this are refused with DS_BAD_INPUT. */
enum { DS_SPACE_WALLS = 800 };

/* Everything lies in the arena. */
ds_status ds_space_make(ds_space *out, const ds_outline *rooms, size_t rooms_len, const ds_outline *solids,
                        size_t solids_len, ds_arena *arena);

/* Free; on an edge, either. */
bool ds_space_encloses(const ds_space *space, ds_vec p);

/* Free, edges included. */
bool ds_space_holds(const ds_space *space, ds_vec p);

/* Distance from p to the nearest wall. */
double ds_space_distance(const ds_space *space, ds_vec p);

/* No wall between two free points. */
bool ds_space_sees(const ds_space *space, ds_vec p, ds_vec q);

/* The same from a corner, into the side that the corner stands for. */
bool ds_space_corner_sees(const ds_space *space, const ds_corner *corner, ds_vec q);

/* Two bends, by their numbers in `bends`: the distance when they see each other, INFINITY otherwise. */
double ds_space_between(const ds_space *space, size_t i, size_t j);

#endif
