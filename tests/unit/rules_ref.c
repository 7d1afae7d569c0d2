/* SPDX-License-Identifier: MIT */
/* Conditions in three values, packs that are like another, and packs that are refused with a place. */
#include "support.h"

#include <math.h>

static const char WORDS[] =
    "{\"dripstone_words\": 1, \"setting\": [{\"word\": \"outdoors\", \"influences\": {\"AD\": 4}}],"
    "\"place\": [{\"word\": \"farm\"}, {\"word\": \"stable\", \"is\": [\"farm\"]}],"
    "\"kind\": [{\"word\": \"socket-outlet\", \"also\": [\"socket\"]}],"
    "\"measure\": [{\"word\": \"guard\"}], \"quality\": [{\"word\": \"salt\"}],"
    "\"seen\": [{\"word\": \"hose\", \"group\": \"water\", \"influences\": {\"AD\": 5}}]}";

typedef struct fixture {
    test_alloc alloc;
    ds_arena arena;
    ds_rulebook book;
} fixture;

static fixture the_fixture;

static int open_fixture(void **const state)
{
    (void)state;
    the_fixture.alloc = test_alloc_make(0);
    ds_arena_init(&the_fixture.arena, test_alloc_use(&the_fixture.alloc));
    ds_rulebook_init(&the_fixture.book, &the_fixture.arena);
    ds_problem problem;
    return ds_words_read(&the_fixture.book.words, DS_STR(WORDS), &problem) == DS_OK ? 0 : -1;
}

static int close_fixture(void **const state)
{
    (void)state;
    ds_arena_free(&the_fixture.arena);
    return the_fixture.alloc.blocks == 0 ? 0 : -1;
}

static char pack_text[4096];

/* A pack of one rule around a condition; `more` may hold "unless" and stands before the need. */
static ds_str pack_of(const char *const when, const char *const more)
{
    const int len = snprintf(
        pack_text, sizeof pack_text,
        "{\"dripstone_pack\": 1, \"id\": \"x\", \"title\": \"X\", \"edition\": \"E\", \"rules\": [{\"id\": "
        "\"r\", \"clause\": \"1\", \"grade\": \"rule\", \"when\": %s, %s \"needs\": {\"ip\": \"IPX4\"}, "
        "\"because\": \"b\", \"source\": {\"kind\": \"common-practice\"}}]}",
        when, more);
    return (ds_str){pack_text, (size_t)len};
}

static int id_of(const ds_family family, const char *const word)
{
    const int id = ds_words_find(&the_fixture.book.words, family, ds_str_of(word));
    assert_true(id >= 0);
    return id;
}

typedef struct judged {
    const char *when;
    const char *more;
    ds_truth truth;
} judged;

/* Facts: a stable (so a farm), AD at least 4 and open upwards, BE4, height 2.0 m, volts missing, guard open. */
static void test_three_values(void **const state)
{
    (void)state;
    static const judged CASES[] = {
        {"{\"place\": \"stable\"}", "", DS_YES},
        {"{\"place\": \"farm\"}", "", DS_YES},
        {"{\"kind\": \"socket\"}", "", DS_NO},
        {"{\"place\": [\"stable\", \"farm\"], \"kind\": \"socket-outlet\"}", "", DS_NO},
        {"{\"AD\": 4}", "", DS_YES},
        {"{\"AD\": 5}", "", DS_MAYBE},
        {"{\"AD\": {\"at_least\": 5}}", "", DS_MAYBE},
        {"{\"AE\": 2}", "", DS_NO},
        {"{\"AD\": 7}", "", DS_NO}, /* another test, not a higher step */
        {"{\"BE\": 2}", "", DS_NO}, /* BE4 holds: kinds, not steps */
        {"{\"BE\": 4}", "", DS_YES},
        {"{\"height_m\": 2}", "", DS_YES},
        {"{\"height_m\": {\"below\": 2}}", "", DS_NO},
        {"{\"height_m\": {\"at_most\": 2}}", "", DS_YES},
        {"{\"height_m\": {\"above\": 2}}", "", DS_NO},
        {"{\"height_m\": {\"above\": 1, \"below\": 2.5}}", "", DS_YES},
        {"{\"volts\": {\"above\": 50}}", "", DS_MAYBE},
        {"{\"measure\": \"guard\"}", "", DS_MAYBE},
        {"{\"any\": [{\"volts\": {\"above\": 50}}, {\"place\": \"farm\"}]}", "", DS_YES},
        {"{\"all\": [{\"volts\": {\"above\": 50}}, {\"place\": \"farm\"}]}", "", DS_MAYBE},
        {"{\"all\": [{\"volts\": {\"above\": 50}}, {\"kind\": \"socket\"}]}", "", DS_NO},
        {"{\"place\": \"farm\"}", "\"unless\": {\"measure\": \"guard\"},", DS_MAYBE},
        {"{\"place\": \"farm\"}", "\"unless\": {\"place\": \"farm\"},", DS_NO},
        {"{\"place\": \"farm\"}", "\"unless\": {\"kind\": \"socket\"},", DS_YES},
        {"{\"volts\": {\"above\": 50}}", "\"unless\": {\"measure\": \"guard\"},", DS_MAYBE},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        the_fixture.book.packs_len = 0;
        ds_problem problem;
        assert_int_equal(ds_rulebook_read(&the_fixture.book, pack_of(CASES[i].when, CASES[i].more), &problem),
                         DS_OK);
        ds_facts facts;
        ds_facts_init(&facts);
        ds_facts_set_wider(&facts, &the_fixture.book.words, id_of(DS_FAMILY_PLACE, "stable"));
        ds_facts_raise(&facts, &the_fixture.book.words, DS_AD, 4);
        ds_facts_raise(&facts, &the_fixture.book.words, DS_BE, 4);
        facts.number[DS_AD].high = INFINITY;
        facts.number[DS_NUMBER_HEIGHT] = (ds_span){2, 2};
        ds_wordset measures;
        ds_wordset_of(&measures, &the_fixture.book.words, DS_FAMILY_MEASURE, DS_GROUPS);
        ds_facts_open(&facts, &measures);
        if (ds_rule_applies(&the_fixture.book.packs[0].rules[0], &facts) != CASES[i].truth) {
            fprintf(stderr, "case %zu: %s %s\n", i, CASES[i].when, CASES[i].more);
            fail();
        }
    }
}

