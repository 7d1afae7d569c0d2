/* SPDX-License-Identifier: MIT */
#include "core/zone/curve.h"

#include <math.h>

static const double TURN = 6.283185307179586;

double ds_vec_len(const ds_vec a)
{
    return sqrt(ds_vec_dot(a, a));
}

double ds_vec_between(const ds_vec a, const ds_vec b)
{
    return ds_vec_len(ds_vec_minus(a, b));
}

ds_vec ds_vec_unit(const ds_vec a)
{
    const double len = ds_vec_len(a);
    return len > 0 ? (ds_vec){a.x / len, a.y / len} : (ds_vec){0, 0};
}

/* --- arcs --------------------------------------------------------------------------------------------------------- */

/* Angle from 0 to a whole turn between two directions, the way the arc turns. */
static double turned(const ds_vec from, const ds_vec to, const bool left)
{
    const double angle = atan2(ds_vec_cross(from, to), ds_vec_dot(from, to));
    const double way = left ? angle : -angle;
    return way < 0 ? way + TURN : way;
}

static double sweep(const ds_curve *const arc)
{
    const double angle =
        turned(ds_vec_minus(arc->a, arc->centre), ds_vec_minus(arc->b, arc->centre), arc->left);
    return angle < DS_TOUCH_M ? TURN : angle;
}

ds_curve ds_arc_through(const ds_vec a, const ds_vec m, const ds_vec b)
{
    const ds_vec u = ds_vec_minus(m, a);
    const ds_vec v = ds_vec_minus(b, a);
    const double cross = ds_vec_cross(u, v);
    if (fabs(cross) < DS_TOUCH_M) {
        return ds_segment(a, b);
    }
    const double uu = ds_vec_dot(u, u);
    const double vv = ds_vec_dot(v, v);
    const ds_vec offset = {(v.y * uu - u.y * vv) / (2 * cross), (u.x * vv - v.x * uu) / (2 * cross)};
    return (ds_curve){.a = a,
                      .b = b,
                      .centre = ds_vec_along(a, 1, offset),
                      .radius = ds_vec_len(offset),
                      .left = cross > 0};
}

void ds_circle_arcs(ds_curve out[4], const ds_vec centre, const double radius)
{
    const ds_vec corner[] = {{radius, 0}, {0, radius}, {-radius, 0}, {0, -radius}};
    for (size_t i = 0; i < 4; i++) {
        out[i] = (ds_curve){.a = ds_vec_along(centre, 1, corner[i]),
                            .b = ds_vec_along(centre, 1, corner[(i + 1) % 4]),
                            .centre = centre,
                            .radius = radius,
                            .left = true};
    }
}

/* --- one curve ---------------------------------------------------------------------------------------------------- */

double ds_curve_len(const ds_curve *const curve)
{
    return curve->radius > 0 ? curve->radius * sweep(curve) : ds_vec_between(curve->a, curve->b);
}

static ds_vec rotated(const ds_vec v, const double angle)
{
    const double c = cos(angle);
    const double s = sin(angle);
    return (ds_vec){v.x * c - v.y * s, v.x * s + v.y * c};
}

ds_vec ds_curve_point(const ds_curve *const curve, const double t)
{
    if (t <= 0 || t >= 1) {
        return t <= 0 ? curve->a : curve->b;
    }
    if (curve->radius > 0) {
        const double angle = (curve->left ? t : -t) * sweep(curve);
        return ds_vec_along(curve->centre, 1, rotated(ds_vec_minus(curve->a, curve->centre), angle));
    }
    return ds_vec_along(curve->a, t, ds_vec_minus(curve->b, curve->a));
}

ds_vec ds_curve_direction(const ds_curve *const curve, const double t)
{
    if (curve->radius > 0) {
        const ds_vec out = ds_vec_unit(ds_vec_minus(ds_curve_point(curve, t), curve->centre));
        return curve->left ? (ds_vec){-out.y, out.x} : (ds_vec){out.y, -out.x};
    }
    return ds_vec_unit(ds_vec_minus(curve->b, curve->a));
}

