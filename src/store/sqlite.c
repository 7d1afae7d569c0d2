/* SPDX-License-Identifier: MIT */
/*
 * The store on SQLite: one row a version. In WAL and fully synchronous (database.c), so a commit that returned is on the
 * disk; a reader never waits for a writer.
 */
#include "store/database.h"
#include "store/store.h"

#include <errno.h>
#include <stdio.h>
#include <sys/random.h>
#include <time.h>

enum { WHY = 200 };

/* Prepared once, in the order of SQL. */
typedef enum statement {
    LIST,
    VERSIONS,
    LATEST,
    VERSION,
    ADD,
    CURRENT,
    REMOVE,
    EPOCH,
    BEGIN,
    COMMIT,
    ROLLBACK,
    STATEMENTS
} statement;

#define COLUMNS "job, version, tag, saved, points, title, removed"
#define LAST "SELECT job, max(version) FROM versions"

static const char *const SQL[STATEMENTS] = {
    [LIST] = "SELECT " COLUMNS " FROM versions WHERE (job, version) IN (" LAST
             " GROUP BY job) AND removed = 0 ORDER BY saved DESC, job",
    [VERSIONS] = "SELECT " COLUMNS " FROM versions WHERE job = ?1 ORDER BY version DESC",
    [LATEST] = "SELECT " COLUMNS ", document FROM versions WHERE (job, version) = (" LAST
               " WHERE job = ?1) AND removed = 0",
    [VERSION] = "SELECT " COLUMNS ", document FROM versions WHERE job = ?1 AND version = ?2",
    [ADD] = "INSERT INTO versions (job, version, tag, saved, title, points, removed, document) "
            "VALUES (?1, ?2, ?3, ?4, ?5, ?6, 0, ?7)",
    [CURRENT] = "SELECT " COLUMNS " FROM versions WHERE (job, version) = (" LAST " WHERE job = ?1)",
    [REMOVE] = "INSERT INTO versions (job, version, tag, saved, title, points, removed, document) "
               "SELECT job, version + 1, ?3, ?4, title, points, 1, document FROM versions "
               "WHERE job = ?1 AND version = ?2",
    [EPOCH] = "PRAGMA data_version",
    [BEGIN] = "BEGIN IMMEDIATE",
    [COMMIT] = "COMMIT",
    [ROLLBACK] = "ROLLBACK",
};

struct ds_store {
    const ds_alloc *alloc;
    sqlite3 *db;
    sqlite3_stmt *statements[STATEMENTS];
    char why[WHY];
};

/* --- opening ------------------------------------------------------------------------------------------------------ */

const char *ds_store_why(const ds_store *const store)
{
    return store->why;
}

/*
 * What the system said, of the file of changes or of the file itself, when one could not be read or written; 0: nothing.
 * SQLite's own account of it may be of a later call.
 */
static int system_fault(const ds_store *const store, const int code)
{
    static const int FILES[] = {SQLITE_FCNTL_JOURNAL_POINTER, SQLITE_FCNTL_FILE_POINTER};
    if ((code & 0xff) == SQLITE_CANTOPEN) {
        return store->db ? sqlite3_system_errno(store->db) : errno;
    }
    int fault = 0;
    for (size_t i = 0; (code & 0xff) == SQLITE_IOERR && !fault && i < sizeof FILES / sizeof *FILES; i++) {
        sqlite3_file *file = NULL;
        sqlite3_file_control(store->db, "main", FILES[i], &file);
        if (file && file->pMethods) {
            file->pMethods->xFileControl(file, SQLITE_FCNTL_LAST_ERRNO, &fault);
        }
    }
    return fault;
}

/* No room, no room for this person, or no larger a file for this process. */
static bool is_full(const int fault)
{
    return fault == ENOSPC || fault == EDQUOT || fault == EFBIG;
}

static ds_store_status fail(ds_store *const store, const int code)
{
    const int fault = system_fault(store, code);
    const bool known = store->db && sqlite3_errcode(store->db) != SQLITE_OK;
    snprintf(store->why, WHY, "%s%s%s", known ? sqlite3_errmsg(store->db) : sqlite3_errstr(code),
             fault ? ": " : "", fault ? strerror(fault) : "");
    switch (code & 0xff) {
    case SQLITE_FULL:
        return DS_STORE_FULL;
    case SQLITE_IOERR:
    case SQLITE_CANTOPEN: /* its file of changes could not be made */
        return is_full(fault) ? DS_STORE_FULL : DS_STORE_BROKEN;
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return DS_STORE_BUSY;
    case SQLITE_NOMEM:
        return DS_STORE_NO_MEMORY;
    default:
        return DS_STORE_BROKEN;
    }
}

