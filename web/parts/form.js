// SPDX-License-Identifier: MIT
//
// A form out of a list: each entry names a key of the object, its label and kind. One edit a field.
//
//     const FIELDS = [{ key: 'watts', label: 'Losses', unit: 'W', kind: 'number', least: 0 }, …]
//     <${Form} fields=${FIELDS} value=${box} give=${(key, value, label) => …} />     value undefined: take the key away
//
// kind: number; range (two numbers); text; choice (choices, none); yes (yes, no, not said); sub (fields of an object).

import { html } from '../html.js'
import { withKey } from '../state/document.js'
import { ChoiceField, NumberField, TextField } from './field.js'

const YES = [{ word: 'yes', label: 'yes' }, { word: 'no', label: 'no' }]
const yesWord = (value) => (value === true ? 'yes' : value === false ? 'no' : '')

// A pair is given whole; half a pair stays as it is being typed.
function Range({ field, value = [], give }) {
    const part = (at, label) => html`<${NumberField} label=${`${field.label}, ${label}`} unit=${field.unit} least=${field.least} value=${value[at] ?? undefined}
        give=${(number) => give(at ? (value[0] === undefined && number === undefined ? undefined : [value[0] ?? null, number ?? null]) : number === undefined && value[1] === undefined ? undefined : [number ?? null, value[1] ?? null])} />`
    return html`${part(0, field.ends?.[0] ?? 'from')}${part(1, field.ends?.[1] ?? 'to')}`
}

function Sub({ field, value, give }) {
    const change = (key, part) => {
        const next = withKey(value ?? {}, key, part)
        give(Object.keys(next).length ? next : undefined)
    }
    return html`<fieldset class="form-sub"><legend class="small">${field.label}</legend><${Form} fields=${field.fields} value=${value ?? {}} give=${change} /></fieldset>`
}

const KINDS = {
    number: ({ field, value, give }) => html`<${NumberField} ...${field} value=${value} give=${give} />`,
    text: ({ field, value, give }) => html`<${TextField} ...${field} value=${value} give=${(text) => give(text || undefined)} />`,
    choice: ({ field, value, give }) => html`<${ChoiceField} ...${field} none=${field.none ?? 'not said'} value=${value} give=${(word) => give(word || undefined)} />`,
    yes: ({ field, value, give }) => html`<${ChoiceField} label=${field.label} hint=${field.hint} none="not said" choices=${YES} value=${yesWord(value)} give=${(word) => give(word ? word === 'yes' : undefined)} />`,
    range: Range,
    sub: Sub
}

export function Form({ fields, value, give }) {
    return html`<div class="form">${fields.map((field) => {
        const Kind = KINDS[field.kind]
        return html`<${Kind} key=${field.key} field=${field} value=${value[field.key]} give=${(next) => give(field.key, next, field.label)} />`
    })}</div>`
}

// Choices out of plain words: "painted-steel" -> { word, label: "painted steel" }.
export const choicesOf = (words) => words.map((word) => ({ word, label: word.replaceAll('-', ' ') }))
