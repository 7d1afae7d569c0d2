/* SPDX-License-Identifier: MIT */
/*
 * The design day against its own words, and a box judged by it: the limit on every side of the peak, sweating with the
 * mend put to the test, and every figure that may be missing.
 */
#include "climate_help.h"

#include "core/box/air.h"

/* --- the design day ----------------------------------------------------------------------------------------------- */

static void test_the_design_day(void **const state)
{
    (void)state;
    const ds_day_design design = {-3, 9, 0.9, 600, 400, 1.5, 0.4};
    ds_weather_hour hours[DS_DAY_DESIGN_HOURS];
    ds_day_design_hours(hours, &design);
    assert_true(fabs(hours[5].air_c + 3) < 1e-12 && fabs(hours[15].air_c - 9) < 1e-12);
    assert_true(fabs(hours[10].air_c - 3) < 1e-12 && fabs(hours[22].air_c - 3) < 1e-12);
    assert_true(fabs(hours[5].humidity - 0.9) < 1e-12);
    assert_true(fabs(hours[12].sun_flat_w_m2 - 600) < 1e-9 && fabs(hours[12].sun_wall_w_m2 - 400) < 1e-9);
    assert_true(fabs(hours[9].sun_flat_w_m2 - 600 * sqrt(0.5)) < 1e-9);
    for (int hour = 0; hour < DS_DAY_DESIGN_HOURS; hour++) {
        const double vapour_pa = hours[hour].humidity * ds_air_over_water_pa(hours[hour].air_c);
        assert_true(fabs(vapour_pa - 0.9 * ds_air_over_water_pa(-3)) < 1e-9);
        assert_true((hours[hour].sun_flat_w_m2 > 0) == (hour > 6 && hour < 18));
        assert_true(hours[hour].wind_m_s == 1.5 && hours[hour].clear == 0.4);
        if (hour > 5 && hour <= 15) {
            assert_true(hours[hour].air_c > hours[hour - 1].air_c);
        } else if (hour > 15) {
            assert_true(hours[hour].air_c < hours[hour - 1].air_c);
        }
    }
}

/* --- a box -------------------------------------------------------------------------------------------------------- */

static const char *said(void (*const say)(ds_text *, const ds_through *), const told *const t)
{
    ds_text text;
    ds_text_init(&text, t->w.arena.alloc);
    say(&text, &t->climate.day);
    return kept(&text);
}

#define SHELL                                                                                                \
    "\"size_mm\": [600, 900, 300], \"mounted\": \"free\", \"surface\": \"grp\", \"colour\": \"light-grey\""
#define CLEAR_NIGHT                                                                                          \
    "\"day\": {\"low_c\": 4, \"high_c\": 13, \"humidity_pct\": 95, \"sun_flat_w_m2\": 300, "                 \
    "\"sun_wall_w_m2\": 200, \"wind_m_s\": 0.5, \"clear\": 1}"
#define KIOSK SHELL ", \"seal\": \"breathing\", \"keep_dry\": true, \"contents_kg\": 10, " CLEAR_NIGHT

static ds_verdict dryness(const char *const json)
{
    told t;
    tell(&t, json, true);
    const ds_verdict verdict = t.climate.day.dry_verdict;
    box_close(&t.w);
    return verdict;
}

/* The heater that is advised, built in, keeps it dry with the margin; half of it does not. */
static void test_the_advised_heater_keeps_it_dry(void **const state)
{
    (void)state;
    told t;
    tell(&t, "{" KIOSK ", \"watts\": 0}", true);
    const ds_through *const day = &t.climate.day;
    assert_true(day->solved && day->cold.wet_hours > 1);
    assert_int_equal(day->dry_verdict, DS_SHORT);
    assert_true(fabs(day->five_k_w - 3.5 * 1.71 * 5) < 1e-9);
    assert_true(day->heater_w > 0);
    assert_non_null(strstr(said(ds_through_say_mend, &t), "Fit a heater of "));
    assert_non_null(strstr(said(ds_through_say_sweat, &t), "It sweats from "));
    char heated[600];
    snprintf(heated, sizeof heated,
             "{" KIOSK ", \"watts\": 0, \"heater\": {\"watts\": %.0f, \"on\": \"always\"}}", day->heater_w);
    assert_int_equal(dryness(heated), DS_FITS);
    snprintf(heated, sizeof heated,
             "{" KIOSK ", \"watts\": 0, \"heater\": {\"watts\": %.0f, \"on\": \"always\"}}",
             day->heater_w / 3);
    assert_int_not_equal(dryness(heated), DS_FITS);
    box_close(&t.w);
}

