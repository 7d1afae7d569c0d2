/* SPDX-License-Identifier: MIT */
/* dripstone seen: the words that a job may use, the observations first, each with what it stands for. */
#include "cli/commands.h"
#include "cli/page.h"
#include "cli/rulebook.h"
#include "core/json/write.h"

static const ds_option OPTIONS[] = {
    {"kinds", 0, NULL, "kinds of point instead"},
    {"places", 0, NULL, "kinds of place instead"},
    {"settings", 0, NULL, "settings of a place instead"},
    {"measures", 0, NULL, "measures instead"},
    {"conditions", 0, NULL, "conditions of marks and states instead"},
    {"found", 0, NULL, "states found on a point instead"},
    {"evidence", 0, NULL, "kinds of evidence instead"},
    {"qualities", 0, NULL, "what goods can be stated fit for instead"},
    {"materials", 0, NULL, "materials instead"},
    {"words", 0, "FILE", "also read these words (may be repeated)"},
    {"ids", 0, NULL, "words only, one a line"},
    {"json", 0, NULL, "as JSON"},
    {0},
};

static const struct {
    const char *option;
    ds_family family;
} FAMILIES[] = {
    {"kinds", DS_FAMILY_KIND},        {"places", DS_FAMILY_PLACE},       {"settings", DS_FAMILY_SETTING},
    {"measures", DS_FAMILY_MEASURE},  {"found", DS_FAMILY_FOUND},        {"conditions", DS_FAMILY_CONDITION},
    {"evidence", DS_FAMILY_EVIDENCE}, {"materials", DS_FAMILY_MATERIAL}, {"qualities", DS_FAMILY_QUALITY}};

enum { INDENT = 2, LABEL_COLUMNS = 12, GAP = 2 };

typedef struct lister {
    ds_host *host;
    const ds_words *words;
    ds_family family;
    ds_group group; /* DS_GROUPS: all */
    ds_page page;
    ds_text say;
    ds_json_writer json;
} lister;

static bool listed(const lister *const l, const ds_word *const word)
{
    return word->family == l->family && (l->group == DS_GROUPS || word->group == l->group);
}

static void separate(ds_text *const say)
{
    ds_text_add(say, say->len ? " " : "");
}

/* "AD4 AE3" */
static void say_influences(ds_text *const say, const ds_word *const word)
{
    for (int i = 0; i < DS_INFLUENCES; i++) {
        if (word->influences[i]) {
            separate(say);
            ds_text_adds(say, ds_influence_name((ds_influence)i));
            ds_text_int(say, word->influences[i]);
        }
    }
}

static void say_list(ds_text *const say, const ds_json *const list)
{
    for (const ds_json *item = list ? list->first : NULL; item; item = item->next) {
        ds_text_add(say, item == list->first ? "" : ", ");
        ds_text_adds(say, ds_json_text(item));
    }
}

/* --- JSON --------------------------------------------------------------------------------------------------------- */

static void put(lister *const l, const char *const key, const ds_str value)
{
    if (value.at) {
        ds_json_put_key(&l->json, key);
        ds_json_put_str(&l->json, value);
    }
}

static void put_tree(lister *const l, const char *const key, const ds_json *const value)
{
    if (value) {
        ds_json_put_key(&l->json, key);
        ds_json_put_tree(&l->json, value);
    }
}

static void put_flag(lister *const l, const char *const key, const bool value)
{
    if (value) {
        ds_json_put_key(&l->json, key);
        ds_json_put_bool(&l->json, true);
    }
}

static void put_influences(lister *const l, const ds_word *const word)
{
    ds_json_put_key(&l->json, "influences");
    ds_json_begin_object(&l->json);
    for (int i = 0; i < DS_INFLUENCES; i++) {
        if (word->influences[i]) {
            ds_json_put_key_str(&l->json, ds_influence_name((ds_influence)i));
            ds_json_put_int(&l->json, word->influences[i]);
        }
    }
    ds_json_end_object(&l->json);
}

