/* SPDX-License-Identifier: MIT */
/* The parts of an import: private to job/. */
#ifndef DS_JOB_IMPORT_PARTS_H
#define DS_JOB_IMPORT_PARTS_H

#include "core/base/names.h"
#include "core/job/fields.h"
#include "core/job/import.h"

typedef enum ds_import_owner { DS_IMPORT_POINT, DS_IMPORT_MARK, DS_IMPORT_PLACE } ds_import_owner;

/* A key that a column may fill. */
struct ds_import_key {
    ds_str name; /* "supply.volts" */
    ds_str outer,
        inner; /* "supply", "volts"; inner empty where the key stands in the point or place itself */
    const ds_field *field;
    ds_import_owner owner;
    int part; /* one number of a list, -1 the whole */
};

typedef struct ds_import_keys {
    ds_import_key *at;
    size_t len;
} ds_import_keys;

/* One value that is new. */
typedef struct ds_import_edit ds_import_edit;
struct ds_import_edit {
    const ds_import_key *key;
    const ds_json *value;
    uint32_t row;
    bool already; /* the document says so: kept to be compared with further rows, not written */
    ds_import_edit *next;
};

struct ds_import_thing {
    const ds_json *at;     /* NULL: it is added */
    ds_import_edit *edits; /* in the order of the columns */
    ds_import_edit *last;
    size_t changes;        /* edits that are not already there */
    ds_import_thing *next; /* among those added */
};

typedef struct ds_importer {
    ds_import *out;
    ds_arena *arena;
    ds_csv csv; /* its row is the one that faults are in */
    bool add_places;
    ds_names row_ids;                /* ids of the table; index: row */
    ds_names points;                 /* of the job, by id; index: position there */
    ds_names places, place_names;    /* the same by id and by name */
    ds_names cells;                  /* places that the table names, each once; index: position in of_cell */
    ds_import_thing **of_cell;       /* the place that is meant; NULL: not yet asked */
    const ds_import_key *place_name; /* the key "place.name" */
    ds_import_thing *last_place, *last_point; /* among those added */
    bool failed;                              /* memory ran out */
} ds_importer;

/* Counts a fault of the row being read, and lists it among the first. column 0: the row as a whole. */
void ds_importer_complain(ds_importer *importer, size_t column, ds_problem_code code, ds_str a, ds_str b);

/* A copy in the arena; at NULL, and failed, when memory is short. */
ds_str ds_importer_keep(ds_importer *importer, ds_str text);

/* A whole number as text. */
ds_str ds_importer_number(ds_importer *importer, size_t number);

/* Every key; false when memory is short. */
bool ds_import_keys_make(ds_import_keys *out, ds_arena *arena);

/* NULL: there is none. */
const ds_import_key *ds_import_key_named(const ds_import_keys *keys, ds_str name);

/* Fills out->columns from the headings; what is wrong with them or the mapping is a fault. */
void ds_import_map_columns(ds_importer *importer, const ds_import_keys *keys, const ds_str *headings,
                           size_t len, const ds_import_map *map);

/* What a cell says for a key, as a value of the document; NULL when it was complained about. The cell is not empty. */
const ds_json *ds_import_value(ds_importer *importer, const ds_import_key *key, ds_str cell, size_t column);

/* A list of numbers in the arena, of copies of these; and a text. NULL, and failed, when memory is short. */
const ds_json *ds_import_list(ds_importer *importer, const ds_json *const *items, uint32_t len);
const ds_json *ds_import_text(ds_importer *importer, ds_str text);

/* True when both say the same: words of things seen by word, numbers by value. */
bool ds_import_same(const ds_json *a, const ds_json *b);

/* Without blanks around it. */
ds_str ds_import_strip(ds_str text);

/* The cell without them, and without an apostrophe that keeps it from being a formula. */
ds_str ds_import_trim(ds_str cell);

/* --- things (import_things.c) ---------------------------------------------------------------------------------------- */

/* A point that is added, behind the others. NULL, and failed, when memory is short. */
ds_import_thing *ds_importer_add_point(ds_importer *importer);

/* Takes up the value of a cell where it says something new; a place's must not differ from what an earlier row said. */
void ds_importer_put(ds_importer *importer, ds_import_thing *thing, const ds_import_key *key,
                     const ds_json *value, ds_str cell, size_t column);

/* Takes it up in any case. already: the document says so. */
void ds_importer_edit(ds_importer *importer, ds_import_thing *thing, const ds_import_key *key,
                      const ds_json *value, bool already);

/* The place that a cell means by id or name, added where that is allowed; NULL when it was complained about. */
ds_import_thing *ds_importer_place(ds_importer *importer, ds_str cell, size_t column);

/* The id of a place. */
ds_str ds_import_place_id(const ds_import_thing *place);

/* What a thing has of a key already; NULL without. */
const ds_json *ds_import_there(const ds_import_thing *thing, const ds_import_key *key);

/* The number of a position that a thing has already. */
const ds_json *ds_import_part(const ds_json *list, int part);

#endif
