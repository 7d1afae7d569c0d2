/* SPDX-License-Identifier: MIT */
/*
 * The strict grammar (IEC 60529, clause 4, as read on published notes on its code structure):
 *
 *     code       = "IP" ("0".."6" | "X") ("0".."9" | "X") [additional] [supplementary]
 *     additional = "A".."D", only where it says more than the first numeral
 *     supplementary = different letters of H M S W in alphabetical order
 *     several codes of one enclosure are joined by "/", each in full
 *
 * The depth and time of test 7 or 8 in brackets belong to the declaration, so they do not spoil it. An IK
 * code (IEC 62262) stands alone or behind a blank.
 */
#include "core/mark/print.h"
#include "core/mark/reader.h"

static char byte_at(const ds_str text, const size_t at)
{
    return (char)(at < text.len ? text.at[at] : '\0');
}

static bool is_letter_of_supplement(const char c)
{
    return c == 'H' || c == 'M' || c == 'S' || c == 'W';
}

/* Passes one code; false when there is none. *immersed becomes true for water 7 or 8. */
static bool pass_code(const ds_str text, size_t *const at, bool *const immersed)
{
    const char first = byte_at(text, *at + 2);
    const char second = byte_at(text, *at + 3);
    const bool numerals =
        ((first >= '0' && first <= '6') || first == 'X') && (ds_is_digit(second) || second == 'X');
    if (byte_at(text, *at) != 'I' || byte_at(text, *at + 1) != 'P' || !numerals) {
        return false;
    }
    *immersed = *immersed || second == '7' || second == '8';
    *at += 4;
    const char letter = byte_at(text, *at);
    if (letter >= 'A' && letter <= 'D') {
        if (letter <= ds_implied_letter(first == 'X' ? -1 : first - '0')) {
            return false;
        }
        (*at)++;
    }
    for (char before = 0; is_letter_of_supplement(byte_at(text, *at)); (*at)++) {
        if (byte_at(text, *at) <= before) {
            return false;
        }
        before = byte_at(text, *at);
    }
    return true;
}

static bool pass_impact(const ds_str text, size_t *const at)
{
    const char tens = byte_at(text, *at + 2);
    const char units = byte_at(text, *at + 3);
    const bool grade = (tens == '0' && ds_is_digit(units)) || (tens == '1' && (units == '0' || units == '1'));
    if (byte_at(text, *at) != 'I' || byte_at(text, *at + 1) != 'K' || !grade) {
        return false;
    }
    *at += 4;
    return true;
}

static size_t skip_signs(const ds_str text, size_t at)
{
    while (byte_at(text, at) == ' ' || byte_at(text, at) == ',' || byte_at(text, at) == '/') {
        at++;
    }
    return at;
}

/* " (10 m, 24 h)": a depth and a time. False when a bracket holds something else. */
static bool pass_immersion(const ds_str text, size_t *const at)
{
    ds_quantity depth;
    ds_quantity time;
    const size_t comma = ds_quantity_at(text.at, text.len, *at + 2, &depth);
    const size_t end = comma ? ds_quantity_at(text.at, text.len, skip_signs(text, comma), &time) : 0;
    if (!end || depth.kind != DS_QUANTITY_DEPTH || time.kind != DS_QUANTITY_TIME ||
        byte_at(text, end) != ')') {
        return false;
    }
    *at = end + 1;
    return true;
}

bool ds_mark_is_strict(const ds_str text)
{
    size_t at = 0;
    bool immersed = false;
    if (pass_impact(text, &at)) {
        return at == text.len;
    }
    if (!pass_code(text, &at, &immersed)) {
        return false;
    }
    while (byte_at(text, at) == '/') {
        at++;
        if (!pass_code(text, &at, &immersed)) {
            return false;
        }
    }
    const bool has_bracket = byte_at(text, at) == ' ' && byte_at(text, at + 1) == '(';
    if (has_bracket && !(immersed && pass_immersion(text, &at))) {
        return false;
    }
    if (byte_at(text, at) == ' ') {
        at++;
        return pass_impact(text, &at) && at == text.len;
    }
    return at == text.len;
}
