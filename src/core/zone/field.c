/* SPDX-License-Identifier: MIT */
#include "core/zone/field.h"

#include <math.h>

typedef struct maker {
    ds_field *field;
    ds_arena *arena;
    size_t room;
} maker;

static bool put_shore(maker *const m, const ds_shore shore)
{
    ds_field *const f = m->field;
    if (f->shores_len == m->room) {
        m->room = m->room ? m->room * 2 : 16;
        ds_shore *const more = ds_arena_take_many(m->arena, m->room, sizeof *more);
        if (!more) {
            return false;
        }
        if (f->shores_len) {
            memcpy(more, f->shores, f->shores_len * sizeof *more);
        }
        f->shores = more;
    }
    f->shores[f->shores_len++] = shore;
    return true;
}

/* --- what of an outline stands free ------------------------------------------------------------------------------- */

/* At most two a wall, and the ends; ds_field_make takes no space of more walls. */
enum { CUTS = 2 * DS_SPACE_WALLS + 2 };

/* Shares at which an edge meets walls, in order, 0 and 1 at the ends. */
static size_t cut_edge(const ds_space *const space, const ds_curve *const edge, double cuts[CUTS])
{
    size_t len = 1;
    cuts[0] = 0;
    for (size_t i = 0; i < space->walls_len; i++) {
        const ds_curve wall = ds_segment(space->walls[i].a, space->walls[i].b);
        double at[2];
        const size_t found = ds_curve_meet(edge, &wall, at);
        for (size_t k = 0; k < found; k++) {
            size_t n = len++;
            for (; n > 1 && cuts[n - 1] > at[k]; n--) {
                cuts[n] = cuts[n - 1];
            }
            cuts[n] = at[k];
        }
    }
    cuts[len] = 1;
    return len + 1;
}

static bool put_edge(maker *const m, const ds_curve *const edge, const double value, const uint32_t source)
{
    const ds_space *const space = m->field->space;
    double cuts[CUTS];
    const size_t len = cut_edge(space, edge, cuts);
    for (size_t i = 0; i + 1 < len; i++) {
        const ds_curve part = ds_curve_part(edge, cuts[i], cuts[i + 1]);
        if (ds_vec_between(part.a, part.b) <= 2 * DS_TOUCH_M ||
            !ds_space_holds(space, ds_curve_point(&part, 0.5))) {
            continue;
        }
        const ds_shore shore = {.curve = part,
                                .value = value,
                                .source = source,
                                .cut_a = i > 0 || ds_space_distance(space, part.a) <= 2 * DS_TOUCH_M,
                                .cut_b = i + 2 < len || ds_space_distance(space, part.b) <= 2 * DS_TOUCH_M};
        if (!put_shore(m, shore)) {
            return false;
        }
    }
    return true;
}

static void widen(ds_field *const f, const ds_vec p, const double by)
{
    f->low = (ds_vec){fmin(f->low.x, p.x - by), fmin(f->low.y, p.y - by)};
    f->high = (ds_vec){fmax(f->high.x, p.x + by), fmax(f->high.y, p.y + by)};
}

static bool put_source(maker *const m, const uint32_t index)
{
    ds_field *const f = m->field;
    const ds_zone_source *const source = &f->sources[index];
    const double value = -source->reach_m;
    f->everywhere = f->everywhere || isinf(source->reach_m);
    if (isinf(source->reach_m)) {
        return true;
    }
    if (!source->outline.at) {
        widen(f, source->at, source->reach_m + DS_ASIDE_M);
        return put_shore(m, (ds_shore){.curve = ds_segment(source->at, source->at),
                                       .value = value,
                                       .source = index,
                                       .cut_a = true,
                                       .cut_b = true});
    }
    for (size_t i = 0; i < source->outline.len; i++) {
        const ds_curve *const edge = &source->outline.at[i];
        const double by = source->reach_m + DS_ASIDE_M;
        widen(f, edge->radius > 0 ? edge->centre : edge->a, by + edge->radius);
        if (!put_edge(m, edge, value, index)) {
            return false;
        }
    }
    return true;
}

/* --- ways --------------------------------------------------------------------------------------------------------- */

/* A last straight piece: from a shore, or from a bend (those are counted after the shores). */
typedef struct choice {
    double value;
    size_t index;
} choice;

static bool comes_after(const choice a, const choice b)
{
    return a.value > b.value || (a.value == b.value && a.index > b.index);
}

