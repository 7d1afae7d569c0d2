/* SPDX-License-Identifier: MIT */
/* Which file a store opens: its own, and no other, which stays as it was. */
#include "store_help.h"

#include <fcntl.h>

/* What a file of before forms were numbered looks like. */
static const char *const BEFORE =
    "CREATE TABLE versions (job TEXT NOT NULL, version INTEGER NOT NULL, tag TEXT NOT NULL, saved TEXT NOT "
    "NULL,"
    " title TEXT NOT NULL, points INTEGER NOT NULL, removed INTEGER NOT NULL, document TEXT NOT NULL,"
    " PRIMARY KEY (job, version)) STRICT;"
    "INSERT INTO versions VALUES ('old', 1, '1-0', '2026-05-04T10:00:00Z', 'Old', 0, 0, 'kept');";

typedef struct file_text {
    char at[65536];
    size_t len;
} file_text;

static void read_whole(file_text *const out, const char *const path)
{
    FILE *const file = fopen(path, "rb");
    assert_non_null(file);
    out->len = fread(out->at, 1, sizeof out->at, file);
    fclose(file);
}

/* It is refused with these words, and not a byte of it is changed. */
static void expect_refused(const store_place *const place, const char *const words)
{
    static file_text before;
    static file_text after;
    ds_store *store = NULL;
    char why[200] = "";
    test_alloc a = test_alloc_make(0);
    read_whole(&before, place->file);
    assert_int_equal(ds_store_open(&store, place->folder, test_alloc_use(&a), why), DS_STORE_BROKEN);
    assert_null(store);
    if (!strstr(why, words)) {
        fail_msg("%s", why);
    }
    assert_int_equal(a.blocks, 0);
    read_whole(&after, place->file);
    assert_int_equal(after.len, before.len);
    assert_memory_equal(after.at, before.at, before.len);
}

static void refuse_after(const char *const sql, const char *const words)
{
    store_place place;
    store_place_make(&place);
    store_run(&place, sql);
    expect_refused(&place, words);
    store_place_remove(&place);
}

static void another_programs_file_stays_as_it_was(void **const state)
{
    (void)state;
    refuse_after("CREATE TABLE recipes (name TEXT);", "another program's");
    refuse_after("CREATE VIEW versions AS SELECT 1;", "another program's");
    refuse_after("PRAGMA user_version = 3;", "another program's");
    refuse_after("PRAGMA application_id = 7; PRAGMA user_version = 1;", "another program's");
}

static void a_trigger_is_not_run(void **const state)
{
    (void)state;
    char sql[1024];
    snprintf(sql, sizeof sql, "%s CREATE TRIGGER t AFTER INSERT ON versions BEGIN DELETE FROM versions; END;",
             BEFORE);
    refuse_after(sql, "another program's");
}

static void a_later_form_is_left_to_its_program(void **const state)
{
    (void)state;
    store_place place;
    test_alloc a = test_alloc_make(0);
    store_place_make(&place);
    ds_store_close(store_open(&place, test_alloc_use(&a)));
    store_run(&place, "PRAGMA user_version = 2; CREATE TABLE photos (name TEXT);");
    expect_refused(&place, "later version");
    store_place_remove(&place);
}

static void a_table_of_another_shape_is_refused(void **const state)
{
    (void)state;
    store_place place;
    ds_store *store = NULL;
    char why[200] = "";
    test_alloc a = test_alloc_make(0);
    store_place_make(&place);
    store_run(&place, "CREATE TABLE versions (job TEXT);");
    assert_int_equal(ds_store_open(&store, place.folder, test_alloc_use(&a), why), DS_STORE_BROKEN);
    assert_non_null(strstr(why, "no such column"));
    store_place_remove(&place);
}

static void what_is_no_database_is_refused(void **const state)
{
    (void)state;
    store_place place;
    store_place_make(&place);
    FILE *const file = fopen(place.file, "w");
    assert_non_null(file);
    for (int i = 0; i < 500; i++) {
        fputs("a shopping list, ", file);
    }
    fclose(file);
    expect_refused(&place, "not a database");
    store_place_remove(&place);
}

