/* SPDX-License-Identifier: MIT */
/*
 * The program as a whole process on generated jobs: wall time and peak memory of `check` (text and JSON) on 40,000,
 * 200,000 and 1,000,000 points, papers of 2,000 and 40,000, and start-up of `read`. Medians of five runs (three of the
 * largest).
 *
 *     build/release/bench/check_bench build/release/dripstone
 *
 * The jobs are of the same make at every size: a place for every 50 points, every question answered, one to three marks
 * a point, every eighth point conditional, every tenth with a fault worth finding.
 */
#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

enum { RUNS = 5, POINTS_A_PLACE = 50 };

static const char *const PLACES[] = {
    "\"kind\": \"workshop\", \"setting\": \"indoors\", \"seen\": [\"none\", \"wood-dust\"]",
    "\"kind\": \"yard\", \"setting\": \"outdoors\", \"seen\": [\"none\", \"driving-rain\", \"hose-nearby\"]",
    "\"kind\": \"farm\", \"setting\": \"sheltered\", \"seen\": [\"none\", \"straw\", \"livestock\"]",
    "\"kind\": \"bath-room\", \"setting\": \"indoors\", \"seen\": [\"none\", \"splashes\"]",
    "\"kind\": \"office\", \"setting\": \"indoors\", \"seen\": \"none\""};

static const char *const KINDS[] = {"socket-outlet", "luminaire", "switch", "junction-box", "fan"};
static const char *const MARKS[] = {"IP20", "IP44", "IP55 IK08", "IP66/IP67 IK10", "IP65"};

static void write_place(FILE *const out, const long index)
{
    fprintf(out, "%s\n{\"id\": \"place-%ld\", \"name\": \"Place number %ld\", %s}", index ? "," : "", index,
            index, PLACES[index % 5]);
}

static void write_point(FILE *const out, const long index)
{
    const long place = index / POINTS_A_PLACE;
    fprintf(out,
            "%s\n{\"id\": \"P%ld\", \"place\": \"place-%ld\", \"name\": \"Point %ld by the door\", \"kind\": "
            "\"%s\", ",
            index ? "," : "", index, place, index, KINDS[index % 5]);
    fprintf(out, "\"height_m\": 1.2, \"supply\": {\"volts\": 230, \"current\": \"ac\", \"selv\": false, "
                 "\"rcd_ma\": 30}, ");
    if (place % 5 == 3) {
        fprintf(out, "\"zone_stated\": \"%s\", \"zone1_distance_m\": 2.6, ", index % 2 ? "2" : "outside");
    }
    if (index % 8 == 0) {
        fprintf(out,
                "\"marked\": [{\"ip\": \"IP66\", \"when\": [\"lid-closed\"]}, {\"ip\": \"IP44\", \"when\": "
                "[\"plug-in-use\"]}], \"states\": [[\"lid-closed\"], [\"plug-in-use\"]]}");
    } else {
        fprintf(out, "\"marked\": [{\"ip\": \"%s\"}]}", index % 10 == 9 ? "weatherproof" : MARKS[index % 5]);
    }
}

static void write_job(const char *const path, const long points)
{
    FILE *const out = fopen(path, "w");
    if (!out) {
        perror(path);
        exit(2);
    }
    fprintf(out, "{\"dripstone\": 1, \"title\": \"Generated\", \"date\": \"2024-05-04\", \"rules\": "
                 "[\"gb-2022\"],\n\"places\": [");
    for (long i = 0; i * POINTS_A_PLACE < points; i++) {
        write_place(out, i);
    }
    fprintf(out, "],\n\"points\": [");
    for (long i = 0; i < points; i++) {
        write_point(out, i);
    }
    fprintf(out, "]}\n");
    fclose(out);
}

