/* SPDX-License-Identifier: MIT */
/*
 * The display list and its SVG: a small sheet written out by hand, arcs by their geometry, escapes, and everything that
 * may not get in.
 */
#include "sheet_help.h"

#include <math.h>

/* --- whole sheets ------------------------------------------------------------------------------------------------- */

static void a_sheet_by_hand(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 50, 40.5);
    draw_sample(&d.sheet);
    assert_int_equal(ds_sheet_status(&d.sheet), DS_OK);
    assert_string_equal(
        svg_of(&d),
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"50mm\" height=\"40.5mm\" viewBox=\"0 0 50 40.5\""
        " role=\"graphics-document document\" aria-labelledby=\"ds-bath-1-title\""
        " aria-describedby=\"ds-bath-1-desc\" font-family=\"'Atkinson Hyperlegible', 'DejaVu Sans', "
        "sans-serif\""
        " fill-rule=\"evenodd\" stroke-linecap=\"round\" stroke-linejoin=\"round\">\n"
        "<title id=\"ds-bath-1-title\">Bath</title>\n"
        "<desc id=\"ds-bath-1-desc\">One zone &amp; a wall</desc>\n"
        "<path d=\"M0 0H50V40.5H0Z\" fill=\"#fff\"/>\n"
        "<pattern id=\"ds-bath-1-zone-1\" patternUnits=\"userSpaceOnUse\" x=\"0\" y=\"-1\" width=\"2\" "
        "height=\"2\""
        " patternTransform=\"rotate(135)\"><path d=\"M0 1H2\" stroke=\"#000\" stroke-linecap=\"butt\""
        " stroke-width=\"0.18\"/></pattern>\n"
        "<g class=\"zone\" data-id=\"1\" role=\"graphics-object group\"><title>Zone 1</title>\n"
        "<path d=\"M10 10H30A10 10 0 0 1 40 20V30.123L10 29.5Z\" fill=\"url(#ds-bath-1-zone-1)\""
        " stroke=\"#000\" stroke-width=\"0.35\"/>\n"
        "<text x=\"25\" y=\"20\" font-size=\"5\" text-anchor=\"middle\" font-weight=\"700\" stroke=\"#fff\""
        " stroke-width=\"1.6\" paint-order=\"stroke\">1</text>\n"
        "</g>\n"
        "<path d=\"M0 0H50V2H0Z\"/>\n"
        "<path d=\"M-1-2L3-4\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.25\" stroke-linecap=\"butt\""
        " stroke-dasharray=\"2 1.2\"/>\n"
        "<path d=\"M0 5H9\" fill=\"none\" stroke=\"#fff\" stroke-width=\"2.1\"/>\n"
        "<path d=\"M0 5H9\" fill=\"none\" stroke=\"#000\" stroke-width=\"0.7\"/>\n"
        "<text x=\"5\" y=\"35.68\" font-size=\"2\" fill=\"#fff\" transform=\"rotate(-90 5 35)\">2 m</text>\n"
        "</svg>\n");
    close_desk(&d);
}

static void an_empty_sheet_is_white_paper(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 1, 1);
    ds_sheet_draw(&d.sheet, DS_PEN_WALL, DS_FILL_INK); /* of no path */
    ds_sheet_write(&d.sheet, 0, 0, DS_STR(""), (ds_lettering){.size_mm = 1});
    assert_int_equal(d.sheet.item_len, 0);
    expect_in(&d, "stroke-linejoin=\"round\">\n<path d=\"M0 0H1V1H0Z\" fill=\"#fff\"/>\n</svg>\n");
    assert_int_equal(count_in(&d, "aria-"), 0); /* nothing to refer to */
    close_desk(&d);
}

static void groups_are_balanced(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 10, 10);
    ds_sheet_end(&d.sheet);
    ds_sheet_begin(&d.sheet, DS_ROLE_PLAN, DS_STR(""), DS_STR(""));
    ds_sheet_begin(&d.sheet, DS_ROLE_POINT, DS_STR("P\"1"), DS_STR(""));
    ds_sheet_end(&d.sheet);
    ds_sheet_begin(&d.sheet, DS_ROLE_WALL, DS_STR(""), DS_STR(""));
    expect_in(&d, "<g class=\"plan\">\n<g class=\"point\" data-id=\"P&quot;1\">\n</g>\n<g class=\"wall\">\n"
                  "</g>\n</g>\n</svg>\n");
    close_desk(&d);
}

