/* SPDX-License-Identifier: MIT */
/*
 * Effective area, trade formula, curve, physics and fan.
 *
 * "published" rows come from the textbook, manual or article named in the row; "calculated" ones were worked out
 * independently of this program with another table of air, which differs by up to 2 %.
 */
#include "heat_help.h"

/* --- areas -------------------------------------------------------------------------------------------------------- */

/* The seven formulas as an engineering manual quotes them from VDE 0660. */
static void seven_formulas(void **state)
{
    (void)state;
    const double h = 1.7;
    const double w = 0.6;
    const double d = 0.35;
    const struct {
        bool wall;
        int neighbours;
        double area;
    } rows[] = {
        {false, 0, 1.8 * h * (w + d) + 1.4 * w * d},   {true, 0, 1.4 * w * (h + d) + 1.8 * d * h},
        {false, 1, 1.4 * d * (h + w) + 1.8 * w * h},   {true, 1, 1.4 * h * (w + d) + 1.4 * w * d},
        {false, 2, 1.8 * w * h + 1.4 * w * d + d * h}, {true, 2, 1.4 * w * (h + d) + d * h},
    };
    ds_heat_case c = box(h, w, d, 1);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        ds_heat_mount(&c, rows[i].wall, rows[i].neighbours);
        near(ds_heat_effective_m2(&c), rows[i].area, 1e-12);
    }
    c.faces[DS_HEAT_TOP] = DS_HEAT_COVERED;
    near(ds_heat_effective_m2(&c), 1.4 * w * h + 0.7 * w * d + d * h, 1e-12);
    c.faces[DS_HEAT_FRONT] = DS_HEAT_ON_FLOOR;
    near(ds_heat_factor(&c, DS_HEAT_FRONT), 0, 0);
}

/* H 0.6, W 0.4, D 0.2 on a wall: 0.448 + 0.216; physics 0.64 + 0.24 x 0.5 / 0.9: calculated. */
static void areas_of_one_box(void **state)
{
    (void)state;
    ds_heat_case c = box(0.6, 0.4, 0.2, 1);
    near(ds_heat_effective_m2(&c), 0.664, 1e-12);
    near(ds_heat_outside_m2(&c), 0.773, 5e-4);
    c.faces[DS_HEAT_BOTTOM] = DS_HEAT_ON_FLOOR;
    near(ds_heat_effective_m2(&c), 0.664, 1e-12);
    near(ds_heat_outside_m2(&c), 0.773 - 0.08, 5e-4);
}

/* --- methods ------------------------------------------------------------------------------------------------------ */

/* 500 W at 15 K and 5.5: 6.06 m2 (published, engineering manual). 1.8 x 1.8125 x 1.6 + 1.4 x 0.6 is that area. */
static void trade_example(void **state)
{
    (void)state;
    ds_heat_case c = box(1.8125, 1, 0.6, 500);
    ds_heat_mount(&c, false, 0);
    near(ds_heat_effective_m2(&c), 6.06, 1e-9);
    near(solved(c).by[DS_HEAT_TRADE].mid_k.low, 15, 0.005);
    /* 5 K over the air against sweating: k A dT, 18.3 W and, with 0.396 m2, 10.9 W: calculated */
    const double k = ds_surface_of(DS_STR("painted-steel"))->trade_w_m2k;
    c = box(0.6, 0.4, 0.2, 1);
    near(k * ds_heat_effective_m2(&c) * 5, 18.3, 0.05);
    c = box(0.4, 0.3, 0.2, 1);
    near(k * ds_heat_effective_m2(&c) * 5, 10.9, 0.05);
}

/*
 * Five boxes on a wall in 25 C air: calculated. Trade at 5.5 and 3.5; the curve with its recalled table; physics with
 * emissivity 0.9 inside and out, first the skin, then the inside with a metal wall and with 3 mm of plastic
 * (0.015 m2K/W). The physics column was computed with another table of air: within 1.2 %.
 */
static const struct five {
    double height, width, depth, watts;
    double area, steel, plastic, mid, top, skin, inside, inside_plastic, k;
} FIVE[] = {
    {0.20, 0.15, 0.10, 5, 0.099, 9.2, 14.4, 12.4, 15.2, 4.9, 11.7, 12.3, 4.32},
    {0.30, 0.20, 0.13, 10, 0.191, 9.5, 15.0, 13.4, 16.5, 5.2, 12.5, 13.1, 4.21},
    {0.40, 0.30, 0.20, 25, 0.396, 11.5, 18.0, 16.3, 19.9, 6.2, 14.8, 15.6, 4.27},
    {0.60, 0.40, 0.20, 60, 0.664, 16.4, 25.8, 22.5, 27.6, 8.7, 20.6, 21.8, 4.38},
    {0.80, 0.60, 0.25, 120, 1.242, 17.6, 27.6, 24.8, 30.3, 9.4, 22.1, 23.3, 4.37},
};

