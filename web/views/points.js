// SPDX-License-Identifier: MIT
//
// A job: how it stands, its places, and its points as a list that stays quick at any length.

import { labelOf, packs as allPacks, vocabulary } from '../core/rules.js'
import { html, useMemo, useState } from '../html.js'
import { Dialog } from '../parts/dialog.js'
import { ChoiceField, TextField } from '../parts/field.js'
import { Grid } from '../parts/grid.js'
import { Icon } from '../parts/icons.js'
import { Picker } from '../parts/picker.js'
import { Rungs } from '../parts/rungs.js'
import { Verdict, verdicts } from '../parts/verdict.js'
import { useActions } from '../state/actions.js'
import { addPlace, addPoint, documentText, freeId, idFromName, withKey } from '../state/document.js'
import { addressOf, go } from '../state/route.js'
import { edit, session } from '../state/session.js'
import { makeStore, useStore } from '../state/store.js'
import { useWide } from '../parts/wide.js'
import { Bulk } from './points-bulk.js'
import { countVerdicts, listOf, placeSums } from './points-list.js'

const START = { job: null, text: '', verdicts: [], place: '', sort: '', down: false, group: 'place' }

// Stays while a point is looked at, so that coming back finds the list as it was.
const choice = makeStore(START)

const COLUMNS = [['verdict', 'Verdict'], ['id', 'Point'], ['name', 'What'], ['needed', 'Needed'], ['marked', 'Marked'], ['deciding', 'Why']]
const GROUPS = [{ word: 'place', label: 'by place' }, { word: 'verdict', label: 'by verdict' }, { word: 'needed', label: 'by need' }, { word: '', label: 'one list' }]
const ROW_WIDE = 48
const ROW_NARROW = 84

// --- the job itself -------------------------------------------------------------------------------------------------

function JobDialog({ document, close }) {
    const give = (key, label) => (value) => edit(label, (now) => withKey(now, key, value))
    const rules = Array.isArray(document.rules) ? document.rules : []
    const own = rules.filter((id) => !allPacks.some((pack) => pack.id === id))
    const toggle = (id) => edit(`Rules ${id}`, (now) => withKey(now, 'rules', rules.includes(id) ? rules.filter((each) => each !== id) : [...rules, id]))
    return html`<${Dialog} title="The job" close=${close}>
        <${TextField} label="Title" value=${document.title} give=${give('title', 'Title')} />
        <${TextField} label="Date" value=${document.date} give=${give('date', 'Date')} hint="year-month-day; says which edition was in force" />
        <fieldset class="stack"><legend><strong>Rules to go by</strong></legend>
            ${[...allPacks, ...own.map((id) => ({ id, edition: 'a pack of your own' }))].map(({ id, edition }) => html`<label key=${id} class="points-pack"><input type="checkbox" checked=${rules.includes(id)} onChange=${() => toggle(id)} /><span><strong>${id}</strong> ${edition}</span></label>`)}
        </fieldset><//>`
}

function NewPlace({ document, job, close }) {
    const [name, setName] = useState('')
    const [kind, setKind] = useState('')
    const [setting, setSetting] = useState('indoors')
    const add = () => {
        const id = idFromName(document.places, name || kind, 'place')
        edit(`Add ${name || id}`, (now) => addPlace(now, { id, name: name || labelOf(kind), kind, setting, seen: [], absent: [] }))
        go(addressOf(job, 'place', id))
    }
    return html`<${Dialog} title="New place" close=${close}>
        <${Picker} label="What it is" value=${kind} words=${vocabulary.place} give=${setKind} hint="type a part of it: barn, shower, plant room" />
        <${TextField} label="Name" value=${name} give=${setName} hint="as people on site call it" />
        <${ChoiceField} label="Setting" value=${setting} choices=${vocabulary.setting} give=${setSetting} />
        <button class="primary" disabled=${!kind} onClick=${add}>Survey it<${Icon} name="forward" /></button><//>`
}

function saveFile(document) {
    const link = Object.assign(window.document.createElement('a'), {
        href: URL.createObjectURL(new Blob([documentText(document)], { type: 'application/json' })),
        download: `${(document.title || 'job').replace(/[^\p{L}\p{N} _-]+/gu, '').trim() || 'job'}.json`
    })
    link.click()
    setTimeout(() => URL.revokeObjectURL(link.href), 1000)
}

