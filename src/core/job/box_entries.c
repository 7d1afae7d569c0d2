/* SPDX-License-Identifier: MIT */
/*
 * The entries of a box: the tables of their keys, and the walk over entries, cables and insert holes.
 *
 * A word of a closed list is read as text into a struct of this file and then looked up, so that an unknown one is
 * reported with the nearest that exists.
 */
#include "core/job/box_reader.h"
#include "core/job/table.h"

#include <math.h>

static const char *const HOLDS[] = {
    "",         "gland", "blank",        "insert",      "conduit",     "brush",  "drain",
    "breather", "tape",  "hand-sealant", "forced-seal", "fixing-hole", "nothing"};
static const char *const SHAPES[] = {"", "round", "flat"};
static const char *const LED_IN[] = {"", "open", "sealed", "drained", "dry"};
static const char *const HOLE_STATES[] = {"", "plugged", "open"};

const char *ds_holds_word(const ds_holds holds)
{
    return HOLDS[holds];
}

/* --- tables ------------------------------------------------------------------------------------------------------- */

/* What is read before words and lists are resolved. */
typedef struct cable_keys {
    ds_cable cable;
    ds_str shape;
} cable_keys;

typedef struct hole_keys {
    double range_mm[2], thickness_mm[2];
    ds_str shape;
    cable_keys cable;
} hole_keys;

typedef struct entry_keys {
    ds_entry entry;
    ds_str face, holds, shape, led_in;
    cable_keys cable;
    const ds_json *holes;
} entry_keys;

static const ds_field CABLE[] = {
    TEXT(cable_keys, "type", cable.type),
    TEXT(cable_keys, "size", cable.size),
    RANGE(cable_keys, "od_mm", cable.od_mm, 0.1, 300),
    RANGE(cable_keys, "inner_mm", cable.inner_mm, 0.1, 300),
    RANGE(cable_keys, "flat_mm", cable.flat_mm, 0.1, 300),
    TEXT(cable_keys, "shape", shape),
    COUNT(cable_keys, "count", cable.count, 0, 500),
    {0},
};

static const ds_field HOLE[] = {
    RANGE(hole_keys, "range_mm", range_mm, 0, 300),
    RANGE(hole_keys, "thickness_mm", thickness_mm, 0, 300),
    TEXT(hole_keys, "shape", shape),
    OBJECT(hole_keys, "cable", cable, CABLE),
    {0},
};

static const ds_field ENTRY[] = {
    TEXT(entry_keys, "id", entry.id),
    TEXT(entry_keys, "face", face),
    TEXT(entry_keys, "size", entry.size),
    TEXT(entry_keys, "hole_size", entry.hole_size),
    NUMBER(entry_keys, "hole_mm", entry.hole_mm, 0.1, 500),
    TRI(entry_keys, "threaded", entry.threaded),
    ID(entry_keys, "holds", holds),
    TEXT(entry_keys, "gland", entry.gland),
    TEXT(entry_keys, "ip", entry.ip),
    RANGE(entry_keys, "range_mm", entry.range_mm, 0, 300),
    RANGE(entry_keys, "thickness_mm", entry.thickness_mm, 0, 300),
    RANGE(entry_keys, "inner_range_mm", entry.inner_range_mm, 0, 300),
    TRI(entry_keys, "wall_seal", entry.wall_seal),
    TEXT(entry_keys, "shape", shape),
    TREE(entry_keys, "holes", holes),
    OBJECT(entry_keys, "cable", cable, CABLE),
    TEXT(entry_keys, "led_in", led_in),
    TRI(entry_keys, "outside_seal", entry.outside_seal),
    TRI(entry_keys, "as_made", entry.as_made),
    TRI(entry_keys, "by_hand", entry.by_hand),
    NUMBER(entry_keys, "wall_mm", entry.wall_mm, 0, 500),
    NUMBER(entry_keys, "live_part_mm", entry.live_part_mm, 0, 10000),
    TRI(entry_keys, "insulated", entry.insulated),
    {0},
};

/* --- cables ------------------------------------------------------------------------------------------------------- */

static const cable_keys NO_CABLE = {
    .cable = {.od_mm = {NAN, NAN}, .inner_mm = {NAN, NAN}, .flat_mm = {NAN, NAN}, .count = 1}};

/* What the table has read is completed: where it stood, its shape, and its ranges. */
static ds_cable finish_cable(ds_reader *const reader, const ds_json *const owner, cable_keys *const keys)
{
    const ds_json *const at = ds_box_object(owner, "cable");
    ds_cable *const cable = &keys->cable;
    cable->at = at;
    if (!at) {
        return *cable;
    }
    cable->shape = (ds_cable_shape)ds_box_word(reader, at, keys->shape, DS_WORD_LIST("shape", SHAPES));
    ds_box_range(reader, at, "od_mm", cable->od_mm);
    ds_box_range(reader, at, "inner_mm", cable->inner_mm);
    if (cable->flat_mm[0] < cable->flat_mm[1]) {
        ds_reader_complain(reader, ds_json_get(at, DS_STR("flat_mm")), DS_P_WRONG_TYPE, DS_STR("flat_mm"),
                           DS_STR("the width, then the thickness"));
        cable->flat_mm[0] = NAN;
        cable->flat_mm[1] = NAN;
    }
    return *cable;
}

