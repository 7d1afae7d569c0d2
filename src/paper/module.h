/* SPDX-License-Identifier: MIT */
/*
 * Papers as a module that the program loads when one is asked for: their libraries take longer to load than most answers
 * take to give. The module exports one table; the program forwards the calls of paper.h and sheet_xlsx.h to it.
 */
#ifndef DS_PAPER_MODULE_H
#define DS_PAPER_MODULE_H

#include "paper/paper.h"
#include "paper/sheet_xlsx.h"

#define DS_PAPER_MODULE_FILE "dripstone-paper.so" /* beside the program */
#define DS_PAPER_MODULE_TABLE "DS_PAPER_TABLE"

typedef struct ds_paper_table {
    const char *version; /* of the program that it was built with; another one's structs may differ */
    ds_status (*paper)(ds_text *out, const ds_findings *findings, const ds_paper *paper);
    ds_status (*changes)(ds_text *out, const ds_differ *differ, ds_paper_size size);
    ds_status (*labels)(ds_text *out, const ds_findings *findings, const ds_label_sheet *sheet);
    ds_xlsx_status (*xlsx)(ds_text *out, const ds_findings *findings, ds_reader_kind reader);
} ds_paper_table;

#endif
