/* SPDX-License-Identifier: MIT */
/*
 * The run: eight boxes side by side, hour after hour, a quarter of an hour or less at a time.
 *
 * Wind and watts jump at the hour, so no step goes over it. A quarter is divided into halves of halves when the estimated
 * error of any of the boxes passes the tolerance; the next quarter begins with as many as this one would have needed. The
 * tolerance bounds the last correction of a step, whose own error is far smaller; tests/unit/box_day_ref.c measures what
 * comes of it.
 */
#include "core/box/day_model.h"

/* Allowed for a step when nothing else is asked. */
#define TOLERANCE_K 0.003

/* Of that where a hygrostat answers to vapour, which is followed less closely than the temperatures. */
#define HYGROSTAT_SHARE 0.5

/*
 * A step that becomes wet or dry, or in which a heater leaves its band, is no longer than a quarter divided by two so
 * often: vapour is of a lower order there, and the heater has a corner.
 */
enum { CROSSING = 1, HYGROSTAT_CROSSING = 3, SWITCHING = 3 };

/* Twice as long a step must have a margin of two. */
#define EASY 32

#define LOWEST_C (-90.0)
#define HIGHEST_C 190.0

enum { PARTS = 4, FINEST = 7, DAY_HOURS = 24 };

/* The boxes of one run through the hours. */
typedef struct run {
    ds_day_model model;
    const ds_day_box *boxes[DS_DAY_LANES];
    const ds_weather_hour *hours;
    size_t count;
    const ds_day_ask *ask;
    ds_day_point *curves[DS_DAY_LANES]; /* NULL: not wanted */
    double tolerance_k;
    ds_day_passed_lanes passed; /* in the latest step */
    ds_day_node_lanes nodes[2]; /* before and after a step, by turns */
    ds_day_node_lanes *node;    /* the latest */
    unsigned halvings;          /* of a part of the hour, to begin with */
    size_t steps;
    bool is_out[DS_DAY_LANES]; /* has left the range; its numbers no longer count */
    ds_day_kept_lanes kept;
} run;

/* --- an hour ------------------------------------------------------------------------------------------------------ */

typedef struct hour_weather {
    const ds_day_forcing_lanes *start, *end;
    double watts[DS_DAY_LANES];
} hour_weather;

static void set_watts(const run *const r, hour_weather *const w, const size_t hour)
{
    for (int i = 0; i < DS_DAY_LANES; i++) {
        const double *const duty = r->boxes[i]->duty;
        w->watts[i] = r->boxes[i]->watts * (duty ? duty[hour % DAY_HOURS] : 1);
    }
}

/* The largest of the boxes that still count; INFINITY for what is not a number. */
static double error_of(const run *const r)
{
    double most_k = 0;
    for (int i = 0; i < DS_DAY_LANES; i++) {
        const double error_k = r->passed.error_k[i];
        if (!r->is_out[i] && !(error_k <= most_k)) {
            most_k = error_k > most_k ? error_k : INFINITY;
        }
    }
    return most_k;
}

static bool has(const run *const r, const double flags[DS_DAY_LANES])
{
    bool any = false;
    for (int i = 0; i < DS_DAY_LANES; i++) {
        any = any || (!r->is_out[i] && flags[i] > 0);
    }
    return any;
}

static bool is_too_long(const run *const r, const unsigned halvings)
{
    const unsigned crossing = r->model.kind.control == DS_DAY_HYGROSTAT ? HYGROSTAT_CROSSING : CROSSING;
    const unsigned switching = has(r, r->passed.switched) ? SWITCHING : 0;
    const unsigned least = has(r, r->passed.crossed) && crossing > switching ? crossing : switching;
    return halvings < least || (!(error_of(r) <= r->tolerance_k) && halvings < FINEST);
}

static bool is_in_range(const ds_day_node_lanes *const nodes, const int i)
{
    return nodes->inside_c[i] >= LOWEST_C && nodes->inside_c[i] <= HIGHEST_C &&
           nodes->skin_c[i] >= LOWEST_C && nodes->skin_c[i] <= HIGHEST_C && nodes->cold_c[i] >= LOWEST_C;
}

static void check_range(run *const r)
{
    for (int i = 0; i < DS_DAY_LANES; i++) {
        r->is_out[i] = r->is_out[i] || !is_in_range(r->node, i);
    }
}

/* For the next part: as many as this one would have needed. Of order four, an error is 16 times as large in twice a step. */
static unsigned halvings_after(unsigned halvings, double worst_k, const double tolerance_k)
{
    while (halvings > 0 && worst_k * EASY < tolerance_k) {
        halvings--;
        worst_k *= 16;
    }
    return halvings;
}

