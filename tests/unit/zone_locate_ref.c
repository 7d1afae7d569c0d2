/* SPDX-License-Identifier: MIT */
/*
 * Where a thing stands: size and straddling, tolerance, limits, corners. Distances are worked beside each case; the zones
 * reach 2.25 m up and 0.60 m out (memory: BS 7671 701.32). How the standards' open points are read: docs/plan.md.
 */
#include "zone_help.h"

#define ROOM "\"height_m\": 2.6, \"outline_m\": [[0,0],[5,0],[5,3],[0,3]]"
#define BATH                                                                                                 \
    "{\"kind\": \"bath\", \"id\": \"b\", \"outline_m\": [[0,0],[1.7,0],[1.7,0.7],[0,0.7]], \"rim_m\": "      \
    "0.55, "                                                                                                 \
    "\"bottom_m\": 0.15}"
#define WITH(features) ROOM ", \"features\": [" features "]"

/* --- size --------------------------------------------------------------------------------------------------------- */

static void any_part_counts(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room", WITH(BATH), "");
    ds_zone_answer a = expect_zone(&w, at(0.85, 1.35, 1), "outside"); /* 0.65 */
    expect_warning(a, DS_ZONE_STRADDLES, false);
    a = expect_zone(&w, sized(0.85, 1.35, 1, 0.1, 0.2, 0.1), "2"); /* its near side at 0.55 */
    expect_near(a.distance_m, 0.55, 1e-9);
    expect_warning(a, DS_ZONE_STRADDLES, true);
    a = expect_zone(&w, sized(0.85, 0.8, 1, 0.1, 0.3, 0.1), "1"); /* its near side over the bath */
    expect_warning(a, DS_ZONE_STRADDLES, true);
    a = expect_zone(&w, sized(0.85, 1.2, 1, 0.1, 0.2, 0.1), "2");
    expect_warning(a, DS_ZONE_STRADDLES, false);
    /* Upwards: from 2.2 over the bath; from 0.5, below the rim. */
    expect_zone(&w, at(0.85, 0.35, 2.3), "outside");
    a = expect_zone(&w, sized(0.85, 0.35, 2.3, 0.1, 0.1, 0.2), "1");
    expect_warning(a, DS_ZONE_STRADDLES, true);
    expect_zone(&w, sized(0.85, 0.35, 0.6, 0.1, 0.1, 0.2), "0");
    expect_zone(&w, sized(0.85, 0.35, 0.7, 0.1, 0.1, 0.2), "1");
    /* Over the corner: the near corner of the thing is 0.4, 0.4 from it. */
    a = expect_zone(&w, sized(2.2, 1.2, 1, 0.2, 0.2, 0.1), "2");
    expect_near(a.distance_m, sqrt(0.32), 1e-9);
    zone_close(&w);
}

/* A long thing over a vessel that it reaches beyond on both sides: no corner and not its middle stand in the zone. */
static void a_tube_across(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(
        &w, "bath-room",
        WITH("{\"kind\": \"bath\", \"outline_m\": [[1,0.5],[1.6,0.5],[1.6,2.2],[1,2.2]], \"rim_m\": 0.5, "
             "\"bottom_m\": 0.1}"),
        "");
    expect_zone(&w, sized(2.45, 1.3, 1, 4.8, 0.04, 0.04), "1");
    expect_zone(&w, sized(2.45, 2.5, 1, 4.8, 0.04, 0.04), "2");
    expect_zone(&w, sized(2.45, 2.9, 1, 4.8, 0.04, 0.04), "outside");
    zone_close(&w);
}

