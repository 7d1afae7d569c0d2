/* SPDX-License-Identifier: MIT */
/* Loading words and packs. The data inside the program is read by the same reader as a person's own files. */
#include "cli/rulebook.h"

#define DS_EMBEDDED(X) X(words) X(seen) X(iec) X(gb_2022) X(gb_2018) X(de) X(fr) X(au) X(entries)

#define X(name) extern const char ds_embedded_##name[], ds_embedded_##name##_end[];
DS_EMBEDDED(X)
#undef X

typedef ds_status reader(ds_book *book, ds_str source, ds_problem *problem);

static ds_status read_words(ds_book *const book, const ds_str source, ds_problem *const problem)
{
    return ds_words_read(&book->rules.words, source, problem);
}

static ds_status read_pack(ds_book *const book, const ds_str source, ds_problem *const problem)
{
    return ds_rulebook_read(&book->rules, source, problem);
}

static ds_status read_sizes(ds_book *const book, const ds_str source, ds_problem *const problem)
{
    return ds_sizes_read(&book->sizes, source, &book->arena, problem);
}

static bool accept(ds_host *const host, const ds_str name, const ds_status status,
                   const ds_problem *const problem)
{
    if (status == DS_NO_MEMORY) {
        ds_host_fail_memory(host);
    } else if (status == DS_BAD_INPUT) {
        ds_host_fail_at(host, name, problem);
    }
    return status == DS_OK;
}

static bool load_embedded(ds_book *const book, ds_host *const host)
{
#define X(name) {"rules/" #name, ds_embedded_##name, ds_embedded_##name##_end},
    static const struct {
        const char *name, *at, *end;
    } DATA[] = {DS_EMBEDDED(X)};
#undef X
    const size_t len = sizeof DATA / sizeof *DATA;
    for (size_t i = 0; i < len; i++) {
        const ds_str source = {DATA[i].at, (size_t)(DATA[i].end - DATA[i].at)};
        reader *const read = i < 2 ? read_words : i + 1 < len ? read_pack : read_sizes;
        ds_problem problem = {0};
        if (!accept(host, ds_str_of(DATA[i].name), read(book, source, &problem), &problem)) {
            return false;
        }
    }
    return true;
}

static bool load_files(ds_book *const book, ds_host *const host, const ds_args *const args,
                       const char *const option, reader *const read)
{
    for (int i = 0; i < args->given_len; i++) {
        if (strcmp(args->given[i].option->name, option) != 0) {
            continue;
        }
        ds_file *const file = &book->files[book->files_len];
        if (!ds_file_read(file, host, args->given[i].value)) {
            return false;
        }
        book->files_len++;
        ds_problem problem = {0};
        if (!accept(host, file->name, read(book, (ds_str){file->at, file->len}, &problem), &problem)) {
            return false;
        }
    }
    return true;
}

static bool load(ds_book *const book, ds_host *const host, const ds_args *const args,
                 const char *const pack_option)
{
    ds_arena_init(&book->arena, host->alloc);
    ds_rulebook_init(&book->rules, &book->arena);
    book->files_len = 0;
    if (!load_embedded(book, host)) {
        return false;
    }
    book->own_packs = book->rules.packs_len;
    return load_files(book, host, args, "words", read_words) &&
           (!pack_option || load_files(book, host, args, pack_option, read_pack));
}

ds_book *ds_book_open(ds_host *const host, const ds_args *const args, const char *const pack_option)
{
    ds_book *const book = host->alloc->resize(host->alloc->ctx, NULL, 0, sizeof *book);
    if (!book) {
        ds_host_fail_memory(host);
        return NULL;
    }
    if (!load(book, host, args, pack_option)) {
        ds_book_close(book, host);
        return NULL;
    }
    return book;
}

void ds_book_close(ds_book *const book, ds_host *const host)
{
    if (!book) {
        return;
    }
    ds_arena_free(&book->arena);
    for (int i = 0; i < book->files_len; i++) {
        ds_file_free(&book->files[i], host);
    }
    host->alloc->resize(host->alloc->ctx, book, sizeof *book, 0);
}

size_t ds_book_pack_ids(const ds_book *const book, ds_str ids[DS_PACKS_MAX])
{
    for (size_t i = 0; i < book->rules.packs_len; i++) {
        ids[i] = book->rules.packs[i].id;
    }
    return book->rules.packs_len;
}
