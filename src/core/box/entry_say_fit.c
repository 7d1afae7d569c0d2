/* SPDX-License-Identifier: MIT */
/* Cables in seals and threads in holes, in one sentence each; and the phrases that all sentences of entries share. */
#include "core/box/entry_words.h"

#include <math.h>

/* --- phrases ------------------------------------------------------------------------------------------------------ */

ds_need ds_words_need(const ds_need need)
{
    return (need & ~(UINT64_C(15) << 38 | UINT64_C(15) << 42)) | DS_NEED_NOTHING;
}

int ds_words_lone_numeral(const ds_entry_fault *const fault, const ds_need need)
{
    ds_need lost;
    ds_mark_compare(need, fault->mark, &lost);
    const uint64_t denied = ds_mark_denied(fault->mark);
    const bool low_only = ds_mark_proven(lost) && !(ds_mark_proven(lost) & ~DS_WATER_TO(6));
    if (!low_only || ds_mark_proven(fault->mark) & DS_WATER_TO(6) ||
        !(denied & (DS_WATER(5) | DS_WATER(6)))) {
        return 0;
    }
    return !(denied & DS_WATER(8)) ? 8 : !(denied & DS_WATER(7)) ? 7 : !(denied & DS_WATER(9)) ? 9 : 0;
}

void ds_words_mm(ds_text *const out, const double mm)
{
    ds_text_number(out, mm, 2);
    ds_text_add(out, " mm");
}

void ds_words_span_mm(ds_text *const out, const double mm[2])
{
    if (mm[0] != mm[1]) {
        ds_text_number(out, mm[0], 2);
        ds_text_add(out, " to ");
    }
    ds_words_mm(out, mm[1]);
}

const char *ds_words_fitting(const ds_holds holds)
{
    static const char *const NOUNS[] = {[DS_HOLDS_MISSING] = "fitting",
                                        [DS_HOLDS_GLAND] = "gland",
                                        [DS_HOLDS_BLANK] = "blank",
                                        [DS_HOLDS_INSERT] = "multi-hole gland",
                                        [DS_HOLDS_CONDUIT] = "conduit fitting",
                                        [DS_HOLDS_BRUSH] = "brush plate",
                                        [DS_HOLDS_DRAIN] = "drain",
                                        [DS_HOLDS_BREATHER] = "breather",
                                        [DS_HOLDS_TAPE] = "tape",
                                        [DS_HOLDS_HAND_SEALANT] = "sealant put on by hand",
                                        [DS_HOLDS_FORCED_SEAL] = "seal forced in",
                                        [DS_HOLDS_FIXING_HOLE] = "fixing screw",
                                        [DS_HOLDS_NOTHING] = "hole"};
    return NOUNS[holds];
}

void ds_words_cable(ds_text *const out, const ds_entry_fault *const fault)
{
    static const char *const MEASURES[] = {"", " under its armour", " width", " thickness"};
    ds_text_add(out, "the cable");
    if (fault->cable.cable_mm[0] <= fault->cable.cable_mm[1]) {
        ds_text_add(out, " of ");
        ds_words_span_mm(out, fault->cable.cable_mm);
        ds_text_add(out, MEASURES[fault->cable.measure]);
    }
    if (fault->hole) {
        ds_text_add(out, " in hole ");
        ds_text_int(out, fault->hole);
    }
}

const char *ds_words_seal(const ds_entry *const entry, const ds_entry_fault *const fault)
{
    return fault->cable.measure == DS_MEASURE_INNER ? "inner seal"
           : fault->hole                            ? "hole"
                                                    : ds_words_fitting(entry->holds);
}

/* --- cables ------------------------------------------------------------------------------------------------------- */

static void say_too(ds_text *const out, const ds_entry *const entry, const ds_entry_fault *const fault)
{
    const bool thick = fault->cable.fit == DS_FIT_TOO_THICK;
    ds_words_cable(out, fault);
    ds_text_add(out, thick ? " is thicker than the " : " is thinner than the ");
    ds_text_add(out, ds_words_seal(entry, fault));
    ds_text_add(out, "'s ");
    ds_words_mm(out, fault->cable.seal_mm[thick ? 1 : 0]);
    ds_text_add(out, fault->cable.measure == DS_MEASURE_INNER ? ": that does not close."
                                                              : ": nothing keeps water out there.");
}

