/* SPDX-License-Identifier: MIT */
/* A finished drawing, to standard output or to the file that --output names. */
#ifndef DS_CLI_DRAWING_H
#define DS_CLI_DRAWING_H

#include "cli/assessed.h"
#include "core/draw/sheet.h"

/* The exit status; what went wrong was said. `made` is what the drawing ended with; `beyond` says why a bad one failed. */
int ds_drawing_put(ds_assessed *a, const ds_sheet *sheet, ds_status made, const char *beyond);

#endif
