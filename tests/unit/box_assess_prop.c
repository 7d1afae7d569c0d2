/* SPDX-License-Identifier: MIT */
/*
 * Laws of the box on the whole way from job to verdict, over random boxes written as JSON:
 *
 *  - entries and openings prove nothing that the mark does not, lift nothing that it denies, and better no verdict;
 *  - one more entry betters no verdict, and the order of entries changes nothing;
 *  - faces measured all round add objects up to 4 and access, never dust or water;
 *  - an entry whose code is taken away, and a box with a slip in it, never turns a point into one that fits;
 *  - what an entry decides names a part, and says what restores it; no sentence but the standing caution speaks of
 *    drilling.
 */
#include "support.h"

#include "core/assess/say.h"
#include "core/box/entry_say.h"

enum { ROUNDS = 4000, MOST_ENTRIES = 4, ENTRY_ROOM = 512 };

typedef struct world {
    test_alloc alloc;
    ds_arena arena;
    ds_rulebook book;
    ds_sizes sizes;
    uint64_t seed;
} world;

static world *the_world;

/* xorshift64*: the same boxes on every run. */
static unsigned pick(const unsigned below)
{
    uint64_t x = the_world->seed;
    x ^= x >> 12;
    x ^= x << 25;
    x ^= x >> 27;
    the_world->seed = x;
    return (unsigned)((x * UINT64_C(2685821657736338717)) >> 33) % below;
}

#define PICK(list) ((list)[pick((unsigned)(sizeof(list) / sizeof *(list)))])

/* --- random boxes ------------------------------------------------------------------------------------------------- */

typedef struct sample {
    const char *place, *kind, *marked;
    char openings[512];
    char entries[MOST_ENTRIES][ENTRY_ROOM];
    char plain[MOST_ENTRIES][ENTRY_ROOM]; /* the same without a code */
    unsigned entries_len;
    bool states_entries, backwards, measured;
    const char *slip;
} sample;

static const char *const PLACES[] = {
    "\"kind\": \"garden\", \"setting\": \"outdoors\", \"seen\": [\"none\", \"rain\", \"residents\"]",
    "\"kind\": \"yard\", \"setting\": \"outdoors\", \"seen\": [\"none\", \"hosed-directly\"]",
    "\"kind\": \"workshop\", \"setting\": \"indoors\", \"seen\": [\"none\", \"mineral-dust\"]",
    "\"kind\": \"yard\", \"setting\": \"outdoors\", \"seen\": [\"none\", {\"word\": \"standing-water\", "
    "\"depth_m\": 2, \"hours\": 24}]",
    "\"kind\": \"office\", \"setting\": \"indoors\", \"seen\": \"none\"",
};
static const char *const KINDS[] = {"socket-outlet", "junction-box", "control-panel", "luminaire"};
static const char *const MARKED[] = {
    "[{\"ip\": \"IP66\"}]",
    "[{\"ip\": \"IP66/IP68 (3 m, 48 h)\"}]",
    "[{\"ip\": \"IPX8 (3 m, 48 h)\"}]",
    "[{\"ip\": \"IP67 IK08\"}]",
    "[{\"ip\": \"IP44\"}]",
    "[{\"ip\": \"IP20\"}]",
    "[{\"ip\": \"weatherproof\"}]",
    "[]",
    "[{\"ip\": \"IP66\", \"when\": [\"lid-closed\"]}, {\"ip\": \"IP44\", \"when\": [\"plug-in-use\"]}], "
    "\"states\": [[\"lid-closed\"], [\"plug-in-use\"]]",
    "[{\"ip\": \"IP65\", \"when\": [\"lid-closed\"]}]",
};
static const char *const HOLDS[] = {"gland",       "gland",       "blank",    "insert", "conduit",
                                    "brush",       "drain",       "breather", "tape",   "hand-sealant",
                                    "forced-seal", "fixing-hole", "nothing"};
static const char *const CODES[] = {"IP66",         "IP66/IP68 (5 m, 72 h)", "IP68", "IP54", "IP2X",
                                    "weatherproof", "IPX8 (4 m, 72 h)"};
