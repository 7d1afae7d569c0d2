/* SPDX-License-Identifier: MIT */
/*
 * The changed document, written through the one writer: what nothing changes is put out as it was read, unknown keys and
 * the text of numbers included. And the mapping and the result as JSON.
 */
#include "core/job/import_parts.h"

#include "core/json/write.h"

/* --- the document ------------------------------------------------------------------------------------------------- */

/* The edits from `edit` on that fill an outer key; NULL: none. */
static const ds_import_edit *of_outer(const ds_import_edit *edit, const ds_str outer)
{
    while (edit && (edit->already || !ds_str_eq(edit->key->outer, outer))) {
        edit = edit->next;
    }
    return edit;
}

static const ds_import_edit *of_inner(const ds_import_edit *edit, const ds_str outer, const ds_str inner)
{
    for (edit = of_outer(edit, outer); edit; edit = of_outer(edit->next, outer)) {
        if (ds_str_eq(edit->key->inner, inner)) {
            break;
        }
    }
    return edit;
}

/* An object inside a point or place; object NULL: it is new. edits: from the first that fills it on. */
static void put_inner(ds_json_writer *const w, const ds_json *const object, const ds_import_edit *const edits)
{
    const ds_str outer = edits->key->outer;
    ds_json_begin_object(w);
    for (const ds_json *member = object ? object->first : NULL; member; member = member->next) {
        const ds_import_edit *const edit = of_inner(edits, outer, ds_json_key(member));
        ds_json_put_key_str(w, ds_json_key(member));
        ds_json_put_tree(w, edit ? edit->value : member);
    }
    for (const ds_import_edit *edit = edits; edit; edit = of_outer(edit->next, outer)) {
        if (!ds_json_get(object, edit->key->inner)) {
            ds_json_put_key_str(w, edit->key->inner);
            ds_json_put_tree(w, edit->value);
        }
    }
    ds_json_end_object(w);
}

/* One key of a point or place; member NULL: it is new. */
static void put_outer(ds_json_writer *const w, const ds_json *const member, const ds_import_edit *const edits)
{
    ds_json_put_key_str(w, edits->key->outer);
    if (!edits->key->inner.len) {
        ds_json_put_tree(w, edits->value);
    } else if (edits->key->owner == DS_IMPORT_MARK) {
        ds_json_begin_array(w);
        put_inner(w, member ? member->first : NULL, edits);
        ds_json_end_array(w);
    } else {
        put_inner(w, member, edits);
    }
}

static void put_thing(ds_json_writer *const w, const ds_import_thing *const thing)
{
    ds_json_begin_object(w);
    for (const ds_json *member = thing->at ? thing->at->first : NULL; member; member = member->next) {
        const ds_import_edit *const edit = of_outer(thing->edits, ds_json_key(member));
        if (edit) {
            put_outer(w, member, edit);
        } else {
            ds_json_put_key_str(w, ds_json_key(member));
            ds_json_put_tree(w, member);
        }
    }
    for (const ds_import_edit *edit = thing->edits; edit; edit = edit->next) {
        const ds_str outer = edit->key->outer;
        if (!edit->already && of_outer(thing->edits, outer) == edit && !ds_json_get(thing->at, outer)) {
            put_outer(w, NULL, edit);
        }
    }
    ds_json_end_object(w);
}

/* A list of places or points; what is no object in it stays. */
static void put_list(ds_json_writer *const w, const ds_json *const list, const ds_import_thing *things,
                     const ds_import_thing *added)
{
    ds_json_begin_array(w);
    for (const ds_json *item = list ? list->first : NULL; item; item = item->next) {
        const ds_import_thing *const thing = item->kind == DS_JSON_OBJECT ? things++ : NULL;
        if (thing && thing->changes) {
            put_thing(w, thing);
        } else {
            ds_json_put_tree(w, item);
        }
    }
    for (; added; added = added->next) {
        put_thing(w, added);
    }
    ds_json_end_array(w);
}

static void put_document(ds_json_writer *const w, const ds_import *const import)
{
    const ds_json *const tree = import->job->tree;
    const bool no_places = !ds_json_get(tree, DS_STR("places"));
    const bool no_points = !ds_json_get(tree, DS_STR("points"));
    ds_json_begin_object(w);
    for (const ds_json *member = tree->first; member; member = member->next) {
        const ds_str key = ds_json_key(member);
        ds_json_put_key_str(w, key);
        if (ds_str_is(key, "places")) {
            put_list(w, member, import->places, import->new_places);
        } else if (ds_str_is(key, "points")) {
            put_list(w, member, import->points, import->new_points);
        } else {
            ds_json_put_tree(w, member);
        }
    }
    if (no_places && import->new_places) {
        ds_json_put_key(w, "places");
        put_list(w, NULL, NULL, import->new_places);
    }
    if (no_points && import->new_points) {
        ds_json_put_key(w, "points");
        put_list(w, NULL, NULL, import->new_points);
    }
    ds_json_end_object(w);
}

