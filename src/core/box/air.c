/* SPDX-License-Identifier: MIT */
/*
 * Moist air. The dew point has no closed form for the full equation: the short form gives a first value within half a
 * kelvin (four at 200 C) and Newton's steps on the logarithm, which is nearly straight in 1/K, finish it. Each step
 * squares the error, so MOST_STEPS is never reached; the last ones move the value by less than its own rounding.
 */
#include "core/box/air.h"

#include <math.h>
#include <stdbool.h>

enum { MOST_STEPS = 12 };

#define COLDEST_C (-100.0)
#define HOTTEST_C 200.0
#define COLDEST_WATER_C (-40.0)
#define HOTTEST_MAGNUS_C 50.0

/* Ratio of the molar masses of water and dry air. */
#define MASS_RATIO 0.621945

/* False also for what is not a number. */
static bool is_within(const double value, const double low, const double high)
{
    return value >= low && value <= high;
}

/* --- saturation: ln(e) and its slope over temperature ------------------------------------------------------------- */

static double log_over_water(const double k)
{
    return -5800.2206 / k + 1.3914993 + k * (-0.048640239 + k * (4.1764768e-5 - k * 1.4452093e-8)) +
           6.5459673 * log(k);
}

static double log_over_ice(const double k)
{
    return -5674.5359 / k + 6.3925247 +
           k * (-9.677843e-3 + k * (6.2215701e-7 + k * (2.0747825e-9 - k * 9.484024e-13))) +
           4.1635019 * log(k);
}

static double water_slope(const double k)
{
    return 5800.2206 / (k * k) - 0.048640239 + k * (2 * 4.1764768e-5 - k * 3 * 1.4452093e-8) + 6.5459673 / k;
}

static double ice_slope(const double k)
{
    return 5674.5359 / (k * k) - 9.677843e-3 +
           k * (2 * 6.2215701e-7 + k * (3 * 2.0747825e-9 - k * 4 * 9.484024e-13)) + 4.1635019 / k;
}

double ds_air_magnus_pa(const double temp_c)
{
    return is_within(temp_c, COLDEST_WATER_C, HOTTEST_MAGNUS_C)
               ? 611.2 * exp(17.62 * temp_c / (243.12 + temp_c))
               : NAN;
}

double ds_air_over_water_pa(const double temp_c)
{
    if (temp_c < 0) {
        return ds_air_magnus_pa(temp_c);
    }
    return is_within(temp_c, 0, HOTTEST_C) ? exp(log_over_water(temp_c + DS_AIR_KELVIN)) : NAN;
}

double ds_air_over_ice_pa(const double temp_c)
{
    return is_within(temp_c, COLDEST_C, DS_AIR_TRIPLE_C) ? exp(log_over_ice(temp_c + DS_AIR_KELVIN)) : NAN;
}

double ds_air_saturation_pa(const double temp_c)
{
    return temp_c < DS_AIR_TRIPLE_C ? ds_air_over_ice_pa(temp_c) : ds_air_over_water_pa(temp_c);
}

/* --- states of the air -------------------------------------------------------------------------------------------- */

double ds_air_vapour_pa(const double temp_c, const double humidity)
{
    return is_within(humidity, 0, 1) ? humidity * ds_air_saturation_pa(temp_c) : NAN;
}

double ds_air_weather_vapour_pa(const double temp_c, const double humidity)
{
    return is_within(humidity, 0, 1) ? humidity * ds_air_over_water_pa(temp_c) : NAN;
}

double ds_air_humidity(const double temp_c, const double vapour_pa)
{
    return is_within(vapour_pa, 0, INFINITY) ? vapour_pa / ds_air_saturation_pa(temp_c) : NAN;
}

/* Solves log_over(k) = wanted from a first value on. */
static double solve(double k, const double wanted, double (*const log_over)(double),
                    double (*const slope)(double))
{
    for (int i = 0; i < MOST_STEPS; i++) {
        const double step = (log_over(k) - wanted) / slope(k);
        k -= step;
        if (fabs(step) < 1e-10 * k) {
            break;
        }
    }
    return k;
}

