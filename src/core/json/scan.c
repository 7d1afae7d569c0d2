/* SPDX-License-Identifier: MIT */
/*
 * One pass over the bytes, outside and inside strings in turn, each with a tight loop over ordinary text. A fault that
 * the end of the input cuts off (half an escape, half a character, an open string) is the end of the file in the
 * middle: every prefix of a good document says so.
 */
#include "core/json/scan.h"

#include <stdint.h>

static uint8_t byte_at(const ds_str text, const size_t i)
{
    return (uint8_t)text.at[i];
}

static size_t next_stop_outside(const ds_str source, size_t i)
{
    while (i < source.len && source.at[i] != '"' && byte_at(source, i) <= 0x7F && source.at[i] != '\v' &&
           source.at[i] != '\f') {
        i++;
    }
    return i;
}

static bool is_plain_inside(const char c)
{
    const bool printable = (uint8_t)(c - 0x20) < 0x60; /* 0x20 to 0x7F */
    return printable && c != '"' && c != '\\';
}

static size_t next_stop_inside(const ds_str source, size_t i)
{
    while (i < source.len && is_plain_inside(source.at[i])) {
        i++;
    }
    return i;
}

static void fault_at(ds_json_scan *const scan, const size_t at, const ds_problem_code code, const ds_str a)
{
    scan->clean = false;
    scan->fault = at;
    scan->code = code;
    scan->a = a;
}

static void cut_at_end(ds_json_scan *const scan, const ds_str source)
{
    fault_at(scan, source.len, DS_P_JSON_HALF, (ds_str){0});
}

static size_t character_len(const ds_str rest)
{
    for (size_t len = 1; len <= 4 && len <= rest.len; len++) {
        if (ds_str_is_utf8((ds_str){rest.at, len})) {
            return len;
        }
    }
    return 0;
}

/* True when the text ends inside a character: some bytes would complete it. */
static bool is_cut_character(const ds_str rest)
{
    static const char SECOND[] = {'\x80', '\x90', '\xA0'}; /* one of these suits every first byte */
    for (size_t i = 0; rest.len < 4 && i < sizeof SECOND; i++) {
        char whole[4] = {0, SECOND[i], '\x80', '\x80'};
        memcpy(whole, rest.at, rest.len);
        const size_t len = character_len((ds_str){whole, sizeof whole});
        if (len > rest.len) {
            return true;
        }
    }
    return false;
}

/* Passes a run of bytes over 0x7F, up to the first that is wrong. The usual run is good: it is checked as a whole. */
static size_t pass_high_bytes(ds_json_scan *const scan, const ds_str source, const size_t from)
{
    size_t end = from;
    while (end < source.len && byte_at(source, end) > 0x7F) {
        end++;
    }
    if (ds_str_is_utf8((ds_str){source.at + from, end - from})) {
        return end;
    }
    size_t at = from;
    size_t len;
    while ((len = character_len((ds_str){source.at + at, end - at})) > 0) {
        at += len;
    }
    if (end == source.len && is_cut_character(ds_str_from(source, at))) {
        cut_at_end(scan, source);
    } else {
        fault_at(scan, at, DS_P_JSON_NOT_UTF8, (ds_str){0});
    }
    return at;
}

static bool fits(const char c, const char form)
{
    const char lower = (char)(c | 0x20);
    switch (form) {
    case 'x':
        return (c >= '0' && c <= '9') || (lower >= 'a' && lower <= 'f');
    case 'd':
        return lower == 'd';
    case 'h': /* second digit of the first half of a pair */
        return c == '8' || c == '9' || lower == 'a' || lower == 'b';
    case 'l': /* second digit of the second half */
        return lower >= 'c' && lower <= 'f';
    case 'e':
        return c && strchr("\"\\/bfnrt", c);
    default:
        return c == form;
    }
}

