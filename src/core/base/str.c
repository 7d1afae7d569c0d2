/* SPDX-License-Identifier: MIT */
/* Checks on text and the search for the word that was meant. */
#include "core/base/str.h"

#include <stdint.h>

/* Bytes that a UTF-8 sequence with this first byte has; 0 when no sequence starts so. */
static size_t sequence_len(const uint8_t first)
{
    if (first < 0x80) {
        return 1;
    }
    if (first >= 0xC2 && first <= 0xDF) {
        return 2;
    }
    if (first >= 0xE0 && first <= 0xEF) {
        return 3;
    }
    return first >= 0xF0 && first <= 0xF4 ? 4 : 0;
}

/* The second byte has a narrower range after E0 (overlong), ED (surrogates), F0 (overlong) and F4 (too large). */
static bool second_is_allowed(const uint8_t first, const uint8_t second)
{
    const uint8_t low = first == 0xE0 ? 0xA0 : first == 0xF0 ? 0x90 : 0x80;
    const uint8_t high = first == 0xED ? 0x9F : first == 0xF4 ? 0x8F : 0xBF;
    return second >= low && second <= high;
}

static bool sequence_is_valid(const uint8_t *const at, const size_t len, const size_t left)
{
    if (len == 0 || len > left) {
        return false;
    }
    if (len > 1 && !second_is_allowed(at[0], at[1])) {
        return false;
    }
    for (size_t i = 2; i < len; i++) {
        if ((at[i] & 0xC0) != 0x80) {
            return false;
        }
    }
    return true;
}

bool ds_str_is_utf8(const ds_str text)
{
    const uint8_t *const bytes = (const uint8_t *)text.at;
    for (size_t i = 0; i < text.len;) {
        const size_t len = sequence_len(bytes[i]);
        if (!sequence_is_valid(bytes + i, len, text.len - i)) {
            return false;
        }
        i += len;
    }
    return true;
}

enum { LONGEST_WORD = 40 };

static unsigned least(const unsigned a, const unsigned b)
{
    return a < b ? a : b;
}

/* Edit distance with swaps of neighbours, over three rolling rows. */
static unsigned distance(const ds_str a, const ds_str b)
{
    unsigned rows[3][LONGEST_WORD + 1];
    for (unsigned j = 0; j <= b.len; j++) {
        rows[0][j] = j;
    }
    for (unsigned i = 1; i <= a.len; i++) {
        unsigned *const row = rows[i % 3];
        const unsigned *const above = rows[(i + 2) % 3];
        const unsigned *const above2 = rows[(i + 1) % 3];
        row[0] = i;
        for (unsigned j = 1; j <= b.len; j++) {
            const unsigned change = above[j - 1] + (a.at[i - 1] != b.at[j - 1]);
            row[j] = least(change, least(above[j], row[j - 1]) + 1);
            const bool swapped = i > 1 && j > 1 && a.at[i - 1] == b.at[j - 2] && a.at[i - 2] == b.at[j - 1];
            if (swapped) {
                row[j] = least(row[j], above2[j - 2] + 1);
            }
        }
    }
    return rows[a.len % 3][b.len];
}

size_t ds_str_nearest(const ds_str word, const ds_str *const list, const size_t list_len)
{
    size_t best = list_len;
    unsigned best_distance = (unsigned)word.len / 3 + 1;
    for (size_t i = 0; i < list_len && word.len && word.len <= LONGEST_WORD; i++) {
        if (list[i].len > LONGEST_WORD) {
            continue;
        }
        const unsigned found = distance(word, list[i]);
        if (found < best_distance) {
            best_distance = found;
            best = i;
        }
    }
    return best;
}
