/* SPDX-License-Identifier: MIT */
/* What stands beside an IP code under a system of its own: IK codes, NEMA types, names of standards. */
#include "core/mark/nema.h"
#include "core/mark/reader.h"

/* Does the word at an index, in any case, equal name (upper case)? */
static bool is_word_at(const ds_scan *const s, const size_t at, const char *const name)
{
    const size_t len = strlen(name);
    for (size_t i = 0; i < len; i++) {
        if (ds_upper(ds_peek(s, at + i)) != name[i]) {
            return false;
        }
    }
    return !ds_is_word(ds_peek(s, at + len));
}

/* --- IK ------------------------------------------------------------------------------------------------- */

static void take_impact(ds_scan *const s, const int grade)
{
    if (s->impact >= 0 && s->impact_named != grade) {
        ds_scan_note(s, DS_NOTE_TWO_IK);
        s->impact_unsure = true;
    }
    if (s->impact < 0) {
        s->impact_named = (int8_t)grade;
    }
    s->impact = (int8_t)(s->impact < 0 || grade < s->impact ? grade : s->impact);
    if (grade == 11) {
        ds_scan_note(s, DS_NOTE_IK_NEW);
    }
}

/* "IK", "ik": where the digits start, 0 for none; notes what stands between. */
static size_t impact_digits_at(ds_scan *const s)
{
    const char i = ds_peek(s, s->pos);
    const char k = ds_peek(s, s->pos + 1);
    if (ds_upper(i) != 'I' || ds_upper(k) != 'K') {
        return 0;
    }
    size_t at = s->pos + 2;
    const char gap = ds_peek(s, at);
    const bool has_gap = gap == ' ' || gap == '-' || gap == '.' || gap == ':';
    at = ds_skip_blanks(s, has_gap ? at + 1 : at);
    if (!ds_is_digit(ds_peek(s, at))) {
        return 0;
    }
    if (has_gap) {
        ds_scan_note(s, gap == ' ' ? DS_NOTE_SPACED : gap == '-' ? DS_NOTE_HYPHEN : DS_NOTE_POINTS);
    }
    if (i != 'I' || k != 'K') {
        ds_scan_note(s, DS_NOTE_CASE);
    }
    return at;
}

/* "+" and "++" behind a grade. */
static void take_pluses(ds_scan *const s)
{
    while (ds_peek(s, s->pos) == '+' && !ds_is_word(ds_peek(s, s->pos + 1))) {
        ds_scan_note(s, DS_NOTE_PLUS);
        s->plus = true;
        s->impact_unsure = true;
        s->pos++;
    }
}

bool ds_scan_impact(ds_scan *const s)
{
    const size_t start = impact_digits_at(s);
    if (!start) {
        return false;
    }
    const size_t end = ds_word_end(s, start);
    const char first = s->at[start];
    const char second = ds_peek(s, start + 1);
    s->pos = end;
    if (end - start == 1) {
        ds_scan_note(s, DS_NOTE_IK_ONE_DIGIT);
        take_impact(s, first - '0');
    } else if (end - start == 2 && ds_is_digit(second) && (first - '0') * 10 + second - '0' <= 11) {
        take_impact(s, (first - '0') * 10 + second - '0');
    } else {
        s->impact_bad = true;
    }
    take_pluses(s);
    return true;
}

/* --- NEMA ----------------------------------------------------------------------------------------------- */

static size_t skip_gap(const ds_scan *const s, size_t at)
{
    while (ds_peek(s, at) == ' ' || ds_peek(s, at) == '-') {
        at++;
    }
    return at;
}

/* Where the word of a list that stands at an index ends, 0 for none of them. */
static size_t listed_word_at(const ds_scan *const s, const size_t at, const char *const *const list,
                             const size_t len)
{
    for (size_t i = 0; i < len; i++) {
        if (is_word_at(s, at, list[i])) {
            return at + strlen(list[i]);
        }
    }
    return 0;
}

static size_t skip_words(const ds_scan *const s, size_t at, const char *const *const list, const size_t len)
{
    for (size_t end = listed_word_at(s, at, list, len); end; end = listed_word_at(s, at, list, len)) {
        at = skip_gap(s, end);
    }
    return at;
}

static uint8_t type_at(const ds_scan *const s, const size_t at, size_t *const end)
{
    *end = ds_word_end(s, at);
    return ds_nema_find((ds_str){s->at + at, *end - at});
}

