/* SPDX-License-Identifier: MIT */
#include "core/box/through.h"

#include "core/box/air.h"

#include <math.h>

#define AIR_KG_M3 1.2
#define AIR_J_KGK 1006.0
#define CONTENTS_J_KGK 500.0
#define USUAL_CLOSING_C 20.0

/* Of a thermostat and of a hygrostat from off to on. */
#define BAND_K 4.0
#define BAND_SHARE 0.1

/* Films of water that cling to walls, kg/m2 (common practice). */
#define CLINGS_G_M2 50.0

/* A box full of gear. */
#define MUCH_GEAR_KG_M3 300.0

ds_lack ds_through_field_lack(const ds_through_field field)
{
    static const ds_lack FIELDS[DS_THROUGH_FIELDS] = {
        [DS_THROUGH_LOW] = {"the lowest air temperature of the day", "box.day.low_c"},
        [DS_THROUGH_HIGH] = {"the highest air temperature of the day", "box.day.high_c"},
        [DS_THROUGH_ORDER] = {"a lowest temperature below the highest", "box.day"},
        [DS_THROUGH_HUMIDITY] = {"the humidity at the coldest hour", "box.day.humidity_pct"},
        [DS_THROUGH_SUN_FLAT] = {"the sun on level ground at noon", "box.day.sun_flat_w_m2"},
        [DS_THROUGH_SUN_WALL] = {"the sun on a wall at noon", "box.day.sun_wall_w_m2"},
        [DS_THROUGH_SEAL] = {"whether it is sealed, breathing or vented", "box.seal"},
        [DS_THROUGH_CLOSING] = {"how humid the air was when it was closed", "box.humidity_pct"},
        [DS_THROUGH_HEATER] = {"what the heater gives, and when", "box.heater"},
    };
    return FIELDS[field];
}

/* --- the day ------------------------------------------------------------------------------------------------------ */

static bool is_shaded(const ds_box *const box, const bool outdoors)
{
    return !outdoors || box->sun.shade == DS_TRI_YES;
}

static void lack(ds_through *const out, const bool is_missing, const ds_through_field field)
{
    out->missing |= (uint32_t)is_missing << field;
}

static void set_design(ds_through *const out, const ds_box *const box, const bool shaded)
{
    const ds_day_stated *const day = &box->day;
    out->design = (ds_day_design){.low_c = day->low_c,
                                  .high_c = day->high_c,
                                  .humidity = day->humidity_pct / 100,
                                  .sun_flat_w_m2 = shaded ? 0 : day->sun_flat_w_m2,
                                  .sun_wall_w_m2 = shaded ? 0 : day->sun_wall_w_m2,
                                  .wind_m_s = isnan(day->wind_m_s) ? 0 : day->wind_m_s,
                                  .clear = isnan(day->clear) ? 1 : day->clear};
    out->clear_told = !isnan(day->clear);
    lack(out, isnan(day->low_c), DS_THROUGH_LOW);
    lack(out, isnan(day->high_c), DS_THROUGH_HIGH);
    lack(out, day->low_c > day->high_c, DS_THROUGH_ORDER);
    lack(out, isnan(day->humidity_pct), DS_THROUGH_HUMIDITY);
    lack(out, isnan(out->design.sun_flat_w_m2), DS_THROUGH_SUN_FLAT);
    lack(out, isnan(out->design.sun_wall_w_m2), DS_THROUGH_SUN_WALL);
    ds_day_design_hours(out->hours, &out->design);
}

/* It is called sealed, and lets vapour through by what sits in it. */
static bool is_sealed_in_vain(const ds_box *const box)
{
    bool lets_through = box->vent_l_min > 0;
    for (size_t i = 0; i < box->entries_len; i++) {
        const ds_holds holds = box->entries[i].holds;
        lets_through = lets_through || holds == DS_HOLDS_BREATHER || holds == DS_HOLDS_DRAIN ||
                       holds == DS_HOLDS_BRUSH || holds == DS_HOLDS_NOTHING;
    }
    return lets_through && box->seal == DS_BOX_SEAL_SEALED;
}

