/* SPDX-License-Identifier: MIT */
/*
 * What of an entry or opening stands against a need, in one sentence for each reason. Cables and threads: entry_say_fit.c;
 * what to do: entry_mend.c.
 */
#include "core/box/entry_say.h"

#include "core/box/entry_words.h"

#include <math.h>

static void separate(ds_text *const out, const size_t start)
{
    ds_text_add(out, out->len > start ? ", " : "");
}

/* --- names -------------------------------------------------------------------------------------------------------- */

static void name_entry(ds_text *const out, const ds_part *const part)
{
    const ds_entry *const entry = part->entry;
    ds_text_add(out, "Entry ");
    if (entry->id.at) {
        ds_text_adds(out, entry->id);
    } else {
        ds_text_int(out, part->number);
    }
    if (!entry->size.at && !entry->face) {
        return;
    }
    ds_text_add(out, " (");
    const size_t start = out->len;
    ds_text_adds(out, entry->size);
    if (entry->face) {
        separate(out, start);
        ds_text_add(out, ds_side_word(entry->face));
    }
    ds_text_char(out, ')');
}

static void name_opening(ds_text *const out, const ds_part *const part)
{
    ds_text_add(out, "Opening ");
    ds_text_int(out, part->number);
    if (part->face->side) {
        ds_text_add(out, " in the ");
        ds_text_add(out, ds_side_word(part->face->side));
        ds_text_add(out, " face");
    }
    ds_probe_status status;
    const double clear_mm = ds_probe_clear_mm(part->opening, &status);
    if (!isnan(clear_mm)) {
        ds_text_add(out, " (");
        ds_text_add(out, ds_opening_word(part->opening->shape));
        ds_text_add(out, ", ");
        ds_words_mm(out, clear_mm);
        ds_text_add(out, " clear)");
    }
}

void ds_say_part_name(ds_text *const out, const ds_part *const part)
{
    if (part->entry) {
        name_entry(out, part);
    } else {
        name_opening(out, part);
    }
}

/* --- the other parts ---------------------------------------------------------------------------------------------- */

static void say_rated(ds_text *const out, const ds_entry *const entry, const ds_entry_fault *const fault,
                      const ds_need need)
{
    ds_need lost;
    const ds_verdict verdict = ds_mark_compare(need, fault->mark, &lost);
    ds_text_add(out, "the ");
    ds_text_add(out, ds_words_fitting(entry->holds));
    ds_text_add(out, " is marked ");
    ds_text_adds(out, entry->ip);
    const int lone = ds_words_lone_numeral(fault, need);
    if (lone) {
        ds_text_add(out, ", and its ");
        ds_text_int(out, lone);
        ds_text_add(out, " does not include the water tests of ");
        ds_need_print(out, need);
        ds_text_char(out, '.');
        return;
    }
    ds_text_add(out, verdict == DS_SHORT ? ", which is less than " : ", which does not show ");
    ds_need_print(out, need);
    ds_text_char(out, '.');
}

static void say_hole(ds_text *const out, const ds_entry_judged *const judged, const char *const before,
                     const char *const after)
{
    ds_text_add(out, before);
    if (!isnan(judged->thread.hole_mm[1])) {
        ds_text_add(out, " of ");
        ds_words_span_mm(out, judged->thread.hole_mm);
    }
    ds_text_add(out, after);
}

static void say_makeshift(ds_text *const out, const ds_entry *const entry,
                          const ds_entry_judged *const judged)
{
    const char *const what = entry->holds == DS_HOLDS_TAPE           ? "tape over a hole"
                             : entry->holds == DS_HOLDS_HAND_SEALANT ? "sealant put by hand into a hole"
                                                                     : "a seal forced into a hole";
    say_hole(out, judged, what, ": a makeshift closure proves nothing.");
}

/* Where water may come from: the conduit, or the inside of the cable. */
static void say_led_in(ds_text *const out, const ds_entry *const entry, const char *const before)
{
    ds_text_add(out, before);
    ds_text_add(out, entry->holds == DS_HOLDS_CONDUIT ? "conduit" : "cable");
    ds_text_add(out, " from its other end.");
}

static void say_simple(ds_text *const out, const ds_entry *const entry, const char *const before,
                       const char *const after)
{
    ds_text_add(out, before);
    ds_text_add(out, ds_words_fitting(entry->holds));
    ds_text_add(out, after);
}

