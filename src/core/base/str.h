/* SPDX-License-Identifier: MIT */
/* A borrowed piece of UTF-8 text: not ended by a zero byte, never owned. Its owner says how long it lives. */
#ifndef DS_BASE_STR_H
#define DS_BASE_STR_H

#include <stdbool.h>
#include <stddef.h>
#include <string.h>

typedef struct ds_str {
    const char *at;
    size_t len;
} ds_str;

/* DS_STR("literal") */
#define DS_STR(literal) ((ds_str){(literal), sizeof(literal) - 1})

static inline ds_str ds_str_of(const char *const text)
{
    return (ds_str){text, text ? strlen(text) : 0};
}

static inline bool ds_str_eq(const ds_str a, const ds_str b)
{
    return a.len == b.len && (a.len == 0 || memcmp(a.at, b.at, a.len) == 0);
}

static inline bool ds_str_is(const ds_str a, const char *const text)
{
    return ds_str_eq(a, ds_str_of(text));
}

static inline bool ds_str_starts(const ds_str text, const ds_str start)
{
    return text.len >= start.len && memcmp(text.at, start.at, start.len) == 0;
}

/* The rest of text from byte `from` on; empty when from is past the end. */
static inline ds_str ds_str_from(const ds_str text, const size_t from)
{
    const size_t skip = from < text.len ? from : text.len;
    return (ds_str){text.at + skip, text.len - skip};
}

/* True when the bytes are well-formed UTF-8 (no overlong forms, surrogates or values past U+10FFFF). */
bool ds_str_is_utf8(ds_str text);

/*
 * The entry of list that a misspelt word most likely meant, by counted edits (insert, drop, change, swap of
 * neighbours), at most a third of the word's length; list.len when none is near. Words over 40 bytes are never near.
 */
size_t ds_str_nearest(ds_str word, const ds_str *list, size_t list_len);

#endif
