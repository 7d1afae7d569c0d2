/* SPDX-License-Identifier: MIT */
/*
 * dripstone new: a job document to start from. It holds one place and one point with every question still open, so that
 * its check shows what is to be answered, and nothing passes before it is.
 */
#include "cli/commands.h"
#include "cli/page.h"
#include "cli/rulebook.h"
#include "core/job/job.h"
#include "core/json/write.h"

#include <time.h>

static const ds_option OPTIONS[] = {
    {"output", 'o', "FILE", "write to this file instead of standard output; an existing one is left alone"},
    {"force", 0, NULL, "with -o: replace an existing file"},
    {"rules", 0, "PACK", "rule pack to go by, iec unless said otherwise (may be repeated)"},
    {"date", 0, "DATE", "date of the job as year-month-day, today unless said otherwise"},
    {0},
};

static void put(ds_json_writer *const w, const char *const key, const char *const value)
{
    ds_json_put_key(w, key);
    ds_json_put_text(w, value);
}

static void put_empty_list(ds_json_writer *const w, const char *const key)
{
    ds_json_put_key(w, key);
    ds_json_begin_array(w);
    ds_json_end_array(w);
}

static void put_place(ds_json_writer *const w)
{
    ds_json_put_key(w, "places");
    ds_json_begin_array(w);
    ds_json_begin_object(w);
    put(w, "id", "place-1");
    put(w, "name", "First place");
    put(w, "kind", "dwelling-room");
    put(w, "setting", "indoors");
    put_empty_list(w, "seen");
    put_empty_list(w, "absent");
    ds_json_end_object(w);
    ds_json_end_array(w);
}

static void put_point(ds_json_writer *const w)
{
    ds_json_put_key(w, "points");
    ds_json_begin_array(w);
    ds_json_begin_object(w);
    put(w, "id", "P1");
    put(w, "place", "place-1");
    put(w, "name", "First point");
    put(w, "kind", "socket-outlet");
    put_empty_list(w, "marked");
    ds_json_end_object(w);
    ds_json_end_array(w);
}

static void put_rules(ds_json_writer *const w, const ds_args *const args)
{
    ds_json_put_key(w, "rules");
    ds_json_begin_array(w);
    for (int i = 0; i < args->given_len; i++) {
        if (strcmp(args->given[i].option->name, "rules") == 0) {
            ds_json_put_str(w, args->given[i].value);
        }
    }
    if (!ds_args_has(args, "rules")) {
        ds_json_put_text(w, "iec");
    }
    ds_json_end_array(w);
}

static void put_job(ds_text *const out, const ds_args *const args, const ds_str date)
{
    ds_json_writer w = ds_json_writer_on(out);
    ds_json_begin_object(&w);
    ds_json_put_key(&w, "dripstone");
    ds_json_put_int(&w, 1);
    ds_json_put_key(&w, "title");
    ds_json_put_str(&w, args->words_len ? ds_args_word(args, 0) : DS_STR("New job"));
    put_rules(&w, args);
    ds_json_put_key(&w, "date");
    ds_json_put_str(&w, date);
    put_place(&w);
    put_point(&w);
    ds_json_end_object(&w);
    ds_text_char(out, '\n');
}

static void say_written(ds_host *const host, const ds_str name)
{
    ds_text_add(&host->out, "Written: ");
    ds_clean(&host->out, name, host->ascii);
    ds_text_add(
        &host->out,
        "\nNext: fill in places and points (dripstone seen lists the words), then\n  dripstone check ");
    ds_clean(&host->out, name, host->ascii);
    ds_text_char(&host->out, '\n');
}

static int write_job(ds_host *const host, const ds_args *const args, const ds_str date)
{
    if (!ds_args_has(args, "output")) {
        put_job(&host->out, args, date);
        return DS_EXIT_FINE;
    }
    const ds_str name = ds_args_value(args, "output");
    ds_text job;
    ds_text_init(&job, host->alloc);
    put_job(&job, args, date);
    int status = DS_EXIT_UNREADABLE;
    if (!ds_text_ok(&job)) {
        ds_host_fail_memory(host);
    } else if (ds_file_write(host, name, ds_text_str(&job), ds_args_has(args, "force"))) {
        say_written(host, name);
        status = DS_EXIT_FINE;
    }
    ds_text_free(&job);
    return status;
}

/* A misspelt pack would only show at the first check. */
static bool note_unknown_packs(ds_host *const host, const ds_args *const args)
{
    ds_book *const book = ds_book_open(host, args, NULL);
    ds_str ids[DS_PACKS_MAX];
    const size_t ids_len = book ? ds_book_pack_ids(book, ids) : 0;
    for (int i = 0; book && i < args->given_len; i++) {
        const ds_given *const given = &args->given[i];
        if (strcmp(given->option->name, "rules") == 0 && !ds_rulebook_pack(&book->rules, given->value)) {
            ds_fail_unknown(host, "note: inside the program there is no rule pack", given->value, ids,
                            ids_len, "A pack of your own is given to check with --pack FILE.");
        }
    }
    ds_book_close(book, host);
    return book != NULL;
}

static int run(ds_host *const host, const ds_args *const args)
{
    char today[16];
    const time_t now = time(NULL);
    const struct tm *const local = localtime(&now);
    ds_str date = ds_args_value(args, "date");
    if (args->words_len > 1) {
        return ds_fail_usage(host, &DS_NEW, "new takes one title; put blanks in quotes.");
    }
    if (args->words_len && !ds_str_is_utf8(ds_args_word(args, 0))) {
        return ds_host_fail(host, "the title", ds_args_word(args, 0), " is not UTF-8 text.");
    }
    if (date.at && !ds_date_is_valid(date)) {
        return ds_host_fail(host, "there is no date", date, ".\n  Write year-month-day, as in 2026-05-04.");
    }
    if (!date.at && local && strftime(today, sizeof today, "%Y-%m-%d", local)) {
        date = ds_str_of(today);
    }
    if (ds_args_has(args, "rules") && !note_unknown_packs(host, args)) {
        return DS_EXIT_UNREADABLE;
    }
    return write_job(host, args, date);
}

const ds_command DS_NEW = {
    .name = "new",
    .usage = "[TITLE] [-o FILE [--force]]",
    .summary = "a job document to start from",
    .help = "Prints a valid job with one place and one point, every question still open: its check lists "
            "what is to be "
            "answered.\n"
            "\n"
            "Exit status: 0; 2 when the file could not be written.\n"
            "\n"
            "  dripstone new \"Mill house\" -o mill.json\n"
            "  dripstone new --rules gb-2022 > job.json\n",
    .options = OPTIONS,
    .run = run,
};
