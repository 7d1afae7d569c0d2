/* SPDX-License-Identifier: MIT */
/* What to do about a point, in one or two sentences: one remedy for each obstacle. Also remarks. */
#include "core/assess/flooded.h"
#include "core/assess/say.h"
#include "core/box/entry_say.h"

static void ask_for_code(ds_text *const out, const ds_finding *const finding)
{
    ds_text_add(out, "Ask for goods marked at least ");
    ds_need_print(out, ds_finding_code(finding));
    ds_text_char(out, '.');
}

/* The piece of evidence that would settle a mark that is missing or doubtful. */
static void ask_for_evidence(ds_text *const out, const ds_finding *const finding)
{
    if (finding->reading.status == DS_READ_QUESTION) {
        ds_text_add(out, "Settle the question about the mark; at least ");
    } else {
        ds_text_add(out, "Read the code off the label or data sheet; at least ");
    }
    ds_need_print(out, ds_finding_code(finding));
    ds_text_add(out, " is needed.");
}

static void ask_for_test(ds_text *const out, const ds_finding *const finding)
{
    ds_text_add(out, "Ask the maker for a statement of what is not shown, or for goods marked ");
    ds_need_print(out, ds_finding_code(finding));
    ds_text_char(out, '.');
}

static void mend_bar(ds_text *const out, const ds_finding *const finding)
{
    if (finding->deciding->remedy.at) {
        ds_text_adds(out, finding->deciding->remedy);
    } else if (finding->deciding->bars.at) {
        ds_text_add(out, "Move it, or choose another kind; no code cures this.");
    } else {
        ds_text_add(out, "Choose goods that the maker rates for this temperature.");
    }
}

static void mend_problem(ds_text *const out, const ds_findings *const findings,
                         const ds_finding *const finding)
{
    const ds_problem *const problem = ds_finding_problem(findings, finding);
    if (problem) {
        ds_problem_mend(out, problem);
    } else {
        ds_text_add(out, "Mend the problems listed first.");
    }
}

static void state_fact(ds_text *const out, const ds_finding *const finding)
{
    for (size_t i = 0; i < finding->reasons_len; i++) {
        const ds_reason *const reason = &finding->reasons[i];
        if (reason->decides && reason->truth == DS_MAYBE) {
            ds_text_add(out, "State ");
            ds_say_missing(out, &reason->missing);
            ds_text_char(out, '.');
            return;
        }
    }
}

/* Needs beside the code are shown by the maker or answered by a measure of the designer. */
static void show_rated(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    const bool by_measure = finding->deciding->has_needs && finding->deciding->needs.measures_len;
    ds_text_add(out, by_measure ? "Take and note this " : "Ask the maker for a statement: ");
    ds_say_rule_effect(out, findings->book, finding->deciding);
    ds_text_char(out, '.');
}

static void mend_entry(ds_text *const out, const ds_finding *const finding)
{
    const ds_part *const part = ds_finding_part(finding);
    if (part) {
        ds_say_part_mend(out, finding->installed, part, finding->needed);
    } else {
        ask_for_code(out, finding);
    }
}

static void mend_flood(ds_text *const out, const ds_finding *const finding)
{
    if (finding->climate->flood.need != DS_FLOOD_SPLASH) {
        ds_climate_mend_flood(out, finding->climate);
    }
    ds_flooded_mend(out, finding);
}

static void mend_zone(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    const ds_zone_map *const map = ds_finding_map(findings, finding);
    const size_t start = out->len;
    if (map) {
        ds_zone_say_measure(out, finding->where, map);
    }
    if (out->len > start) {
        out->at[start] = (char)(out->at[start] - 'a' + 'A');
        ds_text_char(out, '.');
        return;
    }
    const bool planned = finding->place && findings->wet[finding->place - findings->job->places].len;
    ds_text_add(out, planned ? "Measure its position." : "State its zone.");
}

static void ask_for_material(ds_text *const out, const ds_findings *const findings,
                             const ds_finding *const finding)
{
    ds_text_add(out, "Choose goods that answer it: ");
    ds_say_rule_effect(out, findings->book, finding->deciding);
    ds_text_char(out, '.');
}

/* Where the remedy does not depend on the point. */
static const char *const always[] = {
    [DS_OBSTACLE_REFUSED] = "Hand this to a specialist for explosive atmospheres.",
    [DS_OBSTACLE_NO_RULES] = "Name the rules to judge by, for example \"iec\".",
    [DS_OBSTACLE_UNANSWERED] =
        "Say what is seen there, or that there is none of it, or state the influence class.",
    [DS_OBSTACLE_SPOILT] = "Put it right with the maker's part, then look again.",
    [DS_OBSTACLE_STATE] = "Say in which states it is used, for example \"lid-closed\".",
};

