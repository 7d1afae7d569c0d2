/* SPDX-License-Identifier: MIT */
/*
 * The facts that an open rule waits for, one after the other: in words, and by the keys of the job that state them.
 *
 *     ds_lack fact;
 *     for (size_t at = 0; ds_missing_next(&at, &reason->missing, &fact);) … fact.words, fact.key
 */
#ifndef DS_ASSESS_MISSING_H
#define DS_ASSESS_MISSING_H

#include "core/base/lack.h"
#include "core/base/text.h"
#include "core/rules/pack.h"

/* The next fact at or after *at, which starts at 0; false after the last. */
bool ds_missing_next(size_t *at, const ds_missing *missing, ds_lack *out);

/* "how far it is from zone 1, its supply" */
void ds_say_missing(ds_text *out, const ds_missing *missing);

#endif
