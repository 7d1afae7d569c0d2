/* SPDX-License-Identifier: MIT */
/*
 * Pressure, depth, vents and floods: arithmetic that stands beside each row, and the figures of the tests from published
 * explanations of IEC 60529 (numerals 5 to 8: 1 m, 150 mm from 850 mm on, 30 min, 5 K, 2 kPa).
 */
#include "heat_help.h"

#include "core/box/pressure.h"

/* --- quench ------------------------------------------------------------------------------------------------------- */

/* 101.325 x (1 - T2 / T1), over 9806.65 Pa a metre, and over the 2 kPa of the dust test: calculated. */
static void quench_of_dry_air(void **state)
{
    (void)state;
    static const struct {
        double warm, cold, kilopascal, head, dust;
    } ROWS[] = {{30, 15, 5.01, 0.511, 2.5}, {35, 25, 3.29, 0.335, 1.6}, {25, 5, 6.80, 0.693, 3.4},
                {40, 20, 6.47, 0.660, 3.2}, {50, 20, 9.41, 0.959, 4.7}, {60, 15, 13.69, 1.396, 6.8},
                {70, 15, 16.24, 1.656, 8.1}};
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        const double drop = ds_quench_drop_pa(ROWS[i].warm, ROWS[i].cold, 0);
        near(drop / 1000, ROWS[i].kilopascal, 0.0051);
        near(ds_water_head_m(drop, DS_PRESSURE_FRESH_KG_M3), ROWS[i].head, 5.1e-4);
        near(drop / DS_PRESSURE_DUST_TEST_PA, ROWS[i].dust, 0.051);
    }
    near(ds_quench_drop_pa(50, 20, 0), 101325 * 0.09284, 2);  /* 293.15 / 323.15 = 0.90716 */
    near(ds_quench_drop_pa(20, 50, 0) / 1000, -10.37, 0.005); /* warmed instead */
    near(ds_quench_drop_pa(20, 20, 0.7), 0, 1e-9);
}

/* 50 C at 60 %: e 7.407 kPa, dry part 93.918 x 0.90716 = 85.199, plus 2.333 saturated: 87.53, so 13.79: calculated. */
static void quench_of_moist_air(void **state)
{
    (void)state;
    const double drop = ds_quench_drop_pa(50, 20, 0.6);
    near(drop / 1000, 13.79, 0.02);
    near(ds_water_head_m(drop, 1000), 1.41, 0.005);
    /* too dry to condense: 30 % at 30 C has its dew point at 10.5 C, so 30 to 15 is as dry air */
    near(ds_quench_drop_pa(30, 15, 0.3), ds_quench_drop_pa(30, 15, 0), 1e-9);
    assert_true(ds_quench_drop_pa(30, 5, 0.3) > ds_quench_drop_pa(30, 5, 0) + 100);
    for (int i = 0; i < 20; i++) {
        assert_true(ds_quench_drop_pa(60, 10, (i + 1) / 20.0) > ds_quench_drop_pa(60, 10, i / 20.0) - 1e-9);
    }
}

/* A fall of 1 m of water takes 28.4 K from 20 C, 29.3 from 30 C, 31.3 from 50 C; 5 K are 1.73 kPa, 0.18 m: calculated. */
static void cooling_for_a_head(void **state)
{
    (void)state;
    const double metre = ds_water_pressure_pa(1, 1000);
    near(ds_quench_cooling_k(20, metre), 28.4, 0.05);
    near(ds_quench_cooling_k(30, metre), 29.3, 0.05);
    near(ds_quench_cooling_k(50, metre), 31.3, 0.05);
    near(ds_quench_drop_pa(20, 15, 0), 1730, 5);
    near(ds_water_head_m(ds_quench_drop_pa(20, 15, 0), 1000), 0.18, 0.005);
    near(ds_quench_drop_pa(50, 50 - ds_quench_cooling_k(50, 7000), 0), 7000, 1e-8);
}

