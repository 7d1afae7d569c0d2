/* SPDX-License-Identifier: MIT */
/*
 * A page of text for a terminal: width, colour or none, Unicode or plain ASCII, and the few forms that answers are set
 * in. Everything that comes from a document or a command line passes ds_clean, so no byte of it can steer a terminal.
 *
 *     ds_page page;
 *     ds_page_open(&page, host, args);
 *     ds_page_say(&page, DS_PLAIN, "needed ", needed);      … pieces of the line being set
 *     ds_page_break(&page, 2, 4);                            … set it: first line at column 2, the others at 4
 */
#ifndef DS_CLI_PAGE_H
#define DS_CLI_PAGE_H

#include "cli/args.h"
#include "core/draw/rungs_words.h"

typedef enum ds_style {
    DS_PLAIN,
    DS_STRONG,
    DS_QUIET,
    DS_GOOD,
    DS_BAD,
    DS_WORST,
    DS_DOUBT,
    DS_STYLES
} ds_style;

typedef struct ds_page {
    ds_host *host;
    ds_text line;  /* the line being set: clean, with changes of style as bytes 1 + style */
    ds_text clean; /* scratch */
    int width;     /* columns, 40..100 */
    bool ascii, colour;
} ds_page;

/* Reads --ascii, --colour, the locale, NO_COLOR, COLUMNS and the terminal. */
void ds_page_open(ds_page *page, ds_host *host, const ds_args *args);
void ds_page_close(ds_page *page);

/* --- the line being set ------------------------------------------------------------------------------------------- */

void ds_page_add(ds_page *page, ds_style style, const char *words);
void ds_page_adds(ds_page *page, ds_style style, ds_str words);

/* A blank at which the line is never broken. */
void ds_page_glue(ds_page *page);

/* Columns of the line being set, so far. */
int ds_page_line_columns(const ds_page *page);

/* Wraps the line to the width and starts a new one: the first row begins at column `first`, further ones at `rest`. */
void ds_page_break(ds_page *page, int first, int rest);

/* An empty row. */
void ds_page_gap(ds_page *page);

/* --- tables ------------------------------------------------------------------------------------------------------- */

/* Columns that a text takes once it is clean. */
int ds_page_columns(ds_page *page, ds_str words);

/* One cell, cut to its width with an ellipsis or filled up; and the end of a row (blanks at its end are dropped). */
void ds_page_cell(ds_page *page, ds_style style, ds_str words, int width);
void ds_page_row(ds_page *page, int first);

/* A row whose cells are wrapped within their widths, as many lines as the longest takes. Columns of width 0 are left out. */
enum { DS_WRAP_CELLS = 6, DS_WRAP_GAP = 2 };
typedef struct ds_wrap {
    ds_str words; /* any text, borrowed */
    ds_style style;
    int width;
} ds_wrap;
void ds_page_wrap(ds_page *page, int first, const ds_wrap *cells, int len);

/* --- the house's forms -------------------------------------------------------------------------------------------- */

enum { DS_VERDICT_COLUMNS = 11 };

/* Shape and word of a verdict in its style, filled up to DS_VERDICT_COLUMNS: "▲ short    ". */
void ds_page_verdict(ds_page *page, ds_verdict verdict);
ds_style ds_verdict_style(ds_verdict verdict);

/* A shape of the house's own, already in the right characters. */
void ds_page_shape(ds_page *page, ds_style style, const char *shape);

/* The rung picture, indented; and its one line form into the line being set, bare or with the ladders' names. */
void ds_page_rungs(ds_page *page, const ds_rungs *rungs, int indent);
void ds_page_rungs_line(ds_page *page, const ds_rungs *rungs);
void ds_page_rungs_named(ds_page *page, const ds_rungs *rungs);

/* --- text --------------------------------------------------------------------------------------------------------- */

bool ds_locale_is_utf8(void);

/*
 * Appends text with what could steer a terminal made visible: controls, direction overrides and broken UTF-8 become a
 * replacement sign, tabs and line ends a blank. ascii: well-known signs are spelt out, others become \uXXXX.
 */
void ds_clean(ds_text *out, ds_str text, bool ascii);

/* Columns of one character; the length of the character at text.at in bytes goes to *len. */
int ds_char_columns(ds_str text, size_t *len);

#endif
