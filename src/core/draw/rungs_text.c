/* SPDX-License-Identifier: MIT */
/*
 * The rung picture in character cells: four ladders side by side on one ground line.
 *
 *       solids             people         water               blows
 *                                       5 │     │ jet         10 J │  │
 *     4 ┏▆▆▆▆▆┓ 1 mm     D │▆│ wire     4?┏·····┓ splash       5 J ┏▆▆┓
 *
 * Every ladder is drawn by the same few lines from a row of the table below.
 */
#include "core/draw/rungs.h"

typedef struct ladder {
    const char *name;
    uint8_t name_column;
    uint8_t column; /* of the number; the left rail stands `rail` columns further right */
    uint8_t rail;
    uint8_t fill; /* cells between the rails */
    const char *const *numbers;
    const char *const *words; /* NULL: none */
} ladder;

enum { ROW_GROUND = 9, ROW_KEY = 10, GAP = 1 };

static const char *const DIGITS[] = {"1", "2", "3", "4", "5", "6", "7", "8", "9"};
static const char *const LETTERS[] = {"A", "B", "C", "D"};
static const char *const JOULES[] = {"<1 J", " 1 J", " 2 J", " 5 J", "10 J", "20 J", "50 J", "more"};
static const char *const OBJECT_WORDS[] = {"50 mm", "12.5 mm", "2.5 mm", "1 mm", "dust", "dust-tight"};
static const char *const ACCESS_WORDS[] = {"hand", "finger", "tool", "wire"};
static const char *const WATER_WORDS[] = {"drips",    "tilted", "spray",    "splash",   "jet",
                                          "hard jet", "dip",    "long dip", "hot lance"};

static const ladder OBJECTS = {"solids", 2, 0, 2, 5, DIGITS, OBJECT_WORDS};
static const ladder ACCESS = {"people", 18, 18, 2, 1, LETTERS, ACCESS_WORDS};
static const ladder WATER = {"water", 34, 32, 2, 5, DIGITS, WATER_WORDS};
static const ladder BLOWS = {"blows", 54, 51, 5, 2, JOULES, NULL};

/* --- glyphs ------------------------------------------------------------------------------------------------------- */

void ds_glyph_put(ds_text *const out, const uint8_t glyph, const bool ascii)
{
    static const char *const SHAPES[DS_GLYPHS_END - DS_GLYPH_FIRST][2] = {
        {"│", "|"}, {"┃", "["}, {"┃", "]"}, {"┏", "["}, {"┓", "]"}, {"┗", "["}, {"┛", "]"},
        {"▆", "#"}, {"·", "."}, {"▲", "!"}, {"?", "?"}, {"█", "#"}, {"▆", "+"}, {"▁", "_"}};
    if (glyph < DS_GLYPH_FIRST) {
        ds_text_char(out, (char)glyph);
    } else {
        ds_text_add(out, SHAPES[glyph - DS_GLYPH_FIRST][ascii]);
    }
}

static void put_words(ds_rungs_grid *const grid, const int row, const int column, const char *const words,
                      const ds_tone tone)
{
    for (int i = 0; words[i] && column + i < DS_RUNGS_COLUMNS; i++) {
        grid->at[row][column + i] = (ds_cell){(uint8_t)words[i], (uint8_t)tone};
    }
}

/* --- one ladder --------------------------------------------------------------------------------------------------- */

static ds_tone tone_of(const ds_rung rung)
{
    if (!ds_rung_lost(rung)) {
        return DS_TONE_QUIET;
    }
    return rung.state == DS_RUNG_DENIED ? DS_TONE_SHORT : DS_TONE_OPEN;
}

/* The outline of a run of needed rungs has corners at its ends; a lone one has none. */
static ds_cell side(const ds_rung *const rungs, const int len, const int i, const bool right)
{
    if (!rungs[i].needed) {
        return (ds_cell){DS_GLYPH_RAIL, DS_TONE_QUIET};
    }
    const bool above = i + 1 < len && rungs[i + 1].needed;
    const bool below = i > 0 && rungs[i - 1].needed;
    const int left = above == below ? DS_GLYPH_BAND_LEFT
                     : below        ? DS_GLYPH_BAND_TOP_LEFT
                                    : DS_GLYPH_BAND_BOTTOM_LEFT;
    return (ds_cell){(uint8_t)(left + right), DS_TONE_NEEDED};
}

static ds_cell inside(const ds_rung rung)
{
    static const uint8_t GLYPHS[] = {
        [DS_RUNG_DENIED] = ' ', [DS_RUNG_OPEN] = DS_GLYPH_OPEN, [DS_RUNG_PROVEN] = DS_GLYPH_PROVEN};
    return (ds_cell){GLYPHS[rung.state], DS_TONE_PLAIN};
}

static void put_rung(ds_rungs_grid *const grid, const ladder *const form, const ds_rung *const rungs,
                     const int len, const int i)
{
    const int row = ROW_GROUND - i;
    const ds_tone tone = tone_of(rungs[i]);
    ds_cell *const rail = &grid->at[row][form->column + form->rail];
    put_words(grid, row, form->column, form->numbers[i], tone);
    if (ds_rung_lost(rungs[i])) {
        const int shape = rungs[i].state == DS_RUNG_DENIED ? DS_GLYPH_LOST_DENIED : DS_GLYPH_LOST_OPEN;
        rail[-1] = (ds_cell){(uint8_t)shape, (uint8_t)tone};
    }
    rail[0] = side(rungs, len, i, false);
    for (int cell = 1; cell <= form->fill; cell++) {
        rail[cell] = inside(rungs[i]);
    }
    rail[form->fill + 1] = side(rungs, len, i, true);
    if (form->words) {
        put_words(grid, row, form->column + form->rail + form->fill + 2 + GAP, form->words[i], tone);
    }
}

