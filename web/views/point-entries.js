// SPDX-License-Identifier: MIT
//
// What is entered of a point, in folded sections in the order in which people need them. A section that could settle an
// open rule stands open and says so, and stays open once it is.

import { labelOf, vocabulary } from '../core/rules.js'
import { html, useRef } from '../html.js'
import { ChoiceField, NumberField, TextField } from '../parts/field.js'
import { Form } from '../parts/form.js'
import { Icon } from '../parts/icons.js'
import { Picker } from '../parts/picker.js'
import { Words } from '../parts/words.js'
import { placeOf, withKey, withWord } from '../state/document.js'
import { addressOf } from '../state/route.js'
import { SECTIONS } from './point-fields.js'
import { Marks, marksSum } from './point-marks.js'

const wordsOf = (list) => (Array.isArray(list) ? list.map((each) => each?.word ?? each) : [])

function Section({ label, sum, open, wanted, children }) {
    const opened = useRef(open)
    opened.current ||= open
    return html`<details class="point-section sheet" open=${opened.current}><summary><h2>${label}</h2>
        <span class=${`point-sum small ${wanted ? 'point-wanted' : 'quiet'}`}>${wanted ? 'a fact is missing' : sum}</span><${Icon} name="down" /></summary>
        <div class="stack">${children}</div></details>`
}

function Basics({ document, point, change }) {
    const places = document.places.map(({ id, name }) => ({ word: id, label: name || id }))
    return html`<div class="sheet form point-basics">
        <${TextField} label="Name" value=${point.name} give=${(name) => change('Name', (owner) => withKey(owner, 'name', name))} />
        <${Picker} label="What it is" value=${point.kind} words=${vocabulary.kind} give=${(kind) => change('Kind', (owner) => ({ ...owner, kind }))} />
        <${ChoiceField} label="Place" value=${point.place} choices=${places} give=${(place) => change('Place', (owner) => ({ ...owner, place }))} />
        <${NumberField} label="How many alike" value=${point.count} least=${1} most=${100000} give=${(count) => change('Count', (owner) => withKey(owner, 'count', count))} />
    </div>`
}

// --- where it is ----------------------------------------------------------------------------------------------------

// Zones are stated only where no plan tells them.
function Zone({ place, point, change }) {
    const zones = vocabulary.place.find(({ word }) => word === place?.kind)?.zones
    if (!zones || (place.plan && point.at_m)) return null
    return html`<fieldset class="toggles"><legend class="small">Zone, read off on site</legend>${zones.map((zone) => html`<button key=${zone} aria-pressed=${point.zone_stated === zone}
        onClick=${() => change('Zone', (owner) => withKey(owner, 'zone_stated', owner.zone_stated === zone ? undefined : zone))}>${/^\d/.test(zone) ? `zone ${zone}` : zone}</button>`)}</fieldset>`
}

// Three lengths under one key; taken away when all three are empty.
function Triple({ name, label, ends, point, change, least }) {
    const value = Array.isArray(point[name]) ? point[name] : []
    const give = (index) => (length) => change(label, (owner) => {
        const next = [0, 1, 2].map((i) => (i === index ? length : owner[name]?.[i]) ?? null)
        return withKey(owner, name, next.every((each) => each === null) ? undefined : next)
    })
    return html`<fieldset class="point-triple"><legend class="small">${label}</legend>${ends.map((end, index) => html`<${NumberField} key=${end} label=${end} unit="m" least=${least} value=${value[index] ?? undefined} give=${give(index)} />`)}</fieldset>`
}

function Position({ job, place, point, change }) {
    return html`
        ${place?.plan && html`<p><a class="button" href=${addressOf(job, 'place', place.id, 'plan')}><${Icon} name="plan" />${point.at_m ? 'On the plan' : 'Put it on the plan'}</a></p>`}
        <${Triple} name="at_m" label="Position" ends=${['x', 'y', 'above floor']} ...${{ point, change }} />
        <${Triple} name="size_m" label="Size" ends=${['along x', 'along y', 'upwards']} least=${0} ...${{ point, change }} />`
}

// --- what was seen at this spot -------------------------------------------------------------------------------------

const NONE_WORDS = [['water', 'Water, none at all'], ['dust', 'Dust, none at all'], ['blows', 'Blows, none at all']].map(([word, label]) => ({ word, label }))

// The same change word by word, so that figures stay with their word.
const wordByWord = (owner, state, before, after) => [
    ...before.filter((word) => !after.includes(word)).map((word) => [word, '']),
    ...after.filter((word) => !before.includes(word)).map((word) => [word, state])
].reduce((now, [word, how]) => withWord(now, word, how), owner)

function Seen({ job, place, point, change }) {
    return html`<p class="quiet small">Only what differs at this very spot from ${place ? html`<a href=${addressOf(job, 'place', place.id)}>its place</a>` : 'its place'}.</p>
        <${Words} label="Seen here" value=${wordsOf(point.seen)} words=${vocabulary.seen} give=${(list) => change('Seen', (owner) => wordByWord(owner, 'seen', wordsOf(owner.seen), list ?? []))} />
        <${Words} label="Looked for and not here" value=${wordsOf(point.absent)} words=${[...vocabulary.seen, ...NONE_WORDS]} give=${(list) => change('Not here', (owner) => wordByWord(owner, 'absent', wordsOf(owner.absent), list ?? []))} />`
}

