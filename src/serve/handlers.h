/* SPDX-License-Identifier: MIT */
/* What each route does: private to serve/. */
#ifndef DS_SERVE_HANDLERS_H
#define DS_SERVE_HANDLERS_H

#include "serve/orders.h"
#include "serve/reply.h"
#include "serve/request.h"
#include "serve/server.h"

/* Jobs that were read lately, as replies that can be sent again; the oldest goes first. Bytes of the largest. */
enum { DS_SHELF_JOBS = 32, DS_SHELF_LARGEST = 512 << 10 };

typedef struct ds_shelf {
    struct {
        char id[DS_STORE_ID];
        struct MHD_Response *reply; /* NULL: free */
        uint64_t used;
    } jobs[DS_SHELF_JOBS];
    uint64_t clock;
    int64_t epoch; /* of the store when they were read */
} ds_shelf;

void ds_shelf_empty(ds_shelf *shelf);

typedef struct ds_handling {
    const ds_server_plan *plan;
    ds_shelf *shelf;
    ds_orders *orders;
    ds_filling **filling; /* of this request; not NULL: its process has ended */
    struct MHD_Connection *connection;
    const ds_routed *routed;
    ds_str query, body;
} ds_handling;

/* Answers a request that has come in whole. */
enum MHD_Result ds_handle(const ds_handling *h);

#endif