void ds_say_remedy(ds_text *const out, const ds_findings *const findings, const ds_finding *const finding)
{
    switch (finding->obstacle) {
    case DS_OBSTACLE_NONE:
        break;
    case DS_OBSTACLE_REFUSED:
    case DS_OBSTACLE_NO_RULES:
    case DS_OBSTACLE_UNANSWERED:
    case DS_OBSTACLE_SPOILT:
    case DS_OBSTACLE_STATE:
        ds_text_add(out, always[finding->obstacle]);
        break;
    case DS_OBSTACLE_BAR:
        mend_bar(out, finding);
        break;
    case DS_OBSTACLE_SHORT:
        ask_for_code(out, finding);
        break;
    case DS_OBSTACLE_PROBLEM:
        mend_problem(out, findings, finding);
        break;
    case DS_OBSTACLE_ZONE:
        mend_zone(out, findings, finding);
        break;
    case DS_OBSTACLE_ENTRY:
        mend_entry(out, finding);
        break;
    case DS_OBSTACLE_HEAT:
        ds_climate_mend_heat(out, finding->climate);
        break;
    case DS_OBSTACLE_SWEAT:
        ds_through_say_mend(out, &finding->climate->day);
        break;
    case DS_OBSTACLE_FLOOD:
        mend_flood(out, finding);
        break;
    case DS_OBSTACLE_MARK:
        ask_for_evidence(out, finding);
        break;
    case DS_OBSTACLE_TEST:
        ask_for_test(out, finding);
        break;
    case DS_OBSTACLE_FACT:
        state_fact(out, finding);
        break;
    case DS_OBSTACLE_MATERIAL:
        ask_for_material(out, findings, finding);
        break;
    case DS_OBSTACLE_RATED:
        show_rated(out, findings, finding);
        break;
    }
}

/* Not judged unless somebody says that it must stay dry. */
static void say_sweats(ds_text *const out, const ds_through *const day)
{
    ds_through_say_sweat(out, day);
    if (!day->dry_asked) {
        ds_text_add(out, " Nothing says that it must stay dry, so it is not judged.");
    } else if (day->dry_verdict != DS_FITS) {
        ds_text_char(out, ' ');
        ds_through_say_mend(out, day);
    }
}

/* What else is to be mended at the box, so that nobody has to come twice. */
static void say_entry_too(ds_text *const out, const ds_finding *const finding)
{
    const ds_part *const part = ds_finding_part(finding);
    ds_text_add(out, "Besides: ");
    ds_say_part(out, finding->installed, part, finding->needed);
    ds_text_char(out, ' ');
    ds_say_part_mend(out, finding->installed, part, finding->needed);
}

void ds_say_remark(ds_text *const out, const ds_finding *const finding, const ds_remark_code which)
{
    static const char *const REMARKS[DS_REMARKS] = {
        [DS_REMARK_ACCESS_BY_KIND] =
            ("A complete, undamaged accessory, luminaire or appliance, rightly mounted, counts as "
             "keeping fingers off live parts (common practice)."),
        [DS_REMARK_MORE_THAN_NEEDED] =
            "Much more than needed: look at heat, condensation and the work at the entries.",
        [DS_REMARK_CONDITIONAL] =
            "A mark counts only in the states it names; the worst normal state decides.",
        [DS_REMARK_NOTED] = "The mark was read with an assumption: ",
        [DS_REMARK_ABSENT_HERE] = "The point rules out something that was seen at its place.",
        [DS_REMARK_IMMERSION] = "Compare the declared depth and time of water test 8 with the water there.",
        [DS_REMARK_NO_HEAT] = "How warm it becomes inside is not assessed: no losses are stated.",
        [DS_REMARK_SWEATING] = "Whether it sweats over the day is not assessed.",
        [DS_REMARK_CLAIM] = "The code is a claim until somebody sees it: look at the label.",
        [DS_REMARK_ENTRIES] =
            "Judged on the mark: the box does not list its entries, so what they leave of it is not known.",
    };
    if (which == DS_REMARK_HEAT || which == DS_REMARK_HEAT_FITS) {
        ds_climate_say_heat(out, finding->climate);
        ds_text_add(out, which == DS_REMARK_HEAT ? " No limit is stated, so it is not judged." : "");
        return;
    }
    if (which == DS_REMARK_QUENCH || which == DS_REMARK_FLOOD) {
        (which == DS_REMARK_QUENCH ? ds_climate_say_quench : ds_climate_say_flood)(out, finding->climate);
        return;
    }
    if (which == DS_REMARK_DAY) {
        ds_through_say_heat(out, &finding->climate->day);
        return;
    }
    if (which == DS_REMARK_ENTRY_TOO) {
        say_entry_too(out, finding);
        return;
    }
    if (which == DS_REMARK_SWEATS) {
        say_sweats(out, &finding->climate->day);
        return;
    }
    ds_text_add(out, REMARKS[which]);
    if (which == DS_REMARK_NOTED) {
        ds_reading_because(out, &finding->reading);
    }
}
