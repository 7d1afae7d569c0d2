/* SPDX-License-Identifier: MIT */
/* The writer: layout, escapes, numbers; what it writes is read back as what was meant. */
#include "json_help.h"

#include <float.h>
#include <math.h>
#include <stdio.h>

static test_alloc memory;
static ds_text text;
static ds_json_writer w;

static int start(void **const state)
{
    (void)state;
    memory = test_alloc_make(0);
    ds_text_init(&text, test_alloc_use(&memory));
    w = ds_json_writer_on(&text);
    return 0;
}

static int finish(void **const state)
{
    (void)state;
    ds_text_free(&text);
    return memory.blocks != 0; /* 0 is success */
}

static void assert_written(const char *const expected)
{
    const ds_str found = ds_text_str(&text);
    if (!ds_str_is(found, expected)) {
        fail_msg("found:\n%.*s\nwanted:\n%s", (int)found.len, found.at, expected);
    }
}

static void every_kind_of_value(void **const state)
{
    (void)state;
    ds_json_begin_object(&w);
    ds_json_put_key(&w, "text");
    ds_json_put_text(&w, "a");
    ds_json_put_key(&w, "none");
    ds_json_put_text(&w, NULL);
    ds_json_put_key_str(&w, DS_STR("str"));
    ds_json_put_str(&w, (ds_str){0});
    ds_json_put_key(&w, "yes");
    ds_json_put_bool(&w, true);
    ds_json_put_key(&w, "list");
    ds_json_begin_array(&w);
    ds_json_put_bool(&w, false);
    ds_json_put_null(&w);
    ds_json_put_int(&w, -5);
    ds_json_put_number(&w, 2.5);
    ds_json_begin_object(&w);
    ds_json_end_object(&w);
    ds_json_begin_array(&w);
    ds_json_end_array(&w);
    ds_json_end_array(&w);
    ds_json_put_key(&w, "last");
    ds_json_begin_object(&w);
    ds_json_put_key(&w, "inner");
    ds_json_put_int(&w, 1);
    ds_json_end_object(&w);
    ds_json_end_object(&w);
    assert_written("{\n"
                   "  \"text\": \"a\",\n"
                   "  \"none\": null,\n"
                   "  \"str\": \"\",\n"
                   "  \"yes\": true,\n"
                   "  \"list\": [\n"
                   "    false,\n"
                   "    null,\n"
                   "    -5,\n"
                   "    2.5,\n"
                   "    {},\n"
                   "    []\n"
                   "  ],\n"
                   "  \"last\": {\n"
                   "    \"inner\": 1\n"
                   "  }\n"
                   "}");
}

static void escapes(void **const state)
{
    (void)state;
    ds_json_put_str(&w, DS_STR("\"\\/\b\f\n\r\t\x01\x0F\x10\x1F\x7F\0z\xC3\xA9</script>"));
    assert_written("\"\\\"\\\\/\\b\\f\\n\\r\\t\\u0001\\u000f\\u0010\\u001f\x7F\\u0000z\xC3\xA9</script>\"");
}

static void escapes_in_keys(void **const state)
{
    (void)state;
    ds_json_begin_object(&w);
    ds_json_put_key(&w, "a\"\n");
    ds_json_put_null(&w);
    ds_json_end_object(&w);
    assert_written("{\n  \"a\\\"\\n\": null\n}");
}

/* Every byte below 0x80 but zero, which no document may hold. */
static void every_character_comes_back(void **const state)
{
    (void)state;
    char all[127];
    for (size_t i = 0; i < sizeof all; i++) {
        all[i] = (char)(i + 1);
    }
    ds_json_put_str(&w, (ds_str){all, sizeof all});
    json_doc doc;
    json_doc_read(&doc, ds_text_str(&text), &DS_JSON_LIMITS);
    assert_int_equal(doc.status, DS_OK);
    assert_true(ds_str_eq(ds_json_text(doc.tree), (ds_str){all, sizeof all}));
    json_doc_free(&doc);
}

