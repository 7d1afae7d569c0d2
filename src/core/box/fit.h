/* SPDX-License-Identifier: MIT */
/*
 * Does it fit: a cable in a seal, a thread in a hole.
 *
 * A cable is a range of diameters: what its standard allows, or one figure measured. A seal is the range it is made for.
 * It seals when the whole of the first lies in the second, surely not when they lie apart, and when they only overlap it
 * may: then the answer is MAYBE, which is never a pass. Measuring the cable settles it.
 *
 * One seal, one cable: a seal is proved on a round rod. A flat cable, or several, leave channels beside them however
 * hard the gland is tightened. The clear measure of a channel (diameter of the largest ball in it), d the diameter of
 * one cable, w and t width and thickness of a flat one:
 *
 *     flat cable in a round seal       (w - t)/2 on each side     twin and earth 2.5 mm2, 10.3 x 6.0: 2.15 mm
 *     two equal cables                 2d/3 on each side          d = 6 mm: 4.0 mm
 *     three equal cables               0.4827 d on three sides    d = 8 mm: 3.9 mm
 *
 * (plane geometry: circles inside a circle round the cables). Of more cables, and of a seal too large or too small, only
 * the upper bound is known: the hole in the box less the cable.
 *
 * Lengths are millimetres.
 */
#ifndef DS_BOX_FIT_H
#define DS_BOX_FIT_H

#include "core/box/sizes.h"
#include "core/job/box.h"

typedef enum ds_fit {
    DS_FIT_YES,
    DS_FIT_TOO_THIN,
    DS_FIT_TOO_THICK,
    DS_FIT_MAYBE,         /* some cables of that size fit, some don't */
    DS_FIT_NO_RANGE,      /* of the seal */
    DS_FIT_NO_CABLE,      /* none is stated */
    DS_FIT_NO_TYPE,       /* the type of cable is not known */
    DS_FIT_NO_SIZE,       /* its size is not known */
    DS_FIT_NO_DIAMETER,   /* neither measured nor stated by type and size */
    DS_FIT_FLAT,          /* a flat cable in a round seal */
    DS_FIT_ROUND_IN_FLAT, /* a round cable in a flat seal */
    DS_FIT_SEVERAL,       /* more than one cable in one seal */
    DS_FIT_EMPTY,         /* a seal without a cable */
    DS_FIT_OVER_HOLE      /* the cable is thicker than the hole: something was measured wrongly */
} ds_fit;

/* What of a cable was compared. */
typedef enum ds_cable_measure {
    DS_MEASURE_DIAMETER,
    DS_MEASURE_INNER,
    DS_MEASURE_WIDTH,
    DS_MEASURE_THICKNESS
} ds_cable_measure;

/* What a seal is made for; NAN: not stated. A flat seal's range_mm are widths. */
typedef struct ds_seal {
    double range_mm[2], thickness_mm[2], inner_range_mm[2];
    bool flat;
} ds_seal;

typedef struct ds_cable_fit {
    ds_fit fit;
    ds_cable_measure measure;
    double cable_mm[2];           /* what was compared; NAN unknown */
    double seal_mm[2];            /* with this */
    double od_mm[2], inner_mm[2]; /* of the cable, as measured or by its table; NAN unknown */
    double channel_mm[2];         /* clear measure left open: at least, at most; NAN: no such bound */
    const ds_cable_type *tabled;  /* the diameter is from a table; NULL: measured */
} ds_cable_fit;

/* hole_mm: least and greatest diameter of the hole in the box, NAN unknown. */
void ds_fit_cable(ds_cable_fit *out, const ds_cable *cable, const ds_seal *seal, const double hole_mm[2],
                  const ds_sizes *sizes);

typedef enum ds_thread_fit {
    DS_THREAD_FITS,       /* a size without a hole was made as an entry of that size */
    DS_THREAD_NOT_STATED, /* no size: it may be any */
    DS_THREAD_NO_SIZE,
    DS_THREAD_NO_HOLE_SIZE,
    DS_THREAD_TOO_LARGE, /* it does not go into the hole: something was measured wrongly */
    DS_THREAD_LOOSE,     /* hole and thread do not belong together; it may hold or not */
    DS_THREAD_FALLS_THROUGH,
    DS_THREAD_OTHER /* two different threads */
} ds_thread_fit;

typedef struct ds_thread_fitted {
    ds_thread_fit fit;
    const ds_thread_size *size; /* of the fitting; NULL unknown or not stated */
    double hole_mm[2];          /* of the hole, as stated or by its size; NAN unknown */
} ds_thread_fitted;

/*
 * The thread of `size` against the hole, which is plain (a locknut behind it) or threaded (then hole_mm is the drilled
 * core). Common practice: a plain hole is 0.2 to 0.5 mm wider than the thread; 3 mm wider it lets the flange slip aside
 * until the seal no longer covers it. A core is right within 0.3 mm.
 */
void ds_fit_thread(ds_thread_fitted *out, const ds_entry *entry, const ds_sizes *sizes);

#endif
