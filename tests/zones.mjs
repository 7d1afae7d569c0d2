// SPDX-License-Identifier: MIT
//
// The check cases of zones: node tests/zones.mjs [CASE …]
//
// Cases and rooms stand in tests/zones/rooms.json, which says what its keys mean. For each room and rule pack one job is
// written and the program asked once for all points (`dripstone zones JOB --place ID --json --at …`); a case with `kind`
// is a point of that job besides, and the job is checked (`dripstone check JOB --json`).

import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { spawnSync } from 'node:child_process'

const root = fileURLToPath(new URL('..', import.meta.url))
const program = process.env.DRIPSTONE ?? join(root, 'build/debug/dripstone')
const data = JSON.parse(readFileSync(join(root, 'tests/zones/rooms.json'), 'utf8'))
const wanted = process.argv.slice(2)

const lengthTolerance = 0.0005

const packOf = (test) => test.pack ?? 'gb-2022'
const nameOf = (test) => `case ${test.case}${test.pack ? ` (${test.pack})` : ''}`

/* --- jobs -------------------------------------------------------------------------------------------------------- */

// Mains with everything that could otherwise bar a point or leave it open, so that its position alone decides.
const mains = {
    supply: { volts: 230, current: 'ac', selv: false, rcd_ma: 30 },
    measures: ['rcd-30ma', 'guard', 'small-pool'],
    marked: [{ ip: 'IP66', ik: 'IK10' }]
}

const pointOf = (test, index) => ({ id: `P${index}`, place: test.job ? `place${index}` : 'room', kind: test.kind, ...mains,
    ...(test.job ? { height_m: test.job.height_m } : { at_m: test.at_m }) })

function jobOf(tests) {
    const [first] = tests
    const { kind, setting = 'indoors', plan } = data.rooms[first.room] ?? {}
    const places = first.job
        ? tests.map((test, index) => ({ id: `place${index}`, kind: test.job.place, setting: 'outdoors', seen: 'none' }))
        : [{ id: 'room', kind, setting, seen: 'none', plan }]
    const points = tests.map(pointOf).filter((point) => point.kind)
    return { dripstone: 1, title: first.room ?? 'no plan', rules: [packOf(first)], places, points }
}

function ask(args) {
    const result = spawnSync(program, args, { cwd: root, encoding: 'utf8', maxBuffer: 1 << 26, env: { PATH: process.env.PATH, LANG: 'C.UTF-8' } })
    if (result.error) throw result.error
    try {
        return JSON.parse(result.stdout)
    } catch {
        throw new Error(`dripstone ${args.join(' ').slice(0, 80)}: status ${result.status}: ${result.stderr || result.stdout}`)
    }
}

// For each case what `zones` and `check` answer; those that were not asked are undefined.
function answersOf(tests) {
    const folder = mkdtempSync(join(tmpdir(), 'zones-'))
    try {
        const path = join(folder, 'job.json')
        writeFileSync(path, JSON.stringify(jobOf(tests)))
        const spots = tests.flatMap((test) => ['--at', test.at_m?.join(',')])
        const zones = tests[0].job ? undefined : ask(['zones', path, '--place', 'room', '--json', ...spots])
        const findings = tests.some((test) => test.kind) ? ask(['check', path, '--json']) : undefined
        return tests.map((test, index) => ({ spot: zones?.at[index], finding: findings?.points.find(({ id }) => id === `P${index}`) }))
    } finally {
        rmSync(folder, { recursive: true })
    }
}

/* --- comparisons ------------------------------------------------------------------------------------------------- */

// A number, or arithmetic with + - * / ^ ( ) sqrt.
function lengthOf(value) {
    if (typeof value === 'number') return value
    if (!/^(?:[\d.+\-*/^() ]|sqrt)+$/.test(value)) throw new Error(`no arithmetic: ${value}`)
    return Function(`return ${value.replaceAll('sqrt', 'Math.sqrt').replaceAll('^', '**')}`)()
}

const show = (value) => JSON.stringify(value)

function compareLength(want, got, what) {
    const near = typeof got === 'number' && Math.abs(got - lengthOf(want)) <= lengthTolerance
    return near ? [] : [`${what} ${show(got)}, expected ${lengthOf(want).toFixed(4)}`]
}

