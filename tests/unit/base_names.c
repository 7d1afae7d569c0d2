/* SPDX-License-Identifier: MIT */
/* Names against the obvious: looked up one by one. Random, sorted, reversed and all the same. */
#include "base_alloc.h"
#include "core/base/names.h"
#include "json_random.h"

enum { MOST = 300 };

static json_random r;
static char texts[MOST][8];

/* The lowest index of a name among the first len. */
static uint32_t slow_find(const size_t len, const char *const text)
{
    for (size_t i = 0; i < len; i++) {
        if (strcmp(texts[i], text) == 0) {
            return (uint32_t)i;
        }
    }
    return DS_NO_NAME;
}

static bool slow_unique(const size_t len)
{
    for (size_t i = 0; i < len; i++) {
        if (slow_find(len, texts[i]) != i) {
            return false;
        }
    }
    return true;
}

static void make_texts(const size_t len, const uint32_t way)
{
    for (size_t i = 0; i < len; i++) {
        const uint32_t ways[] = {json_random_below(&r, 1000), (uint32_t)i, (uint32_t)(len - i), 7,
                                 json_random_below(&r, 9)};
        snprintf(texts[i], sizeof texts[i], way == 4 ? "%.*u" : "%0*u", way == 4 ? 1 : 4, ways[way]);
    }
}

static void found_as_if_looked_up_one_by_one(void **const state)
{
    (void)state;
    r.seed = 0x9E3779B97F4A7C15U;
    for (uint32_t round = 0; round < 500; round++) {
        const size_t len = round % MOST;
        make_texts(len, round % 5);
        test_alloc memory = test_alloc_make(0);
        ds_arena arena;
        ds_arena_init(&arena, test_alloc_use(&memory));
        ds_names names;
        assert_true(ds_names_make(&names, &arena, len));
        for (size_t i = 0; i < len; i++) {
            ds_names_put(&names, ds_str_of(texts[i]), (uint32_t)i);
        }
        ds_names_sort(&names);
        for (size_t i = 0; i < len; i++) {
            assert_int_equal(ds_names_find(&names, ds_str_of(texts[i])), slow_find(len, texts[i]));
        }
        assert_int_equal(ds_names_find(&names, DS_STR("none")), DS_NO_NAME);
        assert_int_equal(ds_names_find(&names, DS_STR("")), DS_NO_NAME);
        assert_int_equal(ds_names_unique(&names), slow_unique(len));
        ds_arena_free(&arena);
        assert_int_equal(memory.blocks, 0);
    }
}

static void put_all(ds_names *const names, const char *const letters)
{
    for (uint32_t i = 0; letters[i]; i++) {
        ds_names_put(names, (ds_str){letters + i, 1}, i);
    }
    ds_names_sort(names);
}

/* Each letter is a name; pairs as digits, '-' for none. */
static void assert_pairs(const char *const a_letters, const char *const b_letters, const char *const expected)
{
    test_alloc memory = test_alloc_make(0);
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(&memory));
    ds_names a, b;
    assert_true(ds_names_make(&a, &arena, 9) && ds_names_make(&b, &arena, 9));
    put_all(&a, a_letters);
    put_all(&b, b_letters);
    uint32_t b_of_a[9];
    uint32_t a_of_b[9];
    ds_names_pair(&a, &b, b_of_a, a_of_b);
    char found[20] = "";
    for (size_t i = 0; i < a.len; i++) {
        found[strlen(found)] = b_of_a[i] == DS_NO_NAME ? '-' : (char)('0' + b_of_a[i]);
        assert_true(b_of_a[i] == DS_NO_NAME || a_of_b[b_of_a[i]] == i);
    }
    size_t alone = 0;
    for (size_t i = 0; i < b.len; i++) {
        alone += a_of_b[i] == DS_NO_NAME;
    }
    assert_string_equal(found, expected);
    size_t paired = 0;
    for (const char *at = expected; *at; at++) {
        paired += *at != '-';
    }
    assert_int_equal(alone + paired, b.len);
    ds_arena_free(&arena);
}

static void pairs(void **const state)
{
    (void)state;
    assert_pairs("abc", "cab", "120");
    assert_pairs("abc", "", "---");
    assert_pairs("", "abc", "");
    assert_pairs("axbx", "xyxx", "-0-2"); /* the third x stays alone */
    assert_pairs("zza", "az", "1-0");
}

static void no_memory(void **const state)
{
    (void)state;
    test_alloc memory = test_alloc_make(1);
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(&memory));
    ds_names names;
    assert_false(ds_names_make(&names, &arena, 10));
    ds_arena_free(&arena);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(found_as_if_looked_up_one_by_one),
        cmocka_unit_test(pairs),
        cmocka_unit_test(no_memory),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
