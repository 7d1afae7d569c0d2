/* SPDX-License-Identifier: MIT */
/*
 * The one function that everything else shows: job + rules -> findings.
 *
 *     ds_findings findings;
 *     ds_assess(&findings, &job, &book, &sizes, &arena, &problem); … needs, verdict, reasons and remedy of every point
 *     ds_findings_json(&text, &findings, NULL);        … or the terminal, CSV, page, papers
 *
 * How a verdict comes about, for each point:
 *  1. Facts: the place's and the point's words, influences, stated zone and figures (what is not stated stays open).
 *  2. Every rule of the job's packs is judged. One that applies adds its need; one that is open, because a fact is
 *     missing, adds a possible need. Only grade "rule", and what the job asks for, change a verdict; the exception is an
 *     unanswered question (water, dust, blows, people), where everything that may follow counts as possible.
 *  3. The marks that count in each normal state are joined and compared with the need; the worst state decides.
 *  4. The worst of all findings is the verdict: barred > short > unknown > fits. Anything not understood inside the
 *     point or its place makes it at least unknown.
 * Nothing downstream decides anything.
 */
#ifndef DS_ASSESS_ASSESS_H
#define DS_ASSESS_ASSESS_H

#include "core/job/job.h"
#include "core/box/climate.h"
#include "core/box/installed.h"
#include "core/rules/pack.h"
#include "core/zone/locate.h"

#define DS_PROGRAM_VERSION "0.1.0"

/* One rule that had something to say about a point. */
typedef struct ds_reason {
    const ds_rule *rule;
    ds_truth truth;     /* DS_YES, or DS_MAYBE for one left open */
    ds_missing missing; /* DS_MAYBE: what would settle it */
    ds_verdict outcome; /* what this rule alone makes of the goods */
    bool decides;       /* it is (one of) what the verdict rests on */
    bool covered;       /* another reason asks for all of this and more */
} ds_reason;

/* What keeps a point from a better verdict, worst first in this order; the remedy answers it. */
typedef enum ds_obstacle {
    DS_OBSTACLE_NONE,
    DS_OBSTACLE_BAR,        /* reason: a position, voltage, kind or rated-temperature rule */
    DS_OBSTACLE_SHORT,      /* the mark falls short of the need */
    DS_OBSTACLE_MATERIAL,   /* the maker states another material */
    DS_OBSTACLE_HEAT,       /* too warm inside, or how warm is not told */
    DS_OBSTACLE_SWEAT,      /* it sweats and must stay dry, or whether it sweats is not told */
    DS_OBSTACLE_FLOOD,      /* high water reaches it, or how far is not told */
    DS_OBSTACLE_REFUSED,    /* explosive atmosphere: specialist */
    DS_OBSTACLE_PROBLEM,    /* something in the document is not understood */
    DS_OBSTACLE_NO_RULES,   /* no rule pack is named */
    DS_OBSTACLE_ZONE,       /* the place has zones and the point's is not known */
    DS_OBSTACLE_UNANSWERED, /* water, dust, blows or people */
    DS_OBSTACLE_SPOILT,     /* what was found takes the mark away */
    DS_OBSTACLE_ENTRY,      /* the mark would do, an entry or opening takes it away */
    DS_OBSTACLE_MARK,       /* no mark, or one that cannot be counted */
    DS_OBSTACLE_STATE,      /* a conditional mark and no state */
    DS_OBSTACLE_TEST,       /* a needed test is not shown */
    DS_OBSTACLE_FACT,       /* a rule is open for want of a figure or statement */
    DS_OBSTACLE_RATED,      /* temperature, surface, quality or measure not shown */
} ds_obstacle;

/* The goods as they stand are not enough, or not told to be. */
static inline bool ds_obstacle_of_goods(const ds_obstacle obstacle)
{
    return obstacle >= DS_OBSTACLE_SHORT && obstacle <= DS_OBSTACLE_FLOOD;
}

typedef enum ds_remark_code {
    DS_REMARK_ACCESS_BY_KIND, /* complete accessory counts as keeping fingers off (common practice) */
    DS_REMARK_MORE_THAN_NEEDED,
    DS_REMARK_CONDITIONAL, /* a mark counts in some states only */
    DS_REMARK_NOTED,       /* a mark was read with an assumption: see reading */
    DS_REMARK_ABSENT_HERE, /* the point rules out what its place says */
    DS_REMARK_IMMERSION,   /* compare the declared depth and time with the place */
    DS_REMARK_CLAIM,       /* the mark is known from the seller, or from before: look at the label */
    DS_REMARK_ENTRIES,     /* the box does not list its entries: judged on the mark */
    DS_REMARK_HEAT,        /* how warm it becomes inside: no limit is stated, so it is not judged */
    DS_REMARK_HEAT_FITS,   /* the same, below its limit */
    DS_REMARK_NO_HEAT,     /* a box that lists its entries and no losses: heat is not assessed */
    DS_REMARK_QUENCH,      /* what it draws in when quenched */
    DS_REMARK_FLOOD,       /* high water stays clear of it */
    DS_REMARK_SWEATING,    /* a heater or humidity is stated and no day: sweating is not assessed */
    DS_REMARK_DAY,         /* how warm it becomes over the day, where nothing of heat is asked */
    DS_REMARK_SWEATS,      /* whether it sweats over the day */
    DS_REMARK_ENTRY_TOO,   /* something else decides, and an entry or opening is to be mended as well */
    DS_REMARKS
} ds_remark_code;

