/* SPDX-License-Identifier: MIT */
/*
 * A sheet: the display list that every drawing becomes, and that every painter (SVG, PDF, the page) paints alike.
 *
 * Millimetres on paper, x to the right, y down, 0,0 the upper left corner; later items lie over earlier ones. A sheet
 * knows paths, texts and groups, no more: a pen, a fill or a size of type is a name whose measures stand here, so a wall
 * is as thick in the PDF as on the page. Ink is black and paper white; nothing is said by colour.
 *
 *     ds_sheet sheet;
 *     ds_sheet_init(&sheet, &arena, 180, 120);
 *     ds_sheet_name(&sheet, DS_STR("bath-1"), DS_STR("Bathroom, plan 1:25"), DS_STR("Zones of the bath …"));
 *     ds_sheet_begin(&sheet, DS_ROLE_ZONE, DS_STR("1"), DS_STR("Zone 1"));
 *     ds_sheet_move(&sheet, 10, 10);
 *     ds_sheet_line(&sheet, 60, 10);
 *     ds_sheet_arc(&sheet, 60, 50, 60, 30, true);
 *     ds_sheet_close(&sheet);
 *     ds_sheet_draw(&sheet, DS_PEN_ZONE, DS_FILL_ZONE_1);
 *     ds_sheet_write(&sheet, 35, 30, DS_STR("1"), (ds_lettering){.size_mm = DS_TYPE_LARGE_MM, .bold = true, .halo = true});
 *     ds_sheet_end(&sheet);
 *     if (ds_sheet_status(&sheet) != DS_OK) … out of memory, or a coordinate that is no number …
 *     ds_sheet_svg(&text, &sheet);                  (sheet_svg.h)
 *
 * A sheet remembers a failure as a ds_text does: draw as much as you like, ask once. All that it holds lies in the arena,
 * texts too: they are copied.
 */
#ifndef DS_DRAW_SHEET_H
#define DS_DRAW_SHEET_H

#include "core/base/problem.h"

/* --- pens --------------------------------------------------------------------------------------------------------- */

/* Widths step by the root of two, so that two neighbours can be told apart on a copy. Corners are round, ends too, dashes cut. */
typedef enum ds_pen {
    DS_PEN_NONE,
    DS_PEN_WALL,      /* what the drawing cuts: walls, floors, partitions */
    DS_PEN_FEATURE,   /* what stands in the room: bath, basin, box */
    DS_PEN_ZONE,      /* the edge of a zone */
    DS_PEN_DIMENSION, /* dimension lines */
    DS_PEN_LEADER,    /* from a label to what it names; on paper of its own too */
    DS_PEN_STRING, /* the taut string to a fitting; lies on paper of its own, so that it crosses hatches clearly */
    DS_PEN_HIDDEN, /* what lies behind, above or below */
    DS_PEN_HAIR,   /* extension lines, grids, quiet detail */
    DS_PENS_LEN
} ds_pen;

typedef struct ds_pen_form {
    double width_mm;
    double dash_mm, gap_mm; /* 0: a whole line */
    double clear_mm;        /* paper on either side, painted first; 0: none */
} ds_pen_form;

const ds_pen_form *ds_pen_form_of(ds_pen pen);

/* --- fills -------------------------------------------------------------------------------------------------------- */

/* The inside is what an odd number of edges surrounds: an island in a zone is one more outline in its path. */
typedef enum ds_fill {
    DS_FILL_NONE,
    DS_FILL_PAPER,
    DS_FILL_INK,
    DS_FILL_LIGHT, /* greys: may vanish on a copy, so never the only sign of anything */
    DS_FILL_MIDDLE,
    DS_FILL_DARK,
    DS_FILL_WALL, /* the solid of a cut wall */
    DS_FILL_ZONE_0,
    DS_FILL_ZONE_1,
    DS_FILL_ZONE_2,
    DS_FILL_ZONE_3,
    DS_FILLS_LEN
} ds_fill;

/*
 * What a fill is made of: an even grey, or hatching on paper left clear. Hatching is one family of parallel lines or two.
 * A line of a family goes through the point 0,0 of the sheet and the others lie spacing_mm apart, so hatches of
 * neighbours meet; dashes begin at 0,0. angle_deg is measured from the x axis, clockwise as seen: 45 falls to the right.
 */
typedef struct ds_fill_form {
    bool hatched;
    uint8_t grey;           /* not hatched: 0 ink to 255 paper */
    bool crossed;           /* a second family at right angles to the first */
    double angle_deg;       /* 0, 45, 90 or 135 */
    double spacing_mm;      /* between two lines, at right angles to them */
    double width_mm;        /* of a line */
    double dash_mm, gap_mm; /* along a line, 0: a whole one */
} ds_fill_form;

/* Of DS_FILL_NONE too: neither hatched nor to be painted. */
const ds_fill_form *ds_fill_form_of(ds_fill fill);

/* --- lettering ---------------------------------------------------------------------------------------------------- */

/* Faces in order of preference; the last is generic. */
#define DS_TYPE_FAMILIES "'Atkinson Hyperlegible', 'DejaVu Sans', sans-serif"

/* The sizes of type: body height (em), of which a capital takes DS_TYPE_CAPITAL. Pictures that scale use their own. */
#define DS_TYPE_SMALL_MM 2.5
#define DS_TYPE_MM 3.2
#define DS_TYPE_LARGE_MM 4.5
#define DS_TYPE_HEAD_MM 6.4
#define DS_TYPE_CAPITAL 0.68

typedef enum ds_anchor { DS_ANCHOR_START, DS_ANCHOR_MIDDLE, DS_ANCHOR_END } ds_anchor;

