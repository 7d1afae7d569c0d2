/* SPDX-License-Identifier: MIT */
/*
 * The one writer of JSON. It keeps commas, indentation and escapes; the text keeps the failure.
 *
 *     ds_json_writer w = ds_json_writer_on(&text);
 *     ds_json_begin_object(&w);
 *     ds_json_put_key(&w, "title");
 *     ds_json_put_str(&w, title);
 *     ds_json_end_object(&w);
 */
#ifndef DS_JSON_WRITE_H
#define DS_JSON_WRITE_H

#include "core/json/json.h"

typedef struct ds_json_writer {
    ds_text *text;  /* borrowed */
    uint32_t depth; /* private */
    bool first;     /* private: nothing written yet at this level */
    bool after_key; /* private */
} ds_json_writer;

/* Writes indented by two spaces a level; lines end with \n, but none follows the last bracket. */
ds_json_writer ds_json_writer_on(ds_text *text);

void ds_json_begin_object(ds_json_writer *w);
void ds_json_end_object(ds_json_writer *w);
void ds_json_begin_array(ds_json_writer *w);
void ds_json_end_array(ds_json_writer *w);

void ds_json_put_key(ds_json_writer *w, const char *key);
void ds_json_put_key_str(ds_json_writer *w, ds_str key);
void ds_json_put_str(ds_json_writer *w, ds_str value);
void ds_json_put_text(ds_json_writer *w, const char *value); /* NULL writes null */
void ds_json_put_bool(ds_json_writer *w, bool value);
void ds_json_put_null(ds_json_writer *w);
void ds_json_put_int(ds_json_writer *w, int64_t value);

/* At most nine decimals, as ds_text_number; all digits from 1e15 on; null when not finite. */
void ds_json_put_number(ds_json_writer *w, double value);

/* A tree as it was read: order, unknown keys and the text of numbers are kept. */
void ds_json_put_tree(ds_json_writer *w, const ds_json *value);

#endif
