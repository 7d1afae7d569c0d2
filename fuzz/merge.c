/* SPDX-License-Identifier: MIT */
/*
 * Any bytes as three documents, with a line "---" between them. What must hold whatever comes: no crash, no leak; what is
 * merged can be read again; of three jobs comes a job, in which no id stands twice that did not on either side; the sides
 * swapped give as many conflicts; a side that did nothing yields.
 */
#include "fuzz.h"

#include "core/job/job.h"
#include "core/job/merge.h"

enum { DOCUMENTS = 3 };

/* The text up to the next line "---", and *rest what follows it. */
static ds_str next_document(ds_str *const rest)
{
    static const char LINE[] = "\n---\n";
    const ds_str all = *rest;
    for (size_t i = 0; i + sizeof LINE - 1 <= all.len; i++) {
        if (memcmp(all.at + i, LINE, sizeof LINE - 1) == 0) {
            *rest = ds_str_from(all, i + sizeof LINE - 1);
            return (ds_str){all.at, i};
        }
    }
    *rest = (ds_str){all.at + all.len, 0};
    return all;
}

static ds_text written(const ds_merge *const merge)
{
    ds_text text;
    ds_text_init(&text, fuzz_alloc());
    ds_merge_document(&text, merge);
    FUZZ_EXPECT(ds_text_ok(&text));
    return text;
}

/* The merged document; that with its conflicts can be read again. */
static ds_text merged(const ds_json *const base, const ds_json *const mine, const ds_json *const theirs,
                      size_t *const conflicts, ds_arena *const arena)
{
    ds_merge merge;
    FUZZ_EXPECT(ds_merge_trees(&merge, base, mine, theirs, arena));
    ds_text json;
    ds_text_init(&json, fuzz_alloc());
    ds_merge_json(&json, &merge);
    ds_json *tree;
    ds_problem problem;
    FUZZ_EXPECT(ds_text_ok(&json));
    const ds_json_limits deeper = {
        .bytes = DS_JSON_LIMITS.bytes, .depth = DS_JSON_LIMITS.depth + 8, .keys = DS_JSON_LIMITS.keys};
    FUZZ_EXPECT(ds_json_read(&tree, ds_text_str(&json), arena, &deeper, &problem) == DS_OK);
    ds_text_free(&json);
    *conflicts = merge.conflicts_len;
    return written(&merge);
}

static bool has_twins(const ds_job *const job)
{
    for (size_t i = 0; i < job->problems.len; i++) {
        if (job->problems.at[i].code == DS_P_DUPLICATE_ID) {
            return true;
        }
    }
    return false;
}

static void check_job(const ds_str sides[DOCUMENTS], const ds_str text, ds_arena *const arena)
{
    ds_job job;
    ds_problem problem;
    bool twins = false;
    for (int i = 0; i < DOCUMENTS; i++) {
        if (ds_job_read(&job, sides[i], arena, &problem) != DS_OK) {
            return;
        }
        twins = twins || has_twins(&job) || job.problems_unlisted > 0;
    }
    FUZZ_EXPECT(ds_job_read(&job, text, arena, &problem) == DS_OK);
    FUZZ_EXPECT(twins || !has_twins(&job));
}

/* A side that did nothing: the other comes back as it is. */
static void check_yields(const ds_json *const base, const ds_json *const changed, ds_arena *const arena)
{
    size_t conflicts = 0;
    ds_text one = merged(base, base, changed, &conflicts, arena);
    FUZZ_EXPECT(conflicts == 0);
    ds_text other = merged(base, changed, base, &conflicts, arena);
    FUZZ_EXPECT(conflicts == 0 && ds_str_eq(ds_text_str(&one), ds_text_str(&other)));
    ds_text_free(&one);
    ds_text_free(&other);
}

int LLVMFuzzerTestOneInput(const uint8_t *const data, const size_t size)
{
    ds_str rest = {(const char *)data, size};
    ds_str sources[DOCUMENTS];
    ds_json *trees[DOCUMENTS];
    ds_arena arena;
    ds_arena_init(&arena, fuzz_alloc());
    bool good = true;
    for (int i = 0; i < DOCUMENTS && good; i++) {
        ds_problem problem;
        sources[i] = next_document(&rest);
        good = ds_json_read(&trees[i], sources[i], &arena, &DS_JSON_LIMITS, &problem) == DS_OK;
    }
    if (good) {
        size_t conflicts = 0;
        size_t swapped = 0;
        ds_text text = merged(trees[0], trees[1], trees[2], &conflicts, &arena);
        ds_text mirror = merged(trees[0], trees[2], trees[1], &swapped, &arena);
        FUZZ_EXPECT(conflicts == swapped);
        check_job(sources, ds_text_str(&text), &arena);
        check_yields(trees[0], trees[1], &arena);
        ds_text_free(&text);
        ds_text_free(&mirror);
    }
    ds_arena_free(&arena);
    return 0;
}
