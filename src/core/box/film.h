/* SPDX-License-Identifier: MIT */
/*
 * How much heat the surface of a box gives off: to the air, to the things around it, to a clear sky; and what its paint
 * or metal makes of sunshine.
 *
 *     const double air = ds_film_vertical_w_m2k(35, 25, 0.6);      the side of a box, 0.6 m tall, 10 K warmer: 3.2
 *     const double glow = ds_film_radiation_w_m2k(0.9, 35, 25);    the same side radiating: 5.4
 *     heat from one square metre: (air + glow) x 10 K
 *
 * A film coefficient h is watts per square metre and kelvin. Temperatures in degrees Celsius, lengths in metres. What is
 * not finite gives NAN, and so does a length that is not above 0 or a temperature outside -100 to 400 C. Surface and air
 * of one temperature give 0 except on a vertical face, whose formula ends at plain conduction.
 *
 * Formulas: natural convection by Churchill and Chu (vertical, any Rayleigh number) and by the power laws of the
 * textbooks for plates (0.54 Ra^(1/4), 0.15 Ra^(1/3), 0.27 Ra^(1/4)), with Ra = g beta dT L^3 Pr / nu^2 and h = Nu k / L.
 * Properties of air at the mean of surface and air, from 0.02625 W/mK, 1.655e-5 m2/s and Pr 0.7268 at 35 C (textbook
 * table of air at 1 atm). Correlations of this kind are good to about 15 %; tables of air differ by 1 to 3 %.
 */
#ifndef DS_BOX_FILM_H
#define DS_BOX_FILM_H

#include "core/rules/facts.h"

#define DS_FILM_GRAVITY_M_S2 9.81
#define DS_FILM_STEFAN_W_M2K4 5.67e-8
#define DS_FILM_PRANDTL 0.7268
#define DS_FILM_REFERENCE_C 35.0 /* of the properties of air */

/* --- air against a plate ------------------------------------------------------------------------------------------ */

/* Still air at the mean of surface and air. The Prandtl number is taken as one value: 0.736 at 0 C, 0.711 at 100 C. */
typedef struct ds_film_air {
    double conductivity_w_mk;
    double viscosity_m2_s; /* kinematic */
    double kelvin;         /* one over its expansion */
} ds_film_air;

static inline ds_film_air ds_film_air_at(const double film_c)
{
    const double x = film_c - DS_FILM_REFERENCE_C;
    return (ds_film_air){.conductivity_w_mk = 0.02625 * (1 + 0.00279 * x),
                         .viscosity_m2_s = 1.655e-5 * (1 + x * (0.0056752 + 5.789e-6 * x)),
                         .kelvin = film_c + 273.15};
}

/* The Rayleigh number of a plate; difference and length both above or equal 0. */
static inline double ds_film_rayleigh(const ds_film_air *const air, const double difference_k,
                                      const double length_m)
{
    const double buoyancy = DS_FILM_GRAVITY_M_S2 * difference_k * length_m * length_m * length_m;
    return buoyancy * DS_FILM_PRANDTL / (air->kelvin * air->viscosity_m2_s * air->viscosity_m2_s);
}

/*
 * Nusselt numbers by Rayleigh number. "Free" is a hot face that looks up or a cold one that looks down: its air leaves;
 * "held" is the other way round. The two laws of a free face meet at Ra = 4.7e6, the larger one counts.
 */
double ds_film_nusselt_vertical(double rayleigh);
double ds_film_nusselt_free(double rayleigh);
double ds_film_nusselt_held(double rayleigh);

/* A standing plate; length is its height. */
double ds_film_vertical_w_m2k(double surface_c, double air_c, double length_m);

/* A lying plate whose face looks up, or down, hot or cold; length is its area over its perimeter. */
double ds_film_up_w_m2k(double surface_c, double air_c, double length_m);
double ds_film_down_w_m2k(double surface_c, double air_c, double length_m);

/*
 * Wind along a plate of this length: 0.037 Re^0.8 Pr^(1/3), turbulent from the edge as outdoor air is, and the laminar
 * 0.664 Re^(1/2) Pr^(1/3) where that is more (memory: heat-transfer texts). 0 in a calm. Take the larger of this and
 * the film of still air.
 */
double ds_film_wind_w_m2k(double wind_m_s, double surface_c, double air_c, double length_m);

/* --- radiation ---------------------------------------------------------------------------------------------------- */

/* The exact form eps sigma (a^2 + b^2)(a + b) in kelvin, which times (a - b) is eps sigma (a^4 - b^4). */
double ds_film_radiation_w_m2k(double emissivity, double a_c, double b_c);

/*
 * The sky as a radiator: Swinbank's 0.0552 K^1.5, far colder than what small boxes are seen to answer to; and Whiller's
 * air less 6 K.
 */
double ds_film_sky_c(double air_c);
double ds_film_sky_mild_c(double air_c);

/*
 * How far a dry surface without heat of its own falls below the air on a clear night, K, 0 or more:
 * eps sigma (F (Ts^4 - Tsky^4) + (1-F)(Ts^4 - Ta^4)) = h (Ta - Ts), with F the share of what it sees that is sky (flat
 * top 1, side 0.5, under a roof 0) and h the film of the air, above 0. With Swinbank's sky it overstates: field reports
 * say 3 to 5 K for a top, 1 to 3 K for a side.
 */
double ds_film_night_drop_k(double air_c, double sky_c, double emissivity, double sky_view, double air_w_m2k);

/* --- sun ---------------------------------------------------------------------------------------------------------- */

/*
 * Sunshine on a plane tilted towards the sun by an angle from the flat (0 to 90), from that on the flat and on a wall
 * facing it: flat cos + wall sin, exact for the direct beam. NAN for a negative flux or another angle.
 */
double ds_film_tilted_w_m2(double flat_w_m2, double wall_w_m2, double tilt_deg);

/* --- named surfaces ----------------------------------------------------------------------------------------------- */

typedef enum ds_trade_use {
    DS_TRADE_NONE,    /* no published k for this surface */
    DS_TRADE_DECIDES, /* published, and it agrees with the films */
    DS_TRADE_SHOWN    /* published and not credible: shown, never decides */
} ds_trade_use;

/* What a box is made of, as its outside. */
typedef struct ds_surface {
    const char *name;
    ds_span emissivity;
    ds_span absorptance; /* of sunshine; NAN where the colour decides */
    ds_span wall_w_mk;   /* conductivity of the wall */
    double wall_mm;      /* thickness of a usual wall of the kind */
    double trade_w_m2k;  /* k of the trade formula; NAN without one */
    ds_trade_use trade;
    const char *source;
} ds_surface;

/* "painted-steel", "plastic", …; NULL when the name is not known. */
const ds_surface *ds_surface_of(ds_str name);

/* The whole list, for help and for the nearest name to a misspelt one. */
const ds_surface *ds_surfaces(size_t *len);

/* The absorptance of a colour of paint or plastic; low is clean and new, high is soiled and aged. */
typedef struct ds_colour {
    const char *name;
    ds_span absorptance;
    const char *source;
} ds_colour;

/* "white", "light-grey", …; NULL when the name is not known. */
const ds_colour *ds_colour_of(ds_str name);
const ds_colour *ds_colours(size_t *len);

#endif
