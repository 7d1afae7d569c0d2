/* SPDX-License-Identifier: MIT */
/*
 * The box of a job handed to heat, quench and flood: every word of `mounted`, faces, sun, fan and seal against a case
 * written by hand, the published 60 W box, and what is missing, misspelt or beyond a range. The figures themselves are
 * tested by box_heat_ref, box_pressure_ref and box_flood_ref.
 */
#include "climate_help.h"

/* The sentence, until the next call. */
static const char *said(void (*const say)(ds_text *, const ds_climate *), const told *const t)
{
    ds_text text;
    ds_text_init(&text, t->w.arena.alloc);
    say(&text, &t->climate);
    return kept(&text);
}

#define BOX_60_W                                                                                             \
    "\"size_mm\": [400, 600, 200], \"surface\": \"painted-steel\", \"watts\": 60, \"air_c\": 35, "           \
    "\"seal\": \"sealed\""

/* --- heat --------------------------------------------------------------------------------------------------------- */

/* heat.h's example: 60 W, painted steel on a wall, 51 to 60 C. */
static void test_the_60_w_box(void **const state)
{
    (void)state;
    told t;
    tell(&t, "{" BOX_60_W ", \"mounted\": \"wall\", \"limit_c\": 55}", false);
    assert_true(fabs(t.climate.heat.spread_k.low - 16.4) < 0.05);
    assert_true(fabs(t.climate.heat.spread_k.high - 25.0) < 0.05);
    assert_true(t.climate.heat_asked && t.climate.heat_verdict == DS_UNKNOWN);
    assert_int_equal(t.climate.heat_why, DS_HEAT_DISAGREE);
    assert_true(t.climate.trail.len > 5);
    assert_string_equal(said(ds_climate_say_heat, &t),
                        "Inside it becomes 51.4 to 60 °C with 60 W at 35 °C around it; the limit is 55 °C. "
                        "The methods disagree about the limit.");
    box_close(&t.w);
}

static void expect_verdict(const char *const json, const bool outdoors, const ds_verdict verdict)
{
    told t;
    tell(&t, json, outdoors);
    if (t.climate.heat_verdict != verdict) {
        fail_msg("%s: %s", json, said(ds_climate_say_heat, &t));
    }
    box_close(&t.w);
}

static void test_against_limits(void **const state)
{
    (void)state;
    expect_verdict("{" BOX_60_W ", \"mounted\": \"wall\", \"limit_c\": 75}", false, DS_FITS);
    expect_verdict("{" BOX_60_W ", \"mounted\": \"wall\", \"limit_c\": 40}", false, DS_SHORT);
    expect_verdict("{" BOX_60_W ", \"mounted\": \"wall\"}", false, DS_FITS); /* no limit: not asked */
    expect_verdict("{\"limit_c\": 55}", false, DS_UNKNOWN);
    /* Outdoors sunshine must be answered; a shade answers it, a flux without a colour does not. */
    expect_verdict("{" BOX_60_W ", \"mounted\": \"wall\", \"limit_c\": 75}", true, DS_UNKNOWN);
    expect_verdict("{" BOX_60_W ", \"mounted\": \"wall\", \"limit_c\": 75, \"sun\": {\"shade\": true}}", true,
                   DS_FITS);
#define SUNLIT ", \"mounted\": \"wall\", \"sun\": {\"flat_w_m2\": 900, \"wall_w_m2\": 700}"
    expect_verdict("{" BOX_60_W SUNLIT ", \"limit_c\": 55}", true, DS_UNKNOWN);
    expect_verdict("{" BOX_60_W SUNLIT ", \"limit_c\": 55, \"colour\": \"light-grey\"}", true, DS_SHORT);
    expect_verdict("{" BOX_60_W SUNLIT ", \"limit_c\": 95, \"colour\": \"white\"}", true, DS_FITS);
    /* A box whose openings are not told is not called too warm, since they may carry heat off. */
    expect_verdict(
        "{\"size_mm\": [400, 600, 200], \"surface\": \"painted-steel\", \"watts\": 60, \"air_c\": 35, "
        "\"mounted\": \"wall\", \"limit_c\": 40}",
        false, DS_UNKNOWN);
}

