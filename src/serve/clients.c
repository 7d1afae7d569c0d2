/* SPDX-License-Identifier: MIT */
#include "serve/clients.h"

#include <errno.h>
#include <sys/socket.h>
#include <time.h>

enum {
    REQUEST_S = 60,         /* for a request, and … */
    BYTES_A_SECOND = 65536, /* … one more for so many bytes of it */
    ANSWER_S = 300
};

struct ds_client {
    ds_client *next, *before;
    struct MHD_Connection *connection;
    int64_t until_s;
    bool answered; /* its request is in; it may have closed its own side by now, and read on */
};

int64_t ds_now_s(void)
{
    struct timespec t = {0};
    clock_gettime(CLOCK_MONOTONIC, &t);
    return t.tv_sec;
}

/* NULL when memory is short: then only its silence is watched. */
static ds_client *add(ds_clients *const clients, struct MHD_Connection *const connection)
{
    ds_client *const c = clients->alloc->resize(clients->alloc->ctx, NULL, 0, sizeof *c);
    if (c) {
        *c = (ds_client){.connection = connection, .next = clients->first, .until_s = ds_now_s() + REQUEST_S};
        if (c->next) {
            c->next->before = c;
        }
        clients->first = c;
    }
    return c;
}

static void take_out(ds_clients *const clients, ds_client *const c)
{
    if (c->before) {
        c->before->next = c->next;
    } else {
        clients->first = c->next;
    }
    if (c->next) {
        c->next->before = c->before;
    }
    clients->alloc->resize(clients->alloc->ctx, c, sizeof *c, 0);
}

void ds_clients_note(void *const ctx, struct MHD_Connection *const connection, void **const mark,
                     const enum MHD_ConnectionNotificationCode what)
{
    if (what == MHD_CONNECTION_NOTIFY_STARTED) {
        *mark = add(ctx, connection);
    } else if (*mark) {
        take_out(ctx, *mark);
        *mark = NULL;
    }
}

static void allow(struct MHD_Connection *const connection, const int64_t until_s, const bool answered)
{
    const union MHD_ConnectionInfo *const info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT);
    ds_client *const c = info ? info->socket_context : NULL;
    if (c) {
        c->until_s = until_s;
        c->answered = answered;
    }
}

void ds_clients_allow_request(struct MHD_Connection *const connection, const int64_t begun_s,
                              const size_t body_len)
{
    allow(connection, begun_s + REQUEST_S + (int64_t)(body_len / BYTES_A_SECOND), false);
}

void ds_clients_allow_answer(struct MHD_Connection *const connection)
{
    allow(connection, ds_now_s() + ANSWER_S, true);
}

static bool has_left(const int fd)
{
    char byte;
    const ssize_t some = recv(fd, &byte, 1, MSG_PEEK | MSG_DONTWAIT);
    return some == 0 || (some < 0 && errno == ECONNRESET);
}

bool ds_client_has_left(struct MHD_Connection *const connection)
{
    const union MHD_ConnectionInfo *const info =
        MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    return info && has_left(info->connect_fd);
}

void ds_clients_drop(ds_clients *const clients)
{
    const int64_t now = ds_now_s();
    for (const ds_client *c = now == clients->swept_s ? NULL : clients->first; c; c = c->next) {
        const union MHD_ConnectionInfo *const info =
            MHD_get_connection_info(c->connection, MHD_CONNECTION_INFO_CONNECTION_FD);
        if (info && (c->until_s < now || (!c->answered && has_left(info->connect_fd)))) {
            shutdown(info->connect_fd, SHUT_RDWR);
        }
    }
    clients->swept_s = now;
}
