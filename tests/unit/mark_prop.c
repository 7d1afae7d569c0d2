/* SPDX-License-Identifier: MIT */
/*
 * Laws of packing, of the algebra and of comparison, on random claims; and against a second implementation
 * that goes test by test and knows no words.
 */
#include "mark_help.h"
#include "mark_random.h"

enum { ROUNDS = 200000 };

/* --- the plain second implementation -------------------------------------------------------------------- */

typedef enum standing { OPEN, PROVEN, DENIED } standing;

static bool claims(const uint16_t set, const int numeral)
{
    return set >> numeral & 1;
}

static bool is_declared(const ds_claim *const claim)
{
    return claim->depth_m > 0 && claim->minutes > 0;
}

static standing standing_of_objects(const ds_claim *const claim, const int rung)
{
    const bool foreign = claim->objects_foreign && claim->objects >= 5;
    if (claim->objects < 0) {
        return OPEN;
    }
    if (rung > claim->objects) {
        return DENIED;
    }
    return foreign && rung >= 5 ? OPEN : PROVEN;
}

static standing standing_of_access(const ds_claim *const claim, const char rung)
{
    static const char *const BY_NUMERAL[] = {"", "A", "AB", "ABC", "ABCD", "ABCD", "ABCD"};
    if (claim->access && rung <= claim->access) {
        return PROVEN;
    }
    if (claim->objects >= 0 && strchr(BY_NUMERAL[claim->objects], rung)) {
        return PROVEN;
    }
    return claim->access || claim->objects >= 0 ? DENIED : OPEN;
}

static bool proves_water(const ds_claim *const claim, const int rung)
{
    for (int n = 1; n <= 6; n++) {
        if ((claims(claim->water, n) && rung <= n) ||
            ((n == 4 || n == 6) && claims(claim->water_foreign, n) && rung < n)) {
            return true;
        }
    }
    const bool is_8 = claims(claim->water, 8) && is_declared(claim);
    if (rung == 7 && is_8 && claim->depth_m >= 1 && claim->minutes >= 30) {
        return true;
    }
    if (rung == 8) {
        return is_8 && (claim->depth_m > 1 || claim->minutes > 30);
    }
    return (rung == 7 || rung == 9) && claims(claim->water, rung);
}

static bool leaves_water_open(const ds_claim *const claim, const int rung)
{
    const bool on_ladder = claim->water & 0x7E || claim->water_foreign & 0x50;
    const bool beyond = claim->water & 0x380 || claim->water_foreign & 0x200;
    return (rung <= 4 && beyond && !on_ladder) || ((rung == 7 || rung == 8) && claims(claim->water, 8)) ||
           ((rung == 4 || rung == 6 || rung == 9) && claims(claim->water_foreign, rung));
}

static standing standing_of_water(const ds_claim *const claim, const int rung)
{
    if (!claim->water_stated) {
        return OPEN;
    }
    return proves_water(claim, rung) ? PROVEN : leaves_water_open(claim, rung) ? OPEN : DENIED;
}

static standing standing_in(const ds_mark mark, const uint64_t test)
{
    const bool proven = ds_mark_proven(mark) & test;
    const bool denied = ds_mark_denied(mark) & test;
    assert_false(proven && denied);
    return proven ? PROVEN : denied ? DENIED : OPEN;
}

static void packing_agrees_with_the_plain_way(void **const state)
{
    (void)state;
    mark_random r = {1};
    for (int i = 0; i < ROUNDS; i++) {
        const ds_claim claim = mark_random_claim(&r);
        const ds_mark mark = ds_mark_from(&claim);
        for (int n = 1; n <= 6; n++) {
            assert_int_equal(standing_in(mark, DS_OBJECT(n)), standing_of_objects(&claim, n));
        }
        for (char c = 'A'; c <= 'D'; c++) {
            assert_int_equal(standing_in(mark, DS_ACCESS(c)), standing_of_access(&claim, c));
        }
        for (int n = 1; n <= 9; n++) {
            assert_int_equal(standing_in(mark, DS_WATER(n)), standing_of_water(&claim, n));
        }
        assert_int_equal(ds_mark_impact(mark), claim.impact < 0 ? 0 : claim.impact);
        assert_int_equal(ds_mark_impact_ceiling(mark), claim.impact < 0 ? DS_IMPACT_OPEN : claim.impact);
    }
}

static ds_verdict worse(const ds_verdict a, const ds_verdict b)
{
    return a > b ? a : b;
}

/* One figure of test 8: what is asked, what is declared (0: nothing), and the least that every test 8 has. */
static ds_verdict judge_figure(const double asked, const double declared, const double least)
{
    if (declared > 0 && asked >= least && declared < asked) {
        return DS_SHORT;
    }
    return declared >= asked && declared >= least ? DS_FITS : DS_UNKNOWN;
}

