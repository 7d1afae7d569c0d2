/* SPDX-License-Identifier: MIT */
/*
 * Heat through the skin of a box: inside air, film, wall, skin, film, outside air.
 *
 * Both films are one law: heat flows from a warm side to a cold side over standing faces, a top and a bottom, by air and
 * by radiation, and the law is asked for the difference that carries a given heat. Outside, the warm side is the skin;
 * inside, it is the air of the box, whose parts radiate to the wall with half strength (they fill half of what it sees).
 * Either way the air along a top is free when heat flows outwards, and along a bottom it is held.
 *
 * The search is for the skin's temperature: it gives the heat through the outer film, so that through the wall, so the
 * inside (by a second search, for the inner film) and what a fan carries off; heat made and heat taken must agree. Every
 * search is a secant kept within a bracket: the functions rise, so there is one answer, and when three steps have not
 * halved the bracket the next one does.
 */
#include "core/box/heat.h"

#define KELVIN 273.15
#define LOWEST_C (-100.0)
#define HIGHEST_C 400.0
#define INSIDE_RADIATION 0.5
#define CLOSE 1e-13 /* of the heat in question */
#define BEYOND 1e-9 /* a balance worse than this has met the end of the temperatures */

/* --- searching ---------------------------------------------------------------------------------------------------- */

typedef double rising(void *ctx, double x);

/* low <= root, and root <= high once f has been seen above 0; f at the two latest points. */
typedef struct search {
    double low, high;
    bool bounded;
    double x, fx;
    double before, f_before;
} search;

static void look_at(search *const s, rising *const f, void *const ctx, const double x)
{
    s->before = s->x;
    s->f_before = s->fx;
    s->x = x;
    s->fx = f(ctx, x);
    if (s->fx < 0) {
        s->low = x;
    } else {
        s->high = x;
        s->bounded = true;
    }
}

/* A secant that leaves the bracket upwards goes to its end, to learn whether there is a root at all. */
static double next_point(const search *const s, const bool halve)
{
    const double secant = s->x - s->fx * (s->x - s->before) / (s->fx - s->f_before);
    if (!s->bounded && !(secant < s->high)) {
        return s->high;
    }
    const bool usable = !halve && secant > s->low && secant < s->high;
    return usable ? secant : s->low + (s->high - s->low) / 2;
}

/*
 * Where f, which rises, passes 0 between low and high; high when it does not. f_low is about f(low) and below 0, near a
 * guess between them, and f within close of 0 counts as 0. Ends at the latest when no number lies inside the bracket.
 */
static double root_of(rising *const f, void *const ctx, const double low, const double f_low,
                      const double high, const double near, const double close)
{
    search s = {.low = low, .high = high, .x = low, .fx = f_low};
    look_at(&s, f, ctx, near);
    double width = high - low;
    for (int steps = 0; fabs(s.fx) > close; steps++) {
        const double x = next_point(&s, steps >= 3);
        if (x <= s.low || (s.bounded && x >= s.high)) {
            break;
        }
        look_at(&s, f, ctx, x);
        if (s.high - s.low <= width / 2) {
            width = s.high - s.low;
            steps = -1;
        }
    }
    return s.x;
}

/* --- one film over all faces -------------------------------------------------------------------------------------- */

enum { STANDING, TOP, BOTTOM, KINDS };
enum { CALM, WINDY, WINDS };

typedef struct film {
    double m2[KINDS][WINDS];
    double all_m2;
    double height_m;    /* of the standing faces */
    double per_height;  /* 1 / height_m */
    double per_plate;   /* 1 / (area over perimeter of the top) */
    double plate_cubed; /* (that length / height)^3, by which Rayleigh numbers differ */
    double wind_w_m2k;  /* what the wind gives at least */
    double emissivity;  /* times the share of what the wall sees */
    double base_c;      /* the side whose temperature is known */
    double sign;        /* of the heat, outwards 1; the other side is base + sign x difference */
    double heat_w;      /* to be carried, by size */
    double w_m2k;       /* what it was found to be last, for a first guess */
} film;

