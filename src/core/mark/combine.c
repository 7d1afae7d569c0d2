/* SPDX-License-Identifier: MIT */
/*
 * Several codes to one: a multiple code of one enclosure, the joint reading of codes that leave a numeral
 * open, or two variants of which only what both cover counts.
 */
#include "core/mark/print.h"
#include "core/mark/reader.h"

static bool is_in(const unsigned set, const unsigned i)
{
    return set >> i & 1;
}

static uint16_t numeral_bit(const int8_t water)
{
    return (uint16_t)(water > 0 ? 1U << water : 0);
}

ds_claim ds_code_claim(const ds_code *const code)
{
    const uint16_t bit = numeral_bit(code->water);
    return (ds_claim){.objects = code->objects,
                      .objects_foreign = code->objects_k,
                      .access = code->access,
                      .water_stated = code->water >= 0,
                      .water = code->water_k ? 0 : bit,
                      .water_foreign = code->water_k ? bit : 0,
                      .impact = -1,
                      .depth_m = code->depth_m,
                      .minutes = code->minutes};
}

/* The mark of a claim of which the water may be in doubt, or its 7 perhaps an 8. */
static ds_mark mark_of(const ds_claim *const claim, const bool water_doubt, const bool beyond_7)
{
    ds_claim sure = *claim;
    if (water_doubt) {
        sure.water_stated = false;
    }
    const ds_mark mark = ds_mark_from(&sure);
    if (!beyond_7 || water_doubt) {
        return mark;
    }
    sure.water = (uint16_t)(sure.water | 1U << 8);
    return ds_mark_either(mark, ds_mark_from(&sure));
}

static ds_mark mark_of_code(const ds_code *const code)
{
    const ds_claim claim = ds_code_claim(code);
    return mark_of(&claim, code->water_doubt, code->beyond_7);
}

/* --- do they belong together? --------------------------------------------------------------------------- */

/* Water 0 to 6, with or without K: of these one enclosure has one. */
static bool is_on_ladder(const ds_code *const code)
{
    return code->water >= 0 && code->water <= 6;
}

static bool same_numerals(const ds_code *const a, const ds_code *const b)
{
    return a->objects == b->objects && a->objects_k == b->objects_k && a->water == b->water &&
           a->water_k == b->water_k;
}

static bool solids_differ(const ds_code *const a, const ds_code *const b)
{
    return a->objects >= 0 && b->objects >= 0 && (a->objects != b->objects || a->objects_k != b->objects_k);
}

static bool water_differs(const ds_code *const a, const ds_code *const b)
{
    const bool zero = (a->water == 0 && b->water > 0) || (b->water == 0 && a->water > 0);
    const bool both_low = is_on_ladder(a) && is_on_ladder(b);
    return zero || (both_low && (a->water != b->water || a->water_k != b->water_k));
}

static bool letters_differ(const ds_code *const a, const ds_code *const b)
{
    return a->access && b->access && a->access != b->access;
}

static bool any_pair(const ds_scan *const s, const unsigned set,
                     bool (*const test)(const ds_code *, const ds_code *))
{
    for (unsigned i = 0; i < s->codes_len; i++) {
        for (unsigned j = 0; j < i; j++) {
            if (is_in(set, i) && is_in(set, j) && test(&s->codes[i], &s->codes[j])) {
                return true;
            }
        }
    }
    return false;
}

bool ds_is_one_enclosure(const ds_scan *const s, const unsigned set)
{
    return !any_pair(s, set, solids_differ) && !any_pair(s, set, water_differs) &&
           !any_pair(s, set, letters_differ);
}

/* --- one enclosure -------------------------------------------------------------------------------------- */

static double declared_least(const double a, const double b)
{
    return !(a > 0) ? b : !(b > 0) ? a : a < b ? a : b;
}

static void add_to_claim(ds_claim *const claim, const ds_code *const code)
{
    const ds_claim more = ds_code_claim(code);
    if (more.objects > claim->objects) {
        claim->objects = more.objects;
        claim->objects_foreign = more.objects_foreign;
    }
    if (more.access > claim->access) {
        claim->access = more.access;
    }
    claim->water_stated = claim->water_stated || more.water_stated;
    claim->water = (uint16_t)(claim->water | more.water);
    claim->water_foreign = (uint16_t)(claim->water_foreign | more.water_foreign);
    claim->depth_m = declared_least(claim->depth_m, more.depth_m);
    claim->minutes = declared_least(claim->minutes, more.minutes);
}

static bool is_joint(const ds_code *const a, const ds_code *const b)
{
    return (a->objects < 0) != (b->objects < 0) || (a->water < 0) != (b->water < 0);
}

static bool is_one_lettered(const ds_code *const a, const ds_code *const b)
{
    return !is_joint(a, b) && (a->access != 0) != (b->access != 0);
}

