/* SPDX-License-Identifier: MIT */
/* Words and rule packs: those inside the program, and the person's own files after them. */
#ifndef DS_CLI_RULEBOOK_H
#define DS_CLI_RULEBOOK_H

#include "cli/args.h"
#include "core/box/sizes.h"
#include "core/rules/pack.h"

enum { DS_BOOK_FILES = DS_ARGS_GIVEN };

/* A rulebook and what it lives on. */
typedef struct ds_book {
    ds_arena arena;
    ds_rulebook rules;
    ds_sizes sizes;               /* of threads, glands and cables */
    ds_file files[DS_BOOK_FILES]; /* the person's own, in the order given */
    int files_len;
    size_t own_packs; /* packs from here on are the person's */
} ds_book;

/*
 * Loads the embedded data, then every --words FILE, then every file that the command line gives with pack_option (NULL:
 * none). NULL when a file can't be used or memory is short: that is then said.
 */
ds_book *ds_book_open(ds_host *host, const ds_args *args, const char *pack_option);
void ds_book_close(ds_book *book, ds_host *host);

/* Ids of the packs; returns how many. */
size_t ds_book_pack_ids(const ds_book *book, ds_str ids[DS_PACKS_MAX]);

#endif
