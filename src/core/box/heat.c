/* SPDX-License-Identifier: MIT */
/*
 * The case and its fields, the effective area, trade formula and curve, and the three methods put together.
 *
 * The curve is a recalled table of IEC TR 60890 for boxes without openings, straight lines between its points; up to
 * 1.25 m2 it lies within 2 % of k = 0.61 A^-0.74, which supports the recall. Above 1.25 m2 the table is weaker, c is
 * known as a range only, and partitions count.
 */
#include "core/box/heat.h"

#define CURVE_SMALL_M2 1.25

/* --- fields ------------------------------------------------------------------------------------------------------- */

ds_lack ds_heat_field_lack(const ds_heat_field field)
{
    static const ds_lack FIELDS[DS_HEAT_FIELDS] = {
        [DS_HEAT_F_SIZE] = {"its size", "box.size_mm"},
        [DS_HEAT_F_FACES] = {"how it is mounted", "box.mounted"},
        [DS_HEAT_F_SURFACE] = {"its surface", "box.surface"},
        [DS_HEAT_F_COLOUR] = {"its colour", "box.colour"},
        [DS_HEAT_F_WALL] = {"how thick its wall is", "box.wall_mm"},
        [DS_HEAT_F_WATTS] = {"its losses", "box.watts"},
        [DS_HEAT_F_AIR] = {"how warm the air around it is", "box.air_c"},
        [DS_HEAT_F_SUN] = {"the sun on it", "box.sun"},
        [DS_HEAT_F_TILT] = {"the tilt of its top", "box.top_tilt_deg"},
        [DS_HEAT_F_WIND] = {"the wind", "box.wind_m_s"},
        [DS_HEAT_F_FAN] = {"what its fan moves", "box.fan_m3_h"},
        [DS_HEAT_F_PARTITIONS] = {"its partitions", "box.partitions"},
    };
    return FIELDS[field];
}

void ds_heat_mount(ds_heat_case *const c, const bool on_wall, const int neighbours)
{
    for (ds_heat_face face = DS_HEAT_TOP; face < DS_HEAT_FACES; face++) {
        c->faces[face] = DS_HEAT_EXPOSED;
    }
    c->faces[DS_HEAT_REAR] = on_wall ? DS_HEAT_ON_WALL : DS_HEAT_EXPOSED;
    c->faces[DS_HEAT_LEFT] = neighbours >= 1 ? DS_HEAT_COVERED : DS_HEAT_EXPOSED;
    c->faces[DS_HEAT_RIGHT] = neighbours >= 2 ? DS_HEAT_COVERED : DS_HEAT_EXPOSED;
}

static void field(ds_heat_answer *const out, const ds_heat_field which, const double value, const double low,
                  const double high)
{
    if (isnan(value)) {
        out->missing |= 1U << which;
    } else if (!(value >= low && value <= high)) {
        out->bad |= 1U << which;
    }
}

/* The same for a value that may be left out. */
static void option(ds_heat_answer *const out, const ds_heat_field which, const double value, const double low,
                   const double high)
{
    if (!isnan(value)) {
        field(out, which, value, low, high);
    }
}

static void check_faces(ds_heat_answer *const out, const ds_heat_case *const c)
{
    double open = 0;
    for (ds_heat_face face = DS_HEAT_TOP; face < DS_HEAT_FACES; face++) {
        if (c->faces[face] == DS_HEAT_NOT_SAID) {
            out->missing |= 1U << DS_HEAT_F_FACES;
        } else if ((unsigned)c->faces[face] >= DS_HEAT_SETTINGS) {
            out->bad |= 1U << DS_HEAT_F_FACES;
        } else {
            open += c->faces[face] != DS_HEAT_ON_FLOOR && face != DS_HEAT_BOTTOM;
        }
    }
    if (open == 0 && !(out->missing & 1U << DS_HEAT_F_FACES)) {
        out->bad |= 1U << DS_HEAT_F_FACES;
    }
}

bool ds_heat_sun_by_face(const ds_heat_case *const c)
{
    bool any = false;
    for (ds_heat_face face = DS_HEAT_TOP; face < DS_HEAT_FACES; face++) {
        any = any || !isnan(c->sun_w_m2[face]);
    }
    return any;
}