static void test_a_lid_closed_drier_keeps_it_dry(void **const state)
{
    (void)state;
    told t;
    tell(&t,
         "{" SHELL ", \"seal\": \"sealed\", \"humidity_pct\": 70, \"keep_dry\": true, \"contents_kg\": 3, "
         "\"watts\": 0, " CLEAR_NIGHT "}",
         true);
    const ds_through *const day = &t.climate.day;
    assert_int_equal(day->dry_verdict, DS_SHORT);
    assert_true(day->closing_pct >= 5 && day->closing_pct < 60);
    assert_true(day->cold.most_g <= ds_air_settled_g(162, 20, 0.7, -3) && day->cold.most_g > 0.3);
    char drier[600];
    snprintf(drier, sizeof drier,
             "{" SHELL
             ", \"seal\": \"sealed\", \"humidity_pct\": %.0f, \"keep_dry\": true, \"contents_kg\": 3, "
             "\"watts\": 0, " CLEAR_NIGHT "}",
             day->closing_pct);
    assert_int_equal(dryness(drier), DS_FITS);
    box_close(&t.w);
}

/* Without the word nothing is judged; under a roof the same night is milder. */
static void test_what_is_not_asked_and_shade(void **const state)
{
    (void)state;
    told t;
    tell(&t, "{" SHELL ", \"seal\": \"breathing\", \"contents_kg\": 10, \"watts\": 0, " CLEAR_NIGHT "}",
         true);
    assert_true(t.climate.day.cold.wet_hours > 1 && t.climate.day.dry_verdict == DS_FITS);
    const double open_h = t.climate.day.cold.wet_hours;
    const double open_c = t.climate.day.warm.highest_c;
    box_close(&t.w);
    tell(&t,
         "{" SHELL ", \"seal\": \"breathing\", \"contents_kg\": 10, \"watts\": 0, \"sun\": {\"shade\": "
         "true}, " CLEAR_NIGHT "}",
         true);
    assert_true(t.climate.day.solved);
    assert_true(t.climate.day.cold.wet_hours < open_h && t.climate.day.warm.highest_c < open_c);
    box_close(&t.w);
}

/* --- heat --------------------------------------------------------------------------------------------------------- */

#define LOADED SHELL ", \"seal\": \"sealed\", \"humidity_pct\": 30, \"contents_kg\": 10, " CLEAR_NIGHT

static void check_limit(const double limit_c, const ds_verdict want)
{
    char json[700];
    snprintf(json, sizeof json, "{" LOADED ", \"watts\": 80, \"limit_c\": %.17g}", limit_c);
    told t;
    tell(&t, json, true);
    assert_int_equal(t.climate.day.heat_verdict, want);
    box_close(&t.w);
}

static void test_the_limit(void **const state)
{
    (void)state;
    told t;
    tell(&t, "{" LOADED ", \"watts\": 80, \"limit_c\": 100}", true);
    const ds_through day = t.climate.day;
    assert_true(day.peak_c.low < day.warm.highest_c && day.warm.highest_c < day.peak_c.high);
    const double rise_k = day.warm.highest_c - day.peak_air_c;
    assert_true(rise_k > 5 && fabs(day.peak_c.high - day.peak_air_c - 1.15 * rise_k) < 1e-9);
    box_close(&t.w);
    check_limit(day.peak_c.high, DS_FITS);
    check_limit(day.peak_c.high - 0.01, DS_UNKNOWN);
    check_limit(day.peak_c.low + 0.01, DS_UNKNOWN);
    check_limit(day.peak_c.low - 0.01, DS_SHORT);
    tell(&t, "{" LOADED ", \"limit_c\": 100}", true); /* no losses stated */
    assert_int_equal(t.climate.day.heat_verdict, DS_UNKNOWN);
    assert_int_equal(t.climate.heat_verdict, DS_UNKNOWN);
    box_close(&t.w);
}

/* Steady heat alone would pass; a day that cannot be told keeps it from that. */
static void test_a_day_that_cannot_be_told(void **const state)
{
    (void)state;
    told t;
    tell(&t,
         "{" SHELL
         ", \"seal\": \"sealed\", \"watts\": 5, \"air_c\": 20, \"limit_c\": 90, \"sun\": {\"shade\": true}}",
         true);
    assert_int_equal(t.climate.heat_verdict, DS_FITS);
    box_close(&t.w);
    tell(&t,
         "{" SHELL
         ", \"seal\": \"sealed\", \"watts\": 5, \"air_c\": 20, \"limit_c\": 90, \"sun\": {\"shade\": true}, "
         "\"day\": {\"low_c\": 4}}",
         true);
    assert_int_equal(t.climate.heat_verdict, DS_UNKNOWN);
    assert_int_not_equal(t.climate.heat_why, DS_HEAT_DISAGREE);
    assert_string_equal(
        said(ds_through_say_heat, &t),
        "How warm it becomes over the day cannot be told: not stated or out of range: the "
        "highest air temperature of the day, the humidity at the coldest hour, how humid the air "
        "was when it was closed.");
    box_close(&t.w);
}

