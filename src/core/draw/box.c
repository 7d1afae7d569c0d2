/* SPDX-License-Identifier: MIT */
#include "core/draw/box.h"

#include "core/draw/box_view.h"
#include "core/draw/callout.h"

#include <math.h>

/* What a size that is not stated is drawn as. */
#define WIDTH_MM 300.0
#define HEIGHT_MM 400.0
#define DEPTH_MM 200.0

#define FACTS_MM 24.0
#define FACES_TOP_MM 52.0
#define FACES_HIGH_MM 84.0
#define GAP_MM 7.0

enum { SIDES = DS_SIDE_BACK + 1, ENTRIES = 40 };

typedef struct face_frame {
    double x, y, width, height; /* on the sheet */
} face_frame;

static double or_else(const double value, const double other)
{
    return isnan(value) ? other : value;
}

/* Front in the middle, the others where they fold to, the back at the far right. */
static void lay_faces(face_frame frames[SIDES], const ds_box *const box)
{
    const double w = or_else(box->width_mm, WIDTH_MM);
    const double h = or_else(box->height_mm, HEIGHT_MM);
    const double d = or_else(box->depth_mm, DEPTH_MM);
    const double across = 2 * w + 2 * d;
    const double up = h + 2 * d;
    const double scale = fmin((DS_VIEW_WIDTH_MM - 3 * GAP_MM) / across, (FACES_HIGH_MM - 2 * GAP_MM) / up);
    const double left = DS_VIEW_MARGIN_MM + (DS_VIEW_WIDTH_MM - 3 * GAP_MM - across * scale) / 2;
    const double x_front = left + d * scale + GAP_MM;
    const double y_front = FACES_TOP_MM + d * scale + GAP_MM;
    frames[DS_SIDE_LEFT] = (face_frame){left, y_front, d * scale, h * scale};
    frames[DS_SIDE_FRONT] = (face_frame){x_front, y_front, w * scale, h * scale};
    frames[DS_SIDE_RIGHT] = (face_frame){x_front + w * scale + GAP_MM, y_front, d * scale, h * scale};
    frames[DS_SIDE_BACK] =
        (face_frame){x_front + (w + d) * scale + 2 * GAP_MM, y_front, w * scale, h * scale};
    frames[DS_SIDE_TOP] = (face_frame){x_front, FACES_TOP_MM, w * scale, d * scale};
    frames[DS_SIDE_BOTTOM] = (face_frame){x_front, y_front + h * scale + GAP_MM, w * scale, d * scale};
}

static void put_faces(ds_sheet *const sheet, const face_frame frames[SIDES], const ds_box *const box)
{
    for (int side = DS_SIDE_TOP; side < SIDES; side++) {
        const face_frame *const f = &frames[side];
        const ds_face *const face = ds_box_face(box, (ds_side)side);
        const bool covered = face && face->covered == DS_TRI_YES;
        ds_sheet_rect(sheet, f->x, f->y, f->width, f->height);
        ds_sheet_draw(sheet, DS_PEN_FEATURE, covered ? DS_FILL_LIGHT : DS_FILL_PAPER);
        ds_sheet_write(sheet, f->x + f->width / 2, f->y - 1.4, ds_str_of(ds_side_word((ds_side)side)),
                       (ds_lettering){.size_mm = DS_TYPE_SMALL_MM, .anchor = DS_ANCHOR_MIDDLE});
    }
}

/* --- entries ------------------------------------------------------------------------------------------------------ */

static ds_side side_of(const ds_part *const part)
{
    return part->entry ? part->entry->face : part->face ? part->face->side : DS_SIDE_MISSING;
}

/* The n-th of count things on a face, evenly along its longer edge. */
static void place_on(const face_frame *const f, const size_t n, const size_t count, double *const x,
                     double *const y)
{
    const double share = (double)(n + 1) / (double)(count + 1);
    const bool lying = f->width >= f->height;
    *x = f->x + f->width * (lying ? share : 0.5);
    *y = f->y + f->height * (lying ? 0.5 : share);
}

