/* SPDX-License-Identifier: MIT */
/*
 * High water that a conduit leads into a box: private to assess/.
 *
 * A conduit whose other end the water reaches carries it into boxes that stand above it, so it is sealed or drained (common
 * practice). Where a box tells of high water, a conduit that is open falls short and one that nobody followed is unknown,
 * however high the box stands: in the ground water stands in a duct before it is seen above.
 */
#ifndef DS_ASSESS_FLOODED_H
#define DS_ASSESS_FLOODED_H

#include "core/assess/assess.h"

/* The conduit: the first that is open, else the first that is not stated; NULL where none leads water in. */
const ds_part *ds_flooded_part(const ds_finding *finding);

/* What no code answers: such a conduit, and DS_UNKNOWN where it cannot be told what the water asks for. */
ds_verdict ds_flooded_verdict(const ds_finding *finding);

/* One sentence each, with a space before it where something stands already; nothing without such a conduit. */
void ds_flooded_say(ds_text *out, const ds_finding *finding);
void ds_flooded_mend(ds_text *out, const ds_finding *finding);

#endif
