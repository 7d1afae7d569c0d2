/* SPDX-License-Identifier: MIT */
/*
 * What was seen at a place and at a point, put together.
 *
 * Seen words add up; a word that the point calls absent no longer counts there, however the place was surveyed: the
 * closer look wins. Classes stated or stood for add up by the highest.
 */
#include "core/assess/point_facts.h"

#include <math.h>

static void put(ds_wordset *const set, const int id)
{
    set->bits[id / 64] |= UINT64_C(1) << id % 64;
}

static bool has(const ds_wordset *const set, const int id)
{
    return set->bits[id / 64] >> id % 64 & 1;
}

static void put_class(ds_wordset *const out, const ds_words *const words, const ds_influence which,
                      const unsigned n)
{
    const int id = n && ds_class_is_kind(which, n) ? ds_class_word(words, which, n) : -1;
    if (id >= 0) {
        put(out, id);
    }
}

/*
 * The classes that are words of their own and may hold while a question is open: those of its influence, and those that
 * its words stand for (straw answers the question of dust, and burns: BE2).
 */
static void find_classes(ds_wordset *const out, const ds_words *const words, const ds_group group)
{
    memset(out, 0, sizeof *out);
    if (group == DS_GROUP_REST) {
        return;
    }
    for (unsigned n = 1; n <= 9; n++) {
        put_class(out, words, ds_group_influence(group), n);
    }
    for (uint16_t id = 0; id < words->len; id++) {
        const ds_word *const word = words->at[id];
        for (int i = 0; word->family == DS_FAMILY_SEEN && word->group == group && i < DS_INFLUENCES; i++) {
            put_class(out, words, (ds_influence)i, word->influences[i]);
        }
    }
}

void ds_vocabulary_init(ds_vocabulary *const out, const ds_words *const words)
{
    *out = (ds_vocabulary){.words = words};
    for (int group = 0; group < DS_GROUPS; group++) {
        ds_wordset_of(&out->groups[group], words, DS_FAMILY_SEEN, (ds_group)group);
        find_classes(&out->classes[group], words, (ds_group)group);
    }
    ds_wordset_of(&out->zones, words, DS_FAMILY_ZONE, DS_GROUPS);
    ds_wordset_of(&out->standards, words, DS_FAMILY_STANDARD, DS_GROUPS);
    ds_wordset_of(&out->maker_zones, words, DS_FAMILY_MAKER_ZONE, DS_GROUPS);
    ds_wordset_of(&out->materials, words, DS_FAMILY_MATERIAL, DS_GROUPS);
    out->selv = ds_words_find(words, DS_FAMILY_SUPPLY, DS_STR("selv"));
    out->ac = ds_words_find(words, DS_FAMILY_SUPPLY, DS_STR("ac"));
    out->dc = ds_words_find(words, DS_FAMILY_SUPPLY, DS_STR("dc"));
    out->source_outside = ds_words_find(words, DS_FAMILY_SUPPLY, DS_STR("source-outside"));
    out->source_inside = ds_words_find(words, DS_FAMILY_SUPPLY, DS_STR("source-inside"));
    out->top_reachable = ds_words_find(words, DS_FAMILY_TOP, DS_STR("reachable"));
}

void ds_assessor_complain(ds_assessor *const a, const ds_json *const value, int32_t *const owner,
                          const ds_problem_code code, const ds_str word, const ds_str rest)
{
    if (!ds_job_complain(a->job, a->arena, value, owner, code, word, rest)) {
        a->failed = true;
    }
}

int ds_assessor_word(ds_assessor *const a, const ds_family family, const ds_json *const value,
                     const ds_str word, int32_t *const owner)
{
    const int id = ds_words_find(a->vocabulary.words, family, word);
    if (id < 0) {
        const ds_str nearest = ds_words_suggest(a->vocabulary.words, a->arena, family, word);
        ds_assessor_complain(a, value, owner, DS_P_UNKNOWN_WORD, word, nearest);
    }
    return id;
}

void ds_assessor_check_words(ds_assessor *const a, const ds_family family, const ds_json *const list,
                             int32_t *const owner)
{
    for (const ds_json *item = list ? list->first : NULL; item; item = item->next) {
        ds_assessor_word(a, family, item, ds_json_text(item), owner);
    }
}

/* --- seen --------------------------------------------------------------------------------------------------------- */

enum { ALL_ANSWERED = 1 << DS_GROUP_WATER | 1 << DS_GROUP_DUST | 1 << DS_GROUP_BLOWS | 1 << DS_GROUP_PEOPLE };

