/* SPDX-License-Identifier: MIT */
/* The day model against closed forms, the steady calculation, and the slow integration of box_day_true.h. */
#include "box_day_true.h"

enum { SLOW_HOURS = 48, SLOW_BOXES = 30 };

static ds_day_answer run_of(const ds_day_box *const box, const day_weather *const day,
                            const unsigned settle_days, ds_day_point *const curve)
{
    const ds_day_ask ask = {NAN, settle_days, curve, 0};
    ds_day_answer answer;
    const ds_day_fault fault = ds_day_run(&answer, box, day->hours, DAY, &ask);
    if (fault.field != DS_DAY_OK) {
        fail_msg("%s in hour %zu", ds_day_field_name(fault.field), fault.hour);
    }
    return answer;
}

static void assert_close(const double got, const double want, const double within, const char *const what)
{
    if (!(fabs(got - want) <= within)) {
        fail_msg("%s: %.10g, wanted %.10g within %g", what, got, want, within);
    }
}

/* --- temperatures ------------------------------------------------------------------------------------------------- */

/* A metal and a plastic wall, calm and in the wind, warm and cold. */
static void constant_weather_comes_to_the_steady_temperature(void **state)
{
    (void)state;
    const double walls[] = {0, 0.03};
    const double winds[] = {0, 0.4, 6};
    const double airs[] = {-20, 35};
    for (int i = 0; i < 12; i++) {
        ds_heat_case c = DS_HEAT_CASE_NOTHING;
        c.width_mm = 400;
        c.height_mm = 700;
        c.depth_mm = 250;
        c.watts = 80;
        c.air_c = airs[i / 6];
        c.sun_flat_w_m2 = c.sun_wall_w_m2 = 0;
        c.wind_m_s = winds[i / 2 % 3];
        ds_heat_mount(&c, true, 1);
        const ds_heat_skin skin = {0.9, 0.9, 0.6, walls[i % 2]};
        ds_day_box box = steel_box();
        ds_day_box_from(&box, &c, &skin);
        day_weather day = still_day(c.air_c, 0.3);
        for (int hour = 0; hour < DAY; hour++) {
            day.hours[hour].wind_m_s = c.wind_m_s;
        }
        ds_heat_physics steady;
        ds_heat_physics_solve(&steady, &c, &skin);
        const ds_day_answer answer = run_of(&box, &day, 10, NULL);
        assert_close(answer.highest_c - c.air_c, steady.inside_k, 1e-4 * steady.inside_k, "steady rise");
        assert_close(answer.lowest_c, answer.highest_c, 1e-6, "constant");
    }
}

/* u' = M u + (0, P / Ci) from u = 0, by its two eigenvectors. */
static void a_load_that_begins_follows_the_analytic_response(void **state)
{
    (void)state;
    ds_day_box box = steel_box();
    box.outer_w_k = 4;
    box.inner_w_k = 7;
    const day_weather day = still_day(20, 0.5);
    ds_day_point curve[DAY];
    box.inside_j_k = 30000;
    run_of(&box, &day, 0, curve);
    const double a = -(box.outer_w_k + box.inner_w_k) / box.skin_j_k;
    const double b = box.inner_w_k / box.skin_j_k;
    const double c = box.inner_w_k / box.inside_j_k;
    const double root = sqrt((a + c) * (a + c) / 4 + b * c);
    const double slow = (a - c) / 2 + root;
    const double fast = (a - c) / 2 - root;
    const double skin_k = box.watts / box.outer_w_k;
    const double inside_k = skin_k + box.watts / box.inner_w_k;
    for (int hour = 0; hour < DAY; hour++) {
        /* inside: inside_k less a mix of both decays that starts at rest with the slope of the load */
        const double t = 3600.0 * hour;
        const double slope = box.watts / box.inside_j_k;
        const double of_fast = (slope + slow * inside_k) / (fast - slow);
        const double of_slow = -inside_k - of_fast;
        const double want = 20 + inside_k + of_slow * exp(slow * t) + of_fast * exp(fast * t);
        assert_close(curve[hour].inside_c, want, 1e-9 * inside_k, "step response");
    }
}

