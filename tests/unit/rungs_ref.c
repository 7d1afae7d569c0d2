/* SPDX-License-Identifier: MIT */
/*
 * The rung picture: whole pictures written out by hand, and for random needs and marks that it says exactly what the
 * comparison says.
 *
 * Rungs of IP67 by IEC 60529 clause 6 (a lone 7 proves no jets, tests 5 and 6: electrical-installation.org, IP code)
 * and of IK08 by IEC 62262 (5 J).
 */
#include "mark_help.h"
#include "mark_random.h"

#include "core/draw/rungs.h"

static ds_mark mark_of(const char *const text)
{
    ds_reading reading;
    ds_mark_read(ds_str_of(text), &reading);
    assert_true(reading.status <= DS_READ_NOTED);
    return reading.mark;
}

static ds_need need_of(const char *const text)
{
    ds_need need = DS_NEED_NOTHING;
    ds_reading reading;
    assert_true(ds_need_read(ds_str_of(text), &need, &reading));
    return need;
}

typedef void draw(ds_text *out, const ds_rungs *rungs, bool ascii);

static void expect(draw *const put, const ds_need need, const ds_mark mark, const bool ascii,
                   const char *const wanted)
{
    test_alloc a = test_alloc_make(0);
    ds_text text;
    ds_text_init(&text, test_alloc_use(&a));
    ds_rungs rungs;
    ds_rungs_of(&rungs, need, mark);
    put(&text, &rungs, ascii);
    assert_true(ds_text_ok(&text));
    ds_text_char(&text, '\0');
    assert_string_equal(text.at, wanted);
    ds_text_free(&text);
    assert_int_equal(a.blocks, 0);
}

/* --- whole pictures ----------------------------------------------------------------------------------------------- */

/* The gap of IP67 at water 5, and nothing said of 1 to 4. */
static void ip67_shows_its_gap(void **state)
{
    (void)state;
    expect(ds_rungs_text, need_of("IP55"), mark_of("IP67 IK08"), false,
           "  solids          people          water               blows\n"
           "                                9 │     │ hot lance\n"
           "                                8 │     │ long dip\n"
           "                                7 │▆▆▆▆▆│ dip      50 J │  │\n"
           "6 │▆▆▆▆▆│ dust-tight            6 │     │ hard jet 20 J │  │\n"
           "5 ┏▆▆▆▆▆┓ dust                  5▲┏     ┓ jet      10 J │  │\n"
           "4 ┃▆▆▆▆▆┃ 1 mm    D │▆│ wire    4?┃·····┃ splash    5 J │▆▆│\n"
           "3 ┃▆▆▆▆▆┃ 2.5 mm  C │▆│ tool    3?┃·····┃ spray     2 J │▆▆│\n"
           "2 ┃▆▆▆▆▆┃ 12.5 mm B │▆│ finger  2?┃·····┃ tilted    1 J │▆▆│\n"
           "1 ┗▆▆▆▆▆┛ 50 mm   A │▆│ hand    1?┗·····┛ drips    <1 J │▆▆│\n"
           "  ┃ needed  ▆ proven  · open  empty: denied  ▲ ? missing\n");
}

static void ascii_says_the_same(void **state)
{
    (void)state;
    expect(ds_rungs_text, need_of("IP2X IK10"), mark_of("IP1XB IK08"), true,
           "  solids          people          water               blows\n"
           "                                9 |.....| hot lance\n"
           "                                8 |.....| long dip\n"
           "                                7 |.....| dip      50 J |  |\n"
           "6 |     | dust-tight            6 |.....| hard jet 20 J![  ]\n"
           "5 |     | dust                  5 |.....| jet      10 J![  ]\n"
           "4 |     | 1 mm    D | | wire    4 |.....| splash    5 J [##]\n"
           "3 |     | 2.5 mm  C | | tool    3 |.....| spray     2 J [##]\n"
           "2![     ] 12.5 mm B |#| finger  2 |.....| tilted    1 J [##]\n"
           "1 [#####] 50 mm   A |#| hand    1 |.....| drips    <1 J [##]\n"
           "  [ needed  # proven  . open  empty: denied  ! ? missing\n");
}

/* A lone needed rung has sides and no corners; without a need the key leaves needs out. */
static void lone_rung_and_no_need(void **state)
{
    (void)state;
    expect(ds_rungs_line, need_of("IPX7"), mark_of("IPX6"), false, "······ ···· ▆▆▆▆▆▆▲▁▁ ·······");
    expect(ds_rungs_line, DS_NEED_NOTHING, mark_of("IP67"), false, "██████ ████ ····▁▁█▁▁ ·······");
    expect(ds_rungs_line, DS_NEED_NOTHING, mark_of("IP67"), true, "###### #### ....__#__ .......");
    expect(ds_rungs_line, need_of("IP55"), mark_of("IP67"), true,
           "#####+ ++++ ???"
           "?!_+__ .......");
}

/* Test 8 to a lesser depth than needed is no test 8 for this need: a picture that filled it would mislead. */
static void test_8_counts_to_its_depth(void **state)
{
    (void)state;
    expect(ds_rungs_line, need_of("IPX8 (5 m, 24 h)"), mark_of("IPX8 (2 m, 24 h)"), false,
           "······ ···· ····▁▁▆▲▁ ·······");
    expect(ds_rungs_line, need_of("IPX8 (2 m, 24 h)"), mark_of("IPX8 (2 m, 24 h)"), false,
           "······ ···· ····▁▁▆█▁ ·······");
}

