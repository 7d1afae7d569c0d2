/* SPDX-License-Identifier: MIT */
/*
 * Greedy placing: each label in turn takes the first of its candidate places that costs nothing, or else the cheapest.
 * Candidates are rings around the point, near ones first, each starting at its upper right.
 */
#include "core/draw/callout.h"

#include <math.h>

#define RING 2.7 /* half the height of a label */
#define SIDE 1.6 /* from a long text to the ends of its ring */
#define CLEAR 0.7
#define DOT 0.8 /* radius of the mark at what is named */

/* What a place costs: how bad each fault is. */
enum {
    OFF_PAPER = 1000,
    ON_LABEL = 100,
    ON_POINT = 50,
    ON_TAKEN = 20,
    LEADER_ON_LABEL = 10,
    LEADER_ON_POINT = 10,
    LEADERS_CROSS = 5
};

enum { DIRECTIONS = 16, RINGS = 6 };

static const double DISTANCES[RINGS] = {6, 9, 13, 18, 24, 32};

/* Sixteenths of a turn; upper right first, then alternately either way. */
static const double WAYS[DIRECTIONS][2] = {{0.7071, -0.7071},
                                           {0.9239, -0.3827},
                                           {0.3827, -0.9239},
                                           {1, 0},
                                           {0, -1},
                                           {0.9239, 0.3827},
                                           {-0.3827, -0.9239},
                                           {0.7071, 0.7071},
                                           {-0.7071, -0.7071},
                                           {0.3827, 0.9239},
                                           {-0.9239, -0.3827},
                                           {0, 1},
                                           {-1, 0},
                                           {-0.3827, 0.9239},
                                           {-0.9239, 0.3827},
                                           {-0.7071, 0.7071}};

static const ds_lettering NUMBER = {
    .size_mm = DS_TYPE_SMALL_MM, .anchor = DS_ANCHOR_MIDDLE, .bold = true, .centred = true};

/* --- patches ------------------------------------------------------------------------------------------------------ */

ds_patch ds_patch_of_text(const double x, const double y, const ds_str text, const ds_lettering *const how)
{
    const double width = ds_lettering_width_mm(text, how);
    if (how->turn_deg != 0) {
        return (ds_patch){x - width, y - width, x + width, y + width};
    }
    const double left = how->anchor == DS_ANCHOR_START ? x
                        : how->anchor == DS_ANCHOR_END ? x - width
                                                       : x - width / 2;
    const double foot = y + ds_lettering_drop_mm(how);
    return (ds_patch){left, foot - 0.75 * how->size_mm, left + width, foot + 0.25 * how->size_mm};
}

static ds_patch around(const double x, const double y, const double half_width, const double half_height)
{
    return (ds_patch){x - half_width, y - half_height, x + half_width, y + half_height};
}

static bool meet(const ds_patch a, const ds_patch b)
{
    return a.left < b.right && b.left < a.right && a.top < b.bottom && b.top < a.bottom;
}

static bool within(const ds_patch a, const ds_patch b)
{
    return a.left >= b.left && a.right <= b.right && a.top >= b.top && a.bottom <= b.bottom;
}

/* --- lines -------------------------------------------------------------------------------------------------------- */

/* Positive when c lies clockwise, as seen, of the line from a to b. */
static double side_of(const double a[2], const double b[2], const double c[2])
{
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}

static bool cross(const double a[2], const double b[2], const double c[2], const double d[2])
{
    return side_of(a, b, c) * side_of(a, b, d) < 0 && side_of(c, d, a) * side_of(c, d, b) < 0;
}

/* Does the line from a to b cross one of the patch's diagonals: enough for a line that ends outside. */
static bool runs_through(const double a[2], const double b[2], const ds_patch patch)
{
    const double left_top[] = {patch.left, patch.top};
    const double right_top[] = {patch.right, patch.top};
    const double left_bottom[] = {patch.left, patch.bottom};
    const double right_bottom[] = {patch.right, patch.bottom};
    return cross(a, b, left_top, right_bottom) || cross(a, b, left_bottom, right_top);
}

/* --- placing ------------------------------------------------------------------------------------------------------ */

/* Half the width of the ring around a text: a circle while it fits into one. */
static double half_width(const ds_str text)
{
    const double wide = ds_lettering_width_mm(text, &NUMBER) / 2 + SIDE;
    return wide > RING ? wide : RING;
}

static ds_patch label_patch(const ds_callout *const of, const double clear)
{
    return around(of->label_x, of->label_y, half_width(of->text) + clear, RING + clear);
}

/* What a label with its leader costs against one that is placed already. */
static unsigned cost_beside(const ds_callout *const one, const ds_callout *const placed)
{
    const double from[] = {one->x, one->y};
    const double to[] = {one->label_x, one->label_y};
    const double placed_from[] = {placed->x, placed->y};
    const double placed_to[] = {placed->label_x, placed->label_y};
    unsigned cost = 0;
    cost += meet(label_patch(one, CLEAR), label_patch(placed, 0)) ? ON_LABEL : 0;
    cost += runs_through(from, to, label_patch(placed, 0)) ? LEADER_ON_LABEL : 0;
    cost += runs_through(placed_from, placed_to, label_patch(one, 0)) ? LEADER_ON_LABEL : 0;
    cost += cross(from, to, placed_from, placed_to) ? LEADERS_CROSS : 0;
    return cost;
}

