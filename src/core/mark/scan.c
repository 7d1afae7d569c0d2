/* SPDX-License-Identifier: MIT */
/* The walk over a folded text: which recogniser is asked where, and what the signs between words mean. */
#include "core/mark/reader.h"

void ds_scan_note(ds_scan *const s, const ds_note_id note)
{
    if (!ds_note_add(s->out, note)) {
        s->silent = true;
    }
}

void ds_scan_item(ds_scan *const s, const ds_item *const item)
{
    if (s->items_len == DS_ITEMS_MAX) {
        ds_scan_note(s, DS_NOTE_TOO_MUCH);
        return;
    }
    s->items[s->items_len++] = *item;
}

void ds_scan_add_code(ds_scan *const s, const ds_code *const code)
{
    if (s->codes_len == DS_CODES_MAX) {
        ds_scan_note(s, DS_NOTE_TOO_MUCH);
        return;
    }
    ds_scan_item(s, &(ds_item){.kind = DS_ITEM_CODE, .code = s->codes_len});
    s->codes[s->codes_len++] = *code;
}

static void add_joint(ds_scan *const s, const ds_link link)
{
    const bool spaced = ds_peek(s, s->pos + 1) == ' ' || (s->pos && s->at[s->pos - 1] == ' ');
    ds_scan_item(s, &(ds_item){.kind = DS_ITEM_JOINT, .link = link, .spaced = spaced});
    s->pos++;
}

static void add_bracket(ds_scan *const s, const ds_item_kind kind)
{
    ds_scan_item(s, &(ds_item){.kind = kind});
    s->pos++;
}

/* A plus joins what looks like a further code to the one before; otherwise it is a boast ("IP54+"). */
static void scan_plus(ds_scan *const s)
{
    const size_t next = ds_skip_blanks(s, s->pos + 1);
    const char c = ds_upper(ds_peek(s, next));
    if (ds_is_digit(c) || c == 'X' || c == 'I') {
        add_joint(s, DS_LINK_AND);
        return;
    }
    if (s->codes_len) {
        s->plus = true;
        ds_scan_note(s, DS_NOTE_PLUS);
    } else {
        s->unknown_words = true;
    }
    s->pos++;
}

/* ">", ">=", "=>": at least. */
static void scan_at_least(ds_scan *const s)
{
    s->is_need = true;
    while (ds_peek(s, s->pos) == '>' || ds_peek(s, s->pos) == '=') {
        s->pos++;
    }
}

static void scan_sign(ds_scan *const s, const char c)
{
    switch (c) {
    case '(':
    case '[':
        add_bracket(s, DS_ITEM_OPEN);
        break;
    case ')':
    case ']':
        add_bracket(s, DS_ITEM_CLOSE);
        break;
    case ',':
    case ';':
        add_joint(s, DS_LINK_COMMA);
        break;
    case '/':
        add_joint(s, DS_LINK_SLASH);
        break;
    case '&':
        add_joint(s, DS_LINK_AND);
        break;
    case '-':
        add_joint(s, DS_LINK_DASH);
        break;
    case '+':
        scan_plus(s);
        break;
    case '>':
        scan_at_least(s);
        break;
    case '*':
        ds_scan_note(s, DS_NOTE_FOOTNOTE);
        s->pos++;
        break;
    case ' ':
    case '.':
    case ':':
    case '=':
    case '"':
    case '\'':
    case '@':
        s->pos++;
        break;
    default:
        s->unknown_words = true;
        s->pos++;
    }
}

static void scan_word(ds_scan *const s)
{
    const bool known = ds_scan_code(s) || ds_scan_short(s) || ds_scan_impact(s) || ds_scan_temperature(s) ||
                       ds_scan_quantity(s) || ds_scan_nema(s) || ds_scan_standard(s) || ds_scan_phrase(s);
    if (!known) {
        s->unknown_words = true;
        s->pos = ds_word_end(s, s->pos);
    }
}

void ds_scan_run(ds_scan *const s)
{
    while (s->pos < s->len) {
        const char c = s->at[s->pos];
        if (ds_is_word(c)) {
            scan_word(s);
        } else if (c == '|' && ds_scan_code(s)) {
            continue; /* a bar read for I */
        } else if (!((c == '-' || c == '+') && ds_scan_temperature(s))) {
            scan_sign(s, c);
        }
    }
}
