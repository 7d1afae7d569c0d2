/* SPDX-License-Identifier: MIT */
/*
 * Setting lines. Clean text has no control characters, so a change of style can stand in the line as one of them: byte
 * 1 + style. It takes no column, and becomes a colour only on the way out. A blank that must not break is another.
 */
#include "cli/page.h"

#include <stdlib.h>
#include <sys/ioctl.h>
#include <unistd.h>

enum { WIDTH_DEFAULT = 80, WIDTH_MOST = 100, WIDTH_LEAST = 40 };

/* In the line being set, a blank that holds its neighbours together. */
static const char GLUE = 0x1F;

/* First strong isolate and its end (U+2068, U+2069), put round names so that right-to-left ones keep to themselves. */
static const char ISOLATE[] = {(char)0xE2, (char)0x81, (char)0xA8, 0};
static const char ISOLATE_END[] = {(char)0xE2, (char)0x81, (char)0xA9, 0};

/* --- opening ------------------------------------------------------------------------------------------------------ */

static int width_of_terminal(void)
{
    struct winsize size;
    const char *const columns = getenv("COLUMNS");
    const long stated = columns ? strtol(columns, NULL, 10) : 0;
    if (stated > 0) {
        return stated > WIDTH_MOST ? WIDTH_MOST : (int)stated;
    }
    if (isatty(STDOUT_FILENO) && ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_col > 0) {
        return size.ws_col;
    }
    return WIDTH_DEFAULT;
}

static bool wants_colour(const ds_args *const args)
{
    const ds_str asked = ds_args_value(args, "colour");
    if (ds_str_is(asked, "always") || ds_str_is(asked, "never")) {
        return ds_str_is(asked, "always");
    }
    const char *const no_colour = getenv("NO_COLOR");
    const char *const term = getenv("TERM");
    const bool dumb = !term || strcmp(term, "dumb") == 0;
    return isatty(STDOUT_FILENO) && !dumb && !(no_colour && *no_colour);
}

void ds_page_open(ds_page *const page, ds_host *const host, const ds_args *const args)
{
    const int width = width_of_terminal();
    *page = (ds_page){.host = host,
                      .width = width < WIDTH_LEAST  ? WIDTH_LEAST
                               : width > WIDTH_MOST ? WIDTH_MOST
                                                    : width,
                      .ascii = host->ascii || ds_args_has(args, "ascii"),
                      .colour = wants_colour(args)};
    ds_text_init(&page->line, host->alloc);
    ds_text_init(&page->clean, host->alloc);
}

void ds_page_close(ds_page *const page)
{
    if (!ds_text_ok(&page->line) || !ds_text_ok(&page->clean)) {
        page->host->out.failed = true;
    }
    ds_text_free(&page->line);
    ds_text_free(&page->clean);
}

/* --- clean text --------------------------------------------------------------------------------------------------- */

/* Hebrew, Arabic and their kin, by the first bytes of their UTF-8. */
static bool runs_right_to_left(const ds_str clean)
{
    for (size_t i = 0; i + 1 < clean.len; i++) {
        const unsigned char a = (unsigned char)clean.at[i];
        const unsigned char b = (unsigned char)clean.at[i + 1];
        if ((a >= 0xD6 && a <= 0xDF && (a > 0xD6 || b >= 0x90)) || (a == 0xE0 && b <= 0xA3) ||
            (a == 0xEF && b >= 0xAC && b <= 0xBB)) {
            return true;
        }
    }
    return false;
}

/* Cleans into page->clean. Right-to-left text is isolated, so that it can't reorder what stands beside it. */
static ds_str clean_of(ds_page *const page, const ds_str words)
{
    page->clean.len = 0;
    ds_clean(&page->clean, words, page->ascii);
    if (!page->ascii && runs_right_to_left(ds_text_str(&page->clean))) {
        page->clean.len = 0;
        ds_text_add(&page->clean, ISOLATE);
        ds_clean(&page->clean, words, false);
        ds_text_add(&page->clean, ISOLATE_END);
    }
    return ds_text_str(&page->clean);
}

static bool is_style(const char c)
{
    return c >= 1 && c <= DS_STYLES;
}

