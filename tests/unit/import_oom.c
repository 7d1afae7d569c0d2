/* SPDX-License-Identifier: MIT */
/*
 * Memory that runs out at the n-th request of an import, n = 1, 2, … until all goes well: nothing may leak, and no
 * document may come of it that is not the whole one.
 */
#include "support.h"

#include "core/job/import.h"

static const char JOB[] =
    "{\"dripstone\": 1, \"places\": [{\"id\": \"a\", \"name\": \"Yard\", \"kind\": \"yard\", \"setting\": "
    "\"outdoors\"}], \"points\": [{\"id\": \"P\", \"place\": \"a\", \"kind\": \"fan\", \"marked\": [{\"ip\": "
    "\"IP2X\"}], "
    "\"at_m\": [1, 2, 3]}]}";

static const char TABLE[] = "id,place,Description,IP rating,volts,x m,seen,place.setting,count,odd,kind\n"
                            "P,Yard,\"a \"\"fan\"\"\",IP44,+230,1.5,rain;dust,outdoors,2,x,\n"
                            "N,New place,,IP65,12.5,,none,indoors,,,fan\n"
                            "M,New place,,,,,,,3,,lamp\n";

static const char FAULTY[] = "id,place,count,x m\nP,yrd,1e9,\nN,nowhere at all,x,2\nN,a\n";

static const char MAP[] = "{\"dripstone_map\": 1, \"columns\": {\"volts\": \"supply.volts\", \"odd\": null}}";

/* The whole way once; false when memory ran out somewhere. */
static bool whole_way(test_alloc *const a, const char *const table, const bool faulty)
{
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(a));
    ds_text out;
    ds_text json;
    ds_text_init(&out, &a->alloc);
    ds_text_init(&json, &a->alloc);
    ds_job job;
    ds_import_map map;
    ds_import import = {0};
    ds_problem problem = {0};
    ds_status status = ds_job_read(&job, DS_STR(JOB), &arena, &problem);
    if (status == DS_OK) {
        status = ds_import_map_read(&map, DS_STR(MAP), &arena, &problem);
    }
    if (status == DS_OK) {
        const ds_import_how how = {.map = faulty ? NULL : &map, .add_places = !faulty};
        status = ds_import_read(&import, &job, ds_str_of(table), how, &arena, &problem);
    }
    assert_int_not_equal(status, DS_BAD_INPUT);
    if (status == DS_OK) {
        assert_int_equal(import.faults_len, faulty ? 7 : 0);
        ds_import_json(&json, &import);
        ds_import_map_json(&json, &import);
    }
    if (status == DS_OK && !faulty) {
        assert_int_equal(import.points_added, 2);
        assert_int_equal(import.places_added, 1);
        ds_import_document(&out, &import);
    }
    const bool whole = status == DS_OK && ds_text_ok(&out) && ds_text_ok(&json);
    ds_text_free(&out);
    ds_text_free(&json);
    ds_arena_free(&arena);
    assert_int_equal(a->blocks, 0);
    return whole;
}

static void try_all(const char *const table, const bool faulty)
{
    size_t n = 1;
    for (; n < 10000; n++) {
        test_alloc a = test_alloc_make(n);
        if (whole_way(&a, table, faulty)) {
            assert_true(a.requests < n);
            break;
        }
    }
    assert_in_range(n, 10, 9999);
}

static void test_every_allocation_may_fail(void **const state)
{
    (void)state;
    try_all(TABLE, false);
}

static void test_also_with_faults(void **const state)
{
    (void)state;
    try_all(FAULTY, true);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(test_every_allocation_may_fail),
                                       cmocka_unit_test(test_also_with_faults)};
    return cmocka_run_group_tests_name("import_oom", tests, NULL, NULL);
}
