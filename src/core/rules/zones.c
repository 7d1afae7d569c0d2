/* SPDX-License-Identifier: MIT */
/* Reading the zone rules of a pack. */
#include "core/rules/zones.h"

#include "core/rules/reader.h"

#include <math.h>

static const char *const LEVEL_WORDS[DS_LEVELS] = {"floor", "bottom", "rim", "standing", "ceiling"};

static ds_str text_of(ds_pack_reader *const r, const ds_json *const value)
{
    if (value->kind != DS_JSON_STRING) {
        ds_pack_refuse(r, value, "a text in quotes is expected here");
        return DS_STR("");
    }
    return ds_json_text(value);
}

static double number_of(ds_pack_reader *const r, const ds_json *const value, const double low,
                        const double high)
{
    double number = 0;
    if (!ds_json_number(value, &number) || number < low || number > high) {
        ds_pack_refuse(r, value, "a number of metres is expected here");
    }
    return number;
}

static bool truth_of(ds_pack_reader *const r, const ds_json *const value)
{
    if (value->kind != DS_JSON_TRUE && value->kind != DS_JSON_FALSE) {
        ds_pack_refuse(r, value, "true or false is expected here");
    }
    return value->kind == DS_JSON_TRUE;
}

static ds_level level_of(ds_pack_reader *const r, const ds_json *const value)
{
    const ds_str text = text_of(r, value);
    for (int i = 0; i < DS_LEVELS; i++) {
        if (ds_str_is(text, LEVEL_WORDS[i])) {
            return (ds_level)i;
        }
    }
    ds_pack_refuse(r, value, "a height counts from floor, bottom, rim, standing or ceiling");
    return DS_LEVEL_FLOOR;
}

/* --- a zone rule -------------------------------------------------------------------------------------------------- */

static void read_round(ds_pack_reader *const r, const ds_json *const list, ds_zone_rule *const rule)
{
    for (const ds_json *item = list->kind == DS_JSON_ARRAY ? list->first : NULL; item; item = item->next) {
        const ds_str word = text_of(r, item);
        const ds_feature_kind kind = ds_feature_of(word);
        if (ds_str_is(word, "room")) {
            rule->room = true;
            rule->reach_m = INFINITY;
        } else if (kind < DS_FEATURE_KINDS) {
            rule->round |= UINT32_C(1) << kind;
        } else {
            ds_pack_refuse(r, item, "round lists kinds of features of a plan, or room");
        }
    }
}

static void read_level_member(ds_pack_reader *const r, const ds_json *const value, ds_zone_rule *const rule)
{
    const ds_str key = ds_json_key(value);
    if (ds_str_is(key, "from")) {
        rule->from = level_of(r, value);
    } else if (ds_str_is(key, "to")) {
        rule->to = level_of(r, value);
    } else if (ds_str_is(key, "from_m")) {
        rule->from_m = number_of(r, value, -10, 100);
    } else if (ds_str_is(key, "to_m")) {
        rule->to_m = number_of(r, value, -10, 100);
    } else if (ds_str_is(key, "or_outlet")) {
        rule->or_outlet = truth_of(r, value);
    } else if (ds_str_is(key, "tool_frees_below")) {
        rule->tool_frees_below = truth_of(r, value);
    } else {
        ds_pack_refuse(r, value, "a key that zone rules do not have");
    }
}

static void read_rule_member(ds_pack_reader *const r, const ds_json *const value, ds_zone_rule *const rule)
{
    const ds_str key = ds_json_key(value);
    if (ds_str_is(key, "id")) {
        rule->id = text_of(r, value);
    } else if (ds_str_is(key, "clause")) {
        rule->clause = text_of(r, value);
    } else if (ds_str_is(key, "because")) {
        rule->because = text_of(r, value);
    } else if (ds_str_is(key, "doubt")) {
        rule->doubt = text_of(r, value);
    } else if (ds_str_is(key, "zone")) {
        rule->zone = text_of(r, value);
    } else if (ds_str_is(key, "round")) {
        read_round(r, value, rule);
    } else if (ds_str_is(key, "reach_m")) {
        rule->reach_m = number_of(r, value, 0, 100);
    } else if (ds_str_is(key, "source")) {
        if (!ds_source_read(&rule->source, value)) {
            ds_pack_refuse(r, value, "source takes a kind (published, memory, common-practice) and a ref");
        }
    } else {
        read_level_member(r, value, rule);
    }
}