/* An entry is round, with the shape of its verdict in it. */
static void put_part(ds_sheet *const sheet, const double x, const double y, const ds_verdict verdict)
{
    ds_sheet_circle(sheet, x, y, 2.2);
    ds_sheet_draw(sheet, DS_PEN_FEATURE, DS_FILL_PAPER);
    ds_callout_verdict(sheet, x, y, verdict);
}

static void put_parts(const ds_box_picture *const p, ds_sheet *const sheet, const face_frame frames[SIDES],
                      ds_arena *const arena)
{
    ds_callout callouts[ENTRIES];
    ds_verdict verdicts[ENTRIES];
    size_t len = 0;
    for (size_t i = 0; p->installed && i < p->installed->parts_len && len < ENTRIES; i++) {
        const ds_part *const part = &p->installed->parts[i];
        const ds_side side = side_of(part);
        size_t before = 0;
        size_t count = 0;
        for (size_t k = 0; k < p->installed->parts_len; k++) {
            const bool here = side_of(&p->installed->parts[k]) == side;
            before += here && k < i;
            count += here;
        }
        if (side == DS_SIDE_MISSING) {
            continue;
        }
        ds_callout *const c = &callouts[len++];
        place_on(&frames[side], before, count, &c->x, &c->y);
        c->text = ds_view_number(arena, i + 1);
        verdicts[len - 1] = ds_mark_compare(p->need, part->mark, NULL);
    }
    const ds_patch bounds = {DS_VIEW_MARGIN_MM - 4, FACES_TOP_MM - 5,
                             DS_VIEW_MARGIN_MM + DS_VIEW_WIDTH_MM + 4, FACES_TOP_MM + FACES_HIGH_MM + 4};
    ds_callouts_place(callouts, len, bounds, NULL, 0);
    for (size_t i = 0; i < len; i++) {
        ds_callout_draw(sheet, &callouts[i]);
    }
    for (size_t i = 0; i < len; i++) { /* over the ends of the leaders */
        put_part(sheet, callouts[i].x, callouts[i].y, verdicts[i]);
    }
}

/* --- table -------------------------------------------------------------------------------------------------------- */

static double put_row(const ds_box_picture *const p, ds_sheet *const sheet, ds_arena *const arena,
                      const size_t index, double y)
{
    const ds_part *const part = &p->installed->parts[index];
    const ds_lettering how = {.size_mm = DS_TYPE_SMALL_MM};
    const ds_verdict verdict = ds_mark_compare(p->need, part->mark, NULL);
    ds_text say;
    ds_text_init(&say, arena->alloc);
    ds_sheet_write(sheet, DS_VIEW_MARGIN_MM + 4, y, ds_view_number(arena, index + 1),
                   (ds_lettering){.size_mm = DS_TYPE_SMALL_MM, .bold = true, .anchor = DS_ANCHOR_END});
    ds_sheet_write(sheet, DS_VIEW_MARGIN_MM + 7, y, ds_str_of(ds_verdict_word(verdict)), how);
    ds_say_part(&say, p->installed, part, p->need);
    if (!say.len) {
        ds_say_part_name(&say, part);
        ds_text_add(&say, ": takes nothing away.");
    }
    const double x = DS_VIEW_MARGIN_MM + 24;
    y = ds_view_paragraph(sheet, arena, x, y, DS_VIEW_WIDTH_MM - 24, &say, how);
    ds_say_part_mend(&say, p->installed, part, p->need);
    if (say.len) {
        y = ds_view_paragraph(sheet, arena, x, y, DS_VIEW_WIDTH_MM - 24, &say, how);
    }
    ds_sheet_heed(sheet, &say);
    ds_text_free(&say);
    return y + 1.2;
}

