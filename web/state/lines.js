// SPDX-License-Identifier: MIT
//
// Which points are listed, in which order, under which headings. Pure, and quick enough to be done anew after every edit
// of a job of 40,000 points: what is costly of a point is kept for as long as it is the same object.
//
//     asked: { document, rows, look, labelOf }     labelOf says what a word is called
//     look: { text, verdicts, places, kind, sort: { by, down }, group, closed }     verdicts, places, closed: Sets
//     const points = listedPoints(asked)
//     const lines = linesOf(points, asked)     points, and Headings between them when they are grouped

import { verdicts as WORST_FIRST } from '../parts/verdict-order.js'

export const startLook = { text: '', verdicts: new Set(), places: new Set(), kind: '', sort: { by: 'order', down: false }, group: '', closed: new Set() }

const worse = (a, b) => (a === undefined ? b : b === undefined ? a : WORST_FIRST[Math.min(WORST_FIRST.indexOf(a), WORST_FIRST.indexOf(b))])

// What make(object) gives, made once for as long as it is the same object.
function kept(make) {
    const known = new WeakMap()
    return (object, ...rest) => {
        let value = known.get(object)
        if (value === undefined) known.set(object, (value = make(object, ...rest)))
        return value
    }
}

// "Ärmel 12" is found by "armel", and sorts before "Ärmel 113".
const PLAIN = /^[\x00-\x7f]*$/ // most texts: they need no taking apart
export const folded = (text) => (PLAIN.test(text) ? text : text.normalize('NFKD').replace(/\p{M}/gu, '')).toLowerCase()
export const inOrder = (text) => folded(text).replace(/\d+/g, (digits) => digits.padStart(8, '0'))

const marksOf = ({ marked }) => (Array.isArray(marked) ? marked.map(({ ip, ik }) => [ip, ik].filter(Boolean).join(' ')) : [])

const textOfPoint = kept((point, labelOf) => folded([point.id, point.name ?? '', point.kind ?? '', labelOf(point.kind) ?? '', ...marksOf(point)].join('\n')))
const textOfPlace = kept((place, labelOf) => folded([place.id, place.name ?? '', labelOf(place.kind) ?? ''].join('\n')))
const textOfRow = kept((row) => folded([row.needed ?? '', row.deciding ?? ''].join('\n')))

const placesById = kept((places) => new Map(places.map((place) => [place.id, place])))
export const nameOfPlace = (document, id) => placesById(document.places).get(id)?.name || id

const idKey = kept((point) => inOrder(point.id))
const nameKey = kept((point, labelOf) => inOrder(point.name || labelOf(point.kind) || ''))
const neededKey = kept((row) => inOrder(row.needed ?? ''))
const markedKey = kept((row) => inOrder(row.marked ?? ''))

// --- which ----------------------------------------------------------------------------------------------------------

function holdsText({ document, rows, look, labelOf }) {
    const parts = folded(look.text).split(/\s+/).filter(Boolean)
    const places = placesById(document.places)
    return (point) => {
        const place = places.get(point.place)
        const row = rows.get(point.id)
        return parts.every((part) => textOfPoint(point, labelOf).includes(part) || (place && textOfPlace(place, labelOf).includes(part)) || (row && textOfRow(row).includes(part)))
    }
}

function filtered(asked) {
    const { document, rows, look } = asked
    const tests = []
    if (look.places.size) tests.push((point) => look.places.has(point.place))
    if (look.kind) tests.push((point) => point.kind === look.kind)
    if (look.verdicts.size) tests.push((point) => look.verdicts.has(rows.get(point.id)?.verdict))
    if (look.text.trim()) tests.push(holdsText(asked))
    return tests.length ? document.points.filter((point) => tests.every((test) => test(point))) : document.points
}

// --- in which order -------------------------------------------------------------------------------------------------