static void read_hole_object(ds_reader *const reader, const ds_json *const value, ds_insert_hole *const hole)
{
    hole_keys keys = {.range_mm = {NAN, NAN}, .thickness_mm = {NAN, NAN}, .cable = NO_CABLE};
    ds_fields_read(reader, value, HOLE, &keys);
    ds_box_range(reader, value, "range_mm", keys.range_mm);
    ds_box_range(reader, value, "thickness_mm", keys.thickness_mm);
    memcpy(hole->range_mm, keys.range_mm, sizeof hole->range_mm);
    memcpy(hole->thickness_mm, keys.thickness_mm, sizeof hole->thickness_mm);
    hole->state = DS_HOLE_CABLE;
    hole->shape = (ds_cable_shape)ds_box_word(reader, value, keys.shape, DS_WORD_LIST("shape", SHAPES));
    hole->cable = finish_cable(reader, value, &keys.cable);
}

/* "plugged", "open", or an object with a cable's range and the cable. */
static ds_insert_hole read_hole(ds_reader *const reader, const ds_json *const value)
{
    ds_insert_hole hole = {
        .at = value, .range_mm = {NAN, NAN}, .thickness_mm = {NAN, NAN}, .cable = NO_CABLE.cable};
    if (value->kind == DS_JSON_OBJECT) {
        read_hole_object(reader, value, &hole);
    } else if (value->kind != DS_JSON_STRING) {
        ds_reader_complain(reader, value, DS_P_WRONG_TYPE, DS_STR("holes"),
                           DS_STR("a list of \"plugged\", \"open\" and objects"));
    } else {
        const ds_str text = ds_json_text(value);
        hole.state = ds_str_is(text, "plugged") ? DS_HOLE_PLUGGED
                     : ds_str_is(text, "open")  ? DS_HOLE_OPEN
                                                : DS_HOLE_MISSING;
        if (hole.state == DS_HOLE_MISSING) {
            ds_box_no_word(reader, value, DS_WORD_LIST("holes", HOLE_STATES));
        }
    }
    return hole;
}

static void read_holes(ds_reader *const reader, const ds_json *const list, ds_entry *const entry)
{
    ds_insert_hole *const holes = ds_box_list(reader, list, "holes", sizeof *holes);
    for (const ds_json *item = holes ? list->first : NULL; item; item = item->next) {
        holes[entry->holes_len++] = read_hole(reader, item);
    }
    entry->holes = holes;
}

static const ds_entry NO_ENTRY = {.hole_mm = NAN,
                                  .range_mm = {NAN, NAN},
                                  .thickness_mm = {NAN, NAN},
                                  .inner_range_mm = {NAN, NAN},
                                  .live_part_mm = NAN,
                                  .wall_mm = NAN};

static ds_entry read_entry(ds_reader *const reader, const ds_json *const value)
{
    entry_keys keys = {.entry = NO_ENTRY, .cable = NO_CABLE};
    ds_entry *const entry = &keys.entry;
    ds_fields_read(reader, value, ENTRY, &keys);
    entry->at = value;
    entry->face = (ds_side)ds_box_word(reader, value, keys.face, &DS_SIDE_WORDS);
    entry->holds = (ds_holds)ds_box_word(reader, value, keys.holds, DS_WORD_LIST("holds", HOLDS));
    entry->shape = (ds_cable_shape)ds_box_word(reader, value, keys.shape, DS_WORD_LIST("shape", SHAPES));
    entry->led_in = (ds_led_in)ds_box_word(reader, value, keys.led_in, DS_WORD_LIST("led_in", LED_IN));
    ds_box_range(reader, value, "range_mm", entry->range_mm);
    ds_box_range(reader, value, "thickness_mm", entry->thickness_mm);
    ds_box_range(reader, value, "inner_range_mm", entry->inner_range_mm);
    entry->cable = finish_cable(reader, value, &keys.cable);
    read_holes(reader, keys.holes, entry);
    return *entry;
}

/* A box has a dozen entries; only so many ids are compared, so that a list of a million takes no time squared. */
enum { MOST_IDS = 256 };

static bool has_id(const ds_entry *const entries, const size_t len, const ds_str id)
{
    for (size_t i = 0; i < len && i < MOST_IDS; i++) {
        if (ds_str_eq(entries[i].id, id)) {
            return true;
        }
    }
    return false;
}

void ds_box_entries(ds_reader *const reader, const ds_json *const list, ds_box *const box)
{
    ds_entry *const entries = ds_box_list(reader, list, "entries", sizeof *entries);
    for (const ds_json *item = entries ? list->first : NULL; item; item = item->next) {
        if (!ds_box_element(reader, item, "entries")) {
            continue;
        }
        const ds_entry entry = read_entry(reader, item);
        if (entry.id.at && has_id(entries, box->entries_len, entry.id)) {
            ds_reader_complain(reader, ds_json_get(item, DS_STR("id")), DS_P_DUPLICATE_ID, entry.id,
                               DS_STR(""));
        }
        entries[box->entries_len++] = entry;
    }
    box->entries = entries;
    box->entries_stated = entries != NULL;
}
