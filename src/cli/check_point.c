/* SPDX-License-Identifier: MIT */
/* One point fully: the answer, the three protections, the rung picture, every reason with where it comes from. */
#include "cli/check.h"

#include "core/box/entry_say.h"

enum { LABEL_COLUMNS = 12, INDENT = 2 };

static void put_label(ds_report *const report, const char *const label)
{
    ds_page_cell(report->page, DS_QUIET, ds_str_of(label), LABEL_COLUMNS);
}

static void end_labelled(ds_report *const report)
{
    ds_report_take(report, DS_PLAIN);
    ds_page_break(report->page, INDENT, INDENT + LABEL_COLUMNS);
}

static void put_place(ds_report *const report, const ds_finding *const finding)
{
    put_label(report, "place");
    ds_text_adds(&report->say, finding->point->place_id);
    if (finding->place && finding->place->name.at) {
        ds_text_add(&report->say, "  ");
        ds_text_adds(&report->say, finding->place->name);
    }
    end_labelled(report);
    put_label(report, "zone");
    ds_text_adds(&report->say, finding->zone);
    if (finding->where) {
        const size_t before = report->say.len;
        ds_text_add(&report->say, ": ");
        ds_zone_say_way(&report->say, finding->where, ds_finding_map(report->findings, finding));
        report->say.len = report->say.len == before + 2 ? before : report->say.len;
    }
    end_labelled(report);
    for (int i = 0; finding->where && i < DS_ZONE_CAUTIONS; i++) {
        if (finding->where->cautions >> i & 1) {
            put_label(report, "");
            ds_zone_say_caution(&report->say, finding->where, (ds_zone_caution)i);
            end_labelled(report);
        }
    }
}

/* What is left of the mark; without a list of entries nobody knows. */
static void say_installed(ds_text *const say, const ds_finding *const finding)
{
    const ds_installed *const installed = finding->installed;
    if (!finding->point->box) {
        ds_text_add(say, "not told: no box is described; judged on the mark");
    } else if (!installed || !installed->entries_stated) {
        ds_text_add(say, "not known: the box's entries are not listed; judged on the mark");
        ds_text_add(say, installed ? " and the openings measured" : "");
    } else {
        const size_t before = say->len;
        ds_finding_shown(say, finding);
        ds_text_add(say, say->len == before ? "no code is shown" : "");
    }
}

/* One part: what it takes away and what would restore it. */
static void say_part(ds_text *const say, const ds_finding *const finding, const ds_part *const part)
{
    ds_say_part(say, finding->installed, part, finding->needed);
    if (!say->len) {
        ds_say_part_name(say, part);
        ds_text_add(say, ": takes nothing away.");
        return;
    }
    const size_t before = say->len;
    ds_text_add(say, " ");
    ds_say_part_mend(say, finding->installed, part, finding->needed);
    say->len = say->len == before + 1 ? before : say->len;
}

static void put_installed(ds_report *const report, const ds_finding *const finding)
{
    put_label(report, "installed");
    say_installed(&report->say, finding);
    end_labelled(report);
    for (size_t i = 0; finding->installed && i < finding->installed->parts_len; i++) {
        put_label(report, "");
        say_part(&report->say, finding, &finding->installed->parts[i]);
        end_labelled(report);
    }
}

void ds_check_protections(ds_report *const report, const ds_finding *const finding)
{
    put_label(report, "needed");
    ds_say_needed(&report->say, finding);
    end_labelled(report);
    if (finding->advised != finding->needed && finding->advised != DS_NEED_NOTHING) {
        put_label(report, "advised");
        ds_need_print(&report->say, finding->advised);
        end_labelled(report);
    }
    put_label(report, "marked");
    ds_say_marked(&report->say, finding->point);
    end_labelled(report);
    if (ds_say_state(&report->say, finding)) {
        put_label(report, "worst state");
        end_labelled(report);
    }
    put_installed(report, finding);
}

/* --- reasons ------------------------------------------------------------------------------------------------------ */

static void put_origin(ds_report *const report, const ds_rule *const rule)
{
    ds_say_origin(&report->say, rule);
    ds_report_take(report, DS_QUIET);
    ds_page_break(report->page, INDENT + 2, INDENT + 2);
}

