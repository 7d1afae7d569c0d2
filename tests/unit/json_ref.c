/* SPDX-License-Identifier: MIT */
/* Documents and what the reader must say about them: the tables are the specification. */
#include "json_help.h"

#include <stdio.h>

#define TEXT(literal)                                                                                        \
    {                                                                                                        \
        literal, sizeof(literal) - 1                                                                         \
    }

typedef struct bad_document {
    ds_str text;
    ds_problem_code code;
    uint32_t line;
    uint32_t column;
    const char *a;
} bad_document;

#define NO_VALUE "a value is missing here"
#define NO_KEY "a key in double quotes is missing here"
#define NO_COMMA "a comma or a closing bracket is missing here"
#define NO_COLON "a colon is missing after the key"
#define LAST_COMMA "nothing follows this comma"
#define NO_DIGIT "a digit is missing in this number"
#define NUMBER_START "a number must start with a digit or a minus"
#define ZERO "a number may not start with a needless zero"
#define BARE "only true, false and null may stand without quotes"
#define QUOTES "text must stand in double quotes"
#define STRAIGHT "text must stand in straight double quotes"
#define COMMENT "comments are not allowed"
#define OPEN_LINE "the quotes are not closed on this line"
#define CONTROL_IN "a tab or control character stands inside quotes"
#define CONTROL_OUT "a control character stands here"
#define CLOSE_LIST "a square bracket must close this list"
#define CLOSE_OBJECT "a curly bracket must close this object"

