/* SPDX-License-Identifier: MIT */
/*
 * The job document: the tables of its keys, and the walk over places and points.
 *
 * Ranges are those beyond which a figure is surely a slip (a height of 2,100 m is a millimetre value), not limits of
 * the trade.
 */
#include "core/job/job.h"

#include "core/job/box.h"
#include "core/job/fields.h"
#include "core/job/link.h"
#include "core/job/plan_reader.h"
#include "core/job/table.h"

#include <math.h>

static const char *const INFLUENCE_NAMES[DS_INFLUENCES] = {"AA", "AB", "AC", "AD", "AE", "AF", "AG", "AH",
                                                           "AK", "AL", "AM", "AN", "AP", "AQ", "AR", "AS",
                                                           "BA", "BB", "BC", "BD", "BE", "CA", "CB"};

ds_str ds_influence_name(const ds_influence which)
{
    return ds_str_of(INFLUENCE_NAMES[which]);
}

ds_influence ds_influence_of(const ds_str name)
{
    for (int i = 0; i < DS_INFLUENCES; i++) {
        if (ds_str_is(name, INFLUENCE_NAMES[i])) {
            return (ds_influence)i;
        }
    }
    return DS_INFLUENCES;
}

/* --- tables ------------------------------------------------------------------------------------------------------- */

static const ds_field ASKED[] = {
    TEXT(ds_asked, "ip", ip),
    TEXT(ds_asked, "ik", ik),
    TEXT(ds_asked, "material", material),
    TEXT(ds_asked, "by", by),
    NUMBER(ds_asked, "impact_j", impact_j, 0, 1000),
    WORDS(ds_asked, "suitable_for", suitable_for),
    {0},
};

#define INFLUENCE(name)                                                                                      \
    {                                                                                                        \
        .key = #name, .kind = DS_FIELD_COUNT, .offset = DS_##name * sizeof(double), .low = 1, .high = 9      \
    }

/* Read into ds_survey.influences; the number of classes differs by letter, 9 is beyond all. */
static const ds_field INFLUENCES[] = {
    INFLUENCE(AA), INFLUENCE(AB), INFLUENCE(AC), INFLUENCE(AD), INFLUENCE(AE), INFLUENCE(AF),
    INFLUENCE(AG), INFLUENCE(AH), INFLUENCE(AK), INFLUENCE(AL), INFLUENCE(AM), INFLUENCE(AN),
    INFLUENCE(AP), INFLUENCE(AQ), INFLUENCE(AR), INFLUENCE(AS), INFLUENCE(BA), INFLUENCE(BB),
    INFLUENCE(BC), INFLUENCE(BD), INFLUENCE(BE), INFLUENCE(CA), INFLUENCE(CB), {0},
};

static const ds_field SUPPLY[] = {
    NUMBER(ds_supply, "volts", volts, 1, 100000),
    NUMBER(ds_supply, "rcd_ma", rcd_ma, 5, 30000),
    TEXT(ds_supply, "current", current),
    TEXT(ds_supply, "source_place", source_place),
    TRI(ds_supply, "selv", selv),
    {0},
};

static const ds_field MAKER[] = {
    RANGE(ds_maker, "ambient_c", ambient_low_c, -80, 400),
    TRI(ds_maker, "surface_d", surface_d),
    WORDS(ds_maker, "zones", zones),
    WORDS(ds_maker, "materials", materials),
    WORDS(ds_maker, "suitable_for", suitable_for),
    WORDS(ds_maker, "mounting", mounting),
    {0},
};

static const ds_field FOUND[] = {
    TEXT(ds_found, "date", date),          TEXT(ds_found, "by", by),
    TEXT(ds_found, "photo", photo),        WORDS(ds_found, "words", words),
    WORDS(ds_found, "evidence", evidence), {0},
};

static const ds_field MARKED[] = {
    TEXT(ds_marked, "ip", ip),
    TEXT(ds_marked, "ik", ik),
    WORDS(ds_marked, "when", when),
    {0},
};

