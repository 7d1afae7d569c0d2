/* SPDX-License-Identifier: MIT */
/*
 * The look at the bytes before yajl sees them: strict UTF-8, whole strings, escapes that are characters.
 *
 * yajl accepts overlong and surrogate UTF-8, turns a lone surrogate escape into '?', takes vertical tabs and form
 * feeds for white space and copies a string that the end of the input cuts off. So the scan stops at the first such
 * place, and yajl is handed only what stands before it: whatever yajl finds there comes first and is reported first.
 */
#ifndef DS_JSON_SCAN_H
#define DS_JSON_SCAN_H

#include "core/base/problem.h"

typedef struct ds_json_scan {
    bool clean;           /* nothing wrong up to the end */
    bool in_string;       /* the fault is inside a string that starts at `safe` */
    size_t safe;          /* yajl may read up to here */
    size_t fault;         /* first wrong byte */
    ds_problem_code code; /* what is wrong there */
    ds_str a;
    size_t escaped; /* bytes of the longest string with escapes */
} ds_json_scan;

ds_json_scan ds_json_scan_bytes(ds_str source, size_t from);

#endif
