/* SPDX-License-Identifier: MIT */
/* What the readers of a box share: words of closed lists, ranges and lists of objects. Private to job/. */
#ifndef DS_JOB_BOX_READER_H
#define DS_JOB_BOX_READER_H

#include "core/job/box.h"
#include "core/job/fields.h"

/* The words of one key in the order of their enum; the first, "", stands for a missing one. */
typedef struct ds_word_list {
    const char *key;
    const char *const *words;
    size_t len;
} ds_word_list;

#define DS_WORD_LIST(key, words) (&(const ds_word_list){(key), (words), sizeof(words) / sizeof *(words)})

/* Index of the text in the list; 0 when it is missing or, after a complaint, unknown. */
int ds_box_word(ds_reader *reader, const ds_json *object, ds_str text, const ds_word_list *list);

/* Complains of a text that is no word of the list. */
void ds_box_no_word(ds_reader *reader, const ds_json *value, const ds_word_list *list);

/* A range with its ends the wrong way round is reported and taken as missing. */
void ds_box_range(ds_reader *reader, const ds_json *object, const char *key, double range[2]);

/* The object at a key; NULL when there is none. */
const ds_json *ds_box_object(const ds_json *owner, const char *key);

/*
 * Room for all elements of a list, zeroed. NULL without a list, after a complaint when the value is none, or when memory
 * is short.
 */
void *ds_box_list(ds_reader *reader, const ds_json *list, const char *key, size_t size);

/* False, after a complaint, for an element that is no object. */
bool ds_box_element(ds_reader *reader, const ds_json *item, const char *key);

/* The words of a side, for entries and faces alike. */
extern const ds_word_list DS_SIDE_WORDS;

/* Reads "entries" into the box. */
void ds_box_entries(ds_reader *reader, const ds_json *list, ds_box *box);

#endif
