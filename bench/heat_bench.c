/* SPDX-License-Identifier: MIT */
/*
 * Steady heat of 100,000 boxes of all sizes, in one thread; medians of five runs.
 *
 *     build/release/bench/heat_bench
 *
 * - indoors: no sun, no fan; all three methods with both ends of the surface's properties, and the verdict.
 * - in the sun: the same with sunshine on the worst bearing and a light wind.
 * - with a fan: the search that divides the heat between wall and fan as well.
 */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "core/box/heat.h"

enum { RUNS = 5, BOXES = 100000 };

typedef enum kind { INDOORS, IN_THE_SUN, WITH_A_FAN, KINDS } kind;

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static int by_size(const void *const a, const void *const b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* The same numbers on every run. */
static double between(const double low, const double high)
{
    static uint64_t state = 1;
    state = state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return low + (high - low) * (double)(state >> 11) / 9007199254740992.0;
}

static void fill(ds_heat_case *const c, const kind which)
{
    size_t surfaces;
    size_t colours;
    const ds_surface *const surface = ds_surfaces(&surfaces);
    const ds_colour *const colour = ds_colours(&colours);
    *c = DS_HEAT_CASE_NOTHING;
    c->width_mm = between(100, 1200);
    c->height_mm = between(100, 2000);
    c->depth_mm = between(80, 600);
    ds_heat_mount(c, between(0, 1) < 0.7, (int)between(0, 3));
    c->surface = &surface[(size_t)between(0, (double)surfaces)];
    c->colour = &colour[(size_t)between(0, (double)colours)];
    c->watts = between(2, 300) * c->width_mm * c->height_mm * 1e-6;
    c->air_c = between(-10, 45);
    c->openings = DS_HEAT_CLOSED;
    c->sun_flat_w_m2 = which == IN_THE_SUN ? between(100, 1000) : 0;
    c->sun_wall_w_m2 = which == IN_THE_SUN ? between(100, 700) : 0;
    c->wind_m_s = which == IN_THE_SUN ? between(0, 4) : NAN;
    c->fan_m3_h = which == WITH_A_FAN ? between(5, 200) : NAN;
    c->fan_factor = 0.7;
}

static void report(const char *const what, const ds_heat_case *const boxes)
{
    double runs[RUNS];
    size_t verdicts[DS_BARRED] = {0};
    double worst_balance = 0;
    for (int run = 0; run < RUNS; run++) {
        ds_heat_answer answer;
        const double start = now_s();
        for (size_t i = 0; i < BOXES; i++) {
            ds_heat_solve(&answer, &boxes[i]);
            verdicts[ds_heat_judge(&answer, 60, NULL)]++;
            worst_balance = fmax(worst_balance, fabs(answer.worst.balance));
        }
        runs[run] = now_s() - start;
    }
    qsort(runs, RUNS, sizeof *runs, by_size);
    printf("100,000 boxes, %-12s %6.0f ms; %zu fit 60 C, %zu short, %zu unknown; balance within %.0e\n", what,
           runs[RUNS / 2] * 1e3, verdicts[DS_FITS] / RUNS, verdicts[DS_SHORT] / RUNS,
           verdicts[DS_UNKNOWN] / RUNS, worst_balance);
}

int main(void)
{
    static const char *const WHAT[KINDS] = {"indoors", "in the sun", "with a fan"};
    ds_heat_case *const boxes = calloc(BOXES, sizeof *boxes);
    if (!boxes) {
        fprintf(stderr, "out of memory\n");
        return 2;
    }
    for (int which = 0; which < KINDS; which++) {
        for (size_t i = 0; i < BOXES; i++) {
            fill(&boxes[i], (kind)which);
        }
        report(WHAT[which], boxes);
    }
    free(boxes);
    return 0;
}
