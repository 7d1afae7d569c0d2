/* SPDX-License-Identifier: MIT */
/*
 * The `box` of a point: the tables of its keys, and the walk over faces and openings; entries are read in box_entries.c.
 *
 * Ranges are those beyond which a figure is surely a slip, as in job.c.
 */
#include "core/job/box.h"

#include "core/job/box_reader.h"
#include "core/job/table.h"

#include <math.h>

static const char *const OPENINGS[] = {"",         "round", "slot",      "mesh",     "rectangle",
                                       "triangle", "gap",   "cable-gap", "knock-out"};
static const char *const MOUNTED[] = {
    "", "wall", "free", "row-end", "row-end-wall", "row-middle", "row-middle-wall", "recessed"};
static const char *const SEALS[] = {"", "sealed", "breathing", "vented"};
static const char *const HEATERS[] = {"", "hygrostat", "thermostat", "always"};

const char *ds_opening_word(const ds_opening_shape shape)
{
    return OPENINGS[shape];
}

/* --- tables ------------------------------------------------------------------------------------------------------- */

/* What is read before words and lists are resolved. */
typedef struct opening_keys {
    ds_opening opening;
    ds_str shape;
} opening_keys;

typedef struct face_keys {
    ds_face face;
    ds_str side;
    const ds_json *openings;
} face_keys;

typedef struct heater_keys {
    ds_heater heater;
    ds_str on;
} heater_keys;

typedef struct box_keys {
    ds_box box;
    double size_mm[3];
    ds_str mounted, seal;
    heater_keys heater;
    const ds_json *faces, *entries;
} box_keys;

static const ds_field OPENING[] = {
    TEXT(opening_keys, "shape", shape),
    NUMBER(opening_keys, "size_mm", opening.size_mm, 0.01, 5000),
    NUMBER(opening_keys, "length_mm", opening.length_mm, 0.01, 10000),
    POINT3(opening_keys, "sides_mm", opening.sides_mm, 0.01, 5000),
    NUMBER(opening_keys, "cable_mm", opening.cable_mm, 0.1, 300),
    NUMBER(opening_keys, "wall_mm", opening.wall_mm, 0, 500),
    NUMBER(opening_keys, "live_part_mm", opening.live_part_mm, 0, 10000),
    NUMBER(opening_keys, "live_part_aside_mm", opening.live_part_aside_mm, 0, 10000),
    TRI(opening_keys, "insulated", opening.insulated),
    TRI(opening_keys, "as_made", opening.as_made),
    {0},
};

static const ds_field FACE[] = {
    ID(face_keys, "face", side),
    TRI(face_keys, "reachable", face.reachable),
    NUMBER(face_keys, "height_m", face.height_m, -100, 500),
    WORDS(face_keys, "exposure", face.exposure),
    TRI(face_keys, "tool_to_open", face.tool_to_open),
    TRI(face_keys, "covered", face.covered),
    TRI(face_keys, "sun", face.sun),
    TREE(face_keys, "openings", openings),
    TRI(face_keys, "all_openings_measured", face.all_openings_measured),
    {0},
};

static const ds_field HEATER[] = {
    NUMBER(heater_keys, "watts", heater.watts, 0, 10000),
    TEXT(heater_keys, "on", on),
    NUMBER(heater_keys, "at", heater.set_at, -100, 200),
    {0},
};

static const ds_field SUN[] = {
    NUMBER(ds_sun, "flat_w_m2", flat_w_m2, 0, 1500),
    NUMBER(ds_sun, "wall_w_m2", wall_w_m2, 0, 1500),
    TRI(ds_sun, "shade", shade),
    {0},
};

static const ds_field FLOOD[] = {
    NUMBER(ds_flood, "level_m", level_m, -100, 500),
    NUMBER(ds_flood, "hours", hours, 0, 1000000),
    {0},
};

static const ds_field DAY[] = {
    NUMBER(ds_day_stated, "low_c", low_c, -40, 60),
    NUMBER(ds_day_stated, "high_c", high_c, -40, 60),
    NUMBER(ds_day_stated, "humidity_pct", humidity_pct, 0, 100),
    NUMBER(ds_day_stated, "sun_flat_w_m2", sun_flat_w_m2, 0, 1500),
    NUMBER(ds_day_stated, "sun_wall_w_m2", sun_wall_w_m2, 0, 1500),
    NUMBER(ds_day_stated, "wind_m_s", wind_m_s, 0, 60),
    NUMBER(ds_day_stated, "clear", clear, 0, 1),
    {0},
};

