// SPDX-License-Identifier: MIT
//
// A spreadsheet into the job: which column fills what is shown and can be changed, every fault is told by row and column,
// and all of it comes in with one step or nothing does. The mapping is remembered on this device by the table's headings.

import { core, Unreadable } from '../core/core.js'
import { html, useMemo, useRef, useState } from '../html.js'
import { CheckField } from '../parts/field.js'
import { Icon } from '../parts/icons.js'
import { documentText } from '../state/document.js'
import { addressOf, go } from '../state/route.js'
import { opened, replaceDocument } from '../state/opened.js'
import { useStore } from '../state/store.js'
import { IMPORT_KEYS } from './import-keys.js'

const memoryOf = (columns) => `map:${columns.map(({ heading }) => heading).join('|').slice(0, 500)}`
const remembered = (columns) => JSON.parse(localStorage.getItem(memoryOf(columns)) ?? '{}')

function asked(document, table, choice, addPlaces) {
    const map = Object.keys(choice).length ? JSON.stringify({ dripstone_map: 1, columns: choice }) : ''
    try {
        return { answer: core.importTable(documentText(document), table, map, addPlaces) }
    } catch (error) {
        if (!(error instanceof Unreadable)) throw error
        return { problem: error.problem }
    }
}

function Columns({ columns, choose }) {
    return html`<table class="import-columns"><thead><tr><th scope="col">Column</th><th scope="col">Heading</th><th scope="col">fills</th></tr></thead>
        <tbody>${columns.map(({ column, heading, key }) => html`<tr key=${column}><td>${column}</td><th scope="row">${heading}</th>
            <td><select aria-label=${`${heading} fills`} value=${key ?? ''} onChange=${(event) => choose(heading, event.target.value || null)}>
                <option value="">nothing: left out</option>${IMPORT_KEYS.map(({ group, keys }) => html`<optgroup key=${group} label=${group}>${keys.map((each) => html`<option key=${each.key} value=${each.key}>${each.label}</option>`)}</optgroup>`)}</select></td></tr>`)}</tbody></table>`
}

function Faults({ answer }) {
    const { faults, faults_unlisted: more } = answer
    return html`<div role="alert"><p class="field-fault">${faults.length + more} ${faults.length + more === 1 ? 'fault' : 'faults'}: nothing comes in before they are mended.</p>
        <ul class="import-faults">${faults.map((each, index) => html`<li key=${index}><strong>row ${each.row}${each.column ? `, column ${each.column}` : ''}</strong> ${each.problem}. <span class="quiet">${each.remedy}</span></li>`)}</ul></div>`
}

const counted = (count, one, many) => `${count} ${count === 1 ? one : many}`

function Sum({ answer }) {
    const parts = [[answer.points_added, 'point added', 'points added'], [answer.points_changed, 'point changed', 'points changed'], [answer.places_added, 'place added', 'places added'], [answer.places_changed, 'place changed', 'places changed']]
    const told = parts.filter(([count]) => count > 0).map((part) => counted(...part)).join(', ')
    return html`<p>${counted(answer.rows, 'row', 'rows')} read: ${told || 'nothing would change'}.</p>`
}

function Table({ document, table, job }) {
    const first = useMemo(() => asked(document, table, {}, false), [table])
    const [choice, setChoice] = useState(first.answer ? remembered(first.answer.columns) : {})
    const [addPlaces, setAddPlaces] = useState(false)
    const { answer, problem } = useMemo(() => asked(document, table, choice, addPlaces), [document, table, choice, addPlaces])
    if (problem) return html`<div class="sheet stack" role="alert"><h2>The table cannot be read</h2><p>${problem.problem}. ${problem.remedy}</p>${problem.line > 0 && html`<p class="quiet">line ${problem.line}</p>`}</div>`
    const take = () => {
        if (Object.keys(choice).length) localStorage.setItem(memoryOf(answer.columns), JSON.stringify(choice))
        replaceDocument(`Import of ${counted(answer.rows, 'row', 'rows')}`, JSON.stringify(answer.job))
        go(addressOf(job))
    }
    const changes = answer.points_added + answer.points_changed + answer.places_added + answer.places_changed
    return html`<div class="sheet stack">
        <${Sum} answer=${answer} />
        ${answer.faults.length > 0 && html`<${Faults} answer=${answer} />`}
        <${CheckField} label="Add places that the job does not have" value=${addPlaces} give=${setAddPlaces} />
        <button class="primary" disabled=${!answer.job || !changes} onClick=${take}><${Icon} name="open" />Take it in</button>
        <h2>Columns</h2>
        <${Columns} columns=${answer.columns} choose=${(heading, key) => setChoice({ ...choice, [heading]: key })} />
    </div>`
}

export function ImportView({ job }) {
    const document = useStore(opened, (state) => state.document)
    const [table, setTable] = useState(null)
    const file = useRef(null)
    const take = async (event) => {
        const [chosen] = event.target.files
        event.target.value = ''
        if (chosen) setTable(await chosen.text())
    }
    return html`<div class="stack">
        <div class="spread"><h1>From a spreadsheet</h1><button class=${table === null ? 'primary' : ''} onClick=${() => file.current.click()}><${Icon} name="open" />Choose a CSV file</button></div>
        <input type="file" accept=".csv,text/csv,text/plain" ref=${file} onChange=${take} hidden aria-label="CSV file" />
        <p class="measure quiet">Save the sheet as CSV in UTF-8. The first row holds headings, each further one a point: a row whose id the job has changes that point, any other adds one.</p>
        ${table !== null && html`<${Table} key=${table} ...${{ document, table, job }} />`}
    </div>`
}
