/* SPDX-License-Identifier: MIT */
/* What one rule makes of the goods: each kind of need has one small judge, the worst of them is the outcome. */
#include "core/assess/judge.h"

#include <math.h>

static ds_verdict worse(const ds_verdict a, const ds_verdict b)
{
    return a > b ? a : b;
}

ds_need ds_rule_need(const ds_rule *const rule, const ds_facts *const facts)
{
    if (!rule->has_needs) {
        return DS_NEED_NOTHING;
    }
    if (!rule->needs.immersion) {
        return rule->needs.mark;
    }
    const ds_span depth = facts->number[DS_NUMBER_DEPTH];
    const ds_span hours = facts->number[DS_NUMBER_HOURS];
    const ds_claim claim = {
        .objects = -1,
        .impact = -1,
        .water_stated = true,
        .water = 1 << 8,
        .depth_m = isfinite(depth.high) ? depth.high : fmax(depth.low, 0),
        .minutes = 60 * (isfinite(hours.high) ? hours.high : fmax(hours.low, 0)),
    };
    return ds_need_join(rule->needs.mark, ds_need_from(&claim));
}

double ds_rule_rated_c(const ds_rule *const rule, const ds_facts *const facts)
{
    const double seen = facts->number[DS_NUMBER_TEMP].high;
    return !rule->has_needs             ? NAN
           : !rule->needs.rated_as_seen ? rule->needs.rated_c
           : isfinite(seen)             ? seen
                                        : NAN;
}

double ds_rule_cold_c(const ds_rule *const rule, const ds_facts *const facts)
{
    const double seen = facts->number[DS_NUMBER_TEMP].low;
    return !rule->has_needs            ? NAN
           : !rule->needs.cold_as_seen ? rule->needs.cold_c
           : isfinite(seen)            ? seen
                                       : NAN;
}

/* A temperature rating stated beyond the limit fits, stated short of it bars, not stated is unknown. */
static ds_verdict judge_temperature(const double rated_c, const double cold_c, const ds_maker *const maker)
{
    ds_verdict verdict = DS_FITS;
    if (!isnan(rated_c)) {
        verdict = isnan(maker->ambient_high_c)      ? DS_UNKNOWN
                  : maker->ambient_high_c < rated_c ? DS_BARRED
                                                    : DS_FITS;
    }
    if (!isnan(cold_c)) {
        const bool missing = isnan(maker->ambient_low_c);
        verdict = worse(verdict, missing ? DS_UNKNOWN : maker->ambient_low_c > cold_c ? DS_BARRED : DS_FITS);
    }
    return verdict;
}

static ds_verdict judge_surface(const ds_needs *const needs, const ds_maker *const maker)
{
    if (!needs->surface_d || maker->surface_d == DS_TRI_YES) {
        return DS_FITS;
    }
    return maker->surface_d == DS_TRI_NO ? DS_SHORT : DS_UNKNOWN;
}

static bool maker_says(const ds_assessor *const a, const ds_json *const list, const ds_family family,
                       const int id)
{
    for (const ds_json *item = list ? list->first : NULL; item; item = item->next) {
        if (ds_words_find(a->vocabulary.words, family, ds_json_text(item)) == id) {
            return true;
        }
    }
    return false;
}

static ds_verdict judge_qualities(const ds_assessor *const a, const ds_needs *const needs,
                                  const ds_maker *const maker)
{
    for (uint16_t i = 0; i < needs->qualities_len; i++) {
        if (!maker_says(a, maker->suitable_for, DS_FAMILY_QUALITY, needs->qualities[i])) {
            return DS_UNKNOWN;
        }
    }
    return DS_FITS;
}

static ds_verdict judge_measures(const ds_needs *const needs, const ds_facts *const facts)
{
    for (uint16_t i = 0; i < needs->measures_len; i++) {
        if (ds_facts_has(facts, needs->measures[i])) {
            return DS_FITS;
        }
    }
    return needs->measures_len ? DS_UNKNOWN : DS_FITS;
}

/* The next material of "a or b"; false at the end. */
static bool next_material(ds_str *const rest, ds_str *const out)
{
    static const char BETWEEN[] = " or ";
    const size_t gap = sizeof BETWEEN - 1;
    if (rest->len == 0) {
        return false;
    }
    size_t end = 0;
    while (end < rest->len && !ds_str_starts(ds_str_from(*rest, end), DS_STR(BETWEEN))) {
        end++;
    }
    *out = (ds_str){rest->at, end};
    *rest = ds_str_from(*rest, end < rest->len ? end + gap : end);
    return true;
}

