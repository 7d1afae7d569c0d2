/* SPDX-License-Identifier: MIT */
/*
 * Places and points are paired by id; of each pair what went in (what the document says) and what came out (verdict, need,
 * reasons) is compared.
 */
#include "core/assess/differ.h"

#include "core/base/names.h"

#include <math.h>

/* Two lists paired by name, both ways. */
typedef struct pairs {
    ds_names before, after;
    uint32_t *after_of, *before_of; /* DS_NO_NAME: alone */
} pairs;

typedef struct differing {
    ds_differ *out;
    ds_arena *arena;
    ds_restatements *places; /* of each place after */
    pairs place, point;
} differing;

static bool make_pairs(pairs *const p, ds_arena *const arena, const size_t before_len, const size_t after_len)
{
    p->after_of = ds_arena_take_many(arena, before_len, sizeof *p->after_of);
    p->before_of = ds_arena_take_many(arena, after_len, sizeof *p->before_of);
    return p->after_of && p->before_of && ds_names_make(&p->before, arena, before_len) &&
           ds_names_make(&p->after, arena, after_len);
}

static void join_pairs(pairs *const p)
{
    ds_names_sort(&p->before);
    ds_names_sort(&p->after);
    ds_names_pair(&p->before, &p->after, p->after_of, p->before_of);
}

static bool pair_places(differing *const d)
{
    const ds_job *const before = d->out->before->job;
    const ds_job *const after = d->out->after->job;
    if (!make_pairs(&d->place, d->arena, before->places_len, after->places_len)) {
        return false;
    }
    for (size_t i = 0; i < before->places_len; i++) {
        ds_names_put(&d->place.before, before->places[i].id, (uint32_t)i);
    }
    for (size_t i = 0; i < after->places_len; i++) {
        ds_names_put(&d->place.after, after->places[i].id, (uint32_t)i);
    }
    join_pairs(&d->place);
    return true;
}

static bool pair_points(differing *const d)
{
    const ds_findings *const before = d->out->before;
    const ds_findings *const after = d->out->after;
    if (!make_pairs(&d->point, d->arena, before->points_len, after->points_len)) {
        return false;
    }
    for (size_t i = 0; i < before->points_len; i++) {
        ds_names_put(&d->point.before, before->points[i].point->id, (uint32_t)i);
    }
    for (size_t i = 0; i < after->points_len; i++) {
        ds_names_put(&d->point.after, after->points[i].point->id, (uint32_t)i);
    }
    join_pairs(&d->point);
    return true;
}

/* --- what the documents say ------------------------------------------------------------------------------------------- */

/* The member of the same key, looked for first where the other document has it. */
static const ds_json *counterpart(const ds_json *const object, const ds_json *const guess,
                                  const ds_json *const member)
{
    const bool hit = guess && ds_str_eq(ds_json_key(guess), ds_json_key(member));
    return hit ? guess : ds_json_get(object, ds_json_key(member));
}

static void restate(ds_restatements *const out, const ds_str key, const ds_json *const before,
                    const ds_json *const after)
{
    if (!ds_json_same(before, after)) {
        out->at[out->len++] = (ds_restated){key, before, after};
    }
}

/* Key by key. False when memory is short. */
static bool compare_objects(ds_restatements *const out, const ds_json *const before,
                            const ds_json *const after, ds_arena *const arena)
{
    *out = (ds_restatements){0};
    if (ds_json_same(before, after)) {
        return true;
    }
    out->at = ds_arena_take_many(arena, (size_t)before->count + after->count, sizeof *out->at);
    if (!out->at) {
        return false;
    }
    const ds_json *guess = before->first;
    for (const ds_json *at = after->first; at; at = at->next) {
        restate(out, ds_json_key(at), counterpart(before, guess, at), at);
        guess = guess ? guess->next : NULL;
    }
    guess = after->first;
    for (const ds_json *at = before->first; at; at = at->next) {
        if (!counterpart(after, guess, at)) {
            restate(out, ds_json_key(at), at, NULL);
        }
        guess = guess ? guess->next : NULL;
    }
    return true;
}

static bool compare_places(differing *const d)
{
    const ds_job *const after = d->out->after->job;
    d->places = ds_arena_take_many(d->arena, after->places_len, sizeof *d->places);
    for (size_t i = 0; d->places && i < after->places_len; i++) {
        const uint32_t pair = d->place.before_of[i];
        d->places[i] = (ds_restatements){0};
        if (pair != DS_NO_NAME && !compare_objects(&d->places[i], d->out->before->job->places[pair].at,
                                                   after->places[i].at, d->arena)) {
            return false;
        }
    }
    return d->places != NULL;
}

static bool same_packs(const ds_findings *const a, const ds_findings *const b)
{
    bool same = a->packs_len == b->packs_len;
    for (size_t i = 0; same && i < a->packs_len; i++) {
        same = a->packs[i] == b->packs[i];
    }
    return same;
}

