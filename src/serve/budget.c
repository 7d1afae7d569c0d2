/* SPDX-License-Identifier: MIT */
#include "serve/budget.h"

static void *resize(void *const ctx, void *const old, const size_t old_size, const size_t new_size)
{
    ds_budget *const b = ctx;
    const size_t others = b->used - old_size;
    if (new_size > old_size && (new_size > b->most || others > b->most - new_size)) {
        return NULL;
    }
    void *const block = b->from->resize(b->from->ctx, old, old_size, new_size);
    if (block || !new_size) {
        b->used = others + new_size;
    }
    return block;
}

void ds_budget_init(ds_budget *const budget, const ds_alloc *const from, const size_t most)
{
    *budget = (ds_budget){.alloc = {.resize = resize, .ctx = budget}, .from = from, .most = most};
}
