/* SPDX-License-Identifier: MIT */
/*
 * The day model a second time, as plain as it can be, for GSL's integrator: the equations of day.h with film.h and air.h
 * asked directly at every moment, the wall solved for exactly, no curves, no slopes; embedded Runge-Kutta of order 8 with a tolerance of
 * 1e-10 that starts anew at every hour.
 */
#ifndef BOX_DAY_TRUE_H
#define BOX_DAY_TRUE_H

#include "box_day_help.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

enum { TRUE_SKIN, TRUE_INSIDE, TRUE_WATER, TRUE_AIR_J, TRUE_HEATER_J, TRUE_STATES };

/* What an hour of weather does, by day.h. */
typedef struct true_hour {
    double air_c, gain_w, wind_w_m2k, spot_k, vapour_pa, vent_w_k;
} true_hour;

typedef struct true_run {
    const ds_day_box *box;
    true_hour start, end;
    double start_s;
    double watts;
} true_run;

static inline double true_area(const ds_day_box *const b)
{
    return b->up.open_m2 + b->up.covered_m2 + b->side.open_m2 + b->side.covered_m2 + b->down.open_m2 +
           b->down.covered_m2;
}

static inline double true_glow(const double emissivity, const double a_c, const double b_c)
{
    return 5.67e-8 * emissivity * (pow(a_c + 273.15, 4) - pow(b_c + 273.15, 4));
}

/* --- an hour's weather -------------------------------------------------------------------------------------------- */

/* Loss to the sky of a face, never more than what holds it drop_k below the air. */
static inline double true_sky(const ds_day_box *const b, const ds_weather_hour *const w, const double view,
                              const double drop_k, const double film)
{
    const double formula = view * w->clear * true_glow(b->emissivity, w->air_c, ds_film_sky_c(w->air_c));
    const double most = drop_k * film + true_glow(b->emissivity, w->air_c, w->air_c - drop_k);
    return fmax(fmin(formula, most), 0);
}

static inline true_hour true_hour_of(const ds_day_box *const b, const ds_weather_hour *const w)
{
    const double wind =
        w->wind_m_s > 0 ? ds_film_wind_w_m2k(w->wind_m_s, w->air_c, w->air_c, b->longest_m) : 0;
    const double up_film = fmax(ds_film_up_w_m2k(w->air_c - 5, w->air_c, b->plate_m), wind);
    const double side_film = fmax(ds_film_vertical_w_m2k(w->air_c - 3, w->air_c, b->height_m), wind);
    const double up = b->absorptance * w->sun_flat_w_m2 - true_sky(b, w, b->sky_up, 5, up_film);
    const double side_sky = true_sky(b, w, b->sky_side, 3, side_film);
    const double gain =
        up * b->up.open_m2 + b->absorptance * w->sun_wall_w_m2 * b->lit_m2 - side_sky * b->side.open_m2;
    const double vapour = w->humidity * ds_air_over_water_pa(w->air_c);
    const double vent =
        b->seal == DS_DAY_VENTED ? b->air_m3_h / 3600 * 101325 / (287.05 * (w->air_c + 273.15)) * 1006 : 0;
    double least = 0; /* the bottom is always there in these tests */
    least = fmin(least, up);
    least = fmin(least, -side_sky);
    const double held = ds_film_up_w_m2k(w->air_c - 5, w->air_c, b->plate_m);
    const double glow = 4 * 5.67e-8 * pow(w->air_c + 273.15, 3);
    const double inner = 1 / (b->wall_m2k_w + 1 / (held + glow * b->inner_emissivity));
    const double spot = (gain / true_area(b) - least) / (fmax(held, wind) + glow * b->emissivity + inner);
    return (true_hour){w->air_c, gain, wind, spot, vapour, vent};
}

static inline double true_mix(const double a, const double b, const double t)
{
    return a + (b - a) * t;
}

static inline true_hour true_now(const true_run *const r, const double t)
{
    const true_hour *const a = &r->start;
    const true_hour *const b = &r->end;
    return (true_hour){true_mix(a->air_c, b->air_c, t),
                       true_mix(a->gain_w, b->gain_w, t),
                       a->wind_w_m2k,
                       true_mix(a->spot_k, b->spot_k, t),
                       true_mix(a->vapour_pa, b->vapour_pa, t),
                       true_mix(a->vent_w_k, b->vent_w_k, t)};
}

/* --- the equations ------------------------------------------------------------------------------------------------ */

