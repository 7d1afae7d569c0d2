/* SPDX-License-Identifier: MIT */
/*
 * Several boxes side by side, in the lanes of the machine's vector registers; private to day*.c.
 *
 * The model is written for one box, as functions of plain structs of doubles without branches: a condition picks one of
 * two values that are both worked out. A loop over the lanes around such a function is what the compiler turns into
 * vector instructions. For that the structs lie field by field, DS_DAY_LANED makes both forms from one list:
 *
 *     #define FIELDS(X) X(skin_c) X(inside_c)
 *     DS_DAY_LANED(node, FIELDS)           struct node {double skin_c, inside_c;}
 *                                          struct node_lanes {double skin_c[DS_DAY_LANES], inside_c[DS_DAY_LANES];}
 *                                          node_at(&lanes, i) and node_put(&lanes, i, &node)
 *
 * The functions of numbers below have no branches either, so their last digits are the same on every machine.
 */
#ifndef DS_BOX_DAY_LANES_H
#define DS_BOX_DAY_LANES_H

#include <stdbool.h>
#include <stdint.h>
#include <string.h>

/* Where there are no vector registers a lane beside another is only work. A box by itself has the same digits with both. */
#if defined(__wasm__) && !defined(__wasm_simd128__)
enum { DS_DAY_LANES = 1 };
#else
enum { DS_DAY_LANES = 8 };
#endif

#define DS_DAY_FIELD(field) double field;
#define DS_DAY_LANE(field) double field[DS_DAY_LANES];
#define DS_DAY_GET(field) .field = lanes->field[i],
#define DS_DAY_PUT(field) lanes->field[i] = from->field;

#define DS_DAY_LANED(name, FIELDS)                                                                           \
    typedef struct name {                                                                                    \
        FIELDS(DS_DAY_FIELD)                                                                                 \
    } name; /* NOLINT(bugprone-macro-parentheses): a name to declare */                                      \
    typedef struct name##_lanes {                                                                            \
        FIELDS(DS_DAY_LANE)                                                                                  \
    } name##_lanes;                                                                                          \
    DS_DAY_INLINE name name##_at(const name##_lanes *const lanes, const int i)                               \
    {                                                                                                        \
        return (name){FIELDS(DS_DAY_GET)};                                                                   \
    }                                                                                                        \
    DS_DAY_INLINE void name##_put(name##_lanes *const lanes, const int i, const name *const from)            \
    {                                                                                                        \
        FIELDS(DS_DAY_PUT)                                                                                   \
    }

/*
 * Before a function that loops over lanes: compiled for the vector registers of 8, 4 and 2 doubles that processors of
 * this kind have, of which the widest is taken when the program starts. They all give the same digits.
 */
#if defined(__x86_64__) && defined(__linux__) && defined(__GNUC__) && !defined(__clang__) &&                 \
    defined(__OPTIMIZE__) && !defined(DS_DAY_ONE)
#define DS_DAY_WIDE __attribute__((target_clones("avx512f", "avx2", "default")))
#else
#define DS_DAY_WIDE
#endif

/* What such a function calls must end up inside its loop, whatever its size. */
#if defined(__GNUC__)
#define DS_DAY_INLINE static inline __attribute__((always_inline))
#else
#define DS_DAY_INLINE static inline
#endif

/* --- numbers ------------------------------------------------------------------------------------------------------ */

/* fmin and fmax are calls, and these need no answer for NAN. */
DS_DAY_INLINE double ds_day_less(const double a, const double b)
{
    return a < b ? a : b;
}

DS_DAY_INLINE double ds_day_more(const double a, const double b)
{
    return a > b ? a : b;
}

DS_DAY_INLINE double ds_day_from_bits(const uint64_t bits)
{
    double x;
    memcpy(&x, &bits, sizeof x);
    return x;
}

DS_DAY_INLINE uint64_t ds_day_bits_of(const double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    return bits;
}

/* e^x for x from -700 to 700, the nearer end beyond; within 3e-13 of it. Whole powers of two, and Taylor for the rest. */
DS_DAY_INLINE double ds_day_exp(const double x)
{
    const double round = 0x1.8p52; /* a number added to it ends up whole in its last bits */
    const double within = ds_day_less(ds_day_more(x, -700), 700);
    const double shifted = within * 1.4426950408889634 + round;
    const double whole = shifted - round;
    const double r = (within - whole * 0x1.62e42feep-1) - whole * 0x1.a39ef35793c76p-33;
    double sum = 1 / 3628800.0;
    sum = 1 / 362880.0 + r * sum;
    sum = 1 / 40320.0 + r * sum;
    sum = 1 / 5040.0 + r * sum;
    sum = 1 / 720.0 + r * sum;
    sum = 1 / 120.0 + r * sum;
    sum = 1 / 24.0 + r * sum;
    sum = 1 / 6.0 + r * sum;
    sum = 0.5 + r * sum;
    sum = 1 + r * (1 + r * sum);
    return sum * ds_day_from_bits((ds_day_bits_of(shifted) + 1023) << 52);
}

/*
 * The sixth root of a positive number. A sixth of its bits is a sixth of its logarithm, nearly; Halley's step cubes what
 * is missing, 4 % at first, twice.
 */
DS_DAY_INLINE double ds_day_sixth(const double x)
{
    const uint64_t sixth = ((ds_day_bits_of(x) >> 32) * UINT64_C(0x2aaaaaab)) >> 32;
    double s = ds_day_from_bits((sixth + UINT64_C(0x35476500)) << 32);
    for (int i = 0; i < 2; i++) {
        const double cube = s * s * s;
        const double power = cube * cube;
        s *= (5 * power + 7 * x) / (7 * power + 5 * x);
    }
    return s;
}

#endif
