/* SPDX-License-Identifier: MIT */
/*
 * The book through libxlsxwriter, which writes to files only: a temporary one is written, read and removed. Rows are
 * written in order, so the library keeps no sheet in memory.
 */
#define _XOPEN_SOURCE 700 /* mkstemp, P_tmpdir; NOLINT(bugprone-reserved-identifier) */
#include "paper/sheet_xlsx.h"

#include "core/assess/say.h"
#include "paper/parts.h"
#include "paper/sheet_columns.h"
#include "paper/sheet_text.h"
#include "paper/sheet_whole.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <unistd.h>
#include <xlsxwriter.h>

enum { ROWS_MOST = 1048575, PATH_MOST = 4096 };
enum { LINE_PT = 15, LINES_MOST = 27, HEAD_LINES = 2 }; /* a row can be 409 pt high */

typedef struct book {
    lxw_workbook *workbook;
    lxw_format *head, *number_head, *text, *strong, *number, *blank;
    const ds_findings *findings;
    ds_parts parts; /* the order of the papers, and groups */
    ds_text say;    /* room to make a cell in */
    double lines;   /* that the row being written takes */
    bool failed;    /* memory ran out */
} book;

/* --- cells ------------------------------------------------------------------------------------------------------- */

/* Puts what was made in say into a cell, as text whatever it begins with; an empty one is left out: it looks as its column. */
static void put_text(book *const b, lxw_worksheet *const sheet, const lxw_row_t row, const size_t column,
                     lxw_format *const format)
{
    ds_cell_fit(&b->say);
    b->failed = b->failed || !ds_text_ok(&b->say);
    if (b->failed) {
        return;
    }
    if (b->say.len > 1) {
        worksheet_write_string(sheet, row, (lxw_col_t)column, b->say.at, format);
    }
    b->say.len = 0;
}

static void put_cell(book *const b, lxw_worksheet *const sheet, const lxw_row_t row, const size_t column,
                     const ds_sheet_column *const what, const ds_finding *const finding)
{
    const double number = what->number ? what->number(finding) : NAN;
    if (isfinite(number)) {
        worksheet_write_number(sheet, row, (lxw_col_t)column, number, b->number);
    } else if (what->say) {
        what->say(&b->say, b->findings, finding);
        b->lines = fmax(b->lines, ds_cell_lines(ds_text_str(&b->say), what->width));
        put_text(b, sheet, row, column, column == 0 ? b->strong : b->text);
    } else if (!what->number) {
        worksheet_write_blank(sheet, row, (lxw_col_t)column, b->blank);
    }
}

static void end_row(book *const b, lxw_worksheet *const sheet, const lxw_row_t row)
{
    if (b->lines > 1) {
        worksheet_set_row(sheet, row, LINE_PT * fmin(b->lines, LINES_MOST), NULL);
    }
    b->lines = 0;
}

/* --- sheets ------------------------------------------------------------------------------------------------------- */

static lxw_worksheet *begin_sheet(const book *const b, const char *const name)
{
    lxw_worksheet *const sheet = workbook_add_worksheet(b->workbook, name);
    if (sheet) {
        worksheet_set_landscape(sheet);
        worksheet_set_paper(sheet, 9); /* A4 */
        worksheet_fit_to_pages(sheet, 1, 0);
        worksheet_set_footer(sheet, "&L&A&RPage &P of &N");
    }
    return sheet;
}

/* A column of figures: of the point's, or of the buyer's groups. */
static bool is_figures(const ds_sheet_column *const column)
{
    return column->number || column->figures;
}

/* Heads that stay in sight, are printed on each page and filter what is below them. */
static void put_heads(book *const b, lxw_worksheet *const sheet, const ds_sheet_form *const form,
                      const size_t rows)
{
    for (size_t i = 0; i < form->columns_len; i++) {
        const lxw_col_t column = (lxw_col_t)i;
        worksheet_set_column(sheet, column, column, form->columns[i]->width, b->text);
        worksheet_write_string(sheet, 0, column, form->columns[i]->head,
                               is_figures(form->columns[i]) ? b->number_head : b->head);
    }
    worksheet_set_row(sheet, 0, HEAD_LINES * LINE_PT, NULL);
    worksheet_freeze_panes(sheet, 1, (lxw_col_t)form->held);
    worksheet_autofilter(sheet, 0, 0, (lxw_row_t)rows, (lxw_col_t)(form->columns_len - 1));
    worksheet_repeat_rows(sheet, 0, 0);
}

static void put_points(book *const b, const ds_reader_kind reader)
{
    const ds_sheet_form *const form = ds_sheet_form_of(reader);
    const size_t len = b->findings->points_len;
    lxw_worksheet *const sheet = begin_sheet(b, form->name);
    if (!sheet) {
        b->failed = true;
        return;
    }
    put_heads(b, sheet, form, len);
    for (size_t i = 0; i < len && !b->failed; i++) {
        /* Everything comes in the job's order, for programs; a reader's rows by place. */
        const ds_finding *const finding =
            reader == DS_READER_ALL ? &b->findings->points[i] : b->parts.points[i];
        for (size_t column = 0; column < form->columns_len; column++) {
            put_cell(b, sheet, (lxw_row_t)i + 1, column, form->columns[column], finding);
        }
        end_row(b, sheet, (lxw_row_t)i + 1);
    }
}

