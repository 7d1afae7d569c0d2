/* SPDX-License-Identifier: MIT */
/* Marks in their states, and what each rule makes of the goods: private to assess/. */
#ifndef DS_ASSESS_JUDGE_H
#define DS_ASSESS_JUDGE_H

#include "core/assess/point_facts.h"

/* What the marks show in the normal states. */
typedef struct ds_evidence {
    ds_mark mark;                  /* holds in every normal state, after entries and openings */
    ds_mark own;                   /* the same before them */
    const ds_installed *installed; /* NULL: the box tells nothing of them */
    ds_mark state_marks[16];
    size_t states_len; /* 1 when none is stated */
    bool states_stated;
    bool has_mark;    /* some mark could be read and counts in some state */
    bool conditional; /* some mark counts only under a condition */
    bool by_kind;     /* access B rests on the kind alone */
    bool spoilt;
    bool unseen;        /* what it was read from shows no code, so no mark counts */
    bool claimed;       /* what it was read from is a claim */
    bool complete;      /* the kind alone keeps fingers off, now and in its place */
    bool noted;         /* a mark was read with an assumption */
    bool doubtful;      /* `reading` is a question or refused */
    ds_reading reading; /* the first doubtful one, else the first noted one */
} ds_evidence;

/* Reads the marks of a point and joins what counts. */
void ds_evidence_of(ds_assessor *a, ds_point *point, ds_evidence *out);

/* The mark part of what a rule needs, with the seen depth and hours filled in. */
ds_need ds_rule_need(const ds_rule *rule, const ds_facts *facts);

/* The highest and lowest temperatures that a rule asks goods to be rated for; NAN for none. */
double ds_rule_rated_c(const ds_rule *rule, const ds_facts *facts);
double ds_rule_cold_c(const ds_rule *rule, const ds_facts *facts);

/* What one rule, taken to apply, makes of the goods. Questions always fit. */
ds_verdict ds_rule_outcome(const ds_assessor *a, const ds_rule *rule, const ds_point *point,
                           const ds_facts *facts, ds_mark mark);

/* The rule that stands for what a person asks for; NULL when nothing is asked. *failed when memory is short. */
const ds_rule *ds_asked_rule(ds_assessor *a, const ds_asked *asked, int32_t *owner);

#endif
