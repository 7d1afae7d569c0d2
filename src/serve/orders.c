/* SPDX-License-Identifier: MIT */
#include "serve/orders.h"

#include "serve/clients.h"
#include "serve/request.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

enum { VALUE_MOST = 100, PIECE = 1 << 16, PIECES_A_TURN = 64, TO_SERVER = 3 };

/* Exit statuses of a process that came to its end; one that a library ended by itself has another. */
enum { ENDS_FROM = 40 };

/* --- the process -------------------------------------------------------------------------------------------------- */

static bool write_all(const int to, const ds_str text)
{
    size_t done = 0;
    while (done < text.len) {
        const ssize_t some = write(to, text.at + done, text.len - done);
        if (some > 0) {
            done += (size_t)some;
        } else if (errno != EINTR) {
            return false;
        }
    }
    return true;
}

/* Where memory runs out, this process is to go, not the server. */
static void offer_itself(void)
{
    const int score = open("/proc/self/oom_score_adj", O_WRONLY);
    if (score >= 0) {
        (void)!write(score, "500", 3);
        close(score);
    }
}

/*
 * In the forked process: nothing of the server's is touched, its connections and database are let go of, and it ends
 * without the clearing up that the server does. Signals end it, as does too long a time.
 */
static _Noreturn void fill(const ds_server_plan *const plan, const ds_order *const order, const int to)
{
    const struct rlimit time = {DS_ORDER_CPU_S, DS_ORDER_CPU_S};
    ds_text out;
    if (dup2(to, TO_SERVER) < 0) {
        _exit(ENDS_FROM + DS_ORDER_FAILED);
    }
    closefrom(TO_SERVER + 1);
    signal(SIGINT, SIG_DFL);
    signal(SIGTERM, SIG_DFL);
    signal(SIGPIPE, SIG_DFL);
    setrlimit(RLIMIT_CPU, &time);
    (void)!nice(5);
    offer_itself();
    ds_text_init(&out, plan->alloc);
    ds_order_end end = plan->fill_order(&out, order, plan->fill_ctx);
    if (!ds_text_ok(&out)) {
        end = DS_ORDER_NO_MEMORY;
    }
    _exit(ENDS_FROM + (write_all(TO_SERVER, ds_text_str(&out)) ? (int)end : DS_ORDER_FAILED));
}

/* False when the system has no process or pipe left. */
static bool start(ds_filling *const f, const ds_server_plan *const plan, const ds_order *const order)
{
    int ends[2];
    if (pipe(ends) != 0) {
        return false;
    }
    fcntl(ends[0], F_SETFL, O_NONBLOCK);
    fcntl(ends[0], F_SETFD, FD_CLOEXEC);
    f->pid = fork();
    if (f->pid == 0) {
        fill(plan, order, ends[1]);
    }
    close(ends[1]);
    f->from = ends[0];
    if (f->pid < 0) {
        f->pid = 0;
        close(f->from);
        return false;
    }
    ds_text_init(&f->out, plan->alloc);
    return true;
}

/* What it wrote is in; how it ended is its exit status. */
static void end(ds_filling *const f)
{
    int status = 0;
    const pid_t waited = waitpid(f->pid, &status, 0);
    const int told = waited == f->pid && WIFEXITED(status) ? WEXITSTATUS(status) - ENDS_FROM : -1;
    f->end = told >= 0 && told < DS_ORDER_FAILED ? (ds_order_end)told : DS_ORDER_FAILED;
    f->pid = 0;
    close(f->from);
    MHD_resume_connection(f->connection);
}

static void kill_off(ds_filling *const f)
{
    kill(f->pid, SIGKILL);
    end(f);
    ds_text_free(&f->out);
    f->end = DS_ORDER_FAILED;
}

/* What has come since; some of it when there is much, so that others have their turn. */
static void take_in(ds_filling *const f)
{
    char piece[PIECE];
    for (int i = 0; i < PIECES_A_TURN; i++) {
        const ssize_t some = read(f->from, piece, PIECE);
        if (some == 0) {
            end(f);
            return;
        }
        if (some < 0) {
            return;
        }
        ds_text_bytes(&f->out, piece, (size_t)some);
        if (!ds_text_ok(&f->out) || f->out.len > DS_ORDER_BYTES_MOST) {
            kill_off(f);
            f->end = DS_ORDER_NO_MEMORY;
            return;
        }
    }
}

/* --- orders ------------------------------------------------------------------------------------------------------- */

static enum MHD_Result refuse(const ds_orders *const orders, struct MHD_Connection *const connection,
                              const unsigned status, const char *const problem, const char *const remedy)
{
    struct MHD_Response *const reply = ds_reply_problem(orders->plan->alloc, problem, remedy);
    if (reply && status == MHD_HTTP_SERVICE_UNAVAILABLE) {
        MHD_add_response_header(reply, "Retry-After", "5");
    }
    return ds_reply_send(connection, status, reply);
}

/* Values of the address; NULL, or what is wrong with them. */
static const char *take_values(ds_order *const order, char room[DS_ORDER_KEYS][VALUE_MOST],
                               const ds_order_form *const form, const ds_str query)
{
    if (ds_request_odd_key(query, form->keys, DS_ORDER_KEYS).at) {
        return "the address has a name that this order does not take";
    }
    for (size_t i = 0; i < DS_ORDER_KEYS && form->keys[i]; i++) {
        size_t len = 0;
        const ds_value value = ds_request_value(query, form->keys[i], room[i], VALUE_MOST, &len);
        if (value == DS_VALUE_BAD) {
            return "a value in the address is ill-formed, longer than 100 bytes or given twice";
        }
        order->values[i] = value == DS_VALUE_FOUND ? (ds_str){room[i], len} : (ds_str){0};
    }
    return NULL;
}

