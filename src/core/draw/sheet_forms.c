/* SPDX-License-Identifier: MIT */
/*
 * What pens, fills and letters measure: the one place where the look of a drawing is decided.
 *
 * Line widths are those of technical drawings (0.13, 0.18, 0.25, 0.35, 0.5, 0.7 mm; memory: ISO 128-2). Hatches were
 * chosen by looking at prints on A4, in grey: each zone keeps its own angle and its own closeness, the wetter the closer.
 */
#include "core/draw/sheet.h"

const ds_pen_form *ds_pen_form_of(const ds_pen pen)
{
    static const ds_pen_form FORMS[DS_PENS_LEN] = {
        [DS_PEN_WALL] = {.width_mm = 0.5},
        [DS_PEN_FEATURE] = {.width_mm = 0.35},
        [DS_PEN_ZONE] = {.width_mm = 0.35},
        [DS_PEN_DIMENSION] = {.width_mm = 0.18},
        [DS_PEN_LEADER] = {.width_mm = 0.25, .clear_mm = 0.35},
        [DS_PEN_STRING] = {.width_mm = 0.7, .clear_mm = 0.7},
        [DS_PEN_HIDDEN] = {.width_mm = 0.25, .dash_mm = 2, .gap_mm = 1.2},
        [DS_PEN_HAIR] = {.width_mm = 0.13},
    };
    return &FORMS[pen];
}

const ds_fill_form *ds_fill_form_of(const ds_fill fill)
{
    static const ds_fill_form FORMS[DS_FILLS_LEN] = {
        [DS_FILL_PAPER] = {.grey = 255},
        [DS_FILL_LIGHT] = {.grey = 228},
        [DS_FILL_MIDDLE] = {.grey = 160},
        [DS_FILL_DARK] = {.grey = 96},
        [DS_FILL_WALL] = {.grey = 64},
        [DS_FILL_ZONE_0] =
            {.hatched = true, .crossed = true, .angle_deg = 45, .spacing_mm = 1.5, .width_mm = 0.18},
        [DS_FILL_ZONE_1] = {.hatched = true, .angle_deg = 135, .spacing_mm = 2, .width_mm = 0.18},
        [DS_FILL_ZONE_2] = {.hatched = true, .angle_deg = 45, .spacing_mm = 4, .width_mm = 0.18},
        [DS_FILL_ZONE_3] = {.hatched = true, .spacing_mm = 4, .width_mm = 0.18, .dash_mm = 1, .gap_mm = 3},
    };
    return &FORMS[fill];
}

const char *ds_role_word(const ds_role role)
{
    static const char *const WORDS[DS_ROLES_LEN] = {"plan", "section", "wall",   "feature",
                                                    "zone", "point",   "string", "dimension",
                                                    "box",  "rungs",   "curve",  "note"};
    return WORDS[role];
}

/* --- lettering ---------------------------------------------------------------------------------------------------- */

/* Hundredths of the body height, of " " to "~": the wider of Atkinson Hyperlegible and DejaVu Sans as measured. */
static const uint8_t REGULAR[] = {
    32, 41, 46, 84, 64, 96, 78, 28, 40,  40, 50, 84, 32, 37, 32, 38, 65, 64, 64, 64, 64, 64, 64, 64,
    64, 64, 34, 34, 84, 84, 84, 54, 100, 69, 69, 70, 78, 64, 58, 78, 76, 42, 51, 66, 56, 87, 75, 79,
    61, 79, 70, 64, 62, 74, 69, 99, 69,  62, 69, 40, 38, 40, 84, 50, 50, 62, 64, 55, 64, 62, 36, 64,
    64, 28, 28, 58, 28, 98, 64, 62, 64,  64, 42, 53, 40, 64, 60, 82, 60, 60, 53, 64, 34, 64, 84};
static const uint8_t BOLD[] = {
    35, 46, 53, 84, 70, 101, 88, 31,  46,  46, 53, 84, 38, 42, 38, 45, 70, 70, 70, 70, 70, 70,  70, 70,
    70, 70, 40, 40, 84, 84,  84, 62,  100, 78, 77, 74, 84, 69, 69, 83, 84, 46, 56, 78, 64, 100, 84, 86,
    74, 86, 78, 73, 69, 82,  78, 111, 78,  73, 73, 46, 45, 46, 84, 50, 50, 68, 72, 60, 72, 68,  44, 72,
    72, 35, 35, 67, 35, 105, 72, 69,  72,  72, 50, 60, 48, 72, 66, 93, 65, 66, 59, 72, 37, 72,  84};

enum { ASCII_FIRST = 0x20, ASCII_END = 0x7F, ALPHABETS_END = 0x700, ALPHABET_WIDTH = 90, OTHER_WIDTH = 100 };

double ds_lettering_halo_mm(const ds_lettering *const how)
{
    return how->halo ? 0.4 + 0.08 * how->size_mm : 0;
}

double ds_lettering_drop_mm(const ds_lettering *const how)
{
    return how->centred ? how->size_mm * DS_TYPE_CAPITAL / 2 : 0;
}

/* The character whose first byte is at `at`; *at moves behind it. Broken bytes count as one character each. */
static uint32_t next_character(const ds_str text, size_t *const at)
{
    const uint8_t lead = (uint8_t)text.at[(*at)++];
    uint32_t value = lead < 0xC0 ? lead : lead < 0xE0 ? lead & 0x1FU : lead < 0xF0 ? lead & 0xFU : lead & 7U;
    while (lead >= 0xC0 && *at < text.len && ((uint8_t)text.at[*at] & 0xC0) == 0x80) {
        value = value << 6 | ((uint8_t)text.at[(*at)++] & 0x3FU);
    }
    return value;
}

/* Combining marks, joiners and signs of direction. */
static bool is_without_width(const uint32_t c)
{
    return (c >= 0x300 && c < 0x370) || (c >= 0x200B && c < 0x2010) || (c >= 0x20D0 && c < 0x2100) ||
           (c >= 0xFE00 && c < 0xFE10);
}

static unsigned hundredths(const uint32_t c, const bool bold)
{
    if (c >= ASCII_FIRST && c < ASCII_END) {
        return bold ? BOLD[c - ASCII_FIRST] : REGULAR[c - ASCII_FIRST];
    }
    if (is_without_width(c)) {
        return 0;
    }
    return c < ALPHABETS_END ? ALPHABET_WIDTH : OTHER_WIDTH;
}

double ds_lettering_width_mm(const ds_str text, const ds_lettering *const how)
{
    double sum = 0;
    for (size_t at = 0; at < text.len;) {
        sum += hundredths(next_character(text, &at), how->bold);
    }
    return sum / 100 * how->size_mm;
}
