// SPDX-License-Identifier: MIT
//
// A list of words: each can be taken out, another is found by typing.
//
//     <${Words} label="Measures" value=${point.measures} words=${vocabulary.measure} give=${(list) => …} />     undefined when empty

import { html } from '../html.js'
import { Icon } from './icons.js'
import { Picker } from './picker.js'

export function Words({ label, value, words, give }) {
    const list = Array.isArray(value) ? value : []
    const labelOf = (word) => words.find((each) => each.word === word)?.label ?? `${word} (not known)`
    const without = (word) => { const rest = list.filter((each) => each !== word); give(rest.length ? rest : undefined) }
    return html`<div class="words-list">
        ${list.length > 0 && html`<ul class="row" aria-label=${label}>${list.map((word) => html`<li key=${word}><button class="words-word" aria-label=${`Take out: ${labelOf(word)}`} onClick=${() => without(word)}>${labelOf(word)}<${Icon} name="close" /></button></li>`)}</ul>`}
        <${Picker} label=${list.length ? `${label}: one more` : label} value="" words=${words.filter(({ word }) => !list.includes(word))} give=${(word) => give([...list, word])} />
    </div>`
}
