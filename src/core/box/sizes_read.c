/* SPDX-License-Identifier: MIT */
/*
 * Reading rules/entries.json by the same kind of tables as a job (job/fields.h).
 *
 * The file is the project's own or a person's: the first thing wrong refuses it, with its place.
 */
#include "core/box/sizes.h"

#include "core/job/table.h"

#include <math.h>

/* --- tables ------------------------------------------------------------------------------------------------------- */

static const ds_field THREAD[] = {
    ID(ds_thread_size, "size", size),
    WORDS(ds_thread_size, "also", also),
    NUMBER(ds_thread_size, "thread_mm", thread_mm, 1, 500),
    RANGE(ds_thread_size, "hole_mm", hole_mm, 1, 500),
    NUMBER(ds_thread_size, "core_mm", core_mm, 1, 500),
    {0},
};

static const ds_field GLAND[] = {
    ID(ds_gland_size, "thread", thread),
    TEXT(ds_gland_size, "gland", gland),
    RANGE(ds_gland_size, "range_mm", range_mm, 0, 500),
    RANGE(ds_gland_size, "inner_range_mm", inner_range_mm, 0, 500),
    {0},
};

static const ds_field CABLE_SIZE[] = {
    ID(ds_cable_size, "size", size),
    RANGE(ds_cable_size, "od_mm", od_mm, 0.1, 500),
    RANGE(ds_cable_size, "inner_mm", inner_mm, 0.1, 500),
    RANGE(ds_cable_size, "width_mm", width_mm, 0.1, 500),
    RANGE(ds_cable_size, "thickness_mm", thickness_mm, 0.1, 500),
    {0},
};

/* A list of rows with one source. */
typedef struct group {
    ds_str series;
    const ds_json *source, *sizes;
} group;

static const ds_field GROUP[] = {
    TEXT(group, "series", series),
    TREE(group, "source", source),
    TREE(group, "sizes", sizes),
    {0},
};

typedef struct type_keys {
    ds_cable_type type;
    ds_str shape;
    const ds_json *source, *sizes;
} type_keys;

static const ds_field CABLE_TYPE[] = {
    ID(type_keys, "type", type.type),
    WORDS(type_keys, "also", type.also),
    TEXT(type_keys, "label", type.label),
    TEXT(type_keys, "shape", shape),
    NUMBER(type_keys, "spread_pct", type.spread_pct, 0, 50),
    TREE(type_keys, "source", source),
    TREE(type_keys, "sizes", sizes),
    {0},
};

typedef struct file_keys {
    double version;
    const ds_json *threads, *glands, *cables;
} file_keys;

static const ds_field HEAD[] = {
    {.key = "dripstone_entries",
     .kind = DS_FIELD_COUNT,
     .offset = AT(file_keys, version),
     .low = 1,
     .high = 1,
     .required = true},
    TREE(file_keys, "threads", threads),
    TREE(file_keys, "glands", glands),
    TREE(file_keys, "cables", cables),
    {0},
};

/* --- reading ------------------------------------------------------------------------------------------------------ */

typedef struct size_reader {
    ds_reader reader;
    ds_sizes *out;
    ds_thread_size *threads; /* those of out, to be filled */
    ds_gland_size *glands;
} size_reader;

static void need_range(ds_reader *const reader, const ds_json *const row, const char *const key,
                       const double range[2])
{
    if (!(range[0] <= range[1])) {
        ds_reader_complain(reader, row, DS_P_WRONG_TYPE, ds_str_of(key),
                           DS_STR("two numbers, the smaller first"));
    }
}

static void may_have_range(ds_reader *const reader, const ds_json *const row, const char *const key,
                           const double range[2])
{
    if (!isnan(range[0]) || !isnan(range[1])) {
        need_range(reader, row, key, range);
    }
}

