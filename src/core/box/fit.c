/* SPDX-License-Identifier: MIT */
/* A cable in a seal, a thread in a hole; the rules stand in fit.h. Lengths are millimetres. */
#include "core/box/fit.h"

#include <math.h>

/* --- cables ------------------------------------------------------------------------------------------------------- */

/* The diameters of one cable, as measured or by its table. */
typedef struct dimensions {
    ds_fit fit; /* DS_FIT_YES, or why they are not known */
    bool flat;
    double od_mm[2], inner_mm[2], width_mm[2], thickness_mm[2];
    const ds_cable_type *tabled;
} dimensions;

static bool is_known(const double range[2])
{
    return range[0] <= range[1];
}

static void copy_range(double to[2], const double from[2])
{
    to[0] = from[0];
    to[1] = from[1];
}

/* By type and size, where nothing was measured. */
static void look_up(dimensions *const out, const ds_cable *const cable, const ds_sizes *const sizes)
{
    if (!cable->type.at) {
        out->fit = DS_FIT_NO_DIAMETER;
        return;
    }
    const ds_cable_type *const type = ds_sizes_cable_type(sizes, cable->type);
    if (!type) {
        out->fit = DS_FIT_NO_TYPE;
        return;
    }
    const ds_cable_size *const size = ds_sizes_cable(type, cable->size);
    if (!size) {
        out->fit = DS_FIT_NO_SIZE;
        return;
    }
    out->tabled = type;
    out->flat = type->flat;
    copy_range(out->od_mm, size->od_mm);
    copy_range(out->width_mm, size->width_mm);
    copy_range(out->thickness_mm, size->thickness_mm);
    if (!is_known(out->inner_mm)) {
        copy_range(out->inner_mm, size->inner_mm);
    }
}

static dimensions dimensions_of(const ds_cable *const cable, const ds_sizes *const sizes)
{
    dimensions out = {.fit = DS_FIT_YES,
                      .od_mm = {cable->od_mm[0], cable->od_mm[1]},
                      .inner_mm = {cable->inner_mm[0], cable->inner_mm[1]},
                      .width_mm = {cable->flat_mm[0], cable->flat_mm[0]},
                      .thickness_mm = {cable->flat_mm[1], cable->flat_mm[1]}};
    out.flat = is_known(out.width_mm) && is_known(out.thickness_mm);
    if (!is_known(out.od_mm) && !out.flat) {
        look_up(&out, cable, sizes);
    }
    out.flat = out.flat || cable->shape == DS_SHAPE_FLAT;
    return out;
}

/* The whole of the cables in the whole of the seals, apart from them, or neither. */
static ds_fit range_fit(const double cable_mm[2], const double seal_mm[2])
{
    if (!is_known(seal_mm)) {
        return DS_FIT_NO_RANGE;
    }
    if (cable_mm[0] > seal_mm[1]) {
        return DS_FIT_TOO_THICK;
    }
    if (cable_mm[1] < seal_mm[0]) {
        return DS_FIT_TOO_THIN;
    }
    return seal_mm[0] <= cable_mm[0] && cable_mm[1] <= seal_mm[1] ? DS_FIT_YES : DS_FIT_MAYBE;
}

static void set_fit(ds_cable_fit *const out, const ds_fit fit, const ds_cable_measure measure,
                    const double cable_mm[2], const double seal_mm[2])
{
    out->fit = fit;
    out->measure = measure;
    copy_range(out->cable_mm, cable_mm);
    copy_range(out->seal_mm, seal_mm);
}

/* What a hole leaves beside the thinnest cable that it may hold, pushed to one side. */
static double beside_mm(const double thinnest_mm, const double hole_mm[2])
{
    return hole_mm[1] >= thinnest_mm ? hole_mm[1] - thinnest_mm : NAN;
}

static void fit_inner(ds_cable_fit *const out, const dimensions *const cable, const ds_seal *const seal)
{
    if (isnan(seal->inner_range_mm[0])) {
        return;
    }
    const bool known = is_known(cable->inner_mm);
    const ds_fit fit = known ? range_fit(cable->inner_mm, seal->inner_range_mm) : DS_FIT_NO_DIAMETER;
    if (fit != DS_FIT_YES) {
        set_fit(out, fit, DS_MEASURE_INNER, cable->inner_mm, seal->inner_range_mm);
    }
}

