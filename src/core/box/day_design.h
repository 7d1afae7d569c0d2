/* SPDX-License-Identifier: MIT */
/*
 * A design day: a few figures that a person can state, made into the hours that day.h runs through.
 *
 *     const ds_day_design design = {.low_c = 4, .high_c = 14, .humidity = 0.95, .sun_flat_w_m2 = 300, .clear = 1};
 *     ds_weather_hour hours[DS_DAY_DESIGN_HOURS];
 *     ds_day_design_hours(hours, &design);
 *
 * Coldest at 5 h, warmest at 15 h, half a cosine between them either way; the vapour of the coldest hour stays all day, so
 * humidity falls as the day warms; the sun is half a sine from 6 to 18 h. Wind and clearness stay what they are. All of
 * it common practice; real days are less even.
 */
#ifndef DS_BOX_DAY_DESIGN_H
#define DS_BOX_DAY_DESIGN_H

#include "core/box/day.h"

enum { DS_DAY_DESIGN_HOURS = 24, DS_DAY_COLDEST_HOUR = 5, DS_DAY_WARMEST_HOUR = 15 };

typedef struct ds_day_design {
    double low_c, high_c;                /* the lower first */
    double humidity;                     /* at the coldest hour, 0 to 1 */
    double sun_flat_w_m2, sun_wall_w_m2; /* at noon */
    double wind_m_s;
    double clear; /* 0 to 1 */
} ds_day_design;

/* What is not finite passes through, for ds_day_run to refuse. */
void ds_day_design_hours(ds_weather_hour out[DS_DAY_DESIGN_HOURS], const ds_day_design *design);

#endif