static ds_verdict judge_immersion(const ds_need need, const ds_mark mark)
{
    return worse(judge_figure(ds_mark_depth_m(need), ds_mark_depth_m(mark), 1),
                 judge_figure(ds_mark_minutes(need), ds_mark_minutes(mark), 30));
}

static ds_verdict judge_plainly(const ds_need need, const ds_mark mark)
{
    ds_verdict verdict = DS_FITS;
    for (int i = 0; i < DS_TEST_COUNT; i++) {
        const uint64_t test = UINT64_C(1) << i;
        if (need & test) {
            const standing is = standing_in(mark, test);
            verdict = worse(verdict, is == PROVEN ? DS_FITS : is == DENIED ? DS_SHORT : DS_UNKNOWN);
        }
    }
    if (need & DS_WATER(8)) {
        verdict = worse(verdict, judge_immersion(need, mark));
    }
    if (ds_mark_impact(need) > ds_mark_impact_ceiling(mark)) {
        return DS_SHORT;
    }
    return ds_mark_impact(need) > ds_mark_impact(mark) ? worse(verdict, DS_UNKNOWN) : verdict;
}

static void comparing_agrees_with_the_plain_way(void **const state)
{
    (void)state;
    mark_random r = {2};
    size_t counted[3] = {0};
    for (int i = 0; i < ROUNDS; i++) {
        const ds_need need = mark_random_need(&r);
        const ds_mark mark = mark_random_mark(&r);
        const ds_verdict verdict = ds_mark_compare(need, mark, NULL);
        assert_int_equal(verdict, judge_plainly(need, mark));
        counted[verdict]++;
    }
    assert_true(counted[DS_FITS] > 1000 && counted[DS_UNKNOWN] > 1000 && counted[DS_SHORT] > 1000);
}

static void comparing_many_is_comparing_each(void **const state)
{
    (void)state;
    enum { MANY = 1003 };
    static ds_mark marks[MANY];
    static uint8_t verdicts[MANY + 1];
    mark_random r = {3};
    for (int round = 0; round < 300; round++) {
        const ds_need need = mark_random_need(&r);
        const size_t count = mark_below(&r, MANY + 1);
        for (size_t i = 0; i < count; i++) {
            marks[i] = mark_random_mark(&r);
        }
        memset(verdicts, 0xEE, sizeof verdicts);
        ds_mark_compare_many(need, marks, count, verdicts);
        for (size_t i = 0; i < count; i++) {
            assert_int_equal(verdicts[i], judge_plainly(need, marks[i]));
        }
        assert_int_equal(verdicts[count], 0xEE);
    }
}

/* --- what is lost --------------------------------------------------------------------------------------- */

static void what_is_lost_is_what_is_missing(void **const state)
{
    (void)state;
    mark_random r = {4};
    for (int i = 0; i < ROUNDS; i++) {
        const ds_need need = mark_random_need(&r);
        const ds_mark mark = mark_random_mark(&r);
        ds_need lost = 0;
        const ds_verdict verdict = ds_mark_compare(need, mark, &lost);
        assert_int_equal(lost == DS_NEED_NOTHING, verdict == DS_FITS);
        assert_int_equal(ds_mark_compare(lost, mark, NULL), verdict);
        assert_int_equal(ds_mark_proven(lost) & ~ds_mark_proven(need), 0);
        assert_true(ds_need_join(need, lost) == need);
    }
}

/* --- algebra -------------------------------------------------------------------------------------------- */

typedef ds_mark operation(ds_mark a, ds_mark b);

static void check_lattice(operation *const op, const ds_mark a, const ds_mark b, const ds_mark c)
{
    assert_true(op(a, b) == op(b, a));
    assert_true(op(a, a) == a);
    assert_true(op(op(a, b), c) == op(a, op(b, c)));
}

static void joining_and_weakest_are_commutative_associative_idempotent(void **const state)
{
    (void)state;
    mark_random r = {5};
    for (int i = 0; i < ROUNDS; i++) {
        const ds_mark a = mark_random_mark(&r);
        const ds_mark b = mark_random_mark(&r);
        const ds_mark c = mark_random_mark(&r);
        check_lattice(ds_mark_join, a, b, c);
        check_lattice(ds_mark_weakest, a, b, c);
        assert_true(ds_mark_join(a, DS_MARK_SILENT) == a);
        assert_true(ds_mark_either(a, b) == ds_mark_either(b, a));
        assert_int_equal(ds_mark_proven(ds_mark_either(a, a)), ds_mark_proven(a));
    }
}