static int columns_of(const ds_str clean)
{
    int columns = 0;
    for (size_t at = 0, len = 1; at < clean.len; at += len) {
        if (is_style(clean.at[at])) {
            len = 1;
        } else {
            columns += ds_char_columns(ds_str_from(clean, at), &len);
        }
    }
    return columns;
}

int ds_page_columns(ds_page *const page, const ds_str words)
{
    return columns_of(clean_of(page, words));
}

void ds_page_add(ds_page *const page, const ds_style style, const char *const words)
{
    ds_page_adds(page, style, ds_str_of(words));
}

void ds_page_adds(ds_page *const page, const ds_style style, const ds_str words)
{
    ds_text_char(&page->line, (char)(1 + style));
    ds_text_adds(&page->line, clean_of(page, words));
}

void ds_page_glue(ds_page *const page)
{
    ds_text_char(&page->line, GLUE);
}

int ds_page_line_columns(const ds_page *const page)
{
    return columns_of(ds_text_str(&page->line));
}

/* --- out ---------------------------------------------------------------------------------------------------------- */

static void put_style(ds_page *const page, const ds_style style, ds_style *const now)
{
    static const char *const CODES[DS_STYLES] = {
        [DS_PLAIN] = "",       [DS_STRONG] = "\x1b[1m",   [DS_QUIET] = "\x1b[2m", [DS_GOOD] = "\x1b[32m",
        [DS_BAD] = "\x1b[31m", [DS_WORST] = "\x1b[1;31m", [DS_DOUBT] = "\x1b[33m"};
    if (page->colour && style != *now) {
        ds_text_add(&page->host->out, *now == DS_PLAIN ? "" : "\x1b[0m");
        ds_text_add(&page->host->out, CODES[style]);
        *now = style;
    }
}

/* Bytes of the next word, with the blanks before it counted apart. */
static ds_str next_word(const ds_str line, size_t *const at, size_t *const blanks)
{
    *blanks = 0;
    while (*at < line.len && line.at[*at] == ' ') {
        (*at)++;
        (*blanks)++;
    }
    const size_t start = *at;
    while (*at < line.len && line.at[*at] != ' ') {
        (*at)++;
    }
    return (ds_str){line.at + start, *at - start};
}

static void put_word(ds_page *const page, const ds_str word, ds_style *const now)
{
    for (size_t i = 0; i < word.len; i++) {
        if (is_style(word.at[i])) {
            put_style(page, (ds_style)(word.at[i] - 1), now);
        } else {
            ds_text_bytes(&page->host->out, word.at[i] == GLUE ? " " : &word.at[i], 1);
        }
    }
}

static void end_row(ds_page *const page, ds_style *const now)
{
    put_style(page, DS_PLAIN, now);
    ds_text_char(&page->host->out, '\n');
    page->line.len = 0;
    ds_host_drain(page->host);
}

/* Ends a row within a line; the style is laid down for that, as pagers forget it there. */
static void turn_row(ds_page *const page, const int indent, ds_style *const now)
{
    const ds_style style = *now;
    put_style(page, DS_PLAIN, now);
    ds_text_char(&page->host->out, '\n');
    ds_text_repeat(&page->host->out, " ", (size_t)indent);
    put_style(page, style, now);
}

void ds_page_break(ds_page *const page, const int first, const int rest)
{
    ds_text *const out = &page->host->out;
    const ds_str line = ds_text_str(&page->line);
    ds_style now = DS_PLAIN;
    int column = first;
    bool fresh = true;
    size_t blanks = 0;
    ds_text_repeat(out, " ", (size_t)first);
    for (size_t at = 0, before = 0; at < line.len;) {
        const ds_str word = next_word(line, &at, &before);
        const int columns = columns_of(word);
        blanks += before;
        if (!fresh && column + (int)blanks + columns > page->width) {
            turn_row(page, rest, &now);
            column = rest;
            blanks = 0;
        }
        if (columns) { /* not blanks at the end; those before a bare change of style wait for the next word */
            ds_text_repeat(out, " ", blanks);
            column += (int)blanks + columns;
            blanks = 0;
            fresh = false;
        }
        put_word(page, word, &now);
    }
    end_row(page, &now);
}

void ds_page_gap(ds_page *const page)
{
    ds_text_char(&page->host->out, '\n');
}

