/* SPDX-License-Identifier: MIT */
/* What one entry leaves of the protection; the rules stand in entry.h. */
#include "core/box/entry.h"

#include "core/mark/read.h"

#include <math.h>

/* --- sets of tests ------------------------------------------------------------------------------------------------ */

#define DUST (DS_OBJECT(5) | DS_OBJECT(6))
#define OBJECTS_AND_ACCESS (DS_OBJECTS_TO(4) | DS_ACCESS_ALL)
#define IMPACT_FREE (UINT64_C(15) << 38 | UINT64_C(15) << 42)

/* A larger hole lets the largest raindrop through. */
static const double RAINDROP_MM = 6;

/* Proven and denied tests with no say in impact. */
static ds_mark mark_of(const uint64_t proven, const uint64_t denied)
{
    return proven | denied << DS_TEST_COUNT | IMPACT_FREE;
}

static const uint64_t JETS_AND_IMMERSION = DS_WATER_ALL & ~DS_WATER_TO(4);

/* Water that surely comes through a hole in this face. */
static uint64_t water_through(const ds_side face, const double at_least_mm)
{
    if (!(at_least_mm >= RAINDROP_MM)) {
        return JETS_AND_IMMERSION;
    }
    switch (face) {
    case DS_SIDE_TOP:
        return DS_WATER_ALL;
    case DS_SIDE_BOTTOM:
    case DS_SIDE_MISSING:
        return DS_WATER_ALL & ~DS_WATER_TO(3);
    default:
        return DS_WATER_ALL & ~DS_WATER_TO(2);
    }
}

/* --- gaps --------------------------------------------------------------------------------------------------------- */

/* What sits in a hole is at least this long: a gap in it goes through no thinner wall (common practice). */
static const double FITTING_LONG_MM = 10;

/* A gap in a wall; what is not known of its size is as far out as can be. */
static ds_mark gap_mark(const ds_entry *const entry, const double gap_mm[2], const double wall_mm)
{
    static const double PINHOLE_MM = 0.001;
    static const double ANYTHING_MM = 1e6;
    const ds_opening like = {.live_part_mm = entry->live_part_mm,
                             .live_part_aside_mm = NAN,
                             .wall_mm = wall_mm,
                             .insulated = entry->insulated};
    const double greatest = isnan(gap_mm[1]) ? ANYTHING_MM : fmax(gap_mm[1], PINHOLE_MM);
    const double least = gap_mm[0] > PINHOLE_MM ? fmin(gap_mm[0], greatest) : PINHOLE_MM;
    return ds_probe_between(least, greatest, &like);
}

/* --- faults ------------------------------------------------------------------------------------------------------- */

typedef struct judge {
    ds_entry_judged *out;
    const ds_entry *entry;
    const ds_sizes *sizes;
} judge;

static void add_fault(const judge *const j, const ds_entry_fault *const fault)
{
    ds_entry_judged *const out = j->out;
    out->mark = ds_mark_weakest(out->mark, fault->mark);
    if (out->faults_len < DS_ENTRY_FAULTS) {
        out->faults[out->faults_len++] = *fault;
    }
}

static void add(const judge *const j, const ds_entry_reason reason, const ds_mark mark)
{
    const ds_entry_fault fault = {.reason = reason, .mark = mark, .gap_mm = {NAN, NAN}};
    add_fault(j, &fault);
}

/* Nothing is known of any test. */
static void add_open(const judge *const j, const ds_entry_reason reason)
{
    add(j, reason, mark_of(0, 0));
}

/* Objects and access by a gap in this wall; dust and water denied or open. */
static ds_entry_fault opening_fault(const judge *const j, const ds_entry_reason reason,
                                    const double gap_mm[2], const uint64_t denied, const double wall_mm)
{
    const ds_mark gap = gap_mark(j->entry, gap_mm, wall_mm);
    return (ds_entry_fault){.reason = reason,
                            .mark = mark_of(ds_mark_proven(gap), ds_mark_denied(gap) | denied),
                            .gap_mm = {gap_mm[0], gap_mm[1]}};
}

/* A gap through what sits in the hole, and the bare hole itself. */
static ds_entry_fault gap_fault(const judge *const j, const ds_entry_reason reason, const double gap_mm[2],
                                const uint64_t denied)
{
    return opening_fault(j, reason, gap_mm, denied, FITTING_LONG_MM);
}

static ds_entry_fault hole_fault(const judge *const j, const ds_entry_reason reason, const uint64_t denied)
{
    return opening_fault(j, reason, j->out->thread.hole_mm, denied, j->entry->wall_mm);
}