/* Settings in the order top, bottom, front, rear, left, right: e exposed, c covered, w on the wall, f gives off nothing. */
static void expect_faces(const char *const more, const char *const want)
{
    static const char SIGNS[] = "?ecwf";
    char json[400];
    snprintf(json, sizeof json, "{" BOX_60_W "%s}", more);
    told t;
    tell(&t, json, false);
    char got[DS_HEAT_FACES + 1] = "";
    for (int i = 0; i < DS_HEAT_FACES; i++) {
        got[i] = SIGNS[t.climate.heat_case.faces[i]];
    }
    assert_string_equal(got, want);
    box_close(&t.w);
}

static void test_faces(void **const state)
{
    (void)state;
    expect_faces("", "??????");
    expect_faces(", \"mounted\": \"wall\"", "eeewee");
    expect_faces(", \"mounted\": \"free\"", "eeeeee");
    expect_faces(", \"mounted\": \"row-end\"", "eeeece");
    expect_faces(", \"mounted\": \"row-end-wall\"", "eeewce");
    expect_faces(", \"mounted\": \"row-middle\"", "eeeecc");
    expect_faces(", \"mounted\": \"row-middle-wall\"", "eeewcc");
    expect_faces(", \"mounted\": \"recessed\"", "ffefff");
    expect_faces(", \"mounted\": \"free\", \"faces\": [{\"face\": \"top\", \"covered\": true}, "
                 "{\"face\": \"bottom\", \"covered\": true}, {\"face\": \"back\", \"covered\": true}]",
                 "cfecee");
    expect_faces(", \"mounted\": \"recessed\", \"faces\": [{\"face\": \"left\", \"covered\": true}, "
                 "{\"face\": \"right\", \"covered\": false}]",
                 "ffeffe");
    expect_faces(", \"mounted\": \"wall\", \"faces\": [{\"face\": \"back\", \"covered\": false}]", "eeeeee");
}

static void test_fan_and_seal(void **const state)
{
    (void)state;
    static const struct {
        const char *more;
        double factor;
        ds_heat_openings openings;
    } CASES[] = {{"\"seal\": \"vented\", \"fan_m3_h\": 40", 0.5, DS_HEAT_OPEN},
                 {"\"seal\": \"vented\", \"fan_m3_h\": 40, \"filter\": true", 0.5, DS_HEAT_OPEN},
                 {"\"seal\": \"vented\", \"fan_m3_h\": 40, \"filter\": false", 1, DS_HEAT_OPEN},
                 {"\"seal\": \"breathing\"", NAN, DS_HEAT_CLOSED},
                 {"\"watts\": 1", NAN, DS_HEAT_OPENINGS_NOT_SAID}};
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        char json[200];
        snprintf(json, sizeof json, "{%s}", CASES[i].more);
        told t;
        tell(&t, json, false);
        const ds_heat_case *const c = &t.climate.heat_case;
        assert_true(isnan(CASES[i].factor) ? isnan(c->fan_factor) : c->fan_factor == CASES[i].factor);
        assert_int_equal(c->openings, CASES[i].openings);
        box_close(&t.w);
    }
}

/* --- what is missing or not known --------------------------------------------------------------------------------- */

#define A_DAY                                                                                                \
    "\"day\": {\"low_c\": 4, \"high_c\": 13, \"humidity_pct\": 95, \"sun_flat_w_m2\": 0, "                   \
    "\"sun_wall_w_m2\": 0, \"wind_m_s\": 0, \"clear\": 1}"
#define BOX_13_C                                                                                             \
    "\"size_mm\": [400, 600, 200], \"surface\": \"painted-steel\", \"mounted\": \"free\", \"air_c\": 13, "   \
    "\"wall_mm\": 1.5, \"contents_kg\": 10, \"humidity_pct\": 40, \"sun\": {\"shade\": true}"

