/* SPDX-License-Identifier: MIT */
/*
 * Which condition, depth and time belongs to which code.
 *
 * A bracket without a code is a remark on the code before it, so its signs join nothing. A condition belongs
 * to the code before it within the same stretch, else to the one behind it there, else to the nearest code at
 * all.
 */
#include "core/mark/immersion.h"
#include "core/mark/reader.h"

/* --- brackets and joints -------------------------------------------------------------------------------- */

static uint8_t closing_of(const ds_scan *const s, const uint8_t open)
{
    uint8_t at = (uint8_t)(open + 1);
    while (at < s->items_len && s->items[at].kind != DS_ITEM_CLOSE) {
        at++;
    }
    return at;
}

static bool has_code_between(const ds_scan *const s, const uint8_t from, const uint8_t to)
{
    for (uint8_t i = from; i < to; i++) {
        if (s->items[i].kind == DS_ITEM_CODE) {
            return true;
        }
    }
    return false;
}

static bool is_sign(const ds_item *const item)
{
    return item->kind == DS_ITEM_JOINT || item->kind == DS_ITEM_OPEN || item->kind == DS_ITEM_CLOSE;
}

static void settle_brackets(ds_scan *const s)
{
    for (uint8_t i = 0; i < s->items_len; i++) {
        if (s->items[i].kind != DS_ITEM_OPEN) {
            continue;
        }
        const uint8_t end = closing_of(s, i);
        const bool has_code = has_code_between(s, i, end);
        for (uint8_t j = i; j <= end && j < s->items_len; j++) {
            if (!has_code && is_sign(&s->items[j])) {
                s->items[j].kind = DS_ITEM_GONE;
            }
        }
        i = has_code ? i : end;
    }
    for (uint8_t i = 0; i < s->items_len; i++) {
        if (s->items[i].kind == DS_ITEM_OPEN || s->items[i].kind == DS_ITEM_CLOSE) {
            s->items[i] = (ds_item){.kind = DS_ITEM_JOINT, .link = DS_LINK_BRACKET};
        }
    }
}

static void link_codes(ds_scan *const s)
{
    ds_item joint = {.link = DS_LINK_NONE};
    for (uint8_t i = 0; i < s->items_len; i++) {
        const ds_item *const item = &s->items[i];
        if (item->kind == DS_ITEM_JOINT) {
            joint = item->link > joint.link ? *item : joint;
        } else if (item->kind == DS_ITEM_CODE) {
            const bool between = joint.link == DS_LINK_DASH && s->both;
            s->codes[item->code].link = item->code == 0 ? DS_LINK_NONE : between ? DS_LINK_AND : joint.link;
            s->codes[item->code].spaced = joint.spaced;
            joint = (ds_item){.link = DS_LINK_NONE};
        }
    }
}

/* --- conditions ----------------------------------------------------------------------------------------- */

/*
 * The code nearest to an item on one side; with `within`, no further than the next joint. NULL when there is
 * none.
 */
static ds_code *nearest_code(ds_scan *const s, const uint8_t from, const int step, const bool within)
{
    for (int i = from + step; i >= 0 && i < s->items_len; i += step) {
        const ds_item *const item = &s->items[i];
        if (item->kind == DS_ITEM_CODE) {
            return &s->codes[item->code];
        }
        if (within && item->kind == DS_ITEM_JOINT) {
            return NULL;
        }
    }
    return NULL;
}

static ds_code *code_for_condition(ds_scan *const s, const uint8_t at)
{
    ds_code *code = nearest_code(s, at, -1, true);
    code = code ? code : nearest_code(s, at, 1, true);
    code = code ? code : nearest_code(s, at, -1, false);
    return code ? code : nearest_code(s, at, 1, false);
}

static void give_condition(ds_scan *const s, const uint8_t at)
{
    ds_code *const code = code_for_condition(s, at);
    if (!code) {
        return;
    }
    code->clash = code->clash || (code->when && strcmp(code->when, s->items[at].when) != 0);
    code->when = s->items[at].when;
}

