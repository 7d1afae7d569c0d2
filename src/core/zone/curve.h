/* SPDX-License-Identifier: MIT */
/*
 * Plane geometry on segments and circular arcs: all that the zones of wet places are made of.
 *
 * Metres. A curve runs from a to b; an arc says its circle and which way it turns. An outline is a closed list of
 * curves that runs anticlockwise, its inside on the left. Two things nearer than DS_TOUCH_M touch: measurements are
 * millimetres, so nothing that was meant apart comes that close, and nothing that was meant to touch stays open.
 */
#ifndef DS_ZONE_CURVE_H
#define DS_ZONE_CURVE_H

#include <stdbool.h>
#include <stddef.h>

#define DS_TOUCH_M 1e-9

/* How far beside an edge its two sides are looked at: less than anything measured, more than rounding. */
#define DS_ASIDE_M 1e-6

typedef struct ds_vec {
    double x, y;
} ds_vec;

typedef struct ds_curve {
    ds_vec a, b;
    ds_vec centre;
    double radius; /* 0: a segment */
    bool left;     /* an arc that turns anticlockwise */
} ds_curve;

static inline ds_vec ds_vec_minus(const ds_vec a, const ds_vec b)
{
    return (ds_vec){a.x - b.x, a.y - b.y};
}

/* a + s b */
static inline ds_vec ds_vec_along(const ds_vec a, const double s, const ds_vec b)
{
    return (ds_vec){a.x + s * b.x, a.y + s * b.y};
}

static inline double ds_vec_dot(const ds_vec a, const ds_vec b)
{
    return a.x * b.x + a.y * b.y;
}

/* Twice the area of the triangle 0, a, b: positive when b lies left of a. */
static inline double ds_vec_cross(const ds_vec a, const ds_vec b)
{
    return a.x * b.y - a.y * b.x;
}

double ds_vec_len(ds_vec a);
double ds_vec_between(ds_vec a, ds_vec b);

/* The unit vector along a; (0, 0) of nothing. */
ds_vec ds_vec_unit(ds_vec a);

static inline ds_curve ds_segment(const ds_vec a, const ds_vec b)
{
    return (ds_curve){.a = a, .b = b};
}

/* The arc from a through m to b; a segment when the three lie on a line. */
ds_curve ds_arc_through(ds_vec a, ds_vec m, ds_vec b);

/* A whole circle as four arcs, anticlockwise, to out[4]. */
void ds_circle_arcs(ds_curve out[4], ds_vec centre, double radius);

double ds_curve_len(const ds_curve *curve);

/* The point at share t (0..1) of the length, and the unit direction in which the curve runs there. */
ds_vec ds_curve_point(const ds_curve *curve, double t);
ds_vec ds_curve_direction(const ds_curve *curve, double t);

/* Share t of the length nearest to p, clamped to 0..1. */
double ds_curve_nearest(const ds_curve *curve, ds_vec p);

/* Distance from p to the nearest point of the curve. */
double ds_curve_distance(const ds_curve *curve, ds_vec p);

/*
 * Where two curves meet, as shares of the first, to out[2]; returns how many. Curves that lie on each other give the
 * ends of the second that lie on the first.
 */
size_t ds_curve_meet(const ds_curve *first, const ds_curve *second, double out[2]);

/* The part from share t0 to share t1. */
ds_curve ds_curve_part(const ds_curve *curve, double t0, double t1);

/* What a curve adds to the area that it bounds on its left: half the integral of x dy - y dx. */
double ds_curve_area(const ds_curve *curve);

/* Signed area of an outline: positive when it runs anticlockwise. */
double ds_outline_area(const ds_curve *outline, size_t len);

/* Turns an outline round in place. */
void ds_outline_reverse(ds_curve *outline, size_t len);

/* Inside the outline; on its edge, either. */
bool ds_outline_encloses(const ds_curve *outline, size_t len, ds_vec p);

/* Inside the outline, its edge included. */
bool ds_outline_holds(const ds_curve *outline, size_t len, ds_vec p);

/* Distance from p to the outline's edge. */
double ds_outline_distance(const ds_curve *outline, size_t len, ds_vec p);

/* True when two edges of the outline cross or touch elsewhere than where they follow each other. */
bool ds_outline_crosses_itself(const ds_curve *outline, size_t len, size_t *which);

#endif
