// SPDX-License-Identifier: MIT
//
// Random rooms for the zone oracle: plans as the job document writes them, and points in them. A seed gives the same
// rooms everywhere. A plan is made along the axes, then turned and moved as a whole.

import { add, arcPoints, between, distance, distanceToEdges, edgesOf, isInside, left, pointsAlong, polygonOf, sub, times, unit } from './plane.mjs'
import { isFree, rectangleRound } from './string.mjs'

export function chance(start) {
    let seed = start >>> 0
    const next = () => {
        seed = (Math.imul(seed, 1664525) + 1013904223) >>> 0
        return seed / 4294967296
    }
    for (let i = 0; i < 8; i++) next()
    return {
        between: (low, high) => low + (high - low) * next(),
        below: (limit) => Math.floor(limit * next()),
        odds: (part) => next() < part,
        pick: (list) => list[Math.floor(list.length * next())]
    }
}

/* --- rooms ------------------------------------------------------------------------------------------------------- */

function rectangular(dice) {
    const [w, d] = [dice.between(2, 5), dice.between(2, 4)]
    return [[0, 0], [w, 0], [w, d], [0, d]]
}

function lShaped(dice) {
    const [w, d] = [dice.between(3, 5), dice.between(2.6, 4)]
    const [x, y] = [w * dice.between(0.4, 0.7), d * dice.between(0.4, 0.7)]
    return [[0, 0], [w, 0], [w, y], [x, y], [x, d], [0, d]]
}

function manyCornered(dice) {
    const count = 5 + dice.below(4)
    return Array.from({ length: count }, (_, i) => {
        const turn = (i + dice.between(0.1, 0.9)) / count * 2 * Math.PI
        return times([Math.cos(turn), Math.sin(turn)], dice.between(1.5, 2.6))
    })
}

function withBay(dice) {
    const [w, d] = [dice.between(2.5, 4), dice.between(2, 3)]
    return [[0, 0], [w, 0], { to_m: [w, d], through_m: [w + dice.between(0.2, 0.5), d / 2] }, [0, d]]
}

const shapes = [rectangular, rectangular, lShaped, lShaped, manyCornered, withBay]

/* --- features ---------------------------------------------------------------------------------------------------- */

const isWithin = (polygon, points) => points.every((p) => isInside(polygon, p) || distanceToEdges(edgesOf(polygon), p) < 1e-9)

// A place on a wall: a point, the way along the wall and the way into the room.
function onWall(dice, room, least = 0) {
    const edges = edgesOf(room).filter(([a, b]) => distance(a, b) > least)
    const [a, b] = dice.pick(edges.length > 0 ? edges : edgesOf(room))
    const along = unit(sub(b, a))
    return { point: between(a, b, dice.between(0, 1)), start: a, length: distance(a, b), along, inwards: left(along) }
}

const boxAt = (corner, along, across, w, d) =>
    [corner, add(corner, times(along, w)), add(corner, add(times(along, w), times(across, d))), add(corner, times(across, d))]

function vesselAtWall(dice, room) {
    const [w, d] = dice.odds(0.6) ? [dice.between(1.3, 1.8), dice.between(0.65, 0.9)] : [dice.between(0.7, 1), dice.between(0.7, 1)]
    const wall = onWall(dice, room, w)
    const at = dice.odds(0.5) ? 0 : dice.between(0, Math.max(0, wall.length - w))
    return { outline_m: boxAt(add(wall.start, times(wall.along, at)), wall.along, wall.inwards, w, d) }
}

function vesselFree(dice, room) {
    const turn = dice.between(0, Math.PI)
    const along = [Math.cos(turn), Math.sin(turn)]
    const middle = between(dice.pick(room), dice.pick(room), dice.between(0.2, 0.8))
    return { outline_m: boxAt(middle, along, left(along), dice.between(1, 1.7), dice.between(0.6, 0.8)) }
}

const tub = (dice, room) => ({ centre_m: between(dice.pick(room), dice.pick(room), dice.between(0.3, 0.7)), radius_m: dice.between(0.4, 0.75) })

// A quadrant or a tray with its corner cut off, in a right-angled corner of the room.
function vesselInCorner(dice, room) {
    const i = dice.below(room.length)
    const corner = room[i]
    const along = unit(sub(room[(i + 1) % room.length], corner))
    const across = left(along)
    const size = dice.between(0.8, 1.1)
    const [a, b] = [add(corner, times(along, size)), add(corner, times(across, size))]
    if (dice.odds(0.5)) return { outline_m: [corner, a, { to_m: b, through_m: arcPoints(corner, a, Math.PI / 4, 1)[0] }] }
    const cut = size * dice.between(0.3, 0.6)
    return { outline_m: [corner, a, add(a, times(across, cut)), add(b, times(along, cut)), b] }
}

