/* SPDX-License-Identifier: MIT */
/*
 * The core as WebAssembly exports it: one handle that keeps the rulebook and the last result.
 *
 *     const h = ds_wasm_open()
 *     copy bytes to ds_wasm_take(n)
 *     ds_wasm_words(h, at, n); ds_wasm_pack(h, at, n); ds_wasm_sizes(h, at, n)     … they are copied again
 *     ds_wasm_ask(h, name, n, text, n, text, n, text, n)  ->  status
 *     the result is at ds_wasm_result_at(h), ds_wasm_result_len(h) bytes long
 *
 * Questions and their texts stand in core/answer/answer.c; texts that a question does not take are 0, 0. Statuses are the
 * exit statuses of the program: 0 all fit, 1 not all, 2 unreadable (the result is then {"problem": …}) or no such question;
 * and 3, out of memory (no result). Words and packs answer 0, 2 or 3, and a rulebook that refused a file is not used further.
 */
#include "core/answer/answer.h"

#include <stdlib.h>

#ifdef __wasm__
#define EXPORT(name) __attribute__((export_name(#name))) name
#else
#define EXPORT(name) name
#endif

typedef struct ds_wasm {
    ds_alloc alloc;
    ds_arena arena; /* of the rulebook and its sources */
    ds_rulebook book;
    ds_sizes sizes;
    ds_text result;
} ds_wasm;

ds_wasm *EXPORT(ds_wasm_open)(void);
void EXPORT(ds_wasm_close)(ds_wasm *h);
void *EXPORT(ds_wasm_take)(size_t size);
void EXPORT(ds_wasm_give)(void *at);
int EXPORT(ds_wasm_words)(ds_wasm *h, const char *at, size_t len);
int EXPORT(ds_wasm_pack)(ds_wasm *h, const char *at, size_t len);
int EXPORT(ds_wasm_sizes)(ds_wasm *h, const char *at, size_t len);
int EXPORT(ds_wasm_ask)(ds_wasm *h, const char *name_at, size_t name_len, const char *first_at,
                        size_t first_len, const char *second_at, size_t second_len, const char *third_at,
                        size_t third_len);
const char *EXPORT(ds_wasm_result_at)(const ds_wasm *h);
size_t EXPORT(ds_wasm_result_len)(const ds_wasm *h);

/* --- memory ------------------------------------------------------------------------------------------------------- */

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

void *ds_wasm_take(const size_t size)
{
    return malloc(size ? size : 1);
}

void ds_wasm_give(void *const at)
{
    free(at);
}

ds_wasm *ds_wasm_open(void)
{
    ds_wasm *const h = malloc(sizeof *h);
    if (h) {
        h->alloc = (ds_alloc){resize, NULL};
        ds_arena_init(&h->arena, &h->alloc);
        ds_rulebook_init(&h->book, &h->arena);
        h->sizes = DS_SIZES_NONE;
        ds_text_init(&h->result, &h->alloc);
    }
    return h;
}

void ds_wasm_close(ds_wasm *const h)
{
    ds_text_free(&h->result);
    ds_arena_free(&h->arena);
    free(h);
}

/* --- results ------------------------------------------------------------------------------------------------------ */

const char *ds_wasm_result_at(const ds_wasm *const h)
{
    return h->result.at;
}

size_t ds_wasm_result_len(const ds_wasm *const h)
{
    return h->result.len;
}

static void begin(ds_wasm *const h)
{
    ds_text_free(&h->result);
    ds_text_init(&h->result, &h->alloc);
}

static int end_with(ds_wasm *const h, const ds_status status, const ds_problem *const problem)
{
    if (status == DS_BAD_INPUT) {
        return (int)ds_answer_problem(&h->result, problem);
    }
    return status == DS_OK ? DS_ANSWER_FINE : DS_ANSWER_NO_MEMORY;
}

/* --- rulebook ----------------------------------------------------------------------------------------------------- */

/* A copy that lives as long as the rulebook; at NULL when memory is short. */
static ds_str keep(ds_wasm *const h, const char *const at, const size_t len)
{
    char *const copy = ds_arena_take(&h->arena, len + 1);
    if (copy && len) {
        memcpy(copy, at, len);
    }
    return (ds_str){copy, len};
}

int ds_wasm_words(ds_wasm *const h, const char *const at, const size_t len)
{
    ds_problem problem = {0};
    begin(h);
    const ds_str source = keep(h, at, len);
    return end_with(h, source.at ? ds_words_read(&h->book.words, source, &problem) : DS_NO_MEMORY, &problem);
}

int ds_wasm_pack(ds_wasm *const h, const char *const at, const size_t len)
{
    ds_problem problem = {0};
    begin(h);
    const ds_str source = keep(h, at, len);
    return end_with(h, source.at ? ds_rulebook_read(&h->book, source, &problem) : DS_NO_MEMORY, &problem);
}

int ds_wasm_sizes(ds_wasm *const h, const char *const at, const size_t len)
{
    ds_problem problem = {0};
    begin(h);
    const ds_str source = keep(h, at, len);
    return end_with(h, source.at ? ds_sizes_read(&h->sizes, source, &h->arena, &problem) : DS_NO_MEMORY,
                    &problem);
}

/* --- answers ------------------------------------------------------------------------------------------------------ */

int ds_wasm_ask(ds_wasm *const h, const char *const name_at, const size_t name_len,
                const char *const first_at, const size_t first_len, const char *const second_at,
                const size_t second_len, const char *const third_at, const size_t third_len)
{
    const ds_str texts[DS_QUESTION_TEXTS] = {
        {first_at, first_len}, {second_at, second_len}, {third_at, third_len}};
    const ds_question_form *const form = ds_question_named((ds_str){name_at, name_len});
    const ds_desk desk = {.alloc = &h->alloc, .book = &h->book, .sizes = &h->sizes};
    begin(h);
    return form ? (int)form->answer(&h->result, &desk, texts) : DS_ANSWER_UNREADABLE;
}
