/* SPDX-License-Identifier: MIT */
/*
 * Laws of heat in boxes on random cases, and the physics against a second implementation that halves intervals and looks
 * at one face at a time.
 */
#include "heat_help.h"

enum { ROUNDS = 4000 };

typedef struct dice {
    uint64_t state;
} dice;

static double roll(dice *const d, const double low, const double high)
{
    d->state = d->state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return low + (high - low) * (double)(d->state >> 11) / 9007199254740992.0;
}

/* Without sun, wind and fan; each test adds its own. */
static ds_heat_case any_box(dice *const d)
{
    ds_heat_case c = DS_HEAT_CASE_NOTHING;
    size_t len;
    c.width_mm = roll(d, 60, 1500);
    c.height_mm = roll(d, 60, 2200);
    c.depth_mm = roll(d, 40, 900);
    for (int face = 0; face < DS_HEAT_FACES; face++) {
        c.faces[face] = roll(d, 0, 1) < 0.7 ? DS_HEAT_EXPOSED : (ds_heat_setting)(int)roll(d, 2, 5);
    }
    c.faces[DS_HEAT_FRONT] = DS_HEAT_EXPOSED;
    c.surface = ds_surfaces(&len) + (size_t)roll(d, 0, (double)len);
    c.colour = ds_colours(&len) + (size_t)roll(d, 0, (double)len);
    c.watts = exp(roll(d, -3, 6));
    c.air_c = roll(d, -30, 50);
    c.sun_flat_w_m2 = c.sun_wall_w_m2 = 0;
    c.partitions = 0;
    c.openings = DS_HEAT_CLOSED;
    return c;
}

static void add_weather(ds_heat_case *const c, dice *const d)
{
    c->sun_flat_w_m2 = roll(d, 0, 1100);
    c->sun_wall_w_m2 = roll(d, 0, 800);
    c->top_tilt_deg = roll(d, 0, 1) < 0.5 ? NAN : roll(d, 0, 45);
    c->wind_m_s = roll(d, 0, 1) < 0.5 ? NAN : roll(d, 0, 10);
}

static void add_fan(ds_heat_case *const c, dice *const d)
{
    c->fan_m3_h = exp(roll(d, -2, 7));
    c->fan_factor = roll(d, 0.3, 1);
}

static bool beyond(const ds_heat_answer *const a)
{
    return a->best.beyond || a->worst.beyond;
}

/* Every figure of b at half height is at least that of a, within what searching leaves open. */
static void not_cooler(const ds_heat_answer *const a, const ds_heat_answer *const b)
{
    for (int method = 0; method < DS_HEAT_METHODS; method++) {
        const ds_heat_result *const one = &a->by[method];
        const ds_heat_result *const other = &b->by[method];
        if (one->gap == DS_HEAT_GIVEN && other->gap == DS_HEAT_GIVEN) {
            assert_true(other->mid_k.low >= one->mid_k.low * (1 - 1e-10) - 1e-10);
            assert_true(other->mid_k.high >= one->mid_k.high * (1 - 1e-10) - 1e-10);
        }
    }
}

/* --- laws --------------------------------------------------------------------------------------------------------- */

static void more_heat_is_never_cooler(void **state)
{
    (void)state;
    dice d = {1};
    for (int i = 0; i < ROUNDS; i++) {
        ds_heat_case c = any_box(&d);
        add_weather(&c, &d);
        if (i % 3 == 0) {
            add_fan(&c, &d);
        }
        const ds_heat_answer before = solved(c);
        c.watts *= roll(&d, 1, 3);
        const ds_heat_answer after = solved(c);
        not_cooler(&before, &after);
        for (int method = 0; method < DS_HEAT_METHODS; method++) {
            assert_true(!(after.by[method].top_k.high < before.by[method].top_k.high - 1e-9));
        }
    }
}

