/* SPDX-License-Identifier: MIT */
/* Two answers side by side as a page. Private to differ*.c. */
#ifndef DS_CLI_DIFFER_H
#define DS_CLI_DIFFER_H

#include "cli/check.h"
#include "core/assess/differ.h"

/* report->findings may be anything; files: names of the two documents. */
void ds_differ_page(ds_report *report, const ds_differ *differ, const ds_str files[2]);

#endif
