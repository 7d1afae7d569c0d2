/* SPDX-License-Identifier: MIT */
#include "core/zone/region.h"

#include <math.h>

/*
 * How far beside a piece its two sides are looked at. Where an arc takes over from another, the two run on within this
 * distance for about the root of it: 0.1 mm, which is below JOIN_M.
 */
#define BESIDE_M 1e-8

/* Ends that should be one place lie this near, however flat two lines met. */
#define JOIN_M 3e-4

/* A curve that the edge may run along, with its box. */
typedef struct line {
    ds_curve curve;
    ds_vec low, high;
} line;

typedef struct maker {
    const ds_space *space;
    const ds_field *outer, *inner;
    ds_arena *arena;
    line *lines;
    size_t lines_len, lines_room;
    double *cuts;
    size_t cuts_len;
    ds_curve *kept;
    size_t kept_len, kept_room;
    bool failed;
} maker;

static void *grown(maker *const m, const void *const old, const size_t len, size_t *const room,
                   const size_t size)
{
    if (len < *room) {
        return NULL;
    }
    *room = *room ? *room * 2 : 64;
    void *const more = ds_arena_take_many(m->arena, *room, size);
    m->failed = m->failed || !more;
    if (more && len) {
        memcpy(more, old, len * size);
    }
    return more;
}

/* --- lines -------------------------------------------------------------------------------------------------------- */

static line line_of(const ds_curve *const curve)
{
    line l = {.curve = *curve,
              .low = {fmin(curve->a.x, curve->b.x), fmin(curve->a.y, curve->b.y)},
              .high = {fmax(curve->a.x, curve->b.x), fmax(curve->a.y, curve->b.y)}};
    const ds_vec out[] = {{1, 0}, {0, 1}, {-1, 0}, {0, -1}};
    for (size_t i = 0; i < 4 && curve->radius > 0; i++) {
        const ds_vec p = ds_vec_along(curve->centre, curve->radius, out[i]);
        if (ds_curve_distance(curve, p) <= DS_TOUCH_M) {
            l.low = (ds_vec){fmin(l.low.x, p.x), fmin(l.low.y, p.y)};
            l.high = (ds_vec){fmax(l.high.x, p.x), fmax(l.high.y, p.y)};
        }
    }
    return l;
}

static bool apart(const ds_vec low, const ds_vec high, const ds_vec other_low, const ds_vec other_high)
{
    return high.x + DS_ASIDE_M < other_low.x || other_high.x + DS_ASIDE_M < low.x ||
           high.y + DS_ASIDE_M < other_low.y || other_high.y + DS_ASIDE_M < low.y;
}

static void put_line(maker *const m, const ds_curve curve)
{
    const line l = line_of(&curve);
    const bool far = !m->outer->everywhere && apart(l.low, l.high, m->outer->low, m->outer->high);
    if (far || ds_curve_len(&curve) <= 2 * DS_TOUCH_M || m->failed) {
        return;
    }
    line *const more = grown(m, m->lines, m->lines_len, &m->lines_room, sizeof *more);
    m->lines = more ? more : m->lines;
    if (!m->failed) {
        m->lines[m->lines_len++] = l;
    }
}

static ds_vec outward(const ds_curve *const curve, const double t)
{
    const ds_vec d = ds_curve_direction(curve, t);
    return (ds_vec){d.y, -d.x};
}

static void put_arc(maker *const m, const ds_vec centre, const double radius, const ds_vec from,
                    const ds_vec to)
{
    put_line(m, (ds_curve){.a = ds_vec_along(centre, radius, from),
                           .b = ds_vec_along(centre, radius, to),
                           .centre = centre,
                           .radius = radius,
                           .left = true});
}

static void put_circle(maker *const m, const ds_vec centre, const double radius)
{
    ds_curve arcs[4];
    ds_circle_arcs(arcs, centre, radius);
    for (size_t i = 0; i < 4; i++) {
        put_line(m, arcs[i]);
    }
}

