/* SPDX-License-Identifier: MIT */
/*
 * Papers, labels, changes and books when memory runs out at the n-th request: each says so, gives back all that it took,
 * and never hands out half a file as a whole one. The module is loaded as the program loads it; what cairo, pango and the
 * spreadsheet's library ask for themselves is not counted: they end the process when they get none.
 */
#include "support.h"

#include "core/assess/differ.h"
#include "paper/module.h"

#include <dlfcn.h>
#include <math.h>
#include <unistd.h>

enum { RUNS_MOST = 60, PATH_ROOM = 4096 };

static const char JOB[] =
    "{\"dripstone\": 1, \"title\": \"Oom\", \"date\": \"2024-05-04\", \"rules\": [\"gb-2022\"], \"places\": ["
    "{\"id\": \"yard\", \"kind\": \"yard\", \"setting\": \"outdoors\", \"seen\": [\"none\", "
    "\"hosed-directly\"]},"
    "{\"id\": \"bath\", \"kind\": \"bath-room\", \"plan\": {\"outline_m\": [[0,0],[3,0],[3,2],[0,2]], "
    "\"height_m\": 2.4, \"features\": [{\"kind\": \"bath\", \"outline_m\": "
    "[[0,0],[1.7,0],[1.7,0.7],[0,0.7]]}]}}],"
    "\"points\": ["
    "{\"id\": \"1\", \"place\": \"yard\", \"kind\": \"socket-outlet\", \"marked\": [{\"ip\": \"IP66\"}], "
    "\"box\": {\"entries\": [{\"face\": \"bottom\", \"holds\": \"tape\", \"size\": \"M20\"}], \"size_mm\": "
    "[400, 600, 200], \"mounted\": \"wall\", \"surface\": \"painted-steel\", \"watts\": 60, \"air_c\": 35, "
    "\"limit_c\": 55}},"
    "{\"id\": \"2\", \"place\": \"bath\", \"kind\": \"luminaire\", \"at_m\": [1, 1, 2.3], \"marked\": "
    "[{\"ip\": \"IP44\"}]},"
    "{\"id\": \"3\", \"place\": \"nowhere\", \"kind\": \"luminaire\", \"count\": 2}]}";

/* All that is set, made once with memory enough. */
typedef struct desk {
    test_alloc memory;
    ds_arena arena;
    ds_rulebook book;
    ds_job jobs[2];
    ds_findings findings[2];
    ds_differ differ;
    const ds_paper_table *table;
} desk;

/* Beside the folder of this program. */
static const ds_paper_table *load_module(void)
{
    char path[PATH_ROOM];
    const ssize_t len = readlink("/proc/self/exe", path, sizeof path - 64);
    assert_true(len > 0);
    path[len] = '\0';
    for (int up = 0; up < 2; up++) {
        *strrchr(path, '/') = '\0';
    }
    strcat(path, "/" DS_PAPER_MODULE_FILE);
    void *const module = dlopen(path, RTLD_NOW | RTLD_LOCAL);
    if (!module) {
        fail_msg("%s", dlerror());
    }
    const ds_paper_table *const table = dlsym(module, DS_PAPER_MODULE_TABLE);
    assert_non_null(table);
    assert_string_equal(table->version, DS_PROGRAM_VERSION);
    return table;
}

static int open_desk(void **const state)
{
    static desk d;
    d = (desk){.memory = test_alloc_make(0)};
    ds_arena_init(&d.arena, test_alloc_use(&d.memory));
    assert_int_equal(support_rulebook(&d.book, &d.arena), DS_OK);
    for (int i = 0; i < 2; i++) {
        assert_int_equal(support_assess(&d.findings[i], &d.jobs[i], &d.book, &d.arena, DS_STR(JOB)), DS_OK);
    }
    const ds_verdict before = d.findings[1].points[0].verdict;
    d.findings[1].points[0].verdict =
        before == DS_SHORT ? DS_FITS : DS_SHORT; /* so that something has changed */
    assert_true(ds_differ_make(&d.differ, &d.findings[0], &d.findings[1], &d.arena));
    assert_true(d.differ.points_len > 0);
    d.table = load_module();
    *state = &d;
    return 0;
}

