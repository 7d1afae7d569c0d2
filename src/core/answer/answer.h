/* SPDX-License-Identifier: MIT */
/*
 * What a host asks of the core by name: texts in, one text out. The WebAssembly module and the server both answer from
 * here, so they give the same bytes.
 *
 *     const ds_desk desk = {.alloc = &alloc, .book = &book, .sizes = &sizes};
 *     const ds_question_form *form = ds_question_named(DS_STR("zones"));          … NULL: there is no such question
 *     const ds_str texts[] = {job, DS_STR("bath")};
 *     ds_text out;
 *     ds_text_init(&out, &alloc);
 *     switch (form->answer(&out, &desk, texts)) …
 *
 * Every answer is JSON but the drawings, which are SVG. An unreadable question is answered with {"problem", "remedy",
 * "pointer", "line", "column"}; when memory is short the text is empty.
 */
#ifndef DS_ANSWER_ANSWER_H
#define DS_ANSWER_ANSWER_H

#include "core/assess/assess.h"

/* The exit statuses of the program, and one more. */
typedef enum ds_answer {
    DS_ANSWER_FINE,    /* all fit */
    DS_ANSWER_NOT_ALL, /* answered, and not all fit, or there is nothing to show */
    DS_ANSWER_UNREADABLE,
    DS_ANSWER_NO_MEMORY
} ds_answer;

/* What answers are made from; all borrowed. */
typedef struct ds_desk {
    const ds_alloc *alloc;
    const ds_rulebook *book;
    const ds_sizes *sizes;
} ds_desk;

enum { DS_QUESTION_TEXTS = 3 };

typedef struct ds_question_form {
    const char *name;
    bool drawing;                         /* SVG, not JSON */
    const char *texts[DS_QUESTION_TEXTS]; /* what each text is: "job", "place" …; NULL after the last */
    ds_answer (*answer)(ds_text *out, const ds_desk *desk, const ds_str *texts);
} ds_question_form;

const ds_question_form *ds_questions_all(size_t *len);
const ds_question_form *ds_question_named(ds_str name);

/*
 * Lets a job go by the packs whose ids stand in a line with blanks between, whatever it names itself; an empty line: by its
 * own. False when memory is short.
 */
bool ds_answer_use_packs(ds_job *job, ds_str line, ds_arena *arena);

/* {"problem": …} in the place of what stands in out. Returns DS_ANSWER_UNREADABLE, or DS_ANSWER_NO_MEMORY. */
ds_answer ds_answer_problem(ds_text *out, const ds_problem *problem);

#endif
