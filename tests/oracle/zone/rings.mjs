// SPDX-License-Identifier: MIT
//
// Regions as `dripstone zones --json` gives them: rings of straight edges and arcs, the zone on their left.

import { areaOf, arcPoints, distance, isInside } from './plane.mjs'

const sagitta = 1e-7

// The angle of an arc from its start to its end, anticlockwise positive; a whole turn when they are the same point.
function angleOf({ from_m: from, to_m: to, centre_m: centre, turn }) {
    const at = (p) => Math.atan2(p[1] - centre[1], p[0] - centre[0])
    const whole = 2 * Math.PI
    const leftwards = distance(from, to) < 1e-12 ? whole : ((at(to) - at(from)) % whole + whole) % whole
    return turn === 'left' ? leftwards : leftwards - (distance(from, to) < 1e-12 ? 2 * whole : whole)
}

const polygonOfRing = (ring) => ring.flatMap((edge) =>
    (edge.centre_m ? arcPoints(edge.centre_m, edge.from_m, angleOf(edge), sagitta) : [edge.to_m]))

// The area that a ring holds, by exact segments of circles; negative for holes.
export function ringArea(ring) {
    const chords = areaOf(ring.map(({ from_m: from }) => from))
    const segments = ring.filter(({ centre_m: centre }) => centre).map((edge) => {
        const angle = angleOf(edge)
        return edge.radius_m ** 2 / 2 * (angle - Math.sin(angle))
    })
    return segments.reduce((sum, area) => sum + area, chords)
}

// What is wrong with a ring itself.
export function ringFaults(ring) {
    const faults = []
    ring.forEach((edge, i) => {
        const next = ring[(i + 1) % ring.length]
        if (distance(edge.to_m, next.from_m) > 1e-9) faults.push(`edge ${i} ends at ${edge.to_m}, the next starts at ${next.from_m}`)
        if (!edge.centre_m) return
        for (const end of [edge.from_m, edge.to_m]) {
            if (Math.abs(distance(end, edge.centre_m) - edge.radius_m) > 3e-6) faults.push(`${end} is not on the arc of edge ${i}`)
        }
    })
    return faults
}

// Parts with their rings as fine polygons, made once for many points.
export const polygonsOf = ({ zones }) => zones.flatMap(({ zone, parts }) =>
    parts.map((part) => ({ zone, low: part.from_m, high: part.to_m, polygons: part.rings.map(polygonOfRing) })))

// In an odd number of rings: inside an outer one and in none of its holes.
export const holds = ({ polygons }, p) => polygons.filter((polygon) => isInside(polygon, p)).length % 2 === 1