static void put_word_json(lister *const l, const ds_word *const word)
{
    ds_json_begin_object(&l->json);
    put(l, "family", ds_str_of(ds_family_name(word->family)));
    put(l, "word", word->word);
    put(l, "label", word->label);
    put_tree(l, "also", word->also);
    put_tree(l, "is", word->is);
    if (word->family == DS_FAMILY_SEEN) {
        put(l, "group", ds_str_of(ds_group_name(word->group)));
    }
    put_influences(l, word);
    put_tree(l, "quantities", word->quantities);
    put_tree(l, "zones", word->zones);
    put_flag(l, "complete", word->complete);
    put_flag(l, "enclosure", word->enclosure);
    put_flag(l, "refuse", word->refuse);
    put_flag(l, "spoils", word->spoils);
    put_flag(l, "no_code", word->no_code);
    put_flag(l, "claim", word->claim);
    put_flag(l, "beside_label", word->beside_label);
    put(l, "because", word->because);
    if (word->source.ref.at) {
        ds_json_put_key(&l->json, "source");
        ds_json_begin_object(&l->json);
        put(l, "kind", ds_str_of(ds_source_kind_word(word->source.kind)));
        put(l, "ref", word->source.ref);
        ds_json_end_object(&l->json);
    }
    ds_json_end_object(&l->json);
}

/* --- one word ----------------------------------------------------------------------------------------------------- */

static void put_field(lister *const l, const char *const label, const ds_str value)
{
    if (value.len) {
        ds_page_cell(&l->page, DS_QUIET, ds_str_of(label), LABEL_COLUMNS);
        ds_page_adds(&l->page, DS_PLAIN, value);
        ds_page_break(&l->page, INDENT, INDENT + LABEL_COLUMNS);
    }
    l->say.len = 0;
}

/* What a code is worth that is known in this way. */
static const char *say_worth(const ds_word *const word)
{
    return word->no_code        ? "shows no code"
           : word->claim        ? "a claim"
           : word->beside_label ? "shows the code without the label"
                                : "";
}

static void put_lists(lister *const l, const ds_word *const word)
{
    say_list(&l->say, word->also);
    put_field(l, "also", ds_text_str(&l->say));
    say_list(&l->say, word->is);
    put_field(l, "counts as", ds_text_str(&l->say));
    say_list(&l->say, word->quantities);
    put_field(l, "takes", ds_text_str(&l->say));
    say_list(&l->say, word->zones);
    put_field(l, "zones", ds_text_str(&l->say));
}

static void put_word_page(lister *const l, const ds_word *const word)
{
    ds_page_adds(&l->page, DS_STRONG, word->word);
    ds_page_add(&l->page, DS_PLAIN, "  ");
    ds_page_adds(&l->page, DS_PLAIN, word->label);
    ds_page_break(&l->page, 0, INDENT);
    put_field(l, "family", ds_str_of(ds_family_name(word->family)));
    if (word->family == DS_FAMILY_SEEN) {
        put_field(l, "answers", ds_str_of(ds_group_name(word->group)));
    }
    say_influences(&l->say, word);
    put_field(l, "stands for", ds_text_str(&l->say));
    put_lists(l, word);
    put_field(l, "sold whole",
              word->complete ? DS_STR("yes: complete, it counts as keeping fingers off") : (ds_str){0});
    put_field(l, "refused",
              word->refuse ? DS_STR("yes: out of scope, nothing here is ever passed") : (ds_str){0});
    put_field(l, "spoils",
              word->spoils ? DS_STR("yes: the mark no longer counts until it is put right") : (ds_str){0});
    put_field(l, "shows", ds_str_of(say_worth(word)));
    put_field(l, "because", word->because);
    if (word->source.ref.at) {
        ds_text_add(&l->say, ds_source_kind_word(word->source.kind));
        ds_text_add(&l->say, ": ");
        ds_text_adds(&l->say, word->source.ref);
        put_field(l, "source", ds_text_str(&l->say));
    }
}

/* --- lists -------------------------------------------------------------------------------------------------------- */

