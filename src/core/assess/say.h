/* SPDX-License-Identifier: MIT */
/*
 * Findings in words: the same sentences for terminal, JSON, CSV, page and paper.
 *
 * Each appends one sentence or phrase to the text, without a line end.
 */
#ifndef DS_ASSESS_SAY_H
#define DS_ASSESS_SAY_H

#include "core/assess/assess.h"
#include "core/assess/missing.h"

/* The whole job in one sentence: "1 of 24 points is barred, 3 fall short, 20 fit."; and the verdict it begins with. */
void ds_say_headline(ds_text *out, const ds_findings *findings);
ds_verdict ds_findings_worst(const ds_findings *findings);

/* The fact that decided, in one sentence. */
void ds_say_deciding(ds_text *out, const ds_findings *findings, const ds_finding *finding);

/* What to do: the least code to ask for, the mend, or the one piece of evidence that would settle it. Empty on fits. */
void ds_say_remedy(ds_text *out, const ds_findings *findings, const ds_finding *finding);

/* What is needed: code and the rest ("IP44 IK08; rated for 125 °C"); "nothing" when nothing is. */
void ds_say_needed(ds_text *out, const ds_finding *finding);

/* The marks as the document has them, with their conditions; "none" without. */
void ds_say_marked(ds_text *out, const ds_point *point);

/* The texts of a JSON list one after the other; nothing for NULL. */
void ds_say_list(ds_text *out, const ds_json *list, const char *between);

void ds_say_remark(ds_text *out, const ds_finding *finding, ds_remark_code which);

/* What a rule asks for or bars, in a phrase. */
void ds_say_rule_effect(ds_text *out, const ds_rulebook *book, const ds_rule *rule);

/* Where a rule is from: "701.512.3, BS 7671:2018; rule; published: …". */
void ds_say_origin(ds_text *out, const ds_rule *rule);

/* The words of the normal state that decided: "lid-closed + drained"; false, and nothing, when none does. */
bool ds_say_state(ds_text *out, const ds_finding *finding);

/* A question with what it is asked for; and the heading over those to one person. */
void ds_say_question(ds_text *out, const ds_findings *findings, const ds_question *question);
const char *ds_whom_heading(ds_whom whom);

/* True when a reason is a caution: guidance or judgement that the goods are not shown to meet. */
bool ds_reason_cautions(const ds_reason *reason);
void ds_say_caution(ds_text *out, const ds_rulebook *book, const ds_rule *rule);

/* A need against one mark as read: why it fits, falls short or cannot be told. */
void ds_say_comparison(ds_text *out, ds_need need, const ds_reading *reading);

/* The standing cautions, count of them and each one. */
size_t ds_cautions_len(void);
const char *ds_caution(size_t index);

#endif
