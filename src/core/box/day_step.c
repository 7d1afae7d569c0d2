/* SPDX-License-Identifier: MIT */
/*
 * The temperatures over one step: exponential Rosenbrock of order four (Hochbruck and Ostermann, Exponential
 * integrators, 2010, their method exprb43), for two equations that also depend on time.
 *
 * At the start of the step the equations are replaced by their tangent, y' = f + J (y - y0) + ft t, which is solved
 * exactly: a skin that settles within minutes and a weather that goes over evenly cost nothing. How far the films bend
 * away from the tangent is asked halfway (b2) and at its end (b3), and taken as a cubic in between:
 *
 *     tangent  y(s) = y0 + s phi1(sJ) f + s^2 phi2(sJ) ft
 *     step     y(h) + h phi3(hJ) (16 b2 - 2 b3) + h phi4(hJ) (12 b3 - 48 b2)
 *
 * with the functions phi of day_modes.h. The last term is the step's share of order four: it tells how long steps may be.
 * The integral of y - y0, which the heat that passed is made of, has the same form one phi further on.
 *
 * The films at the end of the tangent are carried along their slopes to the corrected end and serve the next step.
 */
#include "core/box/day_modes.h"
#include "core/box/day_vapour.h"

/* What of an error of the skin counts: within minutes it is forgotten, but for what it passed on to the inside. */
#define SKIN_SHARE 0.3

/* One box and what is the same for all. */
typedef struct one {
    ds_day_kind kind;
    const ds_day_saturation *saturation;
    ds_day_fixed fixed;
    ds_day_films films;
} one;

/* --- a node ------------------------------------------------------------------------------------------------------- */

typedef struct heating {
    double heat_w;
    double by_skin, by_inside, by_time;
} heating;

/* How fast the vapour pressure of a dry node changes, Pa/s. */
DS_DAY_INLINE double vapour_rate(const one *const b, const ds_day_node *const node,
                                 const ds_day_forcing *const now)
{
    const double inside_k = node->inside_c + DS_DAY_KELVIN;
    const double flow = b->fixed.moist_m3_s * inside_k / (b->fixed.volume_m3 * (now->air_c + DS_DAY_KELVIN));
    return (flow + ds_day_more(-node->inside_k_s / inside_k, 0)) * (now->vapour_pa - node->vapour_pa);
}

/* In the band of a hygrostat, of the dew point's rise: what the wettest surface allows, or what vapour does of itself. */
DS_DAY_INLINE heating by_humidity(const one *const b, const ds_day_node *const node,
                                  const ds_day_forcing *const now)
{
    const double slope = b->fixed.heater_w / b->fixed.heater_band;
    const ds_day_pressure inside = ds_day_saturation_of(b->saturation, node->inside_c);
    const double by_vapour = slope / inside.pa;
    const double by_drying = by_vapour * node->vapour_pa / inside.pa * inside.by_k;
    const double by_cold = by_vapour * ds_day_saturation_of(b->saturation, node->cold_c).by_k;
    const double by_shut = by_vapour * node->vapour_pa / (node->inside_c + DS_DAY_KELVIN);
    const double by_time = by_vapour * vapour_rate(b, node, now);
    const double wet = node->liquid_kg > 0 ? 1 : 0;
    const double wall = node->cold_c < node->inside_c ? wet : 0; /* wet there, or on what stands inside */
    const double shut = b->kind.is_sealed ? 1 : 0;
    return (heating){.heat_w = slope * (node->vapour_pa / inside.pa - b->fixed.heater_set),
                     .by_skin = wall * by_cold,
                     .by_inside = (wet - wall) * by_cold + (1 - wet) * shut * by_shut - by_drying,
                     .by_time = (1 - wet) * (1 - shut) * by_time};
}

DS_DAY_INLINE void set_heater(const one *const b, ds_day_node *const node, const ds_day_forcing *const now)
{
    const double slope = b->fixed.heater_w / b->fixed.heater_band;
    const heating in_band = b->kind.control == DS_DAY_THERMOSTAT
                                ? (heating){slope * (b->fixed.heater_set - node->inside_c), 0, -slope, 0}
                                : by_humidity(b, node, now);
    const double heat_w = in_band.heat_w + b->fixed.heater_w / 2;
    const double above = heat_w > 0 ? 1 : 0;
    const double within = heat_w < b->fixed.heater_w ? above : 0;
    node->heater_w = ds_day_less(ds_day_more(heat_w, 0), b->fixed.heater_w);
    node->heater_by_skin = within * in_band.by_skin;
    node->heater_by_inside = within * in_band.by_inside;
    node->heater_by_time = within * in_band.by_time;
}

