/* SPDX-License-Identifier: MIT */
/* Questions to a tree that has been read. */
#include "core/json/json.h"

const ds_json_limits DS_JSON_LIMITS = {.bytes = (size_t)512 << 20, .depth = 64, .keys = 1000};

const ds_json *ds_json_get(const ds_json *const value, const ds_str key)
{
    if (!value || value->kind != DS_JSON_OBJECT) {
        return NULL;
    }
    for (const ds_json *at = value->first; at; at = at->next) {
        if (ds_str_eq(ds_json_key(at), key)) {
            return at;
        }
    }
    return NULL;
}

bool ds_json_number(const ds_json *const value, double *const out)
{
    return value && value->kind == DS_JSON_NUMBER && ds_number_read(ds_json_text(value), out);
}

static bool is_list_or_object(const ds_json *const value)
{
    return value->kind == DS_JSON_ARRAY || value->kind == DS_JSON_OBJECT;
}

/* The values alone, without what is inside lists and objects. */
static bool same_here(const ds_json *const a, const ds_json *const b)
{
    const bool has_text = a->kind == DS_JSON_STRING || a->kind == DS_JSON_NUMBER;
    return a->kind == b->kind && a->count == b->count &&
           (!has_text || ds_str_eq(ds_json_text(a), ds_json_text(b)));
}

/* Both trees are walked in step; equal counts keep the steps the same. */
bool ds_json_same(const ds_json *const a, const ds_json *const b)
{
    if (!a || !b) {
        return a == b;
    }
    const ds_json *i = a;
    const ds_json *j = b;
    for (;;) {
        if (!same_here(i, j) || (i != a && !ds_str_eq(ds_json_key(i), ds_json_key(j)))) {
            return false;
        }
        if (is_list_or_object(i) && i->first) {
            i = i->first;
            j = j->first;
            continue;
        }
        while (i != a && !i->next) {
            i = i->parent;
            j = j->parent;
        }
        if (i == a) {
            return true;
        }
        i = i->next;
        j = j->next;
    }
}
