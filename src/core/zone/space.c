/* SPDX-License-Identifier: MIT */
/*
 * The free space is found edge by edge: every edge of a room or solid is cut where it meets another, and a piece is
 * kept when one side of its middle is free and the other is not. Nothing is joined or traced, so that nothing can go
 * wrong in odd contacts.
 */
#include "core/zone/space.h"

#include <math.h>

typedef struct maker {
    const ds_outline *rooms, *solids;
    size_t rooms_len, solids_len;
    ds_wall *walls;
    size_t len, room;
    ds_arena *arena;
    bool failed, too_many;
} maker;

static size_t count_edges(const ds_outline *const list, const size_t len)
{
    size_t edges = 0;
    for (size_t i = 0; i < len; i++) {
        edges += list[i].len;
    }
    return edges;
}

static bool any_holds(const ds_outline *const list, const size_t len, const ds_vec p)
{
    for (size_t i = 0; i < len; i++) {
        if (ds_outline_holds(list[i].at, list[i].len, p)) {
            return true;
        }
    }
    return false;
}

static bool is_free(const maker *const m, const ds_vec p)
{
    return any_holds(m->rooms, m->rooms_len, p) && !any_holds(m->solids, m->solids_len, p);
}

/* --- cutting ------------------------------------------------------------------------------------------------------ */

/* Shares at which an edge is cut, sorted as they come: at most two a meeting, so that they always fit. */
typedef struct cuts {
    double at[2 * DS_SPACE_WALLS];
    size_t len;
} cuts;

static void cut_at(cuts *const c, const double t)
{
    size_t i = c->len;
    for (; i > 0 && c->at[i - 1] > t; i--) {
        c->at[i] = c->at[i - 1];
    }
    c->at[i] = t;
    c->len++;
}

static bool boxes_apart(const ds_curve *const e, const ds_curve *const f)
{
    return fmax(e->a.x, e->b.x) + DS_ASIDE_M < fmin(f->a.x, f->b.x) ||
           fmax(f->a.x, f->b.x) + DS_ASIDE_M < fmin(e->a.x, e->b.x) ||
           fmax(e->a.y, e->b.y) + DS_ASIDE_M < fmin(f->a.y, f->b.y) ||
           fmax(f->a.y, f->b.y) + DS_ASIDE_M < fmin(e->a.y, e->b.y);
}

static void cut_by(cuts *const c, const ds_curve *const edge, const ds_outline *const list, const size_t len)
{
    for (size_t i = 0; i < len; i++) {
        for (size_t k = 0; k < list[i].len; k++) {
            double at[2];
            if (&list[i].at[k] == edge || boxes_apart(edge, &list[i].at[k])) {
                continue;
            }
            const size_t found = ds_curve_meet(edge, &list[i].at[k], at);
            for (size_t n = 0; n < found; n++) {
                cut_at(c, at[n]);
            }
        }
    }
}

static bool kept_already(const maker *const m, const ds_vec a, const ds_vec b)
{
    for (size_t i = 0; i < m->len; i++) {
        if (ds_vec_between(m->walls[i].a, a) < DS_ASIDE_M && ds_vec_between(m->walls[i].b, b) < DS_ASIDE_M) {
            return true;
        }
    }
    return false;
}

/*
 * Ends that are one place get one figure: a ray at just their height must not pass between them.
 */
static ds_vec snapped(const maker *const m, const ds_vec p)
{
    for (size_t i = 0; i < m->len; i++) {
        const ds_vec ends[] = {m->walls[i].a, m->walls[i].b};
        for (size_t k = 0; k < 2; k++) {
            if (ds_vec_between(ends[k], p) < DS_ASIDE_M) {
                return ends[k];
            }
        }
    }
    return p;
}

