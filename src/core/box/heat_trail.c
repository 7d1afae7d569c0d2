/* SPDX-License-Identifier: MIT */
/*
 * The steps of a heat calculation, from areas to the limit. The films are worked out once more at the temperatures that
 * the search found, so that each figure on the page comes from figures that stand above it.
 */
#include "core/box/heat.h"

#define FROM_TEXTBOOKS                                                                                       \
    ((ds_source){DS_SOURCE_PUBLISHED, DS_STR("textbook correlations for plates in still air")})
#define FROM_CURVE ((ds_source){DS_SOURCE_MEMORY, DS_STR("IEC TR 60890, curves for boxes without openings")})
#define FROM_AREA ((ds_source){DS_SOURCE_PUBLISHED, DS_STR("VDE 0660, formulas of the effective area")})
#define OWN_BALANCE ((ds_source){DS_SOURCE_PRACTICE, DS_STR("heat in equals heat out")})

static const char *const FACE[DS_HEAT_FACES] = {"top", "bottom", "front", "rear", "left", "right"};
static const char *const FACTOR[DS_HEAT_FACES] = {"b top",  "b bottom", "b front",
                                                  "b rear", "b left",   "b right"};
static const char *const SHARE[DS_HEAT_FACES] = {"share top",  "share bottom", "share front",
                                                 "share rear", "share left",   "share right"};

/* --- areas and sun ------------------------------------------------------------------------------------------------ */

static void effective_area(ds_trail *const t, const ds_heat_case *const c, const ds_heat_answer *const a)
{
    ds_trail_start(t, "effective area", "A = sum of b x face");
    for (ds_heat_face face = DS_HEAT_TOP; face < DS_HEAT_FACES; face++) {
        ds_trail_input(t, FACE[face], ds_heat_face_m2(c, face), "m2");
        ds_trail_input(t, FACTOR[face], ds_heat_factor(c, face), "");
    }
    ds_trail_end(t, a->effective_m2, "m2", FROM_AREA);
}

static void outside_area(ds_trail *const t, const ds_heat_case *const c, const ds_heat_answer *const a)
{
    ds_trail_start(t, "area that gives off heat", "S = sum of share x face");
    for (ds_heat_face face = DS_HEAT_TOP; face < DS_HEAT_FACES; face++) {
        ds_trail_input(t, FACE[face], ds_heat_face_m2(c, face), "m2");
        ds_trail_input(t, SHARE[face], ds_heat_share(c, face), "");
    }
    ds_trail_end(t, a->outside_m2, "m2",
                 (ds_source){DS_SOURCE_PRACTICE, DS_STR("covered faces by the ratio of the factors b")});
}

static void lit_by_face(ds_trail *const t, const ds_heat_case *const c)
{
    ds_trail_start(t, "sunshine on the exposed faces", "sum of face x G");
    for (ds_heat_face face = DS_HEAT_TOP; face < DS_HEAT_FACES; face++) {
        if (c->sun_w_m2[face] > 0) {
            ds_trail_input(t, FACE[face], ds_heat_lit_m2(c, face), "m2");
            ds_trail_input(t, "G", c->sun_w_m2[face], "W/m2");
        }
    }
}

static void lit_at_worst(ds_trail *const t, const ds_heat_case *const c)
{
    const double along = fmax(ds_heat_lit_m2(c, DS_HEAT_FRONT), ds_heat_lit_m2(c, DS_HEAT_REAR));
    const double across = fmax(ds_heat_lit_m2(c, DS_HEAT_LEFT), ds_heat_lit_m2(c, DS_HEAT_RIGHT));
    ds_trail_start(t, "sunshine on the exposed faces",
                   "top (flat cos tilt + wall sin tilt) + wall sqrt(front^2 + side^2), the worst bearing");
    ds_trail_input(t, "top", ds_heat_lit_m2(c, DS_HEAT_TOP), "m2");
    ds_trail_input(t, "flat", c->sun_flat_w_m2, "W/m2");
    ds_trail_input(t, "wall", c->sun_wall_w_m2, "W/m2");
    ds_trail_input(t, "tilt", isnan(c->top_tilt_deg) ? 0 : c->top_tilt_deg, "degrees");
    ds_trail_input(t, "front", along, "m2");
    ds_trail_input(t, "side", across, "m2");
}

