/* SPDX-License-Identifier: MIT */
/*
 * The day model over a year: 1,000 boxes of different size, wall, load and seal through 8,760 hours of one made-up
 * weather, on one core. Medians of five runs.
 *
 *     build/release/bench/day_bench
 */
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "core/box/day.h"

enum { RUNS = 5, BOXES = 1000, HOURS = 8760 };

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

/* --- report ------------------------------------------------------------------------------------------------------- */

typedef struct sums {
    double steps, wet_hours, hottest_c;
} sums;

static sums run_all(const ds_day_box *const boxes, const ds_weather_hour *const hours)
{
    const ds_day_ask ask = {.limit_c = 40, .settle_days = 3};
    sums all = {0, 0, -100};
    for (int i = 0; i < BOXES; i++) {
        ds_day_answer answer;
        if (ds_day_run(&answer, &boxes[i], hours, HOURS, &ask).field != DS_DAY_OK) {
            fprintf(stderr, "box %d has a fault\n", i);
            exit(2);
        }
        all.steps += (double)answer.steps;
        all.wet_hours += answer.wet_hours;
        all.hottest_c = fmax(all.hottest_c, answer.highest_c);
    }
    return all;
}

int main(void)
{
    static ds_weather_hour hours[HOURS];
    static ds_day_box boxes[BOXES];
    double runs[RUNS];
    sums all = {0, 0, 0};
    make_weather(hours);
    for (int i = 0; i < BOXES; i++) {
        boxes[i] = some_box();
    }
    for (int run = 0; run < RUNS; run++) {
        const double start = now_s();
        all = run_all(boxes, hours);
        runs[run] = now_s() - start;
    }
    qsort(runs, RUNS, sizeof *runs, by_size);
    const double box_hours = (double)BOXES * HOURS;
    printf("a year of 1,000 boxes            %8.2f s, %.0f ns an hour of a box\n", runs[RUNS / 2],
           runs[RUNS / 2] / box_hours * 1e9);
    printf("steps an hour                    %8.2f\n", all.steps / box_hours);
    printf("wet hours a box, hottest         %8.0f, %.1f C\n", all.wet_hours / BOXES, all.hottest_c);
    return 0;
}
