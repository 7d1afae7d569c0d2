/* SPDX-License-Identifier: MIT */
/*
 * Fuzz target of json/: any bytes are read; what is taken is written, read again and must be the same tree and the same
 * text, with every number a number. What is refused must have a place in the text and a name that can be printed.
 * The first byte also picks small limits now and then, so that these are met.
 */
#include "fuzz.h"

#include "core/json/json.h"
#include "core/json/write.h"

static bool same(const ds_json *const a, const ds_json *const b)
{
    if (a->kind != b->kind || a->count != b->count || !ds_str_eq(ds_json_key(a), ds_json_key(b))) {
        return false;
    }
    if (a->kind < DS_JSON_ARRAY) {
        return ds_str_eq(ds_json_text(a), ds_json_text(b));
    }
    const ds_json *j = b->first;
    for (const ds_json *i = a->first; i; i = i->next, j = j->next) {
        if (!same(i, j)) {
            return false;
        }
    }
    return true;
}

static void check_value(const ds_json *const value, const ds_str source, ds_arena *const arena)
{
    double number;
    FUZZ_EXPECT(value->offset < source.len);
    FUZZ_EXPECT(ds_json_number(value, &number) == (value->kind == DS_JSON_NUMBER));
    FUZZ_EXPECT(value->kind != DS_JSON_STRING || ds_str_is_utf8(ds_json_text(value)));
    FUZZ_EXPECT(ds_str_is_utf8(ds_json_where(value, source, arena).pointer));
    for (const ds_json *at = value->kind >= DS_JSON_ARRAY ? value->first : NULL; at; at = at->next) {
        FUZZ_EXPECT(at->parent == value && at->offset > value->offset);
        check_value(at, source, arena);
    }
}

static void check_problem(const ds_problem *const problem, const ds_str source)
{
    uint32_t line, column;
    ds_json_line_column(source, (uint32_t)source.len, &line, &column);
    FUZZ_EXPECT(problem->where.line >= 1 && problem->where.line <= line);
    FUZZ_EXPECT(problem->where.column >= 1 &&
                (problem->where.line < line || problem->where.column <= column));
    FUZZ_EXPECT(ds_str_is_utf8(problem->a) && ds_str_is_utf8(problem->where.pointer));
}

static ds_text written(const ds_json *const tree)
{
    ds_text text;
    ds_text_init(&text, fuzz_alloc());
    ds_json_writer w = ds_json_writer_on(&text);
    ds_json_put_tree(&w, tree);
    FUZZ_EXPECT(ds_text_ok(&text));
    return text;
}

static void check_round_trip(const ds_json *const tree, const ds_json_limits *const limits,
                             ds_arena *const arena)
{
    ds_text first = written(tree);
    ds_json *back;
    ds_problem problem;
    const ds_json_limits room = {.bytes = SIZE_MAX, .depth = limits->depth, .keys = limits->keys};
    FUZZ_EXPECT(ds_json_read(&back, ds_text_str(&first), arena, &room, &problem) == DS_OK);
    FUZZ_EXPECT(same(tree, back));
    ds_text second = written(back);
    FUZZ_EXPECT(ds_str_eq(ds_text_str(&first), ds_text_str(&second)));
    ds_text_free(&first);
    ds_text_free(&second);
}

int LLVMFuzzerTestOneInput(const uint8_t *const data, const size_t size)
{
    const ds_str source = {(const char *)data, size};
    const bool narrow = size && data[0] == '\n';
    const ds_json_limits limits =
        narrow ? (ds_json_limits){.bytes = 200, .depth = 3, .keys = 20} : DS_JSON_LIMITS;
    ds_arena arena;
    ds_json *tree;
    ds_problem problem;
    ds_arena_init(&arena, fuzz_alloc());
    if (ds_json_read(&tree, source, &arena, &limits, &problem) == DS_OK) {
        check_value(tree, source, &arena);
        check_round_trip(tree, &limits, &arena);
    } else {
        FUZZ_EXPECT(tree == NULL);
        check_problem(&problem, source);
    }
    ds_arena_free(&arena);
    return 0;
}
