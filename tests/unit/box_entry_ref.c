/* SPDX-License-Identifier: MIT */
/*
 * Entries and boxes against the tables tests/boxes/: names and diameters, what each entry leaves and says, whole boxes,
 * and what is reported of a box that is wrong.
 */
#include "box_help.h"

/* --- sizes -------------------------------------------------------------------------------------------------------- */

static void expect_range(const ds_json *const row, const char *const key, const double got[2])
{
    const ds_json *const want = box_get(row, key);
    if (!want) {
        return;
    }
    double low = 0;
    double high = 0;
    assert_true(want->count == 2 && ds_json_number(want->first, &low) &&
                ds_json_number(want->first->next, &high));
    if (!(fabs(low - got[0]) <= 0.051 && fabs(high - got[1]) <= 0.051)) {
        fail_msg("%s: %s is %.3f to %.3f, not %.3f to %.3f", box_name(row), key, got[0], got[1], low, high);
    }
}

static void check_cable(box_world *const w, const ds_json *const row)
{
    const ds_cable_type *const type = ds_sizes_cable_type(&w->sizes, box_text(row, "cable"));
    const ds_cable_size *const size = type ? ds_sizes_cable(type, box_text(row, "size")) : NULL;
    const bool known = box_get(row, "unknown") == NULL;
    if ((size != NULL) != known) {
        fail_msg("%s: is %s", box_name(row), size ? "known" : "unknown");
    }
    if (size) {
        expect_range(row, "od_mm", size->od_mm);
        expect_range(row, "inner_mm", size->inner_mm);
        expect_range(row, "width_mm", size->width_mm);
        expect_range(row, "thickness_mm", size->thickness_mm);
    }
}

static void check_thread(box_world *const w, const ds_json *const row)
{
    const ds_thread_size *const size = ds_sizes_thread(&w->sizes, box_text(row, "thread"));
    if ((size != NULL) != (box_get(row, "unknown") == NULL)) {
        fail_msg("%s: is %s", box_name(row), size ? "known" : "unknown");
    }
    if (size) {
        box_expect_number(row, "thread_mm", size->thread_mm);
        box_expect_number(row, "core_mm", size->core_mm);
        expect_range(row, "hole_mm", size->hole_mm);
    }
}

static void check_armoured(box_world *const w, const ds_json *const row)
{
    const ds_gland_size *const gland = ds_sizes_armoured(&w->sizes, box_text(row, "gland"));
    assert_non_null(gland);
    expect_range(row, "range_mm", gland->range_mm);
    expect_range(row, "inner_range_mm", gland->inner_range_mm);
}

static void test_sizes(void **const state)
{
    (void)state;
    box_world w;
    box_open(&w, "sizes.json");
    for (const ds_json *row = w.tree->first; row; row = row->next) {
        BOX_CHECK_KEYS(row, "cable", "size", "thread", "gland", "unknown", "od_mm", "inner_mm", "width_mm",
                       "thickness_mm", "thread_mm", "core_mm", "hole_mm", "range_mm", "inner_range_mm");
        if (box_get(row, "cable")) {
            check_cable(&w, row);
        } else if (box_get(row, "thread")) {
            check_thread(&w, row);
        } else {
            check_armoured(&w, row);
        }
    }
    box_close(&w);
}

/* What is wrong with a file of sizes refuses it, with its place. */
static void test_bad_sizes(void **const state)
{
    (void)state;
    static const char *const HEAD = "{\"dripstone_entries\": 1, \"glands\": [], ";
    static const char *const FILES[] = {
        "\"threads\": []}",
        "\"threads\": [], \"cables\": 1}",
        "\"threads\": [], \"cables\": [{\"type\": \"x\", \"sizes\": []}]}",
        "\"threads\": [], \"cables\": [], \"odd\": 1}",
        "\"cables\": [], \"threads\": [{\"source\": {\"kind\": \"common-practice\"}, \"sizes\": [{\"size\": "
        "\"M1\", "
        "\"thread_mm\": 20, \"core_mm\": 18.5, \"hole_mm\": [20.5, 20.2]}]}]}",
        "\"cables\": [], \"threads\": [{\"source\": {\"kind\": \"common-practice\"}, \"sizes\": [{\"size\": "
        "\"M1\", \"thread_mm\": 20, \"core_mm\": 20.5, \"hole_mm\": [20.2, 20.5]}]}]}",
        "\"threads\": [], \"cables\": [{\"type\": \"x\", \"source\": {\"kind\": \"common-practice\"}, "
        "\"sizes\": [{\"size\": \"thick\", \"od_mm\": [1, 2]}]}]}",
        "\"threads\": [], \"cables\": [{\"type\": \"x\", \"source\": {\"kind\": \"common-practice\"}, "
        "\"shape\": \"flat\", \"sizes\": [{\"size\": \"1.5\", \"od_mm\": [1, 2]}]}]}",
    };
    for (size_t i = 0; i < sizeof FILES / sizeof *FILES; i++) {
        test_alloc memory = test_alloc_make(0);
        ds_arena arena;
        ds_arena_init(&arena, test_alloc_use(&memory));
        char text[1000];
        snprintf(text, sizeof text, "%s%s", HEAD, FILES[i]);
        ds_sizes sizes;
        ds_problem problem = {0};
        const ds_status status = ds_sizes_read(&sizes, ds_str_of(text), &arena, &problem);
        if (status != DS_BAD_INPUT || problem.where.line != 1 || sizes.threads_len != 0) {
            fail_msg("accepted: %s", text);
        }
        ds_arena_free(&arena);
        assert_int_equal(memory.blocks, 0);
    }
}

