/* SPDX-License-Identifier: MIT */
/* The options come by name, as on the command line; what is wrong goes back as a problem and its remedy. */
#include "cli/orders.h"

#include "core/answer/answer.h"
#include "core/json/write.h"
#include "paper/sheet_xlsx.h"

/* Everything that an order may say, read. */
typedef struct wanted {
    ds_paper paper;
    ds_label_sheet labels;
} wanted;

static ds_order_end refuse(ds_text *const out, const char *const problem, const char *const remedy)
{
    out->len = 0;
    ds_json_writer w = ds_json_writer_on(out);
    ds_json_begin_object(&w);
    ds_json_put_key(&w, "problem");
    ds_json_put_text(&w, problem);
    ds_json_put_key(&w, "remedy");
    ds_json_put_text(&w, remedy);
    ds_json_end_object(&w);
    ds_text_char(out, '\n');
    return DS_ORDER_REFUSED;
}

static ds_str value_of(const ds_order *const order, const char *const key)
{
    const char *const *const keys = ds_order_form_of(order->kind)->keys;
    size_t i = 0;
    while (i < DS_ORDER_KEYS && keys[i] && strcmp(keys[i], key) != 0) {
        i++;
    }
    return i < DS_ORDER_KEYS ? order->values[i] : (ds_str){0};
}

/* NULL, or what is wrong. */
static const char *read_order(wanted *const out, const ds_order *const order)
{
    const ds_label_words words = {.grid = value_of(order, "grid"),
                                  .label = value_of(order, "label"),
                                  .corner = value_of(order, "corner"),
                                  .gap = value_of(order, "gap"),
                                  .skip = value_of(order, "skip")};
    if (!ds_reader_read(&out->paper.reader, value_of(order, "for"))) {
        return "there is no such reader";
    }
    if (!ds_paper_size_read(&out->paper.size, value_of(order, "size"))) {
        return "there is no such size of paper";
    }
    if (ds_label_sheet_read(&out->labels, &words)) {
        return "a measure of the labels cannot be read";
    }
    out->labels.size = out->paper.size;
    return order->kind == DS_ORDER_LABELS ? ds_label_sheet_fault(&out->labels) : NULL;
}

static ds_order_end end_of(ds_text *const out, const ds_status status)
{
    if (status == DS_BAD_INPUT) {
        return refuse(out, "the job has more pieces than one file of labels takes", "Split the job.");
    }
    return status == DS_OK ? DS_ORDER_FILLED : DS_ORDER_NO_MEMORY;
}

static ds_order_end end_of_book(ds_text *const out, const ds_xlsx_status status)
{
    switch (status) {
    case DS_XLSX_DONE:
        return DS_ORDER_FILLED;
    case DS_XLSX_TOO_LONG:
        return refuse(out, "the job has more points than a sheet has rows", "Split the job.");
    case DS_XLSX_NO_ROOM:
        return DS_ORDER_NO_ROOM;
    default:
        return DS_ORDER_NO_MEMORY;
    }
}

static ds_order_end set(ds_text *const out, const ds_order_kind kind, const wanted *const w,
                        const ds_findings *const findings)
{
    switch (kind) {
    case DS_ORDER_LABELS:
        return end_of(out, ds_labels_write(out, findings, &w->labels));
    case DS_ORDER_SHEET:
        return end_of_book(out, ds_xlsx_write(out, findings, w->paper.reader));
    default:
        return end_of(out, ds_paper_write(out, findings, &w->paper));
    }
}

/* A document read and assessed, by the packs of a line or by its own. */
static ds_status judge(ds_findings *const out, ds_job *const job, const ds_str source, const ds_str packs,
                       const ds_order_desk *const desk, ds_arena *const arena, ds_problem *const problem)
{
    const ds_status status = ds_job_read(job, source, arena, problem);
    if (status != DS_OK) {
        return status;
    }
    if (!ds_answer_use_packs(job, packs, arena)) {
        return DS_NO_MEMORY;
    }
    return ds_assess(out, job, &desk->book->rules, &desk->book->sizes, arena, problem);
}

static ds_order_end end_unjudged(ds_text *const out, const ds_status status, const ds_problem *const problem)
{
    if (status == DS_BAD_INPUT) {
        ds_answer_problem(out, problem);
        return DS_ORDER_REFUSED;
    }
    return DS_ORDER_NO_MEMORY;
}

static ds_order_end fill_with_job(ds_text *const out, const ds_order *const order, const wanted *const w,
                                  const ds_order_desk *const desk, ds_arena *const arena)
{
    ds_job job;
    ds_findings findings;
    ds_problem problem = {0};
    const ds_status status = judge(&findings, &job, order->body, DS_STR(""), desk, arena, &problem);
    return status == DS_OK ? set(out, order->kind, w, &findings) : end_unjudged(out, status, &problem);
}

static ds_order_end fill_with_changes(ds_text *const out, const ds_order *const order, const wanted *const w,
                                      const ds_order_desk *const desk, ds_arena *const arena)
{
    const char *const mark = order->body.len ? memchr(order->body.at, 0x1e, order->body.len) : NULL;
    if (!mark) {
        return refuse(out, "changes are between two documents",
                      "Send both, with the byte 0x1E between them.");
    }
    const ds_str sources[] = {{order->body.at, (size_t)(mark - order->body.at)},
                              ds_str_from(order->body, (size_t)(mark - order->body.at) + 1)};
    const ds_str packs[] = {value_of(order, "before"), value_of(order, "after")};
    ds_job jobs[2];
    ds_findings findings[2];
    ds_problem problem = {0};
    for (int i = 0; i < 2; i++) {
        const ds_status status = judge(&findings[i], &jobs[i], sources[i], packs[i], desk, arena, &problem);
        if (status != DS_OK) {
            return end_unjudged(out, status, &problem);
        }
    }
    ds_differ differ;
    const bool made = ds_differ_make(&differ, &findings[0], &findings[1], arena);
    return made ? end_of(out, ds_changes_write(out, &differ, w->paper.size)) : DS_ORDER_NO_MEMORY;
}

ds_order_end ds_order_fill_here(ds_text *const out, const ds_order *const order, void *const ctx)
{
    const ds_order_desk *const desk = ctx;
    wanted w = {.paper = {.size = DS_PAPER_A4}};
    const char *const fault = read_order(&w, order);
    if (fault) {
        return refuse(out, fault, "See docs/api.md for what each order takes.");
    }
    if (!ds_papers_ready(desk->host)) {
        ds_host_close(desk->host, DS_EXIT_UNREADABLE); /* says why; this process ends */
        return DS_ORDER_FAILED;
    }
    ds_arena arena;
    ds_arena_init(&arena, out->alloc);
    const ds_order_end end = order->kind == DS_ORDER_CHANGES ? fill_with_changes(out, order, &w, desk, &arena)
                                                             : fill_with_job(out, order, &w, desk, &arena);
    ds_arena_free(&arena);
    return end;
}
