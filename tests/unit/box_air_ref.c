/* SPDX-License-Identifier: MIT */
/*
 * Moist air against published tables, against the short form by hand, and the closed forms of a shut, a breathing and a
 * vented box row by row. Rows called "calculated" were worked out with the short form (Magnus, 611.2 Pa, 17.62, 243.12 C);
 * it lies up to 0.31 % below the full one, and rows are rounded, so they are compared within 0.4 % and half a last digit.
 * 0.31 % of a vapour pressure is 0.05 K of its dew point (6 % a kelvin).
 */
#include "base_alloc.h"

#include <math.h>
#include <stdio.h>

#include "core/box/air.h"

/* The two forms apart, as above. */
#define FORMS_K 0.05
#define FORMS 0.004

#define COUNT(list) (sizeof(list) / sizeof *(list))

static void assert_near(const double got, const double want, const double within, const char *const what)
{
    if (!(fabs(got - want) <= within)) {
        fail_msg("%s: %.10g, wanted %.10g within %g", what, got, want, within);
    }
}

/* --- published tables --------------------------------------------------------------------------------------------- */

/* ASHRAE Handbook of Fundamentals 2017, chapter 1, table 3: saturation pressure over ice and water. */
static void saturation_is_that_of_the_table(void **state)
{
    (void)state;
    static const double ROWS[][2] = {{-60, 1.08},  {-20, 103.24}, {-5, 401.74},    {5, 872.6},
                                     {25, 3169.7}, {50, 12351.3}, {100, 101418.0}, {150, 476101.4}};
    for (size_t i = 0; i < COUNT(ROWS); i++) {
        const double want = ROWS[i][1];
        assert_near(ds_air_saturation_pa(ROWS[i][0]), want, fmax(3e-4 * want, 0.005), "saturation pressure");
    }
}

/* Same chapter, table 2 at 101,325 Pa; what real gases add (0.4 % at 25 C) is left out, and so below the table. */
static void mixing_ratio_is_that_of_the_table(void **state)
{
    (void)state;
    static const double ROWS[][2] = {{-50, 0.0000243}, {-20, 0.0006373}, {-5, 0.0024863}, {5, 0.005425},
                                     {25, 0.020173},   {50, 0.086863},   {85, 0.838105}};
    for (size_t i = 0; i < COUNT(ROWS); i++) {
        const double got = ds_air_mixing_ratio(ds_air_saturation_pa(ROWS[i][0]), DS_AIR_STANDARD_PA);
        const double want = ROWS[i][1];
        const double short_by = ROWS[i][0] > 60 ? 0.02 : 0.0065;
        assert_true(got <= want * 1.002 && got >= want * (1 - short_by));
    }
}

/* psychrolib's notes: 25 C and 80 % have a dew point of 21.3094 C. Calculated: the others. */
static void dew_points(void **state)
{
    (void)state;
    static const double ROWS[][3] = {{20, 0.5, 9.26}, {20, 0.6, 12.00},  {25, 0.5, 13.85}, {30, 0.7, 23.93},
                                     {10, 0.9, 8.43}, {15, 0.85, 12.50}, {35, 0.6, 26.07}};
    for (size_t i = 0; i < COUNT(ROWS); i++) {
        const double got = ds_air_dew_point_c(ds_air_vapour_pa(ROWS[i][0], ROWS[i][1]));
        assert_near(got, ROWS[i][2], FORMS_K, "dew point");
    }
    assert_near(ds_air_dew_point_c(ds_air_vapour_pa(25, 0.8)), 21.3094, 1e-3, "dew point of 25 C and 80 %");
}

/* How far a wall must fall below air of 10 C to be wet (calculated): clear skies do 3 to 5 K. */
static void drops_to_the_dew_point(void **state)
{
    (void)state;
    static const double ROWS[][2] = {{0.7, 5.2}, {0.8, 3.3}, {0.9, 1.6}, {0.95, 0.8}};
    for (size_t i = 0; i < COUNT(ROWS); i++) {
        assert_near(10 - ds_air_dew_point_c(ds_air_vapour_pa(10, ROWS[i][0])), ROWS[i][1], 0.05, "drop");
    }
    /* warming air of 95 % from 10 to 15 C leaves 68 % (calculated) */
    assert_near(ds_air_humidity(15, ds_air_vapour_pa(10, 0.95)), 0.68, 0.005, "warmed air");
}

/* Saturated vapour per cubic metre, g (calculated; supercooled water below 0 C). */
static void vapour_densities(void **state)
{
    (void)state;
    static const double ROWS[][2] = {{-10, 2.36}, {0, 4.85},   {5, 6.79},   {10, 9.38},  {15, 12.80},
                                     {20, 17.24}, {25, 22.97}, {30, 30.26}, {40, 50.98}, {50, 82.78}};
    for (size_t i = 0; i < COUNT(ROWS); i++) {
        const double got = 1000 * ds_air_vapour_kg_m3(ROWS[i][0], ds_air_over_water_pa(ROWS[i][0]));
        assert_near(got, ROWS[i][1], FORMS * ROWS[i][1], "vapour density");
    }
}

