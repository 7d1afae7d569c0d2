/* SPDX-License-Identifier: MIT */
/*
 * How warm it becomes inside a closed box in a steady state: three methods side by side, what they say of a limit, and
 * the calculation step by step.
 *
 *     ds_heat_case c = DS_HEAT_CASE_NOTHING;
 *     c.width_mm = 400; c.height_mm = 600; c.depth_mm = 200;
 *     ds_heat_mount(&c, true, 0);
 *     c.surface = ds_surface_of(DS_STR("painted-steel"));
 *     c.watts = 60; c.air_c = 35; c.sun_flat_w_m2 = c.sun_wall_w_m2 = 0;
 *     ds_heat_answer a;
 *     ds_heat_solve(&a, &c);                     a.spread_k: 16.4 to 25.0 K above the air
 *     ds_heat_judge(&a, 55, NULL);               DS_UNKNOWN: 51 to 60 C against 55
 *     ds_heat_trail(&trail, &c, &a);             every step with its numbers
 *
 * The methods:
 * - trade: dT = P / (k A), A the effective area, k by surface. One figure, the mean of the inside. May decide, where k is
 *   published and credible.
 * - curve: dT = k(A) d P^0.804 at half height and c times that at the top, as in IEC TR 60890. All of it from memory: it
 *   never decides alone, but a limit that it denies is not passed.
 * - physics: the heat goes through a film of air and radiation inside, the wall, and a film of air and radiation
 *   outside. Once with what the surface does best (highest emissivity, lowest absorptance) and once with its worst, so
 *   two figures. May decide.
 * Sunshine is added to trade and curve as the rise of the skin that it causes alone. The top of the box is c times half
 * height for all three (memory), on the box's own heat.
 *
 * The effective area weighs the faces: top 1.4, sides, front and rear 0.9, covered top 0.7, other covered faces 0.5,
 * bottom 0 (published formulas of VDE 0660; the place of these factors in IEC TR 60890 is memory). Physics takes the
 * faces as they are, covered ones by the same ratio (top 1/2, others 5/9), the bottom unless it stands on the floor.
 *
 * Validity: heat spread about evenly, air free to circulate, sea-level air. The methods differ by about 30 % between
 * them; films alone are good to about 15 %.
 */
#ifndef DS_BOX_HEAT_H
#define DS_BOX_HEAT_H

#include "core/base/lack.h"
#include "core/box/film.h"
#include "core/box/trail.h"
#include "core/mark/mark.h"

#include <math.h>

/* --- the box ------------------------------------------------------------------------------------------------------ */

/* As mounted: height is what stands upright. */
typedef enum ds_heat_face {
    DS_HEAT_TOP,
    DS_HEAT_BOTTOM,
    DS_HEAT_FRONT,
    DS_HEAT_REAR,
    DS_HEAT_LEFT,
    DS_HEAT_RIGHT,
    DS_HEAT_FACES
} ds_heat_face;

typedef enum ds_heat_setting {
    DS_HEAT_NOT_SAID,
    DS_HEAT_EXPOSED,
    DS_HEAT_COVERED,  /* by a neighbour */
    DS_HEAT_ON_WALL,  /* counts as covered */
    DS_HEAT_ON_FLOOR, /* gives off nothing */
    DS_HEAT_SETTINGS
} ds_heat_setting;

typedef enum ds_heat_openings { DS_HEAT_OPENINGS_NOT_SAID, DS_HEAT_CLOSED, DS_HEAT_OPEN } ds_heat_openings;

/* Where the part stands whose limit is asked about. */
typedef enum ds_heat_height { DS_HEAT_ANYWHERE, DS_HEAT_HALF_WAY, DS_HEAT_AT_TOP } ds_heat_height;

/* NAN, NULL and 0 of an enum: not given. */
typedef struct ds_heat_case {
    double width_mm, height_mm, depth_mm; /* 10 mm to 10 m */
    ds_heat_setting faces[DS_HEAT_FACES];
    const ds_surface *surface;
    const ds_colour *colour; /* asked for where the sun shines on a surface that does not settle it */
    double wall_mm;          /* not given: as usual for the surface; to 100 mm */
    double watts;            /* 0 to 100 kW */
    double air_c;            /* -60 to 80 C */
    /* Sun: either each face that is exposed, or what falls on the flat and on a wall facing the sun, whose bearing is
       then taken at its worst. Indoors both are 0. At most 1500 W/m2. */
    double sun_w_m2[DS_HEAT_FACES];
    double sun_flat_w_m2, sun_wall_w_m2;
    double top_tilt_deg; /* of the top towards the sun, 0 to 90; not given: flat */
    double wind_m_s;     /* on exposed faces; not given: calm; to 60 m/s */
    double fan_m3_h;     /* not given or 0: no fan */
    double fan_factor;   /* what the filters leave of the fan's free flow, above 0 to 1 */
    double partitions;   /* level ones inside, 0 to 3; not given: none at best, three at worst */
    ds_heat_openings openings;
    ds_heat_height height;
} ds_heat_case;

