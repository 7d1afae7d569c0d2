/* SPDX-License-Identifier: MIT */
/*
 * Which column fills which key. The keys are those of the tables that the job is read by, so that a new key of the format
 * can be imported without a change here; the other names that headings have are one list.
 */
#include "core/job/import_parts.h"

#include "core/json/write.h"

enum { KEYS_MOST = 192, NAME_MOST = 64 };

/* Headings as people write them, in small letters with single blanks. No name without its unit where a unit is needed. */
static const struct {
    const char *heading, *key;
} OTHER_NAMES[] = {
    {"point", "id"},
    {"ref", "id"},
    {"reference", "id"},
    {"tag", "id"},
    {"description", "name"},
    {"item", "name"},
    {"location", "place"},
    {"room", "place"},
    {"area", "place"},
    {"type", "kind"},
    {"qty", "count"},
    {"quantity", "count"},
    {"pieces", "count"},
    {"x m", "at_m.x"},
    {"y m", "at_m.y"},
    {"z m", "at_m.z"},
    {"ip", "marked.ip"},
    {"ip code", "marked.ip"},
    {"ip rating", "marked.ip"},
    {"ik", "marked.ik"},
    {"ik code", "marked.ik"},
    {"ik rating", "marked.ik"},
    {"volts", "supply.volts"},
    {"voltage v", "supply.volts"},
    {"rcd ma", "supply.rcd_ma"},
    {"setting", "place.setting"},
    {"standard", "product_standard"},
    {"photo", "found.photo"},
    {"found", "found.words"},
    {"evidence", "found.evidence"},
    {"inspected by", "found.by"},
    {"inspected on", "found.date"},
};
enum { OTHER_NAMES_LEN = sizeof OTHER_NAMES / sizeof *OTHER_NAMES };

/* --- keys --------------------------------------------------------------------------------------------------------- */

typedef struct maker {
    ds_import_keys *out;
    ds_arena *arena;
    ds_import_owner owner;
    bool failed;
} maker;

/* "place." + "supply" + "." + "volts", in the arena. */
static ds_str join(maker *const m, const ds_str *const pieces, const size_t len)
{
    size_t bytes = 0;
    for (size_t i = 0; i < len; i++) {
        bytes += pieces[i].len;
    }
    char *const at = ds_arena_take(m->arena, bytes);
    m->failed = m->failed || !at;
    size_t done = 0;
    for (size_t i = 0; at && i < len; i++) {
        if (pieces[i].len) {
            memcpy(at + done, pieces[i].at, pieces[i].len);
        }
        done += pieces[i].len;
    }
    return (ds_str){at, at ? done : 0};
}

static void add_key(maker *const m, const ds_field *const field, const ds_str outer, const ds_str inner,
                    const int part)
{
    static const char *const PARTS[] = {".x", ".y", ".z"};
    const bool of_place = m->owner == DS_IMPORT_PLACE;
    const ds_str pieces[] = {of_place ? DS_STR("place.") : DS_STR(""), outer,
                             inner.len ? DS_STR(".") : DS_STR(""), inner,
                             part >= 0 ? ds_str_of(PARTS[part]) : DS_STR("")};
    const ds_str name = join(m, pieces, sizeof pieces / sizeof *pieces);
    if (m->out->len == KEYS_MOST) {
        m->failed = true;
        return;
    }
    m->out->at[m->out->len++] = (ds_import_key){
        .name = name, .outer = outer, .inner = inner, .field = field, .owner = m->owner, .part = part};
}

/* Plans, boxes, lists of marks and states are more than a cell can say. */
static bool fits_a_cell(const ds_field *const field)
{
    return field->kind != DS_FIELD_TREE || strcmp(field->key, "seen") == 0;
}

static void add_field(maker *const m, const ds_field *const field, const ds_str outer, const ds_str inner)
{
    if (!fits_a_cell(field) || (m->owner == DS_IMPORT_PLACE && strcmp(field->key, "id") == 0)) {
        return;
    }
    add_key(m, field, outer, inner, -1);
    for (int part = 0; strcmp(field->key, "at_m") == 0 && part < 3; part++) {
        add_key(m, field, outer, inner, part);
    }
}

