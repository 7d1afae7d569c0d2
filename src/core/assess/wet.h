/* SPDX-License-Identifier: MIT */
/*
 * Places whose zones follow from a plan: private to assess/, but for ds_wet, which findings hand on to drawings.
 *
 * Several packs may each have zones for such a place. The first one's are shown; for the rules those of all count.
 */
#ifndef DS_ASSESS_WET_H
#define DS_ASSESS_WET_H

#include "core/assess/point_facts.h"

/* Reads a place's plan into maps; what is wrong with it becomes a problem of the place. False when memory is short. */
bool ds_wet_of_place(ds_assessor *a, const ds_findings *findings, ds_place *place, int place_word,
                     ds_wet *out);

/*
 * Where a point stands, with facts for the zones of all packs: its zone, the distance from zone 1. NULL when no plan
 * tells; then *zone is left alone.
 */
const ds_zone_answer *ds_wet_locate(ds_assessor *a, const ds_wet *wet, ds_point *point, ds_facts *facts,
                                    ds_str *zone);

#endif
