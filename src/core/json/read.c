/* SPDX-License-Identifier: MIT */
/*
 * Reading a document: the scan, yajl, and what is wrong with it.
 *
 * What yajl 2.1.0 leaves to its user, and who does it here:
 *  - it nests without bound, takes keys twice, any number of keys, any size of number: events refuse.
 *  - it takes bad UTF-8, half pairs and odd white space, and copies strings that the end cuts off: scan.
 *  - it uses memory without asking whether there is any: pool.
 *  - a number that touches the end is handed over only by yajl_complete_parse, from a copy: `finishing`.
 *  - its error places are coarse: fault.
 */
#include "core/json/fault.h"
#include "core/json/place.h"
#include "core/json/pool.h"
#include "core/json/reader.h"
#include "core/json/scan.h"

enum { FIRST_NODES = 8 };

/* Longest document, whatever the limits say: offsets have 32 bits and buffers may double. */
#define LARGEST_DOCUMENT ((size_t)0x7FFFFFFF)

int ds_json_no_memory(ds_json_reader *const r)
{
    r->status = DS_NO_MEMORY;
    return 0;
}

int ds_json_refuse(ds_json_reader *const r, const ds_problem_code code, const size_t offset, const ds_str a)
{
    ds_problem problem = {.code = code, .a = a};
    ds_json_line_column(r->source, (uint32_t)offset, &problem.where.line, &problem.where.column);
    problem.where.pointer = ds_json_pointer(r->level->node, r->has_key ? &r->key : NULL, r->arena);
    if (!problem.where.pointer.at) {
        return ds_json_no_memory(r);
    }
    *r->problem = problem;
    r->status = DS_BAD_INPUT;
    return 0;
}

static ds_str number_text(ds_json_reader *const r, const size_t number)
{
    char digits[24];
    size_t at = sizeof digits;
    size_t rest = number;
    do {
        digits[--at] = (char)('0' + rest % 10);
        rest /= 10;
    } while (rest);
    const size_t len = sizeof digits - at;
    char *const copy = ds_arena_take(r->arena, len);
    return (ds_str){copy ? memcpy(copy, digits + at, len) : NULL, len};
}

/* For limits, whose message names the limit. */
int ds_json_refuse_over(ds_json_reader *const r, const ds_problem_code code, const size_t offset,
                        const size_t limit)
{
    const ds_str a = number_text(r, limit);
    return a.at ? ds_json_refuse(r, code, offset, a) : ds_json_no_memory(r);
}

static ds_json_after after(const ds_json_reader *const r)
{
    const ds_json *const node = r->level->node;
    if (!node) {
        return DS_AFTER_NOTHING;
    }
    if (r->has_key) {
        return DS_AFTER_KEY;
    }
    if (node->kind == DS_JSON_OBJECT) {
        return node->count ? DS_AFTER_MEMBER : DS_AFTER_OPEN_OBJECT;
    }
    return node->count ? DS_AFTER_ELEMENT : DS_AFTER_OPEN_ARRAY;
}

/* Says what is wrong with a text that yajl or the scan refused. What comes first in the text is said. */
static void diagnose(ds_json_reader *const r, const ds_json_scan *const scan)
{
    const bool root_is_done = r->root.last && r->level == &r->root;
    if (root_is_done) {
        ds_json_refuse(r, DS_P_JSON_AFTER_END, ds_json_skip_space(r->source, r->at), (ds_str){0});
        return;
    }
    const ds_str seen = {r->source.at, r->end + scan->in_string};
    const ds_json_fault fault = ds_json_fault_find(seen, r->at, after(r));
    if (fault.why) {
        ds_json_refuse(r, DS_P_JSON_BROKEN, fault.at, ds_str_of(fault.why));
    } else if (!scan->clean) {
        ds_json_refuse(r, scan->code, scan->fault, scan->a);
    } else {
        ds_json_refuse(r, DS_P_JSON_HALF, r->source.len, (ds_str){0});
    }
}

/* True when yajl takes the text as a whole document. */
static bool run_yajl(ds_json_reader *const r)
{
    const unsigned char *const text = (const unsigned char *)r->source.at + r->start;
    if (yajl_parse(r->yajl, text, r->end - r->start) != yajl_status_ok) {
        return false;
    }
    r->finishing = true;
    return yajl_complete_parse(r->yajl) == yajl_status_ok;
}

/* Bytes of the number, if any, that touches the end: yajl copies it. */
static size_t tail_len(const ds_json_reader *const r)
{
    size_t first = r->end;
    while (first > r->start && memchr("0123456789+-.eE", r->source.at[first - 1], 15)) {
        first--;
    }
    return r->end - first;
}

static void read_document(ds_json_reader *const r)
{
    const ds_json_scan scan = ds_json_scan_bytes(r->source, r->start);
    r->end = scan.safe;
    const size_t depth = r->limits->depth < r->end ? r->limits->depth : r->end;
    ds_json_pool pool;
    if (!ds_json_pool_open(&pool, r->arena->alloc, depth, scan.escaped, tail_len(r))) {
        ds_json_no_memory(r);
        return;
    }
    yajl_alloc_funcs funcs = ds_json_pool_funcs(&pool);
    r->yajl = yajl_alloc(&DS_JSON_EVENTS, &funcs, r);
    const bool whole = run_yajl(r) && scan.clean;
    if (!whole && r->status == DS_OK) {
        diagnose(r, &scan);
    }
    yajl_free(r->yajl);
    ds_json_pool_close(&pool);
}

ds_status ds_json_read(ds_json **const out, const ds_str source, ds_arena *const arena,
                       const ds_json_limits *const limits, ds_problem *const problem)
{
    ds_json_reader r = {
        .source = source, .arena = arena, .limits = limits, .problem = problem, .block_len = FIRST_NODES};
    const size_t most = limits->bytes < LARGEST_DOCUMENT ? limits->bytes : LARGEST_DOCUMENT;
    r.level = &r.root;
    r.start = r.at = ds_json_mark_len(source);
    *out = NULL;
    if (source.len > most) {
        ds_json_refuse_over(&r, DS_P_JSON_TOO_LARGE, 0, most);
    } else if (ds_json_skip_space(source, r.start) == source.len) {
        ds_json_refuse(&r, DS_P_EMPTY, r.start, (ds_str){0});
    } else {
        read_document(&r);
    }
    *out = r.status == DS_OK ? r.root.last : NULL;
    return r.status;
}
