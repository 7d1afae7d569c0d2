/* SPDX-License-Identifier: MIT */
/*
 * Reading rule packs. A pack that is "like" another takes its rules over, less those it drops and those it replaces by
 * id; rules taken over carry the new pack's edition.
 */
#include "core/rules/pack.h"

#include "core/rules/reader.h"

static const char *const GRADE_WORDS[] = {"rule", "guidance", "judgement"};
static const char *const WHOM_WORDS[] = {"client", "maker", "site", "designer"};

const char *ds_grade_word(const ds_grade grade)
{
    return GRADE_WORDS[grade];
}

const char *ds_whom_word(const ds_whom whom)
{
    return WHOM_WORDS[whom];
}

void ds_pack_refuse(ds_pack_reader *const r, const ds_json *const at, const char *const what)
{
    if (r->status == DS_OK) {
        *r->problem = (ds_problem){.code = DS_P_RULE_SHAPE,
                                   .where = ds_json_where(at, r->source, r->book->arena),
                                   .a = r->rule.at ? r->rule : DS_STR("(pack)"),
                                   .b = ds_str_of(what)};
        r->status = DS_BAD_INPUT;
    }
}

void *ds_pack_take(ds_pack_reader *const r, const size_t count, const size_t size)
{
    void *const at = ds_arena_take_many(r->book->arena, count, size);
    if (!at) {
        r->status = DS_NO_MEMORY;
    }
    return at;
}

void ds_rulebook_init(ds_rulebook *const book, ds_arena *const arena)
{
    book->arena = arena;
    book->packs_len = 0;
    ds_words_init(&book->words, arena);
}

const ds_pack *ds_rulebook_pack(const ds_rulebook *const book, const ds_str id)
{
    for (size_t i = 0; i < book->packs_len; i++) {
        if (ds_str_eq(book->packs[i].id, id)) {
            return &book->packs[i];
        }
    }
    return NULL;
}

ds_str ds_rulebook_suggest(const ds_rulebook *const book, ds_arena *const arena, const ds_str id)
{
    ds_str ids[DS_PACKS_MAX];
    for (size_t i = 0; i < book->packs_len; i++) {
        ids[i] = book->packs[i].id;
    }
    return ds_suggest(arena, id, ids, book->packs_len);
}

/* --- a rule ------------------------------------------------------------------------------------------------------- */

static ds_str text_of(ds_pack_reader *const r, const ds_json *const value)
{
    if (value->kind != DS_JSON_STRING) {
        ds_pack_refuse(r, value, "a text in quotes is expected here");
        return (ds_str){0};
    }
    return ds_json_text(value);
}

static int word_of(ds_pack_reader *const r, const ds_json *const value, const char *const *const words,
                   const int count)
{
    const ds_str text = text_of(r, value);
    for (int i = 0; i < count; i++) {
        if (ds_str_is(text, words[i])) {
            return i;
        }
    }
    ds_pack_refuse(r, value, "a word that cannot stand here");
    return 0;
}

static void read_question(ds_pack_reader *const r, const ds_json *const value, ds_rule *const rule)
{
    const ds_json *const whom = ds_json_get(value, DS_STR("whom"));
    const ds_json *const question = ds_json_get(value, DS_STR("question"));
    if (!whom || !question) {
        ds_pack_refuse(r, value, "asks takes whom and question");
        return;
    }
    rule->whom = (ds_whom)word_of(r, whom, WHOM_WORDS, DS_WHOMS);
    rule->question = text_of(r, question);
}

static void read_source(ds_pack_reader *const r, const ds_json *const value, ds_rule *const rule)
{
    if (!ds_source_read(&rule->source, value)) {
        ds_pack_refuse(r, value, "source takes a kind (published, memory, common-practice) and a ref");
    }
}

static void read_needs(ds_pack_reader *const r, const ds_json *const value, ds_rule *const rule)
{
    rule->has_needs = ds_needs_read(r, value, &rule->needs);
    rule->needs_at = value;
}

