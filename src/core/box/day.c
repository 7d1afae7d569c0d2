/* SPDX-License-Identifier: MIT */
/*
 * The run: hour after hour in steps that are as long as the estimated error lets them be, an hour at most, and what is
 * kept of them.
 *
 * Steps halve when the estimate passes the tolerance and double again when it is far below; they are an hour divided by a
 * power of two, so they end at the hours, where the weather bends. The tolerance bounds the correction of a step, whose
 * own error is an order smaller; tests/unit/box_day_ref.c measures what comes of it.
 */
#include "core/box/day_model.h"

/* Allowed for a step when nothing else is asked. */
#define TOLERANCE_K 0.001

/* Of that where a hygrostat answers to vapour, which is followed less closely than the temperatures. */
#define HYGROSTAT_SHARE 0.5

/* A correction below this share of it is taken as it is. */
#define QUIET (1.0 / 20)

/*
 * A step that becomes wet or dry, in which heat turns round or a heater leaves its band, is no longer than an hour divided
 * by two so often: vapour is of a lower order there, still air has its sharpest bend, and the heater a corner.
 */
enum { CROSSING = 3, HYGROSTAT_CROSSING = 6, TURNING = 2, SWITCHING = 5 };

/* A step doubles when the one that was taken had so little of what is allowed. */
#define EASY (1.0 / 16)

#define LOWEST_C (-90.0)
#define HIGHEST_C 190.0

enum { FINEST = 9, DAY_HOURS = 24 };

typedef struct run {
    ds_day_model model;
    const ds_weather_hour *hours;
    double limit_c, tolerance_k;
    ds_day_node nodes[2]; /* before and after a step, by turns */
    ds_day_node *node;    /* the latest */
    double wind_w_m2k;    /* that the node's films are for */
    unsigned halvings;    /* of the hour, for the next step */
    ds_day_answer *out;
} run;

/* --- what is kept ------------------------------------------------------------------------------------------------- */

/*
 * Halfway and at the turning point between two nodes the temperature follows the cubic through both ends with their
 * slopes; only the inside is smooth enough for that.
 */
typedef struct arc {
    double start, end;
    double start_slope, end_slope; /* per step */
} arc;

static double arc_at(const arc *const a, const double t)
{
    const double rest = 1 - t;
    return rest * rest * ((1 + 2 * t) * a->start + t * a->start_slope) +
           t * t * ((1 + 2 * rest) * a->end - rest * a->end_slope);
}

static double share_above(const double from, const double to, const double limit)
{
    const double low = fmin(from, to);
    const double high = fmax(from, to);
    return low >= limit ? (high > limit ? 1 : 0) : high <= limit ? 0 : (high - limit) / (high - low);
}

static void keep_high(ds_day_answer *const out, const double inside_c, const size_t hour)
{
    if (!(inside_c <= out->highest_c)) {
        out->highest_c = inside_c;
        out->highest_hour = hour;
    }
}

static void keep_low(ds_day_answer *const out, const double inside_c, const size_t hour)
{
    if (!(inside_c >= out->lowest_c)) {
        out->lowest_c = inside_c;
        out->lowest_hour = hour;
    }
}

/*
 * The highest value of an arc that rises at first and falls at last (or the lowest, by signs). No cubic follows an inside
 * that settles within the step; then the lines that leave both ends bound it, on the careful side.
 */
static double turning_of(const arc *const a)
{
    const double by_cubic = arc_at(a, a->start_slope / (a->start_slope - a->end_slope));
    const double by_start = a->start + a->start_slope;
    const double by_end = a->end - a->end_slope;
    return a->start_slope > 0 ? ds_day_less(by_cubic, ds_day_less(by_start, by_end))
                              : ds_day_more(by_cubic, ds_day_more(by_start, by_end));
}

