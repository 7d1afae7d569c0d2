/* SPDX-License-Identifier: MIT */
/*
 * Reading at its edges: any bytes, long texts, many notes; and the words for rungs, lost tests and statuses.
 */
#include "mark_help.h"
#include "mark_random.h"

#include "core/mark/notes.h"

static bool has_note(const ds_reading *const reading, const ds_note_id note)
{
    for (int i = 0; i < reading->notes_len; i++) {
        if (reading->notes[i] == note) {
            return true;
        }
    }
    return false;
}

static void expect_refused(const ds_str text, const ds_note_id note)
{
    ds_reading reading;
    ds_need need;
    ds_mark_read(text, &reading);
    assert_int_equal(reading.status, DS_READ_REFUSED);
    assert_true(has_note(&reading, note));
    assert_true(reading.mark == DS_MARK_SILENT && !reading.has_code && !reading.valid);
    assert_false(ds_need_read(text, &need, &reading));
    assert_true(need == DS_NEED_NOTHING && has_note(&reading, note));
}

static void refuses_what_is_no_text(void **const state)
{
    (void)state;
    expect_refused((ds_str){NULL, 0}, DS_NOTE_EMPTY);
    expect_refused(DS_STR("   "), DS_NOTE_EMPTY);
    expect_refused(DS_STR("\xC2\xA0"), DS_NOTE_EMPTY);
    expect_refused(DS_STR("IP65\xFF"), DS_NOTE_NOT_UTF8);
    expect_refused(DS_STR("IP65\xED\xA0\x80"), DS_NOTE_NOT_UTF8);
    expect_refused(DS_STR("IP65\xE2\x80"), DS_NOTE_NOT_UTF8);
    expect_refused(DS_STR("IP65\n"), DS_NOTE_CONTROL);
    expect_refused(DS_STR("IP\t65"), DS_NOTE_CONTROL);
    expect_refused(DS_STR("IP65\0"), DS_NOTE_CONTROL);
    expect_refused(DS_STR("IP65\x7F"), DS_NOTE_CONTROL);
    expect_refused(DS_STR("IP65\xC2\x85"), DS_NOTE_CONTROL);
}

static void takes_a_thousand_bytes_and_no_more(void **const state)
{
    (void)state;
    char text[DS_MARK_TEXT_MAX + 1];
    ds_reading reading;
    memset(text, ' ', sizeof text);
    memcpy(text, "IP65", 4);
    ds_mark_read((ds_str){text, DS_MARK_TEXT_MAX}, &reading);
    assert_int_equal(reading.status, DS_READ_CODE);
    expect_refused((ds_str){text, DS_MARK_TEXT_MAX + 1}, DS_NOTE_TOO_LONG);
}

/* Texts that grow with folding would run over their room. */
static void folding_never_grows(void **const state)
{
    (void)state;
    static const char *const SIGNS[] = {"\xE2\x89\xA5", "\xE2\x80\xA6",     "\xE2\x84\x83",
                                        "\xC2\xB0",     "\xF0\x9F\x92\xA7", "\xEF\xBC\xA9"};
    for (size_t i = 0; i < sizeof SIGNS / sizeof *SIGNS; i++) {
        char *const text = malloc(DS_MARK_TEXT_MAX);
        assert_non_null(text);
        const size_t one = strlen(SIGNS[i]);
        size_t len = 0;
        while (len + one <= DS_MARK_TEXT_MAX) {
            memcpy(text + len, SIGNS[i], one);
            len += one;
        }
        ds_reading reading;
        ds_mark_read((ds_str){text, len}, &reading);
        assert_true(reading.mark == DS_MARK_SILENT);
        free(text);
    }
}

static void outer_blanks_change_nothing(void **const state)
{
    (void)state;
    const ds_reading reading = mark_read("  IP65 ");
    assert_int_equal(reading.status, DS_READ_CODE);
    assert_true(reading.mark == mark_read("IP65").mark && !reading.valid);
}

