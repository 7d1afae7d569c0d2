// SPDX-License-Identifier: MIT
//
// The job document on paper and in code agree: docs/job.schema.json names exactly the keys, kinds, limits and required
// keys of the tables in src/core/job/job.c; the examples and the job in docs/job.md keep to the schema and to the words
// in rules/; docs/findings.md names exactly the keys that src/core/assess writes. Where the program is
// built, it judges the job of docs/job.md as the page says, and the examples show what they are there for.
//
// The validator below reads the part of JSON Schema 2020-12 that the schema uses, and fails on any keyword that it does
// not know, so that nothing in the schema is passed over in silence.

import { spawnSync } from 'node:child_process'
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { fileURLToPath } from 'node:url'

const root = join(dirname(fileURLToPath(import.meta.url)), '..')
const read = (path) => readFileSync(join(root, path), 'utf8')
const schema = JSON.parse(read('docs/job.schema.json'))

// Faults that an example has on purpose, for a reader to learn from: JSON pointers with ids in place of indices.
const deliberate = {
    'mill-house.json': { schema: ['/points/G6/heigth_m'], words: ['/points/G5/seen/0'] }
}

let passed = 0
let failed = 0

function test(name, faults) {
    if (faults.length === 0) {
        passed++
        return
    }
    failed++
    console.log(`FAILED ${name}`)
    for (const fault of faults) console.log(`    ${fault}`)
}

const same = (got, want) => (String(got) === String(want) ? [] : [`${got || 'nothing'}, not ${want || 'nothing'}`])

// --- validator -----------------------------------------------------------------------------------------------------

const typeOf = (value) => (value === null ? 'null' : Array.isArray(value) ? 'array' : typeof value)

function isType(value, type) {
    return type === 'integer' ? Number.isInteger(value) : typeOf(value) === type
}

function isDay(text) {
    const day = new Date(`${text}T00:00:00Z`)
    return /^\d{4}-\d\d-\d\d$/.test(text) && !Number.isNaN(day.getTime()) && day.toISOString().startsWith(text)
}

const resolve = (ref) => ref.split('/').slice(1).reduce((value, key) => value[key], schema)

const escape = (key) => key.replaceAll('~', '~0').replaceAll('/', '~1')

// Each keyword: (its value, the document's value, the pointer, the whole rule) -> faults as { at, why }.
const one = (bad, at, why) => (bad ? [{ at, why }] : [])
const nothing = () => []
const keywords = {
    $ref: (ref, value, at) => validate(resolve(ref), value, at),
    type: (type, value, at) => one(!isType(value, type), at, `is ${typeOf(value)}, not ${type}`),
    const: (constant, value, at) => one(value !== constant, at, `is not ${JSON.stringify(constant)}`),
    enum: (list, value, at) => one(!list.includes(value), at, `is none of ${list.join(', ')}`),
    minimum: (limit, value, at) => one(value < limit, at, `is below ${limit}`),
    maximum: (limit, value, at) => one(value > limit, at, `is above ${limit}`),
    minItems: (limit, value, at) => one(value.length < limit, at, `has fewer than ${limit}`),
    maxItems: (limit, value, at) => one(value.length > limit, at, `has more than ${limit}`),
    format: (format, value, at) => one(!isDay(value), at, `is no ${format}`),
    items: (rule, value, at) =>
        Array.isArray(value) ? value.flatMap((item, index) => validate(rule, item, `${at}/${index}`)) : [],
    required: (keys, value, at) => keys.flatMap((key) => one(!(key in value), at, `has no "${key}"`)),
    properties: (rules, value, at) =>
        Object.keys(rules)
            .filter((key) => typeOf(value) === 'object' && key in value)
            .flatMap((key) => validate(rules[key], value[key], `${at}/${escape(key)}`)),
    additionalProperties: (allowed, value, at, rule) =>
        allowed || typeOf(value) !== 'object'
            ? []
            : Object.keys(value)
                  .filter((key) => !(key in rule.properties))
                  .map((key) => ({ at: `${at}/${escape(key)}`, why: 'is no key of this' })),
    anyOf: (rules, value, at) => {
        const faults = rules.map((rule) => validate(rule, value, at))
        return faults.some((list) => list.length === 0) ? [] : faults.at(-1)
    },
    $schema: nothing,
    $defs: nothing,
    title: nothing,
    description: nothing
}

