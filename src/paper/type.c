/* SPDX-License-Identifier: MIT */
#include "paper/type.h"

#include "paper/fonts.h"

#define QUIET 0.3 /* grey of furniture; still clear on a copy */

/* --- opening ------------------------------------------------------------------------------------------------------ */

static void open_faces(ds_type *const type)
{
    static const struct {
        double size_mm;
        bool bold;
    } FORMS[DS_TYPEFACES_LEN] = {
        [DS_TYPEFACE_BODY] = {DS_TYPE_MM, false},
        [DS_TYPEFACE_STRONG] = {DS_TYPE_MM, true},
        [DS_TYPEFACE_QUIET] = {DS_TYPE_MM, false},
        [DS_TYPEFACE_SMALL] = {DS_TYPE_SMALL_MM, false},
        [DS_TYPEFACE_SMALL_STRONG] = {DS_TYPE_SMALL_MM, true},
        [DS_TYPEFACE_LARGE] = {DS_TYPE_LARGE_MM, true},
        [DS_TYPEFACE_HEAD] = {DS_TYPE_HEAD_MM, true},
        [DS_TYPEFACE_SUBHEAD] = {3.8, true},
    };
    for (int i = 0; i < DS_TYPEFACES_LEN; i++) {
        type->faces[i] = pango_font_description_from_string(DS_PAPER_FAMILIES);
        pango_font_description_set_weight(type->faces[i],
                                          FORMS[i].bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
        pango_font_description_set_absolute_size(type->faces[i], FORMS[i].size_mm * PANGO_SCALE);
    }
}

static void open_context(ds_type *const type)
{
    ds_fonts_add();
    PangoFontMap *const map = pango_cairo_font_map_new();
    type->context = pango_font_map_create_context(map);
    g_object_unref(map);
    cairo_font_options_t *const options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(type->context, options);
    cairo_font_options_destroy(options);
    pango_cairo_context_set_resolution(type->context, 72);
    pango_context_set_round_glyph_positions(type->context, FALSE);
    pango_context_set_language(type->context, pango_language_from_string("en-GB"));
    type->attributes = pango_attr_list_new();
    pango_attr_list_insert(type->attributes, pango_attr_font_features_new("liga=0, clig=0, dlig=0"));
    pango_attr_list_insert(type->attributes, pango_attr_insert_hyphens_new(FALSE));
}

static PangoLayout *new_layout(ds_type *const type)
{
    PangoLayout *const layout = pango_layout_new(type->context);
    pango_layout_set_wrap(layout, PANGO_WRAP_WORD_CHAR);
    pango_layout_set_single_paragraph_mode(layout, TRUE);
    pango_layout_set_attributes(layout, type->attributes);
    return layout;
}

/* Widths of plain letters standing alone: an estimate of a line errs by its kerning only. */
static void measure_faces(ds_type *const type)
{
    PangoLayout *const layout = new_layout(type);
    for (int face = 0; face < DS_TYPEFACES_LEN; face++) {
        pango_layout_set_font_description(layout, type->faces[face]);
        for (char c = ' '; c < 0x7F; c++) {
            pango_layout_set_text(layout, &c, 1);
            type->widths_mm[face][(int)c] = (float)ds_layout_width_mm(layout);
        }
        type->heights_mm[face] = ds_layout_height_mm(layout);
    }
    g_object_unref(layout);
}

void ds_type_open(ds_type *const type, const ds_alloc *const alloc)
{
    *type = (ds_type){0};
    ds_text_init(&type->clean, alloc);
    type->kept = alloc->resize(alloc->ctx, NULL, 0, DS_TYPE_KEPT * sizeof *type->kept);
    type->failed = !type->kept;
    for (size_t i = 0; type->kept && i < DS_TYPE_KEPT; i++) {
        type->kept[i] = (ds_type_kept){0};
    }
    open_context(type);
    open_faces(type);
    measure_faces(type);
}

bool ds_type_close(ds_type *const type)
{
    const ds_alloc *const alloc = type->clean.alloc;
    const bool good = !type->failed && ds_text_ok(&type->clean);
    for (size_t i = 0; type->kept && i < DS_TYPE_KEPT; i++) {
        if (type->kept[i].layout) {
            g_object_unref(type->kept[i].layout);
        }
    }
    if (type->kept) {
        alloc->resize(alloc->ctx, type->kept, DS_TYPE_KEPT * sizeof *type->kept, 0);
    }
    for (int i = 0; i < DS_TYPEFACES_LEN; i++) {
        pango_font_description_free(type->faces[i]);
    }
    pango_attr_list_unref(type->attributes);
    g_object_unref(type->context);
    ds_text_free(&type->clean);
    return good;
}

/* --- setting ------------------------------------------------------------------------------------------------------ */

/* Bytes at `at` that would steer a layout, not be read: controls, and signs that turn the direction of what follows. */
static size_t steering(const ds_str text, const size_t at)
{
    const unsigned char *const c = (const unsigned char *)text.at + at;
    if (*c < ' ' || *c == 0x7F) {
        return 1;
    }
    const bool turns =
        text.len - at > 2 && c[0] == 0xE2 &&
        ((c[1] == 0x80 && c[2] >= 0xA8 && c[2] <= 0xAE) || (c[1] == 0x81 && c[2] >= 0xA6 && c[2] <= 0xA9));
    return turns ? 3 : 0;
}

/* A blank between a figure and its unit, where no line may end. */
static bool is_before_unit(const ds_str text, const size_t at)
{
    static const char *const UNITS[] = {"°C", "mm", "m", "V", "mA", "A", "W", "J", "h"};
    if (text.at[at] != ' ' || at == 0 || text.at[at - 1] < '0' || text.at[at - 1] > '9') {
        return false;
    }
    const ds_str rest = ds_str_from(text, at + 1);
    for (size_t i = 0; i < sizeof UNITS / sizeof *UNITS; i++) {
        const size_t len = strlen(UNITS[i]);
        const bool ends = rest.len == len || (rest.len > len && memchr(" ,;.:)", rest.at[len], 6));
        if (ends && memcmp(rest.at, UNITS[i], len) == 0) {
            return true;
        }
    }
    return false;
}

/* They become blanks, since a document's text is only ever text; and a figure keeps to its unit. */
static ds_str cleaned(ds_type *const type, const ds_str text)
{
    size_t at = 0;
    while (at < text.len && !steering(text, at) && !is_before_unit(text, at)) {
        at++;
    }
    if (at == text.len) {
        return text.at ? text : DS_STR("");
    }
    type->clean.len = 0;
    for (size_t i = 0; i < text.len;) {
        const size_t skip = steering(text, i);
        if (is_before_unit(text, i)) {
            ds_text_add(&type->clean, "\u00A0");
        } else {
            ds_text_bytes(&type->clean, skip ? " " : text.at + i, 1);
        }
        i += skip ? skip : 1;
    }
    return ds_text_ok(&type->clean) ? ds_text_str(&type->clean) : DS_STR("");
}

static uint32_t hash_of(const ds_str text, const ds_typeface face, const int width)
{
    uint32_t hash = 2166136261U ^ (uint32_t)face ^ (uint32_t)width << 4; /* FNV-1a */
    for (size_t i = 0; i < text.len; i++) {
        hash = (hash ^ (uint8_t)text.at[i]) * 16777619U;
    }
    return hash;
}

static bool is_for(const ds_type_kept *const kept, const ds_type_kept *const asked, const ds_str text)
{
    return kept->layout && kept->hash == asked->hash && kept->width == asked->width &&
           kept->lines == asked->lines && kept->face == asked->face &&
           ds_str_eq(ds_str_of(pango_layout_get_text(kept->layout)), text);
}

static PangoLayout *make(ds_type *const type, const ds_type_kept *const asked, const ds_str text)
{
    PangoLayout *const layout = new_layout(type);
    pango_layout_set_font_description(layout, type->faces[asked->face]);
    pango_layout_set_width(layout, asked->width);
    if (asked->lines) {
        pango_layout_set_height(layout, -asked->lines);
        pango_layout_set_ellipsize(layout, PANGO_ELLIPSIZE_END);
    }
    pango_layout_set_text(layout, text.at, (int)text.len);
    return layout;
}

enum { LONGEST = 1 << 20 };

PangoLayout *ds_type_set(ds_type *const type, const ds_typeface face, const ds_str text,
                         const double width_mm, const int lines)
{
    ds_str clean = cleaned(type, text);
    clean.len = clean.len < LONGEST ? clean.len : LONGEST;
    ds_type_kept asked = {.width = (int)(width_mm * PANGO_SCALE), .lines = lines, .face = face};
    asked.hash = hash_of(clean, face, asked.width);
    if (!type->kept) {
        return make(type, &asked, clean);
    }
    ds_type_kept *const kept = &type->kept[asked.hash % DS_TYPE_KEPT];
    if (!is_for(kept, &asked, clean)) {
        if (kept->layout) {
            g_object_unref(kept->layout);
        }
        asked.layout = make(type, &asked, clean);
        *kept = asked;
    }
    return g_object_ref(kept->layout);
}

/* The text in one line, or more than the width where it has letters that are not plain. */
static double plain_width_mm(const ds_type *const type, const ds_typeface face, const ds_str text,
                             const double width_mm)
{
    double sum = 0;
    for (size_t i = 0; i < text.len && sum <= width_mm; i++) {
        const unsigned char c = (unsigned char)text.at[i];
        sum += c >= ' ' && c < 0x7F ? (double)type->widths_mm[face][c] : width_mm + 1;
    }
    return sum;
}

double ds_type_height_mm(ds_type *const type, const ds_typeface face, const ds_str text,
                         const double width_mm, const int lines)
{
    const double slack = 0.94; /* kerning never widens a line by as much as the rest */
    if (plain_width_mm(type, face, text, width_mm * slack) <= width_mm * slack) {
        return type->heights_mm[face];
    }
    PangoLayout *const layout = ds_type_set(type, face, text, width_mm, lines);
    const double height = ds_layout_height_mm(layout);
    g_object_unref(layout);
    return height;
}

PangoLayout *ds_type_sized(ds_type *const type, const bool bold, const double size_mm, const ds_str text)
{
    PangoLayout *const layout = new_layout(type);
    PangoFontDescription *const face =
        pango_font_description_copy(type->faces[bold ? DS_TYPEFACE_STRONG : DS_TYPEFACE_BODY]);
    const ds_str clean = cleaned(type, text);
    pango_font_description_set_absolute_size(face, size_mm * PANGO_SCALE);
    pango_layout_set_font_description(layout, face);
    pango_font_description_free(face);
    pango_layout_set_text(layout, clean.at, (int)(clean.len < LONGEST ? clean.len : LONGEST));
    return layout;
}

double ds_layout_height_mm(PangoLayout *const layout)
{
    int height = 0;
    pango_layout_get_size(layout, NULL, &height);
    return (double)height / PANGO_SCALE;
}

double ds_layout_width_mm(PangoLayout *const layout)
{
    int width = 0;
    pango_layout_get_size(layout, &width, NULL);
    return (double)width / PANGO_SCALE;
}

double ds_typeface_grey(const ds_typeface face)
{
    return face == DS_TYPEFACE_SMALL || face == DS_TYPEFACE_QUIET ? QUIET : 0;
}