/* One part of the hour, in as many halves of halves as it needs. */
static void pass_part(run *const r, ds_day_step step, const size_t hour, const bool kept)
{
    unsigned halvings = r->halvings;
    double worst_k = 0;
    const double start = step.from;
    const double length = step.to - step.from;
    for (unsigned done = 0; done < 1U << halvings;) {
        ds_day_node_lanes *const to = r->node == r->nodes ? r->nodes + 1 : r->nodes;
        step.from = start + length * done / (1U << halvings);
        step.to = start + length * (done + 1) / (1U << halvings);
        ds_day_step_take(&r->model, to, r->node, &step, &r->passed);
        if (is_too_long(r, halvings)) {
            halvings++;
            done *= 2;
            continue;
        }
        worst_k = fmax(worst_k, error_of(r));
        if (kept) {
            const ds_day_taken taken = {r->node, to, &step, &r->passed, (double)hour, r->ask->limit_c};
            ds_day_keep(&r->model, &r->kept, &taken);
            r->steps++;
        }
        r->node = to;
        done++;
    }
    r->halvings = halvings_after(halvings, worst_k, r->tolerance_k);
}

static void pass_hour(run *const r, const hour_weather *const w, const size_t hour, const bool kept)
{
    for (int part = 0; part < PARTS; part++) {
        const ds_day_step step = {(double)part / PARTS, (double)(part + 1) / PARTS, w->start, w->end,
                                  w->watts};
        pass_part(r, step, hour, kept);
    }
    check_range(r);
}

/* --- the hours ---------------------------------------------------------------------------------------------------- */

static void keep_points(const run *const r, const size_t hour)
{
    for (int i = 0; i < DS_DAY_LANES; i++) {
        if (r->curves[i]) {
            r->curves[i][hour] = (ds_day_point){r->node->inside_c[i], r->node->cold_c[i],
                                                ds_air_dew_point_c(r->node->vapour_pa[i])};
        }
    }
}

/* Wind and watts change at the hour, so films and rates there do. */
static void pass_hours(run *const r, const size_t count, const bool kept)
{
    ds_day_forcing_lanes at[2];
    ds_day_forcing_of(&r->model, &at[0], &r->hours[0]);
    for (size_t hour = 0; hour < count; hour++) {
        hour_weather w = {.start = &at[hour % 2], .end = &at[(hour + 1) % 2]};
        ds_day_forcing_of(&r->model, &at[(hour + 1) % 2], &r->hours[hour + 1 < count ? hour + 1 : 0]);
        set_watts(r, &w, hour);
        if (kept) {
            keep_points(r, hour);
        }
        ds_day_node_rates(&r->model, r->node, w.start, w.watts);
        pass_hour(r, &w, hour, kept);
    }
}

/* A sealed box holds what it was closed with, in the air or on the wall; any other begins as dry as its walls allow. */
static void start_vapour(run *const r, const double outside_pa, const int i)
{
    const ds_day_box *const box = r->boxes[i];
    ds_day_node_lanes *const node = r->node;
    const double inside_k = node->inside_c[i] + DS_AIR_KELVIN;
    const double closing_pa = ds_air_weather_vapour_pa(box->closing_c, box->closing_humidity) * inside_k /
                              (box->closing_c + DS_AIR_KELVIN);
    const bool is_sealed = box->seal == DS_DAY_SEALED;
    const double vapour_pa = is_sealed ? closing_pa : outside_pa;
    node->vapour_pa[i] = fmin(vapour_pa, node->most_pa[i]);
    node->liquid_kg[i] =
        is_sealed ? (vapour_pa - node->vapour_pa[i]) * box->volume_m3 / (DS_AIR_VAPOUR_J_KGK * inside_k) : 0;
}

static void settle(run *const r)
{
    ds_day_forcing_lanes start;
    ds_day_forcing_of(&r->model, &start, &r->hours[0]);
    for (int i = 0; i < DS_DAY_LANES; i++) {
        const ds_day_node cold = {.skin_c = start.air_c[i], .inside_c = start.air_c[i]};
        ds_day_node_put(r->node, i, &cold);
    }
    ds_day_node_films(&r->model, r->node, &start);
    for (int i = 0; i < DS_DAY_LANES; i++) {
        start_vapour(r, start.vapour_pa[i], i);
    }
    for (unsigned day = 0; day < r->ask->settle_days; day++) {
        pass_hours(r, r->count < DAY_HOURS ? r->count : DAY_HOURS, false);
    }
    for (int i = 0; i < DS_DAY_LANES; i++) {
        r->node->liquid_kg[i] = r->boxes[i]->seal == DS_DAY_SEALED ? r->node->liquid_kg[i] : 0;
    }
}

/* --- answers ------------------------------------------------------------------------------------------------------ */

static ds_day_answer no_answer(void)
{
    return (ds_day_answer){.highest_c = NAN,
                           .lowest_c = NAN,
                           .limit_hours = NAN,
                           .wet_hours = NAN,
                           .most_g = NAN,
                           .drained_g = NAN,
                           .margin_k = NAN,
                           .heat = {NAN, NAN, NAN, NAN, NAN, NAN, NAN}};
}

