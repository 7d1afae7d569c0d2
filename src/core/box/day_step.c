/* SPDX-License-Identifier: MIT */
/*
 * The temperatures over one step: exponential Rosenbrock of order four (Hochbruck and Ostermann, Exponential
 * integrators, 2010, their method exprb43), for two equations that also depend on time.
 *
 * At the start of the step the equations are replaced by their tangent, y' = f + J (y - y0) + ft t, which is solved
 * exactly: a skin that settles within minutes and a weather that goes over evenly cost nothing. How far the films bend
 * away from the tangent is asked at its end (b3) and, where that is not next to nothing, halfway (b2), and taken as a
 * cubic in between:
 *
 *     tangent  y(s) = y0 + s phi1(sJ) f + s^2 phi2(sJ) ft
 *     step     y(h) + h phi3(hJ) (16 b2 - 2 b3) + h phi4(hJ) (12 b3 - 48 b2)
 *
 * with the functions phi of day_modes.h. The last term is the step's share of order four: it tells how long steps may be.
 * Without a look halfway b2 is b3 / 4, a bend that grows with the square of the time, and the method their exprb32. The
 * integral of y - y0, which the heat that passed is made of, has the same form one phi further on.
 *
 * The films at the end of the tangent are carried along their slopes to the corrected end and serve the next step.
 */
#include "core/box/day_model.h"
#include "core/box/day_modes.h"

/* What of an error of the skin counts: within minutes it is forgotten, but for what it passed on to the inside. */
#define SKIN_SHARE 0.3

/* On a longer way than this a bend that is 0 at the end need not be 0 before it. */
#define LONG_WAY_K 0.5

/* --- a node ------------------------------------------------------------------------------------------------------- */

/* Of the dew point's rise: what the wettest surface allows, or what vapour does of itself. */
static ds_day_heating with_slopes(const ds_day_model *const m, const ds_day_node *const node,
                                  const ds_day_forcing *const now, ds_day_heating out)
{
    const ds_day_heater *const heater = &m->box->heater;
    const double slope = heater->watts / heater->band;
    if (heater->control == DS_DAY_THERMOSTAT) {
        out.by_inside = -slope;
        return out;
    }
    const double saturation_pa = ds_day_saturation_pa(&m->weather, node->inside_c);
    const double by_vapour = slope / saturation_pa;
    out.by_inside =
        -by_vapour * node->vapour_pa / saturation_pa * ds_day_saturation_slope(&m->weather, node->inside_c);
    if (node->liquid_kg > 0) {
        const double by_cold = by_vapour * ds_day_saturation_slope(&m->weather, node->cold_c);
        *(node->cold_c < node->inside_c ? &out.by_skin : &out.by_inside) += by_cold;
    } else if (m->box->seal == DS_DAY_SEALED) {
        out.by_inside += by_vapour * node->vapour_pa / (node->inside_c + DS_DAY_KELVIN);
    } else {
        out.by_time = by_vapour * ds_day_vapour_rate(m, node, now);
    }
    return out;
}

static ds_day_heating heating_of(const ds_day_model *const m, const ds_day_node *const node,
                                 const ds_day_forcing *const now)
{
    const ds_day_heater *const heater = &m->box->heater;
    const double over =
        heater->control == DS_DAY_THERMOSTAT
            ? heater->set - node->inside_c
            : node->vapour_pa / ds_day_saturation_pa(&m->weather, node->inside_c) - heater->set;
    const double share = over / heater->band + 0.5;
    const ds_day_heating out = {.heat_w = heater->watts * ds_day_less(ds_day_more(share, 0), 1)};
    return share > 0 && share < 1 ? with_slopes(m, node, now, out) : out;
}

/* The skin's face that receives least, or what stands inside. */
static inline double coldest_c(const ds_day_model *const m, const ds_day_node *const node,
                               const double spot_k)
{
    return ds_day_less(node->skin_c + m->films.wall_k_w * node->inner.heat_w - spot_k, node->inside_c);
}

/* Before the vapour of the node is known. */
static void heat_on_the_way(const ds_day_model *const m, ds_day_node *const node,
                            const ds_day_node *const from, const ds_day_step *const step)
{
    if (m->box->heater.control == DS_DAY_HYGROSTAT) {
        ds_day_passed passed;
        node->cold_c = coldest_c(m, node, step->end->spot_k);
        node->half_cold_c = (from->cold_c + node->cold_c) / 2;
        ds_day_vapour_take(m, node, from, step, &passed);
    }
    node->heater = heating_of(m, node, step->end);
}

