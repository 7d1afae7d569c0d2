/* SPDX-License-Identifier: MIT */
/* What holds for every document: written and read again it is the same; damaged, a problem says where. */
#include "json_help.h"
#include "json_random.h"

static json_random r;

static void the_tree_comes_back(void **const state)
{
    (void)state;
    r.seed = 0x9E3779B97F4A7C15U;
    for (int i = 0; i < 4000; i++) {
        json_random_document(&r);
        json_doc first, second;
        json_doc_read(&first, (ds_str){r.text, r.len}, &DS_JSON_LIMITS);
        if (first.status != DS_OK) {
            assert_int_equal(first.problem.code, DS_P_JSON_NUMBER); /* only an exponent may be too large */
            json_doc_free(&first);
            continue;
        }
        char *const written = json_written(first.tree);
        json_doc_read(&second, ds_str_of(written), &DS_JSON_LIMITS);
        assert_int_equal(second.status, DS_OK);
        assert_true(json_same(first.tree, second.tree));
        char *const again = json_written(second.tree);
        assert_string_equal(again, written);
        free(again);
        free(written);
        json_doc_free(&second);
        json_doc_free(&first);
    }
}

/* Parents, counts and offsets agree with what stands in the source. */
static void assert_sound(const ds_json *const value, const char *const source)
{
    static const char FIRST[][12] = {"n", "f", "t", "-0123456789", "\"", "[", "{"};
    assert_non_null(memchr(FIRST[value->kind], source[value->offset], strlen(FIRST[value->kind])));
    if (value->kind == DS_JSON_NUMBER) {
        assert_ptr_equal(value->text, source + value->offset);
    }
    if (value->kind < DS_JSON_ARRAY) {
        assert_int_equal(value->count, 0);
        return;
    }
    uint32_t count = 0;
    for (const ds_json *at = value->first; at; at = at->next, count++) {
        assert_ptr_equal(at->parent, value);
        assert_true(at->offset > value->offset);
        assert_int_equal(at->key != NULL, value->kind == DS_JSON_OBJECT);
        assert_sound(at, source);
    }
    assert_int_equal(count, value->count);
}

static void trees_are_sound(void **const state)
{
    (void)state;
    r.seed = 0xD1B54A32D192ED03U;
    for (int i = 0; i < 2000; i++) {
        json_random_document(&r);
        json_doc doc;
        json_doc_read(&doc, (ds_str){r.text, r.len}, &DS_JSON_LIMITS);
        if (doc.status == DS_OK) {
            assert_null(doc.tree->parent);
            assert_null(doc.tree->next);
            assert_sound(doc.tree, doc.source);
        }
        json_doc_free(&doc);
    }
}

/* The place of a problem is one of the text, and what is named is short and can be printed. */
static void problems_have_a_place_and_a_short_name(void **const state)
{
    (void)state;
    r.seed = 0x2545F4914F6CDD1DU;
    unsigned refused = 0;
    for (int i = 0; i < 20000; i++) {
        json_random_document(&r);
        json_random_damage(&r);
        json_doc doc;
        json_doc_read(&doc, (ds_str){r.text, r.len}, &DS_JSON_LIMITS);
        if (doc.status == DS_BAD_INPUT) {
            uint32_t line, column;
            ds_json_line_column(json_doc_source(&doc, (ds_str){r.text, r.len}), (uint32_t)r.len, &line,
                                &column);
            const ds_problem *const p = &doc.problem;
            assert_in_range(p->where.line, 1, line);
            assert_true(p->where.column >= 1 && (p->where.line < line || p->where.column <= column));
            assert_true(ds_str_is_utf8(p->a) && ds_str_is_utf8(p->where.pointer));
            assert_in_range(p->a.len, 0, 80);
            refused++;
        }
        json_doc_free(&doc);
    }
    assert_in_range(refused, 10000, 20000);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_tree_comes_back),
        cmocka_unit_test(trees_are_sound),
        cmocka_unit_test(problems_have_a_place_and_a_short_name),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