static ds_day_answer answer_of(const run *const r, const ds_day_node_lanes *const start, const int i)
{
    const ds_day_kept k = ds_day_kept_at(&r->kept, i);
    const ds_day_box *const box = r->boxes[i];
    const double stored_j = box->skin_j_k * (r->node->skin_c[i] - start->skin_c[i]) +
                            box->inside_j_k * (r->node->inside_c[i] - start->inside_c[i]);
    return (ds_day_answer){.highest_c = k.highest_c,
                           .highest_hour = (size_t)k.highest_hour,
                           .lowest_c = k.lowest_c,
                           .lowest_hour = (size_t)k.lowest_hour,
                           .limit_hours = isnan(r->ask->limit_c) ? NAN : k.limit_hours,
                           .wet_hours = k.wet_hours,
                           .most_g = k.most_g,
                           .most_hour = (size_t)k.most_hour,
                           .drained_g = k.drained_g,
                           .margin_k = isinf(k.margin_k) ? NAN : k.margin_k,
                           .margin_hour = (size_t)k.margin_hour,
                           .heat = {k.watts_j, k.heater_j, k.sun_j, k.sky_j, k.air_j, k.vent_j, stored_j},
                           .steps = r->steps};
}

/* --- boxes into lanes --------------------------------------------------------------------------------------------- */

/* Which boxes, by their number, share a run; their count may be less than there are lanes. */
typedef struct crew {
    size_t numbers[DS_DAY_LANES];
    int len;
} crew;

typedef struct job {
    ds_day_answer *answers;
    ds_day_fault *faults;
    const ds_day_box *boxes;
    const ds_weather_hour *hours;
    size_t count;
    const ds_day_ask *ask;
} job;

static void set_run(run *const r, const job *const all, const crew *const of)
{
    *r = (run){.hours = all->hours, .count = all->count, .ask = all->ask};
    for (int i = 0; i < DS_DAY_LANES; i++) {
        const size_t number = of->numbers[i < of->len ? i : 0];
        r->boxes[i] = &all->boxes[number];
        r->curves[i] = all->ask->curve && i < of->len ? all->ask->curve + number * all->count : NULL;
    }
    ds_day_model_make(&r->model, r->boxes);
    r->node = r->nodes;
    r->tolerance_k = (all->ask->tolerance_k > 0 ? all->ask->tolerance_k : TOLERANCE_K) *
                     (r->model.kind.control == DS_DAY_HYGROSTAT ? HYGROSTAT_SHARE : 1);
}

static void run_crew(const job *const all, const crew *const of)
{
    run r;
    set_run(&r, all, of);
    settle(&r);
    const ds_day_node_lanes start = *r.node;
    ds_day_keep_start(&r.kept, &start);
    pass_hours(&r, r.count, true);
    for (int i = 0; i < of->len; i++) {
        const size_t number = of->numbers[i];
        all->answers[number] = r.is_out[i] ? no_answer() : answer_of(&r, &start, i);
        all->faults[number].field = r.is_out[i] ? DS_DAY_RESULT : DS_DAY_OK;
    }
}

/* Those that take their steps alike together. */
static void run_kind(const job *const all, const size_t boxes_len, const ds_day_kind kind)
{
    crew of = {.len = 0};
    for (size_t i = 0; i < boxes_len; i++) {
        const ds_day_kind own = ds_day_kind_of(&all->boxes[i]);
        if (all->faults[i].field == DS_DAY_OK && own.control == kind.control &&
            own.is_sealed == kind.is_sealed) {
            of.numbers[of.len++] = i;
        }
        if (of.len == DS_DAY_LANES || (of.len > 0 && i + 1 == boxes_len)) {
            run_crew(all, &of);
            of.len = 0;
        }
    }
}

void ds_day_run_each(ds_day_answer *const answers, ds_day_fault *const faults, const ds_day_box *const boxes,
                     const size_t boxes_len, const ds_weather_hour *const hours, const size_t count,
                     const ds_day_ask *const ask)
{
    const ds_day_fault of_hours = ds_day_check_hours(hours, count, ask);
    const job all = {answers, faults, boxes, hours, count, ask};
    for (size_t i = 0; i < boxes_len; i++) {
        const ds_day_field field = ds_day_check_box(&boxes[i]);
        answers[i] = no_answer();
        faults[i] = field == DS_DAY_OK ? of_hours : (ds_day_fault){field, 0};
    }
    for (int control = 0; control < DS_DAY_CONTROLS; control++) {
        run_kind(&all, boxes_len, (ds_day_kind){(ds_day_control)control, false});
        run_kind(&all, boxes_len, (ds_day_kind){(ds_day_control)control, true});
    }
}

ds_day_fault ds_day_run(ds_day_answer *const out, const ds_day_box *const box,
                        const ds_weather_hour *const hours, const size_t count, const ds_day_ask *const ask)
{
    ds_day_fault fault = {DS_DAY_OK, 0};
    *out = no_answer();
    ds_day_run_each(out, &fault, box, 1, hours, count, ask);
    return fault;
}
