/* SPDX-License-Identifier: MIT */
/*
 * Reading an object into a struct by a table of its keys: private to job/.
 *
 * One ds_field per key says its kind, where it goes in the struct and what range it may have. One routine reads all
 * objects of the format, and reports wrong types, ranges and unknown keys in one way.
 */
#ifndef DS_JOB_FIELDS_H
#define DS_JOB_FIELDS_H

#include "core/job/job.h"

typedef enum ds_field_kind {
    DS_FIELD_TEXT,   /* ds_str */
    DS_FIELD_NUMBER, /* double within low..high */
    DS_FIELD_COUNT,  /* double, whole, within low..high */
    DS_FIELD_TRI,    /* ds_tri */
    DS_FIELD_WORDS,  /* const ds_json *: an array of strings */
    DS_FIELD_TREE,   /* const ds_json *: any value, checked elsewhere */
    DS_FIELD_RANGE,  /* two doubles: [low, high] */
    DS_FIELD_PLACE,  /* two doubles: [x, y] */
    DS_FIELD_POINT,  /* three doubles: [x, y, z] */
    DS_FIELD_OBJECT  /* a struct at the offset, with a table of its own */
} ds_field_kind;

typedef struct ds_field ds_field;
struct ds_field {
    const char *key;
    ds_field_kind kind;
    size_t offset;
    double low, high;       /* limits; the unit is in the key */
    const ds_field *fields; /* DS_FIELD_OBJECT: its table, ended by key == NULL */
    bool required;
};

typedef struct ds_reader {
    ds_job *job;
    ds_arena *arena;
    int32_t *owner; /* the problem slot of what is being read */
    bool failed;    /* memory ran out */
} ds_reader;

/* Fills the struct at `out` (already set to "missing") from an object. */
void ds_fields_read(ds_reader *reader, const ds_json *object, const ds_field *fields, void *out);

/* Reports a problem at a value for the current owner. */
void ds_reader_complain(ds_reader *reader, const ds_json *value, ds_problem_code code, ds_str a, ds_str b);

/* The tables of a point, a place and a mark (job.c). */
const ds_field *ds_point_fields(void);
const ds_field *ds_place_fields(void);
const ds_field *ds_marked_fields(void);

#endif
