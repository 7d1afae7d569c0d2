/* SPDX-License-Identifier: MIT */
/* The growing text: doubles its room, keeps a failure until it is asked about. */
#include "core/base/text.h"

#include <math.h>

enum { MOST_DECIMALS = 9 };

void ds_text_init(ds_text *const text, const ds_alloc *const alloc)
{
    *text = (ds_text){.alloc = alloc};
}

void ds_text_free(ds_text *const text)
{
    if (text->at) {
        text->alloc->resize(text->alloc->ctx, text->at, text->room, 0);
    }
    *text = (ds_text){.alloc = text->alloc};
}

bool ds_text_ok(const ds_text *const text)
{
    return !text->failed;
}

ds_str ds_text_str(const ds_text *const text)
{
    return (ds_str){text->at, text->len};
}

static bool make_room(ds_text *const text, const size_t more)
{
    if (text->failed || more > SIZE_MAX / 4 - text->len) {
        text->failed = true;
        return false;
    }
    if (text->room - text->len >= more) {
        return true;
    }
    size_t room = text->room ? text->room * 2 : 256;
    while (room < text->len + more) {
        room *= 2;
    }
    char *const at = text->alloc->resize(text->alloc->ctx, text->at, text->room, room);
    if (!at) {
        text->failed = true;
        return false;
    }
    text->at = at;
    text->room = room;
    return true;
}

void ds_text_bytes(ds_text *const text, const char *const at, const size_t len)
{
    if (len && make_room(text, len)) {
        memcpy(text->at + text->len, at, len);
        text->len += len;
    }
}

void ds_text_add(ds_text *const text, const char *const literal)
{
    ds_text_bytes(text, literal, strlen(literal));
}

void ds_text_adds(ds_text *const text, const ds_str piece)
{
    ds_text_bytes(text, piece.at, piece.len);
}

void ds_text_char(ds_text *const text, const char c)
{
    ds_text_bytes(text, &c, 1);
}

void ds_text_repeat(ds_text *const text, const char *const literal, const size_t times)
{
    for (size_t i = 0; i < times; i++) {
        ds_text_add(text, literal);
    }
}

void ds_text_int(ds_text *const text, const int64_t value)
{
    char digits[24];
    size_t at = sizeof digits;
    uint64_t rest = value < 0 ? 0 - (uint64_t)value : (uint64_t)value;
    do {
        digits[--at] = (char)('0' + rest % 10);
        rest /= 10;
    } while (rest);
    if (value < 0) {
        digits[--at] = '-';
    }
    ds_text_bytes(text, digits + at, sizeof digits - at);
}

static void add_fraction(ds_text *const text, int64_t fraction, int decimals)
{
    while (decimals && fraction % 10 == 0) {
        fraction /= 10;
        decimals--;
    }
    if (!decimals) {
        return;
    }
    char digits[MOST_DECIMALS + 1] = {'.'};
    for (int i = decimals; i > 0; i--) {
        digits[i] = (char)('0' + fraction % 10);
        fraction /= 10;
    }
    ds_text_bytes(text, digits, (size_t)decimals + 1);
}

/*
 * fraction * scale to the nearest whole number, a half upwards, decided on the exact product: fma gives what the
 * multiplication rounded away.
 */
static int64_t rounded_product(const double fraction, const double scale)
{
    const double product = fraction * scale;
    const double below = floor(product);
    const double rest = product - below;
    const bool up = rest > 0.5 || (rest == 0.5 && fma(fraction, scale, -product) >= 0);
    return (int64_t)below + up;
}

void ds_text_number(ds_text *const text, const double value, const int decimals)
{
    if (!isfinite(value) || fabs(value) >= 1e15) {
        ds_text_char(text, '?');
        return;
    }
    const int places = decimals < 0 ? 0 : decimals > MOST_DECIMALS ? MOST_DECIMALS : decimals;
    int64_t scale = 1;
    for (int i = 0; i < places; i++) {
        scale *= 10;
    }
    const double size = fabs(value);
    int64_t whole = (int64_t)size;
    int64_t fraction = rounded_product(size - (double)whole, (double)scale);
    if (fraction >= scale) {
        whole++;
        fraction -= scale;
    }
    if (value < 0 && (whole || fraction)) {
        ds_text_char(text, '-');
    }
    ds_text_int(text, whole);
    add_fraction(text, fraction, places);
}
