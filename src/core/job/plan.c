/* SPDX-License-Identifier: MIT */
/*
 * Plans: one table of keys a kind of feature, so that a key which says nothing of a thing is reported as unknown.
 *
 * Ranges are those beyond which a figure is surely a slip: a room 1,000 m long is a millimetre value.
 */
#include "core/job/plan_reader.h"
#include "core/job/table.h"

#include <math.h>

#define PLACE2(type, key, member) ROW_WITHIN(key, DS_FIELD_PLACE, AT(type, member), -1000, 1000)
#define NEEDED2(type, key_text, member)                                                                      \
    {                                                                                                        \
        .key = (key_text), .kind = DS_FIELD_PLACE, .offset = AT(type, member), .low = -1000, .high = 1000,   \
        .required = true                                                                                     \
    }
#define LEVEL(key, member) NUMBER(ds_feature, key, member, -50, 100)
#define COMMON TEXT(ds_feature, "kind", word), TEXT(ds_feature, "id", id), TEXT(ds_feature, "name", name)

/* outline_m is read aside: it is a list of corners. */
#define OUTLINE                                                                                              \
    TREE(ds_feature, "outline_m", outline.at), PLACE2(ds_feature, "centre_m", outline.centre_m),             \
        NUMBER(ds_feature, "radius_m", outline.radius_m, 0.001, 500)
#define LINE NEEDED2(ds_feature, "from_m", from_m), NEEDED2(ds_feature, "to_m", to_m)

static const ds_field VESSEL[] = {COMMON, OUTLINE, LEVEL("rim_m", rim_m), LEVEL("bottom_m", bottom_m), {0}};
static const ds_field FOUNTAIN[] = {
    COMMON, OUTLINE, LEVEL("rim_m", rim_m), LEVEL("bottom_m", bottom_m), TRI(ds_feature, "entered", entered),
    {0}};
static const ds_field OUTLET[] = {COMMON,
                                  NEEDED2(ds_feature, "at_m", at_m),
                                  LEVEL("height_m", height_m),
                                  TRI(ds_feature, "basin", basin),
                                  {0}};
static const ds_field PARTITION[] = {COMMON,
                                     LINE,
                                     LEVEL("height_m", height_m),
                                     NUMBER(ds_feature, "thickness_m", thickness_m, 0, 5),
                                     NUMBER(ds_feature, "gap_m", gap_m, 0, 10),
                                     TRI(ds_feature, "fixed", fixed),
                                     {0}};
static const ds_field SOLID[] = {COMMON, OUTLINE, LEVEL("height_m", height_m), {0}};
static const ds_field PASSAGE[] = {COMMON, LINE, LEVEL("height_m", height_m), {0}};
static const ds_field STANDING[] = {COMMON, OUTLINE, LEVEL("top_m", top_m), {0}};
static const ds_field PLAIN[] = {COMMON, OUTLINE, {0}};
static const ds_field WINDOW[] = {COMMON,
                                  LINE,
                                  LEVEL("sill_m", sill_m),
                                  LEVEL("head_m", head_m),
                                  NUMBER(ds_feature, "recess_m", recess_m, 0, 5),
                                  {0}};
static const ds_field NICHE[] = {COMMON, OUTLINE, LEVEL("bottom_m", bottom_m), LEVEL("top_m", top_m), {0}};
static const ds_field UNDER[] = {COMMON, TEXT(ds_feature, "of", of), TRI(ds_feature, "tool", tool), {0}};
static const ds_field SLOPE[] = {COMMON, TREE(ds_feature, "through_m", outline.at), {0}};

