/* SPDX-License-Identifier: MIT */
/* The store by itself: what is kept comes back, no save hides another, and no file is touched that is not its own. */
#include "store_help.h"

#include <sys/syscall.h>

static const ds_store_about ABOUT = {.title = {"Mill", 4}, .points = 3};

typedef struct fixture {
    store_place place;
    test_alloc a;
    ds_store *store;
} fixture;

static int open_one(void **const state)
{
    static fixture f;
    f = (fixture){.a = test_alloc_make(0)};
    store_place_make(&f.place);
    f.store = store_open(&f.place, test_alloc_use(&f.a));
    *state = &f;
    return 0;
}

static int close_one(void **const state)
{
    const fixture *const f = *state;
    ds_store_close(f->store);
    assert_int_equal(f->a.blocks, 0);
    store_place_remove(&f->place);
    return 0;
}

static void expect_text(const fixture *const f, const char *const id, const int64_t version,
                        const ds_str expected)
{
    ds_text text;
    ds_stored stored;
    ds_text_init(&text, &f->a.alloc);
    assert_int_equal(ds_store_get(f->store, &text, &stored, id, version), DS_STORE_OK);
    assert_int_equal(text.len, expected.len);
    assert_memory_equal(text.at, expected.at, expected.len);
    assert_string_equal(stored.id, id);
    ds_text_free(&text);
}

static void expect_none(const fixture *const f, const char *const id, const int64_t version)
{
    ds_text text;
    ds_stored stored;
    ds_text_init(&text, &f->a.alloc);
    assert_int_equal(ds_store_get(f->store, &text, &stored, id, version), DS_STORE_ABSENT);
    assert_int_equal(text.len, 0);
    ds_text_free(&text);
}

/* --- what is kept ------------------------------------------------------------------------------------------------- */

static void texts_come_back_byte_for_byte(void **const state)
{
    const fixture *const f = *state;
    static const char ODD[] = "{\"a\": 1.10,\r\n \"\xef\xbb\xbf\xc3\xa9\": 0}\0after a zero";
    char *const large = malloc(3000000);
    assert_non_null(large);
    for (size_t i = 0; i < 3000000; i++) {
        large[i] = (char)('a' + i % 26);
    }
    const ds_str texts[] = {{ODD, sizeof ODD - 1}, {large, 3000000}, DS_STR("x"), DS_STR("")};
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        ds_stored job;
        assert_int_equal(ds_store_add(f->store, &job, texts[i], ABOUT), DS_STORE_OK);
        assert_int_equal(strlen(job.id), 20);
        assert_int_equal(job.version, 1);
        assert_int_equal(strlen(job.saved), sizeof "2026-05-04T10:00:00Z" - 1);
        assert_memory_equal(job.tag, "1-", 2);
        expect_text(f, job.id, DS_STORE_LATEST, texts[i]);
        expect_text(f, job.id, 1, texts[i]);
    }
    free(large);
}

static void versions_go_on_and_stay(void **const state)
{
    const fixture *const f = *state;
    ds_stored first;
    ds_stored second;
    assert_int_equal(ds_store_add(f->store, &first, DS_STR("one"), ABOUT), DS_STORE_OK);
    assert_int_equal(ds_store_save(f->store, &second, first.id, first.tag, DS_STR("two"), ABOUT),
                     DS_STORE_OK);
    assert_int_equal(second.version, 2);
    assert_string_not_equal(second.tag, first.tag);
    expect_text(f, first.id, DS_STORE_LATEST, DS_STR("two"));
    expect_text(f, first.id, 1, DS_STR("one"));
    expect_none(f, first.id, 3);
    expect_none(f, first.id, -1);
    expect_none(f, "nobody", DS_STORE_LATEST);
}

static void an_old_version_is_restored_by_saving_it(void **const state)
{
    const fixture *const f = *state;
    ds_stored job;
    ds_stored later;
    ds_stored again;
    ds_store_add(f->store, &job, DS_STR("one"), ABOUT);
    ds_store_save(f->store, &later, job.id, job.tag, DS_STR("two"), ABOUT);
    assert_int_equal(ds_store_save(f->store, &again, job.id, later.tag, DS_STR("one"), ABOUT), DS_STORE_OK);
    assert_int_equal(again.version, 3);
    assert_string_not_equal(again.tag, job.tag); /* the same text, and not the same version */
    expect_text(f, job.id, DS_STORE_LATEST, DS_STR("one"));
}

