/* SPDX-License-Identifier: MIT */
/*
 * dripstone read: what a mark says. One mark is shown fully with its rungs, several as a list. Loads no rules, so that
 * it answers at once.
 */
#include "cli/commands.h"
#include "cli/page.h"
#include "core/assess/render.h"

static const ds_option OPTIONS[] = {
    {"json", 0, NULL, "the reading as JSON; an array for several marks"},
    {0},
};

enum { STATUS_COLUMNS = 11, CODE_COLUMNS_LEAST = 12, LABEL_COLUMNS = 10, INDENT = 2 };

/* --- one mark on a page ------------------------------------------------------------------------------------------- */

static void put_status(ds_page *const page, const ds_read_status status)
{
    static const struct {
        ds_verdict like;
        const char *shape, *ascii;
    } FORMS[] = {[DS_READ_CODE] = {DS_FITS, "■", "+"},
                 [DS_READ_NOTED] = {DS_FITS, "□", "+"},
                 [DS_READ_QUESTION] = {DS_UNKNOWN, "?", "?"},
                 [DS_READ_REFUSED] = {DS_BARRED, "╳", "x"}};
    const ds_style style = ds_verdict_style(FORMS[status].like);
    ds_page_shape(page, style, page->ascii ? FORMS[status].ascii : FORMS[status].shape);
    ds_page_add(page, style, " ");
    ds_page_cell(page, style, ds_str_of(ds_read_status_word(status)), STATUS_COLUMNS - 2);
}

/* The code as read, with a question mark where it is a guess that does not count; or the text itself, in quotes. */
static void say_code(ds_text *const say, const ds_reading *const reading, const ds_str text)
{
    if (reading->has_code) {
        ds_reading_print(say, reading);
        ds_text_add(say, say->len && reading->status == DS_READ_QUESTION && reading->mark == DS_MARK_SILENT
                             ? "?"
                             : "");
    }
    if (!say->len) {
        ds_text_char(say, '"');
        ds_text_adds(say, text);
        ds_text_char(say, '"');
    }
}

static void put_because(ds_page *const page, ds_text *const say, const ds_reading *const reading,
                        const int indent)
{
    say->len = 0;
    ds_reading_because(say, reading);
    if (say->len) {
        ds_page_adds(page, DS_PLAIN, ds_text_str(say));
        ds_page_break(page, indent, indent);
    }
}

/* One track in words: its highest proven rung, or that nothing is shown. */
static void put_track(ds_page *const page, const char *const label, const char *const rung,
                      const char *const words)
{
    ds_page_cell(page, DS_QUIET, ds_str_of(label), LABEL_COLUMNS);
    ds_page_cell(page, DS_STRONG, ds_str_of(rung), 6);
    ds_page_add(page, DS_PLAIN, words);
    ds_page_break(page, INDENT, INDENT + LABEL_COLUMNS + 6);
}

static void put_ladder(ds_page *const page, const ds_mark mark, const char *const label, const char track,
                       const unsigned len)
{
    bool any = false;
    for (unsigned i = len; i >= 1; i--) {
        const char letter[2] = {(char)(track == 'a' ? 'A' + (int)i - 1 : '0' + (int)i), 0};
        const uint64_t test = track == 'o'   ? DS_OBJECT(i)
                              : track == 'a' ? DS_ACCESS('A' + (int)i - 1)
                                             : DS_WATER(i);
        /* Water 7, 8 and 9 stand each for itself; of the others the highest says it all. */
        const bool own = track == 'w' && i >= 7;
        if (ds_mark_proven(mark) & test) {
            put_track(page, any ? "" : label, letter, ds_test_words(track, i));
            any = true;
            if (!own) {
                return;
            }
        }
    }
    if (!any) {
        put_track(page, label, "-", "nothing is shown");
    }
}

static void put_impact(ds_page *const page, ds_text *const say, const ds_mark mark)
{
    const unsigned grade = ds_mark_impact(mark);
    say->len = 0;
    if (grade) {
        ds_text_add(say, "a blow of ");
        ds_text_number(say, ds_impact_joules(grade), 2);
        ds_text_add(say, " J");
    } else {
        ds_text_add(say, "nothing is shown");
    }
    ds_page_cell(page, DS_QUIET, DS_STR("blows"), LABEL_COLUMNS);
    const size_t start = say->len;
    ds_text_add(say, grade ? grade < 10 ? "IK0" : "IK" : "-");
    if (grade) {
        ds_text_int(say, grade);
    }
    ds_page_cell(page, DS_STRONG, ds_str_from(ds_text_str(say), start), 6);
    say->len = start;
    ds_page_adds(page, DS_PLAIN, ds_text_str(say));
    ds_page_break(page, INDENT, INDENT + LABEL_COLUMNS + 6);
}

