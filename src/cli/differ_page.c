/* SPDX-License-Identifier: MIT */
/*
 * First one line that says how many points turned which way, and which; then point by point, worst first: the answer
 * before and now, what to do now, and why it changed.
 */
#include "cli/differ.h"

enum { IDS_NAMED = 12, RULES_NAMED = 8, TURN_COLUMNS = 9, BESIDE_COLUMNS = 8 };

typedef struct differ_page {
    ds_report *report;
    const ds_differ *differ;
} differ_page;

static void take(const differ_page *const p, const ds_style style)
{
    ds_report_take(p->report, style);
}

/* --- the first lines ------------------------------------------------------------------------------------------------ */

static void put_headline(const differ_page *const p)
{
    const ds_differ *const differ = p->differ;
    const ds_finding *const first = differ->points_len ? differ->points[0].after : NULL;
    const ds_verdict worst = first && ds_differ_exit(differ) ? first->verdict : DS_FITS;
    ds_page_shape(p->report->page, ds_verdict_style(worst), ds_verdict_shape(worst, p->report->page->ascii));
    ds_page_add(p->report->page, DS_STRONG, " ");
    ds_differ_say(&p->report->say, differ);
    take(p, DS_STRONG);
    ds_page_break(p->report->page, 0, 2);
}

/* "before   job.json: Title; BS 7671:2018; 2019-05-04" */
static void put_version(const differ_page *const p, const char *const label, const ds_str file,
                        const ds_findings *const findings)
{
    ds_text *const say = &p->report->say;
    ds_page_cell(p->report->page, DS_QUIET, ds_str_of(label), TURN_COLUMNS);
    ds_text_adds(say, file);
    ds_text_add(say, findings->job->title.len ? ": " : "");
    ds_text_adds(say, findings->job->title);
    for (size_t i = 0; i < findings->packs_len; i++) {
        ds_text_add(say, "; ");
        ds_text_adds(say, findings->packs[i]->edition);
    }
    ds_text_add(say, findings->job->date.len ? "; " : "");
    ds_text_adds(say, findings->job->date);
    take(p, DS_QUIET);
    ds_page_break(p->report->page, 2, 2 + TURN_COLUMNS);
}

static ds_str id_of(const ds_difference *const it)
{
    return (it->after ? it->after : it->before)->point->id;
}

/* "worse    P3, P7 and 2 more" */
static void put_ids(const differ_page *const p, const ds_turn turn)
{
    ds_text *const say = &p->report->say;
    size_t told = 0;
    for (size_t i = 0; i < p->differ->points_len && told < IDS_NAMED; i++) {
        if (p->differ->points[i].turn == turn) {
            ds_text_add(say, told++ ? ", " : "");
            ds_text_adds(say, id_of(&p->differ->points[i]));
        }
    }
    if (p->differ->counted[turn] > told) {
        ds_text_add(say, " and ");
        ds_text_int(say, (int64_t)(p->differ->counted[turn] - told));
        ds_text_add(say, " more");
    }
    if (told) {
        ds_page_cell(p->report->page, DS_QUIET, ds_str_of(ds_turn_word(turn)), TURN_COLUMNS);
        take(p, DS_PLAIN);
        ds_page_break(p->report->page, 2, 2 + TURN_COLUMNS);
    }
}

static void put_notices(const differ_page *const p)
{
    const ds_differ *const differ = p->differ;
    if (differ->other_rules || !ds_str_eq(differ->before->job->date, differ->after->job->date)) {
        p->report->findings = differ->before;
        ds_check_notices(p->report);
    }
    p->report->findings = differ->after;
    ds_check_notices(p->report);
}

/* --- a point -------------------------------------------------------------------------------------------------------- */

static void put_labelled(const differ_page *const p, const char *const before, const char *const label)
{
    ds_page_add(p->report->page, DS_QUIET, before);
    ds_page_add(p->report->page, DS_QUIET, label);
    ds_page_glue(p->report->page);
    take(p, DS_PLAIN);
}

static bool differs(const ds_difference *const it, const char *const key)
{
    for (size_t i = 0; i < it->point.len; i++) {
        if (ds_str_is(it->point.at[i].key, key)) {
            return true;
        }
    }
    return false;
}

/* One side: "before  fits  needed IPX4", with mark and zone where the two sides differ in them. */
static void put_side(const differ_page *const p, const ds_difference *const it, const char *const label,
                     const ds_finding *const finding)
{
    ds_page *const page = p->report->page;
    ds_text *const say = &p->report->say;
    ds_page_cell(page, DS_QUIET, ds_str_of(label), BESIDE_COLUMNS);
    ds_page_verdict(page, finding->verdict);
    ds_say_needed(say, finding);
    put_labelled(p, "", "needed");
    if (differs(it, "marked")) {
        ds_say_marked(say, finding->point);
        put_labelled(p, "   ", "marked");
    }
    if (it->before && it->after && !ds_str_eq(it->before->zone, it->after->zone)) {
        ds_text_adds(say, finding->zone);
        put_labelled(p, "   ", "zone");
    }
    ds_page_break(page, DS_VERDICT_COLUMNS, DS_VERDICT_COLUMNS + BESIDE_COLUMNS);
}