#define SURVEY(type)                                                                                         \
    TREE(type, "seen", survey.seen), WORDS(type, "absent", survey.absent),                                   \
        OBJECT(type, "influences", survey.influences, INFLUENCES),                                           \
        OBJECT(type, "asked", survey.asked, ASKED)

/* A place with what is read aside. */
typedef struct place_trees {
    ds_place place;
    const ds_json *plan;
} place_trees;

static const ds_field PLACE[] = {
    ID(ds_place, "id", id),
    TEXT(ds_place, "name", name),
    ID(ds_place, "kind", kind),
    ID(ds_place, "setting", setting),
    SURVEY(ds_place),
    TREE(place_trees, "plan", plan),
    {0},
};

/* A point with what is read aside. */
typedef struct point_trees {
    ds_point point;
    const ds_json *box;
} point_trees;

static const ds_field POINT[] = {
    ID(ds_point, "id", id),
    ID(ds_point, "place", place_id),
    TEXT(ds_point, "name", name),
    ID(ds_point, "kind", kind),
    COUNT(ds_point, "count", count, 1, 100000),
    POINT3(ds_point, "at_m", at_m, -1000, 1000),
    POINT3(ds_point, "size_m", size_m, 0, 100),
    NUMBER(ds_point, "tolerance_m", tolerance_m, 0, 10),
    TRI(ds_point, "about", about),
    TEXT(ds_point, "zone_stated", zone_stated),
    NUMBER(ds_point, "height_m", height_m, -50, 100),
    NUMBER(ds_point, "zone1_distance_m", zone1_distance_m, 0, 100),
    NUMBER(ds_point, "zone0_distance_m", zone0_distance_m, 0, 100),
    SURVEY(ds_point),
    OBJECT(ds_point, "supply", supply, SUPPLY),
    TEXT(ds_point, "product_standard", product_standard),
    WORDS(ds_point, "measures", measures),
    TREE(ds_point, "marked", marked_tree),
    OBJECT(ds_point, "maker", maker, MAKER),
    TREE(ds_point, "states", states),
    OBJECT(ds_point, "found", found, FOUND),
    TREE(point_trees, "box", box),
    {0},
};

typedef struct head {
    ds_str title, date;
    double version;
    const ds_json *rules, *places, *points;
} head;

static const ds_field HEAD[] = {
    {.key = "dripstone",
     .kind = DS_FIELD_COUNT,
     .offset = AT(head, version),
     .low = 1,
     .high = 1,
     .required = true},
    TEXT(head, "title", title),
    TEXT(head, "date", date),
    WORDS(head, "rules", rules),
    TREE(head, "places", places),
    TREE(head, "points", points),
    {0},
};

const ds_field *ds_point_fields(void)
{
    return POINT;
}

const ds_field *ds_place_fields(void)
{
    return PLACE;
}

const ds_field *ds_marked_fields(void)
{
    return MARKED;
}

/* --- reading ------------------------------------------------------------------------------------------------------ */

static const ds_asked NO_ASKED = {.impact_j = NAN};

static ds_survey empty_survey(void)
{
    ds_survey survey = {.asked = NO_ASKED};
    for (int i = 0; i < DS_INFLUENCES; i++) {
        survey.influences[i] = NAN;
    }
    return survey;
}

static bool is_object(const ds_json *const value)
{
    return value && value->kind == DS_JSON_OBJECT;
}

static void note_asked(ds_survey *const survey, const ds_json *const owner)
{
    const ds_json *const asked = ds_json_get(owner, DS_STR("asked"));
    survey->asked.at = is_object(asked) ? asked : NULL;
}