static void put_parallel(maker *const m, const ds_curve *const shore, const double reach)
{
    ds_curve curve = *shore;
    curve.a = ds_vec_along(shore->a, reach, outward(shore, 0));
    curve.b = ds_vec_along(shore->b, reach, outward(shore, 1));
    if (shore->radius > 0) {
        curve.radius = shore->left ? shore->radius + reach : shore->radius - reach;
    }
    if (shore->radius == 0 || curve.radius > DS_TOUCH_M) {
        put_line(m, curve);
    }
}

/* The arc round a corner of an outline, between the normals of the edges beside it. */
static void put_shore_corner(maker *const m, const ds_field *const f, const ds_shore *const shore)
{
    for (size_t i = 0; i < f->shores_len; i++) {
        const ds_shore *const before = &f->shores[i];
        if (before->source != shore->source ||
            ds_vec_between(before->curve.b, shore->curve.a) > 2 * DS_TOUCH_M) {
            continue;
        }
        const ds_vec from = outward(&before->curve, 1);
        const ds_vec to = outward(&shore->curve, 0);
        if (ds_vec_cross(from, to) > DS_TOUCH_M) {
            put_arc(m, shore->curve.a, -shore->value, from, to);
        }
        return;
    }
}

static void put_shore(maker *const m, const ds_field *const f, const ds_shore *const shore)
{
    const double reach = -shore->value;
    const bool is_point = ds_vec_between(shore->curve.a, shore->curve.b) <= DS_TOUCH_M;
    if (!is_point) {
        put_parallel(m, &shore->curve, reach);
    }
    if (reach <= DS_TOUCH_M) {
        return;
    }
    if (shore->cut_a) {
        put_circle(m, shore->curve.a, reach);
    } else {
        put_shore_corner(m, f, shore);
    }
    if (shore->cut_b && !is_point) {
        put_circle(m, shore->curve.b, reach);
    }
}

/* The arc that the string's end draws after a bend: from straight on to the wall that hid what lies behind. */
static void put_bend(maker *const m, const ds_field *const f, const size_t index)
{
    const ds_corner *const corner = &m->space->corners[m->space->bends[index]];
    const double radius = -f->bends[index].value;
    if (radius <= DS_TOUCH_M) {
        return;
    }
    const ds_vec on = ds_vec_unit(ds_vec_minus(corner->at, f->bends[index].from));
    if (on.x == 0 && on.y == 0) {
        put_circle(m, corner->at, radius);
        return;
    }
    const double out = ds_vec_cross(on, corner->out);
    const double in = ds_vec_cross(on, corner->in);
    if (out <= DS_TOUCH_M && in <= DS_TOUCH_M) {
        put_arc(m, corner->at, radius, corner->out, on);
    } else if (out >= -DS_TOUCH_M && in >= -DS_TOUCH_M) {
        put_arc(m, corner->at, radius, on, corner->in);
    }
}

static void put_field(maker *const m, const ds_field *const f)
{
    for (size_t i = 0; i < f->shores_len; i++) {
        put_shore(m, f, &f->shores[i]);
    }
    for (size_t i = 0; i < m->space->bends_len; i++) {
        put_bend(m, f, i);
    }
}

/* --- pieces ------------------------------------------------------------------------------------------------------- */

static bool holds(const maker *const m, const ds_vec p)
{
    return ds_space_encloses(m->space, p) && ds_field_reaches(m->outer, p) &&
           !(m->inner && ds_field_reaches(m->inner, p)) && !ds_field_in_freed(m->outer, p);
}

static void keep(maker *const m, const ds_curve piece)
{
    const ds_vec middle = ds_curve_point(&piece, 0.5);
    for (size_t i = 0; i < m->kept_len; i++) {
        const ds_curve *const other = &m->kept[i];
        if (ds_vec_between(other->a, piece.a) < DS_ASIDE_M &&
            ds_vec_between(other->b, piece.b) < DS_ASIDE_M &&
            ds_vec_between(ds_curve_point(other, 0.5), middle) < DS_ASIDE_M) {
            return;
        }
    }
    ds_curve *const more = grown(m, m->kept, m->kept_len, &m->kept_room, sizeof *more);
    m->kept = more ? more : m->kept;
    if (!m->failed) {
        m->kept[m->kept_len++] = piece;
    }
}