static void heat_in_is_heat_out_and_what_is_stored(void **state)
{
    (void)state;
    day_random r = {3};
    for (int i = 0; i < 60; i++) {
        const ds_day_box box = day_random_box(&r);
        day_weather day;
        day_random_weather(&r, day.hours, DAY);
        const ds_day_heat h = run_of(&box, &day, 1, NULL).heat;
        const double in = h.watts_j + h.heater_j + h.sun_j;
        const double rest = in - h.sky_j - h.air_j - h.vent_j - h.stored_j;
        const double turnover = in + h.sky_j + fabs(h.air_j) + fabs(h.vent_j) + fabs(h.stored_j);
        assert_close(rest, 0, 1e-9 * turnover, "energy balance");
    }
}

/* --- against the slow reference ----------------------------------------------------------------------------------- */

static double span_of(const ds_day_point *const curve)
{
    double low = INFINITY;
    double high = -INFINITY;
    for (int hour = 0; hour < SLOW_HOURS; hour++) {
        low = fmin(low, curve[hour].inside_c);
        high = fmax(high, curve[hour].inside_c);
    }
    return high - low;
}

static void random_boxes_follow_the_slow_reference(void **state)
{
    (void)state;
    day_random r = {7};
    double worst = 0;
    double worst_dew_k = 0;
    double worst_g = 0;
    for (int i = 0; i < SLOW_BOXES; i++) {
        ds_weather_hour hours[SLOW_HOURS];
        ds_day_point fast[SLOW_HOURS];
        ds_day_point slow[SLOW_HOURS];
        const ds_day_box box = day_random_box(&r);
        day_random_weather(&r, hours, SLOW_HOURS);
        const ds_day_ask ask = {NAN, 0, fast, 0};
        ds_day_answer answer;
        assert_int_equal(ds_day_run(&answer, &box, hours, SLOW_HOURS, &ask).field, DS_DAY_OK);
        const true_answer truth = true_day(&box, hours, SLOW_HOURS, slow, 1e-8);
        const double span = span_of(slow);
        for (int hour = 0; hour < SLOW_HOURS; hour++) {
            worst = fmax(worst, fabs(fast[hour].inside_c - slow[hour].inside_c) / span);
            worst_dew_k = fmax(worst_dew_k, fabs(fast[hour].dew_c - slow[hour].dew_c));
        }
        assert_close(answer.highest_c, truth.highest_c, 0.02, "highest");
        assert_close(answer.lowest_c, truth.lowest_c, 0.02, "lowest");
        worst_g = fmax(worst_g, fabs(truth.most_g - answer.most_g) / truth.most_water_g);
        assert_close(answer.heat.air_j, truth.air_j, 1e-4 * fabs(truth.air_j), "heat to the air");
    }
    print_message("inside %.1e of the span, dew point %.1e K, most on the wall %.1e of all water\n", worst,
                  worst_dew_k, worst_g);
    assert_close(worst, 0, 1e-4, "inside over its span");
    assert_close(worst_dew_k, 0, 0.01, "dew point");
    assert_close(worst_g, 0, 5e-3,
                 "water, which the program looks at once a step and the reference every minute");
}

/* --- moisture ----------------------------------------------------------------------------------------------------- */

/* Closed warm and moist, then cold: what the cold air cannot hold lies on the wall. */
static void a_sealed_box_sweats_what_its_air_cannot_hold(void **state)
{
    (void)state;
    const double colds[] = {5, -15};
    for (int i = 0; i < 2; i++) {
        ds_day_box box = steel_box();
        box.watts = 0;
        box.closing_c = 25;
        box.closing_humidity = 0.8;
        const day_weather day = still_day(colds[i], 0.5);
        const double held = 0.8 * ds_air_over_water_pa(25) / (461.5 * (25 + 273.15));
        const double stays = ds_air_saturation_pa(colds[i]) / (461.5 * (colds[i] + 273.15));
        const double want_g = 1000 * box.volume_m3 * (held - stays);
        const ds_day_answer answer = run_of(&box, &day, 0, NULL);
        assert_close(answer.most_g, want_g, 1e-5 * want_g, "water");
        assert_close(answer.wet_hours, DAY, 1e-9, "wet hours");
        assert_close(answer.margin_k, 0, 0, "margin");
        box.drains = true;
        box.clings_g = want_g / 4;
        assert_close(run_of(&box, &day, 0, NULL).drained_g, want_g * 3 / 4, 1e-5 * want_g, "drained");
    }
}