static void put_reason(ds_report *const report, const ds_reason *const reason)
{
    const ds_rule *const rule = reason->rule;
    const ds_style style = ds_verdict_style(reason->outcome);
    ds_page_shape(report->page, style, ds_verdict_shape(reason->outcome, report->page->ascii));
    ds_page_add(report->page, DS_PLAIN, " ");
    ds_page_adds(report->page, DS_STRONG, rule->id);
    ds_page_add(report->page, style, reason->decides ? "  decides" : "");
    ds_page_break(report->page, INDENT, INDENT + 2);
    ds_say_rule_effect(&report->say, report->findings->book, rule);
    if (report->say.len && report->say.at[report->say.len - 1] != '.' &&
        report->say.at[report->say.len - 1] != '?') {
        ds_text_char(&report->say, '.');
    }
    ds_text_char(&report->say, ' ');
    ds_text_adds(&report->say, rule->because);
    ds_report_take(report, DS_PLAIN);
    ds_page_break(report->page, INDENT + 2, INDENT + 2);
    if (reason->truth == DS_MAYBE) {
        ds_text_add(&report->say, "missing: ");
        ds_say_missing(&report->say, &reason->missing);
        ds_report_take(report, DS_PLAIN);
        ds_page_break(report->page, INDENT + 2, INDENT + 2);
    }
    put_origin(report, rule);
}

/* Reasons of one kind that no other outdoes; what decides comes first. */
static void put_reasons(ds_report *const report, const ds_finding *const finding, const ds_truth truth,
                        const char *const heading)
{
    bool begun = false;
    for (int pass = 0; pass < 2; pass++) {
        for (size_t i = 0; i < finding->reasons_len; i++) {
            const ds_reason *const reason = &finding->reasons[i];
            if (reason->truth != truth || reason->covered || reason->decides != (pass == 0)) {
                continue;
            }
            if (!begun) {
                ds_report_heading(report, heading);
            }
            begun = true;
            put_reason(report, reason);
        }
    }
}

static size_t count_covered(const ds_finding *const finding)
{
    size_t count = 0;
    for (size_t i = 0; i < finding->reasons_len; i++) {
        count += finding->reasons[i].covered;
    }
    return count;
}

static void put_covered(ds_report *const report, const ds_finding *const finding)
{
    const size_t count = count_covered(finding);
    if (count) {
        ds_text_add(&report->say, "Rules that ask for less than these and are covered by them: ");
        ds_text_int(&report->say, (int64_t)count);
        ds_text_char(&report->say, '.');
        ds_report_take(report, DS_QUIET);
        ds_page_break(report->page, INDENT, INDENT);
    }
}

void ds_check_remarks(ds_report *const report, const ds_finding *const finding)
{
    if (finding->remarks) {
        ds_report_heading(report, "Remarks");
    }
    for (int i = 0; i < DS_REMARKS; i++) {
        if (finding->remarks >> i & 1) {
            ds_say_remark(&report->say, finding, (ds_remark_code)i);
            ds_report_take(report, DS_PLAIN);
            ds_page_break(report->page, INDENT, INDENT + 2);
        }
    }
}

void ds_check_calculation(ds_report *const report, const ds_finding *const finding)
{
    const ds_climate *const climate = finding->climate;
    const size_t len = climate ? climate->trail.len : 0;
    if (len) {
        ds_report_heading(report, "Calculation");
    }
    for (size_t i = 0; i < len; i++) {
        const ds_trail_step *const step = &climate->trail.at[i];
        ds_page_adds(report->page, DS_PLAIN, step->what);
        ds_page_add(report->page, DS_PLAIN, ": ");
        ds_trail_say_result(&report->say, step);
        ds_report_take(report, DS_STRONG);
        ds_page_break(report->page, INDENT, INDENT + 2);
        ds_trail_say_way(&report->say, step);
        ds_report_take(report, DS_QUIET);
        ds_page_break(report->page, INDENT + 2, INDENT + 2);
    }
}

void ds_check_point(ds_report *const report, const ds_finding *const finding)
{
    ds_report_point(report, finding);
    ds_report_answer(report, finding);
    ds_check_notices(report);
    ds_page_gap(report->page);
    put_place(report, finding);
    ds_check_protections(report, finding);
    ds_page_gap(report->page);
    ds_rungs rungs;
    ds_rungs_of(&rungs, finding->needed, finding->marked);
    ds_page_rungs(report->page, &rungs, INDENT);
    put_reasons(report, finding, DS_YES, "Reasons");
    put_covered(report, finding);
    put_reasons(report, finding, DS_MAYBE, "Open, for want of a fact");
    ds_check_remarks(report, finding);
    ds_check_calculation(report, finding);
    ds_check_cautions(report);
}
