// SPDX-License-Identifier: MIT
//
// Zones against a slow second implementation: node tests/oracle/zone_oracle.mjs [PLACES] [SEED]
//
// In random bathrooms and pool halls with partitions, columns and openings, for random points:
//
// - zone and distance are those of the graph of corners (zone/string.mjs, which says how exact it is); up to half a
//   millimetre beyond a limit the zone is the stricter one, and a point nearer to that than the error is compared for its
//   distance only;
// - the path is a way: it starts at its source, ends at the point, is as long as it says and passes through nothing, so
//   that the distance cannot be too short; and between two points that see each other, distances differ by no more than
//   the straight line, so that it cannot be too long where any other is right;
// - for some places, distances lie between the bounds of a grid (zone/grid.mjs);
// - the region that holds a point is the point's zone; areas are those of the rings; in some places they are counted;
// - a mirrored, turned or scaled plan gives the same, one more partition never a shorter distance or stricter zone.

import { add, between, distance, distanceToEdges, left, sub, times, unit } from './zone/plane.mjs'
import { chance, movedPlan, randomPlace, randomPoints, turned, withPartition } from './zone/rooms.mjs'
import { isFree, levelLength, runsFree } from './zone/string.mjs'
import { gridBounds } from './zone/grid.mjs'
import { expected, scene as sceneFor, stricter } from './zone/rules.mjs'
import { areaAt, zonesOf } from './zone/program.mjs'
import { holds, polygonsOf, ringArea, ringFaults } from './zone/rings.mjs'

const pointsOfPlace = 50
const gridPlaces = 10
const countedPlaces = 5
const printed = 1e-6 // lengths and areas in answers are rounded to this

const [count = '100', seed = '1'] = process.argv.slice(2)
const dice = chance(Number(seed))
const tally = new Map()
const shown = new Map()
const grid = { all: 0, near: 0 }

// Counts one comparison of a sort; of failures, shows the first three of each sort.
function check(sort, holdsTrue, say) {
    const row = tally.get(sort) ?? { passed: 0, failed: 0 }
    tally.set(sort, row)
    row[holdsTrue ? 'passed' : 'failed']++
    if (holdsTrue || (shown.get(sort) ?? 0) >= 3) return
    shown.set(sort, (shown.get(sort) ?? 0) + 1)
    console.log(`FAILED ${sort}: ${say()}`)
}

const show = (value) => JSON.stringify(value)

/* --- zone, distance, path ---------------------------------------------------------------------------------------- */

const heights = { pool: [0.7, 1.2, 2.3, 2.7, 4], sauna: [0.5, 1.5], 'bath-room': [0.05, 0.3, 1.1, 1.1, 2.2, 2.3] }

// Inside a vessel and below its bottom nothing is said unless an `under-bath` is; such points are left out.
const isUnderVessel = (want, z, scene) => want.each.some(({ length }, i) => length === 0 && z >= 0 && z < scene.sources[i].feature.bottom_m)

function spotsOf(scene, place) {
    const reach = place.kind === 'pool' ? 4.5 : 1.4
    return randomPoints(dice, scene, pointsOfPlace, reach).map(({ point, near }) => {
        const z = dice.pick(heights[place.kind])
        return { point, near, z, want: expected(scene, point, z) }
    }).filter(({ want, z }) => !isUnderVessel(want, z, scene))
}

const answersAt = (place, spots) => zonesOf(place, spots.map(({ point, z }) => [...point, z]))

function checkPath(scene, spot, got, named) {
    const path = got.path_m
    const source = scene.sources[named]
    const length = path.slice(1).reduce((sum, p, i) => sum + distance(path[i], p), 0)
    const off = source.polygon ? distanceToEdges(source.edges, path[0]) : distance(source.feature.at_m, path[0])
    const slack = scene.bound + printed * (path.length + 1)
    const isWhole = off <= slack && distance(path.at(-1), spot.point) <= slack && Math.abs(length - got.distance_m) <= slack
    const free = path.slice(1).every((p, i) => runsFree(scene, path[i], p, scene.isCurved ? 1.1 * scene.bound : 2 * printed))
    check('path', isWhole && free, () =>
        `${show(path)} from ${off} off, ${length} long, not ${got.distance_m}, ${free ? 'free' : 'through something'}: ${spot.text}`)
}

