/* SPDX-License-Identifier: MIT */
#include "serve/reply.h"

#include "core/json/write.h"

#include <stdio.h>

/* Nothing from anywhere else, nothing of ours in anybody's frame; WebAssembly may be compiled. */
static const char *const POLICY =
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; "
    "font-src 'self'; connect-src 'self'; worker-src 'self'; manifest-src 'self'; base-uri 'none'; "
    "form-action 'none'; "
    "frame-ancestors 'none'";

static struct MHD_Response *with_headers(struct MHD_Response *const reply, const char *const type)
{
    if (reply) {
        MHD_add_response_header(reply, "Content-Type", type);
        MHD_add_response_header(reply, "Content-Security-Policy", POLICY);
        MHD_add_response_header(reply, "X-Content-Type-Options", "nosniff");
        MHD_add_response_header(reply, "Referrer-Policy", "no-referrer");
        MHD_add_response_header(reply, "Cross-Origin-Resource-Policy", "same-origin");
        MHD_add_response_header(reply, "Cache-Control", "no-cache");
    }
    return reply;
}

static void free_body(void *const body)
{
    ds_text *const text = body;
    const ds_alloc *const alloc = text->alloc;
    ds_text_free(text);
    alloc->resize(alloc->ctx, text, sizeof *text, 0);
}

/* A large job need not stand in memory twice, so the text itself is what is sent. */
struct MHD_Response *ds_reply_make(ds_text *const body, const char *const type)
{
    const ds_alloc *const alloc = body->alloc;
    ds_text *const kept = ds_text_ok(body) ? alloc->resize(alloc->ctx, NULL, 0, sizeof *kept) : NULL;
    if (!kept) {
        ds_text_free(body);
        return NULL;
    }
    *kept = *body;
    ds_text_init(body, alloc);
    struct MHD_Response *const reply =
        MHD_create_response_from_buffer_with_free_callback_cls(kept->len, kept->at, free_body, kept);
    if (!reply) {
        free_body(kept);
    }
    return with_headers(reply, type);
}

struct MHD_Response *ds_reply_empty(const char *const type)
{
    return with_headers(MHD_create_response_from_buffer(0, NULL, MHD_RESPMEM_PERSISTENT), type);
}

enum MHD_Result ds_reply_send(struct MHD_Connection *const connection, const unsigned status,
                              struct MHD_Response *const reply)
{
    if (!reply) {
        return MHD_NO;
    }
    const enum MHD_Result queued = MHD_queue_response(connection, status, reply);
    MHD_destroy_response(reply);
    return queued;
}

struct MHD_Response *ds_reply_problem(const ds_alloc *const alloc, const char *const problem,
                                      const char *const remedy)
{
    ds_text text;
    ds_text_init(&text, alloc);
    ds_json_writer w = ds_json_writer_on(&text);
    ds_json_begin_object(&w);
    ds_json_put_key(&w, "problem");
    ds_json_put_text(&w, problem);
    ds_json_put_key(&w, "remedy");
    ds_json_put_text(&w, remedy);
    ds_json_end_object(&w);
    ds_text_char(&text, '\n');
    return ds_reply_make(&text, "application/json");
}

ds_str ds_request_header(struct MHD_Connection *const connection, const char *const name)
{
    const char *const value = MHD_lookup_connection_value(connection, MHD_HEADER_KIND, name);
    return value ? ds_str_of(value) : (ds_str){0};
}

/* A browser that weighs its wishes ("gzip;q=0") gets the plain bytes. */
static bool takes_gzip(struct MHD_Connection *const connection)
{
    const char *const takes = MHD_lookup_connection_value(connection, MHD_HEADER_KIND, "Accept-Encoding");
    return takes && strstr(takes, "gzip") && !strstr(takes, "gzip;");
}

enum MHD_Result ds_reply_file(struct MHD_Connection *const connection, const ds_page_file *const file)
{
    const bool packed = file->packed_at && takes_gzip(connection);
    const bool had = ds_str_is(ds_request_header(connection, "If-None-Match"), file->tag);
    const unsigned char *const at = packed ? file->packed_at : file->at;
    const size_t len = had ? 0 : packed ? file->packed_len : file->len;
    struct MHD_Response *const reply = with_headers(
        MHD_create_response_from_buffer(len, (void *)(uintptr_t)at, MHD_RESPMEM_PERSISTENT), file->type);
    if (reply) {
        MHD_add_response_header(reply, "ETag", file->tag);
        MHD_add_response_header(reply, "Vary", "Accept-Encoding");
    }
    if (reply && packed && !had) {
        MHD_add_response_header(reply, "Content-Encoding", "gzip");
    }
    return ds_reply_send(connection, had ? 304 : 200, reply);
}
