/* SPDX-License-Identifier: MIT */
/* Heat against limits: verdicts, ratings, and what is refused. */
#include "heat_help.h"

/* --- the verdict -------------------------------------------------------------------------------------------------- */

static void judged(const ds_heat_answer *const a, const double limit_c, const ds_verdict wanted,
                   const ds_heat_why wanted_why)
{
    ds_heat_why why;
    assert_int_equal(ds_heat_judge(a, limit_c, &why), wanted);
    assert_int_equal(why, wanted_why);
    assert_int_equal(ds_heat_judge(a, limit_c, NULL), wanted);
}

/* 60 W in painted steel at 35 C: trade 51.4 to 55.2, physics 54.3 to 60.0, the curve from memory 57.5 to 62.6. */
static void all_methods_or_none(void **state)
{
    (void)state;
    ds_heat_case c = box(0.6, 0.4, 0.2, 60);
    c.air_c = 35;
    ds_heat_answer a = solved(c);
    near(35 + a.spread_k.low, 51.4, 0.05);
    near(35 + a.spread_k.high, 60.0, 0.3);
    judged(&a, 65, DS_FITS, DS_HEAT_ALL_BELOW);
    judged(&a, 61, DS_UNKNOWN, DS_HEAT_CURVE_DISAGREES);
    judged(&a, 55, DS_UNKNOWN, DS_HEAT_DISAGREE);
    judged(&a, 51, DS_SHORT, DS_HEAT_ALL_ABOVE);
    judged(&a, NAN, DS_UNKNOWN, DS_HEAT_NOT_DESCRIBED);
    judged(&a, 301, DS_UNKNOWN, DS_HEAT_NOT_DESCRIBED);
    a.closed = false;
    judged(&a, 51, DS_UNKNOWN, DS_HEAT_NOT_CLOSED);
    judged(&a, 65, DS_FITS, DS_HEAT_ALL_BELOW); /* openings only cool */
    c.height = DS_HEAT_HALF_WAY;
    a = solved(c);
    judged(&a, 58, DS_FITS, DS_HEAT_ALL_BELOW);
    judged(&a, 57, DS_UNKNOWN, DS_HEAT_CURVE_DISAGREES);
    c.height = DS_HEAT_AT_TOP;
    a = solved(c);
    judged(&a, 55, DS_SHORT, DS_HEAT_ALL_ABOVE);
    judged(&a, 62, DS_UNKNOWN, DS_HEAT_CURVE_DISAGREES);
}

/* A limit is not passed by rounding: one that is a hair below the warmest figure is not met. */
static void limits_to_the_hair(void **state)
{
    (void)state;
    ds_heat_case c = with_surface(box(0.6, 0.4, 0.2, 60), "plastic");
    const ds_heat_answer a = solved(c);
    const double most = 25 + fmax(a.spread_k.high, a.by[DS_HEAT_CURVE].top_k.high);
    judged(&a, most + 2e-6, DS_FITS, DS_HEAT_ALL_BELOW);
    assert_int_equal(ds_heat_judge(&a, most - 1e-9, NULL), DS_UNKNOWN);
    const double least = 25 + fmin(a.spread_k.low, a.by[DS_HEAT_CURVE].mid_k.low);
    judged(&a, least - 2e-6, DS_SHORT, DS_HEAT_ALL_ABOVE);
    assert_int_equal(ds_heat_judge(&a, least, NULL), DS_UNKNOWN);
    ds_heat_answer made = {.air_c = 25, .closed = true}; /* 45 to 55 C sharp */
    made.by[DS_HEAT_TRADE] = (ds_heat_result){DS_HEAT_GIVEN, true, {20, 24}, {22, 30}};
    made.by[DS_HEAT_CURVE].gap = DS_HEAT_WITH_HOLES;
    judged(&made, 55, DS_FITS, DS_HEAT_ALL_BELOW);
    judged(&made, 45, DS_UNKNOWN, DS_HEAT_DISAGREE);
    judged(&made, 44.999999, DS_SHORT, DS_HEAT_ALL_ABOVE);
}

