/* SPDX-License-Identifier: MIT */
/*
 * The store when memory runs out at the n-th request, ours or the database's, n = 1, 2, … until all goes well: nothing is
 * left behind, what is told as kept is kept, and no half document is taken for a whole one.
 */
#include "store_help.h"

static const ds_store_about ABOUT = {.title = {"Mill", 4}, .points = 3};

/* What the database asks for, in front of its own allocator. */
static sqlite3_mem_methods own;
static size_t requests, fail_at;

static bool may_have(void)
{
    requests++;
    return !fail_at || requests < fail_at;
}

static void *take(const int size)
{
    return may_have() ? own.xMalloc(size) : NULL;
}

static void *resize(void *const old, const int size)
{
    return may_have() ? own.xRealloc(old, size) : NULL;
}

static void fail_from(const size_t n)
{
    requests = 0;
    fail_at = n;
}

/* A document that takes many pages, so that its reading and writing ask for memory. */
static ds_str long_text(const char letter)
{
    static char text[300000];
    memset(text, letter, sizeof text);
    return (ds_str){text, sizeof text};
}

static bool is_whole(const ds_text *const text, const char letter)
{
    const ds_str expected = long_text(letter);
    return text->len == expected.len && memcmp(text->at, expected.at, expected.len) == 0;
}

static void expect_latest(ds_store *const store, const ds_alloc *const alloc, const ds_stored *const job,
                          const char letter)
{
    ds_text text;
    ds_stored stored;
    ds_text_init(&text, alloc);
    assert_int_equal(ds_store_get(store, &text, &stored, job->id, DS_STORE_LATEST), DS_STORE_OK);
    assert_string_equal(stored.tag, job->tag);
    assert_true(is_whole(&text, letter));
    ds_text_free(&text);
}

/* --- opening ------------------------------------------------------------------------------------------------------ */

static bool open_with(const store_place *const place, test_alloc *const a)
{
    ds_store *store = NULL;
    char why[200] = "";
    const ds_store_status status = ds_store_open(&store, place->folder, test_alloc_use(a), why);
    assert_int_equal(store != NULL, status == DS_STORE_OK);
    if (store) {
        ds_store_close(store);
    } else {
        assert_int_not_equal(strlen(why), 0);
    }
    assert_int_equal(a->blocks, 0);
    return status == DS_STORE_OK;
}

static void opening_asks_or_fails(void **const state)
{
    (void)state;
    store_place place;
    store_place_make(&place);
    test_alloc none = test_alloc_make(1);
    assert_false(open_with(&place, &none));
    bool opened = false;
    size_t n = 1;
    for (; !opened; n++) {
        test_alloc a = test_alloc_make(0);
        fail_from(n);
        opened = open_with(&place, &a);
    }
    fail_from(0);
    assert_in_range(n, 20, 5000);
    store_place_remove(&place);
}

/* --- reading and writing ------------------------------------------------------------------------------------------ */

/* One of the calls below, with memory that ends; true when it went well. */
typedef bool attempt(ds_store *store, const ds_alloc *alloc, ds_stored *job);

static bool read_it(ds_store *const store, const ds_alloc *const alloc, ds_stored *const job)
{
    ds_text text;
    ds_stored stored;
    ds_text_init(&text, alloc);
    const ds_store_status status = ds_store_get(store, &text, &stored, job->id, DS_STORE_LATEST);
    assert_true(status == DS_STORE_OK || status == DS_STORE_NO_MEMORY);
    assert_true(status != DS_STORE_OK || (is_whole(&text, 'a') && strcmp(stored.tag, job->tag) == 0));
    ds_text_free(&text);
    return status == DS_STORE_OK;
}

static void note(void *const ctx, const ds_stored *const stored)
{
    assert_true(ds_str_is(stored->title, "Mill"));
    *(int *)ctx += 1;
}

