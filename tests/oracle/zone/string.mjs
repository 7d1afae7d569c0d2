// SPDX-License-Identifier: MIT
//
// The stretched string, the obvious way: a graph of every corner that stands free, with every straight line between two
// corners that runs free, and the shortest way through it. A line runs free when, cut at each crossing with an edge of
// anything, the middle of each piece has free room on at least one side.
//
// Error. Every length that comes out is that of a real way, so it is never shorter than the shortest but for `clearance`
// at each bend. Nor is it longer: a shortest way bends only at corners, and leaves its source at the foot of the
// perpendicular, at a corner of the source, or where the source meets an edge; all of these are tried. What remains is
// rounding, `thinnest` for partitions without thickness, and the sagitta of curves (`curveSagitta` for sources; for
// columns and curved walls a polygon of `solidSagitta`). `bound` of a scene says how much in all.

import { add, between, distance, distanceToEdges, edgesOf, isInside, left, meetings, nearestOn, pointsAlong, polygonOf, sub, times, unit } from './plane.mjs'

const clearance = 1e-7
const thinnest = 1e-3
const curveSagitta = 3e-6
const solidSagitta = 5e-4
const sourceStep = 0.02

/* --- scenes ------------------------------------------------------------------------------------------------------ */

export function rectangleRound(from, to, thickness) {
    const side = times(left(unit(sub(to, from))), Math.max(thickness, thinnest) / 2)
    return [sub(from, side), sub(to, side), add(to, side), add(from, side)]
}

// The way through the wall at an opening: as wide as it, and deep enough to reach the rooms on both sides.
const passageOf = ({ from_m: from, to_m: to }, depth) => rectangleRound(from, to, 2 * depth)

// How far the walls on both sides of an opening are from its line: from its middle to the nearest wall of any room.
function reachOf({ from_m: from, to_m: to }, rooms) {
    const middle = between(from, to, 0.5)
    return Math.max(...rooms.map((room) => Math.min(...edgesOf(room).map((edge) => distance(nearestOn(edge, middle), middle)))))
}

// docs/plan.md: a partition that ends within 5 mm of a wall or of another partition stands on it, and goes a little in.
const closed = 5e-3
function closedPartition(feature, rooms, partitions) {
    const { from_m: from, to_m: to } = feature
    const way = unit(sub(to, from))
    const half = (other) => Math.max(other.thickness_m ?? 0, thinnest) / 2
    const past = (end) => {
        const walls = distanceToEdges(rooms.flatMap(edgesOf), end)
        const others = partitions.filter((other) => other !== feature)
            .map((other) => Math.max(0, distance(nearestOn([other.from_m, other.to_m], end), end) - half(other)))
        const gap = Math.min(walls, ...others)
        return gap <= closed ? gap + closed : 0
    }
    return rectangleRound(sub(from, times(way, past(from))), add(to, times(way, past(to))), feature.thickness_m ?? 0)
}

const isCurved = (feature) => feature.radius_m !== undefined || (feature.outline_m ?? []).some((entry) => entry.to_m)

// `counts` says whether a partition counts. `kinds` are the features that zones come from.
export function sceneOf(plan, kinds, counts) {
    const outlines = plan.rooms ?? [{ outline_m: plan.outline_m }]
    const rooms = outlines.map((room) => polygonOf(room, solidSagitta))
    const openings = plan.features.filter(({ kind }) => kind === 'opening')
    const passages = openings.map((opening) => passageOf(opening, reachOf(opening, rooms) + clearance))
    const solids = plan.features.flatMap((feature) => {
        if (feature.kind === 'wall' || feature.kind === 'column') return [polygonOf(feature, solidSagitta)]
        if (feature.kind !== 'partition' || !counts(feature)) return []
        return [closedPartition(feature, rooms, plan.features.filter(({ kind }) => kind === 'partition'))]
    })
    const curved = [...outlines, ...plan.features.filter(({ kind }) => kind === 'wall' || kind === 'column')].some(isCurved)
    const bound = curved ? 1e-3 : 3e-5
    const scene = { rooms, passages, solids, edges: [...rooms, ...passages, ...solids].flatMap(edgesOf), bound, isCurved: curved }
    scene.corners = [...rooms, ...passages, ...solids].flat().filter((corner) => standsFree(scene, corner))
    scene.ways = scene.corners.map((a) => scene.corners.map((b) => (runsFree(scene, a, b) ? distance(a, b) : Infinity)))
    scene.sources = plan.features.filter(({ kind }) => kinds.includes(kind)).map((feature) => sourceOf(scene, feature))
    return scene
}