/* Any of the asked materials will do; another one stated is short of what was asked. */
static ds_verdict judge_material(const ds_assessor *const a, const ds_needs *const needs,
                                 const ds_maker *const maker)
{
    if (!needs->material.at) {
        return DS_FITS;
    }
    if (!maker->materials || !maker->materials->first) {
        return DS_UNKNOWN;
    }
    ds_str rest = needs->material;
    ds_str material;
    while (next_material(&rest, &material)) {
        const int id = ds_words_find(a->vocabulary.words, DS_FAMILY_MATERIAL, material);
        if (id >= 0 && maker_says(a, maker->materials, DS_FAMILY_MATERIAL, id)) {
            return DS_FITS;
        }
    }
    return DS_SHORT;
}

ds_verdict ds_rule_outcome(const ds_assessor *const a, const ds_rule *const rule, const ds_point *const point,
                           const ds_facts *const facts, const ds_mark mark)
{
    if (rule->bars.at) {
        return DS_BARRED;
    }
    if (!rule->has_needs) {
        return DS_FITS;
    }
    const ds_needs *const needs = &rule->needs;
    ds_verdict verdict = ds_mark_compare(ds_rule_need(rule, facts), mark, NULL);
    const double rated_c = ds_rule_rated_c(rule, facts);
    const double cold_c = ds_rule_cold_c(rule, facts);
    verdict = worse(verdict, judge_temperature(rated_c, cold_c, &point->maker));
    verdict = worse(verdict, judge_surface(needs, &point->maker));
    verdict = worse(verdict, judge_qualities(a, needs, &point->maker));
    verdict = worse(verdict, judge_measures(needs, facts));
    return worse(verdict, judge_material(a, needs, &point->maker));
}

/* --- what a person asks for --------------------------------------------------------------------------------------- */

static void ask_for_code(ds_assessor *const a, ds_rule *const rule, const ds_asked *const asked,
                         const char *const key, const ds_str text, int32_t *const owner)
{
    if (!text.at) {
        return;
    }
    ds_need need = DS_NEED_NOTHING;
    ds_reading reading;
    if (ds_need_read(text, &need, &reading)) {
        rule->needs.mark = ds_need_join(rule->needs.mark, need);
        return;
    }
    ds_assessor_complain(a, ds_json_get(asked->at, ds_str_of(key)), owner, DS_P_UNREADABLE_NEED, text,
                         DS_STR("no single code can be taken from it"));
}

static void ask_for_material(ds_assessor *const a, ds_rule *const rule, const ds_asked *const asked,
                             int32_t *const owner)
{
    ds_str rest = asked->material;
    ds_str material;
    while (next_material(&rest, &material)) {
        ds_assessor_word(a, DS_FAMILY_MATERIAL, ds_json_get(asked->at, DS_STR("material")), material, owner);
    }
    rule->needs.material = asked->material;
}

static void ask_for_qualities(ds_assessor *const a, ds_rule *const rule, const ds_json *const list,
                              int32_t *const owner)
{
    uint16_t *const ids = list ? ds_arena_take_many(a->arena, list->count, sizeof *ids) : NULL;
    a->failed = a->failed || (list && !ids);
    for (const ds_json *item = ids ? list->first : NULL; item; item = item->next) {
        const int id = ds_assessor_word(a, DS_FAMILY_QUALITY, item, ds_json_text(item), owner);
        if (id >= 0) {
            ids[rule->needs.qualities_len++] = (uint16_t)id;
        }
    }
    rule->needs.qualities = ids;
}

static const ds_condition ALWAYS = {.op = DS_ALL};

const ds_rule *ds_asked_rule(ds_assessor *const a, const ds_asked *const asked, int32_t *const owner)
{
    ds_rule *const rule = asked->at ? ds_arena_take(a->arena, sizeof *rule) : NULL;
    if (!rule) {
        a->failed = a->failed || asked->at;
        return NULL;
    }
    *rule = (ds_rule){.id = DS_STR("asked"),
                      .clause = DS_STR("-"),
                      .edition = DS_STR("this job"),
                      .because = DS_STR("Asked for on top of the rules."),
                      .grade = DS_GRADE_RULE,
                      .source = {DS_SOURCE_PERSON, asked->by},
                      .when = &ALWAYS,
                      .has_needs = true,
                      .needs = {.mark = DS_NEED_NOTHING, .rated_c = NAN, .cold_c = NAN},
                      .needs_at = asked->at};
    ask_for_code(a, rule, asked, "ip", asked->ip, owner);
    ask_for_code(a, rule, asked, "ik", asked->ik, owner);
    if (!isnan(asked->impact_j)) {
        const ds_claim claim = {.objects = -1, .impact = (int8_t)ds_impact_grade(asked->impact_j)};
        rule->needs.mark = ds_need_join(rule->needs.mark, ds_need_from(&claim));
    }
    ask_for_material(a, rule, asked, owner);
    ask_for_qualities(a, rule, asked->suitable_for, owner);
    return rule;
}
