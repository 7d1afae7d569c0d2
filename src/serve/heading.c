/* SPDX-License-Identifier: MIT */
#include "serve/heading.h"

#include "serve/reply.h"

#include <strings.h>

/* How often each is said that may be said once; odd: one that others may read in another way than the library does. */
typedef struct framing {
    unsigned hosts, lengths, codings;
    bool odd;
} framing;

static enum MHD_Result note(void *const ctx, const enum MHD_ValueKind kind, const char *const name,
                            const char *const value)
{
    (void)kind;
    framing *const f = ctx;
    const size_t len = strlen(name);
    const bool coding = strcasecmp(name, "Transfer-Encoding") == 0;
    f->hosts += strcasecmp(name, "Host") == 0;
    f->lengths += strcasecmp(name, "Content-Length") == 0;
    f->codings += coding;
    f->odd = f->odd || !len || strchr(" \t", name[len - 1]) ||
             (coding && strcasecmp(value ? value : "", "chunked") != 0);
    return MHD_YES;
}

/*
 * A program between may take another of two lengths than we do, and so see another request where its body ends
 * (RFC 9112, 6.3); the library itself takes what it finds first.
 */
static bool is_unclear(struct MHD_Connection *const connection, const char *const version)
{
    framing f = {0};
    MHD_get_connection_values(connection, MHD_HEADER_KIND, note, &f);
    const bool old = strcmp(version, "HTTP/1.1") != 0; /* they know of no chunks */
    return f.odd || f.hosts > 1 || f.lengths + f.codings > 1 || (old && f.codings);
}

ds_request ds_heading_read(struct MHD_Connection *const connection, const char *const method,
                           const char *const version, const char *const address)
{
    const char *const mark = strchr(address, '?');
    return (ds_request){.method = ds_str_of(method),
                        .path = {address, mark ? (size_t)(mark - address) : strlen(address)},
                        .query = mark ? ds_str_of(mark + 1) : (ds_str){0},
                        .host = ds_request_header(connection, "Host"),
                        .origin = ds_request_header(connection, "Origin"),
                        .site = ds_request_header(connection, "Sec-Fetch-Site"),
                        .if_match = ds_request_header(connection, "If-Match"),
                        .coding = ds_request_header(connection, "Content-Encoding"),
                        .unclear = is_unclear(connection, version)};
}
