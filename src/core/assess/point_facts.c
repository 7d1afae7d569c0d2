/* SPDX-License-Identifier: MIT */
/* Facts of one point from its situation and its own data; what is not stated stays open. */
#include "core/assess/point_facts.h"

#include "core/assess/wet.h"
#include "core/job/box.h"

#include <math.h>

static void raise_word(ds_facts *const facts, const ds_words *const words, const ds_word *const word)
{
    for (int i = 0; i < DS_INFLUENCES; i++) {
        if (word->influences[i]) {
            ds_facts_raise(facts, words, (ds_influence)i, word->influences[i]);
        }
    }
}

static void set_seen(ds_facts *const facts, const ds_vocabulary *const v, const ds_situation *const s)
{
    for (size_t i = 0; i < DS_WORDS_MAX / 64; i++) {
        facts->yes[i] |= s->seen.bits[i];
        for (uint64_t rest = s->seen.bits[i]; rest; rest &= rest - 1) {
            unsigned bit = 0;
            while (!(rest >> bit & 1)) {
                bit++;
            }
            raise_word(facts, v->words, v->words->at[i * 64 + bit]);
        }
    }
}

static void set_influences(ds_facts *const facts, const ds_vocabulary *const v, const ds_situation *const s)
{
    for (int i = 0; i < DS_INFLUENCES; i++) {
        for (unsigned n = 1; n <= 9; n++) {
            if (s->stated[i] >> n & 1) {
                ds_facts_raise(facts, v->words, (ds_influence)i, n);
            }
        }
    }
    for (int group = 0; group < DS_GROUP_REST; group++) {
        if (!(s->answered >> group & 1)) {
            facts->number[ds_group_influence((ds_group)group)].high = INFINITY;
            ds_facts_open(facts, &v->groups[group]);
            ds_facts_open(facts, &v->classes[group]);
        }
    }
}

static void set_surroundings(ds_facts *const facts, const ds_vocabulary *const v, const ds_situation *const s)
{
    const int ids[] = {s->place_id, s->setting_id};
    for (size_t i = 0; i < 2; i++) {
        if (ids[i] >= 0) {
            ds_facts_set_wider(facts, v->words, ids[i]);
            raise_word(facts, v->words, v->words->at[ids[i]]);
        }
    }
    set_seen(facts, v, s);
    set_influences(facts, v, s);
    for (int i = 0; i < DS_NUMBERS; i++) {
        if (s->quantity[i].low <= s->quantity[i].high) {
            facts->number[i] = s->quantity[i];
        }
    }
}

/* --- zone --------------------------------------------------------------------------------------------------------- */

static bool lists_word(const ds_json *const list, const ds_str word)
{
    for (const ds_json *item = list ? list->first : NULL; item; item = item->next) {
        if (ds_str_eq(ds_json_text(item), word)) {
            return true;
        }
    }
    return false;
}

/* A zone that the packs know; the list of words may hold those of other countries besides. */
static bool is_zone_here(const ds_wet *const wet, const ds_json *const zones, const ds_str zone)
{
    bool named = !wet || !wet->laws_len || ds_str_is(zone, "outside");
    for (size_t i = 0; wet && i < wet->laws_len; i++) {
        for (size_t k = 0; k < wet->laws[i]->rules_len; k++) {
            named = named || ds_str_eq(wet->laws[i]->rules[k].zone, zone);
        }
    }
    return named && lists_word(zones, zone);
}

static ds_str suggest_zone(ds_assessor *const a, const ds_wet *const wet, const ds_json *const zones)
{
    ds_text text;
    ds_text_init(&text, a->arena->alloc);
    for (const ds_json *zone = zones ? zones->first : NULL; zone; zone = zone->next) {
        if (is_zone_here(wet, zones, ds_json_text(zone))) {
            ds_text_add(&text, text.len ? ", " : "; there is ");
            ds_text_adds(&text, ds_json_text(zone));
        }
    }
    char *const copy = ds_text_ok(&text) ? ds_arena_take(a->arena, text.len) : NULL;
    const ds_str out = {copy, copy ? text.len : 0};
    if (copy && text.len) {
        memcpy(copy, text.at, text.len);
    }
    ds_text_free(&text);
    return out;
}

