/* SPDX-License-Identifier: MIT */
/* What would restore an entry or opening, in one sentence for each reason. Never a word of drilling. */
#include "core/box/entry_say.h"

#include "core/box/entry_words.h"

#include <math.h>

/* Mends that are the same whatever the figures. */
static const char *const PLAIN[DS_ENTRY_REASONS] = {
    [DS_ENTRY_NOT_UNDERSTOOD] = "State what sits in it.",
    [DS_ENTRY_NO_WALL_SEAL] = "Fit the washer or O-ring that belongs under its flange.",
    [DS_ENTRY_WALL_SEAL_OPEN] = "Look for the washer or O-ring under its flange and state it.",
    [DS_ENTRY_BLANK_CABLE] = "Look what sits in it: enter a gland with its range, or take the cable away.",
    [DS_ENTRY_HOLE_OPEN] = "Put the maker's plug into it.",
    [DS_ENTRY_HOLES_UNKNOWN] = "State for each hole its cable, or that it is plugged.",
    [DS_ENTRY_LED_IN] = "Seal the inside of the conduit or cable, or drain it before the box.",
    [DS_ENTRY_LED_IN_OPEN] = "Follow it to its other end and state whether water can run in from there.",
    [DS_ENTRY_DRAIN_NOT_LOWEST] = "Move the drain to the lowest point, or turn the box as its maker says.",
    [DS_ENTRY_FIXING_INSIDE] =
        "Seal it with the maker's part, or fix the box by the points outside its seal.",
    [DS_ENTRY_FIXING_SEALED] =
        "Fix the box outside its seal, or enter the maker's part as a blank with its code.",
    [DS_ENTRY_FIXING_UNKNOWN] = "Look where it lies and state it.",
};

static const char *const KEYS[DS_ENTRY_REASONS] = {
    [DS_ENTRY_NOT_UNDERSTOOD] = "holds",        [DS_ENTRY_WALL_SEAL_OPEN] = "wall_seal",
    [DS_ENTRY_HOLES_UNKNOWN] = "holes",         [DS_ENTRY_LED_IN_OPEN] = "led_in",
    [DS_ENTRY_FIXING_UNKNOWN] = "outside_seal", [DS_ENTRY_BLANK_CABLE] = "holds",
};

/* --- glands ------------------------------------------------------------------------------------------------------- */

/* An armoured gland by its size and both ranges, any other by its range. */
static void name_gland(ds_text *const out, const ds_gland_size *const gland)
{
    if (gland->gland.at) {
        ds_text_add(out, "size ");
        ds_text_adds(out, gland->gland);
        ds_text_add(out, " for ");
        ds_words_span_mm(out, gland->range_mm);
        ds_text_add(out, ", under the armour ");
        ds_words_span_mm(out, gland->inner_range_mm);
    } else {
        ds_text_add(out, "one for ");
        ds_words_span_mm(out, gland->range_mm);
    }
}

/* "; of M20 one for 10 to 14 mm is usual"; where that thread has none, what thread has. */
static void add_usual(ds_text *const out, const ds_installed *const installed, const ds_entry *const entry,
                      const ds_entry_judged *const judged, const ds_entry_fault *const fault)
{
    const ds_cable_fit *const fit = &fault->cable;
    const ds_thread_size *const thread = judged->thread.size;
    if (!thread || fault->hole || fit->measure == DS_MEASURE_WIDTH || fit->measure == DS_MEASURE_THICKNESS) {
        return;
    }
    const bool armoured = entry->gland.at || !isnan(entry->inner_range_mm[0]);
    const double *const inner_mm = armoured ? fit->inner_mm : NULL;
    const ds_gland_size *const own = ds_sizes_gland_for(installed->sizes, thread, fit->od_mm, inner_mm);
    const ds_gland_size *const usual =
        own ? own : ds_sizes_gland_for(installed->sizes, NULL, fit->od_mm, inner_mm);
    if (usual) {
        ds_text_add(out, own ? "; of " : "; usual ones of this thread don't, but of ");
        ds_text_adds(out, usual->thread);
        ds_text_char(out, ' ');
        name_gland(out, usual);
        ds_text_add(out, own ? " is usual" : " does");
    }
}

static void fit_gland(ds_text *const out, const ds_installed *const installed, const ds_entry *const entry,
                      const ds_entry_judged *const judged, const ds_entry_fault *const fault)
{
    static const char *const TAKES[] = {" that takes ", " whose inner seal takes ", " for flat cable of ",
                                        " for flat cable of "};
    static const char *const OF[] = {"", "", " width", " thickness"};
    const ds_cable_fit *const fit = &fault->cable;
    const bool measured = fit->cable_mm[0] == fit->cable_mm[1];
    ds_text_add(out, fit->fit == DS_FIT_MAYBE && !measured ? "Measure the cable, or fit " : "Fit ");
    ds_text_add(out, fault->hole ? "an insert with a hole" : "a gland");
    ds_text_add(out, TAKES[fit->measure]);
    ds_words_span_mm(out, fit->cable_mm);
    ds_text_add(out, OF[fit->measure]);
    add_usual(out, installed, entry, judged, fault);
    ds_text_char(out, '.');
}

