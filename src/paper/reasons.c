/* SPDX-License-Identifier: MIT */
/* Every reason in full, once for all points that have the same ones; and the questions that are still open. */
#include "paper/parts.h"

static void put_reason(ds_parts *const p, const ds_reason *const reason)
{
    ds_text *const say = &p->say;
    ds_text_add(say, ds_verdict_shape(reason->outcome, false));
    ds_text_add(say, reason->truth == DS_MAYBE ? " open: " : reason->decides ? " decides: " : " ");
    ds_say_rule_effect(say, p->findings->book, reason->rule);
    if (say->len && say->at[say->len - 1] != '.' && say->at[say->len - 1] != '?') {
        ds_text_char(say, '.');
    }
    ds_text_char(say, ' ');
    ds_text_adds(say, reason->rule->because);
    if (reason->truth == DS_MAYBE) {
        ds_text_add(say, " Missing: ");
        ds_say_missing(say, &reason->missing);
        ds_text_char(say, '.');
    }
    ds_text_add(say, " [");
    ds_text_adds(say, reason->rule->id);
    ds_text_add(say, "; ");
    ds_say_origin(say, reason->rule);
    ds_text_char(say, ']');
    ds_parts_put(p, DS_TYPEFACE_BODY, 6);
}

/* What decides comes first, then what applies, then what is open. */
static void put_reasons(ds_parts *const p, const ds_finding *const finding)
{
    size_t covered = 0;
    for (int pass = 0; pass < 3; pass++) {
        for (size_t i = 0; i < finding->reasons_len; i++) {
            const ds_reason *const reason = &finding->reasons[i];
            const int place = reason->decides ? 0 : reason->truth == DS_YES ? 1 : 2;
            if (!reason->covered && place == pass) {
                put_reason(p, reason);
            }
            covered += pass == 0 && reason->covered;
        }
    }
    if (covered) {
        ds_text_add(&p->say, "Rules that ask for less than these and are covered by them: ");
        ds_text_int(&p->say, (int64_t)covered);
        ds_text_char(&p->say, '.');
        ds_parts_put(p, DS_TYPEFACE_QUIET, 6);
    }
}

void ds_part_reasons(ds_parts *const p)
{
    ds_alikes groups;
    if (!ds_alikes_make(&groups, p, ds_alike_by_reasons, true)) {
        return;
    }
    ds_parts_begin(p, "Reasons");
    for (size_t i = 0; i < groups.len; i++) {
        const ds_finding *const *const points = groups.points + groups.at[i].first;
        ds_pdf_need(&p->pdf, 14);
        for (size_t j = 0; j < groups.at[i].len; j++) {
            ds_text_add(&p->say, j ? ", " : "");
            ds_text_adds(&p->say, points[j]->point->id);
        }
        ds_parts_put(p, DS_TYPEFACE_STRONG, 0);
        put_reasons(p, points[0]);
        if (!points[0]->reasons_len) {
            ds_pdf_paragraph(&p->pdf, DS_TYPEFACE_BODY, 6, DS_STR("No rule of the packs applies."));
        }
        ds_pdf_gap(&p->pdf, 1.5);
    }
}

static void put_question(ds_parts *const p, const ds_question *const question)
{
    ds_say_question(&p->say, p->findings, question);
    ds_text_add(&p->say, " – ");
    for (size_t i = 0; i < question->points_len && i < DS_IDS_NAMED; i++) {
        ds_text_add(&p->say, i ? ", " : "");
        ds_text_adds(&p->say, p->findings->points[question->points[i]].point->id);
    }
    if (question->points_len > DS_IDS_NAMED) {
        ds_text_add(&p->say, " and ");
        ds_text_int(&p->say, (int64_t)(question->points_len - DS_IDS_NAMED));
        ds_text_add(&p->say, " more");
    }
    ds_parts_put(p, DS_TYPEFACE_BODY, 0);
}

void ds_part_questions(ds_parts *const p)
{
    const ds_findings *const f = p->findings;
    if (!f->questions_len) {
        return;
    }
    ds_parts_begin(p, "Questions to settle");
    for (size_t i = 0; i < f->questions_len; i++) {
        if (i == 0 || f->questions[i].whom != f->questions[i - 1].whom) {
            ds_pdf_heading(&p->pdf, 2, ds_str_of(ds_whom_heading(f->questions[i].whom)));
        }
        put_question(p, &f->questions[i]);
    }
}
