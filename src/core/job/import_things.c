/* SPDX-License-Identifier: MIT */
/* Points and places with what changes in them; and faults. */
#include "core/job/import_parts.h"

/* --- shared ------------------------------------------------------------------------------------------------------- */

ds_str ds_importer_keep(ds_importer *const importer, const ds_str text)
{
    char *const at = ds_arena_take(importer->arena, text.len);
    if (!at) {
        importer->failed = true;
        return (ds_str){0};
    }
    if (text.len) {
        memcpy(at, text.at, text.len);
    }
    return (ds_str){at, text.len};
}

/* Enough of a cell to know it by. */
static ds_str clip(ds_importer *const importer, const ds_str text)
{
    enum { CLIP = 60 };
    static const char ELLIPSIS[] = "\xE2\x80\xA6";
    char clipped[CLIP + sizeof ELLIPSIS];
    size_t len = CLIP;
    if (text.len <= CLIP) {
        return text;
    }
    while (len && ((unsigned char)text.at[len] & 0xC0) == 0x80) {
        len--;
    }
    memcpy(clipped, text.at, len);
    memcpy(clipped + len, ELLIPSIS, sizeof ELLIPSIS - 1);
    return ds_importer_keep(importer, (ds_str){clipped, len + sizeof ELLIPSIS - 1});
}

void ds_importer_complain(ds_importer *const importer, const size_t column, const ds_problem_code code,
                          const ds_str a, const ds_str b)
{
    ds_import *const out = importer->out;
    out->faults_len++;
    if (out->faults.len == DS_IMPORT_FAULTS) {
        return;
    }
    const ds_problem problem = {.code = code,
                                .where = {.line = importer->csv.row, .column = (uint32_t)column},
                                .a = clip(importer, a),
                                .b = b};
    if (!ds_problems_add(&out->faults, importer->arena, &problem)) {
        importer->failed = true;
    }
}

ds_str ds_importer_number(ds_importer *const importer, const size_t number)
{
    ds_text text;
    ds_text_init(&text, importer->arena->alloc);
    ds_text_int(&text, (int64_t)number);
    const ds_str kept = ds_importer_keep(importer, ds_text_str(&text));
    ds_text_free(&text);
    return kept;
}

/* --- what is there ------------------------------------------------------------------------------------------------ */

const ds_json *ds_import_there(const ds_import_thing *const thing, const ds_import_key *const key)
{
    const ds_json *outer = ds_json_get(thing->at, key->outer);
    if (key->owner == DS_IMPORT_MARK) {
        outer = outer && outer->kind == DS_JSON_ARRAY ? outer->first : NULL;
    }
    return key->inner.len ? ds_json_get(outer, key->inner) : outer;
}

const ds_json *ds_import_part(const ds_json *const list, const int part)
{
    const ds_json *item = list && list->kind == DS_JSON_ARRAY && list->count == 3 ? list->first : NULL;
    for (int i = 0; item && i < part; i++) {
        item = item->next;
    }
    return item;
}

static bool says_already(const ds_import_thing *const thing, const ds_import_key *const key,
                         const ds_json *const value)
{
    const ds_json *const there = ds_import_there(thing, key);
    double number = 0;
    if (there) {
        const ds_json *const one = key->part < 0 ? there : ds_import_part(there, key->part);
        return one && ds_import_same(one, value);
    }
    /* One piece is what a point without a count has. */
    return thing->at && ds_str_is(key->name, "count") && ds_json_number(value, &number) && number == 1;
}

static bool has_figures(const ds_json *const seen)
{
    const ds_json *item = seen->kind == DS_JSON_ARRAY ? seen->first : NULL;
    while (item && item->kind == DS_JSON_STRING) {
        item = item->next;
    }
    return item != NULL;
}

