/* SPDX-License-Identifier: MIT */
/*
 * IP codes in wild text: head ("IP", "I.P.", a misread "lP"), numerals with or without K, letters, and what
 * follows them so closely that it is no code after all.
 *
 * A head without numerals is a word like any other ("IP rated"). With one numeral, or with numerals that do
 * not exist, it is a code that is refused.
 */
#include "core/mark/print.h"
#include "core/mark/reader.h"

/* What was odd about the head, by bits. */
enum {
    ODD_CASE = 1,
    ODD_DOT = 2,
    ODD_SPACE = 4,
    ODD_HYPHEN = 8,
    ODD_MISREAD = 16,
    ODD_NO_I = 32,
    ODD_OLD_W = 64
};

typedef struct head {
    size_t end;
    unsigned odd;
} head;

enum { NUMERALS_MAX = 4 };

typedef struct body {
    char numeral[NUMERALS_MAX]; /* '0'..'9' or 'X' */
    bool k[NUMERALS_MAX];
    unsigned len;
    size_t end;
    bool letter_o, sign, lower;
} body;

/* --- head ----------------------------------------------------------------------------------------------- */

/* "IP", "ip", "I.P": where it ends, 0 for none. */
static size_t plain_head(const ds_scan *const s, unsigned *const odd)
{
    size_t at = s->pos;
    const char i = ds_peek(s, at++);
    if (ds_peek(s, at) == '.') {
        *odd |= ODD_DOT;
        at++;
    }
    const char p = ds_peek(s, at++);
    if (ds_upper(i) != 'I' || ds_upper(p) != 'P') {
        return 0;
    }
    *odd |= i != 'I' || p != 'P' ? ODD_CASE : 0;
    return at;
}

/* Signs met where an X belongs. */
static bool is_sign(const char c)
{
    return c == '*' || c == '?' || c == '_';
}

static bool is_numeral(const char c)
{
    return ds_is_digit(c) || ds_upper(c) == 'X' || ds_upper(c) == 'O' || is_sign(c);
}

/*
 * One or two blanks, dots, colons or dashes between head and numerals; an underline only where two numerals
 * follow.
 */
static size_t skip_separators(const ds_scan *const s, size_t at, unsigned *const odd)
{
    for (int i = 0; i < 3; i++) {
        const char c = ds_peek(s, at);
        const bool is_dash =
            c == '-' || (c == '_' && is_numeral(ds_peek(s, at + 1)) && is_numeral(ds_peek(s, at + 2)));
        const bool is_dot = c == '.' || c == ':' || c == '=';
        if (!is_dash && !is_dot && c != ' ') {
            break;
        }
        *odd |= is_dash ? ODD_HYPHEN : is_dot ? ODD_DOT : ODD_SPACE;
        at++;
    }
    return at;
}

static bool read_head(const ds_scan *const s, head *const out)
{
    *out = (head){0};
    out->end = plain_head(s, &out->odd);
    if (out->end) {
        const char w = ds_peek(s, out->end);
        const char after = ds_peek(s, out->end + 1);
        if (ds_upper(w) == 'W' && (ds_is_digit(after) || after == 'X')) {
            out->odd |= ODD_OLD_W;
            out->end++;
        } else {
            out->end = skip_separators(s, out->end, &out->odd);
        }
        return true;
    }
    const char first = ds_peek(s, s->pos);
    const bool misread =
        (first == 'l' || first == '1' || first == '|') && ds_upper(ds_peek(s, s->pos + 1)) == 'P';
    if (misread || first == 'P') {
        *out = (head){s->pos + (misread ? 2 : 1), misread ? ODD_MISREAD : ODD_NO_I};
        return true;
    }
    return false;
}

static void note_head(ds_scan *const s, const unsigned odd)
{
    static const struct {
        unsigned odd;
        ds_note_id note;
    } NOTES[] = {{ODD_CASE, DS_NOTE_CASE},     {ODD_DOT, DS_NOTE_POINTS},      {ODD_SPACE, DS_NOTE_SPACED},
                 {ODD_HYPHEN, DS_NOTE_HYPHEN}, {ODD_MISREAD, DS_NOTE_MISREAD}, {ODD_NO_I, DS_NOTE_OLD_P},
                 {ODD_OLD_W, DS_NOTE_OLD_W}};
    for (size_t i = 0; i < sizeof NOTES / sizeof *NOTES; i++) {
        if (odd & NOTES[i].odd) {
            ds_scan_note(s, NOTES[i].note);
        }
    }
}

/* --- numerals ------------------------------------------------------------------------------------------- */

static void add_numeral(body *const b, const char c)
{
    const char up = ds_upper(c);
    b->letter_o = b->letter_o || up == 'O';
    b->sign = b->sign || is_sign(c);
    b->lower = b->lower || c == 'x';
    b->numeral[b->len] = (char)(ds_is_digit(c) ? c : up == 'O' ? '0' : 'X');
    b->k[b->len++] = false;
}

