/* SPDX-License-Identifier: MIT */
/*
 * The folder may be one that others can write to, so what lies there is looked at before anything is written: a file could
 * lead to another program's, and one made with intent could bring its own triggers.
 */
#include "store/database.h"

#include "store/folder.h"

#include <errno.h>
#include <stdbool.h>
#include <stdio.h>

/* FORM goes up by one whenever a program of before could no longer read or write it. */
enum { APPLICATION = 0x44727069, FORM = 1, WAIT_MS = 2000 };

static const char *const NEWER = "the jobs were kept by a later version of this program; that one opens them";
static const char *const FOREIGN = "jobs.sqlite is another program's";
static const char *const LINK = "jobs.sqlite is a link; name the folder that it leads to";

/* EXTRA: where the file system has no WAL, what was committed is kept all the same. */
static const char *const SETTINGS = "PRAGMA journal_mode = WAL;"
                                    "PRAGMA synchronous = EXTRA;"
                                    "PRAGMA cell_size_check = ON;";

static const char *const BEGINNING = "BEGIN IMMEDIATE;"
                                     "CREATE TABLE IF NOT EXISTS versions ("
                                     "  job TEXT NOT NULL, version INTEGER NOT NULL CHECK (version > 0),"
                                     "  tag TEXT NOT NULL, saved TEXT NOT NULL, title TEXT NOT NULL,"
                                     "  points INTEGER NOT NULL,"
                                     "  removed INTEGER NOT NULL CHECK (removed IN (0, 1)),"
                                     "  document TEXT NOT NULL, PRIMARY KEY (job, version)) STRICT;";

static const char *const FOREIGN_THINGS =
    "SELECT count(*) FROM sqlite_schema WHERE tbl_name <> 'versions' OR type NOT IN ('table', 'index')";

static int open_file(sqlite3 **const db, const char *const folder)
{
    char real[DS_FOLDER_ROOM];
    char path[DS_FOLDER_ROOM];
    errno = 0;
    if (!ds_folder_make(folder) || !ds_folder_real(real, folder)) {
        return SQLITE_CANTOPEN;
    }
    const int len = snprintf(path, sizeof path, "%s/jobs.sqlite", real);
    if (len < 0 || (size_t)len >= sizeof path) {
        errno = ENAMETOOLONG;
        return SQLITE_CANTOPEN;
    }
    const int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_NOFOLLOW;
    return sqlite3_open_v2(path, db, flags, NULL);
}

/* Nothing that is written in the file itself runs. */
static void distrust(sqlite3 *const db)
{
    sqlite3_db_config(db, SQLITE_DBCONFIG_DEFENSIVE, 1, NULL);
    sqlite3_db_config(db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, NULL);
    sqlite3_db_config(db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, NULL);
    sqlite3_db_config(db, SQLITE_DBCONFIG_ENABLE_VIEW, 0, NULL);
}

static int read_number(sqlite3 *const db, const char *const sql, int *const out)
{
    sqlite3_stmt *s = NULL;
    int code = sqlite3_prepare_v2(db, sql, -1, &s, NULL);
    code = code == SQLITE_OK ? sqlite3_step(s) : code;
    *out = code == SQLITE_ROW ? sqlite3_column_int(s, 0) : 0;
    sqlite3_finalize(s);
    return code == SQLITE_ROW ? SQLITE_OK : code;
}

/* Ours, of a form that is known; or bare: new, or of ours before forms were numbered, with nothing but our table. */
static int recognise(sqlite3 *const db, bool *const bare, const char **const fault)
{
    int application = 0;
    int form = 0;
    int foreign = 0;
    int code = read_number(db, "PRAGMA application_id", &application);
    code = code == SQLITE_OK ? read_number(db, "PRAGMA user_version", &form) : code;
    code = code == SQLITE_OK ? read_number(db, FOREIGN_THINGS, &foreign) : code;
    if (code != SQLITE_OK) {
        return code;
    }
    *bare = application == 0 && form == 0;
    if (application == APPLICATION && form > FORM) {
        *fault = NEWER;
    } else if ((application != APPLICATION && !*bare) || foreign) {
        *fault = FOREIGN;
    }
    return *fault ? SQLITE_NOTADB : SQLITE_OK;
}

/* All or nothing, and only once: a disk may be full when it is opened again. */
static int begin_file(sqlite3 *const db)
{
    char end[128];
    snprintf(end, sizeof end, "PRAGMA application_id = %d; PRAGMA user_version = %d; COMMIT;",
             (int)APPLICATION, (int)FORM);
    const int code = sqlite3_exec(db, BEGINNING, NULL, NULL, NULL);
    return code == SQLITE_OK ? sqlite3_exec(db, end, NULL, NULL, NULL) : code;
}

int ds_database_open(sqlite3 **const db, const char *const folder, const char **const fault)
{
    *fault = NULL;
    int code = open_file(db, folder);
    if (code != SQLITE_OK) {
        *fault = *db && sqlite3_extended_errcode(*db) == SQLITE_CANTOPEN_SYMLINK ? LINK : NULL;
        return code;
    }
    if (sqlite3_db_readonly(*db, "main") == 1) {
        return SQLITE_READONLY; /* it would open, and every save fail */
    }
    distrust(*db);
    sqlite3_busy_timeout(*db, WAIT_MS);
    bool bare = false;
    code = recognise(*db, &bare, fault);
    code = code == SQLITE_OK ? sqlite3_exec(*db, SETTINGS, NULL, NULL, NULL) : code;
    return code == SQLITE_OK && bare ? begin_file(*db) : code;
}
