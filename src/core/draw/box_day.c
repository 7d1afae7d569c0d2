/* SPDX-License-Identifier: MIT */
/* The day's curve of a box, and the lettering that box sheets share. */
#include "core/draw/box_view.h"

#include <math.h>

#define LINE_MM 3.6

/* Half of what a label of the chart is wide. */
#define LABEL_MM 14.0

/* The coldest wall is wet when it is no warmer over the dew point, which is searched to a thousandth of a kelvin. */
#define WET_K 0.01

ds_str ds_view_number(ds_arena *const arena, const size_t number)
{
    char digits[20];
    size_t len = 0;
    for (size_t n = number; n || !len; n /= 10) {
        digits[len++] = (char)('0' + n % 10);
    }
    char *const text = ds_arena_take(arena, len);
    for (size_t i = 0; text && i < len; i++) {
        text[i] = digits[len - 1 - i];
    }
    return (ds_str){text, text ? len : 0};
}

/* How many bytes of the text fit into the width, up to a blank where there is one. */
static size_t fitting(const ds_str text, const double width_mm, const ds_lettering *const how)
{
    size_t blank = 0;
    for (size_t i = 1; i <= text.len; i++) {
        const bool whole = i == text.len || ((unsigned char)text.at[i] & 0xC0) != 0x80;
        if (whole && ds_lettering_width_mm((ds_str){text.at, i}, how) > width_mm) {
            return blank ? blank : i - 1 > 0 ? i - 1 : 1;
        }
        blank = i < text.len && text.at[i] == ' ' ? i : blank;
    }
    return text.len;
}

double ds_view_paragraph(ds_sheet *const sheet, ds_arena *const arena, const double x, double y,
                         const double width_mm, ds_text *const text, const ds_lettering how)
{
    (void)arena;
    ds_sheet_heed(sheet, text);
    ds_str rest = ds_text_str(text);
    while (rest.len) {
        const size_t take = fitting(rest, width_mm, &how);
        ds_sheet_write(sheet, x, y, (ds_str){rest.at, take}, how);
        y += LINE_MM;
        const size_t skip = take < rest.len && rest.at[take] == ' ' ? take + 1 : take;
        rest = (ds_str){rest.at + skip, rest.len - skip};
    }
    text->len = 0;
    return y;
}

/* --- the day ------------------------------------------------------------------------------------------------------ */

typedef struct chart {
    const ds_box_picture *p;
    ds_sheet *sheet;
    double left, top, width, height;
    double low_c, high_c;
} chart;

static double at_hour(const chart *const c, const double hour)
{
    return c->left + hour / (double)c->p->hours * c->width;
}

static double at_temp(const chart *const c, const double temp_c)
{
    return c->top + (c->high_c - temp_c) / (c->high_c - c->low_c) * c->height;
}

typedef enum line { INSIDE, WALL, DEW } line;

static double value_of(const ds_day_point *const point, const line which)
{
    return which == INSIDE ? point->inside_c : which == WALL ? point->wall_c : point->dew_c;
}

static void find_span(chart *const c)
{
    c->low_c = INFINITY;
    c->high_c = isnan(c->p->limit_c) ? -INFINITY : c->p->limit_c;
    for (size_t i = 0; i < c->p->hours; i++) {
        for (int k = INSIDE; k <= DEW; k++) {
            const double value = value_of(&c->p->curve[i], (line)k);
            c->low_c = isnan(value) ? c->low_c : fmin(c->low_c, value);
            c->high_c = isnan(value) ? c->high_c : fmax(c->high_c, value);
        }
    }
    c->low_c = 10 * floor(c->low_c / 10);
    c->high_c = 10 * ceil((c->high_c + 4) / 10);
}

static void put_grid(const chart *const c)
{
    const ds_lettering how = {.size_mm = DS_TYPE_SMALL_MM, .anchor = DS_ANCHOR_END, .centred = true};
    ds_text text;
    ds_text_init(&text, c->sheet->arena->alloc);
    const int lines = (int)lround((c->high_c - c->low_c) / 10);
    for (int i = 0; i <= lines; i++) {
        const double t = c->low_c + 10 * i;
        ds_sheet_stroke(c->sheet, DS_PEN_HAIR, c->left, at_temp(c, t), c->left + c->width, at_temp(c, t));
        ds_text_number(&text, t, 0);
        ds_text_add(&text, " °C");
        ds_sheet_write(c->sheet, c->left - 1.5, at_temp(c, t), ds_text_str(&text), how);
        text.len = 0;
    }
    const size_t step = c->p->hours <= 24 ? 6 : (c->p->hours + 3) / 4;
    for (size_t hour = 0; hour <= c->p->hours; hour += step) {
        ds_text_number(&text, (double)hour, 0);
        ds_text_add(&text, " h");
        ds_sheet_write(c->sheet, at_hour(c, (double)hour), c->top + c->height + 4, ds_text_str(&text),
                       (ds_lettering){.size_mm = DS_TYPE_SMALL_MM, .anchor = DS_ANCHOR_MIDDLE});
        text.len = 0;
    }
    ds_sheet_heed(c->sheet, &text);
    ds_text_free(&text);
}

