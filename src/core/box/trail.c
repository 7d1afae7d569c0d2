/* SPDX-License-Identifier: MIT */
/*
 * The list of steps, doubled in the arena as it fills; the inputs of the open step grow in a text and are copied at its
 * end.
 */
#include "core/box/trail.h"

#include <math.h>

enum { FIRST_ROOM = 16, FIGURES = 4, MOST_DECIMALS = 9 };

void ds_trail_init(ds_trail *const trail, ds_arena *const arena)
{
    *trail = (ds_trail){.arena = arena};
    ds_text_init(&trail->inputs, arena->alloc);
}

void ds_trail_free(ds_trail *const trail)
{
    ds_text_free(&trail->inputs);
}

bool ds_trail_ok(const ds_trail *const trail)
{
    return !trail->failed;
}

void ds_trail_start(ds_trail *const trail, const char *const what, const char *const formula)
{
    ds_text_free(&trail->inputs);
    trail->open = (ds_trail_step){.what = ds_str_of(what), .formula = ds_str_of(formula)};
}

static void put_between(ds_text *const inputs)
{
    if (inputs->len) {
        ds_text_add(inputs, "; ");
    }
}

void ds_trail_figure(ds_text *const out, const double value)
{
    const double size = fabs(value);
    int decimals = size < 10 ? FIGURES - 1 : size < 1000 ? FIGURES - 2 : 0;
    for (double rest = size; rest > 0 && rest < 1 && decimals < MOST_DECIMALS; rest *= 10) {
        decimals++;
    }
    ds_text_number(out, value, decimals);
}

static void put_amount(ds_text *const out, const double value, const ds_str unit)
{
    ds_trail_figure(out, value);
    if (unit.len) {
        ds_text_char(out, ' ');
        ds_text_adds(out, unit);
    }
}

void ds_trail_input(ds_trail *const trail, const char *const name, const double value, const char *const unit)
{
    put_between(&trail->inputs);
    ds_text_add(&trail->inputs, name);
    ds_text_add(&trail->inputs, " = ");
    put_amount(&trail->inputs, value, ds_str_of(unit));
}

void ds_trail_note(ds_trail *const trail, const char *const note)
{
    put_between(&trail->inputs);
    ds_text_add(&trail->inputs, note);
}

static bool make_room(ds_trail *const trail)
{
    if (trail->len < trail->room) {
        return true;
    }
    const size_t room = trail->room ? trail->room * 2 : FIRST_ROOM;
    ds_trail_step *const at = ds_arena_take_many(trail->arena, room, sizeof *at);
    if (!at) {
        return false;
    }
    if (trail->len) {
        memcpy(at, trail->at, trail->len * sizeof *at);
    }
    trail->at = at;
    trail->room = room;
    return true;
}

static bool keep_inputs(ds_trail *const trail)
{
    const ds_str inputs = ds_text_str(&trail->inputs);
    char *const copy = ds_text_ok(&trail->inputs) ? ds_arena_take(trail->arena, inputs.len) : NULL;
    if (!copy) {
        return false;
    }
    if (inputs.len) {
        memcpy(copy, inputs.at, inputs.len);
    }
    trail->open.inputs = (ds_str){copy, inputs.len};
    return true;
}

void ds_trail_end(ds_trail *const trail, const double value, const char *const unit, const ds_source source)
{
    if (trail->failed || !make_room(trail) || !keep_inputs(trail)) {
        trail->failed = true;
        return;
    }
    trail->open.value = value;
    trail->open.unit = ds_str_of(unit);
    trail->open.source = source;
    trail->at[trail->len++] = trail->open;
}

void ds_trail_say_result(ds_text *const out, const ds_trail_step *const step)
{
    put_amount(out, step->value, step->unit);
}

void ds_trail_say_way(ds_text *const out, const ds_trail_step *const step)
{
    ds_text_adds(out, step->formula);
    if (step->inputs.len) {
        ds_text_add(out, "; ");
        ds_text_adds(out, step->inputs);
    }
    if (step->source.ref.len) {
        ds_text_add(out, " (");
        ds_text_add(out, ds_source_kind_word(step->source.kind));
        ds_text_add(out, ": ");
        ds_text_adds(out, step->source.ref);
        ds_text_char(out, ')');
    }
}
