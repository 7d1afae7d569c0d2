/* SPDX-License-Identifier: MIT */
/*
 * Entries judged a second in one thread, median of five runs: reading the code on the fitting, looking up thread and
 * cable by name, and judging; of a mixture of entries as on a site, and of each kind by itself. Then whole boxes of eight
 * entries and two openings each, with the part that decides.
 *
 *     build/release/bench/entry_bench rules/entries.json
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#include "core/box/installed.h"
#include "core/job/fields.h"
#include "core/mark/read.h"

enum { RUNS = 5, ENTRIES = 2000000, BOXES = 200000, ENTRIES_A_BOX = 8 };

static const char BOX[] =
    "{\"entries\": ["
    "{\"id\": \"E1\", \"face\": \"bottom\", \"size\": \"M20\", \"hole_mm\": 20.5, \"holds\": \"gland\", "
    "\"ip\": "
    "\"IP66/IP68\", \"range_mm\": [6, 12], \"wall_seal\": true, \"cable\": {\"type\": \"H07RN-F\", \"size\": "
    "\"3G1.5\"}},"
    "{\"id\": \"E2\", \"face\": \"bottom\", \"size\": \"M25\", \"holds\": \"gland\", \"ip\": \"IP66\", "
    "\"gland\": "
    "\"25\", \"range_mm\": [18.2, 26.2], \"inner_range_mm\": [11.1, 20], \"wall_seal\": true, \"cable\": "
    "{\"type\": \"SWA\", \"size\": \"4x10\"}},"
    "{\"id\": \"E3\", \"face\": \"bottom\", \"size\": \"M20\", \"holds\": \"blank\", \"ip\": \"IP66\", "
    "\"wall_seal\": true},"
    "{\"id\": \"E4\", \"face\": \"bottom\", \"size\": \"M20\", \"holds\": \"gland\", \"ip\": \"IP66\", "
    "\"range_mm\": [6, 12], \"wall_seal\": true, \"cable\": {\"od_mm\": [14, 14]}},"
    "{\"id\": \"E5\", \"face\": \"left\", \"size\": \"M25\", \"holds\": \"tape\"},"
    "{\"id\": \"E6\", \"face\": \"back\", \"holds\": \"fixing-hole\", \"outside_seal\": true},"
    "{\"id\": \"E7\", \"face\": \"bottom\", \"size\": \"M20\", \"holds\": \"insert\", \"ip\": \"IP65\", "
    "\"wall_seal\": true, \"holes\": [\"plugged\", {\"range_mm\": [3, 6], \"cable\": {\"od_mm\": [5, 5]}}]},"
    "{\"id\": \"E8\", \"face\": \"bottom\", \"size\": \"M12\", \"holds\": \"drain\", \"ip\": \"IP66\", "
    "\"wall_seal\": true}],"
    "\"faces\": [{\"face\": \"front\", \"openings\": [{\"shape\": \"slot\", \"size_mm\": 1.5, \"length_mm\": "
    "40, "
    "\"live_part_mm\": 30}, {\"shape\": \"round\", \"size_mm\": 7, \"live_part_mm\": 40}]}]}";

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

static const ds_alloc ALLOC = {.resize = resize};

static void stop(const char *const why)
{
    fprintf(stderr, "entry_bench: %s\n", why);
    exit(2);
}

static ds_str read_file(const char *const path)
{
    static char text[1 << 20];
    FILE *const file = fopen(path, "rb");
    const size_t len = file ? fread(text, 1, sizeof text, file) : 0;
    if (!file || len == sizeof text) {
        stop("cannot read the sizes");
    }
    fclose(file);
    return (ds_str){text, len};
}

static const ds_box *read_box(ds_arena *const arena)
{
    static ds_job job;
    int32_t owner = -1;
    ds_problem problem;
    ds_json *tree = NULL;
    if (ds_json_read(&tree, DS_STR(BOX), arena, &DS_JSON_LIMITS, &problem) != DS_OK) {
        stop("the box is no JSON");
    }
    job = (ds_job){.tree = tree, .source = DS_STR(BOX)};
    ds_reader reader = {.job = &job, .arena = arena, .owner = &owner};
    const ds_box *const box = ds_box_read(&reader, tree);
    if (!box || job.problems.len > 0 || box->entries_len != ENTRIES_A_BOX) {
        stop("the box is not read");
    }
    return box;
}

static double now(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (double)t.tv_sec + (double)t.tv_nsec * 1e-9;
}

static int by_size(const void *const a, const void *const b)
{
    const double x = *(const double *)a;
    const double y = *(const double *)b;
    return (x > y) - (x < y);
}

static uint64_t sum; /* of the marks, so that the work is done; printed */

