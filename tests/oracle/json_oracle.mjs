// SPDX-License-Identifier: MIT
//
// Our reader and writer against JSON.parse: node tests/oracle/json_oracle.mjs ECHO [FILE …]
//
// ECHO is the program built from tests/unit/json_echo.c. Documents are the files, random ones, and small damages to
// them. Both must take the same documents, but for what JSON.parse lets through and we must not: keys that come twice,
// escapes that are no character, numbers past the largest double, bad UTF-8, too much depth. Those are found here a
// second time, by other means. What both take must have the same values after we have written it again.

import { isDeepStrictEqual } from 'node:util'
import { readFileSync } from 'node:fs'
import { spawnSync } from 'node:child_process'

const randomDocuments = 4000
const damagesOfEach = 4

// A small generator with a fixed start: the same documents on every run.
let seed = 0x2F6E2B1
function below(limit) {
    seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0
    return Math.floor(seed / 4294967296 * limit)
}
const pick = (list) => list[below(list.length)]

const spaces = ['', '', '', ' ', '\n', '\r\n', '\t', '  ']
const space = () => pick(spaces)
const letters = ['a', 'Z', ' ', '/', 'é', '€', '🔌', '\u007f', '\u2028', '\\n', '\\"', '\\\\', '\\/', '\\u00e9',
    '\\ud83d\\udd0c', '\\uFFFF', '\\u0001']
const rarely = ['\\ud800', '\\udc00', '\\u0000', '\\ud83d\\ud83d\\udd0c']
const many = (make, most) => Array.from({ length: below(most + 1) }, make).join('')
const string = () => `"${many(() => pick(letters), 5)}${below(60) ? '' : pick(rarely)}"`
const digits = () => String(1 + below(9)) + many(() => below(10), below(5) ? 3 : 25)
const exponent = () => pick(['e', 'E', 'e+', 'e-']) + below(below(20) ? 30 : 400)
const number = () => pick(['', '', '-']) + pick(['0', digits()]) + pick(['', '', `.${below(10)}${digits()}`]) +
    pick(['', '', '', exponent()])

function value(depth) {
    const kind = below(depth ? 6 : 3)
    const inside = kind === 0 ? pick(['true', 'false', 'null']) : kind === 1 ? string() : kind === 2 ? number()
        : kind === 3 ? `[${list(depth, () => value(depth - 1))}]`
            : `{${list(depth, (i) => `${space()}${key(i)}${space()}:${value(depth - 1)}`)}}`
    return space() + inside + space()
}
function list(depth, make) {
    const length = below(30) ? below(5) : below(50)
    return Array.from({ length }, (_, i) => make(i)).join(',') || space()
}
const key = (i) => below(40) ? `"${pick(letters)}${i}"` : string()

const pieces = [',', ':', '[', ']', '{', '}', '"', '\\', '0', '-', '.', 'e', '+', "'", '//', 'nul', '\\u', '\v', '\t',
    '1e999', '01', 'NaN', ' '].map((text) => Buffer.from(text))
    .concat([[0xFF], [0x80], [0xC0, 0x80], [0xED, 0xA0, 0x80], [0xC3], [0xF4, 0x90, 0x80, 0x80]].map((bytes) => Buffer.from(bytes)))

function damaged(bytes) {
    const at = below(bytes.length + 1)
    if (below(20) === 0) return bytes.subarray(0, at)
    return Buffer.concat([bytes.subarray(0, at), below(4) ? pick(pieces) : Buffer.alloc(0), bytes.subarray(at + below(3))])
}

function documents(files) {
    const all = files.map((file) => readFileSync(file))
    for (let i = 0; i < randomDocuments; i++) all.push(Buffer.from(value(5)))
    for (const bytes of [...all]) for (let i = 0; i < damagesOfEach; i++) all.push(damaged(bytes))
    return all
}

// What JSON.parse makes of the bytes; undefined when it refuses.
function parsed(bytes) {
    try {
        return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes)) // drops a byte order mark, as we do
    } catch {
        return undefined
    }
}

// Everything in a value: how many keys, how deep, the most keys of one object, whether all numbers and texts are sound.
function survey(value, depth = 1, found = { keys: 0, depth: 0, most: 0, sound: true }) {
    if (typeof value === 'number') found.sound &&= Number.isFinite(value)
    if (typeof value === 'string') found.sound &&= !/\p{Surrogate}/u.test(value) && !value.includes('\0')
    if (value === null || typeof value !== 'object') return found
    found.depth = Math.max(found.depth, depth)
    if (!Array.isArray(value)) {
        const keys = Object.keys(value)
        found.keys += keys.length
        found.most = Math.max(found.most, keys.length)
        keys.forEach((name) => survey(name, depth, found))
    }
    Object.values(value).forEach((inner) => survey(inner, depth + 1, found))
    return found
}

// JSON.parse hides keys that come twice; the colons outside strings tell, and so do the texts it threw away.
function mustBeTaken(bytes, value) {
    if (value === undefined) return false
    const text = bytes.toString()
    const strings = text.match(/"(?:\\.|[^"\\])*"/gs) ?? []
    const colons = text.replace(/"(?:\\.|[^"\\])*"/gs, '').split(':').length - 1
    const found = survey(value)
    return found.sound && colons === found.keys && found.depth <= 64 && found.most <= 1000 &&
        strings.every((one) => survey(JSON.parse(one)).sound)
}

function* answers(output, count) {
    let at = 0
    for (let i = 0; i < count; i++) {
        const end = output.indexOf(10, at)
        const [word, first, ...rest] = output.toString('latin1', at, end).split(' ')
        const length = word === 'ok' ? Number(first) : 0
        yield { taken: word === 'ok', code: first, place: rest.join(':'), bytes: output.subarray(end + 1, end + 1 + length) }
        at = end + 1 + length
    }
    if (at !== output.length) throw new Error('the answers do not match the documents')
}

function complaint(bytes, answer) {
    const value = parsed(bytes)
    const wanted = mustBeTaken(bytes, value)
    if (answer.taken !== wanted) return wanted ? `refused: ${answer.code} at ${answer.place}` : 'taken'
    if (answer.taken && !isDeepStrictEqual(parsed(answer.bytes), value)) return 'other values'
    return undefined
}

const [echo, ...files] = process.argv.slice(2)
const all = documents(files)
const input = Buffer.concat(all.flatMap((bytes) => [Buffer.from(`${bytes.length}\n`), bytes]))
const run = spawnSync(echo, { input, maxBuffer: 1 << 30 })
if (run.status !== 0) {
    console.log(`${echo}: exit ${run.status} ${run.signal ?? ''} ${run.stderr ?? run.error}`)
    process.exit(1)
}
let taken = 0
let failed = 0
let i = 0
for (const answer of answers(run.stdout, all.length)) {
    const bytes = all[i++]
    const wrong = complaint(bytes, answer)
    taken += answer.taken
    failed += wrong !== undefined
    if (wrong) console.log(`${wrong}: ${JSON.stringify(bytes.toString('latin1').slice(0, 300))}`)
}
console.log(`${taken} taken, ${all.length - taken} refused by both`)
console.log(`${all.length - failed} passed, ${failed} failed`)
process.exit(failed || taken < all.length / 10 || taken > all.length * 9 / 10 ? 1 : 0)
