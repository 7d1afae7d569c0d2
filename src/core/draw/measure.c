/* SPDX-License-Identifier: MIT */
/* Dimension lines, strings, scale bar and north arrow, from lines and texts of the sheet. */
#include "core/draw/measure.h"

#include <math.h>

#define EXTENSION_GAP 1.0  /* between what is measured and its extension line */
#define EXTENSION_OVER 1.5 /* beyond the dimension line */
#define TICK 1.3           /* half of an oblique tick, along and across */
#define TEXT_OFF 1.0       /* from a line to its text */
#define KNOT 0.9           /* radius */
#define BAR_HEIGHT 1.6
#define BAR_INDENT 1.0 /* room for half of the 0 over its left end */
#define BAR_GAP 4.0
#define PI 3.14159265358979323846
#define NORTH 6.0 /* half of the arrow's length */

/* --- scale -------------------------------------------------------------------------------------------------------- */

unsigned ds_scale_for(const double width_m, const double height_m, const double paper_width_mm,
                      const double paper_height_mm)
{
    static const uint16_t SCALES[] = {10, 20, 25, 50, 100, 200, 250, 500, 1000};
    const double across = width_m * 1000 / paper_width_mm;
    const double down = height_m * 1000 / paper_height_mm;
    const double least = across > down ? across : down;
    if (!(across > 0 && down > 0 && least < 1e9)) {
        return 0;
    }
    for (size_t i = 0; i < sizeof SCALES / sizeof SCALES[0]; i++) {
        if (least <= SCALES[i]) {
            return SCALES[i];
        }
    }
    return (unsigned)ceil(least / 1000) * 1000;
}

/* --- dimensions --------------------------------------------------------------------------------------------------- */

/* A frame on a line: along it, and across to the left as one walks. */
typedef struct course {
    double x, y; /* of the first end */
    double along_x, along_y;
    double length;
} course;

static course course_of(const ds_stretch span)
{
    const double x = span.x2 - span.x1;
    const double y = span.y2 - span.y1;
    const double length = sqrt(x * x + y * y);
    if (length == 0) {
        return (course){0};
    }
    return (course){span.x1, span.y1, x / length, y / length, length};
}

/* The place that lies `along` from the first end and `left` beside the line; y runs down. */
static double place_x(const course *const on, const double along, const double left)
{
    return on->x + along * on->along_x + left * on->along_y;
}

static double place_y(const course *const on, const double along, const double left)
{
    return on->y + along * on->along_y - left * on->along_x;
}

static void stroke(ds_sheet *const sheet, const ds_pen pen, const course *const on, const double along1,
                   const double left1, const double along2, const double left2)
{
    ds_sheet_stroke(sheet, pen, place_x(on, along1, left1), place_y(on, along1, left1),
                    place_x(on, along2, left2), place_y(on, along2, left2));
}

/* Does text along the line have to run against it, so that nobody has to read it upside down or from the left. */
static bool runs_against(const course *const on)
{
    return on->along_x < -1e-9 || (on->along_x < 1e-9 && on->along_y > 0);
}

static double turn_of(const course *const on)
{
    const double sign = runs_against(on) ? -1 : 1;
    return atan2(sign * on->along_y, sign * on->along_x) * (180 / PI);
}

/* A text whose foot lies above the line that runs `left` beside the course. */
static void write_along(ds_sheet *const sheet, const course *const on, const double along, const double left,
                        const ds_str text, ds_lettering how)
{
    const double up = runs_against(on) ? -TEXT_OFF : TEXT_OFF;
    how.turn_deg = turn_of(on);
    ds_sheet_write(sheet, place_x(on, along, left + up), place_y(on, along, left + up), text, how);
}