static ds_vec shore_nearest(const ds_curve *const curve, const ds_vec p)
{
    if (curve->radius > 0) {
        return ds_curve_point(curve, ds_curve_nearest(curve, p));
    }
    const ds_vec d = ds_vec_minus(curve->b, curve->a);
    const double along = ds_vec_dot(ds_vec_minus(p, curve->a), d);
    const double whole = ds_vec_dot(d, d);
    return along <= 0 ? curve->a : along >= whole ? curve->b : ds_vec_along(curve->a, along / whole, d);
}

static ds_vec bend_at(const ds_field *const f, const size_t bend)
{
    return f->space->corners[f->space->bends[bend]].at;
}

/* The choice of least value that comes after the last one; value is the bound when there is none. */
static choice next_choice(const ds_field *const f, const ds_vec p, const choice last, const double bound)
{
    choice best = {bound, SIZE_MAX};
    for (size_t i = 0; i < f->shores_len; i++) {
        const ds_vec from = shore_nearest(&f->shores[i].curve, p);
        const choice c = {f->shores[i].value + ds_vec_between(p, from), i};
        if (comes_after(c, last) && comes_after(best, c)) {
            best = c;
        }
    }
    for (size_t i = 0; i < f->space->bends_len; i++) {
        if (f->bends[i].value < best.value) {
            const choice c = {f->bends[i].value + ds_vec_between(p, bend_at(f, i)), f->shores_len + i};
            if (comes_after(c, last) && comes_after(best, c)) {
                best = c;
            }
        }
    }
    return best;
}

/* The way that a choice stands for; false when something is in between. */
static bool take(const ds_field *const f, const ds_vec p, const choice c, ds_way *const way)
{
    *way = (ds_way){.value = c.value, .after = UINT32_MAX};
    if (c.index < f->shores_len) {
        way->from = shore_nearest(&f->shores[c.index].curve, p);
        way->source = f->shores[c.index].source;
        return ds_space_sees(f->space, way->from, p);
    }
    const size_t bend = c.index - f->shores_len;
    way->from = bend_at(f, bend);
    way->source = f->bends[bend].source;
    way->after = (uint32_t)bend;
    return ds_space_corner_sees(f->space, &f->space->corners[f->space->bends[bend]], p);
}

/* Inside an outline the string has no length. */
static ds_way way_inside(const ds_field *const f, const ds_vec p, const double bound)
{
    ds_way way = {.value = bound, .source = UINT32_MAX, .from = p, .after = UINT32_MAX};
    for (size_t i = 0; i < f->sources_len; i++) {
        const ds_zone_source *const source = &f->sources[i];
        const bool inside =
            isinf(source->reach_m) || (source->outline.at && -source->reach_m < way.value &&
                                       ds_outline_encloses(source->outline.at, source->outline.len, p));
        if (inside) {
            way.value = -source->reach_m;
            way.source = (uint32_t)i;
        }
    }
    return way;
}

/* corner: the way has to come from the side that this corner stands for; NULL: p is no corner. */
static ds_way best_way(const ds_field *const f, const ds_vec p, const ds_corner *const corner,
                       const double bound)
{
    ds_way best = way_inside(f, p, bound);
    choice last = {-INFINITY, 0};
    for (choice c = next_choice(f, p, last, best.value); c.index != SIZE_MAX;
         c = next_choice(f, p, last, best.value)) {
        ds_way way;
        if (take(f, p, c, &way) && (!corner || ds_space_corner_sees(f->space, corner, way.from))) {
            best = way;
            break;
        }
        last = c;
    }
    best.length_m = INFINITY;
    if (best.source != UINT32_MAX) {
        const double reach = f->sources[best.source].reach_m;
        best.length_m = isinf(reach) ? 0 : fmax(best.value + reach, 0);
    }
    return best;
}

ds_way ds_field_way(const ds_field *const field, const ds_vec p, const double bound)
{
    return best_way(field, p, NULL, bound);
}

static bool within_a_source(const ds_field *const f, const ds_vec p)
{
    for (size_t i = 0; i < f->sources_len; i++) {
        const ds_outline *const outline = &f->sources[i].outline;
        if (outline->at && ds_outline_encloses(outline->at, outline->len, p)) {
            return true;
        }
    }
    return false;
}

/* Any last straight piece will do, not only the best: no order is kept. */
static bool within_a_choice(const ds_field *const f, const ds_vec p, const double bound)
{
    for (size_t i = 0; i < f->shores_len; i++) {
        const ds_vec from = shore_nearest(&f->shores[i].curve, p);
        const double left = bound - f->shores[i].value;
        const ds_vec d = ds_vec_minus(p, from);
        if (ds_vec_dot(d, d) < left * left && ds_space_sees(f->space, from, p)) {
            return true;
        }
    }
    for (size_t i = 0; i < f->space->bends_len; i++) {
        const double left = bound - f->bends[i].value;
        const ds_corner *const corner = &f->space->corners[f->space->bends[i]];
        const ds_vec d = ds_vec_minus(p, corner->at);
        if (left > 0 && ds_vec_dot(d, d) < left * left && ds_space_corner_sees(f->space, corner, p)) {
            return true;
        }
    }
    return false;
}