/* The skin's face that receives least, or what stands inside. */
DS_DAY_INLINE double coldest_c(const one *const b, const ds_day_node *const node, const double spot_k)
{
    return ds_day_less(node->skin_c + b->films.wall_k_w * node->inner_w - spot_k, node->inside_c);
}

DS_DAY_INLINE void set_outer(const one *const b, ds_day_node *const node, const ds_day_forcing *const now)
{
    const ds_day_outer outer = ds_day_outer_of(&b->films, node->skin_c, now->air_c, now->wind_w_m2k);
    node->outer_w = outer.heat_w;
    node->outer_by_skin = outer.by_skin;
    node->outer_by_air = outer.by_air;
}

DS_DAY_INLINE void set_inner(const one *const b, ds_day_node *const node)
{
    const ds_day_inner inner = ds_day_inner_of(&b->films, node->inside_c, node->skin_c);
    node->inner_w = inner.heat_w;
    node->inner_by_inside = inner.by_inside;
    node->inner_by_skin = inner.by_skin;
}

/* The heater must be known. */
DS_DAY_INLINE pair rates_of(const one *const b, const ds_day_node *const node,
                            const ds_day_forcing *const now, const double watts)
{
    const double vent_w = now->vent_w_k * (node->inside_c - now->air_c);
    return (pair){(now->sun_w - now->sky_w + node->inner_w - node->outer_w) * b->fixed.per_skin,
                  (watts + node->heater_w - node->inner_w - vent_w) * b->fixed.per_inside};
}

/* Of a node whose vapour is known, if its heater asks for it. */
DS_DAY_INLINE void set_rates(const one *const b, ds_day_node *const node, const ds_day_forcing *const now,
                             const double watts)
{
    if (b->kind.control != DS_DAY_NO_HEATER) {
        set_heater(b, node, now);
    }
    const pair rates = rates_of(b, node, now, watts);
    node->skin_k_s = rates.skin;
    node->inside_k_s = rates.inside;
}

/* --- flows along a step ------------------------------------------------------------------------------------------- */

/* One flow of heat: at the start, its slopes over the nodes and the time, and its bends halfway and at the end. */
typedef struct flow {
    double start_w;
    double by_skin, by_inside, by_time;
    double half_w, end_w;
} flow;

typedef struct bends {
    double air_w, vent_w, heater_w;
} bends;

DS_DAY_INLINE double bend_of(const flow *const f, const double now_w, const double s, const pair rise)
{
    return now_w - f->start_w - f->by_skin * rise.skin - f->by_inside * rise.inside - f->by_time * s;
}

/* over: the integral of y - y0. The bends follow the cubic of the method, whose integral is Simpson's. */
DS_DAY_INLINE double passed_j(const flow *const f, const double h, const pair over, const double half_w,
                              const double end_w)
{
    return h * (f->start_w + h * f->by_time / 2 + (4 * half_w + end_w) * (1.0 / 6)) + f->by_skin * over.skin +
           f->by_inside * over.inside;
}

/* --- the step ----------------------------------------------------------------------------------------------------- */

/* What is known of a step at its start. */
typedef struct opening {
    ds_day_node from;
    ds_day_forcing start, end;
    double length_s, watts;
    matrix j;
    modes modes;
    pair rate, by_time;
    flow air, vent, heater;
} opening;

DS_DAY_INLINE void set_flows(opening *const o)
{
    const ds_day_node *const from = &o->from;
    const ds_day_forcing *const now = &o->start;
    const double per_s = 1 / o->length_s;
    const double air_k_s = (o->end.air_c - now->air_c) * per_s;
    const double vent_w_ks = (o->end.vent_w_k - now->vent_w_k) * per_s;
    const double above = from->inside_c - now->air_c;
    o->air = (flow){from->outer_w, from->outer_by_skin, 0, from->outer_by_air * air_k_s, 0, 0};
    o->vent =
        (flow){now->vent_w_k * above, 0, now->vent_w_k, vent_w_ks * above - now->vent_w_k * air_k_s, 0, 0};
    o->heater =
        (flow){from->heater_w, from->heater_by_skin, from->heater_by_inside, from->heater_by_time, 0, 0};
}