/* Dry, its pressure goes with the temperature, and the margin is at its least when it is coldest. */
static void a_dry_sealed_box_keeps_its_vapour(void **state)
{
    (void)state;
    ds_day_box box = plastic_box();
    box.seal = DS_DAY_SEALED;
    box.closing_humidity = 0.2;
    const day_weather day = summer_day();
    ds_day_point curve[DAY];
    const ds_day_answer answer = run_of(&box, &day, 2, curve);
    const double per_k = 0.2 * ds_air_over_water_pa(20) / (20 + 273.15);
    for (int hour = 0; hour < DAY; hour++) {
        const double want = ds_air_dew_point_c(per_k * (curve[hour].inside_c + 273.15));
        assert_close(curve[hour].dew_c, want, 1e-6, "dew point");
        assert_true(answer.margin_k <= curve[hour].wall_c - curve[hour].dew_c + 1e-9);
    }
    assert_close(answer.wet_hours, 0, 0, "wet hours");
}

/* e' = mu (eo - e) with eo going over evenly, solved hour by hour. */
static void a_vented_box_follows_the_air_outside(void **state)
{
    (void)state;
    ds_day_box box = steel_box();
    box.watts = 0;
    box.seal = DS_DAY_VENTED;
    box.air_m3_h = 0.3 * box.volume_m3;
    day_weather day = still_day(20, 0.3);
    for (int hour = 5; hour < DAY; hour++) {
        day.hours[hour].humidity = 0.8;
    }
    ds_day_point curve[DAY];
    run_of(&box, &day, 0, curve);
    const double full = ds_air_over_water_pa(20);
    double pa = 0.3 * full;
    for (int hour = 0; hour < DAY - 1; hour++) {
        assert_close(curve[hour].dew_c, ds_air_dew_point_c(pa), 1e-3, "dew point");
        const double rise = (day.hours[hour + 1].humidity - day.hours[hour].humidity) * full;
        const double behind = pa - day.hours[hour].humidity * full + rise / 0.3;
        pa = day.hours[hour + 1].humidity * full - rise / 0.3 + behind * exp(-0.3);
    }
}

/* Outside air of one vapour pressure is all that a dry breathing box ever draws. */
static void a_breathing_box_holds_the_air_that_it_draws(void **state)
{
    (void)state;
    ds_day_box box = plastic_box();
    double duty[DAY] = {0};
    for (int hour = 8; hour < 18; hour++) {
        duty[hour] = 1;
    }
    box.watts = 40;
    box.duty = duty;
    const day_weather day = still_day(15, 0.6);
    ds_day_point curve[DAY];
    const ds_day_answer answer = run_of(&box, &day, 1, curve);
    for (int hour = 0; hour < DAY; hour++) {
        assert_close(curve[hour].dew_c, ds_air_dew_point_c(0.6 * ds_air_over_water_pa(15)), 1e-3,
                     "dew point");
    }
    assert_true(answer.highest_c > 25);
    assert_close(answer.wet_hours, 0, 0, "wet hours");
}

/* --- bad input ---------------------------------------------------------------------------------------------------- */

static void assert_fault(const ds_day_box *const box, const ds_day_field want)
{
    const day_weather day = summer_day();
    const ds_day_ask ask = {NAN, 0, NULL, 0};
    ds_day_answer answer;
    const ds_day_fault fault = ds_day_run(&answer, box, day.hours, DAY, &ask);
    assert_string_equal(ds_day_field_name(fault.field), ds_day_field_name(want));
    assert_true(isnan(answer.highest_c) && isnan(answer.most_g));
}