/* In the shade: in the sun a bigger box also catches more. One that grows out of the curve's small table may jump. */
static void a_bigger_box_is_never_hotter(void **state)
{
    (void)state;
    dice d = {2};
    for (int i = 0; i < ROUNDS; i++) {
        ds_heat_case c = any_box(&d);
        c.wind_m_s = i % 2 ? NAN : roll(&d, 0, 10);
        const ds_heat_answer small = solved(c);
        double *const side = i % 3 == 0 ? &c.width_mm : i % 3 == 1 ? &c.height_mm : &c.depth_mm;
        *side *= roll(&d, 1, 2);
        const ds_heat_answer large = solved(c);
        not_cooler(&large, &small);
    }
}

static void a_covered_face_is_never_cooler(void **state)
{
    (void)state;
    dice d = {3};
    for (int i = 0; i < ROUNDS; i++) {
        ds_heat_case c = any_box(&d);
        c.wind_m_s = i % 2 ? NAN : roll(&d, 0, 10);
        if (i % 3 == 0) {
            add_fan(&c, &d);
        }
        const int face = (int)roll(&d, 0, DS_HEAT_FACES);
        c.faces[DS_HEAT_LEFT] = DS_HEAT_EXPOSED; /* something stays open */
        c.faces[face] = DS_HEAT_EXPOSED;
        const ds_heat_answer exposed = solved(c);
        c.faces[face] = i % 2 ? DS_HEAT_COVERED : DS_HEAT_ON_WALL;
        const ds_heat_answer covered = solved(c);
        not_cooler(&exposed, &covered);
        if (face != DS_HEAT_LEFT && face != DS_HEAT_FRONT) {
            c.faces[face] = DS_HEAT_ON_FLOOR;
            const ds_heat_answer blocked = solved(c);
            not_cooler(&covered, &blocked);
        }
    }
}

/* More sun, less wind, no fan, a thicker wall, and a worse surface: never cooler. */
static void what_hinders_cooling_never_cools(void **state)
{
    (void)state;
    dice d = {4};
    for (int i = 0; i < ROUNDS; i++) {
        ds_heat_case c = any_box(&d);
        add_weather(&c, &d);
        const ds_heat_answer a = solved(c);
        ds_heat_case sunny = c;
        sunny.sun_flat_w_m2 += 100;
        const ds_heat_answer b = solved(sunny);
        not_cooler(&a, &b);
        ds_heat_case windy = c;
        windy.wind_m_s = isnan(c.wind_m_s) ? 3 : c.wind_m_s + 3;
        const ds_heat_answer w = solved(windy);
        not_cooler(&w, &a);
        ds_heat_case thick = c;
        thick.wall_mm = 20;
        const ds_heat_answer t = solved(thick);
        not_cooler(&a, &t);
        ds_heat_case fan = c;
        add_fan(&fan, &d);
        const ds_heat_answer f = solved(fan);
        not_cooler(&f, &a);
        if (!beyond(&a)) {
            assert_true(a.best.inside_k <= a.worst.inside_k + 1e-9 && a.sun_k.low <= a.sun_k.high + 1e-9);
        }
    }
}

/* Twice the heat over twice the effective area is the same rise by the trade formula; areas grow with the square. */
static void scaling(void **state)
{
    (void)state;
    dice d = {5};
    for (int i = 0; i < ROUNDS; i++) {
        ds_heat_case c = any_box(&d);
        c.surface = ds_surface_of(DS_STR("painted-steel"));
        const ds_heat_answer a = solved(c);
        const double s = roll(&d, 1, 3);
        c.width_mm *= s;
        c.height_mm *= s;
        c.depth_mm *= s;
        c.watts *= s * s;
        const ds_heat_answer b = solved(c);
        near(b.effective_m2 / (a.effective_m2 * s * s), 1, 1e-12);
        near(b.outside_m2 / (a.outside_m2 * s * s), 1, 1e-12);
        near(b.by[DS_HEAT_TRADE].mid_k.low / a.by[DS_HEAT_TRADE].mid_k.low, 1, 1e-12);
        /* films grow thinner on small boxes: the same heat per area leaves a small box cooler, but not by much */
        if (!beyond(&b)) {
            const double ratio = b.best.inside_k / a.best.inside_k;
            assert_true(ratio > 1 - 1e-9 && ratio < pow(s, 0.25) + 1e-9);
        }
    }
}

