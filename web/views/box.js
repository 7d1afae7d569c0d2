// SPDX-License-Identifier: MIT
//
// The box of a point as installed: what each entry and opening leaves of the mark, how warm it becomes, what water does,
// and the drawing. Entered on the left, answered on the right at once.

import { core } from '../core/core.js'
import { html, useMemo, useState } from '../html.js'
import { Dialog } from '../parts/dialog.js'
import { NumberField } from '../parts/field.js'
import { Form } from '../parts/form.js'
import { Icon } from '../parts/icons.js'
import { Rungs } from '../parts/rungs.js'
import { Steps } from '../parts/steps.js'
import { Verdict } from '../parts/verdict.js'
import { documentText, pointOf, withKey, withPoint } from '../state/document.js'
import { jobAround } from '../state/judge.js'
import { addressOf } from '../state/route.js'
import { edit, fullFinding, rowOf, opened } from '../state/opened.js'
import { useStore } from '../state/store.js'
import { BODY, ENTRY, ENTRY_MORE, FACE, HEAT, HOLDS, OPENING, SIDES, WATER } from './box-fields.js'

const listOf = (value) => (Array.isArray(value) ? value : [])
const at = (list, index, change) => list.map((each, i) => (i === index ? change(each) : each))
const holdsLabel = (word) => HOLDS.find((each) => each.word === word)?.label ?? word ?? 'not said what sits in it'

function Outcome({ part }) {
    if (!part) return null
    return html`<div class="box-outcome"><${Verdict} verdict=${part.outcome} />
        <p>${part.why ?? 'Takes nothing away.'}${part.mend && html` <strong>${part.mend}</strong>`}</p>
        ${part.notes && listOf(part.notes).map((note) => html`<p key=${note} class="small quiet">${note}</p>`)}</div>`
}

function Entry({ entry, index, part, change, remove, copy }) {
    const give = (key, value, label) => change(`${label} of entry ${index + 1}`, (owner) => withKey(owner, key, value))
    return html`<details class="sheet box-part" open=${!entry.holds || undefined}>
        <summary>${part ? html`<${Verdict} verdict=${part.outcome} />` : html`<span></span>`}<strong>${entry.id ?? `Entry ${index + 1}`}: ${holdsLabel(entry.holds)}</strong>
            <span class="quiet small">${[entry.size, entry.face].filter(Boolean).join(', ')}</span></summary>
        <div class="stack">
            <${Outcome} part=${part} />
            <${Form} fields=${ENTRY} value=${entry} give=${give} />
            <details><summary>More of it</summary><${Form} fields=${ENTRY_MORE} value=${entry} give=${give} /></details>
            <div class="row"><button onClick=${copy}><${Icon} name="copy" />One more like it</button><button class="danger" onClick=${remove}><${Icon} name="remove" />Remove</button></div>
        </div></details>`
}

function Entries({ box, parts, change }) {
    const entries = listOf(box.entries)
    const set = (label, how) => change(label, (owner) => ({ ...owner, entries: how(listOf(owner.entries)) }))
    const add = () => set('Add an entry', (list) => [...list, { face: list[list.length - 1]?.face ?? 'bottom' }])
    return html`<section class="stack" aria-label="Entries"><h2>Entries</h2>
        <p class="quiet measure">Every hole that was made for something, blanks and fixing holes too. Only a whole list shows what is left of the mark.</p>
        ${entries.map((entry, index) => html`<${Entry} key=${index} ...${{ entry, index, part: parts[index] }}
            change=${(label, how) => set(label, (list) => at(list, index, how))}
            copy=${() => set(`One more like entry ${index + 1}`, (list) => list.toSpliced(index + 1, 0, withKey(entry, 'id', undefined)))}
            remove=${() => set(`Remove entry ${index + 1}`, (list) => list.toSpliced(index, 1))} />`)}
        <div class="row"><button class="primary" onClick=${add}><${Icon} name="add" />Entry</button>
            ${box.entries === undefined && html`<button onClick=${() => change('There are no entries', (owner) => ({ ...owner, entries: [] }))}>There are none</button>`}
            ${Array.isArray(box.entries) && !entries.length && html`<span class="quiet">No entries: the box is as it was made.</span>
                <button class="plain" onClick=${() => change('Entries not listed', ({ entries: _, ...owner }) => owner)}>Not so</button>`}</div>
    </section>`
}