function Head({ document, job, counted, whole, problem }) {
    const [dialog, setDialog] = useState(false)
    const { verdicts: wanted } = useStore(choice)
    const toggle = (verdict) => choice.set({ verdicts: wanted.includes(verdict) ? wanted.filter((each) => each !== verdict) : [...wanted, verdict] })
    const questions = whole?.questions.length ?? 0
    return html`<div class="points-head stack">
        <div class="spread"><h1>${document.title || 'Job without a title'}</h1><div class="row">
            ${questions > 0 && html`<a class="button" href=${addressOf(job, 'questions')}><${Icon} name="question" />${questions} to ask</a>`}
            <a class="button" href=${addressOf(job, 'print')}><${Icon} name="print" />Schedule</a>
            <button onClick=${() => saveFile(document)}><${Icon} name="save" />Save a file</button>
            <button onClick=${() => setDialog(true)}>Job</button></div></div>
        ${problem && html`<p class="field-fault" role="alert">${problem.problem}. ${problem.remedy}</p>`}
        ${whole?.packs.map(({ id, notice }) => notice && html`<p key=${id} class="small"><strong>${notice}</strong></p>`)}
        ${whole?.problems.length > 0 && html`<details class="small"><summary class="field-fault">${whole.problems.length} things in the document are not understood</summary><ul>${whole.problems.slice(0, 50).map((each) => html`<li key=${each.pointer}>${each.problem}. ${each.remedy} <span class="quiet">${each.pointer}</span></li>`)}</ul></details>`}
        <div class="row" role="group" aria-label="Show only">${verdicts.map((verdict) => html`<button key=${verdict} class="points-count" aria-pressed=${wanted.includes(verdict)} onClick=${() => toggle(verdict)}><${Verdict} verdict=${verdict} count=${counted[verdict]} /></button>`)}</div>
        ${dialog && html`<${JobDialog} document=${document} close=${() => setDialog(false)} />`}
    </div>`
}

// --- places ---------------------------------------------------------------------------------------------------------

function Places({ document, job, sums, wide }) {
    const { place } = useStore(choice)
    const [adding, setAdding] = useState(false)
    return html`<nav class="points-places" aria-label="Places"><details open=${wide}>
        <summary><h2>Places</h2><span class="quiet small">${document.places.length}</span></summary>
        <div class="spread"><span class="small quiet">Tap one to see its points alone.</span><button onClick=${() => setAdding(true)}><${Icon} name="add" />Place</button></div>
        <ul>
            ${document.places.map((each) => { const sum = sums.get(each.id)
                return html`<li key=${each.id} class=${`points-place ${place === each.id ? 'points-place-chosen' : ''}`}>
                    <button class="plain points-place-name" aria-pressed=${place === each.id} onClick=${() => choice.set({ place: place === each.id ? '' : each.id })}>
                        <span>${each.name || each.id}</span><span class="small quiet">${sum ? html`${sum.count}${sum.worst && html` <${Verdict} verdict=${sum.worst} />`}` : 'no points'}</span></button>
                    <a class="button plain" href=${addressOf(job, 'place', each.id)} aria-label=${`Survey of ${each.name || each.id}`}>Survey</a>
                </li>` })}
        </ul>
        ${adding && html`<${NewPlace} ...${{ document, job }} close=${() => setAdding(false)} />`}
    </details></nav>`
}

// --- points ---------------------------------------------------------------------------------------------------------

function Tools({ job, document }) {
    const { text, group, place } = useStore(choice)
    const add = () => {
        const { points } = session.get().document
        const last = place ? points.findLast((point) => point.place === place) : points[points.length - 1]
        const point = { id: freeId(points, 'P'), place: place || last?.place || document.places[0].id, name: '', kind: last?.kind ?? 'socket-outlet' }
        edit(`Add ${point.id}`, (now) => addPoint(now, point, last?.id))
        go(addressOf(job, 'point', point.id))
    }
    const next = () => {
        const { points } = session.get().document
        const { rows } = session.get()
        const open = points.find(({ id }) => rows.get(id) && rows.get(id).verdict !== 'fits')
        if (open) go(addressOf(job, 'point', open.id))
    }
    useActions([
        { name: 'add-point', label: 'Add a point', key: 'a', effect: add, enabled: () => document.places.length > 0 },
        { name: 'next-point', label: 'First point that does not fit', key: 'n', effect: next },
        { name: 'find', label: 'Find a point', key: '/', effect: () => window.document.getElementById('points-find').focus() }
    ])
    return html`<div class="points-tools row">
        <label class="search"><${Icon} name="search" /><span class="unseen">Find a point</span><input id="points-find" type="search" placeholder="Find a point" value=${text} onInput=${(event) => choice.set({ text: event.target.value })} /></label>
        <label><span class="unseen">Grouped</span><select class="points-group" value=${group} onChange=${(event) => choice.set({ group: event.target.value })}>${GROUPS.map(({ word, label }) => html`<option key=${word} value=${word}>${label}</option>`)}</select></label>
        <button class="primary" disabled=${!document.places.length} onClick=${add}><${Icon} name="add" />Point</button>
    </div>`
}

function Columns() {
    const { sort, down } = useStore(choice)
    const press = (key) => choice.set(sort === key ? (down ? { sort: '', down: false } : { down: true }) : { sort: key, down: false })
    return html`<div class="points-row points-columns" role="row"><span role="columnheader"><span class="unseen">Chosen</span></span>${COLUMNS.map(([key, label]) => html`<span key=${key} role="columnheader" aria-sort=${sort === key ? (down ? 'descending' : 'ascending') : 'none'}>
        <button class="plain small" onClick=${() => press(key)}>${label}${sort === key ? (down ? ' ▾' : ' ▴') : ''}</button></span>`)}</div>`
}