/* --- depth and time ------------------------------------------------------------------------------------- */

static bool is_immersion(const ds_code *const code)
{
    return !code->water_k && (code->water == 7 || code->water == 8);
}

static ds_code *code_for_immersion(ds_scan *const s, const uint8_t at)
{
    for (int step = -1; step <= 1; step += 2) {
        for (int i = at + step; i >= 0 && i < s->items_len; i += step) {
            if (s->items[i].kind == DS_ITEM_CODE && is_immersion(&s->codes[s->items[i].code])) {
                return &s->codes[s->items[i].code];
            }
        }
    }
    return NULL;
}

static void give_immersion(ds_scan *const s, const uint8_t at)
{
    const ds_item *const item = &s->items[at];
    ds_code *const code = code_for_immersion(s, at);
    if (!code) {
        if (s->codes_len) {
            ds_scan_note(s, DS_NOTE_STRAY_IMMERSION);
        }
        return;
    }
    double *const value = item->kind == DS_ITEM_DEPTH ? &code->depth_m : &code->minutes;
    if (*value > 0 && *value != item->value) {
        ds_scan_note(s, DS_NOTE_TWO_IMMERSIONS);
    }
    *value = *value > 0 && *value < item->value ? *value : item->value;
}

/* Test 7 has its own depth and time; other figures beside it put the 7 or an 8 in doubt. */
static void check_seven(ds_scan *const s, ds_code *const code)
{
    const unsigned depth = code->depth_m > 0 ? ds_depth_down(code->depth_m) : DS_DEPTH_OF_7;
    const unsigned time = code->minutes > 0 ? ds_time_down(code->minutes) : DS_TIME_OF_7;
    code->depth_m = 0;
    code->minutes = 0;
    if (depth == DS_DEPTH_OF_7 && time == DS_TIME_OF_7) {
        return;
    }
    ds_scan_note(s, DS_NOTE_SEVEN_FIXED);
    code->beyond_7 = depth >= DS_DEPTH_OF_7 && time >= DS_TIME_OF_7;
    code->water_doubt = !code->beyond_7;
}

static void check_eight(ds_scan *const s, const ds_code *const code)
{
    const unsigned depth = ds_depth_down(code->depth_m);
    const unsigned time = ds_time_down(code->minutes);
    if (s->for_need) {
        if (!depth && !time) {
            ds_scan_note(s, DS_NOTE_ANY_EIGHT);
        }
        return;
    }
    if (!depth || !time) {
        ds_scan_note(s, depth ? DS_NOTE_EIGHT_NO_TIME : time ? DS_NOTE_EIGHT_NO_DEPTH : DS_NOTE_EIGHT_BARE);
        return;
    }
    const bool covers_7 = depth >= DS_DEPTH_OF_7 && time >= DS_TIME_OF_7;
    if (!covers_7 || (depth == DS_DEPTH_OF_7 && time == DS_TIME_OF_7)) {
        ds_scan_note(s, DS_NOTE_EIGHT_MILD);
    }
}

static void check_immersion(ds_scan *const s, ds_code *const code)
{
    if (is_immersion(code) && code->water == 7) {
        check_seven(s, code);
    } else if (is_immersion(code)) {
        check_eight(s, code);
    }
}

void ds_attach(ds_scan *const s)
{
    settle_brackets(s);
    link_codes(s);
    for (uint8_t i = 0; i < s->items_len; i++) {
        const ds_item_kind kind = s->items[i].kind;
        if (kind == DS_ITEM_CONDITION) {
            give_condition(s, i);
        } else if (kind == DS_ITEM_DEPTH || kind == DS_ITEM_TIME) {
            give_immersion(s, i);
        }
    }
    for (uint8_t i = 0; i < s->codes_len; i++) {
        check_immersion(s, &s->codes[i]);
    }
}
