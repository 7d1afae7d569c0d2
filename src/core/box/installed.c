/* SPDX-License-Identifier: MIT */
/* The weakest of all parts; see installed.h. */
#include "core/box/installed.h"

#include <math.h>

/* --- openings ----------------------------------------------------------------------------------------------------- */

/* Dust and water: open, or as the box's own mark where the maker made the opening and no test of objects is refuted. */
static ds_mark opening_mark(const ds_opening *const opening, const ds_probe *const probe)
{
    const uint64_t dust = DS_OBJECT(5) | DS_OBJECT(6);
    uint64_t proven = ds_mark_proven(probe->mark);
    const uint64_t denied = ds_mark_denied(probe->mark);
    if (opening->as_made == DS_TRI_YES) {
        proven |= (DS_WATER_ALL | dust) & ~denied;
    }
    const uint64_t impact_free = DS_MARK_WHOLE & ~DS_TESTS_ALL;
    return proven | denied << DS_TEST_COUNT | impact_free;
}

/* Nobody reaches through a face that is against a wall. */
static ds_mark as_reached(const ds_mark mark, const ds_face *const face)
{
    const bool behind = face && face->covered == DS_TRI_YES && face->reachable == DS_TRI_NO;
    return behind ? (mark | DS_ACCESS_ALL) & ~(DS_ACCESS_ALL << DS_TEST_COUNT) : mark;
}

static void put_openings(ds_part **const next, const ds_face *const face)
{
    for (size_t i = 0; i < face->openings_len; i++) {
        ds_part *const part = (*next)++;
        *part = (ds_part){.face = face, .opening = &face->openings[i], .number = (uint32_t)(i + 1)};
        ds_probe probe;
        ds_probe_opening(&probe, part->opening);
        part->mark = as_reached(opening_mark(part->opening, &probe), face);
    }
}

static void put_entries(ds_part **const next, const ds_box *const box, const ds_sizes *const sizes)
{
    const ds_face *faces[DS_SIDE_BACK + 1] = {NULL};
    for (size_t i = 0; i < box->faces_len; i++) {
        faces[box->faces[i].side] = box->faces[i].side ? &box->faces[i] : NULL;
    }
    for (size_t i = 0; i < box->entries_len; i++) {
        ds_part *const part = (*next)++;
        const ds_entry *const entry = &box->entries[i];
        *part = (ds_part){.entry = entry, .face = faces[entry->face], .number = (uint32_t)(i + 1)};
        ds_entry_judged judged;
        ds_entry_judge(&judged, entry, sizes);
        part->mark = as_reached(judged.mark, part->face);
    }
}

/* --- faces by measure alone --------------------------------------------------------------------------------------- */

/* Round its openings, which are parts, a shell measured on all its faces keeps out objects up to 4 and people. */
static ds_mark shell_measured(const ds_box *const box)
{
    unsigned sides = 0;
    for (size_t i = 0; i < box->faces_len; i++) {
        const ds_face *const face = &box->faces[i];
        if (face->all_openings_measured == DS_TRI_YES && face->side) {
            sides |= 1U << face->side;
        }
    }
    const unsigned all = (2U << DS_SIDE_BACK) - (1U << DS_SIDE_TOP);
    return sides == all ? DS_MARK_SILENT | DS_OBJECTS_TO(4) | DS_ACCESS_ALL : DS_MARK_SILENT;
}

/* --- the whole ---------------------------------------------------------------------------------------------------- */

ds_status ds_installed_of(ds_installed *const out, const ds_box *const box, const ds_sizes *const sizes,
                          ds_arena *const arena)
{
    *out = (ds_installed){.sizes = sizes,
                          .entries_stated = box->entries_stated,
                          .entries_len = box->entries_len,
                          .parts_mark = DS_MARK_WHOLE,
                          .measured = shell_measured(box)};
    size_t len = box->entries_len;
    for (size_t i = 0; i < box->faces_len; i++) {
        len += box->faces[i].openings_len;
    }
    ds_part *const parts = ds_arena_take_many(arena, len, sizeof *parts);
    if (!parts) {
        return DS_NO_MEMORY;
    }
    ds_part *next = parts;
    put_entries(&next, box, sizes);
    for (size_t i = 0; i < box->faces_len; i++) {
        put_openings(&next, &box->faces[i]);
    }
    for (size_t i = 0; i < len; i++) {
        out->parts_mark = ds_mark_weakest(out->parts_mark, parts[i].mark);
    }
    out->parts = parts;
    out->parts_len = len;
    return DS_OK;
}

