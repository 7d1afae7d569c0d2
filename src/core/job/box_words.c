/* SPDX-License-Identifier: MIT */
/* Words of closed lists, ranges and lists of objects: what the readers of a box share; see box_reader.h. */
#include "core/job/box_reader.h"

#include <math.h>

static const char *const SIDES[] = {"", "top", "bottom", "left", "right", "front", "back"};
const ds_word_list DS_SIDE_WORDS = {"face", SIDES, sizeof SIDES / sizeof *SIDES};

const char *ds_side_word(const ds_side side)
{
    return SIDES[side];
}

enum { MOST_WORDS = 16 };

void ds_box_no_word(ds_reader *const reader, const ds_json *const value, const ds_word_list *const list)
{
    ds_str known[MOST_WORDS];
    size_t len = 0;
    for (size_t i = 1; i < list->len && len < MOST_WORDS; i++) {
        known[len++] = ds_str_of(list->words[i]);
    }
    const ds_str text = ds_json_text(value);
    ds_reader_complain(reader, value, DS_P_UNKNOWN_WORD, text, ds_suggest(reader->arena, text, known, len));
}

/* Index of the text in the list; 0 when it is missing or, after a complaint, unknown. */
int ds_box_word(ds_reader *const reader, const ds_json *const object, const ds_str text,
                const ds_word_list *const list)
{
    if (!text.at) {
        return 0;
    }
    for (size_t i = 1; i < list->len; i++) {
        if (ds_str_is(text, list->words[i])) {
            return (int)i;
        }
    }
    ds_box_no_word(reader, ds_json_get(object, ds_str_of(list->key)), list);
    return 0;
}

const ds_json *ds_box_object(const ds_json *const owner, const char *const key)
{
    const ds_json *const value = ds_json_get(owner, ds_str_of(key));
    return value && value->kind == DS_JSON_OBJECT ? value : NULL;
}

/* A range with its ends the wrong way round is reported and taken as missing. */
void ds_box_range(ds_reader *const reader, const ds_json *const object, const char *const key,
                  double range[2])
{
    if (range[0] > range[1]) {
        ds_reader_complain(reader, ds_json_get(object, ds_str_of(key)), DS_P_WRONG_TYPE, ds_str_of(key),
                           DS_STR("two numbers, the smaller first"));
        range[0] = NAN;
        range[1] = NAN;
    }
}

/*
 * The objects of a list are read one by one: room for all its elements, zeroed. NULL without a list, after a complaint
 * when the value is none, or when memory is short.
 */
void *ds_box_list(ds_reader *const reader, const ds_json *const list, const char *const key,
                  const size_t size)
{
    if (!list) {
        return NULL;
    }
    if (list->kind != DS_JSON_ARRAY) {
        ds_reader_complain(reader, list, DS_P_WRONG_TYPE, ds_str_of(key), DS_STR("a list of objects"));
        return NULL;
    }
    void *const room = ds_arena_take_many(reader->arena, list->count, size);
    reader->failed = reader->failed || !room;
    return room;
}

bool ds_box_element(ds_reader *const reader, const ds_json *const item, const char *const key)
{
    if (item->kind != DS_JSON_OBJECT) {
        ds_reader_complain(reader, item, DS_P_WRONG_TYPE, ds_str_of(key), DS_STR("a list of objects"));
        return false;
    }
    return true;
}
