/* SPDX-License-Identifier: MIT */
/*
 * Memory that runs out at the n-th request, n = 1, 2, … until all goes well: rulebook, job, assessment and every output.
 * Each time nothing may leak, nothing may be half written as if it were whole, and no answer may come of it.
 */
#include "support.h"

static const char JOB[] =
    "{\"dripstone\": 1, \"title\": \"Oom\", \"date\": \"2024-05-04\", \"rules\": [\"gb-2022\"], \"places\": ["
    "{\"id\": \"yard\", \"kind\": \"yard\", \"setting\": \"outdoors\", \"seen\": [\"none\", "
    "\"hosed-directly\"],"
    " \"asked\": {\"ip\": \"IP55\", \"impact_j\": 5, \"suitable_for\": [\"ammonia\"], \"by\": \"client\"}}], "
    "\"points\": ["
    "{\"id\": \"1\", \"place\": \"yard\", \"kind\": \"socket-outlet\", \"marked\": [{\"ip\": \"IP66\", "
    "\"when\": "
    "[\"lid-closed\"]}], \"states\": [[\"lid-closed\"]], \"odd\": 1, \"box\": {\"entries\": [{\"holds\": "
    "\"gland\", \"size\": \"M20\", \"cable\": {\"od_mm\": [9, 11]}, \"range_mm\": [6, 12]}, {\"holds\": "
    "\"tape\"}], \"faces\": [{\"face\": \"top\", \"openings\": [{\"shape\": \"round\", \"size_mm\": 4}]}], "
    "\"size_mm\": [400, 600, 200], \"mounted\": \"wall\", \"surface\": \"painted-steel\", \"colour\": "
    "\"whyte\", \"watts\": 60, \"air_c\": 35, \"limit_c\": 55, \"sun\": {\"shade\": true}, \"cooled_to_c\": "
    "10, "
    "\"flood\": {\"level_m\": 2, \"hours\": 2}, \"lowest_m\": 1}},"
    "{\"id\": \"2\", \"place\": \"yrad\", \"kind\": \"lumniaire\", \"marked\": [{\"ip\": "
    "\"weatherproof\"}]}]}";

/* The whole way once; false when memory ran out somewhere. */
static bool whole_way(test_alloc *const a)
{
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(a));
    ds_text json;
    ds_text csv;
    ds_text_init(&json, &a->alloc);
    ds_text_init(&csv, &a->alloc);
    ds_rulebook *const book = malloc(sizeof *book);
    assert_non_null(book);
    ds_job job;
    ds_findings findings;
    ds_status status = support_rulebook(book, &arena);
    if (status == DS_OK) {
        status = support_assess(&findings, &job, book, &arena, DS_STR(JOB));
    }
    if (status == DS_OK) {
        assert_int_equal(findings.points_len, 2);
        assert_int_not_equal(findings.points[1].verdict, DS_FITS);
        ds_findings_json(&json, &findings, NULL);
        ds_findings_csv(&csv, &findings, NULL);
    }
    const bool whole = status == DS_OK && ds_text_ok(&json) && ds_text_ok(&csv);
    if (whole) {
        assert_int_equal(json.at[json.len - 2], '}');
    } else {
        assert_true(status == DS_NO_MEMORY || status == DS_OK);
    }
    ds_text_free(&json);
    ds_text_free(&csv);
    ds_arena_free(&arena);
    free(book);
    assert_int_equal(a->blocks, 0);
    return whole;
}

static void test_every_allocation_may_fail(void **const state)
{
    (void)state;
    size_t n = 1;
    for (; n < 100000; n++) {
        test_alloc a = test_alloc_make(n);
        if (whole_way(&a)) {
            assert_true(a.requests < n);
            break;
        }
    }
    assert_in_range(n, 10, 99999);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_every_allocation_may_fail)};
    return cmocka_run_group_tests_name("assess_oom", tests, NULL, NULL);
}
