/* SPDX-License-Identifier: MIT */
/*
 * Findings as a spreadsheet: a sheet for each reader with frozen heads, filters and numbers that are numbers, and one with
 * everything; what it goes by and the cautions on a last sheet.
 *
 *     ds_text xlsx;
 *     ds_text_init(&xlsx, alloc);
 *     if (ds_xlsx_write(&xlsx, &findings, DS_READER_ALL) == DS_XLSX_DONE) … write the bytes …
 *
 * No cell is a formula. The same findings give the same bytes, as long as the library is the same. While it is made, the
 * book lies in a file of the folder for temporary files.
 */
#ifndef DS_PAPER_SHEET_XLSX_H
#define DS_PAPER_SHEET_XLSX_H

#include "paper/paper.h"

typedef enum ds_xlsx_status {
    DS_XLSX_DONE,
    DS_XLSX_NO_MEMORY,
    DS_XLSX_TOO_LONG, /* more points than a sheet has rows */
    DS_XLSX_NO_ROOM /* the temporary file could not be made or written: a full disk, no right to the folder */
} ds_xlsx_status;

/* Appends the book: the sheet of one reader, or all of them. */
ds_xlsx_status ds_xlsx_write(ds_text *out, const ds_findings *findings, ds_reader_kind reader);

#endif