static void numbers(void **const state)
{
    (void)state;
    static const struct {
        double value;
        const char *written;
    } CASES[] = {
        {0, "0"},
        {-0.0, "0"},
        {0.1, "0.1"},
        {-2.125, "-2.125"},
        {1e-9, "0.000000001"},
        {1e-10, "0"},
        {999999999999999, "999999999999999"},
        {1e15, "1000000000000000"},
        {-1e15, "-1000000000000000"},
        {1000000000000000.125, "1000000000000000.125"},
        {2251799813685248.5, "2251799813685248.5"},
        {9007199254740993.0, "9007199254740992"},
        {1e21, "1000000000000000000000"},
        {0x1p80, "1208925819614629174706176"},
        {-1e23, "-99999999999999991611392"},
        {INFINITY, "null"},
        {-INFINITY, "null"},
        {NAN, "null"},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        text.len = 0;
        w = ds_json_writer_on(&text);
        ds_json_put_number(&w, CASES[i].value);
        assert_written(CASES[i].written);
    }
}

/* Of 1e15 and more no digit is lost; printf gives the same digits. */
static void large_numbers(void **const state)
{
    (void)state;
    double value = 1.234567890123e15;
    for (; value <= DBL_MAX / 3; value *= 2.7) {
        char expected[400];
        snprintf(expected, sizeof expected, "%.3f", value);
        size_t len = strlen(expected);
        while (expected[len - 1] == '0') {
            len--;
        }
        expected[expected[len - 1] == '.' ? len - 1 : len] = '\0';
        text.len = 0;
        w = ds_json_writer_on(&text);
        ds_json_put_number(&w, value);
        assert_written(expected);
        double back;
        assert_true(ds_number_read(ds_text_str(&text), &back));
        assert_true(back == value);
    }
    assert_true(value > 1e307);
}

static void whole_numbers(void **const state)
{
    (void)state;
    ds_json_begin_array(&w);
    ds_json_put_int(&w, INT64_MAX);
    ds_json_put_int(&w, INT64_MIN);
    ds_json_end_array(&w);
    assert_written("[\n  9223372036854775807,\n  -9223372036854775808\n]");
}

/* A part of one document, key and all, as a value in another. */
static void a_part_of_a_tree(void **const state)
{
    (void)state;
    json_doc doc;
    json_doc_read(&doc,
                  DS_STR("{\"x\": 1, \"points\": [{\"id\": \"P1\", \"at\": [1.50, 2e0]}, 7], \"y\": 2}"),
                  &DS_JSON_LIMITS);
    ds_json_begin_array(&w);
    ds_json_put_tree(&w, ds_json_get(doc.tree, DS_STR("points")));
    ds_json_put_tree(&w, ds_json_get(doc.tree, DS_STR("y")));
    ds_json_end_array(&w);
    assert_written("[\n"
                   "  [\n"
                   "    {\n"
                   "      \"id\": \"P1\",\n"
                   "      \"at\": [\n"
                   "        1.50,\n"
                   "        2e0\n"
                   "      ]\n"
                   "    },\n"
                   "    7\n"
                   "  ],\n"
                   "  2\n"
                   "]");
    json_doc_free(&doc);
}

static void want_of_memory_is_remembered(void **const state)
{
    (void)state;
    memory.fail_at = 2;
    ds_json_begin_array(&w);
    for (int i = 0; i < 1000; i++) {
        ds_json_put_int(&w, i);
    }
    ds_json_end_array(&w);
    assert_false(ds_text_ok(&text));
}

#define TEST(name) cmocka_unit_test_setup_teardown(name, start, finish)

int main(void)
{
    const struct CMUnitTest tests[] = {
        TEST(every_kind_of_value),
        TEST(escapes),
        TEST(escapes_in_keys),
        TEST(every_character_comes_back),
        TEST(numbers),
        TEST(large_numbers),
        TEST(whole_numbers),
        TEST(a_part_of_a_tree),
        TEST(want_of_memory_is_remembered),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