/* What is missing names the open parts only. */
static void test_missing(void **const state)
{
    (void)state;
    the_fixture.book.packs_len = 0;
    ds_problem problem;
    const ds_str pack = pack_of(
        "{\"place\": \"farm\", \"volts\": {\"above\": 50}, \"any\": [{\"zone\": \"1\"}, {\"height_m\": 1}]}",
        "");
    assert_int_equal(ds_rulebook_read(&the_fixture.book, pack, &problem), DS_OK);
    ds_facts facts;
    ds_facts_init(&facts);
    ds_facts_set(&facts, id_of(DS_FAMILY_PLACE, "farm"));
    ds_wordset zones;
    ds_wordset_of(&zones, &the_fixture.book.words, DS_FAMILY_ZONE, DS_GROUPS);
    ds_facts_open(&facts, &zones);
    facts.number[DS_NUMBER_HEIGHT] = (ds_span){2, 2};
    const ds_missing missing = ds_rule_missing(&the_fixture.book.packs[0].rules[0], &facts);
    assert_int_equal(missing.numbers, UINT32_C(1) << DS_NUMBER_VOLTS);
    assert_int_equal(missing.families, UINT32_C(1) << DS_FAMILY_ZONE);
}

typedef struct refused {
    const char *text;
    ds_problem_code code;
    unsigned line;
} refused;

#define RULE(body)                                                                                           \
    "{\"dripstone_pack\": 1, \"id\": \"x\", \"title\": \"X\", \"edition\": \"E\", \"rules\": [\n{\"id\": "   \
    "\"r\", " body "}]}"
#define COMMON                                                                                               \
    "\"clause\": \"1\", \"grade\": \"rule\", \"because\": \"b\", \"source\": {\"kind\": "                    \
    "\"common-practice\"}"

