/* SPDX-License-Identifier: MIT */
/* Sentences about the job as a whole, and those that stand beside a rule or a question wherever one is shown. */
#include "core/assess/say.h"

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
    for (int verdict = DS_BARRED; verdict >= DS_FITS; verdict--) {
        const size_t count = findings->counted[verdict];
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
        ds_text_add(out, (count == 1 ? ONE : MANY)[verdict]);
    }
    ds_text_char(out, '.');
}

ds_verdict ds_findings_worst(const ds_findings *const findings)
{
    for (int verdict = DS_BARRED; verdict > DS_FITS; verdict--) {
        if (findings->counted[verdict]) {
            return (ds_verdict)verdict;
        }
    }
    return findings->points_len ? DS_FITS : DS_UNKNOWN;
}

void ds_say_headline(ds_text *const out, const ds_findings *const findings)
{
    if (!findings->points_len) {
        ds_text_add(out, "The job lists no points, so there is nothing to judge.");
    } else if (ds_findings_worst(findings) == DS_FITS) {
        say_all_fit(out, findings->points_len);
    } else {
        say_counts(out, findings);
    }
}

bool ds_say_state(ds_text *const out, const ds_finding *const finding)
{
    const ds_json *state =
        finding->state >= 0 && finding->point->states ? finding->point->states->first : NULL;
    for (int32_t i = 0; state && i < finding->state; i++) {
        state = state->next;
    }
    if (state) {
        ds_say_list(out, state, " + ");
    }
    return state != NULL;
}

void ds_say_origin(ds_text *const out, const ds_rule *const rule)
{
    if (!ds_str_is(rule->clause, "-") && rule->clause.len) {
        ds_text_adds(out, rule->clause);
        ds_text_add(out, ", ");
    }
    ds_text_adds(out, rule->edition);
    ds_text_add(out, rule->edition.len ? "; " : "");
    ds_text_add(out, ds_grade_word(rule->grade));
    ds_text_add(out, "; ");
    ds_text_add(out, ds_source_kind_word(rule->source.kind));
    if (rule->source.ref.len) {
        ds_text_add(out, ": ");
        ds_text_adds(out, rule->source.ref);
    }
}

/* A rule's own question stands for itself; one made for a rule's need says which need and why. */
void ds_say_question(ds_text *const out, const ds_findings *const findings, const ds_question *const question)
{
    ds_text_adds(out, question->text);
    if (question->rule) {
        ds_text_char(out, ' ');
        if (!question->rule->question.at) {
            ds_text_char(out, '(');
            ds_say_rule_effect(out, findings->book, question->rule);
            ds_text_add(out, ") ");
        }
        ds_text_adds(out, question->rule->because);
    }
}

const char *ds_whom_heading(const ds_whom whom)
{
    static const char *const HEADS[DS_WHOMS] = {[DS_WHOM_CLIENT] = "Ask the client",
                                                [DS_WHOM_MAKER] = "Ask the maker",
                                                [DS_WHOM_SITE] = "Look on site",
                                                [DS_WHOM_DESIGNER] = "Ask the designer"};
    return HEADS[whom];
}
