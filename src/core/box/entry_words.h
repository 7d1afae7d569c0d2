/* SPDX-License-Identifier: MIT */
/* Phrases that the sentences about entries share: private to box/. */
#ifndef DS_BOX_ENTRY_WORDS_H
#define DS_BOX_ENTRY_WORDS_H

#include "core/box/entry.h"

/* A need without its blows, in which entries have no part. */
ds_need ds_words_need(ds_need need);

/* "14 mm", to a hundredth; "14 mm" or "10.9 to 14 mm". */
void ds_words_mm(ds_text *out, double mm);
void ds_words_span_mm(ds_text *out, const double mm[2]);

/*
 * A code that names water 7, 8 or 9 alone and shows of a need all but tests 1 to 6, which it does not include: the numeral
 * that it names; 0 for any other code.
 */
int ds_words_lone_numeral(const ds_entry_fault *fault, ds_need need);

/* What sits in the entry, as a noun: "gland", "blank", "conduit fitting" … */
const char *ds_words_fitting(ds_holds holds);

/* "the cable of 14 mm", "the cable of 7 mm in hole 2"; and the seal that it is in. */
void ds_words_cable(ds_text *out, const ds_entry_fault *fault);
const char *ds_words_seal(const ds_entry *entry, const ds_entry_fault *fault);

/* The size whose usual hole this is; NULL when none is listed. */
const ds_thread_size *ds_words_size_of_hole(const ds_sizes *sizes, const ds_entry *entry,
                                            const double hole_mm[2]);

/* "hole 2 of the multi-hole gland has neither cable nor plug." */
void ds_words_open_hole(ds_text *out, const ds_entry_fault *fault);

/* What is wrong with the cable, with the thread: the rest of a sentence after "Entry E2: ". */
void ds_words_cable_fault(ds_text *out, const ds_entry *entry, const ds_entry_fault *fault);
void ds_words_thread_fault(ds_text *out, const ds_entry *entry, const ds_thread_fitted *thread);

#endif
