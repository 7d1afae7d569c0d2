/* SPDX-License-Identifier: MIT */
/*
 * Segments and arcs against school geometry: lengths, areas, nearest points, meetings with tangents, outlines. What has
 * no round number is checked against many chords.
 */
#include "zone_help.h"

static const double PI = 3.141592653589793;

static ds_curve arc(const double x, const double y, const double radius, const double from_deg,
                    const double to_deg)
{
    const double a = from_deg * PI / 180;
    const double b = to_deg * PI / 180;
    return (ds_curve){.a = {x + radius * cos(a), y + radius * sin(a)},
                      .b = {x + radius * cos(b), y + radius * sin(b)},
                      .centre = {x, y},
                      .radius = radius,
                      .left = to_deg > from_deg};
}

static ds_curve segment(const double x0, const double y0, const double x1, const double y1)
{
    return ds_segment(zone_vec(x0, y0), zone_vec(x1, y1));
}

static void expect_at(const ds_vec got, const double x, const double y)
{
    expect_near(got.x, x, 1e-12);
    expect_near(got.y, y, 1e-12);
}

/* --- one curve ---------------------------------------------------------------------------------------------------- */

static void lengths(void **const state)
{
    (void)state;
    const struct {
        ds_curve curve;
        double len;
    } CASES[] = {
        {segment(0, 0, 3, 4), 5},
        {segment(1, 1, 1, 1), 0},
        {arc(0, 0, 2, 0, 90), PI},
        {arc(0, 0, 2, 90, 0), PI},
        {arc(5, -3, 1, 10, 350), 340 * PI / 180},
        {arc(5, -3, 1, 350, 10), 340 * PI / 180},
        {arc(0, 0, 500, 0, 1e-3), 500 * 1e-3 * PI / 180},
        {{.a = {2, 0}, .b = {2, 0}, .centre = {0, 0}, .radius = 2, .left = true}, 4 * PI}, /* once round */
        {{.a = {2, 0}, .b = {2, 0}, .centre = {0, 0}, .radius = 2, .left = false}, 4 * PI},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        expect_near(ds_curve_len(&CASES[i].curve), CASES[i].len, 1e-9);
    }
}

static void arcs_through_three_places(void **const state)
{
    (void)state;
    const ds_curve left = ds_arc_through(zone_vec(1, 0), zone_vec(0, 1), zone_vec(-1, 0));
    expect_at(left.centre, 0, 0);
    expect_near(left.radius, 1, 1e-12);
    assert_true(left.left);
    const ds_curve right = ds_arc_through(zone_vec(-1, 0), zone_vec(0, 1), zone_vec(1, 0));
    assert_false(right.left);
    expect_near(ds_curve_len(&right), PI, 1e-12);
    /* The larger part of a circle: 0.54, 0.72 lies on a radius of 0.9. */
    const ds_curve most = ds_arc_through(zone_vec(0.9, 0), zone_vec(-0.54, -0.72), zone_vec(0, 0.9));
    expect_near(ds_curve_len(&most), 0.9 * 1.5 * PI, 1e-12);
    assert_false(most.left);
    const ds_curve line = ds_arc_through(zone_vec(0, 0), zone_vec(1, 1), zone_vec(2, 2));
    expect_near(line.radius, 0, 0);
    expect_near(ds_curve_len(&line), sqrt(8), 1e-12);
}

static void points_and_directions(void **const state)
{
    (void)state;
    const ds_curve quarter = arc(1, 1, 2, 0, 90);
    expect_at(ds_curve_point(&quarter, 0), 3, 1);
    expect_at(ds_curve_point(&quarter, 1), 1, 3);
    expect_at(ds_curve_point(&quarter, 0.5), 1 + sqrt(2), 1 + sqrt(2));
    expect_at(ds_curve_direction(&quarter, 0), 0, 1);
    expect_at(ds_curve_direction(&quarter, 1), -1, 0);
    const ds_curve back = arc(1, 1, 2, 90, 0);
    expect_at(ds_curve_point(&back, 0.5), 1 + sqrt(2), 1 + sqrt(2));
    expect_at(ds_curve_direction(&back, 0), 1, 0);
    const ds_curve line = segment(0, 0, 4, 3);
    expect_at(ds_curve_point(&line, 0.25), 1, 0.75);
    expect_at(ds_curve_direction(&line, 0.7), 0.8, 0.6);
}

