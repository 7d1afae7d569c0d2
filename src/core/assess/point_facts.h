/* SPDX-License-Identifier: MIT */
/*
 * From what the job says to flat facts, resolving its words: private to assess/.
 *
 * A place is read once; each point starts from its place and adds its own. Words that are not known become problems of
 * the place or point they stand in.
 */
#ifndef DS_ASSESS_POINT_FACTS_H
#define DS_ASSESS_POINT_FACTS_H

#include "core/assess/assess.h"

/* Sets of words that are looked up for every point, made once. */
typedef struct ds_vocabulary {
    const ds_words *words;
    ds_wordset groups[DS_GROUPS];  /* seen words of each group */
    ds_wordset classes[DS_GROUPS]; /* classes that are kinds, of each group's influence */
    ds_wordset zones, standards, maker_zones, materials;
    int selv, ac, dc, source_outside, source_inside, top_reachable;
} ds_vocabulary;

/* What a place and its point have said together. */
typedef struct ds_situation {
    ds_wordset seen;
    uint16_t stated[DS_INFLUENCES]; /* bit a class */
    uint8_t answered;               /* bit a group */
    bool refused;                   /* explosive atmosphere */
    ds_span quantity[DS_NUMBERS];   /* beside seen words; low > high: none */
    int place_id, setting_id;       /* words, -1 unknown */
} ds_situation;

typedef struct ds_assessor {
    ds_job *job;
    const ds_rulebook *book;
    const ds_sizes *sizes;
    ds_arena *arena;
    ds_vocabulary vocabulary;
    bool failed;
} ds_assessor;

void ds_vocabulary_init(ds_vocabulary *out, const ds_words *words);

/* Reports a problem in the job; remembers when memory is short. */
void ds_assessor_complain(ds_assessor *a, const ds_json *value, int32_t *owner, ds_problem_code code,
                          ds_str word, ds_str rest);

/* Id of a word of the job, -1 with a problem when it is not known. */
int ds_assessor_word(ds_assessor *a, ds_family family, const ds_json *value, ds_str word, int32_t *owner);

/* Checks every word of a list. */
void ds_assessor_check_words(ds_assessor *a, ds_family family, const ds_json *list, int32_t *owner);

void ds_situation_of_place(ds_assessor *a, ds_place *place, ds_situation *out);

/* Adds what the point says; *absent_here becomes true when it rules out what its place says. */
void ds_situation_add_point(ds_assessor *a, ds_point *point, ds_situation *situation, bool *absent_here);

/*
 * The facts of a point; *zone is the zone's word, "unknown" or "not-applicable". Returns where it stands by the plan of
 * its place, NULL when no plan tells.
 */
const ds_zone_answer *ds_point_facts(ds_assessor *a, ds_point *point, const ds_situation *situation,
                                     const ds_wet *wet, ds_facts *out, ds_str *zone);

#endif