static void add_fields(maker *const m, const ds_field *fields, const ds_str outer)
{
    for (; fields->key; fields++) {
        const ds_str key = ds_str_of(fields->key);
        const ds_field *inside = fields->kind == DS_FIELD_OBJECT ? fields->fields : NULL;
        if (!inside) {
            add_field(m, fields, outer.len ? outer : key, outer.len ? key : DS_STR(""));
        }
        for (; inside && inside->key; inside++) {
            add_field(m, inside, key, ds_str_of(inside->key));
        }
    }
}

bool ds_import_keys_make(ds_import_keys *const out, ds_arena *const arena)
{
    *out = (ds_import_keys){.at = ds_arena_take_many(arena, KEYS_MOST, sizeof *out->at)};
    maker m = {.out = out, .arena = arena, .failed = !out->at};
    if (m.failed) {
        return false;
    }
    add_fields(&m, ds_point_fields(), DS_STR(""));
    m.owner = DS_IMPORT_MARK;
    add_fields(&m, ds_marked_fields(), DS_STR("marked"));
    m.owner = DS_IMPORT_PLACE;
    add_fields(&m, ds_place_fields(), DS_STR(""));
    return !m.failed;
}

const ds_import_key *ds_import_key_named(const ds_import_keys *const keys, const ds_str name)
{
    for (size_t i = 0; i < keys->len; i++) {
        if (ds_str_eq(keys->at[i].name, name)) {
            return &keys->at[i];
        }
    }
    return NULL;
}

/* --- headings ----------------------------------------------------------------------------------------------------- */

/* Small letters and figures; whatever stands between them is one blank. Empty when it is too long to be a name. */
static ds_str fold(char out[NAME_MOST], const ds_str text)
{
    size_t len = 0;
    bool gap = false;
    for (size_t i = 0; i < text.len; i++) {
        const char c = text.at[i];
        const bool upper = c >= 'A' && c <= 'Z';
        if (!upper && !(c >= 'a' && c <= 'z') && !(c >= '0' && c <= '9') && !(c & 0x80)) {
            gap = len > 0;
            continue;
        }
        if (len + 2 > NAME_MOST) {
            return DS_STR("");
        }
        if (gap) {
            out[len++] = ' ';
        }
        gap = false;
        out[len++] = (char)(upper ? c - 'A' + 'a' : c);
    }
    return (ds_str){out, len};
}

/* The key that a heading is the name of; NULL when it is none. */
static const ds_import_key *match(const ds_import_keys *const keys, const ds_str heading)
{
    const ds_import_key *const exact = ds_import_key_named(keys, heading);
    char folded[NAME_MOST];
    char other[NAME_MOST];
    const ds_str name = fold(folded, heading);
    if (exact || !name.len) {
        return exact;
    }
    for (size_t i = 0; i < keys->len; i++) {
        if (ds_str_eq(fold(other, keys->at[i].name), name)) {
            return &keys->at[i];
        }
    }
    for (size_t i = 0; i < OTHER_NAMES_LEN; i++) {
        if (ds_str_is(name, OTHER_NAMES[i].heading)) {
            return ds_import_key_named(keys, ds_str_of(OTHER_NAMES[i].key));
        }
    }
    return NULL;
}

/* --- remembered mappings ------------------------------------------------------------------------------------------ */

ds_status ds_import_map_read(ds_import_map *const out, const ds_str source, ds_arena *const arena,
                             ds_problem *const problem)
{
    ds_json *tree = NULL;
    const ds_status status = ds_json_read(&tree, source, arena, &DS_JSON_LIMITS, problem);
    if (status != DS_OK) {
        return status;
    }
    double version = 0;
    const ds_json *const columns = ds_json_get(tree, DS_STR("columns"));
    if (!ds_json_number(ds_json_get(tree, DS_STR("dripstone_map")), &version) || version != 1) {
        *problem = (ds_problem){.code = DS_P_NOT_A_MAP, .where = ds_json_where(tree, source, arena)};
        return DS_BAD_INPUT;
    }
    if (!columns || columns->kind != DS_JSON_OBJECT) {
        *problem = (ds_problem){.code = DS_P_WRONG_TYPE,
                                .where = ds_json_where(columns ? columns : tree, source, arena),
                                .a = DS_STR("columns"),
                                .b = DS_STR("an object of headings and keys")};
        return DS_BAD_INPUT;
    }
    for (const ds_json *column = columns->first; column; column = column->next) {
        if (column->kind != DS_JSON_STRING && column->kind != DS_JSON_NULL) {
            *problem = (ds_problem){.code = DS_P_WRONG_TYPE,
                                    .where = ds_json_where(column, source, arena),
                                    .a = ds_json_key(column),
                                    .b = DS_STR("a key in quotes, or null")};
            return DS_BAD_INPUT;
        }
    }
    *out = (ds_import_map){columns};
    return DS_OK;
}

