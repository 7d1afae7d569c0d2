/* SPDX-License-Identifier: MIT */
/*
 * Plans that are written down wrong: each gives its problem at its place in the document, the place's points get no zone
 * and do not fit, and the job's other place is assessed as if nothing were wrong.
 */
#include "zone_fault.h"

/* What all the others are a change of: no problem, and a zone. */
static void a_sound_plan(void **const state)
{
    (void)state;
    zone_world w;
    open_plan(&w, "bath-room", WITH(BATH), "[2, 0.5, 1]");
    assert_string_equal(zone_problem(&w), "");
    assert_true(ds_str_is(w.findings.points[0].zone, "2"));
    assert_int_equal(w.findings.points[0].verdict, DS_FITS);
    assert_int_equal(w.findings.points[1].verdict, DS_FITS);
    zone_close(&w);
}

/* --- shape -------------------------------------------------------------------------------------------------------- */

static void wrong_shapes(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room", "7", DS_P_WRONG_TYPE, "/plan", "\"plan\" must be an object"},
        {"bath-room", "[]", DS_P_WRONG_TYPE, "/plan", "\"plan\" must be an object"},
        {"bath-room", "{}", DS_P_MISSING_KEY, "/plan", "\"outline_m\" is missing"},
        {"bath-room", "{\"features\": [" BATH "]}", DS_P_MISSING_KEY, "/plan", "\"outline_m\" is missing"},
        {"bath-room", "{\"outline_m\": 4, \"features\": [" BATH "]}", DS_P_WRONG_TYPE, "/plan/outline_m",
         "a list"},
        {"bath-room", "{\"outline_m\": [[0,0],[4,0],[4],[0,3]], \"features\": [" BATH "]}", DS_P_WRONG_TYPE,
         "/plan/outline_m/2", "two numbers"},
        {"bath-room", "{\"outline_m\": [[0,0],[4,0],[4,\"3\"],[0,3]], \"features\": [" BATH "]}",
         DS_P_WRONG_TYPE, "/plan/outline_m/2", "two numbers"},
        {"bath-room", "{\"outline_m\": [[0,0],[4,0],{\"to_m\": [4,3]},[0,3]], \"features\": [" BATH "]}",
         DS_P_WRONG_TYPE, "/plan/outline_m/2", "through_m"},
        {"bath-room", "{\"outline_m\": [[0,0],[4,0],{\"through_m\": [4,3]},[0,3]], \"features\": [" BATH "]}",
         DS_P_WRONG_TYPE, "/plan/outline_m/2", "to_m"},
        {"bath-room", "{" ROOM ", \"rooms\": [{" ROOM "}], \"features\": [" BATH "]}", DS_P_MISSING_KEY,
         "/plan", "outline_m"},
        {"bath-room", "{\"rooms\": {" ROOM "}, \"features\": [" BATH "]}", DS_P_WRONG_TYPE, "/plan/rooms",
         "a list"},
        {"bath-room", "{\"rooms\": [[[0,0],[4,0],[4,3]]], \"features\": [" BATH "]}", DS_P_WRONG_TYPE,
         "/plan/rooms/0", "objects"},
        {"bath-room", "{\"rooms\": [{}], \"features\": [" BATH "]}", DS_P_MISSING_KEY, "/plan/rooms/0",
         "outline_m"},
        {"bath-room", "{" ROOM ", \"features\": " BATH "}", DS_P_WRONG_TYPE, "/plan/features", "a list"},
        {"bath-room", WITH("\"bath\""), DS_P_WRONG_TYPE, "/plan/features/0", "objects"},
        {"bath-room", WITH("{\"kind\": \"bath\"}"), DS_P_MISSING_KEY, "/plan/features/0", "outline_m"},
        {"bath-room", WITH("{\"kind\": \"bath\", \"radius_m\": 0.5}"), DS_P_MISSING_KEY, "/plan/features/0",
         "outline_m"},
        {"bath-room", WITH("{" BATH_AT ", \"radius_m\": 0.5, \"centre_m\": [1, 1]}"), DS_P_MISSING_KEY,
         "/plan/features/0", "outline_m"},
        {"bath-room", WITH(BATH ", {\"kind\": \"partition\", \"from_m\": [2, 1]}"), DS_P_MISSING_KEY,
         "/plan/features/1", "\"to_m\" is missing"},
        {"bath-room", WITH(BATH ", {\"kind\": \"shower-outlet\", \"height_m\": 2}"), DS_P_MISSING_KEY,
         "/plan/features/1", "\"at_m\" is missing"},
        {"bath-room", WITH(BATH ", {\"kind\": \"shower-outlet\", \"at_m\": [1, 1, 2]}"), DS_P_WRONG_TYPE,
         "/plan/features/1/at_m", "[x, y]"},
        {"bath-room", WITH(BATH ", {\"kind\": \"slope\", \"through_m\": [[0,0,1],[1,0,2]]}"), DS_P_WRONG_TYPE,
         "/plan/features/1/through_m", "three places"},
        {"bath-room", WITH(BATH ", {\"kind\": \"slope\", \"through_m\": [[0,0,1],[1,0],[0,1,1]]}"),
         DS_P_WRONG_TYPE, "/plan/features/1/through_m/1", "three numbers"},
        {"bath-room", WITH(BATH ", {\"kind\": \"slope\"}"), DS_P_WRONG_TYPE, "/plan/features/1",
         "three places"},
        {"bath-room", WITH(BATH ", {\"kind\": \"under-bath\", \"tool\": \"yes\"}"), DS_P_WRONG_TYPE,
         "/plan/features/1/tool", "true or false"},
    };
    EXPECT_FAULTS(FAULTS);
}

