/* SPDX-License-Identifier: MIT */
/*
 * Smooth functions in pieces of a cubic, several times as fast as what they stand for; private to day*.c. A cubic goes
 * through the function at both ends and both thirds of its piece.
 *
 * Over a temperature the pieces are of one width. For a power x^(q / period) eight pieces go to an octave of x; after
 * `period` octaves the power is the same times 2^q, so that many octaves hold all numbers.
 */
#ifndef DS_BOX_DAY_CURVE_H
#define DS_BOX_DAY_CURVE_H

#include <stdint.h>
#include <string.h>

typedef struct ds_day_cubic {
    double c[4];
} ds_day_cubic;

/* t from 0 to 1 along the piece. */
static inline double ds_day_cubic_at(const ds_day_cubic *const p, const double t)
{
    return p->c[0] + t * (p->c[1] + t * (p->c[2] + t * p->c[3]));
}

static inline double ds_day_cubic_slope(const ds_day_cubic *const p, const double t)
{
    return p->c[1] + t * (2 * p->c[2] + t * 3 * p->c[3]);
}

/* --- over a temperature ------------------------------------------------------------------------------------------- */

/* Where a temperature lies: the same for all curves of one grid. Beyond the ends it is the end. */
typedef struct ds_day_spot {
    int piece;
    double t;
} ds_day_spot;

static inline ds_day_spot ds_day_spot_of(const double temp_c, const double first_c, const double per_k,
                                         const int pieces)
{
    const double x = (temp_c - first_c) * per_k;
    if (!(x > 0)) {
        return (ds_day_spot){0, 0};
    }
    if (x >= pieces) {
        return (ds_day_spot){pieces - 1, 1};
    }
    const int piece = (int)x;
    return (ds_day_spot){piece, x - piece};
}

typedef double ds_day_function(const void *ctx, double temp_c);

void ds_day_curve_fill(ds_day_cubic *out, int pieces, double first_c, double width_k, ds_day_function *f,
                       const void *ctx);

/* --- a power ------------------------------------------------------------------------------------------------------ */

enum { DS_DAY_PERIOD_MOST = 6, DS_DAY_OCTAVE = 8 };

typedef struct ds_day_power {
    ds_day_cubic pieces[DS_DAY_PERIOD_MOST * DS_DAY_OCTAVE];
} ds_day_power;

/* period 1 to 6 */
void ds_day_power_fill(ds_day_power *out, int q, int period);

/* x^(q / period) for x from 2^-60 to 2^60, anything for other x; q and period as filled, period a divisor of 60. */
static inline double ds_day_power_of(const ds_day_power *const power, const unsigned q, const unsigned period,
                                     const double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    const unsigned above = (unsigned)(bits >> 52) - (1023 - 60);
    const unsigned octave = above < 120 ? above : 119;
    const unsigned whole = octave / period;
    const unsigned eighth = (unsigned)(bits >> 49) & 7;
    const double t = (double)(int64_t)(bits & ((UINT64_C(1) << 49) - 1)) * 0x1p-49;
    const uint64_t scale_bits = (uint64_t)(whole * q + 1023 - 60 / period * q) << 52;
    double scale;
    memcpy(&scale, &scale_bits, sizeof scale);
    return scale * ds_day_cubic_at(&power->pieces[(octave - whole * period) * DS_DAY_OCTAVE + eighth], t);
}

#endif
