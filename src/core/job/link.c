/* SPDX-License-Identifier: MIT */
/*
 * Joining points to places. Ids are looked up through an open hash table in the arena, so that a job of a million
 * points is joined in one pass.
 */
#include "core/job/link.h"

typedef struct id_table {
    const ds_str **slots;
    size_t mask;
} id_table;

/* FNV-1a; the table is at most half full. */
static size_t hash(const ds_str text)
{
    uint64_t h = UINT64_C(14695981039346656037);
    for (size_t i = 0; i < text.len; i++) {
        h = (h ^ (uint8_t)text.at[i]) * UINT64_C(1099511628211);
    }
    return (size_t)(h ^ h >> 32);
}

static bool table_make(id_table *const table, ds_arena *const arena, const size_t len)
{
    size_t size = 8;
    while (size < len * 2) {
        size *= 2;
    }
    table->slots = ds_arena_take_many(arena, size, sizeof *table->slots);
    table->mask = size - 1;
    return table->slots != NULL;
}

/* The slot that holds this id, or the empty one where it belongs. */
static const ds_str **table_slot(const id_table *const table, const ds_str id)
{
    size_t i = hash(id) & table->mask;
    while (table->slots[i] && !ds_str_eq(*table->slots[i], id)) {
        i = (i + 1) & table->mask;
    }
    return &table->slots[i];
}

static bool complain_of_id(ds_job *const job, ds_arena *const arena, const ds_json *const thing,
                           int32_t *const owner, const ds_str id)
{
    return ds_job_complain(job, arena, ds_json_get(thing, DS_STR("id")), owner, DS_P_DUPLICATE_ID, id,
                           (ds_str){0});
}

static bool index_places(ds_job *const job, ds_arena *const arena, id_table *const table)
{
    for (size_t i = 0; i < job->places_len; i++) {
        ds_place *const place = &job->places[i];
        const ds_str **const slot = table_slot(table, place->id);
        if (*slot && place->id.at && !complain_of_id(job, arena, place->at, &place->problem, place->id)) {
            return false;
        }
        if (!*slot) {
            *slot = &place->id;
        }
    }
    return true;
}

static bool check_point_ids(ds_job *const job, ds_arena *const arena)
{
    id_table table;
    if (!table_make(&table, arena, job->points_len)) {
        return false;
    }
    for (size_t i = 0; i < job->points_len; i++) {
        ds_point *const point = &job->points[i];
        const ds_str **const slot = table_slot(&table, point->id);
        if (*slot && point->id.at && !complain_of_id(job, arena, point->at, &point->problem, point->id)) {
            return false;
        }
        if (!*slot) {
            *slot = &point->id;
        }
    }
    return true;
}

static ds_str suggest_place(const ds_job *const job, ds_arena *const arena, const ds_str id)
{
    enum { MOST = 64 };
    ds_str ids[MOST];
    size_t len = 0;
    for (; len < job->places_len && len < MOST; len++) {
        ids[len] = job->places[len].id;
    }
    return ds_suggest(arena, id, ids, len);
}

static bool join_point(ds_job *const job, ds_arena *const arena, const id_table *const table,
                       ds_point *const point)
{
    if (!point->place_id.at) {
        return true; /* already reported as missing */
    }
    const ds_str *const id = *table_slot(table, point->place_id);
    if (id) {
        const ds_place *const place = (const ds_place *)((const char *)id - offsetof(ds_place, id));
        point->place = (int32_t)(place - job->places);
        return true;
    }
    return ds_job_complain(job, arena, ds_json_get(point->at, DS_STR("place")), &point->problem,
                           DS_P_NO_SUCH_PLACE, point->place_id, suggest_place(job, arena, point->place_id));
}

static bool all_digits(const ds_str text, const size_t from, const size_t to)
{
    for (size_t i = from; i < to; i++) {
        if (text.at[i] < '0' || text.at[i] > '9') {
            return false;
        }
    }
    return true;
}

bool ds_date_is_valid(const ds_str date)
{
    if (date.len != 10 || date.at[4] != '-' || date.at[7] != '-' || !all_digits(date, 0, 4) ||
        !all_digits(date, 5, 7) || !all_digits(date, 8, 10)) {
        return false;
    }
    static const uint8_t DAYS[] = {31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    const int year =
        (date.at[0] - '0') * 1000 + (date.at[1] - '0') * 100 + (date.at[2] - '0') * 10 + date.at[3] - '0';
    const int month = (date.at[5] - '0') * 10 + date.at[6] - '0';
    const int day = (date.at[8] - '0') * 10 + date.at[9] - '0';
    if (month < 1 || month > 12 || day < 1 || day > DAYS[month - 1]) {
        return false;
    }
    const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return month != 2 || day <= 28 || leap;
}

bool ds_job_link(ds_job *const job, ds_arena *const arena)
{
    id_table places;
    if (!table_make(&places, arena, job->places_len) || !index_places(job, arena, &places) ||
        !check_point_ids(job, arena)) {
        return false;
    }
    for (size_t i = 0; i < job->points_len; i++) {
        if (!join_point(job, arena, &places, &job->points[i])) {
            return false;
        }
    }
    if (job->date.at && !ds_date_is_valid(job->date)) {
        return ds_job_complain(job, arena, ds_json_get(job->tree, DS_STR("date")), NULL, DS_P_BAD_DATE,
                               job->date, (ds_str){0});
    }
    return true;
}
