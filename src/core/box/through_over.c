/* SPDX-License-Identifier: MIT */
/* A box through hours that were measured, in place of a design day. */
#include "core/box/through.h"

#include <math.h>

/* The day that the hours span: so that surface, colour and skin are asked for as a design day of them would. */
static ds_day_stated day_of(const ds_json *const at, const ds_weather_hour *const hours, const size_t count)
{
    ds_day_stated day = {.at = at, .low_c = INFINITY, .high_c = -INFINITY, .humidity_pct = 100, .clear = 1};
    for (size_t i = 0; i < count; i++) {
        day.humidity_pct = hours[i].air_c < day.low_c ? 100 * hours[i].humidity : day.humidity_pct;
        day.low_c = fmin(day.low_c, hours[i].air_c);
        day.high_c = fmax(day.high_c, hours[i].air_c);
        day.sun_flat_w_m2 = fmax(day.sun_flat_w_m2, hours[i].sun_flat_w_m2);
        day.sun_wall_w_m2 = fmax(day.sun_wall_w_m2, hours[i].sun_wall_w_m2);
    }
    return day;
}

void ds_through_over_solve(ds_through_over *const out, const ds_box *const box, const ds_heat_case *const c,
                           const bool outdoors, const ds_weather_hour *const hours, const size_t count)
{
    ds_box with_day = *box;
    with_day.day = day_of(box->at, hours, count);
    *out = (ds_through_over){.hours = count};
    ds_through_solve(&out->day, &with_day, c, outdoors);
    if (!out->day.solved) {
        return;
    }
    const ds_day_ask warm = {.limit_c = box->limit_c, .settle_days = DS_THROUGH_SETTLE_DAYS};
    const ds_day_ask cold = {.limit_c = NAN, .settle_days = DS_THROUGH_SETTLE_DAYS};
    out->fault = ds_day_run(&out->warm, &out->day.warm_box, hours, count, &warm);
    if (out->fault.field == DS_DAY_OK) {
        out->fault = ds_day_run(&out->cold, &out->day.cold_box, hours, count, &cold);
    }
    out->solved = out->fault.field == DS_DAY_OK;
}