/* --- parts -------------------------------------------------------------------------------------------------------- */

static void judge_code(const judge *const j)
{
    if (!j->entry->ip.at) {
        add_open(j, DS_ENTRY_NO_CODE);
        return;
    }
    ds_reading reading;
    ds_mark_read(j->entry->ip, &reading);
    const ds_mark mark = reading.mark;
    const bool silent = (ds_mark_proven(mark) | ds_mark_denied(mark)) == 0;
    add(j, silent ? DS_ENTRY_CODE_UNREADABLE : DS_ENTRY_RATED, mark | IMPACT_FREE);
}

static void judge_wall_seal(const judge *const j)
{
    const uint64_t held = OBJECTS_AND_ACCESS;
    if (j->entry->wall_seal == DS_TRI_NO) {
        add(j, DS_ENTRY_NO_WALL_SEAL, mark_of(held, DS_OBJECT(6) | JETS_AND_IMMERSION));
    } else if (j->entry->wall_seal == DS_TRI_MISSING) {
        add(j, DS_ENTRY_WALL_SEAL_OPEN, mark_of(held, 0));
    }
}

/* What a thread leaves of the hole when it lies against one side. */
static double slack_mm(const ds_thread_fitted *const thread)
{
    return thread->size ? fmax(thread->hole_mm[1] - thread->size->thread_mm, 0) : NAN;
}

static void judge_thread(const judge *const j)
{
    const ds_thread_fitted *const thread = &j->out->thread;
    const double gap_mm[2] = {NAN, slack_mm(thread)};
    switch (thread->fit) {
    case DS_THREAD_FITS:
        return;
    case DS_THREAD_NOT_STATED: {
        /* Whatever its thread, it leaves no more than the hole. */
        const double hole_mm[2] = {NAN, thread->hole_mm[1]};
        const ds_entry_fault fault = gap_fault(j, DS_ENTRY_THREAD, hole_mm, 0);
        add_fault(j, &fault);
        return;
    }
    case DS_THREAD_LOOSE:
    case DS_THREAD_FALLS_THROUGH:
    case DS_THREAD_OTHER: {
        const uint64_t denied = thread->fit == DS_THREAD_LOOSE ? 0 : DUST | DS_WATER_ALL;
        const ds_entry_fault fault = gap_fault(j, DS_ENTRY_THREAD, gap_mm, denied);
        add_fault(j, &fault);
        return;
    }
    default:
        add_open(j, DS_ENTRY_THREAD);
        return;
    }
}

/* The code, the seal to the wall and the thread of what sits in the hole; a maker's own part is in the box's mark. */
static void judge_fitting(const judge *const j)
{
    if (j->entry->as_made != DS_TRI_YES) {
        judge_code(j);
        judge_wall_seal(j);
        judge_thread(j);
    }
    if (j->entry->by_hand == DS_TRI_YES) {
        add_open(j, DS_ENTRY_BY_HAND);
    }
}

/* Dust and water that come past a cable, and objects by what is left beside it. */
static void add_cable_fault(const judge *const j, const ds_cable_fit *const fit, const uint32_t hole)
{
    uint64_t denied = 0;
    switch (fit->fit) {
    case DS_FIT_TOO_THIN:
    case DS_FIT_TOO_THICK:
    case DS_FIT_FLAT:
    case DS_FIT_ROUND_IN_FLAT:
    case DS_FIT_SEVERAL:
        denied = fit->measure == DS_MEASURE_INNER ? 0 : DUST | DS_WATER_ALL;
        break;
    case DS_FIT_EMPTY:
        denied = DUST | water_through(j->entry->face, fit->channel_mm[0]);
        break;
    default:
        break;
    }
    /* A brush never leaves more than the hole, code or none. */
    const bool whole = j->entry->holds == DS_HOLDS_BRUSH && isnan(fit->channel_mm[1]);
    const double gap_mm[2] = {fit->channel_mm[0], whole ? j->out->thread.hole_mm[1] : fit->channel_mm[1]};
    ds_entry_fault fault = gap_fault(j, DS_ENTRY_CABLE, gap_mm, denied);
    fault.cable = *fit;
    fault.hole = hole;
    add_fault(j, &fault);
}

static void judge_cable(const judge *const j, const ds_cable *const cable, const ds_seal *const seal,
                        const double hole_mm[2], const uint32_t hole)
{
    ds_cable_fit fit;
    ds_fit_cable(&fit, cable, seal, hole_mm, j->sizes);
    j->out->tabled = fit.tabled ? fit.tabled : j->out->tabled;
    if (fit.fit != DS_FIT_YES) {
        add_cable_fault(j, &fit, hole);
    }
}

