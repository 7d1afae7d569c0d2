/* SPDX-License-Identifier: MIT */
/*
 * Depths and times squeezed into 10 and 8 bits.
 *
 * Each scale is a few runs of equal steps, fine where the figures met in data sheets are fine, so that these
 * are exact and only odd ones are rounded. Values are first taken to the nearest millionth of the base unit:
 * 0.3 m must not turn into 29 cm because 0.3 has no exact binary form.
 */
#include "core/mark/immersion.h"

#include <math.h>

/* `count` codes for first, first + step, … in the base unit. */
typedef struct run {
    double first, step;
    unsigned count;
} run;

typedef struct scale {
    const run *runs;
    size_t len;
    unsigned beyond;
} scale;

enum { HOUR = 60, DAY = 24 * HOUR, WEEK = 7 * DAY };

/* Centimetres: to 5 m by 1 cm, to 50 m by 10 cm, to 122 m by 1 m. */
static const run DEPTH_CM[] = {{1, 1, 500}, {510, 10, 450}, {5100, 100, 72}};

/* Minutes to 63; 75, 90, 105; half hours to 8 h; hours to 63; days to 63; weeks to 63. */
static const run TIME_MIN[] = {{1, 1, 63},           {75, 15, 3},        {2 * HOUR, 30, 13},
                               {9 * HOUR, HOUR, 55}, {3 * DAY, DAY, 61}, {10 * WEEK, WEEK, 54}};

static const scale DEPTH = {DEPTH_CM, sizeof DEPTH_CM / sizeof *DEPTH_CM, DS_DEPTH_BEYOND};
static const scale TIME = {TIME_MIN, sizeof TIME_MIN / sizeof *TIME_MIN, DS_TIME_BEYOND};

static double last_of(const run *const r)
{
    return r->first + r->step * (r->count - 1);
}

static double tidy(const double value)
{
    const double nearest = floor(value + 0.5);
    return fabs(value - nearest) < 1e-6 ? nearest : value;
}

static unsigned round_down(const scale *const s, const double value)
{
    if (!(value > 0) || isinf(value)) {
        return 0;
    }
    const double units = tidy(value);
    unsigned code = 0;
    for (size_t i = 0; i < s->len && units >= s->runs[i].first; i++) {
        const run *const r = &s->runs[i];
        code += units >= last_of(r) ? r->count : 1 + (unsigned)((units - r->first) / r->step);
    }
    return code;
}

static double value_of(const scale *const s, const unsigned code)
{
    unsigned left = code;
    for (size_t i = 0; i < s->len && left; i++) {
        const run *const r = &s->runs[i];
        if (left <= r->count) {
            return r->first + r->step * (left - 1);
        }
        left -= r->count;
    }
    return left ? (double)INFINITY : 0;
}

static unsigned round_up(const scale *const s, const double value)
{
    if (!(value > 0)) {
        return 0;
    }
    if (isinf(value)) {
        return s->beyond;
    }
    const double units = tidy(value);
    const unsigned code = round_down(s, units);
    if (value_of(s, code) >= units) {
        return code;
    }
    return isinf(value_of(s, code + 1)) ? s->beyond : code + 1;
}

unsigned ds_depth_down(const double depth_m)
{
    return round_down(&DEPTH, depth_m * 100);
}

unsigned ds_depth_up(const double depth_m)
{
    return round_up(&DEPTH, depth_m * 100);
}

unsigned ds_time_down(const double minutes)
{
    return round_down(&TIME, minutes);
}

unsigned ds_time_up(const double minutes)
{
    return round_up(&TIME, minutes);
}

double ds_depth_of(const unsigned code)
{
    return value_of(&DEPTH, code) / 100;
}

double ds_time_of(const unsigned code)
{
    return value_of(&TIME, code);
}

void ds_depth_print(ds_text *const out, const double depth_m)
{
    if (isinf(depth_m)) {
        ds_text_add(out, "more than 122 m");
        return;
    }
    ds_text_number(out, depth_m, 2);
    ds_text_add(out, " m");
}

static bool is_whole(const double value, const double unit)
{
    return fmod(value, unit) == 0;
}

void ds_time_print(ds_text *const out, const double minutes)
{
    if (isinf(minutes)) {
        ds_text_add(out, "more than 63 weeks");
    } else if (minutes >= 10 * WEEK && is_whole(minutes, WEEK)) {
        ds_text_number(out, minutes / WEEK, 0);
        ds_text_add(out, " weeks");
    } else if (minutes >= 3 * DAY && is_whole(minutes, DAY)) {
        ds_text_number(out, minutes / DAY, 0);
        ds_text_add(out, " days");
    } else if (minutes >= HOUR && is_whole(minutes, HOUR)) {
        ds_text_number(out, minutes / HOUR, 0);
        ds_text_add(out, " h");
    } else {
        ds_text_number(out, minutes, 2);
        ds_text_add(out, " min");
    }
}
