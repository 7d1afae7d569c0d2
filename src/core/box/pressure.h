/* SPDX-License-Identifier: MIT */
/*
 * Pressure on a box: the suction of a warm box that is quenched, the vent that prevents it, depth of water, and what a
 * flood asks for.
 *
 *     ds_quench_drop_pa(50, 20, 0)        9407 Pa: a dry box from 50 to 20 C sucks as if 0.96 m under water
 *     ds_quench_drop_pa(50, 20, 0.6)      13.8 kPa with air of 60 %: the vapour condenses too
 *     ds_water_head_m(9407, 1000)         0.96 m, beside the 1 m of the immersion test (numeral 7)
 *
 * Celsius, pascal, metres, litres where the name says so. What is not finite, negative where that has no meaning, or
 * outside the ranges given is NAN.
 *
 * A rigid box is assumed that has breathed out while warm and whose leaks are all wet, and so shut, while it cools. Real
 * boxes flex and leak: figures of suction and of water drawn in are ceilings. Sources: ideal gas, hydrostatics and
 * orifice flow; the tests' 1 m, 0.15 m, 850 mm, 30 min, 5 K and 2 kPa from published explanations of IEC 60529 (numerals
 * 5 to 8); surface tension 0.0728 N/m; flow factor of a hole 0.6.
 */
#ifndef DS_BOX_PRESSURE_H
#define DS_BOX_PRESSURE_H

#include "core/base/lack.h"
#include "core/box/trail.h"

#include <math.h>

#define DS_PRESSURE_GRAVITY_M_S2 9.80665
#define DS_PRESSURE_FRESH_KG_M3 1000.0
#define DS_PRESSURE_SEA_KG_M3 1025.0
#define DS_PRESSURE_IMMERSION_M 1.0   /* numeral 7: lowest point of a box less than 850 mm tall */
#define DS_PRESSURE_DUST_TEST_PA 2000 /* numerals 5 and 6: the vacuum that the dust test draws at most */

/* --- quench ------------------------------------------------------------------------------------------------------- */

/*
 * Fall of the pressure inside from warm to cold, from 101 325 Pa; below 0 for a rise. humidity is that of the air inside
 * while warm, as a share, 0 for dry; vapour that the cold cannot hold condenses. -40 to 200 C.
 */
double ds_quench_drop_pa(double warm_c, double cold_c, double humidity);

/* How far a dry box must cool for this fall. */
double ds_quench_cooling_k(double warm_c, double drop_pa);

/* The most water that a box draws in through a wet leak, if all that makes up for the cooled air is water. */
double ds_quench_water_l(double volume_l, double warm_c, double cold_c);

/* Time in which a skin loses 63 % of its difference: m c / (h A). */
double ds_skin_time_s(double mass_kg, double heat_j_kgk, double film_w_m2k, double area_m2);

/* --- water -------------------------------------------------------------------------------------------------------- */

/* Pressure under water of this density, and the head that this pressure is. */
double ds_water_pressure_pa(double depth_m, double density_kg_m3);
double ds_water_head_m(double pressure_pa, double density_kg_m3);

/* Force on a flat lid, newton. */
double ds_pressure_force_n(double pressure_pa, double width_mm, double height_mm);

/* Water through a hole under a head, litres: 0.6 A sqrt(2 g h) t; until the box fills or its air holds back. */
double ds_water_leak_l(double hole_mm, double head_m, double seconds);

/* Share of an open-bottomed box's height that water rises to, its lowest edge at this depth. */
double ds_water_bell_share(double depth_m, double density_kg_m3);

/* What the film of water in a hole or gap holds back, 4 x 0.0728 / d, and the depth of water standing on it, mm. */
double ds_water_held_pa(double hole_mm);
double ds_water_held_mm(double hole_mm);

/* Stagnation pressure at the nozzle of a jet, 0.5 rho v^2. Numeral 5: 12.5 l/min through 6.3 mm; 6: 100 through 12.5. */
double ds_water_jet_pa(double flow_l_min, double nozzle_mm);

/* --- vent --------------------------------------------------------------------------------------------------------- */

/* Air that a vent must pass for a box to cool by this much in this time: V dT / (T t), l/min, T of the warm box. */
double ds_vent_l_min(double volume_l, double warm_c, double cooling_k, double seconds);

/* The bare hole that passes it at this difference, by 0.6 sqrt(2 dp / 1.2). A membrane passes far less per area. */
double ds_vent_hole_mm2(double flow_l_min, double allowed_pa);
double ds_vent_hole_mm(double flow_l_min, double allowed_pa);

/* Flow of a vent at another pressure than the maker's, in proportion. */
double ds_vent_flow_l_min(double maker_l_min, double maker_pa, double allowed_pa);

/* --- a quenched box as a whole ------------------------------------------------------------------------------------ */

/* NAN: not given. warm_c and cold_c must be; without a humidity the worst is taken, saturated air. */
typedef struct ds_quench_case {
    double warm_c, cold_c; /* inside, before and after; cold not above warm */
    double humidity;       /* of the air inside while warm, 0 to 1 */
    double volume_l;
    double lid_width_mm, lid_height_mm;
    double seconds;    /* in which the air inside cools */
    double allowed_pa; /* what the seals may see beside a vent */
    double vent_l_min; /* of a vent that is there, at maker_pa */
    double maker_pa;   /* not given: 7000 Pa, as makers quote (memory) */
} ds_quench_case;

#define DS_QUENCH_CASE_NOTHING ((ds_quench_case){NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN})

