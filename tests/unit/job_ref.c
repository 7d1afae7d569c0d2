/* SPDX-License-Identifier: MIT */
/* Faults in job documents: the problem found, where it stands, and whether place or point is marked by it. */
#include "support.h"

/* Whom a problem marks. */
typedef enum owner { NOBODY, THE_PLACE, THE_POINT } owner;

typedef struct fault {
    const char *text;
    ds_problem_code code;
    const char *pointer;
    unsigned line, column;
    owner owner;
} fault;

#define HEAD_TEXT "{\"dripstone\": 1, \"rules\": [\"iec\"],\n"
#define PLACES_TEXT                                                                                          \
    "\"places\": [{\"id\": \"a\", \"kind\": \"office\", \"setting\": \"indoors\", \"seen\": \"none\"}],\n"

static const fault FAULTS[] = {
    {HEAD_TEXT "\"places\": [{\"id\": \"a\", \"kind\": \"office\"}], \"points\": []}", DS_P_MISSING_KEY,
     "/places/0", 2, 12, THE_PLACE},
    {HEAD_TEXT "\"places\": [{\"id\": \"a\", \"kind\": 7, \"setting\": \"indoors\"}]}", DS_P_WRONG_TYPE,
     "/places/0/kind", 2, 32, THE_PLACE},
    {HEAD_TEXT
     "\"places\": [{\"id\": \"a\", \"kind\": \"office\", \"setting\": \"indoors\", \"sene\": \"none\"}]}",
     DS_P_UNKNOWN_KEY, "/places/0/sene", 2, 72, THE_PLACE},
    {HEAD_TEXT
     "\"places\": [{\"id\": \"a\", \"kind\": \"office\", \"setting\": \"indoors\", \"seen\": [3]}]}",
     DS_P_WRONG_TYPE, "/places/0/seen", 2, 72, THE_PLACE},
    {HEAD_TEXT "\"places\": [{\"id\": \"a\", \"kind\": \"office\", \"setting\": \"indoors\", \"influences\": "
               "{\"AD\": 0}}]}",
     DS_P_OUT_OF_RANGE, "/places/0/influences/AD", 2, 85, THE_PLACE},
    {HEAD_TEXT "\"places\": [{\"id\": \"a\", \"kind\": \"office\", \"setting\": \"indoors\", \"influences\": "
               "{\"ZZ\": 1}}]}",
     DS_P_UNKNOWN_KEY, "/places/0/influences/ZZ", 2, 85, THE_PLACE},
    {HEAD_TEXT PLACES_TEXT "\"points\": [{\"id\": \"1\", \"place\": \"b\", \"kind\": \"switch\"}]}",
     DS_P_NO_SUCH_PLACE, "/points/0/place", 3, 33, THE_POINT},
    {HEAD_TEXT PLACES_TEXT
     "\"points\": [{\"id\": \"1\", \"place\": \"a\", \"kind\": \"switch\", \"height_m\": 2100}]}",
     DS_P_OUT_OF_RANGE, "/points/0/height_m", 3, 68, THE_POINT},
    {HEAD_TEXT PLACES_TEXT
     "\"points\": [{\"id\": \"1\", \"place\": \"a\", \"kind\": \"switch\", \"height_m\": \"2.1\"}]}",
     DS_P_WRONG_TYPE, "/points/0/height_m", 3, 68, THE_POINT},
    {HEAD_TEXT PLACES_TEXT
     "\"points\": [{\"id\": \"1\", \"place\": \"a\", \"kind\": \"switch\", \"count\": 1.5}]}",
     DS_P_WRONG_TYPE, "/points/0/count", 3, 65, THE_POINT},
    {HEAD_TEXT PLACES_TEXT
     "\"points\": [{\"id\": \"1\", \"place\": \"a\", \"kind\": \"switch\", \"at_m\": [1, 2]}]}",
     DS_P_WRONG_TYPE, "/points/0/at_m", 3, 64, THE_POINT},
    {HEAD_TEXT PLACES_TEXT
     "\"points\": [{\"id\": \"1\", \"place\": \"a\", \"kind\": \"switch\", \"marked\": \"IP44\"}]}",
     DS_P_WRONG_TYPE, "/points/0/marked", 3, 66, THE_POINT},
    {HEAD_TEXT PLACES_TEXT
     "\"points\": [{\"id\": \"1\", \"place\": \"a\", \"kind\": \"switch\", \"states\": [\"x\"]}]}",
     DS_P_WRONG_TYPE, "/points/0/states", 3, 66, THE_POINT},
    {HEAD_TEXT PLACES_TEXT
     "\"points\": [{\"id\": \"1\", \"place\": \"a\", \"kind\": \"switch\", \"supply\": {\"selv\": 1}}]}",
     DS_P_WRONG_TYPE, "/points/0/supply/selv", 3, 75, THE_POINT},
    {HEAD_TEXT PLACES_TEXT
     "\"points\": [{\"id\": \"1\", \"place\": \"a\", \"kind\": \"switch\", \"maker\": {\"ambient_c\": "
     "[1]}}]}",
     DS_P_WRONG_TYPE, "/points/0/maker/ambient_c", 3, 79, THE_POINT},
    {HEAD_TEXT "\"points\": 3}", DS_P_WRONG_TYPE, "/points", 2, 11, NOBODY},
    {HEAD_TEXT "\"points\": [3]}", DS_P_WRONG_TYPE, "/points/0", 2, 12, NOBODY},
    {HEAD_TEXT "\"date\": \"2026-02-30\"}", DS_P_BAD_DATE, "/date", 2, 9, NOBODY},
    {HEAD_TEXT "\"colour\": 1}", DS_P_UNKNOWN_KEY, "/colour", 2, 11, NOBODY},
};