/* --- the forms among themselves ----------------------------------------------------------------------------------- */

static void short_form_stays_near_the_full_one(void **state)
{
    (void)state;
    assert_near(ds_air_magnus_pa(20), 611.2 * exp(17.62 * 20 / 263.12), 1e-9, "by hand");
    for (double c = 0; c <= 50; c += 0.25) {
        assert_near(ds_air_magnus_pa(c) / ds_air_over_water_pa(c), 1, 0.0031, "short form");
    }
    assert_near(ds_air_over_water_pa(-20), 125.97, 0.01, "supercooled water (calculated)");
}

static void ice_and_water_meet_at_the_triple_point(void **state)
{
    (void)state;
    const double water_pa = ds_air_over_water_pa(DS_AIR_TRIPLE_C);
    assert_near(ds_air_over_ice_pa(DS_AIR_TRIPLE_C) / water_pa, 1, 1e-4, "triple point");
    for (double c = -40; c < 0; c += 0.5) {
        assert_true(ds_air_over_ice_pa(c) < ds_air_over_water_pa(c));
    }
}

static void dew_point_undoes_saturation(void **state)
{
    (void)state;
    for (double c = -100; c <= 200; c += 0.0625) {
        assert_near(ds_air_dew_point_c(ds_air_saturation_pa(c)), c, 1e-8, "dew point of saturation");
    }
    for (double c = -99; c < 199; c += 0.5) {
        assert_true(ds_air_saturation_pa(c) < ds_air_saturation_pa(c + 0.5));
        assert_near(ds_air_humidity(c, ds_air_vapour_pa(c, 0.37)), 0.37, 1e-12, "humidity");
    }
}

/* --- air shut in a box -------------------------------------------------------------------------------------------- */

typedef struct sealed_row {
    double litres, closing_c, humidity, cold_c;
    double kg_m3, dew_c, shut_dew_c, grams;
} sealed_row;

/* Calculated, as V (rho(closing) - rho(cold)); first row 20 l x (10.34 - 5.56) g/m3 = 0.096 g. */
static void a_sealed_box_by_hand(void **state)
{
    (void)state;
    static const sealed_row ROWS[] = {{20, 20, 0.6, 2, 10.34, 12.00, 11.55, 0.096},
                                      {50, 25, 0.7, 5, 16.08, 19.15, 18.81, 0.464},
                                      {10, 30, 0.8, 10, 24.21, 26.17, 25.94, 0.148},
                                      {5, 20, 0.4, 0, 6.90, 5.98, 5.23, 0.010}};
    for (size_t i = 0; i < COUNT(ROWS); i++) {
        const sealed_row *const r = &ROWS[i];
        const double pa = ds_air_vapour_pa(r->closing_c, r->humidity);
        assert_near(1000 * ds_air_vapour_kg_m3(r->closing_c, pa), r->kg_m3, FORMS * r->kg_m3, "shut in");
        assert_near(ds_air_dew_point_c(pa), r->dew_c, FORMS_K, "dew point at closing");
        assert_near(ds_air_shut_dew_c(r->closing_c, r->humidity), r->shut_dew_c, FORMS_K,
                    "dew point at fixed volume");
        assert_near(ds_air_settled_g(r->litres, r->closing_c, r->humidity, r->cold_c), r->grams,
                    FORMS * r->grams + 0.0005, "settles");
        const double dew_c = ds_air_shut_dew_c(r->closing_c, r->humidity);
        assert_near(ds_air_settled_g(r->litres, r->closing_c, r->humidity, dew_c), 0, 1e-9, "just dry");
    }
    /* frost at -5 C: 20 l x (10.34 - 401.74 / (461.5 x 268.15) x 1000 = 3.25) g/m3 */
    assert_near(ds_air_settled_g(20, 20, 0.6, -5), 0.142, 0.0011, "frost");
    assert_near(ds_air_settled_g(20, 20, 0.6, 15), 0, 0, "a wall above the dew point stays dry");
}

typedef struct breathing_row {
    double litres, warm_c, cold_c, outside_c, humidity;
    double drawn_l, grams;
} breathing_row;

/* Calculated; first row 20 l x (1 - 288.15 / 318.15) = 1.886 l, times 11.52 g/m3 = 0.0217 g. */
static void a_breathing_box_by_hand(void **state)
{
    (void)state;
    static const breathing_row ROWS[] = {{20, 45, 15, 15, 0.90, 1.89, 0.0217},
                                         {50, 50, 10, 10, 0.95, 6.19, 0.0552},
                                         {10, 40, 5, 8, 0.90, 1.12, 0.0083},
                                         {100, 40, 10, 10, 0.90, 9.58, 0.0809},
                                         {20, 30, 10, 10, 0.95, 1.32, 0.0118}};
    for (size_t i = 0; i < COUNT(ROWS); i++) {
        const breathing_row *const r = &ROWS[i];
        assert_near(ds_air_drawn_l(r->litres, r->warm_c, r->cold_c), r->drawn_l, 0.0051, "drawn in");
        assert_near(ds_air_drawn_g(r->litres, r->warm_c, r->cold_c, r->outside_c, r->humidity), r->grams,
                    FORMS * r->grams + 0.00005, "water drawn in");
    }
}