/* Aluminium's 12 is shown and has no part in the verdict; new galvanised has no k at all. */
static void trade_without_credit(void **state)
{
    (void)state;
    const ds_heat_answer bare = solved(with_surface(box(0.6, 0.4, 0.2, 60), "aluminium"));
    near(bare.by[DS_HEAT_TRADE].mid_k.low, 60 / (12 * 0.664), 1e-9);
    assert_false(bare.by[DS_HEAT_TRADE].decides);
    near(bare.spread_k.low, bare.by[DS_HEAT_PHYSICS].mid_k.low, 0);
    const ds_heat_answer zinc = solved(with_surface(box(0.6, 0.4, 0.2, 60), "galvanised"));
    assert_int_equal(zinc.by[DS_HEAT_TRADE].gap, DS_HEAT_NO_K);
    assert_true(isnan(zinc.by[DS_HEAT_TRADE].mid_k.low));
    assert_true(zinc.by[DS_HEAT_PHYSICS].mid_k.low >
                solved(box(0.6, 0.4, 0.2, 60)).by[DS_HEAT_PHYSICS].mid_k.high);
}

static void curve_has_its_bounds(void **state)
{
    (void)state;
    ds_heat_case c = box(0.1, 0.1, 0.08, 2);
    assert_int_equal(solved(c).by[DS_HEAT_CURVE].gap, DS_HEAT_OFF_CURVE);
    c = box(0.6, 0.4, 0.2, 60);
    c.openings = DS_HEAT_OPEN;
    const ds_heat_answer a = solved(c);
    assert_int_equal(a.by[DS_HEAT_CURVE].gap, DS_HEAT_WITH_HOLES);
    assert_false(a.closed);
    c = box(2, 0.8, 0.6, 400);
    const ds_heat_answer large = solved(c);
    near(large.by[DS_HEAT_CURVE].mid_k.high / large.by[DS_HEAT_CURVE].mid_k.low, 1.3, 1e-9);
}

/* 20 kW in a small box: no film goes beyond 400 C, and the answer stays on the hot side. */
static void far_too_hot(void **state)
{
    (void)state;
    const ds_heat_answer a = solved(box(0.2, 0.2, 0.2, 20000));
    assert_true(a.worst.beyond && a.best.beyond && isnan(a.worst.balance));
    near(25 + a.worst.skin_k, 400, 1e-9);
    judged(&a, 60, DS_SHORT, DS_HEAT_ALL_ABOVE);
    judged(&a, 300, DS_SHORT, DS_HEAT_ALL_ABOVE);
}

/* --- ratings ------------------------------------------------------------------------------------------------------ */

/* PVC and XLPE: memory, BS 7671 Table 4B1 and IEC 60364-5-52. Breaker guess: common practice, 110 C. */
static void deratings(void **state)
{
    (void)state;
    static const struct {
        double hottest, temp, factor;
    } ROWS[] = {{70, 35, 0.935},  {70, 40, 0.866}, {70, 45, 0.791},  {70, 50, 0.707},
                {70, 55, 0.612},  {70, 60, 0.500}, {90, 40, 0.913},  {90, 50, 0.816},
                {90, 60, 0.707},  {90, 70, 0.577}, {110, 40, 0.935}, {110, 50, 0.866},
                {110, 60, 0.791}, {70, 30, 1},     {70, 70, 0},      {70, 71, 0}};
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        near(ds_heat_derating(ROWS[i].hottest, 30, ROWS[i].temp), ROWS[i].factor, 5.1e-4);
    }
    near(32 * ds_heat_derating(DS_HEAT_BREAKER_C, DS_HEAT_REFERENCE_C, 50), 27.7, 0.05);
    assert_true(isnan(ds_heat_derating(70, 30, NAN)));
    assert_true(isnan(ds_heat_derating(30, 30, 20)));
    assert_true(isnan(ds_heat_derating(70, -INFINITY, 20)));
}

