/* SPDX-License-Identifier: MIT */
/* One mark as JSON, and one need against one mark. */
#include "core/assess/render.h"

#include "core/assess/say.h"
#include "core/json/write.h"
#include "core/mark/read.h"

static void put_line(ds_json_writer *const w, const char *const key, ds_text *const line)
{
    ds_json_put_key(w, key);
    if (line->len) {
        ds_json_put_str(w, ds_text_str(line));
    } else {
        ds_json_put_null(w);
    }
    w->text->failed = w->text->failed || !ds_text_ok(line);
    line->len = 0;
}

/* Numerals 1..9 of a set of water tests. */
static void put_water(ds_json_writer *const w, const char *const key, const uint64_t tests)
{
    ds_json_put_key(w, key);
    ds_json_begin_array(w);
    for (int n = 1; n <= DS_WATER_LEN; n++) {
        if (tests & DS_WATER(n)) {
            ds_json_put_int(w, n);
        }
    }
    ds_json_end_array(w);
}

static void put_solids(ds_json_writer *const w, const ds_reading *const reading)
{
    ds_json_put_key(w, "solids");
    if (reading->has_code && reading->claim.objects >= 0) {
        ds_json_put_int(w, reading->claim.objects);
    } else {
        ds_json_put_null(w);
    }
}

static void put_access(ds_json_writer *const w, const uint64_t tests)
{
    static const char *const LETTERS[] = {"A", "B", "C", "D"};
    const char *letter = NULL;
    for (int i = 0; i < DS_ACCESS_LEN; i++) {
        letter = tests & DS_ACCESS('A' + i) ? LETTERS[i] : letter;
    }
    ds_json_put_key(w, "access");
    ds_json_put_text(w, letter);
}

/* null where no water numeral is stated. */
static void put_stated_water(ds_json_writer *const w, const ds_reading *const reading)
{
    if (reading->has_code && (reading->claim.water_stated || reading->claim.water_foreign)) {
        put_water(w, "water", ds_mark_proven(reading->mark));
    } else {
        ds_json_put_key(w, "water");
        ds_json_put_null(w);
    }
}

static void put_impact(ds_json_writer *const w, const ds_reading *const reading)
{
    ds_json_put_key(w, "impact_j");
    if (reading->has_code && reading->claim.impact >= 0) {
        ds_json_put_number(w, ds_impact_joules((unsigned)reading->claim.impact));
    } else {
        ds_json_put_null(w);
    }
}

static void put_parts(ds_json_writer *const w, const ds_reading *const reading, ds_text *const line)
{
    ds_json_put_key(w, "parts");
    ds_json_begin_array(w);
    for (uint8_t i = 0; i < reading->parts_len; i++) {
        ds_json_begin_object(w);
        ds_mark_print(line, reading->parts[i].mark);
        put_line(w, "reading", line);
        ds_json_put_key(w, "when");
        ds_json_put_text(w, reading->parts[i].when);
        ds_json_end_object(w);
    }
    ds_json_end_array(w);
}

void ds_reading_json(ds_text *const out, const ds_str text)
{
    ds_reading reading;
    ds_mark_read(text, &reading);
    ds_json_writer w = ds_json_writer_on(out);
    ds_text line;
    ds_text_init(&line, out->alloc);
    ds_json_begin_object(&w);
    if (reading.has_code) {
        ds_reading_print(&line, &reading);
    }
    put_line(&w, "reading", &line);
    ds_json_put_key(&w, "status");
    ds_json_put_text(&w, ds_read_status_word(reading.status));
    ds_json_put_key(&w, "valid");
    ds_json_put_bool(&w, reading.valid);
    put_solids(&w, &reading);
    put_access(&w, ds_mark_proven(reading.mark));
    put_stated_water(&w, &reading);
    put_impact(&w, &reading);
    put_water(&w, "water_denied", ds_mark_denied(reading.mark));
    put_parts(&w, &reading, &line);
    ds_reading_because(&line, &reading);
    put_line(&w, "because", &line);
    ds_json_end_object(&w);
    ds_text_char(out, '\n');
    ds_text_free(&line);
}

/* --- compare ------------------------------------------------------------------------------------------------------ */

static void put_test(void *const ctx, const ds_str test)
{
    ds_json_put_str(ctx, test);
}

bool ds_compare_json(ds_text *const out, const ds_str need_text, const ds_str mark_text)
{
    ds_need need = DS_NEED_NOTHING;
    ds_reading reading;
    if (!ds_need_read(need_text, &need, &reading)) {
        return false;
    }
    ds_mark_read(mark_text, &reading);
    ds_need lost = DS_NEED_NOTHING;
    const ds_verdict verdict = ds_mark_compare(need, reading.mark, &lost);
    ds_json_writer w = ds_json_writer_on(out);
    ds_text line;
    ds_text_init(&line, out->alloc);
    ds_json_begin_object(&w);
    ds_json_put_key(&w, "verdict");
    ds_json_put_text(&w, ds_verdict_word(verdict));
    ds_json_put_key(&w, "lost");
    ds_json_begin_array(&w);
    ds_need_each(lost, put_test, &w);
    ds_json_end_array(&w);
    ds_say_comparison(&line, need, &reading);
    put_line(&w, "because", &line);
    ds_json_end_object(&w);
    ds_text_char(out, '\n');
    ds_text_free(&line);
    return true;
}
