// SPDX-License-Identifier: MIT
//
// The layers of the drawing, back to front: grid, walls, zones, what stands there, ways, points. Each takes `view` and
// draws in pixels of the screen; nothing here changes anything.

import { html } from '../html.js'
import { SHAPES } from '../parts/verdict.js'
import { linePath, ringsPath, shapePath, stripPath } from './paths.js'
import { metres, wayLabel } from './say.js'
import { centreOf, distance, isInside, middle, placesOf } from './shapes.js'
import { isGuess } from './things.js'
import { barOf, gridOf, toScreen } from './view.js'
import { numberPlaces } from './zones.js'

const WALL_M = 0.1

const atOf = (view) => (spot) => toScreen(view, spot)

// --- ground ---------------------------------------------------------------------------------------------------------

export function Grid({ view }) {
    const { step, xs, ys } = gridOf(view)
    const whole = (value) => Math.abs(value - Math.round(value)) < 1e-6
    const line = (d, main) => html`<path d=${d} class=${main ? 'plan-grid-main' : 'plan-grid'} />`
    const across = (wanted) => ys.filter((y) => (step >= 1) || whole(y) === wanted).map((y) => `M0 ${toScreen(view, [0, y])[1].toFixed(1)}H${view.width}`)
    const up = (wanted) => xs.filter((x) => (step >= 1) || whole(x) === wanted).map((x) => `M${toScreen(view, [x, 0])[0].toFixed(1)} 0V${view.height}`)
    return html`<g aria-hidden="true">${step < 1 && line([...across(false), ...up(false)].join(''), false)}${line([...across(true), ...up(true)].join(''), true)}</g>`
}

export function Scale({ view, north }) {
    const bar = barOf(view)
    const [x, y, length] = [16, view.height - 16, bar * view.scale]
    return html`<g aria-hidden="true" class="plan-scale">
        <path d=${`M${x} ${y - 6}V${y}H${x + length}V${y - 6}M${x + length / 2} ${y}v-4`} />
        <text x=${x + length + 8} y=${y + 1}>${bar < 1 ? `${Math.round(bar * 100)} cm` : `${bar} m`}</text>
        ${north !== undefined && html`<g transform=${`translate(${view.width - 30} 34) rotate(${north})`}><path d="M0 18V-14M-5 -6L0 -16L5 -6" /><text x="0" y="-20" text-anchor="middle">N</text></g>`}
    </g>`
}

// --- rooms ----------------------------------------------------------------------------------------------------------

const GAPS = new Set(['door', 'opening', 'window'])

// All walls first, what is cut through them, then all floors: between two rooms one wall remains.
export function Rooms({ view, rooms, things }) {
    const at = atOf(view)
    const paths = rooms.filter(({ shape }) => shape).map(({ shape }) => shapePath(at, view.scale, shape))
    const wide = 2 * WALL_M * view.scale
    return html`<g aria-hidden="true">
        ${paths.map((d) => html`<path d=${d} class="plan-wall" stroke-width=${wide} />`)}
        ${things.filter(({ kind, shape }) => GAPS.has(kind) && shape.form === 'line').map(({ shape }) => html`<path d=${linePath(at, [shape.from, shape.to])} class="plan-gap" stroke-width=${wide + 2} />`)}
        ${paths.map((d) => html`<path d=${d} class="plan-floor" />`)}</g>`
}

export const WallLines = ({ view, rooms }) => html`<g aria-hidden="true">${rooms.filter(({ shape }) => shape).map(({ shape }) => html`<path d=${shapePath(atOf(view), view.scale, shape)} class="plan-wall-line" />`)}</g>`

// --- zones ----------------------------------------------------------------------------------------------------------