static void unknown_kinds_and_keys(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room", "{" ROOM ", \"hieght_m\": 2.4, \"features\": [" BATH "]}", DS_P_UNKNOWN_KEY,
         "/plan/hieght_m", "did you mean \"height_m\""},
        {"bath-room", "{\"rooms\": [{" ROOM ", \"name\": \"x\"}], \"features\": [" BATH "]}",
         DS_P_UNKNOWN_KEY, "/plan/rooms/0/name", "\"name\""},
        {"bath-room", WITH("{\"kind\": \"bathe\"}"), DS_P_UNKNOWN_WORD, "/plan/features/0/kind",
         "did you mean \"bath\""},
        {"bath-room", WITH(BATH ", {\"kind\": \"shower-outle\", \"at_m\": [1, 1]}"), DS_P_UNKNOWN_WORD,
         "/plan/features/1/kind", "did you mean \"shower-outlet\""},
        {"bath-room", WITH("{" BATH_AT ", \"botom_m\": 0.1}"), DS_P_UNKNOWN_KEY, "/plan/features/0/botom_m",
         "did you mean \"bottom_m\""},
        {"bath-room", WITH("{" BATH_AT ", \"tool\": true}"), DS_P_UNKNOWN_KEY, "/plan/features/0/tool",
         "not known"},
        {"bath-room",
         WITH(BATH ", {\"kind\": \"partition\", \"from_m\": [2,1], \"to_m\": [3,1], \"fixd\": true}"),
         DS_P_UNKNOWN_KEY, "/plan/features/1/fixd", "did you mean \"fixed\""},
        {"bath-room",
         WITH(BATH ", {\"kind\": \"door\", \"from_m\": [4,1], \"to_m\": [4,2], \"gap_m\": 0.01}"),
         DS_P_UNKNOWN_KEY, "/plan/features/1/gap_m", "not known"},
    };
    EXPECT_FAULTS(FAULTS);
}