static ds_curve reversed(ds_curve curve)
{
    ds_outline_reverse(&curve, 1);
    return curve;
}

static void consider(maker *const m, const ds_curve *const curve, const double t0, const double t1)
{
    const ds_curve piece = ds_curve_part(curve, t0, t1);
    if (ds_vec_between(piece.a, piece.b) <= 2 * DS_ASIDE_M) {
        return;
    }
    const ds_vec d = ds_curve_direction(&piece, 0.5);
    const ds_vec left = {-d.y, d.x};
    const ds_vec middle = ds_curve_point(&piece, 0.5);
    const bool on_left = holds(m, ds_vec_along(middle, BESIDE_M, left));
    const bool on_right = holds(m, ds_vec_along(middle, -BESIDE_M, left));
    if (on_left != on_right) {
        keep(m, on_left ? piece : reversed(piece));
    }
}

static void cut_at(maker *const m, const double t)
{
    size_t i = m->cuts_len++;
    for (; i > 0 && m->cuts[i - 1] > t; i--) {
        m->cuts[i] = m->cuts[i - 1];
    }
    m->cuts[i] = t;
}

static void cut_line(maker *const m, const line *const l)
{
    m->cuts_len = 0;
    cut_at(m, 0);
    cut_at(m, 1);
    for (size_t i = 0; i < m->lines_len; i++) {
        const line *const other = &m->lines[i];
        double at[2];
        if (other == l || apart(l->low, l->high, other->low, other->high)) {
            continue;
        }
        const size_t found = ds_curve_meet(&l->curve, &other->curve, at);
        for (size_t k = 0; k < found; k++) {
            cut_at(m, at[k]);
        }
    }
    /* Where a bend begins to hide the source, one line takes over from another, nearly along it. */
    for (size_t i = 0; i < m->space->bends_len; i++) {
        if (m->outer->bends[i].value < 0) {
            cut_at(m, ds_curve_nearest(&l->curve, m->space->corners[m->space->bends[i]].at));
        }
    }
    for (size_t i = 0; i + 1 < m->cuts_len && !m->failed; i++) {
        if (m->cuts[i] < m->cuts[i + 1]) {
            consider(m, &l->curve, m->cuts[i], m->cuts[i + 1]);
        }
    }
}

/* --- rings -------------------------------------------------------------------------------------------------------- */

static bool goes_on(const maker *const m, const size_t piece)
{
    bool after = false;
    bool before = false;
    for (size_t i = 0; i < m->kept_len && !(after && before); i++) {
        after = after || ds_vec_between(m->kept[i].a, m->kept[piece].b) < JOIN_M;
        before = before || ds_vec_between(m->kept[i].b, m->kept[piece].a) < JOIN_M;
    }
    return after && before;
}

/* Where one arc takes over from another, a little of the first may be kept beyond: it leads nowhere. */
static void drop_spurs(maker *const m)
{
    for (size_t i = 0; i < m->kept_len;) {
        if (goes_on(m, i)) {
            i++;
        } else {
            m->kept[i] = m->kept[--m->kept_len];
            i = 0;
        }
    }
}

static size_t following(const maker *const m, const bool *const used, const ds_vec end)
{
    size_t best = SIZE_MAX;
    double least = JOIN_M;
    for (size_t i = 0; i < m->kept_len; i++) {
        const double gap = used[i] ? INFINITY : ds_vec_between(m->kept[i].a, end);
        if (gap < least) {
            least = gap;
            best = i;
        }
    }
    return best;
}