DS_DAY_INLINE void open_step(opening *const o, const one *const b)
{
    const ds_day_node *const from = &o->from;
    const double weather_w_s = (o->end.sun_w - o->end.sky_w - o->start.sun_w + o->start.sky_w) / o->length_s;
    const double per_skin = b->fixed.per_skin;
    const double per_inside = b->fixed.per_inside;
    set_flows(o);
    o->j = (matrix){.ss = (from->inner_by_skin - from->outer_by_skin) * per_skin,
                    .si = from->inner_by_inside * per_skin,
                    .is = (from->heater_by_skin - from->inner_by_skin) * per_inside,
                    .ii = (from->heater_by_inside - from->inner_by_inside - o->start.vent_w_k) * per_inside};
    o->rate = (pair){from->skin_k_s, from->inside_k_s};
    o->by_time =
        (pair){(weather_w_s - o->air.by_time) * per_skin, (o->heater.by_time - o->vent.by_time) * per_inside};
    set_modes(&o->modes, &o->j, o->length_s, o->rate, o->by_time);
}

/* Before the vapour of the node is known, and without dividing the way to it. */
DS_DAY_INLINE void heat_on_the_way(const one *const b, ds_day_node *const node, const opening *const o,
                                   const ds_day_forcing *const now, const double s)
{
    if (b->kind.control == DS_DAY_HYGROSTAT) {
        node->cold_c = coldest_c(b, node, now->spot_k);
        node->half_cold_c = (o->from.cold_c + node->cold_c) / 2;
        node->most_pa = ds_day_saturation_pa(b->saturation, node->cold_c);
        const passage p = passage_of(&b->fixed, b->saturation, &o->from, node, &o->start, now, s);
        const wetness w = {o->from.vapour_pa, o->from.liquid_kg};
        const vapour_passed v = pass_vapour(&p, &w, b->kind.is_sealed);
        node->vapour_pa = v.end.vapour_pa;
        node->liquid_kg = v.end.liquid_kg;
    }
    set_heater(b, node, now);
}

/*
 * A node at the end of the tangent after s seconds; returns how far its rates have come away from the tangent, along the
 * modes, and sets the bends of air, vent and heater.
 */
DS_DAY_INLINE split look(const opening *const o, const one *const b, ds_day_node *const node,
                         const ds_day_forcing *const now, const double s, const pair rise, bends *const out)
{
    node->skin_c = o->from.skin_c + rise.skin;
    node->inside_c = o->from.inside_c + rise.inside;
    set_outer(b, node, now);
    set_inner(b, node);
    if (b->kind.control != DS_DAY_NO_HEATER) {
        heat_on_the_way(b, node, o, now, s);
    }
    const pair rate = rates_of(b, node, now, o->watts);
    *out = (bends){bend_of(&o->air, node->outer_w, s, rise),
                   bend_of(&o->vent, now->vent_w_k * (node->inside_c - now->air_c), s, rise),
                   bend_of(&o->heater, node->heater_w, s, rise)};
    const matrix *const j = &o->j;
    const pair bend = {
        rate.skin - o->rate.skin - j->ss * rise.skin - j->si * rise.inside - o->by_time.skin * s,
        rate.inside - o->rate.inside - j->is * rise.skin - j->ii * rise.inside - o->by_time.inside * s};
    return split_of(&o->modes, bend);
}

DS_DAY_INLINE pair half_rise_of(const opening *const o)
{
    const modes *const by = &o->modes;
    const double s = o->length_s / 2;
    const phis slow = phis_of(by->slow.z / 2, by->slow.exp_half);
    const phis fast = phis_of(by->fast.z / 2, by->fast.exp_half);
    return joined(by, (split){tangent_of(&by->slow, &slow, s), tangent_of(&by->fast, &fast, s)});
}

DS_DAY_INLINE double differ(const double a, const double b)
{
    return fabs(a - b);
}

/* 1 when the heater has left off, on or its band. */
DS_DAY_INLINE double switched(const ds_day_node *const a, const ds_day_node *const b, const double heater_w)
{
    return ds_day_more(differ(a->heater_w > 0 ? 1 : 0, b->heater_w > 0 ? 1 : 0),
                       differ(a->heater_w < heater_w ? 1 : 0, b->heater_w < heater_w ? 1 : 0));
}

