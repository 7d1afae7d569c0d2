// SPDX-License-Identifier: MIT
//
// What ./test does: the list of steps. A step is { name, command, needs, count, env }: it starts when the steps that it
// needs have passed, and `count` says how its output is read (tools/count.mjs). Unit tests and fuzz targets are those of
// cmake/sources.cmake, checks and runners are found by their place: adding one needs no change here.

import { existsSync, readFileSync, readdirSync } from 'node:fs'
import { basename, join, resolve } from 'node:path'

const warningsStop = '-DDS_WERROR=ON'

// Paths of the files of one folder whose name passes, sorted.
function filesIn(folder, passes) {
    if (!existsSync(folder)) return []
    return readdirSync(folder, { withFileTypes: true })
        .filter((entry) => entry.isFile() && passes(entry.name))
        .map((entry) => join(folder, entry.name))
        .sort()
}

// The files of one list of cmake/sources.cmake. A list that is not found is an error, not an empty list.
function listed(name) {
    const list = new RegExp(`^set\\(${name}\\s([^)]*)\\)`, 'm').exec(readFileSync('cmake/sources.cmake', 'utf8'))
    if (!list) throw new Error(`cmake/sources.cmake has no list ${name}`)
    return list[1].trim().split(/\s+/)
}

const stem = (path) => basename(path).replace(/\.[^.]*$/, '')

const build = (preset, ...more) => ({
    name: `build ${preset}`,
    command: ['tools/build', preset, warningsStop, ...more],
    needs: [],
    count: 'build'
})

function unitSteps(preset) {
    return listed('DS_UNIT_TESTS').map((path) => ({
        name: `unit ${stem(path)} (${preset})`,
        command: [`build/${preset}/tests/${stem(path)}`],
        needs: [`build ${preset}`],
        count: 'cmocka'
    }))
}

function fuzzSteps() {
    return listed('DS_FUZZ_TARGETS').map((path) => ({
        name: `fuzz ${stem(path)}`,
        command: [`build/asan/fuzz/${stem(path)}`, `fuzz/corpus/${stem(path)}`],
        needs: ['build asan'],
        count: 'lines'
    }))
}

const checkNeeds = { sections: ['build release'], manual: ['build release'], tidy: ['build debug'] }

function checkSteps() {
    return filesIn('tests/check', (name) => name !== 'lib.mjs').map((path) => ({
        name: `check ${stem(path)}`,
        command: path.endsWith('.mjs') ? ['node', path] : [path],
        needs: checkNeeds[stem(path)] ?? [],
        count: 'lines'
    }))
}

// What a runner is told beside its name, and those that run the program a second time, built with the asan preset.
const runnerWords = {
    air_oracle: ['build/debug/tests/air_echo'],
    json_oracle: ['build/debug/tests/json_echo'],
    serve_crash: ['build/debug/tests/store_hold'],
    year_oracle: ['build/debug/tests/day_year'],
    zone_geos: ['build/debug/tests/geos_area']
}
const alsoWithAsan = ['cases', 'serve', 'serve_safety']

// A runner finds the program in DRIPSTONE and the WebAssembly module in DRIPSTONE_WASM, which is empty when there is none.
const runner = (path, { name, preset, wasm }) => ({
    name,
    command: ['node', path, ...(runnerWords[stem(path)] ?? [])],
    needs: ['build debug', `build ${preset}`, ...(wasm ? ['build wasm'] : [])],
    count: 'lines',
    env: { DRIPSTONE: resolve(`build/${preset}/dripstone`), DRIPSTONE_WASM: wasm ? resolve('build/wasm/dripstone.wasm') : '' }
})

function runnerSteps({ quick }) {
    const ends = (name) => name.endsWith('.mjs')
    const steps = filesIn('tests', ends).map((path) => runner(path, { name: `runner ${stem(path)}`, preset: 'release', wasm: !quick }))
    for (const name of quick ? [] : alsoWithAsan.filter((each) => existsSync(`tests/${each}.mjs`))) {
        steps.push(runner(`tests/${name}.mjs`, { name: `runner ${name} (asan)`, preset: 'asan', wasm: false }))
    }
    const oracles = filesIn('tests/oracle', ends)
    return [...steps, ...oracles.map((path) => runner(path, { name: `oracle ${stem(path)}`, preset: 'release', wasm: !quick }))]
}

// What stands first starts first: builds, then the slow check. Nothing needs the libFuzzer build; it is there so that it
// does not rot.
export function allSteps({ quick }) {
    const native = [build('debug'), build('release', 'dripstone')]
    const thorough = quick ? [] : [build('asan'), build('wasm'), build('fuzz')]
    const checks = checkSteps().filter(({ name }) => !quick || name !== 'check tidy')
    const tidy = checks.filter(({ name }) => name === 'check tidy')
    return [
        ...native,
        ...thorough,
        ...tidy,
        ...checks.filter((step) => !tidy.includes(step)),
        ...unitSteps('debug'),
        ...(quick ? [] : [...unitSteps('asan'), ...fuzzSteps()]),
        ...runnerSteps({ quick })
    ]
}
