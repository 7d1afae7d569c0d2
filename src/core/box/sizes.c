/* SPDX-License-Identifier: MIT */
/* Finding threads, glands and cables by name; see sizes.h. The file is read in sizes_read.c. */
#include "core/box/sizes.h"

#include <math.h>

/* --- names -------------------------------------------------------------------------------------------------------- */

static char plain(const char c)
{
    return (char)(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c == ',' ? '.' : c);
}

static size_t skip_spaces(const ds_str text, size_t i)
{
    while (i < text.len && text.at[i] == ' ') {
        i++;
    }
    return i;
}

/* Without regard to case and spaces, a comma as a point. */
static bool same_name(const ds_str a, const ds_str b)
{
    size_t i = skip_spaces(a, 0);
    size_t j = skip_spaces(b, 0);
    while (i < a.len && j < b.len && plain(a.at[i]) == plain(b.at[j])) {
        i = skip_spaces(a, i + 1);
        j = skip_spaces(b, j + 1);
    }
    return i == a.len && j == b.len && a.len > 0;
}

static bool is_named(const ds_str sought, const ds_str name, const ds_json *const also)
{
    if (same_name(sought, name)) {
        return true;
    }
    for (const ds_json *other = also ? also->first : NULL; other; other = other->next) {
        if (same_name(sought, ds_json_text(other))) {
            return true;
        }
    }
    return false;
}

static bool is_digit(const ds_str text, const size_t i)
{
    return i < text.len && text.at[i] >= '0' && text.at[i] <= '9';
}

/* A number such as 2.5 or 2,5 of at most six digits on either side; false without one. */
static bool take_number(const ds_str text, size_t *const at, double *const out)
{
    enum { MOST_DIGITS = 6 };
    size_t i = skip_spaces(text, *at);
    double value = 0;
    double scale = 1;
    size_t digits = 0;
    for (; is_digit(text, i) && digits < MOST_DIGITS; i++, digits++) {
        value = value * 10 + (text.at[i] - '0');
    }
    const bool any = digits > 0;
    if (any && i < text.len && plain(text.at[i]) == '.' && is_digit(text, i + 1)) {
        digits = 0;
        for (i++; is_digit(text, i) && digits < MOST_DIGITS; i++, digits++) {
            value = value * 10 + (text.at[i] - '0');
            scale *= 10;
        }
    }
    *at = skip_spaces(text, i);
    *out = value / scale;
    return any;
}

/* The sign between cores and area: g, x or the multiplication sign. */
static bool take_times(const ds_str text, size_t *const at)
{
    const ds_str rest = ds_str_from(text, *at);
    if (ds_str_starts(rest, DS_STR("\xC3\x97"))) {
        *at += 2;
        return true;
    }
    if (rest.len > 0 && (plain(rest.at[0]) == 'g' || plain(rest.at[0]) == 'x')) {
        *at += 1;
        return true;
    }
    return false;
}

static bool ends_there(const ds_str text, const size_t at)
{
    const ds_str rest = ds_str_from(text, at);
    return rest.len == 0 || same_name(rest, DS_STR("mm2")) || same_name(rest, DS_STR("mm\xC2\xB2"));
}

bool ds_cable_size_read(const ds_str text, double *const cores, double *const area_mm2)
{
    size_t at = 0;
    *cores = 0;
    if (!take_number(text, &at, area_mm2)) {
        return false;
    }
    if (take_times(text, &at)) {
        *cores = *area_mm2;
        if (!take_number(text, &at, area_mm2)) {
            return false;
        }
    }
    return ends_there(text, at);
}

/* --- finding ------------------------------------------------------------------------------------------------------ */

const ds_thread_size *ds_sizes_thread(const ds_sizes *const sizes, const ds_str size)
{
    for (size_t i = 0; i < sizes->threads_len; i++) {
        if (is_named(size, sizes->threads[i].size, sizes->threads[i].also)) {
            return &sizes->threads[i];
        }
    }
    return NULL;
}

const ds_gland_size *ds_sizes_armoured(const ds_sizes *const sizes, const ds_str gland)
{
    for (size_t i = 0; i < sizes->glands_len; i++) {
        if (sizes->glands[i].gland.at && same_name(gland, sizes->glands[i].gland)) {
            return &sizes->glands[i];
        }
    }
    return NULL;
}

const ds_cable_type *ds_sizes_cable_type(const ds_sizes *const sizes, const ds_str type)
{
    for (size_t i = 0; i < sizes->cables_len; i++) {
        if (is_named(type, sizes->cables[i].type, sizes->cables[i].also)) {
            return &sizes->cables[i];
        }
    }
    return NULL;
}

const ds_cable_size *ds_sizes_cable(const ds_cable_type *const type, const ds_str size)
{
    double cores;
    double area_mm2;
    if (!ds_cable_size_read(size, &cores, &area_mm2)) {
        return NULL;
    }
    for (size_t i = 0; i < type->sizes_len; i++) {
        if (type->sizes[i].cores == cores && type->sizes[i].area_mm2 == area_mm2) {
            return &type->sizes[i];
        }
    }
    return NULL;
}

static bool covers(const double range[2], const double od_mm[2])
{
    return range[0] <= od_mm[0] && od_mm[1] <= range[1];
}

static bool suits(const ds_gland_size *const gland, const double od_mm[2], const double *const inner_mm)
{
    const bool armoured = gland->gland.at != NULL;
    return armoured == (inner_mm != NULL) && covers(gland->range_mm, od_mm) &&
           (!armoured || covers(gland->inner_range_mm, inner_mm));
}

const ds_gland_size *ds_sizes_gland_for(const ds_sizes *const sizes, const ds_thread_size *const thread,
                                        const double od_mm[2], const double *const inner_mm)
{
    for (size_t i = 0; i < sizes->glands_len; i++) {
        const ds_gland_size *const gland = &sizes->glands[i];
        if ((!thread || same_name(thread->size, gland->thread)) && suits(gland, od_mm, inner_mm)) {
            return gland;
        }
    }
    return NULL;
}
