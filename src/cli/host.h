/* SPDX-License-Identifier: MIT */
/*
 * What the commands share of the machine they run on: memory, standard output, messages, files.
 *
 * A command appends to host->out, and may call ds_host_drain when it has much to say; messages go to host->err. main
 * writes both at the end, so a command never looks at an error of writing. A closed pipe ends the output quietly; any
 * other failure (a full disk) is said and makes the exit status 2.
 */
#ifndef DS_CLI_HOST_H
#define DS_CLI_HOST_H

#include "core/base/problem.h"

enum { DS_EXIT_FINE = 0, DS_EXIT_NOT_ALL = 1, DS_EXIT_UNREADABLE = 2 };

typedef struct ds_host {
    const ds_alloc *alloc;
    ds_text out;   /* standard output, not yet written */
    ds_text err;   /* standard error, not yet written */
    bool ascii;    /* the locale is not UTF-8 */
    int out_errno; /* why writing failed, 0 not */
} ds_host;

/* realloc and free, the only place that calls them. */
const ds_alloc *ds_host_alloc(void);

void ds_host_open(ds_host *host);

/* Writes what stands in out once it is large; false when output has failed for good. */
bool ds_host_drain(ds_host *host);

/* Writes what stands in out at once, for a command that goes on running. */
void ds_host_flush(ds_host *host);

/* Writes all; returns exit_status, or 2 when that failed or memory was short. */
int ds_host_close(ds_host *host, int exit_status);

/* --- messages ----------------------------------------------------------------------------------------------------- */

/* "dripstone: BEFORE 'NAME' AFTER"; NAME at NULL is left out. Returns 2. */
int ds_host_fail(ds_host *host, const char *before, ds_str name, const char *after);

/* "dripstone: FILE:LINE:COLUMN: what is wrong", then what to do. Returns 2. */
int ds_host_fail_at(ds_host *host, ds_str file, const ds_problem *problem);

/* "dripstone: out of memory". Returns 2. */
int ds_host_fail_memory(ds_host *host);

/* --- files -------------------------------------------------------------------------------------------------------- */

/* Bytes read whole; freed with ds_file_free. */
typedef struct ds_file {
    ds_str name; /* "standard input" for "-" */
    char *at;
    size_t len, room;
} ds_file;

/* Reads a file, or standard input for "-". False when it can't be read or is larger than 512 MiB: that is then said. */
bool ds_file_read(ds_file *out, ds_host *host, ds_str name);
void ds_file_free(ds_file *file, ds_host *host);

/*
 * Writes a new file aside and renames it, so that it is never half there. An existing file is left alone unless force;
 * a link to a file is followed, and what is no ordinary file (a device, a pipe, a directory) is never replaced.
 * False when it was not written: that is then said.
 */
bool ds_file_write(ds_host *host, ds_str name, ds_str content, bool force);

#endif