static void no_save_hides_another(void **const state)
{
    const fixture *const f = *state;
    ds_stored job;
    ds_stored mine;
    ds_stored theirs;
    ds_store_add(f->store, &job, DS_STR("one"), ABOUT);
    assert_int_equal(ds_store_save(f->store, &mine, job.id, job.tag, DS_STR("mine"), ABOUT), DS_STORE_OK);
    assert_int_equal(ds_store_save(f->store, &theirs, job.id, job.tag, DS_STR("theirs"), ABOUT),
                     DS_STORE_DIFFERS);
    assert_string_equal(theirs.tag, mine.tag);
    assert_int_equal(theirs.version, 2);
    assert_int_equal(ds_store_remove(f->store, &theirs, job.id, job.tag), DS_STORE_DIFFERS);
    static const char *const ODD[] = {
        "", "2-", "2", "9-0", "2-0000000000000000", "9223372036854775807-0", "99999999999999999999999-0"};
    for (size_t i = 0; i < sizeof ODD / sizeof *ODD; i++) {
        assert_int_equal(ds_store_save(f->store, &theirs, job.id, ODD[i], DS_STR("mine"), ABOUT),
                         DS_STORE_DIFFERS);
    }
    assert_int_equal(ds_store_save(f->store, &theirs, "nobody", job.tag, DS_STR("x"), ABOUT),
                     DS_STORE_ABSENT);
    expect_text(f, job.id, DS_STORE_LATEST, DS_STR("mine"));
}

static void a_save_sent_twice_is_one(void **const state)
{
    const fixture *const f = *state;
    ds_stored job;
    ds_stored once;
    ds_stored twice;
    ds_store_add(f->store, &job, DS_STR("one"), ABOUT);
    assert_int_equal(ds_store_save(f->store, &once, job.id, job.tag, DS_STR("two"), ABOUT), DS_STORE_OK);
    assert_int_equal(ds_store_save(f->store, &twice, job.id, job.tag, DS_STR("two"), ABOUT), DS_STORE_OK);
    assert_int_equal(twice.version, 2);
    assert_string_equal(twice.tag, once.tag);
    expect_none(f, job.id, 3);
}

/* --- removed ------------------------------------------------------------------------------------------------------ */

typedef struct seen {
    int count;
    int64_t versions[8];
    bool removed[8];
    char titles[8][16];
} seen;

static void note(void *const ctx, const ds_stored *const stored)
{
    seen *const s = ctx;
    assert_in_range(s->count, 0, 7);
    s->versions[s->count] = stored->version;
    s->removed[s->count] = stored->removed;
    snprintf(s->titles[s->count], sizeof s->titles[0], "%.*s", (int)stored->title.len, stored->title.at);
    s->count++;
}

static void a_removed_job_can_be_had_back(void **const state)
{
    const fixture *const f = *state;
    ds_stored job;
    ds_stored gone;
    ds_stored back;
    ds_store_add(f->store, &job, DS_STR("one"), ABOUT);
    assert_int_equal(ds_store_remove(f->store, &gone, job.id, job.tag), DS_STORE_OK);
    assert_true(gone.removed);
    expect_none(f, job.id, DS_STORE_LATEST);
    expect_text(f, job.id, 1, DS_STR("one"));
    seen list = {0};
    assert_int_equal(ds_store_list(f->store, note, &list), DS_STORE_OK);
    assert_int_equal(list.count, 0);
    assert_int_equal(ds_store_save(f->store, &back, job.id, job.tag, DS_STR("late"), ABOUT),
                     DS_STORE_DIFFERS);
    assert_true(back.removed);
    assert_int_equal(ds_store_save(f->store, &back, job.id, job.tag, DS_STR(""), ABOUT), DS_STORE_DIFFERS);
    assert_int_equal(ds_store_save(f->store, &back, job.id, gone.tag, DS_STR("one"), ABOUT), DS_STORE_OK);
    assert_int_equal(back.version, 3);
    assert_false(back.removed);
    expect_text(f, job.id, DS_STORE_LATEST, DS_STR("one"));
}

