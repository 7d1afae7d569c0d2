/* SPDX-License-Identifier: MIT */
/* The list of problems, and that every code has both sentences. */
#include "base_alloc.h"
#include "core/base/problem.h"

static const ds_problem_code ALL[] = {
#define X(code, say, mend) DS_P_##code,
    DS_PROBLEMS(X)
#undef X
};

static bool has(const ds_str text, const char *const piece)
{
    const size_t len = strlen(piece);
    for (size_t i = 0; i + len <= text.len; i++) {
        if (memcmp(text.at + i, piece, len) == 0) {
            return true;
        }
    }
    return false;
}

static void every_code_says_what_and_how_to_mend(void **const state)
{
    (void)state;
    test_alloc a = test_alloc_make(0);
    for (size_t i = 0; i < sizeof ALL / sizeof ALL[0]; i++) {
        const ds_problem problem = {.code = ALL[i], .a = DS_STR("this-a"), .b = DS_STR("this-b")};
        ds_text say, mend;
        ds_text_init(&say, test_alloc_use(&a));
        ds_text_init(&mend, test_alloc_use(&a));
        ds_problem_say(&say, &problem);
        ds_problem_mend(&mend, &problem);
        assert_in_range(ds_text_str(&say).len, 10, 120);
        assert_in_range(ds_text_str(&mend).len, 5, 120);
        assert_false(has(ds_text_str(&say), "%"));
        assert_false(has(ds_text_str(&mend), "%"));
        assert_int_not_equal(say.at[say.len - 1], '.');
        ds_text_free(&say);
        ds_text_free(&mend);
    }
    assert_int_equal(a.blocks, 0);
}

static void fills_the_gaps(void **const state)
{
    (void)state;
    test_alloc a = test_alloc_make(0);
    const ds_problem problem = {.code = DS_P_WRONG_TYPE, .a = DS_STR("count"), .b = DS_STR("a number")};
    ds_text say;
    ds_text_init(&say, test_alloc_use(&a));
    ds_problem_say(&say, &problem);
    assert_true(ds_str_is(ds_text_str(&say), "\"count\" must be a number"));
    ds_text_free(&say);
}

static void list_keeps_order_and_survives_want_of_memory(void **const state)
{
    (void)state;
    for (size_t fail_at = 0; fail_at < 6; fail_at++) {
        test_alloc a = test_alloc_make(fail_at);
        ds_arena arena;
        ds_arena_init(&arena, test_alloc_use(&a));
        ds_problems list = {0};
        bool going = true;
        for (uint32_t i = 0; going && i < 1000; i++) {
            const ds_problem problem = {.code = DS_P_EMPTY, .where = {.line = i}};
            going = ds_problems_add(&list, &arena, &problem);
        }
        assert_int_equal(going, fail_at == 0);
        for (size_t i = 0; i < list.len; i++) {
            assert_int_equal(list.at[i].where.line, i);
        }
        assert_int_equal(list.len == 1000, fail_at == 0);
        ds_arena_free(&arena);
        assert_int_equal(a.blocks, 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_code_says_what_and_how_to_mend),
        cmocka_unit_test(fills_the_gaps),
        cmocka_unit_test(list_keeps_order_and_survives_want_of_memory),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
