/* SPDX-License-Identifier: MIT */
/*
 * The `box` of a point: an enclosure as it is fitted, read into plain structs.
 *
 * Shape only, as in job.h: types, ranges, words and two-number ranges are checked here and reported like everything
 * else of the job; what an entry leaves of the protection is box/entry.h's business, heat and
 * moisture are judged further on. Missing numbers are NAN, missing texts empty (at == NULL), missing lists have length 0, a missing word is
 * the enum's 0. A value that was not understood is reported (the point can then never pass) and reads as missing.
 *
 *     "box": {"entries": [{"id": "E1", "face": "bottom", "size": "M20", "hole_mm": 20.5, "holds": "gland",
 *                          "ip": "IP66/IP68", "range_mm": [6, 12], "wall_seal": true,
 *                          "cable": {"type": "H07RN-F", "size": "3G1.5"}}]}
 *
 * Everything lives in the job's arena and borrows texts from the job's source.
 */
#ifndef DS_JOB_BOX_H
#define DS_JOB_BOX_H

#include "core/job/job.h"

struct ds_reader;

/* --- words ------------------------------------------------------------------------------------------------------ */

/* As one stands before the box. "top", "bottom", "left", "right", "front", "back" */
typedef enum ds_side {
    DS_SIDE_MISSING,
    DS_SIDE_TOP,
    DS_SIDE_BOTTOM,
    DS_SIDE_LEFT,
    DS_SIDE_RIGHT,
    DS_SIDE_FRONT,
    DS_SIDE_BACK
} ds_side;

/* "round", "slot", "mesh", "rectangle", "triangle", "gap" (between plates), "cable-gap" (round a cable), "knock-out" */
typedef enum ds_opening_shape {
    DS_OPENING_MISSING,
    DS_OPENING_ROUND,
    DS_OPENING_SLOT,
    DS_OPENING_MESH,
    DS_OPENING_RECTANGLE,
    DS_OPENING_TRIANGLE,
    DS_OPENING_GAP,
    DS_OPENING_CABLE_GAP,
    DS_OPENING_KNOCK_OUT
} ds_opening_shape;

/* What sits in an entry hole; the words are the names in lower case with hyphens. */
typedef enum ds_holds {
    DS_HOLDS_MISSING,
    DS_HOLDS_GLAND,
    DS_HOLDS_BLANK,
    DS_HOLDS_INSERT, /* a gland whose seal has several holes: `holes` */
    DS_HOLDS_CONDUIT,
    DS_HOLDS_BRUSH,
    DS_HOLDS_DRAIN,
    DS_HOLDS_BREATHER,
    DS_HOLDS_TAPE,         /* makeshift */
    DS_HOLDS_HAND_SEALANT, /* makeshift: sealant, foam or putty put on by hand */
    DS_HOLDS_FORCED_SEAL,  /* makeshift: a seal or bung forced in that was not made for it */
    DS_HOLDS_FIXING_HOLE,  /* a screw through the wall of the box */
    DS_HOLDS_NOTHING
} ds_holds;

/* "round", "flat": of a cable, and of the opening in a seal. */
typedef enum ds_cable_shape { DS_SHAPE_MISSING, DS_SHAPE_ROUND, DS_SHAPE_FLAT } ds_cable_shape;

/*
 * Whether water can be led in from where the conduit or cable comes from: "open" it can, "sealed" the conduit or cable
 * is sealed inside, "drained" it is let out before the box, "dry" there is none where it comes from.
 */
typedef enum ds_led_in {
    DS_LED_IN_MISSING,
    DS_LED_IN_OPEN,
    DS_LED_IN_SEALED,
    DS_LED_IN_DRAINED,
    DS_LED_IN_DRY
} ds_led_in;

/* "wall", "free", "row-end", "row-end-wall", "row-middle", "row-middle-wall", "recessed" */
typedef enum ds_mounted {
    DS_MOUNTED_MISSING,
    DS_MOUNTED_WALL,
    DS_MOUNTED_FREE,
    DS_MOUNTED_ROW_END,
    DS_MOUNTED_ROW_END_WALL,
    DS_MOUNTED_ROW_MIDDLE,
    DS_MOUNTED_ROW_MIDDLE_WALL,
    DS_MOUNTED_RECESSED
} ds_mounted;

/* How air gets in: "sealed" not at all, "breathing" through joints, "vented" through a vent or openings. */
typedef enum ds_box_seal {
    DS_BOX_SEAL_MISSING,
    DS_BOX_SEAL_SEALED,
    DS_BOX_SEAL_BREATHING,
    DS_BOX_SEAL_VENTED
} ds_box_seal;

/* What switches the heater: "hygrostat" (at: percent), "thermostat" (at: degrees Celsius), "always" */
typedef enum ds_heater_on {
    DS_HEATER_MISSING,
    DS_HEATER_HYGROSTAT,
    DS_HEATER_THERMOSTAT,
    DS_HEATER_ALWAYS
} ds_heater_on;

/* The word as it stands in a job ("row-end"); "" for a missing one. */
const char *ds_side_word(ds_side side);
const char *ds_holds_word(ds_holds holds);
const char *ds_opening_word(ds_opening_shape shape);

/* --- faces and openings ------------------------------------------------------------------------------------------- */

/*
 * One measured opening. `size_mm` is the diameter of a round hole, knock-out or hole round a cable, the width of a slot
 * or gap, the clear side of a mesh, one side of a rectangle, whose other side is `length_mm`. Of several live parts
 * behind it the nearest is given, or the opening is listed once for each.
 */
