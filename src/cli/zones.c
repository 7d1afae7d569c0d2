/* SPDX-License-Identifier: MIT */
/* dripstone zones: the zones of wet places by their plans, and where things stand in them. */
#include "cli/assessed.h"
#include "cli/commands.h"
#include "cli/page.h"
#include "core/assess/render.h"

#include <math.h>

static const ds_option OPTIONS[] = {
    {"place", 0, "ID", "only this place"},
    {"at", 0, "X,Y,Z", "which zone is here, metres on the place's plan (may be repeated)"},
    {"json", 0, NULL, "the shapes of one place as JSON, with the way to each point"},
    DS_ASSESSED_OPTIONS,
    {0},
};

enum { INDENT = 2, ZONE_COLUMN = 12 };

typedef struct zones {
    ds_assessed a;
    ds_page page;
    ds_text say;
    ds_zone_spot spots[DS_ARGS_GIVEN];
    size_t spots_len;
} zones;

static void take(zones *const z, const ds_style style)
{
    ds_page_adds(&z->page, style, ds_text_str(&z->say));
    z->say.len = 0;
}

/* "1.2,0.5,1.0" */
static bool read_spot(const ds_str text, ds_zone_spot *const out)
{
    size_t start = 0;
    for (size_t i = 0; i < 3; i++) {
        size_t end = start;
        while (end < text.len && text.at[end] != ',') {
            end++;
        }
        const bool last = end == text.len;
        if (!ds_number_read((ds_str){text.at + start, end - start}, &out->at_m[i]) || last != (i == 2) ||
            fabs(out->at_m[i]) > 1000) {
            return false;
        }
        start = end + 1;
    }
    return true;
}

static bool read_spots(zones *const z, const ds_args *const args)
{
    for (int i = 0; i < args->given_len; i++) {
        if (!ds_str_is(DS_STR("at"), args->given[i].option->name)) {
            continue;
        }
        if (!read_spot(args->given[i].value, &z->spots[z->spots_len++])) {
            return false;
        }
    }
    return true;
}

/* --- as a page ---------------------------------------------------------------------------------------------------- */

static void put_heights(zones *const z, const ds_zone_part *const part)
{
    ds_text_number(&z->say, part->from_m, 2);
    ds_text_add(&z->say, " to ");
    if (isfinite(part->to_m)) {
        ds_text_number(&z->say, part->to_m, 2);
        ds_text_add(&z->say, " m");
    } else {
        ds_text_add(&z->say, "the ceiling");
    }
    ds_text_add(&z->say, " high, area ");
    ds_text_number(&z->say, part->region.area_m2, 3);
    ds_text_add(&z->say, z->page.ascii ? " m2" : " m²");
}

static void put_shape(zones *const z, const ds_zone_shape *const shape)
{
    for (size_t i = 0; i < shape->parts_len; i++) {
        ds_text_add(&z->say, "zone ");
        ds_text_adds(&z->say, shape->word);
        ds_page_cell(&z->page, DS_STRONG, i ? DS_STR("") : ds_text_str(&z->say), ZONE_COLUMN);
        z->say.len = 0;
        put_heights(z, &shape->parts[i]);
        take(z, DS_PLAIN);
        ds_page_row(&z->page, INDENT);
    }
}

static void put_answer(zones *const z, const ds_str name, const ds_zone_answer *const answer,
                       const ds_zone_map *const map)
{
    ds_page_cell(&z->page, DS_STRONG, name, ZONE_COLUMN);
    const ds_str word = ds_zone_answer_word(answer, map);
    const bool numbered = !ds_str_is(word, "outside") && !ds_str_is(word, "unknown");
    ds_page_add(&z->page, DS_STRONG, numbered ? "zone " : "");
    ds_page_adds(&z->page, answer->zone == SIZE_MAX ? DS_DOUBT : DS_STRONG, word);
    ds_zone_say_way(&z->say, answer, map);
    ds_page_add(&z->page, DS_PLAIN, z->say.len ? ": " : "");
    take(z, DS_PLAIN);
    ds_page_break(&z->page, INDENT, INDENT + ZONE_COLUMN);
    ds_zone_say_measure(&z->say, answer, map);
    if (z->say.len) {
        take(z, DS_DOUBT);
        ds_page_break(&z->page, INDENT + ZONE_COLUMN, INDENT + ZONE_COLUMN);
    }
    for (int i = 0; i < DS_ZONE_CAUTIONS; i++) {
        if (answer->cautions >> i & 1) {
            ds_zone_say_caution(&z->say, answer, (ds_zone_caution)i);
            ds_text_add(&z->say, ".");
            take(z, DS_QUIET);
            ds_page_break(&z->page, INDENT + ZONE_COLUMN, INDENT + ZONE_COLUMN);
        }
    }
}

