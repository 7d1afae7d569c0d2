// SPDX-License-Identifier: MIT
//
// Shapes of a plan as the editor moves, turns and resizes them. Metres, y upwards, as in docs/plan.md; pure.
// Only for editing: what a shape means for zones is the core's.
//
//     shapeOf(feature)        { form: 'outline' | 'round' | 'line' | 'spot' | 'slope', … }, null when it has no usable one
//     moved(feature, 0.1, 0)  the same thing further right; keys that are not understood stay as they are

// Takes away what adding floats leaves behind, far below what anybody measures.
export const tidy = (value) => Math.round(value * 1e6) / 1e6 + 0
export const toMillimetre = (value) => Math.round(value * 1e3) / 1e3 + 0

export const distance = (a, b) => Math.hypot(a[0] - b[0], a[1] - b[1])
export const middle = (a, b) => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]

const isSpot = (spot) => Array.isArray(spot) && spot.length >= 2 && spot.every(Number.isFinite)
const isArc = (corner) => Boolean(corner) && isSpot(corner.to_m) && isSpot(corner.through_m)
const isOutline = (corners) => Array.isArray(corners) && corners.length >= 2 && corners.every((corner) => isSpot(corner) || isArc(corner))

// The corner itself, of an arc its end.
export const spotOf = (corner) => (Array.isArray(corner) ? corner : corner.to_m)
export const throughOf = (corner) => (Array.isArray(corner) ? null : corner.through_m)

export function shapeOf(owner) {
    if (isOutline(owner.outline_m)) return { form: 'outline', corners: owner.outline_m }
    if (isSpot(owner.centre_m) && owner.radius_m > 0) return { form: 'round', centre: owner.centre_m, radius: owner.radius_m }
    if (isSpot(owner.from_m) && isSpot(owner.to_m)) return { form: 'line', from: owner.from_m, to: owner.to_m }
    if (isSpot(owner.at_m)) return { form: 'spot', at: owner.at_m }
    if (Array.isArray(owner.through_m) && owner.through_m.length === 3 && owner.through_m.every(isSpot)) return { form: 'slope', places: owner.through_m }
    return null
}

// --- edges and arcs -------------------------------------------------------------------------------------------------

// Edge i ends at corner i; { from, to, through }.
export const edgesOf = (corners) =>
    corners.map((corner, i) => ({ from: spotOf(corners[(i + corners.length - 1) % corners.length]), to: spotOf(corner), through: throughOf(corner) }))

// The circle through three places: { centre, radius, left, sweep } (sweep in radians, left: anticlockwise); null on a line.
export function arcOf(from, through, to) {
    const [ax, ay] = [through[0] - from[0], through[1] - from[1]]
    const [bx, by] = [to[0] - from[0], to[1] - from[1]]
    const cross = ax * by - ay * bx
    if (Math.abs(cross) < 1e-9) return null
    const [a2, b2] = [ax * ax + ay * ay, bx * bx + by * by]
    const centre = [from[0] + (by * a2 - ay * b2) / (2 * cross), from[1] + (ax * b2 - bx * a2) / (2 * cross)]
    const angle = (p) => Math.atan2(p[1] - centre[1], p[0] - centre[0])
    const left = cross > 0
    const turn = ((angle(to) - angle(from)) * (left ? 1 : -1) + 4 * Math.PI) % (2 * Math.PI)
    return { centre, radius: distance(centre, from), left, sweep: turn || 2 * Math.PI }
}

const ARC_STEP = Math.PI / 24

function arcPlaces({ from, to, through }) {
    const arc = arcOf(from, through, to)
    if (!arc) return [to]
    const count = Math.max(2, Math.ceil(arc.sweep / ARC_STEP))
    const start = Math.atan2(from[1] - arc.centre[1], from[0] - arc.centre[0])
    return Array.from({ length: count }, (_, i) => {
        if (i === count - 1) return to
        const angle = start + ((i + 1) / count) * arc.sweep * (arc.left ? 1 : -1)
        return [arc.centre[0] + arc.radius * Math.cos(angle), arc.centre[1] + arc.radius * Math.sin(angle)]
    })
}

const circlePlaces = ([x, y], radius) => Array.from({ length: 48 }, (_, i) => [x + radius * Math.cos(i * ARC_STEP), y + radius * Math.sin(i * ARC_STEP)])