static const struct {
    const char *word;
    const ds_field *table;
} KINDS[DS_FEATURE_KINDS] = {
    [DS_BATH] = {"bath", VESSEL},
    [DS_SHOWER_BASIN] = {"shower-basin", VESSEL},
    [DS_SHOWER_OUTLET] = {"shower-outlet", OUTLET},
    [DS_PARTITION] = {"partition", PARTITION},
    [DS_SOLID_WALL] = {"wall", SOLID},
    [DS_COLUMN] = {"column", PLAIN},
    [DS_OPENING] = {"opening", PASSAGE},
    [DS_DOOR] = {"door", PASSAGE},
    [DS_POOL] = {"pool", VESSEL},
    [DS_FOUNTAIN] = {"fountain", FOUNTAIN},
    [DS_BOARD] = {"board", STANDING},
    [DS_CHUTE] = {"chute", STANDING},
    [DS_STARTING_BLOCK] = {"starting-block", STANDING},
    [DS_PLATFORM] = {"platform", STANDING},
    [DS_SAUNA_HEATER] = {"sauna-heater", STANDING},
    [DS_WASHBASIN] = {"washbasin", PLAIN},
    [DS_WINDOW] = {"window", WINDOW},
    [DS_NICHE] = {"niche", NICHE},
    [DS_UNDER_BATH] = {"under-bath", UNDER},
    [DS_RAISED_FLOOR] = {"raised-floor", SOLID},
    [DS_SLOPE] = {"slope", SLOPE},
};

const char *ds_feature_word(const ds_feature_kind kind)
{
    return KINDS[kind].word;
}

ds_feature_kind ds_feature_of(const ds_str word)
{
    int kind = 0;
    while (kind < DS_FEATURE_KINDS && !ds_str_is(word, KINDS[kind].word)) {
        kind++;
    }
    return (ds_feature_kind)kind;
}

/* --- outlines ----------------------------------------------------------------------------------------------------- */

static bool read_place(ds_reader *const reader, const ds_json *const value, const char *const form,
                       double *const out, const uint32_t count)
{
    uint32_t i = 0;
    const ds_json *item =
        value && value->kind == DS_JSON_ARRAY && value->count == count ? value->first : NULL;
    for (; item; item = item->next) {
        if (!ds_json_number(item, &out[i++])) {
            break;
        }
        if (fabs(out[i - 1]) > 1000) {
            ds_reader_complain(reader, item, DS_P_OUT_OF_RANGE, ds_json_text(item), DS_STR("-1000 to 1000"));
            return false;
        }
        if (i == count) {
            return true;
        }
    }
    ds_reader_complain(reader, value, DS_P_WRONG_TYPE, DS_STR("a corner"), ds_str_of(form));
    return false;
}

/* [x, y], or {"to_m": [x, y], "through_m": [x, y]}. */
static bool read_corner(ds_reader *const reader, const ds_json *const value, ds_plan_corner *const out)
{
    *out = (ds_plan_corner){.through_x = NAN, .through_y = NAN};
    double to[2] = {0};
    double through[2] = {NAN, NAN};
    const bool is_arc = value->kind == DS_JSON_OBJECT;
    const ds_json *const end = is_arc ? ds_json_get(value, DS_STR("to_m")) : value;
    if (!read_place(reader, end ? end : value, "two numbers [x, y], or an arc with to_m and through_m", to,
                    2)) {
        return false;
    }
    const ds_json *const middle = is_arc ? ds_json_get(value, DS_STR("through_m")) : NULL;
    if (is_arc &&
        !read_place(reader, middle ? middle : value, "through_m with two numbers [x, y]", through, 2)) {
        return false;
    }
    *out = (ds_plan_corner){to[0], to[1], through[0], through[1]};
    return true;
}

static void read_corners(ds_reader *const reader, ds_plan_outline *const out)
{
    const ds_json *const list = out->at;
    if (list->kind != DS_JSON_ARRAY || list->count > DS_PLAN_CORNERS) {
        ds_reader_complain(reader, list, DS_P_WRONG_TYPE, DS_STR("outline_m"),
                           DS_STR("a list of at most 500 corners"));
        return;
    }
    ds_plan_corner *const corners = ds_arena_take_many(reader->arena, list->count, sizeof *corners);
    if (!corners) {
        reader->failed = true;
        return;
    }
    for (const ds_json *item = list->first; item; item = item->next) {
        if (!read_corner(reader, item, &corners[out->len])) {
            return;
        }
        out->len++;
    }
    out->corners = corners;
}