/* Face by face every exposed face but the bottom must be answered, and none that is covered can be lit. */
static void check_sun(ds_heat_answer *const out, const ds_heat_case *const c)
{
    static const double MOST_W_M2 = 1500;
    if (!ds_heat_sun_by_face(c)) {
        field(out, DS_HEAT_F_SUN, c->sun_flat_w_m2, 0, MOST_W_M2);
        field(out, DS_HEAT_F_SUN, c->sun_wall_w_m2, 0, MOST_W_M2);
    }
    for (ds_heat_face face = DS_HEAT_TOP; ds_heat_sun_by_face(c) && face < DS_HEAT_FACES; face++) {
        const bool exposed = c->faces[face] == DS_HEAT_EXPOSED;
        if (exposed && face != DS_HEAT_BOTTOM) {
            field(out, DS_HEAT_F_SUN, c->sun_w_m2[face], 0, MOST_W_M2);
        } else {
            option(out, DS_HEAT_F_SUN, c->sun_w_m2[face], 0, exposed ? MOST_W_M2 : 0);
        }
    }
}

static void check_surface(ds_heat_answer *const out, const ds_heat_case *const c)
{
    if (!c->surface) {
        out->missing |= 1U << DS_HEAT_F_SURFACE;
    } else if (isnan(c->surface->absorptance.low) && !c->colour &&
               !((out->missing | out->bad) & 1U << DS_HEAT_F_SUN) && ds_heat_sun_w(c) > 0) {
        out->missing |= 1U << DS_HEAT_F_COLOUR;
    }
    option(out, DS_HEAT_F_WALL, c->wall_mm, 0.1, 100);
}

static void check_fan(ds_heat_answer *const out, const ds_heat_case *const c)
{
    option(out, DS_HEAT_F_FAN, c->fan_m3_h, 0, 1e5);
    if (c->fan_m3_h > 0) {
        field(out, DS_HEAT_F_FAN, c->fan_factor, 1e-3, 1);
    }
}

void ds_heat_check(ds_heat_answer *const out, const ds_heat_case *const c)
{
    out->missing = out->bad = 0;
    field(out, DS_HEAT_F_SIZE, c->width_mm, 10, 10000);
    field(out, DS_HEAT_F_SIZE, c->height_mm, 10, 10000);
    field(out, DS_HEAT_F_SIZE, c->depth_mm, 10, 10000);
    field(out, DS_HEAT_F_WATTS, c->watts, 0, 1e5);
    field(out, DS_HEAT_F_AIR, c->air_c, -60, 80);
    option(out, DS_HEAT_F_TILT, c->top_tilt_deg, 0, 90);
    option(out, DS_HEAT_F_WIND, c->wind_m_s, 0, 60);
    option(out, DS_HEAT_F_PARTITIONS, c->partitions, 0, 3);
    if (c->partitions > floor(c->partitions)) {
        out->bad |= 1U << DS_HEAT_F_PARTITIONS;
    }
    check_faces(out, c);
    check_sun(out, c);
    check_surface(out, c);
    check_fan(out, c);
}

/* --- areas and sun ------------------------------------------------------------------------------------------------ */

double ds_heat_face_m2(const ds_heat_case *const c, const ds_heat_face face)
{
    if (face == DS_HEAT_TOP || face == DS_HEAT_BOTTOM) {
        return c->width_mm * c->depth_mm * 1e-6;
    }
    return c->height_mm * (face == DS_HEAT_FRONT || face == DS_HEAT_REAR ? c->width_mm : c->depth_mm) * 1e-6;
}

double ds_heat_factor(const ds_heat_case *const c, const ds_heat_face face)
{
    const bool exposed = c->faces[face] == DS_HEAT_EXPOSED;
    if (face == DS_HEAT_BOTTOM || c->faces[face] == DS_HEAT_ON_FLOOR) {
        return 0;
    }
    if (face == DS_HEAT_TOP) {
        return exposed ? 1.4 : 0.7;
    }
    return exposed ? 0.9 : 0.5;
}

double ds_heat_effective_m2(const ds_heat_case *const c)
{
    double sum_m2 = 0;
    for (ds_heat_face face = DS_HEAT_TOP; face < DS_HEAT_FACES; face++) {
        sum_m2 += ds_heat_face_m2(c, face) * ds_heat_factor(c, face);
    }
    return sum_m2;
}

double ds_heat_lit_m2(const ds_heat_case *const c, const ds_heat_face face)
{
    return c->faces[face] == DS_HEAT_EXPOSED ? ds_heat_face_m2(c, face) : 0;
}

double ds_heat_worst_walls_m2(const ds_heat_case *const c)
{
    const double along = fmax(ds_heat_lit_m2(c, DS_HEAT_FRONT), ds_heat_lit_m2(c, DS_HEAT_REAR));
    const double across = fmax(ds_heat_lit_m2(c, DS_HEAT_LEFT), ds_heat_lit_m2(c, DS_HEAT_RIGHT));
    return sqrt(along * along + across * across);
}

