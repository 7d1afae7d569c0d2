/* SPDX-License-Identifier: MIT */
#include "store/folder.h"

#include <errno.h>
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* That a folder is there must be on the disk as well: it stands in the one above. */
static void keep_folder(const char *const path)
{
    char above[DS_FOLDER_ROOM];
    const char *const slash = strrchr(path, '/');
    const int len = slash ? (int)(slash - path) : 0;
    snprintf(above, sizeof above, "%.*s/.", slash ? len : 1, slash ? path : ".");
    const int fd = open(above, O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd >= 0) {
        fsync(fd);
        close(fd);
    }
}

bool ds_folder_make(const char *const folder)
{
    char path[DS_FOLDER_ROOM];
    const size_t len = strlen(folder);
    if (len >= sizeof path) {
        errno = ENAMETOOLONG;
        return false;
    }
    for (size_t i = 1; i <= len; i++) {
        if (folder[i] == '/' || folder[i] == '\0') {
            memcpy(path, folder, i);
            path[i] = '\0';
            const bool made = mkdir(path, 0700) == 0;
            if (!made && errno != EEXIST) {
                return false;
            }
            if (made) {
                keep_folder(path);
            }
        }
    }
    return true;
}

bool ds_folder_real(char out[DS_FOLDER_ROOM], const char *const folder)
{
    char *const real = realpath(folder, NULL);
    const int len = real ? snprintf(out, DS_FOLDER_ROOM, "%s", real) : -1;
    free(real);
    if (len >= DS_FOLDER_ROOM) {
        errno = ENAMETOOLONG;
    }
    return len >= 0 && len < DS_FOLDER_ROOM;
}
