/* SPDX-License-Identifier: MIT */
/*
 * Memory that runs out, for a job with plans: read, assessed, its zones written out. At the n-th request, n = 1, 2, …
 * until all goes well; and, since the arena asks in large blocks, at many places within those: the arena is filled
 * beforehand so far that so many bytes are left. Each time the answer is DS_NO_MEMORY and nothing leaks.
 */
#include "support.h"

static const char JOB[] =
    "{\"dripstone\": 1, \"rules\": [\"gb-2022\", \"de\"], \"places\": [{\"id\": \"bath\", \"kind\": "
    "\"bath-room\", "
    "\"setting\": \"indoors\", \"seen\": \"none\", \"plan\": {\"height_m\": 2.5, \"rooms\": [{\"outline_m\": "
    "[[0,0],[2,0],[2,3],[0,3]]}, {\"outline_m\": [[2.1,0],[4,0],[4,3],[2.1,3]]}], \"features\": [{\"kind\": "
    "\"bath\", \"id\": \"b\", \"outline_m\": [[0,0],[1.7,0],[1.7,0.7],[0,0.7]], \"rim_m\": 0.5, "
    "\"bottom_m\": "
    "0.1}, {\"kind\": \"shower-outlet\", \"at_m\": [3.5, 1]}, {\"kind\": \"under-bath\", \"of\": \"b\", "
    "\"tool\": true}, {\"kind\": \"partition\", \"from_m\": [1.75,0], \"to_m\": [1.75,0.9], \"height_m\": "
    "2}, "
    "{\"kind\": \"door\", \"from_m\": [2.05,1.5], \"to_m\": [2.05,2.3]}, {\"kind\": \"slope\", "
    "\"through_m\": "
    "[[0,0,2],[1,0,2],[0,3,3]]}]}},"
    "{\"id\": \"odd\", \"kind\": \"pool\", \"setting\": \"indoors\", \"seen\": \"none\", \"plan\": "
    "{\"outline_m\": "
    "[[0,0],[4,3],[4,0],[0,3]], \"features\": [{\"kind\": \"pol\"}]}},"
    "{\"id\": \"pool\", \"kind\": \"pool\", \"setting\": \"indoors\", \"seen\": \"none\", \"plan\": "
    "{\"outline_m\": "
    "[[0,0],[20,0],[20,12],[0,12]], \"features\": [{\"kind\": \"pool\", \"centre_m\": [8,6], \"radius_m\": "
    "3}, "
    "{\"kind\": \"partition\", \"from_m\": [12,2], \"to_m\": [12,7], \"height_m\": 3}]}}],"
    "\"points\": [{\"id\": \"1\", \"place\": \"bath\", \"kind\": \"luminaire\", \"at_m\": [0.9, 1.2, 1], "
    "\"size_m\": [0.3, 0.3, 0.1], \"about\": true, \"zone_stated\": \"1\"},"
    "{\"id\": \"2\", \"place\": \"pool\", \"kind\": \"luminaire\", \"at_m\": [13, 6, 1]},"
    "{\"id\": \"3\", \"place\": \"pool\", \"kind\": \"luminaire\", \"at_m\": [-13, 6, 1]}]}";

/* The arena's largest block without its head, and the room before it that makes the next block one of these. */
#define BLOCK (((size_t)1 << 20) - 16)
#define BEFORE ((size_t)1 << 19)
#define STEP ((size_t)16 * 997)

typedef struct world {
    test_alloc memory;
    ds_arena arena;
    ds_rulebook book;
} world;

static void check_answers(const ds_findings *const findings)
{
    assert_int_equal(findings->points_len, 3);
    assert_int_equal(findings->wet[0].len, 2);
    assert_int_equal(findings->wet[1].len, 0);
    assert_int_equal(findings->wet[2].len, 2);
    assert_non_null(findings->points[0].where);
    assert_non_null(findings->points[1].where);
    assert_null(findings->points[2].where);
}

/* The whole way once, `left` bytes before the end of a block (0: from the beginning); false when memory ran out. */
static bool whole_way(test_alloc *const a, const ds_rulebook *const book, const size_t left)
{
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(a));
    if (left) {
        assert_non_null(ds_arena_take(&arena, BEFORE));
        assert_non_null(ds_arena_take(&arena, BLOCK - left));
    }
    ds_text json;
    ds_text_init(&json, &a->alloc);
    ds_job job;
    ds_findings findings;
    const ds_status status = support_assess(&findings, &job, book, &arena, DS_STR(JOB));
    if (status == DS_OK) {
        check_answers(&findings);
        const ds_zone_spot spots[] = {{{1, 1, 1}}, {{9, 9, 9}}};
        for (size_t i = 0; i < 3; i++) {
            ds_zones_json(&json, &findings, i, spots, 2);
        }
    }
    const bool whole = status == DS_OK && ds_text_ok(&json);
    assert_true(status == DS_OK || status == DS_NO_MEMORY);
    assert_true(whole || a->requests >= a->fail_at);
    ds_text_free(&json);
    ds_arena_free(&arena);
    assert_int_equal(a->blocks, 0);
    return whole;
}

static void every_request_may_fail(void **const state)
{
    const world *const w = *state;
    size_t n = 1;
    for (; n < 1000; n++) {
        test_alloc a = test_alloc_make(n);
        if (whole_way(&a, &w->book, 0)) {
            assert_true(a.requests < n);
            break;
        }
    }
    assert_in_range(n, 10, 999);
}

/* The first two requests fill the arena, those up to `more` give whole blocks; then there is no more. */
static void memory_may_end_anywhere(void **const state)
{
    const world *const w = *state;
    size_t failed = 0;
    for (size_t more = 0; more < 8; more++) {
        bool whole = true;
        for (size_t left = 16; left < BLOCK; left += STEP) {
            test_alloc a = test_alloc_make(3 + more);
            whole = whole_way(&a, &w->book, left) && whole;
            failed += !whole;
        }
        if (whole) {
            break;
        }
    }
    assert_in_range(failed, 100, 10000);
}

static int open_world(void **const state)
{
    world *const w = malloc(sizeof *w);
    w->memory = test_alloc_make(0);
    ds_arena_init(&w->arena, test_alloc_use(&w->memory));
    *state = w;
    return support_rulebook(&w->book, &w->arena) == DS_OK ? 0 : 1;
}

static int close_world(void **const state)
{
    world *const w = *state;
    ds_arena_free(&w->arena);
    free(w);
    return 0;
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_request_may_fail),
        cmocka_unit_test(memory_may_end_anywhere),
    };
    return cmocka_run_group_tests_name("zone_oom", tests, open_world, close_world);
}