function Opening({ opening, index, part, change, remove }) {
    return html`<div class="box-opening stack"><div class="spread"><h4>Opening ${index + 1}</h4><button class="plain" aria-label=${`Remove opening ${index + 1}`} onClick=${remove}><${Icon} name="remove" /></button></div>
        <${Outcome} part=${part} />
        <${Form} fields=${OPENING} value=${opening} give=${(key, value, label) => change(`${label} of an opening`, (owner) => withKey(owner, key, value))} /></div>`
}

function Face({ side, face, parts, change }) {
    const openings = listOf(face?.openings)
    const set = (label, how) => change(`${label} (${side})`, how)
    const setOpenings = (label, how) => set(label, (owner) => withKey(owner, 'openings', how(listOf(owner.openings))))
    const sum = face ? [face.reachable === true && 'in reach', face.covered && 'covered', openings.length && `${openings.length} openings`].filter(Boolean).join(', ') : 'nothing said'
    return html`<details class="sheet box-part"><summary><span></span><strong>${side}</strong><span class="quiet small">${sum}</span></summary>
        <div class="stack"><${Form} fields=${FACE} value=${face ?? {}} give=${(key, value, label) => set(label, (owner) => withKey(owner, key, value))} />
            ${openings.map((opening, index) => html`<${Opening} key=${index} ...${{ opening, index, part: parts[index] }}
                change=${(label, how) => setOpenings(label, (list) => at(list, index, how))} remove=${() => setOpenings('Remove an opening', (list) => list.toSpliced(index, 1))} />`)}
            <button onClick=${() => setOpenings('Add an opening', (list) => [...list, { shape: 'round' }])}><${Icon} name="add" />Gap or opening</button>
        </div></details>`
}

function Faces({ box, parts, change }) {
    const faces = listOf(box.faces)
    let before = listOf(box.entries).length
    const partsOf = new Map(faces.map((face) => [face, parts.slice(before, (before += listOf(face.openings).length))]))
    const changeFace = (side) => (label, how) => change(label, (owner) => {
        const list = listOf(owner.faces)
        const known = list.some(({ face }) => face === side)
        return { ...owner, faces: known ? list.map((each) => (each.face === side ? how(each) : each)) : [...list, how({ face: side })] }
    })
    return html`<section class="stack" aria-label="Faces"><h2>Faces and gaps</h2>
        ${SIDES.map((side) => { const face = faces.find((each) => each.face === side)
            return html`<${Face} key=${side} ...${{ side, face, parts: partsOf.get(face) ?? [] }} change=${changeFace(side)} />` })}</section>`
}

function Size({ box, change }) {
    const size = listOf(box.size_mm)
    const give = (index) => (value) => change('Size', (owner) => {
        const next = [0, 1, 2].map((i) => (i === index ? value : listOf(owner.size_mm)[i]) ?? null)
        return withKey(owner, 'size_mm', next.every((each) => each === null) ? undefined : next)
    })
    return html`<div class="form">${['Width', 'Height', 'Depth'].map((label, index) => html`<${NumberField} key=${label} label=${label} unit="mm" least=${1} value=${size[index] ?? undefined} give=${give(index)} />`)}</div>`
}

// What the day does inside: how warm, and whether water settles there.
function Day({ day }) {
    if (!day || !Number.isFinite(day.highest_c)) return null
    const water = day.wet_hours > 0 ? `wet for ${day.wet_hours} h, ${day.most_g} g at ${day.most_hour} h` : day.wet_hours === 0 ? 'no water settles' : ''
    return html`<div><dt>over the day</dt><dd>${[`${day.low_c} to ${day.high_c} °C at its warmest`, water].filter(Boolean).join('; ')}</dd></div>`
}

