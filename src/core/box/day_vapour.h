/* SPDX-License-Identifier: MIT */
/*
 * The vapour in the air of the box over one step; private to day*.c.
 *
 * Dry, its pressure e relaxes towards the outside's, e' = mu (eo - e), with mu the outside air that comes in over what is
 * there: by vent and breather, and on cooling by what is drawn in, -Ti'/Ti (kelvin). Air that is pressed out on warming
 * leaves e as it is. Wet, e is the saturation pressure of the coldest surface, and the water of the whole box is counted:
 * what flows in at eo and out at e. A sealed box keeps its water: in the air what the surface allows, the rest on it.
 *
 * Here the step as nearly all are, without a change between dry and wet; day_vapour.c divides the others.
 */
#ifndef DS_BOX_DAY_VAPOUR_H
#define DS_BOX_DAY_VAPOUR_H

#include "core/box/day_model.h"

/* Along the step, from 0 to 1; most_pa: what the coldest surface allows. */
typedef struct moment {
    double at;
    double inside_k, outside_k;
    double outside_pa;
    double most_pa;
} moment;

typedef struct wetness {
    double vapour_pa, liquid_kg;
} wetness;

/* The step of one box, its two ends. */
typedef struct passage {
    const ds_day_fixed *fixed;
    const ds_day_saturation *saturation;
    double length_s;
    moment start, end;
    double start_cold_c, half_cold_c, end_cold_c;
} passage;

DS_DAY_INLINE passage passage_of(const ds_day_fixed *const fixed, const ds_day_saturation *const saturation,
                                 const ds_day_node *const from, const ds_day_node *const to,
                                 const ds_day_forcing *const start, const ds_day_forcing *const end,
                                 const double length_s)
{
    return (passage){
        .fixed = fixed,
        .saturation = saturation,
        .length_s = length_s,
        .start = {0, from->inside_c + DS_DAY_KELVIN, start->air_c + DS_DAY_KELVIN, start->vapour_pa,
                  from->most_pa},
        .end = {1, to->inside_c + DS_DAY_KELVIN, end->air_c + DS_DAY_KELVIN, end->vapour_pa, to->most_pa},
        .start_cold_c = from->cold_c,
        .half_cold_c = to->half_cold_c,
        .end_cold_c = to->cold_c};
}

DS_DAY_INLINE double between(const double a, const double b, const double at)
{
    return a + (b - a) * at;
}

/* The coldest surface follows the parabola through the step's start, middle and end. */
DS_DAY_INLINE moment moment_at(const passage *const p, const double at)
{
    const double bulge = p->half_cold_c - (p->start_cold_c + p->end_cold_c) / 2;
    const double cold_c = between(p->start_cold_c, p->end_cold_c, at) + 4 * at * (1 - at) * bulge;
    return (moment){.at = at,
                    .inside_k = between(p->start.inside_k, p->end.inside_k, at),
                    .outside_k = between(p->start.outside_k, p->end.outside_k, at),
                    .outside_pa = between(p->start.outside_pa, p->end.outside_pa, at),
                    .most_pa = ds_day_saturation_pa(p->saturation, cold_c)};
}

/* --- dry ---------------------------------------------------------------------------------------------------------- */

/* The share of the air in b that was drawn in since a: ln(Ta/Tb) by its first term, good to 1e-6 for ten kelvin. */
DS_DAY_INLINE double drawn_share(const moment *const a, const moment *const b)
{
    const double cooled = a->inside_k - b->inside_k;
    return ds_day_more(2 * cooled / (a->inside_k + b->inside_k), 0);
}

/* (1 - exp(-z)) / z, for z from 0 */
DS_DAY_INLINE double faded(const double z)
{
    const bool is_near = z < 0.02;
    const double series = 1 - z / 2 * (1 - z * (1.0 / 3) * (1 - z / 4));
    const double whole = (1 - ds_day_exp(-z)) / (is_near ? 1 : z);
    return is_near ? series : whole;
}

DS_DAY_INLINE double dry_pa(const passage *const p, const double start_pa, const moment *const a,
                            const moment *const b)
{
    const double s = (b->at - a->at) * p->length_s;
    const double flow = p->fixed->moist_m3_s * s * (a->inside_k + b->inside_k) /
                        (p->fixed->volume_m3 * (a->outside_k + b->outside_k));
    const double z = flow + drawn_share(a, b);
    const double rest = faded(z);
    return b->outside_pa + (start_pa - a->outside_pa) * (1 - z * rest) -
           (b->outside_pa - a->outside_pa) * rest;
}

