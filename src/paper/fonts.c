/* SPDX-License-Identifier: MIT */
#define _GNU_SOURCE /* memfd_create; NOLINT(bugprone-reserved-identifier) */
#include "paper/fonts.h"

#include <errno.h>
#include <fontconfig/fontconfig.h>
#include <stdbool.h>
#include <stdio.h>
#include <sys/mman.h>
#include <unistd.h>

extern const unsigned char ds_font_regular[], ds_font_regular_end[];
extern const unsigned char ds_font_bold[], ds_font_bold_end[];
extern const unsigned char ds_font_regular_more[], ds_font_regular_more_end[];
extern const unsigned char ds_font_bold_more[], ds_font_bold_more_end[];

static bool write_whole(const int fd, const unsigned char *const at, const size_t len)
{
    size_t done = 0;
    while (done < len) {
        const ssize_t n = write(fd, at + done, len - done);
        if (n > 0) {
            done += (size_t)n;
        } else if (n == 0 || errno != EINTR) {
            return false;
        }
    }
    return true;
}

/* The file stays open: letters are read from it while a paper is set. */
static void add_font(const unsigned char *const at, const unsigned char *const end)
{
    char path[40];
    const int fd = memfd_create("dripstone-font", MFD_CLOEXEC);
    if (fd >= 0) {
        snprintf(path, sizeof path, "/proc/self/fd/%d", fd);
        if (!write_whole(fd, at, (size_t)(end - at)) ||
            !FcConfigAppFontAddFile(NULL, (const FcChar8 *)path)) {
            close(fd);
        }
    }
}

void ds_fonts_add(void)
{
    static bool added;
    if (added) {
        return;
    }
    added = true;
    add_font(ds_font_regular, ds_font_regular_end);
    add_font(ds_font_bold, ds_font_bold_end);
    add_font(ds_font_regular_more, ds_font_regular_more_end);
    add_font(ds_font_bold_more, ds_font_bold_more_end);
}