// A value of the wrong type gets that one fault: what its other keywords would say is of no use.
function validate(rule, value, at = '') {
    const wrongType = rule.type ? keywords.type(rule.type, value, at) : []
    if (wrongType.length) return wrongType
    return Object.entries(rule).flatMap(([keyword, wanted]) => {
        if (!(keyword in keywords)) throw new Error(`the validator does not know "${keyword}"`)
        return keywords[keyword](wanted, value, at, rule)
    })
}

// The validator itself: one document a keyword, each with one fault.
function checkValidator() {
    const job = (change) => {
        const sound = {
            dripstone: 1,
            rules: ['iec'],
            date: '2026-05-04',
            places: [{ id: 'a', kind: 'k', setting: 's', seen: [{ word: 'w', depth_m: 1 }], influences: { AD: 4 } }],
            points: [{ id: '1', place: 'a', kind: 'k', count: 2, at_m: [1, 2, 3], supply: { current: 'ac' } }]
        }
        change(sound)
        return validate(schema, sound).map(({ at }) => at)
    }
    const cases = [
        ['', () => {}],
        ['/dripstone', (j) => (j.dripstone = 2)],
        ['/', (j) => delete j.rules],
        ['/colour', (j) => (j.colour = 1)],
        ['/date', (j) => (j.date = '2026-02-30')],
        ['/places/0/influences/AD', (j) => (j.places[0].influences.AD = 10)],
        ['/places/0/influences/AD', (j) => (j.places[0].influences.AD = 4.5)],
        ['/places/0/seen/0/depth_m', (j) => (j.places[0].seen[0].depth_m = -1)],
        ['/places/0/seen', (j) => (j.places[0].seen = 'nothing')],
        ['/points/0/count', (j) => (j.points[0].count = 0)],
        ['/points/0/at_m', (j) => (j.points[0].at_m = [1, 2])],
        ['/points/0/at_m', (j) => (j.points[0].at_m = [1, 2, 3, 4])],
        ['/points/0/supply/current', (j) => (j.points[0].supply.current = 'AC')],
        ['/points/0/name', (j) => (j.points[0].name = 7)]
    ]
    for (const [want, change] of cases) {
        const got = job(change).map((at) => at || '/')
        const wanted = want ? [want] : []
        test(`validator on ${want || 'a sound job'}`, same(got, wanted))
    }
}

// --- the tables of job.c -------------------------------------------------------------------------------------------

const source = ['job', 'box', 'box_entries'].map((name) => read(`src/core/job/${name}.c`)).join('\n').replace(/\/\*[^]*?\*\//g, '')

const kinds = {
    DS_FIELD_TEXT: 'text', DS_FIELD_NUMBER: 'number', DS_FIELD_COUNT: 'whole', DS_FIELD_TRI: 'flag',
    DS_FIELD_WORDS: 'words', DS_FIELD_TREE: 'tree', DS_FIELD_RANGE: 'numbers 2', DS_FIELD_POINT: 'numbers 3'
}

// OBJECT is missing: its kind is the table that it names.
const macroKinds = { TEXT: 'text', ID: 'text', NUMBER: 'number', TRI: 'flag', WORDS: 'words', TREE: 'tree',
    COUNT: 'whole', RANGE: 'numbers 2', POINT3: 'numbers 3' }

// One row of a table: its key, kind, limits, whether it is required, and for objects the name of its own table.
function rowOf(text) {
    const macro = /^(TEXT|ID|NUMBER|COUNT|RANGE|POINT3|TRI|WORDS|TREE|OBJECT)\(([^)]*)\)$/.exec(text)
    if (macro) {
        const [, key, , third, fourth] = macro[2].split(',').map((part) => part.trim())
        const limits = ['NUMBER', 'COUNT', 'RANGE', 'POINT3'].includes(macro[1]) ? [Number(third), Number(fourth)] : null
        return { key: JSON.parse(key), kind: macroKinds[macro[1]] ?? third, limits, required: macro[1] === 'ID' }
    }
    const field = (name) => new RegExp(`\\.${name} = ("?)([^,"}]+)\\1`).exec(text)?.[2].trim()
    const limits = field('low') === undefined ? null : [Number(field('low')), Number(field('high'))]
    return { key: field('key'), kind: kinds[field('kind')], limits, required: field('required') === 'true' }
}

