/* SPDX-License-Identifier: MIT */
/* What stands below the points: advice that changes no verdict, questions, problems of the document, cautions. */
#include "cli/check.h"

enum { POINTS_NAMED = 12 };

/* "P1, P2, P3 and 37 more" as one quiet line. */
static void put_points(ds_report *const report, const uint32_t *const points, const size_t len)
{
    ds_text *const say = &report->say;
    for (size_t i = 0; i < len && i < POINTS_NAMED; i++) {
        ds_text_add(say, i ? ", " : "");
        ds_text_adds(say, report->findings->points[points[i]].point->id);
    }
    if (len > POINTS_NAMED) {
        ds_text_add(say, " and ");
        ds_text_int(say, (int64_t)(len - POINTS_NAMED));
        ds_text_add(say, " more");
    }
    ds_report_take(report, DS_QUIET);
    ds_page_break(report->page, 4, 4);
}

/* --- advice ------------------------------------------------------------------------------------------------------- */

/* A rule of guidance or judgement that is not met, with the first points and how many there are. */
typedef struct advice {
    const ds_rule *rule;
    uint32_t points[POINTS_NAMED];
    size_t len;
} advice;

typedef struct advices {
    advice *at; /* room for every rule of the job's packs */
    size_t len, room;
} advices;

static void note_advice(advices *const list, const ds_rule *const rule, const uint32_t point)
{
    size_t i = 0;
    while (i < list->len && list->at[i].rule != rule) {
        i++;
    }
    if (i == list->room) {
        return;
    }
    if (i == list->len) {
        list->at[list->len++] = (advice){.rule = rule};
    }
    advice *const found = &list->at[i];
    if (found->len < POINTS_NAMED) {
        found->points[found->len] = point;
    }
    found->len++;
}

static void collect_advice(const ds_findings *const findings, advices *const list)
{
    for (size_t i = 0; i < findings->points_len; i++) {
        const ds_finding *const finding = &findings->points[i];
        for (size_t j = 0; j < finding->reasons_len; j++) {
            if (ds_reason_cautions(&finding->reasons[j])) {
                note_advice(list, finding->reasons[j].rule, (uint32_t)i);
            }
        }
    }
}

static void put_advice(ds_report *const report, const advices *const list)
{
    if (list->len) {
        ds_report_heading(report, "Advice (changes no verdict)");
    }
    for (size_t i = 0; i < list->len; i++) {
        ds_say_caution(&report->say, report->findings->book, list->at[i].rule);
        ds_report_take(report, DS_PLAIN);
        ds_page_break(report->page, 2, 4);
        put_points(report, list->at[i].points, list->at[i].len);
    }
}

void ds_check_advice(ds_report *const report)
{
    advices list = {.room = 0};
    for (size_t i = 0; i < report->findings->packs_len; i++) {
        list.room += report->findings->packs[i]->rules_len;
    }
    const ds_alloc *const alloc = report->page->host->alloc;
    list.at = alloc->resize(alloc->ctx, NULL, 0, (list.room + 1) * sizeof *list.at);
    if (!list.at) {
        report->say.failed = true;
        return;
    }
    collect_advice(report->findings, &list);
    put_advice(report, &list);
    alloc->resize(alloc->ctx, list.at, 0, 0);
}

/* --- questions ---------------------------------------------------------------------------------------------------- */

static void put_question(ds_report *const report, const ds_question *const question)
{
    ds_say_question(&report->say, report->findings, question);
    ds_report_take(report, DS_PLAIN);
    ds_page_break(report->page, 2, 4);
    put_points(report, question->points, question->points_len);
}

void ds_check_questions(ds_report *const report)
{
    const ds_findings *const findings = report->findings;
    for (size_t i = 0; i < findings->questions_len; i++) {
        const ds_question *const question = &findings->questions[i];
        if (i == 0 || question->whom != findings->questions[i - 1].whom) {
            ds_report_heading(report, ds_whom_heading(question->whom));
        }
        put_question(report, question);
    }
}

/* --- problems ----------------------------------------------------------------------------------------------------- */

static void put_problem(ds_report *const report, const ds_problem *const problem)
{
    ds_text *const say = &report->say;
    ds_text_adds(say, report->file);
    if (problem->where.line) {
        ds_text_char(say, ':');
        ds_text_int(say, problem->where.line);
        ds_text_char(say, ':');
        ds_text_int(say, problem->where.column);
    }
    ds_report_take(report, DS_STRONG);
    ds_text_add(say, "  ");
    ds_problem_say(say, problem);
    ds_text_add(say, say->len && say->at[say->len - 1] == '?' ? "" : ".");
    ds_report_take(report, DS_PLAIN);
    ds_page_break(report->page, 2, 4);
    ds_problem_mend(say, problem);
    ds_report_take(report, DS_QUIET);
    ds_page_break(report->page, 4, 4);
}

void ds_check_problems(ds_report *const report)
{
    const ds_job *const job = report->findings->job;
    if (!job->problems.len) {
        return;
    }
    ds_report_heading(report, "Mend in the document");
    for (size_t i = 0; i < job->problems.len; i++) {
        put_problem(report, &job->problems.at[i]);
    }
    if (job->problems_unlisted) {
        ds_text_add(&report->say, "and ");
        ds_text_int(&report->say, (int64_t)job->problems_unlisted);
        ds_text_add(&report->say, " more that are not listed");
        ds_report_take(report, DS_PLAIN);
        ds_page_break(report->page, 2, 4);
    }
}

/* --- cautions ----------------------------------------------------------------------------------------------------- */

void ds_check_cautions(ds_report *const report)
{
    ds_report_heading(report, "Cautions");
    for (size_t i = 0; i < ds_cautions_len(); i++) {
        ds_page_add(report->page, DS_QUIET, ds_caution(i));
        ds_page_break(report->page, 2, 4);
    }
}
