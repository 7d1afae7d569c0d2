/* SPDX-License-Identifier: MIT */
/* dripstone rules: the packs, the rules of one, or one rule in full; as a page or as JSON. */
#include "cli/commands.h"
#include "cli/page.h"
#include "cli/rulebook.h"
#include "core/assess/say.h"
#include "core/json/write.h"

static const ds_option OPTIONS[] = {
    {"pack", 0, "ID", "only the rules of this pack"},
    {"file", 0, "FILE", "also read this rule pack (may be repeated)"},
    {"words", 0, "FILE", "also read these words (may be repeated)"},
    {"packs", 0, NULL, "ids of the packs only, one a line"},
    {"ids", 0, NULL, "ids only, of packs and rules, one a line"},
    {"json", 0, NULL, "as JSON"},
    {0},
};

enum { INDENT = 2, LABEL_COLUMNS = 10, ID_COLUMNS_MOST = 32 };

typedef struct lister {
    ds_host *host;
    const ds_args *args;
    const ds_book *book;
    ds_page page;
    ds_text say;
    ds_json_writer json;
} lister;

static void take(lister *const l, const ds_style style)
{
    ds_page_adds(&l->page, style, ds_text_str(&l->say));
    l->say.len = 0;
}

static const ds_rule *find_rule(const ds_pack *const pack, const ds_str id)
{
    for (size_t i = 0; i < pack->rules_len; i++) {
        if (ds_str_eq(pack->rules[i].id, id)) {
            return &pack->rules[i];
        }
    }
    return NULL;
}

/* What a rule does, as a word: needs, bars, asks. */
static const char *effect_word(const ds_rule *const rule)
{
    return rule->bars.at ? "bars" : rule->question.at ? "asks" : "needs";
}

/* --- JSON --------------------------------------------------------------------------------------------------------- */

static void put(lister *const l, const char *const key, const ds_str value)
{
    ds_json_put_key(&l->json, key);
    if (value.at) {
        ds_json_put_str(&l->json, value);
    } else {
        ds_json_put_null(&l->json);
    }
}

static void put_rule_json(lister *const l, const ds_pack *const pack, const ds_rule *const rule)
{
    ds_json_begin_object(&l->json);
    put(l, "id", rule->id);
    put(l, "pack", pack->id);
    put(l, "clause", rule->clause);
    put(l, "edition", rule->edition);
    put(l, "grade", ds_str_of(ds_grade_word(rule->grade)));
    ds_say_rule_effect(&l->say, &l->book->rules, rule);
    put(l, effect_word(rule), ds_text_str(&l->say));
    l->say.len = 0;
    if (rule->question.at) {
        put(l, "whom", ds_str_of(ds_whom_word(rule->whom)));
    }
    if (rule->bars.at) {
        put(l, "remedy", rule->remedy);
    }
    put(l, "because", rule->because);
    ds_json_put_key(&l->json, "source");
    ds_json_begin_object(&l->json);
    put(l, "kind", ds_str_of(ds_source_kind_word(rule->source.kind)));
    put(l, "ref", rule->source.ref);
    ds_json_end_object(&l->json);
    ds_json_end_object(&l->json);
}

static void put_pack_json(lister *const l, const ds_pack *const pack)
{
    ds_json_begin_object(&l->json);
    put(l, "id", pack->id);
    put(l, "title", pack->title);
    put(l, "edition", pack->edition);
    put(l, "from", pack->in_force_from);
    put(l, "to", pack->in_force_to);
    put(l, "replaced_by", pack->replaced_by);
    put(l, "confirm", pack->confirm);
    ds_json_put_key(&l->json, "rules");
    ds_json_begin_array(&l->json);
    for (size_t i = 0; i < pack->rules_len; i++) {
        put_rule_json(l, pack, &pack->rules[i]);
    }
    ds_json_end_array(&l->json);
    ds_json_end_object(&l->json);
}

/* --- pages -------------------------------------------------------------------------------------------------------- */

static void put_in_force(lister *const l, const ds_pack *const pack)
{
    ds_text *const say = &l->say;
    if (pack->in_force_from.at) {
        ds_text_add(say, "in force from ");
        ds_text_adds(say, pack->in_force_from);
    }
    if (pack->in_force_to.at) {
        ds_text_add(say, say->len ? " to " : "in force to ");
        ds_text_adds(say, pack->in_force_to);
    }
    if (pack->replaced_by.at) {
        ds_text_add(say, "; replaced by ");
        ds_text_adds(say, pack->replaced_by);
    }
    if (say->len) {
        take(l, DS_PLAIN);
        ds_page_break(&l->page, INDENT, INDENT);
    }
}