function sortKey({ document, rows, look, labelOf }) {
    const ofRow = (key) => (point) => { const row = rows.get(point.id); return row ? key(row) : '' }
    const placeKey = kept((place) => inOrder(place.name || place.id))
    const places = placesById(document.places)
    return {
        id: idKey,
        name: (point) => nameKey(point, labelOf),
        place: (point) => { const place = places.get(point.place); return place ? placeKey(place) : '' },
        needed: ofRow(neededKey),
        marked: ofRow(markedKey),
        verdict: ofRow(({ verdict }) => String(WORST_FIRST.indexOf(verdict))),
        deciding: ofRow(({ deciding }) => deciding ?? '')
    }[look.sort.by]
}

const compare = (a, b) => (a < b ? -1 : a > b ? 1 : 0)

export function listedPoints(asked) {
    const { look } = asked
    const points = filtered(asked)
    const key = sortKey(asked)
    if (!key) return look.sort.down ? points.toReversed() : points
    const keyed = points.map((point) => ({ point, key: key(point) }))
    const turn = look.sort.down ? -1 : 1
    return keyed.sort((a, b) => turn * compare(a.key, b.key)).map(({ point }) => point)
}

// --- under which headings -------------------------------------------------------------------------------------------

export class Heading {
    constructor(key, label) {
        Object.assign(this, { key, label, count: 0, counts: {} })
    }
}

const groupings = {
    place: { of: (point) => point.place, label: (document, key) => nameOfPlace(document, key), order: (document) => { const at = new Map(document.places.map(({ id }, index) => [id, index])); return (key) => at.get(key) ?? Infinity } },
    need: { of: (point, rows) => rows.get(point.id)?.needed ?? '', label: (document, key) => key || 'not judged yet', order: () => inOrder },
    verdict: { of: (point, rows) => rows.get(point.id)?.verdict ?? '', label: (document, key) => key || 'not judged yet', order: () => (key) => WORST_FIRST.indexOf(key) }
}

export function linesOf(points, { document, rows, look }) {
    const grouping = groupings[look.group]
    if (!grouping) return points
    const groups = new Map()
    for (const point of points) {
        const key = grouping.of(point, rows)
        if (!groups.has(key)) groups.set(key, { heading: new Heading(key, grouping.label(document, key)), points: [] })
        const { heading, points: inside } = groups.get(key)
        const verdict = rows.get(point.id)?.verdict
        heading.count++
        heading.counts[verdict] = (heading.counts[verdict] ?? 0) + 1
        inside.push(point)
    }
    const rank = grouping.order(document)
    const sorted = [...groups.values()].sort((a, b) => compare(rank(a.heading.key), rank(b.heading.key)))
    return sorted.flatMap(({ heading, points: inside }) => (look.closed.has(heading.key) ? [heading] : [heading, ...inside]))
}

// --- sums, ranges, the next -----------------------------------------------------------------------------------------

// { barred, short, unknown, fits } as far as judged.
export function countVerdicts(points, rows) {
    const counts = { barred: 0, short: 0, unknown: 0, fits: 0 }
    for (const { id } of points) {
        const row = rows.get(id)
        if (row) counts[row.verdict]++
    }
    return counts
}

// Place id -> { count, worst }.
export function placeSums(document, rows) {
    const sums = new Map(document.places.map(({ id }) => [id, { count: 0, worst: undefined }]))
    for (const point of document.points) {
        const sum = sums.get(point.place)
        if (!sum) continue
        sum.count++
        sum.worst = worse(sum.worst, rows.get(point.id)?.verdict)
    }
    return sums
}

// Ids of the points from one line to another, both included, whichever comes first.
export function idsBetween(lines, from, to) {
    const [first, last] = from < to ? [from, to] : [to, from]
    return lines.slice(Math.max(0, first), last + 1).filter((line) => !(line instanceof Heading)).map(({ id }) => id)
}

// Index of the first line after `at`, round the end, whose point does not fit; -1 when all fit.
export function nextNotFitting(lines, rows, at) {
    for (let step = 1; step <= lines.length; step++) {
        const index = (at + step + lines.length) % lines.length
        const line = lines[index]
        const verdict = line instanceof Heading ? undefined : rows.get(line.id)?.verdict
        if (verdict && verdict !== 'fits') return index
    }
    return -1
}
