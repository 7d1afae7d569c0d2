/* SPDX-License-Identifier: MIT */
/*
 * One point.
 *
 * Rules are judged one by one; each leaves a reason with the outcome it alone would have. The verdict is the worst of
 * the outcomes that may change it, and of the obstacles that no rule states: an unknown zone, a problem in the
 * document, a mark without its state. The obstacle kept is the first of the enum's order at the verdict's level.
 */
#include "core/assess/point.h"

#include "core/assess/flooded.h"

#include <math.h>

typedef struct desk {
    ds_assessor *a;
    ds_point *point;
    const ds_place *place;
    const ds_situation *situation;
    ds_facts facts;
    ds_evidence evidence;
    ds_bench *bench;
    ds_finding *out;
    int rank; /* of the obstacle kept: its verdict's level, then its place in the enum */
} desk;

/* True when all that a asks of the mark, b asks too, and more. */
static bool asks_less(const ds_need a, const ds_need b)
{
    return ds_need_join(a, b) == b && a != b;
}

/*
 * An obstacle that makes the point at least this bad. Of those of one rank the first counts, unless a later rule asks for
 * all of it and more: that one is what decides.
 */
static void obstruct(desk *const d, const ds_verdict verdict, const ds_obstacle obstacle,
                     const ds_rule *const rule)
{
    const int rank = (int)verdict * 100 - (int)obstacle;
    const bool has_one = d->out->obstacle != DS_OBSTACLE_NONE;
    const bool asks_more =
        has_one && rule && d->out->deciding && rank == d->rank &&
        asks_less(ds_rule_need(d->out->deciding, &d->facts), ds_rule_need(rule, &d->facts));
    if (verdict == DS_FITS || (has_one && rank <= d->rank && !asks_more)) {
        return;
    }
    d->rank = rank;
    d->out->verdict = verdict;
    d->out->obstacle = obstacle;
    d->out->deciding = rule;
}

/* --- rules -------------------------------------------------------------------------------------------------------- */

/* The influences of questions that nobody answered, as bits of ds_missing.numbers. */
static uint32_t unanswered_numbers(const desk *const d)
{
    uint32_t bits = 0;
    for (int group = 0; group < DS_GROUP_REST; group++) {
        if (!(d->situation->answered >> group & 1)) {
            bits |= UINT32_C(1) << ds_group_influence((ds_group)group);
        }
    }
    return bits;
}

static bool needs_mark(const ds_rule *const rule)
{
    return rule->has_needs && (rule->needs.mark != DS_NEED_NOTHING || rule->needs.immersion);
}

/* Which obstacle an applying rule with this outcome is. */
static ds_obstacle obstacle_of(const desk *const d, const ds_rule *const rule, const ds_verdict outcome)
{
    if (outcome == DS_BARRED) {
        return DS_OBSTACLE_BAR;
    }
    const ds_verdict by_mark = ds_mark_compare(ds_rule_need(rule, &d->facts), d->evidence.mark, NULL);
    if (!needs_mark(rule) || by_mark < outcome) {
        return outcome == DS_SHORT ? DS_OBSTACLE_MATERIAL : DS_OBSTACLE_RATED;
    }
    const ds_mark body = ds_installed_body(d->evidence.installed, d->evidence.own);
    if (ds_mark_compare(ds_rule_need(rule, &d->facts), body, NULL) < outcome) {
        return DS_OBSTACLE_ENTRY;
    }
    if (outcome == DS_SHORT) {
        return DS_OBSTACLE_SHORT;
    }
    if (d->evidence.spoilt) {
        return DS_OBSTACLE_SPOILT;
    }
    if (!d->evidence.has_mark || d->evidence.unseen || d->evidence.doubtful) {
        return DS_OBSTACLE_MARK;
    }
    return d->evidence.conditional && !d->evidence.states_stated ? DS_OBSTACLE_STATE : DS_OBSTACLE_TEST;
}

