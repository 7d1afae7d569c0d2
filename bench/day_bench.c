/* SPDX-License-Identifier: MIT */
/*
 * The day model over a year: 1,000 boxes of different size, wall, load, seal and heater through 8,760 hours of one made-up
 * weather, in one thread. Seconds of processor, the median of three runs; how far the inside comes away, at its worst hour,
 * from a run of every 25th box with a hundredth of the tolerance; and the same box by box.
 *
 *     build/release/bench/day_bench
 */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "core/box/day.h"

enum { RUNS = 3, BOXES = 1000, EVERY = 25, SOME = BOXES / EVERY, HOURS = 8760 };

/* That of day.h for a year. */
#define TOLERANCE_K 0.03

static double now_s(void)
{
    struct timespec t;
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static int by_size(const void *const a, const void *const b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

/* The same numbers on every run, from 0 to below 1. */
static double share(void)
{
    static uint64_t state = 1;
    state = state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (double)(state >> 33) / (double)(UINT64_C(1) << 31);
}

static double between(const double low, const double high)
{
    return low + (high - low) * share();
}

/* --- weather ------------------------------------------------------------------------------------------------------ */

/* A temperate year: seasons, days that drift from it, clouds that come and go. */
static void make_weather(ds_weather_hour *const hours)
{
    double drift_k = 0;
    double clear = 0.5;
    for (int hour = 0; hour < HOURS; hour++) {
        const double season = -cos(2 * M_PI * (hour / 24.0 - 20) / 365);
        const double of_day = sin(M_PI * (hour % 24 - 6) / 12);
        drift_k = 0.99 * drift_k + between(-0.5, 0.5);
        clear = fmin(fmax(clear + between(-0.2, 0.2), 0), 1);
        const double sun = fmax(of_day + 0.3 * season, 0) * (250 + 550 * clear);
        const double air_c = 10 + 8 * season + (2 + 3 * clear) * of_day + drift_k;
        hours[hour] = (ds_weather_hour){.air_c = air_c,
                                        .humidity = fmin(fmax(0.8 - 0.15 * of_day - 0.1 * season, 0.2), 1),
                                        .sun_flat_w_m2 = sun,
                                        .sun_wall_w_m2 = 0.6 * sun,
                                        .wind_m_s = between(0, 4),
                                        .clear = clear};
    }
}

/* --- boxes -------------------------------------------------------------------------------------------------------- */

static ds_day_heater some_heater(void)
{
    const ds_day_heater heaters[] = {{DS_DAY_NO_HEATER, 0, 0, 0},
                                     {DS_DAY_NO_HEATER, 0, 0, 0},
                                     {DS_DAY_THERMOSTAT, 15, 8, 4},
                                     {DS_DAY_HYGROSTAT, 15, 0.65, 0.1}};
    return heaters[(int)(4 * share())];
}

static ds_day_box some_box(void)
{
    const double height = between(0.2, 1.2);
    const double width = between(0.15, 0.8);
    const double depth = between(0.1, 0.4);
    ds_heat_case c = DS_HEAT_CASE_NOTHING;
    c.width_mm = 1000 * width;
    c.height_mm = 1000 * height;
    c.depth_mm = 1000 * depth;
    c.watts = share() < 0.3 ? 0 : between(2, 60) * height * width / 0.24;
    ds_heat_mount(&c, true, 0);
    const bool plastic = share() < 0.5;
    const ds_heat_skin skin = {0.9, 0.9, between(0.3, 0.9), plastic ? 0.015 : 0.00003};
    ds_day_box box = DS_DAY_BOX_NOTHING;
    ds_day_box_from(&box, &c, &skin);
    const double m2 = 2 * (height * width + height * depth + width * depth);
    box.skin_j_k = m2 * (plastic ? 5000 : 5600);
    box.inside_j_k = height * width * depth * between(5e4, 3e5);
    box.volume_m3 = 0.7 * height * width * depth;
    box.seal = (ds_day_seal)(3 * share());
    box.air_m3_h = box.volume_m3 * between(0.1, 3);
    box.vapour_m3_h = between(0, 0.001);
    box.heater = some_heater();
    return box;
}

/* --- runs --------------------------------------------------------------------------------------------------------- */

static ds_weather_hour hours[HOURS];
static ds_day_box boxes[BOXES];
static ds_day_answer answers[BOXES];
static ds_day_fault faults[BOXES];

static void run(const ds_day_box *const of, const size_t len, const double tolerance_k,
                ds_day_point *const curve)
{
    const ds_day_ask ask = {.limit_c = 40, .settle_days = 3, .tolerance_k = tolerance_k, .curve = curve};
    ds_day_run_each(answers, faults, of, len, hours, HOURS, &ask);
    for (size_t i = 0; i < len; i++) {
        if (faults[i].field != DS_DAY_OK) {
            fprintf(stderr, "box %zu: %s\n", i, ds_day_field_name(faults[i].field));
            exit(2);
        }
    }
}

/* The largest error at any hour over the span of its curve. */
static double error_of(const ds_day_point *const got, const ds_day_point *const want)
{
    double low_c = INFINITY;
    double high_c = -INFINITY;
    double most_k = 0;
    for (int hour = 0; hour < HOURS; hour++) {
        low_c = fmin(low_c, want[hour].inside_c);
        high_c = fmax(high_c, want[hour].inside_c);
        most_k = fmax(most_k, fabs(got[hour].inside_c - want[hour].inside_c));
    }
    return most_k / (high_c - low_c);
}

static double worst_error(void)
{
    static ds_day_box some[SOME];
    static ds_day_point got[SOME * HOURS];
    static ds_day_point want[SOME * HOURS];
    double worst = 0;
    for (int i = 0; i < SOME; i++) {
        some[i] = boxes[i * EVERY];
    }
    run(some, SOME, TOLERANCE_K, got);
    run(some, SOME, TOLERANCE_K / 100, want);
    for (int i = 0; i < SOME; i++) {
        worst = fmax(worst, error_of(got + (size_t)i * HOURS, want + (size_t)i * HOURS));
    }
    return worst;
}

static double alone_s(void)
{
    const double start = now_s();
    for (int i = 0; i < SOME; i++) {
        run(&boxes[i * EVERY], 1, TOLERANCE_K, NULL);
    }
    return (now_s() - start) * EVERY;
}

/* --- report ------------------------------------------------------------------------------------------------------- */

static void report(const double seconds)
{
    double steps = 0;
    double wet_hours = 0;
    double hottest_c = -INFINITY;
    for (int i = 0; i < BOXES; i++) {
        steps += (double)answers[i].steps;
        wet_hours += answers[i].wet_hours;
        hottest_c = fmax(hottest_c, answers[i].highest_c);
    }
    const double box_hours = (double)BOXES * HOURS;
    printf("a year of 1,000 boxes            %8.2f s, %.0f ns an hour of a box, %.1f steps an hour\n",
           seconds, seconds / box_hours * 1e9, steps / box_hours);
    printf("wet hours a box, hottest         %8.0f, %.1f C\n", wet_hours / BOXES, hottest_c);
}

int main(void)
{
    double runs[RUNS];
    make_weather(hours);
    for (int i = 0; i < BOXES; i++) {
        boxes[i] = some_box();
    }
    for (int i = 0; i < RUNS; i++) {
        const double start = now_s();
        run(boxes, BOXES, TOLERANCE_K, NULL);
        runs[i] = now_s() - start;
    }
    qsort(runs, RUNS, sizeof *runs, by_size);
    report(runs[RUNS / 2]);
    printf("one after the other              %8.2f s\n", alone_s());
    printf("inside at its worst hour         %8.1e of its span in the year\n", worst_error());
    return 0;
}
