/* SPDX-License-Identifier: MIT */
/*
 * Openings against the standard probes: what an opening still keeps out, from its measure alone.
 *
 * An opening is as large as the largest ball that goes through it, its `clear_mm`:
 *
 *     round hole, knock-out     the diameter            rectangle     the shorter side
 *     slot, gap between plates  the width               triangle      4 x area / perimeter
 *     mesh                      the clear side          cable-gap     hole minus cable, pushed to one side
 *
 * Objects (IEC 60529 clause 13): a ball of 50 mm shows 1, of 12.5 mm 2, a rod of 2.5 mm 3, a wire of 1.0 mm 4. The test
 * is passed by a clear measure below the probe's. Neither dust (5, 6) nor water can be shown by a measure.
 *
 * Access (clause 12): each letter's probe must stay off live parts, as far as it can go in:
 *
 *     A   50 mm ball: as far as its cap bulges through
 *     B   jointed finger, 12 mm thick and 80 mm long, bent either way: from a clear 12 mm on up to 80 mm in every
 *         direction, and its stop of 50 x 20 mm must not follow; a smaller opening lets its tip bulge through, at most
 *         6 mm, below 2.5 mm at most 0.5 mm
 *     C   rod of 2.5 x 100 mm: from a clear 2.5 mm on, straight, as steep to the side as the wall allows
 *     D   wire of 1.0 x 100 mm: the same from 1.0 mm on
 *
 * Between what surely touches and what surely does not lies a margin of 5 mm (common practice) where a test is open, and
 * all of it where neither the live part nor a wall that stops the probe was measured. Letters are steps: one needs all those before it.
 *
 *     const ds_opening hole = {.shape = DS_OPENING_ROUND, .size_mm = 20.5, .live_part_mm = 40, …};
 *     ds_probe probe;
 *     ds_probe_opening(&probe, &hole);
 *     probe.clear_mm == 20.5, probe.numeral == 1: objects 1 proven, 2-6 denied; access A proven, B-D denied
 *
 * Sources: sizes and forces of A-D and of objects 1 and 2 from a probe supplier's table to IEC 61032; finger, stop and
 * bending from the conditions of UN vehicle rules that quote the same probes; "through no opening" from a test gear
 * maker's page on clause 13.3; objects 3 and 4 not entering at all from memory: IEC 60529, 13.
 */
#ifndef DS_BOX_PROBE_H
#define DS_BOX_PROBE_H

#include "core/job/box.h"
#include "core/mark/mark.h"

typedef enum ds_probe_status {
    DS_PROBE_MEASURED,
    DS_PROBE_NO_SHAPE,
    DS_PROBE_NO_SIZE,      /* size_mm, or the shape's own measure, is missing */
    DS_PROBE_NO_TRIANGLE,  /* no triangle has such sides */
    DS_PROBE_CABLE_TOO_BIG /* the cable would not go through the hole */
} ds_probe_status;

typedef struct ds_probe {
    ds_probe_status status;
    double clear_mm;
    int numeral;  /* the highest first numeral that its measure leaves possible, 0..4; 4 may be 5 or 6 */
    char letter;  /* the highest access letter shown, 0 none */
    char denied;  /* the lowest access letter refuted, 0 none */
    ds_mark mark; /* objects 1-4 and access; the rest open */
} ds_probe;

/* Judges one opening. Not measured: nothing is proven or denied. */
void ds_probe_opening(ds_probe *out, const ds_opening *opening);

/* The clear measure of an opening; NAN and the reason when it cannot be told. */
double ds_probe_clear_mm(const ds_opening *opening, ds_probe_status *status);

/* The highest numeral 0..4 whose object probe does not go through; 0 for NAN. */
int ds_probe_numeral(double clear_mm);

/* How far a ball bulges through a round hole smaller than itself: r - sqrt(r2 - d2/4). NAN when it goes through. */
double ds_probe_bulge_mm(double ball_mm, double clear_mm);

/*
 * How far aside a rod can reach at a depth: depth x (across - rod) / wall, across being the longest way over the
 * opening; INFINITY without a known wall, 0 when the rod does not go in.
 */
double ds_probe_rod_aside_mm(double rod_mm, double across_mm, double wall_mm, double depth_mm);

/*
 * A round opening whose diameter lies between two figures: proven what both prove, denied what both deny. Its live part,
 * wall and insulation are those of `like`.
 */
ds_mark ds_probe_between(double least_mm, double greatest_mm, const ds_opening *like);

#endif
