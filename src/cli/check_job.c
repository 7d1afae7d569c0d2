/* SPDX-License-Identifier: MIT */
/*
 * The answer for a whole job: first one line that says it all, then the points that do not fit, worst first, each with
 * the fact that decided and what to do; then the points that fit as a table; then what is left to ask and to mend.
 */
#include "cli/check.h"

#include "core/assess/keys.h"

/* --- shared ------------------------------------------------------------------------------------------------------- */

void ds_report_take(ds_report *const report, const ds_style style)
{
    ds_page_adds(report->page, style, ds_text_str(&report->say));
    report->say.len = 0;
}

void ds_report_heading(ds_report *const report, const char *const words)
{
    ds_page_gap(report->page);
    ds_page_add(report->page, DS_STRONG, words);
    ds_page_break(report->page, 0, 0);
}

static bool zone_says_something(const ds_str zone)
{
    return zone.at && !ds_str_is(zone, "not-applicable") && !ds_str_is(zone, "unknown");
}

static void add_place(ds_report *const report, const ds_finding *const finding)
{
    ds_text_adds(&report->say, finding->point->place_id);
    if (zone_says_something(finding->zone)) {
        ds_text_add(&report->say, finding->point->place_id.len ? ", " : "");
        const bool outside = ds_str_is(finding->zone, "outside");
        ds_text_add(&report->say, outside ? "outside the zones" : "zone ");
        ds_text_adds(&report->say, outside ? DS_STR("") : finding->zone);
    }
}

/* Beside the name where there is room for all of it, or else in a row of its own. */
static void put_place(ds_report *const report, const ds_finding *const finding)
{
    add_place(report, finding);
    const int columns = ds_page_columns(report->page, ds_text_str(&report->say));
    int first = 0;
    if (ds_page_line_columns(report->page) + 2 + columns > report->page->width) {
        ds_page_break(report->page, 0, DS_VERDICT_COLUMNS);
        first = DS_VERDICT_COLUMNS;
    } else {
        ds_page_add(report->page, DS_QUIET, "  ");
    }
    ds_report_take(report, DS_QUIET);
    ds_page_break(report->page, first, DS_VERDICT_COLUMNS);
}

void ds_report_point(ds_report *const report, const ds_finding *const finding)
{
    const ds_point *const point = finding->point;
    ds_page_verdict(report->page, finding->verdict);
    ds_page_adds(report->page, DS_STRONG, point->id);
    ds_page_add(report->page, DS_PLAIN, "  ");
    ds_page_adds(report->page, DS_PLAIN, point->name);
    if (point->count > 1) {
        ds_text_add(&report->say, " (");
        ds_text_number(&report->say, point->count, 0);
        ds_text_add(&report->say, " pieces)");
        ds_report_take(report, DS_PLAIN);
    }
    put_place(report, finding);
}

/* Behind the remedy, for whoever writes the document. */
static void put_keys(ds_report *const report, const ds_finding *const finding)
{
    ds_keys keys;
    ds_keys_of(&keys, report->findings, finding);
    for (size_t i = 0; i < keys.len; i++) {
        ds_text_add(&report->say, i ? ", " : " [");
        ds_text_add(&report->say, keys.at[i]);
    }
    ds_text_add(&report->say, keys.len ? "]" : "");
    ds_report_take(report, DS_QUIET);
}

void ds_report_answer(ds_report *const report, const ds_finding *const finding)
{
    ds_say_deciding(&report->say, report->findings, finding);
    ds_report_take(report, DS_PLAIN);
    ds_page_break(report->page, DS_VERDICT_COLUMNS, DS_VERDICT_COLUMNS);
    ds_say_remedy(&report->say, report->findings, finding);
    if (report->say.len) {
        ds_page_shape(report->page, DS_STRONG, report->page->ascii ? "->" : "→");
        ds_page_add(report->page, DS_STRONG, report->page->ascii ? " " : "  ");
        ds_report_take(report, DS_PLAIN);
        put_keys(report, finding);
        ds_page_break(report->page, DS_VERDICT_COLUMNS - 3, DS_VERDICT_COLUMNS);
    }
}

/* --- the first lines ---------------------------------------------------------------------------------------------- */

static void put_headline(ds_report *const report)
{
    const ds_findings *const findings = report->findings;
    const ds_verdict worst = ds_findings_worst(findings);
    ds_page_shape(report->page, ds_verdict_style(worst), ds_verdict_shape(worst, report->page->ascii));
    ds_page_add(report->page, DS_STRONG, " ");
    ds_say_headline(&report->say, findings);
    ds_report_take(report, DS_STRONG);
    ds_page_break(report->page, 0, 2);
}

