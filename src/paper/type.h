/* SPDX-License-Identifier: MIT */
/*
 * Type: the faces of the house, and texts shaped and broken into lines. Shaping is what a paper costs, so what was shaped
 * is kept: codes, verdicts and sentences stand in a job again and again.
 *
 *     ds_type type;
 *     ds_type_open(&type, alloc);
 *     PangoLayout *const layout = ds_type_set(&type, DS_TYPEFACE_BODY, text, 60, 0);
 *     … ds_layout_height_mm(layout) …
 *     g_object_unref(layout);
 *
 * Millimetres: one is one unit of pango. Positions are not rounded and nothing is hinted, or letters would fall on whole
 * millimetres. Text may be any UTF-8, in any direction; control characters become blanks; letters that the family lacks
 * are taken from other installed faces. Ligatures are off: "fits" would not be found by a search; and no hyphen is put into
 * a word that is broken: it might be an id.
 */
#ifndef DS_PAPER_TYPE_H
#define DS_PAPER_TYPE_H

#include "core/draw/sheet.h"

#include <pango/pangocairo.h>

/* The family of the house (fonts.h), and what has the letters that it lacks; layout does not depend on which is there. */
#define DS_PAPER_FAMILIES "Atkinson Hyperlegible, DejaVu Sans"

typedef enum ds_typeface {
    DS_TYPEFACE_BODY,
    DS_TYPEFACE_STRONG,
    DS_TYPEFACE_QUIET,
    DS_TYPEFACE_SMALL, /* furniture and heads of columns */
    DS_TYPEFACE_SMALL_STRONG,
    DS_TYPEFACE_LARGE, /* the answer */
    DS_TYPEFACE_HEAD,  /* of a part */
    DS_TYPEFACE_SUBHEAD,
    DS_TYPEFACES_LEN
} ds_typeface;

enum { DS_TYPE_KEPT = 4096, DS_TYPE_ASCII = 128 };

/* A layout that is kept, and what it was made for. */
typedef struct ds_type_kept {
    PangoLayout *layout;
    uint32_t hash;
    int width, lines;
    ds_typeface face;
} ds_type_kept;

typedef struct ds_type {
    PangoContext *context;
    PangoAttrList *attributes;
    PangoFontDescription *faces[DS_TYPEFACES_LEN];
    float widths_mm[DS_TYPEFACES_LEN]
                   [DS_TYPE_ASCII];      /* of plain letters; that of the blank is 0 until measured */
    double heights_mm[DS_TYPEFACES_LEN]; /* of a line of plain letters */
    ds_type_kept *kept;
    ds_text clean;
    bool failed;
} ds_type;

void ds_type_open(ds_type *type, const ds_alloc *alloc);

/* False when memory was short. */
bool ds_type_close(ds_type *type);

/*
 * A text within a width; lines: at most so many, with an ellipsis, 0 as many as it takes. The caller unrefs it and must
 * not change it: others may hold it too.
 */
PangoLayout *ds_type_set(ds_type *type, ds_typeface face, ds_str text, double width_mm, int lines);

/* Height of the same text; one that surely stands in one line is not even shaped. */
double ds_type_height_mm(ds_type *type, ds_typeface face, ds_str text, double width_mm, int lines);

/* A layout of the caller's own, of one line in this size. */
PangoLayout *ds_type_sized(ds_type *type, bool bold, double size_mm, ds_str text);

double ds_layout_height_mm(PangoLayout *layout);
double ds_layout_width_mm(PangoLayout *layout);

/* Grey of the ink: 0 black. */
double ds_typeface_grey(ds_typeface face);

#endif
