/* SPDX-License-Identifier: MIT */
/* The steps of a design day, from its vapour to the margin. */
#include "core/box/through.h"

#include "core/box/air.h"

#include <math.h>

#define FROM_PRACTICE(text) ((ds_source){DS_SOURCE_PRACTICE, DS_STR(text)})
#define FROM_MEMORY(text) ((ds_source){DS_SOURCE_MEMORY, DS_STR(text)})

static void weather(ds_trail *const t, const ds_through *const day)
{
    const ds_day_design *const d = &day->design;
    ds_trail_start(t, "vapour of the day", "e = humidity x saturation over water at the lowest");
    ds_trail_input(t, "lowest, 5 h", d->low_c, "°C");
    ds_trail_input(t, "highest, 15 h", d->high_c, "°C");
    ds_trail_input(t, "humidity, 5 h", 100 * d->humidity, "%");
    ds_trail_note(t, "half a cosine between them; the vapour stays all day");
    ds_trail_end(t, ds_air_weather_vapour_pa(d->low_c, d->humidity), "Pa",
                 FROM_MEMORY("ASHRAE Fundamentals, chapter 1, and WMO in frost"));
}

static void masses(ds_trail *const t, const ds_through *const day)
{
    const ds_through_mass *const m = &day->mass;
    ds_trail_start(t, "heat that warms the skin by a kelvin", "C = S x d x rho x c");
    ds_trail_input(t, "S", m->outside_m2, "m2");
    ds_trail_input(t, m->wall_usual ? "d, as usual for the surface" : "d", m->wall_mm, "mm");
    ds_trail_input(t, "rho", m->density_kg_m3, "kg/m3");
    ds_trail_input(t, "c", m->skin_j_kgk, "J/kgK");
    ds_trail_end(t, day->warm_box.skin_j_k, "J/K", FROM_MEMORY("tables of material properties"));
    ds_trail_start(t, "heat that warms the inside by a kelvin",
                   "C = V x 1.2 kg/m3 x 1006 J/kgK + m x 500 J/kgK");
    ds_trail_input(t, "V", m->volume_m3, "m3");
    ds_trail_input(t, "m", m->contents_kg, "kg");
    if (!(m->contents_kg > 0)) {
        ds_trail_note(
            t, "only the air counts, since the mass of what stands inside is not stated: careful for heat");
    }
    ds_trail_end(t, day->warm_box.inside_j_k, "J/K", FROM_PRACTICE("half a kilojoule a kilogram of gear"));
}

static void heat(ds_trail *const t, const ds_through *const day)
{
    ds_trail_start(t, "warmest inside over the day",
                   "C dT/dt = heat in less heat out, of skin and inside, hour by hour, the day repeated "
                   "until it settles");
    ds_trail_input(t, "P", day->warm_box.watts, "W");
    ds_trail_input(t, "sun on the flat, noon", day->design.sun_flat_w_m2, "W/m2");
    ds_trail_input(t, "sun on a wall, noon", day->design.sun_wall_w_m2, "W/m2");
    ds_trail_input(t, "alpha", day->warm_box.absorptance, "");
    ds_trail_input(t, "wind", day->design.wind_m_s, "m/s");
    ds_trail_input(t, "hour", (double)day->warm.highest_hour, "h");
    ds_trail_end(t, day->warm.highest_c, "°C", FROM_PRACTICE("heat in equals heat out and what is stored"));
    ds_trail_start(t, "the same, films 15 % weaker", "T + 0.15 (T - air)");
    ds_trail_input(t, "T", day->warm.highest_c, "°C");
    ds_trail_input(t, "air", day->peak_air_c, "°C");
    ds_trail_end(t, day->peak_c.high, "°C", FROM_PRACTICE("films are known to about 15 %"));
}

static void sweating(ds_trail *const t, const ds_through *const day)
{
    const size_t hour = day->cold.margin_hour;
    const ds_day_point *const at = &day->cold_curve[hour < DS_DAY_DESIGN_HOURS ? hour : 0];
    ds_trail_start(t, "coldest wall over the dew point inside, at the least",
                   "coldest wall - dew point, 0 once it is wet");
    ds_trail_input(t, "hour", (double)hour, "h");
    ds_trail_input(t, "coldest wall then", at->wall_c, "°C");
    ds_trail_input(t, "inside then", at->inside_c, "°C");
    ds_trail_input(t, "clear sky", day->design.clear, "");
    if (day->cold_box.seal == DS_DAY_SEALED) {
        ds_trail_input(t, "closed at", day->cold_box.closing_c, "°C");
        ds_trail_input(t, "humidity then", 100 * day->cold_box.closing_humidity, "%");
    }
    if (day->cold_box.air_m3_h > 0) {
        ds_trail_input(t, "air through it", day->cold_box.air_m3_h, "m3/h");
    }
    ds_trail_end(t, day->cold.margin_k, "K",
                 FROM_PRACTICE("vapour in, vapour out; a clear top at most 5 K below the air"));
    if (day->cold.wet_hours > 0) {
        ds_trail_start(t, "most water on the coldest wall", "vapour that the air there cannot hold");
        ds_trail_input(t, "hour", (double)day->cold.most_hour, "h");
        ds_trail_input(t, "wet for", day->cold.wet_hours, "h");
        ds_trail_end(t, day->cold.most_g, "g", DS_TRAIL_ARITHMETIC);
    }
}

static void heater(ds_trail *const t, const ds_through *const day)
{
    if (isnan(day->five_k_w)) {
        return;
    }
    ds_trail_start(t, "usual heater against sweating", "P = k A 5 K");
    ds_trail_input(t, "k", day->trade_w_m2k, "W/m2K");
    ds_trail_input(t, "A", day->heat.effective_m2, "m2");
    if (!isnan(day->heater_w)) {
        ds_trail_input(t, "least of 0.5 to 6 times as much that stays dry", day->heater_w, "W");
    }
    ds_trail_end(t, day->five_k_w, "W", FROM_PRACTICE("5 K over the air"));
}

void ds_through_trail(ds_trail *const trail, const ds_through *const day)
{
    weather(trail, day);
    masses(trail, day);
    heat(trail, day);
    sweating(trail, day);
    heater(trail, day);
}
