/* SPDX-License-Identifier: MIT */
/* dripstone labels: sheets of adhesive labels, one a piece. */
#include "cli/commands.h"
#include "cli/papers.h"

static const ds_option OPTIONS[] = {
    {"grid", 0, "COLUMNSxROWS", "labels on a sheet; 3x8 is the default"},
    {"label", 0, "WIDTHxHEIGHT", "of a label in mm; 70x37 is the default"},
    {"corner", 0, "LEFTxTOP",
     "of the first label in mm; the grid stands in the middle of the sheet otherwise"},
    {"gap", 0, "ACROSSxDOWN", "between labels in mm"},
    {"skip", 0, "NUMBER", "labels of the first sheet that are used up"},
    {"size", 0, "a4|letter", "of the sheet; a4 is the default"},
    {"output", 'o', "FILE", "write to this file (needed; - for standard output)"},
    {"force", 0, NULL, "replace an existing file"},
    DS_ASSESSED_OPTIONS,
    {0},
};

static void fail_word(ds_host *const host, const ds_args *const args, const char *const name)
{
    ds_text say;
    ds_text_init(&say, host->alloc);
    ds_text_add(&say, "--");
    ds_text_add(&say, name);
    ds_text_add(&say, strcmp(name, "skip") == 0 ? " takes a number of labels, not"
                                                : " takes two numbers as in 70x37, not");
    ds_text_char(&say, '\0');
    ds_host_fail(host, ds_text_ok(&say) ? say.at : "not two numbers:", ds_args_value(args, name), ".");
    ds_text_free(&say);
}

static bool read_sheet(ds_label_sheet *const out, ds_host *const host, const ds_args *const args)
{
    const ds_label_words words = {.grid = ds_args_value(args, "grid"),
                                  .label = ds_args_value(args, "label"),
                                  .corner = ds_args_value(args, "corner"),
                                  .gap = ds_args_value(args, "gap"),
                                  .skip = ds_args_value(args, "skip")};
    const char *const odd = ds_label_sheet_read(out, &words);
    if (odd) {
        fail_word(host, args, odd);
    }
    if (odd || !ds_papers_read_size(&out->size, host, args)) {
        return false;
    }
    const char *const fault = ds_label_sheet_fault(out);
    if (fault) {
        ds_host_fail(host, fault, (ds_str){0},
                     ".\n  Give --grid COLUMNSxROWS and --label WIDTHxHEIGHT in mm.");
    }
    return !fault;
}

static int write(ds_assessed *const a, const ds_label_sheet *const sheet)
{
    ds_text pdf;
    ds_text_init(&pdf, a->host->alloc);
    const ds_status made = ds_labels_write(&pdf, &a->findings, sheet);
    const int status =
        made == DS_BAD_INPUT
            ? ds_host_fail(a->host,
                           "the job has more than 100000 pieces; that is more labels than one file takes.",
                           (ds_str){0}, "\n  Split the job into several files.")
            : ds_papers_put(a->host, a->args, made, &pdf);
    ds_text_free(&pdf);
    return status;
}

static int run(ds_host *const host, const ds_args *const args)
{
    ds_label_sheet sheet;
    if (args->words_len != 1) {
        return ds_fail_usage(host, &DS_LABELS, "labels takes one job file, or - for standard input.");
    }
    if (!ds_args_value(args, "output").at) {
        return ds_fail_usage(host, &DS_LABELS, "name the file to write with -o.");
    }
    if (!read_sheet(&sheet, host, args) || !ds_papers_ready(host)) {
        return DS_EXIT_UNREADABLE;
    }
    ds_assessed a;
    const int status = ds_assessed_open(&a, host, args) ? write(&a, &sheet) : DS_EXIT_UNREADABLE;
    ds_assessed_close(&a);
    return status;
}

const ds_command DS_LABELS = {
    .name = "labels",
    .usage = "JOB -o FILE.pdf [--grid 3x8] [--label 70x37] [OPTION]...",
    .summary = "sheets of adhesive labels, one a piece, with a code to scan",
    .help =
        "Sets sheets of labels by their measures: so many columns and rows of labels, so many millimetres "
        "wide and "
        "high. A label says point, what is needed and marked or installed, not to drill, the job's date, and "
        "carries a code to scan: dripstone, the point's id and the first 16 digits of the job's SHA-256.\n"
        "\n"
        "Print at full size, not fitted to the page.\n"
        "\n"
        "Exit status: 0 written; 2 the job could not be read, the labels do not fit the sheet, or the file "
        "was not "
        "written.\n"
        "\n"
        "  dripstone labels mill.json -o labels.pdf\n"
        "  dripstone labels mill.json --grid 2x7 --label 99.1x38.1 --skip 3 -o labels.pdf\n",
    .options = OPTIONS,
    .run = run,
};
