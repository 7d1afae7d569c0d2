// SPDX-License-Identifier: MIT
//
// What was changed here and on the server and cannot be merged: both versions side by side, one choice each. Nothing is
// sent before every one is chosen.

import { html, useState } from '../html.js'
import { addressOf, go } from '../state/route.js'
import { useStore } from '../state/store.js'
import { settleConflict, syncing } from '../state/sync.js'
import { withValueAt } from './conflict-choice.js'

const shown = (conflict, side) => (side in conflict ? JSON.stringify(conflict[side], null, 1) : 'removed')

function Side({ conflict, side, label, chosen, choose, name }) {
    return html`<label class=${`conflict-side sheet ${chosen === side ? 'conflict-chosen' : ''}`}>
        <span class="row"><input type="radio" name=${name} checked=${chosen === side} onChange=${() => choose(side)} /><strong>${label}</strong></span>
        <pre class="small">${shown(conflict, side)}</pre></label>`
}

export function ConflictView({ job }) {
    const found = useStore(syncing, ({ conflicts }) => conflicts.get(job))
    const [choices, setChoices] = useState({})
    if (!found) return html`<div class="stack"><h1>Nothing to choose</h1><p>Here and on the server it is the same.</p><p><a class="button" href=${addressOf(job)}>The job</a></p></div>`
    const left = found.conflicts.filter((_, index) => !choices[index]).length
    const settle = async () => {
        const merged = found.conflicts.reduceRight((now, conflict, index) => (choices[index] === 'theirs' ? withValueAt(now, conflict.pointer, conflict.theirs) : now), found.merged)
        await settleConflict(job, `${JSON.stringify(merged, null, 2)}\n`)
        go(addressOf(job))
    }
    return html`<div class="stack"><h1>Changed here and on the server</h1>
        <p class="measure">All else was merged. Of each of these only one can stand.</p>
        ${found.conflicts.map((conflict, index) => html`<fieldset key=${conflict.pointer} class="stack"><legend><h2>${conflict.about}</h2></legend>
            <div class="conflict-pair">${[['mine', 'Here'], ['theirs', 'On the server']].map(([side, label]) => html`<${Side} key=${side} ...${{ conflict, side, label, chosen: choices[index], name: `conflict-${index}` }}
                choose=${(side) => setChoices({ ...choices, [index]: side })} />`)}</div></fieldset>`)}
        <button class="primary" disabled=${left > 0} onClick=${settle}>${left ? `${left} left to choose` : 'Keep these'}</button>
    </div>`
}