/* 9.41 kPa on 0.3 x 0.2 m: 564 N; 10.37 kPa on 0.4 x 0.3: 1244 N; 10 l x 0.0928 = 0.93 l: calculated. */
static void loads_and_water(void **state)
{
    (void)state;
    near(ds_pressure_force_n(ds_quench_drop_pa(50, 20, 0), 300, 200), 564, 1);
    near(ds_pressure_force_n(-ds_quench_drop_pa(20, 50, 0), 400, 300), 1244, 1);
    near(ds_quench_water_l(10, 50, 20), 0.93, 0.005);
    assert_true(isnan(ds_quench_water_l(10, 20, 50)));
}

/* 3 kg of steel (480 J/kgK) over 0.664 m2: 241 s dry at 9 W/m2K, 4 s wet at 500: calculated. */
static void skin_cools(void **state)
{
    (void)state;
    near(ds_skin_time_s(3, 480, 9, 0.664), 241, 0.5);
    near(ds_skin_time_s(3, 480, 500, 0.664), 4, 0.5);
    assert_true(isnan(ds_skin_time_s(3, 480, 0, 1)));
}

/* --- water -------------------------------------------------------------------------------------------------------- */

/* rho g h with g 9.80665, fresh, 20 C and sea: calculated. */
static void hydrostatics(void **state)
{
    (void)state;
    static const struct {
        double depth, fresh, warm, sea;
    } ROWS[] = {{0.15, 1.471, 1.468, 1.508}, {0.3, 2.942, 2.937, 3.016}, {0.5, 4.903, 4.894, 5.026},
                {1.0, 9.807, 9.789, 10.05},  {1.5, 14.71, 14.68, 15.08}, {2, 19.61, 19.58, 20.10},
                {3, 29.42, 29.37, 30.16},    {5, 49.03, 48.95, 50.26},   {10, 98.07, 97.89, 100.5}};
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        near(ds_water_pressure_pa(ROWS[i].depth, 1000) / 1000 / ROWS[i].fresh, 1, 5.1e-4);
        near(ds_water_pressure_pa(ROWS[i].depth, 998.2) / 1000 / ROWS[i].warm, 1, 5.1e-4);
        near(ds_water_pressure_pa(ROWS[i].depth, DS_PRESSURE_SEA_KG_M3) / 1000 / ROWS[i].sea, 1, 5.1e-4);
        near(ds_water_head_m(ds_water_pressure_pa(ROWS[i].depth, 1025), 1025), ROWS[i].depth, 1e-12);
    }
    near(ds_pressure_force_n(ds_water_pressure_pa(1, 1000), 200, 300), 588, 0.5);
    near(ds_pressure_force_n(ds_water_pressure_pa(0.5, 1000), 146, 86), 61.6, 0.05);
}

/* 0.6 A sqrt(2 g h): calculated. */
static void leaks(void **state)
{
    (void)state;
    static const double ROWS[][4] = {
        {1, 1, 1800, 3.76}, {0.5, 1, 1800, 0.94}, {1, 0.15, 1800, 1.46}, {2, 0.5, 3600, 21}};
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        near(ds_water_leak_l(ROWS[i][0], ROWS[i][1], ROWS[i][2]), ROWS[i][3], i == 3 ? 0.5 : 0.005);
    }
}

/* 1 - 101.3 / (101.3 + 9.807 h): calculated. */
static void open_bell(void **state)
{
    (void)state;
    static const double ROWS[][2] = {{0.3, 2.8}, {1, 8.8}, {2, 16.2}, {3, 22.5}};
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        near(ds_water_bell_share(ROWS[i][0], 1000) * 100, ROWS[i][1], 0.051);
    }
}

/* 4 x 0.0728 / d, and that over 9807 Pa a metre: calculated. */
static void wet_holes(void **state)
{
    (void)state;
    static const double ROWS[][3] = {{0.1, 2900, 297}, {0.5, 580, 59}, {1, 290, 30}, {3, 97, 10}, {5, 58, 6}};
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        near(ds_water_held_pa(ROWS[i][0]) / ROWS[i][1], 1, 0.01);
        near(ds_water_held_mm(ROWS[i][0]), ROWS[i][2], 0.51);
    }
}

/* 12.5 l/min through 6.3 mm: 6.68 m/s, 22 kPa; 100 l/min through 12.5 mm: 13.6 m/s, 92 kPa: calculated. */
static void jets(void **state)
{
    (void)state;
    near(ds_water_jet_pa(12.5, 6.3) / 1000, 22, 0.5);
    near(ds_water_jet_pa(100, 12.5) / 1000, 92, 0.5);
    near(sqrt(2 * ds_water_jet_pa(12.5, 6.3) / 1000), 6.68, 0.005);
}

