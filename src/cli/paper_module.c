/* SPDX-License-Identifier: MIT */
/*
 * The module that sets papers, loaded when the first one is asked for, and the calls that are forwarded to it. It lies
 * beside the program, wherever that is.
 */
#include "paper/module.h"

#include "cli/papers.h"

#include <dlfcn.h>
#include <unistd.h>

enum { PATH_ROOM = 4096 };

static const ds_paper_table *table;

/* The module's path; false when the program's own place cannot be told. */
static bool find_module(char path[PATH_ROOM])
{
    const ssize_t len = readlink("/proc/self/exe", path, PATH_ROOM - sizeof DS_PAPER_MODULE_FILE);
    size_t end = len > 0 ? (size_t)len : 0;
    while (end > 0 && path[end - 1] != '/') {
        end--;
    }
    memcpy(path + end, DS_PAPER_MODULE_FILE, sizeof DS_PAPER_MODULE_FILE);
    return end > 0;
}

bool ds_papers_ready(ds_host *const host)
{
    char path[PATH_ROOM];
    if (table) {
        return true;
    }
    void *const module = find_module(path) ? dlopen(path, RTLD_NOW | RTLD_LOCAL) : NULL;
    const char *const why = module ? NULL : dlerror();
    const ds_paper_table *const found = module ? dlsym(module, DS_PAPER_MODULE_TABLE) : NULL;
    if (!found || !ds_str_is(ds_str_of(found->version), DS_PROGRAM_VERSION)) {
        ds_host_fail(host, "the part of the program that sets papers cannot be loaded:",
                     ds_str_of(why ? why : "it is of another version"),
                     ".\n  " DS_PAPER_MODULE_FILE " belongs beside the program; build both again.");
        return false;
    }
    table = found;
    return true;
}

/* --- forwarded ------------------------------------------------------------------------------------------------------ */

ds_status ds_paper_write(ds_text *const out, const ds_findings *const findings, const ds_paper *const paper)
{
    return table->paper(out, findings, paper);
}

ds_status ds_changes_write(ds_text *const out, const ds_differ *const differ, const ds_paper_size size)
{
    return table->changes(out, differ, size);
}

ds_status ds_labels_write(ds_text *const out, const ds_findings *const findings,
                          const ds_label_sheet *const sheet)
{
    return table->labels(out, findings, sheet);
}

ds_xlsx_status ds_xlsx_write(ds_text *const out, const ds_findings *const findings,
                             const ds_reader_kind reader)
{
    return table->xlsx(out, findings, reader);
}
