/* SPDX-License-Identifier: MIT */
/*
 * The merge. A value on which the sides do not agree is opened: its members are paired by name and settled one by one;
 * those that are still open are opened in their turn, in the document's order, by a walk that needs no stack.
 */
#include "core/job/merge.h"

#include "core/base/names.h"

/* --- names --------------------------------------------------------------------------------------------------------- */

static const ds_json *word_of(const ds_json *const value)
{
    return value->kind == DS_JSON_OBJECT ? ds_json_get(value, DS_STR("word")) : value;
}

/* False when the value has no such name. */
static bool name_of(const ds_pairing pairing, const ds_json *const value, ds_str *const out)
{
    if (pairing == DS_PAIR_KEYS) {
        *out = ds_json_key(value);
        return true;
    }
    const ds_json *const name = pairing == DS_PAIR_IDS ? ds_json_get(value, DS_STR("id")) : word_of(value);
    if (!name || name->kind != DS_JSON_STRING) {
        return false;
    }
    *out = ds_json_text(name);
    return true;
}

/* One version of a list or object: its members by place and by name. */
typedef struct side {
    const ds_json **members;
    ds_names names;
    size_t len;
} side;

/* What a merge works with. */
typedef struct merger {
    ds_arena *arena;
    bool failed; /* memory is short */
} merger;

/* False when a member has no name, two have the same, or memory is short. */
static bool side_of(merger *const m, const ds_pairing pairing, const ds_json *const value, side *const out)
{
    *out = (side){.len = value ? value->count : 0};
    out->members = ds_arena_take_many(m->arena, out->len, sizeof *out->members);
    if (!out->members || !ds_names_make(&out->names, m->arena, out->len)) {
        m->failed = true;
        return false;
    }
    uint32_t i = 0;
    for (const ds_json *at = value ? value->first : NULL; at; at = at->next) {
        ds_str name;
        if (!name_of(pairing, at, &name)) {
            return false;
        }
        ds_names_put(&out->names, name, i);
        out->members[i++] = at;
    }
    ds_names_sort(&out->names);
    return ds_names_unique(&out->names);
}

static const ds_json *member(const side *const s, const ds_str name)
{
    const uint32_t i = ds_names_find(&s->names, name);
    return i == DS_NO_NAME ? NULL : s->members[i];
}

/* True when what is left of the base stands in the base's order. */
static bool kept_order(const side *const base, const side *const s, const ds_pairing pairing)
{
    uint32_t last = 0;
    for (size_t i = 0; i < s->len; i++) {
        ds_str name = DS_STR("");
        name_of(pairing, s->members[i], &name);
        const uint32_t at = ds_names_find(&base->names, name);
        if (at != DS_NO_NAME && at < last) {
            return false;
        }
        last = at == DS_NO_NAME ? last : at;
    }
    return true;
}

/* --- members ------------------------------------------------------------------------------------------------------- */

typedef struct sides {
    ds_pairing pairing;
    side base, mine, theirs;
} sides;

/* Takes what one side changed, or both alike. What is left open is a conflict at once where one side has nothing. */
static void settle(ds_merged *const value)
{
    if (ds_json_same(value->mine, value->theirs) || ds_json_same(value->base, value->theirs)) {
        value->whole = value->mine;
    } else if (ds_json_same(value->base, value->mine)) {
        value->whole = value->theirs;
    } else {
        value->conflict = !value->mine || !value->theirs;
        value->whole = value->theirs ? NULL : value->mine;
    }
}

/* Whether it must be opened: both sides have it, and differ. */
static bool is_open(const ds_merged *const value)
{
    return !value->whole && !value->conflict && value->mine && value->theirs;
}

bool ds_merged_stands(const ds_merged *const value)
{
    return value->whole || value->pairing != DS_PAIR_NONE || is_open(value);
}

/* Puts a new member after `after`, or first. NULL when memory is short. */
static ds_merged *add_member(merger *const m, ds_merged *const parent, ds_merged *const after,
                             const sides *const s, const ds_json *const of)
{
    ds_merged *const value = ds_arena_take(m->arena, sizeof *value);
    if (!value) {
        m->failed = true;
        return NULL;
    }
    ds_str name = DS_STR("");
    name_of(s->pairing, of, &name);
    *value = (ds_merged){.base = member(&s->base, name),
                         .mine = member(&s->mine, name),
                         .theirs = member(&s->theirs, name),
                         .parent = parent,
                         .name = name};
    settle(value);
    ds_merged **const link = after ? &after->next : &parent->first;
    value->next = *link;
    *link = value;
    return value;
}