/* The heater must be known. */
static inline pair rates_of(const ds_day_model *const m, const ds_day_node *const node,
                            const ds_day_forcing *const now, const double watts)
{
    const double vent_w = now->vent_w_k * (node->inside_c - now->air_c);
    return (pair){(now->sun_w - now->sky_w + node->inner.heat_w - node->outer.heat_w) * m->per_skin,
                  (watts + node->heater.heat_w - node->inner.heat_w - vent_w) * m->per_inside};
}

void ds_day_node_films(const ds_day_model *const m, ds_day_node *const node, const ds_day_forcing *const now)
{
    node->outer = ds_day_outer_of(&m->films, node->skin_c, now->air_c, now->wind_w_m2k);
    node->inner = ds_day_inner_of(&m->films, node->inside_c, node->skin_c);
    node->cold_c = coldest_c(m, node, now->spot_k);
    node->most_pa = ds_day_saturation_pa(&m->weather, node->cold_c);
}

void ds_day_node_rates(const ds_day_model *const m, ds_day_node *const node, const ds_day_forcing *const now,
                       const double watts)
{
    if (m->box->heater.control != DS_DAY_NO_HEATER) {
        node->heater = heating_of(m, node, now);
    }
    const pair rates = rates_of(m, node, now, watts);
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

typedef struct flows {
    flow air, vent, heater;
} flows;

static inline void set_flows(flows *const f, const ds_day_node *const from, const ds_day_step *const step)
{
    const ds_day_forcing *const now = step->start;
    const double per_s = 1 / step->length_s;
    const double air_k_s = (step->end->air_c - now->air_c) * per_s;
    const double vent_w_ks = (step->end->vent_w_k - now->vent_w_k) * per_s;
    const double above = from->inside_c - now->air_c;
    f->air = (flow){from->outer.heat_w, from->outer.by_skin, 0, from->outer.by_air * air_k_s, 0, 0};
    f->vent =
        (flow){now->vent_w_k * above, 0, now->vent_w_k, vent_w_ks * above - now->vent_w_k * air_k_s, 0, 0};
    f->heater =
        (flow){from->heater.heat_w, from->heater.by_skin, from->heater.by_inside, from->heater.by_time, 0, 0};
}

static inline double bend_of(const flow *const f, const double now_w, const double s, const pair rise)
{
    return now_w - f->start_w - f->by_skin * rise.skin - f->by_inside * rise.inside - f->by_time * s;
}

/* over: the integral of y - y0. The bends follow the cubic of the method, whose integral is Simpson's. */
static inline double passed_j(const flow *const f, const double h, const pair over)
{
    return h * (f->start_w + h * f->by_time / 2 + (4 * f->half_w + f->end_w) / 6) + f->by_skin * over.skin +
           f->by_inside * over.inside;
}

static inline matrix matrix_of(const ds_day_model *const m, const ds_day_node *const from,
                               const double vent_w_k)
{
    const ds_day_inner *const inner = &from->inner;
    return (matrix){.ss = (inner->by_skin - from->outer.by_skin) * m->per_skin,
                    .si = inner->by_inside * m->per_skin,
                    .is = (from->heater.by_skin - inner->by_skin) * m->per_inside,
                    .ii = (from->heater.by_inside - inner->by_inside - vent_w_k) * m->per_inside};
}

/* --- the step ----------------------------------------------------------------------------------------------------- */

/* What is known of a step at its start. */
typedef struct opening {
    const ds_day_node *from;
    const ds_day_step *step;
    matrix j;
    modes modes;
    pair rate, by_time;
    flows flows;
} opening;

static inline void open_step(opening *const o, const ds_day_model *const m, const ds_day_node *const from,
                             const ds_day_step *const step)
{
    const ds_day_forcing *const start = step->start;
    const ds_day_forcing *const end = step->end;
    const double weather_w_s = (end->sun_w - end->sky_w - start->sun_w + start->sky_w) / step->length_s;
    o->from = from;
    o->step = step;
    set_flows(&o->flows, from, step);
    o->j = matrix_of(m, from, start->vent_w_k);
    o->rate = (pair){from->skin_k_s, from->inside_k_s};
    o->by_time = (pair){(weather_w_s - o->flows.air.by_time) * m->per_skin,
                        (o->flows.heater.by_time - o->flows.vent.by_time) * m->per_inside};
    set_modes(&o->modes, &o->j, step->length_s, o->rate, o->by_time);
}

/*
 * A node at the end of the tangent after s seconds; returns how far its rates have come away from the tangent, along the
 * modes, and sets the bends of air, vent and heater.
 */
static inline split look(const opening *const o, const ds_day_model *const m, ds_day_node *const node,
                         const ds_day_step *const step, const pair rise, double bends_w[3])
{
    const ds_day_forcing *const now = step->end;
    const double s = step->length_s;
    node->skin_c = o->from->skin_c + rise.skin;
    node->inside_c = o->from->inside_c + rise.inside;
    node->outer = ds_day_outer_of(&m->films, node->skin_c, now->air_c, step->wind_w_m2k);
    node->inner = ds_day_inner_of(&m->films, node->inside_c, node->skin_c);
    node->heater = (ds_day_heating){0, 0, 0, 0};
    if (m->box->heater.control != DS_DAY_NO_HEATER) {
        heat_on_the_way(m, node, o->from, step);
    }
    const pair rate = rates_of(m, node, now, step->watts);
    bends_w[0] = bend_of(&o->flows.air, node->outer.heat_w, s, rise);
    bends_w[1] = bend_of(&o->flows.vent, now->vent_w_k * (node->inside_c - now->air_c), s, rise);
    bends_w[2] = bend_of(&o->flows.heater, node->heater.heat_w, s, rise);
    const matrix *const j = &o->j;
    const pair bend = {
        rate.skin - o->rate.skin - j->ss * rise.skin - j->si * rise.inside - o->by_time.skin * s,
        rate.inside - o->rate.inside - j->is * rise.skin - j->ii * rise.inside - o->by_time.inside * s};
    return split_of(&o->modes, bend);
}

static split look_halfway(const opening *const o, const ds_day_model *const m, ds_day_node *const node,
                          double bends_w[3])
{
    const modes *const by = &o->modes;
    const ds_day_forcing middle = ds_day_forcing_between(o->step->start, o->step->end, 0.5);
    ds_day_step half = *o->step;
    half.length_s /= 2;
    half.end = &middle;
    const phis slow = phis_of(by->slow.z / 2, by->slow.exp_half);
    const phis fast = phis_of(by->fast.z / 2, by->fast.exp_half);
    const split along = {tangent_of(&by->slow, &slow, half.length_s),
                         tangent_of(&by->fast, &fast, half.length_s)};
    return look(o, m, node, &half, joined(by, along), bends_w);
}

/* Which way heat goes on both sides of the skin. */
static inline int sense_of(const ds_day_node *const node)
{
    return (node->outer.heat_w > 0) + 2 * (node->inner.heat_w > 0);
}

/* Whether the heater is off, on or in its band. */
static inline int stage_of(const ds_day_model *const m, const ds_day_node *const node)
{
    return (node->heater.heat_w > 0) + (node->heater.heat_w >= m->box->heater.watts);
}

/* From the end of the tangent to the corrected one. */
static inline void mend_end(const ds_day_model *const m, ds_day_node *const node, const double spot_k,
                            const pair by)
{
    node->skin_c += by.skin;
    node->inside_c += by.inside;
    node->outer.heat_w += node->outer.by_skin * by.skin;
    node->inner.heat_w += node->inner.by_inside * by.inside + node->inner.by_skin * by.skin;
    node->cold_c = coldest_c(m, node, spot_k);
}

static inline void keep_passed(ds_day_passed *const passed, const opening *const o, const pair over,
                               const double half_w[3], const double end_w[3])
{
    const double h = o->step->length_s;
    flows f = o->flows;
    f.air.half_w = half_w[0];
    f.air.end_w = end_w[0];
    f.vent.half_w = half_w[1];
    f.vent.end_w = end_w[1];
    f.heater.half_w = half_w[2];
    f.heater.end_w = end_w[2];
    passed->air_j = passed_j(&f.air, h, over);
    passed->vent_j = passed_j(&f.vent, h, over);
    passed->heater_j = passed_j(&f.heater, h, over);
}

/* The coldest surface halfway, for the vapour that an unsealed box exchanges all along; by the tangent. */
static inline double half_cold_of(const opening *const o, const ds_day_model *const m,
                                  const ds_day_node *const to)
{
    const modes *const by = &o->modes;
    const ds_day_node *const from = o->from;
    if (m->box->seal == DS_DAY_SEALED) {
        return (from->cold_c + to->cold_c) / 2;
    }
    const double s = o->step->length_s / 2;
    const phis slow = phis_of(by->slow.z / 2, by->slow.exp_half);
    const phis fast = phis_of(by->fast.z / 2, by->fast.exp_half);
    const pair rise = joined(by, (split){tangent_of(&by->slow, &slow, s), tangent_of(&by->fast, &fast, s)});
    const ds_day_node half = {.skin_c = from->skin_c + rise.skin,
                              .inside_c = from->inside_c + rise.inside,
                              .inner.heat_w = from->inner.heat_w + from->inner.by_inside * rise.inside +
                                              from->inner.by_skin * rise.skin};
    return coldest_c(m, &half, (o->step->start->spot_k + o->step->end->spot_k) / 2);
}

static inline double error_of(const modes *const m, const split s)
{
    const pair by = joined(m, s);
    return ds_day_more(SKIN_SHARE * fabs(by.skin), fabs(by.inside));
}

static inline bool is_long_way(const pair rise)
{
    return fabs(rise.skin) > LONG_WAY_K || fabs(rise.inside) > LONG_WAY_K;
}

void ds_day_step_take(const ds_day_model *const m, ds_day_node *const to, const ds_day_node *const from,
                      const ds_day_step *const step, ds_day_passed *const passed)
{
    const double h = step->length_s;
    opening o;
    open_step(&o, m, from, step);
    const mode *const slow = &o.modes.slow;
    const mode *const fast = &o.modes.fast;
    const split along = {tangent_of(slow, &slow->phi, h), tangent_of(fast, &fast->phi, h)};
    double end_w[3];
    const pair rise = joined(&o.modes, along);
    const split b3 = look(&o, m, to, step, rise, end_w);
    double half_w[3] = {end_w[0] / 4, end_w[1] / 4, end_w[2] / 4};
    split square = {2 * b3.slow, 2 * b3.fast};
    split cube = {0, 0};
    split mend = {h * slow->phi.three * square.slow, h * fast->phi.three * square.fast};
    passed->error_k = 0;
    passed->turned = sense_of(from) != sense_of(to);
    passed->switched = stage_of(m, from) != stage_of(m, to);
    if (error_of(&o.modes, mend) > step->quiet_k || is_long_way(rise)) {
        ds_day_node half;
        const split b2 = look_halfway(&o, m, &half, half_w);
        square = (split){16 * b2.slow - 2 * b3.slow, 16 * b2.fast - 2 * b3.fast};
        cube = (split){12 * b3.slow - 48 * b2.slow, 12 * b3.fast - 48 * b2.fast};
        const split last = {h * slow->phi.four * cube.slow, h * fast->phi.four * cube.fast};
        mend = (split){h * slow->phi.three * square.slow + last.slow,
                       h * fast->phi.three * square.fast + last.fast};
        passed->error_k = error_of(&o.modes, last);
        passed->turned = passed->turned || sense_of(&half) != sense_of(to);
        passed->switched = passed->switched || stage_of(m, &half) != stage_of(m, to);
    }
    const split over = {integral_of(slow, h, square.slow, cube.slow),
                        integral_of(fast, h, square.fast, cube.fast)};
    keep_passed(passed, &o, joined(&o.modes, over), half_w, end_w);
    mend_end(m, to, step->end->spot_k, joined(&o.modes, mend));
    to->half_cold_c = half_cold_of(&o, m, to);
    ds_day_vapour_take(m, to, from, step, passed);
    ds_day_node_rates(m, to, step->end, step->watts);
}

void ds_day_model_make(ds_day_model *const out, const ds_day_box *const box)
{
    const double vent_m3_h = box->seal == DS_DAY_VENTED ? box->air_m3_h : 0;
    const double breather_m3_h = box->seal == DS_DAY_SEALED ? 0 : box->vapour_m3_h;
    out->box = box;
    ds_day_films_make(&out->films, box);
    ds_day_weather_make(&out->weather, box, out->films.all_m2);
    out->per_skin = 1 / box->skin_j_k;
    out->per_inside = 1 / box->inside_j_k;
    out->moist_m3_s = (vent_m3_h + breather_m3_h) / DS_DAY_HOUR_S;
    out->held_kg_k_pa = box->volume_m3 / DS_AIR_VAPOUR_J_KGK;
}