static const bad_document BAD[] = {
    /* nothing there */
    {TEXT(""), DS_P_EMPTY, 1, 1, ""},
    {TEXT(" \r\n\t \n"), DS_P_EMPTY, 1, 1, ""},
    {TEXT("\xEF\xBB\xBF"), DS_P_EMPTY, 1, 1, ""},
    {TEXT("\xEF\xBB\xBF \n"), DS_P_EMPTY, 1, 1, ""},

    /* half a file: the place is its end */
    {TEXT("["), DS_P_JSON_HALF, 1, 2, ""},
    {TEXT("[1,\n2,\n"), DS_P_JSON_HALF, 3, 1, ""},
    {TEXT("{\"a\""), DS_P_JSON_HALF, 1, 5, ""},
    {TEXT("{\"a\":"), DS_P_JSON_HALF, 1, 6, ""},
    {TEXT("{\"a\": tru"), DS_P_JSON_HALF, 1, 10, ""},
    {TEXT("n"), DS_P_JSON_HALF, 1, 2, ""},
    {TEXT("-"), DS_P_JSON_HALF, 1, 2, ""},
    {TEXT("1."), DS_P_JSON_HALF, 1, 3, ""},
    {TEXT("[1e+"), DS_P_JSON_HALF, 1, 5, ""},
    {TEXT("\"\xC3\xA9t\xC3"), DS_P_JSON_HALF, 1, 5,
     ""}, /* inside a character: what there is of it counts as one */
    {TEXT("[\"a"), DS_P_JSON_HALF, 1, 4, ""},
    {TEXT("[\"a\\"), DS_P_JSON_HALF, 1, 5, ""},
    {TEXT("[\"a\\u0"), DS_P_JSON_HALF, 1, 7, ""},
    {TEXT("[\"\\ud83d"), DS_P_JSON_HALF, 1, 9, ""},
    {TEXT("[\"\\ud83d\\ud"), DS_P_JSON_HALF, 1, 12, ""},
    {TEXT("\xEF\xBB"), DS_P_JSON_HALF, 1, 2, ""},

    /* behind the end */
    {TEXT("[1] x"), DS_P_JSON_AFTER_END, 1, 5, ""},
    {TEXT("{}\n\n{}"), DS_P_JSON_AFTER_END, 3, 1, ""},
    {TEXT("[1]]"), DS_P_JSON_AFTER_END, 1, 4, ""},
    {TEXT("1,2"), DS_P_JSON_AFTER_END, 1, 2, ""},
    {TEXT("12 \"a"), DS_P_JSON_AFTER_END, 1, 4, ""},
    {TEXT("12\""), DS_P_JSON_AFTER_END, 1, 3, ""},
    {TEXT("null nul"), DS_P_JSON_AFTER_END, 1, 6, ""},
    {TEXT("[] // done"), DS_P_JSON_AFTER_END, 1, 4, ""},
    {TEXT("[]\0"), DS_P_JSON_AFTER_END, 1, 3, ""},
    {TEXT("[]\xFF"), DS_P_JSON_AFTER_END, 1, 3, ""},
    {TEXT("\"a\"\v"), DS_P_JSON_AFTER_END, 1, 4, ""},
    {TEXT("\xEF\xBB\xBF[]\xEF\xBB\xBF"), DS_P_JSON_AFTER_END, 1, 3, ""},

    /* not UTF-8 */
    {TEXT("[\"ab\xFF\"]"), DS_P_JSON_NOT_UTF8, 1, 5, ""},
    {TEXT("[\"\xC3\xA9\xE2\x82\"]"), DS_P_JSON_NOT_UTF8, 1, 4, ""},
    {TEXT("[\"\xC0\x80\"]"), DS_P_JSON_NOT_UTF8, 1, 3, ""},         /* overlong */
    {TEXT("[\n\"\xED\xA0\x80\"]"), DS_P_JSON_NOT_UTF8, 2, 2, ""},   /* surrogate */
    {TEXT("[\"\xF4\x90\x80\x80\"]"), DS_P_JSON_NOT_UTF8, 1, 3, ""}, /* past the last */
    {TEXT("[\"\xE2\x82\xAC\x80\"]"), DS_P_JSON_NOT_UTF8, 1, 4, ""}, /* lone continuation */
    {TEXT("\xFF\xFE[\0]\0"), DS_P_JSON_NOT_UTF8, 1, 1, ""},         /* UTF-16 */
    {TEXT("{\"k\xE9y\": 1}"), DS_P_JSON_NOT_UTF8, 1, 4, ""},        /* Latin-1 */
    {TEXT("[\xE9]"), DS_P_JSON_NOT_UTF8, 1, 2, ""},
    {TEXT("[\"\xE9\""), DS_P_JSON_NOT_UTF8, 1, 3, ""},
    {TEXT("[\"\xC3"
          "a"),
     DS_P_JSON_NOT_UTF8, 1, 3, ""},
    {TEXT("[\"a\xFF"), DS_P_JSON_NOT_UTF8, 1, 4, ""}, /* no character starts so: not cut, wrong */

    /* escapes */
    {TEXT("[\"\\ud800\"]"), DS_P_JSON_ESCAPE, 1, 3, "\\ud800"},
    {TEXT("[\"\\uDC00\"]"), DS_P_JSON_ESCAPE, 1, 3, "\\uDC00"},
    {TEXT("[\"a\\ud800b\"]"), DS_P_JSON_ESCAPE, 1, 4, "\\ud800"},
    {TEXT("[\"\\ud800\\u0041\"]"), DS_P_JSON_ESCAPE, 1, 3, "\\ud800"},
    {TEXT("[\"\\ud800\\n\"]"), DS_P_JSON_ESCAPE, 1, 3, "\\ud800"},
    {TEXT("[\"\\ude00\\ud83d\"]"), DS_P_JSON_ESCAPE, 1, 3, "\\ude00"},
    {TEXT("[\"\\ud83d\\ud83d\\ude00\"]"), DS_P_JSON_ESCAPE, 1, 3, "\\ud83d"},
    {TEXT("[\"\\u0000\"]"), DS_P_JSON_ESCAPE, 1, 3, "\\u0000"},
    {TEXT("{\"a\\u0000\": 1}"), DS_P_JSON_ESCAPE, 1, 4, "\\u0000"},
    {TEXT("[\"\\q\"]"), DS_P_JSON_ESCAPE, 1, 3, "\\q"},
    {TEXT("[\"\\U0041\"]"), DS_P_JSON_ESCAPE, 1, 3, "\\U"},
    {TEXT("[\"\\u12g4\"]"), DS_P_JSON_ESCAPE, 1, 3, "\\u12"},
    {TEXT("[\"\\u\"]"), DS_P_JSON_ESCAPE, 1, 3, "\\u"},
    {TEXT("[\"\\\xC3\xA9\"]"), DS_P_JSON_ESCAPE, 1, 3, "\\"},
    {TEXT("[\"\\\n\"]"), DS_P_JSON_ESCAPE, 1, 3, "\\"},
    {TEXT("[\"\\ud800"
          "a"),
     DS_P_JSON_ESCAPE, 1, 3, "\\ud800"},

    /* strings */
    {TEXT("{\"a\": \"b\n}"), DS_P_JSON_BROKEN, 1, 9, OPEN_LINE},
    {TEXT("{\"a\": \"b\r\n}"), DS_P_JSON_BROKEN, 1, 9, OPEN_LINE},
    {TEXT("[\"a\tb\"]"), DS_P_JSON_BROKEN, 1, 4, CONTROL_IN},
    {TEXT("[\"a\0b\"]"), DS_P_JSON_BROKEN, 1, 4, CONTROL_IN},
    {TEXT("['a']"), DS_P_JSON_BROKEN, 1, 2, QUOTES},
    {TEXT("{'a': 1}"), DS_P_JSON_BROKEN, 1, 2, QUOTES},
    {TEXT("[`a`]"), DS_P_JSON_BROKEN, 1, 2, QUOTES},
    {TEXT("[\xE2\x80\x9C"
          "a\xE2\x80\x9D]"),
     DS_P_JSON_BROKEN, 1, 2, STRAIGHT},
    {TEXT("{\"\xC3\xA9\": 1,\n \xE2\x80\x9E"
          "a\xE2\x80\x9C: 2}"),
     DS_P_JSON_BROKEN, 2, 2, STRAIGHT},
    {TEXT("[\xC3\xA9]"), DS_P_JSON_BROKEN, 1, 2, NO_VALUE},

    /* numbers */
    {TEXT("[01]"), DS_P_JSON_BROKEN, 1, 2, ZERO},
    {TEXT("[1, -007]"), DS_P_JSON_BROKEN, 1, 6, ZERO},
    {TEXT("{\"a\": 00}"), DS_P_JSON_BROKEN, 1, 7, ZERO},
    {TEXT("[10 1]"), DS_P_JSON_BROKEN, 1, 5, NO_COMMA},
    {TEXT("[\"0\"1]"), DS_P_JSON_BROKEN, 1, 5, NO_COMMA},
    {TEXT("[1.]"), DS_P_JSON_BROKEN, 1, 2, NO_DIGIT},
    {TEXT("[1, -]"), DS_P_JSON_BROKEN, 1, 5, NO_DIGIT},
    {TEXT("[1.e5]"), DS_P_JSON_BROKEN, 1, 2, NO_DIGIT},
    {TEXT("[1e]"), DS_P_JSON_BROKEN, 1, 2, NO_DIGIT},
    {TEXT("[0.5e+]"), DS_P_JSON_BROKEN, 1, 2, NO_DIGIT},
    {TEXT("[0.x]"), DS_P_JSON_BROKEN, 1, 2, NO_DIGIT},
    {TEXT("[-Infinity]"), DS_P_JSON_BROKEN, 1, 2, NO_DIGIT},
    {TEXT("[+1]"), DS_P_JSON_BROKEN, 1, 2, NUMBER_START},
    {TEXT("[.5]"), DS_P_JSON_BROKEN, 1, 2, NUMBER_START},
    {TEXT("[0x10]"), DS_P_JSON_BROKEN, 1, 3, NO_COMMA},
    {TEXT("[1.2.3]"), DS_P_JSON_BROKEN, 1, 5, NO_COMMA},
    {TEXT("[1_000]"), DS_P_JSON_BROKEN, 1, 3, NO_COMMA},
    {TEXT("[1,5 2]"), DS_P_JSON_BROKEN, 1, 6, NO_COMMA},
    {TEXT("[NaN]"), DS_P_JSON_BROKEN, 1, 2, BARE},
    {TEXT("[Infinity]"), DS_P_JSON_BROKEN, 1, 2, BARE},
    {TEXT("[1, 1e400]"), DS_P_JSON_NUMBER, 1, 5, "1e400"},
    {TEXT("-1e99999999999999999999"), DS_P_JSON_NUMBER, 1, 1, "-1e99999999999999999"},
    {TEXT("[1.7976931348623159e308]"), DS_P_JSON_NUMBER, 1, 2, "1.7976931348623159e3"},

    /* words */
    {TEXT("[True]"), DS_P_JSON_BROKEN, 1, 2, BARE},
    {TEXT("[trux]"), DS_P_JSON_BROKEN, 1, 2, BARE},
    {TEXT("[nul]"), DS_P_JSON_BROKEN, 1, 2, BARE},
    {TEXT("[nullx]"), DS_P_JSON_BROKEN, 1, 6, NO_COMMA},
    {TEXT("undefined"), DS_P_JSON_BROKEN, 1, 1, BARE},
    {TEXT("{\"a\": yes}"), DS_P_JSON_BROKEN, 1, 7, BARE},

    /* brackets, commas, colons */
    {TEXT("[1,]"), DS_P_JSON_BROKEN, 1, 3, LAST_COMMA},
    {TEXT("{\"a\": 1,\n}"), DS_P_JSON_BROKEN, 1, 8, LAST_COMMA},
    {TEXT("[,1]"), DS_P_JSON_BROKEN, 1, 2, NO_VALUE},
    {TEXT("[1,,2]"), DS_P_JSON_BROKEN, 1, 4, NO_VALUE},
    {TEXT("[1:2]"), DS_P_JSON_BROKEN, 1, 3, NO_COMMA},
    {TEXT("[1\n 2]"), DS_P_JSON_BROKEN, 2, 2, NO_COMMA},
    {TEXT("{\"a\": 1\n \"b\": 2}"), DS_P_JSON_BROKEN, 2, 2, NO_COMMA},
    {TEXT("{\"a\": 1; \"b\": 2}"), DS_P_JSON_BROKEN, 1, 8, NO_COMMA},
    {TEXT("{\"a\" 1}"), DS_P_JSON_BROKEN, 1, 6, NO_COLON},
    {TEXT("{\"a\" = 1}"), DS_P_JSON_BROKEN, 1, 6, NO_COLON},
    {TEXT("{\"a\"}"), DS_P_JSON_BROKEN, 1, 5, NO_COLON},
    {TEXT("{\"a\" \"b\\q\"}"), DS_P_JSON_BROKEN, 1, 6, NO_COLON},
    {TEXT("{\"a\": }"), DS_P_JSON_BROKEN, 1, 7, NO_VALUE},
    {TEXT("{\"a\":: 1}"), DS_P_JSON_BROKEN, 1, 6, NO_VALUE},
    {TEXT("{a: 1}"), DS_P_JSON_BROKEN, 1, 2, NO_KEY},
    {TEXT("{1: 1}"), DS_P_JSON_BROKEN, 1, 2, NO_KEY},
    {TEXT("{,}"), DS_P_JSON_BROKEN, 1, 2, NO_KEY},
    {TEXT("{\"a\": 1, b: 2}"), DS_P_JSON_BROKEN, 1, 10, NO_KEY},
    {TEXT("{[1]: 1}"), DS_P_JSON_BROKEN, 1, 2, NO_KEY},
    {TEXT("[1}"), DS_P_JSON_BROKEN, 1, 3, CLOSE_LIST},
    {TEXT("{\"a\": [1, 2}"), DS_P_JSON_BROKEN, 1, 12, CLOSE_LIST},
    {TEXT("{\"a\": 1]"), DS_P_JSON_BROKEN, 1, 8, CLOSE_OBJECT},
    {TEXT("[}"), DS_P_JSON_BROKEN, 1, 2, NO_VALUE},
    {TEXT("{]"), DS_P_JSON_BROKEN, 1, 2, NO_KEY},
    {TEXT("]"), DS_P_JSON_BROKEN, 1, 1, NO_VALUE},
    {TEXT(",1"), DS_P_JSON_BROKEN, 1, 1, NO_VALUE},
    {TEXT("[1 \"unclosed"), DS_P_JSON_BROKEN, 1, 4, NO_COMMA},
    {TEXT("[1 \"\xFF\"]"), DS_P_JSON_BROKEN, 1, 4, NO_COMMA},

    /* comments and characters that are nothing */
    {TEXT("// a\n[]"), DS_P_JSON_BROKEN, 1, 1, COMMENT},
    {TEXT("[1, /* two */ 2]"), DS_P_JSON_BROKEN, 1, 5, COMMENT},
    {TEXT("[1 /* one */, 2]"), DS_P_JSON_BROKEN, 1, 4, COMMENT},
    {TEXT("{\n# note\n\"a\": 1}"), DS_P_JSON_BROKEN, 2, 1, COMMENT},
    {TEXT("[1,\v2]"), DS_P_JSON_BROKEN, 1, 4, CONTROL_OUT},
    {TEXT("[1,\f2]"), DS_P_JSON_BROKEN, 1, 4, CONTROL_OUT},
    {TEXT("[tru\v]"), DS_P_JSON_BROKEN, 1, 5, CONTROL_OUT},
    {TEXT("[\0]"), DS_P_JSON_BROKEN, 1, 2, NO_VALUE},
    {TEXT("[\xC2\xA0 1]"), DS_P_JSON_BROKEN, 1, 2, NO_VALUE}, /* a no-break space is no white space */

    /* keys twice; also when written differently */
    {TEXT("{\"a\": 1, \"b\": 2,\n \"a\": 3}"), DS_P_JSON_DUPLICATE_KEY, 2, 2, "a"},
    {TEXT("{\"a\": 1, \"\\u0061\": 2}"), DS_P_JSON_DUPLICATE_KEY, 1, 10, "a"},
    {TEXT("{\"\": 1, \"\": 2}"), DS_P_JSON_DUPLICATE_KEY, 1, 9, ""},
    {TEXT("[{\"a\": {\"a\": 1}}, {\"a\": {\"a\": 1, \"a\": 2}}]"), DS_P_JSON_DUPLICATE_KEY, 1, 34, "a"},
    {TEXT("{\"\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9"
          "0123456789xyz\": "
          "1,\"\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9"
          "0123456789xyz\": 1}"),
     DS_P_JSON_DUPLICATE_KEY, 1, 31,
     "\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9\xC3\xA9"
     "0123456789"}, /* twenty characters are shown */

    /* lines end with \n, \r\n or \r; columns count characters; the byte order mark is none */
    {TEXT("[\r\n1,\r\n x]"), DS_P_JSON_BROKEN, 3, 2, BARE},
    {TEXT("[\r1,\r x]"), DS_P_JSON_BROKEN, 3, 2, BARE},
    {TEXT("[\n\r1, x]"), DS_P_JSON_BROKEN, 3, 4, BARE},
    {TEXT("[\"\xC3\xA9\xE2\x82\xAC\xF0\x9F\x94\x8C\", x]"), DS_P_JSON_BROKEN, 1, 9, BARE},
    {TEXT("\xEF\xBB\xBF[x]"), DS_P_JSON_BROKEN, 1, 2, BARE},
    {TEXT("\xEF\xBB\xBF\n[x]"), DS_P_JSON_BROKEN, 2, 2, BARE},
};