static void sunshine(ds_trail *const t, const ds_heat_case *const c, const ds_heat_answer *const a)
{
    const double lit_w = ds_heat_sun_w(c);
    if (!(lit_w > 0)) {
        return;
    }
    if (ds_heat_sun_by_face(c)) {
        lit_by_face(t, c);
    } else {
        lit_at_worst(t, c);
    }
    ds_trail_end(t, lit_w, "W", DS_TRAIL_ARITHMETIC);
    ds_trail_start(t, "sunshine absorbed", "Q = alpha x sunshine on the exposed faces");
    ds_trail_input(t, "alpha", a->worst_skin.absorptance, "");
    ds_trail_input(t, "sunshine", lit_w, "W");
    ds_trail_end(t, a->sun_w.high, "W",
                 (ds_source){DS_SOURCE_PUBLISHED, DS_STR("absorptance tables of surfaces")});
    ds_trail_start(t, "rise of the skin by sunshine alone", "dTs = Q / Hs");
    ds_trail_input(t, "Q", a->sun_w.high, "W");
    ds_trail_input(t, "Hs, films at this rise", a->sun_w.high / a->sun_k.high, "W/K");
    ds_trail_end(t, a->sun_k.high, "K", OWN_BALANCE);
}

/* --- trade and curve ---------------------------------------------------------------------------------------------- */

static void fan(ds_trail *const t, const ds_heat_case *const c)
{
    if (!(c->fan_m3_h > 0)) {
        return;
    }
    ds_trail_start(t, "carried off by the fan", "F = V x filters x rho cp / 3600");
    ds_trail_input(t, "V", c->fan_m3_h, "m3/h");
    ds_trail_input(t, "filters", c->fan_factor, "");
    ds_trail_input(t, "rho cp", ds_heat_fan_w_k(c) * 3600 / (c->fan_m3_h * c->fan_factor), "J/m3K");
    ds_trail_end(t, ds_heat_fan_w_k(c), "W/K", OWN_BALANCE);
}

static void trade(ds_trail *const t, const ds_heat_case *const c, const ds_heat_answer *const a)
{
    const ds_heat_result *const by = &a->by[DS_HEAT_TRADE];
    if (by->gap != DS_HEAT_GIVEN) {
        return;
    }
    ds_trail_start(t, "rise by the trade formula", "dT = P / (k A + F) + dTs");
    ds_trail_input(t, "P", c->watts, "W");
    ds_trail_input(t, "k", c->surface->trade_w_m2k, "W/m2K");
    ds_trail_input(t, "A", a->effective_m2, "m2");
    ds_trail_input(t, "F", ds_heat_fan_w_k(c), "W/K");
    ds_trail_input(t, "dTs", a->sun_k.high, "K");
    if (!by->decides) {
        ds_trail_note(t, "this k is not credible: shown, does not decide");
    }
    ds_trail_end(t, by->mid_k.high, "K",
                 (ds_source){DS_SOURCE_PUBLISHED, DS_STR("trade manuals and articles")});
}

static void curve(ds_trail *const t, const ds_heat_case *const c, const ds_heat_answer *const a)
{
    const ds_heat_result *const by = &a->by[DS_HEAT_CURVE];
    if (by->gap != DS_HEAT_GIVEN) {
        return;
    }
    ds_trail_start(t, "k of the curve", "straight lines between the points of the table");
    ds_trail_input(t, "A", a->effective_m2, "m2");
    ds_trail_end(t, ds_heat_curve_k(a->effective_m2), "", FROM_CURVE);
    ds_trail_start(t, "rise at half height by the curve", "dT = k d P^0.804 + dTs");
    ds_trail_input(t, "k", ds_heat_curve_k(a->effective_m2), "");
    ds_trail_input(t, "d", ds_heat_partition_factor(c, a->effective_m2).high, "");
    ds_trail_input(t, "P", c->watts, "W");
    ds_trail_input(t, "dTs", a->sun_k.high, "K");
    ds_trail_note(t, "does not decide alone");
    ds_trail_end(t, by->mid_k.high, "K", FROM_CURVE);
}

/* --- physics ------------------------------------------------------------------------------------------------------ */

#define STANDING_LAW "h = lambda / L x (0.825 + 0.387 Ra^(1/6) / 1.191)^2"
#define FREE_LAW "h = lambda / L x 0.54 Ra^(1/4), or 0.15 Ra^(1/3) where that is more"
#define HELD_LAW "h = lambda / L x 0.27 Ra^(1/4)"

