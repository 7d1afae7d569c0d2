/* SPDX-License-Identifier: MIT */
/*
 * Packing claims, and the set algebra of marks and needs.
 *
 * A claim is packed track by track. Each water element (a numeral, or a numeral with K) says what it proves
 * and what it leaves open; the claim proves what any of them proves, leaves open what any leaves open, and
 * denies the rest.
 */
#include "core/mark/word.h"

static const uint64_t TRACKS[] = {DS_OBJECTS_ALL, DS_ACCESS_ALL, DS_WATER_ALL};

enum { TRACK_COUNT = sizeof TRACKS / sizeof *TRACKS };

static uint64_t stated(const uint64_t track, const uint64_t proven, const uint64_t open)
{
    return proven | (track & ~(proven | open)) << DS_DENIED_AT;
}

/* --- building ------------------------------------------------------------------------------------------- */

static int objects_of(const ds_claim *const claim)
{
    return claim->objects > DS_OBJECTS_LEN ? -1 : claim->objects;
}

static char access_of(const ds_claim *const claim)
{
    const char implied = ds_implied_letter(objects_of(claim));
    const bool usable = claim->access >= 'A' && claim->access <= 'D';
    return (char)(usable && claim->access > implied ? claim->access : implied);
}

static uint64_t pack_objects(const ds_claim *const claim)
{
    const int n = objects_of(claim);
    if (n < 0) {
        return 0;
    }
    const bool foreign = claim->objects_foreign && n >= 5;
    return stated(DS_OBJECTS_ALL, DS_OBJECTS_TO(foreign ? 4 : n), foreign ? DS_OBJECTS_TO(n) : 0);
}

static uint64_t pack_access(const ds_claim *const claim)
{
    const char letter = access_of(claim);
    if (!letter && objects_of(claim) < 0) {
        return 0;
    }
    return stated(DS_ACCESS_ALL, letter ? DS_ACCESS_TO(letter) : 0, 0);
}

static bool has(const uint16_t set, const unsigned numeral)
{
    return set >> numeral & 1;
}

/* The highest of numerals 1..6 in the set; 0 without one. */
static unsigned top_of_ladder(const uint16_t set)
{
    for (unsigned n = 6; n > 0; n--) {
        if (has(set, n)) {
            return n;
        }
    }
    return 0;
}

/* Bits of a claim's sets that name a numeral which exists. */
enum { WATER_CLAIMED = 0x3FE, WATER_K = 1 << 4 | 1 << 6 | 1 << 9 };

/* Adds what the water elements other than 8 prove and leave open. */
static void add_water(const ds_claim *const claim, uint64_t *const proven, uint64_t *const open)
{
    const unsigned plain = top_of_ladder(claim->water);
    const unsigned foreign = top_of_ladder(claim->water_foreign & (1U << 4 | 1U << 6));
    *proven |= plain ? DS_WATER_TO(plain) : 0;
    *proven |= foreign ? DS_WATER_TO(foreign - 1) : 0;
    *open |= has(claim->water_foreign, 4) ? DS_WATER(4) : 0;
    *open |= has(claim->water_foreign, 6) ? DS_WATER(6) : 0;
    *open |= has(claim->water_foreign, 9) ? DS_WATER(9) : 0;
    *proven |= has(claim->water, 7) ? DS_WATER(7) : 0;
    *proven |= has(claim->water, 9) ? DS_WATER(9) : 0;
    if (!plain) {
        *open |= DS_WATER_TO(4); /* only 7, 8 or 9; what 4K and 6K prove is taken out again */
    }
}

static uint64_t pack_water(const ds_claim *const claim)
{
    if (!claim->water_stated) {
        return 0;
    }
    uint64_t proven = 0;
    uint64_t open = 0;
    uint64_t immersion = 0;
    if (claim->water & WATER_CLAIMED || claim->water_foreign & WATER_K) {
        add_water(claim, &proven, &open);
    }
    if (has(claim->water, 8)) {
        const unsigned depth = ds_depth_down(claim->depth_m);
        const unsigned time = ds_time_down(claim->minutes);
        const bool covers_7 = depth >= DS_DEPTH_OF_7 && time >= DS_TIME_OF_7;
        const bool exceeds_7 = depth && time && (depth > DS_DEPTH_OF_7 || time > DS_TIME_OF_7);
        *(covers_7 ? &proven : &open) |= DS_WATER(7);
        *(exceeds_7 ? &proven : &open) |= DS_WATER(8);
        immersion = ds_immersion_bits(depth, time);
    }
    return stated(DS_WATER_ALL, proven, open) | immersion;
}

static uint64_t pack_impact(const int grade)
{
    if (grade < 0) {
        return ds_impact_bits(0, DS_IMPACT_OPEN);
    }
    const unsigned within = grade > 11 ? 11 : (unsigned)grade;
    return ds_impact_bits(within, within);
}

ds_mark ds_mark_from(const ds_claim *const claim)
{
    return pack_objects(claim) | pack_access(claim) | pack_water(claim) | pack_impact(claim->impact);
}

static uint64_t need_of_water(const ds_claim *const claim)
{
    const uint16_t set = claim->water | claim->water_foreign;
    const unsigned top = top_of_ladder(set);
    uint64_t need = top ? DS_WATER_TO(top) : 0;
    for (unsigned n = 7; n <= 9; n++) {
        need |= has(set, n) ? DS_WATER(n) : 0;
    }
    if (has(set, 8)) {
        need |= ds_immersion_bits(ds_depth_up(claim->depth_m), ds_time_up(claim->minutes));
    }
    return need;
}

