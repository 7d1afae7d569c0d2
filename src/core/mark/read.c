/* SPDX-License-Identifier: MIT */
/*
 * The driver of reading: clean codes at once, everything else through fold, scan, attach and settle.
 */
#include "core/mark/clean.h"
#include "core/mark/nema.h"
#include "core/mark/print.h"
#include "core/mark/reader.h"

#include <math.h>

static void begin_reading(ds_reading *const out)
{
    *out = (ds_reading){.claim = DS_CLAIM_NOTHING, .mark = DS_MARK_SILENT};
}

/* Everything of a scan but its lists, which fill from the front. */
static void begin_scan(ds_scan *const s, const char *const at, const size_t len, ds_reading *const out)
{
    memset(s, 0, offsetof(ds_scan, codes));
    s->at = at;
    s->len = len;
    s->out = out;
    s->impact = -1;
    s->impact_named = -1;
    s->joules = -1;
}

/* --- what is no IP code --------------------------------------------------------------------------------- */

static bool has_any_code(const ds_scan *const s)
{
    return s->codes_len || s->impact >= 0;
}

static void settle_words(ds_scan *const s)
{
    const bool has_something = has_any_code(s) || s->joules >= 0 || s->nema_seen;
    if (has_something && s->unknown_words) {
        ds_scan_note(s, DS_NOTE_UNKNOWN_WORDS);
    }
    if (has_any_code(s) && (s->word || s->old_word)) {
        ds_scan_note(s, DS_NOTE_WORD_BESIDE);
    }
    if (has_something || s->impact_bad || s->foreign || s->out->status == DS_READ_REFUSED) {
        return;
    }
    ds_scan_note(s, s->old_word   ? DS_NOTE_OLD_WORD
                    : s->word     ? DS_NOTE_WORD
                    : s->len == 0 ? DS_NOTE_EMPTY
                                  : DS_NOTE_NO_CODE);
}

static void settle_nema(ds_scan *const s)
{
    if (!s->nema_seen) {
        return;
    }
    s->out->has_nema = s->nema_named || !has_any_code(s);
    if (has_any_code(s)) {
        ds_scan_note(s, s->nema_named ? DS_NOTE_NEMA_BESIDE : DS_NOTE_OTHER_TYPE);
        return;
    }
    const ds_note_id note = ds_nema_note(s->nema);
    s->out->nema = s->nema;
    s->out->claim = ds_nema_claim(s->nema);
    ds_scan_note(s, note == DS_NOTE_NEMA && !s->nema_named ? DS_NOTE_TYPE_ALONE : note);
}

/* --- impact --------------------------------------------------------------------------------------------- */

static void settle_joules(ds_scan *const s)
{
    if (s->impact < 0) {
        ds_scan_note(s, DS_NOTE_JOULES);
        if (!s->codes_len) {
            s->out->claim.impact = (int8_t)ds_impact_grade_within(s->joules);
        }
        return;
    }
    if (fabs(s->joules - ds_impact_joules((unsigned)s->impact_named)) > 1e-9) {
        const int within = (int)ds_impact_grade_within(s->joules);
        ds_scan_note(s, DS_NOTE_IK_CONFLICT);
        s->impact = (int8_t)(within < s->impact ? within : s->impact);
        s->impact_unsure = true;
    }
}

/* A grade holds for every part; a doubtful one denies nothing above it. */
static void add_impact(ds_scan *const s)
{
    const ds_claim claim = {.objects = -1, .impact = s->impact};
    const ds_mark sure = ds_mark_from(&claim);
    const ds_mark mark = s->impact_unsure ? ds_mark_either(sure, sure) : sure;
    s->out->mark = ds_mark_join(s->out->mark, mark);
    for (uint8_t i = 0; i < s->out->parts_len; i++) {
        s->out->parts[i].mark = ds_mark_join(s->out->parts[i].mark, mark);
    }
}

static void settle_impact(ds_scan *const s)
{
    if (s->impact_bad) {
        ds_scan_note(s, has_any_code(s) ? DS_NOTE_IK_NO_GRADE_BESIDE : DS_NOTE_IK_NO_GRADE);
    }
    const int8_t named = s->impact;
    if (s->joules >= 0) {
        settle_joules(s);
    }
    if (s->impact >= 0) {
        s->out->claim.impact = named;
        add_impact(s);
    }
}

/* --- marks ---------------------------------------------------------------------------------------------- */

static bool has_link(const ds_scan *const s, const ds_link link)
{
    for (uint8_t i = 0; i < s->codes_len; i++) {
        if (s->codes[i].link == link) {
            return true;
        }
    }
    return false;
}

/* Words of a requirement: what is asked for is shown, nothing is proven. */
static bool settle_requirement(ds_scan *const s)
{
    s->is_need = s->is_need || has_link(s, DS_LINK_OR);
    s->out->is_need = s->is_need;
    if (!s->is_need || !has_any_code(s)) {
        return false;
    }
    ds_need need;
    ds_scan_note(s, DS_NOTE_REQUIREMENT);
    return s->codes_len && ds_codes_need(s, &need, &s->out->claim);
}

