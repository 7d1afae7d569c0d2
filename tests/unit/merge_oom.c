/* SPDX-License-Identifier: MIT */
/*
 * A merge when memory runs out at the n-th request, n = 1, 2, … until all goes well: nothing is left behind, and no half
 * merge is taken for a whole one.
 */
#include "core/job/merge.h"
#include "json_help.h"

#define POINT(id, height) "{\"id\": \"" id "\", \"height_m\": " height ", \"seen\": [\"salt\"]}"
#define JOB(points) "{\"dripstone\": 1, \"places\": [], \"points\": [" points "]}"

static const char BASE[] = JOB(POINT("a", "1") "," POINT("b", "1") "," POINT("c", "1"));
static const char MINE[] = JOB(POINT("a", "2") "," POINT("x", "7") "," POINT("b", "3"));
static const char THEIRS[] = JOB(POINT("a", "4") "," POINT("b", "1") "," POINT("c", "5") "," POINT("x", "8"));

/* True when it went well; whatever happened, nothing may be left behind. */
static bool merge_with(test_alloc *const a, const json_doc docs[3])
{
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(a));
    ds_text text;
    ds_text_init(&text, &a->alloc);
    ds_merge merge;
    bool good = ds_merge_trees(&merge, docs[0].tree, docs[1].tree, docs[2].tree, &arena);
    if (good) {
        assert_int_equal(merge.conflicts_len, 3); /* a: height; c: removed and changed; x: added twice */
        ds_merge_json(&text, &merge);
        good = ds_text_ok(&text);
    }
    ds_text_free(&text);
    ds_arena_free(&arena);
    assert_int_equal(a->blocks, 0);
    return good;
}

static void every_allocation_may_fail(void **const state)
{
    (void)state;
    json_doc docs[3];
    const char *const texts[3] = {BASE, MINE, THEIRS};
    for (int i = 0; i < 3; i++) {
        json_doc_read(&docs[i], ds_str_of(texts[i]), &DS_JSON_LIMITS);
        assert_int_equal(docs[i].status, DS_OK);
    }
    size_t n = 1;
    for (bool good = false; !good; n++) {
        test_alloc a = test_alloc_make(n);
        good = merge_with(&a, docs);
        assert_true(good == (a.requests < n));
    }
    assert_in_range(n, 5, 500);
    for (int i = 0; i < 3; i++) {
        json_doc_free(&docs[i]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_allocation_may_fail)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
