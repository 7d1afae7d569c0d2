// SPDX-License-Identifier: MIT
//
// What stands round the table of points: how the job stands, its places, and what is listed in which order.

import { labelOf, packs, vocabulary } from '../core/rules.js'
import { html, useMemo, useState } from '../html.js'
import { Icon } from '../parts/icons.js'
import { fileNameOf, saveFile } from '../parts/save-file.js'
import { Verdict, verdicts } from '../parts/verdict.js'
import { documentText } from '../state/document.js'
import { placeSums } from '../state/lines.js'
import { setListing, toggled } from '../state/listing.js'
import { addressOf } from '../state/route.js'
import { COLUMNS } from './points-table.js'

const editionOf = (id) => packs.find((pack) => pack.id === id)?.edition ?? id

// --- the answer -----------------------------------------------------------------------------------------------------

function Counts({ counts, chosen }) {
    return html`<div class="points-counts" role="group" aria-label="Points by verdict, to filter">
        ${verdicts.map((verdict) => html`<button key=${verdict} class="points-count" aria-pressed=${chosen.has(verdict)} onClick=${() => setListing({ verdicts: toggled(chosen, verdict) })}>
            <${Verdict} verdict=${verdict} count=${counts[verdict]} /></button>`)}</div>`
}

// Notices and problems as quiet lines that open.
function Notes({ whole, problem }) {
    const notices = whole?.packs.filter(({ notice }) => notice) ?? []
    const problems = whole?.problems ?? []
    const count = (whole?.problems_unlisted ?? 0) + problems.length
    return html`
        ${problem && html`<div class="points-note points-alarm" role="alert"><strong>The job cannot be judged.</strong> ${problem.problem} ${problem.remedy}</div>`}
        ${notices.map(({ id, edition, notice }) => html`<details key=${id} class="points-note"><summary>${edition} was not in force on the job’s date</summary><p>${notice}</p></details>`)}
        ${count > 0 && html`<details class="points-note"><summary>${count} ${count === 1 ? 'entry of the job is' : 'entries of the job are'} not understood</summary>
            <ul>${problems.map((each, index) => html`<li key=${index}>${each.problem} ${each.remedy} <span class="quiet">${each.pointer}</span></li>`)}</ul></details>`}`
}

const saveJob = (jobDocument) => saveFile(`${fileNameOf(jobDocument.title)}.json`, new Blob([documentText(jobDocument)], { type: 'application/json' }))

export function Head({ job, document: jobDocument, counts, list, whole, problem, openJobDialog }) {
    const asked = whole?.questions.length ?? 0
    const rules = Array.isArray(jobDocument.rules) ? jobDocument.rules : []
    const any = jobDocument.points.length > 0
    return html`<header class="points-head">
        <div class="points-title"><h1>${jobDocument.title || 'Job without a title'}</h1>
            <p class="quiet small">${[jobDocument.date || 'no date', ...(rules.length ? rules.map(editionOf) : ['no rule pack'])].join(', ')}</p>
            <button onClick=${openJobDialog}>Title and rules</button></div>
        ${any && html`<${Counts} counts=${counts} chosen=${list.verdicts} />`}
        <nav class="points-ways" aria-label="Of this job">
            ${any && html`<a class="button" href=${addressOf(job, 'questions')}><${Icon} name="question" />Questions${asked > 0 && ` (${asked})`}</a>
            <a class="button" href=${addressOf(job, 'print')}><${Icon} name="print" />Print</a>`}
            <a class="button" href=${addressOf(job, 'import')}><${Icon} name="open" />From a spreadsheet</a>
            <button onClick=${() => saveJob(jobDocument)}><${Icon} name="save" />Save as a file</button></nav>
        <div class="points-notes"><${Notes} ...${{ whole, problem }} /></div>
    </header>`
}

// --- places ---------------------------------------------------------------------------------------------------------

const PLACES_FIRST = 40

const hasPlan = (place) => place.plan || vocabulary.place.find(({ word }) => word === place.kind)?.zones

function PlaceLine({ job, place, sum, chosen }) {
    const name = place.name || place.id
    const { count, worst } = sum
    return html`<li class="places-line">
        <button class="places-name plain" aria-pressed=${chosen.has(place.id)} onClick=${() => setListing({ places: toggled(chosen, place.id) })}>
            <span class="places-text">${name}</span><span class="places-sum small">${worst && html`<${Verdict} verdict=${worst} />`}<span class="quiet">${count} ${count === 1 ? 'point' : 'points'}</span></span></button>
        ${hasPlan(place) && html`<a class="button plain" aria-label=${`Plan of ${name}`} title="Plan" href=${addressOf(job, 'place', place.id, 'plan')}><${Icon} name="plan" /></a>`}
        <a class="button plain" aria-label=${`Survey of ${name}`} title="Survey" href=${addressOf(job, 'place', place.id)}><${Icon} name="forward" /></a></li>`
}

