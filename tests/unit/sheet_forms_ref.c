/* SPDX-License-Identifier: MIT */
/*
 * Pens, fills and lettering: that names differ where the eye has to tell them apart, and widths of text against widths
 * measured from the fonts themselves (advance widths at a body of 1: DejaVu Sans 2.37 and Atkinson Hyperlegible).
 */
#include "base_alloc.h"

#include "core/draw/sheet.h"

#include <math.h>

/* --- pens and fills ----------------------------------------------------------------------------------------------- */

/* Two line widths nearer than a fifth look alike; then at least the dashes must differ. */
static void pens_can_be_told_apart(void **state)
{
    (void)state;
    const ds_pen WALKED[] = {DS_PEN_WALL,   DS_PEN_ZONE,   DS_PEN_DIMENSION,
                             DS_PEN_STRING, DS_PEN_HIDDEN, DS_PEN_HAIR};
    for (size_t i = 0; i < sizeof WALKED / sizeof WALKED[0]; i++) {
        const ds_pen_form *const a = ds_pen_form_of(WALKED[i]);
        assert_true(a->width_mm >= 0.13 && a->width_mm <= 1);
        for (size_t j = 0; j < i; j++) {
            const ds_pen_form *const b = ds_pen_form_of(WALKED[j]);
            const double ratio = fmax(a->width_mm, b->width_mm) / fmin(a->width_mm, b->width_mm);
            assert_true(ratio > 1.2 || (a->dash_mm > 0) != (b->dash_mm > 0));
        }
    }
    assert_true(ds_pen_form_of(DS_PEN_NONE)->width_mm == 0);
}

/* How much of the paper a hatch covers. */
static double cover(const ds_fill_form *const form)
{
    const double share = form->dash_mm > 0 ? form->dash_mm / (form->dash_mm + form->gap_mm) : 1;
    return share * (form->crossed ? 2 : 1) * form->width_mm / form->spacing_mm;
}

/* The wetter the zone the darker; and no two run alike, so that a copy that loses greys loses nothing. */
static void zones_can_be_told_apart(void **state)
{
    (void)state;
    for (int fill = DS_FILL_ZONE_0; fill <= DS_FILL_ZONE_3; fill++) {
        const ds_fill_form *const a = ds_fill_form_of((ds_fill)fill);
        assert_true(a->hatched && a->spacing_mm >= 1.5 && a->width_mm >= 0.18 && a->width_mm <= 0.25);
        for (int other = DS_FILL_ZONE_0; other < fill; other++) {
            const ds_fill_form *const b = ds_fill_form_of((ds_fill)other);
            assert_true(cover(a) < cover(b) / 1.5);
            assert_true(a->angle_deg != b->angle_deg || a->crossed != b->crossed);
        }
    }
}

static void greys_are_in_order(void **state)
{
    (void)state;
    static const ds_fill ORDER[] = {DS_FILL_INK,    DS_FILL_WALL,  DS_FILL_DARK,
                                    DS_FILL_MIDDLE, DS_FILL_LIGHT, DS_FILL_PAPER};
    for (size_t i = 1; i < sizeof ORDER / sizeof ORDER[0]; i++) {
        assert_true(ds_fill_form_of(ORDER[i - 1])->grey < ds_fill_form_of(ORDER[i])->grey);
        assert_false(ds_fill_form_of(ORDER[i])->hatched);
    }
    assert_int_equal(ds_fill_form_of(DS_FILL_INK)->grey, 0);
    assert_int_equal(ds_fill_form_of(DS_FILL_PAPER)->grey, 255);
}

static void every_role_has_a_word_of_its_own(void **state)
{
    (void)state;
    for (int role = 0; role < DS_ROLES_LEN; role++) {
        assert_non_null(ds_role_word((ds_role)role));
        for (int other = 0; other < role; other++) {
            assert_string_not_equal(ds_role_word((ds_role)role), ds_role_word((ds_role)other));
        }
    }
    assert_string_equal(ds_role_word(DS_ROLE_RUNGS), "rungs");
    assert_string_equal(ds_role_word(DS_ROLE_NOTE), "note");
}