static void read_numerals(const ds_scan *const s, const size_t from, body *const b)
{
    b->end = from;
    while (b->len < NUMERALS_MAX && is_numeral(ds_peek(s, b->end))) {
        if (b->len >= 2 && is_sign(ds_peek(s, b->end))) {
            return; /* a footnote, not a third numeral */
        }
        add_numeral(b, ds_peek(s, b->end++));
        if (ds_upper(ds_peek(s, b->end)) == 'K') {
            b->lower = b->lower || ds_peek(s, b->end) == 'k';
            b->k[b->len - 1] = true;
            b->end++;
        }
    }
}

/* "IP 4 4", "IP X 5", "IPX-5": the second numeral apart, and nothing that makes it a figure of its own. */
static void read_numeral_apart(const ds_scan *const s, head *const h, body *const b)
{
    const char gap = ds_peek(s, b->end);
    const char c = ds_peek(s, b->end + 1);
    const bool after_x = b->numeral[0] == 'X';
    const bool fits = (gap == ' ' || (gap == '-' && after_x)) && ds_is_digit(c) && !b->k[0];
    ds_quantity figure;
    if (!fits || ds_is_word(ds_peek(s, b->end + 2)) || ds_quantity_at(s->at, s->len, b->end + 1, &figure)) {
        return;
    }
    h->odd |= gap == ' ' ? ODD_SPACE : ODD_HYPHEN;
    add_numeral(b, c);
    b->end += 2;
}

static bool has_digit_or_x(const body *const b)
{
    return b->len > 0 && !(b->letter_o && b->len == 1) && !(b->sign && b->len == 1);
}

/* "192.168.1": digits, dot, digits, dot, digits. */
static bool is_address(const ds_scan *const s, const size_t from)
{
    size_t at = from;
    for (int i = 0; i < 3; i++) {
        const size_t start = at;
        while (ds_is_digit(ds_peek(s, at))) {
            at++;
        }
        if (at == start || (i < 2 && ds_peek(s, at++) != '.')) {
            return false;
        }
    }
    return true;
}

/* --- the code ------------------------------------------------------------------------------------------- */

static int8_t value_of(const char numeral)
{
    return (int8_t)(numeral == 'X' ? -1 : numeral - '0');
}

static bool is_k_form(const char first, const bool first_k, const char second, const bool second_k)
{
    const bool first_exists = !first_k || first == '5' || first == '6';
    const bool second_exists = !second_k || second == '4' || second == '6' || second == '9';
    return first_exists && second_exists;
}

/* What is wrong with the numerals as such; DS_NOTE_COUNT when nothing is. */
static ds_note_id fault_of(const body *const b)
{
    if (b->len == 1) {
        return b->numeral[0] == 'X' && !b->k[0] ? DS_NOTE_NOTHING_STATED : DS_NOTE_ONE_NUMERAL;
    }
    if (b->len == NUMERALS_MAX || (b->len == 3 && (b->k[0] || b->k[1] || b->k[2] || b->sign))) {
        return DS_NOTE_RUNS_ON;
    }
    if (value_of(b->numeral[0]) > DS_OBJECTS_LEN) {
        return DS_NOTE_FIRST_TOO_HIGH;
    }
    return is_k_form(b->numeral[0], b->k[0], b->numeral[1], b->k[1]) ? DS_NOTE_COUNT : DS_NOTE_NO_SUCH_K;
}

static ds_code code_of(const body *const b, const unsigned second)
{
    return (ds_code){.objects = value_of(b->numeral[0]),
                     .objects_k = b->k[0],
                     .water = value_of(b->numeral[second]),
                     .water_k = b->k[second]};
}

static void note_k(ds_scan *const s, ds_code *const code)
{
    if (!code->objects_k && !code->water_k) {
        return;
    }
    const bool beside_plain = code->water_k && code->objects >= 5 && !code->objects_k;
    if (beside_plain && code->water != 9) {
        code->water_doubt = true;
        ds_scan_note(s, DS_NOTE_SIX_K);
        return;
    }
    ds_scan_note(s, DS_NOTE_ROAD_VEHICLE);
    if (beside_plain) {
        ds_scan_note(s, DS_NOTE_NINE_K);
    }
}

/*
 * Three numerals: two codes when the last two can be jets and immersion, else a code and an old impact digit.
 */
