/* SPDX-License-Identifier: MIT */
#include "core/assess/box_json.h"

#include "core/assess/finding_json.h"

#include <math.h>

static void put_number(ds_json_writer *const w, const char *const key, const double value)
{
    ds_json_put_key(w, key);
    if (isnan(value)) {
        ds_json_put_null(w);
    } else {
        ds_json_put_number(w, value);
    }
}

static double up(const double value, const double per)
{
    return ceil(value * per - 1e-6) / per;
}

static void put_weather(ds_json_writer *const w, const ds_through_over *const over)
{
    const bool solved = over->solved;
    const ds_day_answer *const warm = &over->warm;
    const ds_day_answer *const cold = &over->cold;
    ds_json_begin_object(w);
    put_number(w, "hours", (double)over->hours);
    put_number(w, "highest_c", solved ? up(warm->highest_c, 10) : NAN);
    put_number(w, "highest_hour", solved ? (double)warm->highest_hour : NAN);
    put_number(w, "limit_hours", solved ? up(warm->limit_hours, 10) : NAN);
    put_number(w, "wet_hours", solved ? up(cold->wet_hours, 10) : NAN);
    put_number(w, "most_g", solved ? up(cold->most_g, 1000) : NAN);
    put_number(w, "most_hour", solved ? (double)cold->most_hour : NAN);
    put_number(w, "margin_k", solved ? floor(cold->margin_k * 10 + 1e-6) / 10 : NAN);
    put_number(w, "drained_g", solved ? up(cold->drained_g, 10) : NAN);
    ds_json_end_object(w);
}

void ds_box_json(ds_text *const out, const ds_findings *const findings, const size_t point,
                 const ds_through_over *const weather)
{
    ds_finding_writer s = {.w = ds_json_writer_on(out), .findings = findings};
    ds_text_init(&s.line, out->alloc);
    ds_json_begin_object(&s.w);
    ds_json_put_key(&s.w, "point");
    ds_finding_json(&s, &findings->points[point]);
    ds_json_put_key(&s.w, "weather");
    if (weather) {
        put_weather(&s.w, weather);
    } else {
        ds_json_put_null(&s.w);
    }
    ds_json_end_object(&s.w);
    ds_text_char(out, '\n');
    ds_text_free(&s.line);
}
