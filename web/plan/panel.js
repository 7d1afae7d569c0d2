// SPDX-License-Identifier: MIT
//
// Numbers of what is chosen: exact, typed as well as dragged. Beside the drawing on a desk, a sheet from below on a phone.

import { html } from '../html.js'
import { NumberField, TextField } from '../parts/field.js'
import { Form } from '../parts/form.js'
import { Icon } from '../parts/icons.js'
import { withKey } from '../state/document.js'
import { addressOf } from '../state/route.js'
import { heightName, nameOf } from './lists.js'
import { anchorOf, itemWords, lengthOf, sentence, sizeWords } from './say.js'
import { distance, moved, rectOf, rectResized, spotOf, throughOf, tidy, toMillimetre, turned } from './shapes.js'
import { isGuess, settled, thingOf, unmeasuredHeights } from './things.js'

// Shown to the millimetre; what is not typed anew stays as exact as it is.
const Metres = ({ label, value, give, least = -1000, most = 1000, hint }) => html`<${NumberField} ...${{ label, hint, least, most }} unit="m" value=${value === undefined ? undefined : toMillimetre(value)} give=${(number) => number !== undefined && give(number)} />`

// --- where and how large --------------------------------------------------------------------------------------------

// x and y of the place that stands for a shape; the whole of it moves.
function Place({ item, change }) {
    const [x, y] = anchorOf(item.shape)
    const to = (axis, label) => (value) => change(label, (owner) => moved(owner, axis ? 0 : value - x, axis ? value - y : 0))
    return html`<${Metres} label="x" value=${x} give=${to(0, 'x')} /><${Metres} label="y" value=${y} give=${to(1, 'y')} />`
}

function Rect({ item, change }) {
    const { corners } = item.shape
    const rect = rectOf(corners)
    const resize = (label, width, depth) => change(label, (owner) => ({ ...owner, outline_m: rectResized(corners, width, depth, nearestToAnchor(item)) }), true)
    return html`<${Place} ...${{ item, change }} />
        <${Metres} label="Length" value=${rect.width} least=${0.01} give=${(value) => resize('Length', value, rect.depth)} />
        <${Metres} label="Width" value=${rect.depth} least=${0.01} give=${(value) => resize('Width', rect.width, value)} />
        <${NumberField} label="Turned" unit="°" least=${-360} most=${360} value=${Math.round(rect.degrees * 100) / 100} give=${(value) => value !== undefined && change('Turn', (owner) => turned(owner, value - rect.degrees))} />`
}

// The corner that stays when a rectangle is given another size: the one at its lower left.
function nearestToAnchor({ shape }) {
    const anchor = anchorOf(shape)
    const far = shape.corners.map((corner) => distance(corner, anchor))
    return far.indexOf(Math.min(...far))
}

function Corner({ corner, index, count, give, remove, add }) {
    const [x, y] = spotOf(corner)
    const through = throughOf(corner)
    const set = (axis, key) => (value) => give((old) => {
        const put = (spot) => spot.map((each, i) => (i === axis ? value : each))
        return Array.isArray(old) ? put(old) : { ...old, [key]: put(old[key]) }
    })
    return html`<li class="plan-corner"><span class="quiet small">${index + 1}</span>
        <${Metres} label=${`Corner ${index + 1}, x`} value=${x} give=${set(0, 'to_m')} /><${Metres} label=${`Corner ${index + 1}, y`} value=${y} give=${set(1, 'to_m')} />
        <button class="plain" aria-label=${`Corner after ${index + 1}`} onClick=${add}><${Icon} name="add" /></button>
        <button class="plain" aria-label=${`Remove corner ${index + 1}`} aria-disabled=${count <= 3 ? 'true' : undefined} onClick=${() => count > 3 && remove()}><${Icon} name="remove" /></button>
        ${through && html`<span class="quiet small">arc</span><${Metres} label="Arc through, x" value=${through[0]} give=${set(0, 'through_m')} /><${Metres} label="Arc through, y" value=${through[1]} give=${set(1, 'through_m')} />`}</li>`
}

function Corners({ item, change }) {
    const { corners } = item.shape
    const set = (label, next) => change(label, (owner) => ({ ...owner, outline_m: next }), true)
    const between = (i) => { const [a, b] = [spotOf(corners[i]), spotOf(corners[(i + 1) % corners.length])]; return [tidy((a[0] + b[0]) / 2), tidy((a[1] + b[1]) / 2)] }
    return html`<details class="plan-corners" open=${item.sort === 'room' && corners.length <= 8}><summary>Corners</summary><ol>${corners.map((corner, i) => html`<${Corner} key=${i} ...${{ corner, index: i, count: corners.length }}
        give=${(how) => set(`Corner ${i + 1}`, corners.map((each, k) => (k === i ? how(each) : each)))}
        remove=${() => set(`Remove corner ${i + 1}`, corners.toSpliced(i, 1))} add=${() => set('Add a corner', corners.toSpliced(i + 1, 0, between(i)))} />`)}</ol></details>`
}

