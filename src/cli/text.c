/* SPDX-License-Identifier: MIT */
/*
 * Characters: how wide they are, and which of them may reach a terminal.
 *
 * Width comes from the C library's tables of the locale C.UTF-8, whatever the person's locale is, so that a page is
 * the same everywhere.
 */
#define _XOPEN_SOURCE 700 /* wcwidth; NOLINT(bugprone-reserved-identifier) */
#include "cli/page.h"

#include <langinfo.h>
#include <locale.h>
#include <wchar.h>

typedef struct spelling {
    uint32_t code;
    const char *ascii;
} spelling;

/* Signs of the trade and of typesetters. */
static const spelling SPELLINGS[] = {
    {0xA0, " "},    {0xB0, "deg "},  {0xB2, "2"},    {0xB3, "3"},    {0xB5, "u"},    {0xB7, "-"},
    {0xBD, "1/2"},  {0xD7, "x"},     {0x3A9, "ohm"}, {0x3BC, "u"},   {0x2009, " "},  {0x2010, "-"},
    {0x2011, "-"},  {0x2013, "-"},   {0x2014, "-"},  {0x2018, "'"},  {0x2019, "'"},  {0x201C, "\""},
    {0x201D, "\""}, {0x2026, "..."}, {0x202F, " "},  {0x2190, "<-"}, {0x2192, "->"}, {0x2212, "-"},
    {0x2264, "<="}, {0x2265, ">="},
};

bool ds_locale_is_utf8(void)
{
    setlocale(LC_CTYPE, "");
    const char *const codeset = nl_langinfo(CODESET);
    const bool utf8 = strcmp(codeset, "UTF-8") == 0 || strcmp(codeset, "utf8") == 0;
    setlocale(LC_CTYPE, "C.UTF-8");
    return utf8;
}

/* --- decoding ----------------------------------------------------------------------------------------------------- */

/* Bytes of the character that begins with `lead`; 0 when none does. */
static size_t length_of(const unsigned char lead)
{
    return lead < 0x80 ? 1 : lead < 0xC2 ? 0 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : lead < 0xF5 ? 4 : 0;
}

/* The first character; false with *len 1 when the bytes are broken. */
static bool decode(const ds_str text, uint32_t *const code, size_t *const len)
{
    const unsigned char lead = (unsigned char)text.at[0];
    *len = length_of(lead);
    if (*len == 0 || *len > text.len || !ds_str_is_utf8((ds_str){text.at, *len})) {
        *len = 1;
        return false;
    }
    *code = *len == 1 ? lead : lead & (0xFFU >> (*len + 1));
    for (size_t i = 1; i < *len; i++) {
        *code = *code << 6 | ((unsigned char)text.at[i] & 0x3F);
    }
    return true;
}

int ds_char_columns(const ds_str text, size_t *const len)
{
    uint32_t code = 0;
    if (!decode(text, &code, len)) {
        return 1;
    }
    const int columns = code < 0x7F ? 1 : wcwidth((wchar_t)code);
    return columns < 0 ? 1 : columns;
}

/* --- cleaning ----------------------------------------------------------------------------------------------------- */

/* Overrides and isolates could show a name as another one; single marks of direction are harmless. */
static bool turns_text(const uint32_t code)
{
    return (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
}

static bool is_blank(const uint32_t code)
{
    return code == '\t' || code == '\n' || code == '\r' || code == 0x2028 || code == 0x2029;
}

static void put_escape(ds_text *const out, const uint32_t code)
{
    static const char HEX[] = "0123456789abcdef";
    const bool long_form = code > 0xFFFF;
    ds_text_add(out, long_form ? "\\U" : "\\u");
    for (int shift = long_form ? 28 : 12; shift >= 0; shift -= 4) {
        ds_text_char(out, HEX[code >> shift & 15]);
    }
}

static void put_ascii(ds_text *const out, const uint32_t code)
{
    for (size_t i = 0; i < sizeof SPELLINGS / sizeof *SPELLINGS; i++) {
        if (SPELLINGS[i].code == code) {
            ds_text_add(out, SPELLINGS[i].ascii);
            return;
        }
    }
    put_escape(out, code);
}

static void put_character(ds_text *const out, const ds_str bytes, const uint32_t code, const bool ascii)
{
    if (is_blank(code)) {
        ds_text_char(out, ' ');
    } else if (code < 0x20 || code == 0x7F || turns_text(code) || wcwidth((wchar_t)code) < 0) {
        ds_text_add(out, ascii ? "?" : "\xEF\xBF\xBD");
    } else if (ascii && code >= 0x80) {
        put_ascii(out, code);
    } else {
        ds_text_adds(out, bytes);
    }
}

void ds_clean(ds_text *const out, const ds_str text, const bool ascii)
{
    for (size_t at = 0; at < text.len;) {
        const ds_str rest = ds_str_from(text, at);
        uint32_t code = 0;
        size_t len = 1;
        if (decode(rest, &code, &len)) {
            put_character(out, (ds_str){rest.at, len}, code, ascii);
        } else {
            ds_text_add(out, ascii ? "?" : "\xEF\xBF\xBD");
        }
        at += len;
    }
}