// The bodies of macros that stand for rows.
function define(name) {
    const form = new RegExp(`#define ${name}\\(\\w+\\)((?:[^\\n]*\\\\\\n)*[^\\n]*)`)
    return form.exec(source)[1].replaceAll('\\\n', ' ')
}

const influenceRow = define('INFLUENCE')
const surveyRows = define('SURVEY')

function tableOf(name) {
    const body = new RegExp(`static const ds_field ${name}\\[\\] = \\{([^]*?)\\{0\\},?\\s*\\};`).exec(source)[1]
    const rows = body
        .replace(/INFLUENCE\((\w+)\)/g, (_, letters) => influenceRow.replace('#name', `"${letters}"`))
        .replace(/SURVEY\(\w+\)/g, surveyRows)
    return [...rows.matchAll(/\b[A-Z][A-Z0-9]*\([^)]*\)(?=\s*,)|\{\s*\.key(?:[^{}()]|\([^)]*\))*\}/g)].map(([text]) => rowOf(text))
}

// What the schema says of a key, in the words of rowOf. Trees are described there and checked apart from the tables.
function kindInSchema(rule) {
    const { type, items } = rule
    if (type === 'array' && rule.minItems) return { kind: `numbers ${rule.minItems}`, limits: limitsOf(items) }
    if (type === 'array' && items?.type === 'string') return { kind: 'words', limits: null }
    if (type === 'integer' || typeof rule.const === 'number') return { kind: 'whole', limits: limitsOf(rule) }
    if (rule.type === 'number') return { kind: 'number', limits: limitsOf(rule) }
    if (rule.type === 'boolean') return { kind: 'flag', limits: null }
    if (rule.type === 'string' || rule.enum) return { kind: 'text', limits: null }
    const name = rule.$ref?.split('/').at(-1)
    const isTree = rule.type === 'array' || ['seen', 'plan', 'box'].includes(name)
    return { kind: isTree ? 'tree' : name.toUpperCase(), limits: null }
}

const limitsOf = (rule) => ('const' in rule ? [rule.const, rule.const] : [rule.minimum, rule.maximum])

// "rules" is no required key of the table, since a job without it can be read; assess reports it missing all the same.
const requiredBesides = { HEAD: ['rules'] }

function compareTable(name, rule) {
    const rows = tableOf(name)
    const faults = []
    const keys = rows.map(({ key }) => key).sort()
    const inSchema = Object.keys(rule.properties).sort()
    for (const key of keys.filter((k) => !inSchema.includes(k))) faults.push(`"${key}" is missing in the schema`)
    for (const key of inSchema.filter((k) => !keys.includes(k))) faults.push(`"${key}" is no key of the table`)
    for (const row of rows.filter(({ key }) => inSchema.includes(key))) {
        const said = kindInSchema(rule.properties[row.key])
        if (said.kind !== row.kind) faults.push(`"${row.key}" is ${row.kind} in the table, ${said.kind} in the schema`)
        for (const differs of same(said.limits, row.limits)) faults.push(`limits of "${row.key}": ${differs}`)
    }
    const ofTable = rows.filter((row) => row.required).map(({ key }) => key)
    const required = [...ofTable, ...(requiredBesides[name] ?? [])].sort()
    const said = [...(rule.required ?? [])].sort()
    if (String(required) !== String(said)) faults.push(`required: ${required} in the table, ${said} in the schema`)
    if (rule.additionalProperties !== false) faults.push('other keys are let through')
    if (rows.length === 0) faults.push('the table was not found')
    test(`schema and table ${name}`, faults)
}

// --- documents -----------------------------------------------------------------------------------------------------

const wordFiles = ['rules/words.json', 'rules/seen.json'].map((path) => JSON.parse(read(path)))

function wordsOf(family) {
    const list = wordFiles.flatMap((file) => file[family] ?? [])
    return new Set(list.flatMap(({ word, also = [] }) => [word, ...also]))
}

const groups = ['water', 'dust', 'blows', 'people']

// Where a document names words: a path with * for each element, and the family.
const wordPlaces = ['places', 'points'].flatMap((things) => [
    [`${things}/*/kind`, things === 'places' ? 'place' : 'kind'],
    [`${things}/*/seen/*`, 'seen'],
    [`${things}/*/absent/*`, 'seen'],
    [`${things}/*/asked/suitable_for/*`, 'quality']
])
wordPlaces.push(
    ['places/*/setting', 'setting'], ['points/*/measures/*', 'measure'], ['points/*/marked/*/when/*', 'condition'],
    ['points/*/states/*/*', 'condition'], ['points/*/maker/materials/*', 'material'],
    ['points/*/maker/suitable_for/*', 'quality'], ['points/*/maker/mounting/*', 'condition'],
    ['points/*/found/words/*', 'found'], ['points/*/found/evidence/*', 'evidence']
)

