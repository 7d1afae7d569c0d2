/* SPDX-License-Identifier: MIT */
/*
 * Differences of random pairs of jobs against the obvious: every id looked up in both, one by one. And what holds of all: a
 * job does not differ from itself; seen from the other side, worse is better, added is removed and what came went.
 */
#include "support.h"

#include "core/assess/differ.h"
#include "json_random.h"

enum { ROUNDS = 300, MOST = 12 };

static json_random r;

typedef struct world {
    test_alloc alloc;
    ds_arena arena; /* of the rulebook */
    ds_rulebook book;
} world;

static world *the_world;

/* --- jobs ------------------------------------------------------------------------------------------------------------- */

#define PICK(list) ((list)[json_random_below(&r, sizeof(list) / sizeof *(list))])

static void put_place(const char *const id)
{
    static const char *const KINDS[] = {"office", "bath-room", "food-factory"};
    static const char *const SEEN[] = {"[\"splashes\"]", "[\"hosed-directly\", \"residents\"]", "\"none\"",
                                       "[]"};
    char text[256];
    snprintf(text, sizeof text, "{\"id\": \"%s\", \"kind\": \"%s\", \"setting\": \"indoors\", \"seen\": %s}",
             id, PICK(KINDS), PICK(SEEN));
    json_random_put(&r, text);
}

static void put_point(const uint32_t id)
{
    static const char *const KINDS[] = {"socket-outlet", "luminaire", "isolator"};
    static const char *const MARKS[] = {"IP20", "IP44", "IP65 IK08", "IP67"};
    static const char *const MORE[] = {"", ", \"zone_stated\": \"outside\", \"zone1_distance_m\": 2.7",
                                       ", \"asked\": {\"ip\": \"IP54\"}", ", \"name\": \"x\"",
                                       ", \"odd\": 1"};
    char text[320];
    snprintf(
        text, sizeof text,
        "{\"id\": \"%u\", \"place\": \"%s\", \"kind\": \"%s\", \"supply\": {\"volts\": 230, \"current\": "
        "\"ac\"}, \"marked\": [{\"ip\": \"%s\"}]%s}",
        id, json_random_below(&r, 2) ? "a" : "b", PICK(KINDS), PICK(MARKS), PICK(MORE));
    json_random_put(&r, text);
}

/* Some of the ids 0 to MOST - 1 in some order. The caller frees it. */
static char *random_job(void)
{
    static const char *const PACKS[] = {"gb-2018", "gb-2022"};
    uint32_t ids[MOST];
    for (uint32_t i = 0; i < MOST; i++) {
        const uint32_t at = json_random_below(&r, i + 1);
        ids[i] = ids[at];
        ids[at] = i;
    }
    r.len = 0;
    json_random_put(&r, "{\"dripstone\": 1, \"rules\": [\"");
    json_random_put(&r, PICK(PACKS));
    json_random_put(&r, "\"], \"places\": [");
    put_place("a");
    json_random_put(&r, ", ");
    put_place("b");
    json_random_put(&r, "], \"points\": [");
    const uint32_t len = json_random_below(&r, MOST);
    for (uint32_t i = 0; i < len; i++) {
        json_random_put(&r, i ? ", " : "");
        put_point(ids[i]);
    }
    json_random_put(&r, "]}");
    r.text[r.len] = '\0';
    char *const copy = malloc(r.len + 1);
    assert_non_null(copy);
    memcpy(copy, r.text, r.len + 1);
    return copy;
}

typedef struct judged {
    ds_job job;
    ds_findings findings;
} judged;

/* --- the obvious -------------------------------------------------------------------------------------------------------- */

static const ds_finding *find(const ds_findings *const findings, const ds_str id)
{
    for (size_t i = 0; i < findings->points_len; i++) {
        if (ds_str_eq(findings->points[i].point->id, id)) {
            return &findings->points[i];
        }
    }
    return NULL;
}

static const ds_difference *told(const ds_differ *const differ, const ds_str id)
{
    for (size_t i = 0; i < differ->points_len; i++) {
        const ds_difference *const it = &differ->points[i];
        if (ds_str_eq((it->after ? it->after : it->before)->point->id, id)) {
            return it;
        }
    }
    return NULL;
}

static void add_test(void *const ctx, const ds_str test)
{
    ds_text_adds(ctx, test);
    ds_text_char(ctx, '\n');
}