/* Widths of the columns: word, and classes (0 where no word of the list has any). */
static void measure(lister *const l, int *const word_columns, int *const class_columns)
{
    *word_columns = 0;
    *class_columns = 0;
    for (uint16_t i = 0; i < l->words->len; i++) {
        const ds_word *const word = l->words->at[i];
        if (listed(l, word)) {
            const int columns = ds_page_columns(&l->page, word->word);
            say_influences(&l->say, word);
            const int classes = (int)l->say.len;
            l->say.len = 0;
            *word_columns = columns > *word_columns ? columns : *word_columns;
            *class_columns = classes > *class_columns ? classes : *class_columns;
        }
    }
}

/* What stands behind the label, in brackets where there is anything. */
static void say_extra(ds_text *const say, const ds_word *const word)
{
    if (word->is) {
        ds_text_add(say, "counts as ");
        say_list(say, word->is);
    }
    if (word->quantities) {
        ds_text_add(say, "takes ");
        say_list(say, word->quantities);
    }
    if (word->spoils) {
        ds_text_add(say, "takes the mark away");
    }
    ds_text_add(say, say_worth(word));
    if (word->refuse) {
        ds_text_add(say, say->len ? "; out of scope" : "out of scope");
    }
}

static void put_row(lister *const l, const ds_word *const word, const int word_columns,
                    const int class_columns)
{
    ds_page_cell(&l->page, DS_STRONG, word->word, word_columns + GAP);
    say_influences(&l->say, word);
    ds_page_cell(&l->page, DS_QUIET, ds_text_str(&l->say), class_columns ? class_columns + GAP : 0);
    l->say.len = 0;
    ds_page_adds(&l->page, DS_PLAIN, word->label);
    say_extra(&l->say, word);
    if (l->say.len) {
        ds_page_add(&l->page, DS_QUIET, "  (");
        ds_page_adds(&l->page, DS_QUIET, ds_text_str(&l->say));
        ds_page_add(&l->page, DS_QUIET, ")");
    }
    l->say.len = 0;
    ds_page_break(&l->page, INDENT, INDENT + word_columns + GAP + (class_columns ? class_columns + GAP : 0));
}

static void put_rows(lister *const l, const ds_group group, const int word_columns, const int class_columns)
{
    for (uint16_t i = 0; i < l->words->len; i++) {
        const ds_word *const word = l->words->at[i];
        if (listed(l, word) && (l->family != DS_FAMILY_SEEN || word->group == group)) {
            put_row(l, word, word_columns, class_columns);
        }
    }
}

static void put_group_head(lister *const l, const ds_group group)
{
    static const char *const HEADS[DS_GROUPS] = {"Water", "Dust and objects", "Blows", "People", "The rest"};
    ds_page_add(&l->page, DS_STRONG, HEADS[group]);
    if (group != DS_GROUP_REST) {
        ds_text_add(&l->say, "   to be answered for every place; nothing there: \"absent\": [\"");
        ds_text_add(&l->say, ds_group_name(group));
        ds_text_add(&l->say, "\"]");
        ds_page_adds(&l->page, DS_QUIET, ds_text_str(&l->say));
        l->say.len = 0;
    }
    ds_page_break(&l->page, 0, INDENT);
}

static void put_list(lister *const l)
{
    int word_columns = 0;
    int class_columns = 0;
    measure(l, &word_columns, &class_columns);
    if (l->family != DS_FAMILY_SEEN) {
        put_rows(l, DS_GROUPS, word_columns, class_columns);
        return;
    }
    for (int group = 0; group < DS_GROUPS; group++) {
        if (l->group == DS_GROUPS || l->group == (ds_group)group) {
            if (l->group == DS_GROUPS && group > 0) {
                ds_page_gap(&l->page);
            }
            put_group_head(l, (ds_group)group);
            put_rows(l, (ds_group)group, word_columns, class_columns);
        }
    }
}

static void put_list_json(lister *const l)
{
    ds_json_begin_array(&l->json);
    for (uint16_t i = 0; i < l->words->len; i++) {
        if (listed(l, l->words->at[i])) {
            put_word_json(l, l->words->at[i]);
        }
    }
    ds_json_end_array(&l->json);
}

