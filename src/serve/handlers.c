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

/* The text goes. */
static enum MHD_Result send_text(const ds_handling *const h, const unsigned status, ds_text *const text,
                                 const char *const type)
{
    struct MHD_Response *const reply = ds_reply_make(text, type);
    return reply ? ds_reply_send(h->connection, status, reply) : send_no_memory(h);
}

static enum MHD_Result send_failure(const ds_handling *const h, const ds_store_status status)
{
    switch (status) {
    case DS_STORE_ABSENT:
        return send_problem(h, 404, "there is no such job here", "GET /api/jobs lists those that there are.");
    case DS_STORE_FULL:
        fprintf(stderr, "dripstone: no room in the data folder: %s\n", ds_store_why(h->plan->store));
        return send_problem(h, 507, "the disk is full; what was saved before is whole",
                            "Make room and save again.");
    case DS_STORE_BUSY:
        return send_problem(h, 503, "the jobs are locked by another program", "Try again in a moment.");
    case DS_STORE_NO_MEMORY:
        return send_no_memory(h);
    default:
        fprintf(stderr, "dripstone: the jobs in the data folder: %s\n", ds_store_why(h->plan->store));
        return send_problem(h, 500, "the jobs cannot be read or written",
                            "The server's own output says why.");
    }
}

/* Without effect on no reply. */
static struct MHD_Response *with_tag(struct MHD_Response *const reply, const ds_stored *const stored)
{
    char tag[DS_STORE_TAG + 2];
    snprintf(tag, sizeof tag, "\"%s\"", stored->tag);
    if (reply) {
        MHD_add_response_header(reply, "ETag", tag);
    }
    return reply;
}

