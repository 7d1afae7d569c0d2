/* SPDX-License-Identifier: MIT */
/*
 * What is written at the ladders of the rung picture, for pictures, characters and people who do not see either.
 *
 * Four ladders, lowest rung first: solids, people (access to live parts), water, blows.
 */
#ifndef DS_DRAW_RUNGS_WORDS_H
#define DS_DRAW_RUNGS_WORDS_H

#include "core/draw/rungs.h"

typedef enum ds_ladder_kind {
    DS_LADDER_SOLIDS,
    DS_LADDER_PEOPLE,
    DS_LADDER_WATER,
    DS_LADDER_BLOWS,
    DS_LADDERS_LEN
} ds_ladder_kind;

typedef struct ds_ladder {
    const char *name;
    const char *const *numbers; /* of each rung: "1", "A", "5 J" */
    const char *const *words;   /* what its test is about: "jet"; NULL: none */
} ds_ladder;

const ds_ladder *ds_ladder_of(ds_ladder_kind kind);

/* The rungs of a ladder and how many are shown: the blow beyond 50 J only where it is needed. */
const ds_rung *ds_ladder_rungs(const ds_rungs *rungs, ds_ladder_kind kind, int *len);

/*
 * The picture in words: "Solids: 1 to 5 needed and proven, 6 proven. Water: 1 to 4 needed and open, 5 needed and
 * denied …". Every rung is said, rungs of one kind in one go.
 */
void ds_rungs_say(ds_text *out, const ds_rungs *rungs);

/* The shape that stands beside a verdict's word wherever one is shown: "▲", in plain ASCII "!". */
const char *ds_verdict_shape(ds_verdict verdict, bool ascii);

#endif
