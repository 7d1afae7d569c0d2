/* SPDX-License-Identifier: MIT */
/*
 * The films of one box as functions fast enough for a year in hourly steps: the laws of film.h, laid round a box as the
 * steady calculation of heat.h does, with the slopes that the integrator needs. Private to day*.c; the functions stand
 * here so that they end up inside the step.
 *
 * Every law of film.h for still air is a power of the Rayleigh number. With s the sixth root of the Rayleigh number of a
 * plate of one metre, Nusselt number over length becomes (a + b s)^2, a s^1.5 or b s^2; the factors are asked from film.h
 * once a run, so a law that changes there changes here, and tests/unit/box_day_ref.c holds the whole against it.
 */
#ifndef DS_BOX_DAY_FILMS_H
#define DS_BOX_DAY_FILMS_H

#include "core/box/day.h"
#include "core/box/day_lanes.h"

#define DS_DAY_KELVIN 273.15

/*
 * Laws: standing (a + b s)^2, free the larger of a s^1.5 and b s^2, held a s^1.5. Areas of the faces, all of them and what
 * the wind reaches. glow: emissivity x sigma x area, W/K4. film_share: of the drop from inside to skin, in a usual case.
 * outer_w_k, inner_w_k: measured ones, or 0.
 */
#define DS_DAY_FILM_FIELDS(X)                                                                                \
    X(standing_0)                                                                                            \
    X(standing_1)                                                                                            \
    X(free_quarter)                                                                                          \
    X(free_third)                                                                                            \
    X(held_quarter)                                                                                          \
    X(up_m2)                                                                                                 \
    X(side_m2)                                                                                               \
    X(down_m2)                                                                                               \
    X(up_open_m2)                                                                                            \
    X(side_open_m2)                                                                                          \
    X(down_open_m2)                                                                                          \
    X(all_m2)                                                                                                \
    X(glow_outer)                                                                                            \
    X(glow_inner)                                                                                            \
    X(wall_k_w)                                                                                              \
    X(film_share)                                                                                            \
    X(outer_w_k)                                                                                             \
    X(inner_w_k)

DS_DAY_LANED(ds_day_films, DS_DAY_FILM_FIELDS)

void ds_day_films_make(ds_day_films *out, const ds_day_box *box);

/* --- air along the faces ------------------------------------------------------------------------------------------ */

/* How conductivity and Rayleigh number follow the film's temperature, by kelvin, at 25 C; for slopes, so a guide only. */
#define DS_DAY_CONDUCTIVITY_PER_K 0.0028
#define DS_DAY_RAYLEIGH_PER_K (-0.0149)

/* Heat per kelvin by air, its slope times the difference, and that over the temperature of the film. */
typedef struct ds_day_air {
    double w_k;
    double by_difference;
    double by_film;
} ds_day_air;

/* Of one kind of face: Nusselt number over length, and its slope times the Rayleigh number. */
typedef struct ds_day_law {
    double per_m, slope;
} ds_day_law;

/* Calm faces of a kind; returns the area where the wind gives more. */
DS_DAY_INLINE double ds_day_add(ds_day_law *const sum, const ds_day_law law, const double each_m2,
                                const double open_m2, const double wind_per_m)
{
    const double windy_m2 = wind_per_m > law.per_m ? open_m2 : 0;
    sum->per_m += (each_m2 - windy_m2) * law.per_m;
    sum->slope += (each_m2 - windy_m2) * law.slope;
    return windy_m2;
}

DS_DAY_INLINE ds_day_air ds_day_air_of(const ds_day_films *const f, const double film_c,
                                       const double difference_k, const double wind_w_m2k)
{
    const bool outwards = difference_k >= 0; /* then the top is free and the bottom held */
    const ds_film_air air = ds_film_air_at(film_c);
    const double k = air.conductivity_w_mk;
    const double s = ds_day_sixth(ds_film_rayleigh(&air, fabs(difference_k), 1) + 1e-12);
    const double root = f->standing_0 + f->standing_1 * s;
    const double quarter = s * sqrt(s);
    const double by_quarter = f->free_quarter * quarter;
    const double by_third = f->free_third * s * s;
    const double held = f->held_quarter * quarter;
    const ds_day_law standing_law = {root * root, root * f->standing_1 * s * (1.0 / 3)};
    const ds_day_law free_law = {ds_day_more(by_third, by_quarter),
                                 by_third > by_quarter ? by_third * (1.0 / 3) : by_quarter / 4};
    const ds_day_law held_law = {held, held / 4};
    const double wind_per_m = wind_w_m2k / k;
    ds_day_law sum = {0, 0};
    double windy_m2 = ds_day_add(&sum, standing_law, f->side_m2, f->side_open_m2, wind_per_m);
    windy_m2 += ds_day_add(&sum, free_law, outwards ? f->up_m2 : f->down_m2,
                           outwards ? f->up_open_m2 : f->down_open_m2, wind_per_m);
    windy_m2 += ds_day_add(&sum, held_law, outwards ? f->down_m2 : f->up_m2,
                           outwards ? f->down_open_m2 : f->up_open_m2, wind_per_m);
    return (ds_day_air){k * sum.per_m + windy_m2 * wind_w_m2k, k * sum.slope,
                        k * (sum.per_m * DS_DAY_CONDUCTIVITY_PER_K + sum.slope * DS_DAY_RAYLEIGH_PER_K)};
}