/* --- what is missing ---------------------------------------------------------------------------------------------- */

static void check_missing(const char *const json, const ds_through_field field)
{
    told t;
    tell(&t, json, true);
    assert_false(t.climate.day.solved);
    assert_int_equal(t.climate.day.dry_verdict, DS_UNKNOWN);
    assert_true(t.climate.day.missing == 1U << field);
    assert_non_null(strstr(said(ds_through_say_sweat, &t), ds_through_field_lack(field).words));
    box_close(&t.w);
}

#define DRY SHELL ", \"keep_dry\": true, \"watts\": 0, "
#define REST "\"wind_m_s\": 0.5, \"clear\": 1}"

static void test_missing(void **const state)
{
    (void)state;
    const char *const breathing = "\"seal\": \"breathing\", ";
    const struct {
        const char *seal, *day;
        ds_through_field field;
    } rows[] = {
        {breathing, "\"high_c\": 13, \"humidity_pct\": 95, \"sun_flat_w_m2\": 3, \"sun_wall_w_m2\": 2, ",
         DS_THROUGH_LOW},
        {breathing, "\"low_c\": 4, \"humidity_pct\": 95, \"sun_flat_w_m2\": 3, \"sun_wall_w_m2\": 2, ",
         DS_THROUGH_HIGH},
        {breathing,
         "\"low_c\": 14, \"high_c\": 13, \"humidity_pct\": 95, \"sun_flat_w_m2\": 3, \"sun_wall_w_m2\": 2, ",
         DS_THROUGH_ORDER},
        {breathing, "\"low_c\": 4, \"high_c\": 13, \"sun_flat_w_m2\": 3, \"sun_wall_w_m2\": 2, ",
         DS_THROUGH_HUMIDITY},
        {breathing, "\"low_c\": 4, \"high_c\": 13, \"humidity_pct\": 95, \"sun_wall_w_m2\": 2, ",
         DS_THROUGH_SUN_FLAT},
        {breathing, "\"low_c\": 4, \"high_c\": 13, \"humidity_pct\": 95, \"sun_flat_w_m2\": 3, ",
         DS_THROUGH_SUN_WALL},
        {"",
         "\"low_c\": 4, \"high_c\": 13, \"humidity_pct\": 95, \"sun_flat_w_m2\": 3, \"sun_wall_w_m2\": 2, ",
         DS_THROUGH_SEAL},
        {"\"seal\": \"sealed\", ",
         "\"low_c\": 4, \"high_c\": 13, \"humidity_pct\": 95, \"sun_flat_w_m2\": 3, \"sun_wall_w_m2\": 2, ",
         DS_THROUGH_CLOSING},
        {"\"seal\": \"breathing\", \"heater\": {\"watts\": 20, \"on\": \"hygrostat\"}, ",
         "\"low_c\": 4, \"high_c\": 13, \"humidity_pct\": 95, \"sun_flat_w_m2\": 3, \"sun_wall_w_m2\": 2, ",
         DS_THROUGH_HEATER},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char json[700];
        const bool sealed = rows[i].field == DS_THROUGH_SEAL;
        snprintf(json, sizeof json, "{" DRY "%s%s\"day\": {%s" REST "}",
                 sealed ? "\"humidity_pct\": 50, " : "", rows[i].seal, rows[i].day);
        check_missing(json, rows[i].field);
    }
}

/* No day at all: what must keep dry is unknown, and the day's weight, untold, never helps. */
static void test_no_day_and_no_weight(void **const state)
{
    (void)state;
    told t;
    tell(&t, "{" SHELL ", \"keep_dry\": true}", true);
    assert_int_equal(t.climate.day.dry_verdict, DS_UNKNOWN);
    assert_string_equal(said(ds_through_say_sweat, &t),
                        "Whether it sweats cannot be told: no day is stated.");
    box_close(&t.w);
    const double weights[] = {0, 5, 20, 48.6};
    tell(&t, "{" SHELL ", \"seal\": \"breathing\", \"keep_dry\": true, \"watts\": 0, " CLEAR_NIGHT "}", true);
    const ds_through untold = t.climate.day;
    box_close(&t.w);
    for (int i = 0; i < 4; i += 3) {
        char json[700];
        snprintf(json, sizeof json,
                 "{" SHELL ", \"seal\": \"breathing\", \"watts\": 0, \"contents_kg\": %g, " CLEAR_NIGHT "}",
                 weights[i]);
        tell(&t, json, true);
        assert_true(untold.cold.wet_hours >= t.climate.day.cold.wet_hours - 1e-9);
        assert_true(untold.warm.highest_c >= t.climate.day.warm.highest_c - 1e-9);
        box_close(&t.w);
    }
}