static int close_desk(void **const state)
{
    desk *const d = *state;
    ds_arena_free(&d->arena);
    assert_int_equal(d->memory.blocks, 0);
    return 0;
}

typedef enum made { MADE, NO_MEMORY } made;
typedef made maker(ds_text *out, const desk *d, int which);

static made of_status(const ds_status status)
{
    assert_true(status == DS_OK || status == DS_NO_MEMORY);
    return status == DS_OK ? MADE : NO_MEMORY;
}

static made make_paper(ds_text *const out, const desk *const d, const int which)
{
    const ds_paper paper = {.reader = (ds_reader_kind)which, .size = DS_PAPER_A4};
    return of_status(d->table->paper(out, &d->findings[0], &paper));
}

static made make_changes(ds_text *const out, const desk *const d, const int which)
{
    (void)which;
    return of_status(d->table->changes(out, &d->differ, DS_PAPER_A4));
}

static made make_labels(ds_text *const out, const desk *const d, const int which)
{
    (void)which;
    const ds_label_sheet sheet = {.columns = 3,
                                  .rows = 8,
                                  .width_mm = 70,
                                  .height_mm = 37,
                                  .left_mm = NAN,
                                  .top_mm = NAN,
                                  .gap_x_mm = NAN,
                                  .gap_y_mm = NAN};
    return of_status(d->table->labels(out, &d->findings[0], &sheet));
}

static made make_book(ds_text *const out, const desk *const d, const int which)
{
    const ds_xlsx_status status = d->table->xlsx(out, &d->findings[0], (ds_reader_kind)which);
    assert_true(status == DS_XLSX_DONE || status == DS_XLSX_NO_MEMORY);
    return status == DS_XLSX_DONE ? MADE : NO_MEMORY;
}

/* Once with all the memory in the world, then with less and less of it; returns how many requests the whole took. */
static size_t try_all(const desk *const d, maker *const make, const int which, const char *const begins)
{
    test_alloc whole = test_alloc_make(0);
    ds_text out;
    ds_text_init(&out, test_alloc_use(&whole));
    assert_int_equal(make(&out, d, which), MADE);
    assert_true(ds_text_ok(&out));
    assert_memory_equal(out.at, begins, strlen(begins));
    ds_text_free(&out);
    assert_int_equal(whole.blocks, 0);
    const size_t step = whole.requests / RUNS_MOST + 1;
    for (size_t n = 1; n <= whole.requests; n += n < 40 ? 1 : step) {
        test_alloc less = test_alloc_make(n);
        ds_text_init(&out, test_alloc_use(&less));
        const made end = make(&out, d, which);
        assert_true(end == NO_MEMORY || !ds_text_ok(&out));
        ds_text_free(&out);
        assert_int_equal(less.blocks, 0);
    }
    return whole.requests;
}

static void papers_for_every_reader(void **const state)
{
    for (int reader = 0; reader < DS_READERS_LEN; reader++) {
        assert_in_range(try_all(*state, make_paper, reader, "%PDF-"), 10, 1000000);
    }
}

static void changes(void **const state)
{
    assert_in_range(try_all(*state, make_changes, 0, "%PDF-"), 10, 1000000);
}

static void labels(void **const state)
{
    assert_in_range(try_all(*state, make_labels, 0, "%PDF-"), 5, 1000000);
}

static void books(void **const state)
{
    for (int reader = 0; reader < DS_READERS_LEN; reader++) {
        assert_in_range(try_all(*state, make_book, reader, "PK"), 2, 1000000);
    }
}

/* The font list is kept by its library until the process ends; nothing of ours lies in it. */
__attribute__((visibility("default"))) const char *__lsan_default_suppressions(void);

const char *__lsan_default_suppressions(void)
{
    return "leak:libfontconfig\n";
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(papers_for_every_reader), cmocka_unit_test(changes),
                                       cmocka_unit_test(labels), cmocka_unit_test(books)};
    return cmocka_run_group_tests_name("paper_oom", tests, open_desk, close_desk);
}
