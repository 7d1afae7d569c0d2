/* SPDX-License-Identifier: MIT */
/*
 * The words that jobs and rules may use: data from rules/words.json and rules/seen.json (format: docs/packs.md).
 *
 * Each word of each family has a number, its id. A fact "this word holds" is a bit at that id (facts.h). Families
 * that have no file (zone, supply, standard, maker_zone, top, class) get their words from the rules that name them.
 */
#ifndef DS_RULES_WORDS_H
#define DS_RULES_WORDS_H

#include "core/job/job.h"

typedef enum ds_family {
    DS_FAMILY_SETTING,
    DS_FAMILY_PLACE,
    DS_FAMILY_KIND,
    DS_FAMILY_MEASURE,
    DS_FAMILY_CONDITION,
    DS_FAMILY_FOUND,
    DS_FAMILY_EVIDENCE,
    DS_FAMILY_QUALITY,
    DS_FAMILY_MATERIAL,
    DS_FAMILY_SEEN,
    /* from here on without a file */
    DS_FAMILY_ZONE,
    DS_FAMILY_SUPPLY,
    DS_FAMILY_STANDARD,
    DS_FAMILY_MAKER_ZONE,
    DS_FAMILY_TOP,
    DS_FAMILY_CLASS,
    DS_FAMILIES
} ds_family;

/* The four questions that a place must answer, and the rest. */
typedef enum ds_group {
    DS_GROUP_WATER,
    DS_GROUP_DUST,
    DS_GROUP_BLOWS,
    DS_GROUP_PEOPLE,
    DS_GROUP_REST,
    DS_GROUPS
} ds_group;

typedef enum ds_source_kind {
    DS_SOURCE_PUBLISHED,
    DS_SOURCE_MEMORY,
    DS_SOURCE_PRACTICE,
    DS_SOURCE_PERSON
} ds_source_kind;

typedef struct ds_source {
    ds_source_kind kind;
    ds_str ref;
} ds_source;

enum { DS_WORDS_MAX = 1024 };

typedef struct ds_word {
    ds_family family;
    ds_str word, label, because;
    ds_group group;                    /* seen */
    uint8_t influences[DS_INFLUENCES]; /* class that it stands for; 0 none */
    bool complete, enclosure, refuse, spoils;
    bool no_code, claim, beside_label;             /* what evidence is worth; docs/packs.md */
    const ds_json *also, *is, *zones, *quantities; /* NULL: none */
    ds_source source;
} ds_word;

typedef struct ds_words {
    ds_arena *arena;
    ds_word *at[DS_WORDS_MAX]; /* by id */
    uint16_t len;
    uint16_t slots[DS_WORDS_MAX * 4]; /* private: hash of family and word or `also` -> id + 1 */
} ds_words;

/* "setting", … as in the files and in conditions. */
const char *ds_family_name(ds_family family);
const char *ds_group_name(ds_group group);            /* "water", "dust", "blows", "people", "rest" */
ds_influence ds_group_influence(ds_group group);      /* AD, AE, AG, BA */
const char *ds_source_kind_word(ds_source_kind kind); /* "published", "memory", "common-practice", "person" */

void ds_words_init(ds_words *words, ds_arena *arena);

/* Adds a file's words; source must outlive the arena. DS_BAD_INPUT: *problem says what and where. */
ds_status ds_words_read(ds_words *words, ds_str source, ds_problem *problem);

/* Id of a word (or of the word that it is another spelling of), -1 when unknown. */
int ds_words_find(const ds_words *words, ds_family family, ds_str word);

/* The same for a family without a file, adding it; -1 when memory or room is short. */
int ds_words_intern(ds_words *words, ds_family family, ds_str word);

/* "; did you mean …?" over a family's words, empty when none is near. */
ds_str ds_words_suggest(const ds_words *words, ds_arena *arena, ds_family family, ds_str word);

/* Reads {"kind": …, "ref": …}; false when it is not of that form. */
bool ds_source_read(ds_source *out, const ds_json *value);

#endif
