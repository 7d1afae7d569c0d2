/* SPDX-License-Identifier: MIT */
/*
 * Threads, glands and cables by their names: data from rules/entries.json (format: docs/packs.md), so that adding a
 * cable needs no C.
 *
 * What a size stands for differs in weight. The diameter of a thread is standardised. The range of a cable's diameter is
 * what the standard allows a maker. The range of a gland is only what is usual: two glands of one thread may differ, so
 * it helps to say what to look for and never decides. Each row says where it comes from.
 *
 *     ds_sizes sizes;
 *     if (ds_sizes_read(&sizes, text, &arena, &problem) != DS_OK) … problem says what and where …
 *     const ds_cable_type *type = ds_sizes_cable_type(&sizes, DS_STR("H07RN-F"));
 *     const ds_cable_size *size = ds_sizes_cable(type, DS_STR("3 G 2,5"));
 *     size->od_mm[0] == 10.9, size->od_mm[1] == 14.0
 *
 * Names are compared without regard to case and spaces, a comma as a point; cable sizes by their figures, so that 3G1.5
 * and 3 x 1,5 are one (a core's colour does not change its diameter). Lengths are millimetres.
 */
#ifndef DS_BOX_SIZES_H
#define DS_BOX_SIZES_H

#include "core/rules/words.h"

typedef struct ds_thread_size {
    ds_str size; /* "M20", "PG16" */
    const ds_json *also;
    double thread_mm;  /* outside diameter */
    double hole_mm[2]; /* plain hole for it, least and greatest */
    double core_mm;    /* drilled before the thread is cut */
    const ds_source *source;
} ds_thread_size;

typedef struct ds_gland_size {
    ds_str thread, gland; /* gland: the size of an armoured one, "20S"; at == NULL: none */
    double range_mm[2];
    double inner_range_mm[2]; /* under the armour; NAN: has no such seal */
    const ds_source *source;
} ds_gland_size;

/* Least and greatest of each; NAN where it does not apply. The type's spread is already in them. */
typedef struct ds_cable_size {
    ds_str size;            /* "3G2.5" */
    double cores, area_mm2; /* cores 0: not named */
    double od_mm[2], inner_mm[2], width_mm[2], thickness_mm[2];
} ds_cable_size;

typedef struct ds_cable_type {
    ds_str type, label;
    const ds_json *also;
    bool flat;
    double spread_pct;
    ds_source source;
    const ds_cable_size *sizes;
    size_t sizes_len;
} ds_cable_type;

typedef struct ds_sizes {
    const ds_thread_size *threads;
    size_t threads_len;
    const ds_gland_size *glands;
    size_t glands_len;
    const ds_cable_type *cables;
    size_t cables_len;
} ds_sizes;

/* Tables without a row: every name is unknown. */
#define DS_SIZES_NONE ((ds_sizes){0})

/* Reads the file; source must outlive the arena. DS_BAD_INPUT: *problem says what and where. */
ds_status ds_sizes_read(ds_sizes *out, ds_str source, ds_arena *arena, ds_problem *problem);

/* NULL when unknown. */
const ds_thread_size *ds_sizes_thread(const ds_sizes *sizes, ds_str size);
const ds_gland_size *ds_sizes_armoured(const ds_sizes *sizes, ds_str gland);
const ds_cable_type *ds_sizes_cable_type(const ds_sizes *sizes, ds_str type);

/* A size of that type, NULL when unknown. */
const ds_cable_size *ds_sizes_cable(const ds_cable_type *type, ds_str size);

/* "3G2.5", "3 x 2,5 mm2" -> 3 cores of 2.5; "2.5" -> 0 cores named. False when it is no such size. */
bool ds_cable_size_read(ds_str text, double *cores, double *area_mm2);

/*
 * The first usual gland in the file that takes cables of these diameters and has this thread (NULL: any); NULL when none
 * is listed. inner_mm are the diameters under the armour, NULL when the cable has none.
 */
const ds_gland_size *ds_sizes_gland_for(const ds_sizes *sizes, const ds_thread_size *thread,
                                        const double od_mm[2], const double *inner_mm);

#endif