/* A need beyond the highest grade shows, in one line too. */
static void more_than_50_joules(void **state)
{
    (void)state;
    expect(ds_rungs_line, need_of("60 J"), mark_of("IK11"), false, "······ ···· ········· ██████▲");
}

/* --- laws --------------------------------------------------------------------------------------------------------- */

enum { ROUNDS = 100000 };

/* The worst that a track's needed rungs show. */
static ds_verdict worst_of(const ds_rung *const rungs, const int len)
{
    ds_verdict worst = DS_FITS;
    for (int i = 0; i < len; i++) {
        if (ds_rung_lost(rungs[i])) {
            const ds_verdict shown = rungs[i].state == DS_RUNG_DENIED ? DS_SHORT : DS_UNKNOWN;
            worst = shown > worst ? shown : worst;
        }
    }
    return worst;
}

static ds_verdict worse(const ds_verdict a, const ds_verdict b)
{
    return a > b ? a : b;
}

/* Read off the picture, a verdict is the one that the comparison gives. */
static void picture_agrees_with_comparison(void **state)
{
    (void)state;
    mark_random r = {1};
    size_t seen[3] = {0};
    for (int round = 0; round < ROUNDS; round++) {
        const ds_need need = mark_random_need(&r);
        const ds_mark mark = mark_random_mark(&r);
        ds_rungs rungs;
        ds_rungs_of(&rungs, need, mark);
        const ds_verdict shown =
            worse(worse(worst_of(rungs.objects, DS_OBJECTS_LEN), worst_of(rungs.access, DS_ACCESS_LEN)),
                  worse(worst_of(rungs.water, DS_WATER_LEN), worst_of(rungs.blows, DS_BLOWS_LEN)));
        const ds_verdict verdict = ds_mark_compare(need, mark, NULL);
        assert_int_equal(shown, verdict);
        seen[verdict]++;
    }
    assert_true(seen[DS_FITS] > 100 && seen[DS_UNKNOWN] > 100 && seen[DS_SHORT] > 100);
}

static bool has_glyph(const ds_cell *const cells, const int len, const uint8_t glyph)
{
    for (int i = 0; i < len; i++) {
        if (cells[i].glyph == glyph) {
            return true;
        }
    }
    return false;
}

/* What is lost bears its shape in the picture and in the line; what fits bears none. */
static void shapes_agree_with_comparison(void **state)
{
    (void)state;
    mark_random r = {2};
    for (int round = 0; round < ROUNDS; round++) {
        const ds_need need = mark_random_need(&r);
        const ds_mark mark = mark_random_mark(&r);
        const ds_verdict verdict = ds_mark_compare(need, mark, NULL);
        ds_rungs rungs;
        ds_rungs_grid grid;
        ds_cell line[DS_RUNGS_LINE_COLUMNS];
        ds_rungs_of(&rungs, need, mark);
        ds_rungs_lay(&grid, &rungs);
        ds_rungs_lay_line(line, &rungs);
        const int cells = (DS_RUNGS_ROWS - 1) * DS_RUNGS_COLUMNS; /* the key shows the shapes too */
        const bool is_short = verdict == DS_SHORT;
        assert_int_equal(has_glyph(grid.at[0], cells, DS_GLYPH_LOST_DENIED), is_short);
        assert_int_equal(has_glyph(line, DS_RUNGS_LINE_COLUMNS, DS_GLYPH_LOST_DENIED), is_short);
        if (!is_short) {
            assert_int_equal(has_glyph(grid.at[0], cells, DS_GLYPH_LOST_OPEN), verdict == DS_UNKNOWN);
            assert_int_equal(has_glyph(line, DS_RUNGS_LINE_COLUMNS, DS_GLYPH_LOST_OPEN),
                             verdict == DS_UNKNOWN);
        }
    }
}

/* Every glyph is one character: ASCII in ASCII, and one code point in UTF-8. */
static void glyphs_take_one_column(void **state)
{
    (void)state;
    test_alloc a = test_alloc_make(0);
    ds_text text;
    ds_text_init(&text, test_alloc_use(&a));
    for (int glyph = ' '; glyph < DS_GLYPHS_END; glyph++) {
        if (glyph >= 0x7F && glyph < DS_GLYPH_FIRST) {
            continue;
        }
        ds_glyph_put(&text, (uint8_t)glyph, true);
        assert_int_equal(text.len, 1);
        assert_in_range((unsigned char)text.at[0], ' ', '~');
        text.len = 0;
        ds_glyph_put(&text, (uint8_t)glyph, false);
        assert_true(ds_str_is_utf8(ds_text_str(&text)));
        assert_int_equal(text.len, (unsigned char)text.at[0] < 0x80   ? 1
                                   : (unsigned char)text.at[0] < 0xE0 ? 2
                                                                      : 3);
        text.len = 0;
    }
    ds_text_free(&text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ip67_shows_its_gap),           cmocka_unit_test(ascii_says_the_same),
        cmocka_unit_test(lone_rung_and_no_need),        cmocka_unit_test(test_8_counts_to_its_depth),
        cmocka_unit_test(more_than_50_joules),          cmocka_unit_test(picture_agrees_with_comparison),
        cmocka_unit_test(shapes_agree_with_comparison), cmocka_unit_test(glyphs_take_one_column),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
