/* SPDX-License-Identifier: MIT */
/* A finding as JSON, whole or brief. Sentences come from say.h. */
#include "core/assess/finding_json.h"

#include "core/assess/climate_json.h"
#include "core/assess/keys.h"
#include "core/assess/missing.h"
#include "core/assess/say.h"
#include "core/box/entry_say.h"
#include "core/zone/json.h"

#include <math.h>

static void put_number(ds_finding_writer *const s, const char *const key, const double value)
{
    if (!isnan(value)) {
        ds_json_put_key(&s->w, key);
        ds_json_put_number(&s->w, value);
    }
}

/* --- protection --------------------------------------------------------------------------------------------------- */

/* The code without impact. */
static ds_need without_impact(const ds_need need)
{
    return (need & ~((ds_need)15 << 38)) | (ds_need)DS_IMPACT_OPEN << 42;
}

static void put_access(ds_finding_writer *const s, const uint64_t tests)
{
    static const char *const LETTERS[] = {"A", "B", "C", "D"};
    const char *letter = NULL;
    for (int i = 0; i < DS_ACCESS_LEN; i++) {
        letter = tests & DS_ACCESS('A' + i) ? LETTERS[i] : letter;
    }
    ds_put_text(s, "access", letter);
}

static void put_ik(ds_finding_writer *const s, const unsigned grade)
{
    if (grade && grade <= 11) {
        ds_text_add(&s->line, grade < 10 ? "IK0" : "IK");
        ds_text_int(&s->line, grade);
    } else if (grade) {
        ds_text_add(&s->line, "beyond IK11");
    }
    ds_put_line(s, "ik");
}

static void put_needed(ds_finding_writer *const s, const char *const key, const ds_need need,
                       const ds_finding *const finding)
{
    ds_json_put_key(&s->w, key);
    ds_json_begin_object(&s->w);
    const ds_need code = without_impact(finding ? ds_finding_code(finding) : need);
    if (code != DS_NEED_NOTHING) {
        ds_need_print(&s->line, code);
    }
    ds_put_line(s, "ip");
    put_ik(s, ds_mark_impact(need));
    put_access(s, ds_mark_proven(need));
    if (finding) {
        put_number(s, "rated_c", finding->rated_c);
        put_number(s, "cold_c", finding->cold_c);
        ds_json_put_key(&s->w, "surface_d");
        ds_json_put_bool(&s->w, finding->surface_d);
    }
    ds_json_end_object(&s->w);
}

static void put_marked(ds_finding_writer *const s, const ds_finding *const finding)
{
    if (!finding->point->marked_len) {
        ds_put_text(s, "marked", NULL);
        return;
    }
    ds_say_marked(&s->line, finding->point);
    ds_put_line(s, "marked");
}

/* What counts of the marks in the deciding state, after entries and openings, as one code. */
static void put_shown(ds_finding_writer *const s, const ds_finding *const finding)
{
    ds_finding_shown(&s->line, finding);
    ds_put_line(s, "shown");
}

/* What each entry and opening leaves against what is needed, and what would restore it. */
static void put_part(ds_finding_writer *const s, const ds_finding *const finding, const ds_part *const part)
{
    ds_json_begin_object(&s->w);
    ds_say_part_name(&s->line, part);
    ds_put_line(s, "part");
    ds_put_text(s, "outcome", ds_verdict_word(ds_mark_compare(finding->needed, part->mark, NULL)));
    ds_say_part(&s->line, finding->installed, part, finding->needed);
    ds_put_line(s, "why");
    ds_say_part_mend(&s->line, finding->installed, part, finding->needed);
    ds_put_line(s, "mend");
    ds_put_text(s, "mend_key", ds_part_key(finding->installed, part, finding->needed));
    ds_say_part_notes(&s->line, finding->installed, part);
    ds_put_line(s, "notes");
    ds_json_end_object(&s->w);
}

