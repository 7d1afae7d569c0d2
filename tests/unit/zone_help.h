/* SPDX-License-Identifier: MIT */
/*
 * What the tests of zones share: curves and outlines written short, numbers compared, and a job with one place and its
 * plan taken from text to findings and zone map.
 *
 *     zone_world w;
 *     zone_open(&w, "bath-room", "\"height_m\": 2.5, \"outline_m\": …, \"features\": […]", "");
 *     const ds_zone_answer a = zone_ask(&w, (ds_zone_item){.at_m = {1, 1, 1}});
 *     zone_close(&w);
 */
#ifndef ZONE_HELP_H
#define ZONE_HELP_H

#include "support.h"

#include <math.h>

#include "core/zone/locate.h"

/* --- numbers and curves ------------------------------------------------------------------------------------------- */

#define expect_near(got, want, off) zone_expect_near((got), (want), (off), #got, __FILE__, __LINE__)

static inline void zone_expect_near(const double got, const double want, const double off,
                                    const char *const what, const char *const file, const int line)
{
    const bool same = got == want; /* infinities */
    if (!same && !(fabs(got - want) <= off)) {
        print_error("%s:%d: %s is %.12g, not %.12g\n", file, line, what, got, want);
        _fail(file, line);
    }
}

/* From 0 to below 1, the same on every run. */
typedef struct zone_dice {
    uint64_t state;
} zone_dice;

static inline double zone_roll(zone_dice *const dice)
{
    dice->state = dice->state * UINT64_C(6364136223846793005) + UINT64_C(1442695040888963407);
    return (double)(dice->state >> 33) / (double)(UINT64_C(1) << 31);
}

static inline double zone_between(zone_dice *const dice, const double low, const double high)
{
    return low + (high - low) * zone_roll(dice);
}

static inline ds_vec zone_vec(const double x, const double y)
{
    return (ds_vec){x, y};
}

/* Segments round the corners in order, to out, which has room for them. */
static inline ds_outline zone_polygon(ds_curve *const out, const ds_vec *const corners, const size_t len)
{
    for (size_t i = 0; i < len; i++) {
        out[i] = ds_segment(corners[i], corners[(i + 1) % len]);
    }
    return (ds_outline){out, len};
}

static inline ds_outline zone_rectangle(ds_curve out[4], const double x0, const double y0, const double x1,
                                        const double y1)
{
    const ds_vec corners[] = {{x0, y0}, {x1, y0}, {x1, y1}, {x0, y1}};
    return zone_polygon(out, corners, 4);
}

/* --- a job with a plan -------------------------------------------------------------------------------------------- */

typedef struct zone_world {
    test_alloc memory;
    ds_arena arena;
    ds_text text;
    ds_rulebook *book;
    ds_job job;
    ds_findings findings;
} zone_world;

/* As zone_open, by other rule packs: "\"de\"". */
static inline void zone_open_by(zone_world *const w, const char *const packs, const char *const kind,
                                const char *const plan, const char *const points)
{
    w->memory = test_alloc_make(0);
    ds_arena_init(&w->arena, test_alloc_use(&w->memory));
    ds_text_init(&w->text, &w->memory.alloc);
    w->book = malloc(sizeof *w->book);
    assert_non_null(w->book);
    assert_int_equal(support_rulebook(w->book, &w->arena), DS_OK);
    const char *const pieces[] = {"{\"dripstone\": 1, \"rules\": [",
                                  packs,
                                  "],\n\"places\": [{\"id\": \"a\", \"kind\": \"",
                                  kind,
                                  "\", \"setting\": \"indoors\", \"seen\": \"none\", \"plan\": {",
                                  plan,
                                  "}}],\n\"points\": [",
                                  points,
                                  "]}"};
    for (size_t i = 0; i < sizeof pieces / sizeof *pieces; i++) {
        ds_text_add(&w->text, pieces[i]);
    }
    assert_true(ds_text_ok(&w->text));
    assert_int_equal(support_assess(&w->findings, &w->job, w->book, &w->arena, ds_text_str(&w->text)), DS_OK);
}

/* plan: members of the plan's object; points: members of the list of points. */
static inline void zone_open(zone_world *const w, const char *const kind, const char *const plan,
                             const char *const points)
{
    zone_open_by(w, "\"gb-2022\"", kind, plan, points);
}

