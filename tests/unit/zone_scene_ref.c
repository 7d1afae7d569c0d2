/* SPDX-License-Identifier: MIT */
/*
 * Plans that cannot be: outlines that cross themselves, things outside the room, things of another kind of place, points
 * in walls. Each gives its problem, no zone is guessed, and the job's other place is assessed as if nothing were wrong.
 */
#include "zone_fault.h"

/* --- geometry ----------------------------------------------------------------------------------------------------- */

static void outlines_that_are_none(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room", "{\"outline_m\": [[0,0],[4,3],[4,0],[0,3]], \"features\": [" BATH "]}",
         DS_P_PLAN_CROSSES, "/plan/outline_m", "crosses itself"},
        {"bath-room", WITH("{\"kind\": \"bath\", \"outline_m\": [[0,0],[1.7,0.7],[1.7,0],[0,0.7]]}"),
         DS_P_PLAN_CROSSES, "/plan/features/0/outline_m", "crosses itself"},
        {"bath-room", WITH(BATH ", {\"kind\": \"wall\", \"outline_m\": [[2,2],[3,2],[2.5,2],[2.5,2.5]]}"),
         DS_P_PLAN_CROSSES, "/plan/features/1/outline_m", "crosses itself"},
        {"bath-room",
         WITH("{\"kind\": \"bath\", \"outline_m\": [[0,0.5],[2,0.5],[2,1],{\"to_m\": [0,1], \"through_m\": "
              "[1,0]}]}"),
         DS_P_PLAN_CROSSES, "/plan/features/0/outline_m", "crosses itself"},
        {"bath-room", "{\"outline_m\": [], \"features\": [" BATH "]}", DS_P_PLAN_FLAT, "/plan/outline_m",
         "encloses nothing"},
        {"bath-room", "{\"outline_m\": [[0,0],[4,0]], \"features\": [" BATH "]}", DS_P_PLAN_FLAT,
         "/plan/outline_m", "encloses nothing"},
        {"bath-room", WITH("{\"kind\": \"bath\", \"outline_m\": [[1,1]]}"), DS_P_PLAN_FLAT,
         "/plan/features/0/outline_m", "encloses nothing"},
        {"bath-room", WITH(BATH ", {\"kind\": \"slope\", \"through_m\": [[0,0,1],[1,1,2],[2,2,2]]}"),
         DS_P_PLAN_FLAT, "/plan/features/1", "encloses nothing"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* Three corners on one line are told as that: to list them "in order, once round" would not mend them. */
static void corners_on_one_line(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room", WITH("{\"kind\": \"bath\", \"outline_m\": [[0,0],[1,0],[2,0]]}"), DS_P_PLAN_FLAT,
         "/plan/features/0/outline_m", "encloses nothing"},
    };
    EXPECT_FAULTS(FAULTS);
}

static void zero_lengths(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room", "{\"outline_m\": [[0,0],[4,0],[4,0],[4,3],[0,3]], \"features\": [" BATH "]}",
         DS_P_PLAN_NO_LENGTH, "/plan/outline_m", "no length"},
        {"bath-room", "{\"outline_m\": [[0,0],[4,0],[4,3],[0,3],[0,0]], \"features\": [" BATH "]}",
         DS_P_PLAN_NO_LENGTH, "/plan/outline_m", "no length"},
        {"bath-room",
         WITH("{\"kind\": \"bath\", \"outline_m\": [[0,0],[1.7,0],[1.7,0.7],[1.7,0.70005],[0,0.7]]}"),
         DS_P_PLAN_NO_LENGTH, "/plan/features/0/outline_m", "no length"},
        {"bath-room", WITH(BATH ", {\"kind\": \"partition\", \"from_m\": [2,1], \"to_m\": [2,1]}"),
         DS_P_PLAN_NO_LENGTH, "/plan/features/1", "no length"},
        {"bath-room", WITH(BATH ", {\"kind\": \"door\", \"from_m\": [4,1], \"to_m\": [4,1]}"),
         DS_P_PLAN_NO_LENGTH, "/plan/features/1", "no length"},
        {"bath-room", WITH(BATH ", {\"kind\": \"window\", \"from_m\": [4,1], \"to_m\": [4,1]}"),
         DS_P_PLAN_NO_LENGTH, "/plan/features/1", "no length"},
    };
    EXPECT_FAULTS(FAULTS);
}