// Angles and closeness as in the core's drawing; pixels stand for a quarter of a millimetre of paper.
export const Hatches = () => html`<defs>
    <pattern id="plan-hatch-0" patternUnits="userSpaceOnUse" width="6" height="6" patternTransform="rotate(45)"><path d="M0 0H6M0 0V6" class="plan-hatch" /></pattern>
    <pattern id="plan-hatch-1" patternUnits="userSpaceOnUse" width="8" height="8" patternTransform="rotate(135)"><path d="M0 0H8" class="plan-hatch" /></pattern>
    <pattern id="plan-hatch-2" patternUnits="userSpaceOnUse" width="16" height="16" patternTransform="rotate(45)"><path d="M0 0H16" class="plan-hatch" /></pattern>
    <pattern id="plan-hatch-3" patternUnits="userSpaceOnUse" width="16" height="16"><path d="M0 8H4" class="plan-hatch" /></pattern>
</defs>`

const hatchOf = (word) => (/^[0-3]$/.test(word) ? `url(#plan-hatch-${word})` : 'none')

export function Zones({ view, shown }) {
    const at = atOf(view)
    return html`<g aria-hidden="true">${[...shown].reverse().map(({ word, part, higher }) => {
        const d = ringsPath(at, view.scale, part.rings)
        return html`<g key=${word}><path d=${d} class="plan-zone-floor" /><path d=${d} class="plan-zone" fill=${hatchOf(word)} />
            ${higher.map((other) => html`<path d=${ringsPath(at, view.scale, other.rings)} class="plan-zone-higher" />`)}</g>`
    })}</g>`
}

const rangeWords = ({ from_m: from, to_m: to }) => (Number.isFinite(to) ? (Math.abs(from) > 0.0005 && Number.isFinite(from) ? `${metres(from)} to ${metres(to)} m` : `up to ${metres(to)} m`) : '')

// ranges: whether heights are measured, so that from where to where a zone reaches is worth saying.
export function ZoneNumbers({ view, shown, clear, ranges }) {
    return html`<g aria-hidden="true">${numberPlaces(shown, clear).map((place, i) => {
        const room = place ? place.room * view.scale : 0
        if (room < 7) return null
        const [x, y] = toScreen(view, place.at)
        const range = ranges && rangeWords(shown[i].range)
        const roomy = range && room > 36
        return html`<g key=${shown[i].word} class=${room < 20 ? 'plan-zone-number plan-zone-tight' : 'plan-zone-number'}><text x=${x} y=${y + (roomy ? 3 : 9)}>${shown[i].words.join(' · ')}</text>
            ${roomy && html`<text x=${x} y=${y + 20} class="plan-zone-range">${range}</text>`}</g>`
    })}</g>`
}

// --- things ---------------------------------------------------------------------------------------------------------

const VESSELS = new Set(['bath', 'shower-basin', 'washbasin'])
const SOLIDS = new Set(['wall', 'column'])

function inner(shape) {
    const m = centreOf(shape)
    const nearer = (spot) => [m[0] + (spot[0] - m[0]) * 0.9, m[1] + (spot[1] - m[1]) * 0.9]
    if (shape.form === 'round') return { ...shape, radius: shape.radius * 0.9 }
    return { ...shape, corners: shape.corners.map((corner) => (Array.isArray(corner) ? nearer(corner) : { to_m: nearer(corner.to_m), through_m: nearer(corner.through_m) })) }
}

// The leaf stands open at a right angle, into a room where one side is one.
function doorPaths(at, scale, { from, to }, rooms) {
    const [dx, dy] = [to[0] - from[0], to[1] - from[1]]
    const m = middle(from, to)
    const left = rooms.some((places) => isInside([m[0] - 0.3 * dy, m[1] + 0.3 * dx], places))
    const leaf = left ? [from[0] - dy, from[1] + dx] : [from[0] + dy, from[1] - dx]
    const r = distance(from, to) * scale
    const [ex, ey] = at(leaf)
    return { leaf: linePath(at, [from, leaf]), swing: `${linePath(at, [to])}A${r} ${r} 0 0 ${left ? 0 : 1} ${ex} ${ey}` }
}

const WINDOW_M = 0.1

