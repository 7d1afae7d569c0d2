/* SPDX-License-Identifier: MIT */
/* What the parts of a plan sheet share: private to draw/. */
#ifndef DS_DRAW_PLAN_VIEW_H
#define DS_DRAW_PLAN_VIEW_H

#include "core/assess/assess.h"
#include "core/draw/callout.h"
#include "core/draw/sheet.h"

enum { DS_VIEW_LABELS = 64 };

/* One place, and how metres come to millimetres on the sheet: plan and section share x. */
typedef struct ds_plan_view {
    ds_sheet *sheet;
    const ds_findings *findings;
    const ds_zone_map *map;
    ds_arena *arena;
    const ds_finding **points; /* of the place, with a position; the ring's number is the index + 1 */
    size_t points_len;
    unsigned scale;
    double mm_per_m;
    ds_vec low, high;       /* of all rooms, metres */
    double left_mm, top_mm; /* on the sheet: low.x and high.y */
    double floor_mm;        /* on the sheet: z = 0 of the section */
    double deep_m, tall_m;  /* what the section shows: below and above the floor */
    bool
        cut_upright; /* the section is cut along y, seen from the right; otherwise along x, seen from below */
    double cut_m;    /* at this x, or y */
    double section_left_mm;         /* on the sheet: the left end of what is cut */
    ds_patch taken[DS_VIEW_LABELS]; /* lettering that callouts keep clear of */
    size_t taken_len;
} ds_plan_view;

static inline double ds_view_x(const ds_plan_view *const v, const double x_m)
{
    return v->left_mm + (x_m - v->low.x) * v->mm_per_m;
}

static inline double ds_view_y(const ds_plan_view *const v, const double y_m)
{
    return v->top_mm + (v->high.y - y_m) * v->mm_per_m;
}

/* Along the cut. */
static inline double ds_view_along(const ds_plan_view *const v, const ds_vec p)
{
    return v->cut_upright ? p.y : p.x;
}

static inline double ds_view_u(const ds_plan_view *const v, const double along_m)
{
    return v->section_left_mm + (along_m - ds_view_along(v, v->low)) * v->mm_per_m;
}

static inline double ds_view_z(const ds_plan_view *const v, const double z_m)
{
    return v->floor_mm - z_m * v->mm_per_m;
}

/* The hatch of a zone by its word. */
ds_fill ds_view_hatch(ds_str zone);

/* Writes and remembers the paper that it takes. */
void ds_view_write(ds_plan_view *v, double x_mm, double y_mm, ds_str text, ds_lettering how);

/* "0.60 m" in the arena. */
ds_str ds_view_metres(ds_plan_view *v, double metres);

/* True when this zone's shape is in the plan the same as that of the stricter one before it. */
bool ds_view_same_footprint(const ds_zone_map *map, size_t zone);

/* The part of a zone that its plan shows: the largest. NULL when it has none. */
const ds_zone_part *ds_view_part(const ds_zone_map *map, size_t zone);

/* An outline into the sheet's path, as plan. */
void ds_view_outline(ds_plan_view *v, const ds_curve *curves, size_t len);

void ds_view_plan(ds_plan_view *v);
void ds_view_section(ds_plan_view *v);

/* Parts of the plan. */
void ds_view_rooms(ds_plan_view *v);
void ds_view_features(ds_plan_view *v);
void ds_view_points(ds_plan_view *v);

/* The same in the section. */
void ds_view_section_points(ds_plan_view *v);

#endif
