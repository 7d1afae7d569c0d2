/* SPDX-License-Identifier: MIT */
/*
 * A table that goes on over pages: its head stands again on each, a row is never split, and a group's heading never
 * stands at the foot of a page without a row.
 *
 *     static const ds_column COLUMNS[] = {{"point", 0.1, DS_TYPEFACE_STRONG}, {"name", 0.5, DS_TYPEFACE_BODY}, …};
 *     ds_table table;
 *     ds_table_open(&table, &pdf, COLUMNS, 5, cells_tagged);
 *     ds_table_group(&table, DS_STR("Kitchen"));
 *     ds_table_cell(&table, 0, DS_STR("K2")); …
 *     ds_table_note(&table, DS_STR("Not covered: water 1 to 4."));
 *     ds_table_row(&table);
 *     ds_table_close(&table);
 *
 * A cell is as many lines as it takes, at most DS_TABLE_LINES: one that is longer ends with an ellipsis.
 */
#ifndef DS_PAPER_TABLE_H
#define DS_PAPER_TABLE_H

#include "core/draw/rungs.h"
#include "paper/pdf.h"

enum { DS_TABLE_COLUMNS = 8, DS_TABLE_LINES = 26 };

typedef struct ds_column {
    const char *head;
    double share; /* of the text's width; all of a table's add up to 1 */
    ds_typeface face;
    bool blank; /* room to write in: a frame instead of text */
} ds_column;

/* A text of the next row: its layout (NULL in a dry run) and height; 0 when there is none. */
typedef struct ds_table_set {
    PangoLayout *layout;
    double height_mm;
} ds_table_set;

typedef struct ds_table {
    ds_pdf *pdf;
    const ds_column *columns;
    int columns_len;
    bool cells_tagged; /* TD for each cell, else one for a row: a file of many thousand rows stays small */
    bool open;         /* its head stands on this page */
    ds_table_set cells[DS_TABLE_COLUMNS];
    ds_table_set note;
    bool again;    /* the group goes on from the page before */
    bool ruled;    /* nothing but a heading stands above the next row */
    bool pictured; /* the next row has a picture, in this column */
    ds_rungs rungs;
    int rungs_column;
    double least_mm; /* height of a row */
    int note_column; /* where notes begin */
    ds_text group;   /* heading that waits for its first row, then that of the rows */
    bool group_waits;
} ds_table;

/* Columns are borrowed. */
void ds_table_open(ds_table *table, ds_pdf *pdf, const ds_column *columns, int columns_len,
                   bool cells_tagged);
void ds_table_close(ds_table *table);

/* The rows that follow belong under this heading. */
void ds_table_group(ds_table *table, ds_str heading);

/* Cells of the next row; one that is not given is empty. */
void ds_table_cell(ds_table *table, int column, ds_str text);
void ds_table_picture(ds_table *table, int column, const ds_rungs *rungs);

/*
 * Text below the cells, from table->note_column to the right margin. A picture left of it may stand
 * beside it, and room to write in on its right. */
void ds_table_note(ds_table *table, ds_str text);
void ds_table_row(ds_table *table);

#endif
