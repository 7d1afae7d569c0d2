/* SPDX-License-Identifier: MIT */
/*
 * Conditions: compiled from JSON to words and limits, and judged in three values.
 *
 * "All" is the least of its parts, "any" the greatest, with no < maybe < yes. There is no negation, and influence
 * classes take lower limits only; so a fact that becomes stricter can only make more rules apply.
 */
#include "core/rules/reader.h"

#include <math.h>

enum { DEEPEST = 16 };

static bool read_limit(ds_condition *const out, const ds_json *const item)
{
    double value = 0;
    if (!ds_json_number(item, &value)) {
        return false;
    }
    const ds_str key = ds_json_key(item);
    if (ds_str_is(key, "at_least") || ds_str_is(key, "above")) {
        out->low = value;
        out->above = ds_str_is(key, "above");
        return true;
    }
    if (ds_str_is(key, "at_most") || ds_str_is(key, "below")) {
        out->high = value;
        out->below = ds_str_is(key, "below");
        return true;
    }
    return false;
}

static void read_limits(ds_pack_reader *const r, ds_condition *const out, const ds_number which,
                        const ds_json *const value)
{
    *out = (ds_condition){.op = DS_IN_LIMITS, .number = (uint16_t)which, .low = -INFINITY, .high = INFINITY};
    const bool is_class = which < (ds_number)DS_INFLUENCES;
    double number = 0;
    if (ds_json_number(value, &number)) {
        out->low = number;
        out->high = is_class ? INFINITY : number;
        return;
    }
    bool good = value->kind == DS_JSON_OBJECT && value->count > 0;
    for (const ds_json *item = good ? value->first : NULL; item && good; item = item->next) {
        good = read_limit(out, item);
    }
    if (!good || (is_class && (isfinite(out->high) || out->above))) {
        ds_pack_refuse(r, value,
                       is_class ? "an influence class takes a number or {\"at_least\": number}"
                                : "limits are at_least, at_most, above, below");
    }
}

const uint16_t *ds_pack_word_ids(ds_pack_reader *const r, const ds_family family, const ds_json *const value,
                                 uint16_t *const len)
{
    const bool is_list = value->kind == DS_JSON_ARRAY;
    uint16_t *const ids = ds_pack_take(r, is_list ? value->count : 1, sizeof *ids);
    *len = 0;
    for (const ds_json *item = is_list ? value->first : value; item && ids;
         item = is_list ? item->next : NULL) {
        if (item->kind != DS_JSON_STRING) {
            ds_pack_refuse(r, item, "a word, or a list of words, is expected here");
            return NULL;
        }
        const bool has_file = family < DS_FAMILY_ZONE;
        const int id = has_file ? ds_words_find(&r->book->words, family, ds_json_text(item))
                                : ds_words_intern(&r->book->words, family, ds_json_text(item));
        if (id < 0) {
            ds_pack_refuse(r, item, "a word that is not in the word files");
            return NULL;
        }
        ids[(*len)++] = (uint16_t)id;
    }
    return ids;
}

/* A class that is a kind of its own: a word such as "BE2". */
static void read_class(ds_pack_reader *const r, ds_condition *const out, const ds_json *const entry,
                       const double number)
{
    const ds_str key = ds_json_key(entry);
    char *const text = ds_pack_take(r, 3, 1);
    uint16_t *const ids = ds_pack_take(r, 1, sizeof *ids);
    if (!text || !ids) {
        return;
    }
    memcpy(text, key.at, 2);
    text[2] = (char)('0' + (int)number);
    const int id = ds_words_intern(&r->book->words, DS_FAMILY_CLASS, (ds_str){text, 3});
    if (id < 0) {
        r->status = DS_NO_MEMORY;
        return;
    }
    ids[0] = (uint16_t)id;
    *out = (ds_condition){.op = DS_HAS_WORD, .family = DS_FAMILY_CLASS, .len = 1, .ids = ids};
}

