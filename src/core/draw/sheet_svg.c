/* SPDX-License-Identifier: MIT */
/*
 * One pass over the items. Attributes stand on the elements, not in a style sheet: a page's own styles then win, and
 * nothing leaks from one drawing into another.
 */
#include "core/draw/sheet_svg.h"

#include <math.h>

enum { DECIMALS = 3 };

/* --- pieces ------------------------------------------------------------------------------------------------------- */

/* Length of the UTF-8 character at `at` if XML may hold it; 0 otherwise. */
static size_t sound_character(const ds_str text, const size_t at)
{
    const uint8_t lead = (uint8_t)text.at[at];
    const size_t len = lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    const ds_str one = {text.at + at, len};
    if (len > text.len - at || !ds_str_is_utf8(one)) {
        return 0;
    }
    const bool no_character = ds_str_is(one, "\xEF\xBF\xBE") || ds_str_is(one, "\xEF\xBF\xBF");
    return no_character ? 0 : len;
}

/* The one place where text becomes XML. Control characters become a space, what is no character U+FFFD. */
static void put_escaped(ds_text *const out, const ds_str text)
{
    for (size_t at = 0; at < text.len;) {
        const size_t len = sound_character(text, at);
        const char c = text.at[at];
        if (len == 0) {
            ds_text_add(out, "\xEF\xBF\xBD");
        } else if (c == '&') {
            ds_text_add(out, "&amp;");
        } else if (c == '<') {
            ds_text_add(out, "&lt;");
        } else if (c == '>') {
            ds_text_add(out, "&gt;");
        } else if (c == '"') {
            ds_text_add(out, "&quot;");
        } else if (len == 1 && ((uint8_t)c < ' ' || c == 0x7F)) {
            ds_text_char(out, ' ');
        } else {
            ds_text_bytes(out, text.at + at, len);
        }
        at += len ? len : 1;
    }
}

static void put_number(ds_text *const out, const double value)
{
    ds_text_number(out, value, DECIMALS);
}

/* Numbers follow a letter or each other; a minus needs no space before it. */
static void put_pair(ds_text *const out, const double x, const double y)
{
    put_number(out, x);
    if (y > -0.0005) {
        ds_text_char(out, ' ');
    }
    put_number(out, y);
}

/*  name="value"  */
static void put_measure(ds_text *const out, const char *const name, const double value)
{
    ds_text_char(out, ' ');
    ds_text_add(out, name);
    ds_text_add(out, "=\"");
    put_number(out, value);
    ds_text_char(out, '"');
}

static void put_element(ds_text *const out, const char *const name, const ds_str text)
{
    ds_text_char(out, '<');
    ds_text_add(out, name);
    ds_text_char(out, '>');
    put_escaped(out, text);
    ds_text_add(out, "</");
    ds_text_add(out, name);
    ds_text_char(out, '>');
}

static bool is_plain(const char c)
{
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '_';
}

/* An id is made of letters, digits, - and _ and begins with a letter whatever the sheet is called. */
static void put_id(ds_text *const out, const ds_sheet *const sheet, const char *const part)
{
    ds_text_add(out, "ds-");
    for (size_t i = 0; i < sheet->id.len; i++) {
        ds_text_bytes(out, is_plain(sheet->id.at[i]) ? sheet->id.at + i : "-", 1);
    }
    ds_text_char(out, '-');
    ds_text_add(out, part);
}

static void put_grey(ds_text *const out, const char *const name, const uint8_t grey)
{
    static const char HEX[] = "0123456789abcdef";
    const char pair[] = {HEX[grey >> 4], HEX[grey & 15]};
    const size_t digits = pair[0] == pair[1] ? 1 : 2;
    ds_text_char(out, ' ');
    ds_text_add(out, name);
    ds_text_add(out, "=\"#");
    for (int i = 0; i < 3; i++) {
        ds_text_bytes(out, pair, digits);
    }
    ds_text_char(out, '"');
}

/* --- hatches ------------------------------------------------------------------------------------------------------ */

static const char *hatch_name(const ds_fill fill)
{
    static const char *const NAMES[DS_FILLS_LEN] = {[DS_FILL_ZONE_0] = "zone-0",
                                                    [DS_FILL_ZONE_1] = "zone-1",
                                                    [DS_FILL_ZONE_2] = "zone-2",
                                                    [DS_FILL_ZONE_3] = "zone-3"};
    return NAMES[fill];
}

