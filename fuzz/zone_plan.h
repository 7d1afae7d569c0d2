/* SPDX-License-Identifier: MIT */
/*
 * A job with a plan from any bytes, for fuzz/zone.c: figures on a grid of an eighth of a metre and a few millimetres
 * beside it, so that things touch, meet and overlap in every way; nearly four in ten of random bytes are sound.
 */
#ifndef DS_FUZZ_ZONE_PLAN_H
#define DS_FUZZ_ZONE_PLAN_H

#include "fuzz.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

#include "core/base/text.h"
#include "core/job/plan.h"
#include "core/zone/curve.h"

typedef struct figures {
    const uint8_t *at;
    size_t left;
    ds_text text;
} figures;

/* 0 once they are used up. */
static inline unsigned next(figures *const f)
{
    if (!f->left) {
        return 0;
    }
    f->left--;
    return *f->at++;
}

static inline void put(figures *const f, const char *const form, ...)
{
    char piece[256];
    va_list args;
    va_start(args, form);
    vsnprintf(piece, sizeof piece, form, args);
    va_end(args);
    ds_text_add(&f->text, piece);
}

/* On an eighth of a metre's grid; one in four lies a few millimetres beside it. */
static inline double metres(figures *const f, const unsigned eighths)
{
    const unsigned on = next(f) % (eighths + 1);
    const unsigned beside = next(f);
    return on / 8.0 + (beside < 192 ? 0 : ((double)beside - 224) / 1000);
}

/* One after the other: compilers differ in the order of arguments. */
static inline ds_vec place(figures *const f, const unsigned eighths)
{
    const double x = metres(f, eighths);
    const double y = metres(f, eighths);
    return (ds_vec){x, y};
}

static inline void put_place(figures *const f, const char *const key)
{
    const ds_vec p = place(f, 40);
    put(f, ", \"%s\": [%.3f, %.3f]", key, p.x, p.y);
}

static inline void put_rectangle(figures *const f, const ds_vec at, const ds_vec size)
{
    put(f, "\"outline_m\": [[%.3f,%.3f],[%.3f,%.3f],[%.3f,%.3f],[%.3f,%.3f]]", at.x, at.y, at.x + size.x,
        at.y, at.x + size.x, at.y + size.y, at.x, at.y + size.y);
}

/* Corners anywhere, some at the end of arcs: few of these are outlines. */
static inline void put_corners(figures *const f, unsigned count)
{
    const ds_vec first = place(f, 64);
    put(f, "\"outline_m\": [[%.3f,%.3f]", first.x, first.y);
    for (; count > 0; count--) {
        const ds_vec p = place(f, 64);
        const bool arc = next(f) % 4 == 0;
        put(f, ", %s[%.3f,%.3f]", arc ? "{\"to_m\": " : "", p.x, p.y);
        if (arc) {
            put_place(f, "through_m");
            put(f, "}");
        }
    }
    put(f, "]");
}

/* Corners round a middle, each in its own direction, with edges that are straight, bulge out or bend in. */
static inline void put_star(figures *const f, const ds_vec middle, const unsigned count,
                            const unsigned eighths)
{
    const double far = 0.2 + metres(f, eighths);
    put(f, "\"outline_m\": [");
    for (unsigned i = 0; i < count; i++) {
        const double step = 6.2832 / count;
        const double turn = step * (i + (next(f) % 8) / 16.0);
        const double out = far * (1 - (next(f) % 4) / 8.0);
        const unsigned edge = next(f) % 4;
        const ds_vec p = {middle.x + out * cos(turn), middle.y + out * sin(turn)};
        put(f, "%s%s[%.3f,%.3f]", i ? ", " : "", edge < 2 ? "{\"to_m\": " : "", p.x, p.y);
        if (edge < 2) {
            const double by = far * (edge ? 1.05 : 0.6);
            put(f, ", \"through_m\": [%.3f,%.3f]}", middle.x + by * cos(turn - 0.5 * step),
                middle.y + by * sin(turn - 0.5 * step));
        }
    }
    put(f, "]");
}

/* Somewhere from the origin to `within` eighths. */
static inline void put_outline(figures *const f, const unsigned within, const unsigned eighths)
{
    const unsigned form = next(f);
    if (form >= 248) {
        put_corners(f, 2 + form % 8);
        return;
    }
    const ds_vec at = place(f, within);
    /* Round ones further in, so that those by the origin do not reach out of the rooms there. */
    const ds_vec middle = {at.x + eighths / 16.0, at.y + eighths / 16.0};
    if (form % 4 < 2) {
        const ds_vec more = place(f, eighths);
        put_rectangle(f, at, (ds_vec){0.125 + more.x, 0.125 + more.y});
    } else if (form % 4 == 2) {
        put_star(f, middle, 3 + form / 4 % 6, eighths / 2);
    } else {
        put(f, "\"centre_m\": [%.3f, %.3f], \"radius_m\": %.3f", middle.x, middle.y,
            0.1 + metres(f, eighths) / 2);
    }
}

