/* SPDX-License-Identifier: MIT */
#include "core/answer/answer.h"

#include "core/assess/differ.h"
#include "core/assess/render.h"
#include "core/draw/box.h"
#include "core/draw/plan.h"
#include "core/draw/rungs_sheet.h"
#include "core/draw/sheet_svg.h"
#include "core/job/import.h"
#include "core/job/merge.h"
#include "core/json/write.h"

/* --- endings ------------------------------------------------------------------------------------------------------ */

static ds_answer end(ds_text *const out, const ds_answer answer)
{
    if (ds_text_ok(out) && answer != DS_ANSWER_NO_MEMORY) {
        return answer;
    }
    out->len = 0;
    return DS_ANSWER_NO_MEMORY;
}

static void put_sentence(ds_json_writer *const w, const char *const key, const ds_problem *const problem,
                         void (*const say)(ds_text *, const ds_problem *))
{
    ds_text text;
    ds_text_init(&text, w->text->alloc);
    say(&text, problem);
    ds_json_put_key(w, key);
    ds_json_put_str(w, ds_text_str(&text));
    w->text->failed = w->text->failed || !ds_text_ok(&text);
    ds_text_free(&text);
}

ds_answer ds_answer_problem(ds_text *const out, const ds_problem *const problem)
{
    out->len = 0;
    ds_json_writer w = ds_json_writer_on(out);
    ds_json_begin_object(&w);
    put_sentence(&w, "problem", problem, ds_problem_say);
    put_sentence(&w, "remedy", problem, ds_problem_mend);
    ds_json_put_key(&w, "pointer");
    ds_json_put_str(&w, problem->where.pointer);
    ds_json_put_key(&w, "line");
    ds_json_put_int(&w, problem->where.line);
    ds_json_put_key(&w, "column");
    ds_json_put_int(&w, problem->where.column);
    ds_json_end_object(&w);
    ds_text_char(out, '\n');
    return end(out, DS_ANSWER_UNREADABLE);
}

/* After something that is no answer yet. */
static ds_answer end_with(ds_text *const out, const ds_status status, const ds_problem *const problem)
{
    if (status == DS_BAD_INPUT) {
        return ds_answer_problem(out, problem);
    }
    return end(out, status == DS_OK ? DS_ANSWER_FINE : DS_ANSWER_NO_MEMORY);
}

/* --- a job -------------------------------------------------------------------------------------------------------- */

/* A job and its findings, for one answer; what is wrong with it instead. */
typedef struct judged {
    ds_arena arena;
    ds_job job;
    ds_findings findings;
    ds_problem problem;
    ds_status status;
} judged;

bool ds_answer_use_packs(ds_job *const job, const ds_str line, ds_arena *const arena)
{
    ds_str packs[DS_PACKS_MAX];
    size_t len = 0;
    for (size_t i = 0; i < line.len && len < DS_PACKS_MAX; i++) {
        const size_t start = i;
        while (i < line.len && line.at[i] != ' ') {
            i++;
        }
        if (i > start) {
            packs[len++] = (ds_str){line.at + start, i - start};
        }
    }
    return len == 0 || ds_differ_use_packs(job, packs, len, arena);
}

/* By the packs of a line, or by its own. To be freed with its arena. */
static void judge_by(judged *const j, const ds_desk *const desk, const ds_str source, const ds_str packs)
{
    *j = (judged){.status = DS_OK};
    ds_arena_init(&j->arena, desk->alloc);
    j->status = ds_job_read(&j->job, source, &j->arena, &j->problem);
    if (j->status == DS_OK && !ds_answer_use_packs(&j->job, packs, &j->arena)) {
        j->status = DS_NO_MEMORY;
    }
    if (j->status == DS_OK) {
        j->status = ds_assess(&j->findings, &j->job, desk->book, desk->sizes, &j->arena, &j->problem);
    }
}

static void judge(judged *const j, const ds_desk *const desk, const ds_str source)
{
    judge_by(j, desk, source, DS_STR(""));
}

static ds_answer check(ds_text *const out, const ds_desk *const desk, const ds_str *const texts)
{
    judged j;
    judge(&j, desk, texts[0]);
    ds_answer answer = DS_ANSWER_FINE;
    if (j.status == DS_OK) {
        ds_findings_json(out, &j.findings, NULL);
        answer = end(out, ds_findings_exit(&j.findings) ? DS_ANSWER_NOT_ALL : DS_ANSWER_FINE);
    } else {
        answer = end_with(out, j.status, &j.problem);
    }
    ds_arena_free(&j.arena);
    return answer;
}