static void lack_of_box(ds_through *const out, const ds_box *const box, const bool fan)
{
    const ds_heater *const heater = &box->heater;
    const bool switches = heater->on == DS_HEATER_HYGROSTAT || heater->on == DS_HEATER_THERMOSTAT;
    const bool half =
        isnan(heater->watts) || heater->on == DS_HEATER_MISSING || (switches && isnan(heater->set_at));
    lack(out, !fan && (box->seal == DS_BOX_SEAL_MISSING || is_sealed_in_vain(box)), DS_THROUGH_SEAL);
    lack(out, !fan && box->seal == DS_BOX_SEAL_SEALED && isnan(box->humidity_pct), DS_THROUGH_CLOSING);
    lack(out, heater->at && half, DS_THROUGH_HEATER);
}

/* --- the box ------------------------------------------------------------------------------------------------------ */

typedef struct wall_stuff {
    const char *surface;
    double density_kg_m3, j_kgk;
} wall_stuff;

/* memory: usual tables of the properties of materials. */
static wall_stuff stuff_of(const ds_surface *const surface)
{
    static const wall_stuff STUFF[] = {{"plastic", 1200, 1300},          {"grp", 1800, 1000},
                                       {"stainless", 7900, 500},         {"aluminium", 2700, 900},
                                       {"painted-aluminium", 2700, 900}, {"aluminium-anodised", 2700, 900}};
    for (size_t i = 0; i < sizeof STUFF / sizeof *STUFF; i++) {
        if (ds_str_is(ds_str_of(surface->name), STUFF[i].surface)) {
            return STUFF[i];
        }
    }
    return (wall_stuff){"steel", 7850, 480};
}

static void set_mass(ds_through_mass *const m, const ds_box *const box, const ds_heat_case *const c)
{
    const wall_stuff stuff = stuff_of(c->surface);
    m->outside_m2 = 0;
    for (ds_heat_face face = DS_HEAT_TOP; face < DS_HEAT_FACES; face++) {
        m->outside_m2 += ds_heat_face_m2(c, face);
    }
    m->wall_usual = isnan(c->wall_mm);
    m->wall_mm = m->wall_usual ? c->surface->wall_mm : c->wall_mm;
    m->density_kg_m3 = stuff.density_kg_m3;
    m->skin_j_kgk = stuff.j_kgk;
    m->volume_m3 = c->width_mm * c->height_mm * c->depth_mm * 1e-9;
    m->contents_kg = isnan(box->contents_kg) ? 0 : box->contents_kg;
}

static ds_day_heater heater_of(const ds_heater *const heater)
{
    switch (heater->at ? heater->on : DS_HEATER_MISSING) {
    case DS_HEATER_THERMOSTAT:
        return (ds_day_heater){DS_DAY_THERMOSTAT, heater->watts, heater->set_at, BAND_K};
    case DS_HEATER_HYGROSTAT:
        return (ds_day_heater){DS_DAY_HYGROSTAT, heater->watts, heater->set_at / 100, BAND_SHARE};
    case DS_HEATER_ALWAYS: /* counted with the losses (climate.c) */
    case DS_HEATER_MISSING:
        break;
    }
    return (ds_day_heater){DS_DAY_NO_HEATER, 0, 0, 0};
}

/* Air that passes: what a fan moves, or through a vent of unknown flow the box's own volume in an hour. */
static void set_seal(ds_through *const out, ds_day_box *const d, const ds_box *const box,
                     const ds_heat_case *const c)
{
    const bool fan = c->fan_m3_h > 0;
    d->seal = fan || box->seal == DS_BOX_SEAL_VENTED ? DS_DAY_VENTED
              : box->seal == DS_BOX_SEAL_BREATHING   ? DS_DAY_BREATHES
                                                     : DS_DAY_SEALED;
    d->air_m3_h = fan ? c->fan_m3_h * c->fan_factor : d->seal == DS_DAY_VENTED ? out->mass.volume_m3 : 0;
    d->closing_c = !isnan(box->air_c) ? box->air_c : fmax(out->design.high_c, USUAL_CLOSING_C);
    d->closing_humidity = box->humidity_pct / 100;
}