static void only_used_hatches_are_there(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 10, 10);
    for (int twice = 0; twice < 2; twice++) {
        ds_sheet_rect(&d.sheet, 0, 0, 5, 5);
        ds_sheet_draw(&d.sheet, DS_PEN_NONE, DS_FILL_ZONE_0);
        ds_sheet_rect(&d.sheet, 0, 0, 5, 5);
        ds_sheet_draw(&d.sheet, DS_PEN_NONE, DS_FILL_ZONE_3);
    }
    assert_int_equal(count_in(&d, "<pattern"), 2);
    expect_in(&d, "x=\"-0.75\" y=\"-0.75\" width=\"1.5\" height=\"1.5\" patternTransform=\"rotate(45)\">"
                  "<path d=\"M0 0.75H1.5M0.75 0V1.5\"");
    expect_in(&d, "x=\"0\" y=\"-2\" width=\"4\" height=\"4\"><path d=\"M0 2H1\"");
    close_desk(&d);
}

/* --- arcs --------------------------------------------------------------------------------------------------------- */

/* The turn of every arc, from its ends and centre by angles: at most half a circle, and all on one circle. */
static double turn_of_path(const ds_sheet *const sheet, const double radius)
{
    double sum = 0;
    for (size_t i = 1; i < sheet->step_len; i++) {
        const ds_step *const step = &sheet->steps[i];
        if (step->kind != DS_STEP_ARC) {
            continue;
        }
        const double x1 = step[-1].x - step->centre_x;
        const double y1 = step[-1].y - step->centre_y;
        const double x2 = step->x - step->centre_x;
        const double y2 = step->y - step->centre_y;
        assert_true(fabs(hypot(x1, y1) - radius) < 1e-9 && fabs(hypot(x2, y2) - radius) < 1e-9);
        double turn = (atan2(y2, x2) - atan2(y1, x1)) * (step->clockwise ? 1 : -1);
        turn = turn < -1e-9 ? turn + 2 * acos(-1) : turn;
        assert_true(turn <= acos(-1) + 1e-6);
        sum += turn;
    }
    return sum;
}

static void arcs_turn_as_far_as_asked(void **state)
{
    (void)state;
    for (int degrees = 1; degrees < 360; degrees++) {
        for (int way = 0; way < 2; way++) {
            desk d;
            open_desk(&d, 100, 100);
            const double turn = degrees * acos(-1) / 180;
            const double start = 0.3 + degrees;
            const double end = start + (way ? turn : -turn);
            ds_sheet_move(&d.sheet, 50 + 20 * cos(start), 50 + 20 * sin(start));
            ds_sheet_arc(&d.sheet, 50 + 20 * cos(end), 50 + 20 * sin(end), 50, 50, way);
            ds_sheet_draw(&d.sheet, DS_PEN_HAIR, DS_FILL_NONE);
            assert_int_equal(ds_sheet_status(&d.sheet), DS_OK);
            assert_true(fabs(turn_of_path(&d.sheet, 20) - turn) < 1e-9);
            close_desk(&d);
        }
    }
}

static void arcs_in_svg(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 100, 100);
    ds_sheet_circle(&d.sheet, 50, 50, 10);
    ds_sheet_draw(&d.sheet, DS_PEN_NONE, DS_FILL_INK);
    expect_in(&d, "\"M60 50A10 10 0 0 1 40 50A10 10 0 0 1 60 50Z\"");
    ds_sheet_move(&d.sheet, 60, 50); /* three quarters, up and over */
    ds_sheet_arc(&d.sheet, 50, 60, 50, 50, false);
    ds_sheet_draw(&d.sheet, DS_PEN_HAIR, DS_FILL_NONE);
    expect_in(&d, "\"M60 50A10 10 0 0 0 40 50A10 10 0 0 0 50 60\"");
    ds_sheet_move(&d.sheet, 60, 50); /* noise on the wrong side of nothing is no whole circle */
    ds_sheet_arc(&d.sheet, 60, 50 - 1e-12, 50, 50, true);
    ds_sheet_draw(&d.sheet, DS_PEN_HAIR, DS_FILL_NONE);
    expect_in(&d, "\"M60 50V50\"");
    close_desk(&d);
}

/* --- what may not get in ------------------------------------------------------------------------------------------ */