/* Title, editions and date in one quiet line. */
static void put_subject(ds_report *const report)
{
    const ds_findings *const findings = report->findings;
    ds_text *const say = &report->say;
    ds_text_adds(say, findings->job->title);
    for (size_t i = 0; i < findings->packs_len; i++) {
        ds_text_add(say, say->len ? "; " : "");
        ds_text_adds(say, findings->packs[i]->edition);
    }
    if (findings->job->date.at) {
        ds_text_add(say, say->len ? "; " : "");
        ds_text_adds(say, findings->job->date);
    }
    ds_report_take(report, DS_QUIET);
    ds_page_break(report->page, 2, 2);
}

void ds_check_notices(ds_report *const report)
{
    for (size_t i = 0; i < report->findings->packs_len; i++) {
        if (ds_pack_notice(&report->say, report->findings->packs[i], report->findings->job->date)) {
            ds_page_gap(report->page);
            ds_page_add(report->page, DS_STRONG, "Edition: ");
            ds_report_take(report, DS_PLAIN);
            ds_page_break(report->page, 2, 2);
        }
    }
}

/* --- points that do not fit --------------------------------------------------------------------------------------- */

static bool is_about_marks(const ds_finding *const finding)
{
    return finding->obstacle == DS_OBSTACLE_SHORT || finding->obstacle == DS_OBSTACLE_TEST;
}

/* A label that stays with the first word of what is in report->say. */
static void put_labelled(ds_report *const report, const char *const before, const char *const label)
{
    ds_page_add(report->page, DS_QUIET, before);
    ds_page_add(report->page, DS_QUIET, label);
    ds_page_glue(report->page);
    ds_report_take(report, DS_PLAIN);
}

/* What was asked and offered; for a mark that misses tests the rungs say at a glance which. */
static void put_protections(ds_report *const report, const ds_finding *const finding)
{
    ds_say_needed(&report->say, finding);
    put_labelled(report, "", "needed");
    ds_say_marked(&report->say, finding->point);
    put_labelled(report, "   ", "marked");
    if (is_about_marks(finding) && ds_say_state(&report->say, finding)) {
        put_labelled(report, "   ", "state");
    }
    ds_page_break(report->page, DS_VERDICT_COLUMNS, DS_VERDICT_COLUMNS);
    if (is_about_marks(finding)) {
        ds_rungs rungs;
        ds_rungs_of(&rungs, finding->needed, finding->marked);
        ds_page_rungs_named(report->page, &rungs);
        ds_page_break(report->page, DS_VERDICT_COLUMNS, DS_VERDICT_COLUMNS);
    }
}

static void put_unfit(ds_report *const report, const ds_verdict verdict)
{
    const ds_findings *const findings = report->findings;
    for (size_t i = 0; i < findings->points_len; i++) {
        const ds_finding *const finding = &findings->points[i];
        if (finding->verdict == verdict && ds_host_drain(report->page->host)) {
            ds_page_gap(report->page);
            ds_report_point(report, finding);
            ds_report_answer(report, finding);
            put_protections(report, finding);
        }
    }
}

/* --- points that fit ---------------------------------------------------------------------------------------------- */

enum { FIT_ID, FIT_NAME, FIT_NEEDED, FIT_MARKED, FIT_COLUMNS, FIT_INDENT = 2 };

static const char *const FIT_HEADS[FIT_COLUMNS] = {"point", "", "needed", "marked"};

static void say_fit_name(ds_text *const say, const ds_finding *const finding)
{
    ds_text_adds(say, finding->point->name);
    if (zone_says_something(finding->zone)) {
        const bool outside = ds_str_is(finding->zone, "outside");
        ds_text_add(say, outside ? " (outside the zones)" : " (zone ");
        ds_text_adds(say, outside ? DS_STR("") : finding->zone);
        ds_text_add(say, outside ? "" : ")");
    }
}

/* One cell's text in report->say. */
static void say_fit_cell(ds_report *const report, const ds_finding *const finding, const int column)
{
    if (column == FIT_ID) {
        ds_text_adds(&report->say, finding->point->id);
    } else if (column == FIT_NAME) {
        say_fit_name(&report->say, finding);
    } else if (column == FIT_NEEDED) {
        ds_say_needed(&report->say, finding);
    } else {
        ds_say_marked(&report->say, finding->point);
    }
}

