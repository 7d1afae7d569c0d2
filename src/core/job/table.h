/* SPDX-License-Identifier: MIT */
/*
 * Rows of the tables that fields.h reads objects by: private to job/. A table ends with {0}; tests/schema.mjs reads the
 * same rows and compares them with the schema.
 */
#ifndef DS_JOB_TABLE_H
#define DS_JOB_TABLE_H

#include "core/job/fields.h"

#define AT(type, member) offsetof(type, member)
#define ROW(key_text, kind_, offset_)                                                                        \
    {                                                                                                        \
        .key = (key_text), .kind = (kind_), .offset = (offset_)                                              \
    }
#define ROW_WITHIN(key_text, kind_, offset_, low_, high_)                                                    \
    {                                                                                                        \
        .key = (key_text), .kind = (kind_), .offset = (offset_), .low = (low_), .high = (high_)              \
    }
#define TEXT(type, key, member) ROW(key, DS_FIELD_TEXT, AT(type, member))
#define TRI(type, key, member) ROW(key, DS_FIELD_TRI, AT(type, member))
#define WORDS(type, key, member) ROW(key, DS_FIELD_WORDS, AT(type, member))
#define TREE(type, key, member) ROW(key, DS_FIELD_TREE, AT(type, member))
#define NUMBER(type, key, member, low, high) ROW_WITHIN(key, DS_FIELD_NUMBER, AT(type, member), low, high)
#define COUNT(type, key, member, low, high) ROW_WITHIN(key, DS_FIELD_COUNT, AT(type, member), low, high)
#define RANGE(type, key, member, low, high) ROW_WITHIN(key, DS_FIELD_RANGE, AT(type, member), low, high)
#define POINT3(type, key, member, low, high) ROW_WITHIN(key, DS_FIELD_POINT, AT(type, member), low, high)
#define OBJECT(type, key_text, member, table)                                                                \
    {                                                                                                        \
        .key = (key_text), .kind = DS_FIELD_OBJECT, .offset = AT(type, member), .fields = (table)            \
    }
#define ID(type, key_text, member)                                                                           \
    {                                                                                                        \
        .key = (key_text), .kind = DS_FIELD_TEXT, .offset = AT(type, member), .required = true               \
    }

#endif