/* Heat per kelvin at this difference, by size, between the two sides. */
static double film_w_k(const film *const f, const double difference_k)
{
    const double other_c = f->base_c + f->sign * difference_k;
    const ds_film_air air = ds_film_air_at((f->base_c + other_c) / 2);
    const double rayleigh = ds_film_rayleigh(&air, difference_k, f->height_m);
    const double free = ds_film_nusselt_free(rayleigh * f->plate_cubed) * f->per_plate;
    const double held = ds_film_nusselt_held(rayleigh * f->plate_cubed) * f->per_plate;
    const double per_m[KINDS] = {[STANDING] = ds_film_nusselt_vertical(rayleigh) * f->per_height,
                                 [TOP] = f->sign > 0 ? free : held,
                                 [BOTTOM] = f->sign > 0 ? held : free};
    double sum_w_k = f->all_m2 * ds_film_radiation_w_m2k(f->emissivity, f->base_c, other_c);
    for (int kind = 0; kind < KINDS; kind++) {
        const double calm = per_m[kind] * air.conductivity_w_mk;
        sum_w_k += f->m2[kind][CALM] * calm + f->m2[kind][WINDY] * fmax(calm, f->wind_w_m2k);
    }
    return sum_w_k;
}

static double surplus_w(void *const ctx, const double difference_k)
{
    const film *const f = ctx;
    return difference_k * film_w_k(f, difference_k) - f->heat_w;
}

#define USUAL_W_M2K 8.0 /* for first guesses */

/* What the other side may differ by within the temperatures that the laws know. */
static double most_k(const film *const f)
{
    return fmax(f->sign > 0 ? HIGHEST_C - f->base_c : f->base_c - LOWEST_C, 0);
}

/* The difference that carries the heat, or the most there can be. */
static double film_difference_k(film *const f)
{
    const double most = most_k(f);
    if (!(f->heat_w > 0 && most > 0)) {
        return 0;
    }
    const double near = fmin(f->heat_w / (f->w_m2k * f->all_m2), most / 2);
    const double found = root_of(surplus_w, f, 0, -f->heat_w, most, near, CLOSE * f->heat_w);
    f->w_m2k = f->heat_w / (found * f->all_m2);
    return found;
}

/* --- the box ------------------------------------------------------------------------------------------------------ */

static double metres(const double mm)
{
    return mm / 1000;
}

/* As the factors of the effective area have it, an exposed face whole. */
double ds_heat_share(const ds_heat_case *const c, const ds_heat_face face)
{
    if (c->faces[face] == DS_HEAT_ON_FLOOR) {
        return 0;
    }
    if (c->faces[face] == DS_HEAT_EXPOSED) {
        return 1;
    }
    return face == DS_HEAT_TOP ? 0.7 / 1.4 : 0.5 / 0.9;
}

static void add_faces(film *const f, const ds_heat_case *const c)
{
    static const int KIND[DS_HEAT_FACES] = {[DS_HEAT_TOP] = TOP, [DS_HEAT_BOTTOM] = BOTTOM};
    for (ds_heat_face face = DS_HEAT_TOP; face < DS_HEAT_FACES; face++) {
        const int wind = c->faces[face] == DS_HEAT_EXPOSED ? WINDY : CALM;
        const double m2 = ds_heat_share(c, face) * ds_heat_face_m2(c, face);
        f->m2[KIND[face]][wind] += m2;
        f->all_m2 += m2;
    }
}

static film film_of(const ds_heat_case *const c, const double emissivity)
{
    const double width = metres(c->width_mm);
    const double depth = metres(c->depth_mm);
    const double height = metres(c->height_mm);
    const double plate = width * depth / (2 * (width + depth));
    film f = {.height_m = height,
              .per_height = 1 / height,
              .per_plate = 1 / plate,
              .plate_cubed = plate * plate * plate / (height * height * height),
              .emissivity = emissivity,
              .sign = 1,
              .w_m2k = USUAL_W_M2K};
    add_faces(&f, c);
    return f;
}

double ds_heat_outside_m2(const ds_heat_case *const c)
{
    return film_of(c, 0).all_m2;
}

double ds_heat_wind_w_m2k(const ds_heat_case *const c)
{
    const double longest = metres(fmax(fmax(c->width_mm, c->depth_mm), c->height_mm));
    return c->wind_m_s > 0 ? ds_film_wind_w_m2k(c->wind_m_s, c->air_c, c->air_c, longest) : 0;
}