void ds_import_document(ds_text *const out, const ds_import *const import)
{
    ds_json_writer w = ds_json_writer_on(out);
    put_document(&w, import);
    ds_text_char(out, '\n');
}

/* --- mapping and result ------------------------------------------------------------------------------------------- */

void ds_import_say_column(ds_text *const out, uint32_t column)
{
    char letters[8];
    size_t at = sizeof letters;
    for (; column && at; column = (column - 1) / 26) {
        letters[--at] = (char)('A' + (column - 1) % 26);
    }
    ds_text_bytes(out, letters + at, sizeof letters - at);
}

static void put_key_or_null(ds_json_writer *const w, const ds_import_column *const column)
{
    if (column->key) {
        ds_json_put_str(w, column->key->name);
    } else {
        ds_json_put_null(w);
    }
}

/* Of several columns of one heading only the first is told: no two of them fill a key. */
static bool tells_heading(const ds_import *const import, const size_t index)
{
    const ds_str heading = import->columns[index].heading;
    bool tells = heading.len > 0;
    for (size_t i = 0; i < index && tells; i++) {
        tells = !ds_str_eq(import->columns[i].heading, heading);
    }
    return tells;
}

void ds_import_map_json(ds_text *const out, const ds_import *const import)
{
    ds_json_writer w = ds_json_writer_on(out);
    ds_json_begin_object(&w);
    ds_json_put_key(&w, "dripstone_map");
    ds_json_put_int(&w, 1);
    ds_json_put_key(&w, "columns");
    ds_json_begin_object(&w);
    for (size_t i = 0; i < import->columns_len; i++) {
        if (tells_heading(import, i)) {
            ds_json_put_key_str(&w, import->columns[i].heading);
            put_key_or_null(&w, &import->columns[i]);
        }
    }
    ds_json_end_object(&w);
    ds_json_end_object(&w);
    ds_text_char(out, '\n');
}

static void put_said(ds_json_writer *const w, const char *const key, ds_text *const said)
{
    ds_json_put_key(w, key);
    ds_json_put_str(w, ds_text_str(said));
    w->text->failed = w->text->failed || !ds_text_ok(said);
    said->len = 0;
}

static void put_columns(ds_json_writer *const w, const ds_import *const import, ds_text *const say)
{
    ds_json_put_key(w, "columns");
    ds_json_begin_array(w);
    for (size_t i = 0; i < import->columns_len; i++) {
        ds_json_begin_object(w);
        ds_import_say_column(say, (uint32_t)i + 1);
        put_said(w, "column", say);
        ds_json_put_key(w, "heading");
        ds_json_put_str(w, import->columns[i].heading);
        ds_json_put_key(w, "key");
        put_key_or_null(w, &import->columns[i]);
        ds_json_end_object(w);
    }
    ds_json_end_array(w);
}

static void put_fault(ds_json_writer *const w, const ds_problem *const fault, ds_text *const say)
{
    ds_json_begin_object(w);
    ds_json_put_key(w, "row");
    ds_json_put_int(w, fault->where.line);
    ds_import_say_column(say, fault->where.column);
    put_said(w, "column", say);
    ds_problem_say(say, fault);
    put_said(w, "problem", say);
    ds_problem_mend(say, fault);
    put_said(w, "remedy", say);
    ds_json_end_object(w);
}

static void put_count(ds_json_writer *const w, const char *const key, const size_t count)
{
    ds_json_put_key(w, key);
    ds_json_put_int(w, (int64_t)count);
}

void ds_import_json(ds_text *const out, const ds_import *const import)
{
    ds_text say;
    ds_text_init(&say, out->alloc);
    ds_json_writer w = ds_json_writer_on(out);
    ds_json_begin_object(&w);
    put_columns(&w, import, &say);
    put_count(&w, "rows", import->rows);
    put_count(&w, "points_added", import->points_added);
    put_count(&w, "points_changed", import->points_changed);
    put_count(&w, "places_added", import->places_added);
    put_count(&w, "places_changed", import->places_changed);
    ds_json_put_key(&w, "faults");
    ds_json_begin_array(&w);
    for (size_t i = 0; i < import->faults.len; i++) {
        put_fault(&w, &import->faults.at[i], &say);
    }
    ds_json_end_array(&w);
    put_count(&w, "faults_unlisted", import->faults_len - import->faults.len);
    ds_json_put_key(&w, "job");
    if (import->faults_len) {
        ds_json_put_null(&w);
    } else {
        put_document(&w, import);
    }
    ds_json_end_object(&w);
    ds_text_char(out, '\n');
    ds_text_free(&say);
}
