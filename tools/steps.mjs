// SPDX-License-Identifier: MIT
//
// What ./test does: the list of steps. A step is { name, command, needs, count, env }: it starts when the steps that it
// needs have passed, and `count` says how its output is read (tools/count.mjs). New unit tests, fuzz targets, checks
// and runners are found by their place, so adding one needs no change here.

import { existsSync, readdirSync } from 'node:fs'
import { basename, join } from 'node:path'

const warningsStop = '-DDS_WERROR=ON'

// Paths of the files of one folder whose name passes, sorted.
function filesIn(folder, passes) {
    if (!existsSync(folder)) return []
    return readdirSync(folder, { withFileTypes: true })
        .filter((entry) => entry.isFile() && passes(entry.name))
        .map((entry) => join(folder, entry.name))
        .sort()
}

const stem = (path) => basename(path).replace(/\.[^.]*$/, '')

const build = (preset, ...more) => ({
    name: `build ${preset}`,
    command: ['tools/build', preset, warningsStop, ...more],
    needs: [],
    count: 'build'
})

function unitSteps(preset) {
    return filesIn('tests/unit', (name) => name.endsWith('.c')).map((path) => ({
        name: `unit ${stem(path)} (${preset})`,
        command: [`build/${preset}/tests/${stem(path)}`],
        needs: [`build ${preset}`],
        count: 'cmocka'
    }))
}

function fuzzSteps() {
    return filesIn('fuzz', (name) => name.endsWith('.c') && name !== 'replay.c').map((path) => ({
        name: `fuzz ${stem(path)}`,
        command: [`build/asan/fuzz/${stem(path)}`, `fuzz/corpus/${stem(path)}`],
        needs: ['build asan'],
        count: 'lines'
    }))
}

const checkNeeds = { sections: ['build release'], tidy: ['build debug'] }

function checkSteps() {
    return filesIn('tests/check', (name) => name !== 'lib.mjs').map((path) => ({
        name: `check ${stem(path)}`,
        command: path.endsWith('.mjs') ? ['node', path] : [path],
        needs: checkNeeds[stem(path)] ?? [],
        count: 'lines'
    }))
}

// Runners drive the built program, and the WebAssembly module where there is one.
function runnerSteps(builds) {
    const files = [...filesIn('tests', (name) => name.endsWith('.mjs')), ...filesIn('tests/oracle', (name) => name.endsWith('.mjs'))]
    return files.map((path) => ({
        name: `${path.startsWith('tests/oracle') ? 'oracle' : 'runner'} ${stem(path)}`,
        command: ['node', path],
        needs: builds,
        count: 'lines'
    }))
}

// Builds come first, the slow ones before the quick ones: what stands first starts first.
export function allSteps({ quick }) {
    const native = [build('debug'), build('release', '-DDS_BENCH=ON')]
    const thorough = quick ? [] : [build('asan'), build('wasm')]
    const runnerBuilds = ['build release', ...(quick ? [] : ['build wasm'])]
    const checks = checkSteps().filter(({ name }) => !quick || name !== 'check tidy')
    const tidy = checks.filter(({ name }) => name === 'check tidy')
    return [
        ...native,
        ...thorough,
        ...tidy,
        ...checks.filter((step) => !tidy.includes(step)),
        ...unitSteps('debug'),
        ...(quick ? [] : [...unitSteps('asan'), ...fuzzSteps()]),
        ...runnerSteps(runnerBuilds)
    ]
}