/* Most of them large and about the origin, so that things stand in them; further ones beyond a wall beside the first. */
static inline void put_room(figures *const f, const unsigned nth)
{
    const unsigned form = next(f) % 8;
    if (nth > 0 && form < 7) {
        const ds_vec size = place(f, 32);
        const ds_vec low = {nth % 2 ? -size.x - 0.625 : 0, nth % 2 ? 0 : -size.y - 0.625};
        put_rectangle(f, low, (ds_vec){size.x + 0.5, size.y + 0.5});
        return;
    }
    if (form < 5) {
        const ds_vec size = place(f, 32);
        put_rectangle(f, (ds_vec){0, 0}, (ds_vec){4 + size.x, 4 + size.y});
    } else if (form < 7) {
        put_star(f, (ds_vec){3, 3}, 3 + next(f) % 8, 32);
    } else {
        put_outline(f, 32, 64);
    }
}

/* NAN when it is not given. */
static inline double height(figures *const f)
{
    const unsigned given = next(f);
    return given % 4 ? (given / 4 % 25) / 8.0 - (given > 250 ? 2 : 0) : NAN;
}

static inline void put_metres(figures *const f, const char *const key, const double value)
{
    if (!isnan(value)) {
        put(f, ", \"%s\": %.3f", key, value);
    }
}

static inline void put_height(figures *const f, const char *const key)
{
    put_metres(f, key, height(f));
}

/* One below the other; seven in eight the right way up. */
static inline void put_heights(figures *const f, const char *const upper, const char *const lower)
{
    const double one = height(f);
    const double other = height(f);
    const bool turn = !isnan(one) && other > one && next(f) % 8;
    put_metres(f, upper, turn ? other : one);
    put_metres(f, lower, turn ? one : other);
}

static inline void put_tri(figures *const f, const char *const key)
{
    static const char *const SAY[] = {"true", "false"};
    const unsigned given = next(f) % 3;
    if (given < 2) {
        put(f, ", \"%s\": %s", key, SAY[given]);
    }
}

/* Windows mostly in the walls along the axes; the rest anywhere in the smallest rooms. */
static inline void put_line(figures *const f, const ds_feature_kind kind)
{
    ds_vec from = place(f, 32);
    ds_vec to = place(f, 32);
    const unsigned wall = kind == DS_WINDOW ? next(f) % 8 : 7;
    if (wall < 3) {
        from.y = to.y = from.y / 64;
    } else if (wall < 6) {
        from.x = to.x = from.x / 64;
    }
    put(f, ", \"from_m\": [%.3f, %.3f], \"to_m\": [%.3f, %.3f]", from.x, from.y, to.x, to.y);
}

static inline void put_line_feature(figures *const f, const ds_feature_kind kind)
{
    put_line(f, kind);
    if (kind == DS_WINDOW) {
        put_heights(f, "head_m", "sill_m");
        put(f, ", \"recess_m\": %.3f", (next(f) % 5) / 8.0);
        return;
    }
    if (kind != DS_PARTITION) {
        put_height(f, "height_m");
    } else {
        put_heights(f, "height_m", "gap_m");
        put(f, ", \"thickness_m\": %.3f", (next(f) % 4) / 16.0);
        put_tri(f, "fixed");
    }
}

static inline void put_shaped_feature(figures *const f, const ds_feature_kind kind)
{
    const bool sunk = kind == DS_POOL || kind == DS_FOUNTAIN;
    const bool anywhere =
        kind == DS_SOLID_WALL || kind == DS_COLUMN || kind == DS_NICHE || kind == DS_RAISED_FLOOR;
    put(f, ", ");
    put_outline(f, anywhere ? 60 : 20, anywhere ? 24 : 10);
    if (kind == DS_BATH || kind == DS_SHOWER_BASIN) {
        put_heights(f, "rim_m", "bottom_m");
    }
    if (sunk) {
        put_height(f, "rim_m");
        put_metres(f, "bottom_m", -height(f));
    }
    if (kind == DS_NICHE) {
        put_heights(f, "top_m", "bottom_m");
    }
    if (kind == DS_SAUNA_HEATER || (kind >= DS_BOARD && kind <= DS_PLATFORM)) {
        put_height(f, "top_m");
    }
    if (kind == DS_SOLID_WALL || kind == DS_RAISED_FLOOR) {
        put_height(f, "height_m");
    }
    if (kind == DS_FOUNTAIN) {
        put_tri(f, "entered");
    }
}