static bool immersions_differ(const ds_code *const a, const ds_code *const b)
{
    return a->water == 8 && b->water == 8 && (a->depth_m != b->depth_m || a->minutes != b->minutes);
}

static void note_joints(ds_scan *const s, const unsigned set)
{
    bool first = true;
    for (unsigned i = 0; i < s->codes_len; i++) {
        if (!is_in(set, i)) {
            continue;
        }
        const ds_code *const code = &s->codes[i];
        if (!first && code->link != DS_LINK_SLASH && code->link != DS_LINK_DASH) {
            ds_scan_note(s, DS_NOTE_JOINED);
        } else if (!first && code->spaced) {
            ds_scan_note(s, DS_NOTE_SPACED);
        }
        first = false;
    }
}

static void note_together(ds_scan *const s, const unsigned set)
{
    note_joints(s, set);
    if (any_pair(s, set, is_joint)) {
        ds_scan_note(s, DS_NOTE_JOINT);
    }
    if (any_pair(s, set, is_one_lettered)) {
        ds_scan_note(s, DS_NOTE_ONE_LETTER);
    }
    if (any_pair(s, set, same_numerals)) {
        ds_scan_note(s, DS_NOTE_TWICE);
    }
    if (any_pair(s, set, immersions_differ)) {
        ds_scan_note(s, DS_NOTE_TWO_IMMERSIONS);
    }
}

static void combine_one(ds_scan *const s, const unsigned set, ds_group *const out)
{
    bool water_doubt = false;
    bool beyond_7 = false;
    for (unsigned i = 0; i < s->codes_len; i++) {
        if (is_in(set, i)) {
            add_to_claim(&out->claim, &s->codes[i]);
            water_doubt = water_doubt || s->codes[i].water_doubt;
            beyond_7 = beyond_7 || s->codes[i].beyond_7;
        }
    }
    if (out->claim.access <= ds_implied_letter(out->claim.objects)) {
        out->claim.access = 0;
    }
    out->mark = mark_of(&out->claim, water_doubt, beyond_7 && !(out->claim.water >> 8 & 1));
    note_together(s, set);
}

/* --- two variants --------------------------------------------------------------------------------------- */

static bool is_covered_by_all(const ds_scan *const s, const unsigned set, const unsigned i)
{
    const uint64_t proven = ds_mark_proven(mark_of_code(&s->codes[i]));
    for (unsigned j = 0; j < s->codes_len; j++) {
        if (is_in(set, j) && proven & ~ds_mark_proven(mark_of_code(&s->codes[j]))) {
            return false;
        }
    }
    return true;
}

/* The code that all the others cover; codes_len when none is. */
static unsigned lowest_code(const ds_scan *const s, const unsigned set)
{
    for (unsigned i = 0; i < s->codes_len; i++) {
        if (is_in(set, i) && is_covered_by_all(s, set, i)) {
            return i;
        }
    }
    return s->codes_len;
}

/* The guess where no code is lowest: one enclosure with the lower first numeral. */
static ds_claim lower_first(const ds_scan *const s, const unsigned set)
{
    ds_claim claim = DS_CLAIM_NOTHING;
    int least = DS_OBJECTS_LEN;
    for (unsigned i = 0; i < s->codes_len; i++) {
        if (is_in(set, i)) {
            add_to_claim(&claim, &s->codes[i]);
            const int8_t objects = s->codes[i].objects;
            least = objects >= 0 && objects < least ? objects : least;
        }
    }
    claim.objects = (int8_t)(claim.objects < 0 ? -1 : least);
    return claim;
}

static void combine_variants(ds_scan *const s, const unsigned set, ds_group *const out)
{
    const unsigned lowest = lowest_code(s, set);
    bool first = true;
    for (unsigned i = 0; i < s->codes_len; i++) {
        if (is_in(set, i)) {
            const ds_mark mark = mark_of_code(&s->codes[i]);
            out->mark = first ? mark : ds_mark_either(out->mark, mark);
            first = false;
        }
    }
    const bool found = lowest < s->codes_len;
    out->claim = found ? ds_code_claim(&s->codes[lowest]) : lower_first(s, set);
    ds_scan_note(s, found ? DS_NOTE_TWO_VARIANTS : DS_NOTE_TWO_SOLIDS);
}

void ds_combine(ds_scan *const s, const unsigned set, ds_group *const out)
{
    *out = (ds_group){.claim = DS_CLAIM_NOTHING, .mark = DS_MARK_SILENT};
    for (unsigned i = 0; i < s->codes_len; i++) {
        out->letters = (uint8_t)(out->letters | (is_in(set, i) ? s->codes[i].letters : 0));
    }
    if (ds_is_one_enclosure(s, set)) {
        combine_one(s, set, out);
    } else {
        combine_variants(s, set, out);
    }
}