static void say_maybe(ds_text *const out, const ds_entry *const entry, const ds_entry_fault *const fault)
{
    ds_words_cable(out, fault);
    ds_text_add(out, " is not all within the ");
    ds_text_add(out, ds_words_seal(entry, fault));
    ds_text_add(out, "'s ");
    ds_words_span_mm(out, fault->cable.seal_mm);
    ds_text_add(out, ": it is not shown to seal.");
}

void ds_words_open_hole(ds_text *const out, const ds_entry_fault *const fault)
{
    ds_text_add(out, "hole ");
    ds_text_int(out, fault->hole);
    ds_text_add(out, " of the multi-hole gland has neither cable nor plug.");
}

static void say_channel(ds_text *const out, const ds_entry_fault *const fault, const char *const what,
                        const char *const where)
{
    ds_text_add(out, what);
    if (fault->cable.channel_mm[0] > 0) {
        ds_text_add(out, "leaves a way in of ");
        ds_words_mm(out, fault->cable.channel_mm[0]);
        ds_text_add(out, " and more");
    } else {
        ds_text_add(out, "leaves a way in");
    }
    ds_text_add(out, where);
}

static void say_unknown_cable(ds_text *const out, const ds_entry *const entry,
                              const ds_entry_fault *const fault)
{
    const ds_cable *const cable = fault->hole ? &entry->holes[fault->hole - 1].cable : &entry->cable;
    if (fault->cable.fit == DS_FIT_NO_TYPE) {
        ds_text_add(out, "\"");
        ds_text_adds(out, cable->type);
        ds_text_add(out, "\" is no type of cable whose diameter is known.");
    } else if (fault->cable.fit == DS_FIT_NO_SIZE) {
        ds_text_add(out, "of ");
        ds_text_adds(out, cable->type);
        ds_text_add(out, " no size \"");
        ds_text_adds(out, cable->size);
        ds_text_add(out, "\" is known.");
    } else if (fault->cable.fit == DS_FIT_NO_CABLE) {
        ds_words_cable(out, fault);
        ds_text_add(out, " is not stated.");
    } else {
        ds_text_add(out, "how thick ");
        ds_words_cable(out, fault);
        ds_text_add(out, fault->cable.measure == DS_MEASURE_INNER ? " is under its armour is not known."
                                                                  : " is, is not known.");
    }
}

static void say_over_hole(ds_text *const out, const ds_entry_fault *const fault)
{
    ds_words_cable(out, fault);
    ds_text_add(out, " does not go through a hole of ");
    ds_words_span_mm(out, fault->cable.seal_mm);
    ds_text_add(out, ": one of the two was measured or noted wrongly.");
}

/* A seal, or one hole of an insert, that was left open. */
static void say_empty(ds_text *const out, const ds_entry *const entry, const ds_entry_fault *const fault)
{
    if (fault->hole) {
        ds_words_open_hole(out, fault);
        return;
    }
    ds_text_add(out, "the ");
    ds_text_add(out, ds_words_fitting(entry->holds));
    ds_text_add(out, " holds no cable: it is an open hole.");
}

void ds_words_cable_fault(ds_text *const out, const ds_entry *const entry, const ds_entry_fault *const fault)
{
    switch (fault->cable.fit) {
    case DS_FIT_TOO_THIN:
    case DS_FIT_TOO_THICK:
        say_too(out, entry, fault);
        break;
    case DS_FIT_MAYBE:
        say_maybe(out, entry, fault);
        break;
    case DS_FIT_NO_RANGE:
        ds_text_add(out, "it is not stated which cables the ");
        ds_text_add(out, ds_words_seal(entry, fault));
        ds_text_add(out, " is made for.");
        break;
    case DS_FIT_FLAT:
        say_channel(out, fault, "a flat cable in a round seal ",
                    " on each side: nothing keeps water out there.");
        break;
    case DS_FIT_ROUND_IN_FLAT:
        ds_text_add(out, "a round cable in a flat seal: nothing keeps water out there.");
        break;
    case DS_FIT_SEVERAL:
        say_channel(out, fault, "more than one cable in one seal ",
                    " between them: nothing keeps water out there.");
        break;
    case DS_FIT_EMPTY:
        say_empty(out, entry, fault);
        break;
    case DS_FIT_OVER_HOLE:
        say_over_hole(out, fault);
        break;
    default:
        say_unknown_cable(out, entry, fault);
        break;
    }
}

