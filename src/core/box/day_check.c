/* SPDX-License-Identifier: MIT */
/* What the day model takes, and a box made from the steady calculation's case. Every range is one of day.h. */
#include "core/box/day_model.h"

#define MOST_M2 1000.0
#define MOST_W 1e5
#define MOST_SUN_W_M2 1500.0
#define MOST_M3_H 1e5

static const char *const NAMES[] = {
#define X(field, name) [DS_DAY_##field] = (name),
    DS_DAY_FIELDS(X)
#undef X
};

const char *ds_day_field_name(const ds_day_field field)
{
    return NAMES[field];
}

/* False also for what is not a number. */
static bool is_within(const double value, const double low, const double high)
{
    return value >= low && value <= high;
}

static bool is_share(const double value)
{
    return is_within(value, 0, 1);
}

/* --- weather ------------------------------------------------------------------------------------------------------ */

static ds_day_field hour_fault(const ds_weather_hour *const hour)
{
    if (!is_within(hour->air_c, -40, 60)) {
        return DS_DAY_AIR;
    }
    if (!is_share(hour->humidity)) {
        return DS_DAY_HUMIDITY;
    }
    if (!is_within(hour->sun_flat_w_m2, 0, MOST_SUN_W_M2) ||
        !is_within(hour->sun_wall_w_m2, 0, MOST_SUN_W_M2)) {
        return DS_DAY_SUN;
    }
    if (!is_within(hour->wind_m_s, 0, 60)) {
        return DS_DAY_WIND;
    }
    return is_share(hour->clear) ? DS_DAY_OK : DS_DAY_CLEAR;
}

/* --- the box ------------------------------------------------------------------------------------------------------ */

static bool is_area(const ds_day_area *const area)
{
    return is_within(area->open_m2, 0, MOST_M2) && is_within(area->covered_m2, 0, MOST_M2);
}

static double area_of(const ds_day_area *const area)
{
    return area->open_m2 + area->covered_m2;
}

static ds_day_field outside_fault(const ds_day_box *const box)
{
    if (!is_area(&box->up) || !is_area(&box->side) || !is_area(&box->down) ||
        !(area_of(&box->up) + area_of(&box->side) + area_of(&box->down) >= 1e-4)) {
        return DS_DAY_AREA;
    }
    if (!is_within(box->height_m, 0.01, 10) || !is_within(box->plate_m, 0.0025, 10) ||
        !is_within(box->longest_m, 0.01, 10)) {
        return DS_DAY_LENGTH;
    }
    if (!is_share(box->emissivity) || !is_share(box->absorptance) || !is_share(box->inner_emissivity)) {
        return DS_DAY_SURFACE;
    }
    if (!is_within(box->lit_m2, 0, box->side.open_m2)) {
        return DS_DAY_LIT;
    }
    return is_share(box->sky_up) && is_share(box->sky_side) ? DS_DAY_OK : DS_DAY_SKY;
}

static bool is_duty(const double *const duty)
{
    for (int hour = 0; duty && hour < 24; hour++) {
        if (!is_share(duty[hour])) {
            return false;
        }
    }
    return true;
}

static bool is_conductance(const double w_k)
{
    return w_k == 0 || is_within(w_k, 1e-4, 1e6);
}

static ds_day_field inside_fault(const ds_day_box *const box)
{
    if (!is_within(box->wall_m2k_w, 0, 10)) {
        return DS_DAY_WALL;
    }
    if (!is_within(box->skin_j_k, 1, 1e9) || !is_within(box->inside_j_k, 1, 1e9)) {
        return DS_DAY_MASS;
    }
    if (!is_within(box->volume_m3, 1e-6, 1000)) {
        return DS_DAY_VOLUME;
    }
    if (!is_within(box->watts, 0, MOST_W)) {
        return DS_DAY_WATTS;
    }
    if (!is_duty(box->duty)) {
        return DS_DAY_DUTY;
    }
    return is_conductance(box->outer_w_k) && is_conductance(box->inner_w_k) ? DS_DAY_OK : DS_DAY_CONDUCTANCE;
}