bool ds_differ_use_packs(ds_job *const job, const ds_str *const packs, const size_t len,
                         ds_arena *const arena)
{
    ds_json *const list = ds_arena_take_many(arena, len + 1, sizeof *list);
    if (!list) {
        return false;
    }
    *list = (ds_json){.parent = job->tree,
                      .key = "rules",
                      .key_len = sizeof "rules" - 1,
                      .first = len ? list + 1 : NULL,
                      .count = (uint32_t)len,
                      .kind = DS_JSON_ARRAY};
    for (size_t i = 0; i < len; i++) {
        list[i + 1] = (ds_json){.parent = list,
                                .next = i + 1 < len ? &list[i + 2] : NULL,
                                .text = packs[i].at,
                                .text_len = (uint32_t)packs[i].len,
                                .kind = DS_JSON_STRING};
    }
    job->rules = list;
    return true;
}

/* --- reasons ---------------------------------------------------------------------------------------------------------- */

static bool same_number(const double a, const double b)
{
    return a == b || (isnan(a) && isnan(b));
}

static bool same_ids(const uint16_t *const a, const uint16_t a_len, const uint16_t *const b,
                     const uint16_t b_len)
{
    return a_len == b_len && (a_len == 0 || memcmp(a, b, a_len * sizeof *a) == 0);
}

static bool same_needs(const ds_needs *const a, const ds_needs *const b)
{
    return a->mark == b->mark && a->immersion == b->immersion && a->surface_d == b->surface_d &&
           same_number(a->rated_c, b->rated_c) && same_number(a->cold_c, b->cold_c) &&
           a->rated_as_seen == b->rated_as_seen && a->cold_as_seen == b->cold_as_seen &&
           same_ids(a->qualities, a->qualities_len, b->qualities, b->qualities_len) &&
           same_ids(a->measures, a->measures_len, b->measures, b->measures_len) &&
           ds_str_eq(a->material, b->material);
}

/* One rule in two editions, when all that it asks and says is the same. */
static bool same_rule(const ds_rule *const a, const ds_rule *const b)
{
    return a == b || (ds_str_eq(a->clause, b->clause) && ds_str_eq(a->because, b->because) &&
                      a->grade == b->grade && ds_str_eq(a->bars, b->bars) &&
                      ds_str_eq(a->question, b->question) && same_needs(&a->needs, &b->needs));
}

/* True when it holds there as it holds here. What is asked of a point and of its place goes by one id. */
static bool has_reason(const ds_finding *const there, const ds_reason *const reason)
{
    for (size_t i = 0; i < there->reasons_len; i++) {
        const ds_reason *const other = &there->reasons[i];
        if (other->truth == reason->truth && ds_str_eq(other->rule->id, reason->rule->id) &&
            same_rule(other->rule, reason->rule)) {
            return true;
        }
    }
    return false;
}

/* The reasons of `here` that `there` lacks. NULL when memory is short. */
static const ds_reason **lacking(const ds_finding *const here, const ds_finding *const there,
                                 size_t *const len, ds_arena *const arena)
{
    const ds_reason **const out = ds_arena_take_many(arena, here->reasons_len, sizeof *out);
    for (size_t i = 0; out && i < here->reasons_len; i++) {
        const ds_reason *const reason = &here->reasons[i];
        if (!reason->covered && !has_reason(there, reason)) {
            out[(*len)++] = reason;
        }
    }
    return out;
}

/* Most points have the same reasons in the same order; then nothing needs to be looked up. */
static bool same_reasons(const ds_finding *const a, const ds_finding *const b)
{
    bool same = a->reasons_len == b->reasons_len;
    for (size_t i = 0; same && i < a->reasons_len; i++) {
        same = a->reasons[i].truth == b->reasons[i].truth && a->reasons[i].rule == b->reasons[i].rule;
    }
    return same;
}

static bool compare_reasons(ds_difference *const out, ds_arena *const arena)
{
    if (same_reasons(out->before, out->after)) {
        return true;
    }
    out->came = lacking(out->after, out->before, &out->came_len, arena);
    out->went = lacking(out->before, out->after, &out->went_len, arena);
    return out->came && out->went;
}

/* True when one of the packs has the rule, or no pack has it because a person asks for it. */
static bool packs_have(const ds_findings *const findings, const ds_rule *const rule)
{
    for (size_t i = 0; i < findings->packs_len; i++) {
        const ds_pack *const pack = findings->packs[i];
        for (size_t j = 0; j < pack->rules_len; j++) {
            if (ds_str_eq(pack->rules[j].id, rule->id) && same_rule(&pack->rules[j], rule)) {
                return true;
            }
        }
    }
    return rule->source.kind == DS_SOURCE_PERSON;
}

static bool by_rules(const ds_differ *const differ, const ds_difference *const it)
{
    bool found = !it->point.len && !it->place->len;
    for (size_t i = 0; i < it->came_len && !found; i++) {
        found = !packs_have(differ->before, it->came[i]->rule);
    }
    for (size_t i = 0; i < it->went_len && !found; i++) {
        found = !packs_have(differ->after, it->went[i]->rule);
    }
    return found;
}

/* --- one pair --------------------------------------------------------------------------------------------------------- */