static int prepare_all(ds_store *const store)
{
    int code = SQLITE_OK;
    for (int i = 0; code == SQLITE_OK && i < STATEMENTS; i++) {
        code =
            sqlite3_prepare_v3(store->db, SQL[i], -1, SQLITE_PREPARE_PERSISTENT, &store->statements[i], NULL);
    }
    return code;
}

ds_store_status ds_store_open(ds_store **const out, const char *const folder, const ds_alloc *const alloc,
                              char why[WHY])
{
    ds_store *const store = alloc->resize(alloc->ctx, NULL, 0, sizeof *store);
    *out = NULL;
    if (!store) {
        snprintf(why, WHY, "out of memory");
        return DS_STORE_NO_MEMORY;
    }
    *store = (ds_store){.alloc = alloc};
    const char *fault = NULL;
    int code = ds_database_open(&store->db, folder, &fault);
    code = code == SQLITE_OK ? prepare_all(store) : code;
    if (code == SQLITE_OK) {
        *out = store;
        return DS_STORE_OK;
    }
    const ds_store_status status = fail(store, code);
    snprintf(why, WHY, "%s", fault ? fault : store->why);
    ds_store_close(store);
    return status;
}

void ds_store_close(ds_store *const store)
{
    for (int i = 0; i < STATEMENTS; i++) {
        sqlite3_finalize(store->statements[i]);
    }
    sqlite3_close(store->db);
    store->alloc->resize(store->alloc->ctx, store, sizeof *store, 0);
}

/* --- rows --------------------------------------------------------------------------------------------------------- */

/* No column is NULL: at == NULL when memory is short. */
static ds_str column(sqlite3_stmt *const s, const int index)
{
    const char *const at = (const char *)sqlite3_column_text(s, index);
    return (ds_str){at, at ? (size_t)sqlite3_column_bytes(s, index) : 0};
}

static bool copy_column(char *const out, const size_t room, sqlite3_stmt *const s, const int index)
{
    const ds_str text = column(s, index);
    const size_t len = text.len < room - 1 ? text.len : room - 1;
    if (text.at) {
        memcpy(out, text.at, len);
    }
    out[len] = '\0';
    return text.at;
}

/* In the order of COLUMNS. False: memory is short. */
static bool read_row(ds_stored *const out, sqlite3_stmt *const s)
{
    *out = (ds_stored){.version = sqlite3_column_int64(s, 1),
                       .points = sqlite3_column_int64(s, 4),
                       .title = column(s, 5),
                       .removed = sqlite3_column_int(s, 6) != 0};
    return copy_column(out->id, sizeof out->id, s, 0) && copy_column(out->tag, sizeof out->tag, s, 2) &&
           copy_column(out->saved, sizeof out->saved, s, 3) && out->title.at;
}

static void bind_text(sqlite3_stmt *const s, const int index, const ds_str text)
{
    sqlite3_bind_text64(s, index, text.len ? text.at : "", text.len, SQLITE_STATIC, SQLITE_UTF8);
}

int64_t ds_store_epoch(ds_store *const store)
{
    sqlite3_stmt *const s = store->statements[EPOCH];
    const int64_t epoch = sqlite3_step(s) == SQLITE_ROW ? sqlite3_column_int64(s, 0) : -1;
    sqlite3_reset(s);
    return epoch;
}

static ds_store_status each_row(ds_store *const store, sqlite3_stmt *const s, ds_store_each *const each,
                                void *const ctx)
{
    int code = SQLITE_ROW;
    size_t count = 0;
    while ((code = sqlite3_step(s)) == SQLITE_ROW) {
        ds_stored stored;
        if (!read_row(&stored, s)) {
            code = SQLITE_NOMEM;
            break;
        }
        each(ctx, &stored);
        count++;
    }
    const ds_store_status status = code != SQLITE_DONE ? fail(store, code)
                                   : count             ? DS_STORE_OK
                                                       : DS_STORE_ABSENT;
    sqlite3_reset(s);
    sqlite3_clear_bindings(s);
    return status;
}