ds_need ds_need_from(const ds_claim *const claim)
{
    const int objects = objects_of(claim);
    const bool has_letter = claim->access >= 'A' && claim->access <= 'D';
    const unsigned grade = claim->impact < 0 ? 0 : (unsigned)claim->impact;
    return (objects > 0 ? DS_OBJECTS_TO(objects) : 0) | (has_letter ? DS_ACCESS_TO(claim->access) : 0) |
           (claim->water_stated ? need_of_water(claim) : 0) |
           ds_impact_bits(grade > DS_IMPACT_BEYOND ? DS_IMPACT_BEYOND : grade, DS_IMPACT_OPEN);
}

double ds_mark_depth_m(const ds_mark mark)
{
    return ds_depth_of(ds_depth_code(mark));
}

double ds_mark_minutes(const ds_mark mark)
{
    return ds_time_of(ds_time_code(mark));
}

/* --- set algebra ---------------------------------------------------------------------------------------- */

static unsigned larger(const unsigned a, const unsigned b)
{
    return a > b ? a : b;
}

static unsigned smaller(const unsigned a, const unsigned b)
{
    return a < b ? a : b;
}

static uint64_t word_of(const uint64_t proven, const uint64_t denied)
{
    return proven | denied << DS_DENIED_AT;
}

static bool speaks_of(const ds_mark mark, const uint64_t track)
{
    return ((ds_mark_proven(mark) | ds_mark_denied(mark)) & track) != 0;
}

static bool speaks_of_impact(const ds_mark mark)
{
    return ds_mark_impact(mark) > 0 || ds_mark_impact_ceiling(mark) < DS_IMPACT_BEYOND;
}

static uint64_t join_impact(const ds_mark a, const ds_mark b)
{
    const unsigned ceiling_a = ds_mark_impact_ceiling(a);
    const unsigned ceiling_b = ds_mark_impact_ceiling(b);
    const bool unsure = ceiling_a == DS_IMPACT_UNSURE || ceiling_b == DS_IMPACT_UNSURE;
    const unsigned ceiling = unsure                 ? DS_IMPACT_UNSURE
                             : !speaks_of_impact(a) ? ceiling_b
                             : !speaks_of_impact(b) ? ceiling_a
                                                    : larger(ceiling_a, ceiling_b);
    return ds_impact_bits(larger(ds_mark_impact(a), ds_mark_impact(b)), ceiling);
}

/* Orders declared immersions: proven first, then deeper, then longer. */
static unsigned immersion_rank(const ds_mark mark)
{
    const unsigned proven = (ds_mark_proven(mark) & DS_WATER(8)) != 0;
    return proven << 20 | ds_depth_code(mark) << 8 | ds_time_code(mark);
}

static uint64_t join_immersion(const ds_mark a, const ds_mark b)
{
    const ds_mark kept = immersion_rank(a) >= immersion_rank(b) ? a : b;
    return ds_immersion_bits(ds_depth_code(kept), ds_time_code(kept));
}

ds_mark ds_mark_join(const ds_mark a, const ds_mark b)
{
    const uint64_t proven = ds_mark_proven(a) | ds_mark_proven(b);
    uint64_t denied = 0;
    for (size_t i = 0; i < TRACK_COUNT; i++) {
        const uint64_t by_a = speaks_of(a, TRACKS[i]) ? ds_mark_denied(a) : ds_mark_denied(b);
        const uint64_t by_b = speaks_of(b, TRACKS[i]) ? ds_mark_denied(b) : ds_mark_denied(a);
        denied |= by_a & by_b & TRACKS[i];
    }
    return word_of(proven, denied & ~proven) | join_impact(a, b) | join_immersion(a, b);
}

/* The smaller of two declared values; what is not declared sets no limit. */
static unsigned stricter_limit(const unsigned a, const unsigned b)
{
    return !a ? b : !b ? a : smaller(a, b);
}

ds_mark ds_mark_weakest(const ds_mark a, const ds_mark b)
{
    const uint64_t proven = ds_mark_proven(a) & ds_mark_proven(b);
    const uint64_t denied = ds_mark_denied(a) | ds_mark_denied(b);
    const uint64_t immersion = denied & DS_WATER(8)
                                   ? 0
                                   : ds_immersion_bits(stricter_limit(ds_depth_code(a), ds_depth_code(b)),
                                                       stricter_limit(ds_time_code(a), ds_time_code(b)));
    return word_of(proven, denied) | immersion |
           ds_impact_bits(smaller(ds_mark_impact(a), ds_mark_impact(b)),
                          smaller(ds_mark_impact_ceiling(a), ds_mark_impact_ceiling(b)));
}

ds_mark ds_mark_either(const ds_mark a, const ds_mark b)
{
    const uint64_t proven = ds_mark_proven(a) & ds_mark_proven(b);
    const uint64_t immersion = proven & DS_WATER(8)
                                   ? ds_immersion_bits(smaller(ds_depth_code(a), ds_depth_code(b)),
                                                       smaller(ds_time_code(a), ds_time_code(b)))
                                   : 0;
    return word_of(proven, ds_mark_denied(a) & ds_mark_denied(b)) | immersion |
           ds_impact_bits(smaller(ds_mark_impact(a), ds_mark_impact(b)), DS_IMPACT_UNSURE);
}

ds_mark ds_mark_with_access(const ds_mark mark, const char letter)
{
    return letter < 'A' || letter > 'D' ? mark : mark | (DS_ACCESS_TO(letter) & ~ds_mark_denied(mark));
}

ds_need ds_need_join(const ds_need a, const ds_need b)
{
    return ds_mark_proven(a) | ds_mark_proven(b) |
           ds_impact_bits(larger(ds_mark_impact(a), ds_mark_impact(b)), DS_IMPACT_OPEN) |
           ds_immersion_bits(larger(ds_depth_code(a), ds_depth_code(b)),
                             larger(ds_time_code(a), ds_time_code(b)));
}
