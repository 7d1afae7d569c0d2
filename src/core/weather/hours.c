/* SPDX-License-Identifier: MIT */
#include "core/weather/hours.h"

#include "core/job/csv.h"
#include "core/json/json.h"

#include <math.h>

typedef enum figure { AIR, HUMIDITY, SUN_FLAT, SUN_WALL, WIND, CLEAR, FIGURES } figure;

typedef struct figure_form {
    const char *heading, *range;
    double low, high;
} figure_form;

static const figure_form FORMS[FIGURES] = {
    [AIR] = {"air_c", "-40 to 60", -40, 60},
    [HUMIDITY] = {"humidity_pct", "0 to 100", 0, 100},
    [SUN_FLAT] = {"sun_flat_w_m2", "0 to 1500", 0, 1500},
    [SUN_WALL] = {"sun_wall_w_m2", "0 to 1500", 0, 1500},
    [WIND] = {"wind_m_s", "0 to 60", 0, 60},
    [CLEAR] = {"clear", "0 to 1", 0, 1},
};

typedef struct reading {
    ds_csv csv;
    ds_arena *arena;
    ds_problem *problem;
    size_t columns[FIGURES]; /* where each stands, from 0 */
    size_t columns_len;
    ds_weather_hour *hours;
    size_t len, room;
} reading;

static ds_status fail(const reading *const r, const ds_problem_code code, const size_t column, const ds_str a,
                      const char *const b)
{
    *r->problem = (ds_problem){
        .code = code, .where = {.line = r->csv.row, .column = (uint32_t)column}, .a = a, .b = ds_str_of(b)};
    return DS_BAD_INPUT;
}

/* --- headings ----------------------------------------------------------------------------------------------------- */

static ds_status read_headings(reading *const r)
{
    ds_str cells[DS_CSV_COLUMNS];
    const ds_status status = ds_csv_row(&r->csv, cells, &r->columns_len, r->problem);
    if (status != DS_OK) {
        return status;
    }
    for (int f = 0; f < FIGURES; f++) {
        size_t found = r->columns_len;
        for (size_t i = 0; i < r->columns_len; i++) {
            if (ds_str_is(cells[i], FORMS[f].heading)) {
                found = i;
            }
        }
        if (found == r->columns_len) {
            return fail(r, DS_P_NO_COLUMN, 0, ds_str_of(FORMS[f].heading), "");
        }
        r->columns[f] = found;
    }
    return DS_OK;
}

/* --- rows --------------------------------------------------------------------------------------------------------- */

static ds_status read_figure(const reading *const r, const ds_str cell, const figure which, double *const out)
{
    ds_json *value = NULL;
    ds_problem why;
    const size_t column = r->columns[which] + 1;
    const ds_status status = ds_json_read(&value, cell, r->arena, &DS_JSON_LIMITS, &why);
    if (status == DS_NO_MEMORY) {
        return status;
    }
    if (status != DS_OK || !ds_json_number(value, out)) {
        return fail(r, DS_P_CELL_FORM, column, cell, "a plain number");
    }
    const bool fits = *out >= FORMS[which].low && *out <= FORMS[which].high;
    return fits ? DS_OK : fail(r, DS_P_OUT_OF_RANGE, column, cell, FORMS[which].range);
}

static ds_status make_room(reading *const r)
{
    if (r->len < r->room) {
        return DS_OK;
    }
    const size_t room = r->room ? 2 * r->room : 64;
    ds_weather_hour *const hours = ds_arena_take_many(r->arena, room, sizeof *hours);
    if (!hours) {
        return DS_NO_MEMORY;
    }
    for (size_t i = 0; i < r->len; i++) {
        hours[i] = r->hours[i];
    }
    r->hours = hours;
    r->room = room;
    return DS_OK;
}

static ds_status read_hour(reading *const r, const ds_str cells[DS_CSV_COLUMNS], const size_t len)
{
    double figures[FIGURES] = {0};
    ds_status status = len == r->columns_len
                           ? DS_OK
                           : fail(r, DS_P_CELL_FORM, 0, DS_STR("this row"), "as long as the headings");
    for (int f = 0; f < FIGURES && status == DS_OK; f++) {
        status = read_figure(r, cells[r->columns[f]], (figure)f, &figures[f]);
    }
    if (status == DS_OK && r->len >= DS_WEATHER_HOURS_MOST) {
        status = fail(r, DS_P_OUT_OF_RANGE, 0, DS_STR("this hour"), "the 100000 that are read");
    }
    status = status == DS_OK ? make_room(r) : status;
    if (status == DS_OK) {
        r->hours[r->len++] = (ds_weather_hour){.air_c = figures[AIR],
                                               .humidity = figures[HUMIDITY] / 100,
                                               .sun_flat_w_m2 = figures[SUN_FLAT],
                                               .sun_wall_w_m2 = figures[SUN_WALL],
                                               .wind_m_s = figures[WIND],
                                               .clear = figures[CLEAR]};
    }
    return status;
}

/* One dry hour may be; a table of nothing else is in the wrong unit. */
static bool are_fractions(const reading *const r)
{
    for (size_t i = 0; i < r->len; i++) {
        if (r->hours[i].humidity > 0.01) {
            return false;
        }
    }
    return true;
}

ds_status ds_weather_read(ds_weather *const out, const ds_str source, ds_arena *const arena,
                          ds_problem *const problem)
{
    *out = (ds_weather){NULL, 0};
    reading r = {.arena = arena, .problem = problem};
    ds_csv_open(&r.csv, source, arena);
    ds_status status = read_headings(&r);
    ds_str cells[DS_CSV_COLUMNS];
    size_t len = 1;
    while (status == DS_OK && len) {
        status = ds_csv_row(&r.csv, cells, &len, problem);
        if (status == DS_OK && len) {
            status = read_hour(&r, cells, len);
        }
    }
    if (status == DS_OK && !r.len) {
        status = fail(&r, DS_P_CSV_EMPTY, 0, DS_STR(""), "");
    }
    if (status == DS_OK && are_fractions(&r)) {
        status = fail(&r, DS_P_UNIT_SLIP, r.columns[HUMIDITY] + 1, DS_STR("all of \"humidity_pct\""),
                      "; are these fractions?");
    }
    if (status == DS_OK) {
        *out = (ds_weather){r.hours, r.len};
    }
    return status;
}
