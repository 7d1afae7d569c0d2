// SPDX-License-Identifier: MIT
//
// Where a thing or a point stands when it is put in, before anybody moves it: where such a thing usually is, and clear of
// what is there already. Only a first guess, to be measured; what it means for zones is the core's. Pure.
//
//     placedThing('bath', plan)              a bath in the first corner that is free
//     placedPoint('switch', plan, points)    [x, y] at the wall, furthest from all else

import { roomsOf } from './items.js'
import { boundsOf, centreOf, distance, distanceToEdge, edgesOf, encloses, insideOf, isInside, middle, placesOf, rectangle, shapeOf, tidy } from './shapes.js'
import { isAtCeiling, newThing, thingOf } from './things.js'

const onGrid = (value) => tidy(Math.round(value * 20) / 20)
const roomOf = (plan) => roomsOf(plan).map(shapeOf).find(Boolean)
const featuresOf = (plan) => (Array.isArray(plan.features) ? plan.features : []).filter(Boolean)
const shapesOf = (plan) => featuresOf(plan).map(shapeOf).filter(Boolean)

// --- rectangles in corners and along walls --------------------------------------------------------------------------

const AT_WALL = new Set(['bath', 'shower-basin', 'washbasin', 'sauna-heater'])
const STEP_M = 0.25
const TOUCH_M = 0.02

function stepsBetween(from, to) {
    const count = Math.max(0, Math.floor((to - from) / STEP_M))
    return [from, to, ...Array.from({ length: count }, (_, i) => onGrid(from + (i + 1) * STEP_M))]
}

// Lower left corners of a rectangle that leans on the bounds of a room; true corners first.
function leaningSpots({ low, high }, [width, depth]) {
    const [right, top] = [high[0] - width, high[1] - depth]
    if (right < low[0] || top < low[1]) return []
    const level = stepsBetween(low[0], right).flatMap((x) => [[x, low[1]], [x, top]])
    const upright = stepsBetween(low[1], top).flatMap((y) => [[low[0], y], [right, y]])
    return [...level, ...upright]
}

const overlap = (a, b) => [0, 1].every((axis) => a.low[axis] < b.high[axis] - TOUCH_M && b.low[axis] < a.high[axis] - TOUCH_M)

function fits(outline, room, taken) {
    const centre = middle(outline[0], outline[2])
    const within = [...outline, centre].every((spot) => isInside(spot.map((value, axis) => value + (centre[axis] - value) * 0.05), placesOf(room)))
    return within && !taken.some((bounds) => overlap(boundsOf(outline), bounds))
}

function atWall(kind, plan, room) {
    const [width, depth] = thingOf(kind).size
    const taken = shapesOf(plan).filter(({ form }) => form !== 'line' && form !== 'spot').map((shape) => boundsOf(placesOf(shape)))
    const bounds = boundsOf(placesOf(room))
    const outlines = [[width, depth], [depth, width]].flatMap((size) => leaningSpots(bounds, size).map(([x, y]) => rectangle(x, y, ...size)))
    const outline = outlines.find((each) => fits(each, room, taken))
    return outline && { kind, outline_m: outline }
}

// --- in walls -------------------------------------------------------------------------------------------------------

const VESSELS = new Set(['bath', 'shower-basin'])
const vesselsOf = (plan) => featuresOf(plan).filter(({ kind }) => VESSELS.has(kind)).map((owner) => ({ owner, shape: shapeOf(owner) })).filter(({ shape }) => shape)

// In the middle of a wall where nothing is yet, of the wall furthest from the vessels.
function inWall(kind, plan, room) {
    if (room.form !== 'outline') return undefined
    const { length } = thingOf(kind)
    const others = featuresOf(plan).filter((each) => thingOf(each.kind).onWall).map(shapeOf).filter((shape) => shape?.form === 'line')
    const vessels = vesselsOf(plan).map(({ shape }) => centreOf(shape))
    const far = (spot) => Math.min(...vessels.map((vessel) => distance(vessel, spot)), Infinity)
    const walls = edgesOf(room.corners).filter(({ from, to, through }) => !through && distance(from, to) >= length + 0.1).map((edge) => ({ ...edge, at: middle(edge.from, edge.to) }))
    const free = walls.filter(({ at }) => others.every(({ from, to }) => distance(at, middle(from, to)) > (length + distance(from, to)) / 2))
    const best = free.sort((a, b) => far(b.at) - far(a.at))[0]
    if (!best) return undefined
    const along = [0, 1].map((axis) => ((best.to[axis] - best.from[axis]) / distance(best.from, best.to)) * (length / 2))
    return { ...newThing(kind, best.at), from_m: best.at.map((value, axis) => tidy(value - along[axis])), to_m: best.at.map((value, axis) => tidy(value + along[axis])) }
}

// --- at a vessel ----------------------------------------------------------------------------------------------------

