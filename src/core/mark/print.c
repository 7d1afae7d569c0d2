/* SPDX-License-Identifier: MIT */
/*
 * Codes from words: the canonical form of a mark and the least code of a need.
 *
 * A mark packed from one claim is a function of that claim, so the claim is guessed back from what is proven,
 * open and denied and packed again to see whether it gives the word. If not, the word was made by the
 * algebra, and the best claim within what it proves is printed.
 */
#include "core/mark/print.h"

/* --- from words to claims ------------------------------------------------------------------------------- */

typedef struct tests {
    uint64_t proven, denied, open;
} tests;

static tests tests_of(const ds_mark mark)
{
    const uint64_t proven = ds_mark_proven(mark);
    const uint64_t denied = ds_mark_denied(mark);
    return (tests){proven, denied, DS_TESTS_ALL & ~(proven | denied)};
}

/* How many rungs of a ladder of len stand without a gap, the lowest being `lowest`. */
static int rungs_without_gap(const uint64_t set, const uint64_t lowest, const int len)
{
    int n = 0;
    while (n < len && set & lowest << n) {
        n++;
    }
    return n;
}

static char letter_of(const uint64_t set)
{
    const int n = rungs_without_gap(set, DS_ACCESS('A'), DS_ACCESS_LEN);
    return (char)(n ? 'A' + n - 1 : '\0');
}

static bool all_in(const uint64_t set, const uint64_t track)
{
    return (set & track) == track;
}

/* 5K leaves 5 open and denies 6; 6K leaves both open. */
static void guess_objects(const tests *const t, ds_claim *const claim)
{
    const int n = rungs_without_gap(t->proven, DS_OBJECT(1), DS_OBJECTS_LEN);
    if (all_in(t->open, DS_OBJECTS_ALL)) {
        return;
    }
    claim->objects_foreign = n == 4 && t->open & DS_OBJECT(5);
    claim->objects = (int8_t)(!claim->objects_foreign ? n : t->open & DS_OBJECT(6) ? 6 : 5);
}

static void guess_access(const tests *const t, ds_claim *const claim)
{
    const char letter = letter_of(t->proven);
    const bool implied = claim->objects >= 0 && letter <= ds_implied_letter(claim->objects);
    claim->access = (char)(implied ? '\0' : letter);
}

static void add_numeral(uint16_t *const set, const int numeral)
{
    *set = (uint16_t)(*set | 1U << numeral);
}

/* 4K and 6K leave their own rung open on top of a proven ladder, 9K leaves 9 open. */
static void guess_ladder(const tests *const t, ds_claim *const claim)
{
    const int n = rungs_without_gap(t->proven, DS_WATER(1), 6);
    const bool is_k = (n == 3 || n == 5) && t->open & DS_WATER(n + 1);
    if (is_k) {
        add_numeral(&claim->water_foreign, n + 1);
    } else if (n) {
        add_numeral(&claim->water, n);
    }
    if (t->open & DS_WATER(9)) {
        add_numeral(&claim->water_foreign, 9);
    }
}

static void guess_water(const tests *const t, const ds_mark mark, ds_claim *const claim)
{
    claim->water_stated = !all_in(t->open, DS_WATER_ALL);
    if (!claim->water_stated) {
        return;
    }
    guess_ladder(t, claim);
    claim->depth_m = ds_mark_depth_m(mark);
    claim->minutes = ds_mark_minutes(mark);
    const bool has_8 = !(t->denied & DS_WATER(8));
    const bool within_8 = has_8 && claim->depth_m >= 1 && claim->minutes >= DS_TIME_OF_7;
    if (has_8) {
        add_numeral(&claim->water, 8);
    }
    if (t->proven & DS_WATER(7) && !within_8) {
        add_numeral(&claim->water, 7);
    }
    if (t->proven & DS_WATER(9)) {
        add_numeral(&claim->water, 9);
    }
}