/* Which figure to look for on a gland that says nothing; of an armoured size what is usual. */
static void read_range(ds_text *const out, const ds_installed *const installed, const ds_entry *const entry,
                       const ds_cable_fit *const fit)
{
    ds_text_add(out, "Read the range off the gland or its data sheet");
    if (fit->cable_mm[0] <= fit->cable_mm[1]) {
        ds_text_add(out, ": it must take ");
        ds_words_span_mm(out, fit->cable_mm);
    }
    const ds_gland_size *const usual =
        entry->gland.at ? ds_sizes_armoured(installed->sizes, entry->gland) : NULL;
    if (usual) {
        ds_text_add(out, "; usual for size ");
        ds_text_adds(out, usual->gland);
        ds_text_add(out, " are ");
        ds_words_span_mm(out, usual->range_mm);
        ds_text_add(out, " and under the armour ");
        ds_words_span_mm(out, usual->inner_range_mm);
    }
    ds_text_char(out, '.');
}

static void close_it(ds_text *const out, const char *const before, const ds_need need)
{
    ds_text_add(out, before);
    ds_text_add(out, " marked at least ");
    ds_need_print(out, need);
    ds_text_char(out, '.');
}

static void mend_cable(ds_text *const out, const ds_installed *const installed, const ds_part *const part,
                       const ds_entry_judged *const judged, const ds_entry_fault *const fault,
                       const ds_need need)
{
    switch (fault->cable.fit) {
    case DS_FIT_TOO_THIN:
    case DS_FIT_TOO_THICK:
    case DS_FIT_MAYBE:
        fit_gland(out, installed, part->entry, judged, fault);
        break;
    case DS_FIT_NO_RANGE:
        read_range(out, installed, part->entry, &fault->cable);
        break;
    case DS_FIT_FLAT:
        ds_text_add(out,
                    "Fit an insert shaped for this flat cable, or change to round cable before the box.");
        break;
    case DS_FIT_ROUND_IN_FLAT:
        ds_text_add(out, "Fit a gland with a round seal.");
        break;
    case DS_FIT_SEVERAL:
        ds_text_add(out, "Fit an insert with a hole for each cable, every hole left over plugged.");
        break;
    case DS_FIT_EMPTY:
        if (fault->hole) {
            ds_text_add(out, PLAIN[DS_ENTRY_HOLE_OPEN]);
            break;
        }
        close_it(out, "Replace it by a sealed blank", need);
        break;
    case DS_FIT_OVER_HOLE:
        ds_text_add(out, "Measure cable and hole again.");
        break;
    default:
        ds_text_add(out, fault->cable.measure == DS_MEASURE_INNER
                             ? "Measure the cable under its armour."
                             : "State type and size of the cable, or measure it.");
        break;
    }
}

/* --- threads ------------------------------------------------------------------------------------------------------ */

static void mend_thread(ds_text *const out, const ds_installed *const installed, const ds_entry *const entry,
                        const ds_thread_fitted *const thread)
{
    if (thread->fit == DS_THREAD_NOT_STATED) {
        ds_text_add(out, "Read the size off the ");
        ds_text_add(out, ds_words_fitting(entry->holds));
        ds_text_add(out, " and state it, as in M20.");
        return;
    }
    if (thread->fit == DS_THREAD_NO_SIZE || thread->fit == DS_THREAD_NO_HOLE_SIZE) {
        ds_text_add(out, "Write the size as in M20 or PG16.");
        return;
    }
    if (thread->fit == DS_THREAD_TOO_LARGE) {
        ds_text_add(out, "Measure the hole again and read the size off the fitting.");
        return;
    }
    const ds_thread_size *const size = ds_words_size_of_hole(installed->sizes, entry, thread->hole_mm);
    ds_text_add(out, "Fit one ");
    if (size && size != thread->size) {
        ds_text_add(out, "with the thread ");
        ds_text_adds(out, size->size);
    } else {
        ds_text_add(out, "with the thread of the hole");
    }
    ds_text_add(out, ", or a reducer with a seal of its own.");
}

/* --- the other parts ---------------------------------------------------------------------------------------------- */

static void need_code(ds_text *const out, const char *const before, const ds_entry *const entry,
                      const char *const between, const ds_need need)
{
    ds_text_add(out, before);
    ds_text_add(out, ds_words_fitting(entry->holds));
    ds_text_add(out, between);
    ds_need_print(out, need);
    ds_text_char(out, '.');
}

/* An 8 without depth and time is all that leaves the need open. */
static bool lacks_depth(const ds_entry_fault *const fault, const ds_need need)
{
    const uint64_t immersion = DS_WATER(7) | DS_WATER(8);
    ds_need lost;
    const ds_verdict verdict = ds_mark_compare(need, fault->mark, &lost);
    return verdict == DS_UNKNOWN && !(ds_mark_proven(lost) & ~immersion) &&
           !(ds_mark_denied(fault->mark) & DS_WATER(8)) && ds_mark_depth_m(fault->mark) <= 0;
}