static void keep_limit(run *const r, const arc *const a, const double low, const double high, const double s)
{
    const double middle = ds_day_less(ds_day_more(arc_at(a, 0.5), low), high);
    const double share = share_above(a->start, middle, r->limit_c) + share_above(middle, a->end, r->limit_c);
    r->out->limit_hours += share / 2 * s / DS_DAY_HOUR_S;
}

static void keep_inside(run *const r, const ds_day_node *const from, const ds_day_node *const to,
                        const double s, const size_t hour)
{
    const arc a = {from->inside_c, to->inside_c, from->inside_k_s * s, to->inside_k_s * s};
    double low = ds_day_less(a.start, a.end);
    double high = ds_day_more(a.start, a.end);
    if (a.start_slope > 0 && a.end_slope < 0) {
        high = ds_day_more(high, turning_of(&a));
    } else if (a.start_slope < 0 && a.end_slope > 0) {
        low = ds_day_less(low, turning_of(&a));
    }
    keep_high(r->out, high, hour);
    keep_low(r->out, low, hour);
    if (high > r->limit_c) {
        keep_limit(r, &a, low, high, s);
    }
}

/* The dew point is dear, so it is asked only when saturation at the least margin so far says that it lies higher. */
static void keep_margin(run *const r, const ds_day_node *const node, const bool wet, const size_t hour)
{
    ds_day_answer *const out = r->out;
    const double below_c = node->cold_c - out->margin_k;
    if (below_c > LOWEST_C && node->vapour_pa <= ds_day_saturation_pa(&r->model.weather, below_c)) {
        return;
    }
    const double margin_k = wet ? 0 : node->cold_c - ds_air_dew_point_c(node->vapour_pa);
    if (margin_k < out->margin_k) {
        out->margin_k = fmax(margin_k, 0);
        out->margin_hour = hour;
    }
}

static void keep_moisture(run *const r, const ds_day_node *const node, const bool wet, const size_t hour)
{
    ds_day_answer *const out = r->out;
    if (node->liquid_kg * 1000 > out->most_g) {
        out->most_g = node->liquid_kg * 1000;
        out->most_hour = hour;
    }
    if (out->margin_k > 0) {
        keep_margin(r, node, wet, hour);
    }
}

static void keep_heat(ds_day_heat *const heat, const ds_day_step *const step,
                      const ds_day_passed *const passed)
{
    const double s = step->length_s;
    heat->watts_j += step->watts * s;
    heat->sun_j += (step->start->sun_w + step->end->sun_w) / 2 * s;
    heat->sky_j += (step->start->sky_w + step->end->sky_w) / 2 * s;
    heat->heater_j += passed->heater_j;
    heat->air_j += passed->air_j;
    heat->vent_j += passed->vent_j;
}

static void keep(run *const r, const ds_day_node *const to, const ds_day_step *const step,
                 const ds_day_passed *const passed, const size_t hour)
{
    keep_inside(r, r->node, to, step->length_s, hour);
    keep_moisture(r, to, passed->wet_s > 0, hour);
    keep_heat(&r->out->heat, step, passed);
    r->out->wet_hours += passed->wet_s / DS_DAY_HOUR_S;
    r->out->drained_g += passed->drained_kg * 1000;
    r->out->steps++;
}

/* --- an hour ------------------------------------------------------------------------------------------------------ */

static bool is_in_range(const ds_day_node *const node)
{
    return node->inside_c >= LOWEST_C && node->inside_c <= HIGHEST_C && node->skin_c >= LOWEST_C &&
           node->skin_c <= HIGHEST_C && node->cold_c >= LOWEST_C;
}

typedef struct hour_weather {
    const ds_day_forcing *start, *end;
} hour_weather;

/* Wind and watts change at the hour, so films and rates there do. */
static void start_hour(run *const r, const ds_day_forcing *const start, const double watts)
{
    if (start->wind_w_m2k != r->wind_w_m2k) {
        r->node->outer = ds_day_outer_of(&r->model.films, r->node->skin_c, start->air_c, start->wind_w_m2k);
        r->wind_w_m2k = start->wind_w_m2k;
    }
    ds_day_node_rates(&r->model, r->node, start, watts);
}