static ds_plan_outline no_outline(void)
{
    return (ds_plan_outline){.centre_m = {NAN, NAN}, .radius_m = NAN};
}

/* Corners or a circle, one of them. */
static void finish_outline(ds_reader *const reader, const ds_json *const owner, ds_plan_outline *const out)
{
    const bool round = !isnan(out->radius_m) && !isnan(out->centre_m[0]);
    if ((out->at != NULL) == round) {
        ds_reader_complain(reader, owner, DS_P_MISSING_KEY, DS_STR("outline_m"), DS_STR(""));
    } else if (out->at) {
        read_corners(reader, out);
    } else {
        out->at = owner;
    }
}

/* --- features ----------------------------------------------------------------------------------------------------- */

static ds_feature empty_feature(const ds_json *const value)
{
    ds_feature f = {.at = value,
                    .outline = no_outline(),
                    .at_m = {NAN, NAN},
                    .from_m = {NAN, NAN},
                    .to_m = {NAN, NAN},
                    .height_m = NAN,
                    .thickness_m = NAN,
                    .gap_m = NAN,
                    .rim_m = NAN,
                    .bottom_m = NAN,
                    .top_m = NAN,
                    .sill_m = NAN,
                    .head_m = NAN,
                    .recess_m = NAN};
    return f;
}

static void read_slope(ds_reader *const reader, ds_feature *const f)
{
    const ds_json *const list = f->outline.at;
    uint32_t i = 0;
    const bool good = list && list->kind == DS_JSON_ARRAY && list->count == 3;
    for (const ds_json *item = good ? list->first : NULL; item; item = item->next) {
        if (!read_place(reader, item, "three numbers [x, y, z]", f->slope_m[i++], 3)) {
            return;
        }
    }
    if (!good) {
        ds_reader_complain(reader, list ? list : f->at, DS_P_WRONG_TYPE, DS_STR("through_m"),
                           DS_STR("three places [x, y, z]"));
    }
}

static ds_str suggest_kind(ds_reader *const reader, const ds_str word)
{
    ds_str words[DS_FEATURE_KINDS];
    for (size_t i = 0; i < DS_FEATURE_KINDS; i++) {
        words[i] = ds_str_of(KINDS[i].word);
    }
    return ds_suggest(reader->arena, word, words, DS_FEATURE_KINDS);
}

static bool has_outline(const ds_field *table)
{
    for (; table->key; table++) {
        if (ds_str_is(DS_STR("outline_m"), table->key)) {
            return true;
        }
    }
    return false;
}

static void read_feature(ds_reader *const reader, const ds_json *const value, ds_feature *const out)
{
    *out = empty_feature(value);
    const ds_json *const kind = ds_json_get(value, DS_STR("kind"));
    const ds_str word = kind && kind->kind == DS_JSON_STRING ? ds_json_text(kind) : DS_STR("");
    out->kind = ds_feature_of(word);
    if (out->kind == DS_FEATURE_KINDS) {
        ds_reader_complain(reader, kind ? kind : value, DS_P_UNKNOWN_WORD, word, suggest_kind(reader, word));
        return;
    }
    ds_fields_read(reader, value, KINDS[out->kind].table, out);
    if (out->kind == DS_SLOPE) {
        read_slope(reader, out);
    } else if (has_outline(KINDS[out->kind].table)) {
        finish_outline(reader, value, &out->outline);
    }
}

