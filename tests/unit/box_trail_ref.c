/* SPDX-License-Identifier: MIT */
/* The steps of a calculation, followed with nothing but what is printed. */
#include "heat_help.h"

/* With nothing but the printed numbers of each step, its result comes out. */
static void trail_can_be_followed(void **state)
{
    (void)state;
    paper p;
    paper_start(&p);
    ds_heat_case c = box(0.6, 0.4, 0.2, 60);
    c.air_c = 35;
    c.sun_flat_w_m2 = 900;
    c.sun_wall_w_m2 = 600;
    c.wind_m_s = 2;
    c.colour = ds_colour_of(DS_STR("light-grey"));
    const ds_heat_answer a = solved(c);
    ds_heat_trail(&p.trail, &c, &a, 55);
    assert_true(ds_trail_ok(&p.trail));
    const ds_trail_step *s = step_of(&p, "rise by the trade formula");
    near(read_off(s, "P", 0) / (read_off(s, "k", 0) * read_off(s, "A", 0)) + read_off(s, "dTs", 0), s->value,
         0.01);
    s = step_of(&p, "sunshine on the exposed faces");
    const double walls = hypot(read_off(s, "front", 0), read_off(s, "side", 0));
    near(read_off(s, "top", 0) * read_off(s, "flat", 0) + read_off(s, "wall", 0) * walls, s->value, 0.1);
    s = step_of(&p, "rise at half height by the curve");
    near(read_off(s, "k", 0) * pow(read_off(s, "P", 0), 0.804) + read_off(s, "dTs", 0), s->value, 0.02);
    s = step_of(&p, "Rayleigh number of the sides, L their height");
    const double nu = read_off(s, "nu", 0) * 1e-6;
    near(9.81 * read_off(s, "beta", 0) * read_off(s, "dT", 0) * pow(read_off(s, "L", 0), 3) * 0.7268 /
             (nu * nu) / s->value,
         1, 2e-3);
    s = step_of(&p, "outer film of air, sides");
    near(read_off(s, "lambda", 0) / read_off(s, "L", 0) *
             pow(0.825 + 0.387 * pow(read_off(s, "Ra", 0), 1.0 / 6) / 1.191, 2),
         s->value, 2e-3 * s->value);
    s = step_of(&p, "outer film by radiation");
    const double t1 = read_off(s, "T1", 0);
    const double t2 = read_off(s, "T2", 0);
    near(read_off(s, "eps", 0) * 5.67e-8 * (t1 * t1 + t2 * t2) * (t1 + t2), s->value, 2e-3 * s->value);
    s = step_of(&p, "outer film, all faces");
    double sum = 0;
    static const char *const FACES[] = {"top", "bottom", "front", "rear", "left", "right"};
    for (int face = 0; face < DS_HEAT_FACES; face++) {
        sum += read_off(s, FACES[face], 0) * (read_off(s, "h", face) + read_off(s, "hr", 0));
    }
    near(sum, s->value, 2e-3 * s->value);
    s = step_of(&p, "skin above the air");
    near((read_off(s, "Pw", 0) + read_off(s, "Q", 0)) / read_off(s, "H", 0), s->value, 2e-3 * s->value);
    s = step_of(&p, "inside air above the wall");
    near(read_off(s, "Pw", 0) / read_off(s, "H", 0), s->value, 2e-3 * s->value);
    s = step_of(&p, "rise at half height by physics, surface at its worst");
    near(read_off(s, "dT1", 0) + read_off(s, "dT2", 0) + read_off(s, "dT3", 0), s->value, 0.01);
    near(s->value, a.by[DS_HEAT_PHYSICS].mid_k.high, 1e-9);
    s = step_of(&p, "rise at the top by physics");
    near(read_off(s, "dT", 0) + (read_off(s, "c", 0) - 1) * (read_off(s, "dT", 0) - read_off(s, "dTs", 0)),
         s->value, 0.02);
    s = step_of(&p, "inside at the warmest");
    near(read_off(s, "air", 0) + read_off(s, "highest rise", 0), s->value, 0.01);
    near(read_off(s, "limit", 0), 55, 0);
    paper_end(&p);
}