/* A point that the plan cannot place: which of its lengths is missing, or that it is outside. */
static void put_unplaced(zones *const z, const ds_point *const point)
{
    const ds_json *const at = ds_json_get(point->at, DS_STR("at_m"));
    const bool flat = at && at->first && at->first->next && !at->first->next->next;
    ds_page_cell(&z->page, DS_STRONG, point->id, ZONE_COLUMN);
    ds_page_add(&z->page, DS_DOUBT,
                !isnan(point->at_m[0])   ? "not in the room of the plan: no zone"
                : flat                   ? "height not stated: no zone"
                : point->zone_stated.len ? "its zone is stated, not its position"
                                         : "position not stated: no zone");
    ds_page_break(&z->page, INDENT, INDENT + ZONE_COLUMN);
}

static void put_points(zones *const z, const size_t place, const ds_zone_map *const map)
{
    for (size_t i = 0; i < z->a.findings.points_len; i++) {
        const ds_finding *const finding = &z->a.findings.points[i];
        if (finding->point->place != (int32_t)place) {
            continue;
        }
        if (finding->where) {
            put_answer(z, finding->point->id, finding->where, map);
        } else {
            put_unplaced(z, finding->point);
        }
    }
}

static void put_spots(zones *const z, const ds_zone_map *const map)
{
    for (size_t i = 0; i < z->spots_len; i++) {
        const ds_zone_spot *const spot = &z->spots[i];
        const ds_zone_item item = {.at_m = {spot->at_m[0], spot->at_m[1], spot->at_m[2]}};
        ds_zone_answer answer;
        if (ds_zone_ask(&answer, map, &item) == DS_OK) {
            put_answer(z, DS_STR("here"), &answer, map);
        } else {
            ds_page_cell(&z->page, DS_STRONG, DS_STR("here"), ZONE_COLUMN);
            ds_page_add(&z->page, DS_DOUBT, "not in the room of the plan");
            ds_page_break(&z->page, INDENT, INDENT + ZONE_COLUMN);
        }
    }
}

static void put_place(zones *const z, const size_t index)
{
    const ds_place *const place = &z->a.job.places[index];
    const ds_wet *const wet = &z->a.findings.wet[index];
    const ds_zone_map *const map = wet->maps[0];
    ds_page_adds(&z->page, DS_STRONG, place->name.at ? place->name : place->id);
    ds_page_add(&z->page, DS_QUIET, "   section ");
    ds_page_adds(&z->page, DS_QUIET, map->law->section);
    ds_page_add(&z->page, DS_QUIET, ", ");
    ds_page_adds(&z->page, DS_QUIET, wet->packs[0]->edition);
    ds_page_break(&z->page, 0, INDENT);
    for (size_t i = 0; i < map->zones_len; i++) {
        put_shape(z, &map->zones[i]);
    }
    ds_page_gap(&z->page);
    put_points(z, index, map);
    put_spots(z, map);
}

/* What stands in the way of a place without a map. */
static void put_broken(zones *const z, const size_t index)
{
    const ds_place *const place = &z->a.job.places[index];
    ds_page_adds(&z->page, DS_STRONG, place->name.at ? place->name : place->id);
    ds_page_break(&z->page, 0, INDENT);
    const ds_problems *const problems = &z->a.job.problems;
    const bool told = place->problem >= 0 && (size_t)place->problem < problems->len;
    if (told) {
        const ds_problem *const problem = &problems->at[place->problem];
        ds_text_add(&z->say, "Line ");
        ds_text_int(&z->say, problem->where.line);
        ds_text_add(&z->say, ": ");
        ds_problem_say(&z->say, problem);
        ds_text_add(&z->say, ". ");
        ds_problem_mend(&z->say, problem);
    } else {
        ds_text_add(&z->say, place->plan ? "No rule pack of the job has zones for such a place."
                                         : "It has no plan, so no zones can be told.");
    }
    take(z, DS_DOUBT);
    ds_page_break(&z->page, INDENT, INDENT);
}

