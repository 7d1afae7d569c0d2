/* SPDX-License-Identifier: MIT */
/* The steps of a quench and of a flood. */
#include "core/box/pressure.h"

#include "core/box/air.h"

#define IDEAL_GAS ((ds_source){DS_SOURCE_PUBLISHED, DS_STR("ideal gas at fixed volume")})
#define HYDROSTATICS ((ds_source){DS_SOURCE_PUBLISHED, DS_STR("hydrostatics")})
#define THE_TEST ((ds_source){DS_SOURCE_PUBLISHED, DS_STR("explanation of IEC 60529, numerals 5 to 8")})
#define ORIFICE ((ds_source){DS_SOURCE_PRACTICE, DS_STR("flow through a hole, factor 0.6, air 1.2 kg/m3")})
#define OWN_LOGIC ((ds_source){DS_SOURCE_PRACTICE, DS_STR("flood logic of this project")})

/* --- quench ------------------------------------------------------------------------------------------------------- */

static void dry_drop(ds_trail *const t, const ds_quench_case *const c, const ds_quench_answer *const a)
{
    ds_trail_start(t, "suction, dry air", "dp = p0 (1 - T2 / T1), kelvin");
    ds_trail_input(t, "p0", DS_AIR_STANDARD_PA, "Pa");
    ds_trail_input(t, "T1", c->warm_c + DS_AIR_KELVIN, "K");
    ds_trail_input(t, "T2", c->cold_c + DS_AIR_KELVIN, "K");
    ds_trail_end(t, a->dry_pa, "Pa", IDEAL_GAS);
}

static void moist_drop(ds_trail *const t, const ds_quench_case *const c, const ds_quench_answer *const a)
{
    const double humidity = isnan(c->humidity) ? 1 : c->humidity;
    const double vapour_pa = humidity * fmin(ds_air_saturation_pa(c->warm_c), DS_AIR_STANDARD_PA);
    ds_trail_start(t, "suction, moist air", "dp = p0 - (p0 - e) T2 / T1 - the less of e T2 / T1 and es2");
    ds_trail_input(t, "p0", DS_AIR_STANDARD_PA, "Pa");
    ds_trail_input(t, "e, vapour while warm", vapour_pa, "Pa");
    ds_trail_input(t, "T1", c->warm_c + DS_AIR_KELVIN, "K");
    ds_trail_input(t, "T2", c->cold_c + DS_AIR_KELVIN, "K");
    ds_trail_input(t, "es2, all that the cold can hold", ds_air_saturation_pa(c->cold_c), "Pa");
    if (isnan(c->humidity)) {
        ds_trail_note(t, "saturated air, since no humidity is given: the worst");
    }
    ds_trail_end(t, a->moist_pa, "Pa", IDEAL_GAS);
}

static void against_tests(ds_trail *const t, const ds_quench_answer *const a)
{
    ds_trail_start(t, "suction as head of water", "h = dp / (1000 x 9.80665)");
    ds_trail_input(t, "dp", a->moist_pa, "Pa");
    ds_trail_end(t, a->head_m, "m", HYDROSTATICS);
    ds_trail_start(t, "share of the immersion test (numeral 7)", "h / 1 m");
    ds_trail_input(t, "h", a->head_m, "m");
    ds_trail_end(t, a->of_immersion, "", THE_TEST);
    ds_trail_start(t, "share of the vacuum of the dust test (numerals 5 and 6)", "dp / 2000 Pa");
    ds_trail_input(t, "dp", a->moist_pa, "Pa");
    ds_trail_end(t, a->of_dust_test, "", THE_TEST);
}

static void on_lid(ds_trail *const t, const ds_quench_case *const c, const ds_quench_answer *const a)
{
    if (isnan(a->lid_n)) {
        return;
    }
    ds_trail_start(t, "force on the lid", "dp x width x height");
    ds_trail_input(t, "dp", a->moist_pa, "Pa");
    ds_trail_input(t, "width", c->lid_width_mm / 1000, "m");
    ds_trail_input(t, "height", c->lid_height_mm / 1000, "m");
    ds_trail_end(t, a->lid_n, "N", DS_TRAIL_ARITHMETIC);
}

static void drawn_in(ds_trail *const t, const ds_quench_case *const c, const ds_quench_answer *const a)
{
    if (isnan(a->water_l)) {
        return;
    }
    ds_trail_start(t, "water drawn in at most", "V (1 - T2 / T1)");
    ds_trail_input(t, "V", c->volume_l, "l");
    ds_trail_input(t, "T1", c->warm_c + DS_AIR_KELVIN, "K");
    ds_trail_input(t, "T2", c->cold_c + DS_AIR_KELVIN, "K");
    ds_trail_end(t, a->water_l, "l", IDEAL_GAS);
}

