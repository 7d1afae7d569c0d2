/* SPDX-License-Identifier: MIT */
/*
 * Rows into changes. The table is read twice: once for the ids and places that it names, which are then looked up in
 * sorted lists, and once for the cells, so that faults come in the order of the rows.
 */
#include "core/job/import_parts.h"

/* --- what there is ------------------------------------------------------------------------------------------------ */

/* A list of the document that rows go into: missing, or a list. */
static bool check_list(const ds_job *const job, const char *const name, ds_arena *const arena,
                       ds_problem *const problem)
{
    const ds_json *const list = ds_json_get(job->tree, ds_str_of(name));
    const bool good = !list || list->kind == DS_JSON_ARRAY;
    if (!good) {
        *problem = (ds_problem){.code = DS_P_WRONG_TYPE,
                                .where = ds_json_where(list, job->source, arena),
                                .a = ds_str_of(name),
                                .b = DS_STR("a list")};
    }
    return good;
}

/* The first id that stands twice; at NULL when none does. */
static const ds_json *second_of_id(const ds_names *const sorted, const ds_job *const job, const bool points)
{
    for (size_t i = 1; i < sorted->len; i++) {
        if (sorted->at[i].text.len && ds_str_eq(sorted->at[i].text, sorted->at[i - 1].text)) {
            const uint32_t index = sorted->at[i].index;
            return points ? job->points[index].at : job->places[index].at;
        }
    }
    return NULL;
}

static ds_status check_ids(const ds_importer *const importer, ds_problem *const problem)
{
    const ds_job *const job = importer->out->job;
    const ds_json *const point = second_of_id(&importer->points, job, true);
    const ds_json *const again = point ? point : second_of_id(&importer->places, job, false);
    if (!again) {
        return DS_OK;
    }
    *problem = (ds_problem){.code = DS_P_DUPLICATE_ID,
                            .where = ds_json_where(again, job->source, importer->arena),
                            .a = ds_json_text(ds_json_get(again, DS_STR("id")))};
    return DS_BAD_INPUT;
}

/* Points and places of the job, to be found by id and name; those without cannot be meant. */
static ds_status list_job(ds_importer *const importer, ds_problem *const problem)
{
    const ds_job *const job = importer->out->job;
    ds_import *const out = importer->out;
    out->points = ds_arena_take_many(importer->arena, job->points_len, sizeof *out->points);
    out->places = ds_arena_take_many(importer->arena, job->places_len, sizeof *out->places);
    if (!out->points || !out->places || !ds_names_make(&importer->points, importer->arena, job->points_len) ||
        !ds_names_make(&importer->places, importer->arena, job->places_len) ||
        !ds_names_make(&importer->place_names, importer->arena, job->places_len)) {
        return DS_NO_MEMORY;
    }
    for (size_t i = 0; i < job->points_len; i++) {
        out->points[i].at = job->points[i].at;
        if (job->points[i].id.len) {
            ds_names_put(&importer->points, job->points[i].id, (uint32_t)i);
        }
    }
    for (size_t i = 0; i < job->places_len; i++) {
        out->places[i].at = job->places[i].at;
        const ds_str name = ds_import_strip(job->places[i].name);
        if (job->places[i].id.len) {
            ds_names_put(&importer->places, job->places[i].id, (uint32_t)i);
        }
        if (name.len) {
            ds_names_put(&importer->place_names, name, (uint32_t)i);
        }
    }
    ds_names_sort(&importer->points);
    ds_names_sort(&importer->places);
    ds_names_sort(&importer->place_names);
    return check_ids(importer, problem);
}

/* --- the first reading: ids and places of the table --------------------------------------------------------------- */

static size_t column_of(const ds_import *const out, const char *const name)
{
    size_t i = 0;
    while (i < out->columns_len && !(out->columns[i].key && ds_str_is(out->columns[i].key->name, name))) {
        i++;
    }
    return i;
}

/* No more rows than this are left. */
static size_t rows_most(const ds_str text)
{
    size_t rows = 1;
    for (size_t i = 0; i < text.len; i++) {
        rows += text.at[i] == '\n' || text.at[i] == '\r';
    }
    return rows;
}

/* Each name once, in its order; the index becomes its position. */
static void keep_once(ds_names *const names)
{
    size_t len = 0;
    for (size_t i = 0; i < names->len; i++) {
        if (i == 0 || !ds_str_eq(names->at[i].text, names->at[len - 1].text)) {
            names->at[len] = (ds_name){names->at[i].text, (uint32_t)len};
            len++;
        }
    }
    names->len = len;
}

static ds_str cell_at(const ds_str *const cells, const size_t len, const size_t column)
{
    return column < len ? ds_import_trim(cells[column]) : DS_STR("");
}

