/* SPDX-License-Identifier: MIT */
/*
 * Behind the numerals: the additional letter, the supplementary letters, and figures that make the code
 * something else.
 */
#include "core/mark/print.h"
#include "core/mark/reader.h"

/* Longer runs are a word or a part number that the code runs into. */
enum { LETTERS_MAX = 5 };

static const char SUPPLEMENTARY[] = "HMSW";

static uint8_t supplementary_bit(const char letter)
{
    for (unsigned i = 0; SUPPLEMENTARY[i]; i++) {
        if (SUPPLEMENTARY[i] == letter) {
            return (uint8_t)(1U << i);
        }
    }
    return 0;
}

/* False when an additional letter is the second one, or behind a supplementary one. */
static bool take_additional(ds_code *const code, const char letter)
{
    if (code->access || code->letters) {
        return false;
    }
    code->access = letter;
    return true;
}

static void take_supplementary(ds_scan *const s, ds_code *const code, const uint8_t bit)
{
    if (code->letters >= bit) {
        ds_scan_note(s, DS_NOTE_LETTER_ORDER);
    }
    code->letters |= bit;
}

static void note_letters(ds_scan *const s, ds_code *const code)
{
    if (code->access && code->access <= ds_implied_letter(code->objects)) {
        ds_scan_note(s, DS_NOTE_REDUNDANT_LETTER);
        code->access = 0;
    }
    if (code->letters & DS_LETTER_H) {
        ds_scan_note(s, DS_NOTE_HIGH_VOLTAGE);
    }
    if (code->letters & DS_LETTER_W) {
        ds_scan_note(s, DS_NOTE_WEATHER);
    }
}

static bool refuse(ds_scan *const s, const ds_note_id note, const size_t end)
{
    ds_scan_note(s, note);
    s->pos = end;
    return false;
}

static bool is_letters_only(const ds_scan *const s, const size_t end)
{
    for (size_t i = s->pos; i < end; i++) {
        const char c = ds_upper(s->at[i]);
        if (c < 'A' || c > 'Z') {
            return false;
        }
    }
    return end - s->pos <= LETTERS_MAX;
}

bool ds_scan_letters(ds_scan *const s, ds_code *const code)
{
    const size_t end = ds_word_end(s, s->pos);
    if (!is_letters_only(s, end)) {
        return refuse(s, DS_NOTE_RUNS_ON, end);
    }
    unsigned unknown = 0;
    bool is_lower = false;
    for (size_t i = s->pos; i < end; i++) {
        const char letter = ds_upper(s->at[i]);
        is_lower = is_lower || letter != s->at[i];
        if (letter <= 'D') {
            if (!take_additional(code, letter)) {
                return refuse(s, DS_NOTE_LETTER_PLACE, end);
            }
        } else if (supplementary_bit(letter)) {
            take_supplementary(s, code, supplementary_bit(letter));
        } else {
            unknown++;
        }
    }
    if (unknown > 1) {
        return refuse(s, DS_NOTE_RUNS_ON, end);
    }
    s->pos = end;
    if (is_lower) {
        ds_scan_note(s, DS_NOTE_CASE);
    }
    if (unknown) {
        ds_scan_note(s, DS_NOTE_UNKNOWN_LETTER);
    }
    note_letters(s, code);
    return true;
}

/* "-9", ".9" or "(9)" close behind two numerals: where it ends, 0 for none. */
static size_t third_digit_at(const ds_scan *const s)
{
    const char sign = ds_peek(s, s->pos);
    const char digit = ds_peek(s, s->pos + 1);
    const char after = ds_peek(s, s->pos + 2);
    ds_quantity figure;
    if (!ds_is_digit(digit)) {
        return 0;
    }
    if (sign == '(') {
        return after == ')' ? s->pos + 3 : 0;
    }
    const bool is_figure = ds_quantity_at(s->at, s->len, s->pos + 1, &figure) != 0;
    return (sign == '-' || sign == '.') && !ds_is_word(after) && !is_figure ? s->pos + 2 : 0;
}

static bool is_millimetres(const ds_scan *const s, const size_t at)
{
    return ds_upper(ds_peek(s, at)) == 'M' && ds_upper(ds_peek(s, at + 1)) == 'M' &&
           !ds_is_word(ds_peek(s, at + 2));
}

bool ds_scan_tail(ds_scan *const s)
{
    const size_t next = ds_skip_blanks(s, s->pos);
    if (ds_peek(s, next) == DS_FOLD_DEGREE) {
        return refuse(s, DS_NOTE_MEASURE, next + 1);
    }
    if (is_millimetres(s, next)) {
        return refuse(s, DS_NOTE_MEASURE, next + 2);
    }
    const size_t third = third_digit_at(s);
    if (third) {
        ds_scan_note(s, DS_NOTE_THIRD_DIGIT);
        s->pos = third;
    }
    return true;
}
