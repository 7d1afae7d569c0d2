/* SPDX-License-Identifier: MIT */
/*
 * Free space among random screens: sight against the plain way of cutting the line at every edge and asking the middle of
 * each piece; walls that have free space on their left only and close at their ends.
 */
#include "zone_site.h"

/* --- against the plain way ---------------------------------------------------------------------------------------- */

static bool is_free(const site *const s, const ds_vec p)
{
    for (size_t i = 0; i < s->solids_len; i++) {
        if (ds_outline_encloses(s->solids[i].at, s->solids[i].len, p)) {
            return false;
        }
    }
    return ds_outline_encloses(s->rooms[0].at, s->rooms[0].len, p);
}

/* The line cut at every edge: it sees when the middle of every piece is free. */
static bool sees_plainly(const site *const s, const ds_vec p, const ds_vec q)
{
    const ds_curve line = ds_segment(p, q);
    double cuts[16 * MOST] = {0, 1};
    size_t len = 2;
    for (size_t i = 0; i < s->used; i++) {
        for (size_t k = 0; k < 8 && (s->edges[i][k].a.x != 0 || s->edges[i][k].b.x != 0); k++) {
            len += ds_curve_meet(&line, &s->edges[i][k], &cuts[len]);
        }
    }
    for (size_t i = 0; i < len; i++) {
        double next = 2;
        for (size_t k = 0; k < len; k++) {
            next = cuts[k] > cuts[i] ? fmin(next, cuts[k]) : next;
        }
        const double middle = (cuts[i] + next) / 2;
        if (next <= 1 && next - cuts[i] > 1e-9 && !is_free(s, ds_curve_point(&line, middle))) {
            return false;
        }
    }
    return true;
}

static void random_room(site *const s, zone_dice *const dice)
{
    open_site(s, zone_between(dice, 0, 6.28));
    put_room(s, -3, -3, 3, 3);
    const int screens = 1 + (int)(8 * zone_roll(dice));
    for (int i = 0; i < screens; i++) {
        const ds_vec a = {zone_between(dice, -3, 3), zone_between(dice, -3, 3)};
        const ds_vec b = {zone_between(dice, -3, 3), zone_between(dice, -3, 3)};
        const ds_vec d = ds_vec_unit(ds_vec_minus(b, a));
        const double thick = zone_roll(dice) < 0.3 ? 1e-5 : zone_between(dice, 0.01, 0.4);
        const ds_vec n = {-d.y, d.x};
        const ds_vec corners[] = {a, b, ds_vec_along(b, thick, n), ds_vec_along(a, thick, n)};
        s->solids[s->solids_len++] = outline(s, corners, 4);
    }
    make(s);
}

static void sight_among_random_screens(void **const state)
{
    (void)state;
    zone_dice dice = {23};
    size_t seen = 0;
    size_t hidden = 0;
    for (int n = 0; n < 200; n++) {
        site s;
        random_room(&s, &dice);
        for (int k = 0; k < 100; k++) {
            const ds_vec p = turned(&s, zone_between(&dice, -3, 3), zone_between(&dice, -3, 3));
            const ds_vec q = turned(&s, zone_between(&dice, -3, 3), zone_between(&dice, -3, 3));
            assert_int_equal(ds_space_encloses(&s.space, p), is_free(&s, p));
            if (is_free(&s, p) && is_free(&s, q)) {
                const bool there = ds_space_sees(&s.space, p, q);
                assert_int_equal(there, sees_plainly(&s, p, q));
                assert_int_equal(there, ds_space_sees(&s.space, q, p));
                seen += there;
                hidden += !there;
            }
        }
        close_site(&s);
    }
    assert_true(seen > 2000 && hidden > 2000);
}

/* Every wall has free space on its left and none on its right; every corner lies where one wall ends and one begins. */
static void walls_close(void **const state)
{
    (void)state;
    zone_dice dice = {29};
    for (int n = 0; n < 200; n++) {
        site s;
        random_room(&s, &dice);
        for (size_t i = 0; i < s.space.walls_len; i++) {
            const ds_wall *const w = &s.space.walls[i];
            const ds_vec d = ds_vec_unit(ds_vec_minus(w->b, w->a));
            const ds_vec middle = ds_vec_along(w->a, 0.5, ds_vec_minus(w->b, w->a));
            assert_true(is_free(&s, ds_vec_along(middle, 1e-7, (ds_vec){-d.y, d.x})));
            assert_false(is_free(&s, ds_vec_along(middle, 1e-7, (ds_vec){d.y, -d.x})));
            assert_true(w->corner_a < s.space.corners_len && w->corner_b < s.space.corners_len);
            expect_near(ds_vec_between(s.space.corners[w->corner_a].at, w->a), 0, 1e-6);
            expect_near(ds_vec_between(s.space.corners[w->corner_b].at, w->b), 0, 1e-6);
        }
        close_site(&s);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sight_among_random_screens),
        cmocka_unit_test(walls_close),
    };
    return cmocka_run_group_tests_name("zone_space_prop", tests, NULL, NULL);
}
