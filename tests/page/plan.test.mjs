// SPDX-License-Identifier: MIT
//
// The geometry of the plan editor: shapes, snapping, drags, views, paths. What zones are is the core's and tested there.

import { deepStrictEqual as same, ok, strictEqual } from 'node:assert'
import { dragged, targetsFor } from '../../web/plan/drag.js'
import { gapsOf } from '../../web/plan/gaps.js'
import { changeItem, companionsOf, handled, handlesOf, hitItem, itemOf, itemsOf, moveItem, removeItem, turnOf } from '../../web/plan/items.js'
import { outlinePath, ringsPath } from '../../web/plan/paths.js'
import { metres, ways, zoneChanges } from '../../web/plan/say.js'
import * as s from '../../web/plan/shapes.js'
import { snapAngle, snapMove, snapOntoWall, snapSpot, targetsOf } from '../../web/plan/snap.js'
import { cornerRoom, newThing, paletteFor, THINGS, unmeasuredHeights } from '../../web/plan/things.js'
import { barOf, fitted, gridOf, panned, pinched, toMetres, toScreen, zoomed } from '../../web/plan/view.js'
import { numberPlaces, shownZones } from '../../web/plan/zones.js'

const near = (a, b, within = 1e-9) => ok(a.every((value, i) => Math.abs(value - b[i]) <= within), `${a} is not ${b}`)

const BATH = { kind: 'bath', id: 'bath', outline_m: [[0, 0], [1.7, 0], [1.7, 0.7], [0, 0.7]], rim_m: 0.55 }
const TRAY = { kind: 'shower-basin', outline_m: [[0, 0], [0.9, 0], { to_m: [0, 0.9], through_m: [0.6363961, 0.6363961] }] }
const OUTLET = { kind: 'shower-outlet', at_m: [0.05, 0.35], height_m: 2.3 }
const DOOR = { kind: 'door', from_m: [3.2, 1], to_m: [3.2, 1.8] }
const ROOM = [[0, 0], [3.2, 0], [3.2, 2.6], [0, 2.6]]

const jobOf = (plan, points = []) => ({ dripstone: 1, places: [{ id: 'a', kind: 'bath-room', plan }], points })
const job = jobOf({ outline_m: ROOM, height_m: 2.4, strange: { kept: true }, features: [BATH, OUTLET, DOOR, { kind: 'thing', odd: 1 }] },
    [{ id: 'P1', place: 'a', at_m: [2, 2, 0.4] }, { id: 'P2', place: 'a' }, { id: 'Q', place: 'b', at_m: [0, 0, 0] }])
const planOf = (document) => document.places[0].plan
const pick = (document, key) => itemOf(itemsOf(document, 'a'), key)

const drag = (document, key, from, to, more = {}) => {
    const item = pick(document, key)
    return dragged({ item, from, to, targets: targetsFor(planOf(document), item), tolerance: 0.1, ...more })
}