static void guess_impact(const ds_mark mark, ds_claim *const claim)
{
    const unsigned grade = ds_mark_impact(mark);
    const bool is_stated = grade || ds_mark_impact_ceiling(mark) == 0;
    claim->impact = (int8_t)(is_stated ? (int)grade : -1);
}

static ds_claim exact_claim(const ds_mark mark)
{
    ds_claim claim = DS_CLAIM_NOTHING;
    const tests t = tests_of(mark);
    guess_objects(&t, &claim);
    guess_access(&t, &claim);
    guess_water(&t, mark, &claim);
    guess_impact(mark, &claim);
    return claim;
}

/* The highest numeral whose object tests and implied access are both proven; 0 only where all are denied. */
static void settle_objects(const tests *const t, ds_claim *const claim)
{
    int n = rungs_without_gap(t->proven, DS_OBJECT(1), DS_OBJECTS_LEN);
    while (n && letter_of(t->proven) < ds_implied_letter(n)) {
        n--;
    }
    claim->objects = (int8_t)(n || all_in(t->denied, DS_OBJECTS_ALL) ? n : -1);
}

static void settle_water(const tests *const t, const ds_mark mark, ds_claim *const claim)
{
    const int n = rungs_without_gap(t->proven, DS_WATER(1), 6);
    if (n) {
        add_numeral(&claim->water, n);
    }
    if (t->proven & DS_WATER(7)) {
        add_numeral(&claim->water, 7);
    }
    const double depth_m = ds_mark_depth_m(mark);
    const double minutes = ds_mark_minutes(mark);
    const bool would_prove_7 = depth_m >= 1 && minutes >= DS_TIME_OF_7;
    if (t->proven & DS_WATER(8) && depth_m > 0 && minutes > 0 && (claim->water >> 7 & 1 || !would_prove_7)) {
        add_numeral(&claim->water, 8);
        claim->depth_m = depth_m;
        claim->minutes = minutes;
    }
    if (t->proven & DS_WATER(9)) {
        add_numeral(&claim->water, 9);
    }
    claim->water_stated = claim->water || all_in(t->denied, DS_WATER_ALL);
}

static ds_claim claim_within(const ds_mark mark)
{
    ds_claim claim = DS_CLAIM_NOTHING;
    const tests t = tests_of(mark);
    settle_objects(&t, &claim);
    guess_access(&t, &claim);
    settle_water(&t, mark, &claim);
    guess_impact(mark, &claim);
    return claim;
}

/* 4K and 6K beside a plain 5 or 6: IP66K would be asked about, so it is not printed. */
static bool is_writable(const ds_claim *const claim)
{
    const bool has_k = claim->water_foreign & (1U << 4 | 1U << 6);
    return !(has_k && claim->objects >= 5 && !claim->objects_foreign);
}

ds_claim ds_claim_of(const ds_mark mark)
{
    const ds_claim exact = exact_claim(mark);
    return is_writable(&exact) && ds_mark_from(&exact) == mark ? exact : claim_within(mark);
}

/* --- writing -------------------------------------------------------------------------------------------- */

static void add_solids(ds_text *const out, const ds_claim *const claim)
{
    ds_text_char(out, (char)(claim->objects < 0 ? 'X' : '0' + claim->objects));
    if (claim->objects_foreign && claim->objects >= 5) {
        ds_text_char(out, 'K');
    }
}

/* One code in full; water is "4", "9K", "X". */
static void add_code(ds_text *const out, const ds_claim *const claim, const char *const water,
                     const uint8_t letters)
{
    ds_text_add(out, "IP");
    add_solids(out, claim);
    ds_text_add(out, water);
    if (claim->access) {
        ds_text_char(out, claim->access);
    }
    for (int i = 0; i < 4; i++) {
        if (letters >> i & 1) {
            ds_text_char(out, "HMSW"[i]);
        }
    }
}

