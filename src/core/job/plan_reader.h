/* SPDX-License-Identifier: MIT */
/* Reading plans: private to job/. */
#ifndef DS_JOB_PLAN_READER_H
#define DS_JOB_PLAN_READER_H

#include "core/job/fields.h"
#include "core/job/plan.h"

/* The plan of a place from its JSON; problems go to the reader's owner. NULL when memory is short. */
const ds_plan *ds_plan_read(ds_reader *reader, const ds_json *value);

/* `count` numbers of a place; `form` says in a problem how it is written. False: there was one. */
bool ds_plan_place_read(ds_reader *reader, const ds_json *value, const char *form, double *out,
                        uint32_t count);

/*
 * What stands at out->at, or a circle: one of them. Longer than most_m it is a problem of its owner, since it was surely
 * not written in metres.
 */
void ds_plan_outline_read(ds_reader *reader, const ds_json *owner, double most_m, ds_plan_outline *out);

/* A problem at a value when a length is surely not in metres. */
void ds_plan_length_check(ds_reader *reader, const ds_json *at, double metres, double most_m);

#endif