static double fitting_pieces(const ds_finding *const *const points, const size_t len)
{
    double pieces = 0;
    for (size_t i = 0; i < len; i++) {
        const double count = points[i]->point->count;
        pieces += points[i]->verdict != DS_FITS ? 0 : count >= 1 ? count : 1;
    }
    return pieces;
}

/* Quantities by what is needed and by kind, most pieces first. */
static void put_quantities(book *const b)
{
    const ds_sheet_form *const form = ds_sheet_form_of(DS_READER_BUYER);
    const size_t of_group = form->columns_len - DS_SHEET_OF_GROUP;
    lxw_worksheet *const sheet = begin_sheet(b, form->name);
    ds_alikes groups;
    if (!sheet || !ds_alikes_make(&groups, &b->parts, ds_alike_by_need_and_kind, false)) {
        b->failed = true;
        return;
    }
    put_heads(b, sheet, form, groups.len);
    for (size_t i = 0; i < groups.len && !b->failed; i++) {
        const ds_alike *const group = &groups.at[i];
        const ds_finding *const *const points = groups.points + group->first;
        const lxw_row_t row = (lxw_row_t)i + 1;
        for (size_t column = 0; column < of_group; column++) {
            put_cell(b, sheet, row, column, form->columns[column], points[0]);
        }
        worksheet_write_number(sheet, row, (lxw_col_t)of_group, group->pieces, b->number);
        worksheet_write_number(sheet, row, (lxw_col_t)of_group + 1, fitting_pieces(points, group->len),
                               b->number);
        ds_parts_say_ids(&b->say, points, group->len);
        b->lines = fmax(b->lines, ds_cell_lines(ds_text_str(&b->say), form->columns[of_group + 2]->width));
        put_text(b, sheet, row, of_group + 2, b->text);
        end_row(b, sheet, row);
    }
}

static void put_line(book *const b, lxw_worksheet *const sheet, lxw_row_t *const row, const char *const head)
{
    worksheet_write_string(sheet, *row, 0, head, b->strong);
    put_text(b, sheet, (*row)++, 1, b->text);
}

/* What the book goes by, counted verdicts, and the cautions that every schedule carries. */
static void put_about(book *const b)
{
    const ds_findings *const f = b->findings;
    lxw_worksheet *const sheet = begin_sheet(b, "About");
    lxw_row_t row = 0;
    if (!sheet) {
        b->failed = true;
        return;
    }
    worksheet_set_column(sheet, 0, 0, 16, NULL);
    worksheet_set_column(sheet, 1, 1, 100, NULL);
    ds_text_adds(&b->say, f->job->title);
    put_line(b, sheet, &row, "Job");
    ds_text_adds(&b->say, f->job->date);
    put_line(b, sheet, &row, "Date");
    for (size_t i = 0; i < f->packs_len; i++) {
        ds_text_adds(&b->say, f->packs[i]->edition);
        put_line(b, sheet, &row, "Edition");
        if (ds_pack_notice(&b->say, f->packs[i], f->job->date)) {
            put_line(b, sheet, &row, "Confirm");
        }
    }
    ds_text_add(&b->say, "dripstone " DS_PROGRAM_VERSION);
    put_line(b, sheet, &row, "Program");
    ds_say_headline(&b->say, f);
    put_line(b, sheet, &row, "Answer");
    for (size_t i = 0; i < ds_cautions_len(); i++) {
        ds_text_add(&b->say, ds_caution(i));
        put_line(b, sheet, &row, "Caution");
    }
}

/* --- the book ----------------------------------------------------------------------------------------------------- */

static lxw_format *format_of(book *const b, const bool strong)
{
    lxw_format *const format = workbook_add_format(b->workbook);
    if (!format) {
        b->failed = true;
        return NULL;
    }
    format_set_align(format, LXW_ALIGN_VERTICAL_TOP);
    if (strong) {
        format_set_bold(format);
    }
    return format;
}

static void make_formats(book *const b)
{
    b->head = format_of(b, true);
    b->number_head = format_of(b, true);
    b->text = format_of(b, false);
    b->strong = format_of(b, true);
    b->number = format_of(b, false);
    b->blank = format_of(b, false);
    if (b->failed) {
        return;
    }
    lxw_format *const wrapped[] = {b->head, b->number_head, b->text};
    for (size_t i = 0; i < 3; i++) {
        format_set_text_wrap(wrapped[i]);
    }
    format_set_indent(b->head, 1);
    format_set_indent(b->text, 1);
    format_set_indent(b->strong, 1);
    format_set_align(b->number_head, LXW_ALIGN_RIGHT);
    format_set_bottom(b->head, LXW_BORDER_MEDIUM);
    format_set_bottom(b->number_head, LXW_BORDER_MEDIUM);
    format_set_bottom(b->blank, LXW_BORDER_THIN);
}

