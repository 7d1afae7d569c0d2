/* SPDX-License-Identifier: MIT */
/* Heat inside a box and the calculation behind it, as JSON (docs/findings.md). */
#include "core/assess/climate_json.h"

static void put_number(ds_json_writer *const w, const char *const key, const double value)
{
    ds_json_put_key(w, key);
    if (isnan(value)) {
        ds_json_put_null(w);
    } else {
        ds_json_put_number(w, value);
    }
}

static void put_heat(ds_json_writer *const w, const ds_climate *const climate)
{
    double low_c = NAN;
    double high_c = NAN;
    ds_climate_heat_c(climate, &low_c, &high_c);
    ds_json_put_key(w, "heat");
    ds_json_begin_object(w);
    ds_json_put_key(w, "verdict");
    ds_json_put_text(w, climate->heat_asked ? ds_verdict_word(climate->heat_verdict) : NULL);
    put_number(w, "low_c", low_c);
    put_number(w, "high_c", high_c);
    put_number(w, "limit_c", climate->limit_c);
    ds_json_end_object(w);
}

static void put_calculation(ds_json_writer *const w, const ds_trail *const trail)
{
    ds_text line;
    ds_text_init(&line, w->text->alloc);
    ds_json_put_key(w, "calculation");
    ds_json_begin_array(w);
    for (size_t i = 0; i < trail->len; i++) {
        ds_trail_say(&line, &trail->at[i]);
        ds_json_put_str(w, ds_text_str(&line));
        w->text->failed = w->text->failed || !ds_text_ok(&line);
        line.len = 0;
    }
    ds_json_end_array(w);
    ds_text_free(&line);
}

void ds_climate_json(ds_json_writer *const w, const ds_climate *const climate)
{
    if (climate && climate->heat_told) {
        put_heat(w, climate);
    }
    if (climate && climate->trail.len) {
        put_calculation(w, &climate->trail);
    }
}
