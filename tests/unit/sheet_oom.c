/* SPDX-License-Identifier: MIT */
/* The display list when memory is short: each request is made to fail once. */
#include "sheet_help.h"

#include <stdio.h>

static void draw_much(ds_sheet *const sheet)
{
    draw_sample(sheet);
    for (int i = 0; i < 500; i++) {
        ds_sheet_stroke(sheet, DS_PEN_HAIR, i, 0, i, 1);
    }
}

static void nothing_is_lost_in_growing(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 500, 50);
    draw_much(&d.sheet);
    assert_int_equal(ds_sheet_status(&d.sheet), DS_OK);
    char piece[40];
    for (int i = 0; i < 500; i++) {
        snprintf(piece, sizeof piece, "\"M%d 0V1\"", i);
        assert_non_null(strstr(svg_of(&d), piece));
    }
    close_desk(&d);
}

/* Whatever request fails: the sheet says so, keeps only whole items, and can be painted. */
static void every_request_may_fail(void **state)
{
    (void)state;
    bool failed = true;
    size_t fail_at = 0;
    while (failed) {
        desk d = {.memory = test_alloc_make(++fail_at)};
        ds_arena_init(&d.arena, test_alloc_use(&d.memory));
        ds_text_init(&d.svg, &d.memory.alloc);
        ds_sheet_init(&d.sheet, &d.arena, 500, 50);
        draw_much(&d.sheet);
        failed = d.memory.requests >= fail_at;
        assert_int_equal(ds_sheet_status(&d.sheet), failed ? DS_NO_MEMORY : DS_OK);
        for (size_t i = 0; i < d.sheet.item_len; i++) {
            const ds_item *const item = &d.sheet.items[i];
            assert_true(item->first_step + item->step_len <= d.sheet.step_len);
        }
        d.memory.fail_at = 0;
        assert_int_equal(count_in(&d, "<g "), count_in(&d, "</g>"));
        close_desk(&d);
    }
    assert_in_range(fail_at, 4, 100);
}

/* A text that the SVG goes into fails as any text does. */
static void the_svg_may_run_out_of_memory(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 500, 50);
    draw_much(&d.sheet);
    d.memory.fail_at = d.memory.requests + 3;
    ds_sheet_svg(&d.svg, &d.sheet);
    assert_false(ds_text_ok(&d.svg));
    close_desk(&d);
}

static void a_failed_text_fails_the_sheet(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 10, 10);
    ds_text made;
    ds_text_init(&made, &d.memory.alloc);
    ds_sheet_heed(&d.sheet, &made);
    assert_int_equal(ds_sheet_status(&d.sheet), DS_OK);
    d.memory.fail_at = d.memory.requests + 1;
    ds_text_add(&made, "x");
    ds_sheet_heed(&d.sheet, &made);
    assert_int_equal(ds_sheet_status(&d.sheet), DS_NO_MEMORY);
    close_desk(&d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nothing_is_lost_in_growing),
        cmocka_unit_test(every_request_may_fail),
        cmocka_unit_test(the_svg_may_run_out_of_memory),
        cmocka_unit_test(a_failed_text_fails_the_sheet),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
