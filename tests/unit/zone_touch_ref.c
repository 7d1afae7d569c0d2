/* SPDX-License-Identifier: MIT */
/*
 * Solids that touch, end on each other or meet in one point: they close the way, and each side of the point sees its own
 * side only. Everything is tried at many turns, so that the last digits differ.
 */
#include "zone_site.h"

/* --- solids that touch -------------------------------------------------------------------------------------------- */

/* Two solids across a room: the way is closed when they touch or overlap, and open at a gap of a millimetre. */
static void touching_solids_close_the_way(void **const state)
{
    (void)state;
    static const double GAPS[] = {-0.1, -1e-4, 0, 1e-3, 0.2};
    for (size_t t = 0; t < TURNS_LEN; t++) {
        for (size_t g = 0; g < sizeof GAPS / sizeof *GAPS; g++) {
            site s;
            open_site(&s, TURNS[t]);
            put_room(&s, 0, 0, 4, 3);
            put_solid(&s, 2, 0, 2.1, 1.5);
            put_solid(&s, 2, 1.5 + GAPS[g], 2.1, 3);
            make(&s);
            const bool open = GAPS[g] > 0;
            const double middle = 1.5 + GAPS[g] / 2;
            assert_int_equal(sees(&s, 1, middle, 3, middle), open);
            assert_int_equal(s.space.bends_len, open ? 4 : 0);
            expect_near(free_area(&s), 12 - 0.1 * (3 - (open ? GAPS[g] : 0)), 1e-9);
            close_site(&s);
        }
    }
}

/* A screen that ends on another, and thin ones that start on the wall line itself. */
static void screens_that_meet(void **const state)
{
    (void)state;
    for (size_t t = 0; t < TURNS_LEN; t++) {
        site s;
        open_site(&s, TURNS[t]);
        put_room(&s, 0, 0, 4, 3);
        put_solid(&s, 0, 1, 2, 1.00001);
        put_solid(&s, 2, 0, 2.00001, 2); /* its side touches the end of the first */
        make(&s);
        assert_false(sees(&s, 1, 0.5, 1, 1.5));
        assert_false(sees(&s, 1, 0.5, 3, 0.5));
        assert_false(sees(&s, 1, 0.5, 3, 1.5));
        assert_false(sees(&s, 0, 0.999, 0, 1.001)); /* along the wall through the foot */
        assert_false(sees(&s, 1.999, 0.999, 2.001, 1.001));
        assert_true(sees(&s, 1, 1.5, 3, 2.5)); /* over the free end */
        assert_int_equal(s.space.bends_len, 2);
        close_site(&s);
    }
}

/* Corner on corner: nothing slips through, and both sides can slide past. */
static void pinch_point(void **const state)
{
    (void)state;
    for (size_t t = 0; t < TURNS_LEN; t++) {
        site s;
        open_site(&s, TURNS[t]);
        put_room(&s, 0, 0, 4, 4);
        put_solid(&s, 0, 0, 2, 2);
        put_solid(&s, 2, 2, 4, 4);
        make(&s);
        expect_near(free_area(&s), 8, 1e-9);
        assert_int_equal(s.space.bends_len, 0);
        assert_false(sees(&s, 1, 3, 3, 1));
        assert_false(sees(&s, 0, 4, 4, 0));
        assert_false(sees(&s, 1, 2, 3, 2)); /* along one solid's side into the other's */
        assert_true(sees(&s, 1, 2, 1, 4) && sees(&s, 0, 2, 2, 2) && sees(&s, 2, 2, 2, 4));
        const ds_corner *const upper = corner_to(&s, 2, 2, 1, 3);
        const ds_corner *const lower = corner_to(&s, 2, 2, 3, 1);
        assert_true(upper && lower && upper != lower);
        assert_false(ds_space_corner_sees(&s.space, upper, turned(&s, 3, 1)));
        assert_false(upper->reflex || lower->reflex);
        assert_int_equal(upper->beside + lower->beside, 1);
        close_site(&s);
    }
}

/* Two wedges tip to tip: each free side turns more than half, so a string bends there, but on its own side. */
static void pinch_with_bends(void **const state)
{
    (void)state;
    for (size_t t = 0; t < TURNS_LEN; t++) {
        site s;
        open_site(&s, TURNS[t]);
        put_room(&s, 0, 0, 4, 4);
        put_triangle(&s, zone_vec(2, 2), zone_vec(1.5, 0.5), zone_vec(2.5, 0.5));
        put_triangle(&s, zone_vec(2, 2), zone_vec(2.5, 3.5), zone_vec(2.2, 3.5));
        make(&s);
        assert_false(sees(&s, 1, 2, 3, 2));
        assert_false(sees(&s, 0.5, 2.1, 3.5, 1.9));
        assert_true(sees(&s, 1, 2, 2, 2) && sees(&s, 3, 2, 2, 2));
        const ds_corner *const west = corner_to(&s, 2, 2, 1, 2);
        const ds_corner *const east = corner_to(&s, 2, 2, 3, 2);
        assert_true(west && east && west != east);
        assert_false(ds_space_corner_sees(&s.space, west, turned(&s, 3, 2)));
        assert_false(ds_space_corner_sees(&s.space, east, turned(&s, 1, 2)));
        /* West of it less than half a turn is free, east more. */
        assert_false(west->reflex);
        close_site(&s);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(touching_solids_close_the_way),
        cmocka_unit_test(screens_that_meet),
        cmocka_unit_test(pinch_point),
        cmocka_unit_test(pinch_with_bends),
    };
    return cmocka_run_group_tests_name("zone_touch_ref", tests, NULL, NULL);
}
