// SPDX-License-Identifier: MIT
//
// Out of a job and in again: node tests/import.mjs
//
// The points of each example are written as a table by a second, obvious writer (this file), with every key that a column
// can fill; imported into the same job that has no points, and no places, they must be the same points and places again,
// number by number as they are written. What no cell can say (plans, boxes, several marks, things seen with figures) is
// taken out beforehand. The same with semicolons, decimal commas and a byte order mark; and imported twice, nothing
// changes. Further: the findings as CSV name the points of the job, cell by cell as JSON has them.

import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { spawnSync } from 'node:child_process'

const root = fileURLToPath(new URL('..', import.meta.url))
const program = process.env.DRIPSTONE ?? join(root, 'build/debug/dripstone')
const folder = mkdtempSync(join(tmpdir(), 'import-'))
const counts = { passed: 0, failed: 0 }

function test(name, fault) {
    counts[fault ? 'failed' : 'passed']++
    if (fault) console.log(`${name}: ${fault}`)
}

const run = (...args) => spawnSync(program, args, { encoding: 'utf8', maxBuffer: 1 << 28 })
const inFolder = (name, text) => {
    writeFileSync(join(folder, name), text)
    return join(folder, name)
}

/* --- a job that cells can say ------------------------------------------------------------------------------------- */

const isPlain = (list) => Array.isArray(list) && list.every((item) => typeof item === 'string')
const sayable = (seen) => seen === undefined || seen === 'none' || isPlain(seen)

function reduced(thing) {
    const { plan, box, states, ...rest } = thing
    if (!sayable(rest.seen)) delete rest.seen
    if (rest.marked && rest.marked.length !== 1) delete rest.marked
    delete rest.heigth_m // a slip that an example has on purpose
    return rest
}

// "supply.volts": 230 … of a point; a mark counts as an object.
function flat(thing, before = '') {
    return Object.entries(thing).flatMap(([key, value]) => {
        const name = before + key
        if (key === 'marked') return flat(value[0], 'marked.')
        if (value !== null && typeof value === 'object' && !Array.isArray(value)) return flat(value, `${name}.`)
        return [[name, value]]
    })
}

function cellOf(value, { comma }) {
    const number = (n) => (comma ? String(n).replace('.', ',') : String(n))
    if (typeof value === 'number') return number(value)
    if (typeof value === 'boolean') return value ? 'yes' : 'no'
    if (!Array.isArray(value)) return String(value)
    if (value.every((item) => typeof item === 'number')) return value.map(number).join(' ')
    return value.join('; ')
}

