/* SPDX-License-Identifier: MIT */
/*
 * Printing and reading again: every mark that exists, every depth and time that the word can hold, every
 * need; and the fast path against the slow one.
 */
#include "mark_help.h"
#include "mark_random.h"

#include <math.h>

typedef void visit_claim(const ds_claim *claim);

static void each_water(ds_claim *const claim, visit_claim *const visit)
{
    static const double DEPTHS[] = {0, 0, 3, 0.5, 1, 1, 2, 122};
    static const double MINUTES[] = {0, 1440, 0, 1440, 30, 31, 10080, 635040};
    static const uint16_t NINES[] = {0, 1U << 9, 0};
    for (unsigned ladder = 0; ladder <= 8; ladder++) {
        for (unsigned rest = 0; rest < 2 * 9 * 3; rest++) {
            const unsigned eight = rest / 6;
            claim->water_stated = true;
            claim->water = (uint16_t)((ladder && ladder <= 6 ? 1U << ladder : 0) | (rest & 1 ? 1U << 7 : 0) |
                                      (eight ? 1U << 8 : 0) | NINES[rest / 2 % 3]);
            claim->water_foreign = (uint16_t)((ladder == 7   ? 1U << 4
                                               : ladder == 8 ? 1U << 6
                                                             : 0) |
                                              (rest / 2 % 3 == 2 ? 1U << 9 : 0));
            claim->depth_m = eight ? DEPTHS[eight - 1] : 0;
            claim->minutes = eight ? MINUTES[eight - 1] : 0;
            visit(claim);
        }
    }
    claim->water_stated = false;
    claim->water = 0;
    claim->water_foreign = 0;
    claim->depth_m = 0;
    claim->minutes = 0;
    visit(claim);
}

/* All first numerals with K and without, all letters, all multiple sets, all IK grades. */
static void each_claim(visit_claim *const visit)
{
    static const char LETTERS[] = {0, 'A', 'B', 'C', 'D'};
    for (int objects = -1; objects <= 8; objects++) {
        for (int letter = 0; letter < 5; letter++) {
            for (int impact = -1; impact <= 11; impact++) {
                ds_claim claim = DS_CLAIM_NOTHING;
                claim.objects = (int8_t)(objects > 6 ? objects - 2 : objects);
                claim.objects_foreign = objects > 6;
                claim.access = LETTERS[letter];
                claim.impact = (int8_t)impact;
                each_water(&claim, visit);
            }
        }
    }
}

/* "IP66K" is asked about, so a 4K or 6K beside a plain 5 or 6 prints only what it proves. */
static bool is_written_so(const ds_claim *const claim)
{
    const bool k = claim->water_foreign & (1U << 4 | 1U << 6);
    return !(k && claim->objects >= 5 && !claim->objects_foreign);
}

static size_t visited;

static void prints_and_reads(const ds_claim *const claim)
{
    const ds_mark mark = ds_mark_from(claim);
    const mark_text text = mark_printed(mark);
    const ds_reading reading = mark_read(text.at);
    const bool same = reading.mark == mark;
    const bool less = (ds_mark_proven(reading.mark) & ~ds_mark_proven(mark)) == 0;
    if (mark == DS_MARK_SILENT) {
        assert_string_equal(text.at, "");
    } else if (!(is_written_so(claim) ? same : less) || reading.status == DS_READ_REFUSED) {
        fail_msg("%s is read as %s", text.at, mark_printed(reading.mark).at);
    }
    visited++;
}

static void every_mark_prints_and_reads(void **const state)
{
    (void)state;
    visited = 0;
    each_claim(prints_and_reads);
    assert_int_equal(visited, 10 * 5 * 13 * (9 * 54 + 1));
}

/* --- supplementary letters ------------------------------------------------------------------------------ */

static void every_set_of_letters_reads(void **const state)
{
    (void)state;
    static const char *const CODES[] = {"IP23", "IPX4", "IP2X", "IP20C", "IPXXB", "IP65"};
    for (size_t i = 0; i < sizeof CODES / sizeof *CODES; i++) {
        for (unsigned letters = 0; letters < 16; letters++) {
            char text[16];
            size_t len = strlen(CODES[i]);
            memcpy(text, CODES[i], len);
            for (unsigned bit = 0; bit < 4; bit++) {
                if (letters >> bit & 1) {
                    text[len++] = "HMSW"[bit];
                }
            }
            text[len] = '\0';
            const ds_reading reading = mark_read(text);
            const bool asks = letters & 9; /* H and W */
            assert_int_equal(reading.letters, letters);
            assert_int_equal(reading.status, asks ? DS_READ_QUESTION : DS_READ_CODE);
            assert_true(reading.mark == mark_read(CODES[i]).mark);
            assert_true(reading.valid);
            assert_string_equal(mark_reading_printed(&reading).at, text);
        }
    }
}

/* --- depth and time ------------------------------------------------------------------------------------- */