static void weigh_applying(desk *const d, const ds_rule *const rule, const ds_verdict outcome)
{
    ds_finding *const out = d->out;
    const ds_need need = ds_rule_need(rule, &d->facts);
    if (rule->grade != DS_GRADE_RULE) {
        out->advised = ds_need_join(out->advised, need);
        return;
    }
    out->needed = ds_need_join(out->needed, need);
    out->rated_c = fmax(out->rated_c, ds_rule_rated_c(rule, &d->facts));
    out->cold_c = fmin(out->cold_c, ds_rule_cold_c(rule, &d->facts));
    out->surface_d = out->surface_d || (rule->has_needs && rule->needs.surface_d);
    if (outcome != DS_FITS) {
        obstruct(d, outcome, obstacle_of(d, rule, outcome), rule);
    }
}

/* An open rule can at most leave the point unknown. */
static void weigh_open(desk *const d, const ds_reason *const reason)
{
    if (reason->outcome == DS_FITS) {
        return;
    }
    const bool by_class = reason->missing.families >> DS_FAMILY_CLASS & 1;
    const bool unanswered = by_class || (reason->missing.numbers & unanswered_numbers(d)) != 0;
    const bool zone = (reason->missing.families >> DS_FAMILY_ZONE & 1) != 0;
    if (unanswered) {
        obstruct(d, DS_UNKNOWN, DS_OBSTACLE_UNANSWERED, reason->rule);
        for (int group = 0; group < DS_GROUP_REST; group++) {
            const bool this_one =
                by_class || (reason->missing.numbers >> ds_group_influence((ds_group)group) & 1);
            const bool open = !(d->situation->answered >> group & 1);
            d->out->unanswered |= (uint8_t)((this_one && open) << group);
        }
    } else if (reason->rule->grade == DS_GRADE_RULE) {
        obstruct(d, DS_UNKNOWN, zone ? DS_OBSTACLE_ZONE : DS_OBSTACLE_FACT, reason->rule);
    }
}

static void judge_rule(desk *const d, const ds_rule *const rule)
{
    const ds_truth truth = ds_rule_applies(rule, &d->facts);
    if (truth == DS_NO) {
        return;
    }
    ds_reason *const reason = &d->bench->reasons[d->bench->len++];
    *reason = (ds_reason){.rule = rule, .truth = truth};
    reason->outcome = ds_rule_outcome(d->a, rule, d->point, &d->facts, d->evidence.mark);
    if (truth == DS_YES) {
        weigh_applying(d, rule, reason->outcome);
    } else {
        reason->missing = ds_rule_missing(rule, &d->facts);
        weigh_open(d, reason);
    }
}

/* --- what no rule states ------------------------------------------------------------------------------------------ */

static void weigh_document(desk *const d, const ds_findings *const findings)
{
    if (d->situation->refused) {
        obstruct(d, DS_UNKNOWN, DS_OBSTACLE_REFUSED, NULL);
    }
    if (d->point->problem >= 0 || !d->place || d->place->problem >= 0) {
        obstruct(d, DS_UNKNOWN, DS_OBSTACLE_PROBLEM, NULL);
    }
    if (findings->packs_len == 0) {
        obstruct(d, DS_UNKNOWN, DS_OBSTACLE_NO_RULES, NULL);
    }
    if (ds_str_is(d->out->zone, "unknown")) {
        obstruct(d, DS_UNKNOWN, DS_OBSTACLE_ZONE, NULL);
    }
    if (d->evidence.conditional && !d->evidence.states_stated) {
        obstruct(d, DS_UNKNOWN, DS_OBSTACLE_STATE, NULL);
    }
}

/* Several pieces at one position cannot all be in the zone of that position. */
static void check_count(desk *const d)
{
    const bool placed = !isnan(d->point->at_m[0]);
    if (d->point->count > 1 && placed && !ds_str_is(d->out->zone, "not-applicable")) {
        const ds_json *const at = ds_json_get(d->point->at, DS_STR("count"));
        ds_assessor_complain(d->a, at, &d->point->problem, DS_P_COUNT_AT_ONE_PLACE, ds_json_text(at),
                             (ds_str){0});
    }
}