/* How many bytes at the start of rest fit the form, letter by letter. */
static size_t match(const ds_str rest, const char *const form)
{
    size_t i = 0;
    while (i < rest.len && form[i] && fits(rest.at[i], form[i])) {
        i++;
    }
    return i;
}

/* A unit that stands for no character by itself: zero, or half a pair. */
static bool is_no_character(const ds_str escape)
{
    const ds_str digits = ds_str_from(escape, 2);
    return match(digits, "0000") == 4 || match(digits, "dhxx") == 4 || match(digits, "dlxx") == 4;
}

/* Length of the escape at the start of rest; 0 when it is none, then *cut says whether the end cuts it off. */
static size_t escape_len(const ds_str rest, bool *const cut)
{
    static const char *const FORMS[] = {"\\e", "\\udhxx\\udlxx", "\\uxxxx"};
    for (size_t i = 0; i < sizeof FORMS / sizeof FORMS[0]; i++) {
        const size_t len = match(rest, FORMS[i]);
        const bool whole = FORMS[i][len] == '\0';
        if (whole) {
            *cut = false;
            return len == 6 && is_no_character(rest) ? 0 : len;
        }
        if (len == rest.len) {
            *cut = true;
            return 0;
        }
    }
    *cut = false;
    return 0;
}

/* The part of a wrong escape that can be shown: plain ASCII. */
static ds_str escape_shown(const ds_str rest)
{
    const size_t unit = match(rest, "\\uxxxx");
    const bool plain = rest.len > 1 && rest.at[1] > ' ' && rest.at[1] < 0x7F;
    return (ds_str){rest.at, unit > 1 ? unit : plain ? 2 : 1};
}

static size_t pass_escape(ds_json_scan *const scan, const ds_str source, const size_t from)
{
    const ds_str rest = ds_str_from(source, from);
    bool cut;
    const size_t len = escape_len(rest, &cut);
    if (len == 0 && cut) {
        cut_at_end(scan, source);
    } else if (len == 0) {
        fault_at(scan, from, DS_P_JSON_ESCAPE, escape_shown(rest));
    }
    return from + len;
}

static void control_in_string(ds_json_scan *const scan, const ds_str source, const size_t at)
{
    const bool line_end = source.at[at] == '\n' || source.at[at] == '\r';
    fault_at(scan, at, DS_P_JSON_BROKEN,
             line_end ? DS_STR("the quotes are not closed on this line")
                      : DS_STR("a tab or control character stands inside quotes"));
}

/* Passes the string that opens at `open`; returns the byte after its closing quote. */
static size_t pass_string(ds_json_scan *const scan, const ds_str source, const size_t open)
{
    size_t i = open + 1;
    bool has_escape = false;
    while (scan->clean) {
        i = next_stop_inside(source, i);
        if (i == source.len) {
            cut_at_end(scan, source);
        } else if (source.at[i] == '"') {
            break;
        } else if (source.at[i] == '\\') {
            has_escape = true;
            i = pass_escape(scan, source, i);
        } else if (byte_at(source, i) > 0x7F) {
            i = pass_high_bytes(scan, source, i);
        } else {
            control_in_string(scan, source, i);
        }
    }
    if (has_escape && i - open > scan->escaped) {
        scan->escaped = i - open;
    }
    scan->in_string = !scan->clean;
    return scan->clean ? i + 1 : open;
}

ds_json_scan ds_json_scan_bytes(const ds_str source, const size_t from)
{
    ds_json_scan scan = {.clean = true};
    size_t i = from;
    while (scan.clean && (i = next_stop_outside(source, i)) < source.len) {
        if (source.at[i] == '"') {
            i = pass_string(&scan, source, i);
        } else if (byte_at(source, i) > 0x7F) {
            i = pass_high_bytes(&scan, source, i);
        } else {
            fault_at(&scan, i, DS_P_JSON_BROKEN, DS_STR("a control character stands here"));
        }
    }
    scan.safe = i;
    return scan;
}