static void read_rule_member(ds_pack_reader *const r, const ds_json *const value, ds_rule *const rule)
{
    const ds_str key = ds_json_key(value);
    if (ds_str_is(key, "id")) {
        rule->id = text_of(r, value);
    } else if (ds_str_is(key, "clause")) {
        rule->clause = text_of(r, value);
    } else if (ds_str_is(key, "edition")) {
        rule->edition = text_of(r, value);
    } else if (ds_str_is(key, "because")) {
        rule->because = text_of(r, value);
    } else if (ds_str_is(key, "grade")) {
        rule->grade = (ds_grade)word_of(r, value, GRADE_WORDS, 3);
    } else if (ds_str_is(key, "when")) {
        rule->when = ds_condition_read(r, value);
    } else if (ds_str_is(key, "unless")) {
        r->in_unless = true;
        rule->unless = ds_condition_read(r, value);
        r->in_unless = false;
    } else if (ds_str_is(key, "needs")) {
        read_needs(r, value, rule);
    } else if (ds_str_is(key, "bars")) {
        rule->bars = text_of(r, value);
    } else if (ds_str_is(key, "remedy")) {
        rule->remedy = text_of(r, value);
    } else if (ds_str_is(key, "asks")) {
        read_question(r, value, rule);
    } else if (ds_str_is(key, "source")) {
        read_source(r, value, rule);
    } else {
        ds_pack_refuse(r, value, "a key that rules do not have");
    }
}

static void check_rule(ds_pack_reader *const r, const ds_json *const value, const ds_rule *const rule)
{
    static const char *const REQUIRED[] = {"id", "clause", "grade", "when", "because", "source"};
    for (size_t i = 0; i < sizeof REQUIRED / sizeof *REQUIRED; i++) {
        if (!ds_json_get(value, ds_str_of(REQUIRED[i]))) {
            ds_pack_refuse(r, value, "id, clause, grade, when, because and source are all required");
        }
    }
    if (rule->has_needs + (rule->bars.at != NULL) + (rule->question.at != NULL) != 1) {
        ds_pack_refuse(r, value, "exactly one of needs, bars and asks is required");
    }
}

static void read_rule(ds_pack_reader *const r, const ds_json *const value, ds_rule *const rule)
{
    const ds_json *const id = ds_json_get(value, DS_STR("id"));
    r->rule = id && id->kind == DS_JSON_STRING ? ds_json_text(id) : (ds_str){0};
    if (value->kind != DS_JSON_OBJECT) {
        ds_pack_refuse(r, value, "a rule is an object");
        return;
    }
    for (const ds_json *member = value->first; member && r->status == DS_OK; member = member->next) {
        read_rule_member(r, member, rule);
    }
    check_rule(r, value, rule);
}

/* --- a pack ------------------------------------------------------------------------------------------------------- */

static void read_in_force(ds_pack_reader *const r, const ds_json *const value, ds_pack *const pack)
{
    for (const ds_json *item = value->kind == DS_JSON_OBJECT ? value->first : NULL; item; item = item->next) {
        const bool is_from = ds_str_is(ds_json_key(item), "from");
        const ds_str date = text_of(r, item);
        if (!ds_date_is_valid(date) || (!is_from && !ds_str_is(ds_json_key(item), "to"))) {
            ds_pack_refuse(r, item, "in_force takes the dates from and to");
        } else if (is_from) {
            pack->in_force_from = date;
        } else {
            pack->in_force_to = date;
        }
    }
}

static void read_head_member(ds_pack_reader *const r, const ds_json *const value, ds_pack *const pack)
{
    const ds_str key = ds_json_key(value);
    if (ds_str_is(key, "id")) {
        pack->id = text_of(r, value);
    } else if (ds_str_is(key, "title")) {
        pack->title = text_of(r, value);
    } else if (ds_str_is(key, "edition")) {
        pack->edition = text_of(r, value);
    } else if (ds_str_is(key, "confirm")) {
        pack->confirm = text_of(r, value);
    } else if (ds_str_is(key, "replaced_by")) {
        pack->replaced_by = text_of(r, value);
    } else if (ds_str_is(key, "in_force")) {
        read_in_force(r, value, pack);
    } else if (ds_str_is(key, "zones")) {
        ds_zone_laws_read(r, value, pack);
    } else if (!ds_str_is(key, "rules") && !ds_str_is(key, "like") && !ds_str_is(key, "drop") &&
               !ds_str_is(key, "dripstone_pack")) {
        ds_pack_refuse(r, value, "a key that packs do not have");
    }
}

static void read_head(ds_pack_reader *const r, const ds_json *const tree, ds_pack *const pack)
{
    for (const ds_json *member = tree->first; member && r->status == DS_OK; member = member->next) {
        read_head_member(r, member, pack);
    }
    if (!pack->id.at || !pack->title.at || !pack->edition.at) {
        ds_pack_refuse(r, tree, "a pack has an id, a title and an edition");
    } else if (ds_rulebook_pack(r->book, pack->id)) {
        ds_pack_refuse(r, tree, "a pack of this id is there already");
    }
}

