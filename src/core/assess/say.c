/* SPDX-License-Identifier: MIT */
/*
 * Findings in words. Sentences are short and name the thing itself: the code, the figure, the word in the document.
 */
#include "core/assess/say.h"

#include <math.h>

/* --- cautions ----------------------------------------------------------------------------------------------------- */

static const char *const CAUTIONS[] = {
    "Isolate and prove dead before opening anything.",
    "Follow the edition and the local rules in force; this names the edition it goes by.",
    "A competent, licensed person decides and signs. This is a working aid and no certificate.",
    "A code says nothing of corrosion, sunlight, ice, chemicals, vapour or explosive atmospheres.",
    "A mark holds for the goods as sold. Never drill a marked enclosure; every entry must keep the mark.",
};

size_t ds_cautions_len(void)
{
    return sizeof CAUTIONS / sizeof *CAUTIONS;
}

const char *ds_caution(const size_t index)
{
    return CAUTIONS[index];
}

bool ds_pack_notice(ds_text *const out, const ds_pack *const pack, const ds_str date)
{
    const bool early = pack->in_force_from.at && date.at && memcmp(date.at, pack->in_force_from.at, 10) < 0;
    const bool late = pack->in_force_to.at && date.at && memcmp(date.at, pack->in_force_to.at, 10) > 0;
    const bool undated = pack->in_force_to.at && (!date.at || !ds_date_is_valid(date));
    if (!early && !late && !undated) {
        return false;
    }
    ds_text_adds(out, pack->edition);
    if (undated) {
        ds_text_add(out, " was withdrawn on ");
        ds_text_adds(out, pack->in_force_to);
        ds_text_add(out, " and the job has no date");
    } else {
        ds_text_add(out, early ? " was not yet in force on " : " was no longer in force on ");
        ds_text_adds(out, date);
        ds_text_add(out, early ? " (from " : " (withdrawn ");
        ds_text_adds(out, early ? pack->in_force_from : pack->in_force_to);
        ds_text_char(out, ')');
    }
    if (!early && pack->replaced_by.at) {
        ds_text_add(out, "; it was replaced by ");
        ds_text_adds(out, pack->replaced_by);
    }
    ds_text_add(out, ". ");
    ds_text_adds(out, pack->confirm);
    return true;
}

/* --- parts -------------------------------------------------------------------------------------------------------- */

static void separate(ds_text *const out, const size_t start, const char *const between)
{
    if (out->len > start) {
        ds_text_add(out, between);
    }
}

static void add_degrees(ds_text *const out, const char *const before, const double degrees)
{
    ds_text_add(out, before);
    ds_text_number(out, degrees, 1);
    ds_text_add(out, " °C");
}

static void add_words(ds_text *const out, const ds_words *const words, const uint16_t *const ids,
                      const uint16_t len, const char *const between)
{
    for (uint16_t i = 0; i < len; i++) {
        ds_text_add(out, i ? between : "");
        ds_text_adds(out, words->at[ids[i]]->label.at ? words->at[ids[i]]->label : words->at[ids[i]]->word);
    }
}

void ds_say_list(ds_text *const out, const ds_json *const list, const char *const between)
{
    for (const ds_json *item = list ? list->first : NULL; item; item = item->next) {
        ds_text_add(out, item == list->first ? "" : between);
        ds_text_adds(out, ds_json_text(item));
    }
}

void ds_say_needed(ds_text *const out, const ds_finding *const finding)
{
    const size_t start = out->len;
    if (finding->needed != DS_NEED_NOTHING) {
        ds_need_print(out, ds_finding_code(finding));
    }
    if (!isnan(finding->rated_c)) {
        separate(out, start, "; ");
        add_degrees(out, "rated for ", finding->rated_c);
    }
    if (!isnan(finding->cold_c)) {
        separate(out, start, "; ");
        add_degrees(out, "rated down to ", finding->cold_c);
    }
    if (finding->surface_d) {
        separate(out, start, "; ");
        ds_text_add(out, "limited surface temperature");
    }
    if (out->len == start) {
        ds_text_add(out, "nothing");
    }
}

void ds_say_marked(ds_text *const out, const ds_point *const point)
{
    const size_t start = out->len;
    for (size_t i = 0; i < point->marked_len; i++) {
        const ds_marked *const marked = &point->marked[i];
        separate(out, start, ", ");
        ds_text_adds(out, marked->ip);
        ds_text_add(out, marked->ip.at && marked->ik.at ? " " : "");
        ds_text_adds(out, marked->ik);
        if (marked->when && marked->when->first) {
            ds_text_add(out, " (");
            ds_say_list(out, marked->when, ", ");
            ds_text_char(out, ')');
        }
    }
    if (out->len == start) {
        ds_text_add(out, "none");
    }
}

void ds_say_rule_effect(ds_text *const out, const ds_rulebook *const book, const ds_rule *const rule)
{
    const size_t start = out->len;
    if (rule->bars.at || rule->question.at) {
        ds_text_adds(out, rule->bars.at ? rule->bars : rule->question);
        return;
    }
    const ds_needs *const needs = &rule->needs;
    if (needs->mark != DS_NEED_NOTHING) {
        ds_need_print(out, needs->mark);
    }
    if (needs->immersion) {
        separate(out, start, ", ");
        ds_text_add(out, "water test 8 to the depth and time seen");
    }
    if (needs->rated_as_seen || needs->cold_as_seen) {
        separate(out, start, ", ");
        ds_text_add(out, "rated for the temperature stated for the place");
    }
    if (!isnan(needs->rated_c)) {
        separate(out, start, ", ");
        add_degrees(out, "rated for ", needs->rated_c);
    }
    if (!isnan(needs->cold_c)) {
        separate(out, start, ", ");
        add_degrees(out, "rated down to ", needs->cold_c);
    }
    if (needs->surface_d) {
        separate(out, start, ", ");
        ds_text_add(out, "limited surface temperature");
    }
    if (needs->qualities_len) {
        separate(out, start, ", ");
        ds_text_add(out, "stated fit for: ");
        add_words(out, &book->words, needs->qualities, needs->qualities_len, ", ");
    }
    if (needs->measures_len) {
        separate(out, start, ", ");
        ds_text_add(out, "measure: ");
        add_words(out, &book->words, needs->measures, needs->measures_len, " or ");
    }
    if (needs->material.at) {
        separate(out, start, ", ");
        ds_text_add(out, "made of ");
        ds_text_adds(out, needs->material);
    }
}

bool ds_reason_cautions(const ds_reason *const reason)
{
    return reason->rule->grade != DS_GRADE_RULE && reason->truth == DS_YES && !reason->covered &&
           reason->outcome != DS_FITS;
}

void ds_say_caution(ds_text *const out, const ds_rulebook *const book, const ds_rule *const rule)
{
    ds_say_rule_effect(out, book, rule);
    ds_text_add(out, " (");
    ds_text_add(out, ds_grade_word(rule->grade));
    ds_text_add(out, "): ");
    ds_text_adds(out, rule->because);
}