/* The tile holds its lines in its middle, so it starts half a spacing off for them to meet 0,0; it is turned as a whole. */
static void put_hatch(ds_text *const out, const ds_sheet *const sheet, const ds_fill fill)
{
    const ds_fill_form *const form = ds_fill_form_of(fill);
    const double half = form->spacing_mm / 2;
    const double period = form->dash_mm > 0 ? form->dash_mm + form->gap_mm : form->spacing_mm;
    ds_text_add(out, "<pattern id=\"");
    put_id(out, sheet, hatch_name(fill));
    ds_text_add(out, "\" patternUnits=\"userSpaceOnUse\"");
    put_measure(out, "x", form->crossed ? -half : 0);
    put_measure(out, "y", -half);
    put_measure(out, "width", period);
    put_measure(out, "height", form->spacing_mm);
    if (form->angle_deg > 0) {
        ds_text_add(out, " patternTransform=\"rotate(");
        put_number(out, form->angle_deg);
        ds_text_add(out, ")\"");
    }
    ds_text_add(out, "><path d=\"M0 ");
    put_number(out, half);
    ds_text_char(out, 'H');
    put_number(out, form->dash_mm > 0 ? form->dash_mm : period);
    if (form->crossed) {
        ds_text_char(out, 'M');
        put_number(out, half);
        ds_text_add(out, " 0V");
        put_number(out, form->spacing_mm);
    }
    ds_text_add(out, "\" stroke=\"#000\" stroke-linecap=\"butt\"");
    put_measure(out, "stroke-width", form->width_mm);
    ds_text_add(out, "/></pattern>\n");
}

static void put_hatches(ds_text *const out, const ds_sheet *const sheet)
{
    bool used[DS_FILLS_LEN] = {false};
    for (size_t i = 0; i < sheet->item_len; i++) {
        const ds_item *const item = &sheet->items[i];
        if (item->kind == DS_ITEM_PATH && ds_fill_form_of(item->fill)->hatched && !used[item->fill]) {
            used[item->fill] = true;
            put_hatch(out, sheet, item->fill);
        }
    }
}

/* --- items -------------------------------------------------------------------------------------------------------- */

static void put_line_to(ds_text *const out, const ds_step *const step, const ds_step *const before)
{
    if (step->y == before->y) {
        ds_text_char(out, 'H');
        put_number(out, step->x);
    } else if (step->x == before->x) {
        ds_text_char(out, 'V');
        put_number(out, step->y);
    } else {
        ds_text_char(out, 'L');
        put_pair(out, step->x, step->y);
    }
}

static void put_arc_to(ds_text *const out, const ds_step *const step, const ds_step *const before)
{
    const double x = before->x - step->centre_x;
    const double y = before->y - step->centre_y;
    const double radius = sqrt(x * x + y * y);
    ds_text_char(out, 'A');
    put_pair(out, radius, radius);
    ds_text_add(out, step->clockwise ? " 0 0 1 " : " 0 0 0 ");
    put_pair(out, step->x, step->y);
}

static void put_step(ds_text *const out, const ds_step *const step, const ds_step *const before)
{
    switch (step->kind) {
    case DS_STEP_MOVE:
        ds_text_char(out, 'M');
        put_pair(out, step->x, step->y);
        break;
    case DS_STEP_LINE:
        put_line_to(out, step, before);
        break;
    case DS_STEP_ARC:
        put_arc_to(out, step, before);
        break;
    case DS_STEP_CLOSE:
        ds_text_char(out, 'Z');
        break;
    }
}

static void put_path_start(ds_text *const out, const ds_sheet *const sheet, const ds_item *const item)
{
    ds_text_add(out, "<path d=\"");
    for (size_t i = 0; i < item->step_len; i++) {
        const ds_step *const step = &sheet->steps[item->first_step + i];
        put_step(out, step, step - (i > 0));
    }
    ds_text_char(out, '"');
}

static void put_line(ds_text *const out, const uint8_t grey, const double width_mm,
                     const ds_pen_form *const form)
{
    put_grey(out, "stroke", grey);
    put_measure(out, "stroke-width", width_mm);
    if (form->dash_mm > 0) {
        ds_text_add(out, " stroke-linecap=\"butt\" stroke-dasharray=\"");
        put_pair(out, form->dash_mm, form->gap_mm);
        ds_text_char(out, '"');
    }
}

static void put_fill(ds_text *const out, const ds_sheet *const sheet, const ds_fill fill)
{
    const ds_fill_form *const form = ds_fill_form_of(fill);
    if (form->hatched) {
        ds_text_add(out, " fill=\"url(#");
        put_id(out, sheet, hatch_name(fill));
        ds_text_add(out, ")\"");
    } else if (fill == DS_FILL_NONE) {
        ds_text_add(out, " fill=\"none\"");
    } else if (form->grey) {
        put_grey(out, "fill", form->grey);
    }
}

static void put_path(ds_text *const out, const ds_sheet *const sheet, const ds_item *const item)
{
    const ds_pen_form *const form = ds_pen_form_of(item->pen);
    if (form->clear_mm > 0) {
        const ds_pen_form whole = {0};
        put_path_start(out, sheet, item);
        put_fill(out, sheet, DS_FILL_NONE);
        put_line(out, 255, form->width_mm + 2 * form->clear_mm, &whole);
        ds_text_add(out, "/>\n");
    }
    put_path_start(out, sheet, item);
    put_fill(out, sheet, item->fill);
    if (item->pen != DS_PEN_NONE) {
        put_line(out, 0, form->width_mm, form);
    }
    ds_text_add(out, "/>\n");
}

