/* SPDX-License-Identifier: MIT */
/*
 * What limits zones: screens, doors, steps, walls, ceilings, heights that the plan lacks; pools, fountains and saunas.
 * Figures: 2.25 m up, 0.60 m out (memory: BS 7671 701.32), pools 2.0 m and 3.5 m (702.32), heaters 0.5 m (703.32). How
 * the standards' open points are read: docs/plan.md.
 */
#include "zone_help.h"

#define ROOM "\"height_m\": 2.6, \"outline_m\": [[0,0],[5,0],[5,3],[0,3]]"
#define BATH                                                                                                 \
    "{\"kind\": \"bath\", \"id\": \"b\", \"outline_m\": [[0,0],[1.7,0],[1.7,0.7],[0,0.7]], \"rim_m\": "      \
    "0.55, "                                                                                                 \
    "\"bottom_m\": 0.15}"
#define WITH(features) ROOM ", \"features\": [" features "]"

/* --- screens and doors -------------------------------------------------------------------------------------------- */

/* Case 24's point behind a screen at the foot of the bath; straight 0.30 m, round a screen that counts 0.503 m. */
static void screens_that_count(void **const state)
{
    (void)state;
    static const struct {
        const char *more;
        const char *zone; /* at (2.10, 0.20): straight 0.40, string 0.683 */
        bool low;
    } CASES[] = {
        {"\"height_m\": 2.25", "outside", false},
        {"\"height_m\": 2.4, \"fixed\": true, \"gap_m\": 0", "outside", false},
        {"\"height_m\": 2.24", "2", true},
        {"\"height_m\": 2.4, \"fixed\": false", "2", true},
        {"\"height_m\": 2.4, \"gap_m\": 0.01", "2", true},
        {"\"fixed\": true", "2", true},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        char plan[1024];
        snprintf(plan, sizeof plan,
                 WITH(BATH ", {\"kind\": \"partition\", \"from_m\": [1.75,0], \"to_m\": [1.75,0.7], "
                           "\"thickness_m\": 0.1, %s}"),
                 CASES[i].more);
        zone_world w;
        zone_open(&w, "bath-room", plan, "");
        const ds_zone_answer a = expect_zone(&w, at(2.1, 0.2, 1), CASES[i].zone);
        expect_near(a.distance_m, CASES[i].low ? 0.4 : 0.1 + sqrt(0.34), 1e-9);
        expect_warning(a, DS_ZONE_LOW_SCREEN, CASES[i].low);
        /* Where it changes nothing, nothing is said. */
        expect_warning(expect_zone(&w, at(0.85, 1, 1), "2"), DS_ZONE_LOW_SCREEN, false);
        expect_warning(expect_zone(&w, at(2.0, 0.35, 1), "2"), DS_ZONE_LOW_SCREEN, false);
        zone_close(&w);
    }
}

/* Glass from wall to wall, 0.01 m thick and 2 m high: over its top 0.01 + the root of (out^2 + down^2). */
static void over_the_top(void **const state)
{
    (void)state;
    static const char PLAN[] =
        "\"height_m\": 2.6, \"outline_m\": [[0,0],[3,0],[3,2.5],[0,2.5]], \"features\": [{\"kind\": "
        "\"shower-basin\", \"outline_m\": [[0,0],[0.9,0],[0.9,0.9],[0,0.9]], \"rim_m\": 0.12, \"bottom_m\": "
        "0.04}, {\"kind\": \"partition\", \"from_m\": [0.905,0], \"to_m\": [0.905,2.5], \"thickness_m\": "
        "0.01, "
        "\"height_m\": 2.0, \"fixed\": true}]";
    zone_dice dice = {41};
    zone_world w;
    zone_open_by(&w, "\"de\"", "bath-room", PLAN, "");
    for (int i = 0; i < 400; i++) {
        const double out = zone_between(&dice, 0.01, 0.7);
        const double down = zone_between(&dice, 0.01, 0.9);
        const double want = 0.01 + sqrt(out * out + down * down);
        if (fabs(want - 0.6) < 1e-3) {
            continue;
        }
        const ds_zone_answer a = expect_zone(&w, at(0.91 + out, zone_between(&dice, 0.05, 0.85), 2 - down),
                                             want < 0.6 ? "2" : "outside");
        expect_near(a.distance_m, want, 1e-9);
        assert_true(a.over);
    }
    /* Above the glass nothing is in the way. */
    expect_near(expect_zone(&w, at(1.4, 0.45, 2.1), "2").distance_m, 0.5, 1e-9);
    zone_close(&w);
}

