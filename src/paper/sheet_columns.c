/* SPDX-License-Identifier: MIT */
/* What each column says; the sentences are those of every other output. */
#include "paper/sheet_columns.h"

#include "core/assess/say.h"
#include "core/draw/rungs_words.h"
#include "paper/parts.h"

#include <math.h>

#define SAY(name)                                                                                            \
    static void say_##name(ds_text *const out, const ds_findings *const f, const ds_finding *const finding)

/* --- what it is --------------------------------------------------------------------------------------------------- */

SAY(id)
{
    (void)f;
    ds_text_adds(out, finding->point->id);
}

SAY(name)
{
    (void)f;
    ds_text_adds(out, finding->point->name);
}

SAY(place_id)
{
    (void)f;
    ds_text_adds(out, finding->point->place_id);
}

SAY(place)
{
    const ds_place *const place = finding->place;
    if (place && place->name.len) {
        ds_text_adds(out, place->name);
    } else {
        say_place_id(out, f, finding);
    }
}

SAY(kind)
{
    (void)f;
    ds_text_adds(out, finding->point->kind);
}

SAY(zone)
{
    (void)f;
    ds_text_adds(out, finding->zone);
}

/* Nothing in places without zones. */
SAY(zone_told)
{
    if (!ds_str_is(finding->zone, "not-applicable")) {
        say_zone(out, f, finding);
    }
}

static double number_count(const ds_finding *const finding)
{
    return finding->point->count >= 1 ? finding->point->count : 1;
}

static double number_height(const ds_finding *const finding)
{
    return finding->point->height_m;
}

static double number_volts(const ds_finding *const finding)
{
    return finding->point->supply.volts;
}

static double number_rcd(const ds_finding *const finding)
{
    return finding->point->supply.rcd_ma;
}

/* --- what is needed, and what there is ---------------------------------------------------------------------------- */

SAY(needed)
{
    (void)f;
    ds_say_needed(out, finding);
}

static double number_rated(const ds_finding *const finding)
{
    return finding->rated_c;
}

static double number_cold(const ds_finding *const finding)
{
    return finding->cold_c;
}

SAY(marked)
{
    (void)f;
    ds_say_marked(out, finding->point);
}

SAY(installed)
{
    (void)f;
    ds_parts_say_installed(out, finding);
}

SAY(shown)
{
    (void)f;
    ds_finding_shown(out, finding);
}

SAY(judged_on)
{
    (void)f;
    ds_text_add(out, ds_finding_judged_on(finding));
}

SAY(state)
{
    (void)f;
    ds_say_state(out, finding);
}

static double heat_c(const ds_finding *const finding, const int which)
{
    double range_c[2] = {NAN, NAN};
    if (finding->climate && finding->climate->heat_told) {
        ds_climate_heat_c(finding->climate, &range_c[0], &range_c[1]);
    }
    return range_c[which];
}

static double number_heat_low(const ds_finding *const finding)
{
    return heat_c(finding, 0);
}

static double number_heat_high(const ds_finding *const finding)
{
    return heat_c(finding, 1);
}

static double number_limit(const ds_finding *const finding)
{
    return finding->climate && finding->climate->heat_asked ? finding->climate->limit_c : NAN;
}

/* --- the answer --------------------------------------------------------------------------------------------------- */

SAY(verdict)
{
    (void)f;
    ds_parts_say_verdict(out, finding->verdict);
}

SAY(verdict_word)
{
    (void)f;
    ds_text_add(out, ds_verdict_word(finding->verdict));
}

SAY(deciding)
{
    ds_say_deciding(out, f, finding);
}

SAY(remedy)
{
    ds_say_remedy(out, f, finding);
}

SAY(clause)
{
    (void)f;
    ds_text_adds(out, finding->deciding ? finding->deciding->clause : DS_STR(""));
}

SAY(edition)
{
    (void)f;
    ds_text_adds(out, finding->deciding ? finding->deciding->edition : DS_STR(""));
}

/* --- what was found ----------------------------------------------------------------------------------------------- */

SAY(evidence)
{
    (void)f;
    ds_say_list(out, finding->point->found.evidence, ", ");
}

SAY(found)
{
    (void)f;
    ds_say_list(out, finding->point->found.words, ", ");
}

SAY(found_date)
{
    (void)f;
    ds_text_adds(out, finding->point->found.date);
}

SAY(found_by)
{
    (void)f;
    ds_text_adds(out, finding->point->found.by);
}

SAY(photo)
{
    (void)f;
    ds_text_adds(out, finding->point->found.photo);
}

SAY(asked_by)
{
    (void)f;
    const ds_str by = finding->point->survey.asked.by;
    ds_text_adds(out, by.len || !finding->place ? by : finding->place->survey.asked.by);
}

/* --- columns ------------------------------------------------------------------------------------------------------ */

