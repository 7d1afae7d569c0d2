/* SPDX-License-Identifier: MIT */
/* The fact that decided, one sentence for each obstacle; and a need against one mark. */
#include "core/assess/flooded.h"
#include "core/assess/say.h"
#include "core/box/entry_say.h"

#include <math.h>

/* One track of tests for a sentence: its name, its bits and how a rung is written. */
typedef struct track {
    const char *name;
    unsigned first_bit, len;
    char first_rung;
} track;

static const track TRACKS[] = {{"solids ", 0, DS_OBJECTS_LEN, '1'},
                               {"access ", 6, DS_ACCESS_LEN, 'A'},
                               {"water ", 10, DS_WATER_LEN, '1'}};

static void separate(ds_text *const out, const size_t start)
{
    ds_text_add(out, out->len > start ? ", " : "");
}

/* Runs of rungs as "water 1 to 4". */
static void add_runs(ds_text *const out, const size_t start, const track *const t, const uint64_t tests)
{
    for (unsigned i = 0; i < t->len; i++) {
        unsigned end = i;
        while (end < t->len && tests >> (t->first_bit + end) & 1) {
            end++;
        }
        if (end == i) {
            continue;
        }
        separate(out, start);
        ds_text_add(out, t->name);
        ds_text_char(out, (char)((unsigned char)t->first_rung + i));
        if (end - i > 1) {
            ds_text_add(out, end - i > 2 ? " to " : " and ");
            ds_text_char(out, (char)((unsigned char)t->first_rung + end - 1));
        }
        i = end;
    }
}

/* What is lost beside tests: impact, and of depth and time what the mark does not declare or not enough of. */
typedef struct condition_list {
    ds_text *out;
    size_t start;
    bool depth, time;
} condition_list;

static void add_condition(void *const ctx, const ds_str test)
{
    const condition_list *const list = ctx;
    if (ds_str_starts(test, DS_STR("impact")) || (list->depth && ds_str_starts(test, DS_STR("depth"))) ||
        (list->time && ds_str_starts(test, DS_STR("time")))) {
        separate(list->out, list->start);
        ds_text_adds(list->out, test);
    }
}

static void add_tests(ds_text *const out, const uint64_t tests)
{
    const size_t start = out->len;
    for (size_t i = 0; i < sizeof TRACKS / sizeof *TRACKS; i++) {
        add_runs(out, start, &TRACKS[i], tests);
    }
}

static void add_tests_and_conditions(ds_text *const out, const uint64_t tests, const ds_need lost,
                                     const ds_mark mark)
{
    condition_list list = {.out = out,
                           .start = out->len,
                           .depth = ds_mark_depth_m(mark) < ds_mark_depth_m(lost),
                           .time = ds_mark_minutes(mark) < ds_mark_minutes(lost)};
    add_tests(out, tests);
    ds_need_each(lost, add_condition, &list);
}

/* What is lost, in one or two sentences: the tests that the mark denies, then those that it leaves open. */
static void add_lost(ds_text *const out, const ds_verdict verdict, const ds_need lost, const ds_mark mark)
{
    const uint64_t denied = ds_mark_proven(lost) & ds_mark_denied(mark);
    const uint64_t open = ds_mark_proven(lost) & ~denied & ~ds_mark_proven(mark);
    ds_text_add(out, verdict == DS_SHORT ? "Not covered: " : "Not shown: ");
    add_tests_and_conditions(out, verdict == DS_SHORT ? denied : ds_mark_proven(lost), lost, mark);
    ds_text_char(out, '.');
    if (verdict == DS_SHORT && open) {
        ds_text_add(out, " Not shown either: ");
        add_tests(out, open);
        ds_text_char(out, '.');
    }
}

static void add_rule_name(ds_text *const out, const ds_rule *const rule)
{
    if (!rule) {
        return;
    }
    ds_text_add(out, " (");
    if (rule->source.kind == DS_SOURCE_PERSON) {
        ds_text_add(out, "asked for");
        ds_text_add(out, rule->source.ref.at ? " by the " : "");
        ds_text_adds(out, rule->source.ref);
    } else {
        ds_text_adds(out, ds_str_is(rule->clause, "-") ? rule->id : rule->clause);
    }
    ds_text_char(out, ')');
}

static void add_because(ds_text *const out, const ds_rule *const rule)
{
    if (rule) {
        ds_text_add(out, " ");
        ds_text_adds(out, rule->because);
        add_rule_name(out, rule);
    }
}