/* A code of immersion is no low one: it lacks what its maker may well have tested. */
static void mend_rated(ds_text *const out, const ds_entry *const entry, const ds_entry_fault *const fault,
                       const ds_need need)
{
    const int lone = ds_words_lone_numeral(fault, need);
    if (!lone) {
        const bool bare_8 = lacks_depth(fault, need);
        ds_text_add(out, bare_8 ? "Ask its maker for the depth and time of its 8, or " : "");
        need_code(out, bare_8 ? "fit a " : "Fit a ", entry, " marked at least ", need);
        return;
    }
    ds_text_add(out, "Ask its maker for the water tests of ");
    ds_need_print(out, need);
    ds_text_add(out, " too, or fit a ");
    ds_text_add(out, ds_words_fitting(entry->holds));
    ds_text_add(out, " marked IP66/IP6");
    ds_text_int(out, lone);
    ds_text_char(out, '.');
}

static void mend_fault(ds_text *const out, const ds_installed *const installed, const ds_part *const part,
                       const ds_entry_judged *const judged, const ds_entry_fault *const fault,
                       const ds_need need)
{
    const ds_entry *const entry = part->entry;
    switch (fault->reason) {
    case DS_ENTRY_RATED:
        mend_rated(out, entry, fault, need);
        break;
    case DS_ENTRY_NO_CODE:
    case DS_ENTRY_CODE_UNREADABLE:
        need_code(out, "Read the code off the ", entry, " or its data sheet; it must show ", need);
        break;
    case DS_ENTRY_CABLE:
        mend_cable(out, installed, part, judged, fault, need);
        break;
    case DS_ENTRY_THREAD:
        mend_thread(out, installed, entry, &judged->thread);
        break;
    case DS_ENTRY_NOTHING:
        close_it(out, "Close it with a sealed blank", need);
        break;
    case DS_ENTRY_MAKESHIFT:
        close_it(out, "Take it out and fit a sealed blank", need);
        break;
    case DS_ENTRY_BY_HAND:
        close_it(out, "Take it out and fit a sealed blank that needs a tool,", need);
        break;
    case DS_ENTRY_BRUSH:
        close_it(out, "Put glands or an insert in its place,", need);
        break;
    case DS_ENTRY_DRAIN_HOLE:
        ds_text_add(out,
                    "Use the maker's own drain point, or put a drain fitting into an entry that is there, "
                    "marked at least ");
        ds_need_print(out, need);
        ds_text_char(out, '.');
        break;
    default:
        ds_text_add(out, PLAIN[fault->reason] ? PLAIN[fault->reason] : "");
        break;
    }
}

static void mend_opening(ds_text *const out, const ds_part *const part, const ds_need need)
{
    ds_probe probe;
    ds_probe_opening(&probe, part->opening);
    const uint64_t refuted = ds_mark_proven(need) & ds_mark_denied(probe.mark);
    ds_need lost;
    ds_mark_compare(need, probe.mark, &lost);
    if (probe.status != DS_PROBE_MEASURED) {
        ds_text_add(out, "Measure it again.");
    } else if (!refuted && isnan(part->opening->live_part_mm) && ds_mark_proven(lost) & DS_ACCESS_ALL) {
        ds_text_add(out, "Measure how far behind it the nearest live part stands: live_part_mm.");
    } else {
        ds_text_add(out, "Close it with a part marked at least ");
        ds_need_print(out, need);
        ds_text_add(out, ", or have the maker show that the box keeps that with the opening.");
    }
}

/* The fault that stands against a need; NULL where the part answers it, for an opening and for no part. */
static const ds_entry_fault *fault_of(ds_entry_judged *const judged, const ds_installed *const installed,
                                      const ds_part *const part, const ds_need asked)
{
    if (!part || !part->entry || ds_mark_compare(asked, part->mark, NULL) == DS_FITS) {
        return NULL;
    }
    ds_entry_judge(judged, part->entry, installed->sizes);
    return ds_entry_worst(judged, asked);
}

const char *ds_part_key(const ds_installed *const installed, const ds_part *const part, const ds_need need)
{
    ds_entry_judged judged;
    const ds_entry_fault *const fault = fault_of(&judged, installed, part, ds_words_need(need));
    const bool no_size =
        fault && fault->reason == DS_ENTRY_THREAD && judged.thread.fit == DS_THREAD_NOT_STATED;
    return no_size ? "size" : fault ? KEYS[fault->reason] : NULL;
}

void ds_say_part_mend(ds_text *const out, const ds_installed *const installed, const ds_part *const part,
                      const ds_need need)
{
    const ds_need asked = ds_words_need(need);
    if (ds_mark_compare(asked, part->mark, NULL) == DS_FITS) {
        return;
    }
    if (!part->entry) {
        mend_opening(out, part, asked);
        return;
    }
    ds_entry_judged judged;
    const ds_entry_fault *const fault = fault_of(&judged, installed, part, asked);
    if (fault) {
        mend_fault(out, installed, part, &judged, fault, asked);
    }
}