static void fit_round(ds_cable_fit *const out, const dimensions *const cable, const ds_seal *const seal,
                      const double hole_mm[2])
{
    out->channel_mm[1] = beside_mm(cable->od_mm[0], hole_mm);
    if (cable->od_mm[0] > hole_mm[1]) {
        set_fit(out, DS_FIT_OVER_HOLE, DS_MEASURE_DIAMETER, cable->od_mm, hole_mm);
        return;
    }
    const ds_fit fit = seal->flat ? DS_FIT_ROUND_IN_FLAT : range_fit(cable->od_mm, seal->range_mm);
    set_fit(out, fit, DS_MEASURE_DIAMETER, cable->od_mm, seal->range_mm);
    if (fit == DS_FIT_YES) {
        fit_inner(out, cable, seal);
    }
}

static void fit_flat(ds_cable_fit *const out, const dimensions *const cable, const ds_seal *const seal,
                     const double hole_mm[2])
{
    const double *const width_mm = cable->width_mm;
    const double *const thickness_mm = cable->thickness_mm;
    const ds_fit by_width = range_fit(width_mm, seal->range_mm);
    if (width_mm[0] > hole_mm[1]) {
        set_fit(out, DS_FIT_OVER_HOLE, DS_MEASURE_WIDTH, width_mm, hole_mm);
    } else if (!seal->flat) {
        set_fit(out, DS_FIT_FLAT, DS_MEASURE_WIDTH, width_mm, seal->range_mm);
        out->channel_mm[0] = fmax((width_mm[0] - thickness_mm[1]) / 2, 0);
        out->channel_mm[1] = beside_mm(thickness_mm[0], hole_mm);
        if (by_width == DS_FIT_YES) {
            out->channel_mm[1] = fmin(out->channel_mm[1], (width_mm[1] - thickness_mm[0]) / 2);
        }
    } else if (by_width != DS_FIT_YES) {
        set_fit(out, by_width, DS_MEASURE_WIDTH, width_mm, seal->range_mm);
    } else {
        set_fit(out, range_fit(thickness_mm, seal->thickness_mm), DS_MEASURE_THICKNESS, thickness_mm,
                seal->thickness_mm);
    }
}

/* Circle round equal cables and the largest circle beside them, for cables of diameter 1. */
typedef struct bundle {
    double round, beside;
} bundle;

static bundle bundle_of(const double count)
{
    return count == 2   ? (bundle){2, 2.0 / 3}
           : count == 3 ? (bundle){1 + 2 / sqrt(3), 0.4826727}
                        : (bundle){NAN, NAN};
}

/* Channels beside several cables: of two or three round ones that the seal closes upon they are known. */
static void fit_several(ds_cable_fit *const out, const double count, const dimensions *const cable,
                        const ds_seal *const seal, const double hole_mm[2])
{
    const double *const od_mm = cable->flat ? cable->width_mm : cable->od_mm;
    const bundle of = bundle_of(cable->flat ? 0 : count);
    const double round_mm[2] = {of.round * od_mm[0], of.round * od_mm[1]};
    const ds_cable_measure measure = cable->flat ? DS_MEASURE_WIDTH : DS_MEASURE_DIAMETER;
    if (od_mm[0] > hole_mm[1]) {
        set_fit(out, DS_FIT_OVER_HOLE, measure, od_mm, hole_mm);
        return;
    }
    const bool closes = is_known(round_mm) && range_fit(round_mm, seal->range_mm) == DS_FIT_YES;
    set_fit(out, DS_FIT_SEVERAL, measure, od_mm, seal->range_mm);
    const double beside = beside_mm(cable->flat ? cable->thickness_mm[0] : od_mm[0], hole_mm);
    out->channel_mm[0] = of.beside * od_mm[0];
    out->channel_mm[1] = closes ? fmin(of.beside * od_mm[1], beside) : beside;
}