static const ds_field BOX[] = {
    TREE(box_keys, "faces", faces),
    TREE(box_keys, "entries", entries),
    POINT3(box_keys, "size_mm", size_mm, 1, 10000),
    TEXT(box_keys, "material", box.material),
    TEXT(box_keys, "surface", box.surface),
    TEXT(box_keys, "colour", box.colour),
    NUMBER(box_keys, "wall_mm", box.wall_mm, 0, 500),
    TEXT(box_keys, "mounted", mounted),
    NUMBER(box_keys, "watts", box.watts, 0, 100000),
    NUMBER(box_keys, "air_c", box.air_c, -90, 200),
    NUMBER(box_keys, "limit_c", box.limit_c, -90, 500),
    NUMBER(box_keys, "humidity_pct", box.humidity_pct, 0, 100),
    TEXT(box_keys, "seal", seal),
    NUMBER(box_keys, "fan_m3_h", box.fan_m3_h, 0, 100000),
    TRI(box_keys, "filter", box.filter),
    OBJECT(box_keys, "heater", heater, HEATER),
    OBJECT(box_keys, "sun", box.sun, SUN),
    NUMBER(box_keys, "wind_m_s", box.wind_m_s, 0, 100),
    NUMBER(box_keys, "vent_l_min", box.vent_l_min, 0, 100000),
    NUMBER(box_keys, "cooled_to_c", box.cooled_to_c, -60, 200),
    OBJECT(box_keys, "flood", box.flood, FLOOD),
    NUMBER(box_keys, "lowest_m", box.lowest_m, -100, 500),
    OBJECT(box_keys, "day", box.day, DAY),
    NUMBER(box_keys, "contents_kg", box.contents_kg, 0, 10000),
    TRI(box_keys, "keep_dry", box.keep_dry),
    {0},
};

/* --- faces -------------------------------------------------------------------------------------------------------- */

static ds_opening read_opening(ds_reader *const reader, const ds_json *const value)
{
    opening_keys keys = {.opening = {.at = value,
                                     .size_mm = NAN,
                                     .length_mm = NAN,
                                     .sides_mm = {NAN, NAN, NAN},
                                     .cable_mm = NAN,
                                     .wall_mm = NAN,
                                     .live_part_mm = NAN,
                                     .live_part_aside_mm = NAN}};
    ds_fields_read(reader, value, OPENING, &keys);
    keys.opening.shape =
        (ds_opening_shape)ds_box_word(reader, value, keys.shape, DS_WORD_LIST("shape", OPENINGS));
    return keys.opening;
}

static void read_openings(ds_reader *const reader, const ds_json *const list, ds_face *const face)
{
    ds_opening *const openings = ds_box_list(reader, list, "openings", sizeof *openings);
    for (const ds_json *item = openings ? list->first : NULL; item; item = item->next) {
        if (ds_box_element(reader, item, "openings")) {
            openings[face->openings_len++] = read_opening(reader, item);
        }
    }
    face->openings = openings;
}

static ds_face read_face(ds_reader *const reader, const ds_json *const value)
{
    face_keys keys = {.face = {.at = value, .height_m = NAN}};
    ds_fields_read(reader, value, FACE, &keys);
    keys.face.side = (ds_side)ds_box_word(reader, value, keys.side, &DS_SIDE_WORDS);
    read_openings(reader, keys.openings, &keys.face);
    return keys.face;
}

static void read_faces(ds_reader *const reader, const ds_json *const list, ds_box *const box)
{
    ds_face *const faces = ds_box_list(reader, list, "faces", sizeof *faces);
    unsigned sides = 0; /* those that were read */
    for (const ds_json *item = faces ? list->first : NULL; item; item = item->next) {
        if (!ds_box_element(reader, item, "faces")) {
            continue;
        }
        const ds_face face = read_face(reader, item);
        if (face.side && sides >> face.side & 1) {
            ds_reader_complain(reader, item, DS_P_DUPLICATE_ID, ds_str_of(ds_side_word(face.side)),
                               DS_STR(""));
        }
        sides |= 1U << face.side;
        faces[box->faces_len++] = face;
    }
    box->faces = faces;
}

