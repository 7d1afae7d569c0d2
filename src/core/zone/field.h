/* SPDX-License-Identifier: MIT */
/*
 * How far every place of a free space is from the things that zones are measured from.
 *
 * A source is a vessel's outline or a point, with a reach. The value at p is the length of the shortest string from a
 * source to p less that source's reach, the least of all sources: not above zero within reach. So zones of different
 * widths come out of one field.
 *
 * A string bends only at reflex corners (Lozano-Perez and Wesley 1979: shortest paths among polygons run along the
 * visibility graph). The value of each bend is found once (Dijkstra 1959); a place then asks the bends that it sees,
 * and the nearest places of the outlines that it sees straight. A place that sees none of an outline's nearest places
 * is reached round the corner that hides them.
 */
#ifndef DS_ZONE_FIELD_H
#define DS_ZONE_FIELD_H

#include "core/zone/space.h"

typedef struct ds_zone_source {
    ds_outline outline; /* at == NULL: the point `at` */
    ds_vec at;
    double reach_m;   /* INFINITY: the whole space */
    uint32_t feature; /* whose it is; for the caller */
    bool freed;       /* what it holds is taken away from zones, not given to one; for the caller */
} ds_zone_source;

/* A piece of a source's outline that stands free, or a point source (a == b). */
typedef struct ds_shore {
    ds_curve curve;
    double value; /* less the reach: not above 0 */
    uint32_t source;
    bool cut_a, cut_b; /* that end is where the outline goes into a solid, or on a wall */
} ds_shore;

/* How a bend of the space is reached. */
typedef struct ds_bend {
    double value; /* INFINITY: not at all */
    ds_vec from;  /* the place before: the bend `after`, or on the source when that is UINT32_MAX */
    uint32_t after;
    uint32_t source;
} ds_bend;

typedef struct ds_field {
    const ds_space *space;
    const ds_zone_source *sources; /* borrowed */
    size_t sources_len;
    ds_shore *shores;
    size_t shores_len;
    ds_bend *bends;   /* as many as the space has, in its order */
    ds_vec low, high; /* nothing outside this box is within reach */
    bool everywhere;  /* a source reaches the whole space */
} ds_field;

/* The way to a place. */
typedef struct ds_way {
    double value;    /* length less reach */
    double length_m; /* of the string; INFINITY: no way at all, or none below the bound asked for */
    uint32_t source; /* UINT32_MAX: none */
    ds_vec from;     /* the place before the end */
    uint32_t after;  /* the bend at `from`; UINT32_MAX: from is on the source */
} ds_way;

/* Sources are borrowed; the rest lies in the arena. DS_BAD_INPUT: the space has more than DS_SPACE_WALLS walls. */
ds_status ds_field_make(ds_field *out, const ds_space *space, const ds_zone_source *sources,
                        size_t sources_len, ds_arena *arena);

/* The best way to a free place among those whose value is below `bound`. */
ds_way ds_field_way(const ds_field *field, ds_vec p, double bound);

/* p, a free place, is within reach: its value is not above 0, or touches it. Quick when p is far away. */
bool ds_field_reaches(const ds_field *field, ds_vec p);

/* p lies in a freed source, not on its edge. */
bool ds_field_in_freed(const ds_field *field, ds_vec p);

/* The string of a way, from the source to p, at most room places to out; returns how many there are. */
size_t ds_field_string(const ds_field *field, const ds_way *way, ds_vec p, ds_vec *out, size_t room);

#endif