// Calls see(value, pointer) for everything that a path with * leads to.
function walk(value, parts, at, see) {
    if (parts.length === 0) return see(value, at)
    const [part, ...rest] = parts
    const keys = part === '*' && typeof value === 'object' ? Object.keys(value ?? {}) : [part]
    for (const key of keys) {
        if (typeof value === 'object' && value !== null && key in value) walk(value[key], rest, `${at}/${key}`, see)
    }
}

function unknownWords(job) {
    const found = []
    for (const [path, family] of wordPlaces) {
        const known = wordsOf(family)
        walk(job, path.split('/'), '', (value, at) => {
            const word = typeof value === 'object' ? value.word : value
            const isGroup = family === 'seen' && (at.includes('/absent/') ? groups.includes(word) : word === 'none')
            if (!known.has(word) && !isGroup) found.push({ at, why: `"${word}" is no word of ${family}` })
        })
    }
    return found
}

function strayIds(job) {
    const faults = []
    const places = new Set(job.places.map(({ id }) => id))
    for (const things of [job.places, job.points]) {
        if (new Set(things.map(({ id }) => id)).size !== things.length) faults.push('an id stands twice')
    }
    for (const { id, place } of job.points.filter((point) => !places.has(point.place))) {
        faults.push(`point ${id} names no place: ${place}`)
    }
    return faults
}

// The pointer of a fault with the id of its place or point in place of the index.
function byId(job, at) {
    const idOf = (things, index) => job[things][index]?.id ?? index
    return at.replace(/^\/(places|points)\/(\d+)/, (_, things, index) => `/${things}/${idOf(things, index)}`)
}

// Faults found against those meant: both too many and too few are faults.
function compareFaults(job, found, meant = []) {
    const named = found.map(({ at, why }) => ({ at: byId(job, at), why }))
    return [
        ...named.filter(({ at }) => !meant.includes(at)).map(({ at, why }) => `${at || '/'} ${why}`),
        ...meant.filter((want) => !named.some(({ at }) => at === want)).map((at) => `${at} was meant to be a fault`)
    ]
}

function checkJob(name, text) {
    const job = JSON.parse(text)
    test(`${name} keeps to the schema`, compareFaults(job, validate(schema, job), deliberate[name]?.schema))
    test(`${name} uses known words`, compareFaults(job, unknownWords(job), deliberate[name]?.words))
    test(`${name} joins points to places`, strayIds(job))
}

function checkDocuments() {
    const jobs = [...read('docs/job.md').matchAll(/^```json job\n([^]*?)^```$/gm)].map(([, text]) => text)
    test('docs/job.md holds a job', jobs.length === 1 ? [] : [`${jobs.length} jobs found`])
    jobs.forEach((text) => checkJob('docs/job.md', text))
    const examples = readdirSync(join(root, 'examples')).filter((name) => name.endsWith('.json')).sort()
    test('there are examples', examples.length >= 3 ? [] : [`${examples.length} found`])
    for (const name of examples) checkJob(name, read(`examples/${name}`))
}

// --- keys on paper -------------------------------------------------------------------------------------------------

// Keys at the head of table rows: | `key` |
const keysOnPaper = (path) => new Set([...read(path).matchAll(/^\| ((?:`[\w.-]+`(?:, )?)+)/gm)].flatMap(([, cell]) => [...cell.matchAll(/`([\w.-]+)`/g)].map(([, key]) => key)))

function compareKeys(name, inCode, onPaper) {
    const missing = [...inCode].filter((key) => !onPaper.has(key)).map((key) => `"${key}" is not described`)
    const stray = [...onPaper].filter((key) => !inCode.has(key)).map((key) => `"${key}" is described, not there`)
    test(name, inCode.size ? [...missing, ...stray] : ['no keys found'])
}

