/* SPDX-License-Identifier: MIT */
/*
 * Numbers with a unit beside a code: depth and time of an immersion, joules, temperatures, and electrical
 * figures that say nothing of protection.
 */
#include "core/mark/reader.h"

typedef struct unit {
    const char *name; /* upper case */
    ds_quantity_kind kind;
    double factor;
} unit;

enum { HOUR = 60, DAY = 24 * HOUR, WEEK = 7 * DAY };

/*
 * A metre of water for a tenth of a bar is common practice; months are left out, since they have no fixed
 * length.
 */
static const unit UNITS[] = {
    {"M", DS_QUANTITY_DEPTH, 1},       {"METRE", DS_QUANTITY_DEPTH, 1},   {"METRES", DS_QUANTITY_DEPTH, 1},
    {"METER", DS_QUANTITY_DEPTH, 1},   {"METERS", DS_QUANTITY_DEPTH, 1},  {"CM", DS_QUANTITY_DEPTH, 0.01},
    {"MM", DS_QUANTITY_DEPTH, 0.001},  {"FT", DS_QUANTITY_DEPTH, 0.3048}, {"FEET", DS_QUANTITY_DEPTH, 0.3048},
    {"BAR", DS_QUANTITY_BAR, 10},      {"MIN", DS_QUANTITY_TIME, 1},      {"MINS", DS_QUANTITY_TIME, 1},
    {"MINUTE", DS_QUANTITY_TIME, 1},   {"MINUTES", DS_QUANTITY_TIME, 1},  {"H", DS_QUANTITY_TIME, HOUR},
    {"HR", DS_QUANTITY_TIME, HOUR},    {"HRS", DS_QUANTITY_TIME, HOUR},   {"HOUR", DS_QUANTITY_TIME, HOUR},
    {"HOURS", DS_QUANTITY_TIME, HOUR}, {"D", DS_QUANTITY_TIME, DAY},      {"DAY", DS_QUANTITY_TIME, DAY},
    {"DAYS", DS_QUANTITY_TIME, DAY},   {"WEEK", DS_QUANTITY_TIME, WEEK},  {"WEEKS", DS_QUANTITY_TIME, WEEK},
    {"J", DS_QUANTITY_JOULES, 1},      {"JOULE", DS_QUANTITY_JOULES, 1},  {"JOULES", DS_QUANTITY_JOULES, 1},
    {"V", DS_QUANTITY_OTHER, 1},       {"A", DS_QUANTITY_OTHER, 1},       {"W", DS_QUANTITY_OTHER, 1},
    {"MA", DS_QUANTITY_OTHER, 1},      {"HZ", DS_QUANTITY_OTHER, 1},      {"VAC", DS_QUANTITY_OTHER, 1},
};

enum { UNITS_LEN = sizeof UNITS / sizeof *UNITS };

static char byte_at(const char *const at, const size_t len, const size_t i)
{
    return (char)(i < len ? at[i] : '\0');
}

static size_t digits_at(const char *const at, const size_t len, size_t from, double *const value)
{
    while (ds_is_digit(byte_at(at, len, from))) {
        *value = *value * 10 + (at[from++] - '0');
    }
    return from;
}

/* "10", "1.5", "1,5": where it ends, 0 when there is no digit. */
static size_t number_at(const char *const at, const size_t len, const size_t from, double *const value)
{
    *value = 0;
    const size_t whole = digits_at(at, len, from, value);
    const char point = byte_at(at, len, whole);
    if (whole == from || !(point == '.' || point == ',') || !ds_is_digit(byte_at(at, len, whole + 1))) {
        return whole == from ? 0 : whole;
    }
    double fraction = 0;
    const size_t end = digits_at(at, len, whole + 1, &fraction);
    double scale = 1;
    for (size_t i = whole + 1; i < end; i++) {
        scale *= 10;
    }
    *value += fraction / scale;
    return end;
}

static bool is_unit(const char *const at, const size_t len, const char *const name)
{
    if (strlen(name) != len) {
        return false;
    }
    for (size_t i = 0; i < len; i++) {
        if (ds_upper(at[i]) != name[i]) {
            return false;
        }
    }
    return true;
}

