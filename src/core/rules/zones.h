/* SPDX-License-Identifier: MIT */
/*
 * The zone rules of a pack ("zones" in docs/packs.md): for one kind of place, which zone lies how far round what, from
 * which height to which, and what limits it. Data; geometry is zone's business.
 */
#ifndef DS_RULES_ZONES_H
#define DS_RULES_ZONES_H

#include "core/job/plan.h"
#include "core/rules/words.h"

/* What a height is counted from. */
typedef enum ds_level {
    DS_LEVEL_FLOOR,    /* the finished floor where people stand by the source */
    DS_LEVEL_BOTTOM,   /* the inside bottom of the vessel; the floor without one */
    DS_LEVEL_RIM,      /* the rim of the vessel or basin */
    DS_LEVEL_STANDING, /* the highest surface of a board or platform that people stand on */
    DS_LEVEL_CEILING,
    DS_LEVELS
} ds_level;

typedef struct ds_zone_rule {
    ds_str id, clause, because;
    ds_str doubt; /* what is not sure about its figures; empty: nothing */
    ds_source source;
    ds_str zone;
    uint32_t round; /* bit a ds_feature_kind */
    bool room;      /* the rest of the rooms, whatever stands in them */
    double reach_m; /* INFINITY for room */
    ds_level from, to;
    double from_m, to_m;   /* above the level */
    bool or_outlet;        /* up to the highest fixed outlet when that is higher */
    bool tool_frees_below; /* a space under the vessel that only a tool opens is not in this zone */
} ds_zone_rule;

/* Which partitions limit zones. */
typedef struct ds_partition_rule {
    bool to_zone_top;      /* at least as high as the zones reach */
    double least_height_m; /* otherwise at least this high */
    bool over_top;         /* the string may also go over its top or under it */
    bool swinging;         /* what is not fixed counts too */
    double floor_gap_m;    /* widest gap at the floor */
} ds_partition_rule;

typedef struct ds_zone_law {
    ds_str id, section;
    uint16_t place; /* word id of the kind of place */
    ds_partition_rule partition;
    const ds_zone_rule *rules; /* strictest first: the first that holds a place is its zone */
    size_t rules_len;
} ds_zone_law;

#endif
