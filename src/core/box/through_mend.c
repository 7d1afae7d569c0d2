/* SPDX-License-Identifier: MIT */
/* What would keep a box dry over its day: a heater, tried by running the day with it; a lid closed drier. */
#include "core/box/through.h"

#include "core/box/air.h"

#include <math.h>

#define USUAL_RISE_K 5.0

/* Of the usual heater: what is tried, least first. */
static const double TRIED[] = {0.5, 1, 1.5, 2, 3, 4, 6};

static bool is_dry_with(const ds_through *const day, const double watts)
{
    ds_day_box heated = day->cold_box;
    heated.watts += watts;
    const ds_day_ask ask = {.limit_c = NAN, .settle_days = DS_THROUGH_SETTLE_DAYS};
    ds_day_answer answer;
    const ds_day_fault fault = ds_day_run(&answer, &heated, day->hours, DS_DAY_DESIGN_HOURS, &ask);
    return fault.field == DS_DAY_OK && !(answer.wet_hours > 0) && !(answer.margin_k < DS_THROUGH_MARGIN_K);
}

static double heater_w(const ds_through *const day)
{
    for (size_t i = 0; i < sizeof TRIED / sizeof *TRIED; i++) {
        const double watts = ceil(day->five_k_w * TRIED[i]);
        if (is_dry_with(day, watts)) {
            return watts;
        }
    }
    return NAN;
}

/* Left on in the heat it would take the inside over its limit. */
static bool is_hot_with(const ds_through *const day, const double watts)
{
    ds_day_box heated = day->warm_box;
    heated.watts += watts;
    const ds_day_ask ask = {.limit_c = NAN, .settle_days = DS_THROUGH_SETTLE_DAYS};
    ds_day_answer answer;
    const ds_day_fault fault = ds_day_run(&answer, &heated, day->hours, DS_DAY_DESIGN_HOURS, &ask);
    const double doubt_k = DS_THROUGH_FILM_SHARE * fmax(answer.highest_c - day->peak_air_c, 0);
    return fault.field != DS_DAY_OK || answer.highest_c + doubt_k > day->limit_c;
}

/* The vapour whose dew point lies the margin below the coldest wall, as humidity at closing, in steps of 5 % down. */
static double closing_pct(const ds_through *const day)
{
    double least_pct = 100;
    for (size_t hour = 0; hour < DS_DAY_DESIGN_HOURS; hour++) {
        const ds_day_point *const at = &day->cold_curve[hour];
        const double most_pa = ds_air_saturation_pa(at->wall_c - DS_THROUGH_MARGIN_K);
        const double closing_k = day->cold_box.closing_c + DS_AIR_KELVIN;
        const double closed_pa = most_pa * closing_k / (at->inside_c + DS_AIR_KELVIN);
        least_pct = fmin(least_pct, 100 * closed_pa / ds_air_weather_vapour_pa(day->cold_box.closing_c, 1));
    }
    return 5 * floor(least_pct / 5);
}

void ds_through_mend(ds_through *const day)
{
    const bool sweats = day->cold.wet_hours > 0 || day->cold.margin_k < DS_THROUGH_MARGIN_K;
    if (!sweats) {
        return;
    }
    day->five_k_w = ds_air_heater_w(day->trade_w_m2k, day->heat.effective_m2, USUAL_RISE_K);
    day->heater_w = heater_w(day);
    day->heater_hot = !isnan(day->limit_c) && !isnan(day->heater_w) && is_hot_with(day, day->heater_w);
    if (day->cold_box.seal == DS_DAY_SEALED) {
        const double pct = closing_pct(day);
        day->closing_pct = pct > 0 ? pct : NAN;
    }
}
