/* SPDX-License-Identifier: MIT */
/* A sheet with its arena and its SVG on an allocator that counts; and one that holds a bit of everything. */
#ifndef SHEET_HELP_H
#define SHEET_HELP_H

#include "base_alloc.h"

#include "core/draw/sheet_svg.h"

typedef struct desk {
    test_alloc memory;
    ds_arena arena;
    ds_sheet sheet;
    ds_text svg;
} desk;

static inline void open_desk(desk *const d, const double width_mm, const double height_mm)
{
    *d = (desk){.memory = test_alloc_make(0)};
    ds_arena_init(&d->arena, test_alloc_use(&d->memory));
    ds_text_init(&d->svg, &d->memory.alloc);
    ds_sheet_init(&d->sheet, &d->arena, width_mm, height_mm);
}

static inline const char *svg_of(desk *const d)
{
    ds_text_free(&d->svg);
    ds_sheet_svg(&d->svg, &d->sheet);
    assert_true(ds_text_ok(&d->svg));
    ds_text_char(&d->svg, '\0');
    return d->svg.at;
}

static inline void close_desk(desk *const d)
{
    ds_text_free(&d->svg);
    ds_arena_free(&d->arena);
    assert_int_equal(d->memory.blocks, 0);
}

static inline void expect_in(desk *const d, const char *const piece)
{
    const char *const svg = svg_of(d);
    if (!strstr(svg, piece)) {
        fail_msg("not in the SVG: %s\n%s", piece, svg);
    }
}

static inline size_t count_in(desk *const d, const char *const piece)
{
    size_t count = 0;
    for (const char *at = strstr(svg_of(d), piece); at; at = strstr(at + 1, piece)) {
        count++;
    }
    return count;
}

static inline void draw_sample(ds_sheet *const sheet)
{
    ds_sheet_name(sheet, DS_STR("bath 1"), DS_STR("Bath"), DS_STR("One zone & a wall"));
    ds_sheet_begin(sheet, DS_ROLE_ZONE, DS_STR("1"), DS_STR("Zone 1"));
    ds_sheet_move(sheet, 10, 10);
    ds_sheet_line(sheet, 30, 10);
    ds_sheet_arc(sheet, 40, 20, 30, 20, true);
    ds_sheet_line(sheet, 40, 30.12345);
    ds_sheet_line(sheet, 10, 29.5);
    ds_sheet_close(sheet);
    ds_sheet_draw(sheet, DS_PEN_ZONE, DS_FILL_ZONE_1);
    ds_sheet_write(sheet, 25, 20, DS_STR("1"),
                   (ds_lettering){.size_mm = 5, .anchor = DS_ANCHOR_MIDDLE, .bold = true, .halo = true});
    ds_sheet_end(sheet);
    ds_sheet_rect(sheet, 0, 0, 50, 2);
    ds_sheet_draw(sheet, DS_PEN_NONE, DS_FILL_INK);
    ds_sheet_stroke(sheet, DS_PEN_HIDDEN, -1, -2, 3, -4);
    ds_sheet_stroke(sheet, DS_PEN_STRING, 0, 5, 9, 5);
    ds_sheet_write(sheet, 5, 35, DS_STR("2 m"),
                   (ds_lettering){.size_mm = 2, .reversed = true, .centred = true, .turn_deg = -90});
}

#endif