// --- sections out of lists ------------------------------------------------------------------------------------------

const FEW = 8 // so many words are shown all, more are found by typing

function Toggles({ label, value, words, give }) {
    const list = Array.isArray(value) ? value : []
    const strange = list.filter((word) => !words.some((each) => each.word === word)).map((word) => ({ word, label: `${word} (not known)` }))
    return html`<fieldset class="toggles"><legend class="small">${label}</legend>${[...words, ...strange].map((each) => html`<button key=${each.word} aria-pressed=${list.includes(each.word)}
        onClick=${() => give(list.includes(each.word) ? list.filter((word) => word !== each.word) : [...list, each.word])}>${each.label}</button>`)}</fieldset>`
}

const isAlike = (a, b) => Object.keys({ ...a, ...b }).every((key) => a[key] === b[key])

// Whole answers to a section, each in one tap.
function Common({ section, value, change }) {
    return html`<div class="row">${section.common.map((each) => html`<button key=${each.label} aria-pressed=${isAlike(value, each.value)}
        onClick=${() => change(section.label, (owner) => ({ ...owner, [section.inside]: each.value }))}>${each.label}</button>`)}</div>`
}

function General({ section, point, change }) {
    const value = section.inside ? point[section.inside] ?? {} : point
    const give = (key, next, label) => change(label, (owner) => {
        if (!section.inside) return withKey(owner, key, next)
        const inner = withKey(owner[section.inside] ?? {}, key, next)
        return withKey(owner, section.inside, Object.keys(inner).length ? inner : undefined)
    })
    return html`${section.common && html`<${Common} ...${{ section, value, change }} />`}
        ${section.fields && html`<${Form} fields=${section.fields} value=${value} give=${give} />`}
        ${section.lists?.map((list) => {
            const Chooser = list.words.length <= FEW ? Toggles : Words
            return html`<${Chooser} key=${list.key} label=${list.label} value=${value[list.key]} words=${list.words} give=${(next) => give(list.key, next, list.label)} />`
        })}`
}

const toldOf = (value, unit) => (value === true ? 'yes' : value === false ? 'no' : `${value}${unit ? ` ${unit}` : ''}`)

function sumOf(section, point) {
    const value = section.inside ? point[section.inside] : point
    const told = [...(section.fields ?? []), ...(section.lists ?? [])].filter(({ key }) => value?.[key] !== undefined)
    return told.map(({ key, label, unit, words }) => (Array.isArray(value[key]) ? (words ? value[key].map((word) => words.find((each) => each.word === word)?.label ?? word).join(', ') : label) : `${label} ${toldOf(value[key], unit)}`)).join('; ')
}

const seenSum = (point) => [...wordsOf(point.seen).map(labelOf), ...wordsOf(point.absent).map((word) => `no ${labelOf(word).toLowerCase()}`)].join(', ')

// The keys of what open rules and the remedy wait for: "height_m", "supply", "AD" …
const missingFacts = (finding) => new Set([...(finding?.remedy_keys ?? []), ...(finding?.open ?? []).flatMap((reason) => reason.missing_keys)])

const OF_PLACE = ['A', 'BA', 'seen', 'absent', 'depth_m', 'hours', 'temp_c', 'distance_m', 'setting', 'place.kind']
const OF_BOX = ['box.']

function Elsewhere({ job, point, place, facts }) {
    const any = (starts) => [...facts].some((fact) => starts.some((start) => fact.startsWith(start)))
    if (!any(OF_PLACE) && !any(OF_BOX)) return null
    return html`<p class="sheet row point-elsewhere"><span class="point-wanted small">a fact is missing</span>
        ${place && any(OF_PLACE) && html`<a class="button" href=${addressOf(job, 'place', place.id)}>Survey of ${place.name || place.id}</a>`}
        ${any(OF_BOX) && html`<a class="button" href=${addressOf(job, 'point', point.id, 'box')}><${Icon} name="box" />Box of ${point.id}</a>`}</p>`
}

export function Entries({ job, document, point, finding, change }) {
    const place = placeOf(document, point.place)
    const facts = missingFacts(finding)
    const isWanted = (section) => [...facts].some((fact) => section.missing.some((start) => fact.startsWith(start)))
    return html`<div class="point-entries">
        <${Basics} ...${{ document, point, change }} />
        <${Elsewhere} ...${{ job, point, place, facts }} />
        <${Section} label="Marked" sum=${marksSum(point)} open=${true}><${Marks} ...${{ point, change }} /><//>
        ${SECTIONS.map((section) => html`<${Section} key=${section.name} label=${section.label} sum=${sumOf(section, point)} wanted=${isWanted(section)} open=${isWanted(section)}>
            ${section.name === 'where' && html`<${Zone} ...${{ place, point, change }} />`}
            <${General} ...${{ section, point, change }} />
            ${section.name === 'where' && html`<${Position} ...${{ job, place, point, change }} />`}<//>`)}
        <${Section} label="Seen at this very spot" sum=${seenSum(point)}><${Seen} ...${{ job, place, point, change }} /><//>
    </div>`
}