static void features_outside_the_room(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room", WITH("{\"kind\": \"bath\", \"outline_m\": [[3,0],[4.7,0],[4.7,0.7],[3,0.7]]}"),
         DS_P_PLAN_OUTSIDE, "/plan/features/0", "this bath does not stand in the room"},
        {"bath-room", WITH("{\"kind\": \"bath\", \"outline_m\": [[9,9],[10,9],[10,10]]}"), DS_P_PLAN_OUTSIDE,
         "/plan/features/0", "bath"},
        {"bath-room", WITH("{\"kind\": \"bath\", \"outline_m\": [[-1,-1],[5,-1],[5,4],[-1,4]]}"),
         DS_P_PLAN_OUTSIDE, "/plan/features/0", "bath"},
        {"bath-room", WITH("{\"kind\": \"shower-basin\", \"centre_m\": [0.3, 0.3], \"radius_m\": 0.45}"),
         DS_P_PLAN_OUTSIDE, "/plan/features/0", "shower-basin"},
        {"bath-room", WITH("{\"kind\": \"shower-outlet\", \"at_m\": [1, -0.2]}"), DS_P_PLAN_OUTSIDE,
         "/plan/features/0", "shower-outlet"},
        {"bath-room",
         WITH(BATH ", {\"kind\": \"washbasin\", \"outline_m\": [[3.5,1],[4.3,1],[4.3,2],[3.5,2]]}"),
         DS_P_PLAN_OUTSIDE, "/plan/features/1", "washbasin"},
        {"bath-room", WITH(BATH ", {\"kind\": \"partition\", \"from_m\": [6,1], \"to_m\": [7,1]}"),
         DS_P_PLAN_OUTSIDE, "/plan/features/1", "partition"},
        {"bath-room", WITH(BATH ", {\"kind\": \"door\", \"from_m\": [6,1], \"to_m\": [6,2]}"),
         DS_P_PLAN_OUTSIDE, "/plan/features/1", "door"},
        {"bath-room", WITH(BATH ", {\"kind\": \"window\", \"from_m\": [1,-2], \"to_m\": [2,-2]}"),
         DS_P_PLAN_OUTSIDE, "/plan/features/1", "window"},
        {"pool", WITH("{\"kind\": \"pool\", \"outline_m\": [[1,1],[6,1],[6,2],[1,2]]}"), DS_P_PLAN_OUTSIDE,
         "/plan/features/0", "pool"},
        {"sauna", WITH("{\"kind\": \"sauna-heater\", \"outline_m\": [[5,0],[6,0],[6,1]]}"), DS_P_PLAN_OUTSIDE,
         "/plan/features/0", "sauna-heater"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* Up to a tenth of a metre of a bath may stand in the plaster. */
static void a_bath_let_into_the_wall(void **const state)
{
    (void)state;
    zone_world w;
    open_plan(&w, "bath-room",
              WITH("{\"kind\": \"bath\", \"outline_m\": [[-0.05,-0.05],[1.7,-0.05],[1.7,0.7],[-0.05,0.7]]}"),
              "[2.2, 0.5, 1]");
    assert_string_equal(zone_problem(&w), "");
    assert_true(ds_str_is(w.findings.points[0].zone, "2"));
    zone_close(&w);
}

/* Its corners, or the four places that a circle is drawn by, stand in the room; the rest of it does not. */
static void sides_outside_the_room(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"pool",
         "{\"outline_m\": [[3,0],[6,3],[3,6],[0,3]], \"features\": [{\"kind\": \"pool\", \"centre_m\": "
         "[3,3], "
         "\"radius_m\": 2.9}]}",
         DS_P_PLAN_OUTSIDE, "/plan/features/0", "pool"},
        {"bath-room",
         "{\"outline_m\": [[0,0],[4,0],[4,2],[2,2],[2,4],[0,4]], \"features\": [{\"kind\": \"bath\", "
         "\"outline_m\": [[1,3.7],[3.7,1],[3.8,1.6],[1.6,3.8]]}]}",
         DS_P_PLAN_OUTSIDE, "/plan/features/0", "bath"},
        {"bath-room",
         WITH("{\"kind\": \"bath\", \"outline_m\": [[1,0.2],[3,0.2],[3,1],{\"to_m\": [1,1], \"through_m\": "
              "[2,9]}]}"),
         DS_P_PLAN_OUTSIDE, "/plan/features/0", "bath"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* A screen that goes on for two metres behind the wall is a slip of the pen. */
static void a_screen_half_outside(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room",
         WITH(BATH ", {\"kind\": \"partition\", \"from_m\": [2,1], \"to_m\": [6,1], \"height_m\": 2.4}"),
         DS_P_PLAN_OUTSIDE, "/plan/features/1", "partition"},
        {"bath-room",
         WITH(BATH ", {\"kind\": \"partition\", \"from_m\": [1,3.3], \"to_m\": [3,3.3], \"height_m\": 2.4}"),
         DS_P_PLAN_OUTSIDE, "/plan/features/1", "partition"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* --- what it is of ------------------------------------------------------------------------------------------------ */

static void the_wrong_kind_of_place(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"pool", WITH(BATH), DS_P_PLAN_NOT_HERE, "/plan/features/0", "measured from a bath"},
        {"sauna", WITH(BATH), DS_P_PLAN_NOT_HERE, "/plan/features/0", "measured from a bath"},
        {"bath-room", WITH("{\"kind\": \"pool\", \"outline_m\": [[1,1],[3,1],[3,2],[1,2]]}"),
         DS_P_PLAN_NOT_HERE, "/plan/features/0", "measured from a pool"},
        {"bath-room",
         WITH(BATH ", {\"kind\": \"sauna-heater\", \"outline_m\": [[3,1],[3.5,1],[3.5,2],[3,2]]}"),
         DS_P_PLAN_NOT_HERE, "/plan/features/1", "measured from a sauna-heater"},
        {"fountain", WITH("{\"kind\": \"pool\", \"outline_m\": [[1,1],[3,1],[3,2],[1,2]]}"),
         DS_P_PLAN_NOT_HERE, "/plan/features/0", "measured from a pool"},
        {"fountain",
         WITH("{\"kind\": \"fountain\", \"entered\": true, \"outline_m\": [[1,1],[3,1],[3,2],[1,2]]}"),
         DS_P_PLAN_NOT_HERE, "/plan/features/0", "measured from a fountain"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* A bath drawn in a bedroom must not be passed over because bedrooms have no zones. */
static void a_bath_where_no_zones_are(void **const state)
{
    (void)state;
    zone_world w;
    open_plan(&w, "bedroom", WITH(BATH), "[2, 0.5, 1]");
    if (w.job.places[0].problem < 0) {
        print_error("no problem; the point is in zone %.*s, verdict %d\n", (int)w.findings.points[0].zone.len,
                    w.findings.points[0].zone.at, w.findings.points[0].verdict);
        fail();
    }
    zone_close(&w);
}

static void nothing_wet(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room", "{" ROOM "}", DS_P_PLAN_NOTHING_WET, "/plan", "nothing that zones"},
        {"bath-room", WITH(""), DS_P_PLAN_NOTHING_WET, "/plan", "nothing that zones"},
        {"bath-room", WITH("{\"kind\": \"washbasin\", \"centre_m\": [1, 1], \"radius_m\": 0.3}"),
         DS_P_PLAN_NOTHING_WET, "/plan", "nothing that zones"},
        {"sauna", WITH("{\"kind\": \"column\", \"centre_m\": [1, 1], \"radius_m\": 0.3}"),
         DS_P_PLAN_NOTHING_WET, "/plan", "nothing that zones"},
        {"bath-room", WITH(BATH ", {\"kind\": \"under-bath\", \"of\": \"b1\", \"tool\": true}"),
         DS_P_PLAN_NO_SUCH, "/plan/features/1", "no feature \"b1\""},
        {"bath-room", "{\"rooms\": [], \"features\": [" BATH "]}", DS_P_PLAN_OUTSIDE, "/plan/features/0",
         "does not stand in the room"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* An outlet that is said to stand over a basin, where none is drawn, would leave its surroundings without zones. */
static void an_outlet_over_no_basin(void **const state)
{
    (void)state;
    static const char *const PLANS[] = {
        WITH("{\"kind\": \"shower-outlet\", \"at_m\": [3.5, 2], \"height_m\": 2, \"basin\": true}"),
        WITH(BATH ", {\"kind\": \"shower-outlet\", \"at_m\": [3.5, 2], \"height_m\": 2, \"basin\": true}"),
    };
    for (size_t i = 0; i < sizeof PLANS / sizeof *PLANS; i++) {
        zone_world w;
        open_plan(&w, "bath-room", PLANS[i], "[3, 2, 1]");
        if (w.job.places[0].problem < 0) {
            print_error("no problem of the place; \"%s\"; the point is in zone %.*s\n", zone_problem(&w),
                        (int)w.findings.points[0].zone.len, w.findings.points[0].zone.at);
            fail();
        }
        zone_close(&w);
    }
}

/* Two baths of one id: the space under which of them needs a tool? */
static void two_features_of_one_id(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room",
         WITH("{\"id\": \"b\", " BATH_AT "}, {\"id\": \"b\", \"kind\": \"bath\", \"outline_m\": "
              "[[2,2],[3,2],[3,2.7],[2,2.7]]}, {\"kind\": \"under-bath\", \"of\": \"b\", \"tool\": true}"),
         DS_P_DUPLICATE_ID, "/plan/features/1", "used twice"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* A window drawn two centimetres off the wall: its recess must not be laid into the room, nor be an island. */
static void a_recess_off_the_wall(void **const state)
{
    (void)state;
    zone_world w;
    open_plan(&w, "bath-room",
              WITH(BATH
                   ", {\"kind\": \"window\", \"from_m\": [0.3,-0.02], \"to_m\": [1.3,-0.02], \"sill_m\": 1, "
                   "\"head_m\": 2, \"recess_m\": 0.25}"),
              "[0.8, -0.15, 1.5]");
    if (w.job.places[0].problem < 0 && !ds_str_is(w.findings.points[0].zone, "2")) {
        print_error("a fitting in the recess over a bath is in zone %.*s; \"%s\"\n",
                    (int)w.findings.points[0].zone.len, w.findings.points[0].zone.at, zone_problem(&w));
        fail();
    }
    zone_close(&w);
}

/* Rooms drawn with nothing between them: a door in a wall of no thickness is no door, and the wall no wall. */
static void rooms_without_a_wall_between(void **const state)
{
    (void)state;
    zone_world w;
    open_plan(&w, "bath-room",
              "{\"rooms\": [{\"outline_m\": [[0,0],[1.9,0],[1.9,3],[0,3]]}, {\"outline_m\": "
              "[[1.9,0],[4,0],[4,3],[1.9,3]]}], \"features\": [" BATH
              ", {\"kind\": \"door\", \"from_m\": [1.9, 2], \"to_m\": [1.9, 2.8]}]}",
              "[2.1, 0.3, 1]");
    if (w.job.places[0].problem < 0 && !ds_str_is(w.findings.points[0].zone, "outside")) {
        print_error("through the wall it is in zone %.*s, and nothing is said\n",
                    (int)w.findings.points[0].zone.len, w.findings.points[0].zone.at);
        fail();
    }
    zone_close(&w);
}

/* --- points ------------------------------------------------------------------------------------------------------- */

/* A position that is in no room is the point's problem; the place is sound. */
static void points_in_walls(void **const state)
{
    (void)state;
    static const char PLAN[] =
        WITH(BATH ", {\"kind\": \"column\", \"outline_m\": [[2,1],[3,1],[3,2],[2,2]]}, {\"kind\": \"wall\", "
                  "\"outline_m\": [[3.4,0],[4,0],[4,0.6],[3.4,0.6]]}");
    static const char *const ATS[] = {"[2, -0.2, 1]",  "[5, 1, 1]",   "[2.5, 1.5, 1]",
                                      "[3.8, 0.2, 1]", "[-9, -9, 1]", "[4.101, 2, 1]"};
    for (size_t i = 0; i < sizeof ATS / sizeof *ATS; i++) {
        zone_world w;
        open_plan(&w, "bath-room", PLAN, ATS[i]);
        assert_int_equal(w.job.problems.len, 1);
        assert_int_equal(w.job.problems.at[0].code, DS_P_IN_A_WALL);
        assert_true(ds_str_is(w.job.problems.at[0].where.pointer, "/points/0/at_m"));
        assert_int_equal(w.job.places[0].problem, -1);
        assert_int_equal(w.job.points[0].problem, 0);
        assert_true(only_the_place_suffers(&w));
        zone_close(&w);
    }
}

static void a_point_without_position(void **const state)
{
    (void)state;
    static const char *const ATS[] = {"[2, 1]", "\"by the bath\"", "[2, 1, null]", "[2, 1, 2400]"};
    for (size_t i = 0; i < sizeof ATS / sizeof *ATS; i++) {
        zone_world w;
        open_plan(&w, "bath-room", WITH(BATH), ATS[i]);
        assert_int_equal(w.job.points[0].problem, 0);
        assert_int_equal(w.job.places[0].problem, -1);
        assert_true(only_the_place_suffers(&w));
        zone_close(&w);
    }
}

/* Several things wrong at once: each part of the reader says its own, and the plan is used for nothing. */
static void several_at_once(void **const state)
{
    (void)state;
    zone_world w;
    open_plan(&w, "bath-room", WITH("{" BATH_AT ", \"rim\": 1}, {\"kind\": \"bathe\"}, 7"), "[2, 0.5, 1]");
    assert_int_equal(w.job.problems.len, 3);
    assert_true(only_the_place_suffers(&w));
    zone_close(&w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(outlines_that_are_none),
        cmocka_unit_test(corners_on_one_line),
        cmocka_unit_test(zero_lengths),
        cmocka_unit_test(features_outside_the_room),
        cmocka_unit_test(a_bath_let_into_the_wall),
        cmocka_unit_test(sides_outside_the_room),
        cmocka_unit_test(a_screen_half_outside),
        cmocka_unit_test(the_wrong_kind_of_place),
        cmocka_unit_test(a_bath_where_no_zones_are),
        cmocka_unit_test(nothing_wet),
        cmocka_unit_test(an_outlet_over_no_basin),
        cmocka_unit_test(two_features_of_one_id),
        cmocka_unit_test(a_recess_off_the_wall),
        cmocka_unit_test(rooms_without_a_wall_between),
        cmocka_unit_test(points_in_walls),
        cmocka_unit_test(a_point_without_position),
        cmocka_unit_test(several_at_once),
    };
    return cmocka_run_group_tests_name("zone_scene_ref", tests, NULL, NULL);
}