/* What was measured, where the rule turns on it: the distance from zone 1, or the zone and the way to it. */
static void add_where(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    const ds_zone_answer *const where = finding->where;
    const ds_rule *const rule = finding->deciding;
    if (!where || !rule) {
        return;
    }
    if (ds_rule_asks_number(rule, DS_NUMBER_ZONE1_DISTANCE) && isfinite(where->zone1_m)) {
        ds_text_add(out, " It is ");
        ds_text_number(out, where->zone1_m, 3);
        ds_text_add(out, " m level from the edge of zone 1");
        if (where->zone1_string_m > where->zone1_m + 0.001) {
            ds_text_add(out, " (");
            ds_text_number(out, where->zone1_string_m, 3);
            ds_text_add(out, " m along the string, which the text does not mention)");
        }
        ds_text_char(out, '.');
    } else if (ds_rule_asks_family(rule, DS_FAMILY_ZONE)) {
        ds_text_add(out, ds_str_is(finding->zone, "outside") ? " Outside the zones" : " Zone ");
        ds_text_adds(out, ds_str_is(finding->zone, "outside") ? DS_STR("") : finding->zone);
        const size_t before = out->len;
        ds_text_add(out, ": ");
        ds_zone_say_way(out, where, ds_finding_map(findings, finding));
        out->len = out->len == before + 2 ? before : out->len;
        ds_text_char(out, '.');
    }
}

/* "It may stand in zone 1 or outside." */
static void say_zone(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    const ds_zone_map *const map = ds_finding_map(findings, finding);
    if (!map) {
        const bool planned = finding->place && findings->wet[finding->place - findings->job->places].len;
        ds_text_add(out, planned ? "The place has a plan, and the point has no position on it."
                                 : "The place has zones and the point's zone is not stated.");
        return;
    }
    ds_text_add(out, "It may stand ");
    size_t said = 0;
    for (size_t i = 0; i <= map->zones_len; i++) {
        if (finding->where->could_be >> i & 1) {
            ds_text_add(out, said++ ? " or " : "");
            ds_text_add(out, i < map->zones_len ? "in zone " : "outside");
            ds_text_adds(out, i < map->zones_len ? map->zones[i].word : DS_STR(""));
        }
    }
    ds_text_char(out, '.');
}

static void say_short(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    add_lost(out, DS_SHORT, finding->lost, finding->marked);
    add_because(out, finding->deciding);
    add_where(out, findings, finding);
}

static void say_unanswered(ds_text *const out, const ds_finding *const finding)
{
    static const char *const NAMES[] = {"water", "dust and objects", "blows", "people"};
    ds_text_add(out, "The place does not say what there is of ");
    size_t len = 0;
    for (int group = 0; group < DS_GROUP_REST; group++) {
        if (finding->unanswered >> group & 1) {
            ds_text_add(out, len++ ? ", " : "");
            ds_text_add(out, NAMES[group]);
        }
    }
    ds_text_char(out, '.');
}

static void say_problem(ds_text *const out, const ds_findings *const findings,
                        const ds_finding *const finding)
{
    const ds_problem *const problem = ds_finding_problem(findings, finding);
    if (!problem) {
        ds_text_add(out, "Something in this point or its place is not understood.");
        return;
    }
    ds_text_add(out, "Line ");
    ds_text_int(out, problem->where.line);
    ds_text_add(out, ": ");
    ds_problem_say(out, problem);
    ds_text_add(out, out->at && out->at[out->len - 1] == '?' ? "" : ".");
}

static void say_mark(ds_text *const out, const ds_finding *const finding)
{
    if (finding->reading.status >= DS_READ_QUESTION && finding->reading.notes_len) {
        ds_text_add(out, "The mark cannot be counted as it stands: ");
        ds_reading_because(out, &finding->reading);
    } else if (!finding->has_mark && finding->reading.notes_len) {
        ds_text_add(out, "The mark is no evidence: ");
        ds_reading_because(out, &finding->reading);
    } else if (finding->has_mark && finding->unseen) {
        ds_text_add(out, "The mark is not counted, since nobody read it off its label or papers.");
    } else if (!finding->has_mark) {
        ds_text_add(out, "No mark is given, so nothing is shown.");
    } else {
        add_lost(out, DS_UNKNOWN, finding->lost, finding->marked);
    }
    add_because(out, finding->deciding);
}

static void say_open(ds_text *const out, const ds_finding *const finding)
{
    for (size_t i = 0; i < finding->reasons_len; i++) {
        const ds_reason *const reason = &finding->reasons[i];
        if (reason->decides && reason->truth == DS_MAYBE) {
            ds_text_add(out, "Not stated: ");
            ds_say_missing(out, &reason->missing);
            ds_text_char(out, '.');
        }
    }
    add_because(out, finding->deciding);
}

static void say_rated(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    ds_text_add(out, finding->verdict == DS_SHORT ? "Not met: " : "Not shown: ");
    ds_say_rule_effect(out, findings->book, finding->deciding);
    ds_text_char(out, '.');
    add_because(out, finding->deciding);
}

/* The maker's range against what is needed. */
static void add_temperatures(ds_text *const out, const ds_finding *const finding)
{
    const ds_maker *const maker = &finding->point->maker;
    ds_text_add(out, "The maker states ");
    ds_text_number(out, maker->ambient_low_c, 1);
    ds_text_add(out, " to ");
    ds_text_number(out, maker->ambient_high_c, 1);
    ds_text_add(out, " °C; needed: ");
    const bool hot = !isnan(finding->rated_c);
    const bool cold = !isnan(finding->cold_c);
    if (cold) {
        ds_text_number(out, finding->cold_c, 1);
        ds_text_add(out, hot ? " to " : " °C.");
    }
    if (hot) {
        ds_text_number(out, finding->rated_c, 1);
        ds_text_add(out, " °C.");
    }
}

