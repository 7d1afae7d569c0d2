/* SPDX-License-Identifier: MIT */
#include "core/box/day_design.h"

#include "core/box/air.h"

#include <math.h>

#define PI 3.14159265358979323846

enum { SUNRISE_HOUR = 6, DAYLIGHT_HOURS = 12 };

/* 0 at the coldest hour, 1 at the warmest. */
static double warmth(const int hour)
{
    const int rise = DS_DAY_WARMEST_HOUR - DS_DAY_COLDEST_HOUR;
    const int since = (hour - DS_DAY_COLDEST_HOUR + DS_DAY_DESIGN_HOURS) % DS_DAY_DESIGN_HOURS;
    const double way =
        since <= rise ? (double)since / rise : 1 + (double)(since - rise) / (DS_DAY_DESIGN_HOURS - rise);
    return (1 - cos(PI * way)) / 2;
}

void ds_day_design_hours(ds_weather_hour out[DS_DAY_DESIGN_HOURS], const ds_day_design *const design)
{
    const double vapour_pa = ds_air_weather_vapour_pa(design->low_c, design->humidity);
    for (int hour = 0; hour < DS_DAY_DESIGN_HOURS; hour++) {
        const double air_c = design->low_c + (design->high_c - design->low_c) * warmth(hour);
        const double height = sin(PI * (hour - SUNRISE_HOUR) / DAYLIGHT_HOURS);
        const double sun = height > 1e-9 ? height : 0;
        const double humidity = vapour_pa / ds_air_weather_vapour_pa(air_c, 1);
        out[hour] = (ds_weather_hour){.air_c = air_c,
                                      .humidity = humidity > 1 ? 1 : humidity,
                                      .sun_flat_w_m2 = design->sun_flat_w_m2 * sun,
                                      .sun_wall_w_m2 = design->sun_wall_w_m2 * sun,
                                      .wind_m_s = design->wind_m_s,
                                      .clear = design->clear};
    }
}
