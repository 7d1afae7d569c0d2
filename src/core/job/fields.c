/* SPDX-License-Identifier: MIT */
/* Objects into structs by table; see fields.h. */
#include "core/job/fields.h"

#include <math.h>

void ds_reader_complain(ds_reader *const reader, const ds_json *const value, const ds_problem_code code,
                        const ds_str a, const ds_str b)
{
    if (!ds_job_complain(reader->job, reader->arena, value, reader->owner, code, a, b)) {
        reader->failed = true;
    }
}

static void wrong_type(ds_reader *const reader, const ds_json *const value, const ds_field *const field,
                       const char *const form)
{
    ds_reader_complain(reader, value, DS_P_WRONG_TYPE, ds_str_of(field->key), ds_str_of(form));
}

/*
 * Slips of the unit that are made with a key, wherever it stands: what to ask of a figure out of range, and from above 0
 * up to which a figure in range surely is a slip as well (a humidity of 0.55 per cent is a fraction).
 */
typedef struct unit_slip {
    const char *key, *ask;
    double up_to; /* 0: the range says it all */
} unit_slip;

static const unit_slip UNIT_SLIPS[] = {
    {"rcd_ma",
     "; is this in milliamperes? Ratings are 10, 30, 100 and 300; where there is no RCD it is left out", 0},
    {"volts", "; is this in volts?", 0},
    {"height_m", "; is this in metres?", 0},
    {"zone1_distance_m", "; is this in metres?", 0},
    {"zone0_distance_m", "; is this in metres?", 0},
    {"humidity_pct", "", 1},
};

static const unit_slip *unit_slip_of(const char *const key)
{
    static const unit_slip NONE = {"", "", 0};
    for (size_t i = 0; i < sizeof UNIT_SLIPS / sizeof *UNIT_SLIPS; i++) {
        if (ds_str_is(ds_str_of(key), UNIT_SLIPS[i].key)) {
            return &UNIT_SLIPS[i];
        }
    }
    return &NONE;
}

/* "0 to 60", and what to ask, in the arena; empty when memory is short. */
static ds_str limits_text(ds_reader *const reader, const ds_field *const field)
{
    ds_text text;
    ds_text_init(&text, reader->arena->alloc);
    ds_text_number(&text, field->low, 3);
    ds_text_add(&text, " to ");
    ds_text_number(&text, field->high, 3);
    ds_text_add(&text, unit_slip_of(field->key)->ask);
    char *const copy = ds_text_ok(&text) ? ds_arena_take(reader->arena, text.len) : NULL;
    const size_t len = copy ? text.len : 0;
    if (copy) {
        memcpy(copy, text.at, text.len);
    } else {
        reader->failed = true;
    }
    ds_text_free(&text);
    return (ds_str){copy, len};
}

/* One number within the field's limits; NAN and a problem otherwise. */
static double read_number(ds_reader *const reader, const ds_json *const value, const ds_field *const field)
{
    double number = NAN;
    if (value->kind != DS_JSON_NUMBER || !ds_json_number(value, &number)) {
        wrong_type(reader, value, field, "a number");
        return NAN;
    }
    if (number < field->low || number > field->high) {
        ds_reader_complain(reader, value, DS_P_OUT_OF_RANGE, ds_json_text(value), limits_text(reader, field));
        return NAN;
    }
    const unit_slip *const unit = unit_slip_of(field->key);
    if (number > 0 && number <= unit->up_to) {
        ds_reader_complain(reader, value, DS_P_UNIT_SLIP, ds_json_text(value),
                           DS_STR("; is this a fraction?"));
        return NAN;
    }
    if (field->kind == DS_FIELD_COUNT && number != floor(number)) {
        wrong_type(reader, value, field, "a whole number");
        return NAN;
    }
    return number;
}

static void read_numbers(ds_reader *const reader, const ds_json *const value, const ds_field *const field,
                         double *const out, const uint32_t count, const char *const form)
{
    if (value->kind != DS_JSON_ARRAY || value->count != count) {
        wrong_type(reader, value, field, form);
        return;
    }
    uint32_t i = 0;
    for (const ds_json *item = value->first; item; item = item->next) {
        out[i++] = read_number(reader, item, field);
    }
}