typedef struct ds_opening {
    const ds_json *at;
    ds_opening_shape shape;
    double size_mm, length_mm;
    double sides_mm[3];  /* triangle */
    double cable_mm;     /* cable-gap: the thinnest that the cable may be */
    double wall_mm;      /* thickness of the wall that the opening goes through */
    double live_part_mm; /* from the opening's outer edge in to the live part */
    double
        live_part_aside_mm; /* how far that lies aside of the edge, seen straight in; NAN: in whatever direction */
    ds_tri insulated;       /* every live part within reach behind it is insulated */
    ds_tri as_made;         /* the maker made it: what the mark says of dust and water was tested with it */
} ds_opening;

typedef struct ds_face {
    const ds_json *at;
    ds_side side;
    ds_tri reachable, tool_to_open, covered, sun, all_openings_measured;
    double height_m;
    const ds_json *exposure; /* words: what reaches it */
    const ds_opening *openings;
    size_t openings_len;
} ds_face;

/* --- entries ------------------------------------------------------------------------------------------------------ */

/*
 * A cable by type and size, whose diameter a table gives, or measured. `od_mm` is the least and greatest outside
 * diameter (equal when one cable was measured), `inner_mm` the same under an armour, `flat_mm` width and thickness.
 */
typedef struct ds_cable {
    const ds_json *at; /* NULL: no cable stated */
    ds_str type, size;
    double od_mm[2], inner_mm[2], flat_mm[2];
    ds_cable_shape shape;
    double count; /* how many such cables in one seal; 1 when left out, 0 an empty seal */
} ds_cable;

typedef enum ds_hole_state { DS_HOLE_MISSING, DS_HOLE_CABLE, DS_HOLE_PLUGGED, DS_HOLE_OPEN } ds_hole_state;

/* One hole of a multi-hole insert: "plugged", "open", or {"range_mm": [3, 6], "shape": …, "cable": {…}}. */
typedef struct ds_insert_hole {
    const ds_json *at;
    ds_hole_state state;
    double range_mm[2], thickness_mm[2];
    ds_cable_shape shape;
    ds_cable cable;
} ds_insert_hole;

typedef struct ds_entry {
    const ds_json *at;
    ds_str id, size;  /* size: thread or nominal size of what is fitted, "M20", "PG16" */
    ds_str hole_size; /* of the hole, where it was made for another one than `size` */
    ds_str gland;     /* size of an armoured gland, "20S" */
    ds_str ip;        /* of what is fitted, as printed on it */
    ds_side face;
    ds_holds holds;
    double hole_mm;           /* diameter of the plain hole; of a threaded one the drilled core */
    double range_mm[2];       /* cable diameters that the gland is made for */
    double inner_range_mm[2]; /* armoured gland: diameters under the armour */
    double live_part_mm;      /* as of an opening, should the entry turn out to be one */
    double wall_mm;
    ds_tri threaded, wall_seal, insulated, as_made;
    ds_tri by_hand;       /* what closes it comes out by hand */
    ds_cable_shape shape; /* of the seal's opening */
    ds_led_in led_in;
    double thickness_mm[2]; /* flat seal: thicknesses of cable; range_mm are then the widths */
    ds_tri outside_seal;    /* fixing hole: it lies outside the seal of the lid */
    ds_cable cable;
    const ds_insert_hole *holes;
    size_t holes_len;
} ds_entry;

/* --- the box ------------------------------------------------------------------------------------------------------ */

typedef struct ds_heater {
    const ds_json *at; /* NULL: none */
    double watts, set_at;
    ds_heater_on on;
} ds_heater;

typedef struct ds_sun {
    const ds_json *at; /* NULL: none stated */
    double flat_w_m2, wall_w_m2;
    ds_tri shade;
} ds_sun;

typedef struct ds_flood {
    const ds_json *at; /* NULL: none stated */
    double level_m, hours;
} ds_flood;

/* A design day: day_design.h makes its hours. */
typedef struct ds_day_stated {
    const ds_json *at;                   /* NULL: none stated */
    double low_c, high_c;                /* of the air */
    double humidity_pct;                 /* at the coldest hour */
    double sun_flat_w_m2, sun_wall_w_m2; /* at noon */
    double wind_m_s, clear;
} ds_day_stated;

typedef struct ds_box {
    const ds_json *at;
    const ds_face *faces;
    size_t faces_len;
    const ds_entry *entries;
    size_t entries_len;
    bool entries_stated; /* "entries" stands there, empty or not: all of them are listed */
    double width_mm, height_mm, depth_mm;
    ds_str material, surface, colour;
    double wall_mm;
    ds_mounted mounted;
    double watts, air_c, limit_c, humidity_pct, wind_m_s;
    double fan_m3_h, vent_l_min, cooled_to_c;
    ds_tri filter;
    ds_box_seal seal;
    ds_heater heater;
    ds_sun sun;
    ds_flood flood;
    double lowest_m; /* height of the box's lowest point */
    ds_day_stated day;
    double contents_kg; /* mass of what stands inside */
    ds_tri keep_dry;    /* nothing inside may get wet */
} ds_box;

/*
 * Reads the value of "box" for the reader's current owner (a point). NULL when value is NULL, is no object (reported)
 * or memory is short (reader->failed).
 */
const ds_box *ds_box_read(struct ds_reader *reader, const ds_json *value);

/* The face of this side; NULL when the box says nothing of it. */
const ds_face *ds_box_face(const ds_box *box, ds_side side);

#endif
