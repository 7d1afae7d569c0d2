/* SPDX-License-Identifier: MIT */
/* The arena: what it hands out is zeroed, aligned, apart from the rest, and all given back. */
#include "base_alloc.h"

#include <stdbool.h>

static void gives_zeroed_aligned_pieces_that_do_not_overlap(void **const state)
{
    (void)state;
    enum { PIECES = 3000 };
    static unsigned char *piece[PIECES];
    test_alloc a = test_alloc_make(0);
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(&a));
    for (size_t i = 0; i < PIECES; i++) {
        const size_t size = i * 7 % 300;
        piece[i] = ds_arena_take(&arena, size);
        assert_non_null(piece[i]);
        assert_int_equal((uintptr_t)piece[i] % _Alignof(max_align_t), 0);
        for (size_t j = 0; j < size; j++) {
            assert_int_equal(piece[i][j], 0);
        }
        memset(piece[i], (int)(i % 255 + 1), size);
    }
    for (size_t i = 0; i < PIECES; i++) {
        for (size_t j = 0; j < i * 7 % 300; j++) {
            assert_int_equal(piece[i][j], i % 255 + 1);
        }
    }
    ds_arena_free(&arena);
    assert_int_equal(a.blocks, 0);
}

static void takes_few_blocks(void **const state)
{
    (void)state;
    test_alloc a = test_alloc_make(0);
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(&a));
    for (size_t i = 0; i < 100000; i++) {
        assert_non_null(ds_arena_take(&arena, 100)); /* 112 with padding: 11.2 MB */
    }
    /* 4 KiB doubled up to 1 MiB are 9 blocks, then 1 MiB each. */
    assert_in_range(a.blocks, 10, 9 + 11);
    assert_in_range(a.bytes, 11200000, 11200000 + 2 * 1048576);
    ds_arena_free(&arena);
}

static void takes_large_pieces_and_nothing(void **const state)
{
    (void)state;
    test_alloc a = test_alloc_make(0);
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(&a));
    assert_non_null(ds_arena_take(&arena, 0));
    unsigned char *const large = ds_arena_take(&arena, 5000000);
    assert_non_null(large);
    large[4999999] = 1;
    assert_non_null(ds_arena_take(&arena, 0));
    assert_non_null(ds_arena_take_many(&arena, 0, 8));
    assert_non_null(ds_arena_take_many(&arena, 8, 0));
    ds_arena_free(&arena);
    assert_int_equal(a.blocks, 0);
}

static void refuses_sizes_that_do_not_fit(void **const state)
{
    (void)state;
    test_alloc a = test_alloc_make(0);
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(&a));
    assert_null(ds_arena_take(&arena, SIZE_MAX));
    assert_null(ds_arena_take(&arena, SIZE_MAX / 2 + 1));
    assert_null(ds_arena_take_many(&arena, SIZE_MAX / 8, 16));
    assert_null(ds_arena_take_many(&arena, SIZE_MAX, 2));
    assert_null(ds_arena_take_many(&arena, SIZE_MAX / 16 + 2, 16)); /* 16 when it wraps round */
    assert_int_equal(a.requests, 0);
    ds_arena_free(&arena);
}

static void survives_a_failing_allocator_and_can_be_used_again(void **const state)
{
    (void)state;
    test_alloc a = test_alloc_make(2);
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(&a));
    unsigned char *const first = ds_arena_take(&arena, 10);
    assert_non_null(first);
    assert_null(ds_arena_take(&arena, 100000));
    assert_non_null(ds_arena_take(&arena, 10)); /* still room in the first block */
    first[9] = 1;
    ds_arena_free(&arena);
    assert_int_equal(a.blocks, 0);
    a.fail_at = 0;
    assert_non_null(ds_arena_take(&arena, 10));
    ds_arena_free(&arena);
    ds_arena_free(&arena);
    assert_int_equal(a.blocks, 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(gives_zeroed_aligned_pieces_that_do_not_overlap),
        cmocka_unit_test(takes_few_blocks),
        cmocka_unit_test(takes_large_pieces_and_nothing),
        cmocka_unit_test(refuses_sizes_that_do_not_fit),
        cmocka_unit_test(survives_a_failing_allocator_and_can_be_used_again),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