static bool same_need(const ds_finding *const a, const ds_finding *const b)
{
    return a->needed == b->needed && same_number(a->rated_c, b->rated_c) &&
           same_number(a->cold_c, b->cold_c) && a->surface_d == b->surface_d;
}

/* What a reader would see of it, besides verdict, need and reasons. */
static bool same_else(const ds_finding *const a, const ds_finding *const b)
{
    const bool same_rules =
        (!a->deciding && !b->deciding) || (a->deciding && b->deciding && same_rule(a->deciding, b->deciding));
    return a->marked == b->marked && ds_str_eq(a->zone, b->zone) && a->obstacle == b->obstacle &&
           same_rules && a->remarks == b->remarks;
}

static bool turn_of(const ds_difference *const it, ds_turn *const out)
{
    const ds_verdict before = it->before->verdict;
    const ds_verdict after = it->after->verdict;
    const bool need = !same_need(it->before, it->after);
    *out = after > before   ? DS_TURN_WORSE
           : after < before ? DS_TURN_BETTER
           : need           ? DS_TURN_NEED
                            : DS_TURN_OTHER;
    return *out != DS_TURN_OTHER || it->point.len || it->came_len || it->went_len ||
           !same_else(it->before, it->after);
}

static const ds_restatements AS_IT_WAS = {0};

static void keep(ds_differ *const out, const ds_difference *const difference)
{
    out->points[out->points_len++] = *difference;
    out->counted[difference->turn]++;
}

static bool compare_points(differing *const d, const ds_finding *const before, const ds_finding *const after)
{
    ds_difference it = {.before = before, .after = after, .place = &AS_IT_WAS};
    if (after->place && before->place && ds_str_eq(after->place->id, before->place->id)) {
        it.place = &d->places[after->point->place];
    }
    if (!compare_objects(&it.point, before->point->at, after->point->at, d->arena) ||
        !compare_reasons(&it, d->arena)) {
        return false;
    }
    if (turn_of(&it, &it.turn)) {
        it.by_rules = d->out->other_rules && by_rules(d->out, &it);
        keep(d->out, &it);
    }
    return true;
}

static bool collect(differing *const d)
{
    ds_differ *const out = d->out;
    for (size_t i = 0; i < out->after->points_len; i++) {
        const uint32_t pair = d->point.before_of[i];
        const ds_finding *const after = &out->after->points[i];
        if (pair == DS_NO_NAME) {
            keep(out, &(ds_difference){.after = after, .turn = DS_TURN_ADDED, .place = &AS_IT_WAS});
        } else if (!compare_points(d, &out->before->points[pair], after)) {
            return false;
        }
    }
    for (size_t i = 0; i < out->before->points_len; i++) {
        if (d->point.after_of[i] == DS_NO_NAME) {
            keep(out, &(ds_difference){
                          .before = &out->before->points[i], .turn = DS_TURN_REMOVED, .place = &AS_IT_WAS});
        }
    }
    out->points_all = out->after->points_len + out->counted[DS_TURN_REMOVED];
    return true;
}

/* --- order ------------------------------------------------------------------------------------------------------------ */

enum { VERDICTS = DS_BARRED + 1, RANKS = DS_TURNS * VERDICTS };

static size_t rank_of(const ds_difference *const difference)
{
    const ds_finding *const finding = difference->after ? difference->after : difference->before;
    return (size_t)difference->turn * VERDICTS + (DS_BARRED - finding->verdict);
}

/* By rank, each rank as it came: a counting sort. */
static bool sort_points(ds_differ *const out, ds_arena *const arena)
{
    ds_difference *const sorted = ds_arena_take_many(arena, out->points_len, sizeof *sorted);
    size_t start[RANKS + 1] = {0};
    if (!sorted) {
        return false;
    }
    for (size_t i = 0; i < out->points_len; i++) {
        start[rank_of(&out->points[i]) + 1]++;
    }
    for (size_t i = 1; i <= RANKS; i++) {
        start[i] += start[i - 1];
    }
    for (size_t i = 0; i < out->points_len; i++) {
        sorted[start[rank_of(&out->points[i])]++] = out->points[i];
    }
    out->points = sorted;
    return true;
}

bool ds_differ_make(ds_differ *const out, const ds_findings *const before, const ds_findings *const after,
                    ds_arena *const arena)
{
    *out = (ds_differ){.before = before, .after = after, .other_rules = !same_packs(before, after)};
    differing d = {.out = out, .arena = arena};
    out->points = ds_arena_take_many(arena, before->points_len + after->points_len, sizeof *out->points);
    return out->points && pair_places(&d) && pair_points(&d) && compare_places(&d) && collect(&d) &&
           sort_points(out, arena);
}

int ds_differ_exit(const ds_differ *const differ)
{
    return differ->points_len > differ->counted[DS_TURN_OTHER] ? 1 : 0;
}

const char *ds_turn_word(const ds_turn turn)
{
    static const char *const WORDS[DS_TURNS] = {"worse", "added", "removed", "better", "need", "other"};
    return WORDS[turn];
}