const isNear = (a, b) => Math.abs(a - b) < 0.05

// The sides of a vessel's bounds that lie off the walls: [from, to], from the end that is nearer to a wall.
function openSides(shape, room) {
    const { low, high } = boundsOf(placesOf(shape))
    const walls = boundsOf(placesOf(room))
    const [x, y] = [[low[0], high[0]], [low[1], high[1]]]
    const first = (axis) => (isNear([x, y][axis][1], walls.high[axis]) ? [1, 0] : [0, 1])
    const level = y.filter((value, end) => !isNear(value, [walls.low, walls.high][end][1])).map((value) => first(0).map((end) => [x[end], value]))
    const upright = x.filter((value, end) => !isNear(value, [walls.low, walls.high][end][0])).map((value) => first(1).map((end) => [value, y[end]]))
    return [...level, ...upright].sort((a, b) => distance(...b) - distance(...a))
}

function partition(kind, plan, room) {
    const { length, thickness } = thingOf(kind)
    const others = featuresOf(plan).filter((each) => each.kind === kind).map(shapeOf).filter((shape) => shape?.form === 'line')
    const sides = vesselsOf(plan).flatMap(({ shape }) => openSides(shape, room))
    const side = sides.find(([from]) => !others.some((line) => distance(line.from, from) < 0.05 || distance(line.to, from) < 0.05))
    if (!side) return undefined
    const share = Math.min(1, length / distance(...side))
    return { kind, from_m: side[0].map(tidy), to_m: side[0].map((value, axis) => tidy(value + (side[1][axis] - value) * share)), thickness_m: thickness }
}

// Over the middle of a basin, at the head of a bath.
function outlet(kind, plan) {
    const outlets = featuresOf(plan).filter((each) => each.kind === kind).map(shapeOf).filter(Boolean)
    const free = vesselsOf(plan).find(({ shape }) => !outlets.some(({ at }) => at && encloses(at, shape)))
    if (!free) return undefined
    const { low, high } = boundsOf(placesOf(free.shape))
    const [cx, cy] = middle(low, high)
    const head = high[0] - low[0] >= high[1] - low[1] ? [low[0] + 0.1, cy] : [cx, low[1] + 0.1]
    return { kind, at_m: (free.owner.kind === 'bath' ? head : [cx, cy]).map(tidy) }
}

function usual(kind, plan, room) {
    if (AT_WALL.has(kind)) return atWall(kind, plan, room)
    if (thingOf(kind).onWall) return inWall(kind, plan, room)
    return { partition, 'shower-outlet': outlet }[kind]?.(kind, plan, room)
}

export function placedThing(kind, plan) {
    const room = roomOf(plan)
    return (room && usual(kind, plan, room)) ?? newThing(kind, room ? insideOf(room) : [1, 1])
}

// --- points ---------------------------------------------------------------------------------------------------------

const OFF_WALL_M = 0.05
const APART_M = 0.5

// Along the walls, a little inside; nothing in the corners.
function wallSpots(room) {
    const places = placesOf(room)
    return edgesOf(room.corners).filter(({ through }) => !through).flatMap(({ from, to }) => {
        const length = distance(from, to)
        const along = [0, 1].map((axis) => (to[axis] - from[axis]) / length)
        return stepsBetween(0.3, length - 0.3).map((far) => [[1, -1], [-1, 1]].map((side) => [0, 1].map((axis) => onGrid(from[axis] + along[axis] * far + side[axis] * along[1 - axis] * OFF_WALL_M)))
            .find((spot) => isInside(spot, places))).filter(Boolean)
    })
}

function insideSpots(room) {
    const { low, high } = boundsOf(placesOf(room))
    const [xs, ys] = [0, 1].map((axis) => [1, 2, 3, 4, 5, 6, 7].map((part) => onGrid(low[axis] + ((high[axis] - low[axis]) * part) / 8)))
    return [insideOf(room).map(onGrid), ...xs.flatMap((x) => ys.map((y) => [x, y])).filter((spot) => isInside(spot, placesOf(room)))]
}

export function placedPoint(kind, plan, points) {
    const room = roomOf(plan)
    if (!room) return [1, 1]
    const placed = points.map(({ at_m: at }) => at).filter((at) => Array.isArray(at))
    const fromPoints = (spot) => Math.min(...placed.map((at) => distance(at, spot)), Infinity)
    const clear = (spot) => Math.min(fromPoints(spot), ...shapesOf(plan).map((shape) => (encloses(spot, shape) ? 0 : distanceToEdge(spot, shape))))
    const inside = insideSpots(room)
    const walls = room.form === 'outline' && !isAtCeiling(kind) ? wallSpots(room) : []
    if (!walls.length) return inside.find((spot) => fromPoints(spot) >= APART_M) ?? inside[0]
    return walls.reduce((best, spot) => (clear(spot) > clear(best) + 1e-6 ? spot : best))
}
