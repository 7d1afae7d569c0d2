/* SPDX-License-Identifier: MIT */
/*
 * Dimension lines, strings, scale bars and callouts: scales and bars against arithmetic by hand, dimension lines by
 * where their text stands and which way it runs, callouts by the law that none lies on another.
 */
#include "mark_random.h"
#include "sheet_help.h"

#include "core/draw/callout.h"
#include "core/draw/measure.h"

#include <math.h>
#include <stdio.h>

static const double NEAR = 1e-9;

/* --- scales ------------------------------------------------------------------------------------------------------- */

static void scales_that_fit(void **state)
{
    (void)state;
    static const struct {
        double width_m, height_m, paper_width_mm, paper_height_mm;
        unsigned scale;
    } CASES[] = {
        {1.6, 1.1, 160, 110, 10},   {1.61, 1.1, 160, 110, 20}, {3.2, 2.2, 160, 110, 20},
        {3.6, 2.4, 160, 110, 25},   {1, 2.75, 160, 110, 25},   {25, 12, 160, 110, 200},
        {160, 110, 160, 110, 1000}, {161, 1, 160, 110, 2000},  {0, 1, 160, 110, 0},
        {1, -1, 160, 110, 0},       {NAN, 1, 160, 110, 0},     {1, 1, 0, 110, 0},
        {INFINITY, 1, 160, 110, 0}, {1e300, 1, 160, 110, 0},   {1, 1, NAN, 110, 0},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        assert_int_equal(ds_scale_for(CASES[i].width_m, CASES[i].height_m, CASES[i].paper_width_mm,
                                      CASES[i].paper_height_mm),
                         CASES[i].scale);
    }
}

/* At 1:25 a metre is 40 mm; the bar would be 80 mm with two. */
static void scale_bar_at_one_to_25(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 100, 20);
    ds_measure_scale_bar(&d.sheet, 9, 5, 25);
    expect_in(&d, "<path d=\"M10 8.5H50V10.1H10Z\" fill=\"#fff\"");
    expect_in(&d, "<path d=\"M10 8.5H20V10.1H10ZM30 8.5H40V10.1H30Z\" stroke");
    expect_in(&d, ">0</text>");
    expect_in(&d, ">0.5</text>");
    expect_in(&d, ">1 m</text>");
    expect_in(&d, ">1:25</text>");
    ds_measure_scale_bar(&d.sheet, 0, 0, 0);
    assert_int_equal(count_in(&d, "<g "), 1);
    close_desk(&d);
}

/* Longest of 1, 2, 5 and their tens within 60 mm. */
static void scale_bars_have_round_lengths(void **state)
{
    (void)state;
    static const struct {
        unsigned scale;
        double length_mm;
        const char *whole;
    } CASES[] = {{10, 50, ">0.5 m<"}, {20, 50, ">1 m<"},    {25, 40, ">1 m<"},
                 {50, 40, ">2 m<"},   {100, 50, ">5 m<"},   {200, 50, ">10 m<"},
                 {250, 40, ">10 m<"}, {1000, 50, ">50 m<"}, {2000, 50, ">100 m<"}};
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        desk d;
        open_desk(&d, 100, 20);
        ds_measure_scale_bar(&d.sheet, 0, 0, CASES[i].scale);
        assert_true(fabs(d.sheet.steps[1].x - d.sheet.steps[0].x - CASES[i].length_mm) < NEAR);
        expect_in(&d, CASES[i].whole);
        close_desk(&d);
    }
}

/* --- dimension lines ---------------------------------------------------------------------------------------------- */

static const ds_item *text_of(const ds_sheet *const sheet)
{
    const ds_item *found = NULL;
    for (size_t i = 0; i < sheet->item_len; i++) {
        found = sheet->items[i].kind == DS_ITEM_TEXT ? &sheet->items[i] : found;
    }
    assert_non_null(found);
    return found;
}

typedef struct dimension_case {
    ds_stretch span;
    double off_mm;
    double text_x, text_y, turn_deg; /* by hand: 1 mm above the line, as one reads it */
} dimension_case;

