/* SPDX-License-Identifier: MIT */
/*
 * The correlations as written in the header, and the tables of surfaces.
 *
 * Properties of air: the 35 C values of the textbook table, carried to other temperatures by lines through the same
 * table's 0, 20, 50 and 100 C rows (memory: heat-transfer textbook, air at 1 atm); within 0.5 % of it from 0 to 100 C.
 * The two power laws of a free face cross at Ra = (0.54 / 0.15)^12 = 4.7e6; books change over at 1e7, where they differ
 * by 6 %. The larger one keeps h continuous, without which a heat balance could have no answer.
 */
#include "core/box/film.h"

#include <math.h>

#define KELVIN 273.15
#define LOWEST_C (-100.0)
#define HIGHEST_C 400.0

/* --- air against a plate ------------------------------------------------------------------------------------------ */

double ds_film_nusselt_vertical(const double rayleigh)
{
    /* (1 + (0.492 / Pr)^(9/16))^(8/27) for the one Prandtl number of the header */
    static const double PRANDTL_TERM = 1.1908210038404878;
    const double root = 0.825 + 0.387 * sqrt(cbrt(rayleigh)) / PRANDTL_TERM;
    return root * root;
}

double ds_film_nusselt_free(const double rayleigh)
{
    const double laminar = 0.54 * sqrt(sqrt(rayleigh));
    return rayleigh < 4.7e6 ? laminar : fmax(laminar, 0.15 * cbrt(rayleigh));
}

double ds_film_nusselt_held(const double rayleigh)
{
    return 0.27 * sqrt(sqrt(rayleigh));
}

static bool is_usable(const double surface_c, const double air_c, const double length_m)
{
    return surface_c >= LOWEST_C && surface_c <= HIGHEST_C && air_c >= LOWEST_C && air_c <= HIGHEST_C &&
           length_m > 0 && isfinite(length_m);
}

typedef double nusselt(double rayleigh);

static double film_by(nusselt *const law, const double surface_c, const double air_c, const double length_m)
{
    if (!is_usable(surface_c, air_c, length_m)) {
        return NAN;
    }
    const ds_film_air air = ds_film_air_at((surface_c + air_c) / 2);
    return law(ds_film_rayleigh(&air, fabs(surface_c - air_c), length_m)) * air.conductivity_w_mk / length_m;
}

double ds_film_vertical_w_m2k(const double surface_c, const double air_c, const double length_m)
{
    return film_by(ds_film_nusselt_vertical, surface_c, air_c, length_m);
}

double ds_film_up_w_m2k(const double surface_c, const double air_c, const double length_m)
{
    nusselt *const law = surface_c >= air_c ? ds_film_nusselt_free : ds_film_nusselt_held;
    return film_by(law, surface_c, air_c, length_m);
}

double ds_film_down_w_m2k(const double surface_c, const double air_c, const double length_m)
{
    return ds_film_up_w_m2k(air_c, surface_c, length_m);
}

double ds_film_wind_w_m2k(const double wind_m_s, const double surface_c, const double air_c,
                          const double length_m)
{
    static const double PRANDTL_ROOT = 0.8990937379443854; /* cube root of Pr */
    if (!is_usable(surface_c, air_c, length_m) || !(wind_m_s >= 0) || isinf(wind_m_s)) {
        return NAN;
    }
    const ds_film_air air = ds_film_air_at((surface_c + air_c) / 2);
    const double reynolds = wind_m_s * length_m / air.viscosity_m2_s;
    const double nusselt_by_wind = PRANDTL_ROOT * fmax(0.664 * sqrt(reynolds), 0.037 * pow(reynolds, 0.8));
    return nusselt_by_wind * air.conductivity_w_mk / length_m;
}

/* --- radiation ---------------------------------------------------------------------------------------------------- */

double ds_film_radiation_w_m2k(const double emissivity, const double a_c, const double b_c)
{
    if (!(emissivity >= 0 && emissivity <= 1) || !is_usable(a_c, b_c, 1)) {
        return NAN;
    }
    const double a = a_c + KELVIN;
    const double b = b_c + KELVIN;
    return emissivity * DS_FILM_STEFAN_W_M2K4 * (a * a + b * b) * (a + b);
}