#define DS_HEAT_CASE_NOTHING                                                                                 \
    ((ds_heat_case){.width_mm = NAN,                                                                         \
                    .height_mm = NAN,                                                                        \
                    .depth_mm = NAN,                                                                         \
                    .wall_mm = NAN,                                                                          \
                    .watts = NAN,                                                                            \
                    .air_c = NAN,                                                                            \
                    .sun_w_m2 = {NAN, NAN, NAN, NAN, NAN, NAN},                                              \
                    .sun_flat_w_m2 = NAN,                                                                    \
                    .sun_wall_w_m2 = NAN,                                                                    \
                    .top_tilt_deg = NAN,                                                                     \
                    .wind_m_s = NAN,                                                                         \
                    .fan_m3_h = NAN,                                                                         \
                    .fan_factor = NAN,                                                                       \
                    .partitions = NAN})

/* Sets the faces: free or with the rear on a wall, with none, one (end of a row) or two neighbours (middle of it). */
void ds_heat_mount(ds_heat_case *c, bool on_wall, int neighbours);

/* --- the answer --------------------------------------------------------------------------------------------------- */

/* What a case lacks or has wrong, as bits 1 << field. */
typedef enum ds_heat_field {
    DS_HEAT_F_SIZE,
    DS_HEAT_F_FACES,
    DS_HEAT_F_SURFACE,
    DS_HEAT_F_COLOUR,
    DS_HEAT_F_WALL,
    DS_HEAT_F_WATTS,
    DS_HEAT_F_AIR,
    DS_HEAT_F_SUN,
    DS_HEAT_F_TILT,
    DS_HEAT_F_WIND,
    DS_HEAT_F_FAN,
    DS_HEAT_F_PARTITIONS,
    DS_HEAT_FIELDS
} ds_heat_field;

/* "its size", and the key of the job that states it: "box.size_mm". */
ds_lack ds_heat_field_lack(ds_heat_field field);

typedef enum ds_heat_method { DS_HEAT_TRADE, DS_HEAT_CURVE, DS_HEAT_PHYSICS, DS_HEAT_METHODS } ds_heat_method;

/* Why a method has no figure. */
typedef enum ds_heat_gap {
    DS_HEAT_GIVEN,
    DS_HEAT_NO_K,       /* no trade k for this surface */
    DS_HEAT_WITH_FAN,   /* the curve knows natural convection only */
    DS_HEAT_WITH_HOLES, /* the curve for boxes with openings is not at hand */
    DS_HEAT_OFF_CURVE   /* effective area outside 0.08 to 10 m2 */
} ds_heat_gap;

/* Rises above the air, sun included, lowest and highest figure of the method; NAN when not given. */
typedef struct ds_heat_result {
    ds_heat_gap gap;
    bool decides;
    ds_span mid_k;
    ds_span top_k;
} ds_heat_result;

/* The physics once: a skin of known properties. Rises in kelvin, heat in watts. */
typedef struct ds_heat_skin {
    double emissivity_out, emissivity_in;
    double absorptance;
    double wall_m2k_w; /* thickness over conductivity */
} ds_heat_skin;

typedef struct ds_heat_physics {
    double sun_w;     /* absorbed */
    double through_w; /* through the wall: what the box makes less what the fan carries off */
    double fan_w;
    double skin_k;    /* skin above the air */
    double wall_k;    /* across the wall */
    double film_k;    /* inside air above the inner face */
    double inside_k;  /* inside air above the air: the sum of the three */
    double outer_w_k; /* heat per kelvin of the outer film, all faces together */
    double inner_w_k;
    double balance; /* heat in less heat out, over heat in; 0 without any heat */
    bool beyond;    /* a film would have to pass 400 C: the figures say "at least" */
} ds_heat_physics;

typedef struct ds_heat_answer {
    uint32_t missing, bad; /* bits of ds_heat_field; both 0 or no figure is given (all NAN) */
    double effective_m2;   /* A of trade and curve */
    double outside_m2;     /* area of physics, covered faces weighed */
    ds_span sun_w;         /* absorbed */
    ds_span sun_k;         /* rise of the skin by sunshine alone */
    ds_span top_factor;    /* c */
    ds_heat_skin best_skin, worst_skin;
    ds_heat_physics best, worst;
    ds_heat_result by[DS_HEAT_METHODS];
    ds_span spread_k; /* over the methods that decide: lowest at half height, highest at the top */
    double air_c;
    bool closed;           /* it is known that nothing but the faces lets heat out */
    ds_heat_height height; /* of the part asked about */
} ds_heat_answer;

void ds_heat_solve(ds_heat_answer *out, const ds_heat_case *c);

/* Missing and wrong fields alone. */
void ds_heat_check(ds_heat_answer *out, const ds_heat_case *c);