static void put_parts(ds_page *const page, ds_text *const say, const ds_reading *const reading)
{
    for (uint8_t i = 0; i < reading->parts_len; i++) {
        say->len = 0;
        ds_mark_print(say, reading->parts[i].mark);
        ds_page_cell(page, DS_QUIET, i ? DS_STR("") : DS_STR("parts"), LABEL_COLUMNS);
        ds_page_adds(page, DS_STRONG, ds_text_str(say));
        ds_page_add(page, DS_PLAIN, "  ");
        ds_page_add(page, DS_PLAIN, reading->parts[i].when ? reading->parts[i].when : "always");
        ds_page_break(page, INDENT, INDENT + LABEL_COLUMNS);
    }
}

static void put_fully(ds_page *const page, ds_text *const say, const ds_reading *const reading,
                      const ds_str text)
{
    put_status(page, reading->status);
    say_code(say, reading, text);
    ds_page_adds(page, DS_STRONG, ds_text_str(say));
    ds_page_add(page, DS_QUIET, reading->valid ? "" : "   not written as the standard writes codes");
    ds_page_break(page, 0, STATUS_COLUMNS);
    put_because(page, say, reading, INDENT);
    if (reading->mark == DS_MARK_SILENT) {
        ds_page_add(page, DS_PLAIN, "It proves nothing.");
        ds_page_break(page, INDENT, INDENT);
        return;
    }
    ds_page_gap(page);
    put_parts(page, say, reading);
    put_ladder(page, reading->mark, "solids", 'o', DS_OBJECTS_LEN);
    put_ladder(page, reading->mark, "people", 'a', DS_ACCESS_LEN);
    put_ladder(page, reading->mark, "water", 'w', DS_WATER_LEN);
    put_impact(page, say, reading->mark);
    ds_page_gap(page);
    ds_rungs rungs;
    ds_rungs_of(&rungs, DS_NEED_NOTHING, reading->mark);
    ds_page_rungs(page, &rungs, INDENT);
}

/* --- a list of marks ---------------------------------------------------------------------------------------------- */

/* A code that is too long for its column stands in a row of its own, its rungs below it. */
static void put_in_list(ds_page *const page, ds_text *const say, const ds_reading *const reading,
                        const ds_str text, const int code_columns)
{
    put_status(page, reading->status);
    say_code(say, reading, text);
    if (ds_page_columns(page, ds_text_str(say)) > code_columns) {
        ds_page_adds(page, DS_STRONG, ds_text_str(say));
        ds_page_break(page, 0, STATUS_COLUMNS);
        ds_page_cell(page, DS_PLAIN, DS_STR(""), STATUS_COLUMNS + code_columns);
    } else {
        ds_page_cell(page, DS_STRONG, ds_text_str(say), code_columns);
    }
    ds_page_add(page, DS_PLAIN, "  ");
    ds_rungs rungs;
    ds_rungs_of(&rungs, DS_NEED_NOTHING, reading->mark);
    ds_page_rungs_line(page, &rungs);
    ds_page_row(page, 0);
    if (reading->status != DS_READ_CODE) {
        put_because(page, say, reading, STATUS_COLUMNS);
    }
}

/* The ladders' names, and the numbers of their rungs, over the columns. */
static void put_list_head(ds_page *const page, const int code_columns)
{
    static const char *const HEADS[] = {"solids      water     blows", "123456 ABCD 123456789 joules"};
    for (size_t i = 0; i < sizeof HEADS / sizeof *HEADS; i++) {
        ds_page_cell(page, DS_PLAIN, DS_STR(""), STATUS_COLUMNS + code_columns + 2);
        ds_page_add(page, DS_QUIET, HEADS[i]);
        ds_page_row(page, 0);
    }
}

static int code_columns_of(ds_page *const page, ds_text *const say, const ds_str text)
{
    ds_reading reading;
    ds_mark_read(text, &reading);
    say->len = 0;
    say_code(say, &reading, text);
    return ds_page_columns(page, ds_text_str(say));
}

/* --- all marks ---------------------------------------------------------------------------------------------------- */