/* "seen" is the text "none", or a list of words and of objects with a "word". */
static void check_seen(ds_reader *const reader, ds_survey *const survey)
{
    const ds_json *const seen = survey->seen;
    if (!seen || (seen->kind == DS_JSON_STRING && ds_str_is(ds_json_text(seen), "none"))) {
        return;
    }
    bool good = seen->kind == DS_JSON_ARRAY;
    for (const ds_json *item = good ? seen->first : NULL; item && good; item = item->next) {
        const ds_json *const word = item->kind == DS_JSON_OBJECT ? ds_json_get(item, DS_STR("word")) : item;
        good = word && word->kind == DS_JSON_STRING;
    }
    if (!good) {
        ds_reader_complain(reader, seen, DS_P_WRONG_TYPE, DS_STR("seen"),
                           DS_STR("\"none\" or a list of words"));
        survey->seen = NULL;
    }
}

static void read_place(ds_reader *const reader, const ds_json *const value, ds_place *const place)
{
    place_trees trees = {.place = {.at = value, .survey = empty_survey(), .problem = -1}};
    reader->owner = &trees.place.problem;
    ds_fields_read(reader, value, PLACE, &trees);
    trees.place.plan = trees.plan ? ds_plan_read(reader, trees.plan) : NULL;
    *place = trees.place;
    reader->owner = &place->problem;
    note_asked(&place->survey, value);
    check_seen(reader, &place->survey);
}

static void read_marked(ds_reader *const reader, ds_point *const point)
{
    const ds_json *const list = point->marked_tree;
    if (!list) {
        return;
    }
    ds_marked *const marked =
        list->kind == DS_JSON_ARRAY ? ds_arena_take_many(reader->arena, list->count, sizeof *marked) : NULL;
    if (!marked) {
        ds_reader_complain(reader, list, DS_P_WRONG_TYPE, DS_STR("marked"), DS_STR("a list of marks"));
        return;
    }
    size_t len = 0;
    for (const ds_json *item = list->first; item; item = item->next) {
        if (item->kind == DS_JSON_OBJECT) {
            marked[len] = (ds_marked){.at = item};
            ds_fields_read(reader, item, MARKED, &marked[len++]);
        } else {
            ds_reader_complain(reader, item, DS_P_WRONG_TYPE, DS_STR("marked"), DS_STR("a list of objects"));
        }
    }
    point->marked = marked;
    point->marked_len = len;
}

/* "states" is a list of lists of condition words. */
static void check_states(ds_reader *const reader, ds_point *const point)
{
    const ds_json *const states = point->states;
    bool good = !states || states->kind == DS_JSON_ARRAY;
    for (const ds_json *state = states && good ? states->first : NULL; state && good; state = state->next) {
        good = state->kind == DS_JSON_ARRAY;
        for (const ds_json *word = good ? state->first : NULL; word && good; word = word->next) {
            good = word->kind == DS_JSON_STRING;
        }
    }
    if (!good) {
        ds_reader_complain(reader, states, DS_P_WRONG_TYPE, DS_STR("states"),
                           DS_STR("a list of lists of words"));
        point->states = NULL;
    }
}

/* The wrong way round they would allow nothing, or all. */
static void check_ambient(ds_reader *const reader, ds_point *const point)
{
    ds_maker *const maker = &point->maker;
    if (maker->ambient_low_c > maker->ambient_high_c) {
        const ds_json *const range =
            ds_json_get(ds_json_get(point->at, DS_STR("maker")), DS_STR("ambient_c"));
        ds_reader_complain(reader, range, DS_P_WRONG_ORDER, ds_json_text(range->first),
                           ds_json_text(range->first->next));
        maker->ambient_low_c = NAN;
        maker->ambient_high_c = NAN;
    }
}

static ds_point empty_point(const ds_json *const value)
{
    return (ds_point){.at = value,
                      .place = -1,
                      .count = 1,
                      .height_m = NAN,
                      .zone1_distance_m = NAN,
                      .zone0_distance_m = NAN,
                      .at_m = {NAN, NAN, NAN},
                      .size_m = {NAN, NAN, NAN},
                      .tolerance_m = NAN,
                      .survey = empty_survey(),
                      .supply = {.volts = NAN, .rcd_ma = NAN},
                      .maker = {.ambient_low_c = NAN, .ambient_high_c = NAN},
                      .problem = -1};
}

