/* SPDX-License-Identifier: MIT */
/*
 * A text that grows. It remembers a failure: append as often as you like and ask ds_text_ok once at the end.
 *
 *     ds_text text;
 *     ds_text_init(&text, alloc);
 *     ds_text_add(&text, "needed ");
 *     ds_text_int(&text, 4);
 *     if (!ds_text_ok(&text)) … out of memory …
 *     ds_text_free(&text);
 */
#ifndef DS_BASE_TEXT_H
#define DS_BASE_TEXT_H

#include "core/base/arena.h"
#include "core/base/str.h"

#include <stdint.h>

typedef struct ds_text {
    const ds_alloc *alloc; /* borrowed */
    char *at;              /* owned; not ended by a zero byte */
    size_t len;
    size_t room; /* private */
    bool failed; /* private */
} ds_text;

void ds_text_init(ds_text *text, const ds_alloc *alloc);
void ds_text_free(ds_text *text);

/* False once any append ran out of memory. */
bool ds_text_ok(const ds_text *text);

/* What stands in the text so far; borrowed until the next append. */
ds_str ds_text_str(const ds_text *text);

void ds_text_bytes(ds_text *text, const char *at, size_t len);
void ds_text_add(ds_text *text, const char *literal);
void ds_text_adds(ds_text *text, ds_str piece);
void ds_text_char(ds_text *text, char c);
void ds_text_repeat(ds_text *text, const char *literal, size_t times);
void ds_text_int(ds_text *text, int64_t value);

/*
 * A number with at most `decimals` (0..9) digits after the point, rounded half away from zero, zeros at the end cut:
 * 2.50 -> "2.5", 3.00 -> "3". "?" when the value is not finite or its size is 1e15 or more.
 */
void ds_text_number(ds_text *text, double value, int decimals);

#endif