static void say_bar(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    if (finding->deciding->bars.at) {
        ds_text_adds(out, finding->deciding->bars);
    } else {
        add_temperatures(out, finding);
    }
    add_because(out, finding->deciding);
    add_where(out, findings, finding);
}

/* The words found that take the mark away, by their labels. */
static void say_spoilt(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    const ds_words *const words = &findings->book->words;
    const ds_json *const found = finding->point->found.words;
    ds_text_add(out, "What was found takes the mark away until it is put right: ");
    size_t len = 0;
    for (const ds_json *item = found ? found->first : NULL; item; item = item->next) {
        const int id = ds_words_find(words, DS_FAMILY_FOUND, ds_json_text(item));
        if (id >= 0 && words->at[id]->spoils) {
            ds_text_add(out, len++ ? "; " : "");
            ds_text_adds(out, words->at[id]->label);
        }
    }
    ds_text_char(out, '.');
}

static void say_fit(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    if (finding->needed == DS_NEED_NOTHING) {
        ds_text_add(out, "No rule asks for a code here.");
        return;
    }
    const bool by_mark = ds_mark_compare(finding->needed, finding->own_mark, NULL) == DS_FITS;
    ds_text_add(out, by_mark             ? "The mark covers "
                     : finding->has_mark ? "The mark and the measured openings cover "
                                         : "The measured openings cover ");
    ds_need_print(out, ds_finding_code(finding));
    ds_text_char(out, '.');
    add_because(out, finding->deciding);
    add_where(out, findings, finding);
}

/* Where no part alone is worse than the box, what is lost of all together. */
static void say_entry(ds_text *const out, const ds_finding *const finding)
{
    const ds_part *const part = ds_finding_part(finding);
    if (part) {
        ds_say_part(out, finding->installed, part, finding->needed);
    } else {
        add_lost(out, finding->verdict, finding->lost, finding->marked);
    }
    add_because(out, finding->deciding);
}

static void say_flood(ds_text *const out, const ds_finding *const finding)
{
    ds_climate_say_flood(out, finding->climate);
    if (ds_climate_flood_need(finding->climate) != DS_NEED_NOTHING && finding->lost != DS_NEED_NOTHING) {
        ds_text_char(out, ' ');
        add_lost(out, finding->verdict, finding->lost, finding->marked);
    }
    ds_flooded_say(out, finding);
}

void ds_say_deciding(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    switch (finding->obstacle) {
    case DS_OBSTACLE_NONE:
        say_fit(out, findings, finding);
        break;
    case DS_OBSTACLE_BAR:
        say_bar(out, findings, finding);
        break;
    case DS_OBSTACLE_SHORT:
        say_short(out, findings, finding);
        break;
    case DS_OBSTACLE_REFUSED:
        ds_text_add(out, "An explosive atmosphere is possible here, which is outside what this can judge.");
        break;
    case DS_OBSTACLE_PROBLEM:
        say_problem(out, findings, finding);
        break;
    case DS_OBSTACLE_NO_RULES:
        ds_text_add(out, "The job names no rule pack, so there is nothing to judge by.");
        break;
    case DS_OBSTACLE_ZONE:
        say_zone(out, findings, finding);
        break;
    case DS_OBSTACLE_UNANSWERED:
        say_unanswered(out, finding);
        break;
    case DS_OBSTACLE_SPOILT:
        say_spoilt(out, findings, finding);
        break;
    case DS_OBSTACLE_HEAT:
        ds_climate_say_heat(out, finding->climate);
        break;
    case DS_OBSTACLE_SWEAT:
        ds_through_say_sweat(out, &finding->climate->day);
        break;
    case DS_OBSTACLE_FLOOD:
        say_flood(out, finding);
        break;
    case DS_OBSTACLE_ENTRY:
        say_entry(out, finding);
        break;
    case DS_OBSTACLE_STATE:
        ds_text_add(out, "A mark counts only under a condition, and no normal state is stated.");
        break;
    case DS_OBSTACLE_MARK:
    case DS_OBSTACLE_TEST:
        say_mark(out, finding);
        break;
    case DS_OBSTACLE_FACT:
        say_open(out, finding);
        break;
    case DS_OBSTACLE_MATERIAL:
    case DS_OBSTACLE_RATED:
        say_rated(out, findings, finding);
        break;
    }
}

/* --- one need against one mark ------------------------------------------------------------------------------------ */

void ds_say_comparison(ds_text *const out, const ds_need need, const ds_reading *const reading)
{
    ds_need lost = DS_NEED_NOTHING;
    const ds_verdict verdict = ds_mark_compare(need, reading->mark, &lost);
    if (verdict == DS_FITS) {
        ds_text_add(out, "Every needed test is proven.");
    } else {
        add_lost(out, verdict, lost, reading->mark);
    }
    if (reading->notes_len) {
        ds_text_char(out, ' ');
        ds_reading_because(out, reading);
    }
}
