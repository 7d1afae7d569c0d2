/* SPDX-License-Identifier: MIT */
/*
 * One entry of an enclosure: what it leaves of the protection, and why.
 *
 * An entry is as strong as its weakest part: the code printed on what sits in the hole, the seal between that and the
 * wall, the thread in the hole, the cable in the seal, and whether water is led in from where the cable comes from. Each
 * part that does not carry the whole is a fault with a mark of its own; the entry's mark is the weakest of them. Where
 * an entry has no part in a track (a fixing hole outside the seal, a maker's own blank) it proves everything there, so
 * that the weakest-part rule leaves the box's own mark as it is.
 *
 *     what is stated                                  objects 1-4, access      dust, water
 *     a code, and all parts fit                       as the code              as the code
 *     no code, or none that can be read               open                     open
 *     a part fits perhaps, or is not stated           by the greatest gap      open
 *     a part surely does not fit                      by the gap               denied
 *     no seal to the wall                             as the code              1-4 and dust 5 open, above denied
 *     makeshift closure                               as the hole, never more  open: it proves nothing
 *     nothing in the hole                             as the hole              by its face, see below
 *     what contradicts itself                         open                     open
 *
 * Water through a hole of 6 mm and more (the largest raindrop is 5.8 mm: Gunn and Kinzer 1949) is denied where the test
 * sends it in: on top all of it, in a side from test 3 (60 degrees) on, in the bottom from test 4 on; jets and immersion
 * go through every open hole. The rest stays open.
 *
 * Sources: one round cable to a seal, EN 62444 as told in notes on EN 50262; about IP54 without a seal to the wall,
 * makeshift closures and blanks out by hand: common practice; drains are tested open as made, memory: IEC 60529, 11.
 *
 *     ds_entry_judged judged;
 *     ds_entry_judge(&judged, &box->entries[0], &sizes);
 *     ds_mark_weakest(body, judged.mark)
 */
#ifndef DS_BOX_ENTRY_H
#define DS_BOX_ENTRY_H

#include "core/box/fit.h"
#include "core/box/probe.h"

/* Proves everything and limits nothing: the mark of what has no part in the protection. */
#define DS_MARK_WHOLE ((ds_mark)(DS_TESTS_ALL | UINT64_C(15) << 38 | UINT64_C(15) << 42))

/* Why an entry does not carry the whole; entry_say.c has the sentences. */
typedef enum ds_entry_reason {
    DS_ENTRY_NOT_UNDERSTOOD, /* what it holds is missing or not known */
    DS_ENTRY_RATED,          /* the code printed on what it holds */
    DS_ENTRY_NO_CODE,
    DS_ENTRY_CODE_UNREADABLE,
    DS_ENTRY_NO_WALL_SEAL,
    DS_ENTRY_WALL_SEAL_OPEN, /* not stated */
    DS_ENTRY_BY_HAND,
    DS_ENTRY_BLANK_CABLE,   /* a cable goes through what is called a blank */
    DS_ENTRY_CABLE,         /* `cable` says how it fits */
    DS_ENTRY_HOLE_OPEN,     /* a hole of an insert without cable or plug */
    DS_ENTRY_HOLES_UNKNOWN, /* an insert whose holes are not stated */
    DS_ENTRY_THREAD,        /* `thread` says how it fits */
    DS_ENTRY_LED_IN,        /* water can be led in */
    DS_ENTRY_LED_IN_OPEN,   /* not stated of a conduit */
    DS_ENTRY_NOTHING,
    DS_ENTRY_MAKESHIFT,
    DS_ENTRY_BRUSH,
    DS_ENTRY_DRAIN_HOLE,
    DS_ENTRY_DRAIN_NOT_LOWEST,
    DS_ENTRY_FIXING_INSIDE,  /* a fixing hole inside the seal, not sealed */
    DS_ENTRY_FIXING_SEALED,  /* inside, sealed somehow */
    DS_ENTRY_FIXING_UNKNOWN, /* inside or outside is not stated */
    DS_ENTRY_REASONS
} ds_entry_reason;

/* One part that does not carry the whole. */
typedef struct ds_entry_fault {
    ds_entry_reason reason;
    ds_mark mark;       /* what this part alone leaves */
    ds_cable_fit cable; /* DS_ENTRY_CABLE */
    double gap_mm[2];   /* clear measure of what is left open: at least, at most; NAN: no such bound */
    uint32_t hole;      /* of an insert, from 1; 0: none */
} ds_entry_fault;

/* The first faults are kept with their reasons; all count in the mark. */
enum { DS_ENTRY_FAULTS = 6 };

typedef struct ds_entry_judged {
    ds_mark mark; /* the weakest of all its parts */
    ds_entry_fault faults[DS_ENTRY_FAULTS];
    uint8_t faults_len;
    bool from_above;             /* it sits in the top, where water stands on it */
    const ds_cable_type *tabled; /* a diameter that counts is from this table; NULL: none */
    ds_thread_fitted thread;
} ds_entry_judged;

void ds_entry_judge(ds_entry_judged *out, const ds_entry *entry, const ds_sizes *sizes);

/* The fault that stands most against a need: the worst verdict, then most tests lost, then the first; NULL without. */
const ds_entry_fault *ds_entry_worst(const ds_entry_judged *judged, ds_need need);

/* Holds tape, sealant put on by hand, or a seal forced in. */
bool ds_entry_is_makeshift(const ds_entry *entry);

#endif
