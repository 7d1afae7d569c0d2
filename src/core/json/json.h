/* SPDX-License-Identifier: MIT */
/*
 * JSON as a tree whose every value knows where it stood and how its number was written.
 *
 * Read through yajl, whose callbacks give the text of numbers and byte offsets. Limits, duplicate keys, escapes and
 * positions are ours. The source text must outlive the tree: strings without escapes point into it.
 *
 *     ds_json *tree;
 *     if (ds_json_read(&tree, source, &arena, &DS_JSON_LIMITS, &problem) != DS_OK) … problem says what and where …
 *     const ds_json *title = ds_json_get(tree, DS_STR("title"));
 */
#ifndef DS_JSON_JSON_H
#define DS_JSON_JSON_H

#include "core/base/problem.h"

typedef enum ds_json_kind {
    DS_JSON_NULL,
    DS_JSON_FALSE,
    DS_JSON_TRUE,
    DS_JSON_NUMBER,
    DS_JSON_STRING,
    DS_JSON_ARRAY,
    DS_JSON_OBJECT
} ds_json_kind;

typedef struct ds_json ds_json;
struct ds_json {
    const ds_json *parent; /* NULL at the root */
    const ds_json *next;   /* next member or element */
    union {
        const char *text;     /* a string decoded, or a number as it was written */
        const ds_json *first; /* first member or element; NULL when empty */
    };
    const char *key;   /* inside an object, decoded */
    uint32_t text_len; /* strings and numbers */
    uint32_t key_len;
    uint32_t offset; /* of the value's first byte in the source */
    uint32_t count;  /* members or elements */
    uint8_t kind;    /* a ds_json_kind */
};

typedef struct ds_json_limits {
    size_t bytes;   /* longest document */
    unsigned depth; /* deepest nesting */
    uint32_t keys;  /* most keys in one object */
} ds_json_limits;

/* 512 MiB, 64 levels, 1,000 keys. */
extern const ds_json_limits DS_JSON_LIMITS;

/*
 * DS_BAD_INPUT fills *problem: code, line, column, and the pointer of what was being read. Of several faults the first
 * in the text is told. DS_NO_MEMORY leaves it alone. *out is NULL unless DS_OK. A byte order mark at the start is
 * skipped. Memory while reading: 56 bytes a value, and twice the longest string with escapes; a job document takes
 * three to five times its length, [1,1,1,…] thirty times. No document may be longer than 2 GiB, whatever the limits.
 */
ds_status ds_json_read(ds_json **out, ds_str source, ds_arena *arena, const ds_json_limits *limits,
                       ds_problem *problem);

/* The member of an object; NULL when there is none or value is NULL or no object. */
const ds_json *ds_json_get(const ds_json *value, ds_str key);

/*
 * Written the same but for white space and escapes: order and the text of numbers count, the keys of a and b themselves do
 * not. NULL is the same as NULL only.
 */
bool ds_json_same(const ds_json *a, const ds_json *b);

static inline ds_str ds_json_text(const ds_json *const value)
{
    return (ds_str){value->text, value->text_len};
}

static inline ds_str ds_json_key(const ds_json *const value)
{
    return (ds_str){value->key, value->key_len};
}

/* A number's value, correctly rounded; false when value is none or NULL. Past the largest double is refused on reading. */
bool ds_json_number(const ds_json *value, double *out);

/* Where a value stands; the pointer is made in the arena (pointer.at NULL when memory is short). */
ds_where ds_json_where(const ds_json *value, ds_str source, ds_arena *arena);

/* Line and column, from 1, of a byte of the source; columns count characters, not bytes. */
void ds_json_line_column(ds_str source, uint32_t offset, uint32_t *line, uint32_t *column);

/*
 * Reads a decimal number of JSON's grammar, rounded to the nearest double, a half to the even one; false when the text
 * is none, or past the largest double. What is too small becomes 0. Needs no C library, the same in every build.
 */
bool ds_number_read(ds_str text, double *out);

#endif
