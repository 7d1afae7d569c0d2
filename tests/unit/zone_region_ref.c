/* SPDX-License-Identifier: MIT */
/*
 * Shapes of zones: areas that have a formula, and rooms that once came out wrong, whose areas are compared with counting
 * the zones of many places. Every ring closes, runs the right way round and is made of true curves.
 */
#include "zone_help.h"

static const double PI = 3.141592653589793;

#define ROOM "\"height_m\": 2.6, \"outline_m\": [[0,0],[5,0],[5,3],[0,3]]"
#define HEIGHTS ", \"rim_m\": 0.5, \"bottom_m\": 0.1}"

/* --- a shape ------------------------------------------------------------------------------------------------------ */

static void expect_curve(const ds_curve *const curve, const ds_curve *const next)
{
    expect_near(ds_vec_between(curve->b, next->a), 0, 1e-12);
    assert_true(ds_vec_between(curve->a, curve->b) > 0);
    if (curve->radius > 0) {
        expect_near(ds_vec_between(curve->a, curve->centre), curve->radius, 1e-3);
        expect_near(ds_vec_between(curve->b, curve->centre), curve->radius, 1e-3);
    }
}

/* Closed rings that together have the area; none is next to nothing. */
static void expect_rings(const ds_region *const region)
{
    double area = 0;
    for (size_t r = 0; r < region->rings_len; r++) {
        const ds_ring *const ring = &region->rings[r];
        assert_true(ring->len >= 2);
        for (size_t i = 0; i < ring->len; i++) {
            expect_curve(&ring->at[i], &ring->at[(i + 1) % ring->len]);
        }
        area += ds_outline_area(ring->at, ring->len);
        assert_true(fabs(ds_outline_area(ring->at, ring->len)) > 1e-9);
    }
    expect_near(region->area_m2, area, 1e-12);
}

/* Area of a zone at a height by its shape; its rings are checked. */
static double area_at(const ds_zone_map *const map, const char *const word, const double z)
{
    const size_t zone = ds_zone_index(map, ds_str_of(word));
    assert_true(zone < map->zones_len);
    for (size_t i = 0; i < map->zones[zone].parts_len; i++) {
        const ds_zone_part *const part = &map->zones[zone].parts[i];
        if (z > part->from_m && z < part->to_m) {
            expect_rings(&part->region);
            return part->region.area_m2;
        }
    }
    return 0;
}

/* --- areas with a formula ----------------------------------------------------------------------------------------- */

static void areas_by_formula(void **const state)
{
    (void)state;
    const double segment =
        1.44 * acos(0.5 / 1.2) - 0.5 * sqrt(1.44 - 0.25); /* of a circle of 1.2, 0.5 from its middle */
    const struct {
        const char *features, *word;
        double area;
    } CASES[] = {
        /* In a corner: two sides and a quarter of a circle. */
        {"{\"kind\": \"bath\", \"outline_m\": [[0,0],[1.7,0],[1.7,0.7],[0,0.7]]" HEIGHTS, "2",
         0.6 * 2.4 + PI * 0.09},
        /* Free: four sides and a whole circle. */
        {"{\"kind\": \"bath\", \"outline_m\": [[1,1],[2.7,1],[2.7,1.7],[1,1.7]]" HEIGHTS, "2",
         0.6 * 4.8 + PI * 0.36},
        {"{\"kind\": \"bath\", \"outline_m\": [[1,1],[2.7,1],[2.7,1.7],[1,1.7]]" HEIGHTS, "1", 1.7 * 0.7},
        /* Round. */
        {"{\"kind\": \"shower-basin\", \"centre_m\": [2.5,1.5], \"radius_m\": 0.45" HEIGHTS, "2",
         PI * (1.05 * 1.05 - 0.45 * 0.45)},
        /* A quadrant in the corner: a quarter of the ring between 0.9 and 1.5. */
        {"{\"kind\": \"shower-basin\", \"outline_m\": [[0,0],[0.9,0],{\"to_m\": [0,0.9], \"through_m\": "
         "[0.54,0.72]}]" HEIGHTS,
         "2", PI * (2.25 - 0.81) / 4},
        /* Outlets on a wall, in the room's middle, and half a metre from a wall. */
        {"{\"kind\": \"shower-outlet\", \"at_m\": [2,0], \"height_m\": 2, \"basin\": false}", "1", PI * 0.72},
        {"{\"kind\": \"shower-outlet\", \"at_m\": [2,1.5], \"height_m\": 2, \"basin\": false}", "1",
         PI * 1.44},
        {"{\"kind\": \"shower-outlet\", \"at_m\": [2,0.5], \"height_m\": 2, \"basin\": false}", "1",
         PI * 1.44 - segment},
        /* Two that overlap: twice the circle less the lens, at 1 m from each other. */
        {"{\"kind\": \"shower-outlet\", \"at_m\": [2,1.5], \"height_m\": 2, \"basin\": false}, {\"kind\": "
         "\"shower-outlet\", \"at_m\": [3,1.5], \"height_m\": 2, \"basin\": false}",
         "1", 2 * PI * 1.44 - 2 * segment},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        char plan[1024];
        snprintf(plan, sizeof plan, ROOM ", \"features\": [%s]", CASES[i].features);
        zone_world w;
        zone_open(&w, "bath-room", plan, "");
        expect_near(area_at(zone_map(&w), CASES[i].word, 1), CASES[i].area, 1e-9);
        zone_close(&w);
    }
}