// Places along a shape, near enough for pointing at it.
export function placesOf(shape) {
    if (shape.form === 'outline') return edgesOf(shape.corners).flatMap((edge) => (edge.through ? arcPlaces(edge) : [edge.to]))
    if (shape.form === 'round') return circlePlaces(shape.centre, shape.radius)
    if (shape.form === 'line') return [shape.from, shape.to]
    if (shape.form === 'spot') return [shape.at]
    return shape.places
}

// { low: [x, y], high: [x, y] } of places; null of none.
export function boundsOf(places) {
    if (!places.length) return null
    const [xs, ys] = [places.map(([x]) => x), places.map(([, y]) => y)]
    return { low: [Math.min(...xs), Math.min(...ys)], high: [Math.max(...xs), Math.max(...ys)] }
}

export function centreOf(shape) {
    const { low, high } = boundsOf(shape.form === 'outline' ? shape.corners.map(spotOf) : placesOf(shape))
    return shape.form === 'round' ? shape.centre : middle(low, high)
}

// --- distances ------------------------------------------------------------------------------------------------------

export function nearestOn(p, a, b) {
    const [dx, dy] = [b[0] - a[0], b[1] - a[1]]
    const square = dx * dx + dy * dy
    const share = square ? Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square)) : 0
    return [a[0] + share * dx, a[1] + share * dy]
}

// How far p is from a straight piece; asked so often while a thing is dragged that it makes nothing.
export function distanceToPiece(p, a, b) {
    const dx = b[0] - a[0]
    const dy = b[1] - a[1]
    const square = dx * dx + dy * dy
    const share = square ? Math.max(0, Math.min(1, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / square)) : 0
    return Math.hypot(p[0] - a[0] - share * dx, p[1] - a[1] - share * dy)
}

export function isInside(p, places) {
    let inside = false
    for (let i = 0, j = places.length - 1; i < places.length; j = i++) {
        const [[xi, yi], [xj, yj]] = [places[i], places[j]]
        if (yi > p[1] !== yj > p[1] && p[0] < ((xj - xi) * (p[1] - yi)) / (yj - yi) + xi) inside = !inside
    }
    return inside
}

// To the edge of a shape, from inside too.
export function distanceToEdge(p, shape) {
    const places = placesOf(shape)
    if (places.length === 1 || shape.form === 'slope') return Math.min(...places.map((place) => distance(p, place)))
    const closed = shape.form === 'outline' || shape.form === 'round'
    const pairs = places.slice(closed ? 0 : 1).map((to, i) => [places[(i + (closed ? places.length - 1 : 0)) % places.length], to])
    return Math.min(...pairs.map(([a, b]) => distanceToPiece(p, a, b)))
}

export const encloses = (p, shape) => (shape.form === 'outline' || shape.form === 'round') && isInside(p, placesOf(shape))

// A place well inside a room: its middle, or where most room is when that lies in a wall or outside (an L).
export function insideOf(shape) {
    const places = placesOf(shape)
    const { low, high } = boundsOf(places)
    const roomAt = (p) => (isInside(p, places) ? distanceToEdge(p, shape) : 0)
    const steps = [0.5, ...Array.from({ length: 12 }, (_, i) => (i + 0.5) / 12)]
    const spots = steps.flatMap((u) => steps.map((v) => [low[0] + u * (high[0] - low[0]), low[1] + v * (high[1] - low[1])]))
    const enough = Math.min(high[0] - low[0], high[1] - low[1]) / 4
    return roomAt(spots[0]) >= enough ? spots[0] : spots.reduce((best, p) => (roomAt(p) > roomAt(best) + 1e-6 ? p : best))
}

// --- changes --------------------------------------------------------------------------------------------------------

const SPOT_KEYS = ['centre_m', 'at_m', 'from_m', 'to_m']

