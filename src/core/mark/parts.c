/* SPDX-License-Identifier: MIT */
/*
 * Codes under conditions: the parts of a mark, and what holds in all of them.
 *
 * A code without a condition beside one with it ("IP54 (IP66 with kit)") holds always only when the other
 * covers it. If the two make one multiple code ("IP66/IP67 (lid closed)"), the condition is of both. If the
 * conditional one has less ("IP44 / IP20 in use"), nobody can rely on more than that.
 */
#include "core/mark/reader.h"

typedef struct part {
    unsigned set;
    const char *when;
    ds_group group;
} part;

typedef struct parts {
    part at[DS_READ_PARTS];
    unsigned len;
    bool clash;
} parts;

static bool is_same_condition(const char *const a, const char *const b)
{
    return a && b ? strcmp(a, b) == 0 : a == b;
}

/* Codes by condition; the unconditional ones, if any, come first. */
static void sort_codes(const ds_scan *const s, parts *const out)
{
    for (int conditional = 0; conditional < 2; conditional++) {
        for (unsigned i = 0; i < s->codes_len; i++) {
            const ds_code *const code = &s->codes[i];
            if ((code->when != NULL) != (conditional == 1)) {
                continue;
            }
            unsigned at = 0;
            while (at < out->len && !is_same_condition(out->at[at].when, code->when)) {
                at++;
            }
            out->clash = out->clash || code->clash || at == DS_READ_PARTS;
            if (at < DS_READ_PARTS) {
                out->at[at].when = code->when;
                out->at[at].set |= 1U << i;
                out->len = at == out->len ? at + 1 : out->len;
            }
        }
    }
}

static unsigned all_codes(const ds_scan *const s)
{
    return (1U << s->codes_len) - 1;
}

static void take_group(ds_scan *const s, const ds_group *const group)
{
    s->out->claim = group->claim;
    s->out->mark = group->mark;
    s->out->letters = group->letters;
}

static void settle_whole(ds_scan *const s)
{
    ds_group group;
    ds_combine(s, all_codes(s), &group);
    take_group(s, &group);
}

static uint64_t proven_of(const part *const p)
{
    return ds_mark_proven(p->group.mark);
}

/* Do all conditional parts prove at least (or at most) what the first, unconditional one does? */
static bool all_cover_first(const parts *const list)
{
    for (unsigned i = 1; i < list->len; i++) {
        if (proven_of(&list->at[0]) & ~proven_of(&list->at[i])) {
            return false;
        }
    }
    return true;
}

static bool first_covers_all(const parts *const list)
{
    for (unsigned i = 1; i < list->len; i++) {
        if (proven_of(&list->at[i]) & ~proven_of(&list->at[0])) {
            return false;
        }
    }
    return true;
}

/* The part that proves no more than what holds in all; the first when every part proves more than that. */
static const part *weakest_part(const parts *const list, const ds_mark mark)
{
    for (unsigned i = 0; i < list->len; i++) {
        if (proven_of(&list->at[i]) == ds_mark_proven(mark)) {
            return &list->at[i];
        }
    }
    return &list->at[0];
}

static ds_mark weakest_of(const parts *const list)
{
    ds_mark mark = list->at[0].group.mark;
    for (unsigned i = 1; i < list->len; i++) {
        mark = ds_mark_weakest(mark, list->at[i].group.mark);
    }
    return mark;
}

/* Claim and letters of the weakest part, mark of all. */
static void take_weakest(ds_scan *const s, const parts *const list)
{
    const ds_mark mark = weakest_of(list);
    take_group(s, &weakest_part(list, mark)->group);
    s->out->mark = mark;
}

static void take_parts(ds_scan *const s, const parts *const list)
{
    take_weakest(s, list);
    s->out->parts_len = (uint8_t)list->len;
    for (unsigned i = 0; i < list->len; i++) {
        s->out->parts[i] = (ds_mark_part){list->at[i].group.mark, list->at[i].when};
    }
}

static void settle_conditional(ds_scan *const s, parts *const list)
{
    const bool has_always = list->at[0].when == NULL;
    if (has_always && list->len == 2 && ds_is_one_enclosure(s, all_codes(s)) && !all_cover_first(list)) {
        list->len = 1;
        list->at[0].when = list->at[1].when;
        ds_combine(s, all_codes(s), &list->at[0].group);
    } else if (has_always && !all_cover_first(list)) {
        ds_scan_note(s, first_covers_all(list) ? DS_NOTE_LOWER_PART : DS_NOTE_MIXED_CONDITIONS);
        take_weakest(s, list);
        return;
    }
    take_parts(s, list);
}

void ds_settle_parts(ds_scan *const s)
{
    parts list = {.len = 0};
    sort_codes(s, &list);
    if (list.clash) {
        ds_scan_note(s, DS_NOTE_MIXED_CONDITIONS);
    }
    if (list.clash || (list.len == 1 && !list.at[0].when)) {
        settle_whole(s);
        return;
    }
    for (unsigned i = 0; i < list.len; i++) {
        ds_combine(s, list.at[i].set, &list.at[i].group);
    }
    settle_conditional(s, &list);
}
