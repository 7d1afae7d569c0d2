/* SPDX-License-Identifier: MIT */
/*
 * Any bytes as a job: read, assessed with a small rule pack and written out in every form. What must hold whatever comes:
 * no crash, no leak, a point inside which something was not understood never fits, and an entry that decides is named.
 */
#include "fuzz.h"

#include "core/assess/render.h"

static const char WORDS[] =
    "{\"dripstone_words\": 1, \"setting\": [{\"word\": \"outdoors\", \"influences\": {\"AD\": 4}}, "
    "{\"word\": \"indoors\"}],"
    "\"place\": [{\"word\": \"yard\"}, {\"word\": \"bath-room\", \"zones\": [\"0\", \"1\", \"2\", "
    "\"outside\"]}],"
    "\"kind\": [{\"word\": \"socket-outlet\", \"complete\": true}, {\"word\": \"box\", \"enclosure\": true}],"
    "\"measure\": [{\"word\": \"guard\"}], \"condition\": [{\"word\": \"lid-closed\"}],"
    "\"found\": [{\"word\": \"cracked\", \"spoils\": true}], \"quality\": [{\"word\": \"salt\"}],"
    "\"material\": [{\"word\": \"grp\"}], \"evidence\": [{\"word\": \"label-seen\"}],"
    "\"seen\": [{\"word\": \"hose\", \"group\": \"water\", \"influences\": {\"AD\": 5}, \"quantities\": "
    "[\"depth_m\"]}]}";

static const char PACK[] =
    "{\"dripstone_pack\": 1, \"id\": \"x\", \"title\": \"X\", \"edition\": \"X\", \"rules\": ["
    "{\"id\": \"a\", \"clause\": \"1\", \"grade\": \"rule\", \"when\": {\"AD\": 4}, \"needs\": {\"ip\": "
    "\"IPX4\"},"
    " \"because\": \"b\", \"source\": {\"kind\": \"common-practice\"}},"
    "{\"id\": \"b\", \"clause\": \"2\", \"grade\": \"rule\", \"when\": {\"depth_m\": {\"above\": 1}}, "
    "\"needs\": "
    "{\"immersion\": true}, \"because\": \"b\", \"source\": {\"kind\": \"common-practice\"}},"
    "{\"id\": \"c\", \"clause\": \"3\", \"grade\": \"rule\", \"when\": {\"zone\": \"1\", \"height_m\": "
    "{\"below\": 1}}, "
    "\"unless\": {\"measure\": \"guard\"}, \"bars\": \"No.\", \"because\": \"b\", \"source\": {\"kind\": "
    "\"common-practice\"}}]}";

static void check_findings(const ds_findings *const findings)
{
    for (size_t i = 0; i < findings->points_len; i++) {
        const ds_finding *const finding = &findings->points[i];
        const bool odd = finding->point->problem >= 0 || !finding->place || finding->place->problem >= 0;
        FUZZ_EXPECT(!odd || finding->verdict != DS_FITS);
        FUZZ_EXPECT(finding->verdict != DS_FITS || findings->packs_len > 0);
        FUZZ_EXPECT(finding->obstacle != DS_OBSTACLE_ENTRY || ds_finding_part(finding));
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *const data, const size_t size)
{
    ds_arena arena;
    ds_arena_init(&arena, fuzz_alloc());
    static ds_rulebook book;
    ds_rulebook_init(&book, &arena);
    ds_problem problem;
    FUZZ_EXPECT(ds_words_read(&book.words, DS_STR(WORDS), &problem) == DS_OK);
    FUZZ_EXPECT(ds_rulebook_read(&book, DS_STR(PACK), &problem) == DS_OK);
    ds_job job;
    ds_findings findings;
    const ds_sizes sizes = DS_SIZES_NONE;
    ds_text out;
    ds_text_init(&out, arena.alloc);
    const ds_str text = {(const char *)data, size};
    if (ds_job_read(&job, text, &arena, &problem) == DS_OK &&
        ds_assess(&findings, &job, &book, &sizes, &arena, &problem) == DS_OK) {
        check_findings(&findings);
        ds_findings_json(&out, &findings, NULL);
        ds_findings_csv(&out, &findings, NULL);
        FUZZ_EXPECT(ds_text_ok(&out));
    }
    ds_text_free(&out);
    ds_arena_free(&arena);
    return 0;
}
