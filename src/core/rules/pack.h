/* SPDX-License-Identifier: MIT */
/*
 * Rule packs: data from rules/<pack>.json (format: docs/packs.md), read into rules whose conditions are compiled to
 * word ids and numbers, and the evaluator.
 *
 *     ds_rulebook book;
 *     ds_rulebook_init(&book, &arena);
 *     ds_words_read(&book.words, words_json, &problem) … for each word file
 *     ds_rulebook_read(&book, pack_json, &problem) … for each pack; one that is "like" another comes after it
 *     const ds_pack *pack = ds_rulebook_pack(&book, DS_STR("gb-2022"));
 *     ds_truth truth = ds_rule_applies(&pack->rules[0], &facts);
 */
#ifndef DS_RULES_PACK_H
#define DS_RULES_PACK_H

#include "core/mark/read.h"
#include "core/rules/facts.h"
#include "core/rules/zones.h"

typedef enum ds_truth { DS_NO, DS_MAYBE, DS_YES } ds_truth;

typedef enum ds_condition_op { DS_ALL, DS_ANY, DS_HAS_WORD, DS_IN_LIMITS } ds_condition_op;

typedef struct ds_condition ds_condition;
struct ds_condition {
    ds_condition_op op;
    uint16_t len;              /* parts, or words */
    uint16_t family;           /* of DS_HAS_WORD */
    uint16_t number;           /* of DS_IN_LIMITS */
    bool above, below;         /* the limit itself is excluded */
    double low, high;          /* -INF, INF where there is no limit */
    const ds_condition *parts; /* of DS_ALL, DS_ANY */
    const uint16_t *ids;       /* of DS_HAS_WORD: any of them */
};

typedef enum ds_grade { DS_GRADE_RULE, DS_GRADE_GUIDANCE, DS_GRADE_JUDGEMENT } ds_grade;

typedef enum ds_whom { DS_WHOM_CLIENT, DS_WHOM_MAKER, DS_WHOM_SITE, DS_WHOM_DESIGNER, DS_WHOMS } ds_whom;

/* What a rule needs; tests and impact in one word, the rest beside it. */
typedef struct ds_needs {
    ds_need mark;   /* DS_NEED_NOTHING when none */
    bool immersion; /* water test 8 to the seen depth and hours */
    bool surface_d;
    double rated_c, cold_c;           /* NAN: none */
    bool rated_as_seen, cold_as_seen; /* for the temperature that stands beside a seen word */
    const uint16_t *qualities;        /* word ids, all of them */
    uint16_t qualities_len;
    const uint16_t *measures; /* word ids, any of them */
    uint16_t measures_len;
    ds_str material; /* what a person asks for: any of the materials joined by " or "; at NULL: none */
} ds_needs;

typedef struct ds_rule {
    ds_str id, clause, edition, because;
    ds_grade grade;
    ds_source source;
    const ds_condition *when;
    const ds_condition *unless; /* NULL: none */
    bool has_needs;
    ds_needs needs;
    const ds_json *needs_at; /* as written, for display */
    ds_str bars, remedy;     /* bars.at NULL: none */
    ds_str question;         /* at NULL: none */
    ds_whom whom;
} ds_rule;

typedef struct ds_pack {
    ds_str id, title, edition, confirm, replaced_by, in_force_from, in_force_to;
    const ds_rule *rules;
    size_t rules_len;
    const ds_zone_law *laws;
    size_t laws_len;
} ds_pack;

enum { DS_PACKS_MAX = 16 };

typedef struct ds_rulebook {
    ds_arena *arena;
    ds_words words;
    ds_pack packs[DS_PACKS_MAX];
    size_t packs_len;
} ds_rulebook;

void ds_rulebook_init(ds_rulebook *book, ds_arena *arena);

/* Adds a pack; source must outlive the arena. DS_BAD_INPUT: *problem says what and where. */
ds_status ds_rulebook_read(ds_rulebook *book, ds_str source, ds_problem *problem);

/* NULL when there is none of that id. */
const ds_pack *ds_rulebook_pack(const ds_rulebook *book, ds_str id);

/* "; did you mean …?" over the packs' ids. */
ds_str ds_rulebook_suggest(const ds_rulebook *book, ds_arena *arena, ds_str id);

/* The zone rules for a kind of place (a word id, or one wider); NULL when the pack has none. */
const ds_zone_law *ds_pack_zone_law(const ds_pack *pack, const ds_words *words, int place);

const char *ds_grade_word(ds_grade grade); /* "rule", "guidance", "judgement" */
const char *ds_whom_word(ds_whom whom);    /* "client", "maker", "site", "designer" */

/* Does the rule apply: when, and not unless. */
ds_truth ds_rule_applies(const ds_rule *rule, const ds_facts *facts);

/* Does the rule's condition speak of this number, or of words of this family. */
bool ds_rule_asks_number(const ds_rule *rule, ds_number number);
bool ds_rule_asks_family(const ds_rule *rule, ds_family family);

/* The facts whose absence leaves a rule open: a bit a number, a bit a family. Meaningful when it is DS_MAYBE. */
typedef struct ds_missing {
    uint32_t numbers;
    uint32_t families;
} ds_missing;
ds_missing ds_rule_missing(const ds_rule *rule, const ds_facts *facts);

#endif