function checkDistance(scene, spot, got) {
    const named = spot.want.each.findIndex(({ id }) => id === got.from)
    if (named < 0) {
        const isCutOff = spot.want.each.every(({ length }) => length === Infinity)
        const isOfRoom = got.zone === scene.rules.base(spot.z) && (got.zone !== 'outside' || isCutOff)
        check('from', got.from === null && isOfRoom, () => `from ${show(got.from)}, zone ${got.zone}: ${spot.text}`)
        return
    }
    const want = spot.want.each[named].length
    const slack = scene.bound + printed
    check('distance', want === Infinity ? got.distance_m === null : Math.abs(got.distance_m - want) <= slack,
        () => `${got.distance_m} from ${got.from}, expected ${want}: ${spot.text}`)
    check('zone of its source', spot.want.margin < slack || spot.want.each[named].zone === got.zone,
        () => `${got.from} makes it zone ${spot.want.each[named].zone}, not ${got.zone}: ${spot.text}`)
    if (got.distance_m > 0 && got.path_m) checkPath(scene, spot, got, named)
}

function checkSpots(scene, spots, answer) {
    spots.forEach((spot, i) => {
        const got = answer.at[i]
        check('zone', spot.want.margin < scene.bound + printed || got.zone === spot.want.zone,
            () => `${got.zone}, expected ${spot.want.zone}, ${spot.want.margin} from a limit: ${spot.text}`)
        checkDistance(scene, spot, got)
        if (scene.sources.every(({ feature, isCrossed }) => feature.rim_m > 0 && !isCrossed)) checkFromZone1(scene, spot, got)
    })
}

// Where all sources are vessels that no wall stands on, zone 1 is their inside.
function checkFromZone1(scene, { point, want, text }, got) {
    const level = Math.min(...scene.sources.map((source) => levelLength(source, point)))
    const string = Math.min(...want.each.map(({ length }) => length))
    const near = (a, b) => Math.abs(a - b) <= scene.bound + printed
    check('from zone 1', string === Infinity ? got.zone1_string_m === null : near(got.zone1_distance_m, level) && near(got.zone1_string_m, string),
        () => `${got.zone1_distance_m}, by string ${got.zone1_string_m}, expected ${level} and ${string}: ${text}`)
}

// On a partition too thin to be let into, a point has the stricter of the zones on both sides.
function checkThin(scene, place) {
    const thin = place.plan.features.filter(({ kind, thickness_m: thickness }) => kind === 'partition' && thickness < 0.02)
    const spots = thin.map(({ from_m: from, to_m: to, thickness_m: thickness }) => {
        const point = between(from, to, dice.between(0.1, 0.9))
        const off = times(left(unit(sub(to, from))), thickness / 2 + 2e-4)
        const sides = [add(point, off), sub(point, off)].filter((side) => isFree(scene, side))
        return { point, z: 1.1, sides: sides.map((side) => expected(scene, side, 1.1)) }
    }).filter(({ sides }) => sides.length > 0 && sides.every(({ margin }) => margin > 1e-3))
    if (spots.length === 0) return
    const answer = answersAt(place, spots)
    spots.forEach(({ point, z, sides }, i) => {
        const wanted = sides.reduce((found, { zone }) => stricter(scene.rules.order, found, zone), scene.rules.base(z))
        const { zone } = answer.at[i]
        check('on a thin partition', zone === wanted || zone === 'unknown',
            () => `${zone}, expected ${wanted}: at ${show([...point, z])} in ${scene.text}`)
    })
}

function checkPairs(scene, spots, answer) {
    for (let i = 0; i + 1 < spots.length; i++) {
        for (let j = i + 1; j < Math.min(spots.length, i + 8); j++) {
            const [a, b] = [answer.at[i], answer.at[j]]
            const apart = distance(spots[i].point, spots[j].point)
            if (a.from !== b.from || a.distance_m === null || b.distance_m === null || Math.abs(a.distance_m - b.distance_m) <= apart) continue
            check('pair', Math.abs(a.distance_m - b.distance_m) <= apart + scene.bound + printed || !runsFree(scene, spots[i].point, spots[j].point),
                () => `${a.distance_m} and ${b.distance_m}, ${apart} apart: ${spots[i].text} and ${show(spots[j].point)}`)
        }
    }
}

