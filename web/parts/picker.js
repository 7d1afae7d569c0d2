// SPDX-License-Identifier: MIT
//
// One word out of many, found by typing: a combobox with a list. Other names of a word find it too.
//
//     <${Picker} label="What it is" value=${point.kind} words=${vocabulary.kind} give=${(word) => …} />

import { html, useEffect, useRef, useState } from '../html.js'

let pickers = 0

const SHOWN_MOST = 60

// Words whose label, word or other names hold every part of what was typed; those that begin with it come first.
export function matching(words, typed) {
    const parts = typed.toLowerCase().split(/\s+/).filter(Boolean)
    const text = ({ word, label, also = [] }) => [label, word, ...also].join(' ').toLowerCase()
    const found = words.filter((each) => parts.every((part) => text(each).includes(part)))
    const first = (each) => (each.label.toLowerCase().startsWith(typed.toLowerCase()) ? 0 : 1)
    return found.sort((a, b) => first(a) - first(b)).slice(0, SHOWN_MOST)
}

export function Picker({ label, value, words, hint, give }) {
    const id = useRef(null)
    id.current ??= `picker-${++pickers}`
    const chosen = words.find(({ word }) => word === value)
    const shown = chosen ? chosen.label : value ?? ''
    const [typed, setTyped] = useState(null) // null: closed
    const [at, setAt] = useState(0)
    const list = useRef(null)
    const found = typed === null ? [] : matching(words, typed === shown ? '' : typed)
    useEffect(() => list.current?.children[at]?.scrollIntoView({ block: 'nearest' }), [at, typed])
    const close = () => setTyped(null)
    const take = (each) => {
        close()
        if (each && each.word !== value) give(each.word)
    }
    const onKeyDown = (event) => {
        const step = { ArrowDown: 1, ArrowUp: -1 }[event.key]
        if (step) {
            event.preventDefault()
            if (typed === null) setTyped(shown)
            else setAt((now) => Math.max(0, Math.min(found.length - 1, now + step)))
        } else if (event.key === 'Enter' && typed !== null) {
            event.preventDefault()
            take(found[at])
        } else if (event.key === 'Escape' && typed !== null) {
            event.stopPropagation()
            close()
        }
    }
    const open = typed !== null
    return html`<div class="field picker">
        <label for=${id.current}>${label}</label>
        <input id=${id.current} type="text" role="combobox" autocomplete="off" aria-expanded=${open} aria-controls=${`${id.current}-list`}
            aria-activedescendant=${open && found[at] ? `${id.current}-${at}` : undefined} value=${open ? typed : shown}
            onFocus=${(event) => event.target.select()} onClick=${() => typed === null && setTyped(shown)}
            onInput=${(event) => { setTyped(event.target.value); setAt(0) }} onKeyDown=${onKeyDown} onBlur=${close} />
        <ul id=${`${id.current}-list`} class="picker-list" role="listbox" aria-label=${label} hidden=${!open} ref=${list}>
            ${found.map((each, index) => html`<li key=${each.word} id=${`${id.current}-${index}`} role="option" aria-selected=${index === at}
                onMouseDown=${(event) => { event.preventDefault(); take(each) }}>${each.label}</li>`)}
            ${open && !found.length && html`<li role="option" aria-disabled="true" class="quiet">Nothing is called that.</li>`}
        </ul>
        ${hint && html`<p class="field-hint">${hint}</p>`}
    </div>`
}