/* --- threads ------------------------------------------------------------------------------------------------------ */

const ds_thread_size *ds_words_size_of_hole(const ds_sizes *const sizes, const ds_entry *const entry,
                                            const double hole_mm[2])
{
    if (entry->hole_size.at) {
        return ds_sizes_thread(sizes, entry->hole_size);
    }
    for (size_t i = 0; i < sizes->threads_len; i++) {
        const ds_thread_size *const size = &sizes->threads[i];
        const bool tapped = entry->threaded == DS_TRI_YES;
        const double low = tapped ? size->core_mm - 0.1 : size->hole_mm[0];
        const double high = tapped ? size->core_mm + 0.1 : size->hole_mm[1];
        if (low <= hole_mm[0] && hole_mm[0] <= high) {
            return size;
        }
    }
    return NULL;
}

static void name_thread(ds_text *const out, const ds_entry *const entry, const ds_thread_fitted *const thread)
{
    ds_text_add(out, "the ");
    ds_text_adds(out, entry->size);
    ds_text_add(out, " thread");
    if (thread->size) {
        ds_text_add(out, ", ");
        ds_words_mm(out, thread->size->thread_mm);
        ds_text_char(out, ',');
    }
}

static void name_hole(ds_text *const out, const ds_entry *const entry, const ds_thread_fitted *const thread)
{
    const bool threaded = entry->threaded == DS_TRI_YES;
    if (!isnan(entry->hole_mm)) {
        ds_text_add(out, threaded ? "a hole tapped from " : "a hole of ");
        ds_words_mm(out, thread->hole_mm[0]);
    } else {
        ds_text_add(out, threaded ? "the hole's thread " : "a hole for ");
        ds_text_adds(out, entry->hole_size);
    }
}

static void say_unknown_size(ds_text *const out, const ds_str size)
{
    ds_text_add(out, "\"");
    ds_text_adds(out, size);
    ds_text_add(out, "\" is no known size of thread.");
}

static void say_no_thread(ds_text *const out, const ds_entry *const entry,
                          const ds_thread_fitted *const thread)
{
    const bool known = !isnan(thread->hole_mm[1]);
    ds_text_add(out, known ? "the thread of the " : "neither the thread of the ");
    ds_text_add(out, ds_words_fitting(entry->holds));
    ds_text_add(out, known ? " is not stated, so whether it belongs in " : " nor its hole is stated.");
    if (known) {
        name_hole(out, entry, thread);
        ds_text_add(out, " is not known.");
    }
}

void ds_words_thread_fault(ds_text *const out, const ds_entry *const entry,
                           const ds_thread_fitted *const thread)
{
    static const struct {
        const char *between, *end;
    } SAYS[] = {
        [DS_THREAD_TOO_LARGE] = {" does not go into ", ": one of the two was measured or noted wrongly."},
        [DS_THREAD_LOOSE] = {" does not belong in ", ": its seal to the wall is not shown to cover."},
        [DS_THREAD_FALLS_THROUGH] = {" falls through ", ": nothing keeps water out there."},
        [DS_THREAD_OTHER] = {" does not belong in ", ": nothing keeps water out there."}};
    if (thread->fit == DS_THREAD_NO_SIZE || thread->fit == DS_THREAD_NO_HOLE_SIZE) {
        say_unknown_size(out, thread->fit == DS_THREAD_NO_SIZE ? entry->size : entry->hole_size);
        return;
    }
    if (thread->fit == DS_THREAD_NOT_STATED) {
        say_no_thread(out, entry, thread);
        return;
    }
    name_thread(out, entry, thread);
    ds_text_add(out, SAYS[thread->fit].between);
    name_hole(out, entry, thread);
    ds_text_add(out, SAYS[thread->fit].end);
}
