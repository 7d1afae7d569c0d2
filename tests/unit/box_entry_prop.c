/* SPDX-License-Identifier: MIT */
/*
 * Laws of entries and openings, over random ones: what is added, left out or less certain never proves more; order does
 * not matter; a makeshift closure proves nothing; what is lost is always told. And memory that runs out anywhere.
 */
#include "box_random.h"

enum { ROUNDS = 20000 };

/* --- what is expected of two marks -------------------------------------------------------------------------------- */

static void expect_no_more(const ds_mark more, const ds_mark less, const char *const law, const int round)
{
    if (ds_mark_proven(more) & ~ds_mark_proven(less)) {
        fail_msg("%s (round %d): proves %llx, and only %llx before", law, round,
                 (unsigned long long)ds_mark_proven(more), (unsigned long long)ds_mark_proven(less));
    }
}

static void expect_sound(const ds_mark mark, const char *const law, const int round)
{
    if (ds_mark_proven(mark) & ds_mark_denied(mark)) {
        fail_msg("%s (round %d): a test is proven and denied", law, round);
    }
}

static ds_mark judged(const box_world *const w, const ds_entry *const entry)
{
    ds_entry_judged out;
    ds_entry_judge(&out, entry, &w->sizes);
    return out.mark;
}

static ds_mark probed(const ds_opening *const opening)
{
    ds_probe probe;
    ds_probe_opening(&probe, opening);
    return probe.mark;
}

/* --- laws of one entry -------------------------------------------------------------------------------------------- */

/* Facts that speak for an entry: without any of them nothing more is proven. */
static void test_less_is_known(void **const state)
{
    (void)state;
    box_world w;
    box_open(&w, NULL);
    random_bits r = {1};
    for (int round = 0; round < ROUNDS; round++) {
        random_entry made;
        make_entry(&r, &made);
        const ds_mark before = judged(&w, &made.entry);
        expect_sound(before, "an entry", round);
        ds_entry less = made.entry;
        less.ip = (ds_str){NULL, 0};
        /* of a drain or a brush a code makes it a fitting, without one it is a hole: it too proves no more */
        expect_no_more(judged(&w, &less),
                       less.holds == DS_HOLDS_DRAIN || less.holds == DS_HOLDS_BREATHER ||
                               less.holds == DS_HOLDS_BRUSH
                           ? (ds_mark)~UINT64_C(0)
                           : before,
                       "without a code", round);
        less = made.entry;
        less.range_mm[0] = less.range_mm[1] = NAN;
        /* a conduit fitting without a range is one that closes on nothing: another thing, not less known */
        expect_no_more(judged(&w, &less), less.holds == DS_HOLDS_CONDUIT ? (ds_mark)~UINT64_C(0) : before,
                       "without the range of the gland", round);
        less = made.entry;
        less.wall_seal = DS_TRI_MISSING;
        expect_no_more(judged(&w, &less), before, "without a word of the wall seal", round);
        less = made.entry;
        less.cable.at = NULL;
        /* a cable in a blank contradicts it */
        expect_no_more(judged(&w, &less), less.holds == DS_HOLDS_BLANK ? (ds_mark)~UINT64_C(0) : before,
                       "without the cable", round);
        less = made.entry;
        less.live_part_mm = NAN;
        expect_no_more(judged(&w, &less), before, "without the distance of the live part", round);
        less = made.entry;
        less.holds = DS_HOLDS_MISSING;
        expect_no_more(judged(&w, &less), before, "without what it holds", round);
    }
    box_close(&w);
}

static bool contradicts(const box_world *const w, const ds_entry *const entry)
{
    ds_entry_judged out;
    ds_entry_judge(&out, entry, &w->sizes);
    for (uint8_t i = 0; i < out.faults_len; i++) {
        if (out.faults[i].reason == DS_ENTRY_CABLE && out.faults[i].cable.fit == DS_FIT_OVER_HOLE) {
            return true;
        }
    }
    return false;
}

