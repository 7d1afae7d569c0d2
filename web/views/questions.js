// SPDX-License-Identifier: MIT
//
// What to ask, and whom: the questions that would settle what is unknown, each with the points that wait for it.

import { html } from '../html.js'
import { Icon } from '../parts/icons.js'
import { Verdict } from '../parts/verdict.js'
import { addressOf } from '../state/route.js'
import { opened } from '../state/opened.js'
import { useStore } from '../state/store.js'

const WHOM = { client: 'The client', maker: 'The maker', site: 'On site', designer: 'The designer' }
const SHOWN_MOST = 12

// The questions as text, to send to the person who is asked.
const asText = (questions) => questions.map(({ question, points }) => `- ${question} (${points.join(', ')})`).join('\n')

function Question({ question, rows, job }) {
    const { points } = question
    return html`<li class="question">
        <p><strong>${question.question}</strong></p>
        ${question.because && html`<p class="quiet">${question.because}</p>`}
        <p class="question-points">${points.slice(0, SHOWN_MOST).map((id) => html`<a key=${id} class="button plain" href=${addressOf(job, 'point', id)}>${rows.get(id) && html`<${Verdict} verdict=${rows.get(id).verdict} />`} ${id}</a>`)}
            ${points.length > SHOWN_MOST && html`<span class="quiet">and ${points.length - SHOWN_MOST} more</span>`}</p>
    </li>`
}

function Whom({ whom, questions, rows, job }) {
    return html`<section class="sheet stack">
        <div class="spread"><h2>${WHOM[whom] ?? whom}</h2>
            <button class="no-print" onClick=${() => navigator.clipboard?.writeText(asText(questions))}><${Icon} name="copy" />Copy as text</button></div>
        <ul class="stack">${questions.map((question) => html`<${Question} key=${question.question} ...${{ question, rows, job }} />`)}</ul>
    </section>`
}

export function QuestionsView({ job }) {
    const { whole, rows, problem } = useStore(opened)
    if (!whole) return html`<div class="stack"><h1>Questions</h1><p class="quiet">${problem ? problem.problem : 'Being worked out …'}</p></div>`
    const asked = Object.keys(WHOM).filter((whom) => whole.questions.some((question) => question.whom === whom))
    return html`<div class="stack">
        <h1>Questions</h1>
        ${!asked.length && html`<p class="sheet measure">Nothing is left to ask.</p>`}
        ${asked.map((whom) => html`<${Whom} key=${whom} questions=${whole.questions.filter((question) => question.whom === whom)} ...${{ whom, rows, job }} />`)}
    </div>`
}