/* --- entries ------------------------------------------------------------------------------------------------------ */

static void check_sentences(box_world *const w, const ds_json *const row, const ds_installed *const installed,
                            const ds_part *const part, const ds_need need)
{
    ds_text text;
    ds_text_init(&text, w->arena.alloc);
    ds_say_part(&text, installed, part, need);
    box_expect_text(row, "says", box_keep(w, &text));
    ds_text_init(&text, w->arena.alloc);
    ds_say_part_mend(&text, installed, part, need);
    const char *const mend = box_keep(w, &text);
    assert_null(strstr(mend, "drill"));
    box_expect_text(row, "mend", mend);
    ds_text_init(&text, w->arena.alloc);
    ds_say_part_notes(&text, installed, part);
    box_expect_text(row, "notes", box_keep(w, &text));
}

/* A loss without a sentence and a mend, or a sentence without a loss, is a fault whatever the row says. */
static void check_told(const ds_json *const row, const ds_part *const part, const ds_need need)
{
    const bool lost = ds_mark_compare(need, part->mark, NULL) != DS_FITS;
    const bool told = box_text(row, "says").len > 0;
    if (lost != told || told != (box_text(row, "mend").len > 0)) {
        fail_msg("%s: %s", box_name(row),
                 lost ? "a loss is not told" : "nothing is lost, and yet it is told");
    }
}

static void test_entries(void **const state)
{
    (void)state;
    box_world w;
    box_open(&w, "entries.json");
    for (const ds_json *row = w.tree->first; row; row = row->next) {
        BOX_CHECK_KEYS(row, "box", "need", "solids", "access", "water", "says", "mend", "notes");
        const ds_box *const box = box_read(&w, box_get(row, "box"));
        assert_true(box && box->entries_len == 1 && box->faces_len == 0);
        ds_installed installed;
        assert_int_equal(ds_installed_of(&installed, box, &w.sizes, &w.arena), DS_OK);
        const ds_part *const part = &installed.parts[0];
        const ds_need need = box_need(row, DS_MARK_SILENT);
        assert_true(box_get(row, "need") != NULL);
        box_expect_mark(&w, row, part->mark);
        check_sentences(&w, row, &installed, part, need);
        check_told(row, part, need);
    }
    if (w.job.problems.len > 0) {
        fail_msg("a problem at %.*s", (int)w.job.problems.at[0].where.pointer.len,
                 w.job.problems.at[0].where.pointer.at);
    }
    box_close(&w);
}

/* --- boxes -------------------------------------------------------------------------------------------------------- */

static ds_mark read_mark(const ds_json *const row, const char *const key)
{
    ds_reading reading;
    ds_mark_read(box_text(row, key), &reading);
    return reading.mark;
}

/* "E2", "opening 1", or "" for the box's own mark. */
static const char *part_text(box_world *const w, const ds_part *const part)
{
    ds_text text;
    ds_text_init(&text, w->arena.alloc);
    if (part && part->entry) {
        ds_text_adds(&text, part->entry->id);
    } else if (part) {
        ds_text_add(&text, "opening ");
        ds_text_int(&text, part->number);
    }
    return box_keep(w, &text);
}

static void check_conditions(const ds_json *const row, const ds_installed *const installed)
{
    static const char *const WORDS[] = {"", "no", "yes"};
    const ds_json *const conditions = box_get(row, "conditions");
    for (const ds_json *item = conditions ? conditions->first : NULL; item; item = item->next) {
        const ds_tri got = ds_installed_condition(installed, ds_json_key(item));
        if (!ds_str_is(ds_json_text(item), WORDS[got])) {
            fail_msg("%s: condition %.*s is \"%s\"", box_name(row), (int)item->key_len, item->key,
                     WORDS[got]);
        }
    }
}

