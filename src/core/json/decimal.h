/* SPDX-License-Identifier: MIT */
/*
 * Inside json/: a decimal number of many digits that can be doubled and halved exactly. Slow and obvious; used where
 * a double's 53 bits do not tell the whole truth.
 */
#ifndef DS_JSON_DECIMAL_H
#define DS_JSON_DECIMAL_H

#include <stdbool.h>
#include <stdint.h>

/* No double needs more than 767 digits to say which side of a half it lies on; more are kept as "and something". */
enum { DS_DECIMAL_DIGITS = 800 };

/* 0.d1 d2 d3 … times ten to the power of point. The last digit is not 0; len 0 is zero. */
typedef struct ds_decimal {
    int len;
    int point;
    bool more; /* digits other than 0 were cut off */
    uint8_t digit[DS_DECIMAL_DIGITS];
} ds_decimal;

/* Sets d to a whole number. */
void ds_decimal_set(ds_decimal *d, uint64_t value);

/* Times two to the power of bits, -60 to 60. */
void ds_decimal_shift(ds_decimal *d, int bits);

/* The nearest whole number, a half to the even one; the value must be below 10 to the power of 18. */
uint64_t ds_decimal_round(const ds_decimal *d);

/* Appends one digit; the point stays. */
void ds_decimal_push(ds_decimal *d, unsigned digit);

/* Cuts zeros at the end. */
void ds_decimal_trim(ds_decimal *d);

#endif