/* A cable that may be thinner or thicker besides never proves more, unless before it did not go through its hole. */
static void test_wider_cable(void **const state)
{
    (void)state;
    box_world w;
    box_open(&w, NULL);
    random_bits r = {2};
    for (int round = 0; round < ROUNDS; round++) {
        random_entry made;
        make_entry(&r, &made);
        if (contradicts(&w, &made.entry)) {
            continue;
        }
        const ds_mark before = judged(&w, &made.entry);
        ds_cable *const cable = &made.entry.cable;
        cable->od_mm[0] *= 1 - 0.01 * below(&r, 30);
        cable->od_mm[1] *= 1 + 0.01 * below(&r, 30);
        const ds_mark wider = judged(&w, &made.entry);
        expect_no_more(wider, before, "a cable of a wider range", round);
        if (cable->count == 1 && ds_mark_denied(wider) & ~ds_mark_denied(before)) {
            fail_msg("round %d: a cable of a wider range is denied more", round);
        }
    }
    box_close(&w);
}

/* Tape, hand-made seals and forced ones prove no more than the bare hole, and nothing of dust or water. */
static void test_makeshift(void **const state)
{
    (void)state;
    static const ds_holds MAKESHIFT[] = {DS_HOLDS_TAPE, DS_HOLDS_HAND_SEALANT, DS_HOLDS_FORCED_SEAL};
    box_world w;
    box_open(&w, NULL);
    random_bits r = {3};
    const uint64_t dust_and_water = DS_WATER_ALL | DS_OBJECT(5) | DS_OBJECT(6);
    for (int round = 0; round < ROUNDS; round++) {
        random_entry made;
        make_entry(&r, &made);
        made.entry.holds = DS_HOLDS_NOTHING;
        const ds_mark bare = judged(&w, &made.entry);
        made.entry.holds = MAKESHIFT[below(&r, 3)];
        const ds_mark closed = judged(&w, &made.entry);
        expect_no_more(closed, bare, "a makeshift closure", round);
        assert_int_equal(ds_mark_proven(closed) & dust_and_water, 0);
        assert_true(ds_entry_is_makeshift(&made.entry));
    }
    box_close(&w);
}

/* --- laws of openings --------------------------------------------------------------------------------------------- */

/* A wider opening, a nearer live part, a thinner wall: never better. Dust and water are never settled. */
static void test_openings(void **const state)
{
    (void)state;
    random_bits r = {4};
    const uint64_t never = DS_WATER_ALL;
    for (int round = 0; round < ROUNDS; round++) {
        const ds_opening opening = random_opening(&r);
        ds_probe probe;
        ds_probe_opening(&probe, &opening);
        if (probe.status != DS_PROBE_MEASURED) {
            assert_int_equal(ds_mark_proven(probe.mark) | ds_mark_denied(probe.mark), 0);
            continue;
        }
        const ds_mark before = probe.mark;
        expect_sound(before, "an opening", round);
        assert_int_equal((ds_mark_proven(before) | ds_mark_denied(before)) & never, 0);
        assert_int_equal(ds_mark_proven(before) & (DS_OBJECT(5) | DS_OBJECT(6)), 0);
        ds_opening worse = opening;
        worse.size_mm *= 1.1;
        worse.length_mm *= 1.1;
        expect_no_more(probed(&worse), before, "a wider opening", round);
        worse = opening;
        worse.live_part_mm *= 0.8;
        worse.live_part_aside_mm *= 0.8;
        expect_no_more(probed(&worse), before, "a nearer live part", round);
        worse = opening;
        worse.live_part_mm = NAN;
        expect_no_more(probed(&worse), before, "a live part not measured", round);
        worse = opening;
        worse.wall_mm = NAN;
        expect_no_more(probed(&worse), before, "a wall not measured", round);
        worse = opening;
        worse.insulated = DS_TRI_MISSING;
        expect_no_more(probed(&worse), before, "insulation not stated", round);
    }
}

