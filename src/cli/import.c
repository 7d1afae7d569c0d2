/* SPDX-License-Identifier: MIT */
/* dripstone import: points and places from a spreadsheet saved as CSV into a job. */
#include "cli/commands.h"
#include "cli/page.h"
#include "core/job/import.h"

static const ds_option OPTIONS[] = {
    {"map", 0, "FILE", "which column fills which key, as --save-map wrote it"},
    {"save-map", 0, "FILE", "remember which column fills which key"},
    {"show-map", 0, NULL, "show which column fills which key, and change nothing"},
    {"add-places", 0, NULL, "add places that the job does not have"},
    {"output", 'o', "FILE", "write the job to this file instead of standard output"},
    {"force", 0, NULL, "replace existing files"},
    {"json", 0, NULL, "mapping, faults and job as one JSON document"},
    {0},
};

/* An import with all that it borrows, opened and closed together. */
typedef struct opened {
    ds_host *host;
    const ds_args *args;
    ds_file job_file, table_file, map_file;
    ds_arena arena;
    ds_job job;
    ds_import_map map;
    ds_import import;
} opened;

static bool accept(opened *const o, const ds_file *const file, const ds_status status,
                   const ds_problem *const problem)
{
    if (status == DS_NO_MEMORY) {
        ds_host_fail_memory(o->host);
    } else if (status == DS_BAD_INPUT) {
        ds_host_fail_at(o->host, file->name, problem);
    }
    return status == DS_OK;
}

static ds_str text_of(const ds_file *const file)
{
    return (ds_str){file->at, file->len};
}

static bool open_map(opened *const o, ds_import_how *const how)
{
    ds_problem problem = {0};
    const ds_str name = ds_args_value(o->args, "map");
    if (!name.at) {
        return true;
    }
    how->map = &o->map;
    return ds_file_read(&o->map_file, o->host, name) &&
           accept(o, &o->map_file, ds_import_map_read(&o->map, text_of(&o->map_file), &o->arena, &problem),
                  &problem);
}

/* False when it was said why nothing can be imported; close it all the same. */
static bool open_all(opened *const o, ds_host *const host, const ds_args *const args)
{
    *o = (opened){.host = host, .args = args};
    ds_arena_init(&o->arena, host->alloc);
    ds_problem problem = {0};
    ds_import_how how = {.add_places = ds_args_has(args, "add-places")};
    return ds_file_read(&o->job_file, host, ds_args_word(args, 0)) &&
           ds_file_read(&o->table_file, host, ds_args_word(args, 1)) && open_map(o, &how) &&
           accept(o, &o->job_file, ds_job_read(&o->job, text_of(&o->job_file), &o->arena, &problem),
                  &problem) &&
           accept(o, &o->job_file,
                  ds_import_read(&o->import, &o->job, text_of(&o->table_file), how, &o->arena, &problem),
                  &problem);
}

static void close_all(opened *const o)
{
    ds_arena_free(&o->arena);
    ds_file_free(&o->job_file, o->host);
    ds_file_free(&o->table_file, o->host);
    ds_file_free(&o->map_file, o->host);
}

/* --- faults ------------------------------------------------------------------------------------------------------- */

/* "dripstone: points.csv, row 12, column C (IP rating): what is wrong", then what to do. */
static void say_fault(opened *const o, const ds_problem *const fault)
{
    const uint32_t column = fault->where.column;
    ds_text line;
    ds_text_init(&line, o->host->alloc);
    ds_text_adds(&line, o->table_file.name);
    ds_text_add(&line, ", row ");
    ds_text_int(&line, fault->where.line);
    if (column) {
        ds_text_add(&line, ", column ");
        ds_import_say_column(&line, column);
    }
    if (column && column <= o->import.columns_len && o->import.columns[column - 1].heading.len) {
        ds_text_add(&line, " (");
        ds_text_adds(&line, o->import.columns[column - 1].heading);
        ds_text_char(&line, ')');
    }
    ds_text_add(&line, ": ");
    ds_problem_say(&line, fault);
    ds_text_add(&o->host->err, "dripstone: ");
    ds_clean(&o->host->err, ds_text_str(&line), o->host->ascii);
    ds_text_add(&o->host->err, line.len && line.at[line.len - 1] == '?' ? "\n  " : ".\n  ");
    line.len = 0;
    ds_problem_mend(&line, fault);
    ds_clean(&o->host->err, ds_text_str(&line), o->host->ascii);
    ds_text_char(&o->host->err, '\n');
    ds_text_free(&line);
}

static int fail(opened *const o)
{
    const ds_import *const import = &o->import;
    ds_text *const err = &o->host->err;
    for (size_t i = 0; i < import->faults.len; i++) {
        say_fault(o, &import->faults.at[i]);
    }
    if (import->faults_len > import->faults.len) {
        ds_text_add(err, "dripstone: and ");
        ds_text_int(err, (int64_t)(import->faults_len - import->faults.len));
        ds_text_add(err, " more.\n");
    }
    ds_text_add(err, "dripstone: nothing was imported.\n");
    return DS_EXIT_UNREADABLE;
}

/* --- what was done ------------------------------------------------------------------------------------------------ */

static void say_count(ds_text *const out, const size_t count, const char *const one, const char *const done,
                      const char *const after)
{
    ds_text_int(out, (int64_t)count);
    ds_text_add(out, one);
    ds_text_add(out, count == 1 ? " " : "s ");
    ds_text_add(out, done);
    ds_text_add(out, after);
}