double ds_heat_fan_w_k(const ds_heat_case *const c)
{
    const double air_j_m3k = 101325 / (287.05 * (c->air_c + KELVIN)) * 1006;
    return c->fan_m3_h > 0 ? air_j_m3k * c->fan_m3_h * c->fan_factor / 3600 : 0;
}

/* --- the balance -------------------------------------------------------------------------------------------------- */

typedef struct box {
    film outer, inner;
    double wall_k_w;
    double air_c;
    double sun_w;
    double made_w;
    double fan_w_k;
} box;

/* All that follows from the skin's rise. */
static void from_skin(ds_heat_physics *const out, box *const b, const double skin_k)
{
    film *const inner = &b->inner;
    out->skin_k = skin_k;
    out->outer_w_k = film_w_k(&b->outer, skin_k);
    out->through_w = out->outer_w_k * skin_k - b->sun_w;
    out->wall_k = out->through_w * b->wall_k_w;
    inner->base_c = fmin(b->air_c + skin_k + out->wall_k, HIGHEST_C);
    inner->sign = out->through_w < 0 ? -1 : 1;
    inner->heat_w = fabs(out->through_w);
    const double difference_k = film_difference_k(inner);
    out->inner_w_k = film_w_k(inner, difference_k);
    out->film_k = inner->sign * difference_k;
    out->inside_k = skin_k + out->wall_k + out->film_k;
    out->fan_w = b->fan_w_k * out->inside_k;
}

/* Rises with the skin's temperature: heat taken by wall and fan less heat made. */
static double taken_w(void *const ctx, const double skin_k)
{
    box *const b = ctx;
    if (!(b->fan_w_k > 0)) {
        return skin_k * film_w_k(&b->outer, skin_k) - b->sun_w - b->made_w;
    }
    ds_heat_physics out;
    from_skin(&out, b, skin_k);
    return out.through_w + out.fan_w - b->made_w;
}

/* About what a fan leaves to the wall, for a first guess. */
static double guess_k(const box *const b)
{
    const double wall_w_k = USUAL_W_M2K / 2 * b->outer.all_m2;
    const double through_w = b->made_w * wall_w_k / (wall_w_k + b->fan_w_k);
    return (through_w + b->sun_w) / (USUAL_W_M2K * b->outer.all_m2);
}

static void close_balance(ds_heat_physics *const out, const box *const b)
{
    const double all_w = b->made_w + b->sun_w;
    const double whole = all_w - out->outer_w_k * out->skin_k - out->fan_w;
    const double inside = b->made_w - out->inner_w_k * out->film_k - out->fan_w;
    const double worse = fabs(whole) > fabs(inside) ? whole : inside;
    out->balance = all_w > 0 ? worse / all_w : 0;
}

static void solve(ds_heat_physics *const out, box *const b)
{
    const double all_w = b->made_w + b->sun_w;
    const double most = most_k(&b->outer);
    const double near = fmin(guess_k(b), most / 2);
    const double skin_k = all_w > 0 ? root_of(taken_w, b, 0, -all_w, most, near, CLOSE * all_w) : 0;
    from_skin(out, b, skin_k);
    close_balance(out, b);
    if (fabs(out->balance) > BEYOND) {
        out->beyond = true;
        out->balance = NAN;
    }
}

void ds_heat_physics_solve(ds_heat_physics *const out, const ds_heat_case *const c,
                           const ds_heat_skin *const skin)
{
    box b = {.outer = film_of(c, skin->emissivity_out),
             .inner = film_of(c, skin->emissivity_in * INSIDE_RADIATION),
             .air_c = c->air_c,
             .sun_w = skin->absorptance > 0 ? skin->absorptance * ds_heat_sun_w(c) : 0,
             .made_w = c->watts,
             .fan_w_k = ds_heat_fan_w_k(c)};
    b.outer.base_c = c->air_c;
    b.outer.wind_w_m2k = ds_heat_wind_w_m2k(c);
    b.wall_k_w = skin->wall_m2k_w / b.outer.all_m2;
    *out = (ds_heat_physics){.sun_w = b.sun_w};
    solve(out, &b);
}