#define TEXT_COLUMN(name, head_text, characters)                                                             \
    static const ds_sheet_column name = {.head = (head_text), .width = (characters), .say = say_##name}
#define NUMBER_COLUMN(name, head_text)                                                                       \
    static const ds_sheet_column name = {.head = (head_text), .width = 11, .number = number_##name}

TEXT_COLUMN(id, "Point", 12);
TEXT_COLUMN(name, "Name", 34);
TEXT_COLUMN(place_id, "Place id", 14);
TEXT_COLUMN(place, "Place", 26);
TEXT_COLUMN(kind, "Kind", 23);
TEXT_COLUMN(zone, "Zone", 14);
TEXT_COLUMN(zone_told, "Zone", 12);
TEXT_COLUMN(needed, "Needed", 24);
TEXT_COLUMN(marked, "Marked", 20);
TEXT_COLUMN(installed, "Installed", 14);
TEXT_COLUMN(shown, "Shown", 14);
TEXT_COLUMN(judged_on, "Judged on", 12);
TEXT_COLUMN(state, "Deciding state", 18);
TEXT_COLUMN(verdict, "Verdict", 12);
TEXT_COLUMN(verdict_word, "Verdict", 12);
TEXT_COLUMN(deciding, "Why", 52);
TEXT_COLUMN(remedy, "What to do", 46);
TEXT_COLUMN(clause, "Clause", 14);
TEXT_COLUMN(edition, "Edition", 26);
TEXT_COLUMN(evidence, "Evidence", 20);
TEXT_COLUMN(found, "Found before", 24);
TEXT_COLUMN(found_date, "Found on", 12);
TEXT_COLUMN(found_by, "Found by", 14);
TEXT_COLUMN(photo, "Photo", 14);
TEXT_COLUMN(asked_by, "Asked for by", 14);
NUMBER_COLUMN(count, "Pieces");
NUMBER_COLUMN(height, "Height, m");
NUMBER_COLUMN(volts, "Volts");
NUMBER_COLUMN(rcd, "RCD, mA");
NUMBER_COLUMN(rated, "Rated for, °C");
NUMBER_COLUMN(cold, "Rated down to, °C");
NUMBER_COLUMN(heat_low, "Inside at least, °C");
NUMBER_COLUMN(heat_high, "Inside at most, °C");
NUMBER_COLUMN(limit, "Limit, °C");
static const ds_sheet_column pieces = {.head = "Pieces", .width = 11, .figures = true};
static const ds_sheet_column fitting = {.head = "Of these fit now", .width = 11, .figures = true};
static const ds_sheet_column points = {.head = "Points", .width = 60};
static const ds_sheet_column found_now = {.head = "Found now", .width = 24};
static const ds_sheet_column initials = {.head = "Initials", .width = 10};

static const ds_sheet_column *const CLIENT[] = {&id, &place, &name, &count, &verdict, &deciding, &remedy};
static const ds_sheet_column *const FITTER[] = {&id,      &place,     &name,   &kind,   &count,
                                                &height,  &zone_told, &needed, &marked, &installed,
                                                &verdict, &deciding,  &remedy};
static const ds_sheet_column *const BUYER[] = {&kind, &needed, &rated, &cold, &pieces, &fitting, &points};
static const ds_sheet_column *const INSPECTOR[] = {
    &id,       &place, &name,     &needed,  &marked,   &installed, &evidence, &found,     &found_date,
    &found_by, &photo, &asked_by, &verdict, &deciding, &clause,    &edition,  &found_now, &initials};
static const ds_sheet_column *const EVERYTHING[] = {
    &id,        &name,  &place_id,     &place,    &kind,       &count,    &height,  &zone,
    &volts,     &rcd,   &needed,       &rated,    &cold,       &marked,   &shown,   &installed,
    &judged_on, &state, &verdict_word, &deciding, &remedy,     &clause,   &edition, &heat_low,
    &heat_high, &limit, &evidence,     &found,    &found_date, &found_by, &photo,   &asked_by};

#define FORM(name_text, list)                                                                                \
    {                                                                                                        \
        (name_text), (list), sizeof(list) / sizeof *(list), 1                                                \
    }

const ds_sheet_form *ds_sheet_form_of(const ds_reader_kind reader)
{
    static const ds_sheet_form FORMS[DS_READERS_LEN] = {[DS_READER_ALL] = FORM("All", EVERYTHING),
                                                        [DS_READER_CLIENT] = FORM("Client", CLIENT),
                                                        [DS_READER_FITTER] = FORM("Fitter", FITTER),
                                                        [DS_READER_BUYER] = FORM("Buyer", BUYER),
                                                        [DS_READER_INSPECTOR] = FORM("Inspector", INSPECTOR)};
    return &FORMS[reader];
}