static void read_number(ds_pack_reader *const r, ds_condition *const out, const ds_json *const entry)
{
    const ds_number which = ds_number_of(ds_json_key(entry));
    double number = 0;
    const bool is_class = which < (ds_number)DS_INFLUENCES;
    const bool bare = ds_json_number(entry, &number) && number >= 1 && number <= 9 && number == floor(number);
    if (is_class && bare && ds_class_is_kind((ds_influence)which, (unsigned)number)) {
        read_class(r, out, entry, number);
    } else if (is_class && ds_class_is_kind((ds_influence)which, 1)) {
        ds_pack_refuse(r, entry, "a class of this influence is a kind: a bare number from 1 to 9");
    } else {
        read_limits(r, out, which, entry);
    }
}

static bool family_of(const ds_str key, ds_family *const out)
{
    static const ds_family IN_CONDITIONS[] = {DS_FAMILY_SETTING,  DS_FAMILY_PLACE,      DS_FAMILY_KIND,
                                              DS_FAMILY_MEASURE,  DS_FAMILY_FOUND,      DS_FAMILY_MATERIAL,
                                              DS_FAMILY_SEEN,     DS_FAMILY_ZONE,       DS_FAMILY_SUPPLY,
                                              DS_FAMILY_STANDARD, DS_FAMILY_MAKER_ZONE, DS_FAMILY_TOP};
    for (size_t i = 0; i < sizeof IN_CONDITIONS / sizeof *IN_CONDITIONS; i++) {
        if (ds_str_is(key, ds_family_name(IN_CONDITIONS[i]))) {
            *out = IN_CONDITIONS[i];
            return true;
        }
    }
    return false;
}

static void read_entry(ds_pack_reader *r, const ds_json *entry, ds_condition *out);

/* The parts of an object (its entries) or of a list (its elements). */
static void read_parts(ds_pack_reader *const r, const ds_json *const value, const ds_condition_op op,
                       ds_condition *const out)
{
    ds_condition *const parts = ds_pack_take(r, value->count, sizeof *parts);
    *out = (ds_condition){.op = op, .parts = parts};
    if (++r->depth > DEEPEST || value->count == 0) {
        ds_pack_refuse(r, value, "a condition is empty or nested too deeply");
    }
    for (const ds_json *item = value->first; item && r->status == DS_OK; item = item->next) {
        if (value->kind == DS_JSON_OBJECT) {
            read_entry(r, item, &parts[out->len]);
        } else if (item->kind == DS_JSON_OBJECT) {
            read_parts(r, item, DS_ALL, &parts[out->len]);
        } else {
            ds_pack_refuse(r, item, "a list of conditions holds objects");
        }
        out->len++;
    }
    r->depth--;
}

static void read_entry(ds_pack_reader *const r, const ds_json *const entry, ds_condition *const out)
{
    const ds_str key = ds_json_key(entry);
    const bool is_all = ds_str_is(key, "all");
    ds_family family = DS_FAMILIES;
    if (is_all || ds_str_is(key, "any")) {
        if (entry->kind == DS_JSON_ARRAY) {
            read_parts(r, entry, is_all ? DS_ALL : DS_ANY, out);
        } else {
            ds_pack_refuse(r, entry, "all and any take a list");
        }
    } else if (r->in_unless && (ds_str_is(key, "seen") || ds_influence_of(key) != DS_INFLUENCES)) {
        ds_pack_refuse(r, entry, "unless may not rest on what was seen");
    } else if (family_of(key, &family)) {
        *out = (ds_condition){.op = DS_HAS_WORD, .family = (uint16_t)family};
        out->ids = ds_pack_word_ids(r, family, entry, &out->len);
    } else if (ds_number_of(key) != DS_NUMBERS) {
        read_number(r, out, entry);
    } else {
        ds_pack_refuse(r, entry, "a condition on something that is no fact");
    }
}