/* By a round pool the nearest part of a long thing may be far from its middle: 0.5 m less than its line from the centre. */
static void a_long_thing_by_a_round_pool(void **const state)
{
    (void)state;
    char plan[512];
    const double h = 5 * sqrt(0.5); /* two arcs that meet at 45 and 225 degrees */
    snprintf(plan, sizeof plan,
             "\"outline_m\": [[-20,-20],[20,-20],[20,20],[-20,20]], \"features\": [{\"kind\": \"pool\", "
             "\"outline_m\": [{\"to_m\": [%.17g,%.17g], \"through_m\": [%.17g,%.17g]}, {\"to_m\": "
             "[%.17g,%.17g], \"through_m\": [%.17g,%.17g]}]}]",
             h, h, h, -h, -h, -h, -h, h);
    zone_world w;
    zone_open(&w, "pool", plan, "");
    for (int i = 0; i < 60; i++) {
        const double off = i * 0.1;
        const double shift = i % 2 ? 2.5 : -2.5;
        const ds_zone_item along = sized(shift, 5 + off + 0.02, 1, 6, 0.04, 0.04);
        const ds_zone_item upright = sized(-5 - off - 0.02, shift, 1, 0.04, 6, 0.04);
        const char *const zone = off <= 2 ? "1" : off <= 3.5 ? "2" : "outside";
        if (fabs(off - 2) > 1e-6 && fabs(off - 3.5) > 1e-6) {
            expect_near(expect_zone(&w, along, zone).distance_m, off, 1e-9);
            expect_near(expect_zone(&w, upright, zone).distance_m, off, 1e-9);
        }
    }
    zone_close(&w);
}

/* --- tolerance ---------------------------------------------------------------------------------------------------- */

static void expect_measure(zone_world *const w, const ds_zone_answer *const answer, const char *const want)
{
    ds_text text;
    ds_text_init(&text, &w->memory.alloc);
    ds_zone_say_measure(&text, answer, zone_map(w));
    if (!ds_str_is(ds_text_str(&text), want)) {
        print_error("\"%.*s\", not \"%s\"\n", (int)text.len, text.at, want);
        fail();
    }
    ds_text_free(&text);
}

static void a_rough_position(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room", WITH(BATH), "");
    ds_zone_answer a = expect_zone(&w, rough(1.75, 0.35, 1, 0.1), "1|2");
    assert_int_equal(a.measure, DS_ZONE_MEASURE_DISTANCE);
    expect_near(a.within_m, 0.05, 1e-9);
    expect_measure(&w, &a, "measure its distance from the bath \"b\" to within 50 mm");
    a = expect_zone(&w, rough(0.85, 1.2704, 1, 0.1),
                    "2|outside"); /* 0.5704, 29.6 mm left: asked for no less */
    expect_near(a.within_m, 0.0296, 1e-9);
    expect_measure(&w, &a, "measure its distance from the bath \"b\" to within 29 mm");
    expect_zone(&w, rough(1.9, 0.35, 1.2, 0.5), "1|2|outside");
    expect_zone(&w, rough(0.85, 0.35, 1, 0.1), "1"); /* as rough, but sure */
    expect_zone(&w, rough(1.95, 0.35, 1, 0.1), "2");
    expect_zone(&w, rough(2.5, 0.35, 1, 0.1), "outside");
    a = expect_zone(&w, rough(0.85, 0.35, 2.1995, 0.1), "1|outside");
    assert_int_equal(a.measure, DS_ZONE_MEASURE_HEIGHT);
    expect_measure(&w, &a, "measure its height above the floor to within 50 mm");
    a = expect_zone(&w, rough(0.85, 0.35, 0.6005, 0.1), "0|1");
    expect_measure(&w, &a, "measure its height above the floor to within 50 mm");
    a = expect_zone(&w, rough(2.2999, 0.35, 1, 0.05), "2|outside"); /* 0.1 mm from the limit */
    expect_measure(&w, &a,
                   "measure its distance from the bath \"b\" to within less than 1 mm, or take it for the "
                   "stricter zone");
    zone_close(&w);
}

