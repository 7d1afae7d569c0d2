/* SPDX-License-Identifier: MIT */
#include "serve/handlers.h"

#include "core/job/job.h"
#include "core/json/write.h"

#include <stdio.h>

static const char JSON[] = "application/json";

/* --- replies ------------------------------------------------------------------------------------------------------ */

static enum MHD_Result send_problem(const ds_handling *const h, const unsigned status,
                                    const char *const problem, const char *const remedy)
{
    return ds_reply_send(h->connection, status, ds_reply_problem(h->plan->alloc, problem, remedy));
}

static enum MHD_Result send_no_memory(const ds_handling *const h)
{
    return send_problem(h, 503, "the server has no memory left for this", "Try again in a moment.");
}

/* Text is freed. */
static enum MHD_Result send_text(const ds_handling *const h, const unsigned status, ds_text *const text,
                                 const char *const type)
{
    const bool made = ds_text_ok(text);
    const enum MHD_Result sent =
        made ? ds_reply_send(h->connection, status, ds_reply_make(ds_text_str(text), type))
             : send_no_memory(h);
    ds_text_free(text);
    return sent;
}

static enum MHD_Result send_failure(const ds_handling *const h, const ds_store_status status)
{
    switch (status) {
    case DS_STORE_ABSENT:
        return send_problem(h, 404, "there is no such job here", "GET /api/jobs lists those that there are.");
    case DS_STORE_DIFFERS:
        return send_problem(h, 412, "the job here is not the one that the change was made from",
                            "Read it again, merge, and save with its ETag.");
    case DS_STORE_FULL:
        return send_problem(h, 507, "the disk is full; what was saved before is whole",
                            "Make room and save again.");
    case DS_STORE_BUSY:
        return send_problem(h, 503, "the jobs are locked by another program", "Try again in a moment.");
    case DS_STORE_NO_MEMORY:
        return send_no_memory(h);
    default:
        fprintf(stderr, "dripstone: %s\n", ds_store_why(h->plan->store));
        return send_problem(h, 500, "the jobs cannot be read or written",
                            "The server's own output says why.");
    }
}

/* "3-9f…" with the quotes of an ETag. */
static void quote_tag(char out[DS_STORE_TAG + 2], const ds_stored *const stored)
{
    snprintf(out, DS_STORE_TAG + 2, "\"%s\"", stored->tag);
}

/* --- lists -------------------------------------------------------------------------------------------------------- */

static void put_entry(void *const ctx, const ds_stored *const stored)
{
    ds_json_writer *const w = ctx;
    ds_json_begin_object(w);
    ds_json_put_key(w, "id");
    ds_json_put_text(w, stored->id);
    ds_json_put_key(w, "title");
    ds_json_put_str(w, stored->title);
    ds_json_put_key(w, "points");
    ds_json_put_int(w, stored->points);
    ds_json_put_key(w, "version");
    ds_json_put_int(w, stored->version);
    ds_json_put_key(w, "saved");
    ds_json_put_text(w, stored->saved);
    if (stored->removed) {
        ds_json_put_key(w, "removed");
        ds_json_put_bool(w, true);
    }
    ds_json_end_object(w);
}

static enum MHD_Result send_list(const ds_handling *const h, const char *const key)
{
    ds_text text;
    ds_text_init(&text, h->plan->alloc);
    ds_json_writer w = ds_json_writer_on(&text);
    ds_json_begin_object(&w);
    ds_json_put_key(&w, key);
    ds_json_begin_array(&w);
    const bool versions = h->routed->route == DS_ROUTE_VERSIONS;
    const ds_store_status status = versions ? ds_store_versions(h->plan->store, h->routed->id, put_entry, &w)
                                            : ds_store_list(h->plan->store, put_entry, &w);
    ds_json_end_array(&w);
    ds_json_end_object(&w);
    ds_text_char(&text, '\n');
    if (status != DS_STORE_OK) {
        ds_text_free(&text);
        return send_failure(h, status);
    }
    return send_text(h, 200, &text, JSON);
}

/* --- reading a job ------------------------------------------------------------------------------------------------ */

void ds_shelf_empty(ds_shelf *const shelf)
{
    for (size_t i = 0; i < DS_SHELF_JOBS; i++) {
        if (shelf->jobs[i].reply) {
            MHD_destroy_response(shelf->jobs[i].reply);
            shelf->jobs[i].reply = NULL;
        }
    }
}

static void forget(ds_shelf *const shelf, const char *const id)
{
    for (size_t i = 0; i < DS_SHELF_JOBS; i++) {
        if (shelf->jobs[i].reply && strcmp(shelf->jobs[i].id, id) == 0) {
            MHD_destroy_response(shelf->jobs[i].reply);
            shelf->jobs[i].reply = NULL;
        }
    }
}