const shapes = [
    { name: 'shapes are told apart, and what has none is null', run: () => {
        strictEqual(s.shapeOf(BATH).form, 'outline')
        strictEqual(s.shapeOf({ centre_m: [1, 1], radius_m: 0.4 }).form, 'round')
        strictEqual(s.shapeOf(DOOR).form, 'line')
        strictEqual(s.shapeOf(OUTLET).form, 'spot')
        strictEqual(s.shapeOf({ through_m: [[0, 0, 1], [1, 0, 1], [0, 1, 2]] }).form, 'slope')
        for (const odd of [{}, { outline_m: 'x' }, { outline_m: [[0, 0], [1]] }, { from_m: [0, 0] }, { centre_m: [0, 0], radius_m: 0 }, { at_m: [null, 1] }]) strictEqual(s.shapeOf(odd), null)
    } },
    { name: 'an arc through three places: a quarter, turning left; the other way round, right', run: () => {
        const arc = s.arcOf([0.9, 0], [0.9 * Math.SQRT1_2, 0.9 * Math.SQRT1_2], [0, 0.9])
        near(arc.centre, [0, 0], 1e-9)
        near([arc.radius, arc.sweep], [0.9, Math.PI / 2], 1e-9)
        strictEqual(arc.left, true)
        strictEqual(s.arcOf([0, 0.9], [0.9 * Math.SQRT1_2, 0.9 * Math.SQRT1_2], [0.9, 0]).left, false)
        near([s.arcOf([1, 0], [-1, 0], [0, 1]).sweep], [1.5 * Math.PI], 1e-9)
        strictEqual(s.arcOf([0, 0], [1, 1], [2, 2]), null)
    } },
    { name: 'moving keeps heights, arcs, and keys it does not know', run: () => {
        const moved = s.moved({ ...TRAY, odd: 5, at_m: [1, 1, 2] }, 0.1, -0.2)
        strictEqual(moved.odd, 5)
        same(moved.at_m, [1.1, 0.8, 2])
        same(moved.outline_m[2], { to_m: [0.1, 0.7], through_m: [0.736396, 0.436396] })
        strictEqual(s.moved(TRAY, 0, 0), TRAY)
    } },
    { name: 'four quarter turns come back exactly; a turn keeps the middle', run: () => {
        let turned = BATH
        for (let i = 0; i < 4; i++) turned = s.turned(turned, 90)
        same(turned, BATH)
        same(s.centreOf(s.shapeOf(s.turned(BATH, 90))), [0.85, 0.35])
        near([s.rectOf(s.turned(BATH, 33).outline_m).degrees], [33], 1e-4)
    } },
    { name: 'a rectangle is known turned, either way round; others are not', run: () => {
        const rect = s.rectOf(s.turned(BATH, 20).outline_m)
        near([rect.width, rect.depth], [1.7, 0.7], 1e-5)
        strictEqual(s.rectOf([...BATH.outline_m].reverse()).left, false)
        strictEqual(s.rectOf([[0, 0], [2, 0], [2.1, 1], [0, 1]]), null)
        strictEqual(s.rectOf(TRAY.outline_m), null)
        strictEqual(s.rectOf(undefined), null)
    } },
    { name: 'a rectangle takes another size about a corner that stays', run: () => {
        same(s.rectResized(BATH.outline_m, 1.6, 0.75, 0), [[0, 0], [1.6, 0], [1.6, 0.75], [0, 0.75]])
        same(s.rectResized(BATH.outline_m, 1.6, 0.75, 2), [[0.1, -0.05], [1.7, -0.05], [1.7, 0.7], [0.1, 0.7]])
        same(s.rectResized([...BATH.outline_m].reverse(), 1, 0.5, 0)[0], [0, 0.7])
        const turned = s.turned(BATH, 90).outline_m
        same(s.rectResized(turned, 1.8, 0.7, 0)[0], turned[0])
        same(s.rectStretched(BATH.outline_m, 2, [2, 1]), [[0, 0], [2, 0], [2, 1], [0, 1]])
        same(s.rectStretched(BATH.outline_m, 0, [0.2, 0.1]), [[0.2, 0.1], [1.7, 0.1], [1.7, 0.7], [0.2, 0.7]])
        same(s.rectStretched(BATH.outline_m, 2, [-5, -5])[2], [0.01, 0.01])
    } },
    { name: 'a place well inside a room, of an L too', run: () => {
        same(s.insideOf(s.shapeOf({ outline_m: ROOM })), [1.6, 1.3])
        const corner = s.shapeOf({ outline_m: cornerRoom(4, 4, 3, 3) })
        const p = s.insideOf(corner)
        ok(s.encloses(p, corner) && s.distanceToEdge(p, corner) > 0.4, `${p}`)
    } },
    { name: 'inside and distance to an edge, of arcs too', run: () => {
        ok(s.encloses([0.6, 0.6], s.shapeOf(TRAY)))
        ok(!s.encloses([0.68, 0.68], s.shapeOf(TRAY)))
        near([s.distanceToEdge([1, 0.5], s.shapeOf(BATH)), s.distanceToEdge([2, 0.35], s.shapeOf(BATH))], [0.2, 0.3])
        near([s.distanceToEdge([3, 1.4], s.shapeOf(DOOR))], [0.2])
        near([s.distanceToEdge([1, 0], { form: 'round', centre: [0, 0], radius: 0.4 })], [0.6], 1e-3)
    } }
]