/* --- remarks and reasons ------------------------------------------------------------------------------------------ */

/* Highest rung of a track that is in the set. */
static unsigned highest(uint64_t tests)
{
    unsigned rung = 0;
    for (; tests; tests >>= 1) {
        rung++;
    }
    return rung;
}

/* Jets or more where little water comes, or dust-tight where little is about: heat, sweat, price and entries suffer. */
static bool is_much_more(const ds_need needed, const ds_mark mark)
{
    const uint64_t rain = DS_WATER_TO(6);
    const unsigned water = highest((ds_mark_proven(mark) & rain) >> 10);
    const unsigned water_needed = highest((ds_mark_proven(needed) & rain) >> 10);
    const unsigned solids = highest(ds_mark_proven(mark) & DS_OBJECTS_ALL);
    const unsigned solids_needed = highest(ds_mark_proven(needed) & DS_OBJECTS_ALL);
    const bool immersed = ds_mark_proven(needed) >> 16 & 7;
    return !immersed && ((water >= 5 && water >= water_needed + 3) ||
                         (solids == 6 && solids_needed < 4 && water_needed < 3));
}

static void add_climate_remarks(desk *const d)
{
    const ds_climate *const c = d->out->climate;
    const bool fitted = d->point->box && d->point->box->entries_stated;
    d->out->remarks |= (uint32_t)(fitted && !(c && c->heat_told)) << DS_REMARK_NO_HEAT;
    if (!c) {
        return;
    }
    const bool solved = c->heat_told && !c->heat.missing && !c->heat.bad;
    const bool clear = c->flood_told && c->flood.need == DS_FLOOD_SPLASH;
    d->out->remarks |= (uint32_t)(c->heat_told && !c->heat_asked) << DS_REMARK_HEAT;
    d->out->remarks |= (uint32_t)(solved && c->heat_asked && c->heat_verdict == DS_FITS)
                       << DS_REMARK_HEAT_FITS;
    d->out->remarks |= (uint32_t)c->quench_told << DS_REMARK_QUENCH;
    d->out->remarks |= (uint32_t)clear << DS_REMARK_FLOOD;
    d->out->remarks |= (uint32_t)c->sweating_told << DS_REMARK_SWEATING;
    d->out->remarks |= (uint32_t)(c->day.told && !c->heat_told) << DS_REMARK_DAY;
    d->out->remarks |= (uint32_t)(c->day.told && d->out->obstacle != DS_OBSTACLE_SWEAT) << DS_REMARK_SWEATS;
}

static void add_remarks(desk *const d, const bool absent_here)
{
    add_climate_remarks(d);
    const ds_evidence *const e = &d->evidence;
    const ds_need needed = ds_need_join(d->out->needed, d->out->advised);
    const bool immersed = ds_mark_proven(needed) & DS_WATER(8) && ds_mark_depth_m(needed) <= 0;
    const bool says[DS_REMARKS] = {
        [DS_REMARK_ACCESS_BY_KIND] = e->by_kind && ds_mark_proven(needed) & DS_ACCESS_TO('B'),
        [DS_REMARK_MORE_THAN_NEEDED] = d->out->verdict == DS_FITS && is_much_more(needed, e->mark),
        [DS_REMARK_CONDITIONAL] = e->conditional && e->states_stated,
        [DS_REMARK_NOTED] = e->noted && !e->doubtful,
        [DS_REMARK_ABSENT_HERE] = absent_here,
        [DS_REMARK_IMMERSION] = immersed && ds_mark_proven(e->mark) & DS_WATER(8),
        [DS_REMARK_CLAIM] = e->claimed && !e->unseen && e->has_mark,
        [DS_REMARK_ENTRY_TOO] = ds_obstacle_of_goods(d->out->obstacle) && ds_finding_part(d->out),
        [DS_REMARK_ENTRIES] = d->point->box && !(e->installed && e->installed->entries_stated),
    };
    for (int i = 0; i < DS_REMARKS; i++) {
        d->out->remarks |= (uint32_t)says[i] << i;
    }
}