/* --- free room --------------------------------------------------------------------------------------------------- */

export const isFree = ({ rooms, passages, solids }, p) =>
    (rooms.some((room) => isInside(room, p)) || passages.some((passage) => isInside(passage, p))) && !solids.some((solid) => isInside(solid, p))

// Free room somewhere close round a point, which itself may be on an edge.
function standsFree(scene, p) {
    const around = [0, 1, 2, 3, 4, 5, 6, 7].map((turn) => [Math.cos(turn * 0.785 + 0.2), Math.sin(turn * 0.785 + 0.2)])
    return around.some((way) => isFree(scene, add(p, times(way, clearance))))
}

// `slack` is how far into a wall the line may be: for a path whose points are rounded.
export function runsFree(scene, p, q, slack = clearance) {
    const length = distance(p, q)
    if (length < 1e-9) return true
    const side = times(left(unit(sub(q, p))), slack)
    const cuts = [0, ...meetings(p, q, scene.edges).sort((a, b) => a - b), 1]
    return cuts.slice(1).every((cut, i) => {
        if ((cut - cuts[i]) * length < slack) return true
        const middle = between(p, q, (cut + cuts[i]) / 2)
        return isFree(scene, add(middle, side)) || isFree(scene, sub(middle, side))
    })
}

/* --- sources ----------------------------------------------------------------------------------------------------- */

// What a way may start from: a point, or the edge of a shape; with the length from it to every corner, and whether a
// solid stands across it.
function sourceOf(scene, feature) {
    const polygon = feature.at_m ? undefined : polygonOf(feature, curveSagitta)
    const edges = polygon ? edgesOf(polygon) : []
    const crossings = scene.edges.flatMap(([a, b]) => meetings(a, b, edges).map((t) => between(a, b, t)))
    const starts = polygon ? [...pointsAlong(polygon, sourceStep), ...crossings] : [feature.at_m]
    const isCrossed = starts.some((start) => !standsFree(scene, start)) || scene.solids.flat().some((corner) => polygon && isInside(polygon, corner))
    const source = { feature, polygon, edges, starts, isCrossed }
    source.lengths = lengthsToCorners(scene, source)
    return source
}

// Straight from the source to a point: the nearest of all starts from which it runs free, as far as `limit`.
function straightLength(scene, { polygon, edges, starts }, p, limit) {
    if (polygon && isInside(polygon, p)) return 0
    const all = [...starts, ...edges.map((edge) => nearestOn(edge, p))].map((start) => [distance(start, p), start])
        .filter(([length]) => length < limit).sort(([a], [b]) => a - b)
    const first = all.find(([, start]) => runsFree(scene, start, p))
    return first ? first[0] : Infinity
}

function lengthsToCorners(scene, source) {
    const lengths = scene.corners.map((corner) => straightLength(scene, source, corner, Infinity))
    const done = lengths.map(() => false)
    for (let round = 0; round < lengths.length; round++) {
        let at = -1
        lengths.forEach((length, i) => { if (!done[i] && (at < 0 || length < lengths[at])) at = i })
        done[at] = true
        scene.ways[at].forEach((way, i) => { lengths[i] = Math.min(lengths[i], lengths[at] + way) })
    }
    return lengths
}

// The length of the string from a source to a point; Infinity when there is no way.
export function stringLength(scene, source, p) {
    const over = scene.corners.map((corner, i) => [source.lengths[i] + distance(corner, p), corner])
        .filter(([length]) => length < Infinity).sort(([a], [b]) => a - b)
    const first = over.find(([, corner]) => runsFree(scene, corner, p))
    const round = first ? first[0] : Infinity
    return Math.min(round, straightLength(scene, source, p, round))
}

// Level and straight, whatever stands between.
export function levelLength({ polygon, edges, feature }, p) {
    if (!polygon) return distance(feature.at_m, p)
    return isInside(polygon, p) ? 0 : Math.min(...edges.map((edge) => distance(nearestOn(edge, p), p)))
}