/* The curve's steps say that they come from memory; so does the top. */
static void trail_names_its_sources(void **state)
{
    (void)state;
    paper p;
    paper_start(&p);
    const ds_heat_case c = box(0.6, 0.4, 0.2, 60);
    const ds_heat_answer a = solved(c);
    ds_heat_trail(&p.trail, &c, &a, NAN);
    assert_int_equal(step_of(&p, "k of the curve")->source.kind, DS_SOURCE_MEMORY);
    assert_int_equal(step_of(&p, "rise at the top by physics")->source.kind, DS_SOURCE_MEMORY);
    assert_int_equal(step_of(&p, "effective area")->source.kind, DS_SOURCE_PUBLISHED);
    assert_non_null(
        strstr(step_of(&p, "rise at half height by the curve")->inputs.at, "does not decide alone"));
    ds_text text;
    ds_text_init(&text, p.arena.alloc);
    ds_trail_say_result(&text, step_of(&p, "rise by the trade formula"));
    ds_text_add(&text, ": ");
    ds_trail_say_way(&text, step_of(&p, "rise by the trade formula"));
    ds_text_char(&text, '\0');
    assert_string_equal(text.at, "16.43 K: dT = P / (k A + F) + dTs; P = 60 W; k = 5.5 W/m2K; A = 0.664 m2; "
                                 "F = 0 W/K; dTs = 0 K (published: trade manuals and articles)");
    ds_text_free(&text);
    paper_end(&p);
}

static void trail_of_bad_input_is_empty(void **state)
{
    (void)state;
    paper p;
    paper_start(&p);
    const ds_heat_case c = DS_HEAT_CASE_NOTHING;
    ds_heat_answer a;
    ds_heat_solve(&a, &c);
    ds_heat_trail(&p.trail, &c, &a, 55);
    assert_int_equal(p.trail.len, 0);
    paper_end(&p);
}

/* Whatever request for memory fails, the trail says so and gives everything back. */
static void trail_without_memory(void **state)
{
    (void)state;
    const ds_heat_case c = box(0.6, 0.4, 0.2, 60);
    const ds_heat_answer a = solved(c);
    size_t fail_at = 1;
    for (bool ok = false; !ok; fail_at++) {
        paper p;
        paper_start(&p);
        p.memory.fail_at = fail_at;
        ds_heat_trail(&p.trail, &c, &a, 55);
        ok = ds_trail_ok(&p.trail);
        for (size_t i = 0; i < p.trail.len; i++) {
            assert_true(p.trail.at[i].what.len > 0);
        }
        paper_end(&p);
    }
    assert_in_range(fail_at, 10, 200);
}

/* 0 to 9999: four figures and no more; above that whole numbers; below 1 as many places as it takes. */
static void figures(void **state)
{
    (void)state;
    static const struct {
        double value;
        const char *shown;
    } ROWS[] = {{0, "0"},           {0.06453, "0.06453"},      {0.5, "0.5"},
                {1.23456, "1.235"}, {16.4293, "16.43"},        {293.15, "293.15"},
                {9406.7, "9407"},   {101325, "101325"},        {-2.5, "-2.5"},
                {NAN, "?"},         {0.00003333, "0.00003333"}};
    test_alloc memory = test_alloc_make(0);
    for (size_t i = 0; i < sizeof ROWS / sizeof *ROWS; i++) {
        ds_text text;
        ds_text_init(&text, test_alloc_use(&memory));
        ds_trail_figure(&text, ROWS[i].value);
        ds_text_char(&text, '\0');
        assert_string_equal(text.at, ROWS[i].shown);
        ds_text_free(&text);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(trail_can_be_followed),
        cmocka_unit_test(trail_names_its_sources),
        cmocka_unit_test(trail_of_bad_input_is_empty),
        cmocka_unit_test(trail_without_memory),
        cmocka_unit_test(figures),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