/* The first element of a list; NULL, after a complaint, when the value is missing or no list of objects. */
static const ds_json *first_of(ds_reader *const reader, const ds_json *const list, const char *const key)
{
    const ds_json *item = list && list->kind == DS_JSON_ARRAY ? list->first : NULL;
    bool good = list && list->kind == DS_JSON_ARRAY;
    for (; item && good; item = item->next) {
        good = item->kind == DS_JSON_OBJECT;
    }
    if (!good) {
        ds_reader_complain(reader, list, DS_P_WRONG_TYPE, ds_str_of(key), DS_STR("a list of objects"));
        return NULL;
    }
    return list->first;
}

static const ds_source *read_source(ds_reader *const reader, const ds_json *const value)
{
    ds_source *const source = ds_arena_take(reader->arena, sizeof *source);
    if (!source) {
        reader->failed = true;
    } else if (!value || !ds_source_read(source, value)) {
        ds_reader_complain(reader, value, DS_P_WRONG_TYPE, DS_STR("source"), DS_STR("a kind and a ref"));
    }
    return source;
}

/* All rows of all groups of a list, before they are read. */
static size_t count_rows(const ds_json *const groups)
{
    size_t count = 0;
    for (const ds_json *item = groups; item; item = item->next) {
        const ds_json *const rows = ds_json_get(item, DS_STR("sizes"));
        count += rows && rows->kind == DS_JSON_ARRAY ? rows->count : 0;
    }
    return count;
}

static void *take_rows(ds_reader *const reader, const size_t count, const size_t size)
{
    void *const room = ds_arena_take_many(reader->arena, count, size);
    reader->failed = reader->failed || !room;
    return room;
}

static ds_thread_size read_thread(ds_reader *const reader, const ds_json *const row,
                                  const ds_source *const source)
{
    ds_thread_size out = {.thread_mm = NAN, .hole_mm = {NAN, NAN}, .core_mm = NAN, .source = source};
    ds_fields_read(reader, row, THREAD, &out);
    need_range(reader, row, "hole_mm", out.hole_mm);
    if (!(out.core_mm < out.thread_mm && out.thread_mm < out.hole_mm[0])) {
        ds_reader_complain(reader, row, DS_P_WRONG_TYPE, DS_STR("thread_mm"),
                           DS_STR("more than core_mm and less than hole_mm"));
    }
    return out;
}

static ds_gland_size read_gland(ds_reader *const reader, const ds_json *const row,
                                const ds_source *const source)
{
    ds_gland_size out = {.range_mm = {NAN, NAN}, .inner_range_mm = {NAN, NAN}, .source = source};
    ds_fields_read(reader, row, GLAND, &out);
    need_range(reader, row, "range_mm", out.range_mm);
    may_have_range(reader, row, "inner_range_mm", out.inner_range_mm);
    return out;
}

/* One row of a group goes to the end of its table. */
typedef void read_row(size_reader *s, const ds_json *row, const ds_source *source);

static void read_thread_row(size_reader *const s, const ds_json *const row, const ds_source *const source)
{
    s->threads[s->out->threads_len++] = read_thread(&s->reader, row, source);
}

static void read_gland_row(size_reader *const s, const ds_json *const row, const ds_source *const source)
{
    s->glands[s->out->glands_len++] = read_gland(&s->reader, row, source);
}

/* Groups of rows, the room for all of which is there. */
static void read_groups(size_reader *const s, const ds_json *item, read_row *const read)
{
    for (; item; item = item->next) {
        group keys = {.sizes = NULL};
        ds_fields_read(&s->reader, item, GROUP, &keys);
        const ds_source *const source = read_source(&s->reader, keys.source);
        for (const ds_json *row = first_of(&s->reader, keys.sizes, "sizes"); row; row = row->next) {
            read(s, row, source);
        }
    }
}

static void widen(double range[2], const double spread_pct)
{
    range[0] *= 1 - spread_pct / 100;
    range[1] *= 1 + spread_pct / 100;
}

