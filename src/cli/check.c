/* SPDX-License-Identifier: MIT */
/* dripstone check: a job against its rules, as a page, JSON or CSV, or one point fully. */
#include "cli/check.h"
#include "cli/commands.h"
#include "cli/rulebook.h"
#include "core/assess/render.h"

static const ds_option OPTIONS[] = {
    {"json", 0, NULL, "findings as JSON"},
    {"csv", 0, NULL, "one row a point, for a spreadsheet"},
    {"explain", 0, "POINT", "one point fully: picture, reasons with clause and source, what is still open"},
    {"pack", 0, "FILE", "also read this rule pack; the job must name it in \"rules\" (may be repeated)"},
    {"words", 0, "FILE", "also read these words (may be repeated)"},
    {0},
};

/* What a check stands on, freed together. */
typedef struct check {
    ds_host *host;
    const ds_args *args;
    ds_book *book;
    ds_file file;
    ds_arena arena;
    ds_job job;
    ds_findings findings;
} check;

static bool accept(check *const c, const ds_status status, const ds_problem *const problem)
{
    if (status == DS_NO_MEMORY) {
        ds_host_fail_memory(c->host);
    } else if (status == DS_BAD_INPUT) {
        ds_host_fail_at(c->host, c->file.name, problem);
    }
    return status == DS_OK;
}

/* False when it was said why nothing can be judged. */
static bool assess(check *const c)
{
    ds_problem problem = {0};
    return ds_file_read(&c->file, c->host, ds_args_word(c->args, 0)) &&
           (c->book = ds_book_open(c->host, c->args, "pack")) != NULL &&
           accept(c, ds_job_read(&c->job, (ds_str){c->file.at, c->file.len}, &c->arena, &problem),
                  &problem) &&
           accept(c, ds_assess(&c->findings, &c->job, &c->book->rules, &c->arena, &problem), &problem);
}

/* A pack that was handed over but is not named would silently not count. */
static void note_unused_packs(const check *const c)
{
    const ds_rulebook *const rules = &c->book->rules;
    for (size_t i = c->book->own_packs; i < rules->packs_len; i++) {
        bool used = false;
        for (size_t j = 0; j < c->findings.packs_len; j++) {
            used = used || c->findings.packs[j] == &rules->packs[i];
        }
        if (!used) {
            ds_host_fail(c->host, "note: the job does not name the pack", rules->packs[i].id,
                         " in \"rules\", so it was not used.");
        }
    }
}

/* --- one point ---------------------------------------------------------------------------------------------------- */

static int fail_point(const check *const c, const ds_str id)
{
    ds_str *const ids =
        c->host->alloc->resize(c->host->alloc->ctx, NULL, 0, (c->findings.points_len + 1) * sizeof *ids);
    for (size_t i = 0; ids && i < c->findings.points_len; i++) {
        ids[i] = c->findings.points[i].point->id;
    }
    ds_fail_unknown(c->host, "the job has no point", id, ids, ids ? c->findings.points_len : 0,
                    "dripstone check without --explain lists them.");
    c->host->alloc->resize(c->host->alloc->ctx, ids, 0, 0);
    return DS_EXIT_UNREADABLE;
}

static int explain(const check *const c, ds_sheet *const sheet, const ds_str id)
{
    bool found = false;
    for (size_t i = 0; i < c->findings.points_len; i++) {
        if (ds_str_eq(c->findings.points[i].point->id, id)) {
            if (found) {
                ds_page_gap(sheet->page);
            }
            ds_check_point(sheet, &c->findings.points[i]);
            found = true;
        }
    }
    return found ? ds_findings_exit(&c->findings) : fail_point(c, id);
}

/* --- forms -------------------------------------------------------------------------------------------------------- */

static bool take(void *const ctx, ds_text *const text)
{
    (void)text; /* it is the host's own */
    return ds_host_drain(ctx);
}

static int print_page(const check *const c)
{
    ds_page page;
    ds_page_open(&page, c->host, c->args);
    ds_sheet sheet = {.page = &page, .findings = &c->findings, .file = c->file.name};
    ds_text_init(&sheet.say, c->host->alloc);
    int status = ds_findings_exit(&c->findings);
    if (ds_args_has(c->args, "explain")) {
        status = explain(c, &sheet, ds_args_value(c->args, "explain"));
    } else {
        ds_check_job(&sheet);
    }
    page.line.failed = page.line.failed || !ds_text_ok(&sheet.say);
    ds_text_free(&sheet.say);
    ds_page_close(&page);
    return status;
}

static int print(const check *const c)
{
    const ds_drain drain = {take, c->host};
    if (ds_args_has(c->args, "json")) {
        ds_findings_json(&c->host->out, &c->findings, &drain);
    } else if (ds_args_has(c->args, "csv")) {
        ds_findings_csv(&c->host->out, &c->findings, &drain);
    } else {
        return print_page(c);
    }
    return ds_findings_exit(&c->findings);
}

static int run(ds_host *const host, const ds_args *const args)
{
    if (args->words_len != 1) {
        return ds_fail_usage(host, &DS_CHECK, "check takes one job file, or - for standard input.");
    }
    if (ds_args_has(args, "json") + ds_args_has(args, "csv") + ds_args_has(args, "explain") > 1) {
        return ds_fail_usage(host, &DS_CHECK, "--json, --csv and --explain exclude each other.");
    }
    check c = {.host = host, .args = args};
    ds_arena_init(&c.arena, host->alloc);
    int status = DS_EXIT_UNREADABLE;
    if (assess(&c)) {
        note_unused_packs(&c);
        status = print(&c);
    }
    ds_arena_free(&c.arena);
    ds_book_close(c.book, host);
    ds_file_free(&c.file, host);
    return status;
}

const ds_command DS_CHECK = {
    .name = "check",
    .usage = "JOB [--json | --csv | --explain POINT] [OPTION]...",
    .summary = "judge every point of a job, and say why",
    .help = "Reads a job document (a file, or - for standard input) and answers for every point: what it "
            "must keep out, "
            "whether the goods offered are shown to do so, and what to do where they are not.\n"
            "\n"
            "Verdicts, worst first: barred (a rule that no code cures), short (falls short), unknown (not "
            "shown: never a "
            "pass), fits.\n"
            "\n"
            "Exit status: 0 every point fits; 1 some point does not, or there is none; 2 the job could not "
            "be read.\n"
            "\n"
            "  dripstone check mill.json\n"
            "  dripstone check mill.json --explain P7\n"
            "  dripstone check mill.json --csv > mill.csv\n",
    .options = OPTIONS,
    .run = run,
};