static void write_dimension(ds_sheet *const sheet, const course *const on, const double off_mm,
                            const ds_str text)
{
    ds_lettering how = {.size_mm = DS_TYPE_SMALL_MM, .anchor = DS_ANCHOR_MIDDLE, .halo = true};
    const double width = ds_lettering_width_mm(text, &how);
    if (width <= on->length) {
        write_along(sheet, on, on->length / 2, off_mm, text, how);
        return;
    }
    const double start = on->length + TICK + TEXT_OFF;
    stroke(sheet, DS_PEN_DIMENSION, on, on->length, off_mm, start + width, off_mm);
    how.anchor = runs_against(on) ? DS_ANCHOR_END : DS_ANCHOR_START;
    write_along(sheet, on, start, off_mm, text, how);
}

void ds_measure_dimension(ds_sheet *const sheet, const ds_stretch span, const double off_mm,
                          const ds_str text)
{
    const course on = course_of(span);
    if (on.length == 0) {
        return;
    }
    const double side = off_mm < 0 ? -1 : 1;
    ds_sheet_begin(sheet, DS_ROLE_DIMENSION, DS_STR(""), text);
    for (int end = 0; end < 2; end++) {
        const double along = end ? on.length : 0;
        if (fabs(off_mm) > EXTENSION_GAP) {
            stroke(sheet, DS_PEN_HAIR, &on, along, side * EXTENSION_GAP, along,
                   off_mm + side * EXTENSION_OVER);
        }
        stroke(sheet, DS_PEN_FEATURE, &on, along - TICK, off_mm - TICK, along + TICK, off_mm + TICK);
    }
    stroke(sheet, DS_PEN_DIMENSION, &on, -TICK, off_mm, on.length + TICK, off_mm);
    write_dimension(sheet, &on, off_mm, text);
    ds_sheet_end(sheet);
}

/* --- string ------------------------------------------------------------------------------------------------------- */

static ds_stretch leg(const double (*const places)[2], const size_t i)
{
    return (ds_stretch){places[i][0], places[i][1], places[i + 1][0], places[i + 1][1]};
}

static course longest_leg(const double (*const places)[2], const size_t len)
{
    course longest = {0};
    for (size_t i = 0; i + 1 < len; i++) {
        const course on = course_of(leg(places, i));
        if (on.length > longest.length) {
            longest = on;
        }
    }
    return longest;
}

void ds_measure_string(ds_sheet *const sheet, const double (*const places)[2], const size_t len,
                       const ds_str text)
{
    if (len < 2) {
        return;
    }
    ds_sheet_begin(sheet, DS_ROLE_STRING, DS_STR(""), text);
    ds_sheet_move(sheet, places[0][0], places[0][1]);
    for (size_t i = 1; i < len; i++) {
        ds_sheet_line(sheet, places[i][0], places[i][1]);
    }
    ds_sheet_draw(sheet, DS_PEN_STRING, DS_FILL_NONE);
    ds_sheet_circle(sheet, places[0][0], places[0][1], KNOT);
    ds_sheet_circle(sheet, places[len - 1][0], places[len - 1][1], KNOT);
    ds_sheet_draw(sheet, DS_PEN_NONE, DS_FILL_INK);
    const course on = longest_leg(places, len);
    if (on.length > 0) {
        const ds_lettering how = {
            .size_mm = DS_TYPE_MM, .anchor = DS_ANCHOR_MIDDLE, .bold = true, .halo = true};
        write_along(sheet, &on, on.length / 2, 0, text, how);
    }
    ds_sheet_end(sheet);
}

/* --- scale bar and north ------------------------------------------------------------------------------------------ */

/* Metres of the whole bar: the longest 1, 2 or 5 of a ten that is at most 60 mm on paper. */
static double bar_m(const unsigned scale)
{
    const double most_m = 0.06 * scale * (1 + 1e-9);
    double ten = 0.1;
    while (ten * 10 <= most_m) {
        ten *= 10;
    }
    return ten * (5 * ten <= most_m ? 5 : 2 * ten <= most_m ? 2 : 1);
}

