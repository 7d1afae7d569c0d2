/* SPDX-License-Identifier: MIT */
/*
 * Files, whole. Read by plain reads (a mapped file that another program shortens would end this one), the size of a
 * regular file taken as a hint. Written aside, flushed to disk and linked into place.
 */
#define _XOPEN_SOURCE 700 /* mkstemp, fchmod, realpath, O_CLOEXEC; NOLINT(bugprone-reserved-identifier) */
#include "cli/host.h"

#include "cli/page.h"
#include "core/json/json.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/stat.h>
#include <unistd.h>

enum { FIRST_ROOM = 1 << 16, PATH_ROOM = 4096 };

/* Beside the system's own numbers, which are above 0. */
enum { NOT_ORDINARY = -1, LEADS_NOWHERE = -2 };

/* A path ended by a zero byte; false when it does not fit. */
static bool copy_path(char out[PATH_ROOM], const ds_str name, const char *const end)
{
    const size_t end_len = strlen(end);
    if (name.len + end_len >= PATH_ROOM) {
        return false;
    }
    memcpy(out, name.at, name.len);
    memcpy(out + name.len, end, end_len + 1);
    return true;
}

/* What a failure means and what to do about it; anything else in the system's own words. */
static const char *say_error(const int error, const bool writing)
{
    static const struct {
        int error;
        const char *say;
    } SAY[] = {{NOT_ORDINARY, "it is no ordinary file.\n  Choose another name."},
               {LEADS_NOWHERE, "it is a link that leads nowhere.\n  Mend the link, or choose another name."},
               {EISDIR, "it is a directory.\n  Name a file in it."},
               {EACCES, "permission denied.\n  Ask for the right to it, or choose a place of your own."},
               {EEXIST, "it is there already.\n  Choose another name, or say --force to replace it."},
               {ENOSPC, "the disk is full.\n  Make room, or choose another place."},
               {ENAMETOOLONG, "the name is too long.\n  Choose a shorter one."},
               {ENOTDIR, "a part of the path is no directory.\n  Look at the path."}};
    if (error == ENOENT) {
        return writing ? "its directory does not exist.\n  Make the directory first."
                       : "there is no such file.\n  Look at the name.";
    }
    for (size_t i = 0; i < sizeof SAY / sizeof *SAY; i++) {
        if (SAY[i].error == error) {
            return SAY[i].say;
        }
    }
    return strerror(error);
}

static void fail(ds_host *const host, const bool writing, const ds_str name, const char *const why)
{
    ds_text_add(&host->err, writing ? "dripstone: cannot write '" : "dripstone: cannot read '");
    ds_clean(&host->err, name, host->ascii);
    ds_text_add(&host->err, "': ");
    ds_text_add(&host->err, why);
    ds_text_char(&host->err, '\n');
}

static const char *const TOO_LARGE = "it is larger than 512 MiB.\n  Split the job into several files.";

/* --- reading ------------------------------------------------------------------------------------------------------ */

static bool grow(ds_file *const file, ds_host *const host)
{
    const size_t room = file->room ? file->room * 2 : FIRST_ROOM;
    char *const at = host->alloc->resize(host->alloc->ctx, file->at, file->room, room);
    if (!at) {
        ds_host_fail_memory(host);
        return false;
    }
    file->at = at;
    file->room = room;
    return true;
}

/* Room for a regular file and one byte, so that its end is met without another block. */
static bool take_room_for(ds_file *const file, ds_host *const host, const int fd)
{
    struct stat status;
    if (fstat(fd, &status) || !S_ISREG(status.st_mode) || status.st_size <= 0) {
        return true;
    }
    if ((uintmax_t)status.st_size > DS_JSON_LIMITS.bytes) {
        fail(host, false, file->name, TOO_LARGE);
        return false;
    }
    file->room = (size_t)status.st_size + 1;
    file->at = host->alloc->resize(host->alloc->ctx, NULL, 0, file->room);
    if (!file->at) {
        file->room = 0;
        ds_host_fail_memory(host);
    }
    return file->at != NULL;
}

static bool read_to_end(ds_file *const file, ds_host *const host, const int fd)
{
    while (file->len <= DS_JSON_LIMITS.bytes) {
        if (file->len == file->room && !grow(file, host)) {
            return false;
        }
        const ssize_t n = read(fd, file->at + file->len, file->room - file->len);
        if (n == 0) {
            return true;
        }
        if (n > 0) {
            file->len += (size_t)n;
        } else if (errno != EINTR) {
            fail(host, false, file->name, say_error(errno, false));
            return false;
        }
    }
    fail(host, false, file->name, TOO_LARGE);
    return false;
}

