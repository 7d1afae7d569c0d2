/* SPDX-License-Identifier: MIT */
/* The section below the plan: cut along A-A; points are carried over from the whole room. */
#include "core/draw/measure.h"
#include "core/draw/plan.h"
#include "core/draw/plan_view.h"

#include <math.h>

enum { CROSSINGS = 256 };

/* Where the cut meets curves, from left to right. */
typedef struct crossings {
    double x[CROSSINGS];
    size_t len;
} crossings;

static void cross(crossings *const c, const double x)
{
    size_t i = c->len;
    if (c->len == CROSSINGS) {
        return;
    }
    for (; i > 0 && c->x[i - 1] > x; i--) {
        c->x[i] = c->x[i - 1];
    }
    c->x[i] = x;
    c->len++;
}

static void cross_curve(const ds_plan_view *const v, crossings *const c, const ds_curve *const curve)
{
    const ds_curve cut =
        v->cut_upright ? ds_segment((ds_vec){v->cut_m, v->low.y - 1}, (ds_vec){v->cut_m, v->high.y + 1})
                       : ds_segment((ds_vec){v->low.x - 1, v->cut_m}, (ds_vec){v->high.x + 1, v->cut_m});
    double at[2];
    const size_t found = ds_curve_meet(&cut, curve, at);
    for (size_t i = 0; i < found; i++) {
        cross(c, ds_view_along(v, ds_curve_point(&cut, at[i])));
    }
}

static ds_vec on_cut(const ds_plan_view *const v, const double along_m)
{
    return v->cut_upright ? (ds_vec){v->cut_m, along_m} : (ds_vec){along_m, v->cut_m};
}

static ds_vec between(const ds_plan_view *const v, const crossings *const c, const size_t i)
{
    return on_cut(v, (c->x[i] + c->x[i + 1]) / 2);
}

static void put_block(ds_plan_view *const v, const double x0, const double x1, const double z0,
                      const double z1, const ds_pen pen, const ds_fill fill)
{
    ds_sheet_rect(v->sheet, ds_view_u(v, x0), ds_view_z(v, z1), (x1 - x0) * v->mm_per_m,
                  (z1 - z0) * v->mm_per_m);
    ds_sheet_draw(v->sheet, pen, fill);
}

/* --- room --------------------------------------------------------------------------------------------------------- */

static double ceiling_at(const ds_plan_view *const v, const double x)
{
    return fmin(ds_scene_ceiling(&v->map->scene, on_cut(v, x)), v->tall_m);
}

/* The underside of the ceiling over an interval: straight, or with its slopes in small steps. */
static void put_air(ds_plan_view *const v, const double x0, const double x1)
{
    enum { STEPS = 60 };
    ds_sheet_move(v->sheet, ds_view_u(v, x0), ds_view_z(v, 0));
    for (int i = 0; i <= STEPS; i++) {
        const double x = x0 + (x1 - x0) * i / STEPS;
        ds_sheet_line(v->sheet, ds_view_u(v, x), ds_view_z(v, fmax(ceiling_at(v, x), 0)));
    }
    ds_sheet_line(v->sheet, ds_view_u(v, x1), ds_view_z(v, 0));
    ds_sheet_close(v->sheet);
}

static void put_room(ds_plan_view *const v)
{
    crossings c = {.len = 0};
    for (size_t i = 0; i < v->map->scene.rooms_len; i++) {
        for (size_t k = 0; k < v->map->scene.rooms[i].len; k++) {
            cross_curve(v, &c, &v->map->scene.rooms[i].at[k]);
        }
    }
    const double wall = 0.1;
    for (size_t i = 0; i + 1 < c.len; i++) {
        if (ds_scene_in_rooms(&v->map->scene, between(v, &c, i), 0)) {
            put_block(v, c.x[i] - wall, c.x[i + 1] + wall, -wall, v->tall_m + wall, DS_PEN_NONE,
                      DS_FILL_WALL);
        }
    }
    for (size_t i = 0; i + 1 < c.len; i++) {
        if (ds_scene_in_rooms(&v->map->scene, between(v, &c, i), 0)) {
            put_air(v, c.x[i], c.x[i + 1]);
            ds_sheet_draw(v->sheet, DS_PEN_WALL, DS_FILL_PAPER);
        }
    }
}

/* --- zones -------------------------------------------------------------------------------------------------------- */