static void add_codes(ds_text *const out, const ds_claim *const claim, const uint8_t letters)
{
    bool first = true;
    for (int n = 1; n <= DS_WATER_LEN; n++) {
        for (int k = 0; k < 2; k++) {
            if (!((k ? claim->water_foreign : claim->water) >> n & 1)) {
                continue;
            }
            const char water[3] = {(char)('0' + n), k ? 'K' : '\0', '\0'};
            ds_text_add(out, first ? "" : "/");
            add_code(out, claim, water, letters);
            first = false;
        }
    }
    if (first) {
        add_code(out, claim, claim->water_stated ? "0" : "X", letters);
    }
}

static void add_immersion(ds_text *const out, const ds_claim *const claim)
{
    const bool has_depth = claim->depth_m > 0;
    const bool has_time = claim->minutes > 0;
    if (!(claim->water >> 8 & 1) || !(has_depth || has_time)) {
        return;
    }
    ds_text_add(out, " (");
    if (has_depth) {
        ds_depth_print(out, claim->depth_m);
    }
    ds_text_add(out, has_depth && has_time ? ", " : "");
    if (has_time) {
        ds_time_print(out, claim->minutes);
    }
    ds_text_char(out, ')');
}

static void add_impact(ds_text *const out, const int grade)
{
    if (grade >= DS_IMPACT_BEYOND) {
        ds_text_add(out, "more than 50 J");
        return;
    }
    ds_text_add(out, grade < 10 ? "IK0" : "IK");
    ds_text_int(out, grade);
}

void ds_claim_print(ds_text *const out, const ds_claim *const claim, const uint8_t letters)
{
    const bool has_ip = claim->objects >= 0 || claim->access || claim->water_stated;
    if (has_ip) {
        add_codes(out, claim, letters);
        add_immersion(out, claim);
    }
    if (claim->impact >= 0) {
        ds_text_add(out, has_ip ? " " : "");
        add_impact(out, claim->impact);
    }
}

void ds_mark_print(ds_text *const out, const ds_mark mark)
{
    const ds_claim claim = ds_claim_of(mark);
    ds_claim_print(out, &claim, 0);
}

/* --- needs ---------------------------------------------------------------------------------------------- */

/*
 * The highest rung of a ladder of len that is asked for; the tests lost on the way need not start at the
 * bottom.
 */
static int top_rung(const uint64_t set, const uint64_t lowest, const int len)
{
    int top = 0;
    for (int n = 1; n <= len; n++) {
        top = set & lowest << (n - 1) ? n : top;
    }
    return top;
}

static void least_water(const ds_need need, ds_claim *const claim)
{
    const int n = top_rung(need, DS_WATER(1), 6);
    claim->water = (uint16_t)(n ? 1U << n : 0);
    for (int i = 7; i <= DS_WATER_LEN; i++) {
        if (need & DS_WATER(i)) {
            add_numeral(&claim->water, i);
        }
    }
    claim->water_stated = claim->water != 0;
    claim->depth_m = ds_mark_depth_m(need);
    claim->minutes = ds_mark_minutes(need);
    const bool within_8 = claim->depth_m >= 1 && claim->minutes >= DS_TIME_OF_7;
    if (claim->water >> 8 & 1 && within_8) {
        claim->water = (uint16_t)(claim->water & ~(1U << 7));
    }
}

void ds_need_print(ds_text *const out, const ds_need need)
{
    ds_claim claim = DS_CLAIM_NOTHING;
    const int objects = top_rung(need, DS_OBJECT(1), DS_OBJECTS_LEN);
    const int access = top_rung(need, DS_ACCESS('A'), DS_ACCESS_LEN);
    const char letter = (char)(access ? 'A' + access - 1 : '\0');
    claim.objects = (int8_t)(objects ? objects : -1);
    claim.access = (char)(letter > ds_implied_letter(claim.objects) ? letter : '\0');
    least_water(need, &claim);
    claim.impact = (int8_t)(ds_mark_impact(need) ? (int)ds_mark_impact(need) : -1);
    if (ds_mark_proven(need) || claim.impact >= 0) {
        ds_claim_print(out, &claim, 0);
    } else {
        ds_text_add(out, "nothing");
    }
}