typedef struct table {
    const ds_callout *callouts;
    size_t len;
    ds_patch bounds;
    const ds_patch *taken;
    size_t taken_len;
} table;

static unsigned cost_of(const table *const on, const ds_callout *const one, const size_t placed_len)
{
    const ds_patch label = label_patch(one, CLEAR);
    const double from[] = {one->x, one->y};
    const double to[] = {one->label_x, one->label_y};
    unsigned cost = within(label, on->bounds) ? 0 : OFF_PAPER;
    for (size_t i = 0; i < on->taken_len; i++) {
        cost += meet(label, on->taken[i]) ? ON_TAKEN : 0;
    }
    for (size_t i = 0; i < on->len; i++) {
        const ds_patch point = around(on->callouts[i].x, on->callouts[i].y, DOT, DOT);
        cost += meet(label, point) ? ON_POINT : 0;
        cost += runs_through(from, to, point) ? LEADER_ON_POINT : 0; /* not of its own, where it begins */
    }
    for (size_t i = 0; i < placed_len; i++) {
        cost += cost_beside(one, &on->callouts[i]);
    }
    return cost;
}

/* Near places first; a wide label goes further out sideways, so that its end is as near as a round one's. */
static void put_at(ds_callout *const one, const double wider, const int candidate)
{
    const double *const way = WAYS[candidate % DIRECTIONS];
    const double distance = DISTANCES[candidate / DIRECTIONS];
    one->label_x = one->x + way[0] * (distance + wider);
    one->label_y = one->y + way[1] * distance;
}

static unsigned place(const table *const on, ds_callout *const one, const size_t placed_len)
{
    const double wider = half_width(one->text) - RING;
    unsigned least = UINT32_MAX;
    int best = 0;
    for (int i = 0; i < DIRECTIONS * RINGS && least > 0; i++) {
        put_at(one, wider, i);
        const unsigned cost = cost_of(on, one, placed_len);
        if (cost < least) {
            least = cost;
            best = i;
        }
    }
    put_at(one, wider, best);
    return least;
}

size_t ds_callouts_place(ds_callout *const callouts, const size_t len, const ds_patch bounds,
                         const ds_patch *const taken, const size_t taken_len)
{
    const size_t sought = len < DS_CALLOUTS_SOUGHT ? len : DS_CALLOUTS_SOUGHT;
    const table on = {callouts, sought, bounds, taken, taken_len};
    size_t crowded = len - sought;
    for (size_t i = 0; i < sought; i++) {
        crowded += place(&on, &callouts[i], i) > 0;
    }
    for (size_t i = sought; i < len; i++) {
        put_at(&callouts[i], half_width(callouts[i].text) - RING, 0);
    }
    return crowded;
}

/* --- drawing ------------------------------------------------------------------------------------------------------ */

static void add_ring(ds_sheet *const sheet, const ds_callout *const of)
{
    const double reach = half_width(of->text) - RING;
    const double x = of->label_x;
    const double y = of->label_y;
    ds_sheet_move(sheet, x - reach, y - RING);
    ds_sheet_line(sheet, x + reach, y - RING);
    ds_sheet_arc(sheet, x + reach, y + RING, x + reach, y, true);
    ds_sheet_line(sheet, x - reach, y + RING);
    ds_sheet_arc(sheet, x - reach, y - RING, x - reach, y, true);
    ds_sheet_close(sheet);
}

void ds_callout_draw(ds_sheet *const sheet, const ds_callout *const callout)
{
    ds_sheet_begin(sheet, DS_ROLE_POINT, callout->text, callout->text);
    ds_sheet_stroke(sheet, DS_PEN_LEADER, callout->x, callout->y, callout->label_x, callout->label_y);
    ds_sheet_circle(sheet, callout->x, callout->y, DOT);
    ds_sheet_draw(sheet, DS_PEN_NONE, DS_FILL_INK);
    add_ring(sheet, callout);
    ds_sheet_draw(sheet, DS_PEN_FEATURE, DS_FILL_PAPER);
    ds_sheet_write(sheet, callout->label_x, callout->label_y, callout->text, NUMBER);
    ds_sheet_end(sheet);
}

void ds_callout_verdict(ds_sheet *const sheet, const double x, const double y, const ds_verdict verdict)
{
    const double r = 1.1;
    if (verdict == DS_FITS) {
        ds_sheet_rect(sheet, x - r, y - r, 2 * r, 2 * r);
        ds_sheet_draw(sheet, DS_PEN_NONE, DS_FILL_INK);
    } else if (verdict == DS_SHORT) {
        ds_sheet_move(sheet, x - r, y + r);
        ds_sheet_line(sheet, x, y - r);
        ds_sheet_line(sheet, x + r, y + r);
        ds_sheet_close(sheet);
        ds_sheet_draw(sheet, DS_PEN_NONE, DS_FILL_INK);
    } else if (verdict == DS_BARRED) {
        ds_sheet_stroke(sheet, DS_PEN_ZONE, x - r, y - r, x + r, y + r);
        ds_sheet_stroke(sheet, DS_PEN_ZONE, x - r, y + r, x + r, y - r);
    } else {
        ds_sheet_write(
            sheet, x, y, DS_STR("?"),
            (ds_lettering){.size_mm = DS_TYPE_MM, .bold = true, .anchor = DS_ANCHOR_MIDDLE, .centred = true});
    }
}
