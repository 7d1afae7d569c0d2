/* SPDX-License-Identifier: MIT */
/*
 * Rooms and solids put together and turned by an angle, made into a free space, and asked: for the tests of zone/space.
 *
 *     site s;
 *     open_site(&s, 0.1);
 *     put_room(&s, 0, 0, 4, 3);
 *     put_solid(&s, 1, 1, 2, 2);
 *     make(&s);
 *     assert_false(sees(&s, 0.5, 0.5, 2.5, 2.5));
 *     close_site(&s);
 */
#ifndef ZONE_SITE_H
#define ZONE_SITE_H

#include "zone_help.h"

enum { MOST = 40 };

/* Rooms and solids as they are put in, turned by some angle about the origin. */
typedef struct site {
    test_alloc memory;
    ds_arena arena;
    double turn;
    ds_curve edges[MOST][8];
    ds_outline rooms[MOST], solids[MOST];
    size_t used, rooms_len, solids_len;
    ds_space space;
} site;

static inline ds_vec turned(const site *const s, const double x, const double y)
{
    return (ds_vec){x * cos(s->turn) - y * sin(s->turn), x * sin(s->turn) + y * cos(s->turn)};
}

static inline void open_site(site *const s, const double turn)
{
    *s = (site){.memory = test_alloc_make(0), .turn = turn};
    ds_arena_init(&s->arena, test_alloc_use(&s->memory));
}

static inline ds_outline outline(site *const s, const ds_vec *const corners, const size_t len)
{
    ds_vec at[8];
    for (size_t i = 0; i < len; i++) {
        at[i] = turned(s, corners[i].x, corners[i].y);
    }
    return zone_polygon(s->edges[s->used++], at, len);
}

static inline void put_room(site *const s, const double x0, const double y0, const double x1, const double y1)
{
    const ds_vec corners[] = {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
    s->rooms[s->rooms_len++] = outline(s, corners, 4);
}

static inline void put_solid(site *const s, const double x0, const double y0, const double x1,
                             const double y1)
{
    const ds_vec corners[] = {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
    s->solids[s->solids_len++] = outline(s, corners, 4);
}

static inline void put_triangle(site *const s, const ds_vec a, const ds_vec b, const ds_vec c)
{
    const ds_vec corners[] = {a, b, c};
    s->solids[s->solids_len++] = outline(s, corners, 3);
}

static inline void make(site *const s)
{
    assert_int_equal(ds_space_make(&s->space, s->rooms, s->rooms_len, s->solids, s->solids_len, &s->arena),
                     DS_OK);
}

static inline void close_site(site *const s)
{
    ds_arena_free(&s->arena);
    assert_int_equal(s->memory.blocks, 0);
}

static inline double free_area(const site *const s)
{
    double area = 0;
    for (size_t i = 0; i < s->space.walls_len; i++) {
        area += ds_vec_cross(s->space.walls[i].a, s->space.walls[i].b) / 2;
    }
    return area;
}

static inline bool sees(const site *const s, const double x0, const double y0, const double x1,
                        const double y1)
{
    const ds_vec p = turned(s, x0, y0);
    const ds_vec q = turned(s, x1, y1);
    const bool there = ds_space_sees(&s->space, p, q);
    assert_int_equal(ds_space_sees(&s->space, q, p), there);
    return there;
}

static inline bool holds(const site *const s, const double x, const double y)
{
    return ds_space_holds(&s->space, turned(s, x, y));
}

/* A corner of the space at the place whose free side opens to the other place. */
static inline const ds_corner *corner_to(const site *const s, const double x, const double y,
                                         const double to_x, const double to_y)
{
    const ds_vec at = turned(s, x, y);
    for (size_t i = 0; i < s->space.corners_len; i++) {
        const ds_corner *const c = &s->space.corners[i];
        if (ds_vec_between(c->at, at) < 1e-6 && ds_space_corner_sees(&s->space, c, turned(s, to_x, to_y))) {
            return c;
        }
    }
    return NULL;
}

/* Each test at turns that are exact and at ones that are not. */
static const double TURNS[] = {0, 1.5707963267948966, 0.1, 0.7853981633974483, 1, 2.2, 3, 4.1, 5.5};
enum { TURNS_LEN = sizeof TURNS / sizeof *TURNS };

#endif
