/* SPDX-License-Identifier: MIT */
/*
 * The core as WebAssembly exports it: one handle that keeps the rulebook and the last result.
 *
 *     const h = ds_wasm_open()
 *     copy bytes to ds_wasm_take(n); ds_wasm_words(h, at, n); ds_wasm_pack(h, at, n); ds_wasm_sizes(h, at, n)     … they are copied again
 *     ds_wasm_check(h, at, n), ds_wasm_zones and ds_wasm_draw(h, at, n, place, n)  ->  status; the text is at ds_wasm_result_at(h), ds_wasm_result_len(h) bytes long
 *
 * Statuses are the exit statuses of the program: 0 all fit, 1 not all, 2 unreadable (the result is then
 * {"problem": …}); and 3, out of memory (no result). Words and packs answer 0, 2 or 3, and a rulebook that refused a file
 * is not used further.
 */
#include "core/assess/render.h"
#include "core/draw/box.h"
#include "core/draw/plan.h"
#include "core/draw/rungs_sheet.h"
#include "core/draw/sheet_svg.h"
#include "core/job/merge.h"
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
int EXPORT(ds_wasm_check)(ds_wasm *h, const char *at, size_t len);
int EXPORT(ds_wasm_brief)(ds_wasm *h, const char *at, size_t len);
int EXPORT(ds_wasm_rungs)(ds_wasm *h, const char *need_at, size_t need_len, const char *mark_at,
                          size_t mark_len, const char *form_at, size_t form_len);
int EXPORT(ds_wasm_zones)(ds_wasm *h, const char *at, size_t len, const char *place_at, size_t place_len);
int EXPORT(ds_wasm_draw)(ds_wasm *h, const char *at, size_t len, const char *place_at, size_t place_len);
int EXPORT(ds_wasm_draw_box)(ds_wasm *h, const char *at, size_t len, const char *point_at, size_t point_len);
int EXPORT(ds_wasm_read)(ds_wasm *h, const char *at, size_t len);
int EXPORT(ds_wasm_compare)(ds_wasm *h, const char *need_at, size_t need_len, const char *mark_at,
                            size_t mark_len);
int EXPORT(ds_wasm_merge)(ds_wasm *h, const char *base_at, size_t base_len, const char *mine_at,
                          size_t mine_len, const char *theirs_at, size_t theirs_len);
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

int ds_wasm_sizes(ds_wasm *const h, const char *const at, const size_t len)
{
    ds_problem problem = {0};
    begin(h);
    const ds_str source = keep(h, at, len);
    return end_with(h, source.at ? ds_sizes_read(&h->sizes, source, &h->arena, &problem) : DS_NO_MEMORY,
                    &problem);
}

/* --- answers ------------------------------------------------------------------------------------------------------ */

/* A job and its findings, for one answer. */
typedef struct judged {
    ds_arena arena;
    ds_job job;
    ds_findings findings;
} judged;

/* Opens what must be freed with its arena; DS_OK, or what to end with. */
static ds_status judge(ds_wasm *const h, judged *const j, const ds_str source, ds_problem *const problem)
{
    begin(h);
    ds_arena_init(&j->arena, &h->alloc);
    const ds_status status = ds_job_read(&j->job, source, &j->arena, problem);
    return status == DS_OK ? ds_assess(&j->findings, &j->job, &h->book, &h->sizes, &j->arena, problem)
                           : status;
}

static int check(ds_wasm *const h, const ds_str source, const bool brief)
{
    judged j;
    ds_problem problem = {0};
    const ds_status judged_as = judge(h, &j, source, &problem);
    int status = 0;
    if (judged_as == DS_OK && brief) {
        ds_findings_brief_json(&h->result, &j.findings);
    } else if (judged_as == DS_OK) {
        ds_findings_json(&h->result, &j.findings, NULL);
    }
    if (judged_as == DS_OK) {
        status = end(h, ds_findings_exit(&j.findings) == 0 ? FINE : NOT_ALL);
    } else {
        status = end_with(h, judged_as, &problem);
    }
    ds_arena_free(&j.arena);
    return status;
}

int ds_wasm_check(ds_wasm *const h, const char *const at, const size_t len)
{
    return check(h, (ds_str){at, len}, false);
}

int ds_wasm_brief(ds_wasm *const h, const char *const at, const size_t len)
{
    return check(h, (ds_str){at, len}, true);
}

/* What is told of one place of a job; false when it cannot be. */
typedef bool (*tell)(ds_wasm *h, judged *j, size_t place);

static int of_place(ds_wasm *const h, const ds_str source, const ds_str place, const tell tell_of)
{
    judged j;
    ds_problem problem = {0};
    const ds_status judged_as = judge(h, &j, source, &problem);
    int status = judged_as == DS_OK ? UNREADABLE : end_with(h, judged_as, &problem);
    for (size_t i = 0; judged_as == DS_OK && i < j.job.places_len; i++) {
        if (ds_str_eq(j.job.places[i].id, place)) {
            status = end(h, tell_of(h, &j, i) ? FINE : NOT_ALL);
            break;
        }
    }
    ds_arena_free(&j.arena);
    return status;
}

static bool tell_zones(ds_wasm *const h, judged *const j, const size_t place)
{
    ds_zones_json(&h->result, &j->findings, place, NULL, 0);
    return j->findings.wet[place].len > 0;
}

