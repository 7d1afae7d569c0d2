/* SPDX-License-Identifier: MIT */
#include "serve/request.h"

static ds_routed refuse(const unsigned status, const char *const problem, const char *const remedy)
{
    return (ds_routed){.status = status, .problem = problem, .remedy = remedy};
}

/* Cuts off what stands before the next '/', which goes too. */
static ds_str take_part(ds_str *const rest)
{
    size_t len = 0;
    while (len < rest->len && rest->at[len] != '/') {
        len++;
    }
    const ds_str part = {rest->at, len};
    *rest = ds_str_from(*rest, len < rest->len ? len + 1 : len);
    return part;
}

/* --- who asks ----------------------------------------------------------------------------------------------------- */

static bool is_known_host(const ds_guard *const guard, const ds_str host)
{
    for (size_t i = 0; i < guard->hosts_len; i++) {
        if (ds_str_eq(guard->hosts[i], host)) {
            return true;
        }
    }
    return false;
}

/* "http://127.0.0.1:8707": the part after the scheme must be one of ours. */
static bool is_own_origin(const ds_guard *const guard, const ds_str origin)
{
    const size_t scheme = ds_str_starts(origin, DS_STR("http://"))    ? 7
                          : ds_str_starts(origin, DS_STR("https://")) ? 8
                                                                      : 0;
    return scheme && is_known_host(guard, ds_str_from(origin, scheme));
}

static bool is_foreign(const ds_request *const r, const ds_guard *const guard)
{
    const bool other_site = r->site.at && !ds_str_is(r->site, "same-origin") && !ds_str_is(r->site, "none");
    return (r->origin.at && !is_own_origin(guard, r->origin)) || other_site;
}

/* --- values ------------------------------------------------------------------------------------------------------- */

static int hex_of(const char c)
{
    return c >= '0' && c <= '9'   ? c - '0'
           : c >= 'a' && c <= 'f' ? c - 'a' + 10
           : c >= 'A' && c <= 'F' ? c - 'A' + 10
                                  : -1;
}

static bool decode(const ds_str text, char *const out, const size_t room, size_t *const len)
{
    *len = 0;
    for (size_t i = 0; i < text.len; i++) {
        char c = text.at[i] == '+' ? ' ' : text.at[i];
        if (c == '%') {
            const int high = i + 2 < text.len ? hex_of(text.at[i + 1]) : -1;
            const int low = i + 2 < text.len ? hex_of(text.at[i + 2]) : -1;
            if (high < 0 || low < 0) {
                return false;
            }
            c = (char)(unsigned char)(high * 16 + low);
            i += 2;
        }
        if (*len == room) {
            return false;
        }
        out[(*len)++] = c;
    }
    return true;
}

/* Cuts the next "key=value" off; value.at is NULL without "=". False at the end. */
static bool take_pair(ds_str *const query, ds_str *const key, ds_str *const value)
{
    size_t end = 0;
    size_t equals = SIZE_MAX;
    if (!query->len) {
        return false;
    }
    for (; end < query->len && query->at[end] != '&'; end++) {
        equals = equals == SIZE_MAX && query->at[end] == '=' ? end : equals;
    }
    const bool both = equals != SIZE_MAX;
    *key = (ds_str){query->at, both ? equals : end};
    *value = both ? (ds_str){query->at + equals + 1, end - equals - 1} : (ds_str){0};
    *query = ds_str_from(*query, end < query->len ? end + 1 : end);
    return true;
}

ds_value ds_request_value(ds_str query, const char *const name, char *const out, const size_t room,
                          size_t *const len)
{
    ds_value found = DS_VALUE_ABSENT;
    ds_str key;
    ds_str value;
    while (take_pair(&query, &key, &value)) {
        if (ds_str_is(key, name)) {
            const bool good = found == DS_VALUE_ABSENT && value.at && decode(value, out, room, len);
            found = good ? DS_VALUE_FOUND : DS_VALUE_BAD;
        }
    }
    return found;
}

static bool is_among(const ds_str key, const char *const *const keys, const size_t keys_len)
{
    for (size_t i = 0; i < keys_len && keys[i]; i++) {
        if (ds_str_is(key, keys[i])) {
            return true;
        }
    }
    return false;
}

ds_str ds_request_odd_key(ds_str query, const char *const *const keys, const size_t keys_len)
{
    ds_str key;
    ds_str value;
    while (take_pair(&query, &key, &value)) {
        if (!is_among(key, keys, keys_len)) {
            return key;
        }
    }
    return (ds_str){0};
}

/* A whole number from 1, written as it is in an address; 0 when it is none. */
static int64_t whole_of(const ds_str text)
{
    int64_t value = 0;
    for (size_t i = 0; i < text.len; i++) {
        if (text.at[i] < '0' || text.at[i] > '9' || (!value && text.at[i] == '0') || i > 15) {
            return 0;
        }
        value = value * 10 + (text.at[i] - '0');
    }
    return value;
}

/* What ETag gave, "3-9f…" in quotes, without them. Whether it is the latest is for the store to say. */
static bool copy_tag(char out[DS_STORE_TAG], const ds_str tag)
{
    const bool quoted = tag.len > 2 && tag.at[0] == '"' && tag.at[tag.len - 1] == '"';
    if (!quoted || tag.len - 2 >= DS_STORE_TAG) {
        return false;
    }
    const ds_str bare = {tag.at + 1, tag.len - 2};
    for (size_t i = 0; i < bare.len; i++) {
        if (hex_of(bare.at[i]) < 0 && bare.at[i] != '-') {
            return false;
        }
        out[i] = bare.at[i];
    }
    out[bare.len] = '\0';
    return true;
}

