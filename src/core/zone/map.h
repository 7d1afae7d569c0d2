/* SPDX-License-Identifier: MIT */
/*
 * The zones of a place: its plan and a pack's zone rules, made ready to be asked (locate.h) and drawn.
 *
 *     ds_zone_map map;
 *     ds_zone_fault fault;
 *     if (ds_zone_map_make(&map, place->plan, law, &arena, &fault) == DS_OK) …
 *     for (size_t i = 0; i < map.zones[1].parts_len; i++) … map.zones[1].parts[i].region, from_m, to_m
 *
 * Heights cut the room into bands in which nothing changes. In each band a zone is what lies within reach of its origins
 * and not within reach of a stricter zone's; neighbouring bands of one shape are joined to one part.
 *
 * What a plan leaves open (the height of a rim, whether a low screen counts, a door) is answered twice: the map itself
 * takes the stricter reading, and variants of it take the other. Where they differ, the answer says so.
 */
#ifndef DS_ZONE_MAP_H
#define DS_ZONE_MAP_H

#include "core/rules/zones.h"
#include "core/zone/region.h"
#include "core/zone/scene.h"

enum { DS_ZONES_MAX = 4, DS_ZONE_BANDS = 64, DS_ZONE_ORIGINS = 400 };

/* One rule at one feature. */
typedef struct ds_zone_origin {
    const ds_zone_rule *rule;
    ds_zone_source source; /* source.feature: index in the plan */
    uint32_t zone;
    double from_m, to_m;
} ds_zone_origin;

typedef struct ds_zone_part {
    double from_m, to_m; /* to_m INFINITY: no ceiling is stated */
    ds_region region;
} ds_zone_part;

typedef struct ds_zone_shape {
    ds_str word;
    ds_zone_part *parts;
    size_t parts_len;
} ds_zone_shape;

typedef struct ds_zone_band {
    double from_m, to_m;
    const ds_space *space;
    const ds_field
        *fields[DS_ZONES_MAX]; /* of this zone and all stricter ones together; NULL: nothing in this band */
    bool own[DS_ZONES_MAX];    /* the zone has an origin of its own in this band */
    bool freed;                /* some origin here is one of a space that only a tool opens */
} ds_zone_band;

/* Readings of what is open; the map itself has none of these. */
typedef enum ds_plan_reading {
    DS_PLAN_LOW,      /* unstated heights as small as they may be */
    DS_PLAN_SCREENED, /* partitions that do not count do */
    DS_PLAN_DOORS,    /* doors stand open */
    DS_PLAN_LEVEL,    /* heights count from the floor, whatever is raised beside the water */
    DS_PLAN_READINGS
} ds_plan_reading;

typedef struct ds_zone_map ds_zone_map;
struct ds_zone_map {
    const ds_zone_law *law;
    ds_scene scene;
    ds_zone_shape zones[DS_ZONES_MAX]; /* strictest first */
    size_t zones_len;
    ds_zone_origin *origins;
    size_t origins_len;
    ds_zone_band *bands; /* by height */
    size_t bands_len;
    double top_m; /* of the highest zone */
    /* NULL: the plan leaves nothing of this kind open */
    const ds_zone_map *variants[DS_PLAN_READINGS];
    bool open[DS_PLAN_READINGS];
    bool outlet_taken_as_trayless; /* an outlet over no vessel that does not say so */
};

/* DS_BAD_INPUT: *fault says what of the plan is wrong. Plan and law are borrowed; the rest lies in the arena. */
ds_status ds_zone_map_make(ds_zone_map *out, const ds_plan *plan, const ds_zone_law *law, ds_arena *arena,
                           ds_zone_fault *fault);

/* Index of a zone's word; zones_len when it has none. */
size_t ds_zone_index(const ds_zone_map *map, ds_str word);

#endif
