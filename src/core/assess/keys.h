/* SPDX-License-Identifier: MIT */
/*
 * The keys of the job that answer a finding's remedy: sentences are for people, keys for whoever writes the document.
 *
 *     ds_keys keys;
 *     ds_keys_of(&keys, findings, finding);
 *     for (size_t i = 0; i < keys.len; i++) … keys.at[i]    "zone_stated", "box.watts"
 *
 * Each once. None where nothing is to be stated: other goods, a mend, a question to somebody.
 */
#ifndef DS_ASSESS_KEYS_H
#define DS_ASSESS_KEYS_H

#include "core/assess/assess.h"

enum { DS_KEYS_MOST = 64 };

typedef struct ds_keys {
    const char *at[DS_KEYS_MOST];
    size_t len;
} ds_keys;

void ds_keys_of(ds_keys *out, const ds_findings *findings, const ds_finding *finding);

/* What one open rule waits for. */
void ds_keys_missing(ds_keys *out, const ds_missing *missing);

#endif
