/* SPDX-License-Identifier: MIT */
/* Openings against the probes: tests/boxes/openings.json; and the two formulas by themselves. */
#include "box_help.h"

static ds_opening read_opening(box_world *const w, const ds_json *const row)
{
    const ds_box *const box = box_read(w, box_get(row, "box"));
    assert_true(box && box->faces_len == 1 && box->faces[0].openings_len == 1);
    return box->faces[0].openings[0];
}

static const char *letter_text(const char letter)
{
    static const char *const LETTERS[] = {"A", "B", "C", "D"};
    return letter ? LETTERS[letter - 'A'] : "none";
}

static void test_openings(void **const state)
{
    (void)state;
    static const char *const STATUS[] = {"measured", "no shape", "no size", "no triangle", "cable too big"};
    box_world w;
    box_open(&w, "openings.json");
    for (const ds_json *row = w.tree->first; row; row = row->next) {
        BOX_CHECK_KEYS(row, "box", "status", "clear_mm", "numeral", "letter", "solids", "access");
        const ds_opening opening = read_opening(&w, row);
        ds_probe probe;
        ds_probe_opening(&probe, &opening);
        assert_true(ds_mark_impact_ceiling(probe.mark) == DS_IMPACT_OPEN);
        assert_int_equal((ds_mark_proven(probe.mark) | ds_mark_denied(probe.mark)) & DS_WATER_ALL, 0);
        box_expect_text(row, "status", STATUS[probe.status]);
        box_expect_number(row, "clear_mm", probe.clear_mm);
        box_expect_number(row, "numeral", probe.numeral);
        box_expect_text(row, "letter", letter_text(probe.letter));
        box_expect_mark(&w, row, probe.mark);
    }
    assert_int_equal(w.job.problems.len, 0);
    box_close(&w);
}

/* How far the 50 mm ball and the 12 mm tip bulge through: geometry, r - sqrt(r2 - d2/4). */
static void test_bulge(void **const state)
{
    (void)state;
    static const double ROWS[][3] = {{50, 20, 2.1},  {50, 30, 5.0},  {50, 40, 10.0},
                                     {50, 45, 14.1}, {50, 49, 20.0}, {12, 6, 0.8},
                                     {12, 8, 1.5},   {12, 10, 2.7},  {12, 11.5, 4.3}};
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        assert_true(fabs(ds_probe_bulge_mm(ROWS[i][0], ROWS[i][1]) - ROWS[i][2]) < 0.05);
    }
    assert_true(isnan(ds_probe_bulge_mm(12, 12)));
}

/* A 2.5 mm rod through a hole of 6 mm in 2 mm of wall: 35 mm aside at 20 mm depth. */
static void test_rod(void **const state)
{
    (void)state;
    assert_true(fabs(ds_probe_rod_aside_mm(2.5, 6, 2, 20) - 35) < 1e-9);
    assert_true(ds_probe_rod_aside_mm(2.5, 2.5, 2, 20) == 0);
    assert_true(isinf(ds_probe_rod_aside_mm(2.5, 6, NAN, 20)));
}

/* The limits themselves: a probe of just the opening's size goes through. */
static void test_limits(void **const state)
{
    (void)state;
    static const struct {
        double clear_mm;
        int numeral;
    } ROWS[] = {{50, 0},   {49.99, 1}, {12.5, 1}, {12.49, 2}, {2.5, 2},        {2.49, 3},      {1.0, 3},
                {0.99, 4}, {0.01, 4},  {20.5, 1}, {63.5, 0},  {20.5 - 8.0, 1}, {12.6 - 0.1, 1}};
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        assert_int_equal(ds_probe_numeral(ROWS[i].clear_mm), ROWS[i].numeral);
    }
    assert_int_equal(ds_probe_numeral(NAN), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_openings),
        cmocka_unit_test(test_bulge),
        cmocka_unit_test(test_rod),
        cmocka_unit_test(test_limits),
    };
    return cmocka_run_group_tests_name("box_probe_ref", tests, NULL, NULL);
}
