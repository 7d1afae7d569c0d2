// SPDX-License-Identifier: MIT
//
// The schedule as it is printed: by place, with the deciding fact of every point, what to ask, and the cautions. The
// browser's own print makes paper or PDF of it; the server makes the papers for each reader (papers.js).

import { labelOf } from '../core/rules.js'
import { html } from '../html.js'
import { Icon } from '../parts/icons.js'
import { Verdict, verdicts } from '../parts/verdict.js'
import { pointsAt } from '../state/document.js'
import { opened } from '../state/opened.js'
import { useStore } from '../state/store.js'
import { Papers } from './papers.js'

function Row({ point, row }) {
    return html`<tr>
        <th scope="row">${point.id}</th>
        <td>${point.name || labelOf(point.kind)}${point.count > 1 ? `, ${point.count} alike` : ''}</td>
        <td class="code">${row?.needed ?? ''}</td><td class="code">${row?.marked ?? ''}</td>
        <td>${row && html`<${Verdict} verdict=${row.verdict} />`}</td>
        <td>${row?.deciding}${row?.remedy && html` <em>${row.remedy}</em>`}</td>
    </tr>`
}

function Place({ place, points, rows }) {
    return html`<section class="print-place" tabindex="0" aria-label=${`Points of ${place.name || place.id}`}>
        <h2>${place.name || place.id}</h2>
        <table><thead><tr><th scope="col">Point</th><th scope="col">What</th><th scope="col">Needed</th><th scope="col">Marked</th><th scope="col">Verdict</th><th scope="col">Why, and what mends it</th></tr></thead>
            <tbody>${points.map((point) => html`<${Row} key=${point.id} point=${point} row=${rows.get(point.id)} />`)}</tbody></table>
    </section>`
}

export function PrintView() {
    const { document, rows, whole } = useStore(opened)
    if (!whole) return html`<div class="stack"><h1>Schedule</h1><p class="quiet">Being worked out …</p></div>`
    const places = document.places.map((place) => ({ place, points: pointsAt(document, place.id) })).filter(({ points }) => points.length)
    return html`<article class="print sheet stack">
        <header class="stack"><div class="spread"><h1>${document.title || 'Schedule'}</h1>
            <button class="primary no-print" onClick=${() => print()}><${Icon} name="print" />Print</button></div>
            <p>${[document.date, ...whole.packs.map(({ edition }) => edition), whole.program].filter(Boolean).join('; ')}</p>
            ${whole.packs.map(({ notice, id }) => notice && html`<p key=${id}><strong>${notice}</strong></p>`)}
            <p class="row">${verdicts.map((verdict) => html`<${Verdict} key=${verdict} verdict=${verdict} count=${whole.counted[verdict]} />`)}</p></header>
        <${Papers} document=${document} />
        ${places.map(({ place, points }) => html`<${Place} key=${place.id} ...${{ place, points, rows }} />`)}
        ${whole.questions.length > 0 && html`<section><h2>To be settled</h2><ul class="print-list">${whole.questions.map(({ whom, question, points }) => html`<li key=${whom + question}>${whom}: ${question} (${points.slice(0, 20).join(', ')}${points.length > 20 ? ' …' : ''})</li>`)}</ul></section>`}
        <section><h2>Cautions</h2><ul class="print-list">${whole.cautions.map((text) => html`<li key=${text}>${text}</li>`)}</ul></section>
    </article>`
}
