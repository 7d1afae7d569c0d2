/* SPDX-License-Identifier: MIT */
/*
 * Tables: rows a second that the reader takes apart, and that an import turns into a document, in memory; and the program
 * as a whole process writing the spreadsheets of 40,000 points. Medians of five runs.
 *
 *     build/release/bench/table_bench build/release/dripstone
 */
#include "bench.h"
#include "core/job/import.h"

#include <stdio.h>
#include <stdlib.h>
#include <sys/wait.h>
#include <unistd.h>

enum { RUNS = 5, ROWS = 200000, POINTS = 40000, ALIKE = 250 };

static void *resize(void *const ctx, void *const old, const size_t old_size, const size_t new_size)
{
    (void)ctx;
    (void)old_size;
    if (new_size == 0) {
        free(old);
        return NULL;
    }
    return realloc(old, new_size);
}

static const ds_alloc ALLOC = {resize, NULL};

static void stop(const char *const why)
{
    fprintf(stderr, "table_bench: %s\n", why);
    exit(2);
}

/* Eight columns, a name in quotes, a place for every 250 rows. */
static void make_table(ds_text *const out, const int rows)
{
    static const char *const KINDS[] = {"socket-outlet", "luminaire", "switch", "junction-box", "fan"};
    char line[160];
    ds_text_add(out, "id,place,name,kind,count,height_m,IP rating,volts\r\n");
    for (int i = 0; i < rows; i++) {
        snprintf(line, sizeof line, "P%d,Place number %d,\"Point %d, by the door\",%s,%d,1.20,IP55,230\r\n",
                 i, i / ALIKE, i, KINDS[i % 5], 1 + i % 3);
        ds_text_add(out, line);
    }
    if (!ds_text_ok(out)) {
        stop("out of memory");
    }
}

static double read_once(const ds_str table)
{
    ds_arena arena;
    ds_csv csv;
    ds_str cells[DS_CSV_COLUMNS];
    size_t len = 0;
    size_t rows = 0;
    ds_problem problem;
    ds_arena_init(&arena, &ALLOC);
    const double start = now_s();
    ds_csv_open(&csv, table, &arena);
    while (ds_csv_row(&csv, cells, &len, &problem) == DS_OK && len) {
        rows++;
    }
    const double seconds = now_s() - start;
    ds_arena_free(&arena);
    if (rows != ROWS + 1) {
        stop("rows are missing");
    }
    return seconds;
}

/* From the text of the job and the table to the text of the new job. */
static double import_once(ds_text *const out, const ds_str job_text, const ds_str table)
{
    ds_arena arena;
    ds_job job;
    ds_import import;
    ds_problem problem;
    ds_arena_init(&arena, &ALLOC);
    out->len = 0;
    const double start = now_s();
    if (ds_job_read(&job, job_text, &arena, &problem) != DS_OK ||
        ds_import_read(&import, &job, table, (ds_import_how){.add_places = true}, &arena, &problem) !=
            DS_OK ||
        import.faults_len) {
        stop("the table was not imported");
    }
    ds_import_document(out, &import);
    const double seconds = now_s() - start;
    ds_arena_free(&arena);
    return seconds;
}

static double run_once(char *const *const argv)
{
    const double start = now_s();
    const pid_t child = fork();
    if (child == 0) {
        execv(argv[0], argv);
        _exit(127);
    }
    int status = 0;
    waitpid(child, &status, 0);
    if (!WIFEXITED(status) || WEXITSTATUS(status)) {
        stop("the program did not do its work");
    }
    return now_s() - start;
}

static void bench_tables(ds_text *const job)
{
    static const char EMPTY[] = "{\"dripstone\": 1, \"rules\": [\"gb-2022\"]}";
    ds_text table;
    ds_text again;
    double seconds[RUNS];
    ds_text_init(&table, &ALLOC);
    ds_text_init(&again, &ALLOC);
    make_table(&table, ROWS);
    printf("| %d rows, %.1f MB | seconds | rows/s |\n| --- | --- | --- |\n", ROWS, (double)table.len / 1e6);
    for (int i = 0; i < RUNS; i++) {
        seconds[i] = read_once(ds_text_str(&table));
    }
    printf("| cells alone | %.3f | %.0f |\n", median(seconds, RUNS), ROWS / median(seconds, RUNS));
    for (int i = 0; i < RUNS; i++) {
        seconds[i] = import_once(job, DS_STR(EMPTY), ds_text_str(&table));
    }
    printf("| all of them new points, to the document | %.3f | %.0f |\n", median(seconds, RUNS),
           ROWS / median(seconds, RUNS));
    for (int i = 0; i < RUNS; i++) {
        seconds[i] = import_once(&again, ds_text_str(job), ds_text_str(&table));
    }
    printf("| the same into that document (%.0f MB, read and written) | %.3f | %.0f |\n",
           (double)job->len / 1e6, median(seconds, RUNS), ROWS / median(seconds, RUNS));
    ds_text_free(&again);
    table.len = 0;
    make_table(&table, POINTS);
    import_once(job, DS_STR(EMPTY), ds_text_str(&table));
    ds_text_free(&table);
}

static void bench_sheets(char *const program, const ds_text *const job)
{
    static char *const READERS[] = {"client", "fitter", "buyer", "inspector", "all"};
    char job_path[] = "dripstone-bench.json";
    char book_path[] = "dripstone-bench.xlsx";
    double seconds[RUNS];
    FILE *const file = fopen(job_path, "w");
    if (!file || fwrite(job->at, 1, job->len, file) != job->len || fclose(file)) {
        stop("the job could not be written");
    }
    printf("\n| sheet of %d points for | seconds, with reading and judging |\n| --- | --- |\n", POINTS);
    for (size_t reader = 0; reader < sizeof READERS / sizeof *READERS; reader++) {
        char *command[] = {program, "sheet",   job_path,  "--for", READERS[reader],
                           "-o",    book_path, "--force", NULL};
        for (int i = 0; i < RUNS; i++) {
            seconds[i] = run_once(command);
        }
        printf("| %s | %.2f |\n", READERS[reader], median(seconds, RUNS));
        fflush(stdout);
    }
    unlink(job_path);
    unlink(book_path);
}

int main(const int argc, char **const argv)
{
    ds_text job;
    if (argc != 2) {
        fprintf(stderr, "usage: table_bench PROGRAM\n");
        return 2;
    }
    ds_text_init(&job, &ALLOC);
    bench_tables(&job);
    bench_sheets(argv[1], &job);
    ds_text_free(&job);
    return 0;
}
