/* SPDX-License-Identifier: MIT */
/*
 * Any bytes as a request: its method, address and headers, a line each, an absent header as an empty line. What must hold
 * whatever comes: no crash; a refusal says why and nothing else; what is let through names this server, comes from no
 * other site's page and keeps to the methods of its address; one thing has one address; a value of the query is decoded
 * within its room, and a key that is given twice is never taken.
 */
#include "fuzz.h"

#include "serve/request.h"

#include <stdio.h>

enum { ROOM = 24 };

static const ds_guard GUARD = {.hosts = {{"127.0.0.1:8707", 14}, {"localhost:8707", 14}, {"[::1]:8707", 10}},
                               .hosts_len = 3};

/* The text up to the next end of line; at == NULL when it is empty. */
static ds_str next_line(ds_str *const rest)
{
    const char *const end = rest->len ? memchr(rest->at, '\n', rest->len) : NULL;
    const ds_str line = {rest->at, end ? (size_t)(end - rest->at) : rest->len};
    *rest = ds_str_from(*rest, line.len + 1);
    return line.len ? line : (ds_str){0};
}

static ds_request read_request(ds_str rest)
{
    ds_request r = {.method = next_line(&rest)};
    const ds_str address = next_line(&rest);
    const char *const mark = address.len ? memchr(address.at, '?', address.len) : NULL;
    r.path = mark ? (ds_str){address.at, (size_t)(mark - address.at)} : address;
    r.query = mark ? ds_str_from(address, r.path.len + 1) : (ds_str){0};
    r.host = next_line(&rest);
    r.origin = next_line(&rest);
    r.site = next_line(&rest);
    r.if_match = next_line(&rest);
    r.coding = next_line(&rest);
    r.unclear = next_line(&rest).at;
    return r;
}

/* --- routes ------------------------------------------------------------------------------------------------------- */

static bool is_host(const ds_str host)
{
    return ds_str_eq(host, GUARD.hosts[0]) || ds_str_eq(host, GUARD.hosts[1]) ||
           ds_str_eq(host, GUARD.hosts[2]);
}

static bool is_own_page(const ds_request *const r)
{
    const bool plain = ds_str_starts(r->origin, DS_STR("http://"));
    const bool origin = !r->origin.at || ((plain || ds_str_starts(r->origin, DS_STR("https://"))) &&
                                          is_host(ds_str_from(r->origin, plain ? 7 : 8)));
    return origin && (!r->site.at || ds_str_is(r->site, "same-origin") || ds_str_is(r->site, "none"));
}

static void check_refusal(const ds_routed *const routed)
{
    static const unsigned KNOWN[] = {400, 403, 404, 405, 415, 421, 428};
    bool known = false;
    for (size_t i = 0; i < sizeof KNOWN / sizeof *KNOWN; i++) {
        known = known || routed->status == KNOWN[i];
    }
    FUZZ_EXPECT(known && routed->problem && routed->remedy);
    FUZZ_EXPECT((routed->allow != NULL) == (routed->status == 405));
    FUZZ_EXPECT(!routed->close || routed->status == 400);
}

/* The address that a route stands for, made anew. */
static size_t put_address(char *const out, const size_t room, const ds_routed *const routed)
{
    switch (routed->route) {
    case DS_ROUTE_LIST:
    case DS_ROUTE_ADD:
        return (size_t)snprintf(out, room, "/api/jobs");
    case DS_ROUTE_VERSIONS:
        return (size_t)snprintf(out, room, "/api/jobs/%s/versions", routed->id);
    case DS_ROUTE_VERSION:
        return (size_t)snprintf(out, room, "/api/jobs/%s/versions/%lld", routed->id,
                                (long long)routed->version);
    case DS_ROUTE_ASK:
        return (size_t)snprintf(out, room, "/api/%s", routed->question->name);
    case DS_ROUTE_ORDER:
        return (size_t)snprintf(out, room, "/api/%s", routed->order->name);
    case DS_ROUTE_FILE:
        return (size_t)snprintf(out, room, "/%.*s", (int)routed->file.len, routed->file.at);
    default:
        return (size_t)snprintf(out, room, "/api/jobs/%s", routed->id);
    }
}