static ds_str set_zone(ds_assessor *const a, ds_point *const point, const ds_situation *const s,
                       const ds_wet *const wet, ds_facts *const facts)
{
    const ds_vocabulary *const v = &a->vocabulary;
    const ds_json *const zones = s->place_id >= 0 ? v->words->at[s->place_id]->zones : NULL;
    const ds_str stated = point->zone_stated;
    const bool outside = ds_str_is(stated, "outside") || ds_str_is(stated, "not-applicable");
    if (stated.at && !is_zone_here(wet, zones, stated) && !(!zones && outside)) {
        const ds_json *const at = ds_json_get(point->at, DS_STR("zone_stated"));
        ds_assessor_complain(a, at, &point->problem, DS_P_NO_SUCH_ZONE, stated, suggest_zone(a, wet, zones));
    } else if (stated.at && zones) {
        ds_facts_set(facts, ds_words_find(v->words, DS_FAMILY_ZONE, stated));
        return stated;
    }
    if (!zones) {
        return wet && wet->broken ? DS_STR("unknown") : DS_STR("not-applicable");
    }
    ds_facts_open(facts, &v->zones);
    return DS_STR("unknown");
}

/* --- the point's own data ----------------------------------------------------------------------------------------- */

static void open_word(ds_facts *const facts, const int id)
{
    if (id >= 0) {
        facts->open[id / 64] |= UINT64_C(1) << id % 64;
    }
}

static void set_figure(ds_facts *const facts, const ds_number which, const double value)
{
    if (!isnan(value)) {
        facts->number[which] = (ds_span){value, value};
    }
}

/* SELV ends at 50 V a.c. and 120 V d.c. (IEC 60364-4-41 clause 414, memory, high): above that it is none. */
static void set_supply(ds_assessor *const a, ds_point *const point, ds_facts *const facts)
{
    const ds_vocabulary *const v = &a->vocabulary;
    const ds_supply *const supply = &point->supply;
    set_figure(facts, DS_NUMBER_VOLTS, supply->volts);
    set_figure(facts, DS_NUMBER_RCD, supply->rcd_ma);
    const bool too_high = !isnan(supply->volts) && supply->volts > 120;
    if (supply->selv == DS_TRI_YES && !too_high) {
        ds_facts_set(facts, v->selv);
    } else if (supply->selv == DS_TRI_MISSING && !too_high) {
        open_word(facts, v->selv);
    }
    const ds_json *const at = ds_json_get(point->at, DS_STR("supply"));
    if (ds_str_is(supply->current, "ac") || ds_str_is(supply->current, "dc")) {
        ds_facts_set(facts, ds_str_is(supply->current, "ac") ? v->ac : v->dc);
    } else if (supply->current.at) {
        ds_assessor_complain(a, ds_json_get(at, DS_STR("current")), &point->problem, DS_P_UNKNOWN_WORD,
                             supply->current, DS_STR("; write ac or dc"));
    }
    if (!supply->current.at) {
        open_word(facts, v->ac);
        open_word(facts, v->dc);
    }
    const bool outside = ds_str_is(supply->source_place, "outside");
    const bool inside = ds_str_is(supply->source_place, "inside");
    if (outside || inside) {
        ds_facts_set(facts, outside ? v->source_outside : v->source_inside);
    } else if (supply->source_place.at) {
        ds_assessor_complain(a, ds_json_get(at, DS_STR("source_place")), &point->problem, DS_P_UNKNOWN_WORD,
                             supply->source_place, DS_STR("; write outside or inside (the zones)"));
    }
    if (!outside && !inside) {
        open_word(facts, v->source_outside);
        open_word(facts, v->source_inside);
    }
}

static void set_list(ds_assessor *const a, ds_facts *const facts, const ds_family family,
                     const ds_json *const list, int32_t *const owner)
{
    for (const ds_json *item = list ? list->first : NULL; item; item = item->next) {
        ds_facts_set(facts, ds_assessor_word(a, family, item, ds_json_text(item), owner));
    }
}