/* The weather at the end of a part of the hour. */
static const ds_day_forcing *part_end(ds_day_forcing *const at, const hour_weather *const w,
                                      const unsigned done, const unsigned parts)
{
    if (done + 1 == parts) {
        return w->end;
    }
    *at = ds_day_forcing_between(w->start, w->end, (double)(done + 1) / parts);
    return at;
}

static bool is_too_long(const run *const r, const ds_day_node *const to, const ds_day_passed *const passed)
{
    const bool crosses = (r->node->liquid_kg > 0) != (to->liquid_kg > 0);
    const bool by_humidity = r->model.box->heater.control == DS_DAY_HYGROSTAT;
    const unsigned least = crosses            ? (by_humidity ? HYGROSTAT_CROSSING : CROSSING)
                           : passed->switched ? SWITCHING
                           : passed->turned   ? TURNING
                                              : 0;
    return r->halvings < least || (!(passed->error_k <= r->tolerance_k) && r->halvings < FINEST);
}

/* False: out of range. */
static bool pass_hour(run *const r, const hour_weather *const w, const size_t hour, const bool kept)
{
    const double *const duty = r->model.box->duty;
    ds_day_forcing between[2];
    ds_day_step step = {.watts = r->model.box->watts * (duty ? duty[hour % DAY_HOURS] : 1),
                        .wind_w_m2k = w->start->wind_w_m2k,
                        .quiet_k = QUIET * r->tolerance_k,
                        .start = w->start};
    start_hour(r, w->start, step.watts);
    for (unsigned done = 0; done < 1U << r->halvings;) {
        ds_day_node *const to = r->node == r->nodes ? r->nodes + 1 : r->nodes;
        ds_day_passed passed;
        step.length_s = DS_DAY_HOUR_S / (1U << r->halvings);
        step.end = part_end(step.start == between ? between + 1 : between, w, done, 1U << r->halvings);
        ds_day_step_take(&r->model, to, r->node, &step, &passed);
        if (is_too_long(r, to, &passed)) {
            r->halvings++;
            done *= 2;
            continue;
        }
        if (!is_in_range(to)) {
            return false;
        }
        if (kept) {
            keep(r, to, &step, &passed, hour);
        }
        r->node = to;
        step.start = step.end;
        done++;
        if (passed.error_k < EASY * r->tolerance_k && r->halvings > 0 && done % 2 == 0) {
            r->halvings--;
            done /= 2;
        }
    }
    return true;
}

/* --- the run ------------------------------------------------------------------------------------------------------ */

static void keep_point(ds_day_point *const curve, const size_t hour, const ds_day_node *const node)
{
    if (curve) {
        curve[hour] = (ds_day_point){node->inside_c, node->cold_c, ds_air_dew_point_c(node->vapour_pa)};
    }
}

static bool pass_hours(run *const r, const size_t count, const bool kept, ds_day_point *const curve)
{
    ds_day_forcing at[2] = {ds_day_forcing_of(&r->model.weather, &r->hours[0])};
    for (size_t hour = 0; hour < count; hour++) {
        const hour_weather w = {&at[hour % 2], &at[(hour + 1) % 2]};
        at[(hour + 1) % 2] = ds_day_forcing_of(&r->model.weather, &r->hours[hour + 1 < count ? hour + 1 : 0]);
        keep_point(curve, hour, r->node);
        if (!pass_hour(r, &w, hour, kept)) {
            return false;
        }
    }
    return true;
}