static void put_number(ds_plan_view *const v, const ds_str word, const double x0, const double x1,
                       const double z0, const double z1)
{
    const double wide = (x1 - x0) * v->mm_per_m;
    const double tall = (z1 - z0) * v->mm_per_m;
    if (wide < 5 || tall < 3.5) {
        return;
    }
    const double size = tall < 8 || wide < 9 ? DS_TYPE_MM : DS_TYPE_HEAD_MM;
    ds_view_write(
        v, ds_view_u(v, (x0 + x1) / 2), ds_view_z(v, (z0 + z1) / 2), word,
        (ds_lettering){
            .size_mm = size, .bold = true, .halo = true, .centred = true, .anchor = DS_ANCHOR_MIDDLE});
}

/* What the cut shows of a zone: an interval of the cut, and heights. */
typedef struct piece {
    double x0, x1, z0, z1;
} piece;

enum { PIECES = 64 };

typedef struct pieces {
    piece at[PIECES];
    size_t len;
} pieces;

static void find_pieces(const ds_plan_view *const v, const ds_zone_part *const part, pieces *const out)
{
    crossings c = {.len = 0};
    for (size_t r = 0; r < part->region.rings_len; r++) {
        for (size_t k = 0; k < part->region.rings[r].len; k++) {
            cross_curve(v, &c, &part->region.rings[r].at[k]);
        }
    }
    const double z0 = fmax(part->from_m, -v->deep_m + 0.1);
    const double z1 = fmin(part->to_m, v->tall_m);
    for (size_t i = 0; i + 1 < c.len && out->len < PIECES; i++) {
        if (c.x[i + 1] - c.x[i] > 1e-3 && ds_region_encloses(&part->region, between(v, &c, i))) {
            out->at[out->len++] = (piece){c.x[i], c.x[i + 1], z0, z1};
        }
    }
}

enum { ROOF_STEPS = 24 };

static double roof(const ds_plan_view *const v, const piece *const p, const int step)
{
    const double x = p->x0 + (p->x1 - p->x0) * step / ROOF_STEPS;
    return fmax(fmin(p->z1, ceiling_at(v, x)), p->z0);
}

/* Under the ceiling, which may slope. */
static void put_hatch(ds_plan_view *const v, const ds_str word, const piece *const p)
{
    ds_sheet_move(v->sheet, ds_view_u(v, p->x0), ds_view_z(v, p->z0));
    for (int i = 0; i <= ROOF_STEPS; i++) {
        ds_sheet_line(v->sheet, ds_view_u(v, p->x0 + (p->x1 - p->x0) * i / ROOF_STEPS),
                      ds_view_z(v, roof(v, p, i)));
    }
    ds_sheet_line(v->sheet, ds_view_u(v, p->x1), ds_view_z(v, p->z0));
    ds_sheet_close(v->sheet);
    ds_sheet_draw(v->sheet, DS_PEN_NONE, ds_view_hatch(word));
}

/* The same zone goes on above, or below. */
static bool goes_on(const pieces *const all, const double x, const double z, const bool above)
{
    for (size_t i = 0; i < all->len; i++) {
        const piece *const p = &all->at[i];
        const double end = above ? p->z0 : p->z1;
        if (fabs(end - z) < 1e-6 && x > p->x0 && x < p->x1) {
            return true;
        }
    }
    return false;
}

/* Its edge, but for where the zone goes on on the other side. */
static void put_edge(ds_plan_view *const v, const pieces *const all, const piece *const p)
{
    for (int i = 0; i < ROOF_STEPS; i++) {
        const double x0 = p->x0 + (p->x1 - p->x0) * i / ROOF_STEPS;
        const double x1 = p->x0 + (p->x1 - p->x0) * (i + 1) / ROOF_STEPS;
        if (!goes_on(all, (x0 + x1) / 2, p->z1, true)) {
            ds_sheet_move(v->sheet, ds_view_u(v, x0), ds_view_z(v, roof(v, p, i)));
            ds_sheet_line(v->sheet, ds_view_u(v, x1), ds_view_z(v, roof(v, p, i + 1)));
        }
        if (!goes_on(all, (x0 + x1) / 2, p->z0, false)) {
            ds_sheet_move(v->sheet, ds_view_u(v, x0), ds_view_z(v, p->z0));
            ds_sheet_line(v->sheet, ds_view_u(v, x1), ds_view_z(v, p->z0));
        }
    }
    const double ends[] = {p->x0, p->x1};
    for (int i = 0; i < 2; i++) {
        ds_sheet_move(v->sheet, ds_view_u(v, ends[i]), ds_view_z(v, p->z0));
        ds_sheet_line(v->sheet, ds_view_u(v, ends[i]), ds_view_z(v, roof(v, p, i * ROOF_STEPS)));
    }
    ds_sheet_draw(v->sheet, DS_PEN_ZONE, DS_FILL_NONE);
}

