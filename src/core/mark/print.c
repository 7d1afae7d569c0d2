/* SPDX-License-Identifier: MIT */
/*
 * Codes from words: the canonical form of a mark, the least code of a need, and tests by name.
 *
 * A mark that came from one claim is a function of its word: which water numerals were claimed can be told from what is
 * proven, open and denied. A word made by the algebra prints the best code that claims no more than it proves.
 */
#include "core/mark/mark.h"

static char letter_of(const uint64_t tests)
{
    char letter = 0;
    for (char c = 'A'; c <= 'D' && tests & DS_ACCESS(c); c++) {
        letter = c;
    }
    return letter;
}

/* Rungs 1..n that are in the set without a gap. */
static int objects_of(const uint64_t tests)
{
    int n = 0;
    while (n < DS_OBJECTS_LEN && tests & DS_OBJECT(n + 1)) {
        n++;
    }
    return n;
}

static int rain_of(const uint64_t tests)
{
    int n = 0;
    while (n < 6 && tests & DS_WATER(n + 1)) {
        n++;
    }
    return n;
}

static char implied_by(const int objects)
{
    static const char LETTERS[] = {0, 'A', 'B', 'C', 'D', 'D', 'D'};
    return LETTERS[objects];
}

/* --- what a code is made of --------------------------------------------------------------------------------------- */

/* Water numerals to print one code each for; `k` the numerals written with K. */
typedef struct numerals {
    uint16_t plain;
    uint16_t k;
    bool stated;
} numerals;

/* The pieces of a code. */
typedef struct pieces {
    char solids[3]; /* "6", "5K", "X" */
    char letter;
    numerals water;
} pieces;

static bool is_open(const ds_mark mark, const uint64_t test)
{
    return ((ds_mark_proven(mark) | ds_mark_denied(mark)) & test) == 0;
}

static bool speaks(const ds_mark mark, const uint64_t track)
{
    return ((ds_mark_proven(mark) | ds_mark_denied(mark)) & track) != 0;
}

/* 4K and 6K leave their own rung open above a proven ladder; 9K leaves 9 open among denied 5 to 8. */
static numerals water_of(const ds_mark mark)
{
    const uint64_t proven = ds_mark_proven(mark);
    numerals out = {.stated = speaks(mark, DS_WATER_ALL)};
    const int rain = rain_of(proven);
    const bool eight_open = is_open(mark, DS_WATER(8)) && is_open(mark, DS_WATER(7));
    if (rain == 3 && is_open(mark, DS_WATER(4)) && ds_mark_denied(mark) & DS_WATER(5)) {
        out.k |= 1 << 4;
    } else if (rain == 5 && is_open(mark, DS_WATER(6)) && out.stated) {
        out.k |= 1 << 6;
    } else if (rain) {
        out.plain |= (uint16_t)(1 << rain);
    }
    if (proven & DS_WATER(8)) {
        out.plain |= 1 << 8;
    } else if (out.stated && ((eight_open) || ds_mark_depth_m(mark) > 0 || ds_mark_minutes(mark) > 0)) {
        out.plain |= 1 << 8; /* claimed, depth and time not enough to prove it */
    }
    /* An 8 as harsh as 7 proves 7 besides; a 7 claimed with it prints the same. */
    if (proven & DS_WATER(7) && !(out.plain >> 8 & 1)) {
        out.plain |= 1 << 7;
    }
    if (proven & DS_WATER(9)) {
        out.plain |= 1 << 9;
    } else if (out.stated && is_open(mark, DS_WATER(9))) {
        out.k |= 1 << 9;
    }
    return out;
}

static pieces pieces_of(const ds_mark mark)
{
    const uint64_t proven = ds_mark_proven(mark);
    pieces out = {.solids = "X", .water = water_of(mark)};
    const int objects = objects_of(proven);
    char implied = 0;
    if (speaks(mark, DS_OBJECTS_ALL) || objects) {
        const bool dust_open = objects == 4 && is_open(mark, DS_OBJECT(5));
        const int stated = !dust_open ? objects : ds_mark_denied(mark) & DS_OBJECT(6) ? 5 : 6;
        out.solids[0] = (char)('0' + stated);
        out.solids[1] = dust_open ? 'K' : '\0';
        implied = implied_by(objects);
    } else if (objects == 0 && (proven & DS_OBJECTS_ALL) == 0 && out.solids[0] == 'X') {
        implied = 0;
    }
    const char letter = letter_of(proven);
    out.letter = letter > implied ? letter : 0;
    return out;
}