static int open_for_reading(ds_host *const host, const ds_str name)
{
    char path[PATH_ROOM];
    const int fd = copy_path(path, name, "") ? open(path, O_RDONLY | O_CLOEXEC) : (errno = ENAMETOOLONG, -1);
    if (fd < 0) {
        fail(host, false, name, say_error(errno, false));
    }
    return fd;
}

bool ds_file_read(ds_file *const out, ds_host *const host, const ds_str name)
{
    const bool standard = ds_str_is(name, "-");
    *out = (ds_file){.name = standard ? DS_STR("standard input") : name};
    const int fd = standard ? STDIN_FILENO : open_for_reading(host, name);
    if (fd < 0) {
        return false;
    }
    const bool done = take_room_for(out, host, fd) && read_to_end(out, host, fd);
    if (!standard) {
        close(fd);
    }
    if (!done) {
        ds_file_free(out, host);
    }
    return done;
}

void ds_file_free(ds_file *const file, ds_host *const host)
{
    if (file->at) {
        host->alloc->resize(host->alloc->ctx, file->at, file->room, 0);
    }
    *file = (ds_file){.name = file->name};
}

/* --- writing ------------------------------------------------------------------------------------------------------ */

static int write_whole(const int fd, const ds_str content)
{
    size_t done = 0;
    while (done < content.len) {
        const ssize_t n = write(fd, content.at + done, content.len - done);
        if (n >= 0) {
            done += (size_t)n;
        } else if (errno != EINTR) {
            return errno;
        }
    }
    return fsync(fd) && errno != EINVAL ? errno : 0;
}

/* Rights as a file made by open(…, 0666) would have; mkstemp's are narrower. */
static void widen_rights(const int fd)
{
    const mode_t mask = umask(0);
    umask(mask);
    fchmod(fd, 0666 & ~mask);
}

static int write_aside(char aside[PATH_ROOM], const ds_str content)
{
    const int fd = mkstemp(aside);
    if (fd < 0) {
        return errno;
    }
    const int error = write_whole(fd, content);
    widen_rights(fd);
    const int close_error = close(fd) ? errno : 0;
    if (error || close_error) {
        unlink(aside);
    }
    return error ? error : close_error;
}

/* link refuses an existing name in one step; file systems without links get a look first and then the rename. */
static int put_in_place(const char *const aside, const char *const path, const bool force)
{
    if (!force && link(aside, path) == 0) {
        unlink(aside);
        return 0;
    }
    int error = force ? 0 : errno;
    if (error && error != EEXIST && access(path, F_OK) != 0) {
        error = 0;
    }
    if (!error && rename(aside, path)) {
        error = errno;
    }
    if (error) {
        unlink(aside);
    }
    return error;
}

/*
 * Where the content goes: a link is followed, so that it stays. What is there and no ordinary file (a device, a pipe)
 * is never replaced, not even by force.
 */
static int find_target(char target[PATH_ROOM], const char *const path)
{
    struct stat status;
    if (lstat(path, &status)) {
        memcpy(target, path, strlen(path) + 1); /* the new name; what is wrong with it shows in the writing */
        return 0;
    }
    if (stat(path, &status)) {
        return LEADS_NOWHERE;
    }
    if (!S_ISREG(status.st_mode)) {
        return S_ISDIR(status.st_mode) ? EISDIR : NOT_ORDINARY;
    }
    return realpath(path, target) ? 0 : errno;
}

bool ds_file_write(ds_host *const host, const ds_str name, const ds_str content, const bool force)
{
    char given[PATH_ROOM];
    char path[PATH_ROOM];
    char aside[PATH_ROOM];
    int error = copy_path(given, name, "") ? find_target(path, given) : ENAMETOOLONG;
    if (!error && !copy_path(aside, ds_str_of(path), ".XXXXXX")) {
        error = ENAMETOOLONG;
    }
    if (!error) {
        error = write_aside(aside, content);
    }
    if (!error) {
        error = put_in_place(aside, path, force);
    }
    if (error) {
        fail(host, true, name, say_error(error, true));
    }
    return !error;
}