static const char *const PARTS[] = {
    "\"wall_seal\": true",
    "\"wall_seal\": true",
    "\"wall_seal\": false",
    "\"range_mm\": [6, 12]",
    "\"range_mm\": [10, 14]",
    "\"cable\": {\"type\": \"H07RN-F\", \"size\": \"3G1.5\"}",
    "\"cable\": {\"od_mm\": [11, 11]}",
    "\"cable\": {\"od_mm\": [20, 20]}",
    "\"cable\": {\"type\": \"twin-and-earth\", \"size\": \"2.5\"}",
    "\"cable\": {\"od_mm\": [5, 5], \"count\": 3}",
    "\"size\": \"M20\"",
    "\"size\": \"M25\"",
    "\"hole_mm\": 25.4",
    "\"hole_mm\": 20.5",
    "\"led_in\": \"open\"",
    "\"led_in\": \"dry\"",
    "\"outside_seal\": true",
    "\"outside_seal\": false",
    "\"by_hand\": true",
    "\"as_made\": true",
    "\"live_part_mm\": 40",
    "\"live_part_mm\": 200",
    "\"insulated\": true",
    "\"holes\": [\"plugged\", {\"range_mm\": [4, 7], \"cable\": {\"od_mm\": [5, 5]}}]",
    "\"holes\": [\"open\"]",
};
static const char *const SIDES[] = {"top", "bottom", "left", "right", "front", "back"};

static bool has_key(const char *const text, const char *const part)
{
    char key[32];
    snprintf(key, sizeof key, "%.*s", (int)(strchr(part, ':') - part), part);
    return strstr(text, key) != NULL;
}

static void write_entry(char out[ENTRY_ROOM], char plain[ENTRY_ROOM])
{
    int len = snprintf(out, ENTRY_ROOM, "{\"holds\": \"%s\", \"face\": \"%s\"", PICK(HOLDS), PICK(SIDES));
    for (unsigned parts = pick(7); parts; parts--) {
        const char *const part = PICK(PARTS);
        if (!has_key(out, part)) {
            len += snprintf(out + len, (size_t)(ENTRY_ROOM - len), ", %s", part);
        }
    }
    assert_in_range(len, 1, ENTRY_ROOM - 40);
    snprintf(plain, ENTRY_ROOM, "%s}", out);
    snprintf(out + len, (size_t)(ENTRY_ROOM - len), pick(4) ? ", \"ip\": \"%s\"}" : "}", PICK(CODES));
    /* of a drain or a brush a code makes it a fitting, without one it is a hole: another thing, not less known */
    if (strstr(out, "\"drain\"") || strstr(out, "\"breather\"") || strstr(out, "\"brush\"")) {
        memcpy(plain, out, ENTRY_ROOM);
    }
}

static void write_openings(char *const out, const size_t room)
{
    static const char *const SIZES[] = {"0.5", "1.5", "4", "12.2", "20", "60"};
    static const char *const BEHIND[] = {"", ", \"live_part_mm\": 30", ", \"live_part_mm\": 300",
                                         ", \"insulated\": true", ", \"as_made\": true"};
    size_t len = 0;
    out[0] = '\0';
    for (unsigned left = pick(3); left; left--) {
        len += (size_t)snprintf(out + len, room - len, "%s{\"shape\": \"round\", \"size_mm\": %s%s}",
                                len ? ", " : "", PICK(SIZES), PICK(BEHIND));
    }
}

static sample random_sample(void)
{
    sample s = {.place = PICK(PLACES),
                .kind = PICK(KINDS),
                .marked = PICK(MARKED),
                .entries_len = pick(MOST_ENTRIES),
                .states_entries = true,
                .slip = ""};
    write_openings(s.openings, sizeof s.openings);
    for (unsigned i = 0; i < MOST_ENTRIES; i++) {
        write_entry(s.entries[i], s.plain[i]);
    }
    return s;
}

static void write_box(ds_text *const out, const sample *const s)
{
    ds_text_add(out, "{\"faces\": [{\"face\": \"top\", \"reachable\": false, \"openings\": [");
    ds_text_add(out, s->openings);
    ds_text_add(out, s->measured ? "], \"all_openings_measured\": true}" : "]}");
    for (size_t i = 0; i < sizeof SIDES / sizeof *SIDES && s->measured; i++) {
        if (strcmp(SIDES[i], "top") != 0) {
            ds_text_add(out, ", {\"face\": \"");
            ds_text_add(out, SIDES[i]);
            ds_text_add(out, "\", \"all_openings_measured\": true}");
        }
    }
    ds_text_add(out, "]");
    ds_text_add(out, s->states_entries ? ", \"entries\": [" : "");
    for (unsigned i = 0; i < s->entries_len && s->states_entries; i++) {
        ds_text_add(out, i ? ", " : "");
        ds_text_add(out, s->entries[s->backwards ? s->entries_len - 1 - i : i]);
    }
    ds_text_add(out, s->states_entries ? "]" : "");
    ds_text_add(out, s->slip);
    ds_text_add(out, "}");
}