static void take_three(ds_scan *const s, const body *const b)
{
    const ds_code first = code_of(b, 1);
    const bool two_codes =
        (b->numeral[1] == '5' || b->numeral[1] == '6') && b->numeral[2] >= '7' && b->numeral[2] <= '9';
    ds_scan_note(s, two_codes ? DS_NOTE_THREE_NUMERALS : DS_NOTE_THIRD_DIGIT);
    ds_scan_add_code(s, &first);
    if (two_codes) {
        const ds_code second = code_of(b, 2);
        ds_scan_item(s, &(ds_item){.kind = DS_ITEM_JOINT, .link = DS_LINK_SLASH});
        ds_scan_add_code(s, &second);
    }
    s->pos = b->end;
}

static void take_two(ds_scan *const s, const head *const h, const body *const b)
{
    ds_code code = code_of(b, 1);
    const uint8_t old_w = h->odd & ODD_OLD_W ? DS_LETTER_W : 0;
    if (!ds_scan_letters(s, &code) || !ds_scan_tail(s)) {
        return;
    }
    code.letters |= old_w;
    if (code.objects < 0 && code.water < 0 && !code.access) {
        ds_scan_note(s, DS_NOTE_NOTHING_STATED);
        return;
    }
    note_k(s, &code);
    ds_scan_add_code(s, &code);
}

static void take_code(ds_scan *const s, const head *const h, const body *const b)
{
    note_head(s, h->odd | (b->lower ? ODD_CASE : 0));
    s->pos = b->end;
    const ds_note_id fault = fault_of(b);
    const bool runs_on = b->len == 3 && ds_is_word(ds_peek(s, b->end));
    if (fault != DS_NOTE_COUNT || runs_on) {
        ds_scan_note(s, runs_on ? DS_NOTE_RUNS_ON : fault);
        s->pos = ds_word_end(s, s->pos);
        return;
    }
    if (b->letter_o) {
        ds_scan_note(s, DS_NOTE_LETTER_O);
    }
    if (b->sign) {
        ds_scan_note(s, DS_NOTE_SIGN_FOR_X);
    }
    if (b->len == 3) {
        take_three(s, b);
    } else {
        take_two(s, h, b);
    }
}

bool ds_scan_code(ds_scan *const s)
{
    head h;
    body b = {.len = 0};
    if (!read_head(s, &h)) {
        return false;
    }
    if (is_address(s, h.end)) {
        ds_scan_note(s, DS_NOTE_ADDRESS);
        for (s->pos = h.end; ds_is_digit(ds_peek(s, s->pos)) || ds_peek(s, s->pos) == '.';) {
            s->pos++;
        }
        return true;
    }
    read_numerals(s, h.end, &b);
    const bool guessed = h.odd & (ODD_MISREAD | ODD_NO_I);
    if (!has_digit_or_x(&b) || (guessed && (b.len != 2 || ds_is_word(ds_peek(s, b.end))))) {
        return false;
    }
    if (b.len == 1 && !ds_is_word(ds_peek(s, b.end))) {
        read_numeral_apart(s, &h, &b);
    }
    take_code(s, &h, &b);
    return true;
}

/* --- a shortened second code ---------------------------------------------------------------------------- */

static bool follows_a_code(const ds_scan *const s)
{
    return s->items_len >= 2 && s->items[s->items_len - 1].kind == DS_ITEM_JOINT &&
           s->items[s->items_len - 1].link != DS_LINK_COMMA &&
           s->items[s->items_len - 2].kind == DS_ITEM_CODE;
}

/*
 * "/67" is a code without its IP, "/7" one without its first numeral too, which it takes from the code
 * before.
 */
bool ds_scan_short(ds_scan *const s)
{
    body b = {.len = 0};
    ds_quantity figure;
    if (!follows_a_code(s) || ds_quantity_at(s->at, s->len, s->pos, &figure)) {
        return false;
    }
    read_numerals(s, s->pos, &b);
    const bool is_pair = b.len == 2 && !b.letter_o && !b.sign && value_of(b.numeral[0]) <= DS_OBJECTS_LEN;
    const bool is_single = b.len == 1 && ds_is_digit(b.numeral[0]) && !b.letter_o && !b.sign;
    const bool is_decimal = ds_peek(s, b.end) == '.' && ds_is_digit(ds_peek(s, b.end + 1));
    if ((!is_pair && !is_single) || ds_is_word(ds_peek(s, b.end)) || is_decimal) {
        return false;
    }
    ds_code code = s->codes[s->codes_len - 1];
    code.water = value_of(b.numeral[b.len - 1]);
    code.water_k = b.k[b.len - 1];
    if (is_pair) {
        code.objects = value_of(b.numeral[0]);
        code.objects_k = b.k[0];
    }
    if (!is_k_form((char)('0' + code.objects), code.objects_k, (char)('0' + code.water), code.water_k)) {
        return false;
    }
    code.water_doubt = false;
    ds_scan_note(s, DS_NOTE_SHORTENED);
    note_k(s, &code);
    ds_scan_add_code(s, &code);
    s->pos = b.end;
    return true;
}
