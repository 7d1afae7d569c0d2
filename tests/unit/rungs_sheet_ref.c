/* SPDX-License-Identifier: MIT */
/*
 * The rung picture on a sheet. At 34 by 24 pixels it is compared pixel by pixel with pictures written out by hand; for
 * random needs and marks each rung must look as what it is, everything must lie in the frame, and no text on another.
 */
#include "mark_help.h"
#include "mark_random.h"
#include "sheet_help.h"

#include "core/draw/callout.h"
#include "core/draw/rungs_sheet.h"
#include "core/draw/rungs_words.h"

#include <math.h>

static ds_rungs rungs_of(const char *const wanted, const char *const offered)
{
    ds_need need = DS_NEED_NOTHING;
    ds_reading reading;
    assert_true(wanted == NULL || ds_need_read(ds_str_of(wanted), &need, &reading));
    ds_mark_read(ds_str_of(offered), &reading);
    assert_true(reading.status <= DS_READ_NOTED);
    ds_rungs rungs;
    ds_rungs_of(&rungs, need, reading.mark);
    return rungs;
}

/* --- a painter that only asks whether there is ink ------------------------------------------------------------------ */

/* Is the place inside the path: how many of its edges, all straight here, lie right of it. */
static bool inside(const ds_sheet *const sheet, const ds_item *const item, const double x, const double y)
{
    bool odd = false;
    const ds_step *first = NULL;
    for (size_t i = 0; i < item->step_len; i++) {
        const ds_step *const a = &sheet->steps[item->first_step + i];
        first = a->kind == DS_STEP_MOVE ? a : first;
        if (a->kind == DS_STEP_CLOSE) {
            continue;
        }
        const ds_step *const b = a[1].kind == DS_STEP_CLOSE ? first : a + 1;
        if ((a->y > y) != (b->y > y) && x < a->x + (y - a->y) / (b->y - a->y) * (b->x - a->x)) {
            odd = !odd;
        }
    }
    return odd;
}

static bool ink_at(const ds_sheet *const sheet, const double x, const double y)
{
    for (size_t i = 0; i < sheet->item_len; i++) {
        const ds_item *const item = &sheet->items[i];
        if (item->kind == DS_ITEM_PATH && item->fill == DS_FILL_INK && inside(sheet, item, x, y)) {
            return true;
        }
    }
    return false;
}

/* --- the mark ------------------------------------------------------------------------------------------------------- */

enum { COLUMNS = 34, ROWS = 24 };

/* One millimetre a pixel; looked at a little below its middle, where bars end. */
static void expect_mark(const char *const need, const char *const mark, const char *const wanted)
{
    desk d;
    open_desk(&d, COLUMNS, ROWS);
    const ds_rungs rungs = rungs_of(need, mark);
    ds_rungs_paint(&d.sheet, &rungs, (ds_rungs_frame){.width_mm = COLUMNS, .height_mm = ROWS});
    assert_int_equal(ds_sheet_status(&d.sheet), DS_OK);
    char found[ROWS * (COLUMNS + 1) + 1];
    char *at = found;
    for (int row = 0; row < ROWS; row++) {
        for (int column = 0; column < COLUMNS; column++) {
            *at++ = ink_at(&d.sheet, column + 0.5, row + 0.6) ? '#' : '.';
        }
        *at++ = '\n';
    }
    *at = '\0';
    assert_string_equal(found, wanted);
    close_desk(&d);
}

/* The gap of IP67: jets denied inside the outline, and nothing shown of what is below them. */
static void the_mark_of_ip67(void **state)
{
    (void)state;
    expect_mark("IP55", "IP67 IK08",
                "..................................\n"
                "..................................\n"
                "..................................\n"
                "..................................\n"
                "..................................\n"
                "..................................\n"
                "...................#####..........\n"
                "...................#####..........\n"
                "..#####...........................\n"
                "#########........#########........\n"
                "#.#####.#........#.......#........\n"
                "#.#####.#........#.......#........\n"
                "#.#####.#..###...#.......#...###..\n"
                "#.#####.#..###...#.#.#.#.#...###..\n"
                "#.#####.#..###...#.......#...###..\n"
                "#.#####.#..###...#.#.#.#.#...###..\n"
                "#.#####.#..###...#.......#...###..\n"
                "#.#####.#..###...#.#.#.#.#...###..\n"
                "#.#####.#..###...#.......#...###..\n"
                "#.#####.#..###...#.#.#.#.#...###..\n"
                "#.......#........#.......#........\n"
                "##################################\n"
                "..................................\n"
                "..................................\n");
}

