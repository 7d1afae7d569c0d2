/* SPDX-License-Identifier: MIT */
/*
 * The list itself: two arrays that double their room in the arena, and a failure that is kept. After a failure nothing
 * is added, so a painter never meets half a path.
 */
#include "core/draw/sheet.h"

#include <math.h>

enum { FIRST_ROOM = 64 };

#define FARTHEST_MM 1e5
#define NEAREST_MM 1e-3

void ds_sheet_init(ds_sheet *const sheet, ds_arena *const arena, const double width_mm,
                   const double height_mm)
{
    *sheet = (ds_sheet){.width_mm = width_mm, .height_mm = height_mm, .arena = arena};
    const bool sound = width_mm > 0 && width_mm <= FARTHEST_MM && height_mm > 0 && height_mm <= FARTHEST_MM;
    if (!sound) {
        sheet->width_mm = sheet->height_mm = 1;
        sheet->status = DS_BAD_INPUT;
    }
}

ds_status ds_sheet_status(const ds_sheet *const sheet)
{
    return sheet->status;
}

static bool on_paper(const double x, const double y)
{
    return fabs(x) <= FARTHEST_MM && fabs(y) <= FARTHEST_MM; /* false of what is no number */
}

/* The first failure stays. */
static bool hold(ds_sheet *const sheet, const bool sound, const ds_status otherwise)
{
    if (!sound && sheet->status == DS_OK) {
        sheet->status = otherwise;
    }
    return sheet->status == DS_OK;
}

void ds_sheet_heed(ds_sheet *const sheet, const ds_text *const made)
{
    hold(sheet, ds_text_ok(made), DS_NO_MEMORY);
}

/* Room for one more of `size` bytes; the old place is given up to the arena. NULL when memory is short. */
static void *grown(ds_sheet *const sheet, void *const old, size_t *const cap, const size_t len,
                   const size_t size)
{
    if (len < *cap) {
        return old;
    }
    const size_t more = *cap ? *cap * 2 : FIRST_ROOM;
    void *const at = ds_arena_take_many(sheet->arena, more, size);
    if (!hold(sheet, at != NULL, DS_NO_MEMORY)) {
        return NULL;
    }
    if (len) {
        memcpy(at, old, len * size);
    }
    *cap = more;
    return at;
}

static bool add_item(ds_sheet *const sheet, const ds_item *const item)
{
    if (sheet->status != DS_OK) {
        return false;
    }
    ds_item *const room =
        grown(sheet, sheet->item_room, &sheet->item_cap, sheet->item_len, sizeof *sheet->item_room);
    if (!room) {
        return false;
    }
    sheet->items = sheet->item_room = room;
    room[sheet->item_len++] = *item;
    return true;
}

static ds_str copied(ds_sheet *const sheet, const ds_str text)
{
    char *const at = ds_arena_take(sheet->arena, text.len);
    if (!hold(sheet, at != NULL, DS_NO_MEMORY)) {
        return DS_STR("");
    }
    if (text.len) {
        memcpy(at, text.at, text.len);
    }
    return (ds_str){at, text.len};
}

void ds_sheet_name(ds_sheet *const sheet, const ds_str id, const ds_str title, const ds_str description)
{
    sheet->id = copied(sheet, id);
    sheet->title = copied(sheet, title);
    sheet->description = copied(sheet, description);
}

/* --- paths -------------------------------------------------------------------------------------------------------- */

/* Where the pen is: the last step, NULL before the path's first move and after a close. */
static const ds_step *pen_at(const ds_sheet *const sheet)
{
    const ds_step *const last =
        sheet->step_len > sheet->path_start ? &sheet->steps[sheet->step_len - 1] : NULL;
    return last && last->kind != DS_STEP_CLOSE ? last : NULL;
}

static void add_step(ds_sheet *const sheet, const ds_step step)
{
    const bool started = step.kind == DS_STEP_MOVE || pen_at(sheet);
    const bool sound = started && on_paper(step.x, step.y) && on_paper(step.centre_x, step.centre_y);
    if (!hold(sheet, sound, DS_BAD_INPUT)) {
        return;
    }
    ds_step *const room =
        grown(sheet, sheet->step_room, &sheet->step_cap, sheet->step_len, sizeof *sheet->step_room);
    if (room) {
        sheet->steps = sheet->step_room = room;
        room[sheet->step_len++] = step;
    }
}

void ds_sheet_move(ds_sheet *const sheet, const double x, const double y)
{
    add_step(sheet, (ds_step){.kind = DS_STEP_MOVE, .x = x, .y = y});
}

void ds_sheet_line(ds_sheet *const sheet, const double x, const double y)
{
    add_step(sheet, (ds_step){.kind = DS_STEP_LINE, .x = x, .y = y});
}

/*
 * More than half a circle becomes two arcs, so that no painter has to ask which way round; ends that no paper tells
 * apart become a line, because noise in the last digit would decide between nothing and a whole circle.
 */