const gaps = [
    { name: 'measures off the walls: the nearer ones, level and upright; none where it touches', run: () => {
        const room = s.shapeOf({ outline_m: ROOM })
        const off = gapsOf({ form: 'spot', at: [3, 0.4] }, [room])
        near(off.map(({ metres: far }) => far), [0.2, 0.4])
        same(off.map(({ to }) => to.map(s.tidy)), [[3.2, 0.4], [3, 0]])
        same(gapsOf(s.shapeOf(BATH), [room]), [])
        near(gapsOf(s.shapeOf(s.moved(BATH, 0.3, 1.5)), [room]).map(({ metres: far }) => far), [0.3, 0.4])
        same(gapsOf({ form: 'spot', at: [9, 9] }, [room]), [])
        const corner = s.shapeOf({ outline_m: cornerRoom(4, 4, 2, 2) })
        near(gapsOf({ form: 'spot', at: [3, 1.5] }, [corner]).map(({ metres: far }) => far), [1, 0.5])
    } }
]

const views = [
    { name: 'to the screen and back', run: () => {
        const view = { width: 400, height: 300, x: 1.6, y: 1.3, scale: 90 }
        near(toMetres(view, toScreen(view, [0.3, 2.2])), [0.3, 2.2])
        ok(toScreen(view, [0, 1])[1] > toScreen(view, [0, 2])[1], 'up is up')
    } },
    { name: 'fitting shows all; zooming and pinching keep what lies under the fingers', run: () => {
        const view = fitted({ low: [0, 0], high: [3.2, 2.6] }, 360, 400)
        for (const corner of ROOM) toScreen(view, corner).forEach((value, axis) => ok(value >= 40 && value <= [360, 400][axis] - 40))
        near(toMetres(zoomed(view, [50, 60], 2), [50, 60]), toMetres(view, [50, 60]))
        const next = pinched(view, [[100, 100], [200, 100]], [[80, 120], [280, 120]])
        near([next.scale], [view.scale * 2])
        near(toMetres(next, [180, 120]), toMetres(view, [150, 100]))
        near(toMetres(panned(view, [10, -20]), [60, 40]), toMetres(view, [50, 60]))
        ok(zoomed(view, [0, 0], 1e9).scale < 1e4 && zoomed(view, [0, 0], 1e-9).scale > 0)
    } },
    { name: 'grid and scale bar are round figures at any scale', run: () => {
        for (const scale of [3, 20, 55, 110, 400, 1500]) {
            const view = { width: 800, height: 600, x: 0, y: 0, scale }
            const { step, xs } = gridOf(view)
            ok(step * scale >= 20 || step === 50)
            ok(xs.length * step * scale <= 800 + step * scale)
            ok(barOf(view) * scale <= 130)
        }
    } }
]

const snapping = [
    { name: 'a corner first, then a wall at whole 5 cm, then 5 cm', run: () => {
        const targets = targetsOf([{ outline_m: ROOM }], [])
        same(snapSpot([3.15, 0.06], targets, 0.1), [3.2, 0])
        same(snapSpot([3.15, 1.512], targets, 0.1), [3.2, 1.5])
        same(snapSpot([1.512, 1.288], targets, 0.1), [1.5, 1.3])
        same(snapSpot([1.5123, 1.2884], targets, 0), [1.512, 1.288])
    } },
    { name: 'a slanting wall takes what comes near', run: () => {
        const targets = targetsOf([{ outline_m: [[0, 0], [3, 0], [0, 3]] }], [])
        const [x, y] = snapSpot([1.52, 1.52], targets, 0.1)
        near([x + y], [3], 1.1e-3)
    } },
    { name: 'a thing comes to rest on walls and on edges of others, else on 5 cm', run: () => {
        const targets = targetsOf([{ outline_m: ROOM }], [DOOR])
        same(snapMove(BATH.outline_m, 1.46, 0.33, targets, 0.1), [1.5, 0.35])
        same(snapMove(BATH.outline_m, 0.313, 1.93, targets, 0.1), [0.3, 1.9])
        same(snapMove(BATH.outline_m, 0.3132, 0.4, targets, 0), [0.313, 0.4])
    } },
    { name: 'a door slides along a wall, stays on it, and goes over to another', run: () => {
        const { walls } = targetsOf([{ outline_m: ROOM }], [])
        same(snapOntoWall(0.8, [3.1, 1.42], walls, 0.1), { from: [3.2, 1], to: [3.2, 1.8] })
        same(snapOntoWall(0.8, [3.1, 2.5], walls, 0.1), { from: [3.2, 1.8], to: [3.2, 2.6] })
        same(snapOntoWall(0.8, [1.5, 2.5], walls, 0.1), { from: [1.9, 2.6], to: [1.1, 2.6] })
        strictEqual(snapOntoWall(0.8, [0, 0], [], 0.1), null)
    } },
    { name: 'turns snap to 15 degrees, or to one', run: () => same([snapAngle(37, false), snapAngle(37.4, true)], [30, 37]) }
]

