/* SPDX-License-Identifier: MIT */
/* What a cell of a book can hold; see sheet_text.h. */
#include "paper/sheet_text.h"

#include <math.h>
#include <stdint.h>

enum { CELL_MOST = 32767, TITLE_MOST = 200 };

/* The code points U+FFFE and U+FFFF are text, and nothing that XML may hold. */
static void replace_no_characters(ds_text *const text)
{
    for (size_t i = 0; i + 2 < text->len; i++) {
        if (memcmp(text->at + i, "\xEF\xBF", 2) == 0 && (uint8_t)text->at[i + 2] >= 0xBE) {
            text->at[i + 2] = (char)0xBD;
        }
    }
}

/* "_x0041_" in a book is the character of that number. */
static bool looks_like_escape(const ds_str text)
{
    static const char DIGITS[] = "0123456789abcdefABCDEF";
    bool looks = text.len >= 7 && text.at[0] == '_' && text.at[1] == 'x' && text.at[6] == '_';
    for (size_t i = 2; i < 6 && looks; i++) {
        looks = memchr(DIGITS, text.at[i], sizeof DIGITS - 1) != NULL;
    }
    return looks;
}

/* Text that looks like one gets its first character written so. */
static void escape_escapes(ds_text *const text)
{
    ds_text escaped;
    if (!text->len || !memchr(text->at, '_', text->len)) {
        return;
    }
    ds_text_init(&escaped, text->alloc);
    size_t done = 0;
    for (size_t i = 0; i < text->len; i++) {
        if (looks_like_escape(ds_str_from(ds_text_str(text), i))) {
            ds_text_bytes(&escaped, text->at + done, i - done);
            ds_text_add(&escaped, "_x005F");
            done = i;
        }
    }
    if (done || escaped.len) {
        ds_text_bytes(&escaped, text->at + done, text->len - done);
        text->failed = text->failed || !ds_text_ok(&escaped);
        text->len = 0;
        ds_text_adds(text, ds_text_str(&escaped));
    }
    ds_text_free(&escaped);
}

/* At most as many characters, counted in bytes: fewer, never too many. */
static void clip(ds_text *const text, const size_t most)
{
    if (text->len <= most) {
        return;
    }
    size_t len = most - 3;
    while (len && ((uint8_t)text->at[len] & 0xC0) == 0x80) {
        len--;
    }
    text->len = len;
    ds_text_add(text, "…");
}

double ds_cell_lines(const ds_str text, const double width)
{
    double lines = 0;
    double columns = 0;
    for (size_t i = 0; i < text.len; i++) {
        const uint8_t byte = (uint8_t)text.at[i];
        columns += byte < 0x80 || byte >= 0xC0;
        columns += byte >= 0xE3; /* wide ones, as of Chinese */
        if (byte == '\n') {
            lines += ceil(columns / (width * 0.9));
            columns = 0;
        }
    }
    return lines + ceil(columns / (width * 0.9));
}

void ds_cell_fit(ds_text *const text)
{
    escape_escapes(text);
    clip(text, CELL_MOST);
    replace_no_characters(text);
    ds_text_bytes(text, "", 1);
}

void ds_title_fit(ds_text *const text)
{
    clip(text, TITLE_MOST);
    replace_no_characters(text);
    for (size_t i = 0; i < text->len; i++) {
        if ((uint8_t)text->at[i] < ' ') {
            text->at[i] = ' ';
        }
    }
    ds_text_bytes(text, "", 1);
}