static void the_mark_without_a_need(void **state)
{
    (void)state;
    expect_mark(NULL, "IP65/IP68 10 m 24 h",
                "..................................\n"
                "..................................\n"
                "..................................\n"
                "..................................\n"
                "...................#####..........\n"
                "...................#####..........\n"
                "...................#####..........\n"
                "...................#####.....#.#..\n"
                "..#####...........................\n"
                "..#####......................#.#..\n"
                "..#####............#####..........\n"
                "..#####............#####.....#.#..\n"
                "..#####....###.....#####..........\n"
                "..#####....###.....#####.....#.#..\n"
                "..#####....###.....#####..........\n"
                "..#####....###.....#####.....#.#..\n"
                "..#####....###.....#####..........\n"
                "..#####....###.....#####.....#.#..\n"
                "..#####....###.....#####..........\n"
                "..#####....###.....#####.....#.#..\n"
                "..................................\n"
                "##################################\n"
                "..................................\n"
                "..................................\n");
}

/* A blow beyond 50 J has a rung of its own; two outlines stand apart. */
static void the_mark_of_a_hard_blow(void **state)
{
    (void)state;
    expect_mark("IPXXB 60 J", "IP2X IK11",
                "..................................\n"
                "..................................\n"
                "..................................\n"
                "...................#.#.#...#######\n"
                "...........................#.....#\n"
                "...................#.#.#...#.....#\n"
                "...........................#.###.#\n"
                "...................#.#.#...#.###.#\n"
                "...........................#.###.#\n"
                "...................#.#.#...#.###.#\n"
                "...........................#.###.#\n"
                "...................#.#.#...#.###.#\n"
                "...........................#.###.#\n"
                "...................#.#.#...#.###.#\n"
                "...........................#.###.#\n"
                ".........#######...#.#.#...#.###.#\n"
                "..#####..#.###.#...........#.###.#\n"
                "..#####..#.###.#...#.#.#...#.###.#\n"
                "..#####..#.###.#...........#.###.#\n"
                "..#####..#.###.#...#.#.#...#.###.#\n"
                ".........#.....#...........#.....#\n"
                "##################################\n"
                "..................................\n"
                "..................................\n");
}

/* --- laws ----------------------------------------------------------------------------------------------------------- */

enum { ROUNDS = 300 };

typedef struct look {
    const ds_sheet *sheet;
    const ds_rung *rungs;
    int len;
    int left; /* first pixel of a bar */
} look;

/* The upper and lower line of an outline cover a pixel row of the rungs beside it; those rows are not looked at. */
static void expect_rung(const look *const at, const int i)
{
    const ds_rung rung = at->rungs[i];
    const bool covered_below = !rung.needed && i > 0 && at->rungs[i - 1].needed;
    const bool covered_above = !rung.needed && i + 1 < at->len && at->rungs[i + 1].needed;
    const double lower = 19.6 - 2 * i;
    const double upper = lower - 1;
    if (!covered_below) {
        assert_int_equal(ink_at(at->sheet, at->left + 0.5, lower), rung.state != DS_RUNG_DENIED);
        assert_int_equal(ink_at(at->sheet, at->left + 1.5, lower), rung.state == DS_RUNG_PROVEN);
        assert_int_equal(ink_at(at->sheet, at->left - 1.5, lower), rung.needed);
    }
    if (!covered_above) {
        assert_int_equal(ink_at(at->sheet, at->left + 0.5, upper), rung.state == DS_RUNG_PROVEN);
        assert_int_equal(ink_at(at->sheet, at->left - 1.5, upper), rung.needed);
    }
}

static void every_rung_looks_as_it_is(void **state)
{
    (void)state;
    static const int LEFTS[DS_LADDERS_LEN] = {2, 11, 19, 29};
    mark_random r = {3};
    for (int round = 0; round < ROUNDS; round++) {
        desk d;
        open_desk(&d, COLUMNS, ROWS);
        ds_rungs rungs;
        ds_rungs_of(&rungs, mark_random_need(&r), mark_random_mark(&r));
        ds_rungs_paint(&d.sheet, &rungs, (ds_rungs_frame){.width_mm = COLUMNS, .height_mm = ROWS});
        for (int kind = 0; kind < DS_LADDERS_LEN; kind++) {
            look at = {.sheet = &d.sheet, .left = LEFTS[kind]};
            at.rungs = ds_ladder_rungs(&rungs, (ds_ladder_kind)kind, &at.len);
            for (int i = 0; i < at.len; i++) {
                expect_rung(&at, i);
            }
        }
        close_desk(&d);
    }
}

static bool holds(const ds_rungs_frame *const frame, const double x, const double y)
{
    const double slack = 1e-6;
    return x >= frame->x_mm - slack && x <= frame->x_mm + frame->width_mm + slack &&
           y >= frame->y_mm - slack && y <= frame->y_mm + frame->height_mm + slack;
}