// The writer names keys in its put_… calls; a choice of several stands in one call.
function keysWritten() {
    const writer = ['findings_json', 'finding_json', 'climate_json'].map((name) => read(`src/core/assess/${name}.c`)).join('\n')
    const calls = writer.match(/\b(?:(?:ds_)?put_(?:line|str|text|number|needed|reasons|keys)|ds_json_put_key)\([^;]*;/g)
    const keys = calls.flatMap((call) => call.replace(/== "\w+"/g, '').match(/"[a-z_]+"/g) ?? [])
    const verdicts = ['barred', 'short', 'unknown', 'fits'] // keys of "counted", written by ds_verdict_word
    return new Set([...keys.map((key) => JSON.parse(key)), ...verdicts])
}

function checkPaper() {
    compareKeys('docs/findings.md names what is written', keysWritten(), keysOnPaper('docs/findings.md'))
    const tables = ['HEAD', 'PLACE', 'POINT', 'ASKED', 'SUPPLY', 'MAKER', 'FOUND', 'MARKED', 'BOX', 'FACE', 'OPENING', 'ENTRY', 'HOLE', 'CABLE', 'HEATER', 'SUN', 'FLOOD', 'DAY']
    const keys = new Set(tables.flatMap((name) => tableOf(name).map(({ key }) => key)))
    compareKeys('docs/job.md names what is read', keys, new Set([...keysOnPaper('docs/job.md'), ...keysOnPaper('docs/box.md')]))
}

// --- the program ----------------------------------------------------------------------------------------------------

const program = ['build/release/dripstone', 'build/debug/dripstone'].map((path) => join(root, path)).find(existsSync)

// Findings of a job; null, and a failed test, when the program does not end as it should.
function judge(name, text, status) {
    const ran = spawnSync(program, ['check', '-', '--json'], { input: text, encoding: 'utf8', maxBuffer: 2 ** 28 })
    const faults = ran.status === status ? [] : [`exit status ${ran.status}, not ${status}: ${ran.stderr}`]
    test(`check of ${name} ends as it should`, faults)
    return faults.length ? null : JSON.parse(ran.stdout)
}

function runDocumentedJob() {
    const [, text] = /^```json job\n([^]*?)^```$/m.exec(read('docs/job.md'))
    const findings = judge('docs/job.md', text, 1)
    const verdicts = findings?.points.map(({ id, verdict }) => `${id} ${verdict}`)
    if (findings) test('docs/job.md says how its job is judged', same(verdicts, ['P1 fits', 'P2 short', 'P3 unknown']))
}

// Pack, whether its edition is past at the job's date, fewest and most points.
const shows = {
    'fish-farm.json': ['iec', false, 60, 110],
    'mill-house.json': ['gb-2022', true, 40, 60],
    'pottery.json': ['gb-2018', false, 30, 50],
    'bath-house.json': ['gb-2022', false, 20, 30],
    'boxes.json': ['gb-2022', false, 10, 15]
}

function runExample(name) {
    const text = read(`examples/${name}`)
    const findings = judge(name, text, 1)
    if (!findings) return
    const [pack, past, fewest, most] = shows[name]
    const missing = Object.entries(findings.counted).filter(([, count]) => count === 0)
    test(`${name} shows every verdict`, missing.map(([verdict]) => `no point is ${verdict}`))
    test(`${name} goes by its pack`, same(findings.packs.map(({ id, notice }) => [id, Boolean(notice)]), [pack, past]))
    const { length } = findings.points
    test(`${name} has its number of points`, length >= fewest && length <= most ? [] : [`${length} points`])
    const meant = Object.values(deliberate[name] ?? {}).flat().sort()
    const problems = findings.problems.map(({ pointer }) => byId(JSON.parse(text), pointer)).sort()
    test(`${name} has no problem but those meant`, same(problems, meant))
}

function runProgram() {
    if (!program) {
        console.log('the program is not built: jobs were not judged')
        return
    }
    runDocumentedJob()
    Object.keys(shows).forEach(runExample)
}

checkValidator()
compareTable('HEAD', schema)
for (const name of ['PLACE', 'POINT', 'ASKED', 'INFLUENCES', 'SUPPLY', 'MAKER', 'FOUND', 'MARKED', 'BOX', 'FACE', 'OPENING', 'ENTRY', 'HOLE', 'CABLE', 'HEATER', 'SUN', 'FLOOD']) {
    compareTable(name, schema.$defs[name.toLowerCase()])
}
checkDocuments()
checkPaper()
runProgram()
console.log(`${passed} passed, ${failed} failed`)
process.exitCode = failed ? 1 : 0
