// SPDX-License-Identifier: MIT
//
// Where things and points stand when they are put in: where they usually are, inside the room, clear of each other.

import { deepStrictEqual as same, ok, strictEqual } from 'node:assert'
import { boundsOf, distance, isInside, placesOf, shapeOf } from '../../web/plan/shapes.js'
import { placedPoint, placedThing } from '../../web/plan/spots.js'
import { GUESS_M, isGuess, settled, THINGS, usualHeight } from '../../web/plan/things.js'

const ROOM = [[0, 0], [3, 0], [3, 2.4], [0, 2.4]]
const L_ROOM = [[0, 0], [3, 0], [3, 1], [1.8, 1], [1.8, 2.6], [0, 2.6]]
const ROUND = { centre_m: [2, 2], radius_m: 2 }

const filled = (room, kinds) => kinds.reduce((plan, kind) => ({ ...plan, features: [...plan.features, placedThing(kind, plan)] }), { ...(Array.isArray(room) ? { outline_m: room } : room), features: [] })
const boundsOfThing = (owner) => boundsOf(placesOf(shapeOf(owner)))
const overlap = (a, b) => [0, 1].every((axis) => a.low[axis] < b.high[axis] - 0.02 && b.low[axis] < a.high[axis] - 0.02)

export default [
    { name: 'a bath stands in a corner, its screen along its open side, its outlet over it', run: () => {
        const { features: [bath, screen, outlet] } = filled(ROOM, ['bath', 'partition', 'shower-outlet'])
        same(bath.outline_m, [[0, 0], [1.7, 0], [1.7, 0.7], [0, 0.7]])
        same([screen.from_m, screen.to_m], [[0, 0.7], [0.9, 0.7]])
        ok(isInside(outlet.at_m, bath.outline_m))
    } },
    { name: 'vessels and basins lie inside the room and not over each other, until it is full', run: () => {
        for (const room of [ROOM, L_ROOM]) {
            const { features } = filled(room, ['bath', 'shower-basin', 'washbasin', 'washbasin'])
            const bounds = features.map(boundsOfThing)
            bounds.forEach((a, i) => bounds.slice(i + 1).forEach((b) => ok(!overlap(a, b), JSON.stringify([a, b]))))
            for (const { outline_m: corners } of features) for (const corner of corners) {
                const centre = [0, 1].map((axis) => (corners[0][axis] + corners[2][axis]) / 2)
                ok(isInside(corner.map((value, axis) => value + (centre[axis] - value) * 0.1), room), JSON.stringify(corners))
            }
        }
    } },
    { name: 'doors and windows lie in walls, none upon another', run: () => {
        const { features } = filled(ROOM, ['bath', 'door', 'window', 'window', 'opening'])
        const lines = features.slice(1)
        for (const { from_m: a, to_m: b } of lines) ok([0, 1].some((axis) => a[axis] === b[axis] && [0, ROOM[2][axis]].includes(a[axis])), JSON.stringify([a, b]))
        strictEqual(new Set(lines.map(({ from_m: a, to_m: b }) => JSON.stringify([a, b]))).size, lines.length)
    } },
    { name: 'points stand apart: switches and sockets at a wall, lights over the floor', run: () => {
        const plan = filled(ROOM, ['bath'])
        const points = []
        for (const kind of ['socket-outlet', 'switch', 'luminaire', 'luminaire', 'fan', 'towel-rail']) points.push({ kind, at_m: placedPoint(kind, plan, points) })
        points.forEach((a, i) => points.slice(i + 1).forEach((b) => ok(distance(a.at_m, b.at_m) > 0.15, JSON.stringify([a, b]))))
        for (const { at_m: at } of points) ok(isInside(at, ROOM), JSON.stringify(at))
        for (const { at_m: [x, y] } of points.slice(0, 2)) ok(Math.min(x, y, 3 - x, 2.4 - y) < 0.06)
        same(points[2].at_m, [1.5, 1.2])
    } },
    { name: 'a guess stays one until it is moved; a tolerance that somebody stated stays', run: () => {
        const point = { id: 'P1', at_m: [1, 1, 1], about: true, tolerance_m: GUESS_M }
        ok(isGuess(point) && !isGuess(settled(point)))
        same(settled(point), { id: 'P1', at_m: [1, 1, 1], about: true })
        same(settled({ id: 'P1', tolerance_m: 0.05 }), { id: 'P1', tolerance_m: 0.05 })
    } },
    { name: 'at a ceiling, however high, a rough height is on no side of 2.25 m', run: () => {
        for (const ceiling of [undefined, 2.4, 2.7, 4]) ok(Math.abs(usualHeight('luminaire', ceiling) - 2.25) <= 0.1, String(ceiling))
        strictEqual(usualHeight('luminaire', 2.1), 2.05)
        strictEqual(usualHeight('socket-outlet', 2.4), 0.4)
    } },
    { name: 'every kind gets a usable place in any room, and without one', run: () => {
        for (const room of [ROOM, L_ROOM, ROUND, {}]) {
            for (const kind of Object.keys(THINGS)) {
                const thing = placedThing(kind, filled(room, ['bath', kind]))
                strictEqual(thing.kind, kind)
                ok(kind === 'under-bath' || shapeOf(thing), `${kind}: ${JSON.stringify(thing)}`)
            }
            ok(placedPoint('switch', filled(room, ['bath']), [{}, { at_m: [0.2, 0.2] }]).every(Number.isFinite))
        }
    } }
]