/* Nothing where both would read the same. */
static void put_sides(const differ_page *const p, const ds_difference *const it)
{
    if (it->turn == DS_TURN_OTHER && it->before && it->after && !differs(it, "marked") &&
        ds_str_eq(it->before->zone, it->after->zone)) {
        return;
    }
    if (it->before) {
        put_side(p, it, "before", it->before);
    }
    if (it->after) {
        put_side(p, it, "now", it->after);
    }
}

static void put_causes(const differ_page *const p, const ds_difference *const it)
{
    const bool told = it->came_len || it->went_len; /* each names its edition */
    for (int cause = 0; cause < (told ? DS_CAUSE_RULES : DS_CAUSES); cause++) {
        if (ds_differ_say_cause(&p->report->say, p->differ, it, (ds_cause)cause)) {
            take(p, DS_PLAIN);
            ds_page_break(p->report->page, DS_VERDICT_COLUMNS, DS_VERDICT_COLUMNS + 2);
        }
    }
}

static void put_reason(const differ_page *const p, const char *const label, const ds_reason *const reason)
{
    ds_text *const say = &p->report->say;
    const ds_rule *const rule = reason->rule;
    ds_page_add(p->report->page, DS_QUIET, label);
    ds_page_adds(p->report->page, DS_STRONG, rule->id);
    ds_text_add(say, " (");
    ds_text_add(say, ds_str_is(rule->clause, "-") ? "" : "clause ");
    ds_text_adds(say, ds_str_is(rule->clause, "-") ? DS_STR("") : rule->clause);
    ds_text_add(say, ds_str_is(rule->clause, "-") || !rule->edition.len ? "" : ", ");
    ds_text_adds(say, rule->edition);
    ds_text_add(say, reason->truth == DS_MAYBE ? "; open): " : "): ");
    ds_text_adds(say, rule->because);
    take(p, DS_PLAIN);
    ds_page_break(p->report->page, DS_VERDICT_COLUMNS, DS_VERDICT_COLUMNS + 2);
}

/* What decides comes first; past some, how many more there are. */
static void put_reasons(const differ_page *const p, const char *const label,
                        const ds_reason *const *const reasons, const size_t len)
{
    size_t told = 0;
    for (int pass = 0; pass < 2; pass++) {
        for (size_t i = 0; i < len && told < RULES_NAMED; i++) {
            if (reasons[i]->decides == (pass == 0)) {
                put_reason(p, label, reasons[i]);
                told++;
            }
        }
    }
    if (len > told) {
        ds_page_add(p->report->page, DS_QUIET, label);
        ds_text_int(&p->report->say, (int64_t)(len - told));
        ds_text_add(&p->report->say, " more (--json has them all)");
        take(p, DS_QUIET);
        ds_page_break(p->report->page, DS_VERDICT_COLUMNS, DS_VERDICT_COLUMNS + 2);
    }
}

static void put_point(const differ_page *const p, const ds_difference *const it)
{
    ds_report *const report = p->report;
    const ds_finding *const shown = it->after ? it->after : it->before;
    report->findings = it->after ? p->differ->after : p->differ->before;
    ds_page_gap(report->page);
    ds_report_point(report, shown);
    put_sides(p, it);
    if (it->after && it->turn != DS_TURN_OTHER) {
        ds_report_answer(report, it->after);
    }
    put_causes(p, it);
    put_reasons(p, "new: ", it->came, it->came_len);
    put_reasons(p, "no longer: ", it->went, it->went_len);
}

void ds_differ_page(ds_report *const report, const ds_differ *const differ, const ds_str files[2])
{
    static const char *const HEADS[DS_TURNS] = {
        "Worse than before",  "Added", "Removed", "Better than before", "Another need, the same verdict",
        "Otherwise different"};
    const differ_page p = {report, differ};
    put_headline(&p);
    for (int turn = 0; turn < DS_TURN_OTHER; turn++) {
        put_ids(&p, (ds_turn)turn);
    }
    put_version(&p, "before", files[0], differ->before);
    put_version(&p, "now", files[1], differ->after);
    put_notices(&p);
    for (size_t i = 0; i < differ->points_len && ds_host_drain(report->page->host); i++) {
        const ds_turn turn = differ->points[i].turn;
        if (i == 0 || turn != differ->points[i - 1].turn) {
            ds_report_heading(report, HEADS[turn]);
        }
        put_point(&p, &differ->points[i]);
    }
    ds_check_cautions(report);
}
