/* SPDX-License-Identifier: MIT */
/*
 * A calculation that a person can follow by hand: step by step what was worked out, the formula, its numbers with units,
 * the result and where the formula comes from.
 *
 *     ds_trail trail;
 *     ds_trail_init(&trail, &arena);
 *     ds_trail_start(&trail, "rise by the trade formula", "dT = P / (k A)");
 *     ds_trail_input(&trail, "P", 60, "W");
 *     ds_trail_input(&trail, "k", 5.5, "W/m2K");
 *     ds_trail_input(&trail, "A", 0.664, "m2");
 *     ds_trail_end(&trail, 16.43, "K", (ds_source){DS_SOURCE_PUBLISHED, DS_STR("an engineering manual")});
 *     if (!ds_trail_ok(&trail)) … out of memory …
 *     ds_trail_free(&trail);                  the steps stay in the arena
 *
 * Like a ds_text it remembers a failure until it is asked. Names, formulas and units are literals of the program.
 */
#ifndef DS_BOX_TRAIL_H
#define DS_BOX_TRAIL_H

#include "core/rules/words.h"

typedef struct ds_trail_step {
    ds_str what, formula;
    ds_str inputs; /* "P = 60 W; k = 5.5 W/m2K", to four figures; empty without */
    double value;
    ds_str unit;
    ds_source source; /* ref empty: plain arithmetic */
} ds_trail_step;

typedef struct ds_trail {
    ds_trail_step *at; /* in the arena */
    size_t len;
    size_t room;     /* private, and so are the rest */
    ds_arena *arena; /* borrowed */
    ds_text inputs;
    ds_trail_step open;
    bool failed;
} ds_trail;

#define DS_TRAIL_ARITHMETIC ((ds_source){DS_SOURCE_PRACTICE, DS_STR("")})

void ds_trail_init(ds_trail *trail, ds_arena *arena);
void ds_trail_free(ds_trail *trail);

/* False once memory was short; the steps before that are whole. */
bool ds_trail_ok(const ds_trail *trail);

void ds_trail_start(ds_trail *trail, const char *what, const char *formula);
void ds_trail_input(ds_trail *trail, const char *name, double value, const char *unit);

/* A remark among the inputs, as "calm air, since no wind is given". */
void ds_trail_note(ds_trail *trail, const char *note);
void ds_trail_end(ds_trail *trail, double value, const char *unit, ds_source source);

/* A number with about four figures that count: 0.06453, 1.643, 16.43, 293.15, 101325. "?" for NAN. */
void ds_trail_figure(ds_text *out, double value);

/* "16.43 K" */
void ds_trail_say_result(ds_text *out, const ds_trail_step *step);

/* How it comes about: "dT = P / (k A + F) + dTs; P = 60 W; … (published: …)". */
void ds_trail_say_way(ds_text *out, const ds_trail_step *step);

#endif
