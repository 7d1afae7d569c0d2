/* SPDX-License-Identifier: MIT */
/*
 * The job document, format 1: what a person wrote down, one struct per thing in the JSON.
 *
 * Reading checks shape only (types, ranges, ids, references); what the words mean is assess's business. Bytes that
 * are no JSON, or no job, are refused with one problem. Anything else wrong is put on the list of problems and the
 * place or point it stands in is marked, so that it can never be passed; the rest is read. Unknown keys are reported
 * and stay in the tree, so a rewrite keeps them.
 *
 * Missing numbers are NAN, missing texts empty (at == NULL), missing lists NULL. Lists of words are the JSON arrays
 * themselves: walk them with ->first and ->next. Everything lives in the arena; the source text must outlive it.
 * docs/job.schema.json is the authority for the format.
 */
#ifndef DS_JOB_JOB_H
#define DS_JOB_JOB_H

#include "core/json/json.h"

/* A yes/no that may be missing. */
typedef enum ds_tri { DS_TRI_MISSING, DS_TRI_NO, DS_TRI_YES } ds_tri;

/* External influence letters, in the order of IEC 60364-5-51. */
typedef enum ds_influence {
    DS_AA,
    DS_AB,
    DS_AC,
    DS_AD,
    DS_AE,
    DS_AF,
    DS_AG,
    DS_AH,
    DS_AK,
    DS_AL,
    DS_AM,
    DS_AN,
    DS_AP,
    DS_AQ,
    DS_AR,
    DS_AS,
    DS_BA,
    DS_BB,
    DS_BC,
    DS_BD,
    DS_BE,
    DS_CA,
    DS_CB,
    DS_INFLUENCES
} ds_influence;

/* "AD"; and the letters back to the influence, DS_INFLUENCES when unknown. */
ds_str ds_influence_name(ds_influence which);
ds_influence ds_influence_of(ds_str name);

/* What a person asks for on top of the rules. */
typedef struct ds_asked {
    const ds_json *at; /* the object; NULL when nothing is asked */
    ds_str ip, ik, material, by;
    double impact_j;
    const ds_json *suitable_for;
} ds_asked;

/* What was seen, ruled out, stated and asked; places and points alike have one. */
typedef struct ds_survey {
    const ds_json *seen; /* array of words and {"word": …} objects, or the string "none" */
    const ds_json *absent;
    double influences[DS_INFLUENCES]; /* NAN: not stated */
    ds_asked asked;
} ds_survey;

typedef struct ds_plan ds_plan; /* plan.h */
typedef struct ds_box ds_box;   /* box.h */

typedef struct ds_place {
    const ds_json *at;
    ds_str id, name, kind, setting;
    ds_survey survey;
    const ds_plan *plan; /* NULL: none */
    int32_t problem;     /* index of the first problem inside this place, -1 none */
} ds_place;

typedef struct ds_supply {
    double volts, rcd_ma;
    ds_str current, source_place;
    ds_tri selv;
} ds_supply;

typedef struct ds_maker {
    double ambient_low_c, ambient_high_c;
    ds_tri surface_d;
    const ds_json *zones, *materials, *suitable_for, *mounting;
} ds_maker;

typedef struct ds_found {
    ds_str date, by, photo;
    const ds_json *words, *evidence;
} ds_found;

/* One claim of the maker; `when` holds the condition words under which it counts (NULL: always). */
typedef struct ds_marked {
    const ds_json *at;
    ds_str ip, ik;
    const ds_json *when;
} ds_marked;

typedef struct ds_point {
    const ds_json *at;
    ds_str id, place_id, name, kind, zone_stated, product_standard;
    int32_t place; /* index, -1 when there is no such place */
    double count, height_m, zone1_distance_m, zone0_distance_m;
    double at_m[3];   /* NAN: no position */
    double size_m[3]; /* along x, along y, upwards; NAN: not stated */
    double tolerance_m;
    ds_tri about; /* the position is rough */
    ds_survey survey;
    ds_supply supply;
    ds_maker maker;
    ds_found found;
    const ds_json *measures, *states, *marked_tree;
    const ds_box *box; /* NULL: none stated, or not readable */
    const ds_marked *marked;
    size_t marked_len;
    int32_t problem; /* index of the first problem inside this point, -1 none */
} ds_point;

typedef struct ds_job {
    const ds_json *tree; /* as read, with unknown keys */
    ds_str source;
    ds_str title, date;
    const ds_json *rules; /* array of pack ids, NULL when none is named */
    ds_place *places;
    size_t places_len;
    ds_point *points;
    size_t points_len;
    ds_problems problems;
    size_t problems_unlisted; /* further ones past DS_JOB_PROBLEMS */
} ds_job;

/* Problems listed with their place; further ones are counted and still mark what they stand in. */
enum { DS_JOB_PROBLEMS = 200 };

/* True for a real day written year-month-day. */
bool ds_date_is_valid(ds_str date);

/* DS_BAD_INPUT: *problem says why nothing could be read. */
ds_status ds_job_read(ds_job *out, ds_str source, ds_arena *arena, ds_problem *problem);

/*
 * Adds a problem at a value of the job and marks its owner (a place's or point's `problem`; NULL: the job as a
 * whole) with the index of its first problem, which is problems.len or more for an unlisted one. False when memory is
 * short.
 */
bool ds_job_complain(ds_job *job, ds_arena *arena, const ds_json *value, int32_t *owner, ds_problem_code code,
                     ds_str a, ds_str b);

#endif
