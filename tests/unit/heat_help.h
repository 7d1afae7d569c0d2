/* SPDX-License-Identifier: MIT */
/* What the tests of heat and pressure share: a box that lacks nothing, its answer, a sheet of paper for a trail. */
#ifndef HEAT_HELP_H
#define HEAT_HELP_H

#include "base_alloc.h"

#include "core/box/heat.h"

#include <stdio.h>

static inline void near(const double found, const double wanted, const double within)
{
    if (!(fabs(found - wanted) <= within)) {
        fail_msg("found %.17g, wanted %.17g within %g", found, wanted, within);
    }
}

/* Painted steel on a wall, indoors, in 25 C air, closed. */
static inline ds_heat_case box(const double height_m, const double width_m, const double depth_m,
                               const double watts)
{
    ds_heat_case c = DS_HEAT_CASE_NOTHING;
    c.height_mm = height_m * 1000;
    c.width_mm = width_m * 1000;
    c.depth_mm = depth_m * 1000;
    c.watts = watts;
    c.air_c = 25;
    c.sun_flat_w_m2 = c.sun_wall_w_m2 = 0;
    c.surface = ds_surface_of(DS_STR("painted-steel"));
    c.openings = DS_HEAT_CLOSED;
    ds_heat_mount(&c, true, 0);
    return c;
}

static inline ds_heat_case with_surface(ds_heat_case c, const char *const name)
{
    c.surface = ds_surface_of(ds_str_of(name));
    assert_non_null(c.surface);
    return c;
}

static inline ds_heat_answer solved(const ds_heat_case c)
{
    ds_heat_answer a;
    ds_heat_solve(&a, &c);
    assert_int_equal(a.missing, 0);
    assert_int_equal(a.bad, 0);
    return a;
}

typedef struct paper {
    test_alloc memory;
    ds_arena arena;
    ds_trail trail;
} paper;

static inline void paper_start(paper *const p)
{
    p->memory = test_alloc_make(0);
    ds_arena_init(&p->arena, test_alloc_use(&p->memory));
    ds_trail_init(&p->trail, &p->arena);
}

static inline void paper_end(paper *const p)
{
    ds_trail_free(&p->trail);
    ds_arena_free(&p->arena);
    assert_int_equal(p->memory.blocks, 0);
}

static inline const ds_trail_step *step_of(const paper *const p, const char *const what)
{
    for (size_t i = 0; i < p->trail.len; i++) {
        if (ds_str_is(p->trail.at[i].what, what)) {
            return &p->trail.at[i];
        }
    }
    fail_msg("no step \"%s\"", what);
    return NULL;
}

/* The number printed for a name; the nth of that name, from 0. */
static inline double read_off(const ds_trail_step *const step, const char *const name, int nth)
{
    char text[1024];
    char key[64];
    snprintf(text, sizeof text, "; %.*s", (int)step->inputs.len, step->inputs.at);
    snprintf(key, sizeof key, "; %s = ", name);
    const char *at = strstr(text, key);
    while (at && nth-- > 0) {
        at = strstr(at + 1, key);
    }
    assert_non_null(at);
    return strtod(at + strlen(key), NULL);
}

#endif