static void put_list_ids(lister *const l)
{
    for (uint16_t i = 0; i < l->words->len; i++) {
        if (listed(l, l->words->at[i])) {
            ds_clean(&l->host->out, l->words->at[i]->word, false);
            ds_text_char(&l->host->out, '\n');
        }
    }
}

/* --- choosing ----------------------------------------------------------------------------------------------------- */

static ds_family chosen_family(const ds_args *const args)
{
    for (size_t i = 0; i < sizeof FAMILIES / sizeof *FAMILIES; i++) {
        if (ds_args_has(args, FAMILIES[i].option)) {
            return FAMILIES[i].family;
        }
    }
    return DS_FAMILY_SEEN;
}

static ds_group group_of(const ds_str name)
{
    int group = 0;
    while (group < DS_GROUPS && !ds_str_is(name, ds_group_name((ds_group)group))) {
        group++;
    }
    return (ds_group)group;
}

static int fail_word(lister *const l, const ds_str text)
{
    ds_str known[DS_WORDS_MAX + DS_GROUPS];
    size_t len = 0;
    for (uint16_t i = 0; i < l->words->len; i++) {
        if (l->words->at[i]->family == l->family) {
            known[len++] = l->words->at[i]->word;
        }
    }
    for (int group = 0; l->family == DS_FAMILY_SEEN && group < DS_GROUPS; group++) {
        known[len++] = ds_str_of(ds_group_name((ds_group)group));
    }
    ds_host_fail(l->host, "there is no such word", text, ".");
    const size_t nearest = ds_str_nearest(text, known, len);
    if (nearest < len) {
        ds_text_add(&l->host->err, "  Did you mean '");
        ds_text_adds(&l->host->err, known[nearest]);
        ds_text_add(&l->host->err, "'?\n");
    }
    return DS_EXIT_UNREADABLE;
}

static int list(lister *const l, const ds_args *const args)
{
    const ds_str text = ds_args_word(args, 0);
    const bool json = ds_args_has(args, "json");
    int id = -1;
    l->family = chosen_family(args);
    l->group = l->family == DS_FAMILY_SEEN && text.at ? group_of(text) : DS_GROUPS;
    if (text.at && l->group == DS_GROUPS) {
        id = ds_words_find(l->words, l->family, text);
        if (id < 0) {
            return fail_word(l, text);
        }
    }
    if (id >= 0) {
        (json ? put_word_json : put_word_page)(l, l->words->at[id]);
    } else if (json) {
        put_list_json(l);
    } else if (ds_args_has(args, "ids")) {
        put_list_ids(l);
    } else {
        put_list(l);
    }
    ds_text_add(&l->host->out, json ? "\n" : "");
    return DS_EXIT_FINE;
}

static int run(ds_host *const host, const ds_args *const args)
{
    if (args->words_len > 1) {
        return ds_fail_usage(host, &DS_SEEN,
                             "seen takes one word, or one of the groups water, dust, blows, people, rest.");
    }
    ds_book *const book = ds_book_open(host, args, NULL);
    if (!book) {
        return DS_EXIT_UNREADABLE;
    }
    lister l = {.host = host, .words = &book->rules.words, .json = ds_json_writer_on(&host->out)};
    ds_page_open(&l.page, host, args);
    ds_text_init(&l.say, host->alloc);
    const int status = list(&l, args);
    l.page.line.failed = l.page.line.failed || !ds_text_ok(&l.say);
    ds_text_free(&l.say);
    ds_page_close(&l.page);
    ds_book_close(book, host);
    return status;
}

const ds_command DS_SEEN = {
    .name = "seen",
    .usage = "[WORD | GROUP] [--kinds | --places | ...] [--json | --ids]",
    .summary = "the words to write a job with",
    .help =
        "Lists what can be seen at a place, in the trade's own words, with the external influences each "
        "stands for. A place "
        "must answer four groups: water, dust, blows, people. One word is shown in full with its reason.\n"
        "\n"
        "Exit status: 0; 2 when there is no such word, or a file could not be read.\n"
        "\n"
        "  dripstone seen\n"
        "  dripstone seen water\n"
        "  dripstone seen --kinds\n",
    .options = OPTIONS,
    .run = run,
};
