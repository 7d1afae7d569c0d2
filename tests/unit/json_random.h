/* SPDX-License-Identifier: MIT */
/*
 * Random documents for tests of json/: valid JSON in every shape that the grammar allows (white space, escapes, long
 * and short numbers, characters of one to four bytes), and the same with small damages. The same seed gives the same
 * documents on every machine.
 */
#ifndef JSON_RANDOM_H
#define JSON_RANDOM_H

#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { JSON_RANDOM_ROOM = 1 << 16 };

typedef struct json_random {
    uint64_t seed;
    bool keys_twice; /* now and then a key comes twice */
    size_t len;
    char text[JSON_RANDOM_ROOM];
} json_random;

static inline uint32_t json_random_below(json_random *const r, const uint32_t limit)
{
    r->seed ^= r->seed << 13;
    r->seed ^= r->seed >> 7;
    r->seed ^= r->seed << 17;
    return (uint32_t)((r->seed >> 16) % limit);
}

/* The last kilobyte is kept free for what closes the open brackets. */
static inline bool json_random_full(const json_random *const r)
{
    return r->len > JSON_RANDOM_ROOM - 2048;
}

static inline void json_random_put(json_random *const r, const char *const piece)
{
    const size_t len = strlen(piece);
    if (r->len + len < JSON_RANDOM_ROOM) {
        memcpy(r->text + r->len, piece, len);
        r->len += len;
    }
}

static inline void json_random_pick(json_random *const r, const char *const *const list, const uint32_t len)
{
    json_random_put(r, list[json_random_below(r, len)]);
}

#define JSON_RANDOM_PICK(r, list) json_random_pick(r, list, sizeof(list) / sizeof((list)[0]))

static inline void json_random_space(json_random *const r)
{
    static const char *const SPACES[] = {"", "", "", "", "", " ", "\n", "\r\n", "\t", "\r", "    ", " \n  "};
    JSON_RANDOM_PICK(r, SPACES);
}

static inline void json_random_digits(json_random *const r, const uint32_t most)
{
    for (uint32_t left = 1 + json_random_below(r, most); left; left--) {
        const char digit[2] = {(char)('0' + json_random_below(r, 10)), '\0'};
        json_random_put(r, digit);
    }
}

static inline void json_random_number(json_random *const r)
{
    static const char *const STARTS[] = {"0", "1", "7", "9", "12", "-0", "-1", "-5", "300"};
    static const char *const EXPONENTS[] = {"e", "E", "e+", "e-", "E-", "E+0", "e-0"};
    const char *const start = STARTS[json_random_below(r, 9)];
    json_random_put(r, start);
    if (start[strlen(start) - 1] != '0' && json_random_below(r, 2)) {
        json_random_digits(r, json_random_below(r, 20) ? 6 : 25);
    }
    if (json_random_below(r, 2)) {
        json_random_put(r, ".");
        json_random_digits(r, json_random_below(r, 20) ? 4 : 40);
    }
    if (json_random_below(r, 4) == 0) {
        JSON_RANDOM_PICK(r, EXPONENTS);
        json_random_digits(r, json_random_below(r, 10) ? 1 : 3);
    }
}

static inline void json_random_inside(json_random *const r, const uint32_t most)
{
    static const char *const PIECES[] = {
        "a",
        "IP",
        "44",
        " ",
        "/",
        "~",
        "\xC3\xA9",
        "\xE2\x82\xAC",
        "\xF0\x9F\x94\x8C",
        "\x7F",
        "\\n",
        "\\t",
        "\\\"",
        "\\\\",
        "\\/",
        "\\b\\f\\r",
        "\\u0001",
        "\\u00e9",
        "\\u20AC",
        "\\uFFFF",
        "\\ud83d\\udd0c",
        "\\uDBFF\\uDFFF",
        "hose-nearby",
        "\xED\x9F\xBF",
        "\xF4\x8F\xBF\xBF",
    };
    for (uint32_t left = json_random_below(r, most + 1); left; left--) {
        JSON_RANDOM_PICK(r, PIECES);
    }
}

static inline void json_random_string(json_random *const r)
{
    json_random_put(r, "\"");
    json_random_inside(r, json_random_below(r, 30) ? 4 : 300);
    json_random_put(r, "\"");
}

static inline void json_random_value(json_random *const r, uint32_t depth);

static inline void json_random_array(json_random *const r, const uint32_t depth, const uint32_t len)
{
    json_random_put(r, "[");
    json_random_space(r);
    for (uint32_t i = 0; i < len && !json_random_full(r); i++) {
        json_random_put(r, i ? "," : "");
        json_random_value(r, depth);
    }
    json_random_put(r, "]");
}

static inline void json_random_object(json_random *const r, const uint32_t depth, const uint32_t len)
{
    json_random_put(r, "{");
    json_random_space(r);
    for (uint32_t i = 0; i < len && !json_random_full(r); i++) {
        char number[16];
        const bool twice = r->keys_twice && i && json_random_below(r, 60) == 0;
        snprintf(number, sizeof number, "%u\"", twice ? json_random_below(r, i) : i);
        json_random_put(r, i ? "," : "");
        json_random_space(r);
        json_random_put(r, "\"");
        if (!r->keys_twice) {
            json_random_inside(r, 3);
        }
        json_random_put(r, number);
        json_random_space(r);
        json_random_put(r, ":");
        json_random_value(r, depth);
    }
    json_random_put(r, "}");
}

static inline void json_random_value(json_random *const r, const uint32_t depth)
{
    static const char *const WORDS[] = {"true", "false", "null"};
    const uint32_t len = json_random_below(r, 40) ? json_random_below(r, 5) : json_random_below(r, 60);
    const uint32_t kind = json_random_below(r, depth ? 7 : 4);
    json_random_space(r);
    if (kind == 0) {
        JSON_RANDOM_PICK(r, WORDS);
    } else if (kind == 1) {
        json_random_string(r);
    } else if (kind < 4) {
        json_random_number(r);
    } else if (kind == 4) {
        json_random_array(r, depth - 1, len);
    } else {
        json_random_object(r, depth - 1, len);
    }
    json_random_space(r);
}

/* A new document in r->text. */
static inline void json_random_document(json_random *const r)
{
    r->len = 0;
    json_random_value(r, 6);
}

/* One small damage: a byte or a telling piece changed, dropped, doubled or put in; or the end cut off. */
static inline void json_random_damage(json_random *const r)
{
    static const char *const PIECES[] = {
        ",",       ":",       "[",    "]",  "{",  "}",    "\"",   "\\",           "0",        "-",
        ".",       "e",       "+",    "'",  "/",  "//",   "t",    "nul",          "\\u",      "\\ud800",
        "\\u0000", "\\udc00", "\x01", "\t", "\v", "\x80", "\xC3", "\xED\xA0\x80", "\xC0\x80", "\xFF",
        "1e999",   "01",      "NaN",  " ",
    };
    const uint32_t at = json_random_below(r, (uint32_t)r->len + 1);
    const uint32_t gone = json_random_below(r, 3);
    const size_t rest = at + gone < r->len ? at + gone : r->len;
    const bool drop_only = json_random_below(r, 4) == 0;
    const char *const piece = drop_only ? "" : PIECES[json_random_below(r, sizeof PIECES / sizeof PIECES[0])];
    const size_t len = strlen(piece);
    if (json_random_below(r, 20) == 0) {
        r->len = at;
    } else if (r->len + len < JSON_RANDOM_ROOM) {
        memmove(r->text + at + len, r->text + rest, r->len - rest);
        memcpy(r->text + at, piece, len);
        r->len = r->len - rest + at + len;
    }
}

#endif