/* A heater that is always on warms as losses do. */
static void test_a_heater_that_is_always_on(void **const state)
{
    (void)state;
    told losses;
    told heater;
    tell(&losses, "{" BOX_13_C ", \"seal\": \"sealed\", \"watts\": 90, \"limit_c\": 30}", true);
    tell(&heater,
         "{" BOX_13_C ", \"seal\": \"sealed\", \"watts\": 0, \"limit_c\": 30, "
         "\"heater\": {\"watts\": 90, \"on\": \"always\"}}",
         true);
    assert_int_equal(losses.climate.heat_verdict, DS_SHORT);
    assert_int_equal(heater.climate.heat_verdict, DS_SHORT);
    assert_true(heater.climate.heat.spread_k.high == losses.climate.heat.spread_k.high);
    box_close(&heater.w);
    box_close(&losses.w);
}

/* What is too hot as it stands stays so, whatever is not known of its day; what fits becomes open. */
static void test_a_day_cures_nothing(void **const state)
{
    (void)state;
    told t;
    tell(&t, "{" BOX_13_C ", \"seal\": \"sealed\", \"watts\": 90, \"limit_c\": 30, \"day\": {\"low_c\": 4}}",
         true);
    assert_int_equal(t.climate.heat_verdict, DS_SHORT);
    box_close(&t.w);
    tell(&t, "{" BOX_13_C ", \"seal\": \"sealed\", \"watts\": 5, \"limit_c\": 80, \"day\": {\"low_c\": 4}}",
         true);
    assert_int_equal(t.climate.heat_verdict, DS_UNKNOWN);
    assert_int_equal(t.climate.heat_why, DS_HEAT_DAY_OPEN);
    assert_string_equal(said(ds_climate_mend_heat, &t), "State what is missing of the box and its day.");
    box_close(&t.w);
}

/* Called sealed, with something in it that lets vapour through: whether it sweats is open, not answered as if it held. */
static void test_sealed_in_vain(void **const state)
{
    (void)state;
    static const char *const ENTRIES[] = {"\"breather\"", "\"drain\"", "\"brush\"", "\"nothing\""};
    for (size_t i = 0; i <= sizeof ENTRIES / sizeof *ENTRIES; i++) {
        char json[900];
        const bool bare = i == sizeof ENTRIES / sizeof *ENTRIES;
        snprintf(json, sizeof json,
                 "{" BOX_13_C ", " A_DAY ", \"seal\": \"sealed\", \"keep_dry\": true, "
                 "\"entries\": [{\"face\": \"bottom\", \"size\": \"M12\", \"holds\": %s}]}",
                 bare ? "\"blank\", \"ip\": \"IP66\", \"wall_seal\": true" : ENTRIES[i]);
        told t;
        tell(&t, json, true);
        assert_int_equal(t.climate.day.solved, bare);
        assert_int_equal(t.climate.day.missing, bare ? 0 : 1U << DS_THROUGH_SEAL);
        box_close(&t.w);
    }
}

/* The sun on walls over a day lights what it lights at its worst bearing in the steady calculation. */
static void test_the_day_sun_on_walls(void **const state)
{
    (void)state;
    told t;
    tell(&t,
         "{\"size_mm\": [400, 600, 200], \"surface\": \"painted-steel\", \"colour\": \"white\", "
         "\"mounted\": \"free\", \"seal\": \"sealed\", \"humidity_pct\": 40, \"watts\": 0, " A_DAY "}",
         true);
    assert_true(t.climate.day.solved);
    const double want = sqrt(0.24 * 0.24 + 0.12 * 0.12);
    assert_true(fabs(t.climate.day.warm_box.lit_m2 - want) < 1e-9);
    box_close(&t.w);
}

static void test_missing(void **const state)
{
    (void)state;
    told t;
    tell(&t, "{\"limit_c\": 55, \"watts\": 20, \"size_mm\": [400, 600, 200]}", true);
    assert_string_equal(said(ds_climate_say_heat, &t),
                        "The heat inside cannot be told; not stated: how it is mounted, its surface, how "
                        "warm the air around it is, "
                        "the sun on it.");
    assert_int_equal(t.climate.trail.len, 0);
    box_close(&t.w);
    tell(&t, "{\"surface\": \"papier\"}", false);
    assert_false(t.climate.heat_told);
    assert_true(ds_str_is(t.climate.surface_unknown, "papier"));
    box_close(&t.w);
    tell(&t, "{" BOX_60_W ", \"colour\": \"ligt-grey\", \"mounted\": \"wall\", \"limit_c\": 75}", false);
    assert_true(ds_str_is(t.climate.colour_unknown, "ligt-grey"));
    assert_string_equal(said(ds_climate_mend_heat, &t),
                        "State a known colour, for example white, light-grey or black.");
    box_close(&t.w);
    tell(&t, "{\"seal\": \"sealed\"}", false);
    assert_false(t.climate.heat_told || t.climate.quench_told || t.climate.flood_told ||
                 t.climate.sweating_told);
    box_close(&t.w);
}