/* --- vents -------------------------------------------------------------------------------------------------------- */

/*
 * V dT / (T t), then 0.6 sqrt(2 dp / 1.2): 17.3 m/s at 500 Pa, 24.5 at 1000: calculated, warm at 323 K, the last row at
 * 313 K.
 */
static void vents(void **state)
{
    (void)state;
    static const struct {
        double volume, cooling, seconds, allowed, flow, area, diameter;
    } ROWS[] = {{5, 30, 30, 500, 0.93, 0.89, 1.07},
                {10, 30, 60, 500, 0.93, 0.89, 1.07},
                {50, 30, 60, 500, 4.64, 4.47, 2.39},
                {50, 30, 600, 500, 0.46, 0.45, 0.75},
                {100, 20, 120, 1000, 3.19, 2.17, 1.66}};
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        const double warm = (i == 4 ? 313 : 323) - 273.15;
        const double flow = ds_vent_l_min(ROWS[i].volume, warm, ROWS[i].cooling, ROWS[i].seconds);
        near(flow, ROWS[i].flow, 0.0051);
        near(ds_vent_hole_mm2(flow, ROWS[i].allowed), ROWS[i].area, 0.0051);
        near(ds_vent_hole_mm(flow, ROWS[i].allowed), ROWS[i].diameter, 0.0051);
    }
    near(ds_vent_flow_l_min(14, 7000, 500), 1, 1e-12); /* in proportion */
}

/* --- a quenched box ----------------------------------------------------------------------------------------------- */

static ds_quench_answer quenched(const ds_quench_case c)
{
    ds_quench_answer a;
    ds_quench_solve(&a, &c);
    return a;
}

static void whole_box(void **state)
{
    (void)state;
    ds_quench_case c = DS_QUENCH_CASE_NOTHING;
    c.warm_c = 50;
    c.cold_c = 20;
    c.humidity = 0;
    ds_quench_answer a = quenched(c);
    near(a.of_immersion, 0.96, 0.005);
    near(a.of_dust_test, 4.7, 0.01);
    assert_true(isnan(a.lid_n) && isnan(a.water_l) && isnan(a.needed_l_min) && isnan(a.hole_mm));
    assert_int_equal(a.vent, DS_VENT_NOT_KNOWN);
    c.humidity = NAN; /* not given: the worst */
    a = quenched(c);
    near(a.moist_pa, ds_quench_drop_pa(50, 20, 1), 0);
    assert_true(a.head_m > 1.4 && a.dry_head_m < 0.96);
    c.humidity = 0;
    c.volume_l = 10;
    c.lid_width_mm = 300;
    c.lid_height_mm = 200;
    c.seconds = 60;
    c.allowed_pa = 500;
    c.vent_l_min = 13.1; /* at 7000 Pa: 0.936 at 500, just enough */
    a = quenched(c);
    near(a.lid_n, 564, 1);
    near(a.water_l, 0.93, 0.005);
    near(a.hole_mm, 1.07, 0.005);
    assert_int_equal(a.vent, DS_VENT_HOLDS);
    c.vent_l_min = 12.9;
    assert_int_equal(quenched(c).vent, DS_VENT_TOO_SMALL);
    c.maker_pa = 500;
    assert_int_equal(quenched(c).vent, DS_VENT_HOLDS);
}

