/* SPDX-License-Identifier: MIT */
/*
 * Moist air: how much vapour air can hold, and when it sweats.
 *
 *     const double vapour_pa = ds_air_vapour_pa(20, 0.6);     20 C at 60 %: 1403 Pa
 *     ds_air_dew_point_c(vapour_pa);                          12.0 C: a wall colder than this sweats
 *     ds_air_vapour_kg_m3(20, vapour_pa);                     0.0104 kg of vapour in a cubic metre
 *
 * Temperatures in degrees Celsius, pressures in pascal, humidity as a share (0.6 is 60 %). Each function states its
 * range; outside it, and for what is not finite, the answer is NAN, never a guess.
 *
 * Formulas: saturation by Hyland and Wexler 1983 as in ASHRAE Fundamentals, chapter 1 (coefficients from memory, held
 * against its tables 2 and 3 and against psychrolib in the tests: within 0.05 % of the tables). Below 0 C two surfaces
 * are possible, ice and supercooled water; the latter by Magnus with the constants of the World Meteorological
 * Organization (611.2 Pa, 17.62, 243.12 C). Air and vapour are ideal gases; what real gases add (0.4 % of the mixing
 * ratio at 25 C, 0.6 % at 50 C) is left out.
 */
#ifndef DS_BOX_AIR_H
#define DS_BOX_AIR_H

#define DS_AIR_KELVIN 273.15
#define DS_AIR_TRIPLE_C 0.01

/* Gas constant of water vapour, J/kgK, and standard pressure, Pa. */
#define DS_AIR_VAPOUR_J_KGK 461.5
#define DS_AIR_STANDARD_PA 101325.0

/* --- saturation --------------------------------------------------------------------------------------------------- */

/* Over liquid water, -40 to 200 C; supercooled below 0 C. */
double ds_air_over_water_pa(double temp_c);

/* Over ice, -100 to 0.01 C. */
double ds_air_over_ice_pa(double temp_c);

/* Over what is stable: ice below the triple point (0.01 C), else water; -100 to 200 C. */
double ds_air_saturation_pa(double temp_c);

/*
 * The short form that a designer can follow by hand: 611.2 exp(17.62 T / (243.12 + T)), over water, -40 to 50 C; within
 * 0.31 % of the full one above 0 C.
 */
double ds_air_magnus_pa(double temp_c);

/* --- states of the air -------------------------------------------------------------------------------------------- */

/* Vapour pressure of air at this temperature (-100 to 200 C) and humidity (0 to 1), over what is stable. */
double ds_air_vapour_pa(double temp_c, double humidity);

/* The same with humidity as weather stations give it: over water, frost or not; -40 to 200 C. */
double ds_air_weather_vapour_pa(double temp_c, double humidity);

/* Vapour pressure (0 and more) over saturation, -100 to 200 C: more than 1 is air that must shed water. */
double ds_air_humidity(double temp_c, double vapour_pa);

/* The temperature at which this vapour begins to settle, as dew or below 0.01 C as frost; for -100 to 200 C. */
double ds_air_dew_point_c(double vapour_pa);

/* Mass of vapour in a cubic metre: e / (461.5 K). Vapour 0 and more, above -273.15 C. */
double ds_air_vapour_kg_m3(double temp_c, double vapour_pa);

/* What a cubic metre can hold, -100 to 200 C. */
double ds_air_saturation_kg_m3(double temp_c);

/* Kilograms of vapour to one of dry air: 0.621945 e / (p - e); vapour 0 and more, below the pressure. */
double ds_air_mixing_ratio(double vapour_pa, double pressure_pa);

/* --- air shut in a box -------------------------------------------------------------------------------------------- */

/*
 * Closed at this temperature and humidity (0 to 1), a tight box keeps its vapour per cubic metre. The wall temperature at
 * which some of it begins to settle; a little below the dew point at closing, because pressure falls with the air's own
 * temperature; -60 to 100 C. NAN for dry air.
 */
double ds_air_shut_dew_c(double closing_c, double humidity);

/* Grams that settle on a wall at cold_c, dew or frost; 0 when it stays dry. Litres of free air, 0 and more. */
double ds_air_settled_g(double volume_l, double closing_c, double humidity, double cold_c);

/*
 * A box that breathes draws in V (1 - Tcold / Twarm), in kelvin, when it cools; in litres, and the grams of vapour in that
 * air as it is outside. A ceiling for the day's gain by breathing; liquid water sucked in is hundreds of times as much.
 */
double ds_air_drawn_l(double volume_l, double warm_c, double cold_c);
double ds_air_drawn_g(double volume_l, double warm_c, double cold_c, double outside_c, double humidity);

/*
 * What still air in a round hole lets pass by diffusion (2.5e-5 m2/s, vapour in air at 25 C), as m3 of air whose vapour is
 * exchanged: times the difference of kg/m3 it is kilograms an hour. Millimetres, above 0.
 */
double ds_air_hole_m3_h(double diameter_mm, double depth_mm);

/* Heat that keeps an area so many kelvin over the air, k A dT; 5 K against condensation is common practice. 0 and more. */
double ds_air_heater_w(double w_m2k, double area_m2, double rise_k);

#endif
