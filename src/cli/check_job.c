/* SPDX-License-Identifier: MIT */
/*
 * The answer for a whole job: first one line that says it all, then the points that do not fit, worst first, each with
 * the fact that decided and what to do; then the points that fit as a table; then what is left to ask and to mend.
 */
#include "cli/check.h"

static const ds_verdict WORST_FIRST[] = {DS_BARRED, DS_SHORT, DS_UNKNOWN, DS_FITS};

/* --- shared ------------------------------------------------------------------------------------------------------- */

void ds_sheet_take(ds_sheet *const sheet, const ds_style style)
{
    ds_page_adds(sheet->page, style, ds_text_str(&sheet->say));
    sheet->say.len = 0;
}

void ds_sheet_heading(ds_sheet *const sheet, const char *const words)
{
    ds_page_gap(sheet->page);
    ds_page_add(sheet->page, DS_STRONG, words);
    ds_page_break(sheet->page, 0, 0);
}

static bool zone_says_something(const ds_str zone)
{
    return zone.at && !ds_str_is(zone, "not-applicable") && !ds_str_is(zone, "unknown");
}

static void add_place(ds_sheet *const sheet, const ds_finding *const finding)
{
    ds_text_adds(&sheet->say, finding->point->place_id);
    if (zone_says_something(finding->zone)) {
        ds_text_add(&sheet->say, finding->point->place_id.len ? ", " : "");
        const bool outside = ds_str_is(finding->zone, "outside");
        ds_text_add(&sheet->say, outside ? "outside the zones" : "zone ");
        ds_text_adds(&sheet->say, outside ? DS_STR("") : finding->zone);
    }
}

/* Beside the name where there is room for all of it, or else in a row of its own. */
static void put_place(ds_sheet *const sheet, const ds_finding *const finding)
{
    add_place(sheet, finding);
    const int columns = ds_page_columns(sheet->page, ds_text_str(&sheet->say));
    int first = 0;
    if (ds_page_line_columns(sheet->page) + 2 + columns > sheet->page->width) {
        ds_page_break(sheet->page, 0, DS_VERDICT_COLUMNS);
        first = DS_VERDICT_COLUMNS;
    } else {
        ds_page_add(sheet->page, DS_QUIET, "  ");
    }
    ds_sheet_take(sheet, DS_QUIET);
    ds_page_break(sheet->page, first, DS_VERDICT_COLUMNS);
}

void ds_sheet_point(ds_sheet *const sheet, const ds_finding *const finding)
{
    const ds_point *const point = finding->point;
    ds_page_verdict(sheet->page, finding->verdict);
    ds_page_adds(sheet->page, DS_STRONG, point->id);
    ds_page_add(sheet->page, DS_PLAIN, "  ");
    ds_page_adds(sheet->page, DS_PLAIN, point->name);
    if (point->count > 1) {
        ds_text_add(&sheet->say, " (");
        ds_text_number(&sheet->say, point->count, 0);
        ds_text_add(&sheet->say, " pieces)");
        ds_sheet_take(sheet, DS_PLAIN);
    }
    put_place(sheet, finding);
}

void ds_sheet_answer(ds_sheet *const sheet, const ds_finding *const finding)
{
    ds_say_deciding(&sheet->say, sheet->findings, finding);
    ds_sheet_take(sheet, DS_PLAIN);
    ds_page_break(sheet->page, DS_VERDICT_COLUMNS, DS_VERDICT_COLUMNS);
    ds_say_remedy(&sheet->say, sheet->findings, finding);
    if (sheet->say.len) {
        ds_page_shape(sheet->page, DS_STRONG, sheet->page->ascii ? "->" : "→");
        ds_page_add(sheet->page, DS_STRONG, sheet->page->ascii ? " " : "  ");
        ds_sheet_take(sheet, DS_PLAIN);
        ds_page_break(sheet->page, DS_VERDICT_COLUMNS - 3, DS_VERDICT_COLUMNS);
    }
}

bool ds_sheet_state(ds_sheet *const sheet, const ds_finding *const finding)
{
    const ds_json *state =
        finding->state >= 0 && finding->point->states ? finding->point->states->first : NULL;
    for (int32_t i = 0; state && i < finding->state; i++) {
        state = state->next;
    }
    if (state) {
        ds_say_list(&sheet->say, state, " + ");
    }
    return state != NULL;
}

/* --- the first lines ---------------------------------------------------------------------------------------------- */

static void say_all_fit(ds_text *const out, const size_t count)
{
    ds_text_add(out, count == 1 ? "The one point fits." : "All ");
    if (count > 1) {
        ds_text_int(out, (int64_t)count);
        ds_text_add(out, " points fit.");
    }
}