/* --- the box ------------------------------------------------------------------------------------------------------ */

static const ds_box NO_BOX = {.width_mm = NAN,
                              .height_mm = NAN,
                              .depth_mm = NAN,
                              .wall_mm = NAN,
                              .watts = NAN,
                              .air_c = NAN,
                              .limit_c = NAN,
                              .humidity_pct = NAN,
                              .wind_m_s = NAN,
                              .fan_m3_h = NAN,
                              .vent_l_min = NAN,
                              .cooled_to_c = NAN,
                              .sun = {.flat_w_m2 = NAN, .wall_w_m2 = NAN},
                              .flood = {.level_m = NAN, .hours = NAN},
                              .lowest_m = NAN,
                              .day = {.low_c = NAN,
                                      .high_c = NAN,
                                      .humidity_pct = NAN,
                                      .sun_flat_w_m2 = NAN,
                                      .sun_wall_w_m2 = NAN,
                                      .wind_m_s = NAN,
                                      .clear = NAN},
                              .contents_kg = NAN};

/* Sun that is no more than 2 W/m2 on the flat and on a wall, and not none, was written in kilowatts. */
static void check_sun(ds_reader *const reader, const ds_json *const value, const double flat_w_m2,
                      const double wall_w_m2)
{
    const bool some = flat_w_m2 > 0 || wall_w_m2 > 0;
    if (some && flat_w_m2 <= 2 && wall_w_m2 <= 2) {
        ds_reader_complain(reader, value, DS_P_UNIT_SLIP, DS_STR("the sun"),
                           DS_STR("; is this in kilowatts?"));
    }
}

static void finish_box(ds_reader *const reader, const ds_json *const value, box_keys *const keys)
{
    ds_box *const box = &keys->box;
    box->at = value;
    box->width_mm = keys->size_mm[0];
    box->height_mm = keys->size_mm[1];
    box->depth_mm = keys->size_mm[2];
    box->mounted = (ds_mounted)ds_box_word(reader, value, keys->mounted, DS_WORD_LIST("mounted", MOUNTED));
    box->seal = (ds_box_seal)ds_box_word(reader, value, keys->seal, DS_WORD_LIST("seal", SEALS));
    box->sun.at = ds_box_object(value, "sun");
    box->flood.at = ds_box_object(value, "flood");
    box->day.at = ds_box_object(value, "day");
    check_sun(reader, box->sun.at, box->sun.flat_w_m2, box->sun.wall_w_m2);
    check_sun(reader, box->day.at, box->day.sun_flat_w_m2, box->day.sun_wall_w_m2);
    box->heater = keys->heater.heater;
    box->heater.at = ds_box_object(value, "heater");
    if (box->heater.at) {
        box->heater.on =
            (ds_heater_on)ds_box_word(reader, box->heater.at, keys->heater.on, DS_WORD_LIST("on", HEATERS));
    }
    read_faces(reader, keys->faces, box);
    ds_box_entries(reader, keys->entries, box);
}

const ds_box *ds_box_read(ds_reader *const reader, const ds_json *const value)
{
    if (!value) {
        return NULL;
    }
    if (value->kind != DS_JSON_OBJECT) {
        ds_reader_complain(reader, value, DS_P_WRONG_TYPE, DS_STR("box"), DS_STR("an object in braces"));
        return NULL;
    }
    ds_box *const box = ds_arena_take(reader->arena, sizeof *box);
    if (!box) {
        reader->failed = true;
        return NULL;
    }
    box_keys keys = {
        .box = NO_BOX, .size_mm = {NAN, NAN, NAN}, .heater = {.heater = {.watts = NAN, .set_at = NAN}}};
    ds_fields_read(reader, value, BOX, &keys);
    finish_box(reader, value, &keys);
    *box = keys.box;
    return box;
}

const ds_face *ds_box_face(const ds_box *const box, const ds_side side)
{
    for (size_t i = 0; i < box->faces_len; i++) {
        if (box->faces[i].side == side) {
            return &box->faces[i];
        }
    }
    return NULL;
}
