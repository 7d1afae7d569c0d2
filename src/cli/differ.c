/* SPDX-License-Identifier: MIT */
/* dripstone differ: two versions of a job, or one job under two rule packs: what changed for every point, and why. */
#include "cli/commands.h"
#include "cli/differ.h"
#include "cli/papers.h"

static const ds_option OPTIONS[] = {
    {"before", 0, "PACK", "judge the first by this rule pack, whatever it names itself (may be repeated)"},
    {"after", 0, "PACK", "judge the second by this rule pack (may be repeated)"},
    {"json", 0, NULL, "the differences as JSON"},
    {"output", 'o', "FILE", "set the differences as a PDF and write it to this file (- for standard output)"},
    {"size", 0, "a4|letter", "of the PDF's pages; a4 is the default"},
    {"force", 0, NULL, "replace an existing file"},
    {"pack", 0, "FILE", "also read this rule pack (may be repeated)"},
    {"words", 0, "FILE", "also read these words (may be repeated)"},
    {0},
};

enum { BEFORE, AFTER, VERSIONS };

static const char *const SIDES[VERSIONS] = {"before", "after"};

/* One document, judged. */
typedef struct version {
    ds_file file;
    ds_job job;
    ds_findings findings;
} version;

typedef struct differing {
    ds_host *host;
    const ds_args *args;
    ds_book *book;
    ds_arena arena;
    version versions[VERSIONS];
    ds_differ differ;
} differing;

static bool accept(const differing *const d, const version *const v, const ds_status status,
                   const ds_problem *const problem)
{
    if (status == DS_NO_MEMORY) {
        ds_host_fail_memory(d->host);
    } else if (status == DS_BAD_INPUT) {
        ds_host_fail_at(d->host, v->file.name, problem);
    }
    return status == DS_OK;
}

/* The packs that the command line gives for one side. False when one does not exist: that is then said. */
static bool packs_of(const differing *const d, const int which, ds_str packs[DS_ARGS_GIVEN],
                     size_t *const len)
{
    *len = 0;
    for (int i = 0; i < d->args->given_len; i++) {
        const ds_given *const given = &d->args->given[i];
        if (strcmp(given->option->name, SIDES[which]) != 0) {
            continue;
        }
        if (!ds_rulebook_pack(&d->book->rules, given->value)) {
            ds_str ids[DS_PACKS_MAX];
            const size_t ids_len = ds_book_pack_ids(d->book, ids);
            ds_fail_unknown(d->host, "there is no rule pack", given->value, ids, ids_len,
                            "See: dripstone rules --packs");
            return false;
        }
        packs[(*len)++] = given->value;
    }
    return true;
}

static ds_status judge(differing *const d, version *const v, const ds_str *const packs, const size_t len,
                       ds_problem *const problem)
{
    const ds_status status = ds_job_read(&v->job, (ds_str){v->file.at, v->file.len}, &d->arena, problem);
    if (status != DS_OK) {
        return status;
    }
    if (len && !ds_differ_use_packs(&v->job, packs, len, &d->arena)) {
        return DS_NO_MEMORY;
    }
    return ds_assess(&v->findings, &v->job, &d->book->rules, &d->book->sizes, &d->arena, problem);
}

/* The last word on the command line is both when it is the only one. */
static bool open_version(differing *const d, const int which)
{
    version *const v = &d->versions[which];
    ds_str packs[DS_ARGS_GIVEN];
    size_t len = 0;
    ds_problem problem = {0};
    const ds_str name = ds_args_word(d->args, which < d->args->words_len ? which : 0);
    return packs_of(d, which, packs, &len) && ds_file_read(&v->file, d->host, name) &&
           accept(d, v, judge(d, v, packs, len, &problem), &problem);
}

static bool open_all(differing *const d)
{
    d->book = ds_book_open(d->host, d->args, "pack");
    if (!d->book || !open_version(d, BEFORE) || !open_version(d, AFTER)) {
        return false;
    }
    const bool made =
        ds_differ_make(&d->differ, &d->versions[BEFORE].findings, &d->versions[AFTER].findings, &d->arena);
    if (!made) {
        ds_host_fail_memory(d->host);
    }
    return made;
}