static struct MHD_Response *on_shelf(ds_shelf *const shelf, const char *const id)
{
    for (size_t i = 0; i < DS_SHELF_JOBS; i++) {
        if (shelf->jobs[i].reply && strcmp(shelf->jobs[i].id, id) == 0) {
            shelf->jobs[i].used = ++shelf->clock;
            return shelf->jobs[i].reply;
        }
    }
    return NULL;
}

/* The place of the one that was used longest ago. */
static void put_on_shelf(ds_shelf *const shelf, const char *const id, struct MHD_Response *const reply)
{
    size_t oldest = 0;
    for (size_t i = 0; i < DS_SHELF_JOBS; i++) {
        if (!shelf->jobs[i].reply) {
            oldest = i;
            break;
        }
        oldest = shelf->jobs[i].used < shelf->jobs[oldest].used ? i : oldest;
    }
    if (shelf->jobs[oldest].reply) {
        MHD_destroy_response(shelf->jobs[oldest].reply);
    }
    snprintf(shelf->jobs[oldest].id, DS_STORE_ID, "%s", id);
    shelf->jobs[oldest].reply = reply;
    shelf->jobs[oldest].used = ++shelf->clock;
}

/* A reply of the stored document; NULL: *status says why, or memory is short. */
static struct MHD_Response *read_job(const ds_handling *const h, ds_store_status *const status)
{
    ds_text text;
    ds_stored stored;
    ds_text_init(&text, h->plan->alloc);
    *status = ds_store_get(h->plan->store, &text, &stored, h->routed->id, h->routed->version);
    struct MHD_Response *const reply =
        *status == DS_STORE_OK ? ds_reply_make(ds_text_str(&text), JSON) : NULL;
    ds_text_free(&text);
    if (reply) {
        char tag[DS_STORE_TAG + 2];
        quote_tag(tag, &stored);
        MHD_add_response_header(reply, "ETag", tag);
    }
    return reply;
}

static enum MHD_Result send_job(const ds_handling *const h)
{
    ds_shelf *const shelf = h->shelf;
    const int64_t epoch = ds_store_epoch(h->plan->store);
    if (epoch != shelf->epoch) {
        ds_shelf_empty(shelf);
        shelf->epoch = epoch;
    }
    struct MHD_Response *reply = on_shelf(shelf, h->routed->id);
    if (!reply) {
        ds_store_status status = DS_STORE_OK;
        reply = read_job(h, &status);
        if (!reply) {
            return status == DS_STORE_OK ? send_no_memory(h) : send_failure(h, status);
        }
        put_on_shelf(shelf, h->routed->id, reply);
    }
    const ds_str known = ds_request_header(h->connection, "If-None-Match");
    const char *const tag = MHD_get_response_header(reply, "ETag");
    if (known.at && ds_str_is(known, tag)) {
        struct MHD_Response *const same = ds_reply_make(DS_STR(""), JSON);
        if (same) {
            MHD_add_response_header(same, "ETag", tag);
        }
        return ds_reply_send(h->connection, 304, same);
    }
    return MHD_queue_response(h->connection, 200, reply);
}

static enum MHD_Result send_version(const ds_handling *const h)
{
    ds_store_status status = DS_STORE_OK;
    struct MHD_Response *const reply = read_job(h, &status);
    if (!reply) {
        return status == DS_STORE_OK ? send_no_memory(h) : send_failure(h, status);
    }
    return ds_reply_send(h->connection, 200, reply);
}

/* --- writing a job ------------------------------------------------------------------------------------------------ */

/* Saves what is a job, and refuses what is none with its place. */
static enum MHD_Result save(const ds_handling *const h, const ds_job *const job)
{
    const ds_store_about about = {.title = job->title, .points = (int64_t)job->points_len};
    const bool added = h->routed->route == DS_ROUTE_ADD;
    ds_stored stored;
    const ds_store_status status =
        added ? ds_store_add(h->plan->store, &stored, h->body, about)
              : ds_store_save(h->plan->store, &stored, h->routed->id, h->routed->version, h->body, about);
    if (status != DS_STORE_OK) {
        return send_failure(h, status);
    }
    forget(h->shelf, stored.id);
    stored.title = about.title;
    ds_text text;
    ds_text_init(&text, h->plan->alloc);
    ds_json_writer w = ds_json_writer_on(&text);
    put_entry(&w, &stored);
    ds_text_char(&text, '\n');
    struct MHD_Response *const reply = ds_text_ok(&text) ? ds_reply_make(ds_text_str(&text), JSON) : NULL;
    ds_text_free(&text);
    if (reply) {
        char tag[DS_STORE_TAG + 2];
        char where[sizeof "/api/jobs/" + DS_STORE_ID];
        quote_tag(tag, &stored);
        snprintf(where, sizeof where, "/api/jobs/%s", stored.id);
        MHD_add_response_header(reply, "ETag", tag);
        MHD_add_response_header(reply, "Location", where);
    }
    return ds_reply_send(h->connection, added ? 201 : 200, reply);
}