static ds_patch patch_of(const ds_item *const item)
{
    return ds_patch_of_text(item->x, item->y, item->text, &item->how);
}

/* A text lies in the frame, on no other text, and on no ink. */
static void expect_free(const ds_sheet *const sheet, const size_t which, const ds_rungs_frame *const frame)
{
    const ds_patch mine = patch_of(&sheet->items[which]);
    assert_true(holds(frame, mine.left, mine.top) && holds(frame, mine.right, mine.bottom));
    for (size_t i = 0; i < which; i++) {
        if (sheet->items[i].kind == DS_ITEM_TEXT) {
            const ds_patch other = patch_of(&sheet->items[i]);
            assert_false(mine.left < other.right && other.left < mine.right && mine.top < other.bottom &&
                         other.top < mine.bottom);
        }
    }
    const double middle = (mine.top + mine.bottom) / 2;
    for (int step = 0; step <= 20; step++) {
        assert_false(ink_at(sheet, mine.left + step * (mine.right - mine.left) / 20, middle));
    }
}

static void expect_tidy(const ds_sheet *const sheet, const ds_rungs_frame *const frame)
{
    for (size_t i = 0; i < sheet->step_len; i++) {
        if (sheet->steps[i].kind != DS_STEP_CLOSE) {
            assert_true(holds(frame, sheet->steps[i].x, sheet->steps[i].y));
        }
    }
    for (size_t i = 0; i < sheet->item_len; i++) {
        if (sheet->items[i].kind == DS_ITEM_TEXT) {
            expect_free(sheet, i, frame);
        }
    }
}

static void everything_has_its_place(void **state)
{
    (void)state;
    static const double SIZES[][2] = {{9, 6}, {54, 34}, {60, 90}, {120, 50}, {277, 120}};
    mark_random r = {4};
    for (int round = 0; round < ROUNDS; round++) {
        const double *const size = SIZES[round % 5];
        const ds_rungs_frame frame = {.x_mm = 7, .y_mm = 11, .width_mm = size[0], .height_mm = size[1]};
        desk d;
        open_desk(&d, 300, 300);
        ds_rungs rungs;
        ds_rungs_of(&rungs, mark_random_need(&r), mark_random_mark(&r));
        ds_rungs_paint(&d.sheet, &rungs, frame);
        assert_int_equal(ds_sheet_status(&d.sheet), DS_OK);
        expect_tidy(&d.sheet, &frame);
        close_desk(&d);
    }
}

/* --- forms, words, failures ------------------------------------------------------------------------------------------ */

static void the_form_follows_the_frame(void **state)
{
    (void)state;
    assert_int_equal(ds_rungs_form_in(6.35, 6.35), DS_RUNGS_MARK);
    assert_int_equal(ds_rungs_form_in(20, 100), DS_RUNGS_MARK);
    assert_int_equal(ds_rungs_form_in(53, 53), DS_RUNGS_FIGURES); /* 200 pixels */
    assert_int_equal(ds_rungs_form_in(300, 33), DS_RUNGS_FIGURES);
    assert_int_equal(ds_rungs_form_in(120, 60), DS_RUNGS_WORDS);
    assert_true(fabs(ds_rungs_aspect(DS_RUNGS_MARK) - 34.0 / 24) < 1e-12);
    assert_true(ds_rungs_aspect(DS_RUNGS_WORDS) > ds_rungs_aspect(DS_RUNGS_FIGURES));
}

/* Whatever the form, its type is at least 2.1 mm high. */
static void type_stays_readable(void **state)
{
    (void)state;
    for (double width_mm = 5; width_mm < 300; width_mm += 0.7) {
        desk d;
        open_desk(&d, 300, 300);
        const ds_rungs rungs = rungs_of("IP55", "IP67 IK08");
        ds_rungs_paint(&d.sheet, &rungs, (ds_rungs_frame){.width_mm = width_mm, .height_mm = 300 - width_mm});
        for (size_t i = 0; i < d.sheet.item_len; i++) {
            assert_true(d.sheet.items[i].kind != DS_ITEM_TEXT || d.sheet.items[i].how.size_mm >= 2.1);
        }
        close_desk(&d);
    }
}

static void what_is_lost_bears_its_sign(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 60, 40);
    const ds_rungs rungs = rungs_of("IP55", "IP67 IK08");
    ds_rungs_paint(&d.sheet, &rungs, (ds_rungs_frame){.width_mm = 60, .height_mm = 40});
    assert_int_equal(count_in(&d, ">?</text>"), 4);                    /* water 1 to 4 */
    assert_int_equal(count_in(&d, "font-weight=\"700\">5</text>"), 1); /* water 5 */
    assert_int_equal(count_in(&d, "font-weight=\"700\">50 J</text>"), 0);
    expect_in(&d, ">water</text>");
    close_desk(&d);
}