static void show(const bad_document *const wanted, const ds_problem *const got)
{
    print_error("%.*s\n  wanted %d at %u:%u \"%s\"\n  found  %d at %u:%u \"%.*s\"\n", (int)wanted->text.len,
                wanted->text.at, (int)wanted->code, wanted->line, wanted->column, wanted->a, (int)got->code,
                got->where.line, got->where.column, (int)got->a.len, got->a.at);
}

static void bad_documents(void **const state)
{
    (void)state;
    unsigned wrong = 0;
    for (size_t i = 0; i < sizeof BAD / sizeof BAD[0]; i++) {
        json_doc doc;
        json_doc_read(&doc, BAD[i].text, &DS_JSON_LIMITS);
        assert_int_equal(doc.status, DS_BAD_INPUT);
        const ds_problem *const got = &doc.problem;
        if (got->code != BAD[i].code || got->where.line != BAD[i].line ||
            got->where.column != BAD[i].column || !ds_str_is(got->a, BAD[i].a)) {
            show(&BAD[i], got);
            wrong++;
        }
        json_doc_free(&doc);
    }
    assert_int_equal(wrong, 0);
}

/* In a string and between values, each of them; only the line ends have their own words. */
static void every_control_character(void **const state)
{
    (void)state;
    for (char c = 0; c < 0x20; c++) {
        const char inside[] = {'[', '"', 'a', c, '"', ']'};
        json_doc doc;
        json_doc_read(&doc, (ds_str){inside, sizeof inside}, &DS_JSON_LIMITS);
        assert_int_equal(doc.status, DS_BAD_INPUT);
        assert_int_equal(doc.problem.code, DS_P_JSON_BROKEN);
        assert_int_equal(doc.problem.where.column, 4);
        assert_true(ds_str_is(doc.problem.a, c == '\n' || c == '\r' ? OPEN_LINE : CONTROL_IN));
        json_doc_free(&doc);
        const char between[] = {'[', c, ']'};
        json_doc_read(&doc, (ds_str){between, sizeof between}, &DS_JSON_LIMITS);
        const bool is_space = c == '\t' || c == '\n' || c == '\r';
        assert_int_equal(doc.status, is_space ? DS_OK : DS_BAD_INPUT);
        if (!is_space) {
            assert_int_equal(doc.problem.code, DS_P_JSON_BROKEN);
            assert_int_equal(doc.problem.where.column, 2);
        }
        json_doc_free(&doc);
    }
}