static void five_boxes_trade_and_curve(void **state)
{
    (void)state;
    for (size_t i = 0; i < 5; i++) {
        const ds_heat_case c = box(FIVE[i].height, FIVE[i].width, FIVE[i].depth, FIVE[i].watts);
        const ds_heat_answer steel = solved(c);
        near(steel.effective_m2, FIVE[i].area, 5.1e-4);
        near(steel.by[DS_HEAT_TRADE].mid_k.high, FIVE[i].steel, 0.051);
        near(solved(with_surface(c, "plastic")).by[DS_HEAT_TRADE].mid_k.high, FIVE[i].plastic, 0.051);
        near(steel.by[DS_HEAT_CURVE].mid_k.high, FIVE[i].mid, 0.051);
        near(steel.by[DS_HEAT_CURVE].top_k.high, FIVE[i].top, 0.051);
        assert_true(steel.by[DS_HEAT_TRADE].decides);
        assert_false(steel.by[DS_HEAT_CURVE].decides);
        assert_true(steel.by[DS_HEAT_PHYSICS].decides);
    }
}

static ds_heat_physics physics_of(const ds_heat_case *const c, const double eps_out, const double eps_in,
                                  const double wall)
{
    ds_heat_physics p;
    const ds_heat_skin skin = {eps_out, eps_in, 0, wall};
    ds_heat_physics_solve(&p, c, &skin);
    return p;
}

static void five_boxes_physics(void **state)
{
    (void)state;
    for (size_t i = 0; i < 5; i++) {
        const ds_heat_case c = box(FIVE[i].height, FIVE[i].width, FIVE[i].depth, FIVE[i].watts);
        const ds_heat_physics metal = physics_of(&c, 0.9, 0.9, 0);
        const ds_heat_physics plastic = physics_of(&c, 0.9, 0.9, 0.015);
        near(metal.skin_k / FIVE[i].skin, 1, 0.012);
        near(metal.inside_k / FIVE[i].inside, 1, 0.012);
        near(plastic.inside_k / FIVE[i].inside_plastic, 1, 0.012);
        near(c.watts / (FIVE[i].area * metal.inside_k) / FIVE[i].k, 1, 0.012);
        near(plastic.wall_k, c.watts * 0.015 / ds_heat_outside_m2(&c), 1e-9);
        near(metal.balance, 0, 1e-12);
    }
}

/* The fourth box without radiation inside, 28.5 K, and with a bare bright skin, 28.7 K: calculated. */
static void radiation_counts(void **state)
{
    (void)state;
    const ds_heat_case c = box(0.6, 0.4, 0.2, 60);
    near(physics_of(&c, 0.9, 0, 0).inside_k / 28.5, 1, 0.012);
    near(physics_of(&c, 0.1, 0.9, 0).inside_k / 28.7, 1, 0.012);
}

/*
 * 300 W in a closed box of 48 x 36 x 16 inches rises 30 F = 16.7 K (published, a distributor's curve, 4.60 W/m2K on the
 * gross area): the physics must come within the 30 % by which methods differ, and so does the curve at half height.
 */
static void a_published_curve(void **state)
{
    (void)state;
    ds_heat_case c = box(48 * 0.0254, 36 * 0.0254, 16 * 0.0254, 300);
    ds_heat_mount(&c, false, 0);
    const ds_heat_answer a = solved(c);
    near(a.by[DS_HEAT_PHYSICS].mid_k.high / 16.7, 1, 0.3);
    near(a.by[DS_HEAT_CURVE].mid_k.low / 16.7, 1, 0.3);
    near(a.by[DS_HEAT_TRADE].mid_k.low / 16.7, 1, 0.3);
}

/* The recalled table and its own fit 0.61 A^-0.74 agree within 2 % from 0.08 to 1.25 m2, and meet the larger table. */
static void curve_and_its_fit(void **state)
{
    (void)state;
    static const double POINTS[] = {0.08, 0.1, 0.15, 0.2, 0.25, 0.3, 0.35, 0.4,
                                    0.45, 0.5, 0.6,  0.7, 0.8,  0.9, 1.0,  1.25};
    for (size_t i = 0; i < sizeof POINTS / sizeof *POINTS; i++) {
        near(ds_heat_curve_k(POINTS[i]) / (0.61 * pow(POINTS[i], -0.74)), 1, 0.02);
    }
    near(ds_heat_curve_k(0.664), 0.836, 5e-4);
    near(ds_heat_curve_k(1.25), ds_heat_curve_k(1.2500001), 0.0011);
    near(ds_heat_curve_k(7), 0.125, 1e-12);
    assert_true(isnan(ds_heat_curve_k(0.0799)));
    assert_true(isnan(ds_heat_curve_k(10.01)));
    assert_true(isnan(ds_heat_curve_k(NAN)));
}