typedef enum ds_quench_field {
    DS_QUENCH_F_WARM,
    DS_QUENCH_F_COLD,
    DS_QUENCH_F_HUMIDITY,
    DS_QUENCH_F_VOLUME,
    DS_QUENCH_F_LID,
    DS_QUENCH_F_SECONDS,
    DS_QUENCH_F_ALLOWED,
    DS_QUENCH_F_VENT,
    DS_QUENCH_FIELDS
} ds_quench_field;

const char *ds_quench_field_name(ds_quench_field field);

typedef enum ds_vent_state {
    DS_VENT_NOT_KNOWN, /* volume, time, what is allowed or the vent is not given */
    DS_VENT_HOLDS,     /* its flow keeps the suction within what is allowed */
    DS_VENT_TOO_SMALL
} ds_vent_state;

/* Figures that lack their input are NAN. */
typedef struct ds_quench_answer {
    uint32_t missing, bad;     /* bits of ds_quench_field; any: no figure is given */
    double dry_pa, moist_pa;   /* moist: with the humidity given, else of saturated air */
    double dry_head_m, head_m; /* of dry_pa and moist_pa, fresh water */
    double of_immersion; /* head over the 1 m of the immersion test; 1 and more is worse than that test */
    double of_dust_test; /* moist_pa over 2 kPa */
    double lid_n;        /* moist_pa on the lid */
    double water_l;
    double needed_l_min;      /* of a vent */
    double hole_mm2, hole_mm; /* bare hole for that */
    double vent_l_min;        /* of the vent that is there, at what is allowed */
    ds_vent_state vent;
} ds_quench_answer;

void ds_quench_solve(ds_quench_answer *out, const ds_quench_case *c);
void ds_quench_trail(ds_trail *trail, const ds_quench_case *c, const ds_quench_answer *answer);

/* --- immersion and flood ------------------------------------------------------------------------------------------ */

/*
 * Depth of the lowest point in the test of numeral 7: 1 m for a box less than 850 mm tall, else its height and 150 mm
 * more. NAN for a height that is not above 0.
 */
double ds_immersion_test_m(double height_mm);

/*
 * Heights in metres above one level. NAN: not given. Level and lowest point must be; hours when the water reaches it; the
 * two temperatures where numeral 7 could answer.
 */
typedef struct ds_flood_case {
    double level_m;        /* of the water */
    double lowest_m;       /* lowest live or entry point of the box */
    double hours;          /* that it stands; INFINITY: always */
    double height_mm;      /* of the box; not given: less than 850 */
    double freeboard_m;    /* wanted between water and box; not given: 0.3 */
    double box_c, water_c; /* when the water comes */
    double highest_m;      /* to which rules or people let the point go; not given: no limit */
    double density_kg_m3;  /* not given: fresh water */
} ds_flood_case;

#define DS_FLOOD_CASE_NOTHING ((ds_flood_case){NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN, NAN})

typedef enum ds_flood_field {
    DS_FLOOD_F_LEVEL,
    DS_FLOOD_F_LOWEST,
    DS_FLOOD_F_HOURS,
    DS_FLOOD_F_HEIGHT,
    DS_FLOOD_F_FREEBOARD,
    DS_FLOOD_F_TEMPERATURES,
    DS_FLOOD_F_HIGHEST,
    DS_FLOOD_F_DENSITY,
    DS_FLOOD_FIELDS
} ds_flood_field;

ds_lack ds_flood_field_lack(ds_flood_field field);

/* What the point must bear. */
typedef enum ds_flood_need {
    DS_FLOOD_NOT_KNOWN, /* fields are missing or wrong */
    DS_FLOOD_SPLASH,    /* above the water: splash and rain decide, no immersion */
    DS_FLOOD_NUMERAL_7, /* 7 answers; so does 8 for the depth and time */
    DS_FLOOD_NUMERAL_8  /* only 8, for the depth and time stated */
} ds_flood_need;

/* Why not 7, as bits. */
enum {
    DS_FLOOD_TOO_DEEP = 1,
    DS_FLOOD_TOO_LONG = 2,
    DS_FLOOD_SUCTION = 4 /* the box is more than 5 K warmer than the water, and sucks */
};

typedef struct ds_flood_answer {
    uint32_t missing, bad; /* bits of ds_flood_field */
    ds_flood_need need;
    unsigned why_not_7;
    double clear_m; /* box above water; below 0: under it */
    double head_m;  /* on the lowest point; 0 when clear */
    double pressure_pa;
    double
        suction_m; /* of saturated air in a box more than 5 K warmer than the water; NAN: temperatures not given */
    double test_m;  /* depth in the test of numeral 7 */
    double depth_m; /* to state for numeral 8: head and suction; without temperatures the head alone */
    double hours;
    double clear_level_m; /* height that clears water and freeboard */
    bool freeboard_short; /* it is clear, and by less than the freeboard */
    bool height_conflict; /* clear_level_m lies above highest_m: to be reported, not decided here */
} ds_flood_answer;

/*
 * Under water numeral 7 answers only when the head stays within the test's depth, the time within 30 minutes and the box
 * is cool: not more than 5 K warmer than the water, or its suction counted as depth. Clear of the water splash decides,
 * and a freeboard that is not kept is a warning. Silt is left behind by floods and conducts: what was under water is
 * replaced, and ducts below the level carry water up into boxes above it. The logic is the project's own.
 */
void ds_flood_solve(ds_flood_answer *out, const ds_flood_case *c);
void ds_flood_trail(ds_trail *trail, const ds_flood_case *c, const ds_flood_answer *answer);

#endif