/* Reasons whose sentence has at most the name of the fitting in it. */
static void say_plain(ds_text *const out, const ds_entry *const entry, const ds_entry_fault *const fault)
{
    static const struct {
        const char *before, *after;
    } SAYS[DS_ENTRY_REASONS] = {
        [DS_ENTRY_NO_CODE] = {"no code of the ", " is stated."},
        [DS_ENTRY_NO_WALL_SEAL] = {"no washer or O-ring seals the ",
                                   " to the wall of the box: jets and fine dust come in past its thread."},
        [DS_ENTRY_WALL_SEAL_OPEN] = {"it is not stated whether a washer or O-ring seals the ",
                                     " to the wall of the box."},
        [DS_ENTRY_BY_HAND] = {"the ", " comes out by hand, without a tool: it proves nothing."},
        [DS_ENTRY_DRAIN_NOT_LOWEST] = {"the ",
                                       " is not shown to be in the bottom: it does not drain, and takes "
                                       "water in."}};
    static const char *const WHOLE[DS_ENTRY_REASONS] = {
        [DS_ENTRY_NOT_UNDERSTOOD] = "it is not known what sits in it.",
        [DS_ENTRY_BLANK_CABLE] = "a cable is noted in it, and no cable goes through a blank.",
        [DS_ENTRY_HOLES_UNKNOWN] = "it is not stated what its holes hold.",
        [DS_ENTRY_BRUSH] = "a brush without a code of its own keeps out neither dust nor water nor fingers.",
        [DS_ENTRY_FIXING_INSIDE] =
            "a screw hole inside the seal of the lid is not sealed: water comes in and stays.",
        [DS_ENTRY_FIXING_SEALED] =
            "a screw hole inside the seal of the lid, sealed with a part that shows no code.",
        [DS_ENTRY_FIXING_UNKNOWN] =
            "it is not stated whether this screw hole lies outside the seal of the lid."};
    if (WHOLE[fault->reason]) {
        ds_text_add(out, WHOLE[fault->reason]);
    } else if (SAYS[fault->reason].before) {
        say_simple(out, entry, SAYS[fault->reason].before, SAYS[fault->reason].after);
    }
}

static void say_fault(ds_text *const out, const ds_part *const part, const ds_entry_judged *const judged,
                      const ds_entry_fault *const fault, const ds_need need)
{
    const ds_entry *const entry = part->entry;
    switch (fault->reason) {
    case DS_ENTRY_RATED:
        say_rated(out, entry, fault, need);
        break;
    case DS_ENTRY_CODE_UNREADABLE:
        ds_text_add(out, "\"");
        ds_text_adds(out, entry->ip);
        ds_text_add(out, "\" on it is no code and shows nothing.");
        break;
    case DS_ENTRY_CABLE:
        ds_words_cable_fault(out, entry, fault);
        break;
    case DS_ENTRY_THREAD:
        ds_words_thread_fault(out, entry, &judged->thread);
        break;
    case DS_ENTRY_HOLE_OPEN:
        ds_words_open_hole(out, fault);
        break;
    case DS_ENTRY_NOTHING:
        say_hole(out, judged, "a hole", " stands open.");
        break;
    case DS_ENTRY_DRAIN_HOLE:
        say_hole(out, judged, "a mere hole", " for a drain, without a code of its own.");
        break;
    case DS_ENTRY_LED_IN:
        say_led_in(out, entry, "water can run in through the ");
        break;
    case DS_ENTRY_LED_IN_OPEN:
        say_led_in(out, entry, "it is not stated whether water can run in through the ");
        break;
    case DS_ENTRY_MAKESHIFT:
        say_makeshift(out, entry, judged);
        break;
    default:
        say_plain(out, entry, fault);
        break;
    }
}

/* --- openings ----------------------------------------------------------------------------------------------------- */

/* What a refuted letter means: its probe touches the live part, or what holds the probe follows it in. */
static void say_reach(ds_text *const out, const ds_opening *const opening, const ds_probe *const probe)
{
    static const struct {
        double reach_mm;
        const char *touches, *follows;
    } LETTERS[] = {{25, "a hand touches", "a hand goes through it"},
                   {80, "a finger touches", "a finger goes in, and the hand follows"},
                   {100, "a tool touches", ""},
                   {100, "a wire touches", ""}};
    const size_t letter = (size_t)(probe->denied - 'A');
    ds_text_add(out, "; ");
    if (opening->live_part_mm <= LETTERS[letter].reach_mm) {
        ds_text_add(out, LETTERS[letter].touches);
        ds_text_add(out, " the live part ");
        ds_words_mm(out, opening->live_part_mm);
        ds_text_add(out, " behind it");
    } else {
        ds_text_add(out, LETTERS[letter].follows);
    }
}

