/* SPDX-License-Identifier: MIT */
/* The formulas of pressure, head, leak and vent, and a quenched box as a whole. */
#include "core/box/pressure.h"

#include "core/box/air.h"

#define PI 3.141592653589793
#define FLOW_FACTOR 0.6
#define FLOW_GRAVITY_M_S2 9.81
#define SURFACE_TENSION_N_M 0.0728
#define AIR_KG_M3 1.2
#define MAKER_PA 7000.0

/* value when it is at least 0 and finite, else NAN. */
static double sound(const double value)
{
    return value >= 0 && isfinite(value) ? value : NAN;
}

static double sound_temp_c(const double temp_c)
{
    return temp_c >= -40 && temp_c <= 200 ? temp_c : NAN;
}

static double kelvin(const double temp_c)
{
    return sound_temp_c(temp_c) + DS_AIR_KELVIN;
}

static double hole_m2(const double hole_mm)
{
    const double radius_m = sound(hole_mm) / 2000;
    return PI * radius_m * radius_m;
}

/* --- quench ------------------------------------------------------------------------------------------------------- */

double ds_quench_drop_pa(const double warm_c, const double cold_c, const double humidity)
{
    if (!(humidity >= 0 && humidity <= 1)) {
        return NAN;
    }
    const double shrink = kelvin(cold_c) / kelvin(warm_c);
    const double saturated_pa = fmin(ds_air_saturation_pa(warm_c), DS_AIR_STANDARD_PA);
    const double vapour_pa = humidity > 0 ? humidity * saturated_pa : 0;
    const double left_pa = vapour_pa > 0 ? fmin(vapour_pa * shrink, ds_air_saturation_pa(cold_c)) : 0;
    return DS_AIR_STANDARD_PA - (DS_AIR_STANDARD_PA - vapour_pa) * shrink - left_pa;
}

double ds_quench_cooling_k(const double warm_c, const double drop_pa)
{
    return drop_pa <= DS_AIR_STANDARD_PA ? kelvin(warm_c) * sound(drop_pa) / DS_AIR_STANDARD_PA : NAN;
}

double ds_quench_water_l(const double volume_l, const double warm_c, const double cold_c)
{
    return cold_c <= warm_c ? sound(volume_l) * (1 - kelvin(cold_c) / kelvin(warm_c)) : NAN;
}

double ds_skin_time_s(const double mass_kg, const double heat_j_kgk, const double film_w_m2k,
                      const double area_m2)
{
    const double loss_w_k = sound(film_w_m2k) * sound(area_m2);
    return loss_w_k > 0 ? sound(mass_kg) * sound(heat_j_kgk) / loss_w_k : NAN;
}

/* --- water -------------------------------------------------------------------------------------------------------- */

double ds_water_pressure_pa(const double depth_m, const double density_kg_m3)
{
    return sound(depth_m) * sound(density_kg_m3) * DS_PRESSURE_GRAVITY_M_S2;
}

double ds_water_head_m(const double pressure_pa, const double density_kg_m3)
{
    return density_kg_m3 > 0 ? sound(pressure_pa) / (sound(density_kg_m3) * DS_PRESSURE_GRAVITY_M_S2) : NAN;
}

double ds_pressure_force_n(const double pressure_pa, const double width_mm, const double height_mm)
{
    return sound(pressure_pa) * sound(width_mm) * sound(height_mm) * 1e-6;
}

double ds_water_leak_l(const double hole_mm, const double head_m, const double seconds)
{
    const double speed_m_s = sqrt(2 * FLOW_GRAVITY_M_S2 * sound(head_m));
    return FLOW_FACTOR * hole_m2(hole_mm) * speed_m_s * sound(seconds) * 1000;
}

double ds_water_bell_share(const double depth_m, const double density_kg_m3)
{
    const double outside_pa = DS_AIR_STANDARD_PA + ds_water_pressure_pa(depth_m, density_kg_m3);
    return 1 - DS_AIR_STANDARD_PA / outside_pa;
}

double ds_water_held_pa(const double hole_mm)
{
    return hole_mm > 0 ? 4 * SURFACE_TENSION_N_M / (sound(hole_mm) / 1000) : NAN;
}

double ds_water_held_mm(const double hole_mm)
{
    return ds_water_head_m(ds_water_held_pa(hole_mm), DS_PRESSURE_FRESH_KG_M3) * 1000;
}

double ds_water_jet_pa(const double flow_l_min, const double nozzle_mm)
{
    const double area_m2 = hole_m2(nozzle_mm);
    const double speed_m_s = area_m2 > 0 ? sound(flow_l_min) / 60000 / area_m2 : NAN;
    return DS_PRESSURE_FRESH_KG_M3 * speed_m_s * speed_m_s / 2;
}

/* --- vent --------------------------------------------------------------------------------------------------------- */

double ds_vent_l_min(const double volume_l, const double warm_c, const double cooling_k, const double seconds)
{
    const bool cools = seconds > 0 && cooling_k < kelvin(warm_c);
    return cools ? sound(volume_l) * sound(cooling_k) / (kelvin(warm_c) * sound(seconds)) * 60 : NAN;
}

