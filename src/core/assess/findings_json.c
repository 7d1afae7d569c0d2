/* SPDX-License-Identifier: MIT */
/* Findings as JSON: the form that page, papers and tests read. Sentences come from say.h. */
#include "core/assess/render.h"

#include "core/assess/climate_json.h"
#include "core/assess/say.h"
#include "core/box/entry_say.h"
#include "core/zone/json.h"

#include <math.h>

/* Writer, and a scratch text for one sentence at a time. */
typedef struct sheet {
    ds_json_writer w;
    ds_text line;
    const ds_findings *findings;
} sheet;

static void put_line(sheet *const s, const char *const key)
{
    ds_json_put_key(&s->w, key);
    if (s->line.len) {
        ds_json_put_str(&s->w, ds_text_str(&s->line));
    } else {
        ds_json_put_null(&s->w);
    }
    if (!ds_text_ok(&s->line)) {
        s->w.text->failed = true;
    }
    s->line.len = 0;
}

static void put_str(sheet *const s, const char *const key, const ds_str value)
{
    ds_json_put_key(&s->w, key);
    if (value.at) {
        ds_json_put_str(&s->w, value);
    } else {
        ds_json_put_null(&s->w);
    }
}

static void put_text(sheet *const s, const char *const key, const char *const value)
{
    ds_json_put_key(&s->w, key);
    ds_json_put_text(&s->w, value);
}

static void put_number(sheet *const s, const char *const key, const double value)
{
    if (!isnan(value)) {
        ds_json_put_key(&s->w, key);
        ds_json_put_number(&s->w, value);
    }
}

/* --- protection --------------------------------------------------------------------------------------------------- */

/* The code without impact. */
static ds_need without_impact(const ds_need need)
{
    return (need & ~((ds_need)15 << 38)) | (ds_need)DS_IMPACT_OPEN << 42;
}

static void put_access(sheet *const s, const uint64_t tests)
{
    static const char *const LETTERS[] = {"A", "B", "C", "D"};
    const char *letter = NULL;
    for (int i = 0; i < DS_ACCESS_LEN; i++) {
        letter = tests & DS_ACCESS('A' + i) ? LETTERS[i] : letter;
    }
    put_text(s, "access", letter);
}

static void put_ik(sheet *const s, const unsigned grade)
{
    if (grade && grade <= 11) {
        ds_text_add(&s->line, grade < 10 ? "IK0" : "IK");
        ds_text_int(&s->line, grade);
    } else if (grade) {
        ds_text_add(&s->line, "beyond IK11");
    }
    put_line(s, "ik");
}

static void put_needed(sheet *const s, const char *const key, const ds_need need,
                       const ds_finding *const finding)
{
    ds_json_put_key(&s->w, key);
    ds_json_begin_object(&s->w);
    const ds_need code = without_impact(finding ? ds_finding_code(finding) : need);
    if (code != DS_NEED_NOTHING) {
        ds_need_print(&s->line, code);
    }
    put_line(s, "ip");
    put_ik(s, ds_mark_impact(need));
    put_access(s, ds_mark_proven(need));
    if (finding) {
        put_number(s, "rated_c", finding->rated_c);
        put_number(s, "cold_c", finding->cold_c);
        ds_json_put_key(&s->w, "surface_d");
        ds_json_put_bool(&s->w, finding->surface_d);
    }
    ds_json_end_object(&s->w);
}

static void put_marked(sheet *const s, const ds_finding *const finding)
{
    if (!finding->point->marked_len) {
        put_text(s, "marked", NULL);
        return;
    }
    ds_say_marked(&s->line, finding->point);
    put_line(s, "marked");
}

/* What each entry and opening leaves against what is needed, and what would restore it. */
static void put_part(sheet *const s, const ds_finding *const finding, const ds_part *const part)
{
    ds_json_begin_object(&s->w);
    ds_say_part_name(&s->line, part);
    put_line(s, "part");
    put_text(s, "outcome", ds_verdict_word(ds_mark_compare(finding->needed, part->mark, NULL)));
    ds_say_part(&s->line, finding->installed, part, finding->needed);
    put_line(s, "why");
    ds_say_part_mend(&s->line, finding->installed, part, finding->needed);
    put_line(s, "mend");
    ds_say_part_notes(&s->line, finding->installed, part);
    put_line(s, "notes");
    ds_json_end_object(&s->w);
}

/* The code that is left; null where the entries are not listed. */
static void put_installed(sheet *const s, const ds_finding *const finding)
{
    if (!finding->installed || !finding->installed->entries_stated) {
        put_text(s, "installed", NULL);
        return;
    }
    ds_json_put_key(&s->w, "installed");
    ds_json_begin_object(&s->w);
    if (finding->marked != DS_MARK_SILENT) {
        ds_mark_print(&s->line, finding->marked);
    }
    put_line(s, "code");
    ds_json_put_key(&s->w, "parts");
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < finding->installed->parts_len; i++) {
        put_part(s, finding, &finding->installed->parts[i]);
    }
    ds_json_end_array(&s->w);
    ds_json_end_object(&s->w);
}