function vessel(dice, room, kind) {
    const outline = dice.pick([vesselAtWall, vesselAtWall, vesselFree, tub, vesselInCorner])(dice, room)
    if (!isWithin(room, pointsAlong(polygonOf(outline, 1e-3), 0.05))) return undefined
    const bottom = dice.between(0.03, 0.2)
    return { kind, ...outline, bottom_m: bottom, rim_m: bottom + dice.between(0.1, 0.4) }
}

// A curved wall is not where its polygon is: `off` keeps clear of it.
function outlet(dice, room, off = 0) {
    const wall = onWall(dice, room)
    const at = dice.odds(0.6) ? add(wall.point, times(wall.inwards, off)) : add(wall.point, times(wall.inwards, dice.between(0.3, 1)))
    return isWithin(room, [at]) ? { kind: 'shower-outlet', at_m: at, height_m: dice.between(1.8, 2.2), basin: false } : undefined
}

// From a wall, or from nowhere, at any angle; most of them count. `into` a curved wall, as above.
function partition(dice, room, into = 0) {
    const wall = onWall(dice, room)
    const turn = dice.between(0.5, Math.PI - 0.5)
    const way = add(times(wall.along, Math.cos(turn)), times(wall.inwards, Math.sin(turn)))
    const from = dice.odds(0.75) ? sub(wall.point, times(way, into)) : add(wall.point, times(way, dice.between(0.1, 1)))
    const to = add(from, times(way, dice.between(0.3, 1.6)))
    const thickness = dice.pick([0.001, 0.006, 0.01, 0.1, dice.between(0.02, 0.2)])
    const body = rectangleRound(add(from, times(way, 0.1)), to, thickness + 0.02)
    if (!isWithin(room, pointsAlong(body, 0.05))) return undefined
    const height = dice.odds(0.85) ? dice.between(2.3, 2.6) : dice.between(0.9, 2.2)
    return { kind: 'partition', from_m: from, to_m: to, thickness_m: thickness, height_m: height, fixed: dice.odds(0.95) }
}

const toCeiling = (made) => made && { ...made, height_m: 2.6, fixed: true }

function solid(dice, room) {
    const wall = onWall(dice, room, 0.6)
    const off = add(wall.point, times(wall.inwards, dice.between(0.4, 1)))
    if (dice.odds(0.4)) return { kind: 'column', centre_m: off, radius_m: dice.between(0.1, 0.25) }
    const corner = dice.odds(0.5) ? wall.point : add(wall.point, times(wall.inwards, dice.between(0.2, 1)))
    const outline = { outline_m: boxAt(corner, wall.along, wall.inwards, dice.between(0.15, 0.5), dice.between(0.15, 0.4)) }
    return dice.odds(0.5) ? { kind: 'column', ...outline } : { kind: 'wall', ...outline }
}

/* --- plans ------------------------------------------------------------------------------------------------------- */

function bodyOf(feature) {
    if (feature.kind === 'partition') return rectangleRound(feature.from_m, feature.to_m, feature.thickness_m)
    return polygonOf(feature.at_m ? { centre_m: feature.at_m, radius_m: 0.05 } : feature, 1e-3)
}

const overlap = (a, b) => pointsAlong(a, 0.05).some((p) => isInside(b, p)) || pointsAlong(b, 0.05).some((p) => isInside(a, p))

// A partition may stand on a vessel, as screens do, and across another partition. Nothing else may overlap.
function mayOverlap(a, b) {
    const other = a.kind === 'partition' ? b : a
    return (a.kind === 'partition' || b.kind === 'partition') && ['partition', 'bath', 'shower-basin', 'sauna-heater'].includes(other.kind)
}

const fits = (feature, room, features) =>
    (feature.kind === 'partition' || feature.at_m || isWithin(room, pointsAlong(bodyOf(feature), 0.05))) &&
    features.every((other) => mayOverlap(feature, other) || !overlap(bodyOf(feature), bodyOf(other)))

// Tries for each wanted feature a few times; what finds no room is left out.
function furnish(dice, room, makers) {
    const features = []
    for (const make of makers) {
        for (let tries = 0; tries < 30; tries++) {
            const feature = make(dice, room)
            if (!feature || !fits(feature, room, features)) continue
            features.push({ id: `F${features.length}`, ...feature })
            break
        }
    }
    return features
}

const repeated = (count, make) => Array.from({ length: count }, () => make)
const bath = (dice, room) => vessel(dice, room, 'bath')
const tray = (dice, room) => vessel(dice, room, 'shower-basin')

