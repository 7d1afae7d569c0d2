/* SPDX-License-Identifier: MIT */
/* What stands below the points: advice that changes no verdict, questions, problems of the document, cautions. */
#include "cli/check.h"

enum { POINTS_NAMED = 12 };

/* "P1, P2, P3 and 37 more" as one quiet line. */
static void put_points(ds_sheet *const sheet, const uint32_t *const points, const size_t len)
{
    ds_text *const say = &sheet->say;
    for (size_t i = 0; i < len && i < POINTS_NAMED; i++) {
        ds_text_add(say, i ? ", " : "");
        ds_text_adds(say, sheet->findings->points[points[i]].point->id);
    }
    if (len > POINTS_NAMED) {
        ds_text_add(say, " and ");
        ds_text_int(say, (int64_t)(len - POINTS_NAMED));
        ds_text_add(say, " more");
    }
    ds_sheet_take(sheet, DS_QUIET);
    ds_page_break(sheet->page, 4, 4);
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

static void put_advice(ds_sheet *const sheet, const advices *const list)
{
    if (list->len) {
        ds_sheet_heading(sheet, "Advice (changes no verdict)");
    }
    for (size_t i = 0; i < list->len; i++) {
        ds_say_caution(&sheet->say, sheet->findings->book, list->at[i].rule);
        ds_sheet_take(sheet, DS_PLAIN);
        ds_page_break(sheet->page, 2, 4);
        put_points(sheet, list->at[i].points, list->at[i].len);
    }
}

void ds_check_advice(ds_sheet *const sheet)
{
    advices list = {.room = 0};
    for (size_t i = 0; i < sheet->findings->packs_len; i++) {
        list.room += sheet->findings->packs[i]->rules_len;
    }
    const ds_alloc *const alloc = sheet->page->host->alloc;
    list.at = alloc->resize(alloc->ctx, NULL, 0, (list.room + 1) * sizeof *list.at);
    if (!list.at) {
        sheet->say.failed = true;
        return;
    }
    collect_advice(sheet->findings, &list);
    put_advice(sheet, &list);
    alloc->resize(alloc->ctx, list.at, 0, 0);
}

/* --- questions ---------------------------------------------------------------------------------------------------- */

/* A rule's own question stands for itself; one made for a rule's need says which need and why. */
static void put_question(ds_sheet *const sheet, const ds_question *const question)
{
    ds_page_adds(sheet->page, DS_PLAIN, question->text);
    if (question->rule) {
        ds_page_add(sheet->page, DS_PLAIN, " ");
        if (!question->rule->question.at) {
            ds_text_char(&sheet->say, '(');
            ds_say_rule_effect(&sheet->say, sheet->findings->book, question->rule);
            ds_text_add(&sheet->say, ") ");
        }
        ds_text_adds(&sheet->say, question->rule->because);
        ds_sheet_take(sheet, DS_PLAIN);
    }
    ds_page_break(sheet->page, 2, 4);
    put_points(sheet, question->points, question->points_len);
}

void ds_check_questions(ds_sheet *const sheet)
{
    static const char *const HEADS[DS_WHOMS] = {[DS_WHOM_CLIENT] = "Ask the client",
                                                [DS_WHOM_MAKER] = "Ask the maker",
                                                [DS_WHOM_SITE] = "Look on site",
                                                [DS_WHOM_DESIGNER] = "Ask the designer"};
    const ds_findings *const findings = sheet->findings;
    for (size_t i = 0; i < findings->questions_len; i++) {
        const ds_question *const question = &findings->questions[i];
        if (i == 0 || question->whom != findings->questions[i - 1].whom) {
            ds_sheet_heading(sheet, HEADS[question->whom]);
        }
        put_question(sheet, question);
    }
}

/* --- problems ----------------------------------------------------------------------------------------------------- */

static void put_problem(ds_sheet *const sheet, const ds_problem *const problem)
{
    ds_text *const say = &sheet->say;
    ds_text_adds(say, sheet->file);
    if (problem->where.line) {
        ds_text_char(say, ':');
        ds_text_int(say, problem->where.line);
        ds_text_char(say, ':');
        ds_text_int(say, problem->where.column);
    }
    ds_sheet_take(sheet, DS_STRONG);
    ds_text_add(say, "  ");
    ds_problem_say(say, problem);
    ds_text_add(say, say->len && say->at[say->len - 1] == '?' ? "" : ".");
    ds_sheet_take(sheet, DS_PLAIN);
    ds_page_break(sheet->page, 2, 4);
    ds_problem_mend(say, problem);
    ds_sheet_take(sheet, DS_QUIET);
    ds_page_break(sheet->page, 4, 4);
}

void ds_check_problems(ds_sheet *const sheet)
{
    const ds_job *const job = sheet->findings->job;
    if (!job->problems.len) {
        return;
    }
    ds_sheet_heading(sheet, "Mend in the document");
    for (size_t i = 0; i < job->problems.len; i++) {
        put_problem(sheet, &job->problems.at[i]);
    }
    if (job->problems_unlisted) {
        ds_text_add(&sheet->say, "and ");
        ds_text_int(&sheet->say, (int64_t)job->problems_unlisted);
        ds_text_add(&sheet->say, " more that are not listed");
        ds_sheet_take(sheet, DS_PLAIN);
        ds_page_break(sheet->page, 2, 4);
    }
}

/* --- cautions ----------------------------------------------------------------------------------------------------- */

void ds_check_cautions(ds_sheet *const sheet)
{
    ds_sheet_heading(sheet, "Cautions");
    for (size_t i = 0; i < ds_cautions_len(); i++) {
        ds_page_add(sheet->page, DS_QUIET, ds_caution(i));
        ds_page_break(sheet->page, 2, 4);
    }
}
