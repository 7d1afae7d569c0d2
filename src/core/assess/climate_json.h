/* SPDX-License-Identifier: MIT */
/* What the box of a point tells of heat and water, as members of the point's object: private to assess/. */
#ifndef DS_ASSESS_CLIMATE_JSON_H
#define DS_ASSESS_CLIMATE_JSON_H

#include "core/assess/assess.h"
#include "core/json/write.h"

/* "heat" where losses or a limit are stated, "calculation" where something could be worked out. NULL writes nothing. */
void ds_climate_json(ds_json_writer *w, const ds_climate *climate);

#endif