const compareCaution = (want, got) =>
    got.some((text) => new RegExp(want, 'i').test(text)) ? [] : [`cautions ${show(got)}, expected one of "${want}"`]

const ruleIds = (finding) => finding.reasons.map(({ rule }) => rule)

const comparisons = {
    zone: (want, { spot, finding }) => [spot, finding].filter(Boolean).flatMap((answer, index) =>
        answer.zone === want ? [] : [`zone ${show(answer.zone)}${index ? ' in the check' : ''}, expected ${show(want)}`]),
    distance_m: (want, { spot }) => compareLength(want, spot.distance_m, 'distance'),
    zone1_distance_m: (want, { spot }) => compareLength(want, spot.zone1_distance_m, 'distance from zone 1'),
    caution: (want, { spot }) => compareCaution(want, spot.cautions),
    no_caution: (want, { spot }) =>
        spot.cautions.some((text) => new RegExp(want, 'i').test(text)) ? [`cautions ${show(spot.cautions)}, expected none of "${want}"`] : [],
    barred: (want, { finding }) => {
        const found = finding.verdict === 'barred'
        return found === want ? [] : [`verdict ${finding.verdict} (${finding.deciding}), expected ${want ? 'barred' : 'not barred'}`]
    },
    rules: (want, { finding }) => want.filter((id) => !ruleIds(finding).includes(id)).map((id) => `the rule ${id} does not apply`),
    no_rules: (want, { finding }) => want.filter((id) => ruleIds(finding).includes(id)).map((id) => `the rule ${id} applies`)
}

// Why the decided zone is what it is, for whoever reads the failure.
const gotten = ({ spot }) => (spot ? `\n    got zone ${show(spot.zone)}, from ${show(spot.from)}, distance ${spot.distance_m}, ` +
    `limit ${spot.limit_m}, path ${show(spot.path_m)}, cautions ${show(spot.cautions)}` : '')

function faultsOf(test, answer) {
    if (!answer.spot && !answer.finding) return ['the program gave no answer']
    const faults = Object.entries(test.expect).flatMap(([key, want]) => {
        if (!(key in comparisons)) return [`tests/zones.mjs does not know "${key}"`]
        return comparisons[key](want, answer)
    })
    if (!(test.source in data.sources)) faults.push(`no source "${test.source}"`)
    return faults
}

/* --- all --------------------------------------------------------------------------------------------------------- */

function groupsOf(tests) {
    const groups = new Map()
    for (const test of tests) {
        const key = `${test.room ?? 'no plan'} ${packOf(test)}`
        groups.set(key, [...(groups.get(key) ?? []), test])
    }
    return [...groups.values()]
}

const counts = { passed: 0, failed: 0 }

function count(test, faults, more = '') {
    counts[faults.length > 0 ? 'failed' : 'passed']++
    if (faults.length === 0) return
    console.log(`${nameOf(test)}, ${test.room ?? test.job.place}, at ${show(test.at_m ?? test.job.height_m)}: ${faults.join('; ')}${more}`)
    console.log(`    working: ${test.working}`)
}

const chosen = data.cases.filter((test) => wanted.length === 0 || wanted.includes(String(test.case)))
for (const tests of groupsOf(chosen)) {
    try {
        const answers = answersOf(tests)
        tests.forEach((test, index) => count(test, faultsOf(test, answers[index]), gotten(answers[index])))
    } catch (error) {
        for (const test of tests) count(test, [error.message.trim()])
    }
}
const missing = Array.from({ length: 84 }, (_, index) => index + 1)
    .filter((number) => ![...data.cases, ...data.not_geometric].some((test) => test.case === number))
if (missing.length > 0) console.log(`no such cases: ${missing.join(', ')}`)
console.log(`${data.not_geometric.length} cases that no pack answers: ${data.not_geometric.map((test) => test.case).join(', ')}`)
console.log(`${counts.passed} passed, ${counts.failed + missing.length} failed`)
process.exitCode = counts.failed + missing.length > 0 || counts.passed === 0 ? 1 : 0
