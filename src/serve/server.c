/* SPDX-License-Identifier: MIT */
#include "serve/server.h"

#include "serve/handlers.h"

#include <arpa/inet.h>
#include <netinet/in.h>
#include <stdio.h>
#include <time.h>

/* A client has this long for its whole request, and this long for the next byte. */
enum { REQUEST_S = 60, SILENCE_S = 20, CONNECTIONS = 2000, HOST_NAMES = 8, HOST_ROOM = 300 };

struct ds_server {
    const ds_server_plan *plan;
    struct MHD_Daemon *daemon;
    ds_shelf shelf;
    size_t bodies; /* bytes of all bodies under way */
    uint16_t port;
    char names[HOST_NAMES][HOST_ROOM];
    ds_guard guard;
};

/* A request that is coming in. */
typedef struct arrival {
    ds_routed routed;
    ds_text body;
    ds_str query;
    time_t begun;
} arrival;

static time_t now_s(void)
{
    struct timespec t = {0};
    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec;
}

/* --- who may ------------------------------------------------------------------------------------------------------ */

/* Takes as long for a wrong password as for the right one. */
static bool same_secret(const char *const a, const char *const b)
{
    const size_t len = strlen(a);
    const size_t other = strlen(b);
    unsigned char differs = len != other;
    for (size_t i = 0; i < len; i++) {
        differs |= (unsigned char)(a[i] ^ (other ? b[i % other] : 0));
    }
    return !differs;
}

static bool may_enter(const ds_server *const server, struct MHD_Connection *const connection)
{
    if (!server->plan->password) {
        return true;
    }
    char *password = NULL;
    char *const user = MHD_basic_auth_get_username_password(connection, &password);
    const bool right = password && same_secret(server->plan->password, password);
    MHD_free(user);
    MHD_free(password);
    return right;
}

static enum MHD_Result ask_password(const ds_server *const server, struct MHD_Connection *const connection)
{
    struct MHD_Response *const reply = ds_reply_problem(server->plan->alloc, "a password is needed",
                                                        "Ask whoever started this server for it.");
    if (!reply) {
        return MHD_NO;
    }
    const enum MHD_Result queued = MHD_queue_basic_auth_fail_response(connection, "Dripstone", reply);
    MHD_destroy_response(reply);
    return queued;
}

/* --- arriving ----------------------------------------------------------------------------------------------------- */

static enum MHD_Result refuse(const ds_server *const server, struct MHD_Connection *const connection,
                              const unsigned status, const char *const problem, const char *const remedy)
{
    return ds_reply_send(connection, status, ds_reply_problem(server->plan->alloc, problem, remedy));
}

static ds_request request_of(struct MHD_Connection *const connection, const char *const url,
                             const char *const method, const ds_str query)
{
    return (ds_request){.method = ds_str_of(method),
                        .path = ds_str_of(url),
                        .query = query,
                        .host = ds_request_header(connection, "Host"),
                        .origin = ds_request_header(connection, "Origin"),
                        .site = ds_request_header(connection, "Sec-Fetch-Site"),
                        .if_match = ds_request_header(connection, "If-Match"),
                        .content_type = ds_request_header(connection, "Content-Type")};
}

/* The first call for a request: its head has come. */
static arrival *arrive(ds_server *const server, struct MHD_Connection *const connection,
                       const char *const url, const char *const method, const ds_str query)
{
    arrival *const a = server->plan->alloc->resize(server->plan->alloc->ctx, NULL, 0, sizeof *a);
    if (a) {
        const ds_request request = request_of(connection, url, method, query);
        *a =
            (arrival){.routed = ds_request_route(&request, &server->guard), .query = query, .begun = now_s()};
        ds_text_init(&a->body, server->plan->alloc);
    }
    return a;
}

/* False: it is too much or too slow, and the connection is to be closed. */
static bool take_body(ds_server *const server, arrival *const a, const char *const at, const size_t len)
{
    if (now_s() - a->begun > REQUEST_S) {
        return false;
    }
    if (a->routed.status) {
        return true; /* refused already: what comes is let fall */
    }
    if (a->body.len + len > DS_SERVER_BODY_MOST) {
        a->routed.status = 413;
        a->routed.problem = "the document is larger than 64 MB";
        a->routed.remedy = "Split the job into several.";
    } else if (server->bodies + len > DS_SERVER_BODIES_MOST) {
        a->routed.status = 503;
        a->routed.problem = "the server is busy with other large documents";
        a->routed.remedy = "Try again in a moment.";
    } else {
        server->bodies += len;
        ds_text_adds(&a->body, (ds_str){at, len});
    }
    return true;
}

