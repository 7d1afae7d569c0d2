/* SPDX-License-Identifier: MIT */
/*
 * What a box's own figures say of heat, of a quench and of high water: the job's `box` handed to heat.h and pressure.h,
 * with the calculation step by step.
 *
 *     ds_climate climate;
 *     ds_climate_of(&climate, point->box, outdoors, &arena);
 *     if (climate.heat_asked && climate.heat_verdict != DS_FITS) …
 *     for (size_t i = 0; i < climate.trail.len; i++) … climate.trail.at[i]
 *
 * Heat is judged once a limit is stated; losses without a limit are worked out and not judged. What is missing leaves the
 * answer unknown, never good.
 */
#ifndef DS_BOX_CLIMATE_H
#define DS_BOX_CLIMATE_H

#include "core/box/heat.h"
#include "core/box/pressure.h"
#include "core/box/through.h"
#include "core/job/box.h"

typedef struct ds_climate {
    bool heat_told;                         /* losses or a limit are stated */
    bool heat_asked;                        /* a limit is stated */
    ds_str surface_unknown, colour_unknown; /* the name where it is none of film.h; empty otherwise */
    ds_heat_case heat_case;
    ds_heat_answer heat;
    double limit_c;
    ds_verdict heat_verdict; /* DS_FITS unless heat is asked */
    ds_heat_why heat_why;
    bool quench_told; /* what it is cooled to is stated */
    ds_quench_answer quench;
    bool flood_told;
    ds_flood_answer flood;
    bool sweating_told; /* a heater or humidity is stated, and no day to work it out for */
    ds_through day;     /* day.told: a day is stated */
    ds_trail trail;
} ds_climate;

/* outdoors: the sun may shine on it unless the box says otherwise. The trail lies in the arena. DS_NO_MEMORY only. */
ds_status ds_climate_of(ds_climate *out, const ds_box *box, bool outdoors, ds_arena *arena);

/* What the water asks for; DS_NEED_NOTHING when it stays clear, is not told or not known. */
ds_need ds_climate_flood_need(const ds_climate *climate);

/*
 * The inside at its coolest and warmest in steps of 0.1 C, down and up, so that neither goes towards acceptance; NAN when
 * it could not be worked out.
 */
void ds_climate_heat_c(const ds_climate *climate, double *low_c, double *high_c);

/* One or two sentences each, whole: the answer first. */
void ds_climate_say_heat(ds_text *out, const ds_climate *climate);
void ds_climate_mend_heat(ds_text *out, const ds_climate *climate);
void ds_climate_say_flood(ds_text *out, const ds_climate *climate);
void ds_climate_mend_flood(ds_text *out, const ds_climate *climate);
void ds_climate_say_quench(ds_text *out, const ds_climate *climate);

#endif
