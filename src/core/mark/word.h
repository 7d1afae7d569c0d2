/* SPDX-License-Identifier: MIT */
/*
 * The fields of the word that hold figures, and what numerals imply: private to mark/. The tests are named in
 * mark.h.
 */
#ifndef DS_MARK_WORD_H
#define DS_MARK_WORD_H

#include "core/mark/immersion.h"
#include "core/mark/mark.h"

/* Lowest bits of the fields. */
enum {
    DS_DENIED_AT = DS_TEST_COUNT,
    DS_IMPACT_AT = 38,
    DS_CEILING_AT = 42,
    DS_DEPTH_AT = 46,
    DS_TIME_AT = 56
};

static inline unsigned ds_depth_code(const uint64_t word)
{
    return (unsigned)(word >> DS_DEPTH_AT & DS_DEPTH_BEYOND);
}

static inline unsigned ds_time_code(const uint64_t word)
{
    return (unsigned)(word >> DS_TIME_AT);
}

static inline uint64_t ds_impact_bits(const unsigned proven, const unsigned ceiling)
{
    return (uint64_t)proven << DS_IMPACT_AT | (uint64_t)ceiling << DS_CEILING_AT;
}

static inline uint64_t ds_immersion_bits(const unsigned depth, const unsigned time)
{
    return (uint64_t)depth << DS_DEPTH_AT | (uint64_t)time << DS_TIME_AT;
}

/* The access letter that a first numeral implies; 0 for 0 and for X (-1). */
static inline char ds_implied_letter(const int objects)
{
    static const char LETTERS[] = {0, 'A', 'B', 'C', 'D', 'D', 'D'};
    return (char)(objects >= 0 && objects <= DS_OBJECTS_LEN ? LETTERS[objects] : '\0');
}

#endif