function Answer({ finding, point, document }) {
    const [drawing, setDrawing] = useState(false)
    if (!finding) return html`<aside class="box-answer sheet"><p>The job cannot be judged.</p></aside>`
    const steps = finding.calculation ?? []
    return html`<aside class="box-answer sheet stack" aria-live="polite">
        <${Verdict} verdict=${finding.verdict} large />
        <p>${finding.deciding}</p>${finding.remedy && html`<p><strong>${finding.remedy}</strong></p>`}
        <${Rungs} needed=${rowOf(finding).needed} shown=${finding.shown} form="figures" />
        <dl class="box-facts">
            <div><dt>marked</dt><dd class="code">${finding.marked ?? 'nothing'}</dd></div>
            <div><dt>installed</dt><dd class="code">${finding.installed ? finding.installed.code ?? 'no code is shown' : 'not known: entries are not listed'}</dd></div>
            ${finding.heat && html`<div><dt>inside</dt><dd>${finding.heat.low_c === null ? 'cannot be told yet' : `${finding.heat.low_c} to ${finding.heat.high_c} °C`}${finding.heat.limit_c !== null && `, limit ${finding.heat.limit_c} °C`}</dd></div>`}
            <${Day} day=${finding.day} />
        </dl>
        ${finding.remarks.map((remark) => html`<p key=${remark} class="small quiet">${remark}</p>`)}
        ${steps.length > 0 && html`<details><summary>Calculation, ${steps.length} steps</summary><${Steps} steps=${steps} /></details>`}
        <button onClick=${() => setDrawing(true)}><${Icon} name="box" />Drawing</button>
        ${drawing && html`<${Dialog} title=${`Box of ${point.id}`} close=${() => setDrawing(false)}><div class="box-drawing" dangerouslySetInnerHTML=${{ __html: core.drawBox(documentText(jobAround(document, [point])), point.id) }} /><//>`}
    </aside>`
}

// Open where something is stated already; else whoever needs it opens it.
function Fold({ label, fields, box, give }) {
    const stated = fields.filter(({ key }) => box[key] !== undefined)
    const [startOpen] = useState(stated.length > 0)
    return html`<details class="sheet box-part" open=${startOpen}><summary><h2>${label}</h2><span class="quiet small">${stated.length ? stated.map((field) => field.label).join(', ') : 'nothing stated'}</span></summary>
        <${Form} fields=${fields} value=${box} give=${give} /></details>`
}

export function BoxView({ job, id }) {
    const document = useStore(opened, (state) => state.document)
    const point = pointOf(document, id)
    const finding = useMemo(() => point && fullFinding(id), [document, id])
    if (!point) return html`<div class="sheet stack measure"><h1>No such point</h1><p><a class="button" href=${addressOf(job)}>The job</a></p></div>`
    const box = point.box ?? {}
    const change = (label, how) => edit(`${label}, ${id}`, (now) => withPoint(now, id, (owner) => {
        const next = how(owner.box ?? {})
        return withKey(owner, 'box', Object.keys(next).length ? next : undefined)
    }))
    const give = (key, value, label) => change(label, (owner) => withKey(owner, key, value))
    const parts = finding?.installed?.parts ?? []
    return html`<div class="box">
        <div class="spread box-head"><h1>Box of ${point.name || id}</h1><a class="button" href=${addressOf(job, 'point', id)}><${Icon} name="back" />The point</a></div>
        <div class="stack">
            <${Entries} ...${{ box, parts, change }} />
            <${Faces} ...${{ box, parts, change }} />
            <section class="stack" aria-label="Body"><h2>The box itself</h2><${Size} ...${{ box, change }} /><${Form} fields=${BODY} value=${box} give=${give} /></section>
            <${Fold} label="Heat" fields=${HEAT} ...${{ box, give }} />
            <${Fold} label="Sweating, suction, high water" fields=${WATER} ...${{ box, give }} />
        </div>
        <${Answer} ...${{ finding, point, document }} />
    </div>`
}