static void keep(maker *const m, const ds_vec a, const ds_vec b)
{
    if (kept_already(m, a, b)) {
        return;
    }
    if (m->len == DS_SPACE_WALLS) {
        m->too_many = true;
        return;
    }
    if (m->len == m->room) {
        const size_t room = m->room ? m->room * 2 : 64;
        ds_wall *const more = ds_arena_take_many(m->arena, room, sizeof *more);
        if (!more) {
            m->failed = true;
            return;
        }
        if (m->len) {
            memcpy(more, m->walls, m->len * sizeof *more);
        }
        m->walls = more;
        m->room = room;
    }
    m->walls[m->len++] = (ds_wall){.a = snapped(m, a), .b = snapped(m, b)};
}

static void consider(maker *const m, const ds_vec a, const ds_vec b)
{
    if (ds_vec_between(a, b) <= 2 * DS_TOUCH_M) {
        return;
    }
    const ds_vec middle = ds_vec_along(a, 0.5, ds_vec_minus(b, a));
    const ds_vec d = ds_vec_unit(ds_vec_minus(b, a));
    const ds_vec left = {-d.y, d.x};
    /* Little more than a touch: the end of a thin screen that meets a wall askew is a sliver of less than a micrometre. */
    const double aside = 4 * DS_TOUCH_M;
    const bool free_left = is_free(m, ds_vec_along(middle, aside, left));
    const bool free_right = is_free(m, ds_vec_along(middle, -aside, left));
    if (free_left && !free_right) {
        keep(m, a, b);
    } else if (free_right && !free_left) {
        keep(m, b, a);
    }
}

static void cut_edges(maker *const m, const ds_outline *const list, const size_t len)
{
    for (size_t i = 0; i < len; i++) {
        for (size_t k = 0; k < list[i].len && !m->failed && !m->too_many; k++) {
            const ds_curve *const edge = &list[i].at[k];
            cuts c;
            c.len = 0;
            cut_by(&c, edge, m->rooms, m->rooms_len);
            cut_by(&c, edge, m->solids, m->solids_len);
            ds_vec from = edge->a;
            for (size_t n = 0; n < c.len; n++) {
                const ds_vec to = ds_curve_point(edge, c.at[n]);
                consider(m, from, to);
                from = to;
            }
            consider(m, from, edge->b);
        }
    }
}

/* --- corners ------------------------------------------------------------------------------------------------------ */

/* Angle from 0 (excluded) to a whole turn, anticlockwise. */
static double angle_from(const ds_vec from, const ds_vec to)
{
    const double angle = atan2(ds_vec_cross(from, to), ds_vec_dot(from, to));
    return angle <= DS_TOUCH_M ? angle + 6.283185307179586 : angle;
}

/* The side of a wall's start that is free: up to the wall that comes in there next, anticlockwise. */
static ds_corner corner_of(const ds_space *const space, const ds_wall *const wall)
{
    ds_corner corner = {.at = wall->a, .out = ds_vec_unit(ds_vec_minus(wall->b, wall->a))};
    double least = INFINITY;
    for (size_t i = 0; i < space->walls_len; i++) {
        const ds_wall *const other = &space->walls[i];
        if (ds_vec_between(other->b, wall->a) < DS_ASIDE_M) {
            const ds_vec in = ds_vec_unit(ds_vec_minus(other->a, other->b));
            const double angle = angle_from(corner.out, in);
            if (angle < least) {
                least = angle;
                corner.in = in;
            }
        }
    }
    corner.reflex = least > 3.141592653589793 + 1e-7;
    return corner;
}

static uint32_t corner_at(const ds_space *const space, const ds_vec p)
{
    for (uint32_t i = 0; i < space->corners_len; i++) {
        if (ds_vec_between(space->corners[i].at, p) < DS_ASIDE_M) {
            return i;
        }
    }
    return UINT32_MAX;
}