/* What zones are measured from in a bathroom, by a pool, by a fountain, in a sauna; and what may stand anywhere. */
static const uint8_t WET[][4] = {{DS_BATH, DS_SHOWER_BASIN, DS_SHOWER_OUTLET, DS_SHOWER_OUTLET},
                                 {DS_POOL, DS_FOUNTAIN, DS_BOARD, DS_PLATFORM},
                                 {DS_FOUNTAIN, DS_FOUNTAIN, DS_FOUNTAIN, DS_FOUNTAIN},
                                 {DS_SAUNA_HEATER, DS_SAUNA_HEATER, DS_SAUNA_HEATER, DS_SAUNA_HEATER}};
static const uint8_t DRY[] = {DS_PARTITION,  DS_PARTITION,    DS_PARTITION, DS_SOLID_WALL, DS_COLUMN,
                              DS_OPENING,    DS_DOOR,         DS_WINDOW,    DS_NICHE,      DS_WASHBASIN,
                              DS_UNDER_BATH, DS_RAISED_FLOOR, DS_SLOPE};

static inline ds_feature_kind kind_of(figures *const f, const unsigned place_kind, const bool wet)
{
    const unsigned any = next(f);
    if (any >= 252) {
        return (ds_feature_kind)(next(f) % DS_FEATURE_KINDS);
    }
    return (ds_feature_kind)(wet ? WET[place_kind][any % 4] : DRY[any % sizeof DRY]);
}

static inline void put_feature(figures *const f, const ds_feature_kind kind)
{
    put(f, "{\"kind\": \"%s\"", ds_feature_word(kind));
    if (kind == DS_PARTITION || kind == DS_OPENING || kind == DS_DOOR || kind == DS_WINDOW) {
        put_line_feature(f, kind);
    } else if (kind == DS_SHOWER_OUTLET) {
        const ds_vec p = place(f, 32);
        put(f, ", \"at_m\": [%.3f, %.3f]", p.x, p.y);
        put_height(f, "height_m");
        const unsigned basin = next(f) % 8;
        put(f, basin < 4 ? ", \"basin\": false" : basin == 4 ? ", \"basin\": true" : "");
    } else if (kind == DS_UNDER_BATH) {
        put_tri(f, "tool");
    } else if (kind == DS_SLOPE) {
        const double z = metres(f, 32);
        const ds_vec other = place(f, 32);
        put(f, ", \"through_m\": [[0,0,%.3f],[1,0,%.3f],[0,1,%.3f]]", z, other.x, other.y);
    } else {
        put_shaped_feature(f, kind);
    }
    put(f, "}");
}

static inline void put_point(figures *const f)
{
    const ds_vec p = place(f, 64);
    put(f, ", \"at_m\": [%.3f, %.3f, %.3f]", p.x, p.y, (next(f) % 32) / 8.0);
    const ds_vec size = place(f, 32);
    put(f, ", \"size_m\": [%.3f, %.3f, 0.125], \"tolerance_m\": %.3f}", fabs(size.x) / 4, fabs(size.y) / 4,
        (next(f) % 4) / 16.0);
}

static inline void put_job(figures *const f)
{
    static const char *const PACKS[] = {"iec", "gb-2022", "de", "fr", "au"};
    static const char *const PLACES[] = {"bath-room", "pool", "fountain", "sauna"};
    static const uint8_t MOSTLY[] = {0, 0, 0, 0, 1, 1, 2, 3};
    const unsigned head = next(f);
    const unsigned place_kind = MOSTLY[next(f) % sizeof MOSTLY];
    put(f,
        "{\"dripstone\": 1, \"rules\": [\"%s\"], \"places\": [{\"id\": \"a\", \"kind\": \"%s\", \"setting\": "
        "\"indoors\", \"seen\": \"none\", \"plan\": {\"height_m\": 3, ",
        PACKS[head % 5], PLACES[place_kind]);
    const unsigned rooms = next(f) % 8 ? 1 : 2 + next(f) % 2;
    for (unsigned i = 0; i < rooms && rooms > 1; i++) {
        put(f, i ? "}, {" : "\"rooms\": [{");
        put_room(f, i);
    }
    if (rooms > 1) {
        put(f, "}]");
    } else {
        put_room(f, 0);
    }
    put(f, ", \"features\": [");
    const unsigned wet = 1 + next(f) % 3;
    const unsigned all = wet + next(f) % 8;
    for (unsigned i = 0; i < all; i++) {
        put(f, i ? ", " : "");
        put_feature(f, kind_of(f, place_kind, i < wet));
    }
    put(f, "]}}], \"points\": [");
    for (unsigned i = 0; i < 3; i++) {
        put(f, "%s{\"id\": \"%u\", \"place\": \"a\", \"kind\": \"luminaire\"", i ? ", " : "", i);
        put_point(f);
    }
    put(f, "]}");
}

#endif
