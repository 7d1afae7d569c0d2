/* SPDX-License-Identifier: MIT */
/* The polynomials of day_saturation.h: Newton's interpolation at Chebyshev's points, then by powers. */
#include "core/box/day_saturation.h"

#include <math.h>

#define PI 3.141592653589793
#define COLDEST_C (-100.0)
#define HOTTEST_C 199.999

enum { ORDER = DS_DAY_SATURATION_ORDER };

typedef double pressure(double temp_c);

/* Divided differences, in place: f becomes the factors of 1, (x - at[0]), (x - at[0])(x - at[1]), … */
static void divide(double f[ORDER], const double at[ORDER])
{
    for (int round = 1; round < ORDER; round++) {
        for (int i = ORDER - 1; i >= round; i--) {
            f[i] = (f[i] - f[i - 1]) / (at[i] - at[i - round]);
        }
    }
}

static void fit(ds_day_phase *const out, pressure *const over, const double low_c, const double high_c)
{
    const double cold = 1 / (low_c + DS_AIR_KELVIN);
    const double warm = 1 / (high_c + DS_AIR_KELVIN);
    double at[ORDER];
    double f[ORDER];
    out->per = 2 / (cold - warm);
    out->middle = out->per * (cold + warm) / 2;
    for (int i = 0; i < ORDER; i++) {
        at[i] = cos(PI * (i + 0.5) / ORDER);
        f[i] = log(over(out->per / (at[i] + out->middle) - DS_AIR_KELVIN));
    }
    divide(f, at);
    for (int i = 0; i < ORDER; i++) {
        out->c[i] = 0;
    }
    for (int i = ORDER - 1; i >= 0; i--) {
        for (int k = ORDER - 1; k > 0; k--) {
            out->c[k] = out->c[k - 1] - at[i] * out->c[k];
        }
        out->c[0] = f[i] - at[i] * out->c[0];
    }
}

void ds_day_saturation_make(ds_day_saturation *const out)
{
    ds_day_phase ice;
    fit(&ice, ds_air_over_ice_pa, COLDEST_C, DS_AIR_TRIPLE_C);
    fit(&out->water, ds_air_over_water_pa, DS_AIR_TRIPLE_C, HOTTEST_C);
    out->ice_more.middle = ice.middle - out->water.middle;
    out->ice_more.per = ice.per - out->water.per;
    for (int i = 0; i < ORDER; i++) {
        out->ice_more.c[i] = ice.c[i] - out->water.c[i];
    }
}
