/* SPDX-License-Identifier: MIT */
/*
 * What an hour of weather does to the boxes of a run. It depends on the hour alone, not on the boxes' temperatures, so it
 * is worked out once an hour and goes over evenly into the next. Films are asked from film.h for a length of one metre,
 * once for all boxes, and follow the lengths of each by its laws' powers.
 */
#include "core/box/day_model.h"

#define KELVIN DS_DAY_KELVIN

/* How far a face without heat may fall below the air under a clear sky: the upper ends of field reports. */
#define MOST_DROP_UP_K 5.0
#define MOST_DROP_SIDE_K 3.0

/* Speeds at which one of the wind's two laws alone holds for a plate of a metre. */
#define LAMINAR_M_S 1e-3
#define TURBULENT_M_S 1e3

/* Dry air: J/kgK, gas constant. */
#define AIR_J_KGK 1006.0
#define AIR_GAS_J_KGK 287.05

void ds_day_site_make(ds_day_site *const out, const ds_day_box *const box, const double all_m2)
{
    const bool has_covered = box->up.covered_m2 > 0 || box->side.covered_m2 > 0 || box->down.open_m2 > 0 ||
                             box->down.covered_m2 > 0;
    *out = (ds_day_site){.laminar = 1 / sqrt(box->longest_m),
                         .turbulent = pow(box->longest_m, -0.2),
                         .held = 1 / sqrt(sqrt(box->plate_m)),
                         .absorptance = box->absorptance,
                         .emissivity = box->emissivity,
                         .inner_emissivity = box->inner_emissivity,
                         .lit_m2 = box->lit_m2,
                         .sky_up = box->sky_up,
                         .sky_side = box->sky_side,
                         .has_covered = has_covered ? 1 : 0,
                         .wall_m2k_w = box->wall_m2k_w,
                         .outer_w_m2k = box->outer_w_k / all_m2,
                         .inner_w_m2k = box->inner_w_k / all_m2,
                         .vent_m3_s = box->seal == DS_DAY_VENTED ? box->air_m3_h / DS_DAY_HOUR_S : 0};
}

/* --- an hour, for all boxes --------------------------------------------------------------------------------------- */

/* W/m2 and W/m2K, of lengths of one metre and black surfaces. */
typedef struct air_hour {
    double air_c;
    double laminar, turbulent;        /* films of the wind */
    double held;                      /* of still air, at the greatest credible drop of a top */
    double conductivity_w_mk, root;   /* of a side: the sixth root of its Rayleigh number at that drop */
    double clear, drop_up, drop_side; /* to a clear sky; what the drops lose by radiation */
    double glow_w_m2k;
    double sun_flat, sun_wall;
    double vapour_pa;
    double air_j_m3k;
} air_hour;

static double fourth(const double kelvin)
{
    const double square = kelvin * kelvin;
    return square * square;
}

/* Between two temperatures; 0 towards a warmer sky, as the formula gives it above 55 C. */
static double black_w_m2(const double warm_c, const double cold_c)
{
    return fmax(DS_FILM_STEFAN_W_M2K4 * (fourth(warm_c + KELVIN) - fourth(cold_c + KELVIN)), 0);
}

static air_hour air_hour_of(const ds_weather_hour *const hour)
{
    const double air_c = hour->air_c;
    const double air_k = air_c + KELVIN;
    const ds_film_air air = ds_film_air_at(air_c - MOST_DROP_SIDE_K / 2);
    const double laminar = ds_film_wind_w_m2k(LAMINAR_M_S, air_c, air_c, 1) / sqrt(LAMINAR_M_S);
    const double turbulent = ds_film_wind_w_m2k(TURBULENT_M_S, air_c, air_c, 1) / pow(TURBULENT_M_S, 0.8);
    return (air_hour){.air_c = air_c,
                      .laminar = laminar * sqrt(hour->wind_m_s),
                      .turbulent = turbulent * pow(hour->wind_m_s, 0.8),
                      .held = ds_film_up_w_m2k(air_c - MOST_DROP_UP_K, air_c, 1),
                      .conductivity_w_mk = air.conductivity_w_mk,
                      .root = sqrt(cbrt(ds_film_rayleigh(&air, MOST_DROP_SIDE_K, 1))),
                      .clear = black_w_m2(air_c, ds_film_sky_c(air_c)) * hour->clear,
                      .drop_up = black_w_m2(air_c, air_c - MOST_DROP_UP_K),
                      .drop_side = black_w_m2(air_c, air_c - MOST_DROP_SIDE_K),
                      .glow_w_m2k = 4 * DS_FILM_STEFAN_W_M2K4 * air_k * air_k * air_k,
                      .sun_flat = hour->sun_flat_w_m2,
                      .sun_wall = hour->sun_wall_w_m2,
                      .vapour_pa = ds_air_weather_vapour_pa(air_c, hour->humidity),
                      .air_j_m3k = DS_AIR_STANDARD_PA / (AIR_GAS_J_KGK * air_k) * AIR_J_KGK};
}

/* --- and for one -------------------------------------------------------------------------------------------------- */

