/* SPDX-License-Identifier: MIT */
/* One point: all rules judged, the verdict and what stands in its way. Private to assess/. */
#ifndef DS_ASSESS_POINT_H
#define DS_ASSESS_POINT_H

#include "core/assess/judge.h"

/* What is the same for every point of a place. */
typedef struct ds_place_view {
    ds_situation situation;
    const ds_rule *asked; /* NULL: nothing */
    const ds_wet *wet;
} ds_place_view;

/* Room to collect the reasons of one point, as many as there are rules and two. */
typedef struct ds_bench {
    ds_reason *reasons;
    size_t len;
} ds_bench;

/* Fills the finding of one point. view is NULL when the point has no place. False when memory is short. */
bool ds_assess_point(ds_assessor *a, const ds_findings *findings, ds_point *point, const ds_place_view *view,
                     ds_bench *bench, ds_finding *out);

#endif
