/* SPDX-License-Identifier: MIT */
/*
 * Free space: what is left of rooms, how rooms join, where sight slides along walls. Everything is tried at many turns, so
 * that the last digits differ.
 */
#include "zone_site.h"

/* --- what is free ------------------------------------------------------------------------------------------------- */

static void plain_room(void **const state)
{
    (void)state;
    for (size_t t = 0; t < TURNS_LEN; t++) {
        site s;
        open_site(&s, TURNS[t]);
        put_room(&s, 0, 0, 4, 3);
        make(&s);
        assert_int_equal(s.space.walls_len, 4);
        assert_int_equal(s.space.corners_len, 4);
        assert_int_equal(s.space.bends_len, 0);
        expect_near(free_area(&s), 12, 1e-9);
        assert_true(holds(&s, 2, 1) && holds(&s, 0, 1) && holds(&s, 4, 3));
        assert_false(holds(&s, -0.001, 1) || holds(&s, 2, 3.001));
        assert_true(sees(&s, 0, 0, 4, 3) && sees(&s, 0, 0, 4, 0) && sees(&s, 1, 1, 3, 2));
        close_site(&s);
    }
}

static void corner_of_an_l(void **const state)
{
    (void)state;
    for (size_t t = 0; t < TURNS_LEN; t++) {
        site s;
        open_site(&s, TURNS[t]);
        const ds_vec corners[] = {{0, 0}, {4, 0}, {4, 2}, {2, 2}, {2, 4}, {0, 4}};
        s.rooms[s.rooms_len++] = outline(&s, corners, 6);
        make(&s);
        assert_int_equal(s.space.bends_len, 1);
        expect_near(free_area(&s), 12, 1e-9);
        const ds_vec bend = s.space.corners[s.space.bends[0]].at;
        expect_near(ds_vec_between(bend, turned(&s, 2, 2)), 0, 1e-9);
        assert_true(sees(&s, 1, 3, 3, 1)); /* past the corner, touching it */
        assert_true(sees(&s, 2, 4, 2, 0)); /* along the wall and on */
        assert_true(sees(&s, 4, 2, 0, 2));
        assert_false(sees(&s, 1, 3.01, 3, 1.01)); /* through it */
        assert_false(sees(&s, 1.9, 3.9, 3.9, 1.9));
        close_site(&s);
    }
}

static void solids_overlap_and_stand_on_walls(void **const state)
{
    (void)state;
    for (size_t t = 0; t < TURNS_LEN; t++) {
        site s;
        open_site(&s, TURNS[t]);
        put_room(&s, 0, 0, 4, 3);
        put_solid(&s, 1, 1, 2, 2);
        put_solid(&s, 1.5, 1.5, 2.5, 2.5); /* across it */
        put_solid(&s, 1.2, 1.2, 1.4, 1.4); /* within it */
        put_solid(&s, 3, -1, 3.1, 1);      /* out of the wall */
        put_solid(&s, 0, 2.5, 0.5, 3);     /* in a corner, edge on edge */
        put_solid(&s, 5, 5, 6, 6);         /* not in the room */
        make(&s);
        expect_near(free_area(&s), 12 - 1.75 - 0.1 - 0.25, 1e-9);
        assert_false(holds(&s, 1.3, 1.3) || holds(&s, 1.75, 1.75) || holds(&s, 3.05, 0.5));
        assert_false(holds(&s, 5.5, 5.5));
        assert_true(holds(&s, 2.2, 1.2));
        /* Six outer corners of the cross, two at the end of the screen, one of the corner block. */
        assert_int_equal(s.space.bends_len, 9);
        close_site(&s);
    }
}

static void a_column_is_a_hole(void **const state)
{
    (void)state;
    for (size_t t = 0; t < TURNS_LEN; t++) {
        site s;
        open_site(&s, TURNS[t]);
        put_room(&s, 0, 0, 4, 3);
        put_solid(&s, 1, 1, 2, 2);
        make(&s);
        expect_near(free_area(&s), 11, 1e-9);
        assert_int_equal(s.space.bends_len, 4);
        assert_false(sees(&s, 0.5, 1.5, 3, 1.5));
        assert_true(sees(&s, 0.5, 1, 3, 1)); /* along its side, which begins and ends on the way */
        assert_true(sees(&s, 0.5, 0.5, 1, 1));
        assert_false(sees(&s, 0.5, 0.5, 2.5, 2.5)); /* from corner to corner through it */
        assert_true(sees(&s, 0, 2, 2, 0));          /* past one corner, touching it */
        expect_near(ds_space_distance(&s.space, turned(&s, 3, 1.5)), 1, 1e-9);
        close_site(&s);
    }
}

/* --- rooms that are joined ---------------------------------------------------------------------------------------- */

static void an_opening_joins_two_rooms(void **const state)
{
    (void)state;
    for (size_t t = 0; t < TURNS_LEN; t++) {
        for (int open = 0; open < 2; open++) {
            site s;
            open_site(&s, TURNS[t]);
            put_room(&s, 0, 0, 2, 2);
            put_room(&s, 2.1, 0, 4, 2);
            if (open) {
                put_room(&s, 1.999, 0.5, 2.101, 1.5);
            }
            make(&s);
            expect_near(free_area(&s), 7.8 + (open ? 0.1 : 0), 1e-9);
            assert_int_equal(s.space.bends_len, open ? 4 : 0);
            assert_int_equal(sees(&s, 1, 1, 3, 1), open);
            assert_int_equal(sees(&s, 1, 0.5, 3, 0.5), open); /* along the jamb */
            assert_false(sees(&s, 1, 0.2, 3, 0.2));
            close_site(&s);
        }
    }
}

