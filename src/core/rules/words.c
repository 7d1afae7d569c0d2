/* SPDX-License-Identifier: MIT */
/* Reading word files and finding words by a hash of family and spelling. */
#include "core/rules/words.h"

static const char *const FAMILY_NAMES[DS_FAMILIES] = {
    "setting",  "place", "kind", "measure", "condition", "found",      "evidence", "quality",
    "material", "seen",  "zone", "supply",  "standard",  "maker_zone", "top",      "class"};

static const char *const GROUP_NAMES[DS_GROUPS] = {"water", "dust", "blows", "people", "rest"};

const char *ds_family_name(const ds_family family)
{
    return FAMILY_NAMES[family];
}

const char *ds_group_name(const ds_group group)
{
    return GROUP_NAMES[group];
}

ds_influence ds_group_influence(const ds_group group)
{
    static const ds_influence OF[DS_GROUPS] = {DS_AD, DS_AE, DS_AG, DS_BA, DS_INFLUENCES};
    return OF[group];
}

static const char *const SOURCE_WORDS[] = {"published", "memory", "common-practice", "person"};

const char *ds_source_kind_word(const ds_source_kind kind)
{
    return SOURCE_WORDS[kind];
}

bool ds_source_read(ds_source *const out, const ds_json *const value)
{
    const ds_json *const kind = ds_json_get(value, DS_STR("kind"));
    const ds_json *const ref = ds_json_get(value, DS_STR("ref"));
    if (!kind || kind->kind != DS_JSON_STRING || (ref && ref->kind != DS_JSON_STRING)) {
        return false;
    }
    out->ref = ref ? ds_json_text(ref) : (ds_str){0};
    for (int i = DS_SOURCE_PUBLISHED; i <= DS_SOURCE_PERSON; i++) {
        if (ds_str_is(ds_json_text(kind), SOURCE_WORDS[i])) {
            out->kind = (ds_source_kind)i;
            return ref || i >= DS_SOURCE_PRACTICE;
        }
    }
    return false;
}

void ds_words_init(ds_words *const words, ds_arena *const arena)
{
    memset(words, 0, sizeof *words);
    words->arena = arena;
}

/* --- the table ---------------------------------------------------------------------------------------------------- */

enum { SLOTS = DS_WORDS_MAX * 4 };

static size_t first_slot(const ds_family family, const ds_str word)
{
    uint32_t h = 2166136261u ^ (uint32_t)family;
    for (size_t i = 0; i < word.len; i++) {
        h = (h ^ (uint8_t)word.at[i]) * 16777619u;
    }
    return (h ^ h >> 15) % SLOTS;
}

/* True when this word, or one of its other spellings, is what is sought. */
static bool is_spelt(const ds_word *const word, const ds_family family, const ds_str text)
{
    if (word->family != family) {
        return false;
    }
    if (ds_str_eq(word->word, text)) {
        return true;
    }
    for (const ds_json *other = word->also ? word->also->first : NULL; other; other = other->next) {
        if (ds_str_eq(ds_json_text(other), text)) {
            return true;
        }
    }
    return false;
}

int ds_words_find(const ds_words *const words, const ds_family family, const ds_str word)
{
    for (size_t i = first_slot(family, word); words->slots[i]; i = (i + 1) % SLOTS) {
        const int id = words->slots[i] - 1;
        if (is_spelt(words->at[id], family, word)) {
            return id;
        }
    }
    return -1;
}

static void put_slot(ds_words *const words, const ds_family family, const ds_str word, const uint16_t id)
{
    size_t i = first_slot(family, word);
    while (words->slots[i]) {
        i = (i + 1) % SLOTS;
    }
    words->slots[i] = (uint16_t)(id + 1);
}

/* A new word of the family; NULL when room or memory is short. Each spelling takes one of the slots. */
static ds_word *add_word(ds_words *const words, const ds_family family, const ds_str text,
                         const ds_json *const also)
{
    ds_word *const word = words->len < DS_WORDS_MAX ? ds_arena_take(words->arena, sizeof *word) : NULL;
    if (!word) {
        return NULL;
    }
    const uint16_t id = words->len++;
    word->family = family;
    word->word = text;
    word->also = also;
    words->at[id] = word;
    put_slot(words, family, text, id);
    for (const ds_json *other = also ? also->first : NULL; other; other = other->next) {
        put_slot(words, family, ds_json_text(other), id);
    }
    return word;
}