static void put_test(void *const ctx, const ds_str test)
{
    ds_json_put_str(&((sheet *)ctx)->w, test);
}

static void put_lost(sheet *const s, const ds_need lost)
{
    ds_json_put_key(&s->w, "lost");
    ds_json_begin_array(&s->w);
    ds_need_each(lost, put_test, s);
    ds_json_end_array(&s->w);
}

/* --- reasons ------------------------------------------------------------------------------------------------------ */

static void put_source(sheet *const s, const ds_source *const source)
{
    ds_json_put_key(&s->w, "source");
    ds_json_begin_object(&s->w);
    put_text(s, "kind", ds_source_kind_word(source->kind));
    put_str(s, "ref", source->ref);
    ds_json_end_object(&s->w);
}

static void put_reason(sheet *const s, const ds_reason *const reason)
{
    const ds_rule *const rule = reason->rule;
    ds_json_begin_object(&s->w);
    put_str(s, "rule", rule->id);
    put_str(s, "clause", rule->clause);
    put_str(s, "edition", rule->edition);
    put_text(s, "grade", ds_grade_word(rule->grade));
    ds_say_rule_effect(&s->line, s->findings->book, rule);
    put_line(s, rule->bars.at ? "bars" : rule->question.at ? "asks" : "needs");
    put_str(s, "because", rule->because);
    put_source(s, &rule->source);
    put_text(s, "outcome", ds_verdict_word(reason->outcome));
    ds_json_put_key(&s->w, "decides");
    ds_json_put_bool(&s->w, reason->decides);
    if (reason->truth == DS_MAYBE) {
        ds_say_missing(&s->line, &reason->missing);
        put_line(s, "missing");
    }
    ds_json_end_object(&s->w);
}

/* Reasons that hold, or those that are open for want of a fact. */
static void put_reasons(sheet *const s, const ds_finding *const finding, const char *const key,
                        const ds_truth truth)
{
    ds_json_put_key(&s->w, key);
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < finding->reasons_len; i++) {
        if (finding->reasons[i].truth == truth && !finding->reasons[i].covered) {
            put_reason(s, &finding->reasons[i]);
        }
    }
    ds_json_end_array(&s->w);
}

static void put_remarks(sheet *const s, const ds_finding *const finding)
{
    ds_json_put_key(&s->w, "remarks");
    ds_json_begin_array(&s->w);
    for (int i = 0; i < DS_REMARKS; i++) {
        if (finding->remarks >> i & 1) {
            ds_say_remark(&s->line, finding, (ds_remark_code)i);
            ds_json_put_str(&s->w, ds_text_str(&s->line));
            s->line.len = 0;
        }
    }
    ds_json_end_array(&s->w);
}

static void put_cautions(sheet *const s, const ds_finding *const finding)
{
    ds_json_put_key(&s->w, "cautions");
    ds_json_begin_array(&s->w);
    for (int i = 0; finding->where && i < DS_ZONE_CAUTIONS; i++) {
        if (finding->where->cautions >> i & 1) {
            ds_zone_say_caution(&s->line, finding->where, (ds_zone_caution)i);
            ds_json_put_str(&s->w, ds_text_str(&s->line));
            s->line.len = 0;
        }
    }
    for (size_t i = 0; i < finding->reasons_len; i++) {
        if (ds_reason_cautions(&finding->reasons[i])) {
            ds_say_caution(&s->line, s->findings->book, finding->reasons[i].rule);
            ds_json_put_str(&s->w, ds_text_str(&s->line));
            s->line.len = 0;
        }
    }
    ds_json_end_array(&s->w);
}

/* --- a point ------------------------------------------------------------------------------------------------------ */

static void put_state(sheet *const s, const ds_finding *const finding)
{
    ds_json_put_key(&s->w, "deciding_state");
    const ds_json *state = finding->state >= 0 ? finding->point->states->first : NULL;
    for (int32_t i = 0; state && i < finding->state; i++) {
        state = state->next;
    }
    if (state) {
        ds_json_put_tree(&s->w, state);
    } else {
        ds_json_put_null(&s->w);
    }
}

/* Where it stands by the plan; null when no plan tells. */
static void put_position(sheet *const s, const ds_finding *const finding)
{
    ds_json_put_key(&s->w, "position");
    if (finding->where) {
        ds_json_begin_object(&s->w);
        ds_zone_answer_json(&s->w, finding->where, ds_finding_map(s->findings, finding));
        ds_json_end_object(&s->w);
    } else {
        ds_json_put_null(&s->w);
    }
}