/* --- writing ------------------------------------------------------------------------------------------------------ */

static void add_time(ds_text *const out, const double minutes)
{
    const double hours = minutes / 60;
    const double days = hours / 24;
    if (minutes < 64) {
        ds_text_number(out, minutes, 0);
        ds_text_add(out, " min");
    } else if (hours < 64) {
        ds_text_number(out, hours, 2);
        ds_text_add(out, " h");
    } else {
        ds_text_number(out, days, 2);
        ds_text_add(out, " days");
    }
}

static void add_conditions(ds_text *const out, const double depth_m, const double minutes)
{
    if (!(depth_m > 0) && !(minutes > 0)) {
        return;
    }
    ds_text_add(out, " (");
    if (depth_m > 0) {
        ds_text_number(out, depth_m, 2);
        ds_text_add(out, minutes > 0 ? " m, " : " m");
    }
    if (minutes > 0) {
        add_time(out, minutes);
    }
    ds_text_char(out, ')');
}

static void add_code(ds_text *const out, const pieces *const p, const char *const water)
{
    ds_text_add(out, "IP");
    ds_text_add(out, p->solids);
    ds_text_add(out, water);
    if (p->letter) {
        ds_text_char(out, p->letter);
    }
}

static void add_impact(ds_text *const out, const unsigned grade)
{
    ds_text_add(out, grade < 10 ? "IK0" : "IK");
    ds_text_int(out, grade);
}

/* One code a water numeral, joined by "/"; one with 0 or X when there is none. */
static void add_codes(ds_text *const out, const pieces *const p)
{
    const unsigned all = p->water.plain | p->water.k;
    if (all == 0) {
        add_code(out, p, p->water.stated ? "0" : "X");
        return;
    }
    bool first = true;
    for (int n = 1; n <= 9; n++) {
        for (int k = 0; k < 2; k++) {
            if (!((k ? p->water.k : p->water.plain) >> n & 1)) {
                continue;
            }
            const char numeral[3] = {(char)('0' + n), k ? 'K' : '\0', '\0'};
            ds_text_add(out, first ? "" : "/");
            add_code(out, p, numeral);
            first = false;
        }
    }
}

void ds_mark_print(ds_text *const out, const ds_mark mark)
{
    const bool has_ip = speaks(mark, DS_TESTS_ALL);
    if (has_ip) {
        const pieces p = pieces_of(mark);
        add_codes(out, &p);
        add_conditions(out, ds_mark_depth_m(mark), ds_mark_minutes(mark));
    }
    if (ds_mark_impact_ceiling(mark) != DS_IMPACT_OPEN || ds_mark_impact(mark)) {
        ds_text_add(out, has_ip ? " " : "");
        add_impact(out, ds_mark_impact(mark));
    }
}

void ds_need_print(ds_text *const out, const ds_need need)
{
    const uint64_t tests = ds_mark_proven(need);
    if (tests) {
        const int objects = objects_of(tests);
        const int rain = rain_of(tests);
        pieces p = {.solids = "X", .water = {.stated = false}};
        p.solids[0] = objects ? (char)('0' + objects) : 'X';
        p.letter = letter_of(tests) > implied_by(objects) ? letter_of(tests) : 0;
        p.water.plain = (uint16_t)((rain ? 1 << rain : 0) | (int)(tests / DS_WATER(7) & 7) << 7);
        add_codes(out, &p);
        add_conditions(out, ds_mark_depth_m(need), ds_mark_minutes(need));
    }
    const unsigned impact = ds_mark_impact(need);
    if (impact) {
        ds_text_add(out, tests ? " " : "");
        if (impact >= DS_IMPACT_BEYOND) {
            ds_text_add(out, "more than 50 J");
        } else {
            add_impact(out, impact);
        }
    }
    if (!tests && !impact) {
        ds_text_add(out, "nothing");
    }
}

