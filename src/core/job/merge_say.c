/* SPDX-License-Identifier: MIT */
/* A conflict in words, and the way to it: which place or point, which of its keys, what each side did. */
#include "core/job/merge.h"

const ds_merged *ds_merged_above(const ds_merged *const value, const size_t steps)
{
    const ds_merged *at = value;
    for (size_t i = 0; i < steps; i++) {
        at = at->parent;
    }
    return at;
}

size_t ds_merged_depth(const ds_merged *const value)
{
    size_t depth = 0;
    for (const ds_merged *at = value->parent; at; at = at->parent) {
        depth++;
    }
    return depth;
}

static void say_quoted(ds_text *const out, const ds_str words)
{
    ds_text_char(out, '"');
    ds_text_adds(out, words);
    ds_text_char(out, '"');
}

/* "place" or "point" for a thing that stands in such a list; NULL for others. */
static const char *kind_of(const ds_merged *const thing)
{
    const bool by_id = thing->parent->pairing == DS_PAIR_IDS;
    const bool is_place = by_id && ds_str_is(thing->parent->name, "places");
    const bool is_point = by_id && ds_str_is(thing->parent->name, "points");
    return is_place ? "place" : is_point ? "point" : NULL;
}

static ds_str name_of(const ds_merged *const thing)
{
    const ds_json *const one = thing->mine ? thing->mine : thing->theirs;
    const ds_json *const name = ds_json_get(one, DS_STR("name"));
    return name && name->kind == DS_JSON_STRING ? ds_json_text(name) : (ds_str){0};
}

static void say_thing(ds_text *const out, const ds_merged *const thing)
{
    ds_text_add(out, kind_of(thing));
    ds_text_char(out, ' ');
    ds_text_adds(out, thing->name);
    const ds_str name = name_of(thing);
    if (name.len) {
        ds_text_char(out, ' ');
        say_quoted(out, name);
    }
}

/* "\"height_m\" in plan, features F1": `steps` values from the conflict's own upwards, none of them the root. */
static void say_way(ds_text *const out, const ds_merged *const conflict, const size_t steps)
{
    say_quoted(out, conflict->name);
    for (size_t up = steps; up > 1; up--) {
        const ds_merged *const at = ds_merged_above(conflict, up - 1);
        ds_text_add(out, up == steps ? " in " : at->parent->pairing == DS_PAIR_KEYS ? ", " : " ");
        ds_text_adds(out, at->name);
    }
}

static const char *what_happened(const ds_merged *const conflict)
{
    if (!conflict->mine || !conflict->theirs) {
        return conflict->mine ? " was changed in mine and removed in theirs"
                              : " was removed in mine and changed in theirs";
    }
    return conflict->base ? " was changed on both sides" : " was added on both sides and differs";
}

void ds_merge_say(ds_text *const out, const ds_merged *const conflict)
{
    const size_t depth = ds_merged_depth(conflict);
    const ds_merged *const thing = depth >= 2 ? ds_merged_above(conflict, depth - 2) : conflict;
    const bool known = depth >= 2 && kind_of(thing);
    if (known) {
        say_thing(out, thing);
        ds_text_add(out, depth > 2 ? ": " : "");
    }
    if (depth == 0) {
        ds_text_add(out, "the document");
    } else if (!known || depth > 2) {
        say_way(out, conflict, known ? depth - 2 : depth);
    }
    ds_text_add(out, what_happened(conflict));
}