/* "4/4X": the further types of one enclosure; the first, which is the milder one, is kept. */
static void skip_further_types(ds_scan *const s)
{
    size_t end = 0;
    while (ds_peek(s, s->pos) == '/' && type_at(s, s->pos + 1, &end)) {
        s->pos = end;
    }
}

static void take_type(ds_scan *const s, const uint8_t row, const bool named, const size_t end)
{
    s->nema_named = s->nema_named || named;
    s->nema = s->nema_seen ? s->nema : row;
    s->nema_seen = true;
    s->pos = end;
    skip_further_types(s);
}

bool ds_scan_nema(ds_scan *const s)
{
    static const char *const BEHIND[] = {"TYPE", "TYPES", "ENCLOSURE", "RATED", "RATING", "250"};
    static const char *const BEFORE[] = {"UL", "ENCLOSURE", "CSA"};
    static const char NEMA[] = "NEMA";
    size_t end = 0;
    bool named = true;
    for (size_t i = 0; i < 4; i++) {
        named = named && ds_upper(ds_peek(s, s->pos + i)) == NEMA[i];
    }
    if (named) {
        const size_t at = skip_words(s, skip_gap(s, s->pos + 4), BEHIND, sizeof BEHIND / sizeof *BEHIND);
        const uint8_t row = type_at(s, at, &end);
        take_type(s, row, true, row || ds_is_digit(ds_peek(s, at)) ? end : at);
        return true;
    }
    const size_t at = skip_words(s, s->pos, BEFORE, sizeof BEFORE / sizeof *BEFORE);
    if (!is_word_at(s, at, "TYPE")) {
        return false;
    }
    const uint8_t row = type_at(s, skip_gap(s, at + 4), &end);
    if (row) {
        take_type(s, row, false, end);
    }
    return row != 0;
}

/* --- standards ------------------------------------------------------------------------------------------ */

static size_t standard_name_at(const ds_scan *const s, const size_t at)
{
    static const char *const NAMES[] = {"IEC", "EN", "BS", "ISO", "NF", "VDE"};
    return listed_word_at(s, at, NAMES, sizeof NAMES / sizeof *NAMES);
}

static size_t digits_end(const ds_scan *const s, size_t at)
{
    while (ds_is_digit(ds_peek(s, at))) {
        at++;
    }
    return at;
}

/* "60529", "60529:1991", "60309-2", "60529:1991+A2:2013", "60 529": where it ends, 0 for no number. */
static size_t standard_number_at(const ds_scan *const s, const size_t from)
{
    size_t at = digits_end(s, from);
    if (at < from + 2) {
        return 0;
    }
    if (at == from + 2 && ds_peek(s, at) == ' ' && digits_end(s, at + 1) == at + 4) {
        at += 4;
    }
    for (;;) {
        const char sign = ds_peek(s, at);
        const bool amended = sign == '+' && ds_upper(ds_peek(s, at + 1)) == 'A';
        const size_t end = digits_end(s, at + (amended ? 2 : 1));
        if (!(sign == ':' || sign == '-' || amended) || end <= at + (amended ? 2 : 1)) {
            return at;
        }
        at = end;
    }
}

/* "JIS", "JIS 5", "JIS C 0920": a grade or standard of its own kind. */
static void take_japanese(ds_scan *const s)
{
    size_t at = ds_skip_blanks(s, s->pos + 3);
    if (is_word_at(s, at, "C")) {
        at = ds_skip_blanks(s, at + 1);
    }
    s->pos = digits_end(s, at);
    s->foreign = true;
    ds_scan_note(s, DS_NOTE_FOREIGN_GRADE);
}

bool ds_scan_standard(ds_scan *const s)
{
    if (is_word_at(s, s->pos, "JIS")) {
        take_japanese(s);
        return true;
    }
    const bool is_din = is_word_at(s, s->pos, "DIN");
    size_t at = is_din ? s->pos + 3 : s->pos;
    bool others = false;
    for (size_t end = standard_name_at(s, skip_gap(s, at)); end; end = standard_name_at(s, at)) {
        at = end + (ds_peek(s, end) == '/' ? 1 : 0);
        at = skip_gap(s, at);
        others = true;
    }
    const size_t end = standard_number_at(s, skip_gap(s, at));
    if ((!is_din && !others) || !end || ds_is_word(ds_peek(s, end))) {
        return false;
    }
    if (is_din && !others) {
        ds_scan_note(s, DS_NOTE_OLD_STANDARD);
    }
    s->pos = end;
    return true;
}