/* 5 mm wide, 5 mm long, 5 g/m3: 2.5e-5 x 1.963e-5 / 0.005 x 5 = 4.9e-7 g/s = 0.042 g a day (calculated). */
static void a_hole_and_a_heater_by_hand(void **state)
{
    (void)state;
    assert_near(ds_air_hole_m3_h(5, 5) * 24 * 5, 0.042, 0.0005, "vapour through a hole, g a day");
    assert_near(ds_air_heater_w(5.5, 0.664, 5), 18.3, 0.05, "5 K over 0.664 m2 (calculated)");
    assert_near(ds_air_heater_w(5.5, 0.396, 5), 10.9, 0.05, "5 K over 0.396 m2 (calculated)");
}

/* --- out of range ------------------------------------------------------------------------------------------------- */

static void assert_no_answer(const double got, const char *const what)
{
    if (!isnan(got)) {
        fail_msg("%s: %g", what, got);
    }
}

static void out_of_range_is_no_answer(void **state)
{
    (void)state;
    const double bad[] = {NAN, INFINITY, -INFINITY};
    for (size_t i = 0; i < COUNT(bad); i++) {
        assert_no_answer(ds_air_over_water_pa(bad[i]), "over water");
        assert_no_answer(ds_air_over_ice_pa(bad[i]), "over ice");
        assert_no_answer(ds_air_saturation_pa(bad[i]), "saturation");
        assert_no_answer(ds_air_magnus_pa(bad[i]), "short form");
        assert_no_answer(ds_air_vapour_pa(20, bad[i]), "humidity");
        assert_no_answer(ds_air_weather_vapour_pa(bad[i], 0.5), "weather");
        assert_no_answer(ds_air_humidity(20, bad[i] > 0 ? NAN : bad[i]), "vapour");
        assert_no_answer(ds_air_dew_point_c(bad[i]), "dew point");
        assert_no_answer(ds_air_vapour_kg_m3(bad[i] > 0 ? NAN : bad[i], 100), "density");
        assert_no_answer(ds_air_mixing_ratio(bad[i], 101325), "mixing ratio");
        assert_no_answer(ds_air_settled_g(bad[i], 20, 0.5, 0), "litres");
        assert_no_answer(ds_air_settled_g(20, 20, 0.5, bad[i]), "cold wall");
        assert_no_answer(ds_air_shut_dew_c(bad[i], 0.5), "closing");
        assert_no_answer(ds_air_drawn_l(20, bad[i], 0), "warm");
        assert_no_answer(ds_air_hole_m3_h(bad[i], 5), "hole");
        assert_no_answer(ds_air_heater_w(bad[i], 1, 5), "heater");
    }
    assert_no_answer(ds_air_over_water_pa(-40.01), "colder than supercooled");
    assert_no_answer(ds_air_over_water_pa(200.01), "hotter than 200 C");
    assert_no_answer(ds_air_over_ice_pa(0.02), "warm ice");
    assert_no_answer(ds_air_over_ice_pa(-100.01), "colder than -100 C");
    assert_no_answer(ds_air_magnus_pa(50.01), "short form above 50 C");
    assert_no_answer(ds_air_vapour_pa(20, 1.0001), "over 100 %");
    assert_no_answer(ds_air_vapour_pa(20, -0.0001), "below 0 %");
    assert_no_answer(ds_air_humidity(20, -1), "negative vapour");
    assert_no_answer(ds_air_dew_point_c(0), "no vapour");
    assert_no_answer(ds_air_mixing_ratio(101325, 101325), "nothing but vapour");
    assert_no_answer(ds_air_mixing_ratio(100, INFINITY), "endless pressure");
    assert_no_answer(ds_air_drawn_l(20, 10, 20), "warming draws nothing");
    assert_no_answer(ds_air_drawn_l(-1, 20, 10), "negative litres");
    assert_no_answer(ds_air_hole_m3_h(0, 5), "no hole");
    assert_no_answer(ds_air_shut_dew_c(20, 0), "dry air");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(saturation_is_that_of_the_table),
        cmocka_unit_test(mixing_ratio_is_that_of_the_table),
        cmocka_unit_test(dew_points),
        cmocka_unit_test(drops_to_the_dew_point),
        cmocka_unit_test(vapour_densities),
        cmocka_unit_test(short_form_stays_near_the_full_one),
        cmocka_unit_test(ice_and_water_meet_at_the_triple_point),
        cmocka_unit_test(dew_point_undoes_saturation),
        cmocka_unit_test(a_sealed_box_by_hand),
        cmocka_unit_test(a_breathing_box_by_hand),
        cmocka_unit_test(a_hole_and_a_heater_by_hand),
        cmocka_unit_test(out_of_range_is_no_answer),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
