/* SPDX-License-Identifier: MIT */
#include "cli/drawing.h"

#include "core/draw/sheet_svg.h"

static int write_svg(ds_assessed *const a, const ds_sheet *const sheet)
{
    const ds_str file = ds_args_value(a->args, "output");
    if (!file.at) {
        ds_sheet_svg(&a->host->out, sheet);
        return DS_EXIT_FINE;
    }
    ds_text svg;
    ds_text_init(&svg, a->host->alloc);
    ds_sheet_svg(&svg, sheet);
    const bool made = ds_text_ok(&svg);
    const bool written =
        made && ds_file_write(a->host, file, ds_text_str(&svg), ds_args_has(a->args, "force"));
    ds_text_free(&svg);
    if (!made) {
        return ds_host_fail_memory(a->host);
    }
    return written ? DS_EXIT_FINE : DS_EXIT_UNREADABLE;
}

int ds_drawing_put(ds_assessed *const a, const ds_sheet *const sheet, const ds_status made,
                   const char *const beyond)
{
    if (made == DS_NO_MEMORY) {
        return ds_host_fail_memory(a->host);
    }
    if (made != DS_OK) {
        return ds_host_fail(a->host, beyond, (ds_str){0}, "");
    }
    return write_svg(a, sheet);
}