double ds_curve_nearest(const ds_curve *const curve, const ds_vec p)
{
    if (curve->radius > 0) {
        const double whole = sweep(curve);
        const double angle =
            turned(ds_vec_minus(curve->a, curve->centre), ds_vec_minus(p, curve->centre), curve->left);
        if (angle <= whole) {
            return angle / whole;
        }
        return angle - whole < TURN - angle ? 1 : 0;
    }
    const ds_vec d = ds_vec_minus(curve->b, curve->a);
    const double dd = ds_vec_dot(d, d);
    const double t = dd > 0 ? ds_vec_dot(ds_vec_minus(p, curve->a), d) / dd : 0;
    return t < 0 ? 0 : t > 1 ? 1 : t;
}

double ds_curve_distance(const ds_curve *const curve, const ds_vec p)
{
    return ds_vec_between(p, ds_curve_point(curve, ds_curve_nearest(curve, p)));
}

ds_curve ds_curve_part(const ds_curve *const curve, const double t0, const double t1)
{
    ds_curve part = *curve;
    part.a = ds_curve_point(curve, t0);
    part.b = ds_curve_point(curve, t1);
    return part;
}

double ds_curve_area(const ds_curve *const curve)
{
    const double chord = ds_vec_cross(curve->a, curve->b) / 2;
    if (!(curve->radius > 0)) {
        return chord;
    }
    const double angle = sweep(curve);
    const double cap = curve->radius * curve->radius * (angle - sin(angle)) / 2;
    return curve->left ? chord + cap : chord - cap;
}

/* --- two curves --------------------------------------------------------------------------------------------------- */

/* Adds the share of `curve` at p when p lies on it. */
static size_t put_on(const ds_curve *const curve, const ds_vec p, double out[2], const size_t len)
{
    const double t = ds_curve_nearest(curve, p);
    if (len == 2 || ds_vec_between(ds_curve_point(curve, t), p) > DS_TOUCH_M) {
        return len;
    }
    out[len] = t;
    return len + 1;
}

/* The same, when p lies on the other curve too. */
static size_t put_meeting(const ds_curve *const first, const ds_curve *const second, const ds_vec p,
                          double out[2], const size_t len)
{
    return ds_curve_distance(second, p) <= DS_TOUCH_M ? put_on(first, p, out, len) : len;
}

static size_t put_ends(const ds_curve *const first, const ds_curve *const second, double out[2])
{
    const size_t len = put_on(first, second->a, out, 0);
    return put_on(first, second->b, out, len);
}

static size_t meet_segments(const ds_curve *const first, const ds_curve *const second, double out[2])
{
    const ds_vec d = ds_vec_minus(first->b, first->a);
    const ds_vec e = ds_vec_minus(second->b, second->a);
    const double cross = ds_vec_cross(d, e);
    const ds_vec between = ds_vec_minus(second->a, first->a);
    if (fabs(cross) <= 1e-12 * (fabs(d.x) + fabs(d.y)) * (fabs(e.x) + fabs(e.y))) {
        return put_ends(first, second, out);
    }
    const double t = ds_vec_cross(between, e) / cross;
    return put_meeting(first, second, ds_vec_along(first->a, t, d), out, 0);
}

/* Where the line through a segment meets the circle of an arc. */
static size_t line_and_circle(const ds_curve *const segment, const ds_curve *const arc, ds_vec out[2])
{
    const ds_vec d = ds_vec_unit(ds_vec_minus(segment->b, segment->a));
    const ds_vec to = ds_vec_minus(arc->centre, segment->a);
    const double along = ds_vec_dot(to, d);
    const double off = ds_vec_cross(d, to);
    const double half_2 = arc->radius * arc->radius - off * off;
    if (half_2 < -DS_TOUCH_M * arc->radius) {
        return 0;
    }
    const double half = half_2 > 0 ? sqrt(half_2) : 0;
    out[0] = ds_vec_along(segment->a, along - half, d);
    out[1] = ds_vec_along(segment->a, along + half, d);
    return 2;
}

static size_t circle_and_circle(const ds_curve *const p, const ds_curve *const q, ds_vec out[2])
{
    const ds_vec between = ds_vec_minus(q->centre, p->centre);
    const double d = ds_vec_len(between);
    if (d <= DS_TOUCH_M) {
        return 0;
    }
    const double along = (d * d + p->radius * p->radius - q->radius * q->radius) / (2 * d);
    const double half_2 = p->radius * p->radius - along * along;
    if (half_2 < -DS_TOUCH_M * p->radius) {
        return 0;
    }
    const double half = half_2 > 0 ? sqrt(half_2) : 0;
    const ds_vec u = {between.x / d, between.y / d};
    const ds_vec foot = ds_vec_along(p->centre, along, u);
    out[0] = ds_vec_along(foot, half, (ds_vec){-u.y, u.x});
    out[1] = ds_vec_along(foot, -half, (ds_vec){-u.y, u.x});
    return 2;
}