#define TWO_ROOMS                                                                                            \
    "\"height_m\": 2.6, \"rooms\": [{\"outline_m\": [[0,0],[1.9,0],[1.9,2.4],[0,2.4]]}, {\"outline_m\": "    \
    "[[2,0],[3.2,0],[3.2,2.4],[2,2.4]]}], \"features\": [" BATH

static void doors_and_openings(void **const state)
{
    (void)state;
    static const char *const WAYS[] = {
        TWO_ROOMS ", {\"kind\": \"door\", \"from_m\": [1.95,0.05], \"to_m\": [1.95,0.85]}]",
        TWO_ROOMS ", {\"kind\": \"opening\", \"from_m\": [1.95,0.05], \"to_m\": [1.95,0.85]}]",
        TWO_ROOMS "]"};
    static const char *const ZONES[] = {"outside", "2", "outside"};
    for (size_t i = 0; i < 3; i++) {
        zone_world w;
        zone_open(&w, "bath-room", WAYS[i], "");
        ds_zone_answer a = expect_zone(&w, at(2.15, 0.35, 1.2), ZONES[i]); /* 0.45 */
        expect_near(a.distance_m, i == 1 ? 0.45 : INFINITY, 1e-9);
        expect_warning(a, DS_ZONE_DOOR, i == 0);
        a = expect_zone(&w, at(3, 0.35, 1.2), "outside"); /* 1.30 through the door */
        expect_warning(a, DS_ZONE_DOOR, false);
        a = expect_zone(&w, at(2.15, 2, 1.2), "outside"); /* beside the door */
        expect_warning(a, DS_ZONE_DOOR, false);
        /* The distance from zone 1 ends at the door as the zone does. */
        expect_near(zone_ask(&w, at(3, 0.35, 1.2)).zone1_m, i == 1 ? 1.3 : INFINITY, 1e-9);
        zone_close(&w);
    }
}

/* --- heights ------------------------------------------------------------------------------------------------------ */

static void raised_floors(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room",
              WITH(BATH ", {\"kind\": \"raised-floor\", \"outline_m\": [[1.7,0],[3,0],[3,2],[1.7,2]], "
                        "\"height_m\": 0.2}"),
              "");
    ds_zone_answer a = expect_zone(&w, at(0.85, 0.35, 2.4), "1"); /* 2.25 above the step */
    expect_warning(a, DS_ZONE_STEP, true);
    expect_zone(&w, at(0.85, 1, 2.44), "2");
    expect_zone(&w, at(0.85, 0.35, 2.46), "outside");
    zone_close(&w);
    /* A step a metre away from the bath changes nothing. */
    zone_open(&w, "bath-room",
              WITH(BATH ", {\"kind\": \"raised-floor\", \"outline_m\": [[2.7,0],[4,0],[4,2],[2.7,2]], "
                        "\"height_m\": 0.2}"),
              "");
    expect_zone(&w, at(0.85, 0.35, 2.4), "outside");
    zone_close(&w);
}

#define UNDER(more) WITH(BATH ", {\"kind\": \"under-bath\", " more "}")

