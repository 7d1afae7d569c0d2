/* SPDX-License-Identifier: MIT */
/*
 * Two people have changed one job: a three-way merge by id.
 *
 *     ds_merge merge;
 *     if (!ds_merge_trees(&merge, base, mine, theirs, &arena)) … out of memory …
 *     ds_merge_document(&text, &merge);       … the merged document
 *     if (merge.conflicts_len) ds_merge_json(&text, &merge);       … with what could not be merged
 *
 * base is the document that both started from; mine and theirs are what became of it. What one side changed is taken,
 * what both changed alike is taken; what both changed differently is a conflict, and mine stands in the document until
 * a person has chosen. How things are paired:
 *  - objects key by key;
 *  - lists of objects that all have an "id", each another one: by that id (places, points, rooms, features …);
 *  - "seen" and "absent": as sets, by word;
 *  - any other list, texts and numbers: one value. Numbers are kept as written; 1.1 and 1.10 are two texts.
 * Removed on one side and changed on the other is a conflict, and so is one id added on both with different content.
 *
 * Order: theirs, with what mine added put after the neighbour that it follows in mine; mine, where only mine moved
 * things. Where both moved things, theirs holds; order alone is never a conflict.
 *
 * The trees must outlive the merge, which borrows from them. The time is n log n in the number of values, no recursion.
 */
#ifndef DS_JOB_MERGE_H
#define DS_JOB_MERGE_H

#include "core/json/write.h"

/* How the members of a merged value were paired. */
typedef enum ds_pairing { DS_PAIR_NONE, DS_PAIR_KEYS, DS_PAIR_IDS, DS_PAIR_WORDS } ds_pairing;

/* One value of the merged document, or one that is no longer in it. */
typedef struct ds_merged ds_merged;
struct ds_merged {
    const ds_json *base, *mine, *theirs; /* NULL: it is not there */
    const ds_json *whole;                /* stands in the document as it is; NULL: made of members, or gone */
    const ds_merged *parent;             /* NULL at the root */
    ds_merged *first, *next;             /* members, gone ones too */
    const ds_merged *next_conflict;      /* in the document's order */
    ds_str name;                         /* its key, id or word */
    uint32_t index;  /* in a list: place in the merged one; for a gone one the place that it would take */
    uint8_t pairing; /* of its members, a ds_pairing */
    bool conflict;
};

typedef struct ds_merge {
    const ds_merged *root;
    const ds_merged *conflicts; /* the first; NULL: none */
    size_t conflicts_len;
} ds_merge;

/* base NULL: nothing in common. False when memory is short. */
bool ds_merge_trees(ds_merge *out, const ds_json *base, const ds_json *mine, const ds_json *theirs,
                    ds_arena *arena);

/* The merged document, ended by \n. */
void ds_merge_document(ds_text *out, const ds_merge *merge);

/*
 * {"merged": document, "conflicts": [{"pointer", "about", "base", "mine", "theirs"}]}, a value that is not there having no
 * key. The pointer (RFC 6901) is one into the merged document; where mine has no value, the place at which theirs would be
 * put in. Take choices from the last conflict to the first, and the pointers before it stay true.
 */
void ds_merge_json(ds_text *out, const ds_merge *merge);

/* 'point P3 "Twin socket": "marked" was changed on both sides' */
void ds_merge_say(ds_text *out, const ds_merged *conflict);

/* True when the value stands in the merged document. */
bool ds_merged_stands(const ds_merged *value);

/* How many values hold this one, and the one that many steps above it. */
size_t ds_merged_depth(const ds_merged *value);
const ds_merged *ds_merged_above(const ds_merged *value, size_t steps);

#endif
