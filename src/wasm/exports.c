/* SPDX-License-Identifier: MIT */
/*
 * The core as WebAssembly exports it: one handle that keeps the rulebook and the last result.
 *
 *     const h = ds_wasm_open()
 *     copy bytes to ds_wasm_take(n); ds_wasm_words(h, at, n); ds_wasm_pack(h, at, n)     … they are copied again
 *     ds_wasm_check(h, at, n)  ->  status; the text is at ds_wasm_result_at(h), ds_wasm_result_len(h) bytes long
 *
 * Statuses are the exit statuses of the program: 0 all fit, 1 not all, 2 unreadable (the result is then
 * {"problem": …}); and 3, out of memory (no result). Words and packs answer 0, 2 or 3, and a rulebook that refused a file
 * is not used further.
 */
#include "core/assess/render.h"
#include "core/json/write.h"

#include <stdlib.h>

#ifdef __wasm__
#define EXPORT(name) __attribute__((export_name(#name))) name
#else
#define EXPORT(name) name
#endif

typedef enum wasm_status { FINE, NOT_ALL, UNREADABLE, NO_MEMORY } wasm_status;

typedef struct ds_wasm {
    ds_alloc alloc;
    ds_arena arena; /* of the rulebook and its sources */
    ds_rulebook book;
    ds_text result;
} ds_wasm;

ds_wasm *EXPORT(ds_wasm_open)(void);
void EXPORT(ds_wasm_close)(ds_wasm *h);
void *EXPORT(ds_wasm_take)(size_t size);
void EXPORT(ds_wasm_give)(void *at);
int EXPORT(ds_wasm_words)(ds_wasm *h, const char *at, size_t len);
int EXPORT(ds_wasm_pack)(ds_wasm *h, const char *at, size_t len);
int EXPORT(ds_wasm_check)(ds_wasm *h, const char *at, size_t len);
int EXPORT(ds_wasm_read)(ds_wasm *h, const char *at, size_t len);
int EXPORT(ds_wasm_compare)(ds_wasm *h, const char *need_at, size_t need_len, const char *mark_at,
                            size_t mark_len);
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

const char *ds_wasm_result_at(const ds_wasm *const h)
{
    return h->result.at;
}

size_t ds_wasm_result_len(const ds_wasm *const h)
{
    return h->result.len;
}

/* --- results ------------------------------------------------------------------------------------------------------ */

static void begin(ds_wasm *const h)
{
    ds_text_free(&h->result);
    ds_text_init(&h->result, &h->alloc);
}

static int end(ds_wasm *const h, const wasm_status status)
{
    if (ds_text_ok(&h->result) && status != NO_MEMORY) {
        return (int)status;
    }
    begin(h);
    return NO_MEMORY;
}

static void put_sentence(ds_json_writer *const w, const char *const key, const ds_problem *const problem,
                         void (*const say)(ds_text *, const ds_problem *))
{
    ds_text text;
    ds_text_init(&text, w->text->alloc);
    say(&text, problem);
    ds_json_put_key(w, key);
    ds_json_put_str(w, ds_text_str(&text));
    w->text->failed = w->text->failed || !ds_text_ok(&text);
    ds_text_free(&text);
}

static int end_with_problem(ds_wasm *const h, const ds_problem *const problem)
{
    begin(h);
    ds_json_writer w = ds_json_writer_on(&h->result);
    ds_json_begin_object(&w);
    put_sentence(&w, "problem", problem, ds_problem_say);
    put_sentence(&w, "remedy", problem, ds_problem_mend);
    ds_json_put_key(&w, "pointer");
    ds_json_put_str(&w, problem->where.pointer);
    ds_json_put_key(&w, "line");
    ds_json_put_int(&w, problem->where.line);
    ds_json_put_key(&w, "column");
    ds_json_put_int(&w, problem->where.column);
    ds_json_end_object(&w);
    ds_text_char(&h->result, '\n');
    return end(h, UNREADABLE);
}

static int end_with(ds_wasm *const h, const ds_status status, const ds_problem *const problem)
{
    if (status == DS_BAD_INPUT) {
        return end_with_problem(h, problem);
    }
    return end(h, status == DS_OK ? FINE : NO_MEMORY);
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

/* --- answers ------------------------------------------------------------------------------------------------------ */

static int check(ds_wasm *const h, ds_arena *const arena, const ds_str source)
{
    ds_problem problem = {0};
    ds_job job;
    ds_findings findings;
    ds_status status = ds_job_read(&job, source, arena, &problem);
    if (status == DS_OK) {
        status = ds_assess(&findings, &job, &h->book, arena, &problem);
    }
    if (status != DS_OK) {
        return end_with(h, status, &problem);
    }
    ds_findings_json(&h->result, &findings, NULL);
    return end(h, ds_findings_exit(&findings) == 0 ? FINE : NOT_ALL);
}

int ds_wasm_check(ds_wasm *const h, const char *const at, const size_t len)
{
    ds_arena arena;
    begin(h);
    ds_arena_init(&arena, &h->alloc);
    const int status = check(h, &arena, (ds_str){at, len});
    ds_arena_free(&arena);
    return status;
}

int ds_wasm_read(ds_wasm *const h, const char *const at, const size_t len)
{
    begin(h);
    ds_reading_json(&h->result, (ds_str){at, len});
    return end(h, FINE);
}

/* {"problem": …} when the text holds no need that can be used. */
static int end_without_need(ds_wasm *const h, const ds_str need_text, const ds_reading *const reading)
{
    ds_text why;
    ds_text_init(&why, &h->alloc);
    ds_reading_because(&why, reading);
    const ds_problem problem = {.code = DS_P_UNREADABLE_NEED, .a = need_text, .b = ds_text_str(&why)};
    const int status = ds_text_ok(&why) ? end_with_problem(h, &problem) : end(h, NO_MEMORY);
    ds_text_free(&why);
    return status;
}

int ds_wasm_compare(ds_wasm *const h, const char *const need_at, const size_t need_len,
                    const char *const mark_at, const size_t mark_len)
{
    const ds_str need_text = {need_at, need_len};
    ds_need need = DS_NEED_NOTHING;
    ds_reading reading;
    begin(h);
    if (!ds_need_read(need_text, &need, &reading)) {
        return end_without_need(h, need_text, &reading);
    }
    ds_compare_json(&h->result, need_text, (ds_str){mark_at, mark_len});
    ds_mark_read((ds_str){mark_at, mark_len}, &reading);
    return end(h, ds_mark_compare(need, reading.mark, NULL) == DS_FITS ? FINE : NOT_ALL);
}
