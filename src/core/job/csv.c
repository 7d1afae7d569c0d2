/* SPDX-License-Identifier: MIT */
/* Cells one after the other; see csv.h. */
#include "core/job/csv.h"

static const char BYTE_ORDER_MARK[] = "\xEF\xBB\xBF";
static const char SEPARATORS[] = ",;\t";
enum { SEPARATORS_LEN = 3, LOOKED_AT = 512 };

/* --- opening ------------------------------------------------------------------------------------------------------ */

/* The separator that stands most often in the first row, outside quotes; a comma when none does. */
static char find_separator(const ds_str text)
{
    size_t counts[SEPARATORS_LEN] = {0};
    bool quoted = false;
    for (size_t i = 0; i < text.len && (quoted || (text.at[i] != '\n' && text.at[i] != '\r')); i++) {
        quoted = quoted != (text.at[i] == '"');
        const char *const which = quoted || !text.at[i] ? NULL : strchr(SEPARATORS, text.at[i]);
        if (which) {
            counts[which - SEPARATORS]++;
        }
    }
    size_t most = 0;
    for (size_t i = 1; i < SEPARATORS_LEN; i++) {
        most = counts[i] > counts[most] ? i : most;
    }
    return SEPARATORS[most];
}

void ds_csv_open(ds_csv *const out, const ds_str source, ds_arena *const arena)
{
    const bool marked = ds_str_starts(source, DS_STR(BYTE_ORDER_MARK));
    const ds_str text = source.at ? source : DS_STR("");
    *out = (ds_csv){.text = ds_str_from(text, marked ? sizeof BYTE_ORDER_MARK - 1 : 0), .arena = arena};
    out->separator = find_separator(out->text);
}

/* Two bytes a character: a byte order mark says so, or every other byte of the beginning is zero. */
static bool is_utf16(const ds_str text)
{
    if (ds_str_starts(text, DS_STR("\xFF\xFE")) || ds_str_starts(text, DS_STR("\xFE\xFF"))) {
        return true;
    }
    const size_t len = text.len < LOOKED_AT ? text.len : LOOKED_AT;
    size_t zeros[2] = {0};
    for (size_t i = 0; i < len; i++) {
        zeros[i % 2] += text.at[i] == 0;
    }
    return len >= 4 && (zeros[0] * 4 > len) != (zeros[1] * 4 > len);
}

/* --- cells -------------------------------------------------------------------------------------------------------- */

static ds_status fail(const ds_csv *const csv, const ds_problem_code code, const size_t column,
                      ds_problem *const problem)
{
    *problem = (ds_problem){.code = code, .where = {.line = csv->row, .column = (uint32_t)column}};
    if (code == DS_P_CSV_CELL_LONG) {
        problem->a = DS_STR("32767");
    } else if (code == DS_P_CSV_COLUMNS) {
        problem->a = DS_STR("256");
    }
    return DS_BAD_INPUT;
}

static bool ends_cell(const ds_csv *const csv, const size_t at)
{
    if (at >= csv->text.len) {
        return true;
    }
    const char c = csv->text.at[at];
    return c == csv->separator || c == '\n' || c == '\r';
}

/* What no cell may be, whatever its form. high: it holds bytes beyond ASCII. */
static ds_status check_cell(const ds_csv *const csv, const ds_str cell, const bool high, const size_t column,
                            ds_problem *const problem)
{
    if (cell.len > DS_CSV_CELL) {
        return fail(csv, DS_P_CSV_CELL_LONG, column, problem);
    }
    if (high && !ds_str_is_utf8(cell)) {
        return fail(csv, DS_P_CSV_NOT_UTF8, column, problem);
    }
    return DS_OK;
}

static ds_status read_plain(ds_csv *const csv, ds_str *const out, const size_t column,
                            ds_problem *const problem)
{
    const size_t start = csv->at;
    size_t at = start;
    char high = 0;
    for (; !ends_cell(csv, at); at++) {
        const char c = csv->text.at[at];
        if (c == '"' || c == 0) {
            return fail(csv, c ? DS_P_CSV_QUOTE : DS_P_CSV_ZERO, column, problem);
        }
        high = (char)(high | c);
    }
    csv->at = at;
    *out = (ds_str){csv->text.at + start, at - start};
    return check_cell(csv, *out, (high & 0x80) != 0, column, problem);
}