static inline void zone_close(zone_world *const w)
{
    ds_text_free(&w->text);
    ds_arena_free(&w->arena);
    free(w->book);
    assert_int_equal(w->memory.blocks, 0);
}

/* The first problem, said; "" when there is none. Lives as long as w's arena. */
static inline const char *zone_problem(zone_world *const w)
{
    if (!w->job.problems.len) {
        return "";
    }
    ds_text text;
    ds_text_init(&text, &w->memory.alloc);
    const ds_problem *const problem = &w->job.problems.at[0];
    ds_text_adds(&text, problem->where.pointer);
    ds_text_add(&text, ": ");
    ds_problem_say(&text, problem);
    char *const copy = ds_arena_take(&w->arena, text.len + 1);
    assert_true(ds_text_ok(&text) && copy);
    memcpy(copy, text.at, text.len);
    ds_text_free(&text);
    return copy;
}

/* The map of the place, by the first pack; ends the test when the plan gives none. */
static inline const ds_zone_map *zone_map(zone_world *const w)
{
    if (w->findings.wet[0].len == 0) {
        print_error("no map: %s\n", zone_problem(w));
        fail();
    }
    return w->findings.wet[0].maps[0];
}

static inline ds_zone_answer zone_ask(zone_world *const w, const ds_zone_item item)
{
    ds_zone_answer answer;
    if (ds_zone_ask(&answer, zone_map(w), &item) != DS_OK) {
        print_error("(%g, %g, %g) is not in the room\n", item.at_m[0], item.at_m[1], item.at_m[2]);
        fail();
    }
    return answer;
}

/* "0", "1", … "outside"; "1|2|outside" when it may be several. */
static inline void zone_words(char out[64], const ds_zone_answer *const answer, const ds_zone_map *const map)
{
    ds_zone_answer one = *answer;
    out[0] = '\0';
    for (size_t i = 0; i <= map->zones_len; i++) {
        if (answer->zone == i || (answer->zone == SIZE_MAX && answer->could_be >> i & 1)) {
            one.zone = i;
            const ds_str word = ds_zone_answer_word(&one, map);
            const size_t len = strlen(out);
            snprintf(out + len, 64 - len, "%s%.*s", len ? "|" : "", (int)word.len, word.at);
        }
    }
}

#define expect_zone(w, item, words) zone_expect((w), (item), (words), __FILE__, __LINE__)

static inline ds_zone_answer zone_expect(zone_world *const w, const ds_zone_item item,
                                         const char *const words, const char *const file, const int line)
{
    const ds_zone_answer answer = zone_ask(w, item);
    char got[64];
    zone_words(got, &answer, zone_map(w));
    if (strcmp(got, words) != 0) {
        print_error("%s:%d: (%g, %g, %g) is in zone %s, not %s\n", file, line, item.at_m[0], item.at_m[1],
                    item.at_m[2], got, words);
        _fail(file, line);
    }
    return answer;
}

static inline bool zone_warns(const ds_zone_answer *const answer, const ds_zone_caution which)
{
    return answer->cautions >> which & 1;
}

/* --- things ------------------------------------------------------------------------------------------------------- */

static inline ds_zone_item at(const double x, const double y, const double z)
{
    return (ds_zone_item){.at_m = {x, y, z}};
}

static inline ds_zone_item sized(const double x, const double y, const double z, const double wide,
                                 const double deep, const double high)
{
    return (ds_zone_item){.at_m = {x, y, z}, .size_m = {wide, deep, high}};
}

static inline ds_zone_item both(const double x, const double y, const double z, const double wide,
                                const double deep, const double high, const double tolerance)
{
    return (ds_zone_item){{x, y, z}, {wide, deep, high}, tolerance};
}

static inline ds_zone_item rough(const double x, const double y, const double z, const double tolerance)
{
    return (ds_zone_item){.at_m = {x, y, z}, .tolerance_m = tolerance};
}

/* Of one thing, whether the answer warns of it. */
#define expect_warning(answer, which, wanted) assert_int_equal((answer).cautions >> (which)&1, (wanted))

#endif
