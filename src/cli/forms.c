/* SPDX-License-Identifier: MIT */
/* The house's forms on a page: verdicts with shape and word, and the rung picture in tones. */
#include "cli/page.h"

ds_style ds_verdict_style(const ds_verdict verdict)
{
    static const ds_style STYLES[] = {
        [DS_FITS] = DS_GOOD, [DS_UNKNOWN] = DS_DOUBT, [DS_SHORT] = DS_BAD, [DS_BARRED] = DS_WORST};
    return STYLES[verdict];
}

void ds_page_shape(ds_page *const page, const ds_style style, const char *const shape)
{
    ds_text_char(&page->line, (char)(1 + style));
    ds_text_add(&page->line, shape);
}

void ds_page_verdict(ds_page *const page, const ds_verdict verdict)
{
    ds_page_shape(page, ds_verdict_style(verdict), ds_verdict_shape(verdict, page->ascii));
    ds_page_add(page, ds_verdict_style(verdict), " ");
    ds_page_cell(page, ds_verdict_style(verdict), ds_str_of(ds_verdict_word(verdict)),
                 DS_VERDICT_COLUMNS - 2);
}

/* --- rungs -------------------------------------------------------------------------------------------------------- */

static ds_style style_of_tone(const uint8_t tone)
{
    static const ds_style STYLES[] = {[DS_TONE_PLAIN] = DS_PLAIN,
                                      [DS_TONE_QUIET] = DS_QUIET,
                                      [DS_TONE_NEEDED] = DS_STRONG,
                                      [DS_TONE_SHORT] = DS_BAD,
                                      [DS_TONE_OPEN] = DS_DOUBT};
    return STYLES[tone];
}

static void put_cells(ds_page *const page, const ds_cell *const cells, const int len)
{
    for (int i = 0; i < len; i++) {
        ds_text_char(&page->line, (char)(1 + style_of_tone(cells[i].tone)));
        ds_glyph_put(&page->line, cells[i].glyph, page->ascii);
    }
}

void ds_page_rungs(ds_page *const page, const ds_rungs *const rungs, const int indent)
{
    ds_rungs_grid grid;
    ds_rungs_lay(&grid, rungs);
    for (int row = 0; row < DS_RUNGS_ROWS; row++) {
        put_cells(page, grid.at[row], grid.row_len[row]);
        ds_page_row(page, indent);
    }
}

void ds_page_rungs_line(ds_page *const page, const ds_rungs *const rungs)
{
    ds_cell cells[DS_RUNGS_LINE_COLUMNS];
    ds_rungs_lay_line(cells, rungs);
    put_cells(page, cells, DS_RUNGS_LINE_COLUMNS);
}

void ds_page_rungs_named(ds_page *const page, const ds_rungs *const rungs)
{
    static const char *const NAMES[] = {"solids", "  people", "  water", "  blows"};
    ds_cell cells[DS_RUNGS_LINE_COLUMNS];
    ds_rungs_lay_line(cells, rungs);
    int ladder = 0;
    for (int i = 0; i < DS_RUNGS_LINE_COLUMNS; i++) {
        if (i == 0 || cells[i].glyph == ' ') {
            ds_page_add(page, DS_QUIET, NAMES[ladder++]);
            ds_page_glue(page);
        }
        if (cells[i].glyph != ' ') {
            put_cells(page, &cells[i], 1);
        }
    }
}