static const ds_json *read_words(ds_reader *const reader, const ds_json *const value,
                                 const ds_field *const field)
{
    if (value->kind != DS_JSON_ARRAY) {
        wrong_type(reader, value, field, "a list of words");
        return NULL;
    }
    for (const ds_json *item = value->first; item; item = item->next) {
        if (item->kind != DS_JSON_STRING) {
            wrong_type(reader, item, field, "a list of words");
            return NULL;
        }
    }
    return value;
}

static void read_text(ds_reader *const reader, const ds_json *const value, const ds_field *const field,
                      ds_str *const out)
{
    if (value->kind == DS_JSON_STRING) {
        *out = ds_json_text(value);
    } else {
        wrong_type(reader, value, field, "a text in quotes");
    }
}

static void read_tri(ds_reader *const reader, const ds_json *const value, const ds_field *const field,
                     ds_tri *const out)
{
    if (value->kind == DS_JSON_TRUE || value->kind == DS_JSON_FALSE) {
        *out = value->kind == DS_JSON_TRUE ? DS_TRI_YES : DS_TRI_NO;
    } else {
        wrong_type(reader, value, field, "true or false");
    }
}

static void read_object(ds_reader *const reader, const ds_json *const value, const ds_field *const field,
                        void *const out)
{
    if (value->kind == DS_JSON_OBJECT) {
        ds_fields_read(reader, value, field->fields, out);
    } else {
        wrong_type(reader, value, field, "an object in braces");
    }
}

static void read_field(ds_reader *const reader, const ds_json *const value, const ds_field *const field,
                       void *const out)
{
    void *const at = (char *)out + field->offset;
    switch (field->kind) {
    case DS_FIELD_TEXT:
        read_text(reader, value, field, at);
        break;
    case DS_FIELD_NUMBER:
    case DS_FIELD_COUNT:
        *(double *)at = read_number(reader, value, field);
        break;
    case DS_FIELD_TRI:
        read_tri(reader, value, field, at);
        break;
    case DS_FIELD_WORDS:
        *(const ds_json **)at = read_words(reader, value, field);
        break;
    case DS_FIELD_TREE:
        *(const ds_json **)at = value;
        break;
    case DS_FIELD_RANGE:
        read_numbers(reader, value, field, at, 2, "two numbers: [low, high]");
        break;
    case DS_FIELD_PLACE:
        read_numbers(reader, value, field, at, 2, "two numbers: [x, y]");
        break;
    case DS_FIELD_POINT:
        read_numbers(reader, value, field, at, 3, "three numbers: [x, y, z]");
        break;
    case DS_FIELD_OBJECT:
        read_object(reader, value, field, at);
        break;
    }
}

static const ds_field *find_field(const ds_field *fields, const ds_str key)
{
    for (; fields->key; fields++) {
        if (ds_str_is(key, fields->key)) {
            return fields;
        }
    }
    return NULL;
}

enum { MOST_FIELDS = 32 };

/* "; did you mean \"height_m\"" in the arena, or nothing. */
static ds_str suggestion(ds_reader *const reader, const ds_field *const fields, const ds_str key)
{
    ds_str keys[MOST_FIELDS];
    size_t len = 0;
    for (const ds_field *field = fields; field->key && len < MOST_FIELDS; field++) {
        keys[len++] = ds_str_of(field->key);
    }
    return ds_suggest(reader->arena, key, keys, len);
}

static void check_required(ds_reader *const reader, const ds_json *const object, const ds_field *fields)
{
    for (; fields->key; fields++) {
        if (fields->required && !ds_json_get(object, ds_str_of(fields->key))) {
            ds_reader_complain(reader, object, DS_P_MISSING_KEY, ds_str_of(fields->key), (ds_str){0});
        }
    }
}

void ds_fields_read(ds_reader *const reader, const ds_json *const object, const ds_field *const fields,
                    void *const out)
{
    for (const ds_json *value = object->first; value; value = value->next) {
        const ds_field *const field = find_field(fields, ds_json_key(value));
        if (field) {
            read_field(reader, value, field, out);
        } else {
            const ds_str key = ds_json_key(value);
            ds_reader_complain(reader, value, DS_P_UNKNOWN_KEY, key, suggestion(reader, fields, key));
        }
    }
    check_required(reader, object, fields);
}
