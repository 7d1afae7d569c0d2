/* SPDX-License-Identifier: MIT */
/*
 * Where a thing stands among the zones of a place: which zone, by which way, how sure.
 *
 * A thing is a box at a position, known to some tolerance. The strictest zone that any part of it reaches counts. When
 * the tolerance leaves several zones possible, the zone is not told; the answer says which they are, and how exactly
 * what has to be measured.
 */
#ifndef DS_ZONE_LOCATE_H
#define DS_ZONE_LOCATE_H

#include "core/base/text.h"
#include "core/zone/map.h"

typedef struct ds_zone_item {
    double at_m[3];     /* its middle */
    double size_m[3];   /* along x, along y, upwards; 0: a point */
    double tolerance_m; /* either way, 0: exact */
} ds_zone_item;

/* Conventions and doubts that the answer rests on; each is printed. */
typedef enum ds_zone_caution {
    DS_ZONE_ON_LIMIT,      /* within half a millimetre of a limit: the stricter zone */
    DS_ZONE_CORNER,        /* between the round corner and a square one */
    DS_ZONE_STRADDLES,     /* its middle alone would be in another zone */
    DS_ZONE_LOW_SCREEN,    /* a partition that does not count would make another zone */
    DS_ZONE_DOOR,          /* through the open door it would be in another zone */
    DS_ZONE_HEIGHT_OPEN,   /* a height is not stated, and decides */
    DS_ZONE_STEP,          /* heights count from a raised floor */
    DS_ZONE_TRAYLESS,      /* an outlet over no vessel was taken as a shower without tray */
    DS_ZONE_LET_IN,        /* it stands in the wall: taken at its face */
    DS_ZONE_CEILING,       /* above the ceiling */
    DS_ZONE_DOUBT,         /* the rule's own doubt */
    DS_ZONE_NEAR_DISTANCE, /* the straight line and the string to zone 1 differ by a wall in between */
    DS_ZONE_CAUTIONS
} ds_zone_caution;

typedef enum ds_zone_measure {
    DS_ZONE_MEASURE_NOTHING,
    DS_ZONE_MEASURE_DISTANCE, /* from `feature`, along the string */
    DS_ZONE_MEASURE_HEIGHT,   /* of the thing above the floor */
    DS_ZONE_MEASURE_RIM       /* the height that the plan lacks */
} ds_zone_measure;

enum { DS_ZONE_PATH = 16 };

typedef struct ds_zone_answer {
    size_t zone;              /* index; map->zones_len: outside; SIZE_MAX: cannot be told */
    uint8_t could_be;         /* bit an index; more than one only when zone is SIZE_MAX */
    const ds_zone_rule *rule; /* whose zone this is, or whose limit is passed; NULL: no way to any zone */
    uint32_t feature;         /* that it is measured from; UINT32_MAX: the room, or nothing */
    double distance_m;        /* along the string; INFINITY: no way */
    double limit_m;           /* reach of the rule; INFINITY: the room */
    ds_vec path[DS_ZONE_PATH];
    size_t path_len; /* 0: no way, or it stands in the source */
    bool over;       /* the string goes over the top of a partition, or under it */
    bool above;      /* outside because it is higher than the zone */
    double top_m;    /* upper end of the rule's zone */
    double
        zone1_m; /* level straight line to the nearest edge of zone 1; 0 inside; INFINITY: no zone 1 in reach */
    double zone1_string_m; /* the same along the string */
    double zone0_m;        /* as zone1_m, to zone 0 */
    ds_vec zone1_path[2];
    uint32_t cautions; /* bit a ds_zone_caution */
    ds_zone_measure measure;
    double within_m; /* measure it to within this */
} ds_zone_answer;

/* DS_BAD_INPUT: the thing does not stand in the room. Needs no memory. */
ds_status ds_zone_ask(ds_zone_answer *out, const ds_zone_map *map, const ds_zone_item *item);

/* Index of the strictest zone at a free place at height z; zones_len: outside. The quick question, for many places. */
size_t ds_zone_at(const ds_zone_map *map, ds_vec p, double z_m);

/* The zone's word: "1", "outside", "unknown". */
ds_str ds_zone_answer_word(const ds_zone_answer *answer, const ds_zone_map *map);

/* One sentence for a caution, without a full stop; and what to measure, empty when nothing. */
void ds_zone_say_caution(ds_text *out, const ds_zone_answer *answer, ds_zone_caution which);
void ds_zone_say_measure(ds_text *out, const ds_zone_answer *answer, const ds_zone_map *map);

/* "0.503 m along the string from the bath, limit 0.6 m"; empty when there is no way. */
void ds_zone_say_way(ds_text *out, const ds_zone_answer *answer, const ds_zone_map *map);

#endif