/* All walls that start at one place give corners that stand together. */
static bool find_corners(ds_space *const space, ds_arena *const arena)
{
    space->corners = ds_arena_take_many(arena, space->walls_len, sizeof *space->corners);
    space->bends = ds_arena_take_many(arena, space->walls_len, sizeof *space->bends);
    if (!space->corners || !space->bends) {
        return false;
    }
    for (size_t i = 0; i < space->walls_len; i++) {
        if (corner_at(space, space->walls[i].a) != UINT32_MAX) {
            continue;
        }
        const size_t first = space->corners_len;
        for (size_t k = i; k < space->walls_len; k++) {
            if (ds_vec_between(space->walls[k].a, space->walls[i].a) < DS_ASIDE_M) {
                space->corners[space->corners_len++] = corner_of(space, &space->walls[k]);
            }
        }
        for (size_t k = first; k < space->corners_len; k++) {
            space->corners[k].beside = (uint8_t)(space->corners_len - 1 - k);
            if (space->corners[k].reflex) {
                space->bends[space->bends_len++] = (uint32_t)k;
            }
        }
    }
    for (size_t i = 0; i < space->walls_len; i++) {
        space->walls[i].corner_a = corner_at(space, space->walls[i].a);
        space->walls[i].corner_b = corner_at(space, space->walls[i].b);
    }
    return true;
}

/* --- seeing ------------------------------------------------------------------------------------------------------- */

/*
 * The corner's free side holds what lies d from it, its walls included. Not the direction but the place counts: a line
 * that passes the corner within a touch may run at any small angle to its walls.
 */
static bool opens_to(const ds_corner *const corner, const ds_vec d)
{
    if (corner->reflex) {
        return !(ds_vec_cross(corner->in, d) > DS_TOUCH_M && ds_vec_cross(d, corner->out) > DS_TOUCH_M);
    }
    return ds_vec_cross(corner->out, d) >= -DS_TOUCH_M && ds_vec_cross(d, corner->in) >= -DS_TOUCH_M;
}

typedef struct sight {
    ds_vec p, q, u;
    double len;
} sight;

/* A line may pass a corner when one free side holds both where it comes from and where it goes. */
static bool passes(const ds_space *const space, const sight *const s, const uint32_t first, const bool from_p,
                   const bool to_q)
{
    for (size_t i = first; i < space->corners_len && i <= first + (size_t)space->corners[first].beside; i++) {
        const ds_corner *const corner = &space->corners[i];
        if ((!from_p || opens_to(corner, ds_vec_minus(s->p, corner->at))) &&
            (!to_q || opens_to(corner, ds_vec_minus(s->q, corner->at)))) {
            return true;
        }
    }
    return false;
}

/* A wall's end on the line: the line starts there, ends there, or passes. */
static bool end_blocks(const ds_space *const space, const sight *const s, const ds_vec end,
                       const uint32_t corner)
{
    const double along = ds_vec_dot(s->u, ds_vec_minus(end, s->p));
    if (along < -DS_TOUCH_M || along > s->len + DS_TOUCH_M) {
        return false;
    }
    return !passes(space, s, corner, along > DS_TOUCH_M, along < s->len - DS_TOUCH_M);
}

static bool wall_blocks(const ds_space *const space, const sight *const s, const ds_wall *const wall)
{
    const double a = ds_vec_cross(s->u, ds_vec_minus(wall->a, s->p));
    const double b = ds_vec_cross(s->u, ds_vec_minus(wall->b, s->p));
    if ((a > DS_TOUCH_M && b > DS_TOUCH_M) || (a < -DS_TOUCH_M && b < -DS_TOUCH_M)) {
        return false;
    }
    if (fabs(a) > DS_TOUCH_M && fabs(b) > DS_TOUCH_M) {
        /* Its ends lie on both sides of the line: blocked when the line goes, or starts on it and goes, to its right. */
        const ds_vec along = ds_vec_minus(wall->b, wall->a);
        const double touch = DS_TOUCH_M * (fabs(along.x) + fabs(along.y));
        const bool p_right = ds_vec_cross(along, ds_vec_minus(s->p, wall->a)) < -touch;
        const bool q_right = ds_vec_cross(along, ds_vec_minus(s->q, wall->a)) < -touch;
        return p_right != q_right;
    }
    return (fabs(a) <= DS_TOUCH_M && end_blocks(space, s, wall->a, wall->corner_a)) ||
           (fabs(b) <= DS_TOUCH_M && end_blocks(space, s, wall->b, wall->corner_b));
}