ds_store_status ds_store_list(ds_store *const store, ds_store_each *const each, void *const ctx)
{
    const ds_store_status status = each_row(store, store->statements[LIST], each, ctx);
    return status == DS_STORE_ABSENT ? DS_STORE_OK : status;
}

ds_store_status ds_store_versions(ds_store *const store, const char *const id, ds_store_each *const each,
                                  void *const ctx)
{
    bind_text(store->statements[VERSIONS], 1, ds_str_of(id));
    return each_row(store, store->statements[VERSIONS], each, ctx);
}

ds_store_status ds_store_get(ds_store *const store, ds_text *const out, ds_stored *const stored,
                             const char *const id, const int64_t version)
{
    sqlite3_stmt *const s = store->statements[version == DS_STORE_LATEST ? LATEST : VERSION];
    bind_text(s, 1, ds_str_of(id));
    if (version != DS_STORE_LATEST) {
        sqlite3_bind_int64(s, 2, version);
    }
    const int code = sqlite3_step(s);
    ds_store_status status = DS_STORE_ABSENT;
    if (code == SQLITE_ROW) {
        const ds_str document = column(s, 7);
        const bool whole = read_row(stored, s) && document.at;
        stored->title = (ds_str){0};
        ds_text_adds(out, document);
        status = whole && ds_text_ok(out) ? DS_STORE_OK : DS_STORE_NO_MEMORY;
    } else if (code != SQLITE_DONE) {
        status = fail(store, code);
    }
    sqlite3_reset(s);
    sqlite3_clear_bindings(s);
    return status;
}

/* --- writing ------------------------------------------------------------------------------------------------------ */

static int run(ds_store *const store, const statement which)
{
    sqlite3_stmt *const s = store->statements[which];
    const int code = sqlite3_step(s);
    sqlite3_reset(s);
    sqlite3_clear_bindings(s);
    return code == SQLITE_DONE || code == SQLITE_ROW ? SQLITE_OK : code;
}

/* FNV-1a: a tag tells versions apart and proves nothing. */
static uint64_t hash_of(const ds_str text)
{
    uint64_t hash = UINT64_C(14695981039346656037);
    for (size_t i = 0; i < text.len; i++) {
        hash = (hash ^ (unsigned char)text.at[i]) * UINT64_C(1099511628211);
    }
    return hash;
}

static void stamp(ds_stored *const out, const int64_t version, const ds_str text)
{
    const time_t now = time(NULL);
    struct tm utc = {0};
    gmtime_r(&now, &utc);
    strftime(out->saved, sizeof out->saved, "%Y-%m-%dT%H:%M:%SZ", &utc);
    out->version = version;
    snprintf(out->tag, sizeof out->tag, "%lld-%016llx", (long long)version,
             (unsigned long long)hash_of(text));
}

/* 20 letters and digits of the kernel's own. */
static bool make_id(char id[DS_STORE_ID])
{
    static const char LETTERS[] = "abcdefghjkmnpqrstuvwxyz234567890";
    unsigned char bytes[20];
    if (getrandom(bytes, sizeof bytes, 0) != (ssize_t)sizeof bytes) {
        return false;
    }
    for (size_t i = 0; i < sizeof bytes; i++) {
        id[i] = LETTERS[bytes[i] & 31];
    }
    id[sizeof bytes] = '\0';
    return true;
}

/* A list must stay short whatever stands in the documents; letters are kept whole. */
static ds_str title_shown(const ds_str title)
{
    size_t len = title.len < DS_STORE_TITLE ? title.len : DS_STORE_TITLE;
    while (len < title.len && len && ((unsigned char)title.at[len] & 0xC0) == 0x80) {
        len--;
    }
    return (ds_str){title.at, len};
}

static int add_row(ds_store *const store, const ds_stored *const row, const ds_str text,
                   const ds_store_about about)
{
    sqlite3_stmt *const s = store->statements[ADD];
    bind_text(s, 1, ds_str_of(row->id));
    sqlite3_bind_int64(s, 2, row->version);
    bind_text(s, 3, ds_str_of(row->tag));
    bind_text(s, 4, ds_str_of(row->saved));
    bind_text(s, 5, title_shown(about.title));
    sqlite3_bind_int64(s, 6, about.points);
    bind_text(s, 7, text);
    return run(store, ADD);
}