/* A sealed box holds what it was closed with, in the air or on the wall; any other begins as dry as its walls allow. */
static void start_vapour(run *const r, const double outside_pa)
{
    const ds_day_box *const box = r->model.box;
    ds_day_node *const node = r->node;
    const double inside_k = node->inside_c + DS_AIR_KELVIN;
    const double most_pa = node->most_pa;
    const double closing_pa = ds_air_weather_vapour_pa(box->closing_c, box->closing_humidity) * inside_k /
                              (box->closing_c + DS_AIR_KELVIN);
    const bool is_sealed = box->seal == DS_DAY_SEALED;
    const double vapour_pa = is_sealed ? closing_pa : outside_pa;
    node->vapour_pa = fmin(vapour_pa, most_pa);
    node->liquid_kg =
        is_sealed ? (vapour_pa - node->vapour_pa) * box->volume_m3 / (DS_AIR_VAPOUR_J_KGK * inside_k) : 0;
}

static bool settle(run *const r, const size_t count, const unsigned days)
{
    const ds_day_forcing start = ds_day_forcing_of(&r->model.weather, &r->hours[0]);
    ds_day_node *const node = r->node;
    *node = (ds_day_node){.skin_c = start.air_c, .inside_c = start.air_c};
    ds_day_node_films(&r->model, node, &start);
    r->wind_w_m2k = start.wind_w_m2k;
    start_vapour(r, start.vapour_pa);
    for (unsigned day = 0; day < days; day++) {
        if (!pass_hours(r, count < DAY_HOURS ? count : DAY_HOURS, false, NULL)) {
            return false;
        }
    }
    if (r->model.box->seal != DS_DAY_SEALED) {
        r->node->liquid_kg = 0;
    }
    return true;
}

static bool pass_all(run *const r, const size_t count, const ds_day_ask *const ask)
{
    const ds_day_box *const box = r->model.box;
    if (!settle(r, count, ask->settle_days)) {
        return false;
    }
    const ds_day_node start = *r->node;
    keep_high(r->out, start.inside_c, 0);
    keep_low(r->out, start.inside_c, 0);
    keep_moisture(r, &start, start.liquid_kg > 0, 0);
    if (!pass_hours(r, count, true, ask->curve)) {
        return false;
    }
    r->out->heat.stored_j = box->skin_j_k * (r->node->skin_c - start.skin_c) +
                            box->inside_j_k * (r->node->inside_c - start.inside_c);
    return true;
}

static ds_day_answer no_answer(void)
{
    return (ds_day_answer){.highest_c = NAN,
                           .lowest_c = NAN,
                           .limit_hours = NAN,
                           .wet_hours = NAN,
                           .most_g = NAN,
                           .drained_g = NAN,
                           .margin_k = NAN,
                           .heat = {NAN, NAN, NAN, NAN, NAN, NAN, NAN}};
}

ds_day_fault ds_day_run(ds_day_answer *const out, const ds_day_box *const box,
                        const ds_weather_hour *const hours, const size_t count, const ds_day_ask *const ask)
{
    *out = no_answer();
    const ds_day_fault fault = ds_day_check(box, hours, count, ask);
    if (fault.field != DS_DAY_OK) {
        return fault;
    }
    run r = {.hours = hours, .limit_c = ask->limit_c, .out = out};
    r.tolerance_k = (ask->tolerance_k > 0 ? ask->tolerance_k : TOLERANCE_K) *
                    (box->heater.control == DS_DAY_HYGROSTAT ? HYGROSTAT_SHARE : 1);
    r.node = r.nodes;
    ds_day_model_make(&r.model, box);
    *out = (ds_day_answer){.highest_c = NAN,
                           .lowest_c = NAN,
                           .limit_hours = isnan(ask->limit_c) ? NAN : 0,
                           .margin_k = INFINITY};
    if (!pass_all(&r, count, ask)) {
        *out = no_answer();
        return (ds_day_fault){DS_DAY_RESULT, 0};
    }
    out->margin_k = isinf(out->margin_k) ? NAN : out->margin_k;
    return fault;
}
