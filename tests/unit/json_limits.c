/* SPDX-License-Identifier: MIT */
/* Depth, size and number of keys: the last that is allowed, the first that is not, and the names of the limits. */
#include "json_help.h"

#include <stdio.h>

/* A text that a test builds up. */
typedef struct built {
    char *at;
    size_t len;
    size_t room;
} built;

static void add(built *const b, const char *const piece)
{
    const size_t len = strlen(piece);
    if (b->len + len > b->room) {
        b->room = (b->len + len) * 2;
        b->at = realloc(b->at, b->room);
        assert_non_null(b->at);
    }
    memcpy(b->at + b->len, piece, len);
    b->len += len;
}

static built nested(const size_t depth, const char *const open, const char *const inside,
                    const char *const close)
{
    built b = {0};
    for (size_t i = 0; i < depth; i++) {
        add(&b, open);
    }
    add(&b, inside);
    for (size_t i = 0; i < depth; i++) {
        add(&b, close);
    }
    return b;
}

static void assert_refused(const built *const b, const ds_json_limits *const limits,
                           const ds_problem_code code, const char *const a, const uint32_t column,
                           const char *const pointer)
{
    json_doc doc;
    json_doc_read(&doc, (ds_str){b->at, b->len}, limits);
    assert_int_equal(doc.status, DS_BAD_INPUT);
    assert_int_equal(doc.problem.code, code);
    assert_true(ds_str_is(doc.problem.a, a));
    assert_int_equal(doc.problem.where.line, 1);
    assert_int_equal(doc.problem.where.column, column);
    assert_true(ds_str_is(doc.problem.where.pointer, pointer));
    json_doc_free(&doc);
}

static void assert_taken(const built *const b, const ds_json_limits *const limits)
{
    json_doc doc;
    json_doc_read(&doc, (ds_str){b->at, b->len}, limits);
    assert_int_equal(doc.status, DS_OK);
    json_doc_free(&doc);
}

static void depth_of_64(void **const state)
{
    (void)state;
    built good = nested(64, "[", "1", "]");
    assert_taken(&good, &DS_JSON_LIMITS);
    built bad = nested(65, "[", "1", "]");
    assert_refused(
        &bad, &DS_JSON_LIMITS, DS_P_JSON_TOO_DEEP, "64", 65,
        "/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0/0"
        "/0/0/0/0/0/0/0/0/0/0/0/0/0/0");
    free(good.at);
    free(bad.at);
}

static void depth_zero_allows_only_a_plain_value(void **const state)
{
    (void)state;
    const ds_json_limits limits = {.bytes = 100, .depth = 0, .keys = 10};
    built plain = nested(0, "", "1", "");
    assert_taken(&plain, &limits);
    built list = nested(1, "[", "", "]");
    assert_refused(&list, &limits, DS_P_JSON_TOO_DEEP, "0", 1, "");
    free(plain.at);
    free(list.at);
}

/* Far more levels than yajl's first stack of 128 and its steps of 128; also the tree must be walked without recursion. */
static void depth_of_very_many(void **const state)
{
    (void)state;
    static const size_t DEPTHS[] = {126, 127, 128, 129, 255, 256, 257, 5000, 200000};
    const ds_json_limits limits = {.bytes = 100000000, .depth = 200000, .keys = 10};
    for (size_t i = 0; i < sizeof DEPTHS / sizeof DEPTHS[0]; i++) {
        built lists = nested(DEPTHS[i], "[", "", "]");
        assert_taken(&lists, &limits);
        built objects = nested(DEPTHS[i], "{\"a\\n\":", "1", "}");
        assert_taken(&objects, &limits);
        const ds_json_limits exact = {.bytes = limits.bytes, .depth = (unsigned)DEPTHS[i], .keys = 10};
        assert_taken(&objects, &exact);
        free(lists.at);
        free(objects.at);
    }
    built deep = nested(200000, "[", "", "]");
    json_doc doc;
    json_doc_read(&doc, (ds_str){deep.at, deep.len}, &limits);
    test_alloc memory = test_alloc_make(0);
    ds_text text;
    ds_text_init(&text, test_alloc_use(&memory));
    ds_json_writer w = ds_json_writer_on(&text);
    const ds_json *from = doc.tree;
    for (size_t i = 0; i + 3000 < 200000; i++) { /* indentation makes all of it too long to write */
        from = from->first;
    }
    ds_json_put_tree(&w, from);
    assert_true(ds_text_ok(&text));
    ds_text_free(&text);
    json_doc_free(&doc);
    free(deep.at);
}

static void a_limit_past_all_documents_costs_nothing(void **const state)
{
    (void)state;
    const ds_json_limits limits = {.bytes = SIZE_MAX, .depth = UINT32_MAX, .keys = UINT32_MAX};
    built b = nested(10, "[", "1", "]");
    json_doc doc;
    json_doc_read(&doc, (ds_str){b.at, b.len}, &limits);
    assert_int_equal(doc.status, DS_OK);
    assert_in_range(doc.memory.peak, 1, 20000);
    json_doc_free(&doc);
    free(b.at);
}