const items = [
    { name: 'items in order of Tab; what cannot be drawn is still there', run: () => {
        same(itemsOf(job, 'a').map(({ key }) => key), ['room:0', 'thing:0', 'thing:1', 'thing:2', 'thing:3', 'point:P1', 'point:P2'])
        strictEqual(pick(job, 'thing:3').shape, null)
        strictEqual(pick(job, 'point:P2').shape, null)
        same(itemsOf(jobOf({ rooms: [{ outline_m: ROOM }, { centre_m: [5, 1], radius_m: 1 }] }), 'a').map(({ label, shape }) => [label, shape.form]), [['Room 1', 'outline'], ['Room 2', 'round']])
        same(itemsOf(jobOf(undefined), 'a'), [])
    } },
    { name: 'an edit touches one thing and keeps the rest, unknown keys too', run: () => {
        const next = changeItem(job, 'a', 'thing:0', (owner) => s.moved(owner, 1, 0))
        strictEqual(planOf(next).strange, planOf(job).strange)
        strictEqual(planOf(next).features[3], planOf(job).features[3])
        same(planOf(next).features[0].outline_m[0], [1, 0])
        const room = changeItem(job, 'a', 'room:0', (owner) => ({ ...owner, outline_m: ROOM.slice(0, 3) }))
        same(Object.keys(planOf(room)).sort(), Object.keys(planOf(job)).sort())
        strictEqual(planOf(room).features, planOf(job).features)
    } },
    { name: 'removing: a thing goes, a point only leaves the plan', run: () => {
        strictEqual(planOf(removeItem(job, 'a', 'thing:0')).features.length, 3)
        same(removeItem(job, 'a', 'point:P1').points[0], { id: 'P1', place: 'a' })
        strictEqual(planOf(removeItem(job, 'a', 'room:0')).outline_m, undefined)
    } },
    { name: 'pointing: points over lines over areas, the smaller area first', run: () => {
        const all = itemsOf(job, 'a')
        strictEqual(hitItem(all, [2.03, 2.02], 0.1).key, 'point:P1')
        strictEqual(hitItem(all, [0.08, 0.37], 0.1).key, 'thing:1')
        strictEqual(hitItem(all, [1, 0.4], 0.1).key, 'thing:0')
        strictEqual(hitItem(all, [3.15, 1.4], 0.1).key, 'thing:2')
        strictEqual(hitItem(all, [2.5, 1.4], 0.1), null)
        const inner = itemsOf(jobOf({ outline_m: ROOM, features: [BATH, { kind: 'washbasin', outline_m: [[0.5, 0.1], [0.9, 0.1], [0.9, 0.5], [0.5, 0.5]] }] }), 'a')
        strictEqual(hitItem(inner, [0.7, 0.3], 0.02).key, 'thing:1')
    } },
    { name: 'an outlet over a bath goes with it; one elsewhere stays', run: () => {
        const all = itemsOf(jobOf({ outline_m: ROOM, features: [BATH, OUTLET, { kind: 'shower-outlet', at_m: [2.5, 2] }] }), 'a')
        same(companionsOf(all, all[1]).map(({ key }) => key), ['thing:1'])
        same(companionsOf(all, all[2]), [])
        const next = moveItem(jobOf({ outline_m: ROOM, features: [BATH, OUTLET, { kind: 'shower-outlet', at_m: [2.5, 2] }] }), 'a', all[1], companionsOf(all, all[1]), s.moved(BATH, 1.5, 0.2))
        same(planOf(next).features.slice(1).map(({ at_m: at }) => at), [[1.55, 0.55], [2.5, 2]])
    } },
    { name: 'an outlet is turned with its bath', run: () => {
        const document = jobOf({ outline_m: ROOM, features: [BATH, OUTLET] })
        const [, bath] = itemsOf(document, 'a')
        const next = moveItem(document, 'a', bath, companionsOf(itemsOf(document, 'a'), bath), s.turned(BATH, 90), 90)
        same(planOf(next).features[1].at_m, [0.85, -0.45])
        strictEqual(turnOf(bath, s.turned(BATH, 90)), 90)
        strictEqual(turnOf(bath, s.moved(BATH, 1, 0)), 0)
    } },
    { name: 'handles: corners and turn of a thing, corners and walls of a room', run: () => {
        same(handlesOf(pick(job, 'thing:0'), 0.3).map(({ name }) => name), ['corner:0', 'corner:1', 'corner:2', 'corner:3', 'turn'])
        same(handlesOf(pick(job, 'room:0'), 0.3).filter(({ name }) => name.startsWith('wall')).length, 4)
        same(handlesOf(pick(job, 'thing:2'), 0.3).map(({ name }) => name), ['from', 'to'])
        same(handlesOf(pick(job, 'thing:3'), 0.3), [])
    } },
    { name: 'a wall dragged moves straight out with its ends', run: () => {
        same(handled(pick(job, 'room:0'), 'wall:2', [3.6, 1]).outline_m, [[0, 0], [3.6, 0], [3.6, 2.6], [0, 2.6]])
        same(handled(pick(job, 'room:0'), 'corner:2', [3, 2.4]).outline_m[2], [3, 2.4])
    } },
    { name: 'a corner of an arc is dragged by either of its places', run: () => {
        const tray = { sort: 'thing', owner: TRAY, shape: s.shapeOf(TRAY) }
        same(handled(tray, 'through:2', [0.7, 0.7]).outline_m[2], { to_m: [0, 0.9], through_m: [0.7, 0.7] })
        same(handled(tray, 'corner:2', [0, 1]).outline_m[2], { to_m: [0, 1], through_m: [0.6363961, 0.6363961] })
    } }
]