static void nearest_places(void **const state)
{
    (void)state;
    const ds_curve line = segment(0, 0, 4, 0);
    expect_near(ds_curve_nearest(&line, zone_vec(1, 5)), 0.25, 1e-12);
    expect_near(ds_curve_nearest(&line, zone_vec(-3, 1)), 0, 0);
    expect_near(ds_curve_nearest(&line, zone_vec(9, -1)), 1, 0);
    expect_near(ds_curve_distance(&line, zone_vec(-3, 4)), 5, 1e-12);
    const ds_curve quarter = arc(0, 0, 1, 0, 90);
    expect_near(ds_curve_nearest(&quarter, zone_vec(3, 3)), 0.5, 1e-12);
    expect_near(ds_curve_distance(&quarter, zone_vec(3, 3)), sqrt(18) - 1, 1e-12);
    expect_near(ds_curve_distance(&quarter, zone_vec(0.1, 0.1)), 1 - sqrt(0.02), 1e-12);
    expect_near(ds_curve_nearest(&quarter, zone_vec(1, -0.1)), 0, 0);
    expect_near(ds_curve_nearest(&quarter, zone_vec(-0.1, 1)), 1, 0);
    expect_near(ds_curve_distance(&quarter, zone_vec(0, 0)), 1, 1e-12);
}

/* Of 4000 places on the curve none is nearer than the nearest, and one is nearly as near. */
static void nearest_of_many_places(void **const state)
{
    (void)state;
    zone_dice dice = {7};
    for (int n = 0; n < 300; n++) {
        const double from = zone_between(&dice, -180, 180);
        const double turn = zone_between(&dice, 1, 359) * (zone_roll(&dice) < 0.5 ? -1 : 1);
        const ds_curve curve = zone_roll(&dice) < 0.3
                                   ? segment(zone_roll(&dice), zone_roll(&dice), -zone_roll(&dice), 2)
                                   : arc(zone_roll(&dice), zone_roll(&dice), 1.5, from, from + turn);
        const ds_vec p = {zone_between(&dice, -3, 4), zone_between(&dice, -3, 4)};
        const double got = ds_curve_distance(&curve, p);
        double least = INFINITY;
        for (int i = 0; i <= 4000; i++) {
            least = fmin(least, ds_vec_between(p, ds_curve_point(&curve, i / 4000.0)));
        }
        assert_true(got <= least + 1e-12);
        expect_near(got, least, 3e-3);
    }
}

static void parts_make_the_whole(void **const state)
{
    (void)state;
    const ds_curve curves[] = {segment(0, 1, 5, -2), arc(2, 1, 3, 20, 200), arc(2, 1, 3, 200, -140)};
    for (size_t i = 0; i < sizeof curves / sizeof *curves; i++) {
        const ds_curve first = ds_curve_part(&curves[i], 0, 0.3);
        const ds_curve second = ds_curve_part(&curves[i], 0.3, 1);
        const double whole = ds_curve_len(&curves[i]);
        expect_near(ds_curve_len(&first), 0.3 * whole, 1e-12);
        expect_near(ds_curve_len(&first) + ds_curve_len(&second), whole, 1e-12);
        expect_near(ds_curve_area(&first) + ds_curve_area(&second), ds_curve_area(&curves[i]), 1e-12);
        assert_true(first.left == curves[i].left && second.left == curves[i].left);
    }
}

/* --- two curves --------------------------------------------------------------------------------------------------- */

typedef struct meeting {
    ds_curve first, second;
    size_t len;
    double x[2], y[2]; /* in any order */
} meeting;

