/* SPDX-License-Identifier: MIT */
/*
 * What holds for every merge, on a thousand jobs edited at random on both sides: a side that did nothing yields to the
 * other; the sides may be swapped; without conflicts every edit of both is there and nothing else; what is merged reads.
 */
#include "core/job/job.h"
#include "merge_help.h"

enum { ROUNDS = 1000 };

static json_random r;
static merge_lines lines_of[4];

/* Three documents and their merge. */
typedef struct trio {
    json_doc base, mine, theirs, merged;
    char *text; /* of the merged one */
    ds_merge merge;
    test_alloc memory;
    ds_arena arena;
} trio;

static void merge_it(trio *const t)
{
    t->memory = test_alloc_make(0);
    ds_arena_init(&t->arena, test_alloc_use(&t->memory));
    assert_true(ds_merge_trees(&t->merge, t->base.tree, t->mine.tree, t->theirs.tree, &t->arena));
    ds_text text;
    ds_text_init(&text, &t->memory.alloc);
    ds_merge_document(&text, &t->merge);
    assert_true(ds_text_ok(&text));
    json_doc_read(&t->merged, ds_text_str(&text), &DS_JSON_LIMITS);
    assert_int_equal(t->merged.status, DS_OK);
    t->text = json_written(t->merged.tree);
    ds_text_free(&text);
}

static void open_trio(trio *const t, const char *const base, const char *const mine, const char *const theirs)
{
    json_doc_read(&t->base, ds_str_of(base), &DS_JSON_LIMITS);
    json_doc_read(&t->mine, ds_str_of(mine), &DS_JSON_LIMITS);
    json_doc_read(&t->theirs, ds_str_of(theirs), &DS_JSON_LIMITS);
    assert_true(t->base.tree && t->mine.tree && t->theirs.tree);
    merge_it(t);
}

static void close_trio(trio *const t)
{
    json_doc_free(&t->base);
    json_doc_free(&t->mine);
    json_doc_free(&t->theirs);
    json_doc_free(&t->merged);
    free(t->text);
    ds_arena_free(&t->arena);
    assert_int_equal(t->memory.blocks, 0);
}

/* A job and two edits of it; free() them. */
static void make_three(char *texts[3], const merge_edit *const mine, const merge_edit *const theirs)
{
    merge_random_job(&r);
    json_doc base;
    json_doc_read(&base, (ds_str){r.text, r.len}, &DS_JSON_LIMITS);
    assert_int_equal(base.status, DS_OK);
    texts[0] = json_written(base.tree);
    texts[1] = merge_edited(mine, base.tree);
    texts[2] = merge_edited(theirs, base.tree);
    json_doc_free(&base);
}

static void free_three(char *texts[3])
{
    for (int i = 0; i < 3; i++) {
        free(texts[i]);
    }
}

static void a_side_that_did_nothing_yields(void **const state)
{
    (void)state;
    r.seed = 0x9E3779B97F4A7C15U;
    for (int i = 0; i < ROUNDS; i++) {
        char *texts[3];
        const merge_edit edit = {
            .r = &r, .seldom = 3 + json_random_below(&r, 30), .parity = -1, .moves = true};
        make_three(texts, &edit, &edit);
        for (int way = 0; way < 3; way++) {
            trio t;
            open_trio(&t, texts[0], way == 1 ? texts[0] : texts[1], way == 2 ? texts[0] : texts[1]);
            assert_int_equal(t.merge.conflicts_len, 0);
            assert_string_equal(t.text, texts[1]);
            close_trio(&t);
        }
        free_three(texts);
    }
}

