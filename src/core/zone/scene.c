/* SPDX-License-Identifier: MIT */
#include "core/zone/scene_check.h"

#include <math.h>

/* Round walls and columns: no polygon is further than this from its arc. */
#define FLAT_M 5e-4

typedef struct maker {
    ds_scene *scene;
    ds_arena *arena;
    ds_zone_fault *fault;
    ds_status status;
} maker;

static void fail(maker *const m, const ds_problem_code code, const ds_json *const at, const ds_str a)
{
    if (m->status == DS_OK) {
        m->status = DS_BAD_INPUT;
        *m->fault = (ds_zone_fault){.code = code, .at = at, .a = a, .b = DS_STR("")};
    }
}

static ds_curve *take_curves(maker *const m, const size_t len)
{
    ds_curve *const curves = ds_arena_take_many(m->arena, len, sizeof *curves);
    if (!curves && m->status == DS_OK) {
        m->status = DS_NO_MEMORY;
    }
    return curves;
}

/* --- outlines ----------------------------------------------------------------------------------------------------- */

/* No sides that bend away from the line through the first corner and the one furthest from it. */
static bool on_one_line(const ds_curve *const curves, const size_t len)
{
    ds_vec along = {0, 0};
    for (size_t i = 0; i < len; i++) {
        const ds_vec d = ds_vec_minus(curves[i].a, curves[0].a);
        along = ds_vec_len(d) > ds_vec_len(along) ? d : along;
    }
    const ds_vec unit = ds_vec_unit(along);
    for (size_t i = 0; i < len; i++) {
        const double off = ds_vec_cross(unit, ds_vec_minus(curves[i].a, curves[0].a));
        if (curves[i].radius > 0 || fabs(off) > 1e-4) {
            return false;
        }
    }
    return true;
}

/* Anticlockwise, closed, sound; otherwise a fault. */
static ds_outline sound(maker *const m, ds_curve *const curves, const size_t len, const ds_json *const at)
{
    size_t which = 0;
    for (size_t i = 0; i < len; i++) {
        if (ds_curve_len(&curves[i]) < 1e-4) {
            fail(m, DS_P_PLAN_NO_LENGTH, at, DS_STR(""));
        }
    }
    if (ds_outline_area(curves, len) < 0) {
        ds_outline_reverse(curves, len);
    }
    const bool on_line = on_one_line(curves, len);
    if (!on_line && ds_outline_crosses_itself(curves, len, &which)) {
        fail(m, DS_P_PLAN_CROSSES, at, DS_STR(""));
    } else if (on_line || ds_outline_area(curves, len) < 1e-4) {
        fail(m, DS_P_PLAN_FLAT, at, DS_STR(""));
    }
    return (ds_outline){curves, len};
}

static ds_outline outline_of(maker *const m, const ds_plan_outline *const from)
{
    if (!isnan(from->radius_m)) {
        ds_curve *const arcs = take_curves(m, 4);
        if (arcs) {
            ds_circle_arcs(arcs, (ds_vec){from->centre_m[0], from->centre_m[1]}, from->radius_m);
        }
        return (ds_outline){arcs, arcs ? 4 : 0};
    }
    ds_curve *const curves = take_curves(m, from->len);
    if (!curves) {
        return (ds_outline){0};
    }
    for (size_t i = 0; i < from->len; i++) {
        const ds_plan_corner *const c = &from->corners[i];
        const ds_plan_corner *const before = &from->corners[(i + from->len - 1) % from->len];
        const ds_vec a = {before->x, before->y};
        const ds_vec b = {c->x, c->y};
        curves[i] = isnan(c->through_x) ? ds_segment(a, b)
                                        : ds_arc_through(a, (ds_vec){c->through_x, c->through_y}, b);
    }
    if (from->len < 2) {
        fail(m, DS_P_PLAN_FLAT, from->at, DS_STR(""));
        return (ds_outline){0};
    }
    return sound(m, curves, from->len, from->at);
}

/* How many straight pieces stand for a curve. */
static size_t pieces_of(const ds_curve *const curve)
{
    if (!(curve->radius > 0)) {
        return 1;
    }
    const double half = acos(fmax(1 - FLAT_M / curve->radius, -1));
    const double pieces = ceil(ds_curve_len(curve) / curve->radius / (2 * half));
    return pieces < 3 ? 3 : pieces > DS_SPACE_WALLS ? DS_SPACE_WALLS + 1 : (size_t)pieces;
}

/*
 * Straight edges for an outline. Corners lie on the arcs, so that a column shrinks; of a room's bulge a little is lost,
 * which can only lengthen a way by less than a millimetre.
 */
