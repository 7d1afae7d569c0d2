/* SPDX-License-Identifier: MIT */
/*
 * The plan of a place as written down (docs/plan.md): rooms and what stands in them. Shape only; what the lines enclose
 * is zone's business.
 *
 * Metres; missing numbers are NAN. Everything lives in the job's arena.
 */
#ifndef DS_JOB_PLAN_H
#define DS_JOB_PLAN_H

#include "core/job/job.h"

typedef enum ds_feature_kind {
    DS_BATH,
    DS_SHOWER_BASIN,
    DS_SHOWER_OUTLET,
    DS_PARTITION,
    DS_SOLID_WALL,
    DS_COLUMN,
    DS_OPENING,
    DS_DOOR,
    DS_POOL,
    DS_FOUNTAIN,
    DS_BOARD,
    DS_CHUTE,
    DS_STARTING_BLOCK,
    DS_PLATFORM,
    DS_SAUNA_HEATER,
    DS_WASHBASIN,
    DS_WINDOW,
    DS_NICHE,
    DS_UNDER_BATH,
    DS_RAISED_FLOOR,
    DS_SLOPE,
    DS_FEATURE_KINDS
} ds_feature_kind;

/* "bath"; and the word back, DS_FEATURE_KINDS when it is none. */
const char *ds_feature_word(ds_feature_kind kind);
ds_feature_kind ds_feature_of(ds_str word);

/* Zones are measured from such a thing. */
bool ds_feature_is_wet(ds_feature_kind kind);

/* A corner of an outline; the edge that ends here is an arc through (through_x, through_y) unless that is NAN. */
typedef struct ds_plan_corner {
    double x, y, through_x, through_y;
} ds_plan_corner;

/* Corners, or a circle (radius_m not NAN). */
typedef struct ds_plan_outline {
    const ds_json *at; /* NULL: none given */
    const ds_plan_corner *corners;
    size_t len;
    double centre_m[2], radius_m;
} ds_plan_outline;

typedef struct ds_feature {
    const ds_json *at;
    ds_feature_kind kind;
    ds_str word, id, name, of;
    ds_plan_outline outline;
    double at_m[2], from_m[2], to_m[2];
    double height_m, thickness_m, gap_m, rim_m, bottom_m, top_m, sill_m, head_m, recess_m;
    double slope_m[3][3]; /* three places of a sloping ceiling */
    ds_tri basin, fixed, entered, tool;
} ds_feature;

typedef struct ds_plan {
    const ds_json *at;
    const ds_plan_outline *rooms;
    size_t rooms_len;
    double height_m, north_deg;
    const ds_feature *features;
    size_t features_len;
    bool broken; /* some of it was not understood: no zone may rest on it */
} ds_plan;

/* Larger plans are a problem. */
enum { DS_PLAN_FEATURES = 200, DS_PLAN_CORNERS = 500 };

#endif