typedef struct face_gain {
    double up_sun, wall_sun; /* W/m2 */
    double up_sky, side_sky;
} face_gain;

/* Still air along top and side at the greatest credible drop, and the wind. */
typedef struct face_films {
    double held, standing, wind;
} face_films;

DS_DAY_INLINE face_films face_films_of(const ds_day_site *const s, const ds_day_films *const f,
                                       const air_hour *const air)
{
    const double root = f->standing_0 + f->standing_1 * air->root;
    return (face_films){.held = air->held * s->held,
                        .standing = air->conductivity_w_mk * root * root,
                        .wind = ds_day_more(air->laminar * s->laminar, air->turbulent * s->turbulent)};
}

/* The loss to the sky of a face, never more than what holds it, without heat, at its greatest credible drop. */
DS_DAY_INLINE double sky_w_m2(const ds_day_site *const s, const double clear, const double drop_k,
                              const double drop_w_m2, const double film_w_m2k)
{
    const double by_film = drop_k * film_w_m2k + s->emissivity * drop_w_m2;
    const double credible = s->outer_w_m2k > 0 ? drop_k * s->outer_w_m2k : by_film;
    return ds_day_less(clear, credible);
}

DS_DAY_INLINE face_gain face_gain_of(const ds_day_site *const s, const air_hour *const air,
                                     const face_films *const film)
{
    const double clear = s->emissivity * air->clear;
    return (face_gain){.up_sun = s->absorptance * air->sun_flat,
                       .wall_sun = s->absorptance * air->sun_wall,
                       .up_sky = sky_w_m2(s, s->sky_up * clear, MOST_DROP_UP_K, air->drop_up,
                                          ds_day_more(film->held, film->wind)),
                       .side_sky = sky_w_m2(s, s->sky_side * clear, MOST_DROP_SIDE_K, air->drop_side,
                                            ds_day_more(film->standing, film->wind))};
}

/* What the least favoured face receives, W/m2; a lit wall never receives less than one in the shade. */
DS_DAY_INLINE double least_w_m2(const ds_day_site *const s, const ds_day_films *const f,
                                const face_gain *const gain)
{
    const double wall_sun = f->side_open_m2 > s->lit_m2 ? 0 : gain->wall_sun;
    const double up = f->up_open_m2 > 0 ? gain->up_sun - gain->up_sky : 1e9;
    const double side = f->side_open_m2 > 0 ? wall_sun - gain->side_sky : 1e9;
    return ds_day_less(ds_day_less(up, side), s->has_covered > 0 ? 0 : 1e9);
}

/*
 * What evens out a face against the mean of the skin: the films on both sides of it, in the stillest air that they may
 * have, so the difference comes out large rather than small.
 */
DS_DAY_INLINE double evening_w_m2k(const ds_day_site *const s, const air_hour *const air,
                                   const face_films *const film)
{
    const double outer = ds_day_more(film->held, film->wind) + s->emissivity * air->glow_w_m2k;
    const double inner = film->held + s->inner_emissivity * air->glow_w_m2k;
    const double through = inner / (1 + s->wall_m2k_w * inner);
    return (s->outer_w_m2k > 0 ? s->outer_w_m2k : outer) + (s->inner_w_m2k > 0 ? s->inner_w_m2k : through);
}

DS_DAY_INLINE ds_day_forcing forcing_of(const ds_day_site *const s, const ds_day_films *const f,
                                        const air_hour *const air)
{
    const face_films film = face_films_of(s, f, air);
    const face_gain gain = face_gain_of(s, air, &film);
    const double sun_w = gain.up_sun * f->up_open_m2 + gain.wall_sun * s->lit_m2;
    const double sky_w = gain.up_sky * f->up_open_m2 + gain.side_sky * f->side_open_m2;
    const double apart_w_m2 = (sun_w - sky_w) / f->all_m2 - least_w_m2(s, f, &gain);
    return (ds_day_forcing){.air_c = air->air_c,
                            .sun_w = sun_w,
                            .sky_w = sky_w,
                            .wind_w_m2k = film.wind,
                            .spot_k = ds_day_more(apart_w_m2, 0) / evening_w_m2k(s, air, &film),
                            .vent_w_k = s->vent_m3_s * air->air_j_m3k,
                            .vapour_pa = air->vapour_pa};
}

DS_DAY_WIDE
static void spread(const ds_day_model *restrict const m, ds_day_forcing_lanes *restrict const out,
                   const air_hour *restrict const air)
{
    const air_hour now = *air;
    for (int i = 0; i < DS_DAY_LANES; i++) {
        const ds_day_site site = ds_day_site_at(&m->site, i);
        const ds_day_films films = ds_day_films_at(&m->films, i);
        const ds_day_forcing forcing = forcing_of(&site, &films, &now);
        ds_day_forcing_put(out, i, &forcing);
    }
}

void ds_day_forcing_of(const ds_day_model *const m, ds_day_forcing_lanes *const out,
                       const ds_weather_hour *const hour)
{
    const air_hour air = air_hour_of(hour);
    spread(m, out, &air);
}