/* --- water -------------------------------------------------------------------------------------------------------- */

/* Without its losses nobody knows how warm the box is, so neither what it sucks in nor whether numeral 7 answers. */
static void test_quench(void **const state)
{
    (void)state;
    told t;
    tell(&t, "{\"air_c\": 35, \"cooled_to_c\": 15}", false);
    assert_true(t.climate.quench_told && t.climate.quench.missing);
    box_close(&t.w);
    tell(&t, "{" BOX_60_W ", \"mounted\": \"wall\", \"cooled_to_c\": 15}", false);
    const double warm_c = 35 + t.climate.heat.spread_k.high;
    assert_true(t.climate.quench.moist_pa == ds_quench_drop_pa(warm_c, 15, 1));
    assert_true(t.climate.quench.of_immersion > 1);
    box_close(&t.w);
}

static void expect_flood(const char *const more, const ds_flood_need need, const char *const as_need)
{
    char json[400];
    snprintf(json, sizeof json, "{\"lowest_m\": 1.0, %s}", more);
    told t;
    tell(&t, json, false);
    assert_true(t.climate.flood_told);
    assert_int_equal(t.climate.flood.need, need);
    ds_need want = DS_NEED_NOTHING;
    ds_reading reading;
    assert_true(!as_need || ds_need_read(ds_str_of(as_need), &want, &reading));
    assert_true(ds_climate_flood_need(&t.climate) == want);
    box_close(&t.w);
}

static void test_flood(void **const state)
{
    (void)state;
    expect_flood("\"flood\": {\"level_m\": 0.5, \"hours\": 2}", DS_FLOOD_SPLASH, NULL);
    expect_flood("\"flood\": {\"level_m\": 1.5}", DS_FLOOD_NOT_KNOWN, NULL);
    expect_flood("\"flood\": {\"hours\": 2}", DS_FLOOD_NOT_KNOWN, NULL);
    /* Half a metre for a quarter of an hour: only a box known to be cool is answered by numeral 7. */
    expect_flood("\"flood\": {\"level_m\": 1.5, \"hours\": 0.25}", DS_FLOOD_NOT_KNOWN, NULL);
    expect_flood("\"air_c\": 12, \"cooled_to_c\": 10, \"flood\": {\"level_m\": 1.5, \"hours\": 0.25}",
                 DS_FLOOD_NOT_KNOWN, NULL);
    expect_flood(
        "\"size_mm\": [400, 600, 200], \"surface\": \"painted-steel\", \"mounted\": \"wall\", \"watts\": 0, "
        "\"air_c\": 12, \"cooled_to_c\": 10, \"flood\": {\"level_m\": 1.5, \"hours\": 0.25}",
        DS_FLOOD_NUMERAL_7, "IPX7");
    expect_flood("\"flood\": {\"level_m\": 2.5, \"hours\": 24}", DS_FLOOD_NUMERAL_8, "IPX8 (1.5 m, 24 h)");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_60_w_box),
        cmocka_unit_test(test_against_limits),
        cmocka_unit_test(test_faces),
        cmocka_unit_test(test_fan_and_seal),
        cmocka_unit_test(test_a_heater_that_is_always_on),
        cmocka_unit_test(test_a_day_cures_nothing),
        cmocka_unit_test(test_sealed_in_vain),
        cmocka_unit_test(test_the_day_sun_on_walls),
        cmocka_unit_test(test_missing),
        cmocka_unit_test(test_quench),
        cmocka_unit_test(test_flood),
    };
    return cmocka_run_group_tests_name("box_climate_ref", tests, NULL, NULL);
}
