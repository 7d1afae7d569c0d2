/* SPDX-License-Identifier: MIT */
/*
 * Two linear equations y' = f + J (y - y0) + ft t, solved exactly on the eigenvectors of J; for the step of day_step.c,
 * and private to it.
 *
 * With phi0 = exp, phi(n+1)(z) = (phi(n)(z) - 1/n!) / z, y - y0 = s phi1(sJ) f + s^2 phi2(sJ) ft after s seconds. J has
 * two real eigenvalues, since either node warms the other, so a function of J is one number along each eigenvector.
 */
#ifndef DS_BOX_DAY_MODES_H
#define DS_BOX_DAY_MODES_H

#include <math.h>
#include <stdbool.h>

#include "core/box/day_lanes.h"

/* --- the functions phi -------------------------------------------------------------------------------------------- */

typedef struct phis {
    double one, two, three, four, five;
} phis;

/* Near 0 the definition loses its digits; there phi5 comes from its series and the others from it. */
DS_DAY_INLINE phis phis_of(const double z, const double exp_z)
{
    const bool is_near = z > -0.1 && z < 0.1;
    const double five =
        1 / 120.0 + z * (1 / 720.0 + z * (1 / 5040.0 + z * (1 / 40320.0 + z * (1 / 362880.0))));
    const double four = 1 / 24.0 + z * five;
    const double three = 1 / 6.0 + z * four;
    const double two = 0.5 + z * three;
    const double per_z = 1 / (is_near ? 1 : z);
    const double far_one = (exp_z - 1) * per_z;
    const double far_two = (far_one - 1) * per_z;
    const double far_three = (far_two - 0.5) * per_z;
    const double far_four = (far_three - 1 / 6.0) * per_z;
    const double far_five = (far_four - 1 / 24.0) * per_z;
    return (phis){is_near ? 1 + z * two : far_one, is_near ? two : far_two, is_near ? three : far_three,
                  is_near ? four : far_four, is_near ? five : far_five};
}

/* --- two nodes and two modes -------------------------------------------------------------------------------------- */

typedef struct pair {
    double skin, inside;
} pair;

/* Row, column: what the skin gets from the skin, the skin from the inside, … */
typedef struct matrix {
    double ss, si, is, ii;
} matrix;

/* Along one eigenvector of J, whose part of the skin is 1. */
typedef struct mode {
    double inside;
    double z, exp_half; /* h times the eigenvalue */
    phis phi;
    double rate, time; /* f and ft */
} mode;

typedef struct modes {
    mode slow, fast;
    double per; /* one over the difference of their parts of the inside */
    double h;
} modes;

/* Numbers along the two modes. */
typedef struct split {
    double slow, fast;
} split;

DS_DAY_INLINE split split_of(const modes *const m, const pair v)
{
    const double slow = (v.inside - m->fast.inside * v.skin) * m->per;
    return (split){slow, v.skin - slow};
}

DS_DAY_INLINE pair joined(const modes *const m, const split s)
{
    return (pair){s.slow + s.fast, m->slow.inside * s.slow + m->fast.inside * s.fast};
}

DS_DAY_INLINE void set_mode(mode *const m, const matrix *const j, const double per_si, const double rate,
                            const double h)
{
    m->inside = (rate - j->ss) * per_si;
    m->z = rate * h;
    m->exp_half = ds_day_exp(m->z / 2);
    m->phi = phis_of(m->z, m->exp_half * m->exp_half);
}

DS_DAY_INLINE void set_modes(modes *const m, const matrix *const j, const double h, const pair rate,
                             const pair by_time)
{
    const double middle = (j->ss + j->ii) / 2;
    const double half = (j->ss - j->ii) / 2;
    const double root = sqrt(half * half + j->si * j->is);
    m->h = h;
    const double per_si = 1 / j->si;
    set_mode(&m->slow, j, per_si, middle + root, h);
    set_mode(&m->fast, j, per_si, middle - root, h);
    m->per = 1 / (m->slow.inside - m->fast.inside);
    const split rates = split_of(m, rate);
    const split times = split_of(m, by_time);
    m->slow.rate = rates.slow;
    m->fast.rate = rates.fast;
    m->slow.time = times.slow;
    m->fast.time = times.fast;
}

/* Along the tangent after s seconds. */
DS_DAY_INLINE double tangent_of(const mode *const m, const phis *const phi, const double s)
{
    return s * (phi->one * m->rate + s * phi->two * m->time);
}

/* The integral of the whole step along one mode, with the factors of the correction. */
DS_DAY_INLINE double integral_of(const mode *const m, const double h, const double square, const double cube)
{
    return h * h *
           (m->phi.two * m->rate + h * m->phi.three * m->time + m->phi.four * square + m->phi.five * cube);
}

#endif
