// SPDX-License-Identifier: MIT
//
// The spreadsheet opened again: node tests/sheet.mjs
//
// Each book is read by a small reader of its own (ZIP and XML, below) and, where it is installed, by LibreOffice, which
// writes every sheet as CSV: both must show the same cells, and the sheet with everything must say of each point what the
// findings say as JSON. Figures must be numbers, no cell a formula, heads frozen and filtered; the same job gives the same
// bytes; and a disk that is full leaves the old file as it was, however the library takes it.

import { existsSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { spawnSync } from 'node:child_process'
import { inflateRawSync } from 'node:zlib'

const root = fileURLToPath(new URL('..', import.meta.url))
const program = process.env.DRIPSTONE ?? join(root, 'build/debug/dripstone')
const folder = mkdtempSync(join(tmpdir(), 'sheet-'))
const counts = { passed: 0, failed: 0 }

function test(name, fault) {
    counts[fault ? 'failed' : 'passed']++
    if (fault) console.log(`${name}: ${fault}`)
}

const run = (...args) => spawnSync(program, args, { encoding: 'utf8', maxBuffer: 1 << 28 })

/* --- reading a book ----------------------------------------------------------------------------------------------- */

function partsOf(bytes) {
    const parts = {}
    let at = bytes.readUInt32LE(bytes.length - 6)
    for (let left = bytes.readUInt16LE(bytes.length - 12); left > 0; left--) {
        const [nameLen, extraLen, commentLen] = [28, 30, 32].map((offset) => bytes.readUInt16LE(at + offset))
        const local = bytes.readUInt32LE(at + 42)
        const start = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28)
        const packed = bytes.subarray(start, start + bytes.readUInt32LE(at + 20))
        const name = bytes.toString('utf8', at + 46, at + 46 + nameLen)
        parts[name] = inflateRawSync(packed).toString('utf8')
        if (/[^\t\n\r\u0020-\uFFFD]/.test(parts[name])) throw new Error(`${name} holds what no XML may hold`)
        at += 46 + nameLen + extraLen + commentLen
    }
    return parts
}

const entities = { lt: '<', gt: '>', amp: '&', quot: '"', apos: "'" }
const plain = (xml) =>
    xml.replace(/&(?:#x([0-9a-f]+)|#(\d+)|(\w+));/gi, (_, hex, decimal, name) =>
        hex ? String.fromCodePoint(parseInt(hex, 16)) : decimal ? String.fromCodePoint(Number(decimal)) : entities[name])
        .replace(/_x([0-9A-Fa-f]{4})_/g, (_, hex) => String.fromCharCode(parseInt(hex, 16)))

// "AB12" -> [11, 27], from 0.
function placeOf(ref) {
    const [, letters, row] = /^([A-Z]+)(\d+)$/.exec(ref)
    return [Number(row) - 1, [...letters].reduce((sum, letter) => sum * 26 + letter.charCodeAt(0) - 64, 0) - 1]
}

// Rows of { text } or { number }; and what the sheet is besides.
function sheetOf(xml, name) {
    const rows = []
    for (const [, ref, attributes, inside] of xml.matchAll(/<c r="([A-Z]+\d+)"([^>]*?)(?:\/>|>(.*?)<\/c>)/gs)) {
        const [row, column] = placeOf(ref)
        rows[row] ??= []
        if (inside === undefined) continue
        if (/<f[ >]/.test(inside)) throw new Error(`${name} ${ref} is a formula`)
        const text = /<t[^>]*>(.*?)<\/t>/s.exec(inside)
        const value = /<v>(.*?)<\/v>/.exec(inside)
        if (!text && /t="s"/.test(attributes)) throw new Error(`${name} ${ref} is a shared text`)
        rows[row][column] = text ? { text: plain(text[1]) } : { number: Number(value[1]) }
    }
    return {
        name,
        rows,
        frozen: /<pane [^>]*topLeftCell="(\w+)"[^>]*state="frozen"/.exec(xml)?.[1],
        filter: /<autoFilter ref="([^"]+)"/.exec(xml)?.[1]
    }
}

function bookOf(path) {
    const parts = partsOf(readFileSync(path))
    const names = [...parts['xl/workbook.xml'].matchAll(/<sheet name="([^"]+)"/g)].map(([, name]) => name)
    return names.map((name, index) => sheetOf(parts[`xl/worksheets/sheet${index + 1}.xml`], name))
}

/* --- the same by LibreOffice -------------------------------------------------------------------------------------- */

const office = ['soffice', 'libreoffice'].find((name) => spawnSync(name, ['--version']).status === 0)

function officeSheets(path) {
    const out = mkdtempSync(join(folder, 'office-'))
    const form = 'csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1'
    spawnSync(office, [`-env:UserInstallation=file://${join(folder, 'profile')}`, '--headless', '--convert-to', form, '--outdir', out, path])
    return Object.fromEntries(readdirSync(out).map((name) => [/-([^-]+)\.csv$/.exec(name)[1], readFileSync(join(out, name), 'utf8')]))
}

