// SPDX-License-Identifier: MIT
//
// The codes on the goods, each with the conditions under which it counts, and the normal states of the point. What the
// core reads in a code stands beneath it while it is typed.

import { core } from '../core/core.js'
import { labelOf } from '../core/rules.js'
import { html, useState } from '../html.js'
import { TextField } from '../parts/field.js'
import { Icon } from '../parts/icons.js'
import { Rungs } from '../parts/rungs.js'
import { withKey } from '../state/document.js'
import { Conditions, StatesField } from './point-states.js'

const listOf = (value) => (Array.isArray(value) ? value : [])

const QUIET = ['code', 'noted']

function Reading({ text }) {
    if (!text?.trim()) return html`<p class="small quiet">As printed, with all that is written beside it: IP55/IP67, IPX8 (2 m, 24 h), NEMA 4X.</p>`
    const { status, reading, because } = core.read(text)
    return html`<p class=${`point-reading small ${QUIET.includes(status) ? 'quiet' : 'field-fault'}`} aria-live="polite">
        ${reading && html`<${Rungs} shown=${text} />`}<span>${reading && reading !== text.trim() && html`Read as <strong class="code">${reading}</strong>. `}${because}</span></p>`
}

function Mark({ mark, index, change, remove }) {
    const [typed, setTyped] = useState(null) // while it is typed
    const [when, setWhen] = useState(false)
    const give = (key, label) => (value) => change(`${label} of mark ${index + 1}`, (owner) => withKey(owner, key, value))
    const conditions = listOf(mark.when)
    return html`<div class="point-mark">
        <div class="point-codes"><${TextField} label="IP code, as printed" value=${mark.ip} typing=${setTyped} give=${give('ip', 'IP code')} /><${TextField} label="IK code" value=${mark.ik} give=${give('ik', 'IK code')} />
            ${remove && html`<button class="plain" aria-label=${`Remove mark ${index + 1}`} onClick=${remove}><${Icon} name="remove" /></button>`}</div>
        <${Reading} text=${typed ?? mark.ip} />
        ${when || conditions.length ? html`<${Conditions} label="It counts only while" chosen=${conditions} give=${give('when', 'Condition')} />`
            : remove && html`<button class="plain point-left" onClick=${() => setWhen(true)}>It counts only while …</button>`}
    </div>`
}

function States({ point, change }) {
    return html`<fieldset class="stack"><legend><h3>Normal states</h3></legend>
        <p class="small quiet">How it stands in use: open, shut, with a plug in. The worst decides.</p>
        <${StatesField} states=${listOf(point.states)} give=${(states) => change('Normal states', (owner) => withKey(owner, 'states', states))} />
    </fieldset>`
}

export function Marks({ point, change }) {
    const [another, setAnother] = useState(false)
    const marks = listOf(point.marked)
    const shown = another || !marks.length ? [...marks, {}] : marks
    const set = (label, how) => change(label, (owner) => withKey(owner, 'marked', how(listOf(owner.marked)).filter((mark) => Object.keys(mark).length)))
    const changeAt = (index) => (label, how) => {
        set(label, (list) => (index < list.length ? list.map((each, i) => (i === index ? how(each) : each)) : [...list, how({})]))
        if (index >= marks.length) setAnother(false)
    }
    const conditional = marks.some(({ when }) => listOf(when).length) || listOf(point.states).length > 0
    return html`<div class="stack">
        ${shown.map((mark, index) => html`<${Mark} key=${index} ...${{ mark, index }} change=${changeAt(index)}
            remove=${index < marks.length && (() => set(`Remove mark ${index + 1}`, (list) => list.toSpliced(index, 1)))} />`)}
        ${shown.length === marks.length && html`<button class="point-left" onClick=${() => setAnother(true)}><${Icon} name="add" />Another mark</button>`}
        ${conditional && html`<${States} ...${{ point, change }} />`}
    </div>`
}

// "IP66 when lid closed; IP44" for a folded section.
export const marksSum = (point) => listOf(point.marked).map(({ ip, ik, when }) => [ip, ik, listOf(when).length ? `when ${listOf(when).map(labelOf).join(' and ').toLowerCase()}` : ''].filter(Boolean).join(' ')).join('; ') || 'nothing yet'
