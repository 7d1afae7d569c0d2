/* SPDX-License-Identifier: MIT */
/*
 * Reading, comparing and filtering marks, each in one thread; medians of five runs.
 *
 *     build/release/bench/mark_bench
 *
 * - reads a second over clean codes of all kinds, and over a mixture: nine in ten clean (of which a third
 * bare IP20, IP44
 *   or IP65, as in catalogues), one in ten from the list of wild texts below.
 * - comparing 10 million packed marks with a need, against a plain memcpy of the same marks in the same run.
 * - the same filter in SQLite: an in-memory table of the same words, the fits counted by bit operations in
 * SQL.
 */
#include <sqlite3.h>
#include <stdio.h>
#include <stdlib.h>

#include "bench.h"
#include "core/mark/read.h"

enum { RUNS = 5, READS = 5000000, MARKS = 10000000, TEXTS = 10000 };

static const char *const BARE[] = {"IP20", "IP44", "IP65"};

static const char *const CLEAN[] = {
    "IP00",      "IP21",           "IP23",           "IP2X",     "IP31",  "IP3XD",  "IP40",      "IP42",
    "IP43",      "IP4X",           "IP54",           "IP55",     "IP66",  "IP67",   "IP69",      "IPX4",
    "IPX5",      "IPX7",           "IPXXB",          "IPXXD",    "IP20C", "IP23CS", "IP21CM",    "IP65/IP67",
    "IP66/IP67", "IPX5/IPX7",      "IP66/IP67/IP69", "IK07",     "IK08",  "IK10",   "IP44 IK07", "IP65 IK08",
    "IP66 IK10", "IP66/IP67 IK10", "IP55 IK08",      "IP40 IK04"};

static const char *const WILD[] = {"IP 44",
                                   "ip65",
                                   "IP-54",
                                   "I.P.65",
                                   "IP X5",
                                   "IP65/67",
                                   "IP66 & IP67",
                                   "IP68",
                                   "IP68 (10 m, 24 h)",
                                   "IP68 - 5 bar",
                                   "IP67 (1 m / 30 min)",
                                   "IP69K",
                                   "IP6K9K",
                                   "IP66/IP67/IP69K",
                                   "IP44 (lid closed)",
                                   "IP66 closed / IP20 in use",
                                   "IP65 front, IP20 rear",
                                   "IP54 (IP66 with kit)",
                                   "min. IP54",
                                   "IP54 or better",
                                   "IP65*",
                                   "up to IP66",
                                   "weatherproof",
                                   "splash-proof",
                                   "IP5",
                                   "IPO4",
                                   "IP567",
                                   "IK8",
                                   "IK 08",
                                   "20 joules",
                                   "NEMA 4X",
                                   "NEMA 4X / IP66",
                                   "EN 60529: IP55",
                                   "IP 54 -20...+40 C",
                                   "IP54, class II",
                                   "IPX4 (bathroom zone 2)",
                                   "IP44/IP54",
                                   "IP65 when wall-mounted",
                                   "IP2X or IPXXB",
                                   "IP65 for the pump"};

#define COUNT(list) (sizeof(list) / sizeof *(list))

/* The same numbers on every run. */
static unsigned below(const unsigned limit)
{
    static uint64_t state = 1;
    state = state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (unsigned)(state >> 33) % limit;
}

static void *take(const size_t count, const size_t size)
{
    void *const at = calloc(count, size);
    if (!at) {
        fprintf(stderr, "out of memory\n");
        exit(2);
    }
    return at;
}

/* --- reading -------------------------------------------------------------------------------------------- */

static ds_str clean_text(void)
{
    return ds_str_of(below(3) == 0 ? BARE[below(COUNT(BARE))] : CLEAN[below(COUNT(CLEAN))]);
}

static void fill_texts(ds_str *const texts, const unsigned wild_in_ten)
{
    for (size_t i = 0; i < TEXTS; i++) {
        texts[i] = below(10) < wild_in_ten ? ds_str_of(WILD[below(COUNT(WILD))]) : clean_text();
    }
}

static double reads_a_second(const unsigned wild_in_ten)
{
    static ds_str texts[TEXTS];
    double runs[RUNS];
    fill_texts(texts, wild_in_ten);
    for (int run = 0; run < RUNS; run++) {
        uint64_t sum = 0;
        ds_reading reading;
        const double start = now_s();
        for (size_t i = 0; i < READS; i++) {
            ds_mark_read(texts[i % TEXTS], &reading);
            sum += reading.mark;
        }
        runs[run] = now_s() - start;
        __asm__ volatile("" ::"r"(sum));
    }
    return READS / median(runs, RUNS);
}

/* --- comparing ------------------------------------------------------------------------------------------ */

static void fill_marks(ds_mark *const marks)
{
    ds_mark pool[TEXTS];
    for (size_t i = 0; i < TEXTS; i++) {
        ds_reading reading;
        ds_mark_read(below(10) ? clean_text() : ds_str_of(WILD[below(COUNT(WILD))]), &reading);
        pool[i] = reading.mark;
    }
    for (size_t i = 0; i < MARKS; i++) {
        marks[i] = pool[below(TEXTS)];
    }
}