static void a_file_of_before_is_taken_over(void **const state)
{
    (void)state;
    store_place place;
    test_alloc a = test_alloc_make(0);
    ds_text text;
    ds_stored stored;
    store_place_make(&place);
    store_run(&place, BEFORE);
    for (int i = 0; i < 2; i++) { /* and opens again */
        ds_store *const store = store_open(&place, test_alloc_use(&a));
        ds_text_init(&text, &a.alloc);
        assert_int_equal(ds_store_get(store, &text, &stored, "old", DS_STORE_LATEST), DS_STORE_OK);
        assert_true(ds_str_is(ds_text_str(&text), "kept"));
        ds_text_free(&text);
        ds_store_close(store);
    }
    store_place_remove(&place);
}

/* --- links and leave ---------------------------------------------------------------------------------------------- */

static void a_link_in_the_folder_is_not_followed(void **const state)
{
    (void)state;
    store_place place;
    store_place target;
    test_alloc a = test_alloc_make(0);
    store_place_make(&place);
    store_place_make(&target);
    ds_store_close(store_open(&target, test_alloc_use(&a)));
    assert_int_equal(symlink(target.file, place.file), 0);
    expect_refused(&place, "is a link");
    store_place_remove(&place);
    store_place_remove(&target);
}

static void a_link_to_the_folder_is(void **const state)
{
    (void)state;
    store_place place;
    store_place link;
    test_alloc a = test_alloc_make(0);
    store_place_make(&place);
    snprintf(link.folder, sizeof link.folder, "%.40s-link", place.folder);
    assert_int_equal(symlink(place.folder, link.folder), 0);
    ds_store_close(store_open(&link, test_alloc_use(&a)));
    assert_int_equal(access(place.file, F_OK), 0);
    unlink(link.folder);
    store_place_remove(&place);
}

static void folders_are_made_for_their_owner_alone(void **const state)
{
    (void)state;
    store_place place;
    store_place deep;
    test_alloc a = test_alloc_make(0);
    struct stat status;
    char middle[80];
    store_place_make(&place);
    snprintf(middle, sizeof middle, "%s/a", place.folder);
    snprintf(deep.folder, sizeof deep.folder, "%.40s/a/b", place.folder);
    snprintf(deep.file, sizeof deep.file, "%.50s/jobs.sqlite", deep.folder);
    const mode_t mask = umask(0);
    ds_store_close(store_open(&deep, test_alloc_use(&a)));
    umask(mask);
    assert_int_equal(stat(deep.folder, &status), 0);
    assert_int_equal(status.st_mode & 0777, 0700);
    store_place_remove(&deep);
    assert_int_equal(rmdir(middle), 0);
    store_place_remove(&place);
}

static void no_folder_says_so(void **const state)
{
    (void)state;
    static char long_name[6000];
    memset(long_name, 'x', sizeof long_name - 1);
    const char *const folders[] = {"/dev/null/jobs", long_name, ""};
    const char *const words[] = {"Not a directory", "name too long", "No such file"};
    for (size_t i = 0; i < sizeof folders / sizeof *folders; i++) {
        ds_store *store = NULL;
        char why[200] = "";
        test_alloc a = test_alloc_make(0);
        assert_int_equal(ds_store_open(&store, folders[i], test_alloc_use(&a), why), DS_STORE_BROKEN);
        assert_non_null(strstr(why, words[i]));
        assert_int_equal(a.blocks, 0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(another_programs_file_stays_as_it_was),
        cmocka_unit_test(a_trigger_is_not_run),
        cmocka_unit_test(a_later_form_is_left_to_its_program),
        cmocka_unit_test(a_table_of_another_shape_is_refused),
        cmocka_unit_test(what_is_no_database_is_refused),
        cmocka_unit_test(a_file_of_before_is_taken_over),
        cmocka_unit_test(a_link_in_the_folder_is_not_followed),
        cmocka_unit_test(a_link_to_the_folder_is),
        cmocka_unit_test(folders_are_made_for_their_owner_alone),
        cmocka_unit_test(no_folder_says_so),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