// One source at a time: the grid knows of no others.
function checkGrid(scene, spots) {
    const source = scene.sources[0]
    const reach = 1.5
    const near = spots.filter(({ want }) => want.each[0].length > 0 && want.each[0].length < reach - 0.1)
    const bounds = gridBounds(scene, source, near.map(({ near: at }) => at), reach)
    near.forEach(({ near: at, point, want, text }, i) => {
        if (!bounds[i]) return
        const slack = scene.bound + distance(at, point)
        const { length } = want.each[0]
        check('grid', length <= bounds[i].above + slack && length >= bounds[i].below - slack && bounds[i].above <= 1.0131 * length + 0.03,
            () => `${length}, not ${show(bounds[i])}: ${text}`)
        grid.all++
        if (bounds[i].above <= length + slack + 0.002) grid.near++
    })
}

/* --- regions ----------------------------------------------------------------------------------------------------- */

function checkRegions(scene, spots, answer) {
    for (const { parts } of answer.zones) {
        for (const { area_m2: area, rings } of parts) {
            const sum = rings.reduce((all, ring) => all + ringArea(ring), 0)
            check('area of rings', Math.abs(sum - area) <= printed * 2 * (1 + rings.flat().length), () => `${area}, rings hold ${sum}: ${scene.text}`)
            for (const ring of rings) check('ring', ringFaults(ring).length === 0, () => `${ringFaults(ring)[0]}: ${scene.text}`)
        }
    }
    const parts = polygonsOf(answer)
    spots.forEach(({ near, point, z, want, text }, i) => {
        // Nor where the region cannot hold it: in a partition, or in the sliver by its foot that counts as closed.
        if (want.margin < 2e-3 || !isFree(scene, near) || distanceToEdges(scene.edges, near) < 1e-5) return
        const found = parts.filter((part) => part.low <= z && z <= part.high && holds(part, near)).map(({ zone }) => zone)
        const wanted = answer.at[i].zone === 'outside' ? [] : [answer.at[i].zone]
        check('region', show(found) === show(wanted),
            () => `in the regions of ${show(found)}, zone ${answer.at[i].zone}: ${text}, by ${sub(near, point)}`)
    })
}

// Areas counted with one random point in every square: each square that a border crosses is off by half of it at most,
// independently, so the sum by no more than five times sqrt(squares) / 2 squares (one time in a million).
function checkCounted(scene, answer) {
    const z = 1.1
    const side = scene.kind === 'pool' ? 0.2 : 0.05
    const counted = new Map()
    let borders = 0
    const corners = scene.rooms.flat()
    const [low, high] = [Math.min, Math.max].map((end) => [0, 1].map((axis) => end(...corners.map((p) => p[axis]))))
    for (let x = low[0]; x < high[0]; x += side) {
        for (let y = low[1]; y < high[1]; y += side) {
            const p = [x + dice.between(0, side), y + dice.between(0, side)]
            const edge = distanceToEdges(scene.edges, p)
            if (edge < side * 1.5) borders++
            if (!isFree(scene, p)) continue
            const { zone, margin } = expected(scene, p, z, 0)
            if (margin < side * 1.5 && edge >= side * 1.5) borders++
            counted.set(zone, (counted.get(zone) ?? 0) + side * side)
        }
    }
    for (const zone of ['1', '2', '3']) {
        const off = Math.abs(areaAt(answer, zone, z) - (counted.get(zone) ?? 0))
        check('area counted', off <= 2.5 * Math.sqrt(borders) * side * side,
            () => `zone ${zone}: ${areaAt(answer, zone, z)}, counted ${counted.get(zone)}: ${scene.text}`)
    }
}

/* --- changed plans ----------------------------------------------------------------------------------------------- */

