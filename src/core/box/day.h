/* SPDX-License-Identifier: MIT */
/*
 * A box through a day or a year, hour by hour: how warm it becomes inside, whether it sweats, and when.
 *
 *     ds_day_box box = DS_DAY_BOX_NOTHING;
 *     box.up = (ds_day_area){0.08, 0};          … every field named below as needed
 *     const ds_day_ask ask = {.limit_c = 55, .settle_days = 3};
 *     ds_day_answer answer;
 *     const ds_day_fault fault = ds_day_run(&answer, &box, hours, 24, &ask);
 *     if (fault.field != DS_DAY_OK) … ds_day_field_name(fault.field), fault.hour …
 *     answer.highest_c in hour answer.highest_hour; answer.wet_hours, answer.most_g
 *
 * The model has two nodes. The skin takes the sun, gives heat to the air and to a clear sky, and exchanges heat with the
 * inside, which is the air of the box together with what stands in it:
 *
 *     skin   dTs/dt = sun - sky - outer film (Ts - Ta) + inner film (Ti - Ts)      films of film.h, wall in series
 *     inside dTi/dt = watts + heater - inner film (Ti - Ts) - vent (Ti - Ta)
 *     vapour, in the air of the box: what comes and goes, never more than the coldest surface allows
 *
 * The weather is given at the hours and goes over evenly from one to the next; the last goes over into the first, so a
 * day or a year is a circle. Watts change at the hour.
 *
 * The coldest surface inside is the face of the skin that receives least (the top under a clear sky), or the things
 * inside when they are colder than every wall. Faces of a skin do not share their heat (careful: metal evens out).
 * What does not stay in the air is water on that surface, or frost; it goes back as soon as the air takes it (both
 * settle within minutes). Its latent heat is left out: below a watt for a box without a fan.
 *
 * A clear sky: Swinbank's formula overstates what small boxes are seen to do, so the loss to the sky is never more than
 * what holds a face without heat 5 K below the air on top and 3 K at the sides (the upper ends of field reports).
 *
 * Not in the model: changes of air pressure, rain on the skin, liquid water sucked in through a wet seal.
 *
 * Accuracy, measured on 240 random boxes and days against GSL's integrator of order 8 (tests/unit/box_day_ref.c runs the
 * first 30): the inside within 7e-5 of its span at every hour, its dew point within 0.01 K, highest and lowest within
 * 0.05 K, heat to 1e-4. The most water is that at the end of a step; it misses the most of the reference, which looks
 * every minute, by up to 0.5 % of the water in the box. Films themselves are known to about 15 %.
 */
#ifndef DS_BOX_DAY_H
#define DS_BOX_DAY_H

#include "core/box/heat.h"

/* --- the weather -------------------------------------------------------------------------------------------------- */

/* At the beginning of an hour. */
typedef struct ds_weather_hour {
    double air_c;         /* -40 to 60 C */
    double humidity;      /* 0 to 1, over water also in frost, as weather stations give it */
    double sun_flat_w_m2; /* on the flat, 0 to 1500 W/m2 */
    double sun_wall_w_m2; /* on the wall that it reaches, 0 to 1500 W/m2 */
    double wind_m_s;      /* at the box, 0 to 60 m/s */
    double clear;         /* share of the sky that is clear, 0 to 1 */
} ds_weather_hour;

/* --- the box ------------------------------------------------------------------------------------------------------ */

/* Of one kind of face: what the wind reaches, and what stands in still air (a rear near a wall, by its share). */
typedef struct ds_day_area {
    double open_m2;
    double covered_m2;
} ds_day_area;

typedef enum ds_day_seal {
    DS_DAY_SEALED,   /* nothing passes; the vapour of closing_c and closing_humidity stays */
    DS_DAY_BREATHES, /* air is drawn in on cooling and pressed out on warming */
    DS_DAY_VENTED,   /* the same, and air_m3_h passes through all the time */
    DS_DAY_SEALS
} ds_day_seal;

