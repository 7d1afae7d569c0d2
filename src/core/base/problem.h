/* SPDX-License-Identifier: MIT */
/*
 * What went wrong and where. Errors are values that the caller owns; no global, no text made deep inside.
 *
 * A ds_status says whether a call did its work. A ds_problem is one thing wrong in a document: a code from the list
 * below, its place and up to two words that the message names. ds_problem_say and ds_problem_mend make the two
 * sentences (what is wrong; what to do) from one table, for the terminal, JSON and the page alike.
 */
#ifndef DS_BASE_PROBLEM_H
#define DS_BASE_PROBLEM_H

#include "core/base/text.h"

typedef enum ds_status {
    DS_OK,
    DS_NO_MEMORY,
    DS_BAD_INPUT /* the problem handed back says what and where */
} ds_status;

/* X(code, "what is wrong, %a and %b filled in", "what to do about it") */
#define DS_PROBLEMS(X)                                                                                       \
    X(JSON_BROKEN, "this is not JSON: %a",                                                                   \
      "Mend the text at this place; a comma, quote or bracket is usual.")                                    \
    X(JSON_HALF, "the file ends in the middle", "Save or copy the whole file again.")                        \
    X(JSON_AFTER_END, "something follows the end of the document",                                           \
      "Remove all that stands after the last bracket.")                                                      \
    X(JSON_NOT_UTF8, "these bytes are not UTF-8 text", "Save the file as UTF-8.")                            \
    X(JSON_ESCAPE, "the escape %a is not a character",                                                       \
      "Write the character itself, or a full pair of escapes.")                                              \
    X(JSON_TOO_DEEP, "values are nested deeper than %a levels",                                              \
      "A job needs no such depth; remove the nesting.")                                                      \
    X(JSON_TOO_LARGE, "the document is larger than %a bytes", "Split the job into several files.")           \
    X(JSON_DUPLICATE_KEY, "the key \"%a\" stands twice in one object", "Keep one of the two.")               \
    X(JSON_TOO_MANY_KEYS, "one object has more than %a keys", "Split it; no object here needs so many.")     \
    X(JSON_NUMBER, "%a is not a number that can be used", "Write a plain decimal number.")                   \
    X(EMPTY, "the file is empty", "Start one with: dripstone new")                                           \
    X(NOT_A_JOB, "this is no job document of format 1", "The first key must be \"dripstone\": 1.")           \
    X(NOT_A_PACK, "this is no rule pack of format 1", "The first key must be \"dripstone_pack\": 1.")        \
    X(NOT_WORDS, "this is no word file of format 1", "The first key must be \"dripstone_words\": 1.")        \
    X(WRONG_TYPE, "\"%a\" must be %b", "Write it in that form.")                                             \
    X(MISSING_KEY, "\"%a\" is missing here", "Add it.")                                                      \
    X(UNKNOWN_KEY, "the key \"%a\" is not known here%b",                                                     \
      "Correct it; it is kept, and means nothing until then.")                                               \
    X(UNKNOWN_WORD, "the word \"%a\" is not known%b",                                                        \
      "Use a known word; dripstone seen and docs list them.")                                                \
    X(OUT_OF_RANGE, "%a is outside %b", "Measure again, or correct the unit.")                               \
    X(UNIT_SLIP, "%a is too little for this%b", "Write it in the unit that the key names.")                  \
    X(WRONG_ORDER, "%a stands first and is above %b", "Write the lower figure first.")                       \
    X(HEIGHT_DIFFERS, "a height of %a m is stated, but the position says %b m",                              \
      "Correct the one that is wrong.")                                                                      \
    X(DUPLICATE_ID, "the id \"%a\" is used twice", "Give each its own id.")                                  \
    X(NO_SUCH_PLACE, "there is no place \"%a\"%b", "Name one of the job's places.")                          \
    X(BAD_DATE, "\"%a\" is not a date", "Write year-month-day, as in 2026-05-04.")                           \
    X(SEEN_AND_ABSENT, "\"%a\" is said to be seen and to be absent", "Keep the one that is true.")           \
    X(COUNT_AT_ONE_PLACE, "%a pieces stand at one position", "Give each its own point where zones matter.")  \
    X(NO_SUCH_ZONE, "there is no zone \"%a\" in such a place%b", "State a zone that exists there.")          \
    X(PLAN_CROSSES, "an outline crosses itself", "List its corners in order, once round.")                   \
    X(PLAN_FLAT, "this encloses nothing", "Give at least three corners that do not lie on one line.")        \
    X(PLAN_NO_LENGTH, "a side has no length", "Leave out the corner that stands twice.")                     \
    X(PLAN_OUTSIDE, "this %a does not stand in the room", "Check its figures against the room's outline.")   \
    X(PLAN_TOO_FINE, "the plan has more than 800 walls", "Draw round things with fewer corners.")            \
    X(PLAN_UPSIDE_DOWN, "%a lies above %b",                                                                  \
      "Measure both again, upwards from the finished floor, which is 0.")                                    \
    X(PLAN_ROOMS_TOUCH, "this room touches or overlaps another, so that no wall stands between them",        \
      "Leave the wall's thickness between the outlines, or draw both as one room.")                          \
    X(PLAN_NO_BASIN, "this shower outlet is said to stand over a basin, and the plan shows none under it",   \
      "Draw the bath or basin, or write \"basin\": false.")                                                  \
    X(PLAN_KIND, "a %a stands in it, and such a kind of place has no zones",                                 \
      "Name the kind that it makes of the place: bath-room, pool, fountain or sauna.")                       \
    X(PLAN_NOT_HERE, "no zone of such a place is measured from a %a",                                        \
      "Give it a place of its own, of the right kind.")                                                      \
    X(PLAN_NOTHING_WET, "the plan shows nothing that zones are measured from",                               \
      "Add the bath, shower, basin, pool or heater.")                                                        \
    X(PLAN_NO_SUCH, "the plan has no feature \"%a\"", "Name the id of one of its features.")                 \
    X(PLAN_NO_LAW, "no rule pack of this job says where the zones of such a place lie",                      \
      "Name a pack that does, or state zones: zone_stated.")                                                 \
    X(IN_A_WALL, "the position does not lie in the room of the plan", "Measure again, or correct the plan.") \
    X(ZONE_DIFFERS, "zone %a is stated, but the plan gives zone %b", "Correct the one that is wrong.")       \
    X(UNREADABLE_NEED, "\"%a\" cannot be read as a need: %b", "Write a code such as IP44, IPX5 or IPXXB.")   \
    X(NO_SUCH_THING, "the job has no \"%a\"", "Name the id of one of its places or points.")                 \
    X(NO_SUCH_PACK, "there is no rule pack \"%a\"%b", "Name a pack that exists: dripstone rules.")           \
    X(RULE_SHAPE, "rule \"%a\": %b", "See the format of rule packs in the documentation.")                   \
    X(TOO_MANY_WORDS, "there are more than %a words", "Fewer words, or raise the limit in the program.")     \
    X(CSV_UTF16, "this table is UTF-16 text", "Save the sheet again as CSV in UTF-8.")                       \
    X(CSV_NOT_UTF8, "this cell is not UTF-8 text; Latin-1 or Windows-1252 is usual",                         \
      "Save the sheet again as CSV in UTF-8.")                                                               \
    X(CSV_ZERO, "a zero byte stands in this cell", "Save the sheet again as CSV; this is no plain text.")    \
    X(CSV_UNCLOSED, "the quote that opens this cell is never closed",                                        \
      "Close it, or save the sheet again as CSV.")                                                           \
    X(CSV_QUOTE, "a quote stands where none may", "Double it, and put the whole cell into quotes.")          \
    X(CSV_CELL_LONG, "this cell is longer than %a bytes", "Shorten it, or close the quote before it.")       \
    X(CSV_COLUMNS, "there are more than %a columns", "Leave out what the job has no use for.")               \
    X(CSV_RAGGED, "this row has %a cells and the headings are %b",                                           \
      "Fill the row up, or put a cell that holds the separator into quotes.")                                \
    X(CSV_EMPTY, "the table has no rows", "The first row holds the headings, each further one a point.")     \
    X(NOT_A_MAP, "this is no mapping of format 1", "The first key must be \"dripstone_map\": 1.")            \
    X(MAP_KEY, "\"%a\" is no key that a column can fill%b",                                                  \
      "Name one of those that the documentation of import lists.")                                           \
    X(MAP_HEADING, "the table has no column \"%a\"%b",                                                       \
      "Correct the heading in the mapping, or leave it out.")                                                \
    X(COLUMN_TWICE, "column %b fills \"%a\" as well", "Let the mapping leave out one of the two (null).")    \
    X(NO_COLUMN, "no column fills \"%a\"", "Give it that heading, or name it in a mapping.")                 \
    X(ROW_ID_TWICE, "the id \"%a\" stands in row %b too", "Give each row its own id.")                       \
    X(CELL_FORM, "\"%a\" is not %b", "Correct the cell.")                                                    \
    X(ROW_LACKS, "a new point needs \"%a\"", "Fill the cell, or correct the id if the point is not new.")    \
    X(NEW_PLACE, "the job has no place \"%a\"%b",                                                            \
      "Name one of its places by id or name, or have new ones added: --add-places.")                         \
    X(PLACE_NAMES_TWO, "two places are called \"%a\"", "Write the id of the place.")                         \
    X(PLACES_MOST, "there are more than %a new places",                                                      \
      "Is this the column of places? Add them in several imports.")                                          \
    X(PLACE_DIFFERS, "\"%a\" here, and row %b says something else about this place",                         \
      "Write the same in each row of a place, or once.")                                                     \
    X(NO_PLACE_MEANT, "the row does not say which place \"%a\" is about", "Fill the cell of the place.")     \
    X(SEVERAL_MARKS, "the point has several marks, and a cell says one",                                     \
      "Change them in the job itself; leave the cell empty.")                                                \
    X(SEEN_FIGURES, "the job has figures with what was seen here",                                           \
      "Change it in the job itself; leave the cell empty.")                                                  \
    X(POSITION_HALF, "a position needs x, y and z", "Fill all three cells, or none.")