typedef struct ds_lettering {
    double size_mm;
    ds_anchor anchor; /* which end of the text stands at the given x */
    bool bold;
    bool halo;       /* paper around the letters, so that they read on a hatch */
    bool reversed;   /* paper-white letters, to stand on ink */
    bool centred;    /* y is the middle of the capitals, not their foot */
    double turn_deg; /* clockwise as seen, around x, y */
} ds_lettering;

/* Paper around letters with a halo, on every side. */
double ds_lettering_halo_mm(const ds_lettering *how);

/* How far below the given y the foot of the letters lies (along the turned letters' own down). */
double ds_lettering_drop_mm(const ds_lettering *how);

/*
 * An estimate of the text's width, on the long side: per character the wider of the first two faces. Letters of other
 * scripts count a whole body width, marks that combine none.
 */
double ds_lettering_width_mm(ds_str text, const ds_lettering *how);

/* --- the list ----------------------------------------------------------------------------------------------------- */

typedef enum ds_step_kind { DS_STEP_MOVE, DS_STEP_LINE, DS_STEP_ARC, DS_STEP_CLOSE } ds_step_kind;

typedef struct ds_step {
    ds_step_kind kind;
    bool clockwise;            /* arc: as seen on paper */
    double x, y;               /* where the step ends; not of close */
    double centre_x, centre_y; /* arc; of at most half a circle */
} ds_step;

typedef enum ds_role {
    DS_ROLE_PLAN,
    DS_ROLE_SECTION,
    DS_ROLE_WALL,
    DS_ROLE_FEATURE,
    DS_ROLE_ZONE,
    DS_ROLE_POINT,
    DS_ROLE_STRING,
    DS_ROLE_DIMENSION,
    DS_ROLE_BOX,
    DS_ROLE_RUNGS,
    DS_ROLE_CURVE,
    DS_ROLE_NOTE,
    DS_ROLES_LEN
} ds_role;

/* "plan", "section" … */
const char *ds_role_word(ds_role role);

typedef enum ds_item_kind { DS_ITEM_PATH, DS_ITEM_TEXT, DS_ITEM_BEGIN, DS_ITEM_END } ds_item_kind;

/* Which members count depends on the kind. */
typedef struct ds_item {
    ds_item_kind kind;
    ds_pen pen; /* path */
    ds_fill fill;
    size_t first_step, step_len;
    double x, y; /* text */
    ds_lettering how;
    ds_str text;  /* text; begin: the group's title for people, may be empty */
    ds_str id;    /* begin: what the group shows, such as a point's id; may be empty */
    ds_role role; /* begin */
} ds_item;

typedef struct ds_sheet {
    double width_mm, height_mm;
    ds_str id;          /* a word, to keep two sheets on one page apart */
    ds_str title;       /* one line */
    ds_str description; /* what somebody who does not see the drawing should know */
    const ds_item *items;
    size_t item_len;
    const ds_step *steps;
    size_t step_len;
    ds_arena *arena; /* borrowed; all below is private */
    ds_item *item_room;
    ds_step *step_room;
    size_t item_cap, step_cap;
    size_t path_start; /* first step that no item has taken */
    size_t depth;      /* groups that are open */
    ds_status status;
} ds_sheet;

void ds_sheet_init(ds_sheet *sheet, ds_arena *arena, double width_mm, double height_mm);
void ds_sheet_name(ds_sheet *sheet, ds_str id, ds_str title, ds_str description);

/*
 * DS_OK; DS_NO_MEMORY; DS_BAD_INPUT once a coordinate or size was not finite or beyond 100 m of paper, a size was not
 * positive, or a line, arc or close came before any move or after a close. What failed, and what came after it, is not in the list.
 */
ds_status ds_sheet_status(const ds_sheet *sheet);

/* A text that was made for the sheet failed: so did the sheet. Call it before the text is used. */
void ds_sheet_heed(ds_sheet *sheet, const ds_text *made);

/*
 * Steps of the path that is being made, which the next draw takes. An arc runs on its circle from where the pen is, any
 * way round; ends nearer than 0.001 mm make no arc (a whole circle is ds_sheet_circle).
 */
void ds_sheet_move(ds_sheet *sheet, double x, double y);
void ds_sheet_line(ds_sheet *sheet, double x, double y);
void ds_sheet_arc(ds_sheet *sheet, double x, double y, double centre_x, double centre_y, bool clockwise);
void ds_sheet_close(ds_sheet *sheet);

/* Whole outlines, as further parts of the path. */
void ds_sheet_rect(ds_sheet *sheet, double x, double y, double width, double height);
void ds_sheet_circle(ds_sheet *sheet, double x, double y, double radius);

/* The path becomes an item: filled first, then its line. Without steps nothing happens. */
void ds_sheet_draw(ds_sheet *sheet, ds_pen pen, ds_fill fill);

/* A straight line at once. */
void ds_sheet_stroke(ds_sheet *sheet, ds_pen pen, double x1, double y1, double x2, double y2);

/* One line of text, at its foot unless how says otherwise. */
void ds_sheet_write(ds_sheet *sheet, double x, double y, ds_str text, ds_lettering how);

/* The same within a width: smaller where it must be, DS_TYPE_MM at least, and cut with an ellipsis where that is not enough. */
void ds_sheet_write_within(ds_sheet *sheet, double x, double y, double width_mm, ds_str text,
                           ds_lettering how);

/* All until the matching end belongs together: a zone, a point. An end without a begin does nothing. */
void ds_sheet_begin(ds_sheet *sheet, ds_role role, ds_str id, ds_str title);
void ds_sheet_end(ds_sheet *sheet);

#endif