function rowsOf(csv) {
    const rows = [[]]
    for (const [, quoted, bare, end] of csv.matchAll(/(?:"((?:[^"]|"")*)"|([^,\n"]*))(,|\n|$)/g)) {
        rows.at(-1).push(quoted === undefined ? bare : quoted.replaceAll('""', '"'))
        if (end !== ',') rows.push([])
    }
    return rows
}

// A cell as LibreOffice shows it: line ends in cells are \n there.
const shown = (cell) => (cell === undefined ? '' : 'number' in cell ? String(cell.number) : cell.text.replaceAll('\r\n', '\n').replaceAll('\r', '\n'))

function officeFault(book, path) {
    const sheets = officeSheets(path)
    for (const { name, rows } of book) {
        const other = rowsOf(sheets[name] ?? '')
        for (const [i, row] of rows.entries()) {
            for (let column = 0; column < (row?.length ?? 0); column++) {
                const [mine, theirs] = [shown(row[column]), other[i]?.[column] ?? '']
                if (mine !== theirs) return `LibreOffice has ${name} row ${i + 1} column ${column + 1} as ${JSON.stringify(theirs)}, not ${JSON.stringify(mine)}`
            }
        }
    }
    return undefined
}

/* --- against the findings ----------------------------------------------------------------------------------------- */

const NUMBERS = ['Pieces', 'Height, m', 'Volts', 'RCD, mA', 'Rated for, °C', 'Rated down to, °C', 'Inside at least, °C', 'Inside at most, °C', 'Limit, °C', 'Of these fit now']

// What no XML may hold, and what a cell is too short for, comes out changed.
const kept = (text) => text.replace(/[\uFFFE\uFFFF]/g, '\uFFFD')

function findingsFault(everything, points, job) {
    const heads = everything.rows[0].map(({ text }) => text)
    if (everything.rows.length !== points.length + 1) return `${everything.rows.length - 1} rows of ${points.length} points`
    for (const [i, point] of points.entries()) {
        const row = Object.fromEntries(heads.map((head, column) => [head, everything.rows[i + 1][column]]))
        const stated = job.points[i]
        const texts = { Point: point.id, Name: kept(point.name ?? ''), 'Place id': point.place, Kind: stated.kind, Zone: point.zone, Verdict: point.verdict,
            Why: point.deciding, 'What to do': point.remedy ?? '', 'Judged on': point.judged_on, Marked: point.marked ?? 'none', Shown: point.shown ?? '' }
        const numbers = { Pieces: point.count, 'Height, m': stated.height_m, Volts: stated.supply?.volts, 'RCD, mA': stated.supply?.rcd_ma,
            'Rated for, °C': point.needed.rated_c, 'Limit, °C': point.heat?.limit_c ?? undefined, 'Inside at most, °C': point.heat?.high_c ?? undefined }
        for (const [head, said] of Object.entries(texts)) {
            const text = said ?? ''
            const cell = row[head]?.text ?? ''
            const short = text.length > 32000 ? cell.endsWith('…') && text.startsWith(cell.slice(0, -1)) && cell.length > 10000 : cell === text
            if (!short) return `row ${i + 2}, ${head}: ${JSON.stringify(cell.slice(0, 80))}, not ${JSON.stringify(text.slice(0, 80))}`
        }
        for (const [head, number] of Object.entries(numbers)) {
            if (row[head]?.number !== number) return `row ${i + 2}, ${head}: ${row[head]?.number}, not ${number}`
        }
    }
    return undefined
}

function formFault(book) {
    for (const { name, rows, frozen, filter } of book.filter((sheet) => sheet.name !== 'About')) {
        const heads = rows[0].map(({ text }) => text)
        if (frozen !== 'B2') return `${name}: the head is not frozen (${frozen})`
        const [last, width] = placeOf(filter.split(':')[1])
        if (width + 1 !== heads.length || last !== Math.max(rows.length - 1, 0)) return `${name}: the filter is ${filter}`
        const wrong = rows.slice(1).findIndex((row) => row.some((cell, i) => cell && 'number' in cell !== NUMBERS.includes(heads[i])))
        if (wrong >= 0) return `${name}: row ${wrong + 2} has a figure as text, or text as a figure`
    }
    return undefined
}

