/* SPDX-License-Identifier: MIT */
/* Memory, standard output and messages. */
#include "cli/host.h"

#include "cli/page.h"

#include <errno.h>
#include <signal.h>
#include <stdlib.h>
#include <unistd.h>

#define OUT_OF_MEMORY                                                                                        \
    "dripstone: out of memory.\n  Close other programs, or split the job into several files.\n"

enum { DRAIN_AT = 1 << 16 };

static void *resize(void *const ctx, void *const old, const size_t old_size, const size_t new_size)
{
    (void)ctx;
    (void)old_size;
    if (new_size == 0) {
        free(old);
        return NULL;
    }
    return realloc(old, new_size);
}

const ds_alloc *ds_host_alloc(void)
{
    static const ds_alloc ALLOC = {resize, NULL};
    return &ALLOC;
}

void ds_host_open(ds_host *const host)
{
    *host = (ds_host){.alloc = ds_host_alloc(), .ascii = !ds_locale_is_utf8()};
    ds_text_init(&host->out, host->alloc);
    ds_text_init(&host->err, host->alloc);
    signal(SIGPIPE, SIG_IGN); /* a closed pipe then shows as EPIPE */
}

/* 0, or why not all was written. */
static int write_all(const int fd, const ds_str bytes)
{
    size_t done = 0;
    while (done < bytes.len) {
        const ssize_t n = write(fd, bytes.at + done, bytes.len - done);
        if (n >= 0) {
            done += (size_t)n;
        } else if (errno != EINTR) {
            return errno;
        }
    }
    return 0;
}

void ds_host_flush(ds_host *const host)
{
    if (!host->out_errno) {
        host->out_errno = write_all(STDOUT_FILENO, ds_text_str(&host->out));
    }
    host->out.len = 0;
}

bool ds_host_drain(ds_host *const host)
{
    if (host->out.len >= DRAIN_AT) {
        ds_host_flush(host);
    }
    return !host->out_errno;
}

static void say_output_failed(ds_host *const host)
{
    ds_text_add(&host->err, "dripstone: the output could not be written: ");
    ds_text_add(&host->err, strerror(host->out_errno));
    ds_text_add(&host->err, ".\n  What was written is not complete; make room or choose another place.\n");
}

int ds_host_close(ds_host *const host, int exit_status)
{
    if (!ds_text_ok(&host->out)) {
        exit_status = ds_host_fail_memory(host);
    }
    ds_host_flush(host);
    if (host->out_errno && host->out_errno != EPIPE) {
        say_output_failed(host);
        exit_status = DS_EXIT_UNREADABLE;
    }
    write_all(STDERR_FILENO, ds_text_ok(&host->err) ? ds_text_str(&host->err) : DS_STR(OUT_OF_MEMORY));
    ds_text_free(&host->out);
    ds_text_free(&host->err);
    return exit_status;
}

/* --- messages ----------------------------------------------------------------------------------------------------- */

int ds_host_fail(ds_host *const host, const char *const before, const ds_str name, const char *const after)
{
    ds_text_add(&host->err, "dripstone: ");
    ds_text_add(&host->err, before);
    if (name.at) {
        ds_text_add(&host->err, " '");
        ds_clean(&host->err, name, host->ascii);
        ds_text_char(&host->err, '\'');
    }
    ds_text_add(&host->err, after);
    ds_text_char(&host->err, '\n');
    return DS_EXIT_UNREADABLE;
}

int ds_host_fail_at(ds_host *const host, const ds_str file, const ds_problem *const problem)
{
    ds_text line;
    ds_text_init(&line, host->alloc);
    ds_text_adds(&line, file);
    if (problem->where.line) {
        ds_text_char(&line, ':');
        ds_text_int(&line, problem->where.line);
        ds_text_char(&line, ':');
        ds_text_int(&line, problem->where.column);
    }
    ds_text_add(&line, ": ");
    ds_problem_say(&line, problem);
    ds_text_add(&host->err, "dripstone: ");
    ds_clean(&host->err, ds_text_str(&line), host->ascii);
    ds_text_add(&host->err, line.len && line.at[line.len - 1] == '?' ? "\n  " : ".\n  ");
    line.len = 0;
    ds_problem_mend(&line, problem);
    ds_clean(&host->err, ds_text_str(&line), host->ascii);
    ds_text_char(&host->err, '\n');
    ds_text_free(&line);
    return DS_EXIT_UNREADABLE;
}

int ds_host_fail_memory(ds_host *const host)
{
    ds_text_add(&host->err, OUT_OF_MEMORY);
    return DS_EXIT_UNREADABLE;
}
