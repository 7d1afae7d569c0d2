/* SPDX-License-Identifier: MIT */
/* Openings against the standard probes; the rules and their sources stand in probe.h. Lengths are millimetres. */
#include "core/box/probe.h"

#include <math.h>

/* Probes of IEC 60529 and IEC 61032. */
static const double OBJECT_MM[] = {50, 12.5, 2.5, 1.0};
static const double BALL_MM = 50;
static const double FINGER_MM = 12;
static const double FINGER_REACH_MM = 80;
static const double TIP_MM = 6; /* how far a fingertip that does not go in may bulge */
static const double TIP_IN_SLIT_MM =
    0.5; /* narrower than 2.5 mm: its edge of 2 mm radius, 2 - sqrt(4 - 1.25^2) */
static const double STOP_MM[] = {20, 50};
static const double STOP_SQUARE_MM =
    49.497; /* the least square that the stop goes through: (50 + 20)/sqrt(2) */
static const double ROD_MM = 2.5;
static const double WIRE_MM = 1.0;
static const double ROD_REACH_MM = 100;
static const double MARGIN_MM = 5;

/* A measure this close below a probe's counts as equal to it: the sum of two measures may be off in its last digit. */
static const double LAST_DIGIT_MM = 1e-6;

enum { LETTERS = DS_ACCESS_LEN };

/* --- the measure of an opening ------------------------------------------------------------------------------------ */

/* Diameter of the circle in a triangle, 4 x area / perimeter; NAN when no triangle has such sides. */
static double triangle_clear_mm(const double sides_mm[3])
{
    double a = sides_mm[0];
    double b = sides_mm[1];
    double c = sides_mm[2];
    const double longest = fmax(a, fmax(b, c));
    const double shortest = fmin(a, fmin(b, c));
    const double middle = a + b + c - longest - shortest;
    a = longest;
    b = middle;
    c = shortest;
    /* Heron's formula in the order that keeps its digits in thin triangles. */
    const double product = (a + (b + c)) * (c - (a - b)) * (c + (a - b)) * (a + (b - c));
    return product > 0 ? sqrt(product) / (a + b + c) : NAN;
}

static double cable_gap_mm(const ds_opening *const opening, ds_probe_status *const status)
{
    const double gap_mm = opening->size_mm - opening->cable_mm;
    *status = isnan(gap_mm) ? DS_PROBE_NO_SIZE : gap_mm <= 0 ? DS_PROBE_CABLE_TOO_BIG : DS_PROBE_MEASURED;
    return gap_mm > 0 ? gap_mm : NAN;
}

double ds_probe_clear_mm(const ds_opening *const opening, ds_probe_status *const status)
{
    double clear_mm = opening->size_mm;
    switch (opening->shape) {
    case DS_OPENING_MISSING:
        *status = DS_PROBE_NO_SHAPE;
        return NAN;
    case DS_OPENING_CABLE_GAP:
        return cable_gap_mm(opening, status);
    case DS_OPENING_TRIANGLE:
        clear_mm = triangle_clear_mm(opening->sides_mm);
        *status = isnan(opening->sides_mm[0] + opening->sides_mm[1] + opening->sides_mm[2])
                      ? DS_PROBE_NO_SIZE
                      : DS_PROBE_NO_TRIANGLE;
        break;
    case DS_OPENING_RECTANGLE:
        clear_mm = isnan(opening->length_mm) ? NAN : fmin(opening->size_mm, opening->length_mm);
        *status = DS_PROBE_NO_SIZE;
        break;
    default:
        *status = DS_PROBE_NO_SIZE;
        break;
    }
    if (!isnan(clear_mm)) {
        *status = DS_PROBE_MEASURED;
    }
    return clear_mm;
}

/* The longest way over the opening, along which a rod can be tilted; INFINITY when it is not known. */
static double across_mm(const ds_opening *const opening)
{
    switch (opening->shape) {
    case DS_OPENING_ROUND:
    case DS_OPENING_KNOCK_OUT:
    case DS_OPENING_CABLE_GAP:
        return opening->size_mm;
    case DS_OPENING_MESH:
        return sqrt(2) * opening->size_mm;
    case DS_OPENING_RECTANGLE:
        return sqrt(opening->size_mm * opening->size_mm + opening->length_mm * opening->length_mm);
    case DS_OPENING_TRIANGLE:
        return fmax(opening->sides_mm[0], fmax(opening->sides_mm[1], opening->sides_mm[2]));
    default:
        return isnan(opening->length_mm) ? INFINITY : fmax(opening->size_mm, opening->length_mm);
    }
}

