/* SPDX-License-Identifier: MIT */
/*
 * Two answers set side by side: what changed for every point, and why.
 *
 * The two may be two versions of a job (re-checked years later, when a room is used for something else), or one job under
 * two rule packs. Points are paired by id, in n log n.
 *
 *     ds_differ differ;
 *     if (!ds_differ_make(&differ, &before, &after, &arena)) … out of memory …
 *     ds_differ_json(&text, &differ);       … or point by point, worst first:
 *     for (size_t i = 0; i < differ.points_len; i++) … differ.points[i] …
 *
 * Why a point's answer changed is one or more of three: what the document says of the point, what it says of its place, and
 * the rules. Each is found by comparing what went in, never guessed from what came out: where the point itself is as it was,
 * the place or the rules are named.
 */
#ifndef DS_ASSESS_DIFFER_H
#define DS_ASSESS_DIFFER_H

#include "core/assess/assess.h"

/* In the order in which they are told. */
typedef enum ds_turn {
    DS_TURN_WORSE,   /* the verdict is worse */
    DS_TURN_ADDED,   /* the point was not there before */
    DS_TURN_REMOVED, /* it is no longer there */
    DS_TURN_BETTER,  /* the verdict is better */
    DS_TURN_NEED,    /* the same verdict on another need */
    DS_TURN_OTHER,   /* the same verdict and need; something else is not as it was */
    DS_TURNS
} ds_turn;

/* What a document says of one thing, before and after; NULL: nothing. */
typedef struct ds_restated {
    ds_str key;
    const ds_json *before, *after;
} ds_restated;

typedef struct ds_restatements {
    ds_restated *at; /* in the order of the later document, what is gone last */
    size_t len;
} ds_restatements;

typedef struct ds_difference {
    const ds_finding *before, *after; /* NULL: not there */
    ds_turn turn;
    ds_restatements point;        /* what the document says otherwise of the point */
    const ds_restatements *place; /* and of its place; never NULL */
    const ds_reason **came,
        **went; /* rules that apply, or are open, only after, only before; covered ones left out */
    size_t came_len, went_len;
    bool
        by_rules; /* the rules have a part in it: one of those is not in the other packs, or nothing else changed */
} ds_difference;

typedef struct ds_differ {
    const ds_findings *before, *after;
    bool other_rules;      /* they go by other rule packs */
    ds_difference *points; /* that differ: by turn, then worst first, then as in the later document */
    size_t points_len;
    size_t points_all; /* in both or in one */
    size_t counted[DS_TURNS];
} ds_differ;

/* Both findings must outlive the result, and come from one rulebook. False when memory is short. */
bool ds_differ_make(ds_differ *out, const ds_findings *before, const ds_findings *after, ds_arena *arena);

/*
 * Lets a job go by these packs whatever it names itself; before it is assessed. False when memory is short; the texts must
 * outlive the job.
 */
bool ds_differ_use_packs(ds_job *job, const ds_str *packs, size_t len, ds_arena *arena);

/* 0 when no verdict and no need changed and no point came or went, else 1. */
int ds_differ_exit(const ds_differ *differ);

/* "worse", "added", "removed", "better", "need", "other" */
const char *ds_turn_word(ds_turn turn);

/* --- in words ------------------------------------------------------------------------------------------------------- */

/* "2 of 9 points are worse, 1 is better, 1 was added; 5 are as they were." */
void ds_differ_say(ds_text *out, const ds_differ *differ);

/* What made the difference, a sentence each; false when there is no such cause. */
typedef enum ds_cause { DS_CAUSE_POINT, DS_CAUSE_PLACE, DS_CAUSE_RULES, DS_CAUSES } ds_cause;
bool ds_differ_say_cause(ds_text *out, const ds_differ *differ, const ds_difference *difference,
                         ds_cause cause);

/* The differences as JSON (docs/differ.md). */
void ds_differ_json(ds_text *out, const ds_differ *differ);

#endif
