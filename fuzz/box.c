/* SPDX-License-Identifier: MIT */
/*
 * Any bytes as a box and as a file of sizes. What must hold whatever comes: no crash, no leak; entries never add to the
 * box's mark; nothing is proven and denied at once; what decides is told, with a mend that is no drill.
 */
#include "fuzz.h"

#include "core/box/entry_say.h"
#include "core/job/fields.h"
#include "core/mark/read.h"

static const char SIZES[] =
    "{\"dripstone_entries\": 1, \"threads\": [{\"source\": {\"kind\": \"common-practice\"}, \"sizes\": ["
    "{\"size\": \"M20\", \"thread_mm\": 20, \"hole_mm\": [20.2, 20.5], \"core_mm\": 18.5},"
    "{\"size\": \"M16\", \"thread_mm\": 16, \"hole_mm\": [16.2, 16.5], \"core_mm\": 14.5}]}],"
    "\"glands\": [{\"source\": {\"kind\": \"common-practice\"}, \"sizes\": [{\"thread\": \"M20\", "
    "\"range_mm\": "
    "[6, 12]}, {\"thread\": \"M20\", \"gland\": \"20S\", \"range_mm\": [9.5, 15.9], \"inner_range_mm\": "
    "[6.1, "
    "11.7]}]}],"
    "\"cables\": [{\"type\": \"flex\", \"source\": {\"kind\": \"common-practice\"}, \"sizes\": [{\"size\": "
    "\"3x1.5\", \"od_mm\": [7, 9]}]}, {\"type\": \"flat\", \"shape\": \"flat\", \"source\": {\"kind\": "
    "\"common-practice\"}, \"sizes\": [{\"size\": \"2.5\", \"width_mm\": [9.8, 11.5], \"thickness_mm\": [5, "
    "6]}]}]}";

/* Ended by a zero byte for strstr. */
static const char *told(ds_text *const text)
{
    ds_text_char(text, '\0');
    FUZZ_EXPECT(ds_text_ok(text));
    return text->at;
}

static void check_told(const ds_installed *const installed, const ds_part *const part, const ds_need need)
{
    ds_text says;
    ds_text mend;
    ds_text_init(&says, fuzz_alloc());
    ds_text_init(&mend, fuzz_alloc());
    ds_say_part(&says, installed, part, need);
    ds_say_part_mend(&mend, installed, part, need);
    FUZZ_EXPECT(says.len > 0 && mend.len > 0);
    ds_say_part_notes(&mend, installed, part);
    FUZZ_EXPECT(told(&says) && told(&mend));
    ds_text_free(&says);
    ds_text_free(&mend);
}

static void judge(const ds_box *const box, const ds_sizes *const sizes, ds_arena *const arena)
{
    static const char *const MARKS[] = {"IP66", "IP65/IP68 (3 m, 24 h) IK08", "IP20", ""};
    ds_installed installed;
    FUZZ_EXPECT(ds_installed_of(&installed, box, sizes, arena) == DS_OK);
    for (size_t i = 0; i < sizeof MARKS / sizeof *MARKS; i++) {
        ds_reading reading;
        ds_mark_read(ds_str_of(MARKS[i]), &reading);
        const ds_mark mark = ds_installed_mark(&installed, reading.mark);
        const uint64_t measured = ds_mark_proven(installed.measured);
        FUZZ_EXPECT((ds_mark_proven(mark) & ~(ds_mark_proven(reading.mark) | measured)) == 0);
        FUZZ_EXPECT((ds_mark_proven(mark) & ds_mark_denied(mark)) == 0);
        const ds_need need = ds_installed_claim(reading.mark);
        const ds_part *const part = ds_installed_decides(&installed, reading.mark, need);
        FUZZ_EXPECT((part != NULL) == (ds_mark_compare(need, mark, NULL) != DS_FITS));
        if (part) {
            check_told(&installed, part, need);
        }
    }
    (void)ds_installed_condition(&installed, DS_STR("glands-fitted"));
}

static void read_box(const ds_str text, const ds_sizes *const sizes, ds_arena *const arena)
{
    ds_problem problem;
    ds_json *tree = NULL;
    if (ds_json_read(&tree, text, arena, &DS_JSON_LIMITS, &problem) != DS_OK) {
        return;
    }
    ds_job job = {.tree = tree, .source = text};
    int32_t owner = -1;
    ds_reader reader = {.job = &job, .arena = arena, .owner = &owner};
    const ds_box *const box = ds_box_read(&reader, tree);
    FUZZ_EXPECT(!reader.failed && (owner >= 0) == (job.problems.len > 0));
    FUZZ_EXPECT(box || job.problems.len > 0);
    if (box) {
        judge(box, sizes, arena);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *const data, const size_t size)
{
    const ds_str text = {(const char *)data, size};
    ds_arena arena;
    ds_arena_init(&arena, fuzz_alloc());
    ds_problem problem;
    ds_sizes sizes;
    FUZZ_EXPECT(ds_sizes_read(&sizes, DS_STR(SIZES), &arena, &problem) == DS_OK);
    read_box(text, &sizes, &arena);
    ds_sizes other;
    if (ds_sizes_read(&other, text, &arena, &problem) == DS_OK) {
        read_box(
            DS_STR("{\"entries\": [{\"holds\": \"gland\", \"size\": \"M20\", \"cable\": {\"type\": \"flex\", "
                   "\"size\": \"3x1.5\"}}]}"),
            &other, &arena);
    }
    ds_arena_free(&arena);
    return 0;
}