/* CEI 23-51 (published): 1.2 x 20 + 5 = 29 W; four poles of 2.5 W at 60 % of their current lose 3.6 W. */
static void small_boards(void **state)
{
    (void)state;
    near(ds_heat_board_w(20, 5), 29, 1e-12);
    near(ds_heat_loss_w(4, 2.5, 0.6), 3.6, 1e-12);
    assert_true(isnan(ds_heat_board_w(-1, 5)));
    assert_true(isnan(ds_heat_loss_w(4, -1, 1)));
    assert_true(isnan(ds_heat_loss_w(4, 1, NAN)));
}

/* EN 61439-1 as quoted: metal covers rise 30 K, insulating ones 40 K; ambient 35 C mean of a day, 40 C peak. */
static void usual_limits(void **state)
{
    (void)state;
    size_t len;
    const ds_heat_limit *const list = ds_heat_limits(&len);
    for (size_t i = 0; i < len; i++) {
        assert_ptr_equal(ds_heat_limit_of(ds_str_of(list[i].part)), &list[i]);
        assert_true(list[i].limit.low <= list[i].limit.high);
    }
    const ds_heat_limit *const cover = ds_heat_limit_of(DS_STR("metal-cover"));
    assert_true(cover->is_rise);
    near(cover->limit.low, 30, 0);
    near(ds_heat_limit_of(DS_STR("assembly"))->limit.low, 35, 0);
    near(ds_heat_limit_of(DS_STR("electronics"))->limit.low, 45, 0);
    assert_null(ds_heat_limit_of(DS_STR("toaster")));
}

/* --- input -------------------------------------------------------------------------------------------------------- */

static void refused(const ds_heat_case *const c, const uint32_t missing, const uint32_t bad)
{
    ds_heat_answer a;
    ds_heat_solve(&a, c);
    assert_int_equal(a.missing, missing);
    assert_int_equal(a.bad, bad);
    assert_true(isnan(a.effective_m2) && isnan(a.outside_m2) && isnan(a.air_c) && isnan(a.sun_w.high));
    assert_true(isnan(a.spread_k.low) && isnan(a.spread_k.high) && isnan(a.sun_k.low) &&
                isnan(a.top_factor.low));
    assert_true(isnan(a.worst.inside_k) && isnan(a.best.skin_k) && isnan(a.worst_skin.absorptance));
    for (int method = 0; method < DS_HEAT_METHODS; method++) {
        assert_true(isnan(a.by[method].mid_k.low) && isnan(a.by[method].top_k.high) && !a.by[method].decides);
    }
    judged(&a, 55, DS_UNKNOWN, DS_HEAT_NOT_DESCRIBED);
}

#define BIT(field) (1U << DS_HEAT_F_##field)

static void nothing_given(void **state)
{
    (void)state;
    const ds_heat_case nothing = DS_HEAT_CASE_NOTHING;
    refused(&nothing, BIT(SIZE) | BIT(FACES) | BIT(SURFACE) | BIT(WATTS) | BIT(AIR) | BIT(SUN), 0);
    for (int f = 0; f < DS_HEAT_FIELDS; f++) {
        assert_true(strlen(ds_heat_field_lack((ds_heat_field)f).words) > 2);
        assert_int_equal(strncmp(ds_heat_field_lack((ds_heat_field)f).key, "box.", 4), 0);
    }
}

