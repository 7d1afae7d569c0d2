/* SPDX-License-Identifier: MIT */
/*
 * The faces of the house, given to the system's font list for this process only. They lie in memory, not in a folder, so
 * nothing stays behind however the program ends.
 */
#ifndef DS_PAPER_FONTS_H
#define DS_PAPER_FONTS_H

/* Adds them, once. Where that fails (no memory files, no /proc) papers are set in the faces that are installed. */
void ds_fonts_add(void);

#endif