static void expect_meeting(const meeting *const m, const size_t number)
{
    double at[2];
    const size_t len = ds_curve_meet(&m->first, &m->second, at);
    if (len != m->len) {
        print_error("meeting %zu: %zu places, not %zu\n", number, len, m->len);
        fail();
    }
    for (size_t i = 0; i < len; i++) {
        const ds_vec p = ds_curve_point(&m->first, at[i]);
        double off = INFINITY;
        for (size_t k = 0; k < m->len; k++) {
            off = fmin(off, ds_vec_between(p, zone_vec(m->x[k], m->y[k])));
        }
        /* Where two touch, the place along them is only known to the root of the touch. */
        expect_near(off, 0, 1e-4);
    }
}

static void meetings(void **const state)
{
    (void)state;
    const double h = sqrt(3) / 2;
    const meeting CASES[] = {
        {segment(0, 0, 2, 2), segment(0, 2, 2, 0), 1, {1}, {1}},
        {segment(0, 0, 2, 0), segment(1, 0, 1, 5), 1, {1}, {0}}, /* a T */
        {segment(0, 0, 2, 0), segment(2, 0, 2, 5), 1, {2}, {0}}, /* an L */
        {segment(0, 0, 2, 0), segment(0, 1, 2, 1), 0, {0}, {0}}, /* side by side */
        {segment(0, 0, 2, 0), segment(3, 0, 4, 0), 0, {0}, {0}}, /* one line, a gap */
        {segment(0, 0, 2, 0), segment(2, 0, 4, 0), 1, {2}, {0}}, /* one line, end to end */
        {segment(0, 0, 4, 0), segment(1, 0, 3, 0), 2, {1, 3}, {0, 0}},
        {segment(0, 0, 4, 0), segment(3, 0, 1, 0), 2, {1, 3}, {0, 0}},
        {segment(1, 0, 3, 0), segment(2, 0, 5, 0), 1, {2}, {0}},
        {segment(0, 0, 4, 0), segment(1, 2e-9, 3, 2e-9), 0, {0}, {0}}, /* just not touching */
        {segment(0, 0, 4, 0), segment(1, 5e-10, 3, 5e-10), 2, {1, 3}, {0, 0}},
        {segment(0, 0, 1, 0), segment(0.5, 0.1, 0.5, 2), 0, {0}, {0}},
        {segment(-2, 0, 2, 0), arc(0, 0, 1, 0, 180), 2, {-1, 1}, {0, 0}},
        {segment(-2, 0.5, 2, 0.5), arc(0, 0, 1, 0, 180), 2, {-h, h}, {0.5, 0.5}},
        {segment(-2, -0.5, 2, -0.5), arc(0, 0, 1, 0, 180), 0, {0}, {0}},
        {segment(0, 0, 2, 0), arc(0, 0, 1, -90, 90), 1, {1}, {0}},
        {segment(-2, 2, 2, 2), arc(0, 0, 1, 0, 180), 0, {0}, {0}},
        {arc(0, 0, 1, -90, 90), arc(1, 0, 1, 90, 270), 2, {0.5, 0.5}, {h, -h}},
        {arc(0, 0, 1, 0, 90), arc(1, 0, 1, 90, 270), 1, {0.5}, {h}},
        {arc(0, 0, 1, 0, 360), arc(5, 0, 1, 0, 360), 0, {0}, {0}},
        {arc(0, 0, 3, 0, 360), arc(0.5, 0, 1, 0, 360), 0, {0}, {0}},
        {arc(0, 0, 1, 0, 180), arc(0, 0, 2, 0, 180), 0, {0}, {0}}, /* one centre */
        {arc(0, 0, 1, 0, 180), arc(0, 0, 1, 45, 270), 1, {sqrt(0.5)}, {sqrt(0.5)}},
        {arc(0, 0, 1, 0, 180), arc(0, 0, 1, 150, 30), 2, {h, -h}, {0.5, 0.5}},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        expect_meeting(&CASES[i], i);
    }
}

