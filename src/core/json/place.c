/* SPDX-License-Identifier: MIT */
/*
 * Lines, columns and JSON pointers (RFC 6901). They are worked out only when somebody asks, that is, for a problem:
 * the tree keeps one offset a value, and an element its place in the chain.
 */
#include "core/json/place.h"

size_t ds_json_mark_len(const ds_str source)
{
    return ds_str_starts(source, DS_STR("\xEF\xBB\xBF")) ? 3 : 0;
}

static bool ends_line(const ds_str source, const size_t i)
{
    const bool pair = source.at[i] == '\r' && i + 1 < source.len && source.at[i + 1] == '\n';
    return source.at[i] == '\n' || (source.at[i] == '\r' && !pair);
}

void ds_json_line_column(const ds_str source, const uint32_t offset, uint32_t *const line,
                         uint32_t *const column)
{
    const size_t end = offset < source.len ? offset : source.len;
    *line = 1;
    *column = 1;
    for (size_t i = ds_json_mark_len(source); i < end; i++) {
        const bool starts_character = ((uint8_t)source.at[i] & 0xC0) != 0x80;
        if (ends_line(source, i)) {
            (*line)++;
            *column = 1;
        } else if (starts_character) {
            (*column)++;
        }
    }
}

/* Writes backwards from end; only counts when end is NULL. */
static size_t put_back(char *const end, const size_t done, const char c)
{
    if (end) {
        *(end - done - 1) = c;
    }
    return done + 1;
}

static size_t put_key(char *const end, const ds_str key)
{
    size_t done = 0;
    for (size_t i = key.len; i > 0; i--) {
        const char c = key.at[i - 1];
        if (c == '~' || c == '/') {
            done = put_back(end, done, c == '~' ? '0' : '1');
            done = put_back(end, done, '~');
        } else {
            done = put_back(end, done, c);
        }
    }
    return put_back(end, done, '/');
}

static size_t put_index(char *const end, uint32_t index)
{
    size_t done = 0;
    do {
        done = put_back(end, done, (char)('0' + index % 10));
        index /= 10;
    } while (index);
    return put_back(end, done, '/');
}

static size_t put_step(char *const end, const ds_json *const value)
{
    if (value->parent->kind == DS_JSON_OBJECT) {
        return put_key(end, ds_json_key(value));
    }
    uint32_t index = 0;
    for (const ds_json *at = value->parent->first; at != value; at = at->next) {
        index++;
    }
    return put_index(end, index);
}

static size_t put_steps(char *const end, const ds_json *value, const ds_str *const key)
{
    size_t done = key ? put_key(end, *key) : 0;
    for (; value && value->parent; value = value->parent) {
        done += put_step(end ? end - done : NULL, value);
    }
    return done;
}

ds_str ds_json_pointer(const ds_json *const value, const ds_str *const key, ds_arena *const arena)
{
    const size_t len = put_steps(NULL, value, key);
    char *const at = ds_arena_take(arena, len);
    if (at) {
        put_steps(at + len, value, key);
    }
    return (ds_str){at, at ? len : 0};
}

ds_where ds_json_where(const ds_json *const value, const ds_str source, ds_arena *const arena)
{
    ds_where where = {.pointer = ds_json_pointer(value, NULL, arena)};
    ds_json_line_column(source, value->offset, &where.line, &where.column);
    return where;
}
