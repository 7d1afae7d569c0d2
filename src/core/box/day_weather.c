/* SPDX-License-Identifier: MIT */
/*
 * What an hour of weather does to one box. Everything here depends on the hour alone, not on the box's temperatures, so
 * it is worked out once an hour and goes over evenly into the next.
 */
#include "core/box/day_model.h"

#define KELVIN DS_DAY_KELVIN

/* How far a face without heat may fall below the air under a clear sky: the upper ends of field reports. */
#define MOST_DROP_UP_K 5.0
#define MOST_DROP_SIDE_K 3.0

/* Speeds at which one of the wind's two laws alone holds for any plate of 0.01 to 10 m. */
#define LAMINAR_M_S 1e-3
#define TURBULENT_M_S 1e3

/* Dry air: J/kgK, gas constant. */
#define AIR_J_KGK 1006.0
#define AIR_GAS_J_KGK 287.05

/* --- a run's curves ----------------------------------------------------------------------------------------------- */

static double laminar_at(const void *const ctx, const double air_c)
{
    const ds_day_box *const box = ctx;
    return ds_film_wind_w_m2k(LAMINAR_M_S, air_c, air_c, box->longest_m) / sqrt(LAMINAR_M_S);
}

static double turbulent_at(const void *const ctx, const double air_c)
{
    const ds_day_box *const box = ctx;
    return ds_film_wind_w_m2k(TURBULENT_M_S, air_c, air_c, box->longest_m) / pow(TURBULENT_M_S, 0.8);
}

static double held_at(const void *const ctx, const double air_c)
{
    const ds_day_box *const box = ctx;
    return ds_film_up_w_m2k(air_c - MOST_DROP_UP_K, air_c, box->plate_m);
}

static double standing_at(const void *const ctx, const double air_c)
{
    const ds_day_box *const box = ctx;
    return ds_film_vertical_w_m2k(air_c - MOST_DROP_SIDE_K, air_c, box->height_m);
}

static double over_water_at(const void *const ctx, const double temp_c)
{
    (void)ctx;
    return ds_air_over_water_pa(temp_c);
}

static double saturation_at(const void *const ctx, const double temp_c)
{
    (void)ctx;
    return ds_air_saturation_pa(temp_c);
}

void ds_day_weather_make(ds_day_weather *const out, const ds_day_box *const box, const double all_m2)
{
    const double width_k = 1 / DS_DAY_AIR_PER_K;
    const double vapour_width_k = 1 / DS_DAY_VAPOUR_PER_K;
    out->box = box;
    out->all_m2 = all_m2;
    ds_day_power_fill(&out->wind, 4, 5);
    ds_day_curve_fill(out->laminar, DS_DAY_AIR_PIECES, DS_DAY_AIR_FIRST_C, width_k, laminar_at, box);
    ds_day_curve_fill(out->turbulent, DS_DAY_AIR_PIECES, DS_DAY_AIR_FIRST_C, width_k, turbulent_at, box);
    ds_day_curve_fill(out->held, DS_DAY_AIR_PIECES, DS_DAY_AIR_FIRST_C, width_k, held_at, box);
    ds_day_curve_fill(out->standing, DS_DAY_AIR_PIECES, DS_DAY_AIR_FIRST_C, width_k, standing_at, box);
    ds_day_curve_fill(out->over_water, DS_DAY_WATER_PIECES, DS_DAY_WATER_FIRST_C, vapour_width_k,
                      over_water_at, NULL);
    ds_day_curve_fill(out->saturation, DS_DAY_VAPOUR_PIECES, DS_DAY_VAPOUR_FIRST_C, vapour_width_k,
                      saturation_at, NULL);
}

/* --- an hour ------------------------------------------------------------------------------------------------------ */

static double wind_w_m2k(const ds_day_weather *const w, const ds_day_spot *const spot, const double wind_m_s)
{
    const double laminar = ds_day_cubic_at(&w->laminar[spot->piece], spot->t) * sqrt(wind_m_s);
    const double turbulent = ds_day_cubic_at(&w->turbulent[spot->piece], spot->t) *
                             ds_day_power_of(&w->wind, 4, 5, wind_m_s + 1e-12);
    return fmax(laminar, turbulent);
}

static double fourth(const double kelvin)
{
    const double square = kelvin * kelvin;
    return square * square;
}

/* The loss that holds a face without heat this far below the air. */
static double credible_w_m2(const ds_day_weather *const w, const double air_c, const double drop_k,
                            const double film_w_m2k)
{
    if (w->box->outer_w_k > 0) {
        return drop_k * w->box->outer_w_k / w->all_m2;
    }
    const double glow = w->box->emissivity * DS_FILM_STEFAN_W_M2K4;
    return drop_k * film_w_m2k + glow * (fourth(air_c + KELVIN) - fourth(air_c - drop_k + KELVIN));
}

