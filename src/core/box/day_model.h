/* SPDX-License-Identifier: MIT */
/*
 * What the parts of the day model share: weather made ready for one box, vapour, and the step. Private to day*.c.
 *
 *     day.c            the loop over the hours, what is kept for the answer
 *     day_check.c      what may be given
 *     day_weather.c    an hour of weather -> what it does to this box
 *     day_step.c       the temperatures over a step; day_modes.h its two linear equations
 *     day_vapour.c     the vapour over a step
 *     day_films.[ch]   the films; day_curve.[ch] fast functions
 */
#ifndef DS_BOX_DAY_MODEL_H
#define DS_BOX_DAY_MODEL_H

#include "core/box/air.h"
#include "core/box/day_films.h"

#define DS_DAY_HOUR_S 3600.0

/* Curves over temperature: films, vapour over what is stable, with a node at the triple point, and over water in frost. */
#define DS_DAY_AIR_FIRST_C (-100.0)
#define DS_DAY_AIR_PER_K 0.1
#define DS_DAY_VAPOUR_FIRST_C (DS_AIR_TRIPLE_C - 100)
#define DS_DAY_WATER_FIRST_C (-40.0)
#define DS_DAY_VAPOUR_PER_K 0.5
enum { DS_DAY_AIR_PIECES = 30, DS_DAY_VAPOUR_PIECES = 149, DS_DAY_WATER_PIECES = 20 };

/* fmin and fmax are calls, and these need no answer for NAN. */
static inline double ds_day_less(const double a, const double b)
{
    return a < b ? a : b;
}

static inline double ds_day_more(const double a, const double b)
{
    return a > b ? a : b;
}

/* --- weather at this box ------------------------------------------------------------------------------------------ */

/* At one moment. */
typedef struct ds_day_forcing {
    double air_c;
    double sun_w, sky_w;
    double wind_w_m2k; /* the same until the next hour */
    double spot_k;     /* how far the coldest face lies below the mean of the skin */
    double vent_w_k;
    double vapour_pa;
} ds_day_forcing;

typedef struct ds_day_weather {
    const ds_day_box *box;
    double all_m2;
    ds_day_power wind;
    ds_day_cubic laminar[DS_DAY_AIR_PIECES]; /* film of 1 m/s by the two laws of the wind */
    ds_day_cubic turbulent[DS_DAY_AIR_PIECES];
    ds_day_cubic
        held[DS_DAY_AIR_PIECES]; /* film of still air at the greatest drop that is credible, top and side */
    ds_day_cubic standing[DS_DAY_AIR_PIECES];
    ds_day_cubic over_water[DS_DAY_WATER_PIECES];
    ds_day_cubic saturation[DS_DAY_VAPOUR_PIECES];
} ds_day_weather;

void ds_day_weather_make(ds_day_weather *out, const ds_day_box *box, double all_m2);
ds_day_forcing ds_day_forcing_of(const ds_day_weather *w, const ds_weather_hour *hour);

/* All but the wind. */
static inline ds_day_forcing ds_day_forcing_between(const ds_day_forcing *const a,
                                                    const ds_day_forcing *const b, const double at)
{
    return (ds_day_forcing){.air_c = a->air_c + at * (b->air_c - a->air_c),
                            .sun_w = a->sun_w + at * (b->sun_w - a->sun_w),
                            .sky_w = a->sky_w + at * (b->sky_w - a->sky_w),
                            .spot_k = a->spot_k + at * (b->spot_k - a->spot_k),
                            .vent_w_k = a->vent_w_k + at * (b->vent_w_k - a->vent_w_k),
                            .vapour_pa = a->vapour_pa + at * (b->vapour_pa - a->vapour_pa)};
}