static void judge_led_in(const judge *const j)
{
    const ds_led_in led_in = j->entry->led_in;
    const uint64_t dry = DS_TESTS_ALL & ~DS_WATER_ALL;
    if (led_in == DS_LED_IN_OPEN) {
        const bool runs_in = j->entry->face == DS_SIDE_TOP;
        add(j, DS_ENTRY_LED_IN, mark_of(dry, runs_in ? DS_WATER_ALL : 0));
    } else if (led_in == DS_LED_IN_MISSING && j->entry->holds == DS_HOLDS_CONDUIT) {
        add(j, DS_ENTRY_LED_IN_OPEN, mark_of(dry, 0));
    }
}

/* --- kinds of entry ----------------------------------------------------------------------------------------------- */

static void judge_own_cable(const judge *const j)
{
    const ds_entry *const e = j->entry;
    const ds_seal seal = {.range_mm = {e->range_mm[0], e->range_mm[1]},
                          .thickness_mm = {e->thickness_mm[0], e->thickness_mm[1]},
                          .inner_range_mm = {e->inner_range_mm[0], e->inner_range_mm[1]},
                          .flat = e->shape == DS_SHAPE_FLAT};
    judge_cable(j, &e->cable, &seal, j->out->thread.hole_mm, 0);
}

static void judge_gland(const judge *const j)
{
    judge_fitting(j);
    judge_own_cable(j);
    judge_led_in(j);
}

/* What closes a hole has no cable in it: one of the two was noted wrongly. */
static void judge_blank(const judge *const j)
{
    const ds_cable *const cable = &j->entry->cable;
    judge_fitting(j);
    if (cable->at && cable->count != 0) {
        add_open(j, DS_ENTRY_BLANK_CABLE);
    }
}

/* A hole of an insert with neither cable nor plug; how wide it is nobody says. */
static void judge_open_hole(const judge *const j, const uint32_t number)
{
    const double gap_mm[2] = {NAN, j->out->thread.hole_mm[1]};
    const uint64_t denied = DUST | water_through(j->entry->face, NAN);
    ds_entry_fault fault = gap_fault(j, DS_ENTRY_HOLE_OPEN, gap_mm, denied);
    fault.hole = number;
    add_fault(j, &fault);
}

static void judge_insert(const judge *const j)
{
    judge_fitting(j);
    judge_led_in(j);
    if (j->entry->holes_len == 0) {
        add_open(j, DS_ENTRY_HOLES_UNKNOWN);
    }
    for (size_t i = 0; i < j->entry->holes_len; i++) {
        const ds_insert_hole *const hole = &j->entry->holes[i];
        const uint32_t number = (uint32_t)(i + 1);
        const ds_seal seal = {.range_mm = {hole->range_mm[0], hole->range_mm[1]},
                              .thickness_mm = {hole->thickness_mm[0], hole->thickness_mm[1]},
                              .inner_range_mm = {NAN, NAN},
                              .flat = hole->shape == DS_SHAPE_FLAT};
        if (hole->state == DS_HOLE_CABLE) {
            judge_cable(j, &hole->cable, &seal, j->out->thread.hole_mm, number);
        } else if (hole->state == DS_HOLE_OPEN) {
            judge_open_hole(j, number);
        } else if (hole->state == DS_HOLE_MISSING) {
            add_open(j, DS_ENTRY_HOLES_UNKNOWN);
        }
    }
}

/* The bare hole; objects and access by its size, dust with them. */
static void judge_bare_hole(const judge *const j, const ds_entry_reason reason, const uint64_t water_denied)
{
    const ds_entry_fault fault = hole_fault(j, reason, DUST | water_denied);
    add_fault(j, &fault);
}

/*
 * Tape gives way to the force of a probe, so the hole counts as bare; what else was put in by hand may hold or not, and
 * proves no more than the hole around it.
 */
static void judge_makeshift(const judge *const j)
{
    ds_entry_fault fault = hole_fault(j, DS_ENTRY_MAKESHIFT, 0);
    if (j->entry->holds != DS_HOLDS_TAPE) {
        fault.mark = mark_of(ds_mark_proven(fault.mark), 0);
    }
    add_fault(j, &fault);
}

