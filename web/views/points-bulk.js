// SPDX-License-Identifier: MIT
//
// One change for many points: their mark, place or kind, a word, or away with them. One undo step.

import { vocabulary } from '../core/rules.js'
import { html, useState } from '../html.js'
import { Dialog } from '../parts/dialog.js'
import { ChoiceField, TextField } from '../parts/field.js'
import { Icon } from '../parts/icons.js'
import { Picker } from '../parts/picker.js'
import { freeId, withKey, withoutPoints, withPoints, withWord } from '../state/document.js'
import { edit } from '../state/session.js'

const counted = (count) => `${count} ${count === 1 ? 'point' : 'points'}`

// Copies stand after their originals, each with an id of its own.
function withCopies(document, chosen) {
    const points = []
    const all = [...document.points]
    for (const point of document.points) {
        points.push(point)
        if (!chosen.has(point.id)) continue
        const copy = { ...withKey(point, 'found', undefined), id: freeId(all, 'P') }
        all.push(copy)
        points.push(copy)
    }
    return { ...document, points }
}

function Change({ chosen, document, close }) {
    const set = (label, how) => edit(`${label} of ${counted(chosen.size)}`, (now) => withPoints(now, chosen, how))
    const places = document.places.map(({ id, name }) => ({ word: id, label: name || id }))
    return html`<${Dialog} title=${`Change ${counted(chosen.size)}`} close=${close}>
        <p class="quiet">Each change is made at once, for all of them; one undo takes it back.</p>
        <${TextField} label="Marked" hint="as printed: IP66, IP55/IP67 IK08; replaces their marks" give=${(ip) => ip && set('Mark', (point) => ({ ...point, marked: [{ ip }] }))} />
        <${ChoiceField} label="Place" none="as they are" choices=${places} give=${(place) => place && set('Place', (point) => ({ ...point, place }))} />
        <${Picker} label="What they are" words=${vocabulary.kind} give=${(kind) => set('Kind', (point) => ({ ...point, kind }))} />
        <${Picker} label="Seen at them" words=${vocabulary.seen} give=${(word) => set('Seen', (point) => withWord(point, word, 'seen'))} />
        <${Picker} label="Not there" words=${vocabulary.seen} give=${(word) => set('Not there', (point) => withWord(point, word, 'absent'))} />
    <//>`
}

export function Bulk({ chosen, setChosen, items, document }) {
    const [changing, setChanging] = useState(false)
    const shown = items.filter(({ point }) => point).map(({ point }) => point.id)
    const remove = () => {
        edit(`Remove ${counted(chosen.size)}`, (now) => withoutPoints(now, chosen))
        setChosen(new Set())
    }
    return html`<div class="points-bulk row sheet" role="toolbar" aria-label="Chosen points">
        <strong>${counted(chosen.size)} chosen</strong>
        ${chosen.size < shown.length && html`<button class="plain" onClick=${() => setChosen(new Set(shown))}>All ${shown.length}</button>`}
        <button onClick=${() => setChanging(true)}>Change</button>
        <button onClick=${() => edit(`Copy ${counted(chosen.size)}`, (now) => withCopies(now, chosen))}><${Icon} name="copy" />Copy</button>
        <button class="danger" onClick=${remove}><${Icon} name="remove" />Remove</button>
        <button class="plain" aria-label="Choose none" onClick=${() => setChosen(new Set())}><${Icon} name="close" /></button>
        ${changing && html`<${Change} ...${{ chosen, document }} close=${() => setChanging(false)} />`}
    </div>`
}
