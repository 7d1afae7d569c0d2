/* SPDX-License-Identifier: MIT */
/*
 * The writer. A value asks for its place first: `before_value` puts the comma, the line end and the indentation, so
 * no caller ever does.
 */
#include "core/json/write.h"

#include "core/json/decimal.h"

#include <math.h>

ds_json_writer ds_json_writer_on(ds_text *const text)
{
    return (ds_json_writer){.text = text, .first = true};
}

static void new_line(ds_json_writer *const w)
{
    ds_text_char(w->text, '\n');
    ds_text_repeat(w->text, "  ", w->depth);
}

static void before_item(ds_json_writer *const w)
{
    if (!w->first) {
        ds_text_char(w->text, ',');
    }
    if (w->depth) {
        new_line(w);
    }
    w->first = false;
}

static void before_value(ds_json_writer *const w)
{
    if (!w->after_key) {
        before_item(w);
    }
    w->after_key = false;
}

static void begin(ds_json_writer *const w, const char bracket)
{
    before_value(w);
    ds_text_char(w->text, bracket);
    w->depth++;
    w->first = true;
}

static void end(ds_json_writer *const w, const char bracket)
{
    w->depth--;
    if (!w->first) {
        new_line(w);
    }
    ds_text_char(w->text, bracket);
    w->first = false;
}

void ds_json_begin_object(ds_json_writer *const w)
{
    begin(w, '{');
}

void ds_json_end_object(ds_json_writer *const w)
{
    end(w, '}');
}

void ds_json_begin_array(ds_json_writer *const w)
{
    begin(w, '[');
}

void ds_json_end_array(ds_json_writer *const w)
{
    end(w, ']');
}

static void put_escape(ds_text *const text, const char c)
{
    static const char PLAIN[] = "\"\\\b\f\n\r\t";
    static const char LETTER[] = "\"\\bfnrt";
    const char *const at = memchr(PLAIN, c, sizeof PLAIN - 1);
    if (at) {
        ds_text_char(text, '\\');
        ds_text_char(text, LETTER[at - PLAIN]);
    } else {
        ds_text_add(text, (uint8_t)c < 0x10 ? "\\u000" : "\\u001");
        ds_text_char(text, "0123456789abcdef"[(uint8_t)c & 0xF]);
    }
}

static bool needs_escape(const char c)
{
    return (uint8_t)c < 0x20 || c == '"' || c == '\\';
}

static void put_quoted(ds_text *const text, const ds_str value)
{
    size_t written = 0;
    ds_text_char(text, '"');
    for (size_t i = 0; i < value.len; i++) {
        if (needs_escape(value.at[i])) {
            ds_text_bytes(text, value.at + written, i - written);
            put_escape(text, value.at[i]);
            written = i + 1;
        }
    }
    if (written < value.len) {
        ds_text_bytes(text, value.at + written, value.len - written);
    }
    ds_text_char(text, '"');
}

void ds_json_put_key_str(ds_json_writer *const w, const ds_str key)
{
    before_item(w);
    put_quoted(w->text, key);
    ds_text_add(w->text, ": ");
    w->after_key = true;
}

void ds_json_put_key(ds_json_writer *const w, const char *const key)
{
    ds_json_put_key_str(w, ds_str_of(key));
}

void ds_json_put_str(ds_json_writer *const w, const ds_str value)
{
    before_value(w);
    put_quoted(w->text, value);
}

static void put_bare(ds_json_writer *const w, const ds_str value)
{
    before_value(w);
    ds_text_adds(w->text, value);
}

void ds_json_put_text(ds_json_writer *const w, const char *const value)
{
    if (value) {
        ds_json_put_str(w, ds_str_of(value));
    } else {
        ds_json_put_null(w);
    }
}

void ds_json_put_bool(ds_json_writer *const w, const bool value)
{
    put_bare(w, value ? DS_STR("true") : DS_STR("false"));
}

void ds_json_put_null(ds_json_writer *const w)
{
    put_bare(w, DS_STR("null"));
}

void ds_json_put_int(ds_json_writer *const w, const int64_t value)
{
    before_value(w);
    ds_text_int(w->text, value);
}

/* A number of 1e15 or more has at most three digits behind the point and is written as it is. */
static void put_large(ds_text *const text, const double value)
{
    int power;
    const double half_to_one = frexp(fabs(value), &power);
    ds_decimal d = {.len = 0};
    ds_decimal_set(&d, (uint64_t)ldexp(half_to_one, 53));
    for (int left = power - 53; left;) {
        const int bits = left > 60 ? 60 : left;
        ds_decimal_shift(&d, bits);
        left -= bits;
    }
    if (value < 0) {
        ds_text_char(text, '-');
    }
    for (int i = 0; i < d.point || i < d.len; i++) {
        if (i == d.point) {
            ds_text_char(text, '.');
        }
        ds_text_char(text, (char)('0' + (i < d.len ? d.digit[i] : 0)));
    }
}

void ds_json_put_number(ds_json_writer *const w, const double value)
{
    if (!isfinite(value)) {
        ds_json_put_null(w);
        return;
    }
    before_value(w);
    if (fabs(value) < 1e15) {
        ds_text_number(w->text, value, 9);
    } else {
        put_large(w->text, value);
    }
}

static void put_start(ds_json_writer *const w, const ds_json *const value)
{
    switch ((ds_json_kind)value->kind) {
    case DS_JSON_NULL:
        ds_json_put_null(w);
        break;
    case DS_JSON_FALSE:
    case DS_JSON_TRUE:
        ds_json_put_bool(w, value->kind == DS_JSON_TRUE);
        break;
    case DS_JSON_NUMBER:
        put_bare(w, ds_json_text(value));
        break;
    case DS_JSON_STRING:
        ds_json_put_str(w, ds_json_text(value));
        break;
    case DS_JSON_ARRAY:
        ds_json_begin_array(w);
        break;
    case DS_JSON_OBJECT:
        ds_json_begin_object(w);
        break;
    }
}

static void put_end(ds_json_writer *const w, const ds_json *const value)
{
    if (value->kind == DS_JSON_ARRAY) {
        ds_json_end_array(w);
    } else if (value->kind == DS_JSON_OBJECT) {
        ds_json_end_object(w);
    }
}

static const ds_json *first_inside(const ds_json *const value)
{
    return value->kind >= DS_JSON_ARRAY ? value->first : NULL;
}

/* Without recursion: a tree may be as deep as the reader was allowed to go. */
void ds_json_put_tree(ds_json_writer *const w, const ds_json *const value)
{
    const ds_json *at = value;
    while (at) {
        if (at != value && at->parent->kind == DS_JSON_OBJECT) {
            ds_json_put_key_str(w, ds_json_key(at));
        }
        put_start(w, at);
        const ds_json *const inside = first_inside(at);
        if (inside) {
            at = inside;
            continue;
        }
        put_end(w, at);
        while (at != value && !at->next) {
            at = at->parent;
            put_end(w, at);
        }
        at = at == value ? NULL : at->next;
    }
}
