// SPDX-License-Identifier: MIT
//
// A plan in words, for lists, readers of the screen and the live region. Pure.

import { boundsOf, centreOf, distance, placesOf, rectOf, spotOf } from './shapes.js'

// Metres to the millimetre, at least two decimals: 1.70, 0.125.
export function metres(value) {
    const text = (Math.round(value * 1000) / 1000).toFixed(3)
    return text.endsWith('0') ? text.slice(0, -1) : text
}

// A sentence of the core, to stand by itself.
export const sentence = (text) => text.charAt(0).toUpperCase() + text.slice(1)

const zoneWords = (zone) => (/^\d/.test(zone) ? `zone ${zone}` : zone === 'outside' ? 'outside the zones' : zone === 'unknown' ? 'zone unknown' : zone)

// Of a finding: "zone 2", or "zone 1 or 2" where two are left.
export function zoneOf({ zone, position }) {
    const left = position?.could_be ?? []
    return zone === 'unknown' && left.length > 1 ? `zone ${left.join(' or ')}` : zoneWords(zone)
}

export const heightWords = ({ at_m: at }) => (Number.isFinite(at?.[2]) ? `${metres(at[2])} m up` : 'height not measured')

export const lengthOf = (shape) => distance(shape.from, shape.to)

export function sizeWords(shape) {
    if (!shape) return ''
    if (shape.form === 'round') return `round, radius ${metres(shape.radius)} m`
    if (shape.form === 'line') return `${metres(lengthOf(shape))} m long`
    if (shape.form === 'spot') return ''
    if (shape.form === 'slope') return 'through three places'
    const rect = rectOf(shape.corners)
    if (rect) return `${metres(rect.width)} × ${metres(rect.depth)} m`
    const { low, high } = boundsOf(placesOf(shape))
    return `${shape.corners.length} corners, ${metres(high[0] - low[0])} × ${metres(high[1] - low[1])} m over all`
}

// The place that stands for a shape in lists: its lower left, its middle, its first end.
export function anchorOf(shape) {
    if (shape.form === 'outline') return boundsOf(shape.corners.map(spotOf)).low
    if (shape.form === 'line') return shape.from
    if (shape.form === 'slope') return shape.places[0]
    return centreOf(shape)
}

export const placeWords = (shape) => {
    if (!shape) return ''
    const at = anchorOf(shape)
    const to = shape.form === 'line' ? ` to ${metres(shape.to[0])}, ${metres(shape.to[1])}` : ''
    return `at ${metres(at[0])}, ${metres(at[1])}${to}`
}

export const itemWords = ({ label, shape, owner, sort }) => {
    const height = sort === 'point' && shape ? `, ${heightWords(owner)}` : ''
    return [label, sizeWords(shape), placeWords(shape)].filter(Boolean).join(', ') + height
}

// "Socket is in zone 2 now." for every point whose zone changed; findings before and after, by id.
export function zoneChanges(before, after) {
    const was = new Map(before.map(({ id, zone }) => [id, zone]))
    return after.filter(({ id, zone }) => was.has(id) && was.get(id) !== zone).map(({ id, name, zone }) => `${name || id}: ${zoneWords(zone)} now`).join('. ')
}

// Near enough to a zone to be worth showing the way: within half a metre of its limit.
const NEAR_M = 0.5

// The ways of a finding that are drawn: [{ places, metres, taut }]. taut: the string that a zone is measured by; else the
// straight line to zone 1.
export function ways(finding, isChosen) {
    const { position } = finding
    if (!position) return []
    const found = []
    const { path_m: path, distance_m: far, limit_m: limit, zone1_path_m: path1, zone1_distance_m: far1 } = position
    const isNear = position.zone === 'outside' && limit !== null && far > limit && far - limit <= NEAR_M
    const isBarred = finding.verdict === 'barred'
    if ((isBarred || isNear || isChosen) && path?.length > 1) found.push({ places: path, metres: far, taut: true })
    const isOther = path1?.length > 1 && far1 > 0 && (!path?.length || Math.abs(far1 - far) > 5e-4)
    if ((isBarred || isChosen) && isOther) found.push({ places: path1, metres: far1, taut: false })
    return found
}

// Where the length of a way is written, and along what: on its longest leg, the straight line's nearer to its end.
export function wayLabel({ places, taut }) {
    const legs = places.slice(1).map((to, i) => [places[i], to])
    const [a, b] = legs.reduce((best, leg) => (distance(...leg) > distance(...best) ? leg : best))
    const share = taut ? 0.42 : 0.7
    return { at: [a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share], along: [b[0] - a[0], b[1] - a[1]] }
}