/* c by slenderness (memory: IEC TR 60890), and its range for large boxes; d of partitions there only. */
static void top_and_partitions(void **state)
{
    (void)state;
    ds_heat_case c = box(0.6, 0.4, 0.2, 60);
    near(ds_heat_top_factor(&c, 0.664).low, 1.227, 1e-12);
    near(ds_heat_top_factor(&c, 0.664).high, 1.227, 1e-12);
    near(ds_heat_top_factor(&c, 2).low, 1.11, 1e-12);
    near(ds_heat_top_factor(&c, 2).high, 1.45, 1e-12);
    near(ds_heat_partition_factor(&c, 1.25).high, 1, 0);
    near(ds_heat_partition_factor(&c, 2).low, 1, 0);
    near(ds_heat_partition_factor(&c, 2).high, 1.3, 1e-12);
    c.partitions = 2;
    near(ds_heat_partition_factor(&c, 2).low, 1.15, 1e-12);
    near(ds_heat_partition_factor(&c, 2).high, 1.15, 1e-12);
    c.height_mm = 100;
    near(ds_heat_top_factor(&c, 0.664).low, 1.04 + 0.038 / 4, 1e-12); /* g 0.25 */
}

/* --- fan ---------------------------------------------------------------------------------------------------------- */

/* 100 m3/h of 25 C air, three quarters left by the filters: 101325 / (287.05 x 298.15) x 1006 x 75 / 3600 = 24.81 W/K. */
static void fan_carries_heat_off(void **state)
{
    (void)state;
    ds_heat_case c = box(0.6, 0.4, 0.2, 300);
    c.fan_m3_h = 100;
    c.fan_factor = 0.75;
    near(ds_heat_fan_w_k(&c), 24.81, 0.01);
    const ds_heat_answer a = solved(c);
    near(a.by[DS_HEAT_TRADE].mid_k.low, 300 / (5.5 * 0.664 + ds_heat_fan_w_k(&c)), 1e-9);
    assert_int_equal(a.by[DS_HEAT_CURVE].gap, DS_HEAT_WITH_FAN);
    assert_true(isnan(a.by[DS_HEAT_CURVE].mid_k.low));
    near(a.worst.fan_w + a.worst.through_w, 300, 1e-9);
    near(a.worst.fan_w, ds_heat_fan_w_k(&c) * a.worst.inside_k, 1e-9);
    /* more wall film than the trade formula or less, the fan takes most: within 15 % */
    near(a.worst.inside_k / a.by[DS_HEAT_TRADE].mid_k.low, 1, 0.15);
}

/* A fan and a hot skin: heat comes in through the wall and the balance still closes. */
static void sun_heats_a_ventilated_box(void **state)
{
    (void)state;
    ds_heat_case c = box(0.6, 0.4, 0.2, 10);
    c.fan_m3_h = 200;
    c.fan_factor = 1;
    c.sun_flat_w_m2 = 1000;
    c.sun_wall_w_m2 = 700;
    c.colour = ds_colour_of(DS_STR("black"));
    const ds_heat_answer a = solved(c);
    assert_true(a.worst.through_w < 0 && a.worst.film_k < 0);
    assert_true(a.worst.inside_k > 0 && a.worst.inside_k < a.worst.skin_k);
    near(a.worst.balance, 0, 1e-9);
    near(a.worst.outer_w_k * a.worst.skin_k + a.worst.fan_w, 10 + a.worst.sun_w, 1e-7);
    c.fan_m3_h = NAN;
    near(solved(c).sun_k.high, a.sun_k.high, 0); /* what the sun does alone knows no fan */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(seven_formulas),
        cmocka_unit_test(areas_of_one_box),
        cmocka_unit_test(trade_example),
        cmocka_unit_test(five_boxes_trade_and_curve),
        cmocka_unit_test(five_boxes_physics),
        cmocka_unit_test(radiation_counts),
        cmocka_unit_test(a_published_curve),
        cmocka_unit_test(curve_and_its_fit),
        cmocka_unit_test(top_and_partitions),
        cmocka_unit_test(fan_carries_heat_off),
        cmocka_unit_test(sun_heats_a_ventilated_box),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
