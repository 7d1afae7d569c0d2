/* SPDX-License-Identifier: MIT */
/*
 * Plans: one table of keys a kind of feature, so that a key which says nothing of a thing is reported as unknown.
 *
 * Ranges are those beyond which a figure is surely a slip: a room 1,000 m long is a millimetre value, a bath of 170 m one
 * in centimetres.
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
    double most_m, highest_m; /* longest side; highest rim, bottom or top: what is more is not in metres */
} KINDS[DS_FEATURE_KINDS] = {
    [DS_BATH] = {"bath", VESSEL, 10, 3},
    [DS_SHOWER_BASIN] = {"shower-basin", VESSEL, 10, 3},
    [DS_SHOWER_OUTLET] = {"shower-outlet", OUTLET, 0, 0},
    [DS_PARTITION] = {"partition", PARTITION, 100, 0},
    [DS_SOLID_WALL] = {"wall", SOLID, 300, 0},
    [DS_COLUMN] = {"column", PLAIN, 20, 0},
    [DS_OPENING] = {"opening", PASSAGE, 30, 0},
    [DS_DOOR] = {"door", PASSAGE, 30, 0},
    [DS_POOL] = {"pool", VESSEL, 300, 20},
    [DS_FOUNTAIN] = {"fountain", FOUNTAIN, 300, 20},
    [DS_BOARD] = {"board", STANDING, 10, 20},
    [DS_CHUTE] = {"chute", STANDING, 300, 50},
    [DS_STARTING_BLOCK] = {"starting-block", STANDING, 10, 5},
    [DS_PLATFORM] = {"platform", STANDING, 50, 20},
    [DS_SAUNA_HEATER] = {"sauna-heater", STANDING, 10, 5},
    [DS_WASHBASIN] = {"washbasin", PLAIN, 10, 0},
    [DS_WINDOW] = {"window", WINDOW, 100, 0},
    [DS_NICHE] = {"niche", NICHE, 30, 20},
    [DS_UNDER_BATH] = {"under-bath", UNDER, 0, 0},
    [DS_RAISED_FLOOR] = {"raised-floor", SOLID, 300, 0},
    [DS_SLOPE] = {"slope", SLOPE, 0, 0},
};

#define LONGEST_ROOM_M 300.0

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

bool ds_feature_is_wet(const ds_feature_kind kind)
{
    return kind == DS_BATH || kind == DS_SHOWER_BASIN || kind == DS_SHOWER_OUTLET ||
           kind == DS_SAUNA_HEATER || (kind >= DS_POOL && kind <= DS_PLATFORM);
}

/* --- features ----------------------------------------------------------------------------------------------------- */

static ds_plan_outline no_outline(void)
{
    return (ds_plan_outline){.centre_m = {NAN, NAN}, .radius_m = NAN};
}

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
        if (!ds_plan_place_read(reader, item, "three numbers [x, y, z]", f->slope_m[i++], 3)) {
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

/* DS_FEATURE_KINDS with a problem when it is none. */
static ds_feature_kind read_kind(ds_reader *const reader, const ds_json *const value)
{
    const ds_json *const at = ds_json_get(value, DS_STR("kind"));
    if (!at || at->kind != DS_JSON_STRING) {
        ds_reader_complain(reader, at ? at : value, at ? DS_P_WRONG_TYPE : DS_P_MISSING_KEY, DS_STR("kind"),
                           DS_STR("a text in quotes"));
        return DS_FEATURE_KINDS;
    }
    const ds_str word = ds_json_text(at);
    const ds_feature_kind kind = ds_feature_of(word);
    if (kind == DS_FEATURE_KINDS) {
        ds_reader_complain(reader, at, DS_P_UNKNOWN_WORD, word, suggest_kind(reader, word));
    }
    return kind;
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

/* What cannot hold water, or lets nothing in, since its lower end lies above its upper one. */
static void check_heights(ds_reader *const reader, const ds_feature *const f)
{
    const bool sunk = (f->kind == DS_POOL || f->kind == DS_FOUNTAIN) && isnan(f->rim_m);
    const struct {
        const char *low_key, *high_key;
        double low, high;
    } pairs[] = {{"bottom_m", "rim_m", f->bottom_m, f->rim_m},
                 {"bottom_m", "the floor, where its rim is", f->bottom_m, sunk ? 0 : NAN},
                 {"bottom_m", "top_m", f->bottom_m, f->top_m},
                 {"sill_m", "head_m", f->sill_m, f->head_m},
                 {"gap_m", "height_m", f->gap_m, f->height_m}};
    for (size_t i = 0; i < sizeof pairs / sizeof *pairs; i++) {
        if (pairs[i].low > pairs[i].high) {
            ds_reader_complain(reader, ds_json_get(f->at, ds_str_of(pairs[i].low_key)), DS_P_PLAN_UPSIDE_DOWN,
                               ds_str_of(pairs[i].low_key), ds_str_of(pairs[i].high_key));
        }
    }
    const double highest = KINDS[f->kind].highest_m > 0 ? KINDS[f->kind].highest_m : INFINITY;
    ds_plan_length_check(reader, f->at, fmax(fmax(f->rim_m, f->bottom_m), f->top_m), highest);
}

static void read_feature(ds_reader *const reader, const ds_json *const value, ds_feature *const out)
{
    *out = empty_feature(value);
    out->kind = read_kind(reader, value);
    if (out->kind == DS_FEATURE_KINDS) {
        return;
    }
    const double most_m = KINDS[out->kind].most_m;
    ds_fields_read(reader, value, KINDS[out->kind].table, out);
    if (out->kind == DS_SLOPE) {
        read_slope(reader, out);
    } else if (has_outline(KINDS[out->kind].table)) {
        ds_plan_outline_read(reader, value, most_m, &out->outline);
    } else if (!isnan(out->from_m[0])) {
        const double dx = out->to_m[0] - out->from_m[0];
        const double dy = out->to_m[1] - out->from_m[1];
        ds_plan_length_check(reader, value, sqrt(dx * dx + dy * dy), most_m);
    }
    check_heights(reader, out);
}

/* Where features are named, one name must be one thing. */
static void check_ids(ds_reader *const reader, const ds_plan *const plan)
{
    for (size_t i = 0; i < plan->features_len; i++) {
        const ds_feature *const f = &plan->features[i];
        size_t same = 0;
        while (same < i && !(f->id.at && ds_str_eq(plan->features[same].id, f->id))) {
            same++;
        }
        if (same < i) {
            ds_reader_complain(reader, f->at, DS_P_DUPLICATE_ID, f->id, DS_STR(""));
        }
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
    check_ids(reader, plan);
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
        ds_plan_outline_read(reader, plan->at, LONGEST_ROOM_M, &rooms[0]);
        plan->rooms_len = 1;
    }
    for (const ds_json *item = list ? list->first : NULL; item; item = item->next) {
        ds_plan_outline *const room = &rooms[plan->rooms_len++];
        *room = no_outline();
        if (item->kind == DS_JSON_OBJECT) {
            ds_fields_read(reader, item, ROOM, room);
            ds_plan_outline_read(reader, item, LONGEST_ROOM_M, room);
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
