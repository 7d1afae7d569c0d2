/* SPDX-License-Identifier: MIT */
/* Findings as JSON: the form that page, papers and tests read. */
#include "core/assess/finding_json.h"
#include "core/assess/render.h"
#include "core/assess/say.h"

static bool put_points(ds_finding_writer *const s, const ds_drain *const drain,
                       void (*const put)(ds_finding_writer *, const ds_finding *))
{
    ds_json_put_key(&s->w, "points");
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < s->findings->points_len; i++) {
        put(s, &s->findings->points[i]);
        if (drain && !drain->take(drain->ctx, s->w.text)) {
            return false;
        }
    }
    ds_json_end_array(&s->w);
    return true;
}

/* --- the whole job ------------------------------------------------------------------------------------------------ */

void ds_packs_json(ds_finding_writer *const s)
{
    ds_json_put_key(&s->w, "packs");
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < s->findings->packs_len; i++) {
        const ds_pack *const pack = s->findings->packs[i];
        ds_json_begin_object(&s->w);
        ds_put_str(s, "id", pack->id);
        ds_put_str(s, "edition", pack->edition);
        if (ds_pack_notice(&s->line, pack, s->findings->job->date)) {
            ds_put_line(s, "notice");
        }
        ds_json_end_object(&s->w);
    }
    ds_json_end_array(&s->w);
}

static void put_summary(ds_finding_writer *const s)
{
    static const ds_verdict ORDER[] = {DS_BARRED, DS_SHORT, DS_UNKNOWN, DS_FITS};
    ds_json_put_key(&s->w, "counted");
    ds_json_begin_object(&s->w);
    for (size_t i = 0; i < 4; i++) {
        ds_json_put_key(&s->w, ds_verdict_word(ORDER[i]));
        ds_json_put_int(&s->w, (int64_t)s->findings->counted[ORDER[i]]);
    }
    ds_json_end_object(&s->w);
}

static void put_question(ds_finding_writer *const s, const ds_question *const question)
{
    ds_json_begin_object(&s->w);
    ds_put_text(s, "whom", ds_whom_word(question->whom));
    ds_put_str(s, "question", question->text);
    ds_put_str(s, "rule", question->rule ? question->rule->id : (ds_str){0});
    ds_put_str(s, "because", question->rule ? question->rule->because : (ds_str){0});
    ds_json_put_key(&s->w, "points");
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < question->points_len; i++) {
        ds_json_put_str(&s->w, s->findings->points[question->points[i]].point->id);
    }
    ds_json_end_array(&s->w);
    ds_json_end_object(&s->w);
}

static void put_questions(ds_finding_writer *const s)
{
    ds_json_put_key(&s->w, "questions");
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < s->findings->questions_len; i++) {
        put_question(s, &s->findings->questions[i]);
    }
    ds_json_end_array(&s->w);
}

static void put_problem(ds_finding_writer *const s, const ds_problem *const problem)
{
    ds_json_begin_object(&s->w);
    ds_put_str(s, "pointer", problem->where.pointer);
    ds_json_put_key(&s->w, "line");
    ds_json_put_int(&s->w, problem->where.line);
    ds_json_put_key(&s->w, "column");
    ds_json_put_int(&s->w, problem->where.column);
    ds_problem_say(&s->line, problem);
    ds_put_line(s, "problem");
    ds_problem_mend(&s->line, problem);
    ds_put_line(s, "remedy");
    ds_json_end_object(&s->w);
}

static void put_problems(ds_finding_writer *const s)
{
    const ds_job *const job = s->findings->job;
    ds_json_put_key(&s->w, "problems");
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < job->problems.len; i++) {
        put_problem(s, &job->problems.at[i]);
    }
    ds_json_end_array(&s->w);
    ds_json_put_key(&s->w, "problems_unlisted");
    ds_json_put_int(&s->w, (int64_t)job->problems_unlisted);
}

static void put_standing_cautions(ds_finding_writer *const s)
{
    ds_json_put_key(&s->w, "cautions");
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < ds_cautions_len(); i++) {
        ds_json_put_text(&s->w, ds_caution(i));
    }
    ds_json_end_array(&s->w);
}

/* Whole, or brief and without drain. */
static void put_findings(ds_text *const out, const ds_findings *const findings, const ds_drain *const drain,
                         void (*const put)(ds_finding_writer *, const ds_finding *))
{
    ds_finding_writer s = {.w = ds_json_writer_on(out), .findings = findings};
    ds_text_init(&s.line, out->alloc);
    ds_json_begin_object(&s.w);
    ds_put_text(&s, "program", "dripstone " DS_PROGRAM_VERSION);
    ds_put_str(&s, "title", findings->job->title);
    ds_put_str(&s, "date", findings->job->date);
    ds_packs_json(&s);
    put_summary(&s);
    if (put_points(&s, drain, put)) {
        put_questions(&s);
        put_problems(&s);
        put_standing_cautions(&s);
        ds_json_end_object(&s.w);
        ds_text_char(out, '\n');
    }
    ds_text_free(&s.line);
}

void ds_findings_json(ds_text *const out, const ds_findings *const findings, const ds_drain *const drain)
{
    put_findings(out, findings, drain, ds_finding_json);
}

void ds_findings_brief_json(ds_text *const out, const ds_findings *const findings)
{
    put_findings(out, findings, NULL, ds_finding_brief_json);
}