/* The pack that this one is like; NULL when it stands alone. */
static const ds_pack *read_like(ds_pack_reader *const r, const ds_json *const tree)
{
    const ds_json *const like = ds_json_get(tree, DS_STR("like"));
    const ds_pack *const base = like ? ds_rulebook_pack(r->book, text_of(r, like)) : NULL;
    if (like && !base) {
        ds_pack_refuse(r, like, "like names no pack that was read before");
    }
    return base;
}

static bool list_has_text(const ds_json *const list, const ds_str text)
{
    for (const ds_json *item = list && list->kind == DS_JSON_ARRAY ? list->first : NULL; item;
         item = item->next) {
        if (item->kind == DS_JSON_STRING && ds_str_eq(ds_json_text(item), text)) {
            return true;
        }
    }
    return false;
}

static bool has_rule(const ds_rule *const rules, const size_t len, const ds_str id)
{
    for (size_t i = 0; i < len; i++) {
        if (ds_str_eq(rules[i].id, id)) {
            return true;
        }
    }
    return false;
}

static void read_own_rules(ds_pack_reader *const r, const ds_json *const list, ds_rule *const rules,
                           size_t *const len)
{
    for (const ds_json *item = list->first; item && r->status == DS_OK; item = item->next) {
        ds_rule *const rule = &rules[*len];
        read_rule(r, item, rule);
        if (r->status == DS_OK && has_rule(rules, *len, rule->id)) {
            ds_pack_refuse(r, item, "another rule of this pack has the same id");
        }
        (*len)++;
    }
    r->rule = (ds_str){0};
}

static void take_over(const ds_pack *const base, const ds_json *const drop, ds_rule *const rules,
                      size_t *const len)
{
    const size_t own = *len;
    for (size_t i = 0; i < base->rules_len; i++) {
        if (!list_has_text(drop, base->rules[i].id) && !has_rule(rules, own, base->rules[i].id)) {
            rules[*len] = base->rules[i];
            rules[*len].edition = (ds_str){0};
            (*len)++;
        }
    }
}

static void read_rules(ds_pack_reader *const r, const ds_json *const tree, ds_pack *const pack)
{
    const ds_json *const list = ds_json_get(tree, DS_STR("rules"));
    const ds_pack *const base = read_like(r, tree);
    if (!list || list->kind != DS_JSON_ARRAY) {
        ds_pack_refuse(r, tree, "a pack has a list of rules");
        return;
    }
    ds_rule *const rules = ds_pack_take(r, list->count + (base ? base->rules_len : 0), sizeof *rules);
    if (!rules) {
        return;
    }
    size_t len = 0;
    read_own_rules(r, list, rules, &len);
    if (base && r->status == DS_OK) {
        take_over(base, ds_json_get(tree, DS_STR("drop")), rules, &len);
        if (!pack->laws) {
            pack->laws = base->laws;
            pack->laws_len = base->laws_len;
        }
    }
    for (size_t i = 0; i < len; i++) {
        rules[i].edition = rules[i].edition.at ? rules[i].edition : pack->edition;
    }
    pack->rules = rules;
    pack->rules_len = len;
}

ds_status ds_rulebook_read(ds_rulebook *const book, const ds_str source, ds_problem *const problem)
{
    ds_json *tree = NULL;
    const ds_status status = ds_json_read(&tree, source, book->arena, &DS_JSON_LIMITS, problem);
    if (status != DS_OK) {
        return status;
    }
    ds_pack_reader r = {.book = book, .source = source, .problem = problem, .status = DS_OK};
    double version = 0;
    if (!ds_json_number(ds_json_get(tree, DS_STR("dripstone_pack")), &version) || version != 1) {
        *problem = (ds_problem){.code = DS_P_NOT_A_PACK, .where = ds_json_where(tree, source, book->arena)};
        return DS_BAD_INPUT;
    }
    ds_pack pack = {0};
    read_head(&r, tree, &pack);
    read_rules(&r, tree, &pack);
    if (r.status == DS_OK && book->packs_len == DS_PACKS_MAX) {
        ds_pack_refuse(&r, tree, "more than 16 packs");
    }
    if (r.status == DS_OK) {
        book->packs[book->packs_len++] = pack;
    }
    return r.status;
}