/* Part of it surely reaches the zone, whatever the rest does. */
static void a_rough_position_and_a_size(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room", WITH(BATH), "");
    expect_zone(&w, both(0.85, 1.2, 1, 0.3, 0.3, 0.3, 0.05), "2");
    expect_zone(&w, both(0.85, 1.4, 1, 0.3, 0.4, 0.3, 0.05), "2"); /* near side at 0.5 */
    /* From 1.5 m to 2.5 m up: what is below 2.25 m is in the zone. */
    expect_zone(&w, both(0.85, 1.2, 2, 0.1, 0.1, 1, 0.02), "2");
    expect_zone(&w, both(0.85, 0.35, 2, 0.1, 0.1, 1, 0.02), "1");
    zone_close(&w);
}

/* Nothing stands below the floor: a skirting socket is in the zone though it may be 5 cm lower or higher. */
static void rough_by_the_floor(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room", WITH(BATH), "");
    expect_zone(&w, rough(0.85, 1.0, 0.03, 0.05), "2");
    expect_zone(&w, rough(0.85, 1.0, 0, 0.01), "2");
    zone_close(&w);
}

/* What is asked for is enough: measured so exactly, the zone is known, or something else is asked for. */
static void the_measure_is_enough(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room",
              WITH(BATH
                   ", {\"kind\": \"partition\", \"from_m\": [2,0], \"to_m\": [2,0.5], \"height_m\": 2.4}, "
                   "{\"kind\": \"shower-outlet\", \"at_m\": [4,0], \"height_m\": 2.3, \"basin\": false}"),
              "");
    zone_dice dice = {31};
    size_t asked = 0;
    for (int i = 0; i < 4000; i++) {
        ds_zone_item item = rough(zone_between(&dice, 0.01, 4.99), zone_between(&dice, 0.01, 2.99),
                                  zone_between(&dice, 0.01, 2.55), zone_between(&dice, 0.01, 0.2));
        ds_zone_answer a;
        if (ds_zone_ask(&a, zone_map(&w), &item) != DS_OK || a.zone != SIZE_MAX) {
            continue;
        }
        asked++;
        assert_true(a.measure != DS_ZONE_MEASURE_NOTHING);
        assert_true(a.within_m >= 0 && a.within_m <= item.tolerance_m);
        item.tolerance_m = a.within_m * 0.999;
        const ds_zone_measure before = a.measure;
        assert_int_equal(ds_zone_ask(&a, zone_map(&w), &item), DS_OK);
        if (a.zone == SIZE_MAX && a.measure == before) {
            print_error("(%g, %g, %g) within %g: still to be measured\n", item.at_m[0], item.at_m[1],
                        item.at_m[2], item.tolerance_m);
            fail();
        }
    }
    assert_true(asked > 400);
    zone_close(&w);
}

static void about_and_tolerance_of_points(void **const state)
{
    (void)state;
    static const char POINTS[] = "{\"id\": \"1\", \"place\": \"a\", \"kind\": \"luminaire\", \"at_m\": "
                                 "[1.75, 0.35, 1], \"about\": true},"
                                 "{\"id\": \"2\", \"place\": \"a\", \"kind\": \"luminaire\", \"at_m\": "
                                 "[1.75, 0.35, 1], \"about\": true, "
                                 "\"tolerance_m\": 0.02},"
                                 "{\"id\": \"3\", \"place\": \"a\", \"kind\": \"luminaire\", \"at_m\": "
                                 "[1.75, 0.35, 1], \"about\": false},"
                                 "{\"id\": \"4\", \"place\": \"a\", \"kind\": \"luminaire\", \"at_m\": "
                                 "[1.75, 0.35, 1], \"tolerance_m\": "
                                 "0.06},"
                                 "{\"id\": \"5\", \"place\": \"a\", \"kind\": \"luminaire\", \"at_m\": "
                                 "[1.81, 0.35, 1], \"about\": true},"
                                 "{\"id\": \"6\", \"place\": \"a\", \"kind\": \"luminaire\", \"at_m\": "
                                 "[1.75, 0.35, 1], \"size_m\": [0.2, "
                                 "0.2, 0.1]}";
    static const char *const ZONES[] = {"unknown", "2", "2", "unknown", "2", "1"};
    zone_world w;
    zone_open(&w, "bath-room", WITH(BATH), POINTS);
    for (size_t i = 0; i < sizeof ZONES / sizeof *ZONES; i++) {
        if (!ds_str_is(w.findings.points[i].zone, ZONES[i])) {
            print_error("point %zu is in zone %.*s, not %s\n", i + 1, (int)w.findings.points[i].zone.len,
                        w.findings.points[i].zone.at, ZONES[i]);
            fail();
        }
        assert_true(strcmp(ZONES[i], "unknown") != 0 || w.findings.points[i].verdict != DS_FITS);
    }
    zone_close(&w);
}