static void say_tests(ds_text *const out, const ds_finding *const finding)
{
    ds_need_each(finding->needed, add_test, out);
    ds_text_number(out, finding->rated_c, 1);
    ds_text_number(out, finding->cold_c, 1);
    ds_text_add(out, finding->surface_d ? "cool" : "");
}

static bool same_needs(const ds_finding *const a, const ds_finding *const b)
{
    ds_text one, other;
    ds_text_init(&one, &the_world->alloc.alloc);
    ds_text_init(&other, &the_world->alloc.alloc);
    say_tests(&one, a);
    say_tests(&other, b);
    const bool same = ds_str_eq(ds_text_str(&one), ds_text_str(&other));
    ds_text_free(&one);
    ds_text_free(&other);
    return same;
}

/* False where nothing needs to be told, by verdict and need. */
static bool expected_turn(const ds_finding *const before, const ds_finding *const after, ds_turn *const out)
{
    if (!before || !after) {
        *out = after ? DS_TURN_ADDED : DS_TURN_REMOVED;
    } else if (before->verdict != after->verdict) {
        *out = after->verdict > before->verdict ? DS_TURN_WORSE : DS_TURN_BETTER;
    } else {
        *out = DS_TURN_NEED;
        return !same_needs(before, after);
    }
    return true;
}

static void expect_id(const ds_differ *const differ, const ds_str id, size_t counted[DS_TURNS])
{
    const ds_finding *const before = find(differ->before, id);
    const ds_finding *const after = find(differ->after, id);
    const ds_difference *const it = told(differ, id);
    ds_turn turn = DS_TURN_OTHER;
    if (!before && !after) {
        assert_null(it);
    } else if (expected_turn(before, after, &turn)) {
        assert_non_null(it);
        assert_int_equal(it->turn, turn);
        assert_ptr_equal(it->before, before);
        assert_ptr_equal(it->after, after);
        counted[turn]++;
    } else {
        assert_true(!it || it->turn == DS_TURN_OTHER);
        assert_true(it || ds_json_same(before->point->at, after->point->at));
        counted[DS_TURN_OTHER] += it != NULL;
    }
}

static void expect_the_obvious(const ds_differ *const differ)
{
    static const char *const IDS[MOST] = {"0", "1", "2", "3", "4", "5", "6", "7", "8", "9", "10", "11"};
    size_t counted[DS_TURNS] = {0};
    for (size_t i = 0; i < MOST; i++) {
        expect_id(differ, ds_str_of(IDS[i]), counted);
    }
    for (int turn = 0; turn < DS_TURNS; turn++) {
        assert_int_equal(counted[turn], differ->counted[turn]);
    }
    for (size_t i = 1; i < differ->points_len; i++) {
        const ds_difference *const a = &differ->points[i - 1];
        const ds_difference *const b = &differ->points[i];
        assert_true(a->turn <= b->turn);
        assert_true(a->turn < b->turn ||
                    (a->after ? a->after : a->before)->verdict >= (b->after ? b->after : b->before)->verdict);
    }
}

static void expect_mirror(const ds_differ *const one, const ds_differ *const other)
{
    static const ds_turn MIRROR[DS_TURNS] = {
        [DS_TURN_WORSE] = DS_TURN_BETTER,  [DS_TURN_ADDED] = DS_TURN_REMOVED,
        [DS_TURN_REMOVED] = DS_TURN_ADDED, [DS_TURN_BETTER] = DS_TURN_WORSE,
        [DS_TURN_NEED] = DS_TURN_NEED,     [DS_TURN_OTHER] = DS_TURN_OTHER};
    assert_int_equal(one->points_len, other->points_len);
    assert_int_equal(one->points_all, other->points_all);
    for (size_t i = 0; i < one->points_len; i++) {
        const ds_difference *const a = &one->points[i];
        const ds_difference *const b = told(other, (a->after ? a->after : a->before)->point->id);
        assert_non_null(b);
        assert_int_equal(b->turn, MIRROR[a->turn]);
        assert_int_equal(a->came_len, b->went_len);
        assert_int_equal(a->went_len, b->came_len);
        assert_int_equal(a->point.len, b->point.len);
        assert_int_equal(a->place->len, b->place->len);
        assert_int_equal(a->by_rules, b->by_rules);
    }
}

