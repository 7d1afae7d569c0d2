/* SPDX-License-Identifier: MIT */
/* The growing text and its numbers; the C library's printf is the second opinion on rounding. */
#include "base_alloc.h"
#include "core/base/text.h"

#include <float.h>
#include <math.h>
#include <stdio.h>

static test_alloc memory;

static int start(void **const state)
{
    (void)state;
    memory = test_alloc_make(0);
    return 0;
}

static int nothing_is_left(void **const state)
{
    (void)state;
    return memory.blocks != 0; /* 0 is success */
}

static void assert_text(const ds_text *const text, const char *const expected)
{
    const ds_str found = ds_text_str(text);
    char shown[400] = "";
    assert_in_range(found.len, 0, sizeof shown - 1);
    if (found.len) {
        memcpy(shown, found.at, found.len);
    }
    assert_string_equal(shown, expected);
}

static void appends(void **const state)
{
    (void)state;
    ds_text text;
    ds_text_init(&text, test_alloc_use(&memory));
    assert_text(&text, "");
    ds_text_add(&text, "needed ");
    ds_text_adds(&text, DS_STR("IP"));
    ds_text_int(&text, 44);
    ds_text_char(&text, ';');
    ds_text_repeat(&text, "ab", 3);
    ds_text_repeat(&text, "ab", 0);
    ds_text_bytes(&text, NULL, 0);
    assert_text(&text, "needed IP44;ababab");
    assert_true(ds_text_ok(&text));
    ds_text_free(&text);
    assert_text(&text, "");
    ds_text_add(&text, "again");
    assert_text(&text, "again");
    ds_text_free(&text);
}

static void grows_without_losing_a_byte(void **const state)
{
    (void)state;
    ds_text text;
    ds_text_init(&text, test_alloc_use(&memory));
    for (size_t i = 0; i < 100000; i++) {
        ds_text_char(&text, (char)('a' + i % 26));
    }
    const ds_str found = ds_text_str(&text);
    assert_int_equal(found.len, 100000);
    for (size_t i = 0; i < found.len; i++) {
        assert_int_equal(found.at[i], 'a' + i % 26);
    }
    assert_in_range(memory.requests, 1, 12); /* 256 doubled to 131072 */
    ds_text_free(&text);
}

/* What stood in the text before the failure stays, and nothing is appended after it. */
static void keeps_a_failure(void **const state)
{
    (void)state;
    for (size_t fail_at = 1; fail_at <= 3; fail_at++) {
        memory.requests = 0;
        memory.fail_at = fail_at;
        ds_text text;
        ds_text_init(&text, test_alloc_use(&memory));
        ds_text_repeat(&text, "x", 2000);
        assert_false(ds_text_ok(&text));
        const size_t len = ds_text_str(&text).len;
        assert_int_equal(len, fail_at == 1 ? 0 : 128 << (fail_at - 1));
        memory.fail_at = 0;
        ds_text_add(&text, "more");
        assert_false(ds_text_ok(&text));
        assert_int_equal(ds_text_str(&text).len, len);
        ds_text_free(&text);
        assert_true(ds_text_ok(&text));
    }
}

static void refuses_a_size_that_does_not_fit(void **const state)
{
    (void)state;
    ds_text text;
    ds_text_init(&text, test_alloc_use(&memory));
    ds_text_add(&text, "a");
    ds_text_bytes(&text, "b", SIZE_MAX / 2);
    assert_false(ds_text_ok(&text));
    ds_text_free(&text);
}

static void whole_numbers(void **const state)
{
    (void)state;
    static const struct {
        int64_t value;
        const char *shown;
    } CASES[] = {
        {0, "0"},
        {7, "7"},
        {-1, "-1"},
        {10, "10"},
        {-1000, "-1000"},
        {INT64_MAX, "9223372036854775807"},
        {INT64_MIN, "-9223372036854775808"},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        ds_text text;
        ds_text_init(&text, test_alloc_use(&memory));
        ds_text_int(&text, CASES[i].value);
        assert_text(&text, CASES[i].shown);
        ds_text_free(&text);
    }
}

static void assert_number(const double value, const int decimals, const char *const shown)
{
    ds_text text;
    ds_text_init(&text, test_alloc_use(&memory));
    ds_text_number(&text, value, decimals);
    assert_text(&text, shown);
    ds_text_free(&text);
}