static void check_box(box_world *const w, const ds_json *const row)
{
    const ds_box *const box = box_read(w, box_get(row, "box"));
    assert_non_null(box);
    ds_installed installed;
    assert_int_equal(ds_installed_of(&installed, box, &w->sizes, &w->arena), DS_OK);
    const ds_mark marked = read_mark(row, "marked");
    const ds_mark mark = ds_installed_mark(&installed, marked);
    const ds_need need = box_need(row, marked);
    ds_text text;
    ds_text_init(&text, w->arena.alloc);
    ds_mark_print(&text, mark);
    box_expect_text(row, "installed", box_keep(w, &text));
    box_expect_mark(w, row, mark);
    box_expect_text(row, "verdict", ds_verdict_word(ds_mark_compare(need, mark, NULL)));
    const ds_part *const part = ds_installed_decides(&installed, marked, need);
    box_expect_text(row, "decides", part_text(w, part));
    if (part) {
        check_sentences(w, row, &installed, part, need);
    }
    check_conditions(row, &installed);
}

static void test_boxes(void **const state)
{
    (void)state;
    box_world w;
    box_open(&w, "installed.json");
    for (const ds_json *row = w.tree->first; row; row = row->next) {
        BOX_CHECK_KEYS(row, "marked", "box", "need", "installed", "solids", "access", "water", "verdict",
                       "decides", "says", "mend", "conditions");
        check_box(&w, row);
    }
    assert_int_equal(w.job.problems.len, 0);
    box_close(&w);
}

/* --- problems ----------------------------------------------------------------------------------------------------- */

static void test_problems(void **const state)
{
    (void)state;
    box_world w;
    box_open(&w, "problems.json");
    for (const ds_json *row = w.tree->first; row; row = row->next) {
        BOX_CHECK_KEYS(row, "box", "at", "problem", "count");
        w.job.problems = (ds_problems){0};
        w.owner = -1;
        (void)box_read(&w, box_get(row, "box"));
        double count = 1;
        (void)ds_json_number(box_get(row, "count"), &count);
        if (w.job.problems.len != (size_t)count) {
            fail_msg("%s: %zu problems", box_name(row), w.job.problems.len);
        }
        assert_int_equal(w.owner, count > 0 ? 0 : -1);
        if (count == 0) {
            continue;
        }
        const ds_problem *const problem = &w.job.problems.at[0];
        ds_text text;
        ds_text_init(&text, w.arena.alloc);
        ds_problem_say(&text, problem);
        box_expect_text(row, "problem", box_keep(&w, &text));
        const ds_str want = box_text(row, "at");
        const ds_str got = problem->where.pointer;
        assert_true(got.len >= want.len && want.len > 0);
        if (!ds_str_eq(ds_str_from(got, got.len - want.len), want)) {
            fail_msg("%s: at %.*s", box_name(row), (int)got.len, got.at);
        }
    }
    box_close(&w);
}

/* The smallest box: nothing stated is missing, not zero. */
static void test_missing(void **const state)
{
    (void)state;
    box_world w;
    box_open(&w, "installed.json");
    static const char TEXT[] = "{\"entries\": [{\"holds\": \"gland\"}], \"faces\": [{\"face\": \"top\"}]}";
    ds_json *tree = NULL;
    ds_problem problem;
    assert_int_equal(ds_json_read(&tree, DS_STR(TEXT), &w.arena, &DS_JSON_LIMITS, &problem), DS_OK);
    const ds_box *const box = box_read(&w, tree);
    assert_non_null(box);
    assert_true(isnan(box->width_mm) && isnan(box->watts) && isnan(box->sun.flat_w_m2) && !box->sun.at);
    assert_true(isnan(box->lowest_m) && isnan(box->heater.watts) && !box->heater.at && !box->flood.at);
    assert_true(!box->day.at && isnan(box->day.low_c) && isnan(box->day.clear) && isnan(box->contents_kg) &&
                box->keep_dry == DS_TRI_MISSING);
    assert_true(box->mounted == DS_MOUNTED_MISSING && box->seal == DS_BOX_SEAL_MISSING);
    const ds_entry *const entry = &box->entries[0];
    assert_true(isnan(entry->hole_mm) && isnan(entry->range_mm[0]) && isnan(entry->thickness_mm[1]));
    assert_true(!entry->ip.at && !entry->cable.at && entry->cable.count == 1);
    assert_true(isnan(entry->cable.od_mm[0]) && entry->wall_seal == DS_TRI_MISSING);
    assert_true(ds_box_face(box, DS_SIDE_TOP) == &box->faces[0] && !ds_box_face(box, DS_SIDE_LEFT));
    ds_reader reader = {.job = &w.job, .arena = &w.arena, .owner = &w.owner};
    assert_null(ds_box_read(&reader, NULL));
    assert_int_equal(w.job.problems.len, 0);
    box_close(&w);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_sizes), cmocka_unit_test(test_bad_sizes), cmocka_unit_test(test_entries),
        cmocka_unit_test(test_boxes), cmocka_unit_test(test_problems),  cmocka_unit_test(test_missing),
    };
    return cmocka_run_group_tests_name("box_entry_ref", tests, NULL, NULL);
}