const drags = [
    { name: 'a drag is always from where it began', run: () => {
        same(drag(job, 'thing:0', [1, 0.4], [1.02, 0.41]).outline_m, BATH.outline_m)
        same(drag(job, 'thing:0', [1, 0.4], [1.63, 0.73]).outline_m[0], [0.65, 0.35])
        strictEqual(drag(job, 'thing:0', [1, 0.4], [1.63, 0.73]).rim_m, 0.55)
    } },
    { name: 'points snap in the plan and keep their height; without snapping to the millimetre', run: () => {
        same(drag(job, 'point:P1', [2, 2], [3.13, 2.02]).at_m, [3.2, 2, 0.4])
        same(drag(job, 'point:P1', [2, 2], [2.1234, 2.0567], { tolerance: 0 }).at_m, [2.123, 2.057, 0.4])
    } },
    { name: 'a door keeps its length and its wall', run: () => {
        const moved = drag(job, 'thing:2', [3.2, 1.4], [3.0, 1.77])
        same([moved.from_m, moved.to_m], [[3.2, 1.35], [3.2, 2.15]])
    } },
    { name: 'a handle resizes and turns', run: () => {
        same(drag(job, 'thing:0', [1.7, 0.7], [1.83, 0.78], { handle: 'corner:2' }).outline_m[2], [1.85, 0.8])
        near([s.rectOf(drag(job, 'thing:0', [2, 0.35], [0.85, 3], { handle: 'turn' }).outline_m).degrees], [90], 1e-6)
    } }
]

