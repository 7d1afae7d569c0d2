// SPDX-License-Identifier: MIT
//
// One point: the answer, and all that can be said of it, in folded sections. What an open rule waits for stands open.

import { labelOf, vocabulary } from '../core/rules.js'
import { html, useMemo } from '../html.js'
import { ChoiceField, NumberField, TextField } from '../parts/field.js'
import { Form } from '../parts/form.js'
import { Icon } from '../parts/icons.js'
import { Picker } from '../parts/picker.js'
import { Words } from '../parts/words.js'
import { ActionButton, useActions } from '../state/actions.js'
import { addPoint, freeId, placeOf, pointOf, withKey, withoutPoints, withPoint, withWord } from '../state/document.js'
import { addressOf, go } from '../state/route.js'
import { edit, fullFinding, session } from '../state/session.js'
import { useStore } from '../state/store.js'
import { PointAnswer } from './point-answer.js'
import { SECTIONS } from './point-fields.js'
import { Marks, marksSum } from './point-marks.js'

const wordsOf = (list) => (Array.isArray(list) ? list.map((each) => each?.word ?? each) : [])

function Section({ label, sum, open, wanted, children }) {
    return html`<details class="group sheet" open=${open}><summary><h2>${label}</h2><span class=${`group-sum small ${wanted ? 'group-open' : 'quiet'}`}>${wanted ? 'something is missing here' : sum}</span></summary>
        <div class="stack">${children}</div></details>`
}

function Basics({ document, point, change }) {
    const places = document.places.map(({ id, name }) => ({ word: id, label: name || id }))
    return html`<div class="point-basics sheet form">
        <${TextField} label="Name" value=${point.name} give=${(name) => change('Name', (owner) => withKey(owner, 'name', name))} />
        <${Picker} label="What it is" value=${point.kind} words=${vocabulary.kind} give=${(kind) => change('Kind', (owner) => ({ ...owner, kind }))} />
        <${ChoiceField} label="Place" value=${point.place} choices=${places} give=${(place) => change('Place', (owner) => ({ ...owner, place }))} />
        <${NumberField} label="How many alike" value=${point.count} least=${1} give=${(count) => change('Count', (owner) => withKey(owner, 'count', count))} />
    </div>`
}

// Zones are stated only where no plan tells them.
function Zone({ place, point, change }) {
    const zones = vocabulary.place.find(({ word }) => word === place?.kind)?.zones
    if (!zones || (place.plan && point.at_m)) return null
    return html`<fieldset class="stack"><legend><strong>Zone, read off on site</strong></legend><div class="row">${zones.map((zone) => html`<button key=${zone} aria-pressed=${point.zone_stated === zone}
        onClick=${() => change('Zone', (owner) => withKey(owner, 'zone_stated', owner.zone_stated === zone ? undefined : zone))}>${/^\d/.test(zone) ? `zone ${zone}` : zone}</button>`)}</div></fieldset>`
}

function Position({ point, change }) {
    const at = Array.isArray(point.at_m) ? point.at_m : []
    const give = (index) => (value) => change('Position', (owner) => {
        const next = [0, 1, 2].map((i) => (i === index ? value : owner.at_m?.[i]) ?? null)
        return withKey(owner, 'at_m', next.every((each) => each === null) ? undefined : next)
    })
    return html`<div class="form">${['Position x', 'Position y', 'Position z'].map((label, index) => html`<${NumberField} key=${label} label=${label} unit="m" value=${at[index] ?? undefined} give=${give(index)} />`)}</div>`
}

function Seen({ point, change }) {
    return html`<div class="stack">
        <p class="quiet small">Only what differs at this very spot from its place.</p>
        <${Words} label="Seen here" value=${wordsOf(point.seen)} words=${vocabulary.seen} give=${(list) => change('Seen', (owner) => diff(owner, 'seen', wordsOf(owner.seen), list ?? []))} />
        <${Words} label="Looked for and not here" value=${wordsOf(point.absent)} words=${[...vocabulary.seen, ...GROUP_WORDS]} give=${(list) => change('Not here', (owner) => diff(owner, 'absent', wordsOf(owner.absent), list ?? []))} />
    </div>`
}

const GROUP_WORDS = [['water', 'Water, none at all'], ['dust', 'Dust, none at all'], ['blows', 'Blows, none at all']].map(([word, label]) => ({ word, label }))

// The same change word by word, so that figures stay with their word.
const diff = (owner, state, before, after) => [
    ...before.filter((word) => !after.includes(word)).map((word) => [word, '']),
    ...after.filter((word) => !before.includes(word)).map((word) => [word, state])
].reduce((now, [word, how]) => withWord(now, word, how), owner)

