/* SPDX-License-Identifier: MIT */
/*
 * Why a text is not JSON, once yajl has refused it. yajl's own messages and offsets are too coarse (they point behind
 * the token, or at a character of it), so the few bytes after the last good token are read again with the grammar.
 */
#ifndef DS_JSON_FAULT_H
#define DS_JSON_FAULT_H

#include "core/base/str.h"

typedef enum ds_json_after {
    DS_AFTER_NOTHING, /* at the start of the document */
    DS_AFTER_OPEN_ARRAY,
    DS_AFTER_ELEMENT,
    DS_AFTER_OPEN_OBJECT,
    DS_AFTER_KEY,
    DS_AFTER_MEMBER
} ds_json_after;

typedef struct ds_json_fault {
    size_t at;
    const char *why; /* static; NULL: nothing wrong, the text just ends */
} ds_json_fault;

/* What is wrong in source from byte `at`, which stands right behind a good token of the kind that `after` says. */
ds_json_fault ds_json_fault_find(ds_str source, size_t at, ds_json_after after);

/* The first byte from `at` on that is no white space of JSON. */
size_t ds_json_skip_space(ds_str source, size_t at);

#endif
