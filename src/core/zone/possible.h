/* SPDX-License-Identifier: MIT */
/*
 * Which zones a thing may be in, its tolerance and all: private to zone/.
 *
 * A zone counts as possible up to DS_ON_LIMIT_M beyond its limit, so that rounding never goes towards acceptance.
 */
#ifndef DS_ZONE_POSSIBLE_H
#define DS_ZONE_POSSIBLE_H

#include "core/zone/nearest.h"

/* A figure this near to a limit is on it: half the last digit that anybody measures. */
#define DS_ON_LIMIT_M 5e-4

/* The value of the nearest way; within an outline less its depth there, which is what must be moved to leave it. */
double ds_nearest_margin(const ds_nearest *n);

/* Bit an index, zones_len for outside; of the zones that a thing of no tolerance may be in only the strictest. */
uint8_t ds_zones_possible(const ds_asker *a);

#endif
