/* SPDX-License-Identifier: MIT */
/* Findings as a page: the whole job, or one point of it. Private to check*.c. */
#ifndef DS_CLI_CHECK_H
#define DS_CLI_CHECK_H

#include "cli/page.h"
#include "core/assess/say.h"

/* A page, what it is about, and room to make sentences in. */
typedef struct ds_report {
    ds_page *page;
    const ds_findings *findings;
    ds_str file; /* of the job */
    ds_text say;
} ds_report;

void ds_check_job(ds_report *report);
void ds_check_point(ds_report *report, const ds_finding *finding);

/* Parts of a point's page: what is needed, marked and left with each entry; remarks; heat and water step by step. */
void ds_check_protections(ds_report *report, const ds_finding *finding);
void ds_check_remarks(ds_report *report, const ds_finding *finding);
void ds_check_calculation(ds_report *report, const ds_finding *finding);

/* What is to be said about the editions that the job goes by (check_job.c). */
void ds_check_notices(ds_report *report);

/* Sections below the points (check_below.c): advice, questions, problems, cautions. */
void ds_check_advice(ds_report *report);
void ds_check_questions(ds_report *report);
void ds_check_problems(ds_report *report);
void ds_check_cautions(ds_report *report);

/* --- shared ------------------------------------------------------------------------------------------------------- */

/* A sentence made in report->say, put into the line, and cleared. */
void ds_report_take(ds_report *report, ds_style style);

/* A strong line of its own after an empty one. */
void ds_report_heading(ds_report *report, const char *words);

/* Verdict, id, name, count and place: the line that a point begins with. */
void ds_report_point(ds_report *report, const ds_finding *finding);

/* The deciding sentence, then the remedy with its arrow. */
void ds_report_answer(ds_report *report, const ds_finding *finding);

#endif