const quoted = (cell) => (/[",;\r\n\t]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell)
const guarded = (cell, isText) => (isText && /^'*[=+@\t\r-]/.test(cell) ? `'${cell}` : cell)

function tableOf(job, form) {
    const placeOf = new Map(job.places.map((place) => [place.id, place]))
    const rows = job.points.map((point) => {
        const place = flat(placeOf.get(point.place) ?? {}, 'place.').filter(([key]) => key !== 'place.id')
        return new Map([...flat(point), ...place])
    })
    const heads = [...new Set(rows.flatMap((row) => [...row.keys()]))]
    const line = (cells) => cells.map(quoted).join(form.between) + form.end
    const cell = (value) => (value === undefined ? '' : guarded(cellOf(value, form), typeof value === 'string'))
    return (form.mark ? '\ufeff' : '') + line(heads) + rows.map((row) => line(heads.map((head) => cell(row.get(head))))).join('')
}

const sorted = (value) =>
    Array.isArray(value)
        ? value.map(sorted)
        : value && typeof value === 'object'
          ? Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)).map(([key, inner]) => [key, sorted(inner)]))
          : value
const same = (a, b) => JSON.stringify(sorted(a)) === JSON.stringify(sorted(b))

function firstDifference(name, wanted, got) {
    if (wanted.length !== got.length) return `${got.length} ${name}, not ${wanted.length}`
    const index = wanted.findIndex((each, i) => !same(each, got[i]))
    return index < 0 ? undefined : `${name} ${index}: ${JSON.stringify(got[index])}, not ${JSON.stringify(wanted[index])}`
}

/* --- out and in --------------------------------------------------------------------------------------------------- */

const forms = {
    commas: { between: ',', end: '\r\n' },
    semicolons: { between: ';', end: '\n', comma: true, mark: true },
    tabs: { between: '\t', end: '\n', comma: true }
}

function outAndIn(file, form) {
    const whole = JSON.parse(readFileSync(join(root, 'examples', file), 'utf8'))
    const used = new Set(whole.points.map((point) => point.place))
    const job = { ...whole, places: whole.places.filter(({ id }) => used.has(id)).map(reduced), points: whole.points.map(reduced) }
    const table = inFolder('points.csv', tableOf(job, form))
    const before = inFolder('before.json', JSON.stringify({ ...job, points: [], places: job.places.map(({ id, name }) => ({ id, name })) }))
    const after = run('import', before, table)
    if (after.status !== 0 || after.stderr) return `status ${after.status}: ${after.stderr}`
    const got = JSON.parse(after.stdout)
    const fault = firstDifference('points', job.points, got.points) ?? firstDifference('places', job.places, got.places)
    if (fault) return fault
    const again = run('import', inFolder('after.json', after.stdout), table)
    return again.stdout === after.stdout && again.status === 0 ? undefined : 'imported twice, something changes'
}

for (const file of readdirSync(join(root, 'examples')).filter((name) => name.endsWith('.json'))) {
    for (const [name, form] of Object.entries(forms)) test(`${file}, ${name}`, outAndIn(file, form))
}

/* --- findings as CSV ---------------------------------------------------------------------------------------------- */

// RFC 4180, all cells quoted.
const cellsOf = (text) =>
    text.split('\r\n').filter((line) => line !== '').length === 0
        ? []
        : [...text.matchAll(/"((?:[^"]|"")*)"(,|\r\n)/g)].reduce((rows, [, cell, end]) => {
              rows.at(-1).push(cell.replaceAll('""', '"').replace(/^'(?='*[=+@\t\r-])/, ''))
              if (end === '\r\n') rows.push([])
              return rows
          }, [[]]).slice(0, -1)

for (const file of readdirSync(join(root, 'examples')).filter((name) => name.endsWith('.json'))) {
    const path = join(root, 'examples', file)
    const [heads, ...rows] = cellsOf(run('check', path, '--csv').stdout)
    const { points } = JSON.parse(run('check', path, '--json').stdout)
    const wrong = points.findIndex((point, i) => {
        const row = Object.fromEntries(heads.map((head, column) => [head, rows[i]?.[column]]))
        return ['name', 'place', 'verdict', 'deciding'].some((key) => row[key] !== point[key]) || row.point !== point.id ||
            row.remedy !== (point.remedy ?? '') || row.count !== String(point.count)
    })
    test(`${file}, findings`, rows.length !== points.length ? `${rows.length} rows of ${points.length} points` : wrong < 0 ? undefined : `row ${wrong + 2}`)
}

/* --- the list of keys --------------------------------------------------------------------------------------------- */

// Every key that docs/import.md lists is one, and every single value that the schema knows is listed.
{
    const [, table] = readFileSync(join(root, 'docs/import.md'), 'utf8').split('| keys | of |')
    const listed = [...table.split('\n\n')[0].matchAll(/`([^`]+)`/g)].map(([, key]) => key).filter((key) => key !== 'AA' && key !== 'CB')
    const job = inFolder('keys.json', '{"dripstone": 1}')
    for (const key of listed) {
        const table = inFolder('keys.csv', key === 'id' ? 'id\n' : `id,${key}\n`)
        const result = run('import', job, table, '--json')
        test(`key ${key}`, JSON.parse(result.stdout).columns.at(-1).key === key ? undefined : 'is none')
    }
    const schema = JSON.parse(readFileSync(join(root, 'docs/job.schema.json'), 'utf8')).$defs
    const resolved = (value) => (value.$ref ? schema[value.$ref.split('/').at(-1)] : value)
    const known = (value, before) =>
        Object.entries(resolved(value).properties ?? {}).flatMap(([key, inner]) => {
            const whole = resolved(inner)
            if (['plan', 'box', 'states', 'influences'].includes(key)) return []
            if (key === 'marked') return known(whole.items, `${before}marked.`)
            return whole.properties ? known(whole, `${before}${key}.`) : [before + key]
        })
    const missing = [...known({ $ref: 'point' }, ''), ...known({ $ref: 'place' }, 'place.')].filter((key) => key !== 'place.id' && !listed.includes(key))
    test('keys of the schema', missing.length ? `docs/import.md lacks ${missing}` : undefined)
}

/* --- many rows ---------------------------------------------------------------------------------------------------- */

// A fault in one of many rows: nothing is written, and the old file stays.
{
    const rows = Array.from({ length: 20000 }, (_, i) => `N${i},hall,fan,${i === 19998 ? 'x' : 2}`)
    const table = inFolder('many.csv', `id,place,kind,count\n${rows.join('\n')}\n`)
    const job = inFolder('job.json', JSON.stringify({ dripstone: 1, rules: ['iec'], places: [{ id: 'hall', kind: 'hall', setting: 'indoors' }] }))
    const old = inFolder('old.json', 'old')
    const result = run('import', job, table, '-o', old, '--force')
    const good = result.status === 2 && /many\.csv, row 20000, column D \(count\): "x" is not a whole number/.test(result.stderr) && readFileSync(old, 'utf8') === 'old'
    test('one fault in 20,000 rows', good ? undefined : result.stderr.slice(0, 400))
    const whole = run('import', job, inFolder('whole.csv', `id,place,kind,count\n${rows.join('\n').replace(',x', ',2')}\n`))
    test('20,000 rows', whole.status === 0 && JSON.parse(whole.stdout).points.length === 20000 ? undefined : whole.stderr.slice(0, 400))
}

rmSync(folder, { recursive: true })
console.log(`${counts.passed} passed, ${counts.failed} failed`)
process.exitCode = counts.failed > 0 ? 1 : 0