typedef enum ds_problem_code {
#define X(code, say, mend) DS_P_##code,
    DS_PROBLEMS(X)
#undef X
} ds_problem_code;

/* A place in a document: JSON pointer, and line and column from 1 (columns count characters). line 0: no place. */
typedef struct ds_where {
    ds_str pointer;
    uint32_t line;
    uint32_t column;
} ds_where;

typedef struct ds_problem {
    ds_problem_code code;
    ds_where where;
    ds_str a; /* fill the message's gaps; borrowed from the document or its arena */
    ds_str b;
} ds_problem;

/* A list that grows in an arena, in the order found. */
typedef struct ds_problems {
    ds_problem *at;
    size_t len;
    size_t room; /* private */
} ds_problems;

/* False when memory is short. */
bool ds_problems_add(ds_problems *list, ds_arena *arena, const ds_problem *problem);

/*
 * "; did you mean "hose-nearby"?" for a misspelt word, made in the arena, to stand in a problem's gap b; empty when no
 * word of the list is near or memory is short.
 */
ds_str ds_suggest(ds_arena *arena, ds_str word, const ds_str *list, size_t list_len);

/* What is wrong, as one sentence without a full stop; then what to do about it, as one sentence. */
void ds_problem_say(ds_text *out, const ds_problem *problem);
void ds_problem_mend(ds_text *out, const ds_problem *problem);

#endif
