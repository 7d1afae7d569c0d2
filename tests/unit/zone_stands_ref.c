/* SPDX-License-Identifier: MIT */
/*
 * Where things must stand in a plan, and what stands a little beside it: a slip of a few centimetres is either taken for
 * what is meant or told, never passed over.
 */
#include "zone_fault.h"

#define TWO_ROOMS                                                                                            \
    "{\"rooms\": [{\"outline_m\": [[0,0],[1.9,0],[1.9,3],[0,3]]}, {\"outline_m\": "                          \
    "[[2,0],[4,0],[4,3],[2,3]]}], \"features\": [" BATH ", "

/* The point stands free there, and in this zone. */
static void expect_zone_of(const char *const kind, const char *const plan, const char *const at,
                           const char *const zone)
{
    zone_world w;
    open_plan(&w, kind, plan, at);
    const ds_zone_answer *const where = w.findings.points[0].where;
    if (*zone_problem(&w) || !ds_str_is(w.findings.points[0].zone, zone) ||
        (where && zone_warns(where, DS_ZONE_LET_IN))) {
        print_error("%s in %s: zone %.*s, not %s; \"%s\"\n", at, plan, (int)w.findings.points[0].zone.len,
                    w.findings.points[0].zone.at, zone, zone_problem(&w));
        fail();
    }
    zone_close(&w);
}

/* --- openings ----------------------------------------------------------------------------------------------------- */

/* An opening leads through the wall wherever in it, or just beside it, its line was drawn; 0.3 m from the bath's end. */
static void openings_beside_their_wall(void **const state)
{
    (void)state;
    static const char *const X[] = {"1.85", "1.88", "1.9", "1.95", "2", "2.02", "2.05"};
    for (size_t i = 0; i < sizeof X / sizeof *X; i++) {
        char plan[1024];
        snprintf(plan, sizeof plan,
                 TWO_ROOMS "{\"kind\": \"opening\", \"from_m\": [%s,0.1], \"to_m\": [%s,0.9]}]}", X[i], X[i]);
        expect_zone_of("bath-room", plan, "[2.1, 0.4, 1]", "2");
        expect_zone_of("bath-room", plan, "[2.1, 2.4, 1]", "outside");
    }
}

static void openings_off_all_walls(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room", TWO_ROOMS "{\"kind\": \"opening\", \"from_m\": [1.95,2], \"to_m\": [1.95,4]}]}",
         DS_P_PLAN_OUTSIDE, "/plan/features/1", "opening"},
        {"bath-room", WITH(BATH ", {\"kind\": \"door\", \"from_m\": [4.6,1], \"to_m\": [4.6,2]}"),
         DS_P_PLAN_OUTSIDE, "/plan/features/1", "door"},
    };
    EXPECT_FAULTS(FAULTS);
}

static void rooms_that_touch(void **const state)
{
    (void)state;
#define ROOMS(second)                                                                                        \
    "{\"rooms\": [{\"outline_m\": [[0,0],[2,0],[2,3],[0,3]]}, {\"outline_m\": " second                       \
    "}], \"features\": [" BATH "]}"
    static const fault FAULTS[] = {
        {"bath-room", ROOMS("[[2,0],[4,0],[4,3],[2,3]]"), DS_P_PLAN_ROOMS_TOUCH, "/plan/rooms/1/outline_m",
         "no wall stands between"},
        {"bath-room", ROOMS("[[1.9,0],[4,0],[4,3],[1.9,3]]"), DS_P_PLAN_ROOMS_TOUCH,
         "/plan/rooms/1/outline_m", "overlaps"},
        {"bath-room", ROOMS("[[0.5,0.5],[1,0.5],[1,1],[0.5,1]]"), DS_P_PLAN_ROOMS_TOUCH,
         "/plan/rooms/1/outline_m", "overlaps"},
        {"bath-room", ROOMS("[[2.0005,0],[4,0],[4,3],[2.0005,3]]"), DS_P_PLAN_ROOMS_TOUCH,
         "/plan/rooms/1/outline_m", "touches"},
    };
    EXPECT_FAULTS(FAULTS);
    expect_zone_of("bath-room", ROOMS("[[2.001,0],[4,0],[4,3],[2.001,3]]"), "[2.1, 0.4, 1]", "outside");
#undef ROOMS
}

/* --- recesses ----------------------------------------------------------------------------------------------------- */

#define NICHE(outline)                                                                                       \
    WITH(BATH ", {\"kind\": \"niche\", \"bottom_m\": 1, \"top_m\": 2, \"outline_m\": " outline "}")