/* Points of even number on one side, of odd number on the other: no conflict, and either order gives the same bytes. */
static void disjoint_edits_commute(void **const state)
{
    (void)state;
    r.seed = 0xD1B54A32D192ED03U;
    size_t edited = 0;
    for (int i = 0; i < ROUNDS; i++) {
        char *texts[3];
        const merge_edit even = {.r = &r, .seldom = 4, .side = 1, .parity = 0};
        const merge_edit odd = {.r = &r, .seldom = 4, .side = 2, .parity = 1};
        make_three(texts, &even, &odd);
        trio one, other;
        open_trio(&one, texts[0], texts[1], texts[2]);
        open_trio(&other, texts[0], texts[2], texts[1]);
        assert_int_equal(one.merge.conflicts_len, 0);
        assert_int_equal(other.merge.conflicts_len, 0);
        assert_string_equal(one.text, other.text);
        edited += strcmp(texts[0], texts[1]) != 0 && strcmp(texts[0], texts[2]) != 0;
        close_trio(&one);
        close_trio(&other);
        free_three(texts);
    }
    assert_true(edited > ROUNDS / 2);
}

/* --- every edit ---------------------------------------------------------------------------------------------------------- */

/* What a line must be when nobody contradicts anybody. */
static void expect_line(const char *const path)
{
    const char *const base = merge_value(&lines_of[0], path);
    const char *const mine = merge_value(&lines_of[1], path);
    const char *const theirs = merge_value(&lines_of[2], path);
    const bool mine_changed = strcmp(base, mine) != 0;
    const char *const expected = mine_changed ? mine : theirs;
    if (strcmp(expected, merge_value(&lines_of[3], path)) != 0) {
        print_message("%s: base %s, mine %s, theirs %s, merged %s\n", path, base, mine, theirs,
                      merge_value(&lines_of[3], path));
        fail();
    }
}

static void expect_every_edit(const trio *const t)
{
    const ds_json *const trees[4] = {t->base.tree, t->mine.tree, t->theirs.tree, t->merged.tree};
    for (int i = 0; i < 4; i++) {
        merge_take_apart(&lines_of[i], trees[i], "");
    }
    for (int i = 0; i < 4; i++) {
        for (size_t j = 0; j < lines_of[i].len; j++) {
            expect_line(lines_of[i].at[j].path);
        }
    }
    for (int i = 0; i < 4; i++) {
        merge_lines_free(&lines_of[i]);
    }
}

static void without_conflicts_every_edit_of_both_is_there(void **const state)
{
    (void)state;
    r.seed = 0x2545F4914F6CDD1DU;
    int clean = 0;
    for (int i = 0; i < ROUNDS; i++) {
        char *texts[3];
        const uint32_t seldom = 10 + json_random_below(&r, 60);
        const merge_edit mine = {.r = &r, .seldom = seldom, .side = 1, .parity = -1, .moves = true};
        const merge_edit theirs = {.r = &r, .seldom = seldom, .side = 2, .parity = -1, .moves = true};
        make_three(texts, &mine, &theirs);
        trio t;
        open_trio(&t, texts[0], texts[1], texts[2]);
        if (t.merge.conflicts_len == 0) {
            expect_every_edit(&t);
            clean += strcmp(t.text, texts[1]) != 0 && strcmp(t.text, texts[2]) != 0;
            trio again; /* merged once more with either side it stays as it is */
            open_trio(&again, texts[0], t.text, texts[2]);
            assert_int_equal(again.merge.conflicts_len, 0);
            assert_string_equal(again.text, t.text);
            close_trio(&again);
        }
        close_trio(&t);
        free_three(texts);
    }
    assert_true(clean > ROUNDS / 10);
}

/* --- conflicts ----------------------------------------------------------------------------------------------------------- */

static void put_path(ds_text *const out, const ds_merged *const value)
{
    for (size_t up = ds_merged_depth(value); up > 0; up--) {
        ds_text_char(out, '/');
        ds_text_adds(out, ds_merged_above(value, up - 1)->name);
    }
}

