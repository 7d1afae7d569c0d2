/* SPDX-License-Identifier: MIT */
/*
 * Marks and needs: protection as two sets of tests, proven and denied, packed into one machine word.
 *
 * A mark is what an enclosure's tests have shown under one condition. Three tracks, lowest rung first:
 *
 *     objects   1..6   things and dust that get in          (first numeral of IEC 60529)
 *     access    A..D   a person reaching live parts         (additional letter; a first numeral implies one)
 *     water     1..9   (second numeral; 1-6 imply the lower ones, 7, 8 and 9 prove only themselves)
 *
 * and impact, a ladder of grades IK01..IK11 (IEC 62262). A test is proven, denied (stated, and neither named
 * nor implied) or open (nothing said). A need is a set of required tests. Need within proven fits; need meets
 * denied is short; otherwise unknown, which is never a pass.
 *
 * The word:   bits 0-5 objects 1..6, 6-9 access A..D, 10-18 water 1..9      proven (a need: required)
 *             bits 19-37 the same tests                                      denied (a need: none)
 *             bits 38-41 impact grade proven (a need: required, 12 = beyond IK11)
 *             bits 42-45 highest impact grade not denied (12 and more: none is denied; 14 also says that the
 *                        word stands for several readings)
 *             bits 46-55 depth of water test 8, bits 56-63 its time          0 = not declared
 *
 * Depth and time are rounded down in a mark and up in a need, so never towards acceptance. Exact are
 * centimetres to 5 m, decimetres to 50 m and metres to 122 m; minutes, hours, days and weeks up to 63 of
 * each, quarters of an hour to 2 h and half hours to 8 h. What a mark has beyond 122 m or 63 weeks does not
 * count. A mark and a need of one figure between the steps are a step apart: that is no pass. In a mark whose
 * test 8 is not proven the figures only say what falls short of a need.
 *
 * Sources: IEC 60529 clauses 5 and 6 as read on published pages named in tests/marks/; where memory is the
 * only source the test says so.
 */
#ifndef DS_MARK_MARK_H
#define DS_MARK_MARK_H

#include "core/base/text.h"

typedef uint64_t ds_mark;
typedef uint64_t ds_need; /* same layout */

enum { DS_TEST_COUNT = 19, DS_OBJECTS_LEN = 6, DS_ACCESS_LEN = 4, DS_WATER_LEN = 9 };
#define DS_TESTS_ALL ((UINT64_C(1) << DS_TEST_COUNT) - 1)

/* One bit of the test set. objects 1..6, letter 'A'..'D', water 1..9. */
#define DS_OBJECT(numeral) (UINT64_C(1) << ((numeral)-1))
#define DS_ACCESS(letter) (UINT64_C(1) << (6 + (letter) - 'A'))
#define DS_WATER(numeral) (UINT64_C(1) << (9 + (numeral)))

/* All of a track's rungs; and rungs 1..n of one. */
#define DS_OBJECTS_ALL UINT64_C(0x3F)
#define DS_ACCESS_ALL UINT64_C(0x3C0)
#define DS_WATER_ALL UINT64_C(0x7FC00)
#define DS_OBJECTS_TO(n) ((UINT64_C(1) << (n)) - 1)
#define DS_ACCESS_TO(letter) (DS_ACCESS_ALL & ((DS_ACCESS(letter) << 1) - 1))
#define DS_WATER_TO(n) (DS_WATER_ALL & ((DS_WATER(n) << 1) - 1))

enum { DS_IMPACT_BEYOND = 12, DS_IMPACT_UNSURE = 14, DS_IMPACT_OPEN = 15 };

/* Verdicts, best first, so that the worst of several is the largest. Marks alone never yield DS_BARRED. */
typedef enum ds_verdict { DS_FITS, DS_UNKNOWN, DS_SHORT, DS_BARRED } ds_verdict;

/* "fits", "unknown", "short", "barred" */
const char *ds_verdict_word(ds_verdict verdict);

/* The mark that says nothing (all open), and the need that asks for nothing. */
#define DS_MARK_SILENT ((ds_mark)DS_IMPACT_OPEN << 42)
#define DS_NEED_NOTHING ((ds_need)DS_IMPACT_OPEN << 42)

static inline uint64_t ds_mark_proven(const ds_mark mark)
{
    return mark & DS_TESTS_ALL;
}

static inline uint64_t ds_mark_denied(const ds_mark mark)
{
    return mark >> DS_TEST_COUNT & DS_TESTS_ALL;
}

static inline unsigned ds_mark_impact(const ds_mark mark)
{
    return (unsigned)(mark >> 38 & 15);
}

static inline unsigned ds_mark_impact_ceiling(const ds_mark mark)
{
    return (unsigned)(mark >> 42 & 15);
}

/* --- building ------------------------------------------------------------------------------------------- */