static void close_all(differing *const d)
{
    ds_arena_free(&d->arena);
    ds_book_close(d->book, d->host);
    for (int i = 0; i < VERSIONS; i++) {
        ds_file_free(&d->versions[i].file, d->host);
    }
}

static void print_page(const differing *const d)
{
    const ds_str files[VERSIONS] = {d->versions[BEFORE].file.name, d->versions[AFTER].file.name};
    ds_page page;
    ds_page_open(&page, d->host, d->args);
    ds_report report = {.page = &page, .findings = d->differ.after, .file = files[AFTER]};
    ds_text_init(&report.say, d->host->alloc);
    ds_differ_page(&report, &d->differ, files);
    page.line.failed = page.line.failed || !ds_text_ok(&report.say);
    ds_text_free(&report.say);
    ds_page_close(&page);
}

static int write_pdf(const differing *const d, const ds_paper_size size)
{
    ds_text pdf;
    ds_text_init(&pdf, d->host->alloc);
    const ds_status made = ds_changes_write(&pdf, &d->differ, size);
    const int written = ds_papers_put(d->host, d->args, made, &pdf);
    ds_text_free(&pdf);
    return written == DS_EXIT_FINE ? ds_differ_exit(&d->differ) : written;
}

/* The differences in the form that was asked for. */
static int show(const differing *const d, const ds_paper_size size)
{
    if (ds_args_value(d->args, "output").at) {
        return write_pdf(d, size);
    }
    if (ds_args_has(d->args, "json")) {
        ds_differ_json(&d->host->out, &d->differ);
    } else {
        print_page(d);
    }
    return ds_differ_exit(&d->differ);
}

/* NULL when the words and options make sense together. */
static const char *misuse(const ds_args *const args)
{
    const bool chosen = ds_args_has(args, "before") || ds_args_has(args, "after");
    if (args->words_len < 1 || args->words_len > VERSIONS) {
        return "differ takes two job files, or one and --before or --after.";
    }
    if (args->words_len == 1 && !chosen) {
        return "one job differs from itself only under other rules: give --before or --after.";
    }
    const bool pdf = ds_args_value(args, "output").at != NULL;
    if (pdf && ds_args_has(args, "json")) {
        return "--json and -o are two forms of the same; give one of them.";
    }
    const bool twice = ds_str_is(ds_args_word(args, 0), "-") &&
                       (args->words_len == 1 || ds_str_is(ds_args_word(args, 1), "-"));
    return twice ? "standard input can be read only once; differ would need it twice." : NULL;
}

static int run(ds_host *const host, const ds_args *const args)
{
    const char *const why = misuse(args);
    if (why) {
        return ds_fail_usage(host, &DS_DIFFER, why);
    }
    ds_paper_size size = DS_PAPER_A4;
    if (!ds_papers_read_size(&size, host, args) ||
        (ds_args_value(args, "output").at && !ds_papers_ready(host))) {
        return DS_EXIT_UNREADABLE;
    }
    differing d = {.host = host, .args = args};
    ds_arena_init(&d.arena, host->alloc);
    const int status = open_all(&d) ? show(&d, size) : DS_EXIT_UNREADABLE;
    close_all(&d);
    return status;
}

const ds_command DS_DIFFER = {
    .name = "differ",
    .usage = "JOB [JOB] [--before PACK] [--after PACK] [--json | -o FILE.pdf]",
    .summary = "what changed between two answers, and why",
    .help = "Judges two versions of a job, or one job under two rule packs, and tells point by point what "
            "changed: "
            "worse first, with the answer before and now, what to do now, and whether the point, its place "
            "or the rules "
            "made the difference.\n"
            "\n"
            "Points and places are paired by id.\n"
            "\n"
            "Exit status: 0 no verdict and no need has changed; 1 some has, or a point came or went; 2 a job "
            "could not "
            "be read, or the file was not written.\n"
            "\n"
            "  dripstone differ handed-over.json today.json\n"
            "  dripstone differ handed-over.json today.json -o changes.pdf\n"
            "  dripstone differ job.json --before gb-2018 --after gb-2022\n",
    .options = OPTIONS,
    .run = run,
};