/* One field at a time, missing or wrong. */
static void one_field_wrong(void **state)
{
    (void)state;
    const ds_heat_case good = box(0.6, 0.4, 0.2, 60);
    const struct {
        size_t at;
        double value;
        uint32_t missing, bad;
    } rows[] = {
        {offsetof(ds_heat_case, width_mm), NAN, BIT(SIZE), 0},
        {offsetof(ds_heat_case, width_mm), 0, 0, BIT(SIZE)},
        {offsetof(ds_heat_case, height_mm), -600, 0, BIT(SIZE)},
        {offsetof(ds_heat_case, depth_mm), 1e6, 0, BIT(SIZE)},
        {offsetof(ds_heat_case, depth_mm), INFINITY, 0, BIT(SIZE)},
        {offsetof(ds_heat_case, watts), NAN, BIT(WATTS), 0},
        {offsetof(ds_heat_case, watts), -1, 0, BIT(WATTS)},
        {offsetof(ds_heat_case, watts), INFINITY, 0, BIT(WATTS)},
        {offsetof(ds_heat_case, air_c), NAN, BIT(AIR), 0},
        {offsetof(ds_heat_case, air_c), -300, 0, BIT(AIR)},
        {offsetof(ds_heat_case, sun_flat_w_m2), NAN, BIT(SUN), 0},
        {offsetof(ds_heat_case, sun_wall_w_m2), -5, 0, BIT(SUN)},
        {offsetof(ds_heat_case, sun_flat_w_m2), 2000, 0, BIT(SUN)},
        {offsetof(ds_heat_case, sun_w_m2), 500, BIT(SUN), 0}, /* the top alone, the rest not said */
        {offsetof(ds_heat_case, top_tilt_deg), 95, 0, BIT(TILT)},
        {offsetof(ds_heat_case, wind_m_s), -1, 0, BIT(WIND)},
        {offsetof(ds_heat_case, wall_mm), 0, 0, BIT(WALL)},
        {offsetof(ds_heat_case, fan_m3_h), -5, 0, BIT(FAN)},
        {offsetof(ds_heat_case, fan_m3_h), 50, BIT(FAN), 0}, /* no word of its filters */
        {offsetof(ds_heat_case, partitions), 4, 0, BIT(PARTITIONS)},
        {offsetof(ds_heat_case, partitions), 1.5, 0, BIT(PARTITIONS)},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        ds_heat_case c = good;
        memcpy((char *)&c + rows[i].at, &rows[i].value, sizeof rows[i].value);
        refused(&c, rows[i].missing, rows[i].bad);
    }
}

static void faces_and_surface_wrong(void **state)
{
    (void)state;
    ds_heat_case c = box(0.6, 0.4, 0.2, 60);
    c.surface = NULL;
    refused(&c, BIT(SURFACE), 0);
    c = box(0.6, 0.4, 0.2, 60);
    c.sun_flat_w_m2 = 500; /* paint without a colour */
    refused(&c, BIT(COLOUR), 0);
    c = with_surface(c, "stainless"); /* which needs none */
    assert_true(solved(c).sun_w.high > 0);
    c = box(0.6, 0.4, 0.2, 60);
    c.faces[DS_HEAT_LEFT] = DS_HEAT_NOT_SAID;
    refused(&c, BIT(FACES), 0);
    c.faces[DS_HEAT_LEFT] = (ds_heat_setting)17;
    refused(&c, 0, BIT(FACES));
    for (int face = 0; face < DS_HEAT_FACES; face++) {
        c.faces[face] = DS_HEAT_ON_FLOOR; /* no face gives off heat */
    }
    refused(&c, 0, BIT(FACES));
    c = box(0.6, 0.4, 0.2, 60);
    for (int face = 0; face < DS_HEAT_FACES; face++) {
        c.sun_w_m2[face] = 100; /* on the face that lies on the wall too */
    }
    refused(&c, 0, BIT(SUN));
}

/* No heat and no sun: no rise at all. */
static void no_heat(void **state)
{
    (void)state;
    const ds_heat_answer a = solved(box(0.6, 0.4, 0.2, 0));
    for (int method = 0; method < DS_HEAT_METHODS; method++) {
        near(a.by[method].mid_k.high, 0, 0);
        near(a.by[method].top_k.high, 0, 0);
    }
    near(a.worst.balance, 0, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_methods_or_none),
        cmocka_unit_test(limits_to_the_hair),
        cmocka_unit_test(trade_without_credit),
        cmocka_unit_test(curve_has_its_bounds),
        cmocka_unit_test(far_too_hot),
        cmocka_unit_test(deratings),
        cmocka_unit_test(small_boards),
        cmocka_unit_test(usual_limits),
        cmocka_unit_test(nothing_given),
        cmocka_unit_test(one_field_wrong),
        cmocka_unit_test(faces_and_surface_wrong),
        cmocka_unit_test(no_heat),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