static void put_line(const chart *const c, const line which, const ds_pen pen, const char *const name,
                     const double up_mm)
{
    bool drawing = false;
    size_t highest = 0;
    for (size_t i = 0; i <= c->p->hours; i++) { /* the last hour goes over into the first */
        const double value = value_of(&c->p->curve[i % c->p->hours], which);
        if (isnan(value)) {
            drawing = false;
            continue;
        }
        if (drawing) {
            ds_sheet_line(c->sheet, at_hour(c, (double)i), at_temp(c, value));
        } else {
            ds_sheet_move(c->sheet, at_hour(c, (double)i), at_temp(c, value));
        }
        drawing = true;
        highest = value > value_of(&c->p->curve[highest], which) ? i % c->p->hours : highest;
    }
    ds_sheet_draw(c->sheet, pen, DS_FILL_NONE);
    const double top = value_of(&c->p->curve[highest], which);
    const double x =
        fmin(fmax(at_hour(c, (double)highest), c->left + LABEL_MM), c->left + c->width - LABEL_MM);
    if (!isnan(top)) {
        ds_sheet_write(c->sheet, x, at_temp(c, top) + up_mm, ds_str_of(name),
                       (ds_lettering){.size_mm = DS_TYPE_SMALL_MM, .halo = true, .anchor = DS_ANCHOR_MIDDLE});
    }
}

static bool is_wet(const ds_day_point *const point)
{
    return point->wall_c - point->dew_c < WET_K;
}

/* Where it is wet the coldest wall is drawn thick. */
static void put_wet(const chart *const c)
{
    bool said = false;
    for (size_t i = 0; i < c->p->hours; i++) {
        const ds_day_point *const at = &c->p->curve[i];
        const ds_day_point *const next = &c->p->curve[(i + 1) % c->p->hours];
        if (!is_wet(at) || !is_wet(next)) {
            continue;
        }
        const double x = at_hour(c, (double)i);
        ds_sheet_stroke(c->sheet, DS_PEN_ZONE, x, at_temp(c, at->wall_c), at_hour(c, (double)(i + 1)),
                        at_temp(c, next->wall_c));
        if (!said) {
            ds_sheet_write(c->sheet, x + 1, at_temp(c, at->wall_c) + 4, DS_STR("wet"),
                           (ds_lettering){.size_mm = DS_TYPE_SMALL_MM, .bold = true, .halo = true});
        }
        said = true;
    }
}

void ds_view_day(const ds_box_picture *const p, ds_sheet *const sheet, const double top_mm,
                 const double height_mm)
{
    chart c = {.p = p,
               .sheet = sheet,
               .left = DS_VIEW_MARGIN_MM + 14,
               .top = top_mm,
               .width = DS_VIEW_WIDTH_MM - 14,
               .height = height_mm};
    const ds_lettering heading = {.size_mm = DS_TYPE_MM, .bold = true};
    find_span(&c);
    ds_sheet_begin(sheet, DS_ROLE_CURVE, DS_STR(""), DS_STR("The day inside"));
    ds_sheet_write(sheet, DS_VIEW_MARGIN_MM, top_mm - 4, DS_STR("The day inside"), heading);
    ds_sheet_write(sheet, DS_VIEW_MARGIN_MM + ds_lettering_width_mm(DS_STR("The day inside"), &heading) + 3,
                   top_mm - 4, ds_str_of(p->curve_is), (ds_lettering){.size_mm = DS_TYPE_SMALL_MM});
    put_grid(&c);
    if (!isnan(p->limit_c)) {
        ds_sheet_stroke(sheet, DS_PEN_HIDDEN, c.left, at_temp(&c, p->limit_c), c.left + c.width,
                        at_temp(&c, p->limit_c));
        ds_sheet_write(sheet, c.left + c.width, at_temp(&c, p->limit_c) - 1, DS_STR("limit"),
                       (ds_lettering){.size_mm = DS_TYPE_SMALL_MM, .halo = true, .anchor = DS_ANCHOR_END});
    }
    put_line(&c, DEW, DS_PEN_HIDDEN, "dew point inside", 4);
    put_line(&c, WALL, DS_PEN_DIMENSION, "coldest wall", 4);
    put_line(&c, INSIDE, DS_PEN_WALL, "air inside", -1.5);
    put_wet(&c);
    ds_sheet_end(sheet);
}