static void lists_tell_what_is_there(void **const state)
{
    const fixture *const f = *state;
    ds_stored job;
    ds_stored other;
    ds_stored next;
    seen list = {0};
    seen versions = {0};
    assert_int_equal(ds_store_list(f->store, note, &list), DS_STORE_OK);
    assert_int_equal(ds_store_versions(f->store, "nobody", note, &versions), DS_STORE_ABSENT);
    ds_store_add(f->store, &job, DS_STR("one"), ABOUT);
    ds_store_add(f->store, &other, DS_STR("other"), (ds_store_about){.title = DS_STR("Other")});
    ds_store_save(f->store, &next, job.id, job.tag, DS_STR("two"), (ds_store_about){.title = DS_STR("New")});
    ds_store_remove(f->store, &next, job.id, next.tag);
    assert_int_equal(ds_store_list(f->store, note, &list), DS_STORE_OK);
    assert_int_equal(list.count, 1);
    assert_string_equal(list.titles[0], "Other");
    assert_int_equal(ds_store_versions(f->store, job.id, note, &versions), DS_STORE_OK);
    assert_int_equal(versions.count, 3);
    for (int i = 0; i < 3; i++) {
        assert_int_equal(versions.versions[i], 3 - i);
        assert_int_equal(versions.removed[i], i == 0);
    }
    assert_string_equal(versions.titles[2], "Mill");
}

static void note_length(void *const ctx, const ds_stored *const stored)
{
    assert_true(ds_str_is_utf8(stored->title));
    *(size_t *)ctx = stored->title.len;
}

static void a_long_title_is_cut_between_letters(void **const state)
{
    const fixture *const f = *state;
    static char title[1000003];
    for (size_t i = 0; i < sizeof title; i += 3) {
        memcpy(title + i, "\xe2\x82\xac", sizeof title - i < 3 ? sizeof title - i : 3);
    }
    static const struct {
        size_t len, kept;
    } CASES[] = {{3, 3}, {300, 300}, {303, 300}, {999999, 300}};
    for (size_t i = 0; i < sizeof CASES / sizeof *CASES; i++) {
        ds_stored job;
        size_t len = 0;
        const ds_store_about about = {.title = {title, CASES[i].len}};
        assert_int_equal(ds_store_add(f->store, &job, DS_STR("x"), about), DS_STORE_OK);
        assert_int_equal(ds_store_versions(f->store, job.id, note_length, &len), DS_STORE_OK);
        assert_int_equal(len, CASES[i].kept);
    }
    title[0] = 'x'; /* and the letters are no longer in step with the cut */
    memmove(title + 1, title + 3, sizeof title - 3);
    ds_stored job;
    size_t len = 0;
    ds_store_add(f->store, &job, DS_STR("x"), (ds_store_about){.title = {title, 3001}});
    ds_store_versions(f->store, job.id, note_length, &len);
    assert_int_equal(len, 298);
}

/* --- on the disk -------------------------------------------------------------------------------------------------- */

/* In the place of the system's own, so that it is seen whether the database waits for the disk. */
static int waits;

__attribute__((visibility("default"))) int fdatasync(const int fd)
{
    waits++;
    return (int)syscall(SYS_fdatasync, fd);
}

__attribute__((visibility("default"))) int fsync(const int fd)
{
    waits++;
    return (int)syscall(SYS_fsync, fd);
}