static ds_status list_table(ds_importer *const importer, ds_problem *const problem)
{
    ds_csv csv = importer->csv;
    ds_str cells[DS_CSV_COLUMNS];
    size_t len = 0;
    const size_t id = column_of(importer->out, "id");
    const size_t place = column_of(importer->out, "place");
    const size_t most = rows_most(csv.text);
    if (!ds_names_make(&importer->row_ids, importer->arena, most) ||
        !ds_names_make(&importer->cells, importer->arena, most)) {
        return DS_NO_MEMORY;
    }
    ds_status status = ds_csv_row(&csv, cells, &len, problem);
    for (; status == DS_OK && len; status = ds_csv_row(&csv, cells, &len, problem)) {
        const ds_str id_cell = cell_at(cells, len, id);
        const ds_str place_cell = cell_at(cells, len, place);
        if (id_cell.len) {
            ds_names_put(&importer->row_ids, id_cell, csv.row);
        }
        if (place_cell.len) {
            ds_names_put(&importer->cells, place_cell, csv.row);
        }
    }
    ds_names_sort(&importer->row_ids);
    ds_names_sort(&importer->cells);
    keep_once(&importer->cells);
    importer->of_cell = ds_arena_take_many(importer->arena, importer->cells.len, sizeof *importer->of_cell);
    return status == DS_OK && !importer->of_cell ? DS_NO_MEMORY : status;
}

/* --- the second reading: rows ------------------------------------------------------------------------------------- */

/* One row being read. */
typedef struct row {
    const ds_str *cells;
    ds_import_thing *point, *place;
    bool place_unknown; /* its cell was complained about */
    const ds_json *at_m[3];
    const ds_import_key *at_m_key; /* one of the keys of its numbers; NULL: none is filled */
} row;

/* The place that this row's cell means, asked once for each that the table names. */
static ds_import_thing *place_of(ds_importer *const importer, const ds_str cell, const size_t column)
{
    const uint32_t index = ds_names_find(&importer->cells, cell);
    if (!importer->of_cell[index]) {
        importer->of_cell[index] = ds_importer_place(importer, cell, column);
    }
    return importer->of_cell[index];
}

static void read_cell(ds_importer *const importer, row *const r, const size_t column)
{
    const ds_import_key *const key = importer->out->columns[column].key;
    const ds_str cell = ds_import_trim(r->cells[column]);
    ds_import_thing *const thing = key->owner == DS_IMPORT_PLACE ? r->place : r->point;
    const bool about_place = key->owner == DS_IMPORT_PLACE || ds_str_is(key->name, "place");
    if (about_place && r->place_unknown) {
        return; /* it was complained about */
    }
    if (!thing) {
        ds_importer_complain(importer, column + 1, DS_P_NO_PLACE_MEANT, key->name, DS_STR(""));
        return;
    }
    const ds_json *const value = ds_str_is(key->name, "place")
                                     ? ds_import_text(importer, ds_import_place_id(r->place))
                                     : ds_import_value(importer, key, cell, column + 1);
    if (value && key->part >= 0) {
        r->at_m[key->part] = value;
        r->at_m_key = key;
    } else if (value) {
        ds_importer_put(importer, thing, key, value, cell, column + 1);
    }
}

/* The three numbers of a position, those without a cell as they are. */
static void put_position(ds_importer *const importer, row *const r)
{
    const ds_import_key *const key = r->at_m_key;
    if (!key) {
        return;
    }
    const ds_json *const there = ds_import_there(r->point, key);
    bool changed = false;
    for (int i = 0; i < 3; i++) {
        const ds_json *const before = ds_import_part(there, i);
        changed = changed || (r->at_m[i] && !(before && ds_import_same(before, r->at_m[i])));
        r->at_m[i] = r->at_m[i] ? r->at_m[i] : before;
        if (!r->at_m[i] || r->at_m[i]->kind != DS_JSON_NUMBER) {
            ds_importer_complain(importer, 0, DS_P_POSITION_HALF, DS_STR(""), DS_STR(""));
            return;
        }
    }
    const ds_json *const list = changed ? ds_import_list(importer, r->at_m, 3) : NULL;
    if (list) {
        ds_importer_edit(importer, r->point, key, list, false);
    }
}

/* A point that is added must have a place and a kind. */
static void check_new(ds_importer *const importer, const row *const r)
{
    static const char *const NEEDED[] = {"place", "kind"};
    for (size_t i = 0; !r->point->at && i < 2; i++) {
        const size_t column = column_of(importer->out, NEEDED[i]);
        const bool filled = column < importer->out->columns_len && ds_import_trim(r->cells[column]).len > 0;
        if (!filled) {
            ds_importer_complain(importer, column < importer->out->columns_len ? column + 1 : 0,
                                 DS_P_ROW_LACKS, ds_str_of(NEEDED[i]), DS_STR(""));
        }
    }
}

static void begin_point(ds_importer *const importer, row *const r, const ds_str id, const size_t id_column)
{
    const uint32_t index = ds_names_find(&importer->points, id);
    if (index != DS_NO_NAME) {
        const int32_t place = importer->out->job->points[index].place;
        r->point = &importer->out->points[index];
        r->place = place >= 0 ? &importer->out->places[place] : NULL;
        return;
    }
    r->point = ds_importer_add_point(importer);
    if (r->point) {
        ds_importer_edit(importer, r->point, importer->out->columns[id_column].key,
                         ds_import_text(importer, id), false);
    }
}