/* One film between two temperatures. */
typedef struct film {
    bool is_inner;
    bool outwards; /* which way the heat flows */
    double warm_c, cold_c;
    double emissivity;
    double wind_w_m2k;
    double w_k;
    double h_w_m2k[DS_HEAT_FACES]; /* of still air, filled as the steps are written */
    double glow_w_m2k;
} film;

static const char *named(const film *const f, const char *const outer, const char *const inner)
{
    return f->is_inner ? inner : outer;
}

/* The Rayleigh number of faces of one length; it is the "Ra" of the films that follow. */
static double rayleigh_step(ds_trail *const t, const film *const f, const double length_m,
                            const char *const what)
{
    const ds_film_air air = ds_film_air_at((f->warm_c + f->cold_c) / 2);
    const double rayleigh = ds_film_rayleigh(&air, f->warm_c - f->cold_c, length_m);
    ds_trail_start(t, what, "Ra = 9.81 beta dT L^3 0.7268 / nu^2");
    ds_trail_input(t, "beta", 1 / air.kelvin, "1/K");
    ds_trail_input(t, "dT", f->warm_c - f->cold_c, "K");
    ds_trail_input(t, "L", length_m, "m");
    ds_trail_input(t, "nu", air.viscosity_m2_s * 1e6, "mm2/s");
    ds_trail_end(t, rayleigh, "", FROM_TEXTBOOKS);
    return rayleigh;
}

static void air_step(ds_trail *const t, const film *const f, const double length_m, const double rayleigh,
                     const char *const what, const char *const law, const double h_w_m2k)
{
    ds_trail_start(t, what, law);
    ds_trail_input(t, "Ra", rayleigh, "");
    ds_trail_input(t, "lambda", ds_film_air_at((f->warm_c + f->cold_c) / 2).conductivity_w_mk, "W/mK");
    ds_trail_input(t, "L", length_m, "m");
    ds_trail_end(t, h_w_m2k, "W/m2K", FROM_TEXTBOOKS);
}

static void side_steps(ds_trail *const t, const ds_heat_case *const c, film *const f)
{
    const double height_m = c->height_mm / 1000;
    const double h_w_m2k = ds_film_vertical_w_m2k(f->warm_c, f->cold_c, height_m);
    const double rayleigh = rayleigh_step(t, f, height_m, "Rayleigh number of the sides, L their height");
    air_step(t, f, height_m, rayleigh, named(f, "outer film of air, sides", "inner film of air, sides"),
             STANDING_LAW, h_w_m2k);
    for (ds_heat_face face = DS_HEAT_FRONT; face < DS_HEAT_FACES; face++) {
        f->h_w_m2k[face] = h_w_m2k;
    }
}

static void plate_steps(ds_trail *const t, const ds_heat_case *const c, film *const f)
{
    const double length_m = c->width_mm * c->depth_mm / (c->width_mm + c->depth_mm) / 2000;
    const double free = ds_film_up_w_m2k(f->warm_c, f->cold_c, length_m);
    const double held = ds_film_down_w_m2k(f->warm_c, f->cold_c, length_m);
    f->h_w_m2k[DS_HEAT_TOP] = f->outwards ? free : held;
    f->h_w_m2k[DS_HEAT_BOTTOM] = f->outwards ? held : free;
    const double rayleigh =
        rayleigh_step(t, f, length_m, "Rayleigh number of top and bottom, L area over perimeter");
    air_step(t, f, length_m, rayleigh, named(f, "outer film of air, top", "inner film of air, top"),
             f->outwards ? FREE_LAW : HELD_LAW, f->h_w_m2k[DS_HEAT_TOP]);
    air_step(t, f, length_m, rayleigh, named(f, "outer film of air, bottom", "inner film of air, bottom"),
             f->outwards ? HELD_LAW : FREE_LAW, f->h_w_m2k[DS_HEAT_BOTTOM]);
}

static void wind_step(ds_trail *const t, const ds_heat_case *const c, const film *const f)
{
    if (!(f->wind_w_m2k > 0)) {
        return;
    }
    ds_trail_start(t, "film of the wind, least on exposed faces",
                   "h = lambda / L x 0.8991 x the larger of 0.037 Re^0.8 and 0.664 Re^(1/2), Re = v L / nu");
    ds_trail_input(t, "v", c->wind_m_s, "m/s");
    ds_trail_input(t, "L", fmax(fmax(c->width_mm, c->depth_mm), c->height_mm) / 1000, "m");
    ds_trail_input(t, "lambda", ds_film_air_at(c->air_c).conductivity_w_mk, "W/mK");
    ds_trail_input(t, "nu", ds_film_air_at(c->air_c).viscosity_m2_s * 1e6, "mm2/s");
    ds_trail_end(t, f->wind_w_m2k, "W/m2K",
                 (ds_source){DS_SOURCE_MEMORY, DS_STR("heat-transfer texts, flat plate in a stream")});
}