function Line({ at, scale, item, rooms }) {
    const { owner, kind, shape } = item
    if (kind === 'partition') return html`<path d=${stripPath(at, shape.from, shape.to, Math.max(owner.thickness_m ?? 0.001, 3 / scale))} class=${owner.fixed === false ? 'plan-solid plan-loose' : 'plan-solid'} />`
    const gap = html`<path d=${linePath(at, [shape.from, shape.to])} class="plan-gap" stroke-width="3" />`
    if (kind === 'door') {
        const { leaf, swing } = doorPaths(at, scale, shape, rooms)
        return html`${gap}<path d=${leaf} class="plan-shape" /><path d=${swing} class="plan-hair" />`
    }
    if (kind === 'window') return html`${gap}<path d=${stripPath(at, shape.from, shape.to, Math.max(WINDOW_M, 4 / scale))} class="plan-hair" /><path d=${linePath(at, [shape.from, shape.to])} class="plan-shape" />`
    return html`${gap}<path d=${linePath(at, [shape.from, shape.to])} class=${kind === 'opening' ? 'plan-hidden' : 'plan-shape'} />`
}

export function Thing({ view, item, rooms }) {
    const { shape, kind } = item
    const [at, scale] = [atOf(view), view.scale]
    if (shape.form === 'line') return html`<${Line} ...${{ at, scale, item, rooms }} />`
    if (shape.form === 'spot') {
        const [x, y] = at(shape.at)
        return html`<circle cx=${x} cy=${y} r="8" class="plan-shape plan-paper" /><circle cx=${x} cy=${y} r="2.5" class="plan-dot" />`
    }
    if (shape.form === 'slope') return html`<path d=${`${linePath(at, shape.places)}Z`} class="plan-hidden" />${shape.places.map((place) => {
        const [x, y] = at(place)
        return html`<path d=${`M${x - 5} ${y}h10M${x} ${y - 5}v10`} class="plan-shape" />`
    })}`
    const d = shapePath(at, scale, shape)
    const look = SOLIDS.has(kind) ? 'plan-solid' : kind === 'raised-floor' ? 'plan-hidden' : 'plan-shape'
    return html`<path d=${d} class=${look} />${VESSELS.has(kind) && html`<path d=${shapePath(at, scale, inner(shape))} class="plan-hair" />`}`
}

// How high a sloping ceiling is at the places that it is given by.
export const SlopeHeights = ({ view, items }) => html`<g aria-hidden="true">${items.filter(({ shape }) => shape.form === 'slope').map(({ shape }) => shape.places.map((place, i) => {
    const [x, y] = toScreen(view, place)
    const isLeft = x > view.width - 60
    return html`<text key=${i} x=${isLeft ? x - 7 : x + 7} y=${y + 18} class=${`plan-small ${isLeft ? 'plan-end' : ''}`}>${metres(place[2] ?? 0)} up</text>`
}))}</g>`

// The name inside a thing that has the room for it.
export function ThingName({ view, item }) {
    if (!item.owner.name || !(item.shape.form === 'outline' || item.shape.form === 'round')) return null
    const places = placesOf(item.shape).map((place) => toScreen(view, place)[0])
    if (Math.max(...places) - Math.min(...places) < item.owner.name.length * 7) return null
    const [x, y] = toScreen(view, centreOf(item.shape))
    return html`<text x=${x} y=${y + 4} class="plan-small plan-middle">${item.owner.name}</text>`
}

// --- ways and points ------------------------------------------------------------------------------------------------

export function Way({ view, way }) {
    const at = atOf(view)
    const d = linePath(at, way.places)
    const label = wayLabel(way)
    const [x, y] = at(label.at)
    const [dx, dy] = label.along
    const angle = (Math.atan2(-dy, dx) * 180) / Math.PI
    const upright = angle > 90 ? angle - 180 : angle <= -90 ? angle + 180 : angle
    return html`<g aria-hidden="true"><path d=${d} class="plan-way-clear" /><path d=${d} class=${way.taut ? 'plan-way' : 'plan-way plan-way-straight'} />
        ${way.places.slice(0, -1).map((place) => html`<circle cx=${at(place)[0]} cy=${at(place)[1]} r="3" class="plan-dot" />`)}
        <text transform=${`translate(${x} ${y}) rotate(${upright})`} y="-6" class="plan-way-length">${metres(way.metres)} m</text></g>`
}

