/* SPDX-License-Identifier: MIT */
/*
 * Reading and writing with an allocator whose n-th request and all after it fail, for n = 1, 2, … until it no longer
 * matters: the answer is DS_NO_MEMORY each time, nothing is left behind, nothing half made is handed out.
 */
#include "json_help.h"
#include "json_random.h"

/* Reads with the n-th request failing; true when it no longer mattered. */
static bool read_with_failure(const ds_str text, const size_t fail_at, const ds_status whole)
{
    test_alloc a = test_alloc_make(fail_at);
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(&a));
    ds_json *tree = (ds_json *)&arena; /* must be overwritten */
    ds_problem problem = {.code = DS_P_EMPTY, .where = {.line = 12345}};
    const ds_status status = ds_json_read(&tree, text, &arena, &DS_JSON_LIMITS, &problem);
    const bool failed = a.requests >= fail_at;
    assert_int_equal(status, failed ? DS_NO_MEMORY : whole);
    assert_int_equal(tree != NULL, status == DS_OK);
    if (failed) {
        assert_int_equal(problem.where.line, 12345); /* a problem is told only with DS_BAD_INPUT */
    }
    ds_arena_free(&arena);
    assert_int_equal(a.blocks, 0);
    return !failed;
}

/* How many requests the reading of text makes. */
static size_t requests_until_it_works(const ds_str text, const ds_status whole)
{
    size_t n = 1;
    while (!read_with_failure(text, n, whole)) {
        n++;
    }
    return n - 1;
}

static void small_documents(void **const state)
{
    (void)state;
    static const struct {
        const char *text;
        ds_status whole;
    } CASES[] = {
        {"1", DS_OK},
        {"\"\\n\"", DS_OK},
        {"{\"a\": [1, {\"b\\n\": \"c\\t\"}]}", DS_OK},
        {"", DS_BAD_INPUT},
        {"[", DS_BAD_INPUT},
        {"[1,]", DS_BAD_INPUT},
        {"{\"a\\n\": 1, \"a\\n\": 2}", DS_BAD_INPUT},
        {"[\"\\q\"]", DS_BAD_INPUT},
        {"[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[[", DS_BAD_INPUT},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        assert_in_range(requests_until_it_works(ds_str_of(CASES[i].text), CASES[i].whole), 1, 10);
    }
}

static void large_documents(void **const state)
{
    (void)state;
    static json_random r;
    r.seed = 0x853C49E6748FEA9BU;
    size_t most = 0;
    for (int i = 0; i < 300; i++) {
        json_random_document(&r);
        json_doc doc;
        json_doc_read(&doc, (ds_str){r.text, r.len}, &DS_JSON_LIMITS);
        const ds_status whole = doc.status;
        json_doc_free(&doc);
        const size_t n = requests_until_it_works((ds_str){r.text, r.len}, whole);
        most = n > most ? n : most;
    }
    assert_in_range(most, 6, 100); /* some were large enough for many blocks */
}

/* An object past the size where its keys get a table, at every request of it. */
static void an_object_of_many_keys(void **const state)
{
    (void)state;
    static char text[40000] = "{";
    size_t len = 1;
    for (int i = 0; i < 1000; i++) {
        len += (size_t)snprintf(text + len, sizeof text - len, "%s\"key\\t%d\": \"\\n\"", i ? "," : "", i);
    }
    text[len++] = '}';
    assert_in_range(requests_until_it_works((ds_str){text, len}, DS_OK), 6, 100);
}

static void long_strings_and_numbers(void **const state)
{
    (void)state;
    static char text[100000];
    memset(text, '1', sizeof text);
    assert_in_range(requests_until_it_works((ds_str){text, 250}, DS_OK), 2, 10);
    text[1] = '.';
    assert_in_range(requests_until_it_works((ds_str){text, sizeof text}, DS_OK), 2, 10);
    memcpy(text, "\"\\n", 3);
    text[sizeof text - 1] = '"';
    assert_in_range(requests_until_it_works((ds_str){text, sizeof text}, DS_OK), 3, 10);
    text[sizeof text - 1] = '1';
    assert_in_range(requests_until_it_works((ds_str){text, sizeof text}, DS_BAD_INPUT), 2, 10);
}

static void writing(void **const state)
{
    (void)state;
    json_doc doc;
    json_doc_read(&doc, DS_STR("{\"a\": [1, 2.50, \"\\n\", {\"b\": null}], \"c\": true}"), &DS_JSON_LIMITS);
    size_t n = 0;
    bool works = false;
    while (!works) {
        test_alloc a = test_alloc_make(++n);
        ds_text text;
        ds_text_init(&text, test_alloc_use(&a));
        ds_json_writer w = ds_json_writer_on(&text);
        for (int i = 0; i < 100; i++) {
            ds_json_put_tree(&w, doc.tree);
        }
        works = a.requests < n;
        assert_int_equal(ds_text_ok(&text), works);
        ds_text_free(&text);
        assert_int_equal(a.blocks, 0);
    }
    assert_in_range(n, 5, 20);
    json_doc_free(&doc);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(small_documents),
        cmocka_unit_test(large_documents),
        cmocka_unit_test(an_object_of_many_keys),
        cmocka_unit_test(long_strings_and_numbers),
        cmocka_unit_test(writing),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