static void put_pack_head(lister *const l, const ds_pack *const pack)
{
    ds_page_adds(&l->page, DS_STRONG, pack->id);
    ds_page_add(&l->page, DS_PLAIN, "  ");
    ds_page_adds(&l->page, DS_PLAIN, pack->title);
    ds_page_break(&l->page, 0, INDENT);
    ds_page_adds(&l->page, DS_PLAIN, pack->edition);
    ds_text_add(&l->say, "; ");
    ds_text_int(&l->say, (int64_t)pack->rules_len);
    ds_text_add(&l->say, pack->rules_len == 1 ? " rule" : " rules");
    take(l, DS_PLAIN);
    ds_page_break(&l->page, INDENT, INDENT);
    put_in_force(l, pack);
    if (pack->confirm.at) {
        ds_page_adds(&l->page, DS_QUIET, pack->confirm);
        ds_page_break(&l->page, INDENT, INDENT);
    }
}

static void put_packs(lister *const l)
{
    for (size_t i = 0; i < l->book->rules.packs_len; i++) {
        put_pack_head(l, &l->book->rules.packs[i]);
        ds_page_gap(&l->page);
    }
    ds_page_add(&l->page, DS_QUIET,
                "dripstone rules PACK lists the rules of one; dripstone rules RULE shows a rule in full.");
    ds_page_break(&l->page, 0, 0);
}

/* "gb-416-top   needs IPXXD  416.2.2" */
static void put_rule_row(lister *const l, const ds_rule *const rule, const int id_columns)
{
    const bool clause = rule->clause.len && !ds_str_is(rule->clause, "-");
    ds_page_cell(&l->page, DS_STRONG, rule->id, id_columns);
    ds_page_add(&l->page, DS_QUIET, effect_word(rule));
    ds_page_add(&l->page, DS_PLAIN, " ");
    ds_say_rule_effect(&l->say, &l->book->rules, rule);
    take(l, DS_PLAIN);
    ds_page_add(&l->page, DS_QUIET, clause ? "  " : "");
    ds_page_adds(&l->page, DS_QUIET, clause ? rule->clause : DS_STR(""));
    ds_page_add(&l->page, DS_QUIET, rule->grade == DS_GRADE_RULE ? "" : "  ");
    ds_page_add(&l->page, DS_QUIET, rule->grade == DS_GRADE_RULE ? "" : ds_grade_word(rule->grade));
    ds_page_break(&l->page, 0, id_columns);
}

static void put_rules_of(lister *const l, const ds_pack *const pack)
{
    put_pack_head(l, pack);
    ds_page_gap(&l->page);
    int columns = 0;
    for (size_t i = 0; i < pack->rules_len; i++) {
        const int id = ds_page_columns(&l->page, pack->rules[i].id);
        columns = id > columns ? id : columns;
    }
    for (size_t i = 0; i < pack->rules_len; i++) {
        put_rule_row(l, &pack->rules[i], columns < ID_COLUMNS_MOST ? columns + 2 : ID_COLUMNS_MOST + 2);
    }
}

static void put_field(lister *const l, const char *const label, const ds_str value)
{
    if (value.len) {
        ds_page_cell(&l->page, DS_QUIET, ds_str_of(label), LABEL_COLUMNS);
        ds_page_adds(&l->page, DS_PLAIN, value);
        ds_page_break(&l->page, INDENT, INDENT + LABEL_COLUMNS);
    }
}

static void put_rule_page(lister *const l, const ds_pack *const pack, const ds_rule *const rule)
{
    ds_page_adds(&l->page, DS_STRONG, rule->id);
    ds_page_break(&l->page, 0, INDENT);
    put_field(l, "pack", pack->id);
    put_field(l, "clause", rule->clause);
    put_field(l, "edition", rule->edition);
    put_field(l, "grade", ds_str_of(ds_grade_word(rule->grade)));
    ds_say_rule_effect(&l->say, &l->book->rules, rule);
    put_field(l, effect_word(rule), ds_text_str(&l->say));
    l->say.len = 0;
    put_field(l, "whom", rule->question.at ? ds_str_of(ds_whom_word(rule->whom)) : (ds_str){0});
    put_field(l, "remedy", rule->remedy);
    put_field(l, "because", rule->because);
    put_field(l, "source", ds_str_of(ds_source_kind_word(rule->source.kind)));
    put_field(l, "", rule->source.ref);
}

/* --- choosing ----------------------------------------------------------------------------------------------------- */

static void put_id(lister *const l, const ds_str id)
{
    ds_clean(&l->host->out, id, false);
    ds_text_char(&l->host->out, '\n');
}

/* The ids of packs and rules, of one pack only its rules. */
static void put_ids(lister *const l, const ds_pack *const only, const bool rules)
{
    for (size_t i = 0; i < l->book->rules.packs_len; i++) {
        const ds_pack *const pack = &l->book->rules.packs[i];
        if (!only) {
            put_id(l, pack->id);
        }
        for (size_t j = 0; rules && j < pack->rules_len && (!only || pack == only); j++) {
            put_id(l, pack->rules[j].id);
        }
    }
}

