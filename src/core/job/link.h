/* SPDX-License-Identifier: MIT */
/* Ids and references between the things of a job, and its date: private to job/. */
#ifndef DS_JOB_LINK_H
#define DS_JOB_LINK_H

#include "core/job/job.h"

/* Finds duplicate ids, joins each point to its place and checks the date. False when memory is short. */
bool ds_job_link(ds_job *job, ds_arena *arena);

#endif
