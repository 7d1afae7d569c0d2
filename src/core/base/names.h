/* SPDX-License-Identifier: MIT */
/*
 * Names in order, to be found again: pairs the things of two documents by id in n log n, however the ids were chosen.
 *
 *     ds_names names;
 *     if (!ds_names_make(&names, &arena, len)) … out of memory …
 *     for (…) ds_names_put(&names, id, i);
 *     ds_names_sort(&names);
 *     const uint32_t i = ds_names_find(&names, id);    DS_NO_NAME when there is none
 */
#ifndef DS_BASE_NAMES_H
#define DS_BASE_NAMES_H

#include "core/base/arena.h"
#include "core/base/str.h"

#include <stdint.h>

#define DS_NO_NAME UINT32_MAX

typedef struct ds_name {
    ds_str text; /* borrowed */
    uint32_t index;
} ds_name;

typedef struct ds_names {
    ds_name *at;
    size_t len;
} ds_names;

/* Room for most names, none in it yet. False when memory is short. */
bool ds_names_make(ds_names *out, ds_arena *arena, size_t most);

void ds_names_put(ds_names *names, ds_str text, uint32_t index);

/* By bytes, the same name by index. No input makes it slower than n log n, and it needs no memory. */
void ds_names_sort(ds_names *names);

/* Of sorted names: the index that the name has (the lowest of several); and whether each name is there once. */
uint32_t ds_names_find(const ds_names *names, ds_str text);
bool ds_names_unique(const ds_names *names);

/*
 * Pairs two sorted lists: b_of_a[i] becomes the index in b of a's name i, DS_NO_NAME without, and a_of_b the same the other
 * way. Of a name that is there several times the first go together, then the second. Indices are 0 to len - 1.
 */
void ds_names_pair(const ds_names *a, const ds_names *b, uint32_t *b_of_a, uint32_t *a_of_b);

#endif
