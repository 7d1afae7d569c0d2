/* SPDX-License-Identifier: MIT */
/* Multiplying and dividing a row of digits by a power of two, as on paper. */
#include "core/json/decimal.h"

void ds_decimal_push(ds_decimal *const d, const unsigned digit)
{
    if (d->len < DS_DECIMAL_DIGITS) {
        d->digit[d->len++] = (uint8_t)digit;
    } else if (digit) {
        d->more = true;
    }
}

void ds_decimal_trim(ds_decimal *const d)
{
    while (d->len && d->digit[d->len - 1] == 0) {
        d->len--;
    }
    if (!d->len) {
        d->point = 0;
    }
}

void ds_decimal_set(ds_decimal *const d, const uint64_t value)
{
    uint64_t power = 1;
    int len = 1;
    while (value / power >= 10) {
        power *= 10;
        len++;
    }
    d->len = 0;
    d->more = false;
    d->point = len;
    for (; power; power /= 10) {
        ds_decimal_push(d, (unsigned)(value / power % 10));
    }
    ds_decimal_trim(d);
}

/*
 * Long division from the left. `rest` is what is carried along: it stays below 10 * 2^bits. Digits are written behind
 * the place from which they are read, so the row is its own target.
 */
static void divide(ds_decimal *const d, const int bits)
{
    const int len = d->len;
    const uint64_t mask = ((uint64_t)1 << bits) - 1;
    uint64_t rest = 0;
    int read = 0;
    while (rest >> bits == 0) {
        rest = rest * 10 + (read < len ? d->digit[read] : 0U);
        read++;
    }
    d->point -= read - 1;
    d->len = 0;
    while (rest || read < len) {
        ds_decimal_push(d, (unsigned)(rest >> bits));
        rest = (rest & mask) * 10 + (read < len ? d->digit[read] : 0U);
        read++;
    }
    ds_decimal_trim(d);
}

/* Digits by which a factor of 2^bits can lengthen a number: more than bits * log10(2). */
static int growth(const int bits)
{
    return bits * 1233 / 4096 + 1;
}

static void set_digit(ds_decimal *const d, const int at, const unsigned digit)
{
    if (at < DS_DECIMAL_DIGITS) {
        d->digit[at] = (uint8_t)digit;
    } else if (digit) {
        d->more = true;
    }
}

/* Multiplication from the right; the carry stays below 2^bits. */
static void multiply(ds_decimal *const d, const int bits)
{
    int write = d->len + growth(bits);
    const int end = write;
    uint64_t carry = 0;
    for (int read = d->len - 1; read >= 0; read--) {
        carry += (uint64_t)d->digit[read] << bits;
        set_digit(d, --write, (unsigned)(carry % 10));
        carry /= 10;
    }
    const int first_len = growth(bits);
    while (carry) {
        set_digit(d, --write, (unsigned)(carry % 10));
        carry /= 10;
    }
    d->point += first_len - write;
    d->len = 0;
    for (int i = write; i < end && i < DS_DECIMAL_DIGITS; i++) {
        d->digit[d->len++] = d->digit[i];
    }
    ds_decimal_trim(d);
}

void ds_decimal_shift(ds_decimal *const d, const int bits)
{
    if (d->len && bits < 0) {
        divide(d, -bits);
    } else if (d->len && bits > 0) {
        multiply(d, bits);
    }
}

/* True when what stands behind the point is over a half, or is a half and the whole number is odd. */
static bool rounds_up(const ds_decimal *const d, const uint64_t whole)
{
    if (d->point < 0 || d->point >= d->len) {
        return false;
    }
    const bool is_half = d->digit[d->point] == 5 && d->point + 1 == d->len && !d->more;
    return is_half ? whole % 2 : d->digit[d->point] >= 5;
}

uint64_t ds_decimal_round(const ds_decimal *const d)
{
    uint64_t whole = 0;
    for (int i = 0; i < d->point; i++) {
        whole = whole * 10 + (i < d->len ? d->digit[i] : 0U);
    }
    return whole + rounds_up(d, whole);
}
