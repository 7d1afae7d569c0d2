/* SPDX-License-Identifier: MIT */
/* The file that jobs are kept in: private to store/. */
#ifndef DS_STORE_DATABASE_H
#define DS_STORE_DATABASE_H

#include <sqlite3.h>

/*
 * Opens FOLDER/jobs.sqlite, and makes both when they are not there. Only a file of this program's is touched: not one that
 * a link leads to, of another program, or of a later form. Returns SQLite's code; *db is the caller's to close either way,
 * and *fault says what SQLite's own message does not, or is NULL.
 */
int ds_database_open(sqlite3 **db, const char *folder, const char **fault);

#endif
