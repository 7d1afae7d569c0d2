// SPDX-License-Identifier: MIT
//
// A verdict: its shape and its word; colour only repeats them. `large` for the answer of a view.

import { html } from '../html.js'

export { verdicts } from './verdict-order.js'

// On a grid of 16: a full square, an upright triangle, a hollow ring with a question in it, a cross.
export const SHAPES = {
    fits: html`<path d="M2 2h12v12H2z" fill="currentColor" />`,
    short: html`<path d="M8 1.5l7 13H1z" fill="currentColor" />`,
    unknown: html`<path d="M5 6a3 3 0 1 1 4.6 2.5C8.4 9.3 8 9.9 8 11M8 13.8v.2" fill="none" stroke="currentColor" stroke-width="2.2" stroke-linecap="round" />`,
    barred: html`<path d="M2 2l12 12M14 2L2 14" fill="none" stroke="currentColor" stroke-width="3" />`
}

export function Verdict({ verdict, large = false, count }) {
    return html`<span class=${`verdict verdict-${verdict} ${large ? 'verdict-large' : ''}`}>
        <svg viewBox="0 0 16 16" aria-hidden="true">${SHAPES[verdict]}</svg>
        ${count !== undefined && html`<span class="verdict-count">${count}</span>`}
        <span>${verdict}</span>
    </span>`
}
