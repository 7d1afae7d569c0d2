/* SPDX-License-Identifier: MIT */
/* The page's files, put into the program by the build (web/embed.mjs). */
#ifndef DS_SERVE_FILES_H
#define DS_SERVE_FILES_H

#include "core/base/str.h"

typedef struct ds_page_file {
    const char *name; /* "app.js"; the page itself is "index.html" */
    const char *type; /* of its content */
    const char *tag;  /* W/"…", changes with its content; the same however it is packed */
    const unsigned char *at, *packed_at; /* packed by gzip; NULL where that saves nothing */
    size_t len, packed_len;
} ds_page_file;

extern const ds_page_file DS_PAGE_FILES[];
extern const size_t DS_PAGE_FILES_LEN;

/* NULL: there is none of that name. An empty name is the page itself. */
const ds_page_file *ds_page_file_named(ds_str name);

#endif