static bool list_it(ds_store *const store, const ds_alloc *const alloc, ds_stored *const job)
{
    (void)alloc;
    int count = 0;
    const ds_store_status status = ds_store_versions(store, job->id, note, &count);
    assert_true(status == DS_STORE_OK || status == DS_STORE_NO_MEMORY);
    assert_true(status != DS_STORE_OK || count == 1);
    return status == DS_STORE_OK;
}

static bool save_it(ds_store *const store, const ds_alloc *const alloc, ds_stored *const job)
{
    (void)alloc;
    ds_stored stored;
    const ds_store_status status = ds_store_save(store, &stored, job->id, job->tag, long_text('b'), ABOUT);
    assert_true(status == DS_STORE_OK || status == DS_STORE_NO_MEMORY);
    fail_from(0);
    if (status == DS_STORE_OK) {
        *job = stored;
    }
    expect_latest(store, alloc, job, status == DS_STORE_OK ? 'b' : 'a');
    return status == DS_STORE_OK;
}

static bool remove_it(ds_store *const store, const ds_alloc *const alloc, ds_stored *const job)
{
    ds_stored stored;
    const ds_store_status status = ds_store_remove(store, &stored, job->id, job->tag);
    assert_true(status == DS_STORE_OK || status == DS_STORE_NO_MEMORY);
    fail_from(0);
    if (status != DS_STORE_OK) {
        expect_latest(store, alloc, job, 'a');
    }
    return status == DS_STORE_OK;
}

/* A store for each n, opened anew so that nothing it needs is in memory already. */
static size_t runs_until_it_works(attempt *const call)
{
    store_place place;
    ds_stored job;
    test_alloc a = test_alloc_make(0);
    store_place_make(&place);
    ds_store *store = store_open(&place, test_alloc_use(&a));
    assert_int_equal(ds_store_add(store, &job, long_text('a'), ABOUT), DS_STORE_OK);
    bool good = false;
    size_t n = 1;
    for (; !good; n++) {
        ds_store_close(store);
        store = store_open(&place, &a.alloc);
        fail_from(n);
        good = call(store, &a.alloc, &job);
        fail_from(0);
    }
    ds_store_close(store);
    assert_int_equal(a.blocks, 0);
    store_place_remove(&place);
    return n;
}

static void no_half_document_is_read(void **const state)
{
    (void)state;
    assert_in_range(runs_until_it_works(read_it), 3, 1000);
    assert_in_range(runs_until_it_works(list_it), 3, 1000);
}

static void what_is_told_as_kept_is_kept(void **const state)
{
    (void)state;
    assert_in_range(runs_until_it_works(save_it), 3, 1000);
    assert_in_range(runs_until_it_works(remove_it), 3, 1000);
}

static void the_text_may_not_grow(void **const state)
{
    (void)state;
    store_place place;
    ds_stored job;
    test_alloc a = test_alloc_make(0);
    store_place_make(&place);
    ds_store *const store = store_open(&place, test_alloc_use(&a));
    assert_int_equal(ds_store_add(store, &job, long_text('a'), ABOUT), DS_STORE_OK);
    test_alloc none = test_alloc_make(1);
    assert_false(read_it(store, test_alloc_use(&none), &job));
    assert_true(read_it(store, &a.alloc, &job));
    ds_store_close(store);
    store_place_remove(&place);
}

int main(void)
{
    sqlite3_config(SQLITE_CONFIG_GETMALLOC, &own);
    sqlite3_mem_methods failing = own;
    failing.xMalloc = take;
    failing.xRealloc = resize;
    sqlite3_config(SQLITE_CONFIG_MALLOC, &failing);
    sqlite3_config(SQLITE_CONFIG_LOOKASIDE, 0, 0); /* so that each request is seen */
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(opening_asks_or_fails),
        cmocka_unit_test(no_half_document_is_read),
        cmocka_unit_test(what_is_told_as_kept_is_kept),
        cmocka_unit_test(the_text_may_not_grow),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
