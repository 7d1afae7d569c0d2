/* SPDX-License-Identifier: MIT */
/* dripstone draw: plan and section of a wet place as SVG. */
#include "cli/assessed.h"
#include "cli/commands.h"
#include "cli/drawing.h"
#include "core/draw/plan.h"

static const ds_option OPTIONS[] = {
    {"place", 0, "ID", "which place; may be left out when only one has a plan"},
    {"output", 'o', "FILE", "write to this file instead of standard output"},
    {"force", 0, NULL, "replace an existing file"},
    DS_ASSESSED_OPTIONS,
    {0},
};

/* Of a place with zones. */
static ds_str planned_id(const ds_assessed *const a, const size_t index)
{
    return a->findings.wet[index].len ? a->job.places[index].id : DS_STR("");
}

/* The place asked for, or the only one with zones; places_len when it was said why there is none. */
static size_t choose_place(const ds_assessed *const a)
{
    const ds_str id = ds_args_value(a->args, "place");
    size_t found = a->job.places_len;
    if (id.at) {
        found = ds_assessed_place(a, id);
        if (found == a->job.places_len) {
            ds_assessed_fail_place(a, id);
        } else if (!a->findings.wet[found].len) {
            ds_host_fail(a->host, "the place has no plan with zones:", id, ". dripstone zones says why.");
            found = a->job.places_len;
        }
        return found;
    }
    size_t len = 0;
    for (size_t i = 0; i < a->job.places_len; i++) {
        if (a->findings.wet[i].len) {
            found = i;
            len++;
        }
    }
    if (len != 1) {
        ds_assessed_fail_choice(a, a->job.places_len, planned_id,
                                "several places have a plan; name one with --place:",
                                "no place of this job has a plan with zones; dripstone zones says why.");
        return a->job.places_len;
    }
    return found;
}

static int draw(ds_assessed *const a)
{
    const size_t place = choose_place(a);
    if (place == a->job.places_len) {
        return DS_EXIT_UNREADABLE;
    }
    ds_sheet sheet;
    const ds_status status = ds_plan_sheet(&sheet, &a->findings, place, &a->arena);
    return ds_drawing_put(a, &sheet, status, "the plan cannot be drawn: its figures go beyond a sheet.");
}

static int run(ds_host *const host, const ds_args *const args)
{
    if (args->words_len != 1) {
        return ds_fail_usage(host, &DS_DRAW, "draw takes one job file, or - for standard input.");
    }
    ds_assessed a;
    const int status = ds_assessed_open(&a, host, args) ? draw(&a) : DS_EXIT_UNREADABLE;
    ds_assessed_close(&a);
    return status;
}

const ds_command DS_DRAW = {
    .name = "draw",
    .usage = "JOB [--place ID] [-o FILE.svg [--force]]",
    .summary = "plan and section of a wet place, as SVG",
    .help = "Draws one place with a plan on an A4 sheet: the plan with its zones by hatch and number, a "
            "section on the "
            "same scale, the points with their numbers, the string to what is barred, and a table that says "
            "which zone "
            "each point is in. Reads well in black and white.\n"
            "\n"
            "Exit status: 0 drawn; 2 the job could not be read, the place has no usable plan, or the file "
            "was not "
            "written.\n"
            "\n"
            "  dripstone draw house.json --place bath -o bath.svg\n",
    .options = OPTIONS,
    .run = run,
};