typedef struct figure {
    double seconds;
    double megabytes;
    double cpu_seconds; /* on a machine that others use, the figure to go by */
} figure;

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static figure run_once(char *const *const argv)
{
    const double start = now();
    const pid_t child = fork();
    if (child == 0) {
        const int null = open("/dev/null", O_WRONLY);
        dup2(null, STDOUT_FILENO);
        execv(argv[0], argv);
        _exit(127);
    }
    int status = 0;
    struct rusage usage;
    wait4(child, &status, 0, &usage);
    if (!WIFEXITED(status) || WEXITSTATUS(status) > 1) {
        fprintf(stderr, "%s did not do its work (status %d)\n", argv[0], status);
        exit(2);
    }
    const double cpu = (double)(usage.ru_utime.tv_sec + usage.ru_stime.tv_sec) +
                       (double)(usage.ru_utime.tv_usec + usage.ru_stime.tv_usec) * 1e-6;
    return (figure){now() - start, (double)usage.ru_maxrss / 1024, cpu};
}

static int by_seconds(const void *const a, const void *const b)
{
    const double x = ((const figure *)a)->seconds;
    const double y = ((const figure *)b)->seconds;
    return (x > y) - (x < y);
}

static figure median(char *const *const argv, const int runs)
{
    figure figures[RUNS];
    for (int i = 0; i < runs; i++) {
        figures[i] = run_once(argv);
    }
    qsort(figures, (size_t)runs, sizeof *figures, by_seconds);
    return figures[runs / 2];
}

static double size_of(const char *const path)
{
    struct stat status;
    return stat(path, &status) == 0 ? (double)status.st_size / 1e6 : 0;
}

/* Each paper of a job; how much longer it takes than `check` says what setting costs. */
static void run_papers(char *const program, char *const job)
{
    static char *const READERS[] = {"client", "fitter", "buyer", "inspector", "all"};
    static const long SIZES[] = {2000, 40000};
    char pdf[] = "dripstone-bench.pdf";
    printf("\n| points | paper for | seconds | of processor | peak MB | file MB |\n| --- | --- | --- | --- | "
           "--- | --- |\n");
    for (size_t i = 0; i < sizeof SIZES / sizeof *SIZES; i++) {
        write_job(job, SIZES[i]);
        for (size_t reader = 0; reader < sizeof READERS / sizeof *READERS; reader++) {
            char *command[] = {program, "paper", job, "--for", READERS[reader], "-o", pdf, "--force", NULL};
            const figure f = median(command, SIZES[i] > 10000 ? 1 : RUNS);
            printf("| %ld | %s | %.2f | %.2f | %.0f | %.2f |\n", SIZES[i], READERS[reader], f.seconds,
                   f.cpu_seconds, f.megabytes, size_of(pdf));
            fflush(stdout);
        }
    }
    unlink(pdf);
}

int main(const int argc, char **const argv)
{
    if (argc != 2) {
        fprintf(stderr, "usage: check_bench PROGRAM\n");
        return 2;
    }
    char path[] = "dripstone-bench-XXXXXX";
    const int file = mkstemp(path);
    if (file < 0) {
        perror(path);
        return 2;
    }
    close(file);
    static const long SIZES[] = {40000, 200000, 1000000};
    printf("| points | output | seconds | us a point | peak MB |\n| --- | --- | --- | --- | --- |\n");
    for (size_t i = 0; i < sizeof SIZES / sizeof *SIZES; i++) {
        write_job(path, SIZES[i]);
        char *text[] = {argv[1], "check", path, NULL};
        char *json[] = {argv[1], "check", "--json", path, NULL};
        const int runs = SIZES[i] > 500000 ? 3 : RUNS;
        for (int form = 0; form < 2; form++) {
            const figure f = median(form ? json : text, runs);
            printf("| %ld | %s | %.3f | %.2f | %.0f |\n", SIZES[i], form ? "JSON" : "text", f.seconds,
                   f.seconds * 1e6 / (double)SIZES[i], f.megabytes);
            fflush(stdout);
        }
    }
    run_papers(argv[1], path);
    unlink(path);
    char *read_mark[] = {argv[1], "read", "IP66/IP67", NULL};
    const figure start = median(read_mark, RUNS);
    printf("\nstart-up of read: %.2f ms, %.1f MB\n", start.seconds * 1e3, start.megabytes);
    return 0;
}