/* A first numeral covers access: letters follow each other, and so do numerals. */
static void test_steps(void **const state)
{
    (void)state;
    random_bits r = {5};
    for (int round = 0; round < ROUNDS; round++) {
        const ds_opening opening = random_opening(&r);
        const ds_mark mark = probed(&opening);
        for (int i = 1; i < DS_OBJECTS_LEN; i++) {
            assert_true(!(ds_mark_proven(mark) >> i & 1) || (ds_mark_proven(mark) >> (i - 1) & 1));
            assert_true(!(ds_mark_denied(mark) >> (i - 1) & 1) || (ds_mark_denied(mark) >> i & 1));
        }
        for (int i = 7; i < 10; i++) {
            assert_true(!(ds_mark_proven(mark) >> i & 1) || (ds_mark_proven(mark) >> (i - 1) & 1));
            assert_true(!(ds_mark_denied(mark) >> (i - 1) & 1) || (ds_mark_denied(mark) >> i & 1));
        }
    }
}

/* --- laws of a box ------------------------------------------------------------------------------------------------ */

static ds_installed installed_of(box_world *const w, const ds_box *const box)
{
    ds_installed out;
    assert_int_equal(ds_installed_of(&out, box, &w->sizes, &w->arena), DS_OK);
    return out;
}

/* One more entry never adds a proven test and never takes a denial away; nor does any entry add to the box's mark. */
static void test_one_more(void **const state)
{
    (void)state;
    box_world w;
    box_open(&w, NULL);
    random_bits r = {6};
    for (int round = 0; round < ROUNDS / 4; round++) {
        random_box box;
        make_box(&r, &box);
        const ds_mark marked = random_marked(&r);
        const ds_installed few = installed_of(&w, &box.box);
        const ds_mark before = ds_installed_mark(&few, marked);
        expect_sound(before, "a box", round);
        expect_no_more(before, marked, "entries", round);
        assert_true(ds_mark_impact(before) == ds_mark_impact(marked));
        assert_true(ds_mark_impact_ceiling(before) == ds_mark_impact_ceiling(marked));
        box.box.entries_len++;
        const ds_installed more = installed_of(&w, &box.box);
        const ds_mark after = ds_installed_mark(&more, marked);
        expect_no_more(after, before, "one more entry", round);
        assert_int_equal(ds_mark_denied(before) & ~ds_mark_denied(after), 0);
        assert_true(ds_mark_compare(random_need(&r), after, NULL) >=
                    ds_mark_compare(DS_NEED_NOTHING, before, NULL));
    }
    box_close(&w);
}

static void test_order(void **const state)
{
    (void)state;
    box_world w;
    box_open(&w, NULL);
    random_bits r = {7};
    for (int round = 0; round < ROUNDS / 4; round++) {
        random_box box;
        make_box(&r, &box);
        const ds_mark marked = random_marked(&r);
        const ds_installed straight = installed_of(&w, &box.box);
        for (size_t i = box.box.entries_len; i > 1; i--) {
            const size_t j = below(&r, (unsigned)i);
            const ds_entry kept = box.entries[i - 1];
            box.entries[i - 1] = box.entries[j];
            box.entries[j] = kept;
        }
        const ds_installed shuffled = installed_of(&w, &box.box);
        assert_true(ds_installed_mark(&straight, marked) == ds_installed_mark(&shuffled, marked));
        assert_true(straight.measured == shuffled.measured);
    }
    box_close(&w);
}

/* A text that names a figure that is not there has a question mark; the entries here have no name with one. */
static void expect_told(box_world *const w, const ds_installed *const installed, const ds_part *const part,
                        const ds_need need, const int round)
{
    ds_text says;
    ds_text mend;
    ds_text_init(&says, w->arena.alloc);
    ds_text_init(&mend, w->arena.alloc);
    ds_say_part(&says, installed, part, need);
    ds_say_part_mend(&mend, installed, part, need);
    ds_say_part_notes(&mend, installed, part);
    const char *const said = box_keep(w, &says);
    const char *const done = box_keep(w, &mend);
    if (!*said || !*done || strchr(said, '?') || strchr(done, '?') || strstr(done, "drill")) {
        fail_msg("round %d: \"%s\" \"%s\"", round, said, done);
    }
    assert_true(said[strlen(said) - 1] == '.' && done[strlen(done) - 1] == '.');
}

