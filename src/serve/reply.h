/* SPDX-License-Identifier: MIT */
/* Replies, made whole before they are sent: private to serve/. */
#ifndef DS_SERVE_REPLY_H
#define DS_SERVE_REPLY_H

#include "core/base/problem.h"
#include "serve/files.h"

#include <microhttpd.h>

/* A reply with the headers that every one has; NULL when memory is short. The text goes over to it either way. */
struct MHD_Response *ds_reply_make(ds_text *body, const char *type);

/* The same without a body. */
struct MHD_Response *ds_reply_empty(const char *type);

/* Queues it with this status and lets go of it. A NULL reply closes the connection. */
enum MHD_Result ds_reply_send(struct MHD_Connection *connection, unsigned status, struct MHD_Response *reply);

/* {"problem": …, "remedy": …} */
struct MHD_Response *ds_reply_problem(const ds_alloc *alloc, const char *problem, const char *remedy);

/* A file of the page, packed where the browser takes it; 304 when it has it already. */
enum MHD_Result ds_reply_file(struct MHD_Connection *connection, const ds_page_file *file);

/* A header of the request; at == NULL without. */
ds_str ds_request_header(struct MHD_Connection *connection, const char *name);

#endif
