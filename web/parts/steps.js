// SPDX-License-Identifier: MIT
//
// A calculation step by step, to be followed by hand: what, result, and how it comes about.

import { html } from '../html.js'

const SOURCES = { published: 'published:', memory: 'from memory:', 'common-practice': 'common practice', person: 'asked by' }

export const sourceText = ({ kind, ref }) => (SOURCES[kind] ? [SOURCES[kind], kind === 'common-practice' ? '' : ref].join(' ').trim() : [kind, ref].join(' '))

export function Steps({ steps }) {
    return html`<ol class="steps">${steps.map((step, index) => html`<li key=${index}>
        <p class="steps-line"><strong>${step.what}</strong> <strong class="code">${step.result}</strong></p>
        <p class="small">${[step.formula, step.inputs].filter(Boolean).join('; ')}</p>
        ${step.source && html`<p class="small quiet">${sourceText(step.source)}</p>`}</li>`)}</ol>`
}