/* Only the space under the bath is freed by a tool, not the bath. */
static void a_tool_frees_the_space_under_a_bath(void **const state)
{
    (void)state;
    static const struct {
        const char *plan, *packs, *under;
    } CASES[] = {
        {UNDER("\"tool\": true"), "\"gb-2022\"", "outside"},
        {UNDER("\"tool\": true, \"of\": \"b\""), "\"gb-2022\"", "outside"},
        {UNDER("\"tool\": false"), "\"gb-2022\"", "1"},
        {UNDER("\"of\": \"b\""), "\"gb-2022\"", "1"},
        {WITH(BATH), "\"gb-2022\"", "1"},
        {UNDER("\"tool\": true"), "\"de\"", "1"},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        zone_world w;
        zone_open_by(&w, CASES[i].packs, "bath-room", CASES[i].plan, "");
        expect_zone(&w, at(0.85, 0.35, 0.05), CASES[i].under);
        expect_zone(&w, at(0.85, 1, 0.05), "2");
        expect_zone(&w, at(0.85, 0.35, 0.3), "0");
        expect_zone(&w, at(0.85, 0.35, 1), "1");
        expect_zone(&w, at(0.85, 1, 1), "2");
        assert_int_equal(ds_zone_at(zone_map(&w), zone_vec(0.85, 0.35), 0.3), 0);
        assert_int_equal(ds_zone_at(zone_map(&w), zone_vec(0.85, 0.35), 1), 1);
        zone_close(&w);
    }
}

/* Let into a wall: measured at its face; deeper than a tenth of a metre it is nowhere. */
static void things_in_walls(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room",
              WITH(BATH
                   ", {\"kind\": \"partition\", \"from_m\": [1.75,0], \"to_m\": [1.75,0.7], \"thickness_m\": "
                   "0.1, \"height_m\": 2.4}"),
              "");
    ds_zone_answer a = expect_zone(&w, at(0.85, -0.05, 1), "1");
    expect_warning(a, DS_ZONE_LET_IN, true);
    expect_warning(expect_zone(&w, at(0.85, 0, 1), "1"), DS_ZONE_LET_IN, false);
    a = expect_zone(&w, at(-0.1, 1, 1), "2");
    expect_warning(a, DS_ZONE_LET_IN, true);
    expect_near(a.distance_m, 0.3, 1e-9);
    ds_zone_answer none;
    const ds_zone_item deep = at(0.85, -0.101, 1);
    assert_int_equal(ds_zone_ask(&none, zone_map(&w), &deep), DS_BAD_INPUT);
    /* In the middle of the stud wall: the face over the bath's edge is the stricter. */
    a = expect_zone(&w, at(1.75, 0.3, 1), "1");
    expect_warning(a, DS_ZONE_LET_IN, true);
    expect_zone(&w, at(1.78, 0.1, 1), "outside"); /* nearer to the far face; 0.1 + 0.6 round the end */
    zone_close(&w);
}

static void ceilings(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room",
              "\"height_m\": 2.2, \"outline_m\": [[0,0],[5,0],[5,3],[0,3]], \"features\": [" BATH "]", "");
    expect_warning(expect_zone(&w, at(0.85, 0.35, 2.23), "outside"), DS_ZONE_CEILING, true);
    expect_warning(expect_zone(&w, at(0.85, 0.35, 2.2), "1"), DS_ZONE_CEILING, false);
    expect_warning(expect_zone(&w, sized(0.85, 0.35, 2.25, 0.1, 0.1, 0.12), "1"), DS_ZONE_CEILING, false);
    expect_warning(expect_zone(&w, sized(0.85, 0.35, 2.3, 0.1, 0.1, 0.12), "outside"), DS_ZONE_CEILING, true);
    expect_warning(expect_zone(&w, at(4, 2, 2.3), "outside"), DS_ZONE_CEILING, true);
    zone_close(&w);
}

/* The roof rises from 1.0 m at y = 0 by 1 m a metre. */
static void sloping_ceilings(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room", WITH(BATH ", {\"kind\": \"slope\", \"through_m\": [[0,0,1],[5,0,1],[0,1,2]]}"),
              "");
    expect_warning(expect_zone(&w, at(0.85, 0.35, 1.3), "1"), DS_ZONE_CEILING, false);
    expect_warning(expect_zone(&w, at(0.85, 0.35, 1.4), "outside"), DS_ZONE_CEILING, true);
    expect_warning(expect_zone(&w, at(0.85, 1.1, 2.05), "2"), DS_ZONE_CEILING, false);
    expect_warning(expect_zone(&w, at(0.85, 1.1, 2.15), "outside"), DS_ZONE_CEILING, true);
    expect_warning(expect_zone(&w, sized(0.85, 0.35, 1.4, 0.1, 0.1, 0.12), "1"), DS_ZONE_CEILING, false);
    zone_close(&w);
}

