/* SPDX-License-Identifier: MIT */
/* What the bench programs share: the clock, and the middle of some runs. */
#ifndef DS_BENCH_H
#define DS_BENCH_H

#include <stdlib.h>
#include <time.h>

static inline double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static inline int by_size(const void *const a, const void *const b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Sorts the runs; their number is odd. */
static inline double median(double *const runs, const size_t len)
{
    qsort(runs, len, sizeof *runs, by_size);
    return runs[len / 2];
}

#endif