static void write_job(ds_text *const out, const sample *const s)
{
    ds_text_add(out, "{\"dripstone\": 1, \"date\": \"2024-05-04\", \"rules\": [\"gb-2022\"], \"places\": "
                     "[{\"id\": \"a\", ");
    ds_text_add(out, s->place);
    ds_text_add(out, "}], \"points\": [{\"id\": \"p\", \"place\": \"a\", \"kind\": \"");
    ds_text_add(out, s->kind);
    ds_text_add(out,
                "\", \"supply\": {\"volts\": 230, \"current\": \"ac\", \"selv\": false, \"rcd_ma\": 30}, "
                "\"measures\": [\"entries-sealed\", \"rcd-30ma\"], \"marked\": ");
    ds_text_add(out, s->marked);
    ds_text_add(out, ", \"box\": ");
    write_box(out, s);
    ds_text_add(out, "}]}");
}

/* --- answers ------------------------------------------------------------------------------------------------------ */

typedef struct answer {
    ds_verdict verdict;
    ds_need needed;
    ds_mark left, own;
    bool by_entry; /* an entry or opening decides */
    char job[4096];
} answer;

static void expect(const bool holds, const char *const law, const answer *const a, const answer *const b)
{
    if (!holds) {
        fprintf(stderr, "%s\n%s: %s\n%s: %s\n", law, ds_verdict_word(a->verdict), a->job,
                ds_verdict_word(b->verdict), b->job);
    }
    assert_true(holds);
}

/* Nothing is said of drilling, once the standing cautions are off. */
static void check_words(const ds_findings *const findings, const answer *const a)
{
    const ds_finding *const finding = &findings->points[0];
    ds_text text;
    ds_text_init(&text, &the_world->alloc.alloc);
    ds_say_deciding(&text, findings, finding);
    const size_t deciding = text.len;
    ds_say_remedy(&text, findings, finding);
    expect(deciding > 0, "no deciding sentence", a, a);
    expect(finding->verdict == DS_FITS || text.len > deciding, "no remedy", a, a);
    for (size_t i = 0; finding->installed && i < finding->installed->parts_len; i++) {
        ds_say_part(&text, finding->installed, &finding->installed->parts[i], finding->needed);
        ds_say_part_mend(&text, finding->installed, &finding->installed->parts[i], finding->needed);
        ds_say_part_notes(&text, finding->installed, &finding->installed->parts[i]);
    }
    ds_text_char(&text, '\0');
    assert_true(ds_text_ok(&text));
    expect(!strstr(text.at, "drill") && !strstr(text.at, "Drill"), "drilling", a, a);
    ds_text_free(&text);
}

static answer ask(const sample *const s)
{
    ds_arena arena;
    ds_arena_init(&arena, &the_world->alloc.alloc);
    ds_text text;
    ds_text_init(&text, &the_world->alloc.alloc);
    write_job(&text, s);
    answer out = {.verdict = DS_FITS};
    assert_true(text.len < sizeof out.job);
    snprintf(out.job, sizeof out.job, "%.*s", (int)text.len, text.at);
    ds_job job;
    ds_findings findings;
    ds_problem problem = {0};
    expect(ds_job_read(&job, ds_text_str(&text), &arena, &problem) == DS_OK, "no job", &out, &out);
    assert_int_equal(ds_assess(&findings, &job, &the_world->book, &the_world->sizes, &arena, &problem),
                     DS_OK);
    const ds_finding *const finding = &findings.points[0];
    out.verdict = finding->verdict;
    out.needed = finding->needed;
    out.left = finding->marked;
    out.own = finding->own_mark;
    out.by_entry = finding->obstacle == DS_OBSTACLE_ENTRY;
    expect((job.problems.len > 0) == (s->slip[0] != '\0'), "problems are the slips alone", &out, &out);
    expect(!out.by_entry || ds_finding_part(finding), "an entry decides and none is named", &out, &out);
    check_words(&findings, &out);
    ds_text_free(&text);
    ds_arena_free(&arena);
    return out;
}

/* --- laws --------------------------------------------------------------------------------------------------------- */

