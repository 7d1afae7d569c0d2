/* SPDX-License-Identifier: MIT */
/*
 * No test but a helper of one: three boxes through a series of hours, for tests/oracle/year_oracle.mjs.
 *
 *     in:  AIR_C HUMIDITY SUN_FLAT SUN_WALL WIND_M_S CLEAR \n    an hour a line, in the ranges of day.h
 *     out: a line of JSON a box
 *
 * `beside` is how far the program's inside lies from the slow integration of box_day_true.h at most, over its span, for
 * BESIDE_HOURS at the beginning of each quarter of the series.
 */
#include "unit/box_day_true.h"

enum { MOST_HOURS = 8784, BESIDE_HOURS = 48, QUARTERS = 4 };

static ds_weather_hour hours[MOST_HOURS];

static size_t read_hours(void)
{
    size_t count = 0;
    ds_weather_hour h;
    while (count < MOST_HOURS && scanf("%lf %lf %lf %lf %lf %lf", &h.air_c, &h.humidity, &h.sun_flat_w_m2,
                                       &h.sun_wall_w_m2, &h.wind_m_s, &h.clear) == 6) {
        hours[count++] = h;
    }
    return count;
}

/* --- boxes -------------------------------------------------------------------------------------------------------- */

typedef struct named_box {
    const char *name;
    ds_day_box box;
} named_box;

static ds_day_box sealed_box(void)
{
    ds_day_box box = steel_box();
    box.watts = 0;
    box.inside_j_k = 20000;
    box.closing_humidity = 0.6;
    return box;
}

static ds_day_box breathing_box(void)
{
    ds_day_box box = sealed_box();
    box.seal = DS_DAY_BREATHES;
    box.watts = 60;
    box.drains = true;
    box.clings_g = 5;
    return box;
}

static ds_day_box vented_box(void)
{
    ds_day_box box = sealed_box();
    box.seal = DS_DAY_VENTED;
    box.air_m3_h = 0.1;
    box.vapour_m3_h = 0.002;
    box.heater = (ds_day_heater){DS_DAY_HYGROSTAT, 20, 0.7, 0.1};
    return box;
}

/* --- beside the slow integration ---------------------------------------------------------------------------------- */

static double apart(const ds_day_box *const box, const ds_weather_hour *const from)
{
    ds_day_point fast[BESIDE_HOURS];
    ds_day_point slow[BESIDE_HOURS];
    ds_day_answer answer;
    const ds_day_ask ask = {NAN, 0, fast, 0};
    if (ds_day_run(&answer, box, from, BESIDE_HOURS, &ask).field != DS_DAY_OK) {
        return INFINITY;
    }
    true_day(box, from, BESIDE_HOURS, slow, 1e-9);
    double low = INFINITY;
    double high = -INFINITY;
    double most = 0;
    for (int hour = 0; hour < BESIDE_HOURS; hour++) {
        low = fmin(low, slow[hour].inside_c);
        high = fmax(high, slow[hour].inside_c);
        most = fmax(most, fabs(fast[hour].inside_c - slow[hour].inside_c));
    }
    return most / (high - low);
}

static double beside(const ds_day_box *const box, const size_t count)
{
    double most = 0;
    for (size_t quarter = 0; quarter < QUARTERS; quarter++) {
        most = fmax(most, apart(box, hours + quarter * count / QUARTERS));
    }
    return most;
}

/* --- answers ------------------------------------------------------------------------------------------------------ */

static double coldest_c(const ds_day_point *const curve, const size_t count)
{
    double coldest = INFINITY;
    for (size_t i = 0; i < count; i++) {
        coldest = fmin(coldest, curve[i].wall_c);
    }
    return coldest;
}

static void answer_box(const named_box *const named, const size_t count)
{
    static ds_day_point curve[MOST_HOURS];
    const ds_day_ask ask = {.limit_c = 40, .settle_days = 3, .curve = curve};
    ds_day_answer a;
    const ds_day_fault fault = ds_day_run(&a, &named->box, hours, count, &ask);
    const ds_day_heat h = a.heat;
    printf(
        "{\"name\": \"%s\", \"fault\": \"%s\", \"highest\": %.6f, \"lowest\": %.6f, \"limit_hours\": %.3f, ",
        named->name, ds_day_field_name(fault.field), a.highest_c, a.lowest_c, a.limit_hours);
    printf(
        "\"wet_hours\": %.3f, \"most_g\": %.9f, \"drained_g\": %.6f, \"margin\": %.6f, \"coldest\": %.9f, ",
        a.wet_hours, a.most_g, a.drained_g, a.margin_k, coldest_c(curve, count));
    printf("\"litres\": %.6f, \"closing_c\": %.3f, \"closing_humidity\": %.3f, \"steps\": %zu, ",
           1000 * named->box.volume_m3, named->box.closing_c, named->box.closing_humidity, a.steps);
    printf("\"in_j\": %.17g, \"out_j\": %.17g, \"stored_j\": %.17g, \"heater_j\": %.17g, \"beside\": %.3e}\n",
           h.watts_j + h.heater_j + h.sun_j, h.sky_j + h.air_j + h.vent_j, h.stored_j, h.heater_j,
           beside(&named->box, count));
}

int main(void)
{
    const named_box boxes[] = {
        {"sealed", sealed_box()}, {"breathing", breathing_box()}, {"vented", vented_box()}};
    const size_t count = read_hours();
    if (count < QUARTERS * BESIDE_HOURS) {
        return 2;
    }
    for (size_t i = 0; i < sizeof boxes / sizeof *boxes; i++) {
        answer_box(&boxes[i], count);
    }
    return 0;
}
