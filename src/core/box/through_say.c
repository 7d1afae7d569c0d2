/* SPDX-License-Identifier: MIT */
#include "core/box/through.h"

#include <math.h>

/* --- wet hours ---------------------------------------------------------------------------------------------------- */

/* Dew points are searched to a thousandth of a kelvin. */
#define DEW_K 0.01

static bool is_wet(const ds_through *const day, const size_t hour)
{
    const ds_day_point *const at = &day->cold_curve[hour % DS_DAY_DESIGN_HOURS];
    return at->wall_c - at->dew_c < DEW_K;
}

static size_t wet_run(const ds_through *const day, const size_t first)
{
    size_t len = 0;
    while (len < DS_DAY_DESIGN_HOURS && is_wet(day, first + len)) {
        len++;
    }
    return len;
}

bool ds_through_wet(const ds_through *const day, size_t *const first, size_t *const last)
{
    size_t longest = 0;
    for (size_t hour = 0; hour < DS_DAY_DESIGN_HOURS; hour++) {
        const size_t len = wet_run(day, hour);
        if (len > longest) {
            longest = len;
            *first = hour;
            *last = (hour + len - 1) % DS_DAY_DESIGN_HOURS;
        }
    }
    return longest > 0;
}

static double coldest_c(const ds_through *const day)
{
    double coldest = INFINITY;
    for (size_t hour = 0; hour < DS_DAY_DESIGN_HOURS; hour++) {
        coldest = fmin(coldest, day->cold_curve[hour].wall_c);
    }
    return coldest;
}

/* --- what is not told --------------------------------------------------------------------------------------------- */

static void name(ds_text *const out, size_t *const said, const char *const what)
{
    ds_text_add(out, (*said)++ ? ", " : "");
    ds_text_add(out, what);
}

static void name_missing(ds_text *const out, const ds_through *const day)
{
    const uint32_t heat = day->heat_missing ? day->heat_missing : day->heat_bad;
    size_t said = 0;
    for (int i = 0; i < DS_HEAT_FIELDS; i++) {
        if (heat >> i & 1) {
            name(out, &said, ds_heat_field_lack((ds_heat_field)i).words);
        }
    }
    for (int i = 0; i < DS_THROUGH_FIELDS; i++) {
        if (day->missing >> i & 1) {
            name(out, &said, ds_through_field_lack((ds_through_field)i).words);
        }
    }
}

static void say_untold(ds_text *const out, const ds_through *const day)
{
    if (!day->told) {
        ds_text_add(out, "no day is stated.");
    } else if (day->fault.field != DS_DAY_OK) {
        ds_text_add(out, "out of range: ");
        ds_text_add(out, ds_day_field_name(day->fault.field));
        ds_text_char(out, '.');
    } else {
        ds_text_add(out, "not stated or out of range: ");
        name_missing(out, day);
        ds_text_char(out, '.');
    }
}

/* --- heat --------------------------------------------------------------------------------------------------------- */

/* In steps of 0.1, so that neither end goes towards acceptance. */
static double down(const double value)
{
    return floor(value * 10 + 1e-6) / 10;
}

static double up(const double value)
{
    return ceil(value * 10 - 1e-6) / 10;
}

static void say_hour(ds_text *const out, const size_t hour)
{
    ds_text_int(out, (int64_t)hour);
    ds_text_add(out, " h");
}

void ds_through_say_heat(ds_text *const out, const ds_through *const day)
{
    if (!day->solved) {
        ds_text_add(out, "How warm it becomes over the day cannot be told: ");
        say_untold(out, day);
        return;
    }
    ds_text_add(out, "Over the day it becomes ");
    ds_text_number(out, down(day->peak_c.low), 1);
    ds_text_add(out, " to ");
    ds_text_number(out, up(day->peak_c.high), 1);
    ds_text_add(out, " °C inside at its warmest, about ");
    say_hour(out, day->warm.highest_hour);
    if (day->warm.limit_hours > 0) {
        ds_text_add(out, "; above the limit for ");
        ds_text_number(out, up(day->warm.limit_hours), 1);
        ds_text_add(out, " h");
    }
    ds_text_add(out, day->watts_told ? "." : ", its losses left out.");
}

/* --- sweating ----------------------------------------------------------------------------------------------------- */

static void say_wet(ds_text *const out, const ds_through *const day)
{
    size_t first = 0;
    size_t last = 0;
    const bool seen = ds_through_wet(day, &first, &last);
    if (day->cold.wet_hours >= DS_DAY_DESIGN_HOURS - 0.01) {
        ds_text_add(out, "It sweats all day");
    } else if (seen && first != last) {
        ds_text_add(out, "It sweats from ");
        say_hour(out, first);
        ds_text_add(out, " to ");
        say_hour(out, last);
    } else {
        ds_text_add(out, "It sweats about ");
        say_hour(out, seen ? first : day->cold.most_hour);
    }
    ds_text_add(out, ": the coldest wall falls to ");
    ds_text_number(out, down(coldest_c(day)), 1);
    ds_text_add(out, " °C, where the air inside cannot hold its vapour. Up to ");
    ds_text_number(out, ceil(day->cold.most_g * 1000) / 1000, 3);
    ds_text_add(out, " g of water at once, wet for ");
    ds_text_number(out, up(day->cold.wet_hours), 1);
    ds_text_add(out, " h of the day.");
}

