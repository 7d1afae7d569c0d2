/* SPDX-License-Identifier: MIT */
/*
 * No test but a helper of one: reads documents from standard input and answers each, for tests/oracle/json_oracle.mjs.
 *
 *     in:  LENGTH \n BYTES    as often as wanted
 *     out: ok LENGTH \n BYTES    the tree written again
 *          no CODE LINE COLUMN \n
 */
#include "core/json/json.h"
#include "core/json/write.h"

#include <stdio.h>
#include <stdlib.h>

static const char *const CODES[] = {
#define X(code, say, mend) [DS_P_##code] = #code,
    DS_PROBLEMS(X)
#undef X
};

static void *resize(void *const ctx, void *const old, const size_t old_size, const size_t new_size)
{
    (void)ctx;
    (void)old_size;
    if (new_size == 0) {
        free(old);
        return NULL;
    }
    return realloc(old, new_size);
}

static const ds_alloc ALLOC = {.resize = resize};

static void write_tree(const ds_json *const tree)
{
    ds_text text;
    ds_text_init(&text, &ALLOC);
    ds_json_writer w = ds_json_writer_on(&text);
    ds_json_put_tree(&w, tree);
    if (!ds_text_ok(&text)) {
        exit(3);
    }
    printf("ok %zu\n", text.len);
    fwrite(text.at, 1, text.len, stdout);
    ds_text_free(&text);
}

static void answer(const ds_str source)
{
    ds_arena arena;
    ds_json *tree;
    ds_problem problem;
    ds_arena_init(&arena, &ALLOC);
    switch (ds_json_read(&tree, source, &arena, &DS_JSON_LIMITS, &problem)) {
    case DS_OK:
        write_tree(tree);
        break;
    case DS_BAD_INPUT:
        printf("no %s %u %u\n", CODES[problem.code], problem.where.line, problem.where.column);
        break;
    case DS_NO_MEMORY:
        exit(3);
    }
    ds_arena_free(&arena);
}

int main(void)
{
    size_t len;
    while (scanf("%zu", &len) == 1 && getchar() == '\n') {
        char *const bytes = malloc(len ? len : 1);
        if (!bytes || fread(bytes, 1, len, stdin) != len) {
            return 2;
        }
        answer((ds_str){bytes, len});
        free(bytes);
    }
    return feof(stdin) ? 0 : 2;
}