static void glow_step(ds_trail *const t, film *const f)
{
    f->glow_w_m2k = ds_film_radiation_w_m2k(f->emissivity, f->warm_c, f->cold_c);
    ds_trail_start(t, named(f, "outer film by radiation", "inner film by radiation, half strength"),
                   "hr = eps 5.67e-8 (T1^2 + T2^2)(T1 + T2)");
    ds_trail_input(t, "eps", f->emissivity, "");
    ds_trail_input(t, "T1", f->warm_c + 273.15, "K");
    ds_trail_input(t, "T2", f->cold_c + 273.15, "K");
    ds_trail_end(t, f->glow_w_m2k, "W/m2K", FROM_TEXTBOOKS);
}

static void sum_step(ds_trail *const t, const ds_heat_case *const c, const film *const f)
{
    ds_trail_start(t, named(f, "outer film, all faces", "inner film, all faces"),
                   "H = sum of area x (h + hr)");
    for (ds_heat_face face = DS_HEAT_TOP; face < DS_HEAT_FACES; face++) {
        const bool windy = c->faces[face] == DS_HEAT_EXPOSED && f->wind_w_m2k > f->h_w_m2k[face];
        ds_trail_input(t, FACE[face], ds_heat_share(c, face) * ds_heat_face_m2(c, face), "m2");
        ds_trail_input(t, "h", windy ? f->wind_w_m2k : f->h_w_m2k[face], "W/m2K");
    }
    ds_trail_input(t, "hr", f->glow_w_m2k, "W/m2K");
    ds_trail_end(t, f->w_k, "W/K", DS_TRAIL_ARITHMETIC);
}

static void film_steps(ds_trail *const t, const ds_heat_case *const c, film *const f)
{
    side_steps(t, c, f);
    plate_steps(t, c, f);
    wind_step(t, c, f);
    glow_step(t, f);
    sum_step(t, c, f);
}

static void skin_steps(ds_trail *const t, const ds_heat_case *const c, const ds_heat_answer *const a)
{
    const ds_heat_physics *const p = &a->worst;
    film outer = {.outwards = true,
                  .warm_c = a->air_c + p->skin_k,
                  .cold_c = a->air_c,
                  .emissivity = a->worst_skin.emissivity_out,
                  .wind_w_m2k = ds_heat_wind_w_m2k(c),
                  .w_k = p->outer_w_k};
    film_steps(t, c, &outer);
    ds_trail_start(t, "skin above the air", "dT1 = (Pw + Q) / H");
    ds_trail_input(t, "Pw", p->through_w, "W");
    ds_trail_input(t, "Q", p->sun_w, "W");
    ds_trail_input(t, "H", p->outer_w_k, "W/K");
    ds_trail_end(t, p->skin_k, "K", OWN_BALANCE);
}

static void inside_steps(ds_trail *const t, const ds_heat_case *const c, const ds_heat_answer *const a)
{
    const ds_heat_physics *const p = &a->worst;
    const double wall_c = a->air_c + p->skin_k + p->wall_k;
    film inner = {.is_inner = true,
                  .outwards = p->through_w >= 0,
                  .warm_c = wall_c + fmax(p->film_k, 0),
                  .cold_c = wall_c + fmin(p->film_k, 0),
                  .emissivity = a->worst_skin.emissivity_in / 2,
                  .w_k = p->inner_w_k};
    ds_trail_start(t, "across the wall", "dT2 = Pw R / S");
    ds_trail_input(t, "Pw", p->through_w, "W");
    ds_trail_input(t, "R", a->worst_skin.wall_m2k_w, "m2K/W");
    ds_trail_input(t, "S", a->outside_m2, "m2");
    ds_trail_end(t, p->wall_k, "K", OWN_BALANCE);
    film_steps(t, c, &inner);
    ds_trail_start(t, "inside air above the wall", "dT3 = Pw / H");
    ds_trail_input(t, "Pw", p->through_w, "W");
    ds_trail_input(t, "H", p->inner_w_k, "W/K");
    ds_trail_end(t, p->film_k, "K", OWN_BALANCE);
}

