# SPDX-License-Identifier: MIT
#
# What is built from which file, listed by hand; tests/check/listed.mjs finds what is missing here.

set(DS_CORE_SOURCES
    src/core/base/arena.c
    src/core/base/problem.c
    src/core/base/str.c
    src/core/base/text.c
    src/core/mark/attach.c
    src/core/mark/clean.c
    src/core/mark/code.c
    src/core/mark/combine.c
    src/core/mark/compare.c
    src/core/mark/fold.c
    src/core/mark/immersion.c
    src/core/mark/impact.c
    src/core/mark/letters.c
    src/core/mark/mark.c
    src/core/mark/need.c
    src/core/mark/nema.c
    src/core/mark/notes.c
    src/core/mark/other.c
    src/core/mark/parts.c
    src/core/mark/phrases.c
    src/core/mark/print.c
    src/core/mark/quantity.c
    src/core/mark/read.c
    src/core/mark/scan.c
    src/core/mark/strict.c
    src/core/mark/words.c
    src/core/json/decimal.c
    src/core/json/events.c
    src/core/json/fault.c
    src/core/json/keys.c
    src/core/json/number.c
    src/core/json/place.c
    src/core/json/pool.c
    src/core/json/read.c
    src/core/json/scan.c
    src/core/json/value.c
    src/core/json/write.c
    src/core/job/fields.c
    src/core/job/job.c
    src/core/job/link.c
    src/core/job/problems.c
    src/core/rules/condition.c
    src/core/rules/facts.c
    src/core/rules/needs.c
    src/core/rules/pack.c
    src/core/rules/words.c
    src/core/assess/assess.c
    src/core/assess/deciding.c
    src/core/assess/evidence.c
    src/core/assess/findings_csv.c
    src/core/assess/findings_json.c
    src/core/assess/judge.c
    src/core/assess/point.c
    src/core/assess/point_facts.c
    src/core/assess/questions.c
    src/core/assess/reading_json.c
    src/core/assess/remedy.c
    src/core/assess/say.c
    src/core/assess/situation.c
    src/core/draw/rungs.c
    src/core/draw/rungs_text.c)

set(DS_CLI_SOURCES
    src/cli/args.c
    src/cli/check.c
    src/cli/check_below.c
    src/cli/check_job.c
    src/cli/check_point.c
    src/cli/compare.c
    src/cli/file.c
    src/cli/forms.c
    src/cli/help.c
    src/cli/host.c
    src/cli/main.c
    src/cli/new.c
    src/cli/page.c
    src/cli/read.c
    src/cli/rulebook.c
    src/cli/rules.c
    src/cli/seen.c
    src/cli/text.c)

set(DS_WASM_SOURCES
    src/wasm/exports.c)

# Each is one program of tests; a helper is built beside them and is none.
set(DS_UNIT_TESTS
    tests/unit/assess_oom.c
    tests/unit/assess_prop.c
    tests/unit/base_arena.c
    tests/unit/base_problem.c
    tests/unit/base_str.c
    tests/unit/base_text.c
    tests/unit/job_ref.c
    tests/unit/json_limits.c
    tests/unit/json_number.c
    tests/unit/json_oom.c
    tests/unit/json_oracle.c
    tests/unit/json_place.c
    tests/unit/json_prop.c
    tests/unit/json_ref.c
    tests/unit/json_write.c
    tests/unit/mark_prop.c
    tests/unit/mark_read.c
    tests/unit/mark_ref.c
    tests/unit/mark_round.c
    tests/unit/rules_cases.c
    tests/unit/rules_ref.c
    tests/unit/rungs_ref.c)
set(DS_TEST_HELPERS tests/unit/json_echo.c)

set(DS_BENCHES
    bench/check_bench.c
    bench/mark_bench.c)
set(DS_FUZZ_TARGETS
    fuzz/job.c
    fuzz/json.c
    fuzz/mark.c
    fuzz/pack.c)

set(DS_EMBEDDED_SOURCE src/cli/embedded.S)
# rules/NAME.json, put into the program in this order.
set(DS_EMBEDDED_DATA words seen iec gb-2022 gb-2018)