/* What one code states; the reader fills it, ds_mark_from packs it. */
typedef struct ds_claim {
    int8_t objects;         /* 0..6; -1 not stated (X) */
    bool objects_foreign;   /* 5K or 6K: road-vehicle dust, so rungs 5.. stay open */
    char access;            /* 'A'..'D', 0 none */
    bool water_stated;      /* false: X */
    uint16_t water;         /* bit n set: numeral n (1..9) is claimed; stated and empty: 0 */
    uint16_t water_foreign; /* bit n: nK (4, 6, 9) is claimed: rung n stays open */
    int8_t impact;          /* IK grade 0..11, -1 not stated */
    double depth_m;         /* of water test 8; 0 not declared */
    double minutes;         /* of water test 8; 0 not declared */
} ds_claim;

#define DS_CLAIM_NOTHING ((ds_claim){.objects = -1, .impact = -1})

/*
 * Packs a claim. Water 8 counts as proven only with depth and time declared and one of them more than test
 * 7's 1 m and 30 min; it proves 7 too when it is at least both. Undeclared, 8 and 7 stay open. Only 7, 8 or 9
 * claimed leaves 1-4 open. What is out of range (objects 7, letter E, water 0 or 10) counts as not claimed;
 * an impact above 11 is taken as 11.
 */
ds_mark ds_mark_from(const ds_claim *claim);

/*
 * Packs a claim as a need: each numeral asks for its tests, an access letter for access; depth and time
 * rounded up. A road-vehicle K asks for the plain numeral's tests, since there is no other rung for it:
 * ds_need_read refuses such a need and asks which is meant.
 */
ds_need ds_need_from(const ds_claim *claim);

/* The claim that ds_mark_print prints: it gives the same word again, or claims no more than is proven. */
ds_claim ds_claim_of(ds_mark mark);

/* The lowest IK grade of at least this energy (IEC 62262); DS_IMPACT_BEYOND above 50 J; 0 for 0 J. */
unsigned ds_impact_grade(double joules);

/* The highest IK grade of at most this energy; 0 below IK01. */
unsigned ds_impact_grade_within(double joules);

/* Energy of a grade 0..11 in joules. */
double ds_impact_joules(unsigned grade);

/* Declared depth and time of water test 8; 0 when not declared. */
double ds_mark_depth_m(ds_mark mark);
double ds_mark_minutes(ds_mark mark);

/* --- set algebra ---------------------------------------------------------------------------------------- */

/*
 * Two marks of one enclosure in one state: what either proves is proven; only what none leaves open is
 * denied. A mark that says nothing at all about a track has no part in that track, so the silent mark changes
 * nothing. Of two declared immersions one whole pair is kept (proven before open, then the deeper, then the
 * longer): no test was both.
 */
ds_mark ds_mark_join(ds_mark a, ds_mark b);

/* The weakest part: proven by both, denied by either. */
ds_mark ds_mark_weakest(ds_mark a, ds_mark b);

/* One of two readings, it is not known which: proven by both, denied by both. */
ds_mark ds_mark_either(ds_mark a, ds_mark b);

/*
 * A mark with the open rungs A..letter of access proven besides; a complete accessory proves 'B' (common
 * practice). What the mark itself denies stays denied.
 */
ds_mark ds_mark_with_access(ds_mark mark, char letter);

/* What both ask for together. */
ds_need ds_need_join(ds_need a, ds_need b);

/* --- comparing ------------------------------------------------------------------------------------------ */

/*
 * Does the mark cover the need? *lost (may be NULL) becomes the part of the need that is not proven.
 * Immersion: a need of 8 asks for at least the depth and time it names, and named or not for what every test
 * 8 must have, at least the 1 m and 30 min of test 7; declared less than the first is short, less than the
 * second or undeclared is unknown. (A need below 1 m or 30 min finds less than itself unknown, not short.)
 */
ds_verdict ds_mark_compare(ds_need need, ds_mark mark, ds_need *lost);

/* The same for many marks at once: verdicts[i] becomes the ds_verdict of marks[i]. */
void ds_mark_compare_many(ds_need need, const ds_mark *marks, size_t count, uint8_t *verdicts);

/* --- printing ------------------------------------------------------------------------------------------- */

/*
 * The canonical form of a mark that came from ds_mark_from: "IP65/IP67 IK08", "IPX8 (2 m, 24 h)", "IP6K9K";
 * reading it gives the same word again. A mark made by the algebra prints the best code that claims no more
 * than it proves; so does a 4K or 6K beside a plain 5 or 6, which nobody may write. A silent mark prints
 * nothing.
 */
void ds_mark_print(ds_text *out, ds_mark mark);

/*
 * The least code that covers a need, depth and time as asked: "IP44", "IPX4D", "IP55/IP57 IK08"; "nothing"
 * when it asks for nothing.
 */
void ds_need_print(ds_text *out, ds_need need);

/* One line a test in the set: "solids 5", "access D", "water 7", "impact IK08", "depth 2 m", "time 24 h". */
typedef void ds_need_visit(void *ctx, ds_str test);
void ds_need_each(ds_need need, ds_need_visit *visit, void *ctx);

/* What a rung means: track 'o', 'a', 'w' and rung 0.. ("a hose jet from any side"). Static text. */
const char *ds_test_words(char track, unsigned rung);

#endif
