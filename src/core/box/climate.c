/* SPDX-License-Identifier: MIT */
#include "core/box/climate.h"

/* --- heat --------------------------------------------------------------------------------------------------------- */

/* Let into a wall only the front gives off heat: what the wall takes is not known. */
static void set_mounting(ds_heat_case *const c, const ds_mounted mounted)
{
    switch (mounted) {
    case DS_MOUNTED_WALL:
        ds_heat_mount(c, true, 0);
        break;
    case DS_MOUNTED_FREE:
        ds_heat_mount(c, false, 0);
        break;
    case DS_MOUNTED_ROW_END:
        ds_heat_mount(c, false, 1);
        break;
    case DS_MOUNTED_ROW_END_WALL:
        ds_heat_mount(c, true, 1);
        break;
    case DS_MOUNTED_ROW_MIDDLE:
        ds_heat_mount(c, false, 2);
        break;
    case DS_MOUNTED_ROW_MIDDLE_WALL:
        ds_heat_mount(c, true, 2);
        break;
    case DS_MOUNTED_RECESSED:
        for (int i = 0; i < DS_HEAT_FACES; i++) {
            c->faces[i] = i == DS_HEAT_FRONT ? DS_HEAT_EXPOSED : DS_HEAT_ON_FLOOR;
        }
        break;
    case DS_MOUNTED_MISSING:
        break;
    }
}

/* What a face that is covered gives off; one that is let in, or stands on a floor, stays as it is. */
static ds_heat_setting cover(const ds_side side, const ds_heat_setting by_mounting)
{
    const bool floor = side == DS_SIDE_BOTTOM || by_mounting == DS_HEAT_ON_FLOOR;
    return floor ? DS_HEAT_ON_FLOOR : DS_HEAT_COVERED;
}

/* A face that the box calls covered, or not, whatever its mounting would make of it. */
static void set_faces(ds_heat_case *const c, const ds_box *const box)
{
    static const ds_heat_face FACES[] = {
        [DS_SIDE_TOP] = DS_HEAT_TOP,     [DS_SIDE_BOTTOM] = DS_HEAT_BOTTOM, [DS_SIDE_LEFT] = DS_HEAT_LEFT,
        [DS_SIDE_RIGHT] = DS_HEAT_RIGHT, [DS_SIDE_FRONT] = DS_HEAT_FRONT,   [DS_SIDE_BACK] = DS_HEAT_REAR};
    for (size_t i = 0; i < box->faces_len; i++) {
        const ds_face *const face = &box->faces[i];
        if (face->side != DS_SIDE_MISSING && face->covered != DS_TRI_MISSING) {
            ds_heat_setting *const setting = &c->faces[FACES[face->side]];
            *setting = face->covered == DS_TRI_YES ? cover(face->side, *setting) : DS_HEAT_EXPOSED;
        }
    }
}

/* What the box does not say of sun and air, its day does. */
static void set_sun(ds_heat_case *const c, const ds_box *const box, const bool outdoors)
{
    const bool kept_off = box->sun.at ? box->sun.shade == DS_TRI_YES : !outdoors;
    c->sun_flat_w_m2 = kept_off ? 0 : box->sun.at ? box->sun.flat_w_m2 : box->day.sun_flat_w_m2;
    c->sun_wall_w_m2 = kept_off ? 0 : box->sun.at ? box->sun.wall_w_m2 : box->day.sun_wall_w_m2;
}

static ds_heat_case heat_case(const ds_box *const box, const bool outdoors)
{
    ds_heat_case c = DS_HEAT_CASE_NOTHING;
    c.width_mm = box->width_mm;
    c.height_mm = box->height_mm;
    c.depth_mm = box->depth_mm;
    set_mounting(&c, box->mounted);
    set_faces(&c, box);
    c.surface = box->surface.at ? ds_surface_of(box->surface) : NULL;
    c.colour = box->colour.at ? ds_colour_of(box->colour) : NULL;
    c.wall_mm = box->wall_mm;
    const bool always = box->heater.at && box->heater.on == DS_HEATER_ALWAYS;
    c.watts = box->watts + (always ? box->heater.watts : 0);
    c.air_c = isnan(box->air_c) ? box->day.high_c : box->air_c;
    set_sun(&c, box, outdoors);
    c.wind_m_s = box->wind_m_s;
    c.fan_m3_h = box->fan_m3_h;
    /* A filter halves what a fan moves, and clogs (common practice). */
    c.fan_factor = isnan(box->fan_m3_h) ? NAN : box->filter == DS_TRI_NO ? 1 : 0.5;
    c.openings = box->seal == DS_BOX_SEAL_MISSING  ? DS_HEAT_OPENINGS_NOT_SAID
                 : box->seal == DS_BOX_SEAL_VENTED ? DS_HEAT_OPEN
                                                   : DS_HEAT_CLOSED;
    return c;
}

