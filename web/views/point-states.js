// SPDX-License-Identifier: MIT
//
// Words of conditions as toggles: the conditions of a mark, and the normal states of a point, each a set of conditions.

import { vocabulary } from '../core/rules.js'
import { html, useState } from '../html.js'
import { Icon } from '../parts/icons.js'

const FIRST = ['lid-closed', 'lid-open', 'plug-in-use', 'no-plug', 'plug-locked', 'capped', 'door-closed', 'door-open']

const toggle = (list, word) => (list.includes(word) ? list.filter((each) => each !== word) : [...list, word])

// chosen: words; what is common or chosen first, the rest on demand.
export function Conditions({ label, chosen, give }) {
    const [all, setAll] = useState(false)
    const known = vocabulary.condition.map(({ word }) => word)
    const strange = chosen.filter((word) => !known.includes(word)).map((word) => ({ word, label: `${word} (not known)` }))
    const shown = [...vocabulary.condition.filter(({ word }) => all || FIRST.includes(word) || chosen.includes(word)), ...strange]
    return html`<fieldset class="toggles"><legend class="small">${label}</legend>
        ${shown.map((entry) => html`<button key=${entry.word} aria-pressed=${chosen.includes(entry.word)} onClick=${() => give(toggle(chosen, entry.word))}>${entry.label}</button>`)}
        ${!all && html`<button class="plain" onClick=${() => setAll(true)}>more<${Icon} name="down" /></button>`}</fieldset>`
}

export function StatesField({ states, give }) {
    const set = (index, state) => give(states.map((each, at) => (at === index ? state : each)))
    return html`<div class="stack">
        ${states.map((state, index) => html`<div key=${index} class="states-one"><${Conditions} label=${`State ${index + 1}`} chosen=${state} give=${(next) => set(index, next)} />
            <button class="plain" aria-label=${`Remove state ${index + 1}`} onClick=${() => give(states.toSpliced(index, 1))}><${Icon} name="remove" /></button></div>`)}
        <div><button onClick=${() => give([...states, []])}><${Icon} name="add" />${states.length ? 'Another state' : 'Normal state'}</button></div>
    </div>`
}