/* A cell's text between its quotes with doubled ones made single. */
static bool undouble(const ds_csv *const csv, ds_str *const cell)
{
    char *const at = ds_arena_take(csv->arena, cell->len);
    if (!at) {
        return false;
    }
    size_t len = 0;
    for (size_t i = 0; i < cell->len; i++) {
        at[len++] = cell->at[i];
        i += cell->at[i] == '"';
    }
    *cell = (ds_str){at, len};
    return true;
}

static ds_status read_quoted(ds_csv *const csv, ds_str *const out, const size_t column,
                             ds_problem *const problem)
{
    const ds_str rest = ds_str_from(csv->text, csv->at + 1);
    size_t len = 0;
    bool doubled = false;
    char high = 0;
    for (; len < rest.len; len++) {
        const char c = rest.at[len];
        if (c == 0) {
            return fail(csv, DS_P_CSV_ZERO, column, problem);
        }
        high = (char)(high | c);
        if (c != '"') {
            continue;
        }
        if (len + 1 >= rest.len || rest.at[len + 1] != '"') {
            break;
        }
        doubled = true;
        len++;
    }
    if (len == rest.len) {
        return fail(csv, DS_P_CSV_UNCLOSED, column, problem);
    }
    csv->at += len + 2;
    if (!ends_cell(csv, csv->at)) {
        return fail(csv, DS_P_CSV_QUOTE, column, problem);
    }
    *out = (ds_str){rest.at, len};
    const ds_status status = check_cell(csv, *out, (high & 0x80) != 0, column, problem);
    return status == DS_OK && doubled && !undouble(csv, out) ? DS_NO_MEMORY : status;
}

/* --- rows --------------------------------------------------------------------------------------------------------- */

static void skip_line_end(ds_csv *const csv)
{
    const ds_str rest = ds_str_from(csv->text, csv->at);
    csv->at += ds_str_starts(rest, DS_STR("\r\n")) ? 2 : rest.len ? 1 : 0;
}

static ds_status read_cells(ds_csv *const csv, ds_str cells[DS_CSV_COLUMNS], size_t *const len,
                            ds_problem *const problem)
{
    *len = 0;
    for (;;) {
        if (*len == DS_CSV_COLUMNS) {
            return fail(csv, DS_P_CSV_COLUMNS, *len + 1, problem);
        }
        const bool quoted = csv->at < csv->text.len && csv->text.at[csv->at] == '"';
        const ds_status status = quoted ? read_quoted(csv, &cells[*len], *len + 1, problem)
                                        : read_plain(csv, &cells[*len], *len + 1, problem);
        if (status != DS_OK) {
            return status;
        }
        ++*len;
        if (csv->at == csv->text.len || csv->text.at[csv->at] != csv->separator) {
            skip_line_end(csv);
            return DS_OK;
        }
        csv->at++;
    }
}

ds_status ds_csv_row(ds_csv *const csv, ds_str cells[DS_CSV_COLUMNS], size_t *const len,
                     ds_problem *const problem)
{
    *len = 0;
    if (csv->row == 0 && is_utf16(csv->text)) {
        csv->row = 1;
        return fail(csv, DS_P_CSV_UTF16, 1, problem);
    }
    while (csv->at < csv->text.len) {
        csv->row++;
        const ds_status status = read_cells(csv, cells, len, problem);
        if (status != DS_OK || *len > 1 || cells[0].len) {
            return status;
        }
    }
    *len = 0;
    return DS_OK;
}

/* --- formulas ----------------------------------------------------------------------------------------------------- */

/* Any number of apostrophes and then what begins a formula. */
static bool begins_formula(ds_str cell)
{
    while (cell.len && cell.at[0] == '\'') {
        cell = ds_str_from(cell, 1);
    }
    return cell.len && memchr("=+-@\t\r", cell.at[0], 6) != NULL;
}

bool ds_csv_needs_apostrophe(const ds_str cell)
{
    return begins_formula(cell);
}

bool ds_csv_has_apostrophe(const ds_str cell)
{
    return cell.len && cell.at[0] == '\'' && begins_formula(cell);
}
