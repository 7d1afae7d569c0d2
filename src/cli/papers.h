/* SPDX-License-Identifier: MIT */
/* What the commands that write papers and sheets share. */
#ifndef DS_CLI_PAPERS_H
#define DS_CLI_PAPERS_H

#include "cli/assessed.h"
#include "paper/words.h"

/* Loads what sets papers and books; false when it was said why it cannot be. Before any call of paper.h that writes. */
bool ds_papers_ready(ds_host *host);

/* Reads --for, all without; false when it was said what is wrong. */
bool ds_papers_read_reader(ds_reader_kind *out, ds_host *host, const ds_args *args);

/* Reads --size; false when it was said what is wrong. */
bool ds_papers_read_size(ds_paper_size *out, ds_host *host, const ds_args *args);

/* Writes what was set to the file of --output, "-" for standard output; returns the exit status. */
int ds_papers_put(ds_host *host, const ds_args *args, ds_status status, const ds_text *file);

#endif