static void vent(ds_trail *const t, const ds_quench_case *const c, const ds_quench_answer *const a)
{
    if (isnan(a->needed_l_min)) {
        return;
    }
    ds_trail_start(t, "air that a vent must pass", "Q = 60 V dT / (T1 t)");
    ds_trail_input(t, "V", c->volume_l, "l");
    ds_trail_input(t, "dT", c->warm_c - c->cold_c, "K");
    ds_trail_input(t, "T1", c->warm_c + DS_AIR_KELVIN, "K");
    ds_trail_input(t, "t", c->seconds, "s");
    ds_trail_end(t, a->needed_l_min, "l/min", IDEAL_GAS);
    if (isnan(a->hole_mm)) {
        return;
    }
    ds_trail_start(t, "bare hole that passes it", "d = sqrt(4 A / pi), A = Q / (0.6 sqrt(2 dp / 1.2))");
    ds_trail_input(t, "Q", a->needed_l_min, "l/min");
    ds_trail_input(t, "dp", c->allowed_pa, "Pa");
    ds_trail_end(t, a->hole_mm, "mm", ORIFICE);
    if (isnan(a->vent_l_min)) {
        return;
    }
    ds_trail_start(t, "what the vent passes at that difference", "Q = Qm dp / pm");
    ds_trail_input(t, "Qm", c->vent_l_min, "l/min");
    ds_trail_input(t, "dp", c->allowed_pa, "Pa");
    ds_trail_input(t, "pm", c->vent_l_min * c->allowed_pa / a->vent_l_min, "Pa");
    ds_trail_end(t, a->vent_l_min, "l/min", (ds_source){DS_SOURCE_PRACTICE, DS_STR("in proportion")});
}

void ds_quench_trail(ds_trail *const t, const ds_quench_case *const c, const ds_quench_answer *const a)
{
    if (a->missing || a->bad) {
        return;
    }
    dry_drop(t, c, a);
    moist_drop(t, c, a);
    against_tests(t, a);
    on_lid(t, c, a);
    drawn_in(t, c, a);
    vent(t, c, a);
}

/* --- flood -------------------------------------------------------------------------------------------------------- */

static void clearance(ds_trail *const t, const ds_flood_case *const c, const ds_flood_answer *const a)
{
    ds_trail_start(t, "box above water", "lowest point - level");
    ds_trail_input(t, "lowest point", c->lowest_m, "m");
    ds_trail_input(t, "level", c->level_m, "m");
    ds_trail_end(t, a->clear_m, "m", DS_TRAIL_ARITHMETIC);
    ds_trail_start(t, "height that clears the water", "level + freeboard");
    ds_trail_input(t, "level", c->level_m, "m");
    ds_trail_input(t, "freeboard", a->clear_level_m - c->level_m, "m");
    if (a->freeboard_short) {
        ds_trail_note(t, "not kept");
    }
    if (a->height_conflict) {
        ds_trail_note(t, "conflict: higher than the point may be");
        ds_trail_input(t, "highest", c->highest_m, "m");
    }
    ds_trail_end(t, a->clear_level_m, "m",
                 (ds_source){DS_SOURCE_MEMORY, DS_STR("UK planning practice, 0.3 m, 0.6 m where unsure")});
}

static void load(ds_trail *const t, const ds_flood_case *const c, const ds_flood_answer *const a)
{
    ds_trail_start(t, "pressure on the lowest point", "p = rho x 9.80665 x h");
    ds_trail_input(t, "rho", isnan(c->density_kg_m3) ? DS_PRESSURE_FRESH_KG_M3 : c->density_kg_m3, "kg/m3");
    ds_trail_input(t, "h", a->head_m, "m");
    ds_trail_end(t, a->pressure_pa, "Pa", HYDROSTATICS);
    if (a->suction_m > 0) {
        ds_trail_start(t, "suction of the warm box as depth", "moist air, saturated, from box to water");
        ds_trail_input(t, "box", c->box_c, "°C");
        ds_trail_input(t, "water", c->water_c, "°C");
        ds_trail_end(t, a->suction_m, "m", IDEAL_GAS);
    }
}

static void numeral(ds_trail *const t, const ds_flood_case *const c, const ds_flood_answer *const a)
{
    ds_trail_start(t, "depth in the test of numeral 7", "1 m, or height + 0.15 m from 850 mm on");
    if (!isnan(c->height_mm)) {
        ds_trail_input(t, "height", c->height_mm / 1000, "m");
    }
    ds_trail_end(t, a->test_m, "m", THE_TEST);
    ds_trail_start(t, "numeral that answers",
                   "7 within that depth, 0.5 h and 5 K, else 8 for depth and time");
    ds_trail_input(t, "depth", a->depth_m, "m");
    if (isinf(a->hours)) {
        ds_trail_note(t, "always under water");
    } else {
        ds_trail_input(t, "time", a->hours, "h");
    }
    if (a->why_not_7 & DS_FLOOD_TOO_DEEP) {
        ds_trail_note(t, "too deep for 7");
    }
    if (a->why_not_7 & DS_FLOOD_TOO_LONG) {
        ds_trail_note(t, "too long for 7");
    }
    if (a->why_not_7 & DS_FLOOD_SUCTION) {
        ds_trail_note(t, "too warm for 7");
    }
    ds_trail_end(t, a->need == DS_FLOOD_NUMERAL_7 ? 7 : 8, "", OWN_LOGIC);
}

void ds_flood_trail(ds_trail *const t, const ds_flood_case *const c, const ds_flood_answer *const a)
{
    if (a->need == DS_FLOOD_NOT_KNOWN) {
        return;
    }
    clearance(t, c, a);
    if (a->need != DS_FLOOD_SPLASH) {
        load(t, c, a);
        numeral(t, c, a);
    }
}
