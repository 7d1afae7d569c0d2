// SPDX-License-Identifier: MIT
//
// Which points a list shows, and in which order: filters, sorting and groups. Pure.
//
//     listOf({ points, rows, placeNames }, { text, verdicts, place, sort, down, group })
//         -> [{ head: 'Kitchen', count: 3 }, { point, row }, …]

import { verdicts } from '../parts/verdict-order.js'

const rank = new Map(verdicts.map((verdict, index) => [verdict, index]))

// What a column sorts by; numbers inside texts count as numbers (P2 before P10).
const keys = {
    id: ({ point }) => point.id,
    name: ({ point }) => point.name ?? '',
    place: ({ point }, { placeNames }) => placeNames.get(point.place) ?? point.place ?? '',
    needed: ({ row }) => row?.needed ?? '',
    marked: ({ row }) => row?.marked ?? '',
    verdict: ({ row }) => rank.get(row?.verdict) ?? verdicts.length,
    deciding: ({ row }) => row?.deciding ?? ''
}

const collator = new Intl.Collator(undefined, { numeric: true, sensitivity: 'base' })
const compared = (a, b) => (typeof a === 'number' ? a - b : collator.compare(a, b))

function sorted(list, { sort, down }, context) {
    const key = keys[sort]
    if (!key) return list
    const keyed = list.map((entry, index) => ({ entry, index, by: key(entry, context) }))
    keyed.sort((a, b) => (down ? -1 : 1) * compared(a.by, b.by) || a.index - b.index)
    return keyed.map(({ entry }) => entry)
}

const searchText = new WeakMap()

function textOf(point, placeNames) {
    if (!searchText.has(point)) searchText.set(point, [point.id, point.name, point.kind, placeNames.get(point.place)].join(' ').toLowerCase())
    return searchText.get(point)
}

function passes({ text, verdicts: wanted, place }, placeNames) {
    const parts = text.toLowerCase().split(/\s+/).filter(Boolean)
    return ({ point, row }) => (!place || point.place === place)
        && (!wanted.length || wanted.includes(row?.verdict))
        && (!parts.length || parts.every((part) => textOf(point, placeNames).includes(part)))
}

function grouped(list, group, context) {
    const key = keys[group]
    if (!key) return list
    const groups = new Map()
    for (const entry of list) {
        const by = group === 'verdict' ? entry.row?.verdict ?? '' : key(entry, context)
        if (!groups.has(by)) groups.set(by, [])
        groups.get(by).push(entry)
    }
    const order = group === 'place' ? [...groups.keys()] : [...groups.keys()].sort((a, b) => (group === 'verdict' ? rank.get(a) - rank.get(b) : collator.compare(a, b)))
    return order.flatMap((by) => [{ head: by || 'nothing yet', group, count: groups.get(by).length }, ...groups.get(by)])
}

export function listOf({ points, rows, placeNames }, choice) {
    const entries = points.map((point) => ({ point, row: rows.get(point.id) }))
    const context = { placeNames }
    return grouped(sorted(entries.filter(passes(choice, placeNames)), choice, context), choice.group, context)
}

// { barred, short, unknown, fits } of all points, each as often as it stands in the list of points.
export function countVerdicts(points, rows) {
    const counted = Object.fromEntries(verdicts.map((verdict) => [verdict, 0]))
    for (const { id } of points) if (rows.has(id)) counted[rows.get(id).verdict]++
    return counted
}

// Map: place id -> { count, worst }.
export function placeSums(points, rows) {
    const sums = new Map()
    for (const { id, place } of points) {
        const sum = sums.get(place) ?? { count: 0, worst: undefined }
        const verdict = rows.get(id)?.verdict
        sum.count++
        if (verdict && (sum.worst === undefined || rank.get(verdict) < rank.get(sum.worst))) sum.worst = verdict
        sums.set(place, sum)
    }
    return sums
}
