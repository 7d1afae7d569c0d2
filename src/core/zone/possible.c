/* SPDX-License-Identifier: MIT */
#include "core/zone/possible.h"

#include <math.h>

double ds_nearest_margin(const ds_nearest *const n)
{
    if (n->way.source == UINT32_MAX) {
        return INFINITY;
    }
    const ds_outline *const outline = &n->field->sources[n->way.source].outline;
    const bool inside = outline->at && n->way.length_m <= 0;
    return inside ? n->way.value - ds_outline_distance(outline->at, outline->len, n->at) : n->way.value;
}

/* Some part of it stays within reach, or within the outline, wherever it is moved at these heights. */
static bool surely_within(const ds_asker *const a, const size_t zone, const double z0, const double z1)
{
    const double inset = z1 - z0 > 4 * DS_TOUCH_M ? 2 * DS_TOUCH_M : 0;
    const ds_nearest n = ds_nearest_way(a, zone, z0 + inset, z1 - inset);
    return ds_nearest_margin(&n) <= -a->tolerance_m + DS_TOUCH_M;
}

/*
 * Wherever the tolerance moves it up or down, some part of it stands at heights where the zone surely holds it: no gap
 * between those is wider than it is high. Nothing stands below the floor.
 */
static bool surely(const ds_asker *const a, const size_t zone)
{
    const double low = fmax(a->z0 - a->tolerance_m, fmin(a->z0, 0));
    const double high = a->z1 + a->tolerance_m;
    const double gap = a->z1 - a->z0 + DS_TOUCH_M;
    double reached = low;
    for (size_t i = 0; i < a->map->bands_len; i++) {
        const ds_zone_band *const band = &a->map->bands[i];
        const double z0 = fmax(band->from_m, low);
        const double z1 = fmin(band->to_m, high);
        if (!band->fields[zone] || z1 < z0 - DS_TOUCH_M || !surely_within(a, zone, z0, z1)) {
            continue;
        }
        if (z0 - reached > gap) {
            return false;
        }
        reached = band->to_m;
    }
    return high - reached <= gap;
}

/* At some height that it may have, the stricter zone does not surely hold it. */
static bool not_stricter(const ds_asker *const a, const size_t zone, const double off)
{
    for (size_t i = 0; i < a->map->bands_len && zone > 0; i++) {
        const ds_zone_band *const band = &a->map->bands[i];
        const double z0 = fmax(band->from_m, a->z0 - off);
        const double z1 = fmin(band->to_m, a->z1 + off);
        if (band->fields[zone] && z0 <= z1 + DS_TOUCH_M &&
            !(band->fields[zone - 1] && surely_within(a, zone - 1, z0, z1))) {
            return true;
        }
    }
    return zone == 0;
}

/* Some part of the thing may be within the zone's reach, or on its limit. */
static bool maybe(const ds_asker *const a, const size_t zone)
{
    const double off = fmax(a->tolerance_m + 2 * DS_TOUCH_M, DS_ON_LIMIT_M);
    const ds_nearest n = ds_nearest_way(a, zone, a->z0 - off, a->z1 + off);
    return n.way.source != UINT32_MAX && n.way.value <= off &&
           (a->tolerance_m <= 0 || not_stricter(a, zone, off));
}

uint8_t ds_zones_possible(const ds_asker *const a)
{
    uint8_t bits = 0;
    for (size_t zone = 0; zone < a->map->zones_len; zone++) {
        if (maybe(a, zone)) {
            bits |= (uint8_t)(1U << zone);
            if (a->tolerance_m <= 0 || surely(a, zone)) {
                return bits;
            }
        }
    }
    return bits | (uint8_t)(1U << a->map->zones_len);
}