/* --- probes ------------------------------------------------------------------------------------------------------- */

static bool goes_in(const double probe_mm, const double clear_mm)
{
    return clear_mm + LAST_DIGIT_MM >= probe_mm;
}

int ds_probe_numeral(const double clear_mm)
{
    int numeral = 0;
    while (numeral < 4 && clear_mm > 0 && !goes_in(OBJECT_MM[numeral], clear_mm)) {
        numeral++;
    }
    return numeral;
}

double ds_probe_bulge_mm(const double ball_mm, const double clear_mm)
{
    const double r = ball_mm / 2;
    const double half = clear_mm / 2;
    return half < r ? r - sqrt(r * r - half * half) : NAN;
}

double ds_probe_rod_aside_mm(const double rod_mm, const double across, const double wall_mm,
                             const double depth_mm)
{
    if (across <= rod_mm) {
        return 0;
    }
    return wall_mm > 0 ? depth_mm * (across - rod_mm) / wall_mm : INFINITY;
}

/* What a probe that is stopped at `surely` at the least and `at_most` at the most makes of a live part this far off. */
static ds_tri stays_clear(const double surely_mm, const double at_most_mm, const double live_mm)
{
    return live_mm > at_most_mm   ? DS_TRI_YES
           : live_mm <= surely_mm ? DS_TRI_NO
                                  : DS_TRI_MISSING; /* also when it was not measured */
}

/* Straight distance to the live part; NAN when it was not measured. */
static double live_distance_mm(const ds_opening *const opening)
{
    const double in = opening->live_part_mm;
    const double aside = isnan(opening->live_part_aside_mm) ? 0 : opening->live_part_aside_mm;
    return sqrt(in * in + aside * aside);
}

/* A probe that only bulges through: a wall thicker than that stops it, whatever stands behind. */
static ds_tri bulge_clear(const ds_opening *const opening, const double surely_mm, const double at_most_mm)
{
    return opening->wall_mm >= at_most_mm ? DS_TRI_YES
                                          : stays_clear(surely_mm, at_most_mm, live_distance_mm(opening));
}

static ds_tri ball_clear(const ds_opening *const opening, const double clear_mm)
{
    if (goes_in(BALL_MM, clear_mm)) {
        return DS_TRI_NO;
    }
    const double bulge = ds_probe_bulge_mm(BALL_MM, clear_mm);
    return opening->insulated == DS_TRI_YES ? DS_TRI_YES : bulge_clear(opening, bulge, bulge);
}

/* Does the finger's stop follow through the opening? */
static ds_tri stop_follows(const ds_opening *const opening, const double clear_mm)
{
    if (clear_mm >= STOP_SQUARE_MM) {
        return DS_TRI_YES;
    }
    if (clear_mm < STOP_MM[0]) {
        return DS_TRI_NO;
    }
    switch (opening->shape) {
    case DS_OPENING_SLOT:
    case DS_OPENING_GAP:
    case DS_OPENING_RECTANGLE: {
        const double long_side = fmax(opening->size_mm, opening->length_mm);
        return isnan(opening->length_mm) ? DS_TRI_MISSING : long_side >= STOP_MM[1] ? DS_TRI_YES : DS_TRI_NO;
    }
    case DS_OPENING_TRIANGLE:
    case DS_OPENING_CABLE_GAP:
        return DS_TRI_MISSING;
    default:
        return DS_TRI_NO;
    }
}

static ds_tri finger_clear(const ds_opening *const opening, const double clear_mm)
{
    if (!goes_in(FINGER_MM, clear_mm)) {
        const double bulge = ds_probe_bulge_mm(FINGER_MM, clear_mm);
        const double at_most = goes_in(ROD_MM, clear_mm) ? TIP_MM : TIP_IN_SLIT_MM;
        return opening->insulated == DS_TRI_YES ? DS_TRI_YES : bulge_clear(opening, bulge, at_most);
    }
    const ds_tri follows = stop_follows(opening, clear_mm);
    if (follows != DS_TRI_NO) {
        return follows == DS_TRI_YES ? DS_TRI_NO : DS_TRI_MISSING;
    }
    return opening->insulated == DS_TRI_YES
               ? DS_TRI_YES
               : stays_clear(FINGER_REACH_MM, FINGER_REACH_MM + MARGIN_MM, live_distance_mm(opening));
}

