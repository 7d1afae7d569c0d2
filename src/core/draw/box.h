/* SPDX-License-Identifier: MIT */
/*
 * A box on one A4 sheet: its faces unfolded with what sits in each entry, a table of what each leaves of the protection
 * and what would restore it, and the curve of a day inside where one was run.
 */
#ifndef DS_DRAW_BOX_H
#define DS_DRAW_BOX_H

#include "core/assess/assess.h"
#include "core/box/day.h"
#include "core/box/entry_say.h"
#include "core/draw/sheet.h"

typedef struct ds_box_picture {
    ds_str id, name; /* of the point */
    ds_str facts;    /* a line below the name */
    const ds_box *box;
    const ds_installed *installed;
    ds_need need;              /* what the parts are set against */
    const ds_day_point *curve; /* NULL: no day was run */
    const char *curve_is;      /* which of the day's runs it is */
    size_t hours;
    double limit_c; /* NAN: none */
} ds_box_picture;

/*
 * The box of the job's point of this index. The sheet lies in the arena. DS_BAD_INPUT: the point has no box that could be
 * read; DS_NO_MEMORY.
 */
ds_status ds_box_sheet_of(ds_sheet *out, const ds_findings *findings, size_t point, ds_arena *arena);

/* The same from its parts. */
ds_status ds_box_sheet(ds_sheet *out, const ds_box_picture *picture, ds_arena *arena);

#endif
