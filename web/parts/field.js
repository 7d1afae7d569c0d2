// SPDX-License-Identifier: MIT
//
// Fields of a form. Each has a label, may have a unit and a hint, and gives its value when it is left (or on Enter), so
// that one undo takes back one entry. A number that cannot be read is said at the field and changes nothing.
//
//     <${TextField} label="Name" value=${point.name} give=${(name) => …} />
//     <${NumberField} label="Height" unit="m" value=${point.height_m} give=${(height_m) => …} />     undefined when empty
//     <${ChoiceField} label="Setting" value=${place.setting} choices=${[{ word, label }]} give=${…} />

import { html, useEffect, useRef, useState } from '../html.js'

let fields = 0

function useId() {
    const id = useRef(null)
    id.current ??= `field-${++fields}`
    return id.current
}

function Frame({ id, label, unit, hint, fault, children }) {
    return html`<div class="field">
        <label for=${id}>${label}</label>
        <div class="field-line">${children}${unit && html`<span class="quiet" aria-hidden="true">${unit}</span>`}</div>
        ${hint && !fault && html`<p class="field-hint" id=${`${id}-hint`}>${hint}</p>`}
        ${fault && html`<p class="field-fault" id=${`${id}-hint`} role="alert">${fault}</p>`}
    </div>`
}

// What is typed until it is given; follows the value when that changes elsewhere.
function useDraft(value) {
    const [draft, setDraft] = useState(value)
    useEffect(() => setDraft(value), [value])
    return [draft, setDraft]
}

const onEnter = (act) => (event) => event.key === 'Enter' && act()

// typing(text) hears every letter, for what is shown meanwhile; an edit is what give hears.
export function TextField({ label, value = '', hint, fault, give, typing, list, lines, autofocus }) {
    const id = useId()
    const [draft, setDraft] = useDraft(value)
    const end = () => draft !== value && give(draft.trim())
    const common = { id, value: draft, onInput: (event) => { setDraft(event.target.value); typing?.(event.target.value) }, onBlur: end,
        'aria-describedby': hint || fault ? `${id}-hint` : undefined, 'aria-invalid': fault ? 'true' : undefined, autofocus }
    return html`<${Frame} ...${{ id, label, hint, fault }}>
        ${lines ? html`<textarea rows=${lines} ...${common}></textarea>` : html`<input type="text" autocomplete="off" list=${list} onKeyDown=${onEnter(end)} ...${common} />`}
    <//>`
}

// "1,5" and "1.5" alike; NaN when it is no number.
export const numberOf = (text) => (/^[+-]?(\d+([.,]\d*)?|[.,]\d+)$/.test(text.trim()) ? Number(text.trim().replace(',', '.')) : NaN)

export function NumberField({ label, value, unit, hint, give, least = -Infinity, most = Infinity }) {
    const id = useId()
    const [draft, setDraft] = useDraft(value === undefined ? '' : String(value))
    const [fault, setFault] = useState('')
    const end = () => {
        const empty = draft.trim() === ''
        const read = empty ? undefined : numberOf(draft)
        if (Number.isNaN(read)) return setFault(`“${draft}” is no number: write it like 1.5`)
        if (!empty && (read < least || read > most)) return setFault(`between ${least} and ${most}${unit ? ` ${unit}` : ''}`)
        setFault('')
        return read === value || give(read)
    }
    return html`<${Frame} ...${{ id, label: unit ? html`${label}<span class="unseen">, ${unit}</span>` : label, unit, hint, fault }}>
        <input id=${id} type="text" inputmode="decimal" autocomplete="off" class="field-number" value=${draft}
            aria-invalid=${fault ? 'true' : undefined} aria-describedby=${hint || fault ? `${id}-hint` : undefined}
            onInput=${(event) => setDraft(event.target.value)} onBlur=${end} onKeyDown=${onEnter(end)} />
    <//>`
}

// choices: [{ word, label }]; an empty choice is offered first when `none` names it.
export function ChoiceField({ label, value = '', choices, none, hint, give }) {
    const id = useId()
    const known = !value || choices.some(({ word }) => word === value)
    return html`<${Frame} ...${{ id, label, hint }}>
        <select id=${id} value=${value} onChange=${(event) => give(event.target.value)}>
            ${none !== undefined && html`<option value="">${none}</option>`}
            ${!known && html`<option value=${value}>${value} (not known)</option>`}
            ${choices.map((choice) => html`<option key=${choice.word} value=${choice.word}>${choice.label}</option>`)}
        </select>
    <//>`
}

export function CheckField({ label, value, hint, give }) {
    const id = useId()
    return html`<div class="field field-check">
        <input id=${id} type="checkbox" checked=${value} onChange=${(event) => give(event.target.checked)} />
        <label for=${id}>${label}</label>
        ${hint && html`<p class="field-hint">${hint}</p>`}
    </div>`
}