static void put_ladder(ds_rungs_grid *const grid, const ladder *const form, const ds_rung *const rungs,
                       const int len)
{
    put_words(grid, 0, form->name_column, form->name, DS_TONE_PLAIN);
    for (int i = 0; i < len; i++) {
        put_rung(grid, form, rungs, len, i);
    }
}

/* --- the picture -------------------------------------------------------------------------------------------------- */

static int put_key(ds_rungs_grid *const grid, const int column, const uint8_t glyph, const char *const words)
{
    int at = column;
    if (glyph != ' ') {
        grid->at[ROW_KEY][at] = (ds_cell){glyph, DS_TONE_QUIET};
        at += 1 + GAP;
    }
    put_words(grid, ROW_KEY, at, words, DS_TONE_QUIET);
    return at + (int)strlen(words) + 2;
}

static void put_keys(ds_rungs_grid *const grid, const bool need_given)
{
    int column = 2;
    if (need_given) {
        column = put_key(grid, column, DS_GLYPH_BAND_LEFT, "needed");
    }
    column = put_key(grid, column, DS_GLYPH_PROVEN, "proven");
    column = put_key(grid, column, DS_GLYPH_OPEN, "open");
    column = put_key(grid, column, ' ', "empty: denied");
    if (need_given) {
        grid->at[ROW_KEY][column] = (ds_cell){DS_GLYPH_LOST_DENIED, DS_TONE_QUIET};
        put_key(grid, column + 2, DS_GLYPH_LOST_OPEN, "missing");
    }
}

static void measure_rows(ds_rungs_grid *const grid)
{
    for (int row = 0; row < DS_RUNGS_ROWS; row++) {
        uint8_t len = DS_RUNGS_COLUMNS;
        while (len > 0 && grid->at[row][len - 1].glyph == ' ') {
            len--;
        }
        grid->row_len[row] = len;
    }
}

void ds_rungs_lay(ds_rungs_grid *const out, const ds_rungs *const rungs)
{
    for (int row = 0; row < DS_RUNGS_ROWS; row++) {
        for (int column = 0; column < DS_RUNGS_COLUMNS; column++) {
            out->at[row][column] = (ds_cell){' ', DS_TONE_PLAIN};
        }
    }
    const bool beyond = rungs->blows[DS_BLOWS_BEYOND].needed;
    put_ladder(out, &OBJECTS, rungs->objects, DS_OBJECTS_LEN);
    put_ladder(out, &ACCESS, rungs->access, DS_ACCESS_LEN);
    put_ladder(out, &WATER, rungs->water, DS_WATER_LEN);
    put_ladder(out, &BLOWS, rungs->blows, beyond ? DS_BLOWS_LEN : DS_BLOWS_LEN - 1);
    put_keys(out, rungs->need_given);
    measure_rows(out);
}

void ds_rungs_text(ds_text *const out, const ds_rungs *const rungs, const bool ascii)
{
    ds_rungs_grid grid;
    ds_rungs_lay(&grid, rungs);
    for (int row = 0; row < DS_RUNGS_ROWS; row++) {
        for (int column = 0; column < grid.row_len[row]; column++) {
            ds_glyph_put(out, grid.at[row][column].glyph, ascii);
        }
        ds_text_char(out, '\n');
    }
}

/* --- one line ----------------------------------------------------------------------------------------------------- */

static ds_cell line_cell(const ds_rung rung, const bool need_given)
{
    if (ds_rung_lost(rung)) {
        const int shape = rung.state == DS_RUNG_DENIED ? DS_GLYPH_LOST_DENIED : DS_GLYPH_LOST_OPEN;
        return (ds_cell){(uint8_t)shape, (uint8_t)tone_of(rung)};
    }
    if (rung.state == DS_RUNG_PROVEN) {
        const bool more = need_given && !rung.needed;
        return (ds_cell){more ? DS_GLYPH_LINE_MORE : DS_GLYPH_LINE_NEEDED, DS_TONE_PLAIN};
    }
    return (ds_cell){rung.state == DS_RUNG_OPEN ? DS_GLYPH_OPEN : DS_GLYPH_LINE_DENIED, DS_TONE_QUIET};
}

static ds_cell *line_ladder(ds_cell *out, const ds_rung *const rungs, const int len, const bool need_given)
{
    for (int i = 0; i < len; i++) {
        *out++ = line_cell(rungs[i], need_given);
    }
    return out;
}

void ds_rungs_lay_line(ds_cell out[DS_RUNGS_LINE_COLUMNS], const ds_rungs *const rungs)
{
    const ds_cell blank = {' ', DS_TONE_PLAIN};
    ds_cell *at = line_ladder(out, rungs->objects, DS_OBJECTS_LEN, rungs->need_given);
    *at++ = blank;
    at = line_ladder(at, rungs->access, DS_ACCESS_LEN, rungs->need_given);
    *at++ = blank;
    at = line_ladder(at, rungs->water, DS_WATER_LEN, rungs->need_given);
    *at++ = blank;
    at = line_ladder(at, rungs->blows, DS_BLOWS_LEN - 1, rungs->need_given);
    if (rungs->blows[DS_BLOWS_BEYOND].needed) {
        at[-1] = line_cell(rungs->blows[DS_BLOWS_BEYOND], true); /* never hidden behind a proven 50 J */
    }
}

void ds_rungs_line(ds_text *const out, const ds_rungs *const rungs, const bool ascii)
{
    ds_cell cells[DS_RUNGS_LINE_COLUMNS];
    ds_rungs_lay_line(cells, rungs);
    for (int i = 0; i < DS_RUNGS_LINE_COLUMNS; i++) {
        ds_glyph_put(out, cells[i].glyph, ascii);
    }
}