static void immersion_reads_again(const double depth_m, const double minutes)
{
    const ds_claim claim = {.objects = 6,
                            .impact = -1,
                            .water_stated = true,
                            .water = 1U << 8,
                            .depth_m = depth_m,
                            .minutes = minutes};
    prints_and_reads(&claim);
}

static void every_depth_and_time_reads_again(void **const state)
{
    (void)state;
    for (int cm = 1; cm <= 12300; cm++) {
        immersion_reads_again(cm / 100.0, 1440);
    }
    for (int minutes = 1; minutes < 63 * 10080; minutes += minutes < 4000 ? 1 : 720) {
        immersion_reads_again(2, minutes);
    }
}

static ds_mark immersed(const double depth_m, const double minutes)
{
    const ds_claim claim = {.objects = -1,
                            .impact = -1,
                            .water_stated = true,
                            .water = 1U << 8,
                            .depth_m = depth_m,
                            .minutes = minutes};
    return ds_mark_from(&claim);
}

static ds_need to_immerse(const double depth_m, const double minutes)
{
    const ds_claim claim = {.objects = -1,
                            .impact = -1,
                            .water_stated = true,
                            .water = 1U << 8,
                            .depth_m = depth_m,
                            .minutes = minutes};
    return ds_need_from(&claim);
}

/* The figures that the header calls exact, of a mark and of a need. */
static void figures_in_use_are_exact(void **const state)
{
    (void)state;
    for (int i = 1; i <= 122; i++) {
        const double depths[] = {i / 100.0, i <= 50 ? i / 10.0 : i, i};
        for (int j = 0; j < 3; j++) {
            assert_true(ds_mark_depth_m(immersed(depths[j], 60)) == depths[j]);
            assert_true(ds_mark_depth_m(to_immerse(depths[j], 60)) == depths[j]);
        }
    }
    static const int UNITS[] = {1, 60, 1440, 10080};
    for (int i = 1; i <= 63; i++) {
        for (int j = 0; j < 4; j++) {
            assert_true(ds_mark_minutes(immersed(2, i * UNITS[j])) == i * UNITS[j]);
            assert_true(ds_mark_minutes(to_immerse(2, i * UNITS[j])) == i * UNITS[j]);
        }
    }
    for (int minutes = 75; minutes <= 480; minutes += minutes < 120 ? 15 : 30) {
        assert_true(ds_mark_minutes(immersed(2, minutes)) == minutes);
        assert_true(ds_mark_minutes(to_immerse(2, minutes)) == minutes);
    }
}

/* Down in a mark, up in a need, and by less than a tenth up to 122 m. */
static void rounding_is_never_towards_acceptance(void **const state)
{
    (void)state;
    mark_random r = {20};
    for (int i = 0; i < 100000; i++) {
        const double depth_m = 0.01 + mark_below(&r, 1000000) / (i % 2 ? 1000.0 : 9000.0);
        const double minutes = 1 + mark_below(&r, 1000000) / (i % 3 ? 1000.0 : 1.3);
        const double down = ds_mark_depth_m(immersed(depth_m, minutes));
        const double up = ds_mark_depth_m(to_immerse(depth_m, minutes));
        assert_true(down <= depth_m + 1e-6 && up >= depth_m - 1e-6);
        assert_true(ds_mark_minutes(immersed(depth_m, minutes)) <= minutes + 1e-6);
        assert_true(ds_mark_minutes(to_immerse(depth_m, minutes)) >= minutes - 1e-6);
        if (depth_m >= 0.2 && depth_m <= 122) {
            assert_true(down >= depth_m * 0.9 && up <= depth_m * 1.1);
        }
        assert_true(ds_mark_compare(to_immerse(depth_m, minutes), immersed(depth_m - 0.02, minutes), NULL) !=
                    DS_FITS);
    }
    assert_true(ds_mark_depth_m(immersed(1e9, 60)) == 122);
    assert_int_equal(ds_mark_compare(to_immerse(123, 60), immersed(1e9, 1e9), NULL), DS_SHORT);
    assert_int_equal(ds_mark_compare(to_immerse(122, 60), immersed(1e9, 1e9), NULL), DS_FITS);
}

static void figures_that_are_none_count_as_undeclared(void **const state)
{
    (void)state;
    static const double NONE[] = {0, -1, -1e300, (double)NAN, (double)INFINITY};
    for (size_t i = 0; i < sizeof NONE / sizeof *NONE; i++) {
        assert_true(immersed(NONE[i], NONE[i]) == immersed(0, 0));
    }
    assert_int_equal(ds_mark_compare(to_immerse((double)INFINITY, 0), immersed(1e9, 1e9), NULL), DS_SHORT);
}

/* --- needs ---------------------------------------------------------------------------------------------- */

