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

/* In steps that neither go towards acceptance nor show the last digits of a search. */
static double down(const double value, const double per)
{
    return floor(value * per + 1e-6) / per;
}

static double up(const double value, const double per)
{
    return ceil(value * per - 1e-6) / per;
}

static void put_day(ds_json_writer *const w, const ds_through *const day)
{
    const bool solved = day->solved;
    ds_json_put_key(w, "day");
    ds_json_begin_object(w);
    ds_json_put_key(w, "verdict");
    ds_json_put_text(w, day->dry_asked ? ds_verdict_word(day->dry_verdict) : NULL);
    put_number(w, "low_c", solved ? down(day->peak_c.low, 10) : NAN);
    put_number(w, "highest_c", solved ? up(day->warm.highest_c, 10) : NAN);
    put_number(w, "high_c", solved ? up(day->peak_c.high, 10) : NAN);
    put_number(w, "highest_hour", solved ? (double)day->warm.highest_hour : NAN);
    put_number(w, "limit_hours", solved ? up(day->warm.limit_hours, 10) : NAN);
    put_number(w, "wet_hours", solved ? up(day->cold.wet_hours, 10) : NAN);
    put_number(w, "most_g", solved ? up(day->cold.most_g, 1000) : NAN);
    put_number(w, "most_hour", solved ? (double)day->cold.most_hour : NAN);
    put_number(w, "margin_k", solved ? down(day->cold.margin_k, 10) : NAN);
    ds_json_end_object(w);
}

static void put_str(ds_json_writer *const w, const char *const key, const ds_str value)
{
    ds_json_put_key(w, key);
    if (value.len) {
        ds_json_put_str(w, value);
    } else {
        ds_json_put_null(w);
    }
}

static void put_step(ds_json_writer *const w, const ds_trail_step *const step)
{
    ds_text result;
    ds_text_init(&result, w->text->alloc);
    ds_trail_say_result(&result, step);
    ds_json_begin_object(w);
    put_str(w, "what", step->what);
    put_str(w, "result", ds_text_str(&result));
    put_str(w, "formula", step->formula);
    put_str(w, "inputs", step->inputs);
    ds_json_put_key(w, "source");
    if (step->source.ref.len) {
        ds_json_begin_object(w);
        put_str(w, "kind", ds_str_of(ds_source_kind_word(step->source.kind)));
        put_str(w, "ref", step->source.ref);
        ds_json_end_object(w);
    } else {
        ds_json_put_null(w);
    }
    ds_json_end_object(w);
    w->text->failed = w->text->failed || !ds_text_ok(&result);
    ds_text_free(&result);
}

static void put_calculation(ds_json_writer *const w, const ds_trail *const trail)
{
    ds_json_put_key(w, "calculation");
    ds_json_begin_array(w);
    for (size_t i = 0; i < trail->len; i++) {
        put_step(w, &trail->at[i]);
    }
    ds_json_end_array(w);
}

void ds_climate_json(ds_json_writer *const w, const ds_climate *const climate)
{
    if (climate && climate->heat_told) {
        put_heat(w, climate);
    }
    if (climate && (climate->day.told || climate->day.dry_asked)) {
        put_day(w, &climate->day);
    }
    if (climate && climate->trail.len) {
        put_calculation(w, &climate->trail);
    }
}