/* The code that is left; null where the entries are not listed. */
static void put_installed(ds_finding_writer *const s, const ds_finding *const finding)
{
    if (!finding->installed || !finding->installed->entries_stated) {
        ds_put_text(s, "installed", NULL);
        return;
    }
    ds_json_put_key(&s->w, "installed");
    ds_json_begin_object(&s->w);
    if (finding->marked != DS_MARK_SILENT) {
        ds_finding_shown(&s->line, finding);
    }
    ds_put_line(s, "code");
    ds_json_put_key(&s->w, "parts");
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < finding->installed->parts_len; i++) {
        put_part(s, finding, &finding->installed->parts[i]);
    }
    ds_json_end_array(&s->w);
    ds_json_end_object(&s->w);
}

static void put_test(void *const ctx, const ds_str test)
{
    ds_json_put_str(&((ds_finding_writer *)ctx)->w, test);
}

static void put_lost(ds_finding_writer *const s, const ds_need lost)
{
    ds_json_put_key(&s->w, "lost");
    ds_json_begin_array(&s->w);
    ds_need_each(lost, put_test, s);
    ds_json_end_array(&s->w);
}

/* --- reasons ------------------------------------------------------------------------------------------------------ */

static void put_source(ds_finding_writer *const s, const ds_source *const source)
{
    ds_json_put_key(&s->w, "source");
    ds_json_begin_object(&s->w);
    ds_put_text(s, "kind", ds_source_kind_word(source->kind));
    ds_put_str(s, "ref", source->ref);
    ds_json_end_object(&s->w);
}

void ds_put_rule(ds_finding_writer *const s, const ds_rule *const rule)
{
    ds_put_str(s, "rule", rule->id);
    ds_put_str(s, "clause", rule->clause);
    ds_put_str(s, "edition", rule->edition);
    ds_put_text(s, "grade", ds_grade_word(rule->grade));
    ds_say_rule_effect(&s->line, s->findings->book, rule);
    ds_put_line(s, rule->bars.at ? "bars" : rule->question.at ? "asks" : "needs");
    ds_put_str(s, "because", rule->because);
}

static void put_keys(ds_finding_writer *const s, const char *const name, const ds_keys *const keys)
{
    ds_json_put_key(&s->w, name);
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < keys->len; i++) {
        ds_json_put_text(&s->w, keys->at[i]);
    }
    ds_json_end_array(&s->w);
}

static void put_reason(ds_finding_writer *const s, const ds_reason *const reason)
{
    const ds_rule *const rule = reason->rule;
    ds_json_begin_object(&s->w);
    ds_put_rule(s, rule);
    put_source(s, &rule->source);
    ds_put_text(s, "outcome", ds_verdict_word(reason->outcome));
    ds_json_put_key(&s->w, "decides");
    ds_json_put_bool(&s->w, reason->decides);
    if (reason->truth == DS_MAYBE) {
        ds_say_missing(&s->line, &reason->missing);
        ds_put_line(s, "missing");
        ds_keys keys;
        ds_keys_missing(&keys, &reason->missing);
        put_keys(s, "missing_keys", &keys);
    }
    ds_json_end_object(&s->w);
}

/* Reasons that hold, or those that are open for want of a fact. */
static void put_reasons(ds_finding_writer *const s, const ds_finding *const finding, const char *const key,
                        const ds_truth truth)
{
    ds_json_put_key(&s->w, key);
    ds_json_begin_array(&s->w);
    for (size_t i = 0; i < finding->reasons_len; i++) {
        if (finding->reasons[i].truth == truth && !finding->reasons[i].covered) {
            put_reason(s, &finding->reasons[i]);
        }
    }
    ds_json_end_array(&s->w);
}

static void put_remarks(ds_finding_writer *const s, const ds_finding *const finding)
{
    ds_json_put_key(&s->w, "remarks");
    ds_json_begin_array(&s->w);
    for (int i = 0; i < DS_REMARKS; i++) {
        if (finding->remarks >> i & 1) {
            ds_say_remark(&s->line, finding, (ds_remark_code)i);
            ds_json_put_str(&s->w, ds_text_str(&s->line));
            s->line.len = 0;
        }
    }
    ds_json_end_array(&s->w);
}

