/* SPDX-License-Identifier: MIT */
/*
 * Whether a written book is whole.
 *
 * libxlsxwriter writes each sheet to a temporary file first and does not look whether that went well: on a full disk it
 * packs what there is, and says that all is fine. A book that lacks rows must not be handed out, so each part is unpacked
 * once more: it must have its packed length, its checksum, and end with the tag that it began with.
 */
#ifndef DS_PAPER_SHEET_WHOLE_H
#define DS_PAPER_SHEET_WHOLE_H

#include "core/base/str.h"

/* zip: all bytes of a book as libxlsxwriter writes it (no parts beyond 4 GiB, no comment at the end). */
bool ds_book_is_whole(ds_str zip);

#endif