static enum MHD_Result take_job(const ds_handling *const h)
{
    ds_arena arena;
    ds_job job;
    ds_problem problem = {0};
    ds_arena_init(&arena, h->plan->alloc);
    const ds_status status = ds_job_read(&job, h->body, &arena, &problem);
    enum MHD_Result sent = MHD_NO;
    if (status == DS_OK) {
        sent = save(h, &job);
    } else if (status == DS_BAD_INPUT) {
        ds_text text;
        ds_text_init(&text, h->plan->alloc);
        ds_answer_problem(&text, &problem);
        sent = send_text(h, 400, &text, JSON);
    } else {
        sent = send_no_memory(h);
    }
    ds_arena_free(&arena);
    return sent;
}

static enum MHD_Result remove_job(const ds_handling *const h)
{
    const ds_store_status status = ds_store_remove(h->plan->store, h->routed->id, h->routed->version);
    if (status != DS_STORE_OK) {
        return send_failure(h, status);
    }
    forget(h->shelf, h->routed->id);
    return ds_reply_send(h->connection, 204, ds_reply_make(DS_STR(""), JSON));
}

/* --- questions ---------------------------------------------------------------------------------------------------- */

enum { VALUE_MOST = 4096 };

/* What no text holds stands between two texts of a body: the record separator of ASCII. */
static ds_str take_piece(ds_str *const body)
{
    const char *const end = body->len ? memchr(body->at, 0x1e, body->len) : NULL;
    const ds_str piece = {body->at, end ? (size_t)(end - body->at) : body->len};
    const size_t gone = end ? piece.len + 1 : piece.len;
    *body = (ds_str){body->at + gone, body->len - gone};
    return piece;
}

/* Texts come from the query by name; those that are not there from the body, in order. */
static enum MHD_Result answer(const ds_handling *const h)
{
    const ds_question_form *const form = h->routed->question;
    char values[DS_QUESTION_TEXTS][VALUE_MOST];
    ds_str texts[DS_QUESTION_TEXTS] = {{0}};
    ds_str body = h->body;
    for (size_t i = 0; i < DS_QUESTION_TEXTS && form->texts[i]; i++) {
        size_t len = 0;
        const bool in_query = ds_request_value(h->query, form->texts[i], values[i], VALUE_MOST, &len);
        texts[i] = in_query ? (ds_str){values[i], len} : take_piece(&body);
        texts[i].at = texts[i].at ? texts[i].at : "";
    }
    const ds_desk desk = {.alloc = h->plan->alloc, .book = h->plan->book, .sizes = h->plan->sizes};
    ds_text text;
    ds_text_init(&text, h->plan->alloc);
    const ds_answer given = form->answer(&text, &desk, texts);
    if (given == DS_ANSWER_NO_MEMORY) {
        ds_text_free(&text);
        return send_no_memory(h);
    }
    const bool readable = given != DS_ANSWER_UNREADABLE;
    return send_text(h, readable ? 200 : 422, &text, readable && form->drawing ? "image/svg+xml" : JSON);
}

/* --- all ---------------------------------------------------------------------------------------------------------- */

static enum MHD_Result send_file(const ds_handling *const h)
{
    const ds_page_file *const file = ds_page_file_named(h->routed->file);
    return file ? ds_reply_file(h->connection, file)
                : send_problem(h, 404, "there is nothing at this address", "The page is at /.");
}

enum MHD_Result ds_handle(const ds_handling *const h)
{
    switch (h->routed->route) {
    case DS_ROUTE_LIST:
        return send_list(h, "jobs");
    case DS_ROUTE_VERSIONS:
        return send_list(h, "versions");
    case DS_ROUTE_JOB:
        return send_job(h);
    case DS_ROUTE_VERSION:
        return send_version(h);
    case DS_ROUTE_ADD:
    case DS_ROUTE_SAVE:
        return take_job(h);
    case DS_ROUTE_REMOVE:
        return remove_job(h);
    case DS_ROUTE_ASK:
        return answer(h);
    case DS_ROUTE_FILE:
    default:
        return send_file(h);
    }
}
