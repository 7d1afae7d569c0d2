/* SPDX-License-Identifier: MIT */
/*
 * Tables as spreadsheets save them: RFC 4180 with comma, semicolon or tab between cells, read row by row.
 *
 *     ds_csv csv;
 *     ds_csv_open(&csv, source, &arena);
 *     ds_str cells[DS_CSV_COLUMNS];
 *     size_t len;
 *     while (ds_csv_row(&csv, cells, &len, &problem) == DS_OK && len) … csv.row is the row's number …
 *
 * Cells are UTF-8. They point into the source, those with doubled quotes into the arena. A cell in quotes may hold
 * separators and line ends; rows end with \r\n, \n or \r; a byte order mark at the start is skipped. What stands most often in
 * the first row outside quotes is the separator. Rows are counted from 1 as the spreadsheet counts them: empty ones
 * are passed over and still count.
 *
 * What is refused, with row and column: UTF-16 and Latin-1, a zero byte, a quote that is never closed or stands where
 * none may, a cell longer than a spreadsheet's longest, more columns than DS_CSV_COLUMNS.
 */
#ifndef DS_JOB_CSV_H
#define DS_JOB_CSV_H

#include "core/base/problem.h"

enum { DS_CSV_COLUMNS = 256, DS_CSV_CELL = 32767 }; /* columns of a row, bytes of a cell */

typedef struct ds_csv {
    ds_str text;     /* behind the byte order mark */
    ds_arena *arena; /* borrowed */
    size_t at;       /* private: the next byte */
    uint32_t row;    /* of the row read last, from 1 */
    char separator;  /* ',', ';' or '\t' */
} ds_csv;

void ds_csv_open(ds_csv *out, ds_str source, ds_arena *arena);

/*
 * The next row that is not empty; *len is 0 after the last. DS_BAD_INPUT fills *problem, whose line and column are row and
 * column of the cell; the rest cannot be read then.
 */
ds_status ds_csv_row(ds_csv *csv, ds_str cells[DS_CSV_COLUMNS], size_t *len, ds_problem *problem);

/*
 * A cell that begins with = + - @, a tab or a return could run as a formula in a spreadsheet. Written, it gets an
 * apostrophe in front; so does one that would otherwise look as if it had got one. Read, that apostrophe is taken away.
 */
bool ds_csv_needs_apostrophe(ds_str cell);
bool ds_csv_has_apostrophe(ds_str cell);

#endif
