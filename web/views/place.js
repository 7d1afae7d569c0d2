// SPDX-License-Identifier: MIT
//
// Survey of a place: what is there, word by word, by hand on a ladder. Beside it what a point here would need, and why.

import { labelOf, vocabulary } from '../core/rules.js'
import { html, useState } from '../html.js'
import { ChoiceField, NumberField, TextField } from '../parts/field.js'
import { Icon } from '../parts/icons.js'
import { Picker } from '../parts/picker.js'
import { addPoint, freeId, hasSeen, isAbsent, placeOf, pointsAt, withKey, withoutPlace, withPlace, withWord } from '../state/document.js'
import { addressOf, go } from '../state/route.js'
import { edit, opened } from '../state/opened.js'
import { useStore } from '../state/store.js'
import { figuresOf } from '../state/document.js'
import { answered, groups, openGroups } from './place-answers.js'
import { PlaceNeed } from './place-need.js'

const QUANTITIES = { depth_m: ['Depth', 'm'], hours: ['Lasts', 'h'], distance_m: ['Distance', 'm'], bar: ['Pressure', 'bar'], temp_c: ['Temperature', '°C'] }

function WordToggle({ place, entry, change }) {
    const seen = hasSeen(place, entry.word)
    const absent = isAbsent(place, entry.word)
    const word = seen ? 'seen' : absent ? 'not there' : ''
    const press = () => change(`${entry.label}: ${seen ? 'not said' : 'seen'}`, (owner) => withWord(owner, entry.word, seen ? '' : 'seen'))
    const deny = () => change(`${entry.label}: ${absent ? 'not said' : 'not there'}`, (owner) => withWord(owner, entry.word, absent ? '' : 'absent'))
    return html`<li class=${`word ${seen ? 'word-seen' : ''} ${absent ? 'word-absent' : ''}`}>
        <button class="word-main" aria-pressed=${seen} onClick=${press} title=${entry.because}>
            <span class="word-box" aria-hidden="true"></span><span>${entry.label}${word && html`<span class="unseen">, ${word}</span>`}</span></button>
        <button class="word-not plain" aria-pressed=${absent} aria-label=${`${entry.label}: looked for and not there`} onClick=${deny}>not</button>
        ${seen && entry.quantities && html`<div class="word-figures">${entry.quantities.map((key) => html`<${NumberField} key=${key}
            label=${QUANTITIES[key]?.[0] ?? key} unit=${QUANTITIES[key]?.[1]} value=${figuresOf(place, entry.word)[key]} least=${0}
            give=${(value) => change(`${entry.label}, ${key}`, (owner) => withWord(owner, entry.word, 'seen', withKey(figuresOf(owner, entry.word), key, value)))} />`)}</div>`}
    </li>`
}

function Group({ group, place, change, open, openNext }) {
    const words = vocabulary.seen.filter((entry) => entry.group === group.word)
    const said = words.filter(({ word }) => hasSeen(place, word))
    const none = isAbsent(place, group.word)
    const [all, setAll] = useState(false)
    const shown = all || words.length <= 14 ? words : words.filter((entry, index) => index < 12 || hasSeen(place, entry.word) || isAbsent(place, entry.word))
    const sum = none ? `none of it here` : said.length ? said.map(({ label }) => label).join('; ') : place.seen === 'none' ? 'nothing beyond its kind' : 'not answered yet'
    const pressNone = () => {
        change(`${group.label}: ${none ? 'not said' : 'none'}`, (owner) => withWord(owner, group.word, none ? '' : 'absent'))
        if (!none) openNext()
    }
    return html`<details class="group sheet" open=${open} id=${`group-${group.word}`}>
        <summary><${Icon} name=${group.icon} /><h2>${group.label}</h2>
            <span class=${`group-sum small ${answered(place, group.word) || group.word === 'rest' ? 'quiet' : 'group-open'}`}>${sum}</span></summary>
        <div class="stack">
            ${group.none && html`<button class="group-none" aria-pressed=${none} onClick=${pressNone}>${group.none}</button>`}
            ${(!none || said.length > 0) && html`<ul class="words">${shown.map((entry) => html`<${WordToggle} key=${entry.word} ...${{ place, entry, change }} />`)}</ul>
            ${shown.length < words.length && html`<button class="plain" onClick=${() => setAll(true)}>${words.length - shown.length} more words<${Icon} name="down" /></button>`}`}
        </div>
    </details>`
}

function Found({ place, change, typed }) {
    const found = vocabulary.seen.filter(({ word, label, also = [] }) => [word, label, ...also].join(' ').toLowerCase().includes(typed.toLowerCase()))
    return html`<div class="sheet"><ul class="words">${found.map((entry) => html`<${WordToggle} key=${entry.word} ...${{ place, entry, change }} />`)}</ul>
        ${!found.length && html`<p class="quiet">No word for “${typed}”. Ask for what it does: does it splash, settle, hit, corrode?</p>`}</div>`
}

