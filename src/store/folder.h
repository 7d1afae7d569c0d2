/* SPDX-License-Identifier: MIT */
/* The folder that jobs are kept in: private to store/. */
#ifndef DS_STORE_FOLDER_H
#define DS_STORE_FOLDER_H

#include <stdbool.h>

enum { DS_FOLDER_ROOM = 4096 }; /* of a path, with its zero */

/* Makes it with the folders above it, for its owner alone; those that are there stay as they are. False: see errno. */
bool ds_folder_make(const char *folder);

/* Its path from the root, without any link. False: see errno. */
bool ds_folder_real(char out[DS_FOLDER_ROOM], const char *folder);

#endif