bool ds_space_sees(const ds_space *const space, const ds_vec p, const ds_vec q)
{
    sight s = {.p = p, .q = q, .u = ds_vec_minus(q, p)};
    s.len = ds_vec_len(s.u);
    if (s.len <= DS_TOUCH_M) {
        return true;
    }
    s.u = (ds_vec){s.u.x / s.len, s.u.y / s.len};
    for (size_t i = 0; i < space->walls_len; i++) {
        if (wall_blocks(space, &s, &space->walls[i])) {
            return false;
        }
    }
    return true;
}

bool ds_space_corner_sees(const ds_space *const space, const ds_corner *const corner, const ds_vec q)
{
    const ds_vec d = ds_vec_minus(q, corner->at);
    return ds_vec_len(d) <= DS_TOUCH_M || (opens_to(corner, d) && ds_space_sees(space, corner->at, q));
}

static bool corners_see(const ds_space *const space, const ds_corner *const p, const ds_corner *const q)
{
    return opens_to(q, ds_vec_minus(p->at, q->at)) && ds_space_corner_sees(space, p, q->at);
}

static bool link_bends(ds_space *const space, ds_arena *const arena)
{
    const size_t n = space->bends_len;
    space->sees = ds_arena_take_many(arena, n, n);
    if (!space->sees) {
        return false;
    }
    for (size_t i = 0; i < n; i++) {
        for (size_t j = 0; j < i; j++) {
            const bool sees =
                corners_see(space, &space->corners[space->bends[i]], &space->corners[space->bends[j]]);
            space->sees[i * n + j] = sees;
            space->sees[j * n + i] = sees;
        }
    }
    return true;
}

double ds_space_between(const ds_space *const space, const size_t i, const size_t j)
{
    if (!space->sees[i * space->bends_len + j]) {
        return INFINITY;
    }
    return ds_vec_between(space->corners[space->bends[i]].at, space->corners[space->bends[j]].at);
}

/* --- the whole ---------------------------------------------------------------------------------------------------- */

double ds_space_distance(const ds_space *const space, const ds_vec p)
{
    double least = INFINITY;
    for (size_t i = 0; i < space->walls_len; i++) {
        const ds_curve wall = ds_segment(space->walls[i].a, space->walls[i].b);
        least = fmin(least, ds_curve_distance(&wall, p));
    }
    return least;
}

bool ds_space_encloses(const ds_space *const space, const ds_vec p)
{
    bool inside = false;
    for (size_t i = 0; i < space->walls_len; i++) {
        const ds_wall *const w = &space->walls[i];
        if ((w->a.y > p.y) != (w->b.y > p.y)) {
            inside ^= p.x < w->a.x + (p.y - w->a.y) * (w->b.x - w->a.x) / (w->b.y - w->a.y);
        }
    }
    return inside;
}

bool ds_space_holds(const ds_space *const space, const ds_vec p)
{
    return ds_space_encloses(space, p) || ds_space_distance(space, p) <= DS_TOUCH_M;
}

ds_status ds_space_make(ds_space *const out, const ds_outline *const rooms, const size_t rooms_len,
                        const ds_outline *const solids, const size_t solids_len, ds_arena *const arena)
{
    *out = (ds_space){0};
    maker m = {
        .rooms = rooms, .solids = solids, .rooms_len = rooms_len, .solids_len = solids_len, .arena = arena};
    if (count_edges(rooms, rooms_len) + count_edges(solids, solids_len) > DS_SPACE_WALLS) {
        return DS_BAD_INPUT;
    }
    cut_edges(&m, rooms, rooms_len);
    cut_edges(&m, solids, solids_len);
    if (m.too_many) {
        return DS_BAD_INPUT;
    }
    out->walls = m.walls;
    out->walls_len = m.len;
    return !m.failed && find_corners(out, arena) && link_bends(out, arena) ? DS_OK : DS_NO_MEMORY;
}