/* number, then unit, behind before: "1:25", "0.5 m". */
static void write_number(ds_sheet *const sheet, const double x, const double y, const ds_anchor anchor,
                         const char *const before, const double number, const char *const unit)
{
    const ds_lettering how = {.size_mm = DS_TYPE_SMALL_MM, .anchor = anchor};
    ds_text text;
    ds_text_init(&text, sheet->arena->alloc);
    ds_text_add(&text, before);
    ds_text_number(&text, number, 3);
    ds_text_add(&text, unit);
    ds_sheet_heed(sheet, &text);
    ds_sheet_write(sheet, x, y, ds_text_str(&text), how);
    ds_text_free(&text);
}

void ds_measure_scale_bar(ds_sheet *const sheet, const double x, const double y, const unsigned scale)
{
    if (scale == 0) {
        return;
    }
    const double whole_m = bar_m(scale);
    const double length = whole_m * 1000 / scale;
    const double left = x + BAR_INDENT;
    const double foot = y + DS_TYPE_SMALL_MM;
    const double top = foot + TEXT_OFF;
    ds_sheet_begin(sheet, DS_ROLE_DIMENSION, DS_STR(""), DS_STR("Scale bar"));
    ds_sheet_rect(sheet, left, top, length, BAR_HEIGHT);
    ds_sheet_draw(sheet, DS_PEN_DIMENSION, DS_FILL_PAPER);
    ds_sheet_rect(sheet, left, top, length / 4, BAR_HEIGHT);
    ds_sheet_rect(sheet, left + length / 2, top, length / 4, BAR_HEIGHT);
    ds_sheet_draw(sheet, DS_PEN_DIMENSION, DS_FILL_INK);
    write_number(sheet, left, foot, DS_ANCHOR_MIDDLE, "", 0, "");
    write_number(sheet, left + length / 2, foot, DS_ANCHOR_MIDDLE, "", whole_m / 2, "");
    write_number(sheet, left + length, foot, DS_ANCHOR_MIDDLE, "", whole_m, " m");
    write_number(sheet, left + length + BAR_GAP, top + BAR_HEIGHT, DS_ANCHOR_START, "1:", scale, "");
    ds_sheet_end(sheet);
}

void ds_measure_north(ds_sheet *const sheet, const double x, const double y, const double turn_deg)
{
    const double angle = turn_deg * (PI / 180);
    const course on = {x, y, sin(angle), -cos(angle), NORTH};
    ds_sheet_begin(sheet, DS_ROLE_NOTE, DS_STR(""), DS_STR("North"));
    ds_sheet_move(sheet, place_x(&on, NORTH, 0), place_y(&on, NORTH, 0));
    ds_sheet_line(sheet, place_x(&on, -NORTH, NORTH / 3), place_y(&on, -NORTH, NORTH / 3));
    ds_sheet_line(sheet, place_x(&on, -NORTH / 2, 0), place_y(&on, -NORTH / 2, 0));
    ds_sheet_close(sheet);
    ds_sheet_draw(sheet, DS_PEN_DIMENSION, DS_FILL_INK);
    ds_sheet_move(sheet, place_x(&on, NORTH, 0), place_y(&on, NORTH, 0));
    ds_sheet_line(sheet, place_x(&on, -NORTH, -NORTH / 3), place_y(&on, -NORTH, -NORTH / 3));
    ds_sheet_line(sheet, place_x(&on, -NORTH / 2, 0), place_y(&on, -NORTH / 2, 0));
    ds_sheet_close(sheet);
    ds_sheet_draw(sheet, DS_PEN_DIMENSION, DS_FILL_NONE);
    const double over = NORTH + DS_TYPE_MM * 0.75;
    const ds_lettering how = {
        .size_mm = DS_TYPE_MM, .anchor = DS_ANCHOR_MIDDLE, .bold = true, .halo = true, .centred = true};
    ds_sheet_write(sheet, place_x(&on, over, 0), place_y(&on, over, 0), DS_STR("N"), how);
    ds_sheet_end(sheet);
}