double ds_heat_sun_w(const ds_heat_case *const c)
{
    if (!ds_heat_sun_by_face(c)) {
        const double tilt_deg = isnan(c->top_tilt_deg) ? 0 : c->top_tilt_deg;
        return ds_heat_lit_m2(c, DS_HEAT_TOP) *
                   ds_film_tilted_w_m2(c->sun_flat_w_m2, c->sun_wall_w_m2, tilt_deg) +
               ds_heat_worst_walls_m2(c) * c->sun_wall_w_m2;
    }
    double sum_w = 0;
    for (ds_heat_face face = DS_HEAT_TOP; face < DS_HEAT_FACES; face++) {
        sum_w += isnan(c->sun_w_m2[face]) ? 0 : ds_heat_lit_m2(c, face) * c->sun_w_m2[face];
    }
    return sum_w;
}

/* --- the curve ---------------------------------------------------------------------------------------------------- */

typedef struct pair {
    double x, y;
} pair;

/* Straight lines between points; the ends hold beyond them. */
static double between(const pair *const points, const int len, const double x)
{
    int i = 1;
    while (i < len - 1 && points[i].x < x) {
        i++;
    }
    const double share = (x - points[i - 1].x) / (points[i].x - points[i - 1].x);
    const double held = fmin(fmax(share, 0), 1);
    return points[i - 1].y + held * (points[i].y - points[i - 1].y);
}

double ds_heat_curve_k(const double effective_m2)
{
    static const pair SMALL[] = {{0.08, 3.973}, {0.1, 3.371}, {0.15, 2.5},   {0.2, 2.022},
                                 {0.25, 1.716}, {0.3, 1.5},   {0.35, 1.339}, {0.4, 1.213},
                                 {0.45, 1.113}, {0.5, 1.029}, {0.6, 0.9},    {0.7, 0.8},
                                 {0.8, 0.722},  {0.9, 0.66},  {1.0, 0.61},   {1.25, 0.525}};
    static const pair LARGE[] = {{1.25, 0.524}, {1.5, 0.45}, {2, 0.35},  {2.5, 0.275}, {3, 0.225},
                                 {4, 0.185},    {5, 0.16},   {6, 0.135}, {8, 0.115},   {10, 0.095}};
    if (!(effective_m2 >= 0.08 && effective_m2 <= 10)) {
        return NAN;
    }
    return effective_m2 <= CURVE_SMALL_M2 ? between(SMALL, sizeof SMALL / sizeof *SMALL, effective_m2)
                                          : between(LARGE, sizeof LARGE / sizeof *LARGE, effective_m2);
}

ds_span ds_heat_top_factor(const ds_heat_case *const c, const double effective_m2)
{
    static const pair SLENDER[] = {{0, 1.0},     {0.2, 1.04}, {0.4, 1.078}, {0.6, 1.118}, {0.8, 1.156},
                                   {1.0, 1.188}, {1.2, 1.22}, {1.5, 1.227}, {2, 1.233},   {2.5, 1.237}};
    if (effective_m2 > CURVE_SMALL_M2) {
        return (ds_span){1.11, 1.45};
    }
    const double factor = between(SLENDER, sizeof SLENDER / sizeof *SLENDER, c->height_mm / c->width_mm);
    return (ds_span){factor, factor};
}

ds_span ds_heat_partition_factor(const ds_heat_case *const c, const double effective_m2)
{
    static const pair LEVELS[] = {{0, 1.0}, {1, 1.05}, {2, 1.15}, {3, 1.30}};
    if (effective_m2 <= CURVE_SMALL_M2) {
        return (ds_span){1, 1};
    }
    const bool known = !isnan(c->partitions);
    return (ds_span){between(LEVELS, 4, known ? c->partitions : 0),
                     between(LEVELS, 4, known ? c->partitions : 3)};
}

/* --- the methods -------------------------------------------------------------------------------------------------- */

/*
 * own_k: what the box's own heat adds at half height; the top has c times that, unless a fan cools below the sun's share.
 */
static void set_result(ds_heat_result *const out, const ds_heat_answer *const a, const ds_span own_k)
{
    const ds_span c = a->top_factor;
    out->mid_k = (ds_span){own_k.low + a->sun_k.low, own_k.high + a->sun_k.high};
    out->top_k = (ds_span){out->mid_k.low + (c.low - 1) * fmax(own_k.low, 0),
                           out->mid_k.high + (c.high - 1) * fmax(own_k.high, 0)};
}

static void solve_trade(ds_heat_answer *const a, const ds_heat_case *const c)
{
    ds_heat_result *const out = &a->by[DS_HEAT_TRADE];
    if (c->surface->trade == DS_TRADE_NONE) {
        out->gap = DS_HEAT_NO_K;
        return;
    }
    const double rise_k = c->watts / (c->surface->trade_w_m2k * a->effective_m2 + ds_heat_fan_w_k(c));
    out->decides = c->surface->trade == DS_TRADE_DECIDES;
    set_result(out, a, (ds_span){rise_k, rise_k});
}