static void the_picture_in_words(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 60, 40);
    ds_rungs rungs = rungs_of("IP55", "IP67 IK08");
    ds_rungs_paint(&d.sheet, &rungs, (ds_rungs_frame){.width_mm = 9, .height_mm = 6});
    expect_in(&d, "<g class=\"rungs\" role=\"graphics-object group\"><title>"
                  "Solids: 1 to 5 needed and proven, 6 proven. People: A to D proven. "
                  "Water: 1 to 4 needed and open, 5 needed and denied, 6 denied, 7 proven, 8 and 9 denied. "
                  "Blows: &lt;1 J to 5 J proven, 10 J to 50 J denied.</title>");
    rungs = rungs_of("60 J", "IP66");
    ds_rungs_paint(&d.sheet, &rungs, (ds_rungs_frame){.width_mm = 9, .height_mm = 6});
    expect_in(&d, "Blows: &lt;1 J to &gt;50 J needed and open.</title>");
    close_desk(&d);
}

static void a_frame_without_size_gets_nothing(void **state)
{
    (void)state;
    static const double SIZES[][2] = {{0, 10}, {10, 0}, {-5, 10}};
    for (size_t i = 0; i < sizeof SIZES / sizeof SIZES[0]; i++) {
        desk d;
        open_desk(&d, 60, 40);
        const ds_rungs rungs = rungs_of("IP55", "IP67");
        ds_rungs_paint(&d.sheet, &rungs, (ds_rungs_frame){.width_mm = SIZES[i][0], .height_mm = SIZES[i][1]});
        assert_int_equal(d.sheet.item_len, 0);
        ds_rungs_paint(&d.sheet, &rungs, (ds_rungs_frame){.width_mm = NAN, .height_mm = 10});
        assert_int_equal(ds_sheet_status(&d.sheet), DS_BAD_INPUT);
        close_desk(&d);
    }
}

static void every_request_may_fail(void **state)
{
    (void)state;
    bool failed = true;
    size_t fail_at = 0;
    while (failed) {
        desk d = {.memory = test_alloc_make(++fail_at)};
        ds_arena_init(&d.arena, test_alloc_use(&d.memory));
        ds_sheet_init(&d.sheet, &d.arena, 300, 120);
        const ds_rungs rungs = rungs_of("IP55", "IP67 IK08");
        ds_rungs_paint(&d.sheet, &rungs, (ds_rungs_frame){.width_mm = 300, .height_mm = 120});
        failed = d.memory.requests >= fail_at;
        assert_int_equal(ds_sheet_status(&d.sheet), failed ? DS_NO_MEMORY : DS_OK);
        close_desk(&d);
    }
    assert_in_range(fail_at, 4, 50);
}

/* Grants all but the first room of a text, which is 256 bytes. */
static void *no_texts(void *const ctx, void *const old, const size_t old_size, const size_t new_size)
{
    return !old && new_size == 256 ? NULL : test_alloc_resize(ctx, old, old_size, new_size);
}

/* The words alone fail: the picture must not pass as whole. */
static void the_words_may_fail(void **state)
{
    (void)state;
    desk d = {.memory = test_alloc_make(0)};
    d.memory.alloc.resize = no_texts;
    ds_arena_init(&d.arena, test_alloc_use(&d.memory));
    ds_sheet_init(&d.sheet, &d.arena, 60, 40);
    const ds_rungs rungs = rungs_of("IP55", "IP67 IK08");
    ds_rungs_paint(&d.sheet, &rungs, (ds_rungs_frame){.width_mm = 60, .height_mm = 40});
    assert_int_equal(ds_sheet_status(&d.sheet), DS_NO_MEMORY);
    close_desk(&d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_mark_of_ip67),         cmocka_unit_test(the_mark_without_a_need),
        cmocka_unit_test(the_mark_of_a_hard_blow),  cmocka_unit_test(every_rung_looks_as_it_is),
        cmocka_unit_test(everything_has_its_place), cmocka_unit_test(the_form_follows_the_frame),
        cmocka_unit_test(type_stays_readable),      cmocka_unit_test(what_is_lost_bears_its_sign),
        cmocka_unit_test(the_picture_in_words),     cmocka_unit_test(a_frame_without_size_gets_nothing),
        cmocka_unit_test(every_request_may_fail),   cmocka_unit_test(the_words_may_fail),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
