/* SPDX-License-Identifier: MIT */
/* NEMA 250 types, one way: private to mark/. */
#ifndef DS_MARK_NEMA_H
#define DS_MARK_NEMA_H

#include "core/mark/notes.h"

/* Row of the type (any case), counted from 1; 0 when there is no such type. */
uint8_t ds_nema_find(ds_str type);

/* What the type is at least taken for, and the note that goes with it. Row 0 is no type. */
ds_claim ds_nema_claim(uint8_t row);
ds_note_id ds_nema_note(uint8_t row);

/* How the published tables differ on it, one sentence; "" where they agree and for row 0. */
const char *ds_nema_disagreement(uint8_t row);

#endif