/* A breather lets vapour through its hole by diffusion; an entry of unknown size counts for nothing. */
static void add_drains(ds_day_box *const d, const ds_box *const box, const double outside_m2)
{
    for (size_t i = 0; i < box->entries_len; i++) {
        const ds_entry *const entry = &box->entries[i];
        const bool breathes = entry->holds == DS_HOLDS_BREATHER;
        if (breathes || entry->holds == DS_HOLDS_DRAIN) {
            d->drains = true;
            d->clings_g = CLINGS_G_M2 * outside_m2;
        }
        if (breathes && d->seal != DS_DAY_SEALED && entry->hole_mm > 0 && entry->wall_mm > 0) {
            d->vapour_m3_h += ds_air_hole_m3_h(entry->hole_mm, entry->wall_mm);
        }
    }
}

static ds_day_box day_box(ds_through *const out, const ds_box *const box, const ds_heat_case *const c,
                          const bool shaded)
{
    const ds_through_mass *const m = &out->mass;
    ds_day_box d = DS_DAY_BOX_NOTHING;
    ds_day_box_from(&d, c, &out->heat.worst_skin);
    d.absorptance = shaded ? 0 : d.absorptance;
    d.sky_up = shaded ? 0 : d.sky_up;
    d.sky_side = shaded ? 0 : d.sky_side;
    d.skin_j_k = m->outside_m2 * m->wall_mm / 1000 * m->density_kg_m3 * m->skin_j_kgk;
    d.inside_j_k = m->volume_m3 * AIR_KG_M3 * AIR_J_KGK + m->contents_kg * CONTENTS_J_KGK;
    d.volume_m3 = m->volume_m3;
    d.heater = heater_of(&box->heater);
    set_seal(out, &d, box, c);
    add_drains(&d, box, m->outside_m2);
    return d;
}

/* --- judging ------------------------------------------------------------------------------------------------------ */

/* A peak lies somewhere within its hour; the cooler air there makes the span wider. */
static void judge_heat(ds_through *const day)
{
    const ds_day_answer *const warm = &day->warm;
    day->peak_air_c = fmin(day->hours[warm->highest_hour].air_c,
                           day->hours[(warm->highest_hour + 1) % DS_DAY_DESIGN_HOURS].air_c);
    const double doubt_k = DS_THROUGH_FILM_SHARE * fmax(warm->highest_c - day->peak_air_c, 0);
    day->peak_c = (ds_span){warm->highest_c - doubt_k, warm->highest_c + doubt_k};
    if (!isnan(day->limit_c)) {
        day->heat_verdict = !day->watts_told                   ? DS_UNKNOWN
                            : day->peak_c.high <= day->limit_c ? DS_FITS
                            : day->peak_c.low > day->limit_c   ? DS_SHORT
                                                               : DS_UNKNOWN;
    }
}

static void judge_sweating(ds_through *const day)
{
    if (day->dry_asked) {
        day->dry_verdict = day->cold.wet_hours > 0                    ? DS_SHORT
                           : day->cold.margin_k < DS_THROUGH_MARGIN_K ? DS_UNKNOWN
                                                                      : DS_FITS;
    }
}

static bool is_wetter(const ds_day_answer *const a, const ds_day_answer *const b)
{
    return a->wet_hours > b->wet_hours || (!(a->wet_hours < b->wet_hours) && a->margin_k < b->margin_k);
}

static void run_warm(ds_through *const day)
{
    ds_weather_hour hours[DS_DAY_DESIGN_HOURS];
    for (size_t hour = 0; hour < DS_DAY_DESIGN_HOURS; hour++) {
        hours[hour] = day->hours[hour];
        hours[hour].clear = day->clear_told ? hours[hour].clear : 0;
    }
    const ds_day_ask ask = {
        .limit_c = day->limit_c, .settle_days = DS_THROUGH_SETTLE_DAYS, .curve = day->warm_curve};
    day->fault = ds_day_run(&day->warm, &day->warm_box, hours, DS_DAY_DESIGN_HOURS, &ask);
}