int ds_words_intern(ds_words *const words, const ds_family family, const ds_str text)
{
    const int found = ds_words_find(words, family, text);
    if (found >= 0) {
        return found;
    }
    return add_word(words, family, text, NULL) ? words->len - 1 : -1;
}

ds_str ds_words_suggest(const ds_words *const words, ds_arena *const arena, const ds_family family,
                        const ds_str text)
{
    ds_str list[DS_WORDS_MAX];
    size_t len = 0;
    for (uint16_t i = 0; i < words->len; i++) {
        if (words->at[i]->family == family) {
            list[len++] = words->at[i]->word;
        }
    }
    return ds_suggest(arena, text, list, len);
}

/* --- files -------------------------------------------------------------------------------------------------------- */

typedef struct reader {
    ds_words *words;
    ds_str source;
    ds_problem *problem;
    ds_status status;
    size_t spellings;
} reader;

static void refuse(reader *const r, const ds_json *const at, const ds_problem_code code, const ds_str a,
                   const char *const b)
{
    if (r->status == DS_OK) {
        *r->problem = (ds_problem){
            .code = code, .where = ds_json_where(at, r->source, r->words->arena), .a = a, .b = ds_str_of(b)};
        r->status = DS_BAD_INPUT;
    }
}

static ds_str need_text(reader *const r, const ds_json *const value)
{
    if (value->kind != DS_JSON_STRING) {
        refuse(r, value, DS_P_WRONG_TYPE, ds_json_key(value), "a text in quotes");
        return (ds_str){0};
    }
    return ds_json_text(value);
}

static const ds_json *need_texts(reader *const r, const ds_json *const value)
{
    const bool is_list = value->kind == DS_JSON_ARRAY;
    for (const ds_json *item = is_list ? value->first : NULL; item; item = item->next) {
        if (item->kind != DS_JSON_STRING) {
            refuse(r, item, DS_P_WRONG_TYPE, ds_json_key(value), "a list of words");
            return NULL;
        }
    }
    if (!is_list) {
        refuse(r, value, DS_P_WRONG_TYPE, ds_json_key(value), "a list of words");
        return NULL;
    }
    return value;
}

static bool need_flag(reader *const r, const ds_json *const value)
{
    if (value->kind != DS_JSON_TRUE && value->kind != DS_JSON_FALSE) {
        refuse(r, value, DS_P_WRONG_TYPE, ds_json_key(value), "true or false");
    }
    return value->kind == DS_JSON_TRUE;
}

static void read_group(reader *const r, ds_word *const word, const ds_json *const value)
{
    const ds_str text = need_text(r, value);
    for (int i = 0; i < DS_GROUPS; i++) {
        if (ds_str_is(text, GROUP_NAMES[i])) {
            word->group = (ds_group)i;
            return;
        }
    }
    refuse(r, value, DS_P_UNKNOWN_WORD, text, "");
}

static void read_influences(reader *const r, ds_word *const word, const ds_json *const value)
{
    if (value->kind != DS_JSON_OBJECT) {
        refuse(r, value, DS_P_WRONG_TYPE, ds_json_key(value), "an object in braces");
        return;
    }
    for (const ds_json *item = value->first; item; item = item->next) {
        const ds_influence which = ds_influence_of(ds_json_key(item));
        double number = 0;
        if (which == DS_INFLUENCES) {
            refuse(r, item, DS_P_UNKNOWN_KEY, ds_json_key(item), "");
        } else if (!ds_json_number(item, &number) || number < 1 || number > 9) {
            refuse(r, item, DS_P_WRONG_TYPE, ds_json_key(item), "a class from 1 to 9");
        } else {
            word->influences[which] = (uint8_t)number;
        }
    }
}

/* The flag of a word that a key names; NULL: none. */
static bool *flag_of(ds_word *const word, const ds_str key)
{
    const struct {
        const char *key;
        bool *flag;
    } flags[] = {{"complete", &word->complete},
                 {"enclosure", &word->enclosure},
                 {"refuse", &word->refuse},
                 {"spoils", &word->spoils},
                 {"no_code", &word->no_code},
                 {"claim", &word->claim},
                 {"beside_label", &word->beside_label}};
    for (size_t i = 0; i < sizeof flags / sizeof *flags; i++) {
        if (ds_str_is(key, flags[i].key)) {
            return flags[i].flag;
        }
    }
    return NULL;
}

