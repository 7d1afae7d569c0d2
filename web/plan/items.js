// SPDX-License-Identifier: MIT
//
// What can be chosen in a plan: rooms, things and points, in the order in which Tab goes through them. Each has a key that
// names it ("room:0", "thing:3", "point:P1"), its owner (the object of the document) and its shape. Edits are pure.

import { placeOf, pointsAt, withPlace, withPoint } from '../state/document.js'
import { boundsOf, centreOf, distance, distanceToEdge, edgesOf, encloses, middle, moved, placesOf, rectOf, rectStretched, shapeOf, spotOf, throughOf, tidy, toMillimetre, turned } from './shapes.js'
import { thingOf } from './things.js'

const listOf = (value) => (Array.isArray(value) ? value : [])
const ROOM_KEYS = ['outline_m', 'centre_m', 'radius_m']

// The rooms of a plan; a plan with one outline is its own room.
export const roomsOf = (plan) => (Array.isArray(plan.rooms) ? plan.rooms : plan.outline_m ? [plan] : [])

const roomItem = (plan, several) => (room, index) => ({ key: `room:${index}`, sort: 'room', index, owner: room, shape: shapeOf({ ...room, from_m: undefined, at_m: undefined }), label: several ? `Room ${index + 1}` : 'Room' })

function thingLabel(feature, features) {
    const { label } = thingOf(feature.kind)
    if (feature.name) return feature.name
    const alike = features.filter(({ kind }) => kind === feature.kind)
    return alike.length > 1 ? `${label} ${alike.indexOf(feature) + 1}` : label
}

export function itemsOf(document, placeId) {
    const plan = placeOf(document, placeId)?.plan ?? {}
    const rooms = roomsOf(plan)
    const features = listOf(plan.features).map((feature) => feature ?? {})
    const things = features.map((owner, index) => ({ key: `thing:${index}`, sort: 'thing', index, owner, kind: owner.kind, shape: shapeOf(owner), label: thingLabel(owner, features) }))
    const points = pointsAt(document, placeId).map((owner) => ({ key: `point:${owner.id}`, sort: 'point', owner, shape: shapeOf({ at_m: owner.at_m }), label: owner.name || owner.id }))
    return [...rooms.map(roomItem(plan, rooms.length > 1)), ...things, ...points]
}

export const itemOf = (items, key) => items.find((item) => item.key === key)

// --- edits ----------------------------------------------------------------------------------------------------------

export const withPlan = (document, placeId, change) => withPlace(document, placeId, (place) => ({ ...place, plan: change(place.plan ?? {}) }))

const replacedAt = (list, index, change) => list.map((each, i) => (i === index ? change(each) : each))

// A plan's own outline is changed as a room would be, and nothing else of the plan.
function changeRoom(plan, index, change) {
    if (Array.isArray(plan.rooms)) return { ...plan, rooms: replacedAt(plan.rooms, index, change) }
    const shape = change(Object.fromEntries(ROOM_KEYS.filter((key) => key in plan).map((key) => [key, plan[key]])))
    return { ...plan, ...shape }
}

export function changeItem(document, placeId, key, change) {
    const [sort, name] = [key.slice(0, key.indexOf(':')), key.slice(key.indexOf(':') + 1)]
    if (sort === 'point') return withPoint(document, name, change)
    if (sort === 'room') return withPlan(document, placeId, (plan) => changeRoom(plan, Number(name), change))
    return withPlan(document, placeId, (plan) => ({ ...plan, features: replacedAt(listOf(plan.features), Number(name), change) }))
}

export const addThing = (document, placeId, feature) => withPlan(document, placeId, (plan) => ({ ...plan, features: [...listOf(plan.features), feature] }))

const HOLDS_OUTLET = new Set(['bath', 'shower-basin'])

