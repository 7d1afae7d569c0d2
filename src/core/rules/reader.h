/* SPDX-License-Identifier: MIT */
/* What the readers of rule packs share: private to rules/. */
#ifndef DS_RULES_READER_H
#define DS_RULES_READER_H

#include "core/rules/pack.h"

typedef struct ds_pack_reader {
    ds_rulebook *book;
    ds_str source;
    ds_str rule; /* id of the rule being read */
    ds_problem *problem;
    ds_status status;
    unsigned depth; /* of nested conditions */
    bool in_unless; /* exceptions may not rest on observations: a stricter one would then ask for less */
} ds_pack_reader;

/* Keeps the first problem: "rule "id": what". */
void ds_pack_refuse(ds_pack_reader *r, const ds_json *at, const char *what);

/* Memory from the book's arena; NULL sets the status. */
void *ds_pack_take(ds_pack_reader *r, size_t count, size_t size);

/* Ids of one word or a list of words of a family with a file, or any text of one without. */
const uint16_t *ds_pack_word_ids(ds_pack_reader *r, ds_family family, const ds_json *value, uint16_t *len);

/* NULL when the condition is wrong or memory is short; then the status says so. */
const ds_condition *ds_condition_read(ds_pack_reader *r, const ds_json *value);

/* Reads "needs"; false when it is wrong. */
bool ds_needs_read(ds_pack_reader *r, const ds_json *value, ds_needs *out);

/* Reads "zones" into the pack. */
void ds_zone_laws_read(ds_pack_reader *r, const ds_json *list, ds_pack *pack);

#endif
