/* SPDX-License-Identifier: MIT */
/* Reading and comparing by the tables in tests/marks/, where every row names its source. */
#include "mark_help.h"

#include <math.h>

static bool failed;

static void differ(const mark_row *const row, const char *const what, const char *const is,
                   const char *const wanted)
{
    print_error("line %d: %s: %s is \"%s\", wanted \"%s\"\n", row->number, row->at[0], what, is, wanted);
    failed = true;
}

/* "-" in a table stands for nothing. */
static void expect(const mark_row *const row, const char *const what, const char *const is,
                   const char *const wanted)
{
    const char *const shown = *is ? is : "-";
    if (strcmp(shown, wanted) != 0) {
        differ(row, what, shown, wanted);
    }
}

static void run(const char *const name, const size_t columns, void (*const visit)(const mark_row *))
{
    failed = false;
    mark_each_row(name, columns, visit);
    assert_false(failed);
}

/* --- columns of a reading ------------------------------------------------------------------------------- */

static mark_text solids_of(const ds_claim *const claim)
{
    mark_text out = {""};
    if (claim->objects >= 0) {
        snprintf(out.at, sizeof out.at, "%d%s", claim->objects, claim->objects_foreign ? "K" : "");
    }
    return out;
}

static mark_text access_of(const ds_claim *const claim)
{
    return (mark_text){{claim->access, '\0'}};
}

static mark_text water_of(const ds_claim *const claim)
{
    mark_text out = {""};
    if (claim->water_stated && !claim->water && !claim->water_foreign) {
        return (mark_text){"0"};
    }
    for (int n = 1; n <= 9; n++) {
        for (int k = 0; k < 2; k++) {
            if ((k ? claim->water_foreign : claim->water) >> n & 1) {
                const size_t len = strlen(out.at);
                snprintf(out.at + len, sizeof out.at - len, "%s%d%s", len ? "," : "", n, k ? "K" : "");
            }
        }
    }
    return out;
}

static mark_text parts_of(const ds_reading *const reading)
{
    mark_text out = {""};
    for (int i = 0; i < reading->parts_len; i++) {
        const char *const when = reading->parts[i].when;
        const size_t len = strlen(out.at);
        snprintf(out.at + len, sizeof out.at - len, "%s%s", len ? "," : "", when ? when : "always");
    }
    return out;
}

static mark_text letters_of(const ds_reading *const reading)
{
    mark_text out = {""};
    size_t len = 0;
    for (int i = 0; i < 4; i++) {
        if (reading->letters >> i & 1) {
            out.at[len++] = "HMSW"[i];
        }
    }
    return out;
}

/* --- tables --------------------------------------------------------------------------------------------- */

static void visit_wild(const mark_row *const row)
{
    const ds_reading reading = mark_read(row->at[0]);
    expect(row, "status", ds_read_status_word(reading.status), row->at[1]);
    expect(row, "valid", reading.valid ? "yes" : "no", row->at[2]);
    expect(row, "reading", mark_reading_printed(&reading).at, row->at[3]);
    expect(row, "solids", solids_of(&reading.claim).at, row->at[4]);
    expect(row, "access", access_of(&reading.claim).at, row->at[5]);
    expect(row, "water", water_of(&reading.claim).at, row->at[6]);
    expect(row, "parts", parts_of(&reading).at, row->at[7]);
    expect(row, "counts", mark_printed(reading.mark).at, row->at[8]);
    const bool asks = strchr(mark_because(&reading).at, '?') != NULL;
    if (asks != (reading.status == DS_READ_QUESTION)) {
        differ(row, "because", mark_because(&reading).at, "a question, if and only if it is one");
    }
}

static void reads_wild_marks(void **const state)
{
    (void)state;
    run("wild.tsv", 10, visit_wild);
}

static void visit_golden(const mark_row *const row)
{
    const ds_reading reading = mark_read(row->at[0]);
    expect(row, "valid", reading.valid ? "yes" : "no", row->at[1]);
    expect(row, "solids", solids_of(&reading.claim).at, row->at[2]);
    expect(row, "water", water_of(&reading.claim).at, row->at[3]);
    expect(row, "letter", access_of(&reading.claim).at, row->at[4]);
    expect(row, "supplementary", letters_of(&reading).at, row->at[5]);
}

static void keeps_the_strict_grammar(void **const state)
{
    (void)state;
    run("golden.tsv", 7, visit_golden);
}

/* The tests of one track in a set, as a list. */
static mark_text listed(const uint64_t set, const char *const track)
{
    static const struct {
        const char *track, *rungs;
        int first;
    } TRACKS[] = {{"solids", "123456", 0}, {"access", "ABCD", 6}, {"water", "123456789", 10}};
    mark_text out = {""};
    for (size_t i = 0; i < 3; i++) {
        for (int n = 0; strcmp(track, TRACKS[i].track) == 0 && TRACKS[i].rungs[n]; n++) {
            const size_t len = strlen(out.at);
            if (set >> (TRACKS[i].first + n) & 1) {
                snprintf(out.at + len, sizeof out.at - len, "%s%c", len ? "," : "", TRACKS[i].rungs[n]);
            }
        }
    }
    return out;
}