/* A live part aside of a thick wall's hole may lie beyond what a straight rod reaches. */
static ds_tri rod_clear(const ds_opening *const opening, const double clear_mm, const double rod_mm)
{
    if (!goes_in(rod_mm, clear_mm) || opening->insulated == DS_TRI_YES) {
        return DS_TRI_YES;
    }
    const ds_tri by_length = stays_clear(ROD_REACH_MM, ROD_REACH_MM + MARGIN_MM, live_distance_mm(opening));
    const double aside = opening->live_part_aside_mm;
    if (by_length == DS_TRI_YES || isnan(aside) || isnan(opening->live_part_mm)) {
        return by_length;
    }
    const double reach =
        ds_probe_rod_aside_mm(rod_mm, across_mm(opening), opening->wall_mm, opening->live_part_mm);
    if (aside > reach + MARGIN_MM) {
        return DS_TRI_YES;
    }
    return aside <= reach && (aside == 0 || isfinite(reach)) ? by_length : DS_TRI_MISSING;
}

/* --- the verdict -------------------------------------------------------------------------------------------------- */

static ds_mark objects_mark(const int numeral)
{
    const ds_claim claim = {.objects = (int8_t)numeral, .impact = -1};
    const uint64_t objects = DS_OBJECTS_ALL | DS_OBJECTS_ALL << DS_TEST_COUNT;
    const uint64_t dust = (DS_OBJECT(5) | DS_OBJECT(6)) << DS_TEST_COUNT;
    return (ds_mark_from(&claim) & objects & (numeral == 4 ? ~dust : ~UINT64_C(0))) | DS_MARK_SILENT;
}

/* A letter is shown when all up to it are, refuted when any up to it is. */
static void judge_letters(ds_probe *const out, const ds_tri clear[LETTERS])
{
    int shown = 0;
    while (shown < LETTERS && clear[shown] == DS_TRI_YES) {
        shown++;
    }
    int first_denied = 0;
    while (first_denied < LETTERS && clear[first_denied] != DS_TRI_NO) {
        first_denied++;
    }
    out->letter = (char)(shown ? 'A' + shown - 1 : 0);
    out->denied = (char)(first_denied < LETTERS ? 'A' + first_denied : 0);
    if (out->letter) {
        out->mark |= DS_ACCESS_TO(out->letter);
    }
    if (out->denied) {
        const uint64_t below = out->denied == 'A' ? 0 : DS_ACCESS_TO(out->denied - 1);
        out->mark |= (DS_ACCESS_ALL & ~below) << DS_TEST_COUNT;
    }
}

/* A first numeral covers access too: 1 that of the hand, 2 of the finger, 3 of a tool, 4 of a wire. */
static int numeral_with_access(const int numeral, const char denied)
{
    const int before = denied ? denied - 'A' : LETTERS;
    return before < numeral ? before : numeral;
}

void ds_probe_opening(ds_probe *const out, const ds_opening *const opening)
{
    *out = (ds_probe){.mark = DS_MARK_SILENT};
    out->clear_mm = ds_probe_clear_mm(opening, &out->status);
    if (out->status != DS_PROBE_MEASURED) {
        return;
    }
    const double clear_mm = out->clear_mm;
    const int numeral = ds_probe_numeral(clear_mm);
    out->mark = objects_mark(numeral);
    const ds_tri clear[LETTERS] = {ball_clear(opening, clear_mm), finger_clear(opening, clear_mm),
                                   rod_clear(opening, clear_mm, ROD_MM),
                                   rod_clear(opening, clear_mm, WIRE_MM)};
    judge_letters(out, clear);
    out->numeral = numeral_with_access(numeral, out->denied);
}

ds_mark ds_probe_between(const double least_mm, const double greatest_mm, const ds_opening *const like)
{
    ds_opening opening = *like;
    opening.shape = DS_OPENING_ROUND;
    opening.size_mm = least_mm;
    ds_probe least;
    ds_probe_opening(&least, &opening);
    opening.size_mm = greatest_mm;
    ds_probe greatest;
    ds_probe_opening(&greatest, &opening);
    return ds_mark_either(least.mark, greatest.mark);
}