ds_store_status ds_store_add(ds_store *const store, ds_stored *const stored, const ds_str text,
                             const ds_store_about about)
{
    *stored = (ds_stored){.points = about.points};
    if (!make_id(stored->id)) {
        snprintf(store->why, WHY, "the system gives no random numbers");
        return DS_STORE_BROKEN;
    }
    stamp(stored, 1, text);
    const int code = add_row(store, stored, text, about);
    return code == SQLITE_OK ? DS_STORE_OK : fail(store, code);
}

/* The latest version of a job, removed or not; version 0: there is no such job. */
static int current_version(ds_store *const store, const char *const id, ds_stored *const out)
{
    sqlite3_stmt *const s = store->statements[CURRENT];
    *out = (ds_stored){0};
    bind_text(s, 1, ds_str_of(id));
    int code = sqlite3_step(s);
    if (code == SQLITE_ROW) {
        code = read_row(out, s) ? code : SQLITE_NOMEM;
        out->title = (ds_str){0};
    }
    sqlite3_reset(s);
    sqlite3_clear_bindings(s);
    return code == SQLITE_ROW || code == SQLITE_DONE ? SQLITE_OK : code;
}

/*
 * Begins a change of a job whose latest version, which *stored then tells of, has the expected tag. Anything but
 * DS_STORE_OK has ended it again.
 */
static ds_store_status begin(ds_store *const store, ds_stored *const stored, const char *const id,
                             const char *const expected)
{
    int code = run(store, BEGIN);
    if (code != SQLITE_OK) {
        return fail(store, code);
    }
    code = current_version(store, id, stored);
    if (code == SQLITE_OK && stored->version && strcmp(stored->tag, expected) == 0) {
        return DS_STORE_OK;
    }
    const ds_store_status status = code != SQLITE_OK ? fail(store, code)
                                   : stored->version ? DS_STORE_DIFFERS
                                                     : DS_STORE_ABSENT;
    run(store, ROLLBACK);
    return status;
}

static ds_store_status finish(ds_store *const store, int code)
{
    code = code == SQLITE_OK ? run(store, COMMIT) : code;
    if (code == SQLITE_OK) {
        return DS_STORE_OK;
    }
    const ds_store_status status = fail(store, code);
    run(store, ROLLBACK);
    return status;
}

/* Whether the latest version is what this save would make of the expected one. */
static bool is_saved(const ds_stored *const latest, const char *const expected, const ds_str text)
{
    ds_stored made;
    char before[24];
    const int len = snprintf(before, sizeof before, "%lld-", (long long)latest->version - 1);
    stamp(&made, latest->version, text);
    return !latest->removed && strcmp(latest->tag, made.tag) == 0 &&
           strncmp(expected, before, (size_t)len) == 0;
}

ds_store_status ds_store_save(ds_store *const store, ds_stored *const stored, const char *const id,
                              const char *const expected, const ds_str text, const ds_store_about about)
{
    const ds_store_status begun = begin(store, stored, id, expected);
    if (begun != DS_STORE_OK) {
        return begun == DS_STORE_DIFFERS && is_saved(stored, expected, text) ? DS_STORE_OK : begun;
    }
    stored->points = about.points;
    stored->removed = false;
    stamp(stored, stored->version + 1, text);
    return finish(store, add_row(store, stored, text, about));
}

ds_store_status ds_store_remove(ds_store *const store, ds_stored *const stored, const char *const id,
                                const char *const expected)
{
    const ds_store_status begun = begin(store, stored, id, expected);
    if (begun != DS_STORE_OK) {
        return begun;
    }
    sqlite3_stmt *const s = store->statements[REMOVE];
    bind_text(s, 1, ds_str_of(id));
    sqlite3_bind_int64(s, 2, stored->version);
    stored->removed = true;
    stamp(stored, stored->version + 1, DS_STR(""));
    bind_text(s, 3, ds_str_of(stored->tag));
    bind_text(s, 4, ds_str_of(stored->saved));
    return finish(store, run(store, REMOVE));
}
