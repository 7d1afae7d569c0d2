/* SPDX-License-Identifier: MIT */
#include "serve/server.h"

#include "serve/brake.h"
#include "serve/clients.h"
#include "serve/handlers.h"
#include "serve/heading.h"

#include <arpa/inet.h>
#include <errno.h>
#include <netinet/in.h>
#include <stdio.h>

enum { SILENCE_S = 20, CONNECTIONS = DS_BRAKE_MOST, OF_ONE_ADDRESS = 500, HOST_NAMES = 8, HOST_ROOM = 300 };

struct ds_server {
    const ds_server_plan *plan;
    struct MHD_Daemon *daemon;
    ds_clients clients;
    ds_shelf shelf;
    ds_orders orders;
    ds_brake brake;
    size_t bodies; /* bytes of all bodies under way */
    uint16_t port;
    char names[HOST_NAMES][HOST_ROOM];
    ds_guard guard;
};

/* A request that is coming in. */
typedef struct arrival {
    bool begun;   /* its head has come, and routed says what it is for */
    bool guesses; /* the password is wrong, and nobody has waited for it yet */
    ds_routed routed;
    ds_text body;
    size_t taken;        /* of ds_server.bodies */
    ds_filling *filling; /* a paper that is being set; its connection sleeps */
    int64_t begun_s;
    size_t size;    /* of all this */
    ds_str query;   /* in address */
    char address[]; /* as it was sent, ended by a zero */
} arrival;

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

typedef enum entrance { MAY, MUST_SAY, GUESSES } entrance;