/* True when the other merge has a conflict at the same path, with mine and theirs swapped. */
static bool has_mirror(const ds_merge *const other, const ds_merged *const conflict, ds_arena *const arena)
{
    ds_text path, there;
    ds_text_init(&path, arena->alloc);
    ds_text_init(&there, arena->alloc);
    put_path(&path, conflict);
    bool found = false;
    for (const ds_merged *at = other->conflicts; at && !found; at = at->next_conflict) {
        there.len = 0;
        put_path(&there, at);
        found = ds_str_eq(ds_text_str(&path), ds_text_str(&there));
        if (found) {
            assert_int_equal(!at->mine, !conflict->theirs);
            assert_int_equal(!at->theirs, !conflict->mine);
            assert_true(!at->mine || json_same(at->mine, conflict->theirs));
            assert_true(!at->theirs || json_same(at->theirs, conflict->mine));
        }
    }
    ds_text_free(&path);
    ds_text_free(&there);
    return found;
}

/* Both sides changed the value, differently; and mine stands. */
static void expect_conflict(const ds_merged *const conflict)
{
    assert_true(conflict->mine || conflict->theirs);
    assert_true(conflict->whole == conflict->mine);
    assert_true(!conflict->mine || !conflict->theirs || !json_same(conflict->mine, conflict->theirs));
    assert_true(!conflict->base || !conflict->mine || !json_same(conflict->base, conflict->mine));
    assert_true(!conflict->base || !conflict->theirs || !json_same(conflict->base, conflict->theirs));
    assert_true(conflict->base || (conflict->mine && conflict->theirs));
}

static void conflicts_are_the_same_from_both_sides(void **const state)
{
    (void)state;
    r.seed = 0x853C49E6748FEA9BU;
    size_t conflicts = 0;
    for (int i = 0; i < ROUNDS; i++) {
        char *texts[3];
        const merge_edit edit = {
            .r = &r, .seldom = 3 + json_random_below(&r, 20), .parity = -1, .moves = true};
        make_three(texts, &edit, &edit);
        trio one, other;
        open_trio(&one, texts[0], texts[1], texts[2]);
        open_trio(&other, texts[0], texts[2], texts[1]);
        assert_int_equal(one.merge.conflicts_len, other.merge.conflicts_len);
        for (const ds_merged *at = one.merge.conflicts; at; at = at->next_conflict) {
            expect_conflict(at);
            assert_true(has_mirror(&other.merge, at, &one.arena));
            conflicts++;
        }
        close_trio(&one);
        close_trio(&other);
        free_three(texts);
    }
    assert_true(conflicts > ROUNDS);
}

/* --- jobs ---------------------------------------------------------------------------------------------------------------- */

static void expect_unique_ids(const ds_json *const list)
{
    assert_true(!list || list->kind != DS_JSON_ARRAY || merge_has_names(list));
}

static void what_is_merged_is_a_job(void **const state)
{
    (void)state;
    r.seed = 0xA0761D6478BD642FU;
    for (int i = 0; i < ROUNDS; i++) {
        char *texts[3];
        const merge_edit edit = {
            .r = &r, .seldom = 3 + json_random_below(&r, 20), .parity = -1, .moves = true};
        make_three(texts, &edit, &edit);
        trio t;
        open_trio(&t, texts[0], texts[1], texts[2]);
        ds_job job;
        ds_problem problem;
        assert_int_equal(ds_job_read(&job, ds_str_of(t.text), &t.arena, &problem), DS_OK);
        expect_unique_ids(ds_json_get(job.tree, DS_STR("points")));
        expect_unique_ids(ds_json_get(job.tree, DS_STR("places")));
        close_trio(&t);
        free_three(texts);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_side_that_did_nothing_yields),
        cmocka_unit_test(disjoint_edits_commute),
        cmocka_unit_test(without_conflicts_every_edit_of_both_is_there),
        cmocka_unit_test(conflicts_are_the_same_from_both_sides),
        cmocka_unit_test(what_is_merged_is_a_job),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
