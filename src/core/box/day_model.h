/* SPDX-License-Identifier: MIT */
/*
 * What the parts of the day model share: weather made ready for one box, vapour, and the step. Private to day*.c.
 *
 *     day.c            boxes into lanes, the loop over the hours
 *     day_keep.c       what is kept for the answer
 *     day_check.c      what may be given
 *     day_weather.c    an hour of weather -> what it does to these boxes
 *     day_step.c       the temperatures over a step; day_modes.h its two linear equations
 *     day_vapour.[ch]  the vapour over a step
 *     day_films.[ch]   the films; day_saturation.[ch], day_lanes.h fast functions
 */
#ifndef DS_BOX_DAY_MODEL_H
#define DS_BOX_DAY_MODEL_H

#include "core/box/day_films.h"
#include "core/box/day_saturation.h"

#define DS_DAY_HOUR_S 3600.0

/* --- weather at a box, at one moment ------------------------------------------------------------------------------ */

/* wind_w_m2k stays the same until the next hour; spot_k: how far the coldest face lies below the mean of the skin. */
#define DS_DAY_FORCING_FIELDS(X)                                                                             \
    X(air_c)                                                                                                 \
    X(sun_w)                                                                                                 \
    X(sky_w)                                                                                                 \
    X(wind_w_m2k)                                                                                            \
    X(spot_k)                                                                                                \
    X(vent_w_k)                                                                                              \
    X(vapour_pa)

DS_DAY_LANED(ds_day_forcing, DS_DAY_FORCING_FIELDS)

/* All but the wind, which is that of a. */
DS_DAY_INLINE ds_day_forcing ds_day_forcing_between(const ds_day_forcing *const a,
                                                    const ds_day_forcing *const b, const double at)
{
    return (ds_day_forcing){.air_c = a->air_c + at * (b->air_c - a->air_c),
                            .sun_w = a->sun_w + at * (b->sun_w - a->sun_w),
                            .sky_w = a->sky_w + at * (b->sky_w - a->sky_w),
                            .wind_w_m2k = a->wind_w_m2k,
                            .spot_k = a->spot_k + at * (b->spot_k - a->spot_k),
                            .vent_w_k = a->vent_w_k + at * (b->vent_w_k - a->vent_w_k),
                            .vapour_pa = a->vapour_pa + at * (b->vapour_pa - a->vapour_pa)};
}

/* --- the box ------------------------------------------------------------------------------------------------------ */

/* What its weather is made with: factors of its lengths, its faces, heat per kelvin and square metre; flags are 1 or 0. */
#define DS_DAY_SITE_FIELDS(X)                                                                                \
    X(laminar)                                                                                               \
    X(turbulent)                                                                                             \
    X(held)                                                                                                  \
    X(absorptance)                                                                                           \
    X(emissivity)                                                                                            \
    X(inner_emissivity)                                                                                      \
    X(lit_m2)                                                                                                \
    X(sky_up)                                                                                                \
    X(sky_side)                                                                                              \
    X(has_covered)                                                                                           \
    X(wall_m2k_w)                                                                                            \
    X(outer_w_m2k)                                                                                           \
    X(inner_w_m2k)                                                                                           \
    X(vent_m3_s)

DS_DAY_LANED(ds_day_site, DS_DAY_SITE_FIELDS)

/*
 * per_skin, per_inside: one over the heat capacities, K/J. moist_m3_s: by vent and breather. held_kg_k_pa: vapour in the
 * air of the box, times kelvin over pascal. clings_kg: INFINITY without a drain.
 */
#define DS_DAY_FIXED_FIELDS(X)                                                                               \
    X(per_skin)                                                                                              \
    X(per_inside)                                                                                            \
    X(volume_m3)                                                                                             \
    X(moist_m3_s)                                                                                            \
    X(held_kg_k_pa)                                                                                          \
    X(clings_kg)                                                                                             \
    X(heater_w)                                                                                              \
    X(heater_set)                                                                                            \
    X(heater_band)

DS_DAY_LANED(ds_day_fixed, DS_DAY_FIXED_FIELDS)

/*
 * At one moment. cold_c: the coldest surface inside; half_cold_c: the same halfway through the step that led here;
 * most_pa: vapour pressure that it allows; vapour_pa: in the air of the box; liquid_kg: on that surface. skin_k_s,
 * inside_k_s: how they change. Then heat from skin to air, from inside to skin, of the heater, with their slopes.
 */
#define DS_DAY_NODE_FIELDS(X)                                                                                \
    X(skin_c)                                                                                                \
    X(inside_c)                                                                                              \
    X(cold_c)                                                                                                \
    X(half_cold_c)                                                                                           \
    X(most_pa)                                                                                               \
    X(vapour_pa)                                                                                             \
    X(liquid_kg)                                                                                             \
    X(skin_k_s)                                                                                              \
    X(inside_k_s)                                                                                            \
    X(outer_w)                                                                                               \
    X(outer_by_skin)                                                                                         \
    X(outer_by_air)                                                                                          \
    X(inner_w)                                                                                               \
    X(inner_by_inside)                                                                                       \
    X(inner_by_skin)                                                                                         \
    X(heater_w)                                                                                              \
    X(heater_by_skin)                                                                                        \
    X(heater_by_inside)                                                                                      \
    X(heater_by_time)