/* The order: one side's, and what only the other has after the neighbour that it follows there. */
static void add_members(merger *const m, ds_merged *const parent, const sides *const s)
{
    const bool mine_leads =
        !kept_order(&s->base, &s->mine, s->pairing) && kept_order(&s->base, &s->theirs, s->pairing);
    const side *const lead = mine_leads ? &s->mine : &s->theirs;
    const side *const other = mine_leads ? &s->theirs : &s->mine;
    ds_merged **const placed = ds_arena_take_many(m->arena, lead->len, sizeof(ds_merged *));
    m->failed = m->failed || !placed;
    ds_merged *after = NULL;
    for (size_t i = 0; i < lead->len && !m->failed; i++) {
        after = add_member(m, parent, after, s, lead->members[i]);
        placed[i] = after;
    }
    after = NULL;
    for (size_t i = 0; i < other->len && !m->failed; i++) {
        ds_str name = DS_STR("");
        name_of(s->pairing, other->members[i], &name);
        const uint32_t at = ds_names_find(&lead->names, name);
        after = at == DS_NO_NAME ? add_member(m, parent, after, s, other->members[i]) : placed[at];
    }
}

static uint32_t number_members(ds_merged *const parent)
{
    uint32_t index = 0;
    for (ds_merged *at = parent->first; at; at = at->next) {
        at->index = index;
        index += ds_merged_stands(at);
    }
    return index;
}

/* --- opening ------------------------------------------------------------------------------------------------------- */

static bool is_kind(const ds_json *const value, const ds_json_kind kind)
{
    return !value || value->kind == kind;
}

static bool are_all(const ds_merged *const value, const ds_json_kind kind)
{
    return is_kind(value->base, kind) && is_kind(value->mine, kind) && is_kind(value->theirs, kind);
}

/* How members might be paired. A thing that both sides added under one name is not taken apart. */
static ds_pairing pairing_of(const ds_merged *const value)
{
    const bool in_list = value->parent && value->parent->pairing != DS_PAIR_KEYS;
    if (in_list && !value->base) {
        return DS_PAIR_NONE;
    }
    if (are_all(value, DS_JSON_OBJECT)) {
        return DS_PAIR_KEYS;
    }
    if (!are_all(value, DS_JSON_ARRAY)) {
        return DS_PAIR_NONE;
    }
    const bool words = ds_str_is(value->name, "seen") || ds_str_is(value->name, "absent");
    return words ? DS_PAIR_WORDS : DS_PAIR_IDS;
}

static bool open_members(merger *const m, ds_merged *const value, const ds_pairing pairing)
{
    sides s = {.pairing = pairing};
    if (pairing == DS_PAIR_NONE || !side_of(m, pairing, value->base, &s.base) ||
        !side_of(m, pairing, value->mine, &s.mine) || !side_of(m, pairing, value->theirs, &s.theirs)) {
        return false;
    }
    add_members(m, value, &s);
    return true;
}

/* What cannot be taken apart is a conflict; so is an object that would get more keys than the reader takes. */
static void open_value(merger *const m, ds_merged *const value)
{
    const ds_pairing pairing = pairing_of(value);
    const bool opened = open_members(m, value, pairing);
    const uint32_t most = pairing == DS_PAIR_KEYS ? DS_JSON_LIMITS.keys : UINT32_MAX;
    if (opened && number_members(value) <= most) {
        value->pairing = (uint8_t)pairing;
    } else {
        value->first = NULL;
        value->conflict = true;
        value->whole = value->mine;
    }
}

/* The value after this one in the document: inside it, beside it, or beside what holds it. */
static ds_merged *following(ds_merged *const value)
{
    if (value->first) {
        return value->first;
    }
    const ds_merged *at = value;
    while (at && !at->next) {
        at = at->parent;
    }
    return at ? at->next : NULL;
}

bool ds_merge_trees(ds_merge *const out, const ds_json *const base, const ds_json *const mine,
                    const ds_json *const theirs, ds_arena *const arena)
{
    merger m = {.arena = arena};
    *out = (ds_merge){0};
    ds_merged *const root = ds_arena_take(arena, sizeof *root);
    if (!root) {
        return false;
    }
    *root = (ds_merged){.base = base, .mine = mine, .theirs = theirs};
    settle(root);
    out->root = root;
    const ds_merged **last = &out->conflicts;
    for (ds_merged *at = root; at && !m.failed; at = following(at)) {
        if (is_open(at)) {
            open_value(&m, at);
        }
        if (at->conflict) {
            *last = at;
            last = &at->next_conflict;
            out->conflicts_len++;
        }
    }
    return !m.failed;
}