/* "1 of 24 points is barred, 3 fall short, 2 are unknown, 18 fit." */
static void say_counts(ds_text *const out, const ds_findings *const findings)
{
    static const char *const ONE[] = {[DS_FITS] = " fits",
                                      [DS_UNKNOWN] = " is unknown",
                                      [DS_SHORT] = " falls short",
                                      [DS_BARRED] = " is barred"};
    static const char *const MANY[] = {[DS_FITS] = " fit",
                                       [DS_UNKNOWN] = " are unknown",
                                       [DS_SHORT] = " fall short",
                                       [DS_BARRED] = " are barred"};
    const size_t start = out->len;
    for (size_t i = 0; i < 4; i++) {
        const size_t count = findings->counted[WORST_FIRST[i]];
        if (!count) {
            continue;
        }
        const bool first = out->len == start;
        ds_text_add(out, first ? "" : ", ");
        ds_text_int(out, (int64_t)count);
        if (first) {
            ds_text_add(out, " of ");
            ds_text_int(out, (int64_t)findings->points_len);
            ds_text_add(out, findings->points_len == 1 ? " point" : " points");
        }
        ds_text_add(out, (count == 1 ? ONE : MANY)[WORST_FIRST[i]]);
    }
    ds_text_char(out, '.');
}

static ds_verdict worst_of(const ds_findings *const findings)
{
    for (size_t i = 0; i < 3; i++) {
        if (findings->counted[WORST_FIRST[i]]) {
            return WORST_FIRST[i];
        }
    }
    return findings->points_len ? DS_FITS : DS_UNKNOWN;
}

static void put_headline(ds_sheet *const sheet)
{
    const ds_findings *const findings = sheet->findings;
    const ds_verdict worst = worst_of(findings);
    ds_page_shape(sheet->page, ds_verdict_style(worst), ds_verdict_shape(worst, sheet->page->ascii));
    ds_page_add(sheet->page, DS_STRONG, " ");
    if (!findings->points_len) {
        ds_text_add(&sheet->say, "The job lists no points, so there is nothing to judge.");
    } else if (worst == DS_FITS) {
        say_all_fit(&sheet->say, findings->points_len);
    } else {
        say_counts(&sheet->say, findings);
    }
    ds_sheet_take(sheet, DS_STRONG);
    ds_page_break(sheet->page, 0, 2);
}

/* Title, editions and date in one quiet line. */
static void put_subject(ds_sheet *const sheet)
{
    const ds_findings *const findings = sheet->findings;
    ds_text *const say = &sheet->say;
    ds_text_adds(say, findings->job->title);
    for (size_t i = 0; i < findings->packs_len; i++) {
        ds_text_add(say, say->len ? "; " : "");
        ds_text_adds(say, findings->packs[i]->edition);
    }
    if (findings->job->date.at) {
        ds_text_add(say, say->len ? "; " : "");
        ds_text_adds(say, findings->job->date);
    }
    ds_sheet_take(sheet, DS_QUIET);
    ds_page_break(sheet->page, 2, 2);
}

void ds_check_notices(ds_sheet *const sheet)
{
    for (size_t i = 0; i < sheet->findings->packs_len; i++) {
        if (ds_pack_notice(&sheet->say, sheet->findings->packs[i], sheet->findings->job->date)) {
            ds_page_gap(sheet->page);
            ds_page_add(sheet->page, DS_STRONG, "Edition: ");
            ds_sheet_take(sheet, DS_PLAIN);
            ds_page_break(sheet->page, 2, 2);
        }
    }
}

/* --- points that do not fit --------------------------------------------------------------------------------------- */

static bool is_about_marks(const ds_finding *const finding)
{
    return finding->obstacle == DS_OBSTACLE_SHORT || finding->obstacle == DS_OBSTACLE_TEST;
}

/* A label that stays with the first word of what is in sheet->say. */
static void put_labelled(ds_sheet *const sheet, const char *const before, const char *const label)
{
    ds_page_add(sheet->page, DS_QUIET, before);
    ds_page_add(sheet->page, DS_QUIET, label);
    ds_page_glue(sheet->page);
    ds_sheet_take(sheet, DS_PLAIN);
}

/* What was asked and offered; for a mark that misses tests the rungs say at a glance which. */
static void put_protections(ds_sheet *const sheet, const ds_finding *const finding)
{
    ds_say_needed(&sheet->say, finding);
    put_labelled(sheet, "", "needed");
    ds_say_marked(&sheet->say, finding->point);
    put_labelled(sheet, "   ", "marked");
    if (is_about_marks(finding) && ds_sheet_state(sheet, finding)) {
        put_labelled(sheet, "   ", "state");
    }
    ds_page_break(sheet->page, DS_VERDICT_COLUMNS, DS_VERDICT_COLUMNS);
    if (is_about_marks(finding)) {
        ds_rungs rungs;
        ds_rungs_of(&rungs, finding->needed, finding->marked);
        ds_page_rungs_named(sheet->page, &rungs);
        ds_page_break(sheet->page, DS_VERDICT_COLUMNS, DS_VERDICT_COLUMNS);
    }
}