static void say_measured(ds_text *const out, const ds_opening *const opening, const ds_probe *const probe,
                         const ds_need lost)
{
    const uint64_t tests = ds_mark_proven(lost);
    const uint64_t denied = ds_mark_denied(probe->mark);
    ds_text_add(out, "its size allows first numeral ");
    ds_text_int(out, probe->numeral);
    ds_text_add(out, " at most");
    if (probe->denied && tests & (DS_ACCESS_ALL | DS_OBJECTS_TO(4)) & denied) {
        say_reach(out, opening, probe);
    } else if (tests & DS_ACCESS_ALL) {
        ds_text_add(out, isnan(opening->live_part_mm)
                             ? "; how far behind it a live part stands is not stated"
                             : "; its live part stands too near to be surely out of reach");
    }
    if (tests & (DS_WATER_ALL | DS_OBJECT(5) | DS_OBJECT(6)) & ~denied) {
        ds_text_add(out, "; a size shows nothing of dust or water");
    }
    ds_text_char(out, '.');
}

static void say_opening(ds_text *const out, const ds_part *const part, const ds_need lost)
{
    static const char *const WHY[] = {
        [DS_PROBE_NO_SHAPE] = "its shape is not known.",
        [DS_PROBE_NO_SIZE] = "its measure is not stated.",
        [DS_PROBE_NO_TRIANGLE] = "no triangle has such sides: one was measured or noted wrongly.",
        [DS_PROBE_CABLE_TOO_BIG] = "the cable is thicker than the hole: one was measured wrongly."};
    ds_probe probe;
    ds_probe_opening(&probe, part->opening);
    if (probe.status == DS_PROBE_MEASURED) {
        say_measured(out, part->opening, &probe, lost);
    } else {
        ds_text_add(out, WHY[probe.status]);
    }
}

/* --- the sentence ------------------------------------------------------------------------------------------------- */

void ds_say_part(ds_text *const out, const ds_installed *const installed, const ds_part *const part,
                 const ds_need need)
{
    const ds_need asked = ds_words_need(need);
    ds_need lost;
    if (ds_mark_compare(asked, part->mark, &lost) == DS_FITS) {
        return;
    }
    ds_entry_judged judged;
    const ds_entry_fault *fault = NULL;
    if (part->entry) {
        ds_entry_judge(&judged, part->entry, installed->sizes);
        fault = ds_entry_worst(&judged, asked);
    }
    if (part->entry && !fault) {
        return;
    }
    ds_say_part_name(out, part);
    ds_text_add(out, ": ");
    if (fault) {
        say_fault(out, part, &judged, fault, asked);
    } else {
        say_opening(out, part, lost);
    }
}

/* The name of the part, after what stands already. */
static void begin_note(ds_text *const out, const size_t start, const ds_part *const part)
{
    ds_text_add(out, out->len > start ? " " : "");
    ds_say_part_name(out, part);
    ds_text_add(out, ": ");
}

/* A fitting that just goes into a plain hole which is usual for another thread. */
static const ds_thread_size *other_thread(const ds_installed *const installed, const ds_entry *const entry,
                                          const ds_thread_fitted *const thread)
{
    const bool narrow = entry->threaded != DS_TRI_YES && !entry->hole_size.at && thread->size &&
                        thread->fit == DS_THREAD_FITS && thread->hole_mm[0] < thread->size->hole_mm[0];
    const ds_thread_size *const size =
        narrow ? ds_words_size_of_hole(installed->sizes, entry, thread->hole_mm) : NULL;
    return size != thread->size ? size : NULL;
}

void ds_say_part_notes(ds_text *const out, const ds_installed *const installed, const ds_part *const part)
{
    if (!part->entry) {
        return;
    }
    const size_t start = out->len;
    ds_entry_judged judged;
    ds_entry_judge(&judged, part->entry, installed->sizes);
    if (judged.from_above && part->entry->holds != DS_HOLDS_FIXING_HOLE) {
        begin_note(out, start, part);
        ds_text_add(out, "water stands on an entry from above; one from below, with a drip loop, is better.");
    }
    const ds_thread_size *const other = other_thread(installed, part->entry, &judged.thread);
    if (other) {
        begin_note(out, start, part);
        ds_text_adds(out, judged.thread.size->size);
        ds_text_add(out, " just goes into this hole, which is usual for ");
        ds_text_adds(out, other->size);
        ds_text_add(out, ": do not mix their locknuts and seals.");
    }
    if (judged.tabled) {
        begin_note(out, start, part);
        ds_text_add(out, "the diameter of the cable is what its standard allows, not measured (");
        ds_text_add(out, ds_source_kind_word(judged.tabled->source.kind));
        ds_text_add(out, ": ");
        ds_text_adds(out, judged.tabled->source.ref);
        ds_text_add(out, ").");
    }
}