void ds_through_say_sweat(ds_text *const out, const ds_through *const day)
{
    if (!day->solved) {
        ds_text_add(out, "Whether it sweats cannot be told: ");
        say_untold(out, day);
    } else if (day->cold.wet_hours > 0) {
        say_wet(out, day);
    } else if (isnan(day->cold.margin_k)) {
        ds_text_add(out, "It does not sweat: the air inside holds next to no vapour.");
    } else {
        ds_text_add(out, day->cold.margin_k < DS_THROUGH_MARGIN_K
                             ? "It comes close to sweating: the coldest wall stays only "
                             : "It does not sweat: the coldest wall stays ");
        ds_text_number(out, down(day->cold.margin_k), 1);
        ds_text_add(out, " K above the dew point inside, least at ");
        say_hour(out, day->cold.margin_hour);
        ds_text_char(out, '.');
    }
}

void ds_through_say_mend(ds_text *const out, const ds_through *const day)
{
    const bool heats = !isnan(day->heater_w);
    const bool closes = !isnan(day->closing_pct);
    if (!day->solved) {
        ds_text_add(out, "State what is missing of the box and its day.");
        return;
    }
    if (closes) {
        ds_text_add(out, "Close it with air of ");
        ds_text_number(out, day->closing_pct, 0);
        ds_text_add(out, " % at ");
        ds_text_number(out, day->cold_box.closing_c, 1);
        ds_text_add(out, heats ? " °C or drier, or fit a heater of " : " °C or drier.");
    }
    if (heats) {
        ds_text_add(out, closes ? "" : "Fit a heater of ");
        ds_text_number(out, day->heater_w, 0);
        ds_text_add(out, " W: with it this day stays dry.");
        ds_text_add(out, day->heater_hot ? " Left on in the heat it would pass the limit inside: have a "
                                           "hygrostat switch it, and judge the box with it."
                                         : "");
    }
    if (!closes && !heats) {
        ds_text_add(out, "No heater that is worked out here keeps it dry: keep the moisture out, or let "
                         "nothing inside depend on it.");
    }
    if (day->cold_box.seal != DS_DAY_SEALED && !day->cold_box.drains) {
        ds_text_add(out, " A drain that keeps the mark lets out what settles and keeps nothing dry.");
    }
}

/* --- measured hours ----------------------------------------------------------------------------------------------- */

static void say_heat_over(ds_text *const out, const ds_through_over *const over)
{
    ds_text_add(out, "It becomes up to ");
    ds_text_number(out, up(over->warm.highest_c), 1);
    ds_text_add(out, " °C inside, in hour ");
    ds_text_int(out, (int64_t)over->warm.highest_hour);
    if (!isnan(over->warm.limit_hours)) {
        ds_text_add(out, ", above the limit for ");
        ds_text_number(out, up(over->warm.limit_hours), 1);
        ds_text_add(out, " h");
    }
    ds_text_add(out, over->day.watts_told ? ". " : ", its losses left out. ");
}

static void say_sweat_over(ds_text *const out, const ds_through_over *const over)
{
    if (!(over->cold.wet_hours > 0)) {
        ds_text_add(out, "It stays dry");
        if (!isnan(over->cold.margin_k)) {
            ds_text_add(out, ", at the least ");
            ds_text_number(out, down(over->cold.margin_k), 1);
            ds_text_add(out, " K above the dew point inside, in hour ");
            ds_text_int(out, (int64_t)over->cold.margin_hour);
        }
        ds_text_char(out, '.');
        return;
    }
    ds_text_add(out, "It sweats for ");
    ds_text_number(out, up(over->cold.wet_hours), 1);
    ds_text_add(out, " h; most water at once ");
    ds_text_number(out, ceil(over->cold.most_g * 1000) / 1000, 3);
    ds_text_add(out, " g, in hour ");
    ds_text_int(out, (int64_t)over->cold.most_hour);
    if (over->cold.drained_g > 0) {
        ds_text_add(out, "; ");
        ds_text_number(out, over->cold.drained_g, 1);
        ds_text_add(out, " g run off");
    }
    ds_text_char(out, '.');
}

void ds_through_say_over(ds_text *const out, const ds_through_over *const over)
{
    if (!over->solved) {
        ds_text_add(out, "What these hours do inside cannot be told: ");
        say_untold(out, &over->day);
        return;
    }
    say_heat_over(out, over);
    say_sweat_over(out, over);
}