/* --- tests by name ------------------------------------------------------------------------------------------------ */

/* A short text on the stack: test names are few words. */
typedef struct label {
    char at[40];
    size_t len;
} label;

static void add_word(label *const out, const char *word)
{
    for (; *word && out->len < sizeof out->at; word++) {
        out->at[out->len++] = *word;
    }
}

static void *label_resize(void *const ctx, void *const old, const size_t old_size, const size_t new_size)
{
    (void)old;
    (void)old_size;
    return new_size > 0 && new_size <= 256 ? ctx : NULL;
}

/* Depth or time in words, through a text that lives in a buffer of its own. */
static void visit_condition(ds_need_visit *const visit, void *const ctx, const double depth_m, const double minutes)
{
    char buffer[256];
    const ds_alloc alloc = {.resize = label_resize, .ctx = buffer};
    ds_text text;
    ds_text_init(&text, &alloc);
    if (depth_m > 0) {
        ds_text_add(&text, "depth ");
        ds_text_number(&text, depth_m, 2);
        ds_text_add(&text, " m");
    } else {
        ds_text_add(&text, "time ");
        add_time(&text, minutes);
    }
    visit(ctx, ds_text_str(&text));
}

static void visit_test(ds_need_visit *const visit, void *const ctx, const char *const track, const char rung)
{
    label out = {.len = 0};
    const char name[2] = {rung, '\0'};
    add_word(&out, track);
    add_word(&out, name);
    visit(ctx, (ds_str){out.at, out.len});
}

static void visit_impact(ds_need_visit *const visit, void *const ctx, const unsigned grade)
{
    label out = {.len = 0};
    if (grade >= DS_IMPACT_BEYOND) {
        add_word(&out, "impact beyond IK11");
    } else {
        const char digits[3] = {(char)('0' + grade / 10), (char)('0' + grade % 10), '\0'};
        add_word(&out, "impact IK");
        add_word(&out, digits);
    }
    visit(ctx, (ds_str){out.at, out.len});
}

void ds_need_each(const ds_need need, ds_need_visit *const visit, void *const ctx)
{
    for (int n = 1; n <= DS_OBJECTS_LEN; n++) {
        if (need & DS_OBJECT(n)) {
            visit_test(visit, ctx, "solids ", (char)('0' + n));
        }
    }
    for (char letter = 'A'; letter <= 'D'; letter++) {
        if (need & DS_ACCESS(letter)) {
            visit_test(visit, ctx, "access ", letter);
        }
    }
    for (int n = 1; n <= DS_WATER_LEN; n++) {
        if (need & DS_WATER(n)) {
            visit_test(visit, ctx, "water ", (char)('0' + n));
        }
    }
    if (ds_mark_impact(need)) {
        visit_impact(visit, ctx, ds_mark_impact(need));
    }
    if (ds_mark_depth_m(need) > 0) {
        visit_condition(visit, ctx, ds_mark_depth_m(need), 0);
    }
    if (ds_mark_minutes(need) > 0) {
        visit_condition(visit, ctx, 0, ds_mark_minutes(need));
    }
}

const char *ds_test_words(const char track, const unsigned rung)
{
    static const char *const OBJECTS[] = {"nothing kept out", "50 mm, a hand", "12.5 mm, a finger", "2.5 mm, a tool",
                                          "1 mm, a wire", "dust, but for a harmless little", "all dust"};
    static const char *const ACCESS[] = {"nobody", "the back of a hand", "a finger", "a tool", "a wire"};
    static const char *const WATER[] = {"nothing kept out", "drops from above", "drops, tilted 15 degrees",
                                        "spray to 60 degrees", "splashes from every side", "a hose jet from every side",
                                        "a strong jet from every side", "dipping, 1 m for 30 min",
                                        "lying under water, depth and time as declared", "a hot high-pressure jet close by"};
    if (track == 'o') {
        return rung <= DS_OBJECTS_LEN ? OBJECTS[rung] : "";
    }
    if (track == 'a') {
        return rung <= DS_ACCESS_LEN ? ACCESS[rung] : "";
    }
    return rung <= DS_WATER_LEN ? WATER[rung] : "";
}