function LineFields({ item, change }) {
    const { from, to } = item.shape
    const set = (key, axis) => (value) => change('End', (owner) => ({ ...owner, [key]: owner[key].map((each, i) => (i === axis ? value : each)) }), true)
    const length = lengthOf(item.shape)
    const stretch = (value) => change('Length', (owner) => ({ ...owner, to_m: [0, 1].map((axis) => tidy(from[axis] + ((to[axis] - from[axis]) * value) / (length || 1))) }), true)
    return html`<${Metres} label="From, x" value=${from[0]} give=${set('from_m', 0)} /><${Metres} label="From, y" value=${from[1]} give=${set('from_m', 1)} />
        <${Metres} label="To, x" value=${to[0]} give=${set('to_m', 0)} /><${Metres} label="To, y" value=${to[1]} give=${set('to_m', 1)} />
        <${Metres} label="Length" value=${length} least=${0.01} give=${stretch} />
        ${item.kind === 'door' && html`<button onClick=${() => change('Hinge', (owner) => ({ ...owner, from_m: owner.to_m, to_m: owner.from_m }))}>Hinge at the other end</button>`}`
}

function SlopeFields({ item, change }) {
    const set = (index, axis) => (value) => change('Ceiling', (owner) => ({ ...owner, through_m: owner.through_m.map((spot, i) => (i === index ? [0, 1, 2].map((k) => (k === axis ? value : spot[k] ?? 0)) : spot)) }), true)
    return item.shape.places.map((place, i) => ['x', 'y', 'height'].map((name, axis) => html`<${Metres} key=${`${i}${axis}`} label=${`Place ${i + 1}, ${name}`} value=${place[axis]} give=${set(i, axis)} />`))
}

function Geometry({ item, change }) {
    const { shape } = item
    if (!shape) return null
    if (shape.form === 'round') return html`<${Place} ...${{ item, change }} /><${Metres} label="Radius" value=${shape.radius} least=${0.001} most=${500} give=${(radius_m) => change('Radius', (owner) => ({ ...owner, radius_m }), true)} />`
    if (shape.form === 'line') return html`<${LineFields} ...${{ item, change }} />`
    if (shape.form === 'slope') return html`<${SlopeFields} ...${{ item, change }} />`
    if (shape.form === 'spot') return html`<${Place} ...${{ item, change }} />`
    return rectOf(shape.corners) ? html`<${Rect} ...${{ item, change }} />` : html`<${Place} ...${{ item, change }} />`
}

// --- of each sort ---------------------------------------------------------------------------------------------------

function Heights({ item, change, usual }) {
    return unmeasuredHeights(item.owner).map((field) => html`<div key=${field.key} class="plan-measure"><p><strong>Measure the ${heightName(field.label)}.</strong></p>
        <button onClick=${() => { change(field.label, (owner) => ({ ...owner, [field.key]: field.usual })); usual() }}>Usual ${field.usual} m until then</button></div>`)
}

function ThingFields({ item, change, usual }) {
    const { fields } = thingOf(item.kind)
    return html`<${Heights} ...${{ item, change, usual }} />
        <div class="form"><${Geometry} ...${{ item, change }} /></div>
        ${fields.length > 0 && html`<${Form} fields=${fields} value=${item.owner} give=${(key, value, label) => change(label, (owner) => withKey(owner, key, value))} />`}
        ${item.shape?.form === 'outline' && html`<${Corners} key=${item.key} ...${{ item, change }} />`}
        <details class="plan-corners"><summary>Name</summary><div class="form"><${TextField} label="Name" value=${item.owner.name} give=${(name) => change('Name', (owner) => withKey(owner, 'name', name))} />
            <${TextField} label="Its id" value=${item.owner.id} give=${(id) => change('Id', (owner) => withKey(owner, 'id', id))} /></div></details>`
}

const POINT = [
    { key: 'tolerance_m', label: 'Off by at most', unit: 'm', kind: 'number', least: 0, most: 10 },
    { key: 'about', label: 'Only rough', kind: 'yes', hint: 'yes: 0.10 m either way' }
]