/* A quantity counts by its largest value, a distance by its smallest, a temperature by both. */
static void add_quantity(ds_situation *const s, const ds_number which, const ds_span value)
{
    ds_span *const span = &s->quantity[which];
    if (span->low > span->high) {
        *span = value;
    } else if (which == DS_NUMBER_DISTANCE) {
        *span = (ds_span){fmin(span->low, value.low), fmin(span->high, value.high)};
    } else if (which == DS_NUMBER_TEMP) {
        *span = (ds_span){fmin(span->low, value.low), fmax(span->high, value.high)};
    } else {
        *span = (ds_span){fmax(span->low, value.low), fmax(span->high, value.high)};
    }
}

/* True when figures of this name may stand beside the word; another one would settle what it says nothing of. */
static bool takes_quantity(const ds_word *const word, const ds_str name)
{
    for (const ds_json *item = word->quantities ? word->quantities->first : NULL; item; item = item->next) {
        if (ds_str_eq(ds_json_text(item), name)) {
            return true;
        }
    }
    return false;
}

static void read_quantity(ds_assessor *const a, ds_situation *const s, const ds_word *const word,
                          const ds_json *const item, int32_t *const owner)
{
    const ds_number which = ds_number_of(ds_json_key(item));
    const bool known = which != DS_NUMBERS && takes_quantity(word, ds_json_key(item));
    double value = 0;
    if (!known) {
        ds_assessor_complain(a, item, owner, DS_P_UNKNOWN_KEY, ds_json_key(item), (ds_str){0});
    } else if (!ds_json_number(item, &value)) {
        ds_assessor_complain(a, item, owner, DS_P_WRONG_TYPE, ds_json_key(item), DS_STR("a number"));
    } else if (which != DS_NUMBER_TEMP && (value < 0 || value > 1e6)) {
        ds_assessor_complain(a, item, owner, DS_P_OUT_OF_RANGE, ds_json_text(item), DS_STR("0 to 1000000"));
    } else {
        add_quantity(s, which, (ds_span){value, value});
    }
}

/*
 * The figures that may stand beside a word, and are not given, leave their number open; but a temperature that another
 * word states stays what goods must be rated for.
 */
static void read_quantities(ds_assessor *const a, ds_situation *const s, const ds_word *const word,
                            const ds_json *const item, int32_t *const owner)
{
    const bool is_object = item->kind == DS_JSON_OBJECT;
    for (const ds_json *member = is_object ? item->first : NULL; member; member = member->next) {
        if (!ds_str_is(ds_json_key(member), "word")) {
            read_quantity(a, s, word, member, owner);
        }
    }
    for (const ds_json *name = word->quantities ? word->quantities->first : NULL; name; name = name->next) {
        const ds_number which = ds_number_of(ds_json_text(name));
        const bool given = is_object && ds_json_get(item, ds_json_text(name));
        if (which != DS_NUMBERS && which != DS_NUMBER_TEMP && !given) {
            add_quantity(s, which, (ds_span){-INFINITY, INFINITY});
        }
    }
}

static void add_seen(ds_assessor *const a, ds_situation *const s, const ds_json *const item,
                     int32_t *const owner)
{
    const ds_json *const text = item->kind == DS_JSON_OBJECT ? ds_json_get(item, DS_STR("word")) : item;
    if (ds_str_is(ds_json_text(text), "none")) {
        s->answered |= ALL_ANSWERED;
        return;
    }
    const int id = ds_assessor_word(a, DS_FAMILY_SEEN, text, ds_json_text(text), owner);
    if (id < 0) {
        return;
    }
    const ds_word *const word = a->vocabulary.words->at[id];
    put(&s->seen, id);
    s->answered |= (uint8_t)(1 << word->group);
    s->refused = s->refused || word->refuse;
    read_quantities(a, s, word, item, owner);
}

static void add_all_seen(ds_assessor *const a, ds_situation *const s, const ds_survey *const survey,
                         int32_t *const owner)
{
    const ds_json *const seen = survey->seen;
    if (seen && seen->kind == DS_JSON_STRING) {
        s->answered |= ALL_ANSWERED;
        return;
    }
    for (const ds_json *item = seen ? seen->first : NULL; item; item = item->next) {
        add_seen(a, s, item, owner);
    }
}

/* --- absent and stated -------------------------------------------------------------------------------------------- */

static int group_of(const ds_str word)
{
    for (int group = 0; group < DS_GROUP_REST; group++) {
        if (ds_str_is(word, ds_group_name((ds_group)group))) {
            return group;
        }
    }
    return -1;
}

static bool any_of_group(const ds_vocabulary *const v, const ds_wordset *const seen, const int group)
{
    uint64_t any = 0;
    for (size_t i = 0; i < DS_WORDS_MAX / 64; i++) {
        any |= seen->bits[i] & v->groups[group].bits[i];
    }
    return any != 0;
}