/* From the end of the tangent to the corrected one. */
DS_DAY_INLINE void mend_end(const one *const b, ds_day_node *const node, const double spot_k, const pair by)
{
    node->skin_c += by.skin;
    node->inside_c += by.inside;
    node->outer_w += node->outer_by_skin * by.skin;
    node->inner_w += node->inner_by_inside * by.inside + node->inner_by_skin * by.skin;
    node->cold_c = coldest_c(b, node, spot_k);
}

DS_DAY_INLINE double error_of(const modes *const m, const split s)
{
    const pair by = joined(m, s);
    return ds_day_more(SKIN_SHARE * fabs(by.skin), fabs(by.inside));
}

DS_DAY_INLINE ds_day_passed step_one(const one *const b, opening *const o, ds_day_node *const to)
{
    open_step(o, b);
    const double h = o->length_s;
    const mode *const slow = &o->modes.slow;
    const mode *const fast = &o->modes.fast;
    const split along = {tangent_of(slow, &slow->phi, h), tangent_of(fast, &fast->phi, h)};
    const ds_day_forcing middle = ds_day_forcing_between(&o->start, &o->end, 0.5);
    ds_day_node half = {.half_cold_c = 0};
    bends half_w;
    bends end_w;
    const split b2 = look(o, b, &half, &middle, h / 2, half_rise_of(o), &half_w);
    const split b3 = look(o, b, to, &o->end, h, joined(&o->modes, along), &end_w);
    const split square = {16 * b2.slow - 2 * b3.slow, 16 * b2.fast - 2 * b3.fast};
    const split cube = {12 * b3.slow - 48 * b2.slow, 12 * b3.fast - 48 * b2.fast};
    const split last = {h * slow->phi.four * cube.slow, h * fast->phi.four * cube.fast};
    const split mend = {h * slow->phi.three * square.slow + last.slow,
                        h * fast->phi.three * square.fast + last.fast};
    const split over_modes = {integral_of(slow, h, square.slow, cube.slow),
                              integral_of(fast, h, square.fast, cube.fast)};
    const pair over = joined(&o->modes, over_modes);
    const double heater_w = b->fixed.heater_w;
    mend_end(b, to, o->end.spot_k, joined(&o->modes, mend));
    if (b->kind.control != DS_DAY_HYGROSTAT) {
        set_rates(b, to, &o->end, o->watts);
    }
    to->half_cold_c = coldest_c(b, &half, middle.spot_k);
    return (ds_day_passed){
        .air_j = passed_j(&o->air, h, over, half_w.air_w, end_w.air_w),
        .vent_j = passed_j(&o->vent, h, over, half_w.vent_w, end_w.vent_w),
        .heater_j = passed_j(&o->heater, h, over, half_w.heater_w, end_w.heater_w),
        .error_k = error_of(&o->modes, last),
        .switched = ds_day_more(switched(&o->from, &half, heater_w), switched(&half, to, heater_w))};
}

/* --- all lanes ---------------------------------------------------------------------------------------------------- */

DS_DAY_INLINE one one_of(const ds_day_model *const m, const int i, const ds_day_kind kind)
{
    return (one){kind, &m->saturation, ds_day_fixed_at(&m->fixed, i), ds_day_films_at(&m->films, i)};
}

DS_DAY_INLINE void step_all(const ds_day_model *restrict const m, ds_day_node_lanes *restrict const to,
                            const ds_day_node_lanes *restrict const from,
                            const ds_day_step *restrict const step,
                            ds_day_passed_lanes *restrict const passed, const ds_day_kind kind)
{
    const ds_day_step now = *step;
    for (int i = 0; i < DS_DAY_LANES; i++) {
        const one b = one_of(m, i, kind);
        opening o = {.from = ds_day_node_at(from, i),
                     .start = ds_day_forcing_in(&now, i, now.from),
                     .end = ds_day_forcing_in(&now, i, now.to),
                     .length_s = ds_day_step_s(&now),
                     .watts = now.watts[i]};
        ds_day_node after = {.skin_c = 0};
        const ds_day_passed out = step_one(&b, &o, &after);
        ds_day_node_put(to, i, &after);
        ds_day_passed_put(passed, i, &out);
    }
}

DS_DAY_INLINE void rates_all(const ds_day_model *restrict const m, ds_day_node_lanes *restrict const nodes,
                             const ds_day_forcing_lanes *restrict const now,
                             const double *restrict const watts, const ds_day_kind kind)
{
    for (int i = 0; i < DS_DAY_LANES; i++) {
        const one b = one_of(m, i, kind);
        const ds_day_forcing weather = ds_day_forcing_at(now, i);
        ds_day_node node = ds_day_node_at(nodes, i);
        set_outer(&b, &node, &weather);
        set_rates(&b, &node, &weather, watts[i]);
        ds_day_node_put(nodes, i, &node);
    }
}