export function Places({ job, document, rows, chosen, add }) {
    const [all, setAll] = useState(false)
    const [startOpen] = useState(() => matchMedia('(min-width: 68.75rem)').matches)
    const sums = useMemo(() => placeSums(document, rows), [document, rows])
    const shown = all ? document.places : document.places.slice(0, PLACES_FIRST)
    return html`<details class="places" open=${startOpen || !document.places.length}>
        <summary><h2>Places</h2><span class="quiet small">${document.places.length}${chosen.size > 0 && `, ${chosen.size} chosen`}</span><${Icon} name="down" /></summary>
        ${shown.length > 0 && html`<ul>${shown.map((place) => html`<${PlaceLine} key=${place.id} ...${{ job, place, chosen }} sum=${sums.get(place.id)} />`)}</ul>`}
        <div class="row places-tools"><button onClick=${add}><${Icon} name="add" />Place</button>
            ${shown.length < document.places.length && html`<button class="plain" onClick=${() => setAll(true)}>${document.places.length - shown.length} more<${Icon} name="down" /></button>`}
            ${chosen.size > 0 && html`<button class="plain" onClick=${() => setListing({ places: new Set() })}>All places</button>`}</div>
    </details>`
}

// --- what is listed -------------------------------------------------------------------------------------------------

const GROUPS = [['', 'not grouped'], ['place', 'by place'], ['need', 'by need'], ['verdict', 'by verdict']]

function Choice({ label, value, choices, give, look = '' }) {
    return html`<label class=${`points-choice ${look}`}><span class="small quiet">${label}</span>
        <select value=${value} onChange=${(event) => give(event.target.value)}>${choices.map(([word, text]) => html`<option key=${word} value=${word}>${text}</option>`)}</select></label>`
}

export function Tools({ document, list, listed, isFiltered, stale }) {
    const kinds = useMemo(() => [...new Set(document.points.map(({ kind }) => kind))].filter(Boolean).sort((a, b) => labelOf(a).localeCompare(labelOf(b))), [document.points])
    const clear = () => setListing({ text: '', kind: '', verdicts: new Set(), places: new Set() })
    const sorts = [['order', 'as in the job'], ...COLUMNS.map(({ by, label }) => [by, label.toLowerCase()])]
    return html`<div class="points-tools">
        <label class="search points-search"><${Icon} name="search" /><span class="unseen">Find a point</span>
            <input type="search" id="points-find" placeholder="Find: name, place, code …" value=${list.text} onInput=${(event) => setListing({ text: event.target.value })} /></label>
        <${Choice} label="Kind" value=${list.kind} choices=${[['', 'all'], ...kinds.map((kind) => [kind, labelOf(kind)])]} give=${(kind) => setListing({ kind })} />
        <${Choice} label="Group" value=${list.group} choices=${GROUPS} give=${(group) => setListing({ group, closed: new Set() })} />
        <${Choice} label="Sort" look="points-sort" value=${list.sort.by} choices=${sorts} give=${(by) => setListing({ sort: { by, down: false } })} />
        <span class="points-sum small quiet" role="status">${stale && 'being judged … '}${isFiltered ? `${listed} of ${document.points.length} points` : `${listed} ${listed === 1 ? 'point' : 'points'}`}</span>
        ${isFiltered && html`<button class="plain" onClick=${clear}>Show all</button>`}
    </div>`
}

export function Nothing({ document, isFiltered, addPlace, addPoint, openJobDialog }) {
    if (isFiltered) return html`<p class="sheet">No point is like that.</p>`
    const rules = (Array.isArray(document.rules) ? document.rules : []).map(editionOf).join(', ') || 'no rules yet'
    if (!document.places.length) return html`<div class="sheet stack"><h2>Begin with a place</h2>
        <p class="measure">A place is a room, a yard, a jetty: whatever shares its surroundings. Say what was seen there, and it tells what a point there needs.</p>
        <p><button class="primary" onClick=${addPlace}><${Icon} name="add" />Place</button></p>
        <p class="measure">The job goes by ${rules}. <button class="plain points-inline" onClick=${openJobDialog}>Choose other rules, a title, a date</button></p></div>`
    return html`<div class="sheet stack"><h2>No points yet</h2><p class="measure">A point is whatever electrical needs an answer: a socket, a light, a board.</p>
        <p><button class="primary" onClick=${addPoint}><${Icon} name="add" />Point</button></p></div>`
}
