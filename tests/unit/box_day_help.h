/* SPDX-License-Identifier: MIT */
/* Boxes and days for the tests of the day model. The days and the year are invented; no station measured them. */
#ifndef BOX_DAY_HELP_H
#define BOX_DAY_HELP_H

#include "base_alloc.h"

#include <math.h>
#include <stdio.h>

#include "core/box/air.h"
#include "core/box/day.h"

enum { DAY = 24 };

/* --- weather ------------------------------------------------------------------------------------------------------ */

/* A hot still day, the night before and after it clear. */
static const double SUMMER_C[DAY] = {17,   16, 15, 14.5, 14, 14.5, 16, 18.5, 21, 23.5, 26, 28,
                                     29.5, 31, 32, 32.5, 32, 31,   29, 26.5, 24, 22,   20, 18.5};
static const double SUMMER_SUN[DAY] = {0,   0,   0,   0,   0,   60,  180, 330, 490, 640, 760, 840,
                                       870, 840, 760, 640, 490, 330, 180, 60,  0,   0,   0,   0};

/* A cold clear day with a short low sun. */
static const double WINTER_C[DAY] = {-2,  -2.5, -3, -3.5, -4,  -4.5, -5,   -5, -4.5, -3,   -1,   0.5,
                                     1.5, 2,    2,  1.5,  0.5, 0,    -0.5, -1, -1,   -1.5, -1.5, -2};
static const double WINTER_SUN[DAY] = {0,   0,   0,   0,   0,  0, 0, 0, 40, 120, 190, 230,
                                       240, 220, 170, 100, 30, 0, 0, 0, 0,  0,   0,   0};

typedef struct day_weather {
    ds_weather_hour hours[DAY];
} day_weather;

/* Vapour stays what it is at the lowest temperature and 95 %, so humidity falls as the day warms. */
static inline day_weather day_of(const double *const air_c, const double *const sun, const double dew_c,
                                 const double wind_m_s)
{
    day_weather day;
    for (int hour = 0; hour < DAY; hour++) {
        const double humidity = ds_air_weather_vapour_pa(dew_c, 1) / ds_air_weather_vapour_pa(air_c[hour], 1);
        day.hours[hour] = (ds_weather_hour){.air_c = air_c[hour],
                                            .humidity = fmin(humidity, 1),
                                            .sun_flat_w_m2 = sun[hour],
                                            .sun_wall_w_m2 = 0.6 * sun[hour],
                                            .wind_m_s = wind_m_s,
                                            .clear = 0.9};
    }
    return day;
}

static inline day_weather summer_day(void)
{
    return day_of(SUMMER_C, SUMMER_SUN, 13.5, 1);
}

static inline day_weather winter_day(void)
{
    return day_of(WINTER_C, WINTER_SUN, -5.5, 0.5);
}

/* The same temperature and humidity all day, calm, dark, overcast. */
static inline day_weather still_day(const double air_c, const double humidity)
{
    day_weather day;
    for (int hour = 0; hour < DAY; hour++) {
        day.hours[hour] = (ds_weather_hour){.air_c = air_c, .humidity = humidity};
    }
    return day;
}

/* --- boxes -------------------------------------------------------------------------------------------------------- */

/* 600 x 400 x 200 mm of grey painted sheet on a wall, 60 W, 40 l of free air, 6 kg of steel skin, 8 kg inside. */
static inline ds_day_box steel_box(void)
{
    ds_day_box box = DS_DAY_BOX_NOTHING;
    ds_heat_case c = DS_HEAT_CASE_NOTHING;
    c.width_mm = 400;
    c.height_mm = 600;
    c.depth_mm = 200;
    c.watts = 60;
    ds_heat_mount(&c, true, 0);
    const ds_heat_skin skin = {0.9, 0.9, 0.6, 0};
    ds_day_box_from(&box, &c, &skin);
    box.skin_j_k = 6 * 480;
    box.inside_j_k = 8 * 500;
    box.volume_m3 = 0.04;
    return box;
}