/* --- wet ---------------------------------------------------------------------------------------------------------- */

DS_DAY_INLINE double held_kg(const passage *const p, const double vapour_pa, const double inside_k)
{
    return vapour_pa * p->fixed->held_kg_k_pa / inside_k;
}

/* Water that comes in between a and b, kg. */
DS_DAY_INLINE double gained_kg(const passage *const p, const moment *const a, const moment *const b)
{
    const double s = (b->at - a->at) * p->length_s;
    const double outside_pa = (a->outside_pa + b->outside_pa) / 2;
    const double middle_pa = moment_at(p, (a->at + b->at) / 2).most_pa;
    const double inside_pa = (a->most_pa + 4 * middle_pa + b->most_pa) * (1.0 / 6);
    const double outside_k = (a->outside_k + b->outside_k) / 2;
    const double inside_k = (a->inside_k + b->inside_k) / 2;
    const double cooled = a->inside_k - b->inside_k;
    const double by_flow =
        p->fixed->moist_m3_s * s * (outside_pa - inside_pa) / (DS_AIR_VAPOUR_J_KGK * outside_k);
    return by_flow + held_kg(p, cooled > 0 ? outside_pa : inside_pa, inside_k) * cooled / inside_k;
}

/* --- a step without a change -------------------------------------------------------------------------------------- */

typedef struct vapour_passed {
    wetness end;
    double wet_s;
    double
        crossed; /* 1: the step needs dividing, and end is only near; 0 of a sealed box, which knows its end */
} vapour_passed;

DS_DAY_INLINE vapour_passed pass_open(const passage *const p, const wetness *const w)
{
    const bool is_wet = w->liquid_kg > 0;
    const double start_kg = w->liquid_kg + held_kg(p, w->vapour_pa, p->start.inside_k);
    const double liquid_kg =
        start_kg + gained_kg(p, &p->start, &p->end) - held_kg(p, p->end.most_pa, p->end.inside_k);
    const double end_pa = dry_pa(p, w->vapour_pa, &p->start, &p->end);
    const double over_pa = end_pa - p->end.most_pa;
    const double settled_kg = held_kg(p, over_pa, p->end.inside_k);
    const double dries = liquid_kg > 0 ? 0 : 1;
    const double wets = over_pa > 0 ? 1 : 0;
    const double dried_pa = (liquid_kg / p->fixed->held_kg_k_pa) * p->end.inside_k;
    return (vapour_passed){
        .end = {ds_day_less(is_wet ? p->end.most_pa + ds_day_less(dried_pa, 0) : end_pa, p->end.most_pa),
                ds_day_more(is_wet ? liquid_kg : settled_kg, 0)},
        .wet_s = is_wet ? p->length_s : 0,
        .crossed = is_wet ? dries : wets};
}

/* Of a step whose first and last room for more vapour are known, below 0 where it is wet: the wet share. */
DS_DAY_INLINE double wet_share(const double start_room, const double end_room)
{
    const double least = ds_day_less(start_room, end_room);
    const double most = ds_day_more(start_room, end_room);
    const double some = -least / (most > least ? most - least : 1);
    return least >= 0 ? 0 : most < 0 ? 1 : some;
}

DS_DAY_INLINE vapour_passed pass_sealed(const passage *const p, const wetness *const w)
{
    const double all_kg = w->liquid_kg + held_kg(p, w->vapour_pa, p->start.inside_k);
    const double start_room_kg = held_kg(p, p->start.most_pa, p->start.inside_k) - all_kg;
    const double end_room_kg = held_kg(p, p->end.most_pa, p->end.inside_k) - all_kg;
    const double liquid_kg = ds_day_more(-end_room_kg, 0);
    const double vapour_pa = (all_kg - liquid_kg) * p->end.inside_k / p->fixed->held_kg_k_pa;
    return (vapour_passed){.end = {vapour_pa, liquid_kg},
                           .wet_s = p->length_s * wet_share(start_room_kg, end_room_kg),
                           .crossed = 0};
}

DS_DAY_INLINE vapour_passed pass_vapour(const passage *const p, const wetness *const w, const bool is_sealed)
{
    return is_sealed ? pass_sealed(p, w) : pass_open(p, w);
}

#endif