static void put_cautions(ds_finding_writer *const s, const ds_finding *const finding)
{
    ds_json_put_key(&s->w, "cautions");
    ds_json_begin_array(&s->w);
    for (int i = 0; finding->where && i < DS_ZONE_CAUTIONS; i++) {
        if (finding->where->cautions >> i & 1) {
            ds_zone_say_caution(&s->line, finding->where, (ds_zone_caution)i);
            ds_json_put_str(&s->w, ds_text_str(&s->line));
            s->line.len = 0;
        }
    }
    for (size_t i = 0; i < finding->reasons_len; i++) {
        if (ds_reason_cautions(&finding->reasons[i])) {
            ds_say_caution(&s->line, s->findings->book, finding->reasons[i].rule);
            ds_json_put_str(&s->w, ds_text_str(&s->line));
            s->line.len = 0;
        }
    }
    ds_json_end_array(&s->w);
}

/* --- a point ------------------------------------------------------------------------------------------------------ */

static void put_state(ds_finding_writer *const s, const ds_finding *const finding)
{
    ds_json_put_key(&s->w, "deciding_state");
    const ds_json *state = finding->state >= 0 ? finding->point->states->first : NULL;
    for (int32_t i = 0; state && i < finding->state; i++) {
        state = state->next;
    }
    if (state) {
        ds_json_put_tree(&s->w, state);
    } else {
        ds_json_put_null(&s->w);
    }
}

/* Where it stands by the plan; null when no plan tells. */
static void put_position(ds_finding_writer *const s, const ds_finding *const finding)
{
    ds_json_put_key(&s->w, "position");
    if (finding->where) {
        ds_json_begin_object(&s->w);
        ds_zone_answer_json(&s->w, finding->where, ds_finding_map(s->findings, finding));
        ds_json_end_object(&s->w);
    } else {
        ds_json_put_null(&s->w);
    }
}

void ds_finding_json(ds_finding_writer *const s, const ds_finding *const finding)
{
    ds_json_begin_object(&s->w);
    ds_put_str(s, "id", finding->point->id);
    ds_put_str(s, "name", finding->point->name);
    ds_put_str(s, "place", finding->point->place_id);
    ds_json_put_key(&s->w, "count");
    ds_json_put_number(&s->w, finding->point->count);
    ds_put_text(s, "verdict", ds_verdict_word(finding->verdict));
    ds_say_deciding(&s->line, s->findings, finding);
    ds_put_line(s, "deciding");
    ds_say_remedy(&s->line, s->findings, finding);
    ds_put_line(s, "remedy");
    ds_keys keys;
    ds_keys_of(&keys, s->findings, finding);
    put_keys(s, "remedy_keys", &keys);
    ds_put_str(s, "zone", finding->zone);
    put_position(s, finding);
    put_needed(s, "needed", finding->needed, finding);
    put_needed(s, "advised", finding->advised, NULL);
    put_marked(s, finding);
    put_shown(s, finding);
    put_installed(s, finding);
    ds_put_text(s, "judged_on", ds_finding_judged_on(finding));
    ds_climate_json(&s->w, finding->climate);
    put_state(s, finding);
    put_lost(s, finding->lost);
    put_remarks(s, finding);
    put_reasons(s, finding, "reasons", DS_YES);
    put_reasons(s, finding, "open", DS_MAYBE);
    put_cautions(s, finding);
    ds_json_end_object(&s->w);
}

void ds_finding_brief_json(ds_finding_writer *const s, const ds_finding *const finding)
{
    ds_json_begin_object(&s->w);
    ds_put_str(s, "id", finding->point->id);
    ds_put_text(s, "verdict", ds_verdict_word(finding->verdict));
    ds_put_str(s, "zone", finding->zone);
    ds_say_needed(&s->line, finding);
    ds_put_line(s, "needed");
    ds_say_marked(&s->line, finding->point);
    ds_put_line(s, "marked");
    put_shown(s, finding);
    ds_put_text(s, "judged_on", ds_finding_judged_on(finding));
    ds_say_deciding(&s->line, s->findings, finding);
    ds_put_line(s, "deciding");
    ds_say_remedy(&s->line, s->findings, finding);
    ds_put_line(s, "remedy");
    ds_json_end_object(&s->w);
}
