/* SPDX-License-Identifier: MIT */
/*
 * Connections, and how long each may take: private to serve/. One that dribbles is never silent, so each has a time at
 * which it must be done, and is closed when it is not. One that leaves in the middle of its request is closed too: the
 * library waits for edges, and an end that came together with the last bytes gives none.
 */
#ifndef DS_SERVE_CLIENTS_H
#define DS_SERVE_CLIENTS_H

#include "core/base/arena.h"

#include <microhttpd.h>
#include <stdbool.h>
#include <stdint.h>

typedef struct ds_client ds_client;

typedef struct ds_clients {
    const ds_alloc *alloc;
    ds_client *first;
    int64_t swept_s;
} ds_clients;

/* Seconds that only go forward. */
int64_t ds_now_s(void);

/* The library calls it as connections come and go; ctx is the ds_clients. */
void ds_clients_note(void *ctx, struct MHD_Connection *connection, void **mark,
                     enum MHD_ConnectionNotificationCode what);

/* A request, its head and its body, has this long. */
void ds_clients_allow_request(struct MHD_Connection *connection, int64_t begun_s, size_t body_len);

/* Its answer has this long, from now on. */
void ds_clients_allow_answer(struct MHD_Connection *connection);

/* True when it has closed its side, or broke off, and all that it sent has been read. */
bool ds_client_has_left(struct MHD_Connection *connection);

/* The slow and the gone, at most once a second; the library closes what this shuts down at its next turn. */
void ds_clients_drop(ds_clients *clients);

#endif