/* Written again: two spaces a level, escapes only where they must be, numbers as they were. */
static const struct {
    ds_str text;
    const char *written;
} GOOD[] = {
    {TEXT("null"), "null"},
    {TEXT(" true "), "true"},
    {TEXT("false\n"), "false"},
    {TEXT("0"), "0"},
    {TEXT("-0"), "-0"},
    {TEXT("1.10"), "1.10"},
    {TEXT("[1E+2]"), "[\n  1E+2\n]"},
    {TEXT("1e-400"), "1e-400"},
    {TEXT("12345678901234567890123"), "12345678901234567890123"},
    {TEXT("\"\""), "\"\""},
    {TEXT("\"a\""), "\"a\""},
    {TEXT("[]"), "[]"},
    {TEXT("{ }"), "{}"},
    {TEXT("\xEF\xBB\xBF[ ]\n"), "[]"},
    {TEXT("[[],{}]"), "[\n  [],\n  {}\n]"},
    {TEXT("{\"a\":[1,{\"b\":null}],\"c\":\"\"}"),
     "{\n  \"a\": [\n    1,\n    {\n      \"b\": null\n    }\n  ],\n  \"c\": \"\"\n}"},
    {TEXT("{\"\":{\"\":0}}"), "{\n  \"\": {\n    \"\": 0\n  }\n}"},
    {TEXT("\"\\\"\\\\\\/\\b\\f\\n\\r\\t\""), "\"\\\"\\\\/\\b\\f\\n\\r\\t\""},
    {TEXT("\"\\u0001\\u001F\\u007f\""), "\"\\u0001\\u001f\x7F\""},
    {TEXT("\"\\u00e9\\u20AC\\uD83D\\udd0C\""), "\"\xC3\xA9\xE2\x82\xAC\xF0\x9F\x94\x8C\""},
    {TEXT("\"\\uFFFF\\uD7FF\\uE000\\udbff\\udfff\""),
     "\"\xEF\xBF\xBF\xED\x9F\xBF\xEE\x80\x80\xF4\x8F\xBF\xBF\""},
    {TEXT("\"\xC3\xA9\xE2\x82\xAC\xF0\x9F\x94\x8C\""), "\"\xC3\xA9\xE2\x82\xAC\xF0\x9F\x94\x8C\""},
    {TEXT("{\"\\u0041\\n\":1}"), "{\n  \"A\\n\": 1\n}"},
    {TEXT("[\"// no comment\", \"[,}\"]"), "[\n  \"// no comment\",\n  \"[,}\"\n]"},
    {TEXT("[\"a\\\\\",\"b\"]"), "[\n  \"a\\\\\",\n  \"b\"\n]"},
};

