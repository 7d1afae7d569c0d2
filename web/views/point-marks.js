// SPDX-License-Identifier: MIT
//
// The codes on the goods, each with the conditions under which it counts, and the normal states of the point.

import { core } from '../core/core.js'
import { labelOf, vocabulary } from '../core/rules.js'
import { html } from '../html.js'
import { TextField } from '../parts/field.js'
import { Icon } from '../parts/icons.js'
import { Words } from '../parts/words.js'
import { withKey } from '../state/document.js'

const listOf = (value) => (Array.isArray(value) ? value : [])

// What the core reads in a code, when there is something to say about it.
function Reading({ text }) {
    if (!text) return null
    const { status, reading, because } = core.read(text)
    if (status === 'code') return null
    return html`<p class=${`small ${status === 'noted' ? 'quiet' : 'field-fault'}`}>${reading && status !== 'refused' ? `Read as ${reading}. ` : ''}${because}</p>`
}

function Mark({ mark, index, change, remove }) {
    const give = (key, label) => (value) => change(`${label} of mark ${index + 1}`, (owner) => withKey(owner, key, value))
    return html`<div class="point-mark">
        <div class="form"><${TextField} label="IP code, as printed" value=${mark.ip} give=${give('ip', 'IP')} /><${TextField} label="IK code" value=${mark.ik} give=${give('ik', 'IK')} /></div>
        <${Reading} text=${mark.ip} />
        <${Words} label="Counts only when" value=${mark.when} words=${vocabulary.condition} give=${give('when', 'Condition')} />
        <button class="plain" onClick=${remove}><${Icon} name="remove" />Remove this mark</button>
    </div>`
}

function States({ point, change }) {
    const states = listOf(point.states)
    const set = (next) => change('Normal states', (owner) => withKey(owner, 'states', next))
    return html`<fieldset class="stack"><legend><strong>Normal states</strong></legend>
        <p class="small quiet">In which it is used: the worst decides.</p>
        ${states.map((state, index) => html`<div key=${index} class="point-mark"><${Words} label=${`State ${index + 1}`} value=${state} words=${vocabulary.condition}
            give=${(words) => set(words ? states.map((each, i) => (i === index ? words : each)) : states.toSpliced(index, 1))} /></div>`)}
        <button onClick=${() => set([...states, [listOf(listOf(point.marked)[0]?.when)[0] ?? 'lid-closed']])}><${Icon} name="add" />State</button>
    </fieldset>`
}

export function Marks({ point, change }) {
    const marks = listOf(point.marked)
    const set = (label, how) => change(label, (owner) => withKey(owner, 'marked', how(listOf(owner.marked))))
    const conditional = marks.some(({ when }) => listOf(when).length > 0) || listOf(point.states).length > 0
    return html`<div class="stack">
        ${marks.map((mark, index) => html`<${Mark} key=${index} ...${{ mark, index }} change=${(label, how) => set(label, (list) => list.map((each, i) => (i === index ? how(each) : each)))}
            remove=${() => set(`Remove mark ${index + 1}`, (list) => list.toSpliced(index, 1))} />`)}
        <button onClick=${() => set('Add a mark', (list) => [...list, { ip: 'IP' }])}><${Icon} name="add" />${marks.length ? 'Another mark' : 'Mark'}</button>
        ${conditional && html`<${States} ...${{ point, change }} />`}
    </div>`
}

// "IP66 when lid closed; IP44" for a folded section.
export const marksSum = (point) => listOf(point.marked).map(({ ip, ik, when }) => [ip, ik, listOf(when).length ? `when ${listOf(when).map(labelOf).join(' and ').toLowerCase()}` : ''].filter(Boolean).join(' ')).join('; ') || 'nothing yet'
