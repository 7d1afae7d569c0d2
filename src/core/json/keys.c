/* SPDX-License-Identifier: MIT */
/* Few keys are compared one by one; from the seventeenth on a table of hashes is kept, at most half full. */
#include "core/json/keys.h"

enum { FEW = 16, FIRST_TABLE = 64 };

static uint32_t hash_of(const ds_str key)
{
    uint32_t hash = 2166136261U; /* FNV-1a */
    for (size_t i = 0; i < key.len; i++) {
        hash = (hash ^ (uint8_t)key.at[i]) * 16777619U;
    }
    return hash ^ (hash >> 15);
}

/* The slot that holds the key, or the empty one where it belongs. */
static uint32_t slot_of(const ds_json_keys *const keys, const ds_str key)
{
    const uint32_t mask = keys->used - 1;
    uint32_t i = hash_of(key) & mask;
    while (keys->slots[i] && !ds_str_eq(ds_json_key(keys->slots[i]), key)) {
        i = (i + 1) & mask;
    }
    return i;
}

void ds_json_keys_reset(ds_json_keys *const keys)
{
    keys->used = 0;
}

bool ds_json_keys_has(const ds_json_keys *const keys, const ds_json *const object, const ds_str key)
{
    return keys->used ? keys->slots[slot_of(keys, key)] != NULL : ds_json_get(object, key) != NULL;
}

static bool make_table(ds_json_keys *const keys, ds_arena *const arena, const ds_json *const object)
{
    const uint32_t size = keys->used ? keys->used * 2 : FIRST_TABLE;
    if (size > keys->room) {
        const ds_json **const slots = ds_arena_take_many(arena, size, sizeof *slots);
        if (!slots) {
            return false;
        }
        keys->slots = slots;
        keys->room = size;
    }
    memset(keys->slots, 0, size * sizeof *keys->slots);
    keys->used = size;
    for (const ds_json *at = object->first; at; at = at->next) {
        keys->slots[slot_of(keys, ds_json_key(at))] = at;
    }
    return true;
}

bool ds_json_keys_add(ds_json_keys *const keys, ds_arena *const arena, const ds_json *const object,
                      const ds_json *const member)
{
    if (object->count <= FEW) {
        return true;
    }
    if (object->count > keys->used / 2) {
        return make_table(keys, arena, object);
    }
    keys->slots[slot_of(keys, ds_json_key(member))] = member;
    return true;
}