/* Nothing may be relied on: neither mark nor parts remain, and of a refused text no claim either. */
static void silence(ds_scan *const s)
{
    ds_reading *const out = s->out;
    if (s->silent || out->status == DS_READ_REFUSED) {
        out->mark = DS_MARK_SILENT;
        out->parts_len = 0;
    }
    if (out->status == DS_READ_REFUSED) {
        out->claim = DS_CLAIM_NOTHING;
        out->letters = 0;
    }
}

static bool says_something(const ds_claim *const claim)
{
    return claim->objects >= 0 || claim->access || claim->water_stated || claim->impact >= 0;
}

static void settle_mark(ds_scan *const s)
{
    ds_reading *const out = s->out;
    ds_attach(s);
    settle_words(s);
    settle_nema(s);
    if (has_link(s, DS_LINK_DASH)) {
        ds_scan_note(s, DS_NOTE_RANGE);
    }
    if (!settle_requirement(s) && s->codes_len) {
        ds_settle_parts(s);
    }
    settle_impact(s);
    if (out->parts_len == 1) {
        out->mark = ds_mark_weakest(out->mark, DS_MARK_SILENT); /* the other states are not known */
    }
    silence(s);
    out->has_code = says_something(&out->claim);
}

/* Kept apart from the clean path, which must not pay for the room of a scan. */
static void read_wild(const ds_str text, ds_reading *const out)
{
    char folded[DS_MARK_TEXT_MAX];
    size_t len = 0;
    bool typography = false;
    ds_scan s;
    if (!ds_fold(text, folded, &len, &typography, out)) {
        return;
    }
    begin_scan(&s, folded, len, out);
    if (typography) {
        ds_scan_note(&s, DS_NOTE_TYPOGRAPHY);
    }
    ds_scan_run(&s);
    settle_mark(&s);
    out->valid = ds_mark_is_strict(text);
}

void ds_mark_read(const ds_str text, ds_reading *const out)
{
    begin_reading(out);
    if (!ds_mark_read_clean(text, out)) {
        read_wild(text, out);
    }
}

/* --- needs ---------------------------------------------------------------------------------------------- */

static void add_needed_impact(ds_scan *const s, ds_need *const need)
{
    ds_claim claim = {.objects = -1, .impact = s->impact};
    const int by_energy = s->joules >= 0 ? (int)ds_impact_grade(s->joules) : -1;
    claim.impact = (int8_t)(by_energy > claim.impact ? by_energy : claim.impact);
    if (claim.impact >= 0) {
        *need = ds_need_join(*need, ds_need_from(&claim));
        s->out->claim.impact = claim.impact;
    }
}

static void note_needed(ds_scan *const s)
{
    for (uint8_t i = 0; i < s->codes_len; i++) {
        if (s->codes[i].when) {
            ds_scan_note(s, DS_NOTE_MANY_STATES);
        }
    }
    if (s->impact_bad) {
        ds_scan_note(s, DS_NOTE_IK_NO_GRADE);
    }
    if (s->nema_seen && !s->nema_named) {
        ds_scan_note(s, has_any_code(s) ? DS_NOTE_OTHER_TYPE : DS_NOTE_TYPE_ALONE);
    }
}

static bool settle_need(ds_scan *const s, ds_need *const need)
{
    ds_attach(s);
    settle_words(s);
    note_needed(s);
    const bool usable = ds_codes_need(s, need, &s->out->claim) && !s->impact_unsure && !s->plus && !s->silent;
    if (!usable || s->out->status == DS_READ_REFUSED || !(has_any_code(s) || s->joules >= 0)) {
        *need = DS_NEED_NOTHING;
        s->out->claim = DS_CLAIM_NOTHING;
        return false;
    }
    add_needed_impact(s, need);
    s->out->has_code = says_something(&s->out->claim);
    return true;
}

bool ds_need_read(const ds_str text, ds_need *const out, ds_reading *const reading)
{
    char folded[DS_MARK_TEXT_MAX];
    size_t len = 0;
    bool typography = false;
    ds_scan s;
    *out = DS_NEED_NOTHING;
    begin_reading(reading);
    reading->is_need = true;
    if (!ds_fold(text, folded, &len, &typography, reading)) {
        return false;
    }
    begin_scan(&s, folded, len, reading);
    s.for_need = true;
    if (typography) {
        ds_scan_note(&s, DS_NOTE_TYPOGRAPHY);
    }
    ds_scan_run(&s);
    reading->valid = ds_mark_is_strict(text);
    return settle_need(&s, out);
}

/* --- printing ------------------------------------------------------------------------------------------- */

void ds_reading_print(ds_text *const out, const ds_reading *const reading)
{
    for (uint8_t i = 0; i < reading->parts_len; i++) {
        const ds_mark_part *const part = &reading->parts[i];
        ds_text_add(out, i ? ", " : "");
        ds_mark_print(out, part->mark);
        ds_text_add(out, " ");
        ds_text_add(out, part->when ? part->when : "always");
    }
    if (reading->parts_len || !reading->has_code) {
        return;
    }
    ds_text_add(out, reading->nema ? "at least " : "");
    ds_claim_print(out, &reading->claim, reading->letters);
}