/* With much gear inside instead of none; kept when that is worse. */
static void run_heavy(ds_through *const day)
{
    ds_through heavy = *day;
    heavy.mass.contents_kg = MUCH_GEAR_KG_M3 * day->mass.volume_m3;
    heavy.cold_box.inside_j_k += heavy.mass.contents_kg * CONTENTS_J_KGK;
    const ds_day_ask ask = {.limit_c = NAN, .settle_days = DS_THROUGH_SETTLE_DAYS, .curve = heavy.cold_curve};
    heavy.fault = ds_day_run(&heavy.cold, &heavy.cold_box, day->hours, DS_DAY_DESIGN_HOURS, &ask);
    if (heavy.fault.field != DS_DAY_OK || is_wetter(&heavy.cold, &day->cold)) {
        *day = heavy;
    }
}

static void run_day(ds_through *const day, const bool weight_told)
{
    run_warm(day);
    if (day->fault.field == DS_DAY_OK) {
        const ds_day_ask ask = {
            .limit_c = NAN, .settle_days = DS_THROUGH_SETTLE_DAYS, .curve = day->cold_curve};
        day->fault = ds_day_run(&day->cold, &day->cold_box, day->hours, DS_DAY_DESIGN_HOURS, &ask);
    }
    if (day->fault.field == DS_DAY_OK && !weight_told) {
        run_heavy(day);
    }
    day->solved = day->fault.field == DS_DAY_OK;
}

/* The steady case with the day's sun and air, and without losses where none are stated. */
static ds_heat_case case_of(const ds_through *const day, const ds_heat_case *const c)
{
    ds_heat_case own = *c;
    own.air_c = day->design.high_c;
    own.watts = isnan(c->watts) ? 0 : c->watts;
    own.sun_flat_w_m2 = day->design.sun_flat_w_m2;
    own.sun_wall_w_m2 = day->design.sun_wall_w_m2;
    own.wind_m_s = day->design.wind_m_s;
    return own;
}

void ds_through_solve(ds_through *const out, const ds_box *const box, const ds_heat_case *const c,
                      const bool outdoors)
{
    *out = (ds_through){.told = box->day.at != NULL,
                        .limit_c = box->limit_c,
                        .watts_told = !isnan(box->watts),
                        .dry_asked = box->keep_dry == DS_TRI_YES,
                        .heater_w = NAN,
                        .five_k_w = NAN,
                        .closing_pct = NAN};
    out->heat_verdict = out->told && !isnan(out->limit_c) ? DS_UNKNOWN : DS_FITS;
    out->dry_verdict = out->dry_asked ? DS_UNKNOWN : DS_FITS;
    if (!out->told) {
        return;
    }
    const bool shaded = is_shaded(box, outdoors);
    set_design(out, box, shaded);
    lack_of_box(out, box, c->fan_m3_h > 0);
    const ds_heat_case own = case_of(out, c);
    ds_heat_solve(&out->heat, &own);
    const uint32_t stated_by_day = 1U << DS_HEAT_F_AIR | 1U << DS_HEAT_F_SUN;
    out->heat_missing = out->heat.missing & ~stated_by_day;
    out->heat_bad = out->heat.bad & ~stated_by_day;
    if (out->heat.missing || out->heat.bad) {
        return;
    }
    set_mass(&out->mass, box, &own);
    out->trade_w_m2k = isnan(own.surface->trade_w_m2k) ? 5.5 : own.surface->trade_w_m2k;
    out->warm_box = out->cold_box = day_box(out, box, &own, shaded);
    out->warm_box.lit_m2 = fmin(ds_heat_worst_walls_m2(&own), out->warm_box.side.open_m2);
    ds_day_box_from(&out->cold_box, &own, &out->heat.best_skin);
    out->cold_box.absorptance = shaded ? 0 : out->cold_box.absorptance;
    out->cold_box.watts = out->warm_box.watts;
    out->cold_box.sky_up = out->warm_box.sky_up;
    out->cold_box.sky_side = out->warm_box.sky_side;
    if (out->missing) {
        return;
    }
    run_day(out, !isnan(box->contents_kg));
    if (out->solved) {
        judge_heat(out);
        judge_sweating(out);
        ds_through_mend(out);
    }
}
