/* SPDX-License-Identifier: MIT */
/* dripstone sheet: the findings as a spreadsheet. */
#include "cli/commands.h"
#include "cli/papers.h"
#include "paper/sheet_xlsx.h"

static const ds_option OPTIONS[] = {
    {"for", 0, "READER", "client, fitter, buyer, inspector, or all (default): which sheets"},
    {"output", 'o', "FILE", "write to this file (needed; - for standard output)"},
    {"force", 0, NULL, "replace an existing file"},
    DS_ASSESSED_OPTIONS,
    {0},
};

static int fail(ds_assessed *const a, const ds_xlsx_status status)
{
    if (status == DS_XLSX_NO_MEMORY) {
        return ds_host_fail_memory(a->host);
    }
    if (status == DS_XLSX_TOO_LONG) {
        return ds_host_fail(a->host, "the job has more points than a sheet has rows.", (ds_str){0},
                            "\n  Split the job into several files.");
    }
    return ds_host_fail(a->host, "the folder for temporary files is full or cannot be written to.",
                        (ds_str){0}, "\n  Make room there, or name another one in TMPDIR.");
}

static int write(ds_assessed *const a, const ds_reader_kind reader)
{
    ds_text xlsx;
    ds_text_init(&xlsx, a->host->alloc);
    const ds_xlsx_status made = ds_xlsx_write(&xlsx, &a->findings, reader);
    const int status = made == DS_XLSX_DONE ? ds_papers_put(a->host, a->args, DS_OK, &xlsx) : fail(a, made);
    ds_text_free(&xlsx);
    return status;
}

static int run(ds_host *const host, const ds_args *const args)
{
    ds_reader_kind reader;
    if (args->words_len != 1) {
        return ds_fail_usage(host, &DS_SHEET, "sheet takes one job file, or - for standard input.");
    }
    if (!ds_args_value(args, "output").at) {
        return ds_fail_usage(host, &DS_SHEET, "name the file to write with -o.");
    }
    if (!ds_papers_read_reader(&reader, host, args) || !ds_papers_ready(host)) {
        return DS_EXIT_UNREADABLE;
    }
    ds_assessed a;
    const int status = ds_assessed_open(&a, host, args) ? write(&a, reader) : DS_EXIT_UNREADABLE;
    ds_assessed_close(&a);
    return status;
}

const ds_command DS_SHEET = {
    .name = "sheet",
    .usage = "JOB -o FILE.xlsx [--for READER] [--force]",
    .summary = "the findings as a spreadsheet with filters",
    .help =
        "Writes a book with a sheet for each reader, one with everything, and one that says what it goes by. "
        "Heads stay "
        "in sight and filter; figures are numbers; no cell is a formula; the same job gives the same bytes.\n"
        "\n"
        "Exit status: 0 written; 2 the job could not be read or the file was not written. A job with points "
        "that do "
        "not fit is written all the same.\n"
        "\n"
        "  dripstone sheet mill.json -o mill.xlsx\n"
        "  dripstone sheet mill.json --for fitter -o mill-fitter.xlsx\n",
    .options = OPTIONS,
    .run = run,
};
