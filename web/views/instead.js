// SPDX-License-Identifier: MIT
//
// Will this do instead? A code that is needed against one that is offered: answered while it is typed. It needs no job;
// from a point it comes with that point's need filled in.

import { core, Unreadable } from '../core/core.js'
import { html, useState } from '../html.js'
import { Rungs } from '../parts/rungs.js'
import { Verdict } from '../parts/verdict.js'

const SOLIDS = ['X', 1, 2, 3, 4, 5, 6].map(String)
const WATER = ['X', 1, 2, 3, 4, 5, 6, 7, 8, 9].map(String)
const BLOWS = ['', ...Array.from({ length: 10 }, (_, index) => `IK${String(index + 1).padStart(2, '0')}`)]

const PLAIN = /^IP([0-9X])([0-9X])(?: (IK(?:0\d|10)))?$/

// A code that was put together by tapping; { solids, water, blows }, null when it was typed in another form.
function partsOf(code) {
    const found = PLAIN.exec(code.trim() || 'IPXX')
    return found && { solids: found[1], water: found[2], blows: found[3] ?? '' }
}

const codeOf = ({ solids, water, blows }) => [`IP${solids}${water}`, blows].filter(Boolean).join(' ')

function Keys({ label, choices, value, give }) {
    return html`<fieldset class="instead-keys"><legend class="small">${label}</legend>
        <div class="row">${choices.map((choice) => html`<button key=${choice} class="code" aria-pressed=${value === choice} onClick=${() => give(choice)}>${choice || 'none'}</button>`)}</div></fieldset>`
}

function Code({ label, code, setCode, note }) {
    const parts = partsOf(code)
    const give = (key) => (value) => setCode(codeOf({ ...(parts ?? partsOf('')), [key]: value }))
    const id = `instead-${label.split(' ')[0].toLowerCase()}`
    return html`<section class="instead-code sheet stack" aria-label=${label}>
        <div class="field"><label for=${id}>${label}</label>
            <input id=${id} type="text" class="instead-input code" autocomplete="off" autocapitalize="characters" spellcheck=${false}
                placeholder="IP44" value=${code} onInput=${(event) => setCode(event.target.value)} /></div>
        ${note && html`<p class="small quiet">${note}</p>`}
        <${Keys} label="Solids" choices=${SOLIDS} value=${parts?.solids} give=${give('solids')} />
        <${Keys} label="Water" choices=${WATER} value=${parts?.water} give=${give('water')} />
        <details><summary>Blows</summary><${Keys} label="Blows" choices=${BLOWS} value=${parts?.blows} give=${give('blows')} /></details>
    </section>`
}

function answerOf(need, mark) {
    if (!need.trim() || !mark.trim()) return {}
    try {
        return { answer: core.compare(need, mark) }
    } catch (error) {
        if (!(error instanceof Unreadable)) throw error
        return { problem: error.problem }
    }
}

function Answer({ need, mark }) {
    const { answer, problem } = answerOf(need, mark)
    if (problem) return html`<section class="sheet stack" aria-live="polite"><h2>The need cannot be read</h2><p>${problem.problem}</p><p>${problem.remedy}</p></section>`
    if (!answer) return html`<section class="sheet stack" aria-live="polite"><p class="quiet">Tap or type what is needed and what is offered. A code may be written as it is printed: IP55/IP67, IPX4, IP69K, NEMA 4X.</p></section>`
    return html`<section class="sheet stack" aria-live="polite">
        <${Verdict} verdict=${answer.verdict} large />
        <p>${answer.because}</p>
        <${Rungs} needed=${need} shown=${mark} form="figures" />
        <p class="small quiet">Of the codes alone. Lids, entries, mounting and heat may take protection away: judge the point in its job.</p>
    </section>`
}

function noteOf(mark) {
    if (!mark.trim()) return ''
    const { because, status } = core.read(mark)
    return status === 'code' ? '' : because
}

export function InsteadView({ query = '' }) {
    const start = new URLSearchParams(query)
    const [need, setNeed] = useState(start.get('need') ?? '')
    const [mark, setMark] = useState(start.get('mark') ?? '')
    return html`<div class="stack">
        <h1>Will this do instead?</h1>
        <div class="instead">
            <${Code} label="Needed" code=${need} setCode=${setNeed} />
            <${Code} label="Offered" code=${mark} setCode=${setMark} note=${noteOf(mark)} />
            <${Answer} ...${{ need, mark }} />
        </div>
    </div>`
}