static void the_balance_closes(void **state)
{
    (void)state;
    dice d = {6};
    int counted = 0;
    for (int i = 0; i < 5 * ROUNDS; i++) {
        ds_heat_case c = any_box(&d);
        add_weather(&c, &d);
        if (i % 2) {
            add_fan(&c, &d);
        }
        if (i % 7 == 0) {
            c.watts = i % 14 ? 0 : 1e-9;
        }
        const ds_heat_answer a = solved(c);
        if (!beyond(&a)) {
            counted++;
            near(a.best.balance, 0, 1e-9);
            near(a.worst.balance, 0, 1e-9);
            near(a.worst.inside_k, a.worst.skin_k + a.worst.wall_k + a.worst.film_k, 1e-9);
        }
    }
    assert_in_range(counted, 4 * ROUNDS, 5 * ROUNDS);
}

/* --- the plain second implementation ------------------------------------------------------------------------------ */

static bool stands(const int face)
{
    return face != DS_HEAT_TOP && face != DS_HEAT_BOTTOM;
}

/* Heat outwards through one face whose two sides stand at these temperatures; outside or inside film. */
static double face_w(const ds_heat_case *const c, const int face, const double in_c, const double out_c,
                     const double emissivity, const bool is_outer)
{
    const double w = c->width_mm / 1000;
    const double h = c->height_mm / 1000;
    const double depth = c->depth_mm / 1000;
    const double plate = w * depth / (2 * w + 2 * depth);
    double area = stands(face) ? h * (face <= DS_HEAT_REAR ? w : depth) : w * depth;
    double film = ds_film_vertical_w_m2k(in_c, out_c, h);
    if (face ==
        DS_HEAT_TOP) { /* outside it is the skin that looks up; inside the ceiling looks down at the air */
        film = is_outer ? ds_film_up_w_m2k(in_c, out_c, plate) : ds_film_down_w_m2k(out_c, in_c, plate);
    } else if (face == DS_HEAT_BOTTOM) {
        film = is_outer ? ds_film_down_w_m2k(in_c, out_c, plate) : ds_film_up_w_m2k(out_c, in_c, plate);
    }
    if (c->faces[face] == DS_HEAT_ON_FLOOR) {
        area = 0;
    } else if (c->faces[face] != DS_HEAT_EXPOSED) {
        area *= face == DS_HEAT_TOP ? 0.5 : 5.0 / 9;
    } else if (is_outer && c->wind_m_s > 0) {
        film = fmax(film, ds_film_wind_w_m2k(c->wind_m_s, c->air_c, c->air_c, fmax(fmax(w, h), depth)));
    }
    return area * (film + ds_film_radiation_w_m2k(emissivity, in_c, out_c)) * (in_c - out_c);
}

static double all_faces_w(const ds_heat_case *const c, const double in_c, const double out_c,
                          const double emissivity, const bool is_outer)
{
    double sum = 0;
    for (int face = 0; face < DS_HEAT_FACES; face++) {
        sum += face_w(c, face, in_c, out_c, emissivity, is_outer);
    }
    return sum;
}

