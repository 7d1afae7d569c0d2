// SPDX-License-Identifier: MIT
//
// How far what is chosen stands off the walls, as one would measure it: level and upright, to the nearer wall. Pure.

import { boundsOf, placesOf } from './shapes.js'
import { wallsOf } from './snap.js'

const LEAST_M = 0.005

// Where a ray along an axis (way 1 or -1) from p meets the first of some walls: how far, Infinity when none.
function reach(p, axis, way, walls) {
    const other = 1 - axis
    let best = Infinity
    for (const [a, b] of walls) {
        const span = b[other] - a[other]
        if (Math.abs(span) < 1e-9) continue
        const share = (p[other] - a[other]) / span
        if (share < 0 || share > 1) continue
        const far = (a[axis] + share * (b[axis] - a[axis]) - p[axis]) * way
        if (far > -1e-6 && far < best) best = Math.max(0, far)
    }
    return best
}

// [{ from, to, metres }]: at most one level and one upright. rooms are shapes.
export function gapsOf(shape, rooms) {
    const walls = rooms.flatMap(wallsOf)
    const { low, high } = boundsOf(placesOf(shape))
    const middle = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2]
    return [0, 1].flatMap((axis) => {
        const ends = [[low[axis], -1], [high[axis], 1]].map(([start, way]) => {
            const from = axis ? [middle[0], start] : [start, middle[1]]
            return { from, way, far: reach(from, axis, way, walls) }
        })
        const { from, way, far } = ends[0].far <= ends[1].far ? ends[0] : ends[1]
        if (!Number.isFinite(far) || far < LEAST_M) return []
        return [{ from, to: axis ? [from[0], from[1] + way * far] : [from[0] + way * far, from[1]], metres: far }]
    })
}
