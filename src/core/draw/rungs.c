/* SPDX-License-Identifier: MIT */
/*
 * What each rung of the picture is. The tests of a mark map one to one onto rungs, with two exceptions where the picture
 * must not look better than the goods: the five grades of impact below one joule share a rung, which shows the worst of
 * those that are needed (of all, when none is); and a needed water test 8 is proven only to the depth and time needed.
 */
#include "core/draw/rungs.h"

enum { GRADE_MOST = 11, GRADE_ONE_JOULE = 6 };

/* Bits 46 to 63 of the word (mark.h). */
#define DEPTH_AND_TIME (~((UINT64_C(1) << 46) - 1))

static ds_rung_state state_of(const ds_mark mark, const uint64_t test)
{
    if (ds_mark_proven(mark) & test) {
        return DS_RUNG_PROVEN;
    }
    return ds_mark_denied(mark) & test ? DS_RUNG_DENIED : DS_RUNG_OPEN;
}

static ds_rung rung_of(const ds_need need, const ds_mark mark, const uint64_t test)
{
    return (ds_rung){.state = (uint8_t)state_of(mark, test), .needed = (ds_mark_proven(need) & test) != 0};
}

static ds_rung_state blow_state(const ds_mark mark, const unsigned grade)
{
    if (grade <= ds_mark_impact(mark)) {
        return DS_RUNG_PROVEN;
    }
    return grade <= ds_mark_impact_ceiling(mark) ? DS_RUNG_OPEN : DS_RUNG_DENIED;
}

/* States worsen with the grade, so the highest grade that counts is the worst. */
static ds_rung blow_of(const unsigned needed_grade, const ds_mark mark, const unsigned low,
                       const unsigned high)
{
    const bool needed = needed_grade >= low;
    const unsigned grade = needed && needed_grade < high ? needed_grade : high;
    return (ds_rung){.state = (uint8_t)blow_state(mark, grade), .needed = needed};
}

static void set_blows(ds_rung blows[DS_BLOWS_LEN], const unsigned needed_grade, const ds_mark mark)
{
    blows[0] = blow_of(needed_grade, mark, 1, GRADE_ONE_JOULE - 1);
    for (unsigned grade = GRADE_ONE_JOULE; grade <= GRADE_MOST; grade++) {
        blows[grade - GRADE_ONE_JOULE + 1] = blow_of(needed_grade, mark, grade, grade);
    }
    blows[DS_BLOWS_BEYOND] = blow_of(needed_grade, mark, DS_IMPACT_BEYOND, DS_IMPACT_BEYOND);
}

/* The need's test 8 alone, with its depth and time, against the mark. */
static void settle_immersion(ds_rung *const rung, const ds_need need, const ds_mark mark)
{
    static const uint8_t STATES[] = {
        [DS_FITS] = DS_RUNG_PROVEN, [DS_UNKNOWN] = DS_RUNG_OPEN, [DS_SHORT] = DS_RUNG_DENIED};
    if (rung->needed) {
        const ds_need alone = (need & (DS_WATER(8) | DEPTH_AND_TIME)) | DS_NEED_NOTHING;
        rung->state = STATES[ds_mark_compare(alone, mark, NULL)];
    }
}

void ds_rungs_of(ds_rungs *const out, const ds_need need, const ds_mark mark)
{
    for (int i = 0; i < DS_OBJECTS_LEN; i++) {
        out->objects[i] = rung_of(need, mark, DS_OBJECT(i + 1));
    }
    for (int i = 0; i < DS_ACCESS_LEN; i++) {
        out->access[i] = rung_of(need, mark, DS_ACCESS('A' + i));
    }
    for (int i = 0; i < DS_WATER_LEN; i++) {
        out->water[i] = rung_of(need, mark, DS_WATER(i + 1));
    }
    settle_immersion(&out->water[7], need, mark);
    set_blows(out->blows, ds_mark_impact(need), mark);
    out->need_given = ds_mark_proven(need) != 0 || ds_mark_impact(need) != 0;
}