size_t ds_curve_meet(const ds_curve *const first, const ds_curve *const second, double out[2])
{
    const bool arc = first->radius > 0;
    const bool other = second->radius > 0;
    if (!arc && !other) {
        return meet_segments(first, second, out);
    }
    if (arc && other && ds_vec_between(first->centre, second->centre) <= DS_TOUCH_M &&
        fabs(first->radius - second->radius) <= DS_TOUCH_M) {
        return put_ends(first, second, out);
    }
    ds_vec at[2];
    const size_t found = arc && other ? circle_and_circle(first, second, at)
                                      : line_and_circle(arc ? second : first, arc ? first : second, at);
    size_t len = 0;
    for (size_t i = 0; i < found; i++) {
        len = put_meeting(first, second, at[i], out, len);
    }
    return len;
}

/* --- outlines ----------------------------------------------------------------------------------------------------- */

double ds_outline_area(const ds_curve *const outline, const size_t len)
{
    double area = 0;
    for (size_t i = 0; i < len; i++) {
        area += ds_curve_area(&outline[i]);
    }
    return area;
}

void ds_outline_reverse(ds_curve *const outline, const size_t len)
{
    for (size_t i = 0, j = len; i < j; i++) {
        j--;
        const ds_curve swap = outline[i];
        outline[i] = outline[j];
        outline[j] = swap;
    }
    for (size_t i = 0; i < len; i++) {
        const ds_vec a = outline[i].a;
        outline[i].a = outline[i].b;
        outline[i].b = a;
        outline[i].left = !outline[i].left;
    }
}

double ds_outline_distance(const ds_curve *const outline, const size_t len, const ds_vec p)
{
    double least = INFINITY;
    for (size_t i = 0; i < len; i++) {
        least = fmin(least, ds_curve_distance(&outline[i], p));
    }
    return least;
}

/* Does a ray from p towards +x cross the segment. */
static bool ray_crosses(const ds_vec a, const ds_vec b, const ds_vec p)
{
    if ((a.y > p.y) == (b.y > p.y)) {
        return false;
    }
    return p.x < a.x + (p.y - a.y) * (b.x - a.x) / (b.y - a.y);
}

/* Between an arc and its chord. */
static bool in_cap(const ds_curve *const arc, const ds_vec p)
{
    if (ds_vec_between(p, arc->centre) > arc->radius) {
        return false;
    }
    const double side = ds_vec_cross(ds_vec_minus(arc->b, arc->a), ds_vec_minus(p, arc->a));
    return arc->left ? side < 0 : side > 0;
}

bool ds_outline_encloses(const ds_curve *const outline, const size_t len, const ds_vec p)
{
    bool inside = false;
    for (size_t i = 0; i < len; i++) {
        inside ^= ray_crosses(outline[i].a, outline[i].b, p);
        inside ^= outline[i].radius > 0 && in_cap(&outline[i], p);
    }
    return inside;
}

bool ds_outline_holds(const ds_curve *const outline, const size_t len, const ds_vec p)
{
    return ds_outline_encloses(outline, len, p) || ds_outline_distance(outline, len, p) <= DS_TOUCH_M;
}

bool ds_outline_crosses_itself(const ds_curve *const outline, const size_t len, size_t *const which)
{
    for (size_t i = 0; i < len; i++) {
        for (size_t j = i + 1; j < len; j++) {
            double at[2];
            const size_t meetings = ds_curve_meet(&outline[i], &outline[j], at);
            for (size_t k = 0; k < meetings; k++) {
                const ds_vec p = ds_curve_point(&outline[i], at[k]);
                const bool after = j == i + 1 && ds_vec_between(p, outline[i].b) <= 2 * DS_TOUCH_M;
                const bool before =
                    i == 0 && j == len - 1 && ds_vec_between(p, outline[i].a) <= 2 * DS_TOUCH_M;
                if (!after && !before) {
                    *which = j;
                    return true;
                }
            }
        }
    }
    return false;
}
