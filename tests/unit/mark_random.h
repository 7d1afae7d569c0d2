/* SPDX-License-Identifier: MIT */
/* Random claims for the tests of mark/, the same ones on every run. */
#ifndef MARK_RANDOM_H
#define MARK_RANDOM_H

#include "core/mark/mark.h"

typedef struct mark_random {
    uint64_t state;
} mark_random;

static inline unsigned mark_below(mark_random *const r, const unsigned limit)
{
    r->state = r->state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (unsigned)(r->state >> 33) % limit;
}

static inline double mark_pick(mark_random *const r, const double *const list, const unsigned len)
{
    return list[mark_below(r, len)];
}

static inline ds_claim mark_random_claim(mark_random *const r)
{
    static const double DEPTHS[] = {0, 0.5, 1, 1.01, 2, 10, 50.5, 118, 600};
    static const double MINUTES[] = {0, 10, 30, 31, 60, 90, 1440, 10080, 700000};
    ds_claim claim = DS_CLAIM_NOTHING;
    claim.objects = (int8_t)((int)mark_below(r, 8) - 1);
    claim.objects_foreign = mark_below(r, 4) == 0;
    claim.access = (char)(mark_below(r, 3) ? 0 : 'A' + (int)mark_below(r, 4));
    claim.water_stated = mark_below(r, 5) != 0;
    if (claim.water_stated) {
        claim.water = (uint16_t)(mark_below(r, 3) ? 1U << mark_below(r, 10) : mark_below(r, 1024));
        claim.water_foreign =
            (uint16_t)(mark_below(r, 5) ? 0 : mark_below(r, 1024) & (1U << 4 | 1U << 6 | 1U << 9));
    }
    claim.impact = (int8_t)(mark_below(r, 2) ? -1 : (int)mark_below(r, 12));
    claim.depth_m = mark_pick(r, DEPTHS, 9);
    claim.minutes = mark_pick(r, MINUTES, 9);
    return claim;
}

static inline ds_mark mark_random_mark(mark_random *const r)
{
    const ds_claim claim = mark_random_claim(r);
    return ds_mark_from(&claim);
}

static inline ds_need mark_random_need(mark_random *const r)
{
    ds_claim claim = mark_random_claim(r);
    claim.impact = (int8_t)(mark_below(r, 8) ? claim.impact : DS_IMPACT_BEYOND);
    return ds_need_from(&claim);
}

#endif
