/* SPDX-License-Identifier: MIT */
/* Where values stand: pointer (RFC 6901), line and column; and the pointers of problems. */
#include "json_help.h"

static const char DOCUMENT[] = "\xEF\xBB\xBF{ \"title\": \"x\",\r\n"
                               "  \"a/b~c\": [1,\n"
                               "     \"\xC3\xA9\", {\"\": \"\\n\", \"k\" : -0.5e1 }],\n"
                               "\t\"\\u00e9\":[ [ ] ,[true]\r, null ]\n"
                               "}";

static const struct {
    const char *pointer;
    uint32_t line;
    uint32_t column;
    ds_json_kind kind;
} PLACES[] = {
    {"", 1, 1, DS_JSON_OBJECT},
    {"/title", 1, 12, DS_JSON_STRING},
    {"/a~1b~0c", 2, 12, DS_JSON_ARRAY},
    {"/a~1b~0c/0", 2, 13, DS_JSON_NUMBER},
    {"/a~1b~0c/1", 3, 6, DS_JSON_STRING},
    {"/a~1b~0c/2", 3, 11, DS_JSON_OBJECT},
    {"/a~1b~0c/2/", 3, 16, DS_JSON_STRING},
    {"/a~1b~0c/2/k", 3, 28, DS_JSON_NUMBER},
    {"/\xC3\xA9", 4, 11, DS_JSON_ARRAY},
    {"/\xC3\xA9/0", 4, 13, DS_JSON_ARRAY},
    {"/\xC3\xA9/1", 4, 18, DS_JSON_ARRAY},
    {"/\xC3\xA9/1/0", 4, 19, DS_JSON_TRUE},
    {"/\xC3\xA9/2", 5, 3, DS_JSON_NULL},
};

/* Values in the order of the text. */
static const ds_json *following(const ds_json *at)
{
    if (at->kind >= DS_JSON_ARRAY && at->first) {
        return at->first;
    }
    while (at && !at->next) {
        at = at->parent;
    }
    return at ? at->next : NULL;
}

static void every_value_knows_its_place(void **const state)
{
    (void)state;
    json_doc doc;
    const ds_str text = DS_STR(DOCUMENT);
    json_doc_read(&doc, text, &DS_JSON_LIMITS);
    assert_int_equal(doc.status, DS_OK);
    const ds_json *at = doc.tree;
    for (size_t i = 0; i < sizeof PLACES / sizeof PLACES[0]; i++, at = following(at)) {
        assert_non_null(at);
        const ds_where where = ds_json_where(at, json_doc_source(&doc, text), &doc.arena);
        assert_true(ds_str_is(where.pointer, PLACES[i].pointer));
        assert_int_equal(where.line, PLACES[i].line);
        assert_int_equal(where.column, PLACES[i].column);
        assert_int_equal(at->kind, PLACES[i].kind);
    }
    assert_null(at);
    json_doc_free(&doc);
}

static void values_are_found_by_key(void **const state)
{
    (void)state;
    json_doc doc;
    json_doc_read(&doc, DS_STR(DOCUMENT), &DS_JSON_LIMITS);
    const ds_json *const list = ds_json_get(doc.tree, DS_STR("a/b~c"));
    assert_non_null(list);
    assert_int_equal(list->count, 3);
    assert_true(list->parent == doc.tree);
    assert_null(ds_json_get(doc.tree, DS_STR("a/b")));
    assert_null(ds_json_get(doc.tree, DS_STR("")));
    assert_null(ds_json_get(list, DS_STR("0")));
    assert_null(ds_json_get(NULL, DS_STR("a")));
    const ds_json *const inner = list->first->next->next;
    assert_true(ds_str_is(ds_json_text(ds_json_get(inner, DS_STR(""))), "\n"));
    double value;
    assert_true(ds_json_number(ds_json_get(inner, DS_STR("k")), &value));
    assert_true(value == -5);
    assert_false(ds_json_number(list, &value));
    assert_false(ds_json_number(NULL, &value));
    json_doc_free(&doc);
}

static void a_pointer_without_memory_is_null(void **const state)
{
    (void)state;
    json_doc doc;
    const ds_str text = DS_STR("[[1]]");
    json_doc_read(&doc, text, &DS_JSON_LIMITS);
    test_alloc none = test_alloc_make(1);
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(&none));
    const ds_where where = ds_json_where(doc.tree->first->first, json_doc_source(&doc, text), &arena);
    assert_null(where.pointer.at);
    assert_int_equal(where.pointer.len, 0);
    assert_int_equal(where.column, 3);
    json_doc_free(&doc);
}

static void problems_point_into_the_tree(void **const state)
{
    (void)state;
    static const struct {
        const char *text;
        const char *pointer;
    } CASES[] = {
        {"x", ""},
        {"[x]", ""},
        {"{\"a\": x}", "/a"},
        {"{\"a\": [1, x]}", "/a"},
        {"{\"a\": [1, {\"b\": 1e999}]}", "/a/1/b"},
        {"{\"a/b\": {\"c\": 1, \"c\": 2}}", "/a~1b/c"},
        {"{\"a\": 1, \"b\" 2}", "/b"},
        {"{\"a\": {\"b\": \"\\q\"}}", "/a/b"},
        {"{\"a\": {}} x", ""},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        json_doc doc;
        json_doc_read(&doc, ds_str_of(CASES[i].text), &DS_JSON_LIMITS);
        assert_int_equal(doc.status, DS_BAD_INPUT);
        assert_true(ds_str_is(doc.problem.where.pointer, CASES[i].pointer));
        json_doc_free(&doc);
    }
}

static void lines_and_columns_of_any_offset(void **const state)
{
    (void)state;
    static const struct {
        const char *text;
        uint32_t offset, line, column;
    } CASES[] = {
        {"", 0, 1, 1},
        {"", 5, 1, 1},
        {"ab", 1, 1, 2},
        {"ab", 99, 1, 3},
        {"a\nb", 1, 1, 2}, /* the end of a line stands in its line */
        {"a\nb", 2, 2, 1},
        {"a\r\nb", 2, 1, 3},
        {"a\r\nb", 3, 2, 1},
        {"a\rb", 2, 2, 1},
        {"\n\r\n\n", 4, 4, 1},
        {"\xC3\xA9x", 2, 1, 2},
        {"\xF0\x9F\x94\x8Cx", 4, 1, 2},
        {"\xEF\xBB\xBFx", 0, 1, 1},
        {"\xEF\xBB\xBFx", 3, 1, 1},
        {"\xEF\xBB\xBFx", 4, 1, 2},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        uint32_t line, column;
        ds_json_line_column(ds_str_of(CASES[i].text), CASES[i].offset, &line, &column);
        assert_int_equal(line, CASES[i].line);
        assert_int_equal(column, CASES[i].column);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_value_knows_its_place),      cmocka_unit_test(values_are_found_by_key),
        cmocka_unit_test(a_pointer_without_memory_is_null), cmocka_unit_test(problems_point_into_the_tree),
        cmocka_unit_test(lines_and_columns_of_any_offset),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