static void quench_refuses_nonsense(void **state)
{
    (void)state;
    ds_quench_case good = DS_QUENCH_CASE_NOTHING;
    ds_quench_answer a = quenched(good);
    assert_int_equal(a.missing, 1U << DS_QUENCH_F_WARM | 1U << DS_QUENCH_F_COLD);
    assert_true(isnan(a.dry_pa) && isnan(a.moist_pa) && isnan(a.head_m) && isnan(a.of_immersion));
    good.warm_c = 50;
    good.cold_c = 20;
    const struct {
        size_t at;
        double value;
        ds_quench_field field;
    } rows[] = {
        {offsetof(ds_quench_case, warm_c), 1000, DS_QUENCH_F_WARM},
        {offsetof(ds_quench_case, cold_c), 51, DS_QUENCH_F_COLD},
        {offsetof(ds_quench_case, cold_c), -100, DS_QUENCH_F_COLD},
        {offsetof(ds_quench_case, humidity), 1.2, DS_QUENCH_F_HUMIDITY},
        {offsetof(ds_quench_case, humidity), -0.1, DS_QUENCH_F_HUMIDITY},
        {offsetof(ds_quench_case, volume_l), -5, DS_QUENCH_F_VOLUME},
        {offsetof(ds_quench_case, lid_width_mm), 0, DS_QUENCH_F_LID},
        {offsetof(ds_quench_case, lid_height_mm), INFINITY, DS_QUENCH_F_LID},
        {offsetof(ds_quench_case, seconds), 0, DS_QUENCH_F_SECONDS},
        {offsetof(ds_quench_case, allowed_pa), -1, DS_QUENCH_F_ALLOWED},
        {offsetof(ds_quench_case, vent_l_min), -1, DS_QUENCH_F_VENT},
        {offsetof(ds_quench_case, maker_pa), 0, DS_QUENCH_F_VENT},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        ds_quench_case c = good;
        memcpy((char *)&c + rows[i].at, &rows[i].value, sizeof rows[i].value);
        a = quenched(c);
        assert_int_equal(a.bad, 1U << rows[i].field);
        assert_true(isnan(a.moist_pa) && isnan(a.head_m));
        assert_true(strlen(ds_quench_field_name(rows[i].field)) > 3);
    }
}

/* The single functions answer NAN to what has no meaning. */
static void formulas_refuse_nonsense(void **state)
{
    (void)state;
    const double none[] = {ds_quench_drop_pa(300, 20, 0),
                           ds_quench_drop_pa(50, 20, 1.01),
                           ds_quench_drop_pa(50, 20, NAN),
                           ds_quench_drop_pa(50, -60, 0),
                           ds_quench_cooling_k(20, -1),
                           ds_quench_cooling_k(20, 2e5),
                           ds_water_pressure_pa(-1, 1000),
                           ds_water_pressure_pa(NAN, 1000),
                           ds_water_head_m(1000, 0),
                           ds_water_head_m(-1, 1000),
                           ds_pressure_force_n(-1, 1, 1),
                           ds_pressure_force_n(1, -1, 1),
                           ds_water_leak_l(-1, 1, 1),
                           ds_water_leak_l(1, -1, 1),
                           ds_water_leak_l(1, 1, INFINITY),
                           ds_water_held_pa(0),
                           ds_water_held_mm(-1),
                           ds_water_jet_pa(-1, 5),
                           ds_water_jet_pa(10, 0),
                           ds_vent_l_min(10, 50, 30, 0),
                           ds_vent_l_min(-1, 50, 30, 60),
                           ds_vent_l_min(10, 50, 400, 60),
                           ds_vent_hole_mm2(1, 0),
                           ds_vent_hole_mm(-1, 500),
                           ds_vent_flow_l_min(5, 0, 500),
                           ds_vent_flow_l_min(5, 7000, -1),
                           ds_water_bell_share(-1, 1000),
                           ds_immersion_test_m(0),
                           ds_immersion_test_m(-5),
                           ds_immersion_test_m(INFINITY)};
    for (size_t i = 0; i < sizeof none / sizeof *none; i++) {
        if (!isnan(none[i])) {
            fail_msg("row %zu gave %g", i, none[i]);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(quench_of_dry_air),
        cmocka_unit_test(quench_of_moist_air),
        cmocka_unit_test(cooling_for_a_head),
        cmocka_unit_test(loads_and_water),
        cmocka_unit_test(skin_cools),
        cmocka_unit_test(hydrostatics),
        cmocka_unit_test(leaks),
        cmocka_unit_test(open_bell),
        cmocka_unit_test(wet_holes),
        cmocka_unit_test(jets),
        cmocka_unit_test(vents),
        cmocka_unit_test(whole_box),
        cmocka_unit_test(quench_refuses_nonsense),
        cmocka_unit_test(formulas_refuse_nonsense),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