const ROUGH_M = 0.1 // what "about" stands for, docs/plan.md

// A verdict's own shape on paper of its own; round it how large the point is, and how far off it may be.
export function PointMark({ view, item, verdict }) {
    const { size_m: size, tolerance_m: tolerance, about } = item.owner
    const [x, y] = toScreen(view, item.shape.at)
    const off = isGuess(item.owner) ? 0 : (tolerance ?? (about ? ROUGH_M : 0)) * view.scale
    const [w, d] = [size?.[0] ?? 0, size?.[1] ?? 0].map((side) => side * view.scale)
    return html`${w > 4 || d > 4 ? html`<rect x=${x - w / 2} y=${y - d / 2} width=${w} height=${d} class="plan-hair" />` : null}
        ${off > 11 && html`<circle cx=${x} cy=${y} r=${off} class="plan-hidden" />`}
        <circle cx=${x} cy=${y} r="11" class="plan-mark-paper" />
        <svg x=${x - 7} y=${y - 7} width="14" height="14" viewBox="0 0 16 16" class=${`plan-mark verdict-${verdict ?? 'unknown'}`}>${SHAPES[verdict ?? 'unknown']}</svg>`
}

// Short names beside the points, on the side where there is room.
export const PointNames = ({ view, items }) => html`<g aria-hidden="true">${items.map(({ owner, shape }) => {
    const [x, y] = toScreen(view, shape.at)
    const isLeft = x > view.width - 20 - 8 * owner.id.length
    return html`<text key=${owner.id} x=${isLeft ? x - 14 : x + 14} y=${y + 4} class=${`plan-small ${isLeft ? 'plan-end' : ''}`}>${owner.id}</text>`
})}</g>`

// A measure off a wall, as on a drawing: a thin line between two slants, its length beside it.
export function Gap({ view, gap }) {
    const [[x1, y1], [x2, y2]] = [gap.from, gap.to].map(atOf(view))
    const isLevel = Math.abs(x2 - x1) >= Math.abs(y2 - y1)
    const slant = (x, y) => `M${x - 4} ${y + 4}L${x + 4} ${y - 4}`
    const [x, y] = [(x1 + x2) / 2, (y1 + y2) / 2]
    return html`<g class="plan-gap-line" aria-hidden="true"><path d=${`M${x1} ${y1}L${x2} ${y2}${slant(x1, y1)}${slant(x2, y2)}`} />
        <text x=${isLevel ? x : x + 6} y=${isLevel ? y - 5 : y + 5} text-anchor=${isLevel ? 'middle' : 'start'}>${metres(gap.metres)}</text></g>`
}

export function Handle({ view, handle }) {
    const [x, y] = toScreen(view, handle.at)
    if (handle.look === 'turn') return html`<g class="plan-handle"><circle cx=${x} cy=${y} r="9" /><path d=${`M${x - 4} ${y + 2}a4.5 4.5 0 1 1 4 2.5m-1.5 -3l1.5 3l-3 1.5`} /></g>`
    if (handle.look === 'bar') {
        const angle = (Math.atan2(-handle.along[1], handle.along[0]) * 180) / Math.PI
        return html`<rect x="-11" y="-4" width="22" height="8" transform=${`translate(${x} ${y}) rotate(${angle})`} class="plan-handle" />`
    }
    if (handle.look === 'round') return html`<circle cx=${x} cy=${y} r="6" class="plan-handle" />`
    return html`<rect x=${x - 6} y=${y - 6} width="12" height="12" class="plan-handle" />`
}
