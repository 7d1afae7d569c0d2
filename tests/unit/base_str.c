/* SPDX-License-Identifier: MIT */
/* UTF-8 by the table of the Unicode standard (chapter 3, "Well-Formed UTF-8 Byte Sequences"), and the nearest word. */
#include "base_alloc.h"
#include "core/base/str.h"

static void compares(void **const state)
{
    (void)state;
    assert_true(ds_str_eq(DS_STR("abc"), DS_STR("abc")));
    assert_false(ds_str_eq(DS_STR("abc"), DS_STR("abd")));
    assert_false(ds_str_eq(DS_STR("abc"), DS_STR("ab")));
    assert_true(ds_str_eq((ds_str){0}, DS_STR("")));
    assert_true(ds_str_is(DS_STR("abc"), "abc"));
    assert_true(ds_str_is((ds_str){0}, NULL));
    assert_true(ds_str_starts(DS_STR("abc"), DS_STR("ab")));
    assert_true(ds_str_starts(DS_STR("abc"), DS_STR("")));
    assert_false(ds_str_starts(DS_STR("ab"), DS_STR("abc")));
    assert_true(ds_str_is(ds_str_from(DS_STR("abc"), 1), "bc"));
    assert_int_equal(ds_str_from(DS_STR("abc"), 9).len, 0);
}

/* One code point written as len bytes, whether or not that is its proper form. */
static size_t write_utf8(char *const out, const uint32_t point, const size_t len)
{
    static const uint8_t FIRST[] = {0, 0x00, 0xC0, 0xE0, 0xF0};
    for (size_t i = len; i-- > 0;) {
        const uint32_t bits = point >> (6 * (len - 1 - i));
        out[i] = (char)(i ? 0x80 | (bits & 0x3F) : FIRST[len] | bits);
    }
    return len;
}

static size_t proper_len(const uint32_t point)
{
    return point < 0x80 ? 1 : point < 0x800 ? 2 : point < 0x10000 ? 3 : 4;
}

/* All code points in their proper form and in every longer one; also what lies beyond the last. */
static void utf8_takes_each_character_in_one_form(void **const state)
{
    (void)state;
    char bytes[4];
    for (uint32_t point = 0; point < 0x140000; point++) {
        const bool is_character = point <= 0x10FFFF && !(point >= 0xD800 && point <= 0xDFFF);
        for (size_t len = proper_len(point); len <= 4; len++) {
            write_utf8(bytes, point, len);
            const bool good = is_character && len == proper_len(point);
            assert_int_equal(ds_str_is_utf8((ds_str){bytes, len}), good);
        }
    }
}

/* A byte changed, cut or added in a two-, three- or four-byte form: only a continuation byte in its place is good. */
static void utf8_refuses_wrong_continuations(void **const state)
{
    (void)state;
    static const char *const GOOD[] = {"\xC3\xA9", "\xE2\x82\xAC", "\xF0\x9F\x94\x8C"};
    for (size_t i = 0; i < 3; i++) {
        const size_t len = strlen(GOOD[i]);
        for (size_t cut = 1; cut < len; cut++) {
            assert_false(ds_str_is_utf8((ds_str){GOOD[i], cut}));
            assert_false(ds_str_is_utf8((ds_str){GOOD[i] + cut, len - cut}));
        }
        for (size_t at = 2; at < len; at++) {
            char bytes[4];
            memcpy(bytes, GOOD[i], len);
            for (int byte = 0; byte < 256; byte++) {
                bytes[at] = (char)byte;
                assert_int_equal(ds_str_is_utf8((ds_str){bytes, len}), byte >= 0x80 && byte <= 0xBF);
            }
        }
    }
    assert_true(ds_str_is_utf8((ds_str){0}));
    assert_true(ds_str_is_utf8(DS_STR("IP44, 2 m, 5 \xE2\x84\xA6")));
    assert_false(ds_str_is_utf8(DS_STR("a\xFF")));
}

static const ds_str WORDS[] = {
    {"hose-nearby", 11}, {"rain", 4}, {"public", 6}, {"standing-water", 14}, {"hail", 4}, {"ice", 3},
};

enum { WORDS_LEN = sizeof WORDS / sizeof WORDS[0] };

static void nearest_word(void **const state)
{
    (void)state;
    static const struct {
        const char *word;
        size_t nearest;
    } CASES[] = {
        {"hose-nearby", 0},
        {"hose-nearbey", 0},        /* inserted */
        {"hos-nearby", 0},          /* dropped */
        {"hoze-nearby", 0},         /* changed */
        {"hoes-nearby", 0},         /* swapped neighbours are one edit */
        {"hose nerby", 0},          /* two */
        {"hse-nbearyy", 0},         /* three are a third of eleven letters */
        {"hse-nbearyx", WORDS_LEN}, /* four are more */
        {"rian", 1},                /* a swap counts one: four letters allow one edit */
        {"rnia", WORDS_LEN},        /* two edits are more than a third of four */
        {"pubilc", 2},
        {"standingwater", 3},
        {"ice", 5},
        {"ic", WORDS_LEN}, /* two letters allow no edit */
        {"", WORDS_LEN},
        {"ladder", WORDS_LEN},
        {"hain", 1}, /* as near to rain as to hail: the first in the list */
        {"standing-water-standing-water-standing-water", WORDS_LEN}, /* over 40 bytes */
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        assert_int_equal(ds_str_nearest(ds_str_of(CASES[i].word), WORDS, WORDS_LEN), CASES[i].nearest);
    }
    assert_int_equal(ds_str_nearest(DS_STR("rain"), WORDS, 0), 0);
}

static void nearest_word_knows_its_length_limit(void **const state)
{
    (void)state;
    static const char FORTY[] = "0123456789012345678901234567890123456789";
    static const char FORTY_ONE[] = "01234567890123456789012345678901234567890";
    const ds_str list[] = {DS_STR(FORTY_ONE), DS_STR(FORTY)};
    assert_int_equal(ds_str_nearest(DS_STR(FORTY), list, 2), 1);
    assert_int_equal(ds_str_nearest(DS_STR(FORTY_ONE), list, 2), 2);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(compares),
        cmocka_unit_test(utf8_takes_each_character_in_one_form),
        cmocka_unit_test(utf8_refuses_wrong_continuations),
        cmocka_unit_test(nearest_word),
        cmocka_unit_test(nearest_word_knows_its_length_limit),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