static void through_step(ds_trail *const t, const ds_heat_case *const c, const ds_heat_physics *const p)
{
    ds_trail_start(t, "heat through the wall", "Pw = P - F dT, dT the rise that is found below");
    ds_trail_input(t, "P", c->watts, "W");
    ds_trail_input(t, "F", ds_heat_fan_w_k(c), "W/K");
    ds_trail_input(t, "dT", p->inside_k, "K");
    ds_trail_end(t, p->through_w, "W", OWN_BALANCE);
}

static void physics(ds_trail *const t, const ds_heat_case *const c, const ds_heat_answer *const a)
{
    through_step(t, c, &a->worst);
    skin_steps(t, c, a);
    inside_steps(t, c, a);
    ds_trail_start(t, "rise at half height by physics, surface at its worst", "dT = dT1 + dT2 + dT3");
    ds_trail_input(t, "dT1", a->worst.skin_k, "K");
    ds_trail_input(t, "dT2", a->worst.wall_k, "K");
    ds_trail_input(t, "dT3", a->worst.film_k, "K");
    if (a->worst.beyond) {
        ds_trail_note(t, "at least: a film would pass 400 C");
    }
    ds_trail_end(t, a->worst.inside_k, "K", DS_TRAIL_ARITHMETIC);
    ds_trail_start(t, "rise at half height by physics, surface at its best", "the same steps");
    ds_trail_input(t, "eps", a->best_skin.emissivity_out, "");
    ds_trail_input(t, "R", a->best_skin.wall_m2k_w, "m2K/W");
    ds_trail_input(t, "Q", a->best.sun_w, "W");
    ds_trail_end(t, a->best.inside_k, "K", OWN_BALANCE);
}

/* --- together ----------------------------------------------------------------------------------------------------- */

static void spread(ds_trail *const t, const ds_heat_answer *const a)
{
    static const char *const TOP[DS_HEAT_METHODS] = {
        "rise at the top by the trade formula", "rise at the top by the curve", "rise at the top by physics"};
    for (int method = 0; method < DS_HEAT_METHODS; method++) {
        const ds_heat_result *const by = &a->by[method];
        if (by->gap == DS_HEAT_GIVEN) {
            ds_trail_start(t, TOP[method], "dTtop = dT + (c - 1)(dT - dTs)");
            ds_trail_input(t, "dT", by->mid_k.high, "K");
            ds_trail_input(t, "c", a->top_factor.high, "");
            ds_trail_input(t, "dTs", a->sun_k.high, "K");
            ds_trail_end(t, by->top_k.high, "K", FROM_CURVE);
        }
    }
    ds_trail_start(t, "lowest rise", "least at half height of the methods that decide");
    ds_trail_end(t, a->spread_k.low, "K", DS_TRAIL_ARITHMETIC);
    ds_trail_start(t, "highest rise", "most at the top of the methods that decide");
    ds_trail_end(t, a->spread_k.high, "K", DS_TRAIL_ARITHMETIC);
}

static void temperatures(ds_trail *const t, const ds_heat_answer *const a, const double limit_c)
{
    ds_trail_start(t, "inside at the coolest", "T = air + lowest rise");
    ds_trail_input(t, "air", a->air_c, "°C");
    ds_trail_input(t, "lowest rise", a->spread_k.low, "K");
    ds_trail_end(t, a->air_c + a->spread_k.low, "°C", DS_TRAIL_ARITHMETIC);
    ds_trail_start(t, "inside at the warmest", "T = air + highest rise");
    ds_trail_input(t, "air", a->air_c, "°C");
    ds_trail_input(t, "highest rise", a->spread_k.high, "K");
    if (!isnan(limit_c)) {
        ds_trail_input(t, "limit", limit_c, "°C");
    }
    ds_trail_end(t, a->air_c + a->spread_k.high, "°C", DS_TRAIL_ARITHMETIC);
}

void ds_heat_trail(ds_trail *const t, const ds_heat_case *const c, const ds_heat_answer *const a,
                   const double limit_c)
{
    if (a->missing || a->bad) {
        return;
    }
    effective_area(t, c, a);
    outside_area(t, c, a);
    sunshine(t, c, a);
    fan(t, c);
    trade(t, c, a);
    curve(t, c, a);
    physics(t, c, a);
    spread(t, a);
    temperatures(t, a, limit_c);
}
