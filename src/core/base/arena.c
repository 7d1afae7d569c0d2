/* SPDX-License-Identifier: MIT */
/*
 * The arena: a chain of blocks, each twice the size of the one before up to a cap, so that a small job takes one small
 * block and a large one few. Nothing is freed singly.
 */
#include "core/base/arena.h"

#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#define FIRST_BLOCK ((size_t)4096)
#define LARGEST_BLOCK ((size_t)1 << 20)
#define ALIGNMENT ((size_t)16)

struct ds_arena_block {
    ds_arena_block *before;
    size_t size; /* of the whole block with this head */
};

#define HEAD ((sizeof(ds_arena_block) + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT)

void ds_arena_init(ds_arena *const arena, const ds_alloc *const alloc)
{
    *arena = (ds_arena){.alloc = alloc};
}

static size_t next_block_size(const ds_arena *const arena, const size_t need)
{
    size_t size = arena->last ? arena->last->size * 2 : FIRST_BLOCK;
    if (size > LARGEST_BLOCK) {
        size = LARGEST_BLOCK;
    }
    return size < need + HEAD ? need + HEAD : size;
}

static bool add_block(ds_arena *const arena, const size_t need)
{
    const size_t size = next_block_size(arena, need);
    ds_arena_block *const block = arena->alloc->resize(arena->alloc->ctx, NULL, 0, size);
    if (!block) {
        return false;
    }
    *block = (ds_arena_block){.before = arena->last, .size = size};
    arena->last = block;
    arena->used = HEAD;
    return true;
}

void *ds_arena_take(ds_arena *const arena, const size_t size)
{
    if (size > SIZE_MAX / 2) {
        return NULL;
    }
    const size_t rounded = (size + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
    const bool has_room = arena->last && arena->last->size - arena->used >= rounded;
    if (!has_room && !add_block(arena, rounded)) {
        return NULL;
    }
    unsigned char *const at = (unsigned char *)arena->last + arena->used;
    arena->used += rounded;
    return memset(at, 0, rounded);
}

void *ds_arena_take_many(ds_arena *const arena, const size_t count, const size_t size)
{
    if (size && count > SIZE_MAX / size) {
        return NULL;
    }
    return ds_arena_take(arena, count * size);
}

void ds_arena_free(ds_arena *const arena)
{
    while (arena->last) {
        ds_arena_block *const block = arena->last;
        arena->last = block->before;
        arena->alloc->resize(arena->alloc->ctx, block, block->size, 0);
    }
    arena->used = 0;
}