static void check_route(const ds_request *const r, const ds_routed *const routed)
{
    char address[4096];
    const bool reads = ds_str_is(r->method, "GET") || ds_str_is(r->method, "HEAD");
    const bool changes = routed->route == DS_ROUTE_SAVE || routed->route == DS_ROUTE_REMOVE;
    const bool answers =
        routed->route == DS_ROUTE_ADD || routed->route == DS_ROUTE_ASK || routed->route == DS_ROUTE_ORDER;
    FUZZ_EXPECT(is_host(r->host) && !r->unclear && !routed->close);
    FUZZ_EXPECT(!r->coding.at || ds_str_is(r->coding, "identity"));
    FUZZ_EXPECT(routed->route == DS_ROUTE_FILE || is_own_page(r));
    FUZZ_EXPECT(reads != (changes || answers));
    FUZZ_EXPECT(routed->head == ds_str_is(r->method, "HEAD"));
    FUZZ_EXPECT(r->path.len);
    if (!memchr(r->path.at, '\0', r->path.len) && r->path.len < sizeof address) {
        const size_t len = put_address(address, sizeof address, routed);
        FUZZ_EXPECT(ds_str_eq(r->path, (ds_str){address, len}));
    }
    if (changes) {
        FUZZ_EXPECT(r->if_match.len == strlen(routed->tag) + 2 && routed->tag[0]);
        FUZZ_EXPECT(memcmp(r->if_match.at + 1, routed->tag, r->if_match.len - 2) == 0);
    }
}

/* --- values ------------------------------------------------------------------------------------------------------- */

/* The value written again, each byte of it as %XX, reads the same. */
static void check_value(const char *const value, const size_t len)
{
    char query[8 + 3 * ROOM] = "x=";
    char again[ROOM];
    size_t again_len = 0;
    for (size_t i = 0; i < len; i++) {
        snprintf(query + 2 + 3 * i, 4, "%%%02x", (unsigned)(unsigned char)value[i]);
    }
    FUZZ_EXPECT(ds_request_value(ds_str_of(query), "x", again, ROOM, &again_len) == DS_VALUE_FOUND);
    FUZZ_EXPECT(again_len == len && memcmp(again, value, len) == 0);
}

static void check_query(const ds_str query, const char *const *const keys, const size_t keys_len)
{
    ds_text twice;
    ds_text_init(&twice, fuzz_alloc());
    for (size_t i = 0; i < keys_len && keys[i]; i++) {
        char *const value = malloc(ROOM); /* so that the address checks see its end */
        size_t len = 0;
        const ds_value found = ds_request_value(query, keys[i], value, ROOM, &len);
        if (found == DS_VALUE_FOUND) {
            FUZZ_EXPECT(len <= ROOM);
            check_value(value, len);
        }
        ds_text_adds(&twice, query);
        ds_text_add(&twice, "&");
        ds_text_add(&twice, keys[i]);
        ds_text_add(&twice, "=");
        const ds_value more = ds_request_value(ds_text_str(&twice), keys[i], value, ROOM, &len);
        FUZZ_EXPECT(more == (found == DS_VALUE_ABSENT ? DS_VALUE_FOUND : DS_VALUE_BAD));
        ds_text_free(&twice);
        free(value);
    }
    const ds_str odd = ds_request_odd_key(query, keys, keys_len);
    for (size_t i = 0; i < keys_len && keys[i]; i++) {
        FUZZ_EXPECT(!odd.at || !ds_str_is(odd, keys[i]));
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *const data, const size_t size)
{
    static const char *const KEYS[] = {"need", "mark", "place"};
    const ds_request request = read_request((ds_str){(const char *)data, size});
    const ds_routed routed = ds_request_route(&request, &GUARD);
    if (routed.status) {
        check_refusal(&routed);
    } else {
        check_route(&request, &routed);
    }
    check_query(request.query, KEYS, sizeof KEYS / sizeof *KEYS);
    return 0;
}