/* What the plan lacks is answered both ways; where the answers differ, it says what to measure. */
static void heights_that_the_plan_lacks(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room", WITH("{\"kind\": \"bath\", \"outline_m\": [[0,0],[1.7,0],[1.7,0.7],[0,0.7]]}"),
              "");
    ds_zone_answer a = expect_zone(&w, at(0.85, 0.35, 0.4), "0|1");
    expect_warning(a, DS_ZONE_HEIGHT_OPEN, true);
    assert_int_equal(a.measure, DS_ZONE_MEASURE_RIM);
    expect_warning(expect_zone(&w, at(0.85, 0.35, 1.5), "1"), DS_ZONE_HEIGHT_OPEN, false);
    expect_warning(expect_zone(&w, at(0.85, 1, 0.4), "2"), DS_ZONE_HEIGHT_OPEN, false);
    zone_close(&w);
    zone_open(&w, "bath-room", WITH(BATH ", {\"kind\": \"shower-outlet\", \"at_m\": [0.3,0.3]}"), "");
    expect_zone(&w, at(0.85, 0.35, 2.2), "1");
    a = expect_zone(&w, at(0.85, 0.35, 2.4), "1|outside"); /* the outlet may be at 2.5 m */
    assert_int_equal(a.measure, DS_ZONE_MEASURE_RIM);
    zone_close(&w);
    zone_open_by(&w, "\"gb-2022\"", "pool",
                 "\"outline_m\": [[-5,-5],[20,-5],[20,12],[-5,12]], \"features\": [{\"kind\": \"pool\", "
                 "\"outline_m\": [[0,0],[10,0],[10,5],[0,5]]}, {\"kind\": \"board\", \"outline_m\": "
                 "[[10,2],[11.5,2],[11.5,3],[10,3]]}]",
                 "");
    expect_zone(&w, at(12.5, 2.5, 5), "1|outside");
    expect_zone(&w, at(12.5, 2.5, 1), "1"); /* 1.0 from it: as low as it may be, up to 2.5 m */
    zone_close(&w);
}

/* --- pools, fountains, saunas ------------------------------------------------------------------------------------- */

#define HALL "\"height_m\": 8, \"outline_m\": [[-5,-5],[20,-5],[20,12],[-5,12]], \"features\": ["
#define BASIN(kind, more) "{\"kind\": \"" kind "\", \"outline_m\": [[0,0],[10,0],[10,5],[0,5]]" more "}"

static void boards(void **const state)
{
    (void)state;
    static const char *const KINDS[] = {"board", "chute", "starting-block", "platform"};
    for (size_t i = 0; i < 4; i++) {
        char plan[1024];
        snprintf(plan, sizeof plan,
                 HALL BASIN("pool", "") ", {\"kind\": \"%s\", \"top_m\": 3, \"outline_m\": "
                                        "[[10,2],[11.5,2],[11.5,3],[10,3]]}]",
                 KINDS[i]);
        zone_world w;
        zone_open(&w, "pool", plan, "");
        expect_near(expect_zone(&w, at(12.5, 2.5, 5), "1").distance_m, 1, 1e-9);
        expect_zone(&w, at(12.5, 2.5, 5.51), "outside"); /* 3.0 and 2.5 up */
        expect_zone(&w, at(13.2, 2.5, 5), "outside");    /* 1.7; zone 2 reaches 2.5 up only */
        expect_zone(&w, at(13.2, 2.5, 1), "2");
        expect_zone(&w, at(14.4, 2.5, 1), "2");       /* 2.9 from the board: 1.5 beyond its zone 1 */
        expect_zone(&w, at(14.6, 2.5, 1), "outside"); /* 3.1 */
        expect_zone(&w, at(11.9, 4.6, 1), "1");       /* 1.9 from the rim */
        expect_zone(&w, at(5, 2, -1), "0");
        zone_close(&w);
    }
}