/* More codes, items or conditions than there is room for are never read in part. */
static void too_much_is_a_question(void **const state)
{
    (void)state;
    static const char *const MANY[] = {
        "IP65/IP65/IP65/IP65/IP65/IP65/IP65/IP65/IP65",
        "IP65 ((((((((((((((((((((((((((((((((((((((((((((((((((((((((((((",
        "IP65 front, IP54 rear, IP44 closed, IP43 open, IP20 in use",
        "IP65 closed, IP44 open, IP54",
    };
    for (size_t i = 0; i < sizeof MANY / sizeof *MANY; i++) {
        const ds_reading reading = mark_read(MANY[i]);
        assert_int_equal(reading.status, DS_READ_QUESTION);
        assert_true(reading.mark == DS_MARK_SILENT && reading.parts_len == 0);
    }
}

/* Six notes have room; the seventh, being graver, takes the place of a mild one. */
static void the_gravest_notes_are_kept(void **const state)
{
    (void)state;
    const ds_reading reading = mark_read("i.p-6\xEF\xBC\x95/67 + IPX9K, 20 C, weatherproof, pending");
    assert_int_equal(reading.notes_len, DS_READ_NOTES);
    assert_true(has_note(&reading, DS_NOTE_UNKNOWN_WORDS));
    assert_int_equal(reading.status, DS_READ_QUESTION);
    assert_true(reading.mark == DS_MARK_SILENT);
}

/* --- parts ---------------------------------------------------------------------------------------------- */

static void impact_holds_in_every_part(void **const state)
{
    (void)state;
    const ds_reading reading = mark_read("IP66 lid closed, IP44 in use, IK08");
    assert_int_equal(reading.parts_len, 2);
    assert_string_equal(mark_printed(reading.parts[0].mark).at, "IP66 IK08");
    assert_string_equal(mark_printed(reading.parts[1].mark).at, "IP44 IK08");
    assert_string_equal(mark_printed(reading.mark).at, "IP44 IK08");
}

static void one_condition_leaves_the_other_states_unknown(void **const state)
{
    (void)state;
    const ds_reading reading = mark_read("IP66 IK08 (lid closed)");
    assert_int_equal(reading.parts_len, 1);
    assert_int_equal(ds_mark_compare(mark_need("IP44"), reading.parts[0].mark, NULL), DS_FITS);
    assert_int_equal(ds_mark_compare(mark_need("IP44"), reading.mark, NULL), DS_UNKNOWN);
    assert_int_equal(ds_mark_compare(mark_need("IK07"), reading.mark, NULL), DS_UNKNOWN);
    assert_int_equal(ds_mark_compare(mark_need("IPX7"), reading.mark, NULL), DS_SHORT);
}

/* What is certain of a question counts, and what may be more is open, not denied. */
static void a_question_denies_only_what_both_readings_deny(void **const state)
{
    (void)state;
    const ds_mark mark = mark_read("IP65/IP66").mark;
    assert_int_equal(ds_mark_compare(mark_need("IP65"), mark, NULL), DS_FITS);
    assert_int_equal(ds_mark_compare(mark_need("IP66"), mark, NULL), DS_UNKNOWN);
    assert_int_equal(ds_mark_compare(mark_need("IP67"), mark, NULL), DS_SHORT);
    assert_int_equal(ds_mark_compare(mark_need("IK11"), mark_read("IK10+").mark, NULL), DS_UNKNOWN);
    assert_int_equal(ds_mark_compare(mark_need("IPX8"), mark_read("IP67 (3 m)").mark, NULL), DS_UNKNOWN);
    assert_int_equal(ds_mark_compare(mark_need("IPX8"), mark_read("IP67").mark, NULL), DS_SHORT);
}

/* --- any text ------------------------------------------------------------------------------------------- */

/* What must hold of every reading. */
static void expect_sound(const ds_str text)
{
    ds_reading reading;
    ds_mark_read(text, &reading);
    assert_true(reading.status <= DS_READ_REFUSED);
    assert_true(reading.notes_len <= DS_READ_NOTES && reading.parts_len <= DS_READ_PARTS);
    assert_true(reading.status != DS_READ_NOTED || reading.notes_len > 0);
    assert_true(reading.status != DS_READ_REFUSED || (reading.mark == DS_MARK_SILENT && !reading.has_code));
    assert_true(!reading.valid || reading.has_code || reading.status == DS_READ_REFUSED);
    assert_true(!reading.is_need || reading.mark == DS_MARK_SILENT);
    assert_int_equal(ds_mark_proven(reading.mark) & ds_mark_denied(reading.mark), 0);
    for (int i = 0; i < reading.parts_len; i++) {
        const ds_mark part = reading.parts[i].mark;
        assert_int_equal(ds_mark_proven(reading.mark) & ~ds_mark_proven(part), 0);
    }
    assert_true(strlen(mark_because(&reading).at) > 0);
}