/* What stands in the way of a value, or *form that it should have; false when nothing does. */
static bool is_in_the_way(const ds_json *const outer, const ds_import_key *const key,
                          ds_problem_code *const code, const char **const form)
{
    *code = DS_P_WRONG_TYPE;
    *form = "";
    if (key->owner == DS_IMPORT_MARK) {
        const bool list = outer->kind == DS_JSON_ARRAY;
        *form = "a list of marks";
        *code = list && outer->count > 1 ? DS_P_SEVERAL_MARKS : DS_P_WRONG_TYPE;
        return !list || outer->count > 1 || (outer->first && outer->first->kind != DS_JSON_OBJECT);
    }
    if (key->inner.len) {
        *form = "an object in braces";
        return outer->kind != DS_JSON_OBJECT;
    }
    *code = DS_P_SEEN_FIGURES;
    return ds_str_is(key->outer, "seen") && has_figures(outer);
}

/* --- edits -------------------------------------------------------------------------------------------------------- */

void ds_importer_edit(ds_importer *const importer, ds_import_thing *const thing,
                      const ds_import_key *const key, const ds_json *const value, const bool already)
{
    ds_import_edit *const edit = ds_arena_take(importer->arena, sizeof *edit);
    if (!edit || !value) {
        importer->failed = true;
        return;
    }
    *edit = (ds_import_edit){.key = key, .value = value, .row = importer->csv.row, .already = already};
    if (thing->last) {
        thing->last->next = edit;
    } else {
        thing->edits = edit;
    }
    thing->last = edit;
    thing->changes += !already;
}

/* Rows share their place: what one has said of it, another may only say again. True when it has been said. */
static bool was_said(ds_importer *const importer, const ds_import_thing *const thing,
                     const ds_import_key *const key, const ds_json *const value, const ds_str cell,
                     const size_t column)
{
    for (const ds_import_edit *edit = thing->edits; edit; edit = edit->next) {
        if (edit->key == key) {
            if (!ds_import_same(edit->value, value)) {
                ds_importer_complain(importer, column, DS_P_PLACE_DIFFERS, cell,
                                     ds_importer_number(importer, edit->row));
            }
            return true;
        }
    }
    return false;
}

void ds_importer_put(ds_importer *const importer, ds_import_thing *const thing,
                     const ds_import_key *const key, const ds_json *const value, const ds_str cell,
                     const size_t column)
{
    const bool of_place = key->owner == DS_IMPORT_PLACE;
    if (of_place && was_said(importer, thing, key, value, cell, column)) {
        return;
    }
    const bool already = says_already(thing, key, value);
    const ds_json *const outer = ds_json_get(thing->at, key->outer);
    ds_problem_code code;
    const char *form;
    if (!already && outer && is_in_the_way(outer, key, &code, &form)) {
        ds_importer_complain(importer, column, code, key->outer, ds_str_of(form));
    } else if (!already || of_place) {
        ds_importer_edit(importer, thing, key, value, already);
    }
}

static ds_import_thing *take_thing(ds_importer *const importer)
{
    ds_import_thing *const thing = ds_arena_take(importer->arena, sizeof *thing);
    importer->failed = importer->failed || !thing;
    return thing;
}

ds_import_thing *ds_importer_add_point(ds_importer *const importer)
{
    ds_import_thing *const point = take_thing(importer);
    if (!point) {
        return NULL;
    }
    if (importer->last_point) {
        importer->last_point->next = point;
    } else {
        importer->out->new_points = point;
    }
    importer->last_point = point;
    importer->out->points_added++;
    return point;
}

/* --- places ------------------------------------------------------------------------------------------------------- */

