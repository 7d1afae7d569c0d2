// SPDX-License-Identifier: MIT
//
// The first room: a rectangle or an L by its sizes, or any outline by tapping its corners or walking along its walls
// with the tape measure.

import { html, useEffect, useRef, useState } from '../html.js'
import { NumberField } from '../parts/field.js'
import { Icon } from '../parts/icons.js'
import { attachGestures } from './gestures.js'
import { Grid, Scale } from './layers.js'
import { Small } from './palette.js'
import { linePath } from './paths.js'
import { metres } from './say.js'
import { boundsOf, distance, rectangle, tidy } from './shapes.js'
import { toGrid } from './snap.js'
import { cornerRoom, ROOM } from './things.js'
import { toMetres, toScreen, zoomed } from './view.js'

const SIZES = {
    rect: [['width', 'Width'], ['depth', 'Depth'], ['height', 'Ceiling height']],
    corner: [['width', 'Width over all'], ['depth', 'Depth over all'], ['cutWidth', 'Width cut away'], ['cutDepth', 'Depth cut away'], ['height', 'Ceiling height']]
}

const outlineFor = (form, { width, depth, cutWidth, cutDepth }) => (form === 'rect' ? rectangle(0, 0, width, depth) : cornerRoom(width, depth, cutWidth, cutDepth))

function Sized({ form, give, back, noHeight }) {
    const [size, setSize] = useState(ROOM)
    const fields = SIZES[form].filter(([key]) => !(noHeight && key === 'height'))
    const most = { cutWidth: size.width - 0.1, cutDepth: size.depth - 0.1 }
    return html`<div class="stack"><h2>${form === 'rect' ? 'Rectangular room' : 'L-shaped room'}</h2>
        <div class="plan-begin-sized"><${Small} owner=${{ outline_m: outlineFor(form, size) }} />
            <div class="form">${fields.map(([key, label]) => html`<${NumberField} key=${key} label=${label} unit="m" least=${0.1} most=${most[key] ?? 200} value=${size[key]} give=${(value) => value !== undefined && setSize({ ...size, [key]: value })} />`)}</div></div>
        <p class="small quiet">Measured from wall to wall. Whatever is not measured yet can be put right later, by number or by dragging a wall.</p>
        <div class="row"><button class="primary" onClick=${() => give(outlineFor(form, size), noHeight ? undefined : size.height)}>Begin with this room</button><button onClick=${back}>Back</button></div></div>`
}

// --- any outline ----------------------------------------------------------------------------------------------------

const WAYS = [['to the left', '←', [-1, 0]], ['upwards', '↑', [0, 1]], ['downwards', '↓', [0, -1]], ['to the right', '→', [1, 0]]]

const CLOSE_PX = 22

// The room's lower left at 0,0: nobody chose where on the screen to begin.
function fromOrigin(corners) {
    const { low } = boundsOf(corners)
    return corners.map(([x, y]) => [tidy(x - low[0]), tidy(y - low[1])])
}

// A corner: level or upright with the one before when it nearly is, on 5 cm.
function cornerAt(p, last, reach) {
    const [x, y] = p.map((value) => toGrid(value))
    if (!last) return [x, y]
    return [Math.abs(p[0] - last[0]) < reach ? last[0] : x, Math.abs(p[1] - last[1]) < reach ? last[1] : y]
}

function Walk({ corners, add }) {
    const [length, setLength] = useState(undefined)
    const last = corners[corners.length - 1] ?? [0, 0]
    const go = ([x, y]) => {
        if (!(length > 0)) return
        const next = [tidy(last[0] + x * length), tidy(last[1] + y * length)]
        add(corners.length ? [next] : [[0, 0], next])
    }
    return html`<fieldset class="row plan-walk"><legend class="small">Or wall by wall: its length, then the way it runs</legend>
        <${NumberField} label="Wall" unit="m" least=${0.01} most=${500} value=${length} give=${setLength} />
        ${WAYS.map(([word, sign, way]) => html`<button key=${word} aria-label=${`Wall ${word}`} onClick=${() => go(way)}>${sign}</button>`)}</fieldset>`
}

