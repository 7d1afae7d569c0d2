/* SPDX-License-Identifier: MIT */
/* The words at the ladders, and the picture said in words. */
#include "core/draw/rungs_words.h"

const ds_ladder *ds_ladder_of(const ds_ladder_kind kind)
{
    static const char *const DIGITS[] = {"1", "2", "3", "4", "5", "6", "7", "8", "9"};
    static const char *const LETTERS[] = {"A", "B", "C", "D"};
    static const char *const JOULES[] = {"<1 J", "1 J", "2 J", "5 J", "10 J", "20 J", "50 J", ">50 J"};
    static const char *const SOLIDS[] = {"50 mm", "12.5 mm", "2.5 mm", "1 mm", "dust", "dust-tight"};
    static const char *const PEOPLE[] = {"hand", "finger", "tool", "wire"};
    static const char *const WATER[] = {"drips",    "tilted", "spray",    "splash",   "jet",
                                        "hard jet", "dip",    "long dip", "hot lance"};
    static const ds_ladder LADDERS[DS_LADDERS_LEN] = {[DS_LADDER_SOLIDS] = {"solids", DIGITS, SOLIDS},
                                                      [DS_LADDER_PEOPLE] = {"people", LETTERS, PEOPLE},
                                                      [DS_LADDER_WATER] = {"water", DIGITS, WATER},
                                                      [DS_LADDER_BLOWS] = {"blows", JOULES, NULL}};
    return &LADDERS[kind];
}

const ds_rung *ds_ladder_rungs(const ds_rungs *const rungs, const ds_ladder_kind kind, int *const len)
{
    switch (kind) {
    case DS_LADDER_SOLIDS:
        *len = DS_OBJECTS_LEN;
        return rungs->objects;
    case DS_LADDER_PEOPLE:
        *len = DS_ACCESS_LEN;
        return rungs->access;
    case DS_LADDER_WATER:
        *len = DS_WATER_LEN;
        return rungs->water;
    default:
        *len = rungs->blows[DS_BLOWS_BEYOND].needed ? DS_BLOWS_LEN : DS_BLOWS_LEN - 1;
        return rungs->blows;
    }
}

static bool alike(const ds_rung a, const ds_rung b)
{
    return a.state == b.state && a.needed == b.needed;
}

static void say_run(ds_text *const out, const ds_ladder *const ladder, const int first, const int last,
                    const ds_rung rung)
{
    static const char *const STATES[] = {
        [DS_RUNG_DENIED] = "denied", [DS_RUNG_OPEN] = "open", [DS_RUNG_PROVEN] = "proven"};
    ds_text_add(out, first ? ", " : ": ");
    ds_text_add(out, ladder->numbers[first]);
    if (last > first) {
        ds_text_add(out, last == first + 1 ? " and " : " to ");
        ds_text_add(out, ladder->numbers[last]);
    }
    ds_text_char(out, ' ');
    ds_text_add(out, rung.needed ? "needed and " : "");
    ds_text_add(out, STATES[rung.state]);
}

static void say_ladder(ds_text *const out, const ds_rungs *const rungs, const ds_ladder_kind kind)
{
    const ds_ladder *const ladder = ds_ladder_of(kind);
    int len = 0;
    const ds_rung *const at = ds_ladder_rungs(rungs, kind, &len);
    ds_text_char(out, (char)(ladder->name[0] - 'a' + 'A'));
    ds_text_add(out, ladder->name + 1);
    for (int first = 0; first < len;) {
        int last = first;
        while (last + 1 < len && alike(at[last + 1], at[first])) {
            last++;
        }
        say_run(out, ladder, first, last, at[first]);
        first = last + 1;
    }
    ds_text_char(out, '.');
}

void ds_rungs_say(ds_text *const out, const ds_rungs *const rungs)
{
    for (int kind = 0; kind < DS_LADDERS_LEN; kind++) {
        ds_text_add(out, kind ? " " : "");
        say_ladder(out, rungs, (ds_ladder_kind)kind);
    }
}

const char *ds_verdict_shape(const ds_verdict verdict, const bool ascii)
{
    static const char *const SHAPES[][2] = {
        [DS_FITS] = {"■", "+"}, [DS_UNKNOWN] = {"?", "?"}, [DS_SHORT] = {"▲", "!"}, [DS_BARRED] = {"╳", "x"}};
    return SHAPES[verdict][ascii];
}