double ds_film_sky_c(const double air_c)
{
    const double air = air_c + KELVIN;
    return air > 0 ? 0.0552 * air * sqrt(air) - KELVIN : NAN;
}

double ds_film_sky_mild_c(const double air_c)
{
    return air_c - 6;
}

static double fourth(const double kelvin)
{
    return kelvin * kelvin * kelvin * kelvin;
}

static bool can_cool(const double air_c, const double sky_c, const double emissivity, const double sky_view,
                     const double air_w_m2k)
{
    return is_usable(air_c, air_c, 1) && sky_c > -KELVIN && sky_c <= air_c && emissivity >= 0 &&
           emissivity <= 1 && sky_view >= 0 && sky_view <= 1 && air_w_m2k > 0 && isfinite(air_w_m2k);
}

/*
 * The loss a T^4 + h T less what comes in is convex and rising, and above 0 at the air's temperature: Newton's steps from
 * there only ever go down to the answer, and stop when rounding lets none go further.
 */
double ds_film_night_drop_k(const double air_c, const double sky_c, const double emissivity,
                            const double sky_view, const double air_w_m2k)
{
    if (!can_cool(air_c, sky_c, emissivity, sky_view, air_w_m2k)) {
        return NAN;
    }
    const double air = air_c + KELVIN;
    const double glow = emissivity * DS_FILM_STEFAN_W_M2K4;
    const double gain =
        glow * (sky_view * fourth(sky_c + KELVIN) + (1 - sky_view) * fourth(air)) + air_w_m2k * air;
    double surface = air;
    for (double before = INFINITY; surface < before;) {
        before = surface;
        const double slope = 4 * glow * surface * surface * surface + air_w_m2k;
        surface -= (glow * fourth(surface) + air_w_m2k * surface - gain) / slope;
    }
    return fmax(air - surface, 0);
}

/* --- sun ---------------------------------------------------------------------------------------------------------- */

double ds_film_tilted_w_m2(const double flat_w_m2, const double wall_w_m2, const double tilt_deg)
{
    static const double RADIANS = 0.017453292519943295;
    if (!(flat_w_m2 >= 0 && wall_w_m2 >= 0 && tilt_deg >= 0 && tilt_deg <= 90)) {
        return NAN;
    }
    return flat_w_m2 * cos(tilt_deg * RADIANS) + wall_w_m2 * sin(tilt_deg * RADIANS);
}

/* --- named surfaces ----------------------------------------------------------------------------------------------- */

/*
 * Emissivities: paint 0.85 to 0.95 of any colour, plastic 0.9, anodised 0.55 to 0.97, bare aluminium sheet 0.09, polished
 * 0.05 (published tables). From memory: galvanised 0.2 to 0.3, stainless 0.1 to 0.3, aluminium paint, all conductivities.
 * Absorptances: new galvanised 0.64 against 0.79 measured on sheet in use, aluminium foil 0.19, aluminium paint 0.55,
 * bare grey oxide 0.87 (published). One value seen is taken plus and minus 0.05 (common practice).
 * Trade k: painted steel 5.5 (published twice), plastic 3.5, bare stainless 3.7 and aluminium 12 (published once). 12 is
 * not credible: films of air limit the flow, not the metal. Painted aluminium counts as painted steel for that reason.
 */
#define BY_COLOUR                                                                                            \
    {                                                                                                        \
        NAN, NAN                                                                                             \
    }