static void a_printed_need_covers_the_need(void **const state)
{
    (void)state;
    mark_random r = {21};
    for (int i = 0; i < 50000; i++) {
        const ds_need need = mark_random_need(&r);
        const mark_text text = mark_need_printed(need);
        if (need == DS_NEED_NOTHING) {
            assert_string_equal(text.at, "nothing");
            continue;
        }
        const bool unnamed = need & DS_WATER(8) && !(ds_mark_depth_m(need) > 0 && ds_mark_minutes(need) > 0);
        if (unnamed || strstr(text.at, "more than")) {
            continue; /* no code declares that */
        }
        const ds_mark mark = mark_read(text.at).mark;
        const bool mild = need & DS_WATER(8) && (ds_mark_depth_m(need) < 1 || ds_mark_minutes(need) < 30);
        const bool as_7 = ds_mark_depth_m(need) == 1 && ds_mark_minutes(need) == 30;
        if (!mild && !as_7 && ds_mark_compare(need, mark, NULL) != DS_FITS) {
            fail_msg("%s does not cover what it stands for", text.at);
        }
        ds_need again;
        ds_reading reading;
        assert_true(ds_need_read(ds_str_of(text.at), &again, &reading));
        assert_true(ds_need_join(again, need) == need); /* the least: it asks for nothing else */
    }
}

static void a_mark_of_the_algebra_prints_no_more_than_it_proves(void **const state)
{
    (void)state;
    mark_random r = {22};
    for (int i = 0; i < 100000; i++) {
        const ds_mark a = mark_random_mark(&r);
        const ds_mark b = mark_random_mark(&r);
        const ds_mark made[] = {ds_mark_join(a, b), ds_mark_weakest(a, b), ds_mark_either(a, b),
                                ds_mark_with_access(a, 'B')};
        for (size_t j = 0; j < 4; j++) {
            const ds_claim claim = ds_claim_of(made[j]);
            const ds_mark again = ds_mark_from(&claim);
            assert_int_equal(ds_mark_proven(again) & ~ds_mark_proven(made[j]), 0);
            assert_true(ds_mark_impact(again) <= ds_mark_impact(made[j]));
        }
    }
}

/* --- the fast path -------------------------------------------------------------------------------------- */

static bool same_claim(const ds_claim *const a, const ds_claim *const b)
{
    return a->objects == b->objects && a->objects_foreign == b->objects_foreign && a->access == b->access &&
           a->water_stated == b->water_stated && a->water == b->water &&
           a->water_foreign == b->water_foreign && a->impact == b->impact && a->depth_m == b->depth_m &&
           a->minutes == b->minutes;
}

/* A full stop sends a text down the slow path and changes nothing but `valid`. */
static void expect_same_both_ways(const char *const text)
{
    char stopped[80];
    snprintf(stopped, sizeof stopped, "%s.", text);
    const ds_reading fast = mark_read(text);
    const ds_reading slow = mark_read(stopped);
    const bool same = fast.status == slow.status && fast.mark == slow.mark && fast.letters == slow.letters &&
                      fast.has_code == slow.has_code && fast.notes_len == slow.notes_len &&
                      same_claim(&fast.claim, &slow.claim);
    if (!same || slow.valid) {
        fail_msg("%s: fast %s, slow %s", text, ds_read_status_word(fast.status),
                 ds_read_status_word(slow.status));
    }
}

/* Every text of up to three pieces, clean or nearly so. */
static void the_fast_path_reads_what_the_slow_one_reads(void **const state)
{
    (void)state;
    static const char *const TAILS[] = {
        "",           "A",          "B",       "C",          "D",       "S",       "MS",        "SM",
        "BC",         "CS",         "H",       "W",          "K",       " IK08",   " IK10",     " IK11",
        " IK12",      "/IP67",      "/IP69",   "/IPX7",      "/IP68",   "/IP65",   "/67",       "/IK08",
        "/IP67 IK07", "/IPX7/IPX9", "C/IP2XC", "/IP66/IP67", "M/IP67M", "C/IP27C", "/IP07/IP09"};
    static const char NUMERALS[] = "0123456789X";
    for (const char *first = NUMERALS; *first; first++) {
        for (const char *second = NUMERALS; *second; second++) {
            for (size_t i = 0; i < sizeof TAILS / sizeof *TAILS; i++) {
                char text[64];
                snprintf(text, sizeof text, "IP%c%c%s", *first, *second, TAILS[i]);
                expect_same_both_ways(text);
            }
        }
    }
    for (int grade = 0; grade < 100; grade++) {
        char text[16];
        snprintf(text, sizeof text, "IK%02d", grade);
        expect_same_both_ways(text);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_mark_prints_and_reads),
        cmocka_unit_test(every_set_of_letters_reads),
        cmocka_unit_test(every_depth_and_time_reads_again),
        cmocka_unit_test(figures_in_use_are_exact),
        cmocka_unit_test(rounding_is_never_towards_acceptance),
        cmocka_unit_test(figures_that_are_none_count_as_undeclared),
        cmocka_unit_test(a_printed_need_covers_the_need),
        cmocka_unit_test(a_mark_of_the_algebra_prints_no_more_than_it_proves),
        cmocka_unit_test(the_fast_path_reads_what_the_slow_one_reads),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
