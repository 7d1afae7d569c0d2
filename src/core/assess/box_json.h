/* SPDX-License-Identifier: MIT */
/* One box as JSON: {"point": a finding as docs/findings.md has it, "weather": what measured hours do to it, or null}. */
#ifndef DS_ASSESS_BOX_JSON_H
#define DS_ASSESS_BOX_JSON_H

#include "core/assess/assess.h"

/* The point of this index; weather may be NULL. */
void ds_box_json(ds_text *out, const ds_findings *findings, size_t point, const ds_through_over *weather);

#endif