/* Parts that stand alone, for a case without missing or wrong fields: a face, and its factor b in the effective area. */
double ds_heat_face_m2(const ds_heat_case *c, ds_heat_face face);
double ds_heat_factor(const ds_heat_case *c, ds_heat_face face);
double ds_heat_effective_m2(const ds_heat_case *c);

/* The share of a face that gives off heat in the physics, and the area of all of them together. */
double ds_heat_share(const ds_heat_case *c, ds_heat_face face);
double ds_heat_outside_m2(const ds_heat_case *c);

/* The film that wind gives at least to exposed faces: along the longest edge, where it takes away least; 0 in a calm. */
double ds_heat_wind_w_m2k(const ds_heat_case *c);

/*
 * Sunshine on all exposed faces together, W, before the absorptance; whether it is given face by face; and the area of a
 * face where it can be lit, 0 of a covered one.
 */
double ds_heat_sun_w(const ds_heat_case *c);
bool ds_heat_sun_by_face(const ds_heat_case *c);
double ds_heat_lit_m2(const ds_heat_case *c, ds_heat_face face);

/* Of the walls in the bearing that lights most: onto an edge, the two faces beside it add as sides of a triangle. */
double ds_heat_worst_walls_m2(const ds_heat_case *c);

/* Heat that the fan carries off per kelvin: its air at the density of the outside air, after the filters; 0 without. */
double ds_heat_fan_w_k(const ds_heat_case *c);
void ds_heat_physics_solve(ds_heat_physics *out, const ds_heat_case *c, const ds_heat_skin *skin);

/* k of the curve by effective area (NAN outside 0.08 to 10 m2), c and d; all from memory: IEC TR 60890. */
double ds_heat_curve_k(double effective_m2);
ds_span ds_heat_top_factor(const ds_heat_case *c, double effective_m2);
ds_span ds_heat_partition_factor(const ds_heat_case *c, double effective_m2);

/* --- against a limit ---------------------------------------------------------------------------------------------- */

typedef enum ds_heat_why {
    DS_HEAT_ALL_BELOW,
    DS_HEAT_ALL_ABOVE,
    DS_HEAT_NOT_DESCRIBED, /* fields are missing or wrong, or no limit */
    DS_HEAT_NONE_DECIDES,
    DS_HEAT_DISAGREE,        /* the limit lies within the spread */
    DS_HEAT_CURVE_DISAGREES, /* only the method from memory says otherwise */
    DS_HEAT_NOT_CLOSED,      /* as a closed box too warm; what openings carry off is not known */
    DS_HEAT_DAY_OPEN /* a day is stated that cannot be told; said by climate.h, never by ds_heat_judge */
} ds_heat_why;

/*
 * DS_FITS when every figure at the part's height, the highest at the top when its height is not given, stays at or below
 * the limit; DS_SHORT when every figure lies above it, those at half height unless the part is at the top; otherwise
 * DS_UNKNOWN. Figures are rounded to 1e-6 K before they are compared, upwards.
 */
ds_verdict ds_heat_judge(const ds_heat_answer *answer, double limit_c, ds_heat_why *why);

/*
 * What is left of a rating at a temperature: sqrt((hottest - T) / (hottest - reference)), more than 1 below the
 * reference, 0 from the hottest on, NAN for what is not finite.
 *
 *     PVC cable 70 C, reference 30 C; XLPE 90 C, reference 30 C     memory: BS 7671 Table 4B1, IEC 60364-5-52
 *     breaker 110 C, reference 30 C (40 C for industrial ones)      common practice; the maker's own table comes first
 */
double ds_heat_derating(double hottest_c, double reference_c, double temp_c);

#define DS_HEAT_PVC_C 70.0
#define DS_HEAT_XLPE_C 90.0
#define DS_HEAT_BREAKER_C 110.0
#define DS_HEAT_REFERENCE_C 30.0

/*
 * Small boards (CEI 23-51): 1.2 x devices + others must stay within what the box gives off; loss goes with current
 * squared.
 */
double ds_heat_board_w(double devices_w, double others_w);
double ds_heat_loss_w(double pieces, double full_load_w, double load_share);

/* What parts bear, when the maker says nothing else: the lower figure is the one to design for. */
typedef struct ds_heat_limit {
    const char *part;
    bool is_rise; /* kelvin above the air outside, else degrees Celsius around the part */
    ds_span limit;
    ds_source_kind kind;
    const char *ref;
} ds_heat_limit;

const ds_heat_limit *ds_heat_limit_of(ds_str part); /* NULL when the name is not known */
const ds_heat_limit *ds_heat_limits(size_t *len);

/* --- the calculation ---------------------------------------------------------------------------------------------- */

/* All steps of an answer, with the least favourable skin in full; a limit (NAN: none) is compared at the end. */
void ds_heat_trail(ds_trail *trail, const ds_heat_case *c, const ds_heat_answer *answer, double limit_c);

#endif