static void kind_missing_or_no_text(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room", WITH(BATH ", {\"from_m\": [2,1], \"to_m\": [3,1]}"), DS_P_MISSING_KEY,
         "/plan/features/1", "\"kind\" is missing"},
        {"bath-room", WITH(BATH ", {\"kind\": 7}"), DS_P_WRONG_TYPE, "/plan/features/1/kind",
         "\"kind\" must be"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* A key that an arc does not have must not be passed over. */
static void unknown_key_of_an_arc(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room",
         WITH("{\"kind\": \"bath\", \"outline_m\": [[0,0],[0.9,0],{\"to_m\": [0,0.9], \"through_m\": "
              "[0.54,0.72], \"radius_m\": 0.9}]}"),
         DS_P_UNKNOWN_KEY, "/plan/features/0/outline_m/2/radius_m", "radius_m"},
    };
    EXPECT_FAULTS(FAULTS);
}

static void absurd_sizes(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room", "{\"outline_m\": [[0,0],[4000,0],[4000,3000],[0,3000]], \"features\": [" BATH "]}",
         DS_P_OUT_OF_RANGE, "/plan/outline_m/1/0", "4000 is outside"},
        {"bath-room", "{" ROOM ", \"height_m\": 2400, \"features\": [" BATH "]}", DS_P_OUT_OF_RANGE,
         "/plan/height_m", "2400 is outside 0.1 to 200"},
        {"bath-room", "{" ROOM ", \"height_m\": -2.4, \"features\": [" BATH "]}", DS_P_OUT_OF_RANGE,
         "/plan/height_m", "outside"},
        {"bath-room", "{" ROOM ", \"north_deg\": 720, \"features\": [" BATH "]}", DS_P_OUT_OF_RANGE,
         "/plan/north_deg", "outside"},
        {"bath-room", WITH("{" BATH_AT ", \"rim_m\": 550}"), DS_P_OUT_OF_RANGE, "/plan/features/0/rim_m",
         "550"},
        {"bath-room", WITH("{\"kind\": \"bath\", \"centre_m\": [1, 1], \"radius_m\": 0}"), DS_P_OUT_OF_RANGE,
         "/plan/features/0/radius_m", "0 is outside"},
        {"bath-room", WITH("{\"kind\": \"bath\", \"centre_m\": [1, 1], \"radius_m\": -0.4}"),
         DS_P_OUT_OF_RANGE, "/plan/features/0/radius_m", "outside"},
        {"bath-room", WITH("{\"kind\": \"bath\", \"centre_m\": [1000.5, 1], \"radius_m\": 0.4}"),
         DS_P_OUT_OF_RANGE, "/plan/features/0/centre_m/0", "outside"},
        {"bath-room",
         WITH(BATH ", {\"kind\": \"partition\", \"from_m\": [2,1], \"to_m\": [3,1], \"thickness_m\": 100}"),
         DS_P_OUT_OF_RANGE, "/plan/features/1/thickness_m", "100 is outside"},
        {"bath-room",
         WITH(BATH ", {\"kind\": \"partition\", \"from_m\": [2,1], \"to_m\": [3,1], \"gap_m\": -0.1}"),
         DS_P_OUT_OF_RANGE, "/plan/features/1/gap_m", "outside"},
        {"bath-room", WITH(BATH ", {\"kind\": \"shower-outlet\", \"at_m\": [1, 1], \"height_m\": 2100}"),
         DS_P_OUT_OF_RANGE, "/plan/features/1/height_m", "2100"},
        {"bath-room", WITH(BATH ", {\"kind\": \"slope\", \"through_m\": [[0,0,1],[1,0,2500],[0,1,1]]}"),
         DS_P_OUT_OF_RANGE, "/plan/features/1/through_m/1/2", "2500"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* A bath of 170 m by 70 m was written down in centimetres. */
static void centimetres(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room",
         "{\"outline_m\": [[0,0],[400,0],[400,300],[0,300]], \"features\": [{\"kind\": \"bath\", "
         "\"outline_m\": [[0,0],[170,0],[170,70],[0,70]]}]}",
         DS_P_OUT_OF_RANGE, "/plan", "outside"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* What is too long or too high for its kind, wherever the room is drawn in metres. */
static void too_large_for_its_kind(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room", WITH("{\"kind\": \"bath\", \"outline_m\": [[0,0],[170,0],[170,70],[0,70]]}"),
         DS_P_OUT_OF_RANGE, "/plan/features/0", "170 m is outside 0 to 10 m; are these centimetres?"},
        {"bath-room", WITH("{\"kind\": \"shower-basin\", \"centre_m\": [45, 45], \"radius_m\": 45}"),
         DS_P_OUT_OF_RANGE, "/plan/features/0", "90 m is outside"},
        {"bath-room",
         WITH("{\"kind\": \"bath\", \"outline_m\": [[0,0],[1,0],[1,1],{\"to_m\": [0,1], \"through_m\": "
              "[0.5,60]}]}"),
         DS_P_OUT_OF_RANGE, "/plan/features/0", "60 m is outside"},
        {"bath-room", WITH(BATH ", {\"kind\": \"door\", \"from_m\": [4,10], \"to_m\": [4,90]}"),
         DS_P_OUT_OF_RANGE, "/plan/features/1", "80 m is outside 0 to 30 m"},
        {"bath-room", WITH("{" BATH_AT ", \"rim_m\": 55, \"bottom_m\": 15}"), DS_P_OUT_OF_RANGE,
         "/plan/features/0", "55 m is outside 0 to 3 m"},
        {"bath-room", WITH("{" BATH_AT ", \"bottom_m\": 15}"), DS_P_OUT_OF_RANGE, "/plan/features/0",
         "15 m is outside 0 to 3 m"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* Corners and a circle, or half a circle: which of them it is would be a guess. */
static void two_outlines_in_one(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"bath-room", WITH("{" BATH_AT ", \"radius_m\": 0.5}"), DS_P_MISSING_KEY, "/plan/features/0",
         "outline_m"},
        {"bath-room", WITH("{" BATH_AT ", \"centre_m\": [1, 1]}"), DS_P_MISSING_KEY, "/plan/features/0",
         "outline_m"},
        {"bath-room", WITH("{\"kind\": \"bath\", \"centre_m\": [1, 1]}"), DS_P_MISSING_KEY,
         "/plan/features/0", "outline_m"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* A pool's rim is at the floor unless it is said to be higher: a depth written as a height would leave no zone 0. */
static void a_depth_for_a_height(void **const state)
{
    (void)state;
    static const fault FAULTS[] = {
        {"pool", WITH("{\"kind\": \"pool\", \"outline_m\": [[1,1],[3,1],[3,2],[1,2]], \"bottom_m\": 1.5}"),
         DS_P_PLAN_UPSIDE_DOWN, "/plan/features/0/bottom_m", "bottom_m lies above the floor"},
        {"bath-room", WITH("{" BATH_AT ", \"rim_m\": 0.15, \"bottom_m\": 0.55}"), DS_P_PLAN_UPSIDE_DOWN,
         "/plan/features/0/bottom_m", "bottom_m lies above rim_m"},
        {"bath-room",
         WITH(BATH ", {\"kind\": \"partition\", \"from_m\": [2,0], \"to_m\": [2,1], \"height_m\": 1, "
                   "\"gap_m\": 2}"),
         DS_P_PLAN_UPSIDE_DOWN, "/plan/features/1/gap_m", "gap_m lies above height_m"},
    };
    EXPECT_FAULTS(FAULTS);
}

/* A rim below the bottom holds no water; a window's head below its sill lets nothing in. */
static void heights_upside_down(void **const state)
{
    (void)state;
    static const char *const FEATURES[] = {
        WITH("{" BATH_AT ", \"rim_m\": 0.15, \"bottom_m\": 0.55}"),
        WITH(BATH
             ", {\"kind\": \"window\", \"from_m\": [1,0], \"to_m\": [2,0], \"sill_m\": 2, \"head_m\": 1, "
             "\"recess_m\": 0.2}"),
        WITH(BATH ", {\"kind\": \"niche\", \"outline_m\": [[1,-0.1],[2,-0.1],[2,0],[1,0]], \"bottom_m\": 2, "
                  "\"top_m\": 1}"),
    };
    for (size_t i = 0; i < sizeof FEATURES / sizeof *FEATURES; i++) {
        zone_world w;
        open_plan(&w, "bath-room", FEATURES[i], "[2, 2, 1]");
        if (w.job.places[0].problem < 0) {
            print_error("no problem: %s\n", FEATURES[i]);
            fail();
        }
        zone_close(&w);
    }
}

/* More corners or features than a plan may have. */
static void too_many(void **const state)
{
    (void)state;
    static char plan[40000];
    size_t len = (size_t)snprintf(plan, sizeof plan, "{" ROOM ", \"features\": [" BATH);
    for (int i = 0; i < DS_PLAN_FEATURES; i++) {
        len += (size_t)snprintf(plan + len, sizeof plan - len,
                                ", {\"kind\": \"washbasin\", \"centre_m\": [2, 2], "
                                "\"radius_m\": 0.3}");
    }
    snprintf(plan + len, sizeof plan - len, "]}");
    const fault features = {"bath-room", plan, DS_P_WRONG_TYPE, "/plan/features", "200"};
    expect_faults(&features, 1);
    len = (size_t)snprintf(plan, sizeof plan, "{\"features\": [" BATH "], \"outline_m\": [");
    for (int i = 0; i <= DS_PLAN_CORNERS; i++) {
        const double turn = 6.283185307179586 * i / (DS_PLAN_CORNERS + 1);
        len += (size_t)snprintf(plan + len, sizeof plan - len, "%s[%.5f, %.5f]", i ? ", " : "", 9 * cos(turn),
                                9 * sin(turn));
    }
    snprintf(plan + len, sizeof plan - len, "]}");
    const fault corners = {"bath-room", plan, DS_P_WRONG_TYPE, "/plan/outline_m", "500"};
    expect_faults(&corners, 1);
    /* Columns of 40 corners: sound each, but more than 800 walls. */
    len = (size_t)snprintf(plan, sizeof plan,
                           "{\"outline_m\": [[0,0],[40,0],[40,9],[0,9]], \"features\": [" BATH);
    for (int k = 0; k < 21; k++) {
        len += (size_t)snprintf(plan + len, sizeof plan - len, ", {\"kind\": \"column\", \"outline_m\": [");
        for (int i = 0; i < 40; i++) {
            const double turn = 6.283185307179586 * i / 40;
            len += (size_t)snprintf(plan + len, sizeof plan - len, "%s[%.3f, %.3f]", i ? ", " : "",
                                    4 + 1.5 * k + 0.5 * cos(turn), 6 + 0.5 * sin(turn));
        }
        len += (size_t)snprintf(plan + len, sizeof plan - len, "]}");
    }
    snprintf(plan + len, sizeof plan - len, "]}");
    const fault walls = {"bath-room", plan, DS_P_PLAN_TOO_FINE, "/plan", "800 walls"};
    expect_faults(&walls, 1);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sound_plan),
        cmocka_unit_test(wrong_shapes),
        cmocka_unit_test(unknown_kinds_and_keys),
        cmocka_unit_test(kind_missing_or_no_text),
        cmocka_unit_test(unknown_key_of_an_arc),
        cmocka_unit_test(absurd_sizes),
        cmocka_unit_test(centimetres),
        cmocka_unit_test(too_large_for_its_kind),
        cmocka_unit_test(two_outlines_in_one),
        cmocka_unit_test(a_depth_for_a_height),
        cmocka_unit_test(heights_upside_down),
        cmocka_unit_test(too_many),
    };
    return cmocka_run_group_tests_name("zone_plan_ref", tests, NULL, NULL);
}