static ds_day_field moisture_fault(const ds_day_box *const box)
{
    if ((unsigned)box->seal >= DS_DAY_SEALS || !is_within(box->air_m3_h, 0, MOST_M3_H) ||
        !is_within(box->vapour_m3_h, 0, MOST_M3_H)) {
        return DS_DAY_SEAL;
    }
    if (box->seal == DS_DAY_SEALED &&
        (!is_within(box->closing_c, -40, 80) || !is_share(box->closing_humidity))) {
        return DS_DAY_CLOSING;
    }
    return !box->drains || is_within(box->clings_g, 0, 1e6) ? DS_DAY_OK : DS_DAY_DRAIN;
}

static ds_day_field heater_fault(const ds_day_heater *const heater)
{
    if (heater->control == DS_DAY_NO_HEATER) {
        return DS_DAY_OK;
    }
    const bool by_humidity = heater->control == DS_DAY_HYGROSTAT;
    const bool set = by_humidity ? is_share(heater->set) : is_within(heater->set, -40, 100);
    const bool band = by_humidity ? is_within(heater->band, 0.001, 1) : is_within(heater->band, 0.01, 100);
    return (unsigned)heater->control < DS_DAY_CONTROLS && set && band && is_within(heater->watts, 0, MOST_W)
               ? DS_DAY_OK
               : DS_DAY_HEATER;
}

static ds_day_field ask_fault(const ds_day_ask *const ask)
{
    if (isinf(ask->limit_c)) {
        return DS_DAY_LIMIT;
    }
    if (!is_within(ask->tolerance_k, 0, 1)) {
        return DS_DAY_TOLERANCE;
    }
    return ask->settle_days <= 1000 ? DS_DAY_OK : DS_DAY_SETTLE;
}

ds_day_field ds_day_check_box(const ds_day_box *const box)
{
    const ds_day_field faults[] = {outside_fault(box), inside_fault(box), moisture_fault(box),
                                   heater_fault(&box->heater)};
    for (size_t i = 0; i < sizeof faults / sizeof *faults; i++) {
        if (faults[i] != DS_DAY_OK) {
            return faults[i];
        }
    }
    return DS_DAY_OK;
}

ds_day_fault ds_day_check_hours(const ds_weather_hour *const hours, const size_t count,
                                const ds_day_ask *const ask)
{
    ds_day_fault fault = {count == 0 ? DS_DAY_HOURS : ask_fault(ask), 0};
    for (size_t i = 0; i < count && fault.field == DS_DAY_OK; i++) {
        fault = (ds_day_fault){hour_fault(&hours[i]), i};
    }
    return fault.field == DS_DAY_OK ? (ds_day_fault){DS_DAY_OK, 0} : fault;
}

/* --- from the steady case ----------------------------------------------------------------------------------------- */

static double metres(const double mm)
{
    return mm / 1000;
}

static void add_face(ds_day_box *const box, const ds_heat_case *const c, const ds_heat_face face)
{
    ds_day_area *const area = face == DS_HEAT_TOP      ? &box->up
                              : face == DS_HEAT_BOTTOM ? &box->down
                                                       : &box->side;
    const double m2 = ds_heat_share(c, face) * ds_heat_face_m2(c, face);
    if (c->faces[face] == DS_HEAT_EXPOSED) {
        area->open_m2 += m2;
    } else {
        area->covered_m2 += m2;
    }
}

void ds_day_box_from(ds_day_box *const box, const ds_heat_case *const c, const ds_heat_skin *const skin)
{
    const double width = metres(c->width_mm);
    const double depth = metres(c->depth_mm);
    box->up = box->side = box->down = (ds_day_area){0, 0};
    for (int face = 0; face < DS_HEAT_FACES; face++) {
        add_face(box, c, (ds_heat_face)face);
    }
    box->height_m = metres(c->height_mm);
    box->plate_m = width * depth / (2 * (width + depth));
    box->longest_m = fmax(fmax(width, depth), box->height_m);
    box->emissivity = skin->emissivity_out;
    box->inner_emissivity = skin->emissivity_in / 2;
    box->absorptance = isfinite(skin->absorptance) ? skin->absorptance : 0;
    box->wall_m2k_w = skin->wall_m2k_w;
    box->lit_m2 = box->side.open_m2 / 2;
    box->sky_up = 1;
    box->sky_side = 0.5;
    box->watts = c->watts;
}
