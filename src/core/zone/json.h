/* SPDX-License-Identifier: MIT */
/* Zones and answers about them as JSON (docs/plan.md). */
#ifndef DS_ZONE_JSON_H
#define DS_ZONE_JSON_H

#include "core/json/write.h"
#include "core/zone/locate.h"

/* The members of an answer, into an object that is open. */
void ds_zone_answer_json(ds_json_writer *w, const ds_zone_answer *answer, const ds_zone_map *map);

/* "zones": […], into an object that is open. */
void ds_zone_shapes_json(ds_json_writer *w, const ds_zone_map *map);

#endif