static ds_filling *free_filling(ds_orders *const orders)
{
    for (size_t i = 0; i < DS_ORDERS_MOST; i++) {
        if (!orders->fillings[i].connection) {
            return &orders->fillings[i];
        }
    }
    return NULL;
}

enum MHD_Result ds_orders_take(ds_orders *const orders, struct MHD_Connection *const connection,
                               ds_filling **const filling, const ds_order_form *const form,
                               const ds_str query, const ds_str body)
{
    char room[DS_ORDER_KEYS][VALUE_MOST];
    ds_order order = {.kind = form->kind, .body = body};
    const char *const fault = take_values(&order, room, form, query);
    if (fault) {
        return refuse(orders, connection, 400, fault, "See docs/api.md for what each order takes.");
    }
    if (!orders->plan->fill_order) {
        return refuse(orders, connection, 501, "this server sets no papers",
                      "The program does: dripstone paper.");
    }
    ds_filling *const f = free_filling(orders);
    if (!f || !start(f, orders->plan, &order)) {
        return refuse(orders, connection, 503, "the server is busy with other papers",
                      "Try again in a few seconds.");
    }
    f->form = form;
    f->connection = connection;
    *filling = f;
    MHD_suspend_connection(connection);
    return MHD_YES;
}

static struct MHD_Response *filled(ds_filling *const f)
{
    char as[100];
    struct MHD_Response *const reply = ds_reply_make(&f->out, f->form->type);
    snprintf(as, sizeof as, "attachment; filename=\"%s\"", f->form->file);
    if (reply) {
        MHD_add_response_header(reply, "Content-Disposition", as);
    }
    return reply;
}

enum MHD_Result ds_orders_answer(ds_orders *const orders, ds_filling *const f)
{
    struct MHD_Connection *const connection = f->connection;
    f->connection = NULL;
    if (f->end == DS_ORDER_FILLED) {
        return ds_reply_send(connection, 200, filled(f));
    }
    if (f->end == DS_ORDER_REFUSED) {
        return ds_reply_send(connection, 422, ds_reply_make(&f->out, "application/json"));
    }
    ds_text_free(&f->out);
    switch (f->end) {
    case DS_ORDER_NO_MEMORY:
        return refuse(orders, connection, 503, "the server has no memory left for this",
                      "Try again in a moment.");
    case DS_ORDER_NO_ROOM:
        return refuse(orders, connection, 507, "the folder for temporary files is full",
                      "Make room there and try again.");
    default:
        return refuse(orders, connection, 500, "the paper could not be set",
                      "The server's own output says why; the command line may still set it.");
    }
}

/* --- waiting ------------------------------------------------------------------------------------------------------ */

bool ds_orders_run(const ds_orders *const orders)
{
    for (size_t i = 0; i < DS_ORDERS_MOST; i++) {
        if (orders->fillings[i].pid) {
            return true;
        }
    }
    return false;
}

/* The library wakes for its own connections by one descriptor, and says how long it may sleep at most. */
static int time_of(struct MHD_Daemon *const daemon, const int32_t wait_ms)
{
    MHD_UNSIGNED_LONG_LONG most = 0;
    const bool bounded = MHD_get_timeout(daemon, &most) == MHD_YES;
    return bounded && most < (MHD_UNSIGNED_LONG_LONG)wait_ms ? (int)most : (int)wait_ms;
}

/* At most once a second. */
static void end_unwanted(ds_orders *const orders)
{
    const int64_t now = ds_now_s();
    for (size_t i = 0; now != orders->swept_s && i < DS_ORDERS_MOST; i++) {
        ds_filling *const f = &orders->fillings[i];
        if (f->pid && ds_client_has_left(f->connection)) {
            kill_off(f);
        }
    }
    orders->swept_s = now;
}

void ds_orders_wait(ds_orders *const orders, struct MHD_Daemon *const daemon, const int32_t wait_ms)
{
    const union MHD_DaemonInfo *const info = MHD_get_daemon_info(daemon, MHD_DAEMON_INFO_EPOLL_FD);
    struct pollfd fds[DS_ORDERS_MOST + 1] = {{.fd = info ? info->epoll_fd : -1, .events = POLLIN}};
    for (size_t i = 0; i < DS_ORDERS_MOST; i++) {
        const ds_filling *const f = &orders->fillings[i];
        fds[i + 1] = (struct pollfd){.fd = f->pid ? f->from : -1, .events = POLLIN};
    }
    if (poll(fds, DS_ORDERS_MOST + 1, time_of(daemon, wait_ms)) > 0) {
        for (size_t i = 0; i < DS_ORDERS_MOST; i++) {
            if (fds[i + 1].revents) {
                take_in(&orders->fillings[i]);
            }
        }
    }
    end_unwanted(orders);
}

void ds_orders_forget(ds_filling *const f)
{
    ds_text_free(&f->out);
    f->connection = NULL;
}

void ds_orders_stop(ds_orders *const orders)
{
    for (size_t i = 0; i < DS_ORDERS_MOST; i++) {
        if (orders->fillings[i].pid) {
            kill_off(&orders->fillings[i]);
        }
    }
}