function PointFields({ item, change, job, place }) {
    const { owner } = item
    if (!item.shape) return html`<div class="row"><button class="primary" onClick=${place}>Put it on the plan</button><a class="button" href=${addressOf(job, 'point', owner.id)}>All of ${nameOf(item)}<${Icon} name="forward" /></a></div>`
    const at = owner.at_m
    const set = (axis) => (value) => change(['x', 'y', 'height'][axis], (point) => ({ ...point, at_m: point.at_m.map((each, i) => (i === axis ? value : each)) }))
    const size = (axis) => (value) => change('Size', (point) => {
        const next = [0, 1, 2].map((i) => (i === axis ? value ?? 0 : point.size_m?.[i] ?? 0))
        return withKey(point, 'size_m', next.some(Boolean) ? next : undefined)
    })
    return html`${owner.about === true && html`<div class="plan-measure"><p><strong>Check: measured?</strong> ${isGuess(owner) ? 'It was put in anywhere: drag it to its place.' : 'Its place is only rough.'}</p><button onClick=${() => change('Place measured', (point) => withKey(settled(point), 'about', undefined))}>It is measured</button></div>`}
        <div class="form">${['x', 'y', 'Height'].map((label, axis) => html`<${Metres} key=${label} label=${label} value=${at[axis]} give=${set(axis)} />`)}
            ${['Wide along x', 'Wide along y', 'High'].map((label, axis) => html`<${NumberField} key=${label} label=${label} unit="m" least=${0} most=${100} value=${owner.size_m?.[axis] || undefined} give=${size(axis)} />`)}</div>
        <${Form} fields=${POINT} value=${owner} give=${(key, value, label) => change(label, (point) => withKey(point, key, value))} />
        <p><a class="button" href=${addressOf(job, 'point', owner.id)}>All of ${nameOf(item)}<${Icon} name="forward" /></a></p>`
}

function RoomFields({ item, change, plan, changePlan }) {
    return html`<div class="form">${item.shape && html`<${RoomSize} ...${{ item, change }} />`}
            <${NumberField} label="Ceiling" unit="m" least=${0.1} most=${200} hint="left out, nothing is cut off by it" value=${plan.height_m} give=${(value) => changePlan('Ceiling', (owner) => withKey(owner, 'height_m', value))} />
            <${NumberField} label="North, clockwise from up" unit="°" least=${-360} most=${360} value=${plan.north_deg} give=${(value) => changePlan('North', (owner) => withKey(owner, 'north_deg', value))} /></div>
        ${item.shape?.form === 'outline' && html`<${Corners} key=${item.key} ...${{ item, change }} />`}`
}

function RoomSize({ item, change }) {
    const rect = item.shape.form === 'outline' && rectOf(item.shape.corners)
    if (!rect) return item.shape.form === 'round' ? html`<${Geometry} ...${{ item, change }} />` : null
    const resize = (label, width, depth) => change(label, (owner) => ({ ...owner, outline_m: rectResized(item.shape.corners, width, depth) }), true)
    return html`<${Metres} label="Width" value=${rect.width} least=${0.1} give=${(value) => resize('Width', value, rect.depth)} /><${Metres} label="Depth" value=${rect.depth} least=${0.1} give=${(value) => resize('Depth', rect.width, value)} />`
}

const FIELDS = { thing: ThingFields, point: PointFields, room: RoomFields }

// change(label, how, isSize); isSize: a typed size counts as measured.
export function Panel({ item, faults = [], usual, isUsual, measured, isOpen, setOpen, close, remove, turn, ...rest }) {
    const Fields = FIELDS[item.sort]
    const canTurn = item.sort === 'thing' && item.shape && !['spot', 'round', 'slope'].includes(item.shape.form)
    return html`<section class=${`plan-panel sheet ${isOpen ? 'plan-panel-open' : ''}`} aria-label=${`Numbers of ${nameOf(item)}`} onKeyDown=${(event) => event.key === 'Escape' && close()}>
        <div class="plan-panel-head"><div class="plan-panel-name"><h2>${nameOf(item)}</h2><span class="quiet small">${sizeWords(item.shape)}</span></div>
            <button class="plan-panel-more" aria-expanded=${isOpen} onClick=${() => setOpen(!isOpen)}>Numbers</button>
            ${canTurn && html`<button class="plain" onClick=${turn} aria-label="Turn by a quarter" title="Turn by a quarter (R)"><${Icon} name="redo" /></button>`}
            <button class="plain" aria-label="Close the numbers" onClick=${close}><${Icon} name="close" /></button></div>
        <div class="plan-panel-body stack">
            ${faults.map(({ problem, remedy }) => html`<p key=${problem} class="plan-problem" role="alert"><strong>${sentence(problem)}.</strong> ${remedy}</p>`)}
            ${isUsual && html`<div class="plan-measure"><p><strong>Check: measured?</strong> A usual size was put in.</p><button onClick=${measured}>It is measured</button></div>`}
            <p class="unseen">${itemWords(item)}</p>
            <${Fields} key=${item.key} ...${{ item, usual }} ...${rest} />
            ${(item.sort !== 'point' || item.shape) && html`<button class="danger plan-remove" title="Delete" onClick=${remove}><${Icon} name="remove" />${item.sort === 'point' ? 'Take it off the plan' : 'Remove it'}</button>`}</div>
    </section>`
}
