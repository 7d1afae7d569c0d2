/* SPDX-License-Identifier: MIT */
/* dripstone check: a job against its rules, as a page, JSON or CSV, or one point fully. */
#include "cli/assessed.h"
#include "cli/check.h"
#include "cli/commands.h"
#include "core/assess/render.h"

static const ds_option OPTIONS[] = {
    {"json", 0, NULL, "findings as JSON"},
    {"csv", 0, NULL, "one row a point, for a spreadsheet"},
    {"explain", 0, "POINT", "one point fully: picture, reasons with clause and source, what is still open"},
    DS_ASSESSED_OPTIONS,
    {0},
};

/* --- one point ---------------------------------------------------------------------------------------------------- */

static int explain(const ds_assessed *const c, ds_report *const report, const ds_str id)
{
    bool found = false;
    for (size_t i = 0; i < c->findings.points_len; i++) {
        if (ds_str_eq(c->findings.points[i].point->id, id)) {
            if (found) {
                ds_page_gap(report->page);
            }
            ds_check_point(report, &c->findings.points[i]);
            found = true;
        }
    }
    return found ? ds_findings_exit(&c->findings) : ds_assessed_fail_point(c, id);
}

/* --- forms -------------------------------------------------------------------------------------------------------- */

static bool take(void *const ctx, ds_text *const text)
{
    (void)text; /* it is the host's own */
    return ds_host_drain(ctx);
}

static int print_page(const ds_assessed *const c)
{
    ds_page page;
    ds_page_open(&page, c->host, c->args);
    ds_report report = {.page = &page, .findings = &c->findings, .file = c->file.name};
    ds_text_init(&report.say, c->host->alloc);
    int status = ds_findings_exit(&c->findings);
    if (ds_args_has(c->args, "explain")) {
        status = explain(c, &report, ds_args_value(c->args, "explain"));
    } else {
        ds_check_job(&report);
    }
    page.line.failed = page.line.failed || !ds_text_ok(&report.say);
    ds_text_free(&report.say);
    ds_page_close(&page);
    return status;
}

static int print(const ds_assessed *const c)
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
    ds_assessed c;
    int status = DS_EXIT_UNREADABLE;
    if (ds_assessed_open(&c, host, args)) {
        status = print(&c);
    }
    ds_assessed_close(&c);
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
