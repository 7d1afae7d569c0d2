/* SPDX-License-Identifier: MIT */
/* A job with a wrong plan and a second, sound place, and what must come of it: for the tests of plans. */
#ifndef ZONE_FAULT_H
#define ZONE_FAULT_H

#include "zone_help.h"

typedef struct fault {
    const char *kind; /* of the place */
    const char *plan; /* its value */
    ds_problem_code code;
    const char *pointer; /* below /places/0 */
    const char *says;    /* a piece of the sentence */
} fault;

#define ROOM "\"outline_m\": [[0,0],[4,0],[4,3],[0,3]]"
#define BATH_AT "\"kind\": \"bath\", \"outline_m\": [[0,0],[1.7,0],[1.7,0.7],[0,0.7]]"
#define BATH "{" BATH_AT ", \"rim_m\": 0.55, \"bottom_m\": 0.15}"
#define WITH(features) "{" ROOM ", \"features\": [" features "]}"

/* --- a job with a wrong plan and a second place ------------------------------------------------------------------- */

static inline void open_plan(zone_world *const w, const char *const kind, const char *const plan,
                             const char *const at)
{
    const char *const pieces[] = {
        "{\"dripstone\": 1, \"rules\": [\"gb-2022\"],\n\"places\": [{\"id\": \"a\", \"kind\": \"",
        kind,
        "\", \"setting\": \"indoors\", \"seen\": \"none\", \"plan\": ",
        plan,
        "},\n{\"id\": \"b\", \"kind\": \"office\", \"setting\": \"indoors\", \"seen\": "
        "\"none\"}],\n\"points\": "
        "[{\"id\": \"P1\", \"place\": \"a\", \"kind\": \"luminaire\", \"at_m\": ",
        at,
        ", \"zone1_distance_m\": 5, \"supply\": {\"volts\": 230, \"current\": \"ac\", \"selv\": false, "
        "\"rcd_ma\": 30}, "
        "\"marked\": [{\"ip\": \"IP66\", \"ik\": \"IK10\"}]},\n{\"id\": \"P2\", \"place\": \"b\", \"kind\": "
        "\"luminaire\", \"marked\": [{\"ip\": \"IP66\", \"ik\": \"IK10\"}]}]}"};
    w->memory = test_alloc_make(0);
    ds_arena_init(&w->arena, test_alloc_use(&w->memory));
    ds_text_init(&w->text, &w->memory.alloc);
    w->book = malloc(sizeof *w->book);
    assert_non_null(w->book);
    assert_int_equal(support_rulebook(w->book, &w->arena), DS_OK);
    for (size_t i = 0; i < sizeof pieces / sizeof *pieces; i++) {
        ds_text_add(&w->text, pieces[i]);
    }
    assert_true(ds_text_ok(&w->text));
    assert_int_equal(support_assess(&w->findings, &w->job, w->book, &w->arena, ds_text_str(&w->text)), DS_OK);
}

/* The first point has no zone and does not fit; the second fits. */
static inline bool only_the_place_suffers(const zone_world *const w)
{
    const ds_finding *const points = w->findings.points;
    const bool guessed = points[0].where || !ds_str_is(points[0].zone, "unknown");
    return !guessed && points[0].verdict != DS_FITS && points[1].verdict == DS_FITS;
}

static inline bool says(zone_world *const w, const fault *const f)
{
    char pointer[128];
    snprintf(pointer, sizeof pointer, "/places/0%s: ", f->pointer);
    const char *const said = zone_problem(w);
    return strncmp(said, pointer, strlen(pointer)) == 0 && strstr(said, f->says);
}

static inline void expect_faults(const fault *const faults, const size_t len)
{
    size_t failed = 0;
    for (size_t i = 0; i < len; i++) {
        const fault *const f = &faults[i];
        zone_world w;
        open_plan(&w, f->kind, f->plan, "[2, 2, 1]");
        const bool right = w.job.problems.len > 0 && w.job.problems.at[0].code == f->code && says(&w, f) &&
                           w.job.places[0].problem >= 0;
        if (!right || !only_the_place_suffers(&w)) {
            print_error("fault %zu, %.200s:\n  \"%s\", code %d; point in zone %.*s, verdicts %d and %d\n", i,
                        f->plan, zone_problem(&w), w.job.problems.len ? (int)w.job.problems.at[0].code : -1,
                        (int)w.findings.points[0].zone.len, w.findings.points[0].zone.at,
                        w.findings.points[0].verdict, w.findings.points[1].verdict);
            failed++;
        }
        zone_close(&w);
    }
    assert_int_equal(failed, 0);
}

#define EXPECT_FAULTS(list) expect_faults((list), sizeof(list) / sizeof *(list))

#endif