/* --- limits and corners ------------------------------------------------------------------------------------------- */

static void on_a_limit(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room", WITH(BATH), "");
    expect_warning(expect_zone(&w, at(0.85, 1.3, 1), "2"), DS_ZONE_ON_LIMIT, true);
    expect_warning(expect_zone(&w, at(0.85, 1.2996, 1), "2"), DS_ZONE_ON_LIMIT, true);
    expect_warning(expect_zone(&w, at(0.85, 1.299, 1), "2"), DS_ZONE_ON_LIMIT, false);
    expect_warning(expect_zone(&w, at(0.85, 1.301, 1), "outside"), DS_ZONE_ON_LIMIT, false);
    expect_warning(expect_zone(&w, at(0.85, 1.3004, 1), "2"), DS_ZONE_ON_LIMIT, true);
    expect_warning(expect_zone(&w, at(0.85, 1.3006, 1), "outside"), DS_ZONE_ON_LIMIT, false);
    expect_warning(expect_zone(&w, at(0.85, 0.7004, 1), "1"), DS_ZONE_ON_LIMIT, false);
    expect_zone(&w, at(0.85, 0.35, 0.5504), "0");
    expect_zone(&w, at(0.85, 0.35, 2.2506), "outside");
    const ds_zone_answer top = expect_zone(&w, at(0.85, 0.35, 2.2504), "1");
    expect_warning(top, DS_ZONE_ON_LIMIT, true);
    assert_false(top.above);
    expect_warning(expect_zone(&w, at(0.85, 0.7, 1), "1"), DS_ZONE_ON_LIMIT, false); /* the vessel's edge */
    expect_warning(expect_zone(&w, at(0.85, 0.35, 2.25), "1"), DS_ZONE_ON_LIMIT, true);
    expect_warning(expect_zone(&w, at(0.85, 1, 2.25), "2"), DS_ZONE_ON_LIMIT, true);
    expect_warning(expect_zone(&w, at(0.85, 0.35, 0.55), "0"), DS_ZONE_ON_LIMIT, true);
    expect_warning(expect_zone(&w, at(0.85, 0.35, 0.15), "0"), DS_ZONE_ON_LIMIT, true);
    expect_warning(expect_zone(&w, at(0.85, 1, 0), "2"), DS_ZONE_ON_LIMIT, false); /* the floor is no limit */
    expect_zone(&w, at(0.85, 0.35, 2.251), "outside");
    zone_close(&w);
}

/* Within half a millimetre the caution says that it counts to the stricter zone: then it must. */
static void just_beyond_a_limit(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room", WITH(BATH), "");
    const ds_zone_item items[] = {at(0.85, 1.3004, 1), at(0.85, 0.35, 2.2504), at(2.3004, 0.35, 1)};
    for (size_t i = 0; i < sizeof items / sizeof *items; i++) {
        const ds_zone_answer a = zone_ask(&w, items[i]);
        const bool stricter = a.zone < zone_map(&w)->zones_len;
        if (zone_warns(&a, DS_ZONE_ON_LIMIT) != stricter) {
            print_error("item %zu: caution %d, in a zone %d\n", i, zone_warns(&a, DS_ZONE_ON_LIMIT),
                        stricter);
            fail();
        }
    }
    zone_close(&w);
}

