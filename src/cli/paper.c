/* SPDX-License-Identifier: MIT */
/* dripstone paper: the findings as a PDF for whoever reads it. */
#include "cli/commands.h"
#include "cli/papers.h"

static const ds_option OPTIONS[] = {
    {"for", 0, "READER", "client, fitter, buyer, inspector, or all (default): which paper"},
    {"size", 0, "a4|letter", "of the pages; a4 is the default"},
    {"output", 'o', "FILE", "write to this file (needed; - for standard output)"},
    {"force", 0, NULL, "replace an existing file"},
    DS_ASSESSED_OPTIONS,
    {0},
};

static int fail_reader(ds_host *const host, const ds_str word)
{
    ds_str words[DS_READERS_LEN];
    for (int i = 0; i < DS_READERS_LEN; i++) {
        words[i] = ds_str_of(ds_reader_word((ds_reader_kind)i));
    }
    return ds_fail_unknown(host, "there is nothing for", word, words, DS_READERS_LEN,
                           "One of: all, client, fitter, buyer, inspector.");
}

bool ds_papers_read_reader(ds_reader_kind *const out, ds_host *const host, const ds_args *const args)
{
    const ds_str word = ds_args_value(args, "for");
    const bool known = ds_reader_read(out, word);
    if (!known) {
        fail_reader(host, word);
    }
    return known;
}

bool ds_papers_read_size(ds_paper_size *const out, ds_host *const host, const ds_args *const args)
{
    const ds_str word = ds_args_value(args, "size");
    const bool known = ds_paper_size_read(out, word);
    if (!known) {
        ds_host_fail(host, "there is no size of paper", word, ".\n  Say a4 or letter.");
    }
    return known;
}

int ds_papers_put(ds_host *const host, const ds_args *const args, const ds_status status,
                  const ds_text *const file)
{
    const ds_str name = ds_args_value(args, "output");
    if (status != DS_OK) {
        return ds_host_fail_memory(host);
    }
    if (ds_str_is(name, "-")) {
        ds_text_adds(&host->out, ds_text_str(file));
        return DS_EXIT_FINE;
    }
    const bool force = ds_args_has(args, "force");
    return ds_file_write(host, name, ds_text_str(file), force) ? DS_EXIT_FINE : DS_EXIT_UNREADABLE;
}

static int write(ds_assessed *const a, const ds_paper *const paper)
{
    ds_text pdf;
    ds_text_init(&pdf, a->host->alloc);
    const int status = ds_papers_put(a->host, a->args, ds_paper_write(&pdf, &a->findings, paper), &pdf);
    ds_text_free(&pdf);
    return status;
}

static int run(ds_host *const host, const ds_args *const args)
{
    ds_paper paper;
    if (args->words_len != 1) {
        return ds_fail_usage(host, &DS_PAPER, "paper takes one job file, or - for standard input.");
    }
    if (!ds_args_value(args, "output").at) {
        return ds_fail_usage(host, &DS_PAPER, "name the file to write with -o.");
    }
    if (!ds_papers_read_reader(&paper.reader, host, args) || !ds_papers_read_size(&paper.size, host, args) ||
        !ds_papers_ready(host)) {
        return DS_EXIT_UNREADABLE;
    }
    ds_assessed a;
    const int status = ds_assessed_open(&a, host, args) ? write(&a, &paper) : DS_EXIT_UNREADABLE;
    ds_assessed_close(&a);
    return status;
}

const ds_command DS_PAPER = {
    .name = "paper",
    .usage = "JOB -o FILE.pdf [--for READER] [--size a4|letter] [--force]",
    .summary = "the findings as a PDF: for client, fitter, buyer, inspector or all",
    .help = "Sets a paper for one reader, or all of them in one file: cover, summary, schedule by place, "
            "reasons with "
            "their sources, plans to scale, boxes, questions, and what keeps the rating. Reads well in black "
            "and white; "
            "the same job gives the same bytes.\n"
            "\n"
            "  client     what must change, in plain words, and how to keep it\n"
            "  fitter     what to put right first; each point and box, entry by entry; plans\n"
            "  buyer      quantities by code and kind\n"
            "  inspector  need, evidence, what was found, and room to write\n"
            "\n"
            "Exit status: 0 written; 2 the job could not be read or the file was not written. A job with "
            "points that do "
            "not fit is written all the same.\n"
            "\n"
            "  dripstone paper mill.json --for fitter -o mill-fitter.pdf\n"
            "  dripstone paper mill.json --size letter -o mill.pdf\n",
    .options = OPTIONS,
    .run = run,
};
