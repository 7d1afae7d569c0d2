/* SPDX-License-Identifier: MIT */
/*
 * Orders under way: private to serve/. Each is filled by a process of its own, a fork of the server, so that others are
 * answered meanwhile and whatever goes wrong with fonts or memory ends there. Its connection sleeps until the process has
 * ended; who closes a connection before that is taken to have lost interest, and the process is ended.
 *
 *     ds_orders_take(&orders, connection, &filling, …)     … answers, or starts a process and puts the connection to sleep
 *     ds_orders_wait(&orders, daemon, wait_ms)             … before the library's turn, while any is under way
 *     ds_orders_answer(&orders, filling)                   … when the library asks again, its process having ended
 */
#ifndef DS_SERVE_ORDERS_H
#define DS_SERVE_ORDERS_H

#include "serve/reply.h"
#include "serve/server.h"

#include <sys/types.h>

/* At most so many at once; seconds of processor for one; bytes of one file. */
enum { DS_ORDERS_MOST = 4, DS_ORDER_CPU_S = 120 };
#define DS_ORDER_BYTES_MOST ((size_t)512 << 20)

typedef struct ds_filling {
    struct MHD_Connection *connection; /* NULL: free */
    const ds_order_form *form;
    pid_t pid; /* 0: it has ended */
    int from;  /* its end of a pipe */
    ds_text out;
    ds_order_end end;
} ds_filling;

typedef struct ds_orders {
    const ds_server_plan *plan;
    ds_filling fillings[DS_ORDERS_MOST];
    int64_t swept_s;
} ds_orders;

/* Answers at once what is no order; otherwise *filling is what has been started. */
enum MHD_Result ds_orders_take(ds_orders *orders, struct MHD_Connection *connection, ds_filling **filling,
                               const ds_order_form *form, ds_str query, ds_str body);

/* The reply to an order whose process has ended; the filling is free afterwards. */
enum MHD_Result ds_orders_answer(ds_orders *orders, ds_filling *filling);

/* True while any process runs. */
bool ds_orders_run(const ds_orders *orders);

/* Waits for processes and for the library's connections, takes in what has come of the former, wakes who waits for it. */
void ds_orders_wait(ds_orders *orders, struct MHD_Daemon *daemon, int32_t wait_ms);

/* A connection is gone before its order was answered. */
void ds_orders_forget(ds_filling *filling);

/* Ends all processes and wakes all who wait; before the library is stopped. */
void ds_orders_stop(ds_orders *orders);

#endif
