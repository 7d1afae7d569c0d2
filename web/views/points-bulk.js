// SPDX-License-Identifier: MIT
//
// What can be done with several points at once: one edit, one step back.

import { core } from '../core/core.js'
import { labelOf, vocabulary } from '../core/rules.js'
import { html, useState } from '../html.js'
import { Dialog } from '../parts/dialog.js'
import { ChoiceField, TextField } from '../parts/field.js'
import { Icon } from '../parts/icons.js'
import { Picker } from '../parts/picker.js'
import { withCopies, withKey, withoutPoints, withPoints, withWord } from '../state/document.js'
import { Heading } from '../state/lines.js'
import { setListing } from '../state/listing.js'
import { edit } from '../state/opened.js'
import { StatesField } from './point-states.js'
import { chooseAll } from './points-table.js'

const countOf = (ids) => `${ids.size} ${ids.size === 1 ? 'point' : 'points'}`

function MarkOfAll({ change, close }) {
    const [mark, setMark] = useState({})
    const { because } = mark.ip ? core.read(mark.ip) : {}
    const give = () => change('Mark', (point) => withKey(point, 'marked', mark.ip || mark.ik ? [mark] : undefined))
    return html`<${Dialog} title="Mark of the chosen" close=${close}>
        <p class="small quiet">It takes the place of the marks they have; empty takes them away.</p>
        <${TextField} label="IP code, as printed" value=${mark.ip} give=${(ip) => setMark((now) => withKey(now, 'ip', ip))} hint=${because} autofocus />
        <${TextField} label="IK code" value=${mark.ik} give=${(ik) => setMark((now) => withKey(now, 'ik', ik))} />
        <div class="row"><button class="primary" onClick=${give}>Set it</button></div>
    <//>`
}

function PlaceOfAll({ document, change, close }) {
    return html`<${Dialog} title="Place of the chosen" close=${close}>
        <ul class="bulk-list">${document.places.map(({ id, name, kind }) => html`<li key=${id}><button onClick=${() => change(`Place ${name || id}`, (point) => ({ ...point, place: id }))}>${name || id}<span class="quiet small">${labelOf(kind)}</span></button></li>`)}</ul>
    <//>`
}

function KindOfAll({ change, close }) {
    return html`<${Dialog} title="Kind of the chosen" close=${close}>
        <${Picker} label="What they are" value="" words=${vocabulary.kind} give=${(kind) => change(`Kind ${labelOf(kind)}`, (point) => ({ ...point, kind }))} />
        <div class="bulk-room"></div>
    <//>`
}

const WORD_STATES = [{ word: 'seen', label: 'seen there' }, { word: 'absent', label: 'looked for and not there' }]

function WordOfAll({ change, close }) {
    const [state, setState] = useState('seen')
    const label = (word) => `${labelOf(word)}, ${state === 'seen' ? 'seen' : state === 'absent' ? 'not there' : 'not said'}`
    return html`<${Dialog} title="Word at the chosen" close=${close}>
        <${ChoiceField} label="It is" value=${state} choices=${WORD_STATES} none="not said: take the word away" give=${setState} />
        <${Picker} label="Word" value="" words=${vocabulary.seen} give=${(word) => change(label(word), (point) => withWord(point, word, state))} />
        <div class="bulk-room"></div>
    <//>`
}

function StatesOfAll({ change, close }) {
    const [states, setStates] = useState([])
    return html`<${Dialog} title="Normal states of the chosen" close=${close}>
        <${StatesField} states=${states} give=${setStates} />
        <div class="row"><button class="primary" onClick=${() => change('States', (point) => withKey(point, 'states', states.filter((state) => state.length)))}>Set them</button></div>
    <//>`
}

const DIALOGS = { mark: ['Mark', MarkOfAll], place: ['Place', PlaceOfAll], kind: ['Kind', KindOfAll], word: ['Word', WordOfAll], states: ['States', StatesOfAll] }

export function BulkBar({ document, lines, list }) {
    const [open, setOpen] = useState(null)
    const ids = list.chosen
    const close = () => setOpen(null)
    const change = (label, how) => {
        edit(`${label}, of ${countOf(ids)}`, (now) => withPoints(now, ids, how))
        close()
    }
    const remove = () => {
        edit(`Remove ${countOf(ids)}`, (now) => withoutPoints(now, ids))
        setListing({ chosen: new Set() })
    }
    const copy = () => edit(`Copy ${countOf(ids)}`, (now) => withCopies(now, ids))
    const [, Open] = DIALOGS[open] ?? []
    const listed = lines.filter((line) => !(line instanceof Heading)).length
    return html`<div class="bulk" role="toolbar" aria-label="With the chosen points">
        <strong class="bulk-count" role="status">${ids.size} chosen</strong>
        ${Object.entries(DIALOGS).map(([name, [label]]) => html`<button key=${name} onClick=${() => setOpen(name)}>${label}</button>`)}
        <button onClick=${copy}><${Icon} name="copy" />Copy</button>
        <button class="danger" onClick=${remove}><${Icon} name="remove" />Remove</button>
        <span class="bulk-end">${ids.size < listed && html`<button class="plain" onClick=${() => chooseAll(lines)}>Choose all ${listed}</button>`}
            <button class="plain" onClick=${() => setListing({ chosen: new Set() })}>Choose none</button></span>
        ${Open && html`<${Open} ...${{ document, change, close }} />`}
    </div>`
}
