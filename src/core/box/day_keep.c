/* SPDX-License-Identifier: MIT */
/* What is kept of the steps of a run for its answer. */
#include "core/box/day_model.h"

#define COLDEST_C (-90.0)

/* --- temperatures ------------------------------------------------------------------------------------------------- */

/*
 * Halfway and at the turning point between two nodes the temperature follows the cubic through both ends with their
 * slopes; only the inside is smooth enough for that.
 */
typedef struct arc {
    double start, end;
    double start_slope, end_slope; /* per step */
} arc;

DS_DAY_INLINE double arc_at(const arc *const a, const double t)
{
    const double rest = 1 - t;
    return rest * rest * ((1 + 2 * t) * a->start + t * a->start_slope) +
           t * t * ((1 + 2 * rest) * a->end - rest * a->end_slope);
}

DS_DAY_INLINE double share_above(const double from, const double to, const double limit)
{
    const double low = ds_day_less(from, to);
    const double high = ds_day_more(from, to);
    const double some = (high - limit) / (high > low ? high - low : 1);
    return ds_day_less(ds_day_more(some, 0), 1);
}

/*
 * The highest value of an arc that rises at first and falls at last (or the lowest, by signs). No cubic follows an inside
 * that settles within the step; then the lines that leave both ends bound it, on the careful side.
 */
typedef struct turning {
    double high, low;
} turning;

DS_DAY_INLINE turning turning_of(const arc *const a)
{
    const bool turns = a->start_slope * a->end_slope < 0;
    const double by_cubic = arc_at(a, a->start_slope / (turns ? a->start_slope - a->end_slope : 1));
    const double by_start = a->start + a->start_slope;
    const double by_end = a->end - a->end_slope;
    const double high = ds_day_less(by_cubic, ds_day_less(by_start, by_end));
    const double low = ds_day_more(by_cubic, ds_day_more(by_start, by_end));
    const double tip = a->start_slope > 0 ? high : low;
    const double there = turns ? tip : a->end;
    return (turning){ds_day_more(ds_day_more(a->start, a->end), there),
                     ds_day_less(ds_day_less(a->start, a->end), there)};
}

DS_DAY_INLINE void keep_inside(ds_day_kept *const kept, const ds_day_node *const from,
                               const ds_day_node *const to, const double s, const double hour,
                               const double limit_c)
{
    const arc a = {from->inside_c, to->inside_c, from->inside_k_s * s, to->inside_k_s * s};
    const turning t = turning_of(&a);
    const double middle = ds_day_less(ds_day_more(arc_at(&a, 0.5), t.low), t.high);
    const double share = share_above(a.start, middle, limit_c) + share_above(middle, a.end, limit_c);
    kept->limit_hours += share / 2 * s * (1 / DS_DAY_HOUR_S);
    kept->highest_hour = t.high > kept->highest_c ? hour : kept->highest_hour;
    kept->highest_c = ds_day_more(t.high, kept->highest_c);
    kept->lowest_hour = t.low < kept->lowest_c ? hour : kept->lowest_hour;
    kept->lowest_c = ds_day_less(t.low, kept->lowest_c);
}

/* --- water and heat ----------------------------------------------------------------------------------------------- */

DS_DAY_INLINE void keep_water(ds_day_kept *const kept, const ds_day_node *const to,
                              const ds_day_passed *const passed, const double hour)
{
    const double liquid_g = to->liquid_kg * 1000;
    kept->wet_hours += passed->wet_s * (1 / DS_DAY_HOUR_S);
    kept->drained_g += passed->drained_kg * 1000;
    kept->most_hour = liquid_g > kept->most_g ? hour : kept->most_hour;
    kept->most_g = ds_day_more(liquid_g, kept->most_g);
}

