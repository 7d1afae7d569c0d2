/* SPDX-License-Identifier: MIT */
/* Laws of the day model on random boxes and weather, hour by hour. */
#include "box_day_help.h"

enum { ROUNDS = 150, HOURS = 72 };

/* Twice what the steps leave open: a ten thousandth of a span of some 50 K. */
#define SLACK_K 0.01

static void run_curve(ds_day_point *const curve, const ds_day_box *const box,
                      const ds_weather_hour *const hours)
{
    const ds_day_ask ask = {NAN, 1, curve, 0};
    ds_day_answer answer;
    const ds_day_fault fault = ds_day_run(&answer, box, hours, HOURS, &ask);
    if (fault.field != DS_DAY_OK) {
        fail_msg("%s in hour %zu", ds_day_field_name(fault.field), fault.hour);
    }
}

static void assert_never_cooler(const ds_day_box *const cool, const ds_weather_hour *const cool_hours,
                                const ds_day_box *const warm, const ds_weather_hour *const warm_hours)
{
    ds_day_point a[HOURS];
    ds_day_point b[HOURS];
    run_curve(a, cool, cool_hours);
    run_curve(b, warm, warm_hours);
    for (int hour = 0; hour < HOURS; hour++) {
        if (!(b[hour].inside_c >= a[hour].inside_c - SLACK_K)) {
            fail_msg("hour %d: %.6f became %.6f", hour, a[hour].inside_c, b[hour].inside_c);
        }
    }
}

/* Not by humidity: there a warmer box is a drier one that may be heated less. */
static ds_day_box some_box(day_random *const r)
{
    ds_day_box box = day_random_box(r);
    if (box.heater.control == DS_DAY_HYGROSTAT) {
        box.heater.control = DS_DAY_NO_HEATER;
    }
    return box;
}

static void more_watts_are_never_cooler(void **state)
{
    (void)state;
    day_random r = {11};
    for (int i = 0; i < ROUNDS; i++) {
        ds_weather_hour hours[HOURS];
        const ds_day_box box = some_box(&r);
        day_random_weather(&r, hours, HOURS);
        ds_day_box more = box;
        more.watts += day_between(&r, 0, 30);
        assert_never_cooler(&box, hours, &more, hours);
    }
}

/* Of any control, against the same box without one. */
static void a_heater_is_never_colder(void **state)
{
    (void)state;
    day_random r = {12};
    for (int i = 0; i < ROUNDS; i++) {
        ds_weather_hour hours[HOURS];
        const ds_day_box heated = day_random_box(&r);
        day_random_weather(&r, hours, HOURS);
        ds_day_box without = heated;
        without.heater.control = DS_DAY_NO_HEATER;
        assert_never_cooler(&without, hours, &heated, hours);
    }
}

static void shade_is_never_warmer(void **state)
{
    (void)state;
    day_random r = {13};
    for (int i = 0; i < ROUNDS; i++) {
        ds_weather_hour sunny[HOURS];
        ds_weather_hour shaded[HOURS];
        const ds_day_box box = some_box(&r);
        day_random_weather(&r, sunny, HOURS);
        const double share = day_share(&r);
        for (int hour = 0; hour < HOURS; hour++) {
            shaded[hour] = sunny[hour];
            shaded[hour].sun_flat_w_m2 *= share;
            shaded[hour].sun_wall_w_m2 *= share;
        }
        assert_never_cooler(&box, shaded, &box, sunny);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(more_watts_are_never_cooler),
        cmocka_unit_test(a_heater_is_never_colder),
        cmocka_unit_test(shade_is_never_warmer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