/* The temperature of the warm side (inside of the film) at which this heat flows to out_c. */
static double halve(const ds_heat_case *const c, const double watts, const double out_c,
                    const double emissivity, const bool is_outer)
{
    double low = -99;
    double high = 400;
    for (int i = 0; i < 100; i++) {
        const double middle = (low + high) / 2;
        if (all_faces_w(c, middle, out_c, emissivity, is_outer) < watts) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return low;
}

static double inside_c(const ds_heat_case *const c, const ds_heat_skin *const skin, const double through_w,
                       const double sun_w)
{
    const double skin_c = halve(c, through_w + sun_w, c->air_c, skin->emissivity_out, true);
    const double wall_c = skin_c + through_w * skin->wall_m2k_w / ds_heat_outside_m2(c);
    return halve(c, through_w, wall_c, skin->emissivity_in / 2, false);
}

/* The heat through the wall that leaves the fan the rest of what is made. */
static double oracle_rise_k(const ds_heat_case *const c, const ds_heat_skin *const skin, const double sun_w)
{
    double low = -sun_w;
    double high = c->watts;
    for (int i = 0; i < 100 && c->fan_m3_h > 0; i++) {
        const double middle = (low + high) / 2;
        const double fan_w = ds_heat_fan_w_k(c) * (inside_c(c, skin, middle, sun_w) - c->air_c);
        if (middle + fan_w < c->watts) {
            low = middle;
        } else {
            high = middle;
        }
    }
    return inside_c(c, skin, high, sun_w) - c->air_c;
}

static void physics_as_by_halving(void **state)
{
    (void)state;
    dice d = {7};
    int counted = 0;
    for (int i = 0; i < 1500; i++) {
        ds_heat_case c = any_box(&d);
        const bool fan = i % 25 == 0;
        if (i % 2) {
            add_weather(&c, &d);
        }
        if (fan) {
            add_fan(&c, &d);
        }
        const ds_heat_answer a = solved(c);
        if (beyond(&a) || a.worst.inside_k + c.air_c > 350) {
            continue;
        }
        counted++;
        near(a.worst.inside_k, oracle_rise_k(&c, &a.worst_skin, a.worst.sun_w),
             1e-8 * fmax(a.worst.inside_k, 1));
    }
    assert_in_range(counted, 1200, 1500);
}

/* --- verdicts ----------------------------------------------------------------------------------------------------- */

/* A higher limit never turns a pass into less, nor a lower one a failure into more. */
static void limits_are_ordered(void **state)
{
    (void)state;
    dice d = {8};
    int seen[DS_BARRED] = {0};
    for (int i = 0; i < ROUNDS; i++) {
        ds_heat_case c = any_box(&d);
        add_weather(&c, &d);
        c.height = (ds_heat_height)(i % 3);
        const ds_heat_answer a = solved(c);
        ds_verdict before = DS_SHORT;
        for (double limit = -60; limit <= 300; limit += 3) {
            const ds_verdict now = ds_heat_judge(&a, limit, NULL);
            assert_true(now <= before);
            seen[now]++;
            before = now;
        }
    }
    assert_true(seen[DS_FITS] > ROUNDS && seen[DS_UNKNOWN] > ROUNDS && seen[DS_SHORT] > ROUNDS);
}

/* Any one field missing is named, and no figure comes out. */
static void a_missing_field_gives_no_figure(void **state)
{
    (void)state;
    dice d = {9};
    for (int i = 0; i < ROUNDS; i++) {
        ds_heat_case c = any_box(&d);
        add_weather(&c, &d);
        double *const fields[] = {&c.width_mm, &c.height_mm,     &c.depth_mm,     &c.watts,
                                  &c.air_c,    &c.sun_flat_w_m2, &c.sun_wall_w_m2};
        double *const field = fields[i % 7];
        *field = i % 3 ? NAN : i % 2 ? -1e9 : INFINITY;
        ds_heat_answer a;
        ds_heat_solve(&a, &c);
        assert_true((i % 3 ? a.missing : a.bad) != 0);
        assert_true(isnan(a.spread_k.low) && isnan(a.spread_k.high) && isnan(a.worst.inside_k));
        assert_int_equal(ds_heat_judge(&a, 1000, NULL), DS_UNKNOWN);
        assert_int_equal(ds_heat_judge(&a, 60, NULL), DS_UNKNOWN);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(more_heat_is_never_cooler),
        cmocka_unit_test(a_bigger_box_is_never_hotter),
        cmocka_unit_test(a_covered_face_is_never_cooler),
        cmocka_unit_test(what_hinders_cooling_never_cools),
        cmocka_unit_test(scaling),
        cmocka_unit_test(the_balance_closes),
        cmocka_unit_test(physics_as_by_halving),
        cmocka_unit_test(limits_are_ordered),
        cmocka_unit_test(a_missing_field_gives_no_figure),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
