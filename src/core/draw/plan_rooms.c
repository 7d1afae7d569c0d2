/* SPDX-License-Identifier: MIT */
/* Rooms and what stands in them, in the plan. */
#include "core/draw/measure.h"
#include "core/draw/plan_view.h"

#include <math.h>

/* Walls are drawn this thick where nothing else is known. */
#define WALL_M 0.1

void ds_view_outline(ds_plan_view *const v, const ds_curve *const curves, const size_t len)
{
    for (size_t i = 0; i < len; i++) {
        const ds_curve *const c = &curves[i];
        if (i == 0) {
            ds_sheet_move(v->sheet, ds_view_x(v, c->a.x), ds_view_y(v, c->a.y));
        }
        if (c->radius > 0) {
            ds_sheet_arc(v->sheet, ds_view_x(v, c->b.x), ds_view_y(v, c->b.y), ds_view_x(v, c->centre.x),
                         ds_view_y(v, c->centre.y), !c->left);
        } else {
            ds_sheet_line(v->sheet, ds_view_x(v, c->b.x), ds_view_y(v, c->b.y));
        }
    }
    if (len) {
        ds_sheet_close(v->sheet);
    }
}

/* --- walls -------------------------------------------------------------------------------------------------------- */

/* Where the parallels to two edges of a room meet, WALL_M outside their common corner; blunt where that is far off. */
static ds_vec outer_corner(const ds_curve *const before, const ds_curve *const after)
{
    const ds_vec u = ds_curve_direction(before, 1);
    const ds_vec w = ds_curve_direction(after, 0);
    const ds_vec sum = {u.y + w.y, -u.x - w.x};
    const double dot = ds_vec_dot(u, w);
    const double stretch = WALL_M / fmax(1 + dot, 0.3);
    return ds_vec_along(after->a, stretch, sum);
}

static void put_wall_ring(ds_plan_view *const v, const ds_outline *const room)
{
    for (size_t i = 0; i < room->len; i++) {
        const ds_vec p = outer_corner(&room->at[(i + room->len - 1) % room->len], &room->at[i]);
        if (i == 0) {
            ds_sheet_move(v->sheet, ds_view_x(v, p.x), ds_view_y(v, p.y));
        } else {
            ds_sheet_line(v->sheet, ds_view_x(v, p.x), ds_view_y(v, p.y));
        }
    }
    ds_sheet_close(v->sheet);
    ds_sheet_draw(v->sheet, DS_PEN_NONE, DS_FILL_WALL);
}

static bool is_recess(const ds_feature_kind kind)
{
    return kind == DS_WINDOW || kind == DS_NICHE;
}

/* Doors and openings are cut through the walls; recesses into them. */
static void put_gaps(ds_plan_view *const v)
{
    const ds_scene *const scene = &v->map->scene;
    for (size_t i = 0; i < scene->plan->features_len; i++) {
        const ds_feature_kind kind = scene->plan->features[i].kind;
        if (scene->blocks[i].len && (kind == DS_OPENING || kind == DS_DOOR || is_recess(kind))) {
            ds_view_outline(v, scene->shapes[i].at, scene->shapes[i].len);
            ds_sheet_draw(v->sheet, DS_PEN_NONE, DS_FILL_PAPER);
        }
    }
}

void ds_view_rooms(ds_plan_view *const v)
{
    const ds_scene *const scene = &v->map->scene;
    ds_sheet_begin(v->sheet, DS_ROLE_WALL, DS_STR(""), DS_STR("Walls"));
    for (size_t i = 0; i < scene->rooms_len; i++) {
        put_wall_ring(v, &scene->rooms[i]);
    }
    for (size_t i = 0; i < scene->rooms_len; i++) {
        ds_view_outline(v, scene->rooms[i].at, scene->rooms[i].len);
        ds_sheet_draw(v->sheet, DS_PEN_NONE, DS_FILL_PAPER);
    }
    put_gaps(v);
    ds_sheet_end(v->sheet);
}

/* The line of the walls, as free space has it, over everything else. */
static void put_wall_line(ds_plan_view *const v)
{
    const ds_space *const space = v->map->bands[0].space;
    for (size_t i = 0; i < space->walls_len; i++) {
        ds_sheet_move(v->sheet, ds_view_x(v, space->walls[i].a.x), ds_view_y(v, space->walls[i].a.y));
        ds_sheet_line(v->sheet, ds_view_x(v, space->walls[i].b.x), ds_view_y(v, space->walls[i].b.y));
    }
    ds_sheet_draw(v->sheet, DS_PEN_WALL, DS_FILL_NONE);
}

/* --- features ----------------------------------------------------------------------------------------------------- */

