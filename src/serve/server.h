/* SPDX-License-Identifier: MIT */
/*
 * The page and its jobs over HTTP, for this machine alone unless told otherwise (docs/api.md).
 *
 *     ds_server *server;
 *     char why[200];
 *     const ds_server_plan plan = {.alloc = &alloc, .book = &book, .sizes = &sizes, .store = store, .port = 8707};
 *     if (!ds_server_start(&server, &plan, why)) …
 *     while (!ended) { ds_server_turn(server, 1000); }
 *     ds_server_stop(server);
 *
 * Everything is answered in the thread that calls ds_server_turn, one request after another; only papers are set aside, each
 * in a process of its own (fill_order), for which SIGCHLD must be as the system has it. The server keeps nothing but
 * the store and the answers of jobs that were read lately. A client has a minute for its request, and one second more for
 * every 64 kB of it; then five minutes to read the answer; and may say nothing for 20 seconds.
 */
#ifndef DS_SERVE_SERVER_H
#define DS_SERVE_SERVER_H

#include "core/answer/answer.h"
#include "serve/order.h"
#include "store/store.h"

enum { DS_SERVER_PORT = 8707, DS_SERVER_WHY = 200 };

/* The largest body taken, and all that may be under way at once. */
#define DS_SERVER_BODY_MOST ((size_t)64 << 20)
#define DS_SERVER_BODIES_MOST ((size_t)256 << 20)

/* For whoever sets a budget (budget.h): bodies, one of them read, and answers that are slow to be taken. */
#define DS_SERVER_MEMORY_MOST ((size_t)1 << 30)

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
    ds_order_fill *fill_order; /* NULL: no papers */
    void *fill_ctx;
} ds_server_plan;

typedef struct ds_server ds_server;

/* All of the plan is borrowed until the stop. False: why says it. */
bool ds_server_start(ds_server **out, const ds_server_plan *plan, char why[DS_SERVER_WHY]);
uint16_t ds_server_port(const ds_server *server);

/* Answers what has come in and sends what can be sent; waits for it at most this long, and less when a signal comes. */
void ds_server_turn(ds_server *server, int32_t wait_ms);

/* Closes all connections. What was answered as saved is saved; what is half sent is cut off. */
void ds_server_stop(ds_server *server);

#endif
