/* SPDX-License-Identifier: MIT */
/* The fast path for clean codes: private to mark/. */
#ifndef DS_MARK_CLEAN_H
#define DS_MARK_CLEAN_H

#include "core/mark/read.h"

/*
 * Reads a code that needs no note: strict, no test 8, no letter that asks something, multiple codes only of
 * one enclosure, perhaps an IK code up to IK10 behind it or alone. False, with nothing written, for every
 * other text. *out is empty before. What it reads is what the slow path reads.
 */
bool ds_mark_read_clean(ds_str text, ds_reading *out);

#endif