/* --- tables ------------------------------------------------------------------------------------------------------- */

/* Bytes of the longest beginning that takes at most `width` columns. */
static size_t fitting(const ds_str clean, const int width)
{
    int columns = 0;
    size_t at = 0;
    for (size_t len = 1; at < clean.len; at += len) {
        columns += ds_char_columns(ds_str_from(clean, at), &len);
        if (columns > width) {
            break;
        }
    }
    return at;
}

void ds_page_cell(ds_page *const page, const ds_style style, const ds_str words, const int width)
{
    ds_str clean = clean_of(page, words);
    int columns = columns_of(clean);
    const char *const dots = columns <= width ? "" : page->ascii ? "..." : "…";
    const int dots_columns = *dots == 0 ? 0 : page->ascii ? 3 : 1;
    const bool isolated = clean.len > 3 && memcmp(clean.at, ISOLATE, 3) == 0;
    ds_text_char(&page->line, (char)(1 + style));
    if (dots_columns) {
        clean.len = fitting(clean, width - dots_columns);
        columns = columns_of(clean) + dots_columns;
    }
    ds_text_adds(&page->line, clean);
    ds_text_add(&page->line, dots_columns && isolated ? ISOLATE_END : "");
    ds_text_add(&page->line, dots);
    ds_text_repeat(&page->line, " ", columns < width ? (size_t)(width - columns) : 0);
}

void ds_page_row(ds_page *const page, const int first)
{
    ds_style now = DS_PLAIN;
    ds_str line = ds_text_str(&page->line);
    while (line.len && (line.at[line.len - 1] == ' ' || is_style(line.at[line.len - 1]))) {
        line.len--;
    }
    ds_text_repeat(&page->host->out, " ", line.len ? (size_t)first : 0);
    put_word(page, line, &now);
    end_row(page, &now);
}

/* Takes as many words off the text as fit the width; a word that is longer than that is cut. */
static ds_str take_piece(ds_str *const rest, const int width)
{
    size_t start = 0;
    while (start < rest->len && rest->at[start] == ' ') {
        start++;
    }
    const ds_str text = ds_str_from(*rest, start);
    const size_t most = fitting(text, width);
    size_t end = most;
    while (most < text.len && end > 0 && text.at[end] != ' ') {
        end--;
    }
    end = end ? end : most;
    *rest = ds_str_from(text, end);
    return (ds_str){text.at, end};
}

static void put_piece(ds_page *const page, const ds_style style, const ds_str piece, const int width)
{
    const bool turned = !page->ascii && runs_right_to_left(piece);
    const int columns = columns_of(piece);
    ds_text_char(&page->line, (char)(1 + style));
    ds_text_add(&page->line, turned ? ISOLATE : "");
    ds_text_adds(&page->line, piece);
    ds_text_add(&page->line, turned ? ISOLATE_END : "");
    ds_text_repeat(&page->line, " ",
                   columns < width + DS_WRAP_GAP ? (size_t)(width + DS_WRAP_GAP - columns) : 0);
}

/* Cleans all cells into page->clean; false when memory is short. */
static bool clean_cells(ds_page *const page, ds_str rests[DS_WRAP_CELLS], const ds_wrap *const cells,
                        const int len)
{
    size_t ends[DS_WRAP_CELLS] = {0};
    page->clean.len = 0;
    for (int i = 0; i < len; i++) {
        ds_clean(&page->clean, cells[i].words, page->ascii);
        ends[i] = page->clean.len;
    }
    for (int i = 0; i < len; i++) {
        const size_t start = i ? ends[i - 1] : 0;
        rests[i] = (ds_str){page->clean.at + start, ends[i] - start};
    }
    return ds_text_ok(&page->clean);
}

void ds_page_wrap(ds_page *const page, const int first, const ds_wrap *const cells, const int len)
{
    ds_str rests[DS_WRAP_CELLS];
    bool more = clean_cells(page, rests, cells, len);
    while (more) {
        more = false;
        for (int i = 0; i < len; i++) {
            if (cells[i].width > 0) {
                put_piece(page, cells[i].style, take_piece(&rests[i], cells[i].width), cells[i].width);
                more = more || rests[i].len > 0;
            }
        }
        ds_page_row(page, first);
    }
}
