/* SPDX-License-Identifier: MIT */
/*
 * Comparing needs with marks, one or millions.
 *
 * A need is taken apart once; then each mark costs some twenty operations and no branch. Several fields of a
 * mark are compared by one sum: the complement of a field plus what is asked of it overflows into the gap
 * above the field exactly when the field is less; a set of tests plus all ones overflows when it is not
 * empty. So each mask leaves out every other field of the word:
 *
 *     missing   of the complement of the mark: tests not proven, impact grade, depth
 *     denied    of the mark moved down by DS_DENIED_AT: tests denied; of its complement ceiling and time
 *
 * and the overflow bits, the flags, stand where the gaps are.
 */
#include "core/mark/word.h"

#define FLAG(at) (UINT64_C(1) << (at))
#define TESTS_FLAG FLAG(19)
#define CEILING_FLAG FLAG(27)
#define IMPACT_FLAG FLAG(42)
#define TIME_FLAG FLAG(45)
#define DEPTH_FLAG FLAG(56)

/* Fields as they stand there: ceiling and time moved down, depth where it is. */
#define CEILING_FIELD (UINT64_C(15) << (DS_CEILING_AT - DS_DENIED_AT))
#define TIME_FIELD (UINT64_C(255) << (DS_TIME_AT - DS_DENIED_AT))
#define DEPTH_FIELD (UINT64_C(1023) << DS_DEPTH_AT)

typedef struct terms {
    uint64_t tests;
    unsigned depth, time; /* the least of each: what is named, and not below test 7's */
    uint64_t missing_mask, missing_sum;
    uint64_t denied_mask, denied_sum;
    uint64_t any_depth, any_time; /* added to a declared one they overflow; 0 when less is not denied */
} terms;

/* Below test 7's figures no declared test is a test 8 that would settle anything, so none is denied there. */
static void take_immersion(terms *const t, const ds_need need)
{
    const unsigned depth = ds_depth_code(need);
    const unsigned time = ds_time_code(need);
    t->depth = depth > DS_DEPTH_OF_7 ? depth : DS_DEPTH_OF_7;
    t->time = time > DS_TIME_OF_7 ? time : DS_TIME_OF_7;
    t->any_depth = depth >= DS_DEPTH_OF_7 ? DEPTH_FIELD : 0;
    t->any_time = time >= DS_TIME_OF_7 ? TIME_FIELD : 0;
}

static terms terms_of(const ds_need need)
{
    const uint64_t impact = ds_mark_impact(need);
    terms t = {.tests = ds_mark_proven(need)};
    if (t.tests & DS_WATER(8)) {
        take_immersion(&t, need);
    }
    t.missing_mask = t.tests | UINT64_C(15) << DS_IMPACT_AT | DEPTH_FIELD;
    t.missing_sum = DS_TESTS_ALL + (impact << DS_IMPACT_AT) + ((uint64_t)t.depth << DS_DEPTH_AT);
    t.denied_mask = t.tests | CEILING_FIELD | TIME_FIELD;
    t.denied_sum = DS_TESTS_ALL + (impact << (DS_CEILING_AT - DS_DENIED_AT)) +
                   ((uint64_t)t.time << (DS_TIME_AT - DS_DENIED_AT));
    return t;
}

/* 1 when a flag is set. Flags are multiples of the lowest, so that one sum carries any of them to the top. */
static inline uint64_t is_any(const uint64_t flags)
{
    return (flags + ((DEPTH_FLAG << 1) - TESTS_FLAG)) >> 57;
}

static inline uint64_t missing_of(const terms *const t, const ds_mark mark)
{
    return (~mark & t->missing_mask) + t->missing_sum;
}

static inline uint64_t denied_of(const terms *const t, const uint64_t moved)
{
    return ((moved ^ (CEILING_FIELD | TIME_FIELD)) & t->denied_mask) + t->denied_sum;
}

/*
 * 0 fits, 1 unknown, 2 short, the order of ds_verdict; of a need without test 8. What is denied is missing
 * too, so the two only have to be added.
 */
static inline uint64_t judge_dry(const terms *const t, const ds_mark mark)
{
    const uint64_t missing = missing_of(t, mark) & (TESTS_FLAG | IMPACT_FLAG);
    const uint64_t denied = denied_of(t, mark >> DS_DENIED_AT) & (TESTS_FLAG | CEILING_FLAG);
    return is_any(missing) + is_any(denied);
}

/* The same of any need. Less depth or time than named is denied when any is declared. */
static inline uint64_t judge(const terms *const t, const ds_mark mark)
{
    const uint64_t moved = mark >> DS_DENIED_AT;
    const uint64_t missing = missing_of(t, mark);
    const uint64_t denied = denied_of(t, moved);
    const uint64_t shallow = missing & ((mark & DEPTH_FIELD) + t->any_depth);
    const uint64_t brief_or_denied =
        denied & (((moved & TIME_FIELD) + t->any_time) | TESTS_FLAG | CEILING_FLAG);
    const uint64_t all_missing = (missing & (TESTS_FLAG | IMPACT_FLAG | DEPTH_FLAG)) | (denied & TIME_FLAG);
    const uint64_t all_denied =
        (shallow | brief_or_denied) & (TESTS_FLAG | CEILING_FLAG | TIME_FLAG | DEPTH_FLAG);
    return is_any(all_missing) + is_any(all_denied);
}

static ds_need lost_of(const ds_need need, const terms *const t, const ds_mark mark)
{
    const unsigned impact = ds_mark_impact(need);
    const bool milder = ds_depth_code(mark) < t->depth || ds_time_code(mark) < t->time;
    const uint64_t tests = (t->tests & ~mark) | (milder ? DS_WATER(8) : 0);
    const uint64_t immersion =
        tests & DS_WATER(8) ? ds_immersion_bits(ds_depth_code(need), ds_time_code(need)) : 0;
    return tests | immersion | ds_impact_bits(ds_mark_impact(mark) < impact ? impact : 0, DS_IMPACT_OPEN);
}

ds_verdict ds_mark_compare(const ds_need need, const ds_mark mark, ds_need *const lost)
{
    const terms t = terms_of(need);
    if (lost) {
        *lost = lost_of(need, &t, mark);
    }
    return (ds_verdict)judge(&t, mark);
}

/* Loops of a length that the compiler knows become vector code even where it is told to keep code small. */
enum { BLOCK = 32 };

static void compare_dry_block(const terms t, const ds_mark *restrict const marks,
                              uint8_t *restrict const verdicts)
{
    for (size_t i = 0; i < BLOCK; i++) {
        verdicts[i] = (uint8_t)judge_dry(&t, marks[i]);
    }
}

static void compare_block(const terms t, const ds_mark *restrict const marks,
                          uint8_t *restrict const verdicts)
{
    for (size_t i = 0; i < BLOCK; i++) {
        verdicts[i] = (uint8_t)judge(&t, marks[i]);
    }
}

void ds_mark_compare_many(const ds_need need, const ds_mark *const marks, const size_t count,
                          uint8_t *const verdicts)
{
    const terms t = terms_of(need);
    const size_t in_blocks = count - count % BLOCK;
    const bool is_dry = !(t.tests & DS_WATER(8));
    for (size_t i = 0; i < in_blocks; i += BLOCK) {
        if (is_dry) {
            compare_dry_block(t, marks + i, verdicts + i);
        } else {
            compare_block(t, marks + i, verdicts + i);
        }
    }
    for (size_t i = in_blocks; i < count; i++) {
        verdicts[i] = (uint8_t)judge(&t, marks[i]);
    }
}