const ds_condition *ds_condition_read(ds_pack_reader *const r, const ds_json *const value)
{
    ds_condition *const out = ds_pack_take(r, 1, sizeof *out);
    if (!out || value->kind != DS_JSON_OBJECT) {
        ds_pack_refuse(r, value, "a condition is an object");
        return NULL;
    }
    read_parts(r, value, DS_ALL, out);
    return r->status == DS_OK ? out : NULL;
}

/* --- judging ------------------------------------------------------------------------------------------------------ */

static ds_truth judge_words(const ds_condition *const c, const ds_facts *const facts)
{
    ds_truth best = DS_NO;
    for (uint16_t i = 0; i < c->len; i++) {
        if (ds_facts_has(facts, c->ids[i])) {
            return DS_YES;
        }
        if (ds_facts_may(facts, c->ids[i])) {
            best = DS_MAYBE;
        }
    }
    return best;
}

static bool reaches_low(const ds_condition *const c, const double value)
{
    return c->above ? value > c->low : value >= c->low;
}

static bool reaches_high(const ds_condition *const c, const double value)
{
    return c->below ? value < c->high : value <= c->high;
}

static ds_truth judge_limits(const ds_condition *const c, const ds_facts *const facts)
{
    const ds_span span = facts->number[c->number];
    if (reaches_low(c, span.low) && reaches_high(c, span.high)) {
        return DS_YES;
    }
    return reaches_low(c, span.high) && reaches_high(c, span.low) ? DS_MAYBE : DS_NO;
}

static ds_truth judge(const ds_condition *const c, const ds_facts *const facts)
{
    if (c->op == DS_HAS_WORD) {
        return judge_words(c, facts);
    }
    if (c->op == DS_IN_LIMITS) {
        return judge_limits(c, facts);
    }
    const ds_truth settles = c->op == DS_ALL ? DS_NO : DS_YES;
    ds_truth truth = c->op == DS_ALL ? DS_YES : DS_NO;
    for (uint16_t i = 0; i < c->len && truth != settles; i++) {
        const ds_truth part = judge(&c->parts[i], facts);
        truth = (c->op == DS_ALL) == (part < truth) ? part : truth;
    }
    return truth;
}

ds_truth ds_rule_applies(const ds_rule *const rule, const ds_facts *const facts)
{
    const ds_truth when = judge(rule->when, facts);
    if (when == DS_NO || !rule->unless) {
        return when;
    }
    const ds_truth allowed = (ds_truth)(DS_YES - judge(rule->unless, facts));
    return when < allowed ? when : allowed;
}

static void collect_missing(const ds_condition *const c, const ds_facts *const facts, ds_missing *const out)
{
    if (judge(c, facts) != DS_MAYBE) {
        return;
    }
    if (c->op == DS_HAS_WORD) {
        out->families |= UINT32_C(1) << c->family;
    } else if (c->op == DS_IN_LIMITS) {
        out->numbers |= UINT32_C(1) << c->number;
    }
    for (uint16_t i = 0; i < c->len && c->parts; i++) {
        collect_missing(&c->parts[i], facts, out);
    }
}

ds_missing ds_rule_missing(const ds_rule *const rule, const ds_facts *const facts)
{
    ds_missing out = {0};
    collect_missing(rule->when, facts, &out);
    if (rule->unless) {
        collect_missing(rule->unless, facts, &out);
    }
    return out;
}

static bool speaks_of(const ds_condition *const c, const ds_condition_op op, const unsigned what)
{
    if (c->op == op) {
        return op == DS_HAS_WORD ? c->family == what : c->number == what;
    }
    for (uint16_t i = 0; i < c->len && c->parts; i++) {
        if (speaks_of(&c->parts[i], op, what)) {
            return true;
        }
    }
    return false;
}

bool ds_rule_asks_number(const ds_rule *const rule, const ds_number number)
{
    return rule->when && speaks_of(rule->when, DS_IN_LIMITS, number);
}

bool ds_rule_asks_family(const ds_rule *const rule, const ds_family family)
{
    return rule->when && speaks_of(rule->when, DS_HAS_WORD, family);
}