function Point({ entry, chosen, choose, wide }) {
    const { point, row } = entry
    const what = point.name || labelOf(point.kind)
    const box = html`<label class="points-choose" role="gridcell"><input type="checkbox" tabindex="-1" aria-label=${`Choose ${point.id}`} checked=${chosen} onClick=${(event) => choose(entry, event.shiftKey)} /></label>`
    const verdict = html`<span role="gridcell">${row ? html`<${Verdict} verdict=${row.verdict} />` : html`<span class="quiet">…</span>`}</span>`
    if (!wide) return html`<div class="points-card">${box}${verdict}<strong role="gridcell" class="points-cut">${point.id} ${what}</strong>
        <span role="gridcell" class="points-need"><span class="code">${row?.needed ?? ''}</span><span class="quiet"> needed, marked </span><span class="code">${row?.marked ?? 'nothing'}</span></span></div>`
    return html`<div class="points-row">${box}${verdict}<strong role="gridcell" class="points-cut">${point.id}</strong>
        <span role="gridcell" class="points-cut">${what}${point.count > 1 && html`<span class="quiet">, ${point.count} alike</span>`}</span>
        <span role="gridcell" class="points-code"><${Rungs} needed=${row?.needed} shown=${row?.shown} /><span class="code points-cut">${row?.needed ?? ''}</span></span>
        <span role="gridcell" class="code points-cut">${row?.marked ?? ''}</span>
        <span role="gridcell" class="points-cut quiet" title=${row?.deciding}>${row?.deciding ?? ''}</span></div>`
}

function Heading({ item }) {
    return html`<span role="gridcell" class="row">${item.group === 'verdict' ? html`<${Verdict} verdict=${item.head} />` : item.head}<span class="quiet small">${item.count}</span></span>`
}

function Empty({ document }) {
    if (!document.places.length) return html`<div class="sheet stack measure"><h2>Begin with a place</h2><p>A place is whatever shares its surroundings: a room, a yard, a jetty. What is there decides what every point in it needs. Add one at “Places”.</p></div>`
    if (!document.points.length) return html`<div class="sheet stack measure"><h2>No points yet</h2><p>A point is whatever electrical needs an answer: a socket, a light, a box. Add one, or survey a place first to see what it asks for.</p></div>`
    return html`<div class="sheet"><p>No point is like that. <button class="plain" onClick=${() => choice.set({ text: '', verdicts: [], place: '' })}>Show all</button></p></div>`
}

// A range with shift, from the last one chosen.
function useChosen(items) {
    const [chosen, setChosen] = useState(new Set())
    const [last, setLast] = useState(null)
    const choose = ({ point }, range) => {
        const next = new Set(chosen)
        const on = !chosen.has(point.id)
        const ids = items.filter((item) => item.point).map((item) => item.point.id)
        const [a, b] = [ids.indexOf(last), ids.indexOf(point.id)].sort((x, y) => x - y)
        for (const id of range && a >= 0 ? ids.slice(a, b + 1) : [point.id]) if (on) next.add(id); else next.delete(id)
        setChosen(next)
        setLast(point.id)
    }
    return { chosen, setChosen, choose }
}

export function PointsView({ job }) {
    const { document, rows, whole, problem } = useStore(session)
    const chosenView = useStore(choice)
    if (chosenView.job !== job) choice.set({ ...START, job })
    const wide = useWide('(min-width: 62rem)')
    const placeNames = useMemo(() => new Map(document.places.map(({ id, name }) => [id, name || id])), [document.places])
    const items = useMemo(() => listOf({ points: document.points, rows, placeNames }, chosenView), [document.points, rows, placeNames, chosenView])
    const counted = useMemo(() => countVerdicts(document.points, rows), [document.points, rows])
    const sums = useMemo(() => placeSums(document.points, rows), [document.points, rows])
    const { chosen, setChosen, choose } = useChosen(items)
    const open = ({ point }) => go(addressOf(job, 'point', point.id))
    return html`<div class="points">
        <${Head} ...${{ document, job, counted, whole, problem }} />
        <${Places} ...${{ document, job, sums }} wide=${wide || !document.places.length} />
        <section class="points-list" aria-label="Points">
            <${Tools} ...${{ job, document }} />
            ${chosen.size > 0 && html`<${Bulk} ...${{ chosen, setChosen, items, document }} />`}
            ${items.length ? html`<${Grid} label="Points" items=${items} height=${wide ? ROW_WIDE : ROW_NARROW} keyOf=${(item) => item.point?.id} open=${open} toggle=${choose}
                head=${wide && html`<${Columns} />`} row=${(item) => (item.point ? html`<${Point} entry=${item} chosen=${chosen.has(item.point.id)} ...${{ choose, wide }} />` : html`<${Heading} item=${item} />`)} />` : html`<${Empty} document=${document} />`}
        </section>
    </div>`
}
