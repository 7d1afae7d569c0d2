/* SPDX-License-Identifier: MIT */
/* dripstone serve: the page and its jobs, for this machine. */
#include "cli/commands.h"
#include "cli/orders.h"
#include "core/job/job.h"
#include "serve/budget.h"
#include "serve/server.h"

#include <malloc.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static const ds_option OPTIONS[] = {
    {"port", 'p', "N", "port to listen at, 8707 unless said otherwise; 0: any free one"},
    {"data", 0, "DIR", "where jobs are kept, in your own data folder unless said otherwise"},
    {"open", 0, NULL, "open the page in the browser"},
    {"listen", 0, "ADDRESS", "listen at this address in place of 127.0.0.1; takes the next three as well"},
    {"password-file", 0, "FILE", "ask for the password in this file"},
    {"tls-cert", 0, "FILE", "certificate, PEM"},
    {"tls-key", 0, "FILE", "its key, PEM"},
    {"name", 0, "HOST", "host name that browsers will use for it"},
    {"pack", 0, "FILE", "also read this rule pack; a job must name it in \"rules\" (may be repeated)"},
    {"words", 0, "FILE", "also read these words (may be repeated)"},
    {0},
};

enum { PATH_ROOM = 4096, FILES = 4096, TURN_MS = 500 };

/* All that lives as long as the server runs. */
typedef struct serving {
    ds_host *host;
    const ds_args *args;
    ds_book *book;
    ds_store *store;
    ds_server *server;
    ds_file password, certificate, key;
    char folder[PATH_ROOM];
} serving;

/* --- options ------------------------------------------------------------------------------------------------------ */

static bool read_port(const serving *const s, uint16_t *const out)
{
    const ds_str text = ds_args_value(s->args, "port");
    double value = DS_SERVER_PORT;
    if (text.at &&
        (!ds_number_read(text, &value) || value < 0 || value > 65535 || value != (double)(uint16_t)value)) {
        ds_fail_usage(s->host, &DS_SERVE, "--port takes a number from 0 to 65535.");
        return false;
    }
    *out = (uint16_t)value;
    return true;
}

/* The folder asked for, or the person's own for data: $XDG_DATA_HOME/dripstone. */
static bool choose_folder(serving *const s)
{
    const ds_str asked = ds_args_value(s->args, "data");
    const char *const data = getenv("XDG_DATA_HOME");
    const char *const home = getenv("HOME");
    int len = -1;
    if (asked.at) {
        len = snprintf(s->folder, PATH_ROOM, "%.*s", (int)asked.len, asked.at);
    } else if (data && data[0] == '/') {
        len = snprintf(s->folder, PATH_ROOM, "%s/dripstone", data);
    } else if (home) {
        len = snprintf(s->folder, PATH_ROOM, "%s/.local/share/dripstone", home);
    }
    if (len <= 0 || len >= PATH_ROOM) {
        ds_host_fail(s->host, "there is no folder to keep jobs in; name one with --data.", (ds_str){0}, "");
        return false;
    }
    return true;
}

/* A file as one text ended by a zero; NULL when the option was not given, or it was said why not. */
static const char *read_text(const serving *const s, const char *const option, ds_file *const file,
                             bool *const failed)
{
    const ds_str name = ds_args_value(s->args, option);
    if (!name.at) {
        return NULL;
    }
    if (!ds_file_read(file, s->host, name)) {
        *failed = true;
        return NULL;
    }
    char *const text = s->host->alloc->resize(s->host->alloc->ctx, file->at, file->room, file->len + 1);
    if (!text) {
        *failed = true;
        return NULL;
    }
    file->at = text;
    file->room = file->len + 1;
    text[file->len] = '\0';
    return text;
}

static const char *read_password(serving *const s, bool *const failed)
{
    (void)read_text(s, "password-file", &s->password, failed);
    char *const text = s->password.at;
    if (text) {
        text[strcspn(text, "\r\n")] = '\0';
        if (strlen(text) < 8) {
            ds_host_fail(s->host, "the password has fewer than 8 letters:", s->password.name, "");
            *failed = true;
        }
    }
    return text;
}