// Outlets that stand over a vessel go where it goes.
export const companionsOf = (items, item) => (HOLDS_OUTLET.has(item.kind) && item.shape
    ? items.filter(({ kind, shape, key }) => kind === 'shower-outlet' && shape && key !== item.key && (encloses(shape.at, item.shape) || distanceToEdge(shape.at, item.shape) < 0.005))
    : [])

// How far a thing was moved: what its companions are to follow.
function shift(before, after) {
    const [a, b] = [shapeOf(before), shapeOf(after)].map((shape) => placesOf(shape)[0])
    return [b[0] - a[0], b[1] - a[1]]
}

// An item moved as a whole, or turned by some degrees about its middle, together with what stands over it; owner is what
// the item becomes.
export function moveItem(document, placeId, item, companions, owner, degrees = 0) {
    const own = changeItem(document, placeId, item.key, (old) => (item.sort === 'room' ? { ...old, ...owner } : owner))
    const follow = (other) => (degrees ? turned(other, degrees, centreOf(item.shape)) : moved(other, ...shift(item.owner, owner)))
    return companions.reduce((now, other) => changeItem(now, placeId, other.key, () => follow(other.owner)), own)
}

// How far a rectangle was turned, in degrees; 0 of anything else.
export function turnOf(item, owner) {
    const [before, after] = [item.owner, owner].map(({ outline_m: corners }) => rectOf(corners)?.degrees ?? 0)
    return after - before
}

// A thing goes; a point only leaves the plan; the last room goes with nothing else.
export function removeItem(document, placeId, key) {
    const [sort, name] = [key.slice(0, key.indexOf(':')), key.slice(key.indexOf(':') + 1)]
    if (sort === 'point') return withPoint(document, name, ({ at_m: _, about: _about, ...point }) => point)
    return withPlan(document, placeId, (plan) => {
        if (sort === 'thing') return { ...plan, features: plan.features.toSpliced(Number(name), 1) }
        if (Array.isArray(plan.rooms)) return { ...plan, rooms: plan.rooms.toSpliced(Number(name), 1) }
        const { outline_m: _, ...rest } = plan
        return rest
    })
}

// --- pointing -------------------------------------------------------------------------------------------------------

export const boundsOfItems = (items) => boundsOf(items.filter(({ shape }) => shape).flatMap(({ shape }) => placesOf(shape)))

const THIN = new Set(['spot', 'line', 'slope'])

const areaOf = (shape) => {
    const { low, high } = boundsOf(placesOf(shape))
    return (high[0] - low[0]) * (high[1] - low[1])
}

// What lies under p, null on bare floor. Close by (half the tolerance): points, then lines and outlets. Then the smallest
// area that holds it, then whatever is nearest within the tolerance.
export function hitItem(items, p, tolerance) {
    const can = items.filter(({ shape, sort }) => shape && sort !== 'room')
    const closest = (list, within) => list.map((item) => ({ item, far: distanceToEdge(p, item.shape) })).filter(({ far }) => far <= within).sort((a, b) => a.far - b.far)[0]?.item
    const points = can.filter(({ sort }) => sort === 'point')
    const thin = can.filter(({ sort, shape }) => sort === 'thing' && THIN.has(shape.form))
    const broad = can.filter(({ sort, shape }) => sort === 'thing' && encloses(p, shape)).sort((a, b) => areaOf(a.shape) - areaOf(b.shape))[0]
    return closest(points, tolerance / 2) ?? closest(thin, tolerance / 2) ?? broad ?? closest(points, tolerance) ?? closest(can, tolerance) ?? null
}

// --- handles --------------------------------------------------------------------------------------------------------

const cornersHandles = (corners) => corners.flatMap((corner, i) => {
    const through = throughOf(corner)
    return [{ name: `corner:${i}`, at: spotOf(corner) }, ...(through ? [{ name: `through:${i}`, at: through, look: 'round' }] : [])]
})

const wallHandles = (corners) => edgesOf(corners).map(({ from, to, through }, i) => (through ? null : { name: `wall:${i}`, at: middle(from, to), look: 'bar', along: [to[0] - from[0], to[1] - from[1]] })).filter(Boolean)