/* At least one meeting, and all of them where the two touch. */
static void expect_touch(const ds_curve *const first, const ds_curve *const second, const ds_vec p)
{
    const ds_curve *const pair[] = {first, second};
    for (size_t i = 0; i < 2; i++) {
        double at[2];
        const size_t len = ds_curve_meet(pair[i], pair[1 - i], at);
        assert_in_range(len, 1, 2);
        for (size_t k = 0; k < len; k++) {
            expect_near(ds_vec_between(ds_curve_point(pair[i], at[k]), p), 0, 1e-4);
        }
    }
}

static void tangents(void **const state)
{
    (void)state;
    zone_dice dice = {11};
    for (int n = 0; n < 2000; n++) {
        const double turn = zone_between(&dice, -180, 180);
        const double radius = exp(zone_between(&dice, -3, 4));
        const double other = exp(zone_between(&dice, -3, 4));
        const ds_vec centre = {zone_between(&dice, -50, 50), zone_between(&dice, -50, 50)};
        const ds_vec out = {cos(turn * PI / 180), sin(turn * PI / 180)};
        const ds_vec p = ds_vec_along(centre, radius, out);
        const ds_vec beyond = ds_vec_along(centre, radius + other, out);
        const ds_vec side = {-out.y, out.x};
        const ds_curve circle = arc(centre.x, centre.y, radius, turn - 100, turn + 80);
        const ds_curve line = ds_segment(ds_vec_along(p, -radius, side), ds_vec_along(p, 2 * radius, side));
        const ds_curve next = arc(beyond.x, beyond.y, other, turn + 100, turn + 250);
        expect_touch(&circle, &line, p);
        expect_touch(&circle, &next, p);
        if (other < 0.9 * radius) {
            const ds_vec within = ds_vec_along(centre, radius - other, out);
            const ds_curve inside = arc(within.x, within.y, other, turn - 60, turn + 70);
            expect_touch(&circle, &inside, p);
        }
    }
}

/* Meetings of random curves: each lies on both, and both orders find as many. */
static void meetings_lie_on_both(void **const state)
{
    (void)state;
    zone_dice dice = {13};
    size_t met = 0;
    for (int n = 0; n < 4000; n++) {
        ds_curve pair[2];
        for (size_t i = 0; i < 2; i++) {
            const double from = zone_between(&dice, -180, 180);
            pair[i] = zone_roll(&dice) < 0.4
                          ? segment(zone_between(&dice, -3, 3), zone_between(&dice, -3, 3),
                                    zone_between(&dice, -3, 3), zone_between(&dice, -3, 3))
                          : arc(zone_roll(&dice), zone_roll(&dice), zone_between(&dice, 0.5, 2), from,
                                from + zone_between(&dice, -350, 350));
        }
        double at[2];
        double back[2];
        const size_t len = ds_curve_meet(&pair[0], &pair[1], at);
        assert_int_equal(ds_curve_meet(&pair[1], &pair[0], back), len);
        for (size_t k = 0; k < len; k++) {
            assert_true(at[k] >= 0 && at[k] <= 1);
            expect_near(ds_curve_distance(&pair[1], ds_curve_point(&pair[0], at[k])), 0, 2 * DS_TOUCH_M);
        }
        met += len;
    }
    assert_in_range(met, 1000, 8000);
}

/* --- outlines ----------------------------------------------------------------------------------------------------- */