/* --- what is not stated ------------------------------------------------------------------------------------------- */

static ds_through day_of(const char *const json)
{
    told t;
    tell(&t, json, true);
    const ds_through day = t.climate.day;
    box_close(&t.w);
    assert_true(day.solved);
    return day;
}

#define DAY_OF(high, rest)                                                                                   \
    "\"watts\": 0, \"day\": {\"low_c\": 4, \"high_c\": " high                                                \
    ", \"humidity_pct\": 40, \"sun_flat_w_m2\": 300, \"sun_wall_w_m2\": 200" rest "}"
#define SEALED SHELL ", \"seal\": \"sealed\", \"humidity_pct\": 30, \"contents_kg\": 10, "
#define BREATHES SHELL ", \"seal\": \"breathing\", "

/* The lid was closed at the air of the box, or the day's warmest and 20 C at least. */
static void test_where_the_lid_was_closed(void **const state)
{
    (void)state;
    assert_true(day_of("{" SEALED DAY_OF("13", "") "}").cold_box.closing_c == 20);
    assert_true(day_of("{" SEALED DAY_OF("26", "") "}").cold_box.closing_c == 26);
    assert_true(day_of("{" SEALED "\"air_c\": 9, " DAY_OF("26", "") "}").cold_box.closing_c == 9);
}

/* A fan counts half unless it has no filter; a vent without one lets the box's own volume through in an hour. */
static void test_what_air_passes(void **const state)
{
    (void)state;
    const ds_through fan = day_of("{" BREATHES "\"fan_m3_h\": 60, " DAY_OF("13", "") "}");
    assert_true(fan.warm_box.seal == DS_DAY_VENTED && fan.warm_box.air_m3_h == 30);
    const ds_through bare = day_of("{" BREATHES "\"fan_m3_h\": 60, \"filter\": false, " DAY_OF("13", "") "}");
    assert_true(bare.warm_box.air_m3_h == 60 && bare.cold_box.air_m3_h == 60);
    const ds_through vent = day_of("{" SHELL ", \"seal\": \"vented\", " DAY_OF("13", "") "}");
    assert_true(fabs(vent.warm_box.air_m3_h - 0.162) < 1e-12);
}

/* Overcast for heat and clear for sweating, whichever is worse. */
static void test_a_sky_that_is_not_stated(void **const state)
{
    (void)state;
    const ds_through untold = day_of("{" SEALED DAY_OF("13", "") "}");
    const ds_through clear = day_of("{" SEALED DAY_OF("13", ", \"clear\": 1") "}");
    const ds_through overcast = day_of("{" SEALED DAY_OF("13", ", \"clear\": 0") "}");
    assert_true(untold.warm.highest_c == overcast.warm.highest_c);
    assert_true(overcast.warm.highest_c > clear.warm.highest_c + 0.5);
    assert_true(untold.cold.margin_k == clear.cold.margin_k);
    assert_true(overcast.cold.margin_k > clear.cold.margin_k + 0.5);
}

/* Dry with nothing inside and with much: the nearer to the dew point counts. */
static void test_gear_that_is_not_stated(void **const state)
{
    (void)state;
    const ds_through untold = day_of("{" BREATHES DAY_OF("13", "") "}");
    const ds_through light = day_of("{" BREATHES "\"contents_kg\": 0, " DAY_OF("13", "") "}");
    const ds_through full = day_of("{" BREATHES "\"contents_kg\": 48.6, " DAY_OF("13", "") "}");
    assert_true(fabs(light.warm_box.skin_j_k - 1.98 * 0.003 * 1800 * 1000) < 1e-6);
    assert_true(fabs(full.warm_box.inside_j_k - light.warm_box.inside_j_k - 48.6 * 500) < 1e-6);
    assert_true(light.cold.wet_hours == 0 && full.cold.wet_hours == 0);
    assert_true(fabs(light.cold.margin_k - full.cold.margin_k) > 0.1);
    assert_true(untold.cold.margin_k == fmin(light.cold.margin_k, full.cold.margin_k));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_the_design_day),
        cmocka_unit_test(test_the_advised_heater_keeps_it_dry),
        cmocka_unit_test(test_a_lid_closed_drier_keeps_it_dry),
        cmocka_unit_test(test_what_is_not_asked_and_shade),
        cmocka_unit_test(test_the_limit),
        cmocka_unit_test(test_a_day_that_cannot_be_told),
        cmocka_unit_test(test_missing),
        cmocka_unit_test(test_no_day_and_no_weight),
        cmocka_unit_test(test_where_the_lid_was_closed),
        cmocka_unit_test(test_what_air_passes),
        cmocka_unit_test(test_a_sky_that_is_not_stated),
        cmocka_unit_test(test_gear_that_is_not_stated),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
