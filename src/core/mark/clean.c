/* SPDX-License-Identifier: MIT */
/*
 * Clean codes, read in one pass without scanning. Most marks of a catalogue are of this kind.
 */
#include "core/mark/clean.h"

#include "core/mark/print.h"

static bool is_digit(const char c)
{
    return c >= '0' && c <= '9';
}

/* "08" to "10" and their kin at an index. -1 for anything else. */
static int grade_at(const ds_str text, const size_t at)
{
    if (at + 4 != text.len || text.at[at] != 'I' || text.at[at + 1] != 'K') {
        return -1;
    }
    const char tens = text.at[at + 2];
    const char units = text.at[at + 3];
    if (tens == '0' && is_digit(units)) {
        return units - '0';
    }
    return tens == '1' && units == '0' ? 10 : -1;
}

/* One code at an index: its length, 0 when it is not clean. */
static size_t code_at(const ds_str text, const size_t at, ds_claim *const claim, uint8_t *const letters)
{
    if (text.len - at < 4 || text.at[at] != 'I' || text.at[at + 1] != 'P') {
        return 0;
    }
    const char first = text.at[at + 2];
    const char second = text.at[at + 3];
    const bool has_first = first >= '0' && first <= '6';
    const bool has_second = is_digit(second) && second != '8';
    size_t end = at + 4;
    if ((!has_first && first != 'X') || (!has_second && second != 'X')) {
        return 0;
    }
    claim->objects = (int8_t)(has_first ? first - '0' : -1);
    claim->water_stated = has_second;
    claim->water = (uint16_t)(has_second && second != '0' ? 1U << (second - '0') : 0);
    if (end < text.len && text.at[end] >= 'A' && text.at[end] <= 'D') {
        claim->access = text.at[end++];
    }
    if (end < text.len && text.at[end] == 'M') {
        *letters |= DS_LETTER_M;
        end++;
    }
    if (end < text.len && text.at[end] == 'S') {
        *letters |= DS_LETTER_S;
        end++;
    }
    const bool says_more = !claim->access || claim->access > ds_implied_letter(claim->objects);
    return says_more && (has_first || has_second || claim->access) ? end - at : 0;
}

/* Numerals 0 to 6 of one enclosure: one at most, and 0 only alone. */
static bool fit_together(const ds_claim *const all, const ds_claim *const more)
{
    const bool same = all->objects == more->objects && all->access == more->access;
    const bool both_low = all->water & 0x7E && more->water & 0x7E;
    return same && all->water && more->water && !(all->water & more->water) && !both_low;
}

/* Further codes behind slashes; where they end, 0 when the whole is not clean. */
static size_t further_codes(const ds_str text, size_t at, ds_claim *const all, const uint8_t letters)
{
    while (at < text.len && text.at[at] == '/') {
        ds_claim more = DS_CLAIM_NOTHING;
        uint8_t its_letters = 0;
        const size_t len = code_at(text, at + 1, &more, &its_letters);
        if (!len || its_letters != letters || !fit_together(all, &more)) {
            return 0;
        }
        all->water = (uint16_t)(all->water | more.water);
        at += 1 + len;
    }
    return at;
}

static bool read_impact_alone(const ds_str text, ds_claim *const claim)
{
    claim->impact = (int8_t)grade_at(text, 0);
    return claim->impact >= 0;
}

static bool read_codes(const ds_str text, ds_claim *const claim, uint8_t *const letters)
{
    size_t at = code_at(text, 0, claim, letters);
    if (at && at < text.len) {
        at = further_codes(text, at, claim, *letters);
    }
    if (!at) {
        return false;
    }
    if (at < text.len) {
        claim->impact = (int8_t)(text.at[at] == ' ' ? grade_at(text, at + 1) : -1);
        return claim->impact >= 0;
    }
    return true;
}

bool ds_mark_read_clean(const ds_str text, ds_reading *const out)
{
    ds_claim claim = DS_CLAIM_NOTHING;
    uint8_t letters = 0;
    if (text.len < 4 || text.at[0] != 'I') {
        return false;
    }
    if (!(text.at[1] == 'K' ? read_impact_alone(text, &claim) : read_codes(text, &claim, &letters))) {
        return false;
    }
    out->claim = claim;
    out->letters = letters;
    out->mark = ds_mark_from(&claim);
    out->status = DS_READ_CODE;
    out->valid = true;
    out->has_code = true;
    return true;
}