static ds_cable_size read_cable_row(ds_reader *const reader, const ds_json *const row,
                                    const ds_cable_type *const type)
{
    ds_cable_size out = {
        .od_mm = {NAN, NAN}, .inner_mm = {NAN, NAN}, .width_mm = {NAN, NAN}, .thickness_mm = {NAN, NAN}};
    ds_fields_read(reader, row, CABLE_SIZE, &out);
    if (out.size.at && !ds_cable_size_read(out.size, &out.cores, &out.area_mm2)) {
        ds_reader_complain(reader, row, DS_P_WRONG_TYPE, DS_STR("size"), DS_STR("a size such as 3G2.5"));
    }
    if (type->flat) {
        need_range(reader, row, "width_mm", out.width_mm);
        need_range(reader, row, "thickness_mm", out.thickness_mm);
    } else {
        need_range(reader, row, "od_mm", out.od_mm);
    }
    may_have_range(reader, row, "inner_mm", out.inner_mm);
    widen(out.od_mm, type->spread_pct);
    widen(out.inner_mm, type->spread_pct);
    widen(out.width_mm, type->spread_pct);
    widen(out.thickness_mm, type->spread_pct);
    return out;
}

static ds_cable_type read_cable_type(ds_reader *const reader, const ds_json *const item)
{
    type_keys keys = {.shape = DS_STR("round")};
    ds_fields_read(reader, item, CABLE_TYPE, &keys);
    ds_cable_type type = keys.type;
    type.flat = ds_str_is(keys.shape, "flat");
    if (!type.flat && !ds_str_is(keys.shape, "round")) {
        ds_reader_complain(reader, item, DS_P_UNKNOWN_WORD, keys.shape, DS_STR(""));
    }
    const ds_source *const source = read_source(reader, keys.source);
    const ds_json *row = first_of(reader, keys.sizes, "sizes");
    ds_cable_size *const sizes = take_rows(reader, row ? keys.sizes->count : 0, sizeof *sizes);
    if (!source || !sizes) {
        return type;
    }
    type.source = *source;
    type.sizes = sizes;
    for (; row; row = row->next) {
        sizes[type.sizes_len++] = read_cable_row(reader, row, &type);
    }
    return type;
}

static void read_cables(size_reader *const s, const ds_json *item, const size_t count)
{
    ds_cable_type *const cables = take_rows(&s->reader, count, sizeof *cables);
    s->out->cables = cables;
    for (; item && cables; item = item->next) {
        cables[s->out->cables_len++] = read_cable_type(&s->reader, item);
    }
}

static void read_file(size_reader *const s, const ds_json *const tree)
{
    file_keys keys = {.version = NAN};
    ds_fields_read(&s->reader, tree, HEAD, &keys);
    const ds_json *const threads = first_of(&s->reader, keys.threads, "threads");
    const ds_json *const glands = first_of(&s->reader, keys.glands, "glands");
    const ds_json *const cables = first_of(&s->reader, keys.cables, "cables");
    s->threads = take_rows(&s->reader, count_rows(threads), sizeof *s->threads);
    s->glands = take_rows(&s->reader, count_rows(glands), sizeof *s->glands);
    s->out->threads = s->threads;
    s->out->glands = s->glands;
    if (s->threads && s->glands) {
        read_groups(s, threads, read_thread_row);
        read_groups(s, glands, read_gland_row);
        read_cables(s, cables, cables ? keys.cables->count : 0);
    }
}

ds_status ds_sizes_read(ds_sizes *const out, const ds_str source, ds_arena *const arena,
                        ds_problem *const problem)
{
    *out = DS_SIZES_NONE;
    ds_json *tree = NULL;
    const ds_status status = ds_json_read(&tree, source, arena, &DS_JSON_LIMITS, problem);
    if (status != DS_OK) {
        return status;
    }
    ds_job job = {.tree = tree, .source = source}; /* only its list of problems is used */
    size_reader s = {.reader = {.job = &job, .arena = arena}, .out = out};
    if (tree->kind == DS_JSON_OBJECT) {
        read_file(&s, tree);
    } else {
        ds_reader_complain(&s.reader, tree, DS_P_MISSING_KEY, DS_STR("dripstone_entries"), DS_STR(""));
    }
    if (s.reader.failed || job.problems.len == 0) {
        return s.reader.failed ? DS_NO_MEMORY : DS_OK;
    }
    *problem = job.problems.at[0];
    *out = DS_SIZES_NONE;
    return DS_BAD_INPUT;
}