/* "Glaze room" -> "glaze-room": small letters and figures, letters beyond ASCII as they are, else one dash. */
static ds_str id_from(ds_importer *const importer, const ds_str name)
{
    char *const at = ds_arena_take(importer->arena, name.len + 1);
    size_t len = 0;
    for (size_t i = 0; at && i < name.len; i++) {
        const char c = name.at[i];
        const bool upper = c >= 'A' && c <= 'Z';
        if (upper || (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || (c & 0x80)) {
            at[len++] = (char)(upper ? c - 'A' + 'a' : c);
        } else if (len && at[len - 1] != '-') {
            at[len++] = '-';
        }
    }
    len -= len && at[len - 1] == '-';
    importer->failed = importer->failed || !at;
    return len ? (ds_str){at, len} : DS_STR("place");
}

ds_str ds_import_place_id(const ds_import_thing *const place)
{
    /* What is added has its id as the first edit. */
    return ds_json_text(place->at ? ds_json_get(place->at, DS_STR("id")) : place->edits->value);
}

/* An id of the job, of what is added, or what another row calls its place. */
static bool is_taken(const ds_importer *const importer, const ds_str id, const ds_str name)
{
    const bool named = ds_names_find(&importer->cells, id) != DS_NO_NAME && !ds_str_eq(id, name);
    bool taken = named || ds_names_find(&importer->places, id) != DS_NO_NAME;
    for (const ds_import_thing *each = importer->out->new_places; each && !taken; each = each->next) {
        taken = ds_str_eq(ds_import_place_id(each), id);
    }
    return taken;
}

/* Where two names give one id, the number of the new place goes behind it. */
static ds_str free_id(ds_importer *const importer, const ds_str name)
{
    const ds_str plain = id_from(importer, name);
    ds_str id = plain;
    for (size_t n = importer->out->places_added + 1; is_taken(importer, id, name) && !importer->failed; n++) {
        ds_text text;
        ds_text_init(&text, importer->arena->alloc);
        ds_text_adds(&text, plain);
        ds_text_char(&text, '-');
        ds_text_int(&text, (int64_t)n);
        id = ds_importer_keep(importer, ds_text_str(&text));
        ds_text_free(&text);
    }
    return id;
}

/* No column fills it. */
static const ds_import_key PLACE_ID = {
    .name = {"place.id", 8}, .outer = {"id", 2}, .owner = DS_IMPORT_PLACE, .part = -1};

static ds_import_thing *add_place(ds_importer *const importer, const ds_str name)
{
    ds_import_thing *const place = take_thing(importer);
    if (!place) {
        return NULL;
    }
    ds_importer_edit(importer, place, &PLACE_ID, ds_import_text(importer, free_id(importer, name)), false);
    ds_importer_edit(importer, place, importer->place_name, ds_import_text(importer, name), false);
    if (importer->failed) {
        return NULL;
    }
    if (importer->last_place) {
        importer->last_place->next = place;
    } else {
        importer->out->new_places = place;
    }
    importer->last_place = place;
    importer->out->places_added++;
    return place;
}

/* "; did you mean …", by id and by name. */
static ds_str suggest_place(ds_importer *const importer, const ds_str cell)
{
    enum { ASKED = 500 };
    ds_str known[ASKED];
    const ds_job *const job = importer->out->job;
    size_t len = 0;
    for (size_t i = 0; i < job->places_len && len + 2 <= ASKED; i++) {
        known[len++] = job->places[i].id;
        known[len++] = job->places[i].name;
    }
    return ds_suggest(importer->arena, cell, known, len);
}

static bool names_several(const ds_names *const names, const ds_str name)
{
    size_t count = 0;
    const size_t looked_at = ds_names_unique(names) ? 0 : names->len;
    for (size_t i = 0; i < looked_at; i++) {
        count += ds_str_eq(names->at[i].text, name);
    }
    return count > 1;
}

ds_import_thing *ds_importer_place(ds_importer *const importer, const ds_str cell, const size_t column)
{
    uint32_t index = ds_names_find(&importer->places, cell);
    if (index == DS_NO_NAME) {
        index = ds_names_find(&importer->place_names, cell);
        if (index != DS_NO_NAME && names_several(&importer->place_names, cell)) {
            ds_importer_complain(importer, column, DS_P_PLACE_NAMES_TWO, cell, DS_STR(""));
            return NULL;
        }
    }
    if (index != DS_NO_NAME) {
        return &importer->out->places[index];
    }
    if (!importer->add_places) {
        ds_importer_complain(importer, column, DS_P_NEW_PLACE, cell, suggest_place(importer, cell));
        return NULL;
    }
    if (importer->out->places_added == DS_IMPORT_PLACES) {
        ds_importer_complain(importer, column, DS_P_PLACES_MOST, DS_STR("10000"), DS_STR(""));
        return NULL;
    }
    return add_place(importer, cell);
}