static void text_is_escaped(void **state)
{
    (void)state;
    static const struct {
        const char *text, *shown;
    } CASES[] = {
        {"a<b>&\"c'", ">a&lt;b&gt;&amp;&quot;c'</text>"},
        {"</text><script>", ">&lt;/text&gt;&lt;script&gt;</text>"},
        {"a\tb\nc\x01"
         "d\x7F",
         ">a b c d </text>"},
        {"gr\xC3\xBC\xC3\x9F \xE6\xB0\xB4 \xF0\x9F\x92\xA7",
         ">gr\xC3\xBC\xC3\x9F \xE6\xB0\xB4 \xF0\x9F\x92\xA7</text>"},
        {"\xFF|\xC3|\xC0\xAF|\xED\xA0\x80|\xE6\xB0",
         ">\xEF\xBF\xBD|\xEF\xBF\xBD|\xEF\xBF\xBD\xEF\xBF\xBD|"
         "\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD|\xEF\xBF\xBD\xEF\xBF\xBD<"},
        {"\xEF\xBF\xBE\xEF\xBF\xBF",
         ">\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD\xEF\xBF\xBD<"},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        desk d;
        open_desk(&d, 10, 10);
        ds_sheet_write(&d.sheet, 0, 0, ds_str_of(CASES[i].text), (ds_lettering){.size_mm = 3});
        expect_in(&d, CASES[i].shown);
        close_desk(&d);
    }
}

static void an_id_is_made_harmless(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 10, 10);
    ds_sheet_name(&d.sheet, DS_STR("9 \"><x:\xC3\xBC_A"), DS_STR("<t>"), DS_STR(""));
    expect_in(&d, "<title id=\"ds-9----x---_A-title\">&lt;t&gt;</title>");
    close_desk(&d);
}

/* The title fills its room in the arena to the last byte; half a character at its end does not take the other half from
 * the text that follows it in memory. */
static void a_text_ends_where_it_ends(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 10, 10);
    ds_sheet_name(&d.sheet, DS_STR("x"), DS_STR("fifteen letters\xC3"), DS_STR("\xBC"));
    expect_in(&d, ">fifteen letters\xEF\xBF\xBD</title>");
    close_desk(&d);
}

static void texts_are_copied(void **state)
{
    (void)state;
    desk d;
    open_desk(&d, 10, 10);
    char word[] = "word";
    ds_sheet_write(&d.sheet, 0, 0, ds_str_of(word), (ds_lettering){.size_mm = 3});
    word[0] = 'l';
    expect_in(&d, ">word</text>");
    close_desk(&d);
}

typedef void deed(ds_sheet *sheet);

static void line_first(ds_sheet *const sheet)
{
    ds_sheet_line(sheet, 1, 1);
}

static void arc_first(ds_sheet *const sheet)
{
    ds_sheet_arc(sheet, 1, 1, 0, 0, true);
}

static void line_after_close(ds_sheet *const sheet)
{
    ds_sheet_rect(sheet, 0, 0, 1, 1);
    ds_sheet_line(sheet, 1, 1);
}

static void close_twice(ds_sheet *const sheet)
{
    ds_sheet_rect(sheet, 0, 0, 1, 1);
    ds_sheet_close(sheet);
}

static void no_number(ds_sheet *const sheet)
{
    ds_sheet_stroke(sheet, DS_PEN_HAIR, 0, NAN, 1, 1);
}

static void too_far(ds_sheet *const sheet)
{
    ds_sheet_stroke(sheet, DS_PEN_HAIR, 0, 0, 100001, 1);
}

static void centre_nowhere(ds_sheet *const sheet)
{
    ds_sheet_move(sheet, 0, 0);
    ds_sheet_arc(sheet, 1, 1, INFINITY, 0, true);
}

static void text_without_size(ds_sheet *const sheet)
{
    ds_sheet_write(sheet, 0, 0, DS_STR("x"), (ds_lettering){.turn_deg = 0});
}

static void text_turned_by_nothing(ds_sheet *const sheet)
{
    ds_sheet_write(sheet, 0, 0, DS_STR("x"), (ds_lettering){.size_mm = 1, .turn_deg = NAN});
}

