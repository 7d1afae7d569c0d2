/* SPDX-License-Identifier: MIT */
/*
 * Any bytes as a table: read cell by cell, and imported into a job. What must hold whatever comes: no crash, no leak;
 * cells that are written again are read the same; with a fault there is no document to trust, and without one the document
 * is a job in which nothing of the old one is lost, and a second import of the same table finds nothing more to do.
 */
#include "fuzz.h"

#include "core/job/import.h"

static const char JOB[] =
    "{\"dripstone\": 1, \"odd\": 1.10, \"places\": [{\"id\": \"a\", \"name\": \"Yard\", \"kind\": \"yard\", "
    "\"setting\": \"outdoors\"}, {\"id\": \"b\", \"seen\": [{\"word\": \"x\", \"depth_m\": 1}]}, 7],"
    "\"points\": [{\"id\": \"P\", \"place\": \"a\", \"kind\": \"fan\", \"at_m\": [1, 2, 3.0], \"marked\": "
    "[{\"ip\": \"IP2X\", "
    "\"odd\": []}]}, {\"id\": \"Q\", \"place\": \"b\", \"marked\": [{}, {}], \"supply\": 5, \"count\": 2}]}";

/* Columns that a table gets in front when the first byte asks for it, so that more of the bytes are cells. */
static const char *const HEADINGS[] = {
    "", "id,place,name,kind,count,ip,ik\n", "Ref;Location;height m;x m;y m;z m;place.seen;setting;volts\n",
    "id\tat_m\tmaker.ambient_c\tabout\tseen\tabsent\tinfluences.AD\tfound.date\tmarked.when\n"};

static void check_cells(const ds_str source, ds_arena *const arena)
{
    ds_csv csv;
    ds_str cells[DS_CSV_COLUMNS];
    size_t len = 0;
    ds_problem problem = {0};
    ds_csv_open(&csv, source, arena);
    while (ds_csv_row(&csv, cells, &len, &problem) == DS_OK && len) {
        ds_text text;
        ds_text_init(&text, arena->alloc);
        for (size_t i = 0; i < len; i++) {
            ds_text_add(&text, i ? "\",\"" : "\"");
            for (size_t j = 0; j < cells[i].len; j++) {
                ds_text_add(&text, cells[i].at[j] == '"' ? "\"" : "");
                ds_text_char(&text, cells[i].at[j]);
            }
        }
        ds_text_add(&text, "\"\r\n");
        ds_csv again;
        ds_str same[DS_CSV_COLUMNS];
        size_t same_len = 0;
        ds_csv_open(&again, ds_text_str(&text), arena);
        again.separator = ',';
        FUZZ_EXPECT(ds_csv_row(&again, same, &same_len, &problem) == DS_OK && same_len == len);
        for (size_t i = 0; i < len; i++) {
            FUZZ_EXPECT(ds_str_eq(cells[i], same[i]));
        }
        ds_text_free(&text);
    }
}

/* Imports into a job's text; the new text goes to out. False when there was a fault. */
static bool import_into(ds_text *const out, const ds_str job_text, const ds_str table, const bool add_places,
                        ds_import *const import, ds_arena *const arena)
{
    ds_job *const job = ds_arena_take(arena, sizeof *job);
    ds_problem problem = {0};
    FUZZ_EXPECT(job && ds_job_read(job, job_text, arena, &problem) == DS_OK);
    const ds_import_how how = {.add_places = add_places};
    FUZZ_EXPECT(ds_import_read(import, job, table, how, arena, &problem) == DS_OK);
    ds_text json;
    ds_text_init(&json, arena->alloc);
    ds_import_json(&json, import);
    ds_import_map_json(&json, import);
    FUZZ_EXPECT(ds_text_ok(&json));
    ds_text_free(&json);
    FUZZ_EXPECT((import->faults_len > 0) == (import->faults.len > 0));
    if (import->faults_len) {
        return false;
    }
    ds_import_document(out, import);
    FUZZ_EXPECT(ds_text_ok(out));
    return true;
}

int LLVMFuzzerTestOneInput(const uint8_t *const data, const size_t size)
{
    ds_arena arena;
    ds_arena_init(&arena, fuzz_alloc());
    ds_text table;
    ds_text once;
    ds_text twice;
    ds_text_init(&table, arena.alloc);
    ds_text_init(&once, arena.alloc);
    ds_text_init(&twice, arena.alloc);
    const unsigned mode = size ? data[0] : 0;
    ds_text_add(&table, HEADINGS[mode & 3]);
    ds_text_bytes(&table, (const char *)data + (size ? 1 : 0), size ? size - 1 : 0);
    check_cells(ds_text_str(&table), &arena);
    ds_import import;
    if (import_into(&once, DS_STR(JOB), ds_text_str(&table), mode & 4, &import, &arena)) {
        const size_t added = import.points_added;
        FUZZ_EXPECT(import_into(&twice, ds_text_str(&once), ds_text_str(&table), mode & 4, &import, &arena));
        FUZZ_EXPECT(import.job->points_len == 2 + added);
        FUZZ_EXPECT(
            import.points_added + import.points_changed + import.places_added + import.places_changed == 0);
        FUZZ_EXPECT(ds_str_eq(ds_text_str(&once), ds_text_str(&twice)));
    }
    ds_text_free(&table);
    ds_text_free(&once);
    ds_text_free(&twice);
    ds_arena_free(&arena);
    return 0;
}
