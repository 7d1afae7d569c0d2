/* SPDX-License-Identifier: MIT */
/*
 * For tests of the merge: job documents made at random, edits made at random, and a document taken apart into lines
 * "path = value", which is the obvious way to say what a merge must have kept.
 *
 * A path names the things of a list by id, words by word, all else by key. A list that cannot be told apart so is one value.
 */
#ifndef MERGE_HELP_H
#define MERGE_HELP_H

#include "core/job/merge.h"
#include "json_help.h"
#include "json_random.h"

/* --- taken apart ------------------------------------------------------------------------------------------------------ */

enum { MERGE_LINES = 4096, MERGE_PATH = 400 };

typedef struct merge_line {
    char *path;
    char *value;
} merge_line;

typedef struct merge_lines {
    size_t len;
    merge_line at[MERGE_LINES];
} merge_lines;

static inline void merge_lines_free(merge_lines *const lines)
{
    for (size_t i = 0; i < lines->len; i++) {
        free(lines->at[i].path);
        free(lines->at[i].value);
    }
    lines->len = 0;
}

static inline char *merge_copy(const char *const text)
{
    char *const copy = malloc(strlen(text) + 1);
    assert_non_null(copy);
    strcpy(copy, text);
    return copy;
}

/* "" when the path does not stand there. */
static inline const char *merge_value(const merge_lines *const lines, const char *const path)
{
    for (size_t i = 0; i < lines->len; i++) {
        if (strcmp(lines->at[i].path, path) == 0) {
            return lines->at[i].value;
        }
    }
    return "";
}

static inline ds_str merge_member_name(const ds_json *const list, const ds_json *const member)
{
    const bool words = ds_str_is(ds_json_key(list), "seen") || ds_str_is(ds_json_key(list), "absent");
    const ds_json *const name = member->kind == DS_JSON_OBJECT
                                    ? ds_json_get(member, words ? DS_STR("word") : DS_STR("id"))
                                : words ? member
                                        : NULL;
    return name && name->kind == DS_JSON_STRING ? ds_json_text(name) : (ds_str){0};
}

static inline bool merge_has_names(const ds_json *const list)
{
    for (const ds_json *a = list->first; a; a = a->next) {
        const ds_str name = merge_member_name(list, a);
        for (const ds_json *b = list->first; b != a; b = b->next) {
            if (ds_str_eq(name, merge_member_name(list, b))) {
                return false;
            }
        }
        if (!name.at) {
            return false;
        }
    }
    return true;
}

static inline void merge_take_apart(merge_lines *const lines, const ds_json *const value,
                                    const char *const path)
{
    assert_true(lines->len < MERGE_LINES);
    const bool list = value->kind == DS_JSON_ARRAY && merge_has_names(value);
    const bool apart = list || value->kind == DS_JSON_OBJECT;
    lines->at[lines->len++] = (merge_line){merge_copy(path), apart ? merge_copy(list ? "a list" : "an object")
                                                                   : json_written(value)};
    for (const ds_json *at = apart ? value->first : NULL; at; at = at->next) {
        const ds_str name = list ? merge_member_name(value, at) : ds_json_key(at);
        char inner[MERGE_PATH];
        snprintf(inner, sizeof inner, "%s/%.*s", path, (int)name.len, name.at);
        merge_take_apart(lines, at, inner);
    }
}

/* --- made at random ---------------------------------------------------------------------------------------------------- */

/* A text that a test makes. */
static inline void merge_put(json_random *const r, const char *const form, const int number)
{
    char piece[80];
    snprintf(piece, sizeof piece, form, number);
    json_random_put(r, piece);
}

static inline void merge_random_words(json_random *const r)
{
    json_random_put(r, "[");
    const char *between = "";
    for (int i = 0; i < 5; i++) {
        if (json_random_below(r, 2)) {
            json_random_put(r, between);
            merge_put(r, json_random_below(r, 3) ? "\"w%d\"" : "{\"word\": \"w%d\", \"depth_m\": 0.30}", i);
            between = ", ";
        }
    }
    json_random_put(r, "]");
}

static inline void merge_random_point(json_random *const r, const int id)
{
    merge_put(r, "{\"id\": \"P%d\", \"place\": \"a\", ", id);
    merge_put(r, "\"name\": \"Point %d\", \"height_m\": 1.10", (int)json_random_below(r, 9));
    if (json_random_below(r, 2)) {
        json_random_put(r, ", \"supply\": {\"volts\": 230, \"current\": \"ac\"}");
    }
    if (json_random_below(r, 2)) {
        json_random_put(r, ", \"marked\": [{\"ip\": \"IP44\"}]");
    }
    if (json_random_below(r, 2)) {
        json_random_put(r, ", \"seen\": ");
        merge_random_words(r);
    }
    json_random_put(r, "}");
}