ds_mark ds_installed_body(const ds_installed *const installed, const ds_mark marked)
{
    return installed ? ds_mark_join(marked, installed->measured) : marked;
}

ds_mark ds_installed_mark(const ds_installed *const installed, const ds_mark marked)
{
    return ds_mark_weakest(ds_installed_body(installed, marked), installed->parts_mark);
}

ds_need ds_installed_claim(const ds_mark marked)
{
    const uint64_t immersion = ds_mark_proven(marked) & DS_WATER(8) ? ~((UINT64_C(1) << 46) - 1) : 0;
    return ds_mark_proven(marked) | (marked & immersion) | DS_NEED_NOTHING;
}

static int count_tests(uint64_t set)
{
    int count = 0;
    for (; set; set &= set - 1) {
        count++;
    }
    return count;
}

/* A test that is lost counts once, one that is denied twice: so what turns open into denied is worse too. */
static int count_lost(const ds_need lost, const ds_mark mark)
{
    return count_tests(ds_mark_proven(lost)) + count_tests(ds_mark_proven(lost) & ds_mark_denied(mark));
}

const ds_part *ds_installed_decides(const ds_installed *const installed, const ds_mark marked,
                                    const ds_need need)
{
    const ds_mark body = ds_installed_body(installed, marked);
    ds_need lost;
    const ds_part *worst = NULL;
    ds_verdict worst_verdict = ds_mark_compare(need, body, &lost);
    int worst_lost = count_lost(lost, body);
    for (size_t i = 0; i < installed->parts_len; i++) {
        const ds_part *const part = &installed->parts[i];
        const ds_mark left = ds_mark_weakest(body, part->mark);
        const ds_verdict verdict = ds_mark_compare(need, left, &lost);
        const int lost_tests = count_lost(lost, left);
        if (verdict > worst_verdict || (verdict == worst_verdict && lost_tests > worst_lost)) {
            worst = part;
            worst_verdict = verdict;
            worst_lost = lost_tests;
        }
    }
    return worst;
}

/* --- conditions --------------------------------------------------------------------------------------------------- */

typedef ds_tri meets(const ds_installed *installed, const ds_entry *entry);

static ds_tri is_plugged(const ds_installed *const installed, const ds_entry *const entry)
{
    (void)installed;
    return entry->holds == DS_HOLDS_NOTHING || ds_entry_is_makeshift(entry) ? DS_TRI_NO : DS_TRI_YES;
}

static ds_tri is_lowest(const ds_installed *const installed, const ds_entry *const entry)
{
    (void)installed;
    if (entry->holds != DS_HOLDS_DRAIN || entry->face == DS_SIDE_BOTTOM) {
        return DS_TRI_YES;
    }
    return entry->face == DS_SIDE_MISSING ? DS_TRI_MISSING : DS_TRI_NO;
}

static ds_tri is_glanded(const ds_installed *const installed, const ds_entry *const entry)
{
    if (entry->holds != DS_HOLDS_GLAND && entry->holds != DS_HOLDS_INSERT) {
        return is_plugged(installed, entry);
    }
    ds_entry_judged judged;
    ds_entry_judge(&judged, entry, installed->sizes);
    ds_tri state = DS_TRI_YES;
    for (uint8_t i = 0; i < judged.faults_len; i++) {
        const ds_entry_fault *const fault = &judged.faults[i];
        if (fault->reason != DS_ENTRY_RATED) {
            state = ds_mark_denied(fault->mark) ? DS_TRI_NO : DS_TRI_MISSING;
        }
        if (state == DS_TRI_NO) {
            return DS_TRI_NO;
        }
    }
    return state;
}

static meets *judge_of(const ds_str word)
{
    return ds_str_is(word, "spare-entries-plugged") ? is_plugged
           : ds_str_is(word, "drain-lowest")        ? is_lowest
           : ds_str_is(word, "glands-fitted")       ? is_glanded
                                                    : NULL;
}

ds_tri ds_installed_condition(const ds_installed *const installed, const ds_str word)
{
    meets *const judge = judge_of(word);
    if (!judge || !installed->entries_stated) {
        return DS_TRI_MISSING;
    }
    ds_tri all = DS_TRI_YES;
    for (size_t i = 0; i < installed->entries_len; i++) {
        const ds_entry *const entry = installed->parts[i].entry;
        const ds_tri one = entry->holds ? judge(installed, entry) : DS_TRI_MISSING;
        if (one == DS_TRI_NO) {
            return DS_TRI_NO;
        }
        all = one == DS_TRI_MISSING ? DS_TRI_MISSING : all;
    }
    return all;
}
