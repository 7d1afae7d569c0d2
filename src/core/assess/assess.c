/* SPDX-License-Identifier: MIT */
/* The walk over the job: packs by name, places once, points one by one, then the questions. */
#include "core/assess/assess.h"

#include "core/assess/point.h"
#include "core/assess/questions.h"
#include "core/assess/wet.h"

/* A pack that is not there leaves no rule to go by: false, and *problem says which. */
static bool choose_packs(ds_assessor *const a, ds_findings *const out, ds_problem *const problem)
{
    const ds_json *const rules = a->job->rules;
    if (!rules) {
        ds_assessor_complain(a, a->job->tree, NULL, DS_P_MISSING_KEY, DS_STR("rules"), (ds_str){0});
    }
    for (const ds_json *item = rules ? rules->first : NULL; item; item = item->next) {
        const ds_str id = ds_json_text(item);
        const ds_pack *const pack = ds_rulebook_pack(a->book, id);
        if (!pack || out->packs_len == DS_PACKS_MAX) {
            *problem = (ds_problem){.code = DS_P_NO_SUCH_PACK,
                                    .where = ds_json_where(item, a->job->source, a->arena),
                                    .a = id,
                                    .b = ds_rulebook_suggest(a->book, a->arena, id)};
            return false;
        }
        out->packs[out->packs_len++] = pack;
    }
    return true;
}

static ds_place_view *view_places(ds_assessor *const a, ds_findings *const out)
{
    ds_place_view *const views = ds_arena_take_many(a->arena, a->job->places_len, sizeof *views);
    ds_wet *const wet = ds_arena_take_many(a->arena, a->job->places_len, sizeof *wet);
    if (!views || !wet) {
        return NULL;
    }
    out->wet = wet;
    for (size_t i = 0; i < a->job->places_len; i++) {
        ds_place *const place = &a->job->places[i];
        ds_situation_of_place(a, place, &views[i].situation);
        views[i].asked = ds_asked_rule(a, &place->survey.asked, &place->problem);
        if (!ds_wet_of_place(a, out, place, views[i].situation.place_id, &wet[i])) {
            return NULL;
        }
        views[i].wet = &wet[i];
    }
    return views;
}

static size_t count_rules(const ds_findings *const findings)
{
    size_t count = 0;
    for (size_t i = 0; i < findings->packs_len; i++) {
        count += findings->packs[i]->rules_len;
    }
    return count;
}

static bool assess_points(ds_assessor *const a, ds_findings *const out)
{
    const ds_place_view *const views = view_places(a, out);
    ds_bench bench = {.reasons = ds_arena_take_many(a->arena, count_rules(out) + 2, sizeof *bench.reasons)};
    out->points = ds_arena_take_many(a->arena, a->job->points_len, sizeof *out->points);
    if (!views || !bench.reasons || !out->points) {
        return false;
    }
    for (size_t i = 0; i < a->job->points_len; i++) {
        ds_point *const point = &a->job->points[i];
        const ds_place_view *const view = point->place >= 0 ? &views[point->place] : NULL;
        if (!ds_assess_point(a, out, point, view, &bench, &out->points[i])) {
            return false;
        }
        out->counted[out->points[i].verdict]++;
    }
    out->points_len = a->job->points_len;
    return true;
}

ds_status ds_assess(ds_findings *const out, ds_job *const job, const ds_rulebook *const book,
                    const ds_sizes *const sizes, ds_arena *const arena, ds_problem *const problem)
{
    *out = (ds_findings){.job = job, .book = book, .sizes = sizes};
    ds_assessor a = {.job = job, .book = book, .sizes = sizes, .arena = arena};
    ds_vocabulary_init(&a.vocabulary, &book->words);
    if (!choose_packs(&a, out, problem)) {
        return DS_BAD_INPUT;
    }
    return assess_points(&a, out) && !a.failed && ds_questions_collect(out, arena) ? DS_OK : DS_NO_MEMORY;
}

int ds_findings_exit(const ds_findings *const findings)
{
    return findings->points_len > 0 && findings->counted[DS_FITS] == findings->points_len ? 0 : 1;
}

ds_need ds_finding_code(const ds_finding *const finding)
{
    const uint64_t fingers = DS_ACCESS_TO('B');
    const ds_need rest = finding->needed & ~fingers;
    const bool only_fingers = !(ds_mark_proven(finding->needed) & DS_ACCESS_ALL & ~fingers);
    return finding->complete && only_fingers && rest != DS_NEED_NOTHING ? rest : finding->needed;
}

const char *ds_finding_judged_on(const ds_finding *const finding)
{
    return finding->installed && finding->installed->entries_stated ? "installed" : "marked";
}

void ds_finding_shown(ds_text *const out, const ds_finding *const finding)
{
    const ds_mark mark = finding->marked;
    const bool as_marked = mark == finding->own_mark || !(ds_mark_proven(mark) & DS_OBJECTS_ALL);
    const uint64_t open = (DS_OBJECT(5) | DS_OBJECT(6)) & ~(ds_mark_proven(mark) | ds_mark_denied(mark));
    ds_mark_print(out, as_marked ? mark : mark | open << DS_TEST_COUNT);
}

const ds_part *ds_finding_part(const ds_finding *const finding)
{
    return finding->installed ? ds_installed_decides(finding->installed, finding->own_mark, finding->needed)
                              : NULL;
}

const ds_zone_map *ds_finding_map(const ds_findings *const findings, const ds_finding *const finding)
{
    return finding->where ? findings->wet[finding->place - findings->job->places].maps[0] : NULL;
}

const ds_problem *ds_finding_problem(const ds_findings *const findings, const ds_finding *const finding)
{
    const ds_problems *const list = &findings->job->problems;
    const int32_t places = finding->place ? finding->place->problem : -1;
    const int32_t index = finding->point->problem >= 0 ? finding->point->problem : places;
    return index >= 0 && (size_t)index < list->len ? &list->at[index] : NULL;
}