static void dimension_texts_stand_above_their_line(void **state)
{
    (void)state;
    static const dimension_case CASES[] = {
        {{10, 50, 50, 50}, 8, 30, 41, 0}, /* walked to the right: left is up */
        {{50, 50, 10, 50}, 8, 30, 57, 0}, /* to the left: below; read from below all the same */
        {{10, 50, 50, 50}, -8, 30, 57, 0},
        {{20, 60, 20, 20}, 8, 11, 40, -90}, /* upwards: left of it, read from the right */
        {{20, 20, 20, 60}, 8, 27, 40, -90},
        {{20, 60, 20, 20}, -8, 27, 40, -90},
        {{0, 0, 30, 40}, 0, 15.8, 19.4, 53.130102354155978},
        {{30, 40, 0, 0}, 0, 15.8, 19.4, 53.130102354155978},
        {{0, 40, 30, 0}, 0, 14.2, 19.4, -53.130102354155978},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        desk d;
        open_desk(&d, 100, 100);
        ds_measure_dimension(&d.sheet, CASES[i].span, CASES[i].off_mm, DS_STR("4 m"));
        assert_int_equal(ds_sheet_status(&d.sheet), DS_OK);
        const ds_item *const text = text_of(&d.sheet);
        assert_true(fabs(text->x - CASES[i].text_x) < NEAR && fabs(text->y - CASES[i].text_y) < NEAR);
        assert_true(fabs(text->how.turn_deg - CASES[i].turn_deg) < NEAR);
        assert_int_equal(text->how.anchor, DS_ANCHOR_MIDDLE);
        close_desk(&d);
    }
}

/* One line from tick to tick, with what sticks out; two extension lines; two ticks. */
static void a_dimension_by_hand(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 100, 100);
    ds_measure_dimension(&d.sheet, (ds_stretch){10, 50, 50, 50}, 8, DS_STR("4 m"));
    expect_in(&d, "<g class=\"dimension\" role=\"graphics-object group\"><title>4 m</title>\n"
                  "<path d=\"M10 49V40.5\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.13\"/>\n"
                  "<path d=\"M8.7 43.3L11.3 40.7\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.35\"/>\n"
                  "<path d=\"M50 49V40.5\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.13\"/>\n"
                  "<path d=\"M48.7 43.3L51.3 40.7\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.35\"/>\n"
                  "<path d=\"M8.7 42H51.3\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.18\"/>\n");
    close_desk(&d);
}

static void a_text_too_long_stands_behind(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 100, 100);
    ds_measure_dimension(&d.sheet, (ds_stretch){10, 50, 13, 50}, 8, DS_STR("0.08 m"));
    assert_true(text_of(&d.sheet)->x > 13 + 1.3);
    assert_int_equal(text_of(&d.sheet)->how.anchor, DS_ANCHOR_START);
    ds_measure_dimension(&d.sheet, (ds_stretch){13, 50, 10, 50}, 8, DS_STR("0.08 m"));
    assert_true(text_of(&d.sheet)->x < 10 - 1.3);
    assert_int_equal(text_of(&d.sheet)->how.anchor, DS_ANCHOR_END);
    close_desk(&d);
}

static void spans_of_nothing(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 100, 100);
    ds_measure_dimension(&d.sheet, (ds_stretch){10, 50, 10, 50}, 8, DS_STR("0 m"));
    assert_int_equal(d.sheet.item_len, 0);
    assert_int_equal(ds_sheet_status(&d.sheet), DS_OK);
    ds_measure_dimension(&d.sheet, (ds_stretch){10, 50, NAN, 50}, 8, DS_STR("?"));
    assert_int_equal(ds_sheet_status(&d.sheet), DS_BAD_INPUT);
    close_desk(&d);
}

/* --- string and north --------------------------------------------------------------------------------------------- */

static void a_string_around_a_corner(void **state)
{
    (void)state;
    static const double PLACES[][2] = {{10, 40}, {10, 20}, {60, 20}};
    desk d;
    open_desk(&d, 100, 100);
    ds_measure_string(&d.sheet, PLACES, 1, DS_STR("nothing"));
    assert_int_equal(d.sheet.item_len, 0);
    ds_measure_string(&d.sheet, PLACES, 3, DS_STR("2.31 m"));
    expect_in(&d, "<g class=\"string\" role=\"graphics-object group\"><title>2.31 m</title>\n"
                  "<path d=\"M10 40V20H60\" fill=\"none\" stroke=\"#fff\" stroke-width=\"2.1\"/>\n"
                  "<path d=\"M10 40V20H60\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.7\"/>\n");
    assert_true(text_of(&d.sheet)->x == 35 && text_of(&d.sheet)->y == 19); /* of the longer leg */
    close_desk(&d);
}

