/* SPDX-License-Identifier: MIT */
/*
 * The memory that yajl works in, reserved in one piece before it starts.
 *
 * yajl uses what its allocator gives without looking, so a request that fails would be a crash. All it ever asks for
 * can be told beforehand: a few small records, one byte a level, a buffer that doubles until the longest string with
 * escapes fits, and one that does the same for a number that touches the end of the input. The reservation may fail;
 * after that nothing can. yajl 2.1.0 was read for this; the out-of-memory tests and the fuzzer keep it true.
 */
#ifndef DS_JSON_POOL_H
#define DS_JSON_POOL_H

#include "core/base/arena.h"

#include <stdbool.h>
#include <yajl/yajl_common.h>

typedef struct ds_json_pool {
    const ds_alloc *alloc; /* borrowed */
    unsigned char *at;     /* owned; the stack of states first, then blocks in the order asked for */
    unsigned char *last;   /* newest block: the only one that can grow */
    size_t stack_room;
    size_t used;
    size_t size;
} ds_json_pool;

/* Room for `depth` levels, escaped strings of `escaped` bytes and a last number of `tail` bytes; false: no memory. */
bool ds_json_pool_open(ds_json_pool *pool, const ds_alloc *alloc, size_t depth, size_t escaped, size_t tail);
void ds_json_pool_close(ds_json_pool *pool);

/* The functions for yajl_alloc; they hold a pointer to the pool. */
yajl_alloc_funcs ds_json_pool_funcs(ds_json_pool *pool);

#endif