int ds_wasm_zones(ds_wasm *const h, const char *const at, const size_t len, const char *const place_at,
                  const size_t place_len)
{
    return of_place(h, (ds_str){at, len}, (ds_str){place_at, place_len}, tell_zones);
}

static bool tell_drawing(ds_wasm *const h, judged *const j, const size_t place)
{
    ds_sheet sheet;
    const ds_status status = ds_plan_sheet(&sheet, &j->findings, place, &j->arena);
    if (status == DS_OK) {
        ds_sheet_svg(&h->result, &sheet);
    }
    h->result.failed = h->result.failed || status == DS_NO_MEMORY;
    return status == DS_OK;
}

int ds_wasm_draw(ds_wasm *const h, const char *const at, const size_t len, const char *const place_at,
                 const size_t place_len)
{
    return of_place(h, (ds_str){at, len}, (ds_str){place_at, place_len}, tell_drawing);
}

int ds_wasm_draw_box(ds_wasm *const h, const char *const at, const size_t len, const char *const point_at,
                     const size_t point_len)
{
    judged j;
    ds_problem problem = {0};
    const ds_status judged_as = judge(h, &j, (ds_str){at, len}, &problem);
    int status = judged_as == DS_OK ? UNREADABLE : end_with(h, judged_as, &problem);
    for (size_t i = 0; judged_as == DS_OK && i < j.job.points_len; i++) {
        if (ds_str_eq(j.job.points[i].id, (ds_str){point_at, point_len})) {
            ds_sheet sheet;
            const ds_status drawn = ds_box_sheet_of(&sheet, &j.findings, i, &j.arena);
            if (drawn == DS_OK) {
                ds_sheet_svg(&h->result, &sheet);
            }
            status = end(h, drawn == DS_OK ? FINE : drawn == DS_NO_MEMORY ? NO_MEMORY : UNREADABLE);
            break;
        }
    }
    ds_arena_free(&j.arena);
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

/* --- merging ------------------------------------------------------------------------------------------------------ */

/* 0 merged, 1 with conflicts; 2 one of the three is no job. */
int ds_wasm_merge(ds_wasm *const h, const char *const base_at, const size_t base_len,
                  const char *const mine_at, const size_t mine_len, const char *const theirs_at,
                  const size_t theirs_len)
{
    const ds_str sources[] = {{base_at, base_len}, {mine_at, mine_len}, {theirs_at, theirs_len}};
    ds_job jobs[3];
    ds_merge merge = {0};
    ds_problem problem = {0};
    ds_arena arena;
    ds_status status = DS_OK;
    begin(h);
    ds_arena_init(&arena, &h->alloc);
    for (int i = 0; i < 3 && status == DS_OK; i++) {
        status = ds_job_read(&jobs[i], sources[i], &arena, &problem);
    }
    if (status == DS_OK && !ds_merge_trees(&merge, jobs[0].tree, jobs[1].tree, jobs[2].tree, &arena)) {
        status = DS_NO_MEMORY;
    }
    if (status == DS_OK) {
        ds_merge_json(&h->result, &merge);
    }
    const int ended =
        status == DS_OK ? end(h, merge.conflicts_len ? NOT_ALL : FINE) : end_with(h, status, &problem);
    ds_arena_free(&arena);
    return ended;
}

/* --- the rung picture --------------------------------------------------------------------------------------------- */

/* Paper for each form: height in millimetres, large enough for its type. */
static ds_rungs_form rungs_form(const ds_str word, double *const height_mm)
{
    const bool figures = ds_str_is(word, "figures");
    const bool words = ds_str_is(word, "words");
    *height_mm = words ? 80 : figures ? 40 : 6;
    return words ? DS_RUNGS_WORDS : figures ? DS_RUNGS_FIGURES : DS_RUNGS_MARK;
}

/* An empty need or mark is none; form "mark", "figures" or "words". */
int ds_wasm_rungs(ds_wasm *const h, const char *const need_at, const size_t need_len,
                  const char *const mark_at, const size_t mark_len, const char *const form_at,
                  const size_t form_len)
{
    ds_need need = DS_NEED_NOTHING;
    ds_reading reading = {.mark = DS_MARK_SILENT};
    begin(h);
    if (need_len && !ds_need_read((ds_str){need_at, need_len}, &need, &reading)) {
        return end_without_need(h, (ds_str){need_at, need_len}, &reading);
    }
    reading.mark = DS_MARK_SILENT;
    if (mark_len) {
        ds_mark_read((ds_str){mark_at, mark_len}, &reading);
    }
    ds_rungs rungs;
    ds_rungs_of(&rungs, need, reading.mark);
    double height_mm = 0;
    const double width_mm = ds_rungs_aspect(rungs_form((ds_str){form_at, form_len}, &height_mm)) * height_mm;
    ds_arena arena;
    ds_sheet sheet;
    ds_arena_init(&arena, &h->alloc);
    ds_sheet_init(&sheet, &arena, width_mm, height_mm);
    ds_sheet_name(&sheet, DS_STR("rungs"), DS_STR(""), DS_STR(""));
    ds_rungs_paint(&sheet, &rungs, (ds_rungs_frame){.width_mm = width_mm, .height_mm = height_mm});
    const ds_status status = ds_sheet_status(&sheet);
    ds_sheet_svg(&h->result, &sheet);
    ds_arena_free(&arena);
    return end(h, status == DS_OK ? FINE : NO_MEMORY);
}
