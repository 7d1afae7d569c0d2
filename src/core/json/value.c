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