static ds_vec middle_of(const ds_outline *const shape)
{
    ds_vec sum = {0, 0};
    for (size_t i = 0; i < shape->len; i++) {
        sum = ds_vec_along(sum, 1 / (double)shape->len, shape->at[i].a);
    }
    return sum;
}

/* A vessel's inner line, a little smaller about its middle. */
static void put_inner(ds_plan_view *const v, const ds_outline *const shape)
{
    const ds_vec m = middle_of(shape);
    const double share = 0.9;
    for (size_t i = 0; i < shape->len; i++) {
        ds_curve c = shape->at[i];
        c.a = ds_vec_along(m, share, ds_vec_minus(c.a, m));
        c.b = ds_vec_along(m, share, ds_vec_minus(c.b, m));
        c.centre = ds_vec_along(m, share, ds_vec_minus(c.centre, m));
        c.radius *= share;
        if (i == 0) {
            ds_sheet_move(v->sheet, ds_view_x(v, c.a.x), ds_view_y(v, c.a.y));
        }
        if (c.radius > 0) {
            ds_sheet_arc(v->sheet, ds_view_x(v, c.b.x), ds_view_y(v, c.b.y), ds_view_x(v, c.centre.x),
                         ds_view_y(v, c.centre.y), !c.left);
        } else {
            ds_sheet_line(v->sheet, ds_view_x(v, c.b.x), ds_view_y(v, c.b.y));
        }
    }
    ds_sheet_close(v->sheet);
    ds_sheet_draw(v->sheet, DS_PEN_HAIR, DS_FILL_NONE);
}

static void put_outlet(ds_plan_view *const v, const ds_feature *const f)
{
    const double x = ds_view_x(v, f->at_m[0]);
    const double y = ds_view_y(v, f->at_m[1]);
    ds_sheet_circle(v->sheet, x, y, 1.8);
    ds_sheet_draw(v->sheet, DS_PEN_FEATURE, DS_FILL_PAPER);
    ds_sheet_circle(v->sheet, x, y, 0.6);
    ds_sheet_draw(v->sheet, DS_PEN_NONE, DS_FILL_INK);
}

/* The leaf, open at a right angle into a room, and its swing. */
static void put_door(ds_plan_view *const v, const ds_feature *const f)
{
    const ds_vec hinge = {f->from_m[0], f->from_m[1]};
    const ds_vec end = {f->to_m[0], f->to_m[1]};
    const ds_vec d = ds_vec_minus(end, hinge);
    const ds_vec middle = ds_vec_along(hinge, 0.5, d);
    const ds_vec aside = ds_vec_along(middle, 0.3, (ds_vec){-d.y, d.x});
    const bool left = ds_scene_in_rooms(&v->map->scene, aside, 0);
    const ds_vec leaf =
        left ? (ds_vec){hinge.x - d.y, hinge.y + d.x} : (ds_vec){hinge.x + d.y, hinge.y - d.x};
    ds_sheet_stroke(v->sheet, DS_PEN_FEATURE, ds_view_x(v, hinge.x), ds_view_y(v, hinge.y),
                    ds_view_x(v, leaf.x), ds_view_y(v, leaf.y));
    ds_sheet_move(v->sheet, ds_view_x(v, end.x), ds_view_y(v, end.y));
    ds_sheet_arc(v->sheet, ds_view_x(v, leaf.x), ds_view_y(v, leaf.y), ds_view_x(v, hinge.x),
                 ds_view_y(v, hinge.y), !left);
    ds_sheet_draw(v->sheet, DS_PEN_HAIR, DS_FILL_NONE);
}

/* Where the ceiling comes down below the zones' top. */
static void put_slope(ds_plan_view *const v, const ds_feature *const f)
{
    const ds_vec up = ds_slope_rise(f);
    const double steep = ds_vec_dot(up, up);
    if (steep < 1e-6) {
        return;
    }
    const double to = (v->map->top_m - f->slope_m[0][2]) / steep;
    const ds_vec at = {f->slope_m[0][0] + to * up.x, f->slope_m[0][1] + to * up.y};
    const ds_vec along = ds_vec_unit((ds_vec){-up.y, up.x});
    const ds_curve line = ds_segment(ds_vec_along(at, -1000, along), ds_vec_along(at, 1000, along));
    for (size_t i = 0; i < v->map->scene.rooms_len; i++) {
        const ds_outline *const room = &v->map->scene.rooms[i];
        ds_vec ends[2];
        size_t len = 0;
        for (size_t k = 0; k < room->len && len < 2; k++) {
            double share[2];
            if (ds_curve_meet(&line, &room->at[k], share) == 1) {
                ends[len] = ds_curve_point(&line, share[0]);
                len += len == 0 || ds_vec_between(ends[0], ends[1]) > 0.01;
            }
        }
        if (len == 2) {
            ds_sheet_stroke(v->sheet, DS_PEN_HIDDEN, ds_view_x(v, ends[0].x), ds_view_y(v, ends[0].y),
                            ds_view_x(v, ends[1].x), ds_view_y(v, ends[1].y));
            ds_text say;
            ds_text_init(&say, v->arena->alloc);
            ds_text_add(&say, "ceiling ");
            ds_text_adds(&say, ds_view_metres(v, v->map->top_m));
            ds_sheet_heed(v->sheet, &say);
            ds_view_write(
                v, (ds_view_x(v, ends[0].x) + ds_view_x(v, ends[1].x)) / 2,
                (ds_view_y(v, ends[0].y) + ds_view_y(v, ends[1].y)) / 2 - 1, ds_text_str(&say),
                (ds_lettering){.size_mm = DS_TYPE_SMALL_MM, .anchor = DS_ANCHOR_MIDDLE, .halo = true});
            ds_text_free(&say);
        }
    }
}