static void areas(void **const state)
{
    (void)state;
    ds_curve edges[8];
    const ds_outline room = zone_rectangle(edges, 100, 100, 104, 103);
    expect_near(ds_outline_area(room.at, room.len), 12, 1e-9);
    ds_outline_reverse(edges, 4);
    expect_near(ds_outline_area(edges, 4), -12, 1e-9);
    ds_circle_arcs(edges, zone_vec(30, -40), 2);
    expect_near(ds_outline_area(edges, 4), 4 * PI, 1e-9);
    ds_outline_reverse(edges, 4);
    expect_near(ds_outline_area(edges, 4), -4 * PI, 1e-9);
    /* A quadrant tray, and the same hollowed out: 0.9 square less the quarter. */
    const ds_curve quadrant[] = {segment(0, 0, 0.9, 0), arc(0, 0, 0.9, 0, 90), segment(0, 0.9, 0, 0)};
    expect_near(ds_outline_area(quadrant, 3), PI * 0.81 / 4, 1e-12);
    const ds_curve hollow[] = {segment(0, 0, 0.9, 0), arc(0.9, 0.9, 0.9, 270, 180), segment(0, 0.9, 0, 0)};
    expect_near(ds_outline_area(hollow, 3), 0.81 - PI * 0.81 / 4, 1e-12);
    /* Three quarters of a circle and its two radii. */
    const ds_curve most[] = {arc(0, 0, 1, 0, 270), segment(0, -1, 0, 0), segment(0, 0, 1, 0)};
    expect_near(ds_outline_area(most, 3), 0.75 * PI, 1e-12);
}

static void reversed_twice_is_the_same(void **const state)
{
    (void)state;
    const ds_curve once[] = {segment(0, 0, 0.9, 0), arc(0, 0, 0.9, 0, 90), segment(0, 0.9, 0, 0)};
    ds_curve twice[3];
    memcpy(twice, once, sizeof once);
    ds_outline_reverse(twice, 3);
    expect_at(twice[0].a, 0, 0);
    expect_at(twice[0].b, 0, 0.9);
    assert_false(twice[1].left);
    ds_outline_reverse(twice, 3);
    for (size_t i = 0; i < 3; i++) {
        expect_at(twice[i].a, once[i].a.x, once[i].a.y);
        expect_at(twice[i].b, once[i].b.x, once[i].b.y);
        assert_true(twice[i].radius == 0 || twice[i].left == once[i].left);
    }
}

static void insides(void **const state)
{
    (void)state;
    const ds_curve quadrant[] = {segment(0, 0, 0.9, 0), arc(0, 0, 0.9, 0, 90), segment(0, 0.9, 0, 0)};
    assert_true(ds_outline_encloses(quadrant, 3, zone_vec(0.6, 0.6))); /* beyond the chord */
    assert_false(ds_outline_encloses(quadrant, 3, zone_vec(0.65, 0.65)));
    assert_false(ds_outline_encloses(quadrant, 3, zone_vec(-0.1, 0.5)));
    assert_true(ds_outline_holds(quadrant, 3, zone_vec(0.54, 0.72)));
    assert_true(ds_outline_holds(quadrant, 3, zone_vec(0.45, 0)));
    assert_true(ds_outline_holds(quadrant, 3, zone_vec(0, 0)));
    assert_false(ds_outline_holds(quadrant, 3, zone_vec(0.45, -1e-6)));
    const ds_curve hollow[] = {segment(0, 0, 0.9, 0), arc(0.9, 0.9, 0.9, 270, 180), segment(0, 0.9, 0, 0)};
    assert_true(ds_outline_encloses(hollow, 3, zone_vec(0.2, 0.2)));
    assert_false(ds_outline_encloses(hollow, 3, zone_vec(0.4, 0.4))); /* before the chord */
    const ds_curve most[] = {arc(0, 0, 1, 0, 270), segment(0, -1, 0, 0), segment(0, 0, 1, 0)};
    assert_true(ds_outline_encloses(most, 3, zone_vec(-0.5, -0.5)));
    assert_true(ds_outline_encloses(most, 3, zone_vec(0.1, 0.1)));
    assert_false(ds_outline_encloses(most, 3, zone_vec(0.3, -0.3)));
    expect_near(ds_outline_distance(most, 3, zone_vec(0.3, -0.3)), 0.3, 1e-12);
    expect_near(ds_outline_distance(most, 3, zone_vec(-3, 4)), 4, 1e-12);
}

