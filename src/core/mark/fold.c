/* SPDX-License-Identifier: MIT */
/*
 * Any text to plain ASCII: characters that look or mean the same become one, so that everything behind this
 * file knows only one kind of blank, dash and digit. The result is never longer than the text.
 */
#include "core/mark/reader.h"

/* Code points from..to that become a piece of ASCII, at most as long as their own UTF-8. */
typedef struct likeness {
    uint32_t from, to;
    const char *plain;
} likeness;

static const likeness LIKE[] = {
    {0x00A0, 0x00A0, " "},    /* no-break space */
    {0x00B0, 0x00B0, "\x1B"}, /* degree sign */
    {0x00D7, 0x00D7, "x"},    /* times sign, met for X */
    {0x2000, 0x200A, " "},    /* spaces of all widths */
    {0x200B, 0x200D, ""},     /* zero width */
    {0x2010, 0x2015, "-"},    /* hyphens and dashes */
    {0x2018, 0x2019, "'"},    /* quotes */
    {0x201C, 0x201D, "\""},   /* quotes */
    {0x2026, 0x2026, "..."},  /* ellipsis */
    {0x202F, 0x202F, " "},    /* narrow no-break space */
    {0x2044, 0x2044, "/"},    /* fraction slash */
    {0x2103, 0x2103,
     "\x1B"
     "C"},                  /* degree Celsius */
    {0x2212, 0x2212, "-"},  /* minus */
    {0x2215, 0x2215, "/"},  /* division slash */
    {0x2265, 0x2265, ">="}, /* at least */
    {0x3000, 0x3000, " "},  /* ideographic space */
    {0xFEFF, 0xFEFF, ""},   /* byte order mark */
};

enum { LIKE_LEN = sizeof LIKE / sizeof *LIKE };

/* One character of well-formed UTF-8. */
static uint32_t next_character(const ds_str text, size_t *const at)
{
    const uint8_t *const p = (const uint8_t *)text.at + *at;
    const unsigned len = p[0] < 0x80 ? 1 : p[0] < 0xE0 ? 2 : p[0] < 0xF0 ? 3 : 4;
    uint32_t c = len == 1 ? p[0] : p[0] & (0xFFU >> (len + 1));
    for (unsigned i = 1; i < len; i++) {
        c = c << 6 | (p[i] & 0x3FU);
    }
    *at += len;
    return c;
}

static bool is_control(const uint32_t c)
{
    return c < 0x20 || (c >= 0x7F && c < 0xA0);
}

static const char *likeness_of(const uint32_t c)
{
    for (size_t i = 0; i < LIKE_LEN; i++) {
        if (c >= LIKE[i].from && c <= LIKE[i].to) {
            return LIKE[i].plain;
        }
    }
    return "\x1A";
}

static size_t put_folded(char *const out, const uint32_t c)
{
    if (c >= 0xFF01 && c <= 0xFF5E) {
        out[0] = (char)(c - 0xFF01 + '!'); /* fullwidth forms */
        return 1;
    }
    const char *const plain = likeness_of(c);
    const size_t len = strlen(plain);
    memcpy(out, plain, len);
    return len;
}

static size_t cut_blanks(char *const out, const size_t len)
{
    size_t start = 0;
    size_t end = len;
    while (start < end && out[start] == ' ') {
        start++;
    }
    while (end > start && out[end - 1] == ' ') {
        end--;
    }
    memmove(out, out + start, end - start);
    return end - start;
}

bool ds_fold(const ds_str text, char *const out, size_t *const len, bool *const typography,
             ds_reading *const reading)
{
    *typography = false;
    *len = 0;
    if (text.len > DS_MARK_TEXT_MAX) {
        return ds_note_add(reading, DS_NOTE_TOO_LONG);
    }
    if (!ds_str_is_utf8(text)) {
        return ds_note_add(reading, DS_NOTE_NOT_UTF8);
    }
    for (size_t at = 0; at < text.len;) {
        const uint32_t c = next_character(text, &at);
        if (is_control(c)) {
            return ds_note_add(reading, DS_NOTE_CONTROL);
        }
        if (c < 0x80) {
            out[(*len)++] = (char)c;
        } else {
            *typography = true;
            *len += put_folded(out + *len, c);
        }
    }
    *len = cut_blanks(out, *len);
    return true;
}
