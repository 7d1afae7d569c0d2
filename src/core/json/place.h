/* SPDX-License-Identifier: MIT */
/* Inside json/: places in a document that is still being read. */
#ifndef DS_JSON_PLACE_H
#define DS_JSON_PLACE_H

#include "core/json/json.h"

/* Bytes of the byte order mark at the start of source: 3 or 0. */
size_t ds_json_mark_len(ds_str source);

/*
 * The JSON pointer of a value, or of the member `key` of it when key is not NULL; value NULL is the root.
 * at is NULL when memory is short.
 */
ds_str ds_json_pointer(const ds_json *value, const ds_str *key, ds_arena *arena);

#endif