static void solve_curve(ds_heat_answer *const a, const ds_heat_case *const c)
{
    ds_heat_result *const out = &a->by[DS_HEAT_CURVE];
    const double k = ds_heat_curve_k(a->effective_m2);
    out->gap = c->fan_m3_h > 0               ? DS_HEAT_WITH_FAN
               : c->openings == DS_HEAT_OPEN ? DS_HEAT_WITH_HOLES
               : isnan(k)                    ? DS_HEAT_OFF_CURVE
                                             : DS_HEAT_GIVEN;
    if (out->gap == DS_HEAT_GIVEN) {
        const ds_span levels = ds_heat_partition_factor(c, a->effective_m2);
        const double rise_k = k * pow(c->watts, 0.804);
        set_result(out, a, (ds_span){rise_k * levels.low, rise_k * levels.high});
    }
}

/* What the sun alone does to the skin: the balance of a box without heat of its own and without a fan. */
static double sun_alone_k(const ds_heat_case *const c, const ds_heat_skin *const skin)
{
    if (!(skin->absorptance > 0 && ds_heat_sun_w(c) > 0)) {
        return 0;
    }
    ds_heat_case idle = *c;
    ds_heat_physics out;
    idle.watts = 0;
    idle.fan_m3_h = NAN;
    ds_heat_physics_solve(&out, &idle, skin);
    return out.skin_k;
}

static void solve_physics(ds_heat_answer *const a, const ds_heat_case *const c)
{
    ds_heat_result *const out = &a->by[DS_HEAT_PHYSICS];
    ds_heat_physics_solve(&a->best, c, &a->best_skin);
    ds_heat_physics_solve(&a->worst, c, &a->worst_skin);
    out->decides = true;
    set_result(out, a, (ds_span){a->best.inside_k - a->sun_k.low, a->worst.inside_k - a->sun_k.high});
}

static void set_skins(ds_heat_answer *const a, const ds_heat_case *const c)
{
    const ds_surface *const s = c->surface;
    const double wall_m = (isnan(c->wall_mm) ? s->wall_mm : c->wall_mm) / 1000;
    const ds_span own = s->absorptance;
    const ds_span sun = !isnan(own.low) ? own : c->colour ? c->colour->absorptance : (ds_span){0, 0};
    a->best_skin =
        (ds_heat_skin){s->emissivity.high, s->emissivity.high, sun.low, wall_m / s->wall_w_mk.high};
    a->worst_skin = (ds_heat_skin){s->emissivity.low, s->emissivity.low, sun.high, wall_m / s->wall_w_mk.low};
}

static void set_nothing(ds_heat_answer *const a)
{
    static const ds_span NONE = {NAN, NAN};
    a->effective_m2 = a->outside_m2 = a->air_c = NAN;
    a->sun_w = a->sun_k = a->top_factor = a->spread_k = NONE;
    a->best = a->worst = (ds_heat_physics){NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, false};
    a->best_skin = a->worst_skin = (ds_heat_skin){NAN, NAN, NAN, NAN};
    for (int method = 0; method < DS_HEAT_METHODS; method++) {
        a->by[method] = (ds_heat_result){.mid_k = NONE, .top_k = NONE};
    }
}

static void set_spread(ds_heat_answer *const a)
{
    for (int method = 0; method < DS_HEAT_METHODS; method++) {
        if (a->by[method].decides) {
            a->spread_k.low = fmin(a->spread_k.low, a->by[method].mid_k.low);
            a->spread_k.high = fmax(a->spread_k.high, a->by[method].top_k.high);
        }
    }
}

void ds_heat_solve(ds_heat_answer *const out, const ds_heat_case *const c)
{
    *out = (ds_heat_answer){.closed = c->openings == DS_HEAT_CLOSED, .height = c->height};
    set_nothing(out);
    ds_heat_check(out, c);
    if (out->missing || out->bad) {
        return;
    }
    set_skins(out, c);
    out->air_c = c->air_c;
    out->effective_m2 = ds_heat_effective_m2(c);
    out->outside_m2 = ds_heat_outside_m2(c);
    out->top_factor = ds_heat_top_factor(c, out->effective_m2);
    const double sun_w = ds_heat_sun_w(c);
    out->sun_w = (ds_span){out->best_skin.absorptance * sun_w, out->worst_skin.absorptance * sun_w};
    out->sun_k = (ds_span){sun_alone_k(c, &out->best_skin), sun_alone_k(c, &out->worst_skin)};
    solve_trade(out, c);
    solve_curve(out, c);
    solve_physics(out, c);
    set_spread(out);
}
