/* SPDX-License-Identifier: MIT */
/* Writing a claim as a code: private to mark/. */
#ifndef DS_MARK_PRINT_H
#define DS_MARK_PRINT_H

#include "core/mark/word.h"

/* Supplementary letters as bits, as in ds_reading. */
enum { DS_LETTER_H = 1, DS_LETTER_M = 2, DS_LETTER_S = 4, DS_LETTER_W = 8 };

/* "IP65/IP67 IK08", "IP23CS", "IPX8 (2 m, 24 h)"; nothing for a claim of nothing. */
void ds_claim_print(ds_text *out, const ds_claim *claim, uint8_t letters);

#endif