static bool counts(const ds_plan_view *const v, const size_t i)
{
    const ds_outline *const block = &v->map->scene.blocks[i];
    ds_vec m = middle_of(block);
    return !ds_space_holds(v->map->bands[0].space, m);
}

static void put_solid(ds_plan_view *const v, const size_t i)
{
    const ds_outline *const shape = &v->map->scene.shapes[i];
    ds_view_outline(v, shape->at, shape->len);
    if (counts(v, i)) {
        ds_sheet_draw(v->sheet, DS_PEN_WALL, DS_FILL_WALL);
    } else {
        ds_sheet_draw(v->sheet, DS_PEN_HIDDEN, DS_FILL_PAPER);
    }
}

static void put_name(ds_plan_view *const v, const size_t i)
{
    const ds_feature *const f = &v->map->scene.plan->features[i];
    const ds_outline *const shape = &v->map->scene.shapes[i];
    if (!f->name.len || !shape->len) {
        return;
    }
    const ds_lettering how = {
        .size_mm = DS_TYPE_SMALL_MM, .anchor = DS_ANCHOR_MIDDLE, .halo = true, .centred = true};
    const ds_vec m = middle_of(shape);
    ds_vec low = shape->at[0].a;
    ds_vec high = low;
    for (size_t k = 1; k < shape->len; k++) {
        low = (ds_vec){fmin(low.x, shape->at[k].a.x), fmin(low.y, shape->at[k].a.y)};
        high = (ds_vec){fmax(high.x, shape->at[k].a.x), fmax(high.y, shape->at[k].a.y)};
    }
    const bool wide = (high.x - low.x) * v->mm_per_m > ds_lettering_width_mm(f->name, &how);
    if (wide && (high.y - low.y) * v->mm_per_m > 2 * how.size_mm) {
        ds_view_write(v, ds_view_x(v, m.x), ds_view_y(v, m.y), f->name, how);
    }
}

static void put_feature(ds_plan_view *const v, const size_t i)
{
    const ds_feature *const f = &v->map->scene.plan->features[i];
    const ds_outline *const shape = &v->map->scene.shapes[i];
    switch (f->kind) {
    case DS_PARTITION:
    case DS_SOLID_WALL:
    case DS_COLUMN:
        put_solid(v, i);
        break;
    case DS_SHOWER_OUTLET:
        put_outlet(v, f);
        break;
    case DS_DOOR:
        put_door(v, f);
        break;
    case DS_SLOPE:
        put_slope(v, f);
        break;
    case DS_OPENING:
    case DS_UNDER_BATH:
        break;
    case DS_RAISED_FLOOR:
        ds_view_outline(v, shape->at, shape->len);
        ds_sheet_draw(v->sheet, DS_PEN_HIDDEN, DS_FILL_NONE);
        break;
    default:
        ds_view_outline(v, shape->at, shape->len);
        ds_sheet_draw(v->sheet, DS_PEN_FEATURE, DS_FILL_NONE);
        if (f->kind == DS_BATH || f->kind == DS_SHOWER_BASIN || f->kind == DS_WASHBASIN) {
            put_inner(v, shape);
        }
        break;
    }
    put_name(v, i);
}

void ds_view_features(ds_plan_view *const v)
{
    for (size_t i = 0; i < v->map->scene.plan->features_len; i++) {
        const ds_feature *const f = &v->map->scene.plan->features[i];
        ds_sheet_begin(v->sheet, DS_ROLE_FEATURE, f->id, f->name.len ? f->name : f->word);
        put_feature(v, i);
        ds_sheet_end(v->sheet);
    }
    put_wall_line(v);
}