static void judge_fixing(const judge *const j)
{
    if (j->entry->outside_seal == DS_TRI_YES) {
        return;
    }
    if (j->entry->outside_seal == DS_TRI_MISSING) {
        add_open(j, DS_ENTRY_FIXING_UNKNOWN);
    } else if (j->entry->wall_seal == DS_TRI_YES) {
        add_open(j, DS_ENTRY_FIXING_SEALED);
    } else {
        add(j, DS_ENTRY_FIXING_INSIDE, mark_of(0, JETS_AND_IMMERSION));
    }
}

/* A drain or breather of its own code, a maker's own, or a mere hole. */
static void judge_drain(const judge *const j)
{
    const ds_entry *const e = j->entry;
    if (e->ip.at || e->as_made == DS_TRI_YES) {
        judge_fitting(j);
    } else {
        judge_bare_hole(j, DS_ENTRY_DRAIN_HOLE, DS_WATER(7) | DS_WATER(8));
    }
    if (e->holds == DS_HOLDS_DRAIN && e->face != DS_SIDE_BOTTOM) {
        add(j, DS_ENTRY_DRAIN_NOT_LOWEST, mark_of(DS_TESTS_ALL & ~DS_WATER_ALL, 0));
    }
}

static void judge_brush(const judge *const j)
{
    if (j->entry->ip.at || j->entry->as_made == DS_TRI_YES) {
        judge_fitting(j);
        judge_own_cable(j);
    } else {
        judge_bare_hole(j, DS_ENTRY_BRUSH, water_through(j->entry->face, j->out->thread.hole_mm[0]));
    }
}

typedef void judge_kind(const judge *j);

static void judge_nothing(const judge *const j)
{
    judge_bare_hole(j, DS_ENTRY_NOTHING, water_through(j->entry->face, j->out->thread.hole_mm[0]));
}

static void judge_missing(const judge *const j)
{
    add_open(j, DS_ENTRY_NOT_UNDERSTOOD);
}

/* A fitting that closes on what goes through it has a range; on others a conduit ends. */
static void judge_conduit(const judge *const j)
{
    judge_fitting(j);
    if (!isnan(j->entry->range_mm[0])) {
        judge_own_cable(j);
    }
    judge_led_in(j);
}

void ds_entry_judge(ds_entry_judged *const out, const ds_entry *const entry, const ds_sizes *const sizes)
{
    static judge_kind *const KINDS[] = {
        [DS_HOLDS_MISSING] = judge_missing,       [DS_HOLDS_GLAND] = judge_gland,
        [DS_HOLDS_BLANK] = judge_blank,           [DS_HOLDS_INSERT] = judge_insert,
        [DS_HOLDS_CONDUIT] = judge_conduit,       [DS_HOLDS_BRUSH] = judge_brush,
        [DS_HOLDS_DRAIN] = judge_drain,           [DS_HOLDS_BREATHER] = judge_drain,
        [DS_HOLDS_TAPE] = judge_makeshift,        [DS_HOLDS_HAND_SEALANT] = judge_makeshift,
        [DS_HOLDS_FORCED_SEAL] = judge_makeshift, [DS_HOLDS_FIXING_HOLE] = judge_fixing,
        [DS_HOLDS_NOTHING] = judge_nothing,
    };
    *out = (ds_entry_judged){.mark = DS_MARK_WHOLE, .from_above = entry->face == DS_SIDE_TOP};
    ds_fit_thread(&out->thread, entry, sizes);
    const judge j = {out, entry, sizes};
    KINDS[entry->holds](&j);
}

bool ds_entry_is_makeshift(const ds_entry *const entry)
{
    return entry->holds == DS_HOLDS_TAPE || entry->holds == DS_HOLDS_HAND_SEALANT ||
           entry->holds == DS_HOLDS_FORCED_SEAL;
}

/* --- the fault that decides --------------------------------------------------------------------------------------- */

static int count_tests(uint64_t set)
{
    int count = 0;
    for (; set; set &= set - 1) {
        count++;
    }
    return count;
}

const ds_entry_fault *ds_entry_worst(const ds_entry_judged *const judged, const ds_need need)
{
    const ds_entry_fault *worst = NULL;
    ds_verdict worst_verdict = DS_FITS;
    int worst_lost = 0;
    for (uint8_t i = 0; i < judged->faults_len; i++) {
        const ds_entry_fault *const fault = &judged->faults[i];
        ds_need lost;
        const ds_verdict verdict = ds_mark_compare(need, fault->mark, &lost);
        const int lost_tests = count_tests(ds_mark_proven(lost));
        if (verdict > worst_verdict || (verdict == worst_verdict && lost_tests > worst_lost)) {
            worst = fault;
            worst_verdict = verdict;
            worst_lost = lost_tests;
        }
    }
    return worst;
}