static void test_refused_packs(void **const state)
{
    (void)state;
    static const refused CASES[] = {
        {"{\"id\": \"x\"}", DS_P_NOT_A_PACK, 1},
        {"{\"dripstone_pack\": 1, \"id\": \"x\", \"title\": \"X\", \"edition\": \"E\"}", DS_P_RULE_SHAPE, 1},
        {"{\"dripstone_pack\": 1, \"id\": \"x\", \"title\": \"X\", \"edition\": \"E\",\n\"like\": \"y\", "
         "\"rules\": []}",
         DS_P_RULE_SHAPE, 2},
        {RULE(COMMON ", \"when\": {\"place\": \"farm\"}"), DS_P_RULE_SHAPE, 2},
        {RULE(COMMON ", \"when\": {\"place\": \"frm\"}, \"needs\": {\"ip\": \"IPX4\"}"), DS_P_RULE_SHAPE, 2},
        {RULE(COMMON ", \"when\": {\"weather\": 1}, \"needs\": {\"ip\": \"IPX4\"}"), DS_P_RULE_SHAPE, 2},
        {RULE(COMMON ", \"when\": {}, \"needs\": {\"ip\": \"IPX4\"}"), DS_P_RULE_SHAPE, 2},
        {RULE(COMMON ", \"when\": {\"AD\": {\"at_most\": 3}}, \"needs\": {\"ip\": \"IPX4\"}"),
         DS_P_RULE_SHAPE, 2},
        {RULE(COMMON ", \"when\": {\"AD\": {\"below\": 3}}, \"needs\": {\"ip\": \"IPX4\"}"), DS_P_RULE_SHAPE,
         2},
        {RULE(COMMON ", \"when\": {\"place\": \"farm\"}, \"unless\": {\"seen\": \"hose\"}, \"needs\": "
                     "{\"ip\": \"IPX4\"}"),
         DS_P_RULE_SHAPE, 2},
        {RULE(COMMON
              ", \"when\": {\"place\": \"farm\"}, \"unless\": {\"AD\": 2}, \"needs\": {\"ip\": \"IPX4\"}"),
         DS_P_RULE_SHAPE, 2},
        {RULE(COMMON ", \"when\": {\"place\": \"farm\"}, \"needs\": {\"ip\": \"waterproof\"}"),
         DS_P_RULE_SHAPE, 2},
        {RULE(COMMON ", \"when\": {\"place\": \"farm\"}, \"needs\": {}"), DS_P_RULE_SHAPE, 2},
        {RULE(COMMON ", \"when\": {\"place\": \"farm\"}, \"needs\": {\"ip\": \"IPX4\"}, \"bars\": \"No.\""),
         DS_P_RULE_SHAPE, 2},
        {RULE("\"clause\": \"1\", \"grade\": \"law\", \"because\": \"b\", \"source\": {\"kind\": "
              "\"common-practice\"}, "
              "\"when\": {\"place\": \"farm\"}, \"needs\": {\"ip\": \"IPX4\"}"),
         DS_P_RULE_SHAPE, 2},
        {RULE("\"clause\": \"1\", \"grade\": \"rule\", \"because\": \"b\", \"source\": {\"kind\": "
              "\"published\"}, "
              "\"when\": {\"place\": \"farm\"}, \"needs\": {\"ip\": \"IPX4\"}"),
         DS_P_RULE_SHAPE, 2},
        {"{\"dripstone_pack\": 1,", DS_P_JSON_HALF, 1},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        the_fixture.book.packs_len = 0;
        ds_problem problem = {.code = DS_P_EMPTY};
        const ds_status status = ds_rulebook_read(&the_fixture.book, ds_str_of(CASES[i].text), &problem);
        if (status != DS_BAD_INPUT || problem.code != CASES[i].code || problem.where.line != CASES[i].line) {
            fprintf(stderr, "case %zu: status %d code %d line %u\n", i, status, problem.code,
                    problem.where.line);
            fail();
        }
        assert_int_equal(the_fixture.book.packs_len, 0);
    }
}

/* A pack like another takes its rules over, drops, replaces and adds, under its own edition. */
static void test_like(void **const state)
{
    (void)state;
    static const char BASE[] =
        "{\"dripstone_pack\": 1, \"id\": \"old\", \"title\": \"Old\", \"edition\": \"1\", \"rules\": ["
        "{\"id\": \"a\", " COMMON ", \"when\": {\"place\": \"farm\"}, \"needs\": {\"ip\": \"IPX4\"}},"
        "{\"id\": \"b\", " COMMON ", \"when\": {\"place\": \"farm\"}, \"needs\": {\"ip\": \"IPX4\"}},"
        "{\"id\": \"c\", " COMMON ", \"when\": {\"place\": \"farm\"}, \"needs\": {\"ip\": \"IPX4\"}}]}";
    static const char NEXT[] =
        "{\"dripstone_pack\": 1, \"id\": \"new\", \"title\": \"New\", \"edition\": \"2\", \"like\": \"old\", "
        "\"drop\": [\"a\"], "
        "\"rules\": [{\"id\": \"b\", " COMMON
        ", \"when\": {\"place\": \"farm\"}, \"needs\": {\"ip\": \"IPX5\"}},"
        "{\"id\": \"d\", " COMMON ", \"when\": {\"place\": \"farm\"}, \"needs\": {\"ip\": \"IPX6\"}}]}";
    the_fixture.book.packs_len = 0;
    ds_problem problem;
    assert_int_equal(ds_rulebook_read(&the_fixture.book, DS_STR(BASE), &problem), DS_OK);
    assert_int_equal(ds_rulebook_read(&the_fixture.book, DS_STR(NEXT), &problem), DS_OK);
    const ds_pack *const pack = ds_rulebook_pack(&the_fixture.book, DS_STR("new"));
    assert_int_equal(pack->rules_len, 3);
    char ids[4] = "";
    for (size_t i = 0; i < 3; i++) {
        ids[i] = pack->rules[i].id.at[0];
        assert_true(ds_str_is(pack->rules[i].edition, "2"));
    }
    assert_string_equal(ids, "bdc");
    assert_int_equal(ds_mark_proven(pack->rules[0].needs.mark), DS_WATER_TO(5));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_three_values),
        cmocka_unit_test(test_missing),
        cmocka_unit_test(test_refused_packs),
        cmocka_unit_test(test_like),
    };
    return cmocka_run_group_tests_name("rules_ref", tests, open_fixture, close_fixture);
}
