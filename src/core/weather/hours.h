/* SPDX-License-Identifier: MIT */
/*
 * Hourly weather from a table: a heading and a row an hour, for a day or a year of it.
 *
 *     ds_weather weather;
 *     if (ds_weather_read(&weather, source, &arena, &problem) == DS_OK) … weather.hours, weather.len
 *
 * Columns by their headings, in any order, others are passed over: air_c, humidity_pct, sun_flat_w_m2, sun_wall_w_m2,
 * wind_m_s, clear. All are needed: what is not known is no zero. Numbers are plain decimals, in the ranges of day.h. The
 * hours lie in the arena. DS_BAD_INPUT fills *problem, whose line and column are row and column of the cell (0: none).
 */
#ifndef DS_WEATHER_HOURS_H
#define DS_WEATHER_HOURS_H

#include "core/base/problem.h"
#include "core/box/day.h"

enum { DS_WEATHER_HOURS_MOST = 100000 };

typedef struct ds_weather {
    const ds_weather_hour *hours;
    size_t len;
} ds_weather;

ds_status ds_weather_read(ds_weather *out, ds_str source, ds_arena *arena, ds_problem *problem);

#endif