function Asked({ place, change }) {
    const asked = place.asked ?? {}
    const give = (key) => (value) => change(`Asked: ${key}`, (owner) => withKey(owner, 'asked', ((next) => (Object.keys(next).length ? next : undefined))(withKey(owner.asked ?? {}, key, value))))
    return html`<details class="group sheet"><summary><${Icon} name="person" /><h2>Asked for by a person</h2>
        <span class="group-sum small quiet">${asked.ip || asked.material || asked.impact_j ? [asked.ip, asked.ik, asked.material].filter(Boolean).join(', ') : 'nothing beyond the rules'}</span></summary>
        <div class="place-fields">
            <${TextField} label="IP code" value=${asked.ip} give=${give('ip')} />
            <${TextField} label="IK code" value=${asked.ik} give=${give('ik')} />
            <${NumberField} label="Impact" unit="J" value=${asked.impact_j} least=${0} give=${give('impact_j')} />
            <${TextField} label="Material" value=${asked.material} give=${give('material')} hint="for example: stainless 316 or GRP" />
            <${TextField} label="By whom" value=${asked.by} give=${give('by')} />
        </div></details>`
}

function Head({ place, points, change, job }) {
    const remove = () => {
        edit(`Remove ${place.name || place.id} and its points`, (document) => withoutPlace(document, place.id))
        go(addressOf(job))
    }
    return html`<details class="group sheet" open=${!place.name}><summary><${Icon} name="other" /><h2>The place</h2>
        <span class="group-sum small quiet">${labelOf(place.kind)}, ${labelOf(place.setting)?.toLowerCase()}</span></summary>
        <div class="place-fields">
            <${TextField} label="Name" value=${place.name} give=${(name) => change('Name', (owner) => withKey(owner, 'name', name))} />
            <${Picker} label="What it is" value=${place.kind} words=${vocabulary.place} give=${(kind) => change('Kind', (owner) => ({ ...owner, kind }))} />
            <${ChoiceField} label="Setting" value=${place.setting} choices=${vocabulary.setting} give=${(setting) => change('Setting', (owner) => ({ ...owner, setting }))} />
            <button class="danger" onClick=${remove}><${Icon} name="remove" />Remove it${points.length ? ` and its ${points.length} points` : ''}</button>
        </div></details>`
}

export function PlaceView({ job, id }) {
    const document = useStore(opened, (state) => state.document)
    const place = placeOf(document, id)
    const [typed, setTyped] = useState('')
    const [isOpen, setOpen] = useState(() => place && openGroups(place))
    if (!place) return html`<div class="sheet stack measure"><h1>No such place</h1><p><a class="button" href=${addressOf(job)}>The job</a></p></div>`
    const points = pointsAt(document, id)
    const change = (label, how) => edit(`${label} (${place.name || place.id})`, (now) => withPlace(now, id, how))
    const zoned = vocabulary.place.find(({ word }) => word === place.kind)?.zones || place.plan
    const begin = () => {
        const last = points[points.length - 1]
        const point = { id: freeId(document.points, 'P'), place: id, name: '', kind: last?.kind ?? 'accessory' }
        edit(`Add ${point.id}`, (now) => addPoint(now, point, last?.id))
        go(addressOf(job, 'point', point.id))
    }
    return html`<div class="place">
        <div class="place-survey stack">
            <div class="spread"><h1>${place.name || place.id}</h1>
                <div class="row">
                    ${zoned && place.plan && html`<a class="button" href=${addressOf(job, 'place', id, 'plan')}><${Icon} name="plan" />Plan</a>`}
                    <button onClick=${begin}><${Icon} name="add" />Point</button></div></div>
            ${zoned && !place.plan && html`<div class="sheet stack"><p class="measure">Here it counts how far a point stands from the bath, shower or pool. Draw the plan and put the points in, or state each point's zone.</p>
                <p><a class="button primary" href=${addressOf(job, 'place', id, 'plan')}><${Icon} name="plan" />Draw the plan</a></p></div>`}
            <p class="quiet small measure">Tap what is there. “Not”: looked for, and it is not there.</p>
            <label class="search"><${Icon} name="search" /><span class="unseen">Find a word</span>
                <input type="search" placeholder="Find: hose, straw, horses …" value=${typed} onInput=${(event) => setTyped(event.target.value)} /></label>
            ${typed ? html`<${Found} ...${{ place, change, typed }} />` : html`
                <${Head} ...${{ place, points, change, job }} />
                ${groups.map((group) => html`<${Group} key=${group.word} ...${{ group, place, change }} open=${isOpen.has(group.word)} openNext=${() => setOpen(openGroups(placeOf(opened.get().document, id)))} />`)}
                <${Asked} ...${{ place, change }} />`}
        </div>
        <${PlaceNeed} ...${{ document, place, points, job }} />
    </div>`
}
