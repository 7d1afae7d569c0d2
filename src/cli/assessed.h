/* SPDX-License-Identifier: MIT */
/* A job read and assessed for a command: the file, the rulebook and the findings, opened and closed together. */
#ifndef DS_CLI_ASSESSED_H
#define DS_CLI_ASSESSED_H

#include "cli/rulebook.h"
#include "core/assess/assess.h"

typedef struct ds_assessed {
    ds_host *host;
    const ds_args *args;
    ds_book *book;
    ds_file file;
    ds_arena arena;
    ds_job job;
    ds_findings findings;
} ds_assessed;

/* The options that a command with a job takes besides its own. */
#define DS_ASSESSED_OPTIONS                                                                                  \
    {"pack", 0, "FILE", "also read this rule pack; the job must name it in \"rules\" (may be repeated)"},    \
    {                                                                                                        \
        "words", 0, "FILE", "also read these words (may be repeated)"                                        \
    }

/* Reads the job that the first word names. False when it was said why nothing can be judged; close it all the same. */
bool ds_assessed_open(ds_assessed *out, ds_host *host, const ds_args *args);
void ds_assessed_close(ds_assessed *a);

/* "the job has no place 'x'", with the nearest id. Returns 2. */
int ds_assessed_fail_place(const ds_assessed *a, ds_str id);

/* "the job has no point 'x'", with the nearest id. Returns 2. */
int ds_assessed_fail_point(const ds_assessed *a, ds_str id);

/*
 * None is named where one must be: "several …" with the ids to choose from, or what to say when there are none. id_of
 * gives the id of a place or point by its index, an empty one for what cannot be chosen. Returns 2.
 */
typedef ds_str ds_assessed_id(const ds_assessed *a, size_t index);
int ds_assessed_fail_choice(const ds_assessed *a, size_t len, ds_assessed_id *id_of, const char *several,
                            const char *none);

/* Index of the place with this id; places_len when there is none. */
size_t ds_assessed_place(const ds_assessed *a, ds_str id);

#endif