/* A niche that does not open into the room would hold its fittings outside all zones, over a bath. */
static void niches(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room", NICHE("[[0.3,-0.3],[1.3,-0.3],[1.3,-0.02],[0.3,-0.02]]"), DS_P_PLAN_OUTSIDE,
         "/plan/features/1", "niche"},
        {"bath-room", NICHE("[[0.3,-0.3],[1.3,-0.3],[0.8,0]]"), DS_P_PLAN_OUTSIDE, "/plan/features/1",
         "niche"},
        {"bath-room", NICHE("[[-0.3,-0.3],[0,-0.3],[0,0],[-0.3,0]]"), DS_P_PLAN_OUTSIDE, "/plan/features/1",
         "niche"},
    };
    EXPECT_FAULTS(FAULTS);
    expect_zone_of("bath-room", NICHE("[[0.3,-0.3],[1.3,-0.3],[1.3,0],[0.3,0]]"), "[0.8, -0.15, 1.5]", "2");
    expect_zone_of("bath-room", NICHE("[[0.3,-0.3],[1.3,-0.3],[1.3,0.02],[0.3,0.02]]"), "[0.8, -0.15, 1.5]",
                   "2");
}

#define WINDOW(line)                                                                                         \
    WITH(BATH ", {\"kind\": \"window\", " line ", \"sill_m\": 1, \"head_m\": 2, \"recess_m\": 0.25}")

/* Its recess is as deep as it is said, counted from the wall, whichever way round and however near it was drawn. */
static void windows_beside_their_wall(void **const state)
{
    (void)state;
    static const char *const Y[] = {"-0.05", "-0.02", "0", "0.02", "0.05"};
    for (size_t i = 0; i < sizeof Y / sizeof *Y; i++) {
        for (int turn = 0; turn < 2; turn++) {
            char plan[1024];
            snprintf(plan, sizeof plan, WINDOW("\"%s\": [0.3,%s], \"%s\": [1.3,%s]"),
                     turn ? "to_m" : "from_m", Y[i], turn ? "from_m" : "to_m", Y[i]);
            expect_zone_of("bath-room", plan, "[0.8, -0.15, 1.5]", "2");
            expect_zone_of("bath-room", plan, "[0.8, -0.24, 1.5]", "2");
        }
    }
    static const fault FAULTS[] = {
        {"bath-room", WINDOW("\"from_m\": [0.3,-0.12], \"to_m\": [1.3,-0.12]"), DS_P_PLAN_OUTSIDE,
         "/plan/features/1", "window"},
        {"bath-room", WINDOW("\"from_m\": [2,1], \"to_m\": [3,1]"), DS_P_PLAN_OUTSIDE, "/plan/features/1",
         "window"},
        {"bath-room", WINDOW("\"from_m\": [3,0], \"to_m\": [4.5,0]"), DS_P_PLAN_OUTSIDE, "/plan/features/1",
         "window"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* --- outlets ------------------------------------------------------------------------------------------------------ */

#define OUTLET(at, basin)                                                                                    \
    "{\"kind\": \"shower-outlet\", \"at_m\": " at ", \"height_m\": 2, \"basin\": " basin "}"

/* Said to stand over a basin it may be on the wall behind it, by its arm; no further. */
static void outlets_over_a_basin(void **const state)
{
    (void)state;
    expect_zone_of("bath-room", WITH(BATH ", " OUTLET("[1.85, 0.3]", "true")), "[2.4, 0.3, 1]", "outside");
    expect_zone_of("bath-room", WITH(BATH ", " OUTLET("[1.85, 0.3]", "false")), "[2.4, 0.3, 1]", "1");
    static const fault FAULTS[] = {
        {"bath-room", WITH(BATH ", " OUTLET("[2, 0.3]", "true")), DS_P_PLAN_NO_BASIN, "/plan/features/1",
         "shows none under it"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* --- kinds of place ----------------------------------------------------------------------------------------------- */

/* What zones are measured from stands in no place without them, and what it would be is not guessed. */
static void places_without_zones(void **const state)
{
    (void)state;
    static const char *const WET[] = {
        BATH,
        "{\"kind\": \"shower-basin\", \"centre_m\": [1, 1], \"radius_m\": 0.4}",
        OUTLET("[2, 0.3]", "false"),
        "{\"kind\": \"pool\", \"centre_m\": [1, 1], \"radius_m\": 0.4}",
        "{\"kind\": \"fountain\", \"centre_m\": [1, 1], \"radius_m\": 0.4}",
        "{\"kind\": \"sauna-heater\", \"centre_m\": [1, 1], \"radius_m\": 0.4}",
        "{\"kind\": \"platform\", \"centre_m\": [1, 1], \"radius_m\": 0.4}",
    };
    for (size_t i = 0; i < sizeof WET / sizeof *WET; i++) {
        char plan[512];
        snprintf(plan, sizeof plan, WITH("%s"), WET[i]);
        const fault in_office = {"office", plan, DS_P_PLAN_KIND, "/plan/features/0", "has no zones"};
        expect_faults(&in_office, 1);
    }
    expect_zone_of("office", WITH("{\"kind\": \"washbasin\", \"centre_m\": [1, 1], \"radius_m\": 0.4}"),
                   "[2, 2, 1]", "not-applicable");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(openings_beside_their_wall), cmocka_unit_test(openings_off_all_walls),
        cmocka_unit_test(rooms_that_touch),           cmocka_unit_test(niches),
        cmocka_unit_test(windows_beside_their_wall),  cmocka_unit_test(outlets_over_a_basin),
        cmocka_unit_test(places_without_zones),
    };
    return cmocka_run_group_tests_name("zone_stands_ref", tests, NULL, NULL);
}
