/* SPDX-License-Identifier: MIT */
/* Which keys answer which obstacle. */
#include "core/assess/keys.h"

#include "core/assess/flooded.h"
#include "core/assess/missing.h"
#include "core/box/entry_say.h"

static void add(ds_keys *const out, const char *const key)
{
    for (size_t i = 0; i < out->len; i++) {
        if (ds_str_is(ds_str_of(out->at[i]), key)) {
            return;
        }
    }
    if (key && out->len < DS_KEYS_MOST) {
        out->at[out->len++] = key;
    }
}

void ds_keys_missing(ds_keys *const out, const ds_missing *const missing)
{
    out->len = 0;
    ds_lack fact;
    for (size_t at = 0; ds_missing_next(&at, missing, &fact);) {
        add(out, fact.key);
    }
}

static void of_facts(ds_keys *const out, const ds_finding *const finding)
{
    for (size_t i = 0; i < finding->reasons_len; i++) {
        const ds_reason *const reason = &finding->reasons[i];
        if (reason->decides && reason->truth == DS_MAYBE) {
            ds_keys_missing(out, &reason->missing);
            return;
        }
    }
}

static void of_heat(ds_keys *const out, const uint32_t bits)
{
    for (int i = 0; i < DS_HEAT_FIELDS; i++) {
        if (bits >> i & 1) {
            add(out, ds_heat_field_lack((ds_heat_field)i).key);
        }
    }
}

static void of_day(ds_keys *const out, const ds_through *const day)
{
    of_heat(out, day->heat_missing | day->heat_bad);
    for (int i = 0; i < DS_THROUGH_FIELDS; i++) {
        if (day->missing >> i & 1) {
            add(out, ds_through_field_lack((ds_through_field)i).key);
        }
    }
}

static void of_climate(ds_keys *const out, const ds_climate *const climate)
{
    if (climate->surface_unknown.len || climate->colour_unknown.len) {
        add(out, climate->surface_unknown.len ? "box.surface" : "box.colour");
        return;
    }
    of_heat(out, climate->heat.missing | climate->heat.bad);
    if (climate->day.told) {
        of_day(out, &climate->day);
    }
}

static void of_flood(ds_keys *const out, const ds_flood_answer *const flood)
{
    for (int i = 0; i < DS_FLOOD_FIELDS; i++) {
        if ((flood->missing | flood->bad) >> i & 1) {
            add(out, ds_flood_field_lack((ds_flood_field)i).key);
        }
    }
}

static void of_conduit(ds_keys *const out, const ds_finding *const finding)
{
    const ds_part *const part = ds_flooded_part(finding);
    if (part && part->entry->led_in == DS_LED_IN_MISSING) {
        add(out, "led_in");
    }
}

static void of_zone(ds_keys *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    const bool planned = finding->place && findings->wet[finding->place - findings->job->places].len;
    add(out, planned ? "at_m" : "zone_stated");
}

void ds_keys_of(ds_keys *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    out->len = 0;
    switch (finding->obstacle) {
    case DS_OBSTACLE_NO_RULES:
        add(out, "rules");
        break;
    case DS_OBSTACLE_UNANSWERED:
        add(out, "seen");
        add(out, "absent");
        break;
    case DS_OBSTACLE_STATE:
        add(out, "states");
        break;
    case DS_OBSTACLE_ZONE:
        of_zone(out, findings, finding);
        break;
    case DS_OBSTACLE_FACT:
        of_facts(out, finding);
        break;
    case DS_OBSTACLE_ENTRY:
        add(out, ds_part_key(finding->installed, ds_finding_part(finding), finding->needed));
        break;
    case DS_OBSTACLE_HEAT:
        of_climate(out, finding->climate);
        break;
    case DS_OBSTACLE_SWEAT:
        of_day(out, &finding->climate->day);
        break;
    case DS_OBSTACLE_FLOOD:
        of_flood(out, &finding->climate->flood);
        of_conduit(out, finding);
        break;
    default:
        break;
    }
}
