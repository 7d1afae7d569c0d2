/* SPDX-License-Identifier: MIT */
/*
 * The page and its jobs over HTTP, for this machine alone unless told otherwise (docs/api.md).
 *
 *     ds_server *server;
 *     char why[200];
 *     const ds_server_plan plan = {.alloc = &alloc, .book = &book, .sizes = &sizes, .store = store, .port = 8707};
 *     if (ds_server_start(&server, &plan, why)) { … ds_server_port(server) … ds_server_stop(server); }
 *
 * One thread of its own answers everything, one request after another; it alone uses the store from then on. The server
 * keeps nothing but the store and the answers of jobs that were read lately.
 */
#ifndef DS_SERVE_SERVER_H
#define DS_SERVE_SERVER_H

#include "core/answer/answer.h"
#include "store/store.h"

enum { DS_SERVER_PORT = 8707, DS_SERVER_WHY = 200 };

/* The largest document taken, and all that may be under way at once. */
#define DS_SERVER_BODY_MOST ((size_t)64 << 20)
#define DS_SERVER_BODIES_MOST ((size_t)256 << 20)

typedef struct ds_server_plan {
    const ds_alloc *alloc;
    const ds_rulebook *book;
    const ds_sizes *sizes;
    ds_store *store;
    uint16_t port;           /* 0: any free one */
    const char *address;     /* NULL: loopback; another needs password, key and certificate */
    const char *name;        /* a further host name that browsers may use; NULL: none */
    const char *password;    /* NULL: none is asked for; the user's name does not matter */
    const char *certificate; /* PEM texts; NULL: plain HTTP */
    const char *key;
} ds_server_plan;

typedef struct ds_server ds_server;

/* All of the plan is borrowed until the stop. False: why says it. */
bool ds_server_start(ds_server **out, const ds_server_plan *plan, char why[DS_SERVER_WHY]);
uint16_t ds_server_port(const ds_server *server);

/* Ends when the requests under way are answered. */
void ds_server_stop(ds_server *server);

#endif
