/* SPDX-License-Identifier: MIT */
/*
 * Every rule against the points of tests/rules/<pack>.json: each case becomes a job of one place and one point, and the
 * rule must apply, not apply, or stay open as the case says. One test a rule.
 */
#include "support.h"

#include "core/json/write.h"

typedef struct rule_case {
    const char *pack;
    const ds_json *entry;
} rule_case;

typedef struct shared {
    test_alloc alloc;
    ds_arena arena;
    ds_rulebook book;
} shared;

static shared *the_shared;

static void put_members(ds_json_writer *const w, const ds_json *const object)
{
    for (const ds_json *member = object ? object->first : NULL; member; member = member->next) {
        ds_json_put_key_str(w, ds_json_key(member));
        ds_json_put_tree(w, member);
    }
}

/* {"place": …, "point": …} as a whole job. */
static void write_job(ds_text *const out, const char *const pack, const ds_json *const fragment)
{
    ds_json_writer w = ds_json_writer_on(out);
    ds_json_begin_object(&w);
    ds_json_put_key(&w, "dripstone");
    ds_json_put_int(&w, 1);
    ds_json_put_key(&w, "rules");
    ds_json_begin_array(&w);
    ds_json_put_text(&w, pack);
    ds_json_end_array(&w);
    ds_json_put_key(&w, "places");
    ds_json_begin_array(&w);
    ds_json_begin_object(&w);
    ds_json_put_key(&w, "id");
    ds_json_put_text(&w, "place");
    put_members(&w, ds_json_get(fragment, DS_STR("place")));
    ds_json_end_object(&w);
    ds_json_end_array(&w);
    ds_json_put_key(&w, "points");
    ds_json_begin_array(&w);
    ds_json_begin_object(&w);
    ds_json_put_key(&w, "id");
    ds_json_put_text(&w, "point");
    ds_json_put_key(&w, "place");
    ds_json_put_text(&w, "place");
    put_members(&w, ds_json_get(fragment, DS_STR("point")));
    ds_json_end_object(&w);
    ds_json_end_array(&w);
    ds_json_end_object(&w);
}

static ds_truth truth_in(const ds_findings *const findings, const ds_str rule)
{
    const ds_finding *const finding = &findings->points[0];
    for (size_t i = 0; i < finding->reasons_len; i++) {
        if (ds_str_eq(finding->reasons[i].rule->id, rule)) {
            return finding->reasons[i].truth;
        }
    }
    return DS_NO;
}

static void complain(const ds_str rule, const char *const list, const size_t index, const ds_text *const job)
{
    fprintf(stderr, "%.*s: %s[%zu] does not hold for\n%.*s\n", (int)rule.len, rule.at, list, index,
            (int)job->len, job->at);
}

/* Problems in a fragment are faults of the test data. */
static bool is_clean(const ds_job *const job, const ds_text *const text, const ds_alloc *const alloc)
{
    if (job->problems.len == 0) {
        return true;
    }
    ds_text say;
    ds_text_init(&say, alloc);
    ds_problem_say(&say, &job->problems.at[0]);
    fprintf(stderr, "%.*s in\n%.*s\n", (int)say.len, say.at, (int)text->len, text->at);
    ds_text_free(&say);
    return false;
}

static size_t run_list(const rule_case *const test, const char *const list, const ds_truth expected)
{
    const ds_str rule = ds_json_text(ds_json_get(test->entry, DS_STR("rule")));
    const ds_json *const cases = ds_json_get(test->entry, ds_str_of(list));
    size_t index = 0;
    for (const ds_json *fragment = cases ? cases->first : NULL; fragment;
         fragment = fragment->next, index++) {
        ds_arena arena;
        ds_arena_init(&arena, &the_shared->alloc.alloc);
        ds_text text;
        ds_text_init(&text, &the_shared->alloc.alloc);
        write_job(&text, test->pack, fragment);
        ds_findings findings;
        ds_job job;
        assert_int_equal(support_assess(&findings, &job, &the_shared->book, &arena, ds_text_str(&text)),
                         DS_OK);
        const bool good =
            truth_in(&findings, rule) == expected && is_clean(&job, &text, &the_shared->alloc.alloc);
        if (!good) {
            complain(rule, list, index, &text);
        }
        ds_text_free(&text);
        ds_arena_free(&arena);
        assert_true(good);
    }
    return index;
}

static void test_rule(void **const state)
{
    const rule_case *const test = *state;
    const ds_str rule = ds_json_text(ds_json_get(test->entry, DS_STR("rule")));
    const ds_pack *const pack = ds_rulebook_pack(&the_shared->book, ds_str_of(test->pack));
    assert_non_null(pack);
    bool known = false;
    for (size_t i = 0; i < pack->rules_len; i++) {
        known = known || ds_str_eq(pack->rules[i].id, rule);
    }
    assert_true(known);
    assert_true(run_list(test, "applies", DS_YES) > 0);
    assert_true(run_list(test, "not", DS_NO) > 0);
    run_list(test, "open", DS_MAYBE);
}

enum { MOST_TESTS = 1000 };

typedef struct collected {
    struct CMUnitTest tests[MOST_TESTS];
    rule_case cases[MOST_TESTS];
    char names[MOST_TESTS][96];
    size_t len;
} collected;

static void collect(collected *const out, const char *const pack, const ds_json *const list)
{
    for (const ds_json *entry = list->first; entry && out->len < MOST_TESTS; entry = entry->next) {
        const ds_str rule = ds_json_text(ds_json_get(entry, DS_STR("rule")));
        snprintf(out->names[out->len], sizeof out->names[0], "%s %.*s", pack, (int)rule.len, rule.at);
        out->cases[out->len] = (rule_case){pack, entry};
        out->tests[out->len] = (struct CMUnitTest){
            .name = out->names[out->len], .test_func = test_rule, .initial_state = &out->cases[out->len]};
        out->len++;
    }
}

int main(void)
{
    static collected all;
    static shared s;
    the_shared = &s;
    s.alloc = test_alloc_make(0);
    ds_arena_init(&s.arena, test_alloc_use(&s.alloc));
    if (support_rulebook(&s.book, &s.arena) != DS_OK) {
        return 2;
    }
    static const char *const PACKS[] = {"iec", "gb-2022", "gb-2018", "de", "fr", "au"};
    for (size_t i = 0; i < sizeof PACKS / sizeof *PACKS; i++) {
        char path[64];
        snprintf(path, sizeof path, "tests/rules/%s.json", PACKS[i]);
        ds_json *tree = NULL;
        ds_problem problem;
        if (ds_json_read(&tree, support_file(path), &s.arena, &DS_JSON_LIMITS, &problem) != DS_OK) {
            support_stop(path, &problem, &s.alloc.alloc);
        }
        collect(&all, PACKS[i], tree);
    }
    return _cmocka_run_group_tests("rules", all.tests, all.len, NULL, NULL);
}