static void what_cannot_be_drawn_stops_the_sheet(void **state)
{
    (void)state;
    deed *const DEEDS[] = {line_first, arc_first,      line_after_close,  close_twice,           no_number,
                           too_far,    centre_nowhere, text_without_size, text_turned_by_nothing};
    for (size_t i = 0; i < sizeof DEEDS / sizeof DEEDS[0]; i++) {
        desk d;
        open_desk(&d, 10, 10);
        ds_sheet_stroke(&d.sheet, DS_PEN_HAIR, 0, 0, 1, 1);
        assert_int_equal(ds_sheet_status(&d.sheet), DS_OK);
        DEEDS[i](&d.sheet);
        assert_int_equal(ds_sheet_status(&d.sheet), DS_BAD_INPUT);
        ds_sheet_draw(&d.sheet, DS_PEN_HAIR, DS_FILL_NONE);
        ds_sheet_stroke(&d.sheet, DS_PEN_HAIR, 0, 0, 2, 2);
        ds_sheet_write(&d.sheet, 0, 0, DS_STR("x"), (ds_lettering){.size_mm = 1});
        assert_int_equal(d.sheet.item_len, 1); /* what was drawn before stays, nothing follows */
        close_desk(&d);
    }
}

static void a_sheet_has_a_size(void **state)
{
    (void)state;
    static const double SIZES[][2] = {{0, 1},   {1, 0},        {-1, 1},    {NAN, 1},
                                      {1, NAN}, {INFINITY, 1}, {1, 100001}};
    for (size_t i = 0; i < sizeof SIZES / sizeof SIZES[0]; i++) {
        desk d;
        open_desk(&d, SIZES[i][0], SIZES[i][1]);
        assert_int_equal(ds_sheet_status(&d.sheet), DS_BAD_INPUT);
        expect_in(&d, "width=\"1mm\" height=\"1mm\"");
        close_desk(&d);
    }
}

/* As large as asked where there is room, smaller where not, and cut where even small letters are too many. */
static void a_text_keeps_within_its_width(void **state)
{
    (void)state;
    const ds_lettering large = {.size_mm = DS_TYPE_HEAD_MM, .bold = true};
    const ds_str name = DS_STR("Consumer unit");
    const double width = ds_lettering_width_mm(name, &large);
    desk d;
    open_desk(&d, 300, 50);
    ds_sheet_write_within(&d.sheet, 1, 10, width, name, large);
    ds_sheet_write_within(&d.sheet, 1, 20, width * 0.75, name, large);
    ds_sheet_write_within(&d.sheet, 1, 30, width * 0.3,
                          DS_STR("Caf\u00E9 \u00E9\u00E9\u00E9\u00E9\u00E9\u00E9\u00E9"), large);
    ds_sheet_write_within(&d.sheet, 1, 40, 0, name, large);
    expect_in(&d, "y=\"10\" font-size=\"6.4\" font-weight=\"700\">Consumer unit</text>");
    expect_in(&d, "y=\"20\" font-size=\"4.8\" font-weight=\"700\">Consumer unit</text>");
    expect_in(&d, "y=\"30\" font-size=\"3.2\" font-weight=\"700\">Caf\u00E9");
    expect_in(&d, "\u2026</text>");
    expect_in(&d, "y=\"40\" font-size=\"3.2\" font-weight=\"700\">\u2026</text>");
    assert_true(ds_str_is_utf8(ds_str_of(svg_of(&d))));
    for (size_t i = 0; i < 3; i++) {
        assert_true(ds_lettering_width_mm(d.sheet.items[i].text, &d.sheet.items[i].how) <=
                    width * (i == 0   ? 1
                             : i == 1 ? 0.75
                                      : 0.3) +
                        1e-5);
    }
    close_desk(&d);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_sheet_by_hand),
        cmocka_unit_test(an_empty_sheet_is_white_paper),
        cmocka_unit_test(groups_are_balanced),
        cmocka_unit_test(only_used_hatches_are_there),
        cmocka_unit_test(arcs_turn_as_far_as_asked),
        cmocka_unit_test(arcs_in_svg),
        cmocka_unit_test(text_is_escaped),
        cmocka_unit_test(an_id_is_made_harmless),
        cmocka_unit_test(a_text_ends_where_it_ends),
        cmocka_unit_test(texts_are_copied),
        cmocka_unit_test(what_cannot_be_drawn_stops_the_sheet),
        cmocka_unit_test(a_sheet_has_a_size),
        cmocka_unit_test(a_text_keeps_within_its_width),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