static void nothing_is_kept_before_the_disk_has_it(void **const state)
{
    const fixture *const f = *state;
    ds_stored job;
    ds_stored next;
    waits = 0;
    assert_int_equal(ds_store_add(f->store, &job, DS_STR("one"), ABOUT), DS_STORE_OK);
    assert_int_not_equal(waits, 0);
    for (int i = 0; i < 20; i++) {
        char text[16];
        snprintf(text, sizeof text, "save %d", i);
        waits = 0;
        assert_int_equal(ds_store_save(f->store, &next, job.id, job.tag, ds_str_of(text), ABOUT),
                         DS_STORE_OK);
        assert_int_not_equal(waits, 0);
        job = next;
    }
    char log[100];
    snprintf(log, sizeof log, "%s-wal", f->place.file);
    assert_int_equal(access(log, F_OK), 0);
    waits = 0;
    assert_int_equal(ds_store_remove(f->store, &next, job.id, job.tag), DS_STORE_OK);
    assert_int_not_equal(waits, 0);
}

/* --- beside others ------------------------------------------------------------------------------------------------ */

static void another_one_that_writes_is_noticed(void **const state)
{
    const fixture *const f = *state;
    test_alloc a = test_alloc_make(0);
    ds_store *const other = store_open(&f->place, test_alloc_use(&a));
    ds_stored job;
    ds_stored next;
    const int64_t before = ds_store_epoch(f->store);
    assert_int_equal(ds_store_add(f->store, &job, DS_STR("one"), ABOUT), DS_STORE_OK);
    assert_int_equal(ds_store_epoch(f->store), before);
    assert_int_equal(ds_store_save(other, &next, job.id, job.tag, DS_STR("two"), ABOUT), DS_STORE_OK);
    assert_int_not_equal(ds_store_epoch(f->store), before);
    expect_text(f, job.id, DS_STORE_LATEST, DS_STR("two"));
    ds_store_close(other);
    assert_int_equal(a.blocks, 0);
}

static void a_held_file_is_busy_and_can_be_read(void **const state)
{
    const fixture *const f = *state;
    ds_stored job;
    ds_stored next;
    sqlite3 *holder = NULL;
    ds_store_add(f->store, &job, DS_STR("one"), ABOUT);
    assert_int_equal(sqlite3_open(f->place.file, &holder), SQLITE_OK);
    assert_int_equal(sqlite3_exec(holder, "BEGIN IMMEDIATE", NULL, NULL, NULL), SQLITE_OK);
    assert_int_equal(ds_store_save(f->store, &next, job.id, job.tag, DS_STR("two"), ABOUT), DS_STORE_BUSY);
    assert_int_not_equal(strlen(ds_store_why(f->store)), 0);
    expect_text(f, job.id, DS_STORE_LATEST, DS_STR("one"));
    sqlite3_close(holder);
    assert_int_equal(ds_store_save(f->store, &next, job.id, job.tag, DS_STR("two"), ABOUT), DS_STORE_OK);
}

static void it_is_there_after_it_was_closed(void **const state)
{
    fixture *const f = *state;
    ds_stored job;
    ds_store_add(f->store, &job, DS_STR("one"), ABOUT);
    ds_store_close(f->store);
    f->store = store_open(&f->place, &f->a.alloc);
    expect_text(f, job.id, DS_STORE_LATEST, DS_STR("one"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(texts_come_back_byte_for_byte, open_one, close_one),
        cmocka_unit_test_setup_teardown(versions_go_on_and_stay, open_one, close_one),
        cmocka_unit_test_setup_teardown(an_old_version_is_restored_by_saving_it, open_one, close_one),
        cmocka_unit_test_setup_teardown(no_save_hides_another, open_one, close_one),
        cmocka_unit_test_setup_teardown(a_save_sent_twice_is_one, open_one, close_one),
        cmocka_unit_test_setup_teardown(a_removed_job_can_be_had_back, open_one, close_one),
        cmocka_unit_test_setup_teardown(lists_tell_what_is_there, open_one, close_one),
        cmocka_unit_test_setup_teardown(a_long_title_is_cut_between_letters, open_one, close_one),
        cmocka_unit_test_setup_teardown(nothing_is_kept_before_the_disk_has_it, open_one, close_one),
        cmocka_unit_test_setup_teardown(another_one_that_writes_is_noticed, open_one, close_one),
        cmocka_unit_test_setup_teardown(a_held_file_is_busy_and_can_be_read, open_one, close_one),
        cmocka_unit_test_setup_teardown(it_is_there_after_it_was_closed, open_one, close_one),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