static void put_unfit(ds_sheet *const sheet, const ds_verdict verdict)
{
    const ds_findings *const findings = sheet->findings;
    for (size_t i = 0; i < findings->points_len; i++) {
        const ds_finding *const finding = &findings->points[i];
        if (finding->verdict == verdict && ds_host_drain(sheet->page->host)) {
            ds_page_gap(sheet->page);
            ds_sheet_point(sheet, finding);
            ds_sheet_answer(sheet, finding);
            put_protections(sheet, finding);
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

/* One cell's text in sheet->say. */
static void say_fit_cell(ds_sheet *const sheet, const ds_finding *const finding, const int column)
{
    if (column == FIT_ID) {
        ds_text_adds(&sheet->say, finding->point->id);
    } else if (column == FIT_NAME) {
        say_fit_name(&sheet->say, finding);
    } else if (column == FIT_NEEDED) {
        ds_say_needed(&sheet->say, finding);
    } else {
        ds_say_marked(&sheet->say, finding->point);
    }
}

/* Widest text of each column, with its head. */
static void measure_fits(ds_sheet *const sheet, int widths[FIT_COLUMNS])
{
    const ds_findings *const findings = sheet->findings;
    for (int column = 0; column < FIT_COLUMNS; column++) {
        widths[column] = (int)strlen(FIT_HEADS[column]);
        for (size_t i = 0; i < findings->points_len; i++) {
            if (findings->points[i].verdict == DS_FITS) {
                say_fit_cell(sheet, &findings->points[i], column);
                const int columns = ds_page_columns(sheet->page, ds_text_str(&sheet->say));
                widths[column] = columns > widths[column] ? columns : widths[column];
                sheet->say.len = 0;
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

static void put_fit_heads(ds_sheet *const sheet, const int widths[FIT_COLUMNS])
{
    ds_wrap cells[FIT_COLUMNS];
    for (int column = 0; column < FIT_COLUMNS; column++) {
        cells[column] = (ds_wrap){ds_str_of(FIT_HEADS[column]), DS_QUIET, widths[column]};
    }
    ds_page_wrap(sheet->page, FIT_INDENT, cells, FIT_COLUMNS);
}

static void put_fit_row(ds_sheet *const sheet, const ds_finding *const finding, const int widths[FIT_COLUMNS])
{
    ds_wrap cells[FIT_COLUMNS];
    size_t ends[FIT_COLUMNS];
    for (int column = 0; column < FIT_COLUMNS; column++) {
        say_fit_cell(sheet, finding, column);
        ends[column] = sheet->say.len;
    }
    for (int column = 0; column < FIT_COLUMNS; column++) {
        const size_t start = column ? ends[column - 1] : 0;
        cells[column] = (ds_wrap){.words = {sheet->say.at + start, ends[column] - start},
                                  .style = column == FIT_ID ? DS_STRONG : DS_PLAIN,
                                  .width = widths[column]};
    }
    ds_page_wrap(sheet->page, FIT_INDENT, cells, FIT_COLUMNS);
    sheet->say.len = 0;
}

/* The place heads the rows of its points, so that the names have room. */
static void put_fit_place(ds_sheet *const sheet, const ds_finding *const finding)
{
    ds_text_adds(&sheet->say, finding->point->place_id);
    if (finding->place && finding->place->name.len) {
        ds_text_add(&sheet->say, "  ");
        ds_text_adds(&sheet->say, finding->place->name);
    }
    ds_sheet_take(sheet, DS_QUIET);
    ds_page_break(sheet->page, 0, FIT_INDENT);
}

static void put_fits(ds_sheet *const sheet)
{
    const ds_findings *const findings = sheet->findings;
    int widths[FIT_COLUMNS];
    measure_fits(sheet, widths);
    share_width(widths, sheet->page->width - FIT_INDENT);
    ds_page_gap(sheet->page);
    ds_page_verdict(sheet->page, DS_FITS);
    ds_page_row(sheet->page, 0);
    put_fit_heads(sheet, widths);
    const ds_finding *before = NULL;
    for (size_t i = 0; i < findings->points_len; i++) {
        const ds_finding *const finding = &findings->points[i];
        if (finding->verdict == DS_FITS && ds_host_drain(sheet->page->host)) {
            if (!before || !ds_str_eq(before->point->place_id, finding->point->place_id)) {
                put_fit_place(sheet, finding);
            }
            put_fit_row(sheet, finding, widths);
            before = finding;
        }
    }
}

void ds_check_job(ds_sheet *const sheet)
{
    put_headline(sheet);
    put_subject(sheet);
    ds_check_notices(sheet);
    put_unfit(sheet, DS_BARRED);
    put_unfit(sheet, DS_SHORT);
    put_unfit(sheet, DS_UNKNOWN);
    if (sheet->findings->counted[DS_FITS]) {
        put_fits(sheet);
    }
    ds_check_advice(sheet);
    ds_check_questions(sheet);
    ds_check_problems(sheet);
    ds_check_cautions(sheet);
}
