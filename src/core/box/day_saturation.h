/* SPDX-License-Identifier: MIT */
/*
 * Saturation of vapour, over ice below the triple point and over water above it, fast enough for a year of many boxes;
 * private to day*.c. The logarithm of the pressure is nearly straight over one over kelvin, so a polynomial of it through
 * the values of air.h is within 4e-7 of them from -90 to 200 C. The slope is that of the polynomial.
 */
#ifndef DS_BOX_DAY_SATURATION_H
#define DS_BOX_DAY_SATURATION_H

#include "core/box/air.h"
#include "core/box/day_lanes.h"

enum { DS_DAY_SATURATION_ORDER = 8 };

/* c[0] + c[1] x + …, with x = per (1/K - 1/middle) */
typedef struct ds_day_phase {
    double middle, per;
    double c[DS_DAY_SATURATION_ORDER];
} ds_day_phase;

/* Of water, and what is added to each number of it for ice: a choice between two addresses cannot be made in lanes. */
typedef struct ds_day_saturation {
    ds_day_phase water, ice_more;
} ds_day_saturation;

void ds_day_saturation_make(ds_day_saturation *out);

typedef struct ds_day_pressure {
    double pa;
    double by_k;
} ds_day_pressure;

DS_DAY_INLINE ds_day_pressure ds_day_saturation_of(const ds_day_saturation *const s, const double temp_c)
{
    const double ice = temp_c < DS_AIR_TRIPLE_C ? 1 : 0;
    const double per_k = 1 / (temp_c + DS_AIR_KELVIN);
    const double per = s->water.per + ice * s->ice_more.per;
    const double x = per * per_k - (s->water.middle + ice * s->ice_more.middle);
    double log_pa = 0;
    double slope = 0;
    for (int i = DS_DAY_SATURATION_ORDER - 1; i >= 0; i--) {
        slope = slope * x + log_pa;
        log_pa = log_pa * x + (s->water.c[i] + ice * s->ice_more.c[i]);
    }
    const double pa = ds_day_exp(log_pa);
    return (ds_day_pressure){pa, -pa * slope * per * per_k * per_k};
}

DS_DAY_INLINE double ds_day_saturation_pa(const ds_day_saturation *const s, const double temp_c)
{
    return ds_day_saturation_of(s, temp_c).pa;
}

#endif