/* The same of plastic, breathing, without a load. */
static inline ds_day_box plastic_box(void)
{
    ds_day_box box = steel_box();
    box.wall_m2k_w = 0.015;
    box.skin_j_k = 5000;
    box.watts = 0;
    box.seal = DS_DAY_BREATHES;
    return box;
}

/* --- random ------------------------------------------------------------------------------------------------------- */

typedef struct day_random {
    uint64_t state;
} day_random;

static inline double day_share(day_random *const r)
{
    r->state = r->state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (double)(r->state >> 33) / (double)(UINT64_C(1) << 31);
}

static inline double day_between(day_random *const r, const double low, const double high)
{
    return low + (high - low) * day_share(r);
}

static inline ds_day_heater day_random_heater(day_random *const r)
{
    const ds_day_heater heaters[] = {
        {DS_DAY_NO_HEATER, 0, 0, 0},
        {DS_DAY_THERMOSTAT, day_between(r, 5, 30), day_between(r, 0, 20), 4},
        {DS_DAY_HYGROSTAT, day_between(r, 5, 30), day_between(r, 0.5, 0.8), 0.1}};
    return heaters[(int)(3 * day_share(r))];
}

/* Any box one may meet: 0.15 to 1.5 m, steel or plastic, dark or bright, idle or hot, each kind of seal and heater. */
static inline ds_day_box day_random_box(day_random *const r)
{
    ds_heat_case c = DS_HEAT_CASE_NOTHING;
    c.width_mm = day_between(r, 150, 1000);
    c.height_mm = day_between(r, 150, 1500);
    c.depth_mm = day_between(r, 100, 500);
    c.watts = day_share(r) < 0.3 ? 0 : day_between(r, 2, 100) * c.width_mm * c.height_mm / 4e5;
    ds_heat_mount(&c, day_share(r) < 0.7, (int)(3 * day_share(r)));
    const ds_heat_skin skin = {day_between(r, 0.1, 0.95), 0.9, day_between(r, 0.2, 0.95),
                               day_share(r) < 0.5 ? 0 : day_between(r, 0.005, 0.05)};
    ds_day_box box = DS_DAY_BOX_NOTHING;
    ds_day_box_from(&box, &c, &skin);
    box.volume_m3 = 0.7e-9 * c.width_mm * c.height_mm * c.depth_mm;
    box.skin_j_k = ds_heat_outside_m2(&c) * day_between(r, 2000, 12000);
    box.inside_j_k = box.volume_m3 * day_between(r, 2e4, 3e5);
    box.seal = (ds_day_seal)(3 * day_share(r));
    box.air_m3_h = box.volume_m3 * day_between(r, 0.1, 5);
    box.vapour_m3_h = day_between(r, 0, 0.002);
    box.closing_humidity = day_between(r, 0.3, 0.9);
    box.heater = day_random_heater(r);
    return box;
}

/* Days that drift, with clouds, wind and sun that jump from hour to hour. */
static inline void day_random_weather(day_random *const r, ds_weather_hour *const hours, const size_t count)
{
    const double base_c = day_between(r, -10, 25);
    double drift_k = 0;
    for (size_t hour = 0; hour < count; hour++) {
        const double of_day = sin(((double)(hour % DAY) - 6) * 3.14159265358979 / 12);
        const double sun = fmax(of_day, 0) * day_between(r, 100, 900);
        drift_k = 0.95 * drift_k + day_between(r, -1, 1);
        hours[hour] = (ds_weather_hour){.air_c = base_c + 5 * of_day + drift_k,
                                        .humidity = fmin(0.75 - 0.2 * of_day + day_between(r, 0, 0.2), 1),
                                        .sun_flat_w_m2 = sun,
                                        .sun_wall_w_m2 = 0.6 * sun,
                                        .wind_m_s = day_share(r) < 0.3 ? 0 : day_between(r, 0, 6),
                                        .clear = day_share(r)};
    }
}

#endif
