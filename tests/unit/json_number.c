/* SPDX-License-Identifier: MIT */
/* The reader of decimal numbers, bit for bit against the C library's strtod (correctly rounded in glibc). */
#include "json_help.h"

#include <float.h>
#include <math.h>
#include <stdio.h>

static uint64_t bits_of(const double value)
{
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    return bits;
}

static void assert_read(const char *const text, const double expected)
{
    double value = NAN;
    if (!ds_number_read(ds_str_of(text), &value) || bits_of(value) != bits_of(expected)) {
        fail_msg("%.60s: %a, wanted %a", text, value, expected);
    }
}

static void as_strtod(const char *const text)
{
    const double expected = strtod(text, NULL);
    double value;
    if (isfinite(expected)) {
        assert_read(text, expected);
    } else if (ds_number_read(ds_str_of(text), &value)) {
        fail_msg("%.60s: %a, wanted a refusal", text, value);
    }
}

static void known_values(void **const state)
{
    (void)state;
    assert_read("0", 0.0);
    assert_read("-0", -0.0);
    assert_read("-0.0e7", -0.0);
    assert_read("0e999999999999999999999", 0.0);
    assert_read("1", 1.0);
    assert_read("-12.5", -12.5);
    assert_read("0.1", 0x1.999999999999ap-4);
    assert_read("123456789012345", 123456789012345.0);
    assert_read("1E2", 100.0);
    assert_read("1e+2", 100.0);
    assert_read("100e-2", 1.0);
    assert_read("9007199254740993", 9007199254740992.0); /* a half: to the even one */
    assert_read("9007199254740993.00000000000000000001", 9007199254740994.0);
    assert_read("9007199254740995", 9007199254740996.0);
    assert_read("1.7976931348623157e308", DBL_MAX);
    assert_read("1.7976931348623158e308", DBL_MAX);
    assert_read("4.9e-324", 0x1p-1074);
    assert_read("2.4703282292062328e-324", 0x1p-1074);
    assert_read("2.4703282292062327e-324", 0.0); /* below half of the least */
    assert_read("2.2250738585072014e-308", DBL_MIN);
    assert_read("2.2250738585072011e-308", 0x0.fffffffffffffp-1022); /* the largest below DBL_MIN */
    assert_read("1e-400", 0.0);
    assert_read("-1e-999999999999999999999", -0.0);
    assert_read("100000000000000000000000000000000000000000e-41", 1.0);
}

static void refuses_what_is_too_large_or_no_number(void **const state)
{
    (void)state;
    static const char *const TEXTS[] = {
        "1e309",
        "-1e309",
        "1.7976931348623159e308",
        "1e99999999999999999999",
        "",
        "-",
        "+1",
        ".5",
        "1.",
        "1.e1",
        "1e",
        "1e+",
        "01",
        "-01",
        "00",
        "1 ",
        " 1",
        "1x",
        "0x1",
        "1_0",
        "NaN",
        "Infinity",
        "inf",
        "--1",
        "1e1.5",
        "1..2",
        "1e1e1",
    };
    for (size_t i = 0; i < sizeof TEXTS / sizeof TEXTS[0]; i++) {
        double value;
        assert_false(ds_number_read(ds_str_of(TEXTS[i]), &value));
    }
    double value;
    assert_false(ds_number_read((ds_str){"1\0", 2}, &value));
}

static uint64_t seed = 88172645463325252U;

static uint64_t next_random(void)
{
    seed ^= seed << 13;
    seed ^= seed >> 7;
    seed ^= seed << 17;
    return seed;
}

static double random_double(void)
{
    double value;
    do {
        const uint64_t bits = next_random();
        memcpy(&value, &bits, sizeof value);
    } while (!isfinite(value));
    return value;
}

/* All doubles, written with 1 to 20 digits: with 17 and more the very same bits must come back. */
static void random_doubles(void **const state)
{
    (void)state;
    for (int i = 0; i < 40000; i++) {
        const double value = random_double();
        char text[64];
        const int digits = i % 20;
        snprintf(text, sizeof text, "%.*e", digits, value);
        as_strtod(text);
        if (digits >= 16) {
            assert_read(text, value);
        }
    }
}

/* What stands in job documents: few digits, small powers. */
static void everyday_numbers(void **const state)
{
    (void)state;
    for (int i = 0; i < 200000; i++) {
        char text[64];
        const int decimals = (int)(next_random() % 7);
        snprintf(text, sizeof text, "%.*f", decimals, (double)(next_random() % 100000000) / 9973.0);
        as_strtod(text);
    }
}

/* Exactly halfway between two doubles, and a hair beside it: all digits of the half are written out. */
static void halves(void **const state)
{
    (void)state;
    for (int i = 0; i < 3000; i++) {
        double low = fabs(random_double());
        if (i % 3 == 0) { /* among those with fewer bits too */
            low = ldexp(low / DBL_MAX, -1023 - i % 50);
        }
        const double high = nextafter(low, INFINITY);
        if (!isfinite(high)) {
            continue;
        }
        char text[1600];
        const long double half = ((long double)low + (long double)high) / 2;
        snprintf(text, sizeof text, "%.1150Lf", half);
        as_strtod(text);
        size_t len = strlen(text);
        text[len] = '1';
        text[len + 1] = '\0';
        as_strtod(text);
        do { /* one less in its last digit, then a nine */
            len--;
        } while (text[len] == '0' || text[len] == '.');
        text[len]--;
        text[strlen(text) - 1] = '9';
        as_strtod(text);
    }
}

static void very_many_digits(void **const state)
{
    (void)state;
    enum { MOST = 3000 };
    static char text[MOST + 40];
    for (int i = 0; i < 400; i++) {
        const size_t len = 1 + next_random() % MOST;
        for (size_t j = 0; j < len; j++) {
            text[j] = (char)('0' + (i % 4 ? next_random() % 10 : 0));
        }
        text[0] = (char)('1' + next_random() % 9);
        if (len > 2) {
            text[len / 2] = '.';
            text[len - 1] = (char)('1' + next_random() % 9);
        }
        snprintf(text + len, 40, "e%d", (int)(next_random() % 800) - 400 - (int)(len / 2));
        as_strtod(text);
    }
}

static void zeros_and_powers_make_up_for_each_other(void **const state)
{
    (void)state;
    static char text[200100];
    for (size_t zeros = 1; zeros < 200000; zeros = zeros * 3 + 1) {
        text[0] = '1';
        memset(text + 1, '0', zeros);
        snprintf(text + 1 + zeros, 20, "e-%zu", zeros);
        assert_read(text, 1.0);
        memcpy(text, "0.", 2);
        memset(text + 2, '0', zeros);
        snprintf(text + 2 + zeros, 20, "7e%zu", zeros + 1);
        assert_read(text, 7.0);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(known_values),
        cmocka_unit_test(refuses_what_is_too_large_or_no_number),
        cmocka_unit_test(random_doubles),
        cmocka_unit_test(everyday_numbers),
        cmocka_unit_test(halves),
        cmocka_unit_test(very_many_digits),
        cmocka_unit_test(zeros_and_powers_make_up_for_each_other),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