/* Of the pieces above each other the one that has room for the number. */
static bool is_tallest(const pieces *const all, const size_t i)
{
    const piece *const own = &all->at[i];
    for (size_t k = 0; k < all->len; k++) {
        const piece *const other = &all->at[k];
        const bool stacked = other->x0 < own->x1 - 1e-6 && other->x1 > own->x0 + 1e-6;
        const double taller = (other->z1 - other->z0) - (own->z1 - own->z0);
        if (k != i && stacked && (taller > 1e-6 || (taller > -1e-6 && k < i))) {
            return false;
        }
    }
    return true;
}

static void put_zone(ds_plan_view *const v, const ds_zone_shape *const shape)
{
    pieces all = {.len = 0};
    for (size_t i = 0; i < shape->parts_len; i++) {
        find_pieces(v, &shape->parts[i], &all);
    }
    for (size_t i = 0; i < all.len; i++) {
        put_hatch(v, shape->word, &all.at[i]);
    }
    for (size_t i = 0; i < all.len; i++) {
        const piece *const p = &all.at[i];
        double lowest = p->z1;
        for (int k = 0; k <= ROOF_STEPS; k++) {
            lowest = fmin(lowest, roof(v, p, k));
        }
        put_edge(v, &all, p);
        if (is_tallest(&all, i)) {
            put_number(v, shape->word, p->x0, p->x1, p->z0, lowest);
        }
    }
}

/* A basin let into the floor: dug out of it. */
static void put_basins(ds_plan_view *const v)
{
    const ds_scene *const scene = &v->map->scene;
    for (size_t i = 0; i < scene->plan->features_len; i++) {
        const ds_feature *const f = &scene->plan->features[i];
        crossings c = {.len = 0};
        for (size_t k = 0; (f->kind == DS_POOL || f->kind == DS_FOUNTAIN) && k < scene->shapes[i].len; k++) {
            cross_curve(v, &c, &scene->shapes[i].at[k]);
        }
        const double bottom = isnan(f->bottom_m) ? -v->deep_m + 0.1 : f->bottom_m;
        for (size_t k = 0; k + 1 < c.len && bottom < 0; k++) {
            if (ds_outline_encloses(scene->shapes[i].at, scene->shapes[i].len, between(v, &c, k))) {
                put_block(v, c.x[k] - 0.1, c.x[k + 1] + 0.1, bottom - 0.1, 0, DS_PEN_NONE, DS_FILL_WALL);
                put_block(v, c.x[k], c.x[k + 1], bottom, 0, DS_PEN_WALL, DS_FILL_PAPER);
            }
        }
    }
}

/* --- what is cut -------------------------------------------------------------------------------------------------- */

static double top_of(const ds_plan_view *const v, const ds_feature *const f, const double x)
{
    const bool full = isnan(f->height_m) && f->kind != DS_PARTITION;
    const double height = f->kind == DS_BATH || f->kind == DS_SHOWER_BASIN ? f->rim_m : f->height_m;
    const double top = full && f->kind != DS_BATH && f->kind != DS_SHOWER_BASIN ? INFINITY : height;
    const double standing = isnan(f->top_m) ? top : f->top_m;
    return fmin(isnan(standing) ? 0 : standing, ceiling_at(v, x));
}

static bool is_solid(const ds_feature_kind kind)
{
    return kind == DS_PARTITION || kind == DS_SOLID_WALL || kind == DS_COLUMN;
}

static bool is_outlined(const ds_feature_kind kind)
{
    return kind == DS_BATH || kind == DS_SHOWER_BASIN || kind == DS_SAUNA_HEATER ||
           (kind >= DS_BOARD && kind <= DS_PLATFORM) || kind == DS_RAISED_FLOOR;
}