static bool only_mark(const ds_rule *const rule)
{
    return needs_mark(rule) && !rule->needs.surface_d && !rule->needs.qualities_len &&
           !rule->needs.measures_len && isnan(rule->needs.rated_c) && isnan(rule->needs.cold_c) &&
           !rule->needs.rated_as_seen && !rule->needs.cold_as_seen && !rule->needs.material.at;
}

/* Marks the reasons that another one of the same certainty and weight makes needless, and those that decide. */
static void sort_out_reasons(desk *const d)
{
    for (size_t i = 0; i < d->bench->len; i++) {
        ds_reason *const reason = &d->bench->reasons[i];
        reason->decides = reason->rule == d->out->deciding;
        const ds_need need = ds_rule_need(reason->rule, &d->facts);
        for (size_t j = 0; j < d->bench->len && only_mark(reason->rule) && !reason->covered; j++) {
            const ds_reason *const other = &d->bench->reasons[j];
            reason->covered = other->truth == reason->truth && other->rule->grade <= reason->rule->grade &&
                              asks_less(need, ds_rule_need(other->rule, &d->facts));
        }
    }
}

static bool keep_reasons(desk *const d)
{
    ds_reason *const reasons = ds_arena_take_many(d->a->arena, d->bench->len, sizeof *reasons);
    if (!reasons) {
        return false;
    }
    if (d->bench->len) {
        memcpy(reasons, d->bench->reasons, d->bench->len * sizeof *reasons);
    }
    d->out->reasons = reasons;
    d->out->reasons_len = d->bench->len;
    return true;
}

/* How much a need asks for: the number of tests. */
static unsigned size_of(const ds_need need)
{
    unsigned size = ds_mark_impact(need);
    for (uint64_t tests = ds_mark_proven(need); tests; tests &= tests - 1) {
        size++;
    }
    return size;
}

/* On a pass, the rule to show is the one that asked for most. */
static const ds_rule *most_asking(const desk *const d)
{
    const ds_rule *most = NULL;
    unsigned size = 0;
    for (size_t i = 0; i < d->bench->len; i++) {
        const ds_reason *const reason = &d->bench->reasons[i];
        const bool counts =
            reason->truth == DS_YES && reason->rule->grade == DS_GRADE_RULE && reason->rule->has_needs;
        const unsigned own = counts ? size_of(ds_rule_need(reason->rule, &d->facts)) : 0;
        if (own > size) {
            size = own;
            most = reason->rule;
        }
    }
    return most;
}

/* The first state whose own mark is as bad as the verdict on the mark, and the rule to show. */
static void settle(desk *const d)
{
    ds_finding *const out = d->out;
    const ds_verdict worst = ds_mark_compare(out->needed, d->evidence.mark, &out->lost);
    out->state = -1;
    for (size_t i = 0; i < d->evidence.states_len && d->evidence.states_stated && out->state < 0; i++) {
        if (ds_mark_compare(out->needed, d->evidence.state_marks[i], NULL) == worst) {
            out->state = (int32_t)i;
        }
    }
    if (out->verdict == DS_FITS) {
        out->deciding = most_asking(d);
    }
}

bool ds_finding_outdoors(const ds_finding *const finding)
{
    const ds_str setting = finding->place ? finding->place->setting : DS_STR("");
    return ds_str_is(setting, "outdoors") || ds_str_is(setting, "sheltered");
}

/* A surface or colour that is not known is a slip like any other unknown word. */
static void check_name(desk *const d, const char *const key, const ds_str name, const ds_str known[],
                       const size_t len)
{
    if (name.len) {
        const ds_json *const at = ds_json_get(d->point->box->at, ds_str_of(key));
        ds_assessor_complain(d->a, at, &d->point->problem, DS_P_UNKNOWN_WORD, name,
                             ds_suggest(d->a->arena, name, known, len));
    }
}