static void put_turn(ds_text *const out, const ds_item *const item)
{
    ds_text_add(out, " transform=\"rotate(");
    put_number(out, item->how.turn_deg);
    ds_text_char(out, ' ');
    put_pair(out, item->x, item->y);
    ds_text_add(out, ")\"");
}

static void put_text(ds_text *const out, const ds_item *const item)
{
    static const char *const ANCHORS[] = {"", " text-anchor=\"middle\"", " text-anchor=\"end\""};
    ds_text_add(out, "<text");
    put_measure(out, "x", item->x);
    put_measure(out, "y", item->y + ds_lettering_drop_mm(&item->how));
    put_measure(out, "font-size", item->how.size_mm);
    ds_text_add(out, ANCHORS[item->how.anchor]);
    ds_text_add(out, item->how.bold ? " font-weight=\"700\"" : "");
    if (item->how.reversed) {
        put_grey(out, "fill", 255);
    }
    if (item->how.halo) {
        put_grey(out, "stroke", item->how.reversed ? 0 : 255);
        put_measure(out, "stroke-width", 2 * ds_lettering_halo_mm(&item->how));
        ds_text_add(out, " paint-order=\"stroke\"");
    }
    if (item->how.turn_deg != 0) {
        put_turn(out, item);
    }
    ds_text_char(out, '>');
    put_escaped(out, item->text);
    ds_text_add(out, "</text>\n");
}

static void put_begin(ds_text *const out, const ds_item *const item)
{
    ds_text_add(out, "<g class=\"");
    ds_text_add(out, ds_role_word(item->role));
    ds_text_char(out, '"');
    if (item->id.len) {
        ds_text_add(out, " data-id=\"");
        put_escaped(out, item->id);
        ds_text_char(out, '"');
    }
    if (item->text.len) {
        ds_text_add(out, " role=\"graphics-object group\">");
        put_element(out, "title", item->text);
        ds_text_char(out, '\n');
    } else {
        ds_text_add(out, ">\n");
    }
}

static void put_item(ds_text *const out, const ds_sheet *const sheet, const ds_item *const item)
{
    if (item->kind == DS_ITEM_PATH) {
        put_path(out, sheet, item);
    } else if (item->kind == DS_ITEM_TEXT) {
        put_text(out, item);
    } else if (item->kind == DS_ITEM_BEGIN) {
        put_begin(out, item);
    } else {
        ds_text_add(out, "</g>\n");
    }
}

/* --- the whole ---------------------------------------------------------------------------------------------------- */

/* title or desc with its id; nothing when empty, nor a reference to it. */
static void put_named(ds_text *const out, const ds_sheet *const sheet, const char *const name,
                      const ds_str text)
{
    if (text.len) {
        ds_text_char(out, '<');
        ds_text_add(out, name);
        ds_text_add(out, " id=\"");
        put_id(out, sheet, name);
        ds_text_add(out, "\">");
        put_escaped(out, text);
        ds_text_add(out, "</");
        ds_text_add(out, name);
        ds_text_add(out, ">\n");
    }
}

static void put_reference(ds_text *const out, const ds_sheet *const sheet, const char *const attribute,
                          const char *const name, const ds_str text)
{
    if (text.len) {
        ds_text_add(out, attribute);
        put_id(out, sheet, name);
        ds_text_char(out, '"');
    }
}

static void put_head(ds_text *const out, const ds_sheet *const sheet)
{
    ds_text_add(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"");
    put_number(out, sheet->width_mm);
    ds_text_add(out, "mm\" height=\"");
    put_number(out, sheet->height_mm);
    ds_text_add(out, "mm\" viewBox=\"0 0 ");
    put_pair(out, sheet->width_mm, sheet->height_mm);
    ds_text_add(out, "\" role=\"graphics-document document\"");
    put_reference(out, sheet, " aria-labelledby=\"", "title", sheet->title);
    put_reference(out, sheet, " aria-describedby=\"", "desc", sheet->description);
    ds_text_add(out, " font-family=\"" DS_TYPE_FAMILIES "\" fill-rule=\"evenodd\""
                     " stroke-linecap=\"round\" stroke-linejoin=\"round\">\n");
    put_named(out, sheet, "title", sheet->title);
    put_named(out, sheet, "desc", sheet->description);
    ds_text_add(out, "<path d=\"M0 0H");
    put_number(out, sheet->width_mm);
    ds_text_char(out, 'V');
    put_number(out, sheet->height_mm);
    ds_text_add(out, "H0Z\" fill=\"#fff\"/>\n");
}

void ds_sheet_svg(ds_text *const out, const ds_sheet *const sheet)
{
    put_head(out, sheet);
    put_hatches(out, sheet);
    for (size_t i = 0; i < sheet->item_len; i++) {
        put_item(out, sheet, &sheet->items[i]);
    }
    ds_text_repeat(out, "</g>\n", sheet->depth);
    ds_text_add(out, "</svg>\n");
}