/* A switched heater is taken by its mean: its share of time rises evenly from 0 to 1 across the band. */
typedef enum ds_day_control {
    DS_DAY_NO_HEATER,
    DS_DAY_THERMOSTAT, /* on below set, degrees Celsius inside */
    DS_DAY_HYGROSTAT,  /* on above set, humidity inside, 0 to 1 */
    DS_DAY_CONTROLS
} ds_day_control;

typedef struct ds_day_heater {
    ds_day_control control;
    double watts; /* 0 to 100 kW */
    double set;   /* the middle of the band */
    double band;  /* from off to on: above 0 */
} ds_day_heater;

typedef struct ds_day_box {
    /* outside */
    ds_day_area up, side, down; /* one above 0; each to 1000 m2 */
    double height_m;            /* of the sides, 0.01 to 10 m */
    double plate_m;             /* area over perimeter of the top, 0.0025 to 10 m */
    double longest_m;           /* longest edge, for the wind, 0.01 to 10 m */
    double emissivity;          /* of the outside, 0 to 1 */
    double absorptance;         /* of sunshine, 0 to 1 */
    double lit_m2;              /* of the sides: what the sun reaches */
    double sky_up,
        sky_side; /* share of what a face sees that is sky: 1 and 0.5 in the open, 0 under a roof */
    /* wall and inside */
    double wall_m2k_w;       /* thickness over conductivity, 0 to 10 */
    double inner_emissivity; /* between the gear and the wall, 0 to 1: 0.45 is usual (half strength) */
    double skin_j_k;         /* heat capacity of the skin, 1 to 1e9 J/K */
    double inside_j_k;       /* of the air and what stands in it, 1 to 1e9 J/K */
    double volume_m3;        /* of the free air, 1e-6 to 1000 m3 */
    double watts;            /* of what stands in it, 0 to 100 kW */
    const double *duty; /* share of the watts, 24 values by hour of day, 0 to 1; NULL: all of them always */
    double outer_w_k; /* measured heat per kelvin in place of the outer films, the inner; 0: from the films */
    double inner_w_k;
    /* moisture */
    ds_day_seal seal;
    double air_m3_h; /* through a vented box, 0 to 1e5 */
    double
        vapour_m3_h;  /* that vapour alone takes through a breather, 0 to 1e5; ds_air_hole_m3_h; not sealed */
    double closing_c; /* sealed: when the lid was closed, -40 to 80 C */
    double closing_humidity; /* 0 to 1 */
    bool drains;             /* more water than clings runs off */
    double clings_g;         /* drains: water that stays on the walls, 0 to 1e6 g */
    ds_day_heater heater;
} ds_day_box;

#define DS_DAY_BOX_NOTHING ((ds_day_box){.closing_c = 20, .closing_humidity = 0.5})

/*
 * The outside, wall and watts of a box as the steady calculation has it, in the open: sides lit on half of the exposed
 * ones, the sky seen by the top wholly and by the sides half. The rest is left as it is. With constant weather such a box
 * comes to the temperature of ds_heat_physics_solve. c must have no missing or wrong field.
 */
void ds_day_box_from(ds_day_box *box, const ds_heat_case *c, const ds_heat_skin *skin);

/* --- asking ------------------------------------------------------------------------------------------------------- */

/* At the beginning of an hour. */
typedef struct ds_day_point {
    double inside_c;
    double wall_c; /* the coldest surface inside */
    double dew_c;  /* of the air inside; NAN when it holds next to no vapour */
} ds_day_point;

/* For a year, whose span is wider, 0.03 K keeps the inside within 1e-4 of it at every hour. */
typedef struct ds_day_ask {
    double limit_c;       /* inside; NAN: none */
    unsigned settle_days; /* the first 24 hours are run so often beforehand, 0 to 1000 */
    ds_day_point *curve;  /* room for one point an hour, filled in; NULL: not wanted */
    double
        tolerance_k; /* allowed for a step, to 1 K; 0: 0.003, which keeps the promise of accuracy for a day */
} ds_day_ask;

