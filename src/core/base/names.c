/* SPDX-License-Identifier: MIT */
/* A heap sort: in place, without recursion, and n log n for any input. Names that are in order already cost n. */
#include "core/base/names.h"

bool ds_names_make(ds_names *const out, ds_arena *const arena, const size_t most)
{
    *out = (ds_names){.at = ds_arena_take_many(arena, most, sizeof *out->at)};
    return out->at != NULL;
}

void ds_names_put(ds_names *const names, const ds_str text, const uint32_t index)
{
    names->at[names->len++] = (ds_name){text, index};
}

static int order_of(const ds_str a, const ds_str b)
{
    const size_t shorter = a.len < b.len ? a.len : b.len;
    const int order = shorter ? memcmp(a.at, b.at, shorter) : 0;
    return order ? order : (a.len > b.len) - (a.len < b.len);
}

static bool is_before(const ds_name *const a, const ds_name *const b)
{
    const int order = order_of(a->text, b->text);
    return order < 0 || (order == 0 && a->index < b->index);
}

/* Lets the name at `top` sink to its place among the first len. */
static void sink(ds_name *const at, size_t top, const size_t len)
{
    const ds_name name = at[top];
    for (size_t child = 2 * top + 1; child < len; child = 2 * top + 1) {
        child += child + 1 < len && is_before(&at[child], &at[child + 1]);
        if (!is_before(&name, &at[child])) {
            break;
        }
        at[top] = at[child];
        top = child;
    }
    at[top] = name;
}

static bool is_sorted(const ds_names *const names)
{
    for (size_t i = 1; i < names->len; i++) {
        if (is_before(&names->at[i], &names->at[i - 1])) {
            return false;
        }
    }
    return true;
}

void ds_names_sort(ds_names *const names)
{
    if (is_sorted(names)) {
        return;
    }
    for (size_t top = names->len / 2; top > 0; top--) {
        sink(names->at, top - 1, names->len);
    }
    for (size_t len = names->len; len > 1; len--) {
        const ds_name last = names->at[0];
        names->at[0] = names->at[len - 1];
        names->at[len - 1] = last;
        sink(names->at, 0, len - 1);
    }
}

uint32_t ds_names_find(const ds_names *const names, const ds_str text)
{
    size_t from = 0;
    size_t to = names->len;
    while (from < to) {
        const size_t middle = from + (to - from) / 2;
        if (order_of(names->at[middle].text, text) < 0) {
            from = middle + 1;
        } else {
            to = middle;
        }
    }
    const bool found = from < names->len && ds_str_eq(names->at[from].text, text);
    return found ? names->at[from].index : DS_NO_NAME;
}

bool ds_names_unique(const ds_names *const names)
{
    for (size_t i = 1; i < names->len; i++) {
        if (ds_str_eq(names->at[i].text, names->at[i - 1].text)) {
            return false;
        }
    }
    return true;
}

void ds_names_pair(const ds_names *const a, const ds_names *const b, uint32_t *const b_of_a,
                   uint32_t *const a_of_b)
{
    size_t i = 0;
    size_t j = 0;
    while (i < a->len || j < b->len) {
        const int order = i == a->len ? 1 : j == b->len ? -1 : order_of(a->at[i].text, b->at[j].text);
        if (order <= 0) {
            b_of_a[a->at[i].index] = order == 0 ? b->at[j].index : DS_NO_NAME;
        }
        if (order >= 0) {
            a_of_b[b->at[j].index] = order == 0 ? a->at[i].index : DS_NO_NAME;
        }
        i += order <= 0;
        j += order >= 0;
    }
}