DS_DAY_LANED(ds_day_node, DS_DAY_NODE_FIELDS)

/* --- the boxes of one run ----------------------------------------------------------------------------------------- */

/* How a box takes its steps; those of a run are all alike. */
typedef struct ds_day_kind {
    ds_day_control control;
    bool is_sealed;
} ds_day_kind;

ds_day_kind ds_day_kind_of(const ds_day_box *box);

typedef struct ds_day_model {
    ds_day_kind kind;
    ds_day_site_lanes site;
    ds_day_films_lanes films;
    ds_day_fixed_lanes fixed;
    ds_day_saturation saturation;
} ds_day_model;

void ds_day_model_make(ds_day_model *out, const ds_day_box *const boxes[DS_DAY_LANES]);

void ds_day_site_make(ds_day_site *out, const ds_day_box *box, double all_m2);
void ds_day_forcing_of(const ds_day_model *m, ds_day_forcing_lanes *out, const ds_weather_hour *hour);

/* --- a step ------------------------------------------------------------------------------------------------------- */

/* Of all lanes; from one share of the hour to another. The weather but the wind goes over evenly along the hour. */
typedef struct ds_day_step {
    double from, to;
    const ds_day_forcing_lanes *start, *end; /* of the hour */
    const double *watts;                     /* of what stands in each box */
} ds_day_step;

DS_DAY_INLINE double ds_day_step_s(const ds_day_step *const step)
{
    return (step->to - step->from) * DS_DAY_HOUR_S;
}

DS_DAY_INLINE ds_day_forcing ds_day_forcing_in(const ds_day_step *const step, const int i, const double at)
{
    const ds_day_forcing start = ds_day_forcing_at(step->start, i);
    const ds_day_forcing end = ds_day_forcing_at(step->end, i);
    return ds_day_forcing_between(&start, &end, at);
}

/*
 * What passed during a step: J as ds_day_heat has it; the estimated error of the temperatures; flags, 1 or 0: the
 * heater came to an end of its band, it became wet or dry.
 */
#define DS_DAY_PASSED_FIELDS(X)                                                                              \
    X(air_j)                                                                                                 \
    X(vent_j)                                                                                                \
    X(heater_j)                                                                                              \
    X(error_k)                                                                                               \
    X(switched)                                                                                              \
    X(crossed)                                                                                               \
    X(wet_s)                                                                                                 \
    X(drained_kg)

DS_DAY_LANED(ds_day_passed, DS_DAY_PASSED_FIELDS)

/* Fills what follows from the temperatures of the nodes. */
void ds_day_node_films(const ds_day_model *m, ds_day_node_lanes *nodes, const ds_day_forcing_lanes *now);

/* Wind and watts change at the hour: so do outer films and rates. */
void ds_day_node_rates(const ds_day_model *m, ds_day_node_lanes *nodes, const ds_day_forcing_lanes *now,
                       const double *watts);

/* The nodes after the step. */
void ds_day_step_take(const ds_day_model *m, ds_day_node_lanes *to, const ds_day_node_lanes *from,
                      const ds_day_step *step, ds_day_passed_lanes *passed);

/*
 * Vapour and water of `to` from those of `from`; temperatures and coldest surfaces of both are known. Sets crossed, wet_s
 * and drained_kg.
 */
void ds_day_vapour_take(const ds_day_model *m, ds_day_node_lanes *to, const ds_day_node_lanes *from,
                        const ds_day_step *step, ds_day_passed_lanes *passed);

/* --- what is kept ------------------------------------------------------------------------------------------------- */

/* The answer so far; hours count from 0, heat in J. */
#define DS_DAY_KEPT_FIELDS(X)                                                                                \
    X(highest_c)                                                                                             \
    X(highest_hour)                                                                                          \
    X(lowest_c)                                                                                              \
    X(lowest_hour)                                                                                           \
    X(limit_hours)                                                                                           \
    X(wet_hours)                                                                                             \
    X(most_g)                                                                                                \
    X(most_hour)                                                                                             \
    X(drained_g)                                                                                             \
    X(margin_k)                                                                                              \
    X(margin_hour)                                                                                           \
    X(watts_j)                                                                                               \
    X(heater_j)                                                                                              \
    X(sun_j)                                                                                                 \
    X(sky_j)                                                                                                 \
    X(air_j)                                                                                                 \
    X(vent_j)

DS_DAY_LANED(ds_day_kept, DS_DAY_KEPT_FIELDS)

/* From the nodes at which the run begins. */
void ds_day_keep_start(ds_day_kept_lanes *kept, const ds_day_node_lanes *start);

/* What a step of this hour adds. */
typedef struct ds_day_taken {
    const ds_day_node_lanes *from, *to;
    const ds_day_step *step;
    const ds_day_passed_lanes *passed;
    double hour, limit_c;
} ds_day_taken;

void ds_day_keep(const ds_day_model *m, ds_day_kept_lanes *kept, const ds_day_taken *taken);

/* --- the edges ---------------------------------------------------------------------------------------------------- */

/* What is wrong with what was given, or DS_DAY_OK. */
ds_day_field ds_day_check_box(const ds_day_box *box);
ds_day_fault ds_day_check_hours(const ds_weather_hour *hours, size_t count, const ds_day_ask *ask);

#endif