#define WRONG(member, value, want)                                                                           \
    do {                                                                                                     \
        ds_day_box box = plastic_box();                                                                      \
        box.member = (value);                                                                                \
        assert_fault(&box, DS_DAY_##want);                                                                   \
    } while (0)

static void a_wrong_box_names_its_field(void **state)
{
    (void)state;
    WRONG(up.open_m2, -1, AREA);
    WRONG(side.open_m2, NAN, AREA);
    WRONG(height_m, 0, LENGTH);
    WRONG(plate_m, INFINITY, LENGTH);
    WRONG(emissivity, 1.1, SURFACE);
    WRONG(absorptance, NAN, SURFACE);
    WRONG(lit_m2, 100, LIT);
    WRONG(sky_up, 2, SKY);
    WRONG(wall_m2k_w, -1, WALL);
    WRONG(skin_j_k, 0, MASS);
    WRONG(inside_j_k, NAN, MASS);
    WRONG(volume_m3, 0, VOLUME);
    WRONG(watts, -1, WATTS);
    WRONG(outer_w_k, -1, CONDUCTANCE);
    WRONG(seal, DS_DAY_SEALS, SEAL);
    WRONG(vapour_m3_h, NAN, SEAL);
    WRONG(heater.control, DS_DAY_CONTROLS, HEATER);
    WRONG(watts, 1e5, RESULT);
}

static void assert_hour_fault(const ds_weather_hour *const hour, const ds_day_field want)
{
    day_weather day = summer_day();
    day.hours[7] = *hour;
    const ds_day_box box = plastic_box();
    const ds_day_ask ask = {NAN, 0, NULL, 0};
    ds_day_answer answer;
    const ds_day_fault fault = ds_day_run(&answer, &box, day.hours, DAY, &ask);
    assert_string_equal(ds_day_field_name(fault.field), ds_day_field_name(want));
    assert_int_equal(fault.hour, 7);
}

static void wrong_weather_and_asking_name_their_field(void **state)
{
    (void)state;
    assert_hour_fault(&(ds_weather_hour){61, 0.5, 0, 0, 0, 0}, DS_DAY_AIR);
    assert_hour_fault(&(ds_weather_hour){20, NAN, 0, 0, 0, 0}, DS_DAY_HUMIDITY);
    assert_hour_fault(&(ds_weather_hour){20, 0.5, 0, -1, 0, 0}, DS_DAY_SUN);
    assert_hour_fault(&(ds_weather_hour){20, 0.5, 0, 0, 61, 0}, DS_DAY_WIND);
    assert_hour_fault(&(ds_weather_hour){20, 0.5, 0, 0, 0, 1.5}, DS_DAY_CLEAR);
    const day_weather day = summer_day();
    const ds_day_box box = plastic_box();
    ds_day_answer answer;
    assert_int_equal(ds_day_run(&answer, &box, day.hours, 0, &(ds_day_ask){NAN, 0, NULL, 0}).field,
                     DS_DAY_HOURS);
    assert_int_equal(ds_day_run(&answer, &box, day.hours, DAY, &(ds_day_ask){INFINITY, 0, NULL, 0}).field,
                     DS_DAY_LIMIT);
    assert_int_equal(ds_day_run(&answer, &box, day.hours, DAY, &(ds_day_ask){NAN, 1001, NULL, 0}).field,
                     DS_DAY_SETTLE);
    assert_int_equal(ds_day_run(&answer, &box, day.hours, DAY, &(ds_day_ask){NAN, 0, NULL, -1}).field,
                     DS_DAY_TOLERANCE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(constant_weather_comes_to_the_steady_temperature),
        cmocka_unit_test(a_load_that_begins_follows_the_analytic_response),
        cmocka_unit_test(heat_in_is_heat_out_and_what_is_stored),
        cmocka_unit_test(random_boxes_follow_the_slow_reference),
        cmocka_unit_test(a_sealed_box_sweats_what_its_air_cannot_hold),
        cmocka_unit_test(a_dry_sealed_box_keeps_its_vapour),
        cmocka_unit_test(a_vented_box_follows_the_air_outside),
        cmocka_unit_test(a_breathing_box_holds_the_air_that_it_draws),
        cmocka_unit_test(a_wrong_box_names_its_field),
        cmocka_unit_test(wrong_weather_and_asking_name_their_field),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
