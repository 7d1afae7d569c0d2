/* SPDX-License-Identifier: MIT */
/*
 * What a request asks for: method, path, query and headers to a route with its arguments, or to the reason why not. Pure
 * and total: any bytes give an answer (fuzz/request.c).
 *
 *     const ds_request request = {.method = DS_STR("PUT"), .path = DS_STR("/api/jobs/k7"), .if_match = DS_STR("\"3-9f…\"")};
 *     const ds_routed routed = ds_request_route(&request, &guard);
 *     if (routed.status) … answer with that status and routed.problem …
 */
#ifndef DS_SERVE_REQUEST_H
#define DS_SERVE_REQUEST_H

#include "core/answer/answer.h"
#include "serve/order.h"
#include "store/store.h"

typedef enum ds_route {
    DS_ROUTE_FILE,     /* a file of the page */
    DS_ROUTE_LIST,     /* GET /api/jobs */
    DS_ROUTE_ADD,      /* POST /api/jobs */
    DS_ROUTE_JOB,      /* GET /api/jobs/ID */
    DS_ROUTE_SAVE,     /* PUT /api/jobs/ID */
    DS_ROUTE_REMOVE,   /* DELETE /api/jobs/ID */
    DS_ROUTE_VERSIONS, /* GET /api/jobs/ID/versions */
    DS_ROUTE_VERSION,  /* GET /api/jobs/ID/versions/N */
    DS_ROUTE_ASK,      /* POST /api/NAME: a question of core/answer */
    DS_ROUTE_ORDER     /* POST /api/NAME: a paper of order.h */
} ds_route;

/* Texts are borrowed; absent ones have at == NULL. */
typedef struct ds_request {
    ds_str method, path, query;
    ds_str host, origin, site; /* Host, Origin, Sec-Fetch-Site */
    ds_str if_match;
    ds_str coding; /* Content-Encoding */
    bool unclear;  /* whom it is for, or where it ends, is said in two ways */
} ds_request;

/* Which hosts a browser may name; more than these is an attack by name (DNS rebinding). */
typedef struct ds_guard {
    ds_str hosts[8]; /* with port, as "127.0.0.1:8707" */
    size_t hosts_len;
} ds_guard;

typedef struct ds_routed {
    unsigned status;     /* 0: go on; else 4xx */
    const char *problem; /* what is wrong, one sentence */
    const char *remedy;
    const char *allow; /* 405: methods that are */
    ds_route route;
    bool close; /* answer at once and read no further */
    bool head;  /* HEAD: the answer without its body */
    char id[DS_STORE_ID];
    int64_t version;        /* of the address */
    char tag[DS_STORE_TAG]; /* of If-Match, without its quotes */
    ds_str file;            /* DS_ROUTE_FILE: its name */
    const ds_question_form *question;
    const ds_order_form *order;
} ds_routed;

ds_routed ds_request_route(const ds_request *request, const ds_guard *guard);

typedef enum ds_value { DS_VALUE_FOUND, DS_VALUE_ABSENT, DS_VALUE_BAD } ds_value;

/* The value of a query parameter, decoded into out (room bytes). Bad: too long, ill-formed or given twice. */
ds_value ds_request_value(ds_str query, const char *key, char *out, size_t room, size_t *len);

/* The first key of a query that is none of these; at == NULL: there is none. */
ds_str ds_request_odd_key(ds_str query, const char *const *keys, size_t keys_len);

#endif