static void put_all(lister *const l)
{
    if (!ds_args_has(l->args, "json")) {
        put_packs(l);
        return;
    }
    ds_json_begin_array(&l->json);
    for (size_t i = 0; i < l->book->rules.packs_len; i++) {
        put_pack_json(l, &l->book->rules.packs[i]);
    }
    ds_json_end_array(&l->json);
    ds_text_char(&l->host->out, '\n');
}

static void put_one(lister *const l, const ds_pack *const pack, const ds_rule *const rule)
{
    if (!ds_args_has(l->args, "json")) {
        if (rule) {
            put_rule_page(l, pack, rule);
        } else {
            put_rules_of(l, pack);
        }
        return;
    }
    if (rule) {
        put_rule_json(l, pack, rule);
    } else {
        put_pack_json(l, pack);
    }
    ds_text_char(&l->host->out, '\n');
}

static int fail_id(lister *const l, const char *const what, const ds_str id, const ds_pack *const only)
{
    size_t room = l->book->rules.packs_len;
    for (size_t i = 0; i < l->book->rules.packs_len; i++) {
        room += l->book->rules.packs[i].rules_len;
    }
    ds_str *const ids = l->host->alloc->resize(l->host->alloc->ctx, NULL, 0, (room + 1) * sizeof *ids);
    size_t len = 0;
    for (size_t i = 0; ids && i < l->book->rules.packs_len; i++) {
        const ds_pack *const pack = &l->book->rules.packs[i];
        for (size_t j = 0; (!only || pack == only) && j < pack->rules_len; j++) {
            ids[len++] = pack->rules[j].id;
        }
        ids[len++] = pack->id;
    }
    ds_fail_unknown(l->host, what, id, ids, len, "dripstone rules lists the packs.");
    l->host->alloc->resize(l->host->alloc->ctx, ids, 0, 0);
    return DS_EXIT_UNREADABLE;
}

/* A rule by its id, in the pack that is asked for or in the first that has it. */
static int list_rule(lister *const l, const ds_str id, const ds_pack *const only)
{
    for (size_t i = 0; i < l->book->rules.packs_len; i++) {
        const ds_pack *const pack = &l->book->rules.packs[i];
        const ds_rule *const rule = !only || pack == only ? find_rule(pack, id) : NULL;
        if (rule) {
            put_one(l, pack, rule);
            return DS_EXIT_FINE;
        }
    }
    return fail_id(l, "there is no rule or pack", id, only);
}

static int list(lister *const l)
{
    const ds_str pack_id = ds_args_value(l->args, "pack");
    const ds_str id = ds_args_word(l->args, 0);
    const ds_pack *const named = id.at ? ds_rulebook_pack(&l->book->rules, id) : NULL;
    const ds_pack *const only = pack_id.at ? ds_rulebook_pack(&l->book->rules, pack_id) : NULL;
    if (pack_id.at && !only) {
        return fail_id(l, "there is no rule pack", pack_id, NULL);
    }
    if (id.at && !named) {
        return list_rule(l, id, only);
    }
    const ds_pack *const pack = named ? named : only;
    if (ds_args_has(l->args, "packs")) {
        put_ids(l, NULL, false);
    } else if (ds_args_has(l->args, "ids")) {
        put_ids(l, pack, true);
    } else if (pack) {
        put_one(l, pack, NULL);
    } else {
        put_all(l);
    }
    return DS_EXIT_FINE;
}

static int run(ds_host *const host, const ds_args *const args)
{
    if (args->words_len > 1) {
        return ds_fail_usage(host, &DS_RULES, "rules takes one id, of a pack or a rule.");
    }
    lister l = {.host = host, .args = args, .json = ds_json_writer_on(&host->out)};
    ds_book *const book = ds_book_open(host, args, "file");
    if (!book) {
        return DS_EXIT_UNREADABLE;
    }
    l.book = book;
    ds_page_open(&l.page, host, args);
    ds_text_init(&l.say, host->alloc);
    const int status = list(&l);
    l.page.line.failed = l.page.line.failed || !ds_text_ok(&l.say);
    ds_text_free(&l.say);
    ds_page_close(&l.page);
    ds_book_close(book, host);
    return status;
}

const ds_command DS_RULES = {
    .name = "rules",
    .usage = "[ID] [--pack ID] [--json | --ids | --packs]",
    .summary = "the rule packs, and each rule with clause and source",
    .help = "Without an ID it lists the packs with their editions. The id of a pack lists its rules; the id "
            "of a rule shows it "
            "in full. --file reads a pack of your own, and says what is wrong in it.\n"
            "\n"
            "Exit status: 0; 2 when there is no such rule or pack, or a file could not be read.\n"
            "\n"
            "  dripstone rules\n"
            "  dripstone rules gb-2022\n"
            "  dripstone rules --file client.json\n",
    .options = OPTIONS,
    .run = run,
};