/* --- lettering ---------------------------------------------------------------------------------------------------- */

static double width(const char *const text, const bool bold, const double size_mm)
{
    const ds_lettering how = {.size_mm = size_mm, .bold = bold};
    return ds_lettering_width_mm(ds_str_of(text), &how);
}

/* Never narrower than the wider font, and no more than a tenth wider. */
static void widths_hold_what_fonts_need(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double regular[2], bold[2]; /* DejaVu Sans, Atkinson Hyperlegible */
    } MEASURED[] = {
        {"Hamburgefonstiv 0123456789", {15.3291, 13.492}, {17.0767, 14.295}},
        {"The socket at 3 is 2.31 m from zone 1.", {19.3193, 16.531}, {21.5898, 18.044}},
        {"IP66/IP67 IK08", {7.2188, 7.295}, {8.2451, 7.763}},
        {"dust-tight", {4.873, 4.295}, {5.6426, 4.695}},
        {"Bathroom", {4.9336, 4.3}, {5.5361, 4.547}},
    };
    for (size_t i = 0; i < sizeof MEASURED / sizeof MEASURED[0]; i++) {
        const double regular = fmax(MEASURED[i].regular[0], MEASURED[i].regular[1]);
        const double bold = fmax(MEASURED[i].bold[0], MEASURED[i].bold[1]);
        assert_true(width(MEASURED[i].text, false, 1) >= regular);
        assert_true(width(MEASURED[i].text, false, 1) <= 1.1 * regular);
        assert_true(width(MEASURED[i].text, true, 1) >= bold);
        assert_true(width(MEASURED[i].text, true, 1) <= 1.1 * bold);
    }
}

static void bold_is_never_narrower(void **state)
{
    (void)state;
    for (char c = ' '; c <= '~'; c++) {
        const char text[] = {c, '\0'};
        assert_true(width(text, true, 1) >= width(text, false, 1));
        assert_true(width(text, false, 1) > 0);
    }
}

/* Decoded by characters, not bytes; broken bytes end no later than the text. */
static void other_scripts_take_room(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        double width;
    } CASES[] = {
        {"", 0},
        {"\xC3\xA9", 0.9},                   /* e acute */
        {"\xD0\x96", 0.9},                   /* Zhe */
        {"\xE6\xB0\xB4\xE6\xB0\xB4", 2},     /* water, twice */
        {"\xF0\x9F\x92\xA7", 1},             /* beyond the first plane */
        {"e\xCC\x81", 0.62},                 /* a mark that combines */
        {"a\xE2\x80\x8B\xEF\xB8\x8F", 0.62}, /* a space without width, a variant sign */
        {"\xC3", 0.9},                       /* cut off */
        {"\x80\x80", 1.8},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        assert_true(fabs(width(CASES[i].text, false, 1) - CASES[i].width) < 1e-12);
        assert_true(fabs(width(CASES[i].text, false, 3) - 3 * CASES[i].width) < 1e-12);
    }
}

static void halo_and_drop(void **state)
{
    (void)state;
    const ds_lettering plain = {.size_mm = 5};
    const ds_lettering rich = {.size_mm = 5, .halo = true, .centred = true};
    assert_true(ds_lettering_halo_mm(&plain) == 0 && ds_lettering_drop_mm(&plain) == 0);
    assert_true(fabs(ds_lettering_halo_mm(&rich) - 0.8) < 1e-12);
    assert_true(fabs(ds_lettering_drop_mm(&rich) - 1.7) < 1e-12); /* half of a capital of 3.4 mm */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pens_can_be_told_apart),      cmocka_unit_test(zones_can_be_told_apart),
        cmocka_unit_test(greys_are_in_order),          cmocka_unit_test(every_role_has_a_word_of_its_own),
        cmocka_unit_test(widths_hold_what_fonts_need), cmocka_unit_test(bold_is_never_narrower),
        cmocka_unit_test(other_scripts_take_room),     cmocka_unit_test(halo_and_drop),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
