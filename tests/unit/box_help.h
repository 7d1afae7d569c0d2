/* SPDX-License-Identifier: MIT */
/*
 * What the tests of entries and openings share: the tables in tests/boxes/, the sizes of rules/entries.json, boxes read
 * from JSON, and marks as three rows of signs.
 */
#ifndef BOX_HELP_H
#define BOX_HELP_H

#include "base_alloc.h"

#include <math.h>
#include <stdio.h>

#include "core/box/entry_say.h"
#include "core/job/box.h"
#include "core/job/fields.h"
#include "core/mark/read.h"

typedef struct box_world {
    test_alloc memory;
    ds_arena arena;
    char *source, *sizes_source;
    ds_json *tree; /* of the table */
    ds_sizes sizes;
    ds_job job; /* takes the problems of the boxes that are read */
    int32_t owner;
} box_world;

static inline char *box_file(const char *const path)
{
    char full[1024];
    snprintf(full, sizeof full, "%s/%s", DS_SOURCE_DIR, path);
    FILE *const file = fopen(full, "rb");
    assert_non_null(file);
    assert_int_equal(fseek(file, 0, SEEK_END), 0);
    const size_t len = (size_t)ftell(file);
    char *const at = malloc(len + 1);
    assert_non_null(at);
    rewind(file);
    assert_int_equal(fread(at, 1, len, file), len);
    fclose(file);
    at[len] = '\0';
    return at;
}

/* Opens a table of tests/boxes/; NULL: none, only the sizes. */
static inline void box_open(box_world *const w, const char *const table)
{
    *w = (box_world){.memory = test_alloc_make(0), .owner = -1};
    ds_arena_init(&w->arena, test_alloc_use(&w->memory));
    ds_problem problem;
    w->sizes_source = box_file("rules/entries.json");
    assert_int_equal(ds_sizes_read(&w->sizes, ds_str_of(w->sizes_source), &w->arena, &problem), DS_OK);
    if (table) {
        char path[256];
        snprintf(path, sizeof path, "tests/boxes/%s", table);
        w->source = box_file(path);
        assert_int_equal(ds_json_read(&w->tree, ds_str_of(w->source), &w->arena, &DS_JSON_LIMITS, &problem),
                         DS_OK);
        assert_true(w->tree->kind == DS_JSON_ARRAY && w->tree->count > 0);
        w->job = (ds_job){.tree = w->tree, .source = ds_str_of(w->source)};
    }
}

static inline void box_close(box_world *const w)
{
    ds_arena_free(&w->arena);
    assert_int_equal(w->memory.blocks, 0);
    free(w->source);
    free(w->sizes_source);
}

static inline const ds_json *box_get(const ds_json *const row, const char *const key)
{
    return ds_json_get(row, ds_str_of(key));
}

static inline ds_str box_text(const ds_json *const row, const char *const key)
{
    const ds_json *const value = box_get(row, key);
    return value ? ds_json_text(value) : DS_STR("");
}

/* "name" of a row, ended by a zero byte, for messages. */
static inline const char *box_name(const ds_json *const row)
{
    static char name[300];
    const ds_str text = box_text(row, "name");
    snprintf(name, sizeof name, "%.*s", (int)text.len, text.at);
    assert_true(text.len > 0);
    return name;
}

static inline const ds_box *box_read(box_world *const w, const ds_json *const value)
{
    ds_reader reader = {.job = &w->job, .arena = &w->arena, .owner = &w->owner};
    const ds_box *const box = ds_box_read(&reader, value);
    assert_false(reader.failed);
    return box;
}

/* A text that goes away with the arena. */
static inline const char *box_keep(box_world *const w, ds_text *const text)
{
    assert_true(ds_text_ok(text));
    char *const copy = ds_arena_take(&w->arena, text->len + 1);
    assert_non_null(copy);
    memcpy(copy, text->at ? text->at : "", text->len);
    ds_text_free(text);
    return copy;
}

/* A track as signs, lowest rung first: + proven, - denied, ? open. */
static inline const char *box_signs(box_world *const w, const ds_mark mark, const unsigned first,
                                    const unsigned len)
{
    char *const signs = ds_arena_take(&w->arena, len + 1);
    assert_non_null(signs);
    for (unsigned i = 0; i < len; i++) {
        const bool proven = ds_mark_proven(mark) >> (first + i) & 1;
        const bool denied = ds_mark_denied(mark) >> (first + i) & 1;
        assert_false(proven && denied);
        signs[i] = (char)(proven ? '+' : denied ? '-' : '?');
    }
    return signs;
}

static inline void box_expect_text(const ds_json *const row, const char *const key, const char *const got)
{
    const ds_json *const want = box_get(row, key);
    if (want && !ds_str_is(ds_json_text(want), got)) {
        const ds_str text = ds_json_text(want);
        fail_msg("%s: %s is\n    %s\nnot\n    %.*s", box_name(row), key, got, (int)text.len, text.at);
    }
}

/* Compares "solids", "access" and "water" of a row with a mark. */
static inline void box_expect_mark(box_world *const w, const ds_json *const row, const ds_mark mark)
{
    box_expect_text(row, "solids", box_signs(w, mark, 0, DS_OBJECTS_LEN));
    box_expect_text(row, "access", box_signs(w, mark, 6, DS_ACCESS_LEN));
    box_expect_text(row, "water", box_signs(w, mark, 10, DS_WATER_LEN));
}

static inline void box_expect_number(const ds_json *const row, const char *const key, const double got)
{
    double want = 0;
    if (ds_json_number(box_get(row, key), &want) && !(fabs(got - want) <= 0.005)) {
        fail_msg("%s: %s is %.4f, not %.4f", box_name(row), key, got, want);
    }
}

/* The need of a row; without one, everything that the mark claims. */
static inline ds_need box_need(const ds_json *const row, const ds_mark marked)
{
    const ds_str text = box_text(row, "need");
    ds_need need = ds_installed_claim(marked);
    ds_reading reading;
    if (text.len > 0 && !ds_need_read(text, &need, &reading)) {
        fail_msg("%s: no need: %.*s", box_name(row), (int)text.len, text.at);
    }
    return need;
}

/* Every key of a row is one that the program looks at, so that a slip does not pass in silence. */
static inline void box_check_keys(const ds_json *const row, const char *const *const keys, const size_t len)
{
    for (const ds_json *value = row->first; value; value = value->next) {
        bool known = false;
        for (size_t i = 0; i < len; i++) {
            known = known || ds_str_is(ds_json_key(value), keys[i]);
        }
        if (!known) {
            fail_msg("%s: odd key %.*s", box_name(row), (int)value->key_len, value->key);
        }
    }
    assert_true(box_text(row, "source").len > 3);
}

#define BOX_CHECK_KEYS(row, ...)                                                                             \
    box_check_keys((row), (const char *const[]){"name", "source", __VA_ARGS__},                              \
                   sizeof((const char *const[]){"name", "source", __VA_ARGS__}) / sizeof(const char *))

#endif