/* One curve that is the two after each other, if they are parts of one. */
static bool merge(ds_curve *const first, const ds_curve *const second)
{
    if ((first->radius > 0) != (second->radius > 0)) {
        return false;
    }
    if (first->radius > 0) {
        const bool same = ds_vec_between(first->centre, second->centre) < DS_ASIDE_M &&
                          fabs(first->radius - second->radius) < DS_ASIDE_M && first->left == second->left;
        const double half = 3.14159 * first->radius;
        if (!same || ds_curve_len(first) + ds_curve_len(second) > half) {
            return false;
        }
    } else {
        const ds_vec d = ds_curve_direction(first, 0);
        const ds_vec e = ds_curve_direction(second, 0);
        if (fabs(ds_vec_cross(d, e)) > 1e-7 || ds_vec_dot(d, e) < 0) {
            return false;
        }
    }
    first->b = second->b;
    return true;
}

/* The piece with its ends moved to where its neighbours are; a crumb of an arc, which that could turn over, is straight. */
static ds_curve between(const ds_curve *const piece, const ds_vec a, const ds_vec b)
{
    ds_curve out = *piece;
    out.a = a;
    out.b = b;
    return ds_vec_between(piece->a, piece->b) < 2 * JOIN_M && ds_curve_len(piece) < 3 * JOIN_M
               ? ds_segment(a, b)
               : out;
}

/* Follows pieces from `first` until they close; returns how many curves went to `to`. */
static size_t trace(const maker *const m, bool *const used, const size_t first, ds_curve *const to)
{
    size_t len = 0;
    for (size_t next = first; next != SIZE_MAX; next = following(m, used, to[len - 1].b)) {
        used[next] = true;
        ds_curve piece = m->kept[next];
        if (len) {
            piece = between(&piece, to[len - 1].b, piece.b);
        }
        if (!len || !merge(&to[len - 1], &piece)) {
            to[len++] = piece;
        }
    }
    to[len - 1] = between(&to[len - 1], to[len - 1].a, to[0].a);
    if (len > 2 && merge(&to[len - 1], &to[0])) {
        to[0] = to[--len];
    }
    return len;
}

/* What is left over where two lines run into each other at a flat angle. */
static bool is_crumb(const ds_ring *const ring)
{
    double across = 0;
    for (size_t i = 0; i < ring->len; i++) {
        across = fmax(across, ds_vec_between(ring->at[i].a, ring->at[0].a));
    }
    return across < 10 * JOIN_M;
}

static void close_rings(maker *const m, ds_region *const out)
{
    ds_ring *const rings = ds_arena_take_many(m->arena, m->kept_len, sizeof *rings);
    ds_curve *const curves = ds_arena_take_many(m->arena, m->kept_len, sizeof *curves);
    bool *const used = ds_arena_take(m->arena, m->kept_len);
    if (!rings || !curves || !used) {
        m->failed = true;
        return;
    }
    size_t len = 0;
    for (size_t i = 0; i < m->kept_len; i++) {
        if (used[i]) {
            continue;
        }
        ds_ring *const ring = &rings[out->rings_len];
        ring->at = &curves[len];
        ring->len = trace(m, used, i, &curves[len]);
        if (is_crumb(ring)) {
            continue;
        }
        out->rings_len++;
        len += ring->len;
        out->area_m2 += ds_outline_area(ring->at, ring->len);
    }
    out->rings = rings;
}

ds_status ds_region_make(ds_region *const out, const ds_field *const outer, const ds_field *const inner,
                         ds_arena *const arena)
{
    *out = (ds_region){0};
    maker m = {.space = outer->space, .outer = outer, .inner = inner, .arena = arena};
    for (size_t i = 0; i < m.space->walls_len; i++) {
        put_line(&m, ds_segment(m.space->walls[i].a, m.space->walls[i].b));
    }
    put_field(&m, outer);
    if (inner) {
        put_field(&m, inner);
    }
    m.cuts = ds_arena_take_many(arena, 2 * m.lines_len + m.space->bends_len + 2, sizeof *m.cuts);
    m.failed = m.failed || !m.cuts;
    for (size_t i = 0; i < m.lines_len && !m.failed; i++) {
        cut_line(&m, &m.lines[i]);
    }
    if (!m.failed) {
        drop_spurs(&m);
        close_rings(&m, out);
    }
    return m.failed ? DS_NO_MEMORY : DS_OK;
}