/* --- outside ------------------------------------------------------------------------------------------------------ */

/* Heat from the skin to the air, W, and its slopes. wind_w_m2k is what the wind gives at least to open faces. */
typedef struct ds_day_outer {
    double heat_w;
    double by_skin, by_air;
} ds_day_outer;

DS_DAY_INLINE ds_day_outer ds_day_outer_of(const ds_day_films *const f, const double skin_c,
                                           const double air_c, const double wind_w_m2k)
{
    const double difference = skin_c - air_c;
    const ds_day_air air = ds_day_air_of(f, (skin_c + air_c) / 2, difference, wind_w_m2k);
    const double skin_k = skin_c + DS_DAY_KELVIN;
    const double air_k = air_c + DS_DAY_KELVIN;
    const double skin_glow = f->glow_outer * skin_k * skin_k * skin_k;
    const double air_glow = f->glow_outer * air_k * air_k * air_k;
    const double straight = air.w_k + air.by_difference;
    const double bend = difference * air.by_film / 2;
    const double heat_w = difference * air.w_k + skin_glow * skin_k - air_glow * air_k;
    const double measured = f->outer_w_k;
    return (ds_day_outer){.heat_w = measured > 0 ? measured * difference : heat_w,
                          .by_skin = measured > 0 ? measured : straight + bend + 4 * skin_glow,
                          .by_air = measured > 0 ? -measured : bend - straight - 4 * air_glow};
}

/* --- inside ------------------------------------------------------------------------------------------------------- */

/* Heat from the inside to the skin, W, and its slopes. */
typedef struct ds_day_inner {
    double heat_w;
    double by_inside, by_skin;
} ds_day_inner;

/* The film alone, across a drop from the inside to the inner face of the wall. */
DS_DAY_INLINE ds_day_inner ds_day_film_of(const ds_day_films *const f, const double inside_c,
                                          const double drop)
{
    const ds_day_air air = ds_day_air_of(f, inside_c - drop / 2, drop, 0);
    const double inside_k = inside_c + DS_DAY_KELVIN;
    const double wall_k = inside_k - drop;
    const double inside_glow = f->glow_inner * inside_k * inside_k * inside_k;
    const double wall_glow = f->glow_inner * wall_k * wall_k * wall_k;
    const double straight = air.w_k + air.by_difference;
    const double bend = drop * air.by_film / 2;
    return (ds_day_inner){.heat_w = drop * air.w_k + inside_glow * inside_k - wall_glow * wall_k,
                          .by_inside = straight + bend + 4 * inside_glow,
                          .by_skin = bend - straight - 4 * wall_glow};
}

/*
 * Film and wall are in series: the film carries q(v) across its drop v, and v + wall q(v) is the whole difference. The
 * film is asked once, at the usual share of the drop; from there Newton's step with the curvature of a power law. What is
 * left is below 1e-4 of the heat, up to 30 K and 0.03 m2K/W.
 */
DS_DAY_INLINE ds_day_inner ds_day_in_series(const ds_day_films *const f, const double inside_c,
                                            const double difference)
{
    const double drop = difference * f->film_share;
    const ds_day_inner film = ds_day_film_of(f, inside_c, drop);
    const double slope = -film.by_skin; /* the inside stays, the wall moves */
    const double curve = film.heat_w * drop > 0 ? slope * (slope / film.heat_w - 1 / drop) : 0;
    const double per = 1 / (1 + f->wall_k_w * slope);
    const double miss = (difference - drop - f->wall_k_w * film.heat_w) * per;
    const double step = miss - f->wall_k_w * curve * miss * miss / 2 * per;
    const double series = 1 / (1 + f->wall_k_w * (slope + curve * step));
    return (ds_day_inner){.heat_w = film.heat_w + step * (slope + curve * step / 2),
                          .by_inside = (film.by_inside + curve * step) * series,
                          .by_skin = (film.by_skin - curve * step) * series};
}

DS_DAY_INLINE ds_day_inner ds_day_inner_of(const ds_day_films *const f, const double inside_c,
                                           const double skin_c)
{
    const double difference = inside_c - skin_c;
    const ds_day_inner by_film = ds_day_in_series(f, inside_c, difference);
    const double measured = f->inner_w_k;
    return (ds_day_inner){.heat_w = measured > 0 ? measured * difference : by_film.heat_w,
                          .by_inside = measured > 0 ? measured : by_film.by_inside,
                          .by_skin = measured > 0 ? -measured : by_film.by_skin};
}

#endif
