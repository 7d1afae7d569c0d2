/* SPDX-License-Identifier: MIT */
/* The fact that decided, one sentence for each obstacle; and a need against one mark. */
#include "core/assess/say.h"

typedef struct test_list {
    ds_text *out;
    size_t len;
} test_list;

static void add_test(void *const ctx, const ds_str test)
{
    test_list *const list = ctx;
    ds_text_add(list->out, list->len++ ? ", " : "");
    ds_text_adds(list->out, test);
}

static void add_lost(ds_text *const out, const ds_need lost)
{
    test_list list = {.out = out};
    ds_need_each(lost, add_test, &list);
}

static void add_rule_name(ds_text *const out, const ds_rule *const rule)
{
    if (!rule) {
        return;
    }
    ds_text_add(out, " (");
    if (rule->source.kind == DS_SOURCE_PERSON) {
        ds_text_add(out, "asked for");
        ds_text_add(out, rule->source.ref.at ? " by the " : "");
        ds_text_adds(out, rule->source.ref);
    } else {
        ds_text_adds(out, ds_str_is(rule->clause, "-") ? rule->id : rule->clause);
    }
    ds_text_char(out, ')');
}

static void add_because(ds_text *const out, const ds_rule *const rule)
{
    if (rule) {
        ds_text_add(out, " ");
        ds_text_adds(out, rule->because);
        add_rule_name(out, rule);
    }
}

static void say_short(ds_text *const out, const ds_finding *const finding)
{
    ds_text_add(out, "Not covered: ");
    add_lost(out, finding->lost);
    ds_text_char(out, '.');
    add_because(out, finding->deciding);
}

static void say_unanswered(ds_text *const out, const ds_finding *const finding)
{
    static const char *const NAMES[] = {"water", "dust and objects", "blows", "people"};
    ds_text_add(out, "The place does not say what there is of ");
    size_t len = 0;
    for (int group = 0; group < DS_GROUP_REST; group++) {
        if (finding->unanswered >> group & 1) {
            ds_text_add(out, len++ ? ", " : "");
            ds_text_add(out, NAMES[group]);
        }
    }
    ds_text_char(out, '.');
}

static void say_problem(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    const ds_problem *const problem = ds_finding_problem(findings, finding);
    if (!problem) {
        ds_text_add(out, "Something in this point or its place is not understood.");
        return;
    }
    ds_text_add(out, "Line ");
    ds_text_int(out, problem->where.line);
    ds_text_add(out, ": ");
    ds_problem_say(out, problem);
    ds_text_char(out, '.');
}

static void say_mark(ds_text *const out, const ds_finding *const finding)
{
    if (finding->reading.status >= DS_READ_QUESTION && finding->reading.notes_len) {
        ds_text_add(out, "The mark cannot be counted as it stands: ");
        ds_reading_because(out, &finding->reading);
    } else if (!finding->has_mark) {
        ds_text_add(out, "No mark is given, so nothing is shown.");
    } else {
        ds_text_add(out, "Not shown: ");
        add_lost(out, finding->lost);
        ds_text_char(out, '.');
    }
    add_because(out, finding->deciding);
}

static void say_open(ds_text *const out, const ds_finding *const finding)
{
    for (size_t i = 0; i < finding->reasons_len; i++) {
        const ds_reason *const reason = &finding->reasons[i];
        if (reason->decides && reason->truth == DS_MAYBE) {
            ds_text_add(out, "Not stated: ");
            ds_say_missing(out, &reason->missing);
            ds_text_char(out, '.');
        }
    }
    add_because(out, finding->deciding);
}

static void say_rated(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    ds_text_add(out, "Not shown: ");
    ds_say_rule_effect(out, findings->book, finding->deciding);
    ds_text_char(out, '.');
    add_because(out, finding->deciding);
}

static void say_bar(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    if (finding->deciding->bars.at) {
        ds_text_adds(out, finding->deciding->bars);
    } else {
        ds_text_add(out, "The maker's limit is short of: ");
        ds_say_rule_effect(out, findings->book, finding->deciding);
        ds_text_char(out, '.');
    }
    add_because(out, finding->deciding);
}

static void say_fit(ds_text *const out, const ds_finding *const finding)
{
    if (finding->needed == DS_NEED_NOTHING) {
        ds_text_add(out, "No rule asks for a code here.");
        return;
    }
    ds_text_add(out, "The mark covers ");
    ds_need_print(out, finding->needed);
    ds_text_char(out, '.');
    add_because(out, finding->deciding);
}

void ds_say_deciding(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    switch (finding->obstacle) {
    case DS_OBSTACLE_NONE:
        say_fit(out, finding);
        break;
    case DS_OBSTACLE_BAR:
        say_bar(out, findings, finding);
        break;
    case DS_OBSTACLE_SHORT:
        say_short(out, finding);
        break;
    case DS_OBSTACLE_REFUSED:
        ds_text_add(out, "An explosive atmosphere is possible here, which is outside what this can judge.");
        break;
    case DS_OBSTACLE_PROBLEM:
        say_problem(out, findings, finding);
        break;
    case DS_OBSTACLE_NO_RULES:
        ds_text_add(out, "The job names no rule pack, so there is nothing to judge by.");
        break;
    case DS_OBSTACLE_ZONE:
        ds_text_add(out, "The place has zones and the point's zone is not stated.");
        break;
    case DS_OBSTACLE_UNANSWERED:
        say_unanswered(out, finding);
        break;
    case DS_OBSTACLE_SPOILT:
        ds_text_add(out, "What was found takes the mark away until it is put right: ");
        ds_say_list(out, finding->point->found.words, ", ");
        ds_text_char(out, '.');
        break;
    case DS_OBSTACLE_STATE:
        ds_text_add(out, "A mark counts only under a condition, and no normal state is stated.");
        break;
    case DS_OBSTACLE_MARK:
    case DS_OBSTACLE_TEST:
        say_mark(out, finding);
        break;
    case DS_OBSTACLE_FACT:
        say_open(out, finding);
        break;
    case DS_OBSTACLE_MATERIAL:
    case DS_OBSTACLE_RATED:
        say_rated(out, findings, finding);
        break;
    }
}

/* --- one need against one mark ------------------------------------------------------------------------------------ */

void ds_say_comparison(ds_text *const out, const ds_need need, const ds_reading *const reading)
{
    ds_need lost = DS_NEED_NOTHING;
    const ds_verdict verdict = ds_mark_compare(need, reading->mark, &lost);
    if (verdict == DS_FITS) {
        ds_text_add(out, "Every needed test is proven.");
    } else {
        ds_text_add(out, verdict == DS_SHORT ? "Not covered: " : "Not shown: ");
        add_lost(out, lost);
        ds_text_char(out, '.');
    }
    if (reading->notes_len) {
        ds_text_char(out, ' ');
        ds_reading_because(out, reading);
    }
}