/* A job with some of the points P0 to P9, every second one missing now and then. */
static inline void merge_random_job(json_random *const r)
{
    r->len = 0;
    json_random_put(
        r, "{\"dripstone\": 1, \"title\": \"T\", \"rules\": [\"iec\", \"de\"], \"places\": [{\"id\": "
           "\"a\", \"kind\": \"office\", \"setting\": \"indoors\", \"seen\": ");
    merge_random_words(r);
    json_random_put(r,
                    ", \"plan\": {\"features\": [{\"id\": \"f1\", \"x\": 1}, {\"id\": \"f2\", \"x\": 2}]}}],"
                    " \"points\": [");
    const char *between = "";
    for (int i = 0; i < 10; i++) {
        if (json_random_below(r, 3)) {
            json_random_put(r, between);
            merge_random_point(r, i);
            between = ", ";
        }
    }
    json_random_put(r, "]}");
}

/* --- edited at random -------------------------------------------------------------------------------------------------- */

/* How a document is edited: what may happen, and how seldom. */
typedef struct merge_edit {
    json_random *r;
    uint32_t seldom; /* one value in so many */
    int side;        /* new things of two sides have other names; 0: the same */
    int parity;      /* points of this parity only, -1: everywhere */
    bool moves;      /* members may change places, come and go */
} merge_edit;

static inline bool merge_chance(const merge_edit *const e)
{
    return json_random_below(e->r, e->seldom) == 0;
}

static inline void merge_put_new(ds_json_writer *const w, const merge_edit *const e, const ds_json *const in)
{
    char name[24];
    snprintf(name, sizeof name, "new%d-%u", e->side, json_random_below(e->r, 4));
    const bool words = in->kind == DS_JSON_ARRAY && ds_str_is(ds_json_key(in), "seen");
    if (in->kind == DS_JSON_OBJECT) {
        ds_json_put_key(w, name);
    }
    if (words || in->kind == DS_JSON_OBJECT) {
        ds_json_put_text(w, name);
        return;
    }
    ds_json_begin_object(w);
    ds_json_put_key(w, "id");
    ds_json_put_text(w, name);
    ds_json_put_key(w, "x");
    ds_json_put_int(w, e->side);
    ds_json_end_object(w);
}

static inline void merge_put_edited(ds_json_writer *w, const merge_edit *e, const ds_json *value);

static inline void merge_put_member(ds_json_writer *const w, const merge_edit *const e,
                                    const ds_json *const at)
{
    if (at->parent->kind == DS_JSON_OBJECT) {
        ds_json_put_key_str(w, ds_json_key(at));
    }
    merge_put_edited(w, e, at);
}

static inline bool merge_is_name(const ds_json *const at)
{
    return at->key && (ds_str_is(ds_json_key(at), "id") || ds_str_is(ds_json_key(at), "word") ||
                       ds_str_is(ds_json_key(at), "dripstone"));
}

/* Members as they are, dropped, or two neighbours swapped; and at the end something new. */
static inline void merge_put_members(ds_json_writer *const w, const merge_edit *const e,
                                     const ds_json *const in)
{
    bool added = false;
    for (const ds_json *at = in->first; at; at = at->next) {
        if (e->moves && at->next && merge_chance(e)) {
            merge_put_member(w, e, at->next);
            merge_put_member(w, e, at);
            at = at->next;
        } else if (merge_is_name(at) || !e->moves || !merge_chance(e)) {
            merge_put_member(w, e, at);
        }
        if (e->moves && !added && merge_chance(e)) {
            merge_put_new(w, e, in);
            added = true;
        }
    }
}

/* False for what this edit leaves alone: points of the other parity, and all that is no point. */
static inline bool merge_may_edit(const merge_edit *const e, const ds_json *const value)
{
    const ds_json *point = value;
    while (point && !(point->parent && ds_str_is(ds_json_key(point->parent), "points"))) {
        point = point->parent;
    }
    const ds_json *const id = ds_json_get(point, DS_STR("id"));
    return e->parity < 0 || (id && (id->text[id->text_len - 1] - '0') % 2 == e->parity);
}

static inline void merge_put_edited(ds_json_writer *const w, const merge_edit *const e,
                                    const ds_json *const value)
{
    const bool inside = value->kind == DS_JSON_OBJECT || value->kind == DS_JSON_ARRAY;
    if (inside) {
        (value->kind == DS_JSON_OBJECT ? ds_json_begin_object : ds_json_begin_array)(w);
        merge_put_members(w, e, value);
        (value->kind == DS_JSON_OBJECT ? ds_json_end_object : ds_json_end_array)(w);
    } else if (!merge_is_name(value) && value->key && merge_may_edit(e, value) && merge_chance(e)) {
        ds_json_put_int(w, (int64_t)json_random_below(e->r, 3) + 10 * e->side);
    } else {
        ds_json_put_tree(w, value);
    }
}

/* The text of an edited document; free() it. */
static inline char *merge_edited(const merge_edit *const e, const ds_json *const tree)
{
    test_alloc memory = test_alloc_make(0);
    ds_text text;
    ds_text_init(&text, test_alloc_use(&memory));
    ds_json_writer w = ds_json_writer_on(&text);
    merge_put_edited(&w, e, tree);
    ds_text_char(&text, '\0');
    assert_true(ds_text_ok(&text));
    char *const copy = merge_copy(text.at);
    ds_text_free(&text);
    return copy;
}

#endif