// What the moved plan answers at the moved points is the same, lengths times the scale.
function checkMoved(sort, scene, place, spots, answer, move, scale = 1) {
    const moved = { ...place, plan: movedPlan(place.plan, move, scale) }
    const other = answersAt(moved, spots.map((spot) => ({ ...spot, point: move(spot.point) })))
    // Millimetres that the program takes as closed or as thinnest do not grow with the plan.
    const slack = scale === 1 ? scene.bound + printed : 0.02 * Math.max(scale, 1)
    spots.forEach((spot, i) => {
        const [was, is] = [answer.at[i], other.at[i]]
        const off = was.from === is.from && was.distance_m !== null ? Math.abs(is.distance_m - was.distance_m * scale) : 0
        check(sort, off <= slack * Math.max(1, scale), () => `${is.distance_m}, was ${was.distance_m}, times ${scale}: ${spot.text}`)
        if (scale === 1) check(sort, spot.want.margin < slack || was.zone === is.zone,
            () => `zone ${is.zone}, was ${was.zone}: ${spot.text}`)
    })
    if (scale !== 1) return
    for (const zone of ['0', '1', '2', '3']) {
        const [was, is] = [areaAt(answer, zone, 1.1), areaAt(other, zone, 1.1)]
        check(sort, Math.abs(was - is) <= (scene.isCurved ? 10 * scene.bound : 4 * printed), () => `zone ${zone} ${is} m2, was ${was}: ${scene.text}`)
    }
}

function checkPartition(scene, place, spots, answer) {
    const plan = withPartition(dice, place.plan)
    if (!plan) return
    const narrower = sceneFor({ ...place, plan })
    const free = spots.filter(({ near }) => isFree(narrower, near))
    const other = answersAt({ ...place, plan }, free)
    const order = scene.rules.order
    free.forEach((spot, i) => {
        const [was, is] = [answer.at[spots.indexOf(spot)], other.at[i]]
        const say = () => `zone ${is.zone}, ${is.distance_m}, was ${was.zone}, ${was.distance_m}, by ${show(plan.features.at(-1))}: ${spot.text}`
        if (was.from === is.from) check('more partitions', (is.distance_m ?? Infinity) >= was.distance_m - printed, say)
        check('more partitions', spot.want.margin < scene.bound || order.indexOf(is.zone) >= order.indexOf(was.zone), say)
    })
}

/* --- all --------------------------------------------------------------------------------------------------------- */

function checkPlace(place, nth) {
    const scene = { ...sceneFor(place), text: show(place.plan) }
    if (scene.sources.length === 0) return 0
    const spots = spotsOf(scene, place).map((spot) => ({ ...spot, text: `at ${show([...spot.point, spot.z])} in ${scene.text}` }))
    const answer = answersAt(place, spots)
    checkSpots(scene, spots, answer)
    checkThin(scene, place)
    checkPairs(scene, spots, answer)
    checkRegions(scene, spots, answer)
    const isCoarse = place.plan.features.every(({ thickness_m: thickness }) => !(thickness < 0.006))
    if (nth < gridPlaces && place.kind === 'bath-room' && isCoarse) checkGrid(scene, spots)
    if (nth % 10 === 0 && nth / 10 < countedPlaces) checkCounted(scene, answer)
    checkMoved('mirrored', scene, place, spots, answer, ([x, y]) => [-x, y])
    checkMoved('turned', scene, place, spots, answer, turned(dice.between(0, 6.28), [dice.between(-9, 9), dice.between(-9, 9)]))
    const scale = dice.pick([2, 3.7, 5])
    checkMoved('scaled', scene, place, spots, answer, (p) => times(p, scale), scale)
    checkPartition(scene, place, spots, answer)
    return spots.length
}

let points = 0
let places = 0
for (; places < Number(count); places++) {
    const place = randomPlace(dice)
    try {
        points += checkPlace(place, places)
    } catch (error) {
        check('program', false, () => `${error.message.trim()}: ${show(place.plan)}`)
    }
}
check('grid within 2 mm, 19 of 20', grid.near >= grid.all * 0.95, () => `${grid.near} of ${grid.all}`)
for (const [sort, { passed, failed }] of tally) console.log(`${sort}: ${passed} passed, ${failed} failed`)
const sum = (key) => [...tally.values()].reduce((all, row) => all + row[key], 0)
console.log(`${places} places, ${points} points`)
console.log(`${sum('passed')} passed, ${sum('failed')} failed`)
process.exitCode = sum('failed') > 0 || points < places * 10 ? 1 : 0