static void say_left_out(ds_host *const host, const ds_import *const import)
{
    bool begun = false;
    for (size_t i = 0; i < import->columns_len; i++) {
        if (!ds_import_column_key(&import->columns[i]).at) {
            ds_text_add(&host->out, begun ? ", " : "Left out: column ");
            ds_import_say_column(&host->out, (uint32_t)i + 1);
            ds_text_add(&host->out, " (");
            ds_clean(&host->out, import->columns[i].heading, host->ascii);
            ds_text_char(&host->out, ')');
            begun = true;
        }
    }
    ds_text_add(&host->out, begun ? ".\n" : "");
}

static void say_done(ds_host *const host, const ds_import *const import, const ds_str name)
{
    ds_text *const out = &host->out;
    ds_text_add(out, "Written: ");
    ds_clean(out, name, host->ascii);
    ds_text_char(out, '\n');
    say_count(out, import->rows, " row", "read: ", "");
    say_count(out, import->points_added, " point", "added", ", ");
    say_count(out, import->points_changed, " point", "changed", ", ");
    say_count(out, import->places_added, " place", "added", ", ");
    say_count(out, import->places_changed, " place", "changed", ".\n");
    say_left_out(host, import);
    ds_text_add(out, "Next:\n  dripstone check ");
    ds_clean(out, name, host->ascii);
    ds_text_char(out, '\n');
}

/* Writes what `write` says to a file. */
static bool put_file(const opened *const o, const ds_str name,
                     void (*const write)(ds_text *, const ds_import *))
{
    ds_text text;
    ds_text_init(&text, o->host->alloc);
    write(&text, &o->import);
    const bool made = ds_text_ok(&text);
    if (!made) {
        ds_host_fail_memory(o->host);
    }
    const bool done = made && ds_file_write(o->host, name, ds_text_str(&text), ds_args_has(o->args, "force"));
    ds_text_free(&text);
    return done;
}

static bool remember(const opened *const o)
{
    const ds_str name = ds_args_value(o->args, "save-map");
    return !name.at || put_file(o, name, ds_import_map_json);
}

static void show_map(const opened *const o)
{
    enum { LETTERS = 4, HEADING = 34, KEY = 30 };
    ds_page page;
    ds_page_open(&page, o->host, o->args);
    for (size_t i = 0; i < o->import.columns_len; i++) {
        const ds_import_column *const column = &o->import.columns[i];
        const ds_str key = ds_import_column_key(column);
        ds_text letters;
        ds_text_init(&letters, o->host->alloc);
        ds_import_say_column(&letters, (uint32_t)i + 1);
        ds_page_cell(&page, DS_PLAIN, ds_text_str(&letters), LETTERS);
        ds_page_cell(&page, DS_PLAIN, column->heading, HEADING);
        ds_page_cell(&page, key.at ? DS_STRONG : DS_QUIET, key.at ? key : DS_STR("left out"), KEY);
        ds_page_row(&page, 0);
        ds_text_free(&letters);
    }
    ds_page_close(&page);
}

static int put_job(const opened *const o)
{
    const ds_str name = ds_args_value(o->args, "output");
    if (!name.at) {
        ds_import_document(&o->host->out, &o->import);
        return DS_EXIT_FINE;
    }
    if (!put_file(o, name, ds_import_document)) {
        return DS_EXIT_UNREADABLE;
    }
    say_done(o->host, &o->import, name);
    return DS_EXIT_FINE;
}

static int import(opened *const o)
{
    if (ds_args_has(o->args, "json")) {
        ds_import_json(&o->host->out, &o->import);
        return o->import.faults_len ? DS_EXIT_NOT_ALL : DS_EXIT_FINE;
    }
    if (ds_args_has(o->args, "show-map")) {
        show_map(o);
    }
    if (o->import.faults_len) {
        return fail(o);
    }
    if (!remember(o)) {
        return DS_EXIT_UNREADABLE;
    }
    return ds_args_has(o->args, "show-map") ? DS_EXIT_FINE : put_job(o);
}

static int run(ds_host *const host, const ds_args *const args)
{
    if (args->words_len != 2) {
        return ds_fail_usage(host, &DS_IMPORT, "import takes a job file and a table; - for standard input.");
    }
    if (ds_str_is(ds_args_word(args, 0), "-") && ds_str_is(ds_args_word(args, 1), "-")) {
        return ds_fail_usage(host, &DS_IMPORT, "only one of the two can be standard input.");
    }
    opened o;
    const int status = open_all(&o, host, args) ? import(&o) : DS_EXIT_UNREADABLE;
    close_all(&o);
    return status;
}

const ds_command DS_IMPORT = {
    .name = "import",
    .usage = "JOB POINTS.csv [-o FILE.json [--force]] [--map FILE] [OPTION]...",
    .summary = "points and places from a spreadsheet saved as CSV",
    .help = "Reads a table with a heading in its first row and a point in each further one, and writes the "
            "job with them. "
            "A row whose id the job has changes that point, any other id adds one; empty cells leave alone. "
            "A heading is "
            "a key of the document (marked.ip, height_m) or a usual name of it (IP rating); --show-map shows "
            "what was "
            "made of each, --save-map and --map remember it.\n"
            "\n"
            "With one fault in the table nothing is written; each is told by row and column.\n"
            "\n"
            "Exit status: 0 written; 2 not; with --json 1 when the table has faults.\n"
            "\n"
            "  dripstone import mill.json points.csv --show-map\n"
            "  dripstone import mill.json points.csv --add-places -o mill-2.json\n",
    .options = OPTIONS,
    .run = run,
};