/* Many chords hold what an outline holds, but for places within the chords' error of its edge. */
static void insides_by_many_chords(void **const state)
{
    (void)state;
    enum { CHORDS = 2000 };
    static ds_curve chords[2 * CHORDS];
    zone_dice dice = {17};
    for (int n = 0; n < 60; n++) {
        const double turn = zone_between(&dice, 20, 340);
        const double from = zone_between(&dice, -180, 180);
        const ds_curve one = arc(0, 0, 1, from, from + turn);
        const bool bulges = zone_roll(&dice) < 0.5;
        const ds_curve two = bulges ? ds_segment(one.b, one.a)
                                    : ds_arc_through(one.b, zone_vec(0.1 * zone_roll(&dice), 0), one.a);
        const ds_curve outline[] = {one, two};
        for (size_t i = 0; i < CHORDS; i++) {
            for (size_t k = 0; k < 2; k++) {
                chords[k * CHORDS + i] = ds_segment(ds_curve_point(&outline[k], (double)i / CHORDS),
                                                    ds_curve_point(&outline[k], (double)(i + 1) / CHORDS));
            }
        }
        expect_near(ds_outline_area(outline, 2), ds_outline_area(chords, 2 * CHORDS), 1e-4);
        for (int k = 0; k < 40; k++) {
            const ds_vec p = {zone_between(&dice, -1.2, 1.2), zone_between(&dice, -1.2, 1.2)};
            if (ds_outline_distance(outline, 2, p) > 1e-4) {
                assert_int_equal(ds_outline_encloses(outline, 2, p),
                                 ds_outline_encloses(chords, 2 * CHORDS, p));
            }
        }
    }
}

static void crossings(void **const state)
{
    (void)state;
    ds_curve edges[8];
    size_t which = 0;
    const ds_vec square[] = {{0, 0}, {1, 0}, {1, 1}, {0, 1}};
    zone_polygon(edges, square, 4);
    assert_false(ds_outline_crosses_itself(edges, 4, &which));
    const ds_vec bow[] = {{0, 0}, {1, 1}, {1, 0}, {0, 1}};
    zone_polygon(edges, bow, 4);
    assert_true(ds_outline_crosses_itself(edges, 4, &which));
    assert_int_equal(which, 2);
    /* A corner that touches a far edge; an edge that runs back over itself. */
    const ds_vec touch[] = {{0, 0}, {4, 0}, {4, 2}, {2, 0}, {0, 2}};
    zone_polygon(edges, touch, 5);
    assert_true(ds_outline_crosses_itself(edges, 5, &which));
    const ds_vec spike[] = {{0, 0}, {3, 0}, {2, 0}, {2, 2}};
    zone_polygon(edges, spike, 4);
    assert_true(ds_outline_crosses_itself(edges, 4, &which));
    /* Two half circles close an outline and meet at both ends only. */
    const ds_curve round[] = {arc(0, 0, 1, 0, 180), arc(0, 0, 1, 180, 360)};
    assert_false(ds_outline_crosses_itself(round, 2, &which));
    /* An arc that bulges over the opposite side. */
    const ds_curve bulge[] = {segment(0, 0, 2, 0), segment(2, 0, 2, 0.5), arc(1, 0.5, 1, 0, -180),
                              segment(0, 0.5, 0, 0)};
    assert_true(ds_outline_crosses_itself(bulge, 4, &which));
    ds_circle_arcs(edges, zone_vec(3, 3), 0.4);
    assert_false(ds_outline_crosses_itself(edges, 4, &which));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lengths),
        cmocka_unit_test(arcs_through_three_places),
        cmocka_unit_test(points_and_directions),
        cmocka_unit_test(nearest_places),
        cmocka_unit_test(nearest_of_many_places),
        cmocka_unit_test(parts_make_the_whole),
        cmocka_unit_test(meetings),
        cmocka_unit_test(tangents),
        cmocka_unit_test(meetings_lie_on_both),
        cmocka_unit_test(areas),
        cmocka_unit_test(reversed_twice_is_the_same),
        cmocka_unit_test(insides),
        cmocka_unit_test(insides_by_many_chords),
        cmocka_unit_test(crossings),
    };
    return cmocka_run_group_tests_name("zone_curve_ref", tests, NULL, NULL);
}