static enum MHD_Result reply_to(ds_server *const server, struct MHD_Connection *const connection,
                                const arrival *const a)
{
    if (a->routed.status) {
        struct MHD_Response *const reply =
            ds_reply_problem(server->plan->alloc, a->routed.problem, a->routed.remedy);
        if (reply && a->routed.allow) {
            MHD_add_response_header(reply, "Allow", a->routed.allow);
        }
        return ds_reply_send(connection, a->routed.status, reply);
    }
    if (!ds_text_ok(&a->body)) {
        return refuse(server, connection, 503, "the server has no memory left for this",
                      "Try again in a moment.");
    }
    const ds_handling handling = {.plan = server->plan,
                                  .shelf = &server->shelf,
                                  .connection = connection,
                                  .routed = &a->routed,
                                  .query = a->query,
                                  .body = ds_text_str(&a->body)};
    return ds_handle(&handling);
}

/* The query as it was sent: the library hands the address over without it, and this before. */
typedef struct asked {
    arrival *arrival;
    char query[1];
} asked;

static void *note_address(void *const ctx, const char *const uri, struct MHD_Connection *const connection)
{
    (void)connection;
    ds_server *const server = ctx;
    const char *const mark = strchr(uri, '?');
    const size_t len = mark ? strlen(mark + 1) : 0;
    asked *const noted = server->plan->alloc->resize(server->plan->alloc->ctx, NULL, 0, sizeof *noted + len);
    if (noted) {
        noted->arrival = NULL;
        memcpy(noted->query, mark ? mark + 1 : "", len + 1);
    }
    return noted;
}

static enum MHD_Result on_request(void *const ctx, struct MHD_Connection *const connection,
                                  const char *const url, const char *const method, const char *const version,
                                  const char *const upload, size_t *const upload_len, void **const state)
{
    (void)version;
    ds_server *const server = ctx;
    asked *const noted = *state;
    if (!noted) {
        return MHD_NO;
    }
    if (!noted->arrival) {
        noted->arrival = arrive(server, connection, url, method, ds_str_of(noted->query));
        return noted->arrival ? MHD_YES : MHD_NO;
    }
    if (*upload_len) {
        const bool goes_on = take_body(server, noted->arrival, upload, *upload_len);
        *upload_len = 0;
        return goes_on ? MHD_YES : MHD_NO;
    }
    return may_enter(server, connection) ? reply_to(server, connection, noted->arrival)
                                         : ask_password(server, connection);
}

static void on_end(void *const ctx, struct MHD_Connection *const connection, void **const state,
                   const enum MHD_RequestTerminationCode why)
{
    (void)connection;
    (void)why;
    ds_server *const server = ctx;
    const ds_alloc *const alloc = server->plan->alloc;
    asked *const noted = *state;
    if (noted && noted->arrival) {
        server->bodies -= noted->arrival->body.len;
        ds_text_free(&noted->arrival->body);
        alloc->resize(alloc->ctx, noted->arrival, sizeof *noted->arrival, 0);
    }
    if (noted) {
        alloc->resize(alloc->ctx, noted, sizeof *noted + strlen(noted->query), 0);
    }
    *state = NULL;
}

/* --- starting ----------------------------------------------------------------------------------------------------- */

static void add_name(ds_server *const server, const char *const name, const bool with_port)
{
    if (server->guard.hosts_len < HOST_NAMES) {
        char *const room = server->names[server->guard.hosts_len];
        if (with_port) {
            snprintf(room, HOST_ROOM, "%s:%u", name, (unsigned)server->port);
        } else {
            snprintf(room, HOST_ROOM, "%s", name);
        }
        server->guard.hosts[server->guard.hosts_len++] = ds_str_of(room);
    }
}

/* Browsers leave out the usual port. */
static void name_hosts(ds_server *const server)
{
    const bool usual = server->port == (server->plan->certificate ? 443 : 80);
    const char *const names[] = {"127.0.0.1", "localhost", "[::1]", server->plan->name};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        if (names[i]) {
            add_name(server, names[i], !usual);
        }
    }
}

static bool is_loopback(const char *const address)
{
    return !address || strcmp(address, "127.0.0.1") == 0 || strcmp(address, "::1") == 0;
}

