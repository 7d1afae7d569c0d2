/* SPDX-License-Identifier: MIT */
/* What the tests of a box's heat, water and day share: a box from JSON, worked out, and sentences as strings. */
#ifndef CLIMATE_HELP_H
#define CLIMATE_HELP_H

#include "box_help.h"

#include "core/box/climate.h"

typedef struct told {
    box_world w;
    ds_climate climate;
} told;

/* Reads a box from JSON and works it out. */
static inline void tell(told *const t, const char *const json, const bool outdoors)
{
    box_open(&t->w, NULL);
    ds_problem problem;
    assert_int_equal(ds_json_read(&t->w.tree, ds_str_of(json), &t->w.arena, &DS_JSON_LIMITS, &problem),
                     DS_OK);
    t->w.job = (ds_job){.tree = t->w.tree, .source = ds_str_of(json)};
    const ds_box *const box = box_read(&t->w, t->w.tree);
    assert_non_null(box);
    assert_int_equal(t->w.job.problems.len, 0);
    assert_int_equal(ds_climate_of(&t->climate, box, outdoors, &t->w.arena), DS_OK);
}

/* A text as a string until the next call; the text is freed. */
static inline const char *kept(ds_text *const text)
{
    static char last[600];
    assert_true(ds_text_ok(text) && text->len < sizeof last);
    snprintf(last, sizeof last, "%.*s", (int)text->len, text->at);
    ds_text_free(text);
    return last;
}

#endif
