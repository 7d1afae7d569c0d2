/* SPDX-License-Identifier: MIT */
/* A fact that a job lacks: in words for people, by its key for whoever writes the document. */
#ifndef DS_BASE_LACK_H
#define DS_BASE_LACK_H

#include "core/base/str.h"

typedef struct ds_lack {
    const char *words; /* "how far it is from zone 1"; NULL for an influence, which goes by its letters */
    const char *key;   /* "zone1_distance_m" */
} ds_lack;

#endif
