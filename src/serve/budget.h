/* SPDX-License-Identifier: MIT */
/*
 * An allocator that gives no more than so much at once: what one of many clients asks for too much is refused to it, and
 * the server goes on.
 *
 *     ds_budget budget;
 *     ds_budget_init(&budget, &alloc, most);
 *     … &budget.alloc …
 */
#ifndef DS_SERVE_BUDGET_H
#define DS_SERVE_BUDGET_H

#include "core/base/arena.h"

typedef struct ds_budget {
    ds_alloc alloc;
    const ds_alloc *from;
    size_t used, most; /* bytes */
} ds_budget;

/* It stays where it is as long as anything of it is in use. */
void ds_budget_init(ds_budget *budget, const ds_alloc *from, size_t most);

#endif