enum { DS_WET_MAPS = 4 };

/* The zones of one place by its plan: a map for each pack that has zone rules for it, the job's first pack first. */
typedef struct ds_wet {
    const ds_zone_map *maps[DS_WET_MAPS];
    const ds_pack *packs[DS_WET_MAPS];
    const ds_zone_law *laws[DS_WET_MAPS]; /* of each pack that has some, with a plan or without */
    size_t laws_len;
    size_t len;  /* 0: no plan, or no zones in such a place */
    bool broken; /* the plan could not be used */
} ds_wet;

typedef struct ds_finding {
    const ds_point *point;
    const ds_place *place;       /* NULL when there is none */
    ds_str zone;                 /* "0".., "outside", "not-applicable", "unknown" */
    const ds_zone_answer *where; /* by the plan, in the first map of its place; NULL: not from a plan */
    ds_verdict verdict;
    ds_need needed;   /* by rules and by what is asked */
    ds_need advised;  /* by guidance and judgement on top */
    ds_mark marked;   /* what is shown, after entries and openings; DS_MARK_SILENT when nothing counts */
    ds_mark own_mark; /* the same before entries and openings */
    const ds_climate *climate;     /* NULL: no box, or none that tells of heat or water */
    const ds_installed *installed; /* NULL: no box that has parts or lists its entries */
    bool has_mark;
    bool unseen;   /* what its mark was read from shows no code, so none counts */
    bool complete; /* its kind alone keeps fingers off (common practice): no letter need be asked for */
    int32_t state; /* index of the deciding state, -1 when none is stated */
    ds_need lost;  /* the needed tests that are not proven in that state */
    double rated_c, cold_c; /* NAN: none needed */
    bool surface_d;
    uint8_t unanswered; /* bit a group */
    ds_obstacle obstacle;
    const ds_rule *deciding; /* the rule that the obstacle or the need rests on; NULL: none */
    bool asked_decides;      /* what a person asks for is what decides */
    ds_reading reading;      /* of the mark that the obstacle is about, if it is about one */
    uint32_t remarks;        /* bit a ds_remark_code */
    const ds_reason *reasons;
    size_t reasons_len;
} ds_finding;

/* A question to somebody, with the points that it is about. */
typedef struct ds_question {
    ds_whom whom;
    ds_str text;
    const ds_rule *rule;    /* NULL when it comes from the job itself */
    const uint32_t *points; /* indices */
    size_t points_len;
} ds_question;

typedef struct ds_findings {
    const ds_job *job;
    const ds_rulebook *book;
    const ds_sizes *sizes;
    const ds_pack *packs[DS_PACKS_MAX]; /* in the job's order */
    size_t packs_len;
    const ds_wet *wet; /* of each place */
    ds_finding *points;
    size_t points_len;
    size_t counted[4]; /* points of each verdict */
    ds_question *questions;
    size_t questions_len;
} ds_findings;

/*
 * Adds the problems that it finds to the job's. DS_BAD_INPUT: the job names a rule pack that does not exist; nothing can
 * be said then, and *problem says which.
 */
ds_status ds_assess(ds_findings *out, ds_job *job, const ds_rulebook *book, const ds_sizes *sizes,
                    ds_arena *arena, ds_problem *problem);

/* 0 when all fit, 1 otherwise (also when there are no points). */
int ds_findings_exit(const ds_findings *findings);

/*
 * The need as a code to ask for: without the finger letter where the kind alone answers it and something else is needed,
 * since accessories and luminaires do not carry it.
 */
ds_need ds_finding_code(const ds_finding *finding);

/* Whether the sun may shine on it and the sky look down on it, unless its box says otherwise: by its place. */
bool ds_finding_outdoors(const ds_finding *finding);

/* The map that finding->where speaks of; NULL when there is none. */
const ds_zone_map *ds_finding_map(const ds_findings *findings, const ds_finding *finding);

/* "installed" when all entries of its box are known, else "marked". */
const char *ds_finding_judged_on(const ds_finding *finding);

/*
 * What is shown, as one code. Tests of dust that entries or openings leave open are not claimed: they would read as a
 * road-vehicle 5K or 6K, which only a mark can state.
 */
void ds_finding_shown(ds_text *out, const ds_finding *finding);

/* The entry or opening that takes away what the mark has, against the point's need; NULL when none does. */
const ds_part *ds_finding_part(const ds_finding *finding);

/* The first problem inside the point or its place; NULL when there is none, or only unlisted ones. */
const ds_problem *ds_finding_problem(const ds_findings *findings, const ds_finding *finding);

/* Why this pack may not be the edition to go by on the job's date; false when there is nothing to say. */
bool ds_pack_notice(ds_text *out, const ds_pack *pack, ds_str date);

#endif