static void solve_heat(ds_climate *const out, const ds_box *const box, const bool outdoors)
{
    out->limit_c = box->limit_c;
    out->heat_asked = !isnan(box->limit_c);
    out->heat_told = out->heat_asked || !isnan(box->watts);
    out->heat_case = heat_case(box, outdoors);
    out->surface_unknown = out->heat_case.surface ? DS_STR("") : box->surface;
    out->colour_unknown = out->heat_case.colour ? DS_STR("") : box->colour;
    if (!out->heat_told) {
        return;
    }
    ds_heat_solve(&out->heat, &out->heat_case);
    out->heat_verdict = out->heat_asked ? ds_heat_judge(&out->heat, out->limit_c, &out->heat_why) : DS_FITS;
    if (!out->heat.missing && !out->heat.bad) {
        ds_heat_trail(&out->trail, &out->heat_case, &out->heat, out->limit_c);
    }
}

/* The day counts as one more method. One that cannot be told leaves open what else fits, and cures nothing. */
static void solve_day(ds_climate *const out, const ds_box *const box, const bool outdoors)
{
    ds_through_solve(&out->day, box, &out->heat_case, outdoors);
    const bool differs = out->day.told && out->heat_asked && out->day.heat_verdict != out->heat_verdict;
    if (differs && out->day.solved) {
        out->heat_why = out->heat_verdict == DS_UNKNOWN ? out->heat_why : DS_HEAT_DISAGREE;
        out->heat_verdict = DS_UNKNOWN;
    } else if (differs && out->heat_verdict == DS_FITS) {
        out->heat_why = DS_HEAT_DAY_OPEN;
        out->heat_verdict = DS_UNKNOWN;
    }
    if (out->day.solved) {
        ds_through_trail(&out->trail, &out->day);
    }
}

/* --- water -------------------------------------------------------------------------------------------------------- */

/* The inside before the quench: the warmest that heat says. What is not told could be warmer than the air. */
static double warm_c(const ds_climate *const out)
{
    return out->heat_told ? out->heat.air_c + out->heat.spread_k.high : NAN;
}

static void solve_quench(ds_climate *const out, const ds_box *const box)
{
    out->quench_told = !isnan(box->cooled_to_c);
    if (!out->quench_told) {
        return;
    }
    ds_quench_case c = DS_QUENCH_CASE_NOTHING;
    c.warm_c = warm_c(out);
    c.cold_c = box->cooled_to_c;
    c.volume_l = box->width_mm * box->height_mm * box->depth_mm * 1e-6;
    c.lid_width_mm = box->width_mm;
    c.lid_height_mm = box->height_mm;
    c.vent_l_min = box->vent_l_min;
    ds_quench_solve(&out->quench, &c);
    if (!out->quench.missing && !out->quench.bad) {
        ds_quench_trail(&out->trail, &c, &out->quench);
    }
}

static void solve_flood(ds_climate *const out, const ds_box *const box)
{
    out->flood_told = box->flood.at != NULL;
    if (!out->flood_told) {
        return;
    }
    ds_flood_case c = DS_FLOOD_CASE_NOTHING;
    c.level_m = box->flood.level_m;
    c.hours = box->flood.hours;
    c.lowest_m = box->lowest_m;
    c.height_mm = box->height_mm;
    c.box_c = warm_c(out);
    c.water_c = box->cooled_to_c;
    ds_flood_solve(&out->flood, &c);
    if (!out->flood.missing && !out->flood.bad) {
        ds_flood_trail(&out->trail, &c, &out->flood);
    }
}

ds_status ds_climate_of(ds_climate *const out, const ds_box *const box, const bool outdoors,
                        ds_arena *const arena)
{
    *out = (ds_climate){.limit_c = NAN, .heat_verdict = DS_FITS};
    ds_trail_init(&out->trail, arena);
    solve_heat(out, box, outdoors);
    solve_day(out, box, outdoors);
    solve_quench(out, box);
    solve_flood(out, box);
    out->sweating_told = !box->day.at && (box->heater.at || !isnan(box->humidity_pct));
    const bool whole = ds_trail_ok(&out->trail);
    ds_trail_free(&out->trail);
    return whole ? DS_OK : DS_NO_MEMORY;
}

ds_need ds_climate_flood_need(const ds_climate *const climate)
{
    const bool seven = climate->flood.need == DS_FLOOD_NUMERAL_7;
    if (!climate->flood_told || (!seven && climate->flood.need != DS_FLOOD_NUMERAL_8)) {
        return DS_NEED_NOTHING;
    }
    const ds_claim claim = {.objects = -1,
                            .impact = -1,
                            .water_stated = true,
                            .water = (uint16_t)(1U << (seven ? 7 : 8)),
                            .depth_m = seven ? 0 : climate->flood.depth_m,
                            .minutes = seven ? 0 : 60 * climate->flood.hours};
    return ds_need_from(&claim);
}
