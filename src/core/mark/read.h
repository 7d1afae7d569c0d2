/* SPDX-License-Identifier: MIT */
/*
 * Reading marks as they are met on labels, data sheets and in conversation.
 *
 * Total: any bytes give a reading, nothing is allocated, nothing fails. The status says what may be done with
 * it:
 *
 *     DS_READ_CODE      as written
 *     DS_READ_NOTED     the reading counts; what was assumed is noted (space, case, short code, K form, state …)
 *     DS_READ_QUESTION  several readings, or something missing: what is certain counts, the rest stays open
 *     DS_READ_REFUSED   no evidence: a word, a fragment, no such numeral
 *
 * `valid` is apart from that: whether the text is a code by the strict grammar of IEC 60529 (IEC 62262 for IK
 * alone). A redundant letter (IP4XB) is readable and not valid; an agreed-weather W is valid and a question.
 *
 * A mark may hold several parts under different conditions ("IP66 lid closed, IP44 in use"). `mark` is what
 * holds in all of them; parts[] has each with its condition word (words of family "condition" in
 * rules/words.json).
 */
#ifndef DS_MARK_READ_H
#define DS_MARK_READ_H

#include "core/mark/mark.h"

typedef enum ds_read_status { DS_READ_CODE, DS_READ_NOTED, DS_READ_QUESTION, DS_READ_REFUSED } ds_read_status;

/* "code", "noted", "question", "refused" */
const char *ds_read_status_word(ds_read_status status);

/* Why a reading is not simply a code: the table of sentences stands in notes.h, one X line a note. */
typedef uint8_t ds_note;

enum { DS_READ_PARTS = 4, DS_READ_NOTES = 6, DS_MARK_TEXT_MAX = 1000 };

typedef struct ds_mark_part {
    ds_mark mark;
    const char *when; /* condition word, static; NULL: always */
} ds_mark_part;

typedef struct ds_reading {
    ds_read_status status;
    bool valid;
    bool is_need;      /* worded as a requirement ("min. IP54", "IP2X or IPXXB") */
    bool has_code;     /* a reading can be printed (also a guess, then status is question) */
    bool has_nema;     /* a NEMA type stands behind or beside the reading */
    uint8_t nema;      /* row of nema.c, counted from 1, when the reading rests on the type alone; else 0 */
    ds_claim claim;    /* what is written or guessed, for printing; of the weakest part */
    ds_mark mark;      /* what counts: silent when nothing does */
    uint8_t letters;   /* supplementary letters: bit 0 H, 1 M, 2 S, 3 W */
    uint8_t parts_len; /* 0: one mark without condition */
    uint8_t notes_len;
    ds_note notes[DS_READ_NOTES];
    ds_mark_part parts[DS_READ_PARTS];
} ds_reading;

void ds_mark_read(ds_str text, ds_reading *out);

/*
 * The need in the text; false when it holds none that can be used (then reading->notes say why). reading may
 * not be NULL.
 */
bool ds_need_read(ds_str text, ds_need *out, ds_reading *reading);

/*
 * The clean form of what was read or guessed, with supplementary letters and conditions: "IP66 lid-closed,
 * IP44 plug-in-use".
 */
void ds_reading_print(ds_text *out, const ds_reading *reading);

/* The notes as one or more plain sentences; for a question it ends with what to ask. */
void ds_reading_because(ds_text *out, const ds_reading *reading);

#endif