static void north_turns_clockwise(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 100, 100);
    ds_measure_north(&d.sheet, 50, 50, 0);
    assert_true(fabs(d.sheet.steps[0].x - 50) < NEAR && fabs(d.sheet.steps[0].y - 44) < NEAR);
    ds_measure_north(&d.sheet, 50, 50, 90);
    const ds_item *const text = text_of(&d.sheet);
    assert_true(text->x > 56 && fabs(text->y - 50) < NEAR);
    close_desk(&d);
}

/* --- callouts ----------------------------------------------------------------------------------------------------- */

static bool meet(const ds_callout *const a, const ds_callout *const b)
{
    return fabs(a->label_x - b->label_x) < 5.4 && fabs(a->label_y - b->label_y) < 5.4;
}

enum { CALLOUTS = 24 };

static void scatter(ds_callout callouts[CALLOUTS], mark_random *const r)
{
    static const ds_str NUMBERS[] = {{"1", 1}, {"12", 2}, {"7", 1}};
    for (int i = 0; i < CALLOUTS; i++) {
        callouts[i] = (ds_callout){
            .x = 10 + mark_below(r, 1400) * 0.1, .y = 10 + mark_below(r, 900) * 0.1, .text = NUMBERS[i % 3]};
    }
}

/* Two leaders, by the signs of four areas. */
static double area(const double a_x, const double a_y, const double b_x, const double b_y, const double c_x,
                   const double c_y)
{
    return (b_x - a_x) * (c_y - a_y) - (b_y - a_y) * (c_x - a_x);
}

static bool leaders_cross(const ds_callout *const a, const ds_callout *const b)
{
    return area(a->x, a->y, a->label_x, a->label_y, b->x, b->y) *
                   area(a->x, a->y, a->label_x, a->label_y, b->label_x, b->label_y) <
               0 &&
           area(b->x, b->y, b->label_x, b->label_y, a->x, a->y) *
                   area(b->x, b->y, b->label_x, b->label_y, a->label_x, a->label_y) <
               0;
}

/* How near a leader, walked in small steps, comes to a place, as the larger of across and down. */
static double nearest(const ds_callout *const of, const double x, const double y)
{
    double least = INFINITY;
    for (int i = 0; i <= 200; i++) {
        const double across = fabs(of->x + (of->label_x - of->x) * i / 200 - x);
        const double down = fabs(of->y + (of->label_y - of->y) * i / 200 - y);
        least = fmin(least, fmax(across, down));
    }
    return least;
}

static void expect_apart(const ds_callout *const one, const ds_callout *const other)
{
    assert_false(meet(one, other));
    assert_true(hypot(one->label_x - other->x, one->label_y - other->y) > 2.7);
    assert_false(leaders_cross(one, other));
    assert_true(nearest(one, other->label_x, other->label_y) > 2.6);
    const bool touching = hypot(one->x - other->x, one->y - other->y) < 2; /* no leader can begin elsewhere */
    assert_true(touching || nearest(one, other->x, other->y) > 0.7);
}

/* What is said to be free is free, by the plain test on circles' squares. */
static void callouts_keep_clear(void **state)
{
    (void)state;
    mark_random r = {5};
    const ds_patch bounds = {0, 0, 160, 110};
    size_t free_rounds = 0;
    for (int round = 0; round < 100; round++) {
        ds_callout callouts[CALLOUTS];
        scatter(callouts, &r);
        const ds_patch taken = {40, 40, 70, 60};
        if (ds_callouts_place(callouts, CALLOUTS, bounds, &taken, 1) > 0) {
            continue;
        }
        free_rounds++;
        for (int i = 0; i < CALLOUTS; i++) {
            const ds_callout *const one = &callouts[i];
            assert_true(one->label_x > 2.7 && one->label_x < 157.3 && one->label_y > 2.7 &&
                        one->label_y < 107.3);
            assert_false(one->label_x > 37.3 && one->label_x < 72.7 && one->label_y > 37.3 &&
                         one->label_y < 62.7);
            for (int j = 0; j < CALLOUTS; j++) {
                if (j != i) {
                    expect_apart(one, &callouts[j]);
                }
            }
        }
    }
    assert_true(free_rounds > 80);
}