typedef struct reader {
    ds_host *host;
    ds_page page;
    ds_text say;
    bool json, listed; /* listed: several marks */
    bool begun;
    int code_columns; /* of the list */
} reader;

/* The column of codes is as wide as the widest that leaves room for the rungs. */
static void measure(reader *const r, const ds_str text)
{
    const int most = r->page.width - STATUS_COLUMNS - 2 - DS_RUNGS_LINE_COLUMNS;
    const int columns = r->json ? 0 : code_columns_of(&r->page, &r->say, text);
    if (columns > r->code_columns && columns <= most) {
        r->code_columns = columns;
    }
}

static void read_one(reader *const r, const ds_str text)
{
    ds_text *const out = &r->host->out;
    if (r->json) {
        ds_text_add(out, r->listed ? r->begun ? ",\n" : "[\n" : "");
        ds_reading_json(out, text);
        out->len -= r->listed && out->len ? 1 : 0; /* the comma comes before the line end */
    } else {
        ds_reading reading;
        ds_mark_read(text, &reading);
        r->say.len = 0;
        if (r->listed && !r->begun) {
            put_list_head(&r->page, r->code_columns);
        }
        if (r->listed) {
            put_in_list(&r->page, &r->say, &reading, text, r->code_columns);
        } else {
            put_fully(&r->page, &r->say, &reading, text);
        }
    }
    r->begun = true;
    ds_host_drain(r->host);
}

static void finish(reader *const r)
{
    if (r->json && r->listed) {
        ds_text_add(&r->host->out, r->begun ? "\n]\n" : "[]\n");
    }
}

/* Lines of standard input, without the blanks around them; empty ones are skipped. */
static ds_str next_line(ds_str *const rest)
{
    const char *const end = memchr(rest->at, '\n', rest->len);
    ds_str line = {rest->at, end ? (size_t)(end - rest->at) : rest->len};
    *rest = ds_str_from(*rest, line.len + (end != NULL));
    while (line.len && strchr(" \t\r", line.at[line.len - 1])) {
        line.len--;
    }
    while (line.len && strchr(" \t\r", line.at[0])) {
        line = ds_str_from(line, 1);
    }
    return line;
}

static void for_each_line(reader *const r, const ds_file *const file, void (*const visit)(reader *, ds_str))
{
    for (ds_str rest = {file->at, file->len}; rest.len;) {
        const ds_str line = next_line(&rest);
        if (line.len) {
            visit(r, line);
        }
    }
}

static bool read_lines(reader *const r)
{
    ds_file file;
    if (!ds_file_read(&file, r->host, DS_STR("-"))) {
        return false;
    }
    r->listed = true;
    for_each_line(r, &file, measure);
    for_each_line(r, &file, read_one);
    finish(r);
    ds_file_free(&file, r->host);
    return true;
}

static int run(ds_host *const host, const ds_args *const args)
{
    reader r = {.host = host,
                .json = ds_args_has(args, "json"),
                .listed = args->words_len > 1,
                .code_columns = CODE_COLUMNS_LEAST};
    bool done = true;
    ds_page_open(&r.page, host, args);
    ds_text_init(&r.say, host->alloc);
    if (args->words_len == 0) {
        done = read_lines(&r);
    } else {
        for (int i = 0; i < args->words_len && r.listed; i++) {
            measure(&r, ds_args_word(args, i));
        }
        for (int i = 0; i < args->words_len; i++) {
            read_one(&r, ds_args_word(args, i));
        }
        finish(&r);
    }
    r.page.line.failed = r.page.line.failed || !ds_text_ok(&r.say);
    ds_text_free(&r.say);
    ds_page_close(&r.page);
    return done ? DS_EXIT_FINE : DS_EXIT_UNREADABLE;
}

const ds_command DS_READ = {
    .name = "read",
    .usage = "[MARK]... [--json]",
    .summary = "what a mark on a label or data sheet says",
    .help = "Reads marks as they are met: IP66/IP67, ip 65, IP44 in use, IK08, IP6K9K, NEMA 4X. Without a "
            "MARK it takes one a "
            "line from standard input.\n"
            "\n"
            "code: as written. noted: it counts, and what was assumed is said. question: something must be "
            "asked first. "
            "refused: it is no evidence.\n"
            "\n"
            "Exit status: 0, whatever the marks say; 2 when the input could not be read.\n"
            "\n"
            "  dripstone read IP67\n"
            "  dripstone read \"IP66 lid closed, IP44 in use\" --json\n",
    .options = OPTIONS,
    .run = run,
};