static void read_point(ds_reader *const reader, const ds_json *const value, ds_point *const point)
{
    point_trees trees = {.point = empty_point(value)};
    reader->owner = &trees.point.problem;
    ds_fields_read(reader, value, POINT, &trees);
    trees.point.box = ds_box_read(reader, trees.box);
    *point = trees.point;
    reader->owner = &point->problem;
    note_asked(&point->survey, value);
    check_seen(reader, &point->survey);
    read_marked(reader, point);
    check_ambient(reader, point);
    check_states(reader, point);
}

/* The elements of a list that are objects; others are problems of the job. NULL when there are none. */
static size_t count_objects(ds_reader *const reader, const ds_json *const list, const char *const name)
{
    if (!list) {
        return 0;
    }
    if (list->kind != DS_JSON_ARRAY) {
        ds_reader_complain(reader, list, DS_P_WRONG_TYPE, ds_str_of(name), DS_STR("a list"));
        return 0;
    }
    size_t count = 0;
    for (const ds_json *item = list->first; item; item = item->next) {
        if (is_object(item)) {
            count++;
        } else {
            ds_reader_complain(reader, item, DS_P_WRONG_TYPE, ds_str_of(name), DS_STR("a list of objects"));
        }
    }
    return count;
}

static void read_places(ds_reader *const reader, const ds_json *const list)
{
    ds_job *const job = reader->job;
    job->places_len = count_objects(reader, list, "places");
    job->places = ds_arena_take_many(reader->arena, job->places_len, sizeof *job->places);
    if (!job->places) {
        reader->failed = true;
        return;
    }
    size_t i = 0;
    for (const ds_json *item = job->places_len ? list->first : NULL; item; item = item->next) {
        if (is_object(item)) {
            read_place(reader, item, &job->places[i++]);
        }
    }
    reader->owner = NULL;
}

static void read_points(ds_reader *const reader, const ds_json *const list)
{
    ds_job *const job = reader->job;
    job->points_len = count_objects(reader, list, "points");
    job->points = ds_arena_take_many(reader->arena, job->points_len, sizeof *job->points);
    if (!job->points) {
        reader->failed = true;
        return;
    }
    size_t i = 0;
    for (const ds_json *item = job->points_len ? list->first : NULL; item; item = item->next) {
        if (is_object(item)) {
            read_point(reader, item, &job->points[i++]);
        }
    }
    reader->owner = NULL;
}

static ds_status read_tree(ds_job *const out, ds_arena *const arena, ds_problem *const problem)
{
    ds_json *tree = NULL;
    const ds_status status = ds_json_read(&tree, out->source, arena, &DS_JSON_LIMITS, problem);
    if (status != DS_OK) {
        return status;
    }
    double version = 0;
    if (tree->kind != DS_JSON_OBJECT || !ds_json_number(ds_json_get(tree, DS_STR("dripstone")), &version) ||
        version != 1) {
        *problem = (ds_problem){.code = DS_P_NOT_A_JOB, .where = ds_json_where(tree, out->source, arena)};
        return DS_BAD_INPUT;
    }
    out->tree = tree;
    return DS_OK;
}

ds_status ds_job_read(ds_job *const out, const ds_str source, ds_arena *const arena,
                      ds_problem *const problem)
{
    *out = (ds_job){.source = source};
    const ds_status status = read_tree(out, arena, problem);
    if (status != DS_OK) {
        return status;
    }
    ds_reader reader = {.job = out, .arena = arena};
    head top = {0};
    ds_fields_read(&reader, out->tree, HEAD, &top);
    out->title = top.title;
    out->date = top.date;
    out->rules = top.rules;
    read_places(&reader, top.places);
    read_points(&reader, top.points);
    if (!reader.failed) {
        reader.failed = !ds_job_link(out, arena);
    }
    return reader.failed ? DS_NO_MEMORY : DS_OK;
}