static int print_page(zones *const z, const size_t only)
{
    ds_page_open(&z->page, z->a.host, z->a.args);
    ds_text_init(&z->say, z->a.host->alloc);
    size_t shown = 0;
    bool all = true;
    for (size_t i = 0; i < z->a.job.places_len; i++) {
        if (i != only && (only < z->a.job.places_len || !z->a.job.places[i].plan)) {
            continue;
        }
        if (shown++) {
            ds_page_gap(&z->page);
        }
        const bool mapped = z->a.findings.wet[i].len > 0;
        all = all && mapped;
        if (mapped) {
            put_place(z, i);
        } else {
            put_broken(z, i);
        }
    }
    if (!shown) {
        ds_page_add(&z->page, DS_PLAIN,
                    "No place of this job has a plan. A plan holds the room's outline and what stands "
                    "in it: see docs/plan.md.");
        ds_page_break(&z->page, 0, 0);
    }
    z->page.line.failed = z->page.line.failed || !ds_text_ok(&z->say);
    ds_text_free(&z->say);
    ds_page_close(&z->page);
    return shown && all ? DS_EXIT_FINE : DS_EXIT_NOT_ALL;
}

/* --- the command -------------------------------------------------------------------------------------------------- */

/* The only place with a plan; places_len when there is none or several. */
static size_t only_planned(const ds_job *const job)
{
    size_t found = job->places_len;
    for (size_t i = 0; i < job->places_len; i++) {
        if (job->places[i].plan) {
            if (found < job->places_len) {
                return job->places_len;
            }
            found = i;
        }
    }
    return found;
}

static int print_json(zones *const z, const size_t place)
{
    const size_t one = place < z->a.job.places_len ? place : only_planned(&z->a.job);
    if (one == z->a.job.places_len) {
        return ds_fail_usage(z->a.host, &DS_ZONES, "--json takes one place: name it with --place.");
    }
    ds_zones_json(&z->a.host->out, &z->a.findings, one, z->spots, z->spots_len);
    return z->a.findings.wet[one].len ? DS_EXIT_FINE : DS_EXIT_NOT_ALL;
}

static int print(zones *const z)
{
    const ds_str id = ds_args_value(z->a.args, "place");
    const size_t place = id.at ? ds_assessed_place(&z->a, id) : z->a.job.places_len;
    if (id.at && place == z->a.job.places_len) {
        return ds_assessed_fail_place(&z->a, id);
    }
    return ds_args_has(z->a.args, "json") ? print_json(z, place) : print_page(z, place);
}

static int run(ds_host *const host, const ds_args *const args)
{
    zones z = {.spots_len = 0};
    if (args->words_len != 1) {
        return ds_fail_usage(host, &DS_ZONES, "zones takes one job file, or - for standard input.");
    }
    if (!read_spots(&z, args)) {
        return ds_fail_usage(host, &DS_ZONES, "--at takes three numbers of metres: --at 1.2,0.5,1.0");
    }
    int status = DS_EXIT_UNREADABLE;
    if (ds_assessed_open(&z.a, host, args)) {
        status = print(&z);
    }
    ds_assessed_close(&z.a);
    return status;
}

const ds_command DS_ZONES = {
    .name = "zones",
    .usage = "JOB [--place ID] [--at X,Y,Z]... [--json]",
    .summary = "zones of wet places, from their plans",
    .help = "Computes the zones round baths, showers, pools, fountains and sauna heaters from the plan of a "
            "place: how "
            "high, how large, and by which way each point stands in one.\n"
            "\n"
            "Distances run along the shortest string round walls and partitions that count. What the "
            "standards leave open "
            "is said wherever it decides.\n"
            "\n"
            "Exit status: 0 zones were found; 1 some place has a plan that cannot be used, or none has one; "
            "2 the job "
            "could not be read.\n"
            "\n"
            "  dripstone zones house.json\n"
            "  dripstone zones house.json --place bath --at 2.0,0.35,1.0\n",
    .options = OPTIONS,
    .run = run,
};
