/* SPDX-License-Identifier: MIT */
/* The keys of one object while it is read, so that a key that comes twice is seen at once, however many there are. */
#ifndef DS_JSON_KEYS_H
#define DS_JSON_KEYS_H

#include "core/json/json.h"

typedef struct ds_json_keys {
    const ds_json **slots; /* open addressing; kept for the next object at this depth */
    uint32_t room;         /* slots there are */
    uint32_t used; /* slots in use: a power of two, or 0 while the object is small enough to be searched */
} ds_json_keys;

/* Starts on another object. */
void ds_json_keys_reset(ds_json_keys *keys);

bool ds_json_keys_has(const ds_json_keys *keys, const ds_json *object, ds_str key);

/* Takes note of the member just linked in; false when memory is short. */
bool ds_json_keys_add(ds_json_keys *keys, ds_arena *arena, const ds_json *object, const ds_json *member);

#endif
