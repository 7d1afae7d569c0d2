/* SPDX-License-Identifier: MIT */
/* What standing water asks of a box. */
#include "core/box/pressure.h"

#define TALL_MM 850.0
#define TALL_ABOVE_M 0.15
#define SEVEN_HOURS 0.5
#define COOL_K 5.0
#define FREEBOARD_M 0.3

double ds_immersion_test_m(const double height_mm)
{
    if (!(height_mm > 0) || isinf(height_mm)) {
        return NAN;
    }
    return height_mm < TALL_MM ? DS_PRESSURE_IMMERSION_M : height_mm / 1000 + TALL_ABOVE_M;
}

ds_lack ds_flood_field_lack(const ds_flood_field field)
{
    static const ds_lack FIELDS[DS_FLOOD_FIELDS] = {
        [DS_FLOOD_F_LEVEL] = {"how high the water gets", "box.flood.level_m"},
        [DS_FLOOD_F_LOWEST] = {"how high its lowest part is", "box.lowest_m"},
        [DS_FLOOD_F_HOURS] = {"how long the water stays", "box.flood.hours"},
        [DS_FLOOD_F_HEIGHT] = {"its size", "box.size_mm"},
        [DS_FLOOD_F_FREEBOARD] = {"the height wanted between water and box", "box.flood"},
        [DS_FLOOD_F_TEMPERATURES] = {"how warm box and water are", "box.cooled_to_c"},
        [DS_FLOOD_F_HIGHEST] = {"how high it may be fixed", "box.flood"},
        [DS_FLOOD_F_DENSITY] = {"how heavy the water is", "box.flood"},
    };
    return FIELDS[field];
}

static void option(ds_flood_answer *const out, const ds_flood_field which, const double value,
                   const double low, const double high)
{
    if (!isnan(value) && !(value >= low && value <= high)) {
        out->bad |= 1U << which;
    }
}

static void must(ds_flood_answer *const out, const ds_flood_field which, const double value)
{
    if (isnan(value)) {
        out->missing |= 1U << which;
    }
}

static void check(ds_flood_answer *const out, const ds_flood_case *const c)
{
    must(out, DS_FLOOD_F_LEVEL, c->level_m);
    must(out, DS_FLOOD_F_LOWEST, c->lowest_m);
    option(out, DS_FLOOD_F_LEVEL, c->level_m, -1000, 10000);
    option(out, DS_FLOOD_F_LOWEST, c->lowest_m, -1000, 10000);
    option(out, DS_FLOOD_F_HOURS, c->hours, 0, INFINITY);
    option(out, DS_FLOOD_F_HEIGHT, c->height_mm, 1, 10000);
    option(out, DS_FLOOD_F_FREEBOARD, c->freeboard_m, 0, 100);
    option(out, DS_FLOOD_F_TEMPERATURES, c->box_c, -40, 200);
    option(out, DS_FLOOD_F_TEMPERATURES, c->water_c, -5, 100);
    option(out, DS_FLOOD_F_HIGHEST, c->highest_m, -1000, 10000);
    option(out, DS_FLOOD_F_DENSITY, c->density_kg_m3, 900, 1300);
}

/* Heights are measured, their difference is computed: what lies below a nanometre is arithmetic. */
static double nanometres(const double metres)
{
    return round(metres * 1e9) / 1e9;
}

static double density_of(const ds_flood_case *const c)
{
    return isnan(c->density_kg_m3) ? DS_PRESSURE_FRESH_KG_M3 : c->density_kg_m3;
}

static double suction_m(const ds_flood_case *const c)
{
    const double warmer_k = c->box_c - c->water_c;
    if (!(warmer_k > COOL_K)) {
        return isnan(warmer_k) ? NAN : 0;
    }
    return ds_water_head_m(ds_quench_drop_pa(c->box_c, c->water_c, 1), density_of(c));
}

/* Above the water. */
static void answer_splash(ds_flood_answer *const out, const ds_flood_case *const c)
{
    const double freeboard_m = isnan(c->freeboard_m) ? FREEBOARD_M : c->freeboard_m;
    out->need = DS_FLOOD_SPLASH;
    out->freeboard_short = out->clear_m < freeboard_m;
}

static void answer_under_water(ds_flood_answer *const out, const ds_flood_case *const c)
{
    must(out, DS_FLOOD_F_HOURS, c->hours);
    out->why_not_7 |= out->head_m > out->test_m ? DS_FLOOD_TOO_DEEP : 0;
    out->why_not_7 |= c->hours > SEVEN_HOURS ? DS_FLOOD_TOO_LONG : 0;
    if (!out->why_not_7) {
        must(out, DS_FLOOD_F_TEMPERATURES, out->suction_m);
        out->why_not_7 |= out->suction_m > 0 ? DS_FLOOD_SUCTION : 0;
    }
    out->depth_m = out->head_m + (isnan(out->suction_m) ? 0 : out->suction_m);
    out->need = out->missing ? DS_FLOOD_NOT_KNOWN : out->why_not_7 ? DS_FLOOD_NUMERAL_8 : DS_FLOOD_NUMERAL_7;
}

static void answer_height(ds_flood_answer *const out, const ds_flood_case *const c)
{
    const double freeboard_m = isnan(c->freeboard_m) ? FREEBOARD_M : c->freeboard_m;
    const bool must_rise = out->need != DS_FLOOD_SPLASH || out->freeboard_short;
    out->clear_level_m = nanometres(c->level_m + freeboard_m);
    out->height_conflict = must_rise && out->clear_level_m > c->highest_m;
}

void ds_flood_solve(ds_flood_answer *const out, const ds_flood_case *const c)
{
    *out = (ds_flood_answer){.clear_m = NAN,
                             .head_m = NAN,
                             .pressure_pa = NAN,
                             .suction_m = NAN,
                             .test_m = NAN,
                             .depth_m = NAN,
                             .hours = NAN,
                             .clear_level_m = NAN};
    check(out, c);
    if (out->missing || out->bad) {
        return;
    }
    out->clear_m = nanometres(c->lowest_m - c->level_m);
    out->head_m = fmax(-out->clear_m, 0);
    out->pressure_pa = ds_water_pressure_pa(out->head_m, density_of(c));
    out->test_m = isnan(c->height_mm) ? DS_PRESSURE_IMMERSION_M : ds_immersion_test_m(c->height_mm);
    out->hours = c->hours;
    if (out->clear_m > 0) {
        answer_splash(out, c);
    } else {
        out->suction_m = suction_m(c);
        answer_under_water(out, c);
    }
    answer_height(out, c);
}
