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