void ds_fit_cable(ds_cable_fit *const out, const ds_cable *const cable, const ds_seal *const seal,
                  const double hole_mm[2], const ds_sizes *const sizes)
{
    *out = (ds_cable_fit){.fit = DS_FIT_NO_CABLE,
                          .cable_mm = {NAN, NAN},
                          .seal_mm = {seal->range_mm[0], seal->range_mm[1]},
                          .od_mm = {NAN, NAN},
                          .inner_mm = {NAN, NAN},
                          .channel_mm = {NAN, NAN}};
    if (!cable->at || isnan(cable->count)) {
        return;
    }
    if (cable->count == 0) {
        out->fit = DS_FIT_EMPTY;
        copy_range(out->channel_mm, (const double[2]){seal->flat ? NAN : seal->range_mm[0], hole_mm[1]});
        return;
    }
    const dimensions known = dimensions_of(cable, sizes);
    out->tabled = known.tabled;
    copy_range(out->od_mm, known.od_mm);
    copy_range(out->inner_mm, known.inner_mm);
    if (cable->count > 1) {
        fit_several(out, cable->count, &known, seal, hole_mm);
    } else if (known.fit != DS_FIT_YES) {
        out->fit = known.fit;
    } else if (known.flat && !is_known(known.width_mm)) {
        out->fit = DS_FIT_NO_DIAMETER;
    } else if (known.flat) {
        fit_flat(out, &known, seal, hole_mm);
    } else {
        fit_round(out, &known, seal, hole_mm);
    }
}

/* --- threads ------------------------------------------------------------------------------------------------------ */

static const double SLIPS_MM = 3;
static const double CORE_OFF_MM = 0.3;

/* A locknut behind a plain hole. */
static ds_thread_fit fit_plain(const ds_thread_size *const size, const double hole_mm[2])
{
    if (hole_mm[1] < size->thread_mm) {
        return DS_THREAD_TOO_LARGE;
    }
    if (hole_mm[0] > size->thread_mm + SLIPS_MM) {
        return DS_THREAD_FALLS_THROUGH;
    }
    const bool right = size->thread_mm <= hole_mm[0] && hole_mm[1] <= size->hole_mm[1];
    return right ? DS_THREAD_FITS : DS_THREAD_LOOSE;
}

static ds_thread_fit fit_threaded(const ds_thread_size *const size, const double core_mm)
{
    if (core_mm >= size->thread_mm) {
        return DS_THREAD_FALLS_THROUGH;
    }
    if (core_mm < size->core_mm - CORE_OFF_MM) {
        return DS_THREAD_TOO_LARGE;
    }
    return core_mm <= size->core_mm + CORE_OFF_MM ? DS_THREAD_FITS : DS_THREAD_LOOSE;
}

/* Of two different threads the inner one does not go in, falls through, or catches somehow. */
static ds_thread_fit fit_other(const ds_thread_size *const size, const ds_thread_size *const of_hole)
{
    return size->thread_mm > of_hole->thread_mm  ? DS_THREAD_TOO_LARGE
           : size->thread_mm <= of_hole->core_mm ? DS_THREAD_FALLS_THROUGH
                                                 : DS_THREAD_OTHER;
}

/* The hole's diameters: as measured, else as its own size has them. A threaded one's size is a thread, not a hole. */
static void find_hole(ds_thread_fitted *const out, const ds_entry *const entry,
                      const ds_thread_size *const own)
{
    const bool threaded = entry->threaded == DS_TRI_YES;
    if (!isnan(entry->hole_mm)) {
        out->hole_mm[0] = entry->hole_mm;
        out->hole_mm[1] = threaded && out->size ? fmax(out->size->thread_mm, entry->hole_mm) : entry->hole_mm;
    } else if (own) {
        out->hole_mm[0] = threaded ? own->core_mm : own->hole_mm[0];
        out->hole_mm[1] = threaded ? own->thread_mm : own->hole_mm[1];
    }
}

void ds_fit_thread(ds_thread_fitted *const out, const ds_entry *const entry, const ds_sizes *const sizes)
{
    *out = (ds_thread_fitted){.fit = DS_THREAD_FITS, .hole_mm = {NAN, NAN}};
    out->size = entry->size.at ? ds_sizes_thread(sizes, entry->size) : NULL;
    const ds_thread_size *const own = entry->hole_size.at ? ds_sizes_thread(sizes, entry->hole_size) : NULL;
    find_hole(out, entry, own ? own : out->size);
    if (entry->size.at && !out->size) {
        out->fit = DS_THREAD_NO_SIZE;
    } else if (entry->hole_size.at && !own) {
        out->fit = DS_THREAD_NO_HOLE_SIZE;
    } else if (!out->size) {
        out->fit = DS_THREAD_NOT_STATED;
    } else if (entry->threaded != DS_TRI_YES) {
        out->fit = isnan(out->hole_mm[0]) ? DS_THREAD_FITS : fit_plain(out->size, out->hole_mm);
    } else if (own && own != out->size) {
        out->fit = fit_other(out->size, own);
    } else if (!isnan(entry->hole_mm)) {
        out->fit = fit_threaded(out->size, entry->hole_mm);
    }
}
