/* SPDX-License-Identifier: MIT */
/*
 * Jobs with all their versions, kept on disk: what was acknowledged survives a crash and a power cut.
 *
 *     ds_store *store;
 *     ds_store_open(&store, "/var/lib/dripstone", &alloc);
 *     ds_stored job = {0};
 *     ds_store_add(store, &job, text, about);                    … job.id, job.version 1, job.tag
 *     ds_store_save(store, &job, id, tag, newer, about);         … version 2; DS_STORE_DIFFERS if tag is not the latest
 *     ds_store_get(store, &out, &job, id, DS_STORE_LATEST);
 *
 * Documents are texts and come back byte for byte. A removed job keeps its versions: saving it again brings it back.
 * SQLite is behind it (database.c and sqlite.c, the only files with SQL); another may stand behind the same header.
 */
#ifndef DS_STORE_STORE_H
#define DS_STORE_STORE_H

#include "core/base/text.h"

typedef struct ds_store ds_store;

typedef enum ds_store_status {
    DS_STORE_OK,
    DS_STORE_ABSENT,  /* no such job or version */
    DS_STORE_DIFFERS, /* the version there is not the one expected */
    DS_STORE_FULL,    /* no room on the disk, or no leave to use more; what was there is whole */
    DS_STORE_BUSY,    /* another program holds it locked for longer than two seconds */
    DS_STORE_BROKEN,  /* the file cannot be used; ds_store_why says why */
    DS_STORE_NO_MEMORY
} ds_store_status;

enum { DS_STORE_ID = 24, DS_STORE_TAG = 40, DS_STORE_TIME = 24, DS_STORE_TITLE = 300, DS_STORE_LATEST = 0 };

/* One version of a job. */
typedef struct ds_stored {
    char id[DS_STORE_ID];      /* ended by a zero, as all here */
    int64_t version;           /* 1, 2, … */
    char tag[DS_STORE_TAG];    /* "3-9f86d081884c7d65": changes with every version */
    char saved[DS_STORE_TIME]; /* 2026-05-04T10:00:00Z */
    int64_t points;
    ds_str title; /* in a list: only for the time of the call */
    bool removed;
} ds_stored;

/* What a list shows of a document, so that it need not be read again. */
typedef struct ds_store_about {
    ds_str title; /* its first DS_STORE_TITLE bytes are kept */
    int64_t points;
} ds_store_about;

/* Makes the folder when it is not there. On failure *out is NULL and why (at least 200 bytes) says it. */
ds_store_status ds_store_open(ds_store **out, const char *folder, const ds_alloc *alloc, char why[200]);
void ds_store_close(ds_store *store);

/* Of the last failure, for the log. */
const char *ds_store_why(const ds_store *store);

/* Changes whenever another program has written to it, so that what was read before may be old. */
int64_t ds_store_epoch(ds_store *store);

typedef void ds_store_each(void *ctx, const ds_stored *stored);

/* Every job that is not removed, latest saved first; every version of a job, removed or not, youngest first. */
ds_store_status ds_store_list(ds_store *store, ds_store_each *each, void *ctx);
ds_store_status ds_store_versions(ds_store *store, const char *id, ds_store_each *each, void *ctx);

/* Appends the document to out. version DS_STORE_LATEST: the latest, if the job is not removed. title stays empty. */
ds_store_status ds_store_get(ds_store *store, ds_text *out, ds_stored *stored, const char *id,
                             int64_t version);

/* A new job under an id of the store's own. */
ds_store_status ds_store_add(ds_store *store, ds_stored *stored, ds_str text, ds_store_about about);

/*
 * The next version of a job whose latest still has the expected tag; a removed one is there again. DS_STORE_DIFFERS: it
 * has another, and *stored tells of that. Sent twice (the answer was lost on the way), it is one version: the tag also
 * tells the text, so the second time finds its own save.
 */
ds_store_status ds_store_save(ds_store *store, ds_stored *stored, const char *id, const char *expected,
                              ds_str text, ds_store_about about);

/* Takes the job from the list; its versions stay, and this is one more. */
ds_store_status ds_store_remove(ds_store *store, ds_stored *stored, const char *id, const char *expected);

#endif
