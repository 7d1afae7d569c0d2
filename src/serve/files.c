/* SPDX-License-Identifier: MIT */
#include "serve/files.h"

const ds_page_file *ds_page_file_named(const ds_str name)
{
    for (size_t i = 0; i < DS_PAGE_FILES_LEN; i++) {
        if (ds_str_is(name.len ? name : DS_STR("index.html"), DS_PAGE_FILES[i].name)) {
            return &DS_PAGE_FILES[i];
        }
    }
    return NULL;
}
