/* SPDX-License-Identifier: MIT */
/*
 * Tables as written, and the cells that they are. The first cases are those of RFC 4180, section 2; the rest are common
 * practice of spreadsheets (semicolons, tabs, byte order marks, lone line ends).
 */
#include "support.h"

#include "core/job/csv.h"

/* cells: separated by |, rows ended by /; a cell's line ends as they are. */
typedef struct table_case {
    const char *source;
    const char *cells;
} table_case;

static const table_case TABLES[] = {
    {"aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "aaa|bbb|ccc/zzz|yyy|xxx/"}, /* 2.1 */
    {"aaa,bbb,ccc\r\nzzz,yyy,xxx", "aaa|bbb|ccc/zzz|yyy|xxx/"},     /* 2.2 */
    {"field_name,field_name,field_name\r\naaa,bbb,ccc\r\n", "field_name|field_name|field_name/aaa|bbb|ccc/"},
    {" a , b \r\n", " a | b /"}, /* 2.4: blanks belong to the cell */
    {"\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", "aaa|bbb|ccc/zzz|yyy|xxx/"},         /* 2.5 */
    {"\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", "aaa|b\r\nbb|ccc/zzz|yyy|xxx/"}, /* 2.6 */
    {"\"aaa\",\"b\"\"bb\",\"ccc\"", "aaa|b\"bb|ccc/"},                              /* 2.7 */
    {"a;b,c;d\n1;2;3\n", "a|b,c|d/1|2|3/"},
    {"a\tb;c\td\n", "a|b;c|d/"},
    {"\xEF\xBB\xBF"
     "a,b\n",
     "a|b/"},
    {"a,b\r1,2\r", "a|b/1|2/"},
    {"a,b\n\n\r\n1,2\n\n", "a|b/1|2/"},
    {"a,b\n,\n", "a|b/|/"},
    {"\"\"\"\"\"\",\"\"\n", "\"\"|/"},
    {"\"a;b;c;d\",e\n", "a;b;c;d|e/"},
    {"\"a,\nb\";c\n", "a,\nb|c/"},
    {"\"\"\n", ""},
    {"", ""},
    {"\n\n", ""},
    {"one\ntwo", "one/two/"},
    {"é,ß\n", "é|ß/"},
};

static void every_table_reads_as_its_cells(void **const state)
{
    (void)state;
    for (size_t i = 0; i < sizeof TABLES / sizeof *TABLES; i++) {
        test_alloc a = test_alloc_make(0);
        ds_arena arena;
        ds_arena_init(&arena, test_alloc_use(&a));
        ds_text said;
        ds_text_init(&said, &a.alloc);
        ds_csv csv;
        ds_str cells[DS_CSV_COLUMNS];
        size_t len = 0;
        ds_problem problem = {0};
        ds_csv_open(&csv, ds_str_of(TABLES[i].source), &arena);
        while (ds_csv_row(&csv, cells, &len, &problem) == DS_OK && len) {
            for (size_t j = 0; j < len; j++) {
                ds_text_adds(&said, cells[j]);
                ds_text_add(&said, j + 1 < len ? "|" : "/");
            }
        }
        if (!ds_str_is(ds_text_str(&said), TABLES[i].cells)) {
            fail_msg("table %zu reads as \"%.*s\"", i, (int)said.len, said.at);
        }
        ds_text_free(&said);
        ds_arena_free(&arena);
        assert_int_equal(a.blocks, 0);
    }
}

typedef struct fault_case {
    const char *source;
    size_t len;
    ds_problem_code code;
    uint32_t row, column;
} fault_case;

#define FAULT(text, code, row, column)                                                                       \
    {                                                                                                        \
        (text), sizeof(text) - 1, DS_P_##code, (row), (column)                                               \
    }

static const fault_case FAULTS[] = {
    FAULT("a,b\n1,\"2\n3,4\n", CSV_UNCLOSED, 2, 2),
    FAULT("a,b\n\n\n1,\"2\"\"", CSV_UNCLOSED, 4, 2),
    FAULT("a\n1\" pipe\n", CSV_QUOTE, 2, 1),
    FAULT("a,b\n\"1\" ,2\n", CSV_QUOTE, 2, 1),
    FAULT("a,b\n1,\"2\"3\n", CSV_QUOTE, 2, 2),
    FAULT("a,b\n1,2\0\n", CSV_ZERO, 2, 2),
    FAULT("a,b\n1,\"2\0\"\n", CSV_ZERO, 2, 2),
    FAULT("a,b\nok,gr\xFC\xDF\n", CSV_NOT_UTF8, 2, 2),
    FAULT("a,b\nok,\"gr\xFC\xDF\"\n", CSV_NOT_UTF8, 2, 2),
    FAULT("\xFF\xFE"
          "a\0,\0b\0",
          CSV_UTF16, 1, 1),
    FAULT("\xFE\xFF\0a\0,\0b", CSV_UTF16, 1, 1),
    FAULT("a\0,\0b\0\n\0", CSV_UTF16, 1, 1),
};

/* Reads to the first fault. */
static ds_status read_all(const ds_str source, ds_arena *const arena, ds_problem *const problem)
{
    ds_csv csv;
    ds_str cells[DS_CSV_COLUMNS];
    size_t len = 1;
    ds_status status = DS_OK;
    ds_csv_open(&csv, source, arena);
    while (status == DS_OK && len) {
        status = ds_csv_row(&csv, cells, &len, problem);
    }
    return status;
}

static void every_fault_has_its_row_and_column(void **const state)
{
    (void)state;
    for (size_t i = 0; i < sizeof FAULTS / sizeof *FAULTS; i++) {
        test_alloc a = test_alloc_make(0);
        ds_arena arena;
        ds_arena_init(&arena, test_alloc_use(&a));
        ds_problem problem = {0};
        assert_int_equal(read_all((ds_str){FAULTS[i].source, FAULTS[i].len}, &arena, &problem), DS_BAD_INPUT);
        assert_int_equal(problem.code, FAULTS[i].code);
        assert_int_equal(problem.where.line, FAULTS[i].row);
        assert_int_equal(problem.where.column, FAULTS[i].column);
        ds_arena_free(&arena);
    }
}

/* A text of a head and a byte many times. */
static ds_str repeated(char *const at, const char *const head, const char byte, const size_t times)
{
    const size_t len = strlen(head);
    memcpy(at, head, len);
    memset(at + len, byte, times);
    return (ds_str){at, len + times};
}

static void the_limits_are_where_they_are_said_to_be(void **const state)
{
    (void)state;
    static char at[DS_CSV_CELL + 16];
    test_alloc a = test_alloc_make(0);
    ds_arena arena;
    ds_arena_init(&arena, test_alloc_use(&a));
    ds_problem problem = {0};
    assert_int_equal(read_all(repeated(at, "a,b\n1,", 'x', DS_CSV_CELL), &arena, &problem), DS_OK);
    assert_int_equal(read_all(repeated(at, "a,b\n1,", 'x', DS_CSV_CELL + 1), &arena, &problem), DS_BAD_INPUT);
    assert_int_equal(problem.code, DS_P_CSV_CELL_LONG);
    assert_int_equal(problem.where.column, 2);
    assert_int_equal(read_all(repeated(at, "", ',', DS_CSV_COLUMNS - 1), &arena, &problem), DS_OK);
    assert_int_equal(read_all(repeated(at, "", ',', DS_CSV_COLUMNS), &arena, &problem), DS_BAD_INPUT);
    assert_int_equal(problem.code, DS_P_CSV_COLUMNS);
    ds_arena_free(&arena);
}

/* Written with the apostrophe and read without, every text comes back; what begins a formula never stands first. */
static void apostrophes_come_and_go(void **const state)
{
    (void)state;
    static const char *const CELLS[] = {"",    "a",  "=1", "+1",  "-20",  "@x",   "\tx",
                                        "\rx", "'",  "'a", "'=1", "''=1", "'''+", "''a",
                                        "=",   "''", "1=", "'-",  "' =1", "é=1",  "'\t"};
    for (size_t i = 0; i < sizeof CELLS / sizeof *CELLS; i++) {
        char written[16] = "'";
        const bool marked = ds_csv_needs_apostrophe(ds_str_of(CELLS[i]));
        strcpy(written + marked, CELLS[i]);
        assert_true(!strchr("=+-@\t\r", written[0]) || !written[0]);
        const size_t skip = ds_csv_has_apostrophe(ds_str_of(written)) ? 1 : 0;
        assert_string_equal(written + skip, CELLS[i]);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(every_table_reads_as_its_cells),
                                       cmocka_unit_test(every_fault_has_its_row_and_column),
                                       cmocka_unit_test(the_limits_are_where_they_are_said_to_be),
                                       cmocka_unit_test(apostrophes_come_and_go)};
    return cmocka_run_group_tests_name("csv_ref", tests, NULL, NULL);
}