static const ds_surface SURFACES[] = {
    {"painted-steel",
     {0.85, 0.95},
     BY_COLOUR,
     {45, 60},
     1.5,
     5.5,
     DS_TRADE_DECIDES,
     "published: emissivity table for paints; trade k 5.5 in an engineering manual"},
    {"painted-aluminium",
     {0.85, 0.95},
     BY_COLOUR,
     {120, 220},
     2,
     5.5,
     DS_TRADE_DECIDES,
     "published: emissivity table for paints; trade k as painted steel, since films limit the flow"},
    {"plastic",
     {0.85, 0.95},
     BY_COLOUR,
     {0.15, 0.25},
     3,
     3.5,
     DS_TRADE_DECIDES,
     "published: emissivity table for plastics; trade k 3.5 in a trade article, a safety figure"},
    {"grp",
     {0.85, 0.95},
     BY_COLOUR,
     {0.2, 0.35},
     3,
     3.5,
     DS_TRADE_DECIDES,
     "as plastic: emissivity table, trade k 3.5; conductivity from memory"},
    {"stainless",
     {0.1, 0.3},
     {0.4, 0.55},
     {14, 17},
     1.5,
     3.7,
     DS_TRADE_DECIDES,
     "memory: heat-transfer texts; trade k 3.7 in a trade article"},
    {"galvanised",
     {0.2, 0.3},
     {0.59, 0.79},
     {45, 60},
     1.5,
     NAN,
     DS_TRADE_NONE,
     "published: absorptance tables; emissivity from memory"},
    {"galvanised-weathered",
     {0.2, 0.9},
     {0.79, 0.92},
     {45, 60},
     1.5,
     NAN,
     DS_TRADE_NONE,
     "published: absorptance of sheet in use and of grey oxide; emissivity from memory, wide"},
    {"aluminium",
     {0.05, 0.14},
     {0.19, 0.45},
     {120, 220},
     2,
     12,
     DS_TRADE_SHOWN,
     "published: emissivity of sheet, absorptance of foil; upper absorptance from memory; trade k 12 is not "
     "credible"},
    {"aluminium-anodised",
     {0.55, 0.97},
     BY_COLOUR,
     {120, 220},
     2,
     12,
     DS_TRADE_SHOWN,
     "published: emissivity table; trade k 12 is not credible"},
    {"aluminium-paint",
     {0.27, 0.67},
     {0.5, 0.6},
     {45, 60},
     1.5,
     NAN,
     DS_TRADE_NONE,
     "published: absorptance table; emissivity from memory"},
};

/*
 * White is 0.19 to 0.30 when clean (published tables of paints) and measured as 0.66 on roof sheet in use, which is dirt
 * and a simple method; 0.5 is a usual figure for aged white. Yellow, red, brown and black from the same measurement.
 */
static const ds_colour COLOURS[] = {
    {"white-clean", {0.19, 0.30}, "published: absorptance tables of paints, clean"},
    {"white", {0.19, 0.66}, "published: absorptance tables, clean, and sheet measured in use"},
    {"cream", {0.25, 0.66}, "published: absorptance table; soiled as white (common practice)"},
    {"yellow", {0.73, 0.83}, "published: sheet measured in use, 0.78"},
    {"light-grey", {0.50, 0.75}, "published: absorptance tables"},
    {"mid-grey", {0.70, 0.87}, "published: absorptance tables; lower end common practice"},
    {"dark-grey", {0.85, 0.95}, "memory: heat-transfer texts"},
    {"light-green", {0.45, 0.70}, "published: absorptance table, 0.50; soiled (common practice)"},
    {"dark-green", {0.85, 0.95}, "memory: heat-transfer texts"},
    {"blue", {0.75, 0.92}, "memory: heat-transfer texts"},
    {"red", {0.80, 0.90}, "published: sheet measured in use, 0.85"},
    {"brown", {0.83, 0.93}, "published: sheet measured in use, 0.88"},
    {"black", {0.92, 0.975}, "published: absorptance table 0.975; sheet measured in use 0.92"},
};

enum { SURFACES_LEN = sizeof SURFACES / sizeof *SURFACES, COLOURS_LEN = sizeof COLOURS / sizeof *COLOURS };

const ds_surface *ds_surface_of(const ds_str name)
{
    for (size_t i = 0; i < SURFACES_LEN; i++) {
        if (ds_str_is(name, SURFACES[i].name)) {
            return &SURFACES[i];
        }
    }
    return NULL;
}

const ds_surface *ds_surfaces(size_t *const len)
{
    *len = SURFACES_LEN;
    return SURFACES;
}

const ds_colour *ds_colour_of(const ds_str name)
{
    for (size_t i = 0; i < COLOURS_LEN; i++) {
        if (ds_str_is(name, COLOURS[i].name)) {
            return &COLOURS[i];
        }
    }
    return NULL;
}

const ds_colour *ds_colours(size_t *const len)
{
    *len = COLOURS_LEN;
    return COLOURS;
}