static void put_cut(ds_plan_view *const v)
{
    const ds_scene *const scene = &v->map->scene;
    for (size_t i = 0; i < scene->plan->features_len; i++) {
        const ds_feature *const f = &scene->plan->features[i];
        crossings c = {.len = 0};
        if (!is_solid(f->kind) && !is_outlined(f->kind)) {
            continue;
        }
        for (size_t k = 0; k < scene->shapes[i].len; k++) {
            cross_curve(v, &c, &scene->shapes[i].at[k]);
        }
        for (size_t k = 0; k + 1 < c.len; k++) {
            const ds_vec m = between(v, &c, k);
            if (!ds_outline_encloses(scene->shapes[i].at, scene->shapes[i].len, m)) {
                continue;
            }
            const double foot = isnan(f->gap_m) ? 0 : f->gap_m;
            const double top = top_of(v, f, ds_view_along(v, m));
            if (top > foot) {
                put_block(v, c.x[k], c.x[k + 1], foot, top, is_solid(f->kind) ? DS_PEN_WALL : DS_PEN_FEATURE,
                          is_solid(f->kind) ? DS_FILL_WALL : DS_FILL_NONE);
            }
        }
    }
    for (size_t i = 0; i < scene->plan->features_len; i++) {
        const ds_feature *const f = &scene->plan->features[i];
        if (f->kind == DS_SHOWER_OUTLET && !isnan(f->height_m)) {
            const double x = ds_view_u(v, ds_view_along(v, (ds_vec){f->at_m[0], f->at_m[1]}));
            const double y = ds_view_z(v, f->height_m);
            ds_sheet_circle(v->sheet, x, y, 1.4);
            ds_sheet_draw(v->sheet, DS_PEN_FEATURE, DS_FILL_PAPER);
        }
    }
}

/* --- measures ----------------------------------------------------------------------------------------------------- */

/* The heights at which zones end, the highest first, each once. */
static size_t zone_tops(const ds_plan_view *const v, double *const out, const size_t room)
{
    size_t len = 0;
    double below = INFINITY;
    while (len < room) {
        double next = -INFINITY;
        for (size_t i = 0; i < v->map->origins_len; i++) {
            const double z = v->map->origins[i].to_m;
            next = z < below - 1e-6 && z > next ? z : next;
        }
        if (!(next > 0.02)) {
            return len;
        }
        below = next;
        if (fabs(next - v->tall_m) > 1e-6 && isfinite(next)) {
            out[len++] = next;
        }
    }
    return len;
}

/* Beside the section; the room's own height on its other side. */
static void put_heights(ds_plan_view *const v)
{
    const double x = ds_view_u(v, ds_view_along(v, v->high));
    double tops[2];
    const size_t len = zone_tops(v, tops, sizeof tops / sizeof *tops);
    for (size_t i = 0; i < len; i++) {
        ds_measure_dimension(v->sheet, (ds_stretch){x, ds_view_z(v, 0), x, ds_view_z(v, tops[i])},
                             -8 - 6 * (double)i, ds_view_metres(v, tops[i]));
    }
    if (!isnan(v->map->scene.plan->height_m)) {
        const double left = v->section_left_mm;
        ds_measure_dimension(v->sheet, (ds_stretch){left, ds_view_z(v, 0), left, ds_view_z(v, v->tall_m)}, 9,
                             ds_view_metres(v, v->tall_m));
    }
}

void ds_view_section(ds_plan_view *const v)
{
    v->taken_len = 0;
    ds_sheet_begin(v->sheet, DS_ROLE_SECTION, DS_STR(""), DS_STR("Section A-A"));
    ds_sheet_write(v->sheet, v->section_left_mm, ds_view_z(v, v->tall_m) - 6.5, DS_STR("Section A–A"),
                   (ds_lettering){.size_mm = DS_TYPE_MM, .bold = true});
    put_room(v);
    put_basins(v);
    for (size_t zone = v->map->zones_len; zone-- > 0;) {
        ds_sheet_begin(v->sheet, DS_ROLE_ZONE, v->map->zones[zone].word, v->map->zones[zone].word);
        put_zone(v, &v->map->zones[zone]);
        ds_sheet_end(v->sheet);
    }
    put_cut(v);
    put_heights(v);
    ds_view_section_points(v);
    ds_sheet_end(v->sheet);
}