/* Loss to the sky of a face that sees all of it, W/m2; in air of 55 C and more the formula has no loss. */
static double clear_w_m2(const ds_day_weather *const w, const ds_weather_hour *const hour)
{
    const double sky_k = ds_film_sky_c(hour->air_c) + KELVIN;
    const double loss =
        w->box->emissivity * DS_FILM_STEFAN_W_M2K4 * (fourth(hour->air_c + KELVIN) - fourth(sky_k));
    return loss > 0 ? loss * hour->clear : 0;
}

typedef struct face_gain {
    double up_sun, wall_sun; /* W/m2 */
    double up_sky, side_sky;
} face_gain;

static face_gain face_gain_of(const ds_day_weather *const w, const ds_weather_hour *const hour,
                              const ds_day_spot *const spot, const double film_of_wind)
{
    const ds_day_box *const box = w->box;
    face_gain gain = {.up_sun = box->absorptance * hour->sun_flat_w_m2,
                      .wall_sun = box->absorptance * hour->sun_wall_w_m2};
    const double clear = clear_w_m2(w, hour);
    if (clear > 0) {
        const double held = fmax(ds_day_cubic_at(&w->held[spot->piece], spot->t), film_of_wind);
        const double standing = fmax(ds_day_cubic_at(&w->standing[spot->piece], spot->t), film_of_wind);
        gain.up_sky = fmin(box->sky_up * clear, credible_w_m2(w, hour->air_c, MOST_DROP_UP_K, held));
        gain.side_sky =
            fmin(box->sky_side * clear, credible_w_m2(w, hour->air_c, MOST_DROP_SIDE_K, standing));
    }
    return gain;
}

/* What the least favoured face receives, W/m2; a lit wall never receives less than one in the shade. */
static double least_w_m2(const ds_day_box *const box, const face_gain *const gain)
{
    double least = INFINITY;
    if (box->up.open_m2 > 0) {
        least = gain->up_sun - gain->up_sky;
    }
    if (box->side.open_m2 > 0) {
        const double sun = box->side.open_m2 > box->lit_m2 ? 0 : gain->wall_sun;
        least = fmin(least, sun - gain->side_sky);
    }
    if (box->up.covered_m2 > 0 || box->side.covered_m2 > 0 || box->down.open_m2 > 0 ||
        box->down.covered_m2 > 0) {
        least = fmin(least, 0);
    }
    return least;
}

/*
 * What evens out a face against the mean of the skin: the films on both sides of it, in the stillest air that they may
 * have, so the difference comes out large rather than small.
 */
static double evening_w_m2k(const ds_day_weather *const w, const double air_c, const double held,
                            const double wind)
{
    const ds_day_box *const box = w->box;
    const double air_k = air_c + KELVIN;
    const double glow = 4 * DS_FILM_STEFAN_W_M2K4 * air_k * air_k * air_k;
    const double outer =
        box->outer_w_k > 0 ? box->outer_w_k / w->all_m2 : fmax(held, wind) + box->emissivity * glow;
    const double film = held + box->inner_emissivity * glow;
    const double inner =
        box->inner_w_k > 0 ? box->inner_w_k / w->all_m2 : film / (1 + box->wall_m2k_w * film);
    return outer + inner;
}

static double vapour_pa(const ds_day_weather *const w, const ds_weather_hour *const hour)
{
    if (hour->air_c >= 0) {
        return hour->humidity * ds_day_saturation_pa(w, hour->air_c);
    }
    const ds_day_spot spot =
        ds_day_spot_of(hour->air_c, DS_DAY_WATER_FIRST_C, DS_DAY_VAPOUR_PER_K, DS_DAY_WATER_PIECES);
    return hour->humidity * ds_day_cubic_at(&w->over_water[spot.piece], spot.t);
}

ds_day_forcing ds_day_forcing_of(const ds_day_weather *const w, const ds_weather_hour *const hour)
{
    const ds_day_box *const box = w->box;
    const ds_day_spot spot =
        ds_day_spot_of(hour->air_c, DS_DAY_AIR_FIRST_C, DS_DAY_AIR_PER_K, DS_DAY_AIR_PIECES);
    const double film_of_wind = wind_w_m2k(w, &spot, hour->wind_m_s);
    const face_gain gain = face_gain_of(w, hour, &spot, film_of_wind);
    ds_day_forcing out = {.air_c = hour->air_c,
                          .sun_w = gain.up_sun * box->up.open_m2 + gain.wall_sun * box->lit_m2,
                          .sky_w = gain.up_sky * box->up.open_m2 + gain.side_sky * box->side.open_m2,
                          .wind_w_m2k = film_of_wind,
                          .vapour_pa = vapour_pa(w, hour)};
    out.spot_k = fmax((out.sun_w - out.sky_w) / w->all_m2 - least_w_m2(box, &gain), 0) /
                 evening_w_m2k(w, hour->air_c, ds_day_cubic_at(&w->held[spot.piece], spot.t), film_of_wind);
    if (box->seal == DS_DAY_VENTED) {
        const double air_j_m3k = DS_AIR_STANDARD_PA / (AIR_GAS_J_KGK * (hour->air_c + KELVIN)) * AIR_J_KGK;
        out.vent_w_k = box->air_m3_h / DS_DAY_HOUR_S * air_j_m3k;
    }
    return out;
}