static void check_names(desk *const d, const ds_climate *const climate)
{
    enum { MOST_NAMES = 32 };
    ds_str names[MOST_NAMES];
    size_t len = 0;
    const ds_surface *const surfaces = ds_surfaces(&len);
    for (size_t i = 0; i < len && i < MOST_NAMES; i++) {
        names[i] = ds_str_of(surfaces[i].name);
    }
    check_name(d, "surface", climate->surface_unknown, names, len);
    const ds_colour *const colours = ds_colours(&len);
    for (size_t i = 0; i < len && i < MOST_NAMES; i++) {
        names[i] = ds_str_of(colours[i].name);
    }
    check_name(d, "colour", climate->colour_unknown, names, len);
}

/* Heat against its limit, sweating, and high water against the mark. */
static void weigh_climate(desk *const d)
{
    const ds_box *const box = d->point->box;
    ds_climate *const climate = box ? ds_arena_take(d->a->arena, sizeof *climate) : NULL;
    if (!box) {
        return;
    }
    if (!climate || ds_climate_of(climate, box, ds_finding_outdoors(d->out), d->a->arena) != DS_OK) {
        d->a->failed = true;
        return;
    }
    check_names(d, climate);
    const bool tells = climate->heat_told || climate->quench_told || climate->flood_told ||
                       climate->sweating_told || climate->day.told || climate->day.dry_asked;
    d->out->climate = tells ? climate : NULL;
    if (climate->heat_asked) {
        obstruct(d, climate->heat_verdict, DS_OBSTACLE_HEAT, NULL);
    }
    if (climate->day.dry_asked) {
        obstruct(d, climate->day.dry_verdict, DS_OBSTACLE_SWEAT, NULL);
    }
    const ds_need need = ds_climate_flood_need(climate);
    if (need != DS_NEED_NOTHING) {
        d->out->needed = ds_need_join(d->out->needed, need);
        obstruct(d, ds_mark_compare(need, d->evidence.mark, NULL), DS_OBSTACLE_FLOOD, NULL);
    }
    obstruct(d, ds_flooded_verdict(d->out), DS_OBSTACLE_FLOOD, NULL);
}

static void judge_all(desk *const d, const ds_findings *const findings, const ds_place_view *const view)
{
    const ds_rule *const own = ds_asked_rule(d->a, &d->point->survey.asked, &d->point->problem);
    for (size_t p = 0; p < findings->packs_len; p++) {
        for (size_t i = 0; i < findings->packs[p]->rules_len; i++) {
            judge_rule(d, &findings->packs[p]->rules[i]);
        }
    }
    if (view && view->asked) {
        judge_rule(d, view->asked);
    }
    if (own) {
        judge_rule(d, own);
    }
}

bool ds_assess_point(ds_assessor *const a, const ds_findings *const findings, ds_point *const point,
                     const ds_place_view *const view, ds_bench *const bench, ds_finding *const out)
{
    *out = (ds_finding){.point = point,
                        .needed = DS_NEED_NOTHING,
                        .advised = DS_NEED_NOTHING,
                        .rated_c = NAN,
                        .cold_c = NAN,
                        .place = view ? &a->job->places[point->place] : NULL};
    ds_situation situation = {.place_id = -1, .setting_id = -1};
    if (view) {
        situation = view->situation;
    }
    bool absent_here = false;
    ds_situation_add_point(a, point, &situation, &absent_here);
    desk d = {
        .a = a, .point = point, .place = out->place, .situation = &situation, .bench = bench, .out = out};
    bench->len = 0;
    out->where = ds_point_facts(a, point, &situation, view ? view->wet : NULL, &d.facts, &out->zone);
    ds_evidence_of(a, point, &d.evidence);
    out->marked = d.evidence.mark;
    out->own_mark = d.evidence.own;
    out->installed = d.evidence.installed;
    out->has_mark = d.evidence.has_mark;
    out->unseen = d.evidence.unseen;
    out->complete = d.evidence.complete;
    out->reading = d.evidence.reading;
    judge_all(&d, findings, view);
    weigh_climate(&d);
    check_count(&d);
    weigh_document(&d, findings);
    settle(&d);
    add_remarks(&d, absent_here);
    sort_out_reasons(&d);
    return keep_reasons(&d) && !a->failed;
}
