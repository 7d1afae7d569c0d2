/* SPDX-License-Identifier: MIT */
/* Papers ordered of the server: the commands paper, labels and sheet for whoever asks over HTTP. */
#ifndef DS_CLI_ORDERS_H
#define DS_CLI_ORDERS_H

#include "cli/papers.h"
#include "serve/order.h"

typedef struct ds_order_desk {
    ds_host *host;
    const ds_book *book;
} ds_order_desk;

/* A ds_order_fill; ctx: a ds_order_desk. */
ds_order_end ds_order_fill_here(ds_text *out, const ds_order *order, void *ctx);

#endif