static double time_memcpy(ds_mark *const to, const ds_mark *const from)
{
    double runs[RUNS];
    for (int run = 0; run < RUNS; run++) {
        const double start = now_s();
        memcpy(to, from, MARKS * sizeof *from);
        __asm__ volatile("" ::"r"(to) : "memory");
        runs[run] = now_s() - start;
    }
    return median(runs, RUNS);
}

static double time_compare(const ds_need need, const ds_mark *const marks, uint8_t *const verdicts)
{
    double runs[RUNS];
    for (int run = 0; run < RUNS; run++) {
        const double start = now_s();
        ds_mark_compare_many(need, marks, MARKS, verdicts);
        runs[run] = now_s() - start;
    }
    return median(runs, RUNS);
}

static size_t count_fits(const uint8_t *const verdicts)
{
    size_t fits = 0;
    for (size_t i = 0; i < MARKS; i++) {
        fits += verdicts[i] == DS_FITS;
    }
    return fits;
}

/* --- SQLite --------------------------------------------------------------------------------------------- */

static void must(sqlite3 *const db, const int status)
{
    if (status != SQLITE_OK && status != SQLITE_DONE && status != SQLITE_ROW) {
        fprintf(stderr, "SQLite: %s\n", sqlite3_errmsg(db));
        exit(2);
    }
}

static sqlite3 *store_marks(const ds_mark *const marks)
{
    sqlite3 *db = NULL;
    sqlite3_stmt *insert = NULL;
    must(db, sqlite3_open(":memory:", &db));
    must(db, sqlite3_exec(db, "CREATE TABLE mark (word INTEGER NOT NULL); BEGIN", NULL, NULL, NULL));
    must(db, sqlite3_prepare_v2(db, "INSERT INTO mark VALUES (?1)", -1, &insert, NULL));
    for (size_t i = 0; i < MARKS; i++) {
        sqlite3_bind_int64(insert, 1, (sqlite3_int64)marks[i]);
        must(db, sqlite3_step(insert));
        sqlite3_reset(insert);
    }
    sqlite3_finalize(insert);
    must(db, sqlite3_exec(db, "COMMIT", NULL, NULL, NULL));
    return db;
}

/* Fits by bits: every required test proven and the impact grade reached. The needs here ask for no test 8. */
static double time_sqlite(sqlite3 *const db, const ds_need need, size_t *const fits)
{
    sqlite3_stmt *count = NULL;
    double runs[RUNS];
    must(db,
         sqlite3_prepare_v2(db, "SELECT count(*) FROM mark WHERE word & ?1 = ?1 AND (word >> 38 & 15) >= ?2",
                            -1, &count, NULL));
    sqlite3_bind_int64(count, 1, (sqlite3_int64)ds_mark_proven(need));
    sqlite3_bind_int(count, 2, (int)ds_mark_impact(need));
    for (int run = 0; run < RUNS; run++) {
        const double start = now_s();
        must(db, sqlite3_step(count));
        *fits = (size_t)sqlite3_column_int64(count, 0);
        runs[run] = now_s() - start;
        sqlite3_reset(count);
    }
    sqlite3_finalize(count);
    return median(runs, RUNS);
}

/* --- report --------------------------------------------------------------------------------------------- */

static void report_need(const char *const text, const ds_mark *const marks, const double copy,
                        sqlite3 *const db, uint8_t *const verdicts)
{
    ds_need need;
    ds_reading reading;
    if (!ds_need_read(ds_str_of(text), &need, &reading)) {
        exit(2);
    }
    const double compare = time_compare(need, marks, verdicts);
    const size_t fits = count_fits(verdicts);
    printf("compare_many, need %-22s %6.1f ms, %4.2f of memcpy, %zu fit\n", text, compare * 1e3,
           compare / copy, fits);
    if (!(ds_mark_proven(need) & DS_WATER(8))) {
        size_t counted = 0;
        const double sql = time_sqlite(db, need, &counted);
        printf("  the same in SQLite                 %8.1f ms, %4.1f times compare_many%s\n", sql * 1e3,
               sql / compare, counted == fits ? "" : "  BUT ANOTHER COUNT");
    }
}

int main(void)
{
    ds_mark *const marks = take(MARKS, sizeof *marks);
    ds_mark *const copies = take(MARKS, sizeof *copies);
    uint8_t *const verdicts = take(MARKS, sizeof *verdicts);
    printf("reads a second, clean codes        %6.1f million\n", reads_a_second(0) / 1e6);
    printf("reads a second, one in ten wild    %6.1f million\n", reads_a_second(1) / 1e6);
    printf("reads a second, wild texts only    %6.1f million\n", reads_a_second(10) / 1e6);
    fill_marks(marks);
    const double copy = time_memcpy(copies, marks);
    printf("memcpy of 10 million marks         %6.1f ms\n", copy * 1e3);
    sqlite3 *const db = store_marks(marks);
    static const char *const NEEDS[] = {"IP44", "IP55 IK08", "IPX5/IPX7", "IP68 (2 m, 24 h)"};
    for (size_t i = 0; i < COUNT(NEEDS); i++) {
        report_need(NEEDS[i], marks, copy, db, verdicts);
    }
    sqlite3_close(db);
    free(marks);
    free(copies);
    free(verdicts);
    return 0;
}