function makersFor(dice, { outlets = true } = {}) {
    const wet = dice.pick(outlets ? [[bath], [bath, tray], [tray], [outlet], [outlet, outlet], [bath, outlet]] : [[bath], [tray]])
    return [...wet, ...repeated(dice.pick([0, 0, 1]), solid), ...repeated(dice.pick([0, 1, 1, 2, 2, 3, 4]), partition)]
}

function oneRoom(dice) {
    const outline = dice.pick(shapes)(dice)
    const room = polygonOf({ outline_m: outline }, 1e-3)
    const isCurved = outline.some((entry) => entry.to_m)
    const near = (make) => (isCurved && (make === partition || make === outlet) ? (own, walls) => make(own, walls, 0.02) : make)
    const makers = makersFor(dice).map(near)
    return { outline_m: outline, height_m: 2.6, features: furnish(dice, room, makers) }
}

// Two rooms with a wall between them and an opening in it; a vessel near the opening on one side.
function twoRooms(dice) {
    const [w, d, t] = [dice.between(1.6, 2.4), dice.between(2, 3), dice.between(0.06, 0.2)]
    const [from, width] = [dice.between(0.1, d - 1.2), dice.between(0.6, 1.1)]
    const first = [[0, 0], [w, 0], [w, d], [0, d]]
    const second = [[w + t, 0], [w + t + dice.between(1.2, 2.5), 0], [w + t + 2, d * dice.between(0.8, 1.2)], [w + t, d]]
    const edge = w - dice.between(0.02, 0.4)
    const at = dice.between(0, d - 0.8)
    const basin = { id: 'F0', kind: 'bath', outline_m: boxAt([edge, at], [-1, 0], [0, 1], 0.8, 0.75).reverse(), bottom_m: 0.1, rim_m: 0.5 }
    const features = [basin, ...furnish(dice, first, repeated(dice.below(3), partition)).map((feature, i) => ({ ...feature, id: `F${i + 1}` }))]
    const opening = { id: 'F9', kind: 'opening', from_m: [w + t / 2, from], to_m: [w + t / 2, from + width], height_m: 2.6 }
    return { height_m: 2.6, rooms: [{ outline_m: first }, { outline_m: second }], features: [...features, opening] }
}

// A room with vessels, or with outlets, and nothing else; its corners in `corners`.
export function plainPlace(dice) {
    const corners = dice.pick([rectangular, lShaped, manyCornered])(dice)
    const makers = dice.pick([[bath], [bath, tray], [tray], [outlet], [outlet, outlet]])
    return { kind: 'bath-room', plan: { outline_m: corners, height_m: 2.6, features: furnish(dice, corners, makers) } }
}

const roomMakers = [oneRoom, oneRoom, oneRoom, oneRoom, twoRooms]

function basin(dice) {
    const [w, d] = [dice.between(4, 8), dice.between(2, 4)]
    const outline = dice.pick([
        () => [[0, 0], [w, 0], [w, d], [0, d]],
        () => [[0, 0], [w, 0], { to_m: [w, d], through_m: [w + dice.between(0.3, 0.5) * d, d / 2] }, [0, d]],
        () => [[0, 0], [w, 0], [w, d / 2], [w / 2, d / 2], [w / 2, d], [0, d]]
    ])()
    return { id: 'F0', kind: 'pool', outline_m: outline, rim_m: 0, bottom_m: -1.5 }
}

// A wall or a screen somewhere round the basin, off it.
function poolScreen(dice) {
    const from = [dice.between(-4, 11), dice.between(-4, 7)]
    const turn = dice.between(0, 2 * Math.PI)
    const to = add(from, times([Math.cos(turn), Math.sin(turn)], dice.between(0.8, 4)))
    return { kind: 'partition', from_m: from, to_m: to, thickness_m: dice.pick([0.02, 0.1, 0.3]), height_m: dice.odds(0.85) ? 2.6 : 1.2, fixed: true }
}

// A board over the left edge of the basin.
function board(dice) {
    const [y, w] = [dice.between(0.2, 1), dice.between(0.3, 0.7)]
    const outline = [[-2, y], [dice.between(0, 1), y], [dice.between(0, 1), y + w], [-2, y + w]]
    return { id: 'F1', kind: 'platform', outline_m: outline, top_m: dice.between(1, 2.5) }
}

function poolHall(dice) {
    const pool = basin(dice)
    const outline = [[-5, -5], [13, -5], [13, 4], [11, 9], [-5, 9]]
    const features = dice.odds(0.5) ? [pool, board(dice)] : [pool]
    for (let tries = 0, wanted = 2 + dice.below(5); tries < 60 && features.length <= wanted; tries++) {
        const screen = poolScreen(dice)
        const isOn = (other) => other.kind !== 'partition' && overlap(bodyOf(screen), bodyOf(other))
        const clear = isWithin(outline, pointsAlong(bodyOf(screen), 0.1)) && !features.some(isOn)
        if (clear) features.push({ id: `F${features.length}`, ...screen })
    }
    return { outline_m: outline, height_m: 6, features }
}