/* The job has gone on since: says to which version. */
static enum MHD_Result send_differs(const ds_handling *const h, const ds_stored *const latest)
{
    ds_text text;
    ds_text_init(&text, h->plan->alloc);
    ds_json_writer w = ds_json_writer_on(&text);
    ds_json_begin_object(&w);
    ds_json_put_key(&w, "problem");
    ds_json_put_text(&w, latest->removed ? "the job here has been removed since"
                                         : "the job here is not the one that the change was made from");
    ds_json_put_key(&w, "remedy");
    ds_json_put_text(&w, latest->removed ? "Save it with the ETag of this answer to have it back."
                                         : "Read it again, merge, and save with its ETag.");
    ds_json_put_key(&w, "version");
    ds_json_put_int(&w, latest->version);
    ds_json_end_object(&w);
    ds_text_char(&text, '\n');
    struct MHD_Response *const reply = with_tag(ds_reply_make(&text, JSON), latest);
    return reply ? ds_reply_send(h->connection, 412, reply) : send_no_memory(h);
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
    ds_json_put_key(w, "tag");
    ds_json_put_text(w, stored->tag);
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

/* A reply of the stored document, and its length; NULL: *status says why, or memory is short. */
static struct MHD_Response *read_job(const ds_handling *const h, ds_store_status *const status,
                                     size_t *const len)
{
    ds_text text;
    ds_stored stored;
    ds_text_init(&text, h->plan->alloc);
    *status = ds_store_get(h->plan->store, &text, &stored, h->routed->id, h->routed->version);
    if (*status != DS_STORE_OK) {
        ds_text_free(&text);
        return NULL;
    }
    *len = text.len;
    return with_tag(ds_reply_make(&text, JSON), &stored);
}

/* 304 when the asker has it already. */
static enum MHD_Result send_unless_known(const ds_handling *const h, struct MHD_Response *const reply)
{
    const char *const tag = MHD_get_response_header(reply, "ETag");
    const ds_str known = ds_request_header(h->connection, "If-None-Match");
    if (!tag || !known.at || !ds_str_is(known, tag)) {
        return MHD_queue_response(h->connection, 200, reply);
    }
    struct MHD_Response *const same = ds_reply_empty(JSON);
    if (same) {
        MHD_add_response_header(same, "ETag", tag);
    }
    return ds_reply_send(h->connection, 304, same);
}

/* Keeps it for the next one who asks, unless it is a version or large: memory is that of the jobs being sent. */
static enum MHD_Result send_read(const ds_handling *const h)
{
    ds_store_status status = DS_STORE_OK;
    size_t len = 0;
    struct MHD_Response *const reply = read_job(h, &status, &len);
    if (!reply) {
        return status == DS_STORE_OK ? send_no_memory(h) : send_failure(h, status);
    }
    const enum MHD_Result queued = send_unless_known(h, reply);
    if (h->routed->route == DS_ROUTE_JOB && len <= DS_SHELF_LARGEST) {
        put_on_shelf(h->shelf, h->routed->id, reply);
    } else {
        MHD_destroy_response(reply);
    }
    return queued;
}

static enum MHD_Result send_job(const ds_handling *const h)
{
    ds_shelf *const shelf = h->shelf;
    const int64_t epoch = ds_store_epoch(h->plan->store);
    if (epoch != shelf->epoch) {
        ds_shelf_empty(shelf);
        shelf->epoch = epoch;
    }
    struct MHD_Response *const reply = on_shelf(shelf, h->routed->id);
    return reply ? send_unless_known(h, reply) : send_read(h);
}

/* --- writing a job ------------------------------------------------------------------------------------------------ */

/* What was saved, with its tag and address. */
static enum MHD_Result send_saved(const ds_handling *const h, const unsigned status,
                                  const ds_stored *const stored)
{
    ds_text text;
    char where[sizeof "/api/jobs/" + DS_STORE_ID];
    ds_text_init(&text, h->plan->alloc);
    ds_json_writer w = ds_json_writer_on(&text);
    put_entry(&w, stored);
    ds_text_char(&text, '\n');
    struct MHD_Response *const reply = with_tag(ds_reply_make(&text, JSON), stored);
    snprintf(where, sizeof where, "/api/jobs/%s", stored->id);
    if (reply) {
        MHD_add_response_header(reply, "Location", where);
    }
    return reply ? ds_reply_send(h->connection, status, reply) : send_no_memory(h);
}

static enum MHD_Result save(const ds_handling *const h, const ds_store_about about)
{
    const ds_routed *const r = h->routed;
    const bool added = r->route == DS_ROUTE_ADD;
    ds_stored stored;
    const ds_store_status status =
        added ? ds_store_add(h->plan->store, &stored, h->body, about)
              : ds_store_save(h->plan->store, &stored, r->id, r->tag, h->body, about);
    if (status != DS_STORE_OK) {
        return status == DS_STORE_DIFFERS ? send_differs(h, &stored) : send_failure(h, status);
    }
    forget(h->shelf, stored.id);
    stored.title = about.title;
    return send_saved(h, added ? 201 : 200, &stored);
}

/* Not a job: says what is wrong and where. */
static enum MHD_Result send_unreadable(const ds_handling *const h, const ds_problem *const problem)
{
    ds_text text;
    ds_text_init(&text, h->plan->alloc);
    ds_answer_problem(&text, problem);
    return send_text(h, 400, &text, JSON);
}

/* Saves what is a job. All but its title is let go before, since a large one takes several times its text. */
static enum MHD_Result take_job(const ds_handling *const h)
{
    ds_arena arena;
    ds_job job;
    ds_text title;
    ds_problem problem = {0};
    ds_arena_init(&arena, h->plan->alloc);
    ds_text_init(&title, h->plan->alloc);
    const ds_status status = ds_job_read(&job, h->body, &arena, &problem);
    if (status == DS_BAD_INPUT) {
        const enum MHD_Result sent = send_unreadable(h, &problem);
        ds_arena_free(&arena);
        return sent;
    }
    const int64_t points = status == DS_OK ? (int64_t)job.points_len : 0;
    if (status == DS_OK) {
        ds_text_adds(&title, job.title);
    }
    ds_arena_free(&arena);
    const bool ready = status == DS_OK && ds_text_ok(&title);
    const enum MHD_Result sent =
        ready ? save(h, (ds_store_about){.title = ds_text_str(&title), .points = points}) : send_no_memory(h);
    ds_text_free(&title);
    return sent;
}

static enum MHD_Result remove_job(const ds_handling *const h)
{
    const ds_routed *const r = h->routed;
    ds_stored stored;
    const ds_store_status status = ds_store_remove(h->plan->store, &stored, r->id, r->tag);
    if (status != DS_STORE_OK) {
        return status == DS_STORE_DIFFERS ? send_differs(h, &stored) : send_failure(h, status);
    }
    forget(h->shelf, r->id);
    return ds_reply_send(h->connection, 204, with_tag(ds_reply_empty(JSON), &stored));
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

/* Values of a query, decoded. */
typedef struct pieces {
    char values[DS_QUESTION_TEXTS][VALUE_MOST];
    ds_str texts[DS_QUESTION_TEXTS];
} pieces;

/* Texts come from the query by name; those that are not there from the body, in order. NULL, or what is wrong. */
static const char *take_texts(pieces *const p, const ds_handling *const h)
{
    const char *const *const names = h->routed->question->texts;
    ds_str body = h->body;
    if (ds_request_odd_key(h->query, names, DS_QUESTION_TEXTS).at) {
        return "the address has a name that this question does not take";
    }
    for (size_t i = 0; i < DS_QUESTION_TEXTS; i++) {
        size_t len = 0;
        const ds_value value =
            names[i] ? ds_request_value(h->query, names[i], p->values[i], VALUE_MOST, &len) : DS_VALUE_ABSENT;
        if (value == DS_VALUE_BAD) {
            return "a value in the address is ill-formed, longer than 4,096 bytes or given twice";
        }
        const bool in_body = value == DS_VALUE_ABSENT && names[i];
        p->texts[i] = in_body ? take_piece(&body) : (ds_str){p->values[i], len};
        p->texts[i].at = p->texts[i].at ? p->texts[i].at : "";
    }
    return body.len ? "the body has more texts than this question takes" : NULL;
}

static enum MHD_Result answer(const ds_handling *const h)
{
    const ds_question_form *const form = h->routed->question;
    pieces p;
    const char *const fault = take_texts(&p, h);
    if (fault) {
        return send_problem(h, 400, fault, "See docs/api.md for what each question takes.");
    }
    const ds_desk desk = {.alloc = h->plan->alloc, .book = h->plan->book, .sizes = h->plan->sizes};
    ds_text text;
    ds_text_init(&text, h->plan->alloc);
    const ds_answer given = form->answer(&text, &desk, p.texts);
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

static enum MHD_Result take_order(const ds_handling *const h)
{
    if (*h->filling) {
        ds_filling *const filling = *h->filling;
        *h->filling = NULL;
        return ds_orders_answer(h->orders, filling);
    }
    return ds_orders_take(h->orders, h->connection, h->filling, h->routed->order, h->query, h->body);
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
        return send_read(h);
    case DS_ROUTE_ADD:
    case DS_ROUTE_SAVE:
        return take_job(h);
    case DS_ROUTE_REMOVE:
        return remove_job(h);
    case DS_ROUTE_ASK:
        return answer(h);
    case DS_ROUTE_ORDER:
        return take_order(h);
    case DS_ROUTE_FILE:
    default:
        return send_file(h);
    }
}