/* Entries first..first + count of the box, over and over. */
static double judge_entries(const ds_box *const box, const ds_sizes *const sizes, const size_t first,
                            const size_t count)
{
    double seconds[RUNS];
    for (int run = 0; run < RUNS; run++) {
        const double start = now();
        for (size_t i = 0; i < ENTRIES; i++) {
            ds_entry_judged judged;
            ds_entry_judge(&judged, &box->entries[first + i % count], sizes);
            sum += judged.mark;
        }
        seconds[run] = now() - start;
    }
    qsort(seconds, RUNS, sizeof *seconds, by_size);
    return seconds[RUNS / 2];
}

static double judge_boxes(const ds_box *const box, const ds_sizes *const sizes)
{
    ds_reading reading;
    ds_mark_read(DS_STR("IP66"), &reading);
    double seconds[RUNS];
    for (int run = 0; run < RUNS; run++) {
        ds_arena arena;
        ds_arena_init(&arena, &ALLOC);
        const double start = now();
        for (int i = 0; i < BOXES; i++) {
            ds_installed installed;
            if (ds_installed_of(&installed, box, sizes, &arena) != DS_OK) {
                stop("no memory");
            }
            sum += ds_installed_mark(&installed, reading.mark);
            sum += ds_installed_decides(&installed, reading.mark, ds_installed_claim(reading.mark))->number;
            ds_arena_free(&arena);
        }
        seconds[run] = now() - start;
    }
    qsort(seconds, RUNS, sizeof *seconds, by_size);
    return seconds[RUNS / 2];
}

int main(const int argc, char **const argv)
{
    if (argc != 2) {
        fprintf(stderr, "usage: entry_bench FILE\n");
        return 2;
    }
    ds_arena arena;
    ds_arena_init(&arena, &ALLOC);
    ds_sizes sizes;
    ds_problem problem;
    if (ds_sizes_read(&sizes, read_file(argv[1]), &arena, &problem) != DS_OK) {
        stop("the sizes are refused");
    }
    const ds_box *const box = read_box(&arena);
    printf("| what | seconds for %d | a second |\n| --- | --- | --- |\n", ENTRIES);
    const double mixed = judge_entries(box, &sizes, 0, ENTRIES_A_BOX);
    printf("| entries, mixed | %.3f | %.0f |\n", mixed, ENTRIES / mixed);
    for (size_t i = 0; i < ENTRIES_A_BOX; i++) {
        const ds_entry *const entry = &box->entries[i];
        const double one = judge_entries(box, &sizes, i, 1);
        printf("| %.*s, %s | %.3f | %.0f |\n", (int)entry->id.len, entry->id.at, ds_holds_word(entry->holds),
               one, ENTRIES / one);
    }
    const double boxes = judge_boxes(box, &sizes);
    printf("\n%d boxes of %d entries and 2 openings, with the part that decides: %.3f s, %.0f a second\n",
           BOXES, ENTRIES_A_BOX, boxes, BOXES / boxes);
    printf("(sum %llx)\n", (unsigned long long)sum);
    ds_arena_free(&arena);
    return 0;
}
