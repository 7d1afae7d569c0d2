// SPDX-License-Identifier: MIT
//
// Areas of zones against GEOS: node tests/oracle/zone_geos.mjs GEOS_AREA [ROOMS]
//
// GEOS_AREA is the program built from tests/oracle/geos_area.c. In a room without partitions, zone 2 is the buffer of the
// vessels by 0.60 m cut off by the room, less the vessels, and zone 1 of showers without a basin the buffer of their
// outlets by 1.20 m. That holds where no string bends: in convex rooms, and where the room's reentrant corners are no
// nearer to the source than the reach (their walls being at right angles or blunter, no straight line within the reach
// passes behind them).
//
// GEOS draws a quarter of a circle as `segments` chords: a sector of radius r and angle a loses r^2 a / 2 * d^2 / 6 at the
// most, d = pi / 2 / segments. With 2048 chords that is 1e-7 of the sector; it snaps points of a curve closer than 1e-6
// of the distance, and there are none. Vessels with curves are polygons within 1e-9 m.

import { spawnSync } from 'node:child_process'
import { distanceToEdges, edgesOf, polygonOf, cross, sub } from './zone/plane.mjs'
import { chance, movedPlan, plainPlace, turned } from './zone/rooms.mjs'
import { areaAt, zonesOf } from './zone/program.mjs'

const segments = 2048
const tolerance = 1e-6
const height = 1 // above all rims, below the top of all zones
const sagitta = 1e-9

const [helper, rooms = '120'] = process.argv.slice(2)

const wkt = (points) => `((${[...points, points[0]].map(([x, y]) => `${x} ${y}`).join(',')}))`

const outletsOf = ({ features }) => features.filter(({ at_m: at }) => at)
const vesselsOf = ({ features }) => features.filter(({ at_m: at }) => !at)

function sourceOf(plan) {
    const outlets = outletsOf(plan)
    if (outlets.length > 0) return { zone: '1', reach: 1.2, text: `MULTIPOINT(${outlets.map(({ at_m: at }) => `(${at.join(' ')})`).join(',')})` }
    return { zone: '2', reach: 0.6, text: `MULTIPOLYGON(${vesselsOf(plan).map((vessel) => wkt(polygonOf(vessel, sagitta))).join(',')})` }
}

function bendsNothing({ outline_m: corners, features }, reach) {
    const before = (i) => corners[(i + corners.length - 1) % corners.length]
    const reentrant = corners.filter((corner, i) => cross(sub(corner, before(i)), sub(corners[(i + 1) % corners.length], corner)) < 0)
    return reentrant.every((corner) => features.every((feature) =>
        distanceToEdges(feature.at_m ? [[feature.at_m, feature.at_m]] : edgesOf(polygonOf(feature, 1e-4)), corner) > reach))
}

// The first `count` rooms that bend no string.
function plainPlaces(dice, count) {
    const places = []
    while (places.length < count) {
        const place = plainPlace(dice)
        if (place.plan.features.length === 0 || !bendsNothing(place.plan, sourceOf(place.plan).reach)) continue
        const turn = dice.odds(0.5) ? turned(dice.between(0, 6.28), [dice.between(-3, 3), dice.between(-3, 3)]) : (point) => point
        places.push({ ...place, plan: movedPlan(place.plan, turn) })
    }
    return places
}

function geosAreas(places) {
    const lines = places.map(({ plan }) => `${sourceOf(plan).reach} ${segments}\nPOLYGON${wkt(plan.outline_m)}\n${sourceOf(plan).text}\n`)
    const run = spawnSync(helper, { input: lines.join(''), encoding: 'utf8', maxBuffer: 1 << 26 })
    if (run.status !== 0) throw new Error(`${helper}: status ${run.status} ${run.signal ?? ''} ${run.error ?? run.stderr}`)
    return run.stdout.trim().split('\n').map((line) => line.split(' ').map(Number))
}

let passed = 0
let failed = 0
let worst = 0

function compare(place, zone, want, got) {
    const off = Math.abs(got - want) / want
    worst = Math.max(worst, off)
    if (off <= tolerance) passed++
    else {
        failed++
        console.log(`zone ${zone}: ${got} m2, GEOS ${want}, off by ${off.toExponential(1)}: ${JSON.stringify(place.plan)}`)
    }
}

const places = plainPlaces(chance(0x6E05), Number(rooms))
const areas = geosAreas(places)
places.forEach((place, i) => {
    const answer = zonesOf(place)
    const { zone } = sourceOf(place.plan)
    const [inside, around] = areas[i]
    compare(place, zone, around, areaAt(answer, zone, height))
    if (zone === '2') compare(place, '1', inside, areaAt(answer, '1', height))
})
console.log(`${places.length} rooms, largest difference ${worst.toExponential(1)} of an area`)
console.log(`${passed} passed, ${failed} failed`)
process.exitCode = failed > 0 || passed < places.length ? 1 : 0
