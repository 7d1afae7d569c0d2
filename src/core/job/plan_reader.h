/* SPDX-License-Identifier: MIT */
/* Reading plans: private to job/. */
#ifndef DS_JOB_PLAN_READER_H
#define DS_JOB_PLAN_READER_H

#include "core/job/fields.h"
#include "core/job/plan.h"

/* The plan of a place from its JSON; problems go to the reader's owner. NULL when memory is short. */
const ds_plan *ds_plan_read(ds_reader *reader, const ds_json *value);

#endif
