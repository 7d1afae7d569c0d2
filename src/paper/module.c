/* SPDX-License-Identifier: MIT */
#include "paper/module.h"

extern const ds_paper_table DS_PAPER_TABLE;

__attribute__((visibility("default"))) const ds_paper_table DS_PAPER_TABLE = {.version = DS_PROGRAM_VERSION,
                                                                              .paper = ds_paper_write,
                                                                              .changes = ds_changes_write,
                                                                              .labels = ds_labels_write,
                                                                              .xlsx = ds_xlsx_write};
