/* SPDX-License-Identifier: MIT */
/* Differences in words: how many points turned which way, and what made one turn. */
#include "core/assess/differ.h"
#include "core/assess/say.h"
#include "core/json/write.h"

/* --- the whole -------------------------------------------------------------------------------------------------------- */

static void say_points(ds_text *const out, const size_t count)
{
    ds_text_int(out, (int64_t)count);
    ds_text_add(out, count == 1 ? " point" : " points");
}

/* "2 of 9 points are worse, 1 is better" for the turns from `from` on. */
static size_t say_turns(ds_text *const out, const ds_differ *const differ, const int from)
{
    static const char *const ONE[DS_TURNS] = {
        " is worse",         " was added", " was removed", " is better", " needs something else",
        " differs otherwise"};
    static const char *const MANY[DS_TURNS] = {" are worse",  " were added",          " were removed",
                                               " are better", " need something else", " differ otherwise"};
    size_t told = 0;
    for (int turn = from; turn < DS_TURNS; turn++) {
        const size_t count = differ->counted[turn];
        if (!count) {
            continue;
        }
        ds_text_add(out, told ? ", " : "");
        ds_text_int(out, (int64_t)count);
        if (!told) {
            ds_text_add(out, " of ");
            say_points(out, differ->points_all);
        }
        ds_text_add(out, (count == 1 ? ONE : MANY)[turn]);
        told += count;
    }
    return told;
}

void ds_differ_say(ds_text *const out, const ds_differ *const differ)
{
    if (ds_differ_exit(differ) == 0) {
        ds_text_add(out, "No verdict and no need has changed");
        ds_text_add(out, differ->points_len ? "; " : " (");
        if (differ->points_len) {
            say_turns(out, differ, DS_TURN_OTHER);
        } else {
            say_points(out, differ->points_all);
        }
        ds_text_add(out, differ->points_len ? "." : ").");
        return;
    }
    const size_t left = differ->points_all - say_turns(out, differ, DS_TURN_WORSE);
    if (left) {
        ds_text_add(out, "; ");
        ds_text_int(out, (int64_t)left);
        ds_text_add(out, left == 1 ? " is as it was" : " are as they were");
    }
    ds_text_char(out, '.');
}

/* --- what is stated otherwise ----------------------------------------------------------------------------------------- */

enum { WORDS_TOLD = 64 };

static bool is_scalar(const ds_json *const value)
{
    return value->kind < DS_JSON_ARRAY;
}

/* The word of a member of a list of words; at NULL when it is none. */
static ds_str word_of(const ds_json *const member)
{
    const ds_json *const word = member->kind == DS_JSON_OBJECT ? ds_json_get(member, DS_STR("word")) : member;
    return word && word->kind == DS_JSON_STRING ? ds_json_text(word) : (ds_str){0};
}

static bool is_list_of_words(const ds_json *const value)
{
    if (!value || value->kind != DS_JSON_ARRAY || value->count > WORDS_TOLD) {
        return false;
    }
    for (const ds_json *at = value->first; at; at = at->next) {
        if (!word_of(at).at) {
            return false;
        }
    }
    return true;
}

static const ds_json *find_word(const ds_json *const list, const ds_str word)
{
    const ds_json *at = list->first;
    while (at && !ds_str_eq(word_of(at), word)) {
        at = at->next;
    }
    return at;
}

/* The words of one list that the other lacks, or, `changed`, has otherwise; *told counts what was said before. */
static void say_words(ds_text *const out, const ds_json *const list, const ds_json *const other,
                      const bool changed, const char *const after, size_t *const told)
{
    const size_t before = *told;
    for (const ds_json *at = list->first; at; at = at->next) {
        const ds_json *const pair = find_word(other, word_of(at));
        if (changed ? pair && !ds_json_same(at, pair) : !pair) {
            ds_text_add(out, *told ? ", " : " ");
            ds_text_adds(out, word_of(at));
            (*told)++;
        }
    }
    ds_text_add(out, *told > before ? after : "");
}

/* "seen: salt new, hose-nearby gone" */
static void say_word_lists(ds_text *const out, const ds_restated *const it)
{
    size_t told = 0;
    ds_text_char(out, ':');
    say_words(out, it->after, it->before, false, " new", &told);
    say_words(out, it->before, it->after, false, " gone", &told);
    say_words(out, it->after, it->before, true, " changed", &told);
    ds_text_add(out, told ? "" : " in another order");
}

static void say_value(ds_text *const out, const ds_json *const value)
{
    ds_json_writer w = ds_json_writer_on(out);
    ds_json_put_tree(&w, value);
}

static void say_restated(ds_text *const out, const ds_restated *const it)
{
    ds_text_adds(out, it->key);
    if (is_list_of_words(it->before) && is_list_of_words(it->after)) {
        say_word_lists(out, it);
    } else if (!it->before || !it->after) {
        const ds_json *const one = it->before ? it->before : it->after;
        if (is_scalar(one)) {
            ds_text_char(out, ' ');
            say_value(out, one);
        }
        ds_text_add(out, it->before ? " is gone" : " is new");
    } else if (is_scalar(it->before) && is_scalar(it->after)) {
        ds_text_char(out, ' ');
        say_value(out, it->after);
        ds_text_add(out, ", was ");
        say_value(out, it->before);
    } else {
        ds_text_add(out, " has changed");
    }
}

static void say_marks(ds_text *const out, const ds_difference *const difference)
{
    ds_text_add(out, "marked ");
    ds_say_marked(out, difference->after->point);
    ds_text_add(out, ", was ");
    ds_say_marked(out, difference->before->point);
}

/* difference NULL: of a place, which has no marks. */
static void say_restatements(ds_text *const out, const ds_restatements *const list,
                             const ds_difference *const difference)
{
    for (size_t i = 0; i < list->len; i++) {
        ds_text_add(out, i ? "; " : " ");
        if (difference && ds_str_is(list->at[i].key, "marked")) {
            say_marks(out, difference);
        } else {
            say_restated(out, &list->at[i]);
        }
    }
    ds_text_char(out, '.');
}

static void say_packs(ds_text *const out, const ds_findings *const findings)
{
    for (size_t i = 0; i < findings->packs_len; i++) {
        ds_text_add(out, i ? " and " : "");
        ds_text_adds(out, findings->packs[i]->edition);
    }
    ds_text_add(out, findings->packs_len ? "" : "none");
}

bool ds_differ_say_cause(ds_text *const out, const ds_differ *const differ,
                         const ds_difference *const difference, const ds_cause cause)
{
    if (!difference->before || !difference->after) {
        return false;
    }
    switch (cause) {
    case DS_CAUSE_POINT:
        if (difference->point.len) {
            ds_text_add(out, "The point is described otherwise:");
            say_restatements(out, &difference->point, difference);
        }
        return difference->point.len > 0;
    case DS_CAUSE_PLACE:
        if (difference->place->len) {
            ds_text_add(out, "Its place is described otherwise:");
            say_restatements(out, difference->place, NULL);
        }
        return difference->place->len > 0;
    default:
        if (difference->by_rules) {
            ds_text_add(out, "The rules are others: now ");
            say_packs(out, differ->after);
            ds_text_add(out, ", before ");
            say_packs(out, differ->before);
            ds_text_char(out, '.');
        }
        return difference->by_rules;
    }
}