/* Seconds from 1970 to noon of the job's date; 1 January 2000 without a date, so that the bytes stay the same. */
static time_t time_of(const ds_str date)
{
    static const int BEFORE[] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334};
    long year = 2000;
    long month = 1;
    long day = 1;
    if (ds_date_is_valid(date)) {
        year = strtol(date.at, NULL, 10);
        month = strtol(date.at + 5, NULL, 10);
        day = strtol(date.at + 8, NULL, 10);
    }
    const long past = year - 1; /* whole years before it */
    const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    const long days = past * 365 + past / 4 - past / 100 + past / 400 + BEFORE[month - 1] +
                      (month > 2 && leap) + day - 1 - 719162;
    return (time_t)days * 86400 + 43200;
}

static void put_properties(book *const b)
{
    ds_text_adds(&b->say, b->findings->job->title);
    ds_title_fit(&b->say);
    b->failed = b->failed || !ds_text_ok(&b->say);
    if (!b->failed) {
        lxw_doc_properties properties = {.title = b->say.at,
                                         .comments = "dripstone " DS_PROGRAM_VERSION,
                                         .created = time_of(b->findings->job->date)};
        workbook_set_properties(b->workbook, &properties);
    }
    b->say.len = 0;
}

static void put_sheets(book *const b, const ds_reader_kind reader)
{
    make_formats(b);
    if (b->failed || !ds_parts_order(&b->parts)) {
        b->failed = true;
        return;
    }
    put_properties(b);
    for (int i = DS_READER_CLIENT; i < DS_READERS_LEN && !b->failed; i++) {
        const bool wanted = reader == DS_READER_ALL || reader == (ds_reader_kind)i;
        if (wanted && i == DS_READER_BUYER) {
            put_quantities(b);
        } else if (wanted) {
            put_points(b, (ds_reader_kind)i);
        }
    }
    if (reader == DS_READER_ALL && !b->failed) {
        put_points(b, DS_READER_ALL);
    }
    if (!b->failed) {
        put_about(b);
    }
}

/* --- the temporary file ------------------------------------------------------------------------------------------- */

static const char *folder(void)
{
    const char *const named = getenv("TMPDIR");
    return named && *named ? named : P_tmpdir;
}

/* An empty file of our own; false when there can be none. */
static bool make_file(char path[PATH_MOST])
{
    const int len = snprintf(path, PATH_MOST, "%s/dripstone-XXXXXX", folder());
    const int fd = len > 0 && len < PATH_MOST ? mkstemp(path) : -1;
    if (fd >= 0) {
        close(fd);
    }
    return fd >= 0;
}

static ds_xlsx_status take_file(ds_text *const out, const char *const path)
{
    char piece[1 << 14];
    const size_t before = out->len;
    FILE *const file = fopen(path, "rb");
    if (!file) {
        return DS_XLSX_NO_ROOM;
    }
    for (size_t n = fread(piece, 1, sizeof piece, file); n; n = fread(piece, 1, sizeof piece, file)) {
        ds_text_bytes(out, piece, n);
    }
    const bool read = !ferror(file);
    fclose(file);
    if (!ds_text_ok(out)) {
        return DS_XLSX_NO_MEMORY;
    }
    return read && ds_book_is_whole(ds_str_from(ds_text_str(out), before)) ? DS_XLSX_DONE : DS_XLSX_NO_ROOM;
}

static ds_xlsx_status write_book(book *const b, const char *const path, const ds_reader_kind reader)
{
    char tmp[PATH_MOST];
    snprintf(tmp, sizeof tmp, "%s", folder());
    lxw_workbook_options options = {.constant_memory = LXW_TRUE, .tmpdir = tmp};
    b->workbook = workbook_new_opt(path, &options);
    if (!b->workbook) {
        return DS_XLSX_NO_MEMORY;
    }
    put_sheets(b, reader);
    const lxw_error error = workbook_close(b->workbook);
    return b->failed || error == LXW_ERROR_MEMORY_MALLOC_FAILED ? DS_XLSX_NO_MEMORY
           : error == LXW_NO_ERROR                              ? DS_XLSX_DONE
                                                                : DS_XLSX_NO_ROOM;
}

ds_xlsx_status ds_xlsx_write(ds_text *const out, const ds_findings *const findings,
                             const ds_reader_kind reader)
{
    char path[PATH_MOST];
    if (findings->points_len > ROWS_MOST) {
        return DS_XLSX_TOO_LONG;
    }
    if (!make_file(path)) {
        return DS_XLSX_NO_ROOM;
    }
    ds_arena arena;
    ds_arena_init(&arena, out->alloc);
    book b = {.findings = findings, .parts = {.findings = findings, .arena = &arena}};
    ds_text_init(&b.say, out->alloc);
    ds_xlsx_status status = write_book(&b, path, reader);
    if (status == DS_XLSX_DONE) {
        status = take_file(out, path);
    }
    unlink(path);
    ds_text_free(&b.say);
    ds_arena_free(&arena);
    return status;
}
