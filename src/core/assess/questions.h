/* SPDX-License-Identifier: MIT */
/* The questions of a whole job, each once, with the points that they are about. Private to assess/. */
#ifndef DS_ASSESS_QUESTIONS_H
#define DS_ASSESS_QUESTIONS_H

#include "core/assess/assess.h"

/* Fills findings->questions from the findings of the points. False when memory is short. */
bool ds_questions_collect(ds_findings *findings, ds_arena *arena);

#endif
