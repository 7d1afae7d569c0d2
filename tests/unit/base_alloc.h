/* SPDX-License-Identifier: MIT */
/*
 * An allocator for tests: counts what is out, fails at the n-th request, moves a block whenever it is resized and checks
 * that the caller still knows its size.
 *
 *     test_alloc a = test_alloc_make(0);   0: never fails
 *     ds_arena_init(&arena, &a.alloc);
 *     … assert_int_equal(a.blocks, 0);
 */
#ifndef BASE_ALLOC_H
#define BASE_ALLOC_H

#include <stdarg.h>
#include <stddef.h>
#include <setjmp.h>
#include <stdint.h>

#include <cmocka.h>
#include <stdlib.h>
#include <string.h>

#include "core/base/arena.h"

typedef struct test_alloc {
    ds_alloc alloc;
    size_t requests; /* for memory, not counting frees */
    size_t fail_at;  /* from this request on none succeeds; 0: all do */
    size_t blocks;   /* not yet given back */
    size_t bytes;
    size_t peak;
} test_alloc;

/* The size stands in front of the block. */
typedef union test_head {
    size_t size;
    max_align_t align;
} test_head;

static inline void test_alloc_drop(test_alloc *const a, void *const old, const size_t old_size)
{
    if (old) {
        test_head *const head = (test_head *)old - 1;
        assert_int_equal(head->size, old_size);
        a->blocks--;
        a->bytes -= old_size;
        free(head);
    } else {
        assert_int_equal(old_size, 0);
    }
}

static inline void *test_alloc_resize(void *const ctx, void *const old, const size_t old_size,
                                      const size_t new_size)
{
    test_alloc *const a = ctx;
    if (new_size == 0) {
        test_alloc_drop(a, old, old_size);
        return NULL;
    }
    a->requests++;
    test_head *const head = a->fail_at && a->requests >= a->fail_at ? NULL : malloc(sizeof *head + new_size);
    if (!head) {
        return NULL;
    }
    head->size = new_size;
    memset(head + 1, 0xA5, new_size);
    if (old) {
        memcpy(head + 1, old, old_size < new_size ? old_size : new_size);
    }
    test_alloc_drop(a, old, old_size);
    a->blocks++;
    a->bytes += new_size;
    a->peak = a->bytes > a->peak ? a->bytes : a->peak;
    return head + 1;
}

static inline test_alloc test_alloc_make(const size_t fail_at)
{
    return (test_alloc){.alloc = {.resize = test_alloc_resize}, .fail_at = fail_at};
}

/* A test_alloc that stands still gets its address here, before use. */
static inline const ds_alloc *test_alloc_use(test_alloc *const a)
{
    a->alloc.ctx = a;
    return &a->alloc;
}

#endif