DS_DAY_INLINE void keep_heat(ds_day_kept *const kept, const ds_day_forcing *const start,
                             const ds_day_forcing *const end, const ds_day_passed *const passed,
                             const double s)
{
    kept->sun_j += (start->sun_w + end->sun_w) / 2 * s;
    kept->sky_j += (start->sky_w + end->sky_w) / 2 * s;
    kept->heater_j += passed->heater_j;
    kept->air_j += passed->air_j;
    kept->vent_j += passed->vent_j;
}

/*
 * The dew point is dear, so it is asked only when saturation at the least margin so far says that it lies higher: 1 then,
 * and always where it is wet for the first time.
 */
DS_DAY_INLINE double nears_dew(const ds_day_saturation *const saturation, const ds_day_kept *const kept,
                               const ds_day_node *const node, const double wet_s)
{
    const double below_c = ds_day_more(node->cold_c - kept->margin_k, COLDEST_C);
    const double nears = node->vapour_pa > ds_day_saturation_pa(saturation, below_c) ? 1 : 0;
    const double wet = wet_s > 0 ? 1 : 0;
    return ds_day_more(nears, wet) * (kept->margin_k > 0 ? 1 : 0);
}

static void keep_margin(ds_day_kept_lanes *const kept, const ds_day_node_lanes *const nodes, const int i,
                        const bool is_wet, const double hour)
{
    const double margin_k = is_wet ? 0 : nodes->cold_c[i] - ds_air_dew_point_c(nodes->vapour_pa[i]);
    if (margin_k < kept->margin_k[i]) {
        kept->margin_k[i] = fmax(margin_k, 0);
        kept->margin_hour[i] = hour;
    }
}

/* --- all lanes ---------------------------------------------------------------------------------------------------- */

DS_DAY_WIDE
static void keep_all(const ds_day_model *restrict const m, ds_day_kept_lanes *restrict const kept,
                     const ds_day_taken *restrict const taken, double *restrict const nears)
{
    const ds_day_node_lanes *restrict const froms = taken->from;
    const ds_day_node_lanes *restrict const tos = taken->to;
    const ds_day_passed_lanes *restrict const passes = taken->passed;
    const ds_day_step step = *taken->step;
    const double s = ds_day_step_s(&step);
    const double hour = taken->hour;
    const double limit_c = taken->limit_c;
    for (int i = 0; i < DS_DAY_LANES; i++) {
        const ds_day_node from = ds_day_node_at(froms, i);
        const ds_day_node to = ds_day_node_at(tos, i);
        const ds_day_passed passed = ds_day_passed_at(passes, i);
        const ds_day_forcing start = ds_day_forcing_in(&step, i, step.from);
        const ds_day_forcing end = ds_day_forcing_in(&step, i, step.to);
        ds_day_kept k = ds_day_kept_at(kept, i);
        keep_inside(&k, &from, &to, s, hour, limit_c);
        keep_water(&k, &to, &passed, hour);
        keep_heat(&k, &start, &end, &passed, s);
        k.watts_j += step.watts[i] * s;
        nears[i] = nears_dew(&m->saturation, &k, &to, passed.wet_s);
        ds_day_kept_put(kept, i, &k);
    }
}

void ds_day_keep(const ds_day_model *const m, ds_day_kept_lanes *const kept, const ds_day_taken *const taken)
{
    double nears[DS_DAY_LANES];
    keep_all(m, kept, taken, nears);
    for (int i = 0; i < DS_DAY_LANES; i++) {
        if (nears[i] > 0) {
            keep_margin(kept, taken->to, i, taken->passed->wet_s[i] > 0, taken->hour);
        }
    }
}

void ds_day_keep_start(ds_day_kept_lanes *const kept, const ds_day_node_lanes *const start)
{
    for (int i = 0; i < DS_DAY_LANES; i++) {
        const ds_day_kept none = {.highest_c = start->inside_c[i],
                                  .lowest_c = start->inside_c[i],
                                  .most_g = start->liquid_kg[i] * 1000,
                                  .margin_k = INFINITY};
        ds_day_kept_put(kept, i, &none);
        keep_margin(kept, start, i, start->liquid_kg[i] > 0, 0);
    }
}