const words = [
    { name: 'metres with two decimals, or three', run: () => same([metres(1.7), metres(0.125), metres(-0.8), metres(2)], ['1.70', '0.125', '-0.80', '2.00']) },
    { name: 'what changed zone is said', run: () => {
        strictEqual(zoneChanges([{ id: 'a', zone: '1' }, { id: 'b', zone: '2' }], [{ id: 'a', name: 'Light', zone: '2' }, { id: 'b', zone: '2' }, { id: 'c', zone: '1' }]), 'Light: zone 2 now')
    } },
    { name: 'the way is drawn to what is barred or near, and to what is chosen', run: () => {
        const position = { zone: 'outside', path_m: [[0, 0], [1, 0]], distance_m: 1, limit_m: 0.6, zone1_path_m: [[0.2, 0], [1, 0]], zone1_distance_m: 0.8 }
        same(ways({ verdict: 'fits', position }).map(({ taut }) => taut), [true])
        same(ways({ verdict: 'barred', position }).map(({ taut }) => taut), [true, false])
        same(ways({ verdict: 'fits', position: { ...position, distance_m: 3 } }), [])
        strictEqual(ways({ verdict: 'fits', position: { ...position, distance_m: 3 } }, true).length, 2)
        same(ways({ verdict: 'fits', position: { ...position, zone: '2', distance_m: 0.3 } }), [])
        same(ways({ verdict: 'unknown', position: null }), [])
    } },
    { name: 'every kind can be put in, of the usual size, heights still to be measured', run: () => {
        for (const kind of Object.values(paletteFor('bath-room')).flat()) {
            const thing = newThing(kind, [1.62, 1.33])
            ok(THINGS[kind].form === 'none' || s.shapeOf(thing), kind)
            ok(unmeasuredHeights(thing).every(({ key }) => thing[key] === undefined))
        }
        same(newThing('bath', [1.6, 1.3]).outline_m, [[0.75, 0.95], [2.45, 0.95], [2.45, 1.65], [0.75, 1.65]])
        strictEqual(paletteFor('pool').usual[0], 'pool')
        strictEqual(new Set(Object.values(paletteFor('sauna')).flat()).size, Object.keys(THINGS).length)
        same(unmeasuredHeights(BATH).map(({ key }) => key), ['bottom_m'])
        strictEqual(cornerRoom(3, 2.4, 1.2, 1).length, 6)
    } }
]

const ring = (spots) => spots.map((from, i) => ({ from_m: from, to_m: spots[(i + 1) % spots.length] }))
const SQUARE = ring([[0, 0], [2, 0], [2, 2], [0, 2]])

const drawn = [
    { name: 'an arc turning left goes up the screen the right way round', run: () => {
        const at = ([x, y]) => [x * 100, -y * 100]
        strictEqual(outlinePath(at, 100, TRAY.outline_m), 'M0 -90L0 0L90 0A90 90 0 0 0 0 -90Z')
    } },
    { name: 'rings with holes, arcs of more than half a circle, and whole circles', run: () => {
        const at = ([x, y]) => [x, -y]
        const half = { from_m: [1, 0], to_m: [-1, 0], centre_m: [0, 0], radius_m: 1, turn: 'left' }
        strictEqual(ringsPath(at, 1, [[half, { ...half, from_m: [-1, 0], to_m: [1, 0] }]]), 'M1 0A1 1 0 0 0 -1 0A1 1 0 0 0 1 0Z')
        strictEqual(ringsPath(at, 1, [[{ ...half, to_m: [0, -1] }]]), 'M1 0A1 1 0 1 0 0 1Z')
        strictEqual(ringsPath(at, 1, [[{ ...half, to_m: [1, 0] }]]), 'M1 0A1 1 0 0 0 -1 0A1 1 0 0 0 1 0Z')
        strictEqual(ringsPath(at, 1, [SQUARE, SQUARE]).match(/M/g).length, 2)
    } },
    { name: 'zones on the same ground come under one number; higher parts apart', run: () => {
        const part = (from_m, to_m, rings = [SQUARE], area_m2 = 4) => ({ from_m, to_m, rings, area_m2 })
        const wide = ring([[-1, -1], [4, -1], [4, 4], [-1, 4]])
        const shown = shownZones([{ zone: '0', parts: [part(0.1, 0.5)] }, { zone: '1', parts: [part(0.5, 2.25)] }, { zone: '2', parts: [part(0, 2.25, [wide], 25), part(2.25, 3, [SQUARE], 4)] }])
        same(shown.map(({ words: list }) => list), [['0', '1'], ['2']])
        same(shown[0].range, { from_m: 0.1, to_m: 2.25 })
        same([shown[1].higher.length, shown[1].range.to_m], [1, 3])
        same(shownZones(null), [])
        const [inner, outer] = numberPlaces(shown)
        near(inner.at, [1, 1], 0.1)
        ok(outer.at[0] > 2 || outer.at[1] > 2 || outer.at[0] < 0 || outer.at[1] < 0, 'off the stricter zone')
    } }
]

export default [...shapes, ...gaps, ...views, ...snapping, ...items, ...drags, ...words, ...drawn]