static void read_member(reader *const r, ds_word *const word, const ds_json *const value)
{
    const ds_str key = ds_json_key(value);
    if (ds_str_is(key, "word") || ds_str_is(key, "also")) {
        return; /* read before the word was made */
    }
    if (ds_str_is(key, "label")) {
        word->label = need_text(r, value);
    } else if (ds_str_is(key, "because")) {
        word->because = need_text(r, value);
    } else if (ds_str_is(key, "group")) {
        read_group(r, word, value);
    } else if (ds_str_is(key, "influences")) {
        read_influences(r, word, value);
    } else if (ds_str_is(key, "is")) {
        word->is = need_texts(r, value);
    } else if (ds_str_is(key, "zones")) {
        word->zones = need_texts(r, value);
    } else if (ds_str_is(key, "quantities")) {
        word->quantities = need_texts(r, value);
    } else if (flag_of(word, key)) {
        *flag_of(word, key) = need_flag(r, value);
    } else if (ds_str_is(key, "source")) {
        if (!ds_source_read(&word->source, value)) {
            refuse(r, value, DS_P_WRONG_TYPE, key, "a kind and a ref");
        }
    } else {
        refuse(r, value, DS_P_UNKNOWN_KEY, key, "");
    }
}

static void check_new(reader *const r, const ds_family family, const ds_json *const at, const ds_str text)
{
    if (ds_words_find(r->words, family, text) >= 0) {
        refuse(r, at, DS_P_DUPLICATE_ID, text, "");
    }
    r->spellings++;
    if (r->spellings + r->words->len > SLOTS / 2) {
        refuse(r, at, DS_P_TOO_MANY_WORDS, DS_STR("1000"), "");
    }
}

static void read_word(reader *const r, const ds_family family, const ds_json *const value)
{
    const ds_json *const text = ds_json_get(value, DS_STR("word"));
    const ds_json *const also = ds_json_get(value, DS_STR("also"));
    if (!text || text->kind != DS_JSON_STRING) {
        refuse(r, value, DS_P_MISSING_KEY, DS_STR("word"), "");
        return;
    }
    check_new(r, family, text, ds_json_text(text));
    for (const ds_json *other = also && need_texts(r, also) ? also->first : NULL; other;
         other = other->next) {
        check_new(r, family, other, ds_json_text(other));
    }
    if (r->status != DS_OK) {
        return;
    }
    ds_word *const word = add_word(r->words, family, ds_json_text(text), also);
    if (!word) {
        if (r->words->len == DS_WORDS_MAX) {
            refuse(r, text, DS_P_TOO_MANY_WORDS, DS_STR("1024"), "");
        } else {
            r->status = DS_NO_MEMORY;
        }
        return;
    }
    word->group = DS_GROUP_REST;
    for (const ds_json *member = value->first; member; member = member->next) {
        read_member(r, word, member);
    }
}

static void read_family(reader *const r, const ds_json *const list)
{
    for (int family = 0; family < DS_FAMILY_ZONE; family++) {
        if (!ds_str_is(ds_json_key(list), FAMILY_NAMES[family])) {
            continue;
        }
        if (list->kind != DS_JSON_ARRAY) {
            refuse(r, list, DS_P_WRONG_TYPE, ds_json_key(list), "a list of words");
            return;
        }
        for (const ds_json *item = list->first; item && r->status == DS_OK; item = item->next) {
            read_word(r, (ds_family)family, item);
        }
        return;
    }
    if (!ds_str_is(ds_json_key(list), "dripstone_words")) {
        refuse(r, list, DS_P_UNKNOWN_KEY, ds_json_key(list), "");
    }
}

ds_status ds_words_read(ds_words *const words, const ds_str source, ds_problem *const problem)
{
    ds_json *tree = NULL;
    const ds_status status = ds_json_read(&tree, source, words->arena, &DS_JSON_LIMITS, problem);
    if (status != DS_OK) {
        return status;
    }
    reader r = {.words = words, .source = source, .problem = problem, .status = DS_OK};
    double version = 0;
    if (!ds_json_number(ds_json_get(tree, DS_STR("dripstone_words")), &version) || version != 1) {
        refuse(&r, tree, DS_P_NOT_WORDS, (ds_str){0}, "");
    }
    for (const ds_json *list = r.status == DS_OK ? tree->first : NULL; list && r.status == DS_OK;
         list = list->next) {
        read_family(&r, list);
    }
    return r.status;
}
