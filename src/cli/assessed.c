/* SPDX-License-Identifier: MIT */
#include "cli/assessed.h"

static bool accept(ds_assessed *const a, const ds_status status, const ds_problem *const problem)
{
    if (status == DS_NO_MEMORY) {
        ds_host_fail_memory(a->host);
    } else if (status == DS_BAD_INPUT) {
        ds_host_fail_at(a->host, a->file.name, problem);
    }
    return status == DS_OK;
}

/* A pack that was handed over but is not named would silently not count. */
static void note_unused_packs(const ds_assessed *const a)
{
    const ds_rulebook *const rules = &a->book->rules;
    for (size_t i = a->book->own_packs; i < rules->packs_len; i++) {
        bool used = false;
        for (size_t j = 0; j < a->findings.packs_len; j++) {
            used = used || a->findings.packs[j] == &rules->packs[i];
        }
        if (!used) {
            ds_host_fail(a->host, "note: the job does not name the pack", rules->packs[i].id,
                         " in \"rules\", so it was not used.");
        }
    }
}

bool ds_assessed_open(ds_assessed *const out, ds_host *const host, const ds_args *const args)
{
    *out = (ds_assessed){.host = host, .args = args};
    ds_arena_init(&out->arena, host->alloc);
    ds_problem problem = {0};
    const bool good =
        ds_file_read(&out->file, host, ds_args_word(args, 0)) &&
        (out->book = ds_book_open(host, args, "pack")) != NULL &&
        accept(out, ds_job_read(&out->job, (ds_str){out->file.at, out->file.len}, &out->arena, &problem),
               &problem) &&
        accept(
            out,
            ds_assess(&out->findings, &out->job, &out->book->rules, &out->book->sizes, &out->arena, &problem),
            &problem);
    if (good) {
        note_unused_packs(out);
    }
    return good;
}

void ds_assessed_close(ds_assessed *const a)
{
    ds_arena_free(&a->arena);
    ds_book_close(a->book, a->host);
    ds_file_free(&a->file, a->host);
}

size_t ds_assessed_place(const ds_assessed *const a, const ds_str id)
{
    size_t i = 0;
    while (i < a->job.places_len && !ds_str_eq(a->job.places[i].id, id)) {
        i++;
    }
    return i;
}

int ds_assessed_fail_place(const ds_assessed *const a, const ds_str id)
{
    const ds_alloc *const alloc = a->host->alloc;
    const size_t size = (a->job.places_len + 1) * sizeof(ds_str);
    ds_str *const ids = alloc->resize(alloc->ctx, NULL, 0, size);
    for (size_t i = 0; ids && i < a->job.places_len; i++) {
        ids[i] = a->job.places[i].id;
    }
    ds_fail_unknown(a->host, "the job has no place", id, ids, ids ? a->job.places_len : 0,
                    "dripstone zones without --place lists those with a plan.");
    alloc->resize(alloc->ctx, ids, size, 0);
    return DS_EXIT_UNREADABLE;
}

int ds_assessed_fail_point(const ds_assessed *const a, const ds_str id)
{
    const ds_alloc *const alloc = a->host->alloc;
    const size_t size = (a->job.points_len + 1) * sizeof(ds_str);
    ds_str *const ids = alloc->resize(alloc->ctx, NULL, 0, size);
    for (size_t i = 0; ids && i < a->job.points_len; i++) {
        ids[i] = a->job.points[i].id;
    }
    ds_fail_unknown(a->host, "the job has no point", id, ids, ids ? a->job.points_len : 0,
                    "dripstone check without --explain lists them.");
    alloc->resize(alloc->ctx, ids, size, 0);
    return DS_EXIT_UNREADABLE;
}

int ds_assessed_fail_choice(const ds_assessed *const a, const size_t len, ds_assessed_id *const id_of,
                            const char *const several, const char *const none)
{
    ds_text ids;
    ds_text_init(&ids, a->host->alloc);
    for (size_t i = 0; i < len; i++) {
        const ds_str id = id_of(a, i);
        ds_text_add(&ids, ids.len && id.len ? ", " : "");
        ds_text_adds(&ids, id);
    }
    ds_host_fail(a->host, ids.len ? several : none, ds_text_str(&ids), "");
    ds_text_free(&ids);
    return DS_EXIT_UNREADABLE;
}