static void needs_join_as_a_lattice(void **const state)
{
    (void)state;
    mark_random r = {6};
    for (int i = 0; i < ROUNDS; i++) {
        const ds_need a = mark_random_need(&r);
        check_lattice(ds_need_join, a, mark_random_need(&r), mark_random_need(&r));
        assert_true(ds_need_join(a, DS_NEED_NOTHING) == a);
    }
}

static void proven_and_denied_follow_the_sets(void **const state)
{
    (void)state;
    mark_random r = {7};
    for (int i = 0; i < ROUNDS; i++) {
        const ds_mark a = mark_random_mark(&r);
        const ds_mark b = mark_random_mark(&r);
        const ds_mark join = ds_mark_join(a, b);
        const ds_mark weakest = ds_mark_weakest(a, b);
        const ds_mark either = ds_mark_either(a, b);
        assert_true(ds_mark_proven(join) == (ds_mark_proven(a) | ds_mark_proven(b)));
        assert_true(ds_mark_proven(weakest) == (ds_mark_proven(a) & ds_mark_proven(b)));
        assert_true(ds_mark_denied(weakest) == (ds_mark_denied(a) | ds_mark_denied(b)));
        assert_true(ds_mark_proven(either) == (ds_mark_proven(a) & ds_mark_proven(b)));
        assert_true(ds_mark_denied(either) == (ds_mark_denied(a) & ds_mark_denied(b)));
        assert_int_equal(ds_mark_denied(join) & ~(ds_mark_denied(a) | ds_mark_denied(b)), 0);
        assert_int_equal(ds_mark_denied(join) & ds_mark_proven(join), 0);
    }
}

/* Two codes of one enclosure: what one leaves open the other does not deny; a track of one alone stays as it is. */
static void joining_denies_only_what_none_leaves_open(void **const state)
{
    (void)state;
    const ds_mark jets = mark_read("IPX5").mark;
    const ds_mark dipped = mark_read("IPX7").mark;
    const ds_mark sunk = mark_read("IPX8").mark;
    const ds_mark wire = mark_read("IP4X").mark;
    assert_int_equal(ds_mark_compare(mark_need("IPX8"), ds_mark_join(dipped, sunk), NULL), DS_UNKNOWN);
    assert_int_equal(ds_mark_compare(mark_need("IPX8"), ds_mark_join(jets, dipped), NULL), DS_SHORT);
    assert_int_equal(ds_mark_compare(mark_need("IPX6"), ds_mark_join(jets, dipped), NULL), DS_SHORT);
    assert_true(ds_mark_join(wire, jets) == mark_read("IP45").mark);
    assert_true(ds_mark_join(jets, mark_read("IK08").mark) == mark_read("IPX5 IK08").mark);
}

static void the_weakest_part_is_never_better_than_a_part(void **const state)
{
    (void)state;
    mark_random r = {8};
    for (int i = 0; i < ROUNDS; i++) {
        const ds_need need = mark_random_need(&r);
        const ds_mark a = mark_random_mark(&r);
        const ds_mark b = mark_random_mark(&r);
        const ds_verdict of_weakest = ds_mark_compare(need, ds_mark_weakest(a, b), NULL);
        assert_true(of_weakest >= worse(ds_mark_compare(need, a, NULL), ds_mark_compare(need, b, NULL)));
        assert_true((ds_mark_compare(need, ds_mark_either(a, b), NULL) == DS_FITS) <=
                    (ds_mark_compare(need, a, NULL) == DS_FITS && ds_mark_compare(need, b, NULL) == DS_FITS));
    }
}

/* Of two immersions only one pair can be kept, so a join is tried where at most one is declared. */
static void joining_never_loses_what_is_proven(void **const state)
{
    (void)state;
    mark_random r = {9};
    for (int i = 0; i < ROUNDS; i++) {
        const ds_need need = mark_random_need(&r);
        const ds_mark a = mark_random_mark(&r);
        const ds_mark b = mark_random_mark(&r);
        const bool two =
            ds_mark_depth_m(a) + ds_mark_minutes(a) > 0 && ds_mark_depth_m(b) + ds_mark_minutes(b) > 0;
        const bool fits =
            ds_mark_compare(need, a, NULL) == DS_FITS || ds_mark_compare(need, b, NULL) == DS_FITS;
        if (fits && !two) {
            assert_int_equal(ds_mark_compare(need, ds_mark_join(a, b), NULL), DS_FITS);
        }
    }
}

/* --- order ---------------------------------------------------------------------------------------------- */