static ds_outline straight(maker *const m, const ds_outline outline)
{
    size_t len = 0;
    for (size_t i = 0; i < outline.len; i++) {
        len += pieces_of(&outline.at[i]);
    }
    if (len > DS_SPACE_WALLS) {
        fail(m, DS_P_PLAN_TOO_FINE, m->scene->plan->at, DS_STR(""));
        return (ds_outline){0};
    }
    ds_curve *const curves = take_curves(m, len);
    size_t n = 0;
    for (size_t i = 0; curves && i < outline.len; i++) {
        const size_t pieces = pieces_of(&outline.at[i]);
        for (size_t k = 0; k < pieces; k++) {
            const double step = 1 / (double)pieces;
            curves[n++] = ds_segment(
                ds_curve_point(&outline.at[i], (double)k * step),
                k + 1 == pieces ? outline.at[i].b : ds_curve_point(&outline.at[i], (double)(k + 1) * step));
        }
    }
    return (ds_outline){curves, n};
}

/* The rectangle along a line, `left` and `right` of it and past its ends. */
static ds_outline strip_past(maker *const m, const ds_feature *const f, const double left, const double right,
                             const double past_from, const double past_to)
{
    const ds_vec d = ds_vec_unit((ds_vec){f->to_m[0] - f->from_m[0], f->to_m[1] - f->from_m[1]});
    const ds_vec a = ds_vec_along((ds_vec){f->from_m[0], f->from_m[1]}, -past_from, d);
    const ds_vec b = ds_vec_along((ds_vec){f->to_m[0], f->to_m[1]}, past_to, d);
    const ds_vec n = {-d.y, d.x};
    if (ds_vec_between(a, b) < 1e-3) {
        fail(m, DS_P_PLAN_NO_LENGTH, f->at, DS_STR(""));
    }
    ds_curve *const edges = take_curves(m, 4);
    if (!edges || m->status != DS_OK) {
        return (ds_outline){0};
    }
    const ds_vec corner[] = {ds_vec_along(a, -right, n), ds_vec_along(b, -right, n), ds_vec_along(b, left, n),
                             ds_vec_along(a, left, n)};
    for (size_t i = 0; i < 4; i++) {
        edges[i] = ds_segment(corner[i], corner[(i + 1) % 4]);
    }
    return (ds_outline){edges, 4};
}

static ds_outline strip(maker *const m, const ds_feature *const f, const double left, const double right)
{
    return strip_past(m, f, left, right, 0, 0);
}

/* --- partitions --------------------------------------------------------------------------------------------------- */

static double half_of(const ds_feature *const f)
{
    return fmax(isnan(f->thickness_m) ? 0 : f->thickness_m, DS_SCENE_THIN_M) / 2;
}

/* How far a partition's end is from what it may be meant to stand on. */
static double gap_at(const maker *const m, const ds_feature *const f, const ds_vec end)
{
    double gap = INFINITY;
    for (size_t i = 0; i < m->scene->rooms_len; i++) {
        gap = fmin(gap, ds_outline_distance(m->scene->rooms[i].at, m->scene->rooms[i].len, end));
    }
    for (size_t i = 0; i < m->scene->plan->features_len; i++) {
        const ds_feature *const other = &m->scene->plan->features[i];
        if (other->kind == DS_PARTITION && other != f) {
            const ds_curve axis = ds_segment((ds_vec){other->from_m[0], other->from_m[1]},
                                             (ds_vec){other->to_m[0], other->to_m[1]});
            gap = fmin(gap, fmax(ds_curve_distance(&axis, end) - half_of(other), 0));
        }
    }
    return gap;
}

/* What ends within a few millimetres of a wall stands on it; the foot goes a little in, so that a slanting one closes too. */
static double past_end(const maker *const m, const ds_feature *const f, const double *const end)
{
    const double gap = gap_at(m, f, (ds_vec){end[0], end[1]});
    return gap <= DS_SCENE_CLOSED_M ? gap + DS_SCENE_CLOSED_M : 0;
}

static ds_outline partition(maker *const m, const ds_feature *const f)
{
    return strip_past(m, f, half_of(f), half_of(f), past_end(m, f, f->from_m), past_end(m, f, f->to_m));
}

/* --- passages ----------------------------------------------------------------------------------------------------- */

