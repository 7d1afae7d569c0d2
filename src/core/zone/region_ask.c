/* SPDX-License-Identifier: MIT */
/* What is asked of a shape once it is made. */
#include "core/zone/region.h"

#include <math.h>

bool ds_region_encloses(const ds_region *const region, const ds_vec p)
{
    bool inside = false;
    for (size_t i = 0; i < region->rings_len; i++) {
        inside ^= ds_outline_encloses(region->rings[i].at, region->rings[i].len, p);
    }
    return inside;
}

double ds_region_distance(const ds_region *const region, const ds_vec p, ds_vec *const nearest)
{
    double least = INFINITY;
    for (size_t i = 0; i < region->rings_len; i++) {
        for (size_t k = 0; k < region->rings[i].len; k++) {
            const ds_curve *const curve = &region->rings[i].at[k];
            const ds_vec at = ds_curve_point(curve, ds_curve_nearest(curve, p));
            if (ds_vec_between(at, p) < least) {
                least = ds_vec_between(at, p);
                *nearest = at;
            }
        }
    }
    return least;
}