static double put_table(const ds_box_picture *const p, ds_sheet *const sheet, ds_arena *const arena, double y,
                        const double bottom)
{
    ds_sheet_write(sheet, DS_VIEW_MARGIN_MM, y, DS_STR("What each entry leaves"),
                   (ds_lettering){.size_mm = DS_TYPE_MM, .bold = true});
    ds_sheet_stroke(sheet, DS_PEN_HAIR, DS_VIEW_MARGIN_MM, y + 1.6, DS_VIEW_MARGIN_MM + DS_VIEW_WIDTH_MM,
                    y + 1.6);
    y += 6.5;
    const size_t parts = p->installed ? p->installed->parts_len : 0;
    if (!p->installed || !p->installed->entries_stated) {
        ds_sheet_write(sheet, DS_VIEW_MARGIN_MM + 7, y,
                       DS_STR("The entries are not all listed: what they leave of the mark is not known."),
                       (ds_lettering){.size_mm = DS_TYPE_SMALL_MM});
        y += 5;
    } else if (!parts) {
        ds_sheet_write(sheet, DS_VIEW_MARGIN_MM + 7, y, DS_STR("There are none: the box is as it was made."),
                       (ds_lettering){.size_mm = DS_TYPE_SMALL_MM});
    }
    for (size_t i = 0; i < parts; i++) {
        if (y > bottom - 10) {
            ds_sheet_write(sheet, DS_VIEW_MARGIN_MM + 7, y, DS_STR("and more: see the box sheet in text"),
                           (ds_lettering){.size_mm = DS_TYPE_SMALL_MM});
            return y;
        }
        y = put_row(p, sheet, arena, i, y);
    }
    return y;
}

/* --- the whole ---------------------------------------------------------------------------------------------------- */

static void put_title(const ds_box_picture *const p, ds_sheet *const sheet, ds_arena *const arena)
{
    ds_text title;
    ds_text_init(&title, arena->alloc);
    ds_text_adds(&title, p->id);
    ds_text_add(&title, p->name.len ? "  " : "");
    ds_text_adds(&title, p->name);
    ds_sheet_heed(sheet, &title);
    ds_sheet_name(sheet, p->id, ds_text_str(&title), DS_STR("The faces of a box with its entries"));
    ds_sheet_write_within(sheet, DS_VIEW_MARGIN_MM, 18, DS_VIEW_WIDTH_MM, ds_text_str(&title),
                          (ds_lettering){.size_mm = DS_TYPE_HEAD_MM, .bold = true});
    ds_text_free(&title);
}

/* Wrapped, and a line below them wherever they end. */
static void put_facts(const ds_box_picture *const p, ds_sheet *const sheet, ds_arena *const arena)
{
    ds_text facts;
    ds_text_init(&facts, arena->alloc);
    ds_text_adds(&facts, p->facts);
    const double end = ds_view_paragraph(sheet, arena, DS_VIEW_MARGIN_MM, FACTS_MM, DS_VIEW_WIDTH_MM, &facts,
                                         (ds_lettering){.size_mm = DS_TYPE_SMALL_MM});
    ds_sheet_stroke(sheet, DS_PEN_DIMENSION, DS_VIEW_MARGIN_MM, end - 0.5,
                    DS_VIEW_MARGIN_MM + DS_VIEW_WIDTH_MM, end - 0.5);
    ds_text_free(&facts);
}

ds_status ds_box_sheet(ds_sheet *const out, const ds_box_picture *const p, ds_arena *const arena)
{
    ds_sheet_init(out, arena, DS_VIEW_PAGE_WIDTH_MM, DS_VIEW_PAGE_HEIGHT_MM);
    put_title(p, out, arena);
    put_facts(p, out, arena);
    face_frame frames[SIDES] = {{0}};
    lay_faces(frames, p->box);
    ds_sheet_begin(out, DS_ROLE_BOX, p->id, DS_STR("Faces"));
    put_faces(out, frames, p->box);
    put_parts(p, out, frames, arena);
    ds_sheet_end(out);
    const double bottom = p->curve ? DS_VIEW_PAGE_HEIGHT_MM - 92 : DS_VIEW_PAGE_HEIGHT_MM - 20;
    put_table(p, out, arena, FACES_TOP_MM + FACES_HIGH_MM + 12, bottom);
    if (p->curve && p->hours > 1) {
        ds_view_day(p, out, DS_VIEW_PAGE_HEIGHT_MM - 82, 62);
    }
    ds_sheet_write(out, DS_VIEW_MARGIN_MM + DS_VIEW_WIDTH_MM, DS_VIEW_PAGE_HEIGHT_MM - DS_VIEW_MARGIN_MM,
                   DS_STR("Working aid, no certificate. Never drill a marked enclosure."),
                   (ds_lettering){.size_mm = DS_TYPE_SMALL_MM, .anchor = DS_ANCHOR_END});
    return ds_sheet_status(out);
}