static bool copy_id(char out[DS_STORE_ID], const ds_str id)
{
    for (size_t i = 0; i < id.len; i++) {
        const bool plain = (id.at[i] >= 'a' && id.at[i] <= 'z') || (id.at[i] >= '0' && id.at[i] <= '9');
        if (!plain || i + 1 >= DS_STORE_ID) {
            return false;
        }
        out[i] = id.at[i];
    }
    out[id.len] = '\0';
    return id.len > 0;
}

/* --- routes ------------------------------------------------------------------------------------------------------- */

static ds_routed no_method(const char *const allow)
{
    ds_routed r =
        refuse(405, "this address does not take that method", "See docs/api.md for what each address takes.");
    r.allow = allow;
    return r;
}

static ds_routed nowhere(void)
{
    return refuse(404, "there is nothing at this address",
                  "The page is at /, the addresses of the API in docs/api.md.");
}

static bool reads(const ds_str method)
{
    return ds_str_is(method, "GET") || ds_str_is(method, "HEAD");
}

static ds_routed route_jobs(const ds_request *const r)
{
    if (reads(r->method)) {
        return (ds_routed){.route = DS_ROUTE_LIST};
    }
    if (ds_str_is(r->method, "POST")) {
        return (ds_routed){.route = DS_ROUTE_ADD};
    }
    return no_method("GET, HEAD, POST");
}

/* What changes a job names the version that it saw. */
static ds_routed route_change(const ds_request *const r, const ds_route route)
{
    ds_routed routed = {.route = route};
    if (!r->if_match.at) {
        return refuse(428, "If-Match is missing: a change names the version that it was made from",
                      "Send the ETag of the last answer as If-Match.");
    }
    if (!copy_tag(routed.tag, r->if_match)) {
        return refuse(400, "If-Match is no ETag of this server",
                      "Send the ETag as it was given, quotes included.");
    }
    return routed;
}

static ds_routed route_job(const ds_request *const r)
{
    if (reads(r->method)) {
        return (ds_routed){.route = DS_ROUTE_JOB};
    }
    if (ds_str_is(r->method, "PUT")) {
        return route_change(r, DS_ROUTE_SAVE);
    }
    return ds_str_is(r->method, "DELETE") ? route_change(r, DS_ROUTE_REMOVE)
                                          : no_method("GET, HEAD, PUT, DELETE");
}

static ds_routed route_below_job(const ds_request *const r, ds_str rest)
{
    const ds_str part = take_part(&rest);
    if (!ds_str_is(part, "versions")) {
        return nowhere();
    }
    if (!reads(r->method)) {
        return no_method("GET, HEAD");
    }
    if (!rest.len) {
        return (ds_routed){.route = DS_ROUTE_VERSIONS};
    }
    const ds_routed routed = {.route = DS_ROUTE_VERSION, .version = whole_of(rest)};
    return routed.version ? routed : nowhere();
}

static ds_routed route_jobs_tree(const ds_request *const r, ds_str rest)
{
    if (rest.len && rest.at[rest.len - 1] == '/') {
        return nowhere(); /* one thing has one address */
    }
    const ds_str id = take_part(&rest);
    ds_routed routed = rest.len ? route_below_job(r, rest) : route_job(r);
    if (!routed.status && !copy_id(routed.id, id)) {
        return nowhere();
    }
    return routed;
}

static ds_routed route_named(const ds_request *const r, const ds_str name)
{
    const ds_question_form *const question = ds_question_named(name);
    const ds_order_form *const order = ds_order_named(name);
    if (!question && !order) {
        return nowhere();
    }
    if (ds_str_is(r->method, "POST")) {
        const ds_route route = question ? DS_ROUTE_ASK : DS_ROUTE_ORDER;
        return (ds_routed){.route = route, .question = question, .order = order};
    }
    return no_method("POST");
}

static ds_routed route_api(const ds_request *const r, const ds_str rest)
{
    if (ds_str_is(rest, "jobs")) {
        return route_jobs(r);
    }
    return ds_str_starts(rest, DS_STR("jobs/")) ? route_jobs_tree(r, ds_str_from(rest, 5))
                                                : route_named(r, rest);
}

ds_routed ds_request_route(const ds_request *const r, const ds_guard *const guard)
{
    if (r->unclear) {
        ds_routed routed = refuse(400, "the request says in two ways whom it is for or where it ends",
                                  "One Host, and one Content-Length or Transfer-Encoding: chunked.");
        routed.close = true;
        return routed;
    }
    if (!is_known_host(guard, r->host)) {
        return refuse(421, "this server does not go by that name",
                      "Open the address that the program printed.");
    }
    if (!ds_str_starts(r->path, DS_STR("/"))) {
        return refuse(400, "the address is not readable", "An address begins with /.");
    }
    const bool api = ds_str_starts(r->path, DS_STR("/api/"));
    if (api && is_foreign(r, guard)) {
        return refuse(403, "another page may not use this server",
                      "Open the address that the program printed.");
    }
    if (r->coding.at && !ds_str_is(r->coding, "identity")) {
        return refuse(415, "the body is packed", "Send it as it is, without Content-Encoding.");
    }
    ds_routed routed = {.route = DS_ROUTE_FILE, .file = ds_str_from(r->path, 1)};
    if (api) {
        routed = route_api(r, ds_str_from(r->path, 5));
    } else if (!reads(r->method)) {
        routed = no_method("GET, HEAD");
    }
    routed.head = ds_str_is(r->method, "HEAD");
    return routed;
}
