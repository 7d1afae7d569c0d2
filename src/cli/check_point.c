/* SPDX-License-Identifier: MIT */
/* One point fully: the answer, the three protections, the rung picture, every reason with where it comes from. */
#include "cli/check.h"

enum { LABEL_COLUMNS = 12, INDENT = 2 };

static void put_label(ds_sheet *const sheet, const char *const label)
{
    ds_page_cell(sheet->page, DS_QUIET, ds_str_of(label), LABEL_COLUMNS);
}

static void end_labelled(ds_sheet *const sheet)
{
    ds_sheet_take(sheet, DS_PLAIN);
    ds_page_break(sheet->page, INDENT, INDENT + LABEL_COLUMNS);
}

static void put_place(ds_sheet *const sheet, const ds_finding *const finding)
{
    put_label(sheet, "place");
    ds_text_adds(&sheet->say, finding->point->place_id);
    if (finding->place && finding->place->name.at) {
        ds_text_add(&sheet->say, "  ");
        ds_text_adds(&sheet->say, finding->place->name);
    }
    end_labelled(sheet);
    put_label(sheet, "zone");
    ds_text_adds(&sheet->say, finding->zone);
    end_labelled(sheet);
}

static void put_protections(ds_sheet *const sheet, const ds_finding *const finding)
{
    put_label(sheet, "needed");
    ds_say_needed(&sheet->say, finding);
    end_labelled(sheet);
    if (finding->advised != finding->needed && finding->advised != DS_NEED_NOTHING) {
        put_label(sheet, "advised");
        ds_need_print(&sheet->say, finding->advised);
        end_labelled(sheet);
    }
    put_label(sheet, "marked");
    ds_say_marked(&sheet->say, finding->point);
    end_labelled(sheet);
    if (ds_sheet_state(sheet, finding)) {
        put_label(sheet, "worst state");
        end_labelled(sheet);
    }
    put_label(sheet, "installed");
    ds_text_add(&sheet->say, "not computed yet; judged on the mark");
    end_labelled(sheet);
}

/* --- reasons ------------------------------------------------------------------------------------------------------ */

/* "gb-701-zone1-water  701.512.2, BS 7671:2018+A2:2022; rule; published: …" */
static void put_origin(ds_sheet *const sheet, const ds_rule *const rule)
{
    ds_text *const say = &sheet->say;
    if (!ds_str_is(rule->clause, "-") && rule->clause.len) {
        ds_text_adds(say, rule->clause);
        ds_text_add(say, ", ");
    }
    ds_text_adds(say, rule->edition);
    ds_text_add(say, rule->edition.len ? "; " : "");
    ds_text_add(say, ds_grade_word(rule->grade));
    ds_text_add(say, "; ");
    ds_text_add(say, ds_source_kind_word(rule->source.kind));
    if (rule->source.ref.len) {
        ds_text_add(say, ": ");
        ds_text_adds(say, rule->source.ref);
    }
    ds_sheet_take(sheet, DS_QUIET);
    ds_page_break(sheet->page, INDENT + 2, INDENT + 2);
}

static void put_reason(ds_sheet *const sheet, const ds_reason *const reason)
{
    const ds_rule *const rule = reason->rule;
    const ds_style style = ds_verdict_style(reason->outcome);
    ds_page_shape(sheet->page, style, ds_verdict_shape(reason->outcome, sheet->page->ascii));
    ds_page_add(sheet->page, DS_PLAIN, " ");
    ds_page_adds(sheet->page, DS_STRONG, rule->id);
    ds_page_add(sheet->page, style, reason->decides ? "  decides" : "");
    ds_page_break(sheet->page, INDENT, INDENT + 2);
    ds_say_rule_effect(&sheet->say, sheet->findings->book, rule);
    if (sheet->say.len && sheet->say.at[sheet->say.len - 1] != '.' &&
        sheet->say.at[sheet->say.len - 1] != '?') {
        ds_text_char(&sheet->say, '.');
    }
    ds_text_char(&sheet->say, ' ');
    ds_text_adds(&sheet->say, rule->because);
    ds_sheet_take(sheet, DS_PLAIN);
    ds_page_break(sheet->page, INDENT + 2, INDENT + 2);
    if (reason->truth == DS_MAYBE) {
        ds_text_add(&sheet->say, "missing: ");
        ds_say_missing(&sheet->say, &reason->missing);
        ds_sheet_take(sheet, DS_PLAIN);
        ds_page_break(sheet->page, INDENT + 2, INDENT + 2);
    }
    put_origin(sheet, rule);
}

/* Reasons of one kind that no other outdoes; what decides comes first. */
static void put_reasons(ds_sheet *const sheet, const ds_finding *const finding, const ds_truth truth,
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
                ds_sheet_heading(sheet, heading);
            }
            begun = true;
            put_reason(sheet, reason);
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

static void put_covered(ds_sheet *const sheet, const ds_finding *const finding)
{
    const size_t count = count_covered(finding);
    if (count) {
        ds_text_add(&sheet->say, "Rules that ask for less than these and are covered by them: ");
        ds_text_int(&sheet->say, (int64_t)count);
        ds_text_char(&sheet->say, '.');
        ds_sheet_take(sheet, DS_QUIET);
        ds_page_break(sheet->page, INDENT, INDENT);
    }
}

static void put_remarks(ds_sheet *const sheet, const ds_finding *const finding)
{
    if (finding->remarks) {
        ds_sheet_heading(sheet, "Remarks");
    }
    for (int i = 0; i < DS_REMARKS; i++) {
        if (finding->remarks >> i & 1) {
            ds_say_remark(&sheet->say, finding, (ds_remark_code)i);
            ds_sheet_take(sheet, DS_PLAIN);
            ds_page_break(sheet->page, INDENT, INDENT + 2);
        }
    }
}

void ds_check_point(ds_sheet *const sheet, const ds_finding *const finding)
{
    ds_sheet_point(sheet, finding);
    ds_sheet_answer(sheet, finding);
    ds_check_notices(sheet);
    ds_page_gap(sheet->page);
    put_place(sheet, finding);
    put_protections(sheet, finding);
    ds_page_gap(sheet->page);
    ds_rungs rungs;
    ds_rungs_of(&rungs, finding->needed, finding->marked);
    ds_page_rungs(sheet->page, &rungs, INDENT);
    put_reasons(sheet, finding, DS_YES, "Reasons");
    put_covered(sheet, finding);
    put_reasons(sheet, finding, DS_MAYBE, "Open, for want of a fact");
    put_remarks(sheet, finding);
    ds_check_cautions(sheet);
}