function useTaps(svg, view, setView, corners, setCorners, finish) {
    const now = useRef(null)
    now.current = {
        view,
        setView,
        grab: () => null,
        tap: (at) => {
            const near = corners.length > 2 && Math.hypot(...toScreen(view, corners[0]).map((value, axis) => value - at[axis])) < CLOSE_PX
            if (near) finish()
            else setCorners([...corners, cornerAt(toMetres(view, at), corners[corners.length - 1], 10 / view.scale)])
        }
    }
    useEffect(() => attachGestures(svg.current, () => now.current), [])
    useEffect(() => {
        const watcher = new ResizeObserver(([{ contentRect: { width, height } }]) => setView((old) => (old ? { ...old, width, height } : { width, height, x: 2, y: 1.5, scale: Math.max(30, Math.min(width / 6, height / 5)) })))
        watcher.observe(svg.current)
        return () => watcher.disconnect()
    }, [])
}

function Draft({ view, corners }) {
    const at = (spot) => toScreen(view, spot)
    const legs = corners.slice(1).map((to, i) => [corners[i], to])
    return html`<${Grid} view=${view} /><path d=${linePath(at, corners)} class="plan-draft" />
        ${corners.length > 2 && html`<path d=${linePath(at, [corners[corners.length - 1], corners[0]])} class="plan-draft plan-draft-open" />`}
        ${legs.map(([a, b], i) => { const [x, y] = at([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]); return html`<text key=${i} x=${x} y=${y - 6} class="plan-way-length">${metres(distance(a, b))} m</text>` })}
        ${corners.map((corner, i) => { const [x, y] = at(corner); return html`<circle key=${i} cx=${x} cy=${y} r=${i ? 5 : 9} class="plan-handle" />` })}<${Scale} view=${view} />`
}

function Free({ give, back }) {
    const svg = useRef(null)
    const [view, setView] = useState(null)
    const [corners, setCorners] = useState([])
    const finish = () => corners.length > 2 && give(fromOrigin(corners))
    useTaps(svg, view, setView, corners, setCorners, finish)
    const zoom = (factor) => setView((old) => zoomed(old, [old.width / 2, old.height / 2], factor))
    return html`<div class="stack"><h2>Any outline</h2>
        <p>Tap the corners in order, once round; tap the first one again to close.</p>
        <svg class="plan-drawing plan-begin-drawing" ref=${svg} role="img" aria-label=${`Outline with ${corners.length} corners so far`}>${view && html`<${Draft} ...${{ view, corners }} />`}</svg>
        <${Walk} corners=${corners} add=${(more) => setCorners([...corners, ...more])} />
        <p class="unseen" aria-live="polite">${corners.length ? `Corner ${corners.length} at ${corners[corners.length - 1].map(metres).join(', ')}` : ''}</p>
        <div class="row"><button class="primary" aria-disabled=${corners.length > 2 ? undefined : 'true'} onClick=${finish}>Close the outline</button>
            <button aria-disabled=${corners.length ? undefined : 'true'} onClick=${() => setCorners(corners.slice(0, -1))}><${Icon} name="undo" />Last corner</button>
            <button aria-label="Nearer" onClick=${() => zoom(1.4)}><${Icon} name="add" /></button><button aria-label="Further away" onClick=${() => zoom(1 / 1.4)}>−</button>
            <button onClick=${back}>Back</button></div></div>`
}

const CHOICES = [
    ['rect', 'Rectangular', 'width by depth by height', rectangle(0, 0, 3, 2.2)],
    ['corner', 'L-shaped', 'a corner is cut away', cornerRoom(3, 2.2, 1.3, 1)],
    ['free', 'Any outline', 'tap its corners, or walk the walls', [[0, 0], [3, 0], [3, 1.4], [2.2, 2.2], [0.8, 2.2], [0, 1.2]]]
]

// give(outline_m, height_m)
export function Begin({ give, noHeight = false }) {
    const [form, setForm] = useState(null)
    const back = () => setForm(null)
    if (form === 'free') return html`<${Free} ...${{ give, back }} />`
    if (form) return html`<${Sized} ...${{ form, give, back, noHeight }} />`
    return html`<div class="stack"><h2>${noHeight ? 'Another room' : 'Begin with the room'}</h2>
        <div class="plan-choices">${CHOICES.map(([word, label, about, outline_m]) => html`<button key=${word} onClick=${() => setForm(word)}><${Small} owner=${{ outline_m }} /><span><strong>${label}</strong><br /><span class="small quiet">${about}</span></span></button>`)}</div></div>`
}
