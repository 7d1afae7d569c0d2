/* SPDX-License-Identifier: MIT */
/* dripstone box: the box of one point as installed, as a page or a drawing. */
#include "cli/assessed.h"
#include "cli/check.h"
#include "cli/commands.h"
#include "cli/drawing.h"
#include "core/assess/box_json.h"
#include "core/draw/box.h"
#include "core/weather/hours.h"

static const ds_option OPTIONS[] = {
    {"point", 0, "ID", "which point; may be left out when only one has a box"},
    {"svg", 0, NULL, "the drawing: faces unfolded, what sits in each entry, what it leaves"},
    {"output", 'o', "FILE", "write the drawing to this file"},
    {"weather", 0, "FILE", "hourly values (CSV) to run the box through as well"},
    {"json", 0, NULL, "the point's finding as JSON"},
    {"force", 0, NULL, "replace an existing file"},
    DS_ASSESSED_OPTIONS,
    {0},
};

/* Of a point with a box. */
static ds_str boxed_id(const ds_assessed *const a, const size_t index)
{
    return a->job.points[index].box ? a->job.points[index].id : DS_STR("");
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
        ds_host_fail(a->host, "the point has no box:", id, ". docs/box.md says what to write down.");
        found = a->job.points_len;
    } else if (!id.at && len != 1) {
        ds_assessed_fail_choice(a, a->job.points_len, boxed_id,
                                "several points have a box; name one with --point:",
                                "no point of this job has a box: see docs/box.md for what to write down.");
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

/* --- measured hours ----------------------------------------------------------------------------------------------- */

/* A table of hours, and what they do to the box. */
typedef struct hourly {
    bool asked;
    ds_file file;
    ds_through_over over;
} hourly;

/* "dripstone: hours.csv, row 12, column 3: what is wrong", then what to do. */
static void fail_table(const ds_assessed *const a, const hourly *const h, const ds_problem *const problem)
{
    ds_text *const err = &a->host->err;
    ds_text line;
    ds_text_init(&line, a->host->alloc);
    ds_text_adds(&line, h->file.name);
    if (problem->where.line) {
        ds_text_add(&line, ", row ");
        ds_text_int(&line, problem->where.line);
    }
    if (problem->where.column) {
        ds_text_add(&line, ", column ");
        ds_text_int(&line, problem->where.column);
    }
    ds_text_add(&line, ": ");
    ds_problem_say(&line, problem);
    ds_text_add(err, "dripstone: ");
    ds_clean(err, ds_text_str(&line), a->host->ascii);
    ds_text_add(err, line.len && line.at[line.len - 1] == '?' ? "\n" : ".\n");
    ds_text_free(&line);
}

/* False when it was said why there is nothing to run. */
static bool run_hours(hourly *const h, ds_assessed *const a, const ds_finding *const finding)
{
    const ds_str name = ds_args_value(a->args, "weather");
    *h = (hourly){.asked = name.at != NULL};
    if (!h->asked) {
        return true;
    }
    ds_weather weather;
    ds_problem problem;
    if (!ds_file_read(&h->file, a->host, name)) {
        return false;
    }
    const ds_status status =
        ds_weather_read(&weather, (ds_str){h->file.at, h->file.len}, &a->arena, &problem);
    ds_climate climate;
    const bool outdoors = ds_finding_outdoors(finding);
    if (status == DS_BAD_INPUT) {
        fail_table(a, h, &problem);
        return false;
    }
    if (status != DS_OK || ds_climate_of(&climate, finding->point->box, outdoors, &a->arena) != DS_OK) {
        ds_host_fail_memory(a->host);
        return false;
    }
    ds_through_over_solve(&h->over, finding->point->box, &climate.heat_case, outdoors, weather.hours,
                          weather.len);
    return true;
}

static void put_hours(ds_report *const report, const hourly *const h)
{
    enum { INDENT = 2 };
    if (h->asked) {
        ds_report_heading(report, "Weather");
        ds_text_adds(&report->say, h->file.name);
        ds_text_add(&report->say, ", ");
        ds_text_int(&report->say, (int64_t)h->over.hours);
        ds_text_add(&report->say, " hours: ");
        ds_through_say_over(&report->say, &h->over);
        ds_report_take(report, DS_PLAIN);
        ds_page_break(report->page, INDENT, INDENT + 2);
    }
}

/* --- the page ----------------------------------------------------------------------------------------------------- */

static void print(ds_assessed *const a, const size_t point, const hourly *const h)
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
    put_hours(&report, h);
    ds_check_calculation(&report, finding);
    ds_check_cautions(&report);
    page.line.failed = page.line.failed || !ds_text_ok(&report.say);
    ds_text_free(&report.say);
    ds_page_close(&page);
}

static int tell(ds_assessed *const a, const size_t point)
{
    const ds_finding *const finding = &a->findings.points[point];
    hourly h;
    const bool told = run_hours(&h, a, finding);
    if (told && ds_args_has(a->args, "json")) {
        ds_box_json(&a->host->out, &a->findings, point, h.asked ? &h.over : NULL);
    } else if (told) {
        print(a, point, &h);
    }
    ds_file_free(&h.file, a->host);
    return !told ? DS_EXIT_UNREADABLE : finding->verdict == DS_FITS ? DS_EXIT_FINE : DS_EXIT_NOT_ALL;
}

static int run(ds_host *const host, const ds_args *const args)
{
    if (args->words_len != 1) {
        return ds_fail_usage(host, &DS_BOX, "box takes one job file, or - for standard input.");
    }
    const bool drawing = ds_args_has(args, "svg") || ds_args_has(args, "output");
    if (drawing && (ds_args_has(args, "json") || ds_args_has(args, "weather"))) {
        return ds_fail_usage(host, &DS_BOX, "a drawing takes neither --json nor --weather.");
    }
    ds_assessed a;
    int status = DS_EXIT_UNREADABLE;
    if (ds_assessed_open(&a, host, args)) {
        const size_t point = choose_point(&a);
        status = point == a.job.points_len ? DS_EXIT_UNREADABLE : drawing ? draw(&a, point) : tell(&a, point);
    }
    ds_assessed_close(&a);
    return status;
}

const ds_command DS_BOX = {
    .name = "box",
    .usage = "JOB [--point ID] [--weather FILE.csv] [--json | --svg | -o FILE.svg [--force]]",
    .summary = "a point's box as installed: entries, heat, water",
    .help = "Tells of one point's box what its entries and openings leave of the mark, how warm it becomes "
            "inside and what water does to it, with every step of the calculation so that it can be followed "
            "by hand. With --svg or -o it is drawn on an A4 sheet: the faces unfolded, what sits in each "
            "entry, what each leaves and what would restore it, and the day inside where the box states one. "
            "With --weather it is run through hours of your own as well, a day or a year: columns air_c, "
            "humidity_pct, sun_flat_w_m2, sun_wall_w_m2, wind_m_s and clear, a row an hour.\n"
            "\n"
            "Exit status: 0 the point fits, or the drawing was made; 1 it does not fit; 2 the job could not "
            "be read, the point has no box, or the file was not written.\n"
            "\n"
            "  dripstone box farm.json --point B3\n"
            "  dripstone box farm.json --point B3 -o b3.svg\n"
            "  dripstone box farm.json --point B3 --weather year.csv\n",
    .options = OPTIONS,
    .run = run,
};