void ds_sheet_arc(ds_sheet *const sheet, const double x, const double y, const double centre_x,
                  const double centre_y, const bool clockwise)
{
    const ds_step *const pen = pen_at(sheet);
    const double from_x = pen ? pen->x - centre_x : 0;
    const double from_y = pen ? pen->y - centre_y : 0;
    const double to_x = x - centre_x;
    const double to_y = y - centre_y;
    if (fabs(from_x - to_x) < NEAREST_MM && fabs(from_y - to_y) < NEAREST_MM) {
        ds_sheet_line(sheet, x, y);
        return;
    }
    ds_step step = {.kind = DS_STEP_ARC, .clockwise = clockwise, .centre_x = centre_x, .centre_y = centre_y};
    const double turn = from_x * to_y - from_y * to_x; /* y runs down: positive is clockwise as seen */
    if (clockwise ? turn < 0 : turn > 0) {
        step.x = centre_x - from_x;
        step.y = centre_y - from_y;
        add_step(sheet, step);
    }
    step.x = x;
    step.y = y;
    add_step(sheet, step);
}

void ds_sheet_close(ds_sheet *const sheet)
{
    add_step(sheet, (ds_step){.kind = DS_STEP_CLOSE});
}

void ds_sheet_rect(ds_sheet *const sheet, const double x, const double y, const double width,
                   const double height)
{
    ds_sheet_move(sheet, x, y);
    ds_sheet_line(sheet, x + width, y);
    ds_sheet_line(sheet, x + width, y + height);
    ds_sheet_line(sheet, x, y + height);
    ds_sheet_close(sheet);
}

/* Two halves: an arc that ends where it begins would be none. */
void ds_sheet_circle(ds_sheet *const sheet, const double x, const double y, const double radius)
{
    ds_sheet_move(sheet, x + radius, y);
    ds_sheet_arc(sheet, x - radius, y, x, y, true);
    ds_sheet_arc(sheet, x + radius, y, x, y, true);
    ds_sheet_close(sheet);
}

void ds_sheet_draw(ds_sheet *const sheet, const ds_pen pen, const ds_fill fill)
{
    const ds_item item = {.kind = DS_ITEM_PATH,
                          .pen = pen,
                          .fill = fill,
                          .first_step = sheet->path_start,
                          .step_len = sheet->step_len - sheet->path_start};
    if (item.step_len && add_item(sheet, &item)) {
        sheet->path_start = sheet->step_len;
    }
}

void ds_sheet_stroke(ds_sheet *const sheet, const ds_pen pen, const double x1, const double y1,
                     const double x2, const double y2)
{
    ds_sheet_move(sheet, x1, y1);
    ds_sheet_line(sheet, x2, y2);
    ds_sheet_draw(sheet, pen, DS_FILL_NONE);
}

/* --- texts and groups --------------------------------------------------------------------------------------------- */

void ds_sheet_write(ds_sheet *const sheet, const double x, const double y, const ds_str text,
                    const ds_lettering how)
{
    const bool sound = on_paper(x, y) && on_paper(how.size_mm, how.turn_deg) && how.size_mm > 0;
    if (hold(sheet, sound, DS_BAD_INPUT) && text.len) {
        const ds_item item = {.kind = DS_ITEM_TEXT, .x = x, .y = y, .how = how, .text = copied(sheet, text)};
        add_item(sheet, &item);
    }
}

/* The bytes of a text that fit into a width, whole characters. */
static size_t fitting(const ds_str text, const double width_mm, const ds_lettering *const how)
{
    size_t fits = 0;
    for (size_t end = 1; end <= text.len; end++) {
        const bool whole = end == text.len || ((unsigned char)text.at[end] & 0xC0) != 0x80;
        if (whole && ds_lettering_width_mm((ds_str){text.at, end}, how) > width_mm) {
            return fits;
        }
        fits = whole ? end : fits;
    }
    return fits;
}

void ds_sheet_write_within(ds_sheet *const sheet, const double x, const double y, const double width_mm,
                           const ds_str text, ds_lettering how)
{
    static const char ELLIPSIS[] = "…";
    const double wanted = ds_lettering_width_mm(text, &how);
    if (wanted > width_mm) {
        const double smaller = how.size_mm * width_mm / wanted;
        const double least = how.size_mm < DS_TYPE_MM ? how.size_mm : DS_TYPE_MM;
        how.size_mm = smaller > least ? smaller : least;
    }
    const size_t fits = fitting(text, width_mm + 1e-6, &how);
    if (fits == text.len) {
        ds_sheet_write(sheet, x, y, text, how);
        return;
    }
    const size_t kept = fitting(text, width_mm - ds_lettering_width_mm(DS_STR(ELLIPSIS), &how), &how);
    char *const cut = ds_arena_take(sheet->arena, kept + sizeof ELLIPSIS);
    if (hold(sheet, cut != NULL, DS_NO_MEMORY)) {
        memcpy(cut, text.at, kept);
        memcpy(cut + kept, ELLIPSIS, sizeof ELLIPSIS);
        ds_sheet_write(sheet, x, y, (ds_str){cut, kept + sizeof ELLIPSIS - 1}, how);
    }
}

void ds_sheet_begin(ds_sheet *const sheet, const ds_role role, const ds_str id, const ds_str title)
{
    const ds_item item = {
        .kind = DS_ITEM_BEGIN, .role = role, .id = copied(sheet, id), .text = copied(sheet, title)};
    if (add_item(sheet, &item)) {
        sheet->depth++;
    }
}

void ds_sheet_end(ds_sheet *const sheet)
{
    const ds_item item = {.kind = DS_ITEM_END};
    if (sheet->depth && add_item(sheet, &item)) {
        sheet->depth--;
    }
}