static void numbers(void **const state)
{
    (void)state;
    static const struct {
        double value;
        int decimals;
        const char *shown;
    } CASES[] = {
        {2.50, 2, "2.5"},
        {3.00, 2, "3"},
        {0, 0, "0"},
        {-0.0, 3, "0"},
        {-0.0004, 3, "0"}, /* no minus before a zero */
        {-0.0006, 3, "-0.001"},
        {0.5, 0, "1"}, /* a half goes away from zero */
        {-0.5, 0, "-1"},
        {1.5, 0, "2"},
        {2.5, 0, "3"},
        {-2.5, 0, "-3"},
        {0.125, 2, "0.13"},
        {0.375, 2, "0.38"},
        {1.005, 2, "1"},               /* the double is 1.00499999999999989… */
        {0.015, 2, "0.01"},            /* 0.01499999999999999944… */
        {0.145, 2, "0.14"},            /* 0.14499999999999999… */
        {0.49999999999999994, 0, "0"}, /* the largest double below a half */
        {0.9999999999, 9, "1"},
        {9.9999, 3, "10"},
        {0.000000001, 9, "0.000000001"},
        {0.0000000004, 9, "0"},
        {1e-300, 9, "0"},
        {123456.789, 3, "123456.789"},
        {0.1, 9, "0.1"},
        {0.30000000000000004, 9, "0.3"},
        {100, 9, "100"},
        {999999999999999, 9, "999999999999999"},
        {-999999999999999, 0, "-999999999999999"},
        {999999999999999.875, 2, "999999999999999.88"},
        {999999999999999.875, 0, "1000000000000000"},
        {1e15, 2, "?"},
        {-1e15, 2, "?"},
        {DBL_MAX, 2, "?"},
        {INFINITY, 2, "?"},
        {-INFINITY, 2, "?"},
        {NAN, 2, "?"},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        assert_number(CASES[i].value, CASES[i].decimals, CASES[i].shown);
    }
}

static void cut_zeros(char *const shown)
{
    char *end = shown + strlen(shown);
    while (strchr(shown, '.') && end[-1] == '0') {
        *--end = '\0';
    }
    if (end[-1] == '.') {
        *--end = '\0';
    }
    if (strcmp(shown, "-0") == 0) {
        memmove(shown, "0", 2);
    }
}

/* printf rounds exactly too; only a true tie, which it sends to the even digit, may come out differently. */
static bool is_tie(const double value, const int decimals)
{
    char exact[400];
    snprintf(exact, sizeof exact, "%.80f", value);
    const char *const behind = strchr(exact, '.') + 1 + decimals;
    return behind[0] == '5' && behind[1 + strspn(behind + 1, "0")] == '\0';
}

static void numbers_round_as_printf_does(void **const state)
{
    (void)state;
    uint64_t seed = 88172645463325252U;
    for (int i = 0; i < 300000; i++) {
        seed ^= seed << 13;
        seed ^= seed >> 7;
        seed ^= seed << 17;
        const int decimals = (int)(seed % 10);
        const double size = pow(10, (double)(seed >> 8 & 15));
        double value = ((double)(seed >> 11) / 9007199254740992.0 - 0.5) * size;
        if (i % 2) { /* what people type: few digits, often a five at the end */
            value = floor(value * 1000) / 1000 + 0.0005;
        }
        if (is_tie(value, decimals)) {
            continue;
        }
        char expected[64];
        snprintf(expected, sizeof expected, "%.*f", decimals, value);
        cut_zeros(expected);
        assert_number(value, decimals, expected);
    }
}

/* Out of the contract's range the nearest end of it is used. */
static void decimals_are_held_in_range(void **const state)
{
    (void)state;
    assert_number(1.25, 10, "1.25");
    assert_number(1.25, 1000, "1.25");
    assert_number(1.75, -3, "2");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(appends, start, nothing_is_left),
        cmocka_unit_test_setup_teardown(grows_without_losing_a_byte, start, nothing_is_left),
        cmocka_unit_test_setup_teardown(keeps_a_failure, start, nothing_is_left),
        cmocka_unit_test_setup_teardown(refuses_a_size_that_does_not_fit, start, nothing_is_left),
        cmocka_unit_test_setup_teardown(whole_numbers, start, nothing_is_left),
        cmocka_unit_test_setup_teardown(numbers, start, nothing_is_left),
        cmocka_unit_test_setup_teardown(numbers_round_as_printf_does, start, nothing_is_left),
        cmocka_unit_test_setup_teardown(decimals_are_held_in_range, start, nothing_is_left),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