/* Every beginning and every end of every wild text, and each with one byte changed. */
static void visit_pieces(const mark_row *const row)
{
    const size_t len = strlen(row->at[0]);
    mark_random r = {(uint64_t)row->number};
    for (size_t i = 0; i <= len; i++) {
        expect_sound((ds_str){row->at[0], i});
        expect_sound((ds_str){row->at[0] + i, len - i});
    }
    for (int i = 0; i < 200 && len; i++) {
        char text[MARK_LINE];
        static const char LIKELY[] = "IPKX0123456789 /-+()ABCDMSW.,m";
        memcpy(text, row->at[0], len);
        text[mark_below(&r, (unsigned)len)] = LIKELY[mark_below(&r, sizeof LIKELY - 1)];
        expect_sound((ds_str){text, len});
    }
}

static void pieces_of_wild_texts_read_soundly(void **const state)
{
    (void)state;
    mark_each_row("wild.tsv", 10, visit_pieces);
}

/* --- words ---------------------------------------------------------------------------------------------- */

static void collect(void *const ctx, const ds_str test)
{
    char *const list = ctx;
    const size_t len = strlen(list);
    snprintf(list + len, 1200 - len, "%.*s;", (int)test.len, test.at);
}

static void names_the_tests_of_a_need(void **const state)
{
    (void)state;
    char list[1200] = "";
    ds_need_each(mark_need("IP2XC/IPX7/IPX8 (2.5 m, 3 days) IK08"), collect, list);
    assert_string_equal(
        list, "solids 1;solids 2;access A;access B;access C;water 7;water 8;impact IK08;depth 2.5 m;"
              "time 3 days;");
    list[0] = '\0';
    ds_need_each(mark_need("60 J"), collect, list);
    assert_string_equal(list, "impact above 50 J;");
    ds_need lost;
    list[0] = '\0';
    ds_mark_compare(mark_need("IP44"), mark_read("IP2X").mark, &lost);
    ds_need_each(lost, collect, list);
    assert_string_equal(list, "solids 3;solids 4;water 1;water 2;water 3;water 4;");
}

static void every_rung_has_words(void **const state)
{
    (void)state;
    static const char TRACKS[] = "oaw";
    static const unsigned TOPS[] = {6, 4, 9};
    for (int i = 0; i < 3; i++) {
        for (unsigned rung = 0; rung <= TOPS[i]; rung++) {
            assert_true(strlen(ds_test_words(TRACKS[i], rung)) > 5);
        }
        assert_string_equal(ds_test_words(TRACKS[i], TOPS[i] + 1), "");
    }
    assert_string_equal(ds_test_words('x', 0), "");
}

static void statuses_and_verdicts_have_their_words(void **const state)
{
    (void)state;
    assert_string_equal(ds_read_status_word(DS_READ_CODE), "code");
    assert_string_equal(ds_read_status_word(DS_READ_REFUSED), "refused");
    assert_string_equal(ds_verdict_word(DS_FITS), "fits");
    assert_string_equal(ds_verdict_word(DS_UNKNOWN), "unknown");
    assert_string_equal(ds_verdict_word(DS_SHORT), "short");
    assert_string_equal(ds_verdict_word(DS_BARRED), "barred");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(refuses_what_is_no_text),
        cmocka_unit_test(takes_a_thousand_bytes_and_no_more),
        cmocka_unit_test(folding_never_grows),
        cmocka_unit_test(outer_blanks_change_nothing),
        cmocka_unit_test(too_much_is_a_question),
        cmocka_unit_test(the_gravest_notes_are_kept),
        cmocka_unit_test(impact_holds_in_every_part),
        cmocka_unit_test(one_condition_leaves_the_other_states_unknown),
        cmocka_unit_test(a_question_denies_only_what_both_readings_deny),
        cmocka_unit_test(pieces_of_wild_texts_read_soundly),
        cmocka_unit_test(names_the_tests_of_a_need),
        cmocka_unit_test(every_rung_has_words),
        cmocka_unit_test(statuses_and_verdicts_have_their_words),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