typedef struct fixture {
    test_alloc alloc;
    ds_arena arena;
} fixture;

static void open_fixture(fixture *const f)
{
    f->alloc = test_alloc_make(0);
    ds_arena_init(&f->arena, test_alloc_use(&f->alloc));
}

static void close_fixture(fixture *const f)
{
    ds_arena_free(&f->arena);
    assert_int_equal(f->alloc.blocks, 0);
}

static void check_owner(const ds_job *const job, const owner who)
{
    const bool place = job->places_len && job->places[0].problem == 0;
    const bool point = job->points_len && job->points[0].problem == 0;
    assert_int_equal(place, who == THE_PLACE);
    assert_int_equal(point, who == THE_POINT);
}

static void test_faults(void **const state)
{
    (void)state;
    for (size_t i = 0; i < sizeof FAULTS / sizeof *FAULTS; i++) {
        fixture f;
        open_fixture(&f);
        ds_job job;
        ds_problem problem;
        assert_int_equal(ds_job_read(&job, ds_str_of(FAULTS[i].text), &f.arena, &problem), DS_OK);
        assert_int_equal(job.problems.len, 1);
        const ds_problem *const found = &job.problems.at[0];
        if (found->code != FAULTS[i].code || found->where.line != FAULTS[i].line ||
            found->where.column != FAULTS[i].column || !ds_str_is(found->where.pointer, FAULTS[i].pointer)) {
            fprintf(stderr, "fault %zu: code %d at %u:%u %.*s\n", i, found->code, found->where.line,
                    found->where.column, (int)found->where.pointer.len, found->where.pointer.at);
            fail();
        }
        check_owner(&job, FAULTS[i].owner);
        close_fixture(&f);
    }
}

/* The first of two things with one id stands; the second is marked. */
static void test_duplicate_ids(void **const state)
{
    (void)state;
    fixture f;
    open_fixture(&f);
    ds_job job;
    ds_problem problem;
    const ds_str text =
        DS_STR(HEAD_TEXT PLACES_TEXT "\"points\": [{\"id\": \"1\", \"place\": \"a\", \"kind\": \"switch\"},\n"
                                     "{\"id\": \"1\", \"place\": \"a\", \"kind\": \"switch\"}]}");
    assert_int_equal(ds_job_read(&job, text, &f.arena, &problem), DS_OK);
    assert_int_equal(job.problems.len, 1);
    assert_int_equal(job.problems.at[0].code, DS_P_DUPLICATE_ID);
    assert_int_equal(job.problems.at[0].where.line, 4);
    assert_int_equal(job.points[0].problem, -1);
    assert_int_equal(job.points[1].problem, 0);
    close_fixture(&f);
}

/* More problems than are listed still mark every point. */
static void test_unlisted_problems(void **const state)
{
    (void)state;
    fixture f;
    open_fixture(&f);
    ds_text text;
    ds_text_init(&text, &f.alloc.alloc);
    ds_text_add(&text, HEAD_TEXT PLACES_TEXT "\"points\": [");
    for (int i = 0; i < DS_JOB_PROBLEMS + 50; i++) {
        ds_text_add(&text, i ? ", {\"id\": \"" : "{\"id\": \"");
        ds_text_int(&text, i);
        ds_text_add(&text, "\", \"place\": \"a\", \"kind\": \"switch\", \"odd\": 1}");
    }
    ds_text_add(&text, "]}");
    ds_job job;
    ds_problem problem;
    assert_int_equal(ds_job_read(&job, ds_text_str(&text), &f.arena, &problem), DS_OK);
    assert_int_equal(job.problems.len, DS_JOB_PROBLEMS);
    assert_int_equal(job.problems_unlisted, 50);
    for (size_t i = 0; i < job.points_len; i++) {
        assert_true(job.points[i].problem >= 0);
    }
    ds_text_free(&text);
    close_fixture(&f);
}

static void test_not_a_job(void **const state)
{
    (void)state;
    static const char *const TEXTS[] = {"[]", "{}", "{\"dripstone\": 2}", "{\"dripstone\": \"1\"}", "7"};
    for (size_t i = 0; i < sizeof TEXTS / sizeof *TEXTS; i++) {
        fixture f;
        open_fixture(&f);
        ds_job job;
        ds_problem problem;
        assert_int_equal(ds_job_read(&job, ds_str_of(TEXTS[i]), &f.arena, &problem), DS_BAD_INPUT);
        assert_int_equal(problem.code, DS_P_NOT_A_JOB);
        close_fixture(&f);
    }
}

static void test_dates(void **const state)
{
    (void)state;
    assert_true(ds_date_is_valid(DS_STR("2024-02-29")));
    assert_true(ds_date_is_valid(DS_STR("2000-02-29")));
    assert_false(ds_date_is_valid(DS_STR("1900-02-29")));
    assert_false(ds_date_is_valid(DS_STR("2026-04-31")));
    assert_false(ds_date_is_valid(DS_STR("2026-13-01")));
    assert_false(ds_date_is_valid(DS_STR("2026-00-01")));
    assert_false(ds_date_is_valid(DS_STR("2026-1-1")));
    assert_false(ds_date_is_valid(DS_STR("04.05.2026")));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_faults),
        cmocka_unit_test(test_duplicate_ids),
        cmocka_unit_test(test_unlisted_problems),
        cmocka_unit_test(test_not_a_job),
        cmocka_unit_test(test_dates),
    };
    return cmocka_run_group_tests_name("job_ref", tests, NULL, NULL);
}
