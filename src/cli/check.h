/* SPDX-License-Identifier: MIT */
/* Findings as a page: the whole job, or one point of it. Private to check*.c. */
#ifndef DS_CLI_CHECK_H
#define DS_CLI_CHECK_H

#include "cli/page.h"
#include "core/assess/say.h"

/* A page, what it is about, and room to make sentences in. */
typedef struct ds_sheet {
    ds_page *page;
    const ds_findings *findings;
    ds_str file; /* of the job */
    ds_text say;
} ds_sheet;

void ds_check_job(ds_sheet *sheet);
void ds_check_point(ds_sheet *sheet, const ds_finding *finding);

/* What is to be said about the editions that the job goes by (check_job.c). */
void ds_check_notices(ds_sheet *sheet);

/* Sections below the points (check_below.c): advice, questions, problems, cautions. */
void ds_check_advice(ds_sheet *sheet);
void ds_check_questions(ds_sheet *sheet);
void ds_check_problems(ds_sheet *sheet);
void ds_check_cautions(ds_sheet *sheet);

/* --- shared ------------------------------------------------------------------------------------------------------- */

/* A sentence made in sheet->say, put into the line, and cleared. */
void ds_sheet_take(ds_sheet *sheet, ds_style style);

/* A strong line of its own after an empty one. */
void ds_sheet_heading(ds_sheet *sheet, const char *words);

/* Verdict, id, name, count and place: the line that a point begins with. */
void ds_sheet_point(ds_sheet *sheet, const ds_finding *finding);

/* The deciding sentence, then the remedy with its arrow. */
void ds_sheet_answer(ds_sheet *sheet, const ds_finding *finding);

/* The words of the deciding state into sheet->say; false when no state decides. */
bool ds_sheet_state(ds_sheet *sheet, const ds_finding *finding);

#endif
