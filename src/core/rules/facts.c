/* SPDX-License-Identifier: MIT */
/* Names of numbers, and setting facts. */
#include "core/rules/facts.h"

#include <math.h>

static const char *const QUANTITY_NAMES[] = {
    "volts",      "height_m", "zone1_distance_m", "zone0_distance_m", "rcd_ma", "depth_m", "hours",
    "distance_m", "temp_c"};

ds_str ds_number_name(const ds_number which)
{
    return which < (ds_number)DS_INFLUENCES ? ds_influence_name((ds_influence)which)
                                            : ds_str_of(QUANTITY_NAMES[which - DS_INFLUENCES]);
}

ds_number ds_number_of(const ds_str name)
{
    for (int i = 0; i < DS_NUMBERS; i++) {
        if (ds_str_eq(name, ds_number_name((ds_number)i))) {
            return (ds_number)i;
        }
    }
    return DS_NUMBERS;
}

void ds_facts_init(ds_facts *const facts)
{
    memset(facts, 0, sizeof *facts);
    for (int i = 0; i < DS_NUMBERS; i++) {
        facts->number[i] = i < DS_INFLUENCES ? (ds_span){1, 1} : (ds_span){-INFINITY, INFINITY};
    }
}

void ds_wordset_of(ds_wordset *const out, const ds_words *const words, const ds_family family,
                   const ds_group group)
{
    memset(out, 0, sizeof *out);
    for (uint16_t id = 0; id < words->len; id++) {
        const ds_word *const word = words->at[id];
        if (word->family == family && (group == DS_GROUPS || word->group == group)) {
            out->bits[id / 64] |= UINT64_C(1) << id % 64;
        }
    }
}

void ds_facts_open(ds_facts *const facts, const ds_wordset *const set)
{
    for (size_t i = 0; i < DS_WORDS_MAX / 64; i++) {
        facts->open[i] |= set->bits[i] & ~facts->yes[i];
    }
}

void ds_facts_set_wider(ds_facts *const facts, const ds_words *const words, const int id)
{
    if (id < 0 || ds_facts_has(facts, id)) {
        return; /* also ends a circle of wider words */
    }
    ds_facts_set(facts, id);
    const ds_word *const word = words->at[id];
    for (const ds_json *wider = word->is ? word->is->first : NULL; wider; wider = wider->next) {
        ds_facts_set_wider(facts, words, ds_words_find(words, word->family, ds_json_text(wider)));
    }
}

bool ds_class_is_kind(const ds_influence which, const unsigned class_number)
{
    const bool all_kinds = which == DS_AA || which == DS_AB || which == DS_AM || which == DS_BA ||
                           which == DS_BE || which == DS_CB;
    return all_kinds || (which == DS_AD && class_number >= 7);
}

int ds_class_word(const ds_words *const words, const ds_influence which, const unsigned class_number)
{
    const ds_str name = ds_influence_name(which);
    const char text[3] = {name.at[0], name.at[1], (char)('0' + class_number)};
    return ds_words_find(words, DS_FAMILY_CLASS, (ds_str){text, sizeof text});
}

void ds_facts_raise(ds_facts *const facts, const ds_words *const words, const ds_influence which,
                    const unsigned class_number)
{
    if (ds_class_is_kind(which, class_number)) {
        ds_facts_set(facts, ds_class_word(words, which, class_number));
        return;
    }
    ds_span *const span = &facts->number[which];
    span->low = fmax(span->low, class_number);
    span->high = fmax(span->high, class_number);
}
