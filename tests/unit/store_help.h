/* SPDX-License-Identifier: MIT */
/* What the tests of the store share: a folder of their own, and its files. */
#ifndef STORE_HELP_H
#define STORE_HELP_H

#include "base_alloc.h"

#include "store/store.h"

#include <sqlite3.h>
#include <stdio.h>
#include <sys/stat.h>
#include <unistd.h>

typedef struct store_place {
    char folder[64];
    char file[80];
} store_place;

static inline void store_place_make(store_place *const place)
{
    snprintf(place->folder, sizeof place->folder, "%s/store-XXXXXX", P_tmpdir);
    assert_non_null(mkdtemp(place->folder));
    snprintf(place->file, sizeof place->file, "%s/jobs.sqlite", place->folder);
}

static inline void store_place_remove(const store_place *const place)
{
    static const char *const ENDS[] = {"", "-wal", "-shm", "-journal"};
    for (size_t i = 0; i < sizeof ENDS / sizeof *ENDS; i++) {
        char path[128];
        snprintf(path, sizeof path, "%s%s", place->file, ENDS[i]);
        unlink(path);
    }
    assert_int_equal(rmdir(place->folder), 0);
}

static inline ds_store *store_open(const store_place *const place, const ds_alloc *const alloc)
{
    ds_store *store = NULL;
    char why[200];
    const ds_store_status status = ds_store_open(&store, place->folder, alloc, why);
    if (status != DS_STORE_OK) {
        fail_msg("%s", why);
    }
    return store;
}

/* Runs SQL on the file, beside the store. */
static inline void store_run(const store_place *const place, const char *const sql)
{
    sqlite3 *db = NULL;
    assert_int_equal(sqlite3_open(place->file, &db), SQLITE_OK);
    const int code = sqlite3_exec(db, sql, NULL, NULL, NULL);
    if (code != SQLITE_OK) {
        fail_msg("%s: %s", sql, sqlite3_errmsg(db));
    }
    sqlite3_close(db);
}

#endif