static inline double true_outer(const ds_day_box *const b, const double skin_c, const double air_c,
                                const double wind)
{
    const double up = ds_film_up_w_m2k(skin_c, air_c, b->plate_m);
    const double side = ds_film_vertical_w_m2k(skin_c, air_c, b->height_m);
    const double down = ds_film_down_w_m2k(skin_c, air_c, b->plate_m);
    const double w_k = up * b->up.covered_m2 + fmax(up, wind) * b->up.open_m2 + side * b->side.covered_m2 +
                       fmax(side, wind) * b->side.open_m2 + down * b->down.covered_m2 +
                       fmax(down, wind) * b->down.open_m2;
    return w_k * (skin_c - air_c) + true_area(b) * true_glow(b->emissivity, skin_c, air_c);
}

/* Heat by the inner film alone, from the air inside to the wall's inner face. Seen from the air, a top is a cold face
   that looks down: as outside when the skin is warm. */
static inline double true_film(const ds_day_box *const b, const double inside_c, const double wall_c)
{
    const double up = ds_film_up_w_m2k(inside_c, wall_c, b->plate_m) * (b->up.open_m2 + b->up.covered_m2);
    const double side =
        ds_film_vertical_w_m2k(inside_c, wall_c, b->height_m) * (b->side.open_m2 + b->side.covered_m2);
    const double down =
        ds_film_down_w_m2k(inside_c, wall_c, b->plate_m) * (b->down.open_m2 + b->down.covered_m2);
    return (up + side + down) * (inside_c - wall_c) +
           true_area(b) * true_glow(b->inner_emissivity, inside_c, wall_c);
}

/* What the wall would have to carry more than it does, were its inner face at wall_c; falls as that rises. */
static inline double true_excess(const ds_day_box *const b, const double inside_c, const double skin_c,
                                 const double wall_c)
{
    return true_film(b, inside_c, wall_c) - (wall_c - skin_c) * true_area(b) / b->wall_m2k_w;
}

/* Film and wall in series: the secant finds where both carry the same. */
static inline double true_inner(const ds_day_box *const b, const double inside_c, const double skin_c)
{
    if (!(b->wall_m2k_w > 0) || inside_c == skin_c) {
        return true_film(b, inside_c, skin_c);
    }
    double before_c = skin_c;
    double before_w = true_excess(b, inside_c, skin_c, before_c);
    double wall_c = skin_c + (inside_c - skin_c) / 10;
    for (int i = 0; i < 30; i++) {
        const double excess_w = true_excess(b, inside_c, skin_c, wall_c);
        if (excess_w == before_w || fabs(wall_c - before_c) < 1e-13) {
            break;
        }
        const double next_c = wall_c - excess_w * (wall_c - before_c) / (excess_w - before_w);
        before_c = wall_c;
        before_w = excess_w;
        wall_c = next_c;
    }
    return true_film(b, inside_c, wall_c);
}

static inline double true_cold(const ds_day_box *const b, const double skin_c, const double inside_c,
                               const true_hour *const now)
{
    const double wall = skin_c + b->wall_m2k_w / true_area(b) * true_inner(b, inside_c, skin_c);
    return fmin(wall - now->spot_k, inside_c);
}

/* Vapour pressure of the air inside by the water in the box. */
static inline double true_vapour(const ds_day_box *const b, const double water_kg, const double inside_c,
                                 const double cold_c)
{
    const double all = water_kg * 461.5 * (inside_c + 273.15) / b->volume_m3;
    return fmin(all, ds_air_saturation_pa(cold_c));
}

static inline double true_heater(const ds_day_box *const b, const double inside_c, const double vapour_pa)
{
    const ds_day_heater *const h = &b->heater;
    const double over = h->control == DS_DAY_THERMOSTAT ? h->set - inside_c
                                                        : vapour_pa / ds_air_saturation_pa(inside_c) - h->set;
    return h->control == DS_DAY_NO_HEATER ? 0 : h->watts * fmin(fmax(over / h->band + 0.5, 0), 1);
}

static inline double true_water_s(const ds_day_box *const b, const true_hour *const now,
                                  const double vapour_pa, const double inside_c, const double inside_k_s)
{
    const double inside_k = inside_c + 273.15;
    const double flow = ((b->seal == DS_DAY_VENTED ? b->air_m3_h : 0) + b->vapour_m3_h) / 3600;
    const double by_flow = flow * (now->vapour_pa - vapour_pa) / (461.5 * (now->air_c + 273.15));
    const double passing = inside_k_s < 0 ? now->vapour_pa : vapour_pa;
    return b->seal == DS_DAY_SEALED
               ? 0
               : by_flow - passing * b->volume_m3 / (461.5 * inside_k) * inside_k_s / inside_k;
}

