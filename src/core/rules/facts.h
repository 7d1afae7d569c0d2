/* SPDX-License-Identifier: MIT */
/*
 * Flat facts about one point, as rules see them: words that hold or are open, and numbers as spans.
 *
 * A word's bit in `yes` says it holds; in `open`, that it may; in neither, that it does not. A number lies somewhere
 * in its span: a measured one has low == high, a missing one -INF..INF, an external influence of an unanswered
 * question lies between what is already known and INF. So "not stated" is never mistaken for "no".
 *
 * The classes of most influences are steps of one thing: the highest counts, a number. Those of AA, AB, AM, BA, BE and CB
 * are kinds (BE2 burns, BE4 spoils food), and AD7 and AD8 are another test than AD1 to AD6: each such class is a word of
 * family "class", and several may hold together.
 */
#ifndef DS_RULES_FACTS_H
#define DS_RULES_FACTS_H

#include "core/rules/words.h"

/* Influences first, in their order, then the measured quantities. */
typedef enum ds_number {
    DS_NUMBER_VOLTS = DS_INFLUENCES,
    DS_NUMBER_HEIGHT,
    DS_NUMBER_ZONE1_DISTANCE,
    DS_NUMBER_ZONE0_DISTANCE,
    DS_NUMBER_RCD,
    DS_NUMBER_DEPTH,
    DS_NUMBER_HOURS,
    DS_NUMBER_DISTANCE,
    DS_NUMBER_TEMP,
    DS_NUMBERS
} ds_number;

/* "AD", "height_m", …; and back, DS_NUMBERS when unknown. */
ds_str ds_number_name(ds_number which);
ds_number ds_number_of(ds_str name);

typedef struct ds_span {
    double low, high;
} ds_span;

typedef struct ds_facts {
    uint64_t yes[DS_WORDS_MAX / 64];
    uint64_t open[DS_WORDS_MAX / 64];
    ds_span number[DS_NUMBERS];
} ds_facts;

/* No word holds or is open; numbers are missing, influences 1 (the lowest class). */
void ds_facts_init(ds_facts *facts);

static inline void ds_facts_set(ds_facts *const facts, const int id)
{
    if (id >= 0) {
        facts->yes[id / 64] |= UINT64_C(1) << id % 64;
        facts->open[id / 64] &= ~(UINT64_C(1) << id % 64);
    }
}

static inline bool ds_facts_has(const ds_facts *const facts, const int id)
{
    return id >= 0 && (facts->yes[id / 64] >> id % 64 & 1);
}

static inline bool ds_facts_may(const ds_facts *const facts, const int id)
{
    return id >= 0 && (facts->open[id / 64] >> id % 64 & 1);
}

/* A set of words, by id. */
typedef struct ds_wordset {
    uint64_t bits[DS_WORDS_MAX / 64];
} ds_wordset;

/* All words of a family; of DS_FAMILY_SEEN only those of one group, unless group is DS_GROUPS. */
void ds_wordset_of(ds_wordset *out, const ds_words *words, ds_family family, ds_group group);

/* Opens every word of the set that does not hold already. */
void ds_facts_open(ds_facts *facts, const ds_wordset *set);

/* Sets a word and the wider words that it `is`. */
void ds_facts_set_wider(ds_facts *facts, const ds_words *words, int id);

/* True when this class is a kind of its own, not a step. */
bool ds_class_is_kind(ds_influence which, unsigned class_number);

/* Id of the word for such a class ("BE2"), -1 when no rule speaks of it. */
int ds_class_word(const ds_words *words, ds_influence which, unsigned class_number);

/* A class of an influence holds: the number is at least this, or the word is set. */
void ds_facts_raise(ds_facts *facts, const ds_words *words, ds_influence which, unsigned class_number);

#endif
