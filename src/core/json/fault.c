/* SPDX-License-Identifier: MIT */
/* The grammar of JSON as "what may stand next", one function a place; each names the usual slips in plain words. */
#include "core/json/fault.h"

#include <stdint.h>

static const ds_json_fault NONE = {0, NULL};

size_t ds_json_skip_space(const ds_str source, size_t at)
{
    while (at < source.len && (source.at[at] == ' ' || source.at[at] == '\n' || source.at[at] == '\r' ||
                               source.at[at] == '\t')) {
        at++;
    }
    return at;
}

static bool is_digit_at(const ds_str text, const size_t i)
{
    return i < text.len && text.at[i] >= '0' && text.at[i] <= '9';
}

static size_t skip_digits(const ds_str text, size_t i)
{
    while (is_digit_at(text, i)) {
        i++;
    }
    return i;
}

/* A digit must stand at i; the end of the text is no fault. */
static bool lacks_digit(const ds_str text, const size_t i)
{
    return i < text.len && !is_digit_at(text, i);
}

/* rest starts with a digit or a minus. */
static bool lacks_a_digit(const ds_str rest)
{
    size_t i = rest.at[0] == '-';
    if (lacks_digit(rest, i)) {
        return true;
    }
    i = is_digit_at(rest, i) && rest.at[i] == '0' ? i + 1 : skip_digits(rest, i);
    if (i < rest.len && rest.at[i] == '.') {
        if (lacks_digit(rest, i + 1)) {
            return true;
        }
        i = skip_digits(rest, i + 1);
    }
    if (i < rest.len && (rest.at[i] == 'e' || rest.at[i] == 'E')) {
        const bool sign = i + 1 < rest.len && (rest.at[i + 1] == '+' || rest.at[i + 1] == '-');
        return lacks_digit(rest, i + 1 + sign);
    }
    return false;
}

/* True when rest starts with the word, or ends inside it. */
static bool starts_word(const ds_str rest, const ds_str word)
{
    const size_t len = rest.len < word.len ? rest.len : word.len;
    return memcmp(rest.at, word.at, len) == 0;
}

static bool is_constant(const ds_str rest)
{
    return starts_word(rest, DS_STR("true")) || starts_word(rest, DS_STR("false")) ||
           starts_word(rest, DS_STR("null"));
}

static bool is_letter(const char c)
{
    const char lower = (char)(c | 0x20);
    return (lower >= 'a' && lower <= 'z') || c == '_' || c == '$';
}

/* Quotes as word processors set them: U+2018 to U+201E. */
static bool is_curly_quote(const ds_str rest)
{
    return rest.len >= 3 && memcmp(rest.at, "\xE2\x80", 2) == 0 && (uint8_t)rest.at[2] >= 0x98 &&
           (uint8_t)rest.at[2] <= 0x9E;
}

/* Slips that look the same wherever a value or a key must stand. */
static const char *usual_slip(const ds_str rest)
{
    switch (rest.at[0]) {
    case '\'':
    case '`':
        return "text must stand in double quotes";
    case '/':
    case '#':
        return "comments are not allowed";
    default:
        return is_curly_quote(rest) ? "text must stand in straight double quotes" : NULL;
    }
}

static const char *wrong_value(const ds_str rest)
{
    const char c = rest.at[0];
    if (c == '"' || c == '{' || c == '[' || is_constant(rest)) {
        return NULL;
    }
    if (c == '-' || is_digit_at(rest, 0)) {
        return lacks_a_digit(rest) ? "a digit is missing in this number" : NULL;
    }
    if (c == '+' || c == '.') {
        return "a number must start with a digit or a minus";
    }
    if (is_letter(c)) {
        return "only true, false and null may stand without quotes";
    }
    const char *const slip = usual_slip(rest);
    return slip ? slip : "a value is missing here";
}

static const char *wrong_key(const ds_str rest)
{
    if (rest.at[0] == '"') {
        return NULL;
    }
    const char *const slip = usual_slip(rest);
    return slip ? slip : "a key in double quotes is missing here";
}

typedef const char *wrong_fn(ds_str rest);

static ds_json_fault judge(const ds_str source, const size_t at, wrong_fn *const wrong)
{
    const size_t i = ds_json_skip_space(source, at);
    return i == source.len ? NONE : (ds_json_fault){i, wrong(ds_str_from(source, i))};
}

static ds_json_fault after_open(const ds_str source, const size_t at, const char close, wrong_fn *const wrong)
{
    const size_t i = ds_json_skip_space(source, at);
    const bool closed = i < source.len && source.at[i] == close;
    return closed ? NONE : judge(source, i, wrong);
}

static ds_json_fault after_key(const ds_str source, const size_t at)
{
    const size_t i = ds_json_skip_space(source, at);
    if (i == source.len) {
        return NONE;
    }
    if (source.at[i] != ':') {
        return (ds_json_fault){i, "a colon is missing after the key"};
    }
    return judge(source, i + 1, wrong_value);
}

/* yajl takes the zero of 012 for a number of its own; after any other number it would have taken the digit too. */
static bool follows_needless_zero(const ds_str source, const size_t at)
{
    return source.at[at - 1] == '0' && is_digit_at(source, at);
}

static const char *no_comma(const char c, const char close)
{
    if (c == '}' || c == ']') {
        return close == ']' ? "a square bracket must close this list"
                            : "a curly bracket must close this object";
    }
    return "a comma or a closing bracket is missing here";
}

/* A comma before the closing bracket is shown at the comma, which has to go. */
static ds_json_fault after_comma(const ds_str source, const size_t comma, wrong_fn *const wrong)
{
    const size_t i = ds_json_skip_space(source, comma + 1);
    if (i < source.len && (source.at[i] == ']' || source.at[i] == '}')) {
        return (ds_json_fault){comma, "nothing follows this comma"};
    }
    return judge(source, i, wrong);
}

static ds_json_fault after_value(const ds_str source, const size_t at, const char close,
                                 wrong_fn *const wrong)
{
    if (follows_needless_zero(source, at)) {
        return (ds_json_fault){at - 1, "a number may not start with a needless zero"};
    }
    const size_t i = ds_json_skip_space(source, at);
    if (i == source.len || source.at[i] == close) {
        return NONE;
    }
    if (source.at[i] == ',') {
        return after_comma(source, i, wrong);
    }
    const char *const slip = usual_slip(ds_str_from(source, i));
    return (ds_json_fault){i, slip ? slip : no_comma(source.at[i], close)};
}

ds_json_fault ds_json_fault_find(const ds_str source, const size_t at, const ds_json_after after)
{
    switch (after) {
    case DS_AFTER_NOTHING:
        return judge(source, at, wrong_value);
    case DS_AFTER_OPEN_ARRAY:
        return after_open(source, at, ']', wrong_value);
    case DS_AFTER_ELEMENT:
        return after_value(source, at, ']', wrong_value);
    case DS_AFTER_OPEN_OBJECT:
        return after_open(source, at, '}', wrong_key);
    case DS_AFTER_KEY:
        return after_key(source, at);
    case DS_AFTER_MEMBER:
        return after_value(source, at, '}', wrong_key);
    }
    return NONE;
}