static size_t word_end(const char *const at, const size_t len, size_t from)
{
    while (ds_is_word(byte_at(at, len, from))) {
        from++;
    }
    return from;
}

size_t ds_quantity_at(const char *const at, const size_t len, const size_t from, ds_quantity *const out)
{
    double value = 0;
    size_t start = number_at(at, len, from, &value);
    if (!start || start - from > 12) {
        return 0;
    }
    while (byte_at(at, len, start) == ' ') {
        start++;
    }
    const size_t end = word_end(at, len, start);
    for (size_t i = 0; i < UNITS_LEN && end > start; i++) {
        if (is_unit(at + start, end - start, UNITS[i].name)) {
            *out = (ds_quantity){UNITS[i].kind, value * UNITS[i].factor};
            return end;
        }
    }
    return 0;
}

bool ds_scan_quantity(ds_scan *const s)
{
    ds_quantity found;
    const size_t end = ds_quantity_at(s->at, s->len, s->pos, &found);
    if (!end) {
        return false;
    }
    s->pos = end;
    if (found.kind == DS_QUANTITY_TIME) {
        ds_scan_item(s, &(ds_item){.kind = DS_ITEM_TIME, .value = found.value});
    } else if (found.kind == DS_QUANTITY_JOULES) {
        s->joules = s->joules < 0 || found.value < s->joules ? found.value : s->joules;
    } else if (found.kind != DS_QUANTITY_OTHER) {
        ds_scan_item(s, &(ds_item){.kind = DS_ITEM_DEPTH, .value = found.value});
    }
    if (found.kind == DS_QUANTITY_BAR) {
        ds_scan_note(s, DS_NOTE_BAR);
    }
    return true;
}

/* "+40", "-20.5": where it ends, 0 for no number. */
static size_t signed_number_at(const ds_scan *const s, const size_t from)
{
    double value = 0;
    const char c = ds_peek(s, from);
    return number_at(s->at, s->len, c == '+' || c == '-' ? from + 1 : from, &value);
}

/* "...", "..", "to", "-", "/" between two temperatures, blanks round it: where it ends, 0 for none. */
static size_t until_at(const ds_scan *const s, const size_t from)
{
    size_t at = ds_skip_blanks(s, from);
    const size_t start = at;
    while (ds_peek(s, at) == '.') {
        at++;
    }
    if (at > start + 1) {
        return ds_skip_blanks(s, at);
    }
    if (ds_upper(ds_peek(s, start)) == 'T' && ds_upper(ds_peek(s, start + 1)) == 'O') {
        return ds_skip_blanks(s, start + 2);
    }
    const char c = ds_peek(s, start);
    return c == '-' || c == '/' ? ds_skip_blanks(s, start + 1) : 0;
}

/* "C", "°C", "deg C": where it ends, 0 for none. */
static size_t celsius_at(const ds_scan *const s, const size_t from)
{
    size_t at = ds_skip_blanks(s, from);
    if (ds_peek(s, at) == DS_FOLD_DEGREE) {
        at = ds_skip_blanks(s, at + 1);
    } else if (is_unit(s->at + at, ds_word_end(s, at) - at, "DEG")) {
        at = ds_skip_blanks(s, at + 3);
    }
    const bool is_celsius = ds_upper(ds_peek(s, at)) == 'C' && !ds_is_word(ds_peek(s, at + 1));
    return is_celsius ? at + 1 : 0;
}

bool ds_scan_temperature(ds_scan *const s)
{
    const size_t first = signed_number_at(s, s->pos);
    if (!first) {
        return false;
    }
    size_t end = celsius_at(s, first);
    const size_t second = until_at(s, end ? end : first);
    const size_t last = second ? signed_number_at(s, second) : 0;
    const size_t end_of_range = last ? celsius_at(s, last) : 0;
    end = end_of_range ? end_of_range : end;
    if (!end) {
        return false;
    }
    ds_scan_note(s, DS_NOTE_TEMPERATURE);
    s->pos = end;
    return true;
}