/* How far it is from p along unit n to the nearest room; INFINITY when there is none within a wall's thickness. */
static double to_room(const ds_scene *const scene, const ds_vec p, const ds_vec n)
{
    if (ds_scene_in_rooms(scene, ds_vec_along(p, 2 * DS_ASIDE_M, n), 0)) {
        return 0;
    }
    const ds_curve ray = ds_segment(p, ds_vec_along(p, DS_SCENE_THICKEST_M, n));
    double least = INFINITY;
    for (size_t i = 0; i < scene->rooms_len; i++) {
        for (size_t k = 0; k < scene->rooms[i].len; k++) {
            double at[2];
            const size_t found = ds_curve_meet(&ray, &scene->rooms[i].at[k], at);
            for (size_t j = 0; j < found; j++) {
                const double along = at[j] * DS_SCENE_THICKEST_M;
                if (along > DS_ASIDE_M &&
                    ds_scene_in_rooms(scene, ds_vec_along(p, along + 2 * DS_ASIDE_M, n), 0)) {
                    least = fmin(least, along);
                }
            }
        }
    }
    return least;
}

/* How far a passage goes from p to reach the room on one side; from within a room, through the wall that is near. */
static double through_wall(const ds_scene *const scene, const ds_vec p, const ds_vec n)
{
    ds_vec way = {0, 0};
    const double inside = -ds_scene_outside(scene, p, &way);
    if (inside <= 0 || inside > DS_SCENE_OVERLAP_M || ds_vec_dot(way, n) <= 0) {
        return to_room(scene, p, n);
    }
    return inside + to_room(scene, ds_vec_along(p, inside, n), n);
}

/* From room to room, a little into both; nothing when it leads out of the plan. */
static ds_outline passage(maker *const m, const ds_feature *const f)
{
    const ds_vec a = {f->from_m[0], f->from_m[1]};
    const ds_vec b = {f->to_m[0], f->to_m[1]};
    const ds_vec d = ds_vec_unit(ds_vec_minus(b, a));
    const ds_vec middle = ds_vec_along(a, 0.5, ds_vec_minus(b, a));
    const double left = through_wall(m->scene, middle, (ds_vec){-d.y, d.x});
    const double right = through_wall(m->scene, middle, (ds_vec){d.y, -d.x});
    const double into = 1e-3;
    if (isinf(left) || isinf(right)) {
        strip(m, f, 0, 0);
        return (ds_outline){0};
    }
    return strip(m, f, left + into, right + into);
}

/* A recess goes out from the wall that its window stands in, as deep as it is said, and opens into the room. */
static ds_outline recess(maker *const m, const ds_feature *const f)
{
    const ds_vec a = {f->from_m[0], f->from_m[1]};
    const ds_vec d = {f->to_m[0] - f->from_m[0], f->to_m[1] - f->from_m[1]};
    const double deep = isnan(f->recess_m) ? 0 : f->recess_m;
    double inwards = 0;
    double outwards = 0;
    ds_vec way = {0, 0};
    for (int i = 0; i < 3; i++) {
        const double off = ds_scene_outside(m->scene, ds_vec_along(a, i / 2.0, d), &way);
        inwards = fmax(inwards, off);
        outwards = fmax(outwards, -off);
    }
    ds_scene_outside(m->scene, ds_vec_along(a, 0.5, d), &way);
    inwards += 1e-3;
    outwards += deep;
    const bool out_left = ds_vec_cross(d, way) > 0;
    const ds_outline whole = strip(m, f, out_left ? outwards : inwards, out_left ? inwards : outwards);
    return deep > 0 ? whole : (ds_outline){0};
}

/* --- features ----------------------------------------------------------------------------------------------------- */

static void check_slope(maker *const m, const ds_feature *const f)
{
    const ds_vec u = {f->slope_m[1][0] - f->slope_m[0][0], f->slope_m[1][1] - f->slope_m[0][1]};
    const ds_vec v = {f->slope_m[2][0] - f->slope_m[0][0], f->slope_m[2][1] - f->slope_m[0][1]};
    if (fabs(ds_vec_cross(u, v)) < 1e-4) {
        fail(m, DS_P_PLAN_FLAT, f->at, DS_STR(""));
    }
}

static void make_feature(maker *const m, const ds_feature *const f, ds_outline *const shape,
                         ds_outline *const block)
{
    switch (f->kind) {
    case DS_PARTITION:
        *shape = partition(m, f);
        *block = *shape;
        break;
    case DS_OPENING:
    case DS_DOOR:
        *shape = passage(m, f);
        *block = *shape;
        break;
    case DS_WINDOW:
        *shape = recess(m, f);
        *block = *shape;
        break;
    case DS_SOLID_WALL:
    case DS_COLUMN:
    case DS_NICHE:
        *shape = outline_of(m, &f->outline);
        *block = straight(m, *shape);
        break;
    case DS_SLOPE:
        check_slope(m, f);
        break;
    case DS_SHOWER_OUTLET:
    case DS_UNDER_BATH:
        break;
    default:
        *shape = outline_of(m, &f->outline);
        break;
    }
    if (m->status == DS_OK && !ds_scene_stands(m->scene, f, shape)) {
        fail(m, DS_P_PLAN_OUTSIDE, f->at, f->word);
    }
}

