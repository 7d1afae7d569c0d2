/* SPDX-License-Identifier: MIT */
/*
 * What a cell says: as the text of a spreadsheet, to a value of the document, within the limits of the key's table.
 *
 * Numbers keep their text. 2,5 is 2.5 where commas do not separate cells; 1,200 in a table with commas is refused, since
 * it may be either.
 */
#include "core/job/import_parts.h"

#include <math.h>

enum { NUMBER_MOST = 64 };

/* --- text --------------------------------------------------------------------------------------------------------- */

/* Bytes of the blank that text begins with; 0 without. A no-break space is one too. */
static size_t blank_len(const ds_str text)
{
    if (text.len && memchr(" \t\r\n", text.at[0], 4)) {
        return 1;
    }
    return ds_str_starts(text, DS_STR("\xC2\xA0")) ? 2 : 0;
}

ds_str ds_import_strip(ds_str text)
{
    for (size_t n = blank_len(text); n; n = blank_len(text)) {
        text = ds_str_from(text, n);
    }
    for (;;) {
        const size_t one = text.len ? blank_len((ds_str){text.at + text.len - 1, 1}) : 0;
        const size_t two = text.len > 1 ? blank_len((ds_str){text.at + text.len - 2, 2}) : 0;
        if (!one && two != 2) {
            return text;
        }
        text.len -= one ? one : two;
    }
}

ds_str ds_import_trim(const ds_str cell)
{
    return ds_import_strip(ds_csv_has_apostrophe(cell) ? ds_str_from(cell, 1) : cell);
}

/* --- values ------------------------------------------------------------------------------------------------------- */

static ds_json *take(ds_importer *const importer, const ds_json_kind kind)
{
    ds_json *const value = ds_arena_take(importer->arena, sizeof *value);
    if (value) {
        value->kind = (uint8_t)kind;
    } else {
        importer->failed = true;
    }
    return value;
}

static ds_json *make_text(ds_importer *const importer, const ds_json_kind kind, const ds_str text)
{
    ds_json *const value = take(importer, kind);
    if (value) {
        value->text = text.at;
        value->text_len = (uint32_t)text.len;
    }
    return value;
}

const ds_json *ds_import_text(ds_importer *const importer, const ds_str text)
{
    return make_text(importer, DS_JSON_STRING, text);
}

/* Puts item at the end of list. last: the one before; NULL when list is empty. */
static void append(ds_json *const list, ds_json *const item, ds_json *const last)
{
    item->parent = list;
    item->next = NULL;
    list->count++;
    if (last) {
        last->next = item;
    } else {
        list->first = item;
    }
}

const ds_json *ds_import_list(ds_importer *const importer, const ds_json *const *const items,
                              const uint32_t len)
{
    ds_json *const list = take(importer, DS_JSON_ARRAY);
    ds_json *last = NULL;
    for (uint32_t i = 0; list && i < len; i++) {
        ds_json *const item = make_text(importer, (ds_json_kind)items[i]->kind, ds_json_text(items[i]));
        if (!item) {
            return NULL;
        }
        append(list, item, last);
        last = item;
    }
    return list;
}

/* --- cells -------------------------------------------------------------------------------------------------------- */

/* The cell being read. */
typedef struct spot {
    ds_importer *importer;
    const ds_field *field;
    ds_str cell;
    size_t column;
} spot;

static const ds_json *complain(const spot *const at, const ds_problem_code code, const ds_str a,
                               const ds_str b)
{
    ds_importer_complain(at->importer, at->column, code, a, b);
    return NULL;
}

static const ds_json *refuse(const spot *const at, const char *const form)
{
    return complain(at, DS_P_CELL_FORM, at->cell, ds_str_of(form));
}

/* The text as JSON writes numbers: "+2,50" -> "2.50", ".5" -> "0.5". Length 0 when it cannot be one. */
static size_t plain_number(char out[NUMBER_MOST], ds_str text, const bool comma)
{
    static const char MINUS[] = "\xE2\x88\x92";
    size_t len = 0;
    if (ds_str_starts(text, DS_STR("+"))) {
        text = ds_str_from(text, 1);
    } else if (ds_str_starts(text, DS_STR("-")) || ds_str_starts(text, DS_STR(MINUS))) {
        out[len++] = '-';
        text = ds_str_from(text, text.at[0] == '-' ? 1 : sizeof MINUS - 1);
    }
    if (text.len + 4 > NUMBER_MOST || (text.len && !memchr("0123456789.,", text.at[0], 12))) {
        return 0;
    }
    if (text.len && !memchr("0123456789", text.at[0], 10)) {
        out[len++] = '0';
    }
    for (size_t i = 0; i < text.len; i++) {
        out[len++] = (char)(comma && text.at[i] == ',' ? '.' : text.at[i]);
    }
    return len;
}

static const ds_json *read_number(const spot *const at, const ds_str text)
{
    char plain[NUMBER_MOST];
    const ds_field *const field = at->field;
    double number = 0;
    const size_t len = plain_number(plain, text, at->importer->out->separator != ',');
    const bool good = len && ds_number_read((ds_str){plain, len}, &number);
    const bool counts = field->kind == DS_FIELD_COUNT;
    if (!good || (counts && number != floor(number))) {
        return refuse(at, counts ? "a whole number" : "a number");
    }
    if (number < field->low || number > field->high) {
        ds_text limits;
        ds_text_init(&limits, at->importer->arena->alloc);
        ds_text_number(&limits, field->low, 3);
        ds_text_add(&limits, " to ");
        ds_text_number(&limits, field->high, 3);
        complain(at, DS_P_OUT_OF_RANGE, at->cell, ds_importer_keep(at->importer, ds_text_str(&limits)));
        ds_text_free(&limits);
        return NULL;
    }
    const bool same = len == text.len && memcmp(plain, text.at, len) == 0;
    const ds_str kept = same ? text : ds_importer_keep(at->importer, (ds_str){plain, len});
    return make_text(at->importer, DS_JSON_NUMBER, kept);
}

