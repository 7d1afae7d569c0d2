/* SPDX-License-Identifier: MIT */
/* Boxes side by side against each by itself, and the fast functions of the lanes against those they stand for. */
#include "box_day_help.h"
#include "core/box/day_saturation.h"

enum { BOXES = 45, HOURS = 48 };

static void assert_near(const double got, const double want, const double within, const char *const what)
{
    if (!(fabs(got - want) <= within)) {
        fail_msg("%s: %.10g, wanted %.10g within %g", what, got, want, within);
    }
}

/* --- fast functions ----------------------------------------------------------------------------------------------- */

static void powers_of_e(void **state)
{
    (void)state;
    for (double x = -699; x < 700; x += 0.037) {
        assert_near(ds_day_exp(x) / exp(x), 1, 1e-12, "exp");
    }
    assert_true(ds_day_exp(0) == 1);
    assert_true(ds_day_exp(-1e9) < 1e-300);
}

static void sixth_roots(void **state)
{
    (void)state;
    for (double x = 1e-12; x < 1e15; x *= 1.0037) {
        assert_near(ds_day_sixth(x) / pow(x, 1.0 / 6), 1, 1e-11, "sixth root");
    }
}

static void saturation_and_its_slope(void **state)
{
    (void)state;
    ds_day_saturation s;
    ds_day_saturation_make(&s);
    for (double temp_c = -90; temp_c < 195; temp_c += 0.0371) {
        const ds_day_pressure p = ds_day_saturation_of(&s, temp_c);
        const double want_pa = ds_air_saturation_pa(temp_c);
        assert_near(p.pa / want_pa, 1, 5e-7, "pressure");
        if (fabs(temp_c - DS_AIR_TRIPLE_C) > 0.1) {
            const double slope =
                (ds_air_saturation_pa(temp_c + 1e-3) - ds_air_saturation_pa(temp_c - 1e-3)) / 2e-3;
            assert_near(p.by_k / slope, 1, 1e-4, "slope");
        }
    }
}

/* --- side by side ------------------------------------------------------------------------------------------------- */

static ds_weather_hour hours[HOURS];
static ds_day_box boxes[BOXES];
static ds_day_answer answers[BOXES];
static ds_day_fault faults[BOXES];
static ds_day_point curves[BOXES * HOURS];

static void make_all(void)
{
    day_random r = {29};
    day_random_weather(&r, hours, HOURS);
    for (int i = 0; i < BOXES; i++) {
        boxes[i] = day_random_box(&r);
    }
}

static double span_of(const ds_day_point *const curve)
{
    double low = INFINITY;
    double high = -INFINITY;
    for (int hour = 0; hour < HOURS; hour++) {
        low = fmin(low, curve[hour].inside_c);
        high = fmax(high, curve[hour].inside_c);
    }
    return high - low;
}

/* Both within 1e-4 of the truth, so within twice that of each other; what a box holds and spends is its own. */
static void assert_as_alone(const int i)
{
    ds_day_point alone[HOURS];
    ds_day_answer answer;
    const ds_day_ask ask = {30, 1, alone, 0};
    assert_int_equal(ds_day_run(&answer, &boxes[i], hours, HOURS, &ask).field, DS_DAY_OK);
    const double span = span_of(alone);
    for (int hour = 0; hour < HOURS; hour++) {
        const ds_day_point *const got = &curves[i * HOURS + hour];
        assert_near(got->inside_c, alone[hour].inside_c, 2e-4 * span, "inside");
        assert_near(got->dew_c, alone[hour].dew_c, 0.02, "dew point");
    }
    assert_near(answers[i].highest_c, answer.highest_c, 0.05, "highest");
    assert_near(answers[i].limit_hours, answer.limit_hours, 0.05, "hours above the limit");
    assert_near(answers[i].wet_hours, answer.wet_hours, 0.1, "wet hours");
    assert_near(answers[i].heat.watts_j, answer.heat.watts_j, 1e-9 * answer.heat.watts_j, "watts");
    assert_near(answers[i].heat.sun_j, answer.heat.sun_j, 1e-9 * answer.heat.sun_j, "sun");
    assert_near(answers[i].heat.stored_j, answer.heat.stored_j,
                2e-4 * span * (boxes[i].skin_j_k + boxes[i].inside_j_k), "stored");
}

static void every_box_is_answered_as_if_alone(void **state)
{
    (void)state;
    make_all();
    boxes[7].duty = (const double[24]){[12] = 1};
    const ds_day_ask ask = {30, 1, curves, 0};
    ds_day_run_each(answers, faults, boxes, BOXES, hours, HOURS, &ask);
    for (int i = 0; i < BOXES; i++) {
        assert_int_equal(faults[i].field, DS_DAY_OK);
        assert_as_alone(i);
    }
}

/* One cannot be, one leaves the range; nobody else notices. */
static void a_faulty_box_does_not_touch_its_neighbours(void **state)
{
    (void)state;
    make_all();
    boxes[3].height_m = 0;
    boxes[10].watts = 1e5;
    const ds_day_ask ask = {30, 1, curves, 0};
    ds_day_run_each(answers, faults, boxes, BOXES, hours, HOURS, &ask);
    assert_int_equal(faults[3].field, DS_DAY_LENGTH);
    assert_int_equal(faults[10].field, DS_DAY_RESULT);
    assert_true(isnan(answers[3].highest_c));
    assert_true(isnan(answers[10].highest_c));
    for (int i = 0; i < BOXES; i++) {
        if (i != 3 && i != 10) {
            assert_int_equal(faults[i].field, DS_DAY_OK);
            assert_as_alone(i);
        }
    }
}

static void wrong_hours_are_every_boxs_fault(void **state)
{
    (void)state;
    make_all();
    hours[5].air_c = 99;
    const ds_day_ask ask = {NAN, 1, NULL, 0};
    ds_day_run_each(answers, faults, boxes, BOXES, hours, HOURS, &ask);
    for (int i = 0; i < BOXES; i++) {
        assert_int_equal(faults[i].field, DS_DAY_AIR);
        assert_int_equal(faults[i].hour, 5);
    }
    ds_day_run_each(answers, faults, boxes, 0, hours, HOURS, &ask);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(powers_of_e),
        cmocka_unit_test(sixth_roots),
        cmocka_unit_test(saturation_and_its_slope),
        cmocka_unit_test(every_box_is_answered_as_if_alone),
        cmocka_unit_test(a_faulty_box_does_not_touch_its_neighbours),
        cmocka_unit_test(wrong_hours_are_every_boxs_fault),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
