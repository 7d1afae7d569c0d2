/* SPDX-License-Identifier: MIT */
/* dripstone box: the box of one point as installed, as a page or a drawing. */
#include "cli/assessed.h"
#include "cli/check.h"
#include "cli/commands.h"
#include "cli/drawing.h"
#include "core/draw/box.h"

static const ds_option OPTIONS[] = {
    {"point", 0, "ID", "which point; may be left out when only one has a box"},
    {"svg", 0, NULL, "the drawing: faces unfolded, what sits in each entry, what it leaves"},
    {"output", 'o', "FILE", "write the drawing to this file"},
    {"force", 0, NULL, "replace an existing file"},
    DS_ASSESSED_OPTIONS,
    {0},
};

static int fail_choice(const ds_assessed *const a)
{
    ds_text ids;
    ds_text_init(&ids, a->host->alloc);
    for (size_t i = 0; i < a->job.points_len; i++) {
        if (a->job.points[i].box) {
            ds_text_add(&ids, ids.len ? ", " : "");
            ds_text_adds(&ids, a->job.points[i].id);
        }
    }
    if (ids.len) {
        ds_host_fail(a->host, "several points have a box; name one with --point:", ds_text_str(&ids), "");
    } else {
        ds_host_fail(a->host, "no point of this job has a box: see docs/box.md for what to write down.",
                     (ds_str){0}, "");
    }
    ds_text_free(&ids);
    return DS_EXIT_UNREADABLE;
}

/* The point asked for, or the only one with a box; points_len when it was said why there is none. */
static size_t choose_point(const ds_assessed *const a)
{
    const ds_str id = ds_args_value(a->args, "point");
    size_t found = a->job.points_len;
    size_t len = 0;
    for (size_t i = a->job.points_len; i-- > 0;) {
        if (id.at ? ds_str_eq(a->job.points[i].id, id) : a->job.points[i].box != NULL) {
            found = i;
            len++;
        }
    }
    if (id.at && !len) {
        ds_assessed_fail_point(a, id);
    } else if (id.at && !a->job.points[found].box) {
        ds_host_fail(a->host, "the point has no box:", id, " docs/box.md says what to write down.");
        found = a->job.points_len;
    } else if (!id.at && len != 1) {
        fail_choice(a);
        found = a->job.points_len;
    }
    return found;
}

static int draw(ds_assessed *const a, const size_t point)
{
    ds_sheet sheet;
    const ds_status status = ds_box_sheet_of(&sheet, &a->findings, point, &a->arena);
    return ds_drawing_put(a, &sheet, status, "the box cannot be drawn: its figures go beyond a sheet.");
}

static int print(ds_assessed *const a, const size_t point)
{
    const ds_finding *const finding = &a->findings.points[point];
    ds_page page;
    ds_page_open(&page, a->host, a->args);
    ds_report report = {.page = &page, .findings = &a->findings, .file = a->file.name};
    ds_text_init(&report.say, a->host->alloc);
    ds_report_point(&report, finding);
    ds_report_answer(&report, finding);
    ds_check_notices(&report);
    ds_page_gap(&page);
    ds_check_protections(&report, finding);
    ds_check_remarks(&report, finding);
    ds_check_calculation(&report, finding);
    ds_check_cautions(&report);
    page.line.failed = page.line.failed || !ds_text_ok(&report.say);
    ds_text_free(&report.say);
    ds_page_close(&page);
    return finding->verdict == DS_FITS ? DS_EXIT_FINE : DS_EXIT_NOT_ALL;
}

static int run(ds_host *const host, const ds_args *const args)
{
    if (args->words_len != 1) {
        return ds_fail_usage(host, &DS_BOX, "box takes one job file, or - for standard input.");
    }
    ds_assessed a;
    int status = DS_EXIT_UNREADABLE;
    if (ds_assessed_open(&a, host, args)) {
        const bool drawn = ds_args_has(args, "svg") || ds_args_has(args, "output");
        const size_t point = choose_point(&a);
        status = point == a.job.points_len ? DS_EXIT_UNREADABLE : drawn ? draw(&a, point) : print(&a, point);
    }
    ds_assessed_close(&a);
    return status;
}

const ds_command DS_BOX = {
    .name = "box",
    .usage = "JOB [--point ID] [--svg | -o FILE.svg [--force]]",
    .summary = "a point's box as installed: entries, heat, water",
    .help = "Tells of one point's box what its entries and openings leave of the mark, how warm it becomes "
            "inside and what water does to it, with every step of the calculation so that it can be followed "
            "by hand. With --svg or -o it is drawn on an A4 sheet: the faces unfolded, what sits in each "
            "entry, what each leaves and what would restore it.\n"
            "\n"
            "Exit status: 0 the point fits, or the drawing was made; 1 it does not fit; 2 the job could not "
            "be read, the point has no box, or the file was not written.\n"
            "\n"
            "  dripstone box farm.json --point B3\n"
            "  dripstone box farm.json --point B3 -o b3.svg\n",
    .options = OPTIONS,
    .run = run,
};
