// SPDX-License-Identifier: MIT
//
// What can be put in, each with its shape in small; first what is usual in this sort of place.

import { labelOf, vocabulary } from '../core/rules.js'
import { html, useState } from '../html.js'
import { Dialog } from '../parts/dialog.js'
import { Icon } from '../parts/icons.js'
import { Picker } from '../parts/picker.js'
import { Thing } from './layers.js'
import { boundsOf, placesOf, shapeOf } from './shapes.js'
import { newThing, paletteFor, pointsFor, thingOf } from './things.js'
import { fitted } from './view.js'

const [WIDE, HIGH] = [44, 28]

// A thing or a room as it is drawn, small.
export function Small({ owner }) {
    const shape = shapeOf(owner)
    if (!shape) return html`<span class="plan-small-shape" style=${{ width: WIDE }}></span>`
    const item = { owner, kind: owner.kind, shape }
    const [from, to] = [shape.from, shape.to]
    const places = [...placesOf(shape), ...(owner.kind === 'door' ? [[from[0], from[1] - (to[0] - from[0])]] : [])]
    const view = fitted(boundsOf(places), WIDE, HIGH, 3)
    return html`<svg class="plan-small-shape" width=${WIDE} height=${HIGH} aria-hidden="true"><${Thing} ...${{ view, item }} rooms=${[]} /></svg>`
}

const Things = ({ kinds, addThing, children }) => html`<div class="plan-palette">${kinds.map((kind) => html`<button key=${kind} onClick=${() => addThing(kind)}><${Small} owner=${newThing(kind, [0, 0])} /><span>${thingOf(kind).label}</span></button>`)}${children}</div>`

const ROOM = { outline_m: [[0, 0], [2, 0], [2, 1.5], [0, 1.5]] }

function Points({ placeKind, addPoint }) {
    const [more, setMore] = useState(false)
    return html`<section class="stack-small" aria-label="A new point"><h3>A new point</h3>
        <div class="row">${pointsFor(placeKind).map((kind) => html`<button key=${kind} onClick=${() => addPoint(kind)}>${labelOf(kind)}</button>`)}
            ${!more && html`<button class="plain" aria-expanded="false" onClick=${() => setMore(true)}>Another<${Icon} name="down" /></button>`}</div>
        ${more && html`<${Picker} label="Another point" value="" words=${vocabulary.kind} give=${addPoint} />`}</section>`
}

// unplaced: points of this place that are not on the plan yet.
export function Palette({ placeKind, unplaced, addThing, addPoint, placePoint, addRoom, close }) {
    const { usual, more } = paletteFor(placeKind)
    return html`<${Dialog} title="Put in" close=${close}>
        ${unplaced.length > 0 && html`<section class="stack-small"><h3>Points not on the plan yet</h3><div class="row">${unplaced.map((point) => html`<button key=${point.id} onClick=${() => placePoint(point)}>${point.name || `${point.id} ${labelOf(point.kind)}`}</button>`)}</div></section>`}
        <${Points} ...${{ placeKind, addPoint }} />
        <section class="stack-small" aria-label="What stands there"><h3>What stands there</h3><${Things} kinds=${usual} addThing=${addThing}>
            <button onClick=${addRoom}><${Small} owner=${ROOM} /><span>Another room</span></button><//>
            <details class="plan-more"><summary>Seldom here</summary><${Things} kinds=${more} addThing=${addThing} /></details></section>
        <p class="small quiet">Each comes in its usual size, to be measured. Heights are left open until they are measured.</p>
    <//>`
}
