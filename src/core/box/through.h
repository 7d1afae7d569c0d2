/* SPDX-License-Identifier: MIT */
/*
 * A box through the design day that its job states: how warm it becomes inside against the limit, whether it sweats, and
 * what would keep it dry.
 *
 *     ds_through day;
 *     ds_through_solve(&day, box, &heat_case, outdoors);
 *     if (day.solved) … day.peak_c, day.heat_verdict, day.cold.wet_hours, day.dry_verdict
 *
 * The day is run twice, since what is careful differs: for heat with the surface that takes most sun and gives off least
 * (warm), for sweating with the one that cools most under the sky (cold). Both repeat the day three times beforehand. How
 * clear the sky is, when it is not stated, is overcast for the one and clear for the other. The weight of what stands
 * inside, when it is not stated, is nothing for heat; for sweating nothing or much, whichever is worse.
 * What is missing leaves the day unsolved and its verdicts unknown, never good.
 *
 *   peak      the highest of `warm`, its rise over the air 15 % less or more, since films are known no better
 *   heat      all of the peak at or below the limit: fits; all above: short; else, or with watts missing, unknown
 *   sweating  judged when the box must keep dry: any water short, less than DS_THROUGH_MARGIN_K to the dew point unknown
 */
#ifndef DS_BOX_THROUGH_H
#define DS_BOX_THROUGH_H

#include "core/base/lack.h"
#include "core/box/day_design.h"
#include "core/box/heat.h"
#include "core/box/trail.h"
#include "core/job/box.h"

#define DS_THROUGH_MARGIN_K 1.0
#define DS_THROUGH_FILM_SHARE 0.15

enum { DS_THROUGH_SETTLE_DAYS = 3 }; /* the first day is repeated so often beforehand */

/* What the day lacks, as bits 1 << field. */
typedef enum ds_through_field {
    DS_THROUGH_LOW,
    DS_THROUGH_HIGH,
    DS_THROUGH_ORDER, /* the low is above the high */
    DS_THROUGH_HUMIDITY,
    DS_THROUGH_SUN_FLAT,
    DS_THROUGH_SUN_WALL,
    DS_THROUGH_SEAL,
    DS_THROUGH_CLOSING, /* sealed: how humid when the lid was closed */
    DS_THROUGH_HEATER,  /* its watts, or where it switches */
    DS_THROUGH_FIELDS
} ds_through_field;

/* "the lowest air temperature of the day", and the key of the job that states it: "box.day.low_c". */
ds_lack ds_through_field_lack(ds_through_field field);

/* What a box's skin and inside take up to warm by a kelvin, and how it was worked out. */
typedef struct ds_through_mass {
    double outside_m2, wall_mm, density_kg_m3, skin_j_kgk;
    double volume_m3, contents_kg; /* 0: only the air counts */
    bool wall_usual;               /* wall_mm is that of a usual wall of the surface */
} ds_through_mass;

typedef struct ds_through {
    bool told;                       /* a day is stated */
    uint32_t missing;                /* bits of ds_through_field */
    uint32_t heat_missing, heat_bad; /* bits of ds_heat_field: what the box lacks besides */
    ds_day_fault fault;
    bool solved;
    bool clear_told;
    ds_day_design design;
    ds_weather_hour hours[DS_DAY_DESIGN_HOURS];
    ds_heat_answer heat; /* areas and skins */
    ds_through_mass mass;
    ds_day_box warm_box, cold_box;
    ds_day_answer warm, cold;
    ds_day_point warm_curve[DS_DAY_DESIGN_HOURS], cold_curve[DS_DAY_DESIGN_HOURS];
    double peak_air_c; /* around it at the peak */
    ds_span peak_c;
    double limit_c;
    bool watts_told;
    ds_verdict heat_verdict; /* DS_FITS without a limit */
    bool dry_asked;
    ds_verdict dry_verdict; /* DS_FITS unless it is asked */
    /* Mends, worked out when it sweats or nearly; NAN where none was found. */
    double heater_w;    /* constant, beside the losses, that keeps it dry with the margin */
    bool heater_hot;    /* left on in the heat it would take the inside over its limit */
    double five_k_w;    /* k A 5 K, the usual heater */
    double trade_w_m2k; /* its k */
    double closing_pct; /* sealed: as dry as the lid must be closed */
} ds_through;

/* c: the box as the steady calculation has it, its sun, air and watts left out or not. */
void ds_through_solve(ds_through *out, const ds_box *box, const ds_heat_case *c, bool outdoors);

/* For solve, and to be tried alone: sets the mends. */
void ds_through_mend(ds_through *day);

/* The hours in which the coldest surface is wet: the first and the last of the longest run of them; false when none is. */
bool ds_through_wet(const ds_through *day, size_t *first, size_t *last);

/* Whole sentences: how warm over the day; whether it sweats; what would help. */
void ds_through_say_heat(ds_text *out, const ds_through *day);
void ds_through_say_sweat(ds_text *out, const ds_through *day);
void ds_through_say_mend(ds_text *out, const ds_through *day);

/* The same boxes through hours that were measured: a day, a year. */
typedef struct ds_through_over {
    ds_through day; /* the box, and what it lacks, as for the day that the hours span */
    size_t hours;
    ds_day_answer warm, cold;
    ds_day_fault fault;
    bool solved;
} ds_through_over;

void ds_through_over_solve(ds_through_over *out, const ds_box *box, const ds_heat_case *c, bool outdoors,
                           const ds_weather_hour *hours, size_t count);

/* Whole sentences: how warm, and how much of it wet. Hours are counted from 0. */
void ds_through_say_over(ds_text *out, const ds_through_over *over);

/* The steps, once it is solved. */
void ds_through_trail(ds_trail *trail, const ds_through *day);

#endif
