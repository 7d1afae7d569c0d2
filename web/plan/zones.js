// SPDX-License-Identifier: MIT
//
// How the zones that the core gives are laid out on the screen: which part of each is drawn, in which order, and where its
// number reads best. As in the core's own drawing (src/core/draw/plan_zones.c): the largest part, what reaches higher
// dashed, zones on the same ground under one number. Pure.

import { distance, distanceToPiece, isInside } from './shapes.js'

const SAME_M2 = 1e-6

// A ring as places; arcs in small steps.
function ringPlaces(ring) {
    return ring.flatMap(({ from_m: from, to_m: to, centre_m: centre, radius_m: radius, turn }) => {
        if (!centre) return [to]
        const angle = (p) => Math.atan2(p[1] - centre[1], p[0] - centre[0])
        const way = turn === 'left' ? 1 : -1
        const sweep = ((angle(to) - angle(from)) * way + 4 * Math.PI) % (2 * Math.PI) || 2 * Math.PI
        const count = Math.max(2, Math.ceil(sweep / 0.35))
        return Array.from({ length: count }, (_, i) => (i === count - 1 ? to : [0, 1].map((axis) => centre[axis] + radius * (axis ? Math.sin : Math.cos)(angle(from) + (way * sweep * (i + 1)) / count))))
    })
}

const largest = (parts) => parts.reduce((best, part) => (!best || part.area_m2 > best.area_m2 ? part : best), null)

const sameGround = (a, b) => Math.abs(a.area_m2 - b.area_m2) < SAME_M2
    && a.rings.flat().every((one) => b.rings.flat().some((other) => distance(one.from_m, other.from_m) < 1e-6))

const isFinite_ = (value) => typeof value === 'number'

// From where to where parts reach; of zones on the same ground, of both.
const rangeOf = (parts) => {
    const from = Math.min(...parts.map(({ from_m: low }) => (isFinite_(low) ? low : -Infinity)))
    const to = Math.max(...parts.map(({ to_m: high }) => (isFinite_(high) ? high : Infinity)))
    return { from_m: from, to_m: to }
}

// [{ word, words, part, higher, range }], strictest first; words are those drawn on the same ground.
export function shownZones(zones) {
    const all = (zones ?? []).map(({ zone, parts }) => ({ word: zone, part: largest(parts), parts })).filter(({ part }) => part)
    return all.map((zone, i) => {
        const below = i > 0 && sameGround(all[i - 1].part, zone.part) ? all[i - 1] : null
        const hidden = i + 1 < all.length && sameGround(all[i + 1].part, zone.part)
        const higher = zone.parts.filter((part) => part !== zone.part && part.from_m >= zone.part.to_m - 1e-6 && Math.abs(part.area_m2 - zone.part.area_m2) > SAME_M2)
        return { ...zone, words: below ? [below.word, zone.word] : [zone.word], higher, hidden, range: rangeOf([...(below?.parts ?? []), ...zone.parts]) }
    }).filter(({ hidden }) => !hidden)
}

const STEPS = 18
const MIDDLE_LIKED = 0.02 // of two places with the same room, the one nearer to the middle

const WIDE = 1.6 // a number with its dots is wider than high

// How far p is from rings and places, unless it is no more than `enough`: then something not above that.
function roomAt(p, rings, clear, enough) {
    let room = Infinity
    for (const [x, y] of clear) room = Math.min(room, Math.hypot((p[0] - x) / WIDE, p[1] - y))
    for (const places of rings) {
        for (let i = 0, j = places.length - 1; i < places.length && room > enough; j = i++) room = Math.min(room, distanceToPiece(p, places[j], places[i]))
    }
    return room
}

const holds = (p, rings) => rings.reduce((inside, ring) => inside !== isInside(p, ring), false)

function boundsOfRings(rings) {
    const all = rings.flat()
    return [0, 1].map((axis) => all.reduce(([low, high], p) => [Math.min(low, p[axis]), Math.max(high, p[axis])], [Infinity, -Infinity]))
}

// Where the number of each shown zone reads best: the place inside it with most room to its edge, to stricter zones and to
// the places to be kept clear; null where it has none.
export function numberPlaces(shown, clear = []) {
    const rings = shown.map(({ part }) => part.rings.map(ringPlaces))
    return shown.map((_, zone) => {
        const [[left, right], [low, high]] = boundsOfRings(rings[zone])
        const stricter = rings.slice(0, zone)
        const edges = rings.slice(0, zone + 1).flat()
        let best = null
        for (let i = 0; i < STEPS * STEPS; i++) {
            const p = [left + (((i % STEPS) + 0.5) / STEPS) * (right - left), low + ((Math.floor(i / STEPS) + 0.5) / STEPS) * (high - low)]
            if (!holds(p, rings[zone]) || stricter.some((other) => holds(p, other))) continue
            const off = MIDDLE_LIKED * distance(p, [(left + right) / 2, (low + high) / 2])
            const room = roomAt(p, edges, clear, best ? best.score + off : 0)
            if (!best || room - off > best.score + 1e-6) best = { at: p, room, score: room - off }
        }
        return best
    })
}