double ds_vent_hole_mm2(const double flow_l_min, const double allowed_pa)
{
    const double speed_m_s = FLOW_FACTOR * sqrt(2 * sound(allowed_pa) / AIR_KG_M3);
    return speed_m_s > 0 ? sound(flow_l_min) / 60000 / speed_m_s * 1e6 : NAN;
}

double ds_vent_hole_mm(const double flow_l_min, const double allowed_pa)
{
    return 2 * sqrt(ds_vent_hole_mm2(flow_l_min, allowed_pa) / PI);
}

double ds_vent_flow_l_min(const double maker_l_min, const double maker_pa, const double allowed_pa)
{
    return maker_pa > 0 ? sound(maker_l_min) * sound(allowed_pa) / sound(maker_pa) : NAN;
}

/* --- a quenched box as a whole ------------------------------------------------------------------------------------ */

const char *ds_quench_field_name(const ds_quench_field field)
{
    static const char *const NAMES[DS_QUENCH_FIELDS] = {
        [DS_QUENCH_F_WARM] = "warm_c",        [DS_QUENCH_F_COLD] = "cold_c",
        [DS_QUENCH_F_HUMIDITY] = "humidity",  [DS_QUENCH_F_VOLUME] = "volume_l",
        [DS_QUENCH_F_LID] = "lid_mm",         [DS_QUENCH_F_SECONDS] = "seconds",
        [DS_QUENCH_F_ALLOWED] = "allowed_pa", [DS_QUENCH_F_VENT] = "vent_l_min",
    };
    return NAMES[field];
}

/* A value that may be left out, but not be wrong. */
static void option(ds_quench_answer *const out, const ds_quench_field which, const double value,
                   const double low, const double high)
{
    if (!isnan(value) && !(value >= low && value <= high)) {
        out->bad |= 1U << which;
    }
}

static void must(ds_quench_answer *const out, const ds_quench_field which, const double value,
                 const double low, const double high)
{
    if (isnan(value)) {
        out->missing |= 1U << which;
    }
    option(out, which, value, low, high);
}

static void check_quench(ds_quench_answer *const out, const ds_quench_case *const c)
{
    must(out, DS_QUENCH_F_WARM, c->warm_c, -40, 200);
    must(out, DS_QUENCH_F_COLD, c->cold_c, -40, c->warm_c <= 200 ? c->warm_c : 200);
    option(out, DS_QUENCH_F_HUMIDITY, c->humidity, 0, 1);
    option(out, DS_QUENCH_F_VOLUME, c->volume_l, 1e-3, 1e6);
    option(out, DS_QUENCH_F_LID, c->lid_width_mm, 1, 10000);
    option(out, DS_QUENCH_F_LID, c->lid_height_mm, 1, 10000);
    option(out, DS_QUENCH_F_SECONDS, c->seconds, 1e-3, 1e7);
    option(out, DS_QUENCH_F_ALLOWED, c->allowed_pa, 1, DS_AIR_STANDARD_PA);
    option(out, DS_QUENCH_F_VENT, c->vent_l_min, 0, 1e6);
    option(out, DS_QUENCH_F_VENT, c->maker_pa, 1, DS_AIR_STANDARD_PA);
}

static void size_vent(ds_quench_answer *const out, const ds_quench_case *const c)
{
    const double maker_pa = isnan(c->maker_pa) ? MAKER_PA : c->maker_pa;
    out->needed_l_min = ds_vent_l_min(c->volume_l, c->warm_c, c->warm_c - c->cold_c, c->seconds);
    out->hole_mm2 = ds_vent_hole_mm2(out->needed_l_min, c->allowed_pa);
    out->hole_mm = ds_vent_hole_mm(out->needed_l_min, c->allowed_pa);
    out->vent_l_min = ds_vent_flow_l_min(c->vent_l_min, maker_pa, c->allowed_pa);
    if (out->vent_l_min >= out->needed_l_min) {
        out->vent = DS_VENT_HOLDS;
    } else if (out->vent_l_min < out->needed_l_min) {
        out->vent = DS_VENT_TOO_SMALL;
    }
}

void ds_quench_solve(ds_quench_answer *const out, const ds_quench_case *const c)
{
    *out = (ds_quench_answer){
        0, 0, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, DS_VENT_NOT_KNOWN};
    check_quench(out, c);
    if (out->missing || out->bad) {
        return;
    }
    out->dry_pa = ds_quench_drop_pa(c->warm_c, c->cold_c, 0);
    out->moist_pa = ds_quench_drop_pa(c->warm_c, c->cold_c, isnan(c->humidity) ? 1 : c->humidity);
    out->dry_head_m = ds_water_head_m(out->dry_pa, DS_PRESSURE_FRESH_KG_M3);
    out->head_m = ds_water_head_m(out->moist_pa, DS_PRESSURE_FRESH_KG_M3);
    out->of_immersion = out->head_m / DS_PRESSURE_IMMERSION_M;
    out->of_dust_test = out->moist_pa / DS_PRESSURE_DUST_TEST_PA;
    out->lid_n = ds_pressure_force_n(out->moist_pa, c->lid_width_mm, c->lid_height_mm);
    out->water_l = ds_quench_water_l(c->volume_l, c->warm_c, c->cold_c);
    size_vent(out, c);
}
