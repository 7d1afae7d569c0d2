/* SPDX-License-Identifier: MIT */
/* What the tests of mark/ share: tables in tests/marks/, and marks and readings as text. */
#ifndef MARK_HELP_H
#define MARK_HELP_H

#include "base_alloc.h"

#include <stdio.h>

#include "core/mark/read.h"

enum { MARK_COLUMNS = 12, MARK_LINE = 600 };

typedef struct mark_row {
    char line[MARK_LINE];
    const char *at[MARK_COLUMNS];
    size_t len;
    int number;
} mark_row;

static inline void mark_row_split(mark_row *const row)
{
    row->line[strcspn(row->line, "\n")] = '\0';
    row->len = 0;
    for (char *next = row->line; next && row->len < MARK_COLUMNS;) {
        row->at[row->len++] = next;
        next = strchr(next, '\t');
        if (next) {
            *next++ = '\0';
        }
    }
}

/*
 * Calls visit for each row of tests/marks/<name> that is no comment; every row must have this many columns.
 */
static inline void mark_each_row(const char *const name, const size_t columns,
                                 void (*const visit)(const mark_row *))
{
    char path[1024];
    snprintf(path, sizeof path, "%s/marks/%s", DS_TESTS_DIR, name);
    FILE *const file = fopen(path, "r");
    assert_non_null(file);
    mark_row row = {.number = 0};
    size_t visited = 0;
    while (fgets(row.line, sizeof row.line, file)) {
        row.number++;
        assert_non_null(strchr(row.line, '\n'));
        if (row.line[0] == '#') {
            continue;
        }
        mark_row_split(&row);
        assert_int_equal(row.len, columns);
        assert_true(strlen(row.at[columns - 1]) > 3); /* the source of the row */
        visit(&row);
        visited++;
    }
    fclose(file);
    assert_true(visited > 0);
}

/* A text of a test: printed into `at`, ended by a zero byte. */
typedef struct mark_text {
    char at[1200];
} mark_text;

static inline mark_text mark_take(ds_text *const text)
{
    mark_text out;
    assert_true(ds_text_ok(text) && text->len < sizeof out.at);
    memcpy(out.at, text->at ? text->at : "", text->len);
    out.at[text->len] = '\0';
    ds_text_free(text);
    return out;
}

static inline mark_text mark_printed(const ds_mark mark)
{
    test_alloc memory = test_alloc_make(0);
    ds_text text;
    ds_text_init(&text, test_alloc_use(&memory));
    ds_mark_print(&text, mark);
    return mark_take(&text);
}

static inline mark_text mark_need_printed(const ds_need need)
{
    test_alloc memory = test_alloc_make(0);
    ds_text text;
    ds_text_init(&text, test_alloc_use(&memory));
    ds_need_print(&text, need);
    return mark_take(&text);
}

static inline mark_text mark_reading_printed(const ds_reading *const reading)
{
    test_alloc memory = test_alloc_make(0);
    ds_text text;
    ds_text_init(&text, test_alloc_use(&memory));
    ds_reading_print(&text, reading);
    return mark_take(&text);
}

static inline mark_text mark_because(const ds_reading *const reading)
{
    test_alloc memory = test_alloc_make(0);
    ds_text text;
    ds_text_init(&text, test_alloc_use(&memory));
    ds_reading_because(&text, reading);
    return mark_take(&text);
}

static inline ds_reading mark_read(const char *const text)
{
    ds_reading reading;
    ds_mark_read(ds_str_of(text), &reading);
    return reading;
}

static inline ds_need mark_need(const char *const text)
{
    ds_need need;
    ds_reading reading;
    if (!ds_need_read(ds_str_of(text), &need, &reading)) {
        fail_msg("no need: %s (%s)", text, mark_because(&reading).at);
    }
    return need;
}

#endif
