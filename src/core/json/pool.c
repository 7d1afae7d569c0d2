/* SPDX-License-Identifier: MIT */
/*
 * Blocks are cut off one after the other and never given back singly. yajl's stack of states is the only thing that
 * it makes with realloc(NULL, …): it grows in its own room at the front. Of the two text buffers the decoder's comes
 * first and grows before the lexer's is made, so the one that grows is always the newest block.
 */
#include "core/json/pool.h"

#include <stdint.h>

enum { ALIGNMENT = 16, STACK_STEP = 128, FIRST_BUFFER = 2048, RECORDS = 1024 };

static uint64_t rounded(const uint64_t size, const uint64_t step)
{
    return (size + step - 1) / step * step;
}

/* What yajl's buffer ends up with when it has to hold len bytes and one more. */
static uint64_t buffer_room(const size_t len)
{
    uint64_t room = FIRST_BUFFER;
    while (room <= len) {
        room *= 2;
    }
    return room;
}

bool ds_json_pool_open(ds_json_pool *const pool, const ds_alloc *const alloc, const size_t depth,
                       const size_t escaped, const size_t tail)
{
    const uint64_t stack = rounded((uint64_t)depth + 1, STACK_STEP);
    const uint64_t size = stack + RECORDS + buffer_room(escaped) + buffer_room(tail);
    *pool = (ds_json_pool){.alloc = alloc, .stack_room = (size_t)stack, .used = (size_t)stack};
    if (size > SIZE_MAX / 2) {
        return false;
    }
    pool->at = alloc->resize(alloc->ctx, NULL, 0, (size_t)size);
    pool->size = pool->at ? (size_t)size : 0;
    return pool->at;
}

void ds_json_pool_close(ds_json_pool *const pool)
{
    if (pool->at) {
        pool->alloc->resize(pool->alloc->ctx, pool->at, pool->size, 0);
    }
    *pool = (ds_json_pool){.alloc = pool->alloc};
}

static void *take(void *const ctx, const size_t size)
{
    ds_json_pool *const pool = ctx;
    const size_t room = (size_t)rounded(size, ALIGNMENT);
    if (room > pool->size - pool->used) {
        return NULL;
    }
    pool->last = pool->at + pool->used;
    pool->used += room;
    return pool->last;
}

static void *grow(void *const ctx, void *const old, const size_t size)
{
    ds_json_pool *const pool = ctx;
    if (!old || old == pool->at) {
        return size <= pool->stack_room ? pool->at : NULL;
    }
    if (old != pool->last) {
        return NULL;
    }
    pool->used = (size_t)(pool->last - pool->at);
    return take(pool, size);
}

static void give_back(void *const ctx, void *const block)
{
    (void)ctx;
    (void)block;
}

yajl_alloc_funcs ds_json_pool_funcs(ds_json_pool *const pool)
{
    return (yajl_alloc_funcs){.malloc = take, .realloc = grow, .free = give_back, .ctx = pool};
}