/*
 * A screen of 1 mm before an outlet, half a metre from it: the half circle less the shadow, a sector round the screen's
 * near corner from straight on to over its end, and a quarter of a circle round the far one.
 */
static void a_fan_round_a_screen(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(
        &w, "bath-room",
        "\"height_m\": 2.6, \"outline_m\": [[-3,0],[3,0],[3,3],[-3,3]], \"features\": [{\"kind\": "
        "\"shower-outlet\", \"at_m\": [0,0], \"height_m\": 2, \"basin\": false}, {\"kind\": \"partition\", "
        "\"from_m\": [0.5,0], \"to_m\": [0.5,0.6], \"thickness_m\": 0.001, \"height_m\": 2.4}]",
        "");
    const double turn = atan2(0.6, 0.4995);
    const double left = 1.2 - hypot(0.6, 0.4995);
    const double shadow = 0.72 * turn - 0.5 * 0.4995 * 0.6;
    const double fan = 0.5 * left * left * turn + 0.25 * PI * (left - 0.001) * (left - 0.001);
    expect_near(area_at(zone_map(&w), "1", 1), PI * 0.72 - shadow + fan, 1e-9);
    zone_close(&w);
}

/* --- by counting -------------------------------------------------------------------------------------------------- */

enum { ACROSS = 500 };

/* Every zone's area at a height, against counting 500 by 500 places of a room of that size and half a metre round it. */
static void expect_counted(const char *const kind, const char *const plan, const double wide,
                           const double deep, const double z)
{
    zone_world w;
    zone_open(&w, kind, plan, "");
    const ds_zone_map *const map = zone_map(&w);
    size_t count[DS_ZONES_MAX + 1] = {0};
    for (int i = 0; i < ACROSS * ACROSS; i++) {
        const ds_vec p = {(wide + 1) * (i % ACROSS + 0.4379) / ACROSS - 0.5,
                          (deep + 1) * (i / ACROSS + 0.5813) / ACROSS - 0.5};
        bool is_free = false;
        for (size_t b = 0; b < map->bands_len; b++) {
            is_free = is_free || (z > map->bands[b].from_m && z < map->bands[b].to_m &&
                                  ds_space_encloses(map->bands[b].space, p));
        }
        count[is_free ? ds_zone_at(map, p, z) : map->zones_len]++;
    }
    for (size_t zone = 0; zone < map->zones_len; zone++) {
        char word[8];
        snprintf(word, sizeof word, "%.*s", (int)map->zones[zone].word.len, map->zones[zone].word.at);
        const double step = (wide + 1) * (deep + 1) / (ACROSS * ACROSS);
        /* What counting may be off by: a few steps in each row and column. */
        expect_near(area_at(map, word, z), step * (double)count[zone], step * ACROSS);
    }
    zone_close(&w);
}

/* A screen that meets the wall askew; one of unstated thickness ends there in a sliver. */
static void askew_screens(void **const state)
{
    (void)state;
    static const double TO[] = {1.5, 1.68, 1.7, 1.74, 1.7995, 1.8, 1.805, 1.9, 2.5};
    static const char *const THICK[] = {"", ", \"thickness_m\": 0.001", ", \"thickness_m\": 0.08"};
    for (size_t i = 0; i < sizeof TO / sizeof *TO; i++) {
        for (size_t k = 0; k < 3; k++) {
            char plan[1024];
            snprintf(plan, sizeof plan,
                     ROOM ", \"features\": [{\"kind\": \"bath\", \"outline_m\": "
                          "[[0,0],[1.6,0],[1.6,0.7],[0,0.7]]" HEIGHTS
                          ", {\"kind\": \"partition\", \"from_m\": "
                          "[1.8,0], \"to_m\": [%g,0.9], \"height_m\": 2.4%s}]",
                     TO[i], THICK[k]);
            expect_counted("bath-room", plan, 5, 3, 1);
        }
    }
}

