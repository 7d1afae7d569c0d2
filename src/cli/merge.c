/* SPDX-License-Identifier: MIT */
/* dripstone merge: two versions of a job into one, by what each has changed since they were the same. */
#include "cli/commands.h"
#include "cli/page.h"
#include "core/job/job.h"
#include "core/job/merge.h"

static const ds_option OPTIONS[] = {
    {"output", 'o', "FILE", "write to this file instead of standard output; an existing one is left alone"},
    {"force", 0, NULL, "with -o: replace an existing file"},
    {"json", 0, NULL, "the merged document and the conflicts as one JSON object"},
    {0},
};

enum { BASE, MINE, THEIRS, VERSIONS, VALUE_BYTES = 160 };

/* The three files and the merge, opened and closed together. */
typedef struct merging {
    ds_host *host;
    const ds_args *args;
    ds_file files[VERSIONS];
    ds_job jobs[VERSIONS];
    ds_arena arena;
    ds_merge merge;
} merging;

static bool read_version(merging *const m, const int which)
{
    ds_file *const file = &m->files[which];
    ds_problem problem = {0};
    if (!ds_file_read(file, m->host, ds_args_word(m->args, which))) {
        return false;
    }
    const ds_status status = ds_job_read(&m->jobs[which], (ds_str){file->at, file->len}, &m->arena, &problem);
    if (status == DS_NO_MEMORY) {
        ds_host_fail_memory(m->host);
    } else if (status == DS_BAD_INPUT) {
        ds_host_fail_at(m->host, file->name, &problem);
    }
    return status == DS_OK;
}

static bool open_all(merging *const m)
{
    for (int i = 0; i < VERSIONS; i++) {
        if (!read_version(m, i)) {
            return false;
        }
    }
    const bool merged =
        ds_merge_trees(&m->merge, m->jobs[BASE].tree, m->jobs[MINE].tree, m->jobs[THEIRS].tree, &m->arena);
    if (!merged) {
        ds_host_fail_memory(m->host);
    }
    return merged;
}

static void close_all(merging *const m)
{
    ds_arena_free(&m->arena);
    for (int i = 0; i < VERSIONS; i++) {
        ds_file_free(&m->files[i], m->host);
    }
}

/* --- conflicts ------------------------------------------------------------------------------------------------------ */

/* What the writer sets in several lines, in one: only between values does it begin a line. */
static void unfold(ds_text *const text)
{
    size_t len = 0;
    for (size_t i = 0; i < text->len; i++) {
        const bool begins_line = text->at[i] == '\n';
        if (begins_line) {
            text->at[i] = ' ';
        }
        text->at[len++] = text->at[i];
        while (begins_line && i + 1 < text->len && text->at[i + 1] == ' ') {
            i++;
        }
    }
    text->len = len;
}

/* At most so many bytes, whole characters. */
static ds_str shortened(const ds_str text)
{
    size_t len = text.len < VALUE_BYTES ? text.len : VALUE_BYTES;
    while (len < text.len && len > 0 && ((unsigned char)text.at[len] & 0xC0) == 0x80) {
        len--;
    }
    return (ds_str){text.at, len};
}

static void say_value(ds_host *const host, const char *const label, const ds_json *const value)
{
    ds_text text;
    ds_text_init(&text, host->alloc);
    if (value) {
        ds_json_writer w = ds_json_writer_on(&text);
        ds_json_put_tree(&w, value);
        unfold(&text);
    } else {
        ds_text_add(&text, "(not there)");
    }
    const ds_str words = shortened(ds_text_str(&text));
    ds_text_add(&host->err, label);
    ds_clean(&host->err, words, host->ascii);
    ds_clean(&host->err, words.len < text.len ? DS_STR(" …") : DS_STR(""), host->ascii);
    ds_text_char(&host->err, '\n');
    host->err.failed = host->err.failed || !ds_text_ok(&text);
    ds_text_free(&text);
}

static void say_conflict(ds_host *const host, const ds_merged *const conflict)
{
    ds_text text;
    ds_text_init(&text, host->alloc);
    ds_merge_say(&text, conflict);
    ds_text_add(&host->err, "  ");
    ds_clean(&host->err, ds_text_str(&text), host->ascii);
    ds_text_char(&host->err, '\n');
    host->err.failed = host->err.failed || !ds_text_ok(&text);
    ds_text_free(&text);
    say_value(host, "    base    ", conflict->base);
    say_value(host, "    mine    ", conflict->mine);
    say_value(host, "    theirs  ", conflict->theirs);
}

static void say_conflicts(ds_host *const host, const ds_merge *const merge)
{
    ds_text_add(&host->err, "dripstone: ");
    ds_text_int(&host->err, (int64_t)merge->conflicts_len);
    ds_text_add(&host->err, merge->conflicts_len == 1 ? " conflict" : " conflicts");
    ds_text_add(&host->err, "; mine stands in the document until you have chosen.\n");
    for (const ds_merged *at = merge->conflicts; at; at = at->next_conflict) {
        say_conflict(host, at);
    }
}

/* --- output --------------------------------------------------------------------------------------------------------- */

static void put(const merging *const m, ds_text *const out)
{
    (ds_args_has(m->args, "json") ? ds_merge_json : ds_merge_document)(out, &m->merge);
}

static bool write_out(merging *const m)
{
    if (!ds_args_has(m->args, "output")) {
        put(m, &m->host->out);
        return true;
    }
    ds_text text;
    ds_text_init(&text, m->host->alloc);
    put(m, &text);
    bool written = false;
    if (ds_text_ok(&text)) {
        written = ds_file_write(m->host, ds_args_value(m->args, "output"), ds_text_str(&text),
                                ds_args_has(m->args, "force"));
    } else {
        ds_host_fail_memory(m->host);
    }
    ds_text_free(&text);
    return written;
}

static int run(ds_host *const host, const ds_args *const args)
{
    if (args->words_len != VERSIONS) {
        return ds_fail_usage(host, &DS_MERGE,
                             "merge takes three job files: the one both began with, mine, theirs.");
    }
    merging m = {.host = host, .args = args};
    ds_arena_init(&m.arena, host->alloc);
    int status = DS_EXIT_UNREADABLE;
    if (open_all(&m) && write_out(&m)) {
        status = m.merge.conflicts_len ? DS_EXIT_NOT_ALL : DS_EXIT_FINE;
        if (m.merge.conflicts_len) {
            say_conflicts(host, &m.merge);
        }
    }
    close_all(&m);
    return status;
}

const ds_command DS_MERGE = {
    .name = "merge",
    .usage = "BASE MINE THEIRS [-o FILE [--force]] [--json]",
    .summary = "join what two people changed in one job",
    .help = "BASE is the job that both began with, MINE and THEIRS are what became of it. What one side "
            "changed is "
            "taken; what both changed differently is a conflict: it is listed on standard error side by "
            "side, and "
            "mine stands in the document until you have chosen.\n"
            "\n"
            "Places, points and all else with an \"id\" are paired by it, so order does not matter. A clean "
            "merge "
            "is no check: run dripstone check afterwards.\n"
            "\n"
            "Exit status: 0 merged; 1 merged with conflicts; 2 a file could not be read or written.\n"
            "\n"
            "  dripstone merge monday.json mine.json theirs.json -o job.json\n"
            "  dripstone merge monday.json mine.json theirs.json --json\n",
    .options = OPTIONS,
    .run = run,
};