/* A point written down on the limit of a room that stands askew: whatever the last digits do. */
static void on_a_limit_askew(void **const state)
{
    (void)state;
    zone_dice dice = {37};
    for (int n = 0; n < 40; n++) {
        const double turn = zone_between(&dice, 0, 6.28);
        const double x = zone_between(&dice, -20, 20);
        const double y = zone_between(&dice, -20, 20);
        const double c = cos(turn);
        const double s = sin(turn);
        char plan[1024];
        const double u[] = {0, 1.7, 1.7, 0, -1, 4, 4, -1};
        const double v[] = {0, 0, 0.7, 0.7, -1, -1, 3, 3};
        double px[8];
        double py[8];
        for (size_t i = 0; i < 8; i++) {
            px[i] = x + u[i] * c - v[i] * s;
            py[i] = y + u[i] * s + v[i] * c;
        }
        snprintf(plan, sizeof plan,
                 "\"outline_m\": [[%.17g,%.17g],[%.17g,%.17g],[%.17g,%.17g],[%.17g,%.17g]], \"features\": "
                 "[{\"kind\": \"bath\", \"rim_m\": 0.5, \"outline_m\": "
                 "[[%.17g,%.17g],[%.17g,%.17g],[%.17g,%.17g],[%.17g,%.17g]]}]",
                 px[4], py[4], px[5], py[5], px[6], py[6], px[7], py[7], px[0], py[0], px[1], py[1], px[2],
                 py[2], px[3], py[3]);
        zone_world w;
        zone_open(&w, "bath-room", plan, "");
        for (int k = 0; k < 20; k++) {
            const double along = zone_between(&dice, 0, 1.7);
            const double turned = zone_between(&dice, 0, 1.5707);
            const double qu[] = {along, 1.7 + 0.6 * cos(turned)};
            const double qv[] = {1.3, 0.7 + 0.6 * sin(turned)};
            for (size_t i = 0; i < 2; i++) {
                const ds_zone_item item = at(x + qu[i] * c - qv[i] * s, y + qu[i] * s + qv[i] * c, 1);
                expect_warning(expect_zone(&w, item, "2"), DS_ZONE_ON_LIMIT, true);
                assert_int_equal(ds_zone_at(zone_map(&w), zone_vec(item.at_m[0], item.at_m[1]), 1), 2);
            }
        }
        zone_close(&w);
    }
}

static void round_and_square_corners(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room", WITH(BATH), "");
    expect_warning(expect_zone(&w, at(2.2, 1.2, 1.5), "outside"), DS_ZONE_CORNER, true); /* 0.5, 0.5: 0.707 */
    expect_warning(expect_zone(&w, at(2.1, 1.1, 1.5), "2"), DS_ZONE_CORNER, false);      /* 0.566 */
    expect_warning(expect_zone(&w, at(2.35, 1.1, 1.5), "outside"), DS_ZONE_CORNER, false);
    expect_warning(expect_zone(&w, at(2.2, 1.4, 1.5), "outside"), DS_ZONE_CORNER, false);
    expect_warning(expect_zone(&w, at(1.2, 1.4, 1.5), "outside"), DS_ZONE_CORNER, false);
    expect_warning(expect_zone(&w, at(2.2, 1.2, 2.4), "outside"), DS_ZONE_CORNER, false); /* above both */
    zone_close(&w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(any_part_counts),
        cmocka_unit_test(a_tube_across),
        cmocka_unit_test(a_long_thing_by_a_round_pool),
        cmocka_unit_test(a_rough_position),
        cmocka_unit_test(a_rough_position_and_a_size),
        cmocka_unit_test(rough_by_the_floor),
        cmocka_unit_test(the_measure_is_enough),
        cmocka_unit_test(about_and_tolerance_of_points),
        cmocka_unit_test(on_a_limit),
        cmocka_unit_test(just_beyond_a_limit),
        cmocka_unit_test(on_a_limit_askew),
        cmocka_unit_test(round_and_square_corners),
    };
    return cmocka_run_group_tests_name("zone_locate_ref", tests, NULL, NULL);
}
