/* SPDX-License-Identifier: MIT */
/* Heat, quench and high water in words. */
#include "core/box/climate.h"

/* Up for what must be borne, down for what is at least reached; a last digit that machines differ in does not count. */
void ds_climate_heat_c(const ds_climate *const climate, double *const low_c, double *const high_c)
{
    const ds_heat_answer *const heat = &climate->heat;
    const bool solved = climate->heat_told && !heat->missing && !heat->bad;
    *low_c = solved ? floor((heat->air_c + heat->spread_k.low) * 10 + 1e-7) / 10 : NAN;
    *high_c = solved ? ceil((heat->air_c + heat->spread_k.high) * 10 - 1e-7) / 10 : NAN;
}

/* What a case lacks: "its losses, the sun on it". */
static void say_missing_heat(ds_text *const out, const uint32_t bits)
{
    size_t said = 0;
    for (int i = 0; i < DS_HEAT_FIELDS; i++) {
        if (bits >> i & 1) {
            ds_text_add(out, said++ ? ", " : "");
            ds_text_add(out, ds_heat_field_lack((ds_heat_field)i).words);
        }
    }
}

static void say_missing_flood(ds_text *const out, const uint32_t bits)
{
    size_t said = 0;
    for (int i = 0; i < DS_FLOOD_FIELDS; i++) {
        if (bits >> i & 1) {
            ds_text_add(out, said++ ? ", " : "");
            ds_text_add(out, ds_flood_field_lack((ds_flood_field)i).words);
        }
    }
}

/* Why nothing can be told; false when something can. */
static bool say_untold(ds_text *const out, const ds_climate *const climate)
{
    const ds_heat_answer *const heat = &climate->heat;
    const bool surface = climate->surface_unknown.len > 0;
    if (surface || climate->colour_unknown.len) {
        ds_text_add(out, surface ? "The heat inside cannot be told: the surface \""
                                 : "The heat inside cannot be told: the colour \"");
        ds_text_adds(out, surface ? climate->surface_unknown : climate->colour_unknown);
        ds_text_add(out, "\" is not known.");
    } else if (heat->missing || heat->bad) {
        ds_text_add(out, heat->missing ? "The heat inside cannot be told; not stated: "
                                       : "The heat inside cannot be told; out of range: ");
        say_missing_heat(out, heat->missing ? heat->missing : heat->bad);
        ds_text_char(out, '.');
    } else {
        return false;
    }
    return true;
}

static void say_doubt(ds_text *const out, const ds_heat_why why)
{
    if (why == DS_HEAT_DISAGREE) {
        ds_text_add(out, " The methods disagree about the limit.");
    } else if (why == DS_HEAT_CURVE_DISAGREES) {
        ds_text_add(out, " One method, from memory, disagrees about the limit.");
    } else if (why == DS_HEAT_NOT_CLOSED) {
        ds_text_add(out, " How much its openings carry off is not known.");
    }
}

static void say_steady(ds_text *const out, const ds_climate *const climate)
{
    if (say_untold(out, climate)) {
        return;
    }
    double low_c = NAN;
    double high_c = NAN;
    ds_climate_heat_c(climate, &low_c, &high_c);
    ds_text_add(out, "Inside it becomes ");
    ds_text_number(out, low_c, 1);
    ds_text_add(out, " to ");
    ds_text_number(out, high_c, 1);
    ds_text_add(out, " °C with ");
    ds_text_number(out, climate->heat_case.watts, 1);
    ds_text_add(out, " W at ");
    ds_text_number(out, climate->heat.air_c, 1);
    ds_text_add(out, " °C around it");
    if (climate->heat_asked) {
        ds_text_add(out, "; the limit is ");
        ds_text_number(out, climate->limit_c, 1);
        ds_text_add(out, " °C");
    }
    ds_text_char(out, '.');
    if (climate->heat_verdict == DS_UNKNOWN) {
        say_doubt(out, climate->heat_why);
    }
}

void ds_climate_say_heat(ds_text *const out, const ds_climate *const climate)
{
    say_steady(out, climate);
    if (climate->day.told) {
        ds_text_char(out, ' ');
        ds_through_say_heat(out, &climate->day);
    }
}

void ds_climate_mend_heat(ds_text *const out, const ds_climate *const climate)
{
    if (climate->surface_unknown.len) {
        ds_text_add(out, "State a known surface, for example painted-steel, plastic or stainless.");
    } else if (climate->colour_unknown.len) {
        ds_text_add(out, "State a known colour, for example white, light-grey or black.");
    } else if (climate->heat.missing || climate->heat.bad) {
        ds_text_add(out, "State what is missing of the box.");
    } else if (climate->heat_why == DS_HEAT_DAY_OPEN) {
        ds_text_add(out, "State what is missing of the box and its day.");
    } else if (climate->heat_verdict == DS_SHORT) {
        ds_text_add(
            out, "Fewer losses, a larger box, shade, or cooling that keeps the mark; a hole would lose it.");
    } else {
        ds_text_add(out,
                    "Measure inside under load, or ask the maker of the box for its losses at this rise.");
    }
}

void ds_climate_say_flood(ds_text *const out, const ds_climate *const climate)
{
    const ds_flood_answer *const flood = &climate->flood;
    if (flood->need == DS_FLOOD_NOT_KNOWN) {
        ds_text_add(out, flood->missing ? "What high water asks for cannot be told; not stated: "
                                        : "What high water asks for cannot be told; out of range: ");
        say_missing_flood(out, flood->missing ? flood->missing : flood->bad);
        ds_text_char(out, '.');
    } else if (flood->need == DS_FLOOD_SPLASH) {
        ds_text_add(out, "High water stays ");
        ds_text_number(out, flood->clear_m, 2);
        ds_text_add(out, flood->freeboard_short ? " m below it, which is less than 0.3 m of freeboard."
                                                : " m below it.");
    } else {
        ds_text_add(out, "High water stands ");
        ds_text_number(out, flood->head_m, 2);
        ds_text_add(out, " m above its lowest point");
        if (isfinite(flood->hours)) {
            ds_text_add(out, " for ");
            ds_text_number(out, flood->hours, 2);
            ds_text_add(out, " h");
        }
        ds_text_char(out, '.');
    }
}

void ds_climate_mend_flood(ds_text *const out, const ds_climate *const climate)
{
    const ds_flood_answer *const flood = &climate->flood;
    if (flood->need == DS_FLOOD_NOT_KNOWN) {
        ds_text_add(out, flood->missing ? "State it, or raise the box clear of the water." : "Correct it.");
        return;
    }
    ds_text_add(out, "Raise it to ");
    ds_text_number(out, ceil(flood->clear_level_m * 100) / 100, 2);
    ds_text_add(out, " m, or ask for goods tested to this depth and time.");
}

void ds_climate_say_quench(ds_text *const out, const ds_climate *const climate)
{
    const ds_quench_answer *const quench = &climate->quench;
    if (quench->missing || quench->bad) {
        ds_text_add(out, "What a quench draws in cannot be told: air or heat is not stated.");
        return;
    }
    if (!(quench->head_m > 0)) {
        ds_text_add(out, "Cooled to no less than it is, it draws nothing in.");
        return;
    }
    ds_text_add(out, "Cooled so fast that its leaks are wet, it sucks as if ");
    ds_text_number(out, ceil(quench->head_m * 100) / 100, 2);
    ds_text_add(out, " m under water at most");
    ds_text_add(out, quench->of_immersion >= 1
                         ? ", more than the immersion test of 1 m: vent it with a part that keeps the mark."
                         : ".");
}
