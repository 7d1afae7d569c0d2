/* SPDX-License-Identifier: MIT */
/* Answers about zones in words. */
#include "core/zone/locate.h"

#include <math.h>

/* "the bath", "the shower outlet "Hand shower"". */
static void say_feature(ds_text *const out, const ds_zone_map *const map, const uint32_t feature)
{
    if (feature == UINT32_MAX) {
        ds_text_add(out, "the room");
        return;
    }
    const ds_feature *const f = &map->scene.plan->features[feature];
    ds_text_add(out, "the ");
    for (size_t i = 0; i < f->word.len; i++) {
        const char letter = f->word.at[i];
        ds_text_char(out, (char)(letter == '-' ? ' ' : letter));
    }
    const ds_str name = f->name.at ? f->name : f->id;
    if (name.at && !ds_str_eq(name, f->word)) {
        ds_text_add(out, " \"");
        ds_text_adds(out, name);
        ds_text_add(out, "\"");
    }
}

static void say_metres(ds_text *const out, const double metres)
{
    ds_text_number(out, metres, 3);
    ds_text_add(out, " m");
}

void ds_zone_say_way(ds_text *const out, const ds_zone_answer *const answer, const ds_zone_map *const map)
{
    if (!answer->rule) {
        return;
    }
    if (answer->above) {
        ds_text_add(out, "above the zones' top at ");
        say_metres(out, answer->top_m);
        return;
    }
    if (!isfinite(answer->limit_m)) {
        ds_text_add(out, "in the rest of the room");
        return;
    }
    if (answer->distance_m <= DS_TOUCH_M) {
        ds_text_add(out, "within ");
        say_feature(out, map, answer->feature);
        return;
    }
    say_metres(out, answer->distance_m);
    ds_text_add(out, answer->over           ? " over the partition from "
                     : answer->path_len > 2 ? " along the string from "
                                            : " from ");
    say_feature(out, map, answer->feature);
    if (answer->limit_m > 0) {
        ds_text_add(out, ", limit ");
        say_metres(out, answer->limit_m);
    }
}

void ds_zone_say_caution(ds_text *const out, const ds_zone_answer *const answer, const ds_zone_caution which)
{
    static const char *const SAY[DS_ZONE_CAUTIONS] = {
        [DS_ZONE_ON_LIMIT] = "On a limit: it counts to the stricter zone (convention)",
        [DS_ZONE_CORNER] =
            "At a corner: outside the round parallel surface, inside a square one (convention: round)",
        [DS_ZONE_STRADDLES] =
            "It reaches into a stricter zone than its middle: that zone counts (convention)",
        [DS_ZONE_LOW_SCREEN] =
            "A partition that is too low, open at the floor, not fixed, or of no stated height does not "
            "count; if it did, this would be another zone",
        [DS_ZONE_DOOR] =
            "A zone is taken to end at a door; through the open door this would be another zone, and "
            "inspectors differ",
        [DS_ZONE_HEIGHT_OPEN] =
            "The plan lacks a height that decides the zone: a rim, a bottom, an outlet or a standing "
            "surface",
        [DS_ZONE_STEP] = "Heights count from the raised floor where people stand beside the water "
                         "(convention); from the floor this would be another zone",
        [DS_ZONE_TRAYLESS] = "The outlet stands over no basin and was taken as a shower without one",
        [DS_ZONE_LET_IN] = "It is let into a wall: measured at the wall's face",
        [DS_ZONE_CEILING] = "It is above the ceiling, which ends the zones; its visible face below does not",
        [DS_ZONE_NEAR_DISTANCE] =
            "A wall or screen stands between it and zone 1: the straight line counts here, the "
            "string is not in the text",
    };
    if (which == DS_ZONE_DOUBT) {
        ds_text_add(out, "Not sure: ");
        ds_text_adds(out, answer->rule->doubt);
    } else {
        ds_text_add(out, SAY[which]);
    }
}

void ds_zone_say_measure(ds_text *const out, const ds_zone_answer *const answer, const ds_zone_map *const map)
{
    if (answer->measure == DS_ZONE_MEASURE_NOTHING) {
        return;
    }
    if (answer->measure == DS_ZONE_MEASURE_RIM) {
        ds_text_add(out, "measure the heights that the plan lacks: rim, bottom, outlet or standing surface");
        return;
    }
    ds_text_add(out, "measure ");
    if (answer->measure == DS_ZONE_MEASURE_DISTANCE) {
        ds_text_add(out, "its distance from ");
        say_feature(out, map, answer->feature);
    } else {
        ds_text_add(out, "its height above the floor");
    }
    ds_text_add(out, " to within ");
    /* Down, never up: what is asked for must be enough. */
    const double millimetres = floor(answer->within_m * 1000);
    if (millimetres >= 1) {
        ds_text_number(out, millimetres, 0);
        ds_text_add(out, " mm");
    } else {
        ds_text_add(out, "less than 1 mm, or take it for the stricter zone");
    }
}