double ds_air_dew_point_c(const double vapour_pa)
{
    if (!is_within(vapour_pa, ds_air_over_ice_pa(COLDEST_C), ds_air_over_water_pa(HOTTEST_C))) {
        return NAN;
    }
    const double wanted = log(vapour_pa);
    const double y = log(vapour_pa / 611.2);
    const bool frost = vapour_pa < ds_air_over_ice_pa(DS_AIR_TRIPLE_C);
    const double first = frost ? 272.62 * y / (22.46 - y) : 243.12 * y / (17.62 - y);
    const double k = frost ? solve(first + DS_AIR_KELVIN, wanted, log_over_ice, ice_slope)
                           : solve(first + DS_AIR_KELVIN, wanted, log_over_water, water_slope);
    return k - DS_AIR_KELVIN;
}

double ds_air_vapour_kg_m3(const double temp_c, const double vapour_pa)
{
    return temp_c > -DS_AIR_KELVIN && is_within(vapour_pa, 0, INFINITY)
               ? vapour_pa / (DS_AIR_VAPOUR_J_KGK * (temp_c + DS_AIR_KELVIN))
               : NAN;
}

double ds_air_saturation_kg_m3(const double temp_c)
{
    return ds_air_vapour_kg_m3(temp_c, ds_air_saturation_pa(temp_c));
}

double ds_air_mixing_ratio(const double vapour_pa, const double pressure_pa)
{
    return is_within(vapour_pa, 0, pressure_pa) && vapour_pa < pressure_pa && pressure_pa < INFINITY
               ? MASS_RATIO * vapour_pa / (pressure_pa - vapour_pa)
               : NAN;
}

/* --- air shut in a box -------------------------------------------------------------------------------------------- */

#define DIFFUSION_M2_S 2.5e-5
#define PI 3.141592653589793

static bool is_amount(const double value)
{
    return is_within(value, 0, INFINITY) && value < INFINITY;
}

static double shut_kg_m3(const double closing_c, const double humidity)
{
    return ds_air_vapour_kg_m3(closing_c, ds_air_vapour_pa(closing_c, humidity));
}

/* The dew point hardly follows the pressure: each round leaves a twentieth of the error. */
double ds_air_shut_dew_c(const double closing_c, const double humidity)
{
    const double kg_m3 = is_within(closing_c, -60, 100) ? shut_kg_m3(closing_c, humidity) : NAN;
    double dew_c = closing_c;
    for (int i = 0; i < MOST_STEPS; i++) {
        dew_c = ds_air_dew_point_c(kg_m3 * DS_AIR_VAPOUR_J_KGK * (dew_c + DS_AIR_KELVIN));
    }
    return dew_c;
}

double ds_air_settled_g(const double volume_l, const double closing_c, const double humidity,
                        const double cold_c)
{
    const double over_kg_m3 = shut_kg_m3(closing_c, humidity) - ds_air_saturation_kg_m3(cold_c);
    if (!is_amount(volume_l) || isnan(over_kg_m3)) {
        return NAN;
    }
    return over_kg_m3 > 0 ? volume_l * over_kg_m3 : 0;
}

double ds_air_drawn_l(const double volume_l, const double warm_c, const double cold_c)
{
    const bool is_cooling = cold_c > -DS_AIR_KELVIN && warm_c >= cold_c && warm_c < INFINITY;
    return is_amount(volume_l) && is_cooling ? volume_l * (warm_c - cold_c) / (warm_c + DS_AIR_KELVIN) : NAN;
}

double ds_air_drawn_g(const double volume_l, const double warm_c, const double cold_c, const double outside_c,
                      const double humidity)
{
    return ds_air_drawn_l(volume_l, warm_c, cold_c) * shut_kg_m3(outside_c, humidity);
}

double ds_air_hole_m3_h(const double diameter_mm, const double depth_mm)
{
    if (!(diameter_mm > 0 && depth_mm > 0 && diameter_mm < INFINITY && depth_mm < INFINITY)) {
        return NAN;
    }
    const double area_m2 = PI / 4 * diameter_mm * diameter_mm * 1e-6;
    return DIFFUSION_M2_S * area_m2 / (depth_mm / 1000) * 3600;
}

double ds_air_heater_w(const double w_m2k, const double area_m2, const double rise_k)
{
    return is_amount(w_m2k) && is_amount(area_m2) && is_amount(rise_k) ? w_m2k * area_m2 * rise_k : NAN;
}
