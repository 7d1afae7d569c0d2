/* SPDX-License-Identifier: MIT */
/* Any bytes as a word file and as a rule pack: refused with a place, or read; and a read pack can be judged. */
#include "fuzz.h"

#include "core/rules/pack.h"

static void judge_all(const ds_pack *const pack)
{
    ds_facts facts;
    ds_facts_init(&facts);
    for (size_t i = 0; i < pack->rules_len; i++) {
        const ds_truth truth = ds_rule_applies(&pack->rules[i], &facts);
        FUZZ_EXPECT(truth == DS_NO || truth == DS_MAYBE || truth == DS_YES);
        (void)ds_rule_missing(&pack->rules[i], &facts);
    }
}

static void say(const ds_problem *const problem, const ds_alloc *const alloc)
{
    ds_text text;
    ds_text_init(&text, alloc);
    ds_problem_say(&text, problem);
    ds_problem_mend(&text, problem);
    FUZZ_EXPECT(ds_text_ok(&text) && text.len > 0);
    ds_text_free(&text);
}

int LLVMFuzzerTestOneInput(const uint8_t *const data, const size_t size)
{
    const ds_str text = {(const char *)data, size};
    ds_arena arena;
    ds_arena_init(&arena, fuzz_alloc());
    static ds_rulebook book;
    ds_rulebook_init(&book, &arena);
    ds_problem problem;
    if (ds_words_read(&book.words, text, &problem) != DS_OK) {
        say(&problem, arena.alloc);
    }
    if (ds_rulebook_read(&book, text, &problem) == DS_OK) {
        judge_all(&book.packs[0]);
    } else {
        say(&problem, arena.alloc);
    }
    ds_arena_free(&arena);
    return 0;
}