// Every place of a thing through map(spot) -> [x, y]; heights that a spot bears stay.
function mapped(owner, map) {
    const spot = (old) => [...map(old).map(tidy), ...old.slice(2)]
    const corner = (old) => (Array.isArray(old) ? spot(old) : { ...old, to_m: spot(old.to_m), through_m: spot(old.through_m) })
    const next = { ...owner }
    for (const key of SPOT_KEYS) if (isSpot(owner[key])) next[key] = spot(owner[key])
    if (isOutline(owner.outline_m)) next.outline_m = owner.outline_m.map(corner)
    if (shapeOf(owner)?.form === 'slope') next.through_m = owner.through_m.map(spot)
    return next
}

export const moved = (owner, dx, dy) => (dx || dy ? mapped(owner, ([x, y]) => [x + dx, y + dy]) : owner)

// Anticlockwise, about a place or about its own middle.
export function turned(owner, degrees, about) {
    const shape = shapeOf(owner)
    if (!shape || !(degrees % 360)) return owner
    const [cx, cy] = about ?? centreOf(shape)
    const quarter = ((degrees % 360) + 360) % 360
    const exact = { 90: [0, 1], 180: [-1, 0], 270: [0, -1] }[quarter]
    const [cos, sin] = exact ?? [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)]
    return mapped(owner, ([x, y]) => [cx + (x - cx) * cos - (y - cy) * sin, cy + (x - cx) * sin + (y - cy) * cos])
}

// --- rectangles -----------------------------------------------------------------------------------------------------

export const rectangle = (x, y, width, depth) => [[x, y], [x + width, y], [x + width, y + depth], [x, y + depth]].map((spot) => spot.map(tidy))

const RIGHT_WITHIN_M = 0.002

// { corner, width, depth, degrees } when an outline is a rectangle: from its first corner along its first edge.
export function rectOf(corners) {
    if (corners?.length !== 4 || !corners.every(Array.isArray)) return null
    const [a, b, c, d] = corners
    const parallel = Math.hypot(a[0] + c[0] - b[0] - d[0], a[1] + c[1] - b[1] - d[1])
    if (parallel > RIGHT_WITHIN_M || Math.abs(distance(a, c) - distance(b, d)) > RIGHT_WITHIN_M) return null
    const degrees = (Math.atan2(b[1] - a[1], b[0] - a[0]) * 180) / Math.PI
    const left = (b[0] - a[0]) * (d[1] - a[1]) - (b[1] - a[1]) * (d[0] - a[0]) > 0
    return { corner: a, width: distance(a, b), depth: distance(a, d), degrees, left }
}

const directionOf = (degrees) => {
    const quarter = { 0: [1, 0], 90: [0, 1], 180: [-1, 0], '-180': [-1, 0], '-90': [0, -1] }[Math.abs(degrees - Math.round(degrees)) < 1e-9 ? Math.round(degrees) : NaN]
    return quarter ?? [Math.cos((degrees * Math.PI) / 180), Math.sin((degrees * Math.PI) / 180)]
}

// Of another size, with corner `fixed` (0 to 3) staying where it is; heights that corners bear stay.
export function rectResized(corners, width, depth, fixed = 0) {
    const { degrees, left } = rectOf(corners)
    const along = directionOf(degrees)
    const across = left ? [-along[1], along[0]] : [along[1], -along[0]]
    const [i, j] = [[0, 0], [1, 0], [1, 1], [0, 1]][fixed]
    const at = ([u, v]) => [0, 1].map((axis) => tidy(corners[fixed][axis] + (u - i) * width * along[axis] + (v - j) * depth * across[axis]))
    return [[0, 0], [1, 0], [1, 1], [0, 1]].map((share, k) => [...at(share), ...corners[k].slice(2)])
}

// Corner `index` of a rectangle drawn to a place, the opposite one fixed.
export function rectStretched(corners, index, p, least = 0.01) {
    const { degrees, left } = rectOf(corners)
    const fixed = (index + 2) % 4
    const along = directionOf(degrees)
    const across = left ? [-along[1], along[0]] : [along[1], -along[0]]
    const [dx, dy] = [p[0] - corners[fixed][0], p[1] - corners[fixed][1]]
    const [i, j] = [[0, 0], [1, 0], [1, 1], [0, 1]][index]
    const width = (dx * along[0] + dy * along[1]) * (i ? 1 : -1)
    const depth = (dx * across[0] + dy * across[1]) * (j ? 1 : -1)
    return rectResized(corners, Math.max(least, tidy(width)), Math.max(least, tidy(depth)), fixed)
}