static entrance entrance_of(const ds_server *const server, struct MHD_Connection *const connection)
{
    if (!server->plan->password) {
        return MAY;
    }
    char *password = NULL;
    char *const user = MHD_basic_auth_get_username_password(connection, &password);
    const entrance found = !password                                       ? MUST_SAY
                           : same_secret(server->plan->password, password) ? MAY
                                                                           : GUESSES;
    MHD_free(user);
    MHD_free(password);
    return found;
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

/*
 * Before anything else is known of a request. The library hands the address over decoded and without its query later;
 * here it is as it was sent, and no address of ours has anything to decode.
 */
static void *note_address(void *const ctx, const char *const uri, struct MHD_Connection *const connection)
{
    (void)connection;
    const ds_alloc *const alloc = ((ds_server *)ctx)->plan->alloc;
    const size_t len = strlen(uri);
    const size_t size = sizeof(arrival) + len + 1;
    arrival *const a = alloc->resize(alloc->ctx, NULL, 0, size);
    if (a) {
        *a = (arrival){.size = size};
        memcpy(a->address, uri, len + 1);
        const char *const mark = strchr(a->address, '?');
        a->query = mark ? ds_str_of(mark + 1) : (ds_str){0};
        ds_text_init(&a->body, alloc);
    }
    return a;
}

/* Its head has come. Who may not enter is refused at once, so that nothing of theirs is kept. */
static void begin(ds_server *const server, arrival *const a, struct MHD_Connection *const connection,
                  const char *const method, const char *const version)
{
    const ds_request request = ds_heading_read(connection, method, version, a->address);
    a->routed = ds_request_route(&request, &server->guard);
    a->begun_s = ds_now_s();
    a->begun = true;
    const entrance found = a->routed.status ? MAY : entrance_of(server, connection);
    if (found != MAY) {
        a->routed.status = MHD_HTTP_UNAUTHORIZED;
        a->guesses = found == GUESSES;
    }
}

static void drop_body(ds_server *const server, arrival *const a)
{
    server->bodies -= a->taken;
    a->taken = 0;
    ds_text_free(&a->body);
}

static void refuse_body(ds_server *const server, arrival *const a, const unsigned status,
                        const char *const problem, const char *const remedy)
{
    a->routed.status = status;
    a->routed.problem = problem;
    a->routed.remedy = remedy;
    drop_body(server, a);
}

/* What was refused already is let fall, so that the client reads the answer. */
static void take_body(ds_server *const server, arrival *const a, struct MHD_Connection *const connection,
                      const ds_str piece)
{
    if (a->routed.status) {
        return;
    }
    if (a->taken + piece.len > DS_SERVER_BODY_MOST) {
        refuse_body(server, a, 413, "the document is larger than 64 MB", "Split the job into several.");
    } else if (server->bodies + piece.len > DS_SERVER_BODIES_MOST) {
        refuse_body(server, a, 503, "the server is busy with other large documents",
                    "Try again in a moment.");
    } else {
        a->taken += piece.len;
        server->bodies += piece.len;
        ds_text_adds(&a->body, piece);
        ds_clients_allow_request(connection, a->begun_s, a->taken);
    }
}

static enum MHD_Result reply_to(ds_server *const server, struct MHD_Connection *const connection,
                                arrival *const a)
{
    if (a->routed.status == MHD_HTTP_UNAUTHORIZED) {
        return ask_password(server, connection);
    }
    if (a->routed.status) {
        struct MHD_Response *const reply =
            ds_reply_problem(server->plan->alloc, a->routed.problem, a->routed.remedy);
        if (reply && a->routed.allow) {
            MHD_add_response_header(reply, "Allow", a->routed.allow);
        }
        if (reply && a->routed.close) {
            MHD_add_response_header(reply, "Connection", "close");
        }
        return ds_reply_send(connection, a->routed.status, reply);
    }
    if (!ds_text_ok(&a->body)) {
        return refuse(server, connection, 503, "the server has no memory left for this",
                      "Try again in a moment.");
    }
    const ds_handling handling = {.plan = server->plan,
                                  .shelf = &server->shelf,
                                  .orders = &server->orders,
                                  .filling = &a->filling,
                                  .connection = connection,
                                  .routed = &a->routed,
                                  .query = a->query,
                                  .body = ds_text_str(&a->body)};
    return ds_handle(&handling);
}

static enum MHD_Result on_request(void *const ctx, struct MHD_Connection *const connection,
                                  const char *const url, const char *const method, const char *const version,
                                  const char *const upload, size_t *const upload_len, void **const state)
{
    (void)url;
    ds_server *const server = ctx;
    arrival *const a = *state;
    if (!a) {
        return MHD_NO;
    }
    if (!a->begun) {
        begin(server, a, connection, method, version);
        return a->routed.close ? reply_to(server, connection, a) : MHD_YES;
    }
    if (*upload_len) {
        take_body(server, a, connection, (ds_str){upload, *upload_len});
        *upload_len = 0;
        return MHD_YES;
    }
    ds_clients_allow_answer(connection);
    if (a->guesses) {
        a->guesses = false;
        return ds_brake_hold(&server->brake, connection, ds_now_s()) ? MHD_YES : MHD_NO;
    }
    const enum MHD_Result done = reply_to(server, connection, a);
    if (a->filling) {
        drop_body(server, a); /* the process that sets the paper has its own */
    }
    return done;
}

static void on_end(void *const ctx, struct MHD_Connection *const connection, void **const state,
                   const enum MHD_RequestTerminationCode why)
{
    (void)why;
    ds_server *const server = ctx;
    const ds_alloc *const alloc = server->plan->alloc;
    arrival *const a = *state;
    if (a) {
        if (a->filling) {
            ds_orders_forget(a->filling);
        }
        drop_body(server, a);
        alloc->resize(alloc->ctx, a, a->size, 0);
    }
    *state = NULL;
    ds_clients_allow_request(connection, ds_now_s(), 0); /* the next one */
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

/* Browsers leave out the usual port, and put an IPv6 address in brackets. */
static void name_hosts(ds_server *const server)
{
    const ds_server_plan *const plan = server->plan;
    const bool usual = server->port == (plan->certificate ? 443 : 80);
    char own[HOST_ROOM];
    snprintf(own, sizeof own, plan->address && strchr(plan->address, ':') ? "[%s]" : "%s",
             plan->address ? plan->address : "127.0.0.1");
    const char *const names[] = {"127.0.0.1", "localhost", "[::1]", own, plan->name};
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

static bool is_every_address(const char *const address)
{
    return address && (strcmp(address, "0.0.0.0") == 0 || strcmp(address, "::") == 0);
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
    const unsigned flags = MHD_USE_EPOLL | MHD_ALLOW_SUSPEND_RESUME | (plan->certificate ? MHD_USE_TLS : 0) |
                           (address->ss_family == AF_INET6 ? MHD_USE_IPv6 : 0);
    const struct MHD_OptionItem tls[] = {
        {plan->certificate ? MHD_OPTION_HTTPS_MEM_KEY : MHD_OPTION_END, 0, (void *)(uintptr_t)plan->key},
        {MHD_OPTION_HTTPS_MEM_CERT, 0, (void *)(uintptr_t)plan->certificate},
        {MHD_OPTION_HTTPS_PRIORITIES, 0, (void *)(uintptr_t) "NORMAL:-VERS-TLS1.0:-VERS-TLS1.1"},
        {MHD_OPTION_END, 0, NULL}};
    return MHD_start_daemon(
        flags, server->port, NULL, NULL, on_request, server, MHD_OPTION_SOCK_ADDR, address,
        MHD_OPTION_URI_LOG_CALLBACK, note_address, server, MHD_OPTION_NOTIFY_COMPLETED, on_end, server,
        MHD_OPTION_NOTIFY_CONNECTION, ds_clients_note, &server->clients, MHD_OPTION_CONNECTION_TIMEOUT,
        (unsigned)SILENCE_S, MHD_OPTION_CONNECTION_LIMIT, (unsigned)CONNECTIONS,
        MHD_OPTION_PER_IP_CONNECTION_LIMIT, is_loopback(plan->address) ? 0U : (unsigned)OF_ONE_ADDRESS,
        MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_ARRAY, tls, MHD_OPTION_END);
}

static const char *fault_of(const ds_server_plan *const plan)
{
    if (!is_loopback(plan->address) && (!plan->password || !plan->certificate || !plan->key)) {
        return "others can reach that address: it takes a password, a certificate and its key";
    }
    if (is_every_address(plan->address) && !plan->name) {
        return "with every address of this machine it needs --name: the host name that browsers will use";
    }
    return (plan->certificate == NULL) != (plan->key == NULL) ? "certificate and key go together" : NULL;
}

static void say_no_start(const ds_server_plan *const plan, char why[DS_SERVER_WHY])
{
    const bool taken = errno == EADDRINUSE;
    if (plan->certificate && !errno) {
        snprintf(why, DS_SERVER_WHY, "the certificate or its key cannot be used");
    } else {
        snprintf(why, DS_SERVER_WHY, "port %u cannot be used: %s", (unsigned)plan->port,
                 taken ? "another program listens there" : strerror(errno));
    }
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
    errno = 0;
    server->daemon = start_daemon(server, &address);
    const union MHD_DaemonInfo *const info =
        server->daemon ? MHD_get_daemon_info(server->daemon, MHD_DAEMON_INFO_BIND_PORT) : NULL;
    if (!info) {
        say_no_start(server->plan, why);
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
    *server = (ds_server){.plan = plan, .clients = {.alloc = plan->alloc}, .orders = {.plan = plan}};
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

void ds_server_turn(ds_server *const server, const int32_t wait_ms)
{
    const bool busy = ds_orders_run(&server->orders);
    if (busy) {
        ds_orders_wait(&server->orders, server->daemon, wait_ms);
    }
    MHD_run_wait(server->daemon, busy ? 0 : wait_ms);
    ds_clients_drop(&server->clients);
    ds_brake_release(&server->brake, ds_now_s());
}

void ds_server_stop(ds_server *const server)
{
    if (server->daemon) {
        ds_orders_stop(&server->orders);
        ds_brake_stop(&server->brake);
        MHD_stop_daemon(server->daemon);
    }
    ds_shelf_empty(&server->shelf);
    const ds_alloc *const alloc = server->plan->alloc;
    alloc->resize(alloc->ctx, server, sizeof *server, 0);
}