/* Same packs, same point, same place: then the answer is the same too, and is not told. */
static void expect_causes(const ds_differ *const differ)
{
    for (size_t i = 0; i < differ->points_len; i++) {
        const ds_difference *const it = &differ->points[i];
        const bool both = it->before && it->after;
        assert_true(!both || it->point.len || it->place->len || it->by_rules);
        assert_true(!it->by_rules || differ->other_rules);
    }
}

static void as_if_looked_up_one_by_one(void **const state)
{
    (void)state;
    r.seed = 0x9E3779B97F4A7C15U;
    const ds_sizes sizes = DS_SIZES_NONE;
    size_t turns[DS_TURNS] = {0};
    for (int round = 0; round < ROUNDS; round++) {
        ds_arena arena;
        ds_arena_init(&arena, &the_world->alloc.alloc);
        judged j[2];
        char *texts[2];
        ds_problem problem;
        for (int i = 0; i < 2; i++) {
            texts[i] = random_job();
            assert_int_equal(ds_job_read(&j[i].job, ds_str_of(texts[i]), &arena, &problem), DS_OK);
            assert_int_equal(ds_assess(&j[i].findings, &j[i].job, &the_world->book, &sizes, &arena, &problem),
                             DS_OK);
        }
        ds_differ self, one, other;
        assert_true(ds_differ_make(&self, &j[0].findings, &j[0].findings, &arena));
        assert_int_equal(self.points_len, 0);
        assert_int_equal(ds_differ_exit(&self), 0);
        assert_true(ds_differ_make(&one, &j[0].findings, &j[1].findings, &arena));
        assert_true(ds_differ_make(&other, &j[1].findings, &j[0].findings, &arena));
        expect_the_obvious(&one);
        expect_mirror(&one, &other);
        expect_causes(&one);
        for (int turn = 0; turn < DS_TURNS; turn++) {
            turns[turn] += one.counted[turn];
        }
        ds_arena_free(&arena);
        free(texts[0]);
        free(texts[1]);
    }
    for (int turn = 0; turn < DS_TURNS; turn++) {
        assert_true(turns[turn] > 20);
    }
}

/* Every request may fail: then there is no answer, and nothing is left behind. */
static void no_memory(void **const state)
{
    (void)state;
    r.seed = 0xD1B54A32D192ED03U;
    const ds_sizes sizes = DS_SIZES_NONE;
    ds_arena arena;
    ds_arena_init(&arena, &the_world->alloc.alloc);
    judged j[2];
    char *texts[2];
    ds_problem problem;
    for (int i = 0; i < 2; i++) {
        texts[i] = random_job();
        assert_int_equal(ds_job_read(&j[i].job, ds_str_of(texts[i]), &arena, &problem), DS_OK);
        assert_int_equal(ds_assess(&j[i].findings, &j[i].job, &the_world->book, &sizes, &arena, &problem),
                         DS_OK);
    }
    size_t n = 1;
    for (bool good = false; !good; n++) {
        test_alloc a = test_alloc_make(n);
        ds_arena own;
        ds_arena_init(&own, test_alloc_use(&a));
        ds_text text;
        ds_text_init(&text, &a.alloc);
        ds_differ differ;
        good = ds_differ_make(&differ, &j[0].findings, &j[1].findings, &own);
        if (good) {
            ds_differ_json(&text, &differ);
            good = ds_text_ok(&text);
        }
        assert_true(good == (a.requests < n));
        ds_text_free(&text);
        ds_arena_free(&own);
        assert_int_equal(a.blocks, 0);
    }
    assert_in_range(n, 5, 2000);
    ds_arena_free(&arena);
    free(texts[0]);
    free(texts[1]);
}

int main(void)
{
    the_world = malloc(sizeof *the_world);
    the_world->alloc = test_alloc_make(0);
    ds_arena_init(&the_world->arena, test_alloc_use(&the_world->alloc));
    if (support_rulebook(&the_world->book, &the_world->arena) != DS_OK) {
        return 2;
    }
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(as_if_looked_up_one_by_one),
        cmocka_unit_test(no_memory),
    };
    const int failed = cmocka_run_group_tests(tests, NULL, NULL);
    ds_arena_free(&the_world->arena);
    free(the_world);
    return failed;
}