static void make_rooms(maker *const m, ds_outline *const rooms)
{
    const ds_plan *const plan = m->scene->plan;
    size_t walls = 0;
    for (size_t i = 0; i < plan->rooms_len && m->status == DS_OK; i++) {
        rooms[i] = straight(m, outline_of(m, &plan->rooms[i]));
        walls += rooms[i].len;
        if (walls > DS_SPACE_WALLS) {
            fail(m, DS_P_PLAN_TOO_FINE, plan->at, DS_STR(""));
        }
    }
    m->scene->rooms = rooms;
    m->scene->rooms_len = plan->rooms_len;
    const size_t touching = m->status == DS_OK ? ds_scene_touching(m->scene) : plan->rooms_len;
    if (touching < plan->rooms_len) {
        fail(m, DS_P_PLAN_ROOMS_TOUCH, plan->rooms[touching].at, DS_STR(""));
    }
}

ds_status ds_scene_make(ds_scene *const out, const ds_plan *const plan, ds_arena *const arena,
                        ds_zone_fault *const fault)
{
    *out = (ds_scene){.plan = plan};
    maker m = {.scene = out, .arena = arena, .fault = fault, .status = DS_OK};
    ds_outline *const rooms = ds_arena_take_many(arena, plan->rooms_len, sizeof *rooms);
    ds_outline *const shapes = ds_arena_take_many(arena, plan->features_len, sizeof *shapes);
    ds_outline *const blocks = ds_arena_take_many(arena, plan->features_len, sizeof *blocks);
    if (!rooms || !shapes || !blocks) {
        return DS_NO_MEMORY;
    }
    make_rooms(&m, rooms);
    for (size_t i = 0; i < plan->features_len && m.status == DS_OK; i++) {
        make_feature(&m, &plan->features[i], &shapes[i], &blocks[i]);
    }
    out->shapes = shapes;
    out->blocks = blocks;
    return m.status;
}

/* --- asking ------------------------------------------------------------------------------------------------------- */

bool ds_scene_in_rooms(const ds_scene *const scene, const ds_vec p, const double slack_m)
{
    for (size_t i = 0; i < scene->rooms_len; i++) {
        const ds_outline *const room = &scene->rooms[i];
        if (ds_outline_encloses(room->at, room->len, p) ||
            ds_outline_distance(room->at, room->len, p) <= fmax(slack_m, DS_TOUCH_M)) {
            return true;
        }
    }
    return false;
}

double ds_outline_between(const ds_outline *const p, const ds_outline *const q)
{
    double least = INFINITY;
    const ds_outline *const pair[] = {p, q};
    for (size_t side = 0; side < 2; side++) {
        const ds_outline *const one = pair[side];
        const ds_outline *const other = pair[1 - side];
        for (size_t i = 0; i < one->len; i++) {
            const bool held = ds_outline_encloses(other->at, other->len, one->at[i].a);
            least = held ? 0 : fmin(least, ds_outline_distance(other->at, other->len, one->at[i].a));
        }
    }
    for (size_t i = 0; i < p->len && least > 0; i++) {
        for (size_t k = 0; k < q->len; k++) {
            double at[2];
            least = ds_curve_meet(&p->at[i], &q->at[k], at) ? 0 : least;
        }
    }
    return least;
}

ds_vec ds_slope_rise(const ds_feature *const slope)
{
    const double(*const s)[3] = slope->slope_m;
    const ds_vec u = {s[1][0] - s[0][0], s[1][1] - s[0][1]};
    const ds_vec v = {s[2][0] - s[0][0], s[2][1] - s[0][1]};
    const double rise_u = s[1][2] - s[0][2];
    const double rise_v = s[2][2] - s[0][2];
    const double whole = ds_vec_cross(u, v);
    return (ds_vec){(rise_u * v.y - rise_v * u.y) / whole, (rise_v * u.x - rise_u * v.x) / whole};
}

double ds_scene_ceiling(const ds_scene *const scene, const ds_vec p)
{
    double least = isnan(scene->plan->height_m) ? INFINITY : scene->plan->height_m;
    for (size_t i = 0; i < scene->plan->features_len; i++) {
        const ds_feature *const f = &scene->plan->features[i];
        if (f->kind == DS_SLOPE) {
            const ds_vec d = {p.x - f->slope_m[0][0], p.y - f->slope_m[0][1]};
            least = fmin(least, f->slope_m[0][2] + ds_vec_dot(d, ds_slope_rise(f)));
        }
    }
    return least;
}
