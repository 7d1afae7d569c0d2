/* SPDX-License-Identifier: MIT */
/*
 * The marks of a point: which count in which normal state.
 *
 * A mark under conditions counts in a state that meets all of them. Without a stated state only unconditional marks
 * count. Marks that count together are of one enclosure and join; the states are compared as the weakest part. Two marks
 * under the same conditions that cannot be of one enclosure (IP66 and IP20) are the question that "IP66/IP20" is.
 */
#include "core/assess/judge.h"

enum { MOST_CLAIMS = 32, MOST_STATES = 16 };

/* One mark with the conditions it stands under: the claim's list and the reading's own word. */
typedef struct conditional_mark {
    ds_mark mark;
    const ds_json *when;
    const char *also_when;
    ds_str text; /* as printed; empty for one of several parts, or one in doubt */
    bool is_ik;  /* printed as the impact code */
} conditional_mark;

typedef struct claims {
    conditional_mark at[MOST_CLAIMS];
    size_t len;
} claims;

static bool state_has(const ds_json *const state, const ds_str word)
{
    for (const ds_json *item = state ? state->first : NULL; item; item = item->next) {
        if (ds_str_eq(ds_json_text(item), word)) {
            return true;
        }
    }
    return false;
}

static bool counts_in(const conditional_mark *const claim, const ds_json *const state)
{
    for (const ds_json *word = claim->when ? claim->when->first : NULL; word; word = word->next) {
        if (!state_has(state, ds_json_text(word))) {
            return false;
        }
    }
    return !claim->also_when || state_has(state, ds_str_of(claim->also_when));
}

static bool is_conditional(const conditional_mark *const claim)
{
    return claim->also_when || (claim->when && claim->when->first);
}

static void add_claim(claims *const list, const conditional_mark claim)
{
    if (list->len < MOST_CLAIMS) {
        list->at[list->len++] = claim;
    }
}

static void keep_reading(ds_evidence *const out, const ds_reading *const reading)
{
    const bool doubtful = reading->status >= DS_READ_QUESTION;
    if ((doubtful && !out->doubtful) ||
        (!doubtful && !out->doubtful && !out->noted && reading->status == DS_READ_NOTED)) {
        out->reading = *reading;
    }
    out->doubtful = out->doubtful || doubtful;
    out->noted = out->noted || reading->status == DS_READ_NOTED;
}

static void read_text(ds_evidence *const out, claims *const list, const ds_str text,
                      const ds_json *const when, const bool is_ik)
{
    if (!text.at) {
        return;
    }
    ds_reading reading;
    ds_mark_read(text, &reading);
    keep_reading(out, &reading);
    if (reading.parts_len == 0 && reading.mark != DS_MARK_SILENT) {
        const ds_str sure = reading.status < DS_READ_QUESTION ? text : DS_STR("");
        add_claim(list, (conditional_mark){.mark = reading.mark, .when = when, .text = sure, .is_ik = is_ik});
    }
    for (uint8_t i = 0; i < reading.parts_len; i++) {
        const ds_mark_part *const part = &reading.parts[i];
        add_claim(list, (conditional_mark){.mark = part->mark, .when = when, .also_when = part->when});
    }
}

static bool all_in(const ds_json *const words, const ds_json *const others)
{
    for (const ds_json *word = words ? words->first : NULL; word; word = word->next) {
        if (!state_has(others, ds_json_text(word))) {
            return false;
        }
    }
    return true;
}

/* Both as one text, as if printed with a slash. */
static void read_pair(const conditional_mark *const a, const conditional_mark *const b, ds_reading *const out)
{
    char pair[2 * DS_MARK_TEXT_MAX + 1];
    memcpy(pair, a->text.at, a->text.len);
    pair[a->text.len] = '/';
    memcpy(pair + a->text.len + 1, b->text.at, b->text.len);
    ds_mark_read((ds_str){pair, a->text.len + 1 + b->text.len}, out);
}

/* Of two that contradict each other only what both cover is certain. */
static void settle_pair(ds_evidence *const out, conditional_mark *const a, conditional_mark *const b)
{
    const bool comparable =
        a->text.len && b->text.len && a->is_ik == b->is_ik && !ds_str_eq(a->text, b->text);
    if (!comparable || a->text.len > DS_MARK_TEXT_MAX || b->text.len > DS_MARK_TEXT_MAX ||
        !all_in(a->when, b->when) || !all_in(b->when, a->when)) {
        return;
    }
    ds_reading reading;
    read_pair(a, b, &reading);
    if (reading.status >= DS_READ_QUESTION) {
        keep_reading(out, &reading);
        a->mark = b->mark = ds_mark_either(a->mark, b->mark);
    }
}

static void settle_contradictions(ds_evidence *const out, claims *const list)
{
    for (size_t i = 0; i < list->len; i++) {
        for (size_t j = 0; j < i; j++) {
            settle_pair(out, &list->at[j], &list->at[i]);
        }
    }
}

