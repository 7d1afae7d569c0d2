/* SPDX-License-Identifier: MIT */
/*
 * No test but a helper of one: holds a database so that nobody else may write to it, for tests/serve_crash.mjs.
 *
 *     store_hold FILE     says "held", and lets go when its input ends
 */
#include <sqlite3.h>
#include <stdio.h>

int main(const int argc, char **const argv)
{
    sqlite3 *db = NULL;
    if (argc != 2 || sqlite3_open_v2(argv[1], &db, SQLITE_OPEN_READWRITE, NULL) != SQLITE_OK ||
        sqlite3_exec(db, "BEGIN IMMEDIATE", NULL, NULL, NULL) != SQLITE_OK) {
        fprintf(stderr, "store_hold: %s\n", db ? sqlite3_errmsg(db) : "which file?");
        sqlite3_close(db);
        return 2;
    }
    puts("held");
    fflush(stdout);
    while (getchar() != EOF) {
    }
    sqlite3_exec(db, "ROLLBACK", NULL, NULL, NULL);
    sqlite3_close(db);
    return 0;
}