// Where the turning handle stands: off the middle of the second edge, by some metres.
function turnHandle(shape, off) {
    const rect = rectOf(shape.corners)
    if (!rect) return []
    const centre = centreOf(shape)
    const radians = (rect.degrees * Math.PI) / 180
    const reach = rect.width / 2 + off
    return [{ name: 'turn', at: [centre[0] + Math.cos(radians) * reach, centre[1] + Math.sin(radians) * reach], look: 'turn' }]
}

// Of a chosen item: [{ name, at, look }]; `off` is how far out the turning handle stands, in metres.
export function handlesOf({ sort, shape }, off) {
    if (!shape) return []
    if (shape.form === 'outline') return [...cornersHandles(shape.corners), ...(sort === 'room' ? wallHandles(shape.corners) : turnHandle(shape, off))]
    if (shape.form === 'round') return [{ name: 'radius', at: [shape.centre[0] + shape.radius, shape.centre[1]] }]
    if (shape.form === 'line') return [{ name: 'from', at: shape.from }, { name: 'to', at: shape.to }]
    if (shape.form === 'slope') return shape.places.map((at, i) => ({ name: `place:${i}`, at }))
    return []
}

const kept = (old, p) => [...p.map(tidy), ...old.slice(2)]

function movedCorner(corners, index, p) {
    return replacedAt(corners, index, (corner) => (Array.isArray(corner) ? kept(corner, p) : { ...corner, to_m: kept(corner.to_m, p) }))
}

// A wall goes sideways as far as p lies off it; its ends go with it.
function movedWall(corners, index, p) {
    const { from, to } = edgesOf(corners)[index]
    const length = distance(from, to) || 1
    const normal = [-(to[1] - from[1]) / length, (to[0] - from[0]) / length]
    const off = (p[0] - from[0]) * normal[0] + (p[1] - from[1]) * normal[1]
    const by = (spot) => [spot[0] + off * normal[0], spot[1] + off * normal[1]].map(toMillimetre)
    const first = (index + corners.length - 1) % corners.length
    return movedCorner(movedCorner(corners, first, by(from)), index, by(to))
}

function turnedTo(owner, shape, p, angle) {
    const centre = centreOf(shape)
    const rect = rectOf(shape.corners)
    const wanted = angle((Math.atan2(p[1] - centre[1], p[0] - centre[0]) * 180) / Math.PI)
    return turned(owner, wanted - rect.degrees, centre)
}

// The owner with one of its handles dragged to p. angle(degrees) rounds a turn.
export function handled({ sort, owner, shape }, name, p, angle) {
    const [what, number] = name.split(':')
    const index = Number(number)
    if (what === 'from' || what === 'to') return { ...owner, [`${what}_m`]: kept(owner[`${what}_m`], p) }
    if (what === 'radius') return { ...owner, radius_m: Math.max(0.01, toMillimetre(distance(shape.centre, p))) }
    if (what === 'place') return { ...owner, through_m: replacedAt(owner.through_m, index, (old) => kept(old, p)) }
    if (what === 'turn') return turnedTo(owner, shape, p, angle)
    if (what === 'wall') return { ...owner, outline_m: movedWall(shape.corners, index, p) }
    if (what === 'through') return { ...owner, outline_m: replacedAt(shape.corners, index, (corner) => ({ ...corner, through_m: kept(corner.through_m, p) })) }
    if (sort !== 'room' && rectOf(shape.corners)) return { ...owner, outline_m: rectStretched(shape.corners, index, p) }
    return { ...owner, outline_m: movedCorner(shape.corners, index, p) }
}

// What an arrow key or a typed coordinate does: the item itself, moved.
export function movedItem({ sort, owner }, dx, dy) {
    if (sort !== 'point') return moved(owner, dx, dy)
    return { ...owner, at_m: [tidy(owner.at_m[0] + dx), tidy(owner.at_m[1] + dy), ...owner.at_m.slice(2)] }
}