/* A mark with some open or denied tests proven, some denied ones open, and no figure less. */
static ds_mark better_mark(mark_random *const r, const ds_claim *const claim)
{
    ds_claim more = *claim;
    more.depth_m = claim->depth_m > 0 ? claim->depth_m + mark_below(r, 3) : 0;
    more.minutes = claim->minutes > 0 ? claim->minutes + mark_below(r, 3) * 100 : 0;
    more.impact = (int8_t)(claim->impact >= 0 && claim->impact < 11 ? claim->impact + (int)mark_below(r, 2)
                                                                    : claim->impact);
    const ds_mark base = ds_mark_from(&more);
    const uint64_t raised = mark_below(r, 1U << DS_TEST_COUNT) & ~DS_WATER(8);
    const uint64_t reopened = mark_below(r, 1U << DS_TEST_COUNT);
    const uint64_t proven = ds_mark_proven(base) | raised;
    const uint64_t denied = ds_mark_denied(base) & ~(raised | reopened);
    const uint64_t figures = base & ~(DS_TESTS_ALL | DS_TESTS_ALL << DS_TEST_COUNT);
    return proven | denied << DS_TEST_COUNT | figures;
}

static void a_better_mark_never_fares_worse(void **const state)
{
    (void)state;
    mark_random r = {10};
    for (int i = 0; i < ROUNDS; i++) {
        const ds_need need = mark_random_need(&r);
        const ds_claim claim = mark_random_claim(&r);
        const ds_mark mark = ds_mark_from(&claim);
        const ds_verdict before = ds_mark_compare(need, mark, NULL);
        assert_true(ds_mark_compare(need, better_mark(&r, &claim), NULL) <= before);
        assert_true(ds_mark_compare(need, ds_mark_with_access(mark, 'B'), NULL) <= before);
    }
}

static void a_larger_need_never_fares_better(void **const state)
{
    (void)state;
    mark_random r = {11};
    for (int i = 0; i < ROUNDS; i++) {
        const ds_need need = mark_random_need(&r);
        const ds_need more = ds_need_join(need, mark_random_need(&r));
        const ds_mark mark = mark_random_mark(&r);
        assert_true(ds_mark_compare(more, mark, NULL) >= ds_mark_compare(need, mark, NULL));
    }
}

static void silence_is_never_a_pass(void **const state)
{
    (void)state;
    mark_random r = {12};
    for (int i = 0; i < ROUNDS; i++) {
        const ds_need need = mark_random_need(&r);
        const ds_verdict verdict = ds_mark_compare(need, DS_MARK_SILENT, NULL);
        assert_int_equal(verdict, need == DS_NEED_NOTHING ? DS_FITS : DS_UNKNOWN);
    }
}

static void access_by_kind_never_overrules_the_mark(void **const state)
{
    (void)state;
    const ds_mark bare = mark_read("IP00").mark;
    assert_true(ds_mark_with_access(bare, 'B') == bare);
    assert_true(ds_mark_with_access(DS_MARK_SILENT, 'E') == DS_MARK_SILENT);
    assert_int_equal(
        ds_mark_compare(mark_need("IPXXB"), ds_mark_with_access(mark_read("IPX4").mark, 'B'), NULL), DS_FITS);
    assert_int_equal(
        ds_mark_compare(mark_need("IP2X"), ds_mark_with_access(mark_read("IPX4").mark, 'B'), NULL),
        DS_UNKNOWN);
}

static void claims_out_of_range_count_as_not_made(void **const state)
{
    (void)state;
    const ds_claim wild = {
        .objects = 7, .access = 'E', .water_stated = true, .water = 1U | 1U << 10, .impact = 99};
    const ds_claim tame = {.objects = -1, .water_stated = true, .impact = 11};
    assert_true(ds_mark_from(&wild) == ds_mark_from(&tame));
    assert_int_equal(ds_mark_proven(ds_need_from(&wild)), 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(packing_agrees_with_the_plain_way),
        cmocka_unit_test(comparing_agrees_with_the_plain_way),
        cmocka_unit_test(comparing_many_is_comparing_each),
        cmocka_unit_test(what_is_lost_is_what_is_missing),
        cmocka_unit_test(joining_and_weakest_are_commutative_associative_idempotent),
        cmocka_unit_test(needs_join_as_a_lattice),
        cmocka_unit_test(proven_and_denied_follow_the_sets),
        cmocka_unit_test(joining_denies_only_what_none_leaves_open),
        cmocka_unit_test(the_weakest_part_is_never_better_than_a_part),
        cmocka_unit_test(joining_never_loses_what_is_proven),
        cmocka_unit_test(a_better_mark_never_fares_worse),
        cmocka_unit_test(a_larger_need_never_fares_better),
        cmocka_unit_test(silence_is_never_a_pass),
        cmocka_unit_test(access_by_kind_never_overrules_the_mark),
        cmocka_unit_test(claims_out_of_range_count_as_not_made),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
