/* SPDX-License-Identifier: MIT */
/*
 * The rung picture: a need and a mark as ladders, one rung a test.
 *
 * Solids stand left, access to live parts beside them, water right of those, blows as a short scale in joules. A needed
 * rung is outlined, a proven one filled, a denied one empty, an open one dotted; a needed rung that is not proven bears
 * the shape of its verdict beside its number. So IP67 offered where IP55 is needed shows its gap at water 5 at once.
 *
 * Three steps, each of use alone: ds_rungs_of says what each rung is (a drawing on a page or on paper starts there too),
 * ds_rungs_lay sets the ladders into a grid of character cells, and a cell has a glyph (in Unicode and in plain ASCII)
 * and a tone that a terminal may repeat in colour. The picture reads without colour.
 *
 *     ds_rungs rungs;
 *     ds_rungs_of(&rungs, need, mark);         … DS_NEED_NOTHING when there is only a mark to show
 *     ds_rungs_text(&text, &rungs, false);     … the whole picture, lines ended by \n
 *     ds_rungs_line(&text, &rungs, false);     … one line of it for lists
 */
#ifndef DS_DRAW_RUNGS_H
#define DS_DRAW_RUNGS_H

#include "core/mark/mark.h"

typedef enum ds_rung_state { DS_RUNG_DENIED, DS_RUNG_OPEN, DS_RUNG_PROVEN } ds_rung_state;

typedef struct ds_rung {
    uint8_t state; /* a ds_rung_state */
    bool needed;
} ds_rung;

/* The scale of blows: <1, 1, 2, 5, 10, 20, 50 J and beyond 50 J, which only a need can ask for. */
enum { DS_BLOWS_LEN = 8, DS_BLOWS_BEYOND = 7 };

/* Lowest rung first. */
typedef struct ds_rungs {
    ds_rung objects[DS_OBJECTS_LEN];
    ds_rung access[DS_ACCESS_LEN];
    ds_rung water[DS_WATER_LEN];
    ds_rung blows[DS_BLOWS_LEN];
    bool need_given; /* something is needed */
} ds_rungs;

void ds_rungs_of(ds_rungs *out, ds_need need, ds_mark mark);

/* Does this rung stand against the goods: needed and not proven. */
static inline bool ds_rung_lost(const ds_rung rung)
{
    return rung.needed && rung.state != DS_RUNG_PROVEN;
}

/* --- characters --------------------------------------------------------------------------------------------------- */

enum { DS_RUNGS_ROWS = 11, DS_RUNGS_COLUMNS = 60, DS_RUNGS_LINE_COLUMNS = 29 };

/* What a cell is about; a terminal may colour it, nothing depends on it. */
typedef enum ds_tone { DS_TONE_PLAIN, DS_TONE_QUIET, DS_TONE_NEEDED, DS_TONE_SHORT, DS_TONE_OPEN } ds_tone;

/* glyph: an ASCII character, or a shape from DS_GLYPH_FIRST on. */
typedef struct ds_cell {
    uint8_t glyph;
    uint8_t tone; /* a ds_tone */
} ds_cell;

typedef enum ds_glyph {
    DS_GLYPH_FIRST = 128,
    DS_GLYPH_RAIL = DS_GLYPH_FIRST,
    DS_GLYPH_BAND_LEFT,
    DS_GLYPH_BAND_RIGHT,
    DS_GLYPH_BAND_TOP_LEFT,
    DS_GLYPH_BAND_TOP_RIGHT,
    DS_GLYPH_BAND_BOTTOM_LEFT,
    DS_GLYPH_BAND_BOTTOM_RIGHT,
    DS_GLYPH_PROVEN,
    DS_GLYPH_OPEN,
    DS_GLYPH_LOST_DENIED, /* needed and denied: the shape of the verdict short */
    DS_GLYPH_LOST_OPEN,   /* needed and open: the shape of the verdict unknown */
    DS_GLYPH_LINE_NEEDED, /* in one line: needed and proven; or proven where there is no need */
    DS_GLYPH_LINE_MORE,   /* in one line: proven and not needed */
    DS_GLYPH_LINE_DENIED, /* in one line: denied and not needed */
    DS_GLYPHS_END
} ds_glyph;

typedef struct ds_rungs_grid {
    ds_cell at[DS_RUNGS_ROWS][DS_RUNGS_COLUMNS];
    uint8_t row_len[DS_RUNGS_ROWS]; /* cells up to the last that is not blank */
} ds_rungs_grid;

/* The ladders in ten rows; the eleventh says how to read them. */
void ds_rungs_lay(ds_rungs_grid *out, const ds_rungs *rungs);

/* One row of DS_RUNGS_LINE_COLUMNS cells: solids, access, water, blows, lowest rung first. */
void ds_rungs_lay_line(ds_cell out[DS_RUNGS_LINE_COLUMNS], const ds_rungs *rungs);

/* Appends a glyph; each takes one column. */
void ds_glyph_put(ds_text *out, uint8_t glyph, bool ascii);

/* The grid as lines, and the one line without a line end, in one tone. */
void ds_rungs_text(ds_text *out, const ds_rungs *rungs, bool ascii);
void ds_rungs_line(ds_text *out, const ds_rungs *rungs, bool ascii);

#endif