function sauna(dice) {
    const room = rectangular(dice)
    const screen = (own, outline) => toCeiling(partition(own, outline))
    const heater = (own, outline) => ({ kind: 'sauna-heater', ...vesselAtWall(own, outline), top_m: 0.7 })
    return { outline_m: room, height_m: 2.6, features: furnish(dice, room, [heater, screen, screen]) }
}

// { kind, plan } of a place. Every other one is turned by any angle and moved.
export function randomPlace(dice) {
    const kind = dice.pick([...Array(16).fill('bath-room'), 'pool', 'pool', 'pool', 'sauna'])
    const place = { kind, plan: kind === 'pool' ? poolHall(dice) : kind === 'sauna' ? sauna(dice) : dice.pick(roomMakers)(dice) }
    if (dice.odds(0.5)) return place
    return { ...place, plan: movedPlan(place.plan, turned(dice.between(0, 2 * Math.PI), [dice.between(-3, 3), dice.between(-3, 3)])) }
}

/* --- changes ----------------------------------------------------------------------------------------------------- */

const lengthsOfShapes = new Set(['radius_m', 'thickness_m'])

// The plan with every point moved (a list of two numbers is a point), and level lengths of shapes scaled.
export function movedPlan(value, move, scale = 1, key = '') {
    if (Array.isArray(value) && value.length === 2 && typeof value[0] === 'number') return move(value)
    if (Array.isArray(value)) return value.map((entry) => movedPlan(entry, move, scale))
    if (typeof value === 'number') return lengthsOfShapes.has(key) ? value * scale : value
    if (value === null || typeof value !== 'object') return value
    return Object.fromEntries(Object.entries(value).map(([name, inner]) => [name, movedPlan(inner, move, scale, name)]))
}

export function turned(angle, [dx, dy]) {
    const [c, s] = [Math.cos(angle), Math.sin(angle)]
    return ([x, y]) => [x * c - y * s + dx, x * s + y * c + dy]
}

// One more partition in the plan that may stand there, or undefined.
export function withPartition(dice, plan) {
    const outline = polygonOf(plan.rooms?.[0] ?? plan, 1e-3)
    const more = toCeiling(partition(dice, outline))
    const others = plan.features.filter(({ kind }) => kind !== 'opening')
    return more && fits(more, outline, others) ? { ...plan, features: [...plan.features, { ...more, id: 'F99' }] } : undefined
}

/* --- points ------------------------------------------------------------------------------------------------------ */

const longestChord = 0.12 // of the polygons of curves

// On the straight face of a wall or a solid, with the way off it; how most points stand.
function onFace(dice, scene) {
    const thick = scene.solids.filter((solid) => edgesOf(solid).every(([from, to]) => distance(from, to) > 1e-3))
    const faces = [...scene.rooms, ...thick].flatMap(edgesOf).filter(([from, to]) => distance(from, to) > longestChord)
    const [a, b] = dice.pick(faces)
    const point = between(a, b, dice.between(0, 1))
    const off = times(left(unit(sub(b, a))), 1e-3)
    const free = [off, times(off, -1)].find((way) => isFree(scene, add(point, way)))
    return free && { point, near: add(point, free) }
}

function roundSource(dice, scene, reach) {
    const start = dice.pick(dice.pick(scene.sources).starts)
    const turn = dice.between(0, 2 * Math.PI)
    const point = add(start, times([Math.cos(turn), Math.sin(turn)], dice.between(0, reach)))
    return { point, near: point }
}

function anywhere(dice, scene) {
    const corners = dice.pick(scene.rooms)
    const point = between(between(dice.pick(corners), dice.pick(corners), dice.between(0, 1)), dice.pick(corners), dice.between(0, 1))
    return { point, near: point }
}

// Points in free room: { point, near }, where `near` is the point itself, or a millimetre off the face it stands on.
export function randomPoints(dice, scene, count, reach) {
    const points = []
    for (let tries = 0; tries < count * 20 && points.length < count; tries++) {
        const made = dice.pick([onFace, roundSource, roundSource, anywhere])(dice, scene, reach)
        const clear = made && scene.rooms.some((room) => isInside(room, made.near)) && isFree(scene, made.near)
        if (clear && (made.point !== made.near || distanceToEdges(scene.edges, made.point) > 1e-4)) points.push(made)
    }
    return points
}
