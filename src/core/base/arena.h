/* SPDX-License-Identifier: MIT */
/*
 * Memory of the core: an allocator that the host passes in, and an arena on top of it.
 *
 * The core owns no heap. A host (command line, server, page) hands over a ds_alloc; everything reached from one job
 * lives in that job's arena until ds_arena_free. Any request may fail: it then returns NULL and the caller answers
 * DS_NO_MEMORY. Tests pass an allocator whose n-th call fails.
 */
#ifndef DS_BASE_ARENA_H
#define DS_BASE_ARENA_H

#include <stddef.h>

/* Resizes a block, as realloc does: old == NULL makes one, new_size == 0 frees it and returns NULL. */
typedef struct ds_alloc {
    void *(*resize)(void *ctx, void *old, size_t old_size, size_t new_size);
    void *ctx;
} ds_alloc;

typedef struct ds_arena_block ds_arena_block;

typedef struct ds_arena {
    const ds_alloc *alloc; /* borrowed; outlives the arena */
    ds_arena_block *last;  /* private */
    size_t used;           /* private: bytes used in last */
} ds_arena;

void ds_arena_init(ds_arena *arena, const ds_alloc *alloc);

/* size zeroed bytes, aligned for any type; NULL when memory is short. size 0 gives a valid pointer to nothing. */
void *ds_arena_take(ds_arena *arena, size_t size);

/* The same for count things of one size; NULL also when the product does not fit a size_t. */
void *ds_arena_take_many(ds_arena *arena, size_t count, size_t size);

/* Gives back every block. The arena may be used again afterwards. */
void ds_arena_free(ds_arena *arena);

#endif