static void visit_implies(const mark_row *const row)
{
    const ds_mark mark = mark_read(row->at[0]).mark;
    const uint64_t proven = ds_mark_proven(mark);
    const uint64_t denied = ds_mark_denied(mark);
    expect(row, "proven", listed(proven, row->at[1]).at, row->at[2]);
    expect(row, "denied", listed(denied, row->at[1]).at, row->at[3]);
    expect(row, "open", listed(~(proven | denied), row->at[1]).at, row->at[4]);
}

static void proves_what_it_implies(void **const state)
{
    (void)state;
    run("implies.tsv", 6, visit_implies);
}

static void visit_question(const mark_row *const row)
{
    const ds_mark mark = mark_read(row->at[1]).mark;
    const ds_verdict verdict = ds_mark_compare(mark_need(row->at[0]), mark, NULL);
    expect(row, row->at[1], ds_verdict_word(verdict), row->at[2]);
}

static void answers_questions(void **const state)
{
    (void)state;
    run("questions.tsv", 4, visit_question);
}

static void visit_need(const mark_row *const row)
{
    ds_need need;
    ds_reading reading;
    const bool usable = ds_need_read(ds_str_of(row->at[0]), &need, &reading);
    expect(row, "usable", usable ? "yes" : "no", row->at[1]);
    expect(row, "need", mark_need_printed(need).at, row->at[2]);
    assert_true(reading.is_need && reading.mark == DS_MARK_SILENT);
    if (!usable && reading.status < DS_READ_QUESTION) {
        differ(row, "status", ds_read_status_word(reading.status), "question or refused");
    }
}

static void reads_needs(void **const state)
{
    (void)state;
    run("needs.tsv", 4, visit_need);
}

static void visit_impact(const mark_row *const row)
{
    const unsigned grade = (unsigned)strtoul(row->at[0], NULL, 10);
    const double joules = strtod(row->at[1], NULL);
    assert_true(ds_impact_joules(grade) == joules);
    assert_int_equal(ds_impact_grade(joules), grade);
    assert_int_equal(ds_impact_grade_within(joules), grade);
    assert_int_equal(ds_impact_grade(joules * 1.01 + 0.001), grade + 1);
    assert_int_equal(ds_impact_grade_within(joules * 1.01 + 0.001), grade);
}

static void knows_impact_energies(void **const state)
{
    (void)state;
    run("impact.tsv", 3, visit_impact);
    assert_int_equal(ds_impact_grade(-1), 0);
    assert_int_equal(ds_impact_grade(0.15), 2);
    assert_int_equal(ds_impact_grade(50.1), DS_IMPACT_BEYOND);
    assert_int_equal(ds_impact_grade((double)NAN), DS_IMPACT_BEYOND);
    assert_int_equal(ds_impact_grade_within((double)NAN), 0);
    assert_true(ds_impact_joules(12) == 50);
}

/* Each of a comma-separated list stands in the text. */
static void expect_named(const mark_row *const row, const char *const text, const char *list)
{
    while (*list && *list != '-') {
        char one[16] = "";
        const size_t len = strcspn(list, ",");
        memcpy(one, list, len);
        if (!strstr(text, one)) {
            differ(row, "because", text, one);
        }
        list += len + (list[len] == ',');
    }
}

static void visit_nema(const mark_row *const row)
{
    char text[40];
    char least[40];
    snprintf(text, sizeof text, "NEMA %s", row->at[0]);
    snprintf(least, sizeof least, "at least %s", row->at[2]);
    const ds_reading reading = mark_read(text);
    expect(row, "status", ds_read_status_word(reading.status), row->at[1]);
    expect(row, "reading", mark_reading_printed(&reading).at, strcmp(row->at[2], "-") == 0 ? "-" : least);
    expect_named(row, mark_because(&reading).at, row->at[3]);
    assert_true(reading.mark == DS_MARK_SILENT && reading.has_nema && !reading.valid);
    ds_need need;
    ds_reading as_need;
    assert_false(ds_need_read(ds_str_of(text), &need, &as_need));
}

static void takes_nema_types_one_way(void **const state)
{
    (void)state;
    run("nema.tsv", 5, visit_nema);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reads_wild_marks),
        cmocka_unit_test(keeps_the_strict_grammar),
        cmocka_unit_test(proves_what_it_implies),
        cmocka_unit_test(answers_questions),
        cmocka_unit_test(reads_needs),
        cmocka_unit_test(knows_impact_energies),
        cmocka_unit_test(takes_nema_types_one_way),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