/* Widest text of each column, with its head. */
static void measure_fits(ds_report *const report, int widths[FIT_COLUMNS])
{
    const ds_findings *const findings = report->findings;
    for (int column = 0; column < FIT_COLUMNS; column++) {
        widths[column] = (int)strlen(FIT_HEADS[column]);
        for (size_t i = 0; i < findings->points_len; i++) {
            if (findings->points[i].verdict == DS_FITS) {
                say_fit_cell(report, &findings->points[i], column);
                const int columns = ds_page_columns(report->page, ds_text_str(&report->say));
                widths[column] = columns > widths[column] ? columns : widths[column];
                report->say.len = 0;
            }
        }
    }
}

static int excess(const int widths[FIT_COLUMNS], const int room)
{
    int sum = -DS_WRAP_GAP;
    for (int i = 0; i < FIT_COLUMNS; i++) {
        sum += widths[i] ? widths[i] + DS_WRAP_GAP : 0;
    }
    return sum > room ? sum - room : 0;
}

/* Where the page is too narrow, columns give way in this order, each down to the width that most of its texts keep to. */
static void share_width(int widths[FIT_COLUMNS], const int room)
{
    static const struct {
        int column, least;
    } GIVE[] = {{FIT_NAME, 48}, {FIT_MARKED, 18}, {FIT_NEEDED, 13}, {FIT_NAME, 16},
                {FIT_ID, 8},    {FIT_MARKED, 9},  {FIT_NEEDED, 9}};
    for (size_t i = 0; i < sizeof GIVE / sizeof *GIVE; i++) {
        int *const width = &widths[GIVE[i].column];
        const int spare = *width > GIVE[i].least ? *width - GIVE[i].least : 0;
        const int over = excess(widths, room);
        *width -= spare < over ? spare : over;
    }
}

static void put_fit_heads(ds_report *const report, const int widths[FIT_COLUMNS])
{
    ds_wrap cells[FIT_COLUMNS];
    for (int column = 0; column < FIT_COLUMNS; column++) {
        cells[column] = (ds_wrap){ds_str_of(FIT_HEADS[column]), DS_QUIET, widths[column]};
    }
    ds_page_wrap(report->page, FIT_INDENT, cells, FIT_COLUMNS);
}

static void put_fit_row(ds_report *const report, const ds_finding *const finding,
                        const int widths[FIT_COLUMNS])
{
    ds_wrap cells[FIT_COLUMNS];
    size_t ends[FIT_COLUMNS];
    for (int column = 0; column < FIT_COLUMNS; column++) {
        say_fit_cell(report, finding, column);
        ends[column] = report->say.len;
    }
    for (int column = 0; column < FIT_COLUMNS; column++) {
        const size_t start = column ? ends[column - 1] : 0;
        cells[column] = (ds_wrap){.words = {report->say.at + start, ends[column] - start},
                                  .style = column == FIT_ID ? DS_STRONG : DS_PLAIN,
                                  .width = widths[column]};
    }
    ds_page_wrap(report->page, FIT_INDENT, cells, FIT_COLUMNS);
    report->say.len = 0;
}

/* The place heads the rows of its points, so that the names have room. */
static void put_fit_place(ds_report *const report, const ds_finding *const finding)
{
    ds_text_adds(&report->say, finding->point->place_id);
    if (finding->place && finding->place->name.len) {
        ds_text_add(&report->say, "  ");
        ds_text_adds(&report->say, finding->place->name);
    }
    ds_report_take(report, DS_QUIET);
    ds_page_break(report->page, 0, FIT_INDENT);
}

static void put_fits(ds_report *const report)
{
    const ds_findings *const findings = report->findings;
    int widths[FIT_COLUMNS];
    measure_fits(report, widths);
    share_width(widths, report->page->width - FIT_INDENT);
    ds_page_gap(report->page);
    ds_page_verdict(report->page, DS_FITS);
    ds_page_row(report->page, 0);
    put_fit_heads(report, widths);
    const ds_finding *before = NULL;
    for (size_t i = 0; i < findings->points_len; i++) {
        const ds_finding *const finding = &findings->points[i];
        if (finding->verdict == DS_FITS && ds_host_drain(report->page->host)) {
            if (!before || !ds_str_eq(before->point->place_id, finding->point->place_id)) {
                put_fit_place(report, finding);
            }
            put_fit_row(report, finding, widths);
            before = finding;
        }
    }
}

void ds_check_job(ds_report *const report)
{
    put_headline(report);
    put_subject(report);
    ds_check_notices(report);
    put_unfit(report, DS_BARRED);
    put_unfit(report, DS_SHORT);
    put_unfit(report, DS_UNKNOWN);
    if (report->findings->counted[DS_FITS]) {
        put_fits(report);
    }
    ds_check_advice(report);
    ds_check_questions(report);
    ds_check_problems(report);
    ds_check_cautions(report);
}