/* Joules over the run. Balance: watts + heater + sun - sky - air - vent = stored. */
typedef struct ds_day_heat {
    double watts_j, heater_j, sun_j;
    double sky_j, air_j, vent_j;
    double stored_j;
} ds_day_heat;

typedef struct ds_day_answer {
    double highest_c, lowest_c; /* inside */
    size_t highest_hour, lowest_hour;
    double limit_hours; /* above the limit; NAN without one */
    double wet_hours;   /* with water or frost on the coldest surface */
    double most_g;      /* water there at its most, as the ends of steps show it; the run begins dry */
    size_t most_hour;
    double drained_g;
    double margin_k; /* coldest surface over dew point at the least; 0 once it is wet; NAN without vapour */
    size_t margin_hour;
    ds_day_heat heat;
    size_t steps; /* that were taken: four to sixteen an hour */
} ds_day_answer;

/* X(field, name): the first thing found wrong; hours have their number beside. */
#define DS_DAY_FIELDS(X)                                                                                     \
    X(OK, "")                                                                                                \
    X(HOURS, "hours")                                                                                        \
    X(AIR, "air_c")                                                                                          \
    X(HUMIDITY, "humidity")                                                                                  \
    X(SUN, "sun")                                                                                            \
    X(WIND, "wind_m_s")                                                                                      \
    X(CLEAR, "clear")                                                                                        \
    X(AREA, "area")                                                                                          \
    X(LENGTH, "length")                                                                                      \
    X(SURFACE, "surface")                                                                                    \
    X(LIT, "lit_m2")                                                                                         \
    X(SKY, "sky")                                                                                            \
    X(WALL, "wall_m2k_w")                                                                                    \
    X(MASS, "heat_capacity")                                                                                 \
    X(VOLUME, "volume_m3")                                                                                   \
    X(WATTS, "watts")                                                                                        \
    X(DUTY, "duty")                                                                                          \
    X(CONDUCTANCE, "conductance")                                                                            \
    X(SEAL, "seal")                                                                                          \
    X(CLOSING, "closing")                                                                                    \
    X(DRAIN, "drain")                                                                                        \
    X(HEATER, "heater")                                                                                      \
    X(LIMIT, "limit_c")                                                                                      \
    X(SETTLE, "settle_days")                                                                                 \
    X(TOLERANCE, "tolerance_k")                                                                              \
    X(RESULT, "beyond -90 to 190 C")

typedef enum ds_day_field {
#define X(field, name) DS_DAY_##field,
    DS_DAY_FIELDS(X)
#undef X
} ds_day_field;

typedef struct ds_day_fault {
    ds_day_field field;
    size_t hour;
} ds_day_fault;

const char *ds_day_field_name(ds_day_field field);

/*
 * Runs the hours once, after settling. DS_DAY_OK, or what is wrong: then every figure of the answer is NAN or 0 and the
 * curve is not to be used. DS_DAY_RESULT: the box would leave -90 to 190 C. Needs no memory but 20 kB of stack.
 */
ds_day_fault ds_day_run(ds_day_answer *out, const ds_day_box *box, const ds_weather_hour *hours, size_t count,
                        const ds_day_ask *ask);

/*
 * The same for many boxes through the same hours, eight side by side: many times as fast as one after the other. An
 * answer and a fault for each; the curve, if wanted, has room for all, box after box. Boxes with the same kind of heater
 * share their steps, so an answer may differ, within the promised accuracy, by what stands beside the box.
 */
void ds_day_run_each(ds_day_answer *answers, ds_day_fault *faults, const ds_day_box *boxes, size_t boxes_len,
                     const ds_weather_hour *hours, size_t count, const ds_day_ask *ask);

#endif