static inline double ds_day_saturation_pa(const ds_day_weather *const w, const double temp_c)
{
    const ds_day_spot spot =
        ds_day_spot_of(temp_c, DS_DAY_VAPOUR_FIRST_C, DS_DAY_VAPOUR_PER_K, DS_DAY_VAPOUR_PIECES);
    return ds_day_cubic_at(&w->saturation[spot.piece], spot.t);
}

static inline double ds_day_saturation_slope(const ds_day_weather *const w, const double temp_c)
{
    const ds_day_spot spot =
        ds_day_spot_of(temp_c, DS_DAY_VAPOUR_FIRST_C, DS_DAY_VAPOUR_PER_K, DS_DAY_VAPOUR_PIECES);
    return ds_day_cubic_slope(&w->saturation[spot.piece], spot.t) * DS_DAY_VAPOUR_PER_K;
}

/* --- the box at one moment ---------------------------------------------------------------------------------------- */

typedef struct ds_day_heating {
    double heat_w;
    double by_skin, by_inside, by_time;
} ds_day_heating;

typedef struct ds_day_node {
    double skin_c, inside_c;
    double cold_c;               /* the coldest surface inside */
    double half_cold_c;          /* the same halfway through the step that led here */
    double most_pa;              /* vapour pressure that it allows */
    double vapour_pa;            /* in the air of the box */
    double liquid_kg;            /* on that surface */
    double skin_k_s, inside_k_s; /* how they change */
    ds_day_outer outer;
    ds_day_inner inner;
    ds_day_heating heater;
} ds_day_node;

/* One run of one box. */
typedef struct ds_day_model {
    const ds_day_box *box;
    ds_day_films films;
    ds_day_weather weather;
    double per_skin, per_inside; /* one over the heat capacities, K/J */
    double moist_m3_s;           /* by vent and breather */
    double held_kg_k_pa;         /* vapour in the air of the box, times kelvin over pascal */
} ds_day_model;

void ds_day_model_make(ds_day_model *out, const ds_day_box *box);

/* Fills what follows from the temperatures of a node, with the wind of now, and then from its vapour too. */
void ds_day_node_films(const ds_day_model *m, ds_day_node *node, const ds_day_forcing *now);
void ds_day_node_rates(const ds_day_model *m, ds_day_node *node, const ds_day_forcing *now, double watts);

/* --- a step ------------------------------------------------------------------------------------------------------- */

typedef struct ds_day_step {
    double length_s;
    double watts;
    double wind_w_m2k;                 /* all along the step */
    double quiet_k;                    /* a correction of the films' bend so small is taken as it is */
    const ds_day_forcing *start, *end; /* the rest of the weather goes over evenly */
} ds_day_step;

/* What passed during a step, J, as ds_day_heat has it. */
typedef struct ds_day_passed {
    double air_j, vent_j, heater_j;
    double error_k; /* estimated, of the temperatures */
    bool turned;    /* heat turned round on a side of the skin */
    bool switched;  /* the heater came to an end of its band */
    double wet_s;
    double drained_kg;
} ds_day_passed;

/* The node after the step. */
void ds_day_step_take(const ds_day_model *m, ds_day_node *to, const ds_day_node *from,
                      const ds_day_step *step, ds_day_passed *passed);

/*
 * Vapour and water of `to` from those of `from`; temperatures and coldest surfaces of both are known. Sets wet_s and
 * drained_kg.
 */
void ds_day_vapour_take(const ds_day_model *m, ds_day_node *to, const ds_day_node *from,
                        const ds_day_step *step, ds_day_passed *passed);

/* How fast the vapour pressure of a dry node changes, Pa/s. */
double ds_day_vapour_rate(const ds_day_model *m, const ds_day_node *node, const ds_day_forcing *now);

/* --- the edges ---------------------------------------------------------------------------------------------------- */

/* What is wrong with what was given, or DS_DAY_OK. */
ds_day_fault ds_day_check(const ds_day_box *box, const ds_weather_hour *hours, size_t count,
                          const ds_day_ask *ask);

#endif