/* A niche, a screen's foot or a window's reveal just beside an outlet on the same wall. */
static void beside_an_outlet_on_a_wall(void **const state)
{
    (void)state;
    static const char *const BESIDE[] = {
        "{\"kind\": \"niche\", \"outline_m\": [[2.05,-0.1],[2.4,-0.1],[2.4,0],[2.05,0]], \"bottom_m\": 0.8, "
        "\"top_m\": 1.4}",
        "{\"kind\": \"niche\", \"outline_m\": [[2.02,-0.1],[2.1,-0.1],[2.1,0.01],[2.02,0.01]], \"bottom_m\": "
        "0.8, "
        "\"top_m\": 1.4}",
        "{\"kind\": \"partition\", \"from_m\": [2.03,0], \"to_m\": [2.03,0.004], \"height_m\": 2.4}",
        "{\"kind\": \"window\", \"from_m\": [2.03,0], \"to_m\": [2.6,0], \"sill_m\": 0.8, \"head_m\": 1.9, "
        "\"recess_m\": 0.15}",
        "{\"kind\": \"wall\", \"outline_m\": [[1.9,2.9],[2.4,2.9],[2.4,3.1],[1.9,3.1]]}",
    };
    for (size_t i = 0; i < sizeof BESIDE / sizeof *BESIDE; i++) {
        char plan[1024];
        snprintf(plan, sizeof plan,
                 ROOM ", \"features\": [{\"kind\": \"shower-outlet\", \"at_m\": [2,0], \"height_m\": 2, "
                      "\"basin\": false}, %s]",
                 BESIDE[i]);
        expect_counted("bath-room", plan, 5, 3, 1);
    }
    /* A corner in the middle of the wall, as of two measurements in one line. */
    expect_counted("bath-room",
                   "\"outline_m\": [[0,0],[2.03,0],[5,0],[5,3],[0,3]], \"features\": [{\"kind\": "
                   "\"shower-outlet\", \"at_m\": [2,0], \"height_m\": 2, \"basin\": false}]",
                   5, 3, 1);
}

/* Round columns make strings bend in many small steps, whose arcs meet at flat angles. */
static void round_columns(void **const state)
{
    (void)state;
    static const double AT[][2] = {{6.2, 3.1}, {7.1, 2.2}, {5.5, 5.2}, {6.6, 3.5}};
    for (size_t i = 0; i < sizeof AT / sizeof *AT; i++) {
        char plan[1024];
        snprintf(plan, sizeof plan,
                 "\"height_m\": 4, \"outline_m\": [[0,0],[12,0],[12,8],[0,8]], \"features\": [{\"kind\": "
                 "\"pool\", \"outline_m\": [[2,2],[5,2],[5,4],[2,4]]}, {\"kind\": \"column\", \"centre_m\": "
                 "[%g,%g], \"radius_m\": 0.225}, {\"kind\": \"wall\", \"outline_m\": "
                 "[[5.9,4],[7.4,4],[7.4,4.7],[5.9,4.7]]}]",
                 AT[i][0], AT[i][1]);
        expect_counted("pool", plan, 12, 8, 1);
    }
    expect_counted(
        "pool",
        "\"outline_m\": [[0,0],[5.625,0],[5.625,6.375],[0,6.375]], \"features\": [{\"kind\": "
        "\"platform\", \"outline_m\": [[1.384,2.375],[1.884,2.375],[1.884,3.75],[1.384,3.75]], "
        "\"top_m\": 0.5}, {\"kind\": \"platform\", \"centre_m\": [1.75,0.625], \"radius_m\": 0.24, "
        "\"top_m\": 0.5}, {\"kind\": \"column\", \"centre_m\": [3.5,3.5], \"radius_m\": 0.225}, "
        "{\"kind\": \"wall\", \"outline_m\": [[0.25,2.625],[2.125,2.625],[2.125,3.375],[0.25,3.375]]}]",
        5.625, 6.375, 1);
}

/* An outlet in one line with the end of a screen: the arc over the end begins where the circle ends. */
static void in_line_with_a_screens_end(void **const state)
{
    (void)state;
    static const char *const ENDS[] = {"[1.5,0.75]", "[1.5,1]", "[2,0.75]", "[1,2.25]"};
    for (size_t i = 0; i < sizeof ENDS / sizeof *ENDS; i++) {
        char plan[1024];
        snprintf(plan, sizeof plan,
                 ROOM ", \"features\": [{\"kind\": \"shower-outlet\", \"at_m\": [2,1.5], \"height_m\": 2, "
                      "\"basin\": false}, {\"kind\": \"partition\", \"from_m\": [1.5,1.5], \"to_m\": %s, "
                      "\"height_m\": 2.4}, {\"kind\": \"bath\", \"outline_m\": "
                      "[[0.3,1],[1.2,1],[1.2,2.6],[0.3,2.6]]" HEIGHTS "]",
                 ENDS[i]);
        expect_counted("bath-room", plan, 5, 3, 0.05);
        expect_counted("bath-room", plan, 5, 3, 1);
    }
}