static void good_documents(void **const state)
{
    (void)state;
    for (size_t i = 0; i < sizeof GOOD / sizeof GOOD[0]; i++) {
        json_doc doc;
        json_doc_read(&doc, GOOD[i].text, &DS_JSON_LIMITS);
        assert_int_equal(doc.status, DS_OK);
        char *const written = json_written(doc.tree);
        assert_string_equal(written, GOOD[i].written);
        free(written);
        json_doc_free(&doc);
    }
}

static const char WHOLE[] =
    "\xEF\xBB\xBF { \"a\\n\\ud83d\\udd0c\" : [ 1.5e+10 , -0.25 , true , false , null ] ,\r\n"
    "  \"\xC3\xA9\xE2\x82\xAC\xF0\x9F\x94\x8C\" : { } , \"\\u00e9\\/\" : \"\\\\\" }";

/* Wherever a file is cut off, it says so, at its end. */
static void every_prefix_is_half_a_file(void **const state)
{
    (void)state;
    const ds_str whole = DS_STR(WHOLE);
    for (size_t len = 0; len <= whole.len; len++) {
        json_doc doc;
        json_doc_read(&doc, (ds_str){whole.at, len}, &DS_JSON_LIMITS);
        if (len == whole.len) {
            assert_int_equal(doc.status, DS_OK);
        } else {
            assert_int_equal(doc.status, DS_BAD_INPUT);
            const bool nothing = len == 0 || len == 3 || len == 4;
            assert_int_equal(doc.problem.code, nothing ? DS_P_EMPTY : DS_P_JSON_HALF);
        }
        if (doc.status != DS_OK && doc.problem.code == DS_P_JSON_HALF) {
            uint32_t line, column;
            ds_json_line_column((ds_str){whole.at, len}, (uint32_t)len, &line, &column);
            assert_int_equal(doc.problem.where.line, line);
            assert_int_equal(doc.problem.where.column, column);
        }
        json_doc_free(&doc);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bad_documents),
        cmocka_unit_test(every_control_character),
        cmocka_unit_test(good_documents),
        cmocka_unit_test(every_prefix_is_half_a_file),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