/* --- jobs at the start -------------------------------------------------------------------------------------------- */

static void note_any(void *const ctx, const ds_stored *const stored)
{
    (void)stored;
    *(bool *)ctx = true;
}

static bool add_job(const serving *const s, const ds_str name)
{
    ds_file file;
    if (!ds_file_read(&file, s->host, name)) {
        return false;
    }
    ds_arena arena;
    ds_job job;
    ds_problem problem = {0};
    ds_stored stored;
    const ds_str text = {file.at, file.len};
    ds_arena_init(&arena, s->host->alloc);
    const ds_status status = ds_job_read(&job, text, &arena, &problem);
    bool added = false;
    if (status == DS_OK) {
        const ds_store_about about = {.title = job.title, .points = (int64_t)job.points_len};
        added = ds_store_add(s->store, &stored, text, about) == DS_STORE_OK;
    }
    if (!added && status == DS_BAD_INPUT) {
        ds_host_fail_at(s->host, name, &problem);
    } else if (!added) {
        ds_host_fail(s->host, "could not keep", name, "");
    }
    ds_arena_free(&arena);
    ds_file_free(&file, s->host);
    return added;
}

/* The jobs named on the command line, into a store that is still empty. */
static bool add_jobs(const serving *const s)
{
    bool any = false;
    ds_store_list(s->store, note_any, &any);
    for (int i = 0; !any && i < s->args->words_len; i++) {
        if (!add_job(s, ds_str_of(s->args->words[i]))) {
            return false;
        }
    }
    return true;
}

/* --- running ------------------------------------------------------------------------------------------------------ */

static volatile sig_atomic_t ended;

static void on_signal(const int which)
{
    (void)which;
    ended = 1;
}

/* http://127.0.0.1:8707/ */
static void put_address(ds_text *const out, const serving *const s, const bool secret)
{
    const ds_str listen = ds_args_value(s->args, "listen");
    const ds_str name = ds_args_value(s->args, "name");
    const bool brackets = !name.at && listen.at && memchr(listen.at, ':', listen.len);
    ds_text_add(out, secret ? "https://" : "http://");
    ds_text_add(out, brackets ? "[" : "");
    ds_text_adds(out, name.at ? name : listen.at ? listen : DS_STR("127.0.0.1"));
    ds_text_add(out, brackets ? "]:" : ":");
    ds_text_int(out, ds_server_port(s->server));
    ds_text_char(out, '/');
}

static void print_address(const serving *const s, const bool secret)
{
    put_address(&s->host->out, s, secret);
    ds_text_add(&s->host->out, "\nJobs are kept in ");
    ds_text_add(&s->host->out, s->folder);
    ds_text_add(&s->host->out, ". Ctrl-C ends it.\n");
    ds_host_flush(s->host);
}

/* Without a browser nothing happens: the address is printed. It is nobody's child, so that nobody need wait for it. */
static void open_browser(const serving *const s, const bool secret)
{
    ds_text address;
    ds_text_init(&address, s->host->alloc);
    put_address(&address, s, secret);
    ds_text_char(&address, '\0');
    const pid_t between = ds_text_ok(&address) ? fork() : -1;
    if (between == 0) {
        if (fork() == 0) {
            signal(SIGPIPE, SIG_DFL);
            signal(SIGXFSZ, SIG_DFL);
            execlp("xdg-open", "xdg-open", address.at, (char *)NULL);
        }
        _exit(0);
    }
    if (between > 0) {
        waitpid(between, NULL, 0);
    }
    ds_text_free(&address);
}

/* Large texts go back to the system at once, so that memory is that of the jobs open now. */
static void keep_memory_small(void)
{
#ifdef __GLIBC__
    mallopt(M_MMAP_THRESHOLD, 1 << 18);
    mallopt(M_TRIM_THRESHOLD, 1 << 20);
#endif
}

