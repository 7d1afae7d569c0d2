/* SPDX-License-Identifier: MIT */
/*
 * The vapour in the air of the box over one step.
 *
 * Dry, its pressure e relaxes towards the outside's, e' = mu (eo - e), with mu the outside air that comes in over what is
 * there: by vent and breather, and on cooling by what is drawn in, -Ti'/Ti (kelvin). Air that is pressed out on warming
 * leaves e as it is. Wet, e is the saturation pressure of the coldest surface, and the water of the whole box is counted:
 * what flows in at eo and out at e. A step that crosses from one to the other is divided where it does; within a step
 * air temperatures go evenly. A sealed box keeps its water: in the air what the surface allows, the rest on it.
 */
#include "core/box/day_model.h"

#define KELVIN DS_DAY_KELVIN

/* Along the step, from 0 to 1. */
typedef struct moment {
    double at;
    double inside_k, outside_k;
    double outside_pa;
    double most_pa; /* what the coldest surface allows */
} moment;

typedef struct wetness {
    double vapour_pa, liquid_kg;
} wetness;

/* The step, its two ends, and what is worked out. */
typedef struct passage {
    const ds_day_model *m;
    const ds_day_node *from, *to;
    const ds_day_step *step;
} passage;

static double between(const double a, const double b, const double at)
{
    return a + (b - a) * at;
}

/* The coldest surface follows the parabola through the step's start, middle and end. */
static moment moment_at(const passage *const p, const double at)
{
    const double bulge = p->to->half_cold_c - (p->from->cold_c + p->to->cold_c) / 2;
    const double cold_c = between(p->from->cold_c, p->to->cold_c, at) + 4 * at * (1 - at) * bulge;
    return (moment){.at = at,
                    .inside_k = between(p->from->inside_c, p->to->inside_c, at) + KELVIN,
                    .outside_k = between(p->step->start->air_c, p->step->end->air_c, at) + KELVIN,
                    .outside_pa = between(p->step->start->vapour_pa, p->step->end->vapour_pa, at),
                    .most_pa = ds_day_saturation_pa(&p->m->weather, cold_c)};
}

static inline moment start_of(const passage *const p)
{
    return (moment){0, p->from->inside_c + KELVIN, p->step->start->air_c + KELVIN, p->step->start->vapour_pa,
                    p->from->most_pa};
}

static inline moment end_of(const passage *const p)
{
    return (moment){1, p->to->inside_c + KELVIN, p->step->end->air_c + KELVIN, p->step->end->vapour_pa,
                    p->to->most_pa};
}

/* --- dry ---------------------------------------------------------------------------------------------------------- */

/* The share of the air in b that was drawn in since a: ln(Ta/Tb) by its first term, good to 1e-6 for ten kelvin. */
static inline double drawn_share(const moment *const a, const moment *const b)
{
    const double cooled = a->inside_k - b->inside_k;
    return cooled > 0 ? 2 * cooled / (a->inside_k + b->inside_k) : 0;
}

/* (1 - exp(-z)) / z */
static inline double faded(const double z)
{
    return z < 0.02 ? 1 - z / 2 * (1 - z / 3 * (1 - z / 4)) : -expm1(-z) / z;
}

static inline double dry_pa(const passage *const p, const double start_pa, const moment *const a,
                            const moment *const b)
{
    const double s = (b->at - a->at) * p->step->length_s;
    const double flow = p->m->moist_m3_s * s * (a->inside_k + b->inside_k) /
                        (p->m->box->volume_m3 * (a->outside_k + b->outside_k));
    const double z = flow + drawn_share(a, b);
    const double rest = faded(z);
    return b->outside_pa + (start_pa - a->outside_pa) * (1 - z * rest) -
           (b->outside_pa - a->outside_pa) * rest;
}

/* Until the end, or until it becomes wet; returns where. */
static moment go_dry(const passage *const p, wetness *const w, const moment *const a, const moment *const end)
{
    const double end_pa = dry_pa(p, w->vapour_pa, a, end);
    if (end_pa <= end->most_pa) {
        w->vapour_pa = end_pa;
        return *end;
    }
    const double room = ds_day_more(a->most_pa - w->vapour_pa, 0);
    const moment there = moment_at(p, between(a->at, 1, room / (room + end_pa - end->most_pa)));
    w->vapour_pa = dry_pa(p, w->vapour_pa, a, &there);
    return there;
}

/* --- wet ---------------------------------------------------------------------------------------------------------- */

static inline double held_kg(const ds_day_model *const m, const double vapour_pa, const double inside_k)
{
    return vapour_pa * m->held_kg_k_pa / inside_k;
}

/* Water that comes in between a and b, kg. */
static double gained_kg(const passage *const p, const moment *const a, const moment *const b)
{
    const double s = (b->at - a->at) * p->step->length_s;
    const double outside_pa = (a->outside_pa + b->outside_pa) / 2;
    const double middle_pa = moment_at(p, (a->at + b->at) / 2).most_pa;
    const double inside_pa = (a->most_pa + 4 * middle_pa + b->most_pa) / 6;
    const double outside_k = (a->outside_k + b->outside_k) / 2;
    const double inside_k = (a->inside_k + b->inside_k) / 2;
    const double cooled = a->inside_k - b->inside_k;
    const double by_flow =
        p->m->moist_m3_s * s * (outside_pa - inside_pa) / (DS_AIR_VAPOUR_J_KGK * outside_k);
    return by_flow + held_kg(p->m, cooled > 0 ? outside_pa : inside_pa, inside_k) * cooled / inside_k;
}