static void test_parts_only_take_away(void **const state)
{
    (void)state;
    unsigned fits = 0, decided = 0;
    for (int round = 0; round < ROUNDS; round++) {
        sample s = random_sample();
        const answer with = ask(&s);
        s.states_entries = false;
        s.openings[0] = '\0';
        const answer bare = ask(&s);
        expect(!(ds_mark_proven(with.left) & ~ds_mark_proven(with.own)), "more is proven", &bare, &with);
        expect(!(ds_mark_denied(with.own) & ~ds_mark_denied(with.left)), "a refusal is lifted", &bare, &with);
        expect(with.own == bare.own && with.needed == bare.needed, "mark or need changes", &bare, &with);
        expect(with.verdict >= bare.verdict, "entries better a verdict", &bare, &with);
        expect(!with.by_entry || with.verdict > DS_FITS, "an entry decides on a pass", &bare, &with);
        fits += with.verdict == DS_FITS;
        decided += with.by_entry;
    }
    assert_in_range(fits, ROUNDS / 50, ROUNDS);
    assert_in_range(decided, ROUNDS / 50, ROUNDS);
}

/* Faces measured all round add objects up to 4 and access, where no part takes them away. */
static void test_measured(void **const state)
{
    (void)state;
    const uint64_t by_measure = DS_OBJECTS_TO(4) | DS_ACCESS_ALL;
    unsigned decided = 0;
    for (int round = 0; round < ROUNDS; round++) {
        sample s = random_sample();
        const answer a = ask(&s);
        s.measured = true;
        const answer b = ask(&s);
        expect(!(ds_mark_proven(b.left) & ~ds_mark_proven(a.left) & ~by_measure), "dust or water by measure",
               &a, &b);
        expect(!(ds_mark_proven(a.left) & ~ds_mark_proven(b.left)), "measured, and less is proven", &a, &b);
        expect(b.verdict <= a.verdict, "measured, and the verdict is worse", &a, &b);
        decided += b.by_entry;
    }
    assert_in_range(decided, ROUNDS / 50, ROUNDS);
}

static void test_one_more_entry(void **const state)
{
    (void)state;
    for (int round = 0; round < ROUNDS; round++) {
        sample s = random_sample();
        const answer a = ask(&s);
        s.entries_len++;
        const answer b = ask(&s);
        expect(b.verdict >= a.verdict, "one more entry betters a verdict", &a, &b);
    }
}

static void test_order_of_entries(void **const state)
{
    (void)state;
    for (int round = 0; round < ROUNDS; round++) {
        sample s = random_sample();
        const answer a = ask(&s);
        s.backwards = true;
        const answer b = ask(&s);
        expect(b.verdict == a.verdict && b.left == a.left, "order of entries", &a, &b);
    }
}

static void test_less_is_known(void **const state)
{
    (void)state;
    for (int round = 0; round < ROUNDS; round++) {
        sample s = random_sample();
        const answer a = ask(&s);
        memcpy(s.entries, s.plain, sizeof s.entries);
        const answer b = ask(&s);
        expect(b.verdict != DS_FITS || a.verdict == DS_FITS, "a code less and it fits", &a, &b);
    }
}

static void test_slips_never_pass(void **const state)
{
    (void)state;
    static const char *const SLIPS[] = {
        ", \"entires\": []",          ", \"watts\": -60",    ", \"humidity_pct\": 140",
        ", \"mounted\": \"hanging\"", ", \"air_c\": \"35\"",
    };
    for (int round = 0; round < ROUNDS; round++) {
        sample s = random_sample();
        s.slip = PICK(SLIPS);
        const answer a = ask(&s);
        expect(a.verdict != DS_FITS, "a box that is not understood fits", &a, &a);
    }
}

int main(void)
{
    static world w = {.seed = UINT64_C(0x9E3779B97F4A7C15)};
    the_world = &w;
    w.alloc = test_alloc_make(0);
    ds_arena_init(&w.arena, test_alloc_use(&w.alloc));
    ds_problem problem = {0};
    const ds_str sizes = support_file("rules/entries.json");
    if (support_rulebook(&w.book, &w.arena) != DS_OK ||
        ds_sizes_read(&w.sizes, sizes, &w.arena, &problem) != DS_OK) {
        return 2;
    }
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_parts_only_take_away),
        cmocka_unit_test(test_one_more_entry),
        cmocka_unit_test(test_measured),
        cmocka_unit_test(test_order_of_entries),
        cmocka_unit_test(test_less_is_known),
        cmocka_unit_test(test_slips_never_pass),
    };
    const int failed = cmocka_run_group_tests_name("box_assess_prop", tests, NULL, NULL);
    ds_arena_free(&w.arena);
    free((void *)(uintptr_t)sizes.at);
    return failed;
}