static void begin_place(ds_importer *const importer, row *const r)
{
    const size_t column = column_of(importer->out, "place");
    const ds_str cell = cell_at(r->cells, importer->out->columns_len, column);
    if (cell.len) {
        r->place = place_of(importer, cell, column + 1);
        r->place_unknown = !r->place;
    }
}

static void read_row(ds_importer *const importer, const ds_str *const cells)
{
    const ds_import *const out = importer->out;
    const size_t id_column = column_of(out, "id");
    const ds_str id = ds_import_trim(cells[id_column]);
    row r = {.cells = cells};
    if (!id.len) {
        ds_importer_complain(importer, id_column + 1, DS_P_MISSING_KEY, DS_STR("id"), DS_STR(""));
        return;
    }
    const uint32_t first = ds_names_find(&importer->row_ids, id);
    if (first != importer->csv.row) {
        ds_importer_complain(importer, id_column + 1, DS_P_ROW_ID_TWICE, id,
                             ds_importer_number(importer, first));
        return;
    }
    begin_point(importer, &r, id, id_column);
    if (!r.point) {
        return;
    }
    begin_place(importer, &r);
    for (size_t i = 0; i < out->columns_len; i++) {
        if (i != id_column && out->columns[i].key && ds_import_trim(cells[i]).len) {
            read_cell(importer, &r, i);
        }
    }
    put_position(importer, &r);
    check_new(importer, &r);
}

static bool is_blank(const ds_str *const cells, const size_t len)
{
    size_t i = 0;
    while (i < len && !ds_import_trim(cells[i]).len) {
        i++;
    }
    return i == len;
}

static ds_status read_rows(ds_importer *const importer, ds_problem *const problem)
{
    ds_import *const out = importer->out;
    ds_str cells[DS_CSV_COLUMNS];
    size_t len = 0;
    ds_status status = ds_csv_row(&importer->csv, cells, &len, problem);
    for (; status == DS_OK && len && !importer->failed;
         status = ds_csv_row(&importer->csv, cells, &len, problem)) {
        if (is_blank(cells, len)) {
            continue;
        }
        out->rows++;
        if (len == out->columns_len) {
            read_row(importer, cells);
        } else {
            ds_importer_complain(importer, 0, DS_P_CSV_RAGGED, ds_importer_number(importer, len),
                                 ds_importer_number(importer, out->columns_len));
        }
    }
    return importer->failed ? DS_NO_MEMORY : status;
}

/* --- all ---------------------------------------------------------------------------------------------------------- */

static size_t count_changed(const ds_import_thing *const things, const size_t len)
{
    size_t changed = 0;
    for (size_t i = 0; i < len; i++) {
        changed += things[i].changes > 0;
    }
    return changed;
}

/* The headings, and which keys they fill. */
static ds_status read_headings(ds_importer *const importer, const ds_import_map *const map,
                               ds_problem *const problem)
{
    ds_import_keys keys;
    ds_str headings[DS_CSV_COLUMNS];
    size_t len = 0;
    const ds_status status = ds_csv_row(&importer->csv, headings, &len, problem);
    if (status != DS_OK) {
        return status;
    }
    if (!ds_import_keys_make(&keys, importer->arena)) {
        return DS_NO_MEMORY;
    }
    importer->out->separator = importer->csv.separator;
    importer->place_name = ds_import_key_named(&keys, DS_STR("place.name"));
    if (len) {
        ds_import_map_columns(importer, &keys, headings, len, map);
    } else {
        importer->csv.row = 1;
        ds_importer_complain(importer, 0, DS_P_CSV_EMPTY, DS_STR(""), DS_STR(""));
    }
    return importer->failed ? DS_NO_MEMORY : DS_OK;
}

/* A table that cannot be read to its end is one fault, and the only one that counts. */
static ds_status read_table(ds_importer *const importer, const ds_import_map *const map)
{
    ds_problem problem = {0};
    ds_status status = read_headings(importer, map, &problem);
    if (status == DS_OK && importer->out->faults_len == 0) {
        status = list_table(importer, &problem);
        status = status == DS_OK ? read_rows(importer, &problem) : status;
    }
    if (status == DS_BAD_INPUT) {
        importer->csv.row = problem.where.line;
        ds_importer_complain(importer, problem.where.column, problem.code, problem.a, problem.b);
        status = importer->failed ? DS_NO_MEMORY : DS_OK;
    }
    return status;
}

ds_status ds_import_read(ds_import *const out, const ds_job *const job, const ds_str csv,
                         const ds_import_how how, ds_arena *const arena, ds_problem *const problem)
{
    *out = (ds_import){.job = job};
    ds_importer importer = {.out = out, .arena = arena, .add_places = how.add_places};
    ds_csv_open(&importer.csv, csv, arena);
    if (!check_list(job, "places", arena, problem) || !check_list(job, "points", arena, problem)) {
        return DS_BAD_INPUT;
    }
    ds_status status = list_job(&importer, problem);
    status = status == DS_OK ? read_table(&importer, how.map) : status;
    out->points_changed = count_changed(out->points, out->points ? job->points_len : 0);
    out->places_changed = count_changed(out->places, out->places ? job->places_len : 0);
    return status;
}