/* IPv4 or IPv6; 0: it is neither. */
static socklen_t read_address(struct sockaddr_storage *const out, const char *const address,
                              const uint16_t port)
{
    struct sockaddr_in *const four = (struct sockaddr_in *)out;
    struct sockaddr_in6 *const six = (struct sockaddr_in6 *)out;
    memset(out, 0, sizeof *out);
    if (inet_pton(AF_INET, address ? address : "127.0.0.1", &four->sin_addr) == 1) {
        four->sin_family = AF_INET;
        four->sin_port = htons(port);
        return sizeof *four;
    }
    memset(out, 0, sizeof *out);
    if (inet_pton(AF_INET6, address, &six->sin6_addr) == 1) {
        six->sin6_family = AF_INET6;
        six->sin6_port = htons(port);
        return sizeof *six;
    }
    return 0;
}

static struct MHD_Daemon *start_daemon(ds_server *const server, const struct sockaddr_storage *const address)
{
    const ds_server_plan *const plan = server->plan;
    const unsigned flags = MHD_USE_EPOLL_INTERNAL_THREAD | (plan->certificate ? MHD_USE_TLS : 0) |
                           (address->ss_family == AF_INET6 ? MHD_USE_IPv6 : 0);
    const struct MHD_OptionItem tls[] = {
        {plan->certificate ? MHD_OPTION_HTTPS_MEM_KEY : MHD_OPTION_END, 0, (void *)(uintptr_t)plan->key},
        {MHD_OPTION_HTTPS_MEM_CERT, 0, (void *)(uintptr_t)plan->certificate},
        {MHD_OPTION_END, 0, NULL}};
    return MHD_start_daemon(flags, server->port, NULL, NULL, on_request, server, MHD_OPTION_SOCK_ADDR,
                            address, MHD_OPTION_URI_LOG_CALLBACK, note_address, server,
                            MHD_OPTION_NOTIFY_COMPLETED, on_end, server, MHD_OPTION_CONNECTION_TIMEOUT,
                            (unsigned)SILENCE_S, MHD_OPTION_CONNECTION_LIMIT, (unsigned)CONNECTIONS,
                            MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_ARRAY, tls, MHD_OPTION_END);
}

static const char *fault_of(const ds_server_plan *const plan)
{
    if (!is_loopback(plan->address) && (!plan->password || !plan->certificate || !plan->key)) {
        return "others can reach that address: it takes a password, a certificate and its key";
    }
    return (plan->certificate == NULL) != (plan->key == NULL) ? "certificate and key go together" : NULL;
}

static bool start(ds_server *const server, char why[DS_SERVER_WHY])
{
    struct sockaddr_storage address;
    const char *const fault = fault_of(server->plan);
    if (fault || !read_address(&address, server->plan->address, server->plan->port)) {
        snprintf(why, DS_SERVER_WHY, "%s", fault ? fault : "the address is neither IPv4 nor IPv6");
        return false;
    }
    server->port = server->plan->port;
    server->daemon = start_daemon(server, &address);
    const union MHD_DaemonInfo *const info =
        server->daemon ? MHD_get_daemon_info(server->daemon, MHD_DAEMON_INFO_BIND_PORT) : NULL;
    if (!info) {
        snprintf(why, DS_SERVER_WHY, "port %u cannot be used; is another server running there?",
                 (unsigned)server->plan->port);
        return false;
    }
    server->port = info->port;
    name_hosts(server);
    return true;
}

bool ds_server_start(ds_server **const out, const ds_server_plan *const plan, char why[DS_SERVER_WHY])
{
    ds_server *const server = plan->alloc->resize(plan->alloc->ctx, NULL, 0, sizeof *server);
    if (!server) {
        snprintf(why, DS_SERVER_WHY, "out of memory");
        return false;
    }
    *server = (ds_server){.plan = plan};
    if (!start(server, why)) {
        ds_server_stop(server);
        return false;
    }
    *out = server;
    return true;
}

uint16_t ds_server_port(const ds_server *const server)
{
    return server->port;
}

void ds_server_stop(ds_server *const server)
{
    if (server->daemon) {
        MHD_stop_daemon(server->daemon);
    }
    ds_shelf_empty(&server->shelf);
    const ds_alloc *const alloc = server->plan->alloc;
    alloc->resize(alloc->ctx, server, sizeof *server, 0);
}
