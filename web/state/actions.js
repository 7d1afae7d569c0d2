// SPDX-License-Identifier: MIT
//
// What a person can do, one record each: name, label, icon, key, and the effect. Buttons, keys and the list of keys (?)
// all come from here. A view adds its own while it is shown.
//
//     useActions([{ name: 'next-point', label: 'Next point', icon: 'forward', key: 'n', effect: () => … }])
//     <${ActionButton} action=${action} />

import { html, useLayoutEffect } from '../html.js'
import { Icon } from '../parts/icons.js'
import { redo, opened, undo } from './opened.js'
import { makeStore } from './store.js'

const last = (list) => list[list.length - 1]

const always = [
    { name: 'undo', label: 'Undo', icon: 'undo', key: 'mod+z', effect: undo, enabled: () => opened.get().past.length > 0, about: () => last(opened.get().past)?.label },
    { name: 'redo', label: 'Redo', icon: 'redo', key: 'mod+shift+z', effect: redo, enabled: () => opened.get().future.length > 0, about: () => last(opened.get().future)?.label }
]

export const actions = makeStore({ all: always })
export const actionOf = (name) => actions.get().all.find((action) => action.name === name)

export function useActions(list) {
    useLayoutEffect(() => {
        actions.set(({ all }) => ({ all: [...all.filter(({ name }) => !list.some((each) => each.name === name)), ...list] }))
        return () => actions.set(({ all }) => ({ all: all.filter((action) => !list.includes(action)) }))
    })
}

export const isEnabled = (action) => action.enabled?.() ?? true

const hasKey = ({ key }) => key && (!isLetterKey(key) || letterKeys.get().on)

export function ActionButton({ action, look = '', wordless = false }) {
    const able = isEnabled(action)
    const about = action.about?.()
    const name = about ? `${action.label}: ${about}` : action.label
    return html`<button class=${look} aria-disabled=${able ? undefined : 'true'} aria-label=${wordless || about ? name : undefined}
        title=${hasKey(action) ? `${name} (${keyWord(action.key)})` : name} onClick=${() => able && action.effect()}>
        ${action.icon && html`<${Icon} name=${action.icon} />`}${!wordless && html`<span>${action.label}</span>`}
    </button>`
}

// --- keys -----------------------------------------------------------------------------------------------------------

export const keyWord = (key) => (key === '+' ? [key] : key.split('+')).map((part) => ({ mod: 'Ctrl', shift: 'Shift', alt: 'Alt' })[part] ?? part.toUpperCase()).join(' ')

const keyOf = (event) => [
    (event.ctrlKey || event.metaKey) && 'mod',
    event.altKey && 'alt',
    event.shiftKey && (event.key.length > 1 || event.ctrlKey || event.metaKey) && 'shift',
    event.key.toLowerCase()
].filter(Boolean).join('+')

// Keys of one letter can be switched off: who dictates, or rests a hand on the keyboard, sets them off unawares.
export const letterKeys = makeStore({ on: localStorage.getItem('letter-keys') !== 'off' })
letterKeys.watch(() => localStorage.setItem('letter-keys', letterKeys.get().on ? 'on' : 'off'))

export const isLetterKey = (key) => key.length === 1

const typesText = (target) => target.closest?.('input:not([type=checkbox]), textarea, select, [contenteditable]')

addEventListener('keydown', (event) => {
    const key = keyOf(event)
    if (event.defaultPrevented || document.querySelector('dialog[open]')) return
    if (typesText(event.target) || (isLetterKey(key) && !letterKeys.get().on)) return
    const action = actions.get().all.find((each) => each.key === key)
    if (action && isEnabled(action)) {
        event.preventDefault()
        action.effect()
    }
})
