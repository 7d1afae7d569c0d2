/* SPDX-License-Identifier: MIT */
/*
 * Findings as papers: PDF for whoever reads it, with fonts embedded, tags, bookmarks and language; and labels.
 *
 *     ds_paper paper = {.reader = DS_READER_FITTER, .size = DS_PAPER_A4};
 *     ds_text pdf;
 *     ds_text_init(&pdf, alloc);
 *     if (ds_paper_write(&pdf, &findings, &paper) == DS_OK) … write the bytes …
 *
 * The same findings and options give the same bytes, as long as fonts and libraries are the same. Nothing here judges:
 * every sentence comes from assess/say.h or says how to read the paper.
 */
#ifndef DS_PAPER_PAPER_H
#define DS_PAPER_PAPER_H

#include "core/assess/differ.h"

typedef enum ds_reader_kind {
    DS_READER_ALL,
    DS_READER_CLIENT,
    DS_READER_FITTER,
    DS_READER_BUYER,
    DS_READER_INSPECTOR,
    DS_READERS_LEN
} ds_reader_kind;

/* "all", "client", "fitter", "buyer", "inspector" */
const char *ds_reader_word(ds_reader_kind reader);

typedef enum ds_paper_size { DS_PAPER_A4, DS_PAPER_LETTER } ds_paper_size;

typedef struct ds_paper {
    ds_reader_kind reader;
    ds_paper_size size;
} ds_paper;

/* Appends the PDF. DS_NO_MEMORY: memory was short, or cairo failed. */
ds_status ds_paper_write(ds_text *out, const ds_findings *findings, const ds_paper *paper);

/* What changed between two answers, and why, point by point. */
ds_status ds_changes_write(ds_text *out, const ds_differ *differ, ds_paper_size size);

/* Sheets of labels: columns and rows of labels of one size, spread evenly over the sheet. */
typedef struct ds_label_sheet {
    ds_paper_size size;
    unsigned columns, rows;
    double width_mm, height_mm; /* of a label */
    double left_mm, top_mm;     /* of the first label; NAN: the grid stands in the middle of the sheet */
    double gap_x_mm, gap_y_mm;  /* between labels; NAN: what is left, at most 3 mm */
    unsigned skip;              /* labels of the first sheet that are used up */
} ds_label_sheet;

/* A point may stand on at most this many labels in all. */
enum { DS_LABELS_MOST = 100000 };

/* Why a sheet cannot be: it does not fit the paper, or a label is too small; NULL when it can. */
const char *ds_label_sheet_fault(const ds_label_sheet *sheet);

/* One label a piece, in the order of the schedule. DS_BAD_INPUT: more than DS_LABELS_MOST, or a faulty sheet. */
ds_status ds_labels_write(ds_text *out, const ds_findings *findings, const ds_label_sheet *sheet);

#endif