static inline int true_rates(const double s, const double y[], double rate[], void *const ctx)
{
    const true_run *const r = ctx;
    const ds_day_box *const b = r->box;
    const true_hour now = true_now(r, (s - r->start_s) / 3600);
    const double outer = true_outer(b, y[TRUE_SKIN], now.air_c, now.wind_w_m2k);
    const double inner = true_inner(b, y[TRUE_INSIDE], y[TRUE_SKIN]);
    const double cold = true_cold(b, y[TRUE_SKIN], y[TRUE_INSIDE], &now);
    const double vapour = true_vapour(b, y[TRUE_WATER], y[TRUE_INSIDE], cold);
    const double heater = true_heater(b, y[TRUE_INSIDE], vapour);
    rate[TRUE_SKIN] = (now.gain_w + inner - outer) / b->skin_j_k;
    rate[TRUE_INSIDE] =
        (r->watts + heater - inner - now.vent_w_k * (y[TRUE_INSIDE] - now.air_c)) / b->inside_j_k;
    rate[TRUE_WATER] = true_water_s(b, &now, vapour, y[TRUE_INSIDE], rate[TRUE_INSIDE]);
    rate[TRUE_AIR_J] = outer;
    rate[TRUE_HEATER_J] = heater;
    return GSL_SUCCESS;
}

/* --- a run -------------------------------------------------------------------------------------------------------- */

typedef struct true_answer {
    double air_j, heater_j;
    double highest_c, lowest_c;
    double most_g, most_water_g; /* on the wall; of all the water in the box */
} true_answer;

/* Water on the wall. */
static inline double true_liquid_g(const ds_day_box *const b, const double y[], const true_hour *const now)
{
    const double wall = true_cold(b, y[TRUE_SKIN], y[TRUE_INSIDE], now);
    const double vapour = true_vapour(b, y[TRUE_WATER], y[TRUE_INSIDE], wall);
    return 1000 * (y[TRUE_WATER] - vapour * b->volume_m3 / (461.5 * (y[TRUE_INSIDE] + 273.15)));
}

/*
 * From skin and inside at the first hour's air, vapour as outside (or as closed), without settling; curve gets a point an
 * hour.
 */
static inline true_answer true_day(const ds_day_box *const b, const ds_weather_hour *const hours,
                                   const size_t count, ds_day_point *const curve, const double tolerance)
{
    true_run r = {.box = b, .watts = b->watts};
    const gsl_odeiv2_system system = {true_rates, NULL, TRUE_STATES, &r};
    gsl_odeiv2_driver *const driver =
        gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, 1, tolerance, tolerance);
    const double first_c = hours[0].air_c;
    const true_hour first = true_hour_of(b, &hours[0]);
    const double cold = true_cold(b, first_c, first_c, &first);
    const double per_pa = b->volume_m3 / (461.5 * (first_c + 273.15));
    double y[TRUE_STATES] = {first_c, first_c, fmin(first.vapour_pa, ds_air_saturation_pa(cold)) * per_pa, 0,
                             0};
    if (b->seal == DS_DAY_SEALED) {
        y[TRUE_WATER] = b->closing_humidity * ds_air_over_water_pa(b->closing_c) * b->volume_m3 /
                        (461.5 * (b->closing_c + 273.15));
    }
    true_answer out = {0, 0, first_c, first_c, 0, 0};
    double s = 0;
    for (size_t hour = 0; hour < count; hour++) {
        r.start = true_hour_of(b, &hours[hour]);
        r.end = true_hour_of(b, &hours[(hour + 1) % count]);
        r.start_s = 3600.0 * (double)hour;
        const double wall = true_cold(b, y[TRUE_SKIN], y[TRUE_INSIDE], &r.start);
        const double vapour = true_vapour(b, y[TRUE_WATER], y[TRUE_INSIDE], wall);
        curve[hour] = (ds_day_point){y[TRUE_INSIDE], wall, ds_air_dew_point_c(vapour)};
        out.most_g = fmax(out.most_g, true_liquid_g(b, y, &r.start));
        for (int part = 1; part <= 60; part++) {
            gsl_odeiv2_driver_reset(driver);
            if (gsl_odeiv2_driver_apply(driver, &s, r.start_s + 60.0 * part, y) != GSL_SUCCESS) {
                fail_msg("GSL gives up in hour %zu", hour);
            }
            out.highest_c = fmax(out.highest_c, y[TRUE_INSIDE]);
            out.lowest_c = fmin(out.lowest_c, y[TRUE_INSIDE]);
            const true_hour now = true_now(&r, part / 60.0);
            out.most_g = fmax(out.most_g, true_liquid_g(b, y, &now));
            out.most_water_g = fmax(out.most_water_g, 1000 * y[TRUE_WATER]);
        }
    }
    gsl_odeiv2_driver_free(driver);
    out.air_j = y[TRUE_AIR_J];
    out.heater_j = y[TRUE_HEATER_J];
    return out;
}

#endif
