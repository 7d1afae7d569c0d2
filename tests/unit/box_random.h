/* SPDX-License-Identifier: MIT */
/* Random entries, openings, boxes and marks for the laws of box/, the same ones on every run. */
#ifndef BOX_RANDOM_H
#define BOX_RANDOM_H

#include "box_help.h"

typedef struct random_bits {
    uint64_t state;
} random_bits;

static inline unsigned below(random_bits *const r, const unsigned limit)
{
    r->state = r->state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (unsigned)(r->state >> 33) % limit;
}

static inline ds_tri random_tri(random_bits *const r)
{
    return (ds_tri)below(r, 3);
}

static inline double random_mm(random_bits *const r, const double most)
{
    return below(r, 5) == 0 ? NAN : 0.1 + most * below(r, 1000) / 1000;
}

static inline void random_range(random_bits *const r, double range[2], const double most)
{
    range[0] = random_mm(r, most);
    range[1] = range[0] + (below(r, 2) ? 0 : most * below(r, 100) / 300);
}

static inline ds_str random_text(random_bits *const r, const char *const *const list, const unsigned len)
{
    return below(r, 6) == 0 ? (ds_str){NULL, 0} : ds_str_of(list[below(r, len)]);
}

static const ds_json STATED = {.kind = DS_JSON_OBJECT};

static inline ds_cable random_cable(random_bits *const r)
{
    static const char *const TYPES[] = {"H07RN-F", "SWA", "twin-and-earth", "H05VV-F", "string"};
    static const char *const SIZES[] = {"3G2.5", "3x1.5", "2.5", "4x10", "3G9"};
    ds_cable cable = {.at = below(r, 8) ? &STATED : NULL,
                      .type = random_text(r, TYPES, 5),
                      .size = random_text(r, SIZES, 5),
                      .flat_mm = {NAN, NAN},
                      .shape = (ds_cable_shape)below(r, 3),
                      .count = below(r, 4) ? 1 : below(r, 5)};
    random_range(r, cable.od_mm, 30);
    random_range(r, cable.inner_mm, 20);
    if (below(r, 4) == 0) {
        cable.flat_mm[1] = 1 + below(r, 8);
        cable.flat_mm[0] = cable.flat_mm[1] + below(r, 10);
    }
    return cable;
}

static inline ds_insert_hole random_hole(random_bits *const r)
{
    ds_insert_hole hole = {.state = (ds_hole_state)below(r, 4),
                           .thickness_mm = {NAN, NAN},
                           .shape = (ds_cable_shape)below(r, 3),
                           .cable = random_cable(r)};
    random_range(r, hole.range_mm, 12);
    return hole;
}

typedef struct random_entry {
    ds_entry entry;
    ds_insert_hole holes[3];
} random_entry;

static inline void make_entry(random_bits *const r, random_entry *const out)
{
    static const char *const IPS[] = {
        "IP66", "IP54", "IP68 (5 m, 24 h)", "IP66/IP68 (2 m, 48 h)", "weatherproof", "IP2X", "IP20"};
    static const char *const SIZES[] = {"M20", "M16", "M25", "PG16", "PG13.5", "M21"};
    ds_entry *const e = &out->entry;
    *e = (ds_entry){.ip = random_text(r, IPS, 7),
                    .size = random_text(r, SIZES, 6),
                    .hole_size = below(r, 4) ? (ds_str){NULL, 0} : random_text(r, SIZES, 6),
                    .face = (ds_side)below(r, 7),
                    .holds = (ds_holds)below(r, DS_HOLDS_NOTHING + 1),
                    .hole_mm = random_mm(r, 40),
                    .inner_range_mm = {NAN, NAN},
                    .thickness_mm = {NAN, NAN},
                    .live_part_mm = random_mm(r, 150),
                    .wall_mm = random_mm(r, 10),
                    .threaded = random_tri(r),
                    .wall_seal = random_tri(r),
                    .insulated = below(r, 4) ? DS_TRI_NO : random_tri(r),
                    .as_made = below(r, 4) ? DS_TRI_NO : random_tri(r),
                    .by_hand = below(r, 4) ? DS_TRI_NO : random_tri(r),
                    .shape = (ds_cable_shape)below(r, 3),
                    .led_in = (ds_led_in)below(r, 5),
                    .outside_seal = random_tri(r),
                    .cable = random_cable(r),
                    .holes = out->holes,
                    .holes_len = below(r, 4)};
    random_range(r, e->range_mm, 20);
    if (below(r, 3) == 0) {
        random_range(r, e->inner_range_mm, 12);
    }
    if (below(r, 3) == 0) {
        random_range(r, e->thickness_mm, 8);
    }
    for (size_t i = 0; i < 3; i++) {
        out->holes[i] = random_hole(r);
    }
}

static inline ds_opening random_opening(random_bits *const r)
{
    ds_opening opening = {.shape = (ds_opening_shape)below(r, DS_OPENING_KNOCK_OUT + 1),
                          .size_mm = random_mm(r, below(r, 2) ? 60 : 4),
                          .length_mm = random_mm(r, 80),
                          .cable_mm = random_mm(r, 20),
                          .wall_mm = random_mm(r, 20),
                          .live_part_mm = random_mm(r, 150),
                          .live_part_aside_mm = below(r, 2) ? NAN : random_mm(r, 100),
                          .insulated = below(r, 4) ? DS_TRI_NO : random_tri(r),
                          .as_made = random_tri(r)};
    for (int i = 0; i < 3; i++) {
        opening.sides_mm[i] = random_mm(r, 30);
    }
    return opening;
}

enum { MOST_PARTS = 6 };

typedef struct random_box {
    random_entry made[MOST_PARTS];
    ds_entry entries[MOST_PARTS];
    ds_opening openings[3];
    ds_face face;
    ds_box box;
} random_box;

static inline void make_box(random_bits *const r, random_box *const out)
{
    for (size_t i = 0; i < MOST_PARTS; i++) {
        make_entry(r, &out->made[i]);
        out->entries[i] = out->made[i].entry;
    }
    for (size_t i = 0; i < 3; i++) {
        out->openings[i] = random_opening(r);
    }
    out->face = (ds_face){.side = (ds_side)below(r, 7),
                          .covered = random_tri(r),
                          .reachable = random_tri(r),
                          .openings = out->openings,
                          .openings_len = below(r, 4)};
    out->box = (ds_box){.faces = &out->face,
                        .faces_len = 1,
                        .entries = out->entries,
                        .entries_len = below(r, MOST_PARTS),
                        .entries_stated = true};
}

static inline ds_mark random_marked(random_bits *const r)
{
    static const char *const MARKS[] = {"IP66", "IP55 IK08", "IP67", "IP65/IP68 (3 m, 24 h)",
                                        "IP20", "IPX4",      ""};
    ds_reading reading;
    ds_mark_read(ds_str_of(MARKS[below(r, 7)]), &reading);
    return reading.mark;
}

static inline ds_need random_need(random_bits *const r)
{
    static const char *const NEEDS[] = {"IP44", "IPX5", "IPXXB", "IP4X", "IP66", "IPX7", "IP55", "IP2X"};
    ds_reading reading;
    ds_need need = DS_NEED_NOTHING;
    assert_true(ds_need_read(ds_str_of(NEEDS[below(r, 8)]), &need, &reading));
    return need;
}

#endif
