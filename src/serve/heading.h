/* SPDX-License-Identifier: MIT */
/* The head of a request, from the library's hands: private to serve/. */
#ifndef DS_SERVE_HEADING_H
#define DS_SERVE_HEADING_H

#include "serve/request.h"

#include <microhttpd.h>

/* The address as it was sent; all texts are the connection's. */
ds_request ds_heading_read(struct MHD_Connection *connection, const char *method, const char *version,
                           const char *address);

#endif
