/* SPDX-License-Identifier: MIT */
/* Filling the curves of day_curve.h. */
#include "core/box/day_curve.h"

#include <math.h>

/* f at t = 0, 1/3, 2/3 and 1. */
static ds_day_cubic cubic_through(const double f[4])
{
    return (ds_day_cubic){{f[0], -5.5 * f[0] + 9 * f[1] - 4.5 * f[2] + f[3],
                           9 * f[0] - 22.5 * f[1] + 18 * f[2] - 4.5 * f[3],
                           4.5 * (f[3] - f[0]) + 13.5 * (f[1] - f[2])}};
}

void ds_day_curve_fill(ds_day_cubic *const out, const int pieces, const double first_c, const double width_k,
                       ds_day_function *const f, const void *const ctx)
{
    double at[4] = {f(ctx, first_c)};
    for (int i = 0; i < pieces; i++) {
        for (int third = 1; third <= 3; third++) {
            at[third] = f(ctx, first_c + (i + third / 3.0) * width_k);
        }
        out[i] = cubic_through(at);
        at[0] = at[3];
    }
}

void ds_day_power_fill(ds_day_power *const out, const int q, const int period)
{
    const double exponent = (double)q / period;
    for (int i = 0; i < period * DS_DAY_OCTAVE; i++) {
        const double start = ldexp(1, i / DS_DAY_OCTAVE);
        double at[4];
        for (int third = 0; third <= 3; third++) {
            const double share = (i % DS_DAY_OCTAVE + third / 3.0) / DS_DAY_OCTAVE;
            at[third] = pow(start * (1 + share), exponent);
        }
        out->pieces[i] = cubic_through(at);
    }
}