/* Rules a word or a whole group out; `own` holds what the same survey says is seen. */
static bool add_absent(ds_assessor *const a, ds_situation *const s, const ds_wordset *const own,
                       const ds_json *const item, int32_t *const owner)
{
    const ds_str text = ds_json_text(item);
    const int group = group_of(text);
    if (group >= 0) {
        if (any_of_group(&a->vocabulary, own, group)) {
            ds_assessor_complain(a, item, owner, DS_P_SEEN_AND_ABSENT, text, (ds_str){0});
            return false;
        }
        const bool takes_away = any_of_group(&a->vocabulary, &s->seen, group);
        for (size_t i = 0; i < DS_WORDS_MAX / 64; i++) {
            s->seen.bits[i] &= ~a->vocabulary.groups[group].bits[i];
        }
        s->answered |= (uint8_t)(1 << group);
        return takes_away;
    }
    const int id = ds_assessor_word(a, DS_FAMILY_SEEN, item, text, owner);
    if (id < 0) {
        return false;
    }
    if (has(own, id)) {
        ds_assessor_complain(a, item, owner, DS_P_SEEN_AND_ABSENT, text, (ds_str){0});
        return false;
    }
    const bool takes_away = has(&s->seen, id);
    s->seen.bits[id / 64] &= ~(UINT64_C(1) << id % 64);
    /* "No hose" does not say "no water"; of people it is said that somebody asked. */
    if (a->vocabulary.words->at[id]->group == DS_GROUP_PEOPLE) {
        s->answered |= (uint8_t)(1 << DS_GROUP_PEOPLE);
    }
    return takes_away;
}

/* Stated classes add up as seen words do: a bit a class, so that kinds can stand together. BE3 is an explosive atmosphere. */
static void add_stated(ds_situation *const s, const ds_survey *const survey)
{
    s->refused = s->refused || survey->influences[DS_BE] == 3;
    for (int i = 0; i < DS_INFLUENCES; i++) {
        if (!isnan(survey->influences[i])) {
            s->stated[i] |= (uint16_t)(1 << (unsigned)survey->influences[i]);
        }
    }
    for (int group = 0; group < DS_GROUP_REST; group++) {
        if (!isnan(survey->influences[ds_group_influence((ds_group)group)])) {
            s->answered |= (uint8_t)(1 << group);
        }
    }
}

static ds_situation empty_situation(void)
{
    ds_situation s = {.place_id = -1, .setting_id = -1};
    for (int i = 0; i < DS_NUMBERS; i++) {
        s.quantity[i] = (ds_span){1, 0};
    }
    return s;
}

static void merge_seen(ds_situation *const s, const ds_situation *const own)
{
    for (size_t i = 0; i < DS_WORDS_MAX / 64; i++) {
        s->seen.bits[i] |= own->seen.bits[i];
    }
    for (int i = 0; i < DS_NUMBERS; i++) {
        if (own->quantity[i].low <= own->quantity[i].high) {
            add_quantity(s, (ds_number)i, own->quantity[i]);
        }
    }
    s->answered |= own->answered;
    s->refused = s->refused || own->refused;
}

/* True when something that was seen before is ruled out by this survey. */
static bool add_survey(ds_assessor *const a, ds_situation *const s, const ds_survey *const survey,
                       int32_t *const owner)
{
    ds_situation own = empty_situation();
    add_all_seen(a, &own, survey, owner);
    bool takes_away = false;
    for (const ds_json *item = survey->absent ? survey->absent->first : NULL; item; item = item->next) {
        takes_away = add_absent(a, s, &own.seen, item, owner) || takes_away;
    }
    merge_seen(s, &own);
    add_stated(s, survey);
    return takes_away;
}

void ds_situation_of_place(ds_assessor *const a, ds_place *const place, ds_situation *const out)
{
    *out = empty_situation();
    if (place->kind.at) {
        const ds_json *const at = ds_json_get(place->at, DS_STR("kind"));
        out->place_id = ds_assessor_word(a, DS_FAMILY_PLACE, at, place->kind, &place->problem);
    }
    if (place->setting.at) {
        const ds_json *const at = ds_json_get(place->at, DS_STR("setting"));
        out->setting_id = ds_assessor_word(a, DS_FAMILY_SETTING, at, place->setting, &place->problem);
    }
    out->refused = out->place_id >= 0 && a->vocabulary.words->at[out->place_id]->refuse;
    add_survey(a, out, &place->survey, &place->problem);
}

void ds_situation_add_point(ds_assessor *const a, ds_point *const point, ds_situation *const situation,
                            bool *const absent_here)
{
    *absent_here = add_survey(a, situation, &point->survey, &point->problem);
}
