/* SPDX-License-Identifier: MIT */
/*
 * Decimal text to double without the C library, correctly rounded (to the nearest, a half to even), so that every
 * build and every other reader of JSON takes a number for the same value.
 *
 * Up to 15 digits with a power of ten up to 22 are one exact product or quotient: both operands are doubles without
 * error, so IEEE 754 rounds once (W. D. Clinger, How to read floating point numbers accurately, 1990). All else goes
 * the slow way: the digits are doubled or halved exactly until 53 bits stand before the point.
 */
#include "core/json/decimal.h"
#include "core/json/json.h"

#include <float.h>

_Static_assert(DBL_MANT_DIG == 53 && DBL_MAX_EXP == 1024, "double must be IEEE 754 binary64");

enum { FEW_DIGITS = 15, EXACT_POWER = 22, FAR = 100000 };

/* Places of the parts of a number in its text; exponent is held within ±FAR². */
typedef struct parts {
    bool negative;
    ds_str whole;
    ds_str fraction;
    int64_t exponent;
} parts;

static ds_str take_digits(ds_str *const rest)
{
    ds_str digits = {rest->at, 0};
    while (digits.len < rest->len && rest->at[digits.len] >= '0' && rest->at[digits.len] <= '9') {
        digits.len++;
    }
    *rest = ds_str_from(*rest, digits.len);
    return digits;
}

static bool take_char(ds_str *const rest, const char a, const char b)
{
    const bool found = rest->len && (rest->at[0] == a || rest->at[0] == b);
    *rest = ds_str_from(*rest, found);
    return found;
}

/* Beyond FAR the digits no longer matter: it stays far beyond any double unless as many zeros make up for it. */
static int64_t exponent_of(const ds_str digits, const bool negative)
{
    const int64_t most = (int64_t)FAR * FAR;
    int64_t value = 0;
    for (size_t i = 0; i < digits.len && value < most; i++) {
        value = value * 10 + (digits.at[i] - '0');
    }
    return negative ? -value : value;
}

static bool split(ds_str text, parts *const out)
{
    *out = (parts){.negative = take_char(&text, '-', '-')};
    out->whole = take_digits(&text);
    if (out->whole.len == 0 || (out->whole.len > 1 && out->whole.at[0] == '0')) {
        return false;
    }
    if (take_char(&text, '.', '.')) {
        out->fraction = take_digits(&text);
        if (out->fraction.len == 0) {
            return false;
        }
    }
    if (take_char(&text, 'e', 'E')) {
        const bool negative = take_char(&text, '-', '-');
        if (!negative) {
            take_char(&text, '+', '+');
        }
        const ds_str digits = take_digits(&text);
        out->exponent = exponent_of(digits, negative);
        if (digits.len == 0) {
            return false;
        }
    }
    return text.len == 0;
}

static void push_digits(ds_decimal *const d, const ds_str digits)
{
    for (size_t i = 0; i < digits.len; i++) {
        if (d->len || digits.at[i] != '0') {
            ds_decimal_push(d, (unsigned)(digits.at[i] - '0'));
        }
    }
}

static size_t zeros_at_start(const ds_str digits)
{
    size_t n = 0;
    while (n < digits.len && digits.at[n] == '0') {
        n++;
    }
    return n;
}

/* The power of ten in front of which the number is 0.d1d2…, held within ±FAR. */
static int point_of(const parts *const p)
{
    const bool small = p->whole.at[0] == '0';
    int64_t point = p->exponent;
    point += small ? -(int64_t)zeros_at_start(p->fraction) : (int64_t)p->whole.len;
    return (int)(point > FAR ? FAR : point < -FAR ? -FAR : point);
}

static void to_decimal(const parts *const p, ds_decimal *const d)
{
    d->len = 0;
    d->more = false;
    d->point = point_of(p);
    push_digits(d, p->whole);
    push_digits(d, p->fraction);
    ds_decimal_trim(d);
}

/* True when the digits and the power of ten are both doubles without error. */
static bool read_short(const ds_decimal *const d, double *const out)
{
    static const double POWERS[EXACT_POWER + 1] = {1e0,  1e1,  1e2,  1e3,  1e4,  1e5,  1e6,  1e7,
                                                   1e8,  1e9,  1e10, 1e11, 1e12, 1e13, 1e14, 1e15,
                                                   1e16, 1e17, 1e18, 1e19, 1e20, 1e21, 1e22};
    const int power = d->point - d->len;
    if (d->len > FEW_DIGITS || power < -EXACT_POWER || power > EXACT_POWER) {
        return false;
    }
    int64_t digits = 0;
    for (int i = 0; i < d->len; i++) {
        digits = digits * 10 + d->digit[i];
    }
    *out = power < 0 ? (double)digits / POWERS[-power] : (double)digits * POWERS[power];
    return true;
}

/* Steps towards a number between a half and one: ten to the power of n is at least two to the power of 3 n. */
static int step(const int digits)
{
    return digits > 18 ? 60 : digits * 3;
}

/* Shifts d until it lies from a half up to one; returns the power of two that was taken out. */
static int take_out_power(ds_decimal *const d)
{
    int power = 0;
    while (d->point > 0) {
        const int bits = step(d->point);
        ds_decimal_shift(d, -bits);
        power += bits;
    }
    while (d->point < 0 || d->digit[0] < 5) {
        const int bits = d->point < 0 ? step(-d->point) : 1;
        ds_decimal_shift(d, bits);
        power -= bits;
    }
    return power;
}

static double from_bits(const uint64_t bits)
{
    double value;
    memcpy(&value, &bits, sizeof value);
    return value;
}

/* d, not zero, as a double; infinity when it is too large. */
static double read_long(ds_decimal *const d)
{
    enum { BITS = DBL_MANT_DIG, LEAST = DBL_MIN_EXP };
    if (d->point < -330) {
        return 0;
    }
    if (d->point > 310) {
        return from_bits((uint64_t)0x7FF << 52);
    }
    const int power = take_out_power(d);
    const int exponent = power < LEAST ? LEAST : power; /* below LEAST the bits get fewer */
    const int lost = exponent - power;
    ds_decimal_shift(d, lost < 2 * BITS ? BITS - lost : -BITS);
    const uint64_t bits = ds_decimal_round(d);
    /* The hidden bit, when there, adds one to the exponent's field; so does rounding up to the next power. */
    const uint64_t field = (uint64_t)(exponent - LEAST);
    if (field >= 2046 || (field << 52) + bits >= (uint64_t)0x7FF << 52) {
        return from_bits((uint64_t)0x7FF << 52);
    }
    return from_bits((field << 52) + bits);
}

bool ds_number_read(const ds_str text, double *const out)
{
    parts p;
    if (!split(text, &p)) {
        return false;
    }
    ds_decimal d;
    to_decimal(&p, &d);
    double value = 0;
    if (d.len && !read_short(&d, &value)) {
        value = read_long(&d);
    }
    *out = p.negative ? -value : value;
    return value <= DBL_MAX;
}
