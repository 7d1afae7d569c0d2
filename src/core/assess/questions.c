/* SPDX-License-Identifier: MIT */
/*
 * Questions come from two sides: rules that ask, or whose need nobody has shown (to maker or designer), and what keeps a
 * point unknown (to site, maker or client). One question a rule or obstacle; its points in the job's order.
 */
#include "core/assess/questions.h"

/* A question while it is collected. */
typedef struct draft {
    ds_question question;
    uint32_t *points;
    size_t room;
} draft;

typedef struct drafts {
    draft *at;
    size_t len, room;
    ds_arena *arena;
    bool failed;
} drafts;

static draft *find_draft(drafts *const list, const ds_rule *const rule, const ds_str text)
{
    for (size_t i = 0; i < list->len; i++) {
        const ds_question *const question = &list->at[i].question;
        const bool same = rule ? question->rule == rule : !question->rule && question->text.at == text.at;
        if (same) {
            return &list->at[i];
        }
    }
    return NULL;
}

/* A larger copy in the arena; NULL when memory is short. */
static void *grown(drafts *const list, const void *const old, const size_t len, const size_t room,
                   const size_t size)
{
    void *const at = ds_arena_take_many(list->arena, room, size);
    if (!at) {
        list->failed = true;
        return NULL;
    }
    if (len) {
        memcpy(at, old, len * size);
    }
    return at;
}

static draft *new_draft(drafts *const list, const ds_question *const question)
{
    if (list->len == list->room) {
        const size_t room = list->room ? list->room * 2 : 16;
        draft *const at = grown(list, list->at, list->len, room, sizeof *at);
        if (!at) {
            return NULL;
        }
        list->at = at;
        list->room = room;
    }
    list->at[list->len] = (draft){.question = *question};
    return &list->at[list->len++];
}

static void add_point(drafts *const list, draft *const d, const uint32_t point)
{
    const size_t len = d->question.points_len;
    if (len && d->points[len - 1] == point) {
        return;
    }
    if (len == d->room) {
        const size_t room = d->room ? d->room * 2 : 4;
        uint32_t *const at = grown(list, d->points, len, room, sizeof *at);
        if (!at) {
            return;
        }
        d->points = at;
        d->room = room;
    }
    d->points[d->question.points_len++] = point;
}

static void ask(drafts *const list, const ds_whom whom, const ds_rule *const rule, const ds_str text,
                const uint32_t point)
{
    draft *found = find_draft(list, rule, text);
    if (!found) {
        found = new_draft(list, &(ds_question){.whom = whom, .text = text, .rule = rule});
    }
    if (found) {
        add_point(list, found, point);
    }
}

/* A rule that asks, or one whose need beside the code is not shown. */
static void ask_for_reason(drafts *const list, const ds_reason *const reason, const uint32_t point)
{
    const ds_rule *const rule = reason->rule;
    if (reason->truth != DS_YES) {
        return;
    }
    if (rule->question.at) {
        ask(list, rule->whom, rule, rule->question, point);
    } else if (reason->outcome == DS_UNKNOWN && rule->has_needs && rule->needs.measures_len) {
        ask(list, DS_WHOM_DESIGNER, rule, DS_STR("Which measure answers this?"), point);
    } else if (reason->outcome == DS_UNKNOWN && rule->has_needs && rule->needs.mark == DS_NEED_NOTHING &&
               !rule->needs.immersion) {
        ask(list, DS_WHOM_MAKER, rule, DS_STR("Are the goods stated to be fit for this?"), point);
    }
}

typedef struct obstacle_question {
    ds_whom whom;
    const char *text;
} obstacle_question;

static const obstacle_question QUESTIONS[] = {
    [DS_OBSTACLE_ZONE] = {DS_WHOM_SITE, "In which zone does it stand? Measure from the vessel or outlet."},
    [DS_OBSTACLE_UNANSWERED] = {DS_WHOM_SITE,
                                "What reaches it: water, dust and objects, blows, people? Answer each."},
    [DS_OBSTACLE_SPOILT] = {DS_WHOM_SITE, "When is what was found put right, and by what part?"},
    [DS_OBSTACLE_ENTRY] = {DS_WHOM_SITE,
                           "What sits in each entry: its code, its range, the cable's diameter?"},
    [DS_OBSTACLE_MARK] = {DS_WHOM_MAKER, "What is the full code, as printed on the label or data sheet?"},
    [DS_OBSTACLE_STATE] = {DS_WHOM_CLIENT, "In which state is it normally used: lid shut, plug in use?"},
    [DS_OBSTACLE_TEST] = {DS_WHOM_MAKER, "Was the missing test made? Ask for the statement of each test."},
};

static void ask_for_obstacle(drafts *const list, const ds_finding *const finding, const uint32_t point)
{
    const size_t known = sizeof QUESTIONS / sizeof *QUESTIONS;
    if (finding->obstacle < known && QUESTIONS[finding->obstacle].text) {
        const obstacle_question *const found = &QUESTIONS[finding->obstacle];
        ask(list, found->whom, NULL, ds_str_of(found->text), point);
    }
}

static bool hand_over(ds_findings *const findings, const drafts *const list)
{
    findings->questions = ds_arena_take_many(list->arena, list->len, sizeof *findings->questions);
    if (!findings->questions) {
        return false;
    }
    for (int whom = 0; whom < DS_WHOMS; whom++) {
        for (size_t i = 0; i < list->len; i++) {
            if (list->at[i].question.whom == (ds_whom)whom) {
                ds_question *const question = &findings->questions[findings->questions_len++];
                *question = list->at[i].question;
                question->points = list->at[i].points;
            }
        }
    }
    return true;
}

bool ds_questions_collect(ds_findings *const findings, ds_arena *const arena)
{
    drafts list = {.arena = arena};
    for (size_t i = 0; i < findings->points_len && !list.failed; i++) {
        const ds_finding *const finding = &findings->points[i];
        ask_for_obstacle(&list, finding, (uint32_t)i);
        for (size_t j = 0; j < finding->reasons_len; j++) {
            ask_for_reason(&list, &finding->reasons[j], (uint32_t)i);
        }
    }
    return !list.failed && hand_over(findings, &list);
}