static ds_answer brief(ds_text *const out, const ds_desk *const desk, const ds_str *const texts)
{
    judged j;
    judge(&j, desk, texts[0]);
    ds_answer answer = DS_ANSWER_FINE;
    if (j.status == DS_OK) {
        ds_findings_brief_json(out, &j.findings);
        answer = end(out, ds_findings_exit(&j.findings) ? DS_ANSWER_NOT_ALL : DS_ANSWER_FINE);
    } else {
        answer = end_with(out, j.status, &j.problem);
    }
    ds_arena_free(&j.arena);
    return answer;
}

/* --- a place or a point ------------------------------------------------------------------------------------------- */

/* What is told of the thing of this index; what it could not be told for. */
typedef ds_status tell(ds_text *out, judged *j, size_t index);

static size_t place_of(const judged *const j, const ds_str id)
{
    size_t i = 0;
    while (i < j->job.places_len && !ds_str_eq(j->job.places[i].id, id)) {
        i++;
    }
    return i < j->job.places_len ? i : SIZE_MAX;
}

static size_t point_of(const judged *const j, const ds_str id)
{
    size_t i = 0;
    while (i < j->job.points_len && !ds_str_eq(j->job.points[i].id, id)) {
        i++;
    }
    return i < j->job.points_len ? i : SIZE_MAX;
}

/* DS_ANSWER_NOT_ALL: it is there and has nothing to show. */
static ds_answer answer_of(ds_text *const out, const ds_desk *const desk, const ds_str *const texts,
                           size_t (*const find)(const judged *, ds_str), tell *const tell_of)
{
    judged j;
    judge(&j, desk, texts[0]);
    const size_t index = j.status == DS_OK ? find(&j, texts[1]) : SIZE_MAX;
    ds_answer answer = DS_ANSWER_UNREADABLE;
    if (j.status != DS_OK) {
        answer = end_with(out, j.status, &j.problem);
    } else if (index == SIZE_MAX) {
        const ds_problem problem = {.code = DS_P_NO_SUCH_THING, .a = texts[1]};
        answer = ds_answer_problem(out, &problem);
    } else {
        const ds_status told = tell_of(out, &j, index);
        answer = end(out, told == DS_OK          ? DS_ANSWER_FINE
                          : told == DS_BAD_INPUT ? DS_ANSWER_NOT_ALL
                                                 : DS_ANSWER_NO_MEMORY);
    }
    ds_arena_free(&j.arena);
    return answer;
}

static ds_status tell_zones(ds_text *const out, judged *const j, const size_t place)
{
    ds_zones_json(out, &j->findings, place, NULL, 0);
    return j->findings.wet[place].len > 0 ? DS_OK : DS_BAD_INPUT;
}

static ds_status tell_plan(ds_text *const out, judged *const j, const size_t place)
{
    ds_sheet sheet;
    const ds_status status = ds_plan_sheet(&sheet, &j->findings, place, &j->arena);
    if (status == DS_OK) {
        ds_sheet_svg(out, &sheet);
    }
    return status;
}

static ds_status tell_box(ds_text *const out, judged *const j, const size_t point)
{
    ds_sheet sheet;
    const ds_status status = ds_box_sheet_of(&sheet, &j->findings, point, &j->arena);
    if (status == DS_OK) {
        ds_sheet_svg(out, &sheet);
    }
    return status;
}

static ds_answer zones(ds_text *const out, const ds_desk *const desk, const ds_str *const texts)
{
    return answer_of(out, desk, texts, place_of, tell_zones);
}

static ds_answer draw(ds_text *const out, const ds_desk *const desk, const ds_str *const texts)
{
    return answer_of(out, desk, texts, place_of, tell_plan);
}

static ds_answer draw_box(ds_text *const out, const ds_desk *const desk, const ds_str *const texts)
{
    return answer_of(out, desk, texts, point_of, tell_box);
}

/* --- marks -------------------------------------------------------------------------------------------------------- */

static ds_answer read_mark(ds_text *const out, const ds_desk *const desk, const ds_str *const texts)
{
    (void)desk;
    ds_reading_json(out, texts[0]);
    return end(out, DS_ANSWER_FINE);
}

