/* SPDX-License-Identifier: MIT */
/*
 * Points and places from a spreadsheet: rows of a table and a mapping of its columns -> the changed job document.
 *
 *     ds_import import;
 *     ds_import_read(&import, &job, csv, (ds_import_how){.add_places = true}, &arena, &problem);
 *     if (import.faults_len == 0) ds_import_document(&text, &import);
 *
 * The first row holds the headings. A column fills the key of the document that the mapping names, or else the one that
 * its heading is: "marked.ip", "Marked IP", or a known other name ("IP rating"). Other columns are left out. Keys of the
 * point's place begin with "place." (docs/import.md lists them all).
 *
 * A row whose id the job has changes that point; any other id adds a point. Empty cells leave alone, and so do cells that
 * say what is there already. What no column fills is kept as it is written, unknown keys and the text of numbers too.
 *
 * Nothing is half imported: with a single fault there is no document. Every fault has its row and column; the first
 * DS_IMPORT_FAULTS are listed, the others counted. Job, table and mapping must outlive the import.
 */
#ifndef DS_JOB_IMPORT_H
#define DS_JOB_IMPORT_H

#include "core/job/csv.h"
#include "core/job/job.h"

enum { DS_IMPORT_FAULTS = 50, DS_IMPORT_PLACES = 10000 }; /* listed; new places of one table */

/* A remembered mapping: heading -> key. */
typedef struct ds_import_map {
    const ds_json *columns; /* an object; its values are keys, or null for a column that is left out */
} ds_import_map;

/* DS_BAD_INPUT: *problem says what is wrong with the mapping's text, and where. */
ds_status ds_import_map_read(ds_import_map *out, ds_str source, ds_arena *arena, ds_problem *problem);

typedef struct ds_import_how {
    const ds_import_map *map; /* NULL: headings speak for themselves */
    bool add_places;          /* places that the job does not have are added */
} ds_import_how;

typedef struct ds_import_key ds_import_key; /* private */

typedef struct ds_import_column {
    ds_str heading;           /* as it stands in the table */
    const ds_import_key *key; /* NULL: left out */
} ds_import_column;

typedef struct ds_import_thing ds_import_thing; /* private: one place or point with what changes in it */

typedef struct ds_import {
    const ds_job *job;
    const ds_import_column *columns;
    size_t columns_len;
    char separator;
    ds_problems faults; /* where: row and column from 1; column 0: the row as a whole */
    size_t faults_len;  /* all of them */
    size_t rows;        /* with something in them, the headings not counted */
    size_t points_added, points_changed, places_added, places_changed;
    ds_import_thing *points, *places; /* private: of the job, in its order */
    const ds_import_thing *new_points, *new_places;
} ds_import;

/*
 * DS_BAD_INPUT: *problem says what of the job document stands in the way, and where. Faults of the table and of the
 * mapping against it are in out->faults.
 */
ds_status ds_import_read(ds_import *out, const ds_job *job, ds_str csv, ds_import_how how, ds_arena *arena,
                         ds_problem *problem);

/* The key that a column fills, "supply.volts"; at NULL when it is left out. */
ds_str ds_import_column_key(const ds_import_column *column);

/* The document with its changes, ended by \n; only without faults. */
void ds_import_document(ds_text *out, const ds_import *import);

/* The mapping as it was used, to be remembered. */
void ds_import_map_json(ds_text *out, const ds_import *import);

/* {"columns": […], …, "faults": […], "job": the document, or null with faults} */
void ds_import_json(ds_text *out, const ds_import *import);

/* A column's letters as spreadsheets have them: 1 -> "A", 28 -> "AB". */
void ds_import_say_column(ds_text *out, uint32_t column);

#endif