/* What the process is given as a server: files for its connections, and signals that end it kindly or not at all. */
static void prepare_process(void)
{
    struct rlimit files;
    if (getrlimit(RLIMIT_NOFILE, &files) == 0 && files.rlim_cur < FILES && files.rlim_cur < files.rlim_max) {
        files.rlim_cur = files.rlim_max < FILES ? files.rlim_max : FILES;
        setrlimit(RLIMIT_NOFILE, &files);
    }
    /* The first ends it after the answer under way, a second one at once: what is acknowledged is on the disk. */
    const struct sigaction end = {.sa_handler = on_signal, .sa_flags = (int)SA_RESETHAND};
    sigaction(SIGINT, &end, NULL);
    sigaction(SIGTERM, &end, NULL);
    signal(SIGPIPE, SIG_IGN);
    signal(SIGXFSZ, SIG_IGN); /* a full disk shows as such in the answer */
    umask(0077);
    keep_memory_small();
}

static int serve(serving *const s)
{
    bool failed = false;
    char why[DS_SERVER_WHY];
    ds_budget budget;
    ds_server_plan plan = {
        .alloc = &budget.alloc, .book = &s->book->rules, .sizes = &s->book->sizes, .store = s->store};
    ds_budget_init(&budget, s->host->alloc, DS_SERVER_MEMORY_MOST);
    ds_order_desk desk = {.host = s->host, .book = s->book};
    plan.fill_order = ds_order_fill_here;
    plan.fill_ctx = &desk;
    plan.password = read_password(s, &failed);
    plan.certificate = read_text(s, "tls-cert", &s->certificate, &failed);
    plan.key = read_text(s, "tls-key", &s->key, &failed);
    plan.address = ds_args_value(s->args, "listen").at;
    plan.name = ds_args_value(s->args, "name").at;
    if (failed || !read_port(s, &plan.port) || !add_jobs(s)) {
        return DS_EXIT_UNREADABLE;
    }
    if (!ds_server_start(&s->server, &plan, why)) {
        return ds_host_fail(s->host, why, (ds_str){0}, "");
    }
    print_address(s, plan.certificate != NULL);
    if (ds_args_has(s->args, "open")) {
        open_browser(s, plan.certificate != NULL);
    }
    while (!ended) {
        ds_server_turn(s->server, TURN_MS);
    }
    ds_server_stop(s->server);
    return DS_EXIT_FINE;
}

static int run(ds_host *const host, const ds_args *const args)
{
    serving s = {.host = host, .args = args};
    char why[DS_SERVER_WHY];
    int status = DS_EXIT_UNREADABLE;
    prepare_process();
    s.book = choose_folder(&s) ? ds_book_open(host, args, "pack") : NULL;
    if (s.book) {
        const ds_store_status opened = ds_store_open(&s.store, s.folder, host->alloc, why);
        status = opened == DS_STORE_OK ? serve(&s) : ds_host_fail(host, why, ds_str_of(s.folder), "");
    }
    if (s.store) {
        ds_store_close(s.store);
    }
    if (s.book) {
        ds_book_close(s.book, host);
    }
    ds_file_free(&s.password, host);
    ds_file_free(&s.certificate, host);
    ds_file_free(&s.key, host);
    return status;
}

const ds_command DS_SERVE = {
    .name = "serve",
    .usage = "[JOB]... [--port N] [--data DIR] [--open] [OPTION]...",
    .summary = "the page: survey, plan and verdicts in the browser",
    .help =
        "Serves the page and keeps its jobs, every saved version of them. Only this machine can reach it, "
        "unless "
        "--listen names another address, which takes --password-file, --tls-cert and --tls-key. Job files "
        "named "
        "are taken in when no job is kept yet.\n"
        "\n"
        "The page works on without the server, keeps what is entered, and sends it when the server is back.\n"
        "\n"
        "Exit status: 0 ended by Ctrl-C or SIGTERM; 2 it could not start.\n"
        "\n"
        "  dripstone serve --open\n"
        "  dripstone serve --port 0 --data ./jobs\n",
    .options = OPTIONS,
    .run = run,
};