static void read_features(ds_reader *const reader, const ds_json *const list, ds_plan *const plan)
{
    if (!list) {
        return;
    }
    if (list->kind != DS_JSON_ARRAY || list->count > DS_PLAN_FEATURES) {
        ds_reader_complain(reader, list, DS_P_WRONG_TYPE, DS_STR("features"),
                           DS_STR("a list of at most 200 features"));
        return;
    }
    ds_feature *const features = ds_arena_take_many(reader->arena, list->count, sizeof *features);
    if (!features) {
        reader->failed = true;
        return;
    }
    size_t len = 0;
    for (const ds_json *item = list->first; item; item = item->next) {
        if (item->kind == DS_JSON_OBJECT) {
            read_feature(reader, item, &features[len++]);
        } else {
            ds_reader_complain(reader, item, DS_P_WRONG_TYPE, DS_STR("features"),
                               DS_STR("a list of objects"));
        }
    }
    plan->features = features;
    plan->features_len = len;
}

/* --- the plan ----------------------------------------------------------------------------------------------------- */

typedef struct top {
    ds_plan plan;
    ds_plan_outline outline;
    const ds_json *rooms, *features;
} top;

static const ds_field PLAN[] = {TREE(top, "outline_m", outline.at),
                                TREE(top, "rooms", rooms),
                                NUMBER(top, "height_m", plan.height_m, 0.1, 200),
                                NUMBER(top, "north_deg", plan.north_deg, -360, 360),
                                TREE(top, "features", features),
                                {0}};
static const ds_field ROOM[] = {TREE(ds_plan_outline, "outline_m", at),
                                PLACE2(ds_plan_outline, "centre_m", centre_m),
                                NUMBER(ds_plan_outline, "radius_m", radius_m, 0.001, 500),
                                {0}};

static void read_rooms(ds_reader *const reader, const top *const t, ds_plan *const plan)
{
    const ds_json *const list = t->rooms;
    if ((t->outline.at != NULL) == (list != NULL)) {
        ds_reader_complain(reader, plan->at, DS_P_MISSING_KEY, DS_STR("outline_m"), DS_STR(""));
        return;
    }
    if (list && (list->kind != DS_JSON_ARRAY || list->count > DS_PLAN_FEATURES)) {
        ds_reader_complain(reader, list, DS_P_WRONG_TYPE, DS_STR("rooms"),
                           DS_STR("a list of at most 200 rooms"));
        return;
    }
    ds_plan_outline *const rooms = ds_arena_take_many(reader->arena, list ? list->count : 1, sizeof *rooms);
    if (!rooms) {
        reader->failed = true;
        return;
    }
    if (!list) {
        rooms[0] = t->outline;
        finish_outline(reader, plan->at, &rooms[0]);
        plan->rooms_len = 1;
    }
    for (const ds_json *item = list ? list->first : NULL; item; item = item->next) {
        ds_plan_outline *const room = &rooms[plan->rooms_len++];
        *room = no_outline();
        if (item->kind == DS_JSON_OBJECT) {
            ds_fields_read(reader, item, ROOM, room);
            finish_outline(reader, item, room);
        } else {
            ds_reader_complain(reader, item, DS_P_WRONG_TYPE, DS_STR("rooms"), DS_STR("a list of objects"));
        }
    }
    plan->rooms = rooms;
}

const ds_plan *ds_plan_read(ds_reader *const reader, const ds_json *const value)
{
    ds_plan *const plan = ds_arena_take(reader->arena, sizeof *plan);
    if (!plan) {
        reader->failed = true;
        return NULL;
    }
    const size_t before = reader->job->problems.len + reader->job->problems_unlisted;
    top t = {.plan = {.height_m = NAN, .north_deg = NAN}, .outline = no_outline()};
    if (value->kind == DS_JSON_OBJECT) {
        ds_fields_read(reader, value, PLAN, &t);
        t.plan.at = value;
        read_rooms(reader, &t, &t.plan);
        read_features(reader, t.features, &t.plan);
    } else {
        ds_reader_complain(reader, value, DS_P_WRONG_TYPE, DS_STR("plan"), DS_STR("an object in braces"));
    }
    *plan = t.plan;
    plan->broken = reader->job->problems.len + reader->job->problems_unlisted != before;
    return plan;
}
