/* SPDX-License-Identifier: MIT */
/* What several test programs share: files, the rulebook from the project's data, and a job assessed from text. */
#ifndef DS_TESTS_SUPPORT_H
#define DS_TESTS_SUPPORT_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

#include "base_alloc.h"

#include "core/assess/assess.h"
#include "core/assess/render.h"

/* A whole file of the project; ends the program with a message when it cannot be read. The caller frees at. */
static inline ds_str support_file(const char *const path)
{
    char full[1024];
    snprintf(full, sizeof full, "%s/%s", DS_SOURCE_DIR, path);
    FILE *const file = fopen(full, "rb");
    if (!file || fseek(file, 0, SEEK_END) != 0) {
        fprintf(stderr, "cannot read %s\n", full);
        exit(2);
    }
    const size_t len = (size_t)ftell(file);
    char *const at = malloc(len + 1);
    rewind(file);
    if (!at || fread(at, 1, len, file) != len) {
        exit(2);
    }
    fclose(file);
    at[len] = '\0';
    return (ds_str){at, len};
}

static inline void support_stop(const char *const what, const ds_problem *const problem,
                                const ds_alloc *const alloc)
{
    ds_text text;
    ds_text_init(&text, alloc);
    ds_problem_say(&text, problem);
    fprintf(stderr, "%s: %u:%u %.*s\n", what, problem->where.line, problem->where.column, (int)text.len,
            text.at);
    exit(2);
}

static const char *const SUPPORT_DATA[] = {"rules/words.json",   "rules/seen.json",    "rules/iec.json",
                                           "rules/gb-2022.json", "rules/gb-2018.json", "rules/de.json",
                                           "rules/fr.json",      "rules/au.json"};
enum { SUPPORT_DATA_LEN = 8 };

/* The data files' text, read once a program. */
static inline const ds_str *support_data(void)
{
    static ds_str data[SUPPORT_DATA_LEN];
    for (size_t i = 0; i < SUPPORT_DATA_LEN && !data[i].at; i++) {
        data[i] = support_file(SUPPORT_DATA[i]);
    }
    return data;
}

/* Reads the words and packs of the project; DS_NO_MEMORY when the allocator fails. */
static inline ds_status support_rulebook(ds_rulebook *const book, ds_arena *const arena)
{
    const ds_str *const data = support_data();
    ds_rulebook_init(book, arena);
    ds_problem problem;
    for (size_t i = 0; i < SUPPORT_DATA_LEN; i++) {
        const ds_status status = i < 2 ? ds_words_read(&book->words, data[i], &problem)
                                       : ds_rulebook_read(book, data[i], &problem);
        if (status == DS_BAD_INPUT) {
            support_stop(SUPPORT_DATA[i], &problem, arena->alloc);
        }
        if (status != DS_OK) {
            return status;
        }
    }
    return DS_OK;
}

/* A job from text through ds_assess; ends the program when the text is no job. */
static inline ds_status support_assess(ds_findings *const out, ds_job *const job,
                                       const ds_rulebook *const book, ds_arena *const arena,
                                       const ds_str text)
{
    static const ds_sizes no_sizes; /* entries are tested by tests/boxes and tests/cases */
    ds_problem problem;
    ds_status status = ds_job_read(job, text, arena, &problem);
    if (status == DS_OK) {
        status = ds_assess(out, job, book, &no_sizes, arena, &problem);
    }
    if (status == DS_BAD_INPUT) {
        support_stop("job", &problem, arena->alloc);
    }
    return status;
}

#endif
