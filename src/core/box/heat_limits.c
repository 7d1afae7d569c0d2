/* SPDX-License-Identifier: MIT */
/* Temperatures inside against what parts bear: the verdict, what is left of ratings, and the list of usual limits. */
#include "core/box/heat.h"

#define HIGHEST_LIMIT_C 300.0

/* --- verdict ------------------------------------------------------------------------------------------------------ */

/* Away from acceptance: what must stay below a limit is rounded up, what must exceed it down. */
static double rounded_up(const double value)
{
    return ceil(value * 1e6) / 1e6;
}

static double rounded_down(const double value)
{
    return floor(value * 1e6) / 1e6;
}

static double highest_c(const ds_heat_answer *const a, const ds_heat_result *const by)
{
    return rounded_up(a->air_c + (a->height == DS_HEAT_HALF_WAY ? by->mid_k.high : by->top_k.high));
}

static double lowest_c(const ds_heat_answer *const a, const ds_heat_result *const by)
{
    return rounded_down(a->air_c + (a->height == DS_HEAT_AT_TOP ? by->top_k.low : by->mid_k.low));
}

/* What one method says alone: below, above or between. */
static ds_heat_why one_says(const ds_heat_answer *const a, const ds_heat_result *const by,
                            const double limit_c)
{
    if (highest_c(a, by) <= limit_c) {
        return DS_HEAT_ALL_BELOW;
    }
    return lowest_c(a, by) > limit_c ? DS_HEAT_ALL_ABOVE : DS_HEAT_DISAGREE;
}

static ds_heat_why deciding_say(const ds_heat_answer *const a, const double limit_c)
{
    ds_heat_why all = DS_HEAT_NONE_DECIDES;
    for (int method = 0; method < DS_HEAT_METHODS; method++) {
        if (a->by[method].decides) {
            const ds_heat_why one = one_says(a, &a->by[method], limit_c);
            all = all == DS_HEAT_NONE_DECIDES || all == one ? one : DS_HEAT_DISAGREE;
        }
    }
    return all;
}

static ds_heat_why all_say(const ds_heat_answer *const a, const double limit_c)
{
    if (a->missing || a->bad || isnan(a->air_c) || !(limit_c <= HIGHEST_LIMIT_C)) {
        return DS_HEAT_NOT_DESCRIBED;
    }
    const ds_heat_why all = deciding_say(a, limit_c);
    const ds_heat_result *const curve = &a->by[DS_HEAT_CURVE];
    const bool agreed = all == DS_HEAT_ALL_BELOW || all == DS_HEAT_ALL_ABOVE;
    if (agreed && curve->gap == DS_HEAT_GIVEN && one_says(a, curve, limit_c) != all) {
        return DS_HEAT_CURVE_DISAGREES;
    }
    return all == DS_HEAT_ALL_ABOVE && !a->closed ? DS_HEAT_NOT_CLOSED : all;
}

ds_verdict ds_heat_judge(const ds_heat_answer *const answer, const double limit_c, ds_heat_why *const why)
{
    const ds_heat_why says = all_say(answer, limit_c);
    if (why) {
        *why = says;
    }
    if (says == DS_HEAT_ALL_BELOW) {
        return DS_FITS;
    }
    return says == DS_HEAT_ALL_ABOVE ? DS_SHORT : DS_UNKNOWN;
}

/* --- ratings ------------------------------------------------------------------------------------------------------ */

double ds_heat_derating(const double hottest_c, const double reference_c, const double temp_c)
{
    if (!isfinite(hottest_c) || !isfinite(reference_c) || !isfinite(temp_c) || !(hottest_c > reference_c)) {
        return NAN;
    }
    return temp_c < hottest_c ? sqrt((hottest_c - temp_c) / (hottest_c - reference_c)) : 0;
}

double ds_heat_board_w(const double devices_w, const double others_w)
{
    return devices_w >= 0 && others_w >= 0 ? 1.2 * devices_w + others_w : NAN;
}

double ds_heat_loss_w(const double pieces, const double full_load_w, const double load_share)
{
    return pieces >= 0 && full_load_w >= 0 && load_share >= 0 ? pieces * full_load_w * load_share * load_share
                                                              : NAN;
}

/* --- usual limits ------------------------------------------------------------------------------------------------- */

#define ASSEMBLIES "EN 61439-1 as quoted by an Italian design site"
#define CABLES "BS 7671 Table 4B1, IEC 60364-5-52"
#define UNLESS_SAID "air at the unit unless the maker says otherwise"

static const ds_heat_limit LIMITS[] = {
    {"pvc-cable", false, {70, 70}, DS_SOURCE_MEMORY, CABLES},
    {"xlpe-cable", false, {90, 90}, DS_SOURCE_MEMORY, CABLES},
    {"household-breaker",
     false,
     {40, 40},
     DS_SOURCE_PUBLISHED,
     "forum of the IET: calibrated at 30 C, air to 40 C"},
    {"industrial-breaker",
     false,
     {40, 50},
     DS_SOURCE_PUBLISHED,
     "breaker articles: 40 C, or as the maker declares"},
    {"electronics", false, {45, 60}, DS_SOURCE_PRACTICE, UNLESS_SAID},
    {"led-driver", false, {45, 60}, DS_SOURCE_PRACTICE, UNLESS_SAID},
    {"household-accessory", false, {35, 40}, DS_SOURCE_MEMORY, "IEC 60884-1, IEC 60669-1"},
    {"assembly", false, {35, 40}, DS_SOURCE_PUBLISHED, ASSEMBLIES ": air around it, mean of a day and peak"},
    {"terminal", true, {70, 70}, DS_SOURCE_PUBLISHED, ASSEMBLIES},
    {"metal-handle", true, {15, 15}, DS_SOURCE_PUBLISHED, ASSEMBLIES},
    {"insulating-handle", true, {25, 25}, DS_SOURCE_PUBLISHED, ASSEMBLIES},
    {"metal-cover", true, {30, 30}, DS_SOURCE_PUBLISHED, ASSEMBLIES},
    {"insulating-cover", true, {40, 40}, DS_SOURCE_PUBLISHED, ASSEMBLIES},
};

enum { LIMITS_LEN = sizeof LIMITS / sizeof *LIMITS };

const ds_heat_limit *ds_heat_limit_of(const ds_str part)
{
    for (size_t i = 0; i < LIMITS_LEN; i++) {
        if (ds_str_is(part, LIMITS[i].part)) {
            return &LIMITS[i];
        }
    }
    return NULL;
}

const ds_heat_limit *ds_heat_limits(size_t *const len)
{
    *len = LIMITS_LEN;
    return LIMITS;
}