/* The next piece of a list of words: between semicolons or commas where there are any, else between blanks. */
static ds_str next_piece(ds_str *const rest, const char *const between)
{
    size_t len = 0;
    while (len < rest->len && !strchr(between, rest->at[len])) {
        len++;
    }
    const ds_str piece = ds_import_strip((ds_str){rest->at, len});
    *rest = ds_str_from(*rest, len + 1);
    return piece;
}

static const char *between_words(const ds_str cell)
{
    const bool marked = memchr(cell.at, ';', cell.len) || memchr(cell.at, ',', cell.len);
    return marked ? ";," : " \t\r\n";
}

static const ds_json *read_words(const spot *const at)
{
    const char *const between = between_words(at->cell);
    ds_json *const list = take(at->importer, DS_JSON_ARRAY);
    ds_json *last = NULL;
    for (ds_str rest = at->cell; list && rest.len;) {
        const ds_str word = next_piece(&rest, between);
        ds_json *const item = word.len ? make_text(at->importer, DS_JSON_STRING, word) : NULL;
        if (item) {
            append(list, item, last);
            last = item;
        }
    }
    return list;
}

static const ds_json *read_numbers(const spot *const at, const uint32_t count, const char *const form)
{
    const bool marked = memchr(at->cell.at, ';', at->cell.len) != NULL;
    const ds_json *items[4];
    uint32_t len = 0;
    for (ds_str rest = at->cell; rest.len;) {
        const ds_str piece = next_piece(&rest, marked ? ";" : " \t\r\n");
        if (!piece.len) {
            continue;
        }
        const ds_json *const item = len < count ? read_number(at, piece) : refuse(at, form);
        if (!item) {
            return NULL;
        }
        items[len++] = item;
    }
    return len == count ? ds_import_list(at->importer, items, len) : refuse(at, form);
}

static const ds_json *read_tri(const spot *const at)
{
    static const char *const WORDS[] = {"no", "yes", "false", "true", "n", "y", "0", "1"};
    char small[8];
    for (size_t i = 0; i < at->cell.len && i < sizeof small; i++) {
        const char c = at->cell.at[i];
        small[i] = (char)(c >= 'A' && c <= 'Z' ? c - 'A' + 'a' : c);
    }
    for (size_t i = 0; i < sizeof WORDS / sizeof *WORDS && at->cell.len <= sizeof small; i++) {
        if (ds_str_is((ds_str){small, at->cell.len}, WORDS[i])) {
            return take(at->importer, i % 2 ? DS_JSON_TRUE : DS_JSON_FALSE);
        }
    }
    return refuse(at, "yes or no");
}

static const ds_json *read_text(const spot *const at)
{
    const bool date = strcmp(at->field->key, "date") == 0;
    if (date && !ds_date_is_valid(at->cell)) {
        return complain(at, DS_P_BAD_DATE, at->cell, DS_STR(""));
    }
    return ds_import_text(at->importer, at->cell);
}

const ds_json *ds_import_value(ds_importer *const importer, const ds_import_key *const key, const ds_str cell,
                               const size_t column)
{
    const spot at = {importer, key->field, cell, column};
    switch (key->field->kind) {
    case DS_FIELD_NUMBER:
    case DS_FIELD_COUNT:
        return read_number(&at, cell);
    case DS_FIELD_TRI:
        return read_tri(&at);
    case DS_FIELD_WORDS:
        return read_words(&at);
    case DS_FIELD_TREE: /* what was seen: "none", or words */
        return ds_str_is(cell, "none") ? read_text(&at) : read_words(&at);
    case DS_FIELD_RANGE:
    case DS_FIELD_PLACE:
        return read_numbers(&at, 2, "two numbers with a blank between");
    case DS_FIELD_POINT:
        return key->part >= 0 ? read_number(&at, cell)
                              : read_numbers(&at, 3, "three numbers with blanks between");
    case DS_FIELD_TEXT:
    case DS_FIELD_OBJECT:
        break;
    }
    return read_text(&at);
}

/* --- the same? ---------------------------------------------------------------------------------------------------- */

static bool same_single(const ds_json *const a, const ds_json *const b)
{
    double x = 0;
    double y = 0;
    if (a->kind != b->kind || a->kind >= DS_JSON_ARRAY) {
        return false;
    }
    if (a->kind == DS_JSON_NUMBER) {
        return ds_json_number(a, &x) && ds_json_number(b, &y) && x == y;
    }
    return a->kind != DS_JSON_STRING || ds_str_eq(ds_json_text(a), ds_json_text(b));
}

/* {"word": "flooding", "depth_m": 0.8} says "flooding" and more. */
static const ds_json *word_of(const ds_json *const item)
{
    const ds_json *const word = item->kind == DS_JSON_OBJECT ? ds_json_get(item, DS_STR("word")) : NULL;
    return word ? word : item;
}

bool ds_import_same(const ds_json *const a, const ds_json *const b)
{
    if (a->kind != DS_JSON_ARRAY || b->kind != DS_JSON_ARRAY) {
        return same_single(a, b);
    }
    const ds_json *x = a->first;
    const ds_json *y = b->first;
    while (x && y && same_single(word_of(x), word_of(y))) {
        x = x->next;
        y = y->next;
    }
    return !x && !y;
}