function General({ section, point, change }) {
    const value = section.inside ? point[section.inside] ?? {} : point
    const give = (key, next, label) => change(label, (owner) => {
        if (!section.inside) return withKey(owner, key, next)
        const inner = withKey(owner[section.inside] ?? {}, key, next)
        return withKey(owner, section.inside, Object.keys(inner).length ? inner : undefined)
    })
    return html`${section.fields && html`<${Form} fields=${section.fields} value=${value} give=${give} />`}
        ${section.lists?.map((list) => html`<${Words} key=${list.key} label=${list.label} value=${value[list.key]} words=${list.words} give=${(next) => give(list.key, next, list.label)} />`)}`
}

function sumOf(section, point) {
    const value = section.inside ? point[section.inside] : point
    const told = [...(section.fields ?? []), ...(section.lists ?? [])].filter(({ key }) => value?.[key] !== undefined)
    return told.map(({ key, label, unit }) => (typeof value[key] === 'object' ? label : `${label} ${value[key] === true ? 'yes' : value[key] === false ? 'no' : value[key]}${unit ? ` ${unit}` : ''}`)).join(', ')
}

function Entries({ document, point, finding, change }) {
    const place = placeOf(document, point.place)
    const missing = finding?.open.map((reason) => reason.missing ?? '') ?? []
    const isWanted = (section) => missing.some((fact) => section.missing.some((start) => fact.startsWith(start)))
    return html`<div class="stack">
        <${Basics} ...${{ document, point, change }} />
        <${Section} label="Marked" sum=${marksSum(point)} open=${true}><${Marks} ...${{ point, change }} /><//>
        ${SECTIONS.map((section) => html`<${Section} key=${section.name} label=${section.label} sum=${sumOf(section, point)} wanted=${isWanted(section)} open=${isWanted(section)}>
            ${section.name === 'where' && html`<${Zone} ...${{ place, point, change }} /><${Position} ...${{ point, change }} />`}
            <${General} ...${{ section, point, change }} /><//>`)}
        <${Section} label="Seen at this very spot" sum=${[...wordsOf(point.seen).map(labelOf), ...wordsOf(point.absent).map((word) => `no ${labelOf(word).toLowerCase()}`)].join(', ')}><${Seen} ...${{ point, change }} /><//>
    </div>`
}

function usePointActions(job, id) {
    const list = useMemo(() => [
        { name: 'copy-point', label: 'Copy', icon: 'copy', key: 'c', effect: () => {
            const { document } = session.get()
            const copy = { ...withKey(pointOf(document, id), 'found', undefined), id: freeId(document.points, 'P') }
            edit(`Copy ${id}`, (now) => addPoint(now, copy, id))
            go(addressOf(job, 'point', copy.id))
        } },
        { name: 'remove-point', label: 'Remove', icon: 'remove', effect: () => {
            edit(`Remove ${id}`, (now) => withoutPoints(now, new Set([id])))
            go(addressOf(job))
        } },
        ...[['previous-point', 'Back one', 'back', 'p', -1], ['next-point', 'Next point', 'forward', 'n', 1]].map(([name, label, icon, key, step]) => ({
            name, label, icon, key, effect: () => {
                const { points } = session.get().document
                const next = points[points.findIndex((point) => point.id === id) + step]
                go(next ? addressOf(job, 'point', next.id) : addressOf(job))
            } }))
    ], [job, id])
    useActions(list)
    return list
}

export function PointView({ job, id }) {
    const document = useStore(session, (state) => state.document)
    const point = pointOf(document, id)
    const finding = useMemo(() => point && fullFinding(id), [document, id])
    const [copy, remove, previous, next] = usePointActions(job, id)
    if (!point) return html`<div class="sheet stack measure"><h1>No such point</h1><p><a class="button" href=${addressOf(job)}>The job</a></p></div>`
    const change = (label, how) => edit(`${label} of ${id}`, (now) => withPoint(now, id, how))
    const place = placeOf(document, point.place)
    return html`<div class="point">
        <div class="spread point-head"><div><h1>${id} ${point.name}</h1>${place && html`<a href=${addressOf(job, 'place', place.id)}>${place.name || place.id}</a>`}</div>
            <div class="row"><${ActionButton} action=${previous} wordless /><${ActionButton} action=${next} /><${ActionButton} action=${copy} /><${ActionButton} action=${remove} look="danger" wordless /></div></div>
        <${PointAnswer} ...${{ finding, job, id }} />
        <${Entries} ...${{ document, point, finding, change }} />
    </div>`
}