/* A part decides just when the parts take something of the need away, and it is told with a mend. */
static void test_decides(void **const state)
{
    (void)state;
    box_world w;
    box_open(&w, NULL);
    random_bits r = {8};
    int told = 0;
    for (int round = 0; round < ROUNDS / 4; round++) {
        random_box box;
        make_box(&r, &box);
        const ds_mark marked = random_marked(&r);
        const ds_need need = random_need(&r);
        const ds_installed installed = installed_of(&w, &box.box);
        const ds_mark mark = ds_installed_mark(&installed, marked);
        ds_need lost_before;
        ds_need lost;
        const ds_verdict before = ds_mark_compare(need, marked, &lost_before);
        const ds_verdict after = ds_mark_compare(need, mark, &lost);
        const ds_part *const part = ds_installed_decides(&installed, marked, need);
        const uint64_t denied_before = ds_mark_proven(need) & ds_mark_denied(marked);
        const uint64_t denied = ds_mark_proven(need) & ds_mark_denied(mark);
        assert_true((part != NULL) == (after != before || lost != lost_before || denied != denied_before));
        if (part) {
            expect_told(&w, &installed, part, need, round);
            told++;
        }
    }
    assert_true(told > ROUNDS / 20);
    box_close(&w);
}

/* --- memory ------------------------------------------------------------------------------------------------------- */

/* Memory that runs out at the n-th request, for every n until all goes well. */
static void test_no_memory(void **const state)
{
    (void)state;
    static const char BOX[] =
        "{\"faces\": [{\"face\": \"tap\", \"openings\": [{\"shape\": \"round\", \"size_mm\": 3}]}], "
        "\"entries\": "
        "[{\"holds\": \"insert\", \"holes\": [\"open\", {\"range_mm\": [6, 3]}]}, {\"holds\": \"glnd\"}], "
        "\"watts\": -1}";
    char *const source = box_file("rules/entries.json");
    ds_status status = DS_NO_MEMORY;
    size_t fail_at = 0;
    while (status == DS_NO_MEMORY && fail_at < 10000) {
        test_alloc memory = test_alloc_make(++fail_at);
        ds_arena arena;
        ds_arena_init(&arena, test_alloc_use(&memory));
        ds_sizes sizes = DS_SIZES_NONE;
        ds_problem problem;
        ds_json *tree = NULL;
        status = ds_sizes_read(&sizes, ds_str_of(source), &arena, &problem);
        if (status == DS_OK) {
            status = ds_json_read(&tree, DS_STR(BOX), &arena, &DS_JSON_LIMITS, &problem);
        }
        if (status == DS_OK) {
            ds_job job = {.tree = tree, .source = DS_STR(BOX)};
            int32_t owner = -1;
            ds_reader reader = {.job = &job, .arena = &arena, .owner = &owner};
            const ds_box *const box = ds_box_read(&reader, tree);
            ds_installed installed;
            status = reader.failed ? DS_NO_MEMORY : ds_installed_of(&installed, box, &sizes, &arena);
            assert_true(status != DS_OK || job.problems.len == 4);
        }
        ds_arena_free(&arena);
        assert_int_equal(memory.blocks, 0);
    }
    assert_int_equal(status, DS_OK);
    assert_true(fail_at > 5);
    free(source);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_less_is_known), cmocka_unit_test(test_wider_cable),
        cmocka_unit_test(test_makeshift),     cmocka_unit_test(test_openings),
        cmocka_unit_test(test_steps),         cmocka_unit_test(test_one_more),
        cmocka_unit_test(test_order),         cmocka_unit_test(test_decides),
        cmocka_unit_test(test_no_memory),
    };
    return cmocka_run_group_tests_name("box_entry_prop", tests, NULL, NULL);
}
