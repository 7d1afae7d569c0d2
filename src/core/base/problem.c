/* SPDX-License-Identifier: MIT */
/* The one table of messages, and the list of problems. */
#include "core/base/problem.h"

typedef struct message {
    const char *say;
    const char *mend;
} message;

static const message MESSAGES[] = {
#define X(code, say_text, mend_text) [DS_P_##code] = {say_text, mend_text},
    DS_PROBLEMS(X)
#undef X
};

bool ds_problems_add(ds_problems *const list, ds_arena *const arena, const ds_problem *const problem)
{
    if (list->len == list->room) {
        const size_t room = list->room ? list->room * 2 : 8;
        ds_problem *const at = ds_arena_take_many(arena, room, sizeof *at);
        if (!at) {
            return false;
        }
        if (list->len) {
            memcpy(at, list->at, list->len * sizeof *at);
        }
        list->at = at;
        list->room = room;
    }
    list->at[list->len++] = *problem;
    return true;
}

ds_str ds_suggest(ds_arena *const arena, const ds_str word, const ds_str *const list, const size_t list_len)
{
    const size_t nearest = ds_str_nearest(word, list, list_len);
    if (nearest == list_len) {
        return (ds_str){0};
    }
    static const char BEFORE[] = "; did you mean \"";
    static const char AFTER[] = "\"?";
    const size_t before = sizeof BEFORE - 1;
    const size_t after = sizeof AFTER - 1;
    const size_t len = before + list[nearest].len + after;
    char *const at = ds_arena_take(arena, len);
    if (!at) {
        return (ds_str){0};
    }
    memcpy(at, BEFORE, before);
    memcpy(at + before, list[nearest].at, list[nearest].len);
    memcpy(at + before + list[nearest].len, AFTER, after);
    return (ds_str){at, len};
}

static void fill(ds_text *const out, const char *form, const ds_problem *const problem)
{
    for (; *form; form++) {
        if (form[0] == '%' && form[1] == 'a') {
            ds_text_adds(out, problem->a);
            form++;
        } else if (form[0] == '%' && form[1] == 'b') {
            ds_text_adds(out, problem->b);
            form++;
        } else {
            ds_text_char(out, *form);
        }
    }
}

void ds_problem_say(ds_text *const out, const ds_problem *const problem)
{
    fill(out, MESSAGES[problem->code].say, problem);
}

void ds_problem_mend(ds_text *const out, const ds_problem *const problem)
{
    fill(out, MESSAGES[problem->code].mend, problem);
}
