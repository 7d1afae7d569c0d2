// SPDX-License-Identifier: MIT
//
// Shapes as SVG paths on the screen: outlines with arcs, rings of zones exactly as the core gives them.
// `at` takes metres to the screen; pixels a metre are `scale`.

import { arcOf, distance, edgesOf, spotOf } from './shapes.js'

const number = (value) => Math.round(value * 100) / 100
const pair = (spot) => `${number(spot[0])} ${number(spot[1])}`

// On the screen y goes down, so what turns left in metres is drawn with sweep 0.
const arcTo = (at, scale, { radius, left, long, to }) => {
    const r = number(radius * scale)
    return `A${r} ${r} 0 ${long ? 1 : 0} ${left ? 0 : 1} ${pair(at(to))}`
}

function edgePath(at, scale, { from, to, through }) {
    const arc = through && arcOf(from, through, to)
    return arc ? arcTo(at, scale, { ...arc, long: arc.sweep > Math.PI, to }) : `L${pair(at(to))}`
}

const circlePath = (at, scale, [x, y], radius) => {
    const half = (to) => arcTo(at, scale, { radius, left: true, long: false, to })
    return `M${pair(at([x + radius, y]))}${half([x - radius, y])}${half([x + radius, y])}Z`
}

export function outlinePath(at, scale, corners) {
    const edges = edgesOf(corners)
    return `M${pair(at(spotOf(corners[corners.length - 1])))}${edges.map((edge) => edgePath(at, scale, edge)).join('')}Z`
}

export function shapePath(at, scale, shape) {
    if (shape.form === 'outline') return outlinePath(at, scale, shape.corners)
    if (shape.form === 'round') return circlePath(at, scale, shape.centre, shape.radius)
    if (shape.form === 'line') return linePath(at, [shape.from, shape.to])
    return ''
}

export const linePath = (at, places) => places.map((place, i) => `${i ? 'L' : 'M'}${pair(at(place))}`).join('')

// A strip of some thickness along a line, as a partition is.
export function stripPath(at, from, to, thickness) {
    const length = distance(from, to) || 1
    const [nx, ny] = [((from[1] - to[1]) / length) * thickness / 2, ((to[0] - from[0]) / length) * thickness / 2]
    const corners = [[from[0] + nx, from[1] + ny], [to[0] + nx, to[1] + ny], [to[0] - nx, to[1] - ny], [from[0] - nx, from[1] - ny]]
    return `${linePath(at, corners)}Z`
}

// --- zones ----------------------------------------------------------------------------------------------------------

function segmentPath(at, scale, segment) {
    const { from_m: from, to_m: to, centre_m: centre, radius_m: radius, turn } = segment
    if (!centre) return `L${pair(at(to))}`
    const left = turn === 'left'
    if (distance(from, to) < 1e-6) {
        const across = [2 * centre[0] - from[0], 2 * centre[1] - from[1]]
        return [across, to].map((end) => arcTo(at, scale, { radius, left, long: false, to: end })).join('')
    }
    const angle = (p) => Math.atan2(p[1] - centre[1], p[0] - centre[0])
    const sweep = ((angle(to) - angle(from)) * (left ? 1 : -1) + 4 * Math.PI) % (2 * Math.PI)
    return arcTo(at, scale, { radius, left, long: sweep > Math.PI, to })
}

export const ringsPath = (at, scale, rings) =>
    rings.map((ring) => `M${pair(at(ring[0].from_m))}${ring.map((segment) => segmentPath(at, scale, segment)).join('')}Z`).join('')