static void read_claims(ds_assessor *const a, ds_point *const point, ds_evidence *const out,
                        claims *const list)
{
    for (size_t i = 0; i < point->marked_len; i++) {
        const ds_marked *const marked = &point->marked[i];
        ds_assessor_check_words(a, DS_FAMILY_CONDITION, marked->when, &point->problem);
        read_text(out, list, marked->ip, marked->when, false);
        read_text(out, list, marked->ik, marked->when, true);
    }
    settle_contradictions(out, list);
}

static ds_mark mark_in_state(const claims *const list, const ds_json *const state)
{
    ds_mark mark = DS_MARK_SILENT;
    for (size_t i = 0; i < list->len; i++) {
        if (counts_in(&list->at[i], state)) {
            mark = ds_mark_join(mark, list->at[i].mark);
        }
    }
    return mark;
}

static void look_at_conditions(const claims *const list, ds_evidence *const out)
{
    for (size_t i = 0; i < list->len; i++) {
        out->conditional = out->conditional || is_conditional(&list->at[i]);
        out->has_mark = true;
    }
}

/* How many words of a list there are, and how many of each worth. */
typedef struct worth {
    size_t words, spoils, no_code, claims, beside_label;
} worth;

static worth worth_of(const ds_assessor *const a, const ds_family family, const ds_json *const list)
{
    worth sum = {0};
    for (const ds_json *item = list ? list->first : NULL; item; item = item->next) {
        const int id = ds_words_find(a->vocabulary.words, family, ds_json_text(item));
        const ds_word *const word = id >= 0 ? a->vocabulary.words->at[id] : NULL;
        sum.words++;
        sum.spoils += word && word->spoils;
        sum.no_code += word && word->no_code;
        sum.claims += word && word->claim;
        sum.beside_label += word && word->beside_label;
    }
    return sum;
}

/* What was found on it, and where its code was read. */
static void weigh_sources(const ds_assessor *const a, const ds_point *const point, ds_evidence *const out)
{
    const worth found = worth_of(a, DS_FAMILY_FOUND, point->found.words);
    const worth evidence = worth_of(a, DS_FAMILY_EVIDENCE, point->found.evidence);
    const bool by_eye = evidence.words && evidence.no_code == evidence.words;
    const bool label_gone = found.no_code && !evidence.beside_label;
    out->spoilt = found.spoils > 0;
    out->unseen = by_eye || label_gone;
    out->claimed = found.claims || (evidence.claims && evidence.claims + evidence.no_code == evidence.words);
}

static bool is_complete(const ds_assessor *const a, const ds_point *const point)
{
    const int id = ds_words_find(a->vocabulary.words, DS_FAMILY_KIND, point->kind);
    return id >= 0 && a->vocabulary.words->at[id]->complete;
}

/* The mark of each state, with what the kind shows by itself. */
static void fill_states(const claims *const list, const ds_json *const states, ds_evidence *const out)
{
    const ds_json *state = out->states_stated ? states->first : NULL;
    do {
        const ds_mark shown = out->spoilt || out->unseen ? DS_MARK_SILENT : mark_in_state(list, state);
        const ds_mark mark = out->complete ? ds_mark_with_access(shown, 'B') : shown;
        const ds_mark left = out->installed ? ds_installed_mark(out->installed, mark) : mark;
        out->by_kind = out->by_kind || mark != shown;
        out->own = out->states_len == 0 ? mark : ds_mark_weakest(out->own, mark);
        out->mark = out->states_len == 0 ? left : ds_mark_weakest(out->mark, left);
        if (out->states_len < MOST_STATES) {
            out->state_marks[out->states_len++] = left;
        }
        state = state ? state->next : NULL;
    } while (state);
}

/* What entries and openings leave, when the box tells of any. */
static const ds_installed *look_into_box(ds_assessor *const a, const ds_box *const box)
{
    ds_installed *const installed = box ? ds_arena_take(a->arena, sizeof *installed) : NULL;
    if (!box) {
        return NULL;
    }
    if (!installed || ds_installed_of(installed, box, a->sizes, a->arena) != DS_OK) {
        a->failed = true;
        return NULL;
    }
    const bool tells =
        installed->entries_stated || installed->parts_len || installed->measured != DS_MARK_SILENT;
    return tells ? installed : NULL;
}

void ds_evidence_of(ds_assessor *const a, ds_point *const point, ds_evidence *const out)
{
    *out = (ds_evidence){
        .mark = DS_MARK_SILENT, .own = DS_MARK_SILENT, .installed = look_into_box(a, point->box)};
    claims list = {.len = 0};
    read_claims(a, point, out, &list);
    for (const ds_json *state = point->states ? point->states->first : NULL; state; state = state->next) {
        ds_assessor_check_words(a, DS_FAMILY_CONDITION, state, &point->problem);
    }
    out->states_stated = point->states && point->states->first;
    weigh_sources(a, point, out);
    look_at_conditions(&list, out);
    out->complete = is_complete(a, point) && !out->spoilt;
    fill_states(&list, point->states, out);
}