static void fountains(void **const state)
{
    (void)state;
    static const struct {
        const char *place, *plan, *near, *far;
    } CASES[] = {
        {"fountain", HALL BASIN("fountain", "") "]", "1", "outside"},
        {"fountain", HALL BASIN("fountain", ", \"entered\": false") "]", "1", "outside"},
        {"pool", HALL BASIN("fountain", ", \"entered\": true") "]", "1", "2"},
        {"pool", HALL BASIN("pool", "") "]", "1", "2"},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        zone_world w;
        zone_open(&w, CASES[i].place, CASES[i].plan, "");
        expect_zone(&w, at(11.8, 2.5, 1), CASES[i].near);
        expect_zone(&w, at(12.8, 2.5, 1), CASES[i].far);
        expect_zone(&w, at(13.6, 2.5, 1), "outside");
        zone_close(&w);
    }
}

static void saunas(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "sauna",
              "\"height_m\": 2.2, \"outline_m\": [[0,0],[2.5,0],[2.5,2],[0,2]], \"features\": [{\"kind\": "
              "\"sauna-heater\", \"outline_m\": [[0,0],[0.5,0],[0.5,0.4],[0,0.4]], \"top_m\": 0.8}]",
              "");
    expect_near(expect_zone(&w, at(0.9, 0.3, 0.5), "1").distance_m, 0.4, 1e-9);
    expect_zone(&w, at(0.9, 0.3, 2.1), "1");
    expect_zone(&w, at(1.2, 0.3, 0.5), "2");
    expect_zone(&w, at(1.2, 0.3, 1.5), "3");
    expect_zone(&w, at(1.2, 0.3, 1), "3"); /* on the limit: the hotter */
    zone_close(&w);
}

/* --- stated and found --------------------------------------------------------------------------------------------- */

static void a_stated_zone(void **const state)
{
    (void)state;
    static const struct {
        const char *stated, *at, *problem;
    } CASES[] = {
        {"2", "[0.85, 1, 1]", ""},
        {"outside", "[0.85, 1, 1]",
         "/points/0/zone_stated: zone outside is stated, but the plan gives zone 2"},
        {"1", "[0.85, 1, 1]", "/points/0/zone_stated: zone 1 is stated, but the plan gives zone 2"},
        {"2", "[4, 1, 1]", "/points/0/zone_stated: zone 2 is stated, but the plan gives zone outside"},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        char points[512];
        snprintf(
            points, sizeof points,
            "{\"id\": \"1\", \"place\": \"a\", \"kind\": \"luminaire\", \"zone_stated\": \"%s\", \"at_m\": "
            "%s, "
            "\"zone1_distance_m\": 3, \"supply\": {\"volts\": 230, \"current\": \"ac\", \"selv\": false, "
            "\"rcd_ma\": 30}, \"marked\": [{\"ip\": \"IP66\", \"ik\": \"IK10\"}]}",
            CASES[i].stated, CASES[i].at);
        zone_world w;
        zone_open(&w, "bath-room", WITH(BATH), points);
        assert_string_equal(zone_problem(&w), CASES[i].problem);
        assert_true(!CASES[i].problem[0] || w.findings.points[0].verdict != DS_FITS);
        zone_close(&w);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(screens_that_count),
        cmocka_unit_test(over_the_top),
        cmocka_unit_test(doors_and_openings),
        cmocka_unit_test(raised_floors),
        cmocka_unit_test(a_tool_frees_the_space_under_a_bath),
        cmocka_unit_test(things_in_walls),
        cmocka_unit_test(ceilings),
        cmocka_unit_test(sloping_ceilings),
        cmocka_unit_test(heights_that_the_plan_lacks),
        cmocka_unit_test(boards),
        cmocka_unit_test(fountains),
        cmocka_unit_test(saunas),
        cmocka_unit_test(a_stated_zone),
    };
    return cmocka_run_group_tests_name("zone_limit_ref", tests, NULL, NULL);
}