static bool has_heading(const ds_str *const headings, const size_t len, const ds_str heading)
{
    for (size_t i = 0; i < len; i++) {
        if (ds_str_eq(ds_import_trim(headings[i]), heading)) {
            return true;
        }
    }
    return false;
}

/* What the mapping names and is not there. */
static void check_map(ds_importer *const importer, const ds_import_keys *const keys,
                      const ds_str *const headings, const size_t len, const ds_import_map *const map)
{
    ds_str names[KEYS_MOST];
    for (size_t i = 0; i < keys->len; i++) {
        names[i] = keys->at[i].name;
    }
    for (const ds_json *column = map->columns->first; column; column = column->next) {
        const ds_str heading = ds_json_key(column);
        if (!has_heading(headings, len, heading)) {
            ds_importer_complain(importer, 0, DS_P_MAP_HEADING, heading,
                                 ds_suggest(importer->arena, heading, headings, len));
        }
        if (column->kind == DS_JSON_STRING && !ds_import_key_named(keys, ds_json_text(column))) {
            const ds_str key = ds_json_text(column);
            ds_importer_complain(importer, 0, DS_P_MAP_KEY, key,
                                 ds_suggest(importer->arena, key, names, keys->len));
        }
    }
}

static const ds_import_key *key_of(const ds_import_keys *const keys, const ds_str heading,
                                   const ds_import_map *const map)
{
    const ds_json *const mapped = map ? ds_json_get(map->columns, heading) : NULL;
    if (mapped) {
        return mapped->kind == DS_JSON_STRING ? ds_import_key_named(keys, ds_json_text(mapped)) : NULL;
    }
    return match(keys, heading);
}

/* Both would fill one value. */
static bool collide(const ds_import_key *const a, const ds_import_key *const b)
{
    return a->owner == b->owner && ds_str_eq(a->outer, b->outer) && ds_str_eq(a->inner, b->inner) &&
           (a->part == b->part || a->part < 0 || b->part < 0);
}

static void check_columns(ds_importer *const importer, const ds_import_column *const columns,
                          const size_t len)
{
    bool has_id = false;
    for (size_t i = 0; i < len; i++) {
        const ds_import_key *const key = columns[i].key;
        has_id = has_id || (key && ds_str_is(key->name, "id"));
        for (size_t j = 0; key && j < i; j++) {
            if (columns[j].key && collide(columns[j].key, key)) {
                ds_text letters;
                ds_text_init(&letters, importer->arena->alloc);
                ds_import_say_column(&letters, (uint32_t)j + 1);
                ds_importer_complain(importer, i + 1, DS_P_COLUMN_TWICE, key->name,
                                     ds_importer_keep(importer, ds_text_str(&letters)));
                ds_text_free(&letters);
                break;
            }
        }
    }
    if (!has_id) {
        ds_importer_complain(importer, 0, DS_P_NO_COLUMN, DS_STR("id"), DS_STR(""));
    }
}

void ds_import_map_columns(ds_importer *const importer, const ds_import_keys *const keys,
                           const ds_str *const headings, const size_t len, const ds_import_map *const map)
{
    ds_import_column *const columns = ds_arena_take_many(importer->arena, len, sizeof *columns);
    if (!columns) {
        importer->failed = true;
        return;
    }
    for (size_t i = 0; i < len; i++) {
        const ds_str heading = ds_import_trim(headings[i]);
        columns[i] = (ds_import_column){heading, key_of(keys, heading, map)};
    }
    importer->out->columns = columns;
    importer->out->columns_len = len;
    if (map) {
        check_map(importer, keys, headings, len, map);
    }
    check_columns(importer, columns, len);
}

ds_str ds_import_column_key(const ds_import_column *const column)
{
    return column->key ? column->key->name : (ds_str){0};
}
