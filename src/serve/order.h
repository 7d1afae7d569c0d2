/* SPDX-License-Identifier: MIT */
/*
 * What can be ordered of the server as a file: a paper, labels, a spreadsheet. Setting one may take seconds, so it is done
 * aside (orders.h), by whom the plan names: the server itself knows no more of papers than this table.
 */
#ifndef DS_SERVE_ORDER_H
#define DS_SERVE_ORDER_H

#include "core/base/text.h"

typedef enum ds_order_kind {
    DS_ORDER_PAPER,
    DS_ORDER_LABELS,
    DS_ORDER_SHEET,
    DS_ORDER_CHANGES,
    DS_ORDER_KINDS
} ds_order_kind;

enum { DS_ORDER_KEYS = 6 };

typedef struct ds_order_form {
    ds_order_kind kind;
    const char *name;                /* POST /api/NAME */
    const char *type;                /* of the content */
    const char *file;                /* name under which a browser keeps it */
    const char *keys[DS_ORDER_KEYS]; /* what the address may say: "for", "size" …; NULL after the last */
} ds_order_form;

const ds_order_form *ds_order_form_of(ds_order_kind kind);

/* NULL: there is no such thing to order. */
const ds_order_form *ds_order_named(ds_str name);

/* All texts are borrowed. */
typedef struct ds_order {
    ds_order_kind kind;
    ds_str values[DS_ORDER_KEYS]; /* as the form's keys; at == NULL where the address does not say it */
    ds_str body; /* the job document; for changes two, with a record separator (0x1E) between */
} ds_order;

/* How an order ends. */
typedef enum ds_order_end {
    DS_ORDER_FILLED,
    DS_ORDER_REFUSED, /* it cannot be: the text is {"problem", "remedy"} */
    DS_ORDER_NO_MEMORY,
    DS_ORDER_NO_ROOM, /* the folder for temporary files is full or cannot be written to */
    DS_ORDER_FAILED   /* what sets papers is not there, or broke */
} ds_order_end;

/* Fills an order: appends the file, or what is wrong. Called in a process of its own that ends afterwards. */
typedef ds_order_end ds_order_fill(ds_text *out, const ds_order *order, void *ctx);

#endif
