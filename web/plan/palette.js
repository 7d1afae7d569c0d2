// SPDX-License-Identifier: MIT
//
// What can be put in, each with its shape in small; first what is usual in this sort of place.

import { labelOf, vocabulary } from '../core/rules.js'
import { html, useState } from '../html.js'
import { Dialog } from '../parts/dialog.js'
import { Picker } from '../parts/picker.js'
import { linePath, shapePath } from './paths.js'
import { boundsOf, placesOf, shapeOf } from './shapes.js'
import { newThing, paletteFor, thingOf } from './things.js'

const [WIDE, HIGH] = [44, 28]

export function Small({ owner }) {
    const shape = shapeOf(owner)
    const { low, high } = shape ? boundsOf(placesOf(shape)) : { low: [0, 0], high: [0, 0] }
    const scale = Math.min(WIDE / Math.max(high[0] - low[0], 0.4), HIGH / Math.max(high[1] - low[1], 0.3)) * 0.8
    const at = ([x, y]) => [WIDE / 2 + (x - (low[0] + high[0]) / 2) * scale, HIGH / 2 - (y - (low[1] + high[1]) / 2) * scale]
    const d = !shape ? '' : shape.form === 'spot' ? '' : shape.form === 'slope' ? `${linePath(at, shape.places)}Z` : shapePath(at, scale, shape)
    return html`<svg class="plan-small-shape" width=${WIDE} height=${HIGH} aria-hidden="true"><path d=${d} />${shape?.form === 'spot' && html`<circle cx="22" cy="14" r="7" /><circle cx="22" cy="14" r="1.5" />`}</svg>`
}

function NewPoint({ give }) {
    const [kind, setKind] = useState('accessory')
    return html`<div class="row plan-new-point"><${Picker} label="A new point" value=${kind} words=${vocabulary.kind} give=${setKind} />
        <button class="primary" onClick=${() => give(kind)}>Put in ${labelOf(kind).toLowerCase()}</button></div>`
}

// unplaced: points of this place that are not on the plan yet.
export function Palette({ placeKind, unplaced, addThing, addPoint, placePoint, addRoom, close }) {
    return html`<${Dialog} title="Put in" close=${close}>
        ${unplaced.length > 0 && html`<section class="stack"><h3>Points not on the plan yet</h3><div class="row">${unplaced.map((point) => html`<button key=${point.id} onClick=${() => placePoint(point)}>${point.name || point.id}</button>`)}</div></section>`}
        <div class="plan-palette">${paletteFor(placeKind).map((kind) => html`<button key=${kind} onClick=${() => addThing(kind)}><${Small} owner=${newThing(kind, [0, 0])} /><span>${thingOf(kind).label}</span></button>`)}
            <button onClick=${addRoom}><${Small} owner=${{ outline_m: [[0, 0], [2, 0], [2, 1.5], [0, 1.5]] }} /><span>Another room</span></button></div>
        <${NewPoint} give=${addPoint} />
        <p class="small quiet">Each comes in its usual size, to be measured. Heights are left open until they are measured.</p>
    <//>`
}