/* X(name, control, is_sealed): each way through the loops is compiled by itself. A seal matters to a hygrostat alone. */
#define KINDS(X)                                                                                             \
    X(without, DS_DAY_NO_HEATER, false)                                                                      \
    X(thermostat, DS_DAY_THERMOSTAT, false)                                                                  \
    X(hygrostat_open, DS_DAY_HYGROSTAT, false)                                                               \
    X(hygrostat_sealed, DS_DAY_HYGROSTAT, true)

#define X(name, control, is_sealed)                                                                          \
    DS_DAY_WIDE                                                                                              \
    static void step_##name(const ds_day_model *restrict const m, ds_day_node_lanes *restrict const to,      \
                            const ds_day_node_lanes *restrict const from,                                    \
                            const ds_day_step *restrict const step,                                          \
                            ds_day_passed_lanes *restrict const passed)                                      \
    {                                                                                                        \
        step_all(m, to, from, step, passed, (ds_day_kind){(control), (is_sealed)});                          \
    }                                                                                                        \
    DS_DAY_WIDE                                                                                              \
    static void rates_##name(const ds_day_model *restrict const m, ds_day_node_lanes *restrict const nodes,  \
                             const ds_day_forcing_lanes *restrict const now,                                 \
                             const double *restrict const watts)                                             \
    {                                                                                                        \
        rates_all(m, nodes, now, watts, (ds_day_kind){(control), (is_sealed)});                              \
    }
KINDS(X)
#undef X

typedef void step_of_kind(const ds_day_model *restrict m, ds_day_node_lanes *restrict to,
                          const ds_day_node_lanes *restrict from, const ds_day_step *restrict step,
                          ds_day_passed_lanes *restrict passed);
typedef void rates_of_kind(const ds_day_model *restrict m, ds_day_node_lanes *restrict nodes,
                           const ds_day_forcing_lanes *restrict now, const double *restrict watts);

/* The row of KINDS. */
static int way_of(const ds_day_kind kind)
{
    return (int)kind.control + (kind.control == DS_DAY_HYGROSTAT && kind.is_sealed);
}

void ds_day_node_rates(const ds_day_model *const m, ds_day_node_lanes *const nodes,
                       const ds_day_forcing_lanes *const now, const double *const watts)
{
#define X(name, control, is_sealed) rates_##name,
    static rates_of_kind *const RATES[] = {KINDS(X)};
#undef X
    RATES[way_of(m->kind)](m, nodes, now, watts);
}

void ds_day_node_films(const ds_day_model *const m, ds_day_node_lanes *const nodes,
                       const ds_day_forcing_lanes *const now)
{
    for (int i = 0; i < DS_DAY_LANES; i++) {
        const one b = one_of(m, i, m->kind);
        ds_day_node node = ds_day_node_at(nodes, i);
        set_inner(&b, &node);
        node.cold_c = coldest_c(&b, &node, now->spot_k[i]);
        node.most_pa = ds_day_saturation_pa(&m->saturation, node.cold_c);
        ds_day_node_put(nodes, i, &node);
    }
}

/* After the vapour, to which a hygrostat answers. */
static void mend_rates(const ds_day_model *const m, ds_day_node_lanes *const nodes,
                       const ds_day_step *const step)
{
    ds_day_forcing_lanes now;
    for (int i = 0; i < DS_DAY_LANES; i++) {
        const ds_day_forcing forcing = ds_day_forcing_in(step, i, step->to);
        ds_day_forcing_put(&now, i, &forcing);
    }
    ds_day_node_rates(m, nodes, &now, step->watts);
}

void ds_day_step_take(const ds_day_model *const m, ds_day_node_lanes *const to,
                      const ds_day_node_lanes *const from, const ds_day_step *const step,
                      ds_day_passed_lanes *const passed)
{
#define X(name, control, is_sealed) step_##name,
    static step_of_kind *const STEPS[] = {KINDS(X)};
#undef X
    STEPS[way_of(m->kind)](m, to, from, step, passed);
    ds_day_vapour_take(m, to, from, step, passed);
    if (m->kind.control == DS_DAY_HYGROSTAT) {
        mend_rates(m, to, step);
    }
}