static void put_point(sheet *const s, const ds_finding *const finding)
{
    ds_json_begin_object(&s->w);
    put_str(s, "id", finding->point->id);
    put_str(s, "name", finding->point->name);
    put_str(s, "place", finding->point->place_id);
    ds_json_put_key(&s->w, "count");
    ds_json_put_number(&s->w, finding->point->count);
    put_text(s, "verdict", ds_verdict_word(finding->verdict));
    ds_say_deciding(&s->line, s->findings, finding);
    put_line(s, "deciding");
    ds_say_remedy(&s->line, s->findings, finding);
    put_line(s, "remedy");
    put_str(s, "zone", finding->zone);
    put_position(s, finding);
    put_needed(s, "needed", finding->needed, finding);
    put_needed(s, "advised", finding->advised, NULL);
    put_marked(s, finding);
    put_installed(s, finding);
    put_text(s, "judged_on", ds_finding_judged_on(finding));
    ds_climate_json(&s->w, finding->climate);
    put_state(s, finding);
    put_lost(s, finding->lost);
    put_remarks(s, finding);
    put_reasons(s, finding, "reasons", DS_YES);
    put_reasons(s, finding, "open", DS_MAYBE);
    put_cautions(s, finding);
    ds_json_end_object(&s->w);
}

static bool put_points(sheet *const s, const ds_drain *const drain)
{
    ds_json_put_key(&s->w, "points");
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < s->findings->points_len; i++) {
        put_point(s, &s->findings->points[i]);
        if (drain && !drain->take(drain->ctx, s->w.text)) {
            return false;
        }
    }
    ds_json_end_array(&s->w);
    return true;
}

/* --- the whole job ------------------------------------------------------------------------------------------------ */

static void put_packs(sheet *const s)
{
    ds_json_put_key(&s->w, "packs");
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < s->findings->packs_len; i++) {
        const ds_pack *const pack = s->findings->packs[i];
        ds_json_begin_object(&s->w);
        put_str(s, "id", pack->id);
        put_str(s, "edition", pack->edition);
        if (ds_pack_notice(&s->line, pack, s->findings->job->date)) {
            put_line(s, "notice");
        }
        ds_json_end_object(&s->w);
    }
    ds_json_end_array(&s->w);
}

static void put_summary(sheet *const s)
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

static void put_question(sheet *const s, const ds_question *const question)
{
    ds_json_begin_object(&s->w);
    put_text(s, "whom", ds_whom_word(question->whom));
    put_str(s, "question", question->text);
    put_str(s, "rule", question->rule ? question->rule->id : (ds_str){0});
    put_str(s, "because", question->rule ? question->rule->because : (ds_str){0});
    ds_json_put_key(&s->w, "points");
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < question->points_len; i++) {
        ds_json_put_str(&s->w, s->findings->points[question->points[i]].point->id);
    }
    ds_json_end_array(&s->w);
    ds_json_end_object(&s->w);
}

static void put_questions(sheet *const s)
{
    ds_json_put_key(&s->w, "questions");
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < s->findings->questions_len; i++) {
        put_question(s, &s->findings->questions[i]);
    }
    ds_json_end_array(&s->w);
}

static void put_problem(sheet *const s, const ds_problem *const problem)
{
    ds_json_begin_object(&s->w);
    put_str(s, "pointer", problem->where.pointer);
    ds_json_put_key(&s->w, "line");
    ds_json_put_int(&s->w, problem->where.line);
    ds_json_put_key(&s->w, "column");
    ds_json_put_int(&s->w, problem->where.column);
    ds_problem_say(&s->line, problem);
    put_line(s, "problem");
    ds_problem_mend(&s->line, problem);
    put_line(s, "remedy");
    ds_json_end_object(&s->w);
}

static void put_problems(sheet *const s)
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

static void put_standing_cautions(sheet *const s)
{
    ds_json_put_key(&s->w, "cautions");
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < ds_cautions_len(); i++) {
        ds_json_put_text(&s->w, ds_caution(i));
    }
    ds_json_end_array(&s->w);
}

void ds_findings_json(ds_text *const out, const ds_findings *const findings, const ds_drain *const drain)
{
    sheet s = {.w = ds_json_writer_on(out), .findings = findings};
    ds_text_init(&s.line, out->alloc);
    ds_json_begin_object(&s.w);
    put_text(&s, "program", "dripstone " DS_PROGRAM_VERSION);
    put_str(&s, "title", findings->job->title);
    put_str(&s, "date", findings->job->date);
    put_packs(&s);
    put_summary(&s);
    if (put_points(&s, drain)) {
        put_questions(&s);
        put_problems(&s);
        put_standing_cautions(&s);
        ds_json_end_object(&s.w);
        ds_text_char(out, '\n');
    }
    ds_text_free(&s.line);
}