static void callouts_are_the_same_each_time(void **state)
{
    (void)state;
    ds_callout first[CALLOUTS];
    ds_callout second[CALLOUTS];
    scatter(first, &(mark_random){6});
    scatter(second, &(mark_random){6});
    const ds_patch bounds = {0, 0, 160, 110};
    assert_int_equal(ds_callouts_place(first, CALLOUTS, bounds, NULL, 0),
                     ds_callouts_place(second, CALLOUTS, bounds, NULL, 0));
    for (int i = 0; i < CALLOUTS; i++) {
        assert_true(first[i].label_x == second[i].label_x && first[i].label_y == second[i].label_y);
    }
}

/* Forty points in one spot: some find no free place, and that is said; none is lost. */
static void a_crowd_is_told(void **state)
{
    (void)state;
    ds_callout crowd[40];
    for (int i = 0; i < 40; i++) {
        crowd[i] = (ds_callout){.x = 15, .y = 15, .text = DS_STR("8")};
    }
    assert_true(ds_callouts_place(crowd, 40, (ds_patch){0, 0, 30, 30}, NULL, 0) > 0);
    for (int i = 0; i < 40; i++) {
        assert_true(crowd[i].label_x > 2.7 && crowd[i].label_x < 27.3);
    }
}

/* Too many to seek places for: all are set, and told. */
static void a_multitude_is_told(void **state)
{
    (void)state;
    static ds_callout many[DS_CALLOUTS_SOUGHT + 50];
    for (int i = 0; i < DS_CALLOUTS_SOUGHT + 50; i++) {
        many[i] = (ds_callout){.x = 30 * i, .y = 15, .text = DS_STR("8")};
    }
    assert_int_equal(
        ds_callouts_place(many, DS_CALLOUTS_SOUGHT + 50, (ds_patch){-100, -100, 1e5, 100}, NULL, 0), 50);
    assert_true(many[DS_CALLOUTS_SOUGHT + 49].label_x > 30 * (DS_CALLOUTS_SOUGHT + 49));
}

static void a_callout_by_hand(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 100, 100);
    ds_callout one = {.x = 20, .y = 30, .text = DS_STR("3")};
    ds_callouts_place(&one, 1, (ds_patch){0, 0, 100, 100}, NULL, 0);
    assert_true(one.label_x > 20 && one.label_y < 30); /* upper right when all is free */
    one.label_x = 30;
    one.label_y = 20;
    ds_callout_draw(&d.sheet, &one);
    expect_in(&d, "<g class=\"point\" data-id=\"3\" role=\"graphics-object group\"><title>3</title>\n"
                  "<path d=\"M20 30L30 20\" fill=\"none\" stroke=\"#fff\" stroke-width=\"0.95\"/>\n"
                  "<path d=\"M20 30L30 20\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.25\"/>\n"
                  "<path d=\"M20.8 30A0.8 0.8 0 0 1 19.2 30A0.8 0.8 0 0 1 20.8 30Z\"/>\n"
                  "<path d=\"M30 17.3H30A2.7 2.7 0 0 1 30 22.7H30A2.7 2.7 0 0 1 30 17.3Z\" fill=\"#fff\"");
    expect_in(&d, "text-anchor=\"middle\" font-weight=\"700\">3</text>\n</g>\n");
    close_desk(&d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(scales_that_fit),
        cmocka_unit_test(scale_bar_at_one_to_25),
        cmocka_unit_test(scale_bars_have_round_lengths),
        cmocka_unit_test(dimension_texts_stand_above_their_line),
        cmocka_unit_test(a_dimension_by_hand),
        cmocka_unit_test(a_text_too_long_stands_behind),
        cmocka_unit_test(spans_of_nothing),
        cmocka_unit_test(a_string_around_a_corner),
        cmocka_unit_test(north_turns_clockwise),
        cmocka_unit_test(callouts_keep_clear),
        cmocka_unit_test(callouts_are_the_same_each_time),
        cmocka_unit_test(a_crowd_is_told),
        cmocka_unit_test(a_multitude_is_told),
        cmocka_unit_test(a_callout_by_hand),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