static void size(void **const state)
{
    (void)state;
    const ds_json_limits limits = {.bytes = 10, .depth = 10, .keys = 10};
    built good = nested(1, "[", "12345678", "]");
    built bad = nested(1, "[", "123456789", "]");
    assert_taken(&good, &limits);
    assert_refused(&bad, &limits, DS_P_JSON_TOO_LARGE, "10", 1, "");
    free(good.at);
    free(bad.at);
}

/* {"k0": 0, "k1": 0, …} */
static built many_keys(const unsigned count)
{
    built b = {0};
    add(&b, "{");
    for (unsigned i = 0; i < count; i++) {
        char member[40];
        snprintf(member, sizeof member, "%s\"k%u\":0", i ? "," : "", i);
        add(&b, member);
    }
    return b;
}

static void keys(void **const state)
{
    (void)state;
    built good = many_keys(1000);
    add(&good, "}");
    assert_taken(&good, &DS_JSON_LIMITS);
    built bad = many_keys(1001);
    add(&bad, "}");
    assert_refused(&bad, &DS_JSON_LIMITS, DS_P_JSON_TOO_MANY_KEYS, "1000", (uint32_t)good.len + 1, "/k1000");
    free(good.at);
    free(bad.at);
}

/* Every key of every size of object is found again when it comes twice, and none is found that did not come. */
static void a_key_twice_is_found_in_objects_of_any_size(void **const state)
{
    (void)state;
    static const unsigned SIZES[] = {1, 2, 15, 16, 17, 31, 32, 33, 64, 65, 500, 999};
    for (size_t i = 0; i < sizeof SIZES / sizeof SIZES[0]; i++) {
        for (unsigned twice = 0; twice<SIZES[i]; twice += SIZES[i]> 100 ? 37 : 1) {
            built b = many_keys(SIZES[i]);
            const uint32_t column = (uint32_t)b.len + 2;
            char member[40], key[20], pointer[24];
            snprintf(key, sizeof key, "k%u", twice);
            snprintf(member, sizeof member, ",\"%s\":1}", key);
            snprintf(pointer, sizeof pointer, "/%s", key);
            add(&b, member);
            assert_refused(&b, &DS_JSON_LIMITS, DS_P_JSON_DUPLICATE_KEY, key, column, pointer);
            free(b.at);
        }
    }
}

/* Objects of many sizes inside and behind each other: what one of them held must not be taken for the next one's. */
static void objects_do_not_share_keys(void **const state)
{
    (void)state;
    static const unsigned SIZES[] = {40, 3, 700, 17, 1, 300, 16, 40};
    built b = {0};
    add(&b, "[");
    for (size_t i = 0; i < sizeof SIZES / sizeof SIZES[0]; i++) {
        built inner = many_keys(SIZES[i]);
        add(&inner, "}");
        add(&inner, "");
        inner.at = realloc(inner.at, inner.len + 1);
        inner.at[inner.len] = '\0';
        add(&b, i ? ",{\"x\":" : "{\"x\":");
        add(&b, inner.at);
        add(&b, ",\"y\":");
        add(&b, inner.at);
        add(&b, "}");
        free(inner.at);
    }
    add(&b, "]");
    assert_taken(&b, &DS_JSON_LIMITS);
    free(b.at);
}

/* yajl's buffers double while a string or a last number grows: around each doubling nothing may be short. */
static void buffers_of_any_length(void **const state)
{
    (void)state;
    for (size_t len = 2000; len<70000; len += len % 2048> 2040 || len % 2048 < 8 ? 1 : 61) {
        built text = {0};
        add(&text, "\"\\n");
        char *const fill = malloc(len + 1);
        memset(fill, '7', len);
        fill[len] = '\0';
        add(&text, fill);
        add(&text, "\\u00e9\"");
        assert_taken(&text, &DS_JSON_LIMITS);
        built number = {0};
        add(&number, "0.");
        add(&number, fill);
        assert_taken(&number, &DS_JSON_LIMITS);
        built half = {0};
        add(&half, "[\"\\n\",");
        add(&half, fill);
        json_doc doc;
        const ds_json_limits limits = DS_JSON_LIMITS;
        json_doc_read(&doc, (ds_str){half.at, half.len}, &limits);
        assert_int_equal(doc.status, DS_BAD_INPUT);
        json_doc_free(&doc);
        free(text.at);
        free(number.at);
        free(half.at);
        free(fill);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(depth_of_64),
        cmocka_unit_test(depth_zero_allows_only_a_plain_value),
        cmocka_unit_test(depth_of_very_many),
        cmocka_unit_test(a_limit_past_all_documents_costs_nothing),
        cmocka_unit_test(size),
        cmocka_unit_test(keys),
        cmocka_unit_test(a_key_twice_is_found_in_objects_of_any_size),
        cmocka_unit_test(objects_do_not_share_keys),
        cmocka_unit_test(buffers_of_any_length),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
