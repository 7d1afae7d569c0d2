/* SPDX-License-Identifier: MIT */
/*
 * For tests of json/: a document with all that it needs around it, read and given back in two calls.
 *
 *     json_doc doc;
 *     json_doc_read(&doc, DS_STR("[1]"), &DS_JSON_LIMITS);
 *     … doc.status, doc.tree, doc.problem …
 *     json_doc_free(&doc);    also checks that no block is left
 */
#ifndef JSON_HELP_H
#define JSON_HELP_H

#include "base_alloc.h"
#include "core/json/json.h"
#include "core/json/write.h"

typedef struct json_doc {
    test_alloc memory;
    ds_arena arena;
    char *source; /* a copy of exactly the text's length, so that address checks see every byte too far */
    ds_json *tree;
    ds_status status;
    ds_problem problem;
} json_doc;

static inline ds_str json_doc_source(const json_doc *const doc, const ds_str text)
{
    return (ds_str){doc->source, text.len};
}

static inline void json_doc_read(json_doc *const doc, const ds_str text, const ds_json_limits *const limits)
{
    *doc = (json_doc){.memory = test_alloc_make(0), .source = malloc(text.len ? text.len : 1)};
    assert_non_null(doc->source);
    if (text.len) {
        memcpy(doc->source, text.at, text.len);
    }
    ds_arena_init(&doc->arena, test_alloc_use(&doc->memory));
    doc->status = ds_json_read(&doc->tree, json_doc_source(doc, text), &doc->arena, limits, &doc->problem);
    assert_int_equal(doc->status == DS_OK, doc->tree != NULL);
}

static inline void json_doc_free(json_doc *const doc)
{
    ds_arena_free(&doc->arena);
    free(doc->source);
    assert_int_equal(doc->memory.blocks, 0);
}

/* The tree as the writer writes it; ended by a zero byte; free() it. */
static inline char *json_written(const ds_json *const tree)
{
    test_alloc memory = test_alloc_make(0);
    ds_text text;
    ds_text_init(&text, test_alloc_use(&memory));
    ds_json_writer w = ds_json_writer_on(&text);
    ds_json_put_tree(&w, tree);
    ds_text_char(&text, '\0');
    assert_true(ds_text_ok(&text));
    char *const copy = malloc(text.len);
    assert_non_null(copy);
    memcpy(copy, text.at, text.len);
    ds_text_free(&text);
    return copy;
}

/* Same kinds, keys, texts and order; where they stood does not count. */
static inline bool json_same(const ds_json *const a, const ds_json *const b)
{
    if (a->kind != b->kind || a->count != b->count || !ds_str_eq(ds_json_key(a), ds_json_key(b))) {
        return false;
    }
    if (a->kind < DS_JSON_ARRAY) {
        return ds_str_eq(ds_json_text(a), ds_json_text(b));
    }
    const ds_json *i = a->first;
    const ds_json *j = b->first;
    while (i && j && json_same(i, j)) {
        i = i->next;
        j = j->next;
    }
    return !i && !j;
}

#endif