static void read_rule(ds_pack_reader *const r, const ds_json *const value, ds_zone_rule *const rule)
{
    const ds_json *const id = ds_json_get(value, DS_STR("id"));
    r->rule = id && id->kind == DS_JSON_STRING ? ds_json_text(id) : DS_STR("zones");
    if (value->kind != DS_JSON_OBJECT) {
        ds_pack_refuse(r, value, "a zone rule is an object");
        return;
    }
    for (const ds_json *member = value->first; member && r->status == DS_OK; member = member->next) {
        read_rule_member(r, member, rule);
    }
    if (!rule->id.at || !rule->clause.at || !rule->zone.at || !rule->because.at || !rule->source.ref.at ||
        (!rule->round && !rule->room)) {
        ds_pack_refuse(r, value, "id, clause, zone, round, because and source are all required");
    }
}

/* --- a law -------------------------------------------------------------------------------------------------------- */

static void read_partition(ds_pack_reader *const r, const ds_json *const value, ds_partition_rule *const out)
{
    out->to_zone_top = true;
    for (const ds_json *m = value->kind == DS_JSON_OBJECT ? value->first : NULL; m; m = m->next) {
        const ds_str key = ds_json_key(m);
        if (ds_str_is(key, "least_height_m")) {
            out->to_zone_top = false;
            out->least_height_m = number_of(r, m, 0, 100);
        } else if (ds_str_is(key, "over_top")) {
            out->over_top = truth_of(r, m);
        } else if (ds_str_is(key, "swinging")) {
            out->swinging = truth_of(r, m);
        } else if (ds_str_is(key, "floor_gap_m")) {
            out->floor_gap_m = number_of(r, m, 0, 10);
        } else {
            ds_pack_refuse(r, m, "a key that partition does not have");
        }
    }
}

static void read_rules(ds_pack_reader *const r, const ds_json *const list, ds_zone_law *const law)
{
    ds_zone_rule *const rules =
        list->kind == DS_JSON_ARRAY ? ds_pack_take(r, list->count, sizeof *rules) : NULL;
    if (!rules) {
        ds_pack_refuse(r, list, "rules is a list");
        return;
    }
    for (const ds_json *item = list->first; item && r->status == DS_OK; item = item->next) {
        read_rule(r, item, &rules[law->rules_len++]);
    }
    law->rules = rules;
}

static void read_law_member(ds_pack_reader *const r, const ds_json *const value, ds_zone_law *const law)
{
    const ds_str key = ds_json_key(value);
    if (ds_str_is(key, "id")) {
        law->id = text_of(r, value);
    } else if (ds_str_is(key, "section")) {
        law->section = text_of(r, value);
    } else if (ds_str_is(key, "place")) {
        const int id = ds_words_find(&r->book->words, DS_FAMILY_PLACE, text_of(r, value));
        law->place = (uint16_t)(id < 0 ? 0 : id);
        if (id < 0) {
            ds_pack_refuse(r, value, "place names no known kind of place");
        }
    } else if (ds_str_is(key, "partition")) {
        read_partition(r, value, &law->partition);
    } else if (ds_str_is(key, "rules")) {
        read_rules(r, value, law);
    } else {
        ds_pack_refuse(r, value, "a key that zones do not have");
    }
}

static void read_law(ds_pack_reader *const r, const ds_json *const value, ds_zone_law *const law)
{
    *law = (ds_zone_law){.partition = {.to_zone_top = true}};
    for (const ds_json *m = value->kind == DS_JSON_OBJECT ? value->first : NULL; m && r->status == DS_OK;
         m = m->next) {
        r->rule = DS_STR("zones");
        read_law_member(r, m, law);
    }
    if (!law->id.at || !law->section.at || !ds_json_get(value, DS_STR("place")) || !law->rules_len) {
        ds_pack_refuse(r, value, "zones take id, section, place and rules");
    }
}

void ds_zone_laws_read(ds_pack_reader *const r, const ds_json *const list, ds_pack *const pack)
{
    ds_zone_law *const laws = list->kind == DS_JSON_ARRAY ? ds_pack_take(r, list->count, sizeof *laws) : NULL;
    if (!laws) {
        ds_pack_refuse(r, list, "zones is a list");
        return;
    }
    for (const ds_json *item = list->first; item && r->status == DS_OK; item = item->next) {
        read_law(r, item, &laws[pack->laws_len++]);
    }
    pack->laws = laws;
    r->rule = DS_STR("");
}

const ds_zone_law *ds_pack_zone_law(const ds_pack *const pack, const ds_words *const words, const int place)
{
    ds_facts wider;
    ds_facts_init(&wider);
    ds_facts_set_wider(&wider, words, place);
    for (size_t i = 0; i < pack->laws_len; i++) {
        if (ds_facts_has(&wider, pack->laws[i].place)) {
            return &pack->laws[i];
        }
    }
    return NULL;
}