/* Until the end, or until it has dried; returns where. */
static moment go_wet(const passage *const p, wetness *const w, const moment *const a, const moment *const end)
{
    const double start_kg = w->liquid_kg + held_kg(p->m, w->vapour_pa, a->inside_k);
    const double liquid_kg = start_kg + gained_kg(p, a, end) - held_kg(p->m, end->most_pa, end->inside_k);
    if (liquid_kg > 0) {
        *w = (wetness){end->most_pa, liquid_kg};
        return *end;
    }
    const double before = w->liquid_kg > 0 ? w->liquid_kg / (w->liquid_kg - liquid_kg) : 0;
    const moment there = moment_at(p, between(a->at, 1, before));
    const double all_kg = start_kg + gained_kg(p, a, &there);
    *w = (wetness){all_kg * there.inside_k / p->m->held_kg_k_pa, 0};
    return there;
}

/* --- the step ----------------------------------------------------------------------------------------------------- */

/*
 * Dry and wet by turns. More than two changes in a step are below what it can see: what the surface does not allow at the
 * end is then water on it.
 */
static void cross(const passage *const p, wetness *const w, ds_day_passed *const passed)
{
    const moment end = end_of(p);
    moment now = start_of(p);
    bool wet = w->liquid_kg > 0;
    for (int turn = 0; turn < 4 && now.at < 1; turn++) {
        const double before = now.at;
        now = wet ? go_wet(p, w, &now, &end) : go_dry(p, w, &now, &end);
        passed->wet_s += wet ? (now.at - before) * p->step->length_s : 0;
        wet = !wet;
    }
    if (w->vapour_pa > end.most_pa) {
        w->liquid_kg += held_kg(p->m, w->vapour_pa - end.most_pa, end.inside_k);
        w->vapour_pa = end.most_pa;
    }
}

/* Of a step whose first and last room for more vapour are known, below 0 where it is wet: the wet share. */
static double wet_share(const double start_room, const double end_room)
{
    if (start_room >= 0 && end_room >= 0) {
        return 0;
    }
    if (start_room < 0 && end_room < 0) {
        return 1;
    }
    return ds_day_more(-start_room, -end_room) / fabs(end_room - start_room);
}

static void keep_sealed(const passage *const p, wetness *const w, ds_day_passed *const passed)
{
    const double start_k = p->from->inside_c + KELVIN;
    const double end_k = p->to->inside_c + KELVIN;
    const double all_kg = w->liquid_kg + held_kg(p->m, w->vapour_pa, start_k);
    const double end_room_kg = held_kg(p->m, p->to->most_pa, end_k) - all_kg;
    passed->wet_s =
        p->step->length_s * wet_share(held_kg(p->m, p->from->most_pa, start_k) - all_kg, end_room_kg);
    w->liquid_kg = ds_day_more(-end_room_kg, 0);
    w->vapour_pa = (all_kg - w->liquid_kg) * end_k / p->m->held_kg_k_pa;
}

/* The step without a crossing, which nearly all are; false when it has one. */
static inline bool keep_state(const passage *const p, wetness *const w, ds_day_passed *const passed)
{
    const moment start = start_of(p);
    const moment end = end_of(p);
    if (w->liquid_kg > 0) {
        const double start_kg = w->liquid_kg + held_kg(p->m, w->vapour_pa, start.inside_k);
        const double liquid_kg =
            start_kg + gained_kg(p, &start, &end) - held_kg(p->m, end.most_pa, end.inside_k);
        passed->wet_s = p->step->length_s;
        *w = liquid_kg > 0 ? (wetness){end.most_pa, liquid_kg} : *w;
        return liquid_kg > 0;
    }
    const double end_pa = dry_pa(p, w->vapour_pa, &start, &end);
    w->vapour_pa = end_pa <= end.most_pa ? end_pa : w->vapour_pa;
    return end_pa <= end.most_pa;
}

static void drain(const ds_day_box *const box, wetness *const w, ds_day_passed *const passed)
{
    const double clings_kg = box->clings_g / 1000;
    if (box->drains && w->liquid_kg > clings_kg) {
        passed->drained_kg = w->liquid_kg - clings_kg;
        w->liquid_kg = clings_kg;
    }
}

void ds_day_vapour_take(const ds_day_model *const m, ds_day_node *const to, const ds_day_node *const from,
                        const ds_day_step *const step, ds_day_passed *const passed)
{
    const passage p = {m, from, to, step};
    wetness w = {from->vapour_pa, from->liquid_kg};
    to->most_pa = ds_day_saturation_pa(&m->weather, to->cold_c);
    passed->wet_s = 0;
    passed->drained_kg = 0;
    if (m->box->seal == DS_DAY_SEALED) {
        keep_sealed(&p, &w, passed);
    } else if (!keep_state(&p, &w, passed)) {
        passed->wet_s = 0;
        cross(&p, &w, passed);
    }
    drain(m->box, &w, passed);
    to->vapour_pa = w.vapour_pa;
    to->liquid_kg = w.liquid_kg;
}

double ds_day_vapour_rate(const ds_day_model *const m, const ds_day_node *const node,
                          const ds_day_forcing *const now)
{
    const double inside_k = node->inside_c + KELVIN;
    const double flow = m->moist_m3_s * inside_k / (m->box->volume_m3 * (now->air_c + KELVIN));
    return (flow + ds_day_more(-node->inside_k_s / inside_k, 0)) * (now->vapour_pa - node->vapour_pa);
}