/* {"problem": …} when the text holds no need that can be used. */
static ds_answer end_without_need(ds_text *const out, const ds_str need, const ds_reading *const reading)
{
    ds_text why;
    ds_text_init(&why, out->alloc);
    ds_reading_because(&why, reading);
    const ds_problem problem = {.code = DS_P_UNREADABLE_NEED, .a = need, .b = ds_text_str(&why)};
    const ds_answer answer = ds_text_ok(&why) ? ds_answer_problem(out, &problem) : DS_ANSWER_NO_MEMORY;
    ds_text_free(&why);
    return end(out, answer);
}

static ds_answer compare(ds_text *const out, const ds_desk *const desk, const ds_str *const texts)
{
    (void)desk;
    ds_need need = DS_NEED_NOTHING;
    ds_reading reading;
    if (!ds_need_read(texts[0], &need, &reading)) {
        return end_without_need(out, texts[0], &reading);
    }
    ds_compare_json(out, texts[0], texts[1]);
    ds_mark_read(texts[1], &reading);
    const bool fits = ds_mark_compare(need, reading.mark, NULL) == DS_FITS;
    return end(out, fits ? DS_ANSWER_FINE : DS_ANSWER_NOT_ALL);
}

/* Paper for each form: height in millimetres, large enough for its type. */
static ds_rungs_form rungs_form(const ds_str word, double *const height_mm)
{
    const bool figures = ds_str_is(word, "figures");
    const bool words = ds_str_is(word, "words");
    *height_mm = words ? 80 : figures ? 40 : 6;
    return words ? DS_RUNGS_WORDS : figures ? DS_RUNGS_FIGURES : DS_RUNGS_MARK;
}

static ds_status paint_rungs(ds_text *const out, const ds_rungs *const rungs, const ds_str form)
{
    double height_mm = 0;
    const double width_mm = ds_rungs_aspect(rungs_form(form, &height_mm)) * height_mm;
    ds_arena arena;
    ds_sheet sheet;
    ds_arena_init(&arena, out->alloc);
    ds_sheet_init(&sheet, &arena, width_mm, height_mm);
    ds_sheet_name(&sheet, DS_STR("rungs"), DS_STR(""), DS_STR(""));
    ds_rungs_paint(&sheet, rungs, (ds_rungs_frame){.width_mm = width_mm, .height_mm = height_mm});
    const ds_status status = ds_sheet_status(&sheet);
    ds_sheet_svg(out, &sheet);
    ds_arena_free(&arena);
    return status;
}

/* The rung picture of a need and a mark, each of which may be empty; form "mark", "figures" or "words". */
static ds_answer rungs(ds_text *const out, const ds_desk *const desk, const ds_str *const texts)
{
    (void)desk;
    ds_need need = DS_NEED_NOTHING;
    ds_reading reading;
    if (texts[0].len && !ds_need_read(texts[0], &need, &reading)) {
        return end_without_need(out, texts[0], &reading);
    }
    reading.mark = DS_MARK_SILENT;
    if (texts[1].len) {
        ds_mark_read(texts[1], &reading);
    }
    ds_rungs picture;
    ds_rungs_of(&picture, need, reading.mark);
    const bool painted = paint_rungs(out, &picture, texts[2]) == DS_OK;
    return end(out, painted ? DS_ANSWER_FINE : DS_ANSWER_NO_MEMORY);
}

/* --- two versions ------------------------------------------------------------------------------------------------- */

/* Base, mine, theirs; DS_ANSWER_NOT_ALL: with conflicts. */
static ds_answer merge(ds_text *const out, const ds_desk *const desk, const ds_str *const texts)
{
    ds_job jobs[3];
    ds_merge merged = {0};
    ds_problem problem = {0};
    ds_arena arena;
    ds_status status = DS_OK;
    ds_arena_init(&arena, desk->alloc);
    for (int i = 0; i < 3 && status == DS_OK; i++) {
        status = ds_job_read(&jobs[i], texts[i], &arena, &problem);
    }
    if (status == DS_OK && !ds_merge_trees(&merged, jobs[0].tree, jobs[1].tree, jobs[2].tree, &arena)) {
        status = DS_NO_MEMORY;
    }
    if (status == DS_OK) {
        ds_merge_json(out, &merged);
    }
    const ds_answer answer = status == DS_OK
                                 ? end(out, merged.conflicts_len ? DS_ANSWER_NOT_ALL : DS_ANSWER_FINE)
                                 : end_with(out, status, &problem);
    ds_arena_free(&arena);
    return answer;
}