/* A bath along a wall that a solid meets at an angle: ends that differ in the last digit must not let a ray through. */
static void solids_that_cut_the_wall_askew(void **const state)
{
    (void)state;
    static const char *const MORE[] = {
        "{\"kind\": \"niche\", \"outline_m\": [[0.4767766952966369,-0.1767766952966369],[1.4767766952966369,"
        "0.8232233047033631],[1.2992928932188135,1.0007071067811865],[0.2992928932188135,0.0007071067811865]]"
        ", "
        "\"bottom_m\": 0.5, \"top_m\": 2}",
        "{\"kind\": \"wall\", \"outline_m\": [[1.9,-0.3],[2.6,0.7],[2.4,0.8],[1.7,-0.2]]}",
        "{\"kind\": \"wall\", \"outline_m\": [[-0.3,1.1],[0.7,0.9],[0.7,1],[-0.3,1.3]]}",
    };
    for (size_t i = 0; i < sizeof MORE / sizeof *MORE; i++) {
        char plan[1024];
        snprintf(
            plan, sizeof plan,
            ROOM
            ", \"features\": [{\"kind\": \"bath\", \"outline_m\": [[0,0],[1.6,0],[1.6,0.7],[0,0.7]]" HEIGHTS
            ", %s]",
            MORE[i]);
        expect_counted("bath-room", plan, 5, 3, 1);
    }
}

/* Two baths, the space under one closed with a tool, an outlet without basin between them. */
static void freed_space_beside_others(void **const state)
{
    (void)state;
    expect_counted("bath-room",
                   ROOM
                   ", \"features\": [{\"kind\": \"bath\", \"id\": \"b\", \"outline_m\": "
                   "[[0,0],[1.7,0],[1.7,0.7],[0,0.7]], \"rim_m\": 0.55, \"bottom_m\": 0.3}, {\"kind\": "
                   "\"bath\", \"outline_m\": [[0,1],[0.8,1],[0.8,2.6],[0,2.6]]" HEIGHTS
                   ", {\"kind\": \"shower-outlet\", \"at_m\": [2,1], \"height_m\": 2, \"basin\": false}, "
                   "{\"kind\": \"under-bath\", \"of\": \"b\", \"tool\": true}]",
                   5, 3, 0.2);
}

/* The three ways to ask agree under such a bath: no zone. */
static void freed_space_is_no_zone(void **const state)
{
    (void)state;
    zone_world w;
    zone_open(&w, "bath-room",
              ROOM ", \"features\": [{\"kind\": \"bath\", \"outline_m\": [[0,0],[1.7,0],[1.7,0.7],[0,0.7]], "
                   "\"rim_m\": 0.55, \"bottom_m\": 0.3}, {\"kind\": \"shower-outlet\", \"at_m\": [2,1], "
                   "\"height_m\": 2, \"basin\": false}, {\"kind\": \"under-bath\", \"tool\": true}]",
              "");
    const ds_zone_map *const map = zone_map(&w);
    expect_zone(&w, ((ds_zone_item){.at_m = {1.6, 0.6, 0.2}}), "outside"); /* 0.57 from the outlet */
    expect_zone(&w, ((ds_zone_item){.at_m = {1.6, 0.8, 0.2}}), "1");
    expect_zone(&w, ((ds_zone_item){.at_m = {1.6, 0.6, 1}}), "1");
    assert_int_equal(ds_zone_at(map, zone_vec(1.6, 0.6), 0.2), map->zones_len);
    assert_int_equal(ds_zone_at(map, zone_vec(1.6, 0.6), 1), 1);
    zone_close(&w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(areas_by_formula),
        cmocka_unit_test(a_fan_round_a_screen),
        cmocka_unit_test(askew_screens),
        cmocka_unit_test(beside_an_outlet_on_a_wall),
        cmocka_unit_test(round_columns),
        cmocka_unit_test(in_line_with_a_screens_end),
        cmocka_unit_test(solids_that_cut_the_wall_askew),
        cmocka_unit_test(freed_space_beside_others),
        cmocka_unit_test(freed_space_is_no_zone),
    };
    return cmocka_run_group_tests_name("zone_region_ref", tests, NULL, NULL);
}
