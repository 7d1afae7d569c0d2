/* SPDX-License-Identifier: MIT */
/*
 * Inside json/: what is known while a document is read. events.c builds the tree from it, read.c starts, ends and
 * refuses.
 */
#ifndef DS_JSON_READER_H
#define DS_JSON_READER_H

#include "core/json/json.h"
#include "core/json/keys.h"

#include <yajl/yajl_parse.h>

/* An open container. Levels are made once and used again by the next container of the same depth. */
typedef struct ds_json_level ds_json_level;
struct ds_json_level {
    ds_json_level *outer;
    ds_json_level *inner;
    ds_json *node; /* NULL at the root, which stands for the document */
    ds_json *last; /* newest member or element */
    ds_json_keys keys;
};

typedef struct ds_json_reader {
    ds_str source;
    size_t start; /* first byte behind the byte order mark */
    size_t end;   /* yajl reads up to here */
    size_t at;    /* byte behind the last token that a callback saw */
    bool finishing;
    bool has_key;
    ds_str key; /* of the member whose value comes next */
    unsigned depth;
    ds_json_level root;
    ds_json_level *level;
    ds_json *free_nodes;
    size_t free_len;
    size_t block_len; /* nodes taken from the arena at a time */
    yajl_handle yajl;
    ds_arena *arena;
    const ds_json_limits *limits;
    ds_status status;
    ds_problem *problem;
} ds_json_reader;

/* yajl's events become the tree under reader->root; the context is the reader. */
extern const yajl_callbacks DS_JSON_EVENTS;

/* The three ways to end the reading. They return 0, which is what a callback returns to make yajl stop. */
int ds_json_no_memory(ds_json_reader *r);
int ds_json_refuse(ds_json_reader *r, ds_problem_code code, size_t offset, ds_str a);
int ds_json_refuse_over(ds_json_reader *r, ds_problem_code code, size_t offset, size_t limit);

#endif