function bookFault(jobPath) {
    const path = join(folder, 'book.xlsx')
    const again = join(folder, 'again.xlsx')
    const made = run('sheet', jobPath, '-o', path, '--force')
    if (made.status !== 0 || made.stderr || made.stdout) return `status ${made.status}: ${made.stderr}${made.stdout}`
    run('sheet', jobPath, '-o', again, '--force')
    if (!readFileSync(path).equals(readFileSync(again))) return 'two books of one job differ'
    const book = bookOf(path)
    const names = book.map(({ name }) => name).join(' ')
    if (names !== 'Client Fitter Buyer Inspector All About') return `the sheets are ${names}`
    const { points, cautions } = JSON.parse(run('check', jobPath, '--json').stdout)
    const about = book[5].rows.map((row) => row[1]?.text)
    return formFault(book) ?? findingsFault(book[4], points, JSON.parse(readFileSync(jobPath, 'utf8'))) ??
        (cautions.every((caution) => about.includes(caution)) ? undefined : 'a caution is missing') ??
        (office ? officeFault(book, path) : undefined)
}

/* --- the jobs ----------------------------------------------------------------------------------------------------- */

const point = (id, more) => ({ id, place: 'p', kind: 'socket-outlet', marked: [{ ip: 'IP44' }], ...more })
const job = (points, more) => ({ dripstone: 1, title: 'Sheet & "more" <title> \u0001\uFFFE', rules: ['iec'], date: '2024-02-29',
    places: [{ id: 'p', name: 'مطبخ 厨房', kind: 'office', setting: 'indoors', seen: 'none' }], points, ...more })
const NAMES = ['=1+1', '+cmd', '-5', '@SUM(A1)', "'quoted", '<b>&amp;</b>', 'two\nlines', '\u0001\u001b[31m\u007f', '\ttab', 'غرفة الضخ', '配电箱', '🔌 plug', '_x0041_', '1234', '1e5', '\uFFFE odd', ' blank ', 'TRUE']

const jobs = {
    ...Object.fromEntries(readdirSync(join(root, 'examples')).filter((name) => name.endsWith('.json')).map((name) => [name, undefined])),
    'names.json': job(NAMES.map((name, i) => point(`N${i}`, { name, count: i + 1, height_m: i / 8, supply: { volts: 230, rcd_ma: 30 } }))),
    'long.json': job([point('L', { name: 'é'.repeat(40000) })]),
    'none.json': job([]),
    'bare.json': { dripstone: 1, points: [{ id: 'X' }] }
}
for (const [name, content] of Object.entries(jobs)) {
    const path = content ? join(folder, name) : join(root, 'examples', name)
    if (content) writeFileSync(path, JSON.stringify(content))
    let fault
    try { fault = bookFault(path) } catch (error) { fault = error.stack }
    test(name, fault)
}

for (const reader of ['client', 'fitter', 'buyer', 'inspector']) {
    const path = join(folder, `${reader}.xlsx`)
    run('sheet', join(root, 'examples/pottery.json'), '--for', reader, '-o', path)
    const names = existsSync(path) ? bookOf(path).map(({ name }) => name.toLowerCase()).join(' ') : 'none'
    test(`for the ${reader}`, names === `${reader} about` ? undefined : `the sheets are ${names}`)
}

{
    const path = join(folder, 'buyer.xlsx')
    const [{ rows }] = bookOf(path)
    const { points } = JSON.parse(run('check', join(root, 'examples/pottery.json'), '--json').stdout)
    const sum = (list, count) => list.reduce((total, each) => total + count(each), 0)
    const found = [sum(rows.slice(1), (row) => row[4].number), sum(rows.slice(1), (row) => row[5].number)]
    const wanted = [sum(points, ({ count }) => count), sum(points, ({ count, verdict }) => (verdict === 'fits' ? count : 0))]
    test('quantities', found.join() === wanted.join() ? undefined : `pieces and fitting ones ${found}, not ${wanted}`)
}

/* --- no room ------------------------------------------------------------------------------------------------------ */

// A limit on the size of files, at every step of the writing: of the temporary rows, of the packed book.
{
    const big = join(folder, 'big.json')
    const path = join(folder, 'old.xlsx')
    writeFileSync(big, JSON.stringify(job(Array.from({ length: 3000 }, (_, i) => point(`P${i}`, { name: `Point ${i}` })))))
    for (const kilobytes of [0, 20, 60, 100, 200, 400, 800, 1000]) {
        writeFileSync(path, 'old')
        const script = `trap '' XFSZ; ulimit -f ${kilobytes}; exec "$0" sheet "$1" --for client -o "$2" --force`
        const made = spawnSync('bash', ['-c', script, program, big, path], { encoding: 'utf8' })
        const whole = made.status === 0 && bookOf(path)[0].rows.length === 3001
        const refused = made.status === 2 && readFileSync(path, 'utf8') === 'old' && /dripstone: .*(full|large)/.test(made.stderr)
        test(`files of at most ${kilobytes} kB`, whole || refused ? undefined : `status ${made.status}: ${made.stderr}`)
    }
}

rmSync(folder, { recursive: true })
console.log(office ? 'compared with LibreOffice' : 'LibreOffice is not here: read by our own reader alone')
console.log(`${counts.passed} passed, ${counts.failed} failed`)
process.exitCode = counts.failed > 0 ? 1 : 0