static void set_standard(const ds_vocabulary *const v, const ds_point *const point, ds_facts *const facts)
{
    if (point->product_standard.at) {
        /* The year behind the colon says which edition, not which standard. */
        const ds_str whole = point->product_standard;
        const char *const year = whole.len ? memchr(whole.at, ':', whole.len) : NULL;
        const ds_str name = {whole.at, year ? (size_t)(year - whole.at) : whole.len};
        ds_facts_set(facts, ds_words_find(v->words, DS_FAMILY_STANDARD, name));
    } else {
        ds_facts_open(facts, &v->standards);
    }
}

static void set_maker(ds_assessor *const a, ds_point *const point, ds_facts *const facts)
{
    const ds_vocabulary *const v = &a->vocabulary;
    const ds_maker *const maker = &point->maker;
    for (const ds_json *zone = maker->zones ? maker->zones->first : NULL; zone; zone = zone->next) {
        ds_facts_set(facts, ds_words_find(v->words, DS_FAMILY_MAKER_ZONE, ds_json_text(zone)));
    }
    if (!maker->zones) {
        ds_facts_open(facts, &v->maker_zones);
    }
    if (!maker->materials) {
        ds_facts_open(facts, &v->materials);
    }
    set_list(a, facts, DS_FAMILY_MATERIAL, maker->materials, &point->problem);
    ds_assessor_check_words(a, DS_FAMILY_QUALITY, maker->suitable_for, &point->problem);
    ds_assessor_check_words(a, DS_FAMILY_CONDITION, maker->mounting, &point->problem);
}

/* Whether a top face is stated to be reachable; a box that says nothing leaves it open. */
static void set_top(const ds_vocabulary *const v, const ds_point *const point, const ds_word *const kind,
                    ds_facts *const facts)
{
    const ds_face *const top = point->box ? ds_box_face(point->box, DS_SIDE_TOP) : NULL;
    const ds_tri reachable = top ? top->reachable : DS_TRI_MISSING;
    if (reachable == DS_TRI_YES) {
        ds_facts_set(facts, v->top_reachable);
    } else if (reachable == DS_TRI_MISSING && kind && kind->enclosure) {
        open_word(facts, v->top_reachable);
    }
}

/* Stated twice, the height must be the same within what a tape measure gives. */
static void check_height(ds_assessor *const a, ds_point *const point)
{
    const double tape_m = 0.05;
    if (fabs(point->height_m - point->at_m[2]) > tape_m + 1e-9) {
        const ds_json *const height = ds_json_get(point->at, DS_STR("height_m"));
        const ds_json *const at = ds_json_get(point->at, DS_STR("at_m"));
        ds_assessor_complain(a, height, &point->problem, DS_P_HEIGHT_DIFFERS, ds_json_text(height),
                             ds_json_text(at->first->next->next));
    }
}

const ds_zone_answer *ds_point_facts(ds_assessor *const a, ds_point *const point,
                                     const ds_situation *const situation, const ds_wet *const wet,
                                     ds_facts *const out, ds_str *const zone)
{
    const ds_vocabulary *const v = &a->vocabulary;
    ds_facts_init(out);
    set_surroundings(out, v, situation);
    const ds_json *const kind_at = ds_json_get(point->at, DS_STR("kind"));
    const int kind =
        point->kind.at ? ds_assessor_word(a, DS_FAMILY_KIND, kind_at, point->kind, &point->problem) : -1;
    ds_facts_set_wider(out, v->words, kind);
    set_figure(out, DS_NUMBER_ZONE1_DISTANCE, point->zone1_distance_m);
    set_figure(out, DS_NUMBER_ZONE0_DISTANCE, point->zone0_distance_m);
    const ds_zone_answer *const where = ds_wet_locate(a, wet, point, out, zone);
    *zone = where ? *zone : set_zone(a, point, situation, wet, out);
    set_supply(a, point, out);
    set_standard(v, point, out);
    set_maker(a, point, out);
    set_top(v, point, kind >= 0 ? v->words->at[kind] : NULL, out);
    set_list(a, out, DS_FAMILY_MEASURE, point->measures, &point->problem);
    set_list(a, out, DS_FAMILY_FOUND, point->found.words, &point->problem);
    ds_assessor_check_words(a, DS_FAMILY_EVIDENCE, point->found.evidence, &point->problem);
    check_height(a, point);
    set_figure(out, DS_NUMBER_HEIGHT, isnan(point->height_m) ? point->at_m[2] : point->height_m);
    return where;
}
