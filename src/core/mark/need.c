/* SPDX-License-Identifier: MIT */
/*
 * Codes as a need. All of them are asked for together, except where they are alternatives and one of them
 * always brings the other: "IP2X or IPXXB" asks for access B, because whatever is IP2X is IPXXB too.
 */
#include "core/mark/print.h"
#include "core/mark/reader.h"

static ds_need need_of(const ds_code *const code)
{
    const ds_claim claim = ds_code_claim(code);
    return ds_need_from(&claim);
}

/* Everything that goods of exactly this code bring, access that is only implied included. */
static uint64_t brought_by(const ds_code *const code)
{
    const char implied = ds_implied_letter(code->objects);
    return ds_mark_proven(need_of(code)) | (implied ? DS_ACCESS_TO(implied) : 0);
}

/* A need of b is met by whatever is a; immersions are left to the eye. */
static bool brings(const ds_code *const a, const ds_code *const b)
{
    const bool immersed = a->water == 8 || b->water == 8;
    return !immersed && !(ds_mark_proven(need_of(b)) & ~brought_by(a));
}

static bool is_access_alone(const ds_code *const code)
{
    return code->objects < 0 && code->water < 0;
}

/* "or"; and a slash between an access code and one that brings it. */
static bool is_alternative(const ds_code *const a, const ds_code *const b)
{
    const bool access = (is_access_alone(a) && brings(b, a)) || (is_access_alone(b) && brings(a, b));
    return b->link == DS_LINK_OR || (b->link == DS_LINK_SLASH && access);
}

/* Codes that must be met, the easier one of each pair of alternatives; 0 when one cannot be decided. */
static unsigned needed_codes(const ds_scan *const s)
{
    unsigned set = 0;
    unsigned last = 0;
    for (unsigned i = 0; i < s->codes_len; i++) {
        const ds_code *const code = &s->codes[i];
        if (i == 0 || !is_alternative(&s->codes[i - 1], code)) {
            last = i;
            set |= 1U << i;
        } else if (brings(&s->codes[last], code)) {
            set = (set & ~(1U << last)) | 1U << i;
            last = i;
        } else if (!brings(code, &s->codes[last])) {
            return 0;
        }
    }
    return set;
}

/* Road-vehicle forms, doubtful immersions and NEMA types stand for no test that can be asked for. */
static bool is_a_need(const ds_scan *const s)
{
    for (unsigned i = 0; i < s->codes_len; i++) {
        const ds_code *const code = &s->codes[i];
        if (code->objects_k || code->water_k || code->water_doubt || code->beyond_7) {
            return false;
        }
    }
    return !s->nema_named;
}

/* A range is not both of its ends. */
static bool has_range(const ds_scan *const s)
{
    for (unsigned i = 0; i < s->codes_len; i++) {
        if (s->codes[i].link == DS_LINK_DASH) {
            return true;
        }
    }
    return false;
}

static void add_claim(ds_claim *const claim, const ds_code *const code)
{
    const ds_claim more = ds_code_claim(code);
    if (more.objects > claim->objects) {
        claim->objects = more.objects;
    }
    if (more.access > claim->access) {
        claim->access = more.access;
    }
    claim->water_stated = claim->water_stated || more.water_stated;
    claim->water = (uint16_t)(claim->water | more.water);
    claim->depth_m = more.depth_m > claim->depth_m ? more.depth_m : claim->depth_m;
    claim->minutes = more.minutes > claim->minutes ? more.minutes : claim->minutes;
}

/* For printing: of the numerals that imply each other only the highest. */
static void drop_implied(ds_claim *const claim)
{
    for (unsigned n = 5; n >= 1; n--) {
        const bool has_higher = claim->water & 0x7E & ~((2U << n) - 1);
        claim->water = (uint16_t)(has_higher ? claim->water & ~(1U << n) : claim->water);
    }
    if (claim->access <= ds_implied_letter(claim->objects)) {
        claim->access = '\0';
    }
}

bool ds_codes_need(ds_scan *const s, ds_need *const out, ds_claim *const claim)
{
    const unsigned set = needed_codes(s);
    *out = DS_NEED_NOTHING;
    if (!is_a_need(s) || has_range(s) || (!set && s->codes_len)) {
        ds_scan_note(s, !is_a_need(s)  ? DS_NOTE_NOT_A_NEED
                        : has_range(s) ? DS_NOTE_RANGE
                                       : DS_NOTE_ALTERNATIVES);
        return false;
    }
    for (unsigned i = 0; i < s->codes_len; i++) {
        if (set >> i & 1) {
            *out = ds_need_join(*out, need_of(&s->codes[i]));
            add_claim(claim, &s->codes[i]);
        }
    }
    drop_implied(claim);
    if (!ds_is_one_enclosure(s, set)) {
        ds_scan_note(s, DS_NOTE_ALL_OF_THEM);
    }
    return true;
}