/* A recess that touches the wall line edge on edge is part of the room. */
static void a_niche_opens_to_the_room(void **const state)
{
    (void)state;
    for (size_t t = 0; t < TURNS_LEN; t++) {
        site s;
        open_site(&s, TURNS[t]);
        put_room(&s, 0, 0, 4, 3);
        put_room(&s, 1, 3, 2, 3.3);
        make(&s);
        expect_near(free_area(&s), 12.3, 1e-9);
        assert_true(sees(&s, 1.5, 1, 1.5, 3.2));
        assert_false(sees(&s, 3.9, 2.9, 1.1, 3.25));
        assert_int_equal(s.space.bends_len, 2);
        close_site(&s);
    }
}

/* --- sight along walls -------------------------------------------------------------------------------------------- */

static void sight_slides_along_walls(void **const state)
{
    (void)state;
    for (size_t t = 0; t < TURNS_LEN; t++) {
        site s;
        open_site(&s, TURNS[t]);
        put_room(&s, 0, 0, 6, 3);
        put_solid(&s, 2, 0.5, 3, 1); /* two blocks with sides in one line */
        put_solid(&s, 4, 0.5, 5, 1);
        put_solid(&s, 1, 2, 1.1, 3); /* a screen from the wall */
        make(&s);
        assert_true(sees(&s, 0, 1, 6, 1) && sees(&s, 0, 0.5, 6, 0.5)); /* along both blocks */
        assert_true(sees(&s, 0, 0, 6, 0));                             /* along the wall */
        assert_false(sees(&s, 0, 3, 6, 3));                            /* a screen stands on it */
        assert_true(sees(&s, 1.1, 3, 6, 3));                           /* from its foot */
        assert_true(sees(&s, 2, 0.5, 2, 1) && sees(&s, 2, 1, 2, 3));
        assert_false(sees(&s, 2, 0.5, 3, 1)); /* within a block from corner to corner */
        assert_false(sees(&s, 3, 0.7, 2, 0.7));
        assert_true(sees(&s, 3, 0.7, 4, 0.7)); /* from wall to wall between them */
        assert_true(sees(&s, 1, 2, 1, 0) && sees(&s, 1, 3, 1, 0));
        assert_false(sees(&s, 0.9, 2.5, 1.2, 2.5));
        close_site(&s);
    }
}

static void a_corner_sees_its_own_side(void **const state)
{
    (void)state;
    for (size_t t = 0; t < TURNS_LEN; t++) {
        site s;
        open_site(&s, TURNS[t]);
        put_room(&s, 0, 0, 4, 3);
        put_solid(&s, 1, 1, 2, 2);
        make(&s);
        assert_non_null(corner_to(&s, 2, 2, 3, 3));
        assert_non_null(corner_to(&s, 2, 2, 3, 2)); /* along its own sides */
        assert_non_null(corner_to(&s, 2, 2, 2, 1));
        assert_non_null(corner_to(&s, 2, 2, 3, 0.5));
        assert_null(corner_to(&s, 2, 2, 1, 1)); /* through itself */
        assert_null(corner_to(&s, 2, 2, 1.4, 0.5));
        for (size_t i = 0; i < 4; i++) {
            for (size_t k = 0; k < 4; k++) {
                const ds_vec p = s.space.corners[s.space.bends[i]].at;
                const ds_vec q = s.space.corners[s.space.bends[k]].at;
                const double far = ds_vec_between(p, q);
                if (i != k) {
                    expect_near(ds_space_between(&s.space, i, k), far < 1.1 ? far : INFINITY, 1e-12);
                }
            }
        }
        close_site(&s);
    }
}

/* --- limits ----------------------------------------------------------------------------------------------------------- */

static void too_many_walls(void **const state)
{
    (void)state;
    static ds_curve edges[DS_SPACE_WALLS + 1];
    for (size_t len = DS_SPACE_WALLS; len <= DS_SPACE_WALLS + 1; len++) {
        for (size_t i = 0; i < len; i++) {
            const double a = 6.283185307179586 * (double)i / (double)len;
            const double b = 6.283185307179586 * (double)(i + 1) / (double)len;
            edges[i] = ds_segment(zone_vec(5 * cos(a), 5 * sin(a)), zone_vec(5 * cos(b), 5 * sin(b)));
        }
        site s;
        open_site(&s, 0);
        const ds_outline room = {edges, len};
        assert_int_equal(ds_space_make(&s.space, &room, 1, NULL, 0, &s.arena),
                         len > DS_SPACE_WALLS ? DS_BAD_INPUT : DS_OK);
        close_site(&s);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(plain_room),
        cmocka_unit_test(corner_of_an_l),
        cmocka_unit_test(solids_overlap_and_stand_on_walls),
        cmocka_unit_test(a_column_is_a_hole),
        cmocka_unit_test(an_opening_joins_two_rooms),
        cmocka_unit_test(a_niche_opens_to_the_room),
        cmocka_unit_test(sight_slides_along_walls),
        cmocka_unit_test(a_corner_sees_its_own_side),
        cmocka_unit_test(too_many_walls),
    };
    return cmocka_run_group_tests_name("zone_space_ref", tests, NULL, NULL);
}