bool ds_field_reaches(const ds_field *const field, const ds_vec p)
{
    if (field->everywhere) {
        return true;
    }
    if (p.x < field->low.x || p.x > field->high.x || p.y < field->low.y || p.y > field->high.y) {
        return false;
    }
    return within_a_source(field, p) || within_a_choice(field, p, 2 * DS_TOUCH_M);
}

bool ds_field_in_freed(const ds_field *const field, const ds_vec p)
{
    for (size_t i = 0; i < field->sources_len; i++) {
        const ds_outline *const outline = &field->sources[i].outline;
        if (field->sources[i].freed && ds_outline_encloses(outline->at, outline->len, p) &&
            ds_outline_distance(outline->at, outline->len, p) > DS_TOUCH_M) {
            return true;
        }
    }
    return false;
}

size_t ds_field_string(const ds_field *const field, const ds_way *const way, const ds_vec p,
                       ds_vec *const out, const size_t room)
{
    size_t len = 2;
    for (uint32_t bend = way->after; bend != UINT32_MAX; bend = field->bends[bend].after) {
        len++;
    }
    size_t at = len - 1;
    ds_vec place = p;
    ds_vec before = way->from;
    uint32_t bend = way->after;
    for (;;) {
        if (at < room) {
            out[at] = place;
        }
        if (at-- == 0) {
            return len;
        }
        place = before;
        before = bend == UINT32_MAX ? before : field->bends[bend].from;
        bend = bend == UINT32_MAX ? bend : field->bends[bend].after;
    }
}

/* --- bends -------------------------------------------------------------------------------------------------------- */

static void relax(ds_field *const f, const size_t done)
{
    for (size_t i = 0; i < f->space->bends_len; i++) {
        const double value = f->bends[done].value + ds_space_between(f->space, done, i);
        if (value < f->bends[i].value) {
            f->bends[i] = (ds_bend){value, bend_at(f, done), (uint32_t)done, f->bends[done].source};
        }
    }
}

static size_t nearest_unsettled(const ds_field *const f, const bool *const settled)
{
    size_t least = SIZE_MAX;
    for (size_t i = 0; i < f->space->bends_len; i++) {
        const bool nearer = least == SIZE_MAX || f->bends[i].value < f->bends[least].value;
        if (!settled[i] && nearer && f->bends[i].value < INFINITY) {
            least = i;
        }
    }
    return least;
}

static bool reach_bends(ds_field *const f, ds_arena *const arena)
{
    const size_t n = f->space->bends_len;
    f->bends = ds_arena_take_many(arena, n, sizeof *f->bends);
    bool *const settled = ds_arena_take(arena, n);
    ds_bend *const straight = ds_arena_take_many(arena, n, sizeof *straight);
    if (!f->bends || !settled || !straight) {
        return false;
    }
    for (size_t i = 0; i < n; i++) {
        f->bends[i] = (ds_bend){.value = INFINITY, .after = UINT32_MAX, .source = UINT32_MAX};
    }
    for (size_t i = 0; i < n; i++) {
        const ds_corner *const corner = &f->space->corners[f->space->bends[i]];
        const ds_way way = best_way(f, corner->at, corner, INFINITY);
        straight[i] = (ds_bend){way.value, way.from, UINT32_MAX, way.source};
    }
    if (n) {
        memcpy(f->bends, straight, n * sizeof *straight);
    }
    for (size_t next = nearest_unsettled(f, settled); next != SIZE_MAX;
         next = nearest_unsettled(f, settled)) {
        settled[next] = true;
        relax(f, next);
    }
    return true;
}

ds_status ds_field_make(ds_field *const out, const ds_space *const space, const ds_zone_source *const sources,
                        const size_t sources_len, ds_arena *const arena)
{
    *out = (ds_field){.space = space,
                      .sources = sources,
                      .sources_len = sources_len,
                      .low = {INFINITY, INFINITY},
                      .high = {-INFINITY, -INFINITY}};
    if (space->walls_len > DS_SPACE_WALLS) {
        return DS_BAD_INPUT;
    }
    maker m = {.field = out, .arena = arena};
    for (size_t i = 0; i < sources_len; i++) {
        if (!put_source(&m, (uint32_t)i)) {
            return DS_NO_MEMORY;
        }
    }
    return reach_bends(out, arena) ? DS_OK : DS_NO_MEMORY;
}