/* An empty mapping is none. Not all: the table has faults, and "job" is null. */
static ds_answer import_table(ds_text *const out, const ds_desk *const desk, const ds_str *const texts,
                              const bool add_places)
{
    ds_job job;
    ds_import_map map = {0};
    ds_import import = {0};
    ds_problem problem = {0};
    ds_arena arena;
    const ds_import_how how = {.map = texts[2].len ? &map : NULL, .add_places = add_places};
    ds_arena_init(&arena, desk->alloc);
    ds_status status = ds_job_read(&job, texts[0], &arena, &problem);
    if (status == DS_OK && how.map) {
        status = ds_import_map_read(&map, texts[2], &arena, &problem);
    }
    if (status == DS_OK) {
        status = ds_import_read(&import, &job, texts[1], how, &arena, &problem);
    }
    if (status == DS_OK) {
        ds_import_json(out, &import);
    }
    const ds_answer answer = status == DS_OK
                                 ? end(out, import.faults_len ? DS_ANSWER_NOT_ALL : DS_ANSWER_FINE)
                                 : end_with(out, status, &problem);
    ds_arena_free(&arena);
    return answer;
}

static ds_answer import(ds_text *const out, const ds_desk *const desk, const ds_str *const texts)
{
    return import_table(out, desk, texts, false);
}

static ds_answer import_places(ds_text *const out, const ds_desk *const desk, const ds_str *const texts)
{
    return import_table(out, desk, texts, true);
}

static ds_answer differ_of(ds_text *const out, const judged *const before, judged *const after)
{
    ds_differ made;
    if (!ds_differ_make(&made, &before->findings, &after->findings, &after->arena)) {
        return end(out, DS_ANSWER_NO_MEMORY);
    }
    ds_differ_json(out, &made);
    return end(out, ds_differ_exit(&made) ? DS_ANSWER_NOT_ALL : DS_ANSWER_FINE);
}

/* Two jobs, and two lines of packs to judge them by. DS_ANSWER_NOT_ALL: a verdict or a need has changed. */
static ds_answer differ(ds_text *const out, const ds_desk *const desk, const ds_str *const texts)
{
    const char *const line_end = texts[2].len ? memchr(texts[2].at, '\n', texts[2].len) : NULL;
    const size_t first_len = line_end ? (size_t)(line_end - texts[2].at) : texts[2].len;
    judged before;
    judged after;
    judge_by(&before, desk, texts[0], (ds_str){texts[2].at, first_len});
    judge_by(&after, desk, texts[1], line_end ? ds_str_from(texts[2], first_len + 1) : DS_STR(""));
    ds_answer answer = DS_ANSWER_FINE;
    if (before.status != DS_OK) {
        answer = end_with(out, before.status, &before.problem);
    } else if (after.status != DS_OK) {
        answer = end_with(out, after.status, &after.problem);
    } else {
        answer = differ_of(out, &before, &after);
    }
    ds_arena_free(&before.arena);
    ds_arena_free(&after.arena);
    return answer;
}

/* --- by name ------------------------------------------------------------------------------------------------------ */

static const ds_question_form FORMS[] = {
    {"check", false, {"job"}, check},
    {"brief", false, {"job"}, brief},
    {"zones", false, {"job", "place"}, zones},
    {"draw", true, {"job", "place"}, draw},
    {"draw_box", true, {"job", "point"}, draw_box},
    {"read", false, {"mark"}, read_mark},
    {"compare", false, {"need", "mark"}, compare},
    {"rungs", true, {"need", "mark", "form"}, rungs},
    {"merge", false, {"base", "mine", "theirs"}, merge},
    {"differ", false, {"before", "after", "packs"}, differ},
    {"import", false, {"job", "table", "map"}, import},
    {"import_places", false, {"job", "table", "map"}, import_places},
};

const ds_question_form *ds_questions_all(size_t *const len)
{
    *len = sizeof FORMS / sizeof *FORMS;
    return FORMS;
}

const ds_question_form *ds_question_named(const ds_str name)
{
    for (size_t i = 0; i < sizeof FORMS / sizeof *FORMS; i++) {
        if (ds_str_is(name, FORMS[i].name)) {
            return &FORMS[i];
        }
    }
    return NULL;
}
